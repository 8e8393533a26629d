"""ANC-18, Design of Wood Aircraft Structures, ANC Bulletin 18 (June 1944).

Sections 2.130 and 2.131 (p. 27), 3.1330 and 3.1331 (pp. 157-159) and Table 2-2 (p. 17) were read. No worked example of
theirs is legible, so the stack below is worked by hand.
"""

import numpy as np
import pytest

from oarkit.section.laminate import laminated
from oarkit.section.profile import Profile
from oarkit.strength.hard_start import bending_stress
from oarkit.tables import grain_table, species_table
from oarkit.wood import moisture
from oarkit.wood.board import Board, Wood, wood_of_board
from oarkit.wood.moisture import simple_moisture_factor
from oarkit.wood.species import find_species


def _wood(name: str, modulus: float) -> Wood:
    return Wood(name=name, modulus=modulus, shear_modulus=modulus / 16, density=500.0, strength=40e6, working=())


def _stack(profile: Profile):
    """A centre of 9 GPa with a strip of 13.5 GPa along each edge, a quarter of the half-width in."""
    bounds = [np.array([0.0]), np.array([0.75]), np.array([1.0])]
    return laminated(
        profile, bounds=bounds, owner=[np.array([0]), np.array([1])], woods=[_wood("core", 9e9), _wood("edge", 13.5e9)]
    )


def _plank() -> Profile:
    """A plank 64 mm wide and 30 mm thick: a core of 48 mm and two edge strips of 8 mm."""
    return Profile(
        thickness=np.array([0.030]), width=np.array([0.064]), edge=np.array([0.030]), corner=np.array([0.0]),
        blade_share=np.array([0.0]),
    )  # fmt: skip


def test_transformed_section():
    """Each strip counts with its modulus over the basic one (sec. 3.1330): here edges of 16 mm as if 24 mm wide."""
    stack = _stack(_plank())
    transformed_width = 0.048 + 1.5 * 0.016
    assert stack.axial_stiffness[0] == pytest.approx(9e9 * transformed_width * 0.030)
    assert stack.bending_stiffness[0] == pytest.approx(9e9 * transformed_width * 0.030**3 / 12)


def test_transformed_section_on_edge():
    """The same about the other axis: the whole plank at 9 GPa and half as much again on the strips, 20 to 32 mm out."""
    strips = 0.030 * (0.064**3 - 0.048**3) / 12
    assert _stack(_plank()).lateral_stiffness[0] == pytest.approx(9e9 * (0.030 * 0.064**3 / 12 + 0.5 * strips))


def test_stress_follows_the_modulus():
    """Pieces that strain together have stress over modulus alike, M z/I times their modulus share (sec. 3.1331)."""
    stack = _stack(_plank())
    known = {"moment": 100.0, "bending_stiffness": stack.bending_stiffness[0]}
    core = bending_stress(fibre=stack.fibre[0][0], modulus=9e9, **known)
    edge = bending_stress(fibre=stack.fibre[1][0], modulus=13.5e9, **known)
    transformed_modulus = (0.048 + 1.5 * 0.016) * 0.030**2 / 6
    assert core == pytest.approx(100.0 / transformed_modulus)
    assert edge == pytest.approx(1.5 * core)


def test_stress_carries_the_moment():
    """The stresses of all strips add up to the moment that made them."""
    stack = _stack(_plank())
    known = {"moment": 100.0, "fibre": 0.015, "bending_stiffness": stack.bending_stiffness[0]}
    core, edge = bending_stress(modulus=9e9, **known), bending_stress(modulus=13.5e9, **known)
    # Over half the thickness, 15 mm, a triangle of stress: mean stress/2 at two thirds of 15 mm; and both halves.
    moment = 2 * (0.048 * core + 0.016 * edge) / 2 * 0.015 * (2 / 3 * 0.015)
    assert moment == pytest.approx(100.0)


def test_elastic_ratios_of_unlisted_species():
    """A species without elastic ratios has E_T/E_L = 0.045 and G_RT/E_L = 0.01 across the grain (secs 2.130, 2.131)."""
    alder = find_species("Alder, red", species_table())
    assert alder.tangential_ratio is None
    across = wood_of_board(Board(species=alder, modulus=10e9, grain="across"), grain_table=grain_table())
    assert across.modulus == pytest.approx(0.45e9)
    assert across.shear_modulus == pytest.approx(0.10e9)


