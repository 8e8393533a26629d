"""Results as files for other programs: JSON and CSV, SI throughout."""

from __future__ import annotations

import csv
import io
import json
import math
from collections.abc import Iterable, Mapping
from typing import Any

import numpy as np

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
    return _csv(oar.check_rows(made), digits=6)


def results_csv(made: Design) -> str:
    """All named values as CSV text, one a row."""
    return _csv(
        {
            "name": name,
            "word": content.word_of(name)[0],
            "value": value.value,
            "unit": value.unit,
            "source": value.source,
            "reason": value.reason,
        }
        for name, value in made.values.items()
    )


def stations_csv(made: Design | OarDesign) -> str:
    """Every station of each oar as CSV text: sizes, stiffness, mass, moment and the largest stress in a hard start."""
    rows: list[Mapping[str, object]] = []
    for side, each in made.oars.items():
        columns = {
            "s_m": each.s,
            "thickness_m": each.profile.thickness,
            "width_m": each.profile.width,
            "edge_m": each.profile.edge,
            "bending_stiffness_N_m2": each.laminate.bending_stiffness,
            "mass_per_length_kg_per_m": each.laminate.mass_per_length,
            "hard_start_moment_N_m": moment_along(each, force=made.force),
            "hard_start_stress_Pa": np.max(stress_along(each, force=made.force), axis=0),
        }
        rows += _rows({"oar": side if len(made.oars) == 2 else "both"}, columns)
    return _csv(rows)


def paths_csv(made: Design) -> str:
    """Path of each hand and each blade through drive and recovery as CSV text, in the axes of the boat."""
    assert made.stroke is not None
    sweep, rig = made.stroke.sweep, made.rig
    rows: list[Mapping[str, object]] = []
    sides: tuple[Side, ...] = ("port", "starboard")
    for side in sides:
        for point, along in (("hand", -rig.hand_arm), ("blade", rig.blade_arm)):
            path = path_of_rig(rig, sweep, side=side, along=along)
            for phase in ("drive", "recovery", "feathered"):
                place = getattr(path, phase)
                columns = {"sweep_rad": sweep, "x_m": place.x, "y_m": place.y, "z_m": place.z}
                rows += _rows({"oar": side, "point": point, "phase": phase}, columns)
    return _csv(rows, digits=6)


def marks_csv(project: Project, made: Design) -> str:
    """The station table that a builder marks from, in both systems, as CSV text."""
    columns = ("letter", "place", "s", "s other", "thickness", "thickness other", "width", "width other", "edge",
               "edge other")  # fmt: skip
    return _csv(dict(zip(columns, row, strict=True)) for row in oar.station_rows(made.oar, project.display))


def working_csv(project: Project, made: Design) -> str:
    """The working of every number as CSV text."""
    return _csv(
        {
            "part": section,
            "what": step.word,
            "symbol": step.symbol,
            "formula": step.formula,
            "numbers": step.numbers,
            "result": step.first,
            "other": step.second,
            "source": step.source,
        }
        for section, steps in content.working(project, made)
        for step in steps
    )


def _rows(same: Mapping[str, object], columns: Mapping[str, Any]) -> list[Mapping[str, object]]:
    """One row a station, of columns that may be one number for all."""
    arrays = np.broadcast_arrays(*(np.asarray(values, dtype=float) for values in columns.values()))
    listed = zip(*(array.tolist() for array in arrays), strict=True)
    return [{**same, **dict(zip(columns, row, strict=True))} for row in listed]


def _csv(rows: Iterable[Mapping[str, object]], *, digits: int = 9) -> str:
    """Rows of one set of columns as CSV text; numbers to so many digits, nothing for none."""
    buffer, writer = io.StringIO(), None
    for row in rows:
        if writer is None:
            writer = csv.writer(buffer, lineterminator="\n")
            writer.writerow(row)
        writer.writerow([_cell(cell, digits) for cell in row.values()])
    return buffer.getvalue()


def _cell(cell: Any, digits: int) -> object:
    """A number to so many digits, anything else as it is."""
    number = isinstance(cell, float | np.floating) or (isinstance(cell, np.ndarray) and cell.ndim == 0)
    return f"{float(cell):.{digits}g}" if number else cell
