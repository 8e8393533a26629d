"""The spine itself: one readable function from inputs to a design."""

from __future__ import annotations

import numpy as np

from oarkit.design import station as half
from oarkit.design.locks import fittings_of, lock_findings, note_seat, placed_values
from oarkit.design.oar import work_out_oar
from oarkit.design.records import RESULT_UNITS, Design, Inputs, OarInputs, RowerInputs, Value
from oarkit.fit import Choice
from oarkit.fit.advice import choice_findings
from oarkit.fit.limits import Candidate
from oarkit.rig import arms
from oarkit.rig.advice import rig_findings
from oarkit.rig.fittings import fitting_checks, loads_of
from oarkit.rig.ranges import placed
from oarkit.rig.rules import length_rules, why_rules_differ
from oarkit.rig.station import Rig
from oarkit.rower.body import estimate_findings
from oarkit.rower.seated import Seated
from oarkit.rower.sizes import body_findings
from oarkit.strength import hard_start
from oarkit.strength.told import CrewInputs
from oarkit.stroke.advice import UNROWABLE, stroke_findings
from oarkit.stroke.station import Stroke
from oarkit.working import Finding, Line, Number, Working


def work_out(inputs: Inputs) -> Design:
    """From a station, a rower and boards to rig, oars and checks; the public name is `oarkit.design`.

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
    >>> from oarkit import example_project
    >>> made = work_out(example_project("quillet").inputs)
    >>> round(float(made.values["rig.span"].value), 4)
    1.1049
    """
    choice = half.choice_of(inputs)
    inputs = half.settled(inputs, choice)
    rig = half.rig_of(inputs)
    work = Working()
    half.note_heights(work, inputs, rig)
    seated, stroke = half.stroke_of(inputs, rig, work)
    oar = work_out_oar(oar_inputs(inputs, rig))
    force = oar.force
    work("rig.button_mark", arms.button_mark, inboard=rig.inboard, lock_half_width=inputs.station.lock_half_width)
    note_seat(work, inputs, force)
    fastened = fittings_of(inputs, rig, force)
    loads = loads_of(fastened)
    every = fitting_checks(fastened)
    fittings = tuple(check for check in every if np.isfinite(check.ratio))  # what nothing loads needs no check
    bracket = () if loads is None else loads.working
    lines = (*rig.working, *work.lines, *oar.working, *bracket, *(line for check in fittings for line in check.working))
    loom_ratio = float(oar.values["strength.least_ratio"].value or 0.0)
    own = half.own_rig(inputs, rig)
    rowing = _on_rowing(inputs, rig, choice, own, seated, stroke, force, loom_ratio)
    station = inputs.station
    split = {"span": rig.span, "beam": station.beam, "inboard": rig.inboard}
    return Design(
        inputs=inputs,
        rig=rig,
        choice=choice,
        own=own,
        seated=seated,
        stroke=stroke,
        rules=length_rules(**split, boat_length=station.boat_length),
        placed=placed(inputs.ranges, placed_values(inputs, rig, seated)),
        fittings=fittings,
        oar=oar,
        values=_values(lines, rig, inputs.rower, seated),
        findings=tuple(_sorted([*rowing, *oar.findings])),
        on_rowing=tuple(rowing),
        working=lines,
    )


def oar_inputs(inputs: Inputs, rig: Rig) -> OarInputs:
    """What the oar part needs, once the rig has fixed length and inboard.

    Parameters
    ----------
    inputs : Inputs
        Everything given, in SI. [record]
    rig : Rig
        The rig. [record]

    Returns
    -------
    OarInputs
        Outline, boards, loads and crew. [record]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> made = design(example_project("quillet").inputs)
    >>> round(float(oar_inputs(made.inputs, made.rig).shape.length), 3)
    2.286
    """
    station, thole = inputs.station, inputs.fixtures.thole
    return OarInputs(
        shape=inputs.sizes.at(length=rig.length, inboard=rig.inboard),
        pieces=inputs.pieces,
        leather=inputs.leather,
        grain_table=inputs.grain_table,
        fatigue_table=inputs.fatigue_table,
        loads=inputs.loads,
        crew=CrewInputs(
            boat_mass=inputs.fixtures.boat_mass,
            boat_length=station.boat_length,
            rower_mass=inputs.rower.mass,
            span=rig.span,
            water_density=inputs.water_density,
            thole_diameter=None if thole is None else thole.diameter,
            lock=station.lock,
        ),
        hole=inputs.hole,
        loom_limits=inputs.loom_limits,
        wanted_index=inputs.wanted_index,
        wanted_safety=inputs.wanted_safety,
        wanted_hand_weight=inputs.wanted_hand_weight,
    )


