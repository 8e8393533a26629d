"""The oar to scale: face, edge and a cut along its middle with all its pieces, its stations, and its sections."""

from __future__ import annotations

import math
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray
from shapely import Polygon, unary_union
from shapely.geometry.base import BaseGeometry

from oarkit.draw.oar_sections import (
    Layout,
    draw_legend,
    draw_sections,
    drawn_places,
    filled,
    hatches,
    laid_out,
    legend_height,
    made_of,
    name_of,
    on_paper,
    pieces_in_section,
    polygons,
    wood_key,
    wood_words,
)
from oarkit.draw.oar_stations import Place, marked_stations
from oarkit.draw.paper import GREY, INK, PALE, SMALL, WIDTH, Paper, length_text, spread
from oarkit.oar.build import Oar
from oarkit.oar.pieces import Piece, extent
from oarkit.strength.told import HoleInputs
from oarkit.units import Display
from oarkit.working import Array

__all__ = ["Place", "marked_stations", "oar_views"]

Mask: TypeAlias = NDArray[np.bool_]

MAGNIFIED = 3.0  #: how much thicker the cut along the middle is drawn than it is long
_EDGE, _CUT = -18.0, -33.0  #: of the edge view and of the cut, under the face view [mm]
_VIEWS = 62.0  #: height of the views with letters and dimensions [mm]
_LETTER_GAP, _LETTER_UP = 4.4, 4.2  #: from one letter to the next, and from one row of them to the next [mm]


def oar_views(oar: Oar, display: Display, *, of: str = "oar", hole: HoleInputs | None = None) -> Paper:
    """The oar on its face and on its edge with its pieces and stations, a cut along it if it has layers, and sections.

    Pieces are drawn dashed where others hide them, and so is a hole seen from its side. ``of`` names the oar where the
    two of a pair differ.
    """
    places = drawn_places(oar)
    layout = laid_out(places)
    layered = any(piece.kind in ("strip", "face") for piece in oar.pieces)
    under = _CUT - 10 if layered else _EDGE - 6  # [mm] down to where the views end
    bottom = layout.height + legend_height(oar) + 3
    length = float(oar.shape.length)
    paper = Paper(
        height=bottom + _VIEWS + (_EDGE - 6 - under) + _LETTER_UP * (_letter_rows(oar) - 1),
        scale=math.ceil(length * 1e3 / (WIDTH - 6)),
        origin=(3, bottom + 14 - under),
        title=f"The {of} in two views, and its sections",
        text_alternative=_in_words(oar, places, display),
    )
    _letters(paper, oar, under)
    _face(paper, oar)
    _edge(paper, oar)
    if layered:
        _cut(paper, oar)
    _leather_and_pin(paper, oar)
    if hole is not None:
        _hole(paper, oar, hole)
    _dimensions(paper, oar, under, display)
    _names(paper, oar, layout, layered=layered)
    draw_sections(paper, oar, layout, bottom, display)
    draw_legend(paper, oar, legend_height(oar))
    return paper


def _in_words(oar: Oar, places: tuple[Place, ...], display: Display) -> str:
    """What is drawn, in sentences: length, woods, and what lies in each section."""
    woods = "; ".join(wood_words(key, pieces) for key, pieces in made_of(oar).items())
    sections = []
    for place in places:
        owned = pieces_in_section(oar, place.s, side=place.side)
        kinds = dict.fromkeys(p.kind for p, own in zip(oar.pieces, owned, strict=True) if polygons(own))
        size = f"{length_text(place.thickness, display, second=False)} thick, "
        size += f"{length_text(place.width, display, second=False)} wide"
        sections.append(f"{name_of(place, oar, display)}, {size}: {', '.join(kinds)}")
    return (
        f"The oar, {length_text(float(oar.shape.length), display)} long, on the face of the blade and on its edge, "
        f"with the stations of the table. Woods: {woods}. Sections: {'; '.join(sections)}."
    )


# Views. Shapes of the model in m: s along the oar, and across it.


