"""What a rig is chosen for and under, and how the choice is told: plain records."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, fields

import numpy as np

from oarkit.rig.advice import GAP_RANGE, OVERLAP_RANGE, RATIO_RANGE
from oarkit.rig.station import INCH
from oarkit.rig.waves import STEEP_DIP, TIGHT
from oarkit.stroke.arc import MOST_SWEEP
from oarkit.working import Array, Number

CROSSED, APART = OVERLAP_RANGE, (-GAP_RANGE[1], -GAP_RANGE[0])  #: usual overlap, and usual gap as a negative one [m]
CROSSED_AIM, APART_AIM = 4 * INCH, -0.050  #: i = S/2 + 2 in, and the middle of the usual gaps, common practice [m]
CROSSED_WIDTH, APART_WIDTH = 0.050, 0.025  #: what is as good as the aim, choices of this project, like those below [m]
CROSSING_SPAN = 45 * INCH  #: narrower stations cross the handles where nothing is said, a choice of this project [m]
OVERHANGS = (0.0, 0.150)  #: pin outside the rail; beyond 150 mm stepping in from a bank is hard, common practice [m]
RATIO_WIDTH = 0.15
EASY_DIP, DIP_WIDTH = math.radians(15), math.radians(5)
CATCH_WIDTH = math.radians(10)
OVERHANG_WIDTH = 0.100  #: pins at the rail are best for docks and rails; 100 mm out weighs as a tolerance [m]
HAND_AIM, HAND_WIDTH = 0.100, 0.040  #: over the elbow: middle and half of the customary range [m]
LENGTHS = (1.2, 3.6)  #: oars looked at [m]
STEP = INCH / 2  #: of overlap and overhang on the grid [m]
CUSTOMS = {"leverage_ratio": RATIO_RANGE, "hand_height": (-math.inf, math.inf), "lock_overhang": OVERHANGS}
ROOM = TIGHT  #: over thighs and knees, less strains [m]
OF_THE_BODY = ("arms", "catch")  #: limits in which no one can give way
SAME = 1e-9  #: a limit is kept by what lies so little beyond it, in its own unit
BEYOND = 8  #: steps looked at beyond the limits; further, one does not give way within reason

#: By how much each limit is relaxed when it is asked what that would change: customary steps, in SI.
STEPS = {
    "legs": 0.010, "arms": 0.010, "catch": math.radians(5), "overlap": STEP, "leverage_ratio": 0.05,
    "longest_stowed": INCH, "arc": math.radians(5), "dip_in_drive": math.radians(1), "lock_overhang": STEP,
    "hand_height": 0.010,
}  # fmt: skip
UNITS = {name: "m" for name in STEPS} | {"leverage_ratio": "1", "arc": "rad", "catch": "rad", "dip_in_drive": "rad"}


Ends = tuple[float | None, float | None]  #: least and most; an end that is None is left to custom


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What a rig must keep to; None where nothing was told, which leaves it to custom. Lengths in m, angles in rad.

    What custom says of the overlap goes by the span: see `overlap_range`. It asks nothing of arc, stowage and hands.
    """

    overlap: Ends = (None, None)
    leverage_ratio: Ends = (None, None)
    longest_stowed: float | None = None
    least_arc: float | None = None
    most_dip: float | None = None
    hand_height: Ends = (None, None)
    lock_overhang: Ends = (None, None)

    def ends(self, name: str) -> tuple[float, float]:
        """The range in force of leverage ratio, hand height or overhang."""
        low, high = getattr(self, name)
        return with_custom(low, high, CUSTOMS[name])

    @property
    def dip(self) -> float:
        """The steepest dip in force."""
        return STEEP_DIP if self.most_dip is None else self.most_dip

    def told(self) -> frozenset[str]:
        """Names of the limits that were told."""
        names = {"least_arc": "arc", "most_dip": "dip_in_drive"}
        return frozenset(
            names.get(each.name, each.name) for each in fields(self) if getattr(self, each.name) != each.default
        )


def with_custom(low: float | None, high: float | None, custom: tuple[float, float]) -> tuple[float, float]:
    """A range of which an end may be left to custom; one that lies beyond custom takes as wide a range with it.

    Parameters
    ----------
    low, high : float or None
        Ends that were told; None leaves one to custom. [any]
    custom : tuple of float
        The customary range. [any]

    Returns
    -------
    tuple of float
        The range in force. [any]

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> with_custom(None, 2.5, (2.3, 2.8)), with_custom(3.0, None, (2.5, 3.0))
    ((2.3, 2.5), (3.0, 3.5))
    """
    width = custom[1] - custom[0]
    if low is not None and high is not None:
        return (low, high)
    if low is not None:
        return (low, custom[1] if custom[1] > low else low + width)
    if high is not None:
        return (custom[0] if custom[0] < high else high - width, high)
    return custom


