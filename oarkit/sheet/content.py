"""What stands on the sheet, in words, once for HTML, PDF and tables: rows of text made of the design's records."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import groupby

from oarkit.design import Design, Side
from oarkit.draw.oar import marked_stations
from oarkit.project import Project
from oarkit.strength.hard_start import Check
from oarkit.tables import words
from oarkit.units import Display, both, filled
from oarkit.working import Line, Quantity

CAUTIONS = (
    "Cold water: the breath goes in the first minute, useful movement in about ten. Wear a life jacket, dress for the "
    "water and not for the air, tell someone where you go, and look at wind and tide first. The boat must float "
    "when swamped.",
    "Oars fail: carry a third oar or a paddle and a spare lock. Stay close inshore until the pair has been proved "
    "on the "
    "bench and rowed on a good many quiet outings.",
    "Where handles cross, fingers get pinched: rings off.",
    "In the shop: eye protection and guards at saw and planer; a mask against dust (cedar and ash dust can "
    "sensitise); gloves with epoxy and "
    "hardener; oily rags laid flat to dry, for they heat themselves. Stand clear of an oar under a hung weight.",
    "Local boating rules and qualified people (instructors, boatbuilders, engineers) come first. These numbers "
    "are for learning "
    "and planning; they are no certificate. Strengths are estimates for clear, straight-grained wood: look at "
    "every board.",
)

_FIRST = (
    (
        "The oar",
        (
            "rig.length",
            "rig.inboard",
            "rig.outboard",
            "rig.button_mark",
            "oar.mass",
            "oar.balance",
            "oar.hand_weight",
            "oar.blade_area",
            "oar.bench_drop",
            "oar.stiffness_index",
            "strength.least_ratio",
        ),
    ),
    (
        "The rig",
        (
            "rig.span",
            "rig.overlap",
            "rig.overlap_in_drive",
            "rig.leverage_ratio",
            "rig.working_ratio",
            "rig.lock_offset",
            "rig.lock_above_water",
            "rig.lock_above_seat",
            "rig.dip_in_drive",
            "rig.hand_height_in_drive",
            "rig.hand_height_in_recovery",
            "rig.thigh_clearance",
            "rig.largest_wave_square",
            "rig.largest_wave_feathered",
        ),
    ),
)
_SECTIONS = {"rig": "Rig and heights", "oar": "Oar", "strength": "Strength", "wood": "Woods"}
LEVELS = {"fails": "Fails", "caution": "Caution", "note": "Note"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A result as printed: word, symbol, value in both systems, or the reason for none."""

    name: str
    word: str
    symbol: str
    first: str
    second: str
    meaning: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """A line of the working as printed."""

    word: str
    symbol: str
    formula: str
    numbers: str
    first: str
    second: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """A finding as printed."""

    level: str
    code: str
    text: str
    source: str


def sides_of(made: Design) -> tuple[Side, ...]:
    """The oars that the design holds apart, port first."""
    return tuple(made.oars)


def word_of(name: str) -> tuple[str, str, str]:
    """Word, symbol and meaning of a result; a starboard result is told apart from the port one."""
    entry = words().get(name.replace("starboard.", ""))
    if entry is None:
        return name, "", ""
    return entry.word + (", starboard" if "starboard." in name else ""), entry.symbol, entry.meaning


def answer(project: Project, made: Design) -> list[tuple[str, list[Row]]]:
    """The first page's tables: the oar and the rig."""
    tables = []
    for heading, names in _FIRST:
        rows = []
        for name in names:
            here = [name, *([name.replace(".", ".starboard.", 1)] if len(made.oars) == 2 else [])]
            if name == "rig.button_mark" and not made.inputs.station.lock_half_width:
                continue
            shown = [_row(each, made, project.display) for each in here if each in made.values]
            rows += shown if len({row.first for row in shown}) > 1 else shown[:1]
        tables.append((heading, rows))
    return tables


def _row(name: str, made: Design, display: Display) -> Row:
    value, (word, symbol, meaning) = made.values[name], word_of(name)
    if name == "rig.overlap" and value.value is not None and float(value.value) < 0:
        word, symbol = "gap between the handles", "−O"
        value_shown = Quantity(value=-float(value.value), unit="m")
    elif value.value is None:
        return Row(name=name, word=word, symbol=symbol, first="–", second=value.reason, meaning=meaning)
    else:
        value_shown = Quantity(value=value.value, unit=value.unit)
    if name == "rig.overlap_in_drive" and float(value_shown.value) < 0:
        word, symbol, value_shown = "gap in the drive", "−O_d", Quantity(value=-float(value_shown.value), unit="m")
    first, second = both(value_shown, display)
    return Row(name=name, word=word, symbol=symbol, first=first, second=second, meaning=meaning)


def findings(project: Project, made: Design) -> list[Said]:
    """Findings in the reader's units, most pressing first."""
    return [
        Said(level=f.level, code=f.code, text=filled(f.text, f.quantities, project.display), source=f.source)
        for f in made.findings
    ]


def not_used(project: Project) -> list[str]:
    """One sentence on entries from which no result is made yet, or none."""
    if not project.unused:
        return []
    return ["Read and checked, but no result of this version uses them: " + ", ".join(project.unused) + "."]


