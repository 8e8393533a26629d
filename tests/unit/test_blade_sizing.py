"""Sizes of a blade, against every blade of a small box worked with formulas written down here; and what sizing says."""

from dataclasses import replace
from itertools import product
from string import Formatter

import numpy as np
import pytest

from oarkit import BadDesign, design, example_project
from oarkit.oar.build import build_oar
from oarkit.oar.mass import blade_area, mass
from oarkit.oar.pieces import Piece
from oarkit.strength.bend import bench_drop
from oarkit.strength.blade import corner_check, without
from oarkit.strength.blade_sizing import BladeLimits, BladeWishes, size_blade
from oarkit.strength.blade_state import blade_state
from oarkit.strength.hard_start import checks
from oarkit.strength.sizing import LoomLimits, Wishes, lightest_loom
from oarkit.strength.sizing_advice import sizing_findings

QUILLET, TUMBLEHOD = (design(example_project(name).inputs).oars["port"] for name in ("quillet", "tumblehod"))
FREE = {"edge": "edge_strip", "face": "face", "tip": "tip_piece"}


def _faced():
    """Quillet with unequal faces and edges laid over its loom, and a neck of its own."""
    ash = next(piece.wood for piece in QUILLET.pieces if piece.kind == "edge")
    cap = next(piece for piece in QUILLET.pieces if piece.kind == "tip")
    face = Piece(kind="face", wood=replace(ash, name="birch", density=610.0, modulus=14e9), size=0.002)
    shape = replace(QUILLET.shape, neck_thickness=0.0297, tip_thickness=0.0115)
    return build_oar(shape, [QUILLET.pieces[0], face, cap], QUILLET.leather)


def _with(oar, sizes):
    """The oar with other sizes of its blade, written down once more; arrays of designs."""
    shape = replace(oar.shape, **{name: sizes[name] for name in ("tip_thickness", "edge_at_root", "edge_at_tip")})
    pieces = [replace(p, size=sizes[FREE[p.kind]]) if FREE.get(p.kind) in sizes else p for p in oar.pieces]
    return build_oar(shape, pieces, oar.leather)


def _bending(oar, wishes):
    """Least ratio along the blade: E M z/(E I) with M of a lever trapped 5 mm from its tip, and of a hard start."""
    shape, s = oar.shape, oar.s
    pry = wishes.pry * (shape.inboard - shape.grip_centre) / (shape.length - 0.005 - shape.inboard)
    pull = wishes.force * (shape.inboard - shape.grip_centre) / (shape.length - shape.blade_length / 2 - shape.inboard)
    moments = pry * (shape.length - 0.005 - s), pull * (shape.length - shape.blade_length / 2 - s)
    on_blade = oar.middle > shape.length - shape.blade_length
    least = np.inf
    for moment, (piece, fibre) in product(moments, zip(oar.pieces, oar.laminate.fibre, strict=True)):
        stress = piece.wood.modulus * np.maximum(moment, 0) * fibre / oar.laminate.bending_stiffness
        least = np.minimum(least, piece.wood.strength / np.max(np.where(on_blade, stress, 1.0), axis=-1))
    return least


def _corner_across(oar, sizes, wishes):
    """A cap laid across, worst at the spine: 6 F c/(b t²) with b of its own length, up to 60 mm."""
    cap = next(piece for piece in oar.pieces if piece.kind == "tip")
    b = np.minimum(sizes["tip_piece"], 0.060)
    return cap.wood.splitting * b * sizes["tip_thickness"] ** 2 / (6 * wishes.knock * wishes.arm)


