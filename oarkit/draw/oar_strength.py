"""What bends an oar and what it can bear, drawn along it on one axis."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from matplotlib.axes import Axes

from oarkit.draw.paper import GREY, INK, PALE, SMALL, TEXT, WIDTH, Paper, length_text, spread
from oarkit.oar.build import Oar
from oarkit.strength.along import bending_along, moment_strength
from oarkit.strength.beam import moment_along
from oarkit.strength.load import LoadCase
from oarkit.units import Display
from oarkit.working import Array, Number

MOST_CASES = 8  #: lines that one chart may hold and still be read
_LABEL_SHARE = 0.12  #: share of the chart's width that a place's label takes
_LEFT, _WIDE, _AXIS, _OVER = 16.0, 160.0, 52.0, 8.5  #: of the axes: left end, width, height, and room over them [mm]
_ROW = 4.6  #: from one line of the legend to the next [mm]

Style: TypeAlias = tuple[str, float, tuple[float, ...]]  #: ink, width [pt] and dashes [widths]
_DASHES: tuple[tuple[float, ...], ...] = ((), (5, 2), (1, 1.4), (6, 2, 1, 2), (9, 3), (2.5, 2), (6, 2, 1, 2, 1, 2))


@dataclass(frozen=True, slots=True, kw_only=True)
class Closest:
    """Where a load comes closest to what the oar bears: place [m], moments there [N m], ratio of strength to stress."""

    case: str
    place: float
    moment: float
    borne: float
    ratio: float


def closest(oar: Oar, case: LoadCase) -> Closest:
    """Where bending under a load comes closest to the strength of a piece, any push along the oar counted."""
    stress = [np.divide(along, float(piece.wood.strength))
              for piece, along in zip(oar.pieces, bending_along(oar, case), strict=True)]  # fmt: skip
    used = np.max(stress, axis=0)
    at = int(np.argmax(used))
    moment, borne = np.abs(moment_along(oar, case)), moment_strength(oar, case.plane)
    return Closest(
        case=case.name, place=float(oar.s[at]), moment=float(moment[at]), borne=float(borne[at]),
        ratio=float(1 / used[at]) if used[at] > 0 else np.inf,
    )  # fmt: skip


def strength_chart(oar: Oar, cases: Sequence[LoadCase], display: Display, *, safety: Number, of: str = "oar") -> Paper:
    """Bending moment of load cases along the oar, on one axis with the moment that the oar can bear.

    Cases in the stroke's plane are drawn, the nearest to breaking first, as many as can be told apart: rowing black,
    abuse grey. ``of`` names the oar where the two of a pair differ.
    """
    bending = [case for case in cases if case.plane == "stroke" and np.any(np.abs(moment_along(oar, case)) > 1e-6)]
    found = sorted(((closest(oar, case), case) for case in bending), key=lambda one: one[0].ratio)
    shown = found[:MOST_CASES]
    styles = _styles([case.kind == "abuse" for _, case in shown])
    borne, wanted = moment_strength(oar), float(safety)
    notes = _strength_notes(found, display)
    foot = 12.5 + _ROW * ((len(shown) + 3) // 2) + _ROW * len(notes) + 2
    paper = Paper(
        height=foot + _AXIS + _OVER,
        scale=1,
        origin=(0, 0),
        title=f"Bending moment and strength along the {of}",
        text_alternative=_strength_in_words(oar, borne, found, wanted, of, display),
    )
    axes, per = along_axes(paper, oar, foot, display)
    axes.set_ylabel("bending moment [N m]", fontsize=TEXT)
    axes.plot(oar.s * per, borne, color=INK, linewidth=2.6)
    axes.plot(oar.s * per, borne / wanted, color=INK, linewidth=0.6)
    moments = [np.abs(moment_along(oar, case)) for _, case in shown]
    for moment, style in zip(moments, styles, strict=True):
        drawn(axes, oar.s * per, moment, style)
    if found:
        near = nearest_bending(found)
        axes.plot([near.place * per] * 2, [near.moment, near.borne], color=INK, linewidth=0.6)
        axes.plot([near.place * per] * 2, [near.moment, near.borne], "o", color=INK, markersize=4, zorder=6)
    axes.set_ylim(0, 1.05 * max(float(np.max(line)) for line in (borne, *moments)))
    place_names(paper, axes, oar, foot, per)
    entries: list[tuple[Style, str]] = [
        ((INK, 2.6, ()), "borne at the woods' lower 5 % strength"),
        ((INK, 0.6, ()), f"that over {wanted:g}, the ratio wanted"),
    ]
    entries += [(style, _case_words(near, display)) for (near, _), style in zip(shown, styles, strict=True)]
    legend(paper, entries, foot - 12.5)
    for row, words in enumerate(reversed(notes)):
        paper.text(3, 3.2 + _ROW * row, words, size=SMALL, color=GREY)
    return paper


def nearest_bending(found: Sequence[tuple[Closest, LoadCase]]) -> Closest:
    """The nearest of loads that only bend, which the chart can show; if all push along the oar too, of those."""
    only = [near for near, case in found if not np.any(np.asarray(case.axial))]
    return min(only or [near for near, _ in found], key=lambda near: near.ratio)


def _styles(abuse: Sequence[bool]) -> list[Style]:
    """A way to draw each line: black for rowing, grey and never solid for abuse, told apart by dashes."""
    styles: list[Style] = []
    for i, grey in enumerate(abuse):
        dashes = _DASHES[1:] if grey else _DASHES
        before = sum(one == grey for one in abuse[:i])
        styles.append((GREY if grey else INK, 1.3, dashes[before % len(dashes)]))
    return styles


def _case_words(near: Closest, display: Display) -> str:
    return f"{near.case}: {near.ratio:.2f} at {length_text(near.place, display, second=False)}"


def _strength_notes(found: Sequence[tuple[Closest, LoadCase]], display: Display) -> list[str]:
    """What the numbers and the dots are, and which loads are left out."""
    if not found:
        return ["no load bends it in the stroke's plane"]
    near = nearest_bending(found)
    notes = [
        "black: rowing and bench; grey: abuse. Numbers: strength over stress where it is least",
        f"dots: closest by bending alone, {near.case} at {length_text(near.place, display)}",
    ]
    if any(np.any(np.asarray(case.axial)) for _, case in found):
        notes.append("where a load pushes along the oar too, its number counts the push, its line does not")
    left = [one.case for one, _ in found[MOST_CASES:]]
    return notes + ([f"further from breaking, not drawn: {', '.join(left)}"] if left else [])


def _strength_in_words(
    oar: Oar, borne: Array, found: Sequence[tuple[Closest, LoadCase]], wanted: float, of: str, display: Display
) -> str:
    at_lock = float(np.interp(float(oar.shape.inboard), oar.s, borne))
    cases = "; ".join(_case_words(near, display) for near, _ in found)
    return (
        f"Bending moment along the {of} under {len(found)} loads, against the moment it bears at the woods' lower 5 % "
        f"strength: {at_lock:.0f} N m at the pin line. The ratio wanted is {wanted:g}. Strength over stress of each "
        f"load where it is least: {cases or 'none bends it'}."
    )


# Parts of a chart along the oar


def along_axes(paper: Paper, oar: Oar, foot: float, display: Display) -> tuple[Axes, float]:
    """Axes with the place along the oar below, and how many of its units go into a metre."""
    axes = paper.figure.add_axes(
        (_LEFT / WIDTH, foot / paper.height, _WIDE / WIDTH, _AXIS / paper.height)
    )  # fmt: skip
    unit, per = ("mm", 1e3) if display == "mm" else ("in", 1 / 0.0254)
    axes.set_xlim(0, float(oar.shape.length) * per)
    axes.set_xlabel(f"from the handle end [{unit}]", fontsize=TEXT)
    axes.tick_params(labelsize=SMALL)
    axes.spines[["top", "right"]].set_visible(False)
    return axes, per


def drawn(axes: Axes, x: Array, y: Array, style: Style) -> None:
    """A line of a chart in its style."""
    color, width, dashes = style
    (line,) = axes.plot(x, y, color=color, linewidth=width)
    if dashes:
        line.set_dashes(list(dashes))


def place_names(paper: Paper, axes: Axes, oar: Oar, foot: float, per: float) -> None:
    """Upright lines at hand, pin and blade, named over the chart."""
    shape, length = oar.shape, float(oar.shape.length)
    places = (
        ("grip centre", shape.grip_centre),
        ("pin", shape.inboard),
        ("blade root", shape.blade_root),
        ("mid-blade", shape.mid_blade),
    )
    half = _LABEL_SHARE / 2
    apart = spread([float(s) / length for _, s in places], _LABEL_SHARE, half - 0.03, 1 - half + 0.04)
    for (name, s), label in zip(places, apart, strict=True):
        axes.axvline(float(s) * per, color=PALE, linewidth=0.6, zorder=0)
        start, x = _LEFT + _WIDE * float(s) / length, _LEFT + _WIDE * label
        paper.line([start, x], [foot + _AXIS, foot + _AXIS + 3], color=PALE, width=0.5, model=False)
        paper.text(x, foot + _AXIS + 3.4, name, size=SMALL, color=GREY, ha="center", va="bottom")


def legend(paper: Paper, entries: Sequence[tuple[Style, str]], top: float) -> None:
    """Samples of lines with their words, two in a row, under a height of the paper [mm]."""
    for i, ((color, width, dashes), words) in enumerate(entries):
        x, y = 3 + (WIDTH - 6) / 2 * (i % 2), top - _ROW * (i // 2 + 0.5)
        paper.line([x, x + 10], [y, y], color=color, width=width, dashes=dashes, model=False)
        paper.text(x + 12, y, words, size=SMALL)
