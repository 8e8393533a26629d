"""Faults between entries of boat, rower and rig that are each right on their own, and the whole of a file."""

from __future__ import annotations

from oarkit.project.cross_oar import both_ways
from oarkit.project.cross_wood import WoodCross
from oarkit.project.unread import is_read


class Cross(WoodCross):
    """Looks for contradictions in a file, of which some entries may be unread."""

    def check(self, *, whole: bool = True) -> None:
        """Note every contradiction between entries; where the oar is read alone, nothing is missing elsewhere."""
        if whole:
            water = self.lock_above_water()
            if water is not None:
                self.seat_above_water(water)
            self.left_open()
        self.overlap()
        self.limits()
        if is_read(self.file.rig.length) and is_read(self.file.rig.leverage_ratio):
            self.fault(
                ("rig", "leverage_ratio"),
                "length and leverage_ratio are both given; leave one of them out, or both to have the length chosen",
            )
        shape = self.check_oar()
        if self.file.boat.rail is not None:
            self.species(self.file.boat.rail.species, ("boat", "rail", "species"))
        if self.file.rig.thole is not None:
            self.species(self.file.rig.thole.species, ("rig", "thole", "species"))
        self.woods(shape)

    def lock_above_water(self) -> float | None:
        """Height of the loom axis above the water, from whichever heights are given."""
        boat, rig = self.file.boat, self.file.rig
        summed = None
        if boat.rail_above_water is not None and rig.lock_above_rail is not None:
            summed = boat.rail_above_water + rig.lock_above_rail
        if rig.lock_above_water is None and summed is None:
            self.fault(
                ("rig", "lock_above_water"),
                "the height of the lock is not known; give boat.rail_above_water and rig.lock_above_rail, or "
                "rig.lock_above_water",
            )
            return None
        if rig.lock_above_water is not None and summed is not None and abs(rig.lock_above_water - summed) > 1e-3:
            self.fault(
                ("rig", "lock_above_water"),
                f"{both_ways(rig.lock_above_water)} does not agree with rail and lock over it "
                f"({both_ways(summed)}); leave one of them out",
            )
        return rig.lock_above_water if rig.lock_above_water is not None else summed

    def seat_above_water(self, lock_above_water: float) -> float | None:
        """Height of the seat above the water, from whichever heights are given."""
        boat, rig = self.file.boat, self.file.rig
        if boat.seat_above_water is None and rig.lock_above_seat is None:
            self.fault(
                ("boat", "seat_above_water"),
                "the height of the seat is not known; give boat.seat_above_water, or rig.lock_above_seat",
            )
            return None
        from_lock = None if rig.lock_above_seat is None else lock_above_water - rig.lock_above_seat
        if (
            boat.seat_above_water is not None
            and from_lock is not None
            and abs(boat.seat_above_water - from_lock) > 1e-3
        ):
            self.fault(
                ("rig", "lock_above_seat"),
                f"the seat would stand {both_ways(from_lock)} above the water, but boat.seat_above_water "
                f"says {both_ways(boat.seat_above_water)}; leave one of them out",
            )
        seat = boat.seat_above_water if boat.seat_above_water is not None else from_lock
        if seat is not None and seat >= lock_above_water:
            self.fault(
                ("boat", "seat_above_water") if boat.seat_above_water is not None else ("rig", "lock_above_seat"),
                f"the seat stands {both_ways(seat)} above the water, no lower than the lock at "
                f"{both_ways(lock_above_water)}",
            )
        return seat

    def overlap(self) -> None:
        """Refuse handles that are said to pass twice, or pass further than they can."""
        rig = self.file.rig
        if is_read(rig.overlap) and is_read(rig.gap):
            self.fault(
                ("rig", "gap"),
                "overlap and gap are both given; the handles either cross or leave a gap, so leave one of them out",
            )
        elif rig.length is not None and rig.overlap is not None and rig.overlap > rig.length:
            self.fault(
                ("rig", "overlap"),
                f"{both_ways(rig.overlap)} is longer than the oar ({both_ways(rig.length)}); give "
                f"the overlap of the two handles, usually 50 to 180 mm",
            )
        span = self.file.boat.beam_at_station + 2 * (rig.lock_overhang or 0.0)
        if span <= 0:
            self.fault(
                ("rig", "lock_overhang"), "the pins stand further inside than the boat is wide; check beam and overhang"
            )
        elif rig.gap is not None and rig.gap >= span:
            self.fault(
                ("rig", "gap"),
                f"{both_ways(rig.gap)} is the whole span ({both_ways(span)}) or more; usual are 25 to 75 mm",
            )
        elif (
            rig.overlap is not None
            and rig.overlap >= span
            and not (rig.length is not None and rig.overlap > rig.length)
        ):
            self.fault(
                ("rig", "overlap"),
                f"{both_ways(rig.overlap)} is the whole span ({both_ways(span)}) or more; usual are 50 to 180 mm",
            )

    def limits(self) -> None:
        """Refuse limits of which the least is more than the most, and a reach of which only half is told."""
        limits, rig, rower = self.file.limits, self.file.rig, self.file.rower
        for name in ("overlap", "leverage_ratio", "hand_height", "overhang"):
            low, high = getattr(limits, f"least_{name}"), getattr(limits, f"most_{name}")
            if low is not None and high is not None and low > high:
                self.fault(("limits", f"least_{name}"), f"is more than most_{name}; change one of them")
        if rig.catch_limit is not None and rig.finish_limit is not None and rig.catch_limit <= rig.finish_limit:
            self.fault(
                ("rig", "catch_limit"),
                "is no greater than finish_limit; the catch is positive, the blade toward the bow, the finish negative",
            )
        reach = (rower.reach_catch, rower.reach_finish)
        if reach[0] is not None and reach[1] is not None and reach[0] + reach[1] <= 0:
            self.fault(
                ("rower", "reach_catch"),
                "takes the hands no further aft than reach_finish leaves them; both are counted from the pin line, "
                "the catch toward the stern, the finish toward the bow",
            )
