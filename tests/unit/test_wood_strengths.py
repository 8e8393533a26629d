"""A board's strength in each way it can fail, and what no board can be."""

from dataclasses import replace

import numpy as np
import pytest

from oarkit.tables import grain_table, other_names, species_table
from oarkit.wood.advice import board_findings
from oarkit.wood.bearing import crushing_strength
from oarkit.wood.board import Board, Wood, check_board, shop_moisture, wood_of_board
from oarkit.wood.grain import GrainTable
from oarkit.wood.species import find_species
from oarkit.wood.strengths import mean_at, needed
from oarkit.working import BadDesign, Working

WAYS = ("crushing", "bearing", "shear_strength", "splitting")


def _board(name: str, **known) -> Board:
    return Board(species=find_species(name, species_table(), other_names()), **known)


def _wood(name: str, **known) -> Wood:
    return wood_of_board(_board(name, **known), grain_table=grain_table())


def _lines(wood: Wood) -> dict:
    return {line.name: line for line in (*wood.working, *wood.strength_working)}


def test_at_the_moisture_of_the_table():
    """At 9 % in the shop a board is at 12 % in service: the lower fifth of the printed means, nothing else.

    Sitka spruce: 38.7, 4.0, 7.9 and 2.6 MPa (Wood Handbook FPL-GTR-282 (2021), Table 5-3a), 1:20 taking nothing from
    compression (Table 5-12), and the spreads of Table 5-6.
    """
    wood = _wood("Sitka spruce", moisture=0.09, grain_slope=1 / 20)
    assert wood.crushing == pytest.approx(38.7e6 * (1 - 1.645 * 0.18))
    assert wood.bearing == pytest.approx(4.0e6 * (1 - 1.645 * 0.28))
    assert wood.shear_strength == pytest.approx(7.9e6 * (1 - 1.645 * 0.14))
    assert wood.splitting == pytest.approx(2.6e6 * (1 - 1.645 * 0.25))


def test_steep_grain_weakens_bending_and_crushing_alone():
    """At 1:5 crushing keeps 93 % and bending 55 % (Table 5-12); shear, bearing and splitting are as they were."""
    straight, steep = (_wood("white ash", grain_slope=slope) for slope in (0.0, 1 / 5))
    assert steep.crushing == pytest.approx(0.93 * straight.crushing)
    assert steep.strength == pytest.approx(0.55 * straight.strength)
    for way in ("bearing", "shear_strength", "splitting"):
        assert getattr(steep, way) == getattr(straight, way)


def test_damp_weakens_all_but_splitting():
    """Tension across the grain follows no law of moisture (p. 5-34); every other strength falls in a damp shop."""
    dry, damp = (_wood("white ash", moisture=m) for m in (0.10, 0.15))
    assert damp.splitting == dry.splitting
    assert all(getattr(damp, way) < getattr(dry, way) for way in ("strength", "crushing", "bearing", "shear_strength"))


def test_mean_strength():
    """The mean strength is the strength without the lower fifth."""
    wood = _wood("Sitka spruce")
    assert wood.strength == pytest.approx(wood.mean_strength * (1 - 1.645 * 0.16))


def test_what_the_table_lacks_is_none():
    """Black spruce has no tension across the grain (Table 5-3a): its splitting is not known, the rest is."""
    wood = _wood("black spruce")
    assert wood.splitting is None
    assert all(getattr(wood, way) is not None for way in WAYS[:3])


def test_without_green_values_the_plain_rule_serves():
    """Balsa has no green values: 15 % in service costs 3 x 6 % of crushing and 3 x 3 % of shear."""
    balsa = _board("balsa", grain_slope=0.0)
    wood = wood_of_board(balsa, grain_table=grain_table())
    assert wood.crushing == pytest.approx(balsa.species.compression_parallel_12 * 0.82 * (1 - 1.645 * 0.18))
    assert wood.shear_strength == pytest.approx(balsa.species.shear_parallel_12 * 0.91 * (1 - 1.645 * 0.14))


