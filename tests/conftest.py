"""Projects, designs and sheets that several tests look at, each made once."""

import os
import subprocess
import sys
from pathlib import Path

# Workers and the kernels they start share the processors: one thread each, or they wait for one another by the minute.
for name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(name, "1")

import pytest

import oarkit
from oarkit import design, example_project
from oarkit.design import Sizing, sized
from oarkit.project import project_from_text
from oarkit.roster import read_roster
from oarkit.sheet.folder import sheet_files
from oarkit.tables import data_folder

SOURCE = Path(oarkit.__file__).parents[1]  #: the tree under test


def all_sized(made):
    """Each oar of a design sized anew."""
    return {side: sized(made, side) for side in made.oars}


def unsized(made):
    """No sizing, where a test looks at other things: it takes as long as the rest of a sheet."""
    return {side: Sizing(findings=(), curve=()) for side in made.oars}


@pytest.fixture(scope="session")
def changed():
    """Makes an example project with some of its lines changed, each found exactly once below the opening comment."""

    def make(*changes, of="quillet"):
        text = (data_folder() / f"{of}.toml").read_text(encoding="utf-8")
        head, body = text.split("\ntitle", 1)
        body = "\ntitle" + body
        for old, new in changes:
            assert body.count(old) == 1, f"{old} stands {body.count(old)} times"
            body = body.replace(old, new)
        return project_from_text(head + body, name=f"{of}.toml")

    return make


@pytest.fixture(scope="session")
def files_of():
    """Designs a project and makes the files of its sheet."""
    return lambda project: sheet_files(project, design(project.inputs))


@pytest.fixture(scope="session")
def quillet():
    return example_project("quillet")


@pytest.fixture(scope="session")
def quillet_files(quillet, files_of):
    return files_of(quillet)


@pytest.fixture(scope="session")
def tumblehod_files(files_of):
    return files_of(example_project("tumblehod"))


@pytest.fixture(scope="session")
def quillet_in_feet(changed):
    return changed(('display = "mm"', 'display = "ft-in"'))


@pytest.fixture(scope="session")
def feet_files(quillet_in_feet, files_of):
    return files_of(quillet_in_feet)


@pytest.fixture(scope="session")
def benches():
    """The class of eight, by bench."""
    return read_roster(data_folder() / "roster.csv")


@pytest.fixture(scope="session")
def pair_files(benches, files_of):
    """The sheet of a bench whose two boards differ."""
    return files_of(benches["Bench 3"])


@pytest.fixture(scope="session")
def environment():
    """Environment in which a new process finds the tree under test and nothing of the caller's folder."""
    return {**os.environ, "PYTHONPATH": str(SOURCE)}


@pytest.fixture(scope="session")
def run_oarkit(environment):
    """Runs `oarkit WORDS` in a new process, from a given folder; no run may end in a traceback."""

    def run(*words, cwd, **more):
        command = [sys.executable, "-m", "oarkit", *map(str, words)]
        more = {"env": environment, "text": True, "timeout": 60, **more}
        done = subprocess.run(command, cwd=cwd, capture_output=True, **more)
        assert "Traceback" not in done.stderr, done.stderr
        return done

    return run
