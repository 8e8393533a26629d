"""Chooses a rig under limits, and says which limits decide it, what each costs, and what fights where nothing fits.

Every rig on a grid of overhangs, overlaps and lengths is worked out at once. A limit is a margin, met where it is not
negative. Among the rigs that meet them all the one is taken that strains custom least (`strains`).
"""

from __future__ import annotations

import numpy as np

from oarkit.fit.fights import fewest_that_fight, keeping, what_helps
from oarkit.fit.grid import Grid
from oarkit.fit.limits import (
    HAND_AIM,
    STEPS,
    Bounds,
    Candidate,
    Choice,
    FitStation,
    Limits,
    Relaxed,
    overlap_range,
)
from oarkit.fit.strains import catch_aim
from oarkit.rig.station import Rig
from oarkit.rig.waves import blade_arm_for_hand, longest_blade_arm
from oarkit.rower.reach import Posture
from oarkit.rower.sizes import Body
from oarkit.working import Array, Number


def choose(
    station: FitStation,
    *,
    limits: Limits | None = None,
    body: Body | None = None,
    posture: Posture | None = None,
    may_feather: bool = True,
) -> Choice:
    """Choose overhang, overlap and length of a station, as far as they are free.

    Parameters
    ----------
    station : FitStation
        The station and what of its rig is fixed. [record]
    limits : Limits, optional
        What the rig must keep to; the customary ranges otherwise. [record]
    body : Body, optional
        Sizes of the rower; without them thighs, knees, arc and hand height are not looked at. [record]
    posture : Posture, optional
        How the rower sits and swings. [record]
    may_feather : bool, optional
        Where no rig clears the wave with the blade square, look again with the blade feathered. [flag]

    Returns
    -------
    Choice
        The rig, the limits that decide it, the runners-up, and what fights where nothing fits. [record]

    Raises
    ------
    BadDesign
        No oar of the lengths looked at reaches the water from those locks.

    Notes
    -----
    Source: plane geometry for the limits, common practice for the ranges; the measure of strain is a choice of this
    project (see `strains`).

    Examples
    --------
    >>> here = FitStation(beam=0.90, lock_overhang=0.10, seat_above_water=0.08, lock_above_water=0.30,
    ...                   wave_clearance=0.10, blade_length=0.56, blade_width=0.13, grip_centre=0.06)
    >>> found = choose(here)
    >>> found.fits, 0.05 <= found.chosen.overlap <= 0.18, 2.3 <= found.chosen.leverage_ratio <= 2.8
    (True, True, True)
    """
    body = body or Body()
    grid = Grid(station, limits or Limits(), body, posture or Posture())
    pick = _Pick(grid, feathered=False)
    if may_feather and not pick.kept().any():
        flat = _Pick(grid, feathered=True)
        pick = flat if flat.kept().any() or "legs" in fewest_that_fight(pick.margins, grid.limits.told()) else pick
    kept = pick.kept()
    fits = bool(kept.any())
    best = pick.best(kept) if fits else pick.least_short()
    reliefs, both = ((), False) if fits else what_helps(pick.margins, grid.over())
    chosen = pick.candidate(best)
    return Choice(
        chosen=chosen,
        decides=pick.decisions(best) if fits else (),
        runners_up=pick.runners_up(best, kept),
        fights=() if fits else fewest_that_fight(pick.margins, grid.limits.told()),
        reliefs=reliefs,
        both_must_give=both,
        bounds=_bounds(grid.rigs, best, station, body),
        limits=grid.limits,
        overlap_range=_overlap_range(station, grid.limits, chosen),
        feathered=pick.feathered,
        catch_aim=catch_aim(station),
        unlimited=pick.candidate(pick.best(grid.customary())),
        looked_at=grid.count,
    )


