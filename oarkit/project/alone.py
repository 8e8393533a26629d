"""From a file that may hold no more than an oar to checked records: no boat and no rower is needed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from oarkit.design import Inputs, OarInputs
from oarkit.project.cross import Cross
from oarkit.project.faults import ProjectError
from oarkit.project.given import Where, refuse_depth, tables_of, text_of
from oarkit.project.keys import ProjectFile
from oarkit.project.lengths import inboard_of, length_of
from oarkit.project.oar_records import oar_inputs_of
from oarkit.project.read import checked
from oarkit.project.records import inputs_of
from oarkit.project.unread import is_read
from oarkit.units import Display


@dataclass(frozen=True, slots=True, kw_only=True)
class OarProject:
    """A checked oar: what it is called, how its reader measures, and all that the oar part of a design needs."""

    name: str
    title: str
    display: Display
    file: ProjectFile
    oar_inputs: OarInputs


def read_oar(path: str | Path) -> OarProject:
    """Read and check the oar of a project file, which may hold nothing besides.

    What stands of boat, rower and rig is used: a rig that fixes length and inboard fixes them here too, and a whole
    project in which they are left to be chosen has them chosen. Otherwise they are wanted under ``[oar]``, or, for an
    oar measured from life, the inboard alone.

    Parameters
    ----------
    path : str or Path
        The file. [path]

    Returns
    -------
    OarProject
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
    >>> read_oar(data_folder() / "measured.toml").oar_inputs.shape.length
    2.29
    """
    path = Path(path)
    return oar_from_text(text_of(path), name=path.name)


def oar_from_text(text: str, *, name: str) -> OarProject:
    """Read and check an oar from its text.

    Parameters
    ----------
    text : str
        The TOML text. [text]
    name : str
        What to call it in messages. [text]

    Returns
    -------
    OarProject
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
    >>> oar_from_text("[boat]\\nmass = '45 kg'", name="mine.toml")
    Traceback (most recent call last):
    ...
    oarkit.project.faults.ProjectError: mine.toml has one fault:
      oar: is missing; add the table [oar]
    """
    given, where = tables_of(text, name=name)
    return oar_from_mapping(given, name=name, where=where)


def oar_from_mapping(given: Mapping[str, Any], *, name: str, where: Where = lambda loc: None) -> OarProject:
    """Check an oar given as nested mappings.

    Parameters
    ----------
    given : mapping
        Tables and keys of a project file, ``oar`` at the least. [mapping]
    name : str
        What to call it in messages. [text]
    where : callable, optional
        Line of the text where a key stands. [function]

    Returns
    -------
    OarProject
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
    >>> oar_from_mapping({}, name="row 1")
    Traceback (most recent call last):
    ...
    oarkit.project.faults.ProjectError: row 1 has one fault:
      oar: is missing; add the table [oar]
    """
    refuse_depth(given, name=name)
    file, faults = checked(given, where=where, whole=False)
    inputs = None
    if "oar" in given and None in (length_of(file), inboard_of(file)):
        whole, more = checked(given, where=where)
        if any(fault not in faults for fault in more):  # boat, rower or rig is not whole
            cross = Cross(file, where)
            cross.alone({fault.place for fault in faults})
            faults = sorted([*faults, *cross.faults], key=lambda fault: fault.line or 0)
        elif not faults:
            inputs = _chosen(inputs_of(whole))
    if faults:
        raise ProjectError(name, faults)
    return OarProject(
        name=name,
        title=file.title if is_read(file.title) else Path(name).stem,
        display=file.display,
        file=file,
        oar_inputs=oar_inputs_of(file) if inputs is None else inputs,
    )


def _chosen(inputs: Inputs) -> OarInputs:
    """The oar of a whole project, what its rig leaves open chosen."""
    from oarkit.design import station, whole  # here, for they bring in all the rooms

    settled = station.settled(inputs, station.choice_of(inputs))
    return whole.oar_inputs(settled, station.rig_of(settled))
