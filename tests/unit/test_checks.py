"""Every check of every case: what is asked, what breaks, what is dented, what comes first, what was not made."""

from dataclasses import replace

import numpy as np
import pytest

from oarkit import design, example_project
from oarkit.oar.build import build_oar
from oarkit.strength import cases
from oarkit.strength.all_cases import WEAKEST, all_cases, hard_start_force, load_places, one_case
from oarkit.strength.checks import BLADE_PLATE, GLUE_STRENGTH, CheckInputs, every_check, least_in_rowing, not_checked
from oarkit.strength.told import CrewInputs, HoleInputs, LoadInputs
from oarkit.working import BadDesign

CREW = CrewInputs(boat_mass=45.0, boat_length=4.572, rower_mass=75.0, span=1.1049)
OAR = design(example_project("quillet").inputs).oars["port"]
CASES = all_cases(OAR, LoadInputs(), CREW)


def made(oar=OAR, known=CASES, **told):
    return every_check(oar, known, CheckInputs(**told))


def of(checks, case, what, part=None):
    return [check for check in checks if (check.case, check.what) == (case, what) and part in (None, check.part)]


class TestCases:
    def test_every_case_is_made_once_in_each_plane_it_has(self):
        names = [(case.name, case.plane) for case in CASES.made]
        assert len(set(names)) == len(names) == 16
        assert not CASES.not_made
        assert {name for name, plane in names if plane == "lateral"} == {
            "stepped on",
            WEAKEST,
            "push-off",
            "tip dragged",
        }

    def test_a_crab_wants_boat_and_rower_and_says_which_is_lacking(self):
        known = all_cases(OAR, LoadInputs(), CrewInputs(rower_mass=75.0, span=1.1))
        assert known.not_made == {"caught crab": "it needs boat mass and boat length"}

    @pytest.mark.parametrize(
        ("told", "case", "number", "expected"),
        [
            ({"hard_start": 300.0}, "hard start", 1, 300.0),
            ({"cruise": 90.0}, "cruise", 1, 90.0),
            ({"pry": 222.0}, "prying", 0, 222.0),
            ({"step_weight": 500.0}, "stepped on", 0, -500.0),
            ({"push_sideways": 33.0}, "push-off", 0, -33.0),
            ({"drag": 55.0}, "tip dragged", 0, 55.0),
        ],
    )
    def test_a_load_that_is_told_replaces_the_customary_one(self, told, case, number, expected):
        assert all_cases(OAR, LoadInputs(**told), CREW).named(case).forces[number] == pytest.approx(expected)

    def test_speeds_and_shares(self):
        """The crab's force goes with the speed, that of steering with its square; the proof load with its share."""
        one, two = (
            all_cases(OAR, LoadInputs(crab_speed=v, steer_speed=v, proof_share=s), CREW)
            for v, s in ((1.0, 1.1), (2.0, 1.4))
        )
        for name, grows in (("caught crab", 2.0), ("steering", 4.0), ("proof load", 1.4 / 1.1)):
            assert two.named(name).forces[0] / one.named(name).forces[0] == pytest.approx(grows)

    def test_a_foot_lands_450_mm_outboard_and_where_it_is_weakest(self):
        assert CASES.named("stepped on").places[0] == pytest.approx(0.62865 + 0.450)
        assert load_places(OAR.shape)[0] == pytest.approx(0.62865 + 0.450)
        ratios = [min(float(c.ratio) for c in made() if c.case == name) for name in ("stepped on", WEAKEST)]
        assert ratios[1] < ratios[0]

    def test_the_same_case_on_another_oar(self):
        thicker = build_oar(replace(OAR.shape, lock_diameter=0.050), OAR.pieces, OAR.leather)
        crab = one_case(thicker, CASES.named("caught crab"), LoadInputs(), CREW)
        assert abs(crab.forces[0]) > abs(CASES.named("caught crab").forces[0])  # stiffer: a larger bound

    def test_the_force_of_a_hard_start(self):
        assert hard_start_force(LoadInputs(), CrewInputs()) == 400.0
        assert hard_start_force(LoadInputs(), CrewInputs(rower_mass=80.0)) == 450.0
        assert hard_start_force(LoadInputs(hard_start=333.0), CrewInputs(rower_mass=80.0)) == 333.0
        for nonsense in (0.0, -1.0, np.nan, np.inf):
            with pytest.raises(BadDesign, match="hard start"):
                hard_start_force(LoadInputs(hard_start=nonsense), CrewInputs())


