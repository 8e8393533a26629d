"""How fast and how large: import, main job, many designs at once. Out of the normal run: `pytest tests/bench`."""

import os
import statistics
import subprocess
import sys
from dataclasses import replace

import numpy as np
import pytest

from oarkit import design, example_project
from oarkit.design.station import choice_of
from oarkit.oar.build import build_oar
from oarkit.rig.station import rig_from_station
from oarkit.strength.bend import bench_drop
from oarkit.tables import data_folder

IMPORT_RATIO = 2.0  #: `import oarkit` over `import numpy`
JOB_TIME, JOB_MEMORY = 6.0, 400e6  #: main job in a new process [s], [bytes]
RIGS_TIME, OARS_TIME = 0.050, 1.5  #: a thousand rigs, two hundred oars [s]
STROKES_TIME, STROKES_MEMORY = 3.0, 500e6  #: a hundred thousand rigs with their strokes, in a new process [s], [bytes]
CHOICE_TIME = 1.0  #: a rig chosen with everything left open [s]


def seconds_to_import(name, environment, cwd):
    """Time that an import takes in a new process [s]."""
    line = f"import time; t = time.perf_counter(); import {name}; print(time.perf_counter() - t)"
    done = subprocess.run(
        [sys.executable, "-c", line], cwd=cwd, env=environment, capture_output=True, text=True, check=True
    )
    return float(done.stdout)


def test_import_costs_little_more_than_numpy(benchmark, environment, tmp_path):
    """`import oarkit` takes at most twice the time of `import numpy`: medians of eleven, taken in turn."""
    taken = {"numpy": [], "oarkit": []}

    def in_turn():
        for name, times in taken.items():
            times.append(seconds_to_import(name, environment, tmp_path))

    in_turn()  # byte code and disk caches
    for times in taken.values():
        times.clear()
    benchmark.pedantic(in_turn, rounds=11)
    numpy, package = (statistics.median(taken[name]) for name in ("numpy", "oarkit"))
    benchmark.extra_info |= {"numpy [s]": numpy, "oarkit [s]": package, "ratio": package / numpy}
    print(f"\nimport: numpy {numpy:.3f} s, oarkit {package:.3f} s, ratio {package / numpy:.2f}")
    assert package <= IMPORT_RATIO * numpy


@pytest.mark.skipif(not hasattr(os, "wait4"), reason="the system does not tell the memory of one child")
def test_the_main_job_is_quick_and_small(benchmark, environment, tmp_path):
    """The sheet of the example, in a new process with fonts listed before, stays under 6 s and 400 MB."""
    project = str(data_folder() / "quillet.toml")
    peaks = []

    def job():
        command = [sys.executable, "-m", "oarkit", "sheet", project, "--out", "sheet"]
        run = subprocess.Popen(command, cwd=tmp_path, env=environment, stdout=subprocess.DEVNULL)
        _, status, used = os.wait4(run.pid, 0)
        run.returncode = os.waitstatus_to_exitcode(status)
        assert run.returncode == 0
        peaks.append(used.ru_maxrss * (1 if sys.platform == "darwin" else 1024))

    job()  # list of fonts, byte code
    benchmark.pedantic(job, rounds=5)
    taken = benchmark.stats.stats
    benchmark.extra_info["peak [MB]"] = max(peaks) / 1e6
    print(f"\nmain job: {taken.median:.2f} s (at most {taken.max:.2f} s), peak {max(peaks) / 1e6:.0f} MB")
    assert taken.max < JOB_TIME
    assert max(peaks) < JOB_MEMORY


def test_a_thousand_rigs_at_once(benchmark):
    """A thousand stations go through one call as arrays."""
    beams = np.linspace(0.80, 1.40, 1000)
    rigs = benchmark(
        rig_from_station,
        beam=beams, lock_overhang=0.05, seat_above_water=0.08, lock_above_water=0.30, overlap=0.10,
        leverage_ratio=np.linspace(2.4, 2.8, 1000), thigh_thickness=0.16,
    )  # fmt: skip
    # span is beam and twice the overhang: as many answers as questions
    assert np.asarray(rigs.span) == pytest.approx(beams + 0.10, rel=1e-12)
    print(f"\n1,000 rigs: {benchmark.stats.stats.median * 1e3:.2f} ms")
    assert benchmark.stats.stats.median < RIGS_TIME


