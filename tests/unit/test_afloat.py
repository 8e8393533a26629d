"""Oars afloat, on bars that are worked in the head."""

from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest

from oarkit.oar.afloat import SALT_WATER, afloat, centre_of_volume, float_share, volume, way_up
from oarkit.oar.build import Leather, Oar
from oarkit.oar.measured import stations_between
from oarkit.section.profile import Profile, zone_moments
from oarkit.working import BadDesign

SHAPE = SimpleNamespace(length=2.0, inboard=0.6, leather_start=0.5, leather_length=0.2)


def _bar(*, thickness, width, density, corner=0.0, breaks=(0.8,)):
    """A bar 2 m long of one section all along; its density by stations of the quadrature."""
    laid = stations_between([0.0, 0.6, *breaks, 2.0])
    profile = Profile(
        thickness=np.full(laid.s.shape, thickness), width=np.full(laid.s.shape, width),
        edge=np.full(laid.s.shape, thickness), corner=np.full(laid.s.shape, corner),
        blade_share=np.zeros(laid.s.shape),
    )  # fmt: skip
    area = zone_moments(profile, np.zeros_like(laid.s), np.ones_like(laid.s)).area
    return Oar(
        shape=SHAPE, pieces=(), leather=Leather(mass=0.0), s=laid.s, weight=laid.weight, middle=laid.middle,
        profile=profile, laminate=SimpleNamespace(mass_per_length=density(laid.middle) * area),
    )  # fmt: skip


def _even(density):
    return lambda s: density + 0 * s


def test_share_under_water():
    """450 kg/m3 float 45 % under in fresh water, 450/1025 in salt; 2 m of 50 by 40 mm is 4 litres."""
    plank = _bar(thickness=0.04, width=0.05, density=_even(450.0))
    assert volume(plank) == pytest.approx(0.004)
    assert afloat(plank).share == pytest.approx(0.45)
    assert afloat(plank, water_density=SALT_WATER).share == pytest.approx(450 / 1025)
    assert float_share(mass=1.8, volume=0.004) == pytest.approx(0.45)
    assert centre_of_volume(plank) == pytest.approx(1.0)


@pytest.mark.parametrize(("lies", "deep"), [("flat", 0.04), ("on edge", 0.10)])
def test_an_even_plank_floats_level(lies, deep):
    """A plank of 450 kg/m3 is 45 % under: the water stands 5 % of its depth below its middle, alike at both ends."""
    plank = _bar(thickness=0.04, width=0.10, density=_even(450.0))
    found = afloat(plank, lies=lies)
    assert (found.at_handle, found.at_tip) == pytest.approx((-0.05 * deep, -0.05 * deep), abs=1e-12)


def test_a_plank_lies_flat():
    """A thin plank stays flat and does not stand on edge; turned by a right angle it is the other way."""
    plank = _bar(thickness=0.02, width=0.12, density=_even(500.0))
    assert afloat(plank).stays
    assert not afloat(plank, lies="on edge").stays
    assert way_up(plank) > 0
    turned = _bar(thickness=0.12, width=0.02, density=_even(500.0))
    assert not afloat(turned).stays
    assert afloat(turned, lies="on edge").stays
    assert way_up(turned) == pytest.approx(-way_up(plank), rel=1e-9)


def test_a_round_bar_lies_any_way():
    """A round bar has its metacentre on its axis, whatever it weighs."""
    for density in (200.0, 450.0, 700.0):
        bar = _bar(thickness=0.04, width=0.04, corner=0.5, density=_even(density))
        for lies in ("flat", "on edge"):
            assert afloat(bar, lies=lies).metacentric == pytest.approx(0, abs=1e-9)


def test_the_heavy_end_is_low():
    """600 kg/m3 to the middle and 400 beyond: the handle end is low; swapped, the tip, by as much."""
    heavy_handle = afloat(
        _bar(thickness=0.04, width=0.05, breaks=(1.0,), density=lambda s: np.where(s < 1, 600.0, 400.0))
    )
    heavy_tip = afloat(_bar(thickness=0.04, width=0.05, breaks=(1.0,), density=lambda s: np.where(s < 1, 400.0, 600.0)))
    assert heavy_handle.handle_low
    assert not heavy_tip.handle_low
    assert heavy_handle.at_handle == pytest.approx(heavy_tip.at_tip)
    assert heavy_handle.at_tip == pytest.approx(heavy_tip.at_handle)


def test_an_oar_that_sinks():
    """Wood as heavy as water, or heavier, is refused; in salt water it still floats."""
    wet = _bar(thickness=0.04, width=0.05, density=_even(1010.0))
    with pytest.raises(BadDesign, match="sinks"):
        afloat(wet)
    assert afloat(wet, water_density=SALT_WATER).share == pytest.approx(1010 / 1025)


def test_fresh_and_salt_at_once():
    """Both waters in one call give what each gives alone."""
    plank = _bar(thickness=0.04, width=0.05, breaks=(1.0,), density=lambda s: np.where(s < 1, 500.0, 400.0))
    both = afloat(plank, water_density=np.array([1000.0, 1025.0]))
    for index, water in enumerate((1000.0, 1025.0)):
        one = afloat(plank, water_density=water)
        for name in ("share", "at_handle", "at_tip", "metacentric"):
            assert getattr(both, name)[index] == pytest.approx(getattr(one, name), abs=1e-12)


def test_designs_at_once():
    """Two densities in one array of oars give what each gives alone."""
    one, other = (_bar(thickness=0.04, width=0.08, density=_even(d)) for d in (430.0, 520.0))
    many = replace(
        one,
        laminate=SimpleNamespace(
            mass_per_length=np.stack([one.laminate.mass_per_length, other.laminate.mass_per_length])
        ),
    )
    found = afloat(many)
    for index, alone in enumerate((afloat(one), afloat(other))):
        assert found.metacentric[index] == pytest.approx(alone.metacentric, rel=1e-9)
        assert found.at_tip[index] == pytest.approx(alone.at_tip, abs=1e-12)
