"""The oar to scale: two views with its stations, sections with their woods, and the stress along it."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from shapely.geometry import LineString, MultiLineString, box
from shapely.geometry import Polygon as Region
from shapely.geometry.base import BaseGeometry

from oarkit.design import Design, Side
from oarkit.draw.paper import GREY, INK, PALE, SMALL, TEXT, WIDTH, WOOD_HARD, WOOD_SOFT, Paper, length_text, spread
from oarkit.oar.build import Oar
from oarkit.oar.shape import ROUNDING, SHOULDER, profile_at
from oarkit.section.profile import Profile, outline
from oarkit.strength.hard_start import stress_along
from oarkit.units import Display

_LABEL_SHARE = 0.12  #: share of the chart's width that a place's label takes


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A station with its letter, what stands there, and its sizes [m]."""

    letter: str
    what: str
    s: float
    thickness: float
    width: float
    edge: float | None


def marked_stations(oar: Oar) -> tuple[Place, ...]:
    """The stations a builder marks: every break of section, the pin line, and between them."""
    shape = oar.shape
    root, blade = float(shape.blade_root), float(shape.blade_length)
    start, end = float(shape.leather_start), float(shape.leather_end)
    loom = [
        (f"{part} way to the neck", end + (root - end) * part_of)
        for part, part_of in (("1/4", 0.25), ("1/2", 0.5), ("3/4", 0.75))
    ]
    named = [
        ("handle end", 0.0),
        ("grip ends", float(shape.grip_length)),
        ("full inboard size", float(shape.grip_length) + SHOULDER),
        ("starts to round", start - ROUNDING),
        ("leather starts", start),
        ("pin line", float(shape.inboard)),
        ("leather ends", end),
        *loom,
        ("neck, blade root", root),
        ("blade, 8 % of length", root + 0.08 * blade),
        ("blade, 35 % of length", root + 0.35 * blade),
        ("mid-blade", float(shape.mid_blade)),
        ("blade, 75 % of length", root + 0.75 * blade),
        ("tip", float(shape.length)),
    ]
    profile = profile_at(shape, np.array([s for _, s in named]))
    return tuple(
        Place(
            letter="ABCDEFGHIJKLMNOPQRSTUVWXYZ"[i],
            what=what,
            s=s,
            thickness=float(profile.thickness[i]),
            width=float(profile.width[i]),
            edge=float(profile.edge[i]) if s > root + 1e-9 else None,
        )
        for i, (what, s) in enumerate(named)
    )


def oar_views(made: Design, display: Display, side: Side = "port") -> Paper:
    """The oar on its face and on its edge, with its stations, and its sections."""
    oar = made.oars[side]
    length = float(oar.shape.length)
    scale = math.ceil(length * 1e3 / (WIDTH - 6))
    sections_height = _sections_height(oar)
    paper = Paper(
        height=72 + sections_height,
        scale=scale,
        origin=(3, sections_height + 46),
        title="The oar in two views, and its sections",
        text_alternative=f"The oar, {length_text(length, display)} long, seen on the face of the blade and on its "
        f"edge, with the stations of the table, and its sections with their woods.",
    )
    face, edge = 0.0, -18 * scale / 1e3
    for view, size in ((face, oar.profile.width), (edge, oar.profile.thickness)):
        x, outline_y = np.concatenate([oar.s, oar.s[::-1]]), np.concatenate([size / 2, -size[::-1] / 2])
        paper.shape(x, view + outline_y, fill=WOOD_SOFT, width=0.8)
    _hard_pieces(paper, oar, face)
    start, end = float(oar.shape.leather_start), float(oar.shape.leather_end)
    for view, size in ((face, oar.profile.width), (edge, oar.profile.thickness)):
        for s in np.linspace(start, end, 9):
            half = float(np.interp(s, oar.s, size)) / 2
            paper.line([s, s], [view - half, view + half], color=GREY, width=0.6)
        pin = float(oar.shape.inboard)
        paper.line([pin, pin], [view - 0.05, view + 0.05], width=1.2)
    _letters(paper, oar)
    y = paper.origin[1] - 31
    paper.across(
        0,
        float(oar.shape.inboard),
        y,
        f"inboard {length_text(float(oar.shape.inboard), display, second=False)}",
        from_y=(y + 6, y + 6),
    )
    paper.across(
        float(oar.shape.blade_root),
        length,
        y,
        f"blade {length_text(float(oar.shape.blade_length), display, second=False)}",
        from_y=(y + 6, y + 6),
    )
    paper.text(float(paper.at(float(oar.shape.inboard) + 0.03, 0)[0]), y, "pin line", color=GREY, size=SMALL)
    paper.text(
        float(paper.at(length * 0.46, 0)[0]), paper.origin[1] + 6.5, "face (width)", color=GREY, size=SMALL, ha="center"
    )
    paper.text(
        float(paper.at(length * 0.46, 0)[0]),
        paper.origin[1] - 12.5,
        "edge (thickness)",
        color=GREY,
        size=SMALL,
        ha="center",
    )
    paper.text(
        WIDTH - 2,
        paper.height - 3,
        f"views 1:{scale:g}, sections 1:{_section_scale(oar):g}, printed at 100 %",
        size=SMALL,
        color=GREY,
        ha="right",
    )
    _sections(paper, oar, sections_height)
    return paper


