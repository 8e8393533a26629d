"""The spine: station -> rig -> oars -> checks, on plain records; reads no file."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

import numpy as np

from oarkit.oar.build import Kind, Leather, Oar, Piece, build_oar
from oarkit.oar.shape import OarSizes
from oarkit.rig import arms
from oarkit.rig.advice import chosen_length, rig_findings
from oarkit.rig.station import Rig, rig_from_station
from oarkit.rower.body import Size, estimate_findings
from oarkit.strength import hard_start
from oarkit.strength.account import note_oar
from oarkit.strength.advice import NOT_CHECKED, oar_findings, pair_findings
from oarkit.wood.adjust import GrainTable
from oarkit.wood.advice import board_findings, together_findings
from oarkit.wood.board import Board, wood_of_board
from oarkit.working import BadDesign, Finding, Line, Number, Working

Side = Literal["port", "starboard"]

#: Names of the results that are always present, with their units.
RESULT_UNITS: dict[str, str] = {
    "rig.span": "m", "rig.inboard": "m", "rig.outboard": "m", "rig.length": "m", "rig.overlap": "m",
    "rig.overlap_in_drive": "m", "rig.leverage_ratio": "1", "rig.working_ratio": "1", "rig.hand_arm": "m",
    "rig.blade_arm": "m", "rig.dip_in_drive": "rad", "rig.hand_height_in_drive": "m",
    "rig.hand_height_in_recovery": "m", "rig.thigh_clearance": "m", "rig.largest_wave_square": "m",
    "rig.largest_wave_feathered": "m", "rig.lock_offset": "m", "stroke.catch_angle": "rad",
    "stroke.finish_angle": "rad", "stroke.arc": "rad", "stroke.hand_travel": "m", "oar.mass": "kg", "oar.balance": "m",
    "oar.hand_weight": "N", "oar.inertia_about_lock": "kg m2", "oar.blade_area": "m2", "oar.bench_drop": "m",
    "oar.stiffness_index": "1", "oar.first_frequency": "Hz", "strength.lock_moment": "N m",
    "strength.lock_stress": "Pa", "strength.least_ratio": "1",
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class StationInputs:
    """The rowing station and the choices of the rig [m]; the same meanings as in `rig_from_station`."""

    beam: Number
    lock_overhang: Number
    seat_above_water: Number
    lock_above_water: Number
    overlap: Number
    length: Number | None = None
    leverage_ratio: Number | None = None
    round_length: Number | None
    wave_clearance: Number
    hands_apart: Number
    lock_half_width: Number = 0.0
    lock: Literal["feathering", "pinned"] = "feathering"
    upper_hand: Literal["left", "right"] = "left"
    longest_stowed: Number | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceInputs:
    """A piece of wood before its board is turned into a wood; for one oar of the pair or for both."""

    kind: Kind
    board: Board
    size: Number | None = None
    start: Number | None = None
    stop: Number | None = None
    side: Side | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Inputs:
    """All that a design needs, in SI."""

    station: StationInputs
    thigh: Size | None
    rower_mass: Number
    sizes: OarSizes
    pieces: tuple[PieceInputs, ...]
    leather: Leather
    grain_table: GrainTable
    hard_start: Number | None = None
    wanted_index: Number | None = None
    wanted_safety: Number = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Value:
    """A named result; where it does not apply, the value is None and the reason says why."""

    value: Number | None
    unit: str
    source: str
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Design:
    """A rig, a pair of oars, what was found, and how every number was got (the woods carry their own working).

    ``oars`` and ``checks`` hold "port", and "starboard" too where the boards of the pair differ.
    """

    inputs: Inputs
    rig: Rig
    oars: Mapping[Side, Oar]
    force: Number
    checks: Mapping[Side, tuple[hard_start.Check, ...]]
    values: Mapping[str, Value]
    findings: tuple[Finding, ...]
    working: tuple[Line, ...] = field(repr=False)

    @property
    def passes(self) -> bool:
        """Whether every check of the customary loads is met."""
        return all(made and all(bool(np.all(check.ok)) for check in made) for made in self.checks.values())


def design(inputs: Inputs) -> Design:
    """From a station, a rower and boards to rig, oars and checks.

    Parameters
    ----------
    inputs : Inputs
        Everything given, in SI. [record]

    Returns
    -------
    Design
        Everything found, in SI. [record]

    Raises
    ------
    BadDesign
        The numbers cannot be built or rowed, with the reason.

    Notes
    -----
    Source: each line of ``Design.working`` names its own.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> made = design(example_project("quillet").inputs)
    >>> round(float(made.values["rig.span"].value), 4)
    1.1049
    """
    rig = _rig(inputs)
    work = Working()
    force = hard_start.hand_force(rower_mass=inputs.rower_mass) if inputs.hard_start is None else inputs.hard_start
    if not 0 < float(np.min(force)) < np.inf:
        raise BadDesign("the force of the hard start must be a number above nought")
    sides: tuple[Side, ...] = ("port", "starboard") if any(p.side for p in inputs.pieces) else ("port",)
    oars = {side: _oar(inputs, rig, side) for side in sides}
    checks = {side: hard_start.checks(oar, force=force, wanted=inputs.wanted_safety) for side, oar in oars.items()}
    work("rig.button_mark", arms.button_mark, inboard=rig.inboard, lock_half_width=inputs.station.lock_half_width)
    for side, oar in oars.items():
        note_oar(work, oar, force=force, prefix="" if side == "port" else "starboard.")
    _note_least_ratio(work, checks)
    lines = (*rig.working, *work.lines)
    return Design(
        inputs=inputs,
        rig=rig,
        oars=oars,
        force=force,
        checks=checks,
        values=_values(lines, rig),
        findings=tuple(_findings(inputs, rig, oars, checks, force)),
        working=lines,
    )


def _rig(inputs: Inputs) -> Rig:
    station = inputs.station
    return rig_from_station(
        beam=station.beam,
        lock_overhang=station.lock_overhang,
        seat_above_water=station.seat_above_water,
        lock_above_water=station.lock_above_water,
        overlap=station.overlap,
        length=station.length,
        leverage_ratio=station.leverage_ratio,
        round_length=station.round_length,
        thigh_thickness=None if inputs.thigh is None else inputs.thigh.value,
        wave_clearance=station.wave_clearance,
        blade_length=inputs.sizes.blade_length,
        blade_width=inputs.sizes.blade_width,
        grip_centre=inputs.sizes.grip_centre,
        hands_apart=station.hands_apart,
    )


def _oar(inputs: Inputs, rig: Rig, side: Side) -> Oar:
    pieces = [
        Piece(
            kind=piece.kind,
            wood=wood_of_board(piece.board, grain_table=inputs.grain_table),
            size=piece.size,
            start=piece.start,
            stop=piece.stop,
        )
        for piece in inputs.pieces
        if piece.side in (None, side)
    ]
    return build_oar(inputs.sizes.at(length=rig.length, inboard=rig.inboard), pieces, inputs.leather)


def _note_least_ratio(work: Working, checks: Mapping[Side, tuple[hard_start.Check, ...]]) -> None:
    worst = min((check for made in checks.values() for check in made), key=lambda check: float(check.ratio))
    work("strength.least_ratio", hard_start.safety_ratio, strength=worst.strength, stress=worst.stress)


def _values(lines: tuple[Line, ...], rig: Rig) -> dict[str, Value]:
    """Named results: those that the working holds, then the fixed names that do not apply, with the reason."""
    given = {
        "rig.length": rig.length,
        "rig.lock_above_water": rig.lock_above_water,
        "rig.lock_above_seat": rig.lock_above_seat,
    }
    values = {
        name: Value(value=value, unit="m", source="given, or summed from the heights given")
        for name, value in given.items()
    }
    values |= {line.name: Value(value=line.result.value, unit=line.result.unit, source=line.source) for line in lines}
    reasons = {
        "rig.lock_offset": "the handles do not cross",
        "rig.thigh_clearance": "no thigh thickness was given",
        "rig.largest_wave_square": "no thigh thickness was given",
        "rig.largest_wave_feathered": "no thigh thickness was given",
    }
    for name, unit in RESULT_UNITS.items():
        if name not in values:
            reason = reasons.get(
                name,
                "the stroke arc is not worked out by this version" if name.startswith("stroke.") else "not worked out",
            )
            values[name] = Value(value=None, unit=unit, source="", reason=reason)
    return {name: values[name] for name in [*RESULT_UNITS, *(n for n in values if n not in RESULT_UNITS)]}


def _findings(
    inputs: Inputs,
    rig: Rig,
    oars: Mapping[Side, Oar],
    checks: Mapping[Side, tuple[hard_start.Check, ...]],
    force: Number,
) -> list[Finding]:
    station = inputs.station
    found = rig_findings(
        rig,
        wave_clearance=station.wave_clearance,
        blade_width=inputs.sizes.blade_width,
        lock=station.lock,
        upper_hand=station.upper_hand,
        hands_apart=station.hands_apart,
        longest_stowed=station.longest_stowed,
    )
    for side, oar in oars.items():
        told = oar_findings(
            oar, made=checks[side], force=force, wanted_index=inputs.wanted_index, wanted_safety=inputs.wanted_safety
        )
        whose = "" if len(oars) == 1 else f"{side.capitalize()} oar. "
        found += [replace(finding, text=f"{whose}{finding.text}") for finding in told]
    if len(oars) == 2:
        found += pair_findings(oars["port"], oars["starboard"], force=force, wanted=inputs.wanted_safety)
    if station.length is None and station.leverage_ratio is None:
        found.append(chosen_length(rig))
    found += estimate_findings(inputs.thigh)
    for piece in inputs.pieces:
        found += board_findings(piece.board, part=piece.kind if piece.side is None else f"{piece.side} {piece.kind}")
    found += together_findings([piece.board for piece in inputs.pieces])
    found.append(NOT_CHECKED)
    return sorted(found, key=lambda f: ("fails", "caution", "note").index(f.level))
