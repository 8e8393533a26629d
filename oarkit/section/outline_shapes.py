"""Outlines of the shapes that oars are made in, centred on mid-thickness and mid-width.

Curves are drawn as polygons with a corner on each extreme place, so that the worst fibre is exact, and fine enough
for area and second moments within 1e-6.
"""

from __future__ import annotations

import numpy as np

from oarkit.section import forms
from oarkit.section.outline import Outline, outline_of_points, refuse_size
from oarkit.working import Array

CURVE_POINTS = 4096  #: corners on a full turn; a round then lacks (2/3) (pi/n)^2 = 4e-7 of its area, 8e-7 of its I


def _turn(points: int, start: float = 0.0, stop: float = 2 * np.pi) -> Array:
    return np.linspace(start, stop, points, endpoint=stop - start < 2 * np.pi)


def ellipse_outline(*, thickness: float, width: float, points: int = CURVE_POINTS) -> Outline:
    """Outline of an ellipse, or of a round where thickness and width are one.

    Parameters
    ----------
    thickness, width : float
        Its two axes in full. [m]
    points : int, optional
        Corners on the turn, a multiple of four. [count]

    Returns
    -------
    Outline
        The outline. [m]

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> loom = ellipse_outline(thickness=0.046, width=0.040)
    >>> float(loom.z.max()), float(loom.y.max())
    (0.023, 0.02)
    """
    refuse_size("ellipse", thickness=thickness, width=width)
    angle = _turn(points)
    return outline_of_points(y=width / 2 * np.cos(angle), z=thickness / 2 * np.sin(angle))


def bored_outline(
    *, diameter: float, bore: float = 0.0, bore_off: float = 0.0, points: int = CURVE_POINTS
) -> Outline:  # fmt: skip
    """Outline of a round, solid or bored hollow along its length.

    Parameters
    ----------
    diameter : float
        Outside. [m]
    bore : float, optional
        Diameter of the bore, nil for a solid round. [m]
    bore_off : float, optional
        Centre of the bore toward the aft face from the centre of the round. [m]
    points : int, optional
        Corners on each turn, a multiple of four. [count]

    Returns
    -------
    Outline
        The outline. [m]

    Raises
    ------
    BadDesign
        The bore breaks out of the round.

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> len(bored_outline(diameter=0.046, bore=0.020).holes)
    1
    """
    forms.bored_moments(diameter=diameter, bore=bore, bore_off=bore_off)  # refuses what cannot be bored
    angle = _turn(points)
    y, z = np.cos(angle) / 2, np.sin(angle) / 2
    holes = ((bore * y, bore * z + bore_off),) if bore else ()
    return outline_of_points(y=diameter * y, z=diameter * z, holes=holes)


