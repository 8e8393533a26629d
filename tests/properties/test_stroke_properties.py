"""Stroke and station in any size: mirrored, scaled, as arrays, in blocks, and with one thing more or less."""

from dataclasses import fields, is_dataclass, replace

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from oarkit.rig.station import Rig, rig_from_station
from oarkit.rower import legs as rower_legs
from oarkit.rower.body import Size
from oarkit.rower.legs import Legs, leg_top
from oarkit.rower.reach import Posture, catch_reach
from oarkit.rower.seated import seat_rower
from oarkit.rower.sizes import Body
from oarkit.stroke import arc, hands
from oarkit.stroke.blocks import in_blocks
from oarkit.stroke.clear import Sides, leg_clearance, side_clearance
from oarkit.stroke.path import Place, path_along, place_along, sweep_angles
from oarkit.stroke.station import Stroke, stroke_of_rig

often = settings(max_examples=100, deadline=None, derandomize=True, database=None)
some = settings(max_examples=25, deadline=None, derandomize=True, database=None)

HALF_FIST = 0.045  # [m]
angles, dips = st.floats(-1.2, 1.2), st.floats(-0.2, 0.4)
sizes = st.floats(0.2, 3.0)


@st.composite
def stations(draw):
    """Numbers of a station that can be rowed."""
    overlap, ratio = draw(st.floats(-0.08, 0.20)), draw(st.floats(2.3, 2.9))
    return {
        "beam": draw(st.floats(0.8, 1.4)), "lock_overhang": draw(st.floats(-0.05, 0.14)),
        "seat_above_water": draw(st.floats(0.04, 0.12)), "lock_above_water": draw(st.floats(0.24, 0.36)),
        "overlap": overlap, "leverage_ratio": ratio, "thigh_thickness": draw(st.floats(0.13, 0.20)),
        "wave_clearance": draw(st.floats(0.02, 0.15)), "blade_width": draw(st.floats(0.10, 0.17)),
        "blade_length": draw(st.floats(0.45, 0.62)), "grip_centre": draw(st.floats(0.04, 0.07)),
        "round_length": None,
    }  # fmt: skip


reaches = st.tuples(st.floats(0.15, 0.5), st.floats(0.1, 0.4))


def _legs(scale: float = 1.0) -> Legs:
    outline = {"hip_x": 0.43, "thigh_top": 0.157, "knee_x": 0.03, "knee_top": 0.21, "toe_x": -0.37, "toe_top": 0.08}
    return Legs(**{name: value * scale for name, value in outline.items()})


def _sides(rig: Rig, scale: float = 1.0) -> Sides:
    return Sides(
        rail_inner=0.98 * rig.span / 2, rail_outer=rig.span / 2, rail_top=0.8 * rig.lock_above_water, pin=rig.span / 2,
        lock_above_water=rig.lock_above_water, bracket_half_length=0.09 * scale,
    )  # fmt: skip


# The same in a mirror


@often
@given(sweep=angles, dip=dips, span=sizes, along=st.floats(-2, 3), lock=sizes)
def test_port_and_starboard_mirror_one_another(sweep, dip, span, along, lock):
    """The other oar's point stands across the keel, as far forward and as high."""
    told = {"along": along, "sweep": sweep, "dip": dip, "span": span, "lock_above_water": lock}
    port, starboard = place_along(side="port", **told), place_along(side="starboard", **told)
    assert (starboard.x, -starboard.y, starboard.z) == (port.x, port.y, port.z)


@often
@given(sweep=angles, dip=dips, span=sizes, along=sizes, lock=sizes)
def test_each_oar_lies_on_its_own_side(sweep, dip, span, along, lock):
    """Square off or swept, a blade is outboard of its pin, port to port; it is forward when the hand is aft."""
    told = {"sweep": sweep, "dip": dip, "span": span, "lock_above_water": lock}
    blade, hand = place_along(side="port", along=along, **told), place_along(side="port", along=-along, **told)
    assert blade.y > span / 2 > hand.y
    assert blade.x == -hand.x
    assert blade.x * sweep >= 0
    assert hand.z - lock == pytest.approx(lock - blade.z, abs=1e-12)


