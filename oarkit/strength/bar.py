"""An oar laid out as a bar to integrate: slope and deflection from the curvature, stations where they are wanted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from oarkit.oar.build import Oar, once, taken
from oarkit.strength.bend import Plane, running
from oarkit.working import Array, Number

_SAME = 1e-9  # two places along the oar closer than this are one [m]
_GAUSS = 0.5 + np.array([[-0.5], [0.5]]) / np.sqrt(3)  # two points between stations, exact for a cubic


def _column(value: Number) -> Array:
    return np.asarray(value, dtype=float)[..., None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """An oar laid out for integrating in one plane, with a station at every place that is asked for.

    ``extra`` are the places that stand between the oar's own stations. Between two stations lie two Gauss points:
    ``point`` (their place) and ``flexibility``, 1/(E I), have first the nearer ones of all steps and then the farther;
    each counts for half of its ``step``. ``give`` is the integral of k/(G A) from station to station, nil where shear
    is left out.
    """

    s: Array
    extra: tuple[Array, ...]
    own: Array
    step: Array
    point: Array
    flexibility: Array
    give: Array

    def at_own(self, values: Array) -> Array:
        """Values at the bar's stations, those of the oar's own stations."""
        if not self.extra:
            return values
        index = np.arange(self.own.shape[-1]) + sum(np.less(place, self.own) for place in self.extra)
        return taken(values, index)

    def at(self, values: Array, place: Number) -> Array:
        """Values at the bar's stations, that of a place at which one stands; the last axis is kept."""
        index = np.sum(self.s < _column(place) - _SAME, axis=-1, keepdims=True)
        return taken(values, np.minimum(index, self.s.shape[-1] - 1))

    def turned(self, turn: Array) -> tuple[Array, Array]:
        """Slope and deflection at the stations, nil at the handle end, from the turn that each Gauss point brings."""
        near_far = self.paired(turn)
        slope = running(near_far.sum(axis=-2))
        bent: Array = self.step * (near_far * _GAUSS[::-1]).sum(axis=-2)
        return slope, running(slope[..., :-1] * self.step + bent)

    def smooth(self, bent: Array, slope: Array) -> Array:
        """Deflection at the Gauss points: the cubics that keep deflection and slope at the stations."""
        x, step = _GAUSS, self.step[..., None, :]
        start, stop, slope = bent[..., None, :-1], bent[..., None, 1:], slope[..., None, :]
        far, bow, fall = (3 - 2 * x) * x**2, step * (x * (1 - x) ** 2), step * (x**2 * (1 - x))
        made = start + (stop - start) * far + slope[..., :-1] * bow - slope[..., 1:] * fall
        flat: Array = made.reshape(*made.shape[:-2], -1)
        return flat

    @property
    def reach(self) -> Array:
        """Length that each Gauss point stands for."""
        return np.concatenate([self.step / 2] * 2, axis=-1)

    def paired(self, values: Array) -> Array:
        """Values at the Gauss points, near and far ones on an axis of their own before the last."""
        apart: Array = values.reshape(*values.shape[:-1], 2, -1)
        return apart


def bar_of(oar: Oar, *, plane: Plane, places: Sequence[Number], with_shear: bool = True) -> Bar:
    """Lay an oar out for integrating, with stations at the places where something acts or is read.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    plane : {"stroke", "lateral"}
        Bending square to the blade face, or in its plane. [text]
    places : sequence of float or array
        From the handle end. [m]
    with_shear : bool, optional
        Whether shear counts. [flag]

    Returns
    -------
    Bar
        Stations, Gauss points and flexibility. [m, 1/(N m2)]

    Notes
    -----
    Source: derived. Between two stations the fourth root of E I and the square root of G A/k run straight, which is
    exact for a round taper. One shear stiffness serves both planes; shear is about 1 % of a drop.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bar = bar_of(oar, plane="stroke", places=[1.0, oar.shape.inboard])
    >>> len(bar.s) - len(oar.s), float(bar.at(bar.s, 1.0)[0])
    (1, 1.0)
    """
    laminate, own = oar.laminate, once(oar.s)
    stiffness = laminate.bending_stiffness if plane == "stroke" else laminate.lateral_stiffness
    along = [np.sqrt(np.sqrt(stiffness))] + [np.sqrt(laminate.shear_stiffness)] * with_shear
    # grip, lock, mid-blade and tip are breaks, at which the oar has its stations: most often nothing is put in
    extra = tuple(_column(place) for place in places if (np.abs(own - _column(place)).min(axis=-1) > _SAME).any())
    s, *along = _with_places(own, extra, *along) if extra else (own, *along)
    step = np.diff(s, axis=-1)
    fourth = _between(along[0])
    fourth *= fourth
    give = np.zeros(())
    if with_shear:
        shear = _between(along[1])
        give = step / 2 * (1 / (shear * shear)).reshape(*shear.shape[:-1], 2, -1).sum(axis=-2)
    flexibility = 1 / (fourth * fourth)
    return Bar(s=s, extra=extra, own=own, step=step, point=_between(s), flexibility=flexibility, give=give)


def _between(values: Array) -> Array:
    """Values at the Gauss points of what runs straight from station to station: near ones first, then far ones."""
    found: Array = values[..., None, :-1] + np.diff(values, axis=-1)[..., None, :] * _GAUSS
    return found.reshape(*values.shape[:-1], -1)


def _with_places(s: Array, places: Sequence[Array], *along: Array) -> tuple[Array, ...]:
    """Stations with places put in between, and what runs straight from station to station."""
    lead = np.broadcast_shapes(s.shape[:-1], *(place.shape[:-1] for place in places))
    own = np.broadcast_to(s, (*lead, s.shape[-1]))
    put = np.concatenate([np.broadcast_to(place, (*lead, 1)) for place in places], axis=-1)
    left = np.clip(np.sum(own[..., None, :] <= put[..., None], axis=-1) - 1, 0, own.shape[-1] - 2)
    before, after = taken(own, left), taken(own, left + 1)
    share = np.clip((put - before) / np.maximum(after - before, 1e-12), 0.0, 1.0)
    every = np.concatenate([own, put], axis=-1)
    order = np.argsort(every, axis=-1, kind="stable")
    found = [np.take_along_axis(every, order, -1)]
    for values in along:
        start, stop = taken(values, left), taken(values, left + 1)
        between = start + share * (stop - start)
        wide = np.broadcast_shapes(values.shape[:-1], lead)
        joined = np.concatenate([np.broadcast_to(each, (*wide, each.shape[-1])) for each in (values, between)], axis=-1)
        found.append(taken(joined, order))
    return tuple(found)
