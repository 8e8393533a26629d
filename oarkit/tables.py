"""Reads the tables that travel with oarkit and hands them to the core as plain records."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from oarkit.rig.ranges import TradeRange
from oarkit.rower.body import Regression
from oarkit.wood.grain import GrainTable
from oarkit.wood.service import FatigueRow, TemperatureEffect
from oarkit.wood.species import Species


def data_folder(name: str = "data") -> Path:
    """Folder of the files that travel with oarkit, in a wheel or in a checkout.

    Parameters
    ----------
    name : str, optional
        "data" or "notebooks". [text]

    Returns
    -------
    Path
        The folder. [path]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> (data_folder() / "words.csv").is_file()
    True
    """
    package = Path(__file__).parent
    inside = package / name
    return inside if inside.is_dir() else package.parent / name


def rows(name: str) -> list[dict[str, str]]:
    """Rows of a table under the data folder.

    Parameters
    ----------
    name : str
        File name, e.g. "strength.csv". [text]

    Returns
    -------
    list of dict
        One dict a row, cells as text. [text]

    Notes
    -----
    Source: each row names its own, with its status.

    Examples
    --------
    >>> rows("strength.csv")[1]["species_common"]
    'Spruce, Sitka'
    """
    with (data_folder() / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _float(cell: str | None, factor: float = 1.0) -> float | None:
    return float(cell) * factor if cell else None


def _preferred(row: dict[str, str]) -> dict[str, str]:
    """A strength row with its preferred values in place of the printed ones."""
    better = dict(pair.split("=") for pair in row["prefer"].split(";") if pair)
    return {**row, **better}


#: Property of the species record to its column of the strength table and the factor to SI.
_PROPERTIES = {
    "gravity": ("specific_gravity", 1.0),
    "bending_strength": ("mor_kpa", 1e3),
    "bending_modulus": ("moe_mpa", 1e6),
    "work_to_maximum": ("work_to_max_load_kj_m3", 1e3),
    "impact": ("impact_bending_mm", 1e-3),
    "compression_parallel": ("compression_parallel_kpa", 1e3),
    "compression_across": ("compression_perp_kpa", 1e3),
    "shear_parallel": ("shear_parallel_kpa", 1e3),
    "tension_across": ("tension_perp_kpa", 1e3),
    "hardness": ("side_hardness_n", 1.0),
}


@cache
def species_table() -> tuple[Species, ...]:
    """Every species and origin of the wood tables.

    Returns
    -------
    tuple of Species
        In the order of the tables. [records]

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), Tables 4-3, 5-1, 5-3a, 5-4a, 5-5a, 5-6, 5-13; movement from
    FPL-GTR-190 (2010), Table 13-5.

    Examples
    --------
    >>> species_table()[0].name
    'Spruce, Sitka'
    """
    proper: dict[str, list[str]] = {}
    for row in rows("wood_names.csv"):
        proper.setdefault(row["name"], []).append(row["species_common"])
    elastic = {
        name: row
        for row in rows("elastic_ratios.csv")
        for name in [row["species_common"], *proper.get(row["species_common"], [])]
    }
    points = {row["species_common"]: float(row["moisture_point_pct"]) / 100 for row in rows("moisture_points.csv")}
    shrinkage = {row["species_common"]: row for row in rows("shrinkage.csv")}
    movement = {row["species_common"]: row for row in rows("movement.csv")}
    spread = {
        row["strength_column"]: float(row["coefficient_of_variation_pct"]) / 100 for row in rows("variability.csv")
    }
    variations = {f"{prop}_variation": spread[column] for prop, (column, _) in _PROPERTIES.items()}
    pairs: dict[tuple[str, str], dict[str, dict[str, str]]] = {}
    for row in map(_preferred, rows("strength.csv")):
        pairs.setdefault((row["species_common"], row["origin"]), {})[row["moisture"]] = row
    table = []
    for (name, origin), pair in pairs.items():
        row, ratios = pair.get("12") or pair["green"], elastic.get(name, {})
        shrinks, moves = shrinkage.get(name, {}), movement.get(name, {})
        table.append(
            Species(
                name=name,
                scientific=row["species_scientific"],
                kind=row["kind"],
                origin=origin,
                tangential_ratio=_float(ratios.get("ET_over_EL")),
                radial_ratio=_float(ratios.get("ER_over_EL")),
                shear_ratio_radial=_float(ratios.get("GLR_over_EL")),
                shear_ratio_tangential=_float(ratios.get("GLT_over_EL")),
                moisture_point=points.get(name, points["any other"]),
                radial_shrinkage=_float(shrinks.get("radial_pct"), 0.01),
                tangential_shrinkage=_float(shrinks.get("tangential_pct"), 0.01),
                volumetric_shrinkage=_float(shrinks.get("volumetric_pct"), 0.01),
                shrinkage_quoted=shrinks.get("status") == "quoted",
                radial_movement=_float(moves.get("radial_per_pct")),
                tangential_movement=_float(moves.get("tangential_per_pct")),
                source=row["source"],
                status=row["status"],
                note=row["note"],
                **_clear_values(pair),
                **variations,
            )
        )
    return tuple(table)


def _clear_values(pair: dict[str, dict[str, str]]) -> dict[str, Any]:
    """Every property of a species at 12 % and green, by the field of the record."""
    return {
        f"{prop}_{moisture}": _float(pair.get(moisture, {}).get(column), factor)
        for prop, (column, factor) in _PROPERTIES.items()
        for moisture in ("12", "green")
    }


@cache
def other_names() -> dict[str, str]:
    """Names in use that differ from the table's, to the one species they mean.

    Returns
    -------
    dict
        Other name to table name; a name of several species is left out. [text]

    Notes
    -----
    Source: common practice and the handbook's own elastic tables; see ``data/wood_names.csv``.

    Examples
    --------
    >>> other_names()["yellow-cedar"]
    'Cedar, yellow (Alaska)'
    """
    listed = [(row["name"], row["species_common"]) for row in rows("wood_names.csv")]
    return {name: proper for name, proper in listed if sum(n == name for n, _ in listed) == 1}


@cache
def trade_ranges() -> tuple[TradeRange, ...]:
    """What is customary at a rowing station.

    Returns
    -------
    tuple of TradeRange
        In the order of the table, SI. [records]

    Notes
    -----
    Source: ``data/rules.csv``; each row names its own, most are common practice.

    Examples
    --------
    >>> trade_ranges()[0].quantity, trade_ranges()[0].low
    ('span', 1.016)
    """
    return tuple(
        TradeRange(
            rule=row["rule"],
            quantity=row["quantity"],
            low=_float(row["low"]),
            typical=_float(row["typical"]),
            high=_float(row["high"]),
            unit=row["unit"],
            source=row["source"],
            note=row["note"],
        )
        for row in rows("rules.csv")
    )


@cache
def grain_table() -> GrainTable:
    """Loss of bending strength with slope of grain.

    Returns
    -------
    GrainTable
        Slopes and shares. [1]

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), Table 5-12, p. 5-31.

    Examples
    --------
    >>> grain_table().shares[2]
    0.89
    """
    table = rows("slope_of_grain.csv")
    return GrainTable(
        slopes=tuple(float(Fraction(row["slope"].replace(":", "/"))) for row in table),
        shares=tuple(float(row["mor_pct"]) / 100 for row in table),
        impact=tuple(float(row["impact_pct"]) / 100 for row in table),
        compression=tuple(float(row["compression_parallel_pct"]) / 100 for row in table),
    )


@cache
def temperature_table() -> dict[str, TemperatureEffect]:
    """Change of each property with temperature.

    Returns
    -------
    dict
        Property to its changes at -50 and +50 °C. [1]

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), Table 5-15, p. 5-36.

    Examples
    --------
    >>> temperature_table()["bending_strength"].hot_changes[2]
    -0.2
    """
    changes: dict[str, list[dict[str, str]]] = {}
    for row in rows("temperature.csv"):
        changes.setdefault(row["property"], []).append(row)
    table = {}
    for prop, printed in changes.items():
        cold, hot = (_at_moistures(printed, column) for column in ("at_minus_50_pct", "at_50_pct"))
        table[prop] = TemperatureEffect(
            prop=prop, cold_moistures=cold[0], cold_changes=cold[1], hot_moistures=hot[0], hot_changes=hot[1]
        )
    return table


def _at_moistures(printed: list[dict[str, str]], column: str) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Both ends of each printed range of moistures, and the change printed for it."""
    points = {
        float(row[end]) / 100: float(row[column]) / 100
        for row in printed
        if row[column]
        for end in ("moisture_from_pct", "moisture_to_pct")
    }
    return tuple(points), tuple(points.values())


