"""The stations that a builder marks along an oar, each with its letter."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields

import numpy as np

from oarkit.oar.any_shape import Shape
from oarkit.oar.build import Oar
from oarkit.oar.measured import Form, MeasuredShape
from oarkit.oar.planed import PlanedShape
from oarkit.oar.shape import ROUNDING, SHOULDER, OarShape, Stations
from oarkit.section.profile import Profile

NUDGE = 1e-6  #: off a break of section, to one side of it [m]
SAME_PLACE = 0.001  #: two places no further apart are marked as one [m]
_ALPHABET = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
_FORMS: dict[Form, str] = {"round": "round", "ellipse": "oval", "square": "square", "eight": "eight-sided",
                           "blade": "blade"}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A station with its letter, what stands there, and its sizes [m].

    ``side`` tells which side of a break the sizes are of: −1 the handle's, 1 the tip's.
    """

    letter: str
    what: str
    s: float
    thickness: float
    width: float
    edge: float | None
    side: int = -1


def marked_stations(oar: Oar) -> tuple[Place, ...]:
    """The stations a builder marks: every break of section, the pin line and the leather; of a measured oar its rows.

    Where two rows stand at one place, for the section jumps there, both are told.
    """
    shape, named = oar.shape, _named(oar.shape)
    return tuple(place_at(shape, s, side=side, letter=_letter(i), what=what) for i, (what, s, side) in enumerate(named))


def place_at(shape: Shape, s: float, *, side: int, letter: str = "", what: str = "") -> Place:
    """A place with the sizes that the outline has there, to one side of a break."""
    here = section_at(shape, s, side=side)
    return Place(
        letter=letter,
        what=what,
        s=s,
        thickness=float(here.thickness),
        width=float(here.width),
        edge=float(here.edge) if float(here.blade_share) > 0 else None,
        side=side,
    )


def section_at(shape: Shape, s: float, *, side: int) -> Profile:
    """The section of an outline at one place, to one side of a break (scalars)."""
    laid = one_station(s, side=side)
    along = shape.profile(laid)
    return Profile(**{field.name: np.ravel(getattr(along, field.name))[0] for field in fields(along)})


def one_station(s: float, *, side: int) -> Stations:
    """A single station that belongs to the handle's side of a break, or to the tip's."""
    return Stations(s=np.array([s]), weight=np.ones(1), middle=np.array([s + side * NUDGE]))


def _letter(number: int) -> str:
    """A to Z, then AA to AZ, BA and so on."""
    first, last = divmod(number, len(_ALPHABET))
    return (_ALPHABET[first - 1] if first else "") + _ALPHABET[last]


def _named(shape: Shape) -> list[tuple[str, float, int]]:
    """What stands where along the oar, in order."""
    drawn = shape
    while isinstance(drawn, PlanedShape):
        drawn = drawn.base
    if isinstance(drawn, MeasuredShape):
        return _rows(drawn)
    root, blade, length = float(shape.blade_root), float(shape.blade_length), float(shape.length)
    start, end = float(shape.leather_start), float(shape.leather_end)
    grip = (
        [("grip ends", float(drawn.grip_length)), ("full inboard size", float(drawn.grip_length) + SHOULDER),
         ("starts to round", start - ROUNDING)]
        if isinstance(drawn, OarShape)
        else [("grip centre", float(shape.grip_centre))]
    )  # fmt: skip
    loom = [
        (f"{part} way to the neck", end + (root - end) * part_of)
        for part, part_of in (("1/4", 0.25), ("1/2", 0.5), ("3/4", 0.75))
    ]
    named = [
        ("handle end", 0.0),
        *grip,
        ("leather starts", start),
        ("pin line", float(shape.inboard)),
        ("leather ends", end),
        *loom,
        ("neck, blade root", root),
        ("blade, 8 % of length", root + 0.08 * blade),
        ("blade, 35 % of length", root + 0.35 * blade),
        ("mid-blade", float(shape.mid_blade)),
        ("blade, 75 % of length", root + 0.75 * blade),
        ("tip", length),
    ]
    return [(what, s, 1 if s == 0 else -1) for what, s in named]


def _rows(shape: MeasuredShape) -> list[tuple[str, float, int]]:
    """The rows of a station table, with pin line, leather and mid-blade between them or on them."""
    at = [station.s for station in shape.stations]
    sides = [1 if s == 0 or (i > 0 and at[i - 1] == s) else -1 for i, s in enumerate(at)]
    rows = [(_row_name(shape, i), s, side) for i, (s, side) in enumerate(zip(at, sides, strict=True))]
    others = [
        ("leather starts", float(shape.leather_start)),
        ("pin line", float(shape.inboard)),
        ("leather ends", float(shape.leather_end)),
        ("mid-blade", float(shape.mid_blade)),
    ]
    for what, s in others:
        near = [i for i, row in enumerate(rows) if abs(row[1] - s) <= SAME_PLACE]
        if near:
            name, place, side = rows[near[0]]
            rows[near[0]] = (f"{what}, {name}", place, side)
        else:
            rows.append((what, s, -1))
    return sorted(rows, key=lambda row: (row[1], row[2]))


def _row_name(shape: MeasuredShape, number: int) -> str:
    """What a row of the table is: one of the ends, the blade's first, or its form."""
    station, last = shape.stations[number], len(shape.stations) - 1
    name = f"measured, {_FORMS[station.form]}"
    if number == 0:
        return f"handle end, {name}"
    if number == last:
        return f"tip, {name}"
    first_of_blade = station.form == "blade" and shape.stations[number - 1].form != "blade"
    return f"blade root, {name}" if first_of_blade else name


def nearest(places: Sequence[Place], s: float) -> Place:
    """The place that lies nearest to another."""
    return min(places, key=lambda place: (abs(place.s - s), place.side))
