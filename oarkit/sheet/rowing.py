"""The part of the sheet that answers whether it will row: tables of words, once for HTML, PDF and the terminal."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from oarkit.design import Design
from oarkit.fit.limit_words import asks
from oarkit.fit.limits import HAND_AIM, UNITS, Candidate
from oarkit.project import Project
from oarkit.rig.height import FEATHERED_HALF_WIDTH
from oarkit.rig.waves import LOCK_BLOCK, TIGHT, heel_that_takes, lock_block, lock_range
from oarkit.sheet import content
from oarkit.stroke.hands import FIST, Passing
from oarkit.tables import words
from oarkit.units import both
from oarkit.working import Number, Quantity

SAME_HEIGHT = 5e-5  #: clearances that differ by less are printed alike [m]
MARK = "▸"  #: stands before the row of this design

SIZES = {
    "thigh_thickness": "thigh thickness, seat to top",
    "hand_length": "hand length",
    "shoulder_height": "shoulder above seat",
    "arm_length": "arm, shoulder to grip centre",
    "elbow_height": "elbow above seat",
    "thigh_length": "thigh, hip joint to knee joint",
    "shank_length": "shank, knee joint to sole",
    "foot_length": "foot length",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A table with its heading and a sentence under it; ``numbers`` are the columns set to the right."""

    title: str
    lead: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    numbers: tuple[int, ...]
    widths: tuple[float, ...]  #: shares of the page


def blocks(project: Project, made: Design) -> list[Block]:
    """Every table on rig, rower and stroke that the design has numbers for."""
    told = [
        _rules(project, made),
        _choice(project, made),
        _limits(project, made),
        _passing(project, made),
        _waves(project, made),
        _body(project, made),
        _custom(project, made),
    ]
    return [block for block in told if block is not None and block.rows]


def answer(project: Project, made: Design) -> list[tuple[str, list[content.Row]]]:
    """The first page's tables on rig and stroke; of the oar only its lengths."""
    lengths = ("rig.length", "rig.inboard", "rig.outboard", "rig.button_mark")
    oar, *others = content.answer(project, made)
    return [("The oar's lengths", [row for row in oar[1] if row.name in lengths]), *others]


def findings(project: Project, made: Design) -> list[content.Said]:
    """Findings on rig, rower, stroke and what the locks are fastened with; those of oar and wood are left out."""
    return content.said(project.display, made.on_rowing)


def say(value: Number | None, unit: str, project: Project) -> str:
    """A number in the reader's units, a dash where there is none."""
    return "–" if value is None else both(Quantity(value=value, unit=unit), project.display)[0]


def over_legs(made: Design, *, feathered: bool) -> float:
    """Least clear height over thighs and knees on the recovery."""
    rig, stroke = made.rig, made.stroke
    thigh = rig.thigh_clearance_feathered if feathered else rig.thigh_clearance
    legs = None if stroke is None else stroke.legs_feathered if feathered else stroke.legs
    known = [thigh, None if legs is None else legs.clearance]
    return min((float(clear) for clear in known if clear is not None), default=math.inf)


def largest_wave(made: Design, room: float) -> float:
    """The wave that takes a clear height: hand and blade go up and down by the lever."""
    return float(made.inputs.station.wave_clearance) + room * float(made.rig.blade_arm) / float(made.rig.hand_arm)


def wave_of(largest: Number | None, project: Project) -> str:
    """The largest wave; none where the hands touch before the blade is clear of the water."""
    return "none" if largest is not None and float(largest) < 0 else say(largest, "m", project)


def _handles(overlap: float, project: Project) -> str:
    return f"{'gap' if overlap < 0 else 'overlap'} {say(abs(overlap), 'm', project)}"


