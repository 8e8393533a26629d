"""Reads the tables that travel with oarkit and hands them to the core as plain records."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path

from oarkit.rig.ranges import TradeRange
from oarkit.rower.body import Regression
from oarkit.wood.adjust import GrainTable
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


@cache
def species_table() -> tuple[Species, ...]:
    """Every species and origin of the wood tables.

    Returns
    -------
    tuple of Species
        In the order of the tables. [records]

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), Tables 5-1, 5-3a, 5-4a, 5-5a, 5-6, 5-13.

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
    spread = {
        row["strength_column"]: float(row["coefficient_of_variation_pct"]) / 100 for row in rows("variability.csv")
    }
    pairs: dict[tuple[str, str], dict[str, dict[str, str]]] = {}
    for row in map(_preferred, rows("strength.csv")):
        pairs.setdefault((row["species_common"], row["origin"]), {})[row["moisture"]] = row
    table = []
    for (name, origin), pair in pairs.items():
        dry, green = pair.get("12", {}), pair.get("green", {})
        row, ratios = dry or green, elastic.get(name, {})
        table.append(
            Species(
                name=name,
                scientific=row["species_scientific"],
                kind=row["kind"],
                origin=origin,
                gravity_12=_float(dry.get("specific_gravity")),
                gravity_green=_float(green.get("specific_gravity")),
                bending_strength_12=_float(dry.get("mor_kpa"), 1e3),
                bending_strength_green=_float(green.get("mor_kpa"), 1e3),
                bending_modulus_12=_float(dry.get("moe_mpa"), 1e6),
                bending_modulus_green=_float(green.get("moe_mpa"), 1e6),
                compression_parallel_12=_float(dry.get("compression_parallel_kpa"), 1e3),
                compression_across_12=_float(dry.get("compression_perp_kpa"), 1e3),
                compression_across_green=_float(green.get("compression_perp_kpa"), 1e3),
                shear_parallel_12=_float(dry.get("shear_parallel_kpa"), 1e3),
                tension_across_12=_float(dry.get("tension_perp_kpa"), 1e3),
                tangential_ratio=_float(ratios.get("ET_over_EL")),
                radial_ratio=_float(ratios.get("ER_over_EL")),
                shear_ratio_radial=_float(ratios.get("GLR_over_EL")),
                shear_ratio_tangential=_float(ratios.get("GLT_over_EL")),
                moisture_point=points.get(name, points["any other"]),
                bending_variation=spread["mor_kpa"],
                compression_across_variation=spread["compression_perp_kpa"],
                tension_across_variation=spread["tension_perp_kpa"],
                source=row["source"],
                status=row["status"],
                note=row["note"],
            )
        )
    return tuple(table)


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
