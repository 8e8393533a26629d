"""Sections with layers in their thickness: strips parallel to the blade face, and faces that follow the outline.

The half-width is cut at every place where a layer leaves the outline or meets a face; between two cuts the layers keep
their order, and all moments are integrals of smooth functions: Gauss-Legendre, two points where the outline is
straight (exact), eight in a corner (in the angle of the corner; error below 1e-9).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray

from oarkit.section.profile import Moments, Profile, half_thickness, reach
from oarkit.working import Array, Number

Mask: TypeAlias = NDArray[np.bool_] | bool
_STRAIGHT, _CURVED = np.polynomial.legendre.leggauss(2), np.polynomial.legendre.leggauss(8)


@dataclass(frozen=True, slots=True, kw_only=True)
class Region:
    """What a piece takes up in the sections, stations on the last axis of every array.

    ``whole``; ``sides``: beyond half the width less ``size``; ``middle``: within half of ``size`` of the centre line;
    ``faces``: within ``size`` of either face; ``layer``: ``size`` thick and parallel to the blade face, its middle
    ``at`` from the middle plane, aft positive. ``here`` tells the stations where the piece lies. [m]
    """

    shape: Literal["whole", "sides", "middle", "faces", "layer"]
    size: Number = 0.0
    at: Number = 0.0
    here: Mask = True


def both(one: Mask, other: Mask) -> Mask:
    """Logical and that keeps plain yes and no as they are.

    Parameters
    ----------
    one, other : array or bool
        Masks. [flag]

    Returns
    -------
    array or bool
        True where both are. [flag]

    Notes
    -----
    Source: logic.

    Examples
    --------
    >>> both(True, True), both(np.array([True, False]), False)
    (True, False)
    """
    if one is False or other is False:
        return False
    if one is True:
        return other
    return one if other is True else one & other


def bound(section: Profile, region: Region) -> Array:
    """Place across the half-width where a piece at the sides begins, or one in the middle ends.

    Parameters
    ----------
    section : Profile
        The sections. [m]
    region : Region
        The piece, at the sides or in the middle. [m]

    Returns
    -------
    array
        Share of the half-width; where the piece is absent, the place that leaves it nothing. [1]

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> bar = Profile(thickness=np.array(0.04), width=np.array(0.04), edge=np.array(0.0),
    ...               corner=np.array(0.5), blade_share=np.array(0.0))
    >>> round(float(bound(bar, Region(shape="sides", size=0.005))), 9)
    0.75
    """
    if region.shape == "sides":
        return np.where(region.here, np.clip(1 - 2 * np.asarray(region.size) / section.width, 0.0, 1.0), 1.0)
    return np.where(region.here, np.clip(np.asarray(region.size) / section.width, 0.0, 1.0), 0.0)


def covers(section: Profile, region: Region, eta: Array, half: Array, z: Array) -> Mask:
    """Whether a piece covers places of the sections, where it lies at all.

    Parameters
    ----------
    section : Profile
        The sections. [m]
    region : Region
        The piece. [m]
    eta : array
        Places across the half-width. [1]
    half : array
        Half-thickness there. [m]
    z : array
        Heights of the places over the middle plane. [m]

    Returns
    -------
    array or bool
        True where it covers. [flag]

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> bar = Profile(thickness=np.array(0.04), width=np.array(0.04), edge=np.array(0.04), corner=np.array(0.0),
    ...               blade_share=np.array(0.0))
    >>> face = Region(shape="faces", size=0.005)
    >>> [bool(covers(bar, face, np.array(0.2), np.array(0.02), np.array(z))) for z in (0.01, -0.018)]
    [False, True]
    """
    if region.shape == "sides":
        return np.broadcast_to(eta > bound(section, region), z.shape)
    if region.shape == "middle":
        return np.broadcast_to(eta < bound(section, region), z.shape)
    if region.shape == "faces":
        return np.asarray(np.abs(z) > half - region.size)
    return True if region.shape == "whole" else np.asarray(np.abs(z - region.at) < np.asarray(region.size) / 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cells:
    """A half-width cut into columns and layers. ``levels`` has axes level, column, point, then designs and stations.

    The first and last point of a column are its sides, those between carry ``weight``; ``owner`` has the layers between
    the levels on its first axis.
    """

    eta: Array
    weight: Array
    levels: Array
    owner: NDArray[np.int_]

    def integral(self, power: int, *, over: Array | None = None) -> Array:
        """Integral over eta and z of z^(power − 1) in every layer of every column, ``over`` times a factor of eta."""
        inner = self.levels[:, :, 1:-1]
        weight = self.weight if over is None else self.weight * over
        found: Array = np.sum(weight * np.diff(inner**power, axis=0), axis=2) / power
        return found


def add(sums: Any, section: Profile, present: Sequence[tuple[int, Region]], run: slice) -> None:
    """Add a stretch of sections with layers to the sums of a laminate.

    Parameters
    ----------
    sums : Any
        What has been summed so far. [record]
    section : Profile
        The sections of the stretch. [m]
    present : sequence of tuple
        Index and region of the pieces that lie in it, in the order of laying. [records]
    run : slice
        The stations of the stretch. [index]

    Returns
    -------
    None
        The sums are changed. [nothing]

    Notes
    -----
    Source: transformed section, ANC-18 (1944), sec. 3.1330 and 3.1331.

    Examples
    --------
    >>> from oarkit.section.laminate import stacked
    >>> from oarkit.wood.board import Wood
    >>> bar = Profile(thickness=np.array([0.04]), width=np.array([0.03]), edge=np.array([0.04]),
    ...               corner=np.array([0.0]), blade_share=np.array([0.0]))
    >>> spruce = Wood(name="spruce", modulus=10e9, shear_modulus=0.6e9, density=430.0, strength=40e6, working=())
    >>> faced = stacked(bar, regions=[Region(shape="whole"), Region(shape="faces", size=0.005)], woods=[spruce, spruce])
    >>> round(float(faced.bending_stiffness[0]), 6)  # one wood: E w t^3/12
    1600.0
    """
    cells = _cut_up(section, present, dimensions=len(sums.shape))
    width = section.width
    modulus = _by_cell(cells, present, [known["modulus"] for known in sums.known])
    parts = [width * cells.integral(power) for power in (1, 2, 3)]
    parts.append(width**3 / 4 * cells.integral(1, over=cells.eta[:, 1:-1] ** 2))
    parts.append(width**2 / 4 * cells.integral(1, over=cells.eta[:, 1:-1]))
    axis = np.sum(modulus * parts[1], axis=(0, 1)) / np.sum(modulus * parts[0], axis=(0, 1))
    made = []
    for index, _ in present:
        own = cells.owner == index
        area, first, second, lateral, side = (np.sum(own * part, axis=(0, 1)) for part in parts)
        bending = second - 2 * axis * first + axis**2 * area
        moments = Moments(area=area, bending=bending, lateral=lateral, first=np.zeros(()), lateral_first=side)
        made.append((index, moments, True))
        sums.aft[index][..., run], sums.forward[index][..., run] = _fibres(cells, own, axis)
    sums.put(run, made)
    sums.neutral_axis[..., run] = axis
    sums.neutral_width[..., run] = width * reach(section, np.abs(axis))
    sums.total["first"][..., run] = _beyond(cells, modulus, width, axis, axis)
    for index, region in present:
        sums.glue[index][..., run] = _glue(cells, section, modulus, axis, region)


def _cut_up(section: Profile, present: Sequence[tuple[int, Region]], *, dimensions: int) -> _Cells:
    """Cut the half-width of every section where layers leave the outline or meet, and find whose each layer is."""
    cuts = _cuts(section, present, dimensions)
    eta, weight = _points(section, cuts)
    half = half_thickness(section, eta)
    levels = [half, -half]
    for _, region in present:
        if region.shape == "faces":
            inside = np.maximum(half - region.size, 0.0)
            levels += [inside, -inside]
        elif region.shape == "layer":
            levels += [np.clip(region.at + sign * np.asarray(region.size) / 2, -half, half) for sign in (-1, 1)]
    stack = np.sort(np.stack(np.broadcast_arrays(*levels)), axis=0)
    middle = eta.shape[1] // 2
    height = (stack[1:, :, middle] + stack[:-1, :, middle]) / 2
    owner = np.full(height.shape, -1)
    for index, region in present:
        covered = both(covers(section, region, eta[:, middle], half[:, middle], height), region.here)
        owner = np.where(covered, index, owner)
    return _Cells(eta=eta, weight=weight, levels=stack, owner=owner)


def _cuts(section: Profile, present: Sequence[tuple[int, Region]], dimensions: int) -> Array:
    """Bounds of the columns across the half-width, in order on the first axis."""
    stations = section.thickness.shape[-1:]
    nil = np.zeros((1,) * (dimensions - 1) + stations)
    at = [bound(section, region) for _, region in present if region.shape in ("sides", "middle")]
    levels = _kinks(present)
    if levels:
        at += list(reach(section, np.stack(np.broadcast_arrays(np.zeros((1,) * dimensions), *levels)[1:])))
    flat = nil + 1 - 2 * _corner(section)
    return np.sort(np.stack(np.broadcast_arrays(nil, flat, *at, nil + 1.0)), axis=0)


def _corner(section: Profile) -> Array:
    """Share of the width that a corner takes, nil where the outline is straight."""
    return np.where(section.blade_share < 1, section.corner, 0.0)


def _points(section: Profile, cuts: Array) -> tuple[Array, Array]:
    """Places across every column, its two sides among them, and the weights of those between.

    In a corner they lie in the angle of the corner, which takes the root out of the outline.
    """
    corner = _corner(section)
    straight = not np.any(corner)
    nodes, weights = _STRAIGHT if straight else _CURVED
    column = (-1, *[1] * (cuts.ndim - 1))
    share = np.concatenate([[0.0], (nodes + 1) / 2, [1.0]]).reshape(column)
    weight = (weights / 2).reshape(column)
    start, step = cuts[:-1, None], np.diff(cuts, axis=0)[:, None]
    if straight:
        return start + step * share, step * weight
    flat = 1 - 2 * corner
    curved = start + step / 2 > flat
    sine = np.divide(cuts - flat, 2 * corner, out=np.zeros_like(cuts), where=np.broadcast_to(corner > 0, cuts.shape))
    angle = np.arcsin(np.clip(sine, 0.0, 1.0))
    turn = np.diff(angle, axis=0)[:, None]
    phi = angle[:-1, None] + turn * share
    eta = np.where(curved, np.minimum(flat + 2 * corner * np.sin(phi), 1.0), start + step * share)
    return eta, weight * np.where(curved, 2 * corner * np.cos(phi[:, 1:-1]) * turn, step)


def _kinks(present: Sequence[tuple[int, Region]]) -> list[Array]:
    """Half-thicknesses at which layers leave the outline or meet the inner side of a face."""
    strips = [
        np.abs(region.at + sign * np.asarray(region.size) / 2)
        for _, region in present if region.shape == "layer" for sign in (-1, 1)
    ]  # fmt: skip
    faces = [np.asarray(region.size) for _, region in present if region.shape == "faces"]
    return [*strips, *faces, *(face + strip for face in faces for strip in strips)]


def _by_cell(cells: _Cells, present: Sequence[tuple[int, Region]], values: Sequence[Array]) -> Array:
    """A property of the wood in every layer of every column."""
    found: Array = np.zeros(())
    for index, _ in present:
        found = np.where(cells.owner == index, values[index], found)
    return found


def _fibres(cells: _Cells, own: NDArray[np.bool_], axis: Array) -> tuple[Array, Array]:
    """Signed distances from the neutral axis to the fibres of a piece furthest aft and furthest forward."""
    top, low = np.max(cells.levels[1:], axis=2), np.min(cells.levels[:-1], axis=2)
    thick = np.max(np.diff(cells.levels, axis=0), axis=2)
    real = own & (thick > 1e-12) & (np.sum(cells.weight, axis=1) > 1e-12)
    there = np.any(real, axis=(0, 1))
    aft = np.max(np.where(real, top, -np.inf), axis=(0, 1), initial=-1.0)
    forward = np.min(np.where(real, low, np.inf), axis=(0, 1), initial=1.0)
    return np.where(there, aft - axis, 0.0), np.where(there, forward - axis, 0.0)


def _beyond(cells: _Cells, modulus: Array, width: Array, axis: Array, level: Array) -> Array:
    """Sum of E times first moment about the neutral axis of all that lies aft of a level."""
    above = np.maximum(cells.levels[:, :, 1:-1], level)
    moment = np.sum(cells.weight * np.diff(above**2 / 2 - axis * above, axis=0), axis=2)
    found: Array = width * np.sum(modulus * moment, axis=(0, 1))
    return found


def _glue(cells: _Cells, section: Profile, modulus: Array, axis: Array, region: Region) -> Array:
    """Greatest E-weighted first moment over width at the joints of a strip or a face, nil for other pieces."""
    if region.shape == "layer":
        most: Array = np.zeros(())
        for sign in (-1, 1):
            level = region.at + sign * np.asarray(region.size) / 2
            wide = section.width * reach(section, np.abs(level))
            moment = np.abs(_beyond(cells, modulus, section.width, axis, level))
            most = np.maximum(most, np.divide(moment, wide, out=np.zeros_like(moment), where=wide > 0))
        return np.where(region.here, most, 0.0)
    if region.shape != "faces":
        return np.zeros(())
    outer = (cells.levels[1:] + cells.levels[:-1])[:, :, 1:-1] / 2
    half = half_thickness(section, cells.eta)[:, 1:-1]
    face = np.diff(cells.levels[:, :, 1:-1] ** 2 / 2 - axis * cells.levels[:, :, 1:-1], axis=0) * cells.weight
    wide = section.width  # to the core, and beyond it to the other face
    inside = np.maximum(half - region.size, 0.0)  # where the faces meet each has its own half
    both_faces = [
        np.abs(section.width * np.sum(modulus * np.sum(face * (sign * outer > inside), axis=2), axis=(0, 1)))
        for sign in (-1, 1)
    ]
    most = np.maximum(*both_faces)
    return np.where(region.here, np.divide(most, wide, out=np.zeros_like(most), where=wide > 0), 0.0)
