"""Planed oars on sizes worked in the head: what is left, where the planing runs out, what the zones are."""

from dataclasses import dataclass, fields
from itertools import pairwise

import numpy as np
import pytest

from oarkit.oar.build import Leather, Piece, build_oar
from oarkit.oar.mass import mass
from oarkit.oar.measured import MeasuredShape, Station, stations_between
from oarkit.oar.planed import RUN_OUT, PlanedShape, zones
from oarkit.oar.shape import OarShape, Stations
from oarkit.section.profile import Profile
from oarkit.wood.board import Wood
from oarkit.working import BadDesign

WOOD = Wood(name="spruce", modulus=10e9, shear_modulus=0.6e9, density=400.0, strength=40e6, working=())
DRAWN = OarShape(
    length=2.3, inboard=0.63, grip_centre=0.06, grip_diameter=0.033, grip_length=0.13, inboard_size=0.048,
    square_inboard=True, lock_diameter=0.046, neck_thickness=0.032, neck_width=0.027, blade_length=0.56,
    blade_width=0.130, tip_thickness=0.011, edge_at_root=0.009, edge_at_tip=0.006, leather_length=0.25,
    leather_inboard=0.10,
)  # fmt: skip
TABLE = (
    Station(s=0.00, thickness=0.032, form="round"),
    Station(s=0.18, thickness=0.048, form="square"),
    Station(s=0.52, thickness=0.048, form="square"),
    Station(s=0.52, thickness=0.046, form="round"),
    Station(s=0.80, thickness=0.046, form="round"),
    Station(s=1.70, thickness=0.030, width=0.026, form="ellipse"),
    Station(s=1.75, thickness=0.024, width=0.050, form="blade", edge=0.009),
    Station(s=2.00, thickness=0.014, width=0.134, form="blade", edge=0.007),
    Station(s=2.30, thickness=0.011, width=0.130, form="blade", edge=0.006),
)
MEASURED = MeasuredShape(stations=TABLE, inboard=0.65, grip_centre=0.05, leather_start=0.55, leather_length=0.25)


@dataclass(frozen=True, kw_only=True)
class Bar:
    """A bar of one rectangular section from end to end, with the places of an oar."""

    length: float = 2.3
    inboard: float = 0.6
    grip_centre: float = 0.06
    lock_diameter: float = 0.030
    neck_thickness: float = 0.030
    neck_width: float = 0.040
    blade_length: float = 0.5
    blade_width: float = 0.040
    blade_root: float = 1.8
    mid_blade: float = 2.05
    tip_thickness: float = 0.030
    leather_start: float = 0.5
    leather_length: float = 0.3
    leather_inboard: float = 0.1
    leather_end: float = 0.8

    @property
    def numbers(self):
        return {"inboard": self.inboard}

    def laid(self, further_breaks=(), *, count=None):
        own = (0.0, self.grip_centre, self.leather_start, self.inboard, self.leather_end, self.blade_root)
        return stations_between([*own, self.mid_blade, self.length, *further_breaks])

    def profile(self, laid):
        one = np.ones_like(laid.s)
        return Profile(thickness=0.030 * one, width=0.040 * one, edge=0.030 * one, corner=0 * one, blade_share=0 * one)


def _at(shape, *places, side=0.0):
    """Sections at places, with the middles of their segments to one side."""
    s = np.array(places)
    return shape.profile(Stations(s=s, weight=s, middle=s + side))


def test_wood_comes_off_between_smooth_run_outs():
    """2 mm: none at the ends, half in the middle of a run-out, 5/32 in its first quarter (3/16 - 2/64), all between."""
    planed = PlanedShape(base=Bar(), thickness=0.002, width=0.004, start=1.0, stop=1.5)
    at = _at(planed, 0.9, 1.0, 1.015, 1.03, 1.06, 1.3, 1.44, 1.47, 1.485, 1.5, 1.6)
    share = np.array([0, 0, 5 / 32, 0.5, 1, 1, 1, 0.5, 5 / 32, 0, 0])
    assert at.thickness == pytest.approx(0.030 - 0.002 * share, abs=1e-12)
    assert at.width == pytest.approx(0.040 - 0.004 * share, abs=1e-12)


def test_a_planing_goes_through_at_the_ends_of_the_oar():
    """No step is left at handle end and tip, so the whole bar is 1 mm thinner there and everywhere."""
    planed = PlanedShape(base=Bar(), thickness=0.001, start=0.0, stop=2.3)
    assert _at(planed, 0.0, 0.02, 1.0, 2.29, 2.3).thickness == pytest.approx(0.029, abs=1e-12)


def test_a_short_planing_meets_its_own_run_out():
    """80 mm long: each run-out takes 40 mm, and only the middle is down by all."""
    planed = PlanedShape(base=Bar(), thickness=0.001, start=1.0, stop=1.08)
    assert _at(planed, 1.02, 1.04, 1.06).thickness == pytest.approx([0.0295, 0.029, 0.0295], abs=1e-12)


