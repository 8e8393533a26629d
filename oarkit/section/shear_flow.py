"""Shear in a glued-up section: flow and stress at any level, its peak, and every glue line.

What a cut takes off the section is pulled along the oar by the change of its bending stress; the cut must hold it.
The stress is that flow over the breadth of the cut, taken as even over it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

import numpy as np
from shapely.geometry import Polygon

from oarkit.section.outline import edges_of
from oarkit.section.pieces import HAIR
from oarkit.section.stack import SLIVER, Stack, curvatures, polygons_of
from oarkit.working import Array, BadDesign, Number, Quantity, formula

TOUCH = 1e-9  #: parts nearer to one another than this touch [m]
LEVELS = 401  #: levels looked at in search of the peak, before it is closed in on
_SOURCE = "V Q_t/(I_t b), transformed section, ANC-18 (1944), sec. 3.133; product of E I derived"


@dataclass(frozen=True, slots=True, kw_only=True)
class ShearAt:
    """Shear at a cut: level [m], breadth [m], Q_t of what lies beyond it [N m], flow [N/m] and stress [Pa].

    ``first_moment`` is the integral of E z, which a shear force through the thickness counts, ``lateral_first_moment``
    that of E y; both from the neutral axis.
    """

    level: Number
    breadth: Number
    first_moment: Number
    lateral_first_moment: Number
    flow: Number
    stress: Number


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueLine:
    """Glue line between two parts: its own length in the section [m], middle (y, z) [m], and shear over it.

    ``breadth`` is all the glue (or, for a level, glue and wood) that holds the body whose Q_t counts; the two first
    moments are those of `ShearAt`, of the second part's side.
    """

    parts: tuple[str, str]
    length: float
    y: float
    z: float
    breadth: float
    first_moment: Number
    lateral_first_moment: Number
    flow: Number
    stress: Number


@formula(
    "τ = V Q_t/(I_t b)", unit="Pa", source=_SOURCE,
    where={"level": "z [m]", "shear": "V [N]", "lateral_shear": "V_y [N]"},
)  # fmt: skip
def shear_at(
    section: Stack, *, level: Number, shear: Number, lateral_shear: Number = 0.0, cut: Literal["z", "y"] = "z"
) -> ShearAt:
    """Shear flow and stress at a straight cut through the section.

    Parameters
    ----------
    section : Stack
        The glued-up section. [N m2]
    level : float or array
        Where it is cut: z of a cut across the width, or y of a cut through the thickness. [m]
    shear : float or array
        Shear force through the thickness. [N]
    lateral_shear : float or array, optional
        Shear force along the width. [N]
    cut : {"z", "y"}, optional
        Which of the two the level is. [text]

    Returns
    -------
    ShearAt
        Flow, breadth, Q_t and stress. [Pa]

    Raises
    ------
    BadDesign
        The level lies outside the section.

    Notes
    -----
    Source: ANC-18 (1944), sec. 3.133. Q_t is taken of the fibres beyond the cut, each by its modulus, from the
    neutral axis; the flow counts the product of E I. Where the breadth jumps, as at a bore,
    the smaller one counts.

    Examples
    --------
    >>> from oarkit.section.outline_shapes import eased_outline
    >>> from oarkit.section.pieces import whole
    >>> from oarkit.wood.board import Wood
    >>> from oarkit.section.stack import stack
    >>> spruce = Wood(name="spruce", modulus=10e9, shear_modulus=0.6e9, density=430.0, strength=40e6, working=())
    >>> bar = eased_outline(thickness=0.030, width=0.040)
    >>> glued = stack(bar, pieces=[whole(bar, name="bar", wood=spruce)])
    >>> round(float(shear_at(glued, level=0.0, shear=800.0).stress) / 1e6, 6)
    1.0
    """
    y0, z0, y1, z1 = section.outline.shape.bounds
    low, high = (z0, z1) if cut == "z" else (y0, y1)
    if np.any(np.asarray(level) < low) or np.any(np.asarray(level) > high):
        raise BadDesign(
            "the level {level} lies outside the section, which runs from {low} to {high}",
            {"level": Quantity(value=float(np.ravel(level)[0]), unit="m"), "low": Quantity(value=low, unit="m"),
             "high": Quantity(value=high, unit="m")},
        )  # fmt: skip
    place = np.asarray(level, dtype=float)
    moment_y: Number = np.array(0.0)
    moment_z: Number = np.array(0.0)
    for part in section.parts:
        area, along, across = _beyond(_turned(edges_of(part.shape), cut), place)
        first_y, first_z = (along, across) if cut == "z" else (across, along)
        modulus = np.asarray(part.wood.modulus)
        moment_y = moment_y + modulus * (first_y - area * section.neutral_y)
        moment_z = moment_z + modulus * (first_z - area * section.neutral_z)
    flow = _flow(section, moment_y, moment_z, shear, lateral_shear)
    breadth = _breadth(_turned(edges_of(section.outline.shape), cut), place)
    return ShearAt(
        level=place,
        breadth=breadth,
        first_moment=moment_z,
        lateral_first_moment=moment_y,
        flow=flow,
        stress=np.divide(np.abs(flow), breadth, out=np.zeros(np.broadcast(flow, breadth).shape), where=breadth > 0),
    )


@formula(
    "τ_max = max V Q_t/(I_t b)", unit="Pa", source=_SOURCE, where={"shear": "V [N]"}
)  # fmt: skip
def peak_shear(section: Stack, *, shear: float) -> ShearAt:
    """Greatest V Q/(I b) over all levels through the thickness, for one section.

    Parameters
    ----------
    section : Stack
        One glued-up section, plain numbers. [N m2]
    shear : float
        Shear force through the thickness. [N]

    Returns
    -------
    ShearAt
        Level, breadth, Q_t, flow and stress. [Pa]

    Notes
    -----
    Source: ANC-18 (1944), sec. 3.133. Levels stand on every flat of the outline and of the parts, on the neutral
    axis and evenly between; the best is closed in on.

    Examples
    --------
    >>> from oarkit.section.outline_shapes import ellipse_outline
    >>> from oarkit.section.pieces import whole
    >>> from oarkit.wood.board import Wood
    >>> from oarkit.section.stack import stack
    >>> spruce = Wood(name="spruce", modulus=10e9, shear_modulus=0.6e9, density=430.0, strength=40e6, working=())
    >>> loom = ellipse_outline(thickness=0.046, width=0.046)
    >>> peak = peak_shear(stack(loom, pieces=[whole(loom, name="loom", wood=spruce)]), shear=600.0)
    >>> round(float(peak.stress * loom.shape.area / 600), 5)
    1.33333
    """
    from scipy.optimize import minimize_scalar

    edges = np.concatenate([edges_of(part.shape) for part in section.parts])
    flats = edges[np.abs(edges[:, 1] - edges[:, 3]) < TOUCH, 1]
    low, high = edges[:, 1].min(), edges[:, 1].max()
    levels = np.unique(np.concatenate([np.linspace(low, high, LEVELS), flats, [float(section.neutral_z)]]))
    found = shear_at(section, level=levels, shear=shear)
    best = int(np.argmax(found.stress))
    closer = minimize_scalar(
        lambda z: -float(np.asarray(shear_at(section, level=z, shear=shear).stress)),
        bounds=(levels[max(best - 1, 0)], levels[min(best + 1, levels.size - 1)]), method="bounded",
        options={"xatol": 1e-12},
    )  # fmt: skip
    peak = shear_at(section, level=float(closer.x), shear=shear)
    at_level = shear_at(section, level=float(levels[best]), shear=shear)
    return peak if np.asarray(peak.stress) > np.asarray(at_level.stress) else at_level


@formula(
    "τ = V Q_t/(I_t b) of the body that the glue holds", unit="Pa", source=_SOURCE,
    where={"shear": "V [N]", "lateral_shear": "V_y [N]"},
)  # fmt: skip
def glue_lines(section: Stack, *, shear: Number, lateral_shear: Number = 0.0) -> tuple[GlueLine, ...]:
    """Shear of every glue line between two parts.

    Parameters
    ----------
    section : Stack
        The glued-up section. [N m2]
    shear : float or array
        Shear force through the thickness. [N]
    lateral_shear : float or array, optional
        Shear force along the width. [N]

    Returns
    -------
    tuple of GlueLine
        One a glue line; cheeks and other parts in two halves have one for each half. [Pa]

    Notes
    -----
    Source: ANC-18 (1944), sec. 3.133, for the flow. Where the glue line alone holds a body on the section, statics
    give its mean stress exactly. Else the greatest of three bounds counts: either part alone over all of its glue, and
    a straight line's whole level, glue and wood together.

    Examples
    --------
    >>> from oarkit.section.outline_shapes import eased_outline
    >>> from oarkit.section.pieces import strips
    >>> from oarkit.wood.board import Wood
    >>> from oarkit.section.stack import stack
    >>> spruce = Wood(name="spruce", modulus=10e9, shear_modulus=0.6e9, density=430.0, strength=40e6, working=())
    >>> bar = eased_outline(thickness=0.030, width=0.040)
    >>> two = strips(bar, names=["a", "b"], woods=[spruce, spruce], thicknesses=[0.015, 0.015])
    >>> line = glue_lines(stack(bar, pieces=two), shear=800.0)[0]
    >>> line.parts, round(float(line.stress) / 1e6, 6)
    (('a', 'b'), 1.0)
    """
    bits = _bits(section)
    contacts = _contacts([shape for _, shape in bits])
    moments = [_first_moments(section, index, shape) for index, shape in bits]
    lines = []
    for pair, (length, bounds) in contacts.items():
        held = _component(pair[1], contacts, without=pair)
        bodies = [(held, length)]
        if pair[0] in held:  # other glue holds them too
            bodies = [({n}, sum(c[0] for p, c in contacts.items() if n in p)) for n in pair]
        found = []
        for body, breadth in bodies:
            moment_y = sum((moments[n][0] for n in body), start=np.array(0.0))
            moment_z = sum((moments[n][1] for n in body), start=np.array(0.0))
            flow = _flow(section, moment_y, moment_z, shear, lateral_shear)
            found.append((breadth, moment_z, moment_y, flow))
        if pair[0] in held:
            found += _level_of(section, bounds, shear, lateral_shear)
        breadth, first, lateral, flow = max(found, key=lambda f: float(np.max(np.abs(f[3]))) / f[0])
        lines.append(
            GlueLine(
                parts=(section.parts[bits[pair[0]][0]].name, section.parts[bits[pair[1]][0]].name),
                length=length, y=(bounds[0] + bounds[2]) / 2, z=(bounds[1] + bounds[3]) / 2,
                breadth=breadth, first_moment=first, lateral_first_moment=lateral, flow=flow,
                stress=np.abs(flow) / breadth,
            )
        )  # fmt: skip
    return tuple(lines)


def _flow(section: Stack, moment_y: Number, moment_z: Number, shear: Number, lateral_shear: Number) -> Number:
    """Pull per length on a body from its first moments, each fibre by its modulus."""
    rate_y, rate_z = curvatures(section, along_z=shear, along_y=lateral_shear)
    return rate_y * moment_y + rate_z * moment_z


# A straight cut


def _turned(edges: Array, cut: str) -> Array:
    """Edges with y and z changed over for a cut through the thickness; reversed, so that wood stays on the left."""
    return edges if cut == "z" else edges[:, [3, 2, 1, 0]]


def _beyond(edges: Array, level: Array) -> tuple[Array, Array, Array]:
    """Area and first moments (of y, of z) of what lies above a level, by Green's theorem on the clipped edges."""
    y0, z0, y1, z1 = edges.T
    u0, u1 = z0 - level[..., None], z1 - level[..., None]
    crossing = np.where(u0 * u1 < 0, u0, 0.0) / np.where(u0 * u1 < 0, u0 - u1, 1.0)
    place = y0 + (y1 - y0) * crossing
    ya, yb = np.where((u0 < 0) & (u1 > 0), place, y0), np.where((u1 < 0) & (u0 > 0), place, y1)
    ua, ub = np.maximum(u0, 0.0), np.maximum(u1, 0.0)
    step = yb - ya
    area = -(step * (ua + ub)).sum(axis=-1) / 2
    first_y = -(step * (2 * ya * ua + ya * ub + yb * ua + 2 * yb * ub)).sum(axis=-1) / 6
    first_u = -(step * (ua**2 + ua * ub + ub**2)).sum(axis=-1) / 6
    return area, first_y, first_u + level * area