def _strip_of(oar: Oar, start: float, stop: float, upper: Array, lower: Array) -> BaseGeometry:
    """The area between two lines over the stations, from one place along the oar to another."""
    on = (oar.middle >= start - 1e-12) & (oar.middle <= stop + 1e-12)
    outline = np.concatenate([
        np.column_stack([oar.s[on], upper[on]]), np.column_stack([oar.s[on], np.minimum(lower, upper)[on]])[::-1]
    ])  # fmt: skip
    return Polygon(outline).buffer(0) if len(outline) > 2 else Polygon()


def _ends(oar: Oar, piece: Piece) -> tuple[float, float]:
    start, stop = extent(piece, oar.shape)
    return float(start), float(stop)


def _size(piece: Piece) -> float:
    return 0.0 if piece.size is None else float(piece.size)


def on_face(oar: Oar) -> tuple[list[BaseGeometry], list[BaseGeometry]]:
    """What of each piece is seen on the face of the oar, and what lies under faces glued on later. [m]

    A strip lies within the thickness and shows on the face only where the outline has come down to it, which is left
    to the cut along the middle.
    """
    half = oar.profile.width / 2
    found: list[BaseGeometry] = []
    covered: list[list[BaseGeometry]] = []
    for piece in oar.pieces:
        start, stop = _ends(oar, piece)
        own: BaseGeometry = Polygon()
        if piece.kind in ("edge", "cheek"):
            inner = np.maximum(half - _size(piece), 0.0)
            sides = (_strip_of(oar, start, stop, half, inner), _strip_of(oar, start, stop, -inner, -half))
            own = unary_union(sides)
        elif piece.kind == "spline":
            middle = np.minimum(half, _size(piece) / 2)
            own = _strip_of(oar, start, stop, middle, -middle)
        elif piece.kind != "strip":
            own = _strip_of(oar, start, stop, half, -half)
        if piece.kind == "face":
            for over in covered:
                over.append(own)
        else:  # it goes right through, earlier faces included
            found = [earlier.difference(own) for earlier in found]
        found.append(own)
        covered.append([])
    hidden = [
        own.intersection(unary_union(over)) if over else Polygon() for own, over in zip(found, covered, strict=True)
    ]
    return [own.difference(under) for own, under in zip(found, hidden, strict=True)], hidden


def along_middle(oar: Oar) -> list[BaseGeometry]:
    """What each piece takes up in a cut along the middle of the oar, square to the blade. [m]"""
    half = oar.profile.thickness / 2
    found: list[BaseGeometry] = []
    for piece in oar.pieces:
        start, stop = _ends(oar, piece)
        own: BaseGeometry = Polygon()
        if piece.kind in ("loom", "tip", "spline"):
            own = _strip_of(oar, start, stop, half, -half)
        elif piece.kind == "strip":
            low, high = (np.clip(float(piece.at) + sign * _size(piece) / 2, -half, half) for sign in (-1, 1))
            own = _strip_of(oar, start, stop, high, low)
        elif piece.kind == "face":
            inner = np.maximum(half - _size(piece), 0.0)
            sides = (_strip_of(oar, start, stop, half, inner), _strip_of(oar, start, stop, -inner, -half))
            own = unary_union(sides)
        found = [earlier.difference(own) for earlier in found] + [own]
    return found


def _face(paper: Paper, oar: Oar) -> None:
    marks, order = hatches(oar), range(len(oar.pieces))
    seen, hidden = on_face(oar)
    for i in order:
        filled(paper, on_paper(seen[i], paper.scale, paper.origin), marks[wood_key(oar.pieces[i].wood)], width=0.4)
    for i in order:
        for part in polygons(hidden[i]):
            for ring in (part.exterior, *part.interiors):
                _dashed(paper, np.asarray(ring.coords))
    _outline(paper, oar.s, oar.profile.width / 2, 0.0)


def _dashed(paper: Paper, points: Array) -> None:
    px, py = paper.at(points[:, 0], points[:, 1])
    (line,) = paper.axes.plot(px, py, color=INK, linewidth=0.4, zorder=4)
    line.set_dashes([4, 3])


