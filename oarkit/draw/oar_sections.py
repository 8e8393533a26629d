"""Sections of an oar as it is laid up: where each piece lies in them, and how each wood is hatched."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from matplotlib.patches import PathPatch
from matplotlib.path import Path
from shapely import MultiLineString, Polygon, affinity, box
from shapely.geometry.base import BaseGeometry
from shapely.geometry.polygon import orient

from oarkit.draw.oar_stations import Place, marked_stations, nearest, one_station, place_at, section_at
from oarkit.draw.paper import GREY, INK, SMALL, WIDTH, WOOD_HARD, WOOD_SOFT, Paper, length_text
from oarkit.oar.build import Oar
from oarkit.oar.pieces import Piece, extent, regions
from oarkit.section.layers import Region
from oarkit.section.profile import Profile, half_thickness, outline
from oarkit.units import Display
from oarkit.wood.board import Wood

SEEN = 1e-7  #: area from which a piece shows in a section: a tenth of a square millimetre [m2]
FAR = 10.0  #: beyond any section [m]
INBOARD = 0.100  #: before the leather, where the section inboard is looked for [m]
LEGEND_STEP = 4.8  #: from one line of the legend to the next [mm]
_SCALES = (1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0)
_ROOM = 92.0  #: height that the sections may take [mm]
_GAP, _UNDER = 5.0, 8.5  #: between sections, and under a row of them for the letters [mm]
_HEAD = 7.0  #: over the first row [mm]

WoodKey = tuple[str, bool]  #: name of a wood, and whether its grain lies across the oar


@dataclass(frozen=True, slots=True, kw_only=True)
class Hatch:
    """How a wood is drawn: its tone, and lines at these angles [deg], a step apart [mm of paper]."""

    fill: str
    angles: tuple[float, ...] = ()
    step: float = 1.1


SOFT = 520.0  #: density up to which a wood is drawn pale [kg/m3]
_LINES: tuple[tuple[float, float], ...] = ((45, 1.1), (135, 1.6), (70, 0.8), (20, 1.9), (110, 0.7), (160, 1.2))
_CROSSED: tuple[tuple[float, float], ...] = ((45, 1.2), (0, 1.2), (45, 2.0), (20, 1.4), (0, 0.8), (20, 0.9))


def wood_key(wood: Wood) -> WoodKey:
    """What tells a wood from another in a drawing; one laid across resists splitting better than bending."""
    return wood.name, wood.splitting is not None and float(np.max(wood.splitting)) > float(np.max(wood.strength))


def hatches(oar: Oar) -> dict[WoodKey, Hatch]:
    """The hatch of each wood in the oar: the loom's plain, others by angle and step, crossed where laid across."""
    found: dict[WoodKey, Hatch] = {}
    plain = wood_key(oar.pieces[0].wood)
    count = {False: 0, True: 0}
    for piece in oar.pieces:
        key = wood_key(piece.wood)
        if key in found:
            continue
        fill = WOOD_SOFT if float(np.mean(piece.wood.density)) < SOFT else WOOD_HARD
        if key == plain and not key[1]:
            found[key] = Hatch(fill=fill)
            continue
        kinds = _CROSSED if key[1] else _LINES
        angle, step = kinds[count[key[1]] % len(kinds)]
        count[key[1]] += 1
        found[key] = Hatch(fill=fill, angles=(angle, angle + 90) if key[1] else (angle,), step=step)
    return found


def pieces_in_section(oar: Oar, s: float, *, side: int) -> list[BaseGeometry]:
    """What each piece takes up in the section at a place [m], later pieces over earlier ones; y across, z upright."""
    one, laid = section_at(oar.shape, s, side=side), one_station(s, side=side)
    whole = Polygon(np.column_stack(outline(one))).buffer(0)
    found: list[BaseGeometry] = []
    for region in regions(oar.pieces, [extent(piece, oar.shape) for piece in oar.pieces], laid):
        own = _taken(one, whole, region) if np.all(region.here) else Polygon()
        found = [earlier.difference(own) for earlier in found] + [own]
    return found


def _taken(one: Profile, whole: BaseGeometry, region: Region) -> BaseGeometry:
    """What a piece would take up in a section if no other lay over it."""
    size, at, half = _number(region.size), _number(region.at), float(one.width) / 2
    if region.shape == "whole":
        return whole
    if region.shape == "sides":
        return whole.difference(box(-max(half - size, 0.0), -FAR, max(half - size, 0.0), FAR))
    if region.shape == "middle":
        return whole.intersection(box(-size / 2, -FAR, size / 2, FAR))
    if region.shape == "layer":
        return whole.intersection(box(-FAR, at - size / 2, FAR, at + size / 2))
    eta = np.sin(np.linspace(0, np.pi / 2, 200))  # dense toward the edge, where a corner is steep
    inner = np.maximum(half_thickness(one, eta) - size, 0.0)
    y = np.concatenate([-eta[::-1], eta, eta[::-1], -eta]) * half
    z = np.concatenate([inner[::-1], inner, -inner[::-1], -inner])
    return whole.difference(Polygon(np.column_stack([y, z])).buffer(0))


