"""A project file is read, or every fault in it is told in one go, in words, with its place and its line."""

import json
import math
import os
import re
import tempfile
import time
import tomllib
import tracemalloc
from copy import deepcopy
from pathlib import Path

import pytest
from conftest import unsized

from oarkit import BadDesign, design
from oarkit.fit.limits import overlap_range
from oarkit.project import ProjectError, example_project, project_from_mapping, project_from_text, read_project
from oarkit.sheet.html import sheet_html
from oarkit.sheet.results import results_json
from oarkit.stroke.arc import stops_at
from oarkit.tables import data_folder
from oarkit.units import filled

QUILLET = (data_folder() / "quillet.toml").read_text(encoding="utf-8")
TUMBLEHOD = (data_folder() / "tumblehod.toml").read_text(encoding="utf-8")
EXAMPLES = {"quillet": QUILLET, "tumblehod": TUMBLEHOD}
#: The example as a builder has it who has struck out the comments.
PLAIN = "\n".join(re.sub(r"\s*#.*", "", line) for line in QUILLET.splitlines()) + "\n"
LENGTH = 'length = "2286 mm"'
OVERLAP = 'overlap = "152.4 mm"'
RAIL = 'lock_above_rail = "45 mm"'
SITKA = 'species = "spruce, Sitka"'
ROUNDING = 1e-12  # [m] and relative: rounding of doubles only
NOT_IN_WORDS = (
    "pydantic", "Traceback", "None", "ValidationError", "value_error", "extra_forbidden", "<class", "{", "}",
    "datetime.", "integer string conversion", "int too large", "True", "False", "\\n", "Illegal character",
    "namespace",
)  # fmt: skip


def edited(text, *changes):
    """A project text with parts of it changed, each found exactly once outside the opening comment."""
    head, body = text.split("\ntitle", 1)
    body = "\ntitle" + body
    for old, new in changes:
        assert body.count(old) == 1, f"{old} stands {body.count(old)} times"
        body = body.replace(old, new)
    return head + body


def faults_of(given):
    """The faults of a text or a mapping, none of which may speak of the program's insides."""
    read = project_from_text if isinstance(given, str) else project_from_mapping
    with pytest.raises(ProjectError) as caught:
        read(given, name="mine.toml")
    said = "\n".join([str(caught.value), *map(str, caught.value.faults)])
    # a line that cannot be read is shown as it was written, and may hold anything
    shown = given if isinstance(given, str) and not caught.value.faults[0].place else ""
    assert not [word for word in NOT_IN_WORDS if word in said and word not in shown], said
    return caught.value.faults


def only_fault(given):
    """The one fault that there is."""
    faults = faults_of(given)
    assert len(faults) == 1, [str(fault) for fault in faults]
    return faults[0]


def line_with(text, part):
    """Number of the one line that begins so."""
    found = [number for number, line in enumerate(text.split("\n"), 1) if line.startswith(part)]
    assert len(found) == 1, f"{part} stands on lines {found}"
    return found[0]


def without(mapping, *path):
    """A copy of nested tables with one entry taken out."""
    copy = deepcopy(mapping)
    table = copy
    for part in path[:-1]:
        table = table[part]
    del table[path[-1]]
    return copy


def with_(mapping, value, *path):
    """A copy of nested tables with one entry set."""
    copy = deepcopy(mapping)
    table = copy
    for part in path[:-1]:
        table = table[part]
    table[path[-1]] = value
    return copy


def place(path):
    """A path as a fault names it."""
    text = ""
    for part in path:
        text += (
            f", entry {part + 1}"
            if isinstance(part, int)
            else (", " if "entry" in text else "." if text else "") + part
        )
    return text


def entries(table, path=()):
    """Path of every single entry of nested tables and lists of tables."""
    for key, value in table.items() if isinstance(table, dict) else enumerate(table):
        if isinstance(value, dict | list):
            yield from entries(value, (*path, key))
        else:
            yield (*path, key)


def keys_on_lines(text):
    """Every single entry of a project text: its line, and the span of its key and of its value in the text."""
    start = 0
    for number, line in enumerate(text.split("\n"), 1):
        code = line.split("#")[0]
        for match in re.finditer(r"""(?<![\w"'])([a-z_]+) = ("[^"]*"|[\d.]+)""", code):
            yield number, (start + match.start(1), start + match.end(1)), (start + match.start(2), start + match.end(2))
        start += len(line) + 1


def replaced(text, changes):
    """A text with spans of it replaced, the last one first so that the others stay where they are."""
    for (start, stop), new in sorted(changes, reverse=True):
        text = text[:start] + new + text[stop:]
    return text


GIVEN = tomllib.loads(QUILLET)
FULL = with_(GIVEN, tomllib.loads(TUMBLEHOD)["rig"]["thole"], "rig", "thole")
FULL = with_(FULL, {"height": "300 mm", "fender": "100 mm", "flare_run": "30 mm"}, "boat", "dock")
FULL = with_(FULL, {"mass": "5 kg", "off_centre": "430 mm", "angle": "3 deg"}, "boat", "heel_test")
REQUIRED = [
    ("title",), ("boat",), ("rower",), ("rig",), ("oar",), ("boat", "beam_at_station"), ("boat", "rail", "thickness"),
    ("boat", "rail", "depth"), ("boat", "rail", "species"), ("boat", "dock", "height"), ("boat", "heel_test", "mass"),
    ("boat", "heel_test", "off_centre"), ("boat", "heel_test", "angle"), ("rower", "mass"),
    ("rig", "bracket", "bolts"), ("rig", "bracket", "bolt_diameter"), ("rig", "bracket", "bolt_spacing"),
    ("rig", "bracket", "bolt_axis"), ("rig", "thole", "diameter"), ("rig", "thole", "load_arm"),
    ("rig", "thole", "hole_depth"), ("rig", "thole", "apart"), ("rig", "thole", "species"), ("oar", "grip"),
    ("oar", "loom"), ("oar", "blade"), ("oar", "wood"), ("oar", "grip", "diameter"), ("oar", "grip", "length"),
    ("oar", "loom", "at_lock"), ("oar", "loom", "neck_thickness"), ("oar", "loom", "neck_width"),
    ("oar", "blade", "length"), ("oar", "blade", "width"), ("oar", "blade", "tip_thickness"),
    ("oar", "blade", "edge_at_root"), ("oar", "blade", "edge_at_tip"), ("oar", "wood", 0, "part"),
    ("oar", "wood", 0, "species"), ("oar", "wood", 1, "part"), ("oar", "wood", 1, "species"),
    ("oar", "wood", 2, "part"), ("oar", "wood", 2, "species"),
]  # fmt: skip
SUFFICED_BY_OTHERS = {
    ("boat", "rail_above_water"): "boat.rail_above_water", ("rig", "lock_above_rail"): "rig.lock_above_rail",
    ("boat", "seat_above_water"): "boat.seat_above_water",
    ("oar", "wood", 1, "size"): "size", ("oar", "wood", 2, "size"): "size",
}  # fmt: skip


