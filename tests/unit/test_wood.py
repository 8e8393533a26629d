"""Finding a species by its name, and from the species to the board in the oar."""

from dataclasses import replace

import numpy as np
import pytest

from oarkit.tables import grain_table, other_names, species_table
from oarkit.wood.adjust import GrainTable, density_at, lower_fifth, simple_moisture_factor, slope_factor
from oarkit.wood.board import Board, Wood, wood_of_board
from oarkit.wood.species import Species, find_species, matching_species
from oarkit.working import BadDesign


def _find(name: str) -> Species:
    return find_species(name, species_table(), other_names())


def _wood(name: str, **board) -> Wood:
    return wood_of_board(Board(species=_find(name), **board), grain_table=grain_table())


# Names


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("Sitka spruce", "Spruce, Sitka"),
        ("spruce, Sitka", "Spruce, Sitka"),
        ("  SPRUCE   sitka ", "Spruce, Sitka"),
        ("sitka", "Spruce, Sitka"),
        ("Picea sitchensis", "Spruce, Sitka"),
        ("ash", "Ash, white"),
        ("white ash", "Ash, white"),
        ("black ash", "Ash, black"),
        ("yellow-cedar", "Cedar, yellow (Alaska)"),
        ("Alaska cedar", "Cedar, yellow (Alaska)"),
        ("Port-Orford-cedar", "Cedar, Port-Orford"),
        ("western redcedar", "Cedar, western redcedar"),
        ("western red cedar", "Cedar, western redcedar"),
        ("Douglas-fir, coast", "Douglas-fir, coast"),
        ("coast Douglas fir", "Douglas-fir, coast"),
        ("noble fir", "Fir, noble"),
        ("khaya", "Mahogany, African (khaya)"),
        ("teak", "Teak"),
    ],
)
def test_one_species(written, name):
    """A species is found in the words people use, in any order and case."""
    assert _find(written).name == name


@pytest.mark.parametrize(
    ("written", "candidates"),
    [
        ("fir", ["Fir, noble", "Fir, grand", "Douglas-fir, coast"]),
        ("spruce", ["Spruce, Sitka", "Spruce, white", "Spruce, red"]),
        ("Douglas fir", ["Douglas-fir, coast", "Douglas-fir, interior west"]),
        ("cedar", ["Cedar, yellow (Alaska)", "Cedar, western redcedar"]),
    ],
)
def test_a_name_of_several_is_refused(written, candidates):
    """A name that may mean several woods is refused, and all of them are named."""
    with pytest.raises(BadDesign, match=f"'{written}' may mean") as refused:
        _find(written)
    assert all(f"'{candidate}'" in str(refused.value) for candidate in candidates)


@pytest.mark.parametrize(
    ("written", "meant"),
    [("sprce, Sitka", "Spruce, Sitka"), ("whte ash", "Ash, white"), ("Duglas-fir, coast", "Douglas-fir, coast")],
)
def test_a_near_miss_is_named(written, meant):
    """A slip of the pen is answered with the wood that was meant."""
    with pytest.raises(BadDesign, match="did you mean") as refused:
        _find(written)
    assert f"'{meant}'" in str(refused.value)


@pytest.mark.parametrize("written", ["xyzzy", "", "  ", "42", "木"])
def test_no_such_wood(written):
    """What names no wood at all is refused with where to look."""
    with pytest.raises(BadDesign, match="no wood called"):
        _find(written)


def test_no_such_wood_without_a_scientific_name():
    """A row without a scientific name is not what an empty name means."""
    nameless = replace(_find("Sitka spruce"), scientific="")
    with pytest.raises(BadDesign, match="no wood called"):
        find_species("", [nameless])


