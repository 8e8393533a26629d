"""A blade by ordinates: outline, thickness and, for a spoon, the sweep of its face.

Places run from the blade root to the tip, square to the sweep: along the loom's line. Sizes between the ordinates
follow monotone piecewise cubic curves, so that an outline is fair and bulges nowhere.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from oarkit.oar.measured import Station
from oarkit.working import Array, BadDesign, Number, formula

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(8)
_BY_QUADRATURE = "definition; Gauss-Legendre between the ordinates"


@dataclass(frozen=True, slots=True, kw_only=True)
class Blade:
    """Ordinates of a blade from root to tip [m], the last axis along the blade, designs before it.

    ``places`` (one row) rise from 0 to the blade's length; ``half_width`` is half the outline's width, ``centre`` and
    ``edge`` the thickness on the centre line and at the edges; ``sweep`` is how far the middle of the blade stands aft
    of the loom's line, nil at the root, None for a flat blade.
    """

    places: Array
    half_width: Array
    centre: Array
    edge: Array
    sweep: Array | None = None

    def __post_init__(self) -> None:
        _sound(self)

    @property
    def length(self) -> float:
        """Root to tip along the loom's line."""
        return float(self.places[-1])


def _sound(blade: Blade) -> None:
    """Refuse ordinates that no blade has, in words."""
    faults = []
    places = np.asarray(blade.places, dtype=float)
    if places.ndim != 1 or len(places) < 2 or places[0] != 0 or not np.all(np.diff(places) > 0):
        raise BadDesign("the places of the blade must rise from 0 at its root to its length")
    rows = {"half-width": blade.half_width, "centre thickness": blade.centre, "edge thickness": blade.edge}
    for name, row in rows.items():
        if np.shape(row)[-1:] != places.shape:
            faults.append(f"the {name} of the blade needs one ordinate at each of its {len(places)} places")
        elif not (np.all(np.isfinite(row)) and np.all(np.asarray(row) > 0)):
            faults.append(f"the {name} of the blade must be above nought everywhere")
    if not faults and np.any(np.asarray(blade.edge) > blade.centre):
        faults.append("somewhere the blade's edge is thicker than its centre")
    if blade.sweep is not None:
        sweep = np.asarray(blade.sweep, dtype=float)
        if sweep.shape[-1:] != places.shape or not np.all(np.isfinite(sweep)):
            faults.append(f"the sweep of the blade needs one ordinate at each of its {len(places)} places")
        elif np.any(sweep[..., 0] != 0):
            faults.append("the sweep of the blade is measured from its root and begins at 0")
    if faults:
        raise BadDesign("; ".join(faults))


def _curve(blade: Blade, ordinates: Array, order: int = 0) -> Callable[[Array], Array]:
    """Monotone cubic curve through ordinates along the blade, or its derivative."""
    from scipy.interpolate import PchipInterpolator

    curve = PchipInterpolator(blade.places, ordinates, axis=-1)
    return lambda x: np.asarray(curve(x, nu=order))


def _along(blade: Blade) -> tuple[Array, Array]:
    """Places between the ordinates and their weights, for an integral from root to tip."""
    half = np.diff(blade.places)[:, None] / 2
    return (blade.places[:-1, None] + half * (1 + _NODES)).ravel(), (half * _WEIGHTS).ravel()


def _slope(blade: Blade, x: Array) -> Array:
    """Slope of the swept face to the loom's line."""
    return np.zeros_like(x) if blade.sweep is None else _curve(blade, blade.sweep, 1)(x)


