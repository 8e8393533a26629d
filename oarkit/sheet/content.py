"""What stands on the sheet, in words, once for HTML, PDF and tables: rows of text made of the design's records."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from itertools import groupby

from oarkit.design import Design, OarDesign, Value
from oarkit.oar.measured import MeasuredSizes
from oarkit.oar.shape import OarSizes
from oarkit.project import Project
from oarkit.tables import words
from oarkit.units import Display, both, filled
from oarkit.working import Finding, Line, Number, Quantity

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

MOISTURES = (
    "Modulus and density are those at the moisture of the shop. Strength is that at shop moisture + 3 %, for an "
    "oar in use is wetter (a piece with its grain across is taken as tabled): "
    "a board at 12 % has M = 0.150 in the formula for it."
)

RATIO = (
    "The ratio is strength over stress: of oar, rail and thole pin the adjusted lower 5 % bending strength of the "
    'wood, of other parts what is said below. Every other load and way to fail stands under "Will the oar do?".'
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
        "The stroke",
        (
            "stroke.catch_angle",
            "stroke.finish_angle",
            "stroke.arc",
            "stroke.hand_travel",
            "stroke.leg_clearance",
            "stroke.side_clearance",
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
_SECTIONS = {
    "rig": "Rig and heights",
    "rower": "Rower",
    "stroke": "Stroke",
    "oar": "Oar",
    "strength": "Strength",
    "wood": "Woods",
}
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


def word_of(name: str) -> tuple[str, str, str]:
    """Word, symbol and meaning of a result; a starboard result is told apart from the port one."""
    if name.endswith("_spread"):
        word, symbol, meaning = word_of(name.removesuffix("_spread"))
        return f"{word}, half its band", f"± {symbol}", f"half of the 5 to 95 % band: {meaning}"
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
            shown = [row_of(each, made.values, project.display) for each in here if each in made.values]
            differ = len({row.first for row in shown}) > 1
            rows += [replace(shown[0], word=f"{shown[0].word}, port"), *shown[1:]] if differ else shown[:1]
        tables.append((heading, rows))
    return tables


def row_of(name: str, values: Mapping[str, Value], display: Display) -> Row:
    """A result as printed."""
    value, (word, symbol, meaning) = values[name], word_of(name)
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
    if name.startswith("rig.largest_wave") and float(value_shown.value) < 0:
        first, second = "none", "the hands touch first"
    return Row(name=name, word=word, symbol=symbol, first=first, second=second, meaning=meaning)


def findings(project: Project, made: Design) -> list[Said]:
    """Findings in the reader's units, most pressing first."""
    return said(project.display, made.findings)


def said(display: Display, found: Iterable[Finding]) -> list[Said]:
    """Findings in the reader's units."""
    return [
        Said(level=f.level, code=f.code, text=filled(f.text, f.quantities, display), source=f.source) for f in found
    ]


def working(project: Project, made: Design) -> list[tuple[str, list[Step]]]:
    """The working of every number, in sections."""
    return working_of(made.working, made.oar, project.display)


def working_of(
    lines: Iterable[Line], made: OarDesign, display: Display, *, every_strength: bool = True
) -> list[tuple[str, list[Step]]]:
    """Lines of working and those of the woods, in sections; on paper the strengths beside bending are left out."""
    wood_lines = []
    for side, oar in made.oars.items():
        specs = [spec for spec in made.inputs.pieces if spec.side in (None, side)]
        for number, (piece, spec) in enumerate(zip(oar.pieces, specs, strict=True), 1):
            if side == "port" or spec.side == "starboard":
                owner = f"{piece.kind} {number} ({piece.wood.name})" + (f", {spec.side}" if spec.side else "")
                others = piece.wood.strength_working if every_strength else ()
                wood_lines += [(owner, line) for line in (*piece.wood.working, *others)]
    every = sorted(
        [*(("", line) for line in lines), *wood_lines],
        key=lambda pair: list(_SECTIONS).index(pair[1].name.split(".")[0]),
    )
    return [
        (_SECTIONS[key], [_step(owner, line, display) for owner, line in group])
        for key, group in groupby(every, key=lambda pair: pair[1].name.split(".")[0])
    ]


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


