"""Rules of thumb, ranges and stock sizes in numbers that can be done in the head or with a pencil, beside each."""

from dataclasses import replace

import numpy as np
import pytest

from oarkit.rig.ranges import STOCK_LENGTHS, hand_height_range
from oarkit.rig.rules import RATIOS_BY_USE, TradeRange, causes, length_rules, placed, stock_length, why_rules_differ
from oarkit.tables import trade_ranges
from oarkit.units import filled
from oarkit.working import BadDesign

INCH, FOOT = 0.0254, 0.3048
QUILLET = {"span": 1.1049, "beam": 0.8636, "inboard": 0.62865, "length": 2.286}
TUMBLEHOD = {"span": 1.2954, "beam": 1.3716, "inboard": 0.6223, "length": 2.2098}


# Length


def test_rules_in_inches():
    """A span of 52 in, a beam of 44 in and an inboard of 28 in: half the span is 26 in, with two inches 28 in."""
    rules = length_rules(span=52 * INCH, beam=44 * INCH, inboard=28 * INCH)
    inches = [(rule.low / INCH, rule.high / INCH) for rule in rules]
    wanted = [
        (100, 100),  # 28 x 25/7
        (26 * 25 / 7, 26 * 25 / 7),
        (98, 98),  # 28 x 7/2
        (84, 84),  # 78 + 6
        (88, 88),
        (100, 100),  # 28 x 25/7
        (92.4, 98),  # 28 x 3.3, x 3.5
        (98, 102.2),  # 28 x 3.65
        (102.2, 106.4),  # 28 x 3.8
        (98, 103.6),  # 28 x 3.7
        (106.4, 106.4),
        (126, 126),  # 28 x 4.5
    ]
    assert inches == [pytest.approx(pair) for pair in wanted]
    assert len({rule.name for rule in rules}) == len(rules)


def test_ratio_of_each_rule():
    """What a rule takes for inboard goes into its length as often as one and its ratio tell."""
    rules = length_rules(span=1.3, beam=1.1, inboard=0.7)
    ratios = [rule.middle / rule.inboard - 1 for rule in rules[:6]]
    assert ratios == pytest.approx([18 / 7, 18 / 7, 2.5, 2, 3, 18 / 7])
    assert [rule.span for rule in rules[:6]] == [1.3, 1.3, 1.3, 1.3, 1.1, 1.3]


def test_rules_over_arrays():
    """A row of boats is a boat after the other."""
    spans, beams, inboards = np.array([1.0, 1.3]), np.array([0.9, 1.4]), np.array([0.55, 0.7])
    boats = np.array([2.9, 4.0])
    row = length_rules(span=spans, beam=beams, inboard=inboards, boat_length=boats)
    for k in range(2):
        one = length_rules(span=spans[k], beam=beams[k], inboard=inboards[k], boat_length=boats[k])
        for together, alone in zip(row, one, strict=True):
            for field in ("low", "high", "stock", "span", "inboard"):
                assert np.broadcast_to(getattr(together, field), 2)[k] == pytest.approx(getattr(alone, field))
            assert together.name == alone.name


@pytest.mark.parametrize("name", ["span", "beam", "inboard"])
@pytest.mark.parametrize("bad", [0.0, -1.0, np.nan, np.inf])
def test_rules_of_no_boat(name, bad):
    """No boat has a size of nought, or one without end."""
    with pytest.raises(BadDesign, match=f"^the {name} must be"):
        length_rules(**{"span": 1.2, "beam": 1.0, "inboard": 0.6, name: bad})


def test_each_rule_has_its_source():
    """Each rule tells form and source; only the two highest ratios are in print."""
    rules = length_rules(span=1.2, beam=1.0, inboard=0.6)
    assert all(rule.form.startswith("L = ") for rule in rules)
    printed = [rule.name for rule in rules if rule.source != "common practice"]
    assert printed == ["fast rowing on a fixed seat", "practical limit of short oars"]


# Stock


def test_stock_sizes():
    """Oars are sold from 6 to 10 ft in steps of 6 in."""
    assert [length / FOOT for length in STOCK_LENGTHS] == pytest.approx([6, 6.5, 7, 7.5, 8, 8.5, 9, 9.5, 10])


