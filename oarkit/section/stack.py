"""A section glued up from pieces of several woods: stiffness, neutral axis, mass, stress in each part.

All parts strain together (the transformed-section rule), so each counts by its own modulus. The section may be
unsymmetric: bending about one axis then bends it about the other too, which the product of E I counts.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry import MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

from oarkit.section.outline import Outline, ShapeMoments, edge_moments, edges_of, size_of
from oarkit.section.pieces import Piece
from oarkit.wood.board import Wood
from oarkit.working import BadDesign, Number, Quantity, formula

SLIVER = 1e-9  #: share of the section below which a piece, gap or overlap is a slip of rounding
GRID = 1e-12  #: places are rounded to this where pieces are cut, so that no slivers are left along a cut [m]
_ANC = "transformed section, ANC-18 (1944), sec. 3.1330 and 3.1331"


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A piece as it ends up in the section: area (m2), mass per length (kg/m), fibres from the neutral axis (m).

    ``aft_fibre`` is its fibre furthest aft, ``forward_fibre`` the one furthest forward, both along +z; nil with the
    area where later pieces cover it wholly.
    """

    name: str
    wood: Wood
    shape: BaseGeometry
    area: float
    mass_per_length: Number
    aft_fibre: Number
    forward_fibre: Number


@dataclass(frozen=True, slots=True, kw_only=True)
class Stack:
    """A glued-up section: E A [N], neutral axis [m], E I about it [N m2], mass per length [kg/m].

    ``bending_stiffness`` is for bending in the stroke, ``lateral_stiffness`` in the plane of the blade face,
    ``product_stiffness`` the integral of E y z, nil for a section that is alike to both sides.
    """

    outline: Outline
    parts: tuple[Part, ...]
    axial_stiffness: Number
    neutral_y: Number
    neutral_z: Number
    bending_stiffness: Number
    lateral_stiffness: Number
    product_stiffness: Number
    mass_per_length: Number


@dataclass(frozen=True, slots=True, kw_only=True)
class PartStress:
    """Stress in one part, tension positive [Pa]: highest, lowest, and the larger of them with its place [m]."""

    name: str
    highest: Number
    lowest: Number
    worst: Number
    y: Number
    z: Number


@formula(
    "E I = Σ E_i (I_i + A_i (z_i − z_n)²),  z_n = Σ E_i A_i z_i/Σ E_i A_i", unit="N m2", source=_ANC
)  # fmt: skip
def stack(outline: Outline, *, pieces: Sequence[Piece]) -> Stack:
    """Glue up a section; each piece lies over the earlier ones.

    Parameters
    ----------
    outline : Outline
        The finished section. [m]
    pieces : sequence of Piece
        Pieces in the order in which they are laid; moduli and densities may be arrays of designs. [m]

    Returns
    -------
    Stack
        Stiffnesses, neutral axis, mass and parts. [N m2]

    Raises
    ------
    BadDesign
        A piece sticks out, lies over another where it may not, or the pieces leave a gap.

    Notes
    -----
    Source: transformed section, ANC-18 (1944), sec. 3.1330 and 3.1331; exact for polygons.

    Examples
    --------
    >>> from oarkit.section.outline_shapes import eased_outline
    >>> from oarkit.section.pieces import strips
    >>> spruce = Wood(name="spruce", modulus=10e9, shear_modulus=0.6e9, density=430.0, strength=40e6, working=())
    >>> ash = Wood(name="ash", modulus=15e9, shear_modulus=0.8e9, density=640.0, strength=60e6, working=())
    >>> bar = eased_outline(thickness=0.030, width=0.040)
    >>> glued = stack(bar, pieces=strips(bar, names=["loom", "cap"], woods=[spruce, ash], thicknesses=[0.020, 0.010]))
    >>> round(float(glued.neutral_z) * 1000, 4)
    1.4286
    """
    shapes = _laid(outline.shape, pieces)
    moments = [edge_moments(edges_of(shape)) if shape.area else None for shape in shapes]
    held = [(piece.wood, m) for piece, m in zip(pieces, moments, strict=True) if m is not None]
    axial = _total(held, lambda m: m.area)
    neutral_y = _total(held, lambda m: m.area * m.centre_y) / axial
    neutral_z = _total(held, lambda m: m.area * m.centre_z) / axial
    parts = tuple(
        _part(piece, shape, neutral_z) for piece, shape in zip(pieces, shapes, strict=True)
    )  # fmt: skip
    return Stack(
        outline=outline,
        parts=parts,
        axial_stiffness=axial,
        neutral_y=neutral_y,
        neutral_z=neutral_z,
        bending_stiffness=_total(held, lambda m: m.bending + m.area * (m.centre_z - neutral_z) ** 2),
        lateral_stiffness=_total(held, lambda m: m.lateral + m.area * (m.centre_y - neutral_y) ** 2),
        product_stiffness=_total(
            held, lambda m: m.product + m.area * (m.centre_y - neutral_y) * (m.centre_z - neutral_z)
        ),
        mass_per_length=sum((part.mass_per_length for part in parts), start=np.array(0.0)),
    )


