"""Stress along the oar under a load case: bending of each piece, shear, glue lines, twist; what bending it bears."""

from __future__ import annotations

import numpy as np

from oarkit.oar.build import Oar
from oarkit.strength.beam import moment_along, shear_along
from oarkit.strength.bend import Plane
from oarkit.strength.load import LoadCase
from oarkit.working import Array, Number, formula

SQUARE_TWIST = 1.374  #: by which a sharp square is twisted harder than its ellipse rule says: 4.81/3.50, Saint-Venant


def _column(value: Number) -> Array:
    return np.asarray(value, dtype=float)[..., None]


def _stiffness(oar: Oar, plane: Plane) -> Array:
    return oar.laminate.bending_stiffness if plane == "stroke" else oar.laminate.lateral_stiffness


def _reaches(oar: Oar, plane: Plane) -> tuple[Array, ...]:
    """For each piece the distance of its worst fibre; across the width all are taken to reach the oar's side."""
    if plane == "stroke":
        return oar.laminate.fibre
    return tuple(np.where(fibre != 0, oar.profile.width / 2, 0.0) for fibre in oar.laminate.fibre)


@formula(
    "σ = E (|M| z/(E I) + P/(E A))", unit="Pa",
    source="transformed section, ANC-18 (1944), sec. 3.1330; P/A, Wood Handbook FPL-GTR-282 (2021), ch. 9",
)  # fmt: skip
def bending_along(oar: Oar, case: LoadCase) -> tuple[Array, ...]:
    """Greatest stress along the grain of each piece at every station, bending and a push along the oar together.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    case : LoadCase
        The load. [record]

    Returns
    -------
    tuple of array
        One array a piece, nil where the piece is absent or nothing bends. [Pa]

    Notes
    -----
    Source: transformed section, ANC-18 (1944), sec. 3.1330 and 3.1331. In the lateral plane every piece is taken as if
    it reached the side of the oar, which is on the safe side. A push along the oar comes in over the cap of the tip, no
    further off the axis there than its own half: a choice of this project.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> from oarkit.strength.cases import hard_start
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> len(bending_along(oar, hard_start(oar))) == len(oar.pieces)
    True
    """
    curvature = np.abs(moment_along(oar, case)) / _stiffness(oar, case.plane)
    first, last = case.pressed
    pressed = (oar.middle > _column(first)) & (oar.middle < _column(last))
    strain = _column(case.axial) * pressed / oar.laminate.axial_stiffness
    half = (oar.profile.thickness if case.plane == "stroke" else oar.profile.width) / 2
    beyond = (
        _column(np.multiply(case.axial, case.amplified)) * np.maximum(_column(case.eccentricity) - half, 0.0) * pressed
    )
    spared = np.minimum(beyond / _stiffness(oar, case.plane), curvature)
    return tuple(
        _column(piece.wood.modulus)
        * ((curvature - spared if piece.kind == "tip" else curvature) * reach + strain * (reach != 0))
        for piece, reach in zip(oar.pieces, _reaches(oar, case.plane), strict=True)
    )


@formula("M_R = min F E I/(E_i z_i)", unit="N m", source="transformed section, ANC-18 (1944), sec. 3.1330")
def moment_strength(oar: Oar, plane: Plane = "stroke") -> Array:
    """Bending moment at which the first piece comes to its strength, at every station.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    plane : {"stroke", "lateral"}, optional
        Bending square to the blade face, or in its plane. [text]

    Returns
    -------
    array
        Moment that the section bears at the woods' lower 5 % strength. [N m]

    Notes
    -----
    Source: transformed section, ANC-18 (1944), sec. 3.1330 and 3.1331.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bool(moment_strength(oar).max() > moment_strength(oar).min() > 0)
    True
    """
    borne = [
        np.divide(
            _column(piece.wood.strength) * _stiffness(oar, plane), _column(piece.wood.modulus) * reach,
            out=np.full(np.broadcast_shapes(oar.s.shape, reach.shape), np.inf), where=reach != 0,
        )
        for piece, reach in zip(oar.pieces, _reaches(oar, plane), strict=True)
    ]  # fmt: skip
    least: Array = np.min(borne, axis=0)
    return least


