"""The sheet says what was computed: results as JSON and tables, a page for the screen, and a page for the printer.

Numbers of the two examples are worked here by hand from what their project files give (plane geometry, statics and
handbook tables); none is taken from the program's own output.
"""

import io
import json
import math
import re
from dataclasses import dataclass, field
from functools import cache, cached_property
from html.parser import HTMLParser

import numpy as np
import pandas as pd
import pypdf
import pytest
from conftest import unsized
from fontTools.ttLib import TTFont
from pypdf.generic import ByteStringObject, DictionaryObject, IndirectObject, StreamObject

from oarkit import design
from oarkit.project import ProjectError
from oarkit.sheet.html import sheet_html
from oarkit.sheet.results import results_json, stations_csv
from oarkit.tables import data_folder
from oarkit.units import feet_inches

#: Every name that results.json promises, with its SI unit.
FIXED = {
    "rig.span": "m", "rig.inboard": "m", "rig.outboard": "m", "rig.length": "m", "rig.overlap": "m",
    "rig.overlap_in_drive": "m", "rig.leverage_ratio": "1", "rig.working_ratio": "1", "rig.hand_arm": "m",
    "rig.blade_arm": "m", "rig.dip_in_drive": "rad", "rig.hand_height_in_drive": "m",
    "rig.hand_height_in_recovery": "m", "rig.thigh_clearance": "m", "rig.largest_wave_square": "m",
    "rig.largest_wave_feathered": "m",
    "rig.lock_offset": "m", "stroke.catch_angle": "rad", "stroke.finish_angle": "rad", "stroke.arc": "rad",
    "stroke.hand_travel": "m", "oar.mass": "kg", "oar.balance": "m", "oar.hand_weight": "N",
    "oar.inertia_about_lock": "kg m2", "oar.blade_area": "m2", "oar.bench_drop": "m", "oar.stiffness_index": "1",
    "oar.first_frequency": "Hz", "strength.lock_moment": "N m", "strength.lock_stress": "Pa",
    "strength.least_ratio": "1",
}  # fmt: skip
FETCHING = {
    "script", "link", "img", "image", "iframe", "object", "embed", "audio", "video", "base", "form", "foreignobject",
}  # fmt: skip
#: What every first page answers, besides how the handles pass.
WORDS = ("length", "inboard", "outboard", "span", "thigh clearance", "mass", "bench drop", "least safety ratio")
FILES = {
    "sheet.html", "sheet.pdf", "results.json", "results.csv", "checks.csv", "stations.csv", "paths.csv", "marks.csv",
    "working.csv",
}  # fmt: skip
ROUNDING = 1e-9  # relative: sums and quotients of a few doubles
PRINTED = 5e-9  # relative: the tables print nine figures
A4 = (210 / 25.4 * 72, 297 / 25.4 * 72)  # [pt]
POINT = 25.4 / 72  # [mm]
SIGNS = "κ β ≥ × − ° ½ é Å"
HOSTILE = f"<script>alert(1)</script> & \"x\" 'y' {{{{ 7*7 }}}} {{title}} %s {SIGNS}"
NO_THIGH = (('stature = "1725 mm"\n', ""), ('thigh_thickness = "160 mm"', ""))


def results(files):
    """The results of a sheet; a number that JSON does not know is refused."""

    def refuse(word):
        raise AssertionError(f"{word} stands in results.json")

    return json.loads(files["results.json"].decode("utf-8"), parse_constant=refuse)


def quick_files(project):
    """Results, stations and page of a project, without its drawings and its print."""
    made = design(project.inputs)
    return {
        "results.json": results_json(project, made).encode(),
        "stations.csv": stations_csv(made).encode(),
        "sheet.html": sheet_html(project, made, unsized(made.oar), []).encode(),
    }


def numbers(files):
    return {name: entry["value"] for name, entry in results(files)["values"].items()}


def table(files, name):
    return pd.read_csv(io.BytesIO(files[name]), encoding="utf-8-sig")


@pytest.fixture(scope="module", params=["quillet_files", "tumblehod_files", "feet_files", "pair_files"])
def files(request):
    """Sheets of a crossed rig, a rig with a gap, one in feet and inches, and a pair of unlike boards."""
    return request.getfixturevalue(request.param)


@pytest.fixture(scope="module")
def hostile_files(changed, files_of):
    """A sheet whose title, the one free text of a project, tries to be more than text."""
    title = HOSTILE.replace('"', '\\"')
    return files_of(changed(('title = "Quillet, centre station"', f'title = "{title}"')))


# results.json


def test_a_sheet_is_eight_files(files):
    """Page, print, results and tables are written, and nothing else."""
    assert set(files) == FILES


def test_results_have_schema_one_and_the_promised_keys(files):
    """The document and each of its parts have exactly the keys that other programs rely on."""
    document = results(files)
    assert set(document) == {"schema", "title", "values", "findings", "checks"}
    assert document["schema"] == 1
    for finding in document["findings"]:
        assert set(finding) == {"level", "code", "text", "source"}
        assert finding["level"] in {"note", "caution", "fails"}
        assert finding["text"].strip()
        assert finding["source"].strip()
        assert not re.search(r"[{}]|\bnan\b|\bNone\b", finding["text"])
    for check in document["checks"]:
        assert set(check) == {"case", "place", "stress", "strength", "ratio", "ok", "wood"}


def test_every_promised_name_is_there_in_si(files):
    """Each fixed name has a value, a unit and a source, or else a reason for having no value."""
    values = results(files)["values"]
    assert set(FIXED) <= set(values)
    assert {name: values[name]["unit"] for name in FIXED} == FIXED
    for name, entry in values.items():
        if entry["value"] is None:
            assert entry["reason"].strip(), name
        else:
            assert set(entry) == {"value", "unit", "source"}, name
            assert isinstance(entry["value"], float), name
            assert math.isfinite(entry["value"]), name
            assert entry["source"].strip(), name


def test_the_stroke_hangs_together(files):
    """The arc is catch less finish; the hand travels round the pin on its arm as seen from above, sloped by the dip."""
    found = numbers(files)
    catch, finish = found["stroke.catch_angle"], found["stroke.finish_angle"]
    assert 0 < catch <= math.radians(80)
    assert catch > finish >= -math.radians(80)
    assert found["stroke.arc"] == pytest.approx(catch - finish, rel=ROUNDING)
    level = found["rig.hand_arm"] * math.cos(found["rig.dip_in_drive"])
    assert found["stroke.hand_travel"] == pytest.approx(level * (catch - finish), rel=ROUNDING)
    assert found["stroke.chord"] == pytest.approx(level * (math.sin(catch) - math.sin(finish)), rel=ROUNDING)


