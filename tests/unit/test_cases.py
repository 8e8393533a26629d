"""The load cases: in balance whatever their sizes, the same for arrays as for numbers, refused in words."""

from dataclasses import fields, replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oarkit import design, example_project
from oarkit.oar.build import build_oar
from oarkit.strength import abuse, cases
from oarkit.strength.beam import bent_shape, deflection_at, in_service, moment_along, shear_along, slope_at
from oarkit.strength.crab import caught_crab
from oarkit.strength.hard_start import moment_along as hard_start_moment
from oarkit.working import BadDesign

OAR = design(example_project("quillet").inputs).oars["port"]

# The example by its drawing: the hand 60 mm from the handle end, the pin 628.65, mid-blade 2006.6, the tip 2286 mm.
GRIP, LOCK, MIDDLE, TIP = 0.06, 0.62865, 2.0066, 2.286
HAND, BLADE = LOCK - GRIP, MIDDLE - LOCK


def crab(oar, **given):
    return caught_crab(oar, **{"boat_mass": 45.0, "length_overall": 4.572, "rower_mass": 75.0, "span": 1.1049} | given)


def every(oar) -> list:
    """All cases at their customary sizes."""
    return [
        cases.cruise(oar), cases.hard_start(oar), cases.proof_load(oar), cases.bench_test(oar),
        cases.bench_test_at_tip(oar), cases.steering(oar), cases.tip_knocked(oar), cases.tip_dragged(oar), crab(oar),
        abuse.pry(oar), abuse.stepped_on(oar, plane="stroke"), abuse.stepped_on(oar, plane="lateral"),
        abuse.push_off(oar), abuse.push_off(oar, plane="lateral"),
    ]  # fmt: skip


SIZE = st.floats(1.0, 2000.0)


@settings(max_examples=40, deadline=None)
@given(size=SIZE, share=st.floats(0.15, 0.85), gap=st.floats(0.1, 1.2))
def test_forces_balance(size, share, gap):
    """Forces sum to nought, and so do their moments about either end; beyond them the oar is free."""
    length = OAR.shape.length
    foot = gap / 2 + share * (length - gap)
    made = [
        cases.cruise(OAR, force=size), cases.hard_start(OAR, force=size), cases.proof_load(OAR, force=size),
        cases.bench_test(OAR, load=size), cases.bench_test_at_tip(OAR, load=size, inset=share),
        cases.steering(OAR, speed=size / 500), cases.tip_dragged(OAR, force=size), crab(OAR, speed=size / 1000),
        abuse.pry(OAR, force=size, fulcrum=share * length, contact=0.02),
        abuse.stepped_on(OAR, plane="lateral", place=foot, weight=size, gap=gap),
        abuse.push_off(OAR, force=size / 2, sideways=share * size),
    ]  # fmt: skip
    for case in made:
        scale = sum(abs(force) for force in case.forces) * length + 1e-9
        assert sum(case.forces) == pytest.approx(0, abs=1e-12 * scale)  # rounding
        for end in (0.0, length):
            turned = sum(force * (place - end) for force, place in zip(case.forces, case.places, strict=True))
            assert turned == pytest.approx(0, abs=1e-12 * scale)
        couple = case.amplified * case.axial * case.eccentricity  # a push off the axis goes up to the tip
        assert moment_along(OAR, case)[[0, -1]] == pytest.approx([0, couple], abs=1e-11 * scale)
        assert shear_along(OAR, case)[0] == 0


def test_each_case_tells_its_basis():
    """Each case has a name, a basis and a plane; only rowing, bench and proof are customary."""
    made = every(OAR)
    assert {case.name for case in made if case.kind == "customary"} == {
        "cruise", "hard start", "proof load", "bench test", "bench test at the tip"
    }  # fmt: skip
    assert all(case.basis for case in made)
    assert [case.name for case in made if case.reversed] == ["caught crab"]
    assert {case.plane for case in made} == {"stroke", "lateral"}


