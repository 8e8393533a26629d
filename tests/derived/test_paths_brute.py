"""Hands against hands, legs, rail and bracket looked at again on a fine grid of angles, with rotations and boxes.

Source: solid geometry. Nothing here calls the closed forms: each hand is a point turned by two matrices, the legs are
a line of shapely, rail and bracket are boxes with the nearest point of each sought by clipping. 4001 angles are looked
at, a hundred for each step of the program's 41.
"""

import math
from dataclasses import replace

import numpy as np
import pytest
from shapely import LineString, Point

from oarkit.rig.station import Rig, rig_from_station
from oarkit.rower.legs import Legs
from oarkit.stroke.clear import Sides, side_clearance
from oarkit.stroke.hands import passing
from oarkit.stroke.path import Place, sweep_angles
from oarkit.stroke.station import path_of_rig, stroke_of_rig

FINE = 4001
FIST, HALF_FIST, CLOTHING = 0.090, 0.045, 0.015  # [m]
LEGS_OUT = 0.21 + HALF_FIST  # a fist whose middle is further out passes outside the legs [m]
LEGS = Legs(hip_x=0.427, thigh_top=0.157, knee_x=0.021, knee_top=0.213, toe_x=-0.371, toe_top=0.083)
RIGS = {
    "crossed": {"beam": 0.871, "lock_overhang": 0.118, "overlap": 0.183, "length": 2.284},
    "near": {"beam": 0.948, "lock_overhang": 0.061, "overlap": 0.104, "length": 2.197},
    "gap": {"beam": 1.362, "lock_overhang": -0.031, "overlap": -0.052, "length": 2.213},
}
REACH = {"crossed": (0.472, 0.259), "near": (0.431, 0.287), "gap": (0.397, 0.311)}


def _rig(name: str) -> Rig:
    return rig_from_station(
        **RIGS[name], seat_above_water=0.079, lock_above_water=0.301, thigh_thickness=0.157, wave_clearance=0.09,
        blade_length=0.551, blade_width=0.128, grip_centre=0.057,
    )  # fmt: skip


def _sides(rig: Rig, name: str, top: float = 0.268) -> Sides:
    half = RIGS[name]["beam"] / 2
    return Sides(
        rail_inner=half - 0.021, rail_outer=half, rail_top=top, pin=rig.span / 2,
        lock_above_water=max(0.301, top + 0.012), bracket_half_length=0.097,
    )  # fmt: skip


def _stroke(name: str, **changed):
    rig = _rig(name)
    catch, finish = REACH[name]
    told = {"legs": LEGS, "sides": _sides(rig, name), "hands_apart": 0.043, "hands_ahead": 0.071} | changed
    return rig, stroke_of_rig(rig, reach_catch=catch, reach_finish=finish, **told)


def _hands(rig: Rig, sweep, dip, lead=0.0, apart=0.0):
    """Places of both hands, port oar ahead by the lead and its hand over by the distance: arrays of x, y, z."""
    both = []
    for side, ahead, up in ((1, lead / 2, apart / 2), (-1, -lead / 2, -apart / 2)):
        level = np.array([[1, 0, 0], [0, math.cos(dip), math.sin(dip)], [0, -math.sin(dip), math.cos(dip)]])
        inboard = level @ np.array([0.0, -rig.hand_arm, 0.0])
        angle = np.asarray(sweep) + ahead
        x = inboard[0] * np.cos(angle) + inboard[1] * np.sin(angle)
        y = -inboard[0] * np.sin(angle) + inboard[1] * np.cos(angle)
        z = np.full_like(x, inboard[2] + 0.301 + up)
        both.append(np.stack([x, side * (y + rig.span / 2), z], axis=-1))
    return both


def _apart(rig, sweep, dip, **way):
    """Distance of the two hands at each angle."""
    port, starboard = _hands(rig, sweep, dip, **way)
    return np.linalg.norm(port - starboard, axis=-1)


