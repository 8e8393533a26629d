"""What must hold for any rig: scaling, symmetry, limits, round trips, arrays like scalars."""

from dataclasses import fields
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oarkit.rig import arms, height
from oarkit.rig import split as rig_split
from oarkit.rig.split import Split, split
from oarkit.rig.station import Rig, rig_from_station
from oarkit.working import BadDesign

few = settings(max_examples=25, deadline=None, derandomize=True, database=None)

NAMES = ("span", "inboard", "outboard", "length", "overlap", "leverage_ratio")
SPAN, INBOARD, RATIO = st.floats(0.8, 1.8), st.floats(0.4, 1.2), st.floats(1.5, 4.0)
FACTOR = st.floats(0.1, 50)
LOCK, WIDTH, BLADE_ARM, HAND_ARM = st.floats(0.1, 0.5), st.floats(0.05, 0.2), st.floats(0.9, 3), st.floats(0.3, 1.2)


def _whole(span: float, inboard: float, ratio: float) -> Split:
    return split(span=span, inboard=inboard, leverage_ratio=ratio)


@few
@given(span=SPAN, inboard=INBOARD, ratio=RATIO, kept=st.sampled_from(list(combinations(NAMES, 3))))
def test_split_comes_back(span, inboard, ratio, kept):
    """Any three numbers of a split that suffice bring the other three back."""
    whole = _whole(span, inboard, ratio)
    try:
        again = split(**{name: getattr(whole, name) for name in kept})
    except BadDesign:
        # Three numbers suffice unless they hold all of one relation or leave the pins or the oar out.
        relations = [{"span", "inboard", "overlap"}, {"length", "outboard", "leverage_ratio"},
                     {"inboard", "length", "outboard"}, {"inboard", "length", "leverage_ratio"},
                     {"inboard", "outboard", "leverage_ratio"}]  # fmt: skip
        assert set(kept) in relations
    else:
        for name in NAMES:
            assert getattr(again, name) == pytest.approx(getattr(whole, name), rel=1e-9, abs=1e-9)


@few
@given(span=SPAN, inboard=INBOARD, ratio=RATIO, factor=FACTOR)
def test_split_scales(span, inboard, ratio, factor):
    """A picture drawn larger has larger lengths and the same leverage."""
    whole, larger = _whole(span, inboard, ratio), _whole(factor * span, factor * inboard, ratio)
    for name in NAMES[:-1]:
        assert getattr(larger, name) == pytest.approx(factor * getattr(whole, name), rel=1e-9, abs=1e-9)


@few
@given(inboard=INBOARD, hand=st.floats(0, 0.1), blade=st.floats(0.3, 0.7), ratio=RATIO)
def test_arms_fill_the_oar(inboard, hand, blade, ratio):
    """Grip centre, hand arm, blade arm and half the blade fill the length of the oar."""
    length = rig_split.length_from_ratio(inboard=inboard, ratio=ratio)
    outboard = rig_split.outboard_from_length(length=length, inboard=inboard)
    hand_arm = arms.hand_arm(inboard=inboard, grip_centre=hand)
    blade_arm = arms.blade_arm(outboard=outboard, blade_length=blade)
    assert hand + hand_arm + blade_arm + blade / 2 == pytest.approx(length)


@few
@given(length=st.floats(1.5, 4), step=st.sampled_from([0.001, 0.0254, 0.05, 0.1524]))
def test_rounding(length, step):
    """A rounded length is a whole number of steps, no further than half a step away."""
    rounded = float(rig_split.rounded_length(length=length, step=step))
    assert rounded / step == pytest.approx(round(rounded / step), abs=1e-9)
    assert abs(rounded - length) <= step / 2 + 1e-12
    assert float(rig_split.rounded_length(length=rounded, step=step)) == pytest.approx(rounded)


@few
@given(lock=LOCK, width=WIDTH, cover=st.floats(0, 0.05), arm=BLADE_ARM, factor=FACTOR)
def test_dip_keeps_under_scaling(lock, width, cover, arm, factor):
    """Angles do not change with the scale of the picture."""
    known = {"lock_above_water": lock, "blade_width": width, "cover": cover, "blade_arm": arm}
    larger = {name: factor * value for name, value in known.items()}
    assert height.dip_in_drive(**larger) == pytest.approx(height.dip_in_drive(**known), rel=1e-9)


@few
@given(lock=LOCK, half=st.floats(0.005, 0.09), arm=BLADE_ARM)
def test_level_oar(lock, half, arm):
    """A blade whose middle is carried as high as the lock makes a level oar, and its hand is as high as the lock."""
    dip = height.dip_in_recovery(lock_above_water=lock, wave_clearance=lock - half, half_height=half, blade_arm=arm)
    assert dip == pytest.approx(0, abs=1e-12)
    assert height.hand_height(lock_above_seat=0.2, hand_arm=0.6, dip=dip) == pytest.approx(0.2)
    assert height.tip_below_mid_blade(blade_length=0.6, dip=dip) == pytest.approx(0, abs=1e-12)
    assert height.overlap_in_drive(inboard=0.6, dip=dip, span=1.1) == pytest.approx(0.1)