def test_the_usa_sample_comes_first():
    """A species sampled twice is the USA's, unless the other origin is asked for."""
    assert _find("Sitka spruce").origin == "USA"
    canada = _find("Sitka spruce (Canada)")
    assert (canada.name, canada.origin) == ("Spruce, Sitka", "Canada")
    # Wood Handbook FPL-GTR-282 (2021): Table 5-3a and Table 5-4a
    assert (_find("Sitka spruce").bending_modulus_12, canada.bending_modulus_12) == (10.8e9, 11.2e9)


def test_a_wood_of_canada_alone():
    """The Canadian sample of all Douglas-fir is found with its country."""
    assert _find("Douglas-fir (Canada)").origin == "Canada"


def test_search():
    """A search gives every wood that has all the words, begun or whole, by common or scientific name."""
    names = {species.name for species in matching_species("spr sit", species_table())}
    assert names == {"Spruce, Sitka"}
    assert {species.name for species in matching_species("picea", species_table())} >= {"Spruce, Sitka", "Spruce, red"}
    assert len(matching_species("", species_table())) == len(species_table())
    assert matching_species("oak spruce", species_table()) == []


# The table


@pytest.mark.parametrize(
    ("name", "field", "value"),
    [
        ("Spruce, white", "bending_modulus_12", 9.86e9),
        ("Spruce, Engelmann", "bending_modulus_12", 8.963e9),
        ("Hemlock, western", "shear_parallel_12", 8.894e6),
        ("Ash, white", "bending_strength_12", 103e6),
        ("Pine, western white", "gravity_green", 0.35),
    ],
)
def test_preferred_values_win(name, field, value):
    """Where the table names a better value than the printed one, that value is used."""
    assert getattr(_find(name), field) == pytest.approx(value)


# From species to board


def test_tested_values_win():
    """What was measured on a board stands as it is."""
    wood = _wood("Sitka spruce", modulus=9.9e9, density=401.0)
    assert (wood.modulus, wood.density) == (9.9e9, 401.0)


def test_density_by_default():
    """Untested density is 1000 G (1 + M) with G at 12 %: spruce of 0.40 at 12 % and at 10 %."""
    assert _wood("Sitka spruce").density == pytest.approx(448)
    assert _wood("Sitka spruce", moisture=0.10).density == pytest.approx(440)


def test_density_from_green_gravity():
    """Teak has only a green gravity, 0.55 (Table 5-5a): dry to 12 % it shrinks 0.6 of 26.5 x 0.55 %."""
    shrinkage = 0.265 * 0.55 * (1 - 0.12 / 0.30)
    assert _wood("teak").density == pytest.approx(1000 * 0.55 / (1 - shrinkage) * 1.12)


def test_modulus_in_dry_and_wet_shops():
    """The table's modulus is taken at the moisture of the shop, and 10 % of shear on top.

    Sitka spruce, 8.5 GPa green and 10.8 at 12 %, moisture point 27 %: 3 % is a fifth of the way.
    """
    step = (10.8 / 8.5) ** 0.2
    assert _wood("Sitka spruce", moisture=0.15).modulus == pytest.approx(1.1 * 10.8e9 / step)
    assert _wood("Sitka spruce", moisture=0.09).modulus == pytest.approx(1.1 * 10.8e9 * step)


def test_strength_in_service():
    """Strength is the lower fifth, at the board's grain, 3 % wetter than the shop.

    Sitka spruce, 39 MPa green and 70 at 12 %, moisture point 27 %: 3 % is a fifth of the way.
    """
    step = (39 / 70) ** 0.2
    expected = 70e6 * (1 - 1.645 * 0.16) * 0.93 * step
    assert _wood("Sitka spruce", grain_slope=1 / 20).strength == pytest.approx(expected)
    drier = _wood("Sitka spruce", grain_slope=1 / 20, moisture=0.09).strength
    assert drier == pytest.approx(expected / step)


def test_grain_by_default():
    """Untold grain is taken at 1 in 15."""
    assert _wood("Sitka spruce").strength == _wood("Sitka spruce", grain_slope=1 / 15).strength