def _fine(stroke):
    return np.linspace(float(stroke.catch_angle), float(stroke.finish_angle), FINE)


def _dips(rig):
    return float(rig.dip_in_drive), float(rig.dip_in_recovery)


def _step(stroke) -> float:
    """Half a step of the program's angles: no place of the path is further from one that it looks at."""
    return float(stroke.arc) / 40 / 2


# Ends of the stroke


@pytest.mark.parametrize("name", RIGS)
def test_ends_of_the_stroke(name):
    """At both ends the hand stands as far along the keel as it reaches, and its path is as long as the fine one."""
    rig, stroke = _stroke(name)
    port, _ = _hands(rig, _fine(stroke), _dips(rig)[0])
    assert -port[0, 0] == pytest.approx(REACH[name][0], rel=1e-12)
    assert port[-1, 0] == pytest.approx(REACH[name][1], rel=1e-12)
    assert stroke.chord == pytest.approx(sum(REACH[name]), rel=1e-12)
    path = np.linalg.norm(np.diff(port, axis=0), axis=-1).sum()
    assert stroke.hand_travel == pytest.approx(path, rel=1e-7)  # chords for arcs: an angle of 4e-4, squared, over 24


# Hands against hands


@pytest.mark.parametrize("name", RIGS)
@pytest.mark.parametrize("way", ["abreast", "one_above", "one_ahead", "mixed"])
def test_least_distance_of_the_hands(name, way):
    """Each way of passing comes as near as the finest path does, in drive or recovery, but for the step."""
    rig, stroke = _stroke(name)
    arm = rig.hand_arm * math.cos(_dips(rig)[0])
    full, half = math.asin(0.071 / arm), math.asin(0.071 / 2 / arm)
    ways = {
        "abreast": {}, "one_above": {"apart": 0.043}, "one_ahead": {"lead": full},
        "mixed": {"apart": 0.043 / 2, "lead": half},
    }  # fmt: skip
    found = getattr(stroke, way)
    least = min(float(_apart(rig, _fine(stroke), dip, **ways[way]).min()) for dip in _dips(rig))
    at_41 = min(float(_apart(rig, sweep_angles(*_ends(stroke)), dip, **ways[way]).min()) for dip in _dips(rig))
    assert found.least == pytest.approx(at_41, abs=1e-9)  # squares of 1 m are taken apart: 1e-16 over the distance
    # From an angle that is looked at, each hand moves no further than its arm times half a step.
    assert least - 1e-9 <= found.least <= least + 2 * rig.hand_arm * _step(stroke)
    here = [float(_apart(rig, [found.least_at], dip, **ways[way])[0]) for dip in _dips(rig)]
    assert min(here) == pytest.approx(found.least, abs=1e-9)


def _ends(stroke):
    return float(stroke.catch_angle), float(stroke.finish_angle)


@pytest.mark.parametrize("name", ["crossed", "near"])
def test_the_needed_height_is_just_enough(name):
    """Hands passed by the height that is needed come within a fist of one another and no nearer, in both paths."""
    rig, stroke = _stroke(name)
    needed, sweep = float(stroke.abreast.needed_apart), _fine(stroke)
    assert needed > 0
    least = min(float(_apart(rig, sweep, dip, apart=needed).min()) for dip in _dips(rig))
    # At the meeting angle one fine step of 4e-4 moves the hands by 2 l_h sin(angle) of it: squared, under 1e-6 m.
    assert least == pytest.approx(FIST, abs=1e-6)
    assert min(_apart(rig, sweep, dip, apart=needed - 0.002).min() for dip in _dips(rig)) < FIST - 1e-4