@often
@given(sweep=angles, arm=sizes, dip=dips, span=sizes, apart=st.floats(0, 0.3), lead=st.floats(0, 0.5))
def test_hands_fore_and_aft_alike(sweep, arm, dip, span, apart, lead):
    """Passing hands look the same before and after square, and whichever oar leads or hand is over."""
    told = {"hand_arm": arm, "dip": dip, "span": span}
    found = hands.hand_distance(sweep=sweep, apart=apart, lead=lead, **told)
    for way in ({"sweep": -sweep}, {"lead": -lead}, {"apart": -apart}):
        assert hands.hand_distance(**{"sweep": sweep, "apart": apart, "lead": lead} | way, **told) == found


@often
@given(where=st.tuples(st.floats(-0.6, 0.6), st.floats(0, 0.7), st.floats(0, 0.5)))
def test_clearances_alike_on_both_sides(where):
    """Legs and boat are the same to port and starboard, and a bracket the same fore and aft."""
    rig = rig_from_station(beam=0.9, lock_overhang=0.1, seat_above_water=0.08, lock_above_water=0.3, overlap=0.1)
    sides = _sides(rig)

    def at(x, y, z):
        return Place(x=np.array([x]), y=np.array([y]), z=np.array([z]))

    x, y, z = where
    assert side_clearance(at(x, y, z), sides) == side_clearance(at(-x, -y, z), sides)
    over = leg_clearance(at(x, y, z), _legs(), seat_above_water=0.08)
    assert over == leg_clearance(at(x, -y, z), _legs(), seat_above_water=0.08)


# The same in another size


@often
@given(factor=st.floats(0.3, 3.0), thigh=st.floats(0.35, 0.5), shank=st.floats(0.35, 0.5), flexion=st.floats(0.1, 1.0))
def test_a_leg_scales(factor, thigh, shank, flexion):
    """All lengths times k give lengths times k and the same angles; only the knee's own 60 mm stay."""
    told = {"thigh": thigh, "shank": shank, "hip_above_seat": 0.09, "seat_above_heels": 0.17}
    more = {name: value * factor for name, value in told.items()}
    brace, scaled = (rower_legs.brace_distance(flexion=flexion, **rods) for rods in (told, more))
    assert scaled == pytest.approx(factor * brace, rel=1e-12)
    assert rower_legs.knee_bend(brace=scaled, **more) == pytest.approx(flexion, rel=1e-9)
    knee, other = rower_legs.knee_place(brace=brace, **told), rower_legs.knee_place(brace=scaled, **more)
    assert other.aft_of_hip == pytest.approx(factor * knee.aft_of_hip, rel=1e-12)
    assert other.top_above_seat - 0.060 == pytest.approx(factor * (knee.top_above_seat - 0.060), abs=1e-12)


SCALED = ("span", "inboard", "outboard", "length", "hand_arm", "blade_arm", "lock_above_water", "lock_above_seat")


