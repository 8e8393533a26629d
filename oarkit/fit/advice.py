"""Says what was chosen and why: which limits decide, what one step more would change, what fights what."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from oarkit.fit.limits import (
    APART_AIM,
    CROSSED_AIM,
    EASY_DIP,
    HAND_WIDTH,
    UNITS,
    Candidate,
    Choice,
    Fight,
)
from oarkit.rig.station import CUSTOMARY_RATIO
from oarkit.working import Finding, Quantity

#: What a limit asks, in words.
ASKS: Mapping[str, str] = {
    "legs": "hands clear of thighs and knees in the wave",
    "arms": "grips within reach of the arms",
    "overlap": "the overlap or gap of the handles",
    "leverage_ratio": "the leverage ratio",
    "longest_stowed": "the longest oar that stows",
    "arc": "the arc of the stroke",
    "dip_in_drive": "the steepest dip",
    "lock_overhang": "the overhang of the locks",
    "hand_height": "the height of the hands in the drive",
}
_LEFT_OPEN = {"lock_overhang": "overhang", "overlap": "overlap", "length": "length"}


def choice_findings(choice: Choice, *, left_open: Sequence[str]) -> list[Finding]:
    """What was chosen, or what would have been, and why.

    Parameters
    ----------
    choice : Choice
        The choice. [record]
    left_open : sequence of str
        What the project file left open, of "lock_overhang", "overlap", "length"; nothing where all was given. [text]

    Returns
    -------
    list of Finding
        One sentence or two. [records]

    Notes
    -----
    Source: derived; every number is computed for the rig at hand.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> [f.code for f in design(example_project("quillet").inputs).findings if f.code.startswith("choice")]
    ['choice']
    """
    if left_open and not choice.fits:
        return [_nothing_fits(choice, overhang="lock_overhang" in left_open)]
    rig, quantities = _rig(choice.chosen, "", overhang="lock_overhang" in left_open)
    if left_open:
        *most, last = (_LEFT_OPEN[name] for name in left_open)
        what = f"{', '.join(most)} and {last}" if most else last
        opening = f"Left to the program, {what}: chosen is {rig}."
    elif choice.fits:
        opening = f"Left open, overlap and length would have come out at {rig}."
    else:
        opening = f"Left open, overlap and length would find no rig that keeps every limit; nearest is {rig}."
    parts = [
        opening,
        *(
            _decisions(choice, quantities, overhang="lock_overhang" in left_open)
            if choice.fits
            else [_stand_off(choice.fights, choice.both_must_give, quantities)]
        ),
    ]
    parts.append(_off_custom(choice.chosen, choice.catch_aim, quantities))
    if choice.feathered:
        parts.append("The wave is cleared with the blade feathered only, not square.")
    text = " ".join(part for part in parts if part)
    return [
        Finding(level="note", code="choice", text=text, quantities=quantities, source="common practice; plane geometry")
    ]


def _rig(found: Candidate, mark: str, *, overhang: bool = False) -> tuple[str, dict[str, Quantity]]:
    """A rig in words, with its quantities; its overhang too where that was left open."""
    apart = "an overlap" if found.overlap >= 0 else "a gap"
    text = f"{apart} of {{overlap{mark}}} and a length of {{length{mark}}} (leverage ratio {{ratio{mark}}})"
    quantities = {
        f"overlap{mark}": Quantity(value=abs(found.overlap), unit="m"),
        f"length{mark}": Quantity(value=found.length, unit="m"),
        f"ratio{mark}": Quantity(value=found.leverage_ratio, unit="1"),
    }
    if overhang:
        text = f"pins {{overhang{mark}}} {'outside' if found.lock_overhang >= 0 else 'inside'} the rails, {text}"
        quantities[f"overhang{mark}"] = Quantity(value=abs(found.lock_overhang), unit="m")
    return text, quantities


def _decisions(choice: Choice, quantities: dict[str, Quantity], *, overhang: bool) -> list[str]:
    decides = choice.decides
    if not decides:
        against = [ASKS[name] for name, room in choice.unlimited.slack.items() if room < -1e-9]
        if not against:
            return [] if choice.feathered else ["No limit stands in its way: custom alone decides."]
        rig, more = _rig(choice.unlimited, "_free", overhang=overhang)
        quantities |= more
        return [
            f"Custom alone would take {rig}, against {' and '.join(against)}; no one limit alone gives it, by a step."
        ]
    told = []
    for number, relaxed in enumerate(decides, 1):
        rig, more = _rig(relaxed.becomes, f"_{number}", overhang=overhang)
        quantities |= more | {f"step_{number}": Quantity(value=relaxed.step, unit=UNITS[relaxed.limit])}
        told.append(f"{ASKS[relaxed.limit]} (one step more, {{step_{number}}}, and it is {rig})")
    return [f"What decides it: {'; '.join(told)}."]


def _stand_off(fights: Sequence[Fight], both: bool, quantities: dict[str, Quantity]) -> str:
    if not fights:
        return "More than two limits stand against one another."
    for number, fight in enumerate(fights, 1):
        quantities[f"gives_{number}"] = _rounded_up(fight.gives, UNITS[fight.limit])
    if len(fights) == 1:
        return (
            f"One limit stands in the way, against the heights of seat and locks: {ASKS[fights[0].limit]}, which "
            f"would have "
            "to give by {gives_1}; no other giving way would help."
        )
    first, second = (ASKS[fight.limit] for fight in fights)
    if both:
        return f"Two limits fight, and both would have to give: {first} by {{gives_1}}, and {second} by {{gives_2}}."
    return f"Two limits fight; either would have to give: {first} by {{gives_1}}, or {second} by {{gives_2}}."


def _rounded_up(value: float, unit: str) -> Quantity:
    """A number rounded up to what is printed, so that giving way by what is read is enough."""
    step = {"m": 1e-4, "rad": math.radians(0.1), "1": 1e-3}[unit]
    return Quantity(value=math.ceil(value / step - 1e-9) * step, unit=unit)


def _nothing_fits(choice: Choice, *, overhang: bool) -> Finding:
    rig, quantities = _rig(choice.chosen, "", overhang=overhang)
    fight = _stand_off(choice.fights, choice.both_must_give, quantities)
    text = f"No rig keeps every limit. {fight} What is shown falls short least: {rig}."
    return Finding(level="fails", code="nothing_fits", text=text, quantities=quantities, source="plane geometry")


def _off_custom(found: Candidate, catch_aim: float, quantities: dict[str, Quantity]) -> str:
    """Where the rig lies furthest from the aims of custom."""
    elbow = found.strains.get("hand_height")
    aims = {
        "leverage_ratio": ("the leverage ratio", found.leverage_ratio, CUSTOMARY_RATIO, "1"),
        "overlap": ("the handles", abs(found.overlap), abs(CROSSED_AIM if found.overlap > 0 else APART_AIM), "m"),
        "dip_in_drive": ("the dip", found.dip_in_drive, EASY_DIP, "rad"),
        "catch_angle": ("the catch", found.catch_angle or 0.0, catch_aim, "rad"),
        "hand_height": (
            "the hands in the drive",
            found.hand_height_in_drive,
            found.hand_height_in_drive - (elbow or 0.0) * HAND_WIDTH,
            "m",
        ),
    }
    far = sorted(
        (name for name, off in found.strains.items() if abs(off) >= 0.5 and name in aims),
        key=lambda n: -abs(found.strains[n]),
    )
    if not far:
        return "It lies close to every aim of custom."
    told = []
    for number, name in enumerate(far[:3], 1):
        word, value, aim, unit = aims[name]
        quantities |= {
            f"is_{number}": Quantity(value=value, unit=unit),
            f"aim_{number}": Quantity(value=aim, unit=unit),
        }
        told.append(f"{word} ({{is_{number}}}, aim {{aim_{number}}})")
    return f"Custom gives way in {', '.join(told)}."