def _rules(project: Project, made: Design) -> Block:
    length = float(made.rig.length)
    rows = []
    for rule in made.rules:
        low, high = float(rule.low), float(rule.high)
        makes = (
            say(low, "m", project) if high - low < 1e-9 else f"{say(low, 'm', project)} to {say(high, 'm', project)}"
        )
        off = low - length if length < low else length - high if length > high else 0.0
        this = "within it" if off <= 1e-6 and high - low > 1e-9 else "the same" if off <= 1e-6 else (
            f"{say(off, 'm', project)} {'shorter' if length < low else 'longer'}"
        )  # fmt: skip
        remark = f"{rule.source}; {rule.remark}" if rule.remark else rule.source
        rows.append(((low, high), (rule.name, rule.form, makes, say(float(rule.stock), "m", project), this, remark)))
    own = (f"{MARK} this oar", "", say(length, "m", project), "", "", "")
    rows.append(((length, length), own))
    return Block(
        title="Rules of thumb for the length, shortest first",
        lead="Each rule takes an inboard and a ratio for granted; those with a range stand by its lower end. Stock: "
        "the customary size, 6 to 10 ft in steps of 6 in, next above for a boat of more than 10 ft, next below for a "
        "shorter one.",
        heads=("Rule", "Form", "Makes", "Stock", "This oar is", "Source, remark"),
        rows=tuple(row for _, row in sorted(rows, key=lambda pair: pair[0])),
        numbers=(3,),
        widths=(0.19, 0.15, 0.18, 0.11, 0.15, 0.22),
    )


def _rig_row(name: str, found: Candidate, project: Project, *, feathered: bool) -> tuple[str, ...]:
    return (
        name,
        say(found.lock_overhang, "m", project),
        _handles(found.overlap, project),
        say(found.length, "m", project),
        f"{found.leverage_ratio:.2f}",
        say(found.catch_angle, "rad", project),
        say(found.dip_in_drive, "rad", project),
        say(found.hand_height_in_drive, "m", project),
        say(found.thigh_clearance_feathered if feathered else found.thigh_clearance, "m", project),
    )


def _choice(project: Project, made: Design) -> Block:
    choice, opened = made.choice, made.inputs.left_open
    told = {f"{MARK} this rig": made.own}
    if not opened:
        told["would be chosen" if choice.fits else "falls short least"] = choice.chosen
    told |= {f"next, {number}": found for number, found in enumerate(choice.runners_up, 1)}
    rows = [_rig_row(name, found, project, feathered=choice.feathered) for name, found in told.items()]
    what = "overlap and length" if not opened else ", ".join(opened).replace("lock_overhang", "overhang")
    which = "those that keep every limit and lie" if choice.fits else "none keeps every limit; the one that comes"
    return Block(
        title="This rig beside others",
        lead=f"Of {choice.looked_at} rigs looked at, with {what} open, {which} nearest to what is customary (ratio "
        "18/7, handles crossed by 4 in or 50 mm apart, catch 60°, hand 100 mm over the elbow, dip 15°, 25 mm over the "
        "legs).",
        heads=(
            "Rig",
            "Overhang",
            "Handles",
            "Length",
            "Ratio",
            "Catch",
            "Dip",
            "Hand, drive",
            "Thigh clear, feathered" if choice.feathered else "Thigh clear, square",
        ),
        rows=tuple(rows),
        numbers=(1, 2, 3, 4, 5, 6, 7, 8),
        widths=(0.15, 0.12, 0.17, 0.12, 0.06, 0.07, 0.07, 0.12, 0.12),
    )


def _limits(project: Project, made: Design) -> Block:
    choice = made.choice
    changed = {relaxed.limit: relaxed for relaxed in choice.decides}
    rows = []
    for name, room in choice.chosen.slack.items():
        relaxed = changed.get(name)
        if relaxed is None:
            then = "nothing changes" if choice.fits else "–"
        else:
            new = relaxed.becomes
            then = f"{_handles(new.overlap, project)}, length {say(new.length, 'm', project)}"
        kept = say(room, UNITS[name], project) if room >= -1e-9 else _short(-room, UNITS[name], project)
        rows.append((asks(choice, name), kept, then))
    return Block(
        title="The limits on that choice, and one step more of each",
        lead="Room: how far the chosen rig lies inside the limit. The last column is what would be chosen if the "
        "limit gave "
        f"one step.{_bounds(project, made)}",
        heads=("Limit", "Room", "One step more"),
        rows=tuple(rows),
        numbers=(1,),
        widths=(0.42, 0.2, 0.38),
    )


