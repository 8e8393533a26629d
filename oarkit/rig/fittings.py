"""Lock bracket and thole pins: what gives way first in a hard start, and what would help, worked on the changed rig."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from oarkit.rig.bolts import BOLT_PROOF, LARGEST_HOLE, bolt_findings, needed_section_modulus
from oarkit.rig.fastening import FittingCheck, FittingInputs, fitting_checks, loads_of
from oarkit.rig.thole import needed_diameter
from oarkit.working import BadDesign, Finding, Level, Number, Quantity

__all__ = ["FittingCheck", "FittingInputs", "fitting_checks", "fitting_findings", "loads_of"]

SPARE = 0.03  #: by which a remedy aims beyond what is wanted, for sizes are rounded
MOST = 4.0  #: no remedy asks for more than this times the present size, or less than its inverse
TENTH = 1.1  #: change by which the most helpful size is found
CLAMP_BLOCK = 0.250  #: length of rail over which a block spreads the twist, common practice [m]

#: part of a check -> what it is in a sentence, what it does when it has had enough
SAID = {
    "bolt hole": ("the wood around the bolts", "is crushed"),
    "rail": ("the rail", "breaks"),
    "washer": ("the wood under the washers", "is dented"),
    "bolt shear": ("the bolts in shear", "give way"),
    "bolt tension": ("the bolts in tension", "give way"),
    "bracket root": ("the root of the bracket", "bends"),
    "thole pin": ("the thole pin", "breaks"),
    "thole hole": ("the wood around the thole pin", "is crushed"),
}

_STATICS = "statics on the changed rig"


def _m(value: Number) -> Quantity:
    return Quantity(value=float(value), unit="m")


def _one(value: Number) -> Quantity:
    return Quantity(value=float(value), unit="1")


def _n(value: Number) -> Quantity:
    return Quantity(value=float(value), unit="N")


def fitting_findings(fittings: FittingInputs, *, wanted: Number, loom_ratio: Number | None = None) -> list[Finding]:
    """Findings on bracket and thole pins (scalars): what gives way first, and what would help most.

    Parameters
    ----------
    fittings : FittingInputs
        Bracket, thole pins, rail and forces. [record]
    wanted : float
        Safety ratio that is wanted. [1]
    loom_ratio : float, optional
        Safety ratio of the loom in the same hard start. [1]

    Returns
    -------
    list of Finding
        Sentences with their quantities. [records]

    Notes
    -----
    Source: statics on the changed rig for what would help; common practice for the order of breaking.

    Examples
    --------
    >>> from oarkit.rig.thole import TholeInputs
    >>> from oarkit.tables import grain_table, species_table
    >>> from oarkit.wood.board import Board
    >>> from oarkit.wood.species import find_species
    >>> ash = Board(species=find_species("white ash", species_table()))
    >>> tholes = TholeInputs(diameter=0.019, load_arm=0.030, hole_depth=0.040, board=ash)
    >>> found = fitting_findings(FittingInputs(
    ...     hand_force=450, hand_arm=0.56, blade_arm=1.28, lock_overhang=-0.038, thole=tholes,
    ...     grain_table=grain_table()), wanted=1.5, loom_ratio=2.4)
    >>> [f.code for f in found]
    ['fitting_weakest', 'fitting_order', 'rail_unknown']
    """
    checks = [check for check in fitting_checks(fittings) if math.isfinite(check.ratio)]
    found = []
    if checks:
        found += [_weakest(fittings, checks, float(wanted)), *_clamp(checks)]
        if loom_ratio is not None:
            found += _order(fittings, checks, float(loom_ratio), float(wanted))
    return [*found, *_sitting(fittings), *_root(fittings, float(wanted)), *_missing(fittings)]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Lever:
    """One size of the fittings that may be changed: how it is said, what it is, the fittings with another."""

    said: str
    size: float
    changed: Callable[[float], FittingInputs]
    most: float = MOST


def _levers(f: FittingInputs) -> list[_Lever]:
    bracket, rail, thole = f.bracket, f.rail, f.thole
    levers = []
    if bracket is not None and rail is not None:
        with_washers = " (washers three times that)" if bracket.washer_diameter is None else ""
        for said, record, size, name in (
            ("a rail {} thick", "rail", rail.thickness, "thickness"),
            ("a rail {} deep", "rail", rail.depth, "depth"),
            ("bolts {} apart", "bracket", bracket.bolt_spacing, "bolt_spacing"),
            (f"bolts of {{}}{with_washers}", "bracket", bracket.bolt_diameter, "bolt_diameter"),
            ("washers of {}", "bracket", bracket.washer, "washer_diameter"),
            ("a bracket root {} wide fore and aft", "bracket", bracket.root_width, "root_width"),
        ):
            if size is not None:
                levers.append(_lever(f, said, record, name, float(size)))
    if thole is not None:
        levers.append(_lever(f, "thole pins of {}", "thole", "diameter", float(thole.diameter)))
        deep = MOST if rail is None else min(MOST, float(rail.depth) / float(thole.hole_depth))
        levers.append(_lever(f, "a hole {} deep", "thole", "hole_depth", float(thole.hole_depth), deep))
    return levers


def _lever(f: FittingInputs, said: str, record: str, name: str, size: float, most: float = MOST) -> _Lever:
    def changed(factor: float) -> FittingInputs:
        return replace(f, **{record: replace(getattr(f, record), **{name: size * factor})})

    return _Lever(said=said, size=size, changed=changed, most=most)


def _ratio(f: FittingInputs, part: str) -> float:
    """Ratio of a part on changed fittings; nil where they cannot be built so, as a bolt wider than its washer."""
    try:
        checks = fitting_checks(f)
    except BadDesign:
        return 0.0
    return next(float(check.ratio) for check in checks if check.part == part)


def _factor(lever: _Lever, part: str, aim: float) -> float | None:
    """Factor on one size, nearest to one, at which a part has the ratio aimed at; None where it cannot be had."""
    if _ratio(lever.changed(lever.most), part) < aim:
        return None
    low, high = 1.0, lever.most
    for _ in range(20):
        middle = (low + high) / 2
        low, high = (middle, high) if _ratio(lever.changed(middle), part) < aim else (low, middle)
    return high


def _cure(f: FittingInputs, aim: float) -> tuple[list[tuple[str, float]], FittingInputs]:
    """Sizes, least changes first, that bring every part to the ratio aimed at; and the fittings so changed."""
    steps: list[tuple[str, float]] = []
    for _ in range(4):
        reached: list[tuple[float, float, _Lever]] = []
        for check in fitting_checks(f):
            if not reached and float(check.ratio) < aim:
                reached = _reaching(f, check.part, aim)
        if not reached:
            break
        _, factor, lever = min(reached, key=lambda found: found[0])
        steps = [step for step in steps if step[0] != lever.said] + [(lever.said, lever.size * factor)]
        f = lever.changed(factor)
    return steps, f


def _reaching(f: FittingInputs, part: str, aim: float) -> list[tuple[float, float, _Lever]]:
    """How far, by which factor, which size brings a part to the ratio aimed at and leaves the bolts well placed."""
    found = [(lever, _factor(lever, part, aim)) for lever in _levers(f)]
    return [
        (abs(math.log(factor)), factor, lever)
        for lever, factor in found
        if factor is not None and _badly_sat(lever.changed(factor)) <= _badly_sat(f)
    ]


def _badly_sat(f: FittingInputs) -> set[str]:
    """Codes of what is wrong with the bolts' places in the rail."""
    return {finding.code for finding in _sitting(f) if finding.level != "note" or finding.code == "washer_wide"}