def test_the_stroke_pulls_on_the_aft_face():
    """Moments of a stroke are positive, of a crab negative; shear turns its sign at the lock."""
    moment = moment_along(OAR, cases.hard_start(OAR))
    assert moment.min() > -1e-9
    # By hand: it rises straight from the hand to the lock, 400 N x 568.65 mm, and falls straight to mid-blade.
    by_hand = np.interp(OAR.s, [GRIP, LOCK, MIDDLE], [0.0, 400 * HAND, 0.0])
    assert moment == pytest.approx(by_hand, abs=1e-9)
    assert hard_start_moment(OAR, force=400.0) == pytest.approx(by_hand, abs=1e-9)
    assert moment_along(OAR, crab(OAR)).max() < 1e-9
    shear = shear_along(OAR, cases.hard_start(OAR))
    at_pin = np.flatnonzero(np.isclose(OAR.s, LOCK))
    assert shear[at_pin[0]] == pytest.approx(400.0)
    assert shear[at_pin[-1]] == pytest.approx(-400 * HAND / BLADE)


def test_bending_is_nil_where_the_oar_is_held():
    """The deflected shape starts from its two supports; the blade goes the way the water pushes it."""
    for case in every(OAR):
        bent = bent_shape(OAR, case)
        assert np.all(np.isfinite(bent.deflection))
        assert np.all(np.isfinite(bent.slope))
        for place in case.held:
            assert deflection_at(OAR, case, place=place) == pytest.approx(0, abs=1e-12)
    assert deflection_at(OAR, cases.hard_start(OAR), place=OAR.shape.mid_blade) > 0
    assert deflection_at(OAR, crab(OAR), place=OAR.shape.mid_blade) < 0


def test_twice_the_force_bends_twice_as_far():
    """Without a push along the oar, deflection goes with the force."""
    small, large = (cases.hard_start(OAR, force=force) for force in (123.0, 246.0))
    tip = OAR.shape.length
    assert deflection_at(OAR, large, place=tip) == pytest.approx(2 * deflection_at(OAR, small, place=tip))
    assert slope_at(OAR, large, place=tip) == pytest.approx(2 * slope_at(OAR, small, place=tip))
    assert in_service(OAR, force=246.0).lag == pytest.approx(2 * in_service(OAR, force=123.0).lag)


def test_a_case_for_many_forces():
    """An array of forces gives what each of them gives, on one oar."""
    forces = np.array([100.0, 350.0, 500.0])
    for make in (
        lambda force: cases.hard_start(OAR, force=force),
        lambda force: abuse.pry(OAR, force=force),
        lambda force: abuse.push_off(OAR, force=force),
        lambda force: abuse.stepped_on(OAR, plane="stroke", place=1.1 + force / 5000, weight=force),
    ):
        many = make(forces)
        for index, force in enumerate(forces):
            one = make(force)
            for reading in (moment_along, shear_along):
                assert reading(OAR, many)[index] == pytest.approx(reading(OAR, one), abs=1e-9)
            assert bent_shape(OAR, many).deflection[index] == pytest.approx(bent_shape(OAR, one).deflection, abs=1e-12)
            at = deflection_at(OAR, many, place=1.234)[index]
            assert at == pytest.approx(deflection_at(OAR, one, place=1.234))


def test_many_oars():
    """An array of oars gives what each of them gives, in every case."""
    looms = np.array([0.044, 0.047, 0.051])
    arms = np.array([0.62865, 0.64, 0.60])
    many = build_oar(replace(OAR.shape, lock_diameter=looms, inboard=arms), OAR.pieces, OAR.leather)
    for index in range(3):
        shape = replace(OAR.shape, lock_diameter=float(looms[index]), inboard=float(arms[index]))
        one = build_oar(shape, OAR.pieces, OAR.leather)
        for here, there in zip(every(many), every(one), strict=True):
            assert moment_along(many, here)[index] == pytest.approx(moment_along(one, there), abs=1e-9)
            assert bent_shape(many, here).slope[index] == pytest.approx(bent_shape(one, there).slope, abs=1e-12)
            at_tip = deflection_at(many, here, place=many.shape.length)
            expected = deflection_at(one, there, place=one.shape.length)
            assert np.broadcast_to(at_tip, (3,))[index] == pytest.approx(expected, abs=1e-12)


