"""Span, inboard, outboard and leverage in round numbers that can be done in the head."""

import numpy as np
import pytest

from oarkit.rig import arms
from oarkit.rig import split as rig_split
from oarkit.rig.split import split
from oarkit.working import BadDesign


def test_span():
    """A metre over the rails with pins 10 cm outside spans 1.2 m; pins 5 cm inside span 0.9 m."""
    assert rig_split.span_from_beam(beam=1.0, overhang=0.1) == pytest.approx(1.2)
    assert rig_split.span_from_beam(beam=1.0, overhang=-0.05) == pytest.approx(0.9)


def test_overlap_and_gap():
    """Over a span of 1.2 m, inboards of 0.65 m overlap by 0.1 m and inboards of 0.55 m leave a gap of 0.1 m."""
    assert rig_split.handle_overlap(span=1.2, inboard=0.65) == pytest.approx(0.1)
    assert rig_split.handle_overlap(span=1.2, inboard=0.55) == pytest.approx(-0.1)
    assert rig_split.inboard_from_overlap(span=1.2, overlap=-0.1) == pytest.approx(0.55)


def test_arms():
    """Of an oar 0.65 m inboard and 1.7 m outboard, the arms stop at the grip centre and at mid-blade."""
    assert arms.hand_arm(inboard=0.65, grip_centre=0.05) == pytest.approx(0.60)
    assert arms.blade_arm(outboard=1.7, blade_length=0.4) == pytest.approx(1.5)
    assert arms.working_ratio(blade_arm=1.5, hand_arm=0.6) == pytest.approx(2.5)


@pytest.mark.parametrize(
    ("length", "step", "rounded"),
    [(2.24, 0.1, 2.2), (2.26, 0.1, 2.3), (2.26, 0.5, 2.5), (2.25, 0.5, 2.5), (2.24, 0.5, 2.0), (2.2451, None, 2.2451)],
)
def test_rounding(length, step, rounded):
    """A length goes to the nearest step, half-way goes up, and no step leaves it alone."""
    assert rig_split.rounded_length(length=length, step=step) == pytest.approx(rounded)


@pytest.mark.parametrize(
    "given",
    [
        {"span": 1.2, "inboard": 0.6, "outboard": 1.5},
        {"span": 1.2, "overlap": 0.0, "length": 2.1},
        {"inboard": 0.6, "overlap": 0.0, "leverage_ratio": 2.5},
        {"overlap": 0.0, "length": 2.1, "outboard": 1.5},
        {"span": 1.2, "outboard": 1.5, "leverage_ratio": 2.5},
        {"span": 1.2, "length": 2.1, "leverage_ratio": 2.5},
        {"span": 1.2, "inboard": 0.6, "overlap": 0.0, "length": 2.1, "outboard": 1.5, "leverage_ratio": 2.5},
    ],
    ids=lambda given: "+".join(given),
)
def test_split(given):
    """Whatever is given of it, the same oar comes out: 0.6 m and 1.5 m over a span of 1.2 m."""
    found = split(**given)
    assert (found.span, found.inboard, found.outboard) == pytest.approx((1.2, 0.6, 1.5))
    assert (found.length, found.overlap, found.leverage_ratio) == pytest.approx((2.1, 0.0, 2.5))


@pytest.mark.parametrize(
    ("given", "missing"),
    [
        ({}, "nothing"),
        ({"span": 1.2}, "inboard"),
        ({"span": 1.2, "overlap": 0.1}, "length"),
        ({"length": 2.1, "outboard": 1.5, "leverage_ratio": 2.5}, "span"),
        ({"span": 1.2, "length": 2.1}, "inboard"),
    ],
)
def test_too_little(given, missing):
    """Too little is refused with what is missing and what would do."""
    with pytest.raises(BadDesign, match=missing) as refused:
        split(**given)
    assert "give two of span, inboard and overlap, and one of length, outboard and leverage ratio" in str(refused.value)


def test_contradiction():
    """Over a span of 1.2 m inboards of 0.65 m overlap by 0.10 m, not by 0.12 m: the sentence says just that."""
    with pytest.raises(BadDesign) as refused:
        split(span=1.2, inboard=0.65, overlap=0.12, length=2.1)
    assert refused.value.text == (
        "inboard and overlap disagree by {difference}: with a span of {span} an inboard of {inboard} makes the "
        "overlap {worked}, not {overlap}; leave one of them out"
    )
    found = {name: (quantity.value, quantity.unit) for name, quantity in refused.value.quantities.items()}
    # The differences of decimals err in the last binary place.
    assert found["difference"] == (pytest.approx(0.02), "m")
    assert found["worked"] == (pytest.approx(0.10), "m")
    assert [found[name] for name in ("overlap", "span", "inboard")] == [(0.12, "m"), (1.2, "m"), (0.65, "m")]


