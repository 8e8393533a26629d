"""How an oar bends: hard start and the two bench tests, exaggerated, against the straight line of hand and pin."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from oarkit.draw.paper import GREY, INK, SMALL, WIDTH, WOOD_SOFT, Paper, length_text
from oarkit.oar.build import Oar
from oarkit.strength.beam import Bent, bent_shape, deflection_at, deflection_shares, slope_at
from oarkit.strength.cases import bench_test, bench_test_at_tip, hard_start
from oarkit.strength.load import LoadCase
from oarkit.units import Display, both
from oarkit.working import Number, Quantity

FACTORS = (1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 150, 200)  #: round ones
_DROP = 32.0  #: most of a drawn deflection [mm]
_ROOM = 37.0  #: on the right of the tip, for words [mm]
_LEFT, _HEAD, _UNDER, _FOOT = 3.0, 17.0, 10.5, 6.5  #: margin; over a line, under its lowest, under all [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class BentCase:
    """A load and what it does to the oar. Deflections in m, ``tip_turn`` in rad; shares of the drop at mid-blade."""

    case: LoadCase
    load: float  #: what is hung or pulled there, without its sign [N]
    words: str
    bent: Bent
    at_middle: float
    at_tip: float  #: or where the weight hangs near it
    tip_turn: float
    outboard: float
    inboard: float
    shear: float


def bent_cases(oar: Oar, *, force: Number) -> tuple[BentCase, ...]:
    """Hard start, 10 kg hung at mid-blade and 7 lb hung at the tip."""
    told = (
        (hard_start(oar, force=force), f"Hard start, {float(force):.0f} N at the hand"),
        (bench_test(oar), "Bench test, 10 kg at mid-blade"),
        (bench_test_at_tip(oar), "Bench test, 7 lb at the tip"),
    )
    return tuple(_bent_case(oar, case, words) for case, words in told)


def _bent_case(oar: Oar, case: LoadCase, words: str) -> BentCase:
    middle, tip = oar.shape.mid_blade, oar.shape.length
    shares = deflection_shares(oar, case, place=middle)
    whole = float(shares.outboard) + float(shares.inboard) + float(shares.shear)
    return BentCase(
        case=case,
        load=abs(float(case.forces[0])),
        words=words,
        bent=bent_shape(oar, case),
        at_middle=float(deflection_at(oar, case, place=middle)),
        at_tip=float(deflection_at(oar, case, place=case.places[0] if case.name.endswith("at the tip") else tip)),
        tip_turn=float(slope_at(oar, case, place=tip)),
        outboard=float(shares.outboard) / whole,
        inboard=float(shares.inboard) / whole,
        shear=float(shares.shear) / whole,
    )


def bent_chart(oar: Oar, display: Display, *, force: Number, of: str = "oar") -> Paper:
    """The oar as it bends under each load, its deflections drawn some round number of times as large."""
    cases = bent_cases(oar, force=force)
    length = float(oar.shape.length)
    scale = float(math.ceil(length * 1e3 / (WIDTH - _LEFT - _ROOM)))
    most = max(float(np.max(np.abs(one.bent.deflection))) for one in cases)
    larger = max([f for f in FACTORS if most * 1e3 / scale * f <= _DROP], default=1)
    per = 1e3 / scale * larger  # [mm of paper] a metre of deflection
    depths = [max(float(np.max(one.bent.deflection)) * per, 6.0) for one in cases]
    paper = Paper(
        height=_FOOT + sum(_HEAD + depth + _UNDER for depth in depths),
        scale=scale,
        origin=(_LEFT, 0.0),
        title=f"How the {of} bends",
        text_alternative=_in_words(cases, larger, of, display),
    )
    top = paper.height
    for one, depth in zip(cases, depths, strict=True):
        _panel(paper, oar, one, top - _HEAD, per, display)
        top -= _HEAD + depth + _UNDER
    note = f"length 1:{scale:g}, deflections {larger} times as large; dashed: straight through hand and pin"
    paper.text(_LEFT, 3.2, note, size=SMALL, color=GREY)
    return paper


def _panel(paper: Paper, oar: Oar, one: BentCase, y: float, per: float, display: Display) -> None:
    """One load: the straight line, the bent oar under it, supports, load, the two drops, and words."""
    shape = oar.shape
    x = [float(paper.at(float(s), 0)[0]) for s in (0.0, shape.mid_blade, shape.length)]
    paper.line([x[0], x[2]], [y, y], color=GREY, width=0.6, dashes=(6, 3), model=False)
    curve = y - one.bent.deflection * per
    paper.line(np.asarray(paper.at(one.bent.s, 0)[0]), curve, width=1.8, model=False)
    _supports(paper, oar, y)
    _load(paper, one, y)
    middle, tip = y - one.at_middle * per, y - one.at_tip * per
    for at, low in ((x[1], middle), (x[2] + 3, tip)):
        paper.upright(at, y * paper.scale / 1e3, low * paper.scale / 1e3)
    paper.line([x[2] + 0.5, x[2] + 5], [tip, tip], color=GREY, width=0.5, model=False)
    paper.line([x[2] + 0.5, x[2] + 5], [y, y], color=GREY, width=0.5, model=False)
    first, other = both(Quantity(value=one.at_middle, unit="m"), display)
    paper.text(x[1] - 1, middle - 4.0, f"mid-blade {first} ({other})", size=SMALL, ha="right", va="top")
    height = max(tip + 6, min((y + tip) / 2 + 4.4, y - 2))
    for row, words in enumerate(_tip_words(one, display)):
        paper.text(x[2] + 6.5, height - 4.2 * row, words, size=SMALL)
    paper.text(_LEFT, y + _HEAD - 4, one.words, size=9)
    paper.text(_LEFT, y + _HEAD - 8.6, f"drop at mid-blade: {_shares(one)}", size=SMALL, color=GREY)


def _tip_words(one: BentCase, display: Display) -> tuple[str, ...]:
    first, other = both(Quantity(value=one.at_tip, unit="m"), display)
    return f"tip {first}", f"({other})", f"turned {math.degrees(one.tip_turn):.1f}°"


def _shares(one: BentCase) -> str:
    shares = [f"{100 * share:.1f} %" for share in (one.outboard, one.inboard, one.shear)]
    return "{} bends outboard of the pin, {} inboard, {} is shear".format(*shares)


def _supports(paper: Paper, oar: Oar, y: float) -> None:
    """The hand as a triangle and the pin as a circle, on the side from which each bears."""
    hand, pin = (float(paper.at(float(s), 0)[0]) for s in (oar.shape.grip_centre, oar.shape.inboard))
    paper.tip(hand, y + 0.9, (0, -1), size=3.0, fill=INK)
    paper.axes.plot([pin], [y - 2.1], "o", color=INK, markersize=5, markerfacecolor=WOOD_SOFT, zorder=5)


def _load(paper: Paper, one: BentCase, y: float) -> None:
    """An arrow down onto the oar where the load acts."""
    x = float(paper.at(float(one.case.places[0]), 0)[0])
    paper.line([x, x], [y + 7, y + 1], width=1.0, model=False)
    paper.tip(x, y + 0.6, (0, -1), size=2.2)


def _in_words(cases: tuple[BentCase, ...], larger: int, of: str, display: Display) -> str:
    parts = [
        f"{one.words}: mid-blade {length_text(one.at_middle, display)} and tip {length_text(one.at_tip, display)} off "
        f"the line of hand and pin, the tip turned {math.degrees(one.tip_turn):.1f}°; {_shares(one)}."
        for one in cases
    ]
    return f"How the {of} bends, deflections drawn {larger} times as large. {' '.join(parts)}"
