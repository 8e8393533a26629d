"""Choosing a rig: against a search by loops and formulas of its own, with limits moved, and where nothing fits.

The aims and steps are common practice and choices of the project, written down here once more (see `strains`).
"""

import math
import time
from dataclasses import replace
from functools import cache
from itertools import combinations

import numpy as np
import pytest

from oarkit import design, example_project
from oarkit.design.station import choice_of, settled
from oarkit.fit import FitStation, Limits, choose
from oarkit.fit.advice import choice_findings
from oarkit.fit.limits import overlap_range
from oarkit.rig.station import rig_from_station
from oarkit.rower.body import Size
from oarkit.rower.reach import Posture
from oarkit.rower.seated import seat_rower
from oarkit.rower.sizes import Body
from oarkit.stroke.station import stroke_of_rig
from oarkit.working import BadDesign

INCH = 0.0254
STEP = INCH / 2  # of overlap and overhang
# By how much each limit is relaxed: m, or ratio, or rad.
STEPS = {
    "legs": 0.010, "arms": 0.010, "overlap": STEP, "leverage_ratio": 0.05, "longest_stowed": INCH,
    "arc": math.radians(5), "dip_in_drive": math.radians(1), "lock_overhang": STEP, "hand_height": 0.010,
    "catch": math.radians(5),
}  # fmt: skip
NARROW = FitStation(
    beam=0.871, lock_overhang=0.117, seat_above_water=0.078, lock_above_water=0.302, wave_clearance=0.097,
    blade_length=0.557, blade_width=0.131, grip_centre=0.061, seat_edge_to_pins=0.301, seat_above_heels=0.168,
)  # fmt: skip
WIDE = replace(NARROW, beam=1.362, lock_overhang=-0.034, lock_above_water=0.341, seat_above_water=0.152)


def _size(value: float) -> Size:
    return Size(value=value, spread=0.0, measured=True)


def _body(**changed) -> Body:
    sizes = {
        "thigh_thickness": 0.158, "shoulder_height": 0.594, "arm_length": 0.671, "thigh_length": 0.431,
        "shank_length": 0.486, "elbow_height": 0.241, "foot_length": 0.266,
    } | changed  # fmt: skip
    return Body(**{name: _size(value) for name, value in sizes.items() if value is not None})


BODY = _body()


# A search of its own: one rig at a time


def _one(station, overhang, overlap, length, body, posture, feathered):
    """Margins by name, and strain, of one rig; None where it cannot be built."""
    span = station.beam + 2 * overhang
    inboard = (span + overlap) / 2
    outboard = length - inboard
    hand, blade = inboard - station.grip_centre, outboard - station.blade_length / 2
    over_seat = station.lock_above_water - station.seat_above_water
    down = station.lock_above_water + station.blade_width / 2 + 0.020
    half = 0.005 if feathered else station.blade_width / 2
    up = station.lock_above_water - station.wave_clearance - half
    square = station.lock_above_water - station.wave_clearance - station.blade_width / 2
    if hand <= 0 or outboard <= station.blade_length or blade <= max(down, -square):
        return None
    dip = math.asin(down / blade)
    in_drive, in_recovery = over_seat + hand * down / blade, over_seat + hand * up / blade
    ratio = outboard / inboard
    rig = {"overhang": overhang, "overlap": overlap, "length": length, "ratio": ratio, "hand": in_drive, "dip": dip}
    strain = ((ratio - 18 / 7) / 0.15) ** 2 + (max(dip - math.radians(15), 0) / math.radians(5)) ** 2
    strain += ((overlap - 0.1016) / 0.05) ** 2 if overlap > 0 else ((overlap + 0.05) / 0.025) ** 2
    rig["recovery"] = in_recovery - 0.060  # half a fist and clothing
    if station.lock_overhang is None:
        strain += (overhang / 0.100) ** 2
    if body.elbow_height is not None:
        strain += ((in_drive - body.elbow_height.value - 0.100) / 0.040) ** 2
    reach_c, reach_f = _reaches(station, body, posture, in_drive)
    if station.reach_catch is None and reach_c is not None:
        rig["arms"] = body.arm_length.value - abs(_shoulder(body, posture) - in_drive)
    if reach_c is not None:
        sine = reach_c / (hand * math.cos(dip))  # above 1 the reach goes beyond the oar's circle
        back = reach_f / (hand * math.cos(dip))
        stop = math.radians(65) if station.catch_limit is None else station.catch_limit
        rig["catch"] = min(math.asin(max(min(sine, 1.0), -1.0)), stop)
        rig["finish"] = max(-math.asin(max(min(back, 1.0), -1.0)), station.finish_limit)
        rig["arc"] = rig["catch"] - rig["finish"]
        sine = max(min(sine, math.sin(stop)), -1.0)  # what stops the oar stops the strain too
        aim = min(math.radians(60), stop)
        strain += ((sine - math.sin(aim)) / (math.sin(aim) - math.sin(aim - math.radians(10)))) ** 2
    room = _room(rig, station, body, posture, hand * math.cos(math.asin(up / blade)), span)
    if room is not None:
        rig["room"] = room
        strain += (max(0.025 - room, 0.0) / 0.025) ** 2
    rig["strain"] = strain
    return rig


def _reaches(station, body, posture, hand):
    if station.reach_catch is not None:
        return station.reach_catch, station.reach_finish
    if station.seat_edge_to_pins is None or body.arm_length is None or body.shoulder_height is None:
        return None, None
    hip = station.seat_edge_to_pins + posture.hip_forward_of_seat_edge
    trunk, arm = body.shoulder_height.value - posture.hip_above_seat, body.arm_length.value
    above = max(min(_shoulder(body, posture) - hand, 0.999 * arm), -0.999 * arm)  # out of reach: held at the arm's end
    return math.sqrt(arm**2 - above**2) + trunk * math.sin(posture.trunk_at_catch) - hip, hip - posture.hand_at_finish


