"""An oar built of pieces of wood on its stations."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from typing import Any, TypeVar

import numpy as np
from numpy.typing import NDArray

from oarkit.oar.any_shape import Shape
from oarkit.oar.pieces import Kind, Piece, breaks, check_room, extent, regions
from oarkit.oar.shape import over_designs
from oarkit.section.laminate import Laminate, stacked
from oarkit.section.profile import Profile
from oarkit.working import Array, BadDesign, Number

__all__ = ["Kind", "Leather", "Oar", "Piece", "at_breaks", "build_oar", "once", "taken"]

_ANY_PLACE = ("leather_inboard", "leather_start")  #: may be negative
_MAY_BE_NIL = ("edge_at_root", "edge_at_tip")
_R = TypeVar("_R", Profile, Laminate)


@dataclass(frozen=True, slots=True, kw_only=True)
class Leather:
    """Mass of the leather, taken at the middle of its length [kg]."""

    mass: Number = 0.060


@dataclass(frozen=True, slots=True, kw_only=True)
class Oar:
    """An oar on its stations: s from the handle end, Simpson weights, sections and laminate along it.

    ``middle`` is the middle of the segment that a station belongs to, which tells the two stations at a break apart.
    """

    shape: Shape
    pieces: tuple[Piece, ...]
    leather: Leather
    s: Array
    weight: Array
    middle: Array
    profile: Profile
    laminate: Laminate

    @property
    def hand_arm(self) -> Number:
        """Pin line to grip centre."""
        return self.shape.inboard - self.shape.grip_centre

    @property
    def blade_arm(self) -> Number:
        """Pin line to mid-blade."""
        return self.shape.mid_blade - self.shape.inboard

    @property
    def leather_middle(self) -> Number:
        """Place of the middle of the leather's length."""
        return self.shape.leather_start + self.shape.leather_length / 2

    def spread(self, values: Array) -> Array:
        """Values at the stations, those that all designs share for each of them."""
        shape = self.s.shape
        return values if values.shape == shape else np.broadcast_to(values, np.broadcast_shapes(values.shape, shape))

    def integral(self, values: Array) -> Number:
        """Integral of station values along the oar."""
        total: Number = np.vecdot(once(self.weight), values)
        return total


def taken(values: Array, index: NDArray[np.intp]) -> Array:
    """Values at some stations, both values and stations for all designs of either.

    Parameters
    ----------
    values : array
        Designs on the leading axes, stations on the last. [any]
    index : array
        Numbers of stations on the last axis. [index]

    Returns
    -------
    array
        Values there. [any]

    Notes
    -----
    Source: derived; indexing.

    Examples
    --------
    >>> taken(np.array([[1.0, 2.0, 3.0], [4.0, 5.0, 6.0]]), np.array([[0], [2]])).tolist()
    [[1.0], [6.0]]
    """
    if index.size == index.shape[-1]:  # the same stations for all designs
        found: Array = values[..., index.ravel()]
        return found if found.ndim >= index.ndim else found.reshape(index.shape)
    lead = np.broadcast_shapes(values.shape[:-1], index.shape[:-1])
    return np.take_along_axis(
        np.broadcast_to(values, (*lead, values.shape[-1])), np.broadcast_to(index, (*lead, index.shape[-1])), axis=-1
    )


def at_breaks(oar: Oar, places: Sequence[Number]) -> Oar:
    """The oar at a few of its breaks, for stresses that are wanted nowhere else; integrals along it mean nothing.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    places : sequence of float or array
        Breaks of section or wood, from the handle end: the pin line, the blade root. [m]

    Returns
    -------
    Oar
        Two stations a place, that on its handle side and that on its tip side. [record]

    Notes
    -----
    Source: derived; every break has two stations.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> at_breaks(oar, [oar.shape.inboard]).s - oar.shape.inboard
    array([0., 0.])
    """
    s = once(oar.s)
    first = np.stack([(s < np.asarray(place)[..., None] - 1e-9).sum(axis=-1) for place in places], axis=-1)
    index = np.minimum(np.stack([first, first + 1], axis=-1), s.shape[-1] - 1).reshape(*first.shape[:-1], -1)

    def part(record: _R) -> _R:
        kept: dict[str, Any] = {
            field.name: tuple(taken(each, index) for each in value) if isinstance(value, tuple) else taken(value, index)
            for field in fields(record)
            for value in [getattr(record, field.name)]
        }
        return replace(record, **kept)

    return replace(
        oar, s=taken(oar.s, index), weight=taken(oar.weight, index), middle=taken(oar.middle, index),
        profile=part(oar.profile), laminate=part(oar.laminate),
    )  # fmt: skip


