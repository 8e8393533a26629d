"""The first frequency by other roads: a characteristic equation, and finite elements with consistent masses.

An oar is held at grip and lock against moving sideways, free to turn there, and free at both ends.
"""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from scipy.linalg import eigh
from scipy.optimize import brentq

from oarkit import design, example_project
from oarkit.oar.build import Leather, Oar, build_oar
from oarkit.oar.shape import NODES_PER_SEGMENT
from oarkit.strength.bend import first_frequency


@pytest.fixture(scope="module")
def quillet() -> Oar:
    return design(example_project("quillet").inputs).oars["port"]


def _even(oar: Oar, *, stiffness: float, mass_per_length: float) -> Oar:
    """The same oar with one stiffness and one mass per length from end to end."""
    even = np.ones_like(oar.s)
    laminate = replace(oar.laminate, bending_stiffness=stiffness * even, mass_per_length=mass_per_length * even)
    return replace(oar, laminate=laminate, leather=Leather(mass=0.0))


def _characteristic(beta: float, stretches: tuple[float, float, float]) -> float:
    """Determinant of the conditions on an even bar: free, pinned, pinned, free, with three stretches between.

    On each stretch y = a cos + b sin + c cosh + d sinh of beta x, x from the stretch's start.
    """

    def rows(x: float) -> np.ndarray:
        """Deflection, slope, curvature and its slope, all over their power of beta."""
        c, s, ch, sh = np.cos(x), np.sin(x), np.cosh(x), np.sinh(x)
        return np.array([[c, s, ch, sh], [-s, c, sh, ch], [-c, -s, ch, sh], [s, -c, sh, ch]])

    start, (one, two, three) = rows(0.0), (rows(beta * length) for length in stretches)
    matrix = np.zeros((12, 12))
    matrix[0, :4], matrix[1, :4] = start[2], start[3]  # free: no moment, no shear
    for row, end, left, right in ((2, one, slice(0, 4), slice(4, 8)), (6, two, slice(4, 8), slice(8, 12))):
        matrix[row, left], matrix[row + 1, right] = end[0], start[0]  # held on both sides
        matrix[row + 2, left], matrix[row + 2, right] = end[1], -start[1]  # one slope
        matrix[row + 3, left], matrix[row + 3, right] = end[2], -start[2]  # one moment
    matrix[10, 8:], matrix[11, 8:] = three[2], three[3]
    return float(np.linalg.det(matrix))


def _exact(stretches: tuple[float, float, float], stiffness: float, mass_per_length: float) -> float:
    """First frequency of an even bar, the least root of the characteristic equation."""
    trial = np.linspace(0.2, 12, 500) / sum(stretches)
    values = [_characteristic(beta, stretches) for beta in trial]
    first = next(i for i, (a, b) in enumerate(pairwise(values)) if a * b < 0)
    beta = brentq(_characteristic, trial[first], trial[first + 1], args=(stretches,))
    return beta**2 * np.sqrt(stiffness / mass_per_length) / (2 * np.pi)


def _by_elements(nodes, stiffness, mass_per_length, held, lumps=()) -> float:
    """First frequency of a beam of cubic elements with consistent masses, each integrated at five Gauss points."""
    size = 2 * len(nodes)
    stiff, heavy = np.zeros((size, size)), np.zeros((size, size))
    points, weights = np.polynomial.legendre.leggauss(5)
    for i, (start, stop) in enumerate(pairwise(nodes)):
        n = stop - start
        dofs = np.ix_(range(2 * i, 2 * i + 4), range(2 * i, 2 * i + 4))
        for x, weight in zip((points + 1) / 2, weights / 2 * n, strict=True):
            place = start + x * n
            moves = np.array(
                [1 - 3 * x**2 + 2 * x**3, n * (x - 2 * x**2 + x**3), 3 * x**2 - 2 * x**3, n * (x**3 - x**2)]
            )
            bends = np.array([12 * x - 6, n * (6 * x - 4), 6 - 12 * x, n * (6 * x - 2)]) / n**2
            stiff[dofs] += weight * stiffness(place) * np.outer(bends, bends)
            heavy[dofs] += weight * mass_per_length(place) * np.outer(moves, moves)
    for place, mass in lumps:
        at = 2 * int(np.argmin(np.abs(nodes - place)))
        heavy[at, at] += mass
    fixed = [2 * int(np.argmin(np.abs(nodes - place))) for place in held]
    free = np.setdiff1d(np.arange(size), fixed)
    least = eigh(stiff[np.ix_(free, free)], heavy[np.ix_(free, free)], eigvals_only=True, subset_by_index=[0, 0])
    return float(np.sqrt(least[0]) / (2 * np.pi))


