r"""Shape of one section of an oar, and its area and moments in closed form.

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

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from oarkit.working import Array, Number

_ONE, _NIL = np.ones(()), np.zeros(())


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
    """Area and moments of a section or a zone of it.

    ``bending`` is about the axis across the width (bending in the stroke), ``lateral`` about the other; ``first`` is
    the first moment of the aft half about the axis across the width, ``lateral_first`` that of one side about the
    other.
    """

    area: Array
    bending: Array
    lateral: Array
    first: Array
    lateral_first: Array


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
    sloped = profile.thickness / 2 + (profile.edge - profile.thickness) / 2 * eta
    if (profile.blade_share >= 1).all():
        return sloped
    reach = np.minimum(_into_corner(eta, 1 - 2 * profile.corner, profile.corner), 1.0)
    rounded = profile.thickness / 2 - profile.thickness * profile.corner * (1 - np.sqrt(1 - reach * reach))
    half: Array = rounded + profile.blade_share * (sloped - rounded)
    return half


def reach(profile: Profile, level: Number) -> Array:
    r"""Place across the width where the outline has come down to a level through the thickness.

    Parameters
    ----------
    profile : Profile
        The sections. [m]
    level : float or array
        Height over the middle plane. [m]

    Returns
    -------
    array
        Share of the half-width, 1 where the outline stays above the level and 0 where it never gets there. [1]

    Notes
    -----
    Source: plane geometry; on the flat the outline is straight, in the corner, with :math:`\eta = f + 2 c \sin\varphi`,
    it is :math:`A + B \sin\varphi + R \cos\varphi = A + \sqrt{B^2 + R^2} \cos(\varphi - \alpha)`.

    Examples
    --------
    >>> round_bar = Profile(thickness=np.array(0.04), width=np.array(0.04), edge=np.array(0.0),
    ...                     corner=np.array(0.5), blade_share=np.array(0.0))
    >>> round(float(reach(round_bar, 0.012)), 9)
    0.8
    """
    flat, slope = 1 - 2 * profile.corner, profile.blade_share * (profile.edge - profile.thickness) / 2
    middle = profile.thickness / 2
    drop = middle - level
    straight = np.divide(
        drop, -slope, out=np.ones(np.broadcast_shapes(np.shape(drop), np.shape(slope))), where=slope < 0
    )
    level_part, sine_part, cosine_part = _corner_curve(profile)
    swing = np.sqrt(sine_part**2 + cosine_part**2)
    share = np.divide(level - level_part, swing, out=np.ones_like(drop + swing), where=(swing > 0) & (drop > 0))
    angle = np.arctan2(sine_part, cosine_part) + np.arccos(np.clip(share, -1.0, 1.0))
    curved = flat + 2 * profile.corner * np.sin(np.clip(angle, 0.0, np.pi / 2))
    at = np.where(level >= middle + slope * flat, np.minimum(straight, 1.0), curved)
    at = np.where(level < half_thickness(profile, np.array(1.0)), 1.0, at)
    return np.where(drop <= 0, 0.0, at)


def _corner_curve(profile: Profile) -> tuple[Array, Array, Array]:
    """Half-thickness in the corner as a constant, a part of the sine and a part of the cosine of its angle."""
    flat, loom_share = 1 - 2 * profile.corner, 1 - profile.blade_share
    slope = profile.edge - profile.thickness
    constant = (profile.thickness * (loom_share * flat + profile.blade_share) + profile.blade_share * slope * flat) / 2
    return constant, profile.blade_share * profile.corner * slope, profile.thickness * loom_share * profile.corner


def zone_moments(profile: Profile, inner: Number, outer: Number) -> Moments:
    """Area and moments of the two strips of a section between two places across its width.

    Parameters
    ----------
    profile : Profile
        The sections. [m]
    inner, outer : float or array
        Bounds of the zone across the half-width, 0 at the centre line and 1 at the edge. [1]

    Returns
    -------
    Moments
        Of both strips together, about the section's own axes. [m2, m3, m4]

    Notes
    -----
    Source: definition of the moments, integrated in closed form: cubic polynomials on the flat, and in the
    corner, with eta = flat + 2 corner sin(phi), polynomials in sine and cosine.

    Examples
    --------
    >>> round_bar = Profile(thickness=np.array(0.04), width=np.array(0.04), edge=np.array(0.0),
    ...                     corner=np.array(0.5), blade_share=np.array(0.0))
    >>> m = zone_moments(round_bar, np.array(0.0), np.array(1.0))
    >>> round(float(m.bending / (np.pi * 0.04**4 / 64)), 9)
    1.0
    """
    return moments_between(profile, (inner, outer))[0]


def moments_between(profile: Profile, bounds: Sequence[Number]) -> list[Moments]:
    """Area and moments of every zone of a section, from each bound across its width to the next.

    Parameters
    ----------
    profile : Profile
        The sections. [m]
    bounds : sequence of float or array
        Across the half-width, rising from the centre line at 0 to the edge at 1. [1]

    Returns
    -------
    list of Moments
        One a zone, as `zone_moments`. [m2, m3, m4]

    Notes
    -----
    Source: as `zone_moments`; what two zones share at their bound is worked once.

    Examples
    --------
    >>> bar = Profile(thickness=np.array(0.04), width=np.array(0.06), edge=np.array(0.04), corner=np.array(0.0),
    ...               blade_share=np.array(0.0))
    >>> [round(float(zone.area), 6) for zone in moments_between(bar, (0.0, 0.25, 1.0))]
    [0.0006, 0.0018]
    """
    thickness, width = profile.thickness, profile.width
    loom = not profile.blade_share.any()
    if loom:  # all looms of one corner are one shape, stretched
        profile = Profile(thickness=_ONE, width=_ONE, edge=_ONE, corner=profile.corner, blade_share=_NIL)
    straight: list[tuple[Array, ...]] | None = None
    curved: list[tuple[Array, ...]] | None = None
    if not ((profile.corner > 0) & (profile.blade_share < 1)).any():
        straight = _straight_parts(profile, bounds)
    else:
        flat = 1 - 2 * profile.corner
        if (flat > 0).any():
            straight = _straight_parts(profile, [np.minimum(bound, flat) for bound in bounds])
        curved = _corner_parts(profile, [_sine(profile, bound) for bound in bounds])
    if straight and curved:
        found = [tuple(map(np.add, *both)) for both in zip(straight, curved, strict=True)]
    else:
        found = straight or curved or []
    if not loom:
        square = width * width
        return [
            Moments(
                area=width * (2 * z), bending=width * (2 / 3 * z3), lateral=square * width * (y2z / 2),
                first=width * (z2 / 2), lateral_first=square * (yz / 2),
            )
            for z, z2, z3, yz, y2z in found
        ]  # fmt: skip
    whole = width * thickness
    tall, wide = whole * thickness, whole * width
    return [
        Moments(
            area=whole * (2 * z), bending=tall * thickness * (2 / 3 * z3), lateral=wide * width * (y2z / 2),
            first=tall * (z2 / 2), lateral_first=wide * (yz / 2),
        )
        for z, z2, z3, yz, y2z in found
    ]  # fmt: skip


def _sine(profile: Profile, eta: Number) -> Number:
    """Sine of the corner's angle at a place across the width; 0 on the flat, 1 at the edge."""
    if np.ndim(eta) == 0 and float(eta) in (0.0, 1.0):
        return float(eta)
    return np.minimum(_into_corner(np.asarray(eta), 1 - 2 * profile.corner, profile.corner), 1.0)


