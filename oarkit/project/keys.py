"""The keys of a project file: what each may hold, in SI once read; those of the oar stand in `oar_keys`."""

from __future__ import annotations

import math
from typing import Annotated, Literal

from oarkit import units
from oarkit.project.oar_keys import Loads, Oar, Species, Wanted
from oarkit.project.readers import Keys, count, or_word, pure, quantity, sized, words

_mass = lambda low, high, what: quantity(units.MASS, low, high, what)  # noqa: E731
_angle = lambda what: quantity(units.ANGLE, -math.pi / 2, math.pi / 2, what)  # noqa: E731


class Rail(Keys):
    """The rail at the station."""

    thickness: Annotated[float, sized(5, 100, "thickness of a rail")]
    depth: Annotated[float, sized(5, 200, "depth of a rail")]
    species: Species


class HeelTest(Keys):
    """A weight hung off the centreline, and the heel that it makes, nobody else moving."""

    mass: Annotated[float, _mass(0.5, 100, "mass hung for a heel test")]
    off_centre: Annotated[float, sized(50, 2000, "distance of the hung mass from the centreline")]
    angle: Annotated[float, quantity(units.ANGLE, math.radians(0.1), math.radians(30), "heel under the hung mass")]


class Dock(Keys):
    """A dock that the boat comes alongside."""

    height: Annotated[float, sized(0, 3000, "height of a dock above the water")]
    fender: Annotated[float, sized(0, 600, "thickness of a fender")] = 0.0
    flare_run: Annotated[float, sized(0, 600, "run of the flare, rail outside hull side at the fender")] = 0.0


class Boat(Keys):
    """The boat, measured loaded."""

    beam_at_station: Annotated[float, sized(300, 3000, "beam at a rowing station")]
    length_overall: Annotated[float, sized(1500, 15000, "length of a pulling boat")] | None = None
    rail_above_water: Annotated[float, sized(30, 1500, "height of a rail above the water")] | None = None
    seat_above_water: Annotated[float, sized(-300, 1000, "height of a seat above the water")] | None = None
    seat_above_heels: Annotated[float, sized(0, 600, "height of a seat above the heels")] | None = None
    mass: Annotated[float, _mass(5, 2000, "mass of a pulling boat")] | None = None
    rail: Rail | None = None
    water: Literal["fresh", "salt"] = "fresh"
    brace_from_seat_edge: Annotated[float, sized(100, 1500, "distance from seat edge to heels")] | None = None
    coaming_above_rail: Annotated[float, sized(0, 300, "height of a coaming above the rail")] = 0.0
    heel_test: HeelTest | None = None
    dock: Dock | None = None


class Rower(Keys):
    """The rower; measured sizes win over estimates."""

    mass: Annotated[float, _mass(15, 250, "mass of a rower")]
    stature: Annotated[float, sized(900, 2300, "stature")] | None = None
    body: Literal["male", "female"] | None = None
    thigh_thickness: Annotated[float, sized(50, 350, "thickness of a thigh")] | None = None
    hand_length: Annotated[float, sized(90, 280, "length of a hand")] | None = None
    shoulder_height: Annotated[float, sized(250, 900, "shoulder height above the seat")] | None = None
    arm_length: Annotated[float, sized(300, 1100, "length of an arm")] | None = None
    thigh_length: Annotated[float, sized(200, 800, "length of a thigh")] | None = None
    shank_length: Annotated[float, sized(200, 700, "length of a shank")] | None = None
    hip_above_seat: Annotated[float, sized(0, 250, "height of the hip above the seat")] | None = None
    hip_forward_of_seat_edge: Annotated[float, sized(-300, 500, "place of the hip")] | None = None
    trunk_at_catch: Annotated[float, _angle("trunk angle")] | None = None
    trunk_at_finish: Annotated[float, _angle("trunk angle")] | None = None
    hand_at_finish: Annotated[float, sized(-300, 800, "place of the hand at the finish")] | None = None
    knee_flexion: Annotated[float, quantity(units.ANGLE, 0.0, math.radians(120), "bend of the knee")] | None = None
    reach_catch: Annotated[float, sized(-500, 2000, "reach")] | None = None
    reach_finish: Annotated[float, sized(-2000, 2000, "reach")] | None = None


