"""From a project file to checked records: every fault told in one go, with its place and what is wanted."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from oarkit import tables
from oarkit.design import Inputs
from oarkit.project.cross import Cross
from oarkit.project.faults import Fault, ProjectError, in_words, place_of
from oarkit.project.given import Where, refuse_depth, tables_of, text_of
from oarkit.project.keys import ProjectFile
from oarkit.project.records import inputs_of
from oarkit.project.unread import what_can_be_read
from oarkit.units import Display

ALONE = ("boat", "rower", "rig")  #: tables without which an oar can be read by itself


@dataclass(frozen=True, slots=True, kw_only=True)
class Project:
    """A checked project: what it is called, how its reader measures, and all that a design needs."""

    name: str
    title: str
    display: Display
    file: ProjectFile
    inputs: Inputs


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
    return project_from_text(text_of(path), name=path.name)


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
    given, where = tables_of(text, name=name)
    return project_from_mapping(given, name=name, where=where)


def project_from_mapping(given: Mapping[str, Any], *, name: str, where: Where = lambda loc: None) -> Project:
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
    refuse_depth(given, name=name)
    file, faults = checked(given, where=where)
    if faults:
        raise ProjectError(name, faults)
    return Project(
        name=name,
        title=file.title,
        display=file.display,
        file=file,
        inputs=inputs_of(file),
    )


def checked(
    given: Mapping[str, Any], *, where: Where = lambda loc: None, whole: bool = True
) -> tuple[ProjectFile, list[Fault]]:
    """The keys of a project, as far as they can be read, and everything that is wrong with them.

    Parameters
    ----------
    given : mapping
        Tables and keys. [mapping]
    where : callable, optional
        Line of the text where a key stands. [function]
    whole : bool, optional
        Whether boat, rower and rig must be there; where not, nothing is said to be missing from them. [flag]

    Returns
    -------
    tuple of ProjectFile and list of Fault
        Keys, and faults in the order of the file. [records]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> file, faults = checked({"oar": {"length": "2286 mm"}}, whole=False)
    >>> file.oar.length, [fault.place for fault in faults][:3]
    (2.286, ['oar.wood', 'oar.grip', 'oar.loom'])
    """
    faults: list[Fault] = []
    if not whole:
        given = {**{name: {} for name in ALONE}, **given}
    try:
        file = ProjectFile.model_validate(given)
    except ValidationError as error:
        for detail in error.errors():
            loc = tuple(detail["loc"])
            if whole or detail["type"] != "missing" or loc[0] not in (*ALONE, "title"):
                faults.append(Fault(place=place_of(loc), problem=in_words(detail), line=where(loc)))
        file = what_can_be_read(ProjectFile, given)
    cross = Cross(file, where)
    cross.check(whole=whole)
    return file, sorted([*faults, *cross.faults], key=lambda fault: fault.line or 0)
