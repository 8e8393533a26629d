"""Limits as margins over many rigs: which rigs keep them, and where none does, what fights and what would help."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import combinations

import numpy as np

from oarkit.fit.limits import BEYOND, OF_THE_BODY, SAME, STEPS, Relief
from oarkit.working import Array

Margins = Mapping[str, Array]  #: limit to how far inside it every rig lies, negative where it does not keep it


def keeping(margins: Margins, *, relaxed: Mapping[str, float] | None = None, without: Sequence[str] = ()) -> Array:
    """Which rigs keep every limit, some of them relaxed or left out.

    Parameters
    ----------
    margins : mapping
        Margin of every rig inside each limit, in the limit's own unit. [any]
    relaxed : mapping, optional
        By how much limits give way, in the same units. [any]
    without : sequence of str, optional
        Limits that are left out. [text]

    Returns
    -------
    array
        Whether each rig keeps them. [flag]

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> margins = {"dip_in_drive": np.array([0.1, -0.1]), "legs": np.array([-0.01, 0.02])}
    >>> keeping(margins).tolist(), keeping(margins, without=["legs"]).tolist()
    ([False, False], [True, False])
    """
    kept = np.ones(np.shape(next(iter(margins.values()))), dtype=bool)
    for name, margin in margins.items():
        if name not in without:
            kept &= margin >= -SAME - (relaxed or {}).get(name, 0.0)
    return kept


def fewest_that_fight(margins: Margins, told: frozenset[str]) -> tuple[str, ...]:
    """The fewest limits that no rig keeps together; of equals those with most that were told, not customary.

    Parameters
    ----------
    margins : mapping
        Margin of every rig inside each limit. [any]
    told : frozenset of str
        Limits that were told. [text]

    Returns
    -------
    tuple of str
        Their names; none where a rig keeps them all. [text]

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> margins = {"dip_in_drive": np.array([0.1, -0.1]), "legs": np.array([-0.01, 0.02])}
    >>> fewest_that_fight(margins, frozenset())
    ('dip_in_drive', 'legs')
    """
    for count in range(1, len(margins) + 1):
        sets = [names for names in combinations(margins, count)
                if not keeping({name: margins[name] for name in names}).any()]  # fmt: skip
        if sets:
            return max(sets, key=lambda names: len(told.intersection(names)))
    return ()


def what_helps(margins: Margins, over: Mapping[str, Array]) -> tuple[tuple[Relief, ...], bool]:
    """Limits that would each be enough to give way, least steps first; or the two that both would have to.

    A limit of the body gives no way. Two limits are looked at where no single one is enough within reason.

    Parameters
    ----------
    margins : mapping
        Margin of every rig inside each limit. [any]
    over : mapping
        For limits that can be missed by too much: whether every rig has more than the middle of the range. [flag]

    Returns
    -------
    tuple
        Reliefs, and whether they are two that must both give way. [records, flag]

    Notes
    -----
    Source: definition; a limit gives within reason up to eight of its steps, a choice of this project.

    Examples
    --------
    >>> margins = {"dip_in_drive": np.array([0.1, -0.1]), "legs": np.array([-0.01, 0.02])}
    >>> reliefs, both = what_helps(margins, {"dip_in_drive": np.array([False, True])})
    >>> [(relief.limit, relief.gives, relief.more) for relief in reliefs], both
    ([('legs', 0.01, None), ('dip_in_drive', 0.1, True)], False)
    """

    def relief(name: str, at: int) -> Relief:
        more = bool(over[name][at]) if name in over else None
        return Relief(limit=name, gives=float(max(-margins[name][at], 0.0)), more=more)

    def steps(one: Relief) -> float:
        return one.gives / STEPS[one.limit]

    may = [name for name in margins if name not in OF_THE_BODY]
    singles = []
    for name in may:
        rest = keeping(margins, without=[name])
        if rest.any():
            singles.append(relief(name, int(np.argmax(np.where(rest, margins[name], -np.inf)))))
    singles.sort(key=steps)
    if singles and steps(singles[0]) <= BEYOND:
        return tuple(singles), False
    pairs = []
    for one, other in combinations(may, 2):
        rest = keeping(margins, without=[one, other])
        if rest.any():
            cost = sum(np.maximum(-margins[name], 0.0) / STEPS[name] for name in (one, other))
            at = int(np.argmin(np.where(rest, cost, np.inf)))
            pairs.append((relief(one, at), relief(other, at)))
    pair = min(pairs, key=lambda two: steps(two[0]) + steps(two[1]), default=())
    if pair and (not singles or max(map(steps, pair)) <= BEYOND):
        return pair, True
    return tuple(singles), False
