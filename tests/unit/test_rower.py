"""The seated rower: sizes measured or estimated, what is unknown and why, and bodies that cannot sit or reach so.

The body here can be done in the head: trunk 0.50 m upright, arms of 0.65 m that reach 0.60 m level to a hand 0.25 m
under the shoulder, thigh and shank of 0.40 and 0.30 m with a right angle between them.
"""

import math
from dataclasses import fields, replace

import numpy as np
import pytest

from oarkit import design, example_project
from oarkit.rig.station import rig_from_station
from oarkit.rower import legs, reach
from oarkit.rower.body import Regression, Size
from oarkit.rower.legs import Legs, leg_top
from oarkit.rower.reach import Posture
from oarkit.rower.seated import Seated, seat_rower
from oarkit.rower.sizes import Body, body_findings, body_sizes, grip_diameter
from oarkit.stroke import arc
from oarkit.stroke.clear import leg_clearance
from oarkit.stroke.path import Place
from oarkit.stroke.station import stroke_of_rig
from oarkit.working import BadDesign, Working

POSTURE = Posture(
    hip_above_seat=0.09, hip_forward_of_seat_edge=0.12, trunk_at_catch=0.0, trunk_at_finish=-0.2, hand_at_finish=0.15,
    knee_flexion=math.pi / 2,
)  # fmt: skip
SEAT = {"hand_height": 0.34, "seat_edge_to_pins": 0.30, "seat_above_heels": 0.21}


def _size(value: float) -> Size:
    return Size(value=value, spread=0.0, measured=True)


def _body(**changed) -> Body:
    sizes = {
        "shoulder_height": 0.59, "arm_length": 0.65, "thigh_length": 0.40, "shank_length": 0.30,
        "thigh_thickness": 0.16, "foot_length": 0.26,
    } | changed  # fmt: skip
    return Body(**{name: _size(value) for name, value in sizes.items() if value is not None})


# Sizes


def _table():
    """Regressions that can be done in the head, each dimension its own."""
    names = (
        "thighclearance", "handlength", "acromialheightsitting_derived", "acromionradialelength",
        "forearmcenterofgriplength", "buttockkneelength", "kneeheightsitting", "elbowrestheight", "footlength",
    )  # fmt: skip
    return {
        name: Regression(
            dimension=name, constant=0.01 * k, per_stature=0.1, per_mass=0.001, standard_error=0.001 * k, source="any"
        )
        for k, name in enumerate(names, 1)
    }


def test_estimates():
    """Each size from its own dimension, 0.25 m of which are stature and mass, less what lies within the joints."""
    body = body_sizes(measured={}, table=_table(), stature=1.70, mass=80.0)
    wanted = {
        "thigh_thickness": 0.26, "hand_length": 0.27, "shoulder_height": 0.28, "arm_length": 0.29 + 0.30,
        "thigh_length": 0.31 - 0.18, "shank_length": 0.32 - 0.06, "elbow_height": 0.33, "foot_length": 0.34,
    }  # fmt: skip
    assert {name: size.value for name, size in body.known().items()} == pytest.approx(wanted)
    errors = {"thigh_thickness": 1, "arm_length": 4 + 5, "thigh_length": 6, "shank_length": 7, "foot_length": 9}
    for name, error in errors.items():
        assert getattr(body, name).spread == pytest.approx(1.645e-3 * error)
    assert body.shoulder_height.spread == pytest.approx(math.hypot(1.645 * 0.003, 0.020))
    assert not any(size.measured for size in body.known().values())


def test_measured_wins():
    """A size that was taken stands without a spread, even where nothing can be estimated; None is not taken."""
    taken = {"arm_length": 0.663, "thigh_length": None}
    body = body_sizes(measured=taken, table=_table(), stature=1.70, mass=80.0)
    assert body.arm_length == _size(0.663)
    assert body.thigh_length.value == pytest.approx(0.13)
    for table, stature in ((None, 1.70), (_table(), None)):
        alone = body_sizes(measured=taken, table=table, stature=stature, mass=80.0)
        assert alone.known() == {"arm_length": _size(0.663)}


