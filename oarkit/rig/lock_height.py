"""Where no height of the locks suits oar, seat and wave: said with what closes the gap, worked on the changed rig."""

from __future__ import annotations

import numpy as np

from oarkit.rig.station import Rig
from oarkit.rig.waves import ROUNDING_DIP, STEEP_DIP, TIGHT, LockRange, lock_range
from oarkit.working import Finding, Level, Number, Quantity

ROUNDING = 0.001  #: heights that differ by less are one [m]
LOWEST_SEAT, LONGEST = 0.15, 0.25  #: looked at: a seat lower by [m], an outboard longer by [share of the oar]
LOOKS = 301  #: sizes of each cure that are looked at


def lock_height_findings(rig: Rig, *, wave_clearance: Number, blade_width: Number, may_feather: bool) -> list[Finding]:
    """Where thighs and custom ask for higher locks than dip and custom allow, and what brings the two together.

    Parameters
    ----------
    rig : Rig
        The rig (scalars). [record]
    wave_clearance : float
        Lower edge of the blade above the water on the recovery. [m]
    blade_width : float
        Width of the blade. [m]
    may_feather : bool
        Whether the locks let the blade be feathered. [flag]

    Returns
    -------
    list of Finding
        A sentence with its quantities, or nothing. [records]

    Notes
    -----
    Source: plane geometry; each cure is the least of 301 sizes at which the lowest height is no higher than the
    highest.

    Examples
    --------
    >>> from oarkit.rig.station import rig_from_station
    >>> rig = rig_from_station(beam=0.95, lock_overhang=0.05, seat_above_water=0.15, lock_above_water=0.30, overlap=0.1,
    ...                        length=2.1, thigh_thickness=0.26)
    >>> [f.code for f in lock_height_findings(rig, wave_clearance=0.1, blade_width=0.13, may_feather=True)]
    ['no_lock_height']
    """
    if rig.thigh_clearance is None or rig.thigh_clearance_feathered is None:
        return []
    here = _range(rig, blade_width)
    low, high = float(here.lowest), float(here.highest)
    if low <= high + ROUNDING:
        return []
    cures, sizes = _cures(rig, wave_clearance, blade_width, may_feather=may_feather)
    how = (
        f"{' or '.join(cures)} would bring the two together" if cures else "no one change of seat, wave or oar mends it"
    )
    well = float(rig.thigh_clearance) >= 0 and float(rig.dip_in_drive) <= STEEP_DIP + ROUNDING_DIP
    level: Level = "note" if well else "caution"
    return [
        Finding(
            level=level,
            code="no_lock_height",
            text="No height of the locks suits this oar, seat and wave: thighs, with {tight} in hand, and custom want "
            f"at least {{low}} above the seat, dip and custom at most {{high}}; {how}.",
            quantities={name: Quantity(value=size, unit="m") for name, size in sizes.items()}
            | {name: Quantity(value=size, unit="m") for name, size in (("low", low), ("high", high), ("tight", TIGHT))},
            source="plane geometry; common practice",
        )
    ]


def _range(
    rig: Rig, blade_width: Number, *, clearance: Number | None = None, lower: Number = 0.0, longer: Number = 0.0
) -> LockRange:
    """How low and how high the locks may stand with another clearance, a lower seat or a longer outboard."""
    over_lock = np.asarray(rig.hand_height_in_recovery) - np.asarray(rig.lock_above_seat)
    blade_arm = np.asarray(rig.blade_arm) + longer
    clear = rig.thigh_clearance if clearance is None else clearance
    assert clear is not None
    return lock_range(
        lock_above_water=rig.lock_above_water,
        lock_above_seat=np.asarray(rig.lock_above_seat) + lower,
        thigh_clearance=clear + lower + over_lock * (np.divide(rig.blade_arm, blade_arm) - 1),
        blade_width=blade_width,
        hand_arm=rig.hand_arm,
        blade_arm=blade_arm,
    )


def _cures(rig: Rig, wave: Number, blade_width: Number, *, may_feather: bool) -> tuple[list[str], dict[str, float]]:
    """Changes that each close the gap by themselves, in words, with the size each needs."""
    lever = float(rig.hand_arm) / float(rig.blade_arm)
    down, on = np.linspace(0, LOWEST_SEAT, LOOKS), np.linspace(0, LONGEST * float(rig.length), LOOKS)
    waves = np.linspace(float(wave), 0, LOOKS)
    tried = [
        (
            "a wave of {wave}",
            "wave",
            waves,
            _range(rig, blade_width, clearance=float(rig.thigh_clearance or 0.0) + (float(wave) - waves) * lever),
        ),
        ("a seat {down} lower", "down", down, _range(rig, blade_width, lower=down)),
        ("an outboard {on} longer", "on", on, _range(rig, blade_width, longer=on)),
    ]
    told, sizes = [], {}
    if (
        may_feather
        and (flat := _range(rig, blade_width, clearance=rig.thigh_clearance_feathered)).lowest <= flat.highest
    ):
        told.append("a feathered blade")
    for said, name, values, heights in tried:
        closes = np.broadcast_to(heights.lowest <= heights.highest, values.shape)
        if closes.any():
            told.append(said)
            sizes[name] = float(values[np.argmax(closes)])
    return told, sizes
