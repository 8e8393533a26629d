"""What the locks are fastened with: checks in a hard start, the dock, the seat, and what stands on custom."""

from __future__ import annotations

import numpy as np

from oarkit.design.records import Inputs
from oarkit.rig.dock import dock_clearance, dock_findings
from oarkit.rig.fittings import FittingInputs, fitting_findings
from oarkit.rig.station import Rig
from oarkit.rower import seat
from oarkit.rower.seat import seat_findings
from oarkit.rower.seated import Seated
from oarkit.working import Finding, Number, Quantity, Working

LOCK_HORNS = 0.050  #: half a loom and the horns of the lock over the loom's axis, a choice of this project [m]
RAIL_DEPTH = 0.038  #: taken where the rail is not told: 1 1/2 in [m]

#: What an assumed length is called.
_ASSUMED = {
    "seat_edge_to_pins": ("the seat's aft edge {seat_edge_to_pins} from the pins", "rig.seat_edge_to_pins"),
    "seat_above_heels": ("the seat {seat_above_heels} above the heels", "boat.seat_above_heels"),
}


def fittings_of(inputs: Inputs, rig: Rig, force: Number) -> FittingInputs:
    """Bracket, tholes and rail with the forces of a rig.

    Parameters
    ----------
    inputs : Inputs
        Everything given. [record]
    rig : Rig
        The rig. [record]
    force : float or array
        Hard start, each hand. [N]

    Returns
    -------
    FittingInputs
        What the checks of the fittings need. [record]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> made = design(example_project("tumblehod").inputs)
    >>> fittings_of(made.inputs, made.rig, made.force).thole.diameter
    0.019
    """
    fixtures = inputs.fixtures
    above = fixtures.lock_above_rail
    if above is None and inputs.station.rail_above_water is not None:
        above = rig.lock_above_water - inputs.station.rail_above_water
    return FittingInputs(
        hand_force=force,
        hand_arm=rig.hand_arm,
        blade_arm=rig.blade_arm,
        lock_overhang=(rig.span - inputs.station.beam) / 2,
        grain_table=inputs.grain_table,
        lock_above_rail=above,
        bracket=fixtures.bracket,
        thole=fixtures.thole,
        rail=fixtures.rail,
    )


def lock_findings(inputs: Inputs, rig: Rig, force: Number, *, loom_ratio: float) -> list[Finding]:
    """What bracket, tholes, dock and seat come to, and what was taken from custom.

    Parameters
    ----------
    inputs : Inputs
        Everything given. [record]
    rig : Rig
        The rig. [record]
    force : float
        Hard start, each hand. [N]
    loom_ratio : float
        Least safety ratio of the oars in the same start. [1]

    Returns
    -------
    list of Finding
        Sentences with their quantities. [records]

    Notes
    -----
    Source: each room that is called names its own.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> codes = [f.code for f in design(example_project("tumblehod").inputs).findings]
    >>> "fitting_weakest" in codes, "seat_height" in codes
    (True, True)
    """
    fixtures, station = inputs.fixtures, inputs.station
    found: list[Finding] = []
    if fixtures.bracket is not None or fixtures.thole is not None:
        found += fitting_findings(fittings_of(inputs, rig, force), wanted=inputs.wanted_safety, loom_ratio=loom_ratio)
    found += _at_the_dock(inputs, rig)
    if fixtures.boat_mass is not None:
        found += seat_findings(
            rower_mass=inputs.rower.mass,
            boat_mass=fixtures.boat_mass,
            hand_force=force,
            half_beam=station.beam / 2,
            test=fixtures.heel_test,
        )
    return [*found, *_assumed(inputs)]


def note_seat(work: Working, inputs: Inputs, force: Number) -> None:
    """Keep the working of the brace, and of what a raised seat costs where the boat's mass is known.

    Parameters
    ----------
    work : Working
        Keeps the working. [record]
    inputs : Inputs
        Everything given. [record]
    force : float or array
        Hard start, each hand. [N]

    Returns
    -------
    None
        Nothing. [none]

    Notes
    -----
    Source: statics of a floating body; common practice for the brace.

    Examples
    --------
    >>> from oarkit import example_project
    >>> work = Working()
    >>> note_seat(work, example_project("quillet").inputs, 400.0)
    >>> [line.name for line in work.lines]
    ['rower.brace_force', 'rower.stability_lost']
    """
    work("rower.brace_force", seat.brace_force, hand_force=force)
    boat, test = inputs.fixtures.boat_mass, inputs.fixtures.heel_test
    if boat is None:
        return
    work("rower.stability_lost", seat.stability_lost, rower_mass=inputs.rower.mass, boat_mass=boat, rise=seat.RAISE)
    if test is not None:
        total = inputs.rower.mass + boat + test.weight
        work(
            "rower.gm", seat.gm_from_heel,
            weight=test.weight, offset=test.offset, total_mass=total, angle=test.angle,
        )  # fmt: skip


def _at_the_dock(inputs: Inputs, rig: Rig) -> list[Finding]:
    fixtures, station = inputs.fixtures, inputs.station
    rail = station.rail_above_water
    if rail is None:
        return []
    dock = fixtures.dock
    clearance = dock_clearance(
        beam=station.beam,
        overhang=(rig.span - station.beam) / 2,
        underside=rail - (RAIL_DEPTH if fixtures.rail is None else fixtures.rail.depth),
        top=rig.lock_above_water + (0.0 if rig.lock_offset is None else rig.lock_offset) + LOCK_HORNS,
        fender=None if dock is None else dock.fender,
        flare_run=0.0 if dock is None else dock.flare_run,
    )
    return dock_findings(clearance, dock_height=None if dock is None else dock.height)


def _assumed(inputs: Inputs) -> list[Finding]:
    """One note on what was not measured but taken from custom."""
    names = inputs.station.assumed
    if not names:
        return []
    told = " and ".join(_ASSUMED[name][0] for name in names)
    keys = " and ".join(_ASSUMED[name][1] for name in names)
    return [
        Finding(
            level="note",
            code="assumed",
            text=f"Not measured, so taken from custom: {told}. Arc, knees and foot brace stand on it; give {keys}.",
            quantities={name: Quantity(value=getattr(inputs.station, name), unit="m") for name in names},
            source="common practice",
        )
    ]


def placed_values(inputs: Inputs, rig: Rig, seated: Seated) -> dict[str, float]:
    """The station's own values under the names of the customary ranges.

    Parameters
    ----------
    inputs : Inputs
        Everything given. [record]
    rig : Rig
        The rig. [record]
    seated : Seated
        The rower on the seat. [record]

    Returns
    -------
    dict
        Name to value, without what is not known or only assumed. [any]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> made = design(example_project("tumblehod").inputs)
    >>> "gap" in placed_values(made.inputs, made.rig, made.seated)
    True
    """
    station = inputs.station
    values: dict[str, Number | None] = {
        "span": rig.span,
        "length": rig.length,
        "leverage_ratio": rig.leverage_ratio,
        "dip_in_drive": rig.dip_in_drive,
        "lock_above_seat": rig.lock_above_seat,
        "hand_height_in_drive": rig.hand_height_in_drive,
        "seat_edge_to_footrest": seated.brace_from_seat_edge,
    }
    if "seat_edge_to_pins" not in station.assumed:
        values["seat_edge_to_pins"] = station.seat_edge_to_pins
    if "seat_above_heels" not in station.assumed:
        values["seat_above_heels"] = station.seat_above_heels
    values["overlap" if float(rig.overlap) > 0 else "gap"] = np.abs(rig.overlap)
    return {name: float(value) for name, value in values.items() if value is not None}