@pytest.mark.parametrize("name", ["crossed", "near"])
@pytest.mark.parametrize("over", [0.0, 0.043])
def test_the_needed_lead_is_just_enough(name, over):
    """The lead that is needed at a height keeps the hands a fist apart over the whole arc, and a little less does not.

    The dip whose need is the greater sets it: the other path stays further apart.
    """
    rig, stroke = _stroke(name)
    needed = float((stroke.one_above if over else stroke.abreast).needed_lead)
    sweep = _fine(stroke)
    least = min(float(_apart(rig, sweep, dip, apart=over, lead=needed).min()) for dip in _dips(rig))
    assert least == pytest.approx(FIST, abs=1e-6)  # as above
    shy = min(float(_apart(rig, sweep, dip, apart=over, lead=0.97 * needed).min()) for dip in _dips(rig))
    assert shy < FIST - 1e-4


def test_hands_that_keep_apart_need_nothing():
    """With a gap between the handles the fists pass one another clear of themselves."""
    rig, stroke = _stroke("gap")
    assert min(_apart(rig, _fine(stroke), dip).min() for dip in _dips(rig)) > FIST
    assert (stroke.abreast.needed_apart, stroke.abreast.needed_lead) == (0, 0)
    assert (stroke.meeting_in_drive, stroke.meeting_in_recovery) == (0, 0)


@pytest.mark.parametrize(("catch", "finish"), [(0.95, 0.31), (-0.24, -0.88), (0.31, 0.29)])
def test_needs_of_an_arc_that_is_all_to_one_side(catch, finish):
    """An arc that never passes square needs what its nearest end, or a place within it, needs."""
    rig, sweep = _rig("crossed"), np.linspace(catch, finish, FINE)
    dip = _dips(rig)[0]
    told = {"sweep": sweep_angles(catch, finish), "hand_arm": rig.hand_arm, "dip": dip, "span": rig.span}
    found = passing(**told)
    bare = float(_apart(rig, sweep, dip).min())
    assert float(found.needed_apart) == pytest.approx(math.sqrt(max(FIST**2 - bare**2, 0)), abs=2e-5)
    least = float(_apart(rig, sweep, dip, lead=float(found.needed_lead)).min())
    assert least == pytest.approx(max(FIST, bare), abs=1e-6)


def test_the_meeting_angles():
    """The two hands stand at one place in plan at the angles told, drive and recovery each with its own."""
    rig, stroke = _stroke("crossed")
    for dip, meet in zip(_dips(rig), (stroke.meeting_in_drive, stroke.meeting_in_recovery), strict=True):
        assert float(_apart(rig, [meet], dip)[0]) == pytest.approx(0, abs=1e-12)
        assert float(_apart(rig, [-meet], dip)[0]) == pytest.approx(0, abs=1e-12)
    assert stroke.meeting_in_drive < stroke.meeting_in_recovery  # the steeper loom is shorter in plan
    assert stroke.abreast.needed_apart == pytest.approx(FIST, abs=1e-12)  # they pass through one another


def test_a_lead_that_nobody_rows():
    """Hands told to be further ahead than half the hand arm in plan are looked at with a lead of 30 degrees."""
    rig, stroke = _stroke("crossed", hands_ahead=0.4)
    assert stroke.one_ahead.lead == pytest.approx(math.radians(30), abs=1e-12)
    level = rig.hand_arm * math.cos(_dips(rig)[0])
    _, below = _stroke("crossed", hands_ahead=0.49 * level)
    assert below.one_ahead.lead == pytest.approx(math.asin(0.49), abs=1e-12)


