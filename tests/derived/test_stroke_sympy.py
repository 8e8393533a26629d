"""Reach, legs, arc and passing hands derived again: rods and oars are placed in space, turned and solved for.

Every source here is plane or solid geometry. SymPy's rotation matrices, its circles and its calculus make the picture;
`fsolve` of SciPy closes the chain of the leg. Numbers are unequal throughout.
"""

import math

import numpy as np
import pytest
import sympy
from scipy.optimize import fsolve
from sympy import Circle, Matrix, Point, Rational, nsolve
from sympy.abc import k, u, x, y

from oarkit.rower import legs, reach
from oarkit.stroke import arc, hands
from oarkit.stroke.path import place_along, sweep_angles
from oarkit.working import BadDesign

EXACT = 1e-10  # closed forms against roots that SymPy and SciPy find to some twelve digits
ARM, TRUNK, HIP, EDGE, FORWARD, HAND = 0.662, 0.487, 0.093, 0.307, 0.118, 0.341  # rower and seat [m]
THIGH, SHANK, HEELS = 0.431, 0.447, 0.172  # leg, and the seat over the heels [m]
HAND_ARM, BLADE_ARM, SPAN, LOCK = 0.573, 1.371, 1.083, 0.297  # rig [m]
DIP = 0.163  # [rad]


def _turned(angle) -> Matrix:
    """Turns a vector (aft, up) from up toward aft."""
    return Matrix([[sympy.cos(angle), sympy.sin(angle)], [-sympy.sin(angle), sympy.cos(angle)]])


# Reach


@pytest.mark.parametrize("lean", [0.53, -0.21])
def test_catch_reach(lean):
    """The hand lies on a circle about the shoulder, at its height, on the aft side."""
    hip = Matrix([-(EDGE + FORWARD), HIP])  # aft of the pins, above the seat
    shoulder = hip + _turned(lean) * Matrix([0, TRUNK])
    circle = (x - shoulder[0]) ** 2 + (HAND - shoulder[1]) ** 2 - ARM**2
    aft = max(sympy.solve(circle, x))
    found = reach.catch_reach(
        arm=ARM, trunk=TRUNK, trunk_angle=lean, hip_above_seat=HIP, hand_height=HAND, seat_edge_to_pins=EDGE,
        hip_forward_of_seat_edge=FORWARD,
    )  # fmt: skip
    assert found == pytest.approx(float(aft), rel=EXACT)


@pytest.mark.parametrize("hand", [HIP + TRUNK + ARM + 0.01, HIP + TRUNK - ARM - 0.01])
def test_a_circle_that_the_hand_misses(hand):
    """Where the circle has no real point at that height, the reach is refused, from above and from below."""
    assert not any(root.is_real for root in sympy.solve(x**2 + (hand - HIP - TRUNK) ** 2 - ARM**2, x))
    with pytest.raises(BadDesign, match="cannot reach the grips"):
        reach.catch_reach(
            arm=ARM, trunk=TRUNK, trunk_angle=0.0, hip_above_seat=HIP, hand_height=hand, seat_edge_to_pins=EDGE,
            hip_forward_of_seat_edge=FORWARD,
        )  # fmt: skip


def test_finish_reach():
    """Pins, seat edge, hip and hand lie on one line along the keel."""
    pins, edge = Point(0, 0), Point(EDGE, 0)  # forward of the pins
    hand = edge + Point(FORWARD, 0) - Point(Rational("0.164"), 0)
    found = reach.finish_reach(seat_edge_to_pins=EDGE, hip_forward_of_seat_edge=FORWARD, hand_at_finish=0.164)
    assert found == pytest.approx(float((hand - pins).x), rel=EXACT)


# Legs: a chain of two rods from the hip, the second bent down from the first by the flexion


def _chain(flexion) -> tuple[float, float, float]:
    """Heel distance along the keel, and knee aft of and above the hip, of a leg whose heel stands on the boat."""

    def off(unknown):
        raised, brace = unknown
        knee = THIGH * np.array([math.cos(raised), math.sin(raised)])
        heel = knee + SHANK * np.array([math.cos(raised - flexion), math.sin(raised - flexion)])
        return heel - [brace, -(HIP + HEELS)]

    (raised, brace), _, solved, _ = fsolve(off, [0.2, 0.7], full_output=True, xtol=1e-13)
    assert solved == 1
    return brace, THIGH * math.cos(raised), THIGH * math.sin(raised)


