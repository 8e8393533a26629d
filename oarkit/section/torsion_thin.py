"""Torsion of thin sections by closed form, for floats and arrays alike: blades, and boxes of two woods.

The torsion constant J times the shear modulus is the torsion stiffness; a torque over the torsion modulus is the
shear stress.
"""

from __future__ import annotations

import numpy as np

from oarkit.section.torsion_forms import END_LOSS
from oarkit.working import BadDesign, Number, formula


@formula(
    "J = w (t³ + t² e + t e² + e³)/(12 (1 + 3 m²)) − 0.210 e⁴, m = (t − e)/w", unit="m4",
    source="thin section with its slope, less the ends; derived",
    where={"thickness": "t [m]", "edge": "e [m]", "width": "w [m]"},
)  # fmt: skip
def blade_torsion_constant(*, thickness: Number, edge: Number, width: Number) -> Number:
    r"""Torsion constant of a thin blade section of two straight slopes.

    Parameters
    ----------
    thickness, edge : float or array
        On the centre line and at the edges. [m]
    width : float or array
        Edge to edge. [m]

    Returns
    -------
    float or array
        J. [m4]

    Notes
    -----
    Source: derived; ∫ t³/3 dy, made less by the slope of the faces as Rayleigh's principle has it with the stress
    function a (t²/4 − z²), and by the end loss of a rectangle as thick as the edge. Within 1 % of finite elements for
    slopes up to 0.15; at the neck, where the blade is still as thick as half its width, use `torsion`.

    Examples
    --------
    >>> from oarkit.section.torsion_forms import rectangle_torsion_constant
    >>> thin = blade_torsion_constant(thickness=0.01, edge=0.01, width=0.13)
    >>> exact = rectangle_torsion_constant(thickness=0.01, width=0.13)
    >>> round(float(thin / exact), 6)
    1.0
    """
    slope = (thickness - edge) / width
    cubes = thickness**3 + thickness**2 * edge + thickness * edge**2 + edge**3
    return width * cubes / (12 * (1 + 3 * slope**2)) - END_LOSS * edge**4


@formula(
    "W = J/t", unit="m3",
    source="thin section; derived",
    where={"thickness": "t [m]", "edge": "e [m]", "width": "w [m]"},
)  # fmt: skip
def blade_torsion_modulus(*, thickness: Number, edge: Number, width: Number) -> Number:
    r"""Torque over the greatest shear stress of a thin blade section of two straight slopes.

    Parameters
    ----------
    thickness, edge : float or array
        On the centre line and at the edges. [m]
    width : float or array
        Edge to edge. [m]

    Returns
    -------
    float or array
        Torsion modulus. [m3]

    Notes
    -----
    Source: derived; in a thin section the stress is greatest at the faces where it is thickest. The stress is 4 to
    15 % too high by this for slopes of 0.04 to 0.15, on the safe side, as the ridge sheds stress to both slopes.

    Examples
    --------
    >>> round(float(blade_torsion_modulus(thickness=0.01, edge=0.01, width=0.13) / (0.13 * 0.01**2)), 3)
    0.317
    """
    return blade_torsion_constant(thickness=thickness, edge=edge, width=width) / thickness


def _box_area(*, thickness: Number, width: Number, face: Number, side: Number) -> Number:
    """Area within the middle line of the walls, refused where they fill the box."""
    if np.any(2 * np.asarray(face) >= thickness) or np.any(2 * np.asarray(side) >= width):
        raise BadDesign("the walls fill the box; make them thinner, or take the section as solid")
    return (thickness - face) * (width - side)


@formula(
    "GJ = 4 A²/(2 (w − c)/(G_f f) + 2 (t − f)/(G_c c)), A = (w − c)(t − f)", unit="N m2",
    source="R. Bredt 1896; from memory",
    where={
        "thickness": "t [m]", "width": "w [m]", "face": "f [m]", "side": "c [m]",
        "face_shear_modulus": "G_f [Pa]", "side_shear_modulus": "G_c [Pa]",
    },
)  # fmt: skip
def thin_box_torsion_stiffness(
    *,
    thickness: Number,
    width: Number,
    face: Number,
    side: Number,
    face_shear_modulus: Number,
    side_shear_modulus: Number,
) -> Number:
    r"""Torsion stiffness G J of a box with thin walls of two woods.

    Parameters
    ----------
    thickness, width : float or array
        Outside of the box. [m]
    face, side : float or array
        Thickness of the two walls across z and of the two across y. [m]
    face_shear_modulus, side_shear_modulus : float or array
        Of the wood of each. [Pa]

    Returns
    -------
    float or array
        Torsion stiffness. [N m2]

    Raises
    ------
    BadDesign
        The walls fill the box.

    Notes
    -----
    Source: R. Bredt 1896 (from memory): even shear flow along the middle line of the walls. Too small, as it leaves
    out the corners and the walls' own torsion: by 4 % for walls 1/25 of the box, 12 % for 1/6.

    Examples
    --------
    >>> stiffness = thin_box_torsion_stiffness(
    ...     thickness=0.05, width=0.05, face=0.001, side=0.001, face_shear_modulus=1.0, side_shear_modulus=1.0
    ... )
    >>> round(float(stiffness / (0.049**3 * 0.001)), 6)
    1.0
    """
    area = _box_area(thickness=thickness, width=width, face=face, side=side)
    give = (width - side) / (face_shear_modulus * face) + (thickness - face) / (side_shear_modulus * side)
    return 2 * area**2 / give


@formula(
    "W = 2 A min(f, c), A = (w − c)(t − f)", unit="m3",
    source="R. Bredt 1896; from memory",
    where={"thickness": "t [m]", "width": "w [m]", "face": "f [m]", "side": "c [m]"},
)  # fmt: skip
def thin_box_torsion_modulus(*, thickness: Number, width: Number, face: Number, side: Number) -> Number:
    r"""Torque over the shear stress in the thinner walls of a box, mean over the wall.

    Parameters
    ----------
    thickness, width : float or array
        Outside of the box. [m]
    face, side : float or array
        Thickness of the two walls across z and of the two across y. [m]

    Returns
    -------
    float or array
        Torsion modulus. [m3]

    Raises
    ------
    BadDesign
        The walls fill the box.

    Notes
    -----
    Source: R. Bredt 1896 (from memory); the woods do not matter. At the outer skin of a wall the stress is higher, and
    at sharp inner corners much higher.

    Examples
    --------
    >>> round(float(thin_box_torsion_modulus(thickness=0.05, width=0.05, face=0.001, side=0.002) * 1e6), 3)
    4.704
    """
    area = _box_area(thickness=thickness, width=width, face=face, side=side)
    return 2 * area * np.minimum(face, side)
