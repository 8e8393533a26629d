"""What is customary at a rowing station, as ranges with their sources, and the sizes that oars are sold in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from oarkit.rig.solve import refuse_unsound
from oarkit.working import Number, formula

INCH, FOOT = 0.0254, 0.3048  #: [m]
STOCK_STEP = 6 * INCH  #: between one stock size and the next, common practice [m]
STOCK_LENGTHS = tuple(round(6 * FOOT + step * STOCK_STEP, 4) for step in range(9))  #: 6 to 10 ft, common practice [m]
SHORT_BOAT = 10 * FOOT  #: boats over this take the next size up, under it the next down, common practice [m]
HAND_OVER_ELBOW = (0.060, 0.140)  #: comfortable hand in the drive over the seated elbow, common practice [m]
SAME = 1e-9  #: a length this near to a limit or to a stock size is on it [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class TradeRange:
    """What is customary for one quantity, in SI; None where the trade states no such value."""

    rule: str
    quantity: str
    low: float | None
    typical: float | None
    high: float | None
    unit: str
    source: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A station's own value and where it lies against what is customary."""

    range: TradeRange
    value: float
    place: Literal["below", "inside", "above"]


@formula(
    "6 to 10 ft in steps of 6 in: the nearest; up over 10 ft of boat, down under it", unit="m",
    source="common practice", where={"length": "L [m]", "boat_length": "L_OA [m]"},
)  # fmt: skip
def stock_length(*, length: Number, boat_length: Number | None = None) -> Number:
    """Stock size of an oar.

    Parameters
    ----------
    length : float or array
        Length that is wanted. [m]
    boat_length : float, array or None, optional
        Length overall of the boat; without it, and at 10 ft sharp, the nearest size is taken. [m]

    Returns
    -------
    float or array
        A stock size: beyond 6 or 10 ft it is that end size, and so lies further from the length than a step. [m]

    Raises
    ------
    BadDesign
        A length is no length.

    Notes
    -----
    Source: common practice. A length half-way between two sizes goes up, as on a tape.

    Examples
    --------
    >>> round(float(stock_length(length=2.25)), 4)
    2.286
    >>> round(float(stock_length(length=2.25, boat_length=2.9)), 4)
    2.1336
    """
    refuse_unsound("length", length)
    steps = (np.asarray(length) - STOCK_LENGTHS[0]) / STOCK_STEP
    up, down, nearest = np.ceil(steps - SAME), np.floor(steps + SAME), np.floor(steps + 0.5 + SAME)
    if boat_length is not None:
        refuse_unsound("length of the boat", boat_length)
        over = np.asarray(boat_length) - SHORT_BOAT
        nearest = np.where(over > SAME, up, np.where(over < -SAME, down, nearest))
    return STOCK_LENGTHS[0] + STOCK_STEP * np.clip(nearest, 0, len(STOCK_LENGTHS) - 1)


def hand_height_range(*, elbow_rest_height: float) -> TradeRange:
    """Comfortable height of the hand in the drive, for one rower.

    Parameters
    ----------
    elbow_rest_height : float
        Seat to the elbow, upper arm hanging, seated. [m]

    Returns
    -------
    TradeRange
        Grip centre above the top of the seat. [m]

    Notes
    -----
    Source: common practice.

    Examples
    --------
    >>> comfortable = hand_height_range(elbow_rest_height=0.24)
    >>> round(comfortable.low, 3), round(comfortable.high, 3)
    (0.3, 0.38)
    """
    refuse_unsound("elbow height", elbow_rest_height)
    low, high = (elbow_rest_height + over for over in HAND_OVER_ELBOW)
    return TradeRange(
        rule="hand in the drive over the elbow",
        quantity="hand_height_in_drive",
        low=low,
        typical=None,
        high=high,
        unit="m",
        source="common practice",
        note="60 to 140 mm over the seated elbow",
    )


def placed(ranges: Sequence[TradeRange], values: Mapping[str, float]) -> tuple[Placed, ...]:
    """Where a station's values lie against what is customary.

    Parameters
    ----------
    ranges : sequence of TradeRange
        What is customary, e.g. the table of `oarkit.tables.trade_ranges`. [records]
    values : mapping
        The station's own values by the names the ranges use: those of a `Rig` ("span", "overlap",
        "lock_above_seat" ...) and "gap", "seat_edge_to_pins", "seat_above_heels", "seat_edge_to_footrest",
        "seat_above_bottom". [any]

    Returns
    -------
    tuple of Placed
        One for each range whose quantity has a value, in the order of the ranges; a limit itself is inside. [records]

    Raises
    ------
    BadDesign
        A value is no number.

    Notes
    -----
    Source: each range names its own.

    Examples
    --------
    >>> comfortable = hand_height_range(elbow_rest_height=0.24)
    >>> placed([comfortable], {"hand_height_in_drive": 0.42})[0].place
    'above'
    """
    found = []
    for customary in ranges:
        if customary.quantity not in values:
            continue
        value = float(values[customary.quantity])
        refuse_unsound(customary.quantity, value, least="any")
        found.append(Placed(range=customary, value=value, place=_place(customary, value)))
    return tuple(found)


def _place(customary: TradeRange, value: float) -> Literal["below", "inside", "above"]:
    if customary.low is not None and value < customary.low - SAME:
        return "below"
    if customary.high is not None and value > customary.high + SAME:
        return "above"
    return "inside"
