"""Span, inboard, outboard and leverage derived again with SymPy from points on a line athwartships.

Every source here is plane geometry. The points are laid out, distances are measured between them, and the unknowns are
solved for; the functions are then called with the symbols themselves.
"""

from itertools import combinations

import pytest
import sympy
from sympy import Point

from oarkit.rig import arms, gearing, rules, thumb
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


def test_back_from_the_button():
    """The pin stands half a lock outboard of the face that the button bears on."""
    mark, half = sympy.symbols("mark half", positive=True)
    face = Point(PORT_PIN.x - half, 0)
    (inboard,) = sympy.solve((face - PORT_HANDLE).x - mark, INBOARD)
    assert _same(gearing.inboard_from_mark(button_mark=mark, lock_half_width=half), inboard)
    assert _same(arms.button_mark(inboard=INBOARD, lock_half_width=half), (face - PORT_HANDLE).x)


def test_back_from_the_working_ratio():
    """The inboard for a wanted working ratio solves the picture, with the length known or with the leverage."""
    length, ratio, leverage = sympy.symbols("length ratio leverage", positive=True)
    hand, middle = Point(PORT_HANDLE.x + GRIP, 0), PORT_TIP.midpoint(Point(PORT_TIP.x - BLADE, 0))
    wanted = sympy.Eq((middle - PORT_PIN).x, ratio * (PORT_PIN - hand).x)
    known = {"working_ratio": ratio, "blade_length": BLADE, "grip_centre": GRIP}
    by_length = sympy.solve([wanted, sympy.Eq((PORT_TIP - PORT_HANDLE).x, length)], [INBOARD, OUTBOARD], dict=True)[0]
    assert _same(gearing.inboard_from_working_ratio(length=length, **known), by_length[INBOARD])
    by_ratio = sympy.solve([wanted, sympy.Eq(OUTBOARD, leverage * INBOARD)], [INBOARD, OUTBOARD], dict=True)[0]
    at = {
        leverage: sympy.Rational(13, 5),
        ratio: sympy.Rational(5, 2),
        BLADE: sympy.Rational(2, 5),
        GRIP: sympy.Rational(1, 20),
    }
    found = gearing.inboard_from_ratios(
        leverage_ratio=2.6, working_ratio=2.5, blade_length=0.4, grip_centre=0.05
    )  # it looks at its numbers, so it is called with some: unequal ones
    assert found == pytest.approx(float(by_ratio[INBOARD].subs(at)), rel=1e-12)  # 2.6 - 2.5 loses two digits of 16


NAMES = ("span", "inboard", "outboard", "length", "overlap", "leverage_ratio", "working_ratio", "button_mark")
RESULTS = NAMES[:6]
TRUE = {
    "span": "1.10",
    "inboard": "0.63",
    "outboard": "1.66",
    "length": "2.29",
    "overlap": "0.16",
    "button_mark": "0.612",
}
HOW = {"blade_length": "0.54", "grip_centre": "0.055", "lock_half_width": "0.018"}


def _picture() -> tuple[dict[str, sympy.Symbol], list[sympy.Expr]]:
    """The relations of the picture, for one blade, one place of the hand and one lock."""
    s = {name: sympy.Symbol(name, positive=True) for name in NAMES}
    how = {name: sympy.Rational(value) for name, value in HOW.items()}
    relations = [
        (s["inboard"] - s["span"] / 2) - (s["span"] / 2 - s["inboard"]) - s["overlap"],
        s["inboard"] + s["outboard"] - s["length"],
        s["leverage_ratio"] * s["inboard"] - s["outboard"],
        s["working_ratio"] * (s["inboard"] - how["grip_centre"]) - (s["outboard"] - how["blade_length"] / 2),
        s["button_mark"] + how["lock_half_width"] - s["inboard"],
    ]
    return s, relations


@pytest.mark.parametrize("given", list(combinations(NAMES, 3)), ids="+".join)
def test_any_three_that_suffice(given):
    """Three of the numbers give the others just where SymPy finds one solution, else they are refused."""
    true = {name: sympy.Rational(value) for name, value in TRUE.items()}
    how = {name: float(value) for name, value in HOW.items()}
    true["leverage_ratio"] = true["outboard"] / true["inboard"]
    true["working_ratio"] = (true["outboard"] - sympy.Rational("0.27")) / (true["inboard"] - sympy.Rational("0.055"))
    symbols, relations = _picture()
    wanted = [symbols[name] for name in NAMES if name not in given]
    known = {symbols[name]: true[name] for name in given}
    solutions = sympy.solve([r.subs(known) for r in relations], wanted, dict=True)
    solved = len(solutions) == 1 and len(solutions[0]) == 5 and all(value.is_number for value in solutions[0].values())
    numbers = {name: float(true[name]) for name in given}
    if not solved:
        with pytest.raises(BadDesign, match="cannot be worked out"):
            split(**numbers, **how)
        return
    found = split(**numbers, **how)
    for symbol, value in solutions[0].items():
        # The two ratios lie 0.217 apart, so that their difference loses a digit of sixteen.
        assert getattr(found, symbol.name) == pytest.approx(float(value), rel=1e-12)


def test_length_rules_are_one_inboard_and_one_ratio():
    """Each rule of thumb is L_i (1 + R) with half the span or beam, with or without 2 in, for the inboard."""
    allowance = thumb.ALLOWANCE
    for rule, inboard, ratio in (
        (thumb.seven_to_eighteen(span=SPAN), SPAN / 2 + allowance, sympy.Rational(18, 7)),
        (thumb.half_span(span=SPAN), SPAN / 2, sympy.Rational(18, 7)),
        (thumb.two_sevenths(span=SPAN), SPAN / 2 + allowance, sympy.Rational(5, 2)),
        (thumb.three_halves_plus_six(span=SPAN), SPAN / 2 + allowance, 2),
        (thumb.twice_the_beam(beam=BEAM), BEAM / 2, 3),
        (thumb.own_inboard(inboard=INBOARD), INBOARD, sympy.Rational(18, 7)),
    ):
        # The rules hold 25/7 and 2 in as floats: compared where span, beam and inboard are ordinary.
        difference = (rule - inboard * (1 + ratio)).subs({SPAN: 1.1, BEAM: 0.9, INBOARD: 0.6})
        assert abs(float(difference)) < 1e-14


def test_causes_add_up():
    """Length less a rule's length is pins, handles and ratio, each the change of L_i (1 + R) as one of them changes."""
    base, past, ratio, own_ratio, overlap = sympy.symbols("base past ratio own_ratio overlap", positive=True)
    own = (SPAN + overlap) / 2
    rule = rules.RuleOfThumb(
        name="any", form="", low=(base + past) / 2 * (1 + ratio), high=(base + past) / 2 * (1 + ratio), stock=0,
        span=base, inboard=(base + past) / 2, source="", remark="",
    )  # fmt: skip
    parts = rules.causes(rule=rule, span=SPAN, inboard=own, length=own * (1 + own_ratio))

    def length(span, handles, geared):
        return (span + handles) / 2 * (1 + geared)

    assert _same(parts.pins, length(SPAN, past, ratio) - length(base, past, ratio))
    assert _same(parts.handles, length(SPAN, overlap, ratio) - length(SPAN, past, ratio))
    assert _same(parts.ratio, length(SPAN, overlap, own_ratio) - length(SPAN, overlap, ratio))
    assert _same(parts.total, length(SPAN, overlap, own_ratio) - length(base, past, ratio))
