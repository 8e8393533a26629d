"""The keys of a project file: what each may hold, in SI once read."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field

from oarkit import units
from oarkit.project.shorten import shortened
from oarkit.units import Kind


def _quantity(kind: Kind, low: float, high: float, what: str) -> BeforeValidator:
    """Reads a quantity and refuses one that no such thing has."""

    def read(given: object) -> float:
        if isinstance(given, int | float) and not isinstance(given, bool):
            example = kind.example.split(",")[0].split(" or ")[0]
            raise ValueError(
                f'{shortened(given)} is a bare number; write it with its unit, in quotes, like "{example}"'
            )
        if not isinstance(given, str):
            raise ValueError(f"a {kind.name} is wanted here, with its unit, in quotes, like {kind.example}")
        return _believable(units.read_quantity(given, kind), given, kind, low, high, what)

    return BeforeValidator(read)


def _believable(value: float, given: object, kind: Kind, low: float, high: float, what: str) -> float:
    if low - 1e-9 * abs(low) <= value <= high + 1e-9 * abs(high):
        return value
    written = re.search(r"[^\d\s.,+\-].*$", str(given))
    unit = written[0].strip() if written and written[0].strip() in kind.units else next(iter(kind.units))
    factor = kind.units[unit]
    expected = f"{low / factor:.4g} to {high / factor:.4g} {unit}"
    if value < 0 <= low:
        raise ValueError(f"{given} is negative; the {what} lies between {expected}")
    number = re.match(r"[\d.]+", str(given))
    others = [
        u
        for u in ("mm", "in", "ft", "m")
        if u in kind.units and number and low <= float(number[0]) * kind.units[u] <= high
    ]
    hint = f"; did you mean {number[0]} {others[0]}?" if others and number else ""
    raise ValueError(f"{given} cannot be right for the {what}; expected {expected}{hint}")


def _slope(given: object) -> float:
    if not isinstance(given, str):
        raise ValueError('a slope of grain is wanted here, in quotes, like "1:15"')
    value = units.read_slope(given)
    if value >= 5:
        run = given.replace(" ", "").split(":")
        hint = f"; did you mean {run[-1]}:{run[0]}?"
        raise ValueError(f"{given} is far steeper than 1:5 (1:15 or flatter is customary){hint}")
    if value > 0.2:
        raise ValueError(
            f"{given} is steeper than 1:5; no oar can be made of such a board (1:15 or flatter is customary)"
        )
    return value


def _pure(low: float, high: float, what: str, example: float) -> BeforeValidator:
    def read(given: object) -> float:
        if isinstance(given, bool) or not isinstance(given, int | float):
            raise ValueError(
                f"{what} is a pure number; write it without quotes or unit, like {low + (high - low) / 4:.2g}"
            )
        if not low <= given <= high:
            raise ValueError(f"{shortened(given)} is no believable {what}; expected {low:g} to {high:g}")
        return float(given)

    return BeforeValidator(read)


def _count(low: int, high: int, what: str) -> BeforeValidator:
    def read(given: object) -> int:
        number = isinstance(given, int | float) and not isinstance(given, bool)
        if number and not low <= given <= high:  # type: ignore[operator]
            raise ValueError(f"{shortened(given)} is no believable {what}; expected {low} to {high}")
        if not isinstance(given, int | float) or isinstance(given, bool) or given != int(given):
            raise ValueError(f"{what} is a whole number; write it without quotes or unit, like {low + 1}")
        return int(given)

    return BeforeValidator(read)


def _text(what: str, longest: int = 120) -> BeforeValidator:
    def read(given: object) -> str:
        if not isinstance(given, str) or not given.strip():
            raise ValueError(f"{what} is wanted here, in quotes")
        if len(given) > longest:
            raise ValueError(f"{what} is {len(given)} letters long; at most {longest} fit on a sheet")
        text = " ".join(given.split())
        if not text.isprintable():
            raise ValueError(f"{what} holds a sign that cannot be printed; type it afresh")
        return text

    return BeforeValidator(read)


def _or_word(reader: BeforeValidator) -> BeforeValidator:
    inner: Callable[[Any], Any] = reader.func  # type: ignore[assignment]
    words = {"none": None, "stock": "stock"}
    return BeforeValidator(lambda given: words[given] if isinstance(given, str) and given in words else inner(given))


def _length(low_mm: float, high_mm: float, what: str) -> BeforeValidator:
    return _quantity(units.LENGTH, low_mm / 1e3, high_mm / 1e3, what)


_mass = lambda low, high, what: _quantity(units.MASS, low, high, what)  # noqa: E731
_force = lambda high, what: _quantity(units.FORCE, 1.0, high, what)  # noqa: E731
_speed = lambda what: _quantity(units.SPEED, 0.0, 10.0, what)  # noqa: E731
_angle = lambda what: _quantity(units.ANGLE, -math.pi / 2, math.pi / 2, what)  # noqa: E731
_share = lambda low, high, what: _quantity(units.SHARE, low, high, what)  # noqa: E731
_modulus = _quantity(units.MODULUS, 1e9, 40e9, "modulus of a board")
_density = _quantity(units.DENSITY, 80.0, 1300.0, "density of a board")
_size = _length(2, 120, "size of a loom or blade")
Species = Annotated[str, _text("the name of a wood")]


class Keys(BaseModel):
    """A table of a project file; unknown keys are refused."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class Rail(Keys):
    """The rail at the station."""

    thickness: Annotated[float, _length(5, 100, "thickness of a rail")]
    depth: Annotated[float, _length(5, 200, "depth of a rail")]
    species: Species


