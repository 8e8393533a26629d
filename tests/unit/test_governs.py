"""What governs and what would help, in sentences: each number is worked again on the oar it speaks of."""

from dataclasses import replace

import numpy as np
import pytest

from oarkit import design, example_project
from oarkit.oar.build import Leather, Piece, build_oar
from oarkit.oar.measured import MeasuredShape, Station
from oarkit.oar.planed import PlanedShape, zones
from oarkit.roster import read_roster
from oarkit.strength.account import note_loads
from oarkit.strength.all_cases import all_cases
from oarkit.strength.checks import CheckInputs, every_check, least_in_rowing
from oarkit.strength.cures import cure_of
from oarkit.strength.governs import governing_findings
from oarkit.strength.hard_start import checks as hard_start_checks
from oarkit.strength.told import CrewInputs, HoleInputs, LoadInputs
from oarkit.tables import data_folder
from oarkit.units import filled
from oarkit.working import Working

QUILLET = CrewInputs(boat_mass=45.0, boat_length=4.572, rower_mass=75.0, span=1.1049)
TUMBLEHOD = CrewInputs(
    boat_mass=90.0, boat_length=3.3528, rower_mass=85.0, span=1.2954, water_density=1025.0, thole_diameter=0.019
)
OARS = {name: design(example_project(name).inputs).oars["port"] for name in ("quillet", "tumblehod")}


def found(oar, crew, loads=LoadInputs(), **told):
    known = all_cases(oar, loads, crew)
    wanted = CheckInputs(thole_diameter=crew.thole_diameter, **told)
    made = every_check(oar, known, wanted)
    findings = governing_findings(oar, known, made, wanted, loads, crew)
    return {finding.code: finding for finding in findings}, known, made


class TestWhatGoverns:
    def test_it_is_the_least_ratio_of_rowing(self):
        told, _, made = found(OARS["quillet"], QUILLET)
        assert told["governs"].quantities["ratio"].value == least_in_rowing(made).ratio
        text = filled(told["governs"].text, told["governs"].quantities)
        assert "the hard start governs: bending of the loom (Spruce, Sitka) 628.7 mm from the handle end" in text

    def test_a_hole_takes_over(self):
        hole = HoleInputs(diameter=0.008, along="bending direction")
        told, _, _ = found(OARS["quillet"], QUILLET, hole=hole)
        assert "bending at the hole" in told["governs"].text

    def test_the_sentences_differ_from_oar_to_oar(self):
        texts = [
            filled(told.text, told.quantities)
            for oar, crew in ((OARS["quillet"], QUILLET), (OARS["tumblehod"], TUMBLEHOD))
            for told in [found(oar, crew)[0]["governs"]]
        ]
        assert texts[0] != texts[1]

    def test_each_bench_of_the_class_has_its_own_sentence(self):
        """Eight boats, bodies and pairs of boards: what governs and what helps is told in their own numbers."""
        texts = set()
        for project in read_roster(data_folder() / "roster.csv").values():
            (told,) = (
                f for f in design(project.inputs).oar.findings if f.code == "governs" and "Starboard" not in f.text
            )
            texts.add(filled(told.text, told.quantities))
        assert len(texts) == 8