def test_estimates_as_arrays():
    """Several rowers at once come out one by one."""
    stature, mass = np.array([1.62, 1.81]), np.array([57.0, 92.0])
    both = body_sizes(measured={}, table=_table(), stature=stature, mass=mass)
    for at in range(2):
        one = body_sizes(measured={}, table=_table(), stature=float(stature[at]), mass=float(mass[at]))
        for name, size in one.known().items():
            assert getattr(both, name).value[at] == pytest.approx(size.value)


@pytest.mark.parametrize(
    ("grip", "word"), [(0.0245, "thin"), (0.0255, None), (0.0385, None), (0.0425, "thick"), (0.031, None)]
)
def test_grip_finding(grip, word):
    """A grip is spoken of where it lies 4 mm outside both the trade's 29-35 mm and the hand's best: 38.4 mm here."""
    told = body_findings(Body(hand_length=_size(0.195)), grip=grip)
    assert [finding.code for finding in told] == (["grip"] if word else [])
    if word:
        assert f"is {word} for a hand" in told[0].text
        assert told[0].quantities["best"].value == pytest.approx(0.197 * 0.195)
        assert told[0].quantities["grip"].value == grip
    assert body_findings(Body(), grip=0.06) == []


def test_grip_of_a_small_hand():
    """A hand whose best grip is thinner than the trade's is not told that a trade grip is thick."""
    small = Body(hand_length=_size(0.130))  # 25.6 mm
    assert grip_diameter(hand_length=0.130) == pytest.approx(0.0256, abs=5e-5)
    assert body_findings(small, grip=0.0386) == []
    assert "is thick" in body_findings(small, grip=0.0395)[0].text
    assert body_findings(small, grip=0.0220) == []
    assert "is thin" in body_findings(small, grip=0.0212)[0].text


@pytest.mark.parametrize(("stature", "told"), [(1.42, True), (1.43, False), (1.965, False), (1.975, True)])
def test_beyond_the_body_table(stature, told):
    """Estimates beyond statures of 1525 - 100 to 1870 + 100 mm are spoken of; measured sizes are not."""
    estimated = body_sizes(measured={"arm_length": 0.66}, table=_table(), stature=stature, mass=70.0)
    found = body_findings(estimated, grip=0.034, stature=stature)
    assert ("body_extrapolated" in [finding.code for finding in found]) == told
    assert body_findings(Body(arm_length=_size(0.66)), grip=0.034, stature=stature) == []


# Seated


def test_a_rower_in_the_head():
    """Hip 0.42 m forward of the pins; hands 0.18 m aft to 0.27 m forward; knee over the heel, 0.40 m from it."""
    seated = seat_rower(body=_body(), posture=POSTURE, **SEAT)
    assert seated.reach_catch == pytest.approx(0.60 - 0.42)
    assert seated.reach_finish == pytest.approx(0.42 - 0.15)
    assert (seated.hip_x, seated.hip_z, seated.trunk, seated.arm) == pytest.approx((0.42, 0.09, 0.50, 0.65))
    assert seated.heel_x == pytest.approx(0.02)
    assert seated.brace_from_seat_edge == pytest.approx(0.28)
    outline = {"hip_x": 0.42, "thigh_top": 0.16, "knee_x": 0.02, "knee_top": 0.15, "toe_x": 0.02, "toe_top": 0.05}
    assert {name: getattr(seated.legs, name) for name in outline} == pytest.approx(outline)
    assert (seated.why_no_reach, seated.why_no_legs) == ("", "")


def test_a_brace_that_is_told():
    """A brace at a known distance bends the knee as it will, and the bend is kept in the working."""
    work = Working()
    seated = seat_rower(body=_body(), posture=POSTURE, brace_from_seat_edge=0.28, work=work, **SEAT)
    lines = {line.name: line.result.value for line in work.lines}
    assert lines["rower.knee_flexion"] == pytest.approx(math.pi / 2)
    assert "rower.brace_from_hip" not in lines
    assert lines["rower.knee_top"] == pytest.approx(0.15) == seated.legs.knee_top
    further = seat_rower(body=_body(), posture=POSTURE, brace_from_seat_edge=0.40, **SEAT)
    assert further.legs.knee_top < seated.legs.knee_top  # straighter legs, lower knees
    assert further.heel_x == pytest.approx(0.42 - 0.52)


