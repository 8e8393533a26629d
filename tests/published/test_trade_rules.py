"""Rules of thumb of the trade for the length and split of an oar.

Those without another source beside them are common practice: they are handed down in boatbuilding books and shops, and
no single source can be cited. The rest come from the measurement definitions of the 2006 world-championship rigging
survey (read), and from Shaw and Coates in B. Rankov (ed.), Trireme Olympias: The Final Report (Oxbow, 2012; read).
"""

import pytest

from oarkit.rig import thumb
from oarkit.rig.rules import length_rules
from oarkit.rig.split import inboard_from_overlap, inboard_from_ratio, length_from_ratio, split
from oarkit.rig.station import CUSTOMARY_RATIO, rig_from_station

INCH = 0.0254


def _rig(span: float, **given):
    """A rig whose heights do not matter here."""
    return rig_from_station(beam=span, seat_above_water=0.10, lock_above_water=0.30, round_length=None, **given)


@pytest.mark.parametrize(("span_in", "length_cm"), [(36, 163.29), (48, 217.71), (60, 272.14), (72, 326.57)])
def test_half_span_times_25_over_7(span_in, length_cm):
    """With neither length nor ratio given, and the handles end to end, an oar is half the span times 25/7 long."""
    assert _rig(span_in * INCH, overlap=0.0).length == pytest.approx(length_cm / 100, abs=5e-5)  # to 0.1 mm
    assert thumb.half_span(span=span_in * INCH) == pytest.approx(length_cm / 100, abs=5e-5)
    assert thumb.own_inboard(inboard=span_in * INCH / 2) == pytest.approx(length_cm / 100, abs=5e-5)


@pytest.mark.parametrize(("span_in", "length_in"), [(52, 100), (48, 92.857)])
def test_seven_to_eighteen_with_two_inches(span_in, length_in):
    """With 2 in of each handle past the middle, inboard and outboard are as 7 to 18."""
    inboard = inboard_from_overlap(span=span_in, overlap=2 * 2)
    assert inboard == span_in / 2 + 2
    assert length_from_ratio(inboard=inboard, ratio=CUSTOMARY_RATIO) == pytest.approx(length_in, abs=5e-4)
    assert _rig(span_in * INCH, overlap=4 * INCH).length == pytest.approx(length_in * INCH, abs=5e-4 * INCH)
    assert thumb.seven_to_eighteen(span=span_in * INCH) == pytest.approx(length_in * INCH, abs=5e-4 * INCH)


@pytest.mark.parametrize(("ratio", "inboard"), [(3.0, 1.125), (2.9, 1.154), (2.8, 1.184)])
def test_inboard_of_a_coastal_skiff_oar(ratio, inboard):
    """An oar of 4.5 m has these inboards at these gearings."""
    assert inboard_from_ratio(length=4.5, ratio=ratio) == pytest.approx(inboard, abs=6e-4)  # printed to the millimetre
    assert split(length=4.5, leverage_ratio=ratio, gap=0.1).inboard == pytest.approx(inboard, abs=6e-4)


def test_seven_to_eighteen_in_a_beamy_boat():
    """A span of 62 in came out near 9 ft 10 in, which its owner doubted."""
    assert thumb.seven_to_eighteen(span=62 * INCH) == pytest.approx(118 * INCH, abs=0.5 * INCH)  # "near", to the inch


@pytest.mark.parametrize(
    ("outboard", "inboard", "printed"),
    [(3.113, 1.105, 2.817), (7, 2.5, 2.8), (7, 9 - 7, 3.5)],  # Rankov 2012 p. 76, p. 76 in cubits, p. 86 in cubits
)
def test_gearing(outboard, inboard, printed):
    """Gearing is outboard over inboard, however the oar is told."""
    told = split(span=2.0, outboard=outboard, inboard=inboard)
    assert told.leverage_ratio == pytest.approx(printed, abs=5e-4)  # three decimals are printed at most
    again = split(span=2.0, outboard=outboard, length=outboard + inboard)
    assert again.leverage_ratio == pytest.approx(printed, abs=5e-4)


def test_fast_and_longest_gearing():
    """Geared 2.8, 1.225 m of inboard makes 4.66 m of oar (p. 48); geared 3.5, two cubits make nine (p. 86)."""
    by_name = {rule.name: rule for rule in length_rules(span=2.4, beam=2.2, inboard=1.225)}
    fast = by_name["fast rowing on a fixed seat"]
    assert fast.low == fast.high == pytest.approx(4.66, abs=0.006)  # printed to the centimetre
    short = {rule.name: rule for rule in length_rules(span=4.4, beam=4, inboard=2)}["practical limit of short oars"]
    assert short.low == short.high == pytest.approx(9)


def test_overlap_measured_to_the_button():
    """The rigging survey's overlap is 2 i - S + 2 hl with i to the button's face; hl of 2 cm makes 4 cm in all."""
    half = 0.02  # "normally 2 cm"
    with_lock = split(span=1.59, button_mark=0.88, lock_half_width=half, length=2.88)
    without = split(span=1.59, button_mark=0.88, length=2.88)
    assert with_lock.overlap == pytest.approx(2 * 0.88 - 1.59 + 2 * half)
    assert with_lock.overlap - without.overlap == pytest.approx(0.04)