@formula(
    "σ = E_i (N/EA + (M_z·EI_y − M_y·EI_yz)(z − z_n)/D + (M_y·EI_z − M_z·EI_yz)(y − y_n)/D),  D = EI_y·EI_z − EI_yz²",
    unit="Pa", source="unsymmetric bending of the transformed section, derived",
    where={"bending_moment": "M_z [N m]", "lateral_moment": "M_y [N m]", "axial": "N [N]"},
)  # fmt: skip
def part_stresses(
    section: Stack, *, bending_moment: Number, lateral_moment: Number = 0.0, axial: Number = 0.0
) -> tuple[PartStress, ...]:
    """Stress in each part at its worst fibre.

    Parameters
    ----------
    section : Stack
        The glued-up section. [N, N m2]
    bending_moment : float or array
        Moment that pulls the aft face (+z), as a stroke does. [N m]
    lateral_moment : float or array, optional
        Moment in the plane of the blade face that pulls the side of +y. [N m]
    axial : float or array, optional
        Pull along the oar. [N]

    Returns
    -------
    tuple of PartStress
        One a part, in the order of the pieces; nil for a part that is covered. [Pa]

    Notes
    -----
    Source: derived; plane sections stay plane. EI_z weighs z squared (bending in the stroke), EI_y y squared.
    Stress is linear over a part, so its worst fibre is a corner of the part.

    Examples
    --------
    >>> from oarkit.section.outline_shapes import eased_outline
    >>> from oarkit.section.pieces import whole
    >>> spruce = Wood(name="spruce", modulus=10e9, shear_modulus=0.6e9, density=430.0, strength=40e6, working=())
    >>> bar = eased_outline(thickness=0.030, width=0.040)
    >>> glued = stack(bar, pieces=[whole(bar, name="bar", wood=spruce)])
    >>> round(float(part_stresses(glued, bending_moment=60.0)[0].highest) / 1e6, 6)
    10.0
    """
    slope_y, slope_z = curvatures(section, along_z=bending_moment, along_y=lateral_moment)
    return tuple(_stress(part, section, slope_y, slope_z, axial) for part in section.parts)


def curvatures(section: Stack, *, along_z: Number, along_y: Number) -> tuple[Number, Number]:
    """Change of strain over the width and through the thickness for two moments (or, per length, two shear forces).

    Parameters
    ----------
    section : Stack
        The glued-up section. [N m2]
    along_z, along_y : float or array
        Moment that pulls +z, moment that pulls +y. [N m]

    Returns
    -------
    tuple of float or array
        Change of strain along y and along z. [1/m]

    Notes
    -----
    Source: derived; two equations of equilibrium with the product of E I.

    Examples
    --------
    >>> from oarkit.section.outline_shapes import eased_outline
    >>> from oarkit.section.pieces import whole
    >>> spruce = Wood(name="spruce", modulus=10e9, shear_modulus=0.6e9, density=430.0, strength=40e6, working=())
    >>> bar = eased_outline(thickness=0.030, width=0.040)
    >>> round(float(curvatures(stack(bar, pieces=[whole(bar, name="a", wood=spruce)]), along_z=9.0, along_y=0.0)[1]), 6)
    0.01
    """
    bending, lateral, product = section.bending_stiffness, section.lateral_stiffness, section.product_stiffness
    both = bending * lateral - product**2
    return (along_y * bending - along_z * product) / both, (along_z * lateral - along_y * product) / both


def polygons_of(shape: BaseGeometry, least: float = 0.0) -> list[Polygon]:
    """Polygons of a shape, without lines, points and slivers.

    Parameters
    ----------
    shape : shapely geometry
        Any shape. [m]
    least : float, optional
        Area up to which a polygon is a sliver. [m2]

    Returns
    -------
    list of Polygon
        What has area. [m]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> len(polygons_of(shapely.box(0, 0, 1, 1)))
    1
    """
    return [bit for bit in shapely.get_parts(shape) if isinstance(bit, Polygon) and bit.area > least]


