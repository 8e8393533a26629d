"""The oar of a project file: woods, stations, hole, loads, limits, and an oar read without boat or rower."""

import re
import tomllib
from copy import deepcopy

import pytest

from oarkit import BadDesign
from oarkit.design import station
from oarkit.design.whole import oar_inputs
from oarkit.oar.build import Piece, build_oar
from oarkit.oar.mass import mass
from oarkit.oar.measured import MeasuredShape, MeasuredSizes
from oarkit.oar.shape import OarShape
from oarkit.project import (
    ProjectError,
    example_project,
    oar_from_mapping,
    oar_from_text,
    project_from_mapping,
    project_from_text,
    read_oar,
)
from oarkit.strength.advice import oar_findings, pair_findings, scaled
from oarkit.strength.hard_start import checks
from oarkit.strength.sizing import LoomLimits
from oarkit.tables import data_folder
from oarkit.units import filled
from oarkit.wood.board import wood_of_board

TEXTS = {name: (data_folder() / f"{name}.toml").read_text(encoding="utf-8")
         for name in ("quillet", "tumblehod", "measured")}  # fmt: skip
QUILLET, TUMBLEHOD, MEASURED = (tomllib.loads(TEXTS[name]) for name in ("quillet", "tumblehod", "measured"))
EXACT = 1e-12  # [SI] and relative: rounding of doubles only
NOT_IN_WORDS = ("pydantic", "Traceback", "None", "Error", "extra_forbidden", "<class", "{", "}", "True", "False", "nan")

# An oar by itself: 2.2 m long, pin at 0.6 m, a loom of 46 mm and 48 mm inboard, blade root at 1.7 m.
ALONE = {
    "oar": {
        "length": "2200 mm",
        "inboard": "600 mm",
        "grip": {"diameter": "33 mm", "length": "120 mm"},
        "loom": {"at_lock": "46 mm", "inboard": "48 mm", "inboard_shape": "square", "neck_thickness": "32 mm",
                 "neck_width": "27 mm"},
        "blade": {"length": "500 mm", "width": "130 mm", "tip_thickness": "11 mm", "edge_at_root": "9 mm",
                  "edge_at_tip": "6 mm"},
        "wood": [{"part": "loom", "species": "spruce, Sitka"}],
    }
}  # fmt: skip


def with_(mapping, value, *path):
    """A copy of nested tables with one entry set, tables on the way made, or taken out where the value is None."""
    copy = deepcopy(mapping)
    table = copy
    for part in path[:-1]:
        table = table[part] if isinstance(part, int) else table.setdefault(part, {})
    if value is None:
        del table[path[-1]]
    else:
        table[path[-1]] = value
    return copy


def wooded(mapping, *woods):
    """The same with more pieces of ash laid over what is there."""
    copy = deepcopy(mapping)
    copy["oar"]["wood"] += [{"species": "ash, white", **wood} for wood in woods]
    return copy


def faults_of(given, read=oar_from_mapping):
    """The faults, none of which speaks of the program's insides."""
    with pytest.raises(ProjectError) as caught:
        read(given, name="mine.toml")
    said = "\n".join(map(str, caught.value.faults))
    assert not [word for word in NOT_IN_WORDS if word in said], said
    return caught.value.faults


def only_fault(given, read=oar_from_mapping):
    """The one fault that there is."""
    faults = faults_of(given, read)
    assert len(faults) == 1, [str(fault) for fault in faults]
    return faults[0]


def built(inputs):
    """The oar of inputs, its boards turned into woods."""
    pieces = [
        Piece(kind=p.kind, wood=wood_of_board(p.board, grain_table=inputs.grain_table), size=p.size, start=p.start,
              stop=p.stop, at=p.at)
        for p in inputs.pieces
    ]  # fmt: skip
    return build_oar(inputs.shape, pieces, inputs.leather)


def line_with(text, part):
    """Number of the one line that holds a part."""
    found = [number for number, line in enumerate(text.split("\n"), 1) if part in line]
    assert len(found) == 1, f"{part} stands on lines {found}"
    return found[0]


LAYERS = (
    {"part": "strip", "size": "14 mm"},
    {"part": "strip", "size": "10 mm", "at": "12 mm", "to": "1.6 m"},
    {"part": "strip", "size": "3/8 in", "at": "-12 mm", "from": "200 mm"},
    {"part": "cheek", "size": "3 mm", "from": "450 mm", "to": "800 mm"},
    {"part": "face", "size": "1.5 mm"},
    {"part": "edge", "size": "6 mm", "oar": "port"},
    {"part": "tip", "size": "20 mm", "grain": "across"},
    {"part": "spline", "size": "5 mm", "from": "1.9 m"},
)


