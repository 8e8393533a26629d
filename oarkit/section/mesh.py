"""A mesh of nine-node elements fitted to a section and to every joint in it.

Columns of nodes stand on every place where a piece begins, ends or has a corner, or where two curves cross; between
them the curves keep their order, so the rows follow them. Rows that fall together are made one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from oarkit.section.regions import Region
from oarkit.working import Array, BadDesign

Integers = NDArray[np.int64]

_SAMPLES = 400  #: places across the width where crossings of curves are looked for
_NARROW = 1e-7  #: share of the width below which two breaks are one, and two curves touch
_LINE = np.array([-1.0, 0.0, 1.0])  #: nodes of an element along one direction


@dataclass(frozen=True, slots=True, kw_only=True)
class Mesh:
    """Nodes [m], elements of nine nodes (3 across by 3 through, columns first) and the region of each element."""

    points: Array
    elements: Integers
    region: Integers


@dataclass(frozen=True, slots=True, kw_only=True)
class Quadrature:
    """At points of every element: values and gradients of its nine shape functions, and the weight in area."""

    shape: Array
    gradient: Array
    weight: Array


def _curves(regions: Sequence[Region], y: Array) -> Array:
    """All curves at places y, cut off at the outline; one row a curve."""
    rows = [
        curve(np.clip(y, region.left, region.right)) for region in regions for curve in (region.lower, region.upper)
    ]
    return np.clip(np.stack(rows), rows[0], rows[1])


def _crossings(regions: Sequence[Region], left: float, right: float) -> list[float]:
    """Places between two breaks where two curves cross, or where one meets the outline, by halving."""
    y = left + (right - left) * (1 - np.cos(np.linspace(0, np.pi, _SAMPLES))) / 2
    rows = np.stack([curve(np.clip(y, r.left, r.right)) for r in regions for curve in (r.lower, r.upper)])
    found = []
    flat = [(r, curve) for r in regions for curve in (r.lower, r.upper)]
    for i in range(len(flat)):
        for j in range(i):
            gap = rows[i] - rows[j]
            for at in np.flatnonzero(gap[1:-2] * gap[2:-1] < 0) + 1:
                low, high = float(y[at]), float(y[at + 1])
                for _ in range(50):
                    middle = (low + high) / 2
                    here = [float(curve(np.clip(np.array(middle), r.left, r.right))) for r, curve in (flat[i], flat[j])]
                    low, high = (low, middle) if (here[0] - here[1]) * gap[at] < 0 else (middle, high)
                found.append(low)
    return found


def _breaks(regions: Sequence[Region]) -> Array:
    """Places across the width where a column of nodes must stand."""
    whole = regions[0]
    narrow = _NARROW * (whole.right - whole.left)
    given = {y for r in regions for y in (r.left, r.right, *r.kinks) if whole.left < y < whole.right}
    places = _apart([whole.left, *given, whole.right], narrow)
    crossed = [c for a, b in pairwise(places) for c in _crossings(regions, a, b)]
    return np.array(_apart([*places, *crossed], narrow))


def _apart(places: list[float], narrow: float) -> list[float]:
    """Places in rising order, those that fall together made one; the first and last stay."""
    rising = sorted(places)
    kept = [rising[0]]
    for place in rising[1:-1]:
        if place - kept[-1] > narrow and rising[-1] - place > narrow:
            kept.append(place)
    return [*kept, rising[-1]]


def _lattice(regions: Sequence[Region], size: float) -> tuple[Array, Array]:
    """Nodes in columns and rows, two steps to an element, not yet joined where rows fall together."""
    places = _breaks(regions)
    columns = [np.array([places[0]])]
    for left, right in pairwise(places):
        count = max(4, int(np.ceil((right - left) / size)))
        columns.append(left + (right - left) * (1 - np.cos(np.pi * np.arange(1, 2 * count + 1) / (2 * count))) / 2)
    y = np.concatenate(columns)
    curves = np.sort(_curves(regions, y), axis=0)
    for lower, upper in pairwise(curves):
        np.copyto(upper, lower, where=upper - lower < _NARROW * (places[-1] - places[0]))
    rows = [curves[0]]
    for lower, upper in pairwise(curves):
        thickest = float(np.max(upper - lower))
        if thickest > 0:
            count = max(2, int(np.ceil(thickest / size)))
            rows += [lower + (upper - lower) * k / (2 * count) for k in range(1, 2 * count + 1)]
    z = np.stack(rows, axis=1)
    return np.broadcast_to(y[:, None], z.shape), z


def _region_at(regions: Sequence[Region], y: Array, z: Array) -> Integers:
    """The last region that covers each place."""
    owner = np.zeros(y.shape, dtype=np.int64)
    for index, region in enumerate(regions[1:], start=1):
        inside = (y > region.left) & (y < region.right)
        at = np.clip(y, region.left, region.right)
        owner[inside & (z > region.lower(at)) & (z < region.upper(at))] = index
    return owner


def mesh_section(regions: Sequence[Region], *, elements: int = 1500) -> Mesh:
    """Mesh of a section, fitted to its outline and to every joint.

    Parameters
    ----------
    regions : sequence of Region
        The outline first; later ones lie over earlier ones. [m, Pa]
    elements : int, optional
        About how many elements an outline without joints gets. [count]

    Returns
    -------
    Mesh
        Nodes and elements of the wood; hollows are left out. [m]

    Raises
    ------
    BadDesign
        A region sticks out sideways, a hollow breaks through the outline, a modulus is below nil, or the section
        falls apart.

    Notes
    -----
    Source: derived; nine-node elements, curved with the outline, closer together toward each break.

    Examples
    --------
    >>> from oarkit.section.regions import ellipse
    >>> loom = ellipse(name="loom", thickness=0.04, width=0.05, modulus=10e9, shear_modulus=0.6e9)
    >>> mesh = mesh_section([loom], elements=100)
    >>> weight = quadrature(mesh, points=3).weight
    >>> round(float(weight.sum() / (np.pi * 0.04 * 0.05 / 4)), 4)
    1.0
    """
    _refuse(regions)
    whole = regions[0]
    across = np.linspace(whole.left, whole.right, _SAMPLES)
    area = float(np.mean(whole.upper(across) - whole.lower(across))) * (whole.right - whole.left)
    y, z = _lattice(regions, float(np.sqrt(area / elements)))
    rounding = 1e-12 * (whole.right - whole.left)
    apart = np.diff(z, axis=1) > rounding
    first = np.zeros_like(z, dtype=bool)
    first[:, 0], first[:, 1:] = True, apart
    number = np.cumsum(first.ravel()).reshape(z.shape) - 1  # a node that falls on the one below takes its number
    points = np.column_stack([y[first], z[first]])
    nodes = np.stack(
        [number[i : i - 2 or None : 2, j : j - 2 or None : 2] for i in range(3) for j in range(3)], axis=-1
    )
    left, right = z[:-2:2], z[2::2]
    tall = np.maximum(np.diff(left[:, ::2], axis=1), np.diff(right[:, ::2], axis=1)) > rounding
    tall |= np.diff(z[1::2, ::2], axis=1) > rounding
    region = _region_at(regions, y[1::2, 1::2], z[1::2, 1::2])
    solid = np.array([r.shear_modulus > 0 for r in regions])
    keep = tall & solid[region]
    used, elements_of = np.unique(nodes[keep], return_inverse=True)
    mesh = Mesh(points=points[used], elements=elements_of.reshape(-1, 9), region=region[keep])
    _whole(mesh)
    return mesh


def _refuse(regions: Sequence[Region]) -> None:
    """Refuse regions that reach beyond the outline's width, and hollows that break through it."""
    whole = regions[0]
    slack = 1e-6 * (whole.right - whole.left)
    for region in regions:
        if region.shear_modulus < 0 or region.modulus < 0:
            raise BadDesign(f"a modulus of {region.name} is below nil")
        if region.left < whole.left - slack or region.right > whole.right + slack:
            raise BadDesign(f"{region.name} sticks out of the outline sideways")
        if region.shear_modulus == 0 and region is not whole:
            y = np.linspace(region.left, region.right, _SAMPLES)
            covered = np.minimum(whole.upper(y) - region.upper(y), region.lower(y) - whole.lower(y))
            if float(np.min(covered)) < slack:
                raise BadDesign(f"the hollow {region.name} breaks through the outline; make it smaller")


