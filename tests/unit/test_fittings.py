"""Bracket, thole pins, dock and seat: cases done in the head, arrays, and advice that holds when it is followed."""

import math
import re
from dataclasses import replace

import numpy as np
import pytest

from oarkit.rig.bolts import bolt_findings, bolt_stress, bolt_tension, couple_share, rail_bending
from oarkit.rig.bracket import BracketInputs, RailInputs, bracket_arm, bracket_loads, pin_height
from oarkit.rig.dock import dock_clearance, dock_findings
from oarkit.rig.fittings import FittingInputs, fitting_checks, fitting_findings, loads_of
from oarkit.rig.thole import TholeInputs
from oarkit.rower.seat import HeelTest, gm_from_heel, seat_findings
from oarkit.tables import grain_table, species_table, words
from oarkit.units import filled
from oarkit.wood.bearing import crushing_strength, washer_pressure
from oarkit.wood.board import Board, wood_of_board
from oarkit.wood.species import find_species
from oarkit.working import BadDesign, Working


def _wood(name: str) -> Board:
    return Board(species=find_species(name, species_table()))


ASH, CEDAR = _wood("white ash"), _wood("western redcedar")
RAIL = RailInputs(thickness=0.020, depth=0.048, board=ASH)
BRACKET = BracketInputs(bolts=2, bolt_diameter=0.008, bolt_spacing=0.16, bolt_axis="athwart", washer_diameter=0.040)
# Arms of 0.5 and 2.0 m: 400 N at the hand is 500 N at the pin, 125 N up and down.
SOUND = FittingInputs(
    hand_force=400.0, hand_arm=0.5, blade_arm=2.0, lock_overhang=0.12, lock_above_rail=0.040, vertical_share=0.25,
    grain_table=grain_table(), bracket=BRACKET, rail=RAIL,
)  # fmt: skip
PIN = TholeInputs(diameter=0.020, load_arm=0.030, hole_depth=0.040, board=ASH)
THOLES = replace(SOUND, bracket=None, rail=None, thole=PIN)


def _by_part(fittings):
    return {check.part: check for check in fitting_checks(fittings)}


def _by_code(findings):
    for finding in findings:
        assert set(re.findall(r"{(\w+)}", finding.text)) <= set(finding.quantities)
        assert all(np.isfinite(q.value) for q in finding.quantities.values())
        said = filled(finding.text, finding.quantities)
        assert finding.source
        assert "nan" not in said
        assert "{" not in said
    return {finding.code: finding for finding in findings}


def _followed(fittings, finding):
    """The fittings with every size that the finding asks for."""
    for said, record, name in (
        (r"ail {(size_\d)} thick", "rail", "thickness"),
        (r"ail {(size_\d)} deep", "rail", "depth"),
        (r"olts {(size_\d)} apart", "bracket", "bolt_spacing"),
        (r"olts of {(size_\d)}", "bracket", "bolt_diameter"),
        (r"ashers of {(size_\d)}", "bracket", "washer_diameter"),
        (r"root {(size_\d)} wide", "bracket", "root_width"),
        (r"pins of {(size_\d)}", "thole", "diameter"),
        (r"bearing {(size_\d)} above", "thole", "load_arm"),
        (r"hole {(size_\d)} deep", "thole", "hole_depth"),
    ):
        for gap in re.findall(said, finding.text):
            changed = replace(getattr(fittings, record), **{name: float(finding.quantities[gap].value)})
            fittings = replace(fittings, **{record: changed})
    return fittings


# Loads and stresses


def test_loads_athwart():
    """60 N m yaw, 32 N m pitch (40 mm and half of 48 over the bolts), 15 N m roll; bolts 160 mm apart."""
    loads = loads_of(SOUND)
    assert [loads.pin_force, loads.yaw, loads.pitch, loads.roll] == pytest.approx([500, 60, 32, 15])
    assert loads.bolt_shear == pytest.approx(math.hypot(32 / 0.16, 250))  # pitch and pin force
    assert loads.bolt_tension == pytest.approx(60 / 0.16 + 15 / 2 / 0.016)  # yaw; lever 2/3 of 24 mm