def eased_outline(*, thickness: float, width: float, corner: float = 0.0, points: int = CURVE_POINTS) -> Outline:
    """Outline of a square or rectangle with its corners eased to quarter circles.

    Parameters
    ----------
    thickness, width : float
        Sizes over the flats. [m]
    corner : float, optional
        Radius of the corners, nil for sharp ones. [m]
    points : int, optional
        Corners on the four quarter circles together. [count]

    Returns
    -------
    Outline
        The outline. [m]

    Raises
    ------
    BadDesign
        The corners are larger than half a side.

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> eased_outline(thickness=0.048, width=0.048).y.size
    4
    """
    forms.eased_moments(thickness=thickness, width=width, corner=corner)  # refuses corners that do not fit
    y, z = width / 2 - corner, thickness / 2 - corner
    angles = [_turn(points // 4 + 1 if corner else 1, n * np.pi / 2, (n + 1) * np.pi / 2) for n in range(4)]
    centres = ((y, z), (-y, z), (-y, -z), (y, -z))
    ring = np.concatenate(
        [np.column_stack([cy + corner * np.cos(a), cz + corner * np.sin(a)])
         for a, (cy, cz) in zip(angles, centres, strict=True)]
    )  # fmt: skip
    apart = np.hypot(*(ring - np.roll(ring, 1, axis=0)).T) > 1e-12
    return outline_of_points(y=ring[apart, 0], z=ring[apart, 1])


def regular_outline(*, across_flats: float, sides: int) -> Outline:
    """Outline of a square, octagon or 16-gon with flats on all four faces.

    Parameters
    ----------
    across_flats : float
        Distance of two parallel sides. [m]
    sides : int
        Number of sides, a multiple of four. [count]

    Returns
    -------
    Outline
        The outline. [m]

    Raises
    ------
    BadDesign
        The number of sides is not a multiple of four.

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> round(float(regular_outline(across_flats=0.040, sides=8).z.max()), 6)
    0.02
    """
    forms.regular_moments(across_flats=across_flats, sides=sides)  # refuses sides that cannot be marked out
    angle = _turn(sides) + np.pi / sides
    reach = across_flats / 2 / np.cos(np.pi / sides)
    return outline_of_points(y=reach * np.cos(angle), z=reach * np.sin(angle))


def blade_outline(*, thickness: float, width: float, edge: float) -> Outline:
    """Outline of the two-slope blade, thickest on its centre line.

    Parameters
    ----------
    thickness : float
        On the centre line. [m]
    width : float
        Edge to edge. [m]
    edge : float
        Thickness at the edges, nil for sharp ones. [m]

    Returns
    -------
    Outline
        The outline. [m]

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> blade_outline(thickness=0.012, width=0.13, edge=0.006).y.size
    6
    """
    refuse_size("blade", thickness=thickness, width=width)
    refuse_size("blade", least_nought=True, edge=edge)
    y = width / 2 * np.array([1, 0, -1, -1, 0, 1])
    z = np.array([edge, thickness, edge, -edge, -thickness, -edge]) / 2
    keep = slice(None) if edge else [0, 1, 2, 4]
    return outline_of_points(y=y[keep], z=z[keep])


def lens_outline(*, thickness: float, width: float, points: int = CURVE_POINTS) -> Outline:
    """Outline of a lens: two equal circular arcs that meet in sharp edges.

    Parameters
    ----------
    thickness : float
        On the centre line. [m]
    width : float
        Edge to edge, not less than the thickness. [m]
    points : int, optional
        Corners on the two arcs together, a multiple of four. [count]

    Returns
    -------
    Outline
        The outline. [m]

    Raises
    ------
    BadDesign
        The lens is thicker than wide.

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> round(float(lens_outline(thickness=0.012, width=0.13).z.max()), 9)
    0.006
    """
    forms.lens_moments(thickness=thickness, width=width)  # refuses a lens that is thicker than wide
    radius, half = (width**2 + thickness**2) / (4 * thickness), 2 * np.arctan2(thickness, width)
    angle = np.linspace(-half, half, points // 2 + 1)[:-1]
    y, z = -radius * np.sin(angle), radius * (np.cos(angle) - np.cos(half))
    return outline_of_points(y=np.concatenate([y, -y]), z=np.concatenate([z, -z]))


def trapezium_outline(*, thickness: float, aft_width: float, forward_width: float) -> Outline:
    """Outline of a trapezium, alike to both sides of its centre line.

    Parameters
    ----------
    thickness : float
        Aft face to forward face. [m]
    aft_width, forward_width : float
        Widths of the two faces. [m]

    Returns
    -------
    Outline
        The outline. [m]

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> float(trapezium_outline(thickness=0.03, aft_width=0.05, forward_width=0.04).y.max())
    0.025
    """
    refuse_size("trapezium", thickness=thickness, aft_width=aft_width, forward_width=forward_width)
    y = np.array([aft_width, -aft_width, -forward_width, forward_width]) / 2
    return outline_of_points(y=y, z=thickness / 2 * np.array([1, 1, -1, -1]))


def box_outline(*, thickness: float, width: float, face: float, cheek: float) -> Outline:
    """Outline of a hollow box.

    Parameters
    ----------
    thickness, width : float
        Outside. [m]
    face : float
        Thickness of the aft and of the forward wall. [m]
    cheek : float
        Thickness of the two side walls. [m]

    Returns
    -------
    Outline
        The outline. [m]

    Raises
    ------
    BadDesign
        The walls leave no hollow.

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> len(box_outline(thickness=0.05, width=0.04, face=0.01, cheek=0.008).holes)
    1
    """
    forms.box_moments(thickness=thickness, width=width, face=face, cheek=cheek)  # refuses walls without a hollow
    y, z = np.array([1, -1, -1, 1]) / 2, np.array([1, 1, -1, -1]) / 2
    return outline_of_points(
        y=width * y, z=thickness * z, holes=(((width - 2 * cheek) * y, (thickness - 2 * face) * z),)
    )