class HeelTest(Keys):
    """A weight hung off the centreline, and the heel that it makes, nobody else moving."""

    mass: Annotated[float, _mass(0.5, 100, "mass hung for a heel test")]
    off_centre: Annotated[float, _length(50, 2000, "distance of the hung mass from the centreline")]
    angle: Annotated[float, _quantity(units.ANGLE, math.radians(0.1), math.radians(30), "heel under the hung mass")]


class Dock(Keys):
    """A dock that the boat comes alongside."""

    height: Annotated[float, _length(0, 3000, "height of a dock above the water")]
    fender: Annotated[float, _length(0, 600, "thickness of a fender")] = 0.0
    flare_run: Annotated[float, _length(0, 600, "run of the flare, rail outside hull side at the fender")] = 0.0


class Boat(Keys):
    """The boat, measured loaded."""

    beam_at_station: Annotated[float, _length(300, 3000, "beam at a rowing station")]
    length_overall: Annotated[float, _length(1500, 15000, "length of a pulling boat")] | None = None
    rail_above_water: Annotated[float, _length(30, 1500, "height of a rail above the water")] | None = None
    seat_above_water: Annotated[float, _length(-300, 1000, "height of a seat above the water")] | None = None
    seat_above_heels: Annotated[float, _length(0, 600, "height of a seat above the heels")] | None = None
    mass: Annotated[float, _mass(5, 2000, "mass of a pulling boat")] | None = None
    rail: Rail | None = None
    water: Literal["fresh", "salt"] = "fresh"
    brace_from_seat_edge: Annotated[float, _length(100, 1500, "distance from seat edge to heels")] | None = None
    coaming_above_rail: Annotated[float, _length(0, 300, "height of a coaming above the rail")] = 0.0
    heel_test: HeelTest | None = None
    dock: Dock | None = None


class Rower(Keys):
    """The rower; measured sizes win over estimates."""

    mass: Annotated[float, _mass(15, 250, "mass of a rower")]
    stature: Annotated[float, _length(900, 2300, "stature")] | None = None
    body: Literal["male", "female"] | None = None
    thigh_thickness: Annotated[float, _length(50, 350, "thickness of a thigh")] | None = None
    hand_length: Annotated[float, _length(90, 280, "length of a hand")] | None = None
    shoulder_height: Annotated[float, _length(250, 900, "shoulder height above the seat")] | None = None
    arm_length: Annotated[float, _length(300, 1100, "length of an arm")] | None = None
    thigh_length: Annotated[float, _length(200, 800, "length of a thigh")] | None = None
    shank_length: Annotated[float, _length(200, 700, "length of a shank")] | None = None
    hip_above_seat: Annotated[float, _length(0, 250, "height of the hip above the seat")] | None = None
    hip_forward_of_seat_edge: Annotated[float, _length(-300, 500, "place of the hip")] | None = None
    trunk_at_catch: Annotated[float, _angle("trunk angle")] | None = None
    trunk_at_finish: Annotated[float, _angle("trunk angle")] | None = None
    hand_at_finish: Annotated[float, _length(-300, 800, "place of the hand at the finish")] | None = None
    knee_flexion: Annotated[float, _quantity(units.ANGLE, 0.0, math.radians(120), "bend of the knee")] | None = None
    reach_catch: Annotated[float, _length(-500, 2000, "reach")] | None = None
    reach_finish: Annotated[float, _length(-2000, 2000, "reach")] | None = None