def test_contradiction_of_a_ratio():
    """The difference between two ratios has no unit."""
    with pytest.raises(BadDesign, match="outboard and leverage ratio disagree by") as refused:
        split(span=1.2, inboard=0.6, outboard=1.5, leverage_ratio=2.6)
    assert refused.value.quantities["difference"].value == pytest.approx(0.1)
    assert refused.value.quantities["difference"].unit == "1"


def test_contradiction_at_second_hand():
    """What was worked out on the way is not blamed: span and overlap make the inboard, and the length the outboard."""
    with pytest.raises(BadDesign, match=r"^length and outboard disagree by") as refused:
        split(span=1.2, overlap=0.0, length=2.1, outboard=1.6)
    assert "with a span of {span} and an overlap of {overlap} a length of {length} makes the outboard" in (
        refused.value.text
    )
    assert "inboard" not in refused.value.text
    assert refused.value.quantities["worked"].value == pytest.approx(1.5)


def test_contradiction_of_a_working_ratio():
    """Blade and grip are conditions of the disagreement and are not blamed; here k is 1.5/0.5 = 3."""
    with pytest.raises(BadDesign, match=r"^outboard and working ratio disagree by") as refused:
        split(span=1.2, inboard=0.6, outboard=1.75, working_ratio=3.2, blade_length=0.5, grip_centre=0.1)
    assert "with a blade length of {blade_length}, a grip centre of {grip_centre} and an inboard of" in (
        refused.value.text
    )
    assert refused.value.quantities["worked"].value == pytest.approx(3.0)


def test_contradiction_somewhere_in_an_array():
    """One bad row among good ones is enough, and the worst row is told."""
    with pytest.raises(BadDesign, match="inboard and overlap disagree by") as refused:
        split(span=np.array([1.2, 1.3, 1.4]), inboard=np.array([0.6, 0.6, 0.6]), overlap=0.0, length=2.1)
    assert refused.value.quantities["difference"].value == pytest.approx(0.2)
    assert refused.value.quantities["span"].value == pytest.approx(1.4)
    assert refused.value.quantities["worked"].value == pytest.approx(-0.2)


def test_gap():
    """A gap is the overlap with its sign turned; both may be given when they say the same."""
    found = split(span=1.2, gap=0.1, length=2.1)
    assert (found.inboard, found.overlap, found.gap) == pytest.approx((0.55, -0.1, 0.1))
    assert split(span=1.2, gap=0.1, overlap=-0.1, length=2.1).inboard == pytest.approx(0.55)
    with pytest.raises(BadDesign, match=r"^overlap and gap disagree by") as refused:
        split(span=1.2, gap=0.1, overlap=0.1, length=2.1)
    assert refused.value.quantities["difference"].value == pytest.approx(0.2)


def test_working_ratio():
    """An oar 0.6 m inboard and 1.75 m outboard, grip at 0.1 m and blade 0.5 m long, works 1.5 m against 0.5 m."""
    known = {"blade_length": 0.5, "grip_centre": 0.1, "span": 1.2}
    assert split(inboard=0.6, outboard=1.75, **known).working_ratio == pytest.approx(3.0)
    assert split(inboard=0.6, working_ratio=3.0, **known).outboard == pytest.approx(1.75)
    assert split(outboard=1.75, working_ratio=3.0, **known).inboard == pytest.approx(0.6)
    assert split(length=2.35, working_ratio=3.0, **known).inboard == pytest.approx(0.6)
    assert split(leverage_ratio=1.75 / 0.6, working_ratio=3.0, **known).inboard == pytest.approx(0.6)


def test_working_ratio_needs_its_arms():
    """A working ratio says nothing without blade and grip, and is not made up without them."""
    for known in ({}, {"blade_length": 0.5}, {"grip_centre": 0.1}):
        with pytest.raises(BadDesign, match="length of the blade and the place of the grip centre"):
            split(span=1.2, inboard=0.6, working_ratio=3.0, **known)
        assert split(span=1.2, inboard=0.6, outboard=1.75, **known).working_ratio is None


def test_two_ratios_alike():
    """With the blade ten times as long as twice the grip centre, an oar geared 5 has both ratios 5 at any size."""
    with pytest.raises(BadDesign, match="two ratios alike do not tell the size"):
        split(span=1.2, leverage_ratio=5.0, working_ratio=5.0, blade_length=1.0, grip_centre=0.1)


