"""What must hold for any oar: equal woods make a plain section, scaling of bending, mass and tone, symmetry, limits."""

from dataclasses import fields, replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import oarkit.oar.shape as oar_shape
from oarkit import design, example_project
from oarkit.oar.build import Leather, Oar, Piece, build_oar
from oarkit.oar.mass import balance, blade_area, inertia_about_lock, mass
from oarkit.oar.shape import OarShape
from oarkit.section.laminate import laminated, stacked
from oarkit.section.layers import Region
from oarkit.section.profile import Profile, half_thickness, outline, zone_moments
from oarkit.strength.bend import bench_drop, first_frequency
from oarkit.strength.hard_start import checks, safety_ratio
from oarkit.tables import grain_table
from oarkit.wood.adjust import adjusted_strength, at_moisture, slope_factor
from oarkit.wood.board import Wood

few = settings(max_examples=20, deadline=None, derandomize=True, database=None)

QUILLET: Oar = design(example_project("quillet").inputs).oars["port"]
NONE = Leather(mass=0.0)
FACTOR = st.floats(0.3, 3)
SHARE = st.floats(0.0, 1.0)
profiles = st.builds(
    lambda t, w, e, c, b: Profile(
        thickness=np.array(t), width=np.array(w), edge=np.array(e * t), corner=np.array(c), blade_share=np.array(b)
    ),
    st.floats(0.01, 0.06), st.floats(0.02, 0.15), SHARE, st.sampled_from([0.0, 0.13, 0.5]), SHARE,
)  # fmt: skip
woods = st.builds(
    lambda modulus, ratio, density, strength: Wood(
        name="any", modulus=modulus, shear_modulus=modulus * ratio, density=density, strength=strength, working=()
    ),
    st.floats(5e9, 18e9), st.floats(0.03, 0.12), st.floats(300, 800), st.floats(20e6, 60e6),
)  # fmt: skip


def _oar(*pieces: Piece, leather: Leather = NONE) -> Oar:
    return build_oar(QUILLET.shape, pieces, leather)


def _same_laminate(one: Oar, other: Oar) -> None:
    for name in ("axial_stiffness", "bending_stiffness", "lateral_stiffness", "shear_stiffness", "mass_per_length"):
        s = np.linspace(0.001, one.shape.length - 0.001, 97)  # away from the breaks, where stations stand twice
        found = [np.interp(s, oar.s, getattr(oar.laminate, name)) for oar in (one, other)]
        assert found[0] == pytest.approx(found[1], rel=1e-3), name  # between stations that lie elsewhere


@few
@given(profile=profiles, cut=SHARE)
def test_parts_make_the_whole(profile, cut):
    """A section cut into a middle and two edges keeps its area and second moments."""
    nil, one, at = np.array(0.0), np.array(1.0), np.array(cut)
    whole, middle, edges = (zone_moments(profile, a, b) for a, b in ((nil, one), (nil, at), (at, one)))
    for name in ("area", "bending", "lateral"):
        assert getattr(middle, name) + getattr(edges, name) == pytest.approx(getattr(whole, name), rel=1e-9)


@few
@given(profile=profiles, factor=FACTOR)
def test_section_scales(profile, factor):
    """Sizes times k make k^2 the area and k^4 the second moments."""
    sizes = {name: factor * getattr(profile, name) for name in ("thickness", "width", "edge")}
    small, large = (zone_moments(p, np.array(0.0), np.array(1.0)) for p in (profile, replace(profile, **sizes)))
    assert large.area == pytest.approx(factor**2 * small.area)
    assert large.bending == pytest.approx(factor**4 * small.bending)
    assert large.lateral == pytest.approx(factor**4 * small.lateral)


@few
@given(profile=profiles)
def test_section_is_symmetric(profile):
    """The outline is its own mirror image in both axes, and closed."""
    y, z = outline(profile)
    assert (y[0], z[0]) == (y[-1], z[-1])
    corners = {(round(a, 9), round(b, 9)) for a, b in zip(y.tolist(), z.tolist(), strict=True)}
    assert {(-a, b) for a, b in corners} == {(a, -b) for a, b in corners} == corners


