"""The pieces of wood that an oar is laminated from: where each lies along the oar and in its sections."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, get_args

import numpy as np

from oarkit.oar.any_shape import Shape
from oarkit.oar.shape import Stations
from oarkit.section.layers import Region
from oarkit.section.profile import Profile
from oarkit.wood.board import Wood
from oarkit.working import Array, BadDesign, Number, Quantity

Kind = Literal["loom", "strip", "cheek", "face", "edge", "tip", "spline"]
SPLINE_SHARE = (
    0.25  #: outer part of the blade that a spline runs in where nothing else is said, a choice of this project
)
_PLACES = 1e-9  #: two places along the oar closer than this are one [m]
_SIZE_OF: dict[Kind, str] = {
    "strip": "thickness", "cheek": "width on each side", "face": "thickness", "edge": "width in from each edge",
    "tip": "length along the oar", "spline": "width",
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A piece of one wood in the oar; a later piece lies over an earlier one.

    ``size`` [m] is the thickness of a strip (parallel to the blade face) or of a face (on either side of the blade,
    following it), the width of a cheek or an edge strip in from each side, the width of a spline in the middle of the
    blade, or the length of a tip piece; a loom has none. ``at`` is the height of a strip's middle over the middle
    plane, aft positive [m]. ``start`` and ``stop`` bound the piece along the oar [m], None for where its kind usually
    lies: loom and strip from end to end, edge and face over the blade, spline in the outer quarter of the blade; a
    cheek needs both.
    """

    kind: Kind
    wood: Wood
    size: Number | None = None
    start: Number | None = None
    stop: Number | None = None
    at: Number = 0.0


