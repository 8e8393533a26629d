"""Pieces laid into an outline as regions of the mesh: cheeks, edge strips, splines, flat strips, faces."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from oarkit.section.regions import Region, _metres, _positive
from oarkit.working import BadDesign


def upright(whole: Region, *, name: str, left: float, right: float, modulus: float, shear_modulus: float) -> Region:
    """Piece that runs through the whole thickness between two places across the width: cheek, edge strip, spline.

    Parameters
    ----------
    whole : Region
        The outline. [m, Pa]
    name : str
        What the piece is called. [text]
    left, right : float
        Its sides, as y. [m]
    modulus, shear_modulus : float
        Of the wood. [Pa]

    Returns
    -------
    Region
        The region. [m, Pa]

    Raises
    ------
    BadDesign
        It has no width, or sticks out of the outline.

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> from oarkit.section.regions import ellipse
    >>> loom = ellipse(name="loom", thickness=0.04, width=0.05, modulus=10e9, shear_modulus=0.6e9)
    >>> cheek = upright(loom, name="cheek", left=0.02, right=0.025, modulus=13e9, shear_modulus=1.2e9)
    >>> cheek.left, cheek.right
    (0.02, 0.025)
    """
    _positive(**{f"width of {name}": right - left})
    slack = 1e-9 * (whole.right - whole.left)
    outside = max(whole.left - left, right - whole.right)
    if outside > slack:
        raise BadDesign(f"{name} sticks out of the outline by {{outside}}", _metres(outside=outside))
    return replace(whole, name=name, left=left, right=right, modulus=modulus, shear_modulus=shear_modulus)


def strip(whole: Region, *, name: str, bottom: float, top: float, modulus: float, shear_modulus: float) -> Region:
    """Flat layer between two levels, cut off where the outline ends.

    Parameters
    ----------
    whole : Region
        The outline. [m, Pa]
    name : str
        What the piece is called. [text]
    bottom, top : float
        Its two faces, as z. [m]
    modulus, shear_modulus : float
        Of the wood. [Pa]

    Returns
    -------
    Region
        The region. [m, Pa]

    Raises
    ------
    BadDesign
        It has no thickness.

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> from oarkit.section.regions import ellipse
    >>> loom = ellipse(name="loom", thickness=0.04, width=0.05, modulus=10e9, shear_modulus=0.6e9)
    >>> layer = strip(loom, name="strip", bottom=0.004, top=0.010, modulus=13e9, shear_modulus=1.2e9)
    >>> round(float(layer.upper(np.array(0.0))), 3)
    0.01
    """
    _positive(**{f"thickness of {name}": top - bottom})
    return replace(
        whole, name=name, lower=lambda at: np.full_like(at, bottom), upper=lambda at: np.full_like(at, top),
        modulus=modulus, shear_modulus=shear_modulus, kinks=(),
    )  # fmt: skip


def face(whole: Region, *, name: str, size: float, aft: bool, modulus: float, shear_modulus: float) -> Region:
    """Facing that follows one face of the outline.

    Parameters
    ----------
    whole : Region
        The outline. [m, Pa]
    name : str
        What the piece is called. [text]
    size : float
        Its thickness, measured along z. [m]
    aft : bool
        On the aft face (upper curve), else on the forward face. [yes or no]
    modulus, shear_modulus : float
        Of the wood. [Pa]

    Returns
    -------
    Region
        The region. [m, Pa]

    Raises
    ------
    BadDesign
        It has no thickness.

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> from oarkit.section.regions import two_slope_blade
    >>> blade = two_slope_blade(
    ...     name="blade", thickness=0.014, edge=0.006, width=0.13, modulus=10e9, shear_modulus=0.6e9
    ... )
    >>> skin = face(blade, name="face", size=0.002, aft=True, modulus=13e9, shear_modulus=1.2e9)
    >>> round(float(skin.lower(np.array(0.0))), 3)
    0.005
    """
    _positive(**{f"thickness of {name}": size})
    inner = (lambda at: whole.upper(at) - size) if aft else (lambda at: whole.lower(at) + size)
    return replace(
        whole, name=name, modulus=modulus, shear_modulus=shear_modulus,
        lower=inner if aft else whole.lower, upper=whole.upper if aft else inner,
    )  # fmt: skip
