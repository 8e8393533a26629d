"""A piece of paper to draw on to scale: everything is placed in millimetres of paper, from the lower left."""

from __future__ import annotations

import io
import math
from collections.abc import Sequence

import matplotlib as mpl
import numpy as np
from matplotlib.axes import Axes
from matplotlib.backends.backend_svg import FigureCanvasSVG
from matplotlib.figure import Figure
from matplotlib.patches import Circle, Polygon

from oarkit.units import Display, both
from oarkit.working import Array, Quantity

WIDTH = 180.0  #: width of every drawing, which fits A4 and Letter between their margins [mm]
TEXT, SMALL = 9.0, 8.0  #: letter sizes [pt]
INK, GREY, PALE = "#111111", "#666666", "#b8b8b8"
WOOD_SOFT, WOOD_HARD, WATER = "#f3e6c8", "#c9a26b", "#e3edf3"


def length_text(value: float, display: Display, *, second: bool = True) -> str:
    """A length for a drawing, first in the reader's units, the other system behind it."""
    first, other = both(Quantity(value=value, unit="m"), display)
    return f"{first} ({other})" if second else first


class Paper:
    """A drawing at 1:scale. ``origin`` is where the model's zero lies on the paper [mm]."""

    def __init__(
        self, *, height: float, scale: float, origin: tuple[float, float], title: str, text_alternative: str
    ) -> None:
        self.height, self.scale, self.origin = height, scale, origin
        self.title, self.text_alternative = title, text_alternative
        self.figure = Figure(figsize=(WIDTH / 25.4, height / 25.4))
        self.axes = Axes(self.figure, (0, 0, 1, 1))
        self.figure.add_axes(self.axes)
        self.axes.set_xlim(0, WIDTH)
        self.axes.set_ylim(0, height)
        self.axes.axis("off")

    def at(self, x: float | Array, y: float | Array) -> tuple[float | Array, float | Array]:
        """Paper place of a model place [m]."""
        return self.origin[0] + np.multiply(x, 1e3 / self.scale), self.origin[1] + np.multiply(y, 1e3 / self.scale)

    def line(
        self,
        x: Sequence[float] | Array,
        y: Sequence[float] | Array,
        *,
        color: str = INK,
        width: float = 0.8,
        dashes: Sequence[float] = (),
        model: bool = True,
    ) -> None:
        """A line through places, of the model or of the paper."""
        px, py = self.at(np.asarray(x, float), np.asarray(y, float)) if model else (np.asarray(x), np.asarray(y))
        (drawn,) = self.axes.plot(px, py, color=color, linewidth=width, solid_capstyle="round", solid_joinstyle="round")
        if len(dashes):
            drawn.set_dashes(list(dashes))

    def shape(
        self,
        x: Array,
        y: Array,
        *,
        fill: str = "white",
        edge: str = INK,
        width: float = 0.8,
        dashed: bool = False,
        order: float = 2,
    ) -> None:
        """A closed outline in the model."""
        px, py = self.at(np.asarray(x, float), np.asarray(y, float))
        patch = Polygon(
            np.column_stack([px, py]), closed=True, facecolor=fill, edgecolor=edge, linewidth=width, zorder=order
        )
        if dashed:
            patch.set_linestyle((0, (3, 2)))
        self.axes.add_artist(patch)

    def circle(
        self,
        x: float,
        y: float,
        radius: float,
        *,
        fill: str = "none",
        edge: str = INK,
        dashed: bool = False,
        order: float = 3,
    ) -> None:
        """A circle in the model."""
        px, py = self.at(x, y)
        patch = Circle(
            (float(px), float(py)),
            radius * 1e3 / self.scale,
            facecolor=fill,
            edgecolor=edge,
            linewidth=0.8,
            zorder=order,
        )
        if dashed:
            patch.set_linestyle((0, (3, 2)))
        self.axes.add_artist(patch)

    def text(
        self,
        x: float,
        y: float,
        words: str,
        *,
        size: float = TEXT,
        color: str = INK,
        ha: str = "left",
        va: str = "center",
        backed: bool = False,
        rotation: float = 0,
    ) -> None:
        """Words at a place of the paper; ``backed`` clears what lies behind them."""
        drawn = self.axes.text(x, y, words, fontsize=size, color=color, ha=ha, va=va, zorder=6, rotation=rotation)
        if backed:
            drawn.set_bbox({"facecolor": "white", "edgecolor": "none", "pad": 0.8})

    def across(
        self,
        x0: float,
        x1: float,
        y: float,
        words: str,
        *,
        from_y: tuple[float, float] | None = None,
        beside: bool = False,
    ) -> None:
        """A horizontal dimension between two model places, at a height of the paper [mm].

        ``from_y`` are the paper heights where the witness lines begin; ``beside`` puts the words right of a short one.
        """
        px0, px1 = sorted((float(self.at(x0, 0)[0]), float(self.at(x1, 0)[0])))
        for px, start in zip((px0, px1), from_y or (y, y), strict=True):
            self.line([px, px], [start, y + math.copysign(1.5, y - start)], color=GREY, width=0.5, model=False)
        self._arrow((px0, y), (px1, y))
        if beside:
            self.text(px1 + 1.5, y, words, backed=True)
        else:
            self.text((px0 + px1) / 2, y + 1.1, words, ha="center", va="bottom", backed=True)

    def upright(self, x: float, y0: float, y1: float) -> None:
        """A vertical dimension arrow between two model heights, at a place of the paper [mm], without words."""
        self._arrow((x, float(self.at(0, y0)[1])), (x, float(self.at(0, y1)[1])))

    def _arrow(self, start: tuple[float, float], stop: tuple[float, float]) -> None:
        gap = math.dist(start, stop)
        style = "<|-|>,head_length=5,head_width=1.6" if gap > 5 else "-"
        self.axes.annotate(
            "",
            xy=stop,
            xytext=start,
            arrowprops={
                "arrowstyle": style,
                "color": INK,
                "linewidth": 0.6,
                "shrinkA": 0,
                "shrinkB": 0,
                "mutation_scale": 1,
            },
        )

    def bar(
        self,
        left: float,
        right: float,
        y: float,
        thick: float,
        *,
        fill: str = "white",
        edge: str = INK,
        order: float = 2,
    ) -> None:
        """A level bar about a height of the paper [mm]."""
        low, high = y - thick / 2, y + thick / 2
        corners = np.array([(left, low), (right, low), (right, high), (left, high)])
        self.axes.add_artist(Polygon(corners, closed=True, facecolor=fill, edgecolor=edge, linewidth=0.7, zorder=order))

    def tip(self, x: float, y: float, along: tuple[float, float], *, size: float = 2.0, fill: str = INK) -> None:
        """An arrow's head with its point at a place of the paper [mm], turned along a direction."""
        ahead = np.asarray(along, float) / math.hypot(*along)
        aside = np.array([-ahead[1], ahead[0]])
        back = np.array([x, y]) - size * ahead
        corners = np.array([(x, y), back + 0.35 * size * aside, back - 0.35 * size * aside])
        self.axes.add_artist(Polygon(corners, closed=True, facecolor=fill, edgecolor=fill, linewidth=0.3, zorder=5))

    def scale_bar(self, x: float, y: float) -> None:
        """Bars of half a metre and a foot (or less on a large scale), and the scale in figures."""
        metric, name = (0.5, "500 mm") if self.scale > 5 else (0.05, "50 mm")
        inches, other = (0.3048, "1 ft") if self.scale > 5 else (0.0254, "1 in")
        for row, (size, words) in enumerate(((metric, name), (inches, other))):
            right, height = x + size * 1e3 / self.scale, y - row * 4.4
            self.line([x, right], [height, height], width=1.2, model=False)
            for end in (x, right):
                self.line([end, end], [height - 0.9, height + 0.9], width=0.8, model=False)
            self.text(right + 1.5, height, words, size=SMALL, color=GREY)
        self.text(x, y - 8.8, f"1:{self.scale:g} when printed at 100 %", size=SMALL, color=GREY)

    def svg(self) -> str:
        """The drawing as an SVG element that scales with its page and carries its text alternative."""
        with mpl.rc_context({"svg.hashsalt": "oarkit", "svg.fonttype": "path"}):
            FigureCanvasSVG(self.figure)
            buffer = io.StringIO()
            self.figure.savefig(buffer, format="svg", metadata={"Date": None, "Creator": None}, transparent=True)
        return buffer.getvalue()


def spread(wanted: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Heights for labels, as near as can be to where they are wanted and at least a gap apart, in the same order."""
    order = np.argsort(wanted, kind="stable")
    placed = np.asarray(wanted, float)[order]
    for _ in range(60):
        for i in range(len(placed) - 1):
            short = gap - (placed[i + 1] - placed[i])
            if short > 1e-9:
                placed[i] -= short / 2
                placed[i + 1] += short / 2
        placed = np.clip(placed, low + gap * np.arange(len(placed)), high - gap * np.arange(len(placed))[::-1])
    result = np.empty_like(placed)
    result[order] = placed
    return [float(y) for y in result]
