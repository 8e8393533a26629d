"""Results as files for other programs: JSON and CSV, SI throughout."""

from __future__ import annotations

import json
import math

import pandas as pd

from oarkit.design import Design, OarDesign, Value
from oarkit.project import Project
from oarkit.sheet import content, oar
from oarkit.strength.hard_start import moment_along, stress_along
from oarkit.stroke.path import Side
from oarkit.stroke.station import path_of_rig
from oarkit.units import Display

SCHEMA = 1


def results_json(project: Project, made: Design) -> str:
    """All named values, findings and checks as JSON text."""
    document = {
        "schema": SCHEMA,
        "title": project.title,
        "values": {name: _stored(value) for name, value in made.values.items()},
        "findings": _findings(content.findings(project, made)),
        "checks": [*oar.stored_checks(made.oar, project.display), *oar.fitting_checks(made)],
    }
    return _text(document)


def oar_json(title: str, made: OarDesign, display: Display) -> str:
    """All named values, findings and checks of an oar alone as JSON text."""
    document = {
        "schema": SCHEMA,
        "title": title,
        "values": {name: _stored(value) for name, value in made.values.items()},
        "findings": _findings(content.said(display, made.findings)),
        "checks": oar.stored_checks(made, display),
    }
    return _text(document)


def _text(document: dict[str, object]) -> str:
    return json.dumps(document, ensure_ascii=False, indent=2, allow_nan=False) + "\n"


def _findings(told: list[content.Said]) -> list[dict[str, str]]:
    return [{"level": f.level, "code": f.code, "text": f.text, "source": f.source} for f in told]


def _stored(value: Value) -> dict[str, object]:
    """A named value as stored; a number without end has a reason in its place."""
    if value.value is None:
        return {"value": None, "unit": value.unit, "source": value.source, "reason": value.reason}
    number = float(value.value)
    if not math.isfinite(number):
        endless = "nothing loads it, so there is no limit"
        return {"value": None, "unit": value.unit, "source": value.source, "reason": endless}
    return {"value": number, "unit": value.unit, "source": value.source}


def checks_csv(made: OarDesign) -> str:
    """Every check of each oar as CSV text, least margin first."""
    frame = pd.DataFrame(oar.check_rows(made))
    return frame.to_csv(index=False, lineterminator="\n", float_format="%.6g")


def results_csv(made: Design) -> str:
    """All named values as CSV text, one a row."""
    frame = pd.DataFrame(
        [
            {
                "name": name,
                "word": content.word_of(name)[0],
                "value": v.value,
                "unit": v.unit,
                "source": v.source,
                "reason": v.reason,
            }
            for name, v in made.values.items()
        ]
    )
    return frame.to_csv(index=False, lineterminator="\n", float_format="%.9g")


def stations_csv(made: Design | OarDesign) -> str:
    """Every station of each oar as CSV text: sizes, stiffness, mass, moment and the largest stress in a hard start."""
    frames = []
    for side, each in made.oars.items():
        stress = pd.DataFrame(list(stress_along(each, force=made.force))).max(axis=0)
        frames.append(
            pd.DataFrame(
                {
                    "oar": side if len(made.oars) == 2 else "both",
                    "s_m": each.s,
                    "thickness_m": each.profile.thickness,
                    "width_m": each.profile.width,
                    "edge_m": each.profile.edge,
                    "bending_stiffness_N_m2": each.laminate.bending_stiffness,
                    "mass_per_length_kg_per_m": each.laminate.mass_per_length,
                    "hard_start_moment_N_m": moment_along(each, force=made.force),
                    "hard_start_stress_Pa": stress.to_numpy(),
                }
            )
        )
    return pd.concat(frames).to_csv(index=False, lineterminator="\n", float_format="%.9g")


def paths_csv(made: Design) -> str:
    """Path of each hand and each blade through drive and recovery as CSV text, in the axes of the boat."""
    assert made.stroke is not None
    sweep, rig = made.stroke.sweep, made.rig
    frames = []
    sides: tuple[Side, ...] = ("port", "starboard")
    for side in sides:
        for point, along in (("hand", -rig.hand_arm), ("blade", rig.blade_arm)):
            path = path_of_rig(rig, sweep, side=side, along=along)
            for phase in ("drive", "recovery", "feathered"):
                place = getattr(path, phase)
                frames.append(
                    pd.DataFrame(
                        {
                            "oar": side,
                            "point": point,
                            "phase": phase,
                            "sweep_rad": sweep,
                            "x_m": place.x,
                            "y_m": place.y,
                            "z_m": place.z,
                        }
                    )
                )
    return pd.concat(frames).to_csv(index=False, lineterminator="\n", float_format="%.6g")


def marks_csv(project: Project, made: Design) -> str:
    """The station table that a builder marks from, in both systems, as CSV text."""
    columns = [
        "letter",
        "place",
        "s",
        "s other",
        "thickness",
        "thickness other",
        "width",
        "width other",
        "edge",
        "edge other",
    ]
    frame = pd.DataFrame(oar.station_rows(made.oar, project.display), columns=columns)
    return frame.to_csv(index=False, lineterminator="\n")


def working_csv(project: Project, made: Design) -> str:
    """The working of every number as CSV text."""
    frame = pd.DataFrame(
        [
            {
                "part": section,
                "what": s.word,
                "symbol": s.symbol,
                "formula": s.formula,
                "numbers": s.numbers,
                "result": s.first,
                "other": s.second,
                "source": s.source,
            }
            for section, steps in content.working(project, made)
            for s in steps
        ]
    )
    return frame.to_csv(index=False, lineterminator="\n")