def _shoulder(body, posture):
    """Shoulder above the seat at the catch."""
    trunk = body.shoulder_height.value - posture.hip_above_seat
    return posture.hip_above_seat + trunk * math.cos(posture.trunk_at_catch)


def _room(rig, station, body, posture, level, span):
    """Clear height over thighs and legs: by their highest place, and where that is little along the hand's path."""
    thigh = body.thigh_thickness and rig["recovery"] - body.thigh_thickness.value
    if body.thigh_length is None or station.seat_above_heels is None:
        return thigh
    xs, tops = _legs(station, body, posture)
    room = rig["recovery"] - max(tops)
    if room < 0.025 and "finish" in rig:
        sweep = np.linspace(rig["catch"], rig["finish"], 41)
        out = np.abs(span / 2 - level * np.cos(sweep))  # of the hand from the middle of the boat
        over = rig["recovery"] - np.interp(-level * np.sin(sweep), xs, tops)
        room = float(np.min(np.where(out > 0.21 + 0.045, np.inf, over)))
    return room if thigh is None else min(room, thigh)


@cache
def _legs(station, body, posture):
    """Toes, knee and hip from the side; they do not hang on the rig."""
    legs = seat_rower(
        body=body, posture=posture, hand_height=0.35, seat_edge_to_pins=station.seat_edge_to_pins,
        seat_above_heels=station.seat_above_heels,
    ).legs  # fmt: skip
    assert legs.knee_top == pytest.approx(_knee(station, body, posture))
    return (legs.toe_x, legs.knee_x, legs.hip_x), (legs.toe_top, legs.knee_top, legs.thigh_top)


def _knee(station, body, posture):
    """Top of the knee: hip at the origin, knee where a thigh that is raised step by step lets the shank reach."""
    if body.thigh_length is None or station.seat_above_heels is None:
        return None
    a, b, bend = body.thigh_length.value, body.shank_length.value, posture.knee_flexion
    drop = posture.hip_above_seat + station.seat_above_heels

    def low(raised):  # heel below the hip
        return -(a * math.sin(raised) + b * math.sin(raised - bend))

    below, over = -1.0, 1.0
    for _ in range(80):
        middle = (below + over) / 2
        below, over = (middle, over) if low(middle) > drop else (below, middle)
    return posture.hip_above_seat + a * math.sin(below) + 0.060


def _steps(fixed, band):
    if fixed is not None:
        return [fixed]
    return [k * STEP for k in range(math.floor(band[0] / STEP) - 8, math.ceil(band[1] / STEP) + 9)]


def _around(*bands):
    return min(band[0] for band in bands), max(band[1] for band in bands)


def _rigs(station, limits, body, *, feathered=False, lengths=None):
    """Every rig that can be built, the least strained first."""
    lengths = lengths or [k * INCH for k in range(48, 142)]  # 1.2 to 3.6 m
    found = []
    overhangs = _steps(station.lock_overhang, _around(limits.lock_overhang, (0.0, 0.150)))
    customs = [(0.050, 0.180) if station.beam + 2 * out < 45 * INCH else (-0.075, -0.025) for out in overhangs]
    for overhang in overhangs:
        for overlap in _steps(station.overlap, _around(limits.overlap, *customs)):
            tried = lengths
            if station.leverage_ratio is not None:
                exact = (station.beam / 2 + overhang + overlap / 2) * (1 + station.leverage_ratio)
                tried = [min(lengths, key=lambda length, exact=exact: abs(length - exact))]
            found += [_one(station, overhang, overlap, length, body, Posture(), feathered) for length in tried]
    return sorted((rig for rig in found if rig is not None), key=lambda rig: rig["strain"])


def _kept(rigs, station, limits, relaxed=None):
    """Rigs that keep every limit, some of them relaxed."""
    return [rig for rig in rigs if _keeps(rig, station, limits, relaxed or {})]


def _search(station, limits, body, *, relaxed=None, feathered=False, lengths=None):
    """Every rig that keeps every limit, the least strained first."""
    rigs = _rigs(station, limits, body, feathered=feathered, lengths=lengths)
    return _kept(rigs, station, limits, relaxed)


def _keeps(rig, station, limits, relaxed) -> bool:
    def within(value, band, name):
        give = relaxed.get(name, 0.0) + 1e-9
        return band == (None, None) or band[0] - give <= value <= band[1] + give

    def least(value, limit, name):
        return within(value, (limit, math.inf), name)

    return (
        least(rig.get("room", 0.0), 0.0, "legs")
        and least(rig.get("arms", 0.0), 0.0, "arms")
        and least(rig.get("catch", 0.0), 0.0, "catch")
        and (station.overlap is not None or within(rig["overlap"], limits.overlap, "overlap"))
        and (station.lock_overhang is not None or within(rig["overhang"], limits.lock_overhang, "lock_overhang"))
        and (station.leverage_ratio is not None or station.length is not None
             or within(rig["ratio"], limits.leverage_ratio, "leverage_ratio"))
        and within(rig["length"], (0, limits.longest_stowed or math.inf), "longest_stowed")
        and (limits.least_arc is None or least(rig["arc"], limits.least_arc, "arc"))
        and within(rig["hand"], limits.hand_height, "hand_height")
        and within(rig["dip"], (0, limits.most_dip), "dip_in_drive")
    )  # fmt: skip