def _hard_pieces(paper: Paper, oar: Oar, view: float) -> None:
    """Edge strips and tip on the face view."""
    root, length = float(oar.shape.blade_root), float(oar.shape.length)
    on = (oar.s >= root) & (oar.middle > root)
    s, half = oar.s[on], oar.profile.width[on] / 2
    for piece in oar.pieces:
        if piece.kind == "edge":
            inner = np.maximum(half - float(piece.size or 0.0), 0.0)
            for sign in (-1, 1):
                paper.shape(
                    np.concatenate([s, s[::-1]]),
                    view + sign * np.concatenate([half, inner[::-1]]),
                    fill=WOOD_HARD,
                    width=0.4,
                )
    for piece in oar.pieces:
        if piece.kind == "tip":
            start = length - float(piece.size or 0.0)
            w = float(np.interp(start, oar.s, oar.profile.width)) / 2
            paper.shape(
                np.array([start, length, length, start]), view + np.array([w, w, -w, -w]), fill=WOOD_HARD, width=0.6
            )


def _letters(paper: Paper, oar: Oar) -> None:
    """Letters over the stations, shifted where they would touch, each led to its place."""
    places = marked_stations(oar)
    wanted = [float(paper.at(p.s, 0)[0]) for p in places]
    y = paper.origin[1] + 13
    for place, x in zip(places, spread(wanted, 4.2, 2, WIDTH - 2), strict=True):
        s = float(paper.at(place.s, 0)[0])
        paper.line([x, s, s], [y, y - 3, y - 13 - 24], color=PALE, width=0.5, model=False)
        paper.text(x, y + 1.8, place.letter, ha="center")


_DRAWN = (
    "grip ends",
    "starts to round",
    "pin line",
    "1/2 way to the neck",
    "neck, blade root",
    "blade, 35 % of length",
    "tip",
)


def _drawn_sections(oar: Oar) -> list[Place]:
    return [place for place in marked_stations(oar) if place.what in _DRAWN]


def _section_scale(oar: Oar) -> float:
    total = sum(place.width for place in _drawn_sections(oar)) * 1e3
    return math.ceil(2 * total / (WIDTH - 6 - 3 * len(_DRAWN))) / 2


def _sections_height(oar: Oar) -> float:
    return max(place.thickness for place in _drawn_sections(oar)) * 1e3 / _section_scale(oar) + 20


def _sections(paper: Paper, oar: Oar, height: float) -> None:
    scale, centre = paper.scale, paper.origin
    paper.scale = _section_scale(oar)
    places = _drawn_sections(oar)
    gap = (WIDTH - 6 - sum(p.width for p in places) * 1e3 / paper.scale) / len(places)
    x = 3 + gap / 2
    for place in places:
        wide = place.width * 1e3 / paper.scale
        paper.origin = (x + wide / 2, height / 2 + 1)
        at = place.s - 1e-6 if place.what != "tip" else place.s - float(_tip_length(oar)) - 1e-6
        _section(paper, oar, at)
        paper.text(paper.origin[0], 4, place.letter if place.what != "tip" else _tip_letter(oar, place), ha="center")
        x += wide + gap
    paper.scale, paper.origin = scale, centre
    paper.text(3, height - 2, "Sections, thickness upright: pale softwood, hatched hardwood", size=SMALL, color=GREY)


def _tip_length(oar: Oar) -> float:
    return max((float(p.size or 0.0) for p in oar.pieces if p.kind == "tip"), default=0.0)


def _tip_letter(oar: Oar, place: Place) -> str:
    return f"{place.letter}, short of the tip piece" if _tip_length(oar) else place.letter


