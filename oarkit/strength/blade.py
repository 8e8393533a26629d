"""Local checks of the blade across its grain: a plate under the water's pressure, and the corner of its tip knocked.

Wood splits across the grain where it is thin or weak, so every place across the half-width is looked at: which pieces
lie there, how thick they are, and what they bear. Where layers of several woods lie over one another, the whole
thickness counts as the weakest of them, or a layer that is laid with its grain across carries alone, whichever bears
more.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from oarkit.oar.build import Oar, build_oar
from oarkit.oar.mass import blade_area
from oarkit.oar.pieces import Kind, Piece, extent, regions
from oarkit.oar.shape import Stations
from oarkit.section.layers import Mask, Region, bound, covers
from oarkit.section.profile import Profile, half_thickness
from oarkit.strength.cases import CORNER_WIDTH
from oarkit.strength.local import corner_stress, plate_stress
from oarkit.wood.board import Wood
from oarkit.working import Array, Number

PLACES = 9  #: across the half-width, besides those where another wood begins
_EVEN = np.linspace(0.0, 1.0, PLACES + 1)[:-1]  #: not at the edge itself, where nothing hangs out
_BESIDE = 1e-9  #: just inside the next wood, as a share of the half-width
_THIN = 1e-9  #: a layer thinner than that is none [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class BladeCheck:
    """Where a blade comes nearest to splitting: stress and strength across its grain [Pa], their ratio, the place from
    the handle end and off the spine [m], and the wood; arrays over designs."""

    stress: Number
    strength: Number
    ratio: Number
    place: Number
    off_spine: Number
    wood: Any


def plate_check(oar: Oar, *, force: Number) -> BladeCheck | None:
    """The blade as a plate: the water presses evenly on it, and each side hangs out from the spine.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    force : float or array
        Of the water on the blade. [N]

    Returns
    -------
    BladeCheck or None
        The worst place of the blade; None where the tables have no strength across the grain for a wood in it. [Pa]

    Notes
    -----
    Source: statics, `oarkit.strength.local.plate_stress`, with the thickness of the place itself.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bool(plate_check(oar, force=160.0).ratio > 2)
    True
    """
    root = _column(oar.shape.blade_root)
    designs = np.broadcast_shapes(oar.s.shape[:-1], np.shape(force))
    cut = _cut(oar, _EVEN.reshape(-1, *[1] * len(designs), 1), start=oar.shape.blade_root)
    overhang = (1 - cut.eta) * cut.profile.width / 2
    stress = plate_stress(force=_column(force), area=_column(blade_area(oar)), overhang=overhang, thickness=cut.thick)
    weakest = _weakest(cut)
    if weakest is None:
        return None
    layers = [_alone(cut, index) for index in range(len(oar.pieces)) if len(cut.owner) > 1]
    return _worst(cut, np.where(cut.middle > root, stress, 0.0), [weakest, *(each for each in layers if each)])


def corner_check(oar: Oar, *, force: Number, arm: Number) -> BladeCheck | None:
    """The corner of the tip under a knock, from the spine out to where it strikes.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    force : float or array
        On the corner, square to the blade. [N]
    arm : float or array
        From the spine to where it strikes, no further than the tip is wide. [m]

    Returns
    -------
    BladeCheck or None
        The worst place of the tip; None where the tables have no strength across the grain for a wood in it. [Pa]

    Notes
    -----
    Source: statics, `oarkit.strength.local.corner_stress`, 60 mm of blade sharing the load; a piece shorter than that
    shares with its own length, or else the weakest wood in the 60 mm counts for all of it.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bare = without(oar, "tip")
    >>> bool(corner_check(bare, force=150.0, arm=0.04).ratio < 1 < corner_check(oar, force=150.0, arm=0.04).ratio)
    True
    """
    designs = np.broadcast_shapes(oar.s.shape[:-1], np.shape(force), np.shape(arm))
    half = oar.profile.width[..., -1:] / 2
    reach = np.minimum(_column(arm), half)
    share = np.broadcast_to(reach / half, (*designs, 1))
    cut = _cut(oar, np.multiply.outer(_EVEN, share), start=np.subtract(oar.shape.length, CORNER_WIDTH))
    off = cut.eta * cut.profile.width / 2
    last = (cut.s >= _column(oar.shape.length) - CORNER_WIDTH - _THIN) & (off < reach)
    weakest = _weakest(cut, among=last)
    if weakest is None:
        return None
    tip = cut.at_tip()
    arms = np.maximum(reach - off[..., -1:], 0.0)
    stress = np.asarray(corner_stress(thickness=tip.thick, force=_column(force), arm=arms))
    whole = _Bears(
        strength=np.min(weakest.strength, axis=-1, keepdims=True), share=np.ones(()),
        owner=np.take_along_axis(weakest.owner, np.argmin(weakest.strength, axis=-1, keepdims=True), -1),
    )  # fmt: skip
    caps = [_alone(tip, index, whole=True) for index in range(len(oar.pieces))]
    shared = [
        replace(cap, share=cap.share * _column(np.minimum(_long(oar, piece) / CORNER_WIDTH, 1.0)))
        for piece, cap in zip(oar.pieces, caps, strict=True)
        if cap
    ]
    return _worst(tip, stress, [whole, *shared])


def without(oar: Oar, kind: Kind) -> Oar:
    """The same oar without its pieces of one kind, to tell what they buy.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    kind : str
        "tip", "edge", "face" ... [text]

    Returns
    -------
    Oar
        Outline as it was, the loom in their place. [record]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> [piece.kind for piece in without(oar, "tip").pieces]
    ['loom', 'edge']
    """
    kept = [piece for piece in oar.pieces if piece.kind != kind]
    return oar if len(kept) == len(oar.pieces) else build_oar(oar.shape, kept, oar.leather)


# Columns across the half-width


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cut:
    """A stretch of the oar cut into columns across the half-width: places on the first axis, stations on the last.

    ``levels`` bound the layers of every column and ``owner`` tells whose each is, both with layers on a further first
    axis; ``owner`` is -1 for a layer of no thickness.
    """

    pieces: tuple[Piece, ...]
    s: Array
    middle: Array
    profile: Profile
    eta: Array
    levels: Array
    owner: NDArray[np.int_]

    @property
    def thick(self) -> Array:
        """Thickness of the blade at every place."""
        through: Array = self.levels[-1] - self.levels[0]
        return through

    def at_tip(self) -> _Cut:
        """The last station alone."""
        return replace(
            self, s=self.s[..., -1:], middle=self.middle[..., -1:], profile=_run(self.profile, slice(-1, None)),
            eta=self.eta[..., -1:], levels=self.levels[..., -1:], owner=self.owner[..., -1:],
        )  # fmt: skip


def _column(value: Number) -> Array:
    return np.asarray(value, dtype=float)[..., None]


def _run(record: Profile, run: slice) -> Profile:
    return Profile(**{field.name: getattr(record, field.name)[..., run] for field in fields(record)})


def _long(oar: Oar, piece: Piece) -> Number:
    """How far a piece reaches back from the tip."""
    start, _ = extent(piece, oar.shape)
    return np.subtract(oar.shape.length, start)


def _cut(oar: Oar, even: Array, *, start: Number) -> _Cut:
    """Columns at even places and just inside every wood that begins across the half-width, from a place to the tip."""
    first = int(np.min(np.argmax(oar.s >= _column(start) - _THIN, axis=-1)))
    run = slice(first, None)
    laid = Stations(s=oar.s[..., run], weight=oar.weight[..., run], middle=oar.middle[..., run])
    profile = _run(oar.profile, run)
    extents = [extent(piece, oar.shape) for piece in oar.pieces]
    taken = regions(oar.pieces, extents, laid)
    begins = [
        np.minimum(bound(profile, region) + _BESIDE, 1 - _BESIDE) for region in taken
        if region.shape in ("sides", "middle")
    ]  # fmt: skip
    shape = np.broadcast_shapes(even.shape[1:], laid.s.shape)
    eta = np.concatenate(
        [np.broadcast_to(even, (len(even), *shape)), *(np.broadcast_to(at, (1, *shape)) for at in begins)]
    )
    levels = _levels(taken, half_thickness(profile, eta))
    return _Cut(
        pieces=oar.pieces, s=laid.s, middle=laid.middle, profile=profile, eta=eta, levels=levels,
        owner=_owners(profile, taken, eta, levels),
    )  # fmt: skip


def _levels(taken: list[Region], half: Array) -> Array:
    """Bounds of the layers in every column, rising on the first axis."""
    levels = [-half, half]
    for region in taken:
        if region.shape == "faces":
            inside = np.maximum(half - region.size, 0.0)
            levels += [-inside, inside]
        elif region.shape == "layer":
            levels += [np.clip(region.at + sign * np.asarray(region.size) / 2, -half, half) for sign in (-1, 1)]
    stack = np.stack(levels)
    return stack if len(levels) == 2 else np.sort(stack, axis=0)


def _owners(profile: Profile, taken: list[Region], eta: Array, levels: Array) -> NDArray[np.int_]:
    """Whose each layer of every column is: a later piece lies over an earlier one."""
    z = (levels[1:] + levels[:-1]) / 2
    owner = np.full(z.shape, -1)
    for index, region in enumerate(taken):
        owner = np.where(covers(profile, region, eta, levels[-1], z) & region.here, index, owner)
    return np.where(np.diff(levels, axis=0) > _THIN, owner, -1)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bears:
    """What bears at every place: strength across the grain, section modulus over that of the whole thickness, whose."""

    strength: Array
    share: Array
    owner: NDArray[np.int_]


def _weakest(cut: _Cut, among: Mask = True) -> _Bears | None:
    """The whole thickness, taken as the weakest wood in it; None where a wood among them has no strength told."""
    strength = np.full(cut.owner.shape, np.inf)
    for index, piece in enumerate(cut.pieces):
        own = cut.owner == index
        if piece.wood.splitting is not None:
            strength = np.where(own, _column(piece.wood.splitting), strength)
        elif np.any(own & among):
            return None
    least = np.argmin(strength, axis=0)[None]
    return _Bears(
        strength=np.where(among, np.take_along_axis(strength, least, 0)[0], np.inf),
        share=np.ones(()),
        owner=np.take_along_axis(cut.owner, least, 0)[0],
    )


def _alone(cut: _Cut, index: int, *, whole: bool = False) -> _Bears | None:
    """A piece that carries alone where it is laid across, or, if wanted, where it fills the whole thickness."""
    wood = cut.pieces[index].wood
    own = cut.owner == index
    if wood.splitting is None or not np.any(own) or not (whole or np.any(_is_across(wood))):
        return None
    share = _share(cut, own) if len(cut.owner) > 1 else own[0] * 1.0
    counts = _is_across(wood) if not whole else _is_across(wood) | (share > 1 - _BESIDE)
    if not np.any(counts):
        return None
    return _Bears(
        strength=np.broadcast_to(_column(wood.splitting), share.shape),
        share=np.where(counts, share, 0.0),
        owner=np.full(share.shape, index),
    )


def _is_across(wood: Wood) -> NDArray[np.bool_]:
    """Whether a wood is laid with its grain across the oar: it then bears more against splitting than along."""
    return np.asarray(_column(0.0 if wood.splitting is None else wood.splitting) > _column(wood.strength))


def _share(cut: _Cut, own: NDArray[np.bool_]) -> Array:
    """Section modulus of a piece's layers about their own middle, over that of the whole thickness."""
    low, high = cut.levels[:-1], cut.levels[1:]
    step, both = own * (high - low), high + low
    area, first = np.sum(step, axis=0), np.sum(step * both, axis=0) / 2
    second = np.sum(step * (both * both - high * low), axis=0) / 3
    middle = np.divide(first, area, out=np.zeros_like(first), where=area > 0)
    far = np.max(own * np.maximum(np.abs(high - middle), np.abs(low - middle)), axis=0)
    modulus = np.divide(second - middle**2 * area, far, out=np.zeros_like(far), where=far > 0)
    return np.asarray(np.minimum(6 * modulus / cut.thick**2, 1.0))