def test_loads_vertical():
    """The middle of a 20 mm rail lies 10 mm further from the pin; the bolts' heads are at the rail's top."""
    loads = loads_of(replace(SOUND, bracket=replace(BRACKET, bolt_axis="vertical")))
    assert [loads.yaw, loads.pitch, loads.roll] == pytest.approx([65, 20, 16.25])
    assert loads.bolt_shear == pytest.approx(math.hypot(65 / 0.16, 250))
    assert loads.bolt_tension == pytest.approx(20 / 0.16 + 16.25 / 2 / (0.010 * 2 / 3))


def test_pin_inside_the_rail():
    """Arms are lengths, whatever side the pin stands on."""
    assert bracket_arm(lock_overhang=-0.04, bolt_line=0.01) == pytest.approx(0.03)
    assert pin_height(lock_above_rail=-0.05, bolt_depth=0.02) == pytest.approx(0.03)


def test_stresses_of_a_bracket():
    """Every stress from the loads above, by hand."""
    found, loads = _by_part(SOUND), loads_of(SOUND)
    assert found["bolt hole"].stress == pytest.approx(loads.bolt_shear / (0.008 * 0.020))
    assert found["rail"].stress == pytest.approx(30 / (0.048 * 0.020**2 / 6))
    assert found["washer"].stress == pytest.approx(loads.bolt_tension / (math.pi / 4 * (0.040**2 - 0.008**2)))
    thread = 0.78 * math.pi / 4 * 0.008**2
    assert found["bolt shear"].stress == pytest.approx(loads.bolt_shear / thread)
    assert found["bolt tension"].stress == pytest.approx(loads.bolt_tension / thread)
    assert [found["bolt shear"].strength, found["bolt tension"].strength] == pytest.approx([126e6, 210e6])
    assert found["rail"].strength == wood_of_board(ASH, grain_table=grain_table()).strength
    for check in found.values():
        assert check.ratio == pytest.approx(check.strength / check.stress)


def test_vertical_bolts_bear_on_the_depth():
    """A vertical bolt lies in the whole depth of the rail, and its washer counts to the rail's edges only."""
    vertical = replace(SOUND, bracket=replace(BRACKET, bolt_axis="vertical"))
    found, loads = _by_part(vertical), loads_of(vertical)
    assert found["bolt hole"].stress == pytest.approx(loads.bolt_shear / (0.008 * 0.048))
    assert found["washer"].stress == pytest.approx(loads.bolt_tension / (math.pi / 4 * (0.020**2 - 0.008**2)))


def test_stresses_of_a_thole_pin():
    """500 N on one pin, 30 mm up: 15 N m in a pin of 20 mm, and 500 N on 20 by 40 mm of hole."""
    found = _by_part(THOLES)
    assert found["thole pin"].stress == pytest.approx(15 * 32 / (math.pi * 8e-6))
    assert found["thole hole"].stress == pytest.approx(0.625e6)
    assert "rail is not given" in found["thole hole"].note
    cedar = _by_part(replace(THOLES, rail=replace(RAIL, board=CEDAR)))["thole hole"]
    assert cedar.material == CEDAR.species.name
    assert cedar.strength < found["thole hole"].strength


def test_crushing_strength():
    """Ash 8,000 kPa at 12 %, 4,600 green, moisture point 24 %: at 15 % times (8/4.6)^(-3/12); COV 28 %."""
    at_12, green = ASH.species.compression_across_12, ASH.species.compression_across_green
    assert [at_12, green] == [8000e3, 4600e3]  # Wood Handbook FPL-GTR-282 (2021), Table 5-3a
    expected = at_12 * (at_12 / green) ** (-3 / 12) * (1 - 1.645 * 0.28)
    assert crushing_strength(ASH, work=Working()) == pytest.approx(expected)
    no_green = Board(species=replace(ASH.species, compression_across_green=None))
    assert crushing_strength(no_green, work=Working()) == pytest.approx(at_12 * 0.85 * (1 - 1.645 * 0.28))
    with pytest.raises(BadDesign, match="compression across"):
        crushing_strength(Board(species=replace(ASH.species, compression_across_12=None)), work=Working())


