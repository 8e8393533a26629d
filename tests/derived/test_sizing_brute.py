"""Sizes of a loom: roots fed back, and the lightest loom against every loom of a grid of half millimetres."""

from dataclasses import replace

import numpy as np
import pytest

from oarkit import BadDesign, design, example_project
from oarkit.oar.build import build_oar
from oarkit.oar.mass import mass
from oarkit.strength.bend import bench_drop
from oarkit.strength.hard_start import checks
from oarkit.strength.sizing import (
    LoomLimits,
    Wishes,
    factor_for_index,
    factor_for_ratio,
    lightest_loom,
    mass_against_index,
)


@pytest.fixture(scope="module", params=["quillet", "tumblehod"])
def oar(request):
    """The port oar of an example: a square inboard and edge strips, or round and of one wood."""
    return design(example_project(request.param).inputs).oars["port"]


def _sized(oar, lock, thickness, width):
    """The oar with other sizes, inboard along, written down once more: 2 mm over the lock or in its share."""
    shape = oar.shape
    inboard = shape.inboard_size - shape.lock_diameter + lock if shape.square_inboard else (
        shape.inboard_size / shape.lock_diameter * lock
    )  # fmt: skip
    sizes = {"lock_diameter": lock, "neck_thickness": thickness, "neck_width": width, "inboard_size": inboard}
    return build_oar(replace(shape, **sizes), oar.pieces, oar.leather)


def _of(oar):
    """Index and least ratio at 400 N, straight from drop and checks."""
    index = bench_drop(oar) / oar.blade_arm
    return index, np.min(np.broadcast_arrays(*[c.ratio for c in checks(oar, force=400.0, wanted=1.0)]), axis=0)


@pytest.mark.parametrize("wanted", [0.031, 0.0487, 0.071])
def test_a_solved_size_fed_back_has_the_wanted_index(oar, wanted):
    """Lock, neck and inboard by the factor: the drop over the blade arm is the index that was asked for."""
    by, shape = factor_for_index(oar, wanted=wanted), oar.shape
    sized = _sized(oar, by * shape.lock_diameter, by * shape.neck_thickness, by * shape.neck_width)
    assert _of(sized)[0] == pytest.approx(wanted, rel=1e-9)


@pytest.mark.parametrize("wanted", [1.17, 2.03])
def test_a_solved_size_fed_back_has_the_wanted_ratio(oar, wanted):
    """The least ratio of all pieces, at 400 N, is the one asked for."""
    by, shape = factor_for_ratio(oar, wanted=wanted, force=400.0), oar.shape
    sized = _sized(oar, by * shape.lock_diameter, by * shape.neck_thickness, by * shape.neck_width)
    assert _of(sized)[1] == pytest.approx(wanted, rel=1e-9)


def test_an_index_out_of_reach_is_refused(oar):
    """No loom of up to two and a half times the size is as stiff as steel."""
    with pytest.raises(BadDesign, match="no loom from"):
        factor_for_index(oar, wanted=1e-6)


def _every(oar, limits, wishes, around):
    """The lightest loom of a whole grid around a place, by looking at each one of them."""
    steps = [np.arange(size - 8, size + 9) * limits.step for size in np.round(np.array(around) / limits.step)]
    lock, thickness, width = (mesh.ravel() for mesh in np.meshgrid(*steps, indexing="ij"))
    lies = (lock >= limits.least_lock - 1e-9) & (lock <= limits.most_lock + 1e-9)
    lies &= lock >= (oar.shape.grip_diameter if limits.grip is None else limits.grip) - 1e-9
    if limits.stock is not None:
        made = oar.shape.inboard_size, oar.shape.lock_diameter
        inboard = made[0] - made[1] + lock if oar.shape.square_inboard else made[0] / made[1] * lock
        lies &= (lock <= limits.stock + 1e-9) & (inboard <= limits.stock + 1e-9)
    lies &= (thickness >= limits.least_neck_thickness - 1e-9) & (width >= limits.least_neck_width - 1e-9)
    lies &= (thickness <= lock + 1e-9) & (width <= lock + 1e-9)
    lies &= width >= limits.least_neck_share * thickness - 1e-9
    lies &= thickness >= max(float(oar.shape.tip_thickness), float(oar.shape.edge_at_root)) - 1e-9
    lock, thickness, width = lock[lies], thickness[lies], width[lies]
    made = _sized(oar, lock, thickness, width)
    index, ratio = _of(made)
    keeps = np.ones(len(lock), dtype=bool)
    if wishes.index is not None:
        keeps &= index <= wishes.index * (1 + 1e-9)
    if wishes.ratio is not None:
        keeps &= ratio >= wishes.ratio * (1 - 1e-9)
    heavy = np.where(keeps, mass(made), np.inf)
    at = int(np.argmin(heavy))
    return (lock[at], thickness[at], width[at]), heavy[at]


