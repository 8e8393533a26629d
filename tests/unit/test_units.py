"""Lengths, masses, forces and the rest as builders write them, and numbers as builders read them.

Inch and pound are exact by definition (1 in = 25.4 mm, 1 lb = 0.45359237 kg; international yard and pound, 1959); the
other factors are printed in NIST Special Publication 811 (2008), Appendix B, here from memory.
"""

import math

import pytest

from oarkit import design, example_project
from oarkit.units import (
    ANGLE,
    DENSITY,
    FORCE,
    LENGTH,
    MASS,
    MODULUS,
    SHARE,
    SPEED,
    both,
    feet_inches,
    filled,
    millimetres,
    read_quantity,
    read_slope,
)
from oarkit.working import Quantity

INCH = 0.0254
ROUNDING = 1e-12  # rounding of doubles only: a factor is either right or wrong by far more
NOT_IN_WORDS = (
    "pydantic", "Traceback", "None", "ValidationError", "value_error", "extra_forbidden", "<class", "{", "}",
    "sys.", "int too large", "integer string conversion", "convert",
)  # fmt: skip


def refusal(read, *given):
    """The sentence with which something is refused; it must be a plain ValueError, in words."""
    with pytest.raises(ValueError, match=r"\w+ \w+ \w+") as caught:
        read(*given)
    assert type(caught.value) is ValueError, f"{given[0]!r} ends in a {type(caught.value).__name__}"
    message = str(caught.value)
    assert not [word for word in NOT_IN_WORDS if word in message], message
    return message


@pytest.mark.parametrize(
    ("written", "inches"),
    [
        ("34 in", 34), ("34in", 34), ("34 in.", 34), ("34 inches", 34), ('34"', 34), ('34 "', 34), ("34''", 34),
        ("2 ft 10 in", 34), ("2ft10in", 34), ("2 ft. 10 in.", 34), ("2 feet 10 inches", 34), ("2'-10\"", 34),
        ("2' 10\"", 34), ("2′-10″", 34), ("2’ 10”", 34), ("2 FT 10 IN", 34), ("  2'-10\"  ", 34), ("+2'-10\"", 34),
        ('34 1/2"', 34.5), ("34-1/2 in", 34.5), ("34½ in", 34.5), ("34 ½ in", 34.5), ("34.5 in", 34.5),
        ("1'-7 3/16\"", 19.1875), ("1'-7.1875\"", 19.1875), ("1′-7 3/16″", 19.1875), ("1'-7-3/16\"", 19.1875),
        ("7'6 3/4\"", 90.75), ("7'-6¾\"", 90.75), ("90 3/4in", 90.75), ("7 ft-6 3/4 in", 90.75), ("90¾”", 90.75),
        ("3 ft", 36), ("3'", 36), ("2.5 ft", 30), ("1 foot", 12), ("1/2 in", 0.5), ('1/2"', 0.5), ("½ in", 0.5),
        ("¼ in", 0.25), ("⅛ in", 0.125), ("⅜ in", 0.375), ("⅝ in", 0.625), ("⅞ in", 0.875), ("1 ⅓ in", 4 / 3),
        ("⅔ in", 2 / 3), (".5 in", 0.5), ("0 in", 0), ("1'-0\"", 12), ("1 / 2 in", 0.5), ("7 ft\u00a06 in", 90),
    ],
)  # fmt: skip
def test_feet_and_inches_are_read_in_every_way_people_write_them(written, inches):
    """Marks, words, hyphens, curly primes and vulgar fractions all mean the same length."""
    assert read_quantity(written, LENGTH) == pytest.approx(inches * INCH, abs=ROUNDING)


@pytest.mark.parametrize(
    ("written", "inches"), [("7'-6.75", 90.75), ("7'-6 3/4", 90.75), ("7'6", 90), ("2 ft 10", 34), ("7′-6¾", 90.75)]
)
def test_the_inch_mark_may_be_left_out_after_feet(written, inches):
    """Inside the double quotes of a project file the inch mark is in the way, and after feet only inches can follow."""
    assert read_quantity(written, LENGTH) == pytest.approx(inches * INCH, abs=ROUNDING)


