"""How fast oars are built and bent: one, one of many layers, and a hundred thousand. Run with `pytest tests/bench`."""

import os
import statistics
import subprocess
import sys

import pytest

from oarkit import design, example_project
from oarkit.oar.build import Piece, build_oar

BUILD_TIME, LAYERED_TIME = 0.002, 0.040  #: one oar at 201 stations, of the usual pieces and of every kind [s]
OARS_TIME, OARS_MEMORY = 3.0, 1e9  #: a hundred thousand oars at 101 stations, in a new process [s], [bytes]


@pytest.fixture(scope="module")
def quillet():
    return design(example_project("quillet").inputs).oars["port"]


def test_one_oar(benchmark, quillet):
    """One oar at 201 stations is built in 2 ms."""
    oar = benchmark(build_oar, quillet.shape, quillet.pieces, quillet.leather, count=201)
    assert abs(oar.s.size - 201) <= 1
    assert benchmark.stats.stats.min < BUILD_TIME


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


OARS = """
import time
from dataclasses import dataclass, replace
import numpy as np
from oarkit import design, example_project
from oarkit.oar.build import build_oar
from oarkit.oar.mass import balance, mass
from oarkit.strength.bend import bench_drop
from oarkit.strength.hard_start import stress_along
from oarkit.stroke.blocks import in_blocks

@dataclass(frozen=True, slots=True, kw_only=True)
class Answers:
    mass: np.ndarray
    balance: np.ndarray
    drop: np.ndarray
    lock: np.ndarray
    neck: np.ndarray

def answers(*, shape, pieces, leather):
    oar = build_oar(shape, pieces, leather, count=101)
    stress = stress_along(oar, force=400.0)[0]
    lock, neck = (
        stress[:, int(np.argmin(np.abs(oar.s[0] - place)))] for place in (shape.inboard, shape.blade_root)
    )  # the same station of every oar
    return Answers(mass=mass(oar), balance=balance(oar), drop=bench_drop(oar), lock=lock, neck=neck)

count = 100_000
oar = design(example_project("quillet").inputs).oars["port"]
loom, edge, tip = oar.pieces
shape = replace(
    oar.shape, lock_diameter=np.linspace(0.040, 0.050, count), neck_thickness=np.linspace(0.034, 0.028, count),
    neck_width=np.linspace(0.025, 0.029, count), tip_thickness=np.linspace(0.012, 0.010, count),
)
pieces = (
    replace(loom, wood=replace(loom.wood, modulus=np.linspace(9e9, 12e9, count))),
    replace(edge, size=np.linspace(0.004, 0.008, count)), tip,
)
start, busy = time.perf_counter(), time.process_time()
found = in_blocks(answers, size=256, shape=shape, pieces=pieces, leather=oar.leather)
taken, busy = time.perf_counter() - start, time.process_time() - busy
for values in (found.mass, found.balance, found.drop, found.lock, found.neck):
    assert values.shape == (count,) and np.isfinite(values).all() and (values > 0).all()
assert (np.diff(found.lock) < 0).all()  # thicker at the lock: less stress
print(taken, busy)
"""


@pytest.mark.skipif(not hasattr(os, "wait4"), reason="the system does not tell the memory of one child")
def test_a_hundred_thousand_oars(benchmark, environment, tmp_path):
    """100,000 oars at 101 stations with mass, balance, drop and stress at lock and neck, in 3 s and 1 GB."""
    times, peaks = [], []

    def run():
        child = subprocess.Popen(
            [sys.executable, "-c", OARS], cwd=tmp_path, env=environment, stdout=subprocess.PIPE, text=True
        )
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
