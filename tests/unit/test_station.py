"""One call from a rowing station to its rig."""

import math
from dataclasses import fields

import numpy as np
import pytest

from oarkit.rig.station import INCH, Rig, rig_from_station
from oarkit.working import BadDesign

# A station that can be done in the head: span 1.2 m, inboard 0.65 m, length 2.5 m, lock 0.20 m over the seat.
STATION = {
    "beam": 1.0, "lock_overhang": 0.1, "seat_above_water": 0.10, "lock_above_water": 0.30, "overlap": 0.1,
    "length": 2.5, "blade_length": 0.7, "blade_width": 0.14, "grip_centre": 0.05, "wave_clearance": 0.08,
    "thigh_thickness": 0.15, "hands_apart": 0.07,
}  # fmt: skip


def test_lengths():
    """Span, inboard, outboard and both arms of the round station."""
    rig = rig_from_station(**STATION)
    assert (rig.span, rig.inboard, rig.outboard, rig.length) == pytest.approx((1.2, 0.65, 1.85, 2.5))
    assert (rig.hand_arm, rig.blade_arm) == pytest.approx((0.60, 1.50))
    assert (rig.overlap, rig.leverage_ratio, rig.working_ratio) == pytest.approx((0.1, 1.85 / 0.65, 2.5))


def test_heights():
    """The hand rises 0.6 m for each 1.5 m that the blade goes down."""
    rig = rig_from_station(**STATION)
    assert rig.lock_above_seat == pytest.approx(0.20)
    drop_in_drive = 0.30 + 0.07 + 0.02  # lock, half the blade, cover
    assert math.sin(rig.dip_in_drive) == pytest.approx(drop_in_drive / 1.5)
    assert rig.hand_height_in_drive == pytest.approx(0.20 + 0.4 * drop_in_drive)
    assert rig.hand_height_in_recovery == pytest.approx(0.20 + 0.4 * (0.30 - 0.08 - 0.07))
    assert rig.hand_height_in_recovery_feathered == pytest.approx(0.20 + 0.4 * (0.30 - 0.08 - 0.005))
    assert rig.tip_drop_in_drive == pytest.approx(0.35 * drop_in_drive / 1.5)
    assert rig.tip_drop_in_recovery == pytest.approx(0.35 * 0.15 / 1.5)


def test_clearances():
    """Half a fist of 45 mm, the thigh and 15 mm of clothing lie between hand and seat."""
    rig = rig_from_station(**STATION)
    assert rig.thigh_clearance == pytest.approx(0.26 - 0.045 - 0.15 - 0.015)
    assert rig.thigh_clearance_feathered == pytest.approx(0.286 - 0.21)
    # With 50 mm to spare for the hand the blade rises 2.5 times as much.
    assert rig.largest_wave_square == pytest.approx(0.08 + 2.5 * 0.05)
    assert rig.largest_wave_feathered == pytest.approx(0.08 + 2.5 * 0.076)


def test_lock_offset():
    """Hands 70 mm apart want the locks 50 mm apart with arms as 5 to 2."""
    assert rig_from_station(**STATION).lock_offset == pytest.approx(0.05)


def test_no_offset_without_overlap():
    """Handles that leave a gap need no lock offset."""
    assert rig_from_station(**{**STATION, "overlap": None}, gap=0.05).lock_offset is None


def test_no_clearance_without_a_thigh():
    """Without a thigh there are no clearances over it."""
    rig = rig_from_station(**{**STATION, "thigh_thickness": None})
    assert rig.thigh_clearance is rig.thigh_clearance_feathered is None
    assert rig.largest_wave_square is rig.largest_wave_feathered is None


def test_gap_is_a_negative_overlap():
    """A gap of 50 mm is an overlap of −50 mm."""
    by_gap = rig_from_station(**{**STATION, "overlap": None}, gap=0.05)
    by_overlap = rig_from_station(**{**STATION, "overlap": -0.05})
    assert by_gap.inboard == by_overlap.inboard == pytest.approx(0.575)
    assert by_gap.overlap == pytest.approx(-0.05)