def _whole(mesh: Mesh) -> None:
    """Refuse a section that falls into loose pieces."""
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components

    start, stop = np.repeat(mesh.elements[:, 0], 8), mesh.elements[:, 1:].ravel()
    links = coo_array((np.ones(len(start)), (start, stop)), shape=(len(mesh.points), len(mesh.points)))
    count, _ = connected_components(links, directed=False)
    if count > 1:
        raise BadDesign("the section falls apart: a hollow or a piece without shear modulus cuts it through")


def joint_ends(mesh: Mesh, modulus: Array) -> Array:
    """Places where a joint between unlike woods comes out at the surface.

    Parameters
    ----------
    mesh : Mesh
        The mesh. [m]
    modulus : array
        Shear modulus of each element. [Pa]

    Returns
    -------
    array
        y and z, one row a place. [m]

    Notes
    -----
    Source: derived; a side of one element only is surface, a node of elements of two moduli is on a joint.

    Examples
    --------
    >>> from oarkit.section.inlaid import upright
    >>> from oarkit.section.regions import rectangle
    >>> bar = rectangle(name="bar", thickness=0.02, width=0.03, modulus=10e9, shear_modulus=0.6e9)
    >>> ash = upright(bar, name="cheek", left=0.01, right=0.015, modulus=13e9, shear_modulus=1.2e9)
    >>> mesh = mesh_section([bar, ash], elements=20)
    >>> joint_ends(mesh, np.array([0.6e9, 1.2e9])[mesh.region]).round(3).tolist()
    [[0.01, -0.01], [0.01, 0.01]]
    """
    sides = mesh.elements[:, [[0, 1, 2], [6, 7, 8], [0, 3, 6], [2, 5, 8]]].reshape(-1, 3)
    sides = sides[sides[:, 0] != sides[:, 2]]  # not those that a wedge has lost
    _, which, times = np.unique(sides[:, 1], return_inverse=True, return_counts=True)
    surface = np.zeros(len(mesh.points), dtype=bool)
    surface[sides[times[which] == 1][:, [0, 2]]] = True
    least, most = np.full(len(mesh.points), np.inf), np.zeros(len(mesh.points))
    np.minimum.at(least, mesh.elements, modulus[:, None])
    np.maximum.at(most, mesh.elements, modulus[:, None])
    ends: Array = mesh.points[surface & (most > least)]
    return ends


