"""A roster is a class: every row a project of its own, every fault told in one go, one folder a bench."""

import io
import json

import pandas as pd
import pytest

from oarkit import design
from oarkit.project import ProjectError
from oarkit.roster import read_roster, write_roster
from oarkit.sheet.folder import FolderError
from oarkit.tables import data_folder

ROSTER = (data_folder() / "roster.csv").read_text(encoding="utf-8")
HEADING, *ROWS = [line for line in ROSTER.splitlines() if not line.startswith("#")]
ROUNDING = 1e-9  # relative: sums and quotients of a few doubles


@pytest.fixture
def roster(tmp_path):
    """Writes a roster of given lines; gives back its path."""

    def write(*lines, encoding="utf-8", end="\n"):
        path = tmp_path / "class.csv"
        path.write_bytes((end.join(lines) + end).encode(encoding))
        return path

    return write


def faults_of(path):
    with pytest.raises(ProjectError) as caught:
        read_roster(path)
    said = str(caught.value)
    assert not [word for word in ("Traceback", "None", "pydantic", "{", "<class") if word in said], said
    return caught.value.faults


def only_fault(path):
    (fault,) = faults_of(path)
    return fault


def millimetres(cell):
    return float(cell.removesuffix(" mm"))


# reading


def test_the_class_has_eight_benches_in_the_order_of_the_rows(benches):
    """Each row is a bench, named and titled by its first cell."""
    assert list(benches) == [f"Bench {number}" for number in range(1, 9)]
    assert all(project.title == name for name, project in benches.items())


@pytest.mark.parametrize("number", range(1, 9))
def test_each_bench_has_the_numbers_of_its_own_row(benches, number):
    """Span, split and heights follow from the cells of the row, read here by another reader."""
    row = pd.read_csv(io.StringIO("\n".join([HEADING, *ROWS])), dtype=str).iloc[number - 1]
    span = millimetres(row["boat.beam_at_station"]) + 2 * millimetres(row["rig.lock_overhang"])
    passing = -millimetres(row["rig.gap"]) if pd.isna(row["rig.overlap"]) else millimetres(row["rig.overlap"])
    inboard = (span + passing) / 2
    made = design(benches[f"Bench {number}"].inputs)
    found = {
        name: float(value.value) * 1e3
        for name, value in made.values.items()
        if value.unit == "m" and value.value is not None
    }
    expected = {
        "rig.span": span,
        "rig.overlap": passing,
        "rig.inboard": inboard,
        "rig.outboard": millimetres(row["rig.length"]) - inboard,
        "rig.lock_above_water": millimetres(row["rig.lock_above_water"]),
        "rig.lock_above_seat": millimetres(row["rig.lock_above_seat"]),
    }
    assert {name: found[name] for name in expected} == pytest.approx(expected, rel=ROUNDING)
    # 450 N from 80 kg, else 400 N: common practice
    heavy = float(row["rower.mass"].removesuffix(" kg")) >= 80
    hand = (inboard - 60) / 1e3
    assert float(made.values["strength.lock_moment"].value) == pytest.approx(
        (450 if heavy else 400) * hand, rel=ROUNDING
    )


def test_each_oar_has_its_own_board(benches):
    """The two numbered woods are the looms of the port and of the starboard oar."""
    made = design(benches["Bench 3"].inputs)
    assert [float(made.oars[side].pieces[0].wood.modulus) for side in ("port", "starboard")] == [11.42e9, 9.49e9]


def test_comments_and_empty_lines_are_passed_over(roster):
    """Lines that begin with # and empty lines are no rows, wherever they stand."""
    path = roster("# a class", "", HEADING, "# the first", ROWS[0], "", ROWS[1], "   ")
    assert list(read_roster(path)) == ["Bench 1", "Bench 2"]


@pytest.mark.parametrize(("encoding", "end"), [("utf-8-sig", "\r\n"), ("utf-8", "\r\n"), ("utf-8-sig", "\n")])
def test_a_roster_from_a_spreadsheet_is_read(roster, benches, encoding, end):
    """A byte-order mark and other line ends, as spreadsheets write them, change nothing."""
    read = read_roster(roster(HEADING, *ROWS, encoding=encoding, end=end))
    assert {name: project.inputs for name, project in read.items()} == {n: p.inputs for n, p in benches.items()}


