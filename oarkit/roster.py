"""A class: one row a bench, each a project of its own, one folder each.

The heading of a column is the key of a project file, tables joined by dots (``boat.beam_at_station``); the woods are
numbered (``oar.wood.1.species``). A first column ``bench`` names the bench.
Lines that begin with # are comments, and an empty
cell leaves its key out.
"""

from __future__ import annotations

import csv
import re
from pathlib import Path
from typing import Any

import pandas as pd

from oarkit.design import Design, design
from oarkit.project import Fault, Project, ProjectError, project_from_mapping
from oarkit.sheet import content
from oarkit.sheet.folder import check_folder, sheet_files, write_folder
from oarkit.strength.governs import ABUSE
from oarkit.units import filled
from oarkit.working import BadDesign


def read_roster(path: str | Path) -> dict[str, Project]:
    """Read and check a roster.

    Parameters
    ----------
    path : str or Path
        CSV file, one row a bench. [path]

    Returns
    -------
    dict
        Bench to its checked project, in the order of the rows. [records]

    Raises
    ------
    ProjectError
        Everything that is wrong with any row, in words.

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit.tables import data_folder
    >>> list(read_roster(data_folder() / "roster.csv"))[:2]
    ['Bench 1', 'Bench 2']
    """
    path = Path(path)
    faults: list[Fault] = []
    projects: dict[str, Project] = {}
    for number, cells in _rows(path):
        bench = cells.pop("bench", "").strip()
        if not re.fullmatch(r"[A-Za-z0-9][\w .\-]{0,40}", bench):
            faults.append(
                Fault(
                    place="bench",
                    line=number,
                    problem=f"{bench!r} cannot name a bench; use letters, figures and spaces",
                )
            )
            continue
        if _folder(bench) in {_folder(name) for name in projects}:
            faults.append(
                Fault(
                    place="bench",
                    line=number,
                    problem=f"{bench} stands in an earlier row too; each bench needs a name of its own",
                )
            )
            continue
        try:
            projects[bench] = project_from_mapping(_nested(cells, bench), name=bench, where=lambda loc, at=number: at)  # type: ignore[misc]
        except ProjectError as error:
            faults += [
                Fault(place=f"{bench}, {fault.place}", problem=fault.problem, line=number) for fault in error.faults
            ]
    if not projects and not faults:
        faults.append(Fault(place="", problem="there is no row; give a heading and one row a bench"))
    if faults:
        raise ProjectError(path.name, faults)
    return projects


def _rows(path: Path) -> list[tuple[int, dict[str, str]]]:
    """Rows with the number of their line, comments left out."""
    try:
        text = path.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        raise ProjectError(path.name, [Fault(place="", problem=f"there is no file {path}")]) from None
    except (OSError, UnicodeDecodeError) as error:
        raise ProjectError(
            path.name, [Fault(place="", problem=f"{path} cannot be read as UTF-8 text ({type(error).__name__})")]
        ) from None
    lines = [(n, line) for n, line in enumerate(text.splitlines(), 1) if line.strip() and not line.startswith("#")]
    if not lines:
        return []
    reader = csv.reader(line for _, line in lines)
    heading = [cell.strip() for cell in next(reader)]
    if len(heading) == 1 and ";" in heading[0]:
        problem = "the cells are divided by semicolons; save the table with commas between its cells"
        raise ProjectError(path.name, [Fault(place="heading", line=lines[0][0], problem=problem)])
    doubled = sorted({name for name in heading if name and heading.count(name) > 1})
    if doubled or "bench" not in heading:
        problem = f"two columns are headed {doubled[0]}" if doubled else "no column is headed bench"
        raise ProjectError(path.name, [Fault(place="heading", line=lines[0][0], problem=problem)])
    rows = []
    for (number, _), cells in zip(lines[1:], reader, strict=False):
        if len(cells) > len(heading):
            raise ProjectError(
                path.name,
                [
                    Fault(
                        place="",
                        line=number,
                        problem="the row has more cells than the heading; put a cell that holds a comma in quotes",
                    )
                ],
            )
        rows.append((number, dict(zip(heading, cells, strict=False))))
    return rows


def _nested(cells: dict[str, str], bench: str) -> dict[str, Any]:
    """Cells under dotted headings as the nested tables of a project file."""
    project: dict[str, Any] = {"title": bench}
    woods: dict[int, dict[str, Any]] = {}
    for heading, cell in cells.items():
        if not cell.strip():
            continue
        value: Any = float(cell) if re.fullmatch(r"\s*-?\d+(\.\d+)?\s*", cell) else cell.strip()
        wood = re.fullmatch(r"oar\.wood\.(\d+)\.(\w+)", heading)
        if wood:
            woods.setdefault(int(wood[1]), {})[wood[2]] = value
            continue
        table = project
        *tables, key = heading.split(".")
        for name in tables:
            inner = table.setdefault(name, {})
            table = inner if isinstance(inner, dict) else {}
        table[key] = value
    if woods:
        oar = project.setdefault("oar", {})
        if isinstance(oar, dict):
            oar["wood"] = [woods[number] for number in sorted(woods)]
    return project


def _folder(bench: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", bench.lower()).strip("-")


def write_roster(projects: dict[str, Project], out: str | Path, *, of: str = "roster") -> dict[str, Design]:
    """Write one folder a bench and a table of the class.

    Parameters
    ----------
    projects : dict
        Bench to project. [records]
    out : str or Path
        Folder to write, whole or not at all. [path]
    of : str, optional
        File that the roster was read from; a folder made of another is refused. [text]

    Returns
    -------
    dict
        Bench to its design. [records]

    Raises
    ------
    FolderError
        The folder cannot be written; what was there is as it was.
    ProjectError
        A bench whose numbers cannot be built or rowed, named.

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> import tempfile
    >>> from oarkit.tables import data_folder
    >>> bench = dict(list(read_roster(data_folder() / "roster.csv").items())[:1])
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     made = write_roster(bench, f"{folder}/class")
    >>> list(made)
    ['Bench 1']
    """
    check_folder(Path(out), of)
    files: dict[str, bytes] = {}
    designs: dict[str, Design] = {}
    for bench, project in projects.items():
        try:
            designs[bench] = design(project.inputs)
        except BadDesign as error:
            problem = f"cannot be built as it stands: {filled(error.text, error.quantities, project.display)}"
            raise ProjectError(bench, [Fault(place="", problem=problem)]) from None
        files |= {f"{_folder(bench)}/{name}": data for name, data in sheet_files(project, designs[bench]).items()}
    table = pd.DataFrame([{"bench": bench, **_class_row(made)} for bench, made in designs.items()])
    files["class.csv"] = table.to_csv(index=False, lineterminator="\n", float_format="%.6g").encode("utf-8-sig")
    write_folder(Path(out), files, of=of)
    return designs


def _class_row(made: Design) -> dict[str, object]:
    """One bench in the table of the class: numbers in SI under names that say so, what fails, what abuse breaks it."""
    values = {f"{name} [{made.values[name].unit}]": made.values[name].value for name in content.SUMMARY}
    fails = dict.fromkeys(finding.code for finding in made.findings if finding.level == "fails")
    told = {"fails": [code for code in fails if code not in ABUSE], "abuse": [code for code in fails if code in ABUSE]}
    return {**values, **{name: " ".join(codes) for name, codes in told.items()}}
