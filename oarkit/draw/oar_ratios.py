"""Ratios of strength to stress as bars, the worst first."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from oarkit.draw.paper import GREY, INK, PALE, SMALL, WOOD_HARD, WOOD_SOFT, Paper, length_text, spread
from oarkit.strength.hard_start import Check
from oarkit.units import Display
from oarkit.working import Number

LEAST, MOST = 0.2, 20.0  #: ends of the axis of ratios
MOST_BARS, MOST_DENTS = 22, 4  #: rows that still make one picture
_NAMES, _RIGHT = 104.0, 146.0  #: ends of the axis of ratios [mm]


def ratio_chart(checks: Sequence[Check], wanted: Number, display: Display, *, of: str = "oar") -> Paper:
    """Strength over stress as bars, the worst first, and under them in pale what would only dent the wood.

    Each way of breaking under each load is told once, by the piece that comes nearest to it; each way of denting once,
    under its worst load.
    """
    order = told_once(checks)
    foot, step = 15.0, 4.8
    top = foot + step * len(order)
    paper = Paper(
        height=top + 7,
        scale=1,
        origin=(0, 0),
        title=f"How far the {of} is from breaking",
        text_alternative=_ratios_in_words(order, len(checks), float(wanted), display),
    )
    for mark in (0.2, 0.5, 1, 2, 5, 10, 20):
        x = _across(mark)
        paper.line([x, x], [foot, top], color=PALE, width=0.5, model=False)
        paper.text(x, foot - 3, f"{mark:g}", size=SMALL, ha="center")
    for row, check in enumerate(order):
        y, ratio = top - step * (row + 0.5), float(np.min(check.ratio))
        at = length_text(_place(check), display, second=False)
        paper.text(_NAMES - 2, y, _name(check), size=SMALL, ha="right")
        paper.bar(_NAMES, max(_across(ratio), _NAMES + 0.4), y, 2.8, fill=WOOD_HARD if check.breaks else WOOD_SOFT)
        paper.text(_RIGHT + 4, y, f"{ratio:.2f} at {at}", size=SMALL)
        if ratio > MOST:
            paper.tip(_RIGHT + 2.2, y, (1, 0), size=2.0)
    for at_line, width, dashes in ((1.0, 1.2, ()), (float(wanted), 1.0, (4, 2))):
        paper.axes.plot([_across(at_line)] * 2, [foot, top + 1.5], color=INK, linewidth=width, dashes=dashes or (1, 0))
    ends = spread([_across(1.0), _across(float(wanted))], 17.0, _NAMES, _RIGHT + 20)
    for x, words in zip(ends, ("breaks", f"wanted {float(wanted):g}"), strict=True):
        paper.text(x, top + 2.2, words, size=SMALL, color=GREY, ha="center", va="bottom")
    paper.text(3, 7.0, "strength over stress, each step of the scale a multiple of the last", size=SMALL, color=GREY)
    paper.text(3, 2.6, "pale bars: wood that would be dented and not broken", size=SMALL, color=GREY)
    return paper


def told_once(checks: Sequence[Check]) -> list[Check]:
    """The nearest of the ways to break under each load, worst first, then of the ways to be dented; not too many."""
    nearest: dict[tuple[str, ...], Check] = {}
    for check in sorted(checks, key=lambda check: float(np.min(check.ratio))):
        key = (check.case, check.plane, check.what) if check.breaks else (check.what,)
        nearest.setdefault(key, check)
    broken = [check for check in nearest.values() if check.breaks]
    dented = [check for check in nearest.values() if not check.breaks]
    return broken[:MOST_BARS] + dented[:MOST_DENTS]


def _name(check: Check) -> str:
    return f"{check.case}{', edgewise' if check.plane == 'lateral' else ''}, {check.what}: {check.part}"


def _across(ratio: float) -> float:
    """Place of a ratio on the paper [mm]."""
    share = np.log(np.clip(ratio, LEAST, MOST) / LEAST) / np.log(MOST / LEAST)
    return float(_NAMES + (_RIGHT - _NAMES) * share)


def _place(check: Check) -> float:
    return float(np.ravel(check.place)[0])


def _ratios_in_words(order: Sequence[Check], count: int, wanted: float, display: Display) -> str:
    rows = "; ".join(
        f"{_name(check)} at {length_text(_place(check), display)}, {float(np.min(check.ratio)):.2f}" for check in order
    )
    return f"Strength over stress, {len(order)} of {count} checks, worst first, dents last, wanted {wanted:g}: {rows}."
