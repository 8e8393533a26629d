"""Whatever stands in a project, it is read or refused in words; whatever is read is designed or refused in words."""

import datetime as dt
import math
import re
import tomllib
from copy import deepcopy

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from oarkit import BadDesign, design
from oarkit.design import oar_design
from oarkit.project import (
    OarProject,
    Project,
    ProjectError,
    oar_from_mapping,
    oar_from_text,
    project_from_mapping,
    project_from_text,
)
from oarkit.sheet.rowing import blocks
from oarkit.tables import data_folder
from oarkit.units import both, filled

TEXTS = {name: (data_folder() / f"{name}.toml").read_text(encoding="utf-8") for name in ("quillet", "tumblehod")}
GIVEN = {name: tomllib.loads(text) for name, text in TEXTS.items()}
MEASURED_TEXT = (data_folder() / "measured.toml").read_text(encoding="utf-8")
MEASURED = tomllib.loads(MEASURED_TEXT)
NOT_IN_WORDS = (
    "pydantic", "Traceback", "None", "ValidationError", "value_error", "extra_forbidden", "<class", "{", "}",
    "datetime.", "True", "False",
)  # fmt: skip
calm = settings(
    deadline=None,
    database=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)

WRITTEN = st.sampled_from(
    ["863.6 mm", "34 in", "2'-10\"", "7'-6 3/4", "-25.4 mm", "0 mm", "3 ft", "1e9 mm", "12 %", "10.8 GPa", "90 lb",
     "90 lbf", "45 kg", "-1 kg", "60 g", "1:15", "1:3", "0:1", "none", "left", "male", "loom", "edge", "tip", "across",
     "strip", "cheek", "face", "spline", "vertical", "fore-and-aft", "round", "square", "blade",
     "port", "pinned", "spruce, Sitka", "ash, white", "fir", "spruce {", "{x}", "30 deg", "2 m/s"]
)  # fmt: skip
SCALARS = st.one_of(
    st.text(max_size=12), WRITTEN, st.integers(), st.sampled_from([10**400, -(10**400)]), st.floats(), st.booleans(),
    st.dates(), st.times(), st.datetimes(), st.just(math.nan),
)  # fmt: skip
KEYS = st.one_of(
    st.text(max_size=8),
    st.sampled_from(
        ["length", "gap", "overlap", "leverage_ratio", "size", "from", "to", "oar", "rail", "wood", "station", "thole",
         "at", "inboard", "hole", "bush", "s", "width", "edge", "corner", "shape", "blade", "grip", "loom", "loads",
         "step", "stock_thickness", "drag"]
    ),
)  # fmt: skip
JUNK = st.recursive(
    SCALARS,
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(KEYS, inner, max_size=3)),
    max_leaves=6,
)


def places(table, path=()):
    """Path of every entry of nested tables and lists, tables themselves among them."""
    for key, value in list(table.items() if isinstance(table, dict) else enumerate(table)):
        yield (*path, key)
        if isinstance(value, dict | list):
            yield from places(value, (*path, key))


def at(table, path):
    for part in path:
        table = table[part]
    return table


@st.composite
def spoilt(draw):
    """An example project with up to four of its entries replaced, taken out or added to, by anything at all."""
    return draw(spoilt_of(st.sampled_from(sorted(GIVEN)).map(GIVEN.get)))


@st.composite
def spoilt_of(draw, examples):
    """One of the examples with up to four of its entries replaced, taken out or added to, by anything at all."""
    mapping = deepcopy(draw(examples))
    for _ in range(draw(st.integers(1, 4))):
        paths = sorted(places(mapping), key=str)
        if not paths:
            break
        path = draw(st.sampled_from(paths))
        around = at(mapping, path[:-1])
        what = draw(st.sampled_from(["replace", "replace", "remove", "add"]))
        if what == "replace":
            around[path[-1]] = draw(JUNK)
        elif what == "remove":
            del around[path[-1]]
        elif isinstance(around, dict):
            around[draw(KEYS)] = draw(JUNK)
        else:
            around.insert(path[-1], draw(JUNK))
    return mapping