@formula("A_b = ∫ w dx", unit="m2", source=_BY_QUADRATURE)
def outline_area(blade: Blade) -> Number:
    """Area of the blade as seen square to the loom, which is what the water meets.

    Parameters
    ----------
    blade : Blade
        The blade. [m]

    Returns
    -------
    float or array
        Width integrated from root to tip along the loom's line. [m2]

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> plank = Blade(places=np.array([0.0, 0.6]), half_width=np.array([0.05, 0.07]),
    ...               centre=np.array([0.02, 0.01]), edge=np.array([0.008, 0.006]))
    >>> round(float(outline_area(plank)), 6)
    0.072
    """
    x, weight = _along(blade)
    area: Number = np.sum(weight * 2 * _curve(blade, blade.half_width)(x), axis=-1)
    return area


@formula("x_b = ∫ x w dx/A_b", unit="m", source=_BY_QUADRATURE)
def centre_of_outline(blade: Blade) -> Number:
    """Centre of area of the blade as seen square to the loom.

    Parameters
    ----------
    blade : Blade
        The blade. [m]

    Returns
    -------
    float or array
        Place from the blade root. [m]

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> plank = Blade(places=np.array([0.0, 0.6]), half_width=np.array([0.06, 0.06]),
    ...               centre=np.array([0.02, 0.01]), edge=np.array([0.008, 0.006]))
    >>> round(float(centre_of_outline(plank)), 6)
    0.3
    """
    x, weight = _along(blade)
    first: Number = np.sum(weight * x * 2 * _curve(blade, blade.half_width)(x), axis=-1)
    return first / outline_area(blade)


@formula("A_d = ∫ w √(1 + z'^2) dx", unit="m2", source=_BY_QUADRATURE)
def developed_area(blade: Blade) -> Number:
    """Area of one face laid flat: what veneer, cloth or varnish must cover.

    Parameters
    ----------
    blade : Blade
        The blade. [m]

    Returns
    -------
    float or array
        Width integrated along the swept face. [m2]

    Notes
    -----
    Source: definition of arc length.

    Examples
    --------
    >>> slope = Blade(places=np.array([0.0, 0.4]), half_width=np.array([0.05, 0.05]), sweep=np.array([0.0, 0.3]),
    ...               centre=np.array([0.01, 0.01]), edge=np.array([0.005, 0.005]))
    >>> round(float(developed_area(slope)), 6)
    0.05
    """
    x, weight = _along(blade)
    area: Number = np.sum(weight * 2 * _curve(blade, blade.half_width)(x) * np.hypot(1, _slope(blade, x)), axis=-1)
    return area


@formula("l_d = ∫ √(1 + z'^2) dx", unit="m", source=_BY_QUADRATURE)
def developed_length(blade: Blade) -> Number:
    """Length of the blade along its swept face: what the stock for it must be.

    Parameters
    ----------
    blade : Blade
        The blade. [m]

    Returns
    -------
    float or array
        Root to tip along the face. [m]

    Notes
    -----
    Source: definition of arc length.

    Examples
    --------
    >>> slope = Blade(places=np.array([0.0, 0.4]), half_width=np.array([0.05, 0.05]), sweep=np.array([0.0, 0.3]),
    ...               centre=np.array([0.01, 0.01]), edge=np.array([0.005, 0.005]))
    >>> round(float(developed_length(slope)), 6)
    0.5
    """
    x, weight = _along(blade)
    length: Number = np.sum(weight * np.hypot(1, _slope(blade, x)), axis=-1)
    return length


@formula("α_t = atan z'(tip)", unit="rad", source="definition")
def tip_angle(blade: Blade) -> Number:
    """Angle of the face at the tip to the loom's line.

    Parameters
    ----------
    blade : Blade
        The blade. [m]

    Returns
    -------
    float or array
        Nil for a flat blade. [rad]

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> slope = Blade(places=np.array([0.0, 0.4]), half_width=np.array([0.05, 0.05]), sweep=np.array([0.0, 0.4]),
    ...               centre=np.array([0.01, 0.01]), edge=np.array([0.005, 0.005]))
    >>> round(float(np.degrees(tip_angle(slope))), 6)
    45.0
    """
    angle: Number = np.arctan(_slope(blade, blade.places)[..., -1])
    return angle


