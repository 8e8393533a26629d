"""Works through many designs in blocks, so that angles along the stroke do not fill the memory."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import fields, is_dataclass
from typing import Any

import numpy as np

WORKERS = 2  #: blocks in hand at once; numpy leaves the interpreter free while it works
_KEPT = 3 * 2**20  # never written to [numbers of 8 byte]
BLOCK = 2048  #: designs at a time; at 41 angles an array of them takes 0.7 MB


def in_blocks(function: Callable[..., Any], *, size: int = BLOCK, **inputs: Any) -> Any:
    """Call a function on designs in blocks and put its record together again.

    Parameters
    ----------
    function : callable
        Takes keyword inputs, designs on the first axis, and returns a record of arrays. [function]
    size : int, optional
        Designs in a block. [count]
    **inputs : Any
        Numbers, arrays with designs on the first axis, and records, tuples, lists and mappings of such; plain numbers
        go to every block. [any]

    Returns
    -------
    Any
        The record that the function makes of all designs at once, but for what is no number. [record]

    Notes
    -----
    Source: derived; row by row the result equals single calls.

    Examples
    --------
    >>> from oarkit.stroke.clear import Sides
    >>> def twice(x):
    ...     return Sides(rail_inner=2 * x, rail_outer=x, rail_top=0, pin=0, lock_above_water=0, bracket_half_length=0)
    >>> in_blocks(twice, size=2, x=np.arange(5.0)).rail_inner.tolist()
    [0.0, 2.0, 4.0, 6.0, 8.0]
    """
    count = max((_count(value) for value in inputs.values()), default=0)
    if count <= size:
        return function(**inputs)
    starts = range(0, count, size)

    def part(at: int) -> Any:
        return function(**{name: _cut(value, slice(at, at + size)) for name, value in inputs.items()})

    np.empty(_KEPT)  # once so much was given back, glibc keeps what later blocks free, and need not ask for it anew
    with ThreadPoolExecutor(WORKERS) as pool:
        return _joined(list(pool.map(part, starts)))


def _count(value: Any) -> int:
    """Designs on the first axis of a value; nil for a plain number."""
    if is_dataclass(value):
        return max((_count(getattr(value, field.name)) for field in fields(value)), default=0)
    if isinstance(value, Mapping):
        return max((_count(each) for each in value.values()), default=0)
    if isinstance(value, (tuple, list)):
        return max((_count(each) for each in value), default=0)
    return len(value) if isinstance(value, np.ndarray) and value.ndim else 0


def _cut(value: Any, part: slice) -> Any:
    if is_dataclass(value) and not isinstance(value, type):
        return type(value)(**{field.name: _cut(getattr(value, field.name), part) for field in fields(value)})
    if isinstance(value, Mapping):
        return {name: _cut(each, part) for name, each in value.items()}
    if isinstance(value, (tuple, list)):
        return type(value)(_cut(each, part) for each in value)
    return value[part] if isinstance(value, np.ndarray) and value.ndim else value


def _joined(parts: list[Any]) -> Any:
    first = parts[0]
    if is_dataclass(first) and not isinstance(first, type):
        names = [field.name for field in fields(first)]
        return type(first)(**{name: _joined([getattr(part, name) for part in parts]) for name in names})
    if isinstance(first, Mapping):
        return {name: _joined([part[name] for part in parts]) for name in first}
    if isinstance(first, (tuple, list)):
        return type(first)(_joined(list(each)) for each in zip(*parts, strict=True))
    return np.concatenate(parts) if isinstance(first, np.ndarray) and first.ndim else first
