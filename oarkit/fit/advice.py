"""Says what was chosen and why: which limits decide, what one step more would change, what fights what."""

from __future__ import annotations

from collections.abc import Sequence

from oarkit.fit.limit_words import asks, limit_in_words, listed, relief_in_words
from oarkit.fit.limits import (
    APART_AIM,
    BEYOND,
    CROSSED_AIM,
    CROSSING_SPAN,
    EASY_DIP,
    HAND_WIDTH,
    OF_THE_BODY,
    ROOM,
    SAME,
    STEPS,
    UNITS,
    Candidate,
    Choice,
    crosses_handles,
)
from oarkit.rig.station import CUSTOMARY_RATIO
from oarkit.working import Finding, Number, Quantity

_LEFT_OPEN = {"lock_overhang": "overhang", "overlap": "overlap", "length": "length"}
_COUNTS = {1: "One limit cannot be kept", 2: "Two limits fight", 3: "Three limits fight"}
NEAR = 0.35  #: tolerances from an aim that need no word, a choice of this project [1]
AT_THE_RAIL = 0.005  #: pins so far out of the rail or less stand on it, a choice of this project [m]


def choice_findings(
    choice: Choice,
    own: Candidate,
    *,
    left_open: Sequence[str],
    beam: Number,
    rowable: bool = True,
    bracket: bool = True,
) -> list[Finding]:
    """What was chosen, or what would have been, and why.

    Parameters
    ----------
    choice : Choice
        The choice. [record]
    own : Candidate
        The rig of the design. [record]
    left_open : sequence of str
        What the project file left open, of "lock_overhang", "overlap", "length"; nothing where all was given. [text]
    beam : float
        Over the rails, abreast of the pins. [m]
    rowable : bool, optional
        Whether the rig as it is can be rowed; what would have come out in place of one that cannot is no help. [flag]
    bracket : bool, optional
        Whether a bracket is known that carries pins outside the rail. [flag]

    Returns
    -------
    list of Finding
        One paragraph, or none. [records]

    Notes
    -----
    Source: derived; every number is computed for the rig at hand.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> [f.code for f in design(example_project("quillet").inputs).findings if f.code.startswith("choice")]
    ['choice']
    """
    if not left_open and not rowable:
        return []
    overhang = "lock_overhang" in left_open
    rig, quantities = _rig(choice.chosen, "", overhang=overhang)
    if not choice.fits:
        even = ", even with the blade feathered" if choice.feathered else ""
        opening = (
            f"{'No rig keeps every limit' if left_open else 'Left open, overlap and length would find no rig'}{even}."
        )
        parts = [opening, _fight(choice, quantities), _least_short(choice, rig, quantities, shown=bool(left_open))]
    elif not left_open and _same(choice.chosen, own):
        parts = ["Left open, overlap and length would have come out the same."]
    else:
        parts = [_opening(left_open, rig), *_decisions(choice, quantities, overhang=overhang)]
        parts += [_crossing(choice, beam, quantities) if choice.overlap_range is not None else ""]
        parts += [_off_custom(choice.chosen, choice.catch_aim, quantities, "It")]
    if not left_open:
        parts.insert(0, _off_custom(own, choice.catch_aim, quantities, "The rig of the file", "own_"))
    parts += [_on_brackets(choice, quantities) if overhang and not bracket else ""]
    text = " ".join(part for part in parts if part)
    fails = bool(left_open) and not choice.fits
    return [
        Finding(
            level="fails" if fails else "note",
            code="nothing_fits" if fails else "choice",
            text=text,
            quantities={name: quantity for name, quantity in quantities.items() if f"{{{name}}}" in text},
            source="common practice; plane geometry",
        )
    ]


def _same(one: Candidate, other: Candidate) -> bool:
    """Whether two rigs are one, to the tenth of a millimetre that is printed."""
    return abs(one.overlap - other.overlap) < 5e-5 and abs(one.length - other.length) < 5e-5


def _opening(left_open: Sequence[str], rig: str) -> str:
    if not left_open:
        return f"Left open, overlap and length would have come out at {rig}."
    what = listed([_LEFT_OPEN[name] for name in left_open])
    return f"Left to the program, {what}: chosen is {rig}."


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
        side = "outside" if found.lock_overhang > 0 else "inside"
        where = "at" if abs(found.lock_overhang) < AT_THE_RAIL else f"{{overhang{mark}}} {side}"
        text = f"pins {where} the rails, {text}"
        quantities |= {} if where == "at" else {f"overhang{mark}": Quantity(value=abs(found.lock_overhang), unit="m")}
    return text, quantities


def _decisions(choice: Choice, quantities: dict[str, Quantity], *, overhang: bool) -> list[str]:
    """Which limits decide the rig that was chosen."""
    decides, feathered = choice.decides, ""
    if choice.feathered:
        feathered = "The wave decides: with the blade square no rig keeps every limit, feathered this one does."
    if decides:
        told = []
        for number, relaxed in enumerate(decides, 1):
            rig, more = _rig(relaxed.becomes, f"_{number}", overhang=overhang)
            quantities |= more | {f"step_{number}": Quantity(value=relaxed.step, unit=UNITS[relaxed.limit])}
            told.append(f"{asks(choice, relaxed.limit)} (one step more, {{step_{number}}}, and it is {rig})")
        return [feathered, f"What decides it: {'; '.join(told)}."]
    against = [asks(choice, name) for name, room in choice.unlimited.slack.items() if room < -SAME]
    if not against:
        return [feathered or "No limit stands in its way: it lies nearest to all the customary aims together."]
    rig, more = _rig(choice.unlimited, "_free", overhang=overhang)
    quantities |= more
    return [
        feathered,
        f"By custom alone it would be {rig}, against {' and '.join(against)}; one step more of one limit changes "
        "nothing.",
    ]