def _every(oar, found, wishes, limits):
    """The lightest blade of a box, two steps to either side of every size, by looking at each."""
    names = ["tip_thickness", "edge_at_root", "edge_at_tip"]
    names += [name for name in FREE.values() if getattr(found, name) is not None]
    reach = 2 if len(names) < 5 else 1
    axes = []
    for name in names:
        step = limits.piece_step if name == "tip_piece" else limits.step
        axes.append((round(getattr(found, name) / step) + np.arange(-reach, reach + 1)) * step)
    rows = np.array(list(product(*axes)))
    told = dict(zip(names, rows.T, strict=True))
    lies = (told["tip_thickness"] >= limits.least_tip - 1e-9) & (told["tip_thickness"] <= limits.most_tip + 1e-9)
    lies &= (told["edge_at_tip"] >= limits.least_edge - 1e-9) & (told["edge_at_root"] >= told["edge_at_tip"] - 1e-9)
    neck, at = oar.shape.neck_thickness, 0.75  # where the middle has come down to the tip, the edge has furthest to go
    lies &= told["edge_at_root"] + at * (told["edge_at_tip"] - told["edge_at_root"]) <= told["tip_thickness"] + 1e-9
    lies &= (told["edge_at_tip"] <= told["tip_thickness"] + 1e-9) & (told["edge_at_root"] < neck - 1e-9)
    least = {"edge_strip": limits.least_edge_strip, "face": limits.least_face, "tip_piece": limits.least_tip_piece}
    for name in names[3:]:
        lies &= told[name] >= least[name] - 1e-9
    if "edge_strip" in told:
        lies &= told["edge_strip"] < oar.shape.neck_width / 2 - 1e-9
    if "face" in told:
        lies &= told["face"] <= told["edge_at_tip"] / 2 + 1e-9
    told = {name: values[lies] for name, values in told.items()}
    made = _with(oar, told)
    keeps = np.ones(np.sum(lies), dtype=bool)
    if wishes.bending is not None:
        keeps &= _bending(made, wishes) >= wishes.bending * (1 - 1e-9)
    if wishes.corner is not None:
        keeps &= _corner_across(oar, told, wishes) >= wishes.corner * (1 - 1e-9)
    heavy = np.where(keeps, mass(made), np.inf)
    best = int(np.argmin(heavy))
    return {name: values[best] for name, values in told.items()}, heavy[best]


@pytest.mark.parametrize(
    ("oar", "wishes", "limits"),
    [
        (QUILLET, BladeWishes(bending=1.83, corner=1.2, plate=None), BladeLimits()),
        (QUILLET, BladeWishes(bending=2.1, corner=2.3, plate=None), BladeLimits(least_edge=0.006)),
        (TUMBLEHOD, BladeWishes(bending=2.9, corner=1.7, plate=None), BladeLimits(step=0.0254 / 32)),
        (TUMBLEHOD, BladeWishes(bending=1.31, corner=2.9, plate=None), BladeLimits(piece_step=0.0254 / 4)),
        (_faced(), BladeWishes(bending=2.2, corner=1.5, plate=None), BladeLimits(least_face=0.001)),
    ],
    ids=lambda value: "" if hasattr(value, "pieces") else str(value)[:60],
)
def test_no_blade_of_the_box_is_lighter(oar, wishes, limits):
    """Of each blade one or two steps around what is found, none that does it is lighter."""
    found = size_blade(oar, wishes, limits)
    assert found.fits
    names = ["tip_thickness", "edge_at_root", "edge_at_tip", *FREE.values()]
    sizes = {name: getattr(found, name) for name in names if getattr(found, name) is not None}
    made = _with(oar, sizes)
    assert found.state.bending == pytest.approx(float(_bending(made, wishes)))
    assert found.state.mass == pytest.approx(float(mass(made)))
    assert found.state.drop == pytest.approx(float(bench_drop(made)))
    if "edge_strip" not in sizes and "face" not in sizes:
        assert found.state.corner == pytest.approx(_corner_across(oar, sizes, wishes))
    best, least = _every(oar, found, wishes, limits)
    assert found.state.mass == pytest.approx(least, abs=2e-6), best  # [kg]


