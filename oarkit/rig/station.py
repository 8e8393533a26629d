"""One call from a rowing station to its rig: span, length, split, heights and clearances."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from oarkit.rig import arms, height, split
from oarkit.working import BadDesign, Line, Number, Quantity, Working

CUSTOMARY_RATIO = 18 / 7  #: outboard over inboard of the old rule "inboard x 25/7", common practice
INCH = 0.0254  #: default rounding step of a derived length [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rig:
    """Where the pins stand, how long the oars are, and what the heights leave room for. SI throughout.

    Clearances over the thigh are None where no thigh thickness was given, the lock offset where the handles
    do not cross. ``working`` says how each number was got.
    """

    span: Number
    inboard: Number
    outboard: Number
    length: Number
    overlap: Number
    overlap_in_drive: Number
    leverage_ratio: Number
    working_ratio: Number
    hand_arm: Number
    blade_arm: Number
    lock_above_water: Number
    lock_above_seat: Number
    dip_in_drive: Number
    dip_in_recovery: Number
    dip_in_recovery_feathered: Number
    hand_height_in_drive: Number
    hand_height_in_recovery: Number
    hand_height_in_recovery_feathered: Number
    tip_drop_in_drive: Number
    tip_drop_in_recovery: Number
    thigh_clearance: Number | None
    thigh_clearance_feathered: Number | None
    largest_wave_square: Number | None
    largest_wave_feathered: Number | None
    lock_offset: Number | None
    working: tuple[Line, ...]


def rig_from_station(
    *,
    beam: Number,
    seat_above_water: Number,
    lock_above_water: Number,
    lock_overhang: Number = 0.0,
    overlap: Number | None = None,
    gap: Number | None = None,
    length: Number | None = None,
    leverage_ratio: Number | None = None,
    round_length: Number | None = INCH,
    thigh_thickness: Number | None = None,
    wave_clearance: Number = 0.10,
    blade_length: Number = 0.56,
    blade_width: Number = 0.13,
    grip_centre: Number = 0.06,
    hands_apart: Number = 0.06,
) -> Rig:
    """Rig of a rowing station: span, oar length, split, overlap, hand heights and clearances.

    Parameters
    ----------
    beam : float or array
        Over the rails, abreast of the pins. [m]
    seat_above_water : float or array
        Top of the seat above the water, boat loaded. [m]
    lock_above_water : float or array
        Loom axis at the lock above the water, boat loaded. [m]
    lock_overhang : float or array, optional
        Pin outside (+) or inside (-) the rail's outer face. [m]
    overlap : float or array, optional
        Overlap of the handles; give this or ``gap``. [m]
    gap : float or array, optional
        Gap between the handle ends. [m]
    length : float or array, optional
        Oar length; where neither this nor the ratio is given, inboard x 25/7 is taken. [m]
    leverage_ratio : float or array, optional
        Outboard over inboard, from which the length is derived and rounded. [1]
    round_length : float, array or None, optional
        Step to which a derived length is rounded; None for no rounding. [m]
    thigh_thickness : float or array, optional
        Seat to the top of the thigh; without it there are no clearances over the thigh. [m]
    wave_clearance : float or array, optional
        Lower edge of the blade above the water on the recovery. [m]
    blade_length : float or array, optional
        Blade root to tip. [m]
    blade_width : float or array, optional
        Width of the blade. [m]
    grip_centre : float or array, optional
        Handle end to the middle of the hand. [m]
    hands_apart : float or array, optional
        Vertical distance of the grip centres where the handles cross. [m]

    Returns
    -------
    Rig
        All lengths and heights in SI. [m]

    Raises
    ------
    BadDesign
        A set of numbers that cannot be built or rowed, with the reason.

    Notes
    -----
    Source: plane geometry and common practice; each line of ``Rig.working`` names its own.

    Examples
    --------
    >>> rig = rig_from_station(beam=0.90, lock_overhang=0.10, seat_above_water=0.08, lock_above_water=0.30,
    ...                        overlap=0.10, leverage_ratio=2.5, thigh_thickness=0.16)
    >>> round(rig.span, 3), round(rig.inboard, 3), round(float(rig.length), 4)
    (1.1, 0.6, 2.1082)
    """
    if length is not None and leverage_ratio is not None:
        raise BadDesign("give either the length of the oar or its leverage ratio, or neither, but not both")
    if (overlap is None) == (gap is None):
        raise BadDesign("give either the overlap of the handles or the gap between them, and not both")
    wanted = -gap if overlap is None and gap is not None else overlap
    work = Working()
    span = work("rig.span", split.span_from_beam, beam=beam, overhang=lock_overhang)
    inboard = work("rig.inboard", split.inboard_from_overlap, span=span, overlap=wanted)
    _positive(inboard, "the gap is wider than the span, so nothing is left of the oar's inboard ({value})")
    if length is None:
        ratio = CUSTOMARY_RATIO if leverage_ratio is None else leverage_ratio
        exact = work("rig.length_exact", split.length_from_ratio, inboard=inboard, ratio=ratio)
        length = work("rig.length", split.rounded_length, length=exact, step=round_length)
    assert length is not None
    outboard = work("rig.outboard", split.outboard_from_length, length=length, inboard=inboard)
    overlap_ = work("rig.overlap", split.handle_overlap, span=span, inboard=inboard)
    ratio_ = work("rig.leverage_ratio", split.leverage_ratio, outboard=outboard, inboard=inboard)
    hand = work("rig.hand_arm", arms.hand_arm, inboard=inboard, grip_centre=grip_centre)
    _positive(hand, "the inboard is shorter than the distance from handle end to grip centre, by {value}")
    blade = work("rig.blade_arm", arms.blade_arm, outboard=outboard, blade_length=blade_length)
    _positive(outboard - blade_length, "the blade is longer than the whole outboard, by {value}; the oar is too short")
    working_ratio = work("rig.working_ratio", arms.working_ratio, blade_arm=blade, hand_arm=hand)

    seat = lock_above_water - seat_above_water
    dip = work(
        "rig.dip_in_drive", height.dip_in_drive,
        lock_above_water=lock_above_water, blade_width=blade_width, cover=height.BLADE_COVER, blade_arm=blade,
    )  # fmt: skip
    in_drive = work("rig.hand_height_in_drive", height.hand_height, lock_above_seat=seat, hand_arm=hand, dip=dip)
    dips: list[Number] = []
    hands: list[Number] = []
    clearances: list[Number | None] = []
    waves: list[Number | None] = []
    for suffix, wave, half_height in (
        ("", "square", blade_width / 2),
        ("_feathered", "feathered", height.FEATHERED_HALF_WIDTH),
    ):
        dips.append(
            work(
                f"rig.dip_in_recovery{suffix}", height.dip_in_recovery, lock_above_water=lock_above_water,
                wave_clearance=wave_clearance, half_height=half_height, blade_arm=blade,
            )
        )  # fmt: skip
        hands.append(
            work(
                f"rig.hand_height_in_recovery{suffix}", height.hand_height,
                lock_above_seat=seat, hand_arm=hand, dip=dips[-1],
            )
        )  # fmt: skip
        if thigh_thickness is None:
            clearances.append(None)
            waves.append(None)
            continue
        clearances.append(
            work(
                f"rig.thigh_clearance{suffix}", height.thigh_clearance,
                hand_height=hands[-1], thigh_thickness=thigh_thickness,
            )
        )  # fmt: skip
        waves.append(
            work(
                f"rig.largest_wave_{wave}", height.largest_wave, lock_above_water=lock_above_water,
                half_height=half_height, blade_arm=blade, hand_arm=hand, lock_above_seat=seat,
                thigh_thickness=thigh_thickness,
            )
        )  # fmt: skip
    return Rig(
        span=span,
        inboard=inboard,
        outboard=outboard,
        length=length,
        overlap=overlap_,
        overlap_in_drive=work("rig.overlap_in_drive", height.overlap_in_drive, inboard=inboard, dip=dip, span=span),
        leverage_ratio=ratio_,
        working_ratio=working_ratio,
        hand_arm=hand,
        blade_arm=blade,
        lock_above_water=lock_above_water,
        lock_above_seat=seat,
        dip_in_drive=dip,
        dip_in_recovery=dips[0],
        dip_in_recovery_feathered=dips[1],
        hand_height_in_drive=in_drive,
        hand_height_in_recovery=hands[0],
        hand_height_in_recovery_feathered=hands[1],
        tip_drop_in_drive=work("rig.tip_drop_in_drive", height.tip_below_mid_blade, blade_length=blade_length, dip=dip),
        tip_drop_in_recovery=work(
            "rig.tip_drop_in_recovery", height.tip_below_mid_blade, blade_length=blade_length, dip=dips[0]
        ),
        thigh_clearance=clearances[0],
        thigh_clearance_feathered=clearances[1],
        largest_wave_square=waves[0],
        largest_wave_feathered=waves[1],
        lock_offset=_offset(work, overlap_, hands_apart, blade, hand),
        working=tuple(work.lines),
    )


def _offset(work: Working, overlap: Number, hands_apart: Number, blade_arm: Number, hand_arm: Number) -> Number | None:
    """Lock offset where the handles cross; nil for designs of an array that leave a gap, None where none cross."""
    crossed = np.asarray(overlap) > 0
    if not crossed.any():
        return None
    apart = hands_apart if crossed.all() else np.where(crossed, hands_apart, 0.0)
    offset: Number = work(
        "rig.lock_offset", height.lock_offset, hands_apart=apart, blade_arm=blade_arm, hand_arm=hand_arm
    )
    return offset


def _positive(value: Number, sentence: str) -> None:
    least = float(np.min(value))
    if not least > 0:
        raise BadDesign(sentence, {"value": Quantity(value=abs(least), unit="m")})