def test_a_wood_without_green_values():
    """Balsa has no green strength (Table 5-5a): 4 % of strength and 2 % of modulus go with each 1 % of moisture."""
    balsa = _find("balsa")
    assert balsa.bending_strength_green is balsa.bending_modulus_green is None
    damp = _wood("balsa", moisture=0.14, grain_slope=0.0)
    assert damp.modulus == pytest.approx(1.1 * 3.4e9 * 0.96)
    assert damp.strength == pytest.approx(21.6e6 * (1 - 1.645 * 0.16) * 0.80)  # 14 % in the shop, 17 % in service


def test_simple_moisture_rule():
    """Drier than 12 % the plain rule gains as much as it loses wetter."""
    assert simple_moisture_factor(moisture=np.array([0.10, 0.12, 0.15]), per_percent=0.04) == pytest.approx(
        [1.08, 1, 0.88]
    )


def test_grain_across():
    """Across the grain a wood has its tangential modulus and the lower fifth of its tension across.

    White ash: E_T/E_L 0.080 and 6.5 MPa (Tables 5-1 and 5-3a), COV 25 % (Table 5-6).
    """
    cap = _wood("white ash", modulus=13e9, grain="across")
    assert cap.modulus == pytest.approx(1.04e9)
    assert cap.strength == pytest.approx(6.5e6 * (1 - 1.645 * 0.25))
    assert cap.density == _wood("white ash").density


def test_what_the_table_lacks_is_refused():
    """A wood without a tension across cannot lie across; the refusal names it and its origin."""
    with pytest.raises(BadDesign, match=r"no tension across for Spruce, black \(USA\)"):
        _wood("black spruce", grain="across")


@pytest.mark.parametrize("slope", [0.21, 1 / 4, -0.01])
def test_grain_too_steep(slope):
    """Grain steeper than 1 in 5 has no place in an oar, nor has a slope below nil."""
    with pytest.raises(BadDesign, match="no strength is known"):
        _wood("Sitka spruce", grain_slope=slope)


def test_grain_between_rows():
    """Between two rows of the table the share is linear in the slope: half-way between 1:10 and 1:5."""
    assert slope_factor(slope=0.15, table=grain_table()) == pytest.approx((0.81 + 0.55) / 2)
    assert slope_factor(slope=0.02, table=grain_table()) == pytest.approx(0.98)


def test_a_table_of_ones_own():
    """The grain table is handed in, not looked up."""
    table = GrainTable(slopes=(0.1,), shares=(0.5,))
    assert slope_factor(slope=0.05, table=table) == pytest.approx(0.75)


def test_arrays():
    """Boards may be an array: each with its own modulus, moisture and grain."""
    moisture, slope = np.array([0.10, 0.13]), np.array([1 / 20, 1 / 12])
    many = _wood("Sitka spruce", moisture=moisture, grain_slope=slope)
    for index in range(2):
        one = _wood("Sitka spruce", moisture=moisture[index], grain_slope=slope[index])
        for name in ("modulus", "shear_modulus", "density", "strength"):
            assert getattr(many, name)[index] == pytest.approx(getattr(one, name)), name


def test_working():
    """The working of a wood holds the numbers it was made of."""
    wood = _wood("Sitka spruce", grain_slope=1 / 20)
    lines = {line.name: line for line in wood.working}
    assert lines["wood.strength"].result.value == wood.strength
    assert lines["wood.strength"].numbers["f_mean"].value == 70e6
    assert lines["wood.slope_share"].result.value == pytest.approx(0.93)
    assert lines["wood.density"].result.value == wood.density


def test_in_the_head():
    """Half a ton of gravity 0.5 and no water; a mean of 100 MPa less 1.645 times 10 %."""
    assert density_at(gravity=0.5, moisture=0.0) == 500
    assert lower_fifth(mean=100e6, variation=0.10) == pytest.approx(83.55e6)