def test_what_decides_proves_itself():
    """Each wish given up and each limit eased that is named gives a lighter blade; the blade's own sizes say so."""
    wishes, limits = BladeWishes(bending=1.2, corner=1.0), BladeLimits()
    found = size_blade(QUILLET, wishes, limits)
    assert set(found.decides) == {"corner", "least_edge", "least_edge_strip"}
    for name in found.decides:
        eased = (
            (replace(wishes, corner=None), limits)
            if name == "corner"
            else (wishes, replace(limits, **{name: getattr(limits, name) - limits.step}))
        )
        assert size_blade(QUILLET, *eased).state.mass < found.state.mass - 1e-6, name
    assert size_blade(QUILLET, replace(wishes, bending=None)).state.mass == pytest.approx(found.state.mass, abs=1e-6)


def test_an_impossible_wish_gives_the_nearest_and_why():
    """The neck alone bears prying at the root, and it is the loom's: no blade is stronger than its root."""
    found = size_blade(TUMBLEHOD, BladeWishes(bending=6.0, corner=None, plate=None))
    assert not found.fits
    assert [(one.wish, one.wanted) for one in found.missed] == [("bending", 6.0)]
    shape = TUMBLEHOD.shape
    force = 300 * (shape.inboard - shape.grip_centre) / (shape.length - 0.005 - shape.inboard)
    moment = force * (shape.blade_length - 0.005)
    stress = moment / (np.pi * shape.neck_width * shape.neck_thickness**2 / 32)  # an ellipse at the root
    assert found.missed[0].nearest == pytest.approx(TUMBLEHOD.pieces[0].wood.strength / stress, rel=1e-6)
    assert found.in_the_way == ("neck",)
    assert found.state.place == pytest.approx(shape.length - shape.blade_length)


def test_a_plain_soft_tip_cannot_be_made_to_bear_a_knock():
    """Without hardwood the corner of a spruce tip misses however thick custom allows it: t² is all that helps."""
    bare = without(QUILLET, "tip")
    found = size_blade(bare, BladeWishes(bending=1.0, corner=1.5, plate=None))
    assert not found.fits
    assert found.tip_thickness == pytest.approx(0.016)
    splitting = bare.pieces[0].wood.splitting
    assert found.missed[0].nearest <= splitting * 0.060 * 0.016**2 / (6 * 150 * 0.040) + 1e-9
    assert "most_tip" in found.in_the_way
    assert found.tip_piece is None


def test_what_the_hardwood_buys():
    """With and without each, the same outline: masses, drops and ratios of the oars built so."""
    found = size_blade(QUILLET)
    sizes = {name: getattr(found, name) for name in ("tip_thickness", "edge_at_root", "edge_at_tip")}
    made = _with(QUILLET, sizes | {"edge_strip": found.edge_strip, "tip_piece": found.tip_piece})
    assert set(found.bare) == {"edge", "tip", "all"}
    for kinds in (("edge",), ("tip",), ("edge", "tip")):
        told = found.bare[kinds[0] if len(kinds) == 1 else "all"]
        pieces = [piece for piece in made.pieces if piece.kind not in kinds]
        bare = build_oar(made.shape, pieces, made.leather)
        assert (told.mass, told.drop) == pytest.approx((float(mass(bare)), float(bench_drop(bare))))
        assert told.bending == pytest.approx(float(_bending(bare, BladeWishes())))
        assert told.corner == pytest.approx(float(corner_check(bare, force=150.0, arm=0.040).ratio))
    assert found.bare["tip"].corner < 1 < found.state.corner


def test_a_wood_without_a_value_is_not_sized_for():
    """No value across the grain: bending is sized for, the others are told as not checked and no number is none."""
    unknown = replace(TUMBLEHOD.pieces[0].wood, splitting=None)
    oar = build_oar(TUMBLEHOD.shape, [replace(TUMBLEHOD.pieces[0], wood=unknown)], TUMBLEHOD.leather)
    found = size_blade(oar, BladeWishes(bending=1.5))
    assert found.fits
    assert found.not_checked == ("corner", "plate")
    assert (found.state.corner, found.state.plate) == (None, None)


def test_the_same_to_the_last_digit():
    """The search is repeatable."""
    wishes = BladeWishes(bending=1.9, corner=1.4)
    assert size_blade(QUILLET, wishes) == size_blade(QUILLET, wishes)


