"""From a project file to checked records: every fault told in one go, with its place and what is wanted."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from oarkit import tables
from oarkit.design import Inputs
from oarkit.project.broken import toml_in_words
from oarkit.project.cross import Cross, what_can_be_read
from oarkit.project.faults import Fault, ProjectError, in_words, place_of
from oarkit.project.keys import ProjectFile
from oarkit.project.lines import Location, key_lines, line_of
from oarkit.project.records import inputs_of
from oarkit.units import Display

DEEPEST = 12  #: levels of tables; a project file has five
LARGEST_FILE = 1_000_000  #: bytes; a project file is a few thousand

#: Entries that are read and checked, but from which no result is made yet.
_UNUSED = (
    "boat.water",
    "loads.crab_speed",
    "loads.steer_speed",
    "loads.pry",
    "loads.step",
    "loads.step_gap",
    "loads.push_off",
    "loads.tip_corner",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Project:
    """A checked project: what it is called, how its reader measures, and all that a design needs."""

    name: str
    title: str
    display: Display
    file: ProjectFile
    inputs: Inputs
    unused: tuple[str, ...]


def read_project(path: str | Path) -> Project:
    """Read and check a project file.

    Parameters
    ----------
    path : str or Path
        The file. [path]

    Returns
    -------
    Project
        Checked records, in SI. [record]

    Raises
    ------
    ProjectError
        Everything that is wrong with the file, in words.

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit.tables import data_folder
    >>> read_project(data_folder() / "quillet.toml").title
    'Quillet, centre station'
    """
    path = Path(path)
    return project_from_text(_text_of(path), name=path.name)


def example_project(name: str = "quillet") -> Project:
    """One of the example projects that travel with oarkit.

    Parameters
    ----------
    name : {"quillet", "tumblehod"}, optional
        Which one. [text]

    Returns
    -------
    Project
        Checked records, in SI. [record]

    Notes
    -----
    Source: derived; boats, bodies and boards are invented.

    Examples
    --------
    >>> example_project("tumblehod").display
    'mm'
    """
    return read_project(tables.data_folder() / f"{name}.toml")


def _text_of(path: Path) -> str:
    def refuse(problem: str) -> ProjectError:
        return ProjectError(path.name or str(path), [Fault(place="", problem=problem)])

    try:
        if path.is_dir():
            raise refuse(f"{path} is a folder; name the project file in it")
        with path.open("rb") as file:
            raw = file.read(LARGEST_FILE + 1)
        size = path.stat().st_size
    except FileNotFoundError:
        raise refuse(f"there is no file {path}; `oarkit example DIR` writes one to start from") from None
    except (OSError, ValueError) as error:
        said = getattr(error, "strerror", None) or "no file can have such a name"
        raise refuse(f"{str(path)[:80]} cannot be read: {said}") from None
    if len(raw) > LARGEST_FILE:
        raise refuse(f"{path} is {size} bytes long, far more than a project file; is it the right one?")
    if raw[1:2] == b"\0":
        raise refuse(f"{path.name} is not UTF-8 text but of two-byte letters; save it as UTF-8 in your editor")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        raise refuse(f"line {line} is not UTF-8 text; save the file as UTF-8 in your editor") from None


def project_from_text(text: str, *, name: str) -> Project:
    """Read and check a project from its text.

    Parameters
    ----------
    text : str
        The TOML text. [text]
    name : str
        What to call it in messages. [text]

    Returns
    -------
    Project
        Checked records, in SI. [record]

    Raises
    ------
    ProjectError
        Everything that is wrong with the text, in words.

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> project_from_text("title = 3", name="mine.toml")  # doctest: +ELLIPSIS
    Traceback (most recent call last):
    ...
    oarkit.project.faults.ProjectError: mine.toml has 5 faults:
    ...
    """
    try:
        given = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise ProjectError(name, [Fault(place="", problem=toml_in_words(str(error), text))]) from None
    except RecursionError:
        raise ProjectError(name, [Fault(place="", problem="brackets are nested far too deep")]) from None
    except ValueError:
        raise ProjectError(
            name, [Fault(place="", problem="a number of thousands of digits stands in the file")]
        ) from None
    if not given:
        raise ProjectError(
            name, [Fault(place="", problem="the file is empty; `oarkit example DIR` writes one to start from")]
        )
    found: dict[str, dict[Location, int]] = {}

    def where(loc: Location) -> int | None:
        return line_of(loc, found.setdefault("lines", key_lines(text)) if not found else found["lines"])

    return project_from_mapping(given, name=name, where=where)


def project_from_mapping(
    given: Mapping[str, Any], *, name: str, where: Callable[[Location], int | None] = lambda loc: None
) -> Project:
    """Check a project given as nested mappings, e.g. one row of a roster.

    Parameters
    ----------
    given : mapping
        Tables and keys of a project file. [mapping]
    name : str
        What to call it in messages. [text]
    where : callable, optional
        Line of the text where a key stands. [function]

    Returns
    -------
    Project
        Checked records, in SI. [record]

    Raises
    ------
    ProjectError
        Everything that is wrong, in words.

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> project_from_mapping({}, name="row 1")  # doctest: +ELLIPSIS
    Traceback (most recent call last):
    ...
    oarkit.project.faults.ProjectError: row 1 has 5 faults:
    ...
    """
    faults: list[Fault] = []
    if _depth(given) > DEEPEST:
        fault = Fault(place=place_of(_deepest(given)), problem="tables or brackets are nested far too deep")
        raise ProjectError(name, [fault])
    try:
        file = ProjectFile.model_validate(given)
    except ValidationError as error:
        for detail in error.errors():
            loc = tuple(detail["loc"])
            faults.append(Fault(place=place_of(loc), problem=in_words(detail), line=where(loc)))
        file = what_can_be_read(ProjectFile, given)
    cross = Cross(file, where)
    cross.check()
    faults += cross.faults
    if faults:
        raise ProjectError(name, sorted(faults, key=lambda fault: fault.line or 0))
    return Project(
        name=name,
        title=file.title,
        display=file.display,
        file=file,
        inputs=inputs_of(file),
        unused=tuple(key for key in _UNUSED if _is_given(given, key)),
    )


def _depth(given: Any) -> int:
    """How deep tables and lists are nested, counted no further than is of interest."""
    level, depth = [given], 0
    while level and depth <= DEEPEST:
        inner = [
            each.values() if isinstance(each, Mapping) else each for each in level if isinstance(each, Mapping | list)
        ]
        level, depth = [child for each in inner for child in each], depth + 1
    return depth


def _deepest(given: Mapping[str, Any]) -> Location:
    """Where the deep nesting begins: a table, or a key in it."""
    table = max(given, key=lambda name: _depth(given[name]))
    inner = given[table]
    return (table, max(inner, key=lambda name: _depth(inner[name]))) if isinstance(inner, Mapping) else (table,)


def _is_given(given: Mapping[str, Any], key: str) -> bool:
    table, entry = key.split(".")
    return entry in given.get(table, {})