LENGTHS = [
    ("boat", "beam_at_station"), ("boat", "rail_above_water"), ("boat", "seat_above_water"),
    ("rower", "thigh_thickness"), ("rig", "lock_overhang"), ("rig", "lock_above_rail"), ("rig", "overlap"),
    ("rig", "gap"), ("rig", "length"), ("rig", "hands_apart"), ("rig", "wave_clearance"), ("oar", "grip_centre"),
    ("oar", "grip", "diameter"), ("oar", "grip", "length"), ("oar", "loom", "at_lock"), ("oar", "loom", "inboard"),
    ("oar", "loom", "neck_thickness"), ("oar", "loom", "neck_width"), ("oar", "blade", "length"),
    ("oar", "blade", "width"), ("oar", "blade", "tip_thickness"), ("oar", "blade", "edge_at_root"),
    ("oar", "blade", "edge_at_tip"), ("oar", "leather", "length"), ("oar", "leather", "inboard_of_pins"),
    ("oar", "wood", 1, "size"), ("boat", "seat_above_heels"), ("boat", "length_overall"), ("boat", "rail", "thickness"),
    ("boat", "rail", "depth"), ("rower", "stature"), ("rower", "hand_length"), ("rig", "seat_edge_to_pins"),
    ("rig", "bracket", "bolt_diameter"), ("rig", "bracket", "bolt_spacing"), ("rig", "bracket", "washer_diameter"),
    ("rig", "thole", "diameter"), ("rig", "thole", "load_arm"), ("rig", "thole", "hole_depth"),
]  # fmt: skip
#: What a builder may add, out of the way values among them.
MORE = [
    (("boat", "dock"), {"height": "300 mm", "fender": "100 mm"}),
    (("boat", "dock"), {"height": "0 mm"}),
    (("boat", "heel_test"), {"mass": "5 kg", "off_centre": "430 mm", "angle": "3 deg"}),
    (("boat", "brace_from_seat_edge"), "700 mm"),
    (("boat", "brace_from_seat_edge"), "150 mm"),
    (("boat", "coaming_above_rail"), "60 mm"),
    (("rower", "knee_flexion"), "0 deg"),
    (("rower", "knee_flexion"), "100 deg"),
    (("rower", "reach_catch"), "500 mm"),
    (("rower", "reach_catch"), "40 mm"),
    (("rower", "reach_finish"), "300 mm"),
    (("rower", "reach_finish"), "-100 mm"),
    (("rig", "hands_ahead"), "0 mm"),
    (("rig", "hands_ahead"), "300 mm"),
    (("rig", "catch_limit"), "45 deg"),
    (("rig", "finish_limit"), "-25 deg"),
    (("rig", "lock_overhang"), "0 mm"),
    (("rig", "longest_stowed"), "1900 mm"),
    (("limits", "least_overlap"), "-60 mm"),
    (("limits", "most_overlap"), "60 mm"),
    (("limits", "least_arc"), "80 deg"),
    (("limits", "most_dip"), "12 deg"),
    (("limits", "most_hand_height"), "350 mm"),
    (("limits", "least_leverage_ratio"), 2.5),
    (("limits", "most_overhang"), "60 mm"),
    (("oar", "hole"), {"diameter": "8 mm", "along": "vertical"}),
    (("oar", "hole"), {"diameter": "10 mm", "along": "fore-and-aft", "bush": "14 mm"}),
    (("loads", "step"), "110 kg"),
    (("loads", "step_gap"), "2.9 m"),
    (("loads", "crab_speed"), "9 m/s"),
    (("loads", "cruise"), "900 N"),
    (("loads", "proof_share"), 2),
    (("loads", "steer_speed"), "0.2 m/s"),
    (("loads", "pry"), "2 kN"),
    (("loads", "push_off"), "3 kN"),
    (("loads", "push_off_sideways"), "0 N"),
    (("loads", "tip_corner"), "1 N"),
    (("loads", "drag"), "2 kN"),
    (("boat", "water"), "salt"),
]
#: Pieces that a builder may lay over those of an example.
PIECES = [
    {"part": "strip", "size": "12 mm"}, {"part": "strip", "size": "6 mm", "at": "12 mm", "to": "1.7 m"},
    {"part": "strip", "size": "9 mm", "at": "-11 mm", "from": "300 mm"}, {"part": "face", "size": "1.5 mm"},
    {"part": "cheek", "size": "3 mm", "from": "450 mm", "to": "850 mm"}, {"part": "spline", "size": "6 mm"},
    {"part": "spline", "size": "40 mm", "from": "1.8 m", "to": "2.1 m"}, {"part": "tip", "size": "350 mm"},
    {"part": "edge", "size": "30 mm", "from": "1.9 m"},
]  # fmt: skip
WOODS = (
    "spruce, Sitka", "Douglas-fir, coast", "ash, white", "Cedar, western redcedar", "Yellow-poplar", "Balsa",
    "oak, white",
)  # fmt: skip