class TestReading:
    def test_quillet_comes_out_in_si_as_it_stands_in_the_file(self):
        """Every number of the first example is the one written, in metres, kilograms, newtons and pascals."""
        project = example_project("quillet")
        station, sizes, loom = project.inputs.station, project.inputs.sizes, project.inputs.pieces[0]
        assert (project.name, project.title, project.display) == ("quillet.toml", "Quillet, centre station", "mm")
        assert station.beam == pytest.approx(0.8636, abs=ROUNDING)
        assert station.lock_overhang == pytest.approx(0.12065, abs=ROUNDING)
        assert station.lock_above_water == pytest.approx(0.300, abs=ROUNDING)  # 255 + 45 mm
        assert station.seat_above_water == pytest.approx(0.077, abs=ROUNDING)
        assert station.overlap == pytest.approx(0.1524, abs=ROUNDING)
        assert station.length == pytest.approx(2.286, abs=ROUNDING)
        assert (station.lock, station.upper_hand, station.leverage_ratio) == ("feathering", "left", None)
        rower = project.inputs.rower
        thigh = rower.body.thigh_thickness
        assert (thigh.value, thigh.measured) == (pytest.approx(0.160, abs=ROUNDING), True)
        assert rower.body.hand_length.value == pytest.approx(0.185, abs=ROUNDING)
        assert (rower.mass, rower.reach_catch, rower.reach_finish) == (75.0, None, None)
        assert (project.inputs.fixtures.boat_mass, project.inputs.loads.hard_start) == (45.0, None)
        assert (station.seat_edge_to_pins, station.seat_above_heels) == pytest.approx((0.300, 0.165), abs=ROUNDING)
        assert (station.assumed, station.boat_length) == ((), pytest.approx(4.572, abs=ROUNDING))
        bracket, rail = project.inputs.fixtures.bracket, project.inputs.fixtures.rail
        assert (bracket.bolts, bracket.bolt_axis, bracket.root_width) == (2, "athwart", None)
        sizes_of_bracket = (bracket.bolt_diameter, bracket.bolt_spacing, bracket.washer_diameter)
        assert sizes_of_bracket == pytest.approx((0.008, 0.150, 0.030), abs=ROUNDING)
        assert (rail.thickness, rail.depth) == pytest.approx((0.019, 0.038), abs=ROUNDING)
        assert (sizes.blade_length, sizes.blade_width) == pytest.approx((0.5588, 0.1302), abs=ROUNDING)
        assert (sizes.lock_diameter, sizes.inboard_size, sizes.square_inboard) == (0.046, 0.048, True)
        assert (sizes.neck_thickness, sizes.neck_width) == pytest.approx((0.03175, 0.027), abs=ROUNDING)
        assert (loom.board.species.name, loom.board.density) == ("Spruce, Sitka", 430.0)
        assert loom.board.modulus == pytest.approx(10.8e9, rel=ROUNDING)
        assert (loom.board.grain_slope, loom.board.moisture) == pytest.approx((1 / 15, 0.12), abs=ROUNDING)
        assert [(p.kind, p.size, p.board.grain) for p in project.inputs.pieces[1:]] == [
            ("edge", pytest.approx(0.006, abs=ROUNDING), "along"),
            ("tip", pytest.approx(0.020, abs=ROUNDING), "across"),
        ]  # fmt: skip
        assert (project.inputs.wanted_index, project.inputs.wanted_safety) == (0.05, 1.5)

    def test_tumblehod_comes_out_in_si_as_it_stands_in_the_file(self):
        """The second example has pins inside the rail, a gap, a round loom without inboard size and a stated load."""
        project = example_project("tumblehod")
        station, sizes = project.inputs.station, project.inputs.sizes
        assert station.lock_overhang == pytest.approx(-0.0381, abs=ROUNDING)
        assert station.overlap == pytest.approx(-0.0508, abs=ROUNDING)
        assert station.lock_above_water == pytest.approx(0.350, abs=ROUNDING)  # 320 + 30 mm
        assert (sizes.square_inboard, sizes.inboard_size) == (False, sizes.lock_diameter)
        assert project.inputs.loads.hard_start == 450.0
        assert project.inputs.wanted_index is None
        thole = project.inputs.fixtures.thole
        assert (project.inputs.fixtures.bracket, thole.board.species.name) == (None, "Ash, white")
        sizes_of_thole = (thole.diameter, thole.load_arm, thole.hole_depth, thole.apart)
        assert sizes_of_thole == pytest.approx((0.019, 0.030, 0.040, 0.075), abs=ROUNDING)
        assert station.catch_limit == pytest.approx(math.radians(50))  # tholes: common practice

    @pytest.mark.parametrize("text", [QUILLET, PLAIN, TUMBLEHOD], ids=["quillet", "no comments", "tumblehod"])
    def test_line_ends_of_either_kind_and_a_byte_order_mark_make_no_difference(self, text, tmp_path):
        """A file saved on another system reads the same."""
        plain = project_from_text(text, name="a.toml").inputs
        for number, raw in enumerate(
            (text.encode(), text.replace("\n", "\r\n").encode(), b"\xef\xbb\xbf" + text.encode())
        ):
            path = tmp_path / f"{number}.toml"
            path.write_bytes(raw)
            assert read_project(path).inputs == plain
            assert read_project(str(path)).name == f"{number}.toml"

    def test_feet_and_inches_give_the_same_project_as_millimetres(self):
        """The same boat in feet and inches is the same boat."""
        inches = edited(
            QUILLET, ('beam_at_station = "863.6 mm"', 'beam_at_station = "2 ft 10 in"'),
            (LENGTH, "length = '7 ft 6 in'"), (OVERLAP, "overlap = '6\"'"),
            ('lock_overhang = "120.65 mm"', 'lock_overhang = "4 3/4 in"'),
        )  # fmt: skip
        station, wanted = project_from_text(inches, name="a").inputs.station, example_project().inputs.station
        for name in ("beam", "length", "overlap", "lock_overhang"):
            assert getattr(station, name) == pytest.approx(getattr(wanted, name), abs=ROUNDING)

    def test_heights_may_be_given_over_the_water_and_over_the_seat_instead(self):
        """Lock over water and over seat stand in place of the three heights: 310 less 240 leaves a seat at 70 mm."""
        text = edited(
            QUILLET, ("rail_above_water =", "# "), ("seat_above_water =", "# "),
            ('lock_above_rail = "45 mm"', 'lock_above_water = "310 mm"\nlock_above_seat = "240 mm"'),
        )  # fmt: skip
        station = project_from_text(text, name="a").inputs.station
        assert (station.lock_above_water, station.seat_above_water) == pytest.approx((0.310, 0.070), abs=ROUNDING)

    def test_heights_that_agree_may_all_be_given(self):
        """The same height said twice is no fault."""
        more = '\nlock_above_water = "300 mm"\nlock_above_seat = "223 mm"'
        text = edited(QUILLET, ('lock_above_rail = "45 mm"', 'lock_above_rail = "45 mm"' + more))
        assert project_from_text(text, name="a").inputs.station.seat_above_water == pytest.approx(0.077, abs=ROUNDING)

    def test_a_length_may_be_left_to_be_chosen_with_or_without_rounding(self):
        """Without length the ratio counts; "none" leaves the derived length as it is."""
        text = edited(QUILLET, (LENGTH, "leverage_ratio = 2.6"), ('round_length = "1 in"', 'round_length = "none"'))
        station = project_from_text(text, name="a").inputs.station
        assert (station.length, station.leverage_ratio, station.lengths) == (None, 2.6, None)
        whole = project_from_text(edited(QUILLET, (LENGTH, "leverage_ratio = 2.6")), name="a").inputs.station
        assert whole.lengths == pytest.approx(0.0254, abs=ROUNDING)  # round_length = "1 in"

    def test_a_thigh_is_estimated_only_where_stature_and_body_allow(self):
        """Without a measured thigh the body table gives one with a spread; without stature there is none."""
        rower = project_from_mapping(without(GIVEN, "rower", "thigh_thickness"), name="a").inputs.rower
        estimated = rower.body.thigh_thickness
        assert not estimated.measured
        assert estimated.spread > 0
        assert 0.12 < estimated.value < 0.20  # m; ANSUR II male thigh clearance, 1st to 99th percentile with room
        bare = without(without(GIVEN, "rower", "thigh_thickness"), "rower", "stature")
        assert project_from_mapping(bare, name="a").inputs.rower.body.thigh_thickness is None

    def test_a_board_for_one_oar_is_kept_apart(self):
        """Boards of the pair may differ, each with its own loom."""
        other = '[[oar.wood]]\npart = "loom"\nspecies = "Sitka spruce"\noar = "starboard"'
        text = edited(QUILLET, ('moisture = "12 %"', f'moisture = "12 %"\noar = "port"\n{other}'))
        assert [p.side for p in project_from_text(text, name="a").inputs.pieces] == ["port", "starboard", None, None]

    def test_what_is_left_out_of_rig_and_seat_is_chosen_or_assumed(self):
        """Overhang, overlap and length are left to be chosen, seat and heels stand on custom: 12 in and 8 in."""
        given = GIVEN
        for path in (("rig", "lock_overhang"), ("rig", "overlap"), ("rig", "length"), ("rig", "seat_edge_to_pins"),
                     ("boat", "seat_above_heels")):  # fmt: skip
            given = without(given, *path)
        station = project_from_mapping(given, name="a").inputs.station
        assert (station.lock_overhang, station.overlap, station.length, station.leverage_ratio) == (None,) * 4
        assert (station.seat_edge_to_pins, station.seat_above_heels) == pytest.approx((0.3048, 0.2032), abs=ROUNDING)
        assert station.assumed == ("seat_edge_to_pins", "seat_above_heels")

    @pytest.mark.parametrize(("name", "limit", "degrees"), [
        ("tumblehod", None, 50), ("tumblehod", "58 deg", 58), ("quillet", None, 65), ("quillet", "80 deg", 80),
    ])  # fmt: skip
    def test_tholes_limit_the_catch_where_nothing_is_said(self, name, limit, degrees):
        """50 degrees in fixed tholes (common practice), counted to 65 elsewhere, and what is said wins."""
        given = tomllib.loads(EXAMPLES[name])
        given = given if limit is None else with_(given, limit, "rig", "catch_limit")
        told = project_from_mapping(given, name="a").inputs.station.catch_limit
        assert math.degrees(stops_at(told)) == pytest.approx(degrees)


class TestMissingKeys:
    @pytest.mark.parametrize("path", REQUIRED, ids=place)
    def test_a_required_key_that_is_missing_is_named(self, path):
        """One key less gives one fault, at its place, with a line to add."""
        fault = only_fault(without(FULL, *path))
        assert fault.place == place(path)
        assert "is missing" in fault.problem
        assert path[-1] in fault.problem

    @pytest.mark.parametrize("name", EXAMPLES)
    def test_every_key_can_be_left_out_or_is_asked_for_by_name(self, name):
        """Whatever single key of an example is struck out, the file reads, or the fault names that key."""
        given = tomllib.loads(EXAMPLES[name])
        for path in entries(given):
            try:
                project_from_mapping(without(given, *path), name="a")
            except ProjectError:
                fault = only_fault(without(given, *path))
                assert path[-1] in str(fault)
                assert path in REQUIRED or path in SUFFICED_BY_OTHERS, str(fault)

    @pytest.mark.parametrize("path", SUFFICED_BY_OTHERS, ids=place)
    def test_a_key_that_others_could_replace_is_asked_for_with_its_alternatives(self, path):
        """Without the height of the seat, that of the lock, or the size of a piece, nothing can be worked out."""
        fault = only_fault(without(GIVEN, *path))
        assert SUFFICED_BY_OTHERS[path] in str(fault)
        assert "give" in fault.problem or "needs" in fault.problem

    @pytest.mark.parametrize(
        ("start", "heading"),
        [
            ("beam_at_station", "[boat]"), ("mass = ", "[rower]"),
            ("rail_above_water", "[rig]"), ("seat_above_water", "[boat]"), ("grip = ", "[oar]"), ("loom = ", "[oar]"),
        ],
    )  # fmt: skip
    def test_a_missing_key_is_placed_at_the_heading_of_its_table(self, start, heading):
        """The line is that of the table where the key should be added."""
        rest = PLAIN.index(heading)
        rest = rest if start in PLAIN[rest:] else 0  # the first line after the heading, where there is one
        lines = PLAIN[rest:].split("\n")
        lines.remove(next(line for line in lines if line.startswith(start)))
        text = PLAIN[:rest] + "\n".join(lines)
        assert only_fault(text).line == line_with(text, heading)

    def test_a_missing_key_of_the_second_wood_is_placed_at_the_second_heading(self):
        """The second [[oar.wood]] is not mistaken for the first or third."""
        text = edited(PLAIN, ('part = "edge"\n', "\n"))
        fault = only_fault(text)
        assert fault.place == "oar.wood, entry 2, part"
        assert text.split("\n")[fault.line - 1] == "[[oar.wood]]"
        assert text.split("\n")[: fault.line].count("[[oar.wood]]") == 2

    def test_a_missing_key_of_an_inline_table_is_placed_on_its_line(self):
        """Keys inside curly brackets are found on the line of their table."""
        text = edited(PLAIN, ('depth = "38 mm", ', ""))
        fault = only_fault(text)
        assert (fault.place, fault.line) == ("boat.rail.depth", line_with(text, "rail = "))

    def test_an_empty_file_is_said_to_be_empty(self):
        """A file with nothing in it is called empty, and the reader is told where to find an example."""
        for text in ("", "\n\n", "# only a comment\n"):
            with pytest.raises(ProjectError) as caught:
                project_from_text(text, name="mine.toml")
            assert "empty" in str(caught.value)
            assert "oarkit example" in str(caught.value)


