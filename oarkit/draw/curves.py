"""Clearance over the thighs against the wave and against the heel, and where the hands strike."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from matplotlib.axes import Axes

from oarkit.design import Design
from oarkit.draw.paper import GREY, INK, SMALL, WIDTH, Paper, length_text, spread
from oarkit.project import Project
from oarkit.rig.height import FEATHERED_HALF_WIDTH
from oarkit.rig.waves import LOCK_BLOCK, TIGHT, clearance_in_waves, heel_that_takes, lock_block
from oarkit.units import Display
from oarkit.working import Array, Number

MOST_WAVE, MOST_HEEL = 0.400, math.radians(8)  #: ends of the two axes [m, rad]
_HEIGHT, _BOTTOM, _AXIS = 102.0, 23.0, 62.0  #: of the paper, under the axes, and of the axes [mm]
_LEFTS, _WIDE = (15.0, 102.0), 52.0  #: left ends of the two panels, and their width [mm]
_STEP = 4.0  #: from one label to the next [mm]
_ROWS = 3 * _STEP + 3  #: kept free over the line of the tight clearance, for the labels of the strikes [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """One way of carrying the blade: clearance against wave and heel, and what it can bear."""

    name: str
    dashes: tuple[float, ...]
    color: str
    width: float
    clearance: Callable[..., Number]  #: of wave [m] and heel [rad], in m
    largest_wave: float  #: hands touch here, boat upright; negative where they touch on level water [m]
    most_heel: float  #: hands touch here at the project's wave; nil where they touch upright [rad]
    marked: bool = True


def curves_of(made: Design) -> list[Curve]:
    """The curves of a design: blade square, feathered, square with a block under the locks, and over the knee."""
    station, legs = made.inputs.station, made.seated.legs
    thigh = made.inputs.rower.body.thigh_thickness
    if thigh is None:
        return []
    width = float(made.inputs.sizes.blade_width)
    pinned = station.lock == "pinned"
    ways: list[tuple[str, float, float, float, tuple[float, ...], str, float]] = [
        ("square", width / 2, 0.0, float(thigh.value), (), INK, 1.6),
        (
            "feathered" if not pinned else "if feathered",
            FEATHERED_HALF_WIDTH,
            0.0,
            float(thigh.value),
            (5, 2),
            INK,
            1.4,
        ),
        ("with block", width / 2, LOCK_BLOCK, float(thigh.value), (1, 1.6), INK, 1.4),
    ]
    if legs is not None:
        ways.append(("over knee", width / 2, 0.0, float(legs.knee_top), (6, 2, 1, 2), GREY, 1.0))
    return [_curve(made, *way) for way in ways]


def _curve(
    made: Design,
    name: str,
    half_height: float,
    block: float,
    top: float,
    dashes: tuple[float, ...],
    color: str,
    width: float,
) -> Curve:
    rig = made.rig
    arms = {"hand_arm": float(rig.hand_arm), "blade_arm": float(rig.blade_arm)}

    def clearance(*, wave: Number, heel: Number = 0.0) -> Number:
        return clearance_in_waves(
            lock_above_water=float(rig.lock_above_water) + block, lock_above_seat=float(rig.lock_above_seat) + block,
            span=float(rig.span), half_height=half_height, thigh_thickness=top, wave=wave, heel=heel, **arms,
        )  # fmt: skip

    here = clearance(wave=float(made.inputs.station.wave_clearance))
    return Curve(
        name=name, dashes=dashes, color=color, width=width, clearance=clearance,
        largest_wave=float(clearance(wave=0.0)) * arms["blade_arm"] / arms["hand_arm"],
        most_heel=float(heel_that_takes(clearance=here, span=float(rig.span), **arms)),
        marked=name != "over knee",
    )  # fmt: skip


def clearance_curves(project: Project, made: Design) -> Paper | None:
    """Clear height over the thighs against the wave, boat upright, and against the heel at the project's wave."""
    curves = curves_of(made)
    if not curves:
        return None
    display, wave = project.display, float(made.inputs.station.wave_clearance)
    paper = Paper(
        height=_HEIGHT,
        scale=1,
        origin=(0, 0),
        title="Clearance over the thighs against the wave and against the heel",
        text_alternative=_in_words(made, curves, wave, display),
    )
    per = 1e3 if display == "mm" else 1 / 0.0254
    waves, heels = np.linspace(0, MOST_WAVE, 81), np.linspace(0, MOST_HEEL, 81)
    ends = [float(curve.clearance(wave=w, heel=h)) for curve in curves for w, h in _corners(wave)]
    low = min(min(ends), -0.02) - 0.005
    beyond = any(c.marked and (c.largest_wave > MOST_WAVE or c.most_heel > MOST_HEEL) for c in curves)
    under = max(ends) if beyond else TIGHT  # the numbers of curves that end high stand over them all
    above = under + (max(ends) - low + 0.02) * _ROWS / (_AXIS - _ROWS)
    high = max(max(ends) + 0.01, above)
    panels = [
        _panel(paper, 0, low * per, high * per, per, MOST_WAVE * per),
        _panel(paper, 1, low * per, high * per, per, math.degrees(MOST_HEEL)),
    ]
    unit = "mm" if display == "mm" else "in"
    panels[0].set_xlabel(f"wave cleared by the blade [{unit}]", fontsize=SMALL)
    panels[1].set_xlabel("heel toward the side looked at [°]", fontsize=SMALL)
    panels[0].set_ylabel(f"clear height, fist to thigh [{unit}]", fontsize=SMALL)
    for curve in curves:
        _draw(panels[0], curve, waves * per, np.asarray(curve.clearance(wave=waves)) * per)
        _draw(panels[1], curve, np.degrees(heels), np.asarray(curve.clearance(wave=wave, heel=heels)) * per)
    shown = length_text(wave, display, second=False)
    _ends(paper, panels[0], 0, curves, [float(c.clearance(wave=MOST_WAVE)) * per for c in curves], per)
    _ends(paper, panels[1], 1, curves, [float(c.clearance(wave=wave, heel=MOST_HEEL)) * per for c in curves], per)
    marked = [curve for curve in curves if curve.marked]
    _strikes(
        panels[0], [(c.name, c.largest_wave * per, length_text(c.largest_wave, display, second=False)) for c in marked],
        MOST_WAVE * per, length_text(MOST_WAVE, display, second=False),
    )  # fmt: skip
    _strikes(
        panels[1], [(c.name, math.degrees(c.most_heel), f"{math.degrees(c.most_heel):.1f}°") for c in marked],
        math.degrees(MOST_HEEL), f"{math.degrees(MOST_HEEL):.0f}°",
    )  # fmt: skip
    if wave <= MOST_WAVE:
        panels[0].axvline(wave * per, color=GREY, linewidth=0.8, dashes=(4, 2))
        for curve in marked[:2]:
            panels[0].plot([wave * per], [float(curve.clearance(wave=wave)) * per], "o", color=INK, markersize=3.5)
    _words(paper, made, shown, display)
    return paper


