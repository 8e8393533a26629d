"""An oar built of pieces of wood on its stations."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from typing import Any, TypeVar

import numpy as np

from oarkit.oar.pieces import Kind, Piece, breaks, check_room, extent, regions
from oarkit.oar.shape import OarShape, over_designs, profile_at, stations
from oarkit.section.laminate import Laminate, stacked
from oarkit.section.profile import Profile
from oarkit.working import Array, BadDesign, Number

__all__ = ["Kind", "Leather", "Oar", "Piece", "build_oar"]

_NO_SIZE = ("square_inboard", "leather_inboard")
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

    shape: OarShape
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

    def integral(self, values: Array) -> Number:
        """Integral of station values along the oar."""
        total: Number = np.sum(self.weight * values, axis=-1)
        return total


def build_oar(
    shape: OarShape, pieces: Sequence[Piece], leather: Leather = Leather(), *, count: int | None = None
) -> Oar:
    """Put the pieces of wood together and lay the oar out on its stations.

    Parameters
    ----------
    shape : OarShape
        Sizes of the oar. [m]
    pieces : sequence of Piece
        Woods in the order they are laid, the loom first. [records]
    leather : Leather, optional
        Mass of the leather. [kg]
    count : int, optional
        About how many stations; several hundred where nothing is said, 101 or 201 serve a sweep. [count]

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
    laid = stations(shape, breaks(pieces, extents), count=count)
    profile = profile_at(shape, laid.s)
    if np.any((profile.blade_share > 0) & (profile.edge > profile.thickness + 1e-9)):
        raise BadDesign(
            "somewhere the blade's edge is thicker than its centre; thin the edge or thicken the tip and neck"
        )
    taken = regions(pieces, extents, laid)
    check_room(pieces, taken, profile, laid.weight)
    laminate = stacked(profile, regions=taken, woods=[piece.wood for piece in pieces])
    for piece, own in zip(pieces, laminate.piece_mass, strict=True):
        if not np.any(own > 0):
            raise BadDesign(
                f"the {piece.kind} of {piece.wood.name} lies wholly under a later piece; list the loom first"
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


def _sound(shape: OarShape) -> None:
    """Refuse sizes that no oar has: not finite, nil or negative, or a grip centre beyond the pin."""
    for field in fields(shape):
        if field.name in _NO_SIZE:
            continue
        size = np.asarray(getattr(shape, field.name), dtype=float)
        least, most = float(np.min(size)), float(np.max(size))
        if not (0 <= least <= most < np.inf) or (least == 0 and field.name not in _MAY_BE_NIL):
            raise BadDesign(f"the {field.name.replace('_', ' ')} of the oar must be a length above nought")
    if np.any(np.asarray(shape.grip_centre) >= shape.inboard):
        raise BadDesign("the grip centre lies beyond the pin line")


def _designs(shape: OarShape, pieces: Sequence[Piece], leather: Leather) -> tuple[int, ...]:
    """Shape of the array of designs that all given numbers broadcast to."""
    given: list[Number] = [leather.mass, *(getattr(shape, field.name) for field in fields(shape))]
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
