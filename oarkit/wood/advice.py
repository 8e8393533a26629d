"""What is assumed about a board, and what such a board may turn out to be."""

from __future__ import annotations

from collections.abc import Sequence

from oarkit.wood.board import SERVICE_MOISTURE_RISE, SHOP_MOISTURE, STOCK_SLOPE, Board
from oarkit.working import Finding, Quantity

MODULUS_VARIATION = 0.22  #: between boards of one species, Wood Handbook FPL-GTR-282 (2021), Table 5-6
DRY_SHOP = 0.10  #: below it the strength counted leaves out what the water gives back, a choice of this project
ALIKE = 0.02  #: most that the moistures of pieces glued together may differ, ANC-19 (1944), sec. 2.4
GLUING_MOISTURE = (0.08, 0.16)  #: beyond these a board is too dry or too wet to plan with, a choice of this project


def board_findings(board: Board, *, part: str) -> list[Finding]:
    """Findings on one board (scalars).

    Parameters
    ----------
    board : Board
        Species and what was measured. [record]
    part : str
        What it is in the oar. [text]

    Returns
    -------
    list of Finding
        Sentences with their quantities. [records]

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), Table 5-6; FAA AC 43.13-1B (1998), Table 1-1; ANC-19 (1944), sec. 2.4.

    Examples
    --------
    >>> from oarkit.tables import species_table
    >>> [f.code for f in board_findings(Board(species=species_table()[0], modulus=10e9), part="loom")]
    ['slope_assumed']
    """
    name = f"{part} ({board.species.name})"
    found = []
    if part == "loom" and board.modulus is None:
        text = (
            f"The modulus of the {name} is the table's mean; from board to board it varies by {{cov}} (one "
            f"standard deviation), and the drop with it. Test the board."
        )
        variation = {"cov": Quantity(value=MODULUS_VARIATION, unit="%")}
        found.append(
            Finding(
                level="note",
                code="untested",
                text=text,
                quantities=variation,
                source="Wood Handbook FPL-GTR-282 (2021), Table 5-6",
            )
        )
    if part == "loom" and board.grain_slope is None:
        text = (
            f"No grain slope was given for the {name}: 1:15 is taken, the steepest that is customary. Read it "
            f"on two faces."
        )
        found.append(Finding(level="note", code="slope_assumed", text=text, source="FAA AC 43.13-1B (1998), Table 1-1"))
    if board.grain_slope is not None and float(board.grain_slope) > STOCK_SLOPE + 1e-9:
        text = (
            f"The grain of the {name} slopes {{slope}}, steeper than the customary {{limit}}; keep such a "
            f"board for short or lightly stressed pieces."
        )
        slopes = {
            "slope": Quantity(value=board.grain_slope, unit="slope"),
            "limit": Quantity(value=STOCK_SLOPE, unit="slope"),
        }
        found.append(
            Finding(
                level="caution", code="grain", text=text, quantities=slopes, source="FAA AC 43.13-1B (1998), Table 1-1"
            )
        )
    moisture = SHOP_MOISTURE if board.moisture is None else float(board.moisture)
    if not GLUING_MOISTURE[0] <= moisture <= GLUING_MOISTURE[1]:
        text = f"The {name} is at {{moisture}} moisture; glue at 8 to 12 %, all pieces within 2 % of one another."
        found.append(
            Finding(
                level="caution",
                code="moisture",
                text=text,
                quantities={"moisture": Quantity(value=moisture, unit="%")},
                source="ANC-19 (1944), sec. 2.4",
            )
        )
        if moisture + SERVICE_MOISTURE_RISE >= board.species.moisture_point:
            text = (
                f"The strength of the {name} is counted as that of green wood: {{service}} in service is past the "
                f"{{point}} at which drying begins to strengthen it. Dry the board first."
            )
            quantities = {
                "service": Quantity(value=moisture + SERVICE_MOISTURE_RISE, unit="%"),
                "point": Quantity(value=board.species.moisture_point, unit="%"),
            }
            found.append(
                Finding(
                    level="caution",
                    code="green",
                    text=text,
                    quantities=quantities,
                    source="Wood Handbook FPL-GTR-282 (2021), eq. 5-3 and Table 5-13",
                )
            )
    elif board.moisture is not None and moisture < DRY_SHOP:
        text = (
            f"The strength of the {name} is counted at {{service}} moisture, 3 % over the shop's; an oar that "
            f"lies by the water comes to 12 to 16 % and is weaker. Write 12 % to be on the safe side."
        )
        service = {"service": Quantity(value=moisture + SERVICE_MOISTURE_RISE, unit="%")}
        found.append(
            Finding(
                level="caution",
                code="dry",
                text=text,
                quantities=service,
                source="Wood Handbook FPL-GTR-282 (2021), eq. 4-5",
            )
        )
    if board.species.second_hand:
        text = f"The table values of {board.species.name} are quoted second-hand."
        found.append(Finding(level="note", code="second_hand", text=text, source=board.species.source))
    return found


def together_findings(boards: Sequence[Board]) -> list[Finding]:
    """Whether boards that are glued together are near enough in moisture.

    Parameters
    ----------
    boards : sequence of Board
        The boards (scalars). [records]

    Returns
    -------
    list of Finding
        One sentence, or none. [records]

    Notes
    -----
    Source: ANC-19 (1944), sec. 2.4: no more than 2 % apart.

    Examples
    --------
    >>> from oarkit.tables import species_table
    >>> spruce = species_table()[0]
    >>> boards = [Board(species=spruce, moisture=0.08), Board(species=spruce, moisture=0.12)]
    >>> [f.code for f in together_findings(boards)]
    ['moisture_spread']
    """
    known = [float(board.moisture) for board in boards if board.moisture is not None]
    if not known or max(known) - min(known) <= ALIKE + 1e-9:
        return []
    text = (
        "The pieces differ by {spread} in moisture; let them come to within {most} of one another before "
        "gluing, or the glue line is loaded as they do."
    )
    quantities = {"spread": Quantity(value=max(known) - min(known), unit="%"), "most": Quantity(value=ALIKE, unit="%")}
    return [
        Finding(
            level="caution", code="moisture_spread", text=text, quantities=quantities, source="ANC-19 (1944), sec. 2.4"
        )
    ]