class TestWoods:
    @pytest.mark.parametrize("base", [ALONE, QUILLET], ids=["alone", "whole"])
    def test_every_part_comes_out_in_si(self, base):
        """All seven parts, each with its own size and place."""
        read = oar_from_mapping if base is ALONE else project_from_mapping
        given = wooded(with_(base, [{"part": "loom", "species": "Sitka spruce"}], "oar", "wood"), *LAYERS)
        made = read(given, name="a")
        pieces = made.oar_inputs.pieces if base is ALONE else made.inputs.pieces
        told = [(p.kind, p.size, p.at, p.start, p.stop, p.side) for p in pieces]
        approx = [None if n is None else pytest.approx(n, abs=EXACT) for row in [
            (None, 0.0, None, None), (0.014, 0.0, None, None), (0.010, 0.012, None, 1.6),
            (0.009525, -0.012, 0.2, None), (0.003, 0.0, 0.45, 0.8), (0.0015, 0.0, None, None), (0.006, 0.0, None, None),
            (0.020, 0.0, None, None), (0.005, 0.0, 1.9, None),
        ] for n in row]  # fmt: skip
        assert [n for row in told for n in row[1:5]] == approx
        assert [row[0] for row in told] == ["loom", *(piece["part"] for piece in LAYERS)]
        assert [row[5] for row in told] == [None] * 6 + ["port", None, None]

    def test_a_layered_oar_is_built(self):
        """What was read without a fault finds its room in the oar."""
        pieces = [{key: value for key, value in piece.items() if key != "oar"} for piece in LAYERS]
        spruce = mass(built(oar_from_mapping(ALONE, name="a").oar_inputs))
        assert mass(built(oar_from_mapping(wooded(ALONE, *pieces), name="a").oar_inputs)) > spruce  # ash is heavier

    @pytest.mark.parametrize("part", ["strip", "cheek", "face", "edge", "tip", "spline"])
    def test_a_part_without_its_size_is_told_what_its_size_is(self, part):
        """Every part but the loom has a size, and each means another."""
        ends = {"from": "500 mm", "to": "700 mm"} if part == "cheek" else {}
        fault = only_fault(wooded(ALONE, {"part": part, **ends}))
        assert fault.place == "oar.wood, entry 2, size"
        assert re.search(rf'the {part} needs its size: how (thick|wide|long) .*size = "\d+ mm"', fault.problem)

    @pytest.mark.parametrize("part", ["loom", "cheek", "face", "edge", "tip", "spline"])
    def test_only_a_strip_has_a_height(self, part):
        """Other parts follow the outline, wherever it goes."""
        more = {} if part == "loom" else {"size": "2 mm"}
        more |= {"from": "500 mm", "to": "700 mm"} if part == "cheek" else {}
        fault = only_fault(wooded(ALONE, {"part": part, "at": "3 mm", **more}))
        assert fault.place == "oar.wood, entry 2, at"
        assert "strip" in fault.problem
        assert part in fault.problem

    @pytest.mark.parametrize(("ends", "lacking"), [({}, ["from", "to"]), ({"from": "500 mm"}, ["to"]),
                                                   ({"to": "700 mm"}, ["from"])])  # fmt: skip
    def test_a_cheek_says_where_it_begins_and_ends(self, ends, lacking):
        """Cheeks lie beside the loom at the lock or elsewhere, and no custom says how far."""
        faults = faults_of(wooded(ALONE, {"part": "cheek", "size": "3 mm", **ends}))
        assert [fault.place for fault in faults] == [f"oar.wood, entry 2, {key}" for key in lacking]
        assert all("along the oar" in fault.problem for fault in faults)

    @pytest.mark.parametrize(("wood", "key", "words"), [
        # half of the 48 mm inboard is 24 mm: 20 + 12/2 = 26 mm
        ({"part": "strip", "size": "12 mm", "at": "20 mm"}, "at", ("sticks out", "26.0 mm", "24.0 mm")),
        ({"part": "strip", "size": "12 mm", "at": "-20 mm"}, "at", ("sticks out", "26.0 mm", "24.0 mm")),
        # from the end of the leather on the loom is no thicker than the 46 mm of the lock: 18 + 12/2 = 24 over 23 mm
        ({"part": "strip", "size": "12 mm", "at": "18 mm", "from": "600 mm"}, "at", ("24.0 mm", "23.0 mm")),
        ({"part": "strip", "size": "50 mm"}, "size", ("50.0 mm", "thicker", "48.0 mm")),
        ({"part": "cheek", "size": "23 mm", "from": "600 mm", "to": "700 mm"}, "size", ("half", "loom", "46.0 mm")),
        ({"part": "edge", "size": "65 mm"}, "size", ("half", "blade", "130.0 mm")),
        ({"part": "face", "size": "6 mm"}, "size", ("half", "thickness", "11.0 mm")),
        ({"part": "spline", "size": "130 mm"}, "size", ("wider", "blade", "130.0 mm")),
        ({"part": "tip", "size": "510 mm"}, "size", ("510.0 mm", "500.0 mm", "blade")),
    ], ids=lambda value: " ".join(map(str, value.values())) if isinstance(value, dict) else None)  # fmt: skip
    def test_a_piece_that_sticks_out_of_the_outline_is_told_with_the_room_there_is(self, wood, key, words):
        """Thickness, width or length of the piece against those of the oar where it lies."""
        fault = only_fault(wooded(ALONE, wood))
        assert fault.place == f"oar.wood, entry 2, {key}"
        assert not [word for word in words if word not in fault.problem], fault.problem

    @pytest.mark.parametrize("wood", [
        {"part": "strip", "size": "12 mm", "at": "18 mm"}, {"part": "strip", "size": "47 mm"},
        {"part": "edge", "size": "64 mm"}, {"part": "face", "size": "5.4 mm"}, {"part": "spline", "size": "129 mm"},
        {"part": "cheek", "size": "22.9 mm", "from": "600 mm", "to": "700 mm"}, {"part": "tip", "size": "500 mm"},
        {"part": "strip", "size": "8 mm", "to": "2200 mm"},
    ], ids=lambda wood: " ".join(wood.values()))  # fmt: skip
    def test_a_piece_that_just_fits_is_taken(self, wood):
        """The outermost that the outline has room for is no fault, and is built."""
        assert built(oar_from_mapping(wooded(ALONE, wood), name="a").oar_inputs)

    def test_room_is_looked_for_where_the_length_is_still_open(self):
        """Sections do not depend on the length that is yet to be chosen."""
        given = with_(with_(QUILLET, None, "rig", "length"), None, "rig", "overlap")
        fault = only_fault(wooded(given, {"part": "strip", "size": "12 mm", "at": "20 mm"}), project_from_mapping)
        assert fault.place == "oar.wood, entry 4, at"
        project_from_mapping(wooded(given, {"part": "strip", "size": "9 mm", "from": "3 m", "to": "4 m"}), name="a")

    @pytest.mark.parametrize(("wood", "key", "words"), [
        ({"part": "strip", "size": "9 mm", "from": "1.5 m", "to": "1.2 m"}, "to", ("1500.0 mm", "1200.0 mm", "before")),
        ({"part": "strip", "size": "9 mm", "from": "1.5 m", "to": "1.5 m"}, "to", ("before",)),
        ({"part": "strip", "size": "9 mm", "to": "2.3 m"}, "to", ("2300.0 mm", "2200.0 mm", "beyond")),
        ({"part": "strip", "size": "9 mm", "from": "2.2 m"}, "from", ("2200.0 mm", "beyond")),
        ({"part": "edge", "size": "9 mm", "to": "1.7 m"}, "to", ("1700.0 mm", "stretch")),  # the blade root
    ], ids=lambda value: " ".join(value.values()) if isinstance(value, dict) else None)  # fmt: skip
    def test_a_piece_that_lies_nowhere_is_told(self, wood, key, words):
        """It ends before it begins, or beyond the tip."""
        fault = only_fault(wooded(ALONE, wood))
        assert fault.place == f"oar.wood, entry 2, {key}"
        assert not [word for word in words if word not in fault.problem], fault.problem

    @pytest.mark.parametrize(("other", "overlaps"), [
        ({"at": "9 mm"}, True), ({"at": "10 mm"}, False), ({"at": "-9.5 mm"}, True), ({"at": "-10 mm"}, False),
        ({"at": "9 mm", "from": "1.2 m"}, False), ({"at": "9 mm", "from": "1199 mm"}, True),
        ({"at": "9 mm", "oar": "starboard"}, False), ({"at": "9 mm", "oar": "port"}, True), ({}, True),
    ], ids=str)  # fmt: skip
    def test_strips_in_one_another_are_told_by_both_their_numbers(self, other, overlaps):
        """A strip of 10 mm in the middle, up to 1.2 m, of the port oar; the other of 10 mm touches it at 10 mm."""
        strips = ({"part": "strip", "size": "10 mm", "to": "1.2 m", "oar": "port"},
                  {"part": "strip", "size": "10 mm", **other})  # fmt: skip
        given = wooded(ALONE, *strips)
        if not overlaps:
            oar_from_mapping(given, name="a")
            return
        fault = only_fault(given)
        assert fault.place == "oar.wood, entry 3, at"
        assert "entry 2" in fault.problem
        assert "−5.0 mm to 5.0 mm" in fault.problem

    def test_other_pieces_may_lie_over_one_another(self):
        """A later entry lies over an earlier one: edges over faces, a strip under cheeks."""
        oar_from_mapping(wooded(ALONE, *LAYERS[4:6], *LAYERS[2:4]), name="a")

    @pytest.mark.parametrize("moisture", ["31 %", "45 %", "60 %"])
    def test_moisture_above_saturation_is_told_for_what_it_is(self, moisture):
        """Fibres hold 30 %, Wood Handbook ch. 4."""
        fault = only_fault(with_(ALONE, moisture, "oar", "wood", 0, "moisture"))
        assert fault.place == "oar.wood, entry 1, moisture"
        assert "above 30 %" in fault.problem
        oar_from_mapping(with_(ALONE, "30 %", "oar", "wood", 0, "moisture"), name="a")

    def test_grain_steeper_than_1_in_5_is_told(self):
        """The table of slopes ends there."""
        assert "1:5" in only_fault(with_(ALONE, "1:4.9", "oar", "wood", 0, "grain_slope")).problem

    @pytest.mark.parametrize(("path", "value"), [
        (("oar", "wood", 1, "size"), "0 mm"), (("oar", "wood", 1, "size"), "-6 mm"),
        (("oar", "wood", 1, "size"), "2 m"),
        (("oar", "wood", 1, "at"), "61 mm"), (("oar", "wood", 1, "from"), "-1 mm"), (("oar", "wood", 1, "to"), "7 m"),
        (("oar", "wood", 1, "part"), "laminate"), (("oar", "wood", 1, "at"), 3), (("oar", "wood", 1, "at"), "3 kg"),
        (("oar", "loom", "neck_width"), "0 mm"), (("oar", "blade", "tip_thickness"), "-11 mm"),
        (("oar", "length"), "22 m"), (("oar", "length"), "-2200 mm"), (("oar", "inboard"), "6 mm"),
        (("oar", "inboard"), "0 mm"), (("oar", "hole"), {"diameter": "0 mm", "along": "vertical"}),
    ], ids=str)  # fmt: skip
    def test_nought_negative_and_absurd_sizes_are_refused(self, path, value):
        """Nothing is built with a size that no such thing has."""
        given = with_(wooded(ALONE, {"part": "strip", "size": "8 mm"}), value, *path)
        assert only_fault(given).place.startswith(
            "oar.hole" if "hole" in path else "oar.wood, entry 2" if "wood" in path else ".".join(path)
        )

    @pytest.mark.parametrize(("path", "value", "words"), [
        (("oar", "blade", "tip_thickness"), "33 mm", ("33.0 mm", "32.0 mm", "neck")),
        (("oar", "blade", "edge_at_root"), "33 mm", ("33.0 mm", "32.0 mm", "neck")),
        (("oar", "blade", "edge_at_tip"), "12 mm", ("12.0 mm", "11.0 mm", "tip")),
        (("oar", "loom", "neck_width"), "119 mm", ("119.0 mm", "118.0 mm", "blade")),
        (("oar", "grip_centre"), "130 mm", ("130.0 mm", "120.0 mm", "grip")),
        (("oar", "leather"), {"length": "90 mm"}, ("lock",)),
        (("oar", "inboard"), "1710 mm", ("1710.0 mm", "1700.0 mm", "blade")),
        (("oar", "inboard"), "120 mm", ("120.0 mm", "grip")),
    ], ids=str)  # fmt: skip
    def test_reversed_sizes_are_told_with_both_numbers(self, path, value, words):
        """A tip thicker than the neck, edges thicker than the middle, a pin line on the blade."""
        given = with_(ALONE, "118 mm", "oar", "blade", "width") if path[-1] == "neck_width" else ALONE
        fault = only_fault(with_(given, value, *path))
        assert fault.place.startswith(".".join(path))
        assert not [word for word in words if word not in fault.problem], fault.problem


