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


def test_the_same_to_the_last_digit(oar):
    """The search is repeatable."""
    wishes = Wishes(index=0.045, ratio=1.5)
    assert lightest_loom(oar, wishes) == lightest_loom(oar, wishes)


def test_limits_that_leave_nothing_are_refused(oar):
    """A lock thicker than the stock."""
    with pytest.raises(BadDesign, match="leave no loom"):
        lightest_loom(oar, Wishes(index=0.05), LoomLimits(least_lock=0.05, most_lock=0.045))
