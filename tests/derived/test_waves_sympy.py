"""Waves, heel, lock blocks and blade arms derived again: from turned boats, and from `height` solved by number.

Every source here is plane geometry. A heeled boat is turned about the fore-and-aft line through the middle of its
waterline; what is said of it in closed form is of the first order in heel and dip, so the tests go to the limit with
SymPy, and tell what is left at ordinary angles.
"""

import math

import pytest
import sympy
from scipy.optimize import brentq
from sympy.abc import phi

from oarkit.rig import height, waves

LOCK, SEAT = 0.298, 0.079  # loom axis and top of the seat above the water [m]
OVER = LOCK - SEAT
HAND_ARM, BLADE_ARM, SPAN = 0.567, 1.392, 1.094  # [m]
WIDTH, WAVE, THIGH = 0.127, 0.108, 0.152  # [m]
FIST, CLOTHING = 0.045, 0.015  # half a fist, clothing [m]
EXACT = 1e-10  # closed forms against roots found to some twelve digits


def _clearance(*, lock=LOCK, over=OVER, blade_arm=BLADE_ARM, wave=WAVE, half=WIDTH / 2) -> float:
    """Thigh clearance by the functions of `height`, boat upright."""
    dip = height.dip_in_recovery(lock_above_water=lock, wave_clearance=wave, half_height=half, blade_arm=blade_arm)
    hand = height.hand_height(lock_above_seat=over, hand_arm=HAND_ARM, dip=dip)
    return float(height.thigh_clearance(hand_height=hand, thigh_thickness=THIGH))


def _in_drive(*, lock=LOCK, over=OVER, blade_arm=BLADE_ARM) -> tuple[float, float]:
    """Dip, and hand over the seat, in the drive."""
    dip = height.dip_in_drive(lock_above_water=lock, blade_width=WIDTH, blade_arm=blade_arm)
    return float(dip), float(height.hand_height(lock_above_seat=over, hand_arm=HAND_ARM, dip=dip))


# Heel: the boat turned, port side down, the blade's middle kept at its height over the water


def _fall(blade_middle, heel=phi, lock=LOCK):
    """Hand above the level of its own lock in the axes of the boat: upright less heeled."""
    turn = sympy.Matrix([[sympy.cos(heel), sympy.sin(heel)], [-sympy.sin(heel), sympy.cos(heel)]])
    pin = turn * sympy.Matrix([sympy.Rational(str(SPAN)) / 2, lock])
    upright = sympy.asin((lock - blade_middle) / BLADE_ARM)
    over_water = sympy.asin((pin[1] - blade_middle) / BLADE_ARM)  # slope of the loom against the water
    outboard = sympy.Matrix([sympy.cos(over_water), -sympy.sin(over_water)])
    hand = turn.T * (-HAND_ARM * outboard)  # from the pin, back in the axes of the boat
    return HAND_ARM * sympy.sin(upright) - hand[1]


def test_hand_fall_with_heel_to_the_first_order():
    """With the loom level the fall of the hand starts, per radian of heel, just as the turned boat has it."""
    slope = float(sympy.diff(_fall(LOCK), phi).subs(phi, 0))
    said = waves.hand_fall_with_heel(hand_arm=HAND_ARM, blade_arm=BLADE_ARM, span=SPAN, heel=1e-6) / 1e-6
    assert said == pytest.approx(slope, rel=1e-9)  # a sine of 1e-6 is 2e-13 short


@pytest.mark.parametrize("degrees", [1.0, 3.0, 6.0])
def test_hand_fall_at_ordinary_angles(degrees):
    """A boat that is really turned, blade carried over the wave, agrees within what the first order leaves out."""
    heel, middle = math.radians(degrees), WAVE + WIDTH / 2
    real = float(_fall(middle).subs(phi, heel))
    said = float(waves.hand_fall_with_heel(hand_arm=HAND_ARM, blade_arm=BLADE_ARM, span=SPAN, heel=heel))
    # Left out: the lock's own fall H (1 - cos) and the cosine of a dip of up to 10 degrees on the blade's share.
    rest = HAND_ARM / BLADE_ARM * LOCK * (1 - math.cos(heel)) + 0.015 * HAND_ARM * heel
    assert said == pytest.approx(real, abs=rest)
    assert rest < 0.05 * said