class TestStations:
    def test_the_example_comes_out_in_si(self):
        """First and last rows, a square with its corners, the blade's edge, as they stand in the file."""
        shape = read_oar(data_folder() / "measured.toml").oar_inputs.shape
        assert isinstance(shape, MeasuredShape)
        rows = shape.stations
        assert [row.form for row in rows] == ["round"] * 2 + ["square"] * 2 + ["round"] * 3 + ["ellipse"] * 3 + [
            "blade"
        ] * 5
        assert (rows[0].s, rows[0].thickness, rows[0].width, rows[0].edge) == (0.0, pytest.approx(0.033), None, None)
        assert (rows[2].thickness, rows[2].corner) == pytest.approx((0.047, 0.005), abs=EXACT)
        last = rows[-1]
        assert (last.s, last.thickness, last.width, last.edge) == pytest.approx((2.29, 0.0115, 0.128, 0.006), abs=EXACT)
        assert (shape.inboard, shape.leather_start, shape.blade_length) == pytest.approx((0.64, 0.53, 0.59), abs=EXACT)

    def test_the_example_is_built_and_weighs_what_such_an_oar_weighs(self):
        """A cylinder of the mean section, in the head.

        1.7 m of loom of about 40 mm across are 2.1 l, 0.59 m of blade of about 120 by 13 mm 0.9 l: 3.0 l of 420 kg/m3
        are 1.3 kg, and the leather 0.06 kg.
        """
        made = built(read_oar(data_folder() / "measured.toml").oar_inputs)
        assert float(mass(made)) == pytest.approx(1.35, rel=0.15)  # sizes read off by eye

    def test_a_whole_project_may_hold_a_measured_oar(self):
        """The table stands in for grip, loom and blade; without rig.length it tells the length too."""
        given = with_(with_(QUILLET, MEASURED["oar"]["station"], "oar", "station"), None, "rig", "length")
        for name in ("grip", "loom", "blade"):
            given = with_(given, None, "oar", name)
        inputs = project_from_mapping(given, name="a").inputs
        assert isinstance(inputs.sizes, MeasuredSizes)
        assert inputs.station.length == pytest.approx(2.29, abs=EXACT)
        assert (inputs.sizes.grip_diameter, inputs.sizes.blade_width) == pytest.approx((0.033, 0.131), abs=EXACT)

    def test_rows_under_their_own_headings_are_the_same(self):
        """[[oar.station]] and a list of rows mean one thing."""
        text = TEXTS["measured"]
        head, rest = text.split("station = [\n")
        rows, tail = rest.split("]\n", 1)
        blocks = [row.strip(" {},\n").replace(", ", "\n") for row in rows.splitlines()]
        headed = head + "".join(f"[[oar.station]]\n{block}\n" for block in blocks) + tail
        again = oar_from_text(headed, name="a").oar_inputs
        assert again.shape == oar_from_text(text, name="a").oar_inputs.shape

    @pytest.mark.parametrize(("key", "value"), [
        ("grip", ALONE["oar"]["grip"]), ("loom", ALONE["oar"]["loom"]), ("blade", {"tip_thickness": "11 mm"}),
        ("blade", {"edge_at_root": "9 mm"}), ("blade", {"edge_at_tip": "6 mm"}),
    ], ids=str)  # fmt: skip
    def test_sizes_beside_a_table_are_refused(self, key, value):
        """Two ways to say one thing are one too many."""
        fault = only_fault(with_(MEASURED, value, "oar", key))
        assert fault.place == (f"oar.blade.{next(iter(value))}" if key == "blade" else f"oar.{key}")
        assert "stations" in fault.problem
        assert "leave this out" in fault.problem

    @pytest.mark.parametrize(("key", "near", "far"), [("length", "591.9 mm", "593 mm"),
                                                      ("length", "588.1 mm", "587 mm"), ("width", "129.1 mm", "128 mm"),
                                                      ("width", "132.9 mm", "134 mm")])  # fmt: skip
    def test_a_blade_that_disagrees_with_the_table_is_told(self, key, near, far):
        """The blade is 590 mm long and 131 mm wide in the table; 2 mm are let pass."""
        oar_from_mapping(with_(MEASURED, near, "oar", "blade", key), name="a")
        fault = only_fault(with_(MEASURED, far, "oar", "blade", key))
        assert fault.place == f"oar.blade.{key}"
        assert ("590.0 mm" if key == "length" else "131.0 mm") in fault.problem

    @pytest.mark.parametrize(("row", "changes", "place", "words"), [
        (7, {"width": None}, ", entry 8", ("ellipse", "needs its width", "1150.0 mm")),
        (12, {"width": None}, ", entry 13", ("blade", "needs its width")),
        (12, {"edge": None}, ", entry 13", ("needs the thickness of its edge",)),
        (12, {"edge": "20 mm"}, ", entry 13", ("20.0 mm", "19.5 mm", "thicker than its centre")),
        (5, {"edge": "8 mm"}, ", entry 6", ("not of the blade", "no edge")),
        (5, {"corner": "4 mm"}, ", entry 6", ("not square",)),
        (2, {"corner": "24 mm"}, ", entry 3", ("corners", "24.0 mm", "half its side")),
        (5, {"width": "41 mm"}, ", entry 6", ("not round; call it an ellipse",)),
        (4, {"s": "440 mm"}, ", entry 5", ("440.0 mm", "behind station 4")),
        (0, {"s": "5 mm"}, ", entry 1", ("5.0 mm", "handle end")),
        (13, {"shape": "ellipse", "edge": None}, ", entry 15", ("last two stations",)),
        (1, {"s": "0 mm"}, "", ("cannot jump at an end",)),
    ], ids=str)  # fmt: skip
    def test_a_faulty_table_is_told_with_the_number_of_its_row(self, row, changes, place, words):
        """What no oar can be drawn through is named by row, and every fault but one's own is absent."""
        given = MEASURED
        for key, value in changes.items():
            given = with_(given, value, "oar", "station", row, key)
        fault = only_fault(given)
        assert fault.place == f"oar.station{place}"
        assert not [word for word in words if word not in fault.problem], fault.problem

    def test_faults_of_several_rows_are_told_in_one_go_each_on_its_line(self):
        """Four rows, four sentences; a row in a list of rows has its own line."""
        text = TEXTS["measured"]
        for old, new in (
            ('thickness = "40 mm", width = "37.5 mm"', 'thickness = "40 mm"'), ('edge = "9.5 mm"', 'edge = "29.5 mm"'),
            ('s = "640 mm", thickness = "45 mm"', 's = "640 mm", thickness = "45 mm", width = "41 mm"'),
            ('s = "780 mm", thickness = "44.5 mm"', 's = "780 mm", thickness = "44.5 mm", corner = "2 mm"'),
        ):  # fmt: skip
            assert text.count(old) == 1
            text = text.replace(old, new)
        faults = faults_of(text, oar_from_text)
        assert [fault.place for fault in faults] == [f"oar.station, entry {row}" for row in (6, 7, 8, 12)]
        rows = ('{ s = "640 mm"', '{ s = "780 mm"', '{ s = "1150 mm"', '{ s = "1800 mm"')
        assert [fault.line for fault in faults] == [line_with(text, row) for row in rows]

    @pytest.mark.parametrize(("value", "place"), [
        ([], "oar.station"), ([{"s": "0 mm", "thickness": "33 mm", "shape": "round"}], "oar.station"),
        ("table.csv", "oar.station"), ([3], "oar.station, entry 1"), ({"s": "0 mm"}, "oar.station"),
    ], ids=str)  # fmt: skip
    def test_what_is_no_table_is_refused(self, value, place):
        """Nothing, one row, a name, a number, one row without its list."""
        given = with_(with_(MEASURED, value, "oar", "station"), None, "oar", "blade")
        assert only_fault(given).place == place

    @pytest.mark.parametrize(("key", "value"), [
        ("s", "7 m"), ("s", 640), ("thickness", "0 mm"), ("thickness", "45 kg"), ("width", "-40 mm"), ("shape", "oval"),
        ("edge", "90 mm"), ("corner", "-1 mm"), ("form", "round"),
    ])  # fmt: skip
    def test_what_no_row_holds_is_refused_at_its_place(self, key, value):
        """One entry of one row, and the rest of the table is not blamed for it."""
        fault = only_fault(with_(MEASURED, value, "oar", "station", 5, key))
        assert fault.place == f"oar.station, entry 6, {key}"

    @pytest.mark.parametrize("key", ["s", "thickness", "shape"])
    def test_what_every_row_needs_is_asked_for(self, key):
        """Place, thickness and form."""
        fault = only_fault(with_(MEASURED, None, "oar", "station", 5, key))
        assert fault.place == f"oar.station, entry 6, {key}"
        assert f"{key} = " in fault.problem

    def test_an_unread_leather_is_one_fault(self):
        """The table is not blamed for what stands elsewhere."""
        assert only_fault(with_(MEASURED, "1250 mm", "oar", "leather", "length")).place == "oar.leather.length"
        assert only_fault(with_(MEASURED, "60", "oar", "grip_centre")).place == "oar.grip_centre"

    def test_lengths_that_disagree_with_the_table_are_told(self):
        """The tip stands at 2290 mm; two millimetres are let pass."""
        oar_from_mapping(with_(MEASURED, "2291.9 mm", "oar", "length"), name="a")
        fault = only_fault(with_(MEASURED, "2293 mm", "oar", "length"))
        assert fault.place == "oar.station, entry 15, s"
        assert "2293.0 mm" in fault.problem
        assert "2290.0 mm" in fault.problem

    @pytest.mark.parametrize(("path", "value", "place"), [
        (("oar", "inboard"), "1750 mm", "oar.inboard"), (("oar", "grip_centre"), "150 mm", None),
        (("oar", "leather", "length"), "100 mm", "oar.leather.length"),
        (("oar", "leather", "length"), "800 mm", None),
        (("oar", "leather"), {"length": "300 mm", "inboard_of_pins": "400 mm"}, "oar.leather.length"),
    ], ids=str)  # fmt: skip
    def test_a_lock_or_leather_that_has_no_place_on_the_oar_is_told(self, path, value, place):
        """The pin on the blade, and a leather that ends before the pins."""
        given = with_(MEASURED, value, *path)
        if place is None:
            oar_from_mapping(given, name="a")
        else:
            assert place in [fault.place for fault in faults_of(given)]