@some
@given(station=stations(), reach=reaches, factor=st.floats(0.5, 2.0))
def test_a_stroke_scales(station, reach, factor):
    """All lengths of rig and reach times k, dips kept: distances times k, angles the same; only the fists stay."""
    rig = rig_from_station(**station)
    big = replace(rig, **{name: getattr(rig, name) * factor for name in SCALED})
    told = {"reach_catch": reach[0], "reach_finish": reach[1], "hands_apart": 0.05, "hands_ahead": 0.07}
    small = stroke_of_rig(rig, sides=_sides(rig), **told)
    large = stroke_of_rig(big, sides=_sides(big, factor), **{name: value * factor for name, value in told.items()})
    for angle in ("catch_angle", "finish_angle", "arc", "meeting_in_drive", "meeting_in_recovery"):
        # An arc cosine of a number near 1 doubles the digits that the scaling rounds off.
        assert getattr(large, angle) == pytest.approx(getattr(small, angle), rel=1e-9, abs=1e-7)
    for length in ("hand_travel", "chord"):
        assert getattr(large, length) == pytest.approx(factor * getattr(small, length), rel=1e-12)
    for way in ("abreast", "one_above", "one_ahead", "mixed"):
        ours, theirs = getattr(small, way), getattr(large, way)
        assert theirs.least == pytest.approx(factor * ours.least, rel=1e-9, abs=1e-7)  # a root of a difference
        assert theirs.lead == pytest.approx(ours.lead, rel=1e-12)
    beside = large.sides.clearance + HALF_FIST
    assert beside == pytest.approx(factor * (small.sides.clearance + HALF_FIST), rel=1e-9, abs=1e-12)


# Arrays, rows and blocks


def _row(record, at):
    """One design of a record of arrays; what is no number, or one for all, stays."""
    if is_dataclass(record):
        return {field.name: _row(getattr(record, field.name), at) for field in fields(record)}
    return np.asarray(record)[at] if isinstance(record, np.ndarray) and record.ndim else record


def _agree(array, single, path=""):
    if isinstance(array, dict):
        for name, value in array.items():
            if name != "working":
                _agree(value, getattr(single, name), f"{path}.{name}")
    elif single is None or isinstance(single, str):
        assert array == single, path
    else:
        assert np.asarray(array) == pytest.approx(np.asarray(single), rel=1e-12, abs=1e-9), path


def _as_arrays(told: list[dict]) -> dict:
    """Numbers of several designs as arrays; what is the same for all and no number stays."""
    return {name: np.array([one[name] for one in told]) if told[0][name] is not None else None for name in told[0]}


@some
@given(told=st.lists(stations(), min_size=2, max_size=5), reach=reaches)
def test_rows_of_a_stroke_equal_single_ones(told, reach):
    """Rig, passing hands and clearances of several stations in one call are those of each by itself."""
    rigs = rig_from_station(**_as_arrays(told))
    catches = reach[0] + 0.01 * np.arange(len(told))
    both = stroke_of_rig(rigs, reach_catch=catches, reach_finish=reach[1], legs=_legs(), sides=_sides(rigs))
    for at, station in enumerate(told):
        rig = rig_from_station(**station)
        one = stroke_of_rig(rig, reach_catch=float(catches[at]), reach_finish=reach[1], legs=_legs(), sides=_sides(rig))
        _agree(_row(both, at), one)


@some
@given(told=st.lists(stations(), min_size=5, max_size=9), size=st.integers(1, 4), reach=reaches)
def test_blocks_equal_the_whole(told, size, reach):
    """Worked in blocks of any size, every number is the same to the last bit, in the order of the designs."""
    rigs = rig_from_station(**_as_arrays(told))
    more = {"reach_catch": reach[0] + 0.01 * np.arange(len(told)), "reach_finish": reach[1], "legs": _legs()}
    whole = stroke_of_rig(rigs, sides=_sides(rigs), **more)
    parts = in_blocks(stroke_of_rig, size=size, rig=rigs, sides=_sides(rigs), **more)
    assert type(parts) is Stroke
    _equal(parts, whole)


def _equal(found, wanted):
    if is_dataclass(wanted):
        for field in fields(wanted):
            _equal(getattr(found, field.name), getattr(wanted, field.name))
    elif isinstance(wanted, np.ndarray):
        assert found.shape == wanted.shape
        assert np.array_equal(found, wanted)
    else:
        assert found == wanted


def _sized(value: float) -> Size:
    return Size(value=value, spread=0.0, measured=True)


