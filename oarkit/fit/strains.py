"""How far a rig lies from what is customary, each aim counted in its own tolerance."""

from __future__ import annotations

import numpy as np

from oarkit.fit.limits import (
    APART_AIM,
    APART_WIDTH,
    CATCH_WIDTH,
    CROSSED_AIM,
    CROSSED_WIDTH,
    DIP_WIDTH,
    EASY_DIP,
    HAND_AIM,
    HAND_WIDTH,
    RATIO_WIDTH,
    FitStation,
)
from oarkit.rig.station import CUSTOMARY_RATIO, Rig
from oarkit.stroke import arc
from oarkit.working import Array, Number


def strains(
    rigs: Rig, *, catch_sine: Number | None = None, catch_aim: Number = arc.IDEAL_CATCH, elbow: Number | None = None
) -> dict[str, Array]:
    """How far rigs lie from each aim of custom, counted in that aim's own tolerance.

    Parameters
    ----------
    rigs : Rig
        Rigs as arrays. [record]
    catch_sine : array, optional
        Sine of the catch angle, where the reach is known. [1]
    catch_aim : float, optional
        What is aimed at: 60°, or less where lock or tholes stop the oar before. [rad]
    elbow : float, optional
        Underside of the elbow above the seat, where known. [m]

    Returns
    -------
    dict
        Aim to distance, positive where the rig has more; a rig is chosen that makes the sum of squares least. [1]

    Notes
    -----
    Source: the aims are common practice (ratio 18/7 ± 0.15, handles crossed by 4 in ± 50 mm or a gap of 50 ± 25 mm,
    catch 60 − 10°, counted in its sine, hand 100 ± 40 mm over the elbow, dip up to 15°, then 5°); that they
    weigh alike is a choice of this project.

    Examples
    --------
    >>> from oarkit.rig.station import INCH, rig_from_station
    >>> rig = rig_from_station(beam=1.0, seat_above_water=0.08, lock_above_water=0.30, overlap=4 * INCH,
    ...                        leverage_ratio=18 / 7 + 0.15, round_length=None)
    >>> {aim: round(abs(float(off)), 3) for aim, off in strains(rig).items() if aim != "dip_in_drive"}
    {'leverage_ratio': 1.0, 'overlap': 0.0}
    """
    crossed = np.asarray(rigs.overlap) > 0
    aim, width = np.where(crossed, CROSSED_AIM, APART_AIM), np.where(crossed, CROSSED_WIDTH, APART_WIDTH)
    parts: dict[str, Number] = {
        "leverage_ratio": (rigs.leverage_ratio - CUSTOMARY_RATIO) / RATIO_WIDTH,
        "overlap": (rigs.overlap - aim) / width,
        "dip_in_drive": np.maximum(rigs.dip_in_drive - EASY_DIP, 0.0) / DIP_WIDTH,
    }
    if catch_sine is not None:
        width_of_sine = np.sin(catch_aim) - np.sin(catch_aim - CATCH_WIDTH)
        parts["catch_angle"] = (catch_sine - np.sin(catch_aim)) / width_of_sine
    if elbow is not None:
        parts["hand_height"] = (rigs.hand_height_in_drive - elbow - HAND_AIM) / HAND_WIDTH
    return dict(zip(parts, (np.asarray(part, float) for part in np.broadcast_arrays(*parts.values())), strict=True))


def catch_aim(station: FitStation) -> float:
    """Sweep angle aimed at in the catch: 60°, or less where lock or tholes stop the oar before.

    Parameters
    ----------
    station : FitStation
        The station. [record]

    Returns
    -------
    float
        The angle. [rad]

    Notes
    -----
    Source: common practice, an ideal arc of 60 + 35°.

    Examples
    --------
    >>> here = FitStation(beam=0.9, seat_above_water=0.08, lock_above_water=0.3, wave_clearance=0.1, blade_length=0.56,
    ...                   blade_width=0.13, grip_centre=0.06, catch_limit=0.8)
    >>> catch_aim(here)
    0.8
    """
    return arc.IDEAL_CATCH if station.catch_limit is None else min(arc.IDEAL_CATCH, station.catch_limit)
