"""What would give an oar the wanted weight in the hand: lead in the handle, and what it does to balance and swing."""

from __future__ import annotations

from oarkit.oar.build import Oar
from oarkit.oar.counterweight import Swing, counterweight, with_counterweight
from oarkit.oar.mass import balance, hand_weight, inertia_about_lock, mass
from oarkit.working import Finding, Level, Number, Quantity

MOST_LEAD = 0.35  #: in a handle, for more raises the inertia too far, common practice [kg]
SAME_WEIGHT = 0.1  #: weights in the hand that differ by less are one [N]


def counterweight_findings(oar: Oar, *, wanted: Number | None) -> list[Finding]:
    """Lead in the handle that gives the wanted weight in the hand.

    Parameters
    ----------
    oar : Oar
        The oar (scalars). [record]
    wanted : float or None
        Weight in the hand that is wanted; nothing is said without it. [N]

    Returns
    -------
    list of Finding
        One sentence, or none. [records]

    Notes
    -----
    Source: moments about the pin, `oarkit.oar.counterweight`; at most 0.35 kg of lead is common practice.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> [finding.code for finding in counterweight_findings(oar, wanted=6.0)]
    ['counterweight']
    """
    if wanted is None:
        return []
    swing = Swing(mass=mass(oar), balance=balance(oar), inertia=inertia_about_lock(oar))
    now = float(hand_weight(mass=swing.mass, balance=swing.balance, hand_arm=oar.hand_arm))
    quantities = {"now": Quantity(value=now, unit="N"), "wanted": Quantity(value=float(wanted), unit="N")}
    if now <= float(wanted) + SAME_WEIGHT:
        text = "The oar weighs {now} in the hand, no more than the {wanted} wanted: it needs no counterweight."
        return [_finding("note", text, quantities)]
    arms = {"mass": swing.mass, "balance": swing.balance, "hand_arm": oar.hand_arm, "wanted": wanted}
    lead = float(counterweight(**arms, weight_inboard=oar.hand_arm))
    after = with_counterweight(swing, added=lead, weight_inboard=oar.hand_arm)
    text = (
        "The oar weighs {now} in the hand where {wanted} are wanted. {lead} of lead at the grip centre, less the wood "
        "bored out for it, would do that: the oar then weighs {mass}, balances {at} outboard of the pin, and is "
        "{harder} harder to swing."
    )
    quantities |= {
        "lead": Quantity(value=lead, unit="kg"),
        "mass": Quantity(value=float(after.mass), unit="kg"),
        "at": Quantity(value=float(after.balance), unit="m"),
        "harder": Quantity(value=float(after.inertia / swing.inertia - 1), unit="%"),
    }
    if lead <= MOST_LEAD:
        return [_finding("note", text, quantities)]
    more = (
        " That is more than the {most} that a handle should hold: make the inboard square, and thin the blade's edges."
    )
    return [_finding("caution", text + more, {**quantities, "most": Quantity(value=MOST_LEAD, unit="kg")})]


def _finding(level: Level, text: str, quantities: dict[str, Quantity]) -> Finding:
    return Finding(level=level, code="counterweight", text=text, quantities=quantities, source="lever; common practice")
