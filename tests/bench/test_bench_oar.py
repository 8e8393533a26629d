"""How fast oars are built and bent: one, one of many layers, and a hundred thousand. Run with `pytest tests/bench`."""

import os
import statistics
import subprocess
import sys
from pathlib import Path

import pytest

from oarkit import design, example_project
from oarkit.oar.build import Piece, build_oar
from oarkit.strength.all_cases import all_cases
from oarkit.strength.checks import every_check
from oarkit.strength.told import CrewInputs, LoadInputs

BUILD_TIME, LAYERED_TIME = 0.002, 0.040  #: one oar at 201 stations, of the usual pieces and of every kind [s]
WHOLE_TIME = 0.010  #: one oar at 201 stations with all its load cases and every check [s]
OARS_TIME, OARS_MEMORY = 3.5, 1e9  #: a hundred thousand oars at 101 stations, in a new process [s], [bytes]
MANY_OARS = str(Path(__file__).with_name("many_oars.py"))


@pytest.fixture(scope="module")
def quillet():
    return design(example_project("quillet").inputs).oars["port"]


def test_one_oar(benchmark, quillet):
    """One oar at 201 stations is built in 2 ms."""
    oar = benchmark(build_oar, quillet.shape, quillet.pieces, quillet.leather, count=201)
    assert abs(oar.s.size - 201) <= 1
    assert benchmark.stats.stats.min < BUILD_TIME


def test_a_whole_oar(benchmark, quillet):
    """One oar at 201 stations, built, under all load cases and with every check, in 10 ms."""
    crew = CrewInputs(boat_mass=45.0, boat_length=4.572, rower_mass=75.0, span=1.105)

    def whole():
        oar = build_oar(quillet.shape, quillet.pieces, quillet.leather, count=201)
        return every_check(oar, all_cases(oar, LoadInputs(), crew))

    made = benchmark(whole)
    assert {"caught crab", "push-off", "tip dragged", "hard start"} <= {check.case for check in made}
    print(f"\none oar, {len(made)} checks: {benchmark.stats.stats.median * 1e3:.1f} ms")
    assert benchmark.stats.stats.min < WHOLE_TIME


def test_an_oar_of_every_kind_of_piece(benchmark, quillet):
    """Loom, strip, cheeks, faces, edges, tip and spline at once, at 201 stations."""
    loom, edge, tip = quillet.pieces
    wood = edge.wood
    pieces = [
        loom, Piece(kind="strip", wood=wood, size=0.012, at=0.004),
        Piece(kind="cheek", wood=wood, size=0.004, start=0.3, stop=1.2), Piece(kind="face", wood=wood, size=0.002),
        edge, tip, Piece(kind="spline", wood=wood, size=0.012),
    ]  # fmt: skip
    oar = benchmark(build_oar, quillet.shape, pieces, quillet.leather, count=201)
    assert all((mass > 0).any() for mass in oar.laminate.piece_mass)
    assert benchmark.stats.stats.min < LAYERED_TIME


@pytest.mark.skipif(not hasattr(os, "wait4"), reason="the system does not tell the memory of one child")
def test_a_hundred_thousand_oars(benchmark, environment):
    """100,000 oars at 101 stations: mass, balance, drop, stress at lock and neck under 13 cases, in 3.5 s and 1 GB."""
    times, peaks = [], []

    def run():
        child = subprocess.Popen([sys.executable, MANY_OARS], env=environment, stdout=subprocess.PIPE, text=True)
        said = child.stdout.read()
        child.stdout.close()
        _, status, used = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
        assert child.returncode == 0
        times.append([float(each) for each in said.split()])
        peaks.append(used.ru_maxrss * (1 if sys.platform == "darwin" else 1024))

    run()  # byte code
    times.clear()
    benchmark.pedantic(run, rounds=3)
    wall, busy = (statistics.median(each) for each in zip(*times, strict=True))
    benchmark.extra_info |= {"work [s]": wall, "of the processors [s]": busy, "peak [MB]": max(peaks) / 1e6}
    print(f"\n100,000 oars: {wall:.2f} s ({busy:.2f} s of the processors), peak {max(peaks) / 1e6:.0f} MB")
    assert wall < OARS_TIME
    assert max(peaks) < OARS_MEMORY
