"""What the stroke means for the rower: the arc, how the hands pass, what they strike on their way."""

from __future__ import annotations

import math
from typing import Literal

from oarkit.rig.height import HALF_FIST, lock_offset
from oarkit.rig.ranges import HAND_OVER_ELBOW
from oarkit.rig.station import Rig
from oarkit.rig.waves import TIGHT
from oarkit.rower.body import Size
from oarkit.rower.seated import Seated
from oarkit.stroke.arc import IDEAL_CATCH, stops_at
from oarkit.stroke.hands import FIST, blade_depth_difference, hiding_heel, meeting_angle
from oarkit.stroke.station import Stroke
from oarkit.working import Finding, Number, Quantity

SHORT_CATCH = math.radians(45)  #: below this the catch is spoken of, a choice of this project
SHORT_ARC = math.radians(48)  #: least effective sweep measured on fixed seats, Rankov (ed.) 2012, Table 9.1
NEAR_RAIL = 0.020  #: fist nearer than this to rail or bracket is called near, a choice of this project [m]
UNROWABLE = ("off_the_pins", "knees_in_the_way")  #: findings that, where they fail, leave nothing to row
_GEOMETRY, _PRACTICE = "plane geometry", "common practice"


def _m(value: Number) -> Quantity:
    return Quantity(value=float(value), unit="m")


def _rad(value: Number) -> Quantity:
    return Quantity(value=float(value), unit="rad")


def stroke_findings(
    stroke: Stroke,
    rig: Rig,
    seated: Seated,
    *,
    elbow: Size | None,
    hands_apart: Number,
    upper_hand: Literal["left", "right"],
    lock: Literal["feathering", "pinned"],
    catch_limit: Number | None = None,
) -> list[Finding]:
    """Findings on one stroke (scalars).

    Parameters
    ----------
    stroke : Stroke
        The stroke. [record]
    rig : Rig
        Its rig. [record]
    seated : Seated
        The rower on the seat. [record]
    elbow : Size or None
        Underside of the elbow above the seat. [m]
    hands_apart : float
        One hand above the other, where they pass so. [m]
    upper_hand : {"left", "right"}
        The rower's hand that is over. [text]
    lock : {"feathering", "pinned"}
        Whether the blade can be feathered. [text]
    catch_limit : float, optional
        Greatest sweep angle that lock, tholes or rower allow, where it was told. [rad]

    Returns
    -------
    list of Finding
        Sentences with their quantities. [records]

    Notes
    -----
    Source: plane geometry; common practice for the limits.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> codes = [f.code for f in design(example_project("quillet").inputs).findings]
    >>> "hands_pass" in codes
    True
    """
    return [
        *_arc(stroke, rig, seated, catch_limit),
        *_hands(stroke, rig, float(hands_apart), upper_hand),
        *_legs(stroke, rig, seated, lock),
        *_sides(stroke),
        *_height(rig, elbow, _over_legs(stroke, rig)),
    ]


def _arc(stroke: Stroke, rig: Rig, seated: Seated, catch_limit: Number | None) -> list[Finding]:
    catch, swept = float(stroke.catch_angle), float(stroke.arc)
    level = float(rig.hand_arm) * math.cos(float(rig.dip_in_drive))
    shown = {
        "catch": _rad(catch), "finish": _rad(stroke.finish_angle), "arc": _rad(swept),
        "travel": _m(stroke.hand_travel), "ideal": _rad(IDEAL_CATCH), "short": _rad(SHORT_ARC),
    }  # fmt: skip
    if catch < 0 or float(stroke.finish_angle) > 0:
        return [_off_the_pins(stroke, level)]
    if swept < SHORT_ARC:
        more = level * (math.sin(catch + SHORT_ARC - swept) - math.sin(catch))
        stopped = catch_limit is not None and catch >= float(catch_limit) - 1e-6
        text = (
            "The oar sweeps only {arc}, from {catch} to {finish}; effective strokes on fixed seats swept {short} and "
            "more. "
            + (
                "It is the limit of the catch that stops it."
                if stopped
                else "The hands would have to reach {more} further at the catch."
            )
        )
        return [_said("caution", "short_arc", text, {**shown, "more": _m(more)}, "Rankov (ed.) 2012, Table 9.1")]
    if seated.reach_catch is None:
        return []
    reach, wanted = float(seated.reach_catch), min(IDEAL_CATCH, float(stops_at(catch_limit)))
    if catch < min(SHORT_CATCH, wanted) - 1e-6:
        text = (
            "The reach is short: the oar stops at {catch} at the catch, though it may go to {wanted}. A seat {nearer} "
            "nearer to the pins would bring it there, and a rower who swings further from the hips part of the way."
        )
        shown |= {"wanted": _rad(wanted), "nearer": _m(level * (math.sin(wanted) - math.sin(catch)))}
        return [_said("caution", "short_catch", text, shown, _PRACTICE)]
    if reach <= level * math.sin(stops_at(catch_limit)) + 1e-6:
        return []
    beyond = reach >= level
    full = "further than the oar's own circle goes" if beyond else "to {full}"
    shown["full"] = _rad(math.asin(min(reach / level, 1.0)))
    if catch_limit is not None:
        text = (
            "The oar stops at {catch} at the catch, where lock or tholes hold it, though this body could reach "
            f"{full}: sit up sooner."
        )
        return [_said("note", "far_catch", text, shown, _PRACTICE)]
    text = (
        f"This body could reach {full} at the catch; the stroke is counted from {{catch}}, for past it most of the "
        "pull goes across the boat: sit up sooner. A seat {back} further from the pins would make {ideal} of the full "
        "reach."
    )
    shown["back"] = _m(reach - level * math.sin(IDEAL_CATCH))
    return [_said("note", "far_catch", text, shown, _PRACTICE)]


