"""Says what was chosen and why: which limits decide, what one step more would change, what fights what."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from oarkit.fit.limits import (
    APART_AIM,
    BEYOND,
    CROSSED_AIM,
    CROSSING_SPAN,
    EASY_DIP,
    HAND_WIDTH,
    STEPS,
    UNITS,
    Candidate,
    Choice,
    Relief,
)
from oarkit.rig.station import CUSTOMARY_RATIO
from oarkit.working import Finding, Number, Quantity

#: What a limit asks, in words.
ASKS: Mapping[str, str] = {
    "legs": "hands clear of thighs and knees in the wave",
    "arms": "grips within reach of the arms",
    "catch": "hands aft of the pins at the catch",
    "overlap": "the overlap or gap of the handles",
    "leverage_ratio": "the leverage ratio",
    "longest_stowed": "the longest oar that stows",
    "arc": "the arc of the stroke",
    "dip_in_drive": "the steepest dip",
    "lock_overhang": "the overhang of the locks",
    "hand_height": "the height of the hands in the drive",
}
_LEFT_OPEN = {"lock_overhang": "overhang", "overlap": "overlap", "length": "length"}
_COUNTS = {1: "One limit cannot be kept", 2: "Two limits fight", 3: "Three limits fight"}
_OF_THE_BODY = ("arms", "catch")  #: what no one can give way in
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
        opening = "No rig keeps every limit." if left_open else "Left open, overlap and length would find no rig."
        parts = [opening, _fight(choice, quantities), _least_short(choice, rig, quantities, shown=bool(left_open))]
    else:
        parts = [_opening(left_open, rig), *_decisions(choice, quantities, overhang=overhang)]
        parts += [_crossing(choice, beam, quantities) if "overlap" in left_open else ""]
        parts += [_off_custom(choice.chosen, choice.catch_aim, quantities, "It")]
    if not left_open:
        parts.insert(0, _off_custom(own, choice.catch_aim, quantities, "The rig of the file", "own_"))
    parts += [_on_brackets(choice, quantities) if overhang and not bracket else ""]
    fails = bool(left_open) and not choice.fits
    return [
        Finding(
            level="fails" if fails else "note",
            code="nothing_fits" if fails else "choice",
            text=" ".join(part for part in parts if part),
            quantities=quantities,
            source="common practice; plane geometry",
        )
    ]


def _opening(left_open: Sequence[str], rig: str) -> str:
    if not left_open:
        return f"Left open, overlap and length would have come out at {rig}."
    *most, last = (_LEFT_OPEN[name] for name in left_open)
    return f"Left to the program, {', '.join(most)} and {last}: chosen is {rig}." if most else (
        f"Left to the program, {last}: chosen is {rig}."
    )  # fmt: skip


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
    """Which limits decide the rig that was chosen."""
    decides, feathered = choice.decides, ""
    if choice.feathered:
        feathered = "The wave decides: with the blade square no rig clears thighs and knees, feathered this one does."
    if decides:
        told = []
        for number, relaxed in enumerate(decides, 1):
            rig, more = _rig(relaxed.becomes, f"_{number}", overhang=overhang)
            quantities |= more | {f"step_{number}": Quantity(value=relaxed.step, unit=UNITS[relaxed.limit])}
            told.append(f"{ASKS[relaxed.limit]} (one step more, {{step_{number}}}, and it is {rig})")
        return [feathered, f"What decides it: {'; '.join(told)}."]
    against = [ASKS[name] for name, room in choice.unlimited.slack.items() if room < -1e-9]
    if not against:
        return [feathered or "No limit stands in its way: it lies nearest to all the customary aims together."]
    rig, more = _rig(choice.unlimited, "_free", overhang=overhang)
    quantities |= more
    return [
        feathered,
        f"Without limits it would be {rig}, against {' and '.join(against)}; one step more of one limit changes "
        "nothing.",
    ]


def _crossing(choice: Choice, beam: Number, quantities: dict[str, Quantity]) -> str:
    """Which range of overlap was looked at, and why."""
    assert choice.overlap_range is not None
    span = float(beam) + 2 * choice.chosen.lock_overhang
    low, high = sorted(map(abs, choice.overlap_range)) if choice.overlap_range[1] <= 0 else choice.overlap_range
    quantities |= {
        "span": Quantity(value=span, unit="m"),
        "crossing": Quantity(value=CROSSING_SPAN, unit="m"),
        "least": Quantity(value=abs(low), unit="m"),
        "most": Quantity(value=abs(high), unit="m"),
    }
    if low < 0 < high:
        between = "anything from a gap of {least} to an overlap of {most}"
    else:
        between = f"{'an overlap' if choice.chosen.overlap > 0 else 'a gap'} of {{least}} to {{most}}"
    if choice.limits.overlap != (None, None):
        del quantities["span"], quantities["crossing"]
        return f"By the limits of the file it had to be {between}."
    how = "crosses the handles" if span < CROSSING_SPAN else "keeps them side by side"
    from_there = "under" if span < CROSSING_SPAN else "from"
    return f"At a span of {{span}} custom {how}, with {between}; it does so {from_there} {{crossing}}."


def _on_brackets(choice: Choice, quantities: dict[str, Quantity]) -> str:
    """Pins that were chosen outside the rails want something to stand on."""
    if choice.chosen.lock_overhang < AT_THE_RAIL:
        return ""
    quantities["out"] = Quantity(value=choice.chosen.lock_overhang, unit="m")
    return (
        "Pins {out} outside the rails stand on brackets; the file has none, so none is checked. Add one under [rig], "
        "or say lock_overhang."
    )


def asks(choice: Choice, name: str) -> str:
    """What a limit asks, in words; for the legs with how the blade is carried.

    Parameters
    ----------
    choice : Choice
        The choice. [record]
    name : str
        Name of the limit. [text]

    Returns
    -------
    str
        A few words. [text]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> asks(design(example_project("quillet").inputs).choice, "legs")
    'hands clear of thighs and knees in the wave, blade square'
    """
    carried = f", blade {'feathered' if choice.feathered else 'square'}" if name == "legs" else ""
    return ASKS[name] + carried


def _fight(choice: Choice, quantities: dict[str, Quantity]) -> str:
    """The fewest limits that no rig keeps together, and what giving way would help."""
    names = [_limit(choice, name, quantities) for name in choice.fights]
    first = f"{_COUNTS.get(len(names), 'These limits fight')}: {_listed(names)}."
    may = [relief for relief in choice.reliefs if relief.limit not in _OF_THE_BODY]
    near = [relief for relief in may if choice.both_must_give or relief.gives <= BEYOND * STEPS[relief.limit]]
    if not choice.reliefs:
        return f"{first} More than two limits would have to give way."
    if not near:
        return f"{first} No giving way within reason helps: change the station, or what is asked of it."
    gives = [_gives(choice, relief, quantities) for relief in near]
    if choice.both_must_give:
        return f"{first} Two would both have to give way: {gives[0]}, and {gives[1]}."
    if len(gives) == 1:
        return f"{first} A rig fits if this gives way: {gives[0]}."
    return f"{first} Any one of these is enough to give way: {'; or '.join(gives)}."


def _limit(choice: Choice, name: str, quantities: dict[str, Quantity]) -> str:
    """A limit with what it allows, and whether it was told or is custom."""
    limits = choice.limits
    ends: tuple[Number, ...] = {
        "overlap": choice.overlap_range or (),
        "leverage_ratio": limits.leverage_ratio,
        "longest_stowed": (limits.longest_stowed or 0.0,),
        "arc": (limits.least_arc or 0.0,),
        "dip_in_drive": (limits.most_dip,),
        "lock_overhang": limits.lock_overhang,
        "hand_height": limits.hand_height or (),
    }.get(name, ())
    if not ends:
        return asks(choice, name)
    gaps = [f"{name}_limit_{number}" for number in range(len(ends))]
    quantities |= {gap: Quantity(value=end, unit=UNITS[name]) for gap, end in zip(gaps, ends, strict=True)}
    origin = "as the file asks" if name in limits.told() else "by custom"
    return f"{ASKS[name]} ({' to '.join(f'{{{gap}}}' for gap in gaps)}, {origin})"


def _gives(choice: Choice, relief: Relief, quantities: dict[str, Quantity]) -> str:
    gap = f"gives_{relief.limit}"
    quantities[gap] = rounded_up(relief.gives, UNITS[relief.limit])
    return f"{asks(choice, relief.limit)}, by {{{gap}}}"


def _listed(names: Sequence[str]) -> str:
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)


def rounded_up(value: float, unit: str) -> Quantity:
    """A number rounded up to what is printed, so that giving way by what is read is enough.

    Parameters
    ----------
    value : float
        By how much a limit would have to give, in SI. [any]
    unit : str
        Its unit. [text]

    Returns
    -------
    Quantity
        The number rounded up. [record]

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> round(rounded_up(0.01231, "m").value, 6)
    0.0124
    """
    step = {"m": 1e-4, "rad": math.radians(0.1), "1": 1e-3}[unit]
    return Quantity(value=math.ceil(value / step - 1e-9) * step, unit=unit)


def _least_short(choice: Choice, rig: str, quantities: dict[str, Quantity], *, shown: bool) -> str:
    """The rig that is nearest to one that fits, and which limits it breaks."""
    breaks = []
    for name, room in choice.chosen.slack.items():
        if room < -1e-9:
            quantities[f"short_{name}"] = rounded_up(-room, UNITS[name])
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
        return f"{what} lies close to every customary aim."
    told = []
    for number, name in enumerate(far[:3], 1):
        word, value, aim, unit = aims[name]
        quantities |= {
            f"{mark}is_{number}": Quantity(value=value, unit=unit),
            f"{mark}aim_{number}": Quantity(value=aim, unit=unit),
        }
        told.append(f"{word} ({{{mark}is_{number}}}, aim {{{mark}aim_{number}}})")
    return f"{what} lies off the customary aim in {', '.join(told)}."
