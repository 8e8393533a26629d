"""What service does to the strength of wood: heat and cold, time under load, many loads."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from oarkit.working import BadDesign, Number, Quantity, formula

ROOM = 20.0  #: temperature at which the table's values stand [°C]
COLDEST, HOTTEST = -50.0, 50.0  #: ends of the table of temperatures [°C]
YEAR = 365.25 * 86400.0  #: [s]
TIMES = (1.0, 300.0, 10 * YEAR)  #: loads held for one second, five minutes (the static test) and ten years [s]
TIME_SHARES = (1.10, 1.00, 0.60)  #: strength left at those, Wood Handbook FPL-GTR-282 (2021), pp. 5-38 and 5-39

_HANDBOOK = "Wood Handbook FPL-GTR-282 (2021)"


@dataclass(frozen=True, slots=True, kw_only=True)
class TemperatureEffect:
    """Change of one property at -50 °C and at +50 °C from its value at 20 °C, at rising moistures; shares, 0.1 is 10 %.

    The cold end may be empty: the table then prints none.
    """

    prop: str
    cold_moistures: tuple[float, ...]
    cold_changes: tuple[float, ...]
    hot_moistures: tuple[float, ...]
    hot_changes: tuple[float, ...]


@formula(
    "f_T = 1 + Δ (T − 20 °C)/(T_t − 20 °C)", unit="1", source=f"{_HANDBOOK}, Table 5-15, p. 5-36",
    where={"temperature": "T [°C]", "moisture": "M [1]"},
)  # fmt: skip
def temperature_share(*, temperature: Number, moisture: Number, effect: TemperatureEffect) -> Number:
    """Share of a property at 20 °C that is left at another temperature, at once and reversibly.

    Parameters
    ----------
    temperature : float or array
        Of the wood, -50 to +50; a dark oar in the sun is warmer than the air. [°C]
    moisture : float or array
        Moisture content as a fraction. [1]
    effect : TemperatureEffect
        The table's changes for that property. [1]

    Returns
    -------
    float or array
        Share of the value at 20 °C. [1]

    Raises
    ------
    BadDesign
        Hotter or colder than the table.

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), Table 5-15, p. 5-36: linear between -50, 20 and +50 °C and between the
    printed moistures; outside those the nearest printed one serves, so that a change printed for green wood alone is
    taken for dry wood too. Where the table prints no gain in the cold none is taken, which is on the safe side.

    Examples
    --------
    >>> from oarkit.tables import temperature_table
    >>> bending = temperature_table()["bending_strength"]
    >>> round(float(temperature_share(temperature=35.0, moisture=0.12, effect=bending)), 3)
    0.9
    """
    given = np.asarray(temperature, dtype=float)
    if not np.all((given >= COLDEST) & (given <= HOTTEST)):
        raise BadDesign("no strength is known for wood below -50 °C or above +50 °C; give a temperature between them")
    cold = np.interp(moisture, effect.cold_moistures, effect.cold_changes) if effect.cold_changes else 0.0
    hot = np.interp(moisture, effect.hot_moistures, effect.hot_changes) if effect.hot_changes else 0.0
    return 1 + np.where(given < ROOM, cold * (ROOM - given) / (ROOM - COLDEST), hot * (given - ROOM) / (HOTTEST - ROOM))


@formula(
    "f_t linear in log t through 1.10 at 1 s, 1.00 at 5 min, 0.60 at 10 years", unit="1",
    source=f"{_HANDBOOK}, pp. 5-38 and 5-39", where={"time": "t [s]"},
)  # fmt: skip
def duration_share(*, time: Number) -> Number:
    """Share of the table's strength left under a load that is held for a time.

    Parameters
    ----------
    time : float or array
        Time under load; that of loads that come and go is added up. [s]

    Returns
    -------
    float or array
        Share of the strength in the static test of about five minutes. [1]

    Raises
    ------
    BadDesign
        No time at all, or more than ten years.

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), pp. 5-38 to 5-40, which prints no formula: linear in log time between
    the three values in its text, no more than 1.10 under one second. Strokes take 1.0.

    Examples
    --------
    >>> round(float(duration_share(time=300.0)), 3), round(float(duration_share(time=86400.0)), 2)
    (1.0, 0.84)
    """
    if not np.all(np.asarray(time) > 0):
        raise BadDesign("a load must be held for some time; give seconds, 1 s for a stroke")
    if np.any(np.asarray(time) > TIMES[-1] * (1 + 1e-9)):
        raise BadDesign("no strength is known for wood under load for more than ten years")
    return np.interp(np.log(time), np.log(TIMES), TIME_SHARES)


@dataclass(frozen=True, slots=True, kw_only=True)
class FatigueRow:
    """One fatigue test as printed: ``share`` is peak stress over static strength, ``cycles`` the life at it."""

    prop: str
    kind: str
    specimen: str
    range_ratio: float
    share: float
    cycles: float
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FatigueGuide:
    """The published row nearest to a wish; ``beyond`` where more cycles are wanted than the row was tested for."""

    row: FatigueRow
    share: float
    beyond: bool
    said: str


def fatigue_guide(
    table: Iterable[FatigueRow], *, prop: str, range_ratio: float, cycles: float, kind: str = "clear"
) -> FatigueGuide:
    """Greatest share of its static strength that wood may be loaded to, many times over.

    Parameters
    ----------
    table : iterable of FatigueRow
        The published tests. [records]
    prop : str
        "bending", "tension", "compression" or "shear". [text]
    range_ratio : float
        Least over greatest stress of a cycle; 0 where the load comes and goes, -1 where it reverses. [1]
    cycles : float
        Number of loads wanted. [1]
    kind : str, optional
        "clear", "small knots", "1:12 grain", "scarf joint" ... as the table has it. [text]

    Returns
    -------
    FatigueGuide
        The nearest published row, and what it says. [record]

    Raises
    ------
    BadDesign
        No such test, none with so great a range, a range ratio beyond -1 to 1, or no number of cycles.

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), Table 5-17, p. 5-41. Nearest in range ratio, then in the logarithm of
    the cycles, then the least share. Where that row has a
    smaller range than is wanted, the nearest with one as great is looked at too, and the lesser share of the two
    taken. A guide: no law is fitted.

    Examples
    --------
    >>> from oarkit.tables import fatigue_table
    >>> guide = fatigue_guide(fatigue_table(), prop="bending", range_ratio=0.1, cycles=156_000)
    >>> guide.share, guide.beyond
    (0.6, False)
    """
    if not -1 <= range_ratio < 1:
        raise BadDesign(
            "a range ratio of {ratio} is no fatigue load; it is the least stress over the greatest, -1 (reversed) "
            "to just under 1 (steady)",
            {"ratio": Quantity(value=range_ratio, unit="1")},
        )
    if not 0 < cycles < math.inf:
        raise BadDesign("fatigue needs a number of loads; 26 strokes a minute for 100 hours are 156,000")
    listed = list(table)
    of_this = [row for row in listed if (row.prop, row.kind) == (prop, kind)]
    if not of_this:
        known = sorted({f"{row.prop} ({row.kind})" for row in listed})
        raise BadDesign(f"no fatigue test of {prop} ({kind}) is in the table; it has {', '.join(known)}")

    as_great = [row for row in of_this if row.range_ratio <= range_ratio + 1e-9]  # a milder cycle alone proves nothing
    if not as_great:
        raise BadDesign(
            f"no fatigue test of {prop} ({kind}) reverses as far as a range ratio of {{ratio}}; the furthest printed "
            "is {least}",
            {
                "ratio": Quantity(value=range_ratio, unit="1"),
                "least": Quantity(value=min(row.range_ratio for row in of_this), unit="1"),
            },
        )

    def distance(row: FatigueRow) -> tuple[float, float, float]:
        return (
            round(abs(row.range_ratio - range_ratio), 9),
            round(abs(math.log10(row.cycles / cycles)), 9),
            row.share,
        )

    row = min((min(rows, key=distance) for rows in (of_this, as_great)), key=lambda near: near.share)
    beyond = cycles > row.cycles * (1 + 1e-9)
    said = (
        f"{row.prop}, {row.specimen}: {row.share * 100:.0f} % of static strength for {row.cycles / 1e6:g} million "
        f"loads at a range ratio of {row.range_ratio:g}"
        + ("; more loads are wanted than were tested" if beyond else "")
    )
    return FatigueGuide(row=row, share=row.share, beyond=beyond, said=said)
