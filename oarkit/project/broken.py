"""A text that is no TOML: what the slip probably is, in the builder's words."""

from __future__ import annotations

import re
from collections.abc import Callable

_Hint = Callable[[re.Match[str]], str] | str

_TWICE = "That key or table stands in the file for the second time; leave one of the two out."
_BRACKET = "A bracket is opened and not closed, or closed and not opened."
_SINGLE_WOOD = r"\[\s*oar\s*\.\s*wood\s*\]$"  #: heading of a piece of wood with one pair of brackets
_ONE_LINE = "An inline table { ... } must stand on one line, its closing bracket too."


def _marks(match: re.Match[str]) -> str:
    key, quote, inner = match[1], match[2], match[3]
    if quote == '"':
        said = "An inch mark ends the double quotes around it; write the size like"
    else:
        said = "A foot mark ends the single quotes around it; write the size in double quotes, like"
    return f'{said} "7 ft 6 3/4 in", or put three single quotes around it: {key} = ' + f"'''{inner}'''"


def _quoted(match: re.Match[str]) -> str:
    return f'A value like this stands in quotes: {match[1]} = "{match[2].strip()}"'


#: What a line looks like (without its comment), and what to say; the first that fits is said.
_SLIPS: tuple[tuple[str, _Hint], ...] = (
    (r"[“”]", 'It holds curly quotes; use the straight ones: ".'),
    (r"\"\s*//|'\s*//", "A comment begins with #, not with //."),
    (r"^\[\[?[^\]]*$", "The closing bracket of the heading is missing."),
    (r"^\[.*\s.*\]$", "A heading has no spaces in it, like [boat] or [[oar.wood]]."),
    (r"^\[\[[^\]]*\]$|^\[[^\[\]]*\]\]$", "A bracket of the heading is missing or too many: [rig], but [[oar.wood]]."),
    (r"^[\w.\-]+\s*==", "One equals sign is enough; two equals signs mean nothing here."),
    (r"=\s*\(", "The bracket around several entries is curly, { and }, not round."),
    (r"\{.*;", "Between two entries stands a comma, not a semicolon."),
    (r"[\"']\s*;", "A semicolon has no place behind a value; before a remark put #."),
    (r"[{,]\s*[\w\-]+\s*:", "An equals sign is wanted in place of the colon."),
    (r"^[\w.\-]+\s*:", "An equals sign is wanted in place of the colon."),
    (r"^[\w.\-]+\s+[\"'\d]", "The equals sign is missing."),
    (r"^[\w.\-]+$", "The equals sign and the value are missing."),
    (r"^[^=\"]*$", "If this is a remark, make it a comment: put # before it."),
    (r"^[A-Za-z_][\w.\-]*(\s+[\w.\-]+)+\s*=", "A key has no spaces in it; join its words with _."),
    (r"^[\w.\-]+\s*=\s*$", "The value after the equals sign is missing."),
    (r"\{.*,\s*\}$", "A comma stands before the closing bracket; take it out."),
    (r"\{.*=\s*[\d.]+\s*[a-zA-Z]", "Each value stands in quotes with its unit, like \"19 mm\"."),
    (r"\{.*[\"\d]\s+[\w\-]+\s*=", "A comma is missing between two entries."),
    (r"\{[^}]*,$", _ONE_LINE),
    (r"\{[^}]*$|\[[^\]]*$", _BRACKET),
    (r"^([\w.\-]+)\s*=\s*(\")(.*\".*)\"$", _marks),
    (r"^([\w.\-]+)\s*=\s*(')(.*'.*)[\"']$", _marks),
    (r"^([\w.\-]+)\s*=\s*(')(\d+'.*)$", _marks),
    (r"=\s*\"[^\"]*$|=\s*'[^']*$", "The closing quote is missing."),
    (r"=\s*[^\"']*[A-Za-z]\"$", "The opening quote is missing."),
    (r"\\", "A backslash has a meaning of its own in double quotes; use single quotes, or / in its place."),
    (r"=\s*[-+]?\d+,\d", 'It holds a comma; write a decimal point, and the unit, in quotes, like "863.6 mm".'),
    (r"=\s*([Tt]rue|[Ff]alse|yes|no)$", 'No value here is yes or no; write one in quotes, like "34 in" or "left".'),
    (r"^([\w.\-]+)\s*=\s*([^\"'\[{]+)$", _quoted),
    (r"^[\w.\-]+\s*=\s*\d", "A size is written in quotes, like \"863.6 mm\" or \"34 1/2 in\"."),
)  # fmt: skip


