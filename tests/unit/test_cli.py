"""The command line in a process of its own, from an empty folder: what it prints, writes, refuses and returns."""

import os
import re
import shutil
import signal
import subprocess
import sys
import time

import pandas as pd
import pytest

import oarkit
from oarkit.sheet.folder import write_folder
from oarkit.tables import data_folder

QUILLET = (data_folder() / "quillet.toml").read_text(encoding="utf-8")
SHEET = {
    "sheet.html", "sheet.pdf", "results.json", "results.csv", "checks.csv", "stations.csv", "paths.csv", "marks.csv",
    "working.csv",
}  # fmt: skip
RIG = {"rig.html", "length.svg", "stroke.svg"}
RECORD = "oarkit-files.json"
COLUMNS = 80
#: Terminals that know no letter beyond ASCII.
ASCII = {
    "PYTHONIOENCODING=ascii": {"PYTHONIOENCODING": "ascii"},
    "LC_ALL=C": {"LC_ALL": "C", "LANG": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"},
}


def names(folder):
    return {entry.relative_to(folder).as_posix() for entry in folder.rglob("*")}


def write(folder, *changes, name="mine.toml"):
    """A project file in a folder, with parts of the example changed."""
    text = QUILLET
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    (folder / name).write_text(text, encoding="utf-8")
    return folder / name


def widest(text):
    return max(text.splitlines(), key=len, default="")


# asking


def test_version_is_the_packages(run_oarkit, tmp_path):
    """--version prints name and version, and nothing else."""
    done = run_oarkit("--version", cwd=tmp_path)
    assert (done.returncode, done.stdout, done.stderr) == (0, f"oarkit {oarkit.__version__}\n", "")


@pytest.mark.parametrize(
    "words", [(), ("--help",), ("sheet", "--help"), ("rig", "--help"), ("woods", "--help"), ("example", "--help")]
)
def test_help_says_what_there_is_and_fits_a_terminal(run_oarkit, environment, tmp_path, words):
    """Help names the commands or the options, ends with status 0 and fits 80 columns."""
    done = run_oarkit(*words, cwd=tmp_path, env={**environment, "COLUMNS": str(COLUMNS)})
    assert (done.returncode, done.stderr) == (0, "")
    for said in ("sheet", "rig", "woods", "example") if words in ((), ("--help",)) else ("usage", words[0]):
        assert said in done.stdout
    assert len(widest(done.stdout)) <= COLUMNS, widest(done.stdout)
    assert names(tmp_path) == set()


@pytest.mark.parametrize(
    "words", [("oars",), ("sheet",), ("rig",), ("sheet", "a", "b"), ("--colour",), ("example", "x", "--which", "y")]
)
def test_words_that_mean_nothing_are_refused(run_oarkit, tmp_path, words):
    """An unknown command or option ends with status 2 and how it is used."""
    done = run_oarkit(*words, cwd=tmp_path)
    assert done.returncode == 2
    assert "usage: oarkit" in done.stderr
    assert names(tmp_path) == set()


# sheet


@pytest.mark.parametrize("which", ["quillet", "tumblehod"])
def test_an_example_becomes_a_sheet(run_oarkit, environment, tmp_path, request, which):
    """`example`, then `sheet` on what it wrote: status 0 and every file, byte for byte as made in another process.

    The two processes have different hash seeds, and the summary fits 80 columns.
    """
    given = run_oarkit("example", "boats", "--which", which, cwd=tmp_path)
    assert given.returncode == 0
    assert f"boats/{which}.toml" in given.stdout
    seeded = {**environment, "PYTHONHASHSEED": "1", "COLUMNS": str(COLUMNS)}
    done = run_oarkit("sheet", f"boats/{which}.toml", "--out", "sheet", cwd=tmp_path, env=seeded)
    assert (done.returncode, done.stderr) == (0, "")
    assert names(tmp_path) == {"boats", f"boats/{which}.toml", "sheet", *(f"sheet/{name}" for name in (*SHEET, RECORD))}
    files = request.getfixturevalue(f"{which}_files")
    assert {name for name in SHEET if (tmp_path / "sheet" / name).read_bytes() != files[name]} == set()
    passing = {"quillet": "overlap .* 152.4 mm", "tumblehod": "gap between the handles .* 50.8 mm"}[which]
    for said in ("length", "inboard", "span", passing, "thigh clearance", "mass", "least safety ratio", "sheet.html"):
        assert re.search(said, done.stdout), said
    assert len(widest(done.stdout)) <= COLUMNS, widest(done.stdout)


def test_a_failing_check_is_status_one(run_oarkit, environment, tmp_path):
    """900 N at the hand fails the check: status 1 and a finding, but the sheet is written.

    Without --out its folder is named after the file and lies where one stands, not beside the file. The terminal knows
    ASCII only, the title and a negative clearance have signs of their own: they are printed as well as can be, and
    filed in full.
    """
    title = "Möwe ½ – 5 × 2"
    (tmp_path / "far").mkdir()
    (tmp_path / "here").mkdir()
    project = write(
        tmp_path / "far",
        ("Quillet, centre station", title),
        ('thigh_thickness = "160 mm"', 'thigh_thickness = "260 mm"'),
        ("[wanted]", '[loads]\nhard_start = "900 N"\n\n[wanted]'),
    )
    done = run_oarkit("sheet", project, cwd=tmp_path / "here", env={**environment, **ASCII["LC_ALL=C"]})
    assert (done.returncode, done.stderr) == (1, "")
    assert names(tmp_path / "far") == {"mine.toml"}
    assert names(tmp_path / "here") == {"mine-sheet", *(f"mine-sheet/{name}" for name in (*SHEET, RECORD))}
    assert "Fails:" in done.stdout
    assert "900" in done.stdout
    assert len(widest(done.stdout)) <= COLUMNS
    assert title in (tmp_path / "here" / "mine-sheet" / "sheet.html").read_text(encoding="utf-8")


def test_a_roster_becomes_a_folder_a_bench(run_oarkit, tmp_path):
    """A roster gives a sheet a bench and a table of the class, and status 1 where a bench's check fails."""
    lines = [line for line in (data_folder() / "roster.csv").read_text(encoding="utf-8").splitlines() if line[0] != "#"]
    weak = next(line for line in lines if line.startswith("Bench 4,")).replace("43.5 mm", "35 mm")
    (tmp_path / "class.CSV").write_text(f"{lines[0]}\n{weak}\n", encoding="utf-8")
    done = run_oarkit("sheet", "class.CSV", "--out", "class", cwd=tmp_path)
    # 32 × 199.6 N m/(π × 35³ mm³) = 47 MPa, of a wood whose lower 5 % is under 85 × (1 − 1.645 × 0.16) = 63 MPa
    assert (done.returncode, done.stderr) == (1, "")
    assert {entry.name for entry in (tmp_path / "class").iterdir()} == {"bench-4", "class.csv", RECORD}
    assert names(tmp_path / "class" / "bench-4") == SHEET
    assert re.search(r"^  Bench 4 .*fails", done.stdout, re.MULTILINE)
    assert len(widest(done.stdout)) <= COLUMNS


BAD = {
    "no such file": (None, "there is no file"),
    "not text": (b"\xff\xfe\x00binary", "UTF-8"),
    "an unknown key": (QUILLET.replace("wave_clearance", "wave_clearence").encode(), "did you mean wave_clearance"),
    "a foreign wood": (QUILLET.replace("spruce, Sitka", "balsa of the moon").encode(), "balsa of the moon"),
    "no oar that could be built": (QUILLET.replace('"2286 mm"', '"1150 mm"').encode(), "blade"),
}


@pytest.mark.parametrize("which", BAD)
def test_a_bad_file_is_refused_in_words(run_oarkit, tmp_path, which):
    """A file that cannot be used ends with status 2, a sentence that says why, and nothing written."""
    data, said = BAD[which]
    if data is not None:
        (tmp_path / "mine.toml").write_bytes(data)
    before = names(tmp_path)
    done = run_oarkit("sheet", "mine.toml", "--out", "a/sheet", cwd=tmp_path)
    assert done.returncode == 2
    assert done.stdout == ""
    assert done.stderr.startswith("oarkit: ")
    assert re.search(said, done.stderr), done.stderr
    assert "mine.toml" in done.stderr or "line" in done.stderr
    assert names(tmp_path) == before


def test_a_folder_in_place_of_a_file_is_refused(run_oarkit, tmp_path):
    """A folder is no project file."""
    done = run_oarkit("sheet", tmp_path, cwd=tmp_path)
    assert done.returncode == 2
    assert "is a folder" in done.stderr


@pytest.mark.parametrize("out", [".", "theirs", "a" * 300], ids=lambda out: out[:12])
def test_an_output_folder_that_must_not_be_written_is_refused(run_oarkit, tmp_path, out):
    """The current folder, a folder of somebody's and a name too long: status 2 and a sentence."""
    here = tmp_path / "here"
    (here / "theirs").mkdir(parents=True)
    (here / "theirs" / "notes.txt").write_text("mine")
    write(here)
    before = names(tmp_path)
    done = run_oarkit("sheet", "mine.toml", "--out", out, cwd=here)
    assert done.returncode == 2
    assert done.stdout == ""
    assert done.stderr.startswith("oarkit: ")
    assert names(tmp_path) == before


# rig


@pytest.mark.parametrize("which", ["quillet", "tumblehod"])
def test_the_rig_fits_one_screen(run_oarkit, environment, tmp_path, which):
    """`rig` says on 80 columns why this length and how the hands pass, and writes its page and two drawings."""
    run_oarkit("example", ".", "--which", which, cwd=tmp_path)
    done = run_oarkit("rig", f"{which}.toml", cwd=tmp_path, env={**environment, "COLUMNS": str(COLUMNS)})
    assert (done.returncode, done.stderr) == (0, "")
    folder = f"{which}-rig"
    assert names(tmp_path) == {f"{which}.toml", folder, *(f"{folder}/{name}" for name in (*RIG, RECORD))}
    length = {"quillet": "2286.0 mm", "tumblehod": "2209.8 mm"}[which]
    for said in (f"length {length}", "Rules of thumb", "> this oar", "Left open", "Catch", "finish", "rig.html"):
        assert said in done.stdout, said
    assert len(widest(done.stdout)) <= COLUMNS, widest(done.stdout)
    assert len(done.stdout.splitlines()) <= 60  # a tall terminal


def test_the_rig_of_a_file_that_leaves_it_open_is_chosen(run_oarkit, tmp_path):
    """Without overhang, overlap and length the rig is chosen, and said to be; without a body there is no stroke."""
    changes = (('lock_overhang = "120.65 mm"', ""), ('overlap = "152.4 mm"', ""), ('length = "2286 mm"', ""))
    write(tmp_path, *changes, ('stature = "1725 mm"', ""))
    done = run_oarkit("rig", "mine.toml", "--out", "a/rig", cwd=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    assert "Left to the program" in done.stdout
    assert "No stroke" in done.stdout
    assert names(tmp_path / "a" / "rig") == {*RIG - {"stroke.svg"}, RECORD}


def test_a_weak_bracket_is_status_one(run_oarkit, tmp_path):
    """A bracket of a weak metal gives way: status 1, a finding, and the page is written."""
    root = 'washer_diameter = "30 mm", root_width = "20 mm", root_thickness = "6 mm", root_strength = "50 MPa"'
    write(tmp_path, ('washer_diameter = "30 mm"', root))
    done = run_oarkit("rig", "mine.toml", cwd=tmp_path)
    assert (done.returncode, done.stderr) == (1, "")
    assert "Fails:" in done.stdout
    assert names(tmp_path / "mine-rig") > RIG


@pytest.mark.parametrize("which", BAD)
def test_a_bad_file_has_no_rig(run_oarkit, tmp_path, which):
    """What makes no sheet makes no rig either: status 2, a sentence, nothing written."""
    data, said = BAD[which]
    if data is not None:
        (tmp_path / "mine.toml").write_bytes(data)
    before = names(tmp_path)
    done = run_oarkit("rig", "mine.toml", "--out", "a/rig", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert re.search(said, done.stderr), done.stderr
    assert names(tmp_path) == before


def test_a_rig_is_never_written_over_what_is_not_its_own(run_oarkit, tmp_path):
    """A folder with a stranger's file is left alone."""
    write(tmp_path)
    (tmp_path / "theirs").mkdir()
    (tmp_path / "theirs" / "notes.txt").write_text("mine")
    done = run_oarkit("rig", "mine.toml", "--out", "theirs", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert names(tmp_path / "theirs") == {"notes.txt"}


def test_locks_over_the_rail_itself_have_a_sheet(run_oarkit, tmp_path):
    """A bracket whose lock stands over the rail's face bends nothing: its checks have no load, and the sheet no gap."""
    write(tmp_path, ('lock_overhang = "120.65 mm"', 'lock_overhang = "0 mm"'))
    done = run_oarkit("sheet", "mine.toml", cwd=tmp_path)
    assert done.returncode in (0, 1)
    assert "inf" not in (tmp_path / "mine-sheet" / "results.csv").read_text(encoding="utf-8")


# woods


def test_all_woods_are_listed(run_oarkit, tmp_path):
    """Without words the whole table is shown, with headings, units and where it comes from."""
    done = run_oarkit("woods", cwd=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    listed = " ".join(done.stdout.split())
    for said in (*pd.read_csv(data_folder() / "strength.csv")["species_common"], "GPa", "kg/m3", "Wood Handbook"):
        assert " ".join(said.split()) in listed, said


def test_woods_are_found_by_word(run_oarkit, tmp_path):
    """`woods spruce` shows spruces and nothing else; Sitka has the handbook's 10.8 GPa and 70 MPa (Table 5-3a)."""
    done = run_oarkit("woods", "spruce", cwd=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    body = [line for line in done.stdout.splitlines() if re.search(r"\d\.\d\d ", line)]
    assert len(body) >= 4
    assert all("pruce" in line for line in body)
    sitka = next(line for line in body if line.startswith("Spruce, Sitka") and "USA" in line)
    assert re.search(r"\b10\.80\s+70\b", sitka)


def test_a_wood_is_found_by_another_name(run_oarkit, tmp_path):
    """A name in common use leads to the table's own name."""
    done = run_oarkit("woods", "yellow-cedar", cwd=tmp_path)
    assert done.returncode == 0
    assert "Cedar, yellow" in done.stdout


@pytest.mark.parametrize("word", ["nonsense", "?!"])
def test_a_wood_that_is_not_there_is_said(run_oarkit, tmp_path, word):
    """A name that nothing matches ends with status 2 and where to look."""
    done = run_oarkit("woods", word, cwd=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert word in done.stderr
    assert "oarkit woods" in done.stderr


# example


@pytest.mark.parametrize("which", ["quillet", "tumblehod", "roster"])
def test_an_example_is_the_file_that_travels_with_the_library(run_oarkit, tmp_path, which):
    """The example is written letter for letter, into folders that it makes, and says what comes next."""
    done = run_oarkit("example", "a/b", "--which", which, cwd=tmp_path)
    name = "roster.csv" if which == "roster" else f"{which}.toml"
    assert (done.returncode, done.stderr) == (0, "")
    assert names(tmp_path) == {"a", "a/b", f"a/b/{name}"}
    assert (tmp_path / "a" / "b" / name).read_bytes() == (data_folder() / name).read_bytes()
    assert "oarkit sheet" in done.stdout


def test_an_example_never_writes_over_a_file(run_oarkit, tmp_path):
    """A file of that name stays as it is, and the status is 2."""
    (tmp_path / "boats").mkdir()
    (tmp_path / "boats" / "quillet.toml").write_text("mine")
    done = run_oarkit("example", "boats", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert "there already" in done.stderr
    assert (tmp_path / "boats" / "quillet.toml").read_text() == "mine"


@pytest.mark.parametrize("folder", ["mine.txt", "mine.txt/boats"])
def test_an_example_is_not_put_into_a_file(run_oarkit, tmp_path, folder):
    """A file is no folder, at the end of the path or within it."""
    (tmp_path / "mine.txt").write_text("mine")
    done = run_oarkit("example", folder, cwd=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.startswith("oarkit: ")
    assert names(tmp_path) == {"mine.txt"}


# pipes, disks, signals, alphabets


def test_the_head_of_a_list_is_enough(environment, tmp_path):
    """`oarkit woods | head -1` shows one line and no complaint."""
    bash = shutil.which("bash")
    if bash is None:
        pytest.skip("there is no bash")
    line = f'set -o pipefail; "{sys.executable}" -m oarkit woods | head -1'
    done = subprocess.run([bash, "-c", line], cwd=tmp_path, env=environment, capture_output=True, text=True, timeout=60)
    assert done.stderr == ""
    assert len(done.stdout.splitlines()) == 1


@pytest.mark.parametrize("words", [("woods",), ("example", "boats"), ("--help",)], ids=" ".join)
def test_a_reader_that_goes_away_is_no_fault(environment, tmp_path, words):
    """Output that nobody reads any more ends the run without a word, short or long."""
    command = [sys.executable, "-m", "oarkit", *words]
    run = subprocess.Popen(
        command, cwd=tmp_path, env=environment, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    run.stdout.close()
    said = run.stderr.read()
    run.stderr.close()
    assert run.wait(timeout=60) == 0
    assert said == ""


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="there is no /dev/full")
@pytest.mark.parametrize("words", [("woods",), ("example", "boats")], ids=" ".join)
def test_output_onto_a_full_disk_is_said(environment, tmp_path, words):
    """Output that cannot be stored ends with status 2 and a sentence."""
    with open("/dev/full", "w") as full:
        done = subprocess.run(
            [sys.executable, "-m", "oarkit", *words],
            cwd=tmp_path, env=environment, stdout=full, stderr=subprocess.PIPE, text=True, timeout=60,
        )  # fmt: skip
    assert "Traceback" not in done.stderr
    assert "No space left" in done.stderr
    assert done.returncode == 2


#: Runs the command line with a disk so slow that the writing of a sheet can be watched.
SLOW = """
import os, sys, time
real = os.fsync
def fsync(handle):
    real(handle)
    time.sleep(30)
os.fsync = fsync
from oarkit.cli import main
sys.exit(main(sys.argv[1:]))
"""


def test_ctrl_c_leaves_nothing_half_written(environment, tmp_path):
    """An interrupt in the middle of the writing ends with status 130 and the old sheet as it was."""
    write(tmp_path)
    write_folder(tmp_path / "a" / "sheet", {"sheet.html": b"old"})
    kept = names(tmp_path)
    run = subprocess.Popen(
        [sys.executable, "-c", SLOW, "sheet", "mine.toml", "--out", "a/sheet"],
        cwd=tmp_path, env=environment, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    until = time.monotonic() + 60
    while not list(tmp_path.glob("a/.sheet.new-*/sheet.html")):
        assert run.poll() is None, run.stderr.read()
        assert time.monotonic() < until, "the sheet was never written"
        time.sleep(0.02)
    run.send_signal(signal.SIGINT)
    out, err = run.communicate(timeout=20)
    assert run.returncode == 130
    assert "Traceback" not in err
    assert "stopped" in err
    assert out == ""
    assert names(tmp_path) == kept
    assert (tmp_path / "a" / "sheet" / "sheet.html").read_bytes() == b"old"


@pytest.mark.parametrize("alphabet", ASCII)
@pytest.mark.parametrize("words", [("--help",), ("woods",)], ids=" ".join)
def test_a_terminal_of_plain_letters_is_no_fault(run_oarkit, environment, tmp_path, alphabet, words):
    """A terminal that knows ASCII only is served as well as it can be."""
    done = run_oarkit(*words, cwd=tmp_path, env={**environment, **ASCII[alphabet]}, encoding="utf-8")
    assert done.returncode == 0
    assert "wood" in done.stdout


def test_a_roster_has_no_rig_of_its_own(run_oarkit, tmp_path):
    """`rig` takes one boat: a roster is refused with what to do instead, and nothing is written."""
    assert run_oarkit("example", ".", "--which", "roster", cwd=tmp_path).returncode == 0
    done = run_oarkit("rig", "roster.csv", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert "`oarkit sheet roster.csv`" in done.stderr
    assert names(tmp_path) == {"roster.csv"}
