"""On which line of a project file a key stands, found by reading the file line by line further."""

from __future__ import annotations

import tomllib
from typing import Any

Location = tuple[str | int, ...]


def key_lines(text: str) -> dict[Location, int]:
    """Line of every table, entry and key of a TOML text that can be read.

    Parameters
    ----------
    text : str
        The TOML text. [text]

    Returns
    -------
    dict
        Key path (list entries counted from 0) to its line, counted from 1. [count]

    Notes
    -----
    Source: derived. A key stands on the first line of the statement with which the text first holds it, or on
    that of its row where a list has each row on a line of its own.

    Examples
    --------
    >>> key_lines('[rig]\\nlock = { of = "brass" }')[("rig", "lock", "of")]
    2
    """
    lines = text.replace("\r\n", "\n").split("\n")
    found: dict[Location, int] = {}
    entries: dict[Location, int] = {}
    under: Location = ()
    begins = 0
    for number in range(1, len(lines) + 1):
        try:
            statement = tomllib.loads("\n".join(lines[begins:number]))
        except (ValueError, RecursionError):
            continue
        if lines[begins].lstrip().startswith("["):
            under = _heading(statement, entries)
            for depth in range(1, len(under) + 1):
                found.setdefault(under[:depth], begins + 1)
        else:
            rows = [line for line in range(begins, number) if lines[line].lstrip().startswith("{")]
            for path in _paths(statement, ()):
                row = next((part for part in path if isinstance(part, int)), len(rows))
                found.setdefault((*under, *path), (rows[row] if row < len(rows) else begins) + 1)
        begins = number
    return found


def _heading(statement: Any, entries: dict[Location, int]) -> Location:
    """Path of a heading, counting the entries of lists of tables, e.g. the second [[oar.wood]]."""
    path: Location = ()
    while statement:
        ((key, statement),) = statement.items()
        path = (*path, key)
        if isinstance(statement, list):
            entries[path] = entries.get(path, -1) + 1
            statement = statement[0]
        if path in entries:
            path = (*path, entries[path])
    return path


def _paths(value: Any, path: Location) -> list[Location]:
    inner: list[Location] = [path] if path else []
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, child in items:
        inner += _paths(child, (*path, key))
    return inner


def line_of(loc: Location, lines: dict[Location, int]) -> int | None:
    """Line of a key, or of the innermost table around it that the file holds.

    Parameters
    ----------
    loc : tuple
        Key path. [text]
    lines : dict
        What `key_lines` found. [count]

    Returns
    -------
    int or None
        The line, or None where nothing of the path stands in the file. [count]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> line_of(("rig", "overlap"), {("rig",): 4})
    4
    """
    for depth in range(len(loc), 0, -1):
        if loc[:depth] in lines:
            return lines[loc[:depth]]
    return None
