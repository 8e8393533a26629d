"""An oar with wood planed off between two places along it, or left on, and the zones that a plane is taken to.

A planing runs out to nothing over 60 mm within its own ends, by a smooth step, so that none is left to see or to break
at; at an end of the oar it goes right through. Half of the thickness comes off each of the two faces square to the
stroke, along the middle line: the edges of a blade stay as thick as they are, or as the middle has become.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np

from oarkit.oar.any_shape import Shape
from oarkit.oar.measured import MeasuredShape
from oarkit.oar.shape import SHOULDER, OarShape, Stations
from oarkit.section.profile import Profile
from oarkit.working import Array, BadDesign, Number, Quantity

RUN_OUT = 0.060  #: over which a planing comes to nothing at each of its ends, a choice of this project [m]
ROOT_SHARE = 0.35  #: of the blade's length that counts as its root: up to where it is full width
SHORTEST = RUN_OUT  #: a stretch shorter than that is no zone of its own: its neighbours would meet across it [m]

Size: TypeAlias = Literal["thickness", "width", "diameter"]


def _column(value: Number) -> Array:
    return np.asarray(value, dtype=float)[..., None]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanedShape:
    """An outline with ``thickness`` and ``width`` planed off altogether from ``start`` to ``stop`` along it [m].

    Negative sizes leave wood on: a thicker blank. ``base`` may be drawn from sizes, measured, or planed before. All
    four numbers may be arrays of designs.
    """

    base: Shape
    thickness: Number = 0.0
    width: Number = 0.0
    start: Number
    stop: Number

    def __post_init__(self) -> None:
        sizes = (self.thickness, self.width, self.start, self.stop)
        if not all(np.all(np.isfinite(size)) for size in sizes):
            raise BadDesign("what is planed off, and from where to where, must be lengths")
        start, stop, length = np.asarray(self.start), np.asarray(self.stop), self.base.length
        if np.any(start < 0) or np.any(stop <= start) or np.any(np.subtract(stop, length) > 1e-9):
            raise BadDesign(
                "the planing runs from {start} to {stop}, which is not a stretch of an oar {length} long",
                {name: Quantity(value=value, unit="m")
                 for name, value in (("start", start), ("stop", stop), ("length", length))},
            )  # fmt: skip

    @property
    def length(self) -> Number:
        """Handle end to tip, which no planing changes."""
        return self.base.length

    @property
    def inboard(self) -> Number:
        """Handle end to pin line."""
        return self.base.inboard

    @property
    def grip_centre(self) -> Number:
        """Place of the hand."""
        return self.base.grip_centre

    @property
    def lock_diameter(self) -> Number:
        """Thickness at the pin line, after planing."""
        return self.base.lock_diameter - self.thickness * self._share_at(self.inboard)

    @property
    def neck_thickness(self) -> Number:
        """Thickness of the neck, after planing."""
        return self.base.neck_thickness - self.thickness * self._share_at(_neck(self.base))

    @property
    def neck_width(self) -> Number:
        """Width of the neck, after planing."""
        return self.base.neck_width - self.width * self._share_at(_neck(self.base))

    @property
    def blade_length(self) -> Number:
        """Blade root to tip."""
        return self.base.blade_length

    @property
    def blade_width(self) -> Number:
        """Greatest width of the blade, after planing."""
        laid = self.laid()
        wide = np.where(laid.middle > _column(self.blade_root), self.profile(laid).width, 0.0)
        widest: Number = np.max(wide, axis=-1)[()]
        return widest

    @property
    def blade_root(self) -> Number:
        """Place of the blade root along the oar."""
        return self.base.blade_root

    @property
    def mid_blade(self) -> Number:
        """Place of the middle of the blade's length."""
        return self.base.mid_blade

    @property
    def tip_thickness(self) -> Number:
        """Thickness of the blade on its middle line at the tip, after planing."""
        return self.base.tip_thickness - self.thickness * self._share_at(self.length)

    @property
    def leather_start(self) -> Number:
        """Inboard end of the leather."""
        return self.base.leather_start

    @property
    def leather_length(self) -> Number:
        """Length of the leather."""
        return self.base.leather_length

    @property
    def leather_inboard(self) -> Number:
        """How far the leather reaches inboard of the pin line."""
        return self.base.leather_inboard

    @property
    def leather_end(self) -> Number:
        """Outboard end of the leather."""
        return self.base.leather_end

    @property
    def numbers(self) -> Mapping[str, Number]:
        """The sizes of the base, the inboard among them over all designs of the planing."""
        numbers = dict(self.base.numbers)
        planed = (self.thickness, self.width, self.start, self.stop)
        designs = np.broadcast_shapes(np.shape(self.inboard), *(np.shape(number) for number in planed))
        return numbers | {"inboard": np.broadcast_to(self.inboard, designs)}

    def laid(self, further_breaks: Sequence[Number] = (), *, count: int | None = None) -> Stations:
        """Stations of the base, and on both ends of the planing and of its run-outs."""
        out = self._run_out
        own: list[Number] = []
        if not np.all(self._from_end):
            own += [self.start, self.start + out]
        if not np.all(self._to_end):
            own += [self.stop - out, self.stop]
        return self.base.laid(
            (*further_breaks, *(each for each in own if not _among(each, further_breaks))), count=count
        )

    def profile(self, laid: Stations) -> Profile:
        """Sections of the base less what is planed off."""
        before = self.base.profile(laid)
        columns = (_column(value) for value in (self.start, self.stop, self._run_out, self._from_end, self._to_end))
        share = _fair(laid.s, *columns)
        thickness = self._left(before.thickness, self.thickness, share, "thickness")
        width = self._left(before.width, self.width, share, "width")
        touched = (before.blade_share > 0) & (share * _column(self.thickness) != 0)
        return Profile(
            thickness=thickness,
            width=width,
            edge=np.where(touched, np.minimum(before.edge, thickness), before.edge),
            corner=before.corner,
            blade_share=before.blade_share,
        )

    @property
    def _run_out(self) -> Number:
        """Over which the planing comes to nothing, half its length at most."""
        return np.minimum(RUN_OUT, np.subtract(self.stop, self.start) / 2)

    @property
    def _from_end(self) -> Number:
        """1 where the planing begins at the handle end."""
        return np.less_equal(self.start, 1e-9).astype(float)

    @property
    def _to_end(self) -> Number:
        """1 where the planing goes on to the tip."""
        return np.greater_equal(self.stop, np.subtract(self.length, 1e-9)).astype(float)

    def _share_at(self, place: Number) -> Number:
        """Share of the planing at a place of each design."""
        return _fair(np.asarray(place), self.start, self.stop, self._run_out, self._from_end, self._to_end)

    def _left(self, before: Array, off: Number, share: Array, size: Size) -> Array:
        """What is left of a size; there must be something."""
        left = before - _column(off) * share
        if np.any(left <= 0):
            had = np.broadcast_to(before, left.shape)
            raise BadDesign(
                f"planing {{off}} off the {size} leaves nothing: it is {{had}} where it is least",
                {
                    "off": Quantity(value=float(np.max(off)), unit="m"),
                    "had": Quantity(value=float(np.min(had[left <= 0])), unit="m"),
                },
            )
        return left


