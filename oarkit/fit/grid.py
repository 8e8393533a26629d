"""Every rig that a station leaves open, worked out at once: how far inside each limit, how far from custom."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from oarkit.fit.limits import (
    BEYOND,
    LENGTHS,
    OVERHANG_WIDTH,
    OVERHANGS,
    ROOM,
    SAME,
    STEP,
    Ends,
    FitStation,
    Limits,
    overlap_range,
)
from oarkit.fit.strains import catch_aim, strains
from oarkit.rig.height import BLADE_COVER, CLOTHING, HALF_FIST
from oarkit.rig.station import INCH, Rig, rig_from_station
from oarkit.rower.legs import Legs
from oarkit.rower.reach import Posture
from oarkit.rower.seated import seat_rower
from oarkit.rower.sizes import Body
from oarkit.stroke import arc
from oarkit.stroke.blocks import BLOCK
from oarkit.stroke.clear import leg_clearance
from oarkit.stroke.path import place_along, sweep_angles
from oarkit.stroke.station import ANGLES
from oarkit.working import Array, BadDesign, Number

Index = np.ndarray[tuple[int], np.dtype[np.intp]]
NEARLY = 0.999  #: of the arm, at which a hand out of reach is held so that the numbers stay numbers


class Grid:
    """Every rig that a station leaves open, with the angles of its stroke; ``limits`` are those that hold for it."""

    def __init__(self, station: FitStation, limits: Limits, body: Body, posture: Posture) -> None:
        self.station, self.body, self.limits = station, body, limits
        self.rigs = _rigs(station, self.limits, body)
        self.angles, self.legs = _seat(self.rigs, station, body, posture)
        self.count = int(np.size(self.rigs.length))
        lengths = np.unique(np.round(self.rigs.length, 6))
        self.length_step = round(float(np.max(np.diff(lengths))), 6) if len(lengths) > 1 else 0.0

    def strains(self, *, feathered: bool) -> dict[str, Array]:
        """Distance of every rig from each aim: those of custom, room over the legs, and pins not far out."""
        elbow, catch, room = self.body.elbow_height, self.angles.get("catch"), self._over_legs(feathered=feathered)
        parts = strains(
            self.rigs,
            catch_sine=None if catch is None else np.sin(catch),
            catch_aim=catch_aim(self.station),
            elbow=None if elbow is None else elbow.value,
        )
        if room is not None:
            parts["legs"] = np.maximum(ROOM - room, 0.0) / ROOM
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
        room = self._over_legs(feathered=feathered)
        margins: dict[str, Number] = {} if room is None else {"legs": room}
        if "arms" in angles:
            margins["arms"] = angles["arms"]
        if "catch" in angles:
            margins["catch"] = angles["catch"]
        if station.overlap is None:
            margins["overlap"] = _within(rigs.overlap, overlap_range(span=rigs.span, told=limits.overlap))
        if station.lock_overhang is None:
            margins["lock_overhang"] = _within((np.asarray(rigs.span) - station.beam) / 2, limits.ends("lock_overhang"))
        if station.leverage_ratio is None and station.length is None:
            margins["leverage_ratio"] = _within(rigs.leverage_ratio, limits.ends("leverage_ratio"))
        if limits.longest_stowed is not None:
            margins["longest_stowed"] = limits.longest_stowed - np.asarray(rigs.length)
        if limits.least_arc is not None and "arc" in angles:
            margins["arc"] = angles["arc"] - limits.least_arc
        if limits.hand_height != (None, None):
            margins["hand_height"] = _within(rigs.hand_height_in_drive, limits.ends("hand_height"))
        margins["dip_in_drive"] = limits.dip - np.asarray(rigs.dip_in_drive)
        return {name: np.broadcast_to(margin, (self.count,)) for name, margin in margins.items()}

    def over(self) -> dict[str, Array]:
        """For limits that can be missed by too much or too little: whether every rig has more than their middle."""
        rigs, limits = self.rigs, self.limits
        low, high = overlap_range(span=rigs.span, told=limits.overlap)
        values: dict[str, tuple[Number, Number]] = {
            "overlap": (rigs.overlap, (low + high) / 2),
            "leverage_ratio": (rigs.leverage_ratio, sum(limits.ends("leverage_ratio")) / 2),
            "lock_overhang": ((np.asarray(rigs.span) - self.station.beam) / 2, sum(limits.ends("lock_overhang")) / 2),
            "hand_height": (rigs.hand_height_in_drive, _middle(limits.hand_height)),
            "longest_stowed": (rigs.length, 0.0),
            "dip_in_drive": (rigs.dip_in_drive, 0.0),
            "arc": (0.0, 1.0),
        }
        return {
            name: np.broadcast_to(np.asarray(value) > np.asarray(middle), (self.count,))
            for name, (value, middle) in values.items()
        }

    def _over_legs(self, *, feathered: bool) -> Array | None:
        """Clear height over thighs and legs on the recovery; None where neither is known.

        Legs are taken at their highest place, and only where that leaves little room along the hand's whole path.
        """
        rigs, thigh, legs = self.rigs, self.body.thigh_thickness, self.legs
        hand = np.asarray(rigs.hand_height_in_recovery_feathered if feathered else rigs.hand_height_in_recovery)
        over = np.broadcast_to(hand - HALF_FIST - CLOTHING, (self.count,))
        room: Array = over - (0.0 if thigh is None else float(thigh.value))
        if legs is None:
            return None if thigh is None else room
        bound = over - np.maximum.reduce(np.broadcast_arrays(legs.thigh_top, legs.knee_top, legs.toe_top))
        room = np.minimum(bound, room) if thigh is not None else bound.copy()
        if "finish" in self.angles:
            for some in np.array_split(np.flatnonzero(bound < ROOM), max(self.count // BLOCK, 1)):
                room[some] = self._along_path(some, feathered=feathered)
                if thigh is not None:
                    room[some] = np.minimum(room[some], over[some] - float(thigh.value))
        return room

    def _along_path(self, some: Index, *, feathered: bool) -> Array:
        """Least clear height over the legs along the path of the hand, of some of the rigs."""

        def of(value: Number) -> Array:
            return np.broadcast_to(value, (self.count,))[some]

        rigs, legs = self.rigs, self.legs
        assert legs is not None
        hand = place_along(
            side="port",
            along=-of(rigs.hand_arm)[:, None],
            sweep=sweep_angles(of(self.angles["catch"]), of(self.angles["finish"]), ANGLES),
            dip=of(rigs.dip_in_recovery_feathered if feathered else rigs.dip_in_recovery)[:, None],
            span=of(rigs.span)[:, None],
            lock_above_water=self.station.lock_above_water,
        )
        here = Legs(**{name: of(getattr(legs, name)) for name in Legs.__slots__})
        clear = leg_clearance(hand, here, seat_above_water=self.station.seat_above_water)
        least: Array = np.min(clear, axis=-1)
        return least


def _grid(station: FitStation, limits: Limits) -> tuple[Array, Array, Array]:
    """Overhangs, overlaps and lengths to look at, some steps beyond limits and custom, each where it is free."""
    overhangs = _steps(station.lock_overhang, [limits.ends("lock_overhang"), OVERHANGS])
    spans = station.beam + 2 * overhangs
    in_force = np.transpose(overlap_range(span=spans, told=limits.overlap))
    overlaps = _steps(station.overlap, np.concatenate([in_force, np.transpose(overlap_range(span=spans))]))
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


def _middle(told: Ends) -> float:
    """Middle of a range that has no custom; beyond the only end where one was told."""
    low, high = told
    if low is None or high is None:
        return 0.0 if low is None else math.inf
    return (low + high) / 2


def _steps(fixed: float | None, ranges: Sequence[tuple[float, float]] | Array) -> Array:
    """Whole steps from some below the least end to some above the greatest; of ranges that hold none their middle."""
    if fixed is not None:
        return np.array([fixed])
    low, high = np.min(ranges), np.max(ranges)
    whole = STEP * np.arange(math.floor(low / STEP) - BEYOND, math.ceil(high / STEP) + BEYOND + 1, dtype=float)
    narrow = [
        (a + b) / 2 for a, b in np.unique(ranges, axis=0) if not np.any((whole >= a - SAME) & (whole <= b + SAME))
    ]
    return np.union1d(whole, narrow)


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


def _seat(rigs: Rig, station: FitStation, body: Body, posture: Posture) -> tuple[dict[str, Array], Legs | None]:
    """Catch, finish and arc of every rig, and the legs, where the body is known."""
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
    if seated.reach_catch is not None and seated.reach_finish is not None:
        shape = {"hand_arm": rigs.hand_arm, "dip": rigs.dip_in_drive}
        stop = arc.stops_at(station.catch_limit)
        found["catch"] = np.asarray(arc.catch_angle(reach=seated.reach_catch, limit=stop, **shape))
        finish = arc.finish_angle(reach=seated.reach_finish, limit=station.finish_limit, **shape)
        found |= {"finish": np.asarray(finish), "arc": found["catch"] - finish}
    return found, seated.legs


def _within(value: Number, limits: tuple[Number, Number]) -> Array:
    inside: Array = np.minimum(np.subtract(value, limits[0]), np.subtract(limits[1], value))
    return inside
