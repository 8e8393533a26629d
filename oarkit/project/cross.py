"""Faults between entries that are each right on their own."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Annotated, Any, TypeVar, get_origin

from pydantic import BaseModel, TypeAdapter, ValidationError
from pydantic.fields import FieldInfo

from oarkit import tables
from oarkit.project.faults import Fault, place_of, table_of
from oarkit.project.keys import ProjectFile
from oarkit.project.lines import Location
from oarkit.units import feet_inches, millimetres
from oarkit.wood.species import Species, find_species
from oarkit.working import BadDesign

UNREAD = float("nan")  #: stands for an entry that has a fault of its own: no comparison with it is ever true
BUILT = ("loom", "edge", "tip")  #: parts that this version counts
_M = TypeVar("_M", bound=BaseModel)


def _both_ways(length: float) -> str:
    """A length in both systems, for whoever wrote the file in either."""
    return f"{millimetres(length)} ({feet_inches(length)})" if length == length else "?"


def what_can_be_read(model: type[_M], given: object) -> _M:
    """A table with what can be read of it, and nan for each entry that cannot, so that the rest may still be compared.

    Parameters
    ----------
    model : type
        The table's keys. [type]
    given : object
        What the file holds in its place; anything but a mapping leaves every entry unread. [any]

    Returns
    -------
    BaseModel
        The table, not validated as a whole. [record]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> file = what_can_be_read(ProjectFile, {"rig": {"gap": "50 mm", "length": "long"}})
    >>> file.rig.gap, file.rig.length
    (0.05, nan)
    """
    values: dict[str, Any] = {}
    for name, field in model.model_fields.items():
        if isinstance(given, Mapping) and (field.alias or name) not in given and not field.is_required():
            values[name] = field.get_default()
        else:
            entry = given.get(field.alias or name, UNREAD) if isinstance(given, Mapping) else UNREAD
            values[name] = _entry(field, entry)
    return model.model_construct(**values)


def _read(entry: object) -> bool:
    """Whether an entry was given and could be read."""
    return entry is not None and entry is not UNREAD


def _entry(field: FieldInfo, given: object) -> Any:
    table = table_of(field.annotation)
    if table and get_origin(field.annotation) is list:
        return [what_can_be_read(table, each) for each in given] if isinstance(given, list) else []
    if table:
        return what_can_be_read(table, given)
    if given is UNREAD:
        return UNREAD
    annotation: Any = Annotated[field.annotation, *field.metadata] if field.metadata else field.annotation
    try:
        return TypeAdapter(annotation).validate_python(given)
    except ValidationError:
        return UNREAD


class Cross:
    """Looks for contradictions in a file, of which some entries may be unread."""

    def __init__(self, file: ProjectFile, where: Callable[[Location], int | None]) -> None:
        self.file, self.where = file, where
        self.faults: list[Fault] = []

    def fault(self, loc: Location, problem: str) -> None:
        """Note a fault."""
        self.faults.append(Fault(place=place_of(loc), problem=problem, line=self.where(loc)))

    def check(self) -> None:
        """Note every contradiction between entries."""
        water = self.lock_above_water()
        if water is not None:
            self.seat_above_water(water)
        self.overlap()
        self.lengths()
        self.limits()
        self.sizes()
        self.woods()

    def lock_above_water(self) -> float | None:
        """Height of the loom axis above the water, from whichever heights are given."""
        boat, rig = self.file.boat, self.file.rig
        summed = None
        if boat.rail_above_water is not None and rig.lock_above_rail is not None:
            summed = boat.rail_above_water + rig.lock_above_rail
        if rig.lock_above_water is None and summed is None:
            self.fault(
                ("rig", "lock_above_water"),
                "the height of the lock is not known; give boat.rail_above_water and rig.lock_above_rail, or "
                "rig.lock_above_water",
            )
            return None
        if rig.lock_above_water is not None and summed is not None and abs(rig.lock_above_water - summed) > 1e-3:
            self.fault(
                ("rig", "lock_above_water"),
                f"{_both_ways(rig.lock_above_water)} does not agree with rail and lock over it "
                f"({_both_ways(summed)}); leave one of them out",
            )
        return rig.lock_above_water if rig.lock_above_water is not None else summed

    def seat_above_water(self, lock_above_water: float) -> float | None:
        """Height of the seat above the water, from whichever heights are given."""
        boat, rig = self.file.boat, self.file.rig
        if boat.seat_above_water is None and rig.lock_above_seat is None:
            self.fault(
                ("boat", "seat_above_water"),
                "the height of the seat is not known; give boat.seat_above_water, or rig.lock_above_seat",
            )
            return None
        from_lock = None if rig.lock_above_seat is None else lock_above_water - rig.lock_above_seat
        if (
            boat.seat_above_water is not None
            and from_lock is not None
            and abs(boat.seat_above_water - from_lock) > 1e-3
        ):
            self.fault(
                ("rig", "lock_above_seat"),
                f"the seat would stand {_both_ways(from_lock)} above the water, but boat.seat_above_water "
                f"says {_both_ways(boat.seat_above_water)}; leave one of them out",
            )
        seat = boat.seat_above_water if boat.seat_above_water is not None else from_lock
        if seat is not None and seat >= lock_above_water:
            self.fault(
                ("boat", "seat_above_water") if boat.seat_above_water is not None else ("rig", "lock_above_seat"),
                f"the seat stands {_both_ways(seat)} above the water, no lower than the lock at "
                f"{_both_ways(lock_above_water)}",
            )
        return seat

    def overlap(self) -> None:
        """Refuse handles that are said to pass twice, or pass further than they can."""
        rig = self.file.rig
        if _read(rig.overlap) and _read(rig.gap):
            self.fault(
                ("rig", "gap"),
                "overlap and gap are both given; the handles either cross or leave a gap, so leave one of them out",
            )
        elif rig.length is not None and rig.overlap is not None and rig.overlap > rig.length:
            self.fault(
                ("rig", "overlap"),
                f"{_both_ways(rig.overlap)} is longer than the oar ({_both_ways(rig.length)}); give "
                f"the overlap of the two handles, usually 50 to 180 mm",
            )
        span = self.file.boat.beam_at_station + 2 * (rig.lock_overhang or 0.0)
        if span <= 0:
            self.fault(
                ("rig", "lock_overhang"), "the pins stand further inside than the boat is wide; check beam and overhang"
            )
        elif rig.gap is not None and rig.gap >= span:
            self.fault(
                ("rig", "gap"),
                f"{_both_ways(rig.gap)} is the whole span ({_both_ways(span)}) or more; usual are 25 to 75 mm",
            )
        elif (
            rig.overlap is not None
            and rig.overlap >= span
            and not (rig.length is not None and rig.overlap > rig.length)
        ):
            self.fault(
                ("rig", "overlap"),
                f"{_both_ways(rig.overlap)} is the whole span ({_both_ways(span)}) or more; usual are 50 to 180 mm",
            )

    def lengths(self) -> None:
        """Refuse lengths that are given twice or in the wrong table."""
        rig, oar = self.file.rig, self.file.oar
        if _read(rig.length) and _read(rig.leverage_ratio):
            self.fault(
                ("rig", "leverage_ratio"),
                "length and leverage_ratio are both given; leave one of them out, or both to have the length chosen",
            )
        if _read(oar.station):
            self.fault(
                ("oar", "station"), "an oar measured from life is not read by this version; give grip, loom and blade"
            )
        for key in ("length", "inboard"):
            if _read(getattr(oar, key)):
                self.fault(
                    ("oar", key),
                    f"the {key} of the oar belongs to the rig here; give rig.length, and rig.overlap for the inboard",
                )

    def limits(self) -> None:
        """Refuse limits of which the least is more than the most, and a reach of which only half is told."""
        limits, rig, rower = self.file.limits, self.file.rig, self.file.rower
        for name in ("overlap", "leverage_ratio", "hand_height", "overhang"):
            low, high = getattr(limits, f"least_{name}"), getattr(limits, f"most_{name}")
            if low is not None and high is not None and low > high:
                self.fault(("limits", f"least_{name}"), f"is more than most_{name}; change one of them")
        if rig.catch_limit is not None and rig.finish_limit is not None and rig.catch_limit <= rig.finish_limit:
            self.fault(
                ("rig", "catch_limit"),
                "is no greater than finish_limit; the catch is positive, the blade toward the bow, the finish negative",
            )
        reach = (rower.reach_catch, rower.reach_finish)
        if reach[0] is not None and reach[1] is not None and reach[0] + reach[1] <= 0:
            self.fault(
                ("rower", "reach_catch"),
                "takes the hands no further aft than reach_finish leaves them; both are counted from the pin line, "
                "the catch toward the stern, the finish toward the bow",
            )

    def sizes(self) -> None:
        """Refuse sizes of the oar that contradict one another."""
        oar = self.file.oar
        loom, blade = oar.loom, oar.blade
        if blade.edge_at_tip > blade.tip_thickness:
            self.fault(
                ("oar", "blade", "edge_at_tip"),
                f"{_both_ways(blade.edge_at_tip)} is thicker than the blade's centre at the tip "
                f"({_both_ways(blade.tip_thickness)})",
            )
        if blade.edge_at_root > loom.neck_thickness:
            self.fault(
                ("oar", "blade", "edge_at_root"),
                f"{_both_ways(blade.edge_at_root)} is thicker than the neck ({_both_ways(loom.neck_thickness)})",
            )
        if loom.neck_width > blade.width:
            self.fault(
                ("oar", "loom", "neck_width"),
                f"{_both_ways(loom.neck_width)} is wider than the blade ({_both_ways(blade.width)})",
            )
        if oar.leather.length <= oar.leather.inboard_of_pins:
            self.fault(("oar", "leather", "length"), "the leather ends inboard of the pins; it must lie in the lock")
        if oar.grip_centre > oar.grip.length:
            self.fault(
                ("oar", "grip_centre"),
                f"{_both_ways(oar.grip_centre)} lies beyond the end of the grip ({_both_ways(oar.grip.length)})",
            )

    def woods(self) -> None:
        """Refuse woods that no table knows, parts that are not counted, and pieces without their size."""
        boat, rig, oar = self.file.boat, self.file.rig, self.file.oar
        if boat.rail is not None:
            self.species(boat.rail.species, ("boat", "rail", "species"))
        if rig.thole is not None:
            self.species(rig.thole.species, ("rig", "thole", "species"))
        for index, wood in enumerate(oar.wood):
            loc: Location = ("oar", "wood", index)
            self.species(wood.species, (*loc, "species"))
            if not isinstance(wood.part, str):
                continue
            if wood.part not in BUILT:
                self.fault(
                    (*loc, "part"),
                    f"'{wood.part}' is not counted by this version, which builds an oar of loom, edge and tip",
                )
            elif wood.part == "loom" and wood.size is not None:
                self.fault((*loc, "size"), "a loom has no size of its own, its sizes stand under [oar]; leave this out")
            elif wood.part == "edge" and wood.size is None:
                self.fault(
                    (*loc, "size"), 'the edge needs its size: how wide each strip is; add a line like size = "6 mm"'
                )
            elif wood.part == "tip" and wood.size is None:
                self.fault(
                    (*loc, "size"), 'the tip needs its size: how long the piece is; add a line like size = "20 mm"'
                )
            elif wood.part == "edge" and wood.size is not None and wood.size > oar.blade.width / 2:
                self.fault(
                    (*loc, "size"),
                    f"{_both_ways(wood.size)} is more than half the blade's width ({_both_ways(oar.blade.width)})",
                )
            if wood.grain == "across" and _read(wood.modulus):
                self.fault(
                    (*loc, "modulus"),
                    "a modulus tested along the grain says nothing of a piece laid across; leave it out",
                )
            if wood.start is not None and wood.stop is not None and wood.start >= wood.stop:
                self.fault(
                    (*loc, "to"),
                    f"the piece ends ({_both_ways(wood.stop)}) before it begins ({_both_ways(wood.start)})",
                )
        parts: list[tuple[object, object]] = [(wood.part, wood.oar) for wood in oar.wood]
        if parts and all(isinstance(part, str) for part, _ in parts):
            lacking = [
                side
                for side in ("port", "starboard")
                if not any(part == "loom" and (of in (None, side) or of is UNREAD) for part, of in parts)
            ]
            if lacking:
                which = f"the {lacking[0]} oar has no loom" if len(lacking) == 1 else "there is no loom"
                self.fault(("oar", "wood"), f'{which}; one [[oar.wood]] entry must say part = "loom"')

    def species(self, name: object, loc: Location) -> Species | None:
        """The species of that name, or a fault."""
        if not isinstance(name, str):
            return None
        try:
            return find_species(name, tables.species_table(), tables.other_names())
        except BadDesign as error:
            self.fault(loc, str(error))
            return None
