"""The oar as a beam by other roads: a frame of PyNite, SymPy on a bar of two steps, scipy.quad, and fewer stations."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
import sympy
from Pynite import FEModel3D
from scipy.integrate import quad

from oarkit import design, example_project
from oarkit.oar.build import Oar, build_oar
from oarkit.strength.abuse import pry, push_off, stepped_on
from oarkit.strength.beam import (
    bench_drop_at_tip,
    bent_shape,
    deflection_at,
    deflection_shares,
    in_service,
    moment_along,
    shear_along,
    slope_at,
)
from oarkit.strength.buckle import buckling_load
from oarkit.strength.cases import bench_test, bench_test_at_tip, hard_start, tip_dragged
from oarkit.strength.load import LoadCase


@pytest.fixture(scope="module")
def oar() -> Oar:
    return design(example_project("quillet").inputs).oars["port"]


# Places of the example by its drawing: hand, lock, mid-blade, tip, and half-way from hand to tip [m].
GRIP, LOCK, MIDDLE, TIP, HALF_WAY = 0.06, 0.62865, 2.0066, 2.286, 1.173

CASES = {
    "bench test": bench_test,
    "hard start": hard_start,
    "at the tip": bench_test_at_tip,
    "prying": pry,
    "stepped on, face": lambda oar: stepped_on(oar, plane="stroke", place=1.213),
    "stepped on, edge": lambda oar: stepped_on(oar, plane="lateral", place=0.987),
    "dragged": tip_dragged,
}


APART = 0.010  # least length of a beam of the frame [m]; shorter ones beside long ones upset its solver


def _spread(s: np.ndarray) -> list[float]:
    """Stations at least so far apart."""
    kept = [float(s[0])]
    for place in s:
        if place - kept[-1] > APART:
            kept.append(float(place))
    return kept


def _frame(oar: Oar, case: LoadCase) -> tuple[FEModel3D, np.ndarray]:
    """A frame of beams from station to station, given loads only: the supports find their own."""
    own = oar.laminate.bending_stiffness if case.plane == "stroke" else oar.laminate.lateral_stiffness
    jumps = oar.s[:-1][(np.diff(oar.s) == 0) & (np.abs(np.diff(own)) > 1e-9 * own[:-1])]  # a beam across one is no beam
    must = [0.0, oar.shape.length, *jumps, *(float(place) for place in (*case.places, *case.held))]
    apart = [place for place in _spread(oar.s) if np.min(np.abs(np.subtract(must, place))) > APART / 2]
    s = np.unique(np.concatenate([apart, must]).round(9))
    frame = FEModel3D()
    frame.add_material("unit", E=1.0, G=1.0, nu=0.3, rho=1.0)
    for index, place in enumerate(s):
        frame.add_node(f"{index}", place, 0, 0)
    for index, (start, stop) in enumerate(pairwise(s)):
        stiffness = np.interp((start + stop) / 2, oar.s, own)
        frame.add_section(f"{index}", A=1e6, Iy=stiffness, Iz=stiffness, J=1e6)
        frame.add_member(f"{index}", f"{index}", f"{index + 1}", "unit", f"{index}")
    first, second = (f"{int(np.argmin(np.abs(s - place)))}" for place in case.held)
    frame.def_support(first, True, True, True, True, False, False)
    frame.def_support(second, False, True, True, False, False, False)
    for place, force in list(zip(case.places, case.forces, strict=True))[:-2]:
        frame.add_node_load(f"{int(np.argmin(np.abs(s - place)))}", "FY", float(force))
    frame.analyze_linear(check_statics=False)
    return frame, s


@pytest.mark.parametrize("name", CASES)
def test_in_pynite(oar, name):
    """Deflected shape, slope at the tip, what the supports give and the moments agree with a frame, shear left out."""
    case = CASES[name](oar)
    frame, s = _frame(oar, case)
    bent = bent_shape(oar, case, with_shear=False)
    there = np.array([frame.nodes[f"{index}"].DY["Combo 1"] for index in range(len(s))])
    # 0.2 % is the limit that was set for this comparison; the frame's beams are even, each as stiff as in its middle.
    assert bent.deflection == pytest.approx(np.interp(oar.s, s, there), abs=2e-3 * np.abs(there).max())
    turn = frame.nodes[f"{len(s) - 1}"].RZ["Combo 1"]
    assert slope_at(oar, case, place=oar.shape.length, with_shear=False) == pytest.approx(turn, rel=2e-3)
    given = [frame.nodes[f"{int(np.argmin(np.abs(s - place)))}"].RxnFY["Combo 1"] for place in case.held]
    assert [float(force) for force in case.forces[-2:]] == pytest.approx(
        given, rel=1e-6
    )  # statics: its solver's own rounding
    moments = [frame.members[f"{index}"].moment("Mz", 0, "Combo 1") for index in range(len(s) - 1)] + [0.0]
    largest = np.abs(moments).max()
    assert np.abs(moment_along(oar, case)) == pytest.approx(np.abs(np.interp(oar.s, s, moments)), abs=1e-6 * largest)


# Unit loads by scipy.quad

# Two points of Gauss a step err by h⁴ f⁗/4320; E I changes by less than an eighth from station to station, which makes
# that 3e-7 of the integral where it changes most.
GAUSS = 1e-6


def _by_quad(oar: Oar, effect, start: float, stop: float, *, shear: bool = False, plane: str = "stroke") -> float:
    """Integral of an effect over E I, whose fourth root runs straight between stations, or over G A/k, its square root.

    Both as the beam is said to take them.
    """
    values = oar.laminate.bending_stiffness if plane == "stroke" else oar.laminate.lateral_stiffness
    values, power = (oar.laminate.shear_stiffness, 2) if shear else (values, 4)
    root = values ** (1 / power)
    inner = np.unique(oar.s[(oar.s > start + 1e-9) & (oar.s < stop - 1e-9)])
    return sum(
        quad(lambda s: effect(s) / np.interp(s, oar.s, root) ** power, a, b, epsrel=1e-10)[0]
        for a, b in pairwise([start, *inner, stop])
    )


def _drop_by_unit_load(oar: Oar, *, load: float, place: float) -> tuple[float, float, float]:
    """Drop under a load where it hangs, hand and lock held: bending outboard, bending inboard, and shear."""
    lever = (place - LOCK) / (LOCK - GRIP)
    outboard = _by_quad(oar, lambda s: (place - s) ** 2, LOCK, place)
    inboard = _by_quad(oar, lambda s: (lever * (s - GRIP)) ** 2, GRIP, LOCK)
    shear = _by_quad(oar, lambda s: 1.0, LOCK, place, shear=True)
    shear += _by_quad(oar, lambda s: lever**2, GRIP, LOCK, shear=True)
    return load * outboard, load * inboard, load * shear


@pytest.mark.parametrize(
    ("make", "load", "place"), [(bench_test, 98.0665, MIDDLE), (bench_test_at_tip, 31.13755, TIP - 0.005)]
)
def test_both_customary_benches(oar, make, load, place):
    """10 kg at mid-blade, or 7 lb 5 mm in from the tip, drop by the integral of M m/(E I) and V v/(G A), in shares."""
    outboard, inboard, shear = _drop_by_unit_load(oar, load=load, place=place)
    shares = deflection_shares(oar, make(oar), place=place)
    assert (shares.outboard, shares.inboard, shares.shear) == pytest.approx((outboard, inboard, shear), rel=GAUSS)
    whole = outboard + inboard + shear
    assert deflection_at(oar, make(oar), place=place) == pytest.approx(whole, rel=GAUSS)
    if make is bench_test_at_tip:
        assert bench_drop_at_tip(oar) == pytest.approx(whole, rel=GAUSS)


def test_service(oar):
    """The blade lags by the drop under its force; its face turns by M m/(E I) with a couple of 1 at mid-blade.

    That couple bends the outboard evenly and the inboard as a lever, and shears the inboard by one over the hand's arm.
    Past mid-blade the oar stays straight.
    """
    service = in_service(oar, force=350.0)
    at_blade = 350.0 * (LOCK - GRIP) / (MIDDLE - LOCK)
    lag = sum(_drop_by_unit_load(oar, load=at_blade, place=MIDDLE))
    assert service.lag == pytest.approx(lag, rel=GAUSS)
    assert service.lag_angle == pytest.approx(np.arctan(lag / (MIDDLE - LOCK)), rel=GAUSS)
    lever, arm = (MIDDLE - LOCK) / (LOCK - GRIP), LOCK - GRIP
    turn = _by_quad(oar, lambda s: MIDDLE - s, LOCK, MIDDLE)
    turn += _by_quad(oar, lambda s: lever * (s - GRIP) ** 2 / arm, GRIP, LOCK)
    turn += _by_quad(oar, lambda s: lever / arm, GRIP, LOCK, shear=True)
    assert service.face_turn == pytest.approx(at_blade * turn, rel=GAUSS)
    assert service.tip_turn == pytest.approx(at_blade * turn, rel=GAUSS)


# A bar of two steps by SymPy

SOFT, STIFF, PUSH = 900.0, 2300.0, 71.0  # E I beyond and before the step [N m2], load at mid-blade [N]


def test_two_steps_by_sympy(oar):
    """Deflection and slope at the tip of a bar that steps at the blade root, load at mid-blade, as SymPy has them."""
    shape = oar.shape
    stiffness = np.where(oar.middle < shape.blade_root, STIFF, SOFT)
    bar = replace(oar, laminate=replace(oar.laminate, bending_stiffness=stiffness))
    case = bench_test(oar, load=PUSH)
    e, lock, root, middle, tip = (
        sympy.nsimplify(float(place), rational=True)
        for place in (shape.grip_centre, shape.inboard, shape.blade_root, shape.mid_blade, shape.length)
    )
    x = sympy.Symbol("x")
    inboard = PUSH * (middle - lock) / (lock - e) * (x - e) / STIFF
    slope, bent, start = sympy.Symbol("turn"), sympy.Integer(0), e
    turn = slope
    ends = {}
    for curvature, stop in ((inboard, lock), (PUSH * (middle - x) / STIFF, root), (PUSH * (middle - x) / SOFT, middle)):
        steepness = slope + sympy.integrate(curvature, (x, start, x))
        bent = bent + sympy.integrate(steepness, (x, start, stop))
        slope, start = steepness.subs(x, stop), stop
        ends[stop] = bent
    (found,) = sympy.solve(ends[lock], turn)
    at_tip = (bent + slope * (tip - middle)).subs(turn, found)
    near = 1e-6  # the places of the example, rounded to rationals; the sums are exact for straight moments
    assert deflection_at(bar, case, place=shape.length, with_shear=False) == pytest.approx(float(at_tip), rel=near)
    tip_turn = slope_at(bar, case, place=shape.length, with_shear=False)
    assert tip_turn == pytest.approx(float(slope.subs(turn, found)), rel=near)


def test_shear_by_hand(oar):
    """On an even bar shear alone moves mid-blade by P (l_b + l_b²/l_h)/(G A'), and nothing where it is held."""
    soft = 37e3
    even = replace(oar, laminate=replace(oar.laminate, shear_stiffness=np.full_like(oar.s, soft)))
    case = bench_test(even, load=PUSH)
    l_b, l_h = MIDDLE - LOCK, LOCK - GRIP
    found = deflection_shares(even, case, place=oar.shape.mid_blade).shear
    assert found == pytest.approx(PUSH * (l_b + l_b**2 / l_h) / soft, rel=1e-9)


def test_pry_by_quad(oar):
    """The hand's way down in a pry is the integral of M m/(E I) by scipy.quad."""
    trapped = TIP - 0.005
    ratio = (LOCK - GRIP) / (trapped - LOCK)
    exact = 300.0 * (
        _by_quad(oar, lambda s: (s - GRIP) ** 2, GRIP, LOCK)
        + _by_quad(oar, lambda s: (ratio * (trapped - s)) ** 2, LOCK, trapped)
    )
    assert deflection_at(oar, pry(oar), place=GRIP, with_shear=False) == pytest.approx(exact, rel=GAUSS)


def test_moment_is_the_integral_of_shear(oar):
    """Moment and shear at the oar's own stations belong together, for every case."""
    for make in CASES.values():
        case = make(oar)
        moment, shear = moment_along(oar, case), shear_along(oar, case)
        step = np.diff(oar.s)
        places = np.array([float(place) for place in case.places])
        clear = ~((oar.s[:-1, None] < places - 1e-9) & (places + 1e-9 < oar.s[1:, None])).any(axis=-1) & (step > 0)
        alone = np.append(step > 0, True) & np.insert(
            step > 0, 0, True
        )  # at a force on such a station either side holds
        clear &= ~(alone & np.isclose(oar.s[:, None], places, rtol=0, atol=1e-9).any(axis=-1))[:-1]
        slope = np.diff(moment)[clear] / step[clear]
        assert slope == pytest.approx(shear[:-1][clear], abs=1e-6)  # differences of some hundred N m
        assert np.abs(moment[[0, -1]]).max() < 1e-9  # both ends are free of moment, to rounding


def _thinned(oar: Oar) -> Oar:
    """The oar with every second station within each segment left out."""
    number = np.concatenate([[0], np.cumsum(np.diff(oar.middle) > 1e-12)])
    first = np.searchsorted(number, number)
    within = np.arange(len(number)) - first
    last = np.append(np.diff(number) > 0, True)
    keep = (within % 2 == 0) | last
    names = ("bending_stiffness", "lateral_stiffness", "shear_stiffness")
    laminate = replace(oar.laminate, **{name: getattr(oar.laminate, name)[keep] for name in names})
    return replace(oar, s=oar.s[keep], middle=oar.middle[keep], laminate=laminate)


def test_stations_are_enough(oar):
    """Half the stations, and half again, move drops, slopes and buckling loads by less than 0.1 %."""
    for fewer in (_thinned(oar), _thinned(_thinned(oar))):
        assert len(fewer.s) < 0.6 * len(oar.s)
        for make in CASES.values():
            case = make(oar)
            for reading in (deflection_at, slope_at):
                here, there = (reading(some, case, place=oar.shape.length) for some in (oar, fewer))
                assert there == pytest.approx(here, rel=1e-3)
        for plane in ("stroke", "lateral"):
            assert buckling_load(fewer, plane=plane) == pytest.approx(buckling_load(oar, plane=plane), rel=1e-3)


def test_push_off_bends_once_more(oar):
    """An even bar under side load Q and couple P e by the handbooks' formulas: its moment, bow, turn and shear.

    All of it counts 1/(1 - P/P_cr) times, with Euler's load.
    """
    bar = build_oar(oar.shape, oar.pieces, oar.leather, marks=[HALF_WAY])
    rigid, shear = 1900.0, 43e3
    same = {"bending_stiffness": rigid, "shear_stiffness": shear}
    laminate = replace(bar.laminate, **{name: np.full_like(bar.s, value) for name, value in same.items()})
    case = push_off(replace(bar, laminate=laminate))
    bar, span = replace(bar, laminate=laminate), TIP - GRIP
    more = 1 / (1 - 350 / (np.pi**2 * rigid / span**2))
    couple, side = 350 * 0.020, 80.0
    bow = (side * span**3 / 48 + couple * span**2 / 8) / rigid
    near = 1e-6  # of the buckling load; the rest is exact for straight moments
    found = [deflection_at(bar, case, place=HALF_WAY, with_shear=with_shear) for with_shear in (False, True)]
    assert found == pytest.approx([-more * bow, -more * (bow + side * span / (4 * shear))], rel=near)
    turn = (side * span**2 / 16 + couple * span / 2) / rigid
    ends = [slope_at(bar, case, place=place, with_shear=False) for place in (GRIP, TIP)]
    assert ends == pytest.approx([-more * turn, more * turn], rel=near)
    assert moment_along(bar, case).max() == pytest.approx(more * (couple + side * span / 4), rel=near)