@pytest.mark.parametrize(
    ("written", "inches"),
    [('-1"', -1), ("−1″", -1), ("- 1/2 in", -0.5), ("-7'-6\"", -90), ("–½ in", -0.5), ("-1'-7 3/16\"", -19.1875)],
)
def test_a_minus_sign_takes_the_whole_of_feet_and_inches(written, inches):
    """A pin inside the rail is a negative overhang, and the sign counts for the inches too."""
    assert read_quantity(written, LENGTH) == pytest.approx(inches * INCH, abs=ROUNDING)


@pytest.mark.parametrize(
    ("written", "metres"),
    [
        ("863.6 mm", 0.8636), ("863.6mm", 0.8636), ("0.8636 m", 0.8636), ("86.36 cm", 0.8636), ("86.36 CM", 0.8636),
        ("-25.4 mm", -0.0254), ("−25.4 mm", -0.0254), ("- 25.4 mm", -0.0254), ("+5 mm", 0.005), (".5 m", 0.5),
        ("1e3 mm", 1.0), ("1.2E-2 m", 0.012), ("863.6\u202fmm", 0.8636), ("0 mm", 0.0), ("863.6 mm.", 0.8636),
    ],
)  # fmt: skip
def test_metric_lengths_are_read(written, metres):
    """Millimetres, centimetres and metres, with signs, points and narrow spaces."""
    assert read_quantity(written, LENGTH) == pytest.approx(metres, abs=ROUNDING)


@pytest.mark.parametrize(
    ("written", "kind", "value"),
    [
        ("45 kg", MASS, 45.0), ("60 g", MASS, 0.060), ("99 lb", MASS, 99 * 0.45359237),
        ("165lbs", MASS, 165 * 0.45359237), ("2 oz", MASS, 2 * 0.028349523125), ("400 N", FORCE, 400.0),
        ("0.4 kN", FORCE, 400.0), ("90 lbf", FORCE, 90 * 4.4482216152605), ("41 kgf", FORCE, 41 * 9.80665),
        ("10.8 GPa", MODULUS, 10.8e9), ("10800 MPa", MODULUS, 10.8e9), ("10800 N/mm²", MODULUS, 10.8e9),
        ("1570000 psi", MODULUS, 1570000 * 6894.757293168), ("1.57e6 psi", MODULUS, 1.57e6 * 6894.757293168),
        ("430 kg/m3", DENSITY, 430.0), ("430 kg/m³", DENSITY, 430.0), ("430 kg / m3", DENSITY, 430.0),
        ("0.43 g/cm3", DENSITY, 430.0), ("27 lb/ft3", DENSITY, 27 * 16.01846337396014), ("12 %", SHARE, 0.12),
        ("12%", SHARE, 0.12), ("30 deg", ANGLE, math.pi / 6), ("-15°", ANGLE, -math.pi / 12), ("0.5 rad", ANGLE, 0.5),
        ("2.5 m/s", SPEED, 2.5), ("9 km/h", SPEED, 2.5), ("5 kn", SPEED, 5 * 1852 / 3600),
        ("6 mph", SPEED, 6 * 0.44704),
    ],
)  # fmt: skip
def test_every_other_kind_is_read_in_its_units(written, kind, value):
    """Masses, forces, moduli, densities, shares, angles and speeds come out in SI."""
    # NIST SP 811 prints the factors to seven figures or more: 1e-12 allows for rounding of doubles only
    assert read_quantity(written, kind) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize("written", ["863,6 mm", "2,286 mm", "2,286.0 mm", "1.234,5 mm", "7'-6,75\"", "1 000,5 mm"])
def test_a_comma_is_refused_because_it_may_mean_two_things(written):
    """A decimal comma and a thousands separator look alike, so the sentence asks for a point."""
    message = refusal(read_quantity, written, LENGTH)
    assert "comma" in message
    assert "decimal point" in message


@pytest.mark.parametrize("written", ["1 000 mm", "1_000 mm", "1'000 mm", "1’000 mm", "1,000,000 mm"])
def test_thousands_separators_are_refused(written):
    """No separator of thousands is guessed at."""
    refusal(read_quantity, written, LENGTH)


@pytest.mark.parametrize("written", ["863.6", "34", "-25.4", "1e3"])
def test_a_bare_number_is_refused_with_an_example(written):
    """A length without a unit could be millimetres or inches."""
    message = refusal(read_quantity, written, LENGTH)
    assert "no unit" in message
    assert "863.6 mm" in message