def _off_the_pins(stroke: Stroke, level: float) -> Finding:
    """A stroke that lies wholly on one side of square."""
    catch, finish = float(stroke.catch_angle), float(stroke.finish_angle)
    forward = catch < 0
    short = -level * math.sin(catch) if forward else level * math.sin(finish)
    text = (
        "Even at the catch the hands stay {short} forward of the pins, so the blade never gets ahead of square to "
        "the keel: bring the seat nearer to the pins, by that and more."
        if forward
        else "Even at the finish the hands stay {short} aft of the pins, so the blade never comes past square to "
        "the keel: set the seat further from the pins, by that and more."
    )
    return _said("fails" if forward else "caution", "off_the_pins", text, {"short": _m(short)}, _GEOMETRY)


def _hands(stroke: Stroke, rig: Rig, apart: float, upper_hand: str) -> list[Finding]:
    abreast = stroke.abreast
    if float(abreast.least) >= FIST:
        return []
    arms = {"blade_arm": float(rig.blade_arm), "hand_arm": float(rig.hand_arm)}
    meet = float(meeting_angle(span=rig.span, hand_arm=rig.hand_arm, dip=rig.dip_in_recovery))
    level = float(rig.hand_arm) * math.cos(float(rig.dip_in_recovery))
    touch = math.acos(min((float(rig.span) - FIST) / (2 * level), 1.0))
    inner = math.acos(min((float(rig.span) + FIST) / (2 * level), 1.0))
    lead, rest = float(abreast.needed_lead), float(stroke.one_above.needed_lead)
    band = (
        "from {touch} to {inner} before the oars are square to the keel and as far after it"
        if inner > 0
        else "from {touch} before the oars are square to the keel to {touch} after it"
    )
    where = (
        "their centres pass one another {meet} either side of that"
        if meet > 0
        else "their centres come within {least} of one another"
    )
    needs = float(abreast.needed_apart)
    enough = (
        "which keeps the fists clear"
        if float(stroke.one_above.least) >= FIST - 1e-6
        else "which leaves the fists to brush unless one is also {ahead_rest} ahead (a lead of {rest})"
    )
    text = (
        f"Abreast, the fists ({{fist}} across) touch {band}; {where}. Three ways past: (1) one above the other, clear "
        "at {needs} of height (for good, one lock {offset} over the other); (2) one ahead, clear with one oar {lead} "
        f"before the other, {{ahead}} of hand; (3) some of both: here the {upper_hand} hand goes {{apart}} over, "
        f"{enough}. With level locks {{apart}} of height lets one blade run {{deeper}} deeper, or heels the boat "
        "{heel}."
    )
    quantities = {
        "fist": _m(FIST), "touch": _rad(touch), "inner": _rad(inner), "meet": _rad(meet), "least": _m(abreast.least),
        "needs": _m(needs), "offset": _m(lock_offset(hands_apart=needs, **arms)),
        "lead": _rad(lead), "ahead": _m(level * math.sin(lead)),
        "apart": _m(apart), "rest": _rad(rest), "ahead_rest": _m(level * math.sin(rest)),
        "deeper": _m(blade_depth_difference(apart=apart, **arms)),
        "heel": _rad(hiding_heel(apart=apart, span=rig.span, **arms)),
    }  # fmt: skip
    return [_said("note", "hands_pass", text, quantities, _GEOMETRY)]


