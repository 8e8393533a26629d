"""What is wrong with a project file, in the builder's words: place, line, what was found, what is wanted."""

from __future__ import annotations

import difflib
import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel
from pydantic_core import ErrorDetails

from oarkit import tables
from oarkit.project import keys

Location = tuple[str | int, ...]


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
        whole = len(faults) == 1 and not faults[0].place
        super().__init__(
            faults[0].problem if whole else f"{name} has {count}:\n" + "\n".join(f"  {fault}" for fault in faults)
        )


def place_of(loc: Location) -> str:
    """Key path as a builder reads it: oar.wood, entry 2, species."""
    text = ""
    for part in loc:
        if isinstance(part, int):
            text += f", entry {part + 1}"
        else:
            text += (", " if ", entry" in text else "." if text else "") + part
    return text


def in_words(detail: ErrorDetails, given: Mapping[str, Any]) -> str:
    """A fault that the keys found, in words."""
    loc, kind = tuple(detail["loc"]), detail["type"]
    if kind == "value_error":
        return str(detail["ctx"]["error"])
    if kind == "missing":
        return "is missing; " + _example_of(loc)
    if kind == "extra_forbidden":
        return _unknown_key(loc)
    if kind == "literal_error":
        return f"{detail['input']!r} is not one of {detail['ctx']['expected'].replace(chr(39), chr(34))}"
    if kind in ("model_type", "model_attributes_type", "dict_type"):
        return "should be a table of keys, not a single value"
    if kind == "list_type":
        return "should be a list of entries, each under its own [[" + ".".join(str(p) for p in loc) + "]]"
    if kind == "too_short":
        return "has no entry; at least the loom is needed"
    return f"{detail['input']!r} cannot be used here"


def _example_of(loc: Location) -> str:
    keys = [part for part in loc if isinstance(part, str)]
    example = tomllib.loads((tables.data_folder() / "quillet.toml").read_text(encoding="utf-8"))
    found: Any = example
    for part in loc:
        try:
            found = found[part]
        except (KeyError, IndexError, TypeError):
            return f"add {'.'.join(keys)}"
    if isinstance(found, dict | list):
        return f"add the table [{'.'.join(keys)}]"
    shown = f'"{found}"' if isinstance(found, str) else found
    shown = f"'{found}'" if isinstance(found, str) and '"' in found else shown
    return f"add a line like {keys[-1]} = {shown}"


def _unknown_key(loc: Location) -> str:
    model: type[BaseModel] = keys.ProjectFile
    for part in loc[:-1]:
        if isinstance(part, int):
            continue
        annotation = str(model.model_fields[part].annotation)
        match = re.search(r"oarkit\.project\.keys\.(\w+)", annotation)
        model = getattr(keys, match[1]) if match else model
    known = [field.alias or name for name, field in model.model_fields.items()]
    near = difflib.get_close_matches(str(loc[-1]), known, n=1, cutoff=0.5)
    hint = f"did you mean {near[0]}?" if near else f"known here: {', '.join(known)}"
    return f"is not a key that oarkit knows; {hint}"


def toml_in_words(message: str, text: str) -> str:
    """What is wrong with the TOML, with the line as it stands."""
    match = re.search(r"^(.*?) \(at (?:line (\d+), column (\d+)|end of document)\)$", message)
    if match is None:
        return f"the file cannot be read as TOML: {message}"
    if match[2] is None:
        return f"the file ends in the middle of something ({match[1].lower()}); is a quote or bracket left open?"
    number = int(match[2])
    lines = text.splitlines()
    line = re.split(r"\s+#", lines[number - 1].strip())[0] if number <= len(lines) else ""
    quoted = re.match(r"""([\w.\-]+)\s*=\s*(["'])(.*)\2$""", line)
    bare = re.match(r"""([\w.\-]+)\s*=\s*([-+.\d][^"]*?["']?)$""", line)
    hint = f" ({match[1]})"
    if match[1].startswith(("Cannot overwrite", "Cannot declare")):
        hint = " That key or table stands in the file already; leave one of the two out."
    elif quoted and re.search(r"""["']""", quoted[3]):
        hint = (
            f" Foot and inch marks end the quotes; put three single quotes around them: {quoted[1]} = '''{quoted[3]}'''"
        )
    elif bare:
        value = bare[2] if not re.search(r"""["',]""", bare[2]) else ""
        hint = " A size is written in quotes" + (
            f': {bare[1]} = "{value}"' if value else ', like "863.6 mm" or "34 1/2 in".'
        )
    return f"line {number} cannot be read as TOML: {line or match[1]}.{hint}"


def line_of(loc: Location, text: str) -> int | None:
    """Line on which a key stands, or the line of its table; found by reading the headings, good enough to point at."""
    best: tuple[int, int] | None = None
    heading: tuple[str, ...] = ()
    counts: dict[str, int] = {}
    keys = tuple(part for part in loc if isinstance(part, str))
    entry = next((part for part in loc if isinstance(part, int)), None)
    for number, line in enumerate(text.splitlines(), 1):
        table = re.match(r"\s*\[(\[?)\s*([\w.\-]+)\s*\]", line)
        key = re.match(r"\s*([\w.\-]+)\s*=", line)
        if table:
            heading = tuple(table[2].split("."))
            counts[table[2]] = counts.get(table[2], -1) + 1
            path = heading
        elif key:
            path = (*heading, *key[1].split("."))
        else:
            continue
        if (
            entry is not None
            and heading == keys[: len(heading)]
            and ".".join(heading) == "oar.wood"
            and counts["oar.wood"] != entry
        ):
            continue
        if path == keys[: len(path)] and (best is None or len(path) > best[0]):
            best = (len(path), number)
    return best[1] if best else None