def test_a_reach_that_was_measured_gives_the_stroke(changed):
    """480 mm aft and 270 mm forward of the pins, done by hand on the hand arm of 568.65 mm: asin of reach over arm."""
    reach = '\nreach_catch = "480 mm"\nreach_finish = "270 mm"\n'
    files = quick_files(changed(('hand_length = "185 mm"\n', f'hand_length = "185 mm"{reach}')))
    dip = math.asin((300 + 65.1 + 20) / 1377.95)  # the blade just covered, 20 mm deep
    level = 568.65 * math.cos(dip)
    catch, finish = math.asin(480 / level), -math.asin(270 / level)
    expected = {
        "stroke.catch_angle": catch, "stroke.finish_angle": finish, "stroke.arc": catch - finish,
        "stroke.hand_travel": level * (catch - finish) / 1e3, "stroke.chord": 0.750,
        "stroke.reach_catch": 0.480, "stroke.reach_finish": 0.270,
    }  # fmt: skip
    found = numbers(files)
    assert {name: found[name] for name in expected} == pytest.approx(expected, rel=ROUNDING)


def test_without_a_body_the_stroke_is_absent_with_a_reason(changed, files_of):
    """Without stature, arm or reach there is no stroke: null with its reason, no paths, and the sheet whole."""
    files = files_of(changed(('stature = "1725 mm"\n', "")))
    assert set(files) == FILES - {"paths.csv"}
    values = results(files)["values"]
    for name in ("stroke.catch_angle", "stroke.finish_angle", "stroke.arc", "stroke.hand_travel"):
        assert values[name]["value"] is None
        assert "arm length" in values[name]["reason"]
    assert page_of(files).row("catch angle")[1] == values["stroke.catch_angle"]["reason"]
    assert "How the hands pass" not in page_of(files).text
    test_every_table_has_headings(files)
    test_no_text_leaves_the_paper(printed(files))


def test_custom_that_was_taken_is_noted(changed):
    """A seat whose place was not measured is taken from custom, 12 and 8 in, and the sheet says so."""
    files = quick_files(changed(
        ('seat_edge_to_pins = "300 mm"        # aft edge of the seat to the pin line\n', ""),
        ('seat_above_heels = "165 mm"\n', ""),
    ))  # fmt: skip
    (said,) = [each for each in results(files)["findings"] if each["code"] == "assumed"]
    assert said["level"] == "note"
    assert "304.8 mm" in said["text"]
    assert "203.2 mm" in said["text"]
    assert "rig.seat_edge_to_pins" in said["text"]
    assert "assumed" not in {each["code"] for each in results(quick_files(changed()))["findings"]}


def test_without_a_thigh_its_clearances_are_absent_with_a_reason(changed):
    """A rower without thigh or stature has no clearance, neither nil nor a guess; heights stay."""
    files = quick_files(changed(*NO_THIGH))
    values = results(files)["values"]
    for name in ("rig.thigh_clearance", "rig.largest_wave_square", "rig.largest_wave_feathered"):
        assert values[name]["value"] is None
        assert "thigh" in values[name]["reason"]
        assert "thigh" in page_of(files).row_of(name)[1]
    assert values["rig.hand_height_in_recovery"]["value"] is not None


def test_quillet_is_as_worked_by_hand(quillet_files):
    """Span, split, heights, clearances and the round section at the lock, from the numbers in quillet.toml [mm]."""
    span = 863.6 + 2 * 120.65  # 1104.9
    inboard = (span + 152.4) / 2  # 628.65
    outboard = 2286 - inboard  # 1657.35
    hand, blade = inboard - 60, outboard - 558.8 / 2  # 568.65, 1377.95
    lock, seat, half = 255 + 45, 255 + 45 - 77, 130.2 / 2  # 300, 223, 65.1
    dip = math.asin((lock + half + 20) / blade)
    recovery = seat + hand * (lock - 100 - half) / blade
    fist_and_thigh = 45 + 160 + 15
    moment = 400 * hand / 1e3
    expected = {
        "rig.span": 1.1049, "rig.inboard": 0.62865, "rig.outboard": 1.65735, "rig.length": 2.286, "rig.overlap": 0.1524,
        "rig.overlap_in_drive": (2 * inboard * math.cos(dip) - span) / 1e3, "rig.leverage_ratio": outboard / inboard,
        "rig.working_ratio": blade / hand, "rig.hand_arm": 0.56865, "rig.blade_arm": 1.37795, "rig.dip_in_drive": dip,
        "rig.hand_height_in_drive": (seat + hand * math.sin(dip)) / 1e3, "rig.hand_height_in_recovery": recovery / 1e3,
        "rig.thigh_clearance": (recovery - fist_and_thigh) / 1e3,
        # hands on the thighs: the blade axis then stands blade·(fist_and_thigh − seat)/hand below the lock
        "rig.largest_wave_square": (lock - half - blade * (fist_and_thigh - seat) / hand) / 1e3,
        "rig.largest_wave_feathered": (lock - 5 - blade * (fist_and_thigh - seat) / hand) / 1e3,
        "rig.lock_offset": 60 * blade / (blade + hand) / 1e3,
        "strength.lock_moment": moment, "strength.lock_stress": 32 * moment / (math.pi * 0.046**3),  # solid round bar
    }  # fmt: skip
    found = numbers(quillet_files)
    assert {name: found[name] for name in expected} == pytest.approx(expected, rel=ROUNDING)


def test_tumblehod_is_as_worked_by_hand(tumblehod_files):
    """A pin inside the rail takes from the span, a gap is a negative overlap, and no lock is raised [mm]."""
    span = 1371.6 - 2 * 38.1  # 1295.4
    inboard = (span - 50.8) / 2  # 622.3
    outboard = 2209.8 - inboard  # 1587.5
    hand, blade = inboard - 60, outboard - 609.6 / 2  # 562.3, 1282.7
    lock, seat, half = 320 + 30, 320 + 30 - 160, 127 / 2  # 350, 190, 63.5
    dip = math.asin((lock + half + 20) / blade)
    recovery = seat + hand * (lock - 150 - half) / blade
    moment = 450 * hand / 1e3
    expected = {
        "rig.span": 1.2954, "rig.inboard": 0.6223, "rig.outboard": 1.5875, "rig.overlap": -0.0508,
        "rig.dip_in_drive": dip,
        "rig.overlap_in_drive": (2 * inboard * math.cos(dip) - span) / 1e3, "rig.leverage_ratio": outboard / inboard,
        "rig.thigh_clearance": (recovery - 45 - 175 - 15) / 1e3, "strength.lock_moment": moment,
        "strength.lock_stress": 32 * moment / (math.pi * 0.0492**3),
    }  # fmt: skip
    values = results(tumblehod_files)["values"]
    assert {name: values[name]["value"] for name in expected} == pytest.approx(expected, rel=ROUNDING)
    assert values["rig.lock_offset"]["value"] is None
    assert "cross" in values["rig.lock_offset"]["reason"]


def test_blade_area_is_the_integral_of_its_width(quillet_files, tumblehod_files):
    """Width grows by the power 0.8 over 35 % of the blade, so that stretch holds b + (w − b)/1.8 on average."""
    blades = ((quillet_files, 0.5588, 0.027, 0.1302), (tumblehod_files, 0.6096, 0.03175, 0.127))
    for files, length, neck, width in blades:
        by_hand = length * (0.35 * (neck + (width - neck) / 1.8) + 0.65 * width)
        # Simpson's rule on 25 points a segment, against a power of 0.8 whose slope is infinite at the root
        assert numbers(files)["oar.blade_area"] == pytest.approx(by_hand, rel=1e-4)


