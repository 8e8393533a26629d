"""Wood Handbook, FPL-GTR-282 (2021), chapter 9: Table 9-1 (p. 9-3), eq. 9-2 and eq. 9-7.

Table 9-1 was read in FPL-GTR-190 (2010), whose equations agree; eq. 9-7 is quoted. Deflection is
k_b W L³/(E I) + k_s W L/(G A'), W the whole load. Clamped ends are cast as an oar that is rigid inboard and held there.
"""

from dataclasses import replace

import numpy as np
import pytest

from oarkit import design, example_project
from oarkit.oar.build import Oar
from oarkit.strength.beam import deflection_at
from oarkit.strength.load import LoadCase, amplification, balanced

STIFFNESS, SHEAR, LOAD = 1700.0, 41e3, 63.0  # E I [N m2], G A' [N] low enough for shear to tell, load [N]
FROM, SPAN = 0.31, 1.73  # where the span begins, off any station, and how long it is [m]
POINTS = 200  # that stand for an even load


@pytest.fixture(scope="module")
def even() -> Oar:
    oar = design(example_project("quillet").inputs).oars["port"]
    flat = np.ones_like(oar.s)
    laminate = replace(
        oar.laminate,
        bending_stiffness=STIFFNESS * flat, lateral_stiffness=3 * STIFFNESS * flat, shear_stiffness=SHEAR * flat,
    )  # fmt: skip
    return replace(oar, laminate=laminate)


def _case(shares, loads, *, plane="stroke", held=(FROM, FROM + SPAN)) -> LoadCase:
    """Loads at shares of the span."""
    first, last = held
    places, forces = balanced(places=[FROM + share * SPAN for share in shares], forces=loads, held=(first, last))
    return LoadCase(name="table", kind="customary", plane=plane, places=places, forces=forces, held=held, basis="")


EVEN = ((np.arange(POINTS) + 0.5) / POINTS, np.full(POINTS, LOAD / POINTS))
ROWS = [
    # loads at shares of the span, read at, k_b, k_s, relative tolerance
    ("uniform", *EVEN, 1 / 2, 5 / 384, 1 / 8, 1e-4),  # 200 points for an even load: (1/200)^2 and a bit
    ("centre", [1 / 2], [LOAD], 1 / 2, 1 / 48, 1 / 4, 1e-9),  # as exact as the sums
    ("two, midspan", [1 / 4, 3 / 4], [LOAD / 2, LOAD / 2], 1 / 2, 11 / 768, 1 / 8, 1e-9),
    ("two, load point", [1 / 4, 3 / 4], [LOAD / 2, LOAD / 2], 1 / 4, 1 / 96, 1 / 8, 1e-9),
]


@pytest.mark.parametrize("plane", ["stroke", "lateral"])
@pytest.mark.parametrize(("name", "shares", "loads", "at", "k_b", "k_s", "near"), ROWS, ids=[row[0] for row in ROWS])
def test_simple_supports(even, plane, name, shares, loads, at, k_b, k_s, near):
    """Table 9-1, simply supported, in either plane."""
    case = _case(shares, loads, plane=plane)
    stiffness = STIFFNESS if plane == "stroke" else 3 * STIFFNESS
    bending, shear = k_b * LOAD * SPAN**3 / stiffness, k_s * LOAD * SPAN / SHEAR
    found = deflection_at(even, case, place=FROM + at * SPAN)
    assert found == pytest.approx(bending + shear, rel=near)
    assert deflection_at(even, case, place=FROM + at * SPAN, with_shear=False) == pytest.approx(bending, rel=near)


CANTILEVERS = [
    ("uniform", EVEN, 1 / 8, 1 / 2, 1e-4),  # as above
    ("end load", ([1.0], [LOAD]), 1 / 3, 1.0, 1e-9),
]


@pytest.mark.parametrize(("name", "loads", "k_b", "k_s", "near"), CANTILEVERS, ids=[row[0] for row in CANTILEVERS])
def test_cantilever(even, name, loads, k_b, k_s, near):
    """Table 9-1, clamped at one end: the oar outboard of a lock that it does not bend inboard of."""
    shape, stiff = even.shape, np.where(even.middle < even.shape.inboard, 1e14, 1.0)
    clamped = replace(
        even,
        laminate=replace(even.laminate, bending_stiffness=STIFFNESS * stiff, shear_stiffness=SHEAR * stiff),
    )
    span = shape.length - shape.inboard
    shares, sizes = loads
    held = (shape.grip_centre, shape.inboard)
    places, forces = balanced(places=[shape.inboard + share * span for share in shares], forces=sizes, held=held)
    case = LoadCase(name="table", kind="customary", plane="stroke", places=places, forces=forces, held=held, basis="")
    exact = k_b * LOAD * span**3 / STIFFNESS + k_s * LOAD * span / SHEAR
    assert deflection_at(clamped, case, place=shape.length) == pytest.approx(exact, rel=near)


def test_axial_with_bending():
    """Eq. 9-7: a deflection grows by 1/(1 − P/P_cr) under a push; a fifth of the buckling load makes it 1.25."""
    assert amplification(axial=300.0, buckling=1500.0) == pytest.approx(1.25)
    assert amplification(axial=-300.0, buckling=1500.0) == pytest.approx(1 / 1.2)  # plus sign for tension
