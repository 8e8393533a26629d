"""Dip, hand height, clearances and lock offset derived again: the oar is placed, turned about its lock and solved for.

The oar is a rigid line in a plane athwartships, turned by SymPy's rotation matrix; what the blade must do in the water
is an equation in the turn, solved by number. No sine is written down here.

Edges of a square blade are taken half a width straight above and below its middle. To be exact they tilt with the
loom; the last test says how little that matters.
"""

import pytest
import sympy
from sympy import Matrix, nsolve
from sympy.abc import c, t

from oarkit.rig import height

LOCK = 0.302  # loom axis above the water [m]
SEAT = 0.081  # top of the seat above the water [m]
HAND_ARM, BLADE_ARM = 0.571, 1.383  # pin line to grip centre, pin line to mid-blade [m]
WIDTH, COVER, WAVE = 0.131, 0.020, 0.110  # blade width, water over it in the drive, clearance on the recovery [m]
FIST, THIGH, CLOTHING = 0.045, 0.157, 0.015  # half a fist, thigh, clothing [m]


def _place(arm, turn, lock=LOCK) -> Matrix:
    """Place of a point of the oar, its arm counted outboard, with the blade turned down: outboard and up of the pin."""
    return Matrix([0, lock]) + sympy.rot_axis3(turn)[:2, :2] * Matrix([arm, 0])


def _turn(blade_middle_height, lock=LOCK) -> float:
    """Turn that brings the middle of the blade to a height over the water."""
    return float(nsolve(_place(BLADE_ARM, t, lock)[1] - blade_middle_height, t, 0.1))


DRIVE = _turn(-(WIDTH / 2 + COVER))
RECOVERY = _turn(WAVE + WIDTH / 2)


def test_turning_down_is_positive():
    """The picture itself: a positive turn puts the blade below the lock and the hand above it."""
    assert _place(BLADE_ARM, 0.2)[1] < LOCK < _place(-HAND_ARM, 0.2)[1]


def test_dip_in_drive():
    """The top edge of a square blade is covered by 20 mm at mid-blade."""
    dip = height.dip_in_drive(lock_above_water=LOCK, blade_width=WIDTH, blade_arm=BLADE_ARM)
    assert dip == pytest.approx(DRIVE, rel=1e-9)


def test_dip_in_recovery():
    """The lower edge of a square blade is carried over the wave."""
    dip = height.dip_in_recovery(lock_above_water=LOCK, wave_clearance=WAVE, half_height=WIDTH / 2, blade_arm=BLADE_ARM)
    assert dip == pytest.approx(RECOVERY, rel=1e-9)


def test_dip_of_a_high_blade_is_negative():
    """A blade carried over a wave higher than the lock slopes upward."""
    high = _turn(0.35 + 0.005)
    dip = height.dip_in_recovery(lock_above_water=LOCK, wave_clearance=0.35, half_height=0.005, blade_arm=BLADE_ARM)
    assert high < 0
    assert dip == pytest.approx(high, rel=1e-9)


@pytest.mark.parametrize("turn", [DRIVE, RECOVERY, -0.05])
def test_hand_height(turn):
    """The hand goes where the turned oar takes it, counted from the seat."""
    found = height.hand_height(lock_above_seat=LOCK - SEAT, hand_arm=HAND_ARM, dip=turn)
    assert found == pytest.approx(float(_place(-HAND_ARM, turn)[1] - SEAT), rel=1e-12)


def test_thigh_clearance():
    """Between the underside of the fist and the clothed thigh."""
    hand = float(_place(-HAND_ARM, RECOVERY)[1])
    clear = (hand - FIST) - (SEAT + THIGH + CLOTHING)
    assert height.thigh_clearance(hand_height=hand - SEAT, thigh_thickness=THIGH) == pytest.approx(clear, rel=1e-12)


@pytest.mark.parametrize("half_height", [WIDTH / 2, 0.005])
def test_largest_wave(half_height):
    """At the largest wave the fist lies on the clothed thigh: wave and turn solved together."""
    touching = _place(-HAND_ARM, t)[1] - FIST - (SEAT + THIGH + CLOTHING)
    carried = _place(BLADE_ARM, t)[1] - half_height - c
    wave, _ = nsolve([touching, carried], [c, t], [0.1, 0.1])
    found = height.largest_wave(
        lock_above_water=LOCK, half_height=half_height, blade_arm=BLADE_ARM, hand_arm=HAND_ARM,
        lock_above_seat=LOCK - SEAT, thigh_thickness=THIGH,
    )  # fmt: skip
    assert found == pytest.approx(float(wave), rel=1e-9)


def test_overlap_in_drive():
    """Seen from above, the dipped handles overlap by as much as they reach past one another."""
    inboard, span = 0.631, 1.112
    port_handle = span / 2 + _place(-inboard, DRIVE)[0]
    starboard_handle = -port_handle
    found = height.overlap_in_drive(inboard=inboard, dip=DRIVE, span=span)
    assert found == pytest.approx(float(starboard_handle - port_handle), rel=1e-9)


def test_tip_below_mid_blade():
    """The tip of the turned oar lies lower than the middle of its blade."""
    blade_length = 0.563
    below = _place(BLADE_ARM, DRIVE)[1] - _place(BLADE_ARM + blade_length / 2, DRIVE)[1]
    assert height.tip_below_mid_blade(blade_length=blade_length, dip=DRIVE) == pytest.approx(float(below), rel=1e-12)


@pytest.mark.parametrize("blade_height", [-(WIDTH / 2 + COVER), WAVE + WIDTH / 2])
def test_lock_offset(blade_height):
    """Raising one lock, both blades at one depth, parts the hands as wanted, in drive and recovery alike."""
    apart, lift = 0.063, sympy.Symbol("lift")
    lower_hand = _place(-HAND_ARM, _turn(blade_height))[1]
    raised = _place(BLADE_ARM, t, LOCK + lift)[1] - blade_height
    parted = _place(-HAND_ARM, t, LOCK + lift)[1] - lower_hand - apart
    offset, _ = nsolve([raised, parted], [lift, t], [0.04, 0.2])
    found = height.lock_offset(hands_apart=apart, blade_arm=BLADE_ARM, hand_arm=HAND_ARM)
    assert found == pytest.approx(float(offset), rel=1e-9)


def test_tilt_of_the_blade_is_small():
    """Were the blade's width tilted with the loom, the drive's dip would be about a tenth of a degree less."""
    top_edge = _place(BLADE_ARM, t) + sympy.rot_axis3(t)[:2, :2] * Matrix([0, WIDTH / 2])
    exact = float(nsolve(top_edge[1] + COVER, t, 0.2))
    dip = height.dip_in_drive(lock_above_water=LOCK, blade_width=WIDTH, blade_arm=BLADE_ARM)
    assert 0 < dip - exact < float(sympy.rad(0.12))
