"""Loads of rowing, bench and proof, of steering, and of a tip that is knocked or dragged: one function each.

Every size may be changed; what stands where nothing is said has its basis written in the case. What a crab, a pry, a
foot or a push-off brings is in `oarkit.strength.crab` and `oarkit.strength.abuse`.
"""

from __future__ import annotations

from oarkit.oar.afloat import FRESH_WATER
from oarkit.oar.build import Oar
from oarkit.oar.mass import GRAVITY, blade_area
from oarkit.strength.bend import BENCH_LOAD
from oarkit.strength.hard_start import CUSTOMARY_FORCE, blade_force
from oarkit.strength.load import Kind, LoadCase, above_nought, balanced, loom_torque, sound, water_force
from oarkit.working import Number

CRUISE_FORCE = 150.0  #: peak at each hand [N]
PROOF_SHARE = 1.25  #: of the blade force of the hard start
POUND = 0.45359237  #: [kg]
TIP_LOAD = 7 * POUND * GRAVITY  #: the other bench test [N]
TIP_INSET = 0.005  #: hung that far in from the tip [m], common practice
PRESSURE_OFFSET = 0.015  #: pressure centre off the axis [m], a choice of this project
FEATHERING = 3.0  #: torque of the hand [N m], common practice 2 to 4
STEER_SPEED = 2.5  #: of the water past the blade [m/s]
NORMAL_COEFFICIENT = 1.1  #: of a blade across the water
KNOCK = 150.0  #: on a tip corner [N], common practice 100 to 200
CORNER_WIDTH = 0.060  #: of the blade at the tip that shares it [m], common practice
KNOCK_ARM = 0.040  #: off the spine [m], common practice
DRAG = 100.0  #: on the tip in the plane of the blade [N], the lower end of a knock


def _drive(oar: Oar, *, name: str, kind: Kind, at_blade: Number, basis: str, torque: Number, way: int = 1) -> LoadCase:
    """Blade, hand and lock in balance; ``way`` is −1 for the reverse of a stroke."""
    held = (oar.shape.grip_centre, oar.shape.inboard)
    places, forces = balanced(places=[oar.shape.mid_blade], forces=[way * at_blade], held=held)
    case = LoadCase(
        name=name, kind=kind, plane="stroke", places=places, forces=forces, held=held, basis=basis, torque=torque,
        twisted=(oar.shape.grip_centre, oar.shape.mid_blade), reversed=way < 0, either_way=name == "steering",
    )  # fmt: skip
    return sound(oar, case)


def _pulled(oar: Oar, *, name: str, force: Number, basis: str) -> LoadCase:
    """A stroke with that force at the hand."""
    above_nought(name, force=force)
    at_blade = blade_force(force=force, hand_arm=oar.hand_arm, blade_arm=oar.blade_arm)
    torque = loom_torque(force=at_blade, offset=PRESSURE_OFFSET, feathering=FEATHERING)
    return _drive(oar, name=name, kind="customary", at_blade=at_blade, basis=basis, torque=torque)


def cruise(oar: Oar, *, force: Number = CRUISE_FORCE) -> LoadCase:
    """Peak of an easy stroke.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    force : float or array, optional
        At the grip centre. [N]

    Returns
    -------
    LoadCase
        Customary load. [N]

    Notes
    -----
    Source: derived from power, hand path and rate, 60 to 120 N mean and about 150 N peak.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> round(float(sum(cruise(oar).forces)), 9)
    0.0
    """
    return _pulled(oar, name="cruise", force=force, basis="derived from power, hand path and rate: about 150 N at peak")


def hard_start(oar: Oar, *, force: Number = CUSTOMARY_FORCE) -> LoadCase:
    """The hardest stroke, from rest.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    force : float or array, optional
        At the grip centre. [N]

    Returns
    -------
    LoadCase
        Customary load. [N]

    Notes
    -----
    Source: common practice, 350 to 450 N a hand; see `oarkit.strength.hard_start.hand_force`.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> case = hard_start(oar, force=450.0)
    >>> case.kind, round(float(case.forces[1]), 6)
    ('customary', 450.0)
    """
    return _pulled(oar, name="hard start", force=force, basis="common practice: 350 to 450 N at each hand")


def proof_load(oar: Oar, *, force: Number = CUSTOMARY_FORCE, share: Number = PROOF_SHARE) -> LoadCase:
    """Weight hung at mid-blade for ten seconds to prove the oar.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    force : float or array, optional
        Hard start at the grip centre. [N]
    share : float or array, optional
        Of the blade force of that hard start. [1]

    Returns
    -------
    LoadCase
        Customary load. [N]

    Notes
    -----
    Source: common practice, 1.25 times the blade force of the hard start for 10 s.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> round(float(proof_load(oar).forces[0] / hard_start(oar).forces[0]), 6)
    1.25
    """
    above_nought("proof load", force=force, share=share)
    at_blade = share * blade_force(force=force, hand_arm=oar.hand_arm, blade_arm=oar.blade_arm)
    basis = "common practice: 1.25 times the blade force of the hard start, hung for 10 s"
    return _drive(oar, name="proof load", kind="customary", at_blade=at_blade, basis=basis, torque=0.0)