class TestLengthAndInboard:
    def test_an_oar_needs_no_boat(self):
        """Length and inboard as told, the outline drawn on them, the title the file's name, nothing known of a crew."""
        made = oar_from_mapping(ALONE, name="mine.toml")
        shape = made.oar_inputs.shape
        assert isinstance(shape, OarShape)
        assert (shape.length, shape.inboard, shape.blade_root) == pytest.approx((2.2, 0.6, 1.7), abs=EXACT)
        assert (made.title, made.display) == ("mine", "mm")
        crew = made.oar_inputs.crew
        assert (crew.boat_mass, crew.boat_length, crew.rower_mass, crew.span, crew.thole_diameter) == (None,) * 5
        assert (crew.water_density, crew.lock) == (1000.0, "feathering")
        assert built(made.oar_inputs)

    @pytest.mark.parametrize("name", ["quillet", "tumblehod"])
    def test_a_whole_project_has_the_same_oar_by_itself(self, name):
        """What its rig fixes fixes the oar, to the last record."""
        inputs = example_project(name).inputs
        made = read_oar(data_folder() / f"{name}.toml").oar_inputs
        assert made == oar_inputs(inputs, station.rig_of(inputs))

    @pytest.mark.parametrize("left_out", [("length",), ("overlap",), ("lock_overhang", "length"), ("length", "ratio")])
    def test_what_a_whole_project_leaves_open_is_chosen(self, left_out):
        """As the sheet chooses it."""
        given = QUILLET
        for key in left_out:
            given = with_(given, 2.7, "rig", "leverage_ratio") if key == "ratio" else with_(given, None, "rig", key)
        inputs = project_from_mapping(given, name="a").inputs
        settled = station.settled(inputs, station.choice_of(inputs))
        rig = station.rig_of(settled)
        shape = oar_from_mapping(given, name="a").oar_inputs.shape
        assert (shape.length, shape.inboard) == (rig.length, rig.inboard)

    def test_a_part_of_a_rig_is_enough_where_it_fixes_both(self):
        """Beam 1.2 m, no overhang, overlap 0.1 m: inboard 0.65 m; mass and length of the boat and the rower as told."""
        given = with_(with_(ALONE, None, "oar", "length"), None, "oar", "inboard")
        given |= {
            "boat": {"beam_at_station": "1200 mm", "mass": "50 kg", "water": "salt"}, "rower": {"mass": "70 kg"},
            "rig": {"lock_overhang": "0 mm", "overlap": "100 mm", "length": "2100 mm", "lock": "pinned",
                    "thole": {"diameter": "16 mm"}},
        }  # fmt: skip
        inputs = oar_from_mapping(given, name="a").oar_inputs
        assert (inputs.shape.length, inputs.shape.inboard) == pytest.approx((2.1, 0.65), abs=EXACT)
        crew = inputs.crew
        assert (crew.boat_mass, crew.rower_mass, crew.span) == pytest.approx((50.0, 70.0, 1.2), abs=EXACT)
        assert (crew.thole_diameter, crew.water_density, crew.lock) == (0.016, 1025.0, "pinned")

    def test_length_and_inboard_are_asked_for_where_nothing_tells_them(self):
        """Both in one go, with what the rig lacks."""
        given = with_(with_(ALONE, None, "oar", "length"), None, "oar", "inboard")
        faults = faults_of({**given, "boat": {"beam_at_station": "1200 mm"}})
        assert [fault.place for fault in faults] == ["oar.length", "oar.inboard"]
        assert 'length = "' in faults[0].problem
        assert "rig.lock_overhang and rig.overlap" in faults[1].problem
        assert "beam" not in faults[1].problem

    def test_a_slip_in_the_rig_is_one_fault(self):
        """An overlap that cannot be read is blamed, and the inboard it would have told is not asked for."""
        given = {**with_(ALONE, None, "oar", "inboard"), "rig": {"overlap": 100, "lock_overhang": "0 mm"}}
        assert only_fault(given).place == "rig.overlap"
        beam = {**given, "boat": {"beam_at_station": "1200"}, "rig": {"overlap": "100 mm", "lock_overhang": "0 mm"}}
        assert only_fault(beam).place == "boat.beam_at_station"
        tip = with_(with_(MEASURED, "2290", "oar", "station", 14, "s"), None, "oar", "length")
        assert only_fault(tip).place == "oar.station, entry 15, s"

    def test_a_slip_in_the_woods_of_a_whole_project_is_one_fault(self):
        """The length that would have been chosen is not asked for meanwhile."""
        given = with_(with_(QUILLET, None, "rig", "length"), None, "oar", "wood", 1, "size")
        assert only_fault(given).place == "oar.wood, entry 2, size"

    @pytest.mark.parametrize(("key", "same", "other", "words"), [
        ("length", "2286.5 mm", "2288 mm", ("2288.0 mm", "2286.0 mm")),
        ("inboard", "629 mm", "630 mm", ("630.0 mm", "628.")),  # 628.65 mm, half of 1104.9 and 152.4
    ])  # fmt: skip
    @pytest.mark.parametrize("read", [project_from_mapping, oar_from_mapping])
    def test_what_the_rig_tells_too_must_agree(self, key, same, other, words, read):
        """Quillet's length and inboard under [oar] as well, and otherwise."""
        read(with_(QUILLET, same, "oar", key), name="a")
        fault = only_fault(with_(QUILLET, other, "oar", key), read)
        assert fault.place == f"oar.{key}"
        assert not [word for word in words if word not in fault.problem], fault.problem

    def test_length_and_inboard_of_the_oar_fill_what_the_rig_leaves_open(self):
        """650 mm of inboard on a span of 1104.9 mm overlap by 195.1 mm."""
        given = with_(with_(QUILLET, None, "rig", "length"), None, "rig", "overlap")
        given = with_(with_(given, "2300 mm", "oar", "length"), "650 mm", "oar", "inboard")
        told = project_from_mapping(given, name="a").inputs.station
        assert (told.length, told.overlap) == pytest.approx((2.3, 0.1951), abs=EXACT)

    @pytest.mark.parametrize(("changes", "place"), [
        ({("rig", "length"): None, ("rig", "leverage_ratio"): 2.6, ("oar", "length"): "2300 mm"}, "rig.leverage_ratio"),
        ({("rig", "lock_overhang"): None, ("oar", "inboard"): "630 mm"}, "oar.inboard"),
    ], ids=str)  # fmt: skip
    def test_what_would_be_told_twice_over_is_refused(self, changes, place):
        """A ratio beside a length, and an inboard beside an overhang that is to be chosen."""
        given = QUILLET
        for path, value in changes.items():
            given = with_(given, value, *path)
        assert only_fault(given, project_from_mapping).place == place

    def test_the_whole_reading_stays_as_strict(self):
        """A sheet needs title, boat, rower and rig, whatever the oar tells."""
        faults = faults_of(ALONE, project_from_mapping)
        assert {"title", "boat", "rower", "rig"} <= {fault.place for fault in faults}
        assert all("is missing" in fault.problem for fault in faults if fault.place != "rig.lock_above_water")

    @pytest.mark.parametrize("junk", [3, "boat", [], {"bean": "1 m"}, {"mass": 45}, {"mass": "45 mm"}], ids=str)
    def test_junk_in_a_table_that_could_be_left_out_is_told(self, junk):
        """What is there is looked at."""
        assert only_fault({**ALONE, "boat": junk}).place.startswith("boat")

    def test_sizes_that_are_missing_are_asked_for_in_one_go(self):
        """An [oar] with its woods alone."""
        faults = faults_of({"oar": {"wood": ALONE["oar"]["wood"]}})
        assert {f.place for f in faults} == {"oar.grip", "oar.loom", "oar.blade", "oar.length", "oar.inboard"}
        assert faults_of({"title": "No oar"})[0].place == "oar"


