"""The bench drop by other roads: closed forms by SymPy, a frame model in PyNite, and scipy.quad on the sections.

Bars of plain shape are laid on the stations of an oar, so that the very functions that bend an oar bend them.
"""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
import sympy
from Pynite import FEModel3D
from scipy.integrate import quad

from oarkit import design, example_project
from oarkit.oar.build import Leather, Oar, Piece, build_oar
from oarkit.oar.shape import profile_at
from oarkit.section.laminate import laminated
from oarkit.section.profile import Profile
from oarkit.strength.bend import BENCH_LOAD, bench_drop, drop_shares, unit_moment, unit_shear
from oarkit.wood.board import Wood

HAND_ARM, BLADE_ARM, LOAD = 0.571, 1.383, 71.0  # [m, m, N]
WOOD = Wood(name="any", modulus=10.4e9, shear_modulus=0.63e9, density=430.0, strength=40e6, working=())
LOCK_SIZE, BLADE_SIZE, BREADTH = 0.047, 0.029, 0.036  # at the lock, at mid-blade, breadth of the rectangle [m]


def bar(*, round_section: bool, at_blade: float, at_lock: float = LOCK_SIZE) -> Oar:
    """A bar of one wood on the stations of an oar: even to the lock, tapered from there to mid-blade and beyond."""
    sizes = example_project("quillet").inputs.sizes
    inboard = sizes.grip_centre + HAND_ARM
    shape = sizes.at(length=inboard + BLADE_ARM + sizes.blade_length / 2, inboard=inboard)
    oar = build_oar(shape, [Piece(kind="loom", wood=WOOD)], Leather(mass=0.0))
    size = np.interp(oar.s, [inboard, inboard + BLADE_ARM], [at_lock, at_blade])
    nil = np.zeros_like(size)
    profile = Profile(
        thickness=size, width=size if round_section else BREADTH + nil, edge=size,
        corner=nil + 0.5 * round_section, blade_share=nil,
    )  # fmt: skip
    laminate = laminated(profile, bounds=[nil, nil + 1], owner=[nil.astype(int)], woods=[WOOD])
    return replace(oar, profile=profile, laminate=laminate)


def test_even_bar():
    """An even round bar drops by P l_b^2 (l_b + l_h)/(3 E I)."""
    stiffness = WOOD.modulus * np.pi * LOCK_SIZE**4 / 64
    exact = LOAD * BLADE_ARM**2 * (BLADE_ARM + HAND_ARM) / (3 * stiffness)
    found = bench_drop(bar(round_section=True, at_blade=LOCK_SIZE), load=LOAD, with_shear=False)
    assert found == pytest.approx(exact, rel=1e-9)  # Simpson's rule is exact for a square


def test_closed_form_of_the_even_bar():
    """That closed form is what SymPy finds from the curvature of the two stretches, held at grip and lock."""
    x, load, l_h, l_b, stiffness, turn = sympy.symbols("x P l_h l_b EI turn", positive=True)
    # Deflection from the lock, outboard x > 0 and inboard x < 0; curvature is moment over stiffness.
    outboard = sympy.integrate(sympy.integrate(load * (l_b - x) / stiffness, (x, 0, x)), (x, 0, x)) + turn * x
    inboard = (
        sympy.integrate(sympy.integrate(load * l_b / l_h * (l_h + x) / stiffness, (x, 0, x)), (x, 0, x)) + turn * x
    )
    (held,) = sympy.solve(inboard.subs(x, -l_h), turn)
    drop = outboard.subs(x, l_b).subs(turn, held)
    assert sympy.simplify(drop - load * l_b**2 * (l_b + l_h) / (3 * stiffness)) == 0


def test_shear_of_the_even_bar():
    """Shear adds P (l_b + l_b^2/l_h)/(G A'), with A' = (9/40) pi d^2 (Wood Handbook FPL-GTR-282 (2021), eq. 9-4)."""
    oar = bar(round_section=True, at_blade=LOCK_SIZE)
    added = bench_drop(oar, load=LOAD) - bench_drop(oar, load=LOAD, with_shear=False)
    exact = LOAD * (BLADE_ARM + BLADE_ARM**2 / HAND_ARM) / (WOOD.shear_modulus * 9 / 40 * np.pi * LOCK_SIZE**2)
    assert added == pytest.approx(exact, rel=1e-9)


