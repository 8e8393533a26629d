"""Advice on the stroke and on the rig chosen: what each finding proposes is done, and must bring what it promised."""

import math
from dataclasses import replace

import numpy as np
import pytest

from oarkit import design, example_project
from oarkit.fit import Limits
from oarkit.fit.advice import choice_findings
from oarkit.fit.limit_words import limit_in_words
from oarkit.rig.advice import rig_findings
from oarkit.rig.height import lock_offset
from oarkit.rig.station import rig_from_station
from oarkit.rower.body import Size
from oarkit.sheet.rowing import blocks
from oarkit.strength.hard_start import force_findings
from oarkit.stroke.clear import Sides, side_clearance
from oarkit.stroke.path import Place
from oarkit.units import both, filled
from oarkit.working import Quantity


def _of(made, code):
    return next((finding for finding in made.on_rowing if finding.code == code), None)


def _value(finding, name):
    return float(finding.quantities[name].value)


def _with(inputs, **station):
    return replace(inputs, station=replace(inputs.station, **station))


# The arc


@pytest.mark.parametrize("stature", [1850, 1960, 2050])
def test_a_seat_set_back_as_advised_makes_the_catch_sixty_degrees(changed, stature):
    """The seat moved by what is told brings the full reach to 60°, though the catch was cut before."""
    taller = ('stature = "1725 mm"', f'stature = "{stature} mm"')
    made = design(changed(taller).inputs)
    back = _value(_of(made, "far_catch"), "back")
    moved = design(
        changed(taller, ('seat_edge_to_pins = "300 mm"', f'seat_edge_to_pins = "{300 + back * 1e3:.6f} mm"')).inputs
    )
    # the file's length is read to a millionth of a millimetre, far below a millionth of a radian here
    assert moved.stroke.catch_angle == pytest.approx(math.radians(60), abs=1e-6)


@pytest.mark.parametrize("stature", [1300, 1560])
def test_a_seat_brought_nearer_as_advised_makes_the_catch_sixty_degrees(changed, stature):
    """A short rower with the seat far back gets told how much nearer; that is then done."""
    small = ('stature = "1725 mm"', f'stature = "{stature} mm"')
    far = changed(small, ('seat_edge_to_pins = "300 mm"', 'seat_edge_to_pins = "420 mm"'))
    made = design(far.inputs)
    told = _of(made, "short_catch")
    assert (told.level, float(made.stroke.catch_angle) < math.radians(45)) == ("caution", True)
    near = f'seat_edge_to_pins = "{420 - _value(told, "nearer") * 1e3:.6f} mm"'
    moved = design(changed(small, ('seat_edge_to_pins = "300 mm"', near)).inputs)
    assert float(moved.stroke.catch_angle) == pytest.approx(math.radians(60), abs=1e-6)
    assert _of(moved, "short_catch") is None


def test_a_catch_that_the_tholes_stop_is_not_called_short():
    """Tholes stop the oar at 50 degrees (common practice): that is no fault of the reach, and less may be asked."""
    inputs = example_project("quillet").inputs
    assert _of(design(_with(inputs, catch_limit=math.radians(40))), "short_catch") is None
    near = replace(inputs, rower=replace(inputs.rower, reach_catch=0.20, reach_finish=0.40))
    told = _of(design(_with(near, catch_limit=math.radians(40))), "short_catch")
    assert _value(told, "wanted") == pytest.approx(math.radians(40))


def test_a_reach_within_sixty_five_degrees_is_counted_in_full():
    """Quillet's 62.6° stand as they are; a limit that is told holds, and lets more be counted too."""
    inputs = example_project("quillet").inputs
    assert _of(design(inputs), "far_catch") is None
    held = design(_with(inputs, catch_limit=math.radians(55)))
    assert float(held.stroke.catch_angle) == pytest.approx(math.radians(55))
    assert "where lock or tholes hold it" in _of(held, "far_catch").text
    tall = replace(inputs, rower=replace(inputs.rower, reach_catch=0.53, reach_finish=0.28))
    angle = math.asin(0.53 / (float(design(tall).rig.hand_arm) * math.cos(float(design(tall).rig.dip_in_drive))))
    assert angle > math.radians(65)
    free = design(_with(tall, catch_limit=math.radians(80)))
    assert float(free.stroke.catch_angle) == pytest.approx(angle)
    assert _of(free, "far_catch") is None


