"""What governs an oar, what stands near to breaking under abuse, and what would help most, in sentences."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from oarkit.oar.afloat import afloat, way_up
from oarkit.oar.build import Kind, Oar
from oarkit.oar.pieces import extent
from oarkit.strength import bend
from oarkit.strength.all_cases import Cases
from oarkit.strength.along import bending_along
from oarkit.strength.beam import deflection_at, slope_at
from oarkit.strength.blade import corner_check, without
from oarkit.strength.cases import CORNER_WIDTH
from oarkit.strength.checks import BLADE_PLATE, TIP_CORNER, CheckInputs, least_in_rowing, not_checked
from oarkit.strength.cures import cure_of
from oarkit.strength.hard_start import Check, safety_ratio
from oarkit.strength.hole import hole_cures, hole_stress_in
from oarkit.strength.load import LoadCase
from oarkit.strength.sensitivity import Sensitivities
from oarkit.strength.told import CrewInputs, HoleInputs, LoadInputs
from oarkit.working import BadDesign, Finding, Level, Number, Quantity

PIN_HOLE = 0.008  #: of a pin through the loom where its size is not told, an 8 mm bolt [m], a choice of this project
FAR_OFF = 4.0  #: ratio from which a way to fail is told in one sentence with the others, a choice of this project
NEAR = 1.5  #: ratio under which abuse comes near to breaking an oar, likewise [1]
_HARD: tuple[Kind, ...] = ("tip", "edge", "face", "strip", "spline")  #: pieces that may be laid to stiffen a tip
_ADVICE = {
    "caught crab": "Let go of the handle, and keep speed down in weed and shallows.",
    "steering": "Steer with a paddle or a sweep made for it.",
    "prying": "Pole off with something else, or push with the handle end held close.",
    "stepped on": "Stow oars where nobody treads.",
    "stepped on at its weakest": "Stow oars where nobody treads.",
    "tip knocked": "Fend off with a fender, and set oars down on their blades gently.",
    "tip dragged": "Lift the tip clear of the bottom.",
    "push-off": "Push off with the handle, or with a boathook.",
}


#: Codes of the findings on abuse, by which no design fails.
ABUSE = frozenset({"tip_corner", *(case.replace(" ", "_").replace("-", "_") for case in _ADVICE)})


def _one(value: Number) -> Quantity:
    return Quantity(value=float(value), unit="1")


def _m(value: Number) -> Quantity:
    return Quantity(value=float(value), unit="m")


def _pa(value: Number) -> Quantity:
    return Quantity(value=float(value), unit="Pa")


def _finding(level: Level, code: str, text: str, quantities: Mapping[str, Quantity]) -> Finding:
    return Finding(
        level=level, code=code, text=text, quantities=dict(quantities), source="worked on this oar's own stations"
    )


def governing_findings(
    oar: Oar,
    cases: Cases,
    made: Sequence[Check],
    told: CheckInputs,
    loads: LoadInputs,
    crew: CrewInputs,
    *,
    sens: Sensitivities | None = None,
) -> list[Finding]:
    """What governs, what abuse comes near to, what a hole costs, how the oar bends in service and floats.

    Parameters
    ----------
    oar : Oar
        The oar (scalars). [record]
    cases : Cases
        Its load cases. [record]
    made : sequence of Check
        Its checks. [records]
    told : CheckInputs
        Wanted ratio, hole, fatigue. [record]
    loads : LoadInputs
        Magnitudes told. [record]
    crew : CrewInputs
        Boat and rower. [record]
    sens : Sensitivities, optional
        Those of the hard start, where they are worked already. [records]

    Returns
    -------
    list of Finding
        Sentences with their quantities. [records]

    Notes
    -----
    Source: the checks and sensitivities of this oar; cautions are common practice.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> from oarkit.strength.all_cases import all_cases
    >>> from oarkit.strength.checks import every_check
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> known = all_cases(oar)
    >>> found = governing_findings(oar, known, every_check(oar, known), CheckInputs(), LoadInputs(), CrewInputs())
    >>> found[0].code
    'governs'
    """
    return [
        _governs(oar, cases, made, loads, crew, told, sens),
        *_abuse(oar, cases, made, loads, crew, told),
        *_tip(oar, cases.named("tip knocked"), told.wanted),
        *_customary(made),
        _far_off(made),
        *_dents(made),
        *_hole(oar, cases, told, crew),
        _service(oar, cases),
        *_adrift(oar, crew),
        *_not_checked(oar, cases),
    ]


def _where(check: Check) -> str:
    """The piece and the place, in words with a gap for the distance."""
    return f"{check.part} ({check.wood}) {{place}} from the handle end"


def _told_of(check: Check) -> dict[str, Quantity]:
    known = {"ratio": _one(check.ratio), "place": _m(check.place), "asked": _one(check.asked)}
    return known if check.mean_ratio is None else known | {"mean": _one(check.mean_ratio)}


def _governs(
    oar: Oar,
    cases: Cases,
    made: Sequence[Check],
    loads: LoadInputs,
    crew: CrewInputs,
    told: CheckInputs,
    sens: Sensitivities | None,
) -> Finding:
    worst = least_in_rowing(made)
    text = (
        f"Of the loads of rowing the {worst.case} governs: {worst.what} of the {_where(worst)}, at a ratio of {{ratio}}"
        + (" ({mean} for average wood)" if worst.mean_ratio is not None else "")
        + ", {asked} asked for."
    )
    more, quantities = cure_of(oar, worst, cases, loads, crew, told, sens=sens)
    return _finding("note", "governs", text + more, {**_told_of(worst), **quantities})


def _abuse(
    oar: Oar, cases: Cases, made: Sequence[Check], loads: LoadInputs, crew: CrewInputs, told: CheckInputs
) -> list[Finding]:
    """One finding for every kind of abuse that comes nearer to breaking than is wanted, nearest first."""
    found, seen, cured = [], set(), False
    abused = [check for check in made if check.kind == "abuse" and check.breaks and check.level != "ok"]
    for check in sorted(abused, key=lambda check: float(check.ratio)):
        if check.case in seen or check.what == TIP_CORNER:
            continue  # the corner is told apart, with its hardwood and without
        seen.add(check.case)
        near = float(check.ratio) < NEAR
        breaks = (
            "would break it"
            if float(check.ratio) < 1
            else "comes near to breaking it"
            if near
            else "is not as well borne as is asked, {asked}"
        )
        text = f"{_NAMES[check.case]} {breaks}: {check.what} of the {_where(check)}, at a ratio of {{ratio}}."
        quantities = _told_of(check)
        if check.case == "caught crab":
            more, sizes = _crab(cases.named("caught crab"))
            text, quantities = text + more, quantities | sizes
        if not check.case.startswith("stepped") and not cured:
            cured = True
            more, sizes = cure_of(oar, check, cases, loads, crew, told)
            text, quantities = text + more, quantities | sizes
        text += f" {_ADVICE[check.case]}" if check.case in _ADVICE else ""
        level: Level = "fails" if float(check.ratio) < 1 else "caution"
        found.append(_finding(level, check.case.replace(" ", "_").replace("-", "_"), text, quantities))
    return found


_NAMES = {
    "caught crab": "A caught crab, the blade held fast and the boat running on,",
    "steering": "Steering with it in a run",
    "prying": "Prying with it over the rail",
    "stepped on": "Stepping on it where it lies across two thwarts",
    "stepped on at its weakest": "Stepping on it where it is weakest",
    "tip knocked": "A knock on a corner of the tip",
    "tip dragged": "Dragging the tip over the bottom",
    "push-off": "Pushing off with it one-handed",
}


def _crab(case: LoadCase) -> tuple[str, dict[str, Quantity]]:
    text = " That is an upper bound, {force} at the blade: open water alone holds {held}."
    return text, {
        "force": Quantity(value=abs(float(case.forces[0])), unit="N"),
        "held": case.beside["open water holds"],
    }


def _tip(oar: Oar, case: LoadCase, wanted: float) -> list[Finding]:
    """The tip's corner under a knock, with its hardwood and without."""
    arm = {"force": case.corner_force, "arm": case.corner_arm}
    whole = corner_check(oar, **arm)
    if whole is None:
        return []
    text = "Knocked on a corner with {force}, the tip has a ratio of {ratio} across the grain ({wood})"
    text = text.replace("{wood}", str(whole.wood))
    quantities = {"force": Quantity(value=float(case.corner_force), unit="N"), "ratio": _one(whole.ratio)}
    reaching = [p for p in oar.pieces if float(extent(p, oar.shape)[1]) > float(oar.shape.length) - CORNER_WIDTH]
    kinds = [kind for kind in _HARD if any(piece.kind == kind for piece in reaching)]
    bare = oar
    for kind in kinds:
        bare = without(bare, kind)
    plain = corner_check(bare, **arm) if kinds else None
    if plain is not None:
        text += f", and {{bare}} without its {_listed(kinds)}"
        quantities["bare"] = _one(plain.ratio)
    text += "."
    level: Level = "note" if float(whole.ratio) >= wanted else "caution" if float(whole.ratio) >= 1 else "fails"
    if level != "note":
        text += " Hardwood laid across the tip, a spline with its grain across, glass cloth or copper takes that load."
    return [_finding(level, "tip_corner", text, quantities)]


