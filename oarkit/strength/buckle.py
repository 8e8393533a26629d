"""Column buckling of the tapered oar: the push along it at which it bows out of itself."""

from __future__ import annotations

import numpy as np

from oarkit.oar.build import Oar
from oarkit.strength.bar import bar_of
from oarkit.strength.bend import Plane
from oarkit.working import Array, BadDesign, Number, Quantity, formula

_WAVES = 10  #: in the first shape of the bow; what they lack is cut by their number to the fourth when it bends once
_ROUNDS = 8  #: rounds from a single wave to the best sum; each cuts what is left to a third, or less


def _column(value: Number) -> Array:
    return np.asarray(value, dtype=float)[..., None]


@formula(
    "E I y″ = −P_cr y, y nil at hand and tip, by sine waves and one iteration",
    unit="N",
    source="Euler; Ritz; Engesser-Vianello",
)
def buckling_load(
    oar: Oar, *, plane: Plane = "stroke", start: Number | None = None, stop: Number | None = None
) -> Number:
    """Push along the oar at which it buckles, its ends held sideways but free to turn.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    plane : {"stroke", "lateral"}, optional
        Bowing square to the blade face, or in its plane. [text]
    start, stop : float or array, optional
        Places of the two ends, grip centre and tip where nothing is said. [m]

    Returns
    -------
    float or array
        Buckling load. [N]

    Raises
    ------
    BadDesign
        The ends do not lie on the oar, one beyond the other.

    Notes
    -----
    Source: Euler's column with a stiffness that varies: the best sum of sine waves (Ritz), then one round of successive
    approximation (Engesser, Vianello) with the quotient of Rayleigh; textbook. Shear is left out; it takes off about
    P_cr/(G A), some parts in a thousand.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bool(buckling_load(oar, plane="lateral") > buckling_load(oar))
    True
    """
    first = oar.shape.grip_centre if start is None else start
    last = oar.shape.length if stop is None else stop
    if (
        np.any(np.asarray(first) < 0)
        or np.any(np.subtract(last, first) <= 0)
        or np.any(np.subtract(last, oar.shape.length) > 1e-9)
    ):
        raise BadDesign(
            "a push along the oar from {start} to {stop} does not lie on an oar {length} long",
            {
                "start": Quantity(value=first, unit="m"),
                "stop": Quantity(value=last, unit="m"),
                "length": Quantity(value=oar.shape.length, unit="m"),
            },
        )
    bar = bar_of(oar, plane=plane, places=[first, last], with_shear=False)
    low, high = _column(first), _column(last)
    weight = bar.flexibility * (bar.reach * ((bar.point > low) & (bar.point < high)))
    shape = _ritz(weight, np.pi * (bar.point - low) / (high - low))
    # Once more, now as the shape bends by its own moment: that takes in the steps of the stiffness.
    slope, bent = bar.turned(-weight * shape)
    at_low, at_high = bar.at(bent, first), bar.at(bent, last)
    bent = bent - at_low - (at_high - at_low) * ((bar.s - low) / (high - low))
    slope = slope - (at_high - at_low) / (high - low)
    made = bar.smooth(bent, slope)
    borne = weight * made
    load: Number = (np.vecdot(borne, shape) / np.vecdot(borne, made))[()]
    return load


def _ritz(weight: Array, angle: Array) -> Array:
    """Shape of the bow as the best sum of sine waves, at places whose angle runs from 0 to pi from end to end.

    With M = P y for the moment, the waves k and l share in 1/P by the integral of their product over E I, over k l.
    """
    wave = np.arange(1, _WAVES + 1)
    cosines = np.cos(angle[..., None] * np.arange(2 * _WAVES + 1))
    sums = (weight[..., None, :] @ cosines)[..., 0, :]
    product = sums[..., np.abs(wave[:, None] - wave)] - sums[..., wave[:, None] + wave]
    matrix = product / (np.multiply.outer(wave, wave) * product[..., :1, :1])
    share = matrix[..., :1]
    for _ in range(_ROUNDS):
        share = matrix @ share
    shape: Array = (np.sin(angle[..., None] * wave) @ (share / wave[:, None]))[..., 0]
    return shape