@pytest.mark.parametrize(
    ("reaches", "level", "code"), [((-0.05, 0.50), "fails", "off_the_pins"), ((0.50, -0.04), "caution", "off_the_pins")]
)
def test_a_seat_moved_brings_the_hands_past_the_pins(reaches, level, code):
    """With the hands moved along by what is told, they are just at the pins."""
    inputs = example_project("quillet").inputs
    made = design(replace(inputs, rower=replace(inputs.rower, reach_catch=reaches[0], reach_finish=reaches[1])))
    finding = _of(made, code)
    assert finding.level == level
    assert _value(finding, "short") == pytest.approx(-min(reaches))
    if level == "fails":  # what would have been chosen is no help to a rig that nobody can row
        assert _of(made, "choice") is None


# Rail and bracket


def test_raised_locks_bring_the_knuckles_clear(changed):
    """A long reach takes the knuckles to a high coaming; a stroke kept short of the angle that is told clears it."""
    tall = ('stature = "1725 mm"', 'stature = "1960 mm"')
    coaming = ('# coaming_above_rail = "20 mm"', 'coaming_above_rail = "230 mm"')
    made = design(changed(tall, coaming, ('# catch_limit = "65 deg"', 'catch_limit = "79 deg"')).inputs)
    finding = _of(made, "rail")
    at, rig = _value(finding, "at"), made.rig
    # The hand is below the coaming's top, so the fist's 45 mm are counted athwart: 19 mm of rail inside the beam.
    away = []
    for dip in (float(rig.dip_in_drive), float(rig.dip_in_recovery)):
        out = abs(1.1049 / 2 - float(rig.hand_arm) * math.cos(dip) * math.cos(at))
        above = max(0.300 + float(rig.hand_arm) * math.sin(dip) - (0.255 + 0.230), 0.0)
        gap = max(0.8636 / 2 - 0.019 - out, out - 0.8636 / 2)  # negative within it: the way out to the nearer face
        away.append((gap if above == 0 else math.hypot(max(gap, 0.0), above)) - 0.045)
    assert (min(away) < 0) == (finding.level == "fails") == ("strike" in finding.text)
    assert _value(finding, "clear") == pytest.approx(abs(min(away)), abs=1e-9)
    assert math.radians(60) < _value(finding, "at") <= float(made.stroke.catch_angle)
    short = design(_with(made.inputs, catch_limit=_value(finding, "at") - math.radians(12)))
    assert _of(short, "rail") is None


def test_a_fist_deep_in_the_rail_is_told_so():
    """The further the hand would go into the rail the worse the number, half a fist and the depth together."""
    sides = Sides(rail_inner=0.40, rail_outer=0.46, rail_top=0.25, pin=0.43, lock_above_water=0.3,
                  bracket_half_length=0.05)  # fmt: skip
    depths = np.array([0.25, 0.24, 0.23])
    hand = Place(x=np.full(3, -0.5), y=np.full(3, 0.43), z=depths)
    assert side_clearance(hand, sides) == pytest.approx([-0.045, -0.055, -0.065])


# Heights


@pytest.mark.parametrize("lock", [0.25, 0.42])
def test_locks_moved_as_advised_bring_the_hands_to_an_easy_height(lock):
    """Locks higher or lower by the move put the hand on the end of the easy range that was nearest."""
    inputs = example_project("quillet").inputs
    body = replace(inputs.rower.body, elbow_height=Size(value=0.238 if lock > 0.3 else 0.30, spread=0.0, measured=True))
    inputs = replace(inputs, rower=replace(inputs.rower, body=body))
    made = design(_with(inputs, lock_above_water=lock))
    finding = _of(made, "hand_height")
    way = 1 if "higher" in finding.text else -1
    moved = design(_with(inputs, lock_above_water=lock + way * _value(finding, "move")))
    limit = _value(finding, "low" if way > 0 else "high")
    assert float(moved.rig.hand_height_in_drive) == pytest.approx(limit, abs=1e-9)


