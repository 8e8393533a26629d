"""What a rig's numbers mean for the rower, and what would mend them, from the rig's own sensitivities."""

from __future__ import annotations

import math
from typing import Literal

from oarkit.rig.height import BLADE_COVER
from oarkit.rig.lock_height import lock_height_findings
from oarkit.rig.station import Rig
from oarkit.rig.waves import ROUNDING_DIP, STEEP_DIP, TIGHT
from oarkit.working import Finding, Level, Number, Quantity

ROUNDING = 0.001  #: advice is followed to the nearest sixteenth of an inch or millimetre [m]
MOST_LONGER = 0.25  #: share of an oar's length beyond which a longer one is no remedy, a choice of this project [1]
FAR_TOO_STEEP = math.radians(40)  #: an oar far too short for its locks, a choice of this project [rad]
SPAN_RANGE = (1.016, 1.3208)  #: 40 to 52 in, comfortable for one person on a fixed seat, common practice
RATIO_RANGE = (2.3, 2.8)  #: heavy and windy to light and easily driven, common practice
LOCK_OVER_SEAT = (
    0.127,
    0.2032,
    0.3048,
)  #: 5 in thighs scraped below, 8 in odd above, 12 in weak above, common practice
OVERLAP_RANGE = (0.050, 0.180)  #: usual overlap where handles cross, common practice
TOUCHING = 0.002  #: handles nearer to one another than this just touch, a choice of this project [m]
GAP_RANGE = (0.025, 0.075)  #: usual gap where they do not, common practice
_PRACTICE = "common practice"
_GEOMETRY = "plane geometry"


def _m(value: Number) -> Quantity:
    return Quantity(value=float(value), unit="m")


def rig_findings(
    rig: Rig,
    *,
    wave_clearance: Number,
    blade_width: Number,
    lock: Literal["feathering", "pinned"],
    upper_hand: Literal["left", "right"],
    hands_apart: Number,
    longest_stowed: Number | None = None,
) -> list[Finding]:
    """Findings on one rig (scalars), most pressing first within each topic.

    Parameters
    ----------
    rig : Rig
        The rig. [record]
    wave_clearance : float
        Lower edge of the blade above the water on the recovery. [m]
    blade_width : float
        Width of the blade. [m]
    lock : {"feathering", "pinned"}
        Whether the blade can be feathered. [text]
    upper_hand : {"left", "right"}
        The rower's hand that is over where handles cross. [text]
    hands_apart : float
        Vertical distance of crossed hands. [m]
    longest_stowed : float, optional
        Longest oar that can be stowed. [m]

    Returns
    -------
    list of Finding
        Sentences with their quantities. [records]

    Notes
    -----
    Source: common practice for the limits, plane geometry for what would help.

    Examples
    --------
    >>> from oarkit.rig.station import rig_from_station
    >>> rig = rig_from_station(beam=0.90, lock_overhang=0.10, seat_above_water=0.18, lock_above_water=0.30,
    ...                        overlap=0.10, leverage_ratio=2.5, thigh_thickness=0.16)
    >>> [f.code for f in rig_findings(rig, wave_clearance=0.1, blade_width=0.13, lock="pinned",
    ...                               upper_hand="left", hands_apart=0.06)]
    ['thigh', 'lock_over_seat', 'no_lock_height', 'hands_cross']
    """
    return [
        *_thighs(rig, wave_clearance, blade_width, lock),
        *_dip(rig, blade_width),
        *_seat(rig, thighs_told=rig.thigh_clearance is not None and float(rig.thigh_clearance) < TIGHT - ROUNDING),
        *lock_height_findings(
            rig, wave_clearance=wave_clearance, blade_width=blade_width, may_feather=lock == "feathering"
        ),
        *_handles(rig, upper_hand, hands_apart),
        *_length(rig, longest_stowed),
    ]