STIFFNESS, MASS_PER_LENGTH = 1900.0, 0.71  # E I [N m2], [kg/m]


def _stretches(oar: Oar) -> tuple[float, float, float]:
    shape = oar.shape
    return shape.grip_centre, shape.inboard - shape.grip_centre, shape.length - shape.inboard


def test_even_bar(quillet):
    """An even bar with overhangs of 60 and 1657 mm sounds the least root of its characteristic equation."""
    exact = _exact(_stretches(quillet), STIFFNESS, MASS_PER_LENGTH)
    found = first_frequency(_even(quillet, stiffness=STIFFNESS, mass_per_length=MASS_PER_LENGTH))
    assert found == pytest.approx(exact, rel=2e-4)  # masses lumped at some 370 stations


def test_even_bar_with_a_long_inboard(quillet):
    """The same where the lock stands near the middle of the bar."""
    shape = replace(quillet.shape, grip_centre=0.21, inboard=1.07)
    oar = build_oar(shape, quillet.pieces, Leather(mass=0.0))
    exact = _exact(_stretches(oar), STIFFNESS, MASS_PER_LENGTH)
    found = first_frequency(_even(oar, stiffness=STIFFNESS, mass_per_length=MASS_PER_LENGTH))
    assert found == pytest.approx(exact, rel=2e-4)  # as above


def _nodes(oar: Oar, each: int = 2) -> np.ndarray:
    """Nodes of finite elements, some to each stretch of the oar between two breaks."""
    breaks = np.unique(oar.s.reshape(-1, NODES_PER_SEGMENT)[:, [0, -1]].round(9))
    return np.unique(np.concatenate([np.linspace(a, b, each + 1) for a, b in pairwise(breaks)]))


def test_the_elements_themselves(quillet):
    """The finite elements used below give the even bar its exact frequency."""
    held = (quillet.shape.grip_centre, quillet.shape.inboard)
    found = _by_elements(_nodes(quillet), lambda s: STIFFNESS, lambda s: MASS_PER_LENGTH, held)
    exact = _exact(_stretches(quillet), STIFFNESS, MASS_PER_LENGTH)
    assert found == pytest.approx(exact, rel=1e-4)  # two elements to a stretch


def test_a_known_limit():
    """The characteristic equation has the textbook's root where the overhangs vanish: beta L = pi."""
    assert _exact((1e-6, 1.0, 1e-6), 1.0, 1.0) == pytest.approx(np.pi / 2, rel=1e-5)


def test_quillet_by_elements(quillet):
    """The oar of the example, leather and all, sounds as a finite-element model of it does."""
    laminate = quillet.laminate
    found = _by_elements(
        _nodes(quillet),
        lambda s: np.interp(s, quillet.s, laminate.bending_stiffness),
        lambda s: np.interp(s, quillet.s, laminate.mass_per_length),
        held=(quillet.shape.grip_centre, quillet.shape.inboard),
        lumps=[(quillet.leather_middle, quillet.leather.mass)],
    )
    assert first_frequency(quillet) == pytest.approx(found, rel=3e-4)  # masses lumped at the stations


def test_a_heavy_leather(quillet):
    """A leather as heavy as the oar, well outboard of the lock, lowers the note as it does in the elements."""
    shape = replace(quillet.shape, leather_inboard=-0.40)
    heavy = build_oar(shape, quillet.pieces, Leather(mass=1.5))
    even = replace(_even(heavy, stiffness=STIFFNESS, mass_per_length=MASS_PER_LENGTH), leather=heavy.leather)
    found = _by_elements(
        _nodes(heavy),
        lambda s: STIFFNESS,
        lambda s: MASS_PER_LENGTH,
        held=(shape.grip_centre, shape.inboard),
        lumps=[(shape.leather_start + shape.leather_length / 2, 1.5)],
    )
    assert found < 0.95 * _exact(_stretches(heavy), STIFFNESS, MASS_PER_LENGTH)
    assert first_frequency(even) == pytest.approx(found, rel=3e-4)  # as above