def _short(by: float, unit: str, project: Project) -> str:
    """By how much a limit is not kept, rounded as the sentence on it is."""
    return f"short by {both(Quantity(value=by, unit=unit, up=True), project.display)[0]}"


def _bounds(project: Project, made: Design) -> str:
    """The two blade arms that the seat's height sets, with the hand arm of the chosen rig."""
    bounds, told = made.choice.bounds, []
    if bounds.longest is not None:
        longest = "no limit" if math.isinf(bounds.longest) else f"at most {say(bounds.longest, 'm', project)}"
        told.append(
            f"{longest} for hands clear of the thighs, blade square" if bounds.longest > 0 else "none clears the thighs"
        )
    if bounds.for_hand is not None and math.isfinite(bounds.for_hand):
        told.append(f"{say(bounds.for_hand, 'm', project)} for hands {say(HAND_AIM, 'm', project)} over the elbows")
    return f" What the height of the seat asks of the blade arm: {'; '.join(told)}." if told else ""


def _custom(project: Project, made: Design) -> Block:
    rows = []
    for one in made.placed:
        custom, unit = one.range, one.range.unit
        ends = [None if end is None else say(end, unit, project) for end in (custom.low, custom.high)]
        span = f"{ends[0]} to {ends[1]}" if all(ends) else f"at least {ends[0]}" if ends[0] else f"at most {ends[1]}"
        typical = f", {say(custom.typical, unit, project)} best" if custom.typical is not None else ""
        word = (
            words()[f"rig.{custom.quantity}"].word if f"rig.{custom.quantity}" in words() else _plain(custom.quantity)
        )
        rows.append((word, say(one.value, unit, project), span + typical, one.place, custom.rule, custom.source))
    return Block(
        title="What is customary, beside this station",
        lead="Ranges of builders, makers and coaches; a value outside is a reason to look again, not a fault.",
        heads=("Measure", "Here", "Custom", "", "For", "Source"),
        rows=tuple(rows),
        numbers=(1,),
        widths=(0.16, 0.12, 0.25, 0.08, 0.19, 0.20),
    )


def _plain(name: str) -> str:
    return name.replace("_", " ")


def _passing(project: Project, made: Design) -> Block | None:
    stroke = made.stroke
    if stroke is None:
        return None
    if float(stroke.abreast.least) >= FIST:
        rows = [_way("hands side by side", "nothing to do", stroke.abreast, project)]
    else:
        above, ahead, mixed = stroke.one_above, stroke.one_ahead, stroke.mixed
        rows = [
            _way("abreast, nothing done", "–", stroke.abreast, project),
            _way("one above the other", f"{say(above.apart, 'm', project)} of height", above, project),
            _way("one ahead of the other", f"one oar {say(ahead.lead, 'rad', project)} before", ahead, project),
            _way(
                "half of either",
                f"{say(mixed.apart, 'm', project)} and {say(mixed.lead, 'rad', project)}",
                mixed,
                project,
            ),
        ]
    return Block(
        title="How the hands pass, over the whole arc",
        lead=f"Distance of the two grip centres where it is least, drive and recovery; fists "
        f"{say(FIST, 'm', project)} across "
        "touch when nearer. The needs are what keeps them clear: height with no lead, or lead at that height.",
        heads=("Way", "As looked at", "Least", "At", "Fists", "Needs height", "or lead"),
        rows=tuple(rows),
        numbers=(2, 3, 5, 6),
        widths=(0.20, 0.22, 0.12, 0.10, 0.10, 0.14, 0.12),
    )


def _way(name: str, how: str, way: Passing, project: Project) -> tuple[str, ...]:
    return (
        name,
        how,
        say(way.least, "m", project),
        say(way.least_at, "rad", project),
        "clear" if float(way.least) >= FIST - 1e-6 else "touch",
        say(way.needed_apart, "m", project),
        say(way.needed_lead, "rad", project),
    )