STEEP = {
    "beam": 0.95, "lock_overhang": 0.05, "seat_above_water": 0.15, "lock_above_water": 0.42, "overlap": 0.1,
    "length": 2.1, "thigh_thickness": 0.15, "blade_length": 0.56, "blade_width": 0.13, "hands_apart": 0.06,
}  # fmt: skip


def _rig_findings(station):
    rig = rig_from_station(**station)
    found = rig_findings(rig, wave_clearance=0.10, blade_width=0.13, lock="feathering", upper_hand="left",
                         hands_apart=station["hands_apart"])  # fmt: skip
    return rig, {finding.code: finding for finding in found}


def test_what_a_cure_of_the_dip_costs_over_the_thighs():
    """The longer outboard, and the lower locks, leave over the thighs what is told, on a rig so changed."""
    _, found = _rig_findings(STEEP)
    dip = found["dip"]
    longer, lower = _value(dip, "longer"), _value(dip, "lower")
    lengthened, _ = _rig_findings({**STEEP, "length": STEEP["length"] + longer})
    lowered, _ = _rig_findings({**STEEP, "lock_above_water": STEEP["lock_above_water"] - lower})
    assert math.degrees(lengthened.dip_in_drive) == pytest.approx(20)
    assert math.degrees(lowered.dip_in_drive) == pytest.approx(20)
    for name, rig in (("longer", lengthened), ("lower", lowered)):
        said = "strike the thighs by" if rig.thigh_clearance < 0 else "leave"
        assert f"{said} {{{name}_leaves}}" in dip.text
        assert _value(dip, f"{name}_leaves") == pytest.approx(abs(rig.thigh_clearance))


def test_an_absurdly_longer_oar_is_no_cure():
    """Where the outboard would have to grow by more than a quarter of the oar only the locks are named."""
    _, found = _rig_findings({**STEEP, "lock_above_water": 0.62, "seat_above_water": 0.40})
    assert "longer" not in found["dip"].quantities
    assert "Locks {lower} lower" in found["dip"].text


NO_HEIGHT = [
    {"lock_above_water": 0.30, "thigh_thickness": 0.26},  # thighs against dip
    {"length": 2.4, "thigh_thickness": 0.32, "lock_above_water": 0.22, "seat_above_water": -0.06},  # against custom
    {"thigh_thickness": 0.10, "lock_above_water": 0.40, "seat_above_water": 0.30},  # custom against dip
]


def _heights(station, wave=0.10, feathered=False):
    """Least and greatest height over the seat, by moving the locks of a rig until thighs and dip are just kept."""

    def rig(lock):
        return rig_from_station(**{**station, "lock_above_water": lock}, wave_clearance=wave)

    def where(holds):  # the lock height at which it begins or ceases to hold
        low, high = -0.05, 0.62
        for _ in range(60):
            middle = (low + high) / 2
            low, high = (low, middle) if holds(rig(middle)) else (middle, high)
        return high - station["seat_above_water"]

    thighs = where(lambda r: (r.thigh_clearance_feathered if feathered else r.thigh_clearance) >= 0.025)
    dip = where(lambda r: math.degrees(r.dip_in_drive) >= 20)
    return max(thighs, 0.127), min(dip, 0.3048)


@pytest.mark.parametrize("change", NO_HEIGHT, ids=str)
@pytest.mark.parametrize("lock", ["feathering", "pinned"])
def test_no_height_of_the_locks(change, lock):
    """What is said to bring the two heights together does so on a rig so changed, and what is not said does not."""
    station = {**STEEP, **change}
    rig = rig_from_station(**station)
    found = {f.code: f for f in rig_findings(rig, wave_clearance=0.1, blade_width=0.13, lock=lock, upper_hand="left",
                                             hands_apart=0.06)}  # fmt: skip
    told = found["no_lock_height"]
    low, high = _heights(station)
    assert (_value(told, "low"), _value(told, "high")) == pytest.approx((low, high), abs=1e-6)  # halved 60 times
    near = 1e-6
    flat = _heights(station, feathered=True)
    assert ("a feathered blade" in told.text) == (lock == "feathering" and flat[0] <= flat[1])
    for name, done, most in (
        ("wave", lambda size: _heights(station, wave=size), 0.0),
        ("down", lambda size: _heights({**station, "seat_above_water": station["seat_above_water"] - size}), 0.15),
        ("on", lambda size: _heights({**station, "length": station["length"] + size}), 0.25 * station["length"]),
    ):
        size = _value(told, name) if name in told.quantities else most
        low, high = done(size)
        assert (low <= high + near) == (name in told.quantities), name
    over = rig.thigh_clearance < 0 or math.degrees(rig.dip_in_drive) > 20
    assert told.level == ("caution" if over else "note")


