"""Span, inboard, outboard and leverage derived again with SymPy from points on a line athwartships.

Every source here is plane geometry. The points are laid out, distances are measured between them, and the unknowns are
solved for; the functions are then called with the symbols themselves.
"""

from itertools import combinations

import pytest
import sympy
from sympy import Point

from oarkit.rig import arms
from oarkit.rig import split as rig_split
from oarkit.rig.split import split
from oarkit.working import BadDesign

SPAN, INBOARD, OUTBOARD, GRIP, BLADE, BEAM, OVERHANG = sympy.symbols(
    "span inboard outboard grip blade beam overhang", positive=True
)
PORT_PIN, STARBOARD_PIN = Point(SPAN / 2, 0), Point(-SPAN / 2, 0)
PORT_HANDLE, STARBOARD_HANDLE = Point(SPAN / 2 - INBOARD, 0), Point(INBOARD - SPAN / 2, 0)
PORT_TIP = Point(SPAN / 2 + OUTBOARD, 0)


def _same(found, wanted) -> bool:
    return sympy.simplify(found - wanted) == 0


def test_span():
    """The pins stand an overhang outside the rails, each side."""
    port, starboard = Point(BEAM / 2 + OVERHANG, 0), Point(-BEAM / 2 - OVERHANG, 0)
    assert _same(rig_split.span_from_beam(beam=BEAM, overhang=OVERHANG), port.distance(starboard))


def test_overlap():
    """The handles overlap by as much as the starboard handle reaches to port of the port handle."""
    reach = STARBOARD_HANDLE.x - PORT_HANDLE.x
    assert _same(rig_split.handle_overlap(span=SPAN, inboard=INBOARD), reach)


def test_inboard_from_overlap():
    """The inboard for a wanted overlap solves the same picture."""
    overlap = sympy.Symbol("overlap", real=True)
    (inboard,) = sympy.solve(STARBOARD_HANDLE.x - PORT_HANDLE.x - overlap, INBOARD)
    assert _same(rig_split.inboard_from_overlap(span=SPAN, overlap=overlap), inboard)


def test_outboard_and_leverage():
    """Outboard is what the length leaves beyond the pin, leverage how many inboards go into it."""
    length = PORT_HANDLE.distance(PORT_TIP)
    outboard = PORT_PIN.distance(PORT_TIP)
    assert _same(rig_split.outboard_from_length(length=length, inboard=INBOARD), outboard)
    inboard = PORT_PIN.distance(PORT_HANDLE)
    assert _same(rig_split.leverage_ratio(outboard=OUTBOARD, inboard=INBOARD), outboard / inboard)


def test_length_and_inboard_from_ratio():
    """Length and inboard for a wanted leverage solve the same picture."""
    ratio, length = sympy.symbols("ratio length", positive=True)
    picture = [sympy.Eq(OUTBOARD / INBOARD, ratio), sympy.Eq(INBOARD + OUTBOARD, length)]
    by_inboard = sympy.solve(picture, [length, OUTBOARD], dict=True)[0]
    by_length = sympy.solve(picture, [INBOARD, OUTBOARD], dict=True)[0]
    assert _same(rig_split.length_from_ratio(inboard=INBOARD, ratio=ratio), by_inboard[length])
    assert _same(rig_split.inboard_from_ratio(length=length, ratio=ratio), by_length[INBOARD])


def test_arms():
    """The arms run from the pin to the middle of the hand and to the middle of the blade's length."""
    hand, middle = Point(PORT_HANDLE.x + GRIP, 0), PORT_TIP.midpoint(Point(PORT_TIP.x - BLADE, 0))
    assert _same(arms.hand_arm(inboard=INBOARD, grip_centre=GRIP), (PORT_PIN - hand).x)
    assert _same(arms.blade_arm(outboard=OUTBOARD, blade_length=BLADE), (middle - PORT_PIN).x)


def test_working_ratio():
    """The working ratio is the hand force over the blade force of an oar whose moments about the pin balance."""
    hand_arm, blade_arm, hand, blade = sympy.symbols("l_h l_b F_h F_b", positive=True)
    (balanced,) = sympy.solve(hand * hand_arm - blade * blade_arm, hand)
    assert _same(arms.working_ratio(blade_arm=blade_arm, hand_arm=hand_arm), balanced / blade)


NAMES = ("span", "inboard", "outboard", "length", "overlap", "leverage_ratio")
TRUE = {"span": "1.10", "inboard": "0.63", "outboard": "1.66", "length": "2.29", "overlap": "0.16"}


def _picture() -> tuple[dict[str, sympy.Symbol], list[sympy.Expr]]:
    """The three relations of the picture, and one oar that obeys them."""
    symbols = {name: sympy.Symbol(name, positive=True) for name in NAMES}
    s = symbols
    relations = [
        (s["inboard"] - s["span"] / 2) - (s["span"] / 2 - s["inboard"]) - s["overlap"],
        s["inboard"] + s["outboard"] - s["length"],
        s["leverage_ratio"] * s["inboard"] - s["outboard"],
    ]
    return symbols, relations


@pytest.mark.parametrize("given", list(combinations(NAMES, 3)), ids="+".join)
def test_any_three_that_suffice(given):
    """Three of the six numbers give the other three just where SymPy finds one solution, else they are refused."""
    true = {name: sympy.Rational(value) for name, value in TRUE.items()}
    true["leverage_ratio"] = true["outboard"] / true["inboard"]
    symbols, relations = _picture()
    wanted = [symbols[name] for name in NAMES if name not in given]
    known = {symbols[name]: true[name] for name in given}
    solutions = sympy.solve([r.subs(known) for r in relations], wanted, dict=True)
    solved = len(solutions) == 1 and all(value.is_number for value in solutions[0].values()) and len(solutions[0]) == 3
    numbers = {name: float(true[name]) for name in given}
    if not solved:
        with pytest.raises(BadDesign, match="cannot be worked out"):
            split(**numbers)
        return
    found = split(**numbers)
    for symbol, value in solutions[0].items():
        assert getattr(found, symbol.name) == pytest.approx(float(value), rel=1e-12)