def _waves(project: Project, made: Design) -> Block | None:
    rig, station = made.rig, made.inputs.station
    if rig.thigh_clearance is None or rig.thigh_clearance_feathered is None:
        return None
    arms = {"hand_arm": rig.hand_arm, "blade_arm": rig.blade_arm}
    width = made.inputs.sizes.blade_width
    gain = lock_block(block=LOCK_BLOCK, lock_above_water=rig.lock_above_water, blade_width=width, **arms)
    feather = "blade feathered" if station.lock == "feathering" else "feathered, were these locks not pinned"
    rows = []
    for name, hand, clear, feathered in (
        ("blade square", rig.hand_height_in_recovery, rig.thigh_clearance, False),
        (feather, rig.hand_height_in_recovery_feathered, rig.thigh_clearance_feathered, True),
    ):
        over, least = {name: float(clear)}, over_legs(made, feathered=feathered)
        if least < float(clear) - SAME_HEIGHT:
            over[f"{name}, over the knees"] = least
        for what, room in over.items():
            wave = largest_wave(made, room)
            rows.append(
                (
                    what,
                    say(hand, "m", project),
                    say(room, "m", project),
                    say(heel_that_takes(clearance=room, span=rig.span, **arms), "rad", project),
                    wave_of(wave, project),
                    say(room + float(gain.clearance), "m", project),
                    wave_of(wave + float(gain.largest_wave), project),
                )
            )
    reach = lock_range(
        lock_above_water=rig.lock_above_water,
        lock_above_seat=rig.lock_above_seat,
        thigh_clearance=over_legs(made, feathered=False),
        blade_width=width,
        **arms,
    )
    low, high = say(reach.lowest, "m", project), say(reach.highest, "m", project)
    locks = (
        f"The locks should stand at least {low} above the seat for legs and custom, at most {high} for dip and custom"
    )
    block = say(LOCK_BLOCK, "m", project)
    return Block(
        title=f"Heights and waves, blade carried {say(station.wave_clearance, 'm', project)} above the water",
        lead=f"{locks} (thighs and knees with {say(TIGHT, 'm', project)} in hand {say(reach.thighs, 'm', project)} or "
        f"more, a dip of 20° {say(reach.dip, 'm', project)} or less, custom {say(reach.custom_low, 'm', project)} to "
        f"{say(reach.custom_high, 'm', project)}; they stand at {say(rig.lock_above_seat, 'm', project)}). A block of "
        f"{block} slopes the oar {say(gain.dip_in_drive, 'rad', project)} in the drive. Feathering is worth "
        f"{say(float(width) / 2 - FEATHERED_HALF_WIDTH, 'm', project)} of wave, whatever the leverage.",
        heads=("Recovery", "Hand", "Clear", "Heel takes it", "Largest wave", f"+ {block}: clear", "and wave"),
        rows=tuple(rows),
        numbers=(1, 2, 3, 4, 5, 6),
        widths=(0.25, 0.12, 0.12, 0.13, 0.13, 0.14, 0.11),
    )


def _body(project: Project, made: Design) -> Block | None:
    rows = []
    for name, size in made.inputs.rower.body.known().items():
        first, second = both(Quantity(value=size.value, unit="m"), project.display)
        how = "measured" if size.measured else f"estimated ± {say(size.spread, 'm', project)}"
        rows.append((SIZES[name], first, second, how))
    extra: Sequence[tuple[str, str]] = (
        ("rower.knee_top", "knee above seat, legs as braced"),
        ("rower.brace_from_seat_edge", "heels aft of the seat's edge"),
        ("rower.grip_diameter", "grip that suits the hand"),
    )
    for name, word in extra:
        if name in made.values and made.values[name].value is not None:
            shown = both(Quantity(value=made.values[name].value or 0.0, unit="m"), project.display)
            rows.append((word, *shown, "worked out from these"))
    return Block(
        title="The body",
        lead="Estimated from stature and mass; the band holds 5 to 95 % of people of that size (soldiers of 17 to 58, "
        "ANSUR II). A size that was measured stands in place of the estimate.",
        heads=("Size", "", "", "How"),
        rows=tuple(rows),
        numbers=(1, 2),
        widths=(0.42, 0.16, 0.16, 0.26),
    )
