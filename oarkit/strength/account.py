"""The working of one oar: mass, feel and the hard start, each number kept under its name."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from oarkit.oar import mass as mass_of
from oarkit.oar.build import Oar
from oarkit.strength import beam, bend, hard_start
from oarkit.strength.all_cases import Cases
from oarkit.strength.buckle import buckling_load
from oarkit.strength.crab import crab_force
from oarkit.strength.hard_start import Check
from oarkit.strength.local import twist_angle
from oarkit.working import Number, Quantity, Working


def note_oar(work: Working, oar: Oar, *, force: Number, prefix: str) -> None:
    """Keep the working of one oar under its names.

    Parameters
    ----------
    work : Working
        Where the lines are kept. [record]
    oar : Oar
        The oar (scalars). [record]
    force : float
        Hard start at the grip centre. [N]
    prefix : str
        Goes before each name, e.g. "starboard." where the pair's boards differ. [text]

    Returns
    -------
    None
        The lines are kept in ``work``. [none]

    Notes
    -----
    Source: each line names its own.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> work = Working()
    >>> note_oar(work, design(example_project("quillet").inputs).oars["port"], force=400.0, prefix="")
    >>> work.lines[0].name
    'oar.mass'
    """
    masses = {
        f"{piece.kind} {number}": Quantity(value=m, unit="kg")
        for number, (piece, m) in enumerate(zip(oar.pieces, mass_of.piece_masses(oar), strict=True), 1)
    }
    total, at = mass_of.mass(oar), mass_of.balance(oar)
    work.keep(
        f"oar.{prefix}mass", mass_of.mass, total, {**masses, "leather": Quantity(value=oar.leather.mass, unit="kg")}
    )
    work.keep(
        f"oar.{prefix}balance",
        mass_of.balance,
        at,
        {"m": Quantity(value=total, unit="kg"), "L_i": Quantity(value=oar.shape.inboard, unit="m")},
    )
    work(f"oar.{prefix}hand_weight", mass_of.hand_weight, mass=total, balance=at, hand_arm=oar.hand_arm)
    work.keep(
        f"oar.{prefix}inertia_about_lock",
        mass_of.inertia_about_lock,
        mass_of.inertia_about_lock(oar),
        {"m": Quantity(value=total, unit="kg")},
    )
    work.keep(
        f"oar.{prefix}blade_area",
        mass_of.blade_area,
        mass_of.blade_area(oar),
        {"b_L": Quantity(value=oar.shape.blade_length, unit="m"), "w": Quantity(value=oar.shape.blade_width, unit="m")},
    )
    outboard, inboard, shear = bend.drop_shares(oar)
    drop = bend.bench_drop(oar)
    work.keep(
        f"oar.{prefix}bench_drop",
        bend.bench_drop,
        drop,
        {
            "load": Quantity(value=bend.BENCH_LOAD, unit="N"),
            "bending outboard": Quantity(value=outboard, unit="m"),
            "inboard": Quantity(value=inboard, unit="m"),
            "shear": Quantity(value=shear, unit="m"),
        },
    )
    work(f"oar.{prefix}stiffness_index", bend.stiffness_index, drop=drop, blade_arm=oar.blade_arm)
    work.keep(
        f"oar.{prefix}first_frequency",
        bend.first_frequency,
        bend.first_frequency(oar),
        {"m": Quantity(value=total, unit="kg")},
    )
    work(
        f"strength.{prefix}blade_force",
        hard_start.blade_force,
        force=force,
        hand_arm=oar.hand_arm,
        blade_arm=oar.blade_arm,
    )
    moment = work(f"strength.{prefix}lock_moment", hard_start.lock_moment, force=force, hand_arm=oar.hand_arm)
    at_pin = np.flatnonzero(np.isclose(oar.s, float(oar.shape.inboard), atol=1e-9))
    pin, piece, fibre = max(
        ((k, p, float(f[k])) for k in at_pin for p, f in zip(oar.pieces, oar.laminate.fibre, strict=True)),
        key=lambda here: here[2] * float(here[1].wood.modulus) / float(oar.laminate.bending_stiffness[here[0]]),
    )
    work(
        f"strength.{prefix}lock_stress",
        hard_start.bending_stress,
        moment=moment,
        fibre=fibre,
        modulus=piece.wood.modulus,
        bending_stiffness=float(oar.laminate.bending_stiffness[pin]),
    )


def note_loads(work: Working, oar: Oar, cases: Cases, made: Sequence[Check], *, prefix: str) -> None:
    """Keep the working of how an oar bends and what its loads come to.

    Parameters
    ----------
    work : Working
        Where the lines are kept. [record]
    oar : Oar
        The oar (scalars). [record]
    cases : Cases
        Its load cases. [record]
    made : sequence of Check
        Its checks. [records]
    prefix : str
        Goes before each name, e.g. "starboard." where the pair's boards differ. [text]

    Returns
    -------
    None
        The lines are kept in ``work``. [none]

    Notes
    -----
    Source: each line names its own.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> from oarkit.strength.all_cases import all_cases
    >>> from oarkit.strength.checks import every_check
    >>> oar, work = design(example_project("quillet").inputs).oars["port"], Working()
    >>> known = all_cases(oar)
    >>> note_loads(work, oar, known, every_check(oar, known), prefix="")
    >>> work.lines[0].name
    'oar.bench_drop_at_tip'
    """
    shape, bench, start = oar.shape, cases.named("bench test"), cases.named("hard start")
    ten = {"load": Quantity(value=bend.BENCH_LOAD, unit="N")}
    hand = {"F_h": Quantity(value=start.forces[1], unit="N")}
    seven = {"load": Quantity(value=cases.named("bench test at the tip").forces[0], unit="N")}
    work.keep(f"oar.{prefix}bench_drop_at_tip", beam.bench_drop_at_tip, beam.bench_drop_at_tip(oar), seven)
    for name, function, case, place, numbers in (
        ("tip_drop", beam.deflection_at, bench, shape.length, ten),
        ("tip_slope", beam.slope_at, bench, shape.length, ten),
        ("service_lag", beam.deflection_at, start, shape.mid_blade, hand),
        ("service_turn", beam.slope_at, start, shape.mid_blade, hand),
    ):
        work.keep(f"oar.{prefix}{name}", function, function(oar, case, place=place), numbers)
    swing = {"mass": mass_of.mass(oar), "balance": mass_of.balance(oar), "inertia": mass_of.inertia_about_lock(oar)}
    between = (oar.middle > float(shape.inboard)) & (oar.middle < float(shape.blade_root))
    work(
        f"oar.{prefix}service_twist",
        twist_angle,
        torque=float(start.torque),
        stiffness=oar.laminate.torsion_stiffness,
        weight=oar.weight * between,
    )
    middle = {"s_m": Quantity(value=shape.mid_blade, unit="m")}
    work.keep(f"oar.{prefix}blade_centre", mass_of.blade_centre, mass_of.blade_centre(oar), middle)
    if float(swing["balance"]) > 0:
        work(f"oar.{prefix}percussion", mass_of.centre_of_percussion, **swing)
    for case in cases.made:
        if case.name == "caught crab":
            known = {name: case.beside[name].value for name in ("felt mass", "stiffness at mid-blade")}
            speed = abs(case.forces[0]) / np.sqrt(known["felt mass"] * known["stiffness at mid-blade"])
            work(
                f"strength.{prefix}crab_force", crab_force,
                speed=speed, felt=known["felt mass"], stiffness=known["stiffness at mid-blade"],
            )  # fmt: skip
        if case.name == "push-off" and case.plane == "stroke":
            length = {"l": Quantity(value=shape.length - shape.grip_centre, unit="m")}
            buckling = case.beside["buckling load"].value
            work.keep(f"strength.{prefix}buckling_load", buckling_load, buckling, length)
    abused = [check for check in made if check.kind == "abuse" and check.breaks]
    if abused:
        worst = min(abused, key=lambda check: float(check.ratio))
        work(
            f"strength.{prefix}least_abuse_ratio", hard_start.safety_ratio,
            strength=worst.strength, stress=worst.stress,
        )  # fmt: skip
