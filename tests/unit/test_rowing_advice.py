"""Advice on the stroke and on the rig chosen: what each finding proposes is done, and must bring what it promised."""

import math
from dataclasses import replace

import numpy as np
import pytest

from oarkit import design, example_project
from oarkit.rig.advice import rig_findings
from oarkit.rig.height import lock_offset
from oarkit.rig.station import rig_from_station
from oarkit.rower.body import Size
from oarkit.strength.hard_start import force_findings
from oarkit.stroke.clear import Sides, side_clearance
from oarkit.stroke.path import Place
from oarkit.units import filled


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


def test_an_inboard_longer_as_advised_makes_the_catch_sixty_degrees(changed):
    """Handles pushed further in, hands kept at their height by a blade arm that grows along, bring the reach to 60°."""
    made = design(changed(('stature = "1725 mm"', 'stature = "1960 mm"')).inputs)
    finding = _of(made, "far_catch")
    assert float(made.stroke.catch_angle) == pytest.approx(math.radians(65))  # counted from there, so it is said
    level = float(made.rig.hand_arm) * math.cos(float(made.rig.dip_in_drive)) + _value(finding, "longer")
    assert math.asin(float(made.seated.reach_catch) / level) == pytest.approx(math.radians(60))


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
    made = design(changed(tall, coaming, ('# catch_limit = "60 deg"', 'catch_limit = "79 deg"')).inputs)
    finding = _of(made, "rail")
    assert _value(finding, "clear") == pytest.approx(abs(float(made.stroke.sides.clearance)))
    assert finding.level == ("fails" if made.stroke.sides.clearance < 0 else "caution")
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


def test_no_height_of_the_locks():
    """Thick thighs want locks higher than a dip of 20° allows; a lower seat brings the two together."""
    station = {**STEEP, "lock_above_water": 0.30, "thigh_thickness": 0.26}
    rig, found = _rig_findings(station)
    told = found["no_lock_height"]
    low, high = _value(told, "low"), _value(told, "high")
    assert low > high
    over_seat = station["lock_above_water"] - station["seat_above_water"]
    raised, _ = _rig_findings({**station, "lock_above_water": station["lock_above_water"] + low - over_seat})
    assert raised.thigh_clearance == pytest.approx(0.025)
    top, _ = _rig_findings({**station, "lock_above_water": station["lock_above_water"] + high - over_seat})
    assert math.degrees(top.dip_in_drive) == pytest.approx(20)
    # A seat lower by one leaves high one more over it, and low only by lever/(1 + lever) more: thighs go down along.
    fall = (low - high) * (1 + rig.hand_arm / rig.blade_arm) + 1e-6
    lower_seat = {**station, "seat_above_water": station["seat_above_water"] - fall}
    assert "no_lock_height" not in _rig_findings(lower_seat)[1]
    assert rig.thigh_clearance < 0
    assert told.level == "caution"


def test_crossed_hands_that_brush():
    """Hands 60 mm apart brush, 90 mm fists; the lock raised by what is told parts them by a fist."""
    rig, found = _rig_findings({**STEEP, "lock_above_water": 0.30})
    told = found["hands_cross"]
    clear = lock_offset(hands_apart=0.090, blade_arm=rig.blade_arm, hand_arm=rig.hand_arm)
    assert _value(told, "clear") == pytest.approx(clear)
    assert "brush" in told.text
    assert "brush" not in _rig_findings({**STEEP, "hands_apart": 0.09})[1]["hands_cross"].text


# The rig chosen


def test_a_chosen_overhang_wants_a_bracket():
    """Pins chosen outside the rails of a boat whose file has no bracket: said so, with how far out."""
    inputs = _with(example_project("quillet").inputs, lock_overhang=None, overlap=None, length=None)
    assert "stand on brackets" not in _of(design(inputs), "choice").text
    bare = design(replace(inputs, fixtures=replace(inputs.fixtures, bracket=None)))
    told = _of(bare, "choice")
    assert "the file has none, so none is checked" in told.text
    assert _value(told, "out") == pytest.approx(bare.choice.chosen.lock_overhang)
    given = design(replace(bare.inputs, station=replace(inputs.station, lock_overhang=0.12), left_open=()))
    assert "stand on brackets" not in _of(given, "choice").text


@pytest.mark.parametrize(
    ("beam", "said"), [(0.90, "crosses the handles, with an overlap"), (1.20, "side by side, with a gap")]
)
def test_the_range_in_force_is_told(beam, said):
    """Where the overlap is left open the sentence tells which way custom goes at this span, and from which span."""
    told = _of(design(_with(example_project("quillet").inputs, beam=beam, lock_overhang=0.0, overlap=None)), "choice")
    assert said in told.text
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
    missed = {name for name, room in made.choice.chosen.slack.items() if room < -1e-9}
    assert {name.removeprefix("short_") for name in told.quantities if name.startswith("short_")} == missed
    for name in missed:
        assert _value(told, f"short_{name}") >= -made.choice.chosen.slack[name]


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
    assert told.text.startswith("The rig of the file lies off the customary aim")
    aims = {round(_value(told, f"own_is_{at}"), 4): round(_value(told, f"own_aim_{at}"), 4) for at in (1, 2)}
    assert aims[0.1524] == 0.1016


# The rower


def test_a_light_rower_is_told_that_the_hard_start_is_the_customary_one():
    """400 N a hand does not go by the rower: said below 60 kg, unless the force was told."""
    (found,) = force_findings(rower_mass=45.0, force=400.0, told=False)
    assert (_value(found, "force"), _value(found, "mass")) == (400.0, 45.0)
    assert force_findings(rower_mass=45.0, force=300.0, told=True) == []
    assert force_findings(rower_mass=60.0, force=400.0, told=False) == []