def once(values: Array) -> Array:
    """Values along the oar, those that all designs share only once, so that work on them is done only once.

    Parameters
    ----------
    values : array
        Designs on the leading axes, stations on the last. [any]

    Returns
    -------
    array
        The same, with a length of 1 on every leading axis along which nothing changes. [any]

    Notes
    -----
    Source: derived; what was spread over designs takes no step in memory from one to the next.

    Examples
    --------
    >>> once(np.broadcast_to(np.array([1.0, 2.0]), (5, 2))).shape, once(np.ones((5, 2))).shape
    ((1, 2), (5, 2))
    """
    if 0 not in values.strides[:-1]:
        return values
    return values[tuple(slice(None) if step else slice(1) for step in values.strides[:-1])]


def build_oar(
    shape: Shape,
    pieces: Sequence[Piece],
    leather: Leather = Leather(),
    *,
    count: int | None = None,
    marks: Sequence[Number] = (),
) -> Oar:
    """Put the pieces of wood together and lay the oar out on its stations.

    Parameters
    ----------
    shape : Shape
        Sizes of the oar. [m]
    pieces : sequence of Piece
        Woods in the order they are laid, the loom first. [records]
    leather : Leather, optional
        Mass of the leather. [kg]
    count : int, optional
        About how many stations; several hundred where nothing is said, 101 or 201 serve a sweep. [count]
    marks : sequence of float or array, optional
        Further places that stations shall stand on, as where a load acts. [m]

    Returns
    -------
    Oar
        Sections, stiffness and mass along the oar. [N m2, kg/m]

    Raises
    ------
    BadDesign
        The parts do not fit, a piece lies outside the oar or under others, or a stretch is left without wood.

    Notes
    -----
    Source: derived; transformed sections as `oarkit.section.laminate`.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> again = build_oar(oar.shape, oar.pieces, oar.leather)
    >>> bool((again.laminate.bending_stiffness > 0).all())
    True
    """
    _sound(shape)
    extents = [extent(piece, shape) for piece in pieces]
    laid = shape.laid((*breaks(pieces, extents), *marks), count=count)
    profile = shape.profile(laid)
    blade = (profile.blade_share > 0).reshape(-1, profile.blade_share.shape[-1]).any(axis=0)
    if (profile.edge[..., blade] > profile.thickness[..., blade] + 1e-9).any():
        raise BadDesign(
            "somewhere the blade's edge is thicker than its centre; thin the edge or thicken the tip and neck"
        )
    taken = regions(pieces, extents, laid)
    check_room(pieces, taken, profile, laid.weight)
    laminate = stacked(profile, regions=taken, woods=[piece.wood for piece in pieces])
    for piece, own in zip(pieces, laminate.piece_mass, strict=True):
        if not own.any():
            raise BadDesign(
                f"the {piece.kind} of {piece.wood.name} lies wholly under a later piece; take one of the two out, or "
                "list the one that lies under first"
            )
    designs = _designs(shape, pieces, leather)
    laid = over_designs(laid, designs)
    return Oar(
        shape=shape,
        pieces=tuple(pieces),
        leather=leather,
        s=laid.s,
        weight=laid.weight,
        middle=laid.middle,
        profile=_over(profile, laid.s.shape),
        laminate=_over(laminate, laid.s.shape),
    )


def _sound(shape: Shape) -> None:
    """Refuse sizes that no oar has: not finite, nil or negative, or a grip centre beyond the pin."""
    for name, number in shape.numbers.items():
        if name in _ANY_PLACE:
            continue
        size = np.asarray(number, dtype=float)
        least, most = float(size.min()), float(size.max())
        if not (0 <= least <= most < np.inf) or (least == 0 and name not in _MAY_BE_NIL):
            raise BadDesign(f"the {name.replace('_', ' ')} of the oar must be a length above nought")
    if np.greater_equal(shape.grip_centre, shape.inboard).any():
        raise BadDesign("the grip centre lies beyond the pin line")


def _designs(shape: Shape, pieces: Sequence[Piece], leather: Leather) -> tuple[int, ...]:
    """Shape of the array of designs that all given numbers broadcast to."""
    given: list[Number] = [leather.mass, *shape.numbers.values()]
    for piece in pieces:
        wood = piece.wood
        given += [wood.modulus, wood.shear_modulus, wood.density, wood.strength]
        given += [size for size in (piece.size, piece.start, piece.stop, piece.at) if size is not None]
    return np.broadcast_shapes(*(np.shape(number) for number in given))


def _wide(value: Array, shape: tuple[int, ...]) -> Array:
    return value if value.shape == shape else np.broadcast_to(value, shape)


def _over(record: _R, shape: tuple[int, ...]) -> _R:
    """A record of arrays, every one of them over all designs and stations."""
    spread: dict[str, Any] = {
        field.name: tuple(_wide(each, shape) for each in value) if isinstance(value, tuple) else _wide(value, shape)
        for field in fields(record)
        for value in [getattr(record, field.name)]
    }
    return replace(record, **spread)