class TestUnknownKeys:
    @pytest.mark.parametrize("name", EXAMPLES)
    def test_a_misspelt_key_gets_its_line_and_the_right_spelling(self, name):
        """Each key of the examples, with its last letter gone, is recognised wherever it stands."""
        text = EXAMPLES[name]
        keys = list(keys_on_lines(text))
        assert len(keys) >= 45  # the pattern finds inline tables too
        wrong = replaced(text, [((stop - 1, stop), "") for _, (_, stop), _ in keys])
        told = {(fault.line, fault.place.split(".")[-1].split(", ")[-1]): fault.problem for fault in faults_of(wrong)}
        for line, (start, stop), _ in keys:
            key = text[start:stop]
            assert f"did you mean {key}?" in told[line, key[:-1]]

    @pytest.mark.parametrize(
        ("path", "near"),
        [
            (("titel",), "title"), (("boats",), "boat"), (("boat", "lenght_overall"), "length_overall"),
            (("boat", "rail", "tickness"), "thickness"), (("rig", "Overlap"), "overlap"),
            (("rig", "lock-overhang"), "lock_overhang"), (("rig", "bracket", "bolt_diametre"), "bolt_diameter"),
            (("oar", "looms"), "loom"), (("oar", "wood", 0, "specie"), "species"),
            (("oar", "wood", 2, "grains"), "grain"), (("oar", "wood", 1, "form"), "from"),
            (("wanted", "saftey"), "safety"), (("loads", "hardstart"), "hard_start"),
        ],
    )  # fmt: skip
    def test_the_nearest_known_key_is_offered(self, path, near):
        """A slip of the pen in any table, inline table or list of tables gets the key that was meant."""
        given = with_(GIVEN, {}, "loads")
        fault = only_fault(with_(given, "5 mm", *path))
        assert fault.place == place(path)
        assert f"did you mean {near}?" in fault.problem

    def test_a_key_of_another_table_is_sent_there(self):
        """The length of the oar under [rower] is known, but elsewhere."""
        assert "rig" in only_fault(with_(GIVEN, "2286 mm", "rower", "length")).problem

    @pytest.mark.parametrize(
        ("path", "wrong"), [(("beam",), "boat"), (("oar", "wood", 1, "start"), "part"), (("rig", "a"), "gap")]
    )
    def test_a_key_of_another_meaning_is_not_offered(self, path, wrong):
        """A guess that shares only letters with what was written leads astray."""
        assert f"did you mean {wrong}?" not in only_fault(with_(GIVEN, "5 mm", *path)).problem

    def test_a_key_like_nothing_known_gets_the_list_of_what_is(self):
        """Where nothing is near, the known keys are listed."""
        problem = only_fault(with_(GIVEN, "5 mm", "wanted", "zzz")).problem
        assert "stiffness_index" in problem
        assert "safety" in problem

    def test_a_wrong_file_of_many_lines_is_refused_in_no_time(self):
        """Fifteen hundred unknown keys neither keep the builder waiting nor fill the screen for ever."""
        text = "\n".join(f"key{number} = 1" for number in range(1500))
        begun = time.perf_counter()
        with pytest.raises(ProjectError) as caught:
            project_from_text(text, name="wrong.toml")
        assert time.perf_counter() - begun < 5.0  # s; a builder waits no longer, and a busy machine still passes
        assert len(str(caught.value).splitlines()) < 100  # a builder reads one screen or two


class TestLines:
    @pytest.mark.parametrize("name", EXAMPLES)
    def test_every_value_is_found_on_its_own_line(self, name):
        """A value that cannot be right is reported at its key, in nested and repeated tables alike."""
        text = EXAMPLES[name]
        some = list(keys_on_lines(text))[1::4]  # every fourth, the title not among them
        for line, (start, stop), (first, last) in some:
            faults = faults_of(text[:first] + '"?"' + text[last:])
            assert [fault.line for fault in faults] == [line] * len(faults)
            assert faults[0].place.endswith(text[start:stop])

    def test_lines_are_those_of_the_file_with_either_line_end(self):
        """Windows line ends do not shift the count."""
        text = edited(PLAIN, (LENGTH, "length = 2286"))
        assert only_fault(text.replace("\n", "\r\n")).line == only_fault(text).line == line_with(text, "length = 2286")

    def test_dotted_keys_and_tables_are_found(self):
        """Other ways to write the same table in TOML have their lines too."""
        bracket = next(line for line in PLAIN.split("\n") if line.startswith("bracket = "))
        rows = ('bolts = "two"', 'bolt_diameter = "8 mm"', 'bolt_spacing = "150 mm"', 'bolt_axis = "athwart"')
        dotted = "\n".join("bracket." + row for row in rows)
        text = edited(PLAIN, (bracket, dotted))
        assert only_fault(text).line == line_with(text, "bracket.bolts")
        text = edited(PLAIN, (bracket, "[rig.bracket]\n" + dotted.replace("bracket.", "")))
        assert only_fault(text).line == line_with(text, "bolts")

    def test_keys_in_quotes_are_found(self):
        """TOML allows a key in quotes."""
        text = edited(PLAIN, (LENGTH, '"length" = 2286'))
        assert only_fault(text).line == line_with(text, '"length"')

    def test_a_text_of_several_lines_is_not_taken_for_keys(self):
        """What stands inside a long title is no key."""
        text = edited(
            PLAIN,
            ('title = "Quillet, centre station"', 'title = """\n[rig]\nlength = 3\n"""'),
            (LENGTH, "length = 2286"),
        )
        assert only_fault(text).line == line_with(text, "length = 2286")

    @pytest.mark.parametrize("sign", ["\u2028", "\u0085", "\u2029"])
    def test_odd_signs_in_a_title_do_not_shift_the_lines(self, sign):
        """Only the ends of lines count, not what a word processor slips into a title."""
        text = edited(PLAIN, ("Quillet, centre", f"Quillet,{sign}centre"), (LENGTH, "length = 2286"))
        assert only_fault(text).line == line_with(text, "length = 2286")

    def test_a_mapping_has_places_but_no_lines(self):
        """One row of a roster has no lines to point at."""
        fault = only_fault(with_(GIVEN, 2286, "rig", "length"))
        assert (fault.place, fault.line) == ("rig.length", None)


class TestAllInOneGo:
    MANY = (
        ('beam_at_station = "863.6 mm"', "beam_at_station = 34"), ('mass = "75 kg"', 'masss = "75 kg"'),
        ("lock_overhang =", "lock_overhung ="),
        ('upper_hand = "left"', 'upper_hand = "up"'), ('grain_slope = "1:15"', 'grain_slope = "1:3"'),
        ('part = "tip"', 'part = "cap"'), ("safety = 1.5", 'safety = "high"'),
    )  # fmt: skip

    def test_faults_are_told_together_in_the_order_of_the_file(self):
        """Seven mistakes give eight faults, a missing key being one of them, each on its own line of the message."""
        with pytest.raises(ProjectError) as caught:
            project_from_text(edited(PLAIN, *self.MANY), name="mine.toml")
        places = [fault.place for fault in caught.value.faults]
        assert sorted(places) == sorted(
            ["boat.beam_at_station", "rower.mass", "rower.masss", "rig.lock_overhung", "rig.upper_hand",
             "oar.wood, entry 1, grain_slope", "oar.wood, entry 3, part", "wanted.safety"]
        )  # fmt: skip
        lines = [fault.line for fault in caught.value.faults]
        assert lines == sorted(lines)
        said = str(caught.value).splitlines()
        assert said[0] == "mine.toml has 8 faults:"
        assert said[1:] == [f"  {fault}" for fault in caught.value.faults]
        assert said[1].startswith(f"  boat.beam_at_station (line {line_with(PLAIN, 'beam_at_station')}): ")

    def test_one_fault_is_one_fault(self):
        """The count reads as English."""
        with pytest.raises(ProjectError, match=r"^mine\.toml has one fault:\n  rig\.length \(line \d+\): "):
            project_from_text(edited(PLAIN, (LENGTH, "length = 2286")), name="mine.toml")

    def test_contradictions_are_told_together(self):
        """Faults between entries come in one go too."""
        text = edited(
            PLAIN, (OVERLAP, OVERLAP + '\ngap = "50 mm"'), (LENGTH, LENGTH + "\nleverage_ratio = 2.6"),
            (SITKA, 'species = "sprooce, Sitka"'), ('seat_above_water = "77 mm"', 'seat_above_water = "377 mm"'),
            ('edge_at_tip = "6 mm"', 'edge_at_tip = "12 mm"'),
        )  # fmt: skip
        assert [fault.place for fault in faults_of(text)] == [
            "boat.seat_above_water", "rig.gap", "rig.leverage_ratio", "oar.blade.edge_at_tip",
            "oar.wood, entry 1, species",
        ]  # fmt: skip

    @pytest.mark.parametrize(
        ("old", "new", "where"),
        [
            (OVERLAP, OVERLAP + '\ngap = "50 mm"', "rig.gap"),
            (SITKA, 'species = "sprooce"', "oar.wood, entry 1, species"),
            (LENGTH, LENGTH + "\nleverage_ratio = 2.6", "rig.leverage_ratio"),
            ('size = "20 mm"', "", "oar.wood, entry 3, size"),
            ('seat_above_water = "77 mm"', 'seat_above_water = "377 mm"', "boat.seat_above_water"),
        ],
    )  # fmt: skip
    def test_a_slip_elsewhere_does_not_hide_a_contradiction(self, old, new, where):
        """A builder who mends one fault should not be met by another that was there all along."""
        text = edited(PLAIN, ('rail = { thickness = "19 mm"', "rail = { thickness = 19"), (old, new))
        assert sorted(fault.place for fault in faults_of(text)) == sorted(["boat.rail.thickness", where])

    def test_a_missing_loom_is_told_with_the_rest(self):
        """An oar without a loom is a fault of its own, whatever else is wrong."""
        text = edited(PLAIN, ('part = "loom"', 'part = "tip"\nsize = "30 mm"'), (OVERLAP, OVERLAP + '\ngap = "50 mm"'))
        assert {"rig.gap", "oar.wood"} <= {fault.place for fault in faults_of(text)}