@pytest.mark.parametrize("written", ["½", "34 1/2", "3/16"])
def test_a_bare_fraction_lacks_its_unit_like_any_bare_number(written):
    """What is wrong with 34 1/2 is that it has no unit, and that is what the sentence says."""
    assert "no unit" in refusal(read_quantity, written, LENGTH)


@pytest.mark.parametrize(
    ("written", "kind", "hint"),
    [
        ("90 lb", FORCE, "lbf"), ("90 lbs", FORCE, "lbf"), ("41 kg", FORCE, "kgf"), ("41 kg", FORCE, "N"),
        ("400 g", FORCE, "N"), ("45 kgf", MASS, "write kg"), ("99 lbf", MASS, "write lb"), ("735 N", MASS, "write kg"),
    ],
)  # fmt: skip
def test_a_mass_for_a_force_is_refused_with_the_unit_that_is_meant(written, kind, hint):
    """Pounds and kilograms are masses; the sentence says so and names the force that belongs there."""
    message = refusal(read_quantity, written, kind)
    assert "mass" in message
    assert "force" in message
    assert hint in message


@pytest.mark.parametrize(
    ("written", "kind"),
    [
        ("2286 kg", LENGTH), ("3 fathoms", LENGTH), ("12 mm", SHARE), ("10.8", MODULUS), ("430 kg", DENSITY),
        ("30 mm", ANGLE), ("5 knoten", SPEED), ("34 to 37 in", LENGTH), ("about 34 in", LENGTH),
        ("34 ± 1 in", LENGTH), ("5 in 3 ft", LENGTH), ("34.5.5 in", LENGTH), ("--5 mm", LENGTH), ("in", LENGTH),
        ("'", LENGTH), ('"', LENGTH), ("mm", LENGTH), ("1/2/3 in", LENGTH), ("0x10 mm", LENGTH), ("inf mm", LENGTH),
        ("nan mm", LENGTH), ("inf N", FORCE), ("nan kg", MASS), ("infinity GPa", MODULUS), ("-inf mm", LENGTH),
        ("", LENGTH), ("   ", LENGTH), ("", MASS),
    ],
)  # fmt: skip
def test_what_is_no_quantity_is_refused_with_an_example(written, kind):
    """Wrong units, words, ranges, infinities and nothing at all are refused, each with an example of the kind."""
    assert kind.example in refusal(read_quantity, written, kind)


@pytest.mark.parametrize("written", ["1/0 in", '3 1/0"', "1'-3/0\"", "34-1/0 in"])
def test_a_zero_denominator_is_refused_in_words(written):
    """A fraction over nought is no length."""
    assert "3/16" in refusal(read_quantity, written, LENGTH)


@pytest.mark.parametrize(
    ("written", "kind"),
    [
        ("9" * 400 + " mm", LENGTH), ("9" * 400 + " in", LENGTH), ("9" * 400 + "'", LENGTH),
        ("9" * 400 + "/1 in", LENGTH), ("9" * 400 + " 1/2 in", LENGTH), ("1/" + "9" * 400 + " in", LENGTH),
        ("9" * 5000 + " mm", LENGTH), ("9" * 5000 + " 1/2 in", LENGTH), ("1/" + "9" * 5000 + " in", LENGTH),
        ("1e400 mm", LENGTH), ("1e400 N", FORCE), ("-1e999 kg", MASS),
    ],
    ids=lambda value: f"{value[:8]}…{value[-5:]}" if isinstance(value, str) else value.name,
)  # fmt: skip
def test_hugely_many_digits_are_refused_in_words_or_read_as_finite(written, kind):
    """No length is infinite, and no refusal speaks of integers and conversions or fills the screen with digits."""
    try:
        value = read_quantity(written, kind)
    except Exception:
        assert len(refusal(read_quantity, written, kind)) < 300  # about four lines of a terminal
    else:
        assert math.isfinite(value)


def test_a_refusal_does_not_echo_a_whole_page():
    """A text pasted in the wrong place is named by its beginning."""
    assert len(refusal(read_quantity, "lorem ipsum " * 500, LENGTH)) < 300  # about four lines of a terminal


