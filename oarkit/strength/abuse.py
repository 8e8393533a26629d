"""Loads that no oar is made for and many meet: prying, a foot, a push-off. The caught crab has a file of its own."""

from __future__ import annotations

import numpy as np

from oarkit.oar.build import Oar
from oarkit.strength.bend import Plane
from oarkit.strength.buckle import buckling_load
from oarkit.strength.load import LoadCase, above_nought, amplification, balanced, sound
from oarkit.working import Array, BadDesign, Number, Quantity, formula

PRY_FORCE = 300.0  #: at the hand [N], common practice
TIP_CONTACT = 0.005  #: from the tip to where it is trapped [m], a choice of this project
STEP_WEIGHT = 785.0  #: 80 kg [N]
STEP_PLACE = 0.450  #: outboard of the lock, where an oar across two thwarts usually bears a foot [m], common practice
STEP_GAP = 0.900  #: between two thwarts [m], common practice
PUSH_OFF = 350.0  #: along the oar [N], common practice 300 to 500
PUSH_ECCENTRICITY = 0.020  #: off the axis [m], a choice of this project
PUSH_SIDEWAYS = 80.0  #: at the middle [N], common practice


def pry(
    oar: Oar, *, force: Number = PRY_FORCE, fulcrum: Number | None = None, contact: Number = TIP_CONTACT
) -> LoadCase:
    """The oar as a lever off a beach: tip trapped, rail as fulcrum, the hand pushing.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    force : float or array, optional
        At the grip centre. [N]
    fulcrum : float or array, optional
        Where the oar lies on the rail, the pin line where nothing is said. [m]
    contact : float or array, optional
        From the tip to where it is trapped. [m]

    Returns
    -------
    LoadCase
        Abuse, from either side. [N]

    Notes
    -----
    Source: common practice for 300 N; statics.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> case = pry(oar)
    >>> case.forces[0], bool(case.forces[2] < 150)
    (300.0, True)
    """
    above_nought("prying", force=force)
    over = oar.shape.inboard if fulcrum is None else fulcrum
    trapped = oar.shape.length - contact
    if np.any(np.subtract(over, oar.shape.grip_centre) <= 0) or np.any(np.subtract(trapped, over) <= 0):
        raise BadDesign("the rail that the oar is pried over must lie between the hand and the tip")
    held = (over, trapped)
    places, forces = balanced(places=[oar.shape.grip_centre], forces=[force], held=held)
    return sound(
        oar,
        LoadCase(
            name="prying", kind="abuse", plane="stroke", places=places, forces=forces, held=held, either_way=True,
            basis="common practice: 300 N at the hand, tip trapped, the rail as fulcrum",
        ),
    )  # fmt: skip


@formula("M = W g/4", unit="N m", source="statics", where={"weight": "W [N]", "gap": "g [m]"})
def step_moment(*, weight: Number, gap: Number) -> Number:
    """Bending moment under a foot in the middle between two supports.

    Parameters
    ----------
    weight : float or array
        On the foot. [N]
    gap : float or array
        Between the supports. [m]

    Returns
    -------
    float or array
        Moment under the foot, the largest. [N m]

    Notes
    -----
    Source: statics.

    Examples
    --------
    >>> step_moment(weight=800.0, gap=1.0)
    200.0
    """
    return weight * gap / 4


def stepping_moment(oar: Oar, *, weight: Number = STEP_WEIGHT, gap: Number = STEP_GAP) -> Array:
    """The most that a foot in the middle of the gap brings at each station, wherever the oar may lie across it.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    weight : float or array, optional
        On the foot. [N]
    gap : float or array, optional
        Between the two thwarts. [m]

    Returns
    -------
    array
        Largest moment at each station, in either plane. [N m]

    Raises
    ------
    BadDesign
        The oar is shorter than the gap.

    Notes
    -----
    Source: statics; the foot on the station, or as near to it as the ends of the oar allow.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> round(float(stepping_moment(oar).max()), 3)
    176.625
    """
    length, across, foot = (np.asarray(size, dtype=float)[..., None] for size in (oar.shape.length, gap, weight))
    _across(gap=across, length=length)
    share = np.clip(2 * np.minimum(oar.s, length - oar.s) / across, 0.0, 1.0)
    return np.asarray(step_moment(weight=foot, gap=across) * share)


def _across(*, gap: Number, length: Number) -> None:
    """Refuse a gap that the oar does not reach across."""
    if np.any(np.greater(gap, length)):
        raise BadDesign(
            "an oar {length} long does not lie across a gap of {gap}",
            {
                "length": Quantity(value=float(np.min(length)), unit="m"),
                "gap": Quantity(value=float(np.max(gap)), unit="m"),
            },
        )


