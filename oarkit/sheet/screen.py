"""One screen of a terminal: will it row (length, choice, hands, what is in the way), or will the oar do."""

from __future__ import annotations

import textwrap
from collections.abc import Mapping

from oarkit.design import Design, OarDesign, Side, Sizing
from oarkit.project import Project
from oarkit.rig.rules import BY_BOAT
from oarkit.sheet import content, oar, rowing, strength
from oarkit.sheet.marks import unbroken
from oarkit.strength.checks import least_in_rowing
from oarkit.stroke.hands import FIST
from oarkit.units import Display

_FIRST = ("rig.span", "rig.inboard", "rig.length", "rig.overlap", "rig.leverage_ratio", "stroke.arc")
_ON_SCREEN = ("choice", "nothing_fits", "rules_differ")  #: findings that the screen tells whatever their level


def rig_lines(project: Project, made: Design, *, columns: int = 79) -> list[str]:
    """The lines of the screen."""
    lines = [project.title, ""]
    rows = {row.name: row for _, table in content.answer(project, made) for row in table}
    told = [rows[name] for name in _FIRST]
    pairs = [f"{row.word} {row.first}" for row in told if row.first != "–"]
    lines += _wrapped("; ".join(pairs) + ".", columns, "  ")
    lines += ["", f"  {'Rules of thumb for the length, shortest first':<62}this oar is"]
    by_boat = {rule.name for rule in made.rules[: BY_BOAT + 1]}  # and the oar's own inboard × 25/7
    for name, _, makes, _, this, _ in rowing.blocks(project, made)[0].rows:
        own = name.startswith(rowing.MARK)
        if own or name in by_boat or this == "within it":
            shown = "this oar" if own else name
            lines.append(f"  {'>' if own else ' '} {shown:<35}{makes:>22}  {this}".rstrip())
    findings = rowing.findings(project, made)
    for said in findings:
        if said.code in _ON_SCREEN:
            fails = "Fails: " if said.level == "fails" else ""
            lines += ["", *_wrapped(fails + said.text, columns, "  ")]
    lines += ["", *_wrapped(_hands(project, made), columns, "  ")]
    pressing = [said for said in findings if said.level != "note" and said.code not in _ON_SCREEN]
    for said in pressing:
        lines += _wrapped(f"{content.LEVELS[said.level]}: {said.text}", columns, "  - ")
    rest = len(findings) - len(pressing) - sum(said.code in _ON_SCREEN for said in findings)
    lines += ["", f"  {rest} notes more in rig.html"]
    return lines


_OAR = (
    "oar.mass", "oar.balance", "oar.hand_weight", "oar.bench_drop", "oar.stiffness_index", "oar.first_frequency",
)  # fmt: skip
SHOWN_CHECKS = 6  #: of each group, least margin first


def oar_lines(
    title: str, made: OarDesign, display: Display, sizing: Mapping[Side, Sizing], *, columns: int = 79
) -> list[str]:
    """The lines of the screen on the oar alone: what it comes to, what governs, the nearest checks, what is wrong."""
    lines = [title]
    rows = {row.name: row for _, table in oar.answer(made, display) for row in table}
    for side in made.oars:
        prefix = "" if side == "port" else "starboard."
        told = [rows[name.replace(".", f".{prefix}", 1)] for name in _OAR if name.replace(".", f".{prefix}", 1) in rows]
        whose = "" if len(made.oars) == 1 else f"{side.capitalize()} oar: "
        words = "; ".join(f"{row.word.removesuffix(', starboard')} {row.first}" for row in told)
        words += f"; least safety ratio {float(least_in_rowing(made.checks[side]).ratio):.3f}"
        lines += ["", *_wrapped(f"{whose}{words}.", columns, "  ")]
        for kind, head in (("customary", "Under the loads of rowing"), ("abuse", "Under abuse")):
            nearest = strength.worst([check for check in made.checks[side] if check.kind == kind])[:SHOWN_CHECKS]
            lines += ["", f"  {head:<61}{'ratio':>7}  met"]
            lines += [
                f"  {f'{check.what}, {check.case}: {check.part}':<61.61}{strength.ratio(check.ratio):>7}  "
                f"{strength.VERDICT[check.level]}"
                for check in nearest
            ]
    every = [*content.said(display, made.findings), *oar.sizing(made, sizing, display)]
    shown = [said for said in every if said.level != "note" or said.code in ("governs", "feel", "loom_size")]
    lines.append("")
    for said in shown:
        level = "" if said.level == "note" else f"{content.LEVELS[said.level]}: "
        lines += _wrapped(level + said.text, columns, "  - ")
    lines += ["", f"  {len(every) - len(shown)} notes more in oar.html"]
    return lines


def _hands(project: Project, made: Design) -> str:
    """One or two sentences on hands against hands and against the body."""
    stroke, rig = made.stroke, made.rig
    parts = []
    if stroke is None:
        parts.append(f"No stroke: {made.seated.why_no_reach}.")
    else:
        clear = float(stroke.abreast.least) >= FIST
        needs = "Hands: the fists pass side by side." if clear else (
            "Hands: the fists meet abreast; clear with one "
            f"{rowing.say(stroke.abreast.needed_apart, 'm', project)} over the other, or one oar "
            f"{rowing.say(stroke.abreast.needed_lead, 'rad', project)} ahead{_as_told(project, made)}."
        )  # fmt: skip
        parts.append(needs)
        parts.append(
            f"Catch {rowing.say(stroke.catch_angle, 'rad', project)}, finish "
            f"{rowing.say(stroke.finish_angle, 'rad', project)}, hand travel "
            f"{rowing.say(stroke.hand_travel, 'm', project)}."
        )
    thigh = made.inputs.rower.body.thigh_thickness
    if rig.thigh_clearance is not None and thigh is not None and not _knees_in_the_way(made):
        known = "" if thigh.measured else f" (thigh estimated ± {rowing.say(thigh.spread, 'm', project)})"
        feathers = made.inputs.station.lock == "feathering"
        square, flat = (rowing.over_legs(made, feathered=feathered) for feathered in (False, True))
        waves = [f"{rowing.wave_of(rowing.largest_wave(made, square), project)} square"]
        waves += [f"{rowing.wave_of(rowing.largest_wave(made, flat), project)} feathered"] if feathers else []
        parts.append(
            f"Over thighs and knees {rowing.say(square, 'm', project)}{known}, blade square "
            f"{rowing.say(made.inputs.station.wave_clearance, 'm', project)} above the water; largest wave "
            f"{', '.join(waves)}."
        )
    return " ".join(parts)


def _as_told(project: Project, made: Design) -> str:
    """Whether the height or the lead between the hands that the file has is enough."""
    assert made.stroke is not None
    station = made.inputs.station
    ways = ((made.stroke.one_above, station.hands_apart, "over"), (made.stroke.one_ahead, station.hands_ahead, "ahead"))
    told = []
    for way, by, where in ways:
        does = "clears them" if float(way.least) >= FIST - 1e-6 else "lets them brush"
        told.append(f"{rowing.say(by, 'm', project)} {where} {does}")
    return f" ({told[0]}, {told[1]})"


def _knees_in_the_way(made: Design) -> bool:
    return any(finding.code == "knees_in_the_way" for finding in made.on_rowing)


def _wrapped(text: str, columns: int, indent: str) -> list[str]:
    """Text in lines of a width, sizes held together."""
    lines = textwrap.wrap(unbroken(text), columns, initial_indent=indent, subsequent_indent=" " * len(indent))
    return [line.replace("\u00a0", " ") for line in lines]