def test_arrays_equal_scalars():
    """A sweep of overhangs and rails gives what each gives alone, weakest first by its worst design."""
    overhang, thick = np.array([0.05, 0.12, 0.2])[:, None], np.array([0.016, 0.022])
    swept = fitting_checks(replace(SOUND, lock_overhang=overhang, rail=replace(RAIL, thickness=thick)))
    assert len(swept) == 5
    for check in swept:
        ratio = np.broadcast_to(check.ratio, (3, 2))
        for i, j in np.ndindex(3, 2):
            alone = replace(SOUND, lock_overhang=float(overhang[i, 0]), rail=replace(RAIL, thickness=float(thick[j])))
            assert ratio[i, j] == pytest.approx(float(_by_part(alone)[check.part].ratio), rel=1e-12)
    least = [float(np.min(check.ratio)) for check in swept]
    assert least == sorted(least)


def test_no_load_no_limit():
    """A pin over the bolts twists nothing: the ratio is endless, and no finding names it."""
    still = replace(SOUND, lock_overhang=0.0)
    assert _by_part(still)["rail"].ratio == math.inf
    told = _by_code(fitting_findings(still, wanted=1.5, loom_ratio=2.0))
    assert told["fitting_weakest"].text.startswith("Of the fittings, the wood around the bolts")
    assert "rail breaks" not in told["fitting_order"].text


def test_working_of_checks_is_in_the_glossary():
    """Every line of the working of checks and loads has its word, in its unit."""
    lines = [*loads_of(SOUND).working]
    root = replace(BRACKET, root_width=0.03, root_thickness=0.008, root_strength=210e6)
    for fittings in (replace(SOUND, bracket=root), THOLES):
        lines += [line for check in fitting_checks(fittings) for line in check.working]
    lines += dock_clearance(beam=0.8, overhang=0.1, underside=0.2, top=0.3, fender=0.1).working
    assert len({line.name for line in lines}) > 25
    for line in lines:
        assert words()[line.name].unit == line.result.unit


# What cannot be


def test_one_bolt():
    """One bolt is told in words, and nothing is divided by nought."""
    alone = replace(SOUND, bracket=replace(BRACKET, bolts=1))
    assert fitting_checks(alone) == ()
    assert _by_code(fitting_findings(alone, wanted=1.5))["one_bolt"].level == "fails"
    with pytest.raises(BadDesign, match="one bolt"):
        couple_share(moment=60.0, bolts=1, spacing=0.16)


def test_nothing_known_of_the_rail():
    """Without a rail a bracket earns one note; without the height of the lock too."""
    no_rail = fitting_findings(replace(SOUND, rail=None), wanted=1.5)
    assert [(f.code, f.level) for f in no_rail] == [("rail_unknown", "note")]
    no_height = _by_code(fitting_findings(replace(SOUND, lock_above_rail=None), wanted=1.5))
    assert "lock_height_unknown" in no_height
    assert "fitting_weakest" not in no_height


def test_no_fittings_no_findings():
    """A station with neither bracket nor thole pins is left alone."""
    bare = replace(SOUND, bracket=None)
    assert fitting_checks(bare) == ()
    assert fitting_findings(bare, wanted=1.5, loom_ratio=2.0) == []


def test_washer_no_wider_than_its_hole():
    """A washer must be wider than the hole."""
    with pytest.raises(BadDesign, match="presses on nothing"):
        washer_pressure(tension=100.0, washer=0.008, hole=0.008)


# Advice


