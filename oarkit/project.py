"""From a project file to checked records: every fault told in one go, with its place and what is wanted."""

from __future__ import annotations

import difflib
import re
import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from oarkit import tables, units
from oarkit.design import Inputs, PieceInputs, StationInputs
from oarkit.oar.build import Leather
from oarkit.oar.shape import OarSizes
from oarkit.project_keys import ProjectFile, Wood
from oarkit.rower.body import Size, body_size
from oarkit.units import Display
from oarkit.wood.board import Board
from oarkit.wood.species import find_species
from oarkit.working import BadDesign

LARGEST_FILE = 1_000_000  #: bytes; a project file is a few thousand

#: Entries that are read and checked, but from which no result is made yet.
_UNUSED = (
    "boat.mass", "boat.water", "rower.hand_length", "rower.shoulder_height", "rower.arm_length", "rower.thigh_length",
    "rower.shank_length", "rower.hip_above_seat", "rower.hip_forward_of_seat_edge", "rower.trunk_at_catch",
    "rower.trunk_at_finish", "rower.hand_at_finish", "rower.reach_catch", "rower.reach_finish", "rig.bracket", "rig.thole",
    "rig.seat_edge_to_pins", "loads.crab_speed", "loads.steer_speed", "loads.pry", "loads.step", "loads.step_gap",
    "loads.push_off", "loads.tip_corner",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One fault of a project file: where it is, and what was found and what is wanted."""

    place: str
    problem: str
    line: int | None = None

    def __str__(self) -> str:
        where = f" (line {self.line})" if self.line else ""
        return f"{self.place}{where}: {self.problem}" if self.place else self.problem


class ProjectError(Exception):
    """A project file that cannot be used; ``faults`` lists everything that is wrong with it."""

    def __init__(self, name: str, faults: list[Fault]) -> None:
        self.name, self.faults = name, faults
        count = "one fault" if len(faults) == 1 else f"{len(faults)} faults"
        whole = len(faults) == 1 and not faults[0].place
        super().__init__(
            faults[0].problem if whole else f"{name} has {count}:\n" + "\n".join(f"  {fault}" for fault in faults)
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Project:
    """A checked project: what it is called, how its reader measures, and all that a design needs."""

    name: str
    title: str
    display: Display
    file: ProjectFile
    inputs: Inputs
    unused: tuple[str, ...]


def read_project(path: str | Path) -> Project:
    """Read and check a project file.

    Parameters
    ----------
    path : str or Path
        The file. [path]

    Returns
    -------
    Project
        Checked records, in SI. [record]

    Raises
    ------
    ProjectError
        Everything that is wrong with the file, in words.

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit.tables import data_folder
    >>> read_project(data_folder() / "quillet.toml").title
    'Quillet, centre station'
    """
    path = Path(path)
    return project_from_text(_text_of(path), name=path.name)


def example_project(name: str = "quillet") -> Project:
    """One of the example projects that travel with oarkit.

    Parameters
    ----------
    name : {"quillet", "tumblehod"}, optional
        Which one. [text]

    Returns
    -------
    Project
        Checked records, in SI. [record]

    Notes
    -----
    Source: derived; boats, bodies and boards are invented.

    Examples
    --------
    >>> example_project("tumblehod").display
    'mm'
    """
    return read_project(tables.data_folder() / f"{name}.toml")


def _text_of(path: Path) -> str:
    def refuse(problem: str) -> ProjectError:
        return ProjectError(path.name or str(path), [Fault(place="", problem=problem)])

    try:
        if path.is_dir():
            raise refuse(f"{path} is a folder; name the project file in it")
        raw = path.read_bytes()
    except FileNotFoundError:
        raise refuse(f"there is no file {path}; `oarkit example DIR` writes one to start from") from None
    except OSError as error:
        raise refuse(f"{path} cannot be read: {error.strerror or error}") from None
    if len(raw) > LARGEST_FILE:
        raise refuse(f"{path} is {len(raw)} bytes long, far more than a project file; is it the right one?")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        raise refuse(f"line {line} is not UTF-8 text; save the file as UTF-8 in your editor") from None


def project_from_text(text: str, *, name: str) -> Project:
    """Read and check a project from its text.

    Parameters
    ----------
    text : str
        The TOML text. [text]
    name : str
        What to call it in messages. [text]

    Returns
    -------
    Project
        Checked records, in SI. [record]

    Raises
    ------
    ProjectError
        Everything that is wrong with the text, in words.

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> project_from_text("title = 3", name="mine.toml")  # doctest: +ELLIPSIS
    Traceback (most recent call last):
    ...
    oarkit.project.ProjectError: mine.toml has 5 faults:
    ...
    """
    try:
        given = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise ProjectError(name, [Fault(place="", problem=_toml_in_words(str(error), text))]) from None
    except RecursionError:
        raise ProjectError(
            name, [Fault(place="", problem="brackets are nested far too deep for a project file")]
        ) from None
    return project_from_mapping(given, name=name, line_of=lambda loc: _line_of(loc, text))


def project_from_mapping(
    given: Mapping[str, Any], *, name: str, line_of: Callable[[tuple[str | int, ...]], int | None] = lambda loc: None
) -> Project:
    """Check a project given as nested mappings, e.g. one row of a roster.

    Parameters
    ----------
    given : mapping
        Tables and keys of a project file. [mapping]
    name : str
        What to call it in messages. [text]
    line_of : callable, optional
        Line of the text where a key stands. [function]

    Returns
    -------
    Project
        Checked records, in SI. [record]

    Raises
    ------
    ProjectError
        Everything that is wrong, in words.

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> project_from_mapping({}, name="row 1")  # doctest: +ELLIPSIS
    Traceback (most recent call last):
    ...
    oarkit.project.ProjectError: row 1 has 5 faults:
    ...
    """
    faults: list[Fault] = []
    file: ProjectFile | None = None
    try:
        file = ProjectFile.model_validate(given)
    except ValidationError as error:
        for detail in error.errors():
            loc = tuple(detail["loc"])
            faults.append(Fault(place=_place(loc), problem=_in_words(detail, given), line=line_of(loc)))
    inputs = None
    if file is not None:
        more = _Cross(file, line_of)
        inputs = more.inputs()
        faults += more.faults
    if file is None or inputs is None or faults:
        raise ProjectError(name, sorted(faults, key=lambda fault: fault.line or 0))
    return Project(
        name=name,
        title=file.title,
        display=file.display,
        file=file,
        inputs=inputs,
        unused=tuple(key for key in _UNUSED if _is_given(given, key)),
    )


def _is_given(given: Mapping[str, Any], key: str) -> bool:
    table, entry = key.split(".")
    return entry in given.get(table, {})


class _Cross:
    """Faults between entries that are each right on their own, and the turn into core records."""

    def __init__(self, file: ProjectFile, line_of: Callable[[tuple[str | int, ...]], int | None]) -> None:
        self.file, self.line_of = file, line_of
        self.faults: list[Fault] = []

    def fault(self, loc: tuple[str | int, ...], problem: str) -> None:
        self.faults.append(Fault(place=_place(loc), problem=problem, line=self.line_of(loc)))

    def inputs(self) -> Inputs | None:
        file = self.file
        water, seat, overlap = self.lock_above_water(), None, self.overlap()
        if water is not None:
            seat = self.seat_above_water(water)
        self.lengths()
        pieces = self.pieces()
        thigh = self.thigh()
        sizes = self.sizes()
        if self.faults or water is None or seat is None or overlap is None:
            return None
        rig = file.rig
        return Inputs(
            station=StationInputs(
                beam=file.boat.beam_at_station,
                lock_overhang=rig.lock_overhang,
                seat_above_water=seat,
                lock_above_water=water,
                overlap=overlap,
                length=rig.length,
                leverage_ratio=rig.leverage_ratio,
                round_length=rig.round_length,
                wave_clearance=rig.wave_clearance,
                hands_apart=rig.hands_apart,
                lock_half_width=rig.lock_half_width,
                lock=rig.lock,
                upper_hand=rig.upper_hand,
                longest_stowed=rig.longest_stowed,
            ),
            thigh=thigh,
            rower_mass=file.rower.mass,
            sizes=sizes,
            pieces=tuple(pieces),
            leather=Leather(mass=file.oar.leather.mass),
            grain_table=tables.grain_table(),
            hard_start=file.loads.hard_start,
            wanted_index=file.wanted.stiffness_index,
            wanted_safety=file.wanted.safety,
        )

    def lock_above_water(self) -> float | None:
        boat, rig = self.file.boat, self.file.rig
        summed = None
        if boat.rail_above_water is not None and rig.lock_above_rail is not None:
            summed = boat.rail_above_water + rig.lock_above_rail
        if rig.lock_above_water is None and summed is None:
            self.fault(
                ("rig", "lock_above_water"),
                "the height of the lock is not known; give boat.rail_above_water and rig.lock_above_rail, or rig.lock_above_water",
            )
            return None
        if rig.lock_above_water is not None and summed is not None and abs(rig.lock_above_water - summed) > 1e-3:
            self.fault(
                ("rig", "lock_above_water"),
                f"{units.millimetres(rig.lock_above_water)} does not agree with rail and lock over it ({units.millimetres(summed)}); leave one of them out",
            )
        return rig.lock_above_water if rig.lock_above_water is not None else summed

    def seat_above_water(self, lock_above_water: float) -> float | None:
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
                f"the seat would stand {units.millimetres(from_lock)} above the water, but boat.seat_above_water says {units.millimetres(boat.seat_above_water)}; leave one of them out",
            )
        seat = boat.seat_above_water if boat.seat_above_water is not None else from_lock
        if seat is not None and seat >= lock_above_water:
            self.fault(
                ("boat", "seat_above_water"),
                f"the seat stands {units.millimetres(seat)} above the water, no lower than the lock at {units.millimetres(lock_above_water)}",
            )
        return seat

    def overlap(self) -> float | None:
        rig = self.file.rig
        if rig.overlap is not None and rig.gap is not None:
            self.fault(
                ("rig", "gap"),
                "overlap and gap are both given; the handles either cross or leave a gap, so leave one of them out",
            )
        elif rig.overlap is None and rig.gap is None:
            self.fault(
                ("rig", "overlap"),
                'how the handles pass is not said; give rig.overlap (e.g. "150 mm") or rig.gap (e.g. "50 mm")',
            )
        elif rig.length is not None and rig.overlap is not None and rig.overlap > rig.length:
            self.fault(
                ("rig", "overlap"),
                f"{units.millimetres(rig.overlap)} is longer than the oar ({units.millimetres(rig.length)}); give the overlap of the two handles, usually 50 to 180 mm",
            )
        return rig.overlap if rig.gap is None else -rig.gap

    def lengths(self) -> None:
        rig, oar = self.file.rig, self.file.oar
        if rig.length is not None and rig.leverage_ratio is not None:
            self.fault(
                ("rig", "leverage_ratio"),
                "length and leverage_ratio are both given; leave one of them out, or both to have the length chosen",
            )
        if oar.station is not None:
            self.fault(
                ("oar", "station"), "an oar measured from life is not read by this version; give grip, loom and blade"
            )
        for key in ("length", "inboard"):
            if getattr(oar, key) is not None:
                self.fault(
                    ("oar", key),
                    f"the {key} of the oar belongs to the rig here; give rig.length, and rig.overlap for the inboard",
                )

    def pieces(self) -> list[PieceInputs]:
        made: list[PieceInputs] = []
        for index, wood in enumerate(self.file.oar.wood):
            loc = ("oar", "wood", index)
            try:
                species = find_species(wood.species, tables.species_table(), tables.other_names())
            except BadDesign as error:
                self.fault((*loc, "species"), str(error))
                continue
            if wood.part not in ("loom", "edge", "tip"):
                self.fault(
                    (*loc, "part"),
                    f"'{wood.part}' is not counted by this version, which builds an oar of loom, edge and tip",
                )
                continue
            if wood.part != "loom" and wood.size is None:
                what = "how wide each edge strip is" if wood.part == "edge" else "how long the tip piece is"
                self.fault(
                    (*loc, "size"),
                    f'the {wood.part} needs its size: {what}, e.g. "{"6 mm" if wood.part == "edge" else "40 mm"}"',
                )
            if wood.part == "loom" and wood.size is not None:
                self.fault((*loc, "size"), "a loom has no size of its own, its sizes stand under [oar]; leave this out")
            made.append(
                _piece(
                    wood,
                    Board(
                        species=species,
                        modulus=wood.modulus,
                        density=wood.density,
                        grain_slope=wood.grain_slope,
                        moisture=wood.moisture,
                        grain=wood.grain,
                    ),
                )
            )
        for side in ("port", "starboard"):
            if not any(p.kind == "loom" and p.side in (None, side) for p in made) and not self.faults:
                self.fault(
                    ("oar", "wood"), f'the {side} oar has no loom; one [[oar.wood]] entry must say part = "loom"'
                )
        return made

    def thigh(self) -> Size | None:
        rower = self.file.rower
        if rower.thigh_thickness is not None:
            return Size(value=rower.thigh_thickness, spread=0.0, measured=True)
        if rower.stature is None or rower.body is None:
            return None
        regression = tables.body_table()[rower.body, "thighclearance"]
        return body_size(measured=None, regression=regression, stature=rower.stature, mass=rower.mass)

    def sizes(self) -> OarSizes:
        oar = self.file.oar
        loom, blade = oar.loom, oar.blade
        if blade.edge_at_tip > blade.tip_thickness:
            self.fault(
                ("oar", "blade", "edge_at_tip"),
                f"{units.millimetres(blade.edge_at_tip)} is thicker than the blade's centre at the tip ({units.millimetres(blade.tip_thickness)})",
            )
        if blade.edge_at_root > loom.neck_thickness:
            self.fault(
                ("oar", "blade", "edge_at_root"),
                f"{units.millimetres(blade.edge_at_root)} is thicker than the neck ({units.millimetres(loom.neck_thickness)})",
            )
        if loom.neck_width > blade.width:
            self.fault(
                ("oar", "loom", "neck_width"),
                f"{units.millimetres(loom.neck_width)} is wider than the blade ({units.millimetres(blade.width)})",
            )
        if oar.grip_centre > oar.grip.length:
            self.fault(
                ("oar", "grip_centre"),
                f"{units.millimetres(oar.grip_centre)} lies beyond the end of the grip ({units.millimetres(oar.grip.length)})",
            )
        return OarSizes(
            grip_centre=oar.grip_centre,
            grip_diameter=oar.grip.diameter,
            grip_length=oar.grip.length,
            inboard_size=loom.at_lock if loom.inboard is None else loom.inboard,
            square_inboard=loom.inboard_shape == "square",
            lock_diameter=loom.at_lock,
            neck_thickness=loom.neck_thickness,
            neck_width=loom.neck_width,
            blade_length=blade.length,
            blade_width=blade.width,
            tip_thickness=blade.tip_thickness,
            edge_at_root=blade.edge_at_root,
            edge_at_tip=blade.edge_at_tip,
            leather_length=oar.leather.length,
            leather_inboard=oar.leather.inboard_of_pins,
        )


def _piece(wood: Wood, board: Board) -> PieceInputs:
    assert wood.part in ("loom", "edge", "tip")
    return PieceInputs(kind=wood.part, board=board, size=wood.size, start=wood.start, stop=wood.stop, side=wood.oar)


def _place(loc: tuple[str | int, ...]) -> str:
    """Key path as a builder reads it: oar.wood, entry 2, species."""
    text = ""
    for part in loc:
        if isinstance(part, int):
            text += f", entry {part + 1}"
        else:
            text += (", " if ", entry" in text else "." if text else "") + part
    return text


def _in_words(detail: ErrorDetails, given: Mapping[str, Any]) -> str:
    loc, kind = tuple(detail["loc"]), detail["type"]
    if kind == "value_error":
        return str(detail["ctx"]["error"])
    if kind == "missing":
        return "is missing; " + _example_of(loc)
    if kind == "extra_forbidden":
        return _unknown_key(loc)
    if kind == "literal_error":
        return f"{detail['input']!r} is not one of {detail['ctx']['expected'].replace(chr(39), chr(34))}"
    if kind in ("model_type", "model_attributes_type", "dict_type"):
        return "should be a table of keys, not a single value"
    if kind == "list_type":
        return "should be a list of entries, each under its own [[" + ".".join(str(p) for p in loc) + "]]"
    if kind == "too_short":
        return "has no entry; at least the loom is needed"
    return f"{detail['input']!r} cannot be used here"


def _example_of(loc: tuple[str | int, ...]) -> str:
    keys = [part for part in loc if isinstance(part, str)]
    example = tomllib.loads((tables.data_folder() / "quillet.toml").read_text(encoding="utf-8"))
    found: Any = example
    for part in loc:
        try:
            found = found[part]
        except (KeyError, IndexError, TypeError):
            return f"add {'.'.join(keys)}"
    if isinstance(found, dict | list):
        return f"add the table [{'.'.join(keys)}]"
    shown = f'"{found}"' if isinstance(found, str) else found
    shown = f"'{found}'" if isinstance(found, str) and '"' in found else shown
    return f"add a line like {keys[-1]} = {shown}"


def _unknown_key(loc: tuple[str | int, ...]) -> str:
    model: type[BaseModel] = ProjectFile
    for part in loc[:-1]:
        if isinstance(part, int):
            continue
        annotation = str(model.model_fields[part].annotation)
        match = re.search(r"oarkit\.project_keys\.(\w+)", annotation)
        import oarkit.project_keys as keys

        model = getattr(keys, match[1]) if match else model
    known = [field.alias or name for name, field in model.model_fields.items()]
    near = difflib.get_close_matches(str(loc[-1]), known, n=1, cutoff=0.5)
    hint = f"did you mean {near[0]}?" if near else f"known here: {', '.join(known)}"
    return f"is not a key that oarkit knows; {hint}"


def _toml_in_words(message: str, text: str) -> str:
    match = re.search(r"^(.*?) \(at (?:line (\d+), column (\d+)|end of document)\)$", message)
    if match is None:
        return f"the file cannot be read as TOML: {message}"
    if match[2] is None:
        return f"the file ends in the middle of something ({match[1].lower()}); is a quote or bracket left open?"
    number = int(match[2])
    line = text.splitlines()[number - 1].strip() if number <= len(text.splitlines()) else ""
    hint = ""
    if re.search(r'=\s*"[^"]*"[^#]*"', line):
        hint = " An inch mark inside double quotes ends them: put the whole in single quotes, like length = '7-6 3/4 in', or write in for the mark."
    elif re.search(r"=\s*[\d.'-][^\"]*[a-zA-Z\"]", line):
        hint = ' A size is written in quotes, like "863.6 mm".'
    elif match[1].startswith(("Cannot overwrite", "Cannot declare")):
        hint = " A key or table stands there for the second time."
    return f"line {number} cannot be read as TOML: {line or match[1]}.{hint or f' ({match[1]})'}"


def _line_of(loc: tuple[str | int, ...], text: str) -> int | None:
    """Line on which a key stands, or the line of its table; found by reading the headings, good enough to point at."""
    best: tuple[int, int] | None = None
    heading: tuple[str, ...] = ()
    counts: dict[str, int] = {}
    keys = tuple(part for part in loc if isinstance(part, str))
    entry = next((part for part in loc if isinstance(part, int)), None)
    for number, line in enumerate(text.splitlines(), 1):
        table = re.match(r"\s*\[(\[?)\s*([\w.\-]+)\s*\]", line)
        key = re.match(r"\s*([\w.\-]+)\s*=", line)
        if table:
            heading = tuple(table[2].split("."))
            counts[table[2]] = counts.get(table[2], -1) + 1
            path = heading
        elif key:
            path = (*heading, *key[1].split("."))
        else:
            continue
        if (
            entry is not None
            and heading == keys[: len(heading)]
            and ".".join(heading) == "oar.wood"
            and counts["oar.wood"] != entry
        ):
            continue
        if path == keys[: len(path)] and (best is None or len(path) > best[0]):
            best = (len(path), number)
    return best[1] if best else None