def _straight_parts(profile: Profile, bounds: Sequence[Number]) -> list[tuple[Array, ...]]:
    """Integrals over eta of z, z^2, z^3, eta z and eta^2 z between bounds where the outline is straight."""
    slope, centre = profile.blade_share / 2 * (profile.edge - profile.thickness), profile.thickness / 2
    found: list[tuple[Array, ...]] = []
    for start, stop in pairwise(bounds):
        middle, half = (np.asarray(stop) + start) / 2, (np.asarray(stop) - start) / 2
        height, rise = centre + slope * middle, slope * half  # z in the middle; from there to either end
        square, steep, span, lean = height * height, rise * rise, 2 * half, half / 3 * rise
        z = span * height
        found.append((
            z, span * (square + steep / 3), z * (square + steep), span * (middle * height + lean),
            z * (middle * middle + half * half / 3) + 2 * span * middle * lean,
        ))  # fmt: skip
    return found


def _corner_parts(profile: Profile, sines: Sequence[Number]) -> list[tuple[Array, ...]]:
    """Integrals over eta of z, z^2, z^3, eta z and eta^2 z in the corner, between sines of its angle.

    There z = a + b S + r C and eta = f + g S with S and C sine and cosine, so that d eta = g dS.
    """
    a, b, r = _corner_curve(profile)
    f, g = 1 - 2 * profile.corner, 2 * profile.corner
    found: list[tuple[Array, ...]] = []
    for before, after in pairwise(_powers_at(sine) for sine in sines):
        d1, d2, d3, d4, c0, c1, c2, c3 = (y - x for x, y in zip(before, after, strict=True))
        z = a * d1 + b * d2 + r * c0
        yz = f * z + g * (a * d2 + b * d3 + r * c1)
        y2z = 2 * f * yz - f * f * z + g * g * (a * d3 + b * d4 + r * c2)
        z2 = a * (a * d1 + 2 * b * d2) + b * b * d3 + 2 * r * (a * c0 + b * c1) + r * r * (d1 - d3)
        z3 = (
            a * a * (a * d1 + 3 * b * d2) + b * b * (3 * a * d3 + b * d4)
            + 3 * r * (a * a * c0 + 2 * a * b * c1 + b * b * c2)
            + 3 * r * r * (a * (d1 - d3) + b * (d2 - d4)) + r * r * r * c3
        )  # fmt: skip
        found.append((g * z, g * z2, g * z3, g * yz, g * y2z))
    return found


def _powers(sine: Number) -> tuple[Number, ...]:
    """Antiderivatives in S of 1, S, S^2, S^3 and of C, S C, S^2 C, C^3, with C the root of 1 - S^2."""
    s = np.asarray(sine, dtype=float)
    s2 = s * s
    c2 = 1 - s2
    c = np.sqrt(c2)
    angle, product = np.arcsin(s), s * c
    double = product * (1 - 2 * s2)
    return (
        s, s2 / 2, s2 * s / 3, s2 * s2 / 4,
        (angle + product) / 2, -(c2 * c) / 3, (angle - double) / 8, 3 / 8 * angle + product / 2 + double / 8,
    )  # fmt: skip


_ENDS = {0.0: _powers(0.0), 1.0: _powers(1.0)}  # the start of a corner and the edge, where most zones end


def _powers_at(sine: Number) -> tuple[Number, ...]:
    return _ENDS[sine] if isinstance(sine, float) and sine in _ENDS else _powers(sine)


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
