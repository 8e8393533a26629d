"""Column buckling by other roads: Euler's uniform bar, the cone that SymPy solves, and shooting with scipy."""

from dataclasses import replace

import numpy as np
import pytest
import sympy
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from oarkit import design, example_project
from oarkit.oar.build import Oar
from oarkit.strength.buckle import buckling_load
from oarkit.working import BadDesign


@pytest.fixture(scope="module")
def oar() -> Oar:
    return design(example_project("quillet").inputs).oars["port"]


def _of(oar: Oar, bending, lateral=None) -> Oar:
    lateral = bending if lateral is None else lateral
    return replace(oar, laminate=replace(oar.laminate, bending_stiffness=bending, lateral_stiffness=lateral))


@pytest.mark.parametrize(("start", "stop"), [(None, None), (0.27, 1.91), (0.0, 2.1)])
def test_euler(oar, start, stop):
    """An even bar buckles at π² E I/L², in either plane, with ends at stations or between them."""
    even = _of(oar, np.full_like(oar.s, 1234.0), np.full_like(oar.s, 870.0))
    first = oar.shape.grip_centre if start is None else start
    last = oar.shape.length if stop is None else stop
    for plane, stiffness in (("stroke", 1234.0), ("lateral", 870.0)):
        exact = np.pi**2 * stiffness / (last - first) ** 2
        found = buckling_load(even, plane=plane, start=start, stop=stop)
        assert found == pytest.approx(exact, rel=1e-6)  # wanted to 1e-5; cubic between stations, wave over two metres


def test_cone(oar):
    """A round taper of 4 to 3 buckles at π² √(E I_a E I_b)/L².

    y = x sin(α(1/a − 1/x)) solves C x⁴ y″ = −C α² y: nil at a, and at b when α(1/a − 1/b) = π.
    """
    x, alpha, a = sympy.symbols("x alpha a", positive=True)
    y = x * sympy.sin(alpha * (1 / a - 1 / x))
    assert sympy.simplify(x**4 * sympy.diff(y, x, 2) + alpha**2 * y) == 0
    assert y.subs(x, a) == 0
    first, last = 0.060, 2.286
    size = np.interp(oar.s, [first, last], [0.044, 0.033])
    stiffness = 10.4e9 * np.pi * size**4 / 64
    at_a, at_b = (10.4e9 * np.pi * d**4 / 64 for d in (0.044, 0.033))
    exact = np.pi**2 * np.sqrt(at_a * at_b) / (last - first) ** 2
    found = buckling_load(_of(oar, stiffness), start=first, stop=last)
    assert found == pytest.approx(exact, rel=1e-6)  # as for the even bar


@pytest.mark.parametrize("plane", ["stroke", "lateral"])
def test_the_example_by_shooting(oar, plane):
    """The oar of the example buckles where scipy, shooting from the hand, just meets the tip."""
    stiffness = oar.laminate.bending_stiffness if plane == "stroke" else oar.laminate.lateral_stiffness

    def miss(push: float) -> float:
        def bow(s, state):
            return [state[1], -push * state[0] / np.interp(s, oar.s, stiffness**0.25) ** 4]

        ends = (oar.shape.grip_centre, oar.shape.length)
        return float(solve_ivp(bow, ends, [0.0, 1.0], rtol=1e-8, atol=1e-10, max_step=0.01).y[0, -1])

    found = buckling_load(oar, plane=plane)
    exact = brentq(miss, 0.7 * found, 1.3 * found, rtol=1e-7)
    assert found == pytest.approx(exact, rel=2e-5)  # the same E I between stations; the steps of either


def test_many_oars_at_once(oar):
    """Three oars in one call buckle as each of them alone."""
    gains = np.array([0.7, 1.0, 1.9])
    many = replace(
        _of(oar, gains[:, None] * oar.laminate.bending_stiffness),
        s=np.broadcast_to(oar.s, (3, len(oar.s))),
    )
    # E I counts as it stands, so the load goes with it.
    assert buckling_load(many) == pytest.approx(gains * buckling_load(oar), rel=1e-9)


def test_ends_off_the_oar(oar):
    """Ends that do not lie on the oar are refused in words."""
    for start, stop in ((-0.1, 1.0), (1.0, 1.0), (0.1, 3.0)):
        with pytest.raises(BadDesign, match="does not lie on an oar"):
            buckling_load(oar, start=start, stop=stop)