@st.composite
def reworked(draw):
    """An example project whose sizes, woods and wishes are changed within what a builder may write."""
    mapping = deepcopy(GIVEN[draw(st.sampled_from(sorted(GIVEN)))])
    for path in draw(st.lists(st.sampled_from(LENGTHS), max_size=6, unique=True)):
        try:
            around = at(mapping, path[:-1])
        except KeyError:
            continue  # tholes of the one example, bracket and rail of the other
        if path[-1] in around:
            factor = draw(st.floats(0.75, 1.25) if path[0] == "rower" else st.floats(0.3, 2.5))
            around[path[-1]] = f"{float(around[path[-1]].split()[0]) * factor:.3f} mm"
    rig, oar = mapping["rig"], mapping["oar"]
    if draw(st.booleans()):
        rig.pop("length")
        if draw(st.booleans()):
            rig["leverage_ratio"] = draw(st.floats(1.2, 5.0))
    for name in draw(st.lists(st.sampled_from(["lock_overhang", "overlap", "gap", "seat_edge_to_pins"]), max_size=3)):
        rig.pop(name, None)
    for path, value in draw(st.lists(st.sampled_from(MORE), max_size=4, unique_by=lambda more: more[0])):
        around = mapping
        for part in path[:-1]:
            around = around.setdefault(part, {})
        around[path[-1]] = value
    rig["round_length"] = draw(st.sampled_from(["none", "1 in", "5 mm", "500 mm", "stock"]))
    rig["lock"] = draw(st.sampled_from(["feathering", "pinned"]))
    mapping["rower"]["mass"] = f"{draw(st.integers(15, 250))} kg"
    if draw(st.booleans()):
        del mapping["rower"]["thigh_thickness"]
    oar["wood"] += [{"species": "ash, white", **piece} for piece in draw(st.lists(st.sampled_from(PIECES), max_size=3))]
    oar["loom"]["inboard_shape"] = draw(st.sampled_from(["round", "square"]))
    for wood in oar["wood"]:
        wood["species"] = draw(st.sampled_from(WOODS))
        wood["grain_slope"] = draw(st.sampled_from(["0 %", "1:25", "1:15", "1:8", "1:5"]))
        wood["moisture"] = f"{draw(st.integers(0, 30))} %"
        wood["grain"] = draw(st.sampled_from(["along", "across"]))
        if draw(st.booleans()) or (wood["grain"] == "across" and draw(st.integers(0, 5))):
            wood.pop("modulus", 0), wood.pop("density", 0)
        if draw(st.integers(0, 5)) == 0:
            ends = sorted(draw(st.lists(st.integers(0, 2600), min_size=2, max_size=2, unique=True)))
            wood["from"], wood["to"] = (f"{end} mm" for end in ends)
        if wood["part"] != "loom" and draw(st.integers(0, 5)) == 0:
            wood["oar"] = draw(st.sampled_from(["port", "starboard"]))
    mapping["wanted"] = {
        "stiffness_index": draw(st.floats(0.005, 0.3)),
        "safety": draw(st.floats(1.0, 20.0)),
    }
    return mapping


def words_in(value):
    """Every text in nested tables, which a message may repeat."""
    if isinstance(value, dict):
        return "".join(str(key) + words_in(inner) for key, inner in value.items())
    if isinstance(value, list):
        return "".join(map(words_in, value))
    return value if isinstance(value, str) else ""