def test_shear_modulus_of_unlisted_species():
    """Along the grain G is E/16 (Wood Handbook FPL-GTR-282 (2021), ch. 9), near the 0.05 and 0.06 of sec. 2.131."""
    alder = find_species("Alder, red", species_table())
    along = wood_of_board(Board(species=alder, modulus=10e9), grain_table=grain_table())
    assert along.shear_modulus == pytest.approx(0.625e9)


def test_listed_species_keeps_its_own_ratio():
    """A species with ratios of its own does not take the default: Sitka spruce, 0.043 (Wood Handbook, Table 5-1)."""
    sitka = find_species("Sitka spruce", species_table())
    across = wood_of_board(Board(species=sitka, modulus=10e9, grain="across"), grain_table=grain_table())
    assert across.modulus == pytest.approx(0.43e9)


# Table 2-2 (p. 17): per cent per 1 % moisture, applied successively; red and Sitka spruce, Douglas-fir, sugar maple,
# yellow birch, oak and western redcedar.
PER_PERCENT = {
    "bending_strength": (3.9, 3.7, 4.4, 4.8, 4.4, 3.4),
    "bending_modulus": (1.7, 1.8, 1.4, 2.0, 2.4, 1.6),
    "compression_parallel": (5.3, 5.5, 5.7, 6.1, 5.9, 5.1),
    "compression_across": (4.3, 5.0, 7.1, 5.6, 4.4, 5.1),
    "shear_parallel": (2.6, 1.7, 3.9, 3.6, 3.5, 1.6),
}


@pytest.mark.parametrize("prop", PER_PERCENT)
def test_plain_rule(prop):
    """The plain rule, one figure for all woods, is the mean of the table's own figures in whole per cents.

    From 12 to 15 % it takes three times that. The table's figures compound, which leaves six of their squares more.
    """
    figures, plain = np.array(PER_PERCENT[prop]) / 100, moisture.PER_PERCENT[prop]
    assert plain == pytest.approx(figures.mean(), abs=0.005)  # whole per cents
    left = simple_moisture_factor(moisture=0.15, per_percent=plain)
    assert left == pytest.approx(1 - 3 * plain, rel=1e-12)
    compounded = (1 + figures) ** -3
    assert np.abs(compounded.mean() - left) <= 3 * 0.005 + 6 * np.max(figures) ** 2


#: Strength of Sitka spruce at 12 % and green, and half a unit of the last place that the Wood Handbook prints.
SITKA = {
    "bending_strength": (70e6, 39e6, 0.5e6), "bending_modulus": (10.8e9, 8.5e9, 0.05e9),
    "compression_parallel": (38.7e6, 18.4e6, 0.05e6), "compression_across": (4.0e6, 1.9e6, 0.05e6),
}  # fmt: skip


def _law_and_table(prop: str) -> tuple[float, float, float]:
    """What is left at 15 % by the law, by this table, and how far apart rounding of what is printed may put them.

    The law takes (P_g/P_12)^(3/15); the table is printed to 0.1 %, three times.
    """
    sitka = find_species("Sitka spruce", species_table())
    clear = sitka.clear(prop)
    at_12, green, half = SITKA[prop]
    assert (clear.at_12, clear.green) == pytest.approx((at_12, green))
    law = moisture.at_moisture(at_12=clear.at_12, green=clear.green, moisture=0.15, moisture_point=sitka.moisture_point)
    assert law / at_12 == pytest.approx((green / at_12) ** 0.2, rel=1e-12)
    rounding = law / at_12 * 0.2 * (half / at_12 + half / green) + 3 * 0.0005
    return law / clear.at_12, (1 + PER_PERCENT[prop][0] / 100) ** -3, rounding


@pytest.mark.parametrize("prop", ["bending_strength", "bending_modulus"])
def test_exponential_law_of_sitka_spruce(prop):
    """In bending the Wood Handbook's law takes from Sitka spruce what this table takes, within the rounding of both."""
    law, table, rounding = _law_and_table(prop)
    assert law == pytest.approx(table, abs=rounding)


@pytest.mark.parametrize(("prop", "more"), [("compression_parallel", -1), ("compression_across", 1)])
def test_exponential_law_where_the_surveys_differ(prop, more):
    """In compression the two, 77 years apart, do not agree within rounding: half a point, two points apart."""
    law, table, rounding = _law_and_table(prop)
    assert more * (table - law) > rounding
