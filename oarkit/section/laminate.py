"""Sections made of several woods: stiffness, mass and the fibre that is stressed most in each piece.

A section is cut across its width into zones, centre zone first; every zone of every station belongs to one
piece. All pieces strain together (the transformed-section rule), and since every zone is symmetric about the
neutral axis, stiffnesses simply add.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from oarkit.section.profile import Profile, half_thickness, zone_moments
from oarkit.wood.board import Wood
from oarkit.working import Array

SHEAR_FORM_RECTANGLE = 6 / 5  #: Wood Handbook FPL-GTR-282 (2021), eq. 9-4: A' = (5/6) b h
SHEAR_FORM_ROUND = 10 / 9  #: same: A' = (9/40) pi d^2


@dataclass(frozen=True, slots=True, kw_only=True)
class Laminate:
    """Stiffness and mass of laminated sections; arrays over stations.

    ``fibre`` holds, for each piece, the distance of its worst fibre from the neutral axis, nil where it is absent;
    ``piece_mass`` the mass per length of each piece.
    """

    axial_stiffness: Array
    bending_stiffness: Array
    lateral_stiffness: Array
    shear_stiffness: Array
    mass_per_length: Array
    fibre: tuple[Array, ...]
    piece_mass: tuple[Array, ...]


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
        E A [N], E I about both axes and G A/k [N m2, N], mass per length and worst fibre of each piece. [kg/m, m]

    Notes
    -----
    Source: transformed section, ANC-18 (1944), sec. 3.1330 and 3.1331. Shear form factors from Wood Handbook
    FPL-GTR-282 (2021), eq. 9-4, taken linearly between rectangle and circle; the shear of an
    oar is about 1 % of its drop, so the form hardly matters.

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
    nil = np.zeros_like(profile.thickness)
    total = dict.fromkeys(("axial", "bending", "lateral", "shear", "mass"), nil)
    fibre = [nil for _ in woods]
    piece_mass = [nil for _ in woods]
    round_share = (1 - profile.blade_share) * 2 * profile.corner
    form = SHEAR_FORM_RECTANGLE + (SHEAR_FORM_ROUND - SHEAR_FORM_RECTANGLE) * round_share
    for inner, outer, piece_here in zip(bounds[:-1], bounds[1:], owner, strict=True):
        zone = zone_moments(profile, inner, outer)
        worst = np.where(outer > inner, half_thickness(profile, inner), 0.0)
        for index, wood in enumerate(woods):
            here = piece_here == index
            modulus, shear, density = (
                np.asarray(v)[..., None] for v in (wood.modulus, wood.shear_modulus, wood.density)
            )
            for key, amount in (
                ("axial", modulus * zone.area),
                ("bending", modulus * zone.bending),
                ("lateral", modulus * zone.lateral),
                ("shear", shear * zone.area / form),
                ("mass", density * zone.area),
            ):
                total[key] = total[key] + here * amount
            piece_mass[index] = piece_mass[index] + here * density * zone.area
            fibre[index] = np.maximum(fibre[index], here * worst)
    return Laminate(
        axial_stiffness=total["axial"],
        bending_stiffness=total["bending"],
        lateral_stiffness=total["lateral"],
        shear_stiffness=total["shear"],
        mass_per_length=total["mass"],
        fibre=tuple(fibre),
        piece_mass=tuple(piece_mass),
    )