def _values(lines: tuple[Line, ...], rig: Rig, rower: RowerInputs, seated: Seated) -> dict[str, Value]:
    """Named results: those that the working holds, then the fixed names that do not apply, with the reason."""
    given = {
        "rig.length": rig.length,
        "rig.lock_above_water": rig.lock_above_water,
        "rig.lock_above_seat": rig.lock_above_seat,
        "stroke.reach_catch": rower.reach_catch,
        "stroke.reach_finish": rower.reach_finish,
    }
    values = {
        name: Value(value=value, unit="m", source="given, chosen under the limits, or summed from the lengths given")
        for name, value in given.items()
        if value is not None
    }
    if seated.brace_from_seat_edge is not None:
        values["rower.brace_from_seat_edge"] = Value(
            value=seated.brace_from_seat_edge, unit="m", source="given, or plane geometry from the bend of the knee"
        )
    values |= {line.name: Value(value=line.result.value, unit=line.result.unit, source=line.source) for line in lines}
    for name, size in rower.body.known().items():
        source = "measured" if size.measured else "estimated from stature and mass, ANSUR II, NATICK/TR-15/007 (2014)"
        values[f"rower.{name}"] = Value(value=size.value, unit="m", source=source)
        values[f"rower.{name}_spread"] = Value(value=size.spread, unit="m", source=f"{source}; half the 5 to 95 % band")
    reasons = {
        "rig.lock_offset": "the handles do not cross",
        "rig.thigh_clearance": "no thigh thickness was given",
        "rig.largest_wave_square": "no thigh thickness was given",
        "rig.largest_wave_feathered": "no thigh thickness was given",
    }
    for name, unit in RESULT_UNITS.items():
        if name not in values:
            reason = reasons.get(name, seated.why_no_reach if name.startswith("stroke.") else "not worked out")
            values[name] = Value(value=None, unit=unit, source="", reason=reason)
    return {name: values[name] for name in [*RESULT_UNITS, *(n for n in values if n not in RESULT_UNITS)]}


def _on_rowing(
    inputs: Inputs,
    rig: Rig,
    choice: Choice,
    own: Candidate,
    seated: Seated,
    stroke: Stroke | None,
    force: Number,
    loom_ratio: float,
) -> list[Finding]:
    """What was found on rig, rower, stroke and locks."""
    station, body = inputs.station, inputs.rower.body
    found = rig_findings(
        rig,
        wave_clearance=station.wave_clearance,
        blade_width=inputs.sizes.blade_width,
        lock=station.lock,
        upper_hand=station.upper_hand,
        hands_apart=station.hands_apart,
        longest_stowed=station.longest_stowed,
    )
    split = {"span": rig.span, "beam": station.beam, "inboard": rig.inboard, "length": rig.length}
    found.append(why_rules_differ(**{name: float(value) for name, value in split.items()}))
    on_stroke = (
        []
        if stroke is None
        else stroke_findings(
            stroke,
            rig,
            seated,
            elbow=body.elbow_height,
            hands_apart=station.hands_apart,
            upper_hand=station.upper_hand,
            lock=station.lock,
            catch_limit=station.catch_limit,
        )
    )
    found += choice_findings(
        choice,
        own,
        left_open=inputs.left_open,
        beam=station.beam,
        rowable=all(finding.level != "fails" for finding in on_stroke if finding.code in UNROWABLE),
        bracket=inputs.fixtures.bracket is not None,
    )
    found += on_stroke
    found += body_findings(body, grip=inputs.sizes.grip_diameter, stature=inputs.rower.stature)
    found += estimate_findings(body.thigh_thickness)
    found += hard_start.force_findings(
        rower_mass=float(inputs.rower.mass), force=float(force), told=inputs.loads.hard_start is not None
    )
    found += lock_findings(inputs, rig, force, loom_ratio=loom_ratio)
    return _sorted(found)


def _sorted(found: list[Finding]) -> list[Finding]:
    """Most pressing first."""
    return sorted(found, key=lambda finding: ("fails", "caution", "note").index(finding.level))