class Bracket(Keys):
    """Bolts of a lock bracket."""

    bolts: Annotated[int, count(1, 12, "count of bolts")]
    bolt_diameter: Annotated[float, sized(2, 25, "diameter of a bolt")]
    bolt_spacing: Annotated[float, sized(10, 1000, "spacing of bolts")]
    bolt_axis: Literal["athwart", "vertical"]
    washer_diameter: Annotated[float, sized(5, 120, "diameter of a washer")] | None = None
    root_width: Annotated[float, sized(3, 300, "width of a bracket's root")] | None = None
    root_thickness: Annotated[float, sized(1, 100, "thickness of a bracket's root")] | None = None
    root_strength: Annotated[float, quantity(units.MODULUS, 5e6, 2e9, "strength of a bracket")] | None = None


class Thole(Keys):
    """Thole pins."""

    diameter: Annotated[float, sized(5, 60, "diameter of a thole pin")]
    load_arm: Annotated[float, sized(0, 150, "load arm of a thole pin")]
    hole_depth: Annotated[float, sized(5, 200, "depth of a hole")]
    apart: Annotated[float, sized(20, 300, "distance of thole pins")]
    species: Species


class Rig(Keys):
    """Where the pins stand and how the hands pass."""

    lock_overhang: Annotated[float, sized(-1000, 1000, "overhang of a lock")] | None = None
    lock_above_rail: Annotated[float, sized(-100, 500, "height of the loom axis above the rail")] | None = None
    lock_above_water: Annotated[float, sized(30, 1500, "height of the loom axis above the water")] | None = None
    lock_above_seat: Annotated[float, sized(0, 800, "height of the loom axis above the seat")] | None = None
    lock_half_width: Annotated[float, sized(0, 60, "half width of a lock")] = 0.0
    seat_edge_to_pins: Annotated[float, sized(-300, 1200, "distance from seat edge to pins")] | None = None
    overlap: Annotated[float, sized(-3000, 3000, "overlap of the handles")] | None = None
    gap: Annotated[float, sized(0, 3000, "gap between the handles")] | None = None
    length: Annotated[float, sized(1000, 6000, "length of an oar")] | None = None
    leverage_ratio: Annotated[float, pure(1, 6, "leverage ratio")] | None = None
    round_length: Annotated[float | Literal["stock"] | None, or_word(sized(0.1, 500, "rounding step"))] = units.INCH
    lock: Literal["feathering", "pinned"] = "feathering"
    upper_hand: Literal["left", "right"] = "left"
    hands_ahead: Annotated[float, sized(0, 400, "distance of one hand ahead of the other")] = 0.150
    catch_limit: Annotated[float, _angle("greatest sweep angle")] | None = None
    finish_limit: Annotated[float, _angle("least sweep angle")] | None = None
    hands_apart: Annotated[float, sized(0, 200, "distance of crossed hands")] = 0.060
    wave_clearance: Annotated[float, sized(0, 800, "wave clearance")] = 0.100
    longest_stowed: Annotated[float, sized(500, 10000, "longest oar that stows")] | None = None
    bracket: Bracket | None = None
    thole: Thole | None = None


class Limits(Keys):
    """What a rig must keep to where length, overlap or overhang is left to be chosen; custom where nothing is said."""

    least_overlap: Annotated[float, sized(-3000, 3000, "overlap of the handles")] | None = None
    most_overlap: Annotated[float, sized(-3000, 3000, "overlap of the handles")] | None = None
    least_leverage_ratio: Annotated[float, pure(1, 6, "leverage ratio")] | None = None
    most_leverage_ratio: Annotated[float, pure(1, 6, "leverage ratio")] | None = None
    least_arc: Annotated[float, quantity(units.ANGLE, 0.0, math.radians(150), "arc of a stroke")] | None = None
    most_dip: Annotated[float, quantity(units.ANGLE, math.radians(2), math.radians(60), "dip of an oar")] | None = None
    least_hand_height: Annotated[float, sized(0, 900, "height of the hands above the seat")] | None = None
    most_hand_height: Annotated[float, sized(0, 900, "height of the hands above the seat")] | None = None
    least_overhang: Annotated[float, sized(-1000, 1000, "overhang of a lock")] | None = None
    most_overhang: Annotated[float, sized(-1000, 1000, "overhang of a lock")] | None = None


class ProjectFile(Keys):
    """A whole project file."""

    title: Annotated[str, words("a title")]
    display: Literal["mm", "ft-in"] = "mm"
    boat: Boat
    rower: Rower
    rig: Rig
    oar: Oar
    limits: Limits = Limits()
    loads: Loads = Loads()
    wanted: Wanted = Wanted()