def test_a_reach_that_is_measured():
    """Measured reaches stand, body or no body."""
    told = {"reach_catch": 0.37, "reach_finish": 0.21}
    for body in (_body(), Body()):
        seated = seat_rower(body=body, posture=POSTURE, **SEAT, **told)
        assert (seated.reach_catch, seated.reach_finish, seated.why_no_reach) == (0.37, 0.21, "")
    half = seat_rower(body=_body(), posture=POSTURE, **SEAT, reach_catch=0.37)
    assert half.reach_finish == pytest.approx(0.27)


def test_the_posture_counts():
    """Trunk, hip and hand at the finish move the reach as they should."""
    leaning = seat_rower(body=_body(), posture=replace(POSTURE, trunk_at_catch=math.radians(30)), **SEAT)
    level = math.sqrt(0.65**2 - (0.09 + 0.50 * math.cos(math.radians(30)) - 0.34) ** 2)
    assert leaning.reach_catch == pytest.approx(level + 0.25 - 0.42)
    back = seat_rower(body=_body(), posture=replace(POSTURE, hand_at_finish=0.08), **SEAT)
    assert back.reach_finish == pytest.approx(0.34)
    high = seat_rower(body=_body(), posture=replace(POSTURE, hip_above_seat=0.11), **SEAT)
    assert high.trunk == pytest.approx(0.48)
    assert high.reach_catch == pytest.approx(0.18)  # upright, the shoulder stays where it is


def test_posture_where_nothing_is_told():
    """Hip 90 mm over the seat (common practice); the rest are choices of the project, written down here once more."""
    assert Posture() == Posture(
        hip_above_seat=0.090, hip_forward_of_seat_edge=0.120, trunk_at_catch=math.radians(30),
        trunk_at_finish=math.radians(-15), hand_at_finish=0.150, knee_flexion=math.radians(35),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("missing", "reason"),
    [
        ({"arm_length": None}, "shoulder height and arm length are not known"),
        ({"shoulder_height": None}, "shoulder height and arm length are not known"),
    ],
)
def test_an_unknown_body_has_reasons(missing, reason):
    """What cannot be known is None with a reason, and what can be known still is."""
    seated = seat_rower(body=_body(**missing), posture=POSTURE, **SEAT)
    assert seated.reach_catch is None
    assert seated.why_no_reach.startswith(reason)
    assert seated.reach_finish == pytest.approx(0.27)
    assert seated.legs is not None


@pytest.mark.parametrize("missing", ["thigh_length", "shank_length", "thigh_thickness"])
def test_unknown_legs_have_reasons(missing):
    """Without one of their sizes there are no legs; the reach is not touched."""
    seated = seat_rower(body=_body(**{missing: None}), posture=POSTURE, **SEAT)
    assert (seated.legs, seated.heel_x, seated.brace_from_seat_edge) == (None, None, None)
    assert seated.why_no_legs.startswith("the legs are not known")
    assert seated.reach_catch == pytest.approx(0.18)


def test_an_unknown_station_has_reasons():
    """Without the seat's distance there is neither reach nor legs; without the heels' height no legs."""
    nowhere = seat_rower(body=_body(), posture=POSTURE, **SEAT | {"seat_edge_to_pins": None})
    assert (nowhere.reach_catch, nowhere.reach_finish, nowhere.legs, nowhere.hip_x) == (None, None, None, None)
    assert "rig.seat_edge_to_pins" in nowhere.why_no_reach
    assert "rig.seat_edge_to_pins" in nowhere.why_no_legs
    no_heels = seat_rower(body=_body(), posture=POSTURE, **SEAT | {"seat_above_heels": None})
    assert "boat.seat_above_heels" in no_heels.why_no_legs
    assert no_heels.reach_catch == pytest.approx(0.18)


def test_without_a_foot_the_toes_are_the_heels():
    """A foot that is not known leaves the outline to end at the heels."""
    seated = seat_rower(body=_body(foot_length=None), posture=POSTURE, **SEAT)
    assert seated.legs.toe_top == pytest.approx(-0.21)


def test_nothing_is_nan():
    """Whatever is left out, no number that comes back is NaN."""
    for missing in ({}, *({name: None} for name in ("arm_length", "thigh_length", "foot_length", "shoulder_height"))):
        seated = seat_rower(body=_body(**missing), posture=POSTURE, **SEAT)
        for field in fields(Seated):
            value = getattr(seated, field.name)
            numbers = [getattr(value, name) for name in Legs.__slots__] if isinstance(value, Legs) else [value]
            assert not any(np.isnan(number) for number in numbers if isinstance(number, float))