def _breadth(edges: Array, level: Array) -> Array:
    """Wood at a level; where it jumps, the smaller of the two breadths that is not nil."""
    y0, z0, y1, z1 = edges.T
    c = level[..., None]
    rise = np.where(z1 == z0, 1.0, z1 - z0)
    place = (y0 + (y1 - y0) * (c - z0) / rise) * np.sign(z1 - z0)
    low, high = np.minimum(z0, z1), np.maximum(z0, z1)
    above = np.sum(np.where((low <= c) & (c < high), place, 0.0), axis=-1)
    below = np.sum(np.where((low < c) & (c <= high), place, 0.0), axis=-1)
    least, most = np.minimum(above, below), np.maximum(above, below)
    breadth: Array = np.where(least > TOUCH, least, np.where(most > TOUCH, most, 0.0))
    return breadth


# Glue lines


def _bits(section: Stack) -> list[tuple[int, Polygon]]:
    """Every separate polygon of the parts, with the index of its part."""
    least = SLIVER * section.outline.shape.area
    return [(n, bit) for n, part in enumerate(section.parts) for bit in polygons_of(part.shape, least)]


def _first_moments(section: Stack, index: int, bit: Polygon) -> tuple[Number, Number]:
    modulus, middle = np.asarray(section.parts[index].wood.modulus), bit.centroid
    held = modulus * bit.area
    return held * (middle.x - section.neutral_y), held * (middle.y - section.neutral_z)