class TestCure:
    @pytest.mark.parametrize(("name", "crew"), [("quillet", QUILLET), ("tumblehod", TUMBLEHOD)])
    def test_the_size_it_names_does_what_it_says(self, name, crew):
        """A millimetre left on where the sentence says, on an oar built anew, and its mass on the scales."""
        oar = OARS[name]
        known = all_cases(oar, LoadInputs(), crew)
        worst = least_in_rowing(every_check(oar, known))
        text, quantities = cure_of(oar, worst, known, LoadInputs(), crew)
        assert "more diameter of the lock" in text
        lock = next(zone for zone in zones(oar.shape) if zone.name == "lock")
        thicker = PlanedShape(base=oar.shape, thickness=-0.001, width=-0.001, start=lock.start, stop=lock.stop)
        changed = build_oar(thicker, oar.pieces, oar.leather)
        ratio = hard_start_checks(changed, force=400.0 if name == "quillet" else 450.0, wanted=1.5)[0].ratio
        assert quantities["a_ratio"].value == pytest.approx(float(ratio), rel=1e-3)  # 201 stations there, 375 here
        heavier = changed.integral(changed.laminate.mass_per_length) - oar.integral(oar.laminate.mass_per_length)
        assert quantities["a_mass"].value == pytest.approx(float(heavier), abs=5e-5)  # kg; printed to the gram

    def test_nothing_else_of_the_usual_sizes_does_more_for_its_weight(self):
        oar = OARS["quillet"]
        known = all_cases(oar, LoadInputs(), QUILLET)
        worst = least_in_rowing(every_check(oar, known))
        _, quantities = cure_of(oar, worst, known, LoadInputs(), QUILLET)
        gain = quantities["a_ratio"].value - float(worst.ratio)
        best = gain / quantities["a_mass"].value
        bare = oar.integral(oar.laminate.mass_per_length)
        for zone in zones(oar.shape):
            for size in zone.plane:
                sizes = ("thickness", "width") if size == "diameter" else (size,)
                thicker = PlanedShape(base=oar.shape, **dict.fromkeys(sizes, -0.001), start=zone.start, stop=zone.stop)
                changed = build_oar(thicker, oar.pieces, oar.leather)
                ratio = hard_start_checks(changed, force=400.0, wanted=1.5)[0].ratio
                heavier = changed.integral(changed.laminate.mass_per_length) - bare
                assert (float(ratio) - float(worst.ratio)) / heavier <= best * 1.01


class TestAbuse:
    def test_each_kind_is_told_once_with_its_own_level(self):
        told, _, made = found(OARS["quillet"], QUILLET)
        for check in made:
            code = check.case.replace(" ", "_").replace("-", "_")
            if check.kind == "abuse" and check.breaks and check.level != "ok":
                worst = min(float(c.ratio) for c in made if c.case == check.case and c.breaks)
                assert told[code].level == ("fails" if worst < 1 else "caution")
                assert told[code].quantities["ratio"].value == pytest.approx(worst)

    def test_the_crab_tells_what_open_water_holds(self):
        """½ ρ C A v² with C = 2 (Wood of the reference: a flat plate across a stream), the blade's area by hand."""
        told, known, _ = found(OARS["quillet"], QUILLET)
        held = told["caught_crab"].quantities["held"].value
        width = OARS["quillet"].profile.width
        on = OARS["quillet"].middle > OARS["quillet"].shape.blade_root
        area = float((OARS["quillet"].weight * width * on).sum())
        assert held == pytest.approx(0.5 * 1000 * 2.0 * area * 1.8**2, rel=1e-9)
        assert told["caught_crab"].quantities["force"].value == abs(known.named("caught crab").forces[0])

    def test_a_plain_softwood_tip_fails_and_a_cap_across_mends_it(self):
        """The verdict on the tip's corner turns when hardwood is laid across the tip."""
        loom, edge, tip = OARS["quillet"].pieces
        ratios = {}
        for name, pieces in {"plain": (loom,), "capped": (loom, edge, tip)}.items():
            oar = build_oar(OARS["quillet"].shape, pieces, OARS["quillet"].leather)
            made = every_check(oar, all_cases(oar, LoadInputs(), QUILLET))
            ratios[name] = min(float(c.ratio) for c in made if c.what == "tip corner")
        assert ratios["plain"] < 1 < ratios["capped"]