HOLE = {"diameter": "8 mm", "along": "vertical"}


class TestHole:
    @pytest.mark.parametrize(("along", "core"), [("vertical", "neutral axis"), ("fore-and-aft", "bending direction")])
    def test_a_hole_comes_out_as_the_core_has_it(self, along, core):
        """Bending in a stroke is fore and aft; a vertical hole runs along the neutral axis."""
        given = with_(ALONE, {"diameter": "5/16 in", "along": along, "bush": "12 mm"}, "oar", "hole")
        hole = oar_from_mapping(given, name="a").oar_inputs.hole
        assert (hole.diameter, hole.bush) == pytest.approx((5 / 16 * 0.0254, 0.012), abs=EXACT)
        assert hole.along == core
        whole = project_from_mapping(with_(QUILLET, HOLE, "oar", "hole"), name="a").inputs.hole
        assert (whole.diameter, whole.bush) == (0.008, None)
        assert example_project().inputs.hole is None

    @pytest.mark.parametrize(("hole", "place", "words"), [
        ({**HOLE, "bush": "8 mm"}, "oar.hole.bush", ("8.0 mm", "wall")),
        ({**HOLE, "bush": "7 mm"}, "oar.hole.bush", ("7.0 mm", "8.0 mm")),
        ({**HOLE, "diameter": "46 mm"}, "oar.hole.diameter", ("46.0 mm", "loom")),
        ({**HOLE, "diameter": "60 mm"}, "oar.hole.diameter", ("60.0 mm", "46.0 mm")),
        ({**HOLE, "bush": "47 mm"}, "oar.hole.bush", ("47.0 mm", "46.0 mm")),
        ({"diameter": "8 mm"}, "oar.hole.along", ("is missing", "vertical")),
        ({"along": "vertical"}, "oar.hole.diameter", ("is missing", "8 mm")),
        ({**HOLE, "along": "athwart"}, "oar.hole.along", ("fore-and-aft",)),
        ({**HOLE, "depth": "20 mm"}, "oar.hole.depth", ("known here",)),
    ], ids=str)  # fmt: skip
    def test_a_hole_that_cannot_be_is_told(self, hole, place, words):
        """As big as the loom of 46 mm, a bush without a wall, or half told."""
        fault = only_fault(with_(ALONE, hole, "oar", "hole"))
        assert fault.place == place
        assert not [word for word in words if word not in fault.problem], fault.problem

    def test_a_hole_is_held_against_the_loom_as_measured_at_the_pin(self):
        """45 mm at 640 mm from the handle end."""
        fault = only_fault(with_(MEASURED, {**HOLE, "diameter": "45 mm"}, "oar", "hole"))
        assert fault.place == "oar.hole.diameter"
        oar_from_mapping(with_(MEASURED, {**HOLE, "diameter": "44 mm"}, "oar", "hole"), name="a")


