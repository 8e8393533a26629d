"""The oar part of the spine: from an outline and boards to a pair of oars, every load on them and every check."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from functools import cache, partial

from oarkit.design.records import OarDesign, OarInputs, Side, Sizing, Value
from oarkit.oar.build import Oar, Piece, build_oar
from oarkit.strength import hard_start
from oarkit.strength.account import note_loads, note_oar
from oarkit.strength.advice import oar_findings, pair_findings
from oarkit.strength.all_cases import Cases, all_cases, hard_start_force, load_places
from oarkit.strength.balancing import counterweight_findings
from oarkit.strength.blade_state import BladeWishes
from oarkit.strength.checks import CheckInputs, every_check, least_in_rowing
from oarkit.strength.governs import ABUSE, governing_findings
from oarkit.strength.hard_start import Check
from oarkit.strength.sensitivity import Sensitivities, sensitivities
from oarkit.strength.sizing import CUSTOM, LoomLimits, LoomSize, Wishes, lightest_loom, mass_against_index
from oarkit.strength.sizing_advice import sizing_findings
from oarkit.wood.advice import board_findings, together_findings
from oarkit.wood.board import STOCK_SLOPE, wood_of_board
from oarkit.wood.service import fatigue_guide
from oarkit.working import BadDesign, Finding, Working

STEEP = 1 / 12  #: slope of grain from which the handbook's fatigue test of sloping grain is taken
RANGE = 0.1  #: least over greatest stress of a stroke; it comes and goes, and the tests nearest to that had 0.1
CURVE = (-0.02, -0.01, 0.01, 0.02)  #: off the wanted stiffness index, for which the lightest loom is looked for
CYCLES = 1_560_000.0  #: strokes of ten seasons: 26 a minute, 2 h, 50 outings a season, common practice


def work_out_oar(inputs: OarInputs) -> OarDesign:
    """From an outline and boards to a pair of oars with all loads and checks; public as `oarkit.oar_design`.

    Parameters
    ----------
    inputs : OarInputs
        Everything given, in SI. [record]

    Returns
    -------
    OarDesign
        Everything found, in SI. [record]

    Raises
    ------
    BadDesign
        The numbers cannot be built, with the reason.

    Notes
    -----
    Source: each line of ``OarDesign.working`` names its own.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> made = work_out_oar(design(example_project("quillet").inputs).oar.inputs)
    >>> sorted(made.oars), made.passes
    (['port'], True)
    """
    force = hard_start_force(inputs.loads, inputs.crew)
    sides: tuple[Side, ...] = ("port", "starboard") if any(piece.side for piece in inputs.pieces) else ("port",)
    oars = {side: _oar(inputs, side) for side in sides}
    cases = {side: all_cases(oar, inputs.loads, inputs.crew) for side, oar in oars.items()}
    told = _told(inputs)
    checks = {side: every_check(oar, cases[side], told) for side, oar in oars.items()}
    worth = {side: sensitivities(oar, force=float(force)) for side, oar in oars.items()}
    work = Working()
    for side, oar in oars.items():
        prefix = "" if side == "port" else "starboard."
        note_oar(work, oar, force=force, prefix=prefix)
        note_loads(work, oar, cases[side], checks[side], prefix=prefix)
    worst = least_in_rowing([check for made in checks.values() for check in made])
    work("strength.least_ratio", hard_start.safety_ratio, strength=worst.strength, stress=worst.stress)
    return OarDesign(
        inputs=inputs,
        oars=oars,
        force=force,
        cases=cases,
        checks=checks,
        sensitivities=worth,
        values={line.name: Value(value=line.result.value, unit=line.result.unit, source=line.source)
                for line in work.lines},
        findings=tuple(_findings(inputs, oars, cases, checks, worth, told)),
        working=tuple(work.lines),
    )  # fmt: skip


def _oar(inputs: OarInputs, side: Side) -> Oar:
    pieces = [
        Piece(
            kind=piece.kind,
            wood=wood_of_board(piece.board, grain_table=inputs.grain_table),
            size=piece.size,
            start=piece.start,
            stop=piece.stop,
            at=piece.at,
        )
        for piece in inputs.pieces
        if piece.side in (None, side)
    ]
    return build_oar(inputs.shape, pieces, inputs.leather, marks=load_places(inputs.shape))


def _told(inputs: OarInputs) -> CheckInputs:
    """What the checks need besides: fatigue from the table, thole and hole as told."""
    share = None
    if inputs.fatigue_table:
        slopes = [piece.board.grain_slope or STOCK_SLOPE for piece in inputs.pieces if piece.board.grain == "along"]
        kind = "clear" if max(slopes, default=STOCK_SLOPE) < STEEP - 1e-9 else "1:12 grain"
        share = fatigue_guide(inputs.fatigue_table, prop="bending", range_ratio=RANGE, cycles=CYCLES, kind=kind).share
    pin = inputs.crew.thole_diameter
    return CheckInputs(
        wanted=float(inputs.wanted_safety),
        hole=inputs.hole,
        fatigue_share=share,
        thole_diameter=None if pin is None else float(pin),
    )


def _findings(
    inputs: OarInputs,
    oars: Mapping[Side, Oar],
    cases: Mapping[Side, Cases],
    checks: Mapping[Side, tuple[Check, ...]],
    worth: Mapping[Side, Sensitivities],
    told: CheckInputs,
) -> list[Finding]:
    """What was found on oars and boards."""
    force = float(hard_start_force(inputs.loads, inputs.crew))
    found: list[Finding] = []
    for side, oar in oars.items():
        rowing = [check for check in checks[side] if check.case == "hard start" and check.what == "bending"]
        of_oar = [
            *oar_findings(
                oar,
                made=rowing,
                force=force,
                wanted_index=inputs.wanted_index,
                wanted_safety=inputs.wanted_safety,
            ),
            *counterweight_findings(oar, wanted=inputs.wanted_hand_weight),
            *governing_findings(oar, cases[side], checks[side], told, inputs.loads, inputs.crew, sens=worth[side]),
        ]
        whose = "" if len(oars) == 1 else f"{side.capitalize()} oar. "
        found += [replace(finding, text=f"{whose}{finding.text}") for finding in of_oar]
    if len(oars) == 2:
        found += pair_findings(oars["port"], oars["starboard"], force=force, wanted=inputs.wanted_safety)
    for piece in inputs.pieces:
        found += board_findings(piece.board, part=piece.kind if piece.side is None else f"{piece.side} {piece.kind}")
    found += together_findings([piece.board for piece in inputs.pieces])
    levels = ("fails", "caution", "note")
    return sorted(found, key=lambda finding: (levels.index(finding.level), finding.code in ABUSE))


def size_anew(made: OarDesign, side: Side) -> Sizing:
    """The lightest loom and blade for what is wanted; the public name is `oarkit.design.sized`.

    Parameters
    ----------
    made : OarDesign
        The oars. [record]
    side : {"port", "starboard"}
        Which of them. [text]

    Returns
    -------
    Sizing
        Sentences, and the lightest loom for several stiffness indexes. [records]

    Notes
    -----
    Source: `oarkit.strength.sizing` and `oarkit.strength.blade_sizing`.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> size_anew(design(example_project("tumblehod").inputs).oar, "port").findings[0].code
    'loom_size'
    """
    oar, inputs = made.oars[side], made.inputs
    limits = CUSTOM if inputs.loom_limits is None else inputs.loom_limits
    index = None if inputs.wanted_index is None else float(inputs.wanted_index)
    cruise = float(made.cases[side].named("cruise").forces[1])
    told = _told(inputs)
    wishes = Wishes(
        index=index,
        ratio=told.wanted,
        force=float(made.force),
        cruise=cruise,
        hole=told.hole,
        fatigue=told.fatigue_share,
    )
    pry, knock = made.cases[side].named("prying"), made.cases[side].named("tip knocked")
    blade = BladeWishes(
        bending=wishes.ratio,
        corner=wishes.ratio,
        plate=wishes.ratio,
        force=wishes.force,
        pry=float(pry.forces[0]),
        knock=float(knock.corner_force),
        arm=float(knock.corner_arm),
    )

    @cache
    def loom_at(index: float) -> LoomSize:
        return mass_against_index(oar, indexes=[index], wishes=wishes, limits=limits)[0]

    loom = _lightest(oar, wishes, limits)
    findings = tuple(
        sizing_findings(
            oar,
            wishes,
            limits,
            blade=blade,
            loom=loom,
            loom_at=loom_at,
            abuse_of=partial(_abuse_of, inputs, told),
        )
    )
    if loom is None:
        return Sizing(findings=findings, curve=())
    middle = index or loom.index
    beside = [loom_at(round(middle + off, 9)) for off in CURVE if middle + off > 0]
    curve = tuple(sorted((loom, *beside), key=lambda one: one.index))
    sizes = {(one.lock, one.neck_thickness, one.neck_width) for one in curve}
    return Sizing(findings=findings, curve=curve if len(sizes) > 1 else ())


def _lightest(oar: Oar, wishes: Wishes, limits: LoomLimits) -> LoomSize | None:
    """The lightest loom; None for a measured oar, or where the limits leave none, which the findings then say."""
    try:
        return lightest_loom(oar, wishes, limits)
    except BadDesign:
        return None


def _abuse_of(inputs: OarInputs, told: CheckInputs, oar: Oar) -> dict[str, float]:
    """Least ratio of each kind of abuse."""
    least: dict[str, float] = {}
    for check in every_check(oar, all_cases(oar, inputs.loads, inputs.crew), told):
        if check.kind == "abuse" and check.breaks:
            least[check.case] = min(float(check.ratio), least.get(check.case, math.inf))
    return least
