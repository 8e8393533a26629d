"""Faults between entries of the oar that are each right on their own: lengths, sizes, stations, hole, limits."""

from __future__ import annotations

import re
from collections.abc import Callable

import numpy as np

from oarkit.oar.any_shape import Shape
from oarkit.oar.measured import SAME_LENGTH
from oarkit.oar.shape import Stations
from oarkit.project.faults import Fault, missing, place_of
from oarkit.project.keys import ProjectFile
from oarkit.project.lengths import inboard_of, inboard_of_rig, length_of, overlap_of
from oarkit.project.lines import Location
from oarkit.project.oar_keys import Row
from oarkit.project.oar_records import sizes_of
from oarkit.project.unread import UNREAD, is_read, known
from oarkit.units import feet_inches, filled, millimetres
from oarkit.working import BadDesign

SAME = 1e-3  #: two ways to one length may differ by so much [m]
STAND_IN = (2.3, 0.65)  #: length and inboard of an oar of which they are not known, where only sections count [m]

#: Where one sentence of a refused station table ends and the next begins.
_NEXT = re.compile(
    r"; (?=(?:the edge of |the corners of |the thickness of |the width of )?stations? \d"
    r"|the (?:first station|section|last two|grip centre|pin line|leather|places) )"
)


def both_ways(length: float) -> str:
    """A length in both systems, for whoever wrote the file in either.

    Parameters
    ----------
    length : float
        The length. [m]

    Returns
    -------
    str
        E.g. '25.4 mm (1")'. [text]

    Notes
    -----
    Source: common practice.

    Examples
    --------
    >>> both_ways(0.0508)
    '50.8 mm (2")'
    """
    return f"{millimetres(length)} ({feet_inches(length)})" if length == length else "?"


