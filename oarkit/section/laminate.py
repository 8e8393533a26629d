"""Sections made of several woods: stiffness, mass, and the fibres that are stressed most in each piece.

All pieces strain together (the transformed-section rule). Where no piece ends within the thickness, the section falls
into zones across its width that are symmetric about the middle plane, and stiffnesses simply add; where strips or faces
lie in it, `oarkit.section.layers` takes over.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields
from itertools import pairwise
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from oarkit.section import layers
from oarkit.section.layers import Mask, Region
from oarkit.section.profile import Moments, Profile, half_thickness, moments_between
from oarkit.wood.board import Wood
from oarkit.working import Array, Number, formula

SHEAR_FORM_RECTANGLE = 6 / 5  #: Wood Handbook FPL-GTR-282 (2021), eq. 9-4: A' = (5/6) b h
SHEAR_FORM_ROUND = 10 / 9  #: same: A' = (9/40) pi d^2
_SUMS = {
    "axial": ("modulus", "area"), "bending": ("modulus", "bending"), "lateral": ("modulus", "lateral"),
    "shear": ("shear_modulus", "area"), "thin": ("plate_shear_modulus", "bending"), "first": ("modulus", "first"),
    "lateral_first": ("modulus", "lateral_first"),
}  # fmt: skip  # what is summed over the pieces: property of the wood times moment of the section


@dataclass(frozen=True, slots=True, kw_only=True)
class Laminate:
    """Stiffness and mass of laminated sections; arrays over stations.

    ``neutral_axis`` is the height of the neutral axis over the middle plane, aft positive [m]; ``bending_stiffness``
    is about it, ``lateral_stiffness`` about the centre line of the width. ``first_moment`` is the sum of E times first
    moment of all that lies aft of the neutral axis, ``neutral_width`` the width there; ``lateral_first_moment`` the
    same of one side of the centre line, where the section is ``profile.thickness`` thick.

    For each piece: ``fibre_aft`` and ``fibre_forward`` hold the signed distances from the neutral axis to its fibre
    furthest aft and furthest forward, nil where it is absent; ``piece_mass`` its mass per length; ``glue_shear`` the
    greatest E-weighted first moment over width at those of its joints that run parallel to the blade face, nil for
    pieces that have none.

    ``torsion_stiffness`` is a closed form for one wood or thin blades; a layer of another wood in the middle may make
    it 40 % too stiff, cheeks 8 % too limp, and `oarkit.section.torsion` is the one to ask. ``shear_stiffness`` takes
    all pieces as sheared alike, up to twice too stiff where stiff faces lie on a soft core; it is about 1 % of a drop.
    """

    axial_stiffness: Array
    neutral_axis: Array
    bending_stiffness: Array
    lateral_stiffness: Array
    shear_stiffness: Array
    torsion_stiffness: Array
    mass_per_length: Array
    first_moment: Array
    neutral_width: Array
    lateral_first_moment: Array
    fibre_aft: tuple[Array, ...]
    fibre_forward: tuple[Array, ...]
    piece_mass: tuple[Array, ...]
    glue_shear: tuple[Array, ...]

    @property
    def fibre(self) -> tuple[Array, ...]:
        """For each piece, the distance of its worst fibre from the neutral axis, nil where it is absent."""
        pairs = zip(self.fibre_aft, self.fibre_forward, strict=True)
        return tuple(np.maximum(aft, -forward) for aft, forward in pairs)  # aft is never below forward


def laminated(profile: Profile, *, bounds: Sequence[Array], owner: Sequence[Array], woods: Sequence[Wood]) -> Laminate:
    """Stiffness and mass of sections whose zones across the width belong to pieces of different woods.

    Parameters
    ----------
    profile : Profile
        Section shapes at the stations. [m]
    bounds : sequence of array
        Bounds of the zones across the half-width, one more than zones, rising from 0 to 1. [1]
    owner : sequence of array
        For each zone, the index of the piece that it is made of, at each station. [index]
    woods : sequence of Wood
        The wood of each piece. [Pa, kg/m3]

    Returns
    -------
    Laminate
        E A [N], E I about both axes and G A/k [N m2, N], mass per length and worst fibres of each piece. [kg/m, m]

    Notes
    -----
    Source: transformed section, ANC-18 (1944), sec. 3.1330 and 3.1331. Shear form factors from Wood Handbook
    FPL-GTR-282 (2021), eq. 9-4, taken linearly between rectangle and circle; the shear of an
    oar is about 1 % of its drop, so the form hardly matters. Torsion as `torsion_stiffness`.

    Examples
    --------
    >>> from oarkit.section.profile import Profile
    >>> bar = Profile(thickness=np.array([0.04]), width=np.array([0.04]), edge=np.array([0.0]),
    ...               corner=np.array([0.5]), blade_share=np.array([0.0]))
    >>> spruce = Wood(name="spruce", modulus=10e9, shear_modulus=0.6e9, density=430.0, strength=40e6, working=())
    >>> stack = laminated(bar, bounds=[np.array([0.0]), np.array([1.0])], owner=[np.array([0])], woods=[spruce])
    >>> round(float(stack.bending_stiffness[0]))
    1257
    """
    sums = _Sums(profile, woods, _shape(profile), layered=False)
    zones = [
        (number, index, piece_here == index) for number, piece_here in enumerate(owner) for index in range(len(woods))
    ]
    _add_zones(sums, profile, bounds, zones, slice(None))
    return sums.laminate()


def stacked(profile: Profile, *, regions: Sequence[Region], woods: Sequence[Wood]) -> Laminate:
    """Stiffness and mass of sections stacked from pieces, each later one over the earlier ones.

    Parameters
    ----------
    profile : Profile
        Section shapes, stations on the last axis. [m]
    regions : sequence of Region
        What each piece takes up, in the order of laying. [m]
    woods : sequence of Wood
        The wood of each piece. [Pa, kg/m3]

    Returns
    -------
    Laminate
        Stiffnesses, neutral axis, mass, fibres and first moments. [N, N m2, m, kg/m]

    Notes
    -----
    Source: transformed section, ANC-18 (1944), sec. 3.1330 and 3.1331; otherwise as `laminated`. Stations of one
    kind that follow one another go together, so that each is worked by the shortest road.

    Examples
    --------
    >>> bar = Profile(thickness=np.array([0.04]), width=np.array([0.03]), edge=np.array([0.04]),
    ...               corner=np.array([0.0]), blade_share=np.array([0.0]))
    >>> spruce = Wood(name="spruce", modulus=10e9, shear_modulus=0.6e9, density=430.0, strength=40e6, working=())
    >>> ash = Wood(name="ash", modulus=12e9, shear_modulus=1e9, density=650.0, strength=60e6, working=())
    >>> aft = Region(shape="layer", size=0.01, at=0.015)
    >>> stack = stacked(bar, regions=[Region(shape="whole"), aft], woods=[spruce, ash])
    >>> round(float(stack.neutral_axis[0]), 6)  # (12 x 10 x 15 + 10 x 30 x (-5))/(12 x 10 + 10 x 30) mm
    0.000714
    """
    here = [np.asarray(region.here) for region in regions]
    sizes = [np.shape(number) for region in regions for number in (region.size, region.at, region.here)]
    layered = any(region.shape in ("faces", "layer") for region in regions)
    sums = _Sums(profile, woods, np.broadcast_shapes(_shape(profile), *sizes), layered=layered)
    for run in _runs(profile, here):
        section = _part(profile, run)
        present = [
            (index, _cut(region, run)) for index, region in enumerate(regions) if _columns(region.here, run).any()
        ]
        for last in range(len(present) - 1, -1, -1):
            if present[last][1].shape == "whole" and present[last][1].here is True:
                present = present[last:]
                break
        if any(region.shape in ("faces", "layer") for _, region in present):
            layers.add(sums, section, present, run)
        else:
            _add_zones(sums, section, *_zones(section, present), run)
    return sums.laminate()


@formula(
    "G J = 4 G I/(1 + 16 G I/(G A U^2))",
    unit="N m2",
    source="Saint-Venant and Griffith, textbook, from memory",
    where={"thin": "4 G I [N m2]", "shear": "G A [N]", "width": "U [m]"},
)
def torsion_stiffness(*, thin: Array, shear: Array, width: Array) -> Array:
    """Stiffness in torsion of a solid section.

    Parameters
    ----------
    thin : array
        Sum of 4 G I of the pieces, the stiffness of a thin section. [N m2]
    shear : array
        Sum of G A of the pieces. [N]
    width : array
        Length of the middle line of the section. [m]

    Returns
    -------
    array
        G J. [N m2]

    Notes
    -----
    Source: J = 4 I/(1 + 16 I/(A U^2)), textbook formula of Saint-Venant and Griffith for solid sections, from memory
    (Roark's tables). Exact for the ellipse, pi t^3 w^3/(16 (t^2 + w^2)), and for a thin blade, where it is
    the integral of t^3/3; a square comes out 1.6 % too stiff. With several woods each counts with its own G.

    Examples
    --------
    >>> import math
    >>> t, w = 0.03, 0.05  # an ellipse, G = 1 Pa
    >>> made = torsion_stiffness(thin=4 * math.pi * w * t**3 / 64, shear=math.pi * w * t / 4, width=w)
    >>> round(float(made / (math.pi * t**3 * w**3 / (16 * (t**2 + w**2)))), 9)
    1.0
    """
    return thin / (1 + 4 * thin / (shear * width**2))


Part: TypeAlias = tuple[int, Moments, Mask]  #: index of a piece, moments of what it takes up, where it is there


class _Sums:
    """Collects the parts of a laminate while its sections are worked, stretch by stretch.

    Where no piece ends within the thickness, the neutral axis is the middle plane all along and no joint is parallel to
    it, so that nothing is written there.
    """

    def __init__(self, profile: Profile, woods: Sequence[Wood], shape: tuple[int, ...], *, layered: bool) -> None:
        self.profile, self.layered = profile, layered
        self.known = [
            {
                name: np.asarray(getattr(wood, name), dtype=float)[..., None]
                for name in ("modulus", "shear_modulus", "plate_shear_modulus", "density")
            }
            for wood in woods
        ]
        shape = np.broadcast_shapes(shape, *(np.shape(value) for wood in self.known for value in wood.values()))
        self.shape = shape
        self.total = {name: np.empty(shape) for name in (*_SUMS, "mass")}
        self.aft, self.forward, self.piece_mass = ([np.zeros(shape) for _ in woods] for _ in range(3))
        if layered:
            self.neutral_axis, self.neutral_width = np.zeros(shape), np.zeros(shape)
            self.glue = [np.zeros(shape) for _ in woods]
        else:
            nil = np.broadcast_to(0.0, shape)
            self.neutral_axis, self.neutral_width = nil, np.broadcast_to(profile.width, shape)
            self.glue = [nil for _ in woods]

    def put(self, run: slice, parts: Sequence[Part]) -> None:
        """Sum the parts of a stretch over its pieces, each with the share of it that is there."""
        woods = [
            self.known[index] if share is True else {name: value * share for name, value in self.known[index].items()}
            for index, _, share in parts
        ]
        for name, (value, moment) in _SUMS.items():
            into = self.total[name][..., run]
            for number, (wood, (_, moments, _)) in enumerate(zip(woods, parts, strict=True)):
                amount = getattr(moments, moment)
                if number == 0:  # written in place, which saves a pass over many designs
                    np.multiply(wood[value], amount, out=into)
                else:
                    into += wood[value] * amount
        whole = self.total["mass"][..., run]
        whole[...] = 0.0
        for wood, (index, moments, _) in zip(woods, parts, strict=True):
            mass = wood["density"] * moments.area
            whole += mass
            self.piece_mass[index][..., run] += mass

    def laminate(self) -> Laminate:
        """The finished record."""
        profile, total = self.profile, self.total
        round_share = (1 - profile.blade_share) * 2 * profile.corner
        form = SHEAR_FORM_RECTANGLE + (SHEAR_FORM_ROUND - SHEAR_FORM_RECTANGLE) * round_share
        return Laminate(
            axial_stiffness=total["axial"],
            neutral_axis=self.neutral_axis,
            bending_stiffness=total["bending"],
            lateral_stiffness=total["lateral"],
            shear_stiffness=total["shear"] / form,
            torsion_stiffness=torsion_stiffness(thin=4 * total["thin"], shear=total["shear"], width=profile.width),
            mass_per_length=total["mass"],
            first_moment=total["first"],
            neutral_width=self.neutral_width,
            lateral_first_moment=total["lateral_first"],
            fibre_aft=tuple(self.aft),
            fibre_forward=tuple(self.forward),
            piece_mass=tuple(self.piece_mass),
            glue_shear=tuple(self.glue),
        )


_Zone: TypeAlias = tuple[int, int, Mask]  # its number from the centre line, index of the piece, where it is there


def _add_zones(sums: _Sums, section: Profile, bounds: Sequence[Number], zones: Sequence[_Zone], run: slice) -> None:
    """Add zones that go through the whole thickness: neutral axis in the middle plane."""
    moments = moments_between(section, bounds)
    parts: list[Part] = []
    for number, index, share in zones:
        if share is not True and not np.any(share):
            continue
        parts.append((index, moments[number], share))
        worst = _tallest(section, bounds[number], bounds[number + 1])
        aft = sums.aft[index][..., run]
        np.maximum(aft, worst if share is True else worst * share, out=aft)
    sums.put(run, parts)
    for index in {index for index, _, _ in parts}:
        np.negative(sums.aft[index][..., run], out=sums.forward[index][..., run])
    if sums.layered:
        sums.neutral_width[..., run] = section.width


def _tallest(section: Profile, inner: Number, outer: Number) -> Array:
    """Half-thickness at the inner side of a zone, nil where the zone has no width."""
    if np.ndim(inner) == 0 and inner == 0.0:
        middle = section.thickness / 2
        return middle if np.ndim(outer) == 0 else middle * (np.asarray(outer) > 0.0)
    return half_thickness(section, np.asarray(inner)) * (np.asarray(outer) > inner)


def _zones(section: Profile, present: Sequence[tuple[int, Region]]) -> tuple[list[Number], list[_Zone]]:
    """Bounds of the zones across the half-width, and the piece that each is made of, where none ends in thickness."""
    cuts = {index: layers.bound(section, region) for index, region in present if region.shape in ("sides", "middle")}
    bounds: list[Number] = [0.0, *_in_order(list(cuts.values())), 1.0]
    zones: list[_Zone] = []
    for number, (inner, outer) in enumerate(pairwise(bounds)):
        bare: Mask = True
        for index, region in reversed(present):
            inside = _reaches(region, cuts.get(index), inner, outer, alone=len(cuts) == 1)
            share = layers.both(layers.both(inside, region.here), bare)
            if share is False:
                continue
            zones.append((number, index, share))
            bare = False if share is True else layers.both(bare, ~np.asarray(share))
    return bounds, zones


def _reaches(region: Region, cut: Number | None, inner: Number, outer: Number, *, alone: bool) -> Mask:
    """Whether a piece covers a zone across the width; ``alone`` where its bound is the only one."""
    if cut is None:
        return True
    if alone:
        return (inner is cut) if region.shape == "sides" else (outer is cut)
    covered: Mask = inner >= cut - 1e-12 if region.shape == "sides" else outer <= cut + 1e-12
    return covered


def _in_order(cuts: list[Number]) -> list[Number]:
    return list(np.sort(np.stack(np.broadcast_arrays(*cuts)), axis=0)) if len(cuts) > 1 else cuts


def _runs(profile: Profile, here: Sequence[NDArray[np.bool_]]) -> Iterator[slice]:
    """Stretches of stations over which the family of the section stays, and so does what lies in it."""
    sloped = profile.blade_share > 0
    if sloped.ndim and sloped.shape[-1] > 1:  # the very root of the blade goes with what is outboard of it
        sloped[..., :-1] |= sloped[..., 1:]
    families = (profile.blade_share < 1, sloped)
    signs = [given for given in (*families, *here) if np.ndim(given) and given.shape[-1] > 1]
    count = _shape(profile)[-1]
    changes = np.zeros(count - 1, dtype=bool)
    for sign in signs:
        changed = sign[..., 1:] != sign[..., :-1]
        changes |= changed if changed.ndim == 1 else changed.any(axis=tuple(range(changed.ndim - 1)))
    ends = (np.flatnonzero(changes) + 1).tolist()
    for start, stop in pairwise([0, *ends, count]):
        yield slice(start, stop)


def _columns(value: Any, run: slice) -> Any:
    """The stations of a run, of a value that may be the same for all stations."""
    given = np.asarray(value)
    return given[..., run] if given.ndim and given.shape[-1] > 1 else given


def _shape(profile: Profile) -> tuple[int, ...]:
    return np.broadcast_shapes(*(np.shape(getattr(profile, field.name)) for field in fields(Profile)))


def _part(profile: Profile, run: slice) -> Profile:
    return Profile(**{field.name: _columns(getattr(profile, field.name), run) for field in fields(Profile)})


def _cut(region: Region, run: slice) -> Region:
    here = _columns(region.here, run)
    return Region(
        shape=region.shape,
        size=_columns(region.size, run),
        at=_columns(region.at, run),
        here=True if here.all() else here,
    )