def test_results_of_the_oar_agree_with_one_another(files):
    """Weight in the hand is the lever of mass and balance; the index is drop over blade arm."""
    found = numbers(files)
    weight = found["oar.mass"] * 9.80665 * found["oar.balance"] / found["rig.hand_arm"]
    assert found["oar.hand_weight"] == pytest.approx(weight, rel=ROUNDING)
    assert found["oar.stiffness_index"] == pytest.approx(found["oar.bench_drop"] / found["rig.blade_arm"], rel=ROUNDING)


def test_strength_of_the_loom_is_the_handbooks(quillet_files):
    """Sitka spruce: mean 70 MPa dry and 39 green, less 1.645 × 16 %, 0.89 for 1:15, at 15 % of 27 %.

    Wood Handbook FPL-GTR-282 (2021): Tables 5-3a, 5-6, 5-12, 5-13 and eq. 5-3.
    """
    loom = next(check for check in results(quillet_files)["checks"] if check["wood"] == "Spruce, Sitka")
    by_hand = 70e6 * (70 / 39) ** ((12 - 15) / (27 - 12)) * (1 - 1.645 * 0.16) * 0.89
    assert loom["strength"] == pytest.approx(by_hand, rel=ROUNDING)


def test_checks_are_ratios_of_strength_to_stress(files):
    """Each check is met where its ratio is what is asked, and the least ratio is that of the worst check of rowing.

    Asked are 1.5 of a load of rowing, as much less of the proof load as it exceeds the hard start, and 1 of abuse.
    """
    document = results(files)
    assert document["checks"]
    rowing = ("cruise", "hard start", "bench test", "bench test at the tip")
    asked = {**dict.fromkeys(rowing, 1.5), "proof load": 1.5 / 1.25}
    for check in document["checks"]:
        assert check["ratio"] == pytest.approx(check["strength"] / check["stress"], rel=ROUNDING)
        if abs(check["ratio"] - asked.get(check["case"].split(",")[0], 1.0)) > 1e-6:
            assert check["ok"] is (check["ratio"] >= asked.get(check["case"].split(",")[0], 1.0)), check["case"]
    oars = [check for check in document["checks"] if "from the handle end" in check["place"]]
    cases = {check["case"].split(",")[0] for check in oars}
    assert set(asked) | {"caught crab", "steering", "prying", "tip knocked", "tip dragged", "push-off"} <= cases
    rowing = [check for check in oars if check["case"].split(",")[0] in ("cruise", "hard start")]
    least = min(check["ratio"] for check in rowing if "bearing" not in check["case"])
    assert document["values"]["strength.least_ratio"]["value"] == pytest.approx(least, rel=ROUNDING)


@pytest.mark.parametrize(
    ("which", "breaking", "denting"),
    [
        ("quillet_files", {"rail", "bolt tension", "bolt shear"}, {"washer", "bolt hole"}),
        ("tumblehod_files", {"thole pin"}, {"thole hole"}),
    ],
)
def test_the_fittings_are_checked_too(request, which, breaking, denting):
    """Bracket, bolts, washers and rail, or thole pins and their holes, stand among the checks."""
    files = request.getfixturevalue(which)
    checks = [c for c in results(files)["checks"] if "from the handle end" not in c["place"]]
    for case, parts in (("hard start", breaking), ("hard start, denting", denting)):
        assert {check["place"].split(":")[0] for check in checks if check["case"] == case} == parts
    places = {check["place"] for check in checks}
    assert all(place in page_of(files).text for place in places)


@pytest.mark.parametrize("diameter", [12, 16, 22])
def test_a_dent_is_no_failure(changed, diameter):
    """Washers not much wider than their bolts of 8 mm dent the rail, which is said, but the design still passes."""
    project = changed(('washer_diameter = "30 mm"', f'washer_diameter = "{diameter} mm"'))
    made = design(project.inputs)
    document = json.loads(results_json(project, made))
    fittings = [check for check in document["checks"] if "from the handle end" not in check["place"]]
    failing = [check for check in fittings if not check["ok"]]
    told = [(check["case"], check["place"].split(":")[0]) for check in failing]
    assert told == [("hard start, denting", "washer")]
    assert made.passes


def test_a_failing_check_is_said_as_a_finding(changed):
    """900 N at the hand breaks the margin: the check is not met and a finding says so."""
    document = results(quick_files(changed(("[wanted]", '[loads]\nhard_start = "900 N"\n\n[wanted]'))))
    assert not all(check["ok"] for check in document["checks"])
    assert "fails" in {finding["level"] for finding in document["findings"]}
    # 900 N in place of 400 N, nothing else: stress and moment grow as the force
    assert document["values"]["strength.lock_moment"]["value"] == pytest.approx(900 * 0.56865, rel=ROUNDING)


@pytest.fixture(scope="module")
def unlike(changed):
    """Quillet with a starboard loom of half the modulus and steeper grain, without hardwood: (both alike, unlike)."""
    _, *hardwood = (data_folder() / "quillet.toml").read_text(encoding="utf-8").split("[[oar.wood]]")[1:]
    bare = [("[[oar.wood]]" + piece.split("[wanted]")[0], "") for piece in hardwood]
    loom = (
        'moisture = "12 %"\n',
        'moisture = "12 %"\noar = "port"\n\n[[oar.wood]]\npart = "loom"\noar = "starboard"\nspecies = "spruce, Sitka"\n'
        'modulus = "5.4 GPa"\ndensity = "390 kg/m3"\ngrain_slope = "1:10"\nmoisture = "12 %"\n',
    )
    return quick_files(changed(*bare)), quick_files(changed(*bare, loom))


def test_unlike_boards_give_results_for_each_oar(unlike):
    """Half the modulus gives twice the drop, lighter wood a lighter oar, steeper grain a lower safety ratio."""
    alike, found = numbers(unlike[0]), numbers(unlike[1])
    names = [name for name in FIXED if name.startswith("oar.")] + ["strength.lock_moment", "strength.lock_stress"]
    assert all(name.replace(".", ".starboard.", 1) in found for name in names)
    assert not [name for name in alike if "starboard" in name]
    assert {name: found[name] for name in names} == {name: alike[name] for name in names}
    assert found["oar.starboard.bench_drop"] == pytest.approx(2 * found["oar.bench_drop"], rel=ROUNDING)
    wood = found["oar.mass"] - 0.060
    assert found["oar.starboard.mass"] == pytest.approx(0.060 + wood * 390 / 430, rel=ROUNDING)
    # one wood throughout: the stress does not ask for the modulus
    assert found["oar.starboard.blade_area"] == pytest.approx(found["oar.blade_area"], rel=ROUNDING)
    assert found["strength.starboard.lock_stress"] == pytest.approx(found["strength.lock_stress"], rel=ROUNDING)
    # share left by a slope of 1:10 over that of 1:15: Wood Handbook FPL-GTR-282 (2021), Table 5-12
    assert found["strength.least_ratio"] == pytest.approx(alike["strength.least_ratio"] * 0.81 / 0.89, rel=ROUNDING)