def test_a_height_of_the_locks_that_suits_needs_no_word():
    """A rig with room between the two is left alone, and so is one whose two heights meet to the millimetre."""
    assert "no_lock_height" not in _rig_findings({**STEEP, "lock_above_water": 0.30})[1]
    station = {**STEEP, "lock_above_water": 0.30, "thigh_thickness": 0.26}
    _, found = _rig_findings(station)
    assert _value(found["no_lock_height"], "low") - _value(found["no_lock_height"], "high") > 0.002


def test_one_lock_raised_keeps_the_fists_clear():
    """Quillet's crossed hands: the lock raised by what is told parts the hands by the height that is needed."""
    made = design(example_project("quillet").inputs)
    told = _of(made, "hands_pass")
    apart = _value(told, "offset") * (1 + float(made.rig.hand_arm) / float(made.rig.blade_arm))
    assert apart == pytest.approx(_value(told, "needs"))
    assert lock_offset(hands_apart=apart, blade_arm=made.rig.blade_arm, hand_arm=made.rig.hand_arm) == pytest.approx(
        _value(told, "offset")
    )


def test_lower_locks_that_would_strike_the_legs_say_so(changed):
    """Hands too high over bent knees: lowering the locks as far as is easy would strike, by what is told."""
    bent = ('# knee_flexion = "35 deg"', 'knee_flexion = "78 deg"')
    up = ('lock_above_rail = "45 mm"', 'lock_above_rail = "120 mm"')
    made = design(changed(bent, up).inputs)
    told = _of(made, "hand_height")
    assert "strike thighs or knees" in told.text
    down = f'lock_above_rail = "{120 - _value(told, "move") * 1e3:.6f} mm"'
    moved = design(changed(bent, ('lock_above_rail = "45 mm"', down)).inputs)
    assert -float(moved.stroke.legs.clearance) == pytest.approx(
        _value(told, "strikes"), abs=1e-3
    )  # the reach shifts a little


def test_one_height_of_the_locks_is_asked_for(changed):
    """Low locks under thick thighs: the thighs say by how much to raise them, custom then only that they are low."""
    made = design(changed(('seat_above_water = "77 mm"', 'seat_above_water = "180 mm"')).inputs)
    assert "change" not in _of(made, "lock_over_seat").quantities
    assert _value(_of(made, "thigh"), "lift") > 0


# The rig chosen


def test_a_chosen_overhang_wants_a_bracket():
    """Pins chosen outside the rails of a boat whose file has no bracket: said so, with how far out."""
    inputs = _with(example_project("quillet").inputs, lock_overhang=None, overlap=None, length=None)
    assert "stand on brackets" not in _of(design(inputs), "choice").text
    bare = design(replace(inputs, fixtures=replace(inputs.fixtures, bracket=None)))
    told = _of(bare, "choice")
    assert "the file has none, so none is checked" in told.text
    assert _value(told, "out") == pytest.approx((float(bare.rig.span) - 0.8636) / 2)  # as built, beam as in the file
    a_little = replace(bare.choice, chosen=replace(bare.choice.chosen, lock_overhang=0.010))
    (said,) = choice_findings(a_little, bare.own, left_open=("lock_overhang",), beam=0.9, bracket=False)
    assert _value(said, "out") == pytest.approx(0.010)
    given = design(replace(bare.inputs, station=replace(inputs.station, lock_overhang=0.12), left_open=()))
    assert "stand on brackets" not in _of(given, "choice").text


