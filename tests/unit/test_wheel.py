"""The wheel holds everything: installed into an empty folder, it makes the sheet without the tree it was built from."""

import importlib.util
import json
import re
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

import oarkit

TREE = Path(__file__).parents[2]
#: What a build reads.
PARTS = ("oarkit", "data", "notebooks", "pyproject.toml", "README.md", "LICENSE")
#: What pip says where it cannot fetch what a build needs; any other failure is one of the library's own.
OFFLINE = (
    "No matching distribution",
    "Could not find a version",
    "connection",
    "Network is unreachable",
    "Temporary failure",
)
#: Runs `python -m oarkit sheet` and tells where the data lay and which files of the tree were opened on the way.
WATCHED = """
import json, runpy, sys
opened = []
sys.addaudithook(lambda event, given: opened.append(str(given[0])) if event == "open" else None)
tree, sys.argv[1:] = tuple(json.loads(sys.argv[1])), ["sheet", sys.argv[2], "--out", "sheet"]
try:
    runpy.run_module("oarkit", run_name="__main__", alter_sys=True)
except SystemExit as end:
    status = end.code
from oarkit.tables import data_folder
folders = {name: str(data_folder(name)) for name in ("data", "notebooks")}
print(json.dumps({"status": status, "seen": [name for name in opened if name.startswith(tree)], **folders}))
"""


def _run(*words, **more):
    return subprocess.run([sys.executable, "-m", *map(str, words)], capture_output=True, text=True, timeout=300, **more)


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    """The wheel, built from a copy of the tree."""
    place = tmp_path_factory.mktemp("wheel")
    (place / "tree").mkdir()
    for part in (TREE / name for name in PARTS):
        copied = place / "tree" / part.name
        if part.is_file():
            shutil.copy(part, copied)
        else:
            shutil.copytree(part, copied, ignore=shutil.ignore_patterns("__pycache__", ".*"))
    isolated = [] if importlib.util.find_spec("hatchling") is None else ["--no-build-isolation"]
    done = _run("pip", "wheel", "--no-deps", *isolated, "--wheel-dir", place / "made", place / "tree", cwd=place)
    if done.returncode and any(said in done.stdout + done.stderr for said in OFFLINE):
        pytest.skip("the build system of the wheel cannot be fetched here")
    assert done.returncode == 0, done.stdout + done.stderr
    (made,) = (place / "made").glob("*.whl")
    return made


@pytest.fixture(scope="module")
def installed(wheel, tmp_path_factory):
    """A folder that holds the installed wheel and nothing else."""
    target = tmp_path_factory.mktemp("installed") / "target"
    done = _run("pip", "install", "--no-deps", "--no-index", "--target", target, wheel, cwd=target.parent)
    assert done.returncode == 0, done.stderr
    return target


def names(folder):
    return {
        path.relative_to(folder).as_posix()
        for path in folder.rglob("*")
        if path.is_file() and not {".ipynb_checkpoints", "__pycache__"} & set(path.parts)
    }


@pytest.mark.parametrize("folder", ["data", "notebooks"])
def test_data_and_notebooks_travel_inside(wheel, folder):
    """Every table, example and worksheet lies under oarkit/ in the wheel, byte for byte."""
    with zipfile.ZipFile(wheel) as held:
        inside = {
            name.removeprefix(f"oarkit/{folder}/") for name in held.namelist() if name.startswith(f"oarkit/{folder}/")
        }
        assert inside == names(TREE / folder)
        assert all(held.read(f"oarkit/{folder}/{name}") == (TREE / folder / name).read_bytes() for name in inside)
    assert {"data": "words.csv", "notebooks": "00_start_here.ipynb"}[folder] in inside


def test_every_module_and_template_travels(wheel):
    """The wheel holds the package as it is and nothing of the tests or the tools."""
    with zipfile.ZipFile(wheel) as held:
        inside = set(held.namelist())
    assert {f"oarkit/{name}" for name in names(TREE / "oarkit")} <= inside
    assert {name.split("/")[0] for name in inside} == {"oarkit", f"oarkit-{oarkit.__version__}.dist-info"}


def test_the_label_agrees_with_the_package(wheel):
    """Version, licence and command of the wheel are those of the package."""
    assert wheel.name == f"oarkit-{oarkit.__version__}-py3-none-any.whl"
    with zipfile.ZipFile(wheel) as held:
        info = f"oarkit-{oarkit.__version__}.dist-info"
        assert "oarkit = oarkit.cli:main" in held.read(f"{info}/entry_points.txt").decode()
        label = held.read(f"{info}/METADATA").decode("utf-8")
        assert (TREE / "LICENSE").read_bytes() in [held.read(name) for name in held.namelist() if "LICENSE" in name]
    assert re.search(r"^License-Expression: MIT$", label, re.MULTILINE)
    assert re.search(r"^Requires-Python: >=3\.11$", label, re.MULTILINE)


def test_the_installed_wheel_makes_a_sheet_of_its_own(installed, environment, tmp_path, quillet_files):
    """From an empty folder, the installed library opens no file of the tree and makes the same sheet."""
    alone = {**environment, "PYTHONPATH": str(installed)}
    project = installed / "oarkit" / "data" / "quillet.toml"
    done = subprocess.run(
        [sys.executable, "-c", WATCHED, json.dumps([str(TREE / name) for name in PARTS]), str(project)],
        cwd=tmp_path, env=alone, capture_output=True, text=True, timeout=120,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    told = json.loads(done.stdout.splitlines()[-1])
    inside = installed / "oarkit"
    assert told == {"status": 0, "data": str(inside / "data"), "notebooks": str(inside / "notebooks"), "seen": []}
    assert {name: (tmp_path / "sheet" / name).read_bytes() for name in quillet_files} == quillet_files


def test_the_installed_command_runs(installed, environment, tmp_path):
    """The command that the wheel installs finds its examples in the wheel."""
    command = installed / "bin" / "oarkit"
    if not command.exists():
        pytest.skip("pip puts commands elsewhere on this system")
    alone = {**environment, "PYTHONPATH": str(installed)}
    done = subprocess.run(
        [command, "example", "."], cwd=tmp_path, env=alone, capture_output=True, text=True, timeout=60
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert (tmp_path / "quillet.toml").read_bytes() == (TREE / "data" / "quillet.toml").read_bytes()