def _thighs(rig: Rig, wave: Number, blade_width: Number, lock: str) -> list[Finding]:
    clearance = rig.thigh_clearance
    if clearance is None or float(clearance) >= TIGHT - ROUNDING:
        return []
    lift = (TIGHT - float(clearance)) / (1 + float(rig.hand_arm) / float(rig.blade_arm))
    gain = float(rig.thigh_clearance_feathered or 0.0) - float(clearance)
    strikes = float(clearance) < 0
    said = "strike the thighs by {short}" if strikes else "clear the thighs by only {short}"
    feather = (
        "; feathering the blade gives {gain} more"
        if lock == "feathering"
        else "; a feathering lock in place of the pinned one would give {gain} more"
    )
    reach = (
        "with the blade square the hands touch before its edge is clear of the water at all"
        if float(rig.largest_wave_square or 0.0) < 0
        else "with the blade square the thighs let you carry it {most} high at most"
    )
    return [
        Finding(
            level="fails" if strikes else "caution",
            code="thigh",
            text=f"On the recovery, blade square {{wave}} above the water, the hands {said} (tight is under "
            f"{{tight}}). Locks raised by {{lift}} would leave {{tight}}, and slope the oar {{dip}} in the drive"
            f"{feather}; {reach}.",
            quantities={
                "short": _m(abs(float(clearance))),
                "wave": _m(wave),
                "tight": _m(TIGHT),
                "lift": _m(lift),
                "dip": Quantity(value=_dip_with_locks_raised(rig, blade_width, lift), unit="rad"),
                "gain": _m(gain),
                "most": _m(rig.largest_wave_square or 0.0),
            },
            source=_GEOMETRY,
        )
    ]


def _dip(rig: Rig, blade_width: Number) -> list[Finding]:
    if float(rig.dip_in_drive) <= STEEP_DIP + ROUNDING_DIP:
        return []
    cures, sizes = _dip_cures(rig, blade_width)
    return [
        Finding(
            level="fails" if float(rig.dip_in_drive) > FAR_TOO_STEEP else "caution",
            code="dip",
            text=f"The oar slopes {{dip}} in the drive; above {{steep}} the blade lifts water. {cures} would bring it "
            "to {steep}.",
            quantities={
                "dip": Quantity(value=rig.dip_in_drive, unit="rad"),
                "steep": Quantity(value=STEEP_DIP, unit="rad"),
                **sizes,
            },
            source=_PRACTICE,
        )
    ]


def _dip_cures(rig: Rig, blade_width: Number) -> tuple[str, dict[str, Quantity]]:
    """A longer outboard, lower locks, and what either costs over the thighs."""
    hand_arm, blade_arm = float(rig.hand_arm), float(rig.blade_arm)
    depth = float(rig.lock_above_water) + float(blade_width) / 2 + BLADE_COVER
    longer, lower = depth / math.sin(STEEP_DIP) - blade_arm, depth - blade_arm * math.sin(STEEP_DIP)
    over_lock = float(rig.hand_height_in_recovery) - float(rig.lock_above_seat)
    told, sizes = [], {}
    for said, name, size, rise in (
        ("an outboard {longer} longer", "longer", longer, over_lock * (blade_arm / (blade_arm + longer) - 1)),
        ("locks {lower} lower", "lower", lower, -lower * (1 + hand_arm / blade_arm)),
    ):
        if name == "longer" and longer > MOST_LONGER * float(rig.length):
            continue
        sizes[name] = _m(size)
        if rig.thigh_clearance is None:
            told.append(said)
            continue
        left = float(rig.thigh_clearance) + rise
        does = f"leave {{{name}_leaves}} over the thighs" if left >= 0 else f"strike the thighs by {{{name}_leaves}}"
        told.append(f"{said} (which would {does})")
        sizes[f"{name}_leaves"] = _m(abs(left))
    cures = ", or ".join(told)
    return cures[:1].upper() + cures[1:], sizes


def _dip_with_locks_raised(rig: Rig, blade_width: Number, lift: float) -> float:
    sine = (float(rig.lock_above_water) + lift + float(blade_width) / 2 + BLADE_COVER) / float(rig.blade_arm)
    return math.asin(min(sine, 1.0))


def _seat(rig: Rig, *, thighs_told: bool) -> list[Finding]:
    """Height of the locks against custom; by how much is left out where the thighs ask for another height."""
    least, odd, weak = LOCK_OVER_SEAT
    height = float(rig.lock_above_seat)
    if least <= height <= odd:
        return []
    level: Level
    if height < least:
        level, text, limit = (
            "caution",
            "the thighs are scraped below {limit}"
            + ("" if thighs_told else "; lower the seat or raise the locks by {change}"),
            least,
        )
    elif height > weak:
        level, text, limit = (
            "caution",
            "above {limit} strength is lost; raise the seat or lower the locks by {change}",
            weak,
        )
    else:
        level, text, limit = "note", "above {limit} it feels high to many rowers, the price of clearance in waves", odd
    return [
        Finding(
            level=level,
            code="lock_over_seat",
            text=f"The locks stand {{height}} above the seat: {text}.",
            quantities={"height": _m(height), "limit": _m(limit)}
            | ({} if height < least and thighs_told else {"change": _m(abs(height - limit))}),
            source=_PRACTICE,
        )
    ]


