"""An oar let go on calm water: does it float, which end is low, does the blade lie flat or stand on edge.

Every section is cut by the water at a height above the oar's axis that changes evenly along the oar. Height and trim
follow from weight and its moment; whether the oar stays so from the second moment of the waterplane. The axis is taken
as straight (a spoon's sweep is not counted), the wood as dry as the boards were, and the leather as weight that
displaces nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from oarkit.oar.build import Oar
from oarkit.oar.mass import balance, mass
from oarkit.section.profile import Profile, half_thickness, reach, zone_moments
from oarkit.working import Array, BadDesign, Number, formula

FRESH_WATER = 1000.0  #: [kg/m3]
SALT_WATER = 1025.0  #: [kg/m3]
STEPS = 80  #: of Newton's method; a dozen do
Lies = Literal["flat", "on edge"]


@formula("V = ∫ A ds", unit="m3", source="definition; Simpson's rule on the stations")
def volume(oar: Oar) -> Number:
    """Volume of the wood, outside measure.

    Parameters
    ----------
    oar : Oar
        The oar. [record]

    Returns
    -------
    float or array
        What the oar displaces when it is held under. [m3]

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bool(0.002 < volume(oar) < 0.005)
    True
    """
    return oar.integral(_area(oar.profile))


@formula(
    "f = m/(ρ_w V)",
    unit="1",
    source="Archimedes' principle",
    where={"mass": "m [kg]", "volume": "V [m3]", "water_density": "ρ_w [kg/m3]"},
)
def float_share(*, mass: Number, volume: Number, water_density: Number = FRESH_WATER) -> Number:
    """Share of the oar's volume that is under water when it floats; 1 or more and it sinks.

    Parameters
    ----------
    mass : float or array
        Mass of the oar. [kg]
    volume : float or array
        Volume of the oar. [m3]
    water_density : float or array, optional
        1000 for fresh water, 1025 for salt. [kg/m3]

    Returns
    -------
    float or array
        Volume under water over the whole. [1]

    Notes
    -----
    Source: Archimedes' principle.

    Examples
    --------
    >>> round(float_share(mass=1.23, volume=0.003, water_density=SALT_WATER), 3)
    0.4
    """
    return mass / (water_density * volume)


@formula("s_V = ∫ s A ds/V", unit="m", source="definition; Simpson's rule on the stations")
def centre_of_volume(oar: Oar) -> Number:
    """Centre of volume of the oar, which is its centre of buoyancy when it is held under.

    Parameters
    ----------
    oar : Oar
        The oar. [record]

    Returns
    -------
    float or array
        Place from the handle end. [m]

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bool(0.8 < centre_of_volume(oar) < 1.4)
    True
    """
    return oar.integral(oar.s * _area(oar.profile)) / volume(oar)


@dataclass(frozen=True, slots=True, kw_only=True)
class Afloat:
    """An oar at rest on the water, lying one way.

    ``share`` of its volume is under water [1]; ``at_handle`` and ``at_tip`` are how high the water stands above the
    oar's axis there, negative below it [m]; ``metacentric`` is the height of the metacentre over the centre of gravity,
    negative where it does not stay so but rolls [m].
    """

    lies: Lies
    share: Number
    at_handle: Number
    at_tip: Number
    metacentric: Number

    @property
    def handle_low(self) -> bool | NDArray[np.bool_]:
        """Whether the handle end is the low one."""
        low: bool | NDArray[np.bool_] = np.asarray(self.at_handle) > self.at_tip
        return low

    @property
    def stays(self) -> bool | NDArray[np.bool_]:
        """Whether it keeps lying so."""
        stays: bool | NDArray[np.bool_] = np.asarray(self.metacentric) > 0
        return stays


def afloat(oar: Oar, *, lies: Lies = "flat", water_density: Number = FRESH_WATER) -> Afloat:
    """How an oar that is let go floats with its blade flat on the water or on edge.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    lies : {"flat", "on edge"}, optional
        How the blade lies. [text]
    water_density : float or array, optional
        1000 for fresh water, 1025 for salt. [kg/m3]

    Returns
    -------
    Afloat
        Draught, trim and metacentric height. [m]

    Raises
    ------
    BadDesign
        The oar sinks.

    Notes
    -----
    Source: hydrostatics; Archimedes' principle, with GM = I/V - BG for the roll. Heights above the oar's axis are found
    by Newton's method; small trim, so that lengths along the oar and along the water are one.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> flat, on_edge = afloat(oar), afloat(oar, lies="on edge")
    >>> bool(flat.stays), bool(on_edge.stays)
    (True, False)
    """
    water = np.asarray(water_density, dtype=float)
    share = float_share(mass=mass(oar), volume=volume(oar), water_density=water)
    if np.any(np.asarray(share) >= 1):
        raise BadDesign("the oar sinks: it weighs as much as the water that it displaces, or more")
    middle = np.asarray(oar.shape.inboard + balance(oar))[..., None]
    wanted = mass(oar) / water
    level, trim = _equilibrium(oar, lies, oar.s - middle, wanted)
    height = level + trim * (oar.s - middle)
    cut = _cut(oar.profile, height, lies)
    roll = oar.integral(cut.breadth**3 / 12 + cut.moment)
    return Afloat(
        lies=lies,
        share=share,
        at_handle=(level - trim * middle)[..., 0],
        at_tip=(level + trim * (np.asarray(oar.shape.length)[..., None] - middle))[..., 0],
        metacentric=roll / wanted,
    )


def way_up(oar: Oar, *, water_density: Number = FRESH_WATER) -> Number:
    """Which way an oar that is let go comes to lie: by how much flat is the steadier.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    water_density : float or array, optional
        1000 for fresh water, 1025 for salt. [kg/m3]

    Returns
    -------
    float or array
        Metacentric height lying flat less that on edge, positive where the blade lies flat. [m]

    Notes
    -----
    Source: hydrostatics, as `afloat`.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> bool(way_up(design(example_project("quillet").inputs).oars["port"]) > 0)
    True
    """
    flat, on_edge = (afloat(oar, lies=lies, water_density=water_density) for lies in ("flat", "on edge"))
    return flat.metacentric - on_edge.metacentric


# Sections cut by the water


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cut:
    """Area under water [m2], breadth at the water [m], and moment of the area under water about the axis [m3]."""

    area: Array
    breadth: Array
    moment: Array


def _area(profile: Profile) -> Array:
    return zone_moments(profile, 0.0, 1.0).area


def _cut(profile: Profile, height: Array, lies: Lies) -> _Cut:
    """Sections cut at a height above the axis, the blade flat or on edge.

    The outline is alike on both sides of the axis, so that the area between axis and water is the same above and below.
    """
    up, width = np.abs(height), profile.width
    if lies == "flat":
        at = reach(profile, up)
        dry, wet = zone_moments(profile, at, 1.0), zone_moments(profile, 0.0, at)
        to_axis = width * up * at + dry.area / 2
        breadth = width * at
        moment = width / 2 * up**2 * at - wet.first
    else:
        at = np.minimum(2 * up / width, 1.0)
        to_axis = zone_moments(profile, 0.0, at).area / 2
        breadth = np.where(at < 1, 2 * half_thickness(profile, at), 0.0)
        moment = -zone_moments(profile, at, 1.0).lateral_first
    return _Cut(area=_area(profile) / 2 + np.sign(height) * to_axis, breadth=breadth, moment=moment)


def _equilibrium(oar: Oar, lies: Lies, arm: Array, wanted: Number) -> tuple[Array, Array]:
    """Height of the water at the balance point, and trim, that carry the weight without turning.

    Both come with a last axis of one. Steps are held to a quarter of the oar's greatest half-size at its ends, which
    keeps the blade in the water on the way.
    """
    size = oar.profile.thickness if lies == "flat" else oar.profile.width
    longest = np.max(size, axis=-1, keepdims=True) / 8
    ends = np.max(np.abs(arm), axis=-1, keepdims=True)
    level = trim = np.zeros((*np.broadcast_shapes(np.shape(wanted), arm.shape[:-1]), 1))
    for _ in range(STEPS):
        cut = _cut(oar.profile, level + trim * arm, lies)
        lift, turn = oar.integral(cut.area) - wanted, oar.integral(cut.area * arm)
        plane, first, second = (oar.integral(cut.breadth * arm**n) for n in range(3))
        spread = np.maximum(plane * second - first**2, 1e-15)
        rise, tilt = (
            ((first * turn - second * lift) / spread)[..., None],
            ((first * lift - plane * turn) / spread)[..., None],
        )
        share = np.minimum(1.0, longest / np.maximum(np.abs(rise) + np.abs(tilt) * ends, 1e-15))
        level, trim = level + share * rise, trim + share * tilt
        if np.max(np.abs(rise) + np.abs(tilt) * ends) < 1e-12:
            return level, trim
    raise BadDesign("no rest was found for the oar afloat; it hardly floats, or one end of it is far heavier")
