"""What stiffness costs in weight: the lightest oars for a row of stiffness indexes, and the present one among them."""

from __future__ import annotations

from collections.abc import Sequence

from oarkit.draw.paper import GREY, INK, PALE, SMALL, TEXT, WIDTH, Paper, length_text, spread
from oarkit.oar.build import Oar
from oarkit.oar.mass import mass
from oarkit.strength.bend import bench_drop, stiffness_index
from oarkit.strength.sizing import LoomSize
from oarkit.units import Display, both, feet_inches
from oarkit.working import Quantity

_LEFT, _WIDE, _FOOT, _AXIS = 18.0, 156.0, 22.5, 58.0  #: of the axes [mm]
_LABELS = 27.0  #: over them, for what is written upright [mm]
_GAP = 4.4  #: from one upright label to the next [mm]


def sizing_chart(
    oar: Oar, sizes: Sequence[LoomSize], display: Display, *, wanted_index: float | None = None, of: str = "oar"
) -> Paper:
    """Mass of the whole oar against its stiffness index: lightest looms, each named by its size in the lock.

    Looms that miss a wish are hollow. The present oar is a diamond, the wanted index a dashed line.
    """
    ordered = sorted(dict.fromkeys(sizes), key=lambda size: (size.index, size.mass))
    drop = bench_drop(oar)
    here = float(stiffness_index(drop=drop, blade_arm=oar.blade_arm)), float(mass(oar))
    paper = Paper(
        height=_FOOT + _AXIS + _LABELS,
        scale=1,
        origin=(0, 0),
        title=f"What stiffness costs: mass of the {of} against its stiffness index",
        text_alternative=_in_words(ordered, here, wanted_index, of, display),
    )
    axes = paper.figure.add_axes((_LEFT / WIDTH, _FOOT / paper.height, _WIDE / WIDTH, _AXIS / paper.height))
    per = 1.0 if display == "mm" else 1 / 0.45359237
    indexes = [size.index for size in ordered] + [here[0]] + ([] if wanted_index is None else [wanted_index])
    masses = [size.mass * per for size in ordered] + [here[1] * per]
    axes.patch.set_visible(False)
    axes.set_xlim(*_wider(min(indexes), max(indexes), 0.05))
    axes.set_ylim(*_wider(min(masses), max(masses), 0.08))
    axes.set_xlabel("stiffness index: bench drop over blade arm; stiff to the left, limber to the right", fontsize=TEXT)
    axes.set_ylabel(f"mass of one oar [{'kg' if display == 'mm' else 'lb'}]", fontsize=TEXT)
    axes.tick_params(labelsize=SMALL)
    axes.spines[["top", "right"]].set_visible(False)
    fit = [size for size in ordered if size.fits]
    axes.plot([size.index for size in fit], [size.mass * per for size in fit], color=INK, linewidth=1.2)
    for size in ordered:
        fill = INK if size.fits else "white"
        axes.plot([size.index], [size.mass * per], "o", color=INK, markersize=5, markerfacecolor=fill, zorder=5)
    axes.plot([here[0]], [here[1] * per], "D", color=INK, markersize=7, markerfacecolor="white", zorder=6)
    axes.plot([here[0]], [here[1] * per], "D", color=INK, markersize=3, zorder=6)
    if wanted_index is not None:
        axes.axvline(wanted_index, color=INK, linewidth=0.9, dashes=(5, 3))
    named = [(size.index, size.mass * per, _lock(size, display)) for size in ordered]
    named.append((here[0], here[1] * per, "this oar"))
    if wanted_index is not None:
        named.append((wanted_index, axes.get_ylim()[1], f"wanted {wanted_index:.3f}"))
    _labels(paper, axes.get_xlim(), axes.get_ylim(), named)
    missed = ", hollow: misses a wish" if len(fit) < len(ordered) else ""
    words = (
        f"dots: the lightest looms on the builder's steps, named by their size in the lock{missed}; diamond: this oar"
    )
    paper.text(3, 7.6, words, size=SMALL, color=GREY)
    paper.text(3, 3.2, "mass: wood and leather, no glue or finish", size=SMALL, color=GREY)
    return paper


def _lock(size: LoomSize, display: Display) -> str:
    """Size in the lock; in inches to the thirty-second, which is a builder's step there."""
    return feet_inches(size.lock, parts=32) if display == "ft-in" else length_text(size.lock, display, second=False)


def _wider(low: float, high: float, share: float) -> tuple[float, float]:
    """The two ends a little further apart, also where they are one."""
    room = max(share * (high - low), 0.01 * abs(high))
    return low - room, high + room


def _labels(
    paper: Paper, across: tuple[float, float], upright: tuple[float, float], named: Sequence[tuple[float, float, str]]
) -> None:
    """Words written upright over the chart, apart from one another, each led to its point."""
    top = _FOOT + _AXIS
    points = [
        (
            _LEFT + _WIDE * (x - across[0]) / (across[1] - across[0]),
            _FOOT + _AXIS * (y - upright[0]) / (upright[1] - upright[0]),
        )
        for x, y, _ in named
    ]
    placed = spread([x for x, _ in points], _GAP, 3.0, WIDTH - 3.0)
    for (x, y), at, (_, _, words) in zip(points, placed, named, strict=True):
        paper.line([x, x, at], [min(y + 1.2, top), top, top + 3.5], color=PALE, width=0.5, model=False)
        paper.text(at, top + 4.3, words, size=SMALL, ha="center", va="bottom", rotation=90)


def _in_words(
    ordered: Sequence[LoomSize], here: tuple[float, float], wanted: float | None, of: str, display: Display
) -> str:
    def weight(value: float) -> str:
        first, other = both(Quantity(value=value, unit="kg"), display)
        return f"{first} ({other})"

    rows = "; ".join(
        f"index {size.index:.3f}, {weight(size.mass)}, {length_text(size.lock, display)} in the lock"
        f"{'' if size.fits else ', misses a wish'}"
        for size in ordered
    )
    asked = "" if wanted is None else f" The wanted index is {wanted:.3f}."
    return (
        f"Mass of the whole {of} against its stiffness index. This {of}: index {here[0]:.3f}, {weight(here[1])}.{asked}"
        f" The lightest looms: {rows}."
    )