def test_least_ratio_is_the_lesser_of_the_two_oars(unlike):
    """Each oar has its own check, told apart in words, and the pair is no stronger than its weaker oar."""
    document = results(unlike[1])
    port, starboard = (
        min(
            check["ratio"]
            for check in document["checks"]
            if check["place"].startswith(f"{side} oar") and check["case"] in ("cruise", "hard start")
        )
        for side in ("port", "starboard")
    )
    assert starboard < port
    assert document["values"]["strength.least_ratio"]["value"] == pytest.approx(starboard, rel=ROUNDING)
    assert set(table(unlike[1], "stations.csv")["oar"]) == {"port", "starboard"}
    assert "starboard" in page_of(unlike[1]).text


# tables


def test_results_table_holds_the_same_numbers(files):
    """results.csv has a row for every value of results.json, to nine figures."""
    frame = table(files, "results.csv").set_index("name")
    values = results(files)["values"]
    assert list(frame.index) == list(values)
    for name, entry in values.items():
        assert frame.loc[name, "unit"] == entry["unit"]
        if entry["value"] is None:
            assert math.isnan(frame.loc[name, "value"])
            assert frame.loc[name, "reason"] == entry["reason"]
        else:
            assert float(frame.loc[name, "value"]) == pytest.approx(entry["value"], rel=PRINTED)
    assert frame["word"].notna().all()


def test_stations_stand_on_every_break(quillet_files):
    """Stations run from handle end to tip, in order, with two on every break of section or wood [mm]."""
    frame = table(quillet_files, "stations.csv")
    s = frame["s_m"].to_numpy()
    assert len(s) >= 200
    assert (np.diff(s) >= 0).all()
    inboard, root = 628.65, 2286 - 558.8
    within = [
        60, 130, 130 + 50, inboard - 100 - 60, inboard - 100, inboard, inboard - 100 + 250 / 2, inboard - 100 + 250,
        root, root + 0.08 * 558.8, root + 0.35 * 558.8, root + 558.8 / 2, root + 0.75 * 558.8, 2286 - 20,
    ]  # fmt: skip
    for place in within:
        assert np.isclose(s * 1e3, place, atol=1e-5).sum() >= 2, place  # printed to nine figures
    assert s[0] == 0
    assert s[-1] == pytest.approx(2.286, rel=PRINTED)


def test_stations_hold_the_sizes_given(quillet_files):
    """Grip, lock, neck and tip measure what the file says."""
    frame = table(quillet_files, "stations.csv")
    sizes = ((0, 33.3, 33.3), (0.3, 48, 48), (0.62865, 46, 46), (1.7272, 31.75, 27), (2.286, 11, 130.2))
    for s, thickness, width in sizes:
        row = frame.iloc[(frame["s_m"] - s).abs().argmin()]
        assert row["thickness_m"] * 1e3 == pytest.approx(thickness, rel=PRINTED)
        assert row["width_m"] * 1e3 == pytest.approx(width, rel=PRINTED)
    assert frame["edge_m"].iloc[-1] * 1e3 == pytest.approx(6, rel=PRINTED)


def test_moment_rises_from_hand_to_pin_and_falls_to_mid_blade(quillet_files):
    """400 N times the distance from the grip centre up to the pin; from there it falls to nothing at mid-blade."""
    frame = table(quillet_files, "stations.csv")
    expected = np.interp(frame["s_m"], [0.06, 0.62865, 2.286 - 0.2794], [0, 400 * 0.56865, 0])
    # eight figures, as the places themselves are printed to nine
    assert frame["hard_start_moment_N_m"].to_numpy() == pytest.approx(expected, rel=1e-8, abs=1e-5)


def test_tables_of_a_pair_have_one_run_of_stations_an_oar(pair_files):
    """Each oar has its own run from handle end to tip."""
    frame = table(pair_files, "stations.csv")
    for _, oar in frame.groupby("oar"):
        assert len(oar) >= 200
        assert oar["s_m"].is_monotonic_increasing
        assert oar["s_m"].max() == pytest.approx(2.159, rel=PRINTED)


def test_no_cell_of_a_table_is_empty_without_reason(files):
    """Every station has every size; every step of the working has formula, result and source."""
    assert not table(files, "stations.csv").isna().any().any()
    work = table(files, "working.csv")
    assert not work[["part", "what", "formula", "result", "source"]].isna().any().any()
    marks = table(files, "marks.csv")
    assert not marks[["letter", "place", "s", "s other", "thickness", "width"]].isna().any().any()
    assert marks["letter"].is_unique


def test_marks_are_sizes_to_mark_from(quillet_files, feet_files):
    """The pin line stands 628.65 mm from the handle end, in the reader's units first."""
    metric = table(quillet_files, "marks.csv").set_index("place")
    feet = table(feet_files, "marks.csv").set_index("place")
    assert float(metric.loc["pin line", "s"].removesuffix(" mm")) == pytest.approx(628.65, abs=0.0501)  # to a tenth
    assert metric.loc["pin line", "s other"] == feet.loc["pin line", "s"] == "2'-0 3/4\""  # 24.75 in
    assert metric.loc["neck, blade root", "s"] == "1727.2 mm"
    assert feet.loc["neck, blade root", "s"] == "5'-8\""  # 68 in


def test_every_value_shows_its_working(quillet_files):
    """Each word on the first page comes back in the working, with formula and numbers."""
    work = table(quillet_files, "working.csv")
    for word in (*WORDS, "overlap", "leverage ratio"):
        assert (work["what"] == word).any() or word == "length", word  # the length is given, not worked out
    span = work[work["what"] == "span"].iloc[0]
    assert "863.6 mm" in span["numbers"]
    assert "120.7 mm" in span["numbers"] or "120.6 mm" in span["numbers"]  # 120.65 to a tenth
    assert span["result"] == "1104.9 mm"


# sheet.html


@dataclass
class Element:
    tag: str
    attributes: dict
    parent: "Element | None"
    children: list = field(default_factory=list)

    def all(self, tag=None):
        for child in self.children:
            if isinstance(child, Element):
                if tag in (None, child.tag):
                    yield child
                yield from child.all(tag)

    @property
    def words(self):
        """Text that a reader sees."""
        parts = [c if isinstance(c, str) else c.words for c in self.children if isinstance(c, str) or c.tag != "style"]
        return " ".join(" ".join(parts).split())


class Page(HTMLParser):
    """The page as a tree; what is opened must be closed."""

    EMPTY = frozenset({"meta", "br", "link", "img", "input", "hr", "base", "col"})

    def __init__(self, source):
        super().__init__(convert_charrefs=True)
        self.source = source
        self.root = self.here = Element("", {}, None)
        self.feed(self.source)
        self.close()
        assert self.here is self.root, f"{self.here.tag} is never closed"

    def handle_starttag(self, tag, attrs):
        assert len({name for name, _ in attrs}) == len(attrs), f"<{tag}> names an attribute twice"
        element = Element(tag, dict(attrs), self.here)
        self.here.children.append(element)
        if tag not in self.EMPTY:
            self.here = element

    def handle_startendtag(self, tag, attrs):
        self.here.children.append(Element(tag, dict(attrs), self.here))

    def handle_endtag(self, tag):
        assert tag == self.here.tag, f"</{tag}> closes <{self.here.tag}>"
        self.here = self.here.parent

    def handle_data(self, data):
        self.here.children.append(data)

    @property
    def text(self):
        return next(self.root.all("body")).words

    @property
    def first(self):
        """Everything over the findings: the first page."""
        header, main = next(self.root.all("header")), next(self.root.all("main"))
        return [header, next(child for child in main.children if isinstance(child, Element))]

    def row(self, word):
        """Cells of the first page's row with this heading, or with this heading for the port oar of an unlike pair."""
        for part in self.first:
            for row in part.all("tr"):
                cells = [c.words for c in row.children if isinstance(c, Element)]
                if cells and cells[0] in (word, f"{word}, port"):
                    return cells
        raise AssertionError(f"no row {word}")

    def row_of(self, name):
        words = {"thigh_clearance": "thigh clearance", "largest_wave_square": "largest wave for thighs, square",
                 "largest_wave_feathered": "largest wave for thighs, feathered"}  # fmt: skip
        return self.row(words[name.removeprefix("rig.")])