@pytest.mark.parametrize("side", ["port", "starboard"])
def test_path_of_the_blade(side):
    """The blade goes where its oar points: ahead while the hand is aft, covered in the drive, over the wave back."""
    rig, stroke = _stroke("crossed")
    path = path_of_rig(rig, stroke.sweep, side=side, along=rig.blade_arm)
    hand = path_of_rig(rig, stroke.sweep, side=side, along=-rig.hand_arm)
    assert path.drive.z == pytest.approx(-(0.128 / 2 + 0.020), abs=1e-12)  # middle: half a width and the cover under
    assert path.recovery.z == pytest.approx(0.09 + 0.128 / 2, abs=1e-12)
    assert path.feathered.z == pytest.approx(0.09 + 0.005, abs=1e-12)
    for blade, grip in ((path.drive, hand.drive), (path.recovery, hand.recovery)):
        assert -blade.x / grip.x == pytest.approx(np.full(41, rig.blade_arm / rig.hand_arm), rel=1e-9)
    pin = (1 if side == "port" else -1) * rig.span / 2
    assert np.hypot(path.drive.x, path.drive.y - pin) == pytest.approx(
        np.full(41, math.sqrt(rig.blade_arm**2 - (0.301 + 0.084) ** 2)), rel=1e-12
    )


# Hands against legs


def _over_legs(rig, stroke, dip, angles):
    """Height left over the clothed legs under the fist: the legs as a line, cut upright under the hand."""
    outline = LineString([
        (2.0, LEGS.thigh_top), (LEGS.hip_x, LEGS.thigh_top), (LEGS.knee_x, LEGS.knee_top), (LEGS.toe_x, LEGS.toe_top),
        (-2.0, LEGS.toe_top),
    ])  # fmt: skip
    port, _ = _hands(rig, angles, dip)
    clear = []
    for x, y, z in port:
        under = outline.intersection(LineString([(x, -1), (x, 1)]))
        assert isinstance(under, Point)
        clear.append(math.inf if abs(y) > LEGS_OUT else z - 0.079 - under.y - HALF_FIST - CLOTHING)
    return np.array(clear)


@pytest.mark.parametrize("name", RIGS)
def test_least_clearance_over_the_legs(name):
    """Square and feathered, the least is that of the fine path but for what the legs rise in a step."""
    rig, stroke = _stroke(name)
    for found, dip in (
        (stroke.legs, rig.dip_in_recovery),
        (stroke.legs_feathered, rig.dip_in_recovery_feathered),
    ):
        looked_at = _over_legs(rig, stroke, float(dip), sweep_angles(*_ends(stroke)))
        assert found.clearance == pytest.approx(looked_at.min(), abs=1e-9)  # shapely cuts lines to some 1e-12
        assert _over_legs(rig, stroke, float(dip), [found.at])[0] == pytest.approx(found.clearance, abs=1e-9)
        fine = _over_legs(rig, stroke, float(dip), _fine(stroke)).min()
        steepest = max(0.213 - 0.157, 0.213 - 0.083) / (0.371 + 0.021)  # shin: 130 mm in 392 mm
        assert fine - 1e-9 <= found.clearance <= fine + steepest * rig.hand_arm * _step(stroke)


def test_hands_outside_the_legs():
    """Hands that stay further out than knees and a fist clear them by any height; where they come in, they count."""
    rig, _ = _stroke("gap")
    wide = replace(rig, span=2 * (LEGS_OUT + rig.hand_arm) + 0.01)
    outside = stroke_of_rig(wide, reach_catch=0.4, reach_finish=0.3, legs=LEGS)
    assert outside.legs.clearance == math.inf
    inside = stroke_of_rig(replace(wide, span=wide.span - 0.04), reach_catch=0.4, reach_finish=0.3, legs=LEGS)
    assert inside.legs.clearance < 0.2
    assert abs(inside.legs.at) < 0.3  # in only about square off


# Hands against the boat's side


def _beside(rig, name, dip, angles, top):
    """Distance from the fist's ball to the nearer of two boxes, by the point of each that is nearest to the hand."""
    sides = _sides(rig, name, top)
    far = 10.0
    rail = ((-far, far), (sides.rail_inner, sides.rail_outer), (-far, sides.rail_top))
    out = max(sides.pin, sides.rail_outer)
    bracket = ((-0.097, 0.097), (sides.rail_inner, out), (sides.rail_top, sides.lock_above_water))
    port, starboard = _hands(rig, angles, dip)
    assert starboard[:, 1] == pytest.approx(-port[:, 1])
    port[:, 1] = np.abs(port[:, 1])  # past the centreline the other side's rail is the nearer
    away = []
    for box in (rail, bracket):
        low, high = ([side[end] for side in box] for end in (0, 1))
        out = np.linalg.norm(port - np.clip(port, low, high), axis=-1)
        faces = np.concatenate([port - low, high - port], axis=-1).min(axis=-1)  # the nearest way out, from within
        away.append(np.where(out > 0, out, -np.maximum(faces, 0.0)))
    return np.minimum(*away) - HALF_FIST


