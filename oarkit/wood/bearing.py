"""What wood stands under a bolt, a pin or a washer."""

from __future__ import annotations

import numpy as np

from oarkit.wood import adjust
from oarkit.wood.board import SERVICE_MOISTURE_RISE, SHOP_MOISTURE, Board, shop_moisture
from oarkit.wood.strengths import strength_in_service
from oarkit.working import BadDesign, Number, Quantity, Working, formula

PSI = 6894.757  #: pound-force a square inch [Pa]
INCH = 0.0254  #: [m]
BEARING_DIVISOR = 2.5  #: dowel-bearing strength over what is allowed, common practice

_NDS = "National Design Specification for Wood Construction, dowel bearing (quoted)"


@formula("F_∥ = 11 200 psi G", unit="Pa", source=_NDS, where={"gravity": "G [1]"})
def dowel_bearing_along(*, gravity: Number) -> Number:
    """Dowel-bearing strength of wood along the grain.

    Parameters
    ----------
    gravity : float or array
        Specific gravity, ovendry mass. [1]

    Returns
    -------
    float or array
        Strength on diameter times length of hole. [Pa]

    Notes
    -----
    Source: National Design Specification for Wood Construction (quoted). It counts the gravity on ovendry volume;
    the handbook's, on the volume at 12 %, is a little less, which is on the safe side.

    Examples
    --------
    >>> round(dowel_bearing_along(gravity=0.5) / 1e6, 2)
    38.61
    """
    return 11_200 * PSI * gravity


@formula(
    "F_⊥ = 6 100 psi G^1.45/√(d/1 in)", unit="Pa", source=_NDS, where={"gravity": "G [1]", "diameter": "d [m]"}
)  # fmt: skip
def dowel_bearing_across(*, gravity: Number, diameter: Number) -> Number:
    """Dowel-bearing strength of wood across the grain.

    Parameters
    ----------
    gravity : float or array
        Specific gravity, ovendry mass. [1]
    diameter : float or array
        Of the bolt or pin. [m]

    Returns
    -------
    float or array
        Strength on diameter times length of hole. [Pa]

    Notes
    -----
    Source: National Design Specification for Wood Construction (quoted); meant for steel bolts of 1/4 in and over.

    Examples
    --------
    >>> round(float(dowel_bearing_across(gravity=1.0, diameter=0.0254)) / 1e6, 2)
    42.06
    """
    return 6_100 * PSI * np.power(gravity, 1.45) / np.sqrt(np.divide(diameter, INCH))


@formula(
    "F_e = min(F_∥, F_⊥)/2.5", unit="Pa", source=f"{_NDS}; the 2.5 is common practice",
    where={"along": "F_∥ [Pa]", "across": "F_⊥ [Pa]"},
)  # fmt: skip
def allowed_bearing(*, along: Number, across: Number) -> Number:
    """Bearing that is allowed under a bolt or pin: the lesser of the two ways of the grain, less a margin.

    Parameters
    ----------
    along : float or array
        Dowel-bearing strength along the grain. [Pa]
    across : float or array
        Dowel-bearing strength across the grain. [Pa]

    Returns
    -------
    float or array
        Allowed bearing. [Pa]

    Notes
    -----
    Source: National Design Specification for Wood Construction; the divisor of 2.5 is common practice.

    Examples
    --------
    >>> float(allowed_bearing(along=50e6, across=25e6)) / 1e6
    10.0
    """
    return np.minimum(along, across) / BEARING_DIVISOR


@formula(
    "σ = F/(d l)", unit="Pa", source="statics", where={"force": "F [N]", "diameter": "d [m]", "length": "l [m]"}
)  # fmt: skip
def bearing_stress(*, force: Number, diameter: Number, length: Number) -> Number:
    """Pressure of a bolt or pin on the wood of its hole.

    Parameters
    ----------
    force : float or array
        Square to the bolt. [N]
    diameter : float or array
        Of the bolt. [m]
    length : float or array
        Of the hole that it bears on. [m]

    Returns
    -------
    float or array
        Force over diameter times length. [Pa]

    Notes
    -----
    Source: statics; taken as even along the hole.

    Examples
    --------
    >>> round(bearing_stress(force=1000, diameter=0.010, length=0.020) / 1e6, 6)
    5.0
    """
    return force / (diameter * length)