@some
@given(
    seats=st.lists(
        st.tuples(st.floats(0.25, 0.35), st.floats(0.12, 0.25), st.floats(0.28, 0.42)), min_size=2, max_size=5
    )
)
def test_rows_of_rowers_equal_single_ones(seats):
    """Several seats in one call sit the rower as each by itself does."""
    body = Body(
        thigh_thickness=_sized(0.16), shoulder_height=_sized(0.59), arm_length=_sized(0.67), thigh_length=_sized(0.44),
        shank_length=_sized(0.47), foot_length=_sized(0.26),
    )  # fmt: skip
    names = ("seat_edge_to_pins", "seat_above_heels", "hand_height")
    columns = dict(zip(names, (np.array(column) for column in zip(*seats, strict=True)), strict=True))
    both = seat_rower(body=body, posture=Posture(), **columns)
    for at, seat in enumerate(seats):
        one = seat_rower(body=body, posture=Posture(), **dict(zip(names, seat, strict=True)))
        _agree(_row(both, at), one)


# One thing more or less


@often
@given(station=stations(), rise=st.floats(0.005, 0.05))
def test_more_freeboard_lifts_the_hands(station, rise):
    """Seat and locks both higher over the water: steeper looms, hands higher over the seat, less overlap dipped."""
    low = rig_from_station(**station)
    station["seat_above_water"] += rise
    station["lock_above_water"] += rise
    high = rig_from_station(**station)
    assert high.dip_in_drive > low.dip_in_drive
    assert high.hand_height_in_drive > low.hand_height_in_drive
    assert high.thigh_clearance > low.thigh_clearance
    assert high.overlap_in_drive < low.overlap_in_drive


REACH = {"trunk": 0.5, "hip_above_seat": 0.09, "seat_edge_to_pins": 0.3, "hip_forward_of_seat_edge": 0.12}


@often
@given(arm=st.floats(0.45, 0.8), more=st.floats(0.005, 0.1), lean=st.floats(-0.2, 0.7), hand=st.floats(0.25, 0.45))
def test_longer_arms_catch_further(arm, more, lean, hand):
    """A longer arm reaches further aft, by more than its own length, and the catch angle grows until it is cut."""
    told = {**REACH, "trunk_angle": lean, "hand_height": hand}
    short, long = (catch_reach(arm=a, **told) for a in (arm, arm + more))
    assert long - short >= more * (1 - 1e-9)
    caught = [arc.catch_angle(reach=reach, hand_arm=0.57, dip=0.2) for reach in (short, long)]
    assert caught[0] < caught[1] or caught[1] == arc.MOST_SWEEP


@often
@given(lean=st.floats(0.0, 0.5), more=st.floats(0.01, 0.2), edge=st.floats(0.0, 0.1))
def test_leaning_and_sitting_nearer_catch_further(lean, more, edge):
    """Upright to leaning with the hand at the shoulder's height or lower, or a nearer seat, reaches further."""
    told = {**REACH, "arm": 0.66, "hand_height": 0.34}
    assert catch_reach(trunk_angle=lean + more, **told) > catch_reach(trunk_angle=lean, **told)
    nearer = told | {"seat_edge_to_pins": 0.3 - edge}
    shift = catch_reach(trunk_angle=lean, **nearer) - catch_reach(trunk_angle=lean, **told)
    assert shift == pytest.approx(edge, abs=1e-12)


@often
@given(station=stations())
def test_a_gap_is_a_negative_overlap(station):
    """The same rig, told either way."""
    as_gap = {name: value for name, value in station.items() if name != "overlap"} | {"gap": -station["overlap"]}
    one, other = rig_from_station(**station), rig_from_station(**as_gap)
    assert replace(one, working=()) == replace(other, working=())