class Bracket(Keys):
    """Bolts of a lock bracket."""

    bolts: Annotated[int, _count(1, 12, "count of bolts")]
    bolt_diameter: Annotated[float, _length(2, 25, "diameter of a bolt")]
    bolt_spacing: Annotated[float, _length(10, 1000, "spacing of bolts")]
    bolt_axis: Literal["athwart", "vertical"]
    washer_diameter: Annotated[float, _length(5, 120, "diameter of a washer")] | None = None
    root_width: Annotated[float, _length(3, 300, "width of a bracket's root")] | None = None
    root_thickness: Annotated[float, _length(1, 100, "thickness of a bracket's root")] | None = None
    root_strength: Annotated[float, _quantity(units.MODULUS, 5e6, 2e9, "strength of a bracket")] | None = None


class Thole(Keys):
    """Thole pins."""

    diameter: Annotated[float, _length(5, 60, "diameter of a thole pin")]
    load_arm: Annotated[float, _length(0, 150, "load arm of a thole pin")]
    hole_depth: Annotated[float, _length(5, 200, "depth of a hole")]
    apart: Annotated[float, _length(20, 300, "distance of thole pins")]
    species: Species


class Rig(Keys):
    """Where the pins stand and how the hands pass."""

    lock_overhang: Annotated[float, _length(-1000, 1000, "overhang of a lock")] | None = None
    lock_above_rail: Annotated[float, _length(-100, 500, "height of the loom axis above the rail")] | None = None
    lock_above_water: Annotated[float, _length(30, 1500, "height of the loom axis above the water")] | None = None
    lock_above_seat: Annotated[float, _length(0, 800, "height of the loom axis above the seat")] | None = None
    lock_half_width: Annotated[float, _length(0, 60, "half width of a lock")] = 0.0
    seat_edge_to_pins: Annotated[float, _length(-300, 1200, "distance from seat edge to pins")] | None = None
    overlap: Annotated[float, _length(-3000, 3000, "overlap of the handles")] | None = None
    gap: Annotated[float, _length(0, 3000, "gap between the handles")] | None = None
    length: Annotated[float, _length(1000, 6000, "length of an oar")] | None = None
    leverage_ratio: Annotated[float, _pure(1, 6, "leverage ratio", 2.6)] | None = None
    round_length: Annotated[float | Literal["stock"] | None, _or_word(_length(0.1, 500, "rounding step"))] = units.INCH
    lock: Literal["feathering", "pinned"] = "feathering"
    upper_hand: Literal["left", "right"] = "left"
    hands_ahead: Annotated[float, _length(0, 400, "distance of one hand ahead of the other")] = 0.150
    catch_limit: Annotated[float, _angle("greatest sweep angle")] | None = None
    finish_limit: Annotated[float, _angle("least sweep angle")] | None = None
    hands_apart: Annotated[float, _length(0, 200, "distance of crossed hands")] = 0.060
    wave_clearance: Annotated[float, _length(0, 800, "wave clearance")] = 0.100
    longest_stowed: Annotated[float, _length(500, 10000, "longest oar that stows")] | None = None
    bracket: Bracket | None = None
    thole: Thole | None = None


class Grip(Keys):
    """The grip."""

    diameter: Annotated[float, _length(20, 60, "diameter of a grip")]
    length: Annotated[float, _length(80, 400, "length of a grip")]


class Loom(Keys):
    """The loom, lock to neck and inboard."""

    at_lock: Annotated[float, _size]
    inboard: Annotated[float, _size] | None = None
    inboard_shape: Literal["square", "round"] = "round"
    neck_thickness: Annotated[float, _size]
    neck_width: Annotated[float, _size]


class Blade(Keys):
    """The blade."""

    length: Annotated[float, _length(200, 1500, "length of a blade")]
    width: Annotated[float, _length(40, 400, "width of a blade")]
    tip_thickness: Annotated[float, _length(3, 60, "thickness of a blade")]
    edge_at_root: Annotated[float, _length(2, 60, "thickness of a blade's edge")]
    edge_at_tip: Annotated[float, _length(2, 60, "thickness of a blade's edge")]