LBF = 0.45359237 * 9.80665  # N; international pound of 1959, standard gravity
LOADS = [
    ("hard_start", "90 lbf", "hard_start", 90 * LBF), ("cruise", "140 N", "cruise", 140.0),
    ("proof_share", 1.3, "proof_share", 1.3), ("crab_speed", "4 kn", "crab_speed", 4 * 1852 / 3600),
    ("steer_speed", "2.2 m/s", "steer_speed", 2.2), ("pry", "250 N", "pry", 250.0),
    ("step", "90 kg", "step_weight", 90 * 9.80665), ("step_gap", "3 ft", "step_gap", 0.9144),
    ("push_off", "0.4 kN", "push_off", 400.0), ("push_off_sideways", "0 N", "push_sideways", 0.0),
    ("tip_corner", "160 N", "tip_corner", 160.0), ("drag", "70 N", "drag", 70.0),
]  # fmt: skip


class TestLoadsAndWishes:
    @pytest.mark.parametrize(("key", "written", "name", "si"), LOADS, ids=[row[0] for row in LOADS])
    def test_a_load_comes_out_in_si_and_the_others_are_left_to_custom(self, key, written, name, si):
        """Alone and in a whole project; who steps on an oar presses with his weight."""
        alone = oar_from_mapping(with_(ALONE, written, "loads", key), name="a").oar_inputs.loads
        whole = project_from_mapping(with_(QUILLET, written, "loads", key), name="a").inputs.loads
        assert alone == whole
        assert getattr(alone, name) == pytest.approx(si, rel=EXACT)
        assert [n for n in type(alone).__slots__ if getattr(alone, n) is not None] == [name]

    @pytest.mark.parametrize(("key", "value"), [
        *((key, junk) for key, *_ in LOADS for junk in ("80", True, [1], "-1 N", "-1 m/s")),
        ("cruise", "0 N"), ("proof_share", 0.9), ("proof_share", 2.1), ("proof_share", "125 %"),
        ("crab_speed", "0 m/s"), ("steer_speed", "20 m/s"), ("push_off_sideways", "2 kN"), ("step", "400 N"),
        ("step_gap", "50 mm"), ("drag", "9 kN"), ("tip_corner", "20 kg"),
    ], ids=str)  # fmt: skip
    def test_what_no_load_is_is_refused_at_its_place(self, key, value):
        """Bare, negative, of another kind or beyond belief."""
        assert only_fault(with_(ALONE, value, "loads", key)).place == f"loads.{key}"

    @pytest.mark.parametrize(("wanted", "limits"), [
        ({"step": "1/32 in"}, {"step": 0.0254 / 32}), ({"step": "0.5 mm"}, {"step": 0.0005}),
        ({"least_lock": "40 mm"}, {"least_lock": 0.040}), ({"most_lock": "52 mm"}, {"most_lock": 0.052}),
        ({"least_neck_thickness": "28 mm"}, {"least_neck_thickness": 0.028}),
        ({"least_neck_width": "25 mm"}, {"least_neck_width": 0.025}),
        ({"stock_thickness": "45 mm"}, {"stock": 0.045, "most_lock": 0.060}),
        ({"stock_thickness": "2 in", "most_lock": "48 mm"}, {"most_lock": 0.048, "stock": 0.0508}),
        ({"stock_thickness": "45 mm", "most_lock": "48 mm"}, {"most_lock": 0.048, "stock": 0.045}),
        ({"stock_thickness": "100 mm"}, {"stock": 0.100, "most_lock": 0.100}),
        ({"least_lock": "65 mm"}, {"least_lock": 0.065, "most_lock": 0.065}),  # custom's most, 60 mm, gives way
        ({"most_lock": "30 mm"}, {"least_lock": 0.030, "most_lock": 0.030}),  # and so does its least, 34 mm
    ], ids=str)  # fmt: skip
    def test_limits_of_the_loom_come_out_in_si(self, wanted, limits):
        """What was told, and custom for the rest."""
        made = oar_from_mapping(with_(ALONE, wanted, "wanted"), name="a").oar_inputs.loom_limits
        for name in LoomLimits.__slots__:
            assert getattr(made, name) == pytest.approx(limits.get(name, getattr(LoomLimits(), name)), abs=EXACT), name
        assert project_from_mapping(with_(QUILLET, wanted, "wanted"), name="a").inputs.loom_limits == made

    def test_nothing_told_is_nothing_known(self):
        """Index, safety and limits of an oar by itself."""
        inputs = oar_from_mapping(ALONE, name="a").oar_inputs
        assert (inputs.loom_limits, inputs.wanted_index, inputs.wanted_safety, inputs.hole) == (None, None, 1.5, None)
        told = oar_from_mapping(with_(ALONE, {"stiffness_index": 0.06, "safety": 2}, "wanted"), name="a").oar_inputs
        assert (told.wanted_index, told.wanted_safety, told.loom_limits) == (0.06, 2.0, None)

    @pytest.mark.parametrize(("wanted", "place", "words"), [
        ({"least_lock": "50 mm", "most_lock": "45 mm"}, "least_lock", ("most_lock",)),
        ({"least_lock": "50 mm", "stock_thickness": "45 mm"}, "least_lock", ("50.0 mm", "45.0 mm", "stock_thickness")),
        ({"least_neck_thickness": "30 mm", "stock_thickness": "1 in"}, "least_neck_thickness", ("30.0 mm", "25.4 mm")),
        ({"least_neck_width": "30 mm", "stock_thickness": "1 in"}, "least_neck_width", ("30.0 mm", "25.4 mm")),
        ({"step": "0 mm"}, "step", ("0.1 to 10",)), ({"step": "none"}, "step", ("none",)),
        ({"most_lock": 50}, "most_lock", ("unit",)),
    ], ids=str)  # fmt: skip
    def test_limits_that_leave_no_room_are_told(self, wanted, place, words):
        """The least over the most, or over what the stock gives."""
        fault = only_fault(with_(ALONE, wanted, "wanted"))
        assert fault.place == f"wanted.{place}"
        assert not [word for word in words if word not in fault.problem], fault.problem

    @pytest.mark.parametrize(("name", "density"), [("quillet", 1000.0), ("tumblehod", 1025.0)])
    def test_the_water_has_its_density(self, name, density):
        """Fresh and salt, common practice."""
        assert example_project(name).inputs.water_density == density
        assert read_oar(data_folder() / f"{name}.toml").oar_inputs.crew.water_density == density

    def test_fatigue_tests_travel_with_the_oar(self):
        """The handbook's table is not empty and is the same either way."""
        table = example_project().inputs.fatigue_table
        assert table
        assert table == oar_from_mapping(ALONE, name="a").oar_inputs.fatigue_table