class TestWhatIsAsked:
    def test_a_proof_load_is_asked_for_as_much_less_as_it_exceeds_the_hard_start(self):
        (proof,) = of(made(wanted=1.5), "proof load", "bending", "loom")
        (start,) = of(made(wanted=1.5), "hard start", "bending", "loom")
        assert proof.asked == pytest.approx(1.5 / 1.25)
        assert proof.ratio == pytest.approx(float(start.ratio) / 1.25)
        assert bool(proof.ok) == bool(start.ok)

    def test_abuse_is_borne_from_one_and_well_borne_from_what_is_asked(self):
        ratio = float(of(made(), "caught crab", "bending", "loom")[0].ratio)
        for wanted, level in ((ratio * 0.99, "ok"), (ratio * 1.01, "caution")):
            (check,) = of(made(wanted=wanted), "caught crab", "bending", "loom")
            assert (check.level, bool(check.ok)) == (level, True)
        fast = all_cases(OAR, LoadInputs(crab_speed=1.8 * ratio * 1.01), CREW)
        (check,) = of(made(known=fast), "caught crab", "bending", "loom")
        assert (check.level, bool(check.ok)) == ("fails", False)

    def test_a_load_of_rowing_has_no_caution(self):
        ratio = float(of(made(), "hard start", "bending", "loom")[0].ratio)
        (check,) = of(made(wanted=ratio * 1.01), "hard start", "bending", "loom")
        assert (check.level, bool(check.ok)) == ("fails", False)

    def test_rowing_comes_first_then_by_margin_and_dents_last(self):
        checks = made(thole_diameter=0.019)
        kinds = [check.kind for check in checks]
        assert kinds == sorted(kinds, reverse=True)  # customary before abuse, which is backwards in the alphabet
        for kind in ("customary", "abuse"):
            group = [check for check in checks if check.kind == kind]
            breaks = [check for check in group if check.breaks]
            margins = [float(check.ratio) / float(check.asked) for check in breaks]
            assert margins == pytest.approx(sorted(margins))  # of even margins either may come first
            assert group[: len(breaks)] == breaks

    def test_the_least_ratio_of_rowing_leaves_proof_and_abuse_out(self):
        checks = made()
        least = least_in_rowing(checks)
        assert (least.case, least.what, least.part) == ("hard start", "bending", "loom")
        assert float(least.ratio) > min(float(check.ratio) for check in checks)


