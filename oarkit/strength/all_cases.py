"""Every load case of an oar, with the magnitudes told and the customary ones where nothing is said."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

import numpy as np

from oarkit.oar.any_shape import Shape
from oarkit.oar.build import Oar
from oarkit.strength import abuse, cases
from oarkit.strength.bend import Plane
from oarkit.strength.crab import caught_crab
from oarkit.strength.hard_start import CUSTOMARY_FORCE, hand_force
from oarkit.strength.load import LoadCase
from oarkit.strength.told import CrewInputs, LoadInputs
from oarkit.working import BadDesign, Number, Quantity

WEAKEST = "stepped on at its weakest"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cases:
    """The load cases of an oar, those of rowing first; those it bows out of itself under; why others were not made."""

    made: tuple[LoadCase, ...]
    not_made: Mapping[str, str]
    buckled: tuple[LoadCase, ...] = ()

    def named(self, name: str) -> LoadCase:
        """The first case of a name."""
        return next(case for case in self.made if case.name == name)


def load_places(shape: Shape) -> tuple[Number, ...]:
    """Places along an oar where its load cases bend it most, and where nothing else calls for a station.

    Parameters
    ----------
    shape : Shape
        The outline. [record]

    Returns
    -------
    tuple of float or array
        Where a foot lands on an oar across two thwarts, half-way between hand and tip, and where the corner begins that
        shares a knock on the tip. [m]

    Notes
    -----
    Source: the cases themselves, `oarkit.strength.abuse`.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> shape = design(example_project("quillet").inputs).oars["port"].shape
    >>> [round(float(place), 5) for place in load_places(shape)]
    [1.07865, 1.173, 2.226]
    """
    foot = np.minimum(shape.inboard + abuse.STEP_PLACE, shape.length)[()]
    return foot, np.divide(np.add(shape.grip_centre, shape.length), 2), np.subtract(shape.length, cases.CORNER_WIDTH)


def hard_start_force(loads: LoadInputs, crew: CrewInputs) -> Number:
    """Force at each hand in a hard start: as told, else customary for the rower.

    Parameters
    ----------
    loads : LoadInputs
        What was told. [record]
    crew : CrewInputs
        The rower. [record]

    Returns
    -------
    float or array
        Force at the grip centre. [N]

    Raises
    ------
    BadDesign
        The force told is no number above nought.

    Notes
    -----
    Source: common practice; `oarkit.strength.hard_start.hand_force`.

    Examples
    --------
    >>> float(hard_start_force(LoadInputs(), CrewInputs(rower_mass=85.0)))
    450.0
    """
    if loads.hard_start is not None:
        if not 0 < float(np.min(loads.hard_start)) <= float(np.max(loads.hard_start)) < np.inf:
            raise BadDesign("the force of the hard start must be a number above nought")
        return loads.hard_start
    return CUSTOMARY_FORCE if crew.rower_mass is None else hand_force(rower_mass=crew.rower_mass)


def all_cases(oar: Oar, loads: LoadInputs = LoadInputs(), crew: CrewInputs = CrewInputs()) -> Cases:
    """Every load case that can be made of what is known.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    loads : LoadInputs, optional
        Magnitudes; customary where nothing is said. [record]
    crew : CrewInputs, optional
        Boat and rower, which the caught crab needs. [record]

    Returns
    -------
    Cases
        The cases, and what could not be made. [record]

    Notes
    -----
    Source: each case names its own.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> known = all_cases(oar)
    >>> known.named("hard start").kind, sorted(known.not_made)
    ('customary', ['caught crab'])
    """
    made: list[LoadCase] = []
    buckled: list[LoadCase] = []
    not_made: dict[str, str] = {}
    for (name, plane), make in _makers(oar, loads, crew).items():
        try:
            case = make()
            told = any(getattr(loads, key) is not None for key in _TOLD_BY.get(name, ()))
            case = replace(case, basis=f"as told under [loads]; else {case.basis}" if told else case.basis)
            (made if np.all(np.isfinite(case.amplified)) else buckled).append(case)
        except BadDesign as error:
            not_made[name if plane == "stroke" else f"{name}, lateral"] = str(error)
    return Cases(made=tuple(made), not_made=not_made, buckled=tuple(buckled))


#: Magnitudes that a user may tell of each case.
_TOLD_BY: dict[str, tuple[str, ...]] = {
    "cruise": ("cruise",),
    "hard start": ("hard_start",),
    "proof load": ("proof_share", "hard_start"),
    "caught crab": ("crab_speed",),
    "steering": ("steer_speed",),
    "prying": ("pry",),
    "stepped on": ("step_weight", "step_gap"),
    "stepped on at its weakest": ("step_weight", "step_gap"),
    "push-off": ("push_off", "push_sideways"),
    "tip knocked": ("tip_corner",),
    "tip dragged": ("drag",),
}


def one_case(oar: Oar, like: LoadCase, loads: LoadInputs, crew: CrewInputs) -> LoadCase:
    """The load case of the same name and plane on another oar, or on many.

    Parameters
    ----------
    oar : Oar
        The other oar. [record]
    like : LoadCase
        The case. [record]
    loads : LoadInputs
        Magnitudes; customary where nothing is said. [record]
    crew : CrewInputs
        Boat and rower. [record]

    Returns
    -------
    LoadCase
        The case on that oar. [record]

    Notes
    -----
    Source: as `all_cases`.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> one_case(oar, cases.cruise(oar), LoadInputs(), CrewInputs()).name
    'cruise'
    """
    return _makers(oar, loads, crew)[like.name, like.plane]()


def _makers(oar: Oar, loads: LoadInputs, crew: CrewInputs) -> dict[tuple[str, Plane], Callable[[], LoadCase]]:
    """How each case is made, by its name and plane, those of rowing first."""
    force = hard_start_force(loads, crew)
    step = _told(weight=loads.step_weight, gap=loads.step_gap)
    push = _told(force=loads.push_off, sideways=loads.push_sideways)
    usual = oar.shape.inboard + abuse.STEP_PLACE
    stroke: dict[str, Callable[[], LoadCase]] = {
        "cruise": partial(cases.cruise, oar, **_told(force=loads.cruise)),
        "hard start": partial(cases.hard_start, oar, force=force),
        "proof load": partial(cases.proof_load, oar, force=force, **_told(share=loads.proof_share)),
        "bench test": partial(cases.bench_test, oar),
        "bench test at the tip": partial(cases.bench_test_at_tip, oar),
        "caught crab": partial(_crab, oar, loads, crew),
        "steering": partial(cases.steering, oar, density=crew.water_density, **_told(speed=loads.steer_speed)),
        "prying": partial(abuse.pry, oar, **_told(force=loads.pry)),
        "tip knocked": partial(cases.tip_knocked, oar, **_told(force=loads.tip_corner)),
    }
    made: dict[tuple[str, Plane], Callable[[], LoadCase]] = {(name, "stroke"): make for name, make in stroke.items()}
    made["tip dragged", "lateral"] = partial(cases.tip_dragged, oar, **_told(force=loads.drag))
    planes: tuple[Plane, ...] = ("stroke", "lateral")
    for plane in planes:
        made["stepped on", plane] = partial(abuse.stepped_on, oar, plane=plane, place=usual, **step)
        made[WEAKEST, plane] = partial(_at_weakest, oar, plane=plane, **step)
        made["push-off", plane] = partial(abuse.push_off, oar, plane=plane, refuse=False, **push)
    return made


def _at_weakest(oar: Oar, **told: Any) -> LoadCase:
    return replace(abuse.stepped_on(oar, **told), name=WEAKEST)


def _crab(oar: Oar, loads: LoadInputs, crew: CrewInputs) -> LoadCase:
    """The caught crab, where boat and rower are known."""
    needed = {"boat_mass": crew.boat_mass, "boat_length": crew.boat_length, "rower_mass": crew.rower_mass,
              "span": crew.span}  # fmt: skip
    known = {name: value for name, value in needed.items() if value is not None}
    if len(known) < len(needed):
        lacking = [name.replace("_", " ") for name in needed if name not in known]
        raise BadDesign(f"it needs {' and '.join(lacking)}")
    length = known.pop("boat_length")
    return caught_crab(oar, length_overall=length, density=crew.water_density, **_told(speed=loads.crab_speed), **known)


def case_quantities(oar: Oar, case: LoadCase) -> dict[str, Quantity]:
    """Forces of a case by where they act, to print beside it.

    Parameters
    ----------
    oar : Oar
        The oar (scalars). [record]
    case : LoadCase
        The load (scalars). [record]

    Returns
    -------
    dict of str to Quantity
        Sizes of the forces, pushes and torques that are not nil. [N, N m]

    Notes
    -----
    Source: the case itself.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> sorted(case_quantities(oar, cases.bench_test(oar)))
    ['blade', 'hand', 'lock']
    """
    shape = oar.shape
    stepped = case.name.startswith("stepped")
    known = {
        "hand": shape.grip_centre,
        "rail" if case.name == "prying" else "lock": shape.inboard,
        "blade": shape.mid_blade,
    }
    found: dict[str, Quantity] = {}
    for number, (place, force) in enumerate(zip(case.places, case.forces, strict=True)):
        near = [name for name, at in known.items() if abs(float(place) - float(at)) < 1e-6]
        if stepped:
            name = ("foot", "one thwart", "other thwart")[number]
        elif near:
            name = near[0]
        else:
            name = "tip" if float(place) > float(shape.mid_blade) else "sideways"
        found[name] = Quantity(value=abs(float(force)), unit="N")
    others = {
        "along the oar": (case.axial, "N"),
        "on a corner": (case.corner_force, "N"),
        "torque": (case.torque, "N m"),
    }
    return found | {
        name: Quantity(value=float(size), unit=unit) for name, (size, unit) in others.items() if float(size)
    }


def _told(**sizes: Number | None) -> dict[str, Any]:
    """Those that were told; the others keep what is customary."""
    return {name: size for name, size in sizes.items() if size is not None}
