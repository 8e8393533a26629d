"""Faults of the woods of an oar: parts without their size, or out of their place, or in one another's."""

from __future__ import annotations

from itertools import combinations
from typing import Any

import numpy as np

from oarkit import tables
from oarkit.oar.any_shape import Shape
from oarkit.oar.pieces import Kind, Piece, extent
from oarkit.project.cross_oar import OarCross, both_ways
from oarkit.project.lengths import length_of
from oarkit.project.lines import Location
from oarkit.project.oar_keys import Wood
from oarkit.project.unread import UNREAD, is_read
from oarkit.units import filled
from oarkit.wood import board
from oarkit.wood.species import Species, find_species
from oarkit.working import BadDesign

FITS = 1e-4  #: pieces may stick out or overlap by so much, the rounding of sixteenths of an inch [m]

#: What the size of a part is, and an example.
_SIZES: dict[Kind, tuple[str, str]] = {
    "strip": ("how thick it is", "12 mm"),
    "cheek": ("how wide it is on each side of the loom", "3 mm"),
    "face": ("how thick it is on each face of the blade", "2 mm"),
    "edge": ("how wide each strip is", "6 mm"),
    "tip": ("how long the piece is", "20 mm"),
    "spline": ("how wide it is", "8 mm"),
}


class WoodCross(OarCross):
    """Looks for contradictions in the woods of an oar, of which some entries may be unread."""

    def woods(self, shape: Shape | None) -> None:
        """Refuse woods that no table knows, pieces without their size or out of their place, and an oar without loom.

        The outline may be None where it cannot be drawn.
        """
        woods = self.file.oar.wood
        if not isinstance(woods, list):
            return
        for index, wood in enumerate(woods):
            loc: Location = ("oar", "wood", index)
            self.species(wood.species, (*loc, "species"))
            if not isinstance(wood.part, str):
                continue
            self.piece(wood, loc)
            if self.runs(wood, loc) and shape is not None:
                self.room(wood, loc, shape)
        self.strips(woods, shape)
        parts: list[tuple[object, object]] = [(wood.part, wood.oar) for wood in woods]
        if parts and all(isinstance(part, str) for part, _ in parts):
            lacking = [
                side
                for side in ("port", "starboard")
                if not any(part == "loom" and (of in (None, side) or of is UNREAD) for part, of in parts)
            ]
            if lacking:
                which = f"the {lacking[0]} oar has no loom" if len(lacking) == 1 else "there is no loom"
                self.fault(("oar", "wood"), f'{which}; one [[oar.wood]] entry must say part = "loom"')

    def piece(self, wood: Wood, loc: Location) -> None:
        """Refuse a piece that lacks what its part needs or has what it has no use for."""
        part = wood.part
        if part == "loom" and wood.size is not None:
            self.fault((*loc, "size"), "a loom has no size of its own, its sizes stand under [oar]; leave this out")
        elif part != "loom" and wood.size is None:
            what, example = _SIZES[part]
            self.fault((*loc, "size"), f'the {part} needs its size: {what}; add a line like size = "{example}"')
        if wood.at is not None and part != "strip":
            self.fault(
                (*loc, "at"), f"only a strip has a height over the middle plane, and not the {part}; leave this out"
            )
        if wood.grain == "across" and is_read(wood.modulus):
            self.fault(
                (*loc, "modulus"),
                "a modulus tested along the grain says nothing of a piece laid across; leave it out",
            )
        if part == "cheek":
            for name, key, example in (("start", "from", "500 mm"), ("stop", "to", "800 mm")):
                if getattr(wood, name) is None:
                    ends = "begins" if key == "from" else "ends"
                    self.fault(
                        (*loc, key),
                        f"a cheek needs to say where it {ends} along the oar, from the handle end; add a line like "
                        f'{key} = "{example}"',
                    )

    def runs(self, wood: Wood, loc: Location) -> bool:
        """Whether a piece runs the right way round and on the oar, or a fault."""
        length = length_of(self.file)
        fine = True
        for name, key in (("start", "from"), ("stop", "to")):
            place = getattr(wood, name)
            if length is not None and place is not None and place > length + (FITS if key == "to" else -FITS):
                fine = False
                self.fault(
                    (*loc, key), f"{both_ways(place)} lies beyond the tip of the oar, which is {both_ways(length)} long"
                )
        if wood.start is not None and wood.stop is not None and wood.start >= wood.stop:
            fine = False
            self.fault(
                (*loc, "to"),
                f"the piece ends ({both_ways(wood.stop)}) before it begins ({both_ways(wood.start)})",
            )
        return fine

    def room(self, wood: Wood, loc: Location, shape: Shape) -> None:
        """Refuse a piece that sticks out of the outline where it lies."""
        if wood.part == "loom" or not all(is_read(each) or each is None for each in _numbers(wood)):
            return
        if wood.size is None or (wood.part == "cheek" and None in (wood.start, wood.stop)):
            return
        if not self.placed and (wood.start, wood.stop) != (None, None):
            return
        if wood.part == "tip" and wood.size > shape.blade_length:
            told = f"({both_ways(float(shape.blade_length))})"
            self.fault((*loc, "size"), f"{both_ways(wood.size)} is longer than the blade {told}; a tip piece caps it")
            return
        if wood.part == "tip":
            return
        try:
            start, stop = extent(_piece(wood), shape)
        except BadDesign as error:
            key = "to" if wood.stop is not None else "from" if wood.start is not None else "size"
            self.fault((*loc, key), filled(error.text, error.quantities, "mm"))
            return
        thick, wide, thin = _sizes_between(shape, float(start), float(stop))
        size, outer = wood.size, abs(wood.at or 0.0) + wood.size / 2
        where = "the blade" if wood.part in ("edge", "face", "spline") else "the oar"
        if wood.part == "strip" and size > thick + FITS:
            self.fault((*loc, "size"), f"{both_ways(size)} is thicker than {where} where it lies ({both_ways(thick)})")
        elif wood.part == "strip" and outer > thick / 2 + FITS:
            self.fault(
                (*loc, "at"),
                f"the strip sticks out of the oar: it reaches {both_ways(outer)} from the middle plane, and half the "
                f"thickness is {both_ways(thick / 2)} at most where it lies",
            )
        elif wood.part in ("cheek", "edge") and size >= wide / 2:
            of = "the blade's" if wood.part == "edge" else "the loom's"
            self.fault((*loc, "size"), f"{both_ways(size)} is half {of} width ({both_ways(wide)}) or more")
        elif wood.part == "face" and size > thin / 2 + FITS:
            told = f"half the thickness of {where} where it is thinnest ({both_ways(thin)})"
            self.fault((*loc, "size"), f"{both_ways(size)} on each face is more than {told}")
        elif wood.part == "spline" and size >= wide:
            self.fault((*loc, "size"), f"{both_ways(size)} is wider than {where} where it lies ({both_ways(wide)})")

    def strips(self, woods: list[Wood], shape: Shape | None) -> None:
        """Refuse two strips of one oar that take up the same wood."""
        length = float(shape.length) if shape is not None and self.placed else np.inf
        strips = [(index, wood) for index, wood in enumerate(woods) if wood.part == "strip" and is_read(wood.size)]
        for (first, one), (second, other) in combinations(strips, 2):
            if not (one.oar is None or other.oar is None or one.oar == other.oar):
                continue
            spans = [_thickness(wood) for wood in (one, other)]
            ends = [(wood.start or 0.0, length if wood.stop is None else wood.stop) for wood in (one, other)]
            shared = min(stop for _, stop in ends) - max(start for start, _ in ends)
            inside = min(high for _, high in spans) - max(low for low, _ in spans)
            if shared > FITS and inside > FITS:
                told = [f"{_reach(low)} to {_reach(high)}" for low, high in spans]
                self.fault(
                    ("oar", "wood", second, "at"),
                    f"strip {told[1]} from the middle plane lies in the strip of entry {first + 1}, {told[0]}; move "
                    "one (at), thin it (size), or let one end where the other begins (to, from)",
                )

    def species(self, name: object, loc: Location) -> Species | None:
        """The species of that name, or a fault."""
        if not isinstance(name, str):
            return None
        try:
            return find_species(name, tables.species_table(), tables.other_names())
        except BadDesign as error:
            self.fault(loc, str(error))
            return None


