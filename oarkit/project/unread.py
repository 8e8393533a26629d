"""Files of which some entries cannot be read: what can be is kept, so that the rest may still be compared."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, TypeVar, get_args, get_origin

from pydantic import BaseModel, TypeAdapter, ValidationError
from pydantic.fields import FieldInfo

from oarkit.project.faults import table_of

UNREAD = float("nan")  #: stands for an entry that has a fault of its own: no comparison with it is ever true
_M = TypeVar("_M", bound=BaseModel)
_T = TypeVar("_T")


def what_can_be_read(model: type[_M], given: object) -> _M:
    """A table with what can be read of it, and nan for each entry that cannot, so that the rest may still be compared.

    Parameters
    ----------
    model : type
        The table's keys. [type]
    given : object
        What the file holds in its place; anything but a mapping leaves every entry unread. [any]

    Returns
    -------
    BaseModel
        The table, not validated as a whole. [record]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit.project.keys import ProjectFile
    >>> file = what_can_be_read(ProjectFile, {"rig": {"gap": "50 mm", "length": "long"}})
    >>> file.rig.gap, file.rig.length
    (0.05, nan)
    """
    values: dict[str, Any] = {}
    for name, field in model.model_fields.items():
        if isinstance(given, Mapping) and (field.alias or name) not in given and not field.is_required():
            values[name] = field.get_default()
        else:
            entry = given.get(field.alias or name, UNREAD) if isinstance(given, Mapping) else UNREAD
            values[name] = _entry(field, entry)
    return model.model_construct(**values)


def is_read(entry: object) -> bool:
    """Whether an entry was given and could be read.

    Parameters
    ----------
    entry : object
        What `what_can_be_read` made of it. [any]

    Returns
    -------
    bool
        False for an entry left out, and for one with a fault of its own. [flag]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> is_read(0.5), is_read(None), is_read(UNREAD)
    (True, False, False)
    """
    return entry is not None and entry is not UNREAD


def known(entry: _T | None) -> _T | None:
    """An entry that was given and could be read, else None.

    Parameters
    ----------
    entry : object
        What `what_can_be_read` made of it. [any]

    Returns
    -------
    object or None
        The entry itself. [any]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> known(0.5), known(UNREAD)
    (0.5, None)
    """
    return entry if is_read(entry) else None


def _entry(field: FieldInfo, given: object) -> Any:
    table = table_of(field.annotation)
    if table and _is_list(field.annotation):
        return [what_can_be_read(table, each) for each in given] if isinstance(given, list) else UNREAD
    if table:
        return what_can_be_read(table, given)
    if given is UNREAD:
        return UNREAD
    annotation: Any = Annotated[field.annotation, *field.metadata] if field.metadata else field.annotation
    try:
        return TypeAdapter(annotation).validate_python(given)
    except ValidationError:
        return UNREAD


def _is_list(annotation: Any) -> bool:
    return get_origin(annotation) is list or any(_is_list(inner) for inner in get_args(annotation))