def _worst(cut: _Cut, stress: Array, bears: list[_Bears]) -> BladeCheck:
    """The place where the best of what bears is nearest to its strength."""
    shape = np.broadcast_shapes(cut.eta.shape, stress.shape, *(each.strength.shape for each in bears))
    off = cut.eta * cut.profile.width / 2
    flat = [
        [_last(each, shape) for each in (bear.strength, bear.share, bear.owner)] for bear in bears
    ]  # strength, share and owner of each way to bear, over places and stations
    pressed = _last(stress, shape)
    borne = np.max([strength * share for strength, share, _ in flat], axis=0)
    ratio = np.divide(borne, pressed, out=np.full(pressed.shape, np.inf), where=pressed > 0)
    at = np.argmin(ratio, axis=-1)[..., None]

    def there(values: Any) -> Any:
        return np.take_along_axis(values, at, -1)[..., 0][()]

    ways = np.stack([[there(each) for each in way] for way in flat])
    best = np.argmax(ways[:, 0] * ways[:, 1], axis=0)[None, None]
    strength, share, owner = np.take_along_axis(ways, np.broadcast_to(best, (1, *ways.shape[1:])), 0)[0]
    names = np.array([piece.wood.name for piece in cut.pieces])[owner.astype(int)]
    return BladeCheck(
        stress=there(pressed) / share, strength=strength, ratio=there(ratio), place=there(_last(cut.s, shape)),
        off_spine=there(_last(off, shape)), wood=str(names) if names.ndim == 0 else names,
    )  # fmt: skip


def _last(values: Any, shape: tuple[int, ...]) -> Any:
    """Values of a shape, with places and stations together on the last axis."""
    moved = np.moveaxis(np.broadcast_to(values, shape), 0, -1)
    return moved.reshape(*moved.shape[:-2], -1)
