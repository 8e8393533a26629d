"""Where the stations of an oar stand: on every end of a piece, and shared out by the root of each stretch's length."""

from dataclasses import replace

import numpy as np
import pytest

from oarkit.oar.build import Leather, build_oar
from oarkit.oar.mass import piece_masses
from oarkit.oar.measured import MeasuredShape, Station
from oarkit.oar.pieces import Piece, breaks, extent, regions
from oarkit.oar.shape import OarShape, _shared_out, stations
from oarkit.wood.board import Wood
from oarkit.working import BadDesign

# Sizes that make every break a round number: blade from 1.6 to 2.2 m.
SHAPE = OarShape(
    length=2.2, inboard=0.62, grip_centre=0.06, grip_diameter=0.033, grip_length=0.13, inboard_size=0.047,
    square_inboard=True, lock_diameter=0.045, neck_thickness=0.031, neck_width=0.027, blade_length=0.6,
    blade_width=0.125, tip_thickness=0.011, edge_at_root=0.009, edge_at_tip=0.006, leather_length=0.24,
    leather_inboard=0.10,
)  # fmt: skip

#: Grip centre, grip and shoulder, the rounding of 60 mm, leather 0.52 to 0.76 with its middle and the pin, root and
#: 8, 35, 50 and 75 % of the blade.
BREAKS = np.array([0, 0.06, 0.13, 0.18, 0.46, 0.52, 0.62, 0.64, 0.76, 1.6, 1.648, 1.81, 1.9, 2.05, 2.2])
LENGTHS = np.diff(BREAKS)


def _wood(name: str = "ash", density: float = 640.0) -> Wood:
    return Wood(name=name, modulus=12e9, shear_modulus=0.9e9, density=density, strength=60e6, working=())


def _piece(kind: str, **sizes) -> Piece:
    return Piece(kind=kind, wood=_wood(), **sizes)


def _stand(s: np.ndarray, place: float) -> int:
    """How many stations stand at a place."""
    return int(np.sum(np.isclose(s, place, rtol=0, atol=1e-12)))


# Ends of pieces


@pytest.mark.parametrize(
    ("piece", "ends"),
    [
        (_piece("loom"), ()),
        (_piece("strip", size=0.01), ()),
        (_piece("edge", size=0.006), ()),
        (_piece("face", size=0.002), ()),
        (_piece("tip", size=0.05), (2.15,)),
        (_piece("spline", size=0.012), (2.05,)),  # the outer quarter of 0.6 m
        (_piece("spline", size=0.012, start=1.93), (1.93,)),
        (_piece("spline", size=0.012, stop=2.17), (2.05, 2.17)),
        (_piece("spline", size=0.012, start=1.93, stop=2.17), (1.93, 2.17)),
        (_piece("edge", size=0.006, start=1.71), (1.71,)),
        (_piece("face", size=0.002, stop=2.09), (2.09,)),
        (_piece("strip", size=0.01, start=0.3, stop=1.45), (0.3, 1.45)),
        (_piece("cheek", size=0.01, start=0.4, stop=0.95), (0.4, 0.95)),
    ],
    ids=lambda each: each.kind if isinstance(each, Piece) else "",
)
def test_ends_of_one_piece(piece, ends):
    """A piece breaks the oar where it begins or ends, unless that is an end of the oar or of the blade."""
    found = breaks([piece], [extent(piece, SHAPE)])
    assert [float(place) for place in found] == pytest.approx(list(ends), abs=1e-12)


def test_ends_of_many_pieces():
    """Each piece brings its own ends, whatever lies beside it."""
    pieces = [
        _piece("loom"),
        _piece("spline", size=0.012),
        _piece("tip", size=0.05),
        _piece("strip", size=0.01, stop=1.4),
    ]
    found = breaks(pieces, [extent(piece, SHAPE) for piece in pieces])
    assert sorted(float(place) for place in found) == pytest.approx([1.4, 2.05, 2.15])


def test_stations_on_both_sides_of_a_spline():
    """Where a spline begins two stations stand, one without it and one with it."""
    spline = _piece("spline", size=0.012, start=1.93)
    laid = stations(SHAPE, breaks([spline], [extent(spline, SHAPE)]))
    assert _stand(laid.s, 1.93) == 2
    here = np.isclose(laid.s, 1.93, rtol=0, atol=1e-12)
    (region,) = regions([spline], [extent(spline, SHAPE)], laid)
    assert region.here[here].tolist() == [False, True]
    assert np.array_equal(region.here[~here], laid.s[~here] > 1.93)


