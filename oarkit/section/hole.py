"""A hole through a round or elliptic loom, as for a pinned lock: what it takes away and what makes up for it.

A hole along the bending direction (a fore-and-aft bolt) runs through the thickness and takes a strip out of both
stressed faces; one along the neutral axis (an upright bolt through the level loom) takes only wood that does little.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from oarkit.section.outline import refuse_size
from oarkit.working import BadDesign, Number, Quantity, formula

Along = Literal["bending direction", "neutral axis"]
HOLE_ALLOWANCE = (1.5, 2.0)  #: raises the stress on the net section at a hole, least and most, common practice
_GEOMETRY = "plane geometry"
_WHERE = {"thickness": "t [m]", "width": "w [m]", "hole": "a [m]"}


@dataclass(frozen=True, slots=True, kw_only=True)
class NetSection:
    """What a hole leaves of a loom: area (m2), second moment (m4), section modulus (m3), share of I lost.

    The section modulus is taken to the face of the whole loom, half its thickness away, which is on the safe side:
    the edge of a hole along the bending direction stands a little nearer the neutral axis.
    """

    area: Number
    bending: Number
    section_modulus: Number
    share_lost: Number


def _half_angle(hole: Number, crossed: Number) -> Number:
    """Angle whose sine is hole over the loom's size across it, refused where the hole is bigger than the loom."""
    refuse_size("loom", size=crossed)
    refuse_size("hole", least_nought=True, diameter=hole)
    if np.any(np.asarray(hole) >= crossed):
        raise BadDesign(
            "a hole of {hole} is as big as the loom or bigger: the loom measures {loom} across it; "
            "drill smaller or enlarge the loom",
            {"hole": Quantity(value=float(np.max(hole)), unit="m"),
             "loom": Quantity(value=float(np.min(crossed)), unit="m")},
        )  # fmt: skip
    angle: Number = np.arcsin(np.divide(hole, crossed))
    return angle


@formula(
    "ΔI = (2/3) ∫ z³ dy = (t³ w/12) (3φ/8 + sin 2φ/4 + sin 4φ/32),  sin φ = a/w", unit="m4", source=_GEOMETRY,
    where=_WHERE,
)  # fmt: skip
def loss_along_bending(*, thickness: Number, width: Number, hole: Number) -> Number:
    """Second moment that a hole through the thickness takes from an elliptic loom.

    Parameters
    ----------
    thickness : float or array
        Of the loom, along the hole. [m]
    width : float or array
        Of the loom, across the hole. [m]
    hole : float or array
        Diameter of the hole. [m]

    Returns
    -------
    float or array
        Loss of I, bending in the stroke. [m4]

    Raises
    ------
    BadDesign
        The hole is as big as the loom.

    Notes
    -----
    Source: plane geometry; the hole takes a straight strip of breadth a, and the loom stays symmetric.

    Examples
    --------
    >>> loss = loss_along_bending(thickness=0.046, width=0.046, hole=0.008)
    >>> round(float(loss / (np.pi * 0.046**4 / 64)), 4)
    0.2908
    """
    phi = _half_angle(hole, width) + 0 * np.asarray(thickness)
    return thickness**3 * width / 12 * (3 * phi / 8 + np.sin(2 * phi) / 4 + np.sin(4 * phi) / 32)


@formula(
    "ΔI = 2 ∫ z² y dz = (t³ w/4) (φ/8 − sin 4φ/32),  sin φ = a/t", unit="m4", source=_GEOMETRY, where=_WHERE
)  # fmt: skip
def loss_along_neutral_axis(*, thickness: Number, width: Number, hole: Number) -> Number:
    """Second moment that a hole through the width, on the neutral axis, takes from an elliptic loom.

    Parameters
    ----------
    thickness : float or array
        Of the loom, across the hole. [m]
    width : float or array
        Of the loom, along the hole. [m]
    hole : float or array
        Diameter of the hole. [m]

    Returns
    -------
    float or array
        Loss of I, bending in the stroke. [m4]

    Raises
    ------
    BadDesign
        The hole is as big as the loom.

    Notes
    -----
    Source: plane geometry; the hole takes a straight strip of breadth a, and the loom stays symmetric.

    Examples
    --------
    >>> loss = loss_along_neutral_axis(thickness=0.046, width=0.046, hole=0.008)
    >>> round(float(loss / (np.pi * 0.046**4 / 64)), 4)
    0.0088
    """
    phi = _half_angle(hole, thickness) + 0 * np.asarray(width)
    return thickness**3 * width / 4 * (phi / 8 - np.sin(4 * phi) / 32)


