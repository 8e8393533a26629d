"""Pieces that a section is glued up from: strips, cheeks, faces, edge strips, splines, and any other shape.

A piece is cut to the outline where it is made; `oarkit.section.stack.stack` lays pieces over one another.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import shapely
from shapely.affinity import translate
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from oarkit.section.outline import Outline, outline_of_points, refuse_size
from oarkit.wood.board import Wood
from oarkit.working import Array, BadDesign, Quantity

HAIR = 1e-7  #: lengths that differ by less are the same, a ten-thousandth of a millimetre [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A piece of wood in a section. ``over``: it lies over earlier pieces where they meet; else that is refused."""

    name: str
    wood: Wood
    shape: BaseGeometry
    over: bool = True


def whole(outline: Outline, *, name: str, wood: Wood) -> Piece:
    """A piece that fills the section: the plain loom, or a tip piece.

    Parameters
    ----------
    outline : Outline
        The section. [m]
    name : str
        What the builder calls it. [text]
    wood : Wood
        Its wood. [Pa, kg/m3]

    Returns
    -------
    Piece
        The piece. [m]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit.section.outline_shapes import blade_outline
    >>> spruce = Wood(name="spruce", modulus=10e9, shear_modulus=0.6e9, density=430.0, strength=40e6, working=())
    >>> blade = blade_outline(thickness=0.012, width=0.13, edge=0.006)
    >>> round(whole(blade, name="blade", wood=spruce).shape.area * 1e6)
    1170
    """
    return Piece(name=name, wood=wood, shape=outline.shape)


def strips(
    outline: Outline, *, names: Sequence[str], woods: Sequence[Wood], thicknesses: Sequence[float],
    forward_side: float | None = None,
) -> list[Piece]:  # fmt: skip
    """Layers parallel to the blade face, one on the other from the forward face to the aft face.

    Parameters
    ----------
    outline : Outline
        The section. [m]
    names : sequence of str
        What the builder calls them. [text]
    woods : sequence of Wood
        The wood of each. [Pa, kg/m3]
    thicknesses : sequence of float
        Of each, equal or not. [m]
    forward_side : float, optional
        z of the forward side of the first strip; where it is given, what stands out is planed off, or a part of
        the section is left for other pieces. Else the strips make up the section. [m]

    Returns
    -------
    list of Piece
        The strips, cut to the outline. [m]

    Raises
    ------
    BadDesign
        A size is nil or reversed, the strips do not make up the section, or one misses it.

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit.section.outline_shapes import eased_outline
    >>> spruce = Wood(name="spruce", modulus=10e9, shear_modulus=0.6e9, density=430.0, strength=40e6, working=())
    >>> bar = eased_outline(thickness=0.030, width=0.040)
    >>> [round(p.shape.area * 1e6) for p in
    ...  strips(bar, names=["a", "b"], woods=[spruce, spruce], thicknesses=[0.010, 0.020])]
    [400, 800]
    """
    y0, z0, y1, z1 = outline.shape.bounds
    for name, thickness in zip(names, thicknesses, strict=True):
        refuse_size(f"strip '{name}'", thickness=thickness)
    if forward_side is None and abs(sum(thicknesses) - (z1 - z0)) > HAIR:
        much = "thinner" if sum(thicknesses) < z1 - z0 else "thicker"
        raise BadDesign(
            f"the strips together are {{total}} thick, {much} than the section ({{thickness}}); "
            "change a strip, or say where the first one begins",
            {"total": Quantity(value=sum(thicknesses), unit="m"), "thickness": Quantity(value=z1 - z0, unit="m")},
        )
    bottom = z0 if forward_side is None else forward_side
    sides = [bottom + sum(thicknesses[:n]) for n in range(len(thicknesses) + 1)]
    if forward_side is None:
        sides[-1] = z1
    margin = y1 - y0
    return [
        _cut(outline, name, wood, shapely.box(y0 - margin, low, y1 + margin, high))
        for name, wood, low, high in zip(names, woods, sides[:-1], sides[1:], strict=True)
    ]


def cheeks(outline: Outline, *, name: str, wood: Wood, core: float, core_centre: float = 0.0) -> Piece:
    """What lies beside the loom: both cheeks of a section whose middle is a core of a given width.

    Parameters
    ----------
    outline : Outline
        The section. [m]
    name : str
        What the builder calls them. [text]
    wood : Wood
        Their wood. [Pa, kg/m3]
    core : float
        Width of what lies between the cheeks. [m]
    core_centre : float, optional
        y of the middle of the core. [m]

    Returns
    -------
    Piece
        Both cheeks, cut to the outline. [m]

    Raises
    ------
    BadDesign
        The core is nil or leaves no cheeks.

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit.section.outline_shapes import blade_outline
    >>> ash = Wood(name="ash", modulus=13e9, shear_modulus=0.8e9, density=640.0, strength=60e6, working=())
    >>> blade = blade_outline(thickness=0.012, width=0.13, edge=0.006)
    >>> len(cheeks(blade, name="cheeks", wood=ash, core=0.040).shape.geoms)
    2
    """
    refuse_size(f"core between '{name}'", width=core)
    y0, z0, y1, z1 = outline.shape.bounds
    low, high = core_centre - core / 2, core_centre + core / 2
    margin = z1 - z0
    beside = [shapely.box(a, z0 - margin, b, z1 + margin) for a, b in ((y0, low), (high, y1)) if b > a]
    return _cut(outline, name, wood, shapely.union_all(beside))