@pytest.mark.parametrize(
    ("written", "slope"),
    [
        ("1:15", 1 / 15), ("1 : 20", 1 / 20), ("2:30", 1 / 15), ("1:12.5", 0.08), ("1 in 16", 0.0625),
        (" 1:15 ", 1 / 15), ("6.25 %", 0.0625), ("0:15", 0.0), ("0 %", 0.0),
    ],
)  # fmt: skip
def test_a_slope_of_grain_is_rise_over_run(written, slope):
    """1:15 rises one in fifteen."""
    assert read_slope(written) == pytest.approx(slope, abs=ROUNDING)


@pytest.mark.parametrize(
    "written",
    [
        "1:0",
        "1:0.0",
        "1 in 0",
        "15",
        "",
        "1:",
        ":15",
        "1:15:2",
        "-1:15",
        "1:-15",
        "one in ten",
        "nan:1",
        "1:inf",
        "1,5:15",
    ],
)
def test_what_is_no_slope_is_refused_with_an_example(written):
    """Half a slope, a slope over nought and a negative slope are refused."""
    assert "1:15" in refusal(read_slope, written)


@pytest.mark.parametrize(
    "written",
    ["-5 %", "-0.1%", "9" * 400 + ":" + "9" * 400, "9" * 400 + ":1", "9" * 400 + " %"],
    ids=lambda value: value[:6],
)
def test_a_slope_is_finite_and_never_negative(written):
    """A share below nought and a number beyond all measure are no slopes of grain."""
    refusal(read_slope, written)


def test_a_slope_shown_as_a_share_is_refused_as_a_slope():
    """Somebody who wrote a slope reads about slopes, not about shares."""
    assert "slope" in refusal(read_slope, "nan %")


@pytest.mark.parametrize(
    ("inches", "shown"),
    [
        (0, '0"'), (34, "2'-10\""), (90.75, "7'-6 3/4\""), (12, "1'-0\""), (12.5, "1'-0 1/2\""), (0.5, '1/2"'),
        (11.5, '11 1/2"'), (1200, "100'-0\""), (11 + 31 / 32, "1'-0\""), (11.96, '11 15/16"'), (11.97, "1'-0\""),
        (23 + 63 / 64, "2'-0\""), (1 / 33, '0"'), (1 / 31, '1/16"'), (3 / 64, '1/16"'), (0.999, '1"'),
        (24.25, "2'-0 1/4\""), (-0.5, '−1/2"'), (-34, "−2'-10\""), (-12.5, "−1'-0 1/2\""), (-11.97, "−1'-0\""),
        (-1 / 33, '0"'), (-0.0, '0"'),
    ],
)  # fmt: skip
def test_feet_and_inches_round_to_the_nearest_sixteenth(inches, shown):
    """Sixteenths are reduced, twelve inches roll over into a foot, and nought has no sign."""
    assert feet_inches(inches * INCH) == shown


@pytest.mark.parametrize(("parts", "shown"), [(8, '11 7/8"'), (32, '11 29/32"'), (2, "1'-0\""), (1, "1'-0\"")])
def test_the_inch_may_be_divided_more_or_less_finely(parts, shown):
    """11.9 in is 11 7/8 in eighths, 11 29/32 in thirty-seconds and a foot in halves."""
    assert feet_inches(11.9 * INCH, parts=parts) == shown


@pytest.mark.parametrize(
    ("length", "shown"),
    [(0.62865, "628.7 mm"), (2.286, "2286.0 mm"), (0.0, "0.0 mm"), (-0.0254, "−25.4 mm"), (0.00004, "0.0 mm")],
)
def test_millimetres_are_shown_to_a_tenth(length, shown):
    """A tenth of a millimetre is finer than any rule in the shop."""
    assert millimetres(length) == shown


