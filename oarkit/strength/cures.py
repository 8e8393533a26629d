"""What would raise the ratio of a check most for its weight, in a sentence."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from oarkit.oar.build import Oar
from oarkit.oar.measured import MeasuredShape
from oarkit.strength.all_cases import Cases, hard_start_force, one_case
from oarkit.strength.along import bending_along
from oarkit.strength.blade import corner_check
from oarkit.strength.hard_start import Check, safety_ratio
from oarkit.strength.helping import helps
from oarkit.strength.sensitivity import Sensitivities
from oarkit.strength.told import CrewInputs, LoadInputs
from oarkit.working import Number, Quantity


def cure_of(
    oar: Oar,
    check: Check,
    cases: Cases,
    loads: LoadInputs,
    crew: CrewInputs,
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
        tried = helps(oar, force=force, ratio_of=_ratio_of(check, cases, loads, crew))
    sizes = next((one for one in tried if one.what not in ("faces", "modulus")), None)
    others = [one for one in tried if one.what in ("faces", "modulus")][:1]
    if sizes is None and not others:
        return " No millimetre more at any one place would raise it.", {}
    told, quantities = [], {}
    for key, one in zip("ab", [*([sizes] if sizes else []), *others], strict=False):
        words = {
            "modulus": f"a {one.zone} {'stiffer' if float(one.amount.value) > 0 else 'more limber'} by {{{key}_by}}",
            "faces": f"hardwood faces of {{{key}_by}} under the leather",
        }.get(one.what, f"{{{key}_by}} more {one.what} of the {one.zone}")
        heavier = f", {{{key}_mass}} {'more' if one.mass > 0 else 'less'} weight" if abs(one.mass) > 5e-5 else ""
        told.append(f"{words} ({{{key}_ratio}}{heavier})")
        share = one.what == "modulus"
        quantities[f"{key}_by"] = Quantity(value=abs(float(one.amount.value)), unit="%") if share else one.amount
        quantities[f"{key}_mass"] = Quantity(value=abs(one.mass), unit="kg")
        quantities[f"{key}_ratio"] = Quantity(value=one.ratio, unit="1")
    of_next = " in a next one" if isinstance(oar.shape, MeasuredShape) else ""
    return f" What would raise it most for its weight{of_next}: {' or '.join(told)}.", quantities


def _ratio_of(check: Check, cases: Cases, loads: LoadInputs, crew: CrewInputs) -> Callable[[Oar], Number]:
    """The ratio of a check on other oars, their loads worked anew."""
    like = next(case for case in cases.made if (case.name, case.plane) == (check.case, check.plane))

    def of(oar: Oar) -> Number:
        case = one_case(oar, like, loads, crew)
        if check.what.startswith("tip corner"):
            corner = corner_check(oar, force=case.corner_force, arm=case.corner_arm)
            return np.inf if corner is None else corner.ratio
        pieces = zip(oar.pieces, bending_along(oar, case), strict=True)
        ratios = [
            safety_ratio(strength=piece.wood.strength, stress=np.max(stress, axis=-1)) for piece, stress in pieces
        ]
        least: Number = np.min(np.broadcast_arrays(*ratios), axis=0)
        return least

    return of