@pytest.mark.parametrize(
    ("feet", "boat", "stock"),
    [
        (7.6, None, 7.5), (7.8, None, 8), (7.25, None, 7.5), (7.25, 10, 7.5), (7.1, 10, 7),
        (7.1, 12, 7.5), (7.4, 8, 7), (7.5, 12, 7.5), (7.5, 8, 7.5),  # up over 10 ft of boat, down under
        (5.2, None, 6), (5.2, 8, 6), (11, None, 10), (11, 12, 10), (9.9, 12, 10), (6.4, 8, 6),
    ],
)  # fmt: skip
def test_stock_length(feet, boat, stock):
    """Nearest size, up or down by the boat; a size stays itself; beyond the ends it is the end size."""
    boat_length = None if boat is None else boat * FOOT
    assert stock_length(length=feet * FOOT, boat_length=boat_length) == pytest.approx(stock * FOOT)


def test_stock_length_over_arrays():
    """Lengths and boats broadcast."""
    found = stock_length(length=np.array([[7.1], [7.4]]) * FOOT, boat_length=np.array([8, 10, 12]) * FOOT)
    assert found / FOOT == pytest.approx(np.array([[7, 7, 7.5], [7, 7.5, 7.5]]))


def test_stock_length_of_nothing():
    """No length and no boat have no stock size."""
    with pytest.raises(BadDesign, match="the length must be above nought"):
        stock_length(length=-2.0)
    with pytest.raises(BadDesign, match="the length of the boat must be a number"):
        stock_length(length=2.0, boat_length=np.nan)


# Ranges

IN_INCHES = {  # common practice, in inches; Woodgate (1888) for the sculls
    ("span", "one rower on a fixed seat"): (40, None, 52),
    ("overlap", "sculls, one hand covering the other"): (4, None, 7),
    ("overlap", "recreation"): (None, None, 7),
    ("overlap", "too much overlap"): (None, None, 10),
    ("lock_above_seat", "best height"): (5, 7, 8),
    ("lock_above_seat", "workable height"): (5, 7, 12),
    ("seat_edge_to_pins", "a foot from seat to pins"): (11, 12, 13),
    ("seat_above_heels", "one authority"): (6, None, 8),
    ("seat_above_heels", "another authority"): (8, None, 11),
    ("seat_edge_to_footrest", "rowers of 5 ft 8 in to 6 ft"): (28, None, 32),
    ("seat_above_bottom", "light open boats"): (5.5, None, 8),
    ("seat_above_bottom", "deeper open boats"): (5.5, None, 10),
    ("length", "stock sizes"): (72, None, 120),
}
AS_THEY_ARE = {
    ("overlap", "handles that cross"): (0.050, None, 0.180),
    ("gap", "handles side by side"): (0.025, None, 0.075),
    ("leverage_ratio", "four-oared coastal skiffs"): (2.7, None, 3.0),
    ("dip_in_drive", "dip that lifts no water"): (None, None, np.radians(20)),
}


def _row(quantity, rule):
    (row,) = [row for row in trade_ranges() if (row.quantity, row.rule) == (quantity, rule)]
    return row


@pytest.mark.parametrize(("key", "limits", "unit"), [
    *((key, limits, INCH) for key, limits in IN_INCHES.items()),
    *((key, limits, 1) for key, limits in AS_THEY_ARE.items()),
], ids=str)  # fmt: skip
def test_range(key, limits, unit):
    """Each range is the trade's, turned into SI."""
    row = _row(*key)
    for found, wanted in zip((row.low, row.typical, row.high), limits, strict=True):
        assert found == (None if wanted is None else pytest.approx(wanted * unit, rel=1e-9))


def test_ratios_stand_alike_in_table_and_rules():
    """The ratios that the length rules go by are those of the table."""
    for name, low, high, source, _ in RATIOS_BY_USE:
        row = _row("leverage_ratio", name)
        assert row.high == high
        assert row.low in (None, low)
        assert row.source == source