@formula(
    "σ = T/(π/4 (D² − d²))", unit="Pa", source="statics",
    where={"tension": "T [N]", "washer": "D [m]", "hole": "d [m]"},
)  # fmt: skip
def washer_pressure(*, tension: Number, washer: Number, hole: Number) -> Number:
    """Pressure of a washer on the wood.

    Parameters
    ----------
    tension : float or array
        Pull of the bolt. [N]
    washer : float or array
        Diameter of the washer. [m]
    hole : float or array
        Diameter of the hole. [m]

    Returns
    -------
    float or array
        Pull over the ring. [Pa]

    Raises
    ------
    BadDesign
        The washer is no wider than its hole.

    Notes
    -----
    Source: statics; taken as even over the ring.

    Examples
    --------
    >>> round(float(washer_pressure(tension=np.pi * 600, washer=0.050, hole=0.010)) / 1e6, 6)
    1.0
    """
    if np.any(np.asarray(washer) <= np.asarray(hole)):
        raise BadDesign(
            "a washer of {washer} on a hole of {hole} presses on nothing; give the washer's outer diameter, about "
            "three times the bolt's",
            {
                "washer": Quantity(value=float(np.min(washer)), unit="m"),
                "hole": Quantity(value=float(np.max(hole)), unit="m"),
            },
        )
    return tension / (np.pi / 4 * (np.square(washer) - np.square(hole)))


def bearing_strength(board: Board, *, diameter: Number, work: Working) -> Number:
    """Bearing that the wood of a board is allowed under a bolt or pin.

    Parameters
    ----------
    board : Board
        The wood with the hole. [record]
    diameter : float or array
        Of the bolt or pin. [m]
    work : Working
        Keeps the lines. [record]

    Returns
    -------
    float or array
        Allowed bearing. [Pa]

    Raises
    ------
    BadDesign
        The table has no specific gravity of that wood.

    Notes
    -----
    Source: National Design Specification for Wood Construction. Neither moisture nor variation enters: the
    divisor of 2.5 stands for both.

    Examples
    --------
    >>> from oarkit.tables import species_table
    >>> sitka = Board(species=species_table()[0])
    >>> round(float(bearing_strength(sitka, diameter=0.008, work=Working())) / 1e6, 1)
    7.9
    """
    species = board.species
    gravity: Number | None = species.gravity_12
    if gravity is None and species.gravity_green is not None:
        gravity = work("wood.gravity", adjust.gravity_at, green_gravity=species.gravity_green, moisture=SHOP_MOISTURE)
    if gravity is None:
        raise BadDesign(f"the table has no specific gravity for {species.name} ({species.origin}); choose another wood")
    along = work("wood.bearing_along", dowel_bearing_along, gravity=gravity)
    across = work("wood.bearing_across", dowel_bearing_across, gravity=gravity, diameter=diameter)
    allowed: Number = work("wood.bearing", allowed_bearing, along=along, across=across)
    return allowed


def crushing_strength(board: Board, *, work: Working) -> Number:
    """Lower 5 % strength of a board pressed across its grain, as moist as it is in service.

    Parameters
    ----------
    board : Board
        The wood that is pressed. [record]
    work : Working
        Keeps the lines. [record]

    Returns
    -------
    float or array
        Pressure from which a dent stays. [Pa]

    Raises
    ------
    BadDesign
        The table has no compression across the grain for that wood.

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), Tables 5-3a and 5-6, eq. 5-3; at shop moisture + 3 %. Without a
    green value about 5 % per 1 % of moisture, ANC-18 (1944), Table 2-2. The value is a proportional limit: past it
    the wood is dented, not broken.

    Examples
    --------
    >>> from oarkit.tables import species_table
    >>> sitka = Board(species=species_table()[0])
    >>> round(float(crushing_strength(sitka, work=Working())) / 1e6, 2)
    1.86
    """
    species = board.species
    if species.compression_across_12 is None:
        raise BadDesign(
            f"the table has no compression across the grain for {species.name} ({species.origin}); choose another wood"
        )
    moisture = shop_moisture(board) + SERVICE_MOISTURE_RISE
    return strength_in_service(species, "compression_across", moisture=moisture, work=work).lower
