"""Column buckling of the tapered oar: the push along it at which it bows out of itself."""

from __future__ import annotations

import numpy as np

from oarkit.oar.build import Oar
from oarkit.strength.bend import Plane, bar_of
from oarkit.working import BadDesign, Number, Quantity, formula

_ROUNDS = 5  #: of inverse iteration; each leaves a sixteenth of the error of the load, or less


@formula("E I y″ = −P_cr y, y nil at hand and tip, by inverse iteration", unit="N", source="Euler; Engesser-Vianello")
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
    Source: Euler's column with a stiffness that varies, solved by successive approximation (Engesser, Vianello) with
    the quotient of Rayleigh; textbook. Shear is left out; it takes off about P_cr/(G A), some parts in a thousand.

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
    bar = bar_of(oar, plane=plane, places=[first, last])
    low, high = (bar.at_place(bar.s, number) for number in (0, 1))
    point = bar.s[..., :-1, None] + bar.ahead
    pressed = bar.flexibility * ((point > low[..., None]) & (point < high[..., None]))
    share, span, weight = (bar.s - low) / (high - low), high - low, bar.reach * pressed
    shape = np.sin(np.pi * (point - low[..., None]) / span[..., None])
    # Between stations the shape is the cubic that keeps deflection and slope at both; x runs from 0 to 1.
    step = np.diff(bar.s, axis=-1)[..., None]
    x = bar.ahead / np.maximum(step, 1e-300)
    far, bow, fall = (3 - 2 * x) * x**2, step * x * (1 - x) ** 2, step * x**2 * (1 - x)
    load = np.ones(bar.s.shape[:-1])
    for _ in range(_ROUNDS):
        slope, bent = bar.turned(-pressed * shape)
        at_low, at_high = (bar.at_place(bent, number) for number in (0, 1))
        bent = bent - at_low - (at_high - at_low) * share
        slope = slope - (at_high - at_low) / span
        near = bent[..., :-1, None]
        new = near + (bent[..., 1:, None] - near) * far + slope[..., :-1, None] * bow - slope[..., 1:, None] * fall
        load = np.sum(weight * shape * new, axis=(-2, -1)) / np.sum(weight * new**2, axis=(-2, -1))
        shape = new * load[..., None, None]
    return load[()]