def _crossing(choice: Choice, beam: Number, quantities: dict[str, Quantity]) -> str:
    """Which range of overlap was looked at, and why."""
    if choice.limits.overlap != (None, None):
        words, ends = limit_in_words(choice, "overlap")
        quantities |= ends
        return f"Looked at was {words}."
    assert choice.overlap_range is not None
    span = float(beam) + 2 * choice.chosen.lock_overhang
    low, high = sorted(map(abs, choice.overlap_range))
    quantities |= {
        "span": Quantity(value=span, unit="m"),
        "crossing": Quantity(value=CROSSING_SPAN, unit="m"),
        "least": Quantity(value=low, unit="m"),
        "most": Quantity(value=high, unit="m"),
    }
    if crosses_handles(span):
        return "At a span of {span}, under {crossing}, custom crosses the handles, by {least} to {most}."
    return "At a span of {span}, from {crossing} up, custom keeps the handles side by side, {least} to {most} apart."


def _on_brackets(choice: Choice, quantities: dict[str, Quantity]) -> str:
    """Pins that were chosen outside the rails want something to stand on."""
    if choice.chosen.lock_overhang < AT_THE_RAIL:
        return ""
    quantities["out"] = Quantity(value=choice.chosen.lock_overhang, unit="m")
    return (
        "Pins {out} outside the rails stand on brackets; the file has none, so none is checked. Add one under [rig], "
        "or say lock_overhang."
    )


def _fight(choice: Choice, quantities: dict[str, Quantity]) -> str:
    """The fewest limits that no rig keeps together, and what giving way would help."""

    def told(words: tuple[str, dict[str, Quantity]]) -> str:
        quantities.update(words[1])
        return words[0]

    names = [told(limit_in_words(choice, name)) for name in choice.fights]
    first = f"{_COUNTS.get(len(names), 'These limits fight')}: {'; '.join(names)}."
    if not choice.reliefs:
        body = any(name in OF_THE_BODY for name in choice.fights)
        why = (
            "Move the seat, or check the sizes of the rower" if body else "More than two limits would have to give way"
        )
        return f"{first} {why}."
    near = [relief for relief in choice.reliefs if relief.gives <= BEYOND * STEPS[relief.limit]]
    far = [told(relief_in_words(choice, relief)) for relief in choice.reliefs if relief not in near]
    gives = [told(relief_in_words(choice, relief)) for relief in near]
    if choice.both_must_give:
        return f"{first} Two would both have to give way: {', and '.join([*gives, *far])}."
    ways = [
        f"Any one of these is enough to give way: {'; or '.join(gives)}." if len(gives) > 1
        else f"A rig fits if this gives way: {gives[0]}." if gives
        else "No giving way within reason helps: change the station, or what is asked of it."
    ]  # fmt: skip
    if far:
        ways.append(f"Beyond reason would be {'; or '.join(far)}.")
    others = [name for name in choice.fights if name not in {relief.limit for relief in choice.reliefs}]
    if others and near:
        alone = listed([asks(choice, name) for name in others])
        ways.append(f"{alone[:1].upper()}{alone[1:]} alone would not be enough.")
    return " ".join([first, *ways])


def _least_short(choice: Choice, rig: str, quantities: dict[str, Quantity], *, shown: bool) -> str:
    """The rig that is nearest to one that fits, and which limits it breaks."""
    breaks = []
    for name, room in choice.chosen.slack.items():
        if room < -SAME:
            quantities[f"short_{name}"] = Quantity(value=-room, unit=UNITS[name], up=True)
            breaks.append(f"{asks(choice, name)}, by {{short_{name}}}")
    opening = "Shown is the rig that falls short least," if shown else "Nearest would be"
    return f"{opening} {rig}; it misses {'; '.join(breaks)}."


def _off_custom(found: Candidate, catch_aim: float, quantities: dict[str, Quantity], what: str, mark: str = "") -> str:
    """Where the rig lies furthest from the aims of custom."""
    elbow = found.strains.get("hand_height")
    aims = {
        "leverage_ratio": ("the leverage ratio", found.leverage_ratio, CUSTOMARY_RATIO, "1"),
        "overlap": ("the handles", abs(found.overlap), abs(CROSSED_AIM if found.overlap > 0 else APART_AIM), "m"),
        "dip_in_drive": ("the dip", found.dip_in_drive, EASY_DIP, "rad"),
        "catch_angle": ("the catch", found.catch_angle or 0.0, catch_aim, "rad"),
        "legs": ("the room over the legs", ROOM * (1 - found.strains.get("legs", 0.0)), ROOM, "m"),
        "lock_overhang": ("the overhang", found.lock_overhang, 0.0, "m"),
        "hand_height": (
            "the hands in the drive",
            found.hand_height_in_drive,
            found.hand_height_in_drive - (elbow or 0.0) * HAND_WIDTH,
            "m",
        ),
    }
    far = sorted(
        (name for name, off in found.strains.items() if abs(off) >= NEAR and name in aims),
        key=lambda n: -abs(found.strains[n]),
    )
    if not far:
        return f"{what} lies close to every customary aim."
    told = []
    for number, name in enumerate(far[:3], 1):
        word, value, aim, unit = aims[name]
        quantities |= {
            f"{mark}is_{number}": Quantity(value=value, unit=unit),
            f"{mark}aim_{number}": Quantity(value=aim, unit=unit),
        }
        told.append(f"{word} ({{{mark}is_{number}}}, aim {{{mark}aim_{number}}})")
    return f"{what} lies furthest from the customary aims in {', '.join(told)}."
