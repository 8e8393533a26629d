"""What an oar's stiffness, strength and weight mean, and what would help, from the oar's own sensitivities."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from oarkit.oar.build import Oar, build_oar
from oarkit.oar.mass import balance, hand_weight, mass
from oarkit.strength.bend import bench_drop, stiffness_index
from oarkit.strength.hard_start import Check, checks
from oarkit.working import BadDesign, Finding, Number, Quantity

FEEL = ((0.03, "stiff"), (0.05, "lively"), (0.07, "limber"), (0.08, "between limber and whippy"), (math.inf, "whippy"))
INDEX_TOLERANCE = 0.05  #: an index within this share of the wanted one is met, the tolerance of a matched pair
HEAVY_HAND = 20.0  #: weight in the hand that is called heavy [N], common practice
BALANCE_RANGE = (0.25, 0.42)  #: balance outboard of the pin on oars of 7 to 9 ft [m], common practice
PAIR_TOLERANCE = {"drop": 0.05, "mass": 0.03, "balance": 0.010}  #: of a matched pair; the last in m, common practice
_STEP = 0.01


def _m(value: Number) -> Quantity:
    return Quantity(value=float(value), unit="m")


def _one(value: Number) -> Quantity:
    return Quantity(value=float(value), unit="1")


def scaled(oar: Oar, factor: float) -> Oar:
    """The same oar with lock diameter and neck scaled, everything else as it was.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    factor : float
        New size over old. [1]

    Returns
    -------
    Oar
        The scaled oar. [record]

    Notes
    -----
    Source: derived; the finite differences of the advice are taken with it.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bool(bench_drop(scaled(oar, 1.05)) < bench_drop(oar))
    True
    """
    sizes = {name: getattr(oar.shape, name) * factor for name in ("lock_diameter", "neck_thickness", "neck_width")}
    if not oar.shape.square_inboard:
        sizes["inboard_size"] = oar.shape.inboard_size * factor
    return build_oar(replace(oar.shape, **sizes), oar.pieces, oar.leather)


def oar_findings(
    oar: Oar, *, made: Sequence[Check], force: Number, wanted_index: Number | None, wanted_safety: Number
) -> list[Finding]:
    """Findings on one oar (scalars): feel, strength, weight in the hand, balance.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    made : sequence of Check
        Its checks, least ratio first. [records]
    force : float
        Hard start at the grip centre. [N]
    wanted_index : float or None
        Stiffness index that is wanted. [1]
    wanted_safety : float
        Safety ratio that is wanted. [1]

    Returns
    -------
    list of Finding
        Sentences with their quantities. [records]

    Notes
    -----
    Source: common practice for the limits; finite differences on the oar's own stations for what would help.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> d = design(example_project("quillet").inputs)
    >>> [f.code for f in oar_findings(d.oars["port"], made=d.checks["port"], force=400.0,
    ...                               wanted_index=0.05, wanted_safety=1.5)][0]
    'feel'
    """
    return [
        *_feel(oar, wanted_index),
        *_strength(oar, made, force, wanted_safety),
        *_weight(oar),
    ]


def _feel(oar: Oar, wanted: Number | None) -> list[Finding]:
    drop = float(bench_drop(oar))
    index = float(stiffness_index(drop=drop, blade_arm=oar.blade_arm))
    feel = next(name for limit, name in FEEL if index < limit)
    said = f"On the bench the oar drops {{drop}} under {{load}}, an index of {{index}}: {feel}"
    quantities = {"drop": _m(drop), "index": _one(index), "load": Quantity(value=10.0, unit="kg")}
    if wanted is None:
        return [Finding(level="note", code="feel", text=f"{said}.", quantities=quantities, source="common practice")]
    off = index / float(wanted) - 1
    if abs(off) <= INDEX_TOLERANCE:
        text = f"{said}, as wanted ({{wanted}})."
        return [
            Finding(
                level="note",
                code="feel",
                text=text,
                quantities={**quantities, "wanted": _one(wanted)},
                source="common practice",
            )
        ]
    power = -math.log(float(bench_drop(scaled(oar, 1 + _STEP))) / drop) / math.log(1 + _STEP)
    factor = (index / float(wanted)) ** (1 / power)
    diameter = float(oar.shape.lock_diameter) * factor
    try:
        heavier = float(mass(scaled(oar, factor))) - float(mass(oar))
    except BadDesign:  # neck thinner than the blade's edge, or the like
        return [
            Finding(
                level="caution" if off > 0 else "note",
                code="feel",
                text=f"{said}, {'more limber' if off > 0 else 'stiffer'} than the {{wanted}} wanted. Lock and neck "
                "alone cannot be changed that much; change the blade or the wood with them.",
                quantities={**quantities, "wanted": _one(wanted)},
                source="finite differences on this oar's stations",
            )
        ]
    return [
        Finding(
            level="caution" if off > 0 else "note",
            code="feel",
            text=f"{said}, {'more limber' if off > 0 else 'stiffer'} than the {{wanted}} wanted. Lock and neck "
            f"scaled by {{factor}} "
            f"(lock {{diameter}}) would meet it, {'adding' if heavier > 0 else 'saving'} {{mass}} an oar.",
            quantities={
                **quantities,
                "wanted": _one(wanted),
                "factor": _one(factor),
                "diameter": _m(diameter),
                "mass": Quantity(value=abs(heavier), unit="kg"),
            },
            source="finite differences on this oar's stations",
        )
    ]


def _strength(oar: Oar, made: Sequence[Check], force: Number, wanted: Number) -> list[Finding]:
    if not made or bool(made[0].ok):
        return []
    worst = made[0]
    stiffer = checks(scaled(oar, 1 + _STEP), force=force, wanted=wanted)[0]
    power = math.log(float(stiffer.ratio) / float(worst.ratio)) / math.log(1 + _STEP)
    help_text = (
        " Lock and neck scaled by {factor} (lock {diameter}) would reach it."
        if power > 0.5
        else " Thickening lock and neck hardly helps there; thicken that place itself."
    )
    factor = (float(wanted) / float(worst.ratio)) ** (1 / power) if power > 0.5 else 1.0
    return [
        Finding(
            level="fails",
            code="strength",
            text=f"In a hard start of {{force}} a hand the {worst.part} ({worst.wood}) has a safety ratio of "
            f"{{ratio}} at {{place}} "
            f"from the handle end, below the {{wanted}} wanted.{help_text} A straighter-grained or drier board "
            f"helps in proportion.",
            quantities={
                "force": Quantity(value=force, unit="N"),
                "ratio": _one(worst.ratio),
                "place": _m(worst.place),
                "wanted": _one(wanted),
                "factor": _one(factor),
                "diameter": _m(float(oar.shape.lock_diameter) * factor),
            },
            source="finite differences on this oar's stations",
        )
    ]


def _weight(oar: Oar) -> list[Finding]:
    found = []
    weight = float(hand_weight(mass=mass(oar), balance=balance(oar), hand_arm=oar.hand_arm))
    if weight > HEAVY_HAND:
        found.append(
            Finding(
                level="caution",
                code="hand_weight",
                text="The oar weighs {weight} in the hand; {heavy} is heavy. {lead} of lead in the handle at the "
                "grip centre, or as much "
                "more wood there, would bring it down to that; thinner blade edges save weight where it costs most.",
                quantities={
                    "weight": Quantity(value=weight, unit="N"),
                    "heavy": Quantity(value=HEAVY_HAND, unit="N"),
                    "lead": Quantity(value=(weight - HEAVY_HAND) / 9.80665, unit="kg"),
                },
                source="common practice; lever",
            )
        )
    at = float(balance(oar))
    if not BALANCE_RANGE[0] <= at <= BALANCE_RANGE[1]:
        found.append(
            Finding(
                level="note",
                code="balance",
                text=f"The oar balances {{at}} outboard of the pin, "
                f"{'closer in' if at < BALANCE_RANGE[0] else 'further out'} than "
                "the usual {low} to {high}.",
                quantities={"at": _m(at), "low": _m(BALANCE_RANGE[0]), "high": _m(BALANCE_RANGE[1])},
                source="common practice",
            )
        )
    return found


def pair_findings(port: Oar, starboard: Oar) -> list[Finding]:
    """How far two oars of one pair differ, against the tolerances of a matched pair.

    Parameters
    ----------
    port, starboard : Oar
        The two oars. [records]

    Returns
    -------
    list of Finding
        One sentence. [records]

    Notes
    -----
    Source: common practice (5 % in drop, 3 % in mass, 10 mm in balance).

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> pair_findings(oar, oar)[0].level
    'note'
    """
    drops = float(bench_drop(port)), float(bench_drop(starboard))
    masses = float(mass(port)), float(mass(starboard))
    off = {
        "drop": abs(drops[0] - drops[1]) / (sum(drops) / 2),
        "mass": abs(masses[0] - masses[1]) / (sum(masses) / 2),
        "balance": abs(float(balance(port)) - float(balance(starboard))),
    }
    matched = all(off[key] <= limit for key, limit in PAIR_TOLERANCE.items())
    if off["drop"] > PAIR_TOLERANCE["drop"]:
        stiff = "port" if drops[0] < drops[1] else "starboard"
        cure = f"; plane the {stiff} oar, the stiffer one"
    elif not matched:
        cure = "; their stiffness matches, so planing would cure nothing: pair boards nearer in density"
    else:
        cure = ""
    return [
        Finding(
            level="note" if matched else "caution",
            code="pair",
            text="The two oars differ by {drop} in drop, {mass} in mass and {balance} in balance (matched within "
            "{most_drop}, {most_mass} and {most_balance})" + f"{cure}.",
            quantities={
                "drop": Quantity(value=off["drop"], unit="%"),
                "mass": Quantity(value=off["mass"], unit="%"),
                "balance": _m(off["balance"]),
                "most_drop": Quantity(value=PAIR_TOLERANCE["drop"], unit="%"),
                "most_mass": Quantity(value=PAIR_TOLERANCE["mass"], unit="%"),
                "most_balance": _m(PAIR_TOLERANCE["balance"]),
            },
            source="common practice",
        )
    ]
