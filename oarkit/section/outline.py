"""Outlines of any shape as closed polygons, and their area and moments by Green's theorem, exact for the polygon.

y runs across the width, z through the thickness (toward the aft face, which pulls in a stroke). One outline is one
section; `edge_moments` takes leading axes of designs.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from oarkit.working import Array, BadDesign, Number, Quantity, formula


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """Outline of one section: corners in order, the last joined to the first; ``holes`` are hollows in it. [m]"""

    y: Array
    z: Array
    holes: tuple[tuple[Array, Array], ...] = field(default=())

    @property
    def shape(self) -> Polygon:
        """The outline as a polygon with its hollows."""
        return Polygon(np.column_stack([self.y, self.z]), [np.column_stack(hole) for hole in self.holes])


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeMoments:
    """Area, centroid (m) and second moments about the centroid (m2, m4).

    ``bending`` is the integral of z squared, ``lateral`` of y squared, ``product`` of y z.
    """

    area: Number
    centre_y: Number
    centre_z: Number
    bending: Number
    lateral: Number
    product: Number


def refuse_size(shape: str, *, least_nought: bool = False, **sizes: Number) -> None:
    """Refuse a size that is nil or reversed.

    Parameters
    ----------
    shape : str
        What the sizes belong to, in the builder's words. [text]
    least_nought : bool, optional
        Nought itself is allowed. [yes/no]
    **sizes : float or array
        Sizes by name. [m]

    Returns
    -------
    None
        Nothing, if all is well. [none]

    Raises
    ------
    BadDesign
        A size is nil, reversed or no number.

    Notes
    -----
    Source: derived; a section has a size in both directions.

    Examples
    --------
    >>> refuse_size("blade", width=0.13, edge=0.006)
    """
    for name, size in sizes.items():
        whole = np.asarray(size) >= 0 if least_nought else np.asarray(size) > 0
        if not np.all(whole & np.isfinite(size)):
            least = "less than nought" if least_nought else "nought or less"
            raise BadDesign(
                f"the {name.replace('_', ' ')} of the {shape} is {least}, or no number: {{size}}; give its full size",
                {"size": Quantity(value=float(np.min(size)), unit="m")},
            )


def outline_of_points(*, y: Array, z: Array, holes: tuple[tuple[Array, Array], ...] = ()) -> Outline:
    """Outline through given corners, looked over before it is used.

    Parameters
    ----------
    y, z : array
        Corners in order, either way round; the first may be repeated at the end. [m]
    holes : tuple of pairs of array, optional
        Hollows, each by its corners (y, z). [m]

    Returns
    -------
    Outline
        The outline. [m]

    Raises
    ------
    BadDesign
        Fewer than three corners, an outline that crosses itself, no size, or a hole that sticks out.

    Notes
    -----
    Source: derived; an outline encloses its wood once.

    Examples
    --------
    >>> wedge = outline_of_points(y=np.array([0.0, 0.04, 0.0]), z=np.array([0.0, 0.0, 0.03]))
    >>> round(float(outline_moments(wedge).area), 6)
    0.0006
    """
    y, z = _ring(y, z, "outline")
    whole = Polygon(np.column_stack([y, z]))
    void: BaseGeometry = Polygon()
    rings = tuple(_ring(hole_y, hole_z, "hole") for hole_y, hole_z in holes)
    for ring in rings:
        hole = Polygon(np.column_stack(ring))
        if not whole.contains(hole) or whole.boundary.intersects(hole):
            raise BadDesign(
                "a hole of {width} by {thickness} sticks out of the outline; make it smaller or move it inward",
                size_of(hole),
            )
        if void.intersects(hole):
            raise BadDesign("two holes of the section run into each other; give them as one", size_of(hole))
        void = void.union(hole)
    return Outline(y=y, z=z, holes=rings)


def size_of(shape: BaseGeometry) -> dict[str, Quantity]:
    """Width and thickness over all of a shape, as the gaps of a sentence.

    Parameters
    ----------
    shape : shapely geometry
        Any shape, y first. [m]

    Returns
    -------
    dict
        "width" and "thickness". [m]

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> size_of(shapely.box(0.0, 0.0, 0.04, 0.03))["thickness"].value
    0.03
    """
    y0, z0, y1, z1 = shape.bounds
    return {"width": Quantity(value=y1 - y0, unit="m"), "thickness": Quantity(value=z1 - z0, unit="m")}


def _ring(y: Array, z: Array, what: str) -> tuple[Array, Array]:
    """Corners of a closed ring, counter-clockwise and without the repeated one; refused if it is no ring."""
    y, z = np.asarray(y, dtype=float), np.asarray(z, dtype=float)
    if y.shape != z.shape or y.ndim != 1 or not np.all(np.isfinite(y) & np.isfinite(z)):
        raise BadDesign(f"the {what} needs a y and a z at every corner, and numbers only")
    if y.size and y[0] == y[-1] and z[0] == z[-1]:
        y, z = y[:-1], z[:-1]
    if y.size < 3:
        raise BadDesign(f"the {what} has only {y.size} corners; it takes three to enclose wood")
    ring = Polygon(np.column_stack([y, z]))
    if ring.convex_hull.area <= 1e-12 * (np.ptp(y) + np.ptp(z)) ** 2:
        raise BadDesign(f"the {what} has no size: its corners lie in one line")
    if not ring.is_valid:
        raise BadDesign(f"the {what} crosses or touches itself; give its corners in order round the section")
    return (y, z) if ring.exterior.is_ccw else (y[::-1], z[::-1])


def edges_of(shape: BaseGeometry) -> Array:
    """Straight edges of a shape with the wood on their left hand, so that hollows count as taken away.

    Parameters
    ----------
    shape : shapely polygon or multipolygon
        The shape; anything in it without area is left out. [m]

    Returns
    -------
    array
        One row an edge: y and z of its start, y and z of its end. [m]

    Notes
    -----
    Source: derived; orientation of rings for Green's theorem.

    Examples
    --------
    >>> edges_of(shapely.box(0.0, 0.0, 0.04, 0.03)).shape
    (4, 4)
    """
    rows = [np.empty((0, 4))]
    for bit in shapely.get_parts(shape):
        if not isinstance(bit, Polygon) or bit.is_empty:
            continue
        for ring, outer in [(bit.exterior, True), *((hole, False) for hole in bit.interiors)]:
            corners = np.asarray(ring.coords)[:, :2]
            corners = corners if ring.is_ccw == outer else corners[::-1]
            rows.append(np.hstack([corners[:-1], corners[1:]]))
    return np.concatenate(rows)


@formula(
    "A = Σ a_i/2,  a_i = y_i z_(i+1) − y_(i+1) z_i,  I = Σ a_i (z_i² + z_i z_(i+1) + z_(i+1)²)/12 − A z_c²", unit="m4",
    source="Green's theorem on a polygon",
)  # fmt: skip
def edge_moments(edges: Array) -> ShapeMoments:
    """Area, centroid and second moments of what straight edges enclose, about its own centroid.

    Parameters
    ----------
    edges : array
        Rows of y, z at the start and y, z at the end of each edge; leading axes are designs. [m]

    Returns
    -------
    ShapeMoments
        Area, centroid, second moments and product. [m4]

    Notes
    -----
    Source: Green's theorem, exact for a polygon with any hollows.

    Examples
    --------
    >>> bar = edge_moments(edges_of(shapely.box(0.0, 0.0, 0.04, 0.03)))
    >>> round(float(bar.bending) * 1e12), round(float(bar.centre_y), 6)
    (90000, 0.02)
    """
    origin = edges.mean(axis=-2, keepdims=True)[..., :2]  # near the centroid, so that little is lost in subtraction
    y0, z0 = edges[..., 0] - origin[..., 0], edges[..., 1] - origin[..., 1]
    y1, z1 = edges[..., 2] - origin[..., 0], edges[..., 3] - origin[..., 1]
    cross = y0 * z1 - y1 * z0
    area = cross.sum(axis=-1) / 2
    safe = np.where(area > 0, area, 1.0)
    cy = (cross * (y0 + y1)).sum(axis=-1) / 6 / safe
    cz = (cross * (z0 + z1)).sum(axis=-1) / 6 / safe
    return ShapeMoments(
        area=area,
        centre_y=cy + origin[..., 0, 0],
        centre_z=cz + origin[..., 0, 1],
        bending=(cross * (z0**2 + z0 * z1 + z1**2)).sum(axis=-1) / 12 - area * cz**2,
        lateral=(cross * (y0**2 + y0 * y1 + y1**2)).sum(axis=-1) / 12 - area * cy**2,
        product=(cross * (y0 * z1 + 2 * y0 * z0 + 2 * y1 * z1 + y1 * z0)).sum(axis=-1) / 24 - area * cy * cz,
    )


def outline_moments(outline: Outline) -> ShapeMoments:
    """Area, centroid and second moments of an outline, hollows taken out.

    Parameters
    ----------
    outline : Outline
        One section. [m]

    Returns
    -------
    ShapeMoments
        About its own centroid. [m4]

    Notes
    -----
    Source: `edge_moments`.

    Examples
    --------
    >>> slab = outline_of_points(y=np.array([0.0, 0.04, 0.04, 0.0]), z=np.array([0.0, 0.0, 0.03, 0.03]))
    >>> round(float(outline_moments(slab).lateral) * 1e12)
    160000
    """
    return edge_moments(edges_of(outline.shape))
