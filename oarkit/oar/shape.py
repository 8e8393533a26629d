"""Shape of an oar from a handful of sizes: grip, inboard, lock, neck, blade.

The fairing between the sizes is a modelling choice of this project: smooth steps at the shoulder and before the
leather, straight taper from leather to neck, powers of 0.8 in the blade. Another
fairing moves results by up to about 3 %.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from oarkit.section.profile import Profile, corner_of_area_share
from oarkit.working import Array, BadDesign, Number, Quantity

SHOULDER = 0.050  #: from the grip's full round to the inboard section [m]
ROUNDING = 0.060  #: from the inboard section to the round under the leather [m]
EASED_AREA = 0.96  #: area of a square with eased corners over its side squared, a choice of this project
NODES_PER_SEGMENT = 25  #: odd, for Simpson's rule


@dataclass(frozen=True, slots=True, kw_only=True)
class OarSizes:
    """The sizes of an oar that its builder chooses [m]; ``square_inboard`` tells a counterweight from a round loom.

    Thickness is the size square to the blade face, width the size in its plane.
    """

    grip_centre: Number
    grip_diameter: Number
    grip_length: Number
    inboard_size: Number
    square_inboard: bool
    lock_diameter: Number
    neck_thickness: Number
    neck_width: Number
    blade_length: Number
    blade_width: Number
    tip_thickness: Number
    edge_at_root: Number
    edge_at_tip: Number
    leather_length: Number
    leather_inboard: Number

    def at(self, *, length: Number, inboard: Number) -> OarShape:
        """The whole shape, once the rig has fixed length and inboard."""
        return OarShape(length=length, inboard=inboard, **{f.name: getattr(self, f.name) for f in fields(OarSizes)})


@dataclass(frozen=True, slots=True, kw_only=True)
class OarShape(OarSizes):
    """The sizes with length and inboard: all that fixes the outline. Places s run from the handle end [m]."""

    length: Number
    inboard: Number

    @property
    def blade_root(self) -> Number:
        """Place of the blade root along the oar."""
        return self.length - self.blade_length

    @property
    def mid_blade(self) -> Number:
        """Place of the middle of the blade's length."""
        return self.length - self.blade_length / 2

    @property
    def leather_start(self) -> Number:
        """Inboard end of the leather."""
        return self.inboard - self.leather_inboard

    @property
    def leather_end(self) -> Number:
        """Outboard end of the leather."""
        return self.leather_start + self.leather_length

    @property
    def numbers(self) -> Mapping[str, Number]:
        """The sizes, each of which may be an array of designs."""
        return {field.name: getattr(self, field.name) for field in fields(self) if field.name != "square_inboard"}

    def laid(self, further_breaks: Sequence[Number] = (), *, count: int | None = None) -> Stations:
        """Stations of the quadrature, as `stations`."""
        return stations(self, further_breaks, count=count)

    def profile(self, laid: Stations) -> Profile:
        """Sections at stations, as `profile_at`."""
        return profile_at(self, laid.s)


def _share(s: Array, start: Number, stop: Number) -> Array:
    """How far s has got from start to stop, held to 0...1; arrays of designs lead, stations come last."""
    first, last = np.asarray(start)[..., None], np.asarray(stop)[..., None]
    share: Array = np.clip((s - first) / np.maximum(last - first, 1e-9), 0.0, 1.0)
    return share


def _smooth(x: Array) -> Array:
    return x * x * (3 - 2 * x)