def _weakest(f: FittingInputs, checks: list[FittingCheck], wanted: float) -> Finding:
    first, ratio = checks[0], float(checks[0].ratio)
    what, does = SAID[first.part]
    text = (
        f"Of the fittings, {what} ({first.material}; {first.place}) {does} first: {{stress}} against {{strength}} in a "
        "hard start of {force} a hand, a ratio of {ratio}"
    )
    quantities = {
        "stress": Quantity(value=float(first.stress), unit="Pa"),
        "strength": Quantity(value=float(first.strength), unit="Pa"),
        "force": _n(f.hand_force),
        "ratio": _one(ratio),
        "wanted": _one(wanted),
    }
    breaking = any(check.breaks and float(check.ratio) < 1 for check in checks)  # what is dented holds still
    level: Level = "note" if ratio >= wanted else "fails" if breaking else "caution"
    more, sizes = _enough(f, checks) if ratio >= wanted else _short(f, checks, wanted)
    plate, plate_sizes = _plate(f, first, wanted)
    return Finding(
        level=level,
        code="fitting_weakest",
        text=text + more + plate,
        quantities=quantities | sizes | plate_sizes,
        source=_STATICS,
    )


def _enough(f: FittingInputs, checks: list[FittingCheck]) -> tuple[str, dict[str, Quantity]]:
    """What would help the weakest part most, where it is strong enough as it is."""
    text, sizes = ", where {wanted} is wanted.", {}
    part = checks[0].part
    tried = [(lever, TENTH if lever.most > 1 else 1 / TENTH) for lever in _levers(f) if abs(lever.most - 1) > TENTH - 1]
    better = [
        (_ratio(lever.changed(factor), part), lever.said, lever.size * factor)
        for lever, factor in tried
        if _badly_sat(lever.changed(factor)) <= _badly_sat(f)
    ]
    if better and max(better)[0] > float(checks[0].ratio):
        ratio, said, size = max(better)
        text += f" Of changes by a tenth, {said.format('{size}')} would help most: {{better}}."
        sizes = {"size": _m(size), "better": _one(ratio)}
    if len(checks) > 1:
        text += f" Next comes {SAID[checks[1].part][0]} at {{next}}."
        sizes["next"] = _one(checks[1].ratio)
    return text, sizes


