"""What is wrong with a project file, in the builder's words: place, line, what was found, what is wanted."""

from __future__ import annotations

import difflib
import tomllib
from dataclasses import dataclass
from types import UnionType
from typing import Any, get_args

from pydantic import BaseModel
from pydantic_core import ErrorDetails

from oarkit import tables
from oarkit.project.keys import ProjectFile
from oarkit.project.lines import Location
from oarkit.project.shorten import shortened

MOST_TOLD = 40  #: faults that a message lists; a builder reads one screen or two


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One fault of a project file: where it is, and what was found and what is wanted."""

    place: str
    problem: str
    line: int | None = None

    def __str__(self) -> str:
        where = f" (line {self.line})" if self.line else ""
        return f"{self.place}{where}: {self.problem}" if self.place else self.problem


class ProjectError(Exception):
    """A project file that cannot be used; ``faults`` lists everything that is wrong with it."""

    def __init__(self, name: str, faults: list[Fault]) -> None:
        self.name, self.faults = name, faults
        count = "one fault" if len(faults) == 1 else f"{len(faults)} faults"
        if len(faults) == 1 and not faults[0].place and name in faults[0].problem:
            super().__init__(faults[0].problem)  # the sentence names the file itself
            return
        told = [f"  {fault}" for fault in faults[:MOST_TOLD]]
        more = len(faults) - MOST_TOLD
        super().__init__("\n".join([f"{name} has {count}:", *told, *([f"  and {more} more"] if more > 0 else [])]))


def place_of(loc: Location) -> str:
    """Key path as a builder reads it.

    Parameters
    ----------
    loc : tuple
        Keys and list entries, these counted from 0. [text]

    Returns
    -------
    str
        E.g. "oar.wood, entry 2, species". [text]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> place_of(("oar", "wood", 1, "species"))
    'oar.wood, entry 2, species'
    """
    text = ""
    for part in loc:
        if isinstance(part, int):
            text += f", entry {part + 1}"
        else:
            text += (", " if ", entry" in text and text[-1].isdigit() else "." if text else "") + part
    return text


def in_words(detail: ErrorDetails) -> str:
    """A fault that the keys found, in words.

    Parameters
    ----------
    detail : mapping
        One error of the validation. [record]

    Returns
    -------
    str
        What was found and what is wanted. [text]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> in_words({"type": "missing", "loc": ("boat", "beam_at_station"), "msg": "", "input": {}})
    'is missing; add a line like beam_at_station = "863.6 mm"'
    """
    loc, kind = tuple(detail["loc"]), detail["type"]
    if kind == "value_error":
        return str(detail["ctx"]["error"])
    if kind == "missing":
        return missing(loc)
    if kind == "extra_forbidden":
        return _unknown_key(loc)
    if kind == "literal_error":
        wanted = str(detail["ctx"]["expected"]).replace("'", '"')
        near = difflib.get_close_matches(
            str(detail["input"]).lower(), wanted.replace('"', "").replace(" or ", ", ").split(", "), n=1
        )
        hint = f'; did you mean "{near[0]}"?' if near else ""
        return f"{shortened(detail['input'])} is not one of {wanted}{hint}"
    if kind in ("model_type", "model_attributes_type", "dict_type"):
        return "should be a table of keys, not a single value"
    if kind == "list_type":
        return "should be a list of entries, each under its own [[" + ".".join(str(p) for p in loc) + "]]"
    if kind == "too_short":
        wanted = "give rows from the handle end to the tip" if loc[-1] == "station" else "at least the loom is needed"
        return f"has no entry; {wanted}"
    return f"{shortened(detail['input'])} cannot be used here"


def missing(loc: Location) -> str:
    """What is said of a key that is wanted and not there.

    Parameters
    ----------
    loc : tuple
        Keys and list entries. [text]

    Returns
    -------
    str
        A sentence that shows the line to add, as an example file has it. [text]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> missing(("oar", "blade", "width"))
    'is missing; add a line like width = "130.2 mm"'
    """
    return f"is missing; {_example_of(loc)}"


def _example_of(loc: Location) -> str:
    keys = [part for part in loc if isinstance(part, str)]
    if tuple(keys) in _EXAMPLES:
        return f'add an entry like {keys[-1]} = "{_EXAMPLES[tuple(keys)]}"'
    found: Any = None
    for name in ("quillet", "measured"):
        found = found or _value_at(loc, name)
    if found is None:
        return f"add {'.'.join(keys)}"
    if isinstance(found, dict) and len(keys) > 1:
        return f"add a table [{'.'.join(keys)}] with {', '.join(found)}"
    if isinstance(found, list):
        return f"add a table headed [[{'.'.join(keys)}]]"
    if isinstance(found, dict):
        return f"add the table [{'.'.join(keys)}]"
    shown = f'"{found}"' if isinstance(found, str) else str(found)
    return f"add a line like {keys[-1]} = {shown}"


#: Entries that no example file has.
_EXAMPLES: dict[tuple[str, ...], str] = {("oar", "hole", "diameter"): "8 mm", ("oar", "hole", "along"): "vertical"}


def _value_at(loc: Location, name: str) -> Any:
    """What an example file has in a place, in the first entry of a list, or None."""
    found: Any = tomllib.loads((tables.data_folder() / f"{name}.toml").read_text(encoding="utf-8"))
    for part in loc:
        try:
            found = found[0 if isinstance(part, int) else part]
        except (KeyError, IndexError, TypeError):
            return None
    return found


def _unknown_key(loc: Location) -> str:
    key = str(loc[-1])
    model: type[BaseModel] = ProjectFile
    for part in loc[:-1]:
        model = model if isinstance(part, int) else (table_of(model.model_fields[str(part)].annotation) or model)
    known = _names(model)
    elsewhere = [f"{table}.{key}" for table, inner in _tables(ProjectFile).items() if key in _names(inner)]
    if elsewhere:
        return f"is not a key of this table; did you mean {elsewhere[0]}?"
    written = key.lower().replace("-", "_")
    near = difflib.get_close_matches(written, known, n=1, cutoff=0.7)
    near += [name for name in known if len(name) > 3 and name in written]
    if near:
        return f"is not a key that oarkit knows; did you mean {near[0]}?"
    return f"is not a key that oarkit knows; known here: {', '.join(known)}"


def _names(model: type[BaseModel]) -> list[str]:
    return [field.alias or name for name, field in model.model_fields.items()]


def table_of(annotation: Any) -> type[BaseModel] | None:
    """The table that a key may hold, looked for in unions and lists.

    Parameters
    ----------
    annotation : type
        What the key may hold. [type]

    Returns
    -------
    type or None
        The table's keys, or None for a plain value. [type]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> table_of(list[ProjectFile] | None).__name__
    'ProjectFile'
    """
    if isinstance(annotation, type) and not isinstance(annotation, UnionType) and issubclass(annotation, BaseModel):
        return annotation
    return next((found for inner in get_args(annotation) if (found := table_of(inner))), None)


def _tables(model: type[BaseModel]) -> dict[str, type[BaseModel]]:
    found = {name: table_of(field.annotation) for name, field in model.model_fields.items()}
    return {name: table for name, table in found.items() if table}