def _handles(rig: Rig, upper_hand: str, hands_apart: Number) -> list[Finding]:
    overlap, in_drive = float(rig.overlap), float(rig.overlap_in_drive)
    found = []
    if overlap > 0 and rig.lock_offset is not None:
        oar = "starboard" if upper_hand == "left" else "port"
        drive = "they still overlap by {drive}" if in_drive > 0 else "nothing is left of it: a gap of {drive} opens"
        found.append(
            Finding(
                level="note",
                code="hands_cross",
                text=f"The handles cross by {{overlap}} with level oars; dipped in the drive {drive}. Level locks "
                "with one hand kept ahead suit a boat that changes rowers. For one hand always over, the "
                f"{upper_hand} by {{apart}}, raise the {oar} lock by {{offset}} so that both blades run at one depth; "
                "that hand then goes {raised} above the seat in the drive. Rings off: fingers get pinched.",
                quantities={
                    "overlap": _m(overlap),
                    "drive": _m(abs(in_drive)),
                    "apart": _m(hands_apart),
                    "offset": _m(rig.lock_offset),
                    "raised": _m(rig.hand_height_in_drive + hands_apart),
                },
                source=_GEOMETRY,
            )
        )
    if abs(overlap) < TOUCHING:
        text = (
            "The handles just touch end to end; the knuckles meet unless the hands keep off the very ends. The "
            "usual gap is {low} to {high}."
        )
        usual_gap = {"low": _m(GAP_RANGE[0]), "high": _m(GAP_RANGE[1])}
        return [*found, Finding(level="note", code="handles", text=text, quantities=usual_gap, source=_PRACTICE)]
    usual = OVERLAP_RANGE if overlap > 0 else GAP_RANGE
    if not usual[0] - 1e-9 <= abs(overlap) <= usual[1] + 1e-9:
        what = "An overlap" if overlap > 0 else "A gap"
        small = abs(overlap) < usual[0]
        found.append(
            Finding(
                level="caution" if small or overlap > 0 else "note",
                code="handles",
                text=f"{what} of {{handles}} is {'less' if small else 'more'} than the usual {{low}} to {{high}}"
                + ("; the knuckles will meet. " if small else ". ")
                + "Moving the inboard of each oar by {move} brings it there.",
                quantities={
                    "handles": _m(abs(overlap)),
                    "low": _m(usual[0]),
                    "high": _m(usual[1]),
                    "move": _m(abs((usual[0] if small else usual[1]) - abs(overlap)) / 2),
                },
                source=_PRACTICE,
            )
        )
    return found


def _length(rig: Rig, longest_stowed: Number | None) -> list[Finding]:
    found = []
    span, ratio = float(rig.span), float(rig.leverage_ratio)
    if not SPAN_RANGE[0] <= span <= SPAN_RANGE[1]:
        found.append(
            Finding(
                level="note",
                code="span",
                text="The span of {span} lies outside the {low} to {high} that suits most people on a fixed seat.",
                quantities={"span": _m(span), "low": _m(SPAN_RANGE[0]), "high": _m(SPAN_RANGE[1])},
                source=_PRACTICE,
            )
        )
    if not RATIO_RANGE[0] <= ratio <= RATIO_RANGE[1]:
        nearest = RATIO_RANGE[0] if ratio < RATIO_RANGE[0] else RATIO_RANGE[1]
        light, heavy = "light to pull, but the hands must hurry", "heavy to pull, and the oar is hard to balance"
        felt = light if ratio < nearest else heavy
        found.append(
            Finding(
                level="note",
                code="leverage",
                text=f"The leverage ratio of {{ratio}} is {'below' if ratio < nearest else 'above'} the usual "
                f"{{low}} to {{high}}: "
                f"{felt}. "
                "A length of {length} would make it {nearest}.",
                quantities={
                    "ratio": Quantity(value=ratio, unit="1"),
                    "low": Quantity(value=RATIO_RANGE[0], unit="1"),
                    "high": Quantity(value=RATIO_RANGE[1], unit="1"),
                    "nearest": Quantity(value=nearest, unit="1"),
                    "length": _m(float(rig.inboard) * (1 + nearest)),
                },
                source=_PRACTICE,
            )
        )
    if longest_stowed is not None and float(rig.length) > float(longest_stowed):
        found.append(
            Finding(
                level="fails",
                code="stowage",
                text="The oar is {over} longer than the {longest} that can be stowed; at that length the leverage "
                "ratio would be {ratio}.",
                quantities={
                    "over": _m(float(rig.length) - float(longest_stowed)),
                    "longest": _m(longest_stowed),
                    "ratio": Quantity(value=float(longest_stowed) / float(rig.inboard) - 1, unit="1"),
                },
                source=_GEOMETRY,
            )
        )
    return found