@often
@given(reach=reaches, arm=st.floats(0.52, 0.7), dip=st.floats(0, 0.4))
def test_reach_and_angles_agree(reach, arm, dip):
    """Angles lead back to the reaches where nothing is cut, and path, chord and arc keep their order."""
    level = arm * np.cos(dip)
    assume(max(reach) < level * np.sin(arc.MOST_SWEEP))
    catch = arc.catch_angle(reach=reach[0], hand_arm=arm, dip=dip)
    finish = arc.finish_angle(reach=reach[1], hand_arm=arm, dip=dip)
    there = {"side": "starboard", "along": -arm, "dip": dip, "span": 1.1, "lock_above_water": 0.3}
    assert place_along(sweep=catch, **there).x == pytest.approx(-reach[0], abs=1e-12)
    assert place_along(sweep=finish, **there).x == pytest.approx(reach[1], abs=1e-12)
    swept = arc.stroke_arc(catch=catch, finish=finish)
    chord = arc.handle_chord(hand_arm=arm, dip=dip, catch=catch, finish=finish)
    assert chord == pytest.approx(sum(reach), abs=1e-12)
    assert chord < arc.hand_travel(hand_arm=arm, dip=dip, arc=swept)
    assert arc.arc_of_chord(chord=chord, arm=level) <= swept + 1e-12  # even about square, the chord needs least arc


@often
@given(sweep=st.tuples(angles, angles), arm=sizes, drive=dips, less=st.floats(0.01, 0.2), span=sizes)
def test_hands_are_lower_on_the_recovery(sweep, arm, drive, less, span):
    """With a lesser dip the hand comes back lower, and further in; its place fore and aft keeps its side of square."""
    told = {"along": -arm, "span": span, "lock_above_water": 0.3, "drive_dip": drive}
    path = path_along(
        side="port", sweep=sweep_angles(*sweep, 5), recovery_dip=drive - less, feathered_dip=drive - less / 2, **told
    )
    assert path.drive.z > path.feathered.z > path.recovery.z
    assert (np.sign(path.drive.x) == np.sign(path.recovery.x)).all()


@often
@given(x=st.floats(-1, 1), step=st.floats(0.0, 0.3))
def test_the_leg_is_one_line(x, step):
    """The outline never jumps, and lies between the lowest and the highest of hip, knee and toes."""
    legs = _legs()
    here, there = float(leg_top(legs, x)), float(leg_top(legs, x + step))
    assert abs(there - here) <= step * (0.21 - 0.08) / 0.40 + 1e-12  # the shin is the steepest: 130 mm in 400 mm
    assert 0.08 - 1e-12 <= here <= 0.21 + 1e-12


@often
@given(least=st.floats(0.6, 1.0), more=st.floats(0.0, 0.4), span=st.floats(0.9, 1.3), over=st.floats(0, 0.1))
def test_a_lead_is_enough_and_no_more(least, more, span, over):
    """At the lead that is needed no place between the ends is nearer than a fist, and some place is just as near."""
    lead = hands.least_lead(least_u=least, most_u=least + more, span=span, apart=over)
    across = np.linspace(least, least + more, 2001)
    apart = np.sqrt(np.maximum(across**2 - 2 * span * across * np.cos(lead / 2) + span**2 + over**2, 0.0))
    # Between two of 2001 places 0.2 mm apart the nearest is missed by less than 1e-6 m.
    assert apart.min() >= hands.FIST - 1e-6 or over > hands.FIST - 1e-9
    if lead > 1e-6:
        assert apart.min() == pytest.approx(hands.FIST, abs=1e-6)


def test_blocks_of_tuples_lists_and_mappings():
    """Arrays within tuples, lists and mappings are cut and joined like those of records; numbers go everywhere."""
    x, y = np.arange(7.0), 10 * np.arange(7.0)

    def made(pair, listed, named):
        assert len(pair[0]) <= 3
        return (pair[0] + listed[0], {"product": pair[1] * named["y"]}, [named["y"] - listed[0]])

    together = in_blocks(made, size=3, pair=(x, 2.0), listed=[y], named={"y": y})
    assert together[0].tolist() == (x + y).tolist()
    assert together[1]["product"].tolist() == (2 * y).tolist()
    assert together[2][0].tolist() == [0.0] * 7