@cache
def _page(data):
    return Page(data.decode("utf-8"))


def page_of(files):
    return _page(files["sheet.html"])


def test_the_page_asks_for_nothing_outside_itself(files):
    """No address, script, style sheet, picture or frame is fetched; a reference stays within the page."""
    page = page_of(files)
    namespaces = {"http://www.w3.org/2000/svg", "http://www.w3.org/1999/xlink"}
    assert set(re.findall(r"https?://[^\s\"'<>)]*", page.source)) <= namespaces
    for address in namespaces:
        assert page.source.count(address) == len(re.findall(rf'xmlns(?::\w+)?="{re.escape(address)}"', page.source))
    assert not re.search(r"@import|javascript:|[\"'(]//|ftp:|data:[a-z]", page.source, re.IGNORECASE)
    assert all(target.startswith("#") for target in re.findall(r"url\(\s*[\"']?([^)]*)", page.source))
    for element in page.root.all():
        assert element.tag not in FETCHING
        assert not {"src", "srcset", "action", "background", "poster", "data"} & set(element.attributes), element.tag
        assert not [name for name in element.attributes if name.startswith("on")], element.tag
        for name in ("href", "xlink:href"):
            assert element.attributes.get(name, "#").startswith("#"), element.attributes


def test_the_page_says_its_language_and_its_signs(files):
    """A page in English, in UTF-8, that a small screen may lay out for itself."""
    page = page_of(files)
    assert page.source.startswith("<!DOCTYPE html>")
    assert next(page.root.all("html")).attributes["lang"] == "en"
    metas = [meta.attributes for meta in page.root.all("meta")]
    assert {"charset": "utf-8"} in metas
    assert any(meta.get("name") == "viewport" and "width=device-width" in meta["content"] for meta in metas)
    assert len(list(page.root.all("h1"))) == 1


def test_every_drawing_says_in_words_what_it_shows(files):
    """Each figure is one image to a screen reader, with words of its own that hold numbers, and its own caption."""
    figures = list(page_of(files).root.all("figure"))
    assert len(figures) >= 4
    labels, captions = [], []
    for figure in figures:
        (svg,) = figure.all("svg")
        assert svg.attributes["role"] == "img"
        labels.append(svg.attributes["aria-label"].strip())
        captions.append(next(figure.all("figcaption")).words)
    assert all(captions)
    assert len(set(captions)) == len(captions)
    assert all(re.search(r"\d", label) for label in labels)
    assert not any(re.search(r"[{}]|nan|None", label) for label in labels)


def test_ids_are_unique_and_every_reference_finds_its_own(files):
    """No two elements share an id, and each #reference leads to one."""
    page = page_of(files)
    ids = [e.attributes["id"] for e in page.root.all() if "id" in e.attributes]
    assert len(ids) == len(set(ids))
    assert set(re.findall(r"url\(#([^)\"']+)\)", page.source) + re.findall(r'href="#([^"]+)"', page.source)) <= set(ids)


def test_every_table_has_headings(files):
    """Each table names its columns or its rows, and a row's name says that it is one."""
    tables = list(page_of(files).root.all("table"))
    assert len(tables) >= 6
    for each in tables:
        headings = list(each.all("th"))
        assert headings
        for body in each.all("tbody"):
            assert all(th.attributes.get("scope") == "row" for th in body.all("th"))
        rows = [[cell for cell in row.children if isinstance(cell, Element)] for row in each.all("tr")]
        widths = {sum(int(cell.attributes.get("colspan", 1)) for cell in row) for row in rows}
        assert len(widths) == 1, f"rows of {widths} cells under {[th.words for th in headings][:4]}"


def test_the_first_page_holds_the_answer(files):
    """Length, split, passing, clearance, drop, mass and safety stand over everything else, in both systems."""
    page = page_of(files)
    found = numbers(files)
    # a printed size is to a tenth of a millimetre
    for name in ("rig.length", "rig.inboard", "rig.outboard", "rig.span", "rig.thigh_clearance", "oar.bench_drop"):
        word = name.split(".")[1].replace("_", " ")
        metric = next(cell for cell in page.row(word) if cell.endswith(" mm"))
        assert float(metric.removesuffix(" mm").replace("−", "-")) == pytest.approx(found[name] * 1e3, abs=0.0501)
        assert feet_inches(found[name]) in page.row(word)
    passing = "overlap" if found["rig.overlap"] > 0 else "gap between the handles"
    assert f"{abs(found['rig.overlap']) * 1e3:.1f} mm" in page.row(passing)
    assert f"{found['oar.mass']:.2f} kg" in page.row("mass")
    assert f"{found['strength.least_ratio']:.3f}" in page.row("least safety ratio")


def test_the_first_page_has_three_tables(files):
    """The oar, the stroke and the rig stand side by side, the stroke with its angles or the reason for none."""
    captions = [each.words for part in page_of(files).first for each in part.all("caption")]
    assert captions == ["The oar", "The stroke", "The rig"]
    found = numbers(files)
    for name, word in (("catch_angle", "catch angle"), ("finish_angle", "finish angle"), ("arc", "arc")):
        shown = page_of(files).row(word)[1].removesuffix("°").replace("−", "-")
        assert float(shown) == pytest.approx(math.degrees(found[f"stroke.{name}"]), abs=0.0501)  # to a tenth


def test_display_chooses_which_system_comes_first(quillet_files, feet_files):
    """With display = "ft-in" the feet come first and the millimetres behind them, and the other way round."""
    assert page_of(quillet_files).row("length")[1:] == ["2286.0 mm", "7'-6\""]
    assert page_of(feet_files).row("length")[1:] == ["7'-6\"", "2286.0 mm"]
    assert page_of(feet_files).row("mass")[1].endswith(" lb")
    metric, feet = (results(files) for files in (quillet_files, feet_files))
    assert metric["values"] == feet["values"]
    said = next(f["text"] for f in feet["findings"] if f["code"] == "hands_cross")
    assert '6"' in said
    assert " mm" not in said


