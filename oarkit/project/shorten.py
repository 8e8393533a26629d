"""Values as the file has them, cut short for a message."""

from __future__ import annotations


def shortened(given: object) -> str:
    """A value as the file has it, cut short where it is long.

    Parameters
    ----------
    given : object
        Any value of a TOML file. [any]

    Returns
    -------
    str
        At most forty letters or so. [text]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> shortened(True), shortened("port")
    ('true', '"port"')
    """
    if isinstance(given, bool):
        return str(given).lower()
    if isinstance(given, dict | list):
        return "a table" if isinstance(given, dict) else "a list"
    try:
        text = f'"{" ".join(given.split())}"' if isinstance(given, str) else str(given)
    except ValueError:
        return "a number of thousands of digits"
    return text if len(text) <= 44 else f"{text[:40]}..."
