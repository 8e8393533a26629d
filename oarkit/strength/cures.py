"""What would raise the ratio of a check most for its weight, in a sentence."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from oarkit.oar.build import Oar
from oarkit.oar.measured import MeasuredShape
from oarkit.strength.all_cases import Cases, hard_start_force, one_case
from oarkit.strength.along import bending_along, glue_stress_along, shear_stress_along, twist_stress_along
from oarkit.strength.blade import corner_check, plate_check
from oarkit.strength.checks import BLADE_PLATE, GLUE_STRENGTH, TIP_CORNER, CheckInputs, root_of
from oarkit.strength.hard_start import Check, safety_ratio
from oarkit.strength.helping import Help, helps
from oarkit.strength.hole import hole_stress_in
from oarkit.strength.load import LoadCase
from oarkit.strength.sensitivity import Sensitivities
from oarkit.strength.told import CrewInputs, LoadInputs
from oarkit.working import Array, Number, Quantity


def cure_of(
    oar: Oar,
    check: Check,
    cases: Cases,
    loads: LoadInputs,
    crew: CrewInputs,
    told: CheckInputs = CheckInputs(),
    *,
    sens: Sensitivities | None = None,
) -> tuple[str, dict[str, Quantity]]:
    """What raises the ratio of a check most for its weight, worked on this oar with that changed.

    Parameters
    ----------
    oar : Oar
        The oar (scalars). [record]
    check : Check
        The check. [record]
    cases : Cases
        Its load cases. [record]
    loads : LoadInputs
        Magnitudes told. [record]
    crew : CrewInputs
        Boat and rower. [record]
    told : CheckInputs, optional
        Hole and share for fatigue. [record]
    sens : Sensitivities, optional
        Those of the hard start, where they are worked already. [records]

    Returns
    -------
    tuple of str and dict
        A sentence with gaps, and the quantities that fill them. [text, records]

    Notes
    -----
    Source: `oarkit.strength.helping.helps` with the ratio of that check.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> from oarkit.strength.all_cases import all_cases
    >>> from oarkit.strength.checks import every_check
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> known = all_cases(oar)
    >>> text, _ = cure_of(oar, every_check(oar, known)[0], known, LoadInputs(), CrewInputs())
    >>> "for its weight" in text
    True
    """
    force = float(hard_start_force(loads, crew))
    if (check.case, check.what) == ("hard start", "bending") and sens is not None:
        tried = helps(oar, force=force, sens=sens)
    else:
        tried = helps(oar, force=force, ratio_of=_ratio_of(check, cases, loads, crew, told))
    sizes = next((one for one in tried if one.what not in ("faces", "modulus")), None)
    others = [one for one in tried if one.what in ("faces", "modulus")][:1]
    if sizes is None and not others:
        return " No millimetre more at any one place would raise it.", {}
    words_of, quantities = [], {}
    for key, one in zip("ab", [*([sizes] if sizes else []), *others], strict=False):
        words = {
            "modulus": f"a board {_how(one)} by {{{key}_by}} for the {one.zone}",
            "faces": f"hardwood faces of {{{key}_by}} under the leather",
        }.get(one.what, f"{{{key}_by}} more {one.what} of the {one.zone}")
        heavier = f", {{{key}_mass}} {'more' if one.mass > 0 else 'less'} weight" if abs(one.mass) > 5e-5 else ""
        words_of.append(f"{words} ({{{key}_ratio}}{heavier})")
        share = one.what == "modulus"
        quantities[f"{key}_by"] = Quantity(value=abs(float(one.amount.value)), unit="%") if share else one.amount
        quantities[f"{key}_mass"] = Quantity(value=abs(one.mass), unit="kg")
        quantities[f"{key}_ratio"] = Quantity(value=one.ratio, unit="1")
    of_next = " in a next one" if isinstance(oar.shape, MeasuredShape) else ""
    return f" What would raise it most for its weight{of_next}: {' or '.join(words_of)}.", quantities


def _how(one: Help) -> str:
    return "stiffer" if float(one.amount.value) > 0 else "less stiff"


def _ratio_of(
    check: Check, cases: Cases, loads: LoadInputs, crew: CrewInputs, told: CheckInputs
) -> Callable[[Oar], Number]:
    """The ratio of a check on other oars, their loads worked anew."""
    like = next(case for case in (*cases.made, *cases.buckled) if (case.name, case.plane) == (check.case, check.plane))

    def of(oar: Oar) -> Number:
        return ratio_under(oar, one_case(oar, like, loads, crew), check.what, told)

    return of


def ratio_under(oar: Oar, case: LoadCase, what: str, told: CheckInputs) -> Number:
    """Least ratio of one way to fail under one load, of any number of oars.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    case : LoadCase
        The load. [record]
    what : str
        The way to fail, as the checks call it. [text]
    told : CheckInputs
        Hole and share for fatigue. [record]

    Returns
    -------
    float or array
        Strength over stress where it is least. [1]

    Notes
    -----
    Source: as `oarkit.strength.checks.every_check`.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> from oarkit.strength.cases import hard_start
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> round(float(ratio_under(oar, hard_start(oar), "bending", CheckInputs())), 2)
    1.72
    """
    if what == "column":
        return np.divide(case.beside["buckling load"].value, case.axial)
    if what in (TIP_CORNER, BLADE_PLATE):
        at_blade = np.abs(case.forces[0]) if case.forces else 0.0
        found = (
            corner_check(oar, force=case.corner_force, arm=case.corner_arm)
            if what == TIP_CORNER
            else plate_check(oar, force=at_blade)
        )
        return np.inf if found is None else found.ratio
    shared = told.fatigue_share if what.startswith("fatigue") and told.fatigue_share is not None else 1.0
    least: Number = np.inf
    hole = told.hole if what.endswith("at the hole") else None
    for stress, strength in _stresses(oar, case, what):
        if strength is None:
            continue
        most = np.max(stress, axis=-1) if hole is None else hole_stress_in(oar, case, hole, stress=stress)
        least = np.minimum(least, safety_ratio(strength=np.multiply(strength, shared), stress=most))
    return least


def _stresses(oar: Oar, case: LoadCase, what: str) -> list[tuple[Array, Number | None]]:
    """Stress of each piece in that way to fail, and what it bears."""
    pieces = oar.pieces
    if what == "torsion":
        made = twist_stress_along(oar, case)
        return [(stress, p.wood.plate_shear_strength) for p, stress in zip(pieces, made, strict=True)]
    if what == "glue line":
        return [(stress, GLUE_STRENGTH) for stress in glue_stress_along(oar, case)]
    if what == "shear":
        stress = shear_stress_along(oar, case)
        here = [(stress * (f != 0), p.wood.shear_strength) for p, f in zip(pieces, oar.laminate.fibre, strict=True)]
        return here
    at_root = root_of(oar) if what == "bending at the blade root" else np.asarray(True)
    made = bending_along(oar, case)
    return [(stress * at_root, p.wood.strength) for p, stress in zip(pieces, made, strict=True)]
