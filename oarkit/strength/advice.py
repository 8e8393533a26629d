"""What an oar's stiffness, strength and weight mean, and what would help, from the oar's own sensitivities."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from oarkit.oar.build import Oar, build_oar
from oarkit.oar.mass import GRAVITY, balance, hand_weight, mass
from oarkit.oar.shape import OarShape
from oarkit.strength.balancing import MOST_LEAD
from oarkit.strength.bend import bench_drop, stiffness_index
from oarkit.strength.hard_start import Check, checks
from oarkit.working import BadDesign, Finding, Level, Number, Quantity

FEEL = ((0.03, "stiff"), (0.05, "lively"), (0.07, "limber"), (0.08, "between limber and whippy"), (math.inf, "whippy"))
INDEX_TOLERANCE = 0.05  #: an index within this share of the wanted one is met, the tolerance of a matched pair
HEAVY_HAND = 20.0  #: weight in the hand that is called heavy [N], common practice
BALANCE_RANGE = (0.25, 0.42)  #: balance outboard of the pin on oars of 7 to 9 ft [m], common practice
PAIR_TOLERANCE = {"drop": 0.05, "mass": 0.03, "balance": 0.010}  #: of a matched pair; the last in m, common practice
FACTOR_RANGE = (0.5, 1.5)  #: of lock and neck, beyond which the advice is to think again
SPARE = 0.03  #: by which a strength remedy aims beyond what is wanted, for sizes are rounded


def _m(value: Number) -> Quantity:
    return Quantity(value=float(value), unit="m")


def _one(value: Number) -> Quantity:
    return Quantity(value=float(value), unit="1")


def scaled(oar: Oar, factor: float) -> Oar:
    """The same oar with lock, neck and a round inboard scaled, everything else as it was.

    Parameters
    ----------
    oar : Oar
        The oar, drawn from sizes. [record]
    factor : float
        New size over old. [1]

    Returns
    -------
    Oar
        The scaled oar. [record]

    Raises
    ------
    BadDesign
        The oar is not drawn from sizes: measured from life, it stands as it is.

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
    shape = oar.shape
    if not isinstance(shape, OarShape):
        raise BadDesign("only an oar that is drawn from sizes can be scaled; this one stands as it is")
    sizes = {name: getattr(shape, name) * factor for name in ("lock_diameter", "neck_thickness", "neck_width")}
    if not shape.square_inboard:
        sizes["inboard_size"] = shape.inboard_size * factor
    return build_oar(replace(shape, **sizes), oar.pieces, oar.leather)


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
        *_feel(oar, wanted_index, force, wanted_safety),
        *_strength(oar, made, force, wanted_safety),
        *_joints(oar),
        *_weight(oar),
    ]


def _factor(oar: Oar, short: Callable[[Oar], float]) -> float | None:
    """Factor on lock and neck at which ``short`` (of what is wanted, falling with size) comes to nought, rounded up.

    Found on the scaled oars themselves; None where half or one and a half times the size does not do it.
    """

    def at(factor: float) -> float:
        try:
            return short(scaled(oar, factor))
        except BadDesign:  # neck thinner than the blade's edge, or the like
            return math.nan

    low, high = FACTOR_RANGE
    low = next((f for f in (low, 0.6, 0.7, 0.8, 0.9, 1.0) if not math.isnan(at(f))), 1.0)
    if not (at(low) >= 0 >= at(high)):
        return None
    for _ in range(14):
        middle = (low + high) / 2
        low, high = (middle, high) if at(middle) > 0 else (low, middle)
    return math.ceil(high * 1000) / 1000


def _sizes(oar: Oar, factor: float) -> dict[str, Quantity]:
    shape = oar.shape
    assert isinstance(shape, OarShape)  # else there is no factor
    inboard = {} if shape.square_inboard else {"inboard": _m(float(shape.inboard_size) * factor)}
    return inboard | {
        "factor": _one(factor),
        "diameter": _m(float(shape.lock_diameter) * factor),
        "thick": _m(float(shape.neck_thickness) * factor),
        "wide": _m(float(shape.neck_width) * factor),
    }


_SCALED = "Lock and neck scaled by {factor} (lock {diameter}, neck {thick} thick and {wide} wide"


def _scaled_text(oar: Oar) -> str:
    square = isinstance(oar.shape, OarShape) and oar.shape.square_inboard
    return _SCALED + (")" if square else ", round inboard {inboard})")


