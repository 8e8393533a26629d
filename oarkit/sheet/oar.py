"""Rows of words on the oar itself: what it comes to, its checks, boards and stations; once for every form of sheet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from oarkit.design import Design, OarDesign, Side, Sizing
from oarkit.draw.oar import marked_stations
from oarkit.sheet.content import Row, Said, row_of, said
from oarkit.strength.hard_start import Check
from oarkit.units import Display, both
from oarkit.wood.board import STOCK_SLOPE
from oarkit.working import Quantity

_FIRST = (
    (
        "The oar",
        ("oar.mass", "oar.balance", "oar.hand_weight", "oar.inertia_about_lock", "oar.percussion", "oar.blade_area",
         "oar.blade_centre"),
    ),
    (
        "How it bends",
        (
            "oar.bench_drop", "oar.stiffness_index", "oar.tip_drop", "oar.tip_slope", "oar.bench_drop_at_tip",
            "oar.first_frequency", "oar.service_lag", "oar.service_turn", "oar.service_twist",
        ),
    ),
    (
        "How it bears its loads",
        (
            "strength.lock_moment", "strength.lock_stress", "strength.least_ratio", "strength.crab_force",
            "strength.least_abuse_ratio", "strength.buckling_load",
        ),
    ),
)  # fmt: skip


def answer(made: OarDesign, display: Display) -> list[tuple[str, list[Row]]]:
    """The tables of the oar part's first page; where the boards of a pair differ, both oars."""
    tables = []
    for heading, names in _FIRST:
        each = [(name, name.replace(".", ".starboard.", 1)) for name in names]
        wanted = [one for pair in each for one in pair if one in made.values]
        tables.append((heading, [row_of(name, made.values, display) for name in wanted]))
    return tables


def place_in_words(check: Check, made: OarDesign, display: Display) -> str:
    """Where a check is worst, in words."""
    at = both(Quantity(value=check.place, unit="m"), display)[0]
    near = " (pin line)" if abs(float(check.place) - float(made.inputs.shape.inboard)) < 1e-6 else ""
    return f"{at} from the handle end{near}"


def stored_checks(made: OarDesign, display: Display) -> list[Mapping[str, object]]:
    """Every check as it is stored; the way to fail stands behind the case where it is not plain bending."""
    return [
        {
            "case": check.case if check.what == "bending" else f"{check.case}, {check.what}",
            "place": ("" if len(made.oars) == 1 else f"{side} oar, ")
            + f"{check.part}, "
            + place_in_words(check, made, display),
            "stress": float(check.stress),
            "strength": float(check.strength),
            "ratio": float(check.ratio),
            "ok": bool(check.ok),
            "wood": check.wood,
        }
        for side, check in _every(made)
    ]


def check_rows(made: OarDesign) -> list[Mapping[str, object]]:
    """Every check with all that is known of it, in SI."""
    return [
        {
            "oar": "both" if len(made.oars) == 1 else side,
            "kind": check.kind,
            "case": check.case,
            "plane": check.plane,
            "what": check.what,
            "part": check.part,
            "wood": check.wood,
            "place_m": float(check.place),
            "stress_Pa": float(check.stress),
            "strength_Pa": float(check.strength),
            "ratio": float(check.ratio),
            "ratio_of_average_wood": None if check.mean_ratio is None else float(check.mean_ratio),
            "asked": float(check.asked),
            "met": check.level,
        }
        for side, check in _every(made)
    ]


def _every(made: OarDesign) -> list[tuple[Side, Check]]:
    return [(side, check) for side, group in made.checks.items() for check in group]


def first_checks(made: Design, display: Display) -> list[Mapping[str, object]]:
    """The first page: bending in a hard start, what else of rowing is not borne, and the fastening of the locks."""
    always = ("hard start", "hard start, bending at the hole")
    unmet = {id(check) for _, check in _every(made.oar) if check.kind == "customary" and check.breaks and not check.ok}
    bent = [
        stored
        for stored, (_, check) in zip(stored_checks(made.oar, display), _every(made.oar), strict=True)
        if stored["case"] in always or id(check) in unmet
    ]
    return [*bent, *fitting_checks(made)]


def fitting_checks(made: Design) -> list[Mapping[str, object]]:
    """Checks of what the locks are fastened with, as stored."""
    return [
        {
            "case": "hard start" if check.breaks else "hard start, denting",
            "place": f"{check.part}: {check.place}",
            "stress": float(check.stress),
            "strength": float(check.strength),
            "ratio": float(check.ratio),
            "ok": bool(check.ratio >= made.inputs.wanted_safety),
            "wood": check.material,
        }
        for check in made.fittings
    ]


def sizing(made: OarDesign, found: Mapping[Side, Sizing], display: Display) -> list[Said]:
    """What sizing found, in the reader's units."""
    told = []
    for side, one in found.items():
        whose = "" if len(made.oars) == 1 else f"{side.capitalize()} oar. "
        told += [replace(each, text=f"{whose}{each.text}") for each in said(display, one.findings)]
    return told


def station_rows(made: OarDesign, display: Display) -> list[tuple[str, ...]]:
    """The station table: letter, place, distance, thickness, width, edge; each in both systems."""
    rows = []
    for place in marked_stations(made.oars["port"]):
        sizes = [place.s, place.thickness, place.width]
        shown = [both(Quantity(value=size, unit="m"), display) for size in sizes]
        edge = both(Quantity(value=place.edge, unit="m"), display) if place.edge is not None else ("–", "")
        rows.append((place.letter, place.what, *(text for pair in [*shown, edge] for text in pair)))
    return rows


def boards(made: OarDesign) -> list[tuple[str, ...]]:
    """One row a piece of wood: part, wood, modulus, density, grain, strength, where the modulus comes from."""
    table: list[tuple[str, ...]] = []
    for side, oar in made.oars.items():
        specs = [spec for spec in made.inputs.pieces if spec.side in (None, side)]
        for piece, spec in zip(oar.pieces, specs, strict=True):
            if side == "starboard" and spec.side is None:
                continue
            board = spec.board
            given = STOCK_SLOPE if board.grain_slope is None else board.grain_slope
            slope = "–" if board.grain == "across" else both(Quantity(value=given, unit="slope"))[0]
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
                    f"{board.species.name} ({board.species.origin})" + (" *" if piece.wood.quoted else ""),
                    f"{both(Quantity(value=piece.wood.modulus, unit='Pa'))[0]}, {tested}",
                    both(Quantity(value=piece.wood.density, unit="kg/m3"))[0],
                    slope,
                    both(Quantity(value=piece.wood.strength, unit="Pa"))[0],
                )
            )
    return table