def _edge(paper: Paper, oar: Oar) -> None:
    """The oar from its side: woods that reach the side, glue joints solid where they show and dashed where not."""
    marks, half = hatches(oar), oar.profile.thickness / 2
    origin = (paper.origin[0], paper.origin[1] + _EDGE)
    shown: list[tuple[Piece, BaseGeometry]] = []
    for piece in oar.pieces:
        start, stop = _ends(oar, piece)
        if piece.kind in ("loom", "tip", "edge", "cheek"):
            own = _strip_of(oar, start, stop, half, -half)
            shown = [(other, earlier.difference(own)) for other, earlier in shown] + [(piece, own)]
    for piece, own in shown:
        filled(paper, on_paper(own, paper.scale, origin), marks[wood_key(piece.wood)], width=0.4)
    for s, z, seen in glue_lines(oar):
        if len(s) > 1:
            px, py = origin[0] + s * 1e3 / paper.scale, origin[1] + z * 1e3 / paper.scale
            (line,) = paper.axes.plot(px, py, color=INK, linewidth=0.4, zorder=4)
            if not seen:
                line.set_dashes([4, 3])
    _outline(paper, oar.s, half, _EDGE)


def glue_lines(oar: Oar) -> list[tuple[Array, Array, bool]]:
    """Joints of strips and faces on the edge of the oar: places along it, heights [m], and whether they are seen.

    What is laid later and reaches the side hides them, or where it goes right through ends them.
    """
    side = np.where(oar.profile.blade_share > 0, oar.profile.edge, oar.profile.thickness) / 2
    found = []
    for number, piece in enumerate(oar.pieces):
        if piece.kind not in ("strip", "face"):
            continue
        start, stop = _ends(oar, piece)
        later = oar.pieces[number + 1 :]
        over = [_ends(oar, other) for other in later if other.kind in ("edge", "cheek")]
        gone = [_ends(oar, other) for other in later if other.kind in ("loom", "tip")]
        for sign in (-1, 1):
            if piece.kind == "strip":
                z, room = np.full_like(oar.s, float(piece.at) + sign * _size(piece) / 2), oar.profile.thickness / 2
            else:
                z, room = sign * np.maximum(side - _size(piece), 0.0), side
            on = (oar.middle > start) & (oar.middle < stop) & (np.abs(z) < room)
            on &= ~_within(oar.middle, gone)
            hidden = _within(oar.middle, over)
            for seen, mask in ((True, on & ~hidden), (False, on & hidden)):
                found += [(oar.s[run], z[run], seen) for run in _runs(mask)]
    return found


def _within(s: Array, stretches: list[tuple[float, float]]) -> Mask:
    found = np.zeros(s.shape, bool)
    for start, stop in stretches:
        found |= (s > start) & (s < stop)
    return found


def _runs(mask: Mask) -> list[NDArray[np.int_]]:
    """Indices of each unbroken stretch of a mask."""
    at = np.flatnonzero(mask)
    return [run for run in np.split(at, np.flatnonzero(np.diff(at) > 1) + 1) if len(run)]


def _cut(paper: Paper, oar: Oar) -> None:
    marks = hatches(oar)
    origin = (paper.origin[0], paper.origin[1] + _CUT)
    for piece, own in zip(oar.pieces, along_middle(oar), strict=True):
        shown = on_paper(own, paper.scale, origin, upright=paper.scale / MAGNIFIED)
        filled(paper, shown, marks[wood_key(piece.wood)], width=0.3)


def _outline(paper: Paper, s: Array, half: Array, view: float) -> None:
    """The outline of a view over its pieces."""
    px = paper.origin[0] + np.concatenate([s, s[::-1], s[:1]]) * 1e3 / paper.scale
    py = paper.origin[1] + view + np.concatenate([half, -half[::-1], half[:1]]) * 1e3 / paper.scale
    paper.axes.plot(px, py, color=INK, linewidth=0.8, zorder=4.5, solid_joinstyle="round")


def _leather_and_pin(paper: Paper, oar: Oar) -> None:
    start, end, pin = (float(s) for s in (oar.shape.leather_start, oar.shape.leather_end, oar.shape.inboard))
    for view, size in ((0.0, oar.profile.width), (_EDGE, oar.profile.thickness)):
        for s in np.linspace(start, end, 9):
            _upright(paper, s, view, float(np.interp(s, oar.s, size)) / 2 * 1e3 / paper.scale, GREY, 0.6)
        _upright(paper, pin, view, 4.0, INK, 1.2)