def _along_line(at: Array) -> tuple[Array, Array]:
    """Quadratic shape functions of three nodes and their slopes, at places from -1 to 1."""
    return (
        np.stack([at * (at - 1) / 2, 1 - at**2, at * (at + 1) / 2], axis=-1),
        np.stack([at - 0.5, -2 * at, at + 0.5], axis=-1),
    )


def quadrature(mesh: Mesh, *, points: int) -> Quadrature:
    """Shape functions at Gauss points of every element.

    Parameters
    ----------
    mesh : Mesh
        The mesh. [m]
    points : int
        Gauss points along each direction. [count]

    Returns
    -------
    Quadrature
        Values (points, 9), gradients (elements, points, 9, 2) and weights (elements, points). [1, 1/m, m2]

    Notes
    -----
    Source: Gauss-Legendre quadrature; isoparametric elements, any textbook on finite elements.

    Examples
    --------
    >>> from oarkit.section.regions import rectangle
    >>> bar = rectangle(name="bar", thickness=0.02, width=0.03, modulus=10e9, shear_modulus=0.6e9)
    >>> round(float(quadrature(mesh_section([bar], elements=20), points=2).weight.sum()), 6)
    0.0006
    """
    place, weight = np.polynomial.legendre.leggauss(points)
    value, slope = _along_line(place)
    shape = np.einsum("pa,qb->pqab", value, value).reshape(points**2, 9)
    by_parameter = np.stack(
        [np.einsum("pa,qb->pqab", slope, value), np.einsum("pa,qb->pqab", value, slope)], axis=-1
    ).reshape(points**2, 9, 2)
    jacobian = np.einsum("qnk,enx->eqkx", by_parameter, mesh.points[mesh.elements])
    gradient = np.einsum("eqxk,qnk->eqnx", np.linalg.inv(jacobian), by_parameter)
    area = np.linalg.det(jacobian) * np.outer(weight, weight).ravel()
    return Quadrature(shape=shape, gradient=gradient, weight=area)


def to_nodes() -> Array:
    """Matrix that carries values at an element's 2 by 2 Gauss points on to its nine nodes.

    Returns
    -------
    array
        Shape (9, 4). [1]

    Notes
    -----
    Source: bilinear through the Gauss points, where gradients of quadratic elements are most exact (Barlow points).

    Examples
    --------
    >>> bool(np.allclose(to_nodes().sum(axis=1), 1))
    True
    """
    pair = np.stack([1 - np.sqrt(3) * _LINE, 1 + np.sqrt(3) * _LINE], axis=-1) / 2
    matrix: Array = np.einsum("ap,bq->abpq", pair, pair).reshape(9, 4)
    return matrix
