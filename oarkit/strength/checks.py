"""Every check of every load case along one oar: stress, strength, ratio, where, which wood; least margin first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from oarkit.oar.build import Oar
from oarkit.oar.pieces import Piece
from oarkit.oar.planed import ROOT_SHARE
from oarkit.strength.all_cases import Cases
from oarkit.strength.along import bending_along, glue_stress_along, shear_stress_along, twist_stress_along
from oarkit.strength.blade import BladeCheck, corner_check, plate_check
from oarkit.strength.hard_start import Check
from oarkit.strength.hole import hole_stress_in
from oarkit.strength.load import LoadCase
from oarkit.strength.local import LEATHER_SPREADS, crossed_round_bearing, lock_bearing
from oarkit.strength.told import HoleInputs
from oarkit.working import Array

GLUE_STRENGTH = 1.0e6  #: working shear of a joint, the least that custom gives any of its glues [Pa], common practice
TIP_CORNER, BLADE_PLATE = "tip corner", "blade as a plate"
_IN_THE_LOCK = ("cruise", "hard start", "caught crab", "steering")  #: loads that press the loom on lock or thole
ROWING = ("cruise", "hard start")  #: the loads that the least safety ratio is taken over
_NIL = 1.0  #: stress that is rounding and no stress [Pa]


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckInputs:
    """What the checks need beside oar and cases: the ratio wanted, a hole, share of strength that many strokes leave,
    and the diameter of a thole pin [1, m]."""

    wanted: float = 1.5
    hole: HoleInputs | None = None
    fatigue_share: float | None = None
    thole_diameter: float | None = None


def every_check(oar: Oar, cases: Cases, told: CheckInputs = CheckInputs()) -> tuple[Check, ...]:
    """All checks of one oar under all its load cases, least margin first.

    Parameters
    ----------
    oar : Oar
        The oar (scalars). [record]
    cases : Cases
        Its load cases. [record]
    told : CheckInputs, optional
        Wanted ratio, hole, fatigue, thole. [record]

    Returns
    -------
    tuple of Check
        One a case, a way to fail and a piece of wood that is stressed so; loads of rowing first, each group by ratio
        over the ratio that is asked. [Pa]

    Notes
    -----
    Source: each of the stresses names its own (`oarkit.strength.along`, `local`, `blade`, `hole`). A proof load is
    asked for the wanted ratio over the share by which it exceeds the hard start, so that one ratio is wanted and not
    two: a choice of this project.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> from oarkit.strength.all_cases import all_cases
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> made = every_check(oar, all_cases(oar))
    >>> made[0].case, made[0].what, made[0].part
    ('hard start', 'bending', 'loom')
    """
    worker = _Checks(oar, cases, told)
    made = [check for case in cases.made for check in worker.of(case)]
    made += [worker.column(case) for case in cases.buckled]
    return tuple(sorted(made, key=lambda c: (c.kind == "abuse", not c.breaks, round(float(c.ratio / c.asked), 9))))


def not_checked(oar: Oar) -> Mapping[str, tuple[str, ...]]:
    """Ways to fail for which the tables have no strength of a wood of this oar.

    Parameters
    ----------
    oar : Oar
        The oar. [record]

    Returns
    -------
    mapping of str to tuple of str
        Names of the woods, by what they were not checked for. [text]

    Notes
    -----
    Source: the wood tables.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> dict(not_checked(design(example_project("quillet").inputs).oars["port"]))
    {}
    """
    lacking: dict[str, tuple[str, ...]] = {}
    for what, field in (("shear", "shear_strength"), ("bearing", "bearing"), ("splitting", "splitting")):
        woods = sorted({piece.wood.name for piece in oar.pieces if getattr(piece.wood, field) is None})
        if woods:
            lacking[what] = tuple(woods)
    return lacking


def root_of(oar: Oar) -> NDArray[np.bool_]:
    """Stations of the blade's root: from where it begins to where it is full width.

    Parameters
    ----------
    oar : Oar
        The oar. [record]

    Returns
    -------
    array
        True at the root. [flag]

    Notes
    -----
    Source: choice of this project.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> bool(root_of(design(example_project("quillet").inputs).oars["port"]).any())
    True
    """
    root, length = (np.asarray(size, dtype=float)[..., None] for size in (oar.shape.blade_root, oar.shape.blade_length))
    return np.asarray((oar.middle > root) & (oar.s <= root + ROOT_SHARE * length + 1e-9))


def least_in_rowing(made: Sequence[Check]) -> Check:
    """The check of cruise and hard start that is nearest to breaking.

    Parameters
    ----------
    made : sequence of Check
        Checks of one oar or of a pair. [records]

    Returns
    -------
    Check
        The one of the least ratio. [record]

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> least_in_rowing(design(example_project("quillet").inputs).checks["port"]).case
    'hard start'
    """
    return min((check for check in made if check.case in ROWING and check.breaks), key=lambda check: float(check.ratio))


def _under(per_newton: BladeCheck | None, force: float) -> BladeCheck | None:
    """A check of a blade under a force, from that under 1 N: its stress goes with the force."""
    if per_newton is None:
        return None
    return replace(per_newton, stress=per_newton.stress * force, ratio=per_newton.ratio / force)


class _Checks:
    """The checks of one oar, with what its cases share worked once."""

    def __init__(self, oar: Oar, cases: Cases, told: CheckInputs) -> None:
        self.oar, self.told = oar, told
        shape = oar.shape
        self.root = root_of(oar)
        self.present = [fibre != 0 for fibre in oar.laminate.fibre]
        self.shear_strength, self.shear_wood = self._weakest("shear_strength")
        self.has_joints = any(np.any(joint) for joint in oar.laminate.glue_shear)
        self.bearing = self._weakest("bearing")
        self.plate = plate_check(oar, force=1.0)
        self.pin = int(np.argmin(np.abs(oar.s - float(shape.inboard))))
        start, proof = (abs(float(cases.named(name).forces[0])) for name in ("hard start", "proof load"))
        self.asked = {"proof load": max(told.wanted * min(start / proof, 1.0), 1.0)}

    def of(self, case: LoadCase) -> Iterator[Check]:
        """Every check of one case."""
        if case.places:
            bent = bending_along(self.oar, case)
            yield from self._bending(case, bent)
            yield from self._sheared(case)
            if self.told.hole is not None:
                yield from self._hole(case, bent)
        if float(case.torque):
            yield from self._twisted(case)
        yield from self._lock(case)
        yield from self._blade(case)
        if float(case.axial):
            yield self.column(case)

    def _bending(self, case: LoadCase, bent: Sequence[Array]) -> Iterator[Check]:
        """Bending of each piece at its worst place, and at the root of the blade; fatigue at an easy stroke."""
        for piece, stress in zip(self.oar.pieces, bent, strict=True):
            yield from self._worst(case, "bending", piece, stress)
            if case.plane == "stroke":
                yield from self._worst(case, "bending at the blade root", piece, stress * self.root)
            if case.name == "cruise" and self.told.fatigue_share is not None:
                yield from self._worst(case, "fatigue", piece, stress, share=self.told.fatigue_share)

    def _hole(self, case: LoadCase, bent: Sequence[Array]) -> Iterator[Check]:
        assert self.told.hole is not None
        for piece, stress in zip(self.oar.pieces, bent, strict=True):
            at_hole = float(hole_stress_in(self.oar, case, self.told.hole, stress=stress))
            if at_hole > _NIL:
                yield self._check(case, "bending at the hole", piece, self.pin, at_hole, float(piece.wood.strength))
                if case.name == "cruise" and self.told.fatigue_share is not None:
                    share = self.told.fatigue_share
                    strength = float(piece.wood.strength) * share
                    yield self._check(case, "fatigue at the hole", piece, self.pin, at_hole, strength, share=share)

    def _sheared(self, case: LoadCase) -> Iterator[Check]:
        yield from self._along(case, "shear", shear_stress_along(self.oar, case))
        if not self.has_joints:
            return
        for piece, stress in zip(self.oar.pieces, glue_stress_along(self.oar, case), strict=True):
            at = int(np.argmax(stress))
            if float(stress[at]) > _NIL:
                yield self._check(case, "glue line", piece, at, float(stress[at]), GLUE_STRENGTH)

    def _twisted(self, case: LoadCase) -> Iterator[Check]:
        """Shear of the torque in each piece."""
        for piece, stress in zip(self.oar.pieces, twist_stress_along(self.oar, case), strict=True):
            at = int(np.argmax(stress))
            strength = piece.wood.plate_shear_strength
            if float(stress[at]) > _NIL and strength is not None:
                yield self._check(case, "torsion", piece, at, float(stress[at]), float(strength))

    def _along(self, case: LoadCase, what: str, stress: Array) -> Iterator[Check]:
        """A stress along the grain that the weakest wood at each station has to bear."""
        at = int(np.argmax(stress / self.shear_strength))
        if float(stress[at]) > _NIL and np.isfinite(self.shear_strength[at]):
            piece = self.oar.pieces[int(self.shear_wood[at])]
            yield self._check(case, what, piece, at, float(stress[at]), float(self.shear_strength[at]))

    def _lock(self, case: LoadCase) -> Iterator[Check]:
        """Pressure on the lock, with and without leather, and on a bare thole."""
        inboard = float(self.oar.shape.inboard)
        if case.name not in _IN_THE_LOCK:
            return
        force = abs(
            sum(float(f) for s, f in zip(case.places, case.forces, strict=True) if abs(float(s) - inboard) < 1e-9)
        )
        strengths, woods = self.bearing
        if not np.isfinite(strengths[self.pin]):
            return
        piece, diameter = self.oar.pieces[int(woods[self.pin])], float(self.oar.profile.thickness[self.pin])
        pressures = {
            "bearing in leather": lock_bearing(pin_force=force, diameter=diameter, spread=LEATHER_SPREADS),
            "bearing, bare": lock_bearing(pin_force=force, diameter=diameter),
        }
        if self.told.thole_diameter is not None:
            pin = self.told.thole_diameter
            pressures["bearing, bare on a thole"] = crossed_round_bearing(pin_force=force, loom=diameter, pin=pin)
        for what, pressure in pressures.items():
            yield self._check(case, what, piece, self.pin, float(pressure), float(strengths[self.pin]), breaks=False)

    def _blade(self, case: LoadCase) -> Iterator[Check]:
        """The blade as a plate under the water's pressure, and its corner under a knock."""
        made: list[tuple[str, BladeCheck | None]] = []
        at_blade = [
            abs(float(force))
            for place, force in zip(case.places, case.forces, strict=True)
            if abs(float(place) - float(self.oar.shape.mid_blade)) < 1e-9
        ]
        if at_blade and case.plane == "stroke" and "bench" not in case.name and "proof" not in case.name:
            made.append((BLADE_PLATE, _under(self.plate, at_blade[0])))
        if float(case.corner_force):
            corner = corner_check(self.oar, force=case.corner_force, arm=case.corner_arm)
            made.append((TIP_CORNER, corner))
        for what, found in made:
            if found is not None:
                yield Check(
                    case=case.name, part=self._kind_of(found.wood, float(found.place)), wood=found.wood,
                    place=found.place, stress=found.stress, strength=found.strength, ratio=found.ratio,
                    ok=bool(found.ratio >= self._ok_from(case)), what=what, kind=case.kind,
                    plane=case.plane, asked=self._asked(case),
                )  # fmt: skip

    def _kind_of(self, wood: str, place: float) -> str:
        at = int(np.argmin(np.abs(self.oar.s - place)))
        kinds = [
            p.kind for p, here in zip(self.oar.pieces, self.present, strict=True) if p.wood.name == wood and here[at]
        ]
        return kinds[-1] if kinds else "blade"

    def column(self, case: LoadCase) -> Check:
        """The push along the oar against the one that would bow it out of itself."""
        middle = int(np.argmin(np.abs(self.oar.s - (float(case.pressed[0]) + float(case.pressed[1])) / 2)))
        area = float(self.oar.laminate.axial_stiffness[middle]) / float(self._loom.wood.modulus)
        buckling = float(case.beside["buckling load"].value)
        return self._check(case, "column", self._loom, middle, float(case.axial) / area, buckling / area)

    @property
    def _loom(self) -> Piece:
        return next(piece for piece in self.oar.pieces if piece.kind == "loom")

    def _worst(self, case: LoadCase, what: str, piece: Piece, stress: Array, *, share: float = 1.0) -> Iterator[Check]:
        at = int(np.argmax(stress))
        if float(stress[at]) > _NIL:
            yield self._check(case, what, piece, at, float(stress[at]), share * float(piece.wood.strength), share=share)

    def _check(
        self, case: LoadCase, what: str, piece: Piece, at: int, stress: float, strength: float, *,
        breaks: bool = True, share: float = 1.0,
    ) -> Check:  # fmt: skip
        ratio = strength / stress
        mean = piece.wood.mean_strength
        bends = what.startswith(("bending", "fatigue")) and mean is not None
        return Check(
            case=case.name, part=piece.kind, wood=piece.wood.name, place=float(self.oar.s[at]), stress=stress,
            strength=strength, ratio=ratio, ok=ratio >= self._ok_from(case), what=what, kind=case.kind,
            plane=case.plane, breaks=breaks,
            asked=self._asked(case), mean_ratio=share * float(mean) / stress if bends and mean is not None else None,
        )  # fmt: skip

    def _asked(self, case: LoadCase) -> float:
        return self.asked.get(case.name, self.told.wanted)

    def _ok_from(self, case: LoadCase) -> float:
        """Abuse is borne from a ratio of 1, a load of rowing from the one wanted."""
        return 1.0 if case.kind == "abuse" else self._asked(case)

    def _weakest(self, field: str) -> tuple[Array, NDArray[np.intp]]:
        """Least strength of the woods at each station, endless where none has a value, and whose it is."""
        known = []
        for piece, here in zip(self.oar.pieces, self.present, strict=True):
            value = getattr(piece.wood, field)
            known.append(np.where(here, np.inf if value is None else float(value), np.inf))
        return np.min(known, axis=0), np.argmin(known, axis=0)