def test_a_changed_overlap_changes_the_whole_sheet(changed, files_of, quillet_files):
    """2 in of overlap: inboard (1104.9 + 50.8)/2 = 577.85 mm, outboard 1708.15 mm, other drawings, same span."""
    files = files_of(changed(('overlap = "152.4 mm"', 'overlap = "2 in"')))
    found = numbers(files)
    assert found["rig.inboard"] == pytest.approx(0.57785, rel=ROUNDING)
    assert found["rig.outboard"] == pytest.approx(1.70815, rel=ROUNDING)
    assert found["rig.span"] == pytest.approx(1.1049, rel=ROUNDING)
    assert page_of(files).row("overlap")[1:] == ["50.8 mm", '2"']
    assert all(files[name] != quillet_files[name] for name in FILES)
    before, after = (
        [svg.attributes["aria-label"] for svg in page_of(f).root.all("svg")] for f in (quillet_files, files)
    )
    assert before[0] != after[0]
    assert before[1] != after[1]


def test_free_text_stays_text_on_the_page(hostile_files):
    """A title that looks like a script, a template or a format is shown letter for letter."""
    page = page_of(hostile_files)
    assert next(page.root.all("h1")).words == HOSTILE
    assert next(page.root.all("title")).words == f"{HOSTILE} - design sheet"
    assert not list(page.root.all("script"))
    test_the_page_asks_for_nothing_outside_itself(hostile_files)


def test_free_text_stays_text_in_print_and_results(hostile_files):
    """The printed title and the stored one are letter for letter as given."""
    assert results(hostile_files)["title"] == HOSTILE
    reader = pypdf.PdfReader(io.BytesIO(hostile_files["sheet.pdf"]))
    assert HOSTILE.replace(" ", "") in re.sub(r"\s", "", reader.pages[0].extract_text())
    assert reader.metadata.title == f"{HOSTILE} - design sheet"


@pytest.mark.parametrize("where", ['"ash, white" }', '"spruce, Sitka"'], ids=["rail", "loom"])
def test_a_species_that_no_table_knows_is_refused(changed, where):
    """Only the names of the tables reach the sheet as woods."""
    ending = where.removeprefix('"ash, white"') if "ash" in where else ""
    with pytest.raises(ProjectError, match="species"):
        changed((where, f'"<img src=x onerror=alert(1)>"{ending}'))


def test_two_runs_give_the_same_bytes(quillet, quillet_files, files_of):
    """Nothing of the time or the run gets into a file."""
    again = files_of(quillet)
    assert {name for name in FILES if again[name] != quillet_files[name]} == set()


# sheet.pdf


@cache
def _font(data):
    return TTFont(io.BytesIO(data))


@dataclass
class Run:
    """A run of text: its words and the box of its ink [pt]."""

    words: str
    box: tuple
    font: str


@dataclass
class Outline:
    """A painted path: its corners [pt], how wide its pen is, and whether it is closed."""

    corners: np.ndarray
    pen: float
    closed: bool


class Printed:
    """What one page of a PDF shows, read from its content stream."""

    def __init__(self, page):
        self.page, self.texts, self.outlines = page, [], []
        self.fonts = {name: font.get_object() for name, font in page["/Resources"]["/Font"].items()}
        self.signs = {name: self._signs(font) for name, font in self.fonts.items()}
        self.heights = {name: self._heights(font) for name, font in self.fonts.items()}
        self._play(page.get_contents().operations)

    @cached_property
    def text(self):
        """The page's text as it can be copied out, in one line."""
        return " ".join(self.page.extract_text().split())

    @staticmethod
    def _signs(font):
        """Code to character, by the font's own table."""
        lines = re.findall(rb"<([0-9A-F]{2})> <([0-9A-F]{4,})>\n", font["/ToUnicode"].get_object().get_data())
        return {int(code, 16): bytes.fromhex(sign.decode()).decode("utf-16-be") for code, sign in lines}

    @staticmethod
    def _heights(font):
        """Code to lowest and highest ink of its letter, in sizes of the letter."""
        glyphs = _font(font["/FontDescriptor"]["/FontFile2"].get_data())
        high = glyphs["head"].unitsPerEm
        shapes = {code: glyphs["glyf"][name] for code, name in glyphs["cmap"].tables[0].cmap.items()}
        return {code: (getattr(g, "yMin", 0) / high, getattr(g, "yMax", 0) / high) for code, g in shapes.items()}

    @staticmethod
    def _matrix(*v):
        return np.array([[v[0], v[1], 0], [v[2], v[3], 0], [v[4], v[5], 1]], float)

    def _play(self, operations):
        matrix = self._matrix
        place, pen, kept, path, closed = np.eye(3), 1.0, [], [], False
        at = line = np.eye(3)
        font, size, leading, rise, spread = "", 0.0, 0.0, 0.0, 0.0
        for given, operator in operations:
            match operator.decode():
                case "q":
                    kept.append((place, pen, font, size, leading, rise, spread))
                case "Q":
                    place, pen, font, size, leading, rise, spread = kept.pop()
                case "cm":
                    place = matrix(*map(float, given)) @ place
                case "w":
                    pen = float(given[0])
                case "m" | "l":
                    path.append(given)
                case "c":
                    path += [given[0:2], given[2:4], given[4:6]]
                case "re":
                    x, y, w, h = map(float, given)
                    path += [(x, y), (x + w, y), (x + w, y + h), (x, y + h)]
                case "h":
                    closed = True
                case "n":
                    path, closed = [], False
                case "S" | "s" | "f" | "f*" | "B" | "B*" | "b" | "b*":
                    corners = np.column_stack([np.asarray(path, float), np.ones(len(path))]) @ place
                    self.outlines.append(Outline(corners[:, :2], pen, closed))
                    path, closed = [], False
                case "BT":
                    at = line = np.eye(3)
                case "Tm":
                    at = line = matrix(*map(float, given))
                case "Td":
                    at = line = matrix(1, 0, 0, 1, *map(float, given)) @ line
                case "Tf":
                    font, size = str(given[0]), float(given[1])
                case "TL":
                    leading = float(given[0])
                case "T*":
                    at = line = matrix(1, 0, 0, 1, 0, -leading) @ line
                case "Tj":
                    at = self._write(given[0], font, size, spread, matrix(1, 0, 0, 1, 0, rise) @ at, place)
                    at = matrix(1, 0, 0, 1, 0, -rise) @ at
                case "Ts":
                    rise = float(given[0])
                case "Tw":
                    spread = float(given[0])
                case other:
                    # colours, dashes, joints, clips: they move nothing
                    passing = {"rg", "RG", "g", "G", "d", "J", "j", "W", "W*", "M", "ET", "i", "gs"}
                    assert other in passing, f"{other} is not known to this reader"

    def _write(self, given, font, size, spread, at, place):
        codes = bytes(given) if isinstance(given, ByteStringObject) else given.original_bytes
        first, widths = self.fonts[font]["/FirstChar"], self.fonts[font]["/Widths"]
        wide = sum(float(widths[code - first]) for code in codes) / 1000 * size + spread * codes.count(32)
        words = "".join(self.signs[font][code] for code in codes)
        if words.strip():
            low = min(self.heights[font][code][0] for code in codes) * size
            high = max(self.heights[font][code][1] for code in codes) * size
            corners = np.array([(0, low, 1), (wide, low, 1), (wide, high, 1), (0, high, 1)]) @ at @ place
            low, high = corners[:, :2].min(axis=0), corners[:, :2].max(axis=0)
            self.texts.append(Run(words.replace("\u00a0", " "), (*low, *high), font))
        return self._matrix(1, 0, 0, 1, wide, 0) @ at