def _corners(wave: float) -> tuple[tuple[float, float], ...]:
    return ((0.0, 0.0), (MOST_WAVE, 0.0), (wave, 0.0), (wave, MOST_HEEL))


def _panel(paper: Paper, at: int, low: float, high: float, per: float, end: float) -> Axes:
    axes = paper.figure.add_axes((_LEFTS[at] / WIDTH, _BOTTOM / _HEIGHT, _WIDE / WIDTH, _AXIS / _HEIGHT))
    axes.set_xlim(0, end)
    axes.set_ylim(low, high)
    axes.tick_params(labelsize=SMALL)
    axes.spines[["top", "right"]].set_visible(False)
    axes.locator_params(axis="x", nbins=5)
    axes.locator_params(axis="y", nbins=7)
    axes.axhline(0.0, color=INK, linewidth=1.2)
    axes.axhline(TIGHT * per, color=GREY, linewidth=0.7, dashes=(2, 2))
    return axes


def _draw(axes: Axes, curve: Curve, x: Array, y: Array) -> None:
    (line,) = axes.plot(x, y, color=curve.color, linewidth=curve.width)
    if curve.dashes:
        line.set_dashes(list(curve.dashes))


def _height_on_paper(axes: Axes, y: float) -> float:
    low, high = axes.get_ylim()
    return _BOTTOM + _AXIS * (y - low) / (high - low)


