"""Faults between entries that are each right on their own, and the turn of a project file into core records."""

from __future__ import annotations

from collections.abc import Callable

from oarkit import tables, units
from oarkit.design import Inputs, PieceInputs, StationInputs
from oarkit.oar.build import Leather
from oarkit.oar.shape import OarSizes
from oarkit.project.faults import Fault, Location, place_of
from oarkit.project.keys import ProjectFile, Wood
from oarkit.rower.body import Size, body_size
from oarkit.wood.board import Board
from oarkit.wood.species import find_species
from oarkit.working import BadDesign


class Cross:
    """Faults between entries that are each right on their own, and the turn into core records."""

    def __init__(self, file: ProjectFile, line_of: Callable[[Location], int | None]) -> None:
        self.file, self.line_of = file, line_of
        self.faults: list[Fault] = []

    def fault(self, loc: Location, problem: str) -> None:
        """Note a fault."""
        self.faults.append(Fault(place=place_of(loc), problem=problem, line=self.line_of(loc)))

    def inputs(self) -> Inputs | None:
        """The core's records, or None where a fault stands in the way."""
        file = self.file
        water, seat, overlap = self.lock_above_water(), None, self.overlap()
        if water is not None:
            seat = self.seat_above_water(water)
        self.lengths()
        pieces = self.pieces()
        thigh = self.thigh()
        sizes = self.sizes()
        if self.faults or water is None or seat is None or overlap is None:
            return None
        rig = file.rig
        return Inputs(
            station=StationInputs(
                beam=file.boat.beam_at_station,
                lock_overhang=rig.lock_overhang,
                seat_above_water=seat,
                lock_above_water=water,
                overlap=overlap,
                length=rig.length,
                leverage_ratio=rig.leverage_ratio,
                round_length=rig.round_length,
                wave_clearance=rig.wave_clearance,
                hands_apart=rig.hands_apart,
                lock_half_width=rig.lock_half_width,
                lock=rig.lock,
                upper_hand=rig.upper_hand,
                longest_stowed=rig.longest_stowed,
            ),
            thigh=thigh,
            rower_mass=file.rower.mass,
            sizes=sizes,
            pieces=tuple(pieces),
            leather=Leather(mass=file.oar.leather.mass),
            grain_table=tables.grain_table(),
            hard_start=file.loads.hard_start,
            wanted_index=file.wanted.stiffness_index,
            wanted_safety=file.wanted.safety,
        )

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
                f"{units.millimetres(rig.lock_above_water)} does not agree with rail and lock over it "
                f"({units.millimetres(summed)}); leave one of them out",
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
                f"the seat would stand {units.millimetres(from_lock)} above the water, but boat.seat_above_water "
                f"says {units.millimetres(boat.seat_above_water)}; leave one of them out",
            )
        seat = boat.seat_above_water if boat.seat_above_water is not None else from_lock
        if seat is not None and seat >= lock_above_water:
            self.fault(
                ("boat", "seat_above_water"),
                f"the seat stands {units.millimetres(seat)} above the water, no lower than the lock at "
                f"{units.millimetres(lock_above_water)}",
            )
        return seat

    def overlap(self) -> float | None:
        """Overlap of the handles, negative for a gap."""
        rig = self.file.rig
        if rig.overlap is not None and rig.gap is not None:
            self.fault(
                ("rig", "gap"),
                "overlap and gap are both given; the handles either cross or leave a gap, so leave one of them out",
            )
        elif rig.overlap is None and rig.gap is None:
            self.fault(
                ("rig", "overlap"),
                'how the handles pass is not said; give rig.overlap (e.g. "150 mm") or rig.gap (e.g. "50 mm")',
            )
        elif rig.length is not None and rig.overlap is not None and rig.overlap > rig.length:
            self.fault(
                ("rig", "overlap"),
                f"{units.millimetres(rig.overlap)} is longer than the oar ({units.millimetres(rig.length)}); give "
                f"the overlap of the two handles, usually 50 to 180 mm",
            )
        return rig.overlap if rig.gap is None else -rig.gap

    def lengths(self) -> None:
        """Refuse lengths that are given twice or in the wrong table."""
        rig, oar = self.file.rig, self.file.oar
        if rig.length is not None and rig.leverage_ratio is not None:
            self.fault(
                ("rig", "leverage_ratio"),
                "length and leverage_ratio are both given; leave one of them out, or both to have the length chosen",
            )
        if oar.station is not None:
            self.fault(
                ("oar", "station"), "an oar measured from life is not read by this version; give grip, loom and blade"
            )
        for key in ("length", "inboard"):
            if getattr(oar, key) is not None:
                self.fault(
                    ("oar", key),
                    f"the {key} of the oar belongs to the rig here; give rig.length, and rig.overlap for the inboard",
                )

    def pieces(self) -> list[PieceInputs]:
        """The pieces of wood, each with its board."""
        made: list[PieceInputs] = []
        for index, wood in enumerate(self.file.oar.wood):
            loc = ("oar", "wood", index)
            try:
                species = find_species(wood.species, tables.species_table(), tables.other_names())
            except BadDesign as error:
                self.fault((*loc, "species"), str(error))
                continue
            if wood.part not in ("loom", "edge", "tip"):
                self.fault(
                    (*loc, "part"),
                    f"'{wood.part}' is not counted by this version, which builds an oar of loom, edge and tip",
                )
                continue
            if wood.part != "loom" and wood.size is None:
                what = "how wide each edge strip is" if wood.part == "edge" else "how long the tip piece is"
                self.fault(
                    (*loc, "size"),
                    f'the {wood.part} needs its size: {what}, e.g. "{"6 mm" if wood.part == "edge" else "40 mm"}"',
                )
            if wood.part == "loom" and wood.size is not None:
                self.fault((*loc, "size"), "a loom has no size of its own, its sizes stand under [oar]; leave this out")
            made.append(
                _piece(
                    wood,
                    Board(
                        species=species,
                        modulus=wood.modulus,
                        density=wood.density,
                        grain_slope=wood.grain_slope,
                        moisture=wood.moisture,
                        grain=wood.grain,
                    ),
                )
            )
        for side in ("port", "starboard"):
            if not any(p.kind == "loom" and p.side in (None, side) for p in made) and not self.faults:
                self.fault(
                    ("oar", "wood"), f'the {side} oar has no loom; one [[oar.wood]] entry must say part = "loom"'
                )
        return made

    def thigh(self) -> Size | None:
        """The thigh, measured or estimated, or None where neither can be had."""
        rower = self.file.rower
        if rower.thigh_thickness is not None:
            return Size(value=rower.thigh_thickness, spread=0.0, measured=True)
        if rower.stature is None or rower.body is None:
            return None
        regression = tables.body_table()[rower.body, "thighclearance"]
        return body_size(measured=None, regression=regression, stature=rower.stature, mass=rower.mass)

    def sizes(self) -> OarSizes:
        """The oar's sizes, refused where they contradict one another."""
        oar = self.file.oar
        loom, blade = oar.loom, oar.blade
        if blade.edge_at_tip > blade.tip_thickness:
            self.fault(
                ("oar", "blade", "edge_at_tip"),
                f"{units.millimetres(blade.edge_at_tip)} is thicker than the blade's centre at the tip "
                f"({units.millimetres(blade.tip_thickness)})",
            )
        if blade.edge_at_root > loom.neck_thickness:
            self.fault(
                ("oar", "blade", "edge_at_root"),
                f"{units.millimetres(blade.edge_at_root)} is thicker than the neck "
                f"({units.millimetres(loom.neck_thickness)})",
            )
        if loom.neck_width > blade.width:
            self.fault(
                ("oar", "loom", "neck_width"),
                f"{units.millimetres(loom.neck_width)} is wider than the blade ({units.millimetres(blade.width)})",
            )
        if oar.grip_centre > oar.grip.length:
            self.fault(
                ("oar", "grip_centre"),
                f"{units.millimetres(oar.grip_centre)} lies beyond the end of the grip "
                f"({units.millimetres(oar.grip.length)})",
            )
        return OarSizes(
            grip_centre=oar.grip_centre,
            grip_diameter=oar.grip.diameter,
            grip_length=oar.grip.length,
            inboard_size=loom.at_lock if loom.inboard is None else loom.inboard,
            square_inboard=loom.inboard_shape == "square",
            lock_diameter=loom.at_lock,
            neck_thickness=loom.neck_thickness,
            neck_width=loom.neck_width,
            blade_length=blade.length,
            blade_width=blade.width,
            tip_thickness=blade.tip_thickness,
            edge_at_root=blade.edge_at_root,
            edge_at_tip=blade.edge_at_tip,
            leather_length=oar.leather.length,
            leather_inboard=oar.leather.inboard_of_pins,
        )


def _piece(wood: Wood, board: Board) -> PieceInputs:
    assert wood.part in ("loom", "edge", "tip")
    return PieceInputs(kind=wood.part, board=board, size=wood.size, start=wood.start, stop=wood.stop, side=wood.oar)