@formula("ΔI ≈ a t³/12", unit="m4", source="strip rule, common practice", where={"thickness": "t [m]", "hole": "a [m]"})
def strip_loss_along_bending(*, thickness: Number, hole: Number) -> Number:
    """Loss of I at a hole through the thickness by the strip rule, slightly too large.

    Parameters
    ----------
    thickness : float or array
        Of the loom. [m]
    hole : float or array
        Diameter of the hole. [m]

    Returns
    -------
    float or array
        Loss of I. [m4]

    Notes
    -----
    Source: common practice: a rectangle of hole by thickness.

    Examples
    --------
    >>> round(float(strip_loss_along_bending(thickness=0.046, hole=0.008) * 1e12))
    64891
    """
    return hole * thickness**3 / 12


@formula("ΔI ≈ w a³/12", unit="m4", source="strip rule, common practice", where={"width": "w [m]", "hole": "a [m]"})
def strip_loss_along_neutral_axis(*, width: Number, hole: Number) -> Number:
    """Loss of I at a hole on the neutral axis by the strip rule, slightly too large.

    Parameters
    ----------
    width : float or array
        Of the loom. [m]
    hole : float or array
        Diameter of the hole. [m]

    Returns
    -------
    float or array
        Loss of I. [m4]

    Notes
    -----
    Source: common practice: a rectangle of width by hole.

    Examples
    --------
    >>> round(float(strip_loss_along_neutral_axis(width=0.046, hole=0.008) * 1e12))
    1963
    """
    return width * hole**3 / 12


@formula(
    "I = π w t³/64 − ΔI,  S = I/(t/2),  A = π w t/4 − (w t/2) (φ + sin 2φ/2)", unit="m4", source=_GEOMETRY, where=_WHERE
)  # fmt: skip
def net_section(*, thickness: Number, width: Number, hole: Number, along: Along) -> NetSection:
    """What a hole leaves of a round or elliptic loom.

    Parameters
    ----------
    thickness, width : float or array
        Of the loom. [m]
    hole : float or array
        Diameter of the hole, through the loom's centre. [m]
    along : {"bending direction", "neutral axis"}
        How the hole runs. [text]

    Returns
    -------
    NetSection
        Net area, I, S and the share of I lost. [m4]

    Raises
    ------
    BadDesign
        The hole is as big as the loom.

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> net = net_section(thickness=0.046, width=0.046, hole=0.008, along="bending direction")
    >>> round(float(net.share_lost), 4)
    0.2908
    """
    through = along == "bending direction"
    loss = (loss_along_bending if through else loss_along_neutral_axis)(thickness=thickness, width=width, hole=hole)
    phi = _half_angle(hole, width if through else thickness)
    whole = np.pi * width * thickness**3 / 64
    return NetSection(
        area=np.pi * width * thickness / 4 - width * thickness / 2 * (phi + np.sin(2 * phi) / 2),
        bending=whole - loss,
        section_modulus=(whole - loss) / (thickness / 2),
        share_lost=loss / whole,
    )