@cache
def _printed(data):
    return [Printed(page) for page in pypdf.PdfReader(io.BytesIO(data)).pages]


def printed(files):
    return _printed(files["sheet.pdf"])


@pytest.fixture(scope="module")
def pages(files):
    return printed(files)


def everything_in(files):
    """Every object of the PDF, the loose ones too."""
    reader = pypdf.PdfReader(io.BytesIO(files["sheet.pdf"]))
    for number in range(1, len(reader.xref.get(0, {})) + 1):
        yield reader.get_object(IndirectObject(number, 0, reader))


def test_every_page_is_a4(pages):
    """Each page is 210 × 297 mm, upright, with nothing cut off it."""
    for each in pages:
        # reportlab's A4 and the box are rounded to a hundredth of a point
        assert [float(v) for v in each.page.mediabox] == pytest.approx([0, 0, *A4], abs=0.01)
        assert [float(v) for v in each.page.cropbox] == pytest.approx([0, 0, *A4], abs=0.01)
        assert each.page.rotation == 0
    assert (
        4 <= len(pages) <= 40
    )  # a booklet of ten sheets, folded, of a pair with different boards; more nobody staples


def test_one_font_is_used_and_it_is_embedded(files):
    """Every font of the document is a piece of DejaVu Sans with its outlines inside."""
    objects = [o for o in everything_in(files) if isinstance(o, DictionaryObject)]
    fonts = [o for o in objects if o.get("/Type") == "/Font"]
    assert fonts
    for font in fonts:
        assert re.fullmatch(r"/[A-Z]{6}\+DejaVuSans", font["/BaseFont"])
        assert len(font["/FontDescriptor"]["/FontFile2"].get_data()) > 1000


def test_the_print_is_lines_and_letters_only(files):
    """No bitmap is hidden in the document; a bitmap within a page would stop the reader of its content stream."""
    streams = [o for o in everything_in(files) if isinstance(o, StreamObject)]
    assert len(streams) > len(printed(files))  # the pages and the font
    assert not [o for o in streams if o.get("/Subtype") in ("/Image", "/Form")]


def test_every_printed_sign_has_a_shape(pages):
    """Each letter and sign on the page has an outline of its own in the embedded font, not the empty box."""
    for each in pages:
        for name, font in each.fonts.items():
            used = {sign for run in each.texts if run.font == name for sign in run.words}
            glyphs = _font(font["/FontDescriptor"]["/FontFile2"].get_data())
            shapes, named = glyphs["glyf"], glyphs["cmap"].tables[0].cmap
            missing = shapes[glyphs.getGlyphOrder()[0]]
            for code, sign in each.signs[name].items():
                if sign in used and not sign.isspace():
                    shape = shapes[named[code]]
                    assert shape.numberOfContours != 0, sign
                    assert shape != missing, sign


def test_the_print_has_every_sign_of_the_page(files, pages):
    """A sign that the screen shows (κ, β, ×, −, °, ² …) is printed and can be copied out again."""
    seen = {sign for sign in page_of(files).text if ord(sign) > 127}
    assert {"κ", "β", "×", "−", "°", "·", "²"} <= seen
    copied = {sign for each in pages for sign in each.text}
    assert seen - copied == set()


def test_signs_of_a_title_are_printed(hostile_files):
    """κ β ≥ × − ° ½ in a title come out of the print as they went in, each with a shape of its own."""
    sheet = printed(hostile_files)
    test_every_printed_sign_has_a_shape(sheet)
    assert re.sub(r"\s", "", SIGNS) in re.sub(r"\s", "", sheet[0].text)


def test_no_text_leaves_the_paper(pages):
    """Every word lies within the margins of 15 mm at the sides, and on a Letter sheet centred over the A4."""
    side, letter = (15 - 0.2) / POINT, (A4[1] - 11 * 72) / 2
    for number, each in enumerate(pages, 1):
        for run in each.texts:
            x0, y0, x1, y1 = run.box
            assert x0 >= side, (number, run)
            assert x1 <= A4[0] - side, (number, run)
            assert y0 >= letter, (number, run)
            assert y1 <= A4[1] - letter, (number, run)


def overlapping(texts, slack):
    """Pairs of texts whose boxes share more than ``slack`` points both ways."""
    found = []
    for i, one in enumerate(texts):
        for two in texts[i + 1 :]:
            wide = min(one.box[2], two.box[2]) - max(one.box[0], two.box[0])
            high = min(one.box[3], two.box[3]) - max(one.box[1], two.box[1])
            if wide > slack and high > slack:
                found.append((one.words, two.words))
    return found


def test_no_two_words_lie_over_each_other(pages):
    """No cell runs into its neighbour and no label into another."""
    for number, each in enumerate(pages, 1):
        # a twentieth of a point: boxes of kerned neighbours may touch
        assert overlapping(each.texts, 0.05) == [], f"page {number}"


def test_the_longest_title_stays_on_the_paper(changed, files_of):
    """A title of 120 letters, the most that a file may hold, one word of it wider than the page, breaks into lines."""
    title = ("Quillet" * 12 + ", a long lean skiff with brackets and two oars")[:120]
    sheet = printed(files_of(changed(('"Quillet, centre station"', f'"{title}"'))))
    test_no_text_leaves_the_paper(sheet)
    test_no_two_words_lie_over_each_other(sheet)


def page_with(words, files):
    """The page that shows these words."""
    return next(page for page in printed(files) if any(words in run.words for run in page.texts))


def bar_before(label, outlines):
    """Length of the one level line that ends just before a label, at its height [pt]."""
    ends = [
        outline.corners[:, 0] for outline in outlines
        if len(outline.corners) == 2 and np.ptp(outline.corners[:, 1]) < 1e-3
        and label.box[1] < outline.corners[0, 1] < label.box[3]
        and 0 < label.box[0] - outline.corners[:, 0].max() < 6
    ]  # fmt: skip
    (only,) = ends
    return np.ptp(only)


@pytest.mark.parametrize("which", ["quillet_files", "tumblehod_files", "pair_files", "feet_files"])
def test_scale_bars_are_as_long_as_they_say(request, which):
    """The bars of 500 mm and 1 ft over "1:N" measure 500/N and 304.8/N mm on paper."""
    checked = 0
    for each in printed(request.getfixturevalue(which)):
        scales = [run for run in each.texts if run.words.endswith("when printed at 100 %")]
        for said in scales:
            scale = float(re.match(r"1:([\d.]+) ", said.words)[1])
            for name, size in (("500 mm", 500.0), ("1 ft", 304.8)):
                named = [run for run in each.texts if run.words == name]
                label = min(named, key=lambda run: abs(run.box[1] - said.box[1]))
                # 0.1 mm is what was asked of the print
                assert bar_before(label, each.outlines) * POINT == pytest.approx(size / scale, abs=0.1)
                checked += 1
    assert checked == 8  # stroke and rower, section and plan, two bars each