@pytest.mark.parametrize(
    "weak",
    [
        replace(SOUND, bracket=replace(BRACKET, washer_diameter=None)),
        replace(SOUND, rail=replace(RAIL, thickness=0.011)),
        replace(SOUND, rail=replace(RAIL, thickness=0.012, depth=0.060, board=CEDAR)),
        replace(SOUND, bracket=replace(BRACKET, bolts=3, bolt_axis="vertical", bolt_diameter=0.005)),
        replace(SOUND, bracket=replace(BRACKET, root_width=0.012, root_thickness=0.008, root_strength=210e6)),
        replace(THOLES, thole=replace(PIN, diameter=0.014)),
        replace(THOLES, thole=replace(PIN, diameter=0.005)),  # wants more than three times that
        replace(THOLES, hand_force=700.0, thole=replace(PIN, hole_depth=0.006)),
    ],
)  # fmt: skip
def test_advice_followed(weak):
    """Sizes that are said to bring all to what is wanted do so; the level goes by the ratio; the sentence names it."""
    checks, wanted = fitting_checks(weak), 2.0
    assert float(checks[0].ratio) < wanted
    told = _by_code(fitting_findings(weak, wanted=wanted))["fitting_weakest"]
    assert told.level == ("caution" if float(checks[0].ratio) >= 1 else "fails")
    assert told.quantities["ratio"].value == pytest.approx(float(checks[0].ratio))
    assert "bring all of them to it" in told.text
    mended = _followed(weak, told)
    assert mended != weak
    assert float(fitting_checks(mended)[0].ratio) >= wanted


def test_plate_of_washers():
    """The plate advised has the area that the pull wants, in whole square centimetres, rounded up."""
    weak = replace(SOUND, bracket=replace(BRACKET, washer_diameter=None))
    told = _by_code(fitting_findings(weak, wanted=2.0))["fitting_weakest"]
    needed = 2.0 * loads_of(weak).bolt_tension / _by_part(weak)["washer"].strength
    assert needed <= told.quantities["area"].value <= needed * 1.03 + 1e-4
    assert told.quantities["washer"].value == pytest.approx(0.024)  # three bolt diameters, none given


def test_what_cannot_be_mended():
    """Where no size within reach does it, the sentence says so and does not promise."""
    poor = replace(SOUND, hand_force=4000.0, rail=replace(RAIL, board=CEDAR))
    told = _by_code(fitting_findings(poor, wanted=1.5))["fitting_weakest"]
    assert told.level == "fails"
    assert "bring all" not in told.text
    assert "closer to the bolts" in told.text


def test_enough_names_the_best_size():
    """Strong enough: the size that helps most by a tenth is named with what it brings (a pin's cube: 1.331)."""
    told = _by_code(fitting_findings(THOLES, wanted=1.5))["fitting_weakest"]
    assert told.level == "note"
    assert told.quantities["size"].value == pytest.approx(0.022)
    assert told.quantities["better"].value / told.quantities["ratio"].value == pytest.approx(1.331)


def test_order_of_breaking():
    """Pin before loom is a fuse, loom before pin names the pin that would be one; a rail before the loom is bad."""
    ratio = float(_by_part(THOLES)["thole pin"].ratio)
    fuse = _by_code(fitting_findings(THOLES, wanted=1.5, loom_ratio=ratio * 1.1))["fitting_order"]
    assert "fuse" in fuse.text
    assert fuse.quantities["fitting"].value == pytest.approx(400 * ratio)
    strong = _by_code(fitting_findings(THOLES, wanted=1.5, loom_ratio=ratio / 1.331))["fitting_order"]
    assert strong.text.startswith("The loom breaks before")
    assert strong.quantities["fuse"].value == pytest.approx(0.020 / 1.1)
    rail = replace(SOUND, rail=replace(RAIL, thickness=0.011))
    order = _by_code(fitting_findings(rail, wanted=2.5, loom_ratio=5.0))["fitting_order"]
    assert order.level == "caution"
    assert order.text.startswith("The rail breaks before the loom")


def test_clamp_block_for_a_weak_rail():
    """A block is advised where the rail is the weakest, and only there."""
    thin = replace(SOUND, rail=replace(RAIL, thickness=0.010), bracket=replace(BRACKET, washer_diameter=0.048))
    assert fitting_checks(thin)[0].part == "rail"
    assert "clamp_block" in _by_code(fitting_findings(thin, wanted=1.5))
    assert "clamp_block" not in _by_code(fitting_findings(THOLES, wanted=1.5))