class TestAllInOneGo:
    MANY = """
[oar]
length = "2200 mm"
inboard = "600 mm"
grip = { diameter = "33 mm", length = "120 mm" }
loom = { at_lock = "46 mm", neck_thickness = "32 mm", neck_width = "27 mm" }
blade = { length = "500 mm", width = "130 mm", tip_thickness = "11 mm", edge_at_root = "9 mm", edge_at_tip = "16 mm" }
hole = { diameter = "48 mm", along = "vertical" }
[[oar.wood]]
part = "loom"
species = "spruce, Sitka"
moisture = "34 %"
[[oar.wood]]
part = "strip"
species = "ash, white"
size = "12 mm"
[[oar.wood]]
part = "strip"
species = "ash, white"
size = "12 mm"
at = "5 mm"
[[oar.wood]]
part = "cheek"
species = "ash, white"
from = "900 mm"
to = "800 mm"
[[oar.wood]]
part = "strip"
species = "ash, white"
size = "6 mm"
at = "26 mm"
to = "2.1 m"
[[oar.wood]]
part = "edge"
species = "ash, white"
size = "6 mm"
grain_slope = "1:4"
at = "1 mm"
to = "2.4 m"
[loads]
pry = "30 kg"
[wanted]
most_lock = "40 mm"
least_lock = "44 mm"
"""

    def test_faults_of_the_oar_are_told_together_in_the_order_of_the_file(self):
        """Twelve mistakes of every kind, one message; what is wrong in one entry hides nothing in another."""
        faults = faults_of(self.MANY, oar_from_text)
        assert [fault.place for fault in faults] == [
            "oar.blade.edge_at_tip", "oar.hole.diameter", "oar.wood, entry 1, moisture", "oar.wood, entry 3, at",
            "oar.wood, entry 4, size", "oar.wood, entry 4, to", "oar.wood, entry 5, at",
            "oar.wood, entry 6, grain_slope", "oar.wood, entry 6, at", "oar.wood, entry 6, to", "loads.pry",
            "wanted.least_lock",
        ]  # fmt: skip
        assert [fault.line for fault in faults] == sorted(fault.line for fault in faults)
        lines = self.MANY.split("\n")
        assert all(fault.place.split(", ")[-1].split(".")[-1] in lines[fault.line - 1] for fault in faults
                   if fault.place != "oar.wood, entry 4, size")  # fmt: skip

    def test_comments_of_the_examples_hold_what_can_be_read(self):
        """Every key that stands in a comment of an example is read where the comment is taken off."""
        for name in TEXTS:
            read = oar_from_text if name == "measured" else project_from_text
            text, *tables = TEXTS[name].split("\n# [")
            rest = "".join(re.sub(r"\A.*?^(?!#)", "\n", f"# [{table}", flags=re.S | re.M) for table in tables)
            for line in text.split("\n"):
                shown = re.match(r"# ([a-z_]+) = (\"[^\"]*\"|\{.*\}|[\d.]+)\s*(#.*)?$", line)
                if shown and not re.search(rf"^{shown[1]} =", text, re.M):
                    read(text.replace(line, line[2:]) + rest, name="a")

    def test_loads_and_limits_in_the_comments_of_quillet_are_customary(self):
        """With the comments taken off, they are read, and give what would be taken without them."""
        head, rest = TEXTS["quillet"].split("# [loads]\n")
        loads, wanted = rest.split("\n[wanted]")
        told = re.sub(r"^# ([a-z_]+ = )", r"\1", f"[loads]\n{loads}\n[wanted]{wanted}", flags=re.M)
        inputs = project_from_text(head + told, name="a").inputs
        assert (inputs.loads.hard_start, inputs.loads.cruise, inputs.loads.proof_share) == (400.0, 150.0, 1.25)
        limits = inputs.loom_limits
        assert (limits.step, limits.least_lock, limits.stock) == pytest.approx((0.0005, 0.034, 0.050), abs=EXACT)

    def test_the_loads_in_the_comments_of_the_measured_example_are_customary(self):
        """With the comment taken off, every load is read, those told in passing apart."""
        head, loads = TEXTS["measured"].split("# [loads]\n")
        told = oar_from_text(f"{head}[loads]\n" + re.sub(r"^# ", "", loads, flags=re.M), name="a").oar_inputs.loads
        assert (told.hard_start, told.push_off, told.pry, told.steer_speed) == (400.0, 350.0, 300.0, 2.5)
        assert told.step_weight == pytest.approx(80 * 9.80665)


