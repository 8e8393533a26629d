"""Moisture in air, movement, grain on two faces, heat, time and many loads: behaviour, edges and refusals."""

import numpy as np
import pytest

from oarkit.tables import fatigue_table, grain_table, rows, species_table, temperature_table
from oarkit.wood.grain import inclined_share, slope_factor, slope_of_two_faces
from oarkit.wood.moisture import at_moisture, equilibrium_moisture
from oarkit.wood.movement import movement, movement_by_coefficient, shrinkage_at
from oarkit.wood.service import duration_share, fatigue_guide, temperature_share
from oarkit.working import BadDesign

FATIGUE = fatigue_table()


def test_moisture_law_of_arrays():
    """Each board at its own moisture; at the moisture point and past it the green value."""
    law = at_moisture(at_12=np.array([70.0, 103.0]), green=np.array([39.0, 66.0]), moisture=0.27, moisture_point=0.24)
    assert law == pytest.approx([39, 66])


@pytest.mark.parametrize("humidity", [-0.01, 1.01, np.array([0.5, 65.0])])
def test_no_such_air(humidity):
    """Humidity is a share of nil to one."""
    with pytest.raises(BadDesign, match="relative humidity does not exist"):
        equilibrium_moisture(humidity=humidity)


@pytest.mark.parametrize("temperature", [-20.0, 200.0, float("nan")])
def test_air_beyond_the_printed_table(temperature):
    """Table 4-2 begins at 30 °F; colder, hotter and no number are refused."""
    with pytest.raises(BadDesign, match="no equilibrium moisture is known"):
        equilibrium_moisture(humidity=0.6, temperature=temperature)


def test_what_is_no_number_is_refused():
    """No NaN comes out of slope, heat, time, humidity or number of loads."""
    nan = float("nan")
    for call in (
        lambda: slope_factor(slope=nan, table=grain_table()), lambda: inclined_share(slope=nan, prop="bending"),
        lambda: inclined_share(slope=-0.1, prop="bending"), lambda: duration_share(time=nan),
        lambda: temperature_share(temperature=nan, moisture=0.12, effect=temperature_table()["bending_strength"]),
        lambda: equilibrium_moisture(humidity=nan),
        lambda: fatigue_guide(FATIGUE, prop="bending", range_ratio=0.0, cycles=float("inf")),
    ):  # fmt: skip
        with pytest.raises(BadDesign):
            call()


def test_a_range_greater_than_any_tested():
    """Shear was tested at a range ratio of 0.1 only: a reversed load has no row."""
    with pytest.raises(BadDesign, match="reverses as far"):
        fatigue_guide(FATIGUE, prop="shear", range_ratio=-1.0, cycles=1e6, kind="glued-laminated")


def test_wetter_air_makes_wetter_wood():
    """Moisture rises with humidity and falls with heat, from nothing to fibre saturation."""
    moisture = equilibrium_moisture(humidity=np.linspace(0, 1, 21), temperature=20.0)
    assert np.all(np.diff(moisture) > 0)
    assert 0.24 < moisture[-1] < 0.30
    assert equilibrium_moisture(humidity=0.65, temperature=30.0) < equilibrium_moisture(humidity=0.65, temperature=5.0)


def test_shrinkage_ends():
    """Nothing at 30 % and above, all of it ovendry."""
    assert shrinkage_at(ovendry=0.08, moisture=np.array([0.0, 0.30, 0.50])) == pytest.approx([0.08, 0, 0])


def test_swelling_and_shrinking():
    """Wetter is wider and drier is narrower, in both ways of reckoning."""
    known = {"width": 0.1, "moisture": 0.10}
    for later, sign in ((0.13, 1), (0.07, -1), (0.10, 0)):
        assert np.sign(movement(ovendry=0.078, later=later, **known)) == sign
        assert np.sign(movement_by_coefficient(per_percent=0.00274, later=later, **known)) == sign


def test_every_moved_wood_has_its_shrinkage():
    """A species with movement coefficients has shrinkages too, tangential the greater."""
    moved = [species for species in species_table() if species.tangential_movement]
    assert moved
    assert all(s.tangential_movement > s.radial_movement and s.tangential_shrinkage > s.radial_shrinkage for s in moved)
    assert len({s.name for s in moved}) == len(rows("movement.csv"))


# Grain


def test_unknown_way_of_failing():
    """Table and law name what they know."""
    with pytest.raises(BadDesign, match="knows bending, impact, compression"):
        slope_factor(slope=0.1, table=grain_table(), prop="shear")
    with pytest.raises(BadDesign, match="no power for shear"):
        inclined_share(slope=0.1, prop="shear")