def _number(value: object) -> float:
    return float(np.ravel(np.asarray(value, dtype=float))[0])


def drawn_places(oar: Oar) -> tuple[Place, ...]:
    """The stations whose sections are drawn: a handful along the oar, and more until every piece shows in one."""
    shape, marked = oar.shape, marked_stations(oar)
    root, blade, end = float(shape.blade_root), float(shape.blade_length), float(shape.leather_end)
    wanted = (
        float(shape.grip_centre), float(shape.leather_start) - INBOARD, float(shape.inboard), (end + root) / 2, root,
        root + 0.35 * blade, float(shape.length),
    )  # fmt: skip
    drawn = list(dict.fromkeys(nearest(marked, s) for s in wanted))
    shown = [_areas(oar, place) for place in drawn]
    both_sides = [place_at(shape, p.s, side=side, letter=p.letter, what=p.what) for p in marked for side in (-1, 1)
                  if 0 < p.s < float(shape.length)]  # fmt: skip
    for number, mass in enumerate(oar.laminate.piece_mass):
        if max(areas[number] for areas in shown) > SEEN:
            continue
        lies = np.flatnonzero(mass > 0)
        best = max(both_sides, key=lambda place: _areas(oar, place)[number])
        if _areas(oar, best)[number] <= SEEN:
            best = place_at(shape, float(oar.s[lies[len(lies) // 2]]), side=1)
        drawn.append(best)
        shown.append(_areas(oar, best))
    return tuple(sorted(drawn, key=lambda place: (place.s, place.side)))


def _areas(oar: Oar, place: Place) -> list[float]:
    return [own.area for own in pieces_in_section(oar, place.s, side=place.side)]


def name_of(place: Place, oar: Oar, display: Display) -> str:
    """How a section is named under its drawing."""
    if not place.letter:
        return f"at {length_text(place.s, display, second=False)}"
    listed = next(other for other in marked_stations(oar) if other.letter == place.letter)
    return place.letter if listed.side == place.side else f"just beyond {place.letter}"


# Laying the sections out on the paper


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """Sections in rows on the paper, at one scale, and the height they take [mm]."""

    scale: float
    rows: tuple[tuple[Place, ...], ...]
    height: float


def laid_out(places: Sequence[Place]) -> Layout:
    """Sections in rows that fit the width, as large as the room allows."""
    for scale in _SCALES:
        rows: list[list[Place]] = [[]]
        for place in places:
            taken = sum(_cell(other, scale) for other in rows[-1])
            if rows[-1] and taken + _cell(place, scale) > WIDTH - 6:
                rows.append([])
            rows[-1].append(place)
        height = _HEAD + sum(_row_height(row, scale) for row in rows)
        fits = height <= _ROOM and all(_cell(place, scale) <= WIDTH - 6 for place in places)
        if fits or scale == _SCALES[-1]:
            break
    return Layout(scale=scale, rows=tuple(tuple(row) for row in rows), height=height)


def _cell(place: Place, scale: float) -> float:
    least = 24.0 if not place.letter else 10.0
    return max(place.width * 1e3 / scale, least) + _GAP


def _row_height(row: Sequence[Place], scale: float) -> float:
    return max(place.thickness for place in row) * 1e3 / scale + _UNDER


def draw_sections(paper: Paper, oar: Oar, layout: Layout, top: float, display: Display) -> None:
    """Every section in its row, its pieces outlined and hatched, its letter under it."""
    marks = hatches(oar)
    words = f"Sections 1:{layout.scale:g}, thickness upright, aft face up"
    if any("eight-sided" in place.what for row in layout.rows for place in row):
        words += "; eight-sided ones as the eased squares that they are counted as"
    paper.text(3, top - 3, words, size=SMALL, color=GREY)
    y = top - _HEAD
    for row in layout.rows:
        high = _row_height(row, layout.scale)
        spare = (WIDTH - 6 - sum(_cell(place, layout.scale) for place in row)) / len(row)
        x = 3.0
        for place in row:
            wide = _cell(place, layout.scale) + spare
            middle = (x + wide / 2, y - (high - _UNDER) / 2)
            for piece, own in zip(oar.pieces, pieces_in_section(oar, place.s, side=place.side), strict=True):
                shown = on_paper(own, layout.scale, middle)
                filled(paper, shown, marks[wood_key(piece.wood)])
            _edge_of(paper, section_at(oar.shape, place.s, side=place.side), layout.scale, middle)
            paper.text(middle[0], y - high + 4.2, name_of(place, oar, display), ha="center")
            x += wide
        y -= high


def _edge_of(paper: Paper, one: Profile, scale: float, middle: tuple[float, float]) -> None:
    y, z = outline(one)
    px, py = middle[0] + y * 1e3 / scale, middle[1] + z * 1e3 / scale
    paper.line(px, py, width=0.9, model=False)


def on_paper(
    own: BaseGeometry, scale: float, origin: tuple[float, float], *, upright: float | None = None
) -> BaseGeometry:
    """A shape of the model at a scale on the paper [mm]; ``upright`` is the scale of its heights where it differs."""
    across, up = 1e3 / scale, 1e3 / (scale if upright is None else upright)
    return affinity.affine_transform(own, [across, 0, 0, up, *origin])


def filled(paper: Paper, shown: BaseGeometry, hatch: Hatch, *, width: float = 0.5) -> None:
    """A shape of the paper [mm] in the tone of its wood, hatched and outlined."""
    vertices, codes = [], []
    for part in polygons(shown):
        turned = orient(part)  # holes wound the other way, so that every renderer leaves them open
        for ring in (turned.exterior, *turned.interiors):
            points = np.asarray(ring.coords)
            vertices.append(points)
            codes += [Path.MOVETO] + [Path.LINETO] * (len(points) - 2) + [Path.CLOSEPOLY]
    if not vertices:
        return
    path = Path(np.concatenate(vertices), codes)
    paper.axes.add_artist(PathPatch(path, facecolor=hatch.fill, edgecolor=INK, linewidth=width, zorder=3))
    for angle in hatch.angles:
        _lines(paper, shown, angle, hatch.step)


def polygons(shown: BaseGeometry) -> list[Polygon]:
    """The areas of a shape, without lines and points where pieces only touch."""
    parts = [shown] if isinstance(shown, Polygon) else list(getattr(shown, "geoms", []))
    return [part for part in parts if isinstance(part, Polygon) and part.area > 0]


def _lines(paper: Paper, shown: BaseGeometry, angle: float, step: float) -> None:
    """Lines at an angle, clipped to a shape; on one raster of the paper, so that parts of one piece match."""
    low_x, low_y, high_x, high_y = shown.bounds
    along = np.array([math.cos(math.radians(angle)), math.sin(math.radians(angle))])
    aside = np.array([-along[1], along[0]])
    corners = np.array([(low_x, low_y), (low_x, high_y), (high_x, low_y), (high_x, high_y)])
    far = float(np.hypot(high_x - low_x, high_y - low_y))
    middle = corners.mean(axis=0)
    offsets = corners @ aside
    steps = np.arange(math.ceil(offsets.min() / step), math.floor(offsets.max() / step) + 1) * step
    starts = (middle @ along) * along + steps[:, None] * aside
    rays = MultiLineString([[start - far * along, start + far * along] for start in starts])
    cut = shown.intersection(rays)
    lines = [np.asarray(part.coords) for part in getattr(cut, "geoms", [cut]) if part.geom_type == "LineString"]
    lines = [line for line in lines if len(line) > 1]
    if lines:
        codes = [code for line in lines for code in [Path.MOVETO, *[Path.LINETO] * (len(line) - 1)]]
        path = Path(np.concatenate(lines), codes)
        paper.axes.add_artist(PathPatch(path, facecolor="none", edgecolor=INK, linewidth=0.3, zorder=3.5))


# Legend


def made_of(oar: Oar) -> Mapping[WoodKey, list[Piece]]:
    """The pieces of each wood, in the order they are laid."""
    found: dict[WoodKey, list[Piece]] = {}
    for piece in oar.pieces:
        found.setdefault(wood_key(piece.wood), []).append(piece)
    return found


def wood_words(key: WoodKey, pieces: Sequence[Piece]) -> str:
    """A wood and what is made of it."""
    kinds = dict.fromkeys(piece.kind for piece in pieces)
    counted = [kind if sum(p.kind == kind for p in pieces) == 1 else f"{kind}s" for kind in kinds]
    return f"{key[0]}{', grain across the oar' if key[1] else ''}: {', '.join(counted)}"


def legend_height(oar: Oar) -> float:
    """Height of the legend of woods [mm]."""
    return LEGEND_STEP * len(made_of(oar)) + 2


def draw_legend(paper: Paper, oar: Oar, top: float) -> None:
    """A sample of each wood's hatch, and the pieces made of it."""
    marks = hatches(oar)
    for row, (key, pieces) in enumerate(made_of(oar).items()):
        y = top - LEGEND_STEP * (row + 0.5)
        filled(paper, box(3, y - 1.7, 13, y + 1.7), marks[key])
        paper.text(15, y, wood_words(key, pieces), size=SMALL)