def _customary(made: Sequence[Check]) -> list[Finding]:
    """Customary loads other than the hard start's bending that are not met."""
    found = []
    for check in made:
        told_elsewhere = check.case in ("hard start", "proof load") and check.what == "bending"
        if check.kind == "customary" and check.breaks and not check.ok and not told_elsewhere:
            text = (
                f"Under the {check.case} the {check.what} of the {_where(check)} has a ratio of {{ratio}}, "
                "{asked} asked for."
            )
            found.append(_finding("fails", "customary", text, _told_of(check)))
    return found


def _far_off(made: Sequence[Check]) -> Finding:
    """What does not govern, with the nearest of it."""
    ways = ("shear", "glue line", "torsion", "column", BLADE_PLATE, "fatigue")
    nearest = {
        what: min((check for check in made if check.what == what), key=lambda check: float(check.ratio), default=None)
        for what in ways
    }
    told = [check for check in nearest.values() if check is not None]
    far = [check for check in told if float(check.ratio) >= FAR_OFF]
    near = [check for check in told if float(check.ratio) < FAR_OFF]
    text, quantities = "", {}
    if far:
        least = min(far, key=lambda check: float(check.ratio))
        names = _listed([check.what for check in far])
        nearest_of = f"the nearest of them, {least.what}" if len(far) > 1 else "it"
        text = (
            f"{names[0].upper()}{names[1:]} {'do' if len(far) > 1 else 'does'} not govern: {nearest_of} has a ratio of "
            f"{{far}} in {_named(least)}."
        )
        quantities["far"] = _one(least.ratio)
    for number, check in enumerate(near):
        text += f" {check.what[0].upper()}{check.what[1:]} is at {{near_{number}}} in {_named(check)}."
        quantities[f"near_{number}"] = _one(check.ratio)
    return _finding("note", "far_off", text.strip(), quantities)