def _ends(paper: Paper, axes: Axes, at: int, curves: list[Curve], ends: list[float], per: float) -> None:
    """Names of the curves and of the two levels at the right end of the panel."""
    named = [(end, curve.name) for end, curve in zip(ends, curves, strict=True)]
    named += [(0.0, "strike"), (TIGHT * per, "tight")]
    wanted = [_height_on_paper(axes, end) for end, _ in named]
    right = _LEFTS[at] + _WIDE
    for (_, words), level, label in zip(named, wanted, spread(wanted, _STEP, _BOTTOM - 1, _HEIGHT - 16), strict=True):
        paper.line([right + 0.5, right + 4], [level, label], color=GREY, width=0.5, model=False)
        paper.text(right + 5, label, words, size=SMALL)


def _strikes(axes: Axes, found: list[tuple[str, float, str]], end: float, most: str) -> None:
    """Where each curve meets nought, led up to its number; the one struck first stands highest."""
    low, high = axes.get_ylim()
    step = (high - low) / _AXIS * _STEP
    order = sorted(found, key=lambda strike: -strike[1])
    for row, (name, x, number) in enumerate(order):
        y = high - step * (len(order) - 1 - row) - step / 2
        inside = 0 < x <= end
        words = number if inside else "strikes at once" if x <= 0 else f"over {most}"
        if inside:
            axes.plot([x, x], [0, y], color=GREY, linewidth=0.5)
            axes.plot([x], [0], "o", color=INK, markersize=3.5, zorder=5)
        start = x if inside else 0.45 * end if x > end else 0.02 * end
        drawn = axes.text(start, y, f" {name.removeprefix('with ')} {words}", fontsize=SMALL, va="center", zorder=6)
        drawn.set_bbox({"facecolor": "white", "edgecolor": "none", "pad": 0.2})


def _words(paper: Paper, made: Design, wave: str, display: Display) -> None:
    """What the panels show, over and under them."""
    block = length_text(LOCK_BLOCK, display, second=False)
    top = _HEIGHT - 4
    for left, first, second in (
        (_LEFTS[0], "Largest wave, boat upright", f"dashed upright: the project's wave, {wave}"),
        (_LEFTS[1], "Heel that takes it all", f"blades clear of a wave of {wave}"),
    ):
        paper.text(left, top, first, size=SMALL)
        paper.text(left, top - 4.4, second, size=SMALL, color=GREY)
    pinned = made.inputs.station.lock == "pinned"
    square = "square: as a pinned lock holds it; " if pinned else ""
    tight = length_text(TIGHT, display, second=False)
    notes = (
        f"{square}with block: blade square, {block} under both locks; strike: fist on thigh",
        f"tight: less than {tight}; over knee: blade square, where the hands pass over the knees",
    )
    for row, words in enumerate(notes):
        paper.text(3, 7.6 - 4.4 * row, words, size=SMALL, color=GREY)


def _in_words(made: Design, curves: list[Curve], wave: float, display: Display) -> str:
    """The numbers of the curves in sentences."""
    parts = []
    for curve in curves:
        here = float(curve.clearance(wave=wave))
        clear = f"clear by {length_text(here, display)}" if here >= 0 else f"short by {length_text(-here, display)}"
        largest = length_text(curve.largest_wave, display) if curve.largest_wave > 0 else "none"
        heel = f"{math.degrees(curve.most_heel):.1f}°" if curve.most_heel > 0 else "none"
        parts.append(f"{curve.name}: {clear}, largest wave {largest}, heel {heel}")
    rig, width = made.rig, float(made.inputs.sizes.blade_width)
    gain = lock_block(
        block=LOCK_BLOCK, lock_above_water=float(rig.lock_above_water), blade_width=width,
        hand_arm=float(rig.hand_arm), blade_arm=float(rig.blade_arm),
    )  # fmt: skip
    return (
        f"Clear height between fist and thigh on the recovery at the project's wave of {length_text(wave, display)}, "
        f"the largest wave before the hands strike, boat upright, and the heel that takes the clearance at that wave. "
        f"{'; '.join(parts)}. Under {length_text(TIGHT, display)} the hands are tight. A block of "
        f"{length_text(LOCK_BLOCK, display)} under the locks gives {length_text(float(gain.clearance), display)} more "
        f"clearance and {length_text(float(gain.largest_wave), display)} more wave, and makes the dip in the drive "
        f"{math.degrees(float(gain.dip_in_drive)):.1f}°."
    )