@pytest.mark.parametrize("wishes", [
    Wishes(index=0.0507, ratio=1.43), Wishes(index=0.0331), Wishes(ratio=2.13), Wishes(index=0.081, ratio=1.77),
], ids=str)  # fmt: skip
def test_no_loom_of_the_grid_is_lighter(oar, wishes):
    """Within 4 mm of what is found each loom of half a millimetre is looked at: none that does it is lighter."""
    limits = LoomLimits(step=0.0005)
    found = lightest_loom(oar, wishes, limits)
    assert found.fits
    sizes = (found.lock, found.neck_thickness, found.neck_width)
    assert np.array(sizes) / limits.step == pytest.approx(np.round(np.array(sizes) / limits.step))
    best, least = _every(oar, limits, wishes, sizes)
    made = _sized(oar, *sizes)
    assert float(mass(made)) == pytest.approx(found.mass)
    assert found.mass == pytest.approx(least, abs=5e-6), best  # [kg]: two looms may weigh the same to a few milligrams
    assert (found.index, found.ratio) == pytest.approx(tuple(float(value) for value in _of(made)))


@pytest.mark.parametrize(("wishes", "limits"), [
    (Wishes(index=0.0431, ratio=1.61), LoomLimits(step=0.0254 / 32)),
    (Wishes(index=0.0613), LoomLimits(step=0.0254 / 16, least_lock=1.5 * 0.0254, least_neck_share=0.9)),
    (Wishes(index=0.052, ratio=1.3), LoomLimits(grip=0.0467)),
    (Wishes(index=0.043, ratio=1.2), LoomLimits(stock=0.0487)),
    (Wishes(ratio=1.9), LoomLimits(step=0.001, least_neck_thickness=0.0335, least_neck_width=0.0301)),
], ids=str)  # fmt: skip
def test_no_loom_of_the_grid_is_lighter_on_other_steps_and_limits(oar, wishes, limits):
    """Thirty-seconds and sixteenths of an inch, a thick grip, thin stock, and a stout neck, each against its grid."""
    found = lightest_loom(oar, wishes, limits)
    assert found.fits
    sizes = (found.lock, found.neck_thickness, found.neck_width)
    assert np.array(sizes) / limits.step == pytest.approx(np.round(np.array(sizes) / limits.step))
    best, least = _every(oar, limits, wishes, sizes)
    assert found.mass == pytest.approx(least, abs=5e-6), best  # as above
    index, ratio = _of(_sized(oar, *sizes))
    assert wishes.index is None or index <= wishes.index * (1 + 1e-9)
    assert wishes.ratio is None or ratio >= wishes.ratio * (1 - 1e-9)


def test_what_decides_is_what_makes_it_lighter(oar):
    """A loom held by its index alone says so, and so do ratio and a least lock; neither is named for nothing."""
    limp = lightest_loom(oar, Wishes(index=0.04, ratio=1.0))
    assert "index" in limp.decides
    assert "ratio" not in limp.decides
    weak = lightest_loom(oar, Wishes(index=0.09, ratio=1.9))
    assert "ratio" in weak.decides
    assert "index" not in weak.decides
    held = lightest_loom(oar, Wishes(index=0.09), LoomLimits(least_lock=0.050))
    assert "least_lock" in held.decides
    assert held.lock == pytest.approx(0.050)


def test_what_decides_proves_itself(oar):
    """Each limit that is named, a step less strict, gives a lighter loom; each wish, given up, too; the others do not
    by more than the search on fewer stations can tell."""
    wishes, limits = Wishes(index=0.0507, ratio=1.1), LoomLimits(least_neck_width=0.030)
    found = lightest_loom(oar, wishes, limits)
    eased = {
        "index": (replace(wishes, index=None), limits),
        "ratio": (replace(wishes, ratio=None), limits),
        "least_neck_width": (wishes, replace(limits, least_neck_width=0.0295)),
        "least_lock": (wishes, replace(limits, least_lock=0.0335)),
        "most_lock": (wishes, replace(limits, most_lock=0.0605)),
    }
    assert {"index", "least_neck_width"} <= set(found.decides) <= set(eased)
    for name, (wish, limit) in eased.items():
        lighter = lightest_loom(oar, wish, limit).mass < found.mass - 1e-6
        assert lighter == (name in found.decides), name


def test_the_grip_and_the_stock_decide(oar):
    """A lock no thinner than the grip, an inboard no thicker than the stock; both are named."""
    thick = lightest_loom(oar, Wishes(index=0.09), LoomLimits(grip=0.0473))
    assert thick.lock == pytest.approx(0.0475)  # the next half millimetre
    assert "grip" in thick.decides
    shape = oar.shape
    thin = lightest_loom(oar, Wishes(index=0.0331), LoomLimits(stock=0.0471))
    inboard = thin.lock + 0.002 if shape.square_inboard else thin.lock * shape.inboard_size / shape.lock_diameter
    assert inboard <= 0.0471 + 1e-9
    assert "stock" in (thin.decides if thin.fits else thin.in_the_way)