CUSTOM = Limits(
    overlap=(0.050, 0.180), leverage_ratio=(2.3, 2.8), lock_overhang=(0.0, 0.150), most_dip=math.radians(20)
)
DEG = math.radians
CASES = {
    "custom": (NARROW, CUSTOM, BODY),
    "no body": (NARROW, CUSTOM, Body()),
    "thighs": (NARROW, CUSTOM, _body(thigh_thickness=0.2253, thigh_length=None)),
    "knees": (replace(NARROW, seat_above_heels=0.0405), CUSTOM, BODY),
    "shins": (replace(NARROW, seat_above_heels=0.0445), CUSTOM, _body(thigh_thickness=0.14)),
    "arms": (replace(NARROW, seat_edge_to_pins=-0.35), CUSTOM, _body(arm_length=0.135, thigh_length=None)),
    "catch": (replace(NARROW, seat_edge_to_pins=0.791), CUSTOM, _body(thigh_length=None)),
    "stowed": (NARROW, replace(CUSTOM, longest_stowed=2.062), BODY),
    "arc": (replace(NARROW, catch_limit=DEG(80)), replace(CUSTOM, least_arc=DEG(101)), BODY),
    "dip": (NARROW, replace(CUSTOM, most_dip=DEG(15.9)), BODY),
    "hand": (NARROW, replace(CUSTOM, hand_height=(0.352, 0.3785)), BODY),
    "high hand": (NARROW, replace(CUSTOM, hand_height=(0.391, 0.431)), BODY),
    "ratio": (NARROW, replace(CUSTOM, leverage_ratio=(2.11, 2.36)), BODY),
    "overlap": (NARROW, replace(CUSTOM, overlap=(0.146, 0.181)), BODY),
    "overhang": (replace(NARROW, lock_overhang=None), replace(CUSTOM, lock_overhang=(0.011, 0.062)), BODY),
    "two": (NARROW, replace(CUSTOM, longest_stowed=2.171, leverage_ratio=(2.55, 2.8)), BODY),
    "reach told": (replace(NARROW, reach_catch=0.371, reach_finish=0.288), replace(CUSTOM, least_arc=DEG(74)), BODY),
    "lock's own angles": (replace(NARROW, catch_limit=DEG(52), finish_limit=DEG(-27)), CUSTOM, BODY),
    "low locks": (replace(NARROW, lock_above_water=0.231, seat_above_water=0.032), CUSTOM, BODY),
    "little overlap": (NARROW, replace(CUSTOM, overlap=(0.004, 0.058)), BODY),
    "gap": (WIDE, replace(CUSTOM, overlap=(-0.075, -0.025)), BODY),
    "little room": (NARROW, CUSTOM, _body(thigh_thickness=0.205, thigh_length=None)),
    "ratio fixed": (replace(NARROW, leverage_ratio=2.47), CUSTOM, BODY),
    "length fixed": (replace(NARROW, length=2.183), CUSTOM, BODY),
    "overlap fixed": (replace(NARROW, overlap=0.073), CUSTOM, BODY),
}  # fmt: skip


def _ways(rig):
    return (rig["overhang"], rig["overlap"], rig["length"])


def _told(candidate):
    return (candidate.lock_overhang, candidate.overlap, candidate.length)


def _lengths(station):
    return None if station.length is None else [station.length]


@pytest.mark.parametrize("case", CASES)
def test_the_least_strained_rig_is_chosen(case):
    """Of the rigs that keep every limit the loops find the same as least strained, and the same next best."""
    station, limits, body = CASES[case]
    kept = _search(station, limits, body, lengths=_lengths(station))
    assert kept, "the case must have a rig"
    found = choose(station, limits=limits, body=body, may_feather=False)
    assert found.fits
    assert _told(found.chosen) == pytest.approx(_ways(kept[0]), abs=1e-9)
    assert found.chosen.leverage_ratio == pytest.approx(kept[0]["ratio"])
    assert found.chosen.dip_in_drive == pytest.approx(kept[0]["dip"])
    assert found.chosen.hand_height_in_drive == pytest.approx(kept[0]["hand"])
    assert sum(np.square(list(found.chosen.strains.values()))) == pytest.approx(kept[0]["strain"], rel=1e-9)
    varied = "overlap" if station.length is not None else "length"
    next_best, seen = [], {round(kept[0][varied], 6)}
    for rig in kept:
        if round(rig[varied], 6) not in seen:
            seen.add(round(rig[varied], 6))
            next_best.append(rig)
    assert [_told(rig) for rig in found.runners_up] == [pytest.approx(_ways(rig), abs=1e-9) for rig in next_best[:4]]


@pytest.mark.parametrize("case", CASES)
def test_what_decides(case):
    """A limit is named just where one step more of it, and of it alone, makes the loops find another rig: that one."""
    station, limits, body = CASES[case]
    rigs = _rigs(station, limits, body, lengths=_lengths(station))
    best = _kept(rigs, station, limits)[0]
    found = choose(station, limits=limits, body=body, may_feather=False)
    named = {relaxed.limit: relaxed for relaxed in found.decides}
    for name, step in STEPS.items():
        other = _kept(rigs, station, limits, {name: step})[0]
        assert (_ways(other) != _ways(best)) == (name in named), name
        if name in named:
            assert named[name].step == step
            assert _told(named[name].becomes) == pytest.approx(_ways(other), abs=1e-9)


def test_each_limit_decides_somewhere():
    """The cases above have every limit decide in at least one of them, so that none is named or left out unseen."""
    seen = set()
    for station, limits, body in CASES.values():
        seen |= {relaxed.limit for relaxed in choose(station, limits=limits, body=body, may_feather=False).decides}
    assert seen == set(STEPS)