def test_mass_of_a_spline():
    """A spline of 20 mm in the outer quarter of an even blade, 14 mm thick in the middle and 6 at an edge 60 mm away.

    Half of it reaches 10 mm from the middle, where the blade is 14 - 8/6 mm thick: 20 mm times 13 1/3 mm, over 125 mm.
    The quarter begins where no station would stand otherwise.
    """
    blade = {"thickness": 0.014, "width": 0.12, "edge": 0.006, "form": "blade"}
    shape = MeasuredShape(
        stations=(
            Station(s=0.0, thickness=0.040, form="round"), Station(s=1.5, thickness=0.040, form="round"),
            Station(s=1.5, **blade), Station(s=2.0, **blade),
        ),
        inboard=0.6, grip_centre=0.05, leather_start=0.5, leather_length=0.2,
    )  # fmt: skip
    pieces = [Piece(kind="loom", wood=_wood("spruce", 430.0)), Piece(kind="spline", wood=_wood(), size=0.020)]
    for count in (None, 61):
        oar = build_oar(shape, pieces, Leather(mass=0.0), count=count)
        assert _stand(oar.s, 1.875) == 2
        by_hand = 640 * 0.020 * (0.014 - 0.004 / 6) * 0.125
        assert piece_masses(oar)[1] == pytest.approx(by_hand, rel=1e-12)


# Sharing out


def test_shared_by_the_root_of_the_length():
    """Lengths of 1, 4, 9 and 16 share ten further pairs as 1, 2, 3 and 4, each having one to begin with."""
    assert _shared_out(np.array([0.01, 0.04, 0.09, 0.16]), 3 * 4 + 2 * 10).tolist() == [2, 3, 4, 5]


def test_what_does_not_divide_is_rounded_along_the_oar():
    """Seven pairs to 1, 2, 3, 4 tenths: 0.7, 2.1, 4.2, 7 after each stretch, rounded 1, 2, 4, 7."""
    for count in (3 * 4 + 14, 3 * 4 + 15):  # an odd station makes no pair
        assert _shared_out(np.array([0.01, 0.04, 0.09, 0.16]), count).tolist() == [2, 2, 3, 4]


def _pairs_added(middle: np.ndarray) -> np.ndarray:
    """Pairs of stations that each stretch has above its three, as the middles of stretches tell them apart."""
    return (np.unique(middle, return_counts=True)[1] - 3) // 2


ROUNDED = 0.5 + 1e-9  # sums along the oar are rounded to whole pairs


@pytest.mark.parametrize("count", [42, 61, 101, 102, 201, 402])
def test_stations_of_a_shape(count):
    """As many stations as wanted or one less, each stretch with its share by the root of its length."""
    laid = stations(SHAPE, count=count)
    assert len(laid.s) == count - (count - 42) % 2  # 14 stretches of three, and pairs
    assert [_stand(laid.s, place) for place in BREAKS] == [1] + [2] * 13 + [1]
    spare = (count - 42) // 2
    upto = spare * np.cumsum(np.sqrt(LENGTHS)) / np.sum(np.sqrt(LENGTHS))
    assert np.abs(np.cumsum(_pairs_added(laid.middle)) - upto).max() <= ROUNDED
    assert laid.weight.sum() == pytest.approx(2.2, rel=1e-12)
    assert np.sum(laid.weight * laid.s**3) == pytest.approx(2.2**4 / 4, rel=1e-12)  # Simpson's rule is exact for cubes


def test_further_breaks_share_too():
    """Stretches cut by pieces have their stations shared anew; a cut on a break leaves three to no length at all."""
    laid = stations(SHAPE, (1.2, 1.6), count=101)
    lengths = np.diff(np.sort(np.append(BREAKS, [1.2, 1.6])))
    upto = 26 * np.cumsum(np.sqrt(lengths)) / np.sum(np.sqrt(lengths))  # of 101, 16 stretches of three and 26 pairs
    assert len(laid.s) == 100
    assert (_stand(laid.s, 1.2), _stand(laid.s, 1.6)) == (2, 5)  # the ends of both neighbours, and the three
    assert np.abs(np.cumsum(_pairs_added(laid.middle)) - upto).max() <= ROUNDED
    assert laid.weight.sum() == pytest.approx(2.2, rel=1e-12)


def test_designs_share_alike():
    """Oars of two lengths have as many stations in each stretch, by its mean length, each on its own breaks.

    They are 0.2 m shorter and longer than 2.2 m, all of it between leather and blade.
    """
    lengths = np.array([2.0, 2.4])
    laid = stations(replace(SHAPE, length=lengths), count=101)
    upto = 29 * np.cumsum(np.sqrt(LENGTHS)) / np.sum(np.sqrt(LENGTHS))  # of 101, 14 stretches of three and 29 pairs
    for middle in laid.middle:
        assert np.abs(np.cumsum(_pairs_added(middle)) - upto).max() <= ROUNDED
    for own, length in zip(laid.s, lengths, strict=True):
        shift = np.where(BREAKS > 1.5, length - 2.2, 0.0)
        assert [_stand(own, place) for place in BREAKS + shift] == [1] + [2] * 13 + [1]


def test_too_few_stations():
    """Fewer than three a stretch are refused, with the least that do."""
    with pytest.raises(BadDesign, match="41 stations are too few for this oar; 42 is the least"):
        stations(SHAPE, count=41)