def _short(f: FittingInputs, checks: list[FittingCheck], wanted: float) -> tuple[str, dict[str, Quantity]]:
    """Which sizes would bring every part to what is wanted."""
    others = [SAID[check.part][0] for check in checks[1:] if float(check.ratio) < wanted]
    text = ", below the {wanted} wanted." + (f" Below it too: {', '.join(others)}." if others else "")
    steps, changed = _cure(f, wanted * (1 + SPARE))
    left = fitting_checks(changed)[0]
    sizes = {f"size_{i}": _m(size) for i, (_, size) in enumerate(steps)}
    said = " and ".join(step.format(f"{{size_{i}}}") for i, (step, _) in enumerate(steps))
    if float(left.ratio) >= wanted:
        return f"{text} {_capital(said)} would bring all of them to it.", sizes
    sizes["left"] = _one(left.ratio)
    if steps:
        text += f" {_capital(said)} would help, but {SAID[left.part][0]} would still be at {{left}}:"
    else:
        text += f" No size up to {MOST:g} times the present mends it:"
    closer = "bring the pin closer to the bolts, or take" if f.bracket is not None else "take"
    return f"{text} {closer} a stronger wood.", sizes


def _plate(f: FittingInputs, first: FittingCheck, wanted: float) -> tuple[str, dict[str, Quantity]]:
    """What washers were taken, and the plate that would do in their place."""
    if f.bracket is None or first.part != "washer":
        return "", {}
    text, sizes = "", {}
    if f.bracket.washer_diameter is None:
        text += " Washers of {washer} are taken, three bolt diameters, for none are given."
        sizes["washer"] = _m(f.bracket.washer)
    loads = loads_of(f)
    if float(first.ratio) < wanted and loads is not None and loads.bolt_tension is not None:
        text += " One plate along the rail, under all the bolts, does it with {area} to a bolt."
        area = wanted * (1 + SPARE) * float(loads.bolt_tension) / float(first.strength)
        sizes["area"] = Quantity(value=math.ceil(area * 1e4) / 1e4, unit="m2")  # whole square centimetres
    return text, sizes


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _clamp(checks: list[FittingCheck]) -> list[Finding]:
    if checks[0].part != "rail":
        return []
    text = (
        "The rail is the weak place, not the bolts: a clamp block inside, from rail to inwale, spreads the twist over "
        "about {block} of it (the ratio above counts no block)."
    )
    return [
        Finding(
            level="note", code="clamp_block", text=text, quantities={"block": _m(CLAMP_BLOCK)}, source="common practice"
        )
    ]