@few
@given(t=st.floats(0.01, 0.06), w=st.floats(0.02, 0.15), corner=st.floats(0.01, 0.5))
def test_turning_the_section(t, w, corner):
    """A loom laid on its side bends as it bent the other way: thickness and width change places."""
    nil, one = np.array(0.0), np.array(1.0)
    upright, flat = (
        zone_moments(
            Profile(thickness=np.array(a), width=np.array(b), edge=nil, corner=np.array(corner), blade_share=nil),
            nil,
            one,
        )
        for a, b in ((t, w), (w, t))
    )
    assert upright.bending == pytest.approx(flat.lateral)
    assert upright.lateral == pytest.approx(flat.bending)


@few
@given(profile=profiles, eta=SHARE)
def test_thickest_on_the_centre_line(profile, eta):
    """Half the thickness falls from the centre line outward and is nowhere negative."""
    middle, there = half_thickness(profile, np.array(0.0)), half_thickness(profile, np.array(eta))
    assert middle == pytest.approx(profile.thickness / 2)
    assert -1e-15 <= there <= middle + 1e-15


@few
@given(wood=woods, size=st.floats(0.003, 0.03), start=st.floats(0.2, 1.0))
def test_one_wood_in_pieces_is_one_wood(wood, size, start):
    """Edge strips, a tip and a second length of the very same wood change nothing about an oar."""
    plain = _oar(Piece(kind="loom", wood=wood))
    parts = _oar(
        Piece(kind="loom", wood=wood),
        Piece(kind="loom", wood=wood, start=start),
        Piece(kind="edge", wood=wood, size=size),
        Piece(kind="tip", wood=wood, size=size),
    )
    _same_laminate(plain, parts)
    # Extra stations: Simpson's rule on shorter stretches.
    for quantity in (mass, balance, inertia_about_lock, bench_drop, first_frequency):
        assert quantity(parts) == pytest.approx(quantity(plain), rel=3e-4)
    worst = [checks(oar, force=400.0, wanted=1.5)[0].ratio for oar in (plain, parts)]
    assert worst[0] == pytest.approx(worst[1], rel=1e-4)


@few
@given(wood=woods, profile=profiles, cut=SHARE)
def test_equal_moduli_make_a_plain_section(wood, profile, cut):
    """A laminate of equal moduli is the plain section times its modulus."""
    section = Profile(**{f.name: np.atleast_1d(getattr(profile, f.name)) for f in fields(Profile)})
    bounds = [np.array([0.0]), np.array([cut]), np.array([1.0])]
    stack = laminated(section, bounds=bounds, owner=[np.array([0]), np.array([1])], woods=[wood, wood])
    whole = zone_moments(section, np.array([0.0]), np.array([1.0]))
    assert stack.axial_stiffness == pytest.approx(wood.modulus * whole.area, rel=1e-9)
    assert stack.bending_stiffness == pytest.approx(wood.modulus * whole.bending, rel=1e-9)
    assert stack.lateral_stiffness == pytest.approx(wood.modulus * whole.lateral, rel=1e-9)
    assert stack.mass_per_length == pytest.approx(wood.density * whole.area, rel=1e-9)
    assert sum(stack.piece_mass) == pytest.approx(stack.mass_per_length)


def _section(profile: Profile) -> Profile:
    return Profile(**{f.name: np.atleast_1d(getattr(profile, f.name)) for f in fields(Profile)})


LAYERS = st.lists(
    st.one_of(
        st.builds(lambda s, a: Region(shape="layer", size=s, at=a), st.floats(0.001, 0.02), st.floats(-0.004, 0.004)),
        st.builds(lambda s: Region(shape="faces", size=s), st.floats(0.0005, 0.004)),
        st.builds(lambda s: Region(shape="sides", size=s), st.floats(0.001, 0.009)),
        st.builds(lambda s: Region(shape="middle", size=s), st.floats(0.001, 0.018)),
    ),
    max_size=4,
)