def crosses_handles(span: Number) -> Array:
    """Whether custom crosses the handles at a span.

    Parameters
    ----------
    span : float or array
        Distance between the two pin lines. [m]

    Returns
    -------
    array
        True under 45 in. [flag]

    Notes
    -----
    Source: choice of this project; individual rowers differ.

    Examples
    --------
    >>> bool(crosses_handles(1.1)), bool(crosses_handles(34 * 0.0254 + 2 * 5.5 * 0.0254))
    (True, False)
    """
    return np.asarray(np.asarray(span) < CROSSING_SPAN - SAME)


def overlap_range(*, span: Number, told: Ends = (None, None)) -> tuple[Array, Array]:
    """Overlap that a span may have: what was told, and for the rest custom.

    Parameters
    ----------
    span : float or array
        Distance between the two pin lines. [m]
    told : tuple, optional
        Least and most overlap, negative for a gap; None where nothing was said. [m]

    Returns
    -------
    tuple of array
        Least and most overlap, of the shape of the span. [m]

    Notes
    -----
    Source: common practice, crossed by 50 to 180 mm or a gap of 25 to 75 mm; that spans under 45 in cross is a choice
    of this project. An end that was told on the other side of nought takes the custom of that side.

    Examples
    --------
    >>> [[round(float(end), 3) for end in overlap_range(span=span)] for span in (1.1, 1.3)]
    [[0.05, 0.18], [-0.075, -0.025]]
    >>> [round(float(end), 3) for end in overlap_range(span=1.3, told=(0.1, None))]
    [0.1, 0.18]
    """
    least, most = told
    across = least is not None and least >= 0
    beside = most is not None and most <= 0
    narrow = with_custom(least, most, APART if beside else CROSSED)
    wide = with_custom(least, most, CROSSED if across else APART)
    crosses = crosses_handles(span)
    return np.where(crosses, narrow[0], wide[0]), np.where(crosses, narrow[1], wide[1])


@dataclass(frozen=True, slots=True, kw_only=True)
class FitStation:
    """The station that a rig is chosen for [m]; what is None is free to be chosen."""

    beam: float
    seat_above_water: float
    lock_above_water: float
    wave_clearance: float
    blade_length: float
    blade_width: float
    grip_centre: float
    lock_overhang: float | None = None
    overlap: float | None = None
    length: float | None = None
    leverage_ratio: float | None = None
    lengths: float | tuple[float, ...] | None = INCH  #: step of a derived length, none, or the stock lengths
    seat_edge_to_pins: float | None = None
    seat_above_heels: float | None = None
    brace_from_seat_edge: float | None = None
    reach_catch: float | None = None
    reach_finish: float | None = None
    catch_limit: float | None = None  #: greatest sweep angle; None for 65°
    finish_limit: float = -MOST_SWEEP


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A rig that was looked at. SI; ``slack`` is the room to each limit, negative where it is not kept."""

    lock_overhang: float
    overlap: float
    length: float
    leverage_ratio: float
    catch_angle: float | None
    dip_in_drive: float
    hand_height_in_drive: float
    thigh_clearance: float | None
    thigh_clearance_feathered: float | None
    strains: Mapping[str, float]  #: distance from each aim in its tolerance
    slack: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Relaxed:
    """What one step more of a limit would change."""

    limit: str
    step: float
    becomes: Candidate


@dataclass(frozen=True, slots=True, kw_only=True)
class Relief:
    """A limit that might give way where nothing fits, and by how much it would have to.

    ``more`` tells whether the rig would have more than the limit allows, or less; None where that goes without saying.
    """

    limit: str
    gives: float
    more: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Bounds:
    """The two blade arms that the seat's height sets, with the hand arm chosen [m]; None without thigh or elbow."""

    longest: float | None  #: with which the hands still clear the thighs, blade square
    for_hand: float | None  #: that puts the hand at its comfortable height in the drive


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """The rig chosen, why, and what came next. ``feathered`` tells that with the blade square no rig fits.

    Where nothing fits, ``fights`` names the fewest limits that no rig keeps together, ``reliefs`` what giving way
    would help, least first, and the rig is the one that falls short least.
    """

    chosen: Candidate
    decides: tuple[Relaxed, ...]
    runners_up: tuple[Candidate, ...]
    fights: tuple[str, ...]
    reliefs: tuple[Relief, ...]
    both_must_give: bool  #: whether the reliefs are two limits that must both give way, or each is enough by itself
    bounds: Bounds
    limits: Limits
    overlap_range: tuple[float, float] | None  #: in force at the span chosen; None where the overlap was given
    feathered: bool
    catch_aim: float
    unlimited: Candidate  #: what custom alone would choose; its slack tells which limits stand against it
    looked_at: int

    @property
    def fits(self) -> bool:
        """Whether the rig keeps every limit."""
        return all(room >= -1e-9 for room in self.chosen.slack.values())
