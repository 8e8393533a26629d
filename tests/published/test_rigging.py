"""Sliding-seat rigging figures: ranges that the splits and angles of a real rig must fall into.

Guidance of coaches and manuals (common practice; "inboard" from memory), lengths also in Labbe et al. 2019,
introduction (read); the change of the catch with the span from V. Kleshnev, Rowing Biomechanics Newsletter (quoted).
Nothing here was measured to better than its last digit, so these are sanity bands and no tests of a formula.
"""

from itertools import product

import numpy as np
import pytest
from scipy.optimize import brentq

from oarkit.rig.split import handle_overlap, split
from oarkit.stroke.path import place_along

SPAN, OVERLAP, LENGTH = (1.57, 1.61), (0.12, 0.20), (2.81, 2.92)  # sculling [m]
INBOARD = (0.86, 0.88, 0.90)  # sculling: low, typical, high [m]
SURVEY_GEARING = (2.4, 2.6)  # outboard over half the span, sculling
SPREAD, SWEEP_INBOARD, SWEEP_LENGTH = (0.83, 0.87), (1.12, 1.15, 1.19), (3.67, 3.78)  # sweep [m]
SWEEP_GEARING = (3.0, 3.2)  # outboard over the spread


def _middle(band):
    return sum(band) / len(band)


def test_the_middle_sculling_rig():
    """Middle span, overlap and length split into an inboard and a gearing of the printed bands."""
    rig = split(span=_middle(SPAN), overlap=_middle(OVERLAP), length=_middle(LENGTH))
    assert INBOARD[0] <= rig.inboard <= INBOARD[-1]
    assert SURVEY_GEARING[0] <= rig.outboard / (rig.span / 2) <= SURVEY_GEARING[1]


@pytest.mark.parametrize(("span", "overlap", "length"), list(product(SPAN, OVERLAP, LENGTH)))
def test_the_corners_of_the_sculling_ranges(span, overlap, length):
    """Even the corners of the three ranges split into inboards that round into the printed band, and gear alike."""
    rig = split(span=span, overlap=overlap, length=length)
    # Whether the printed overlap counts the width of the locks (4 cm in all) is not said: 2 cm of each inboard.
    assert INBOARD[0] - 0.02 <= rig.inboard <= INBOARD[-1] + 0.02
    # The same 2 cm, and the last digit of the band.
    assert SURVEY_GEARING[0] - 0.05 <= rig.outboard / (rig.span / 2) <= SURVEY_GEARING[1] + 0.05


@pytest.mark.parametrize(("span", "inboard"), list(zip((1.57, 1.59, 1.61), INBOARD, strict=True)))
def test_overlap_of_the_printed_inboards(span, inboard):
    """Narrow span with short inboard to wide span with long inboard: the overlap stays in its printed band."""
    overlap = handle_overlap(span=span, inboard=inboard)
    assert OVERLAP[0] <= overlap <= OVERLAP[1]


def test_the_middle_sweep_rig():
    """A sweep oar of middle length and inboard on a middle spread is geared as printed."""
    rig = split(span=2 * _middle(SPREAD), inboard=_middle(SWEEP_INBOARD), length=_middle(SWEEP_LENGTH))
    assert SWEEP_GEARING[0] <= rig.outboard / (rig.span / 2) <= SWEEP_GEARING[1]
    assert 0.25 <= rig.overlap / 2 <= 0.35  # the handle passes the centreline by some 30 cm (common practice)


def _from_shoulders(sweep, spread, shoulders_aft):
    """Distance in plan from the middle of the shoulders, over the keel, to the middle of the hands on a sweep oar."""
    hands = place_along(
        side="port", along=-(1.15 - 0.10), sweep=sweep, dip=np.radians(4), span=2 * spread, lock_above_water=0.26
    )
    return np.hypot(hands.x + shoulders_aft, hands.y)


def test_a_narrower_spread_hardly_changes_the_catch():
    """The same oar, arms and seat on a spread 2 cm narrower reach about half a degree further (Kleshnev)."""
    arms = 0.68  # acromion to grip centre of the mean man, straight: 335 + 349 mm (ANSUR II)
    catch = np.radians(55)
    there = place_along(
        side="port", along=-(1.15 - 0.10), sweep=catch, dip=np.radians(4), span=2 * 0.85, lock_above_water=0.26
    )
    shoulders_aft = -there.x - np.sqrt(arms**2 - there.y**2)
    narrow = brentq(lambda sweep: _from_shoulders(sweep, 0.83, shoulders_aft) - arms, 0.5, 1.4)
    assert np.degrees(narrow - catch) == pytest.approx(0.5, abs=0.2)  # "about 0.5": one figure
