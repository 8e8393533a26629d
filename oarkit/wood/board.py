"""A board of a species: what was measured on it wins, the table supplies the rest."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from oarkit.wood import adjust
from oarkit.wood.grain import GrainTable, slope_factor
from oarkit.wood.moisture import SATURATION
from oarkit.wood.species import Species
from oarkit.wood.strengths import Strength, mean_at, mean_in_service, needed, rolling_shear, strength_in_service
from oarkit.working import BadDesign, Line, Number, Quantity, Working

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
    """What the oar needs of a wood, along the oar's length. Pa and kg/m3.

    Strengths are lower 5 % values in service, None where the table has none: ``strength`` in bending, ``crushing``
    pressed end on, ``bearing`` pressed from the side, ``shear_strength`` along the oar, ``splitting`` bent so that the
    piece would open along the oar. ``mean_strength`` is ``strength`` without the lower 5 %. A piece laid with its
    grain across the oar is weak in bending and strong against splitting; ``across_plate`` then holds shear modulus and
    strength in the plane of the blade's face, where it is sheared along its own grain and not rolled. ``quoted`` marks
    values that were quoted second-hand. ``working`` says how modulus, density and bending strength were got,
    ``strength_working`` the other strengths, for the checks that use them.
    """

    name: str
    modulus: Number
    shear_modulus: Number
    density: Number
    strength: Number
    working: tuple[Line, ...]
    crushing: Number | None = None
    bearing: Number | None = None
    shear_strength: Number | None = None
    splitting: Number | None = None
    mean_strength: Number | None = None
    quoted: bool = False
    strength_working: tuple[Line, ...] = ()
    across_plate: tuple[Number, Number | None] | None = None

    @property
    def plate_shear_modulus(self) -> Number:
        """Shear modulus in the plane of the blade's face, on which twisting works."""
        return self.shear_modulus if self.across_plate is None else self.across_plate[0]

    @property
    def plate_shear_strength(self) -> Number | None:
        """Shear strength in that plane: along the grain, however the piece is laid."""
        return self.shear_strength if self.across_plate is None else self.across_plate[1]