def _fair(s: Array, start: Number, stop: Number, out: Number, from_end: Number, to_end: Number) -> Array:
    """Share of a planing at places along the oar: all of it between smooth steps within its ends."""

    def step(x: Array) -> Array:
        x = np.clip(x, 0.0, 1.0)
        return x * x * (3 - 2 * x)

    share: Array = np.maximum(step((s - start) / out), from_end) * np.maximum(step((stop - s) / out), to_end)
    return share


def _among(place: Number, others: Sequence[Number]) -> bool:
    """Whether a place stands among others, the same for all designs."""
    scalars = [float(other) for other in others if np.ndim(other) == 0]
    return np.ndim(place) == 0 and any(abs(float(place) - other) < 1e-12 for other in scalars)


def _neck(shape: Shape) -> Number:
    """Where the sizes of the neck are told: the blade root, or the last measured station before it."""
    if isinstance(shape, PlanedShape):
        return _neck(shape.base)
    if isinstance(shape, MeasuredShape):
        return max(station.s for station in shape.stations if station.form != "blade")
    return shape.blade_root


def _grip_end(shape: Shape) -> Number:
    """Where the inboard has its full size, out of the hand; on a measured oar twice as far out as the grip centre."""
    if isinstance(shape, PlanedShape):
        return _grip_end(shape.base)
    if isinstance(shape, OarShape):
        return shape.grip_length + SHOULDER
    return 2 * shape.grip_centre


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """A stretch of the oar that a plane is taken to, from ``start`` to ``stop`` [m], its run-outs among it.

    ``plane`` names the sizes that are planed there to change how the oar bends. The lock turns in the leather and
    stays round, so both of its sizes go together, as its diameter. The width of the blade is none of them, for it is
    the blade's grip of the water.
    """

    name: str
    start: Number
    stop: Number
    plane: tuple[Size, ...]


def zones(shape: Shape) -> tuple[Zone, ...]:
    """The zones of an oar in the order in which they lie, each setting in where the last one runs out.

    Parameters
    ----------
    shape : Shape
        The oar. [m]

    Returns
    -------
    tuple of Zone
        Inboard of the leather, lock, three thirds of the loom, blade root, blade; what is too short is left out. [m]

    Notes
    -----
    Source: choice of this project. The run-outs of neighbours lie over each other, so that planings of all zones add up
    to one without a ridge between them.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> shape = design(example_project("quillet").inputs).oars["port"].shape
    >>> [zone.name for zone in zones(shape)][:3]
    ['inboard', 'lock', 'inner loom']
    """
    grip, lock, root = _grip_end(shape), shape.leather_end, shape.blade_root
    third = (root - lock) / 3
    spread = root + ROOT_SHARE * shape.blade_length
    stretches: tuple[tuple[str, Number, Number, tuple[Size, ...]], ...] = (
        ("inboard", grip, shape.leather_start, ("thickness", "width")),
        ("lock", shape.leather_start, lock, ("diameter",)),
        ("inner loom", lock, lock + third, ("thickness", "width")),
        ("middle loom", lock + third, lock + 2 * third, ("thickness", "width")),
        ("outer loom to the neck", lock + 2 * third, root, ("thickness", "width")),
        ("blade root", root, spread, ("thickness",)),
        ("blade", spread, shape.length, ("thickness",)),
    )
    return tuple(
        Zone(
            name=name,
            start=np.maximum(start - RUN_OUT / 2, grip),
            stop=np.minimum(stop + RUN_OUT / 2, shape.length),
            plane=plane,
        )
        for name, start, stop, plane in stretches
        if np.all(np.subtract(stop, start) >= SHORTEST)
    )