def test_one_face_straight():
    """With no slope on one face the other counts alone; both alike are √2 of one; 3 and 4 make 5."""
    assert slope_of_two_faces(first=0.0, second=1 / 15) == pytest.approx(1 / 15)
    assert slope_of_two_faces(first=np.array([0.03, 0.05]), second=np.array([0.04, 0.05])) == pytest.approx(
        [0.05, 0.05 * 2**0.5]
    )


# Heat


def test_half_way_to_fifty():
    """At 35 °C half of the printed loss of 20 % at 50 °C, in bending at 12 %."""
    assert temperature_share(temperature=35.0, moisture=0.12, effect=temperature_table()["bending_strength"]) == 0.9


@pytest.mark.parametrize("temperature", [-51.0, 50.1, np.array([20.0, 70.0])])
def test_beyond_the_table(temperature):
    """Hotter and colder than the table is refused."""
    with pytest.raises(BadDesign, match="below -50 °C or above"):
        temperature_share(temperature=temperature, moisture=0.12, effect=temperature_table()["bending_modulus"])


@pytest.mark.parametrize("prop", temperature_table())
def test_table_of_temperatures_rises_in_moisture(prop):
    """Moistures rise along the table, as the interpolation needs; heat weakens and cold strengthens."""
    effect = temperature_table()[prop]
    for moistures in (effect.cold_moistures, effect.hot_moistures):
        assert np.all(np.diff(moistures) > 0)
    assert all(change < 0 for change in effect.hot_changes)
    assert all(change > 0 for change in effect.cold_changes)


def test_between_printed_moistures():
    """Between 4 and 11 % the loss of bending at 50 °C goes from 10 to 20 %, half-way 15."""
    share = temperature_share(temperature=50.0, moisture=0.075, effect=temperature_table()["bending_strength"])
    assert share == pytest.approx(0.85)


# Time


def test_shorter_than_a_second():
    """A shorter blow counts as one second."""
    assert duration_share(time=np.array([0.01, 1.0])) == pytest.approx([1.10, 1.10])


@pytest.mark.parametrize(("time", "said"), [(0.0, "some time"), (-5.0, "some time"), (4e8, "ten years")])
def test_no_such_time(time, said):
    """No time, and more than ten years, are refused."""
    with pytest.raises(BadDesign, match=said):
        duration_share(time=time)


# Fatigue


def test_a_season_of_strokes():
    """A clear oar, 26 strokes a minute for 100 hours: 60 % at 0.1, and the row is named."""
    guide = fatigue_guide(FATIGUE, prop="bending", range_ratio=0.1, cycles=156_000)
    assert (guide.share, guide.beyond) == (0.6, False)
    assert guide.said.startswith("bending, clear, third-point: 60 % of static strength for 2 million loads")


def test_more_loads_than_tested():
    """More loads than the row was tested for is said."""
    guide = fatigue_guide(FATIGUE, prop="bending", range_ratio=0.1, cycles=5e6)
    assert guide.beyond
    assert "more loads are wanted than were tested" in guide.said


@pytest.mark.parametrize(
    ("ratio", "cycles", "share"),
    [
        (-1.0, 1e6, 0.30),  # 4 million at 40 Hz is nearer than 30 million
        (-1.0, 1e8, 0.28),  # two rows of 30 million, 30 and 28 %: the lesser
        (0.05, 1e6, 0.40),  # rows at 0 and at 0.1 are as near: at 0.1 the cycle is milder, and 40 % is the lesser
        (-0.4, 1e6, 0.30),  # the row at 0 is the nearest, but milder: the reversed ones
        (0.4, 1e6, 0.45),
        (-0.6, 1e6, 0.30),
    ],
)
def test_nearest_row(ratio, cycles, share):
    """Nearest in range ratio, then in cycles by tenfolds, then the lesser share."""
    assert fatigue_guide(FATIGUE, prop="bending", range_ratio=ratio, cycles=cycles).share == share


@pytest.mark.parametrize(
    ("known", "said"),
    [
        ({"range_ratio": 1.0, "cycles": 1e6}, "least stress over the greatest"),
        ({"range_ratio": -1.1, "cycles": 1e6}, "is no fatigue load"),
        ({"range_ratio": 0.1, "cycles": 0}, "needs a number of loads"),
        ({"range_ratio": 0.1, "cycles": 1e6, "kind": "balsa"}, r"no fatigue test of bending \(balsa\)"),
    ],
)
def test_no_such_fatigue(known, said):
    """What is no fatigue load, and what was never tested, is refused in words."""
    with pytest.raises(BadDesign, match=said):
        fatigue_guide(FATIGUE, prop="bending", **known)
