"""Where a millimetre does most for a want, and what would raise a ratio most for its weight."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np

from oarkit.oar.build import Oar, build_oar
from oarkit.oar.pieces import Piece
from oarkit.strength.sensitivity import (
    MM,
    SHARE,
    STATIONS,
    Ratios,
    Sensitivities,
    Sensitivity,
    State,
    sensitivities,
    state_of,
)
from oarkit.wood.board import Wood
from oarkit.working import BadDesign, Number, Quantity

COSTLESS = 0.001  #: a cost below that share counts as that much, so that the gain decides, a choice of this project [1]
FACE = 0.002  #: thickness of the faces that are tried on the lock, likewise [m]

Want: TypeAlias = Literal["limber", "strong", "light"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Best:
    """The zone where a mm does most for a want: what is gained and what is lost as shares, and a sentence with gaps."""

    want: Want
    where: Sensitivity
    gain: float
    cost: float
    text: str
    quantities: dict[str, Quantity]


def best_zone(sens: Sensitivities, *, want: Want, called: str = "least safety ratio") -> Best | None:
    """The zone and size where a mm does most for a want at the least cost.

    Parameters
    ----------
    sens : Sensitivities
        Sensitivities of an oar. [records]
    want : {"limber", "strong", "light"}
        More drop or less mass for the strength it costs, or more strength for the drop it costs. [text]
    called : str, optional
        What the ratio is called in the sentence. [text]

    Returns
    -------
    Best or None
        The best of what is usually planed, by gain over cost; none where nothing is gained. [record]

    Notes
    -----
    Source: choice of this project. Gain and cost are shares of what the oar has, with a whole mm off or left on; a cost
    below 0.1 % counts as 0.1 %. Strength is the governing ratio where the caller gave one, else that of the hard start.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> best = best_zone(sensitivities(oar, force=400.0), want="limber")
    >>> best.where.what in ("thickness", "width"), best.gain > 0
    (True, True)
    """
    ranked = []
    for one in sens.each:
        after = one.more if want == "strong" else one.less
        if one.what == "modulus" or not one.usual or after is None:
            continue
        softer = float(after.drop / sens.now.drop - 1)
        lighter = float(1 - after.mass / sens.now.mass)
        stronger = _ratio(after) / _ratio(sens.now) - 1
        gain, cost = {"limber": (softer, -stronger), "light": (lighter, -stronger), "strong": (stronger, -softer)}[want]
        if gain > 1e-6:
            ranked.append((gain / max(cost, COSTLESS), gain, max(cost, 0.0), one, after))
    if not ranked:
        return None
    _, gain, cost, one, after = max(ranked, key=lambda row: row[:2])
    text, quantities = _said(want, one, sens.now, after, called)
    return Best(want=want, where=one, gain=gain, cost=cost, text=text, quantities=quantities)


def _ratio(state: State) -> float:
    return float(state.ratio if state.governing is None else state.governing)


def _said(want: Want, one: Sensitivity, now: State, after: State, called: str) -> tuple[str, dict[str, Quantity]]:
    """The best zone in words."""
    more = want == "strong"
    drops, masses = float(abs(np.subtract(after.drop, now.drop))), float(abs(np.subtract(after.mass, now.mass)))
    drop = "takes {drop} off the drop on the bench" if more else "adds {drop} to the drop on the bench"
    weight = "adds {mass}" if more else "saves {mass}"
    did = (
        f"{weight} and leaves the drop on the bench as it is" if drops < COSTLESS * now.drop else f"{drop} and {weight}"
    )
    kept = abs(_ratio(after) / _ratio(now) - 1) < COSTLESS
    ratio = f"the {called} stays at {{now}}" if kept else f"the {called} goes from {{now}} to {{after}}"
    text = f"{{off}} {'left on' if more else 'planed off'} the {one.what} of the {one.zone} {did}; {ratio}."
    return text, {
        "off": Quantity(value=MM, unit="m"),
        "drop": Quantity(value=drops, unit="m"),
        "mass": Quantity(value=masses, unit="kg"),
        "now": Quantity(value=_ratio(now), unit="1"),
        "after": Quantity(value=_ratio(after), unit="1"),
    }


@dataclass(frozen=True, slots=True, kw_only=True)
class Help:
    """One thing that raises a ratio: by how much, and what it costs in mass, drop and balance [1, kg, m, m].

    ``amount`` is the mm left on, the share of a modulus with its sign, or the thickness of the faces.
    """

    what: Literal["thickness", "width", "diameter", "modulus", "faces"]
    zone: str
    amount: Quantity
    gain: float
    ratio: float
    mass: float
    drop: float
    balance: float

    @property
    def per_gram(self) -> float | None:
        """Gain of the ratio per gram that it adds; None where it adds none."""
        return self.gain / (1000 * self.mass) if self.mass > 1e-6 else None


def helps(
    oar: Oar, *, force: Number, ratio_of: Ratios | None = None, sens: Sensitivities | None = None,
    hardwood: Wood | None = None,
) -> tuple[Help, ...]:  # fmt: skip
    """What would raise the least ratio, the most for its weight first.

    Parameters
    ----------
    oar : Oar
        The oar (scalars). [record]
    force : float
        Hard start at the grip centre. [N]
    ratio_of : callable, optional
        The ratio to be raised, from an oar of many designs; that of the hard start where nothing is said. [1]
    sens : Sensitivities, optional
        Sensitivities with the same ratio, where they are worked already. [records]
    hardwood : Wood, optional
        For faces under the leather; else the strongest wood of the oar that beats its loom, if any. [record]

    Returns
    -------
    tuple of Help
        A mm more of each size that is usually planed, 10 % of the loom's modulus, faces of 2 mm on the lock: those that
        help. What adds no weight comes first. [records]

    Notes
    -----
    Source: worked on the changed oars themselves.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> best = helps(oar, force=400.0)[0]
    >>> best.what, best.zone, best.gain > 0
    ('diameter', 'lock', True)
    """
    sens = sens or sensitivities(oar, force=force, ratio_of=ratio_of)
    mm, share, fewer = Quantity(value=MM, unit="m"), Quantity(value=SHARE, unit="1"), Quantity(value=-SHARE, unit="1")
    tried: list[tuple[Literal["thickness", "width", "diameter", "modulus", "faces"], str, Quantity, State | None]] = []
    for one in sens.each:
        if one.what != "modulus" and one.usual:
            tried.append((one.what, one.zone, mm, one.more))
        elif one.what == "modulus" and one.zone.startswith("loom"):
            tried += [("modulus", one.zone, share, one.more), ("modulus", one.zone, fewer, one.less)]
    tried.append(("faces", "lock", Quantity(value=FACE, unit="m"), _faced(oar, force, ratio_of, hardwood)))
    found = [
        Help(
            what=what, zone=zone, amount=amount, gain=_ratio(state) - _ratio(sens.now),
            ratio=_ratio(state), mass=float(state.mass - sens.now.mass),
            drop=float(state.drop - sens.now.drop), balance=float(state.balance - sens.now.balance),
        )
        for what, zone, amount, state in tried if state is not None
    ]  # fmt: skip
    least = COSTLESS * _ratio(sens.now)
    ranked = [(one.per_gram is None, one.per_gram or one.gain, one) for one in found if one.gain > least]
    return tuple(one for *_, one in sorted(ranked, key=lambda row: row[:2], reverse=True))


def _faced(oar: Oar, force: Number, ratio_of: Ratios | None, wood: Wood | None) -> State | None:
    """The oar with faces of hardwood under its leather, its outline as it is."""
    if wood is None:
        strongest = max((piece.wood for piece in oar.pieces), key=lambda each: float(each.strength))
        loom = next(piece.wood for piece in oar.pieces if piece.kind == "loom")
        wood = None if strongest.strength <= loom.strength else strongest
    if wood is None:
        return None
    face = Piece(kind="face", wood=wood, size=FACE, start=oar.shape.leather_start, stop=oar.shape.leather_end)
    try:
        faced = build_oar(oar.shape, (*oar.pieces, face), oar.leather, count=STATIONS)
    except BadDesign:
        return None
    return state_of(faced, force=force, ratio_of=ratio_of)
