"""Any sufficient set of a true rig gives the rest; any set of it agrees; any one number changed is seen and named."""

import re
from itertools import chain, combinations, permutations

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from oarkit.rig.split import split
from oarkit.working import BadDesign

often = settings(max_examples=100, deadline=None, derandomize=True, database=None)
few = settings(max_examples=3, deadline=None, derandomize=True, database=None)  # each goes through every set

HOW = ("blade_length", "grip_centre", "lock_half_width")
LENGTHS = ("inboard", "button_mark", "length", "outboard", "leverage_ratio", "working_ratio")  # two of them tell all
HANDLES = ("overlap", "gap")
NAMES = ("span", *HANDLES, *LENGTHS)
#: Sets of which each number follows from the others, and from no fewer of them.
RINGS = [
    {"inboard", "button_mark"}, {"overlap", "gap"},
    *({"span", where, how} for where in ("inboard", "button_mark") for how in HANDLES),
    *({"span", how, *two} for how in HANDLES for two in combinations(LENGTHS[2:], 2)),
    *({where, *two} for where in ("inboard", "button_mark") for two in combinations(LENGTHS[2:], 2)),
    *map(set, combinations(LENGTHS[2:], 3)),
]  # fmt: skip
SUBSETS = list(chain.from_iterable(combinations(NAMES, size) for size in range(len(NAMES) + 1)))


@st.composite
def rigs(draw):
    """A rig made from its pins, its inboard and its outboard alone."""
    span, inboard, outboard = draw(st.floats(0.7, 2.0)), draw(st.floats(0.3, 1.3)), draw(st.floats(0.9, 3.5))
    blade, grip, half = draw(st.floats(0.2, 0.8)), draw(st.floats(0.02, 0.15)), draw(st.floats(0.0, 0.03))
    rig = {
        "span": span, "inboard": inboard, "outboard": outboard, "length": inboard + outboard,
        "overlap": 2 * inboard - span, "gap": span - 2 * inboard, "leverage_ratio": outboard / inboard,
        "working_ratio": (outboard - blade / 2) / (inboard - grip), "button_mark": inboard - half,
        "blade_length": blade, "grip_centre": grip, "lock_half_width": half,
    }  # fmt: skip
    # Two ratios alike tell no inboard; how near they may come is tested by itself.
    assume(abs(rig["leverage_ratio"] - rig["working_ratio"]) > 0.02)
    return rig


def _of(rig, names):
    return {name: rig[name] for name in (*names, *HOW)}


def _sufficient(names) -> bool:
    """Whether they tell where the pins are, where the oar lies on them and how long it is."""
    names = set(names)
    on_pins, handles = bool(names & {"inboard", "button_mark"}), bool(names & set(HANDLES))
    ratios = len(names & set(LENGTHS[2:]))
    across = ("span" in names) + handles
    if across == 2:
        return ratios >= 1
    return across == 1 and ((on_pins and ratios >= 1) or ratios >= 2)


@few
@given(rig=rigs())
def test_every_sufficient_set_gives_the_rest(rig):
    """Each set that suffices gives the whole rig, however much more of it is told; each that does not is refused."""
    for names in SUBSETS:
        if not _sufficient(names):
            with pytest.raises(BadDesign, match="cannot be worked out"):
                split(**_of(rig, names))
            continue
        found = split(**_of(rig, names))
        for name in NAMES:
            # Two ratios 0.02 apart lose under three digits of sixteen.
            assert getattr(found, name) == pytest.approx(rig[name], rel=1e-9, abs=1e-9), (names, name)


@few
@given(rig=rigs(), share=st.sampled_from([-0.02, 0.03]))
def test_one_number_changed_is_seen(rig, share):
    """In every set that holds more than enough, any of those tied together, changed by some hundredths, is refused."""
    for names in SUBSETS:
        for wrong in {name for ring in RINGS if ring <= set(names) for name in ring}:
            told = _of(rig, names)
            told[wrong] += share * max(abs(told[wrong]), 0.1)
            with pytest.raises(BadDesign) as refused:
                split(**told)
            if "would make the" not in refused.value.text:  # nothing left of a part: refused in its own words
                _two_given_are_named(refused.value, told)


def _two_given_are_named(refused, told):
    """The sentence names two of the numbers told, no other number, and the difference between told and worked."""
    first, second = re.match(r"(.+?) and (.+?) disagree by ", refused.text).groups()
    assert {first.replace(" ", "_"), second.replace(" ", "_")} <= told.keys() - set(HOW)
    assert refused.quantities.keys() - {"difference", "worked"} <= told.keys()
    difference = refused.quantities["worked"].value - told[second.replace(" ", "_")]
    assert abs(difference) == pytest.approx(refused.quantities["difference"].value)


@often
@given(rig=rigs(), names=st.sampled_from([s for s in SUBSETS if len(s) == 4]), data=st.data())
def test_order_does_not_matter(rig, names, data):
    """The same numbers in another order give the same rig, or the same refusal."""
    told = _of(rig, names)
    told[names[0]] *= data.draw(st.sampled_from([1.0, 1.05]))
    outcomes = set()
    for order in data.draw(st.sampled_from([list(permutations(told))[k::719] for k in range(5)])):
        try:
            outcomes.add(repr(split(**{name: told[name] for name in order})))
        except BadDesign as refused:
            outcomes.add(str(refused))
    assert len(outcomes) == 1


@often
@given(first=rigs(), second=rigs(), names=st.sampled_from([s for s in SUBSETS if _sufficient(s)]))
def test_arrays_like_scalars(first, second, names):
    """Two rigs in one array come out as they do one by one, and one that disagrees is found among them."""
    both = {name: np.array([first[name], second[name]]) for name in (*names, *HOW)}
    found = split(**both)
    for name in NAMES:
        one_by_one = [getattr(split(**_of(rig, names)), name) for rig in (first, second)]
        assert getattr(found, name) == pytest.approx(one_by_one, rel=1e-12, abs=1e-12)