@formula("τ = V E Q/(E I b)", unit="Pa", source="ANC-18 (1944), sec. 3.133; transformed section")
def shear_stress_along(oar: Oar, case: LoadCase) -> Array:
    """Shear stress along the grain at the neutral axis, at every station.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    case : LoadCase
        The load. [record]

    Returns
    -------
    array
        Shear stress; of one oar, a station next to a force between two stations has that on the force's own place. [Pa]

    Notes
    -----
    Source: ANC-18 (1944), sec. 3.133, with a transformed section.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> from oarkit.strength.cases import hard_start
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bool(shear_stress_along(oar, hard_start(oar)).max() < 1e6)
    True
    """
    laminate = oar.laminate
    shear = np.abs(shear_along(oar, case))
    if case.plane == "stroke":
        factor = laminate.first_moment / (laminate.bending_stiffness * laminate.neutral_width)
    else:
        factor = laminate.lateral_first_moment / (laminate.lateral_stiffness * oar.profile.thickness)
    stress = shear * factor
    if stress.ndim > 1:
        return stress
    for place in case.places:  # a force between two stations: on the very place the larger of its two sides counts
        after = int(np.searchsorted(oar.s, float(place)))
        if 0 < after < oar.s.size and min(oar.s[after] - float(place), float(place) - oar.s[after - 1]) > 1e-9:
            beside = slice(after - 1, after + 1)
            there = np.interp(float(place), oar.s[beside], factor[beside]) * shear[beside].max()
            stress[after] = max(stress[after], there)
    return stress


@formula("τ_g = V E Q_g/(E I b_g)", unit="Pa", source="ANC-18 (1944), sec. 3.133; transformed section")
def glue_stress_along(oar: Oar, case: LoadCase) -> tuple[Array, ...]:
    """Shear stress in the glue lines that run parallel to the blade face, for each piece at every station.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    case : LoadCase
        The load. [record]

    Returns
    -------
    tuple of array
        One array a piece, nil for a piece that has no such joint, and in the lateral plane. [Pa]

    Notes
    -----
    Source: ANC-18 (1944), sec. 3.133, with a transformed section. Joints upright to the blade face carry no shear in
    the stroke where the piece lies alike on both sides of the middle plane.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> from oarkit.strength.cases import hard_start
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> float(max(stress.max() for stress in glue_stress_along(oar, hard_start(oar))))
    0.0
    """
    if case.plane == "lateral":
        return tuple(np.zeros_like(oar.s) for _ in oar.pieces)
    flow = np.abs(shear_along(oar, case)) / oar.laminate.bending_stiffness
    return tuple(flow * joint for joint in oar.laminate.glue_shear)


@formula(
    "τ_t = T G_i b a^2/(G J (a^2 + b^2)), b ≤ a", unit="Pa",
    source="Saint-Venant, exact for ellipse and thin blade; a square 37 % more",
)  # fmt: skip
def twist_stress_along(oar: Oar, case: LoadCase) -> tuple[Array, ...]:
    """Greatest shear stress of the torque in each piece, at every station between the places twisted.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    case : LoadCase
        The load. [record]

    Returns
    -------
    tuple of array
        One array a piece, nil where the piece is absent. [Pa]

    Notes
    -----
    Source: Saint-Venant: T b a²/(J (a² + b²)), b the lesser axis, is exact for an ellipse and for a thin blade; a sharp
    square bears 37 % more (4.81 T/a³), an eased one is taken between. Every piece is taken to reach the place of the
    greatest strain, and bears by its own shear modulus in the plane of the blade face. The exact stress of one section
    is `oarkit.section.torsion.torsion`.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> from oarkit.strength.cases import hard_start
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bool(0 < twist_stress_along(oar, hard_start(oar))[0].max() < 2e6)
    True
    """
    first, last = case.twisted
    twisted = (oar.s >= _column(first)) & (oar.s <= _column(last))
    short = np.minimum(oar.profile.thickness, oar.profile.width)
    long = np.maximum(oar.profile.thickness, oar.profile.width)
    sharp = 1 + (SQUARE_TWIST - 1) * (1 - 2 * oar.profile.corner) * (1 - oar.profile.blade_share)
    twist = _column(case.torque) * twisted / oar.laminate.torsion_stiffness
    strain = twist * sharp * short * long**2 / (short**2 + long**2)
    return tuple(
        _column(piece.wood.plate_shear_modulus) * strain * (fibre != 0)
        for piece, fibre in zip(oar.pieces, oar.laminate.fibre, strict=True)
    )
