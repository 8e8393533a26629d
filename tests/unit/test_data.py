"""The tables that travel with oarkit: every row has its source and status, and the glossary covers the results."""

import csv

import pytest

from oarkit.design import RESULT_UNITS
from oarkit.tables import data_folder, rows, words

#: An invented class to start from: an example file, not a table of facts.
EXAMPLES = {"roster.csv", "roster_boards.csv"}
TABLES = sorted(path.name for path in data_folder().glob("*.csv") if path.name not in EXAMPLES)
STATUSES = {"read", "quoted", "memory", "derived", "practice"}


def test_there_are_tables():
    """The tables that the core needs are there."""
    needed = {"strength.csv", "elastic_ratios.csv", "slope_of_grain.csv", "anthropometry.csv", "words.csv"}
    assert needed <= set(TABLES)


@pytest.mark.parametrize("name", TABLES)
def test_table_is_whole(name):
    """Every row has as many cells as the table has columns, and no heading stands twice."""
    with (data_folder() / name).open(encoding="utf-8", newline="") as file:
        heading, *body = list(csv.reader(file))
    assert len(heading) == len(set(heading))
    assert all(heading)
    assert body
    for number, row in enumerate(body, 2):
        assert len(row) == len(heading), f"line {number}"


@pytest.mark.parametrize("name", TABLES)
def test_every_row_has_its_source(name):
    """Every row tells its source and how far it was checked, and has a place for a note."""
    for number, row in enumerate(rows(name), 2):
        assert {"source", "status", "note"} <= set(row)
        assert row["source"].strip(), f"line {number}"
        assert row["status"] in STATUSES, f"line {number}: {row['status']!r}"
        assert row["note"] is not None, f"line {number}"


@pytest.mark.parametrize("name", TABLES)
def test_no_row_stands_twice(name):
    """No two rows are alike."""
    seen = [tuple(row.values()) for row in rows(name)]
    assert len(seen) == len(set(seen))


def test_strength_rows_come_in_pairs():
    """Each species and origin has one green row and one at 12 %."""
    keys = [(row["species_common"], row["origin"], row["moisture"]) for row in rows("strength.csv")]
    assert len(keys) == len(set(keys))
    assert {moisture for *_, moisture in keys} == {"green", "12"}


def test_preferred_values_name_columns():
    """A preferred value names a column of its table and is a number."""
    table = rows("strength.csv")
    for row in table:
        for pair in filter(None, row["prefer"].split(";")):
            column, value = pair.split("=")
            assert column in row
            assert float(value) > 0


def test_other_names_lead_to_woods():
    """Every other name leads to a wood of the strength table."""
    woods = {row["species_common"] for row in rows("strength.csv")}
    for row in rows("wood_names.csv"):
        assert row["species_common"] in woods, row["name"]


def test_grain_table_falls():
    """Shares fall as the grain steepens, from the flattest row on."""
    table = rows("slope_of_grain.csv")
    runs = [float(row["slope"].removeprefix("1:")) for row in table]
    shares = [float(row["mor_pct"]) for row in table]
    assert runs == sorted(runs, reverse=True)
    assert shares == sorted(shares, reverse=True)


# The glossary


def test_glossary_is_filled():
    """Each entry has a word, a symbol, a unit and a meaning, "–" where there is none."""
    for row in rows("words.csv"):
        for column in ("name", "word", "symbol", "unit", "meaning"):
            assert row[column].strip(), (row["name"], column)


@pytest.mark.parametrize("column", ["name", "word"])
def test_one_name_for_one_thing(column):
    """No name and no word stands for two things."""
    listed = [row[column] for row in rows("words.csv")]
    assert sorted(listed) == sorted(set(listed))


def test_one_symbol_for_one_result():
    """No symbol stands for two results."""
    symbols = [
        row["symbol"] for row in rows("words.csv") if row["name"].startswith(("rig.", "oar.", "stroke.", "strength."))
    ]
    assert sorted(symbols) == sorted(set(symbols))


@pytest.mark.parametrize("name", RESULT_UNITS)
def test_every_result_is_in_the_glossary(name):
    """Each result is explained, in the unit it is given in."""
    assert words()[name].unit == RESULT_UNITS[name]
