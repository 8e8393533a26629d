"""Every rig that a station leaves open, worked out at once: how far inside each limit, how far from custom."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from oarkit.fit.limits import (
    APART_AIM,
    APART_WIDTH,
    BEYOND,
    CATCH_WIDTH,
    CROSSED_AIM,
    CROSSED_WIDTH,
    DIP_WIDTH,
    EASY_DIP,
    HAND_AIM,
    HAND_WIDTH,
    LENGTHS,
    OVERHANG_WIDTH,
    OVERHANGS,
    RATIO_WIDTH,
    STEP,
    FitStation,
    Limits,
    overlap_range,
)
from oarkit.rig.height import BLADE_COVER, CLOTHING, HALF_FIST
from oarkit.rig.station import CUSTOMARY_RATIO, INCH, Rig, rig_from_station
from oarkit.rower.reach import Posture
from oarkit.rower.seated import seat_rower
from oarkit.rower.sizes import Body
from oarkit.stroke import arc
from oarkit.working import Array, BadDesign, Number

SAME = 1e-9  #: a limit is kept by what lies so little beyond it, in its own unit
NEARLY = 0.999  #: of the arm, at which a hand out of reach is held so that the numbers stay numbers


def strains(
    rigs: Rig, *, catch_sine: Number | None = None, catch_aim: Number = arc.IDEAL_CATCH, elbow: Number | None = None
) -> dict[str, Array]:
    """How far rigs lie from each aim of custom, counted in that aim's own tolerance.

    Parameters
    ----------
    rigs : Rig
        Rigs as arrays. [record]
    catch_sine : array, optional
        Reach at the catch over the hand arm in plan, where the reach is known; above 1 it goes beyond the oar's
        circle. [1]
    catch_aim : float, optional
        What is aimed at: 60°, or less where lock or tholes stop the oar before. [rad]
    elbow : float, optional
        Underside of the elbow above the seat, where known. [m]

    Returns
    -------
    dict
        Aim to distance, positive where the rig has more; a rig is chosen that makes the sum of squares least. [1]

    Notes
    -----
    Source: the aims are common practice (ratio 18/7 ± 0.15, handles crossed by 4 in ± 50 mm or a gap of 50 ± 25 mm,
    catch 60 − 10°, counted in its sine, hand 100 ± 40 mm over the elbow, dip up to 15°, then 5°); that they
    weigh alike is a choice of this project.

    Examples
    --------
    >>> rig = rig_from_station(beam=1.0, seat_above_water=0.08, lock_above_water=0.30, overlap=4 * INCH,
    ...                        leverage_ratio=18 / 7 + 0.15, round_length=None)
    >>> {aim: round(abs(float(off)), 3) for aim, off in strains(rig).items() if aim != "dip_in_drive"}
    {'leverage_ratio': 1.0, 'overlap': 0.0}
    """
    crossed = np.asarray(rigs.overlap) > 0
    aim, width = np.where(crossed, CROSSED_AIM, APART_AIM), np.where(crossed, CROSSED_WIDTH, APART_WIDTH)
    parts: dict[str, Number] = {
        "leverage_ratio": (rigs.leverage_ratio - CUSTOMARY_RATIO) / RATIO_WIDTH,
        "overlap": (rigs.overlap - aim) / width,
        "dip_in_drive": np.maximum(rigs.dip_in_drive - EASY_DIP, 0.0) / DIP_WIDTH,
    }
    if catch_sine is not None:
        width_of_sine = np.sin(catch_aim) - np.sin(catch_aim - CATCH_WIDTH)
        parts["catch_angle"] = (catch_sine - np.sin(catch_aim)) / width_of_sine
    if elbow is not None:
        parts["hand_height"] = (rigs.hand_height_in_drive - elbow - HAND_AIM) / HAND_WIDTH
    return dict(zip(parts, (np.asarray(part, float) for part in np.broadcast_arrays(*parts.values())), strict=True))


def catch_aim(station: FitStation) -> float:
    """Sweep angle aimed at in the catch: 60°, or less where lock or tholes stop the oar before.

    Parameters
    ----------
    station : FitStation
        The station. [record]

    Returns
    -------
    float
        The angle. [rad]

    Notes
    -----
    Source: common practice, an ideal arc of 60 + 35°.

    Examples
    --------
    >>> here = FitStation(beam=0.9, seat_above_water=0.08, lock_above_water=0.3, wave_clearance=0.1, blade_length=0.56,
    ...                   blade_width=0.13, grip_centre=0.06, catch_limit=0.8)
    >>> catch_aim(here)
    0.8
    """
    return arc.IDEAL_CATCH if station.catch_limit is None else min(arc.IDEAL_CATCH, station.catch_limit)


class Grid:
    """Every rig that a station leaves open, with the angles of its stroke; ``limits`` are those that hold for it."""

    def __init__(self, station: FitStation, limits: Limits, body: Body, posture: Posture) -> None:
        self.station, self.body, self.limits = station, body, limits
        self.rigs = _rigs(station, self.limits, body)
        self.angles = _angles(self.rigs, station, body, posture)
        self.count = int(np.size(self.rigs.length))
        lengths = np.unique(np.round(self.rigs.length, 6))
        self.length_step = round(float(np.max(np.diff(lengths))), 6) if len(lengths) > 1 else 0.0

    def strains(self) -> dict[str, Array]:
        """Distance of every rig from each aim: those of custom, and pins not far out."""
        elbow = self.body.elbow_height
        parts = strains(
            self.rigs,
            catch_sine=self.angles.get("catch_sine"),
            catch_aim=catch_aim(self.station),
            elbow=None if elbow is None else elbow.value,
        )
        if self.station.lock_overhang is None:
            overhang = (np.asarray(self.rigs.span) - self.station.beam) / 2
            parts["lock_overhang"] = overhang / OVERHANG_WIDTH
        return parts

    def customary(self) -> Array:
        """Which rigs have the overlap that custom asks of their span; all, where the overlap is given."""
        if self.station.overlap is not None:
            return np.ones(self.count, dtype=bool)
        return np.asarray(_within(self.rigs.overlap, overlap_range(span=self.rigs.span)) >= -SAME)

    def margins(self, *, feathered: bool) -> dict[str, Array]:
        """How far inside each limit every rig lies; negative where it does not keep it."""
        rigs, limits, station, angles = self.rigs, self.limits, self.station, self.angles
        hand = rigs.hand_height_in_recovery_feathered if feathered else rigs.hand_height_in_recovery
        over = np.asarray(hand) - HALF_FIST - CLOTHING
        margins: dict[str, Number] = {}
        tops = [angles["knee_top"]] if "knee_top" in angles else []
        if self.body.thigh_thickness is not None:
            tops.append(np.asarray(self.body.thigh_thickness.value, float))
        if tops:
            margins["legs"] = over - np.maximum.reduce(np.broadcast_arrays(*tops))
        if "arms" in angles:
            margins["arms"] = angles["arms"]
        if "catch" in angles:
            margins["catch"] = angles["catch"]
        if station.overlap is None:
            margins["overlap"] = _within(rigs.overlap, overlap_range(span=rigs.span, told=limits.overlap))
        if station.lock_overhang is None:
            margins["lock_overhang"] = _within((np.asarray(rigs.span) - station.beam) / 2, limits.lock_overhang)
        if station.leverage_ratio is None and station.length is None:
            margins["leverage_ratio"] = _within(rigs.leverage_ratio, limits.leverage_ratio)
        if limits.longest_stowed is not None:
            margins["longest_stowed"] = limits.longest_stowed - np.asarray(rigs.length)
        if limits.least_arc is not None and "arc" in angles:
            margins["arc"] = angles["arc"] - limits.least_arc
        if limits.hand_height is not None:
            margins["hand_height"] = _within(rigs.hand_height_in_drive, limits.hand_height)
        margins["dip_in_drive"] = limits.most_dip - np.asarray(rigs.dip_in_drive)
        return {name: np.broadcast_to(margin, (self.count,)) for name, margin in margins.items()}


def _grid(station: FitStation, limits: Limits) -> tuple[Array, Array, Array]:
    """Overhangs, overlaps and lengths to look at, some steps beyond limits and custom, each where it is free."""
    overhangs = _steps(station.lock_overhang, (*limits.lock_overhang, *OVERHANGS))
    spans = station.beam + 2 * overhangs
    ends = (*overlap_range(span=spans), *overlap_range(span=spans, told=limits.overlap))
    overlaps = _steps(station.overlap, np.ravel(ends))
    if station.length is not None:
        lengths = np.array([station.length])
    elif isinstance(station.lengths, tuple):
        lengths = np.asarray(station.lengths, float)
    else:
        step = station.lengths or INCH / 16
        lengths = np.arange(math.ceil(LENGTHS[0] / step), math.floor(LENGTHS[1] / step) + 1) * step
    if station.length is None and station.leverage_ratio is not None:
        overhang, overlap = (mesh.ravel() for mesh in np.meshgrid(overhangs, overlaps, indexing="ij"))
        exact = (station.beam / 2 + overhang + overlap / 2) * (1 + station.leverage_ratio)
        nearest = np.argmin(np.abs(lengths - exact[:, None]), axis=-1)
        return overhang, overlap, lengths[nearest] if station.lengths is not None else exact
    meshes = np.meshgrid(overhangs, overlaps, lengths, indexing="ij")
    overhang, overlap, length = (mesh.ravel() for mesh in meshes)
    return overhang, overlap, length


def _steps(fixed: float | None, ends: Sequence[float] | Array) -> Array:
    if fixed is not None:
        return np.array([fixed])
    low, high = min(ends), max(ends)
    return STEP * np.arange(math.floor(low / STEP) - BEYOND, math.ceil(high / STEP) + BEYOND + 1, dtype=float)


def _rigs(station: FitStation, limits: Limits, body: Body) -> Rig:
    """Every rig of the grid that can be built at all."""
    overhang, overlap, length = _grid(station, limits)
    inboard = (station.beam + 2 * overhang + overlap) / 2
    outboard = length - inboard
    arm = outboard - station.blade_length / 2
    deepest = station.lock_above_water + station.blade_width / 2 + BLADE_COVER
    highest = station.wave_clearance + station.blade_width / 2 - station.lock_above_water
    can = (inboard > station.grip_centre) & (outboard > station.blade_length) & (arm > max(deepest, highest))
    if not can.any():
        raise BadDesign(
            "no oar can be built under those limits that reaches the water: check overlap and overhang, the "
            "lock's height "
            "above the water and the beam"
        )
    thigh = body.thigh_thickness
    return rig_from_station(
        beam=station.beam,
        lock_overhang=overhang[can],
        seat_above_water=station.seat_above_water,
        lock_above_water=station.lock_above_water,
        overlap=overlap[can],
        length=length[can],
        thigh_thickness=None if thigh is None else thigh.value,
        wave_clearance=station.wave_clearance,
        blade_length=station.blade_length,
        blade_width=station.blade_width,
        grip_centre=station.grip_centre,
    )


def _angles(rigs: Rig, station: FitStation, body: Body, posture: Posture) -> dict[str, Array]:
    """Catch, finish and arc of every rig, and the top of the knee, where the body is known."""
    found: dict[str, Array] = {}
    hand = np.asarray(rigs.hand_height_in_drive, float)
    if station.reach_catch is None and body.shoulder_height is not None and body.arm_length is not None:
        arm, hip = float(body.arm_length.value), float(posture.hip_above_seat)
        shoulder = hip + (float(body.shoulder_height.value) - hip) * math.cos(float(posture.trunk_at_catch))
        found["arms"] = arm - np.abs(shoulder - hand)
        hand = np.clip(hand, shoulder - NEARLY * arm, shoulder + NEARLY * arm)  # a rig out of reach is not kept anyway
    seated = seat_rower(
        body=body,
        posture=posture,
        hand_height=hand,
        seat_edge_to_pins=station.seat_edge_to_pins,
        seat_above_heels=station.seat_above_heels,
        brace_from_seat_edge=station.brace_from_seat_edge,
        reach_catch=station.reach_catch,
        reach_finish=station.reach_finish,
    )
    if seated.legs is not None:
        found["knee_top"] = np.asarray(seated.legs.knee_top, float)
    if seated.reach_catch is not None and seated.reach_finish is not None:
        shape = {"hand_arm": rigs.hand_arm, "dip": rigs.dip_in_drive}
        stop = arc.stops_at(station.catch_limit)
        found["catch"] = np.asarray(arc.catch_angle(reach=seated.reach_catch, limit=stop, **shape))
        sine = np.divide(seated.reach_catch, np.multiply(rigs.hand_arm, np.cos(rigs.dip_in_drive)))
        found["catch_sine"] = sine if station.catch_limit is None else np.minimum(sine, math.sin(stop))
        finish = arc.finish_angle(reach=seated.reach_finish, limit=station.finish_limit, **shape)
        found["arc"] = found["catch"] - finish
    return found


def _within(value: Number, limits: tuple[Number, Number]) -> Array:
    inside: Array = np.minimum(np.subtract(value, limits[0]), np.subtract(limits[1], value))
    return inside