def without_comment(line: str) -> str:
    """A line without the comment behind it; a # in quotes is none.

    Parameters
    ----------
    line : str
        One line. [text]

    Returns
    -------
    str
        What stands before the comment. [text]

    Notes
    -----
    Source: derived. In a line with an odd quote, a # after white space is taken for the comment.

    Examples
    --------
    >>> without_comment('title = "boat #3"   # mine')
    'title = "boat #3"'
    """
    whole = re.match(r"""(?:[^#"']|"(?:[^"\\]|\\.)*"|'[^']*')*(?=#|$)""", line)
    if whole and whole.end() < len(line):
        return whole[0].strip()
    if whole and whole.end() == len(line):
        return line.strip()
    return re.split(r"\s+#", line)[0].strip()


def toml_in_words(message: str, text: str) -> str:
    """What is wrong with a text that is no TOML, with the line as it stands.

    Parameters
    ----------
    message : str
        What the reader of TOML said, with line and column. [text]
    text : str
        The text. [text]

    Returns
    -------
    str
        A sentence. [text]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> toml_in_words("Invalid value (at line 1, column 8)", "beam = 34 in")
    'line 1 cannot be read: beam = 34 in. A value like this stands in quotes: beam = "34 in"'
    """
    if "\r" in text.replace("\r\n", ""):
        return "the file has line ends of an old kind (carriage returns); save it with plain line ends"
    lines = text.replace("\r\n", "\n").split("\n")
    number = _line_to_blame(message, lines)
    if number is None:
        return "the file ends in the middle of something; is a quote or a bracket left open?"
    line = without_comment(lines[number - 1]) if number <= len(lines) else ""
    hidden = re.search(r"[\x00-\x08\x0b-\x1f\x7f]", lines[number - 1] if number <= len(lines) else "")
    if hidden:
        return f"line {number} holds a sign that cannot be seen (code {ord(hidden[0])}); type the line afresh"
    shown = line if len(line) <= 100 else f"{line[:100]}..."
    return f"line {number} cannot be read: {shown}. {_hint(message, line, lines[: number - 1])}"


def _line_to_blame(message: str, lines: list[str]) -> int | None:
    """Number of the line with the slip: not always the one where the reader of TOML stumbled."""
    if message.startswith("Cannot"):
        single = [number for number, line in enumerate(lines, 1) if re.match(_SINGLE_WOOD, without_comment(line))]
        if single:
            return single[0]
    place = re.search(r"\(at line (\d+), column \d+\)$", message)
    if place:
        return int(place[1])
    open_quote = [number for number, line in enumerate(lines, 1) if re.search(r"=\s*'(?!'')[^']*$", line)]
    return open_quote[0] if open_quote else None


def _hint(message: str, line: str, before: list[str]) -> str:
    if re.match(_SINGLE_WOOD, line):
        return "Each piece of wood stands under its own heading in two brackets: [[oar.wood]]"
    if re.match(r"Cannot (overwrite|declare|mutate)|Duplicate", message):
        return _TWICE
    for looks_like, hint in _SLIPS:
        match = re.search(looks_like, line)
        if match:
            return hint if isinstance(hint, str) else hint(match)
    previous = next((without_comment(x) for x in reversed(before) if without_comment(x)), "")
    if re.search(r"\[[^\]]*$", previous):
        return _BRACKET
    return f"({message.split(' (at')[0]})"
