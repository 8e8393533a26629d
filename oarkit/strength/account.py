"""The working of one oar: mass, feel and the hard start, each number kept under its name."""

from __future__ import annotations

import numpy as np

from oarkit.oar import mass as mass_of
from oarkit.oar.build import Oar
from oarkit.strength import bend, hard_start
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