def _contacts(bits: list[Polygon]) -> dict[tuple[int, int], tuple[float, tuple[float, float, float, float]]]:
    """Length and bounds of the glue between each two bits that touch along a line."""
    grown = [bit.buffer(TOUCH, join_style="mitre") for bit in bits]
    contacts = {}
    for n, bit in enumerate(bits):
        for m in range(n + 1, len(bits)):
            line = bit.boundary.intersection(grown[m])
            if line.length > HAIR:
                contacts[n, m] = (line.length, line.bounds)
    return contacts


def _component(start: int, contacts: Iterable[tuple[int, int]], without: tuple[int, int]) -> set[int]:
    """Bits that other glue than one line joins to a bit."""
    reached, fresh = {start}, {start}
    while fresh:
        fresh = {
            other
            for pair in contacts
            if pair != without
            for here, other in (pair, pair[::-1])
            if here in fresh and other not in reached
        }
        reached |= fresh
    return reached


def _level_of(
    section: Stack, bounds: tuple[float, float, float, float], shear: Number, lateral_shear: Number
) -> list[tuple[float, Number, Number, Number]]:
    """Breadth, Q_t and flow of the whole level that a straight glue line lies in; none for another line."""
    y0, z0, y1, z1 = bounds
    if z1 - z0 < HAIR:
        at = shear_at(section, level=(z0 + z1) / 2, shear=shear, lateral_shear=lateral_shear, cut="z")
    elif y1 - y0 < HAIR:
        at = shear_at(section, level=(y0 + y1) / 2, shear=shear, lateral_shear=lateral_shear, cut="y")
    else:
        return []
    return [(float(np.max(at.breadth)), at.first_moment, at.lateral_first_moment, at.flow)]