STROKES = """
import time
import numpy as np
from oarkit.rig.station import rig_from_station
from oarkit.rig.waves import clearance_in_waves
from oarkit.rower.legs import Legs
from oarkit.stroke.blocks import in_blocks
from oarkit.stroke.clear import Sides
from oarkit.stroke.station import stroke_of_rig

count = 100_000
start = time.perf_counter()
beam, lock = np.linspace(0.80, 1.40, count), np.linspace(0.34, 0.26, count)
rigs = rig_from_station(
    beam=beam, lock_overhang=0.05, seat_above_water=0.08, lock_above_water=lock, overlap=0.12,
    leverage_ratio=np.linspace(2.4, 2.8, count), thigh_thickness=0.16,
)
curves = [
    clearance_in_waves(
        lock_above_water=lock, lock_above_seat=rigs.lock_above_seat, hand_arm=rigs.hand_arm, blade_arm=rigs.blade_arm,
        span=rigs.span, half_height=half, thigh_thickness=0.16, wave=wave, heel=heel,
    )
    for half in (0.065, 0.005) for wave in (0.05, 0.10, 0.15) for heel in (0.0, 0.035)
]
legs = Legs(hip_x=0.43, thigh_top=0.16, knee_x=0.03, knee_top=0.21, toe_x=-0.37, toe_top=0.08)
sides = Sides(
    rail_inner=beam / 2 - 0.019, rail_outer=beam / 2, rail_top=lock - 0.045, pin=rigs.span / 2, lock_above_water=lock,
    bracket_half_length=0.1,
)
strokes = in_blocks(
    stroke_of_rig, rig=rigs, reach_catch=np.linspace(0.30, 0.45, count), reach_finish=0.25, legs=legs, sides=sides
)
taken = time.perf_counter() - start
assert strokes.sweep.shape == (count, 41)
for found in (strokes.legs.clearance, strokes.sides.clearance, strokes.mixed.least, *curves):
    assert np.shape(found) == (count,) and not np.isnan(found).any()
print(taken)
"""


@pytest.mark.skipif(not hasattr(os, "wait4"), reason="the system does not tell the memory of one child")
def test_a_hundred_thousand_strokes(benchmark, environment, tmp_path):
    """Rigs, clearance curves and strokes of 100,000 stations, legs and sides at 41 angles, in 3 s and 500 MB."""
    times, peaks = [], []

    def run():
        child = subprocess.Popen(
            [sys.executable, "-c", STROKES], cwd=tmp_path, env=environment, stdout=subprocess.PIPE, text=True
        )
        said = child.stdout.read()
        child.stdout.close()
        _, status, used = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
        assert child.returncode == 0
        times.append(float(said))
        peaks.append(used.ru_maxrss * (1 if sys.platform == "darwin" else 1024))

    run()  # byte code
    times.clear()
    benchmark.pedantic(run, rounds=3)
    benchmark.extra_info |= {"work [s]": statistics.median(times), "peak [MB]": max(peaks) / 1e6}
    print(f"\n100,000 strokes: {statistics.median(times):.2f} s, peak {max(peaks) / 1e6:.0f} MB")
    assert statistics.median(times) < STROKES_TIME
    assert max(peaks) < STROKES_MEMORY


@pytest.mark.parametrize("name", ["quillet", "tumblehod"])
def test_a_rig_is_chosen(benchmark, name):
    """With overhang, overlap and length left open, a rig of either example is chosen within a second."""
    inputs = example_project(name).inputs
    free = {"lock_overhang": None, "overlap": None, "length": None, "leverage_ratio": None}
    inputs = replace(inputs, station=replace(inputs.station, **free))
    found = benchmark.pedantic(choice_of, args=(inputs,), rounds=5)
    print(f"\na rig of {name} among {found.looked_at}: {benchmark.stats.stats.max:.2f} s at most")
    assert found.looked_at > 10_000
    assert benchmark.stats.stats.max < CHOICE_TIME


def test_two_hundred_oars_at_once(benchmark, quillet):
    """Two hundred looms of different thickness at the lock are built and bent as arrays."""
    oar = design(quillet.inputs).oars["port"]
    lock = np.linspace(0.040, 0.050, 200)
    shape = replace(oar.shape, lock_diameter=lock)
    drops = benchmark(lambda: bench_drop(build_oar(shape, oar.pieces, oar.leather)))
    assert drops.shape == (200,)
    assert (np.diff(drops) < 0).all()  # the thicker, the stiffer
    print(f"\n200 oars: {benchmark.stats.stats.median * 1e3:.0f} ms")
    assert benchmark.stats.stats.median < OARS_TIME