def test_every_range_is_a_range():
    """Each has a limit, the typical lies within, and every row is looked at above or is a ratio by use."""
    seen = {*IN_INCHES, *AS_THEY_ARE, *(("leverage_ratio", name) for name, *_ in RATIOS_BY_USE)}
    assert {(row.quantity, row.rule) for row in trade_ranges()} == seen
    for row in trade_ranges():
        known = [limit for limit in (row.low, row.typical, row.high) if limit is not None]
        assert known == sorted(known)
        assert row.low is not None or row.high is not None
        assert row.unit in {"m", "1", "rad"}


def test_placed():
    """A value lies below, inside or above; a limit is inside; what is not known is not placed."""
    low = TradeRange(rule="r", quantity="q", low=1.0, typical=None, high=2.0, unit="m", source="s", note="")
    open_below, other = replace(low, low=None), replace(low, quantity="other")
    for value, place, without_low in (
        (0.5, "below", "inside"), (1.0, "inside", "inside"), (1.5, "inside", "inside"),
        (2.0, "inside", "inside"), (2.5, "above", "above"),
    ):  # fmt: skip
        found = placed([low, other, open_below], {"q": value, "unheard_of": 3.0})
        assert [(one.range, one.value, one.place) for one in found] == [
            (low, value, place), (open_below, value, without_low),
        ]  # fmt: skip


def test_a_limit_that_was_worked_out():
    """Three tenths are three tenths, though 1.1 - 0.8 and 3 x 0.1 come out a last place above it in a float."""
    for low, high, value in ((1.1 - 0.8, None, 0.3), (None, 0.3, 3 * 0.1)):
        assert low is None or value < low
        assert high is None or value > high
        row = TradeRange(rule="r", quantity="q", low=low, typical=None, high=high, unit="m", source="s", note="")
        assert placed([row], {"q": value})[0].place == "inside"


def test_placed_in_the_table():
    """A lock 9 in above the seat is over the best and workable; 7.6 in of seat over heels suit one authority."""
    found = placed(trade_ranges(), {"lock_above_seat": 9 * INCH, "seat_above_heels": 7.6 * INCH})
    assert [(one.range.rule, one.place) for one in found] == [
        ("best height", "above"), ("workable height", "inside"),
        ("one authority", "inside"), ("another authority", "below"),
    ]  # fmt: skip
    with pytest.raises(BadDesign, match="the lock above seat must be a number"):
        placed(trade_ranges(), {"lock_above_seat": np.nan})


def test_hand_over_elbow():
    """An elbow 240 mm over the seat likes the hand at 300 to 380 mm."""
    found = hand_height_range(elbow_rest_height=0.24)
    assert (found.low, found.high) == pytest.approx((0.30, 0.38))
    assert placed([found], {"hand_height_in_drive": 0.29})[0].place == "below"


# Why they differ


def test_causes():
    """Half a beam of 1 m, a span of 1.2 m and an overlap of 0.1 m: 0.1 m and 0.05 m of inboard, four times each."""
    (rule,) = [r for r in length_rules(span=1.2, beam=1.0, inboard=0.65) if r.name == "twice the beam"]
    parts = causes(rule=rule, span=1.2, inboard=0.65, length=2.4)
    assert (parts.pins, parts.handles) == pytest.approx((0.4, 0.2))
    assert parts.ratio == pytest.approx(2.4 - 4 * 0.65)
    assert parts.total == pytest.approx(2.4 - 2.0)


def _numbers(finding):
    return {name: quantity.value for name, quantity in finding.quantities.items()}


def test_why_in_a_narrow_boat():
    """Quillet by hand: beam 34 in, span 43.5 in, oar 90 in with 24.75 in inboard; the beam is blind to the brackets."""
    finding = why_rules_differ(**QUILLET)
    text = finding.text
    assert "twice the beam makes an oar of {shortest}, the 7 : 18 rule one of {longest}" in text
    assert (
        "Furthest of them from this oar of {length} is twice the beam, short by {total}, chiefly because it is blind"
        in text
    )
    assert "the span exceeds the beam by {beyond_beam} and the rule falls short by twice that, {pins}" in text
    assert "handles end to end in place of an overlap of {own_handles}, which makes it short by {handles}" in text
    assert "against that, it takes a leverage ratio of {rule_ratio} where this oar has {own_ratio}" in text
    assert text.endswith("The overlap of {own_handles} makes half the span × 25/7 short by {end_to_end}.")
    longest = (43.5 / 2 + 2) * 25 / 7
    inches = {
        "shortest": 68, "longest": longest, "apart": longest - 68, "length": 90, "total": 90 - 68,
        "beyond_beam": 9.5, "pins": 19, "own_handles": 6, "handles": 12, "ratio": 19 + 12 - (90 - 68),
        "end_to_end": 3 * 25 / 7,
    }  # fmt: skip
    ratios = {"rule_ratio": 3, "own_ratio": 65.25 / 24.75}
    wanted = {name: value * INCH for name, value in inches.items()} | ratios
    assert _numbers(finding) == pytest.approx(wanted)


