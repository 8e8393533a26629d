"""What a rig is chosen for and under, and how the choice is told: plain records."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

from oarkit.rig.advice import GAP_RANGE, OVERLAP_RANGE, RATIO_RANGE
from oarkit.rig.station import INCH
from oarkit.rig.waves import STEEP_DIP
from oarkit.stroke.arc import MOST_SWEEP

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
BEYOND = 8  #: steps looked at beyond their limits, to say how far one would have to give

#: By how much each limit is relaxed when it is asked what that would change: customary steps, in SI.
STEPS = {
    "legs": 0.010, "arms": 0.010, "overlap": STEP, "leverage_ratio": 0.05, "longest_stowed": INCH,
    "arc": math.radians(5), "dip_in_drive": math.radians(1), "lock_overhang": STEP, "hand_height": 0.010,
}  # fmt: skip
UNITS = {name: "m" for name in STEPS} | {"leverage_ratio": "1", "arc": "rad", "dip_in_drive": "rad"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What a rig must keep to; None where nothing is asked. Lengths in m, angles in rad."""

    overlap: tuple[float, float] | None = None
    leverage_ratio: tuple[float, float] = RATIO_RANGE
    longest_stowed: float | None = None
    least_arc: float | None = None
    most_dip: float = STEEP_DIP
    hand_height: tuple[float, float] | None = None
    lock_overhang: tuple[float, float] | None = None


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
    catch_limit: float = MOST_SWEEP
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
    strains: Mapping[str, float]  #: distance from each aim in its tolerance
    slack: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Relaxed:
    """What one step more of a limit would change."""

    limit: str
    step: float
    becomes: Candidate


@dataclass(frozen=True, slots=True, kw_only=True)
class Fight:
    """A limit that stands in the way where nothing fits, and how far it would have to give."""

    limit: str
    gives: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Bounds:
    """The two blade arms that the seat's height sets, with the hand arm chosen [m]; None without thigh or elbow."""

    longest: float | None  #: with which the hands still clear the thighs, blade square
    for_hand: float | None  #: that puts the hand at its comfortable height in the drive


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """The rig chosen, why, and what came next. ``feathered`` tells that the wave is cleared with the blade flat only.

    Where nothing fits, ``fights`` names what stands against what, and the rig is the one that falls short least.
    """

    chosen: Candidate
    decides: tuple[Relaxed, ...]
    runners_up: tuple[Candidate, ...]
    fights: tuple[Fight, ...]
    both_must_give: bool  #: whether both of the limits that fight would have to give, or either is enough
    bounds: Bounds
    limits: Limits
    feathered: bool
    catch_aim: float
    unlimited: Candidate  #: what custom alone would choose; its slack tells which limits stand against it
    looked_at: int

    @property
    def fits(self) -> bool:
        """Whether the rig keeps every limit."""
        return all(room >= -1e-9 for room in self.chosen.slack.values())
