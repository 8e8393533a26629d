"""The keys of the oar in a project file: its sizes or its station table, its woods, loads and what is wanted of it."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from oarkit import units
from oarkit.oar.measured import Form
from oarkit.oar.pieces import Kind
from oarkit.project.readers import Keys, moist, pure, quantity, sized, sloped, words

_mass = lambda low, high, what: quantity(units.MASS, low, high, what)  # noqa: E731
_force = lambda high, what, low=1.0: quantity(units.FORCE, low, high, what)  # noqa: E731
_speed = quantity(units.SPEED, 0.1, 10.0, "speed of the boat")
_modulus = quantity(units.MODULUS, 1e9, 40e9, "modulus of a board")
_density = quantity(units.DENSITY, 80.0, 1300.0, "density of a board")
_size = sized(2, 120, "size of a loom or blade")
Species = Annotated[str, words("the name of a wood")]


class Grip(Keys):
    """The grip."""

    diameter: Annotated[float, sized(20, 60, "diameter of a grip")]
    length: Annotated[float, sized(80, 400, "length of a grip")]


class Loom(Keys):
    """The loom, lock to neck and inboard."""

    at_lock: Annotated[float, _size]
    inboard: Annotated[float, _size] | None = None
    inboard_shape: Literal["square", "round"] = "round"
    neck_thickness: Annotated[float, _size]
    neck_width: Annotated[float, _size]


class Blade(Keys):
    """The blade; which of these are wanted depends on whether the oar was measured from life."""

    length: Annotated[float, sized(200, 1500, "length of a blade")] | None = None
    width: Annotated[float, sized(40, 400, "width of a blade")] | None = None
    tip_thickness: Annotated[float, sized(3, 60, "thickness of a blade")] | None = None
    edge_at_root: Annotated[float, sized(2, 60, "thickness of a blade's edge")] | None = None
    edge_at_tip: Annotated[float, sized(2, 60, "thickness of a blade's edge")] | None = None


class Leather(Keys):
    """The leather."""

    length: Annotated[float, sized(50, 800, "length of a leather")] = 0.250
    inboard_of_pins: Annotated[float, sized(0, 500, "reach of the leather inboard")] = 0.100
    mass: Annotated[float, _mass(0.0, 1.0, "mass of a leather")] = 0.060


class Hole(Keys):
    """A hole through the loom at the pin line."""

    diameter: Annotated[float, sized(2, 100, "diameter of a hole")]
    along: Literal["vertical", "fore-and-aft"]
    bush: Annotated[float, sized(2, 100, "outer diameter of a bush")] | None = None


class Row(Keys):
    """Sizes of an oar measured from life at one place along it."""

    s: Annotated[float, sized(0, 6000, "place along the oar")]
    thickness: Annotated[float, _size]
    width: Annotated[float, sized(2, 400, "width of an oar")] | None = None
    shape: Form
    edge: Annotated[float, sized(1, 60, "thickness of a blade's edge")] | None = None
    corner: Annotated[float, sized(0, 60, "radius of a square's eased corners")] | None = None


class Wood(Keys):
    """A piece of wood of the oar."""

    part: Kind
    species: Species
    modulus: Annotated[float, _modulus] | None = None
    density: Annotated[float, _density] | None = None
    grain_slope: Annotated[float, BeforeValidator(sloped)] | None = None
    moisture: Annotated[float, BeforeValidator(moist)] | None = None
    oar: Literal["port", "starboard"] | None = None
    size: Annotated[float, sized(0.5, 1500, "size of a piece")] | None = None
    at: Annotated[float, sized(-60, 60, "height of a strip over the middle plane")] | None = None
    start: Annotated[float, sized(0, 6000, "place along the oar")] | None = Field(default=None, alias="from")
    stop: Annotated[float, sized(0, 6000, "place along the oar")] | None = Field(default=None, alias="to")
    grain: Literal["along", "across"] = "along"


class Oar(Keys):
    """The oar, its sizes given or measured from life."""

    length: Annotated[float, sized(1000, 6000, "length of an oar")] | None = None
    inboard: Annotated[float, sized(100, 2500, "inboard of an oar")] | None = None
    grip_centre: Annotated[float, sized(10, 200, "distance from handle end to grip centre")] = 0.060
    grip: Grip | None = None
    loom: Loom | None = None
    blade: Blade | None = None
    leather: Leather = Leather()
    hole: Hole | None = None
    station: Annotated[list[Row], Field(min_length=1)] | None = None
    wood: Annotated[list[Wood], Field(min_length=1)]


class Loads(Keys):
    """Magnitudes of the loads."""

    hard_start: Annotated[float, _force(2000, "force of a hand")] | None = None
    cruise: Annotated[float, _force(2000, "force of a hand")] | None = None
    proof_share: Annotated[float, pure(1, 2, "share of the hard start")] | None = None
    crab_speed: Annotated[float, _speed] | None = None
    steer_speed: Annotated[float, _speed] | None = None
    pry: Annotated[float, _force(3000, "prying force")] | None = None
    step: Annotated[float, _mass(10, 250, "mass of who steps on the oar")] | None = None
    step_gap: Annotated[float, sized(100, 3000, "gap between thwarts")] | None = None
    push_off: Annotated[float, _force(3000, "push along the oar")] | None = None
    push_off_sideways: Annotated[float, _force(1000, "push across the oar", 0.0)] | None = None
    tip_corner: Annotated[float, _force(2000, "load on a tip corner")] | None = None
    drag: Annotated[float, _force(2000, "drag on a tip")] | None = None


class Wanted(Keys):
    """What the oar should come to, and what a loom that is sized must keep to; custom where nothing is said."""

    stiffness_index: Annotated[float, pure(0.005, 0.3, "stiffness index")] | None = None
    safety: Annotated[float, pure(1, 20, "safety ratio")] = 1.5
    hand_weight: Annotated[float, _force(100, "weight in the hand", 0.5)] | None = None
    step: Annotated[float, sized(0.1, 10, "step of sizes")] | None = None
    least_lock: Annotated[float, _size] | None = None
    most_lock: Annotated[float, _size] | None = None
    least_neck_thickness: Annotated[float, _size] | None = None
    least_neck_width: Annotated[float, _size] | None = None
    stock_thickness: Annotated[float, sized(2, 300, "thickness of stock")] | None = None