@pytest.mark.parametrize(
    ("which", "length", "width", "thickness"),
    [
        ("quillet_files", 2286, 130.2, 48), ("tumblehod_files", 2209.8, 127, 49.2), ("feet_files", 2286, 130.2, 48),
        ("pair_files", 2159, 127, 48),
    ],
)  # fmt: skip
def test_the_oar_is_drawn_to_its_scale(request, which, length, width, thickness):
    """On the face the oar is as long and as wide as it says at 1:N, on the edge as long and as thick."""
    each = page_with("views 1:", request.getfixturevalue(which))
    said = next(run.words for run in each.texts if "views 1:" in run.words)
    scale = float(re.match(r"views 1:([\d.]+)", said)[1])
    sizes = [np.ptp(o.corners, axis=0) * POINT * scale for o in each.outlines if len(o.corners) > 200]
    whole = [size for size in sizes if abs(size[0] - length) < 0.1 * scale]  # not pieces that are shorter than the oar
    long = sorted(whole, key=lambda size: -size[1])
    long = [long[0], next(size for size in long if size[1] < width / 2)]  # the face, and the edge view below it
    # [mm] of the oar: a tenth of a millimetre on paper
    assert long[0] == pytest.approx([length, width], abs=0.1 * scale)
    assert long[1] == pytest.approx([length, thickness], abs=0.1 * scale)
    # the sizes above would pass at 1:N ± 0.1 %; the drawing is exact to a hundredth of a point
    assert long[0][0] == pytest.approx(length, abs=0.01 * POINT * scale)


def test_the_section_is_drawn_to_its_scale(quillet_files):
    """In the section the dipped oar is as long at 1:N as the oar is, from handle end to tip."""
    each = page_with("Section abreast of the pins", quillet_files)
    said = max((run for run in each.texts if run.words.endswith("when printed at 100 %")), key=lambda run: run.box[1])
    scale = float(re.match(r"1:([\d.]+) ", said.words)[1])
    top = max(run.box[3] for run in each.texts if run.words.startswith("hand, drive")) + 5
    bottom = said.box[1] - 5
    long = [outline.corners for outline in each.outlines if outline.closed and len(outline.corners) > 200]
    oars = [corners for corners in long if bottom < corners[:, 1].min() and corners[:, 1].max() < top]
    assert len(oars) == 3
    for oar in oars:
        half = len(oar) // 2
        handle, tip = (oar[0] + oar[-1]) / 2, (oar[half - 1] + oar[half]) / 2
        assert np.hypot(*(tip - handle)) * POINT * scale == pytest.approx(2286, abs=0.1 * scale)


def test_the_first_printed_page_holds_the_answer(files, pages):
    """Page 1 names the boat and gives length, split, passing of the handles, clearance, drop, mass and safety."""
    text = pages[0].text
    found = numbers(files)
    assert results(files)["title"] in text
    page = page_of(files)
    passing = "overlap" if found["rig.overlap"] > 0 else "gap between the handles"
    for word in (*WORDS, passing):
        cells = [cell for cell in page.row(word) if cell]
        values = cells[1:]
        assert " ".join(cells) in text
        assert set(values) <= {run.words for run in pages[0].texts}, "a value is broken into two lines"


def test_every_page_can_be_read_and_is_numbered(files, pages):
    """The text of each page can be copied out, with its number and the boat's name."""
    for number, each in enumerate(pages, 1):
        text = each.text
        assert f"page {number}" in text
        assert results(files)["title"] in text
        assert len(text) > 200


@pytest.mark.parametrize(
    "said",
    ["life jacket", "third oar or a paddle", "Local boating rules", "no certificate", "qualified people", "rings off"],
)
def test_the_cautions_are_on_page_and_print(files, pages, said):
    """Life jacket, spare oar, local rules and that this is no certificate are said wherever the sheet goes."""
    assert said in page_of(files).text
    assert said in " ".join(each.text for each in pages)


def test_page_and_print_say_the_same_findings(files, pages):
    """Each finding of the results stands on the page and in print, word for word."""
    together = re.sub(r"\s", "", "".join(each.text for each in pages))
    for finding in results(files)["findings"]:
        assert finding["text"] in page_of(files).text
        assert re.sub(r"\s", "", finding["text"]) in together


def test_a_drawing_is_never_alone_without_its_title(files, pages):
    """The title of each drawing stands on one page, and a page holds no more drawn scales than titles."""
    titles = [figure.words for figure in page_of(files).root.all("figcaption")]
    assert len(titles) >= 7
    texts = [re.sub(r"\s", "", each.text) for each in pages]
    on_page = [[title for title in titles if re.sub(r"\s", "", title) in text] for text in texts]
    assert sorted(title for found in on_page for title in found) == sorted(titles)
    for each, found in zip(pages, on_page, strict=True):
        assert sum("printed at 100 %" in run.words for run in each.texts) <= len(found)


def test_the_page_answers_whether_it_will_row(files):
    """Under "Will it row?" stand the rules of thumb, this rig beside others, limits, custom, hands, waves and body."""
    page = page_of(files)
    titles = [each.words for each in page.root.all("h3")]
    wanted = (
        "Rules of thumb for the length", "This rig beside others", "The limits on that choice", "What is customary",
        "How the hands pass", "Heights and waves",
    )  # fmt: skip
    assert [title for title in wanted if not any(each.startswith(title) for each in titles)] == []
    assert [each.words for each in page.root.all("h2")][:2] == ["What was found", "Will it row?"]
    # rows of a table: this oar is marked once among the rules and once among the rigs
    own = [row.words for row in page.root.all("tr") if row.attributes.get("class") == "own"]
    assert [words.split()[1:3] for words in own] == [["this", "oar"], ["this", "rig"]]


def test_rules_of_thumb_are_done_by_hand(quillet_files):
    """2 × 863.6 mm is 1727.2, 25/7 of half the span 1973.0, 7/2 of that and 2 in 2111.4 [mm].

    The inboard of 628.65 mm makes 2200.3 to 2294.6 with ratios of 2.5 to 2.65. The rows stand
    shortest first, this oar among them.
    """
    rules = next(t for t in page_of(quillet_files).root.all("table") if "Stock" in [h.words for h in t.all("th")])
    body = next(rules.all("tbody"))
    rows = [[c.words for c in row.children if isinstance(c, Element)] for row in body.all("tr")]
    made = [row[2] for row in rows]
    assert {"1727.2 mm", "2200.3 mm to 2294.6 mm", "1973.0 mm", "2111.4 mm"} <= set(made)
    lengths = [[float(n) for n in re.findall(r"([\d.]+) mm", cell)] for cell in made]
    assert lengths == sorted(lengths)
    own = next(row for row in rows if row[0] == "▸ this oar")
    assert own[2] == "2286.0 mm"
    assert len(rows) >= 10


def test_a_sign_that_the_font_lacks_is_shown_as_a_box(changed, files_of):
    """A title beyond the one font leaves a box a sign in the PDF, heading and foot, and stands whole elsewhere."""
    files = files_of(changed(("Quillet, centre station", "漁舟 Möwe")))
    assert printed(files)[0].text.count("□□ Möwe") == 2
    assert results(files)["title"] == "漁舟 Möwe"
    assert "漁舟 Möwe" in files["sheet.html"].decode("utf-8")