def meanings(project: Project, made: Design) -> list[tuple[str, str]]:
    """What the words of the first page mean, each once."""
    rows = [row for _, table in answer(project, made) for row in table if "starboard." not in row.name]
    return [(f"{row.word} {row.symbol}", row.meaning) for row in rows]


def given(project: Project, made: Design) -> list[tuple[str, str, str]]:
    """What the design was worked from, given or assumed: word, first and second form."""
    inputs, display = made.inputs, project.display
    station, sizes, thigh = inputs.station, inputs.sizes, inputs.rower.body.thigh_thickness
    overlap = float(made.rig.overlap)
    passing = "overlap" if overlap > 0 else "gap"
    length = "given" if station.length is not None else "chosen"
    how = "not known" if thigh is None else "measured" if thigh.measured else "estimated"
    rows: list[tuple[str, Number | None, str]] = [
        ("beam at the station", station.beam, "m"),
        ("lock overhang, each side", station.lock_overhang, "m"),
        ("lock above water", station.lock_above_water, "m"),
        ("seat above water", station.seat_above_water, "m"),
        (f"{passing} of the handles", abs(overlap), "m"),
        (f"length of the oar, {length}", made.rig.length, "m"),
        ("wave clearance", station.wave_clearance, "m"),
        ("mass of the rower", inputs.rower.mass, "kg"),
        (f"thigh thickness, {how}", None if thigh is None else thigh.value, "m"),
        ("hard start, each hand" + ("" if inputs.loads.hard_start is not None else ", customary"), made.force, "N"),
        ("grip centre from the handle end", sizes.grip_centre, "m"),
        ("grip diameter", sizes.grip_diameter, "m"),
        *_loom_sizes(sizes),
        ("blade, length", sizes.blade_length, "m"),
        ("blade, width", sizes.blade_width, "m"),
        ("leather, mass", inputs.leather.mass, "kg"),
        ("wanted stiffness index", inputs.wanted_index, "1"),
        ("wanted safety ratio", inputs.wanted_safety, "1"),
    ]
    return [(word, *both(Quantity(value=value, unit=unit), display)) for word, value, unit in rows if value is not None]


def ratio_notes(made: Design) -> list[str]:
    """What a ratio means, and what each part that the lock is fastened with takes for its strength."""
    notes: dict[str, list[str]] = {}
    for check in made.fittings:
        notes.setdefault(check.note, []).append(check.part)
    told = "; ".join(f"{' and '.join(parts)}: {note}" for note, parts in notes.items())
    return [RATIO, *([f"{told[0].upper()}{told[1:]}."] if told else [])]


def _loom_sizes(sizes: OarSizes | MeasuredSizes) -> list[tuple[str, Number, str]]:
    """Sizes of a loom that is drawn from them; those of a measured one stand in its station table."""
    if not isinstance(sizes, OarSizes):
        return [("stations measured", len(sizes.stations), "count")]
    return [
        ("loom at the lock", sizes.lock_diameter, "m"),
        ("inboard, square" if sizes.square_inboard else "inboard, round", sizes.inboard_size, "m"),
        ("neck, thickness", sizes.neck_thickness, "m"),
        ("neck, width", sizes.neck_width, "m"),
    ]


#: Results that the terminal and the table of a class show.
SUMMARY = (
    "rig.length", "rig.inboard", "rig.span", "rig.overlap", "rig.leverage_ratio", "rig.thigh_clearance",
    "rig.largest_wave_square", "oar.mass", "oar.hand_weight", "oar.bench_drop",
    "oar.stiffness_index", "strength.least_ratio",
)  # fmt: skip


def summary(project: Project, made: Design) -> list[tuple[str, str, str]]:
    """The dozen lines of the terminal."""
    rows = [(name, row_of(name, made.values, project.display)) for name in SUMMARY]
    apart = [name for name in SUMMARY if name.replace(".", ".starboard.", 1) in made.values]
    return [(f"{row.word}, port" if name in apart else row.word, row.first, row.second) for name, row in rows]