def bench_test(oar: Oar, *, load: Number = BENCH_LOAD) -> LoadCase:
    """10 kg hung at mid-blade, grip centre and lock held.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    load : float or array, optional
        Weight. [N]

    Returns
    -------
    LoadCase
        Customary load. [N]

    Notes
    -----
    Source: common practice.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> round(bench_test(oar).forces[0], 4)
    98.0665
    """
    above_nought("bench test", load=load)
    return _drive(
        oar, name="bench test", kind="customary", at_blade=load, basis="common practice: 10 kg at mid-blade", torque=0.0
    )


def bench_test_at_tip(oar: Oar, *, load: Number = TIP_LOAD, inset: Number = TIP_INSET) -> LoadCase:
    """7 lb hung at the tip, grip centre and lock held.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    load : float or array, optional
        Weight. [N]
    inset : float or array, optional
        How far in from the tip it hangs. [m]

    Returns
    -------
    LoadCase
        Customary load. [N]

    Notes
    -----
    Source: common practice, 7 lb hung 5 mm in from the tip.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> round(bench_test_at_tip(oar).forces[0], 3)
    31.138
    """
    name = "bench test at the tip"
    above_nought(name, load=load)
    held = (oar.shape.grip_centre, oar.shape.inboard)
    places, forces = balanced(places=[oar.shape.length - inset], forces=[load], held=held)
    return sound(
        oar,
        LoadCase(
            name=name, kind="customary", plane="stroke", places=places, forces=forces, held=held,
            basis="common practice: 7 lb, 5 mm in from the tip",
        ),
    )  # fmt: skip


def steering(
    oar: Oar,
    *,
    speed: Number = STEER_SPEED,
    density: Number = FRESH_WATER,
    coefficient: Number = NORMAL_COEFFICIENT,
) -> LoadCase:
    """The oar used to steer in a run, blade across the water.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    speed : float or array, optional
        Of the water past the blade. [m/s]
    density : float or array, optional
        Of the water, 1000 fresh, 1025 salt. [kg/m3]
    coefficient : float or array, optional
        Of the force square to the blade. [1]

    Returns
    -------
    LoadCase
        Abuse, from either side. [N]

    Notes
    -----
    Source: derived, ½ ρ C A v²; a coefficient of 1.1 and 2.5 m/s in surf are choices of this project.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bool(200 < steering(oar).forces[0] < 250)
    True
    """
    above_nought("steering", speed=speed, density=density, coefficient=coefficient)
    at_blade = water_force(density=density, coefficient=coefficient, area=blade_area(oar), speed=speed)
    torque = loom_torque(force=at_blade, offset=PRESSURE_OFFSET, feathering=FEATHERING)
    basis = "derived: ½ ρ C A v², C = 1.1, the blade across a run of 2.5 m/s"
    return _drive(oar, name="steering", kind="abuse", at_blade=at_blade, basis=basis, torque=torque)


def tip_knocked(oar: Oar, *, force: Number = KNOCK, arm: Number = KNOCK_ARM) -> LoadCase:
    """A knock on a corner of the tip, or the oar dropped on it.

    The blow is over before the loom bends, so it counts for the corner and for torsion alone.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    force : float or array, optional
        On the corner, square to the blade. [N]
    arm : float or array, optional
        Corner off the spine. [m]

    Returns
    -------
    LoadCase
        Abuse, from either side. [N]

    Notes
    -----
    Source: common practice, 100 to 200 N, 40 mm off the spine; that the loom is left out is a choice of this project.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> float(tip_knocked(oar).torque)
    6.0
    """
    above_nought("tip knocked", force=force, arm=arm)
    ends = (oar.shape.grip_centre, oar.shape.length)
    twisted = (oar.shape.grip_centre, oar.shape.length - CORNER_WIDTH)  # beyond it the corner is checked as a plate
    return sound(
        oar,
        LoadCase(
            name="tip knocked", kind="abuse", plane="stroke", places=(), forces=(), held=ends, twisted=twisted,
            torque=loom_torque(force=force, offset=arm), corner_force=force, corner_arm=arm, either_way=True,
            basis="common practice: 100 to 200 N on a corner, 40 mm off the spine",
        ),
    )  # fmt: skip


def tip_dragged(oar: Oar, *, force: Number = DRAG) -> LoadCase:
    """The tip dragged over the bottom, edge on, the oar held in lock and hand.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    force : float or array, optional
        On the tip, in the plane of the blade. [N]

    Returns
    -------
    LoadCase
        Abuse, in the lateral plane, from either side. [N]

    Notes
    -----
    Source: choice of this project, the lower end of what is customary for a knock.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> tip_dragged(oar).plane
    'lateral'
    """
    above_nought("tip dragged", force=force)
    held = (oar.shape.grip_centre, oar.shape.inboard)
    places, forces = balanced(places=[oar.shape.length], forces=[force], held=held)
    return sound(
        oar,
        LoadCase(
            name="tip dragged", kind="abuse", plane="lateral", places=places, forces=forces, held=held, either_way=True,
            basis="choice of this project: the lower end of a knock, edge on",
        ),
    )  # fmt: skip