class TestContradictions:
    @pytest.mark.parametrize(
        ("old", "new", "where", "words"),
        [
            (RAIL, RAIL + '\nlock_above_water = "350 mm"', "rig.lock_above_water", ("350", "300", "agree")),
            (RAIL, RAIL + '\nlock_above_seat = "200 mm"', "rig.lock_above_seat", ("100", "77", "leave one")),
            ('seat_above_water = "77 mm"', 'seat_above_water = "377 mm"', "boat.seat_above_water", ("377", "lock")),
            ('seat_above_water = "77 mm"', 'seat_above_water = "300 mm"', "boat.seat_above_water", ("300", "lock")),
            (OVERLAP, OVERLAP + '\ngap = "50 mm"', "rig.gap", ("overlap", "gap", "leave one")),
            (LENGTH, LENGTH + "\nleverage_ratio = 2.6", "rig.leverage_ratio", ("leverage_ratio", "leave one")),
            ('edge_at_tip = "6 mm"', 'edge_at_tip = "12 mm"', "oar.blade.edge_at_tip", ("12", "11", "thicker")),
            ('edge_at_root = "9 mm"', 'edge_at_root = "32 mm"', "oar.blade.edge_at_root", ("32", "31.8", "thicker")),
            ('grip_centre = "60 mm"', 'grip_centre = "135 mm"', "oar.grip_centre", ("135", "130", "grip")),
            ('moisture = "12 %"', 'moisture = "12 %"\noar = "port"', "oar.wood", ("starboard", "loom")),
            ('moisture = "12 %"', 'moisture = "12 %"\nsize = "6 mm"', "oar.wood, entry 1, size", ("loom", "leave")),
            ('part = "loom"', 'part = "edge"\nsize = "6 mm"', "oar.wood", ("loom",)),
        ],
    )  # fmt: skip
    def test_entries_that_contradict_each_other_are_named_with_both_numbers(self, old, new, where, words):
        """Each is right on its own; together they cannot be, and the sentence says which to change."""
        fault = only_fault(edited(QUILLET, (old, new)))
        assert fault.place == where
        assert not [word for word in words if word not in fault.problem], fault.problem

    def test_an_overlap_longer_than_the_oar_is_refused_with_the_usual_range(self):
        """1.4 m of overlap with oars of 1.3 m is a slip, and the usual overlap is told."""
        fault = only_fault(edited(QUILLET, (OVERLAP, 'overlap = "1400 mm"'), (LENGTH, 'length = "1300 mm"')))
        assert fault.place == "rig.overlap"
        assert "longer than the oar" in fault.problem
        assert "180 mm" in fault.problem

    def test_an_overlap_of_metres_is_told_the_usual_range_too(self):
        """2.4 m of overlap with oars of 2.286 m: the sentence is the same however far it is off."""
        fault = only_fault(edited(QUILLET, (OVERLAP, 'overlap = "2.4 m"')))
        assert "longer than the oar" in fault.problem
        assert "180 mm" in fault.problem

    def test_a_seat_above_the_lock_is_blamed_on_the_entry_that_was_given(self):
        """Where the seat follows from lock_above_seat, that entry is named and not one that the file lacks."""
        text = edited(
            PLAIN, ('seat_above_water = "77 mm"\n', ""),
            ('lock_above_rail = "45 mm"', 'lock_above_rail = "45 mm"\nlock_above_seat = "0 mm"')
        )  # fmt: skip
        assert only_fault(text).place == "rig.lock_above_seat"

    def test_an_edge_strip_wider_than_half_the_blade_is_refused(self):
        """Two strips of 80 mm do not fit in a blade 130.2 mm wide."""
        assert only_fault(edited(QUILLET, ('size = "6 mm"', 'size = "80 mm"'))).place == "oar.wood, entry 2, size"


class TestWoods:
    @pytest.mark.parametrize(
        "wood", ["spruce, Sitka", "Sitka spruce", "SITKA SPRUCE", "Picea sitchensis", "Spruce,Sitka"]
    )
    def test_a_wood_is_found_under_the_names_people_use(self, wood):
        """Word order, case and the scientific name do not matter."""
        given = with_(GIVEN, wood, "oar", "wood", 0, "species")
        assert project_from_mapping(given, name="a").inputs.pieces[0].board.species.name == "Spruce, Sitka"

    @pytest.mark.parametrize(
        ("wood", "words"),
        [
            ("spruse, Sitka", ("no wood called 'spruse, Sitka'", "did you mean", "Spruce, Sitka")),
            ("Douglas fur, coast", ("did you mean", "Douglas-fir, coast")),
            ("ash, wite", ("did you mean", "Ash, white")),
            ("fir", ("may mean", "Fir, balsam", "Douglas-fir, coast", "write the one you have")),
            ("spruce", ("may mean", "Spruce, Sitka", "Spruce, red")), ("plywood", ("no wood called", "oarkit woods")),
            ("1234", ("no wood called", "oarkit woods")), ("Sitca", ("Spruce, Sitka",)),
            ("sproce", ("Spruce, Sitka",)),
        ],
    )  # fmt: skip
    def test_an_unknown_or_ambiguous_wood_is_refused_with_the_candidates(self, wood, words):
        """Near misses and all that a name may mean are listed; where nothing is near, where to look."""
        fault = only_fault(with_(GIVEN, wood, "oar", "wood", 1, "species"))
        assert fault.place == "oar.wood, entry 2, species"
        assert not [word for word in words if word not in fault.problem], fault.problem

    @pytest.mark.parametrize("wood", ["{x}", "pine tree {", "{0}", "}", "{}", "%s", "\\"])
    def test_brackets_in_the_name_of_a_wood_do_no_harm(self, wood):
        """Any text may stand where a wood should; it is refused like any other."""
        with pytest.raises(ProjectError) as caught:
            project_from_mapping(with_(GIVEN, wood, "oar", "wood", 0, "species"), name="a")
        assert f"'{wood}'" in str(caught.value)

    @pytest.mark.parametrize("path", [("boat", "rail", "species"), ("rig", "thole", "species")], ids=place)
    def test_the_wood_of_rail_and_thole_is_looked_up_too(self, path):
        """A wood that no table knows is refused wherever it stands."""
        fault = only_fault(with_(FULL, "unobtainium", *path))
        assert fault.place == place(path)
        assert "no wood called 'unobtainium'" in fault.problem

    @pytest.mark.parametrize("slope", ["1:4", "1:1", "15:1", "25 %", "1 in 4"])
    def test_steep_grain_is_refused_with_what_is_customary(self, slope):
        """Grain steeper than 1:5 makes no oar."""
        fault = only_fault(edited(QUILLET, ('grain_slope = "1:15"', f'grain_slope = "{slope}"')))
        assert fault.place == "oar.wood, entry 1, grain_slope"
        assert "1:5" in fault.problem
        assert "1:15" in fault.problem

    def test_grain_of_1_in_5_is_just_allowed(self):
        """The limit itself is the last row of the table of grain."""
        project_from_text(edited(QUILLET, ('grain_slope = "1:15"', 'grain_slope = "1:5"')), name="a")

    @pytest.mark.parametrize("slope", ["-5 %", "9" * 400 + ":" + "9" * 400], ids=["negative", "huge"])
    def test_a_slope_below_nought_or_beyond_measure_is_refused(self, slope):
        """Neither is a slope of grain, and neither may reach the strength of the wood."""
        assert (
            only_fault(with_(GIVEN, slope, "oar", "wood", 0, "grain_slope")).place == "oar.wood, entry 1, grain_slope"
        )