def read_or_refused(mapping):
    """The project, or None where it is refused in words."""
    try:
        project = project_from_mapping(mapping, name="fuzz")
    except ProjectError as error:
        check_words(error, words_in(mapping))
        return None
    assert isinstance(project, Project)
    return project


def oar_or_refused(mapping):
    """The oar judged by itself, or None where it is refused in words."""
    try:
        project = oar_from_mapping(mapping, name="fuzz")
        assert isinstance(project, OarProject)
        made = oar_design(project.oar_inputs)
    except ProjectError as error:
        check_words(error, words_in(mapping))
        return None
    except BadDesign as error:
        check_sentence(filled(error.text, error.quantities, "mm"), error.text)
        return None
    check_values(made)
    for finding in made.findings:
        check_sentence(filled(finding.text, finding.quantities, project.display), finding.text)
    return made


def check_words(error, written):
    """Every fault has its sentence, and none speaks of the program's insides, unless that is what was written."""
    assert error.faults
    assert all(fault.problem for fault in error.faults)
    assert not [word for word in NOT_IN_WORDS if word in str(error) and word not in written], str(error)


def designed_or_refused(project):
    """The design, every value of it finite or none with its reason, or None where it is refused in words."""
    try:
        made = design(project.inputs)
    except BadDesign as error:
        said = filled(error.text, error.quantities, project.display)
        check_sentence(said, error.text)
        return None
    check_values(made)
    for finding in made.findings:
        check_sentence(filled(finding.text, finding.quantities, project.display), finding.text)
        assert all(np.isfinite(quantity.value) for quantity in finding.quantities.values()), finding.text
    for line in made.working:
        assert both(line.result, project.display)[0]
    for check in made.fittings:
        assert np.isfinite(check.ratio), f"{check.part}: {check.stress} against {check.strength}"
    for block in blocks(project, made):
        for row in [[block.title, block.lead], *block.rows]:
            assert not [cell for cell in row if re.search(r"\b(None|nan|inf)\b|[{}]", cell)], row
    return made


def check_sentence(said, text):
    """A sentence has no gap left in it and no number that is none, whose words may stand in its own text only."""
    assert not [word for word in ("None", "nan", "{", "}") if word in said], said
    assert not [word for word in ("not known", "no limit") if said.count(word) != text.count(word)], said


def check_values(made):
    """Every named result is finite, or none with its reason."""
    for name, value in made.values.items():
        if value.value is None:
            assert value.reason, name
        else:
            assert np.all(np.isfinite(value.value)), f"{name} is {value.value}"


@settings(calm, max_examples=250)
@given(mapping=spoilt())
def test_a_spoilt_project_is_read_or_refused_in_words(mapping):
    """Junk in any entry ends in a project or in faults, and a project that is read can be designed or is refused."""
    project = read_or_refused(mapping)
    if project is not None:
        designed_or_refused(project)


@settings(calm, max_examples=120)
@given(mapping=spoilt_of(st.sampled_from([MEASURED, MEASURED, *GIVEN.values()])))
def test_a_spoilt_oar_is_read_by_itself_or_refused_in_words(mapping):
    """Junk in any entry ends in an oar or in faults, be it measured or drawn, with a boat or without."""
    oar_or_refused(mapping)


@settings(calm, max_examples=80)
@given(data=st.data())
def test_a_measured_oar_of_other_sizes_is_judged_or_refused_in_words(data):
    """Rows of the table a tenth or many times as thick, wide or far along give finite numbers or the reason why not."""
    mapping = deepcopy(MEASURED)
    rows = mapping["oar"]["station"]
    for row in data.draw(st.lists(st.sampled_from(rows), max_size=5, unique_by=id)):
        key = data.draw(st.sampled_from(sorted(set(row) - {"shape"})))
        row[key] = f"{float(row[key].split()[0]) * data.draw(st.floats(0.1, 3.0)):.2f} mm"
    mapping["oar"]["inboard"] = f"{data.draw(st.integers(150, 1650))} mm"
    for load in data.draw(st.lists(st.sampled_from(MORE), max_size=3, unique_by=lambda more: more[0])):
        (table, key), value = load[0][:2], load[1]
        if table in ("loads", "oar"):
            mapping.setdefault(table, {})[key] = value
    mapping["wanted"] = {"stiffness_index": data.draw(st.floats(0.005, 0.3)), "safety": data.draw(st.floats(1.0, 20.0))}
    oar_or_refused(mapping)


