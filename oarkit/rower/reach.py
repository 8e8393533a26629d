"""How far trunk and arms of a seated rower take the hands: catch and finish.

Side view, lengths along the keel from the pin line: the rower sits forward of the pins and faces aft. The hip stands
over the seat, the trunk turns about it as a stiff rod to the shoulder.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from oarkit.working import BadDesign, Number, Quantity, formula

_DERIVED = "plane geometry"
CATCH_TRUNK, FINISH_TRUNK = math.radians(30), math.radians(-15)  #: swing of the trunk, choices of this project [rad]
KNEE_FLEXION = math.radians(35)  #: bend of the knee against the brace, a choice of this project [rad]


@dataclass(frozen=True, slots=True, kw_only=True)
class Posture:
    """How the rower sits and swings [m, rad]; all of it may be told for another body or another style."""

    hip_above_seat: Number = 0.090
    hip_forward_of_seat_edge: Number = 0.120
    trunk_at_catch: Number = CATCH_TRUNK
    trunk_at_finish: Number = FINISH_TRUNK
    hand_at_finish: Number = 0.150
    knee_flexion: Number = KNEE_FLEXION


@formula(
    "x_c = √(a² − (z_s − h)²) + t sin φ_c − (e + f),  z_s = z_h + t cos φ_c", unit="m", source=_DERIVED,
    where={
        "arm": "a [m]", "trunk": "t [m]", "trunk_angle": "φ_c [rad]", "hip_above_seat": "z_h [m]",
        "hand_height": "h [m]", "seat_edge_to_pins": "e [m]", "hip_forward_of_seat_edge": "f [m]",
    },
)  # fmt: skip
def catch_reach(
    *,
    arm: Number,
    trunk: Number,
    trunk_angle: Number,
    hip_above_seat: Number,
    hand_height: Number,
    seat_edge_to_pins: Number,
    hip_forward_of_seat_edge: Number,
) -> Number:
    """How far beyond the pin line, toward the stern, the straight arm takes the hand at the catch.

    Parameters
    ----------
    arm : float or array
        Shoulder to grip centre, arm straight. [m]
    trunk : float or array
        Hip joint to shoulder. [m]
    trunk_angle : float or array
        Trunk from upright at the catch, positive toward the stern. [rad]
    hip_above_seat : float or array
        Hip joint above the top of the seat. [m]
    hand_height : float or array
        Grip centre above the top of the seat in the drive. [m]
    seat_edge_to_pins : float or array
        Aft edge of the seat to the pin line. [m]
    hip_forward_of_seat_edge : float or array
        Hip joint forward of the seat's aft edge. [m]

    Returns
    -------
    float or array
        Hand aft of the pin line along the keel; negative where it stays forward of it. [m]

    Raises
    ------
    BadDesign
        The hand is higher or lower than the arm can reach.

    Notes
    -----
    Source: plane geometry, side view; the arm's small spread sideways is left out (a few mm).

    Examples
    --------
    >>> round(float(catch_reach(arm=0.65, trunk=0.50, trunk_angle=0.0, hip_above_seat=0.09, hand_height=0.34,
    ...                         seat_edge_to_pins=0.30, hip_forward_of_seat_edge=0.12)), 3)
    0.18
    """
    above = hip_above_seat + trunk * np.cos(trunk_angle) - hand_height
    if np.any(np.abs(above) >= arm):
        raise BadDesign(
            "the arms cannot reach the grips at the catch: the shoulder would be {above} from their height, the arm is "
            "{arm}; check the height of the lock above the seat, and shoulder height and arm length",
            {
                "above": Quantity(value=float(np.max(np.abs(above))), unit="m"),
                "arm": Quantity(value=float(np.min(arm)), unit="m"),
            },
        )
    level = np.sqrt(np.square(arm) - np.square(above))
    swung: Number = trunk * np.sin(trunk_angle)
    reach: Number = level + swung - (seat_edge_to_pins + hip_forward_of_seat_edge)
    return reach


@formula(
    "x_f = e + f − b", unit="m", source=_DERIVED,
    where={"seat_edge_to_pins": "e [m]", "hip_forward_of_seat_edge": "f [m]", "hand_at_finish": "b [m]"},
)  # fmt: skip
def finish_reach(*, seat_edge_to_pins: Number, hip_forward_of_seat_edge: Number, hand_at_finish: Number) -> Number:
    """How far beyond the pin line, toward the bow, the hand is drawn at the finish.

    Parameters
    ----------
    seat_edge_to_pins : float or array
        Aft edge of the seat to the pin line. [m]
    hip_forward_of_seat_edge : float or array
        Hip joint forward of the seat's aft edge. [m]
    hand_at_finish : float or array
        Hand aft of the hip joint at the finish. [m]

    Returns
    -------
    float or array
        Hand forward of the pin line along the keel; negative where it stays aft of it. [m]

    Notes
    -----
    Source: plane geometry; a hand 150 mm aft of the hip, where nothing is said, is a choice of this project.

    Examples
    --------
    >>> round(finish_reach(seat_edge_to_pins=0.30, hip_forward_of_seat_edge=0.12, hand_at_finish=0.15), 3)
    0.27
    """
    return seat_edge_to_pins + hip_forward_of_seat_edge - hand_at_finish