# One step more, asked for from outside


def _relaxed(name, station, limits, body):
    """The same question with one limit told a step wider."""
    step = STEPS[name]
    if name in ("overlap", "leverage_ratio", "hand_height", "lock_overhang"):
        low, high = getattr(limits, name)
        return station, replace(limits, **{name: (low - step, high + step)}), body
    more = {"longest_stowed": ("longest_stowed", step), "arc": ("least_arc", -step), "dip_in_drive": ("most_dip", step)}
    if name in more:
        field, change = more[name]
        return station, replace(limits, **{field: getattr(limits, field) + change}), body
    assert name == "legs"  # thighs: knees cannot be lowered without moving the brace
    return station, limits, replace(body, thigh_thickness=_size(body.thigh_thickness.value - step))


@pytest.mark.parametrize("case", ["thighs", "stowed", "arc", "dip", "hand", "ratio", "overlap", "overhang", "two"])
def test_one_step_more_told_as_a_limit(case):
    """Told with a limit one step wider, the program chooses what it said it would, and the same rig for the others."""
    station, limits, body = CASES[case]
    found = choose(station, limits=limits, body=body, may_feather=False)
    becomes = {relaxed.limit: relaxed.becomes for relaxed in found.decides}
    assert becomes, "something must decide"
    asked = ["legs", "overlap", "leverage_ratio", "dip_in_drive"]
    asked += ["longest_stowed"] if limits.longest_stowed else []
    asked += ["arc"] if limits.least_arc else []
    asked += ["hand_height"] if limits.hand_height != (None, None) else []
    asked += ["lock_overhang"] if station.lock_overhang is None else []
    for name in asked:
        wider = _relaxed(name, station, limits, body)
        again = choose(wider[0], limits=wider[1], body=wider[2], may_feather=False)
        assert _told(again.chosen) == pytest.approx(_told(becomes.get(name, found.chosen)), abs=1e-9), name


# Nothing fits

FIGHTS = {
    "arc and ratio": (NARROW, replace(CUSTOM, least_arc=DEG(118), leverage_ratio=(2.6, 2.8)), BODY),
    "thighs and stowed": (
        replace(NARROW, wave_clearance=0.151), replace(CUSTOM, longest_stowed=1.752), _body(thigh_length=None)
    ),
    "dip and stowed": (NARROW, replace(CUSTOM, longest_stowed=1.953, most_dip=DEG(14.1)), Body()),
    "overlap and stowed": (NARROW, replace(CUSTOM, overlap=(0.16, 0.18), longest_stowed=1.991), Body()),
    "hand": (NARROW, replace(CUSTOM, hand_height=(0.301, 0.318)), BODY),
    "high locks": (replace(NARROW, lock_above_water=0.52), replace(CUSTOM, longest_stowed=2.2), Body()),
    "ratio and stowed": (NARROW, replace(CUSTOM, longest_stowed=2.053, leverage_ratio=(2.6, 2.8)), BODY),
    "ratio, stowed and hand": (
        NARROW, replace(CUSTOM, longest_stowed=1.903, leverage_ratio=(2.6, 2.8), hand_height=(0.391, 0.431)), Body(),
    ),
    "three": (NARROW, replace(CUSTOM, longest_stowed=1.72, most_dip=DEG(12.9)), Body()),
}  # fmt: skip


def _giving(gives, station, limits, body):
    """The same question with limits that give way by so much, each told as a limit."""
    for fight, by in gives:
        if fight in ("overlap", "leverage_ratio", "hand_height", "lock_overhang"):
            low, high = getattr(limits, fight)
            limits = replace(limits, **{fight: (low - by, high + by)})
        elif fight == "legs":
            body = replace(body, thigh_thickness=_size(body.thigh_thickness.value - by))
        else:
            field, sign = {"longest_stowed": ("longest_stowed", 1), "arc": ("least_arc", -1),
                           "dip_in_drive": ("most_dip", 1)}[fight]  # fmt: skip
            limits = replace(limits, **{field: getattr(limits, field) + sign * by})
    return choose(station, limits=limits, body=body, may_feather=False)


@pytest.mark.parametrize("case", FIGHTS)
def test_what_fights_gives_way_by_so_much(case):
    """Each limit named makes a rig fit when it gives way by the amount told, and none when by a little less."""
    station, limits, body = FIGHTS[case]
    found = choose(station, limits=limits, body=body, may_feather=False)
    assert not _search(station, limits, body)
    assert not found.fits
    assert found.decides == ()
    alone = [_giving([(each.limit, each.gives + 1e-9)], station, limits, body).fits for each in found.reliefs]
    assert found.both_must_give is not all(alone)
    if not found.both_must_give:
        for each in found.reliefs:
            assert not _giving([(each.limit, each.gives - 1e-4)], station, limits, body).fits
    else:
        assert (any(alone), len(alone)) == (False, 2)
        both = [(each.limit, each.gives + 1e-9) for each in found.reliefs]
        assert _giving(both, station, limits, body).fits
        for at in range(2):
            shy = [(name, by - 1e-4 * (at == number)) for number, (name, by) in enumerate(both)]
            assert not _giving(shy, station, limits, body).fits