def test_heel_that_takes_a_clearance():
    """The heel at which the fall is the whole clearance, found by number."""
    clearance = _clearance()
    assert clearance > 0.01
    whole = brentq(
        lambda heel: (
            waves.hand_fall_with_heel(hand_arm=HAND_ARM, blade_arm=BLADE_ARM, span=SPAN, heel=heel) - clearance
        ),
        0.0, 0.5, xtol=1e-14,
    )  # fmt: skip
    arms = {"hand_arm": HAND_ARM, "blade_arm": BLADE_ARM, "span": SPAN}
    assert waves.heel_that_takes(clearance=clearance, **arms) == pytest.approx(whole, rel=EXACT)
    real = brentq(lambda heel: float(_fall(WAVE + WIDTH / 2).subs(phi, heel)) - clearance, 0.0, 0.3)
    assert waves.heel_that_takes(clearance=clearance, **arms) == pytest.approx(real, rel=0.05)  # as above
    assert waves.heel_that_takes(clearance=-0.01, **arms) == 0.0
    assert waves.heel_that_takes(clearance=2.0, **arms) == pytest.approx(math.pi / 2)


def _curve(wave=WAVE, heel=0.0, half=WIDTH / 2) -> float:
    return float(
        waves.clearance_in_waves(
            lock_above_water=LOCK, lock_above_seat=OVER, hand_arm=HAND_ARM, blade_arm=BLADE_ARM, span=SPAN,
            half_height=half, thigh_thickness=THIGH, wave=wave, heel=heel,
        )
    )  # fmt: skip


@pytest.mark.parametrize("wave", [0.0, 0.108, 0.26])
@pytest.mark.parametrize("half", [WIDTH / 2, 0.005])
def test_clearance_of_an_upright_boat(wave, half):
    """With no heel the curve is the thigh clearance of `height`, square and feathered."""
    assert _curve(wave=wave, half=half) == pytest.approx(_clearance(wave=wave, half=half), abs=1e-14)


@pytest.mark.parametrize("wave", [0.05, 0.17])
def test_clearance_of_a_heeled_boat(wave):
    """A heel takes off the curve what the turned boat's hand falls."""
    heel = math.radians(2.3)
    real = float(_fall(wave + WIDTH / 2).subs(phi, heel))
    # As above: the first order leaves out less than a twentieth of the fall.
    assert _clearance(wave=wave) - _curve(wave=wave, heel=heel) == pytest.approx(real, rel=0.05)


def test_the_curve_ends_at_the_largest_wave():
    """The curve crosses nil at the largest wave of `height`."""
    end = brentq(_curve, 0.0, 0.5, xtol=1e-14)
    largest = height.largest_wave(
        lock_above_water=LOCK, half_height=WIDTH / 2, blade_arm=BLADE_ARM, hand_arm=HAND_ARM, lock_above_seat=OVER,
        thigh_thickness=THIGH,
    )  # fmt: skip
    assert end == pytest.approx(largest, rel=EXACT)


def test_lock_block():
    """A block under the locks changes what `height` says of locks so much higher."""
    block = 0.031
    gain = waves.lock_block(
        block=block, lock_above_water=LOCK, blade_width=WIDTH, hand_arm=HAND_ARM, blade_arm=BLADE_ARM
    )
    raised = {"lock": LOCK + block, "over": OVER + block}
    assert gain.clearance == pytest.approx(_clearance(**raised) - _clearance(), rel=EXACT)
    dip, hand = _in_drive(**raised)
    assert gain.hand_in_drive == pytest.approx(hand - _in_drive()[1], rel=EXACT)
    assert gain.dip_in_drive == pytest.approx(dip, rel=EXACT)
    ends = [
        brentq(lambda wave, up=up: _clearance(lock=LOCK + up, over=OVER + up, wave=wave), 0.0, 0.6, xtol=1e-14)
        for up in (0.0, block)
    ]
    assert gain.largest_wave == pytest.approx(ends[1] - ends[0], rel=EXACT)