def _total(held: Sequence[tuple[Wood, ShapeMoments]], amount: Callable[[ShapeMoments], Number]) -> Number:
    """Sum of an amount over the parts, each by its modulus."""
    total: Number = sum((np.asarray(wood.modulus) * amount(m) for wood, m in held), start=np.array(0.0))
    return total


def _part(piece: Piece, shape: MultiPolygon, neutral_z: Number) -> Part:
    nil = np.zeros_like(neutral_z)
    return Part(
        name=piece.name,
        wood=piece.wood,
        shape=shape,
        area=shape.area,
        mass_per_length=np.asarray(piece.wood.density) * shape.area,
        aft_fibre=shape.bounds[3] - neutral_z if shape.area else nil,
        forward_fibre=shape.bounds[1] - neutral_z if shape.area else nil,
    )


def _stress(part: Part, section: Stack, slope_y: Number, slope_z: Number, axial: Number) -> PartStress:
    if not part.area:
        nil = np.zeros_like(slope_z * 1.0)
        return PartStress(name=part.name, highest=nil, lowest=nil, worst=nil, y=nil, z=nil)
    corners = np.asarray(shapely.get_coordinates(part.shape.convex_hull))
    y, z = corners[:, 0], corners[:, 1]
    modulus, a, b, n_y, n_z, even = (
        np.asarray(v)[..., None]
        for v in (part.wood.modulus, slope_y, slope_z, section.neutral_y, section.neutral_z,
                  np.asarray(axial) / section.axial_stiffness)
    )  # fmt: skip
    stress = modulus * (even + a * (y - n_y) + b * (z - n_z))
    highest, lowest = stress.max(axis=-1), stress.min(axis=-1)
    pulled = highest * (1 + SLIVER) >= -lowest  # where both are equal the pulled fibre is named
    worst = np.where(pulled, stress.argmax(axis=-1), stress.argmin(axis=-1))
    return PartStress(
        name=part.name, highest=highest, lowest=lowest, worst=np.where(pulled, highest, lowest),
        y=y[worst], z=z[worst],
    )  # fmt: skip


# Laying the pieces


def _laid(section: Polygon, pieces: Sequence[Piece]) -> list[MultiPolygon]:
    """Shape of each piece once the later ones lie over it; refuses what does not fill the section."""
    sliver = SLIVER * section.area
    names = [piece.name for piece in pieces]
    twice = {name for name in names if names.count(name) > 1}
    if twice:
        raise BadDesign(f"two pieces are called '{twice.pop()}'; give each its own name, so that it can be spoken of")
    laid: list[BaseGeometry] = []
    for piece in pieces:
        _refuse_outside(piece, section, sliver)
        if not piece.over:
            _refuse_overlap(piece, laid, names, sliver)
        laid = [shapely.difference(shape, piece.shape, grid_size=GRID) for shape in laid]
        laid.append(shapely.intersection(piece.shape, section, grid_size=GRID))
    gap = shapely.difference(section, shapely.union_all(laid, grid_size=GRID), grid_size=GRID)
    missing = polygons_of(gap, sliver)
    if missing:
        where = max(missing, key=lambda bit: bit.area)
        raise BadDesign(
            "the pieces leave a gap of {width} by {thickness} in the section, {y} across and {z} through from its "
            "middle; fill it, or give it as a hollow of the outline",
            {**size_of(where), "y": Quantity(value=where.centroid.x, unit="m"),
             "z": Quantity(value=where.centroid.y, unit="m")},
        )  # fmt: skip
    return [MultiPolygon(polygons_of(shape, sliver)) for shape in laid]


def _refuse_outside(piece: Piece, section: Polygon, sliver: float) -> None:
    outside = MultiPolygon(polygons_of(piece.shape.difference(section), sliver))
    if outside.area > sliver:
        by = float(np.max(shapely.distance(section, shapely.points(shapely.get_coordinates(outside)))))
        raise BadDesign(
            f"the piece '{piece.name}' sticks out of the section by {{by}}; make it smaller or move it inward",
            {"by": Quantity(value=by, unit="m")},
        )


def _refuse_overlap(piece: Piece, laid: Sequence[BaseGeometry], names: Sequence[str], sliver: float) -> None:
    for shape, name in zip(laid, names[: len(laid)], strict=True):
        common = MultiPolygon(polygons_of(shape.intersection(piece.shape), sliver))
        if common.area > sliver:
            raise BadDesign(
                f"the piece '{piece.name}' overlaps '{name}' by {{width}} by {{thickness}}; "
                "move one, or let it lie over the other",
                size_of(common),
            )
