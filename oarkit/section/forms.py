"""Area, centroid and second moments of the shapes that oars are made in, in closed form.

``thickness`` runs along z (bending in the stroke), ``width`` along y. Everything is about the shape's own centroid;
the centroid is counted from the middle of thickness and width.
"""

from __future__ import annotations

import numpy as np

from oarkit.section.outline import ShapeMoments, refuse_size
from oarkit.working import BadDesign, Number, Quantity, formula

_GEOMETRY = "plane geometry"
_CHAPTER_9 = "Wood Handbook FPL-GTR-282 (2021), eq. 9-3"


def _centred(area: Number, bending: Number, lateral: Number) -> ShapeMoments:
    """Moments of a shape that is symmetric about both axes."""
    nil = np.zeros_like(area * 1.0)
    return ShapeMoments(area=area, centre_y=nil, centre_z=nil, bending=bending, lateral=lateral, product=nil)


@formula(
    "A = π w t/4,  I = π w t³/64", unit="m4", source=_CHAPTER_9, where={"thickness": "t [m]", "width": "w [m]"}
)  # fmt: skip
def ellipse_moments(*, thickness: Number, width: Number) -> ShapeMoments:
    """Moments of an ellipse, or of a round where thickness and width are one.

    Parameters
    ----------
    thickness, width : float or array
        Its two axes in full. [m]

    Returns
    -------
    ShapeMoments
        Area, centroid, second moments. [m4]

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), eq. 9-3 for the round; plane geometry.

    Examples
    --------
    >>> loom = ellipse_moments(thickness=0.046, width=0.040)
    >>> round(float(loom.area) * 1e6, 2), round(float(loom.bending) * 1e12)
    (1445.13, 191119)
    """
    refuse_size("ellipse", thickness=thickness, width=width)
    area = np.pi * width * thickness / 4
    return _centred(area, area * thickness**2 / 16, area * width**2 / 16)


@formula(
    "A = π (D² − a²)/4,  I = π (D⁴ − a⁴)/64 for a bore on the centre", unit="m4", source=_CHAPTER_9,
    where={"diameter": "D [m]", "bore": "a [m]", "bore_off": "e [m]"},
)  # fmt: skip
def bored_moments(*, diameter: Number, bore: Number = 0.0, bore_off: Number = 0.0) -> ShapeMoments:
    """Moments of a round, solid or bored hollow along its length.

    Parameters
    ----------
    diameter : float or array
        Outside. [m]
    bore : float or array, optional
        Diameter of the bore, nil for a solid round. [m]
    bore_off : float or array, optional
        Centre of the bore toward the aft face from the centre of the round. [m]

    Returns
    -------
    ShapeMoments
        Area, centroid, second moments. [m4]

    Raises
    ------
    BadDesign
        The bore breaks out of the round.

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), eq. 9-3, outside less bore; parallel axes.

    Examples
    --------
    >>> round(float(bored_moments(diameter=0.046, bore=0.020).bending) * 1e12)
    211933
    """
    refuse_size("round", diameter=diameter)
    refuse_size("bore", least_nought=True, diameter=bore)
    if np.any(np.asarray(bore) / 2 + np.abs(bore_off) >= np.asarray(diameter) / 2):
        raise BadDesign(
            "a bore of {bore} breaks out of a round of {diameter}; bore smaller or nearer the centre",
            {"bore": Quantity(value=float(np.max(bore)), unit="m"),
             "diameter": Quantity(value=float(np.min(diameter)), unit="m")},
        )  # fmt: skip
    whole, void = np.pi * diameter**2 / 4, np.pi * bore**2 / 4
    area = whole - void
    centre = -void * bore_off / area
    lateral = (whole * diameter**2 - void * bore**2) / 16
    bending = lateral + whole * centre**2 - void * (bore_off - centre) ** 2
    nil = np.zeros_like(area * 1.0)
    return ShapeMoments(
        area=area, centre_y=nil, centre_z=centre + nil, bending=bending, lateral=lateral + nil, product=nil
    )


