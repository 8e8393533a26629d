"""What a hole takes from a loom, integrated by SymPy, solved again, and the stress beside it from its own equation."""

import numpy as np
import pytest
import sympy as sp
from scipy.integrate import quad
from scipy.optimize import brentq

from oarkit.section.hole import (
    diameter_for_hole,
    hole_stress,
    loss_along_bending,
    loss_along_neutral_axis,
    net_section,
    stress_concentration,
    strip_loss_along_bending,
    strip_loss_along_neutral_axis,
)

MM = sp.Rational(1, 1000)
x = sp.Symbol("x", real=True)
T, W, A = 46 * MM, 41 * MM, 9 * MM
LOOM = {"thickness": 0.046, "width": 0.041, "hole": 0.009}
#: Rounding of both sides; small holes lose a digit or two in a difference. Second moments are so small in m4 that
#: pytest's own least tolerance of 1e-12 would let anything pass: it is switched off.
EXACT = 1e-11


def _integral(f) -> float:
    return float(sp.Integral(f, (x, -A / 2, A / 2)).evalf(20))


def test_loss_along_bending():
    """A strip as broad as the hole, z(y) high on both sides: the integral of 2 z^3/3."""
    half = T / 2 * sp.sqrt(1 - (2 * x / W) ** 2)
    assert float(loss_along_bending(**LOOM)) == pytest.approx(_integral(2 * half**3 / 3), rel=EXACT, abs=0)


def test_loss_along_neutral_axis():
    """A slot as high as the hole: the integral of z^2 over the breadth."""
    breadth = W * sp.sqrt(1 - (2 * x / T) ** 2)
    assert float(loss_along_neutral_axis(**LOOM)) == pytest.approx(_integral(x**2 * breadth), rel=EXACT, abs=0)


def _loss(along: str) -> float:
    """What the hole takes of the second moment, through the thickness or through the width."""
    if along == "bending direction":
        return _integral(2 * (T / 2 * sp.sqrt(1 - (2 * x / W) ** 2)) ** 3 / 3)
    return _integral(x**2 * W * sp.sqrt(1 - (2 * x / T) ** 2))


@pytest.mark.parametrize(("along", "crossed", "other"), [("bending direction", W, T), ("neutral axis", T, W)])
def test_net_section(along, crossed, other):
    """Whole ellipse less the strip."""
    strip, loss = _integral(other * sp.sqrt(1 - (2 * x / crossed) ** 2)), _loss(along)
    whole = np.pi * 0.041 * 0.046**3 / 64
    net = net_section(**LOOM, along=along)
    assert float(net.area) == pytest.approx(np.pi * 0.041 * 0.046 / 4 - strip, rel=EXACT, abs=0)
    assert float(net.bending) == pytest.approx(whole - loss, rel=EXACT, abs=0)
    assert float(net.section_modulus) == pytest.approx((whole - loss) / 0.023, rel=EXACT, abs=0)
    assert float(net.share_lost) == pytest.approx(loss / whole, rel=EXACT, abs=0)
    for allowance in (1.0, 1.7):
        stress = hole_stress(moment=170.0, **LOOM, along=along, allowance=allowance)
        assert float(stress) == pytest.approx(allowance * 170 * 0.023 / (whole - loss), rel=EXACT, abs=0)
    cautious = hole_stress(moment=170.0, **LOOM, along=along)  # 2 where nothing is said
    assert float(cautious) == pytest.approx(2 * 170 * 0.023 / (whole - loss), rel=EXACT, abs=0)