@settings(calm, max_examples=60)
@given(place=st.floats(0, 1), cut=st.integers(0, 3), put=st.sampled_from([*"\"'[]{}=#,.\n\\", "[[", "", "mm"]))
def test_a_text_of_an_oar_with_a_slip_is_read_or_refused_in_words(place, cut, put):
    """A few letters lost or typed in the table of the measured oar."""
    start = int(place * len(MEASURED_TEXT))
    wrong = MEASURED_TEXT[:start] + put + MEASURED_TEXT[start + cut :]
    try:
        oar_from_text(wrong, name="slip.toml")
    except ProjectError as error:
        check_words(error, wrong)


@settings(calm, max_examples=150)
@given(mapping=reworked())
def test_a_reworked_project_is_designed_with_finite_numbers_or_refused_in_words(mapping):
    """Sizes and woods within their ranges give finite results or the reason why not; a wish refuses nothing."""
    project = read_or_refused(mapping)
    if project is not None and designed_or_refused(project) is None:
        assert designed_or_refused(read_or_refused({**mapping, "wanted": {}})) is None


@settings(calm, max_examples=150)
@given(
    name=st.sampled_from(sorted(TEXTS)), place=st.floats(0, 1), cut=st.integers(0, 3),
    put=st.one_of(
        st.text(max_size=4), st.sampled_from([*"\"'[]{}=#,.\n\\", "[[", "'''", '"""', "1979-05-27", "\r", "\ufeff"])
    ),
)  # fmt: skip
def test_a_text_with_a_slip_is_read_or_refused_in_words(name, place, cut, put):
    """A few letters lost and others typed in their place end in a project or in faults."""
    text = TEXTS[name]
    start = int(place * len(text))
    wrong = text[:start] + put + text[start + cut :]
    try:
        project_from_text(wrong, name="slip.toml")
    except ProjectError as error:
        check_words(error, wrong)


def test_a_wish_far_off_does_not_make_an_oar_unbuildable():
    """An oar with thick blade edges is designed whatever stiffness is wished for; advice never refuses."""
    mapping = deepcopy(GIVEN["quillet"])
    mapping["oar"]["blade"] |= {"edge_at_root": "25 mm", "tip_thickness": "25 mm"}
    assert designed_or_refused(read_or_refused({**mapping, "wanted": {}})) is not None
    assert designed_or_refused(read_or_refused({**mapping, "wanted": {"stiffness_index": 0.3}})) is not None


def test_a_leather_may_end_where_the_blade_begins():
    """No length is left for the taper between leather and blade: the pin at 628.65 mm, 800 mm of leather, the root."""
    mapping = deepcopy(GIVEN["quillet"])
    mapping["oar"]["leather"] = {"length": "800 mm", "inboard_of_pins": "0 mm"}
    mapping["rig"]["length"] = "1987.45 mm"  # 628.65 + 800 + 558.8, the span of 1104.9 and the overlap of 152.4 halved
    designed_or_refused(read_or_refused(mapping))


def test_the_fuzz_reaches_designs():
    """The untouched examples are read and designed, so that the checks above look at something."""
    for mapping in GIVEN.values():
        assert designed_or_refused(read_or_refused(mapping)) is not None
    assert oar_or_refused(MEASURED) is not None


@pytest.mark.parametrize("sign", [dt.date(2024, 5, 17), dt.time(7, 32), True, math.inf], ids=repr)
def test_a_whole_table_of_junk_is_refused(sign):
    """The same junk in every entry at once is refused entry by entry."""
    mapping = deepcopy(GIVEN["quillet"])
    for path in list(places(mapping)):
        if not isinstance(at(mapping, path), dict | list):
            at(mapping, path[:-1])[path[-1]] = sign
    assert read_or_refused(mapping) is None