#: What is said of an oar that stands, in place of other sizes.
_TOO_LIMBER = " It stands and cannot be thickened: a next one wants a thicker loom or stiffer wood."
_TOO_STIFF = " It stands: planing its loom would make it more limber, where its strength leaves that to spare."
_TOO_WEAK = (
    " It stands and cannot be thickened: spare it hard starts, or build the next one thicker at that place or of "
    "stronger wood."
)
_TOO_UNLIKE = (
    "; plane the loom of the {name} oar, the stiffer one, a shaving at a time and hang the weight again after each, "
    "where its strength leaves that to spare"
)
_CHOICE = "classes of feel: a choice of this project"
_ON_STATIONS = "worked on this oar's own stations"


def _feel(oar: Oar, wanted: Number | None, force: Number, safety: Number) -> list[Finding]:
    drop = float(bench_drop(oar))
    index = float(stiffness_index(drop=drop, blade_arm=oar.blade_arm))
    feel = next(name for limit, name in FEEL if index < limit)
    said = "On the bench the oar drops {drop} under {load}, an index of {index}"
    quantities = {"drop": _m(drop), "index": _one(index), "load": Quantity(value=10.0, unit="kg")}
    if wanted is None:
        return [_note("note", "feel", f"{said}: {feel}.", quantities, _CHOICE)]
    quantities["wanted"] = _one(wanted)
    off = index / float(wanted) - 1
    if abs(off) <= INDEX_TOLERANCE:
        return [_note("note", "feel", f"{said}, as wanted ({{wanted}}).", quantities, _CHOICE)]
    said += f": {feel}, {'more limber' if off > 0 else 'stiffer'} than the {{wanted}} wanted."
    level: Level = "caution" if off > 0 else "note"
    if not isinstance(oar.shape, OarShape):
        return [_note(level, "feel", said + (_TOO_LIMBER if off > 0 else _TOO_STIFF), quantities, _ON_STATIONS)]
    factor = _factor(oar, lambda other: float(bench_drop(other)) / float(oar.blade_arm) - float(wanted))
    if factor is None:
        text = f"{said} Lock and neck alone cannot be changed that much; change the blade or the wood with them."
        return [_note(level, "feel", text, quantities, _ON_STATIONS)]
    changed = scaled(oar, factor)
    heavier = float(mass(changed)) - float(mass(oar))
    ratio = float(checks(changed, force=force, wanted=safety)[0].ratio)
    quantities |= {
        **_sizes(oar, factor),
        "mass": Quantity(value=abs(heavier), unit="kg"),
        "ratio": _one(ratio),
        "safety": _one(safety),
    }
    text = f"{said} {_scaled_text(oar)} would meet it, {'adding' if heavier > 0 else 'saving'} {{mass}} an oar"
    weak = "; but its safety ratio would then be {ratio}, below the {safety} wanted, so strength decides here."
    return [_note(level, "feel", text + (weak if ratio < float(safety) else "."), quantities, _ON_STATIONS)]


def _strength(oar: Oar, made: Sequence[Check], force: Number, wanted: Number) -> list[Finding]:
    if not made or bool(made[0].ok):
        return []
    worst = made[0]
    said = (
        f"In a hard start of {{force}} a hand the {worst.part} ({worst.wood}) has a safety ratio of {{ratio}} at "
        f"{{place}} "
        "from the handle end, below the {wanted} wanted."
    )
    quantities = {
        "force": Quantity(value=force, unit="N"),
        "ratio": _one(worst.ratio),
        "place": _m(worst.place),
        "wanted": _one(wanted),
    }
    aim = float(wanted) * (1 + SPARE)
    factor = _factor(oar, lambda other: aim - float(checks(other, force=force, wanted=wanted)[0].ratio))
    if not isinstance(oar.shape, OarShape):
        said += _TOO_WEAK
    elif factor is None:
        said += (
            " Thickening lock and neck alone cannot mend that; thicken that place itself, or choose a stronger wood."
        )
    else:
        said += f" {_scaled_text(oar)} would reach it, with the rounding of sizes to spare."
        quantities |= _sizes(oar, factor)
    if worst.part == "tip":
        said += " A tip piece that is loaded belongs with its grain along the oar, or shorter."
    return [_note("fails", "strength", said, quantities, _ON_STATIONS)]


def _note(level: Level, code: str, text: str, quantities: Mapping[str, Quantity], source: str) -> Finding:
    return Finding(level=level, code=code, text=text, quantities=dict(quantities), source=source)


def _joints(oar: Oar) -> list[Finding]:
    """Places where the loom ends short under load, so that a glue joint carries what nobody has counted."""
    found = []
    for piece in oar.pieces:
        if piece.kind == "edge" and 2 * float(piece.size or 0.0) >= float(oar.shape.neck_width):
            text = (
                "Edge strips of {size} meet at the blade root, {neck} wide, so that the loom ends there; no "
                "strength of that joint is counted."
            )
            sizes = {"size": _m(piece.size or 0.0), "neck": _m(oar.shape.neck_width)}
            found.append(_note("caution", "joint", text, sizes, _ON_STATIONS))
        if piece.kind == "tip" and float(oar.shape.length) - float(piece.size or 0.0) < float(oar.shape.mid_blade):
            text = (
                "The tip piece of {size} reaches past mid-blade to where the blade is bent; no strength of its "
                "joint is counted."
            )
            found.append(_note("caution", "joint", text, {"size": _m(piece.size or 0.0)}, _ON_STATIONS))
    return found


