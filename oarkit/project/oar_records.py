"""The oar of a checked project file turned into the core's records; it asks for no boat and no rower."""

from __future__ import annotations

from typing import TYPE_CHECKING

from oarkit import tables
from oarkit.design import OarInputs, PieceInputs
from oarkit.oar.afloat import SALT_WATER
from oarkit.oar.any_shape import Shape
from oarkit.oar.build import Leather
from oarkit.oar.mass import GRAVITY
from oarkit.oar.measured import MeasuredSizes, Station
from oarkit.oar.shape import OarSizes
from oarkit.project.keys import ProjectFile
from oarkit.project.lengths import inboard_of, length_of, span_of
from oarkit.project.oar_keys import Hole, Loads, Oar, Wanted, Wood
from oarkit.project.unread import UNREAD, known
from oarkit.strength.told import CrewInputs, HoleInputs, LoadInputs
from oarkit.wood.board import Board
from oarkit.wood.species import find_species

if TYPE_CHECKING:
    from oarkit.strength.sizing_limits import LoomLimits

FRESH_WATER = 1000.0  #: [kg/m3]


def sizes_of(oar: Oar) -> OarSizes | MeasuredSizes:
    """Sizes of the outline, as given or as measured from life.

    Parameters
    ----------
    oar : Oar
        The keys, without faults. [record]

    Returns
    -------
    OarSizes or MeasuredSizes
        The outline before length and inboard are fixed. [m]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit import example_project
    >>> sizes_of(example_project("quillet").file.oar).lock_diameter
    0.046
    """
    if oar.station is not None:
        rows = [Station(form=row.shape, **row.model_dump(exclude={"shape"})) for row in oar.station]
        return MeasuredSizes(
            stations=tuple(rows),
            grip_centre=oar.grip_centre,
            leather_length=oar.leather.length,
            leather_inboard=oar.leather.inboard_of_pins,
        )
    grip, loom, blade = oar.grip, oar.loom, oar.blade
    assert grip is not None and loom is not None and blade is not None  # noqa: PT018 - the check has seen to it
    sizes = blade.length, blade.width, blade.tip_thickness, blade.edge_at_root, blade.edge_at_tip
    length, width, tip, at_root, at_tip = (UNREAD if size is None else size for size in sizes)
    return OarSizes(
        grip_centre=oar.grip_centre,
        grip_diameter=grip.diameter,
        grip_length=grip.length,
        inboard_size=loom.at_lock if loom.inboard is None else loom.inboard,
        square_inboard=loom.inboard_shape == "square",
        lock_diameter=loom.at_lock,
        neck_thickness=loom.neck_thickness,
        neck_width=loom.neck_width,
        blade_length=length,
        blade_width=width,
        tip_thickness=tip,
        edge_at_root=at_root,
        edge_at_tip=at_tip,
        leather_length=oar.leather.length,
        leather_inboard=oar.leather.inboard_of_pins,
    )


def pieces_of(woods: list[Wood]) -> tuple[PieceInputs, ...]:
    """The pieces of wood with their boards.

    Parameters
    ----------
    woods : list of Wood
        The keys, without faults. [records]

    Returns
    -------
    tuple of PieceInputs
        In the order of the file. [records]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit import example_project
    >>> [piece.kind for piece in pieces_of(example_project("tumblehod").file.oar.wood)]
    ['loom', 'tip']
    """
    return tuple(
        PieceInputs(
            kind=wood.part,
            board=Board(
                species=find_species(wood.species, tables.species_table(), tables.other_names()),
                modulus=wood.modulus,
                density=wood.density,
                grain_slope=wood.grain_slope,
                moisture=wood.moisture,
                grain=wood.grain,
            ),
            size=wood.size,
            start=wood.start,
            stop=wood.stop,
            at=0.0 if wood.at is None else wood.at,
            side=wood.oar,
        )
        for wood in woods
    )


def loads_of(loads: Loads) -> LoadInputs:
    """Magnitudes of the loads; who steps on the oar weighs upon it.

    Parameters
    ----------
    loads : Loads
        The keys, without faults. [record]

    Returns
    -------
    LoadInputs
        None where nothing is said. [N, m/s, m, 1]

    Notes
    -----
    Source: standard gravity, 9.80665 m/s2.

    Examples
    --------
    >>> loads_of(Loads(step="100 kg")).step_weight
    980.665
    """
    told = loads.model_dump(exclude={"step", "push_off_sideways"})
    weight = None if loads.step is None else loads.step * GRAVITY
    return LoadInputs(**told, step_weight=weight, push_sideways=loads.push_off_sideways)