@formula(
    "I(D) − ΔI(D) = I(d), or the same over D/2 for S", unit="m", source=_GEOMETRY,
    where={"diameter": "d [m]", "hole": "a [m]"},
)  # fmt: skip
def diameter_for_hole(
    *, diameter: Number, hole: Number, along: Along, keep: Literal["stiffness", "strength"]
) -> Number:  # fmt: skip
    """Diameter of a round loom that makes up for a hole.

    Parameters
    ----------
    diameter : float or array
        Of the loom that would do without the hole. [m]
    hole : float or array
        Diameter of the hole. [m]
    along : {"bending direction", "neutral axis"}
        How the hole runs. [text]
    keep : {"stiffness", "strength"}
        Keep I or keep S; the two answers differ. [text]

    Returns
    -------
    float or array
        Diameter to make the loom. [m]

    Raises
    ------
    BadDesign
        The hole is as big as the loom.

    Notes
    -----
    Source: plane geometry; solved by halving between d and d + 2a, which always holds the answer: two half-rounds
    with a strip a wide between them stand in a round of d + a.

    Examples
    --------
    >>> larger = diameter_for_hole(diameter=0.046, hole=0.008, along="bending direction", keep="stiffness")
    >>> round(float(larger) * 1000, 2)
    49.76
    """
    _half_angle(hole, diameter)
    wanted = np.pi * np.asarray(diameter) ** (4 if keep == "stiffness" else 3) / (64 if keep == "stiffness" else 32)
    low, high = diameter + 0 * np.asarray(hole), diameter + 2 * np.asarray(hole)
    for _ in range(60):  # the answer is then as fine as a number can hold
        middle = (low + high) / 2
        net = net_section(thickness=middle, width=middle, hole=hole, along=along)
        short = (net.bending if keep == "stiffness" else net.section_modulus) < wanted
        low, high = np.where(short, middle, low), np.where(short, high, middle)
    found: Number = (low + high) / 2
    return found


@formula(
    "K_t = 1 + √(2 (√(E_L/E_T) − ν) + E_L/G)", unit="1", source="Lekhnitskii, Anisotropic Plates, from memory",
    where={"across_ratio": "E_T/E_L [1]", "shear_ratio": "G/E_L [1]", "poisson": "ν [1]"},
)  # fmt: skip
def stress_concentration(*, across_ratio: Number, shear_ratio: Number, poisson: Number) -> Number:
    """How many times the plain stress stands at the edge of a small hole in wood pulled along the grain.

    Parameters
    ----------
    across_ratio : float or array
        Modulus across the grain, in the plane of the hole's face, over the modulus along it. [1]
    shear_ratio : float or array
        Shear modulus in that plane over the modulus along the grain. [1]
    poisson : float or array
        Poisson's ratio in that plane, stress along the grain. [1]

    Returns
    -------
    float or array
        Peak stress over plain stress, elastic. [1]

    Notes
    -----
    Source: Lekhnitskii, Anisotropic Plates, from memory. Equal moduli give 3, as in metal. Crushing at the edge
    softens it; the trade allows 1.5 to 2 on the net section (common practice), see `hole_stress`.

    Examples
    --------
    >>> round(float(stress_concentration(across_ratio=0.078, shear_ratio=0.064, poisson=0.372)), 1)
    5.7
    """
    return 1 + np.sqrt(2 * (np.sqrt(1 / np.asarray(across_ratio)) - poisson) + 1 / np.asarray(shear_ratio))


@formula(
    "σ = k M/S_net", unit="Pa", source="net section; allowance k of 1.5 to 2, common practice",
    where={"moment": "M [N m]", "allowance": "k [1]", **_WHERE},
)  # fmt: skip
def hole_stress(
    *, moment: Number, thickness: Number, width: Number, hole: Number, along: Along,
    allowance: Number = HOLE_ALLOWANCE[1],
) -> Number:  # fmt: skip
    """Bending stress at a hole: on the net section, raised by the stated allowance.

    Parameters
    ----------
    moment : float or array
        Bending moment in the stroke. [N m]
    thickness, width : float or array
        Of the loom. [m]
    hole : float or array
        Diameter of the hole. [m]
    along : {"bending direction", "neutral axis"}
        How the hole runs. [text]
    allowance : float or array, optional
        For the crowding of stress at the hole, 1.5 to 2; the higher where none is given. [1]

    Returns
    -------
    float or array
        Stress to set against the wood's strength. [Pa]

    Raises
    ------
    BadDesign
        The hole is as big as the loom.

    Notes
    -----
    Source: M/S, Wood Handbook FPL-GTR-282 (2021), eq. 9-13, on the net section; allowance common practice.

    Examples
    --------
    >>> round(float(hole_stress(moment=200.0, thickness=0.046, width=0.046, hole=0.008, along="neutral axis")) / 1e6, 1)
    42.2
    """
    net = net_section(thickness=thickness, width=width, hole=hole, along=along)
    return allowance * moment / net.section_modulus