class TestValues:
    @pytest.mark.parametrize(
        ("path", "value"),
        [
            (("boat", "beam_at_station"), "863.6 m"), (("boat", "beam_at_station"), "34 mm"),
            (("rig", "length"), "2286 m"), (("rig", "length"), "228.6 mm"), (("rig", "length"), "-2286 mm"),
            (("rig", "gap"), "-50 mm"), (("boat", "mass"), "-45 kg"), (("rower", "mass"), "750 kg"),
            (("rower", "mass"), "0 kg"), (("rower", "stature"), "172.5 mm"), (("rower", "stature"), "17 ft"),
            (("rower", "thigh_thickness"), "16 mm"), (("rig", "wave_clearance"), "-1 mm"),
            (("rig", "round_length"), "0 in"), (("rig", "leverage_ratio"), 25), (("rig", "leverage_ratio"), math.nan),
            (("rig", "leverage_ratio"), math.inf), (("rig", "leverage_ratio"), -2.6), (("wanted", "safety"), 0),
            (("wanted", "safety"), -math.inf), (("wanted", "stiffness_index"), 5),
            (("wanted", "stiffness_index"), math.nan), (("oar", "wood", 0, "modulus"), "10.8 MPa"),
            (("oar", "wood", 0, "modulus"), "1570 psi"), (("oar", "wood", 0, "density"), "43 kg/m3"),
            (("oar", "wood", 0, "moisture"), "60 %"), (("oar", "wood", 0, "moisture"), "-1 %"),
            (("oar", "blade", "width"), "1302 mm"), (("oar", "loom", "at_lock"), "0 mm"),
            (("loads", "hard_start"), "0 N"), (("loads", "hard_start"), "1e9 N"), (("rig", "bracket", "bolts"), 0),
            (("rig", "bracket", "bolts"), math.nan), (("oar", "leather", "mass"), "5 kg"),
        ],
        ids=lambda value: place(value) if isinstance(value, tuple) else str(value)[:12],
    )  # fmt: skip
    def test_what_no_such_thing_has_is_refused_with_the_range(self, path, value):
        """Absurd, negative and infinite values are refused, and the believable range is told."""
        given = with_(with_(GIVEN, {}, "loads"), value, *path)
        given = without(given, "rig", "overlap") if "gap" in path else given
        given = without(given, "rig", "length") if "leverage_ratio" in path else given
        fault = only_fault(given)
        assert fault.place == place(path)
        told = r"[-−]?[\d.]+ (to|and) [\d.]+|beyond all measure|far too long"
        assert re.search(told, fault.problem), fault.problem
        assert len(fault.problem) < 300  # about four lines of a terminal

    @pytest.mark.parametrize("value", ["1e400 mm", "-1e999 m", "9" * 400 + " mm"], ids=["1e400", "-1e999", "digits"])
    def test_what_is_beyond_all_measure_is_refused_in_a_sentence(self, value):
        """An infinite length never reaches the range it lies out of."""
        fault = only_fault(with_(GIVEN, value, "rig", "length"))
        assert fault.place == "rig.length"
        assert len(fault.problem) < 300  # about four lines of a terminal

    @pytest.mark.parametrize("value", ["90 lb", "40 kg"])
    def test_a_mass_for_a_force_is_refused_with_the_unit_of_force(self, value):
        """A hard start in pounds means pounds-force."""
        fault = only_fault(with_(GIVEN, {"hard_start": value}, "loads"))
        assert value[3:] + "f" in fault.problem

    @pytest.mark.parametrize(
        "value", [2286, 2286.0, 0, -3, 10**400, 10**5000], ids=["whole", "point", "nought", "negative", "large", "huge"]
    )
    def test_a_bare_number_is_refused_with_its_unit_in_quotes(self, value):
        """No bare number is taken for millimetres or inches, be it ever so large."""
        fault = only_fault(with_(GIVEN, value, "rig", "length"))
        assert "with its unit, in quotes" in fault.problem
        assert len(fault.problem) < 300  # about four lines of a terminal

    @pytest.mark.parametrize(
        "path",
        [("rig", "leverage_ratio"), ("wanted", "safety"), ("wanted", "stiffness_index"), ("rig", "bracket", "bolts")],
        ids=place,
    )
    def test_a_pure_number_beyond_measure_is_refused(self, path):
        """A whole number too large for the machine is refused like any other that is out of range."""
        assert only_fault(with_(without(GIVEN, "rig", "length"), 10**400, *path)).place == place(path)

    def test_bolts_come_in_whole_numbers(self):
        """Nobody fits two and a half bolts, and the example in the sentence is one that could be fitted."""
        assert only_fault(with_(GIVEN, 2.5, "rig", "bracket", "bolts")).place == "rig.bracket.bolts"
        assert (
            "." not in re.findall(r"like ([\d.]+)", only_fault(with_(GIVEN, "2", "rig", "bracket", "bolts")).problem)[0]
        )

    def test_a_word_of_two_lines_does_not_break_the_message(self):
        """Each fault keeps to one line, whatever was written."""
        with pytest.raises(ProjectError) as caught:
            project_from_mapping(with_(GIVEN, "feathe\nring", "rig", "lock"), name="mine.toml")
        assert len(str(caught.value).splitlines()) == 2

    def test_a_title_holds_only_what_can_be_printed(self):
        """A path in double quotes hides a control sign; it is refused and not printed on a sheet."""
        assert only_fault(edited(PLAIN, ("Quillet, centre station", "C:\\boats"))).place == "title"

    def test_a_title_is_not_empty_and_fits_on_a_sheet(self):
        """Between one letter and 120."""
        assert "title" in only_fault(with_(GIVEN, "  ", "title")).problem
        assert "200" in only_fault(with_(GIVEN, "x" * 200, "title")).problem
        assert project_from_mapping(with_(GIVEN, "x" * 120, "title"), name="a").title == "x" * 120

    @pytest.mark.parametrize(
        ("path", "value", "choices"),
        [
            (("display",), "inch", ("mm", "ft-in")), (("rig", "lock"), "feather", ("feathering", "pinned")),
            (("rig", "upper_hand"), "port", ("left", "right")), (("boat", "water"), "brackish", ("fresh", "salt")),
            (("rower", "body"), "man", ("male", "female")),
            (("oar", "wood", 0, "part"), "Loom", ("loom", "edge", "tip")),
            (("oar", "wood", 2, "grain"), "cross", ("along", "across")),
            (("oar", "loom", "inboard_shape"), "oval", ("square", "round")),
            (("rig", "bracket", "bolt_axis"), "fore", ("athwart", "vertical")),
            (("oar", "wood", 0, "oar"), "left", ("port", "starboard")),
            (("rig", "lock"), "x" * 3000, ("feathering", "pinned")),
        ],
        ids=lambda value: place(value) if isinstance(value, tuple) and value[0] in GIVEN else str(value)[:12],
    )  # fmt: skip
    def test_a_word_that_is_no_choice_is_refused_with_the_choices(self, path, value, choices):
        """All that may stand there is listed."""
        fault = only_fault(with_(GIVEN, value, *path))
        assert fault.place == place(path)
        assert not [choice for choice in choices if f'"{choice}"' not in fault.problem]
        assert len(fault.problem) < 300  # about four lines of a terminal


PSI = 0.45359237 * 9.80665 / 0.0254**2  # [Pa], by definition of pound, gravity and inch
SITTING = ("inputs", "station")
POSTURE = ("inputs", "rower", "posture")
HELD = ("inputs", "fixtures")
#: A key, what is written there, where it comes out, and the number in SI, done by hand.
NEW_KEYS = [
    (("boat", "dock", "height"), "1 ft 2 in", (*HELD, "dock", "height"), 14 * 0.0254),
    (("boat", "dock", "fender"), "4 in", (*HELD, "dock", "fender"), 4 * 0.0254),
    (("boat", "dock", "flare_run"), "3 cm", (*HELD, "dock", "flare_run"), 0.03),
    (("boat", "heel_test", "mass"), "11 lb", (*HELD, "heel_test", "weight"), 11 * 0.45359237),
    (("boat", "heel_test", "off_centre"), "17 in", (*HELD, "heel_test", "offset"), 17 * 0.0254),
    (("boat", "heel_test", "angle"), "3 deg", (*HELD, "heel_test", "angle"), math.pi / 60),
    (("boat", "brace_from_seat_edge"), "2'-4\"", (*SITTING, "brace_from_seat_edge"), 28 * 0.0254),
    (("boat", "coaming_above_rail"), "3/4 in", (*SITTING, "coaming_above_rail"), 0.01905),
    (("rower", "knee_flexion"), "40 deg", (*POSTURE, "knee_flexion"), math.pi * 2 / 9),
    (("rower", "trunk_at_finish"), "-18 deg", (*POSTURE, "trunk_at_finish"), -math.pi / 10),
    (("rower", "reach_catch"), "480 mm", ("inputs", "rower", "reach_catch"), 0.480),
    (("rower", "reach_finish"), "-1 in", ("inputs", "rower", "reach_finish"), -0.0254),
    (("rig", "hands_ahead"), "5 in", (*SITTING, "hands_ahead"), 0.127),
    (("rig", "catch_limit"), "57.5°", (*SITTING, "catch_limit"), math.pi * 57.5 / 180),
    (("rig", "finish_limit"), "-0.5 rad", (*SITTING, "finish_limit"), -0.5),
    (("rig", "bracket", "washer_diameter"), "1 1/4 in", (*HELD, "bracket", "washer_diameter"), 0.03175),
    (("rig", "bracket", "root_width"), "40 mm", (*HELD, "bracket", "root_width"), 0.040),
    (("rig", "bracket", "root_thickness"), "1/4 in", (*HELD, "bracket", "root_thickness"), 0.00635),
    (("rig", "bracket", "root_strength"), "36 ksi", (*HELD, "bracket", "root_strength"), 36e3 * PSI),
    (("limits", "least_overlap"), "-2 in", ("inputs", "limits", "overlap", 0), -0.0508),
    (("limits", "most_overlap"), "7 in", ("inputs", "limits", "overlap", 1), 0.1778),
    (("limits", "least_leverage_ratio"), 2.25, ("inputs", "limits", "leverage_ratio", 0), 2.25),
    (("limits", "most_leverage_ratio"), 3, ("inputs", "limits", "leverage_ratio", 1), 3.0),
    (("limits", "least_hand_height"), "1 ft", ("inputs", "limits", "hand_height", 0), 0.3048),
    (("limits", "most_hand_height"), "390 mm", ("inputs", "limits", "hand_height", 1), 0.390),
    (("limits", "least_overhang"), "-25.4 mm", ("inputs", "limits", "lock_overhang", 0), -0.0254),
    (("limits", "most_overhang"), "4 in", ("inputs", "limits", "lock_overhang", 1), 0.1016),
    (("limits", "least_arc"), "72 deg", ("inputs", "limits", "least_arc"), math.pi * 0.4),
    (("limits", "most_dip"), "18 deg", ("inputs", "limits", "most_dip"), math.pi / 10),
]  # fmt: skip
#: A key and a value that no such thing has, one below its range and one above.
UNBELIEVABLE = [
    (("boat", "dock", "height"), "-10 mm", "3500 mm"), (("boat", "dock", "fender"), "-30 mm", "700 mm"),
    (("boat", "dock", "flare_run"), "-5 mm", "900 mm"), (("boat", "heel_test", "mass"), "0.1 kg", "120 kg"),
    (("boat", "heel_test", "off_centre"), "20 mm", "3 m"), (("boat", "heel_test", "angle"), "0 deg", "45 deg"),
    (("boat", "brace_from_seat_edge"), "70 mm", "7 m"), (("boat", "coaming_above_rail"), "-20 mm", "500 mm"),
    (("rower", "knee_flexion"), "-5 deg", "150 deg"), (("rower", "reach_catch"), "-600 mm", "4.8 m"),
    (("rower", "reach_finish"), "-2.7 m", "2.7 m"), (("rig", "hands_ahead"), "-10 mm", "1 m"),
    (("rig", "catch_limit"), "-95 deg", "600 deg"), (("rig", "finish_limit"), "-350 deg", "91 deg"),
    (("rig", "bracket", "washer_diameter"), "3 mm", "30 cm"), (("rig", "bracket", "root_width"), "1 mm", "1 m"),
    (("rig", "bracket", "root_thickness"), "0 mm", "150 mm"),
    (("rig", "bracket", "root_strength"), "0.25 MPa", "250000 MPa"),
    (("limits", "least_overlap"), "-4 m", "4 m"), (("limits", "most_overlap"), "-5 m", "5 m"),
    (("limits", "least_leverage_ratio"), 0.4, 23), (("limits", "most_leverage_ratio"), -2.8, 28),
    (("limits", "least_hand_height"), "-1 mm", "1 m"), (("limits", "most_hand_height"), "-30 mm", "990 mm"),
    (("limits", "least_overhang"), "-2 m", "1.5 m"), (("limits", "most_overhang"), "-1200 mm", "1200 mm"),
    (("limits", "least_arc"), "-10 deg", "200 deg"), (("limits", "most_dip"), "1 deg", "200 deg"),
    (("rower", "stature"), "600 mm", "2.6 m"),
]  # fmt: skip
#: Wishes without which each end of a range can be read: those that could contradict it.
FREE = without(without(with_(FULL, {}, "limits"), "rig", "overlap"), "rig", "length")