@formula("h = max |z − z_t x/l_b| cos(atan(z_t/l_b))", unit="m", source="plane geometry")
def depth_of_curve(blade: Blade) -> Number:
    """Greatest gap between the face and a straight edge laid from its root to its tip.

    Parameters
    ----------
    blade : Blade
        The blade. [m]

    Returns
    -------
    float or array
        Depth of the hollow, nil for a flat blade. [m]

    Notes
    -----
    Source: plane geometry; looked for at 400 places along the blade.

    Examples
    --------
    >>> x = np.linspace(0, 0.6, 13)
    >>> spoon = Blade(places=x, half_width=0 * x + 0.06, centre=0 * x + 0.012, edge=0 * x + 0.006,
    ...               sweep=arc_sweep(x, depth=0.030))
    >>> round(float(depth_of_curve(spoon)), 4)
    0.0075
    """
    if blade.sweep is None:
        return 0.0
    x = np.linspace(0, blade.length, 401)
    z = _curve(blade, blade.sweep)(x)
    chord = z[..., -1:] / blade.length
    gap: Number = np.max(np.abs(z - chord * x), axis=-1) / np.hypot(1, chord[..., 0])
    return gap


@formula(
    "z = R − √(R^2 − x^2), R = (l_b^2 + d^2)/(2 d)",
    unit="m",
    source="plane geometry; a circle that leaves the loom's line at the root",
    where={"places": "x [m]", "depth": "d [m]"},
)
def arc_sweep(places: Array, *, depth: Number) -> Array:
    """Ordinates of a face swept as an arc of a circle that leaves the loom's line at the root.

    Parameters
    ----------
    places : array
        Rising from 0 to the blade's length. [m]
    depth : float or array
        How far the tip stands off the loom's line, less than the length. [m]

    Returns
    -------
    array
        Sweep at the places; nil all along where the depth is nil. [m]

    Notes
    -----
    Source: plane geometry, with l_b the last of the places. Written as z = x^2/(R + sqrt(R^2 - x^2)), which does not
    lose digits on a slight sweep.

    Examples
    --------
    >>> [round(float(z), 5) for z in arc_sweep(np.array([0.0, 0.3, 0.6]), depth=0.030)]
    [0.0, 0.00749, 0.03]
    """
    deep = np.asarray(depth, dtype=float)[..., None]
    length = places[-1]
    if np.any(deep < 0) or np.any(deep >= length):
        raise BadDesign("the depth of a spoon's sweep must be from nought to less than the blade's length")
    curvature = 2 * deep / (length**2 + deep**2)
    sweep: Array = curvature * places**2 / (1 + np.sqrt(1 - (curvature * places) ** 2))
    return sweep


def blade_stations(blade: Blade, *, root: float) -> tuple[Station, ...]:
    """Stations of one flat or swept blade, for the end of an oar's station table.

    Parameters
    ----------
    blade : Blade
        One blade. [m]
    root : float
        Place of the blade root from the handle end. [m]

    Returns
    -------
    tuple of Station
        One a place, sizes as measured square to the loom's line. [m]

    Notes
    -----
    Source: derived; the sweep bends the oar too little to change its sections.

    Examples
    --------
    >>> plank = Blade(places=np.array([0.0, 0.6]), half_width=np.array([0.05, 0.07]),
    ...               centre=np.array([0.02, 0.01]), edge=np.array([0.008, 0.006]))
    >>> [(each.s, each.width, each.edge) for each in blade_stations(plank, root=1.7)]
    [(1.7, 0.1, 0.008), (2.3, 0.14, 0.006)]
    """
    rows = zip(
        blade.places.tolist(), blade.half_width.tolist(), blade.centre.tolist(), blade.edge.tolist(), strict=True
    )
    return tuple(
        Station(s=root + x, thickness=thick, form="blade", width=2 * half, edge=edge) for x, half, thick, edge in rows
    )
