"""A board of a species: what was measured on it wins, the table supplies the rest."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from oarkit.wood import adjust
from oarkit.wood.species import Species
from oarkit.working import BadDesign, Line, Number, Working

STOCK_SLOPE = 1 / 15  #: steepest grain of stock for light structures, taken where none is given
SHOP_MOISTURE = 0.12
SERVICE_MOISTURE_RISE = 0.03  #: an oar in use is that much wetter than in the shop, a choice of this project
ACROSS_RATIO = 0.045  #: E_T/E_L of unlisted species, ANC-18 (1944), sec. 2.130
ACROSS_SHEAR_RATIO = 0.01  #: G_RT/E_L of unlisted species, ANC-18 (1944), sec. 2.131
SHEAR_MODULUS_DIVISOR = 16  #: mean G is about E_L/16, Wood Handbook ch. 9


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """A board as the builder knows it; None where it was not tested."""

    species: Species
    modulus: Number | None = None
    density: Number | None = None
    grain_slope: Number | None = None
    moisture: Number | None = None
    grain: Literal["along", "across"] = "along"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wood:
    """What the oar needs of a wood, along the oar's length. Pa and kg/m3; ``working`` says how it was got."""

    name: str
    modulus: Number
    shear_modulus: Number
    density: Number
    strength: Number
    working: tuple[Line, ...]


def wood_of_board(board: Board, *, grain_table: adjust.GrainTable) -> Wood:
    """Modulus, density and adjusted strength of a board along the oar.

    Parameters
    ----------
    board : Board
        Species and what was measured. [record]
    grain_table : GrainTable
        Loss of strength with slope of grain. [1]

    Returns
    -------
    Wood
        Shear-free modulus and density at shop moisture, lower 5 % strength at shop moisture + 3 %. [Pa, kg/m3]

    Raises
    ------
    BadDesign
        The table has no value that is needed, or the grain is too steep.

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), ch. 4 and 5. A tested modulus is shear-free as it is; a table
    modulus holds the shear of a 14:1 beam and is raised by 10 % (Table 5-3a, footnote c).

    Examples
    --------
    >>> from oarkit.tables import grain_table, species_table
    >>> from oarkit.wood.species import find_species
    >>> sitka = Board(species=find_species("Sitka spruce", species_table()), grain_slope=1 / 15)
    >>> wood = wood_of_board(sitka, grain_table=grain_table())
    >>> round(float(wood.modulus) / 1e9, 2), round(float(wood.strength) / 1e6, 1)
    (11.88, 40.8)
    """
    species, work = board.species, Working()
    moisture = SHOP_MOISTURE if board.moisture is None else board.moisture
    modulus = _modulus(board, moisture, work)
    if board.grain == "across":
        ratio = species.tangential_ratio or ACROSS_RATIO
        across = work("wood.across", adjust.across_modulus, modulus=modulus, ratio=ratio)
        return Wood(
            name=species.name,
            modulus=across,
            shear_modulus=modulus * ACROSS_SHEAR_RATIO,
            density=_density(board, moisture, work),
            strength=work(
                "wood.strength", adjust.lower_fifth,
                mean=_needed(species, "tension_across_12"), variation=species.tension_across_variation,
            ),
            working=tuple(work.lines),
        )  # fmt: skip
    radial, tangential = species.shear_ratio_radial, species.shear_ratio_tangential
    shear_ratio = math.sqrt(radial * tangential) if radial and tangential else 1 / SHEAR_MODULUS_DIVISOR
    return Wood(
        name=species.name,
        modulus=modulus,
        shear_modulus=modulus * shear_ratio,
        density=_density(board, moisture, work),
        strength=_strength(board, moisture, grain_table, work),
        working=tuple(work.lines),
    )


def _modulus(board: Board, moisture: Number, work: Working) -> Number:
    if board.modulus is not None:
        tested: Number = work("wood.modulus", adjust.tested_modulus, tested=board.modulus)
        return tested
    tabulated = _at(board.species, "bending_modulus", moisture, 0.02, work, "wood.table_modulus")
    modulus: Number = work("wood.modulus", adjust.shear_free_modulus, tabulated=tabulated)
    return modulus


def _density(board: Board, moisture: Number, work: Working) -> Number:
    if board.density is not None:
        return board.density
    gravity = board.species.gravity_12
    if gravity is None:
        green = _needed(board.species, "gravity_green")
        gravity = work("wood.gravity", adjust.gravity_at, green_gravity=green, moisture=moisture)
    density: Number = work("wood.density", adjust.density_at, gravity=gravity, moisture=moisture)
    return density


def _strength(board: Board, moisture: Number, grain_table: adjust.GrainTable, work: Working) -> Number:
    species = board.species
    slope = STOCK_SLOPE if board.grain_slope is None else board.grain_slope
    mean = _needed(species, "bending_strength_12")
    wet = _at(species, "bending_strength", moisture + SERVICE_MOISTURE_RISE, 0.04, work, "wood.wet_strength")
    strength: Number = work(
        "wood.strength", adjust.adjusted_strength, mean=mean, variation=species.bending_variation,
        slope_share=work("wood.slope_share", adjust.slope_factor, slope=slope, table=grain_table),
        moisture_share=wet / mean,
    )  # fmt: skip
    return strength


def _at(species: Species, prop: str, moisture: Number, per_percent: float, work: Working, name: str) -> Number:
    """A property at a moisture content: the exponential law, or the plain rule where there is no green value."""
    at_12, green = _needed(species, f"{prop}_12"), getattr(species, f"{prop}_green")
    if green is None:
        share = work("wood.moisture_share", adjust.simple_moisture_factor, moisture=moisture, per_percent=per_percent)
        plain: Number = at_12 * share
        return plain
    value: Number = work(
        name, adjust.at_moisture,
        at_12=at_12, green=green, moisture=moisture, moisture_point=species.moisture_point,
    )  # fmt: skip
    return value


def _needed(species: Species, prop: str) -> float:
    value: float | None = getattr(species, prop)
    if value is None:
        what = prop.removesuffix("_12").replace("_", " ")
        raise BadDesign(f"the table has no {what} for {species.name} ({species.origin}); choose another wood")
    return value