def inside_of(mapping, path):
    for part in path:
        mapping = mapping[part]
    return mapping


def inside(record, path):
    for part in path:
        record = record[part] if isinstance(part, int) else getattr(record, part)
    return record


class TestNewKeys:
    @pytest.mark.parametrize(("path", "written", "where", "si"), NEW_KEYS, ids=[place(row[0]) for row in NEW_KEYS])
    def test_a_key_comes_out_in_si(self, path, written, where, si):
        """Dock, heel test, brace, posture, limits and bracket: metres, kilograms, radians and pascals."""
        found = inside(project_from_mapping(with_(FREE, written, *path), name="a"), where)
        assert found == pytest.approx(si, rel=ROUNDING)

    @pytest.mark.parametrize(("path", "low", "high"), UNBELIEVABLE, ids=[place(row[0]) for row in UNBELIEVABLE])
    def test_what_no_such_thing_has_is_refused_with_a_range_that_holds(self, path, low, high):
        """Too little and too much are refused by name, and both ends of the range that is told are themselves taken."""
        for value in (low, high):
            fault = only_fault(with_(FREE, value, *path))
            assert fault.place == place(path)
            ends = re.search(r"(-?[\d.]+) to (-?[\d.]+)( [A-Za-z°]\S*)?", fault.problem)
            assert ends, fault.problem
            for end in ends.group(1, 2):
                number = float(end) if isinstance(value, int | float) else f"{end}{(ends[3] or '').rstrip(';,.')}"
                project_from_mapping(with_(FREE, number, *path), name="a")

    @pytest.mark.parametrize("path", [path for path, *_ in NEW_KEYS if "leverage_ratio" not in path[-1]], ids=place)
    @pytest.mark.parametrize("junk", [40, "40", "40 N", "", "none", "stock", True, [1], math.nan], ids=repr)
    def test_junk_is_refused_at_its_place(self, path, junk):
        """Bare numbers, other units, words, switches and lists are one fault at that key."""
        assert only_fault(with_(FREE, junk, *path)).place == place(path)

    def test_stock_lengths_are_six_to_ten_feet(self):
        """round_length = "stock" chooses among 6 to 10 ft by 6 in (common practice); the word is taken as it stands."""
        given = with_(without(GIVEN, "rig", "length"), "stock", "rig", "round_length")
        lengths = project_from_mapping(given, name="a").inputs.station.lengths
        assert lengths == pytest.approx([(6 + step / 2) * 0.3048 for step in range(9)], abs=1e-4)  # kept to 0.1 mm
        assert only_fault(with_(GIVEN, "Stock", "rig", "round_length")).place == "rig.round_length"
        made = design(project_from_mapping(given, name="a").inputs)
        assert min(abs(made.rig.length - length) for length in lengths) < ROUNDING

    def test_a_ratio_with_stock_lengths_takes_the_nearest(self):
        """628.65 mm of inboard at 2.55 makes 2231.7 mm: of 7 ft and 7 ft 6 in, 2133.6 and 2286 mm, the latter."""
        given = with_(
            with_(without(GIVEN, "rig", "length"), 2.55, "rig", "leverage_ratio"), "stock", "rig", "round_length"
        )
        made = design(project_from_mapping(given, name="a").inputs)
        assert made.rig.length == pytest.approx(2.286, abs=1e-4)
        shorter = with_(given, 2.40, "rig", "leverage_ratio")  # 2137.4 mm
        assert design(project_from_mapping(shorter, name="a").inputs).rig.length == pytest.approx(2.1336, abs=1e-4)
        longer = with_(given, 3.10, "rig", "leverage_ratio")  # 2577.5 mm, which nothing would choose of itself
        assert design(project_from_mapping(longer, name="a").inputs).rig.length == pytest.approx(2.5908, abs=1e-4)

    @pytest.mark.parametrize("name", ["overlap", "leverage_ratio", "hand_height", "overhang"])
    def test_a_least_over_a_most_is_told(self, name):
        """The two ends of one limit are named where they are crossed; equal ends are a limit too."""
        low, high = {"overlap": ("120 mm", "-60 mm"), "leverage_ratio": (2.7, 2.4), "hand_height": ("390 mm", "300 mm"),
                     "overhang": ("150 mm", "-20 mm")}[name]  # fmt: skip
        fault = only_fault(with_(GIVEN, {f"least_{name}": low, f"most_{name}": high}, "limits"))
        assert fault.place == f"limits.least_{name}"
        assert f"most_{name}" in fault.problem
        project_from_mapping(with_(GIVEN, {f"least_{name}": low, f"most_{name}": low}, "limits"), name="a")

    @pytest.mark.parametrize("limits", [
        {"least_overlap": "190 mm"}, {"most_overlap": "-80 mm"}, {"least_leverage_ratio": 2.9},
        {"most_leverage_ratio": 2.2}, {"least_overhang": "160 mm"}, {"most_overhang": "-10 mm"},
    ], ids=str)  # fmt: skip
    def test_one_end_beyond_custom_is_no_contradiction(self, limits):
        """Whoever asks for more than custom gives says nothing of the other end, which then must leave room."""
        found = project_from_mapping(with_(FREE, limits, "limits"), name="a").inputs.limits
        told = [end for pair in (found.overlap, found.leverage_ratio, found.lock_overhang) for end in pair]
        assert next(iter(limits.values())) in [f"{end * 1e3:.0f} mm" for end in told if end is not None] + told
        (low,), (high,) = overlap_range(span=[1.1], told=found.overlap)
        pairs = [(low, high), found.ends("leverage_ratio"), found.ends("lock_overhang")]
        assert [pair for pair in pairs if pair[0] > pair[1]] == []

    @pytest.mark.parametrize(("catch", "finish"), [("20 deg", "30 deg"), ("-10 deg", "-10 deg"), ("-30 deg", "40 deg")])
    def test_a_catch_limit_no_greater_than_the_finish_limit_is_told(self, catch, finish):
        """The sweep runs from the catch, positive, to the finish, negative."""
        fault = only_fault(with_(with_(GIVEN, catch, "rig", "catch_limit"), finish, "rig", "finish_limit"))
        assert fault.place == "rig.catch_limit"
        assert "finish_limit" in fault.problem

    @pytest.mark.parametrize(("catch", "finish"), [("300 mm", "-300 mm"), ("-200 mm", "100 mm"), ("1 ft", "-2 ft")])
    def test_a_reach_of_no_travel_is_told(self, catch, finish):
        """Hands that go no further aft than where they end make no stroke."""
        fault = only_fault(with_(with_(GIVEN, catch, "rower", "reach_catch"), finish, "rower", "reach_finish"))
        assert fault.place == "rower.reach_catch"
        assert "reach_finish" in fault.problem

    def test_contradictions_of_the_new_keys_have_their_lines(self):
        """In a file each contradiction is told on its own line, all in one go."""
        text = edited(
            PLAIN, ("[wanted]", '[limits]\nleast_overlap = "90 mm"\nmost_overlap = "80 mm"\n\n[wanted]'),
            ('upper_hand = "left"', 'upper_hand = "left"\nfinish_limit = "50 deg"\ncatch_limit = "40 deg"'),
            ('hand_length = "185 mm"', 'hand_length = "185 mm"\nreach_finish = "-500 mm"\nreach_catch = "450 mm"'),
        )  # fmt: skip
        told = [(fault.place, fault.line) for fault in faults_of(text)]
        assert told == [
            ("rower.reach_catch", line_with(text, "reach_catch")), ("rig.catch_limit", line_with(text, "catch_limit")),
            ("limits.least_overlap", line_with(text, "least_overlap")),
        ]  # fmt: skip

    @pytest.mark.parametrize("changes", [
        {("boat", "dock"): {"height": "0 mm"}},
        {("boat", "dock"): {"height": "3 m", "fender": "600 mm", "flare_run": "600 mm"}},
        {("boat", "heel_test"): {"mass": "100 kg", "off_centre": "2 m", "angle": "0.1 deg"}},
        {("boat", "heel_test"): {"mass": "0.5 kg", "off_centre": "50 mm", "angle": "30 deg"}},
        {("boat", "brace_from_seat_edge"): "100 mm"}, {("boat", "brace_from_seat_edge"): "1500 mm"},
        {("boat", "coaming_above_rail"): "300 mm"}, {("rower", "knee_flexion"): "0 deg"},
        {("rower", "knee_flexion"): "120 deg"}, {("rig", "hands_ahead"): "0 mm"}, {("rig", "hands_ahead"): "400 mm"},
        {("rig", "catch_limit"): "-90 deg"}, {("rig", "finish_limit"): "90 deg"},
        {("rig", "catch_limit"): "90 deg", ("rig", "finish_limit"): "-90 deg", ("rower", "reach_catch"): "2 m",
         ("rower", "reach_finish"): "2 m"},
        {("rower", "reach_catch"): "-200 mm"}, {("rower", "reach_finish"): "-400 mm"},
        {("rower", "reach_finish"): "-2 m"}, {("rig", "bracket", "washer_diameter"): "5 mm"},
        {("rig", "bracket", "washer_diameter"): "120 mm"},
        {("rig", "bracket", "root_width"): "3 mm", ("rig", "bracket", "root_thickness"): "1 mm"},
        {("rig", "bracket", "root_width"): "20 mm", ("rig", "bracket", "root_thickness"): "6 mm",
         ("rig", "bracket", "root_strength"): "5 MPa"},
        {("rig", "lock_overhang"): "0 mm"}, {("rig", "thole", "load_arm"): "0 mm"},
        {("limits",): {"least_overlap": "2.9 m", "most_overlap": "3 m"}},
        {("limits",): {"least_overlap": "-3 m", "most_overlap": "-2.9 m"}},
        {("limits",): {"least_leverage_ratio": 6.0}}, {("limits",): {"most_leverage_ratio": 1.0}},
        {("limits",): {"least_arc": "150 deg"}}, {("limits",): {"most_dip": "2 deg"}},
        {("limits",): {"least_hand_height": "900 mm"}}, {("limits",): {"most_hand_height": "0 mm"}},
        {("limits",): {"least_overhang": "-1 m", "most_overhang": "1 m"}, ("rig", "lock_overhang"): None},
        {("rig", "round_length"): "stock", ("rig", "leverage_ratio"): 6.0},
    ], ids=lambda changes: ", ".join(f"{path[-1]} {value}" for path, value in changes.items())[:60])  # fmt: skip
    @pytest.mark.parametrize("of", [FREE, FULL], ids=["free", "given"])
    def test_the_ends_of_the_ranges_give_a_sheet_or_a_sentence(self, of, changes):
        """Whatever may be written gives a sheet without a number that is none, or is refused in words."""
        given = of
        for path, value in changes.items():
            free = (
                given
                if path[-1] != "leverage_ratio" or "length" not in given["rig"]
                else without(given, "rig", "length")
            )
            if value is None:
                given = without(free, *path)
                continue
            for end in range(1, len(path)):
                if path[end - 1] not in inside_of(free, path[: end - 1]):
                    free = with_(free, {}, *path[:end])
            given = with_(free, value, *path)
        project = project_from_mapping(given, name="a")
        try:
            made = design(project.inputs)
        except BadDesign as error:
            said = filled(error.text, error.quantities, "mm")
            assert not re.search(r"[{}]|\bnan\b|\bNone\b|\binf\b|not known", said), said
            return
        page = sheet_html(project, made, unsized(made.oar), [])
        assert not re.findall(r".{30}\b(?:nan|None|inf)\b.{30}", page)
        json.loads(results_json(project, made), parse_constant=pytest.fail)


