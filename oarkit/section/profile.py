r"""Shape of one section of an oar, and its area and moments by exact quadrature.

Every section is symmetric about both axes and is described by its half-thickness over the half-width,
:math:`z(\eta)`, :math:`\eta = 2|y|/w`: z through the thickness (the bending direction of the stroke), y across the
width. Two families and what lies between them:

* a rectangle of size thickness x width whose corners are quarter ellipses taking the share ``corner`` of each
  side: 0 is a sharp rectangle, 1/2 an ellipse (a circle where the sides are equal);
* the two-slope blade: thickest on its centre line, falling straight to ``edge`` at both edges.

``blade_share`` runs from 0 (first family) to 1 (second); between them the half-thickness is blended. Moments are
taken over a zone of the width, so that edge strips of another wood can be counted apart.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from oarkit.working import Array, Number

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(16)
_NODES, _WEIGHTS = (_NODES + 1) / 2, _WEIGHTS / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """Section shapes along an oar; sizes in m, the two shares without unit, all of one broadcast shape."""

    thickness: Array
    width: Array
    edge: Array
    corner: Array
    blade_share: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class Moments:
    """Area and second moments of a section or a zone of it.

    ``bending`` is about the axis across the width (bending in the stroke), ``lateral`` about the other.
    """

    area: Array
    bending: Array
    lateral: Array


def corner_of_area_share(share: Number) -> Number:
    """Corner of an eased square that leaves a wanted share of the square's area.

    Parameters
    ----------
    share : float or array
        Area over side squared, between pi/4 and 1. [1]

    Returns
    -------
    float or array
        Corner size as a share of the side. [1]

    Notes
    -----
    Source: plane geometry; four quarter circles leave out (4 - pi) r^2.

    Examples
    --------
    >>> round(float(corner_of_area_share(0.96)), 4)
    0.2159
    """
    return np.sqrt((1 - np.asarray(share)) / (4 - np.pi))


def _into_corner(eta: Array, flat: Array, corner: Array) -> Array:
    """How far into the corner a place lies, as a share of the corner; nil on the flat and where there is no corner."""
    reach = np.maximum(eta - flat, 0.0)
    return np.divide(reach, 2 * corner, out=np.zeros_like(reach), where=np.broadcast_to(corner > 0, reach.shape))


def half_thickness(profile: Profile, eta: Array) -> Array:
    r"""Half-thickness of the section at a place across its width.

    Parameters
    ----------
    profile : Profile
        The sections. [m]
    eta : array
        Place across the half-width, 0 on the centre line and 1 at the edge; broadcasts with the profile. [1]

    Returns
    -------
    array
        Half the thickness there. [m]

    Notes
    -----
    Source: plane geometry; quarter ellipses at the corners, straight slopes on the blade.

    Examples
    --------
    >>> blade = Profile(thickness=np.array(0.012), width=np.array(0.13), edge=np.array(0.006),
    ...                 corner=np.array(0.5), blade_share=np.array(1.0))
    >>> round(float(half_thickness(blade, np.array(0.5))), 5)
    0.0045
    """
    flat = 1 - 2 * profile.corner
    reach = _into_corner(eta, flat, profile.corner)
    rounded = 1 - 2 * profile.corner * (1 - np.sqrt(np.maximum(1 - np.minimum(reach, 1.0) ** 2, 0.0)))
    sloped = 1 - (1 - np.divide(profile.edge, profile.thickness)) * eta
    half: Array = profile.thickness / 2 * ((1 - profile.blade_share) * rounded + profile.blade_share * sloped)
    return half


def zone_moments(profile: Profile, inner: Array, outer: Array) -> Moments:
    """Area and second moments of the two strips of a section between two places across its width.

    Parameters
    ----------
    profile : Profile
        The sections. [m]
    inner, outer : array
        Bounds of the zone across the half-width, 0 at the centre line and 1 at the edge. [1]

    Returns
    -------
    Moments
        Of both strips together, about the section's own axes. [m2, m4]

    Notes
    -----
    Source: definition of the moments; Gauss-Legendre quadrature of 16 points on the flat and 16 on the corner
    (with eta = flat + 2 corner sin(phi), which removes the root), so that plain shapes come out to rounding error.

    Examples
    --------
    >>> round_bar = Profile(thickness=np.array(0.04), width=np.array(0.04), edge=np.array(0.0),
    ...                     corner=np.array(0.5), blade_share=np.array(0.0))
    >>> m = zone_moments(round_bar, np.array(0.0), np.array(1.0))
    >>> round(float(m.bending / (np.pi * 0.04**4 / 64)), 9)
    1.0
    """
    flat = 1 - 2 * profile.corner
    start, stop = np.minimum(inner, flat), np.minimum(outer, flat)
    nodes = _NODES.reshape(-1, *[1] * max(np.ndim(profile.thickness), np.ndim(inner), np.ndim(outer)))
    weights = _WEIGHTS.reshape(nodes.shape)
    eta_flat = start + (stop - start) * nodes
    phi0, phi1 = (np.arcsin(np.clip(_into_corner(eta, flat, profile.corner), 0, 1)) for eta in (inner, outer))
    phi = phi0 + (phi1 - phi0) * nodes
    eta = np.concatenate([eta_flat, flat + 2 * profile.corner * np.sin(phi)])
    step = np.concatenate([(stop - start) * weights, 2 * profile.corner * np.cos(phi) * (phi1 - phi0) * weights])
    z = half_thickness(profile, eta)
    return Moments(
        area=2 * profile.width * np.sum(step * z, axis=0),
        bending=2 / 3 * profile.width * np.sum(step * z**3, axis=0),
        lateral=profile.width**3 / 2 * np.sum(step * eta**2 * z, axis=0),
    )


def outline(profile: Profile, points: int = 60) -> tuple[Array, Array]:
    """Closed outline of one section, for drawing.

    Parameters
    ----------
    profile : Profile
        One section (scalars). [m]
    points : int, optional
        Points on a quarter of the outline. [count]

    Returns
    -------
    tuple of array
        y across the width and z through the thickness, counter-clockwise, first point repeated. [m]

    Notes
    -----
    Source: `half_thickness`, with points gathered at the corner.

    Examples
    --------
    >>> square = Profile(thickness=np.array(0.05), width=np.array(0.05), edge=np.array(0.05),
    ...                  corner=np.array(0.0), blade_share=np.array(0.0))
    >>> y, z = outline(square)
    >>> round(float(z.max()), 3), round(float(y.max()), 3)
    (0.025, 0.025)
    """
    corner = float(profile.corner)
    flat = 1 - 2 * corner
    eta = (
        np.concatenate([[0.0], flat + 2 * corner * np.sin(np.linspace(0, np.pi / 2, points))])
        if corner
        else np.array([0.0, 1.0])
    )
    z, y = half_thickness(profile, eta), eta * profile.width / 2
    y = np.concatenate([y[::-1], -y, -y[::-1], y])
    z = np.concatenate([z[::-1], z, -z[::-1], -z])
    return np.append(y, y[0]), np.append(z, z[0])