def profile_at(shape: OarShape, s: Array) -> Profile:
    """Sections of the oar at places along it.

    Parameters
    ----------
    shape : OarShape
        The sizes. [m]
    s : array
        Distance from the handle end, stations on the last axis. [m]

    Returns
    -------
    Profile
        Section shapes at s. [m]

    Notes
    -----
    Source: derived; a modelling choice of this project (see the module).

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> shape = design(example_project("quillet").inputs).oars["port"].shape
    >>> p = profile_at(shape, np.array([0.05, 0.62865, 2.286]))
    >>> [round(float(t), 4) for t in p.thickness]
    [0.0333, 0.046, 0.011]
    """

    def column(size: Number) -> Array:
        return np.asarray(size, dtype=float)[..., None]

    grip, inboard, lock = column(shape.grip_diameter), column(shape.inboard_size), column(shape.lock_diameter)
    neck_t, neck_w = column(shape.neck_thickness), column(shape.neck_width)
    shoulder = _smooth(_share(s, shape.grip_length, shape.grip_length + SHOULDER))
    rounding = _smooth(_share(s, shape.leather_start - ROUNDING, shape.leather_start))
    taper = _share(s, shape.leather_end, shape.blade_root)
    u = _share(s, shape.blade_root, shape.length)
    loom = grip + (inboard - grip) * shoulder + (lock - inboard) * rounding
    power = np.power(u, 0.8, out=np.zeros_like(u), where=u > 0)  # slow to work, and most stations lie off the blade
    thinning, spreading = np.minimum(power / 0.75**0.8, 1.0), np.minimum(power / 0.35**0.8, 1.0)
    eased = float(corner_of_area_share(EASED_AREA)) if shape.square_inboard else 0.5
    return Profile(
        thickness=loom + (neck_t - lock) * taper + (column(shape.tip_thickness) - neck_t) * thinning,
        width=loom + (neck_w - lock) * taper + (column(shape.blade_width) - neck_w) * spreading,
        edge=column(shape.edge_at_root) + (column(shape.edge_at_tip) - column(shape.edge_at_root)) * u,
        corner=0.5 + (eased - 0.5) * (shoulder - rounding) + 0 * u,
        blade_share=np.minimum(u / 0.08, 1.0),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Stations:
    """Places along the oar, with Simpson weights and the middle of the segment that each belongs to [m].

    Segments run from break to break, so every break stands twice: as the end of one and the start of the next.
    """

    s: Array
    weight: Array
    middle: Array


def stations(shape: OarShape, further_breaks: Sequence[Number] = (), *, count: int | None = None) -> Stations:
    """Stations on every break of section or wood, the rest spread between.

    Parameters
    ----------
    shape : OarShape
        The sizes. [m]
    further_breaks : sequence of float or array, optional
        Where a piece of wood begins or ends. [m]
    count : int, optional
        About how many stations to lay, shared out by the root of each segment's length; 25 a segment where nothing is
        said. [count]

    Returns
    -------
    Stations
        Some hundreds of stations, or about ``count``; an integral along the oar is the sum of weight times value. [m]

    Raises
    ------
    BadDesign
        The parts of the oar do not fit behind one another.

    Notes
    -----
    Source: Simpson's rule in every segment.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> shape = design(example_project("quillet").inputs).oars["port"].shape
    >>> x = stations(shape)
    >>> len(x.s) >= 200, round(float(x.weight.sum()), 6)
    (True, 2.286)
    """
    root, blade = shape.blade_root, shape.blade_length
    _in_order(shape)
    breaks = [
        np.zeros_like(np.asarray(shape.length, dtype=float)),
        shape.grip_centre, shape.grip_length, shape.grip_length + SHOULDER,
        shape.leather_start - ROUNDING, shape.leather_start, shape.inboard,
        shape.leather_start + shape.leather_length / 2, shape.leather_end,
        root, root + 0.08 * blade, root + 0.35 * blade, shape.mid_blade, root + 0.75 * blade, shape.length,
        *further_breaks,
    ]  # fmt: skip
    at = np.sort(np.stack(np.broadcast_arrays(*breaks), axis=-1), axis=-1)
    first, step = at[..., :-1], np.diff(at, axis=-1)
    if count is None:
        pairs = np.full(step.shape[-1], NODES_PER_SEGMENT // 2)
    else:
        pairs = _shared_out(np.mean(step.reshape(-1, step.shape[-1]), axis=0), count)
    segment, node, simpson = _unit_segments(tuple(pairs.tolist()))
    return Stations(
        s=first[..., segment] + step[..., segment] * node,
        weight=step[..., segment] * simpson,
        middle=(first + step / 2)[..., segment],
    )


@lru_cache(maxsize=64)
def _unit_segments(pairs: tuple[int, ...]) -> tuple[NDArray[np.int_], Array, Array]:
    """For every station its segment, its place in it from 0 to 1, and its share of the length."""
    segment = np.repeat(np.arange(len(pairs)), 2 * np.array(pairs) + 1)
    node = np.concatenate([np.linspace(0, 1, 2 * each + 1) for each in pairs])
    return segment, node, np.concatenate([_simpson(each) for each in pairs])


def _simpson(pairs: int) -> Array:
    """Weights of Simpson's rule over a length of 1."""
    weights = np.full(2 * pairs + 1, 2.0)
    weights[1::2] = 4.0
    weights[[0, -1]] = 1.0
    whole: Array = weights / weights.sum()
    return whole


def _shared_out(lengths: Array, count: int) -> NDArray[np.int_]:
    """Pairs of steps for every segment, one at least, so that there are about ``count`` stations in all."""
    spare = (count - 3 * lengths.size) // 2
    if spare < 0:
        raise BadDesign(f"{count} stations are too few for this oar; {3 * lengths.size} is the least")
    root = np.sqrt(lengths)
    upto = np.round(spare * np.cumsum(root) / root.sum()).astype(int)
    pairs: NDArray[np.int_] = 1 + np.diff(upto, prepend=0)
    return pairs


def over_designs(laid: Stations, designs: tuple[int, ...]) -> Stations:
    """The same stations for every design of an array.

    Parameters
    ----------
    laid : Stations
        Stations of one shape or of several. [m]
    designs : tuple of int
        Shape of the array of designs. [count]

    Returns
    -------
    Stations
        Designs on the leading axes, stations on the last. [m]

    Notes
    -----
    Source: derived; broadcasting.

    Examples
    --------
    >>> one = Stations(s=np.array([0.0, 1.0]), weight=np.array([0.5, 0.5]), middle=np.array([0.5, 0.5]))
    >>> over_designs(one, (3,)).s.shape
    (3, 2)
    """
    return Stations(
        **{
            field.name: np.broadcast_to(value, (*designs, value.shape[-1]))
            for field in fields(laid)
            for value in [getattr(laid, field.name)]
        }
    )


def _in_order(shape: OarShape) -> None:
    """Refuse an oar whose parts overlap along its length."""
    order = (
        (
            "grip and shoulder",
            shape.grip_length + SHOULDER,
            "rounding before the leather",
            shape.leather_start - ROUNDING,
        ),
        ("leather", shape.leather_end, "blade", shape.blade_root),
    )
    if np.less(shape.leather_end, shape.inboard).any():
        raise BadDesign("the leather ends inboard of the pin line; it must lie in the lock")
    for before, ends, after, starts in order:
        overlap = float(np.subtract(ends, starts).max())
        if overlap > 0:
            raise BadDesign(
                f"there is no room for {before}: it reaches {{overlap}} into the {after}; shorten one of them, or make "
                "that part of the oar longer",
                {"overlap": Quantity(value=overlap, unit="m")},
            )