STATION = {"thigh": THIGH, "shank": SHANK, "hip_above_seat": HIP, "seat_above_heels": HEELS}


@pytest.mark.parametrize("flexion", [0.31, 0.61, 1.2])
def test_leg_of_two_rods(flexion):
    """Brace, bend and place of the knee are those of the chain."""
    brace, aft, above = _chain(flexion)
    assert legs.brace_distance(flexion=flexion, **STATION) == pytest.approx(brace, rel=EXACT)
    assert legs.knee_bend(brace=brace, **STATION) == pytest.approx(flexion, rel=1e-9)  # an arc cosine near 1
    knee = legs.knee_place(brace=brace, **STATION)
    assert knee.aft_of_hip == pytest.approx(aft, rel=1e-9)
    assert knee.top_above_seat == pytest.approx(HIP + above + 0.060, rel=1e-9)  # 60 mm from joint to top


@pytest.mark.parametrize("brace", ["0.55", "0.71", "0.82"])
def test_knee_by_two_circles(brace):
    """SymPy's circles about hip and heel cut where the knee is, the upper of the two cuts."""
    about_hip = Circle(Point(0, Rational(str(HIP))), Rational(str(THIGH)))
    about_heel = Circle(Point(Rational(brace), -Rational(str(HEELS))), Rational(str(SHANK)))
    upper = max(about_hip.intersection(about_heel), key=lambda point: float(point.y))
    knee = legs.knee_place(brace=float(brace), **STATION)
    assert knee.aft_of_hip == pytest.approx(float(upper.x), rel=EXACT)
    assert knee.top_above_seat == pytest.approx(float(upper.y) + 0.060, rel=EXACT)
    thigh, shank = upper - about_hip.center, about_heel.center - upper
    cosine = (thigh.x * shank.x + thigh.y * shank.y) / (thigh.distance((0, 0)) * shank.distance((0, 0)))
    assert legs.knee_bend(brace=float(brace), **STATION) == pytest.approx(math.acos(float(cosine)), rel=EXACT)


def test_circles_that_do_not_cut():
    """A brace beyond both rods, or one within their difference, is refused; so is a hip above the bent leg."""
    far, drop = THIGH + SHANK + 0.005, HIP + HEELS
    with pytest.raises(BadDesign, match="further than the legs reach") as refused:
        legs.knee_bend(brace=math.sqrt(far**2 - drop**2), **STATION)
    straight = math.sqrt((THIGH + SHANK) ** 2 - drop**2)  # along the keel, as the brace is moved
    assert refused.value.quantities["short"].value == pytest.approx(math.sqrt(far**2 - drop**2) - straight)
    with pytest.raises(BadDesign, match="nearer than the legs can fold"):
        legs.knee_bend(thigh=0.60, shank=0.25, brace=0.22, hip_above_seat=0.09, seat_above_heels=0.17)
    with pytest.raises(BadDesign, match="nobody can sit so") as refused:
        legs.brace_distance(thigh=THIGH, shank=SHANK, flexion=2.6, hip_above_seat=HIP, seat_above_heels=HEELS)
    assert refused.value.quantities["drop"].value == pytest.approx(drop)


# Oars in space: x forward, y to port, z up


def _point(side, along, sweep, dip, span=SPAN, lock=LOCK) -> Matrix:
    """A point of an oar: level and square to port, its blade turned down, then toward the bow; starboard mirrored."""
    down = Matrix([[1, 0, 0], [0, sympy.cos(dip), sympy.sin(dip)], [0, -sympy.sin(dip), sympy.cos(dip)]])
    forward = Matrix([[sympy.cos(sweep), sympy.sin(sweep), 0], [-sympy.sin(sweep), sympy.cos(sweep), 0], [0, 0, 1]])
    port = Matrix([0, span / 2, lock]) + forward * down * Matrix([0, along, 0])
    return port if side == "port" else sympy.diag(1, -1, 1) * port