def working(project: Project, made: Design) -> list[tuple[str, list[Step]]]:
    """The working of every number, in sections."""
    sections = []
    wood_lines = []
    for side in sides_of(made):
        specs = [spec for spec in made.inputs.pieces if spec.side in (None, side)]
        for number, (piece, spec) in enumerate(zip(made.oars[side].pieces, specs, strict=True), 1):
            if side == "port" or spec.side == "starboard":
                owner = f"{piece.kind} {number} ({piece.wood.name})" + (f", {spec.side}" if spec.side else "")
                wood_lines += [(owner, line) for line in piece.wood.working]
    plain = [("", line) for line in made.working]
    for key, group in groupby([*plain, *wood_lines], key=lambda pair: pair[1].name.split(".")[0]):
        sections.append((_SECTIONS[key], [_step(owner, line, project.display) for owner, line in group]))
    return sections


def _step(owner: str, line: Line, display: Display) -> Step:
    word, symbol, _ = word_of(line.name)
    first, second = both(line.result, display)
    numbers = ", ".join(f"{name} = {both(quantity, display)[0]}" for name, quantity in line.numbers.items())
    return Step(
        word=f"{word}: {owner}" if owner else word,
        symbol=symbol,
        formula=line.formula,
        numbers=numbers,
        first=first,
        second=second,
        source=line.source,
    )


def given(project: Project, made: Design) -> list[tuple[str, str, str]]:
    """What the project gave, as used: word, first and second form."""
    station, sizes, display = made.inputs.station, made.inputs.sizes, project.display
    rows: list[tuple[str, Quantity]] = [
        ("beam at the station", Quantity(value=station.beam, unit="m")),
        ("lock overhang, each side", Quantity(value=station.lock_overhang, unit="m")),
        ("seat above water", Quantity(value=station.seat_above_water, unit="m")),
        ("wave clearance", Quantity(value=station.wave_clearance, unit="m")),
        ("grip centre from the handle end", Quantity(value=sizes.grip_centre, unit="m")),
        ("blade length", Quantity(value=sizes.blade_length, unit="m")),
        ("blade width", Quantity(value=sizes.blade_width, unit="m")),
        ("mass of the rower", Quantity(value=made.inputs.rower_mass, unit="kg")),
        ("hard start, each hand", Quantity(value=made.force, unit="N")),
    ]
    if made.inputs.thigh is not None:
        thigh = made.inputs.thigh
        how = (
            "measured" if thigh.measured else f"estimated ± {both(Quantity(value=thigh.spread, unit='m'), display)[0]}"
        )
        rows.insert(8, (f"thigh thickness, {how}", Quantity(value=thigh.value, unit="m")))
    return [(word, *both(quantity, display)) for word, quantity in rows]


def boards(project: Project, made: Design) -> list[tuple[str, ...]]:
    """One row a piece of wood: part, wood, modulus, density, strength, where the modulus comes from."""
    table: list[tuple[str, ...]] = []
    for side in sides_of(made):
        specs = [p for p in made.inputs.pieces if p.side in (None, side)]
        for piece, spec in zip(made.oars[side].pieces, specs, strict=True):
            if side == "starboard" and spec.side is None:
                continue
            board = spec.board
            slope = (
                "–" if board.grain == "across" else both(Quantity(value=board.grain_slope or 1 / 15, unit="slope"))[0]
            )
            tested = (
                "tested"
                if board.modulus is not None
                else "table × 1.10"
                if board.grain == "along"
                else "across the grain"
            )
            table.append(
                (
                    f"{piece.kind}{f', {spec.side}' if spec.side else ''}",
                    f"{board.species.name} ({board.species.origin})",
                    f"{both(Quantity(value=piece.wood.modulus, unit='Pa'))[0]}, {tested}",
                    both(Quantity(value=piece.wood.density, unit="kg/m3"))[0],
                    slope,
                    both(Quantity(value=piece.wood.strength, unit="Pa"))[0],
                )
            )
    return table


def place_in_words(check: Check, made: Design, display: Display) -> str:
    """Where a check is worst, in words."""
    at = both(Quantity(value=check.place, unit="m"), display)[0]
    near = " (pin line)" if abs(float(check.place) - float(made.rig.inboard)) < 1e-6 else ""
    return f"{at} from the handle end{near}"


def checks(project: Project, made: Design) -> list[Mapping[str, object]]:
    """Checks as printed and as stored."""
    return [
        {
            "case": check.case,
            "place": ("" if len(made.oars) == 1 else f"{side} oar, ")
            + f"{check.part}, "
            + place_in_words(check, made, project.display),
            "stress": float(check.stress),
            "strength": float(check.strength),
            "ratio": float(check.ratio),
            "ok": bool(check.ok),
            "wood": check.wood,
        }
        for side, group in made.checks.items()
        for check in group
    ]


def station_rows(project: Project, made: Design) -> list[tuple[str, ...]]:
    """The station table: letter, place, distance, thickness, width, edge; each in both systems."""
    rows = []
    for place in marked_stations(made.oars["port"]):
        sizes = [place.s, place.thickness, place.width]
        shown = [both(Quantity(value=size, unit="m"), project.display) for size in sizes]
        edge = both(Quantity(value=place.edge, unit="m"), project.display) if place.edge is not None else ("–", "")
        rows.append((place.letter, place.what, *(text for pair in [*shown, edge] for text in pair)))
    return rows


def summary(project: Project, made: Design) -> list[tuple[str, str, str]]:
    """The dozen lines of the terminal."""
    names = (
        "rig.length",
        "rig.inboard",
        "rig.span",
        "rig.overlap",
        "rig.leverage_ratio",
        "rig.thigh_clearance",
        "rig.largest_wave_square",
        "oar.mass",
        "oar.hand_weight",
        "oar.bench_drop",
        "oar.stiffness_index",
        "strength.least_ratio",
    )
    return [(row.word, row.first, row.second) for row in (_row(name, made, project.display) for name in names)]