def test_mass_comes_off_by_the_length_less_one_run_out():
    """400 kg/m3 x 40 mm x 1 mm x (500 - 60) mm; the two smooth steps count half."""
    pieces = [Piece(kind="loom", wood=WOOD)]
    whole = build_oar(Bar(), pieces, Leather(mass=0.0))
    planed = build_oar(PlanedShape(base=Bar(), thickness=0.001, start=1.0, stop=1.5), pieces, Leather(mass=0.0))
    # Simpson's rule is exact for the cubic of the run-out
    assert mass(whole) - mass(planed) == pytest.approx(400 * 0.040 * 0.001 * (0.5 - RUN_OUT), rel=1e-9)


def test_left_on_is_planed_off_with_the_other_sign():
    """1 mm left on makes the bar 31 mm, and what is taken off again leaves it as it was."""
    thicker = PlanedShape(base=Bar(), thickness=-0.001, start=1.0, stop=1.5)
    assert float(_at(thicker, 1.2).thickness[0]) == pytest.approx(0.031)
    again = PlanedShape(base=thicker, thickness=0.001, start=1.0, stop=1.5)
    assert _at(again, 1.0, 1.02, 1.2).thickness == pytest.approx(0.030, abs=1e-15)


def test_planings_nest():
    """1 mm and 2 mm over each other take 3 mm off where both lie, and both ends stand among the stations."""
    first = PlanedShape(base=Bar(), thickness=0.001, start=1.0, stop=1.5)
    both = PlanedShape(base=first, thickness=0.002, width=0.003, start=1.3, stop=1.9)
    assert _at(both, 1.1, 1.4, 1.7).thickness == pytest.approx([0.029, 0.027, 0.028], abs=1e-12)
    laid = both.laid()
    for place in (1.0, 1.06, 1.44, 1.5, 1.3, 1.36, 1.84, 1.9):
        assert np.sum(np.isclose(laid.s, place, rtol=0, atol=1e-12)) >= 2, place


@pytest.mark.parametrize("base", [DRAWN, MEASURED], ids=["drawn", "measured"])
def test_sizes_are_told_as_they_are_left(base):
    """Lock, neck, blade and tip after planing; places as they were."""
    lock = PlanedShape(base=base, thickness=0.002, width=0.001, start=0.5, stop=0.9)
    assert lock.lock_diameter == pytest.approx(0.044)
    assert (lock.neck_thickness, lock.tip_thickness) == (base.neck_thickness, base.tip_thickness)
    neck = PlanedShape(base=lock, thickness=0.001, width=0.0015, start=1.5, stop=1.9)
    assert neck.lock_diameter == pytest.approx(0.044)
    assert neck.neck_thickness == pytest.approx(base.neck_thickness - 0.001)
    assert neck.neck_width == pytest.approx(base.neck_width - 0.0015)
    blade = PlanedShape(base=neck, thickness=0.003, width=0.004, start=1.6, stop=base.length)
    assert blade.tip_thickness == pytest.approx(0.008)
    assert blade.blade_width == pytest.approx(base.blade_width - 0.004)
    for name in ("length", "inboard", "grip_centre", "blade_length", "blade_root", "mid_blade", "leather_start",
                 "leather_length", "leather_inboard", "leather_end"):  # fmt: skip
        assert getattr(blade, name) == getattr(base, name)


def test_told_sizes_are_those_of_the_sections():
    """Pin line and tip within run-outs: the sizes told are those of the profile there."""
    planed = PlanedShape(base=DRAWN, thickness=0.002, start=DRAWN.inboard - 0.02, stop=1.2)
    assert planed.lock_diameter == pytest.approx(float(_at(planed, DRAWN.inboard).thickness[0]), abs=1e-12)
    assert 0.044 < planed.lock_diameter < 0.046


def test_an_edge_is_never_thicker_than_the_middle():
    """The middle at the tip comes from 11 mm to 5 mm: the edges of 6 mm come down along; at 8 mm they stay."""
    thin = PlanedShape(base=DRAWN, thickness=0.006, start=1.9, stop=2.3)
    assert float(_at(thin, 2.3, side=-1e-3).edge[0]) == pytest.approx(0.005)
    less = PlanedShape(base=DRAWN, thickness=0.003, start=1.9, stop=2.3)
    assert float(_at(less, 2.3, side=-1e-3).edge[0]) == pytest.approx(0.006)
    build_oar(thin, [Piece(kind="loom", wood=WOOD)])


def test_a_jump_of_a_measured_oar_stays():
    """48 mm on one side of the place, 46 mm on the other: each 1 mm less."""
    planed = PlanedShape(base=MEASURED, thickness=0.001, start=0.3, stop=0.9)
    sizes = [float(_at(planed, 0.52, side=side).thickness[0]) for side in (-0.01, 0.01)]
    assert sizes == pytest.approx([0.047, 0.045])