def _section(paper: Paper, oar: Oar, s: float) -> None:
    """One section, its hardwood hatched."""
    at = profile_at(oar.shape, np.array([s]))
    one = Profile(**{name: getattr(at, name)[0] for name in ("thickness", "width", "edge", "corner", "blade_share")})
    y, z = outline(one)
    paper.shape(y, z, fill=WOOD_SOFT, width=0.9)
    whole, half = Region(np.column_stack([y, z])), float(one.width) / 2
    for piece in oar.pieces:
        if piece.kind == "edge" and s > float(oar.shape.blade_root):
            inner = half - float(piece.size or 0.0)
            for strip in (box(inner, -1, 1, 1), box(-1, -1, -inner, 1)):
                _hatched(paper, whole.intersection(strip))


def _hatched(paper: Paper, region: BaseGeometry) -> None:
    if region.is_empty or not isinstance(region, Region):
        return
    paper.shape(*np.asarray(region.exterior.coords).T, fill=WOOD_HARD, width=0.6)
    low_x, low_y, high_x, high_y = region.bounds
    step = 1.1e-3 * paper.scale
    for offset in np.arange(low_x - (high_y - low_y), high_x, step):
        cut = region.intersection(LineString([(offset, low_y), (offset + (high_y - low_y), high_y)]))
        for part in cut.geoms if isinstance(cut, MultiLineString) else [cut]:
            if isinstance(part, LineString) and not part.is_empty:
                px, py = np.asarray(part.coords).T
                paper.axes.plot(*paper.at(px, py), color=INK, linewidth=0.35, zorder=5)


def stress_chart(made: Design, display: Display, side: Side = "port") -> Paper:
    """Bending stress along the oar in a hard start, against what each wood may carry."""
    oar = made.oars[side]
    safety = float(made.inputs.wanted_safety)
    paper = Paper(
        height=70,
        scale=1,
        origin=(0, 0),
        title=f"Bending stress along the {f'{side} ' if len(made.oars) == 2 else ''}oar in a hard start",
        text_alternative=(
            f"Bending stress along the oar under {float(made.force):.0f} N at the hand; least safety ratio "
            f"{float(made.values['strength.least_ratio'].value or 0):.2f}."
        ),
    )
    axes = paper.figure.add_axes((0.085, 0.19, 0.895, 0.70))
    unit, per = ("mm", 1e3) if display == "mm" else ("in", 1 / 0.0254)
    styles = ((INK, "-", 1.6), (INK, "--", 1.4), (GREY, "-.", 1.4), (GREY, ":", 1.4))
    top = 0.0
    shown = [
        (p, st) for p, st in zip(oar.pieces, stress_along(oar, force=made.force), strict=True) if float(np.max(st)) > 0
    ]
    for (piece, stress), (color, dash, width) in zip(shown, styles, strict=False):
        present = np.where(stress > 0, stress, np.nan) / 1e6
        axes.plot(
            oar.s * per, present, color=color, linestyle=dash, linewidth=width, label=f"{piece.kind}: {piece.wood.name}"
        )
        top = max(top, float(np.nanmax(present)))
    loom = next(piece for piece in oar.pieces if piece.kind == "loom")
    allowed = float(loom.wood.strength) / 1e6 / safety
    axes.axhline(allowed, color=GREY, linewidth=0.8)
    axes.set_ylim(0, 1.22 * max(top, allowed))
    axes.set_xlim(0, float(oar.shape.length) * per)
    axes.text(
        float(oar.shape.length) * per * 0.985,
        allowed * 1.02,
        f"loom: adjusted strength/{safety:g} = {allowed:.1f} MPa",
        ha="right",
        va="bottom",
        fontsize=SMALL,
        color=GREY,
    )
    places = (
        ("grip centre", oar.shape.grip_centre),
        ("pin", oar.shape.inboard),
        ("blade root", oar.shape.blade_root),
        ("mid-blade", oar.shape.mid_blade),
    )
    long = float(oar.shape.length)
    apart = spread([float(s) / long for _, s in places], _LABEL_SHARE, 0.0, 1.0)
    for (name, s), label in zip(places, apart, strict=True):
        axes.axvline(float(s) * per, color=PALE, linewidth=0.6, zorder=0)
        at = max(label, _LABEL_SHARE / 2 - 0.02) * long * per
        axes.text(at, 1.25 * max(top, allowed), name, ha="center", va="bottom", fontsize=SMALL, color=GREY)
    axes.set_xlabel(f"from the handle end [{unit}]", fontsize=TEXT)
    axes.set_ylabel("stress [MPa]", fontsize=TEXT)
    axes.tick_params(labelsize=SMALL)
    axes.spines[["top", "right"]].set_visible(False)
    axes.legend(loc="center", fontsize=SMALL, frameon=False, bbox_to_anchor=(0.52, 0.28))
    return paper
