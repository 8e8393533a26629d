"""A hundred thousand oars under every bending load case, for the benches; run alone it prints what they took."""

import sys
import time
from dataclasses import dataclass, replace

import numpy as np

from oarkit import design, example_project
from oarkit.oar.build import Leather, Oar, Piece, at_breaks, build_oar
from oarkit.oar.mass import balance, mass
from oarkit.oar.shape import OarShape
from oarkit.strength.abuse import STEP_PLACE, pry, push_off, stepped_on
from oarkit.strength.along import bending_along
from oarkit.strength.bend import bench_drop
from oarkit.strength.cases import bench_test, bench_test_at_tip, cruise, hard_start, proof_load, steering, tip_dragged
from oarkit.strength.crab import caught_crab
from oarkit.strength.load import LoadCase
from oarkit.stroke.blocks import in_blocks

COUNT, STATIONS = 100_000, 101
BLOCK = 1024  #: oars at a time: more spill out of the processor's own memory, fewer pay for more calls


@dataclass(frozen=True, slots=True, kw_only=True)
class Answers:
    """Mass [kg], balance and bench drop [m]; stress at lock and neck by case and plane [Pa]."""

    mass: np.ndarray
    balance: np.ndarray
    drop: np.ndarray
    lock: dict[tuple[str, str], np.ndarray]
    neck: dict[tuple[str, str], np.ndarray]


def bending_cases(oar: Oar) -> list[LoadCase]:
    """Every load case that bends the oar, a push-off with the oar's own buckling load."""
    foot = oar.shape.inboard + STEP_PLACE
    crab = caught_crab(oar, boat_mass=45.0, length_overall=4.572, rower_mass=75.0, span=1.105)
    return [
        cruise(oar), hard_start(oar), proof_load(oar), bench_test(oar), bench_test_at_tip(oar), steering(oar), crab,
        pry(oar), stepped_on(oar, plane="stroke", place=foot), stepped_on(oar, plane="lateral", place=foot),
        push_off(oar, plane="stroke"), push_off(oar, plane="lateral"), tip_dragged(oar),
    ]  # fmt: skip


def answers(*, shape: OarShape, pieces: tuple[Piece, ...], leather: Leather) -> Answers:
    """What is asked of every oar."""
    oar = build_oar(shape, pieces, leather, count=STATIONS)
    there = at_breaks(oar, [shape.inboard, shape.blade_root])
    lock, neck = {}, {}
    for case in bending_cases(oar):
        stress = np.max(bending_along(there, case), axis=0)
        lock[case.name, case.plane] = stress[..., :2].max(axis=-1)
        neck[case.name, case.plane] = stress[..., 2:].max(axis=-1)
    return Answers(mass=mass(oar), balance=balance(oar), drop=bench_drop(oar), lock=lock, neck=neck)


def designs(count: int = COUNT) -> dict[str, object]:
    """Many oars like the example's, no two of one size, wood and edge."""
    oar = design(example_project("quillet").inputs).oars["port"]
    loom, edge, tip = oar.pieces
    shape = replace(
        oar.shape, lock_diameter=np.linspace(0.040, 0.050, count), neck_thickness=np.linspace(0.034, 0.028, count),
        neck_width=np.linspace(0.025, 0.029, count), tip_thickness=np.linspace(0.012, 0.010, count),
    )  # fmt: skip
    wood = replace(loom.wood, modulus=np.linspace(9e9, 12e9, count))
    pieces = (replace(loom, wood=wood), replace(edge, size=np.linspace(0.004, 0.008, count)), tip)
    return {"shape": shape, "pieces": pieces, "leather": oar.leather}


def main() -> None:
    """Time and work of a hundred thousand oars [s], once their answers have been found sound."""
    given = designs()
    start, busy = time.perf_counter(), time.process_time()
    found = in_blocks(answers, size=BLOCK, **given)
    taken, busy = time.perf_counter() - start, time.process_time() - busy
    for values in (found.mass, found.balance, found.drop, *found.lock.values(), *found.neck.values()):
        assert values.shape == (COUNT,)
        assert np.isfinite(values).all()
        assert (values >= 0).all()
    assert (found.drop > 0).all()
    assert (np.diff(found.lock["hard start", "stroke"]) < 0).all()  # thicker at the lock: less stress
    print(taken, busy)


if __name__ == "__main__":
    sys.exit(main())
