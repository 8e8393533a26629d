"""National Design Specification for Wood Construction (American Wood Council): dowel-bearing strength of wood.

The two formulas are quoted, not read: 11,200 G psi along the grain, 6,100 G^1.45/sqrt(d in inches) psi across it. The
values in psi that the Specification prints for a 1/2 in bolt in Douglas fir-larch (G 0.50: 5,600 along, 3,150 across)
and in southern pine (G 0.55: 6,150 along, 3,650 across), rounded to 50 psi, are from memory.
"""

import pytest

from oarkit.tables import species_table
from oarkit.wood.bearing import allowed_bearing, bearing_strength, dowel_bearing_across, dowel_bearing_along
from oarkit.wood.board import Board
from oarkit.wood.species import find_species
from oarkit.working import Working

PSI = 4.4482216152605 / 0.0254**2  # pound-force and inch, both exact by definition [Pa]
INCH = 0.0254


@pytest.mark.parametrize(("gravity", "printed"), [(0.60, 35.9e6), (0.42, 21.4e6)])
def test_across_the_grain(gravity, printed):
    """A 5/16 in bolt across the grain: the check values of this project's references, worked by hand in inches."""
    found = dowel_bearing_across(gravity=gravity, diameter=5 / 16 * INCH)
    assert found == pytest.approx(printed, abs=0.05e6)  # printed to 0.1 MPa


@pytest.mark.parametrize(("gravity", "along", "across"), [(0.50, 5600, 3150), (0.55, 6150, 3650)])
def test_half_inch_bolt(gravity, along, across):
    """A 1/2 in bolt in two woods of the Specification's table, from memory."""
    assert dowel_bearing_along(gravity=gravity) / PSI == pytest.approx(along, abs=25)  # printed to 50 psi
    assert dowel_bearing_across(gravity=gravity, diameter=INCH / 2) / PSI == pytest.approx(across, abs=25)


def test_the_lesser_counts():
    """Across the grain under a thick bolt, along it under a thin one; then the margin of 2.5."""
    assert allowed_bearing(along=30e6, across=20e6) == pytest.approx(8e6)
    assert allowed_bearing(along=30e6, across=40e6) == pytest.approx(12e6)


def test_of_a_board():
    """White ash of the handbook (G 0.60 at 12 %) under a 5/16 in bolt is allowed 35.9/2.5 MPa."""
    work = Working()
    ash = Board(species=find_species("white ash", species_table()))
    assert ash.species.gravity_12 == 0.60  # Wood Handbook FPL-GTR-282 (2021), Table 5-3a
    found = bearing_strength(ash, diameter=5 / 16 * INCH, work=work)
    assert found == pytest.approx(35.9e6 / 2.5, abs=0.05e6 / 2.5)  # printed to 0.1 MPa
    assert [line.name for line in work.lines] == ["wood.bearing_along", "wood.bearing_across", "wood.bearing"]