@pytest.mark.parametrize(
    ("value", "unit", "metric", "other"),
    [
        (0.1524, "m", "152.4 mm", '6"'), (-0.0381, "m", "−38.1 mm", '−1 1/2"'), (0.0, "m", "0.0 mm", '0"'),
        (2.286, "m", "2286.0 mm", "7'-6\""), (math.pi / 6, "rad", "30.0°", ""), (-math.pi / 12, "rad", "−15.0°", ""),
        (0.12, "%", "12.0 %", ""), (40.8e6, "Pa", "40.8 MPa", ""), (10.8e9, "Pa", "10.80 GPa", ""),
        (0.0, "Pa", "0.0 MPa", ""), (0.0645, "m2", "645 cm²", "100 in²"), (0.06, "kg", "60 g", "0.13 lb"),
        (1.25, "kg", "1.25 kg", "2.76 lb"),
        (0.95, "kg", "950 g", "2.09 lb"), (0.9997, "kg", "1.00 kg", "2.20 lb"),
        (400.0, "N", "400.0 N", "89.9 lbf"), (-9.81, "N", "−9.8 N", "−2.2 lbf"),
        (227.5, "N m", "227.5 N·m", ""), (2500.0, "N m2", "2500 N·m²", ""), (0.789, "kg m2", "0.789 kg·m²", ""),
        (430.0, "kg/m3", "430 kg/m³", ""), (6.25, "Hz", "6.25 Hz", ""), (1 / 15, "slope", "1:15", ""),
        (0.0, "slope", "straight", ""), (2.6, "1", "2.600", ""), (-0.05, "1", "−0.050", ""), (12.34, "1", "12.3", ""),
    ],
)  # fmt: skip
def test_a_quantity_is_shown_in_both_systems_and_the_readers_comes_first(value, unit, metric, other):
    """Where there is no inch-pound form the second is empty and the first is metric whichever is asked for."""
    quantity = Quantity(value=value, unit=unit)
    assert both(quantity) == (metric, other)
    assert both(quantity, "ft-in") == ((other, metric) if other else (metric, ""))


@pytest.mark.parametrize(
    ("value", "unit", "display"),
    [(-0.00004, "m", "mm"), (-1e-4, "rad", "mm"), (-1e-3, "kg", "ft-in"), (-1e-3, "N", "mm"), (-1e-5, "%", "mm")],
)
def test_nought_has_no_sign(value, unit, display):
    """A value that rounds to nought is shown without a minus."""
    assert "−" not in both(Quantity(value=value, unit=unit), display)[0]


@pytest.mark.parametrize(("value", "unit"), [(-2e9, "Pa"), (-0.0645, "m2"), (-0.5, "kg"), (-3.0, "1"), (-0.2, "m")])
def test_every_minus_is_the_same_sign(value, unit):
    """A minus is a minus and not a hyphen, in both systems."""
    for shown in both(Quantity(value=value, unit=unit)):
        assert shown == "" or (shown.startswith("−") and shown.count("−") == 1)


@pytest.mark.parametrize("unit", ["m", "kg", "N", "m2", "Pa", "1", "rad"])
def test_what_has_no_limit_is_said_to_have_none(unit):
    """An infinite safety ratio, length or mass has no limit in either system."""
    assert both(Quantity(value=math.inf, unit=unit))[0] == "no limit"


def test_what_is_not_a_number_is_not_shown_as_a_limit():
    """A lost number must not pass for an infinite one."""
    assert "∞" not in both(Quantity(value=math.nan, unit="1"))[0]
    assert "no limit" not in both(Quantity(value=math.nan, unit="1"))[0]


@pytest.mark.parametrize("name", ["quillet", "tumblehod"])
@pytest.mark.parametrize("display", ["mm", "ft-in"])
def test_every_number_of_a_design_can_be_shown(name, display):
    """Each input and result of the working, and each quantity of a finding, has a form for the sheet."""
    made = design(example_project(name).inputs)
    for line in made.working:
        for quantity in (line.result, *line.numbers.values()):
            assert both(quantity, display)[0]
    for finding in made.findings:
        assert "{" not in filled(finding.text, finding.quantities, display)


def test_a_sentence_is_filled_in_the_readers_units():
    """The gaps of a finding take millimetres or feet and inches; other signs in it stay."""
    gap = {"gap": Quantity(value=0.0127, unit="m")}
    assert filled("within 2 %, short by {gap}", gap) == "within 2 %, short by 12.7 mm"
    assert filled("within 2 %, short by {gap}", gap, "ft-in") == 'within 2 %, short by 1/2"'
    assert filled("nothing to fill", {}) == "nothing to fill"