def test_mass_against_index(oar):
    """Each point is the lightest loom of its index; stiffer is never lighter."""
    told = mass_against_index(oar, indexes=(0.035, 0.05, 0.065), wishes=Wishes(ratio=1.2))
    assert [each.mass for each in told] == sorted((each.mass for each in told), reverse=True)
    for each, index in zip(told, (0.035, 0.05, 0.065), strict=True):
        alone = lightest_loom(oar, Wishes(index=index, ratio=1.2))
        assert (each.lock, each.neck_thickness, each.mass) == (alone.lock, alone.neck_thickness, alone.mass)
        assert each.index <= index


def test_an_impossible_wish_gives_the_nearest(oar):
    """As stiff as the thickest stock allows: everything at its most, and said not to fit."""
    found = lightest_loom(oar, Wishes(index=0.004), LoomLimits(most_lock=0.048))
    assert (found.fits, found.decides) == (False, ())
    assert (found.lock, found.neck_thickness, found.neck_width) == pytest.approx((0.048, 0.048, 0.048))


def test_the_nearest_says_what_is_missed_and_what_stands_in_the_way(oar):
    """Both wishes out of reach of 47 mm: each with what is wanted and what it comes to; only thicker stock helps."""
    wishes, limits = Wishes(index=0.011, ratio=9.0), LoomLimits(most_lock=0.047)
    found = lightest_loom(oar, wishes, limits)
    assert [(one.wish, one.wanted) for one in found.missed] == [("index", 0.011), ("ratio", 9.0)]
    index, ratio = _of(_sized(oar, 0.047, 0.047, 0.047))
    assert [one.nearest for one in found.missed] == pytest.approx([float(index), float(ratio)])
    assert found.in_the_way == ("most_lock",)


def test_of_two_wishes_the_one_that_can_be_met_is_met(oar):
    """A ratio out of reach misses by as little as can be; the index is kept, and the stock is what is in the way."""
    found = lightest_loom(oar, Wishes(index=0.06, ratio=5.0), LoomLimits(stock=0.050))
    assert [one.wish for one in found.missed] == ["ratio"]
    assert found.index <= 0.06
    assert found.in_the_way == ("stock",)
    wider = lightest_loom(oar, Wishes(index=0.06, ratio=5.0), LoomLimits(stock=0.0505))
    assert wider.ratio > found.ratio


def test_an_oar_measured_from_life_is_refused_in_words():
    """It has no sizes of a loom to change."""
    from oarkit.oar.measured import MeasuredShape, Station  # here, for this test alone

    table = (
        Station(s=0.0, thickness=0.034, form="round"), Station(s=0.8, thickness=0.046, form="round"),
        Station(s=1.7, thickness=0.030, width=0.026, form="ellipse"),
        Station(s=1.75, thickness=0.024, width=0.050, form="blade", edge=0.009),
        Station(s=2.3, thickness=0.011, width=0.130, form="blade", edge=0.006),
    )  # fmt: skip
    shape = MeasuredShape(stations=table, inboard=0.65, grip_centre=0.05, leather_start=0.55, leather_length=0.25)
    made = build_oar(shape, design(example_project("tumblehod").inputs).oars["port"].pieces)
    for ask in (
        lambda: lightest_loom(made, Wishes(index=0.05)),
        lambda: factor_for_index(made, wanted=0.05),
        lambda: mass_against_index(made, indexes=(0.05,), wishes=Wishes()),
    ):
        with pytest.raises(BadDesign, match="measured from life"):
            ask()


def test_the_same_to_the_last_digit(oar):
    """The search is repeatable."""
    wishes = Wishes(index=0.045, ratio=1.5)
    assert lightest_loom(oar, wishes) == lightest_loom(oar, wishes)


def test_limits_that_leave_nothing_are_refused(oar):
    """A lock thicker than the stock."""
    with pytest.raises(BadDesign, match=r"leave no loom: the least lock wants a lock of 0\.05 m"):
        lightest_loom(oar, Wishes(index=0.05), LoomLimits(least_lock=0.05, most_lock=0.045))
    with pytest.raises(BadDesign, match="leave no loom: the grip wants"):
        lightest_loom(oar, Wishes(index=0.05), LoomLimits(grip=0.047, stock=0.046))
    with pytest.raises(BadDesign, match=r"on steps of 0\.01 m"):
        lightest_loom(oar, Wishes(index=0.05), LoomLimits(step=0.01, grip=0.041, most_lock=0.049))
    with pytest.raises(BadDesign, match="does not go with a lock"):
        lightest_loom(
            oar, Wishes(index=0.05), LoomLimits(least_neck_share=1.4, least_neck_thickness=0.04, most_lock=0.05)
        )
    with pytest.raises(BadDesign, match="step"):
        lightest_loom(oar, Wishes(index=0.05), LoomLimits(step=0.0))