class OarCross:
    """Looks for contradictions in the oar of a file, of which some entries may be unread."""

    def __init__(self, file: ProjectFile, where: Callable[[Location], int | None]) -> None:
        self.file, self.where = file, where
        self.faults: list[Fault] = []

    def fault(self, loc: Location, problem: str) -> None:
        """Note a fault."""
        self.faults.append(Fault(place=place_of(loc), problem=problem, line=self.where(loc)))

    def check_oar(self) -> Shape | None:
        """Note every contradiction within the oar; the outline where it can be drawn, on which woods may be laid."""
        self.lengths()
        if isinstance(self.file.oar.station, list):
            self.stations(self.file.oar.station)
        elif self.file.oar.station is None:
            self.sizes()
        self.places()
        self.wanted()
        shape = self.outline()
        self.hole(shape)
        return shape

    @property
    def placed(self) -> bool:
        """Whether length and inboard are known, so that places along the oar mean something."""
        return length_of(self.file) is not None and inboard_of(self.file) is not None

    def lengths(self) -> None:
        """Refuse lengths and inboards that are told twice and differ."""
        rig, oar = self.file.rig, self.file.oar
        rows = known(oar.station)
        tip = known(rows[-1].s) if rows and len(rows) > 1 else None
        told = known(oar.length)
        if is_read(rig.leverage_ratio) and (tip or told) and not is_read(rig.length):
            which = "the stations tell" if tip else "oar.length tells"
            self.fault(("rig", "leverage_ratio"), f"{which} how long the oar is; leave the ratio out")
        if told is not None and rig.length is not None and abs(told - rig.length) > SAME:
            self.fault(
                ("oar", "length"),
                f"{both_ways(told)} is not the length under [rig] ({both_ways(rig.length)}); leave one of them out",
            )
        for name, other in (("rig.length", rig.length), ("oar.length", told)):
            if rows and tip is not None and other is not None and abs(other - tip) > SAME_LENGTH:
                self.fault(
                    ("oar", "station", len(rows) - 1, "s"),
                    f"the last row, the tip, stands at {both_ways(tip)}, and {name} is {both_ways(other)}; measure "
                    f"again, or leave {name} out",
                )
        self.inboard()

    def inboard(self) -> None:
        """Refuse an inboard that the rig contradicts."""
        told, of_rig = known(self.file.oar.inboard), inboard_of_rig(self.file)
        if told is not None and of_rig is not None and abs(told - of_rig) > SAME:
            self.fault(
                ("oar", "inboard"),
                f"{both_ways(told)} is not the inboard of {both_ways(of_rig)} that beam, overhang and overlap under "
                "[boat] and [rig] make; leave this out, or mend them",
            )

    def stations(self, rows: list[Row]) -> None:
        """Refuse sizes that are given beside a station table, a blade that disagrees with it, and a faulty table."""
        oar = self.file.oar
        for name in ("grip", "loom"):
            if getattr(oar, name) is not None:
                self.fault(("oar", name), "the stations tell the sizes of an oar measured from life; leave this out")
        for name in ("tip_thickness", "edge_at_root", "edge_at_tip"):
            if oar.blade is not None and is_read(getattr(oar.blade, name)):
                self.fault(("oar", "blade", name), "the stations tell how thick the blade is; leave this out")
        if not all(_whole(row) for row in rows) or not rows:
            return
        sizes = sizes_of(oar)
        inboard = inboard_of(self.file)
        try:
            sizes.at(length=rows[-1].s, inboard=STAND_IN[1] if inboard is None else inboard)
        except BadDesign as error:
            said = filled(error.text, error.quantities, self.file.display if is_read(self.file.display) else "mm")
            for sentence in _NEXT.split(said):
                placed = inboard is not None and "must be numbers" not in sentence  # one of them has its own fault
                if placed or "station" in sentence or "section" in sentence:
                    self._table_fault(sentence, len(rows))
            return
        if oar.blade is not None:
            for name, word, of in (("length", "long", sizes.blade_length), ("width", "wide", sizes.blade_width)):
                said_of = known(getattr(oar.blade, name))
                if said_of is not None and abs(said_of - float(of)) > SAME_LENGTH:
                    self.fault(
                        ("oar", "blade", name),
                        f"{both_ways(said_of)} is not what the stations say: a blade {both_ways(float(of))} {word}; "
                        "leave this out, or measure again",
                    )

    def _table_fault(self, sentence: str, count: int) -> None:
        """A sentence on a station table, at the row that it speaks of."""
        if re.match(r"the (grip centre|pin line|leather)", sentence):
            key = "grip_centre" if "grip" in sentence else "inboard" if "pin line" in sentence else "leather"
            self.fault(("oar", key), sentence)
            return
        named = re.search(r"stations? (\d+)", sentence)
        row = int(named[1]) if named else count if "last two" in sentence else 1 if "first station" in sentence else 0
        loc: Location = ("oar", "station", row - 1) if row else ("oar", "station")
        self.fault(loc, re.sub(r"^(the (?:edge|corners) of )?station \d+( at )", r"\1the oar\2", sentence))

    def sizes(self) -> None:
        """Refuse sizes of the oar that are missing or contradict one another."""
        oar = self.file.oar
        for name in ("grip", "loom", "blade"):
            if getattr(oar, name) is None:
                self.fault(("oar", name), missing(("oar", name)))
        loom, blade, grip = oar.loom, oar.blade, oar.grip
        if blade is not None:
            for name in type(blade).model_fields:
                if getattr(blade, name) is None:
                    self.fault(("oar", "blade", name), missing(("oar", "blade", name)))
            self._thicker("edge_at_tip", "edge_at_tip", "tip_thickness", "blade's centre at the tip")
        if blade is not None and loom is not None:
            self._thicker("edge_at_root", "edge_at_root", "neck_thickness", "neck")
            self._thicker("tip_thickness", "tip_thickness", "neck_thickness", "neck")
            if blade.width is not None and loom.neck_width > blade.width:
                self.fault(
                    ("oar", "loom", "neck_width"),
                    f"{both_ways(loom.neck_width)} is wider than the blade ({both_ways(blade.width)})",
                )
        if grip is not None and oar.grip_centre > grip.length:
            self.fault(
                ("oar", "grip_centre"),
                f"{both_ways(oar.grip_centre)} lies beyond the end of the grip ({both_ways(grip.length)})",
            )

    def _thicker(self, key: str, name: str, than: str, what: str) -> None:
        """Refuse a thickness of the blade that is more than another."""
        blade, loom = self.file.oar.blade, self.file.oar.loom
        size, other = getattr(blade, name), getattr(loom if than.startswith("neck") else blade, than)
        if size is not None and other is not None and size > other:
            self.fault(("oar", "blade", key), f"{both_ways(size)} is thicker than the {what} ({both_ways(other)})")

    def places(self) -> None:
        """Refuse a leather that is not in the lock, and a lock or blade that has no place on the oar."""
        oar, file = self.file.oar, self.file
        if oar.leather.length <= oar.leather.inboard_of_pins:
            self.fault(("oar", "leather", "length"), "the leather ends inboard of the pins; it must lie in the lock")
        length, inboard = length_of(file), known(oar.inboard)
        blade = None if oar.blade is None else known(oar.blade.length)
        if oar.station is not None or length is None or inboard is None or inboard_of_rig(file) is not None:
            return
        if blade is not None and inboard >= length - blade:
            self.fault(
                ("oar", "inboard"),
                f"{both_ways(inboard)} puts the pin line on the blade, which begins at {both_ways(length - blade)}",
            )
        elif oar.grip is not None and inboard <= oar.grip.length:
            self.fault(
                ("oar", "inboard"),
                f"{both_ways(inboard)} puts the pin line on the grip, which is {both_ways(oar.grip.length)} long",
            )

    def alone(self, faulty: set[str]) -> None:
        """Ask for length and inboard, where an oar is read by itself and nothing else tells them.

        What stands in a place that has a fault of its own is not asked for.
        """
        file = self.file
        measured = file.oar.station is not None  # a table tells the length, if not yet in a way that can be read
        if length_of(file) is None and not measured and not faulty & {"rig", "rig.length", "oar.length"}:
            self.fault(
                ("oar", "length"),
                'is missing, and no rig tells how long the oar is; add a line like length = "2286 mm" under [oar]',
            )
        told = {
            "boat.beam_at_station": known(file.boat.beam_at_station),
            "rig.lock_overhang": known(file.rig.lock_overhang),
            "rig.overlap": overlap_of(file),
        }
        if inboard_of(file) is None and not faulty & {"boat", "rig", "oar.inboard", "rig.gap", *told}:
            *others, last = [name for name, found in told.items() if found is None]
            lacking = f"{', '.join(others)} and {last}" if others else last
            self.fault(
                ("oar", "inboard"),
                "is missing, and no rig tells where the pin line crosses the oar; add a line like inboard = "
                f'"628.7 mm" under [oar], or give {lacking} too',
            )

    def left_open(self) -> None:
        """Refuse an inboard under [oar] beside a rig of which something that it depends on is left to be chosen."""
        if is_read(self.file.oar.inboard) and self.file.rig.lock_overhang is None:
            self.fault(
                ("oar", "inboard"),
                "the rig leaves the overhang of the lock to be chosen, on which the inboard depends; give "
                "rig.lock_overhang, or leave this out",
            )

    def outline(self) -> Shape | None:
        """The outline, on stand-in lengths where these are not known; None where entries are unread or contradict."""
        oar, length, inboard = self.file.oar, length_of(self.file), inboard_of(self.file)
        try:
            if isinstance(oar.station, list):
                if not oar.station or not all(_whole(row) for row in oar.station):
                    return None
                length = oar.station[-1].s
            elif oar.station is UNREAD or oar.grip is None or oar.loom is None or oar.blade is None:
                return None
            shape = sizes_of(oar).at(
                length=STAND_IN[0] if length is None else length, inboard=STAND_IN[1] if inboard is None else inboard
            )
            if not all(np.isfinite(size) for size in shape.numbers.values()):
                return None
            shape.laid()  # refuses what lies in each other's way
        except (BadDesign, ValueError):
            return None
        return shape

    def hole(self, shape: Shape | None) -> None:
        """Refuse a hole as big as the loom, and a bush no bigger than its hole."""
        hole, loom = self.file.oar.hole, self.file.oar.loom
        if hole is None:
            return
        if hole.bush is not None and hole.bush <= hole.diameter:
            self.fault(
                ("oar", "hole", "bush"),
                f"a bush of {both_ways(hole.bush)} has no wall around a hole of {both_ways(hole.diameter)}; give its "
                "outer diameter",
            )
        across = None if loom is None else loom.at_lock
        if shape is not None and self.placed:
            pin = np.array([float(shape.inboard)])
            section = shape.profile(Stations(s=pin, weight=pin, middle=pin))
            across = float(min(section.thickness[0], section.width[0]))
        key = "diameter" if hole.bush is None or not hole.bush > hole.diameter else "bush"
        drilled = getattr(hole, key)
        if across is not None and drilled >= across:
            self.fault(
                ("oar", "hole", key),
                f"a hole of {both_ways(drilled)} leaves nothing of the loom, {both_ways(across)} at the lock",
            )

    def wanted(self) -> None:
        """Refuse limits of the loom that leave no room."""
        wanted = self.file.wanted
        if wanted.least_lock is not None and wanted.most_lock is not None and wanted.least_lock > wanted.most_lock:
            self.fault(("wanted", "least_lock"), "is more than most_lock; change one of them")
        for name in ("least_lock", "least_neck_thickness", "least_neck_width"):
            least = getattr(wanted, name)
            if least is not None and wanted.stock_thickness is not None and least > wanted.stock_thickness:
                self.fault(
                    ("wanted", name),
                    f"{both_ways(least)} cannot be had from stock {both_ways(wanted.stock_thickness)} thick "
                    "(stock_thickness); change one of them",
                )


def _whole(row: Row) -> bool:
    """Whether every entry of a row was read."""
    return all(getattr(row, name) is not UNREAD for name in type(row).model_fields)
