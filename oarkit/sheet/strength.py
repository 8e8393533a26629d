"""The part of the sheet that answers whether the oar will do: tables of words, once for HTML, PDF and the terminal."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from oarkit.design import OarDesign, Side, Sizing
from oarkit.oar.build import Oar
from oarkit.oar.mass import mass, part_masses, piece_masses
from oarkit.sheet.rowing import MARK, Block
from oarkit.strength.all_cases import case_quantities
from oarkit.strength.beam import moment_along
from oarkit.strength.hard_start import Check
from oarkit.strength.sensitivity import MM, Sensitivities, Sensitivity
from oarkit.units import Display, both
from oarkit.units.read import INCH, POUND, POUND_FORCE
from oarkit.working import Number, Quantity

OUNCE = POUND / 16  #: [kg]
VERDICT = {"ok": "yes", "caution": "near", "fails": "NO"}
_EACH_CASE = ("bending",)  #: told for every case; of the other ways to fail only the worst case is told


def blocks(made: OarDesign, display: Display, sizing: Mapping[Side, Sizing]) -> list[Block]:
    """Every table on strength: rowing, abuse, what is only dented, the loads; port first."""
    told: list[Block | None] = []
    for side in made.oars:
        whose = "" if len(made.oars) == 1 else f", {side} oar"
        checks = made.checks[side]
        rowing = [check for check in checks if check.kind == "customary"]
        told.append(_checks(f"Under the loads of rowing{whose}", _ROWING, worst(rowing), display))
        abuse = [check for check in checks if check.kind == "abuse"]
        told.append(_checks(f"Under abuse{whose}", _ABUSE, worst(abuse), display))
        told.append(_looms(sizing[side], whose, display))
        told.append(_masses(made.oars[side], whose, display))
        told.append(_worth(made.sensitivities[side], whose, display))
        told.append(_cases(made, side, whose, display))
    return [block for block in told if block is not None and block.rows]


_ROWING = (
    "Ratio: lower 5 % strength in service over stress; mean: the same for average wood, of which half of all boards "
    "are weaker. Asked: what the file wants; a proof load is asked for as much less as it exceeds the hard start, "
    "never less than 1. Glue lines parallel to the blade face are set against 1.0 MPa, the least working shear of any "
    "usual glue, in transverse shear; torsion is told of the wood, whatever joint lies in it. Bearing is denting, not "
    "breaking."
)
_ABUSE = (
    "Loads that no oar is made for and many meet. Met: yes from the ratio asked, near from a ratio of 1, NO below it: "
    "then it breaks once in a while, and not always the first time."
)


def worst(checks: Sequence[Check]) -> list[Check]:
    """The worst piece of every case in bending, and the worst case of every other way to fail, least margin first."""
    least: dict[tuple[str, str], Check] = {}
    for check in checks:
        key = (check.what, check.case if check.what in _EACH_CASE else "")
        if key not in least or float(check.ratio) < float(least[key].ratio):
            least[key] = check
    return sorted(least.values(), key=lambda check: (not check.breaks, float(check.ratio) / float(check.asked)))


def _say(value: Number | None, unit: str, display: Display) -> str:
    return "–" if value is None else both(Quantity(value=value, unit=unit), display)[0]


def ratio(value: Number | None) -> str:
    """A ratio as printed: two places, or one from ten up."""
    if value is None:
        return "–"
    number = float(value)
    return f"{number:.2f}" if number < 10 else f"{number:.0f}" if number < 1000 else "over 1000"


def _checks(title: str, lead: str, checks: Sequence[Check], display: Display) -> Block:
    rows = [
        (
            check.what,
            check.case + ("" if check.plane == "stroke" else ", on edge"),
            f"{check.part} of {check.wood}, {_say(check.place, 'm', display)}",
            f"{float(check.stress) / 1e6:.2f}",
            f"{float(check.strength) / 1e6:.1f}",
            ratio(check.ratio),
            ratio(check.mean_ratio),
            ratio(check.asked),
            VERDICT[check.level],
        )
        for check in checks
    ]
    return Block(
        title=title,
        lead=lead,
        heads=("How", "Under", "Where, from the handle end", "Stress MPa", "Strength MPa", "Ratio", "Mean",
               "Asked", "Met"),
        rows=tuple(rows),
        numbers=(3, 4, 5, 6, 7),
        widths=(0.17, 0.16, 0.25, 0.075, 0.09, 0.065, 0.08, 0.065, 0.045),
    )  # fmt: skip


def _looms(sizing: Sizing, whose: str, display: Display) -> Block | None:
    """The lightest loom for each of several stiffness indexes."""
    if not sizing.curve:
        return None
    rows = [
        (
            f"{one.index:.3f}",
            *(_say(size, "m", display) for size in (one.lock, one.neck_thickness, one.neck_width)),
            _say(one.mass, "kg", display),
            ratio(one.ratio),
            "yes" if one.fits else "NO",
        )
        for one in sizing.curve
    ]
    return Block(
        title=f"What stiffness costs: the lightest loom for each index{whose}",
        lead="Blade, boards and lengths as they are. An index is bench drop over blade arm: less is stiffer. Ratio: "
        "the least of a hard start. Where an index comes out under the one looked for, strength decides.",
        heads=("Index", "Lock", "Neck, thick", "Neck, wide", "Mass", "Ratio", "Meets all"),
        rows=tuple(rows),
        numbers=(0, 1, 2, 3, 4, 5),
        widths=(0.12, 0.15, 0.16, 0.16, 0.15, 0.12, 0.14),
    )


def _masses(oar: Oar, whose: str, display: Display) -> Block:
    """Mass by part of the oar and by piece of wood."""
    parts, total = part_masses(oar), float(mass(oar))
    told = [
        ("wood inboard of the pin line", parts.inboard),
        ("wood from there to the blade root", parts.outboard),
        ("wood of the blade", parts.blade),
        ("leather", parts.leather),
        *(
            (f"all of the {piece.kind} of {piece.wood.name}", each)
            for piece, each in zip(oar.pieces, piece_masses(oar), strict=True)
        ),
    ]
    rows = [
        (what, *both(Quantity(value=each, unit="kg"), display), f"{100 * float(each) / total:.0f} %")
        for what, each in told
    ]
    return Block(
        title=f"Where the weight is{whose}",
        lead="Once by place, once by piece; finished wood without glue or finish.",
        heads=("Part", "Mass", "", "Share"),
        rows=tuple(rows),
        numbers=(1, 2, 3),
        widths=(0.55, 0.15, 0.15, 0.15),
    )


def _worth(sens: Sensitivities, whose: str, display: Display) -> Block:
    """What a millimetre planed off is worth at each zone, and what 10 % of a modulus."""
    inches = display == "ft-in"
    by, per = ("1/16 in off", INCH / 16 / MM) if inches else ("1 mm off", 1.0)
    rows = [
        (
            f"{one.what} of the {one.zone}" if one.what != "modulus" else f"modulus of the {one.zone}",
            by if one.per == "mm" else "10 % more",
            _change(one, "drop", "m", per, inches),
            _change(one, "tip_drop", "m", per, inches),
            _change(one, "mass", "kg", per, inches),
            _change(one, "balance", "m", per, inches),
            _change(one, "hand_weight", "N", per, inches),
            _ratio_change(float(one.rate.ratio) * (per if one.per == "mm" else 1.0)) + (" *" if one.kink else ""),
        )
        for one in sens.each
        if one.usual
    ]
    kinked = any(row[-1].endswith("*") for row in rows)
    return Block(
        title=f"What {'a sixteenth' if inches else 'a millimetre'} is worth{whose}",
        lead="Change of drop under 10 kg at mid-blade, under 7 lb at the tip, of mass, balance, weight in the hand and "
        "least ratio of the hard start, for each of them planed off altogether (half from either face); as much the "
        "other way for wood left on. A plank stiffer by 10 % counts with the same strength."
        + (" * toward planing; wood left on there does not help as much." if kinked else ""),
        heads=("What", "By", "Drop, 10 kg", "Drop, 7 lb", "Mass", "Balance", "In the hand", "Least ratio"),
        rows=tuple(rows),
        numbers=(2, 3, 4, 5, 6, 7),
        widths=(0.29, 0.11, 0.11, 0.11, 0.09, 0.10, 0.10, 0.09),
    )


def _ratio_change(value: Number) -> str:
    shown = f"{float(value):+.3f}".replace("-", "−")
    return "–" if shown.endswith("0.000") else shown


#: How small things are told in inches: factor, form and word by SI unit.
_SMALL = {
    "m": (1 / INCH, ".3f", "in"),
    "kg": (1 / OUNCE, ".2f", "oz"),
    "N": (1 / POUND_FORCE, ".2f", "lbf"),
}


def _change(one: Sensitivity, name: str, unit: str, per: float, inches: bool) -> str:
    """A change with its sign; none where it does not show. Inches in decimals, ounces and pounds for small things."""
    value = float(getattr(one.rate, name)) * (per if one.per == "mm" else 1.0)
    if inches:
        factor, form, word = _SMALL[unit]
        shown = f"{value * factor:{form}} {word}".replace("-", "−")
    else:
        shown = _say(value, unit, "mm")
    if not any(sign in shown for sign in "123456789"):
        return "–"
    return shown if shown.startswith("−") else f"+{shown}"


def _cases(made: OarDesign, side: Side, whose: str, display: Display) -> Block:
    oar = made.oars[side]
    rows = []
    for case in made.cases[side].made:
        moment = np.abs(moment_along(oar, case)) if case.places else np.zeros(1)
        at = int(np.argmax(moment))
        bends = float(moment[at]) > 1e-9
        acting = case_quantities(oar, case)
        forces = ", ".join(f"{name} {_say(size.value, size.unit, display)}" for name, size in acting.items())
        rows.append(
            (
                case.name + ("" if case.plane == "stroke" else ", on edge"),
                forces,
                _say(float(moment[at]), "N m", display) if bends else "–",
                _say(float(oar.s[at]), "m", display) if bends else "–",
                case.basis,
            )
        )
    return Block(
        title=f"The loads{whose}",
        lead="Forces are those on the oar, and where it is held. Every size may be changed under [loads]. No "
        "measurement of such forces in small fixed-seat boats is published.",
        heads=("Load", "Forces", "Largest moment", "At", "What it rests on"),
        rows=tuple(rows),
        numbers=(2, 3),
        widths=(0.18, 0.27, 0.12, 0.115, 0.315),
    )


__all__ = ["MARK", "VERDICT", "Block", "blocks", "ratio", "worst"]