def _tapered_drop(second_moment) -> float:
    """Drop of a bar tapered outboard of the lock, by SymPy: the cantilever, and the turn of the even inboard."""
    x = sympy.Symbol("x", nonnegative=True)  # from mid-blade toward the lock
    size = BLADE_SIZE + (LOCK_SIZE - BLADE_SIZE) * x / BLADE_ARM
    cantilever = sympy.integrate(x**2 / second_moment(sympy.nsimplify(size, rational=True)), (x, 0, BLADE_ARM))
    inboard = BLADE_ARM**2 * HAND_ARM / (3 * second_moment(LOCK_SIZE))
    return float(LOAD / WOOD.modulus * (cantilever + inboard))


def test_round_taper():
    """A round taper drops as SymPy integrates it, 64 P L^3/(3 pi E d_1 d_2^3) for the outboard."""
    found = bench_drop(bar(round_section=True, at_blade=BLADE_SIZE), load=LOAD, with_shear=False)
    exact = _tapered_drop(lambda d: sympy.pi * d**4 / 64)
    assert found == pytest.approx(exact, rel=1e-6)  # Simpson's rule with some 25 points a stretch
    closed = 64 * LOAD * BLADE_ARM**3 / (3 * np.pi * WOOD.modulus * BLADE_SIZE * LOCK_SIZE**3)
    inboard = LOAD * BLADE_ARM**2 * HAND_ARM / (3 * WOOD.modulus * np.pi * LOCK_SIZE**4 / 64)
    assert found == pytest.approx(closed + inboard, rel=1e-6)


def test_rectangular_taper():
    """A taper in thickness alone drops as SymPy integrates it."""
    found = bench_drop(bar(round_section=False, at_blade=BLADE_SIZE), load=LOAD, with_shear=False)
    assert found == pytest.approx(_tapered_drop(lambda h: BREADTH * h**3 / 12), rel=1e-6)  # as above


@pytest.fixture(scope="module")
def quillet() -> Oar:
    return design(example_project("quillet").inputs).oars["port"]


def test_forces_on_the_bench(quillet):
    """Moment and shear of the unit load: nil beyond grip and blade, steepest inboard, and in balance at the lock."""
    moment, shear, s = unit_moment(quillet), unit_shear(quillet), quillet.s
    shape = quillet.shape
    assert np.all(moment[(s <= shape.grip_centre) | (s >= shape.mid_blade)] == 0)
    steps = np.diff(s) > 0
    slope = np.diff(moment)[steps] / np.diff(s)[steps]
    middle = quillet.middle[:-1][steps]
    # The shear is the slope of the moment, by central differences of straight lines.
    assert np.abs(slope) == pytest.approx(shear[:-1][steps], abs=1e-9)
    at_grip = slope[np.searchsorted(middle, shape.grip_centre, side="right")]
    at_lock = at_grip - slope[np.searchsorted(middle, shape.inboard, side="right")]
    assert at_lock - at_grip == pytest.approx(1.0)  # pin less hand is the load
    assert at_lock * quillet.hand_arm == pytest.approx(quillet.hand_arm + quillet.blade_arm)  # moments about the grip