class TestChecks:
    def test_average_wood_bears_its_mean_strength(self):
        (check,) = of(made(), "hard start", "bending", "loom")
        loom = OAR.pieces[0].wood
        assert check.mean_ratio / check.ratio == pytest.approx(float(loom.mean_strength) / float(loom.strength))

    def test_the_blade_is_pressed_by_water_alone(self):
        """No plate under a hung weight, which lies on the spine."""
        pressed = {check.case for check in made() if check.what == BLADE_PLATE}
        assert pressed == {"cruise", "hard start", "caught crab", "steering"}

    def test_the_lock_is_pressed_by_what_is_pulled_in_it(self):
        """Not by thwarts or the rail, wherever they stand."""
        pressed = {check.case for check in made(thole_diameter=0.019) if check.what.startswith("bearing")}
        assert pressed == {"cruise", "hard start", "caught crab", "steering"}

    def test_a_cap_is_twisted_along_its_own_grain(self):
        """Laid across, it is sheared in the plane of the blade and not rolled: strength along the grain."""
        tip = OAR.pieces[2].wood
        assert tip.plate_shear_strength > 4 * tip.shear_strength
        long_cap = build_oar(OAR.shape, (*OAR.pieces[:2], replace(OAR.pieces[2], size=0.10)), OAR.leather)
        checks = made(long_cap, all_cases(long_cap, LoadInputs(), CREW))
        (cap,) = of(checks, "tip knocked", "torsion", "tip")
        assert cap.strength == pytest.approx(float(tip.plate_shear_strength))

    def test_fatigue_at_the_hole_is_that_share_and_so_is_its_mean(self):
        hole = HoleInputs(diameter=0.008)
        checks = made(hole=hole, fatigue_share=0.5)
        (tired,), (fresh,) = (of(checks, "cruise", f"{how} at the hole", "loom") for how in ("fatigue", "bending"))
        assert (tired.ratio, tired.mean_ratio) == pytest.approx((0.5 * fresh.ratio, 0.5 * fresh.mean_ratio))

    def test_an_oar_that_bows_out_of_itself_fails_as_a_column(self):
        """A loom of 1.5 GPa buckles under 350 N: that is its finding, and no note that it was not checked."""
        limp = replace(OAR.pieces[0], wood=replace(OAR.pieces[0].wood, modulus=1.5e9))
        oar = build_oar(OAR.shape, (limp, *OAR.pieces[1:]), OAR.leather)
        known = all_cases(oar, LoadInputs(), CREW)
        assert [case.name for case in known.buckled] == ["push-off", "push-off"]
        columns = of(made(oar, known), "push-off", "column")
        expected = [float(case.beside["buckling load"].value) / 350.0 for case in known.buckled]
        assert sorted(float(check.ratio) for check in columns) == pytest.approx(sorted(expected))
        assert {check.level for check in columns} == {"fails"}

    def test_a_proof_load_is_never_asked_for_less_than_to_hold(self):
        known = all_cases(OAR, LoadInputs(proof_share=2.0), CREW)
        (proof,) = of(made(known=known), "proof load", "bending", "loom")
        assert (proof.asked, bool(proof.ok)) == (1.0, float(proof.ratio) >= 1.0)

    def test_fatigue_is_that_share_of_the_strength(self):
        (tired,) = of(made(fatigue_share=0.5), "cruise", "fatigue", "loom")
        (fresh,) = of(made(fatigue_share=0.5), "cruise", "bending", "loom")
        assert tired.ratio == pytest.approx(0.5 * float(fresh.ratio))
        assert not of(made(), "cruise", "fatigue")

    def test_a_hole_counts_among_the_loads_of_rowing(self):
        hole = HoleInputs(diameter=0.008, along="bending direction")
        checks = made(hole=hole, fatigue_share=0.6)
        assert least_in_rowing(checks).what == "bending at the hole"
        assert of(checks, "cruise", "fatigue at the hole")

    def test_bearing_with_leather_is_half_that_without_and_only_dents(self):
        checks = made(thole_diameter=0.019)
        (bare,), (leather,) = (of(checks, "hard start", f"bearing{how}") for how in (", bare", " in leather"))
        start = CASES.named("hard start")
        pin = abs(float(start.forces[0] + start.forces[1]))  # blade and hand together
        assert bare.stress == pytest.approx(pin / (0.046 / 2 * 0.030))
        assert leather.stress == pytest.approx(float(bare.stress) / 2)
        assert not bare.breaks
        assert of(checks, "hard start", "bearing, bare on a thole")
        assert not of(made(), "hard start", "bearing, bare on a thole")

    def test_the_column_is_the_buckling_load_over_the_push(self):
        push = CASES.named("push-off")
        (column, _) = of(made(), "push-off", "column")
        assert column.ratio == pytest.approx(float(push.beside["buckling load"].value) / 350.0)

    def test_the_root_of_the_blade_bears_no_more_than_the_oar(self):
        for name in ("prying", "hard start"):
            (root,), (all_along,) = (
                of(made(), name, what, "loom") for what in ("bending at the blade root", "bending")
            )
            assert float(root.ratio) >= float(all_along.ratio)
            assert OAR.shape.blade_root - 1e-9 <= root.place <= OAR.shape.blade_root + 0.35 * OAR.shape.blade_length

    def test_a_glue_line_is_set_against_the_least_working_shear(self):
        ash = OAR.pieces[1].wood
        strip = replace(OAR.pieces[0], kind="strip", wood=ash, size=0.012)
        oar = build_oar(OAR.shape, (OAR.pieces[0], strip), OAR.leather)
        (glue,) = of(made(oar, all_cases(oar, LoadInputs(), CREW)), "hard start", "glue line")
        assert (glue.part, glue.strength) == ("strip", GLUE_STRENGTH)

    def test_what_the_tables_do_not_know_is_told_and_not_guessed(self):
        poor = replace(OAR.pieces[0], wood=replace(OAR.pieces[0].wood, shear_strength=None, bearing=None))
        oar = build_oar(OAR.shape, (poor, *OAR.pieces[1:]), OAR.leather)
        checks = made(oar, all_cases(oar, LoadInputs(), CREW))
        assert dict(not_checked(oar)) == {"shear": ("Spruce, Sitka",), "bearing": ("Spruce, Sitka",)}
        assert not [check for check in checks if check.what.startswith("bearing")]
        assert all(np.isfinite(float(check.ratio)) for check in checks)


def test_twice_the_stations_move_nothing_by_a_thousandth():
    """The least ratios of every case, the drops and the buckling load, on 201 and on 402 stations."""
    for name, crew in (("quillet", CREW), ("tumblehod", replace(CREW, boat_mass=90.0, span=1.2954))):
        oar = design(example_project(name).inputs).oars["port"]
        told = CheckInputs(fatigue_share=0.6, hole=HoleInputs(diameter=0.008))
        few, many = (
            build_oar(oar.shape, oar.pieces, oar.leather, count=count, marks=load_places(oar.shape))
            for count in (201, 402)
        )
        found = []
        for each in (few, many):
            checks = every_check(each, all_cases(each, LoadInputs(), crew), told)
            found.append({(c.case, c.plane, c.what, c.part): float(c.ratio) for c in checks if float(c.ratio) < 50})
        assert found[0].keys() == found[1].keys()
        for key, ratio in found[0].items():
            assert ratio == pytest.approx(found[1][key], rel=1e-3), key


def test_a_case_without_place_bends_nothing():
    knock = cases.tip_knocked(OAR)
    assert not [check for check in made() if check.case == knock.name and check.what.startswith("bending")]