@few
@given(wood=woods, profile=profiles, layers=LAYERS)
def test_one_wood_in_layers_is_one_wood(wood, profile, layers):
    """However a section is cut into pieces, pieces of one wood have what the plain section has."""
    section = _section(profile)
    stack = stacked(section, regions=[Region(shape="whole"), *layers], woods=[wood] * (1 + len(layers)))
    whole = zone_moments(section, 0.0, 1.0)
    assert stack.axial_stiffness == pytest.approx(wood.modulus * whole.area, rel=1e-9)
    assert stack.bending_stiffness == pytest.approx(wood.modulus * whole.bending, rel=1e-9)
    assert stack.lateral_stiffness == pytest.approx(wood.modulus * whole.lateral, rel=1e-9)
    assert stack.first_moment == pytest.approx(wood.modulus * whole.first, rel=1e-9)
    assert stack.lateral_first_moment == pytest.approx(wood.modulus * whole.lateral_first, rel=1e-9)
    assert abs(stack.neutral_axis[0]) < 1e-9 * profile.thickness
    assert max(fibre[0] for fibre in stack.fibre) == pytest.approx(profile.thickness / 2)
    assert sum(stack.piece_mass) == pytest.approx(stack.mass_per_length)


@few
@given(wood=woods, other=woods, profile=profiles, layers=LAYERS, factor=FACTOR)
def test_laminate_scales(wood, other, profile, layers, factor):
    """Sizes times k: k^2 of E A and G A/k, k^4 of E I and G J, k^3 of first moments, k of neutral axis and fibres."""

    def made(k: float):
        sizes = {name: k * getattr(profile, name) for name in ("thickness", "width", "edge")}
        regions = [Region(shape="whole"), *(replace(r, size=k * r.size, at=k * r.at) for r in layers)]
        return stacked(_section(replace(profile, **sizes)), regions=regions, woods=[wood] + [other] * len(layers))

    small, large = made(1.0), made(factor)
    powers = {
        "axial_stiffness": 2, "shear_stiffness": 2, "mass_per_length": 2, "bending_stiffness": 4,
        "lateral_stiffness": 4, "torsion_stiffness": 4, "first_moment": 3, "lateral_first_moment": 3,
    }  # fmt: skip
    for name, power in powers.items():
        assert getattr(large, name) == pytest.approx(factor**power * getattr(small, name), rel=1e-8), name
    assert large.neutral_axis == pytest.approx(factor * small.neutral_axis, abs=1e-12)
    for name, power in (("fibre_aft", 1), ("fibre_forward", 1), ("glue_shear", 2)):
        for one, two in zip(getattr(small, name), getattr(large, name), strict=True):
            assert two == pytest.approx(factor**power * one, rel=1e-8, abs=1e-12), name


@few
@given(wood=woods, other=woods, profile=profiles, size=st.floats(0.002, 0.008), at=st.floats(0.0, 0.006))
def test_turned_over(wood, other, profile, size, at):
    """A strip aft and the same strip forward make mirror images: neutral axis and fibres change sign and side."""
    section = _section(profile)
    aft, forward = (
        stacked(section, regions=[Region(shape="whole"), Region(shape="layer", size=size, at=a)], woods=[wood, other])
        for a in (at, -at)
    )
    assert aft.bending_stiffness == pytest.approx(forward.bending_stiffness, rel=1e-12)
    assert aft.neutral_axis == pytest.approx(-forward.neutral_axis, abs=1e-12)
    assert aft.first_moment == pytest.approx(forward.first_moment, rel=1e-9)
    assert aft.glue_shear[1] == pytest.approx(forward.glue_shear[1], rel=1e-9)
    for one, two in zip(aft.fibre_aft, forward.fibre_forward, strict=True):
        assert one == pytest.approx(-two, abs=1e-12)


@few
@given(wood=woods, stiffer=FACTOR, heavier=FACTOR, load=st.floats(1, 500))
def test_moduli_density_and_load(wood, stiffer, heavier, load):
    """Drop goes as load over moduli, mass as density, the note as the root of modulus over density."""
    changed = replace(
        wood, modulus=stiffer * wood.modulus, shear_modulus=stiffer * wood.shear_modulus, density=heavier * wood.density
    )
    plain, other = (_oar(Piece(kind="loom", wood=w)) for w in (wood, changed))
    assert bench_drop(other, load=load) == pytest.approx(load / 98.0665 / stiffer * bench_drop(plain))
    assert mass(other) == pytest.approx(heavier * mass(plain))
    assert inertia_about_lock(other) == pytest.approx(heavier * inertia_about_lock(plain))
    assert balance(other) == pytest.approx(balance(plain))
    assert first_frequency(other) == pytest.approx(np.sqrt(stiffer / heavier) * first_frequency(plain), rel=1e-6)


