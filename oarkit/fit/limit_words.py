"""A limit in words: what it asks, whether the file asks it or custom, and what giving way would mean."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from oarkit.fit.limits import APART, CROSSED, CUSTOMS, UNITS, Choice, Relief
from oarkit.working import Quantity

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
_ORIGINS = {True: "as the file asks", False: "by custom"}


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


def limit_in_words(choice: Choice, name: str) -> tuple[str, dict[str, Quantity]]:
    """A limit with what it allows, and whether the file asks it or custom.

    Parameters
    ----------
    choice : Choice
        The choice. [record]
    name : str
        Name of the limit. [text]

    Returns
    -------
    tuple
        Words with named gaps, and what fills them. [text, records]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> limit_in_words(design(example_project("quillet").inputs).choice, "dip_in_drive")[0]
    'the steepest dip ({dip_in_drive_limit}, by custom)'
    """
    limits = choice.limits
    single = {"longest_stowed": limits.longest_stowed, "arc": limits.least_arc, "dip_in_drive": limits.dip}.get(name)
    if single is not None:
        return f"{asks(choice, name)} ({{{name}_limit}}, {_ORIGINS[name in limits.told()]})", {
            f"{name}_limit": Quantity(value=single, unit=UNITS[name])
        }
    if name not in ("overlap", *CUSTOMS):
        return asks(choice, name), {}
    told = getattr(limits, name)
    in_force = choice.overlap_range if name == "overlap" else limits.ends(name)
    assert in_force is not None
    word = asks(choice, name)
    if name == "overlap" and in_force[1] <= 0:
        word, told, in_force = "the gap of the handles", told[::-1], (-in_force[1], -in_force[0])
    elif name == "overlap" and in_force[0] >= 0:
        word = "the overlap of the handles"
    ends, quantities = [], {}
    for side, end, given in zip(("least", "most"), in_force, told, strict=True):
        if given is None and (not math.isfinite(end) or _in_tow(choice, name)):
            continue
        quantities[f"{name}_{side}"] = Quantity(value=end, unit=UNITS[name])
        ends.append((f"at {side} {{{name}_{side}}}", _ORIGINS[given is not None]))
    if len(ends) == 2 and ends[0][1] == ends[1][1]:
        return f"{word} ({{{name}_least}} to {{{name}_most}}, {ends[0][1]})", quantities
    return f"{word} ({', '.join(f'{end} {origin}' for end, origin in ends)})", quantities


def _in_tow(choice: Choice, name: str) -> bool:
    """Whether one end was told so far out that custom has no other end for it."""
    custom = CUSTOMS.get(name, (CROSSED, APART)[(choice.overlap_range or (0.0, 0.0))[1] <= 0])
    low, high = getattr(choice.limits, name)
    return (low is not None and low >= custom[1]) or (high is not None and high <= custom[0])


def relief_in_words(choice: Choice, relief: Relief) -> tuple[str, dict[str, Quantity]]:
    """A limit that would give way, by how much and which way.

    Parameters
    ----------
    choice : Choice
        The choice. [record]
    relief : Relief
        What gives way. [record]

    Returns
    -------
    tuple
        Words with a named gap, and what fills it. [text, record]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> choice = design(example_project("quillet").inputs).choice
    >>> relief_in_words(choice, Relief(limit="overlap", gives=0.01, more=True))[0]
    'the overlap or gap of the handles, by {gives_overlap} more overlap'
    """
    name = relief.limit
    way = "" if relief.more is None else " more" if relief.more else " less"
    if name == "overlap" and way:
        apart = choice.overlap_range is not None and choice.overlap_range[1] <= 0
        way = {(False, True): " more overlap", (False, False): " less overlap", (True, True): " less gap",
               (True, False): " more gap"}[apart, bool(relief.more)]  # fmt: skip
    quantity = Quantity(value=relief.gives, unit=UNITS[name], up=True)
    return f"{asks(choice, name)}, by {{gives_{name}}}{way}", {f"gives_{name}": quantity}


def listed(names: Sequence[str]) -> str:
    """Words in a row, with an "and" before the last.

    Parameters
    ----------
    names : sequence of str
        The words. [text]

    Returns
    -------
    str
        A row of them. [text]

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> listed(["span", "overlap", "length"])
    'span, overlap and length'
    """
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