class TestTheRest:
    def test_far_off_ways_to_fail_are_far_off(self):
        told, _, made = found(OARS["tumblehod"], TUMBLEHOD, fatigue_share=0.6)
        far = told["far_off"].quantities["far"].value
        assert far >= 4.0
        assert far in [check.ratio for check in made]

    def test_bare_wood_on_a_thole(self):
        told, _, _ = found(OARS["tumblehod"], TUMBLEHOD)
        assert "thole" in told["bearing"].text
        bare, leather = (told["bearing"].quantities[key].value for key in ("bare", "leathered"))
        assert bare == pytest.approx(2 * leather)

    def test_a_pinned_lock_is_told_what_a_hole_would_cost(self):
        plain, _, _ = found(OARS["quillet"], QUILLET)
        pinned, _, _ = found(OARS["quillet"], replace(QUILLET, lock="pinned"))
        assert "hole" not in plain
        assert "If its pin goes through the loom, a hole of {hole} drilled upright" in pinned["hole"].text

    def test_a_hole_fore_and_aft_is_told_to_be_drilled_upright(self):
        told, _, _ = found(OARS["quillet"], QUILLET, hole=HoleInputs(diameter=0.010, along="bending direction"))
        assert "Drill it upright." in told["hole"].text
        assert told["hole"].quantities["rise"].value > told["hole"].quantities["other"].value

    def test_shares_of_the_drop(self):
        """Unit load integrated by the trapezoid rule, written out here: M²/(E I) outboard and inboard."""
        oar = OARS["quillet"]
        told, _, _ = found(oar, QUILLET)
        parts = told["service"].quantities
        pin, mid, hand = (float(x) for x in (oar.shape.inboard, oar.shape.mid_blade, oar.shape.grip_centre))
        moment = np.interp(oar.s, [hand, pin, mid], [0.0, mid - pin, 0.0], left=0.0, right=0.0)
        per = moment**2 / oar.laminate.bending_stiffness
        outboard, inboard = (np.trapezoid(np.where(on, per, 0.0), oar.s) for on in (oar.middle > pin, oar.middle < pin))
        assert parts["out"].value / parts["in"].value == pytest.approx(outboard / inboard, rel=1e-3)
        assert 0 < parts["shear"].value < 0.02  # under 1 % or so, as shear is in a slender beam

    def test_lag_and_turn_of_an_even_bar(self):
        """Overhanging beam, textbook: P a²(L + a)/(3 E I) at its end, P a(2 L + 3 a)/(6 E I) there; 2 % for shear."""
        wood = OARS["quillet"].pieces[0].wood
        side, length, inboard, hand, blade = 0.040, 2.2, 0.6, 0.06, 0.4
        even = {"thickness": side, "width": side}
        shape = MeasuredShape(
            stations=(
                Station(s=0.0, form="square", corner=0.0, **even),
                Station(s=length - blade, form="square", corner=0.0, **even),
                Station(s=length - blade, form="blade", edge=side, **even),
                Station(s=length, form="blade", edge=side, **even),
            ),
            inboard=inboard, grip_centre=hand, leather_start=0.5, leather_length=0.25,
        )  # fmt: skip
        oar = build_oar(shape, [Piece(kind="loom", wood=wood)], Leather(mass=0.0))
        told, known, made = found(oar, QUILLET)
        arm, back, stiffness = length - blade / 2 - inboard, inboard - hand, float(wood.modulus) * side**4 / 12
        load = 400.0 * back / arm
        parts = told["service"].quantities
        lag, turn = load * arm**2 * (back + arm) / (3 * stiffness), load * arm * (2 * back + 3 * arm) / (6 * stiffness)
        assert parts["lag"].value == pytest.approx(lag, rel=0.02)
        assert parts["turn"].value == pytest.approx(turn, rel=0.02)
        work = Working()
        note_loads(work, oar, known, made, prefix="")
        values = {line.name: float(line.result.value) for line in work.lines}
        ten = 98.0665 / load
        assert values["oar.tip_slope"] == pytest.approx(turn * ten, rel=0.02)
        assert values["oar.tip_drop"] == pytest.approx((lag + turn * blade / 2) * ten, rel=0.02)
        assert values["oar.service_lag"] == pytest.approx(lag, rel=0.02)
        assert values["oar.service_turn"] == pytest.approx(turn, rel=0.02)
        abused = [float(check.ratio) for check in made if check.kind == "abuse" and check.breaks]
        assert values["strength.least_abuse_ratio"] == pytest.approx(min(abused))
        torque = 0.015 * load + 3.0
        twist = torque * (length - blade - inboard) / (float(wood.shear_modulus) * 0.1406 * side**4)
        assert values["oar.service_twist"] == pytest.approx(twist, rel=0.02)  # a square's stiffness is 1.6 % out

    def test_the_tip_is_told_by_what_is_asked(self):
        """Between 1 and the ratio asked it is a caution, at or over it a note."""
        ratio = float(found(OARS["quillet"], QUILLET)[0]["tip_corner"].quantities["ratio"].value)
        for wanted, level in ((ratio * 0.99, "note"), (ratio * 1.01, "caution")):
            assert found(OARS["quillet"], QUILLET, wanted=wanted)[0]["tip_corner"].level == level

    def test_the_sentence_on_what_governs_ends_in_what_helps(self):
        told, _, _ = found(OARS["quillet"], QUILLET)
        assert "What would raise it most for its weight: {a_by} more diameter of the lock" in told["governs"].text

    @pytest.mark.parametrize("along", ["bending direction", "neutral axis"])
    def test_the_hole_is_told_as_it_is_checked(self, along):
        told, _, made = found(OARS["quillet"], QUILLET, hole=HoleInputs(diameter=0.010, along=along))
        at_hole = [float(c.ratio) for c in made if (c.case, c.what) == ("hard start", "bending at the hole")]
        assert told["hole"].quantities["ratio"].value == pytest.approx(min(at_hole))

    @pytest.mark.parametrize(
        ("told", "loads", "what"),
        [
            ({"hole": HoleInputs(diameter=0.010)}, LoadInputs(), "bending at the hole"),
            ({"fatigue_share": 0.6}, LoadInputs(cruise=500.0), "fatigue"),
        ],
    )
    def test_what_would_help_is_worked_on_what_governs(self, told, loads, what):
        """The lock a millimetre thicker, built anew and checked whole: the ratio that the sentence gives."""
        oar = OARS["quillet"]
        known = all_cases(oar, loads, QUILLET)
        wanted = CheckInputs(**told)
        worst = least_in_rowing(every_check(oar, known, wanted))
        assert worst.what == what
        _, quantities = cure_of(oar, worst, known, loads, QUILLET, wanted)
        lock = next(zone for zone in zones(oar.shape) if zone.name == "lock")
        thicker = PlanedShape(base=oar.shape, thickness=-0.001, width=-0.001, start=lock.start, stop=lock.stop)
        changed = build_oar(thicker, oar.pieces, oar.leather)
        again = every_check(changed, all_cases(changed, loads, QUILLET), wanted)
        ratio = min(float(check.ratio) for check in again if (check.case, check.what) == (worst.case, what))
        assert quantities["a_ratio"].value == pytest.approx(ratio, rel=1e-3)  # on 201 stations there

    def test_what_could_not_be_checked_is_said(self):
        told, _, _ = found(OARS["quillet"], CrewInputs())
        assert "caught crab: it needs boat mass" in told["not_checked"].text

    def test_an_oar_that_sinks(self):
        heavy = replace(OARS["quillet"].pieces[0], wood=replace(OARS["quillet"].pieces[0].wood, density=1250.0))
        oar = build_oar(OARS["quillet"].shape, (heavy,), OARS["quillet"].leather)
        told, _, _ = found(oar, QUILLET)
        assert told["adrift"].level == "caution"
        assert "it is lost" in told["adrift"].text