def _named(check: Check) -> str:
    return {"tip knocked": "a knock on the tip", "push-off": "a push-off", "caught crab": "a caught crab"}.get(
        check.case, check.case
    )


def _listed(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _dents(made: Sequence[Check]) -> list[Finding]:
    """Bare wood at the lock or on a thole, with and without leather, in a hard start."""
    pressed = {check.what: check for check in made if check.case == "hard start" and check.what.startswith("bearing")}
    if not pressed:
        return []
    leather, bare = pressed["bearing in leather"], pressed["bearing, bare"]
    text = (
        f"In a hard start the loom ({bare.wood}) bears {{bare}} in the lock without leather and {{leathered}} with it, "
        "against {strength} from which a dent stays."
    )
    quantities = {"bare": _pa(bare.stress), "leathered": _pa(leather.stress), "strength": _pa(bare.strength)}
    thole = pressed.get("bearing, bare on a thole")
    if thole is not None:
        text += " Bare on a round thole it is {thole} at first: the wood dents until the contact has grown; leather it."
        quantities["thole"] = _pa(thole.stress)
    level: Level = "note" if float(leather.ratio) >= 1 else "caution"
    return [_finding(level, "bearing", text, quantities)]


def _hole(oar: Oar, cases: Cases, told: CheckInputs, crew: CrewInputs) -> list[Finding]:
    """What a hole at the lock costs, and what drilling the other way, a bush or a thicker loom buys."""
    if told.hole is None and crew.lock != "pinned":
        return []
    hole = told.hole or HoleInputs(diameter=PIN_HOLE)
    cures = hole_cures(oar, hole)
    upright = hole.along == "neutral axis"
    way, other = ("upright", "fore and aft") if upright else ("fore and aft", "upright")
    text = (
        ("If its pin goes through the loom, a" if told.hole is None else "A")
        + f" hole of {{hole}} drilled {way} raises the stress at the lock {{rise}} times"
        + ("" if hole.bush is None else ", bushed")
        + f", to a ratio of {{ratio}} in a hard start; drilled {other}, {{other}} times; "
        + ("" if hole.bush is not None or cures.bush is None else "with a bush of {bush} round it, {bushed} times; ")
        + "a loom of {stiff} would keep its stiffness, one of {strong} its strength but for the crowding of stress. "
        + (
            f"Drilled {way} it costs less."
            if float(cures.rise) <= float(cures.rise_other_way)
            else f"Drill it {other}."
        )
        + " Seal the hole, and keep it three diameters from any end of a glue joint; a strap or wedge needs none."
    )
    start = cases.named("hard start")
    at_pin = min(
        float(safety_ratio(strength=piece.wood.strength, stress=hole_stress_in(oar, start, hole, stress=stress)))
        for piece, stress in zip(oar.pieces, bending_along(oar, start), strict=True)
    )
    quantities = {
        "hole": _m(hole.diameter), "rise": _one(cures.rise), "ratio": _one(at_pin), "other": _one(cures.rise_other_way),
        "bush": _m(cures.bush or 0.0), "bushed": _one(cures.rise_bushed), "stiff": _m(cures.for_stiffness),
        "strong": _m(cures.for_strength),
    }  # fmt: skip
    level: Level = "note" if at_pin >= told.wanted else "caution"
    return [_finding(level, "hole", text, quantities)]


def _service(oar: Oar, cases: Cases) -> Finding:
    start, bench = cases.named("hard start"), cases.named("bench test")
    middle = oar.shape.mid_blade
    outboard, inboard, shear = bend.drop_shares(oar)
    whole = outboard + inboard + shear
    text = (
        "In a hard start the middle of the blade lags {lag}, {angle} at the pin, and its face turns {turn}. On the "
        "bench the tip drops {tip} where mid-blade drops {drop}; {out} of that is bending outboard of the lock, {in} "
        "inboard, {shear} shear: hold the handle down as the test says, or the inboard share is lost."
    )
    lag = float(deflection_at(oar, start, place=middle))
    quantities = {
        "lag": _m(lag),
        "angle": Quantity(value=float(np.arctan2(lag, float(oar.blade_arm))), unit="rad"),
        "turn": Quantity(value=abs(float(slope_at(oar, start, place=middle))), unit="rad"),
        "tip": _m(deflection_at(oar, bench, place=oar.shape.length)),
        "drop": _m(whole),
        **{name: Quantity(value=float(share / whole), unit="%") for name, share in
           (("out", outboard), ("in", inboard), ("shear", shear))},
    }  # fmt: skip
    return _finding("note", "service", text, quantities)


def _adrift(oar: Oar, crew: CrewInputs) -> list[Finding]:
    """How the oar floats when it is let go."""
    try:
        flat = float(way_up(oar, water_density=crew.water_density)) > 0
        rest = afloat(oar, lies="flat" if flat else "on edge", water_density=crew.water_density)
    except BadDesign as error:
        return [_finding("caution", "adrift", f"Let go, it is lost: {error}.", {})]
    text = (
        f"Let go, it floats with its blade {'flat on the water' if flat else 'on edge'}, {{share}} of it under, the "
        f"{'handle' if rest.handle_low else 'blade'} end lower."
    )
    return [_finding("note", "adrift", text, {"share": Quantity(value=float(rest.share), unit="%")})]


def _not_checked(oar: Oar, cases: Cases) -> list[Finding]:
    told = [f"{name}: {why}" for name, why in cases.not_made.items()]
    told += [f"{what} of {_listed(list(woods))}: the tables have no value" for what, woods in not_checked(oar).items()]
    if not told:
        return []
    return [_finding("note", "not_checked", f"Not checked: {'; '.join(told)}.", {})]