# Bodies that cannot


@pytest.mark.parametrize(("changed", "above"), [({"hand_height": -0.07}, 0.66), ({"hand_height": 1.25}, 0.66)])
def test_arms_that_cannot_reach(changed, above):
    """Grips further under or over the shoulder, at 0.59 m, than the arm is long are refused with both numbers."""
    with pytest.raises(BadDesign, match="arms cannot reach the grips at the catch") as refused:
        seat_rower(body=_body(), posture=POSTURE, **SEAT | changed)
    assert refused.value.quantities["above"].value == pytest.approx(above)
    assert refused.value.quantities["arm"].value == pytest.approx(0.65)
    assert "0.66 m" in str(refused.value)


def test_legs_that_do_not_reach_the_brace():
    """A brace beyond the straight leg says by how much along the keel, and brought so much nearer it is reached."""
    with pytest.raises(BadDesign, match="further than the legs reach; bring it nearer") as refused:
        seat_rower(body=_body(), posture=POSTURE, brace_from_seat_edge=0.63, **SEAT)
    short = refused.value.quantities["short"].value
    assert short == pytest.approx(0.75 - math.sqrt(0.70**2 - 0.30**2))
    nearer = seat_rower(body=_body(), posture=POSTURE, brace_from_seat_edge=0.63 - short - 1e-9, **SEAT)
    assert nearer.legs is not None


def test_a_straight_leg_is_no_mistake():
    """A brace that the leg just reaches leaves it straight."""
    assert legs.knee_bend(thigh=0.4, shank=0.35, brace=0.6, hip_above_seat=0.1, seat_above_heels=0.35) == pytest.approx(
        0.0, abs=1e-6
    )


def test_legs_that_cannot_fold():
    """A brace nearer than thigh and shank differ is refused, with the distance."""
    with pytest.raises(BadDesign, match="nearer than the legs can fold") as refused:
        seat_rower(body=_body(thigh_length=0.62, shank_length=0.25), posture=POSTURE, brace_from_seat_edge=0.07, **SEAT)
    assert refused.value.quantities["away"].value == pytest.approx(math.hypot(0.19, 0.30))


def test_a_hip_too_high():
    """A seat higher over the heels than the bent leg, 0.50 m, is long is refused, with the hip's height."""
    with pytest.raises(BadDesign, match="nobody can sit so") as refused:
        seat_rower(body=_body(), posture=POSTURE, **SEAT | {"seat_above_heels": 0.42})
    assert refused.value.quantities["drop"].value == pytest.approx(0.51)


def test_a_reach_behind_the_pins():
    """Hands that get no further aft than where they finish make no stroke; the arc lacking is told."""
    rig = rig_from_station(
        beam=0.9, lock_overhang=0.1, seat_above_water=0.08, lock_above_water=0.3, overlap=0.12, length=2.2
    )
    with pytest.raises(BadDesign, match="the reach lies behind the pins") as refused:
        stroke_of_rig(rig, reach_catch=-0.30, reach_finish=0.25)
    level = rig.hand_arm * math.cos(rig.dip_in_drive)
    lacking = math.asin(0.25 / level) - math.asin(0.30 / level)
    assert refused.value.quantities["arc"].value == pytest.approx(lacking)
    assert lacking < 0
    assert stroke_of_rig(rig, reach_catch=-0.10, reach_finish=0.25).arc > 0  # a short one is still a stroke


def test_one_bad_rower_among_many_is_found():
    """In an array one that cannot reach is enough, and its number is the one told."""
    edges = np.array([0.34, -0.07, 0.30])
    with pytest.raises(BadDesign, match="cannot reach") as refused:
        reach.catch_reach(
            arm=0.65, trunk=0.50, trunk_angle=0.0, hip_above_seat=0.09, hand_height=edges, seat_edge_to_pins=0.3,
            hip_forward_of_seat_edge=0.12,
        )  # fmt: skip
    assert refused.value.quantities["above"].value == pytest.approx(0.66)
    with pytest.raises(BadDesign, match="no stroke"):
        arc.stroke_arc(catch=np.array([0.9, 0.1]), finish=np.array([-0.4, 0.1]))
    with pytest.raises(BadDesign, match="nobody can sit so"):
        legs.brace_distance(
            thigh=0.4, shank=0.3, flexion=math.pi / 2, hip_above_seat=0.09, seat_above_heels=np.array([0.2, 0.42])
        )