def _weight(oar: Oar) -> list[Finding]:
    found = []
    weight = float(hand_weight(mass=mass(oar), balance=balance(oar), hand_arm=oar.hand_arm))
    if weight > HEAVY_HAND:
        found.append(
            Finding(
                level="caution",
                code="hand_weight",
                text="The oar weighs {weight} in the hand; {heavy} is heavy. "
                + (
                    "{lead} of lead at the grip centre, or as much more wood there, would bring it down to that; "
                    if (weight - HEAVY_HAND) / GRAVITY <= MOST_LEAD
                    else "That is more than lead in the handle should mend ({most} at most): "
                )
                + "a square inboard balances it, and thinner blade edges save weight where it costs most.",
                quantities={
                    "weight": Quantity(value=weight, unit="N"),
                    "heavy": Quantity(value=HEAVY_HAND, unit="N"),
                    "lead": Quantity(value=(weight - HEAVY_HAND) / GRAVITY, unit="kg"),
                    "most": Quantity(value=MOST_LEAD, unit="kg"),
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


def pair_findings(port: Oar, starboard: Oar, *, force: Number, wanted: Number) -> list[Finding]:
    """How far two oars of one pair differ, against the tolerances of a matched pair, and what would match them.

    Parameters
    ----------
    port, starboard : Oar
        The two oars. [records]
    force : float
        Hard start at the grip centre. [N]
    wanted : float
        Safety ratio that is wanted. [1]

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
    >>> pair_findings(oar, oar, force=400.0, wanted=1.5)[0].level
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
    quantities = {
        "drop": Quantity(value=off["drop"], unit="%"),
        "mass": Quantity(value=off["mass"], unit="%"),
        "balance": _m(off["balance"]),
        "most_drop": Quantity(value=PAIR_TOLERANCE["drop"], unit="%"),
        "most_mass": Quantity(value=PAIR_TOLERANCE["mass"], unit="%"),
        "most_balance": _m(PAIR_TOLERANCE["balance"]),
    }
    text = (
        "The two oars differ by {drop} in drop, {mass} in mass and {balance} in balance (matched within {most_drop}, "
        "{most_mass} and {most_balance})"
    )
    if off["drop"] > PAIR_TOLERANCE["drop"]:
        name, stiff = ("port", port) if drops[0] < drops[1] else ("starboard", starboard)
        limber = masses[1] if name == "port" else masses[0]
        more, sizes = _planed(stiff, name, max(drops), limber, force, wanted)
        text, quantities = text + more, quantities | sizes
    elif not matched:
        text += "; their stiffness matches, so planing would cure nothing: pair boards nearer in density"
    return [_note("note" if matched else "caution", "pair", f"{text}.", quantities, "common practice")]


def _planed(
    stiff: Oar, name: str, drop: float, other_mass: float, force: Number, wanted: Number
) -> tuple[str, dict[str, Quantity]]:
    """What planing the stiffer oar down to the other's drop does to its strength, and whether it may be done."""
    if not isinstance(stiff.shape, OarShape):
        return _TOO_UNLIKE.format(name=name), {}
    factor = _factor(stiff, lambda other: float(bench_drop(other)) - drop)
    if factor is None:
        return "; they are too far apart to be matched by planing: choose boards nearer in stiffness", {}
    planed = scaled(stiff, factor)
    ratio = float(checks(planed, force=force, wanted=wanted)[0].ratio)
    apart = abs(float(mass(planed)) / other_mass - 1)
    quantities = {"planed": _one(factor), "left": _one(ratio), "wanted": _one(wanted)}
    still, more = "", {}
    if apart > PAIR_TOLERANCE["mass"]:
        still, more = ", though their masses then still differ by {apart}", {"apart": Quantity(value=apart, unit="%")}
    if ratio < float(wanted):
        spared = (
            "; planing the {name} oar, the stiffer one, by a factor of {{planed}} would match their drop but leave "
            "it a safety ratio of {{left}}, below the {{wanted}} wanted: do not plane it, choose boards nearer in "
            "stiffness"
        )
        return spared.format(name=name), quantities
    return (
        f"; plane the {name} oar, the stiffer one: lock and neck by a factor of {{planed}} match their drop and leave "
        f"it a safety ratio of {{left}}{still}",
        quantities | more,
    )