def test_length_from_ratio_is_rounded_once():
    """Inboard 0.65 m at 2.5 is 2.275 m, 89.57 in: rounded to 90 in, and the ratio is worked again."""
    rig = rig_from_station(**{**STATION, "length": None, "leverage_ratio": 2.5})
    assert rig.length == pytest.approx(90 * INCH)
    assert rig.outboard == pytest.approx(90 * INCH - 0.65)
    assert rig.leverage_ratio == pytest.approx((90 * INCH - 0.65) / 0.65)


def test_length_from_ratio_without_rounding():
    """No rounding step leaves the length as it comes out."""
    rig = rig_from_station(**{**STATION, "length": None, "leverage_ratio": 2.5, "round_length": None})
    assert rig.length == pytest.approx(2.275)
    assert rig.leverage_ratio == pytest.approx(2.5)


def test_a_given_length_is_not_rounded():
    """A length that is given stays to the millimetre."""
    assert rig_from_station(**{**STATION, "length": 2.287}).length == 2.287


def test_working_is_what_was_computed():
    """Each line of the working holds the very number of the rig, and says its formula and source."""
    rig = rig_from_station(**STATION)
    names = {field.name for field in fields(Rig)}
    lines = {line.name.removeprefix("rig."): line for line in rig.working}
    assert {"span", "inboard", "outboard", "overlap", "dip_in_drive", "thigh_clearance", "lock_offset"} <= set(lines)
    for name, line in lines.items():
        if name in names:
            assert line.result.value == getattr(rig, name)
        assert line.formula
        assert line.source
    assert lines["span"].numbers["B"].value == 1.0
    assert lines["span"].numbers["a"].value == 0.1


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"overlap": None}, "either the overlap of the handles or the gap"),
        ({"gap": 0.05}, "and not both"),
        ({"overlap": None, "gap": 1.3}, "nothing is left of the oar's inboard"),
        ({"grip_centre": 0.70}, "inboard is shorter than the distance from handle end to grip centre"),
        ({"length": 1.2}, "the blade is longer than the whole outboard"),
        ({"lock_above_water": 2.0}, "cannot be covered in the drive"),
        ({"wave_clearance": 2.0}, "cannot be carried clear of that wave"),
    ],
)
def test_what_cannot_be_rowed_is_refused(change, said):
    """A rig that cannot be built or rowed is refused with the reason."""
    with pytest.raises(BadDesign, match=said):
        rig_from_station(**{**STATION, **change})


def test_a_refusal_carries_its_quantity():
    """A gap of 1.3 m over a span of 1.2 m is 50 mm too much for each oar."""
    with pytest.raises(BadDesign) as refused:
        rig_from_station(**{**STATION, "overlap": None}, gap=1.3)
    assert refused.value.quantities["value"].value == pytest.approx(0.05)


def test_one_bad_row_refuses_the_array():
    """One design of an array that cannot be rowed refuses all of them."""
    with pytest.raises(BadDesign, match="blade is longer"):
        rig_from_station(**{**STATION, "length": np.array([2.5, 1.2])})


def test_a_crossing_and_a_gap_in_one_array():
    """Of two designs, the one that leaves a gap has no lock offset."""
    rig = rig_from_station(**{**STATION, "overlap": np.array([0.1, -0.1])})
    assert rig.lock_offset == pytest.approx([0.05, 0.0])


def test_length_and_ratio_together():
    """A length and a leverage that disagree are refused, as `split` refuses them."""
    with pytest.raises(BadDesign):
        rig_from_station(**{**STATION, "leverage_ratio": 2.0})


def test_working_of_a_crossing_and_a_gap():
    """Where only some designs of an array cross, the working holds the very offsets of the rig."""
    rig = rig_from_station(**{**STATION, "overlap": np.array([0.1, -0.1])})
    (line,) = (line for line in rig.working if line.name == "rig.lock_offset")
    assert np.broadcast_to(line.result.value, 2) == pytest.approx(rig.lock_offset)
