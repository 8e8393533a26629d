"""A load case: what acts on the oar, where it is held, and what the size of the load rests on.

Forces are those on the oar, its supports among them. In the stroke's plane a force counts positive the way the hand
pulls and the water bears on the blade in a stroke, from the aft face toward the forward face; a moment counts positive
when it pulls on the aft face. In the lateral plane, that of the blade face, positive is toward the upper edge, and a
positive moment pulls on the lower edge.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray

from oarkit.oar.build import Oar
from oarkit.strength.bend import Plane
from oarkit.working import BadDesign, Number, Quantity, formula

Kind: TypeAlias = Literal["customary", "abuse"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadCase:
    """One load on an oar. Places from the handle end in m, forces in N, torque in N m.

    ``forces`` act at ``places``, what the supports give included; ``held`` are the two places that deflections are
    counted from. ``axial`` presses the oar between the places ``pressed``, off its axis by ``eccentricity``; bending
    then counts ``amplified``. ``torque`` twists it between the places ``twisted``. ``corner_force`` acts on a tip
    corner, ``corner_arm`` off the spine. ``reversed`` tells that the forward face is pulled, ``either_way`` that the
    load may come from either side. ``beside`` holds quantities to print beside the case.
    """

    name: str
    kind: Kind
    plane: Plane
    places: tuple[Number, ...]
    forces: tuple[Number, ...]
    held: tuple[Number, Number]
    basis: str
    reversed: bool = False
    either_way: bool = False
    axial: Number = 0.0
    eccentricity: Number = 0.0
    pressed: tuple[Number, Number] = (0.0, 0.0)
    amplified: Number = 1.0
    torque: Number = 0.0
    twisted: tuple[Number, Number] = (0.0, 0.0)
    corner_force: Number = 0.0
    corner_arm: Number = 0.0
    beside: Mapping[str, Quantity] = field(default_factory=dict)


def balanced(
    *, places: Sequence[Number], forces: Sequence[Number], held: tuple[Number, Number]
) -> tuple[tuple[Number, ...], tuple[Number, ...]]:
    """Given forces with what the two supports give added, so that all sum to nought.

    Parameters
    ----------
    places : sequence of float or array
        Where the given forces act, from the handle end. [m]
    forces : sequence of float or array
        Their sizes, with their signs. [N]
    held : tuple of float or array
        Places of the two supports. [m]

    Returns
    -------
    tuple of tuple of float or array
        Places, and forces, the two supports last. [m, N]

    Notes
    -----
    Source: statics.

    Examples
    --------
    >>> places, forces = balanced(places=[3.0], forces=[10.0], held=(0.0, 2.0))
    >>> places, [float(force) for force in forces]
    ((3.0, 0.0, 2.0), [10.0, 5.0, -15.0])
    """
    first, second = held
    with np.errstate(invalid="ignore"):  # a force without end is refused in words by `sound`
        about_first = sum(force * np.subtract(place, first) for place, force in zip(places, forces, strict=True))
        at_second = -about_first / np.subtract(second, first)
        at_first = -sum(forces) - at_second
    return (*places, first, second), (*forces, at_first[()], at_second[()])


def sound(oar: Oar, case: LoadCase) -> LoadCase:
    """The case itself, refused where it does not act on this oar or has no size.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    case : LoadCase
        The load. [record]

    Returns
    -------
    LoadCase
        The same case. [record]

    Raises
    ------
    BadDesign
        A place lies off the oar, or a force is no number.

    Notes
    -----
    Source: choice of this project.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> from oarkit.strength.cases import cruise
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> sound(oar, cruise(oar)).name
    'cruise'
    """
    sizes = (*case.forces, case.axial, case.eccentricity, case.torque, case.corner_force, case.corner_arm)
    if any(_anywhere(~np.isfinite(size)) for size in sizes):
        raise BadDesign(f"the load case '{case.name}' has a force or an arm that is no number")
    for place in (*case.places, *case.pressed, *case.twisted):
        if _anywhere(place < -1e-9) or _anywhere(place - oar.shape.length > 1e-9):
            raise BadDesign(
                f"the load case '{case.name}' acts {{place}} from the handle end, off an oar {{length}} long",
                {
                    "place": Quantity(value=place, unit="m"),
                    "length": Quantity(value=oar.shape.length, unit="m"),
                },
            )
    return case


def _anywhere(test: bool | np.bool | NDArray[np.bool_]) -> bool:
    """Whether a test holds for any design; numpy takes long to ask that of a single number."""
    return bool(test.any()) if isinstance(test, np.ndarray) else bool(test)


def above_nought(name: str, **sizes: Number) -> None:
    """Refuse sizes of a load that are not above nought.

    Parameters
    ----------
    name : str
        Name of the load case. [text]
    **sizes : float or array
        Sizes by their names. [SI]

    Returns
    -------
    None
        Nothing is returned. [none]

    Raises
    ------
    BadDesign
        A size is nought, negative or no number.

    Notes
    -----
    Source: choice of this project.

    Examples
    --------
    >>> above_nought("cruise", force=150.0)
    """
    for what, size in sizes.items():
        if _anywhere(~(np.greater(size, 0) & np.isfinite(size))):
            raise BadDesign(f"the {what.replace('_', ' ')} of the load case '{name}' must be above nought")


@formula(
    "T = F a + T_f", unit="N m", source="statics",
    where={"force": "F [N]", "offset": "a [m]", "feathering": "T_f [N m]"},
)  # fmt: skip
def loom_torque(*, force: Number, offset: Number, feathering: Number = 0.0) -> Number:
    """Torque of a force that acts beside the oar's axis, and of the hand that feathers.

    Parameters
    ----------
    force : float or array
        Size of the force, without its sign. [N]
    offset : float or array
        Its distance from the axis. [m]
    feathering : float or array, optional
        Torque of the hand. [N m]

    Returns
    -------
    float or array
        Torque on the oar. [N m]

    Notes
    -----
    Source: statics; a pressure centre 15 mm off is a choice of this project, 2 to 4 N m of feathering common practice.

    Examples
    --------
    >>> float(loom_torque(force=160.0, offset=0.015, feathering=3.0))
    5.4
    """
    return np.abs(force) * offset + feathering


@formula(
    "F = ½ ρ C A v^2", unit="N", source="definition of the coefficient",
    where={"density": "ρ [kg/m3]", "coefficient": "C [1]", "area": "A [m2]", "speed": "v [m/s]"},
)  # fmt: skip
def water_force(*, density: Number, coefficient: Number, area: Number, speed: Number) -> Number:
    """Force of water on a blade that stands across its way.

    Parameters
    ----------
    density : float or array
        Of the water, 1000 fresh, 1025 salt. [kg/m3]
    coefficient : float or array
        Force coefficient of the blade. [1]
    area : float or array
        Of the blade. [m2]
    speed : float or array
        Of the water past the blade. [m/s]

    Returns
    -------
    float or array
        Force square to the blade. [N]

    Notes
    -----
    Source: definition of the force coefficient.

    Examples
    --------
    >>> round(float(water_force(density=1000.0, coefficient=1.1, area=0.06, speed=2.0)), 6)
    132.0
    """
    return density * coefficient * area * np.square(speed) / 2


@formula(
    "n = 1/(1 − P/P_cr)", unit="1", source="Wood Handbook FPL-GTR-282 (2021), eq. 9-7",
    where={"axial": "P [N]", "buckling": "P_cr [N]"},
)  # fmt: skip
def amplification(*, axial: Number, buckling: Number) -> Number:
    """By how much a push along the oar makes its bending larger.

    Parameters
    ----------
    axial : float or array
        Push along the oar. [N]
    buckling : float or array
        Push at which it buckles. [N]

    Returns
    -------
    float or array
        What bending moment and deflection are multiplied by. [1]

    Raises
    ------
    BadDesign
        The push is as large as the buckling load, or larger.

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), eq. 9-7.

    Examples
    --------
    >>> round(float(amplification(axial=500.0, buckling=2000.0)), 6)
    1.333333
    """
    share = np.divide(axial, buckling)
    if np.any(share >= 1):
        raise BadDesign(
            "the oar bows out of itself under a push of {push}; it buckles at {buckling}. Push less, or make the loom "
            "thicker",
            {
                "push": Quantity(value=float(np.max(axial)), unit="N"),
                "buckling": Quantity(value=float(np.min(buckling)), unit="N"),
            },
        )
    return 1 / (1 - share)