@formula(
    "A = w t − (4 − π) r²,  I = (w − 2r) t³/12 + 2r (t − 2r)³/12 + 4 (π r² c²/4 + 2 r³ c/3 + π r⁴/16),  c = t/2 − r",
    unit="m4", source=_GEOMETRY, where={"thickness": "t [m]", "width": "w [m]", "corner": "r [m]"},
)  # fmt: skip
def eased_moments(*, thickness: Number, width: Number, corner: Number = 0.0) -> ShapeMoments:
    """Moments of a square or rectangle with its four corners eased to quarter circles.

    Parameters
    ----------
    thickness, width : float or array
        Sizes over the flats. [m]
    corner : float or array, optional
        Radius of the corners, nil for sharp ones. [m]

    Returns
    -------
    ShapeMoments
        Area, centroid, second moments. [m4]

    Raises
    ------
    BadDesign
        The corners are larger than half a side.

    Notes
    -----
    Source: plane geometry: middle, sides and four quarter circles. Sharp corners give eq. 9-3 of the Wood Handbook.

    Examples
    --------
    >>> round(float(eased_moments(thickness=0.048, width=0.048).bending / (0.048**4 / 12)), 9)
    1.0
    """
    refuse_size("section", thickness=thickness, width=width)
    refuse_size("section", least_nought=True, corner=corner)
    if np.any(2 * np.asarray(corner) > np.minimum(thickness, width) * (1 + 1e-12)):
        raise BadDesign(
            "corners eased to a radius of {corner} do not fit a section of {thickness} by {width}; "
            "the radius is at most half the smaller side",
            {"corner": Quantity(value=float(np.max(corner)), unit="m"),
             "thickness": Quantity(value=float(np.min(thickness)), unit="m"),
             "width": Quantity(value=float(np.min(width)), unit="m")},
        )  # fmt: skip

    def second(high: Number, broad: Number) -> Number:
        reach = high / 2 - corner
        quarters = 4 * (np.pi * corner**2 * reach**2 / 4 + 2 * corner**3 * reach / 3 + np.pi * corner**4 / 16)
        return (broad - 2 * corner) * high**3 / 12 + 2 * corner * (high - 2 * corner) ** 3 / 12 + quarters

    return _centred(width * thickness - (4 - np.pi) * corner**2, second(thickness, width), second(width, thickness))


@formula(
    "A = (n f²/4) tan(π/n),  I = A f² (3 + tan²(π/n))/48", unit="m4", source=_GEOMETRY,
    where={"across_flats": "f [m]"},
)  # fmt: skip
def regular_moments(*, across_flats: Number, sides: int) -> ShapeMoments:
    """Moments of a regular section: 4 sides a square, 8 the octagon and 16 the next stage of a spar being rounded.

    Parameters
    ----------
    across_flats : float or array
        Distance of two parallel sides. [m]
    sides : int
        Number of sides, a multiple of four. [count]

    Returns
    -------
    ShapeMoments
        Area, centroid, second moments. [m4]

    Raises
    ------
    BadDesign
        The number of sides is not a multiple of four.

    Notes
    -----
    Source: plane geometry; any axis through the centre of a regular polygon is a principal one.

    Examples
    --------
    >>> round(float(regular_moments(across_flats=0.040, sides=8).area) * 1e6, 2)
    1325.48
    """
    refuse_size("section", size_across_flats=across_flats)
    if sides < 4 or sides % 4:
        raise BadDesign(f"a section of {sides} equal sides is not marked out from a square; take 4, 8, 16 or 32 sides")
    slope = np.tan(np.pi / sides)
    area = sides * across_flats**2 / 4 * slope
    second = area * across_flats**2 * (3 + slope**2) / 48
    return _centred(area, second, second)


@formula(
    "A = w (t + e)/2,  I = w (t³ + t² e + t e² + e³)/48", unit="m4", source=_GEOMETRY,
    where={"thickness": "t [m]", "width": "w [m]", "edge": "e [m]"},
)  # fmt: skip
def blade_moments(*, thickness: Number, width: Number, edge: Number) -> ShapeMoments:
    """Moments of the two-slope blade, thickest on its centre line.

    Parameters
    ----------
    thickness : float or array
        On the centre line. [m]
    width : float or array
        Edge to edge. [m]
    edge : float or array
        Thickness at the edges. [m]

    Returns
    -------
    ShapeMoments
        Area, centroid, second moments. [m4]

    Notes
    -----
    Source: plane geometry, two trapezia back to back.

    Examples
    --------
    >>> round(float(blade_moments(thickness=0.012, width=0.13, edge=0.006).bending) * 1e12, 1)
    8775.0
    """
    refuse_size("blade", thickness=thickness, width=width)
    refuse_size("blade", least_nought=True, edge=edge)
    cubes = thickness**3 + thickness**2 * edge + thickness * edge**2 + edge**3
    return _centred(width * (thickness + edge) / 2, width * cubes / 48, width**3 * (thickness + 3 * edge) / 48)