def test_limits_that_leave_nothing_are_refused():
    """An edge thicker than any tip; a strip that meets its like; steps of nothing; a measured oar."""
    for limits, words in [
        (BladeLimits(least_edge=0.017), "edges of"), (BladeLimits(least_edge_strip=0.014), "edge strip of"),
        (BladeLimits(step=0.0), "steps"), (BladeLimits(least_tip_piece=0.2), "tip piece of"),
    ]:  # fmt: skip
        with pytest.raises(BadDesign, match="leave no blade") as refused:
            size_blade(QUILLET, BladeWishes(), limits)
        assert words in refused.value.text


# What sizing says


def _said(found, code):
    finding = next(each for each in found if each.code == code)
    gaps = {name for _, name, _, _ in Formatter().parse(finding.text) if name}
    assert gaps == set(finding.quantities)  # every gap is filled, and nothing is told that is not said
    assert all(np.isfinite(float(quantity.value)) for quantity in finding.quantities.values())
    return finding.text, {name: float(quantity.value) for name, quantity in finding.quantities.items()}


@pytest.mark.parametrize("oar", [QUILLET, TUMBLEHOD], ids=["quillet", "tumblehod"])
def test_the_loom_and_its_trade_in_words(oar):
    """Sizes, saving and trade are those of the looms themselves."""
    wishes = Wishes(index=0.048, ratio=1.3)
    found = sizing_findings(oar, wishes, blade=None)
    assert [finding.code for finding in found] == ["loom_size", "loom_trade"]
    loom = lightest_loom(oar, wishes)
    text, told = _said(found, "loom_size")
    assert (told["lock"], told["thick"], told["wide"]) == (loom.lock, loom.neck_thickness, loom.neck_width)
    change = loom.mass - float(mass(oar))
    assert told["change"] == pytest.approx(abs(change))
    assert ("lighter than this one" in text) == (change < 0)
    index = float(bench_drop(oar) / oar.blade_arm)
    assert ("more limber than" in text) == (index > 0.048)
    assert "the wanted stiffness index" in text
    assert ("least width of the neck" in text) == ("least_neck_share" in loom.decides)
    text, told = _said(found, "loom_trade")
    stiff, soft = (lightest_loom(oar, replace(wishes, index=index)) for index in (0.038, 0.058))
    assert told["costs"] == pytest.approx(stiff.mass - loom.mass)
    assert told["saves"] == pytest.approx(loom.mass - soft.mass)
    assert (told["stiffer"], told["limber"]) == pytest.approx((0.038, 0.058))


def test_where_strength_decides_more_limber_is_not_promised():
    """The ratio holds the size, so the index comes out as it will and only a stiffer one costs."""
    wishes = Wishes(index=0.09, ratio=1.9)
    text, told = _said(sizing_findings(QUILLET, wishes, blade=None), "loom_trade")
    loom = lightest_loom(QUILLET, wishes)
    assert "limber" not in text
    assert told["stiffer"] == pytest.approx(loom.index - 0.01)
    assert told["costs"] > 0


def test_an_impossible_loom_in_words():
    """What is missed, by how much, and the stock in the way with its size."""
    found = sizing_findings(QUILLET, Wishes(index=0.02, ratio=4.0), LoomLimits(stock=0.050), blade=None)
    assert [(each.level, each.code) for each in found] == [("caution", "loom_size")]
    text, told = _said(found, "loom_size")
    assert "In the way stand" in text
    assert told["limit_stock"] == 0.050
    assert (told["want_index"], told["want_ratio"]) == (0.02, 4.0)
    shape = replace(QUILLET.shape, lock_diameter=0.048, neck_thickness=0.048, neck_width=0.048, inboard_size=0.050)
    made = build_oar(shape, QUILLET.pieces, QUILLET.leather)
    assert told["near_index"] == pytest.approx(float(bench_drop(made) / made.blade_arm))
    assert told["near_ratio"] == pytest.approx(float(checks(made, force=400.0, wanted=1.0)[0].ratio))