def extent(piece: Piece, shape: Shape) -> tuple[Number, Number]:
    """Where a piece begins and ends along the oar.

    Parameters
    ----------
    piece : Piece
        The piece. [record]
    shape : Shape
        Sizes of the oar. [m]

    Returns
    -------
    tuple of float or array
        Places from the handle end. [m]

    Raises
    ------
    BadDesign
        Its size is missing or not above nought, or it does not lie on the oar.

    Notes
    -----
    Source: choice of this project where a piece does not say where it lies.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> start, stop = extent(oar.pieces[1], oar.shape)
    >>> bool(abs(start - oar.shape.blade_root) < 1e-9), bool(stop == oar.shape.length)
    (True, True)
    """
    if piece.kind not in get_args(Kind):
        raise BadDesign(f"a piece of an oar is one of {', '.join(get_args(Kind))}, not {piece.kind}")
    _sized(piece)
    size = 0.0 if piece.size is None else piece.size
    blade = (shape.blade_root, shape.length)
    usual: dict[Kind, tuple[Number, Number]] = {
        "loom": (0.0, shape.length),
        "strip": (0.0, shape.length),
        "face": blade,
        "edge": blade,
        "tip": (shape.length - size, shape.length),
        "spline": (shape.length - SPLINE_SHARE * shape.blade_length, shape.length),
    }
    if piece.kind == "cheek" and (piece.start is None or piece.stop is None):
        raise BadDesign(f"the cheek of {piece.wood.name} needs to say where it starts and where it stops along the oar")
    start, stop = usual.get(piece.kind, (0.0, shape.length))
    start = start if piece.start is None else piece.start
    stop = stop if piece.stop is None else piece.stop
    if not (
        np.greater(stop, start).all()
        and np.greater_equal(start, 0).all()
        and np.less_equal(np.subtract(stop, shape.length), _PLACES).all()
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


def _sized(piece: Piece) -> None:
    """Refuse a piece whose size is missing, nil, reversed or no number."""
    if piece.kind == "loom":
        return
    if piece.size is None:
        raise BadDesign(f"the {piece.kind} of {piece.wood.name} needs its size ({_SIZE_OF[piece.kind]})")
    if not np.isfinite(piece.size).all() or np.less_equal(piece.size, 0).any():
        raise BadDesign(
            f"the size of the {piece.kind} of {piece.wood.name} ({_SIZE_OF[piece.kind]}) must be above nought"
        )
    if not np.isfinite(piece.at).all():
        raise BadDesign(f"the place of the {piece.kind} of {piece.wood.name} in the thickness must be a length")


def breaks(pieces: Sequence[Piece], extents: Sequence[tuple[Number, Number]]) -> tuple[Number, ...]:
    """Ends of pieces that are not ends of the oar or the blade, where stations stand anyway.

    Parameters
    ----------
    pieces : sequence of Piece
        The pieces. [records]
    extents : sequence of tuple
        Where each begins and ends along the oar. [m]

    Returns
    -------
    tuple of float or array
        Places along the oar. [m]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> wood = Wood(name="ash", modulus=12e9, shear_modulus=1e9, density=650.0, strength=60e6, working=())
    >>> breaks([Piece(kind="strip", wood=wood, size=0.01, stop=1.8)], [(0.0, 1.8)])
    (1.8,)
    """
    found: list[Number] = []
    for piece, (start, stop) in zip(pieces, extents, strict=True):
        if piece.start is not None or piece.kind in ("tip", "spline"):
            found.append(start)
        if piece.stop is not None:
            found.append(stop)
    return tuple(found)


def regions(pieces: Sequence[Piece], extents: Sequence[tuple[Number, Number]], laid: Stations) -> list[Region]:
    """What each piece takes up in the sections at the stations.

    Parameters
    ----------
    pieces : sequence of Piece
        The pieces. [records]
    extents : sequence of tuple
        Where each begins and ends along the oar. [m]
    laid : Stations
        The stations. [m]

    Returns
    -------
    list of Region
        One a piece. [m]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit.oar.shape import Stations
    >>> wood = Wood(name="ash", modulus=12e9, shear_modulus=1e9, density=650.0, strength=60e6, working=())
    >>> two = Stations(s=np.array([0.0, 2.0]), weight=np.ones(2), middle=np.array([0.5, 1.5]))
    >>> regions([Piece(kind="strip", wood=wood, size=0.01, start=1.0)], [(1.0, 2.0)], two)[0].here
    array([False,  True])
    """
    shapes: dict[Kind, Literal["whole", "sides", "middle", "faces", "layer"]] = {
        "loom": "whole", "tip": "whole", "strip": "layer", "cheek": "sides", "edge": "sides", "face": "faces",
        "spline": "middle",
    }  # fmt: skip
    return [
        Region(
            shape=shapes[piece.kind],
            size=np.asarray(0.0 if piece.size is None else piece.size, dtype=float)[..., None],
            at=np.asarray(piece.at, dtype=float)[..., None],
            here=(laid.middle >= np.asarray(start)[..., None]) & (laid.middle <= np.asarray(stop)[..., None]),
        )
        for piece, (start, stop) in zip(pieces, extents, strict=True)
    ]


def check_room(pieces: Sequence[Piece], laid: Sequence[Region], profile: Profile, weight: Array) -> None:
    """Refuse pieces that find no room in the outline, and stretches of the oar without wood.

    Parameters
    ----------
    pieces : sequence of Piece
        The pieces. [records]
    laid : sequence of Region
        What each takes up. [m]
    profile : Profile
        The sections. [m]
    weight : array
        Length that each station stands for. [m]

    Returns
    -------
    None
        Nothing. [nothing]

    Raises
    ------
    BadDesign
        A piece sticks out of the outline all along, or a stretch of the oar is left without wood.

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> bar = Profile(thickness=np.array([0.04]), width=np.array([0.03]), edge=np.array([0.04]),
    ...               corner=np.array([0.0]), blade_share=np.array([0.0]))
    >>> wood = Wood(name="ash", modulus=12e9, shear_modulus=1e9, density=650.0, strength=60e6, working=())
    >>> check_room([Piece(kind="loom", wood=wood)], [Region(shape="whole", here=np.array([True]))], bar, np.ones(1))
    """
    solid = np.zeros(np.shape(weight), dtype=bool)
    for region in laid:
        if region.shape == "whole":
            solid = solid | np.asarray(region.here)
    if (~solid & (weight > 0)).any():
        raise BadDesign("a stretch of the oar is left without wood; let one entry be the loom, from handle end to tip")
    for piece, region in zip(pieces, laid, strict=True):
        if region.shape == "whole":
            continue
        whole = profile.thickness if region.shape in ("layer", "faces") else profile.width
        room = whole if region.shape == "middle" else whole / 2
        nearest = np.maximum(np.abs(region.at) - region.size / 2, 0.0) if region.shape == "layer" else region.size
        if region.shape == "faces":  # where the oar is thinner than both they are all there is, and no faces
            most = np.where(region.here, room, np.inf).min(axis=-1, keepdims=True) + _PLACES
        else:
            most = np.where(region.here, room, 0.0).max(axis=-1, keepdims=True)
        if not np.less(nearest, most).all():
            _refuse(piece, most)


def _refuse(piece: Piece, room: Array) -> None:
    room_for = "of the thickness" if piece.kind in ("strip", "face") else "of the width"
    share = "the whole" if piece.kind == "spline" else "half"
    found = "lies wholly outside" if piece.kind == "strip" else "sticks out of"
    size = np.abs(piece.at) if piece.kind == "strip" else piece.size
    what = "its middle stands {size} from the middle plane" if piece.kind == "strip" else "it is {size}"
    raise BadDesign(
        f"the {piece.kind} of {piece.wood.name} {found} the oar: {what}, and {share} {room_for} is {{room}} at "
        f"{'least' if piece.kind == 'face' else 'most'} where it lies",
        {
            "size": Quantity(value=float(np.max(np.asarray(size))), unit="m"),
            "room": Quantity(value=float(np.min(room)), unit="m"),
        },
    )