def test_series_of_a_small_hole():
    """The strip rule is the first term of the exact loss in the size of the hole; the next has the other sign."""
    a, t, w = sp.symbols("a t w", positive=True)
    through = 2 * sp.integrate(sp.series((t / 2) ** 3 * (1 - (2 * x / w) ** 2) ** sp.Rational(3, 2), x, 0, 4).removeO(),
                               (x, -a / 2, a / 2)) / 3  # fmt: skip
    beside = sp.integrate(sp.series(x**2 * w * sp.sqrt(1 - (2 * x / t) ** 2), x, 0, 6).removeO(), (x, -a / 2, a / 2))
    sizes = {t: 0.046, w: 0.041, a: 0.00041}
    first, second = (sp.expand(through).coeff(a, n) * a**n for n in (1, 3))
    assert strip_loss_along_bending(thickness=0.046, hole=0.00041) == pytest.approx(
        float(first.subs(sizes)), rel=1e-12, abs=0
    )
    exact = loss_along_bending(thickness=0.046, width=0.041, hole=0.00041)
    # The term after the next is smaller by its square: (a/w)^4 = 1e-8.
    assert exact == pytest.approx(float((first + second).subs(sizes)), rel=2e-8, abs=0)
    assert second.subs(sizes) < 0
    first, second = (sp.expand(beside).coeff(a, n) * a**n for n in (3, 5))
    assert strip_loss_along_neutral_axis(width=0.041, hole=0.00041) == pytest.approx(
        float(first.subs(sizes)), rel=1e-12, abs=0
    )
    exact = loss_along_neutral_axis(thickness=0.046, width=0.041, hole=0.00041)
    # Likewise (a/t)^4 = 6e-9.
    assert exact == pytest.approx(float((first + second).subs(sizes)), rel=2e-8, abs=0)
    assert second.subs(sizes) < 0


@pytest.mark.parametrize("along", ["bending direction", "neutral axis"])
@pytest.mark.parametrize(("keep", "power"), [("stiffness", 0), ("strength", 1)])
@pytest.mark.parametrize("hole", [0.002, 0.009, 0.040])
def test_diameter_for_hole(along, keep, power, hole):
    """Solved again with quadrature and another root finder, over D for the strength."""
    d = 0.046

    def left(diameter):
        if along == "bending direction":
            loss = quad(lambda v: 2 / 3 * (diameter**2 / 4 - v**2) ** 1.5, -hole / 2, hole / 2)[0]
        else:
            loss = quad(lambda v: 2 * v**2 * np.sqrt(diameter**2 / 4 - v**2), -hole / 2, hole / 2)[0]
        return (np.pi * diameter**4 / 64 - loss) / diameter**power - np.pi * d**4 / 64 / d**power

    wanted = brentq(left, d, 4 * d, xtol=1e-14)
    found = diameter_for_hole(diameter=d, hole=hole, along=along, keep=keep)
    assert float(found) == pytest.approx(wanted, rel=1e-9)  # the root finder's and the quadrature's own slack


def test_arrays_equal_scalars():
    """A sweep of holes gives what each gives alone."""
    holes = np.array([0.004, 0.008, 0.012])
    many = diameter_for_hole(diameter=0.046, hole=holes, along="bending direction", keep="strength")
    alone = [diameter_for_hole(diameter=0.046, hole=h, along="bending direction", keep="strength") for h in holes]
    assert many == pytest.approx(np.array(alone))


@pytest.mark.parametrize(
    ("across", "shear", "poisson"), [(0.078, 0.064, 0.372), (0.043, 0.061, 0.467), (0.5, 0.3, 0.2)]
)
def test_stress_concentration(across, shear, poisson):
    """1 - i (m1 + m2) with the roots of m^4 + (E_L/G - 2 nu) m^2 + E_L/E_T = 0 that lie in the upper half-plane."""
    roots = np.roots([1, 0, 1 / shear - 2 * poisson, 0, 1 / across])
    wanted = 1 + roots[roots.imag > 0].sum().imag
    found = stress_concentration(across_ratio=across, shear_ratio=shear, poisson=poisson)
    assert float(found) == pytest.approx(wanted, rel=1e-9)  # roots of a quartic


def test_stress_concentration_in_metal():
    """Equal moduli give 3, whatever Poisson's ratio."""
    nu = np.array([0.0, 0.25, 0.4])
    found = stress_concentration(across_ratio=1.0, shear_ratio=1 / (2 * (1 + nu)), poisson=nu)
    assert found == pytest.approx(np.full(3, 3.0))
