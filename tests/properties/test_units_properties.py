"""What must hold for every length that can be shown and every text that can be typed."""

import math
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oarkit import units
from oarkit.units import LENGTH, feet_inches, millimetres, read_quantity, read_slope

INCH = 0.0254
KINDS = (
    units.LENGTH, units.MASS, units.FORCE, units.MODULUS, units.DENSITY, units.SHARE, units.ANGLE, units.SPEED,
)  # fmt: skip
PIECES = st.sampled_from(
    [*"0123456789", *"0123456789", " ", ".", ",", "/", "-", "−", "+", "'", '"', "′", "″", "’", "”", "½", "¾", "ft",
     "in", "in.", "mm", "cm", "m", "kg", "lb", "lbf", "N", "GPa", "psi", "%", "deg", "°", ":", "e", "E", "inf", "nan",
     "{", "}", "{0}", "\n", "\t", "\u00a0", "³", "²", "٣", "²½", "_"]
)  # fmt: skip
NEARLY_A_QUANTITY = st.lists(PIECES, max_size=12).map("".join)
LENGTHS = st.floats(min_value=-60.0, max_value=60.0)  # longer than any boat this is for, either way
calm = settings(deadline=None, database=None, derandomize=True)


def read_or_refused(read, *given):
    """The value; None where it is refused by a plain ValueError in a sentence that says what to write."""
    try:
        return read(*given)
    except ValueError as error:
        check_refusal(error)
        return None


def check_refusal(error):
    """A refusal is a plain ValueError that says what to write."""
    assert type(error) is ValueError
    assert "write" in str(error)


@calm
@given(length=LENGTHS, parts=st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_feet_and_inches_read_back_within_half_a_part(length, parts):
    """What is shown and read again differs by half the finest mark at most."""
    back = read_quantity(feet_inches(length, parts=parts), LENGTH)
    # half a part is the law; 1e-12 m allows for rounding of doubles at 60 m
    assert abs(back - length) <= INCH / parts / 2 + 1e-12


@calm
@given(length=LENGTHS)
def test_millimetres_read_back_within_half_a_tenth(length):
    """A length shown to a tenth of a millimetre reads back within half of it."""
    # half of 0.1 mm is the law; 1e-12 m allows for rounding of doubles at 60 m
    assert abs(read_quantity(millimetres(length), LENGTH) - length) <= 0.05e-3 + 1e-12


@calm
@given(length=LENGTHS)
def test_a_length_and_its_negative_look_alike_but_for_the_sign(length):
    """Showing knows no direction: the negative is the same with a minus before it."""
    assert feet_inches(-abs(length)).lstrip("−") == feet_inches(abs(length))


@calm
@given(
    feet=st.integers(0, 99), inches=st.integers(0, 11), part=st.sampled_from([2, 4, 8, 16, 32]), data=st.data(),
    negative=st.booleans(),
)  # fmt: skip
def test_all_spellings_of_one_length_agree(feet, inches, part, data, negative):
    """Marks, words, hyphens and spaces do not change a length, whose value is a sum of fractions."""
    count = data.draw(st.integers(1, part - 1))
    wanted = (12 * feet + inches + Fraction(count, part)) * Fraction(254, 10_000) * (-1 if negative else 1)
    sign = "-" if negative else ""
    for written in (
        f"{feet}'-{inches} {count}/{part}\"", f"{feet}' {inches} {count}/{part}\"",
        f"{feet} ft {inches} {count}/{part} in", f"{feet}′-{inches}-{count}/{part}″",
        f"{feet}ft{inches} {count}/{part}in.", f"{12 * feet + inches} {count}/{part} in",
        f"{12 * feet + inches}-{count}/{part}\"", f"{feet}’{inches} {count}/{part}”",
    ):  # fmt: skip
        # 1e-12 m allows for rounding of doubles at 30 m
        assert abs(read_quantity(sign + written, LENGTH) - float(wanted)) < 1e-12, written


@calm
@given(value=st.floats(min_value=-1e6, max_value=1e6), kind=st.sampled_from(KINDS), data=st.data())
def test_a_plain_number_with_a_unit_is_that_number_of_units(value, kind, data):
    """Ten of a unit are ten times one, whatever the unit."""
    unit = data.draw(st.sampled_from(sorted(kind.units)))
    # feet and inches are summed in inches first: 1e-12 allows for that rounding
    assert read_quantity(f"{value!r} {unit}", kind) == pytest.approx(
        value * read_quantity(f"1 {unit}", kind), rel=1e-12
    )


@settings(calm, max_examples=500)
@given(text=st.one_of(st.text(max_size=40), NEARLY_A_QUANTITY), kind=st.sampled_from(KINDS))
def test_any_text_is_a_finite_number_or_refused_in_a_sentence(text, kind):
    """Reading raises nothing but ValueError, and what it says holds an example or a reason."""
    value = read_or_refused(read_quantity, text, kind)
    assert value is None or math.isfinite(value)


@settings(calm, max_examples=500)
@given(text=st.one_of(st.text(max_size=40), NEARLY_A_QUANTITY))
def test_any_text_is_a_slope_or_refused_in_a_sentence(text):
    """A slope is nought or more, or the sentence says how to write one."""
    value = read_or_refused(read_slope, text)
    assert value is None or 0 <= value < math.inf


@calm
@given(
    digits=st.integers(1, 6000),
    form=st.sampled_from(["{} mm", "{} in", "{}'", "{}/1 in", "{} 1/2 in", "1/{} in", "0.{} m", "1'-{}\""]),
)
def test_a_number_of_any_length_is_finite_or_refused_in_a_sentence(digits, form):
    """However long the number, reading ends in a finite length or a sentence."""
    value = read_or_refused(read_quantity, form.format("7" * digits), LENGTH)
    assert value is None or math.isfinite(value)
