"""A checked project file turned into the core's records."""

from __future__ import annotations

from oarkit import tables
from oarkit.design import FixtureInputs, Inputs, RowerInputs, StationInputs
from oarkit.design.records import RAIL_THICKNESS, DockInputs
from oarkit.fit.limits import Limits
from oarkit.oar.build import Leather
from oarkit.project.keys import ProjectFile, Thole
from oarkit.project.lengths import length_of, overlap_of, span_of
from oarkit.project.oar_records import hole_of, limits_of, loads_of, pieces_of, sizes_of, water_density_of
from oarkit.rig import split
from oarkit.rig.bracket import BracketInputs, RailInputs
from oarkit.rig.ranges import STOCK_LENGTHS
from oarkit.rig.thole import TholeInputs
from oarkit.rower.reach import Posture
from oarkit.rower.seat import HeelTest
from oarkit.rower.sizes import body_sizes
from oarkit.stroke.arc import THOLE_CATCH
from oarkit.wood.board import Board
from oarkit.wood.species import find_species

THOLE_INSIDE = 0.100  #: furthest that tholes are looked for inside the rails, in which they stand [m]


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
    overlap, span = overlap_of(file), span_of(file)
    if overlap is None and span is not None and file.oar.inboard is not None:
        overlap = float(split.handle_overlap(span=span, inboard=file.oar.inboard))
    custom = {
        "seat_edge_to_pins": rig.seat_edge_to_pins,
        "seat_above_heels": boat.seat_above_heels,
        "rail_thickness": boat.rail.thickness if boat.rail else None,
        "catch_limit": THOLE_CATCH if rig.catch_limit is None and rig.thole is not None else rig.catch_limit,
        "finish_limit": rig.finish_limit,
    }
    return Inputs(
        station=StationInputs(
            beam=boat.beam_at_station,
            lock_overhang=rig.lock_overhang,
            seat_above_water=seat,
            lock_above_water=water,
            overlap=overlap,
            length=length_of(file) if rig.leverage_ratio is None else None,
            leverage_ratio=rig.leverage_ratio,
            lengths=STOCK_LENGTHS if rig.round_length == "stock" else rig.round_length,
            wave_clearance=rig.wave_clearance,
            hands_apart=rig.hands_apart,
            lock_half_width=rig.lock_half_width,
            lock=rig.lock,
            upper_hand=rig.upper_hand,
            longest_stowed=rig.longest_stowed,
            hands_ahead=rig.hands_ahead,
            brace_from_seat_edge=boat.brace_from_seat_edge,
            rail_above_water=boat.rail_above_water,
            coaming_above_rail=boat.coaming_above_rail,
            boat_length=boat.length_overall,
            assumed=tuple(name for name in ("seat_edge_to_pins", "seat_above_heels") if custom[name] is None),
            **{name: value for name, value in custom.items() if value is not None},
        ),
        rower=_rower(file),
        limits=_limits(file),
        fixtures=_fixtures(file),
        ranges=tables.trade_ranges(),
        sizes=sizes_of(file.oar),
        pieces=pieces_of(file.oar.wood),
        leather=Leather(mass=file.oar.leather.mass),
        grain_table=tables.grain_table(),
        fatigue_table=tables.fatigue_table(),
        loads=loads_of(file.loads),
        hole=hole_of(file.oar.hole),
        loom_limits=limits_of(file.wanted),
        water_density=water_density_of(file),
        wanted_index=file.wanted.stiffness_index,
        wanted_safety=file.wanted.safety,
        wanted_hand_weight=file.wanted.hand_weight,
    )


def _rower(file: ProjectFile) -> RowerInputs:
    """The rower: sizes as measured, the rest estimated where stature and body table are known."""
    rower = file.rower
    table = None
    if rower.body is not None:
        table = {name: row for (body, name), row in tables.body_table().items() if body == rower.body}
    taken = ("thigh_thickness", "hand_length", "shoulder_height", "arm_length", "thigh_length", "shank_length")
    told = {name: getattr(rower, name) for name in Posture.__slots__ if getattr(rower, name) is not None}
    return RowerInputs(
        mass=rower.mass,
        stature=rower.stature,
        body=body_sizes(
            measured={name: getattr(rower, name) for name in taken},
            table=table,
            stature=rower.stature,
            mass=rower.mass,
        ),
        posture=Posture(**told),
        reach_catch=rower.reach_catch,
        reach_finish=rower.reach_finish,
    )


def _fixtures(file: ProjectFile) -> FixtureInputs:
    """What the locks are fastened with, and the boat."""
    boat, rig = file.boat, file.rig
    rail, bracket, thole, dock, test = boat.rail, rig.bracket, rig.thole, boat.dock, boat.heel_test
    return FixtureInputs(
        boat_mass=boat.mass,
        lock_above_rail=rig.lock_above_rail,
        rail=None
        if rail is None
        else RailInputs(thickness=rail.thickness, depth=rail.depth, board=_board(rail.species)),
        bracket=None if bracket is None else BracketInputs(**bracket.model_dump()),
        thole=None if thole is None else _thole(thole),
        dock=None if dock is None else DockInputs(**dock.model_dump()),
        heel_test=None if test is None else HeelTest(weight=test.mass, offset=test.off_centre, angle=test.angle),
    )


def _thole(thole: Thole) -> TholeInputs:
    return TholeInputs(
        diameter=thole.diameter,
        load_arm=thole.load_arm,
        hole_depth=thole.hole_depth,
        apart=thole.apart,
        board=_board(thole.species),
    )


def _board(species: str) -> Board:
    """An untested board of a species."""
    return Board(species=find_species(species, tables.species_table(), tables.other_names()))


def _limits(file: ProjectFile) -> Limits:
    """What a chosen rig must keep to; what was not told is left to custom."""
    told = file.limits
    overhang = (told.least_overhang, told.most_overhang)
    if file.rig.thole is not None and overhang == (None, None):
        rail = file.boat.rail
        overhang = (-THOLE_INSIDE, -(RAIL_THICKNESS if rail is None else rail.thickness) / 2)
    return Limits(
        overlap=(told.least_overlap, told.most_overlap),
        leverage_ratio=(told.least_leverage_ratio, told.most_leverage_ratio),
        lock_overhang=overhang,
        hand_height=(told.least_hand_height, told.most_hand_height),
        least_arc=told.least_arc,
        most_dip=told.most_dip,
    )
