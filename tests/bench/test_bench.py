"""How fast and how large: import, main job, many designs at once. Out of the normal run: `pytest tests/bench`."""

import os
import statistics
import subprocess
import sys
from dataclasses import replace

import numpy as np
import pytest

from oarkit import design
from oarkit.oar.build import build_oar
from oarkit.rig.station import rig_from_station
from oarkit.strength.bend import bench_drop
from oarkit.tables import data_folder

IMPORT_RATIO = 2.0  #: `import oarkit` over `import numpy`
JOB_TIME, JOB_MEMORY = 6.0, 400e6  #: main job in a new process [s], [bytes]
RIGS_TIME, OARS_TIME = 0.050, 1.5  #: a thousand rigs, two hundred oars [s]


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
