"""What a user may tell of loads, crew and a hole through the loom; plain records that cost nothing to import."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from oarkit.working import Number


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadInputs:
    """Magnitudes of the loads [N, m/s, m]; the customary one where None."""

    hard_start: Number | None = None
    cruise: Number | None = None
    proof_share: Number | None = None
    crab_speed: Number | None = None
    steer_speed: Number | None = None
    pry: Number | None = None
    step_weight: Number | None = None
    step_gap: Number | None = None
    push_off: Number | None = None
    push_sideways: Number | None = None
    tip_corner: Number | None = None
    drag: Number | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CrewInputs:
    """What boat and rower bring upon an oar [kg, m, kg/m3]; None where it is not known, fresh water where not told."""

    boat_mass: Number | None = None
    boat_length: Number | None = None
    rower_mass: Number | None = None
    span: Number | None = None
    water_density: Number = 1000.0
    thole_diameter: Number | None = None
    lock: Literal["feathering", "pinned"] = "feathering"


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleInputs:
    """A hole through the loom at the pin line: its diameter [m], how it runs, and the outer diameter of a bush."""

    diameter: Number
    along: Literal["bending direction", "neutral axis"] = "neutral axis"
    bush: Number | None = None

    @property
    def drilled(self) -> Number:
        """Diameter of the hole in the wood: that of the bush where there is one."""
        return self.diameter if self.bush is None else self.bush