@pytest.mark.parametrize(
    ("beam", "said"), [(0.90, "custom crosses the handles"), (1.20, "custom keeps the handles side by side")]
)
def test_the_range_in_force_is_told(beam, said):
    """Where the overlap is left open the sentence tells which way custom goes at this span, and from which span."""
    told = _of(design(_with(example_project("quillet").inputs, beam=beam, lock_overhang=0.0, overlap=None)), "choice")
    assert said in told.text
    assert ("under {crossing}" in told.text) == (beam < 1.143)
    low, high = (0.050, 0.180) if beam < 1.143 else (0.025, 0.075)
    assert (_value(told, "least"), _value(told, "most")) == pytest.approx((low, high))
    assert _value(told, "crossing") == pytest.approx(45 * 0.0254)
    assert _value(told, "span") == pytest.approx(beam)


def test_the_rig_that_falls_short_says_of_what():
    """Oars stowed in 6 ft 6 in under steep locks: the limits that fight, with their numbers, and what is missed."""
    inputs = _with(example_project("quillet").inputs, overlap=None, length=None, longest_stowed=1.9812,
                   lock_above_water=0.375)  # fmt: skip
    made = design(inputs)
    told = _of(made, "nothing_fits")
    text = filled(told.text, told.quantities, "ft-in")
    assert "the longest oar that stows (6'-6\", as the file asks)" in text
    assert "the steepest dip (20.0°, by custom)" in text
    assert "At a span" not in text
    short = {name.removeprefix("short_"): told.quantities[name] for name in told.quantities if name[:6] == "short_"}
    rig, limits = (
        made.rig,
        {"longest_stowed": 1.9812, "dip_in_drive": math.radians(20)},
    )  # by the rig built, not the choice
    over = {"longest_stowed": float(rig.length), "dip_in_drive": float(rig.dip_in_drive)}
    for name, quantity in short.items():
        assert quantity.value == pytest.approx(over[name] - limits[name])
        assert quantity.up
    assert all(over[name] <= limits[name] + 1e-9 for name in limits if name not in short)


@pytest.mark.parametrize(("value", "shown"), [(0.0034, '3/16"'), (0.0001, '1/16"'), (3 * 0.0254 / 16, '3/16"')])
def test_what_gives_way_is_rounded_up(value, shown):
    """Giving way by what is read must be enough: 3.4 mm is more than 1/8 in, which is 3.175 mm."""
    quantity = Quantity(value=value, unit="m", up=True)
    assert both(quantity, "ft-in")[0] == shown
    assert both(Quantity(value=0.00341, unit="m", up=True))[0] == "3.5 mm"
    assert both(Quantity(value=math.radians(3.01), unit="rad", up=True))[0] == "3.1°"
    assert both(Quantity(value=0.1071, unit="1", up=True))[0] == "0.108"
    assert both(Quantity(value=0.0034, unit="m"))[0] == "3.4 mm"


@pytest.mark.parametrize(("limits", "said"), [
    ({"hand_height": (0.42, None)}, "(at least 420.0 mm as the file asks)"),
    ({"hand_height": (None, 0.20)}, "(at most 200.0 mm as the file asks)"),
    ({"overlap": (0.20, None), "longest_stowed": 1.9},
     "the overlap of the handles (at least 200.0 mm as the file asks)"),
    ({"overlap": (None, 0.06), "longest_stowed": 1.75},
     "(at least 50.0 mm by custom, at most 60.0 mm as the file asks)"),
    ({"leverage_ratio": (None, 2.35), "longest_stowed": 1.7},
     "(at least 2.300 by custom, at most 2.350 as the file asks)"),
    ({"leverage_ratio": (2.4, 2.5), "longest_stowed": 1.7}, "(2.400 to 2.500, as the file asks)"),
])  # fmt: skip
def test_no_number_is_put_into_the_files_mouth(limits, said):
    """Only ends that were told are the file's; one that custom does not have, or that follows from it, is not told."""
    stowed = limits.pop("longest_stowed", None)
    inputs = _with(example_project("quillet").inputs, overlap=None, length=None, longest_stowed=stowed)
    choice = design(replace(inputs, limits=Limits(**limits))).choice
    (name,) = limits
    words, quantities = limit_in_words(choice, name)
    assert said in filled(words, quantities)