def test_an_empty_cell_leaves_its_key_out(roster):
    """Length and overlap left out are chosen, on whole inches and half inches, and the inboard follows from them."""
    cells = ROWS[0].replace("2286.0 mm", "").replace("152.4 mm", "")
    assert (ROWS[0].count("2286.0 mm"), ROWS[0].count("152.4 mm")) == (1, 1)
    bench = read_roster(roster(HEADING, cells))["Bench 1"]
    assert (bench.inputs.station.length, bench.inputs.station.overlap) == (None, None)
    made = design(bench.inputs)
    found = {name: float(made.values[f"rig.{name}"].value) for name in ("length", "overlap", "inboard", "outboard")}
    # 864 + 2 × 120.6 = 1105.2 mm between the pins
    assert found["inboard"] == pytest.approx((1.1052 + found["overlap"]) / 2, rel=ROUNDING)
    assert found["outboard"] == pytest.approx(found["length"] - found["inboard"], rel=ROUNDING)
    inches = found["length"] / 0.0254
    assert inches == pytest.approx(round(inches), rel=ROUNDING)
    # customary ranges: overlap 50 to 180 mm or a gap of 25 to 75 mm, leverage ratio 2.3 to 2.8 (common practice)
    assert 0.050 <= found["overlap"] <= 0.180 or 0.025 <= -found["overlap"] <= 0.075
    assert 2.3 <= found["outboard"] / found["inboard"] <= 2.8
    assert made.inputs.left_open == ("overlap", "length")


def test_a_whole_class_may_leave_length_and_overlap_to_the_program(tmp_path):
    """With neither column in the table every bench has a rig chosen, said as a finding, and a folder of its own."""
    given = pd.read_csv(io.StringIO("\n".join([HEADING, *ROWS])), dtype=str)
    path = tmp_path / "class.csv"
    given.drop(columns=["rig.length", "rig.overlap", "rig.gap"]).head(3).to_csv(path, index=False)
    made = write_roster(read_roster(path), tmp_path / "out", of="class.csv")
    assert list(made) == ["Bench 1", "Bench 2", "Bench 3"]
    for number, bench in enumerate(made.values(), 1):
        assert bench.inputs.left_open == ("overlap", "length")
        assert len([finding for finding in bench.findings if finding.code in ("choice", "nothing_fits")]) == 1
        stored = json.loads((tmp_path / "out" / f"bench-{number}" / "results.json").read_text(encoding="utf-8"))
        assert stored["values"]["rig.length"]["value"] == float(bench.rig.length)
    table = pd.read_csv(tmp_path / "out" / "class.csv")
    assert len(table) == 3
    assert not table.isna().all().any()


def test_a_short_row_leaves_its_last_cells_out(roster):
    """Cells missing at the end of a row are empty cells: the ratio wanted is then 1.5."""
    cells = ROWS[0].removesuffix(",0.05,1.5")
    project = read_roster(roster(HEADING, cells))["Bench 1"]
    assert project.inputs.wanted_safety == 1.5
    assert project.inputs.wanted_index is None


def test_a_column_may_choose_how_the_bench_is_shown(roster):
    """Any key of a project file may head a column, in any order, display too."""
    path = roster(f"display,{HEADING}", f"ft-in,{ROWS[0]}", f",{ROWS[1]}")
    assert [project.display for project in read_roster(path).values()] == ["ft-in", "mm"]


# faults


def test_every_fault_of_every_row_is_told_in_one_go(roster):
    """Two rows with a fault each: both are named, with bench and line of the file."""
    first, second = ROWS[0].replace("864 mm", "864"), ROWS[1].replace('"spruce, Sitka"', "balsawood", 1)
    faults = faults_of(roster("# a class", HEADING, first, "", ROWS[2], second))
    assert [(fault.line, fault.place.split(",")[0]) for fault in faults] == [(3, "Bench 1"), (6, "Bench 2")]
    assert "beam_at_station" in faults[0].place
    assert "balsawood" in faults[1].problem


@pytest.mark.parametrize("name", ["", " ", "../elsewhere", "/etc", "-", "a" * 60, "x/y", "a\\b", "=1+1"])
def test_a_name_that_could_not_name_a_folder_is_refused(roster, name):
    """A bench is named by letters and figures; a path is no name."""
    fault = only_fault(roster(HEADING, ROWS[0].replace("Bench 1", name, 1)))
    assert (fault.place, fault.line) == ("bench", 2)


@pytest.mark.parametrize("name", ["Bench 1", "bench 1", "Bench-1", "Bench  1", "Bench_1"])
def test_two_benches_may_not_share_a_folder(roster, name):
    """Names that would come to one folder are refused at the second row."""
    fault = only_fault(roster(HEADING, ROWS[0], ROWS[1].replace("Bench 2", name, 1)))
    assert (fault.place, fault.line) == ("bench", 3)


def test_a_wrong_heading_is_told_with_the_nearest_key(roster):
    """A heading that is no key is found in every row, with what was probably meant."""
    fault = only_fault(roster(HEADING.replace("rig.wave_clearance", "rig.wave_clearence"), ROWS[0]))
    assert "rig.wave_clearence" in fault.place
    assert "wave_clearance" in fault.problem


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        ([], "no row"),
        ([HEADING], "no row"),
        (["# only words"], "no row"),
        ([HEADING.replace("bench,", "name,", 1), ROWS[0]], "bench"),
        ([f"{HEADING},rig.length", f"{ROWS[0]},2 m"], "rig.length"),
        ([HEADING, ROWS[0].replace('"spruce, Sitka"', "spruce, Sitka")], "quotes"),
    ],
    ids=["nothing", "heading only", "comments only", "no bench", "a heading twice", "an unquoted comma"],
)
def test_a_roster_that_cannot_be_read_is_refused_in_words(roster, lines, said):
    """What is wrong with the table as a whole is one sentence."""
    fault = only_fault(roster(*lines))
    assert said in f"{fault.place} {fault.problem}"