class TestWrongTypes:
    @pytest.mark.parametrize(
        "junk",
        ["3", "-0.5", "nan", "inf", "true", "false", "2024-05-17", "07:32:00", "2024-05-17T07:32:00Z", "[]", "[1, 2]",
         '["863.6 mm"]', "{}", "{ a = 1 }", "[{ a = 1 }]", '""', '" "', '"?"'],
    )  # fmt: skip
    @pytest.mark.parametrize("name", EXAMPLES)
    def test_junk_in_place_of_every_value_is_refused_in_words_at_its_line(self, name, junk):
        """Numbers, switches, dates, lists and tables where a size or a word belongs are all told, each on its line."""
        text = EXAMPLES[name]
        keys = list(keys_on_lines(text))
        faults = faults_of(replaced(text, [(value, junk) for _, _, value in keys]))
        told = sorted((fault.line, fault.place.split(".")[-1].split(", ")[-1]) for fault in faults)
        may_be = {"title", "bolts", "safety", "stiffness_index"}  # a number or a text may be right there
        wanted = sorted((line, text[start:stop]) for line, (start, stop), _ in keys if text[start:stop] not in may_be)
        assert [each for each in told if each[1] not in may_be] == wanted

    @pytest.mark.parametrize("junk", [3, 2.5, True, "863.6 mm", [], ["a"], [{}]], ids=repr)
    @pytest.mark.parametrize(
        "path",
        [("boat",), ("rower",), ("rig",), ("oar",), ("limits",), ("loads",), ("wanted",), ("boat", "rail"),
         ("boat", "dock"), ("boat", "heel_test"), ("rig", "bracket"), ("rig", "thole"), ("oar", "grip"),
         ("oar", "loom"), ("oar", "blade"), ("oar", "leather"), ("oar", "wood", 1)],
        ids=place,
    )  # fmt: skip
    def test_anything_else_where_a_table_belongs_is_refused(self, path, junk):
        """A table is wanted there, and that is what is said."""
        fault = only_fault(with_(FULL, junk, *path))
        assert fault.place == place(path)
        assert "table" in fault.problem

    @pytest.mark.parametrize("junk", [3, True, "loom", {"part": "loom"}], ids=repr)
    def test_anything_else_where_the_woods_belong_is_refused(self, junk):
        """The woods are a list of tables, each under its own heading."""
        fault = only_fault(with_(GIVEN, junk, "oar", "wood"))
        assert fault.place == "oar.wood"
        assert "[[oar.wood]]" in fault.problem

    def test_no_wood_at_all_is_refused(self):
        """An empty list has no loom."""
        fault = only_fault(with_(GIVEN, [], "oar", "wood"))
        assert fault.place == "oar.wood"
        assert "loom" in fault.problem

    def test_a_list_of_names_is_refused_entry_by_entry(self):
        """Names alone do not say what part they are."""
        assert [f.place for f in faults_of(with_(GIVEN, ["spruce", "ash"], "oar", "wood"))] == [
            "oar.wood, entry 1",
            "oar.wood, entry 2",
        ]

    def test_a_value_nested_far_too_deep_is_refused(self):
        """A key with a thousand dots is a fault like any other."""
        for key, entry in (("length", LENGTH), ("lock", 'lock = "feathering"'), ("upper_hand", 'upper_hand = "left"')):
            fault = only_fault(edited(PLAIN, (entry, f"{key}.{'a.' * 1500}b = 1")))
            assert fault.place == f"rig.{key}"
            assert len(fault.problem) < 300  # about four lines of a terminal