@pytest.mark.parametrize("side", ["port", "starboard"])
@pytest.mark.parametrize("along", [-HAND_ARM, BLADE_ARM])
@pytest.mark.parametrize("sweep", [0.83, -0.41])
def test_place_along(side, along, sweep):
    """A point of the oar stands where two rotations put it: dip about its own pin, then sweep."""
    found = place_along(side=side, along=along, sweep=sweep, dip=DIP, span=SPAN, lock_above_water=LOCK)
    there = _point(side, along, sweep, DIP)
    assert [found.x, found.y, found.z] == pytest.approx([float(part) for part in there], rel=EXACT)


def test_angles_of_catch_and_finish():
    """The oar is turned until the hand is as far aft, or forward, as it reaches."""
    aft = nsolve(_point("port", -HAND_ARM, x, DIP)[0] + 0.471, x, 0.9)
    forward = nsolve(_point("port", -HAND_ARM, x, DIP)[0] - 0.262, x, -0.4)
    assert arc.catch_angle(reach=0.471, hand_arm=HAND_ARM, dip=DIP) == pytest.approx(float(aft), rel=EXACT)
    assert arc.finish_angle(reach=0.262, hand_arm=HAND_ARM, dip=DIP) == pytest.approx(float(forward), rel=EXACT)


def test_a_reach_beyond_the_oar():
    """A hand that would go beyond the circle, or past a lock's own limit, stops there, at either end."""
    long = {"reach": 0.7, "hand_arm": HAND_ARM, "dip": DIP}
    assert arc.catch_angle(**long) == pytest.approx(math.radians(80))
    assert arc.finish_angle(**long) == pytest.approx(-math.radians(80))
    assert arc.catch_angle(**long, limit=0.9) == 0.9
    assert arc.finish_angle(**long, limit=-0.6) == -0.6


def test_hand_travel():
    """Path and chord of the hand: the integral of its speed over the angle, and its way along the keel."""
    catch, finish = Rational("0.87"), -Rational("0.52")
    hand = _point("port", -Rational(str(HAND_ARM)), x, Rational(str(DIP)))
    speed = sympy.simplify(sympy.sqrt(sum(part.diff(x) ** 2 for part in hand)))
    path = sympy.integrate(speed, (x, finish, catch))
    way = hand[0].subs(x, finish) - hand[0].subs(x, catch)
    swept = arc.stroke_arc(catch=0.87, finish=-0.52)
    assert arc.hand_travel(hand_arm=HAND_ARM, dip=DIP, arc=swept) == pytest.approx(float(path), rel=EXACT)
    found = arc.handle_chord(hand_arm=HAND_ARM, dip=DIP, catch=0.87, finish=-0.52)
    assert found == pytest.approx(float(way), rel=EXACT)


def test_arc_of_chord():
    """Two places of one hand as far from square as each other are a chord apart."""
    between = _point("port", -HAND_ARM, x / 2, 0) - _point("port", -HAND_ARM, -x / 2, 0)
    swept = nsolve(between.norm() - 0.62, x, 1.0)
    assert arc.arc_of_chord(chord=0.62, arm=HAND_ARM) == pytest.approx(float(swept), rel=EXACT)
    with pytest.raises(BadDesign, match="more than the whole circle"):
        arc.arc_of_chord(chord=2.01 * HAND_ARM, arm=HAND_ARM)


# Passing hands


def test_hand_distance():
    """The formula at the head of `hands` is the distance of two hands in space, one oar before the other."""
    theta, psi, beta, span, arm, over = sympy.symbols("theta psi beta S l_h v", positive=True)
    port = _point("port", -arm, theta + psi / 2, beta, span, 0)
    starboard = _point("starboard", -arm, theta - psi / 2, beta, span, over)
    apart = port - starboard
    across = 2 * arm * sympy.cos(beta) * sympy.cos(theta)
    said = across**2 - 2 * span * across * sympy.cos(psi / 2) + span**2 + over**2
    assert sympy.simplify(sympy.expand_trig(apart.dot(apart) - said)) == 0
    at = {theta: 0.37, psi: 0.22, beta: DIP, span: SPAN, arm: HAND_ARM, over: 0.053}
    found = hands.hand_distance(sweep=0.37, hand_arm=HAND_ARM, dip=DIP, span=SPAN, apart=0.053, lead=0.22)
    assert found == pytest.approx(float(apart.norm().subs(at)), rel=EXACT)