def _order(f: FittingInputs, checks: list[FittingCheck], loom: float, wanted: float) -> list[Finding]:
    breaking = [check for check in checks if check.breaks]
    if not breaking:
        return []
    first, ratio = breaking[0], float(breaking[0].ratio)
    what, does = SAID[first.part]
    sizes = {"fitting": _n(float(f.hand_force) * ratio), "loom": _n(float(f.hand_force) * loom)}
    level: Level = "note"
    if ratio < loom:
        text = (
            f"{_capital(what)} {does} before the loom: by the strengths counted at {{fitting}} a hand against {{loom}}."
        )
        if first.part == "thole pin":
            text += " That is a cheap fuse if spare pins are aboard, and a hazard if not."
        else:
            level = "note" if ratio >= wanted else "caution"
            text += " An oar is sooner replaced than that; better the loom goes first."
    else:
        text = (
            "The loom breaks before the fittings: by the strengths counted at {loom} a hand; "
            f"{what} {does} at {{fitting}}."
        )
        if f.thole is not None and first.part == "thole pin":
            text += " A pin under {fuse} would go before the loom: a cheap fuse if spares are aboard, a hazard if not."
            force = float(first.stress) * math.pi * float(f.thole.diameter) ** 3 / 32
            sizes["fuse"] = _m(needed_diameter(moment=force, strength=float(first.strength), safety=loom))
    return [Finding(level=level, code="fitting_order", text=text, quantities=sizes, source="common practice; statics")]


def _sitting(f: FittingInputs) -> list[Finding]:
    if f.rail is None:
        return []
    if f.bracket is None:
        return _pin_in_rail(f)
    athwart = f.bracket.bolt_axis == "athwart"
    return bolt_findings(
        bolts=f.bracket.bolts,
        diameter=f.bracket.bolt_diameter,
        spacing=f.bracket.bolt_spacing,
        face=f.rail.depth if athwart else f.rail.thickness,
        athwart=athwart,
        washer=f.bracket.washer,
    )


def _pin_in_rail(f: FittingInputs) -> list[Finding]:
    if f.thole is None or f.rail is None or float(f.thole.diameter) <= LARGEST_HOLE * float(f.rail.thickness):
        return []
    text = (
        "The hole of a thole pin, {pin}, takes {share} of the {thick} of the rail, which will split there; let the "
        "pins into a pad of at least {pad} across."
    )
    sizes = {
        "pin": _m(f.thole.diameter),
        "thick": _m(f.rail.thickness),
        "pad": _m(float(f.thole.diameter) / LARGEST_HOLE),
        "share": Quantity(value=float(f.thole.diameter) / float(f.rail.thickness), unit="%"),
    }
    return [Finding(level="caution", code="hole", text=text, quantities=sizes, source="choice of this project")]


def _root(f: FittingInputs, wanted: float) -> list[Finding]:
    loads, bracket = loads_of(f), f.bracket
    if loads is None or bracket is None or float(loads.yaw) == 0:
        return []
    width, thickness, strength = bracket.root_width, bracket.root_thickness, bracket.root_strength
    if width is not None and thickness is not None and strength is not None:
        return []
    taken = BOLT_PROOF if strength is None else float(strength)
    modulus = needed_section_modulus(yaw=float(loads.yaw), strength=taken, safety=wanted)
    sizes = {
        "moment": Quantity(value=float(loads.yaw), unit="N m"),
        "taken": Quantity(value=taken, unit="Pa"),
        "wanted": _one(wanted),
    }
    if thickness is None:
        needs = "a solid square of {square} or a round of {round}"
        sizes |= {"square": _m((6 * modulus) ** (1 / 3)), "round": _m((32 * modulus / math.pi) ** (1 / 3))}
    else:
        needs = "a flat bar {thick} thick and {wide} wide fore and aft"
        sizes |= {"thick": _m(thickness), "wide": _m(math.sqrt(6 * modulus / float(thickness)))}
    text = (
        f"The root of the bracket's arm bends under {{moment}}; of a metal that stands {{taken}} it takes {needs} for "
        "a ratio of {wanted}. A weld or a sharp corner there wants more."
    )
    return [Finding(level="note", code="bracket_root", text=text, quantities=sizes, source="statics; common practice")]


def _missing(f: FittingInputs) -> list[Finding]:
    if f.bracket is not None and f.rail is None:
        text = (
            "The bracket is not checked: the rail it is bolted to is not known. Give rail = thickness, depth, species."
        )
        return [Finding(level="note", code="rail_unknown", text=text, source="this program")]
    if f.bracket is not None and f.lock_above_rail is None:
        text = "The bracket is not checked: the height of the lock above the rail is not known."
        return [Finding(level="note", code="lock_height_unknown", text=text, source="this program")]
    if f.thole is not None and f.rail is None:
        text = (
            f"The hole of the thole pins is checked against the wood of the pins ({f.thole.board.species.name}), for "
            "the wood of the rail is not known. Give rail = thickness, depth, species."
        )
        return [Finding(level="note", code="rail_unknown", text=text, source="this program")]
    return []