def test_the_blade_and_its_hardwood_in_words():
    """Sizes and ratios are those of the blade, differences those of the oars with and without."""
    found = sizing_findings(QUILLET, Wishes(index=0.05))
    sized = size_blade(QUILLET)
    text, told = _said(found, "blade_size")
    assert (told["tip"], told["root"], told["edge"]) == (sized.tip_thickness, sized.edge_at_root, sized.edge_at_tip)
    assert (told["has_bending"], told["has_corner"]) == (sized.state.bending, sized.state.corner)
    assert told["change"] == pytest.approx(float(mass(QUILLET)) - sized.state.mass)
    assert "lighter than this one" in text
    assert "As it is" not in text  # the blade as it is bears all that is wanted
    text, told = _said(found, "hardwood")
    assert told["tip_corner_with"] == sized.state.corner
    assert told["tip_corner"] == sized.bare["tip"].corner
    assert told["edge_mass"] == pytest.approx(sized.state.mass - sized.bare["edge"].mass)
    assert "without its edge strips it would weigh {edge_mass} less" in text


def test_a_blade_that_misses_says_so():
    """What the blade as it is lacks, with the number wanted; a wish for the loom's neck is told as such."""
    wishes = BladeWishes(bending=2.2, corner=4.2)
    text, told = _said(sizing_findings(QUILLET, Wishes(), blade=wishes), "blade_size")
    now = blade_state(QUILLET)
    assert "As it is the blade has a ratio of {own_bending} in bending where {wish_bending} is wanted" in text
    assert (told["own_bending"], told["own_corner"]) == (now.bending, now.corner)
    text, told = _said(sizing_findings(TUMBLEHOD, Wishes(), blade=BladeWishes(bending=6.0)), "blade_size")
    assert "In the way stands the neck, {limit_neck} thick" in text
    assert told["limit_neck"] == TUMBLEHOD.shape.neck_thickness


def test_what_cannot_be_sized_says_why():
    """Limits that leave nothing, and a wood without a value, in a sentence and not as an error."""
    found = sizing_findings(QUILLET, Wishes(index=0.05), LoomLimits(stock=0.03), blade=None)
    assert [finding.code for finding in found] == ["not_sized"]
    assert found[0].text.startswith("The limits leave no loom: the least lock wants")
    unknown = replace(TUMBLEHOD.pieces[0].wood, splitting=None)
    oar = build_oar(TUMBLEHOD.shape, [replace(TUMBLEHOD.pieces[0], wood=unknown)], TUMBLEHOD.leather)
    text, _ = _said(sizing_findings(oar, Wishes()), "blade_size")
    assert "not sized for the ratio of the tip's corner" in text


def test_the_two_boats_are_told_differently():
    """Sentences are built from the oar's own numbers."""
    texts = [[finding.text for finding in sizing_findings(oar, Wishes(index=0.05))] for oar in (QUILLET, TUMBLEHOD)]
    assert texts[0][2:] != texts[1][2:]


def test_plate_decides_where_it_is_asked_for_much():
    """Water on a wide blade: p = F/A, 3 p c²/t² at the spine where the width is full, by hand at the worst station."""
    found = size_blade(TUMBLEHOD, BladeWishes(bending=None, corner=None, plate=5.0))
    assert found.fits
    assert "plate" in found.decides
    shape = replace(TUMBLEHOD.shape, tip_thickness=found.tip_thickness, edge_at_root=found.edge_at_root,
                    edge_at_tip=found.edge_at_tip)  # fmt: skip
    made = build_oar(shape, TUMBLEHOD.pieces, TUMBLEHOD.leather)
    force = 400 * made.hand_arm / made.blade_arm
    spine = 3 * force / blade_area(made) * (0.127 / 2) ** 2 / found.tip_thickness**2
    assert found.state.plate == pytest.approx(TUMBLEHOD.pieces[0].wood.splitting / spine)