@formula(
    "A = R² (2α − sin 2α),  R = (w² + t²)/(4t),  tan(α/2) = t/w", unit="m4", source=_GEOMETRY,
    where={"thickness": "t [m]", "width": "w [m]"},
)  # fmt: skip
def lens_moments(*, thickness: Number, width: Number) -> ShapeMoments:
    """Moments of a lens: two equal circular arcs that meet in sharp edges.

    Parameters
    ----------
    thickness : float or array
        On the centre line. [m]
    width : float or array
        Edge to edge, not less than the thickness. [m]

    Returns
    -------
    ShapeMoments
        Area, centroid, second moments. [m4]

    Raises
    ------
    BadDesign
        The lens is thicker than wide.

    Notes
    -----
    Source: plane geometry of the circular segment, carried from the arc's centre to the chord.

    Examples
    --------
    >>> round_bar = lens_moments(thickness=0.04, width=0.04)
    >>> round(float(round_bar.bending / (np.pi * 0.04**4 / 64)), 9)
    1.0
    """
    refuse_size("lens", thickness=thickness, width=width)
    if np.any(np.asarray(thickness) > width):
        raise BadDesign("a lens is wider than thick; give its thickness and width the other way round")
    radius = (width**2 + thickness**2) / (4 * thickness)
    half = 2 * np.arctan2(thickness, width)
    sector, depth = 2 * half - np.sin(2 * half), radius * np.cos(half)
    bulge = np.sin(2 * half) * np.sin(half) ** 2
    about_centre = radius**4 / 8 * (sector + 2 * bulge)
    chord = about_centre - 2 * depth * 2 / 3 * (radius * np.sin(half)) ** 3 + depth**2 * radius**2 * sector / 2
    return _centred(radius**2 * sector, 2 * chord, radius**4 / 12 * (3 * sector - 2 * bulge))


@formula(
    "A = t (a + b)/2,  z_c = t (a − b)/(6 (a + b)),  I = t³ (a² + 4ab + b²)/(36 (a + b))", unit="m4", source=_GEOMETRY,
    where={"thickness": "t [m]", "aft_width": "a [m]", "forward_width": "b [m]"},
)  # fmt: skip
def trapezium_moments(*, thickness: Number, aft_width: Number, forward_width: Number) -> ShapeMoments:
    """Moments of a trapezium, alike to both sides of its centre line.

    Parameters
    ----------
    thickness : float or array
        Aft face to forward face. [m]
    aft_width, forward_width : float or array
        Widths of the two faces. [m]

    Returns
    -------
    ShapeMoments
        Area, centroid from mid-thickness, second moments. [m4]

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> round(float(trapezium_moments(thickness=0.03, aft_width=0.05, forward_width=0.04).centre_z) * 1000, 4)
    0.5556
    """
    refuse_size("trapezium", thickness=thickness, aft_width=aft_width, forward_width=forward_width)
    both = aft_width + forward_width
    area = thickness * both / 2
    nil = np.zeros_like(area * 1.0)
    squares = aft_width**2 + forward_width**2
    return ShapeMoments(
        area=area, centre_y=nil, centre_z=thickness * (aft_width - forward_width) / (6 * both),
        bending=thickness**3 * (squares + 4 * aft_width * forward_width) / (36 * both),
        lateral=thickness * both * squares / 48, product=nil,
    )  # fmt: skip


@formula(
    "I = (w t³ − (w − 2c)(t − 2f)³)/12", unit="m4", source=_GEOMETRY,
    where={"thickness": "t [m]", "width": "w [m]", "face": "f [m]", "cheek": "c [m]"},
)  # fmt: skip
def box_moments(*, thickness: Number, width: Number, face: Number, cheek: Number) -> ShapeMoments:
    """Moments of a hollow box.

    Parameters
    ----------
    thickness, width : float or array
        Outside. [m]
    face : float or array
        Thickness of the aft and of the forward wall. [m]
    cheek : float or array
        Thickness of the two side walls. [m]

    Returns
    -------
    ShapeMoments
        Area, centroid, second moments. [m4]

    Raises
    ------
    BadDesign
        The walls leave no hollow.

    Notes
    -----
    Source: plane geometry, outside less hollow.

    Examples
    --------
    >>> round(float(box_moments(thickness=0.05, width=0.04, face=0.01, cheek=0.008).area) * 1e6)
    1280
    """
    refuse_size("box", thickness=thickness, width=width, face=face, cheek=cheek)
    refuse_size("hollow of the box", thickness=thickness - 2 * face, width=width - 2 * cheek)
    high, broad = thickness - 2 * face, width - 2 * cheek
    return _centred(
        width * thickness - broad * high,
        (width * thickness**3 - broad * high**3) / 12,
        (thickness * width**3 - high * broad**3) / 12,
    )