class TestBrokenToml:
    @pytest.mark.parametrize("commented", [True, False], ids=["with comments", "without"])
    @pytest.mark.parametrize(
        ("old", "new", "words"),
        [
            (LENGTH, 'length = "7\'-6""', ("inch mark",)),
            (LENGTH, 'length = "90 3/4""', ("inch mark",)),
            (LENGTH, "length = '7'-6\"'", ("foot mark", "double quotes")),
            (LENGTH, "length = '7'-6'", ("foot mark", "double quotes")),
            (LENGTH, "length = 2286 mm", ("in quotes",)),
            (LENGTH, "length = 7 ft 6 in", ("in quotes",)),
            (LENGTH, "length = 7'-6\"", ("in quotes",)),
            (LENGTH, 'length = "2286 mm', ("closing quote",)),
            (LENGTH, 'length = 2286 mm"', ("opening quote",)),
            (LENGTH, "length = “2286 mm”", ("curly quotes",)),
            (LENGTH, "length = 2286,5", ("comma", "in quotes")),
            (LENGTH, LENGTH + '\nlength = "2300 mm"', ("second time",)),
            (LENGTH, LENGTH + '\nlength = "7 ft"', ("second time",)),
            ("[wanted]", "[rig]\n[wanted]", ("second time",)),
            ("[wanted]", '[boat.rail]\ndepth = "38 mm"\n[wanted]', ("second time",)),
            ('thickness = "19 mm", depth', 'thickness = "19 mm", thickness = "20 mm", depth', ("second time",)),
            ("[wanted]", "[wanted", ("bracket",)),
            ("[wanted]", "[what I want]", ("heading",)),
            ('washer_diameter = "30 mm" }', 'washer_diameter = "30 mm"', ("bracket",)),
            ('rail = { thickness = "19 mm", depth', 'rail = { thickness = "19 mm",\n depth', ("one line",)),
            ('washer_diameter = "30 mm" }', 'washer_diameter = "30 mm", }', ("comma",)),
            ('thickness = "19 mm", depth', 'thickness = "19 mm" depth', ("comma",)),
            (LENGTH, 'length = ["2286 mm"', ("bracket",)),
            (LENGTH, 'length: "2286 mm"', ("equals sign",)),
            (LENGTH, 'length "2286 mm"', ("equals sign",)),
            (LENGTH, 'oar length = "2286 mm"', ("spaces",)),
            (LENGTH, "length =", ("value",)),
            (LENGTH, "The oars are to be long.", ("comment", "#")),
            (LENGTH, LENGTH + " // my old oars", ("comment", "#")),
            ('lock = "feathering"', "lock = feathering", ("in quotes",)),
            (LENGTH, "length = True", ("value",)),
            (LENGTH, 'length = "7\\ 6"', ("backslash",)),
            (LENGTH, "length = '2286 mm", ("closing quote",)),
            (LENGTH, LENGTH + ";", ("semicolon",)),
            (LENGTH, 'length == "2286 mm"', ("equals sign",)),
            ('thickness = "19 mm", depth', 'thickness = "19 mm"; depth', ("comma",)),
            ('thickness = "19 mm", depth', 'thickness: "19 mm", depth', ("equals sign",)),
            ('[[oar.wood]]\npart = "edge"', '[[oar.wood]\npart = "edge"', ("bracket",)),
            ('[[oar.wood]]\npart = "edge"', '[oar.wood]\npart = "edge"', ("[[oar.wood]]", "two brackets")),
            ('[[oar.wood]]\npart = "loom"', '[oar.wood]\npart = "loom"', ("[[oar.wood]]", "two brackets")),
            ("Quillet, centre station", "C:\\Users\\me", ("backslash",)),
        ],
    )  # fmt: skip
    def test_a_text_that_is_not_toml_is_told_in_the_builders_words(self, old, new, words, commented):
        """The slip is named and its line shown, whether or not a comment stands behind it."""
        text = QUILLET if commented else PLAIN
        fault = only_fault(edited(text, (old, new)))
        assert not [word for word in words if word not in fault.problem], fault.problem
        first = text[: text.index(old, text.index("\ntitle"))].count("\n") + 1
        last = first + new.count("\n") + (1 if new.endswith('["2286 mm"') else 0)  # an open list is missed a line later
        assert first <= int(re.findall(r"line (\d+)", str(fault))[0]) <= last

    @pytest.mark.parametrize(
        ("old", "new"),
        [(LENGTH, LENGTH + '\nlength = "2300 mm"'), (LENGTH, "length ="),
         ('washer_diameter = "30 mm" }', 'washer_diameter = "30 mm"'),
         ('thickness = "19 mm", depth', 'thickness = "19 mm" depth'),
         ('thickness = "19 mm", depth', 'thickness = 19 mm, depth')],
    )  # fmt: skip
    def test_no_slip_is_blamed_on_an_inch_mark_that_is_not_there(self, old, new):
        """A hint that speaks of the wrong thing is worse than none."""
        assert "inch mark" not in only_fault(edited(QUILLET, (old, new))).problem

    def test_a_duplicate_is_not_blamed_on_its_quotes(self):
        """The second length is written quite rightly; it is only the second."""
        assert "in quotes" not in only_fault(edited(QUILLET, (LENGTH, LENGTH + '\nlength = "2300 mm"'))).problem

    def test_the_line_that_is_shown_is_the_line_that_is_wrong(self):
        """The text of the line is shown without its comment, and odd signs further up do not shift it."""
        text = edited(QUILLET, ("Quillet, centre", "Quillet,\u2028centre"), (LENGTH, "length = 2286 mm"))
        problem = only_fault(text).problem
        assert "length = 2286 mm" in problem
        assert "leave both out" not in problem

    @pytest.mark.parametrize("opener", ["[", "{ a = ", "[[", "[{ a = "])
    def test_deep_nesting_is_refused_in_words(self, opener):
        """Ten thousand open brackets neither crash nor hang."""
        assert "bracket" in only_fault(edited(PLAIN, (LENGTH, "length = " + opener * 10_000))).problem

    @pytest.mark.parametrize(
        "number", ["9" * 5000, "0x" + "f" * 5000, "-" + "9" * 4400], ids=["decimal", "hex", "negative"]
    )
    def test_a_number_of_thousands_of_digits_is_refused_in_words(self, number):
        """No number is too long to be refused."""
        fault = only_fault(edited(PLAIN, (LENGTH, f"length = {number}")))
        assert len(fault.problem) < 300  # about four lines of a terminal

    def test_an_open_quote_at_the_end_is_told(self):
        """A triple quote that never closes reaches the end of the file."""
        problem = only_fault(edited(PLAIN, ('title = "Quillet, centre station"', 'title = """Quillet'))).problem
        assert "quote" in problem

    @pytest.mark.parametrize("sign", ["\x00", "\x0c", "\x1b"])
    @pytest.mark.parametrize("written", ['length = "22{}86 mm"', 'length = "2286 mm"{}', '{}length = "2286 mm"'])
    def test_a_sign_that_cannot_be_seen_is_told(self, written, sign):
        """A control sign cannot be seen in an editor, so the sentence must say that it is there."""
        assert "cannot be seen" in only_fault(edited(PLAIN, (LENGTH, written.replace("{}", sign)))).problem

    def test_old_line_ends_are_told(self):
        """A file with carriage returns only is one long line to TOML; the sentence speaks of line ends."""
        assert "line ends" in only_fault(PLAIN.replace("\n", "\r")).problem


class TestFiles:
    def test_a_missing_file_is_told_with_where_to_get_one(self, tmp_path):
        """Nothing there: the example is offered."""
        with pytest.raises(ProjectError, match=r"there is no file .*none\.toml; `oarkit example DIR` writes one"):
            read_project(tmp_path / "none.toml")

    def test_a_folder_is_told_to_be_one(self, tmp_path):
        """A folder holds project files but is none."""
        with pytest.raises(ProjectError, match=r"is a folder; name the project file in it"):
            read_project(tmp_path)

    def test_a_file_that_is_not_utf8_is_told_with_its_line(self, tmp_path):
        """An accent saved the old way is found on its line."""
        path = tmp_path / "old.toml"
        path.write_bytes(PLAIN.replace("Quillet", "Courlis ailé").encode("latin-1"))
        with pytest.raises(ProjectError) as caught:
            read_project(path)
        assert f"line {line_with(PLAIN, 'title')} is not UTF-8" in str(caught.value)
        assert "save the file as UTF-8" in str(caught.value)

    @pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le"])
    def test_a_file_of_two_byte_letters_is_told(self, encoding, tmp_path):
        """UTF-16, as some editors save, is refused in words with or without its mark."""
        path = tmp_path / "wide.toml"
        path.write_bytes(PLAIN.encode(encoding))
        with pytest.raises(ProjectError) as caught:
            read_project(path)
        assert "UTF-8" in str(caught.value)

    def test_an_enormous_file_is_refused_without_reading_it(self, tmp_path):
        """64 MB of nothing take no memory to refuse."""
        path = tmp_path / "huge.toml"
        with path.open("wb") as file:
            file.truncate(64_000_000)
        tracemalloc.start()
        try:
            with pytest.raises(ProjectError, match=r"64000000 bytes|64 MB"):
                read_project(path)
            peak = tracemalloc.get_traced_memory()[1]
        finally:
            tracemalloc.stop()
        assert peak < 8_000_000  # the limit is a million bytes; eight leave room for the machinery

    def test_a_file_just_small_enough_is_read(self, tmp_path):
        """A million bytes are the limit, comments and all."""
        path = tmp_path / "long.toml"
        path.write_text(PLAIN + "#" * (1_000_000 - len(PLAIN)), encoding="utf-8")
        assert read_project(path).title == "Quillet, centre station"
        path.write_text(PLAIN + "#" * (1_000_001 - len(PLAIN)), encoding="utf-8")
        with pytest.raises(ProjectError, match="far more than a project file"):
            read_project(path)

    @pytest.mark.skipif(not hasattr(os, "geteuid"), reason="permissions are told apart otherwise on this system")
    def test_a_file_without_permission_is_told(self):
        """A file that may not be read is refused with the reason the system gives."""
        with tempfile.TemporaryDirectory() as folder:
            Path(folder).chmod(0o755)
            path = Path(folder) / "secret.toml"
            path.write_text(PLAIN, encoding="utf-8")
            path.chmod(0)
            was = os.geteuid()
            if was == 0:
                os.seteuid(65534)
            try:
                with pytest.raises(ProjectError, match=r"cannot be read: Permission denied"):
                    read_project(path)
            finally:
                os.seteuid(was)

    def test_an_empty_name_and_a_broken_link_are_told(self, tmp_path):
        """Nothing to read is a fault, not a crash."""
        with pytest.raises(ProjectError, match="is a folder"):
            read_project("")
        link = tmp_path / "link.toml"
        link.symlink_to(tmp_path / "gone.toml")
        with pytest.raises(ProjectError, match="there is no file"):
            read_project(link)

    def test_a_name_that_no_file_can_have_is_told(self):
        """Overlong names and names with a nought byte are faults, not crashes."""
        for name in ("x" * 5000, "a\0b"):
            with pytest.raises(ProjectError):
                read_project(name)

    def test_the_message_begins_with_the_name_of_the_file(self, tmp_path):
        """The builder with ten files sees which one it is."""
        path = tmp_path / "Anna's skiff.toml"
        path.write_text("", encoding="utf-8")
        with pytest.raises(ProjectError, match=r"^Anna's skiff\.toml has "):
            read_project(path)
