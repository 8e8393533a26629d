"""What a design is made from and what it comes to: plain records, in SI."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

import numpy as np

from oarkit.rig.station import INCH
from oarkit.rower.reach import Posture
from oarkit.strength.told import CrewInputs, HoleInputs, LoadInputs
from oarkit.stroke.arc import MOST_SWEEP
from oarkit.stroke.hands import HANDS_AHEAD
from oarkit.working import Finding, Line, Number

if TYPE_CHECKING:  # records only name them, so that importing the records costs little
    from oarkit.fit import Choice, Limits
    from oarkit.fit.limits import Candidate
    from oarkit.oar.any_shape import Shape
    from oarkit.oar.build import Kind, Leather, Oar
    from oarkit.oar.measured import MeasuredSizes
    from oarkit.oar.shape import OarSizes
    from oarkit.rig.bracket import BracketInputs, RailInputs
    from oarkit.rig.fittings import FittingCheck
    from oarkit.rig.ranges import Placed, TradeRange
    from oarkit.rig.rules import RuleOfThumb
    from oarkit.rig.station import Rig
    from oarkit.rig.thole import TholeInputs
    from oarkit.rower.seat import HeelTest
    from oarkit.rower.seated import Seated
    from oarkit.rower.sizes import Body
    from oarkit.strength import hard_start
    from oarkit.strength.all_cases import Cases
    from oarkit.strength.sensitivity import Sensitivities
    from oarkit.strength.sizing import LoomSize
    from oarkit.strength.sizing_limits import LoomLimits
    from oarkit.stroke.station import Stroke
    from oarkit.wood.adjust import GrainTable
    from oarkit.wood.board import Board
    from oarkit.wood.service import FatigueRow

Side = Literal["port", "starboard"]

SEAT_EDGE_TO_PINS = 12 * INCH  #: taken where it is not given: 12 in, common practice [m]
SEAT_ABOVE_HEELS = 8 * INCH  #: likewise, where two customs of 6 to 8 in and 8 to 11 in meet [m]
RAIL_THICKNESS = 0.019  #: likewise, 3/4 in [m]

#: Names of the results that are always present, with their units.
RESULT_UNITS: dict[str, str] = {
    "rig.span": "m", "rig.inboard": "m", "rig.outboard": "m", "rig.length": "m", "rig.overlap": "m",
    "rig.overlap_in_drive": "m", "rig.leverage_ratio": "1", "rig.working_ratio": "1", "rig.hand_arm": "m",
    "rig.blade_arm": "m", "rig.dip_in_drive": "rad", "rig.hand_height_in_drive": "m",
    "rig.hand_height_in_recovery": "m", "rig.thigh_clearance": "m", "rig.largest_wave_square": "m",
    "rig.largest_wave_feathered": "m", "rig.lock_offset": "m", "stroke.catch_angle": "rad",
    "stroke.finish_angle": "rad", "stroke.arc": "rad", "stroke.hand_travel": "m", "oar.mass": "kg", "oar.balance": "m",
    "oar.hand_weight": "N", "oar.inertia_about_lock": "kg m2", "oar.blade_area": "m2", "oar.bench_drop": "m",
    "oar.stiffness_index": "1", "oar.first_frequency": "Hz", "strength.lock_moment": "N m",
    "strength.lock_stress": "Pa", "strength.least_ratio": "1",
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class StationInputs:
    """The rowing station and the choices of the rig [m, rad]; the same meanings as in `rig_from_station`.

    Overhang, overlap, and length with leverage ratio, are chosen where they are None. ``lengths`` is the step of a
    derived length, None for no rounding, or the stock lengths to choose from.
    """

    beam: Number
    lock_overhang: Number | None
    seat_above_water: Number
    lock_above_water: Number
    overlap: Number | None
    length: Number | None = None
    leverage_ratio: Number | None = None
    lengths: float | tuple[float, ...] | None = INCH
    wave_clearance: Number
    hands_apart: Number
    hands_ahead: Number = HANDS_AHEAD
    lock_half_width: Number = 0.0
    lock: Literal["feathering", "pinned"] = "feathering"
    upper_hand: Literal["left", "right"] = "left"
    longest_stowed: Number | None = None
    seat_edge_to_pins: Number = SEAT_EDGE_TO_PINS
    seat_above_heels: Number = SEAT_ABOVE_HEELS
    brace_from_seat_edge: Number | None = None
    catch_limit: Number | None = None
    finish_limit: Number = -MOST_SWEEP
    rail_above_water: Number | None = None
    rail_thickness: Number = RAIL_THICKNESS
    coaming_above_rail: Number = 0.0
    boat_length: Number | None = None
    assumed: tuple[str, ...] = ()  #: names of what stands on custom and was not measured


@dataclass(frozen=True, slots=True, kw_only=True)
class RowerInputs:
    """The rower [m, kg]: sizes, how they sit, and the reach where it was measured."""

    mass: Number
    body: Body
    stature: Number | None = None
    posture: Posture = field(default_factory=Posture)
    reach_catch: Number | None = None
    reach_finish: Number | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class DockInputs:
    """A dock that the boat comes alongside. [m]"""

    height: Number
    fender: Number
    flare_run: Number


@dataclass(frozen=True, slots=True, kw_only=True)
class FixtureInputs:
    """What the locks are fastened with, and what boat they are fastened to; None where it was not told."""

    boat_mass: Number | None = None
    lock_above_rail: Number | None = None
    rail: RailInputs | None = None
    bracket: BracketInputs | None = None
    thole: TholeInputs | None = None
    dock: DockInputs | None = None
    heel_test: HeelTest | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceInputs:
    """A piece of wood before its board is turned into a wood; for one oar of the pair or for both."""

    kind: Kind
    board: Board
    size: Number | None = None
    start: Number | None = None
    stop: Number | None = None
    at: Number = 0.0
    side: Side | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Inputs:
    """All that a design needs, in SI."""

    station: StationInputs
    rower: RowerInputs
    limits: Limits
    sizes: OarSizes | MeasuredSizes
    pieces: tuple[PieceInputs, ...]
    leather: Leather
    grain_table: GrainTable
    fatigue_table: tuple[FatigueRow, ...] = ()
    loads: LoadInputs = LoadInputs()
    hole: HoleInputs | None = None
    loom_limits: LoomLimits | None = None
    water_density: Number = 1000.0
    fixtures: FixtureInputs = field(default_factory=FixtureInputs)
    ranges: tuple[TradeRange, ...] = ()
    wanted_index: Number | None = None
    wanted_safety: Number = 1.5
    wanted_hand_weight: Number | None = None
    left_open: tuple[str, ...] = ()  #: what of the station was chosen and not given


@dataclass(frozen=True, slots=True, kw_only=True)
class OarInputs:
    """All that the oar part needs, in SI: an oar may be judged without boat or rower."""

    shape: Shape
    pieces: tuple[PieceInputs, ...]
    leather: Leather
    grain_table: GrainTable
    fatigue_table: tuple[FatigueRow, ...] = ()
    loads: LoadInputs = LoadInputs()
    crew: CrewInputs = CrewInputs()
    hole: HoleInputs | None = None
    loom_limits: LoomLimits | None = None
    wanted_index: Number | None = None
    wanted_safety: Number = 1.5
    wanted_hand_weight: Number | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Value:
    """A named result; where it does not apply, the value is None and the reason says why."""

    value: Number | None
    unit: str
    source: str
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class OarDesign:
    """A pair of oars, every load case on them, every check, and what was found.

    ``oars``, ``cases`` and ``checks`` hold "port", and "starboard" too where the boards of the pair differ.
    """

    inputs: OarInputs
    oars: Mapping[Side, Oar]
    force: Number
    cases: Mapping[Side, Cases]
    checks: Mapping[Side, tuple[hard_start.Check, ...]]
    sensitivities: Mapping[Side, Sensitivities]
    values: Mapping[str, Value]
    findings: tuple[Finding, ...]
    working: tuple[Line, ...] = field(repr=False)

    @property
    def passes(self) -> bool:
        """Whether every check of the customary loads is met; wood that is only dented gives a finding."""
        made = [check for checks in self.checks.values() for check in checks]
        return all(bool(np.all(check.ok)) for check in made if check.kind == "customary" and check.breaks)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizing:
    """What one oar would come to if it were sized anew: sentences, and the lightest loom for several indexes."""

    findings: tuple[Finding, ...]
    curve: tuple[LoomSize, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Design:
    """A rig, a pair of oars, what was found, and how every number was got (the woods carry their own working)."""

    inputs: Inputs
    rig: Rig
    choice: Choice
    own: Candidate  #: the rig itself as one that might have been chosen
    seated: Seated
    stroke: Stroke | None
    rules: tuple[RuleOfThumb, ...]
    placed: tuple[Placed, ...]
    fittings: tuple[FittingCheck, ...]
    oar: OarDesign
    values: Mapping[str, Value]
    findings: tuple[Finding, ...]
    on_rowing: tuple[Finding, ...]  #: those of the findings that are on rig, rower, stroke and locks
    working: tuple[Line, ...] = field(repr=False)

    @property
    def oars(self) -> Mapping[Side, Oar]:
        """The oars: "port", and "starboard" too where the boards of the pair differ."""
        return self.oar.oars

    @property
    def checks(self) -> Mapping[Side, tuple[hard_start.Check, ...]]:
        """Checks of each oar."""
        return self.oar.checks

    @property
    def force(self) -> Number:
        """Hard start, each hand."""
        return self.oar.force

    @property
    def passes(self) -> bool:
        """Whether every check of the customary loads is met, those of the lock's fittings included."""
        return self.oar.passes and all(
            bool(np.all(check.ratio >= self.inputs.wanted_safety)) for check in self.fittings if check.breaks
        )