def hole_of(hole: Hole | None) -> HoleInputs | None:
    """A hole through the loom: a vertical one runs along the neutral axis of the stroke's bending.

    Parameters
    ----------
    hole : Hole or None
        The keys, without faults. [record]

    Returns
    -------
    HoleInputs or None
        The hole, or None where there is none. [m]

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> hole_of(Hole(diameter="8 mm", along="fore-and-aft")).along
    'bending direction'
    """
    if hole is None:
        return None
    return HoleInputs(
        diameter=hole.diameter,
        along="neutral axis" if hole.along == "vertical" else "bending direction",
        bush=hole.bush,
    )


def limits_of(wanted: Wanted) -> LoomLimits | None:
    """What a loom that is sized must keep to; custom's ends give way to what was told.

    Parameters
    ----------
    wanted : Wanted
        The keys, without faults. [record]

    Returns
    -------
    LoomLimits or None
        None where nothing was told. [m]

    Notes
    -----
    Source: derived; `oarkit.strength.sizing_limits.LoomLimits` for custom.

    Examples
    --------
    >>> limits_of(Wanted(most_lock="50 mm", stock_thickness="45 mm")).stock
    0.045
    """
    told = {
        name: value
        for name in ("step", "least_lock", "most_lock", "least_neck_thickness", "least_neck_width")
        if (value := getattr(wanted, name)) is not None
    }
    if wanted.stock_thickness is not None:
        told["stock"] = wanted.stock_thickness
    if not told:
        return None
    from oarkit.strength.sizing_limits import LoomLimits  # here, for its room brings in an optimiser

    custom = LoomLimits()
    most = min(told.get("most_lock", custom.most_lock), told.get("stock", custom.most_lock))
    told.setdefault("most_lock", max(custom.most_lock, told.get("least_lock", 0.0), told.get("stock", 0.0)))
    for name in ("least_lock", "least_neck_thickness", "least_neck_width"):
        told.setdefault(name, min(getattr(custom, name), most))
    return LoomLimits(**told)


def water_density_of(file: ProjectFile) -> float:
    """Density of the water that the boat lies in.

    Parameters
    ----------
    file : ProjectFile
        The keys. [record]

    Returns
    -------
    float
        1000 where nothing is said. [kg/m3]

    Notes
    -----
    Source: common practice.

    Examples
    --------
    >>> from oarkit import example_project
    >>> water_density_of(example_project("tumblehod").file)
    1025.0
    """
    return SALT_WATER if file.boat.water == "salt" else FRESH_WATER


def shape_of(file: ProjectFile) -> Shape:
    """The outline, where length and inboard are known.

    Parameters
    ----------
    file : ProjectFile
        The keys, without faults in the oar. [record]

    Returns
    -------
    Shape
        The outline. [m]

    Raises
    ------
    BadDesign
        A station table that is none, or a lock or leather that has no place on it.

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit import example_project
    >>> shape_of(example_project("quillet").file).blade_root
    1.7272
    """
    length, inboard = length_of(file), inboard_of(file)
    assert length is not None and inboard is not None  # noqa: PT018 - the check has seen to it
    return sizes_of(file.oar).at(length=length, inboard=inboard)


def oar_inputs_of(file: ProjectFile) -> OarInputs:
    """All that the oar part needs, from a file of whose boat, rower and rig there may be nothing or a part.

    Parameters
    ----------
    file : ProjectFile
        The keys, without faults in the oar. [record]

    Returns
    -------
    OarInputs
        Core records. [record]

    Raises
    ------
    BadDesign
        A station table that is none, or a lock or leather that has no place on it.

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit import example_project
    >>> oar_inputs_of(example_project("quillet").file).crew.boat_mass
    45.0
    """
    boat, rig, thole = file.boat, file.rig, file.rig.thole
    return OarInputs(
        shape=shape_of(file),
        pieces=pieces_of(file.oar.wood),
        leather=Leather(mass=file.oar.leather.mass),
        grain_table=tables.grain_table(),
        fatigue_table=tables.fatigue_table(),
        loads=loads_of(file.loads),
        crew=CrewInputs(
            boat_mass=known(boat.mass),
            boat_length=known(boat.length_overall),
            rower_mass=known(file.rower.mass),
            span=span_of(file),
            water_density=water_density_of(file),
            thole_diameter=None if thole is None else known(thole.diameter),
            lock=rig.lock,
        ),
        hole=hole_of(file.oar.hole),
        loom_limits=limits_of(file.wanted),
        wanted_index=file.wanted.stiffness_index,
        wanted_safety=file.wanted.safety,
        wanted_hand_weight=file.wanted.hand_weight,
    )