@pytest.mark.parametrize("case", FIGHTS)
def test_the_cheapest_give_is_told(case):
    """The loops find the same least give of every limit by itself, and those are told, fewest steps first."""
    station, limits, body = FIGHTS[case]
    found = choose(station, limits=limits, body=body, may_feather=False)
    rigs = _rigs(station, limits, body)
    gives = {}
    for name in STEPS:
        near = _kept(rigs, station, limits, {name: 1e3})
        low, high = 0.0, 1e3
        while near and high - low > 1e-8:
            middle = (low + high) / 2
            low, high = (low, middle) if _kept(near, station, limits, {name: middle}) else (middle, high)
        if near:
            gives[name] = high
    cheapest = sorted(gives, key=lambda name: gives[name] / STEPS[name])
    if not cheapest:
        assert found.both_must_give  # the test above
        return
    if gives[cheapest[0]] > 8 * STEPS[cheapest[0]] and found.both_must_give:
        return  # no single one within reason: the pair is tested above
    assert [each.limit for each in found.reliefs] == cheapest
    # Limits are kept to 1e-9 and the give was halved down to 1e-8.
    assert [each.gives for each in found.reliefs] == pytest.approx([gives[name] for name in cheapest], abs=1e-7)


@pytest.mark.parametrize("case", FIGHTS)
def test_the_fewest_limits_that_fight(case):
    """With all other limits gone the loops still find no rig for those named, and one for any smaller set of limits."""
    station, limits, body = FIGHTS[case]
    found = choose(station, limits=limits, body=body, may_feather=False)
    rigs = _rigs(station, limits, body)

    def fit(kept):
        return _kept(rigs, station, limits, {name: 1e3 for name in STEPS if name not in kept})

    assert found.fights
    assert not fit(found.fights)
    for fewer in combinations(found.chosen.slack, len(found.fights) - 1):
        assert fit(fewer), fewer


@pytest.mark.parametrize(("more", "told"), [
    ({"most_dip": DEG(12.9)}, {"longest_stowed", "dip_in_drive"}),
    ({"leverage_ratio": (2.6, None)}, {"longest_stowed", "leverage_ratio"}),
])  # fmt: skip
def test_of_equal_fights_the_file_is_named(more, told):
    """A short oar fights the dip as well as the ratio: the one of the two that the file asks for is told with it."""
    limits = Limits(longest_stowed=1.72, **more)
    found = choose(replace(NARROW, lock_above_water=0.352), limits=limits, may_feather=False)
    assert limits.told() == told == set(found.fights)
    assert Limits(least_arc=1.0, overlap=(None, 0.1)).told() == {"arc", "overlap"}


@pytest.mark.parametrize("case", ["three", "ratio, stowed and hand"])
def test_two_limits_that_both_have_to_give(case):
    """The pair told is the cheapest in steps of all pairs with which the loops find a rig."""
    station, limits, body = FIGHTS[case]
    found = choose(station, limits=limits, body=body, may_feather=False)
    names = [name for name in STEPS if name in found.chosen.slack]
    rigs = _rigs(station, limits, body)
    cost = {}
    for one in names:
        for other in names:
            for rig in _kept(rigs, station, limits, {one: 1e3, other: 1e3}):
                short = {name: _short(rig, limits, name) for name in (one, other)}
                steps = sum(short[name] / STEPS[name] for name in {one, other})
                cost[one, other] = min(cost.get((one, other), (math.inf,)), (steps, *short.values()))
    within = [told[1] / STEPS[one] for (one, other), told in cost.items() if one == other]
    assert all(steps > 8 for steps in within)  # none alone, not within reason
    cost = {pair: told for pair, told in cost.items() if pair[0] != pair[1]}
    (one, other), (_, *gives) = min(cost.items(), key=lambda item: item[1][0])
    assert {each.limit: each.gives for each in found.reliefs} == pytest.approx({one: gives[0], other: gives[1]})


def test_a_body_gives_no_way():
    """Hands that never come past the pins: no relief is told, but where to look, whatever else does not fit."""
    far = replace(NARROW, seat_edge_to_pins=0.95)
    for limits in (CUSTOM, replace(CUSTOM, longest_stowed=1.5)):
        found = choose(far, limits=limits, body=_body(thigh_length=None), may_feather=False)
        assert (found.fights, found.reliefs) == (("catch",), ())
        (told,) = choice_findings(found, found.chosen, left_open=("length",), beam=far.beam)
        assert "Move the seat, or check the sizes of the rower" in told.text


@pytest.mark.parametrize("ends", [(0.105, 0.110), (0.1003, 0.1003), (None, 0.0504)])
def test_a_range_narrower_than_a_step_can_be_kept(ends):
    """Between two whole half inches lies none: the middle of what is asked is looked at too."""
    found = choose(NARROW, limits=replace(CUSTOM, overlap=ends))
    low = 0.050 if ends[0] is None else ends[0]
    assert found.fits
    assert found.chosen.overlap == pytest.approx((low + ends[1]) / 2)


def test_two_are_looked_at_where_one_would_have_to_give_beyond_reason():
    """Stowed in 1.7 m no single limit gives within eight steps: the pair told does, each within eight."""
    found = choose(replace(NARROW, lock_above_water=0.26), limits=Limits(longest_stowed=1.70), body=Body())
    assert found.both_must_give
    assert all(relief.gives <= 8 * STEPS[relief.limit] + 1e-9 for relief in found.reliefs)


@pytest.mark.parametrize(("case", "limit", "more"), [
    ("arc and ratio", "arc", False), ("hand", "hand_height", True), ("overlap and stowed", "longest_stowed", True),
])  # fmt: skip
def test_which_way_a_limit_would_give(case, limit, more):
    """Less arc, higher hands, a longer oar: the loops' nearest rigs lie on that side."""
    station, limits, body = FIGHTS[case]
    found = choose(station, limits=limits, body=body, may_feather=False)
    (relief,) = [each for each in found.reliefs if each.limit == limit]
    assert relief.more is more


