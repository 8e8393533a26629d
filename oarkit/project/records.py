"""A checked project file turned into the core's records."""

from __future__ import annotations

from oarkit import tables
from oarkit.design import Inputs, PieceInputs, StationInputs
from oarkit.oar.build import Leather
from oarkit.oar.shape import OarSizes
from oarkit.project.keys import ProjectFile, Wood
from oarkit.rower.body import Size, body_size
from oarkit.wood.board import Board
from oarkit.wood.species import find_species


def inputs_of(file: ProjectFile) -> Inputs:
    """All that a design needs, in SI, from a file without faults.

    Parameters
    ----------
    file : ProjectFile
        The checked keys. [record]

    Returns
    -------
    Inputs
        Core records. [record]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit import example_project
    >>> inputs_of(example_project("tumblehod").file).station.overlap
    -0.0508
    """
    boat, rig = file.boat, file.rig
    water = rig.lock_above_water
    if water is None:
        assert boat.rail_above_water is not None  # `Cross` has seen to it
        assert rig.lock_above_rail is not None
        water = boat.rail_above_water + rig.lock_above_rail
    seat = boat.seat_above_water
    if seat is None:
        assert rig.lock_above_seat is not None
        seat = water - rig.lock_above_seat
    overlap = rig.overlap
    if overlap is None:
        assert rig.gap is not None
        overlap = -rig.gap
    return Inputs(
        station=StationInputs(
            beam=boat.beam_at_station,
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
        thigh=_thigh(file),
        rower_mass=file.rower.mass,
        sizes=_sizes(file),
        pieces=tuple(_piece(wood) for wood in file.oar.wood),
        leather=Leather(mass=file.oar.leather.mass),
        grain_table=tables.grain_table(),
        hard_start=file.loads.hard_start,
        wanted_index=file.wanted.stiffness_index,
        wanted_safety=file.wanted.safety,
    )


def _thigh(file: ProjectFile) -> Size | None:
    """The thigh, measured or estimated, or None where neither can be had."""
    rower = file.rower
    if rower.thigh_thickness is not None:
        return Size(value=rower.thigh_thickness, spread=0.0, measured=True)
    if rower.stature is None or rower.body is None:
        return None
    regression = tables.body_table()[rower.body, "thighclearance"]
    return body_size(measured=None, regression=regression, stature=rower.stature, mass=rower.mass)


def _piece(wood: Wood) -> PieceInputs:
    assert wood.part in ("loom", "edge", "tip")
    board = Board(
        species=find_species(wood.species, tables.species_table(), tables.other_names()),
        modulus=wood.modulus,
        density=wood.density,
        grain_slope=wood.grain_slope,
        moisture=wood.moisture,
        grain=wood.grain,
    )
    return PieceInputs(kind=wood.part, board=board, size=wood.size, start=wood.start, stop=wood.stop, side=wood.oar)


def _sizes(file: ProjectFile) -> OarSizes:
    oar = file.oar
    loom, blade = oar.loom, oar.blade
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