def worst_step(oar: Oar, *, plane: Plane, weight: Number = STEP_WEIGHT, gap: Number = STEP_GAP) -> Number:
    """Where outboard of the lock a foot in the middle of the gap brings the oar nearest to breaking.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    plane : {"stroke", "lateral"}
        The oar lying on the face of its blade, or on the edge. [text]
    weight : float or array, optional
        On the foot. [N]
    gap : float or array, optional
        Between the two thwarts. [m]

    Returns
    -------
    float or array
        Place of the foot, from the handle end. [m]

    Notes
    -----
    Source: derived; largest bending stress over strength, each wood taken as if it reached the outermost fibre, half
    the thickness or half the width from the axis. Both ends of the gap lie under the oar.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bool(worst_step(oar, plane="lateral") > oar.shape.inboard)
    True
    """
    moment = stepping_moment(oar, weight=weight, gap=gap)
    if plane == "stroke":
        strain = moment * oar.profile.thickness / oar.laminate.bending_stiffness
    else:
        strain = moment * oar.profile.width / oar.laminate.lateral_stiffness
    frail = np.zeros_like(strain)  # modulus over strength of the wood that bears least strain here
    for piece, fibre in zip(oar.pieces, oar.laminate.fibre, strict=True):
        wood = np.asarray(np.divide(piece.wood.modulus, piece.wood.strength))[..., None]
        frail = np.maximum(frail, wood * (fibre != 0))
    length, middle = (np.asarray(size, dtype=float)[..., None] for size in (oar.shape.length, np.divide(gap, 2)))
    free = (oar.middle > np.asarray(oar.shape.inboard)[..., None]) & (oar.s >= middle) & (oar.s <= length - middle)
    at = np.argmax(np.where(free, strain * frail, 0.0), axis=-1, keepdims=True)
    where: Number = np.take_along_axis(np.broadcast_to(oar.s, strain.shape), at, -1)[..., 0][()]
    return where


def stepped_on(
    oar: Oar, *, plane: Plane, place: Number | None = None, weight: Number = STEP_WEIGHT, gap: Number = STEP_GAP
) -> LoadCase:
    """A foot on the oar where it lies across two thwarts.

    The oar may lie on the face of its blade or on the edge: check both planes and take the worse.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    plane : {"stroke", "lateral"}
        Lying on the face of its blade, or on the edge. [text]
    place : float or array, optional
        Of the foot, half-way between the thwarts; the worst outboard of the lock where nothing is said. [m]
    weight : float or array, optional
        On the foot. [N]
    gap : float or array, optional
        Between the two thwarts. [m]

    Returns
    -------
    LoadCase
        Abuse, from either side. [N]

    Raises
    ------
    BadDesign
        A thwart does not lie under the oar.

    Notes
    -----
    Source: common practice, 80 kg in the middle of a gap of 0.9 m; statics.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> case = stepped_on(oar, plane="stroke", place=1.1)
    >>> [round(float(force), 3) for force in case.forces], [round(float(place), 3) for place in case.places]
    ([-785.0, 392.5, 392.5], [1.1, 0.65, 1.55])
    """
    above_nought("stepped on", weight=weight, gap=gap)
    foot = worst_step(oar, plane=plane, weight=weight, gap=gap) if place is None else place
    held = (np.subtract(foot, np.divide(gap, 2)), np.add(foot, np.divide(gap, 2)))
    places, forces = balanced(places=[foot], forces=[np.negative(weight)], held=held)
    return sound(
        oar,
        LoadCase(
            name="stepped on", kind="abuse", plane=plane, places=places, forces=forces, held=held, either_way=True,
            basis="common practice: 80 kg on the oar across a gap of 0.9 m",
        ),
    )  # fmt: skip


def push_off(
    oar: Oar,
    *,
    plane: Plane = "stroke",
    force: Number = PUSH_OFF,
    eccentricity: Number = PUSH_ECCENTRICITY,
    sideways: Number = PUSH_SIDEWAYS,
    buckling: Number | None = None,
    refuse: bool = True,
) -> LoadCase:
    """One hand pushing off with the tip: a column pressed off its axis and loaded sideways.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    plane : {"stroke", "lateral"}, optional
        Bowing square to the blade face, or in its plane. [text]
    force : float or array, optional
        Along the oar. [N]
    eccentricity : float or array, optional
        Of that force, at hand and tip alike; half the blade width where a tip corner takes it. [m]
    sideways : float or array, optional
        Half-way from hand to tip. [N]
    buckling : float or array, optional
        Buckling load of the oar where it is known already, worked out where nothing is said. [N]

    refuse : bool, optional
        Whether an oar that buckles is refused; if not, its bending counts endlessly often. [flag]

    Returns
    -------
    LoadCase
        Abuse, from either side; beside it the buckling load. [N]

    Raises
    ------
    BadDesign
        The oar buckles under the push.

    Notes
    -----
    Source: common practice for 300 to 500 N and 80 N; 20 mm off the axis is a choice of this project. Bending counts
    1/(1 − P/P_cr) times, Wood Handbook FPL-GTR-282 (2021), eq. 9-7.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bool(1.1 < push_off(oar).amplified < 1.5)
    True
    """
    above_nought("push-off", force=force)
    held = (oar.shape.grip_centre, oar.shape.length)
    buckling = buckling_load(oar, plane=plane) if buckling is None else buckling
    buckled = bool(np.any(np.greater_equal(force, buckling)))
    middle = np.divide(np.add(*held), 2)
    places, forces = balanced(places=[middle], forces=[np.negative(sideways)], held=held)
    return sound(
        oar,
        LoadCase(
            name="push-off", kind="abuse", plane=plane, places=places, forces=forces, held=held, either_way=True,
            axial=force, eccentricity=eccentricity, pressed=held,
            amplified=amplification(axial=force, buckling=buckling) if refuse or not buckled else np.inf,
            basis="common practice: 300 to 500 N on one arm, 80 N sideways; 20 mm off the axis",
            beside={"buckling load": Quantity(value=buckling, unit="N")},
        ),
    )  # fmt: skip