def test_meeting_angle():
    """Two hands that sweep alike stand at one place in plan where their difference across the boat is nil."""
    hand = _point("port", -HAND_ARM, x, DIP)
    meet = nsolve(hand[1], x, 0.3)
    assert hands.meeting_angle(span=SPAN, hand_arm=HAND_ARM, dip=DIP) == pytest.approx(float(meet), rel=EXACT)
    assert hands.meeting_angle(span=2.01 * HAND_ARM, hand_arm=HAND_ARM, dip=0.0) == 0.0


def test_least_apart():
    """One hand over the other by so much makes the distance in space the wanted one where they are nearest in plan."""
    over = sympy.Symbol("over", positive=True)
    (needed,) = sympy.solve(sympy.sqrt(Rational("0.031") ** 2 + over**2) - Rational("0.087"), over)
    assert hands.least_apart(least_across=0.031, wanted=0.087) == pytest.approx(float(needed), rel=EXACT)
    assert hands.least_apart(least_across=0.0871, wanted=0.087) == 0.0


def _squared(across, lead, over=0.0):
    return across**2 - 2 * SPAN * across * sympy.cos(lead / 2) + SPAN**2 + over**2


def test_least_lead_within_the_arc():
    """Where the nearest pass lies within the arc, its place is a root of the derivative, and the lead makes it D."""
    wanted, over = 0.090, 0.037
    (nearest,) = sympy.solve(_squared(u, k, over).diff(u), u)
    lead = float(nsolve(_squared(nearest, k, over) - wanted**2, k, 0.1))
    assert 0.8 < float(nearest.subs(k, lead)) < 1.13  # within the ends below
    found = hands.least_lead(least_u=0.8, most_u=1.13, span=SPAN, apart=over, wanted=wanted)
    assert found == pytest.approx(lead, rel=1e-9)  # an arc cosine near 1 costs two digits
    assert found < hands.least_lead(least_u=0.8, most_u=1.13, span=SPAN, apart=0.0, wanted=wanted)


@pytest.mark.parametrize(("least", "most", "worst"), [(0.6, 1.01, 1.01), (1.10, 1.2, 1.10), (1.0, 1.02, 1.02)])
def test_least_lead_at_an_end(least, most, worst):
    """Where the hands are still drawing together at an end of the arc, the lead makes the distance D there."""
    lead = float(nsolve(_squared(worst, k) - 0.090**2, k, 0.1))
    found = hands.least_lead(least_u=least, most_u=most, span=SPAN, apart=0.0, wanted=0.090)
    assert found == pytest.approx(lead, rel=1e-9)
    ends = [float(_squared(end, lead)) for end in (least, most)]
    assert min(ends) == pytest.approx(0.090**2, rel=1e-9)


def test_no_lead_is_needed():
    """Hands that stay apart, or that pass one over the other by more than a fist, need no lead."""
    assert hands.least_lead(least_u=0.6, most_u=0.98, span=SPAN, apart=0.0, wanted=0.090) == 0.0
    assert hands.least_lead(least_u=0.6, most_u=1.2, span=SPAN, apart=0.091, wanted=0.090) == pytest.approx(0, abs=1e-7)


def test_lead_angle():
    """One oar square, the other turned until its hand is so far ahead along the keel."""
    lead = nsolve(_point("port", -HAND_ARM, x, DIP)[0] + 0.143, x, 0.2)
    assert hands.lead_angle(ahead=0.143, hand_arm=HAND_ARM, dip=DIP) == pytest.approx(float(lead), rel=EXACT)
    with pytest.raises(BadDesign, match="cannot be kept"):
        hands.lead_angle(ahead=HAND_ARM * math.cos(DIP), hand_arm=HAND_ARM, dip=DIP)


