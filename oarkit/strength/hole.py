"""A hole through the loom at the lock, as for a pinned lock: what it costs, and what enlarging or bushing buys."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from oarkit.oar.build import Oar
from oarkit.section.hole import HOLE_ALLOWANCE, Along, NetSection, diameter_for_hole, net_section
from oarkit.strength.bend import Plane
from oarkit.strength.load import LoadCase
from oarkit.strength.told import HoleInputs
from oarkit.working import Array, BadDesign, Number, Quantity, formula

BUSH_WALL = 0.002  #: of a bush that is thought of, a choice of this project [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleCures:
    """What would make up for a hole: round loom that keeps stiffness, or strength [m], and the other way to drill."""

    for_stiffness: Number
    for_strength: Number
    bush: Number | None  #: outer diameter of the bush thought of, None where the loom has no room for one [m]
    rise: Number  #: stress at the hole over that of the loom without it, as drilled [1]
    rise_other_way: Number  #: likewise, the hole running the other way [1]
    rise_bushed: Number  #: likewise, as drilled and bushed [1]


def allowance(hole: HoleInputs) -> float:
    """Rise of the stress on the net section: the lesser of custom's range with a bush, the greater without.

    Parameters
    ----------
    hole : HoleInputs
        The hole. [record]

    Returns
    -------
    float
        What the stress on the net section is multiplied by. [1]

    Notes
    -----
    Source: common practice, 1.5 to 2; that a bush earns the lesser is a choice of this project.

    Examples
    --------
    >>> allowance(HoleInputs(diameter=0.008)), allowance(HoleInputs(diameter=0.008, bush=0.012))
    (2.0, 1.5)
    """
    return HOLE_ALLOWANCE[1] if hole.bush is None else HOLE_ALLOWANCE[0]


def _other(along: Along) -> Along:
    return "neutral axis" if along == "bending direction" else "bending direction"


def net_at_lock(oar: Oar, hole: HoleInputs, *, plane: Plane = "stroke") -> NetSection:
    """What the hole leaves of the loom at the pin line, bending in a plane.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    hole : HoleInputs
        The hole. [record]
    plane : {"stroke", "lateral"}, optional
        Bending square to the blade face, or in its plane, where the hole runs the other way. [text]

    Returns
    -------
    NetSection
        Of the loom taken as a round or ellipse of one wood. [m4]

    Raises
    ------
    BadDesign
        The hole is as big as the loom.

    Notes
    -----
    Source: plane geometry, `oarkit.section.hole.net_section`.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> round(float(net_at_lock(oar, HoleInputs(diameter=0.008)).share_lost), 4)
    0.0088
    """
    thickness, width = _at_pin(oar, oar.profile.thickness), _at_pin(oar, oar.profile.width)
    if plane == "lateral":
        thickness, width = width, thickness
    along = hole.along if plane == "stroke" else _other(hole.along)
    return net_section(thickness=thickness, width=width, hole=hole.drilled, along=along)


def _at_pin(oar: Oar, values: Array) -> Number:
    """Values along the oar, at the station on the pin line."""
    at = np.argmin(np.abs(oar.s - np.asarray(oar.shape.inboard)[..., None]), axis=-1, keepdims=True)
    taken: Number = np.take_along_axis(np.broadcast_to(values, oar.s.shape), at, -1)[..., 0][()]
    return taken


@formula(
    "σ_h = k σ/(1 − ΔI/I)", unit="Pa", source="net section; allowance k of 1.5 to 2, common practice",
    where={"stress": "σ [Pa]", "share_lost": "ΔI/I [1]", "allowance": "k [1]"},
)  # fmt: skip
def stress_at_hole(*, stress: Number, share_lost: Number, allowance: Number = HOLE_ALLOWANCE[1]) -> Number:
    """Bending stress at a hole: that of the whole section, on what the hole leaves, raised by the stated allowance.

    Parameters
    ----------
    stress : float or array
        Bending stress without the hole. [Pa]
    share_lost : float or array
        Share of the second moment that the hole takes. [1]
    allowance : float or array, optional
        For the crowding of stress at the hole, 1.5 to 2. [1]

    Returns
    -------
    float or array
        Stress to set against the wood's strength. [Pa]

    Notes
    -----
    Source: M/S on the net section, Wood Handbook FPL-GTR-282 (2021), eq. 9-13; allowance common practice.

    Examples
    --------
    >>> float(stress_at_hole(stress=20e6, share_lost=0.2, allowance=2.0)) / 1e6
    50.0
    """
    return allowance * np.divide(stress, np.subtract(1.0, share_lost))


def hole_stress_in(oar: Oar, case: LoadCase, hole: HoleInputs, *, stress: Array) -> Number:
    """Stress of one piece at the hole, from its bending stress along the oar.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    case : LoadCase
        The load. [record]
    hole : HoleInputs
        The hole. [record]
    stress : array
        Bending stress of the piece at the stations. [Pa]

    Returns
    -------
    float or array
        Stress at the hole. [Pa]

    Notes
    -----
    Source: as `stress_at_hole`; the share lost is that of a loom of one wood.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> from oarkit.strength.cases import hard_start
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> even = np.full_like(oar.s, 20e6)
    >>> hole = HoleInputs(diameter=0.008, along="bending direction")
    >>> round(float(hole_stress_in(oar, hard_start(oar), hole, stress=even)) / 1e6, 1)
    56.4
    """
    lost = net_at_lock(oar, hole, plane=case.plane).share_lost
    made: Number = stress_at_hole(stress=_at_pin(oar, stress), share_lost=lost, allowance=allowance(hole))
    return made


def hole_cures(oar: Oar, hole: HoleInputs, *, bush: Number | None = None) -> HoleCures:
    """What would make up for the hole: a thicker loom, a bush, or drilling the other way.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    hole : HoleInputs
        The hole. [record]
    bush : float or array, optional
        Outer diameter of the bush that is thought of; 4 mm over the hole where nothing is said. [m]

    Returns
    -------
    HoleCures
        Diameters and rises of stress in the stroke. [m, 1]

    Raises
    ------
    BadDesign
        The hole or the bush is as big as the loom, or the bush no bigger than its hole.

    Notes
    -----
    Source: plane geometry; a bush of epoxy or metal takes more wood away but spreads the load, so that custom's lesser
    allowance of 1.5 stands in place of 2 (common practice).

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> cures = hole_cures(oar, HoleInputs(diameter=0.008, along="bending direction"))
    >>> round(float(cures.rise), 2), round(float(cures.rise_other_way), 2)
    (2.82, 2.02)
    """
    around = hole.bush if hole.bush is not None else np.add(hole.diameter, BUSH_WALL * 2) if bush is None else bush
    if np.any(np.asarray(around) <= hole.diameter):
        raise BadDesign(
            "a bush of {bush} round a hole of {hole} has no wall; give its outer diameter",
            {
                "bush": Quantity(value=float(np.min(around)), unit="m"),
                "hole": Quantity(value=float(np.max(hole.diameter)), unit="m"),
            },
        )
    bare = HoleInputs(diameter=hole.diameter, along=hole.along)
    room = float(np.min(np.minimum(_at_pin(oar, oar.profile.thickness), _at_pin(oar, oar.profile.width))))
    fits = hole.bush is not None or float(np.max(around)) < room
    rises = [
        stress_at_hole(stress=1.0, share_lost=net_at_lock(oar, each).share_lost, allowance=allowance(each))
        for each in (
            hole,
            HoleInputs(diameter=hole.diameter, along=_other(hole.along), bush=hole.bush),
            HoleInputs(diameter=hole.diameter, along=hole.along, bush=around if fits else None),
        )
    ]
    diameter = _at_pin(oar, oar.profile.thickness)
    larger = {
        keep: diameter_for_hole(diameter=diameter, hole=bare.drilled, along=bare.along, keep=keep)
        for keep in ("stiffness", "strength")
    }
    return HoleCures(
        for_stiffness=larger["stiffness"], for_strength=larger["strength"], bush=around if fits else None,
        rise=rises[0], rise_other_way=rises[1], rise_bushed=rises[2],
    )  # fmt: skip