def _legs(stroke: Stroke, rig: Rig, seated: Seated, lock: str) -> list[Finding]:
    found = []
    legs = seated.legs
    if legs is not None and float(legs.knee_top) > float(rig.hand_height_in_drive) - HALF_FIST:
        text = (
            "Nobody can row sitting so: the knees stand {knee} above the seat, the hands go through them at "
            "{hand} even in "
            "the drive. Set the foot brace further off, raise the seat over the heels, or raise the locks."
        )
        shown = {"knee": _m(legs.knee_top), "hand": _m(rig.hand_height_in_drive)}
        found.append(_said("fails", "knees_in_the_way", text, shown, _GEOMETRY))
    if stroke.legs is None or legs is None or found:
        return found
    clear = float(stroke.legs.clearance)
    thigh = float("inf") if rig.thigh_clearance is None else float(rig.thigh_clearance)
    if clear >= TIGHT - 1e-3 or clear >= thigh:
        return found
    lift = (TIGHT - clear) / (1 + float(rig.hand_arm) / float(rig.blade_arm))
    flat = float(stroke.legs_feathered.clearance) if stroke.legs_feathered is not None else clear
    strikes = "strike the knees or shins by {clear}" if clear < 0 else "clear the knees by only {clear}"
    turned = ("feathered they clear them by {flat}" if flat >= 0 else "even feathered they strike them by {flat}") + (
        "" if lock == "feathering" else ", but these locks do not feather"
    )
    text = (
        f"On the recovery, blade square, the hands {strikes}, worst at {{at}} from square to the keel; {turned}. "
        "The knees stand {knee} above the seat. Locks raised by {lift} would leave {tight}; so would straighter "
        "legs, with the brace further off."
    )
    shown = {
        "clear": _m(abs(clear)), "at": _rad(stroke.legs.at), "flat": _m(abs(flat)), "knee": _m(legs.knee_top),
        "lift": _m(lift), "tight": _m(TIGHT),
    }  # fmt: skip
    return [*found, _said("fails" if clear < 0 else "caution", "knees", text, shown, _GEOMETRY)]


def _sides(stroke: Stroke) -> list[Finding]:
    if stroke.sides is None or float(stroke.sides.clearance) >= NEAR_RAIL:
        return []
    clear = float(stroke.sides.clearance)
    strikes = "strike rail, coaming or bracket by {clear}" if clear < 0 else "pass rail or bracket by only {clear}"
    text = (
        f"The knuckles {strikes}, at {{at}} from square to the keel. Raise the locks, or keep the stroke well "
        "short of there."
    )
    shown = {"clear": _m(abs(clear)), "at": _rad(stroke.sides.at)}
    return [_said("fails" if clear < 0 else "caution", "rail", text, shown, _GEOMETRY)]


def _over_legs(stroke: Stroke, rig: Rig) -> float:
    """Least clear height over thighs and knees on the recovery, blade square; infinite where neither is known."""
    known = [rig.thigh_clearance, None if stroke.legs is None else stroke.legs.clearance]
    return min((float(clear) for clear in known if clear is not None), default=math.inf)


def _height(rig: Rig, elbow: Size | None, over_legs: float) -> list[Finding]:
    if elbow is None:
        return []
    hand, (low, high) = float(rig.hand_height_in_drive), (float(elbow.value) + over for over in HAND_OVER_ELBOW)
    band = float(elbow.spread)
    if low - band <= hand <= high + band:
        return []
    limit = low if hand < low else high
    move = abs(hand - limit) / (1 + float(rig.hand_arm) / float(rig.blade_arm))
    side, way = ("below", "higher") if hand < low else ("above", "lower")
    left = over_legs - abs(hand - limit)  # the hand falls by as much on the recovery
    cost = "" if hand < low or left >= 0 else ", but then they would strike thighs or knees by {strikes}"
    text = (
        f"In the drive the hands go {{hand}} above the seat, {side} the {{low}} to {{high}} that is easy for this body "
        f"({{over_low}} to {{over_high}} over the elbow). Locks {{move}} {way} would bring them there{cost}."
    )
    shown = {"hand": _m(hand), "low": _m(low), "high": _m(high), "move": _m(move)}
    shown["strikes"] = _m(abs(left)) if math.isfinite(left) else _m(0.0)
    shown |= {"over_low": _m(HAND_OVER_ELBOW[0]), "over_high": _m(HAND_OVER_ELBOW[1])}
    return [_said("note", "hand_height", text, shown, _PRACTICE)]


def _said(
    level: Literal["note", "caution", "fails"], code: str, text: str, quantities: dict[str, Quantity], source: str
) -> Finding:
    used = {name: quantity for name, quantity in quantities.items() if f"{{{name}}}" in text}
    return Finding(level=level, code=code, text=text, quantities=used, source=source)
