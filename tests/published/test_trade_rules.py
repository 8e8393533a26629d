"""Rules of thumb of the trade for the length and split of an oar.

All are common practice: they are handed down in boatbuilding books and shops, and no single source can be cited.
"""

import pytest

from oarkit.rig.split import inboard_from_overlap, inboard_from_ratio, length_from_ratio
from oarkit.rig.station import CUSTOMARY_RATIO, rig_from_station

INCH = 0.0254


def _rig(span: float, **given):
    """A rig whose heights do not matter here."""
    return rig_from_station(beam=span, seat_above_water=0.10, lock_above_water=0.30, round_length=None, **given)


@pytest.mark.parametrize(("span_in", "length_cm"), [(36, 163.29), (48, 217.71), (60, 272.14), (72, 326.57)])
def test_half_span_times_25_over_7(span_in, length_cm):
    """With neither length nor ratio given, and the handles end to end, an oar is half the span times 25/7 long."""
    assert _rig(span_in * INCH, overlap=0.0).length == pytest.approx(length_cm / 100, abs=5e-5)  # to 0.1 mm


@pytest.mark.parametrize(("span_in", "length_in"), [(52, 100), (48, 92.857)])
def test_seven_to_eighteen_with_two_inches(span_in, length_in):
    """With 2 in of each handle past the middle, inboard and outboard are as 7 to 18."""
    inboard = inboard_from_overlap(span=span_in, overlap=2 * 2)
    assert inboard == span_in / 2 + 2
    assert length_from_ratio(inboard=inboard, ratio=CUSTOMARY_RATIO) == pytest.approx(length_in, abs=5e-4)
    assert _rig(span_in * INCH, overlap=4 * INCH).length == pytest.approx(length_in * INCH, abs=5e-4 * INCH)


@pytest.mark.parametrize(("ratio", "inboard"), [(3.0, 1.125), (2.9, 1.154), (2.8, 1.184)])
def test_inboard_of_a_coastal_skiff_oar(ratio, inboard):
    """An oar of 4.5 m has these inboards at these gearings."""
    assert inboard_from_ratio(length=4.5, ratio=ratio) == pytest.approx(inboard, abs=6e-4)  # printed to the millimetre