def test_quillet_in_pynite(quillet):
    """The oar of the example drops as a frame of beams between its stations does in PyNite, shear left out."""
    shape = quillet.shape
    s, first = np.unique(quillet.s.round(9), return_index=True)
    stiffness = quillet.laminate.bending_stiffness[first]
    frame = FEModel3D()
    frame.add_material("unit", E=1.0, G=1.0, nu=0.3, rho=1.0)
    for index, place in enumerate(s):
        frame.add_node(f"{index}", place, 0, 0)
    for index in range(len(s) - 1):
        middle = (stiffness[index] + stiffness[index + 1]) / 2
        frame.add_section(f"{index}", A=1e6, Iy=middle, Iz=middle, J=1e6)
        frame.add_member(f"{index}", f"{index}", f"{index + 1}", "unit", f"{index}")

    def at(place: float) -> str:
        return f"{int(np.argmin(np.abs(s - place)))}"

    frame.def_support(at(shape.grip_centre), True, True, True, True, False, False)
    frame.def_support(at(shape.inboard), False, True, True, False, False, False)
    frame.add_node_load(at(shape.mid_blade), "FY", -BENCH_LOAD)
    frame.analyze_linear(check_statics=False)
    drop = -frame.nodes[at(shape.mid_blade)].DY["Combo 1"]
    found = bench_drop(quillet, with_shear=False)
    # A beam between stations has the mean stiffness of its ends, and the frame takes one station of each break.
    assert found == pytest.approx(drop, rel=1e-4)


def _section_stiffness(quillet: Oar, place: float) -> float:
    """E I of the example's section, from its sizes and its woods, by quadrature across the width."""
    sizes = profile_at(quillet.shape, np.array([place]))
    thickness, width, edge, corner, share = (
        float(getattr(sizes, name)[0]) for name in ("thickness", "width", "edge", "corner", "blade_share")
    )
    loom, strip = (piece.wood.modulus for piece in quillet.pieces[:2])
    inner = 1 - 2 * quillet.pieces[1].size / width if place > quillet.shape.blade_root else 1.0

    def cube(eta: float) -> float:
        beyond = max(eta - (1 - 2 * corner), 0.0)
        eased = 1 - 2 * corner + np.sqrt(max((2 * corner) ** 2 - beyond**2, 0.0))
        sloped = 1 + (edge / thickness - 1) * eta
        return ((1 - share) * eased + share * sloped) ** 3

    def strip_of(modulus: float, start: float, stop: float) -> float:
        breaks = sorted({start, stop, min(max(1 - 2 * corner, start), stop)})
        return modulus * sum(quad(cube, a, b, epsrel=1e-8)[0] for a, b in pairwise(breaks))

    whole = strip_of(loom, 0.0, inner) + (strip_of(strip, inner, 1.0) if inner < 1 else 0.0)
    return whole * width * thickness**3 / 12


def test_quillet_by_quad(quillet):
    """The oar of the example drops by the integral of M^2/(E I) along it, every section integrated for itself."""
    shape = quillet.shape
    hand_arm, blade_arm = shape.inboard - shape.grip_centre, shape.mid_blade - shape.inboard
    root, blade = shape.blade_root, shape.blade_length

    def flexure(place: float) -> float:
        inboard = blade_arm * (place - shape.grip_centre) / hand_arm
        moment = inboard if place < shape.inboard else shape.mid_blade - place
        return moment**2 / _section_stiffness(quillet, place)

    breaks = [
        shape.grip_centre, shape.grip_length, shape.grip_length + 0.050, shape.leather_start - 0.060,
        shape.leather_start, shape.inboard, shape.leather_end, root, root + 0.08 * blade, root + 0.35 * blade,
        shape.mid_blade,
    ]  # fmt: skip
    exact = sum(quad(flexure, a, b, epsrel=1e-6)[0] for a, b in pairwise(breaks))
    found = bench_drop(quillet, load=1.0, with_shear=False)
    # The fairing's power of 0.8 starts with an infinite curvature, which Simpson's rule feels.
    assert found == pytest.approx(exact, rel=5e-6)


def test_shares_of_the_drop(quillet):
    """Outboard, inboard and shear are the drop of an oar rigid elsewhere, one after the other."""
    outboard, inboard, shear = drop_shares(quillet)
    beyond = quillet.middle > quillet.shape.inboard
    for share, rigid in ((outboard, ~beyond), (inboard, beyond), (shear, True)):
        bending = np.where(rigid, 1e12, 1.0) * quillet.laminate.bending_stiffness
        part = replace(quillet, laminate=replace(quillet.laminate, bending_stiffness=bending))
        with_shear = share is shear
        assert bench_drop(part, with_shear=with_shear) == pytest.approx(share, rel=1e-6)  # 1e12 is as good as rigid