class Leather(Keys):
    """The leather."""

    length: Annotated[float, _length(50, 800, "length of a leather")] = 0.250
    inboard_of_pins: Annotated[float, _length(0, 500, "reach of the leather inboard")] = 0.100
    mass: Annotated[float, _mass(0.0, 1.0, "mass of a leather")] = 0.060


class Wood(Keys):
    """A piece of wood of the oar."""

    part: Literal["loom", "edge", "tip", "strip", "cheek", "face", "spline"]
    species: Species
    modulus: Annotated[float, _modulus] | None = None
    density: Annotated[float, _density] | None = None
    grain_slope: Annotated[float, BeforeValidator(_slope)] | None = None
    moisture: Annotated[float, _share(0.0, 0.30, "moisture of a board")] | None = None
    oar: Literal["port", "starboard"] | None = None
    size: Annotated[float, _length(0.5, 1500, "size of a piece")] | None = None
    start: Annotated[float, _length(0, 6000, "place along the oar")] | None = Field(default=None, alias="from")
    stop: Annotated[float, _length(0, 6000, "place along the oar")] | None = Field(default=None, alias="to")
    grain: Literal["along", "across"] = "along"


class Oar(Keys):
    """The oar."""

    grip_centre: Annotated[float, _length(10, 200, "distance from handle end to grip centre")] = 0.060
    grip: Grip
    loom: Loom
    blade: Blade
    leather: Leather = Leather()
    wood: Annotated[list[Wood], Field(min_length=1)]
    station: list[Any] | None = None
    length: Any = None
    inboard: Any = None


class Loads(Keys):
    """Magnitudes of the loads."""

    hard_start: Annotated[float, _force(2000, "force of a hand")] | None = None
    crab_speed: Annotated[float, _speed("speed of the boat")] | None = None
    steer_speed: Annotated[float, _speed("speed of the boat")] | None = None
    pry: Annotated[float, _force(3000, "prying force")] | None = None
    step: Annotated[float, _mass(10, 250, "mass of who steps on the oar")] | None = None
    step_gap: Annotated[float, _length(100, 3000, "gap between thwarts")] | None = None
    push_off: Annotated[float, _force(3000, "push along the oar")] | None = None
    tip_corner: Annotated[float, _force(2000, "load on a tip corner")] | None = None


class Limits(Keys):
    """What a rig must keep to where length, overlap or overhang is left to be chosen; custom where nothing is said."""

    least_overlap: Annotated[float, _length(-3000, 3000, "overlap of the handles")] | None = None
    most_overlap: Annotated[float, _length(-3000, 3000, "overlap of the handles")] | None = None
    least_leverage_ratio: Annotated[float, _pure(1, 6, "leverage ratio", 2.3)] | None = None
    most_leverage_ratio: Annotated[float, _pure(1, 6, "leverage ratio", 2.8)] | None = None
    least_arc: Annotated[float, _quantity(units.ANGLE, 0.0, math.radians(150), "arc of a stroke")] | None = None
    most_dip: Annotated[float, _quantity(units.ANGLE, math.radians(2), math.radians(60), "dip of an oar")] | None = None
    least_hand_height: Annotated[float, _length(0, 900, "height of the hands above the seat")] | None = None
    most_hand_height: Annotated[float, _length(0, 900, "height of the hands above the seat")] | None = None
    least_overhang: Annotated[float, _length(-1000, 1000, "overhang of a lock")] | None = None
    most_overhang: Annotated[float, _length(-1000, 1000, "overhang of a lock")] | None = None


class Wanted(Keys):
    """What the oar should come to."""

    stiffness_index: Annotated[float, _pure(0.005, 0.3, "stiffness index", 0.05)] | None = None
    safety: Annotated[float, _pure(1, 20, "safety ratio", 1.5)] = 1.5


class ProjectFile(Keys):
    """A whole project file."""

    title: Annotated[str, _text("a title")]
    display: Literal["mm", "ft-in"] = "mm"
    boat: Boat
    rower: Rower
    rig: Rig
    oar: Oar
    limits: Limits = Limits()
    loads: Loads = Loads()
    wanted: Wanted = Wanted()