def _numbers(wood: Wood) -> tuple[Any, ...]:
    return wood.size, wood.at, wood.start, wood.stop


def _thickness(wood: Wood) -> tuple[float, float]:
    """From where to where a strip reaches through the thickness."""
    middle, size = wood.at or 0.0, wood.size or 0.0
    return middle - size / 2, middle + size / 2


def _reach(height: float) -> str:
    return f"{height * 1e3:.1f} mm".replace("-", "−")


def _piece(wood: Wood) -> Piece:
    """The piece of no wood in particular."""
    some = board.Wood(name=wood.species, modulus=1.0, shear_modulus=1.0, density=1.0, strength=1.0, working=())
    return Piece(
        kind=wood.part,
        wood=some,
        size=wood.size,
        start=wood.start,
        stop=wood.stop,
        at=0.0 if wood.at is None else wood.at,
    )


def _sizes_between(shape: Shape, start: float, stop: float) -> tuple[float, float, float]:
    """Greatest thickness and width of the oar between two places, and its least thickness."""
    laid = shape.laid((start, stop))
    section = shape.profile(laid)
    here = (laid.middle >= start) & (laid.middle <= stop)
    thickness, width = np.broadcast_to(section.thickness, here.shape)[here], np.broadcast_to(section.width, here.shape)
    return float(np.max(thickness)), float(np.max(width[here])), float(np.min(thickness))