def edge_strips(outline: Outline, *, name: str, wood: Wood, size: float) -> Piece:
    """Strips along both edges of a blade.

    Parameters
    ----------
    outline : Outline
        The section. [m]
    name : str
        What the builder calls them. [text]
    wood : Wood
        Their wood. [Pa, kg/m3]
    size : float
        In from each edge. [m]

    Returns
    -------
    Piece
        Both strips, cut to the outline. [m]

    Raises
    ------
    BadDesign
        The strips meet in the middle.

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit.section.outline_shapes import eased_outline
    >>> ash = Wood(name="ash", modulus=13e9, shear_modulus=0.8e9, density=640.0, strength=60e6, working=())
    >>> bar = eased_outline(thickness=0.010, width=0.13)
    >>> round(edge_strips(bar, name="edge", wood=ash, size=0.006).shape.area * 1e6)
    120
    """
    refuse_size(f"edge strip '{name}'", size=size)
    y0, _, y1, _ = outline.shape.bounds
    if 2 * size >= y1 - y0:
        raise BadDesign(
            f"edge strips '{name}' of {{size}} meet in the middle of a section {{width}} wide; make them narrower",
            {"size": Quantity(value=size, unit="m"), "width": Quantity(value=y1 - y0, unit="m")},
        )
    return cheeks(outline, name=name, wood=wood, core=y1 - y0 - 2 * size, core_centre=(y0 + y1) / 2)


def faces(
    outline: Outline, *, name: str, wood: Wood, thickness: float, which: Literal["both", "aft", "forward"] = "both"
) -> Piece:
    """Faces glued on that follow the surface, of even thickness square to the blade.

    Parameters
    ----------
    outline : Outline
        The finished section, faces counted in. [m]
    name : str
        What the builder calls them. [text]
    wood : Wood
        Their wood. [Pa, kg/m3]
    thickness : float
        Of each face, along z. [m]
    which : {"both", "aft", "forward"}, optional
        Which faces. [text]

    Returns
    -------
    Piece
        The faces. [m]

    Raises
    ------
    BadDesign
        The faces are as thick as the section.

    Notes
    -----
    Source: derived; the face is what the outline, moved in by the thickness, no longer covers.

    Examples
    --------
    >>> from oarkit.section.outline_shapes import blade_outline
    >>> ash = Wood(name="ash", modulus=13e9, shear_modulus=0.8e9, density=640.0, strength=60e6, working=())
    >>> blade = blade_outline(thickness=0.012, width=0.13, edge=0.006)
    >>> round(faces(blade, name="face", wood=ash, thickness=0.002, which="aft").shape.area * 1e6)
    260
    """
    refuse_size(f"face '{name}'", thickness=thickness)
    full = Polygon(outline.shape.exterior)
    _, z0, _, z1 = full.bounds
    sides = {"both": (-1, 1), "aft": (-1,), "forward": (1,)}[which]
    if len(sides) * thickness >= z1 - z0:
        raise BadDesign(
            f"the face '{name}' of {{face}} leaves nothing between in a section {{thickness}} thick; make it thinner",
            {"face": Quantity(value=thickness, unit="m"), "thickness": Quantity(value=z1 - z0, unit="m")},
        )
    skins = [full.difference(translate(full, 0.0, side * thickness)) for side in sides]
    return _cut(outline, name, wood, shapely.union_all(skins))


def spline(*, name: str, wood: Wood, width: float, thickness: float, y: float = 0.0, z: float = 0.0) -> Piece:
    """A spline let in: a small rectangle somewhere in the section.

    Parameters
    ----------
    name : str
        What the builder calls it. [text]
    wood : Wood
        Its wood. [Pa, kg/m3]
    width, thickness : float
        Its sizes along y and along z. [m]
    y, z : float, optional
        Its middle. [m]

    Returns
    -------
    Piece
        The spline, not cut to any outline. [m]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> ash = Wood(name="ash", modulus=13e9, shear_modulus=0.8e9, density=640.0, strength=60e6, working=())
    >>> round(spline(name="spline", wood=ash, width=0.006, thickness=0.012).shape.area * 1e6)
    72
    """
    refuse_size(f"spline '{name}'", width=width, thickness=thickness)
    return Piece(
        name=name, wood=wood, shape=shapely.box(y - width / 2, z - thickness / 2, y + width / 2, z + thickness / 2)
    )


def piece_of_points(*, name: str, wood: Wood, y: Array, z: Array, over: bool = True) -> Piece:
    """A piece of any shape, by its corners.

    Parameters
    ----------
    name : str
        What the builder calls it. [text]
    wood : Wood
        Its wood. [Pa, kg/m3]
    y, z : array
        Its corners in order. [m]
    over : bool, optional
        It lies over earlier pieces; else it may only lie beside them. [yes/no]

    Returns
    -------
    Piece
        The piece, not cut to any outline. [m]

    Raises
    ------
    BadDesign
        The corners enclose nothing or cross.

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> import numpy as np
    >>> ash = Wood(name="ash", modulus=13e9, shear_modulus=0.8e9, density=640.0, strength=60e6, working=())
    >>> wedge = piece_of_points(name="wedge", wood=ash, y=np.array([0.0, 0.02, 0.0]), z=np.array([0.0, 0.0, 0.01]))
    >>> round(wedge.shape.area * 1e6)
    100
    """
    return Piece(name=name, wood=wood, shape=outline_of_points(y=y, z=z).shape, over=over)


def _cut(outline: Outline, name: str, wood: Wood, shape: BaseGeometry) -> Piece:
    """A piece cut to the outline, refused where nothing of it is left."""
    cut = outline.shape.intersection(shape)
    if cut.area <= 1e-9 * outline.shape.area:
        raise BadDesign(f"the piece '{name}' misses the section altogether; look at where it is put")
    return Piece(name=name, wood=wood, shape=cut)
