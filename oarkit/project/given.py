"""What stands in a project file before its keys are looked at: its text, and the tables in it."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from oarkit.project.broken import toml_in_words
from oarkit.project.faults import Fault, ProjectError, place_of
from oarkit.project.lines import Location, key_lines, line_of

DEEPEST = 12  #: levels of tables; a project file has five
LARGEST_FILE = 1_000_000  #: bytes; a project file is a few thousand

Where = Callable[[Location], int | None]


def text_of(path: Path) -> str:
    """The text of a file.

    Parameters
    ----------
    path : Path
        The file. [path]

    Returns
    -------
    str
        Its text. [text]

    Raises
    ------
    ProjectError
        It is not there or is no text, in words.

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit.tables import data_folder
    >>> text_of(data_folder() / "quillet.toml")[:9]
    '# Quillet'
    """

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


def tables_of(text: str, *, name: str) -> tuple[dict[str, Any], Where]:
    """The tables and keys of a text, and on which line each stands.

    Parameters
    ----------
    text : str
        The TOML text. [text]
    name : str
        What to call it in messages. [text]

    Returns
    -------
    tuple of dict and function
        Nested tables, and from a key path to its line. [mapping, function]

    Raises
    ------
    ProjectError
        The text is no TOML, or empty, in words.

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> given, where = tables_of("title = 'An oar'", name="mine.toml")
    >>> given, where(("title",))
    ({'title': 'An oar'}, 1)
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

    return given, where


def refuse_depth(given: Mapping[str, Any], *, name: str) -> None:
    """Refuse tables that are nested far too deep for a project.

    Parameters
    ----------
    given : mapping
        Tables and keys. [mapping]
    name : str
        What to call it in messages. [text]

    Returns
    -------
    None
        Nothing is returned. [nothing]

    Raises
    ------
    ProjectError
        They are, and where.

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> refuse_depth({"rig": {"length": "2286 mm"}}, name="mine.toml")
    """
    if _depth(given) > DEEPEST:
        fault = Fault(place=place_of(_deepest(given)), problem="tables or brackets are nested far too deep")
        raise ProjectError(name, [fault])


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