def _scaled_shape(factor: float) -> OarShape:
    shape = QUILLET.shape
    return replace(
        shape, **{f.name: factor * getattr(shape, f.name) for f in fields(OarShape) if f.name != "square_inboard"}
    )


@few
@given(wood=woods, factor=FACTOR)
def test_oar_scales(wood, factor):
    """An oar k times as large, fairing and all, has k^3 the mass, k^5 the inertia and 1/k the drop and the note."""
    pieces = [Piece(kind="loom", wood=wood)]
    small = build_oar(QUILLET.shape, pieces, NONE)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(oar_shape, "SHOULDER", factor * oar_shape.SHOULDER)
        patch.setattr(oar_shape, "ROUNDING", factor * oar_shape.ROUNDING)
        large = build_oar(_scaled_shape(factor), pieces, NONE)
    assert mass(large) == pytest.approx(factor**3 * mass(small))
    assert balance(large) == pytest.approx(factor * balance(small))
    assert inertia_about_lock(large) == pytest.approx(factor**5 * inertia_about_lock(small))
    assert blade_area(large) == pytest.approx(factor**2 * blade_area(small))
    assert bench_drop(large) == pytest.approx(bench_drop(small) / factor)
    assert first_frequency(large) == pytest.approx(first_frequency(small) / factor, rel=1e-6)


@few
@given(wood=woods, edge=woods)
def test_stiffer_edges_never_bend_more(wood, edge):
    """Edge strips stiffer than the loom lessen the drop, softer ones add to it."""
    plain = _oar(Piece(kind="loom", wood=wood))
    edged = _oar(Piece(kind="loom", wood=wood), Piece(kind="edge", wood=edge, size=0.008))
    change = bench_drop(edged, with_shear=False) - bench_drop(plain, with_shear=False)
    assert change * (edge.modulus - wood.modulus) <= 0


@few
@given(force=st.floats(50, 900), factor=FACTOR)
def test_safety_falls_with_the_force(force, factor):
    """Safety goes as one over the force; the worst place stays where it is."""
    one, other = (checks(QUILLET, force=f, wanted=1.5) for f in (force, factor * force))
    assert [check.ratio for check in other] == pytest.approx([check.ratio / factor for check in one])
    assert [check.place for check in other] == [check.place for check in one]
    assert all(check.ok == (check.ratio >= 1.5) for check in one)


@few
@given(strength=st.floats(1e6, 1e8), stress=st.floats(1e3, 1e8))
def test_safety_ratio(strength, stress):
    """A ratio of one is a stress equal to the strength; no stress at all is no limit."""
    assert safety_ratio(strength=strength, stress=stress) * stress == pytest.approx(strength)
    assert safety_ratio(strength=strength, stress=0.0) == np.inf


@few
@given(dry=st.floats(30e6, 120e6), loss=st.floats(0.3, 0.99), point=st.sampled_from([0.21, 0.25, 0.28]))
def test_moisture_weakens(dry, loss, point):
    """Between 0 and the moisture point, wetter wood is weaker, by the same share for each step of moisture."""
    moisture = np.linspace(0.0, point, 7)
    value = at_moisture(at_12=dry, green=loss * dry, moisture=moisture, moisture_point=point)
    assert np.all(np.diff(value) < 0)
    assert value[1:] / value[:-1] == pytest.approx(np.full(6, value[1] / value[0]))


@few
@given(a=st.floats(0, 0.2), b=st.floats(0, 0.2))
def test_steeper_grain_is_weaker(a, b):
    """Steeper grain never leaves more strength."""
    shares = slope_factor(slope=np.array(sorted((a, b))), table=grain_table())
    assert shares[0] >= shares[1]
    assert 0.55 <= shares[1] <= 1


@few
@given(share=SHARE, moisture=SHARE, variation=st.floats(0, 0.3))
def test_strength_is_never_more_than_the_mean(share, moisture, variation):
    """Each adjustment takes away; none at all leaves the mean."""
    adjusted = adjusted_strength(mean=70e6, variation=variation, slope_share=share, moisture_share=moisture)
    assert 0 <= adjusted <= 70e6
    assert adjusted_strength(mean=70e6, variation=0.0, slope_share=1.0, moisture_share=1.0) == 70e6
