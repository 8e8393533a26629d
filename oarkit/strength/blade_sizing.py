"""Sizes of a blade: centre and edges, edge strips, faces and the piece at the tip, for least mass.

Length and width of the blade are the rig's, the neck is the loom's. What is free: the thickness of the tip in the
middle, that of the edges at root and tip, the width of the last edge strip, the thickness of the last faces, and the
length of the last tip piece, of those that the oar has. The search is that of `oarkit.strength.sizing_search`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np

from oarkit.oar.build import Oar, build_oar
from oarkit.oar.mass import mass
from oarkit.oar.pieces import Kind, extent
from oarkit.oar.shape import OarShape, profile_at
from oarkit.strength.blade import without
from oarkit.strength.blade_state import CUSTOM_WISHES, WISHES, BladeState, BladeWishes, blade_ratios, blade_state
from oarkit.strength.sizing_limits import Missed, drawn
from oarkit.strength.sizing_search import SAME, Measured, Problem, confirmed, on_steps, start_of, what_decides
from oarkit.working import Array, BadDesign, Number, Quantity

__all__ = ["BladeLimits", "BladeSize", "BladeState", "BladeWishes", "blade_state", "size_blade"]

STATIONS = 91  #: that the search has, with some more for every piece
HARDWOOD: tuple[Kind, ...] = ("edge", "face", "tip")  #: pieces whose worth is shown
_PIECES: dict[str, Kind] = {"edge_strip": "edge", "face": "face", "tip_piece": "tip"}
_ALONG = np.concatenate([np.linspace(0.0, 0.75, 41), [0.8, 0.9, 1.0]])  #: of the blade, where edge and centre are met
_CLEAR = np.where(np.isin(_ALONG, (0.75, 1.0)), 0.0, 1e-5)  #: room there, for the outline is curved between [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class BladeLimits:
    """What tools, eye and use leave of a blade [m]: sizes go by the step, lengths of a tip piece by a longer one.

    No edge is thicker than the blade is in the middle, nor thicker toward the tip; no tip is thicker than the neck.
    """

    step: float = 0.0005
    piece_step: float = 0.005
    least_tip: float = 0.006
    most_tip: float = 0.016
    least_edge: float = 0.005
    least_edge_strip: float = 0.004
    least_face: float = 0.0015
    least_tip_piece: float = 0.010
    most_tip_piece: float = 0.080


@dataclass(frozen=True, slots=True, kw_only=True)
class BladeSize:
    """A blade's sizes [m], None for a piece it has not, with what they come to.

    ``decides`` names the wishes and limits that keep it from being lighter. Where it does not fit, it is the nearest
    there is: ``missed`` tells by how much, ``in_the_way`` names the limits of which each, a step less strict, would let
    it come nearer. ``now`` is the oar as it was, ``bare`` the oar with these sizes and without each kind of hardwood,
    and without "all" of them. ``not_checked`` names wishes for which the tables have no strength.
    """

    tip_thickness: float
    edge_at_root: float
    edge_at_tip: float
    edge_strip: float | None
    face: float | None
    tip_piece: float | None
    state: BladeState
    now: BladeState
    fits: bool
    decides: tuple[str, ...] = ()
    missed: tuple[Missed, ...] = ()
    in_the_way: tuple[str, ...] = ()
    not_checked: tuple[str, ...] = ()
    bare: Mapping[str, BladeState] = field(default_factory=dict)


CUSTOM_LIMITS = BladeLimits()


def size_blade(oar: Oar, wishes: BladeWishes = CUSTOM_WISHES, limits: BladeLimits = CUSTOM_LIMITS) -> BladeSize:
    """The lightest blade that keeps every wish and limit, on the builder's steps.

    Parameters
    ----------
    oar : Oar
        An oar (scalars) drawn from sizes; its loom, its pieces and their woods are kept. [record]
    wishes : BladeWishes, optional
        What it must bear. [record]
    limits : BladeLimits, optional
        What tools, eye and use leave. [m]

    Returns
    -------
    BladeSize
        Sizes, what they come to, what decides and what the hardwood buys; where nothing fits, the nearest there is,
        and why. [record]

    Raises
    ------
    BadDesign
        The oar was measured and has no sizes of a blade, or the limits leave no blade at all.

    Notes
    -----
    Source: derived; sequential least squares programming (scipy) for a start, then the steps around it.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> found = size_blade(oar, BladeWishes(bending=1.2, corner=1.0))
    >>> found.fits, found.state.mass < found.now.mass
    (True, True)
    """
    search = _Search(oar, wishes, limits)
    rough, at = search.best()
    found = search.told(at)
    names = what_decides(search.relaxed(rough, found.fits), search.rough, rough)
    return replace(found, decides=names) if found.fits else replace(found, in_the_way=names)


def with_blade(oar: Oar, blade: BladeSize) -> Oar:
    """The oar with a blade of other sizes.

    Parameters
    ----------
    oar : Oar
        An oar drawn from sizes. [record]
    blade : BladeSize
        The blade. [record]

    Returns
    -------
    Oar
        Its loom, boards and lengths as they are. [record]

    Notes
    -----
    Source: as `size_blade`.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> found = size_blade(oar)
    >>> bool(abs(mass(with_blade(oar, found)) - found.state.mass) < 1e-9)
    True
    """
    pieces = list(oar.pieces)
    for index, piece in enumerate(pieces):
        name = next((name for name, kind in _PIECES.items() if kind == piece.kind), None)
        size = None if name is None else getattr(blade, name)
        last = not any(other.kind == piece.kind for other in pieces[index + 1 :])
        if size is not None and last:
            pieces[index] = replace(piece, size=size)
    sizes = {name: getattr(blade, name) for name in ("tip_thickness", "edge_at_root", "edge_at_tip")}
    return build_oar(replace(drawn(oar), **sizes), pieces, oar.leather)


class _Search:
    """The search for one blade: which sizes are free, the problem on few stations, and on all of them."""

    def __init__(self, oar: Oar, wishes: BladeWishes, limits: BladeLimits) -> None:
        self.oar, self.wishes, self.limits, self.shape = oar, wishes, limits, drawn(oar)
        root = float(np.min(self.shape.blade_root))
        self.last = {
            piece.kind: index
            for index, piece in enumerate(oar.pieces)
            if float(np.max(extent(piece, oar.shape)[1])) > root + SAME
        }
        self.free = ["tip_thickness", "edge_at_root", "edge_at_tip"]
        self.free += [name for name, kind in _PIECES.items() if kind in self.last and not self._fixed(kind)]
        self.step = np.array([limits.piece_step if name == "tip_piece" else limits.step for name in self.free])
        self.named = self._named()
        self.count = STATIONS + 6 * len(oar.pieces)
        known = blade_ratios(oar, wishes)
        self.wanted = {name: wish for name in known if (wish := getattr(wishes, name)) is not None}
        self.unknown = tuple(name for name in WISHES if getattr(wishes, name) is not None and name not in known)
        self._buildable()
        self.rough, self.whole = (self._problem(self.named, self.wanted, whole=whole) for whole in (False, True))

    def best(self) -> tuple[Array, Array]:
        """The lightest blade in whole steps, on few stations and on all."""
        guess = np.clip([self._now(name) for name in self.free], self.rough.low, self.rough.high)
        rough = on_steps(self.rough, start_of(self.rough, guess))
        return rough, confirmed(self.rough, self.whole, rough)

    def told(self, at: Array) -> BladeSize:
        """Whole steps as sizes, with what they come to."""
        sizes = dict(zip(self.free, (float(size) for size in at * self.step), strict=True))
        made = self._made((at * self.step)[None], self.named, None, one=True)
        state = blade_state(made, self.wishes)
        missed = tuple(
            Missed(wish=name, wanted=wanted, nearest=float(getattr(state, name)))
            for name, wanted in self.wanted.items()
            if float(getattr(state, name)) / wanted - 1 < -SAME
        )
        return BladeSize(
            edge_strip=sizes.get("edge_strip"),
            face=sizes.get("face"),
            tip_piece=sizes.get("tip_piece"),
            tip_thickness=sizes["tip_thickness"],
            edge_at_root=sizes["edge_at_root"],
            edge_at_tip=sizes["edge_at_tip"],
            state=state,
            now=blade_state(self.oar, self.wishes),
            fits=not missed,
            missed=missed,
            not_checked=self.unknown,
            bare=self._bare(made),
        )

    def relaxed(self, at: Array, fits: bool) -> dict[str, Problem]:
        """The problem without one of the wishes, or with one of the limits close by a step less strict."""
        eased = {}
        if fits:
            for name in self.wanted:
                others = {other: wish for other, wish in self.wanted.items() if other != name}
                eased[name] = self._problem(self.named, others)
        for name, by in self._near(dict(zip(self.free, at * self.step, strict=True))).items():
            eased[name] = self._problem({**self.named, name: self.named[name] + by}, self.wanted)
        return eased

    def _near(self, sizes: Mapping[str, float]) -> dict[str, float]:
        """Limits that are near to a design, and by how much each is eased."""
        step, long_step = self.limits.step, self.limits.piece_step
        lower = {"least_tip": "tip_thickness", "least_edge": "edge_at_tip", "least_edge_strip": "edge_strip",
                 "least_face": "face", "least_tip_piece": "tip_piece"}  # fmt: skip
        upper = {"most_tip": "tip_thickness", "most_edge_strip": "edge_strip", "most_tip_piece": "tip_piece"}
        eased = {"neck": step, "taper": step}
        for limit, size in lower.items():
            by = long_step if size == "tip_piece" else step
            if size in sizes and sizes[size] - self.named[limit] < 2 * by:
                eased[limit] = -by
        for limit, size in upper.items():
            by = long_step if size == "tip_piece" else step
            if size in sizes and self.named[limit] - sizes[size] < 2 * by:
                eased[limit] = by
        return eased

    def _fixed(self, kind: Kind) -> bool:
        """Whether a tip piece was told where it starts, so that its length is not free."""
        return kind == "tip" and self.oar.pieces[self.last[kind]].start is not None

    def _now(self, name: str) -> float:
        """A size as it is."""
        if hasattr(self.shape, name):
            return float(np.max(getattr(self.shape, name)))
        return float(np.max(self.oar.pieces[self.last[_PIECES[name]]].size or 0.0))

    def _named(self) -> dict[str, float]:
        """Every limit by its name; ``taper`` is by how much the edge may thicken toward the tip: not at all."""
        limits, shape = self.limits, self.shape
        return {
            "least_tip": limits.least_tip,
            "most_tip": limits.most_tip,
            "least_edge": limits.least_edge,
            "least_edge_strip": limits.least_edge_strip,
            "least_face": limits.least_face,
            "least_tip_piece": limits.least_tip_piece,
            "neck": float(np.min(shape.neck_thickness)),
            "most_edge_strip": float(np.min(shape.neck_width)) / 2 - limits.step,
            "most_tip_piece": min(limits.most_tip_piece, float(np.min(shape.blade_length)) / 2),
            "taper": 0.0,
        }

    def _ends(self, named: Mapping[str, float]) -> tuple[Array, Array]:
        neck = named["neck"]
        ends = {
            "tip_thickness": (named["least_tip"], min(named["most_tip"], neck)),
            "edge_at_root": (named["least_edge"], neck - self.limits.step),
            "edge_at_tip": (named["least_edge"], neck - self.limits.step),
            "edge_strip": (named["least_edge_strip"], named["most_edge_strip"]),
            "face": (named["least_face"], min(named["most_tip"], neck) / 2),
            "tip_piece": (named["least_tip_piece"], named["most_tip_piece"]),
        }
        low, high = zip(*(ends[name] for name in self.free), strict=True)
        return np.array(low), np.array(high)

    def _buildable(self) -> None:
        """Refuse limits that leave no blade."""
        if not (self.limits.step > 0 and self.limits.piece_step > 0):
            raise BadDesign("the limits leave no blade: the steps of its sizes must be lengths above nought")
        low, high = self._ends(self.named)
        for name, least, most, step in zip(self.free, low, high, self.step, strict=True):
            if np.ceil(least / step - SAME) > np.floor(most / step + SAME):
                raise BadDesign(
                    f"the limits leave no blade: {name.replace('_', ' ')} of {{least}} at least, {{most}} at most, on "
                    "steps of {step}",
                    {key: Quantity(value=float(value), unit="m")
                     for key, value in (("least", least), ("most", most), ("step", step))},
                )  # fmt: skip
        edge = max(self.limits.least_edge, 2 * self.limits.least_face if "face" in self.free else 0.0)
        least_edges = {"tip_thickness": high[:1], "edge_at_root": np.array([edge]), "edge_at_tip": np.array([edge])}
        if np.min(self._room(least_edges, self.named)) < -SAME:
            raise BadDesign(
                "the limits leave no blade: edges of {edge} at least do not go with a tip of {tip} at most",
                {"edge": Quantity(value=edge, unit="m"), "tip": Quantity(value=float(high[0]), unit="m")},
            )

    def _problem(self, named: Mapping[str, float], wanted: Mapping[str, float], *, whole: bool = False) -> Problem:
        stations = None if whole else self.count

        def measure(sizes: Array) -> Measured:
            made = self._made(sizes, named, stations)
            ratios = blade_ratios(made, self.wishes)
            kept = [ratios[name] / wish - 1 for name, wish in wanted.items()]
            return Measured(mass=np.asarray(mass(made)), kept=np.stack(kept, axis=-1) if kept else sizes[:, :0])

        def holds(sizes: Array) -> Array:
            told = dict(zip(self.free, sizes.T, strict=True))
            room = [
                np.min(self._room(told, named), axis=-1),
                told["edge_at_root"] + named["taper"] - told["edge_at_tip"],
            ]
            if "face" in told:
                room.append(told["edge_at_tip"] / 2 - told["face"])
            return np.stack(room, axis=-1)

        low, high = self._ends(named)
        return Problem(low=low, high=high, step=self.step, measure=measure, holds=holds, wishes=tuple(wanted))

    def _room(self, told: Mapping[str, Array], named: Mapping[str, float]) -> Array:
        """By how much the middle is thicker than the edge, along the blade."""
        shape = self._shape(told, named)
        along = np.asarray(shape.blade_root) + _ALONG * np.asarray(shape.blade_length)
        profile = profile_at(shape, along)
        return np.asarray(profile.thickness - profile.edge - _CLEAR)

    def _shape(self, told: Mapping[str, Number], named: Mapping[str, float]) -> OarShape:
        return replace(
            self.shape, neck_thickness=named["neck"],
            tip_thickness=told["tip_thickness"], edge_at_root=told["edge_at_root"], edge_at_tip=told["edge_at_tip"],
        )  # fmt: skip

    def _made(self, sizes: Array, named: Mapping[str, float], count: int | None, *, one: bool = False) -> Oar:
        """Oars with these blades; a search may ask for what cannot be built, and gets the nearest that can."""
        told: dict[str, Any] = dict(zip(self.free, sizes[0] if one else sizes.T, strict=True))
        if not one:
            told["edge_at_tip"] = np.minimum(told["edge_at_tip"], told["tip_thickness"])
            over = np.maximum(-self._room(told, named), 0.0)[..., :-1] / (1 - _ALONG[:-1])
            told["edge_at_root"] = told["edge_at_root"] - np.max(over, axis=-1)
            if "face" in told:
                told["face"] = np.minimum(told["face"], told["edge_at_tip"] / 2)
        pieces = list(self.oar.pieces)
        for name in _PIECES:
            if name in told:
                index = self.last[_PIECES[name]]
                pieces[index] = replace(pieces[index], size=told[name])
        return build_oar(self._shape(told, named), pieces, self.oar.leather, count=count)

    def _bare(self, made: Oar) -> dict[str, BladeState]:
        """The oar without each kind of hardwood, and without all of them."""
        kinds = [kind for kind in HARDWOOD if kind in self.last]
        bare, plain = {}, made
        for kind in kinds:
            bare[str(kind)], plain = blade_state(without(made, kind), self.wishes), without(plain, kind)
        return bare | ({"all": blade_state(plain, self.wishes)} if len(kinds) > 1 else {})
