"""Every check of lock bracket, rail and thole pins in a hard start, weakest first."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from oarkit.rig import bolts, thole
from oarkit.rig.bracket import VERTICAL_SHARE, BracketInputs, BracketLoads, RailInputs, bracket_loads, pin_force
from oarkit.rig.thole import TholeInputs
from oarkit.wood.adjust import GrainTable
from oarkit.wood.bearing import bearing_strength, bearing_stress, crushing_strength, washer_pressure
from oarkit.wood.board import wood_of_board
from oarkit.working import Line, Number, Working

STEEL = "stainless A2-50"


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingInputs:
    """What the checks of bracket and thole pins need; SI.

    ``hand_force`` is the hard start at each hand; ``lock_above_rail`` is only needed for a bracket.
    """

    hand_force: Number
    hand_arm: Number
    blade_arm: Number
    lock_overhang: Number
    grain_table: GrainTable
    lock_above_rail: Number | None = None
    vertical_share: Number = VERTICAL_SHARE
    bracket: BracketInputs | None = None
    thole: TholeInputs | None = None
    rail: RailInputs | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingCheck:
    """One check of bracket, rail or thole pin. Stresses in Pa; ``breaks`` where it parts and is not only dented."""

    part: str
    place: str
    stress: Number
    strength: Number
    ratio: Number
    material: str
    note: str
    breaks: bool
    working: tuple[Line, ...]


def _check(part: str, place: str, stress: Number, strength: Number, material: str, note: str, work: Working,
           breaks: bool = True) -> FittingCheck:  # fmt: skip
    ratio = np.divide(strength, np.where(np.asarray(stress) > 0, stress, 1.0))
    return FittingCheck(
        part=part,
        place=place,
        stress=stress,
        strength=strength,
        ratio=np.where(np.asarray(stress) > 0, ratio, np.inf)[()],
        material=material,
        note=note,
        breaks=breaks,
        working=tuple(work.lines),
    )


def loads_of(fittings: FittingInputs) -> BracketLoads | None:
    """Loads of the bracket, where enough is known.

    Parameters
    ----------
    fittings : FittingInputs
        Bracket, rail and forces. [record]

    Returns
    -------
    BracketLoads or None
        None without bracket, rail or height of the lock above the rail. [N, N m]

    Notes
    -----
    Source: statics, `oarkit.rig.bracket.bracket_loads`.

    Examples
    --------
    >>> from oarkit.tables import grain_table
    >>> loads_of(FittingInputs(hand_force=400, hand_arm=0.6, blade_arm=1.5, lock_overhang=0, grain_table=grain_table()))
    """
    f = fittings
    if f.bracket is None or f.rail is None or f.lock_above_rail is None:
        return None
    return bracket_loads(
        f.bracket, f.rail, hand_force=f.hand_force, hand_arm=f.hand_arm, blade_arm=f.blade_arm,
        lock_overhang=f.lock_overhang, lock_above_rail=f.lock_above_rail, vertical_share=f.vertical_share,
    )  # fmt: skip


def fitting_checks(fittings: FittingInputs) -> tuple[FittingCheck, ...]:
    """Every check of bracket, rail and thole pins in a hard start, weakest first.

    Parameters
    ----------
    fittings : FittingInputs
        Bracket, thole pins, rail and forces. [record]

    Returns
    -------
    tuple of FittingCheck
        None of the bracket's where rail or height of the lock is missing. [Pa]

    Raises
    ------
    BadDesign
        A wood without the values needed, or a washer that presses on nothing.

    Notes
    -----
    Source: statics; rail and pins against adjusted lower 5 % bending strength, holes against dowel bearing / 2.5
    (National Design Specification), washers against lower 5 % compression across the grain, bolts against the
    0.2 % proof stress (shear 0.6 of it). A washer counts no further than the edge of the rail.

    Examples
    --------
    >>> from oarkit.tables import grain_table, species_table
    >>> from oarkit.wood.board import Board
    >>> from oarkit.wood.species import find_species
    >>> ash = Board(species=find_species("white ash", species_table()))
    >>> tholes = TholeInputs(diameter=0.019, load_arm=0.030, hole_depth=0.040, board=ash)
    >>> [check.part for check in fitting_checks(FittingInputs(
    ...     hand_force=450, hand_arm=0.56, blade_arm=1.28, lock_overhang=-0.038, thole=tholes,
    ...     grain_table=grain_table()))]
    ['thole pin', 'thole hole']
    """
    made = [*_of_bracket(fittings), *_of_thole(fittings)]
    return tuple(sorted(made, key=lambda check: float(np.min(check.ratio))))


def _of_bracket(fittings: FittingInputs) -> list[FittingCheck]:
    loads, bracket, rail = loads_of(fittings), fittings.bracket, fittings.rail
    if loads is None or bracket is None or rail is None:
        return []
    made = _of_root(bracket, loads)
    if loads.bolt_shear is None or loads.bolt_tension is None:
        return made
    athwart, d = bracket.bolt_axis == "athwart", bracket.bolt_diameter
    along_bolt, face = (rail.thickness, rail.depth) if athwart else (rail.depth, rail.thickness)
    wood, ends = rail.board.species.name, "an end bolt of the row"
    work = Working()
    stress = work("rig.bolt_bearing", bearing_stress, force=loads.bolt_shear, diameter=d, length=along_bolt)
    allowed = bearing_strength(rail.board, diameter=d, work=work)
    note = "dowel bearing, the lesser of along and across the grain, already divided by 2.5; pressure taken as even"
    made.append(_check("bolt hole", f"rail at {ends}", stress, allowed, wood, note, work, breaks=False))
    work = Working()
    stress = work("rig.rail_bending", bolts.rail_bending, yaw=loads.yaw, thickness=rail.thickness, depth=rail.depth)
    strength = wood_of_board(rail.board, grain_table=fittings.grain_table).strength
    note = "bent about its thin way by half the yaw moment; bolt holes not taken off"
    made.append(_check("rail", "rail beside the bracket", stress, strength, wood, note, work))
    work = Working()
    washer = np.minimum(bracket.washer, face)
    stress = work("rig.washer_pressure", washer_pressure, tension=loads.bolt_tension, washer=washer, hole=d)
    note = "a proportional limit: past it the washer sinks in and the bolt works loose"
    under = f"under the washer of {ends}, {'inner face' if athwart else 'underside'} of the rail"
    made.append(
        _check("washer", under, stress, crushing_strength(rail.board, work=work), wood, note, work, breaks=False)
    )
    note = "0.2 % proof stress from memory (ISO 3506-1); thread area; the vertical force is left to friction"
    proof = bracket.bolt_strength
    for part, force, share in (
        ("bolt shear", loads.bolt_shear, bolts.SHEAR_SHARE), ("bolt tension", loads.bolt_tension, 1.0),
    ):  # fmt: skip
        work = Working()
        stress = work(f"rig.{part.replace(' ', '_')}_stress", bolts.bolt_stress, force=force, diameter=d)
        made.append(_check(part, ends, stress, share * proof, STEEL, note, work))
    return made


def _of_root(bracket: BracketInputs, loads: BracketLoads) -> list[FittingCheck]:
    if bracket.root_width is None or bracket.root_thickness is None or bracket.root_strength is None:
        return []
    work = Working()
    stress = work(
        "rig.bracket_root_stress", bolts.root_bending,
        yaw=loads.yaw, width=bracket.root_width, thickness=bracket.root_thickness,
    )  # fmt: skip
    note = "solid rectangle; no allowance for a weld or a sharp corner"
    return [
        _check("bracket root", "where the arm leaves the foot", stress, bracket.root_strength, "as given", note, work)
    ]


def _of_thole(fittings: FittingInputs) -> list[FittingCheck]:
    pin = fittings.thole
    if pin is None:
        return []
    work = Working()
    force = work(
        "rig.pin_force", pin_force, force=fittings.hand_force, hand_arm=fittings.hand_arm, blade_arm=fittings.blade_arm
    )
    moment = work("rig.thole_moment", thole.thole_moment, pin_force=force, load_arm=pin.load_arm)
    stress = work("rig.thole_bending", thole.thole_bending, moment=moment, diameter=pin.diameter)
    strength = wood_of_board(pin.board, grain_table=fittings.grain_table).strength
    note = "one pin bears the whole force; adjusted lower 5 % bending strength"
    made = [_check("thole pin", "at the top of the rail", stress, strength, pin.board.species.name, note, work)]
    board = pin.board if fittings.rail is None else fittings.rail.board
    work = Working()
    stress = work("rig.thole_bearing", bearing_stress, force=force, diameter=pin.diameter, length=pin.hole_depth)
    note = "dowel bearing, the lesser of along and across the grain, already divided by 2.5"
    harder = float(np.max(4 + 6 * np.divide(pin.load_arm, pin.hole_depth)))
    note += (
        f"; pressure taken as even, a stiff pin that tips presses up to {harder:.1f} times harder at the hole's mouth"
    )
    if fittings.rail is None:
        note += "; the wood of the rail is not given, that of the pin is taken"
    allowed = bearing_strength(board, diameter=pin.diameter, work=work)
    made.append(_check("thole hole", "hole in the rail", stress, allowed, board.species.name, note, work, breaks=False))
    return made
