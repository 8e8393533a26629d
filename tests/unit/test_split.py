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
    """Two numbers that disagree are refused with the difference between them."""
    with pytest.raises(BadDesign, match="does not agree with") as refused:
        split(span=1.2, inboard=0.65, overlap=0.12, length=2.1)
    assert refused.value.quantities["difference"].value == pytest.approx(0.02)
    assert refused.value.quantities["difference"].unit == "m"


def test_contradiction_of_a_ratio():
    """The difference between two ratios has no unit."""
    with pytest.raises(BadDesign, match="leverage ratio does not agree with") as refused:
        split(span=1.2, inboard=0.6, outboard=1.5, leverage_ratio=2.6)
    assert refused.value.quantities["difference"].value == pytest.approx(0.1)
    assert refused.value.quantities["difference"].unit == "1"


def test_contradiction_somewhere_in_an_array():
    """One bad row among good ones is enough."""
    with pytest.raises(BadDesign, match="does not agree"):
        split(span=np.array([1.2, 1.2]), inboard=np.array([0.6, 0.6]), overlap=np.array([0.0, 0.1]), length=2.1)


def test_arrays():
    """Arrays go through row by row."""
    found = split(span=np.array([1.2, 1.0]), overlap=np.array([0.0, 0.2]), length=np.array([2.1, 1.8]))
    assert found.inboard == pytest.approx([0.6, 0.6])
    assert found.outboard == pytest.approx([1.5, 1.2])
    assert found.leverage_ratio == pytest.approx([2.5, 2.0])
