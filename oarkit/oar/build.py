"""An oar built of pieces of wood on its stations."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields
from itertools import pairwise
from typing import Literal

import numpy as np

from oarkit.oar.shape import OarShape, Stations, over_designs, profile_at, stations
from oarkit.section.laminate import Laminate, laminated
from oarkit.section.profile import Profile
from oarkit.wood.board import Wood
from oarkit.working import Array, BadDesign, Number, Quantity

_NO_SIZE = ("square_inboard", "leather_inboard")
_MAY_BE_NIL = ("edge_at_root", "edge_at_tip")
Kind = Literal["loom", "edge", "tip"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A piece of one wood in the oar; a later piece lies over an earlier one.

    ``size`` is the width of an edge strip in from each edge, or the length of a tip piece [m]; ``start`` and ``stop``
    bound it along the oar [m], None for where its kind usually lies.
    """

    kind: Kind
    wood: Wood
    size: Number | None = None
    start: Number | None = None
    stop: Number | None = None


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


def _extent(piece: Piece, shape: OarShape) -> tuple[Number, Number]:
    """Where a piece begins and ends along the oar."""
    if piece.kind != "loom" and piece.size is None:
        raise BadDesign(f"the {piece.kind} of {piece.wood.name} needs its size")
    usual: dict[Kind, tuple[Number, Number]] = {
        "loom": (0.0, shape.length),
        "edge": (shape.blade_root, shape.length),
        "tip": (shape.length - (piece.size if piece.size is not None else 0.0), shape.length),
    }
    start, stop = usual[piece.kind]
    start = start if piece.start is None else piece.start
    stop = stop if piece.stop is None else piece.stop
    if (
        float(np.min(np.subtract(stop, start))) <= 0
        or float(np.min(start)) < 0
        or float(np.max(np.subtract(stop, shape.length))) > 1e-9
    ):
        raise BadDesign(
            f"the {piece.kind} of {piece.wood.name} runs from {{start}} to {{stop}}, which is not a stretch of an "
            f"oar {{length}} long",
            {
                "start": Quantity(value=start, unit="m"),
                "stop": Quantity(value=stop, unit="m"),
                "length": Quantity(value=shape.length, unit="m"),
            },
        )
    return start, stop


def _further_breaks(pieces: Sequence[Piece], extents: Sequence[tuple[Number, Number]]) -> tuple[Number, ...]:
    """Ends of pieces that are not ends of the oar or the blade, where stations stand anyway."""
    breaks: list[Number] = []
    for piece, (start, stop) in zip(pieces, extents, strict=True):
        if piece.start is not None or piece.kind == "tip":
            breaks.append(start)
        if piece.stop is not None:
            breaks.append(stop)
    return tuple(breaks)


def build_oar(shape: OarShape, pieces: Sequence[Piece], leather: Leather = Leather()) -> Oar:
    """Put the pieces of wood together and lay the oar out on its stations.

    Parameters
    ----------
    shape : OarShape
        Sizes of the oar. [m]
    pieces : sequence of Piece
        Woods in the order they are laid, the loom first. [records]
    leather : Leather, optional
        Mass of the leather. [kg]

    Returns
    -------
    Oar
        Sections, stiffness and mass along the oar. [N m2, kg/m]

    Raises
    ------
    BadDesign
        The parts do not fit, or a stretch of the oar is left without wood.

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
    extents = [_extent(piece, shape) for piece in pieces]
    laid = over_designs(stations(shape, _further_breaks(pieces, extents)), _designs(shape, pieces, leather))
    profile = profile_at(shape, laid.s)
    if np.any((profile.blade_share > 0) & (profile.edge > profile.thickness + 1e-9)):
        raise BadDesign(
            "somewhere the blade's edge is thicker than its centre; thin the edge or thicken the tip and neck"
        )
    bounds, owner = _zones(pieces, extents, profile, laid)
    for index, piece in enumerate(pieces):
        shown = any(
            np.any((zone == index) & (outer > inner))
            for zone, inner, outer in zip(owner, bounds[:-1], bounds[1:], strict=True)
        )
        if not shown:
            raise BadDesign(
                f"the {piece.kind} of {piece.wood.name} lies wholly under a later piece; list the loom first"
            )
    laminate = laminated(profile, bounds=bounds, owner=owner, woods=[piece.wood for piece in pieces])
    return Oar(
        shape=shape,
        pieces=tuple(pieces),
        leather=leather,
        s=laid.s,
        weight=laid.weight,
        middle=laid.middle,
        profile=profile,
        laminate=laminate,
    )


def _sound(shape: OarShape) -> None:
    """Refuse sizes that no oar has: not finite, nil or negative, or a grip centre beyond the pin."""
    for field in fields(shape):
        if field.name in _NO_SIZE:
            continue
        size = np.asarray(getattr(shape, field.name), dtype=float)
        if not np.all(np.isfinite(size)) or np.any(size < 0) or (np.any(size == 0) and field.name not in _MAY_BE_NIL):
            raise BadDesign(f"the {field.name.replace('_', ' ')} of the oar must be a length above nought")
    if np.any(np.asarray(shape.grip_centre) >= shape.inboard):
        raise BadDesign("the grip centre lies beyond the pin line")


def _designs(shape: OarShape, pieces: Sequence[Piece], leather: Leather) -> tuple[int, ...]:
    """Shape of the array of designs that all given numbers broadcast to."""
    given: list[Number] = [leather.mass, *(getattr(shape, field.name) for field in fields(shape))]
    for piece in pieces:
        wood = piece.wood
        given += [wood.modulus, wood.shear_modulus, wood.density, wood.strength]
        given += [size for size in (piece.size, piece.start, piece.stop) if size is not None]
    return np.broadcast_shapes(*(np.shape(number) for number in given))


def _zones(
    pieces: Sequence[Piece], extents: Sequence[tuple[Number, Number]], profile: Profile, laid: Stations
) -> tuple[list[Array], list[Array]]:
    """Bounds of the zones across the half-width, and for each zone the piece that it is made of."""
    covers = [
        (laid.middle >= np.asarray(start)[..., None]) & (laid.middle <= np.asarray(stop)[..., None])
        for start, stop in extents
    ]
    inner_edges = [
        np.where(here, np.clip(1 - 2 * np.asarray(piece.size)[..., None] / profile.width, 0.0, 1.0), 1.0)
        for piece, here in zip(pieces, covers, strict=True)
        if piece.kind == "edge"
    ]
    nil = np.zeros_like(profile.width)
    bounds = [nil, *np.sort(np.stack([nil, *inner_edges]), axis=0)[1:], nil + 1.0]
    owner = []
    for inner, outer in pairwise(bounds):
        zone = np.full(laid.s.shape, -1)
        edges = iter(inner_edges)
        for index, (piece, here) in enumerate(zip(pieces, covers, strict=True)):
            reaches = inner >= next(edges) - 1e-12 if piece.kind == "edge" else True
            zone = np.where(here & reaches, index, zone)
        owner.append(zone)
        if np.any((zone < 0) & (outer > inner) & (laid.weight > 0)):
            raise BadDesign(
                "a stretch of the oar is left without wood; let one entry be the loom, from handle end to tip"
            )
    return bounds, owner