def test_a_missing_roster_is_said(tmp_path):
    """A file that is not there is named."""
    assert "no file" in only_fault(tmp_path / "class.csv").problem


def test_a_folder_is_no_roster(tmp_path):
    """A folder cannot be read."""
    assert "cannot be read" in only_fault(tmp_path).problem


def test_a_roster_that_is_not_utf8_is_said(roster):
    """A file of another alphabet is refused, not guessed."""
    assert "UTF-8" in only_fault(roster(HEADING, ROWS[0].replace("Bench 1", "Bänk 1"), encoding="latin-1")).problem


# writing


def test_each_bench_has_its_folder_with_a_whole_sheet(benches, tmp_path, pair_files):
    """The folder of a bench holds the same files as the bench's own sheet, byte for byte."""
    designs = write_roster({"Bench 3": benches["Bench 3"]}, tmp_path / "class")
    assert list(designs) == ["Bench 3"]
    assert {entry.name for entry in (tmp_path / "class").iterdir()} == {"bench-3", "class.csv", "oarkit-files.json"}
    assert {file.name: file.read_bytes() for file in (tmp_path / "class" / "bench-3").iterdir()} == pair_files
    assert json.loads(pair_files["results.json"])["title"] == "Bench 3"


@pytest.fixture
def quick(monkeypatch):
    """Stands a file with the bench's name in place of each whole sheet."""
    monkeypatch.setattr("oarkit.roster.sheet_files", lambda project, made: {"sheet.html": project.title.encode()})


def test_the_table_of_the_class_has_a_row_a_bench(benches, tmp_path, quick):
    """class.csv holds the answer of each bench in SI, in one table that pandas reads."""
    write_roster({name: benches[name] for name in ("Bench 3", "Bench 4")}, tmp_path / "class")
    assert (tmp_path / "class" / "bench-4" / "sheet.html").read_text() == "Bench 4"
    table = pd.read_csv(tmp_path / "class" / "class.csv", encoding="utf-8-sig").set_index("bench")
    assert list(table.index) == ["Bench 3", "Bench 4"]
    assert table.loc["Bench 3", "rig.length [m]"] == pytest.approx(2.1590)
    assert table.loc["Bench 4", "rig.length [m]"] == pytest.approx(2.0066)
    assert table.loc["Bench 3", "rig.span [m]"] == pytest.approx(0.978 + 2 * 0.0762)
    assert table.loc["Bench 3", "rig.overlap [m]"] == pytest.approx(0.0762)
    assert table.loc["Bench 4", "rig.overlap [m]"] == pytest.approx(-0.0254)
    assert table.loc["Bench 3", "fails"] == "strength"  # its boards have a grain of 1:12


def test_a_smaller_class_drops_the_benches_that_left(benches, tmp_path, quick):
    """Written again with one bench less, the folder of the other is gone."""
    write_roster(dict(list(benches.items())[:3]), tmp_path / "class")
    write_roster(dict(list(benches.items())[1:3]), tmp_path / "class")
    assert {entry.name for entry in (tmp_path / "class").iterdir()} == {
        "bench-2",
        "bench-3",
        "class.csv",
        "oarkit-files.json",
    }


def test_one_bench_that_cannot_be_built_stops_the_class(roster, tmp_path, quick):
    """The bench is named, in the units of its reader, and nothing is written for the others."""
    path = roster(HEADING, ROWS[0], ROWS[3].replace("320 mm", "1400 mm"))
    with pytest.raises(ProjectError) as caught:
        write_roster(read_roster(path), tmp_path / "class")
    said = str(caught.value)
    assert "Bench 4" in said
    # lock, half a blade and 20 mm of water over it: 1400 + 127/2 + 20, with a blade arm shorter than that
    assert "1483.5 mm" in said
    assert not (tmp_path / "class").exists()


def test_a_folder_of_somebodys_is_refused_before_any_work(benches, tmp_path, monkeypatch):
    """A class folder that holds something else is refused before a design is made."""
    (tmp_path / "class").mkdir()
    (tmp_path / "class" / "notes.txt").write_text("mine")
    monkeypatch.setattr("oarkit.roster.design", lambda inputs: pytest.fail("a design was made"))
    with pytest.raises(FolderError, match=r"notes\.txt"):
        write_roster(benches, tmp_path / "class")
    assert (tmp_path / "class" / "notes.txt").read_text() == "mine"