def test_more_than_two_have_to_give():
    """Where no two limits that give way leave a rig, no relief is named, and the finding says so."""
    limits = replace(CUSTOM, longest_stowed=1.72, most_dip=DEG(12.9), hand_height=(0.29, 0.30))
    found = choose(NARROW, limits=replace(limits, least_arc=DEG(170)), body=BODY, may_feather=False)
    assert (found.fits, found.reliefs) == (False, ())
    (told,) = choice_findings(found, found.chosen, left_open=("length",), beam=NARROW.beam)
    assert "More than two limits" in told.text


def _short(rig, limits, name) -> float:
    """By how much a rig falls short of a limit."""
    low, high = {
        "overlap": limits.overlap, "leverage_ratio": limits.leverage_ratio, "dip_in_drive": (0, limits.most_dip),
        "longest_stowed": (0, limits.longest_stowed), "hand_height": limits.hand_height,
    }[name]  # fmt: skip
    said = {"leverage_ratio": "ratio", "dip_in_drive": "dip", "longest_stowed": "length", "hand_height": "hand"}
    value = rig[said.get(name, name)]
    return max(low - value, value - high, 0.0)


def test_the_rig_shown_where_nothing_fits():
    """It is the rig that falls short by the fewest steps in all."""
    station, limits, body = FIGHTS["overlap and stowed"]
    found = choose(station, limits=limits, body=body, may_feather=False)
    names = ("overlap", "leverage_ratio", "dip_in_drive", "longest_stowed")
    least = min(
        _rigs(station, limits, body),
        key=lambda rig: (round(sum(_short(rig, limits, name) / STEPS[name] for name in names), 9), rig["strain"]),
    )
    assert _told(found.chosen) == pytest.approx(_ways(least), abs=1e-9)
    assert min(found.chosen.slack.values()) < 0


# What is fixed, what is free


def test_fixed_numbers_stay():
    """What the station fixes is what is chosen, and what is fixed is no limit."""
    overlap = choose(replace(NARROW, overlap=0.2471), body=BODY)
    assert overlap.chosen.overlap == pytest.approx(0.2471)
    assert "overlap" not in overlap.chosen.slack
    length = choose(replace(NARROW, length=2.1837), body=BODY)
    assert length.chosen.length == pytest.approx(2.1837)
    assert "leverage_ratio" not in length.chosen.slack
    both = choose(replace(NARROW, length=2.1837, overlap=0.0713), body=BODY)
    assert (both.looked_at, both.runners_up, both.decides) == (1, (), ())
    assert both.chosen.leverage_ratio == pytest.approx(2.1837 / ((0.871 + 2 * 0.117 + 0.0713) / 2) - 1)


def test_fixed_ratio_rounds_the_length():
    """A ratio gives each overlap its own length: to the inch, to a step, to none, or to the nearest in stock."""
    fixed = replace(NARROW, leverage_ratio=2.47, overlap=0.0713)
    exact = (0.871 + 2 * 0.117 + 0.0713) / 2 * 3.47
    assert choose(fixed).chosen.length == pytest.approx(round(exact / INCH) * INCH)
    assert choose(replace(fixed, lengths=0.05)).chosen.length == pytest.approx(round(exact / 0.05) * 0.05)
    assert choose(replace(fixed, lengths=None)).chosen.length == pytest.approx(exact)
    assert choose(replace(fixed, lengths=None)).chosen.leverage_ratio == pytest.approx(2.47)
    far = choose(replace(fixed, leverage_ratio=2.97), limits=CUSTOM)  # what is told is no longer a limit
    assert far.fits
    assert "leverage_ratio" not in far.chosen.slack
    stock = choose(replace(fixed, lengths=(1.83, 1.98, 2.13, 2.29)))
    assert stock.chosen.length == 1.98  # 2.04 wanted


@pytest.mark.parametrize("ratio", [None, 2.47])
def test_stock_lengths(ratio):
    """Only lengths in stock are chosen, and of them the one that the loops choose."""
    stock = [1.829, 1.981, 2.134, 2.286, 2.438]
    station = replace(NARROW, lengths=tuple(stock), leverage_ratio=ratio)
    found = choose(station, limits=CUSTOM, body=BODY)
    best = _search(station, CUSTOM, BODY, lengths=stock)[0]
    assert _told(found.chosen) == pytest.approx(_ways(best), abs=1e-9)
    assert {rig.length for rig in (found.chosen, *found.runners_up)} <= set(stock)


@pytest.mark.parametrize("step", [0.05, None])
def test_a_length_of_another_step(step):
    """Lengths go by the step that is told, and by sixteenths of an inch where they are not rounded."""
    station = replace(NARROW, lengths=step, overlap=0.1043)
    size = step or INCH / 16
    lengths = [k * size for k in range(math.ceil(1.2 / size), math.floor(3.6 / size) + 1)]
    found = choose(station, limits=CUSTOM, body=BODY)
    best = _search(station, CUSTOM, BODY, lengths=lengths)[0]
    assert _told(found.chosen) == pytest.approx(_ways(best), abs=1e-9)


def test_customary_limits_where_nothing_is_said():
    """Spans under 45 in cross the handles by 50 to 180 mm, wider ones leave 25 to 75 mm; an open overhang is 0-150."""
    assert choose(replace(NARROW, beam=1.142 - 0.234)).overlap_range == (0.050, 0.180)
    assert choose(replace(NARROW, beam=1.144 - 0.234)).overlap_range == (-0.075, -0.025)
    free = choose(replace(NARROW, lock_overhang=None))
    assert free.limits.ends("lock_overhang") == (0.0, 0.150)
    assert free.limits.ends("leverage_ratio") == (2.3, 2.8)
    assert math.degrees(free.limits.dip) == pytest.approx(20)
    assert choose(NARROW, limits=CUSTOM).limits == CUSTOM
    assert choose(replace(NARROW, overlap=0.02)).overlap_range is None