def test_laid_across():
    """Laid across, a piece is pressed across its grain either way, its shear rolls, its splitting is its bending.

    White ash 12 to 24 %, 3 % a quarter of the way: 8.0 MPa across (4.6 green), 13.2 shear (9.3), 103 bending (66).
    """
    ash = _board("white ash", grain="across", grain_slope=0.0)
    wood = wood_of_board(ash, grain_table=grain_table())
    species = ash.species
    assert (species.compression_across_12, species.shear_parallel_12) == (8.0e6, 13.2e6)
    across = 8.0e6 * (species.compression_across_green / 8.0e6) ** 0.25 * (1 - 1.645 * 0.28)
    assert wood.crushing == wood.bearing == pytest.approx(across)
    shear = 13.2e6 * (species.shear_parallel_green / 13.2e6) ** 0.25 * (1 - 1.645 * 0.14)
    assert wood.shear_strength == pytest.approx(0.18 * shear)
    assert wood.splitting == pytest.approx(103e6 * (66 / 103) ** 0.25 * (1 - 1.645 * 0.16))
    assert wood.splitting > 10 * _wood("white ash", grain_slope=0.0).splitting  # why a tip is capped
    assert wood.mean_strength == pytest.approx(6.5e6)


def test_bearing_is_what_a_washer_is_checked_against():
    """The strength under a washer and the bearing of the wood are one number."""
    ash = _board("white ash", moisture=0.11)
    assert crushing_strength(ash, work=Working()) == wood_of_board(ash, grain_table=grain_table()).bearing


def test_each_strength_has_its_line():
    """Every strength stands in the working with the number that is used."""
    wood = _wood("Sitka spruce")
    lines = _lines(wood)
    names = {"crushing": "wood.crushing", "bearing": "wood.across_strength", "shear_strength": "wood.shear_strength",
             "splitting": "wood.splitting", "mean_strength": "wood.mean_strength",
             "strength": "wood.strength"}  # fmt: skip
    for way, name in names.items():
        assert lines[name].result.value == getattr(wood, way), way
    assert len(lines) == len(wood.working) + len(wood.strength_working)  # no line stands twice


def test_the_working_is_kept_apart():
    """The sheet prints what the bending needs; the lines of the other strengths wait for the checks that use them."""
    wood = _wood("Sitka spruce")
    names = [line.name for line in wood.working]
    assert names == ["wood.table_modulus", "wood.modulus", "wood.density", "wood.slope_share", "wood.wet_strength",
                     "wood.strength"]  # fmt: skip


def test_one_shear_rule_or_the_other():
    """A table modulus is raised by 10 % and says so; a tested one is taken as it is and says so; never both."""
    table, tested = _wood("Sitka spruce"), _wood("Sitka spruce", modulus=11.0e9)
    assert _lines(table)["wood.modulus"].formula == "E = 1.10 E_t"
    assert "as tested" in _lines(tested)["wood.modulus"].formula
    assert "wood.table_modulus" not in _lines(tested)
    assert (table.modulus, tested.modulus) == (pytest.approx(1.1 * 10.8e9), 11.0e9)


@pytest.mark.parametrize("status", ["read", "quoted", "memory"])
def test_quoted(status):
    """A wood says whether its values were quoted second-hand."""
    board = replace(_board("Sitka spruce"), species=replace(_board("Sitka spruce").species, status=status))
    assert wood_of_board(board, grain_table=grain_table()).quoted is (status != "read")


def test_a_grain_table_of_bending_alone():
    """A table without a column for compression leaves the slope out of crushing."""
    table = GrainTable(slopes=(0.2,), shares=(0.5,))
    wood = wood_of_board(_board("Sitka spruce", grain_slope=0.2, moisture=0.09), grain_table=table)
    assert wood.crushing == pytest.approx(38.7e6 * (1 - 1.645 * 0.18))
    with pytest.raises(BadDesign, match="no column for compression"):
        table.column("compression")