@few
@given(small=st.floats(1e-9, 1e-4), arm=BLADE_ARM)
def test_flat_limit(small, arm):
    """As lock height, blade width and cover vanish, so does the dip of the drive."""
    dip = height.dip_in_drive(lock_above_water=small, blade_width=small, cover=small, blade_arm=arm)
    assert 0 < dip < 3 * small / arm


@few
@given(above=st.floats(-0.2, 0.2), arm=BLADE_ARM)
def test_up_and_down_are_mirror_images(above, arm):
    """A blade as far above the lock as another is below it slopes as much the other way."""
    up, down = (
        height.dip_in_recovery(lock_above_water=0.3, wave_clearance=0.3 + sign * above, half_height=0.0, blade_arm=arm)
        for sign in (1, -1)
    )
    assert up == pytest.approx(-down, abs=1e-12)


@few
@given(lock=LOCK, width=WIDTH, blade=BLADE_ARM, hand=HAND_ARM, seat=st.floats(0.1, 0.3), thigh=st.floats(0.1, 0.2))
def test_the_largest_wave_leaves_nothing(lock, width, blade, hand, seat, thigh):
    """Carrying the blade at the largest wave leaves no room over the thighs, a little lower leaves some."""
    most = height.largest_wave(
        lock_above_water=lock, half_height=width / 2, blade_arm=blade, hand_arm=hand, lock_above_seat=seat,
        thigh_thickness=thigh,
    )  # fmt: skip

    def clearance(wave: float) -> float:
        dip = height.dip_in_recovery(lock_above_water=lock, wave_clearance=wave, half_height=width / 2, blade_arm=blade)
        hand_height = height.hand_height(lock_above_seat=seat, hand_arm=hand, dip=dip)
        return float(height.thigh_clearance(hand_height=hand_height, thigh_thickness=thigh))

    assert clearance(most) == pytest.approx(0, abs=1e-9)
    assert clearance(most - 0.01) > 0


@few
@given(apart=st.floats(0.01, 0.1), blade=BLADE_ARM, hand=HAND_ARM)
def test_lock_offset_is_the_hands_less_the_lever(apart, blade, hand):
    """The offset is less than the hands are apart, and the rest of it is the blade's by the lever."""
    offset = height.lock_offset(hands_apart=apart, blade_arm=blade, hand_arm=hand)
    assert 0 < offset < apart
    assert (apart - offset) / hand == pytest.approx(offset / blade)


#: Stations whose oars always reach the water: the shortest arm is 0.7 m, the deepest blade 0.5 m below the lock.
station = st.fixed_dictionaries(
    {
        "beam": st.floats(1.0, 1.4), "lock_overhang": st.floats(-0.05, 0.15), "seat_above_water": st.floats(0.0, 0.15),
        "lock_above_water": st.floats(0.2, 0.3), "overlap": st.floats(0.0, 0.2), "leverage_ratio": st.floats(2.2, 3.2),
        "thigh_thickness": st.floats(0.12, 0.2), "wave_clearance": st.floats(0.0, 0.2), "blade_width": WIDTH,
    }
)  # fmt: skip


@few
@given(rows=st.lists(station, min_size=2, max_size=4))
def test_arrays_are_rows_of_scalars(rows):
    """An array of stations gives, number by number, the rigs of its rows."""
    together = rig_from_station(**{key: np.array([row[key] for row in rows]) for key in rows[0]})
    for index, row in enumerate(rows):
        alone = rig_from_station(**row)
        for field in fields(Rig):
            if field.name == "working":
                continue
            one, of_many = getattr(alone, field.name), getattr(together, field.name)
            if one is None:  # the handles of this row do not cross
                assert of_many is None or of_many[index] == 0
            else:
                assert np.broadcast_to(of_many, len(rows))[index] == pytest.approx(one, abs=1e-12), field.name


@few
@given(row=station, lift=st.floats(0.001, 0.05))
def test_raising_boat_and_seat_alike(row, lift):
    """Lifting lock and seat together leaves the lock's height over the seat and steepens the drive."""
    low = rig_from_station(**row)
    row = {
        **row,
        "lock_above_water": row["lock_above_water"] + lift,
        "seat_above_water": row["seat_above_water"] + lift,
    }
    high = rig_from_station(**row)
    assert high.lock_above_seat == pytest.approx(low.lock_above_seat)
    assert high.dip_in_drive > low.dip_in_drive
    assert high.thigh_clearance > low.thigh_clearance
    assert high.largest_wave_square == pytest.approx(low.largest_wave_square + lift)


@few
@given(row=station)
def test_feathering_never_costs_room(row):
    """A feathered blade needs less height than a square one and so leaves the hands higher."""
    rig = rig_from_station(**row)
    assert rig.thigh_clearance_feathered > rig.thigh_clearance
    assert rig.largest_wave_feathered > rig.largest_wave_square
