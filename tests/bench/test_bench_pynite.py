"""How much sooner oars are bent than by a frame program: the same oars, stations and load cases in PyNite."""

import statistics
import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from many_oars import COUNT, STATIONS, bending_cases, designs
from Pynite import FEModel3D

from oarkit.oar.build import build_oar
from oarkit.strength.beam import moment_along
from oarkit.strength.bend import bench_drop

RATIO = 1000  #: at least so much sooner, oar by oar
NEAR = 0.005  #: of a frame of even beams to an oar that tapers between stations
BROAD = 1e6  #: area, and stiffness in torsion, that nothing asked for depends on


def numbered(every, number):
    """One of many designs: a record, or a tuple of records, with the number of each array taken."""
    if isinstance(every, tuple):
        return tuple(numbered(each, number) for each in every)
    if not hasattr(every, "__dataclass_fields__"):
        return float(every[number]) if isinstance(every, np.ndarray) else every
    fields = ((name, getattr(every, name)) for name in every.__dataclass_fields__)
    return replace(every, **{name: numbered(value, number) for name, value in fields if not isinstance(value, str)})


def frame(oar, cases, held):
    """Beams from station to station, each as stiff as its middle, under all cases that are held at these two places.

    Load cases of the stroke's plane act along Y, of the lateral plane along Z; each is a combination of its own.
    """
    s = [float(place) for place in oar.s]
    s += [float(place) for case in cases for place in (*case.places, *case.held)]
    s = np.unique(np.round(s, 9))
    stroke, lateral = (
        np.interp((s[1:] + s[:-1]) / 2, oar.s, stiffness**0.25) ** 4
        for stiffness in (oar.laminate.bending_stiffness, oar.laminate.lateral_stiffness)
    )
    model = FEModel3D()
    model.add_material("unit", E=1.0, G=1.0, nu=0.3, rho=1.0)
    for index, place in enumerate(s):
        model.add_node(f"{index}", place, 0, 0)
    for index in range(len(s) - 1):
        model.add_section(f"{index}", A=BROAD, Iy=lateral[index], Iz=stroke[index], J=BROAD)
        model.add_member(f"{index}", f"{index}", f"{index + 1}", "unit", f"{index}")

    def node(place):
        return f"{int(np.argmin(np.abs(s - float(place))))}"

    model.def_support(node(held[0]), True, True, True, True, False, False)
    model.def_support(node(held[1]), False, True, True, False, False, False)
    for number, case in enumerate(cases):
        along, about = ("FY", "MZ") if case.plane == "stroke" else ("FZ", "MY")
        for place, force in list(zip(case.places, case.forces, strict=True))[:-2]:  # the supports find their own
            model.add_node_load(node(place), along, float(force), case=f"{number}")
        couple = float(case.axial) * float(case.eccentricity) * (1 if case.plane == "stroke" else -1)
        for place, sign in zip(case.pressed, (-1, 1), strict=True):
            if couple:
                model.add_node_load(node(place), about, sign * couple, case=f"{number}")
        model.add_load_combo(f"{number}", {f"{number}": 1.0})
    model.analyze_linear(check_statics=False, check_stability=False)
    return model, s


def frames(oar, cases):
    """A frame for each pair of places that cases are held at, with its cases and its nodes."""
    held = {}
    for case in cases:
        held.setdefault(tuple(float(place) for place in case.held), []).append(case)
    return [(*frame(oar, some, places), some) for places, some in held.items()]


def test_against_pynite(benchmark, environment):
    """Oar by oar a thousand times as soon, the bench drop and the moments at lock and neck within 0.5 %."""
    given = designs()
    numbers, taken = (7, COUNT // 2, COUNT - 5), []
    for number in numbers:
        shape, pieces, leather = (numbered(given[name], number) for name in ("shape", "pieces", "leather"))
        oar = build_oar(shape, pieces, leather, count=STATIONS)
        cases = bending_cases(oar)
        start = time.process_time()
        made = frames(oar, cases)
        taken.append(time.process_time() - start)
        compared = 0
        for model, s, some in made:
            for index, case in enumerate(some):
                moment = np.abs(moment_along(oar, replace(case, amplified=1.0)))
                for place in (shape.inboard, shape.blade_root):
                    at = int(np.argmin(np.abs(s - place)))
                    axis = "Mz" if case.plane == "stroke" else "My"
                    found = abs(model.members[f"{at}"].moment(axis, 0, f"{index}"))
                    here = moment[int(np.argmin(np.abs(oar.s - place)))]
                    assert found == pytest.approx(here, rel=NEAR, abs=1e-3 * moment.max())
                    compared += 1
                if case.name == "bench test":
                    at = int(np.argmin(np.abs(s - shape.mid_blade)))
                    drop = model.nodes[f"{at}"].DY[f"{index}"]
                    assert drop == pytest.approx(bench_drop(oar, with_shear=False), rel=NEAR)
                    compared += 1
        assert compared == 2 * len(cases) + 1
    command = [sys.executable, str(Path(__file__).with_name("many_oars.py"))]

    def run():
        done = subprocess.run(command, env=environment, capture_output=True, text=True, check=True)
        return float(done.stdout.split()[1]) / COUNT

    ours = benchmark.pedantic(run, rounds=1)
    theirs = statistics.median(taken)  # work of the processors on both sides, which other work delays less
    benchmark.extra_info |= {"oarkit [us an oar]": ours * 1e6, "PyNite [ms an oar]": theirs * 1e3}
    print(
        f"\noarkit {ours * 1e6:.0f} us an oar, PyNite {theirs * 1e3:.0f} ms an oar: {theirs / ours:.0f} times as soon"
    )
    assert theirs / ours > RATIO