@pytest.mark.parametrize("name", RIGS)
@pytest.mark.parametrize("catch", [0.472, 0.56])
@pytest.mark.parametrize("top", [0.268, 0.467])  # a rail under the hands, a coaming that stands over them
def test_least_distance_from_the_side(name, catch, top):
    """Rail, coaming and bracket come as near as on the fine path, drive and recovery, but for the step."""
    rig = _rig(name)
    stroke = stroke_of_rig(rig, reach_catch=catch, reach_finish=0.31, sides=_sides(rig, name, top))
    looked_at = [_beside(rig, name, dip, sweep_angles(*_ends(stroke)), top).min() for dip in _dips(rig)]
    assert stroke.sides.clearance == pytest.approx(min(looked_at), abs=1e-12)
    # Over a rail the lower hand of the recovery is nearer; beside a coaming the steeper, shorter loom of the drive.
    if catch == 0.472:  # reaching further, the hand of the narrow boat goes through the side, drive and recovery
        assert (looked_at[0] < looked_at[1]) == (top == 0.467)
    fine = min(_beside(rig, name, dip, _fine(stroke), top).min() for dip in _dips(rig))
    assert fine - 1e-12 <= stroke.sides.clearance <= fine + rig.hand_arm * _step(stroke)
    here = min(_beside(rig, name, dip, [stroke.sides.at], top)[0] for dip in _dips(rig))
    assert here == pytest.approx(stroke.sides.clearance, abs=1e-12)


@pytest.mark.parametrize(
    ("place", "nearest"),
    [
        ((-0.5, 0.30, 0.20), 0.10),  # beside the rail, below its top
        ((-0.5, 0.41, 0.37), 0.12),  # over the rail
        ((-0.5, 0.36, 0.28), 0.05),  # off its inner edge: 40 and 30 mm
        ((-0.5, 0.46, 0.20), 0.04),  # outside it
        ((0.15, 0.50, 0.27), 0.05),  # past the end of the bracket
        ((0.02, 0.49, 0.39), 0.09),  # over the bracket
        ((0.04, 0.59, 0.27), 0.04),  # beyond the pin
        ((0.04, 0.50, 0.19), 0.06),  # under the bracket, further from the rail
        ((0.18, 0.44, 0.10), 0.02),  # outside the rail, low, abaft the bracket
        ((0.13, 0.37, 0.28), math.hypot(0.03, 0.03)),  # off the rail's edge and the bracket's, 30 mm each way
        ((0.40, 0.413, 0.22), -0.007),  # within the rail, 7 mm from its outer face
        ((0.02, 0.54, 0.28), -0.01),  # within the bracket, 10 mm from its outer end
    ],
)
def test_places_about_rail_and_bracket(place, nearest):
    """Distances that can be done in the head, to a rail from 0.40 to 0.42 m and a bracket out to a pin at 0.55 m."""
    sides = Sides(
        rail_inner=0.40, rail_outer=0.42, rail_top=0.25, pin=0.55, lock_above_water=0.30, bracket_half_length=0.10
    )
    for sign in (1, -1):  # port and starboard alike
        hand = Place(x=np.array([place[0]]), y=np.array([sign * place[1]]), z=np.array([place[2]]))
        assert side_clearance(hand, sides)[0] == pytest.approx(nearest - HALF_FIST, abs=1e-12)