def wood_of_board(board: Board, *, grain_table: GrainTable) -> Wood:
    """Modulus, density and adjusted strengths of a board along the oar.

    Parameters
    ----------
    board : Board
        Species and what was measured. [record]
    grain_table : GrainTable
        Loss of strength with slope of grain. [1]

    Returns
    -------
    Wood
        Shear-free modulus and density at shop moisture, lower 5 % strengths at shop moisture + 3 %. [Pa, kg/m3]

    Raises
    ------
    BadDesign
        The table has no value that is needed, the grain is too steep, or what was measured cannot be.

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
    check_board(board)
    laid = _laid_across if board.grain == "across" else _laid_along
    return laid(board, grain_table, Working())


def check_board(board: Board) -> None:
    """Refuse what no board can be.

    Parameters
    ----------
    board : Board
        Species and what was measured. [record]

    Returns
    -------
    None
        A board that can be passes. [record]

    Raises
    ------
    BadDesign
        Moisture below nil or above fibre saturation; a modulus or density of nil or less.

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), eq. 4-9: fibre saturation at 30 %. The slope of grain is judged by the
    grain table.

    Examples
    --------
    >>> from oarkit.tables import species_table
    >>> check_board(Board(species=species_table()[0], moisture=0.12))
    """
    name, moisture = board.species.name, shop_moisture(board)
    if not np.all(np.isfinite(moisture)):
        raise BadDesign(f"the moisture of the board of {name} is no number; give what the meter reads")
    wettest, driest = float(np.max(moisture)), float(np.min(moisture))
    if wettest > SATURATION + 1e-9:
        raise BadDesign(
            f"the board of {name} is at {{moisture}} moisture, above the {{saturation}} at which its fibres hold all "
            f"they can: that is green wood; dry it to 8 to 12 % before an oar is made of it",
            {"moisture": Quantity(value=wettest, unit="%"), "saturation": Quantity(value=SATURATION, unit="%")},
        )
    if driest < 0:
        raise BadDesign(
            f"the board of {name} cannot hold {{moisture}} of moisture; give what the meter reads, 8 to 12 % in a shop",
            {"moisture": Quantity(value=driest, unit="%")},
        )
    for what, value, unit in (("modulus", board.modulus, "Pa"), ("density", board.density, "kg/m3")):
        if value is not None and not np.all(np.isfinite(value)):
            raise BadDesign(f"the {what} of the board of {name} is no number; give what was measured, or leave it out")
        if value is not None and float(np.min(value)) <= 0:
            raise BadDesign(
                f"the board of {name} cannot have a {what} of {{value}}; give what was measured, or leave it out",
                {"value": Quantity(value=float(np.min(value)), unit=unit)},
            )


def _laid_along(board: Board, grain_table: GrainTable, work: Working) -> Wood:
    """A piece with its grain along the oar."""
    species = board.species
    modulus, density = _modulus(board, work), _density(board, work)
    share = _slope_share(board, grain_table, work)
    bending = strength_in_service(species, "bending_strength", moisture=_wet(board), work=work, slope_share=share)
    more = Working()
    return Wood(
        name=species.name,
        modulus=modulus,
        shear_modulus=modulus * _shear_ratio(species),
        density=density,
        strength=bending.lower,
        mean_strength=_mean(bending, more),
        crushing=_crushing(board, grain_table, more),
        bearing=_lower(board, "compression_across", more),
        shear_strength=_lower(board, "shear_parallel", more),
        splitting=_lower(board, "tension_across", more),
        quoted=species.second_hand,
        working=tuple(work.lines),
        strength_working=tuple(more.lines),
    )


def _laid_across(board: Board, grain_table: GrainTable, work: Working) -> Wood:
    """A piece with its grain across the oar: what is across it lies along the oar, and the other way about."""
    species = board.species
    along = _modulus(board, work)
    ratio = species.tangential_ratio or ACROSS_RATIO
    modulus = work("wood.across", adjust.across_modulus, modulus=along, ratio=ratio)
    density = _density(board, work)
    bending = strength_in_service(species, "tension_across", moisture=_wet(board), work=work, name="wood.strength")
    more = Working()
    pressed = _lower(board, "compression_across", more)
    sheared = _lower(board, "shear_parallel", more)
    share = _slope_share(board, grain_table, more)
    split = _lower(board, "bending_strength", more, share, "wood.splitting")
    return Wood(
        name=species.name,
        modulus=modulus,
        shear_modulus=along * ACROSS_SHEAR_RATIO,
        density=density,
        strength=bending.lower,
        mean_strength=_mean(bending, more),
        crushing=pressed,
        bearing=pressed,
        shear_strength=None if sheared is None else more("wood.rolling_shear", rolling_shear, shear=sheared),
        splitting=split,
        across_plate=(along * _shear_ratio(species), sheared),
        quoted=species.second_hand,
        working=tuple(work.lines),
        strength_working=tuple(more.lines),
    )


def _shear_ratio(species: Species) -> float:
    """Shear modulus along the grain over the modulus along it."""
    radial, tangential = species.shear_ratio_radial, species.shear_ratio_tangential
    return math.sqrt(radial * tangential) if radial and tangential else 1 / SHEAR_MODULUS_DIVISOR


def shop_moisture(board: Board) -> Number:
    """Moisture of a board in the shop.

    Parameters
    ----------
    board : Board
        Species and what was measured. [record]

    Returns
    -------
    float or array
        As measured, else 12 %. [1]

    Notes
    -----
    Source: ANC-19 (1944), sec. 2.4: glued at 8 to 12 %.

    Examples
    --------
    >>> from oarkit.tables import species_table
    >>> shop_moisture(Board(species=species_table()[0]))
    0.12
    """
    return SHOP_MOISTURE if board.moisture is None else board.moisture


def _wet(board: Board) -> Number:
    return shop_moisture(board) + SERVICE_MOISTURE_RISE


def _slope(board: Board) -> Number:
    return STOCK_SLOPE if board.grain_slope is None else board.grain_slope


def _slope_share(board: Board, grain_table: GrainTable, work: Working) -> Number:
    share: Number = work("wood.slope_share", slope_factor, slope=_slope(board), table=grain_table)
    return share


def _mean(strength: Strength, work: Working) -> Number:
    mean: Number = work(
        "wood.mean_strength", mean_in_service,
        mean=strength.at_12, slope_share=strength.slope_share, moisture_share=strength.moisture_share,
    )  # fmt: skip
    return mean


def _crushing(board: Board, grain_table: GrainTable, work: Working) -> Number | None:
    """Strength pressed end on; a grain table without that column leaves the slope out, for it takes next to nothing."""
    share: Number | None = None
    if grain_table.compression and board.species.compression_parallel_12 is not None:
        known = {"slope": _slope(board), "table": grain_table, "prop": "compression"}
        share = work("wood.crushing_slope_share", slope_factor, **known)
    return _lower(board, "compression_parallel", work, share)


def _lower(
    board: Board, prop: str, work: Working, slope_share: Number | None = None, name: str | None = None
) -> Number | None:
    """A lower 5 % strength in service, None where the table has no value."""
    if board.species.clear(prop).at_12 is None:
        return None
    wet = _wet(board)
    return strength_in_service(
        board.species, prop, moisture=wet, work=work, slope_share=slope_share, name=name
    ).lower  # fmt: skip


def _modulus(board: Board, work: Working) -> Number:
    """Shear-free modulus along the grain: as tested, or the table's and 10 %; never both."""
    if board.modulus is not None:
        tested: Number = work("wood.modulus", adjust.tested_modulus, tested=board.modulus)
        return tested
    tabulated = mean_at(board.species, "bending_modulus", moisture=shop_moisture(board), work=work)
    modulus: Number = work("wood.modulus", adjust.shear_free_modulus, tabulated=tabulated)
    return modulus


def _density(board: Board, work: Working) -> Number:
    if board.density is not None:
        return board.density
    gravity: Number | None = board.species.gravity_12
    if gravity is None:
        green = needed(board.species, "gravity_green")
        gravity = work("wood.gravity", adjust.gravity_at, green_gravity=green, moisture=shop_moisture(board))
    density: Number = work("wood.density", adjust.density_at, gravity=gravity, moisture=shop_moisture(board))
    return density