def test_arrays():
    """Boards may be an array in every way of failing."""
    moisture, slope = np.array([0.10, 0.13]), np.array([1 / 20, 1 / 6])
    many = _wood("white ash", moisture=moisture, grain_slope=slope)
    for i in range(2):
        one = _wood("white ash", moisture=moisture[i], grain_slope=slope[i])
        for way in (*WAYS, "mean_strength"):
            assert np.broadcast_to(getattr(many, way), 2)[i] == pytest.approx(getattr(one, way)), way


# What no board can be


@pytest.mark.parametrize(
    ("known", "said"),
    [
        ({"moisture": 0.31}, "green wood; dry it"), ({"moisture": 0.65}, "above the"),
        ({"moisture": -0.01}, "cannot hold"),
        ({"moisture": np.array([0.12, 0.40])}, "green wood"), ({"modulus": 0.0}, "a modulus of"),
        ({"modulus": -1e9}, "or leave it out"), ({"density": 0.0}, "a density of"),
    ],
)  # fmt: skip
def test_no_such_board(known, said):
    """Moisture above saturation or below nil, and a modulus or density of nothing, are refused with the wood's name."""
    with pytest.raises(BadDesign, match="the board of Spruce, Sitka") as refused:
        _wood("Sitka spruce", **known)
    assert said in str(refused.value)


def test_wood_at_saturation_is_green():
    """At 30 % a board may still be told, with the strength of green wood: 39 MPa (Table 5-3a)."""
    wood = _wood("Sitka spruce", moisture=0.30, grain_slope=0.0)
    assert wood.strength == pytest.approx(39e6 * (1 - 1.645 * 0.16))


@pytest.mark.parametrize(("moisture", "codes"), [(0.23, ["moisture"]), (0.24, ["moisture", "green"])])
def test_strength_of_green_wood_is_told(moisture, codes):
    """From 27 % in service on Sitka spruce counts as green (Table 5-13), and that is said."""
    found = board_findings(_board("Sitka spruce", moisture=moisture, grain_slope=1 / 20), part="edge")
    assert [finding.code for finding in found] == codes


@pytest.mark.parametrize("slope", [0.25, -0.1, np.array([0.1, -0.2])])
def test_the_slope_that_is_wrong_is_named(slope):
    """A refused slope is the one that is steeper than 1:5 or below nil."""
    with pytest.raises(BadDesign, match="choose a straighter board") as refused:
        _wood("Sitka spruce", grain_slope=slope)
    wrong = refused.value.quantities["slope"].value
    assert wrong < 0 or wrong > 0.2


def test_shop_moisture():
    """A board's moisture is what was measured, else 12 %."""
    assert (shop_moisture(_board("ash")), shop_moisture(_board("ash", moisture=0.09))) == (0.12, 0.09)
    check_board(_board("ash"))


def test_a_value_that_is_needed():
    """What is needed and not in the table is refused with the wood and its origin."""
    spruce = _board("black spruce").species
    assert needed(spruce, "hardness_12") == 2400
    with pytest.raises(BadDesign, match=r"no tension across for Spruce, black \(USA\)"):
        mean_at(spruce, "tension_across", moisture=0.12, work=Working())


@pytest.mark.parametrize("moisture", [0.22, 0.27, 0.30])
def test_no_strength_of_a_wet_board_falls_below_nil(moisture):
    """Past the moisture point of 25 % the plain rule changes nothing more, like the law: 1 - 13 x 6 % of crushing."""
    wood = _wood("balsa", moisture=moisture)
    told = [wood.strength, wood.crushing, wood.bearing, wood.shear_strength]
    assert all(strength is None or float(strength) > 0 for strength in told)
    species = _board("balsa").species
    if moisture + 0.03 >= 0.25:
        lower = species.compression_parallel_12 * (1 - 13 * 0.06) * (1 - 1.645 * 0.18)  # Table 5-6: 18 %
        along = float(grain_table().column("compression")[2])  # 1:15, as where nothing is said
        assert float(wood.crushing) == pytest.approx(lower * along)


def test_no_name_of_a_line_stands_twice_where_the_plain_rule_serves():
    """Balsa has no green values: bending and modulus each have a share of their own."""
    wood = _wood("balsa")
    names = [line.name for line in (*wood.working, *wood.strength_working)]
    assert len(names) == len(set(names))