def test_the_table_says_what_the_sentence_says(changed):
    """Where a limit is missed the table and the sentence print one number, rounded up alike."""
    free = (('length = "2286 mm"', ""), ('overlap = "152.4 mm"', ""))
    project = changed(*free, ('rail_above_water = "255 mm"', 'rail_above_water = "330 mm"'),
                      ('# longest_stowed = "2.4 m"', 'longest_stowed = "1981.2 mm"'))  # fmt: skip
    made = design(project.inputs)
    rig = made.rig
    text = filled(_of(made, "nothing_fits").text, _of(made, "nothing_fits").quantities)
    (limits,) = [block for block in blocks(project, made) if "limits" in block.title]
    (dip,) = [row for row in limits.rows if row[0] == "the steepest dip"]
    over = math.degrees(float(rig.dip_in_drive)) - 20
    printed = f"{math.ceil(over * 10 - 1e-6) / 10:.1f}°"
    assert dip[1] == f"short by {printed}"
    assert f"misses the steepest dip, by {printed}" in text


def test_feathering_is_laid_to_the_wave():
    """A wave that no square blade clears: the sentence names it, limits and table count the feathered blade."""
    inputs = _with(example_project("quillet").inputs, overlap=None, length=None, wave_clearance=0.26)
    made = design(inputs)
    assert made.choice.feathered
    assert "The wave decides" in _of(made, "choice").text
    assert made.choice.chosen.thigh_clearance < 0 < made.choice.chosen.thigh_clearance_feathered
    assert made.own.thigh_clearance_feathered == pytest.approx(float(made.rig.thigh_clearance_feathered))


def test_the_rig_of_the_file_is_measured_against_custom():
    """Quillet's handles cross by 6 in where custom aims at 4: 50.8 mm, one tolerance and a little."""
    made = design(example_project("quillet").inputs)
    assert made.own.strains["overlap"] == pytest.approx((0.1524 - 0.1016) / 0.050)
    told = _of(made, "choice")
    assert told.text.startswith("The rig of the file lies furthest from the customary aims")
    assert "custom crosses the handles" in told.text  # why the overlap would have come out as it would
    aims = {round(_value(told, f"own_is_{at}"), 4): round(_value(told, f"own_aim_{at}"), 4) for at in (1, 2)}
    assert aims[0.1524] == 0.1016
    elbow = float(made.inputs.rower.body.elbow_height.value)  # hands aim at 100 mm over it
    assert aims[round(float(made.rig.hand_height_in_drive), 4)] == pytest.approx(
        elbow + 0.100, abs=1e-4
    )  # rounded here
    apart = design(_with(example_project("tumblehod").inputs, overlap=-0.12))
    told = _of(apart, "choice")
    gaps = {round(_value(told, f"own_is_{at}"), 4): _value(told, f"own_aim_{at}") for at in (1, 2, 3)}
    assert gaps[0.12] == pytest.approx(0.050)


def test_a_rig_that_would_have_been_chosen_is_said_to_be_the_same():
    """Where the file's own overlap and length are what would come out, that is said, not told as another rig."""
    inputs = example_project("quillet").inputs
    found = design(_with(inputs, overlap=None, length=None)).choice.chosen
    told = _of(design(_with(inputs, overlap=found.overlap, length=found.length)), "choice")
    assert "would have come out the same" in told.text
    assert "a length of" not in told.text


def test_knees_that_are_the_nearer_are_told_beside_the_thighs():
    """A wave that thighs just clear and knees, higher by a millimetre, do not: both are told, the knees as struck."""
    made = design(_with(example_project("quillet").inputs, wave_clearance=0.2413))
    knees = float(made.stroke.legs.clearance)
    assert knees < 0 < float(made.rig.thigh_clearance)
    assert (_of(made, "thigh").level, _of(made, "knees").level) == ("caution", "fails")
    assert _value(_of(made, "knees"), "clear") == pytest.approx(-knees)


# The rower


def test_a_light_rower_is_told_that_the_hard_start_is_the_customary_one():
    """400 N a hand does not go by the rower: said below 60 kg, unless the force was told."""
    (found,) = force_findings(rower_mass=45.0, force=400.0, told=False)
    assert (_value(found, "force"), _value(found, "mass")) == (400.0, 45.0)
    assert force_findings(rower_mass=45.0, force=300.0, told=True) == []
    assert force_findings(rower_mass=60.0, force=400.0, told=False) == []