def _hole(paper: Paper, oar: Oar, hole: HoleInputs) -> None:
    """A hole at the pin line: round where it is looked through, two dashed lines where it is seen from its side."""
    x, y = (float(at) for at in paper.at(float(oar.shape.inboard), 0))
    half = max(float(hole.drilled) / 2 * 1e3 / paper.scale, 0.3)
    through, beside = (0.0, _EDGE) if hole.along == "bending direction" else (_EDGE, 0.0)
    angle = np.linspace(0, 2 * np.pi, 40)
    paper.axes.fill(x + half * np.cos(angle), y + through + half * np.sin(angle), color="white", zorder=4.8)
    paper.axes.plot(x + half * np.cos(angle), y + through + half * np.sin(angle), color=INK, linewidth=0.7, zorder=4.9)
    size = oar.profile.width if beside == 0.0 else oar.profile.thickness
    deep = float(np.interp(float(oar.shape.inboard), oar.s, size)) / 2 * 1e3 / paper.scale
    for side in (-half, half):
        paper.axes.plot([x + side] * 2, [y + beside - deep, y + beside + deep], color=INK, linewidth=0.6, dashes=(3, 2),
                        zorder=4.9)  # fmt: skip


def _upright(paper: Paper, s: float, view: float, half: float, color: str, width: float) -> None:
    x, y = float(paper.at(s, 0)[0]), paper.origin[1] + view
    paper.axes.plot([x, x], [y - half, y + half], color=color, linewidth=width, zorder=4.6)


def _dimensions(paper: Paper, oar: Oar, under: float, display: Display) -> None:
    y, shape = paper.origin[1] + under - 7, oar.shape
    for start, stop, name in (
        (0.0, float(shape.inboard), "inboard"),
        (float(shape.blade_root), float(shape.length), "blade"),
    ):
        words = f"{name} {length_text(stop - start, display, second=False)}"
        paper.across(start, stop, y, words, from_y=(y + 6, y + 6))
    paper.text(float(paper.at(float(shape.inboard) + 0.03, 0)[0]), y, "pin line", color=GREY, size=SMALL)


def _names(paper: Paper, oar: Oar, layout: Layout, *, layered: bool) -> None:
    x = float(paper.at(float(oar.shape.length) * 0.46, 0)[0])
    under = any(not seen for *_, seen in glue_lines(oar)) or any(polygons(own) for own in on_face(oar)[1])
    named = [(6.5, "face (width)"), (_EDGE + 5.5, f"edge (thickness){'; dashed: hidden' if under else ''}")]
    if layered:
        named.append((_CUT + 7.5, f"cut along the middle, {MAGNIFIED:g} times as thick as it is"))
    for up, words in named:
        paper.text(x, paper.origin[1] + up, words, color=GREY, size=SMALL, ha="center", backed=True)
    note = f"views 1:{paper.scale:g}, sections 1:{layout.scale:g}, printed at 100 %"
    paper.text(WIDTH - 2, paper.height - 3, note, size=SMALL, color=GREY, ha="right")


def _letters(paper: Paper, oar: Oar, under: float) -> None:
    """Letters over the stations, shifted where they would touch, each led to its place; two rows if there are many."""
    places = marked_stations(oar)
    wanted = [float(paper.at(p.s, 0)[0]) for p in places]
    rows = _letter_rows(oar)
    y = paper.origin[1] + 13
    for i, (place, x) in enumerate(zip(places, spread(wanted, _LETTER_GAP / rows, 3, WIDTH - 3), strict=True)):
        s, up = float(paper.at(place.s, 0)[0]), _LETTER_UP * (i % rows)
        paper.line([x, x, s, s], [y + up, y, y - 3, paper.origin[1] + under], color=PALE, width=0.5, model=False)
        paper.text(x, y + 1.8 + up, place.letter, ha="center")


def _letter_rows(oar: Oar) -> int:
    return 1 if len(marked_stations(oar)) * _LETTER_GAP < WIDTH - 8 else 2