def _range(**changed):
    told = {"lock_above_water": LOCK, "lock_above_seat": OVER, "thigh_clearance": _clearance()} | changed
    return waves.lock_range(blade_width=WIDTH, hand_arm=HAND_ARM, blade_arm=BLADE_ARM, **told)


def test_lock_range():
    """Lowest by the thighs and highest by the dip: locks moved until 25 mm are left, or the dip is 20 degrees."""
    found = _range()
    low = brentq(lambda up: _clearance(lock=LOCK + up, over=OVER + up) - 0.025, -0.1, 0.1, xtol=1e-14)
    high = brentq(lambda up: _in_drive(lock=LOCK + up)[0] - math.radians(20), -0.1, 0.3, xtol=1e-14)
    assert found.thighs == pytest.approx(OVER + low, rel=EXACT)
    assert found.dip == pytest.approx(OVER + high, rel=EXACT)
    assert (found.lowest, found.highest) == (max(found.thighs, 0.127), min(found.dip, 0.3048))
    assert (found.custom_low, found.custom_high) == (0.127, 0.3048)  # 5 in and 12 in


def test_lock_range_set_by_custom():
    """Slender thighs, or a seat far below the locks, leave custom to set the bounds: 5 in and 12 in over the seat."""
    slender, low, high = _range(thigh_clearance=0.2), _range(lock_above_seat=0.250), _range(lock_above_seat=0.190)
    assert slender.thighs < slender.lowest == 0.127
    assert low.dip > low.highest == 0.3048
    assert high.highest == high.dip < 0.3048
    assert high.lowest == high.thighs > 0.127


@pytest.mark.parametrize("half", [WIDTH / 2, 0.005])
def test_longest_blade_arm(half):
    """The blade arm with which `height` leaves the hands nothing over the thighs, found by number."""
    over = 0.171  # low enough for the lever to matter
    whole = brentq(lambda arm: _clearance(over=over, blade_arm=arm, half=half), 0.5, 9.0, xtol=1e-13)
    found = waves.longest_blade_arm(
        hand_arm=HAND_ARM, lock_above_water=LOCK, wave_clearance=WAVE, half_height=half, thigh_thickness=THIGH,
        lock_above_seat=over,
    )  # fmt: skip
    assert found == pytest.approx(whole, rel=EXACT)


def test_blade_arm_without_bound():
    """Locks that stand over thigh, clothing and fist leave any blade arm; a wave over the locks leaves none."""
    told = {"hand_arm": HAND_ARM, "lock_above_water": LOCK, "half_height": WIDTH / 2, "thigh_thickness": THIGH}
    free = THIGH + FIST + CLOTHING
    assert waves.longest_blade_arm(wave_clearance=WAVE, lock_above_seat=free + 0.001, **told) == math.inf
    assert waves.longest_blade_arm(wave_clearance=WAVE, lock_above_seat=free - 0.001, **told) > 50
    assert waves.longest_blade_arm(wave_clearance=LOCK, lock_above_seat=0.15, **told) < 0


def test_blade_arm_for_hand():
    """The blade arm with which `height` has the hand where it is wanted in the drive, found by number."""
    whole = brentq(lambda arm: _in_drive(blade_arm=arm)[1] - 0.361, 0.5, 5.0, xtol=1e-13)
    told = {"hand_arm": HAND_ARM, "lock_above_water": LOCK, "blade_width": WIDTH, "lock_above_seat": OVER}
    assert waves.blade_arm_for_hand(hand_height=0.361, **told) == pytest.approx(whole, rel=EXACT)
    assert waves.blade_arm_for_hand(hand_height=OVER, **told) == math.inf