@cache
def fatigue_table() -> tuple[FatigueRow, ...]:
    """Fatigue tests of wood.

    Returns
    -------
    tuple of FatigueRow
        In the order of the table. [records]

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), Table 5-17, p. 5-41.

    Examples
    --------
    >>> fatigue_table()[0].specimen
    'clear, cantilever'
    """
    return tuple(
        FatigueRow(
            prop=row["property"],
            kind=row["kind"],
            specimen=row["specimen"],
            range_ratio=float(row["range_ratio"]),
            share=float(row["peak_stress_pct"]) / 100,
            cycles=float(row["cycles_million"]) * 1e6,
            source=row["source"],
        )
        for row in rows("fatigue.csv")
    )


@cache
def body_table() -> dict[tuple[str, str], Regression]:
    """Regressions of body sizes on stature and mass.

    Returns
    -------
    dict
        (body, dimension name of the survey) to its regression. [m, 1, m/kg]

    Notes
    -----
    Source: ANSUR II, NATICK/TR-15/007 (2014).

    Examples
    --------
    >>> round(body_table()["male", "thighclearance"].standard_error, 4)
    0.0084
    """
    return {
        (row["sex"], row["ansur_name"]): Regression(
            dimension=row["dimension"],
            constant=float(row["sm_c0"]) / 1e3,
            per_stature=float(row["sm_c_stature"]),
            per_mass=float(row["sm_c_mass"]) / 1e3,
            standard_error=float(row["sm_see"]) / 1e3,
            source=row["source"],
        )
        for row in rows("anthropometry.csv")
        if row["sm_c0"]
    }


@dataclass(frozen=True, slots=True, kw_only=True)
class Word:
    """One entry of the glossary."""

    name: str
    word: str
    symbol: str
    unit: str
    meaning: str


@cache
def words() -> dict[str, Word]:
    """The glossary, by result name or by word.

    Returns
    -------
    dict
        Name to its entry. [records]

    Notes
    -----
    Source: ``data/words.csv``; each row names its own.

    Examples
    --------
    >>> words()["rig.span"].word
    'span'
    """
    return {
        row["name"]: Word(**{key: row[key] for key in ("name", "word", "symbol", "unit", "meaning")})
        for row in rows("words.csv")
    }