# Over the legs

OUTLINE = Legs(hip_x=0.40, thigh_top=0.16, knee_x=0.0, knee_top=0.20, toe_x=-0.40, toe_top=0.10)


def _over(x, y, z):
    hand = Place(x=np.array([x]), y=np.array([y]), z=np.array([z]))
    return float(leg_clearance(hand, OUTLINE, seat_above_water=0.1)[0])


def test_over_the_legs():
    """Hand less seat, half a fist, clothing and leg: 0.40 - 0.10 - 0.045 - 0.015 leaves 0.24 less the leg."""
    assert _over(0.60, 0.0, 0.40) == pytest.approx(0.24 - 0.16)
    assert _over(0.30, 0.1, 0.40) == pytest.approx(0.24 - 0.17)
    assert _over(0.0, -0.1, 0.40) == pytest.approx(0.24 - 0.20)
    assert _over(-0.30, 0.1, 0.40) == pytest.approx(0.24 - 0.125)
    assert _over(-0.70, 0.1, 0.30) == pytest.approx(0.14 - 0.10)
    assert _over(0.0, 0.1, 0.34) == pytest.approx(-0.02)


def test_outside_the_legs():
    """A fist whose middle is 0.21 m and half a fist from the centreline, or more, passes outside, on either side."""
    for sign in (1, -1):
        assert _over(0.0, sign * 0.256, 0.2) == math.inf
        assert _over(0.0, sign * 0.254, 0.2) == pytest.approx(0.04 - 0.20)


def test_leg_top_of_bodies_in_an_array():
    """Each body has its own outline."""
    both = Legs(**{name: np.array([getattr(OUTLINE, name), getattr(OUTLINE, name) - 0.05]) for name in Legs.__slots__})
    assert leg_top(both, 0.2) == pytest.approx([0.18, 0.11 + 0.04 * 0.15 / 0.40])


def test_no_legs_no_clearance():
    """Where legs or sides are not known the stroke holds None for them, and the rest."""
    rig = rig_from_station(
        beam=0.9, lock_overhang=0.1, seat_above_water=0.08, lock_above_water=0.3, overlap=0.12, length=2.2
    )
    stroke = stroke_of_rig(rig, reach_catch=0.35, reach_finish=0.25)
    assert (stroke.legs, stroke.legs_feathered, stroke.sides) == (None, None, None)
    assert stroke.arc > 1.0


def test_a_short_arc_made_longer():
    """Hands that reach further by what the finding says sweep the arc that it wants, and it is gone."""
    inputs = example_project("quillet").inputs

    def made(reach_catch):
        return design(replace(inputs, rower=replace(inputs.rower, reach_catch=reach_catch, reach_finish=0.15)))

    (short,) = [finding for finding in made(0.25).findings if finding.code == "short_arc"]
    assert short.level == "caution"
    assert short.quantities["arc"].value < short.quantities["short"].value
    followed = made(0.25 + short.quantities["more"].value + 1e-6)
    assert float(followed.stroke.arc) == pytest.approx(short.quantities["short"].value, abs=1e-5)  # 1 um further
    assert "short_arc" not in [finding.code for finding in followed.findings]


def test_the_sides_of_a_station():
    """Hands that pass inside the rail of a told thickness come as near to it as its inner face stands."""
    inputs = example_project("quillet").inputs
    made = design(inputs)
    station = replace(inputs.station, rail_thickness=inputs.station.rail_thickness + 0.030, coaming_above_rail=0.300)
    high = replace(inputs.station, coaming_above_rail=0.300)  # well over the hands: only the inner face counts
    told = [design(replace(inputs, station=sides)).stroke.sides.clearance for sides in (high, station)]
    assert told[0] - told[1] == pytest.approx(0.030, abs=1e-9)
    rig, stroke = made.rig, made.stroke
    inner = float(inputs.station.beam) / 2 - float(inputs.station.rail_thickness)
    hand = float(rig.span) / 2 - float(rig.hand_arm) * math.cos(float(rig.dip_in_drive)) * math.cos(
        float(max(stroke.catch_angle, -stroke.finish_angle))
    )
    assert told[0] == pytest.approx(inner - hand - 0.045, abs=1e-9)  # the hand at its widest, less half a fist