def test_why_in_a_beamy_boat():
    """Tumblehod by hand: beam 54 in, span 51 in, oar 87 in with 24.5 in inboard; twice the beam is far too long."""
    finding = why_rules_differ(**TUMBLEHOD)
    text = finding.text
    assert "three halves of the span plus 6 in makes an oar of {shortest}, twice the beam one of {longest}" in text
    assert "is twice the beam, long by {total}, chiefly because it takes a leverage ratio of {rule_ratio}" in text
    assert "the span is {beyond_beam} less than the beam and the rule is long by twice that, {pins}" in text
    assert "handles end to end in place of a gap of {own_handles}, which makes it long by {handles}" in text
    assert text.endswith("The gap of {own_handles} makes half the span × 25/7 long by {end_to_end}.")
    assert "blind" not in text
    assert "against" not in text
    inches = {
        "shortest": 76.5 + 6, "longest": 108, "apart": 108 - 82.5, "length": 87, "total": 108 - 87,
        "beyond_beam": 3, "pins": 6, "own_handles": 2, "handles": 4, "ratio": 21 - 6 - 4, "end_to_end": 25 / 7,
    }  # fmt: skip
    wanted = {name: value * INCH for name, value in inches.items()} | {"rule_ratio": 3, "own_ratio": 62.5 / 24.5}
    assert _numbers(finding) == pytest.approx(wanted)


def test_why_is_read_in_the_readers_units():
    """The sentence fills in both systems; 19 in is 482.6 mm."""
    finding = why_rules_differ(**QUILLET)
    assert "twice that, 482.6 mm;" in filled(finding.text, finding.quantities, "mm")
    assert "twice that, 1'-7\";" in filled(finding.text, finding.quantities, "ft-in")
    assert finding.level == "note"
    assert finding.code == "rules_differ"


def test_why_where_pins_and_handles_do_not_matter():
    """With pins on the rails and handles end to end only the ratio is left: 3 against 1.5/0.6."""
    finding = why_rules_differ(span=1.2, beam=1.2, inboard=0.6, length=2.1)
    assert finding.text.endswith(
        "is twice the beam, long by {total}, chiefly because it takes a leverage ratio of {rule_ratio} where this oar "
        "has {own_ratio}, which makes it long by {ratio}."
    )
    assert _numbers(finding)["ratio"] == pytest.approx(_numbers(finding)["total"]) == pytest.approx(0.3)


def test_why_another_rule_lies_furthest():
    """Crossed by 12 in, an oar of 94 in over 40 in of span is furthest from three halves and 6 in, which make 66 in."""
    finding = why_rules_differ(span=40 * INCH, beam=40 * INCH, inboard=26 * INCH, length=94 * INCH)
    assert (
        "is three halves of the span plus 6 in, short by {total}, chiefly because it takes a leverage" in finding.text
    )
    assert "it takes an overlap of {rule_handles} in place of an overlap of {own_handles}" in finding.text
    found = _numbers(finding)
    # Length 94 - 66 = 28: handles 3 (26 - 22) = 12, ratio 94 - 3 x 26 = 16.
    assert [
        found[name] / INCH for name in ("total", "handles", "ratio", "rule_handles", "own_handles")
    ] == pytest.approx([28, 12, 16, 4, 12])


def test_why_of_no_oar():
    """An oar shorter than its inboard is refused."""
    with pytest.raises(BadDesign, match="would make the outboard"):
        why_rules_differ(span=1.2, beam=1.0, inboard=0.6, length=0.5)