class _Pick:
    """Picks among rigs that were worked out at once."""

    def __init__(self, grid: Grid, *, feathered: bool) -> None:
        self.rigs, self.angles, self.beam, self.feathered = grid.rigs, grid.angles, grid.station.beam, feathered
        self.margins = grid.margins(feathered=feathered)
        self.steps = STEPS | {"longest_stowed": max(STEPS["longest_stowed"], grid.length_step)}
        self.aims = grid.strains(feathered=feathered)
        self.strained: Array = np.sum([np.square(aim) for aim in self.aims.values()], axis=0)

    def kept(self) -> Array:
        """Which rigs keep every limit."""
        return keeping(self.margins)

    def best(self, kept: Array) -> int:
        """The rig that strains custom least among those that are let in."""
        return int(np.argmin(np.where(kept, self.strained, np.inf)))

    def least_short(self) -> int:
        """The rig that falls short by the fewest steps, and strains custom least among equals."""
        steps = sum(np.maximum(-margin, 0.0) / STEPS[name] for name, margin in self.margins.items())
        return int(np.argmin(steps + 1e-6 * self.strained))

    def candidate(self, at: int) -> Candidate:
        """One rig as a record."""

        def one(value: Number) -> float:
            return float(np.broadcast_to(value, self.strained.shape)[at])

        rigs = self.rigs
        return Candidate(
            lock_overhang=one((np.asarray(rigs.span) - self.beam) / 2),
            overlap=one(rigs.overlap),
            length=one(rigs.length),
            leverage_ratio=one(rigs.leverage_ratio),
            catch_angle=one(self.angles["catch"]) if "catch" in self.angles else None,
            dip_in_drive=one(rigs.dip_in_drive),
            hand_height_in_drive=one(rigs.hand_height_in_drive),
            thigh_clearance=None if rigs.thigh_clearance is None else one(rigs.thigh_clearance),
            thigh_clearance_feathered=(
                None if rigs.thigh_clearance_feathered is None else one(rigs.thigh_clearance_feathered)
            ),
            strains={name: one(aim) for name, aim in self.aims.items()},
            slack={name: one(margin) for name, margin in self.margins.items()},
        )

    def decisions(self, best: int) -> tuple[Relaxed, ...]:
        """The limits of which one step more would change the choice."""
        found = []
        for name in self.margins:
            other = self.best(keeping(self.margins, relaxed={name: self.steps[name]}))
            if other != best:
                found.append(Relaxed(limit=name, step=self.steps[name], becomes=self.candidate(other)))
        return tuple(found)

    def runners_up(self, best: int, kept: Array, count: int = 4) -> tuple[Candidate, ...]:
        """The next best rigs, each of another length, or of another overlap where the length is fixed."""
        told = {self._key(best)}
        found: list[Candidate] = []
        for at in np.argsort(np.where(kept, self.strained, np.inf), kind="stable"):
            if len(found) == count or not kept[at]:
                break
            if self._key(at) not in told:
                told.add(self._key(at))
                found.append(self.candidate(int(at)))
        return tuple(found)

    def _key(self, at: int) -> float:
        lengths = np.broadcast_to(self.rigs.length, self.strained.shape)
        varied = lengths if np.ptp(lengths) > 0 else np.broadcast_to(self.rigs.overlap, self.strained.shape)
        return round(float(varied[at]), 6)


def _overlap_range(station: FitStation, limits: Limits, chosen: Candidate) -> tuple[float, float] | None:
    if station.overlap is not None:
        return None
    low, high = overlap_range(span=station.beam + 2 * chosen.lock_overhang, told=limits.overlap)
    return float(low), float(high)


def _bounds(rigs: Rig, at: int, station: FitStation, body: Body) -> Bounds:
    hand_arm = float(np.broadcast_to(rigs.hand_arm, np.shape(rigs.length))[at])
    seat = station.lock_above_water - station.seat_above_water
    longest = for_hand = None
    if body.thigh_thickness is not None:
        longest = float(
            longest_blade_arm(
                hand_arm=hand_arm,
                lock_above_water=station.lock_above_water,
                wave_clearance=station.wave_clearance,
                half_height=station.blade_width / 2,
                thigh_thickness=body.thigh_thickness.value,
                lock_above_seat=seat,
            )
        )
    if body.elbow_height is not None:
        for_hand = float(
            blade_arm_for_hand(
                hand_arm=hand_arm,
                lock_above_water=station.lock_above_water,
                blade_width=station.blade_width,
                hand_height=body.elbow_height.value + HAND_AIM,
                lock_above_seat=seat,
            )
        )
    return Bounds(longest=longest, for_hand=for_hand)