def test_arrays_of_designs_are_as_many_oars():
    """Four planings at once, places among them, against each by itself."""
    thickness, width = np.array([0.0, 0.001, -0.002, 0.003]), np.array([0.001, 0.0, 0.002, -0.001])
    start, stop = np.array([0.3, 0.0, 0.9, 1.2]), np.array([0.8, 2.3, 1.5, 2.3])
    pieces = [Piece(kind="loom", wood=WOOD), Piece(kind="edge", wood=WOOD, size=0.006)]
    many = build_oar(PlanedShape(base=DRAWN, thickness=thickness, width=width, start=start, stop=stop), pieces)
    assert many.shape.lock_diameter == pytest.approx([0.046, 0.045, 0.046, 0.046])
    for number, sizes in enumerate(zip(thickness, width, start, stop, strict=True)):
        names = ("thickness", "width", "start", "stop")
        one = build_oar(PlanedShape(base=DRAWN, **dict(zip(names, map(float, sizes), strict=True))), pieces)
        assert mass(many)[number] == pytest.approx(mass(one), rel=1e-6)  # the stations differ a little


@pytest.mark.parametrize(
    ("sizes", "said"),
    [
        ({"thickness": 0.030}, "off the thickness leaves nothing"),
        ({"width": 0.050}, "off the width leaves nothing"),
        ({"start": 1.5, "stop": 1.5}, "not a stretch of an oar"),
        ({"start": -0.1}, "not a stretch of an oar"),
        ({"stop": 2.4}, "not a stretch of an oar"),
        ({"thickness": np.nan}, "must be lengths"),
        ({"stop": np.inf}, "must be lengths"),
    ],
)
def test_what_cannot_be_planed_is_told(sizes, said):
    """Down to nothing, reversed, beyond the oar, no number: in words."""
    with pytest.raises(BadDesign, match=said):
        _at(PlanedShape(**({"base": Bar(), "start": 1.0, "stop": 1.4} | sizes)), 1.2)


def test_a_refusal_tells_what_is_there():
    """12 mm off a blade of 11 mm at its tip: both sizes stand among the quantities."""
    with pytest.raises(BadDesign) as refused:
        _at(PlanedShape(base=DRAWN, thickness=0.012, start=2.0, stop=2.3), 2.3)
    told = {name: float(quantity.value) for name, quantity in refused.value.quantities.items()}
    assert told == pytest.approx({"off": 0.012, "had": 0.011})


# Zones


@pytest.mark.parametrize("shape", [DRAWN, MEASURED, Bar()], ids=["drawn", "measured", "bar"])
def test_planings_of_all_zones_make_one(shape):
    """From the end of the first run-out to the tip the shares of the zones add up to 1, with no ridge between."""
    pieces = zones(shape)
    assert [zone.name for zone in pieces] == [
        "inboard", "lock", "inner loom", "middle loom", "outer loom to the neck", "blade root", "blade",
    ]  # fmt: skip
    s = np.linspace(pieces[0].start + RUN_OUT, shape.length, 400)
    planed = shape
    for zone in pieces:
        planed = PlanedShape(base=planed, thickness=0.001, start=zone.start, stop=zone.stop)
    off = _at(shape, *s).thickness - _at(planed, *s).thickness
    assert off == pytest.approx(0.001, abs=1e-12)
    assert all(one.stop - other.start == pytest.approx(RUN_OUT) for one, other in pairwise(pieces))


def test_borders_of_the_zones():
    """Leather from 530 to 780 mm, root at 1740 mm: thirds of 320 mm, root of 196 mm, each 30 mm over its borders."""
    starts = [float(zone.start) for zone in zones(DRAWN)]
    assert starts == pytest.approx([0.18, 0.50, 0.75, 1.07, 1.39, 1.71, 1.906])
    assert float(zones(DRAWN)[-1].stop) == 2.3


def test_zones_of_a_planed_oar_are_those_of_the_oar():
    """Planing moves no border."""
    planed = PlanedShape(base=DRAWN, thickness=0.001, start=0.8, stop=1.4)
    assert zones(planed) == zones(DRAWN)


def test_lock_and_blade_are_not_planed_out_of_use():
    """A lock turns and stays round; the width of a blade is its grip of the water."""
    plane = {zone.name: zone.plane for zone in zones(DRAWN)}
    assert plane["lock"] == ("diameter",)
    assert plane["blade"] == plane["blade root"] == ("thickness",)


def test_a_stretch_too_short_is_no_zone():
    """Leather that begins 10 mm beyond the shoulder leaves no inboard to plane."""
    short = {f.name: getattr(DRAWN, f.name) for f in fields(DRAWN)} | {"inboard": 0.36, "leather_inboard": 0.10}
    short |= {"grip_length": 0.20}
    assert next(zone.name for zone in zones(OarShape(**short))) == "lock"