def test_button():
    """A button marked at 0.58 m on a lock 0.04 m wide is an inboard of 0.60 m; without a width they are the same."""
    found = split(span=1.2, button_mark=0.58, lock_half_width=0.02, length=2.1)
    assert (found.inboard, found.overlap, found.button_mark) == pytest.approx((0.60, 0.0, 0.58))
    assert split(span=1.2, button_mark=0.6, length=2.1).inboard == 0.6
    assert split(span=1.2, inboard=0.6, length=2.1).button_mark == 0.6
    with pytest.raises(BadDesign, match=r"^inboard and button mark disagree by"):
        split(span=1.2, inboard=0.6, button_mark=0.6, lock_half_width=0.02, length=2.1)


@pytest.mark.parametrize("bad", [np.nan, np.inf, -np.inf, np.array([1.0, np.nan])])
@pytest.mark.parametrize("name", ["span", "inboard", "length", "overlap", "grip_centre"])
def test_no_number(name, bad):
    """What is no number, or has no end, is refused under its name."""
    given = {"span": 1.2, "inboard": 0.6, "length": 2.1, name: bad}
    with pytest.raises(BadDesign, match=f"^the {name.replace('_', ' ')} must be a number"):
        split(**given)


@pytest.mark.parametrize("bad", [0.0, -0.1, np.array([1.0, -0.1])])
@pytest.mark.parametrize("name", ["span", "inboard", "outboard", "length", "leverage_ratio", "button_mark"])
def test_nought_or_less(name, bad):
    """No part of an oar is nought or less."""
    with pytest.raises(BadDesign, match=f"^the {name.replace('_', ' ')} must be above nought, not"):
        split(**{name: bad})


@pytest.mark.parametrize(
    ("given", "sentence"),
    [
        ({"span": 1.2, "gap": 1.4, "length": 2.1}, "a span of .* and a gap of .* would make the inboard -0.1 m"),
        ({"length": 1.5, "outboard": 1.5, "span": 1.2}, "length of .* and an outboard of .* make the inboard 0 m"),
        ({"length": 1.5, "inboard": 1.6, "span": 1.2}, "inboard of .* and a length of .* make the outboard -0.1 m"),
        ({"inboard": 0.5, "overlap": 1.2, "length": 2}, "inboard of .* and an overlap of .* make the span -0.2 m"),
        (
            {"span": 1.2, "inboard": 0.5, "length": 2, "grip_centre": 0.5},
            "a grip centre of .* and an inboard of .* would make the hand arm 0 m",
        ),
        ({"span": 1.2, "inboard": 0.5, "outboard": 1.5, "blade_length": 1.6}, "would make the bare loom -0.1 m"),
    ],
)  # fmt: skip
def test_nothing_left(given, sentence):
    """Where nothing would be left of a part, it is told what makes it so."""
    with pytest.raises(BadDesign, match=sentence) as refused:
        split(**given)
    assert "and it must be above nought" in str(refused.value)


def test_lists_of_different_lengths():
    """Two spans and three lengths are no oars."""
    with pytest.raises(BadDesign, match="lists of different lengths"):
        split(span=np.array([1.2, 1.3]), inboard=0.6, length=np.array([2.0, 2.1, 2.2]))


def test_arrays():
    """Arrays go through row by row."""
    found = split(span=np.array([1.2, 1.0]), overlap=np.array([0.0, 0.2]), length=np.array([2.1, 1.8]))
    assert found.inboard == pytest.approx([0.6, 0.6])
    assert found.outboard == pytest.approx([1.5, 1.2])
    assert found.leverage_ratio == pytest.approx([2.5, 2.0])


def test_arrays_of_working_ratios():
    """Arrays of ratios go through row by row too, and broadcast against a row of spans."""
    found = split(
        span=np.array([[1.2], [1.3]]),
        inboard=0.6,
        working_ratio=np.array([3.0, 2.0]),
        blade_length=0.5,
        grip_centre=0.1,
    )
    assert found.outboard == pytest.approx([1.75, 1.25])
    assert found.overlap == pytest.approx(np.array([[0.0], [-0.1]]))


def test_given_numbers_come_back_as_given():
    """A given number is not replaced by what others make of it, though it differ in the last place."""
    found = split(span=1.1, inboard=0.63, overlap=0.16, length=2.29, outboard=1.66)
    assert (found.inboard, found.overlap, found.outboard) == (0.63, 0.16, 1.66)