@pytest.mark.parametrize(
    "station", [NARROW, WIDE, replace(WIDE, lock_overhang=None), replace(NARROW, beam=1.05)], ids=str
)
def test_a_limit_written_out_as_custom_has_it_changes_nothing(station):
    """Either end of the range in force, or both, may be told: the same rig comes out, and the same without limits."""
    bare = choose(station, body=BODY)
    least, most = bare.overlap_range
    for told in ((least, None), (None, most), (least, most)):
        again = choose(station, limits=Limits(overlap=told), body=BODY)
        assert _told(again.chosen) == _told(bare.chosen), told
        assert _told(again.unlimited) == _told(bare.unlimited), told


@pytest.mark.parametrize(("span", "told", "in_force"), [
    (1.10, (None, None), (0.050, 0.180)), (1.20, (None, None), (-0.075, -0.025)),
    ((34 + 2 * 5.5) * INCH, (None, None), (-0.075, -0.025)), ((35 + 2 * 5) * INCH, (None, None), (-0.075, -0.025)),
    (34 * INCH + 2 * (5.5 * INCH), (None, None), (-0.075, -0.025)),  # 45 in, whichever way it is added up
    (1.20, (0.060, None), (0.060, 0.180)), (1.20, (0.200, None), (0.200, 0.330)), (1.20, (None, 0.18), (-0.075, 0.18)),
    (1.10, (None, -0.03), (-0.075, -0.03)), (1.10, (-0.02, None), (-0.02, 0.180)),
    (1.20, (-0.03, None), (-0.03, -0.025)),
    (1.20, (-0.01, None), (-0.01, 0.04)), (1.10, (None, 0.04), (-0.09, 0.04)), (1.20, (-0.1, 0.1), (-0.1, 0.1)),
])  # fmt: skip
def test_overlap_in_force(span, told, in_force):
    """An end that was not told is custom's for that span, or for that side of nought; never the wrong way round."""
    low, high = overlap_range(span=np.array([span]), told=told)
    assert (low[0], high[0]) == pytest.approx(in_force)


def test_what_custom_alone_takes_does_not_hang_on_the_limits():
    """The rig without limits is one and the same, whatever the file asks for."""
    free = replace(NARROW, lock_overhang=None)
    bare = choose(free, body=BODY).unlimited
    for limits in (
        Limits(overlap=(0.17, 0.18)), Limits(lock_overhang=(-0.05, -0.02)), Limits(longest_stowed=1.9),
        Limits(overlap=(-0.3, None)),
    ):  # fmt: skip
        assert _told(choose(free, limits=limits, body=BODY).unlimited) == _told(bare)
    for station, crosses in ((NARROW, True), (WIDE, False)):  # and it keeps to what custom says of the overlap
        for limits in (Limits(), Limits(overlap=(-0.2, 0.3))):
            assert (choose(station, limits=limits, body=BODY).unlimited.overlap > 0) == crosses


def test_pins_inside_the_rail_strain_like_pins_outside():
    """Of a wide boat with its overhang open the loops choose the same; nothing draws the pins far inside."""
    station = replace(WIDE, lock_overhang=None)
    limits = replace(CUSTOM, overlap=(-0.075, -0.025), lock_overhang=(-0.2, 0.15))
    found = choose(station, limits=limits, body=BODY)
    assert _told(found.chosen) == pytest.approx(_ways(_search(station, limits, BODY)[0]), abs=1e-9)


def test_feathered_where_square_does_not_do():
    """A wave that no square blade clears is cleared feathered, if the locks allow it; else nothing fits."""
    station, body = replace(NARROW, wave_clearance=0.097), _body(thigh_thickness=0.2361, thigh_length=None)
    assert not _search(station, CUSTOM, body)
    flat = _search(station, CUSTOM, body, feathered=True)
    found = choose(station, limits=CUSTOM, body=body)
    assert found.fits
    assert found.feathered
    assert (found.fights, found.reliefs) == ((), ())
    assert _told(found.chosen) == pytest.approx(_ways(flat[0]), abs=1e-9)
    assert not choose(station, limits=CUSTOM, body=body, may_feather=False).fits
    square = choose(NARROW, limits=CUSTOM, body=BODY)
    assert (square.fits, square.feathered) == (True, False)
    thick = choose(station, limits=CUSTOM, body=_body(thigh_thickness=0.30, thigh_length=None))
    assert (thick.fits, thick.feathered) == (False, True)


def test_the_two_bounds_of_the_seat():
    """Longest blade arm over the thighs and blade arm for an easy hand, by the lever with the hand arm chosen."""
    body = _body(thigh_thickness=0.187)
    found = choose(NARROW, limits=CUSTOM, body=body)
    hand_arm = (0.871 + 2 * 0.117 + found.chosen.overlap) / 2 - 0.061
    over_seat = 0.302 - 0.078
    longest = hand_arm * (0.302 - 0.097 - 0.0655) / (0.187 + 0.060 - over_seat)
    assert found.bounds.longest == pytest.approx(longest)
    assert found.bounds.for_hand == pytest.approx(hand_arm * (0.302 + 0.0655 + 0.020) / (0.241 + 0.100 - over_seat))
    bare = choose(NARROW, limits=CUSTOM).bounds
    assert (bare.longest, bare.for_hand) == (None, None)


def test_no_oar_reaches_the_water():
    """Locks higher than the longest oar could dip are refused in words."""
    with pytest.raises(BadDesign, match="no oar can be built under those limits that reaches the water"):
        choose(replace(NARROW, lock_above_water=3.1))