# One hand over the other with level locks: two real oars at unequal dips


def _pair(over):
    """Dips of two level-locked oars, one hand over the other by so much, dipped as much up as down."""
    upper = float(nsolve(_point("port", -HAND_ARM, 0, x)[2] - LOCK - over / 2, x, 0.05))
    lower = float(nsolve(_point("starboard", -HAND_ARM, 0, y)[2] - LOCK + over / 2, y, -0.05))
    return _point("port", BLADE_ARM, 0, upper), _point("starboard", BLADE_ARM, 0, lower)


def test_blade_depth_difference():
    """The oar of the upper hand has its blade deeper, by the difference of two placed blades."""
    upper, lower = _pair(0.063)
    found = hands.blade_depth_difference(apart=0.063, blade_arm=BLADE_ARM, hand_arm=HAND_ARM)
    assert found == pytest.approx(float(lower[2] - upper[2]), rel=EXACT)


def test_hiding_heel():
    """A boat heeled by so much, away from the deeper blade, has both blades at one height."""
    upper, lower = _pair(0.063)
    lifted = [sympy.sin(x) * place[1] + sympy.cos(x) * place[2] for place in (upper, lower)]
    heel = nsolve(lifted[0] - lifted[1], x, 0.03)
    found = hands.hiding_heel(apart=0.063, blade_arm=BLADE_ARM, hand_arm=HAND_ARM, span=SPAN)
    # The formula takes the oars as level in plan; at dips of 3.2 degrees a cosine is 0.0015 short, the blades' part.
    assert found == pytest.approx(float(heel), rel=0.0015)


def test_hiding_heel_of_a_small_difference():
    """As the hands come to one height the formula is exact: one over the other by 0.1 mm."""
    upper, lower = _pair(1e-4)
    heel = math.atan2(float(lower[2] - upper[2]), float(upper[1] - lower[1]))
    found = hands.hiding_heel(apart=1e-4, blade_arm=BLADE_ARM, hand_arm=HAND_ARM, span=SPAN)
    assert found == pytest.approx(heel, rel=1e-7)  # the cosine of 0.0001 rad is 4e-9 short


# Passing as a whole


@pytest.mark.parametrize(
    ("catch", "finish"),
    [(0.9, -0.6), (1.0, 0.15), (-0.2, -0.9)],  # past square, short of it, beyond it
)
def test_needs_of_a_pass_hold_over_the_arc(catch, finish):
    """Needs in closed form agree with the angle of nearest pass that calculus finds on that arc."""
    arm, span = 0.573, 1.149  # grips that draw near without crossing
    sweep = sweep_angles(catch, finish)
    found = hands.passing(sweep=sweep, hand_arm=arm, dip=DIP, span=span)
    across = span - 2 * arm * sympy.cos(DIP) * sympy.cos(x)
    stations = [catch, finish, *(root for root in (0.0,) if finish <= root <= catch)]  # ends, and where it turns
    assert across.diff(x).subs(x, 0) == 0
    nearest = min(abs(float(across.subs(x, at))) for at in stations)
    assert nearest > 0
    needed = math.sqrt(max(0.090**2 - nearest**2, 0.0))
    assert found.needed_apart == pytest.approx(needed, rel=1e-9)
    assert 0 < found.needed_apart < 0.090


@pytest.mark.parametrize(
    ("catch", "finish", "crosses"), [(0.9, -0.6, True), (0.9, 0.4, False), (0.25, -0.2, False), (-0.1, -0.6, True)]
)
def test_crossing_hands_need_a_whole_fist(catch, finish, crosses):
    """Where the arc holds an angle at which the hands stand at one place, one must pass a fist over the other."""
    meet = float(nsolve(_point("port", -HAND_ARM, x, DIP)[1], x, 0.3))
    assert crosses == (finish < meet < catch or finish < -meet < catch)
    found = hands.passing(sweep=sweep_angles(catch, finish), hand_arm=HAND_ARM, dip=DIP, span=SPAN)
    assert (found.needed_apart == pytest.approx(0.090, abs=1e-12)) == crosses