def test_both_benches():
    """10 kg are 98.0665 N at mid-blade; 7 lb of 0.45359237 kg are 31.1376 N, 5 mm in from the tip."""
    assert cases.bench_test(OAR).forces[0] == pytest.approx(98.0665)
    tip = cases.bench_test_at_tip(OAR)
    assert tip.forces[0] == pytest.approx(31.1376, abs=5e-5)  # as printed
    assert tip.places[0] == pytest.approx(TIP - 0.005)


def test_a_case_is_a_record():
    """Every field of a case is there to be changed."""
    case = cases.cruise(OAR)
    assert replace(case, name="easy").name == "easy"
    assert {"forces", "places", "held", "axial", "torque", "basis"} <= {field.name for field in fields(case)}


def test_knocked_tip_stays_a_matter_of_the_corner():
    """A knock brings a corner force, an arm and a torque, and no bending of the loom."""
    case = cases.tip_knocked(OAR, force=180.0, arm=0.05)
    assert (case.corner_force, case.corner_arm, case.torque) == (180.0, 0.05, pytest.approx(9.0))
    assert np.all(moment_along(OAR, case) == 0)


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (lambda: cases.cruise(OAR, force=0.0), "force of the load case 'cruise' must be above nought"),
        (lambda: cases.hard_start(OAR, force=float("nan")), "force of the load case 'hard start'"),
        (lambda: crab(OAR, speed=-1.0), "speed of the load case 'caught crab'"),
        (lambda: abuse.pry(OAR, fulcrum=0.01), "between the hand and the tip"),
        (lambda: abuse.stepped_on(OAR, plane="stroke", gap=3.0), "does not lie across a gap"),
        (lambda: abuse.stepped_on(OAR, plane="stroke", place=2.2), "'stepped on' acts 2.65 m from the handle end"),
        (lambda: abuse.push_off(OAR, force=1e4), "bows out of itself"),
        (lambda: abuse.push_off(OAR, sideways=float("inf")), "is no number"),
        (lambda: cases.bench_test_at_tip(OAR, inset=-0.1), "off an oar"),
    ],
)
def test_refused_in_words(make, said):
    """What cannot act on this oar is refused with the case, the size and the oar named."""
    with pytest.raises(BadDesign, match=said):
        make()


def test_torques_by_hand():
    """Pressure 15 mm off the axis, and in strokes and steering 3 N m of the hand that feathers; none in a crab.

    400 N at the hand make 165.07 N at the blade. The blade is 27 mm wide at its root and spreads to 130.2 mm at 35 % of
    its 558.8 mm with the power 0.8, whose mean is 1/1.8. The crab is that of an oar as stiff everywhere, 2000 N m2.
    """
    at_blade = 400 * HAND / BLADE
    assert cases.hard_start(OAR, force=400.0).torque == pytest.approx(at_blade * 0.015 + 3.0)
    assert cases.cruise(OAR, force=150.0).torque == pytest.approx(at_blade * 150 / 400 * 0.015 + 3.0)
    steered = cases.steering(OAR, speed=2.5, density=1000.0, coefficient=1.1)
    pressure = 0.5 * 1000 * 1.1 * 0.5588 * (0.027 + 0.1032 * (0.35 / 1.8 + 0.65)) * 2.5**2
    # Simpson's rule starts on the upright end of the power: 0.02 h^1.8 of a step of 1/300 of the blade, 2e-6 of it all.
    assert steered.torque == pytest.approx(pressure * 0.015 + 3.0, rel=1e-5)
    same = {"bending_stiffness": 2000.0, "shear_stiffness": 60e3}
    laminate = replace(OAR.laminate, **{name: np.full_like(OAR.s, value) for name, value in same.items()})
    caught = crab(replace(OAR, laminate=laminate))
    drop = (BLADE**3 + BLADE**2 * HAND) / (3 * 2000.0) + (BLADE + BLADE**2 / HAND) / 60e3  # under 1 N at mid-blade
    turned = 45.0 * (0.25 * 4.572) ** 2 + 0.1 * 75.0
    felt = 1 / (1 / 120.0 + (1.1049 / 2 + BLADE) ** 2 / turned)
    assert caught.torque == pytest.approx(1.8 * np.sqrt(felt / drop) * 0.015)