def test_without_a_body_the_boat_decides():
    """No thigh, knee, arc or elbow: none of them is a limit or an aim."""
    found = choose(NARROW, limits=replace(CUSTOM, least_arc=1.5))
    assert set(found.chosen.slack) == {"overlap", "leverage_ratio", "dip_in_drive"}
    assert set(found.chosen.strains) == {"leverage_ratio", "overlap", "dip_in_drive"}  # no legs, no room over them
    assert (found.chosen.catch_angle, found.chosen.thigh_clearance) == (None, None)


@pytest.mark.parametrize("heels", [0.168, 0.06, 0.04, 0.02])
def test_room_over_the_legs_is_that_of_the_stroke(heels):
    """Where it is little, the room over the legs is what the stroke of the chosen rig has, hands along their path."""
    station, body = replace(NARROW, seat_above_heels=heels), _body(thigh_thickness=0.14)
    found = choose(station, limits=CUSTOM, body=body)
    rig = rig_from_station(
        beam=station.beam, lock_overhang=station.lock_overhang, seat_above_water=station.seat_above_water,
        lock_above_water=station.lock_above_water, overlap=found.chosen.overlap, length=found.chosen.length,
        thigh_thickness=0.14, wave_clearance=station.wave_clearance, blade_length=station.blade_length,
        blade_width=station.blade_width, grip_centre=station.grip_centre,
    )  # fmt: skip
    seated = seat_rower(
        body=body, posture=Posture(), hand_height=rig.hand_height_in_drive, seat_edge_to_pins=station.seat_edge_to_pins,
        seat_above_heels=heels,
    )  # fmt: skip
    stroke = stroke_of_rig(rig, reach_catch=seated.reach_catch, reach_finish=seated.reach_finish,
                           catch_limit=math.radians(65), legs=seated.legs)  # fmt: skip
    legs = stroke.legs_feathered if found.feathered else stroke.legs
    thigh = rig.thigh_clearance_feathered if found.feathered else rig.thigh_clearance
    least = min(float(legs.clearance), float(thigh))
    told = found.chosen.slack["legs"]
    assert told == pytest.approx(least, abs=1e-9) if least < 0.02 else 0.02 <= told <= least + 1e-9


# How it is told


@pytest.mark.parametrize("name", ["quillet", "tumblehod"])
def test_a_rig_is_chosen_quickly(name):
    """Either example is chosen for within a second, with everything left open."""
    inputs = example_project(name).inputs
    open_ = replace(inputs.station, lock_overhang=None, overlap=None, length=None, leverage_ratio=None)
    inputs = replace(inputs, station=open_)
    choice_of(inputs)
    start = time.perf_counter()
    found = choice_of(inputs)
    assert time.perf_counter() - start < 1.0
    assert found.looked_at > 10_000


def test_what_is_left_open_is_filled():
    """A design with overhang, overlap and length left open is that of the rig chosen."""
    inputs = example_project("quillet").inputs
    inputs = replace(inputs, station=replace(inputs.station, lock_overhang=None, overlap=None, length=None))
    made = design(inputs)
    chosen = made.choice.chosen
    assert made.inputs.left_open == ("lock_overhang", "overlap", "length")
    assert (float(made.rig.length), float(made.rig.overlap)) == pytest.approx((chosen.length, chosen.overlap))
    assert float(made.rig.span) == pytest.approx(float(inputs.station.beam) + 2 * chosen.lock_overhang)


def test_what_is_given_stays():
    """Where nothing is left open the choice is one that would have been, and no number that was given gives way."""
    inputs = example_project("quillet").inputs
    choice = choice_of(inputs)
    filled = settled(inputs, choice)
    assert filled.left_open == ()
    assert filled.station == inputs.station
    assert choice.chosen.overlap != pytest.approx(float(inputs.station.overlap), abs=1e-3)


def test_findings_of_a_choice():
    """What was left open is told with each limit that decides; what fights is told as a failure with its give."""
    station, limits, body = CASES["hand"]
    found = choose(station, limits=limits, body=body)
    told = choice_findings(found, found.chosen, left_open=("overlap", "length"), beam=station.beam)
    assert [(finding.code, finding.level) for finding in told] == [("choice", "note")]
    assert "Left to the program, overlap and length" in told[0].text
    assert "the height of the hands in the drive (one step more" in told[0].text
    assert told[0].quantities["step_1"].value == 0.010
    station, limits, body = FIGHTS["hand"]
    found = choose(station, limits=limits, body=body, may_feather=False)
    fails = choice_findings(found, found.chosen, left_open=("overlap",), beam=station.beam)
    assert [(finding.code, finding.level) for finding in fails] == [("nothing_fits", "fails")]
    assert "No rig keeps every limit." in fails[0].text
    assert fails[0].quantities["gives_hand_height"].value > 0
    assert {"hand_height_least", "hand_height_most"} <= set(fails[0].quantities)  # what it asks is told
    for finding in (*told, *fails):
        assert all(f"{{{name}}}" in finding.text for name in finding.quantities)
        finding.text.format(**dict.fromkeys(finding.quantities, ""))  # no gap without its number


def test_either_or_both_is_told():
    """Whether one of two limits would be enough to give way, or both must, is told in so many words."""
    said = []
    for case in ("ratio and stowed", "three"):
        station, limits, body = FIGHTS[case]
        found = choose(station, limits=limits, body=body, may_feather=False)
        said.append(choice_findings(found, found.chosen, left_open=("length",), beam=station.beam)[0].text)
    assert "Any one of these is enough" in said[0]
    assert "both" in said[1]