def test_root_section_that_is_needed():
    """Bars of the sizes named stand the ratio wanted."""
    told = _by_code(fitting_findings(SOUND, wanted=1.6))["bracket_root"]
    square, rod = (float(told.quantities[name].value) for name in ("square", "round"))
    assert 210e6 / (60 / (square**3 / 6)) == pytest.approx(1.6)
    assert 210e6 / (60 / (math.pi * rod**3 / 32)) == pytest.approx(1.6)
    flat = replace(SOUND, bracket=replace(BRACKET, root_thickness=0.006, root_strength=150e6))
    wide = float(_by_code(fitting_findings(flat, wanted=1.6))["bracket_root"].quantities["wide"].value)
    full = replace(flat, bracket=replace(flat.bracket, root_width=wide))
    assert _by_part(full)["bracket root"].ratio == pytest.approx(1.6)
    assert "bracket_root" not in _by_code(fitting_findings(full, wanted=1.6))


@pytest.mark.parametrize(
    ("face", "code", "level"),
    [(0.015, "hole", "fails"), (0.020, "edge", "caution"), (0.040, "edge", "note"), (0.070, None, None)],
)
def test_bolts_in_a_rail(face, code, level):
    """An 8 mm bolt: over half of 15 mm; under 1.5 diameters from the edge of 20; under 4 of 40; well in 70."""
    found = _by_code(bolt_findings(bolts=2, diameter=0.008, spacing=0.15, face=face, athwart=True))
    assert set(found) == {"one_line", code} - {None}
    assert code is None or found[code].level == level


def test_bolts_close_and_washers_wide():
    """Bolts nearer than four diameters, washers wider than the rail, and a thole pin that fills it."""
    found = _by_code(bolt_findings(bolts=3, diameter=0.010, spacing=0.03, face=0.09, athwart=False, washer=0.1))
    assert set(found) == {"one_line", "bolts_close", "washer_wide"}
    pins = replace(THOLES, rail=RAIL)
    assert "hole" in _by_code(fitting_findings(pins, wanted=1.5))


def test_findings_differ_between_boats():
    """Two boats, two texts."""
    texts = {
        filled(f.text, f.quantities)
        for fittings in (SOUND, replace(SOUND, rail=replace(RAIL, board=CEDAR)), THOLES)
        for f in fitting_findings(fittings, wanted=1.5, loom_ratio=2.0)
        if f.code in {"fitting_weakest", "fitting_order"}
    }
    assert len(texts) == 6


# Dock


def test_dock_by_hand():
    """Pins 120 mm out reach 145; a heel of 30 degrees on a span of 1.2 m lifts a lock 300 mm."""
    found = dock_clearance(
        beam=0.96, overhang=0.12, underside=0.55, top=0.62, fender=0.20, flare_run=0.03, heel=math.radians(30)
    )
    assert [found.tip_reach, found.heel_lift, found.gap] == pytest.approx([0.145, 0.3, 0.025])
    assert [found.low_dock, found.high_dock, found.fender_needed] == pytest.approx([0.15, 1.02, 0.175])
    assert found.width == pytest.approx(1.25)


@pytest.mark.parametrize(
    ("height", "fender", "level", "said"),
    [
        (None, None, "note", "lower than {low}"), (None, 0.20, "note", "stay {gap} off"),
        (0.30, None, "caution", "catches"), (0.30, 0.10, "caution", "{gap} over the dock"),
        (0.04, None, "note", "pass over"), (0.80, None, "note", "pass under"),
    ],
)  # fmt: skip
def test_dock_findings(height, fender, level, said):
    """A dock between the safe heights is a caution, any other a note."""
    clear = dock_clearance(beam=0.96, overhang=0.12, underside=0.25, top=0.32, fender=fender)
    dock = _by_code(dock_findings(clear, dock_height=height))["dock"]
    assert dock.level == level
    assert said in dock.text


