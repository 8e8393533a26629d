"""What a millimetre is worth: how drop, weight and strength change where an oar is planed or left thicker.

All zones and woods are worked in one build of many designs on the same stations. An oar is planed here before its
faces, cheeks and edges are glued on: these keep their own thickness. Planing them takes more of the stiffness.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, fields, replace
from typing import Any, Literal, TypeAlias, TypeVar

import numpy as np
from numpy.typing import NDArray

from oarkit.oar.any_shape import Shape
from oarkit.oar.build import Oar, build_oar
from oarkit.oar.mass import balance, hand_weight, inertia_about_lock, mass
from oarkit.oar.pieces import Piece
from oarkit.oar.planed import PlanedShape, Size, Zone, zones
from oarkit.section.laminate import Laminate
from oarkit.section.profile import Profile
from oarkit.strength.bend import bench_drop, stiffness_index
from oarkit.strength.cases import TIP_INSET, TIP_LOAD
from oarkit.strength.hard_start import checks
from oarkit.working import Array, BadDesign, Number

MM = 0.001  #: what is planed off or left on, all told [m]
STEP = 0.00005  #: by which a size is varied for its rate [m]
SHARE = 0.10  #: by which a modulus is varied [1]
STATIONS = 201  #: that the varied oars have, about [count]
JUMP = 0.020  #: a place of the least ratio that moves further has jumped, a choice of this project [m]
BEND = 0.05  #: rates to either side that differ by more than that share make a kink, likewise [1]

Ratios: TypeAlias = Callable[[Oar], Number]
_R = TypeVar("_R", Profile, Laminate)


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """What an oar comes to, or by how much that changes.

    Drops in m under 10 kg at mid-blade and 7 lb at the tip; ``ratio`` is the least of the hard start, ``governing``
    that of the caller, None where there is none.
    """

    drop: Number
    index: Number
    tip_drop: Number
    mass: Number
    balance: Number
    hand_weight: Number
    inertia: Number
    ratio: Number
    governing: Number | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Sensitivity:
    """What one size in one zone, or the modulus of one piece, does to an oar.

    ``rate`` is the change per mm planed off, from differences of 0.05 mm; of a modulus, what 10 % more changes.
    ``less`` and ``more`` are what the oar comes to with a whole mm off or left on, or with 10 % less or more modulus;
    None where no mm can be spared. ``kink`` tells that the place of the least ratio jumps, ``governing_kink`` that the
    governing one bends: the rate is then the one toward planing. ``place``, ``place_less`` and ``place_more`` are where
    the hard start comes nearest to breaking the oar [m]. ``usual`` is False for what no one would plane alone.
    """

    what: Literal["thickness", "width", "diameter", "modulus"]
    zone: str
    per: Literal["mm", "10 %"]
    rate: State
    less: State | None
    more: State | None
    place: Number
    place_less: Number | None
    place_more: Number | None
    kink: bool = False
    governing_kink: bool = False
    usual: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Sensitivities:
    """An oar as it is, and what each size and modulus does to it: zones from the handle to the tip, then woods."""

    now: State
    each: tuple[Sensitivity, ...]

    def of(self, what: str, zone: str) -> Sensitivity:
        """The one of a size in a zone, or of the modulus of a piece."""
        return next(one for one in self.each if (one.what, one.zone) == (what, zone))


def sensitivities(oar: Oar, *, force: Number, ratio_of: Ratios | None = None, count: int = STATIONS) -> Sensitivities:
    """Change of an oar per mm planed at each zone, and per 10 % of the modulus of each piece.

    Parameters
    ----------
    oar : Oar
        The oar (scalars). [record]
    force : float
        Hard start at the grip centre, for the least ratio. [N]
    ratio_of : callable, optional
        Another least ratio, from an oar of many designs. [1]
    count : int, optional
        About how many stations. [count]

    Returns
    -------
    Sensitivities
        The oar on these stations, and its sensitivities. [records]

    Notes
    -----
    Source: central differences of 0.05 mm; a modulus raised by 10 %, its shear modulus along, strength as it is.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> sens = sensitivities(oar, force=400.0)
    >>> rate = sens.of("thickness", "inner loom").rate
    >>> bool(rate.drop > 0 > rate.mass)
    True
    """
    try:
        rows = _rows(oar, (STEP, MM))
        found, at = _measured(_built(oar, rows, count), force, ratio_of)
    except BadDesign:  # somewhere there is no mm to spare
        rows = _rows(oar, (STEP,))
        found, at = _measured(_built(oar, rows, count), force, ratio_of)
    now = _one(found, 0)
    return Sensitivities(now=now, each=tuple(_told(row, now, found, at) for row in rows))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Varied:
    """One varied oar: which size by how much, and in which zones; or the modulus of which pieces."""

    what: Literal["thickness", "width", "diameter", "modulus"]
    where: tuple[str, ...]
    step: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """The designs of one sensitivity: what is varied by which steps, and the first of them.

    ``alike`` names the zones that share no section with this one or with each other, this one among them.
    """

    what: Literal["thickness", "width", "diameter", "modulus"]
    name: str
    zone: Zone | None
    alike: tuple[str, ...]
    steps: tuple[float, ...]
    first: int

    def designs(self, *, alike: bool) -> list[_Varied]:
        """Its varied oars, with or without all zones that are alike."""
        where = self.alike if alike else (self.name,)
        return [_Varied(what=self.what, where=where, step=step) for step in self.steps]


def _called(piece: Piece) -> str:
    return f"{piece.kind} of {piece.wood.name}"


def _rows(oar: Oar, steps: Sequence[float]) -> list[_Row]:
    """What is varied: each size of each zone by steps off and on, each modulus down and up; design 0 is as it is."""
    both = tuple(sign * step for step in steps for sign in (1.0, -1.0))
    near = zones(oar.shape)
    rows: list[_Row] = []
    for number, zone in enumerate(near):
        sizes: tuple[Size, ...] = ("thickness", "width", *(size for size in zone.plane if size == "diameter"))
        alike = tuple(other.name for other in near[number % 2 :: 2])
        for size in sizes:
            first = 1 + len(both) * len(rows)
            rows.append(_Row(what=size, name=zone.name, zone=zone, alike=alike, steps=both, first=first))
    first = 1 + len(both) * len(rows)
    for name in dict.fromkeys(map(_called, oar.pieces)):
        rows.append(_Row(what="modulus", name=name, zone=None, alike=(name,), steps=(-SHARE, SHARE), first=first))
        first += 2
    return rows


def _built(oar: Oar, rows: Sequence[_Row], count: int) -> Oar:
    """All varied oars in one, on the same stations.

    A zone changes its own sections only, so that those of every second zone are worked together and then dealt out.
    """
    sections = list(dict.fromkeys(varied for row in rows for varied in row.designs(alike=True)))
    made = build_oar(_planed(oar.shape, sections), _pieces(oar.pieces, sections), oar.leather, count=count)
    designs = [varied for row in rows for varied in row.designs(alike=False)]
    middle = made.middle[0]
    taken = np.zeros((1 + len(designs), middle.size), dtype=int)
    for row in rows:
        here = (middle > row.zone.start) & (middle < row.zone.stop) if row.zone is not None else middle > 0
        for number, varied in enumerate(row.designs(alike=True)):
            taken[row.first + number] = here * (1 + sections.index(varied))
    return Oar(
        shape=_planed(oar.shape, designs),
        pieces=_pieces(oar.pieces, designs),
        leather=oar.leather,
        s=np.broadcast_to(made.s[0], taken.shape),
        weight=np.broadcast_to(made.weight[0], taken.shape),
        middle=np.broadcast_to(middle, taken.shape),
        profile=_dealt(made.profile, taken),
        laminate=_dealt(made.laminate, taken),
    )


def _dealt(record: _R, taken: NDArray[np.intp]) -> _R:
    """A record of arrays over designs and stations, each station from the design that is told."""
    at = (taken, np.arange(taken.shape[-1]))
    dealt: dict[str, Any] = {
        field.name: tuple(each[at] for each in value) if isinstance(value, tuple) else value[at]
        for field in fields(record)
        for value in [getattr(record, field.name)]
    }
    return replace(record, **dealt)


def _planed(shape: Shape, designs: Sequence[_Varied]) -> Shape:
    """The outline as it is, then of each design."""
    for zone in zones(shape):
        off = {
            size: np.array([0.0, *(d.step * (zone.name in d.where and d.what in (size, "diameter")) for d in designs)])
            for size in ("thickness", "width")
        }
        shape = PlanedShape(
            base=shape, thickness=off["thickness"], width=off["width"], start=zone.start, stop=zone.stop
        )
    return shape


def _pieces(pieces: Sequence[Piece], designs: Sequence[_Varied]) -> tuple[Piece, ...]:
    """The pieces as they are, then of each design."""
    made = []
    for piece in pieces:
        by = 1 + np.array([0.0, *(d.step * (d.what == "modulus" and _called(piece) in d.where) for d in designs)])
        wood = replace(piece.wood, modulus=piece.wood.modulus * by, shear_modulus=piece.wood.shear_modulus * by)
        made.append(replace(piece, wood=wood))
    return tuple(made)


def _told(row: _Row, now: State, found: State, at: Array) -> Sensitivity:
    """One sensitivity from its designs: of a size a step off and on, then a whole mm; of a modulus less and more."""
    first, last = row.first, row.first + len(row.steps) - 1
    off, on = _one(found, first), _one(found, first + 1)
    whole = row.zone is None or len(row.steps) > 2
    kink = bends = False
    if row.zone is not None:
        kink = bool(np.ptp(at[[0, first, first + 1]]) > JUMP) or _bends(off.ratio, now.ratio, on.ratio)
        bends = _bends(off.governing, now.governing, on.governing)
    return Sensitivity(
        what=row.what,
        zone=row.name,
        per="10 %" if row.zone is None else "mm",
        rate=_difference(on, now) if row.zone is None else _rate(off, now, on, kink=kink, governing_kink=bends),
        less=_one(found, last - 1) if whole else None,
        more=_one(found, last) if whole else None,
        place=float(at[0]),
        place_less=float(at[last - 1]) if whole else None,
        place_more=float(at[last]) if whole else None,
        kink=kink,
        governing_kink=bends,
        usual=row.zone is None or row.what in row.zone.plane,
    )


def _measured(oar: Oar, force: Number, ratio_of: Ratios | None) -> tuple[State, Array]:
    """What oars come to, and the place of the least ratio in the hard start."""
    made = checks(oar, force=force, wanted=1.0)
    ratios, places = (
        np.stack([np.broadcast_to(value, oar.s.shape[:-1]) for value in values])
        for values in ([check.ratio for check in made], [check.place for check in made])
    )
    worst = np.argmin(ratios, axis=0)[None]
    drop, weight, centre = bench_drop(oar), mass(oar), balance(oar)
    state = State(
        drop=drop,
        index=stiffness_index(drop=drop, blade_arm=oar.blade_arm),
        tip_drop=_tip_drop(oar),
        mass=weight,
        balance=centre,
        hand_weight=hand_weight(mass=weight, balance=centre, hand_arm=oar.hand_arm),
        inertia=inertia_about_lock(oar),
        ratio=np.take_along_axis(ratios, worst, 0)[0],
        governing=None if ratio_of is None else np.broadcast_to(ratio_of(oar), oar.s.shape[:-1]),
    )
    return state, np.take_along_axis(places, worst, 0)[0]


def state_of(oar: Oar, *, force: Number, ratio_of: Ratios | None = None) -> State:
    """What an oar comes to.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    force : float or array
        Hard start at the grip centre. [N]
    ratio_of : callable, optional
        Another least ratio. [1]

    Returns
    -------
    State
        Drops, mass, balance, weight in the hand, inertia and least ratio. [SI]

    Notes
    -----
    Source: each as its own function tells.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> float(state_of(oar, force=400.0).drop) == float(bench_drop(oar))
    True
    """
    return _measured(oar, force, ratio_of)[0]


def _tip_drop(oar: Oar) -> Number:
    """Drop under 7 lb near the tip, by the unit load like `bench_drop`; all designs on the same places."""
    shape = oar.shape
    hung, pin, hand = (
        np.asarray(place, dtype=float)[..., None]
        for place in (shape.length - TIP_INSET, shape.inboard, shape.grip_centre)
    )
    lever = (hung - pin) / (pin - hand)
    moment = np.maximum(np.minimum(lever * (oar.s - hand), hung - oar.s), 0.0)
    between = (oar.middle > hand) & (oar.middle < pin)
    shear = between * lever + ((oar.middle > pin) & (oar.middle < hung))
    laminate = oar.laminate
    bent = oar.integral(moment**2 / laminate.bending_stiffness) + oar.integral(shear**2 / laminate.shear_stiffness)
    return TIP_LOAD * bent


def _each(change: Callable[..., Number], *states: State) -> State:
    """A state whose every number is made from those of others; what is None stays so."""
    given = {each.name: [getattr(state, each.name) for state in states] for each in fields(State)}
    made: dict[str, Any] = {
        name: None if any(value is None for value in values) else change(*values) for name, values in given.items()
    }
    return State(**made)


def _one(found: State, number: int) -> State:
    """One design of many."""
    return _each(lambda values: float(values[number]), found)


def _difference(one: State, other: State, per: float = 1.0) -> State:
    """One less the other, over ``per``."""
    return _each(lambda here, there: (here - there) / per, one, other)


def _rate(off: State, now: State, on: State, *, kink: bool, governing_kink: bool) -> State:
    """Change per mm planed off: both sides of what is smooth, toward planing of a ratio that is not."""
    rate, toward = _difference(off, on, 2 * STEP / MM), _difference(off, now, STEP / MM)
    return replace(
        rate,
        ratio=toward.ratio if kink else rate.ratio,
        governing=toward.governing if governing_kink else rate.governing,
    )


def _bends(off: Number | None, now: Number | None, on: Number | None) -> bool:
    """Whether the rates to either side differ."""
    if off is None or now is None or on is None:
        return False
    before, after = float(now - on), float(off - now)
    return abs(after - before) > BEND * max(abs(after), abs(before)) + 1e-9 * abs(float(now))