class TestAdviceOnAnOarThatStands:
    """An oar measured from life cannot be thickened, and no other sizes are offered for it."""

    OAR = built(read_oar(data_folder() / "measured.toml").oar_inputs)

    def told(self, *, index, force=400.0, safety=1.5):
        """Texts of the findings by their codes."""
        made = checks(self.OAR, force=force, wanted=safety)
        found = oar_findings(self.OAR, made=made, force=force, wanted_index=index, wanted_safety=safety)
        said = {finding.code: filled(finding.text, finding.quantities, "mm") for finding in found}
        assert not [text for text in said.values() if "scaled" in text or re.search(r"[{}]|nan|None", text)]
        return said

    def test_too_limber_it_cannot_be_mended(self):
        """An index of 0.005 is stiffer than any oar of wood."""
        assert "cannot be thickened" in self.told(index=0.005)["feel"]
        assert "planing" not in self.told(index=0.005)["feel"]

    def test_too_stiff_it_may_be_planed(self):
        """An index of 0.3 is a fishing rod's."""
        assert "planing" in self.told(index=0.3)["feel"]
        assert "thickened" not in self.told(index=0.3)["feel"]

    def test_too_weak_it_is_to_be_spared(self):
        """Five times the customary hard start, with ten times the strength wanted."""
        assert "cannot be thickened" in self.told(index=None, force=2000.0, safety=10.0)["strength"]

    def test_without_a_wish_nothing_is_offered(self):
        """The feel is named, and that is all."""
        assert "stands" not in self.told(index=None)["feel"]

    def test_a_pair_is_matched_by_planing_a_little_at_a_time(self):
        """One oar of a stiffer board: 14 GPa against 9 GPa."""
        pair = [
            built(oar_from_mapping(with_(MEASURED, modulus, "oar", "wood", 0, "modulus"), name="a").oar_inputs)
            for modulus in ("9 GPa", "14 GPa")
        ]
        said = pair_findings(*pair, force=400.0, wanted=1.5)[0].text
        assert "plane the loom of the starboard oar" in said
        assert "factor" not in said

    def test_it_cannot_be_scaled(self):
        """What has no sizes of its own is refused in words."""
        with pytest.raises(BadDesign, match="drawn from sizes"):
            scaled(self.OAR, 1.1)


def test_a_measured_oar_that_the_rig_makes_longer_is_told_before_it_is_built():
    """The rig's 2286 mm beside a table of 2290 mm."""
    given = with_(QUILLET, MEASURED["oar"]["station"], "oar", "station")
    for name in ("grip", "loom", "blade"):
        given = with_(given, None, "oar", name)
    fault = only_fault(given, project_from_mapping)
    assert fault.place == "oar.station, entry 15, s"
    sizes = project_from_mapping(with_(given, "2290 mm", "rig", "length"), name="a").inputs.sizes
    with pytest.raises(BadDesign):
        sizes.at(length=2.286, inboard=0.63)
