"""Wood Handbook: Wood as an Engineering Material, FPL-GTR-190 (Forest Products Laboratory, 2010).

Table 13-5, movement of hardwoods between 6 and 14 % moisture, was read; Table 4-3 is read or quoted, row by row.
"""

import pytest

from oarkit.tables import species_table
from oarkit.wood.movement import movement, movement_by_coefficient

MOVED = [species for species in species_table() if species.tangential_movement]


def test_every_coefficient_is_there():
    """The fifteen hardwoods of the table that the strength table has too."""
    assert len({species.name for species in MOVED}) == 15


@pytest.mark.parametrize("species", MOVED, ids=lambda s: s.name)
@pytest.mark.parametrize("way", ["radial", "tangential"])
def test_movement_from_shrinkage(species, way):
    """Worked from the shrinkage of Table 4-3, a width moves by the coefficient of Table 13-5 for 1 % at 10 %."""
    shrinkage, coefficient = getattr(species, f"{way}_shrinkage"), getattr(species, f"{way}_movement")
    grown = movement(width=1.0, ovendry=shrinkage, moisture=0.10, later=0.11)
    assert grown == pytest.approx(coefficient, abs=0.5e-5 + 1e-9)  # printed to five decimals


def test_movement_of_a_plank():
    """White ash, 0.00274 tangential: a flat-sawn plank of 150 mm grows 1.644 mm from 8 to 12 %, by hand."""
    ash = next(species for species in MOVED if species.name == "Ash, white")
    assert (ash.radial_movement, ash.tangential_movement) == (0.00169, 0.00274)
    known = {"width": 0.150, "moisture": 0.08, "later": 0.12}
    assert movement_by_coefficient(per_percent=ash.tangential_movement, **known) == pytest.approx(1.644e-3)
