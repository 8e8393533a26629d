"""The trade's rules of thumb for the length of an oar, side by side, and why they differ for a boat.

Every one of them takes an inboard for granted and a ratio of outboard to inboard: L = L_i (1 + R). They differ in what
they take the inboard to be - half the beam, half the span, with or without two inches - and in the ratio.
"""

from __future__ import annotations

from dataclasses import dataclass

from oarkit.rig import thumb
from oarkit.rig.ranges import TradeRange, placed, stock_length
from oarkit.rig.solve import refuse_unsound
from oarkit.rig.split import Split, handle_overlap, length_from_ratio, split
from oarkit.working import Finding, Number, Quantity

__all__ = [
    "RATIOS_BY_USE", "Causes", "RuleOfThumb", "TradeRange", "causes", "length_rules", "placed",
    "stock_length", "why_rules_differ",
]  # fmt: skip

BY_BOAT = 5  #: rules that go by the boat stand first, those by the oar's own inboard after them [count]
NEGLIGIBLE = 0.001  #: a cause of less is not worth a word, a choice of this project [m]
_PRACTICE = "common practice"
_RANKOV = "Shaw p. 48 and Coates p. 86 in Rankov (ed.) 2012"

#: Ratios of outboard to inboard by use: name, low, high, source, remark.
RATIOS_BY_USE = (
    ("heavy or windy", 2.3, 2.5, _PRACTICE, ""),
    ("general use", 2.5, 2.65, _PRACTICE, ""),
    ("light and easily driven", 2.65, 2.8, _PRACTICE, ""),
    ("cruising", 2.5, 2.7, _PRACTICE, "suggested as best"),
    ("fast rowing on a fixed seat", 2.8, 2.8, _RANKOV, "above it the balance of the oar suffers"),
    ("practical limit of short oars", 3.5, 3.5, _RANKOV, "a limit, not an aim"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleOfThumb:
    """What a rule makes the length of an oar, low and high alike where it states one number. Lengths in m.

    ``span`` and ``inboard`` are what the rule takes for granted in place of the boat's own; ``stock`` is the stock size
    of the length half-way between low and high.
    """

    name: str
    form: str
    low: Number
    high: Number
    stock: Number
    span: Number
    inboard: Number
    source: str
    remark: str

    @property
    def middle(self) -> Number:
        """Half-way between low and high. [m]."""
        return (self.low + self.high) / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Causes:
    """Parts of the oar's length less the rule's, which they add up to: pins, handles and ratio. In m."""

    pins: Number
    handles: Number
    ratio: Number

    @property
    def total(self) -> Number:
        """How much longer the oar is than the rule's. [m]."""
        return self.pins + self.handles + self.ratio


def length_rules(
    *, span: Number, beam: Number, inboard: Number, boat_length: Number | None = None
) -> tuple[RuleOfThumb, ...]:
    """Every rule of thumb for the length of an oar: five that go by the boat, then those by the oar's own inboard.

    Parameters
    ----------
    span : float or array
        Distance between the two pin lines. [m]
    beam : float or array
        Over the rails, abreast of the pins. [m]
    inboard : float or array
        The oar's own, handle end to pin line. [m]
    boat_length : float, array or None, optional
        Length overall, by which stock sizes are rounded up or down. [m]

    Returns
    -------
    tuple of RuleOfThumb
        Each with what it makes of this boat. [records]

    Raises
    ------
    BadDesign
        A length is no length.

    Notes
    -----
    Source: common practice; the two highest ratios Shaw p. 48 and Coates p. 86 in Rankov (ed.) 2012.

    Examples
    --------
    >>> rules = length_rules(span=1.12, beam=1.0, inboard=0.6)
    >>> rules[1].name, round(rules[1].low, 3)
    ('half the span × 25/7', 2.0)
    """
    for name, value in (("span", span), ("beam", beam), ("inboard", inboard)):
        refuse_unsound(name, value)
    by_use = tuple(
        _rule(
            name, f"L = L_i (1 + R), R {low:g}" + (f" to {high:g}" if high > low else ""),
            (length_from_ratio(inboard=inboard, ratio=low), length_from_ratio(inboard=inboard, ratio=high)),
            (span, inboard), boat_length, remark, source,
        )
        for name, low, high, source, remark in RATIOS_BY_USE
    )  # fmt: skip
    return (*_by_boat(span, beam, inboard, boat_length), *by_use)


def _by_boat(span: Number, beam: Number, inboard: Number, boat: Number | None) -> tuple[RuleOfThumb, ...]:
    past, half, twice = span / 2 + thumb.ALLOWANCE, span / 2, thumb.twice_the_beam(beam=beam)
    a, b = thumb.seven_to_eighteen(span=span), thumb.half_span(span=span)
    c, d, f = thumb.two_sevenths(span=span), thumb.three_halves_plus_six(span=span), thumb.own_inboard(inboard=inboard)
    return (
        _rule("the 7 : 18 rule", "L = 25/7 (S/2 + 2 in)", (a, a), (span, past), boat, "handles that overlap by 4 in"),
        _rule(
            "half the span × 25/7", "L = 25/7 · S/2", (b, b), (span, half), boat,
            "add about 10 cm where the handles should overlap; then round to a stock size",
        ),
        _rule("the two-sevenths rule", "L = 7/2 (S/2 + 2 in)", (c, c), (span, past), boat, "the allowance varies; 2 in "
            "inside it is this project's reading"),
        _rule("three halves of the span plus 6 in", "L = 3 · S/2 + 6 in", (d, d), (span, past), boat, "a ratio of 2"),
        _rule(
            "twice the beam", "L = 2 B", (twice, twice), (beam, beam / 2), boat,
            "a little under to a little over; blind to where the pins are",
        ),
        _rule("the oar's own inboard × 25/7", "L = 25/7 L_i", (f, f), (span, inboard), boat, "the split comes first"),
    )  # fmt: skip


def _rule(
    name: str,
    form: str,
    lengths: tuple[Number, Number],
    granted: tuple[Number, Number],
    boat_length: Number | None,
    remark: str,
    source: str = _PRACTICE,
) -> RuleOfThumb:
    low, high = lengths
    return RuleOfThumb(
        name=name, form=form, low=low, high=high, stock=stock_length(length=(low + high) / 2, boat_length=boat_length),
        span=granted[0], inboard=granted[1], source=source, remark=remark,
    )  # fmt: skip


def causes(*, rule: RuleOfThumb, span: Number, inboard: Number, length: Number) -> Causes:
    """Why an oar differs from a rule's: where the pins stand, how the handles pass, what ratio was chosen.

    Parameters
    ----------
    rule : RuleOfThumb
        A rule, with what it makes of this boat. [record]
    span : float or array
        Distance between the two pin lines. [m]
    inboard : float or array
        The oar's own, handle end to pin line. [m]
    length : float or array
        The oar's own, handle end to blade tip. [m]

    Returns
    -------
    Causes
        Parts of the oar's length less the middle of the rule's; positive where the rule is short. [m]

    Notes
    -----
    Source: derived; L - L_r = (L_i - L_ir)(1 + R_r) + L_i (R - R_r), exact, with L_i = S/2 + O/2 and
    L_ir = S_r/2 + O_r/2.

    Examples
    --------
    >>> beam_rule = length_rules(span=1.2, beam=0.9, inboard=0.65)[4]
    >>> round(causes(rule=beam_rule, span=1.2, inboard=0.65, length=2.3).pins, 3)
    0.6
    """
    one_plus_ratio = rule.middle / rule.inboard
    pins = (span - rule.span) / 2 * one_plus_ratio
    handles = (inboard - rule.inboard) * one_plus_ratio - pins
    return Causes(pins=pins, handles=handles, ratio=length - inboard * one_plus_ratio)


def why_rules_differ(*, span: float, beam: float, inboard: float, length: float) -> Finding:
    """Why the rules of thumb differ for one boat and oar, and what the one furthest off does not see.

    Parameters
    ----------
    span : float
        Distance between the two pin lines. [m]
    beam : float
        Over the rails, abreast of the pins. [m]
    inboard : float
        The oar's own, handle end to pin line. [m]
    length : float
        The oar's own, handle end to blade tip. [m]

    Returns
    -------
    Finding
        Two or three sentences with their quantities; the ratios by use are left out. [record]

    Raises
    ------
    BadDesign
        A length is no length, or nothing is left outboard.

    Notes
    -----
    Source: the rules are common practice; the causes are plane geometry and add up exactly, see `causes`.

    Examples
    --------
    >>> why_rules_differ(span=1.1049, beam=0.8636, inboard=0.62865, length=2.286).code
    'rules_differ'
    """
    rules = length_rules(span=span, beam=beam, inboard=inboard)[:BY_BOAT]
    oar = split(span=span, inboard=inboard, length=length)
    shortest, *_, longest = sorted(rules, key=lambda rule: float(rule.middle))
    furthest = max(rules, key=lambda rule: abs(float(rule.middle) - float(length)))
    furthest_text, furthest_sizes = _furthest(furthest, oar, beam)
    end_text, end_sizes = ("", {}) if furthest is rules[1] else _end_to_end(rules[1], oar)
    text = (
        f"For this boat the rules that go by span or beam lie {{apart}} apart: {shortest.name} makes an oar of "
        f"{{shortest}}, {longest.name} one of {{longest}}. {furthest_text}{end_text}"
    )
    sizes = {
        "apart": _size(longest.middle - shortest.middle),
        "shortest": _size(shortest.middle),
        "longest": _size(longest.middle),
        **furthest_sizes,
        **end_sizes,
    }
    named = {name: size for name, size in sizes.items() if f"{{{name}}}" in text}
    return Finding(level="note", code="rules_differ", text=text, quantities=named, source=_PRACTICE)


def _size(value: Number) -> Quantity:
    """A length without its sign, which the words around it tell."""
    return Quantity(value=abs(float(value)), unit="m")


def _furthest(rule: RuleOfThumb, oar: Split, beam: float) -> tuple[str, dict[str, Quantity]]:
    """The rule furthest from this oar, its chief cause first, then what adds to it, then what goes against it."""
    parts = causes(rule=rule, span=oar.span, inboard=oar.inboard, length=oar.length)
    total = float(parts.total)
    sizes = {"pins": float(parts.pins), "handles": float(parts.handles), "ratio": float(parts.ratio)}
    said = {
        "pins": (
            "it is blind to the brackets: the span exceeds the beam by {beyond_beam} and the rule falls short by "
            "twice that, {pins}"
            if oar.span > beam
            else "it goes by the rails where the pins stand inside them: the span is {beyond_beam} less than the beam "
            "and the rule is long by twice that, {pins}"
        ),
        "handles": f"it takes {_passing(handle_overlap(span=rule.span, inboard=rule.inboard), 'rule_handles')} in "
        f"place of {_passing(oar.overlap, 'own_handles')}, which makes it {_errs(sizes['handles'])} by {{handles}}",
        "ratio": "it takes a leverage ratio of {rule_ratio} where this oar has {own_ratio}, which makes it "
        f"{_errs(sizes['ratio'])} by {{ratio}}",
    }
    order = [name for name in sorted(sizes, key=lambda name: -sizes[name] * total) if abs(sizes[name]) >= NEGLIGIBLE]
    chief, *more = order
    adds = [said[name] for name in more if sizes[name] * total > 0]
    takes = [said[name] for name in more if sizes[name] * total < 0]
    because = "; ".join(
        [
            said[chief],
            *(f"{word}, {', and '.join(what)}" for word, what in (("besides", adds), ("against that", takes)) if what),
        ]
    )
    text = (
        f"Furthest of them from this oar of {{length}} is {rule.name}, {_errs(total)} by {{total}}, chiefly because "
        f"{because}."
    )
    return text, {
        "length": _size(oar.length),
        "total": _size(total),
        "beyond_beam": _size(oar.span - beam),
        "rule_handles": _size(handle_overlap(span=rule.span, inboard=rule.inboard)),
        "own_handles": _size(oar.overlap),
        "rule_ratio": Quantity(value=float(rule.middle / rule.inboard) - 1, unit="1"),
        "own_ratio": Quantity(value=float(oar.leverage_ratio), unit="1"),
        **{name: _size(size) for name, size in sizes.items()},
    }


def _end_to_end(rule: RuleOfThumb, oar: Split) -> tuple[str, dict[str, Quantity]]:
    """What overlap or gap does to the rule that takes handles end to end."""
    short = float(causes(rule=rule, span=oar.span, inboard=oar.inboard, length=oar.length).handles)
    if abs(short) < NEGLIGIBLE:
        return "", {}
    passing = "overlap" if short > 0 else "gap"
    text = f" The {passing} of {{own_handles}} makes {rule.name} {_errs(short)} by {{end_to_end}}."
    return text, {"own_handles": _size(oar.overlap), "end_to_end": _size(short)}


def _errs(oar_less_rule: float) -> str:
    return "short" if oar_less_rule > 0 else "long"


def _passing(overlap: Number, name: str) -> str:
    """How the handles pass, with a named gap for the size."""
    if abs(float(overlap)) < NEGLIGIBLE:
        return "handles end to end"
    return f"{'an overlap' if float(overlap) > 0 else 'a gap'} of {{{name}}}"
