"""What a blade bears: bending from root to tip, a knock on its corner, the water on it as a plate."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from oarkit.oar.build import Oar
from oarkit.oar.mass import mass
from oarkit.oar.pieces import Piece
from oarkit.strength.abuse import PRY_FORCE, pry
from oarkit.strength.along import bending_along
from oarkit.strength.bend import bench_drop
from oarkit.strength.blade import BladeCheck, corner_check, plate_check
from oarkit.strength.cases import KNOCK, KNOCK_ARM, hard_start
from oarkit.strength.hard_start import CUSTOMARY_FORCE, blade_force
from oarkit.working import Array

WISHES = ("bending", "corner", "plate")


@dataclass(frozen=True, slots=True, kw_only=True)
class BladeWishes:
    """Ratios that a blade must have, None for no wish, with the sizes of the loads [N, m].

    Bending from root to tip in prying and in a hard start, the tip's corner under a knock, and the blade as a plate in
    a hard start.
    """

    bending: float | None = 1.5
    corner: float | None = 1.5
    plate: float | None = 1.5
    force: float = CUSTOMARY_FORCE
    pry: float = PRY_FORCE
    knock: float = KNOCK
    arm: float = KNOCK_ARM


@dataclass(frozen=True, slots=True, kw_only=True)
class BladeState:
    """What an oar comes to with a blade: mass and bench drop [kg, m], and its ratios, None where a wood has no strength
    told. ``part`` is nearest to breaking by bending, at ``place`` from the handle end, in ``case``."""

    mass: float
    drop: float
    bending: float
    corner: float | None
    plate: float | None
    part: str
    place: float
    case: str


CUSTOM_WISHES = BladeWishes()


def blade_state(oar: Oar, wishes: BladeWishes = CUSTOM_WISHES) -> BladeState:
    """What an oar comes to with its blade as it is.

    Parameters
    ----------
    oar : Oar
        The oar (scalars). [record]
    wishes : BladeWishes, optional
        The sizes of the loads. [N, m]

    Returns
    -------
    BladeState
        Mass, bench drop and ratios. [record]

    Notes
    -----
    Source: `oarkit.strength.along.bending_along` over the blade, `plate_check`, `corner_check`.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> state = blade_state(oar)
    >>> state.case, state.bending > 1
    ('prying', True)
    """
    rows = [
        (float(np.min(ratio)), piece.kind, float(oar.s[np.argmin(ratio)]), case)
        for piece, case, ratio in _bending(oar, wishes)
    ]
    least, part, place, case = min(rows, key=lambda row: row[0])
    corner, plate = _across(oar, wishes)
    return BladeState(
        mass=float(mass(oar)), drop=float(bench_drop(oar)), bending=least, part=part, place=place, case=case,
        corner=None if corner is None else float(corner.ratio), plate=None if plate is None else float(plate.ratio),
    )  # fmt: skip


def _bending(oar: Oar, wishes: BladeWishes) -> list[tuple[Piece, str, Array]]:
    """For each piece and load its ratios along the blade, endless where it is not bent."""
    on_blade = oar.middle > np.asarray(oar.shape.blade_root)[..., None]
    found = []
    for case in (pry(oar, force=wishes.pry), hard_start(oar, force=wishes.force)):
        for piece, stress in zip(oar.pieces, bending_along(oar, case), strict=True):
            here = np.where(on_blade, stress, 0.0)
            strength = np.broadcast_to(np.asarray(piece.wood.strength)[..., None], here.shape)
            ratio = np.divide(strength, here, out=np.full(here.shape, np.inf), where=here > 0)
            found.append((piece, case.name, ratio))
    return found


def _across(oar: Oar, wishes: BladeWishes) -> tuple[BladeCheck | None, BladeCheck | None]:
    """The tip's corner and the blade as a plate."""
    force = blade_force(force=wishes.force, hand_arm=oar.hand_arm, blade_arm=oar.blade_arm)
    return corner_check(oar, force=wishes.knock, arm=wishes.arm), plate_check(oar, force=force)


def blade_ratios(oar: Oar, wishes: BladeWishes = CUSTOM_WISHES) -> dict[str, Array]:
    """The ratios of one or many blades; those for which a wood has no strength told are left out.

    Parameters
    ----------
    oar : Oar
        The oar, or many. [record]
    wishes : BladeWishes, optional
        The sizes of the loads. [N, m]

    Returns
    -------
    dict of str to array
        Least ratio of "bending", "corner" and "plate". [1]

    Notes
    -----
    Source: as `blade_state`.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> sorted(blade_ratios(oar))
    ['bending', 'corner', 'plate']
    """
    bending = np.min([np.min(ratio, axis=-1) for *_, ratio in _bending(oar, wishes)], axis=0)
    told = {"bending": bending}
    told |= {name: check.ratio for name, check in zip(WISHES[1:], _across(oar, wishes), strict=True) if check}
    return {name: np.asarray(ratio) for name, ratio in told.items()}