def test_no_dock_low_enough():
    """Brackets near the water pass over no dock, and nothing negative is named."""
    clear = dock_clearance(beam=0.96, overhang=0.12, underside=0.10, top=0.17)
    assert clear.low_dock < 0
    assert "{low}" not in _by_code(dock_findings(clear))["dock"].text


def test_boarding_from_a_bank():
    """Over 150 mm is too far to step; pins within the rail stand in nobody's way."""
    far = _by_code(dock_findings(dock_clearance(beam=0.9, overhang=0.16, underside=0.2, top=0.3)))
    assert far["boarding"].level == "caution"
    near = _by_code(dock_findings(dock_clearance(beam=0.9, overhang=0.14, underside=0.2, top=0.3)))
    assert near["boarding"].level == "note"
    assert dock_findings(dock_clearance(beam=1.3, overhang=-0.04, underside=0.2, top=0.3)) == []


# Seat


def test_seat_and_a_heel_test():
    """Half the weight afloat on the seat: 25 mm cost 12.5. 5 kg 0.42 m out on 105 kg heeled to 1 in 10: GM 200 mm."""
    test = HeelTest(weight=5.0, offset=0.42, angle=math.atan(0.1))
    seat = _by_code(
        seat_findings(rower_mass=50, boat_mass=50, hand_force=300, half_beam=0.45, test=test, brace_length=0.4)
    )
    height = seat["seat_height"]
    assert [height.quantities[k].value for k in ("lost", "gm", "share")] == pytest.approx([0.0125, 0.2, 0.0625])
    assert height.level == "note"
    assert [seat["brace"].quantities[k].value for k in ("force", "moment")] == pytest.approx([600, 60])


def test_seat_of_a_tender_boat():
    """Over a tenth of the GM is a caution that says how much a tenth would be; more than all of it fails."""
    tender = {"rower_mass": 50, "boat_mass": 50, "hand_force": 300, "half_beam": 0.45}
    test = HeelTest(weight=5.0, offset=0.42, angle=math.atan(0.2))  # GM 100 mm
    much = _by_code(seat_findings(**tender, test=test))["seat_height"]
    assert much.level == "caution"
    assert much.quantities["most"].value == pytest.approx(0.020)
    assert _by_code(seat_findings(**tender, test=test, rise=0.25))["seat_height"].level == "fails"


def test_how_to_do_a_heel_test():
    """Without a test the sentence says how, and what two angles would mean; nothing is guessed."""
    told = _by_code(seat_findings(rower_mass=60, boat_mass=40, hand_force=400, half_beam=0.42))["seat_height"]
    assert "plumb bob" in told.text
    slight, plain = (float(told.quantities[f"gm_{name}"].value) for name in ("slight", "plain"))
    assert slight == pytest.approx(5 * 0.42 / 105 / math.tan(math.radians(2)))
    assert plain == pytest.approx(5 * 0.42 / 105 / math.tan(math.radians(8)))


@pytest.mark.parametrize("angle", [0.0, -0.1, math.pi / 2])
def test_no_heel_says_nothing(angle):
    """A boat that did not heel, or lies on her side, gives no GM."""
    with pytest.raises(BadDesign, match="says nothing"):
        gm_from_heel(weight=5, offset=0.4, total_mass=120, angle=angle)


def test_formulas_take_arrays():
    """Formulas give arrays of what they give alone."""
    force = np.array([100.0, 300.0])
    assert bolt_stress(force=force, diameter=0.008)[1] == bolt_stress(force=300.0, diameter=0.008)
    assert couple_share(moment=force, bolts=3, spacing=0.1)[0] == couple_share(moment=100.0, bolts=3, spacing=0.1)
    assert bolt_tension(couple=force, roll=10.0, bolts=2, lever=0.01).shape == (2,)
    assert rail_bending(yaw=force, thickness=0.02, depth=0.04).shape == (2,)
    swept = bracket_loads(
        BRACKET, RAIL, hand_force=force, hand_arm=0.5, blade_arm=2.0, lock_overhang=0.1, lock_above_rail=0.04
    )
    assert swept.bolt_tension.shape == (2,)
