"""The command line, for a builder: sheet, rig, oar, woods, example."""

from __future__ import annotations

import argparse
import io
import os
import sys
import textwrap
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from oarkit import __version__
from oarkit.working import BadDesign

DONE, CHECK_FAILS, BAD_INPUT, STOPPED = 0, 1, 2, 130
COLUMNS = 80  #: of the narrowest terminal


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="oarkit",
        description="From a rowing station, a rower and the boards on the rack\n"
        "to a rig and a pair of oars, with the working shown.",
        epilog="Start with   oarkit example my-boat\n"
        "then put your own numbers into my-boat/quillet.toml, and\n"
        "             oarkit sheet my-boat/quillet.toml --out my-sheet",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="version", version=f"oarkit {__version__}")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", title="commands")
    sheet = commands.add_parser(
        "sheet",
        help="write the design sheet of a project file (or of a roster, one row a bench)",
        description="Reads a project file and writes sheet.html, sheet.pdf, tables (CSV) and results.json into a "
        "folder of their own. "
        "A roster (.csv, one row a bench) gives one such folder a bench. "
        "Exit status: 0 done, 1 done but a strength check fails, 2 the file or folder cannot be used.",
    )
    sheet.add_argument(
        "project", metavar="PROJECT.toml", help="the project file; `oarkit example DIR` writes one to start from"
    )
    sheet.add_argument(
        "--out",
        metavar="DIR",
        help="folder to write; default: the file's name with -sheet; never over anything oarkit did not write",
    )
    rig = commands.add_parser(
        "rig",
        help="say why this oar length: the rig alone, on one screen and in drawings",
        description="Reads a project file and prints what it says of the rig: the length beside the rules of "
        "thumb, what "
        "was chosen and what decides it, how the hands pass, and what is in the way. Writes rig.html with the drawings "
        "into a folder of its own. Leave length, overlap or lock_overhang out of the file to have them chosen. "
        "Exit status: 0 done, 1 done but bracket or tholes are not strong enough, 2 the file or folder cannot be used.",
    )
    rig.add_argument("project", metavar="PROJECT.toml", help="the project file")
    rig.add_argument("--out", metavar="DIR", help="folder to write; default: the file's name with -rig")
    oar = commands.add_parser(
        "oar",
        help="say whether the oar will do: the oar alone, every load on it and every check",
        description="Reads a project file, or one that holds an [oar] alone with its length and inboard, and prints "
        "what the oar weighs, how it bends, what it bears under every load, what governs and what would help. Writes "
        "oar.html with the drawings, and every check, into a folder of its own. "
        "Exit status: 0 done, 1 done but a load of rowing is not borne, 2 the file or folder cannot be used.",
    )
    oar.add_argument("project", metavar="PROJECT.toml", help="the project file")
    oar.add_argument("--out", metavar="DIR", help="folder to write; default: the file's name with -oar")
    woods = commands.add_parser(
        "woods",
        help="list the woods of the tables, or those that match some words",
        description="Means of small clear specimens at 12 % moisture. Without words, lists every wood.",
    )
    woods.add_argument("words", metavar="WORD", nargs="*", help="e.g. spruce, or: spruce Canada")
    example = commands.add_parser(
        "example",
        help="write a commented project file to start from",
        description="Writes a commented project file into a folder; never overwrites.",
    )
    example.add_argument("folder", metavar="DIR", help="folder to write it into, made if it is not there")
    example.add_argument(
        "--which",
        choices=("quillet", "tumblehod", "measured", "roster"),
        default="quillet",
        help="quillet: a narrow skiff with brackets and crossed handles (default); tumblehod: a wide dinghy with "
        "tholes; measured: an oar alone, taken off an old one; roster: a class of eight",
    )
    return parser


def main(argv: Sequence[str] | None = None) -> int:
    """Run a command.

    Parameters
    ----------
    argv : sequence of str, optional
        Words of the command line; those of the process where nothing is given. [text]

    Returns
    -------
    int
        Exit status: 0 done, 1 done but a check fails, 2 bad input. [1]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> main(["woods", "no-such-wood"])
    2
    """
    parser = _parser()
    given = parser.parse_args(argv)
    try:
        status = _run(given, parser)
        sys.stdout.flush()
        return status
    except KeyboardInterrupt:
        print("\nstopped; nothing was left half written", file=sys.stderr)
        return STOPPED
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return DONE
    except MemoryError:
        return _refuse("this machine has not enough memory for that")
    except OSError as error:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return _refuse(f"the output could not be written: {error.strerror or error}")


def _run(given: argparse.Namespace, parser: argparse.ArgumentParser) -> int:
    if given.command == "sheet":
        return _sheet(given.project, given.out)
    if given.command == "rig":
        return _rig(given.project, given.out)
    if given.command == "oar":
        return _oar(given.project, given.out)
    if given.command == "woods":
        return _woods(" ".join(given.words))
    if given.command == "example":
        return _example(given.folder, given.which)
    parser.print_help()
    return DONE


#: What stands in for a sign that a terminal of plain letters cannot show.
_PLAIN = str.maketrans({"−": "-", "–": "-", "×": "x", "±": "+/-", "°": " deg", "²": "2", "³": "3", "·": ".", "κ": "k"})


def _say(text: str = "", *, error: bool = False) -> None:
    """Print a text, in plain letters where the terminal knows no others."""
    stream = sys.stderr if error else sys.stdout
    encoding = stream.encoding or "utf-8"
    try:
        text.encode(encoding)
    except UnicodeEncodeError:
        text = text.translate(_PLAIN).encode(encoding, "replace").decode(encoding)
    print(text, file=stream)


def _refuse(sentence: str) -> int:
    _say(f"oarkit: {sentence}", error=True)
    return BAD_INPUT


def _made(
    file: str, folder: Path, write: Callable[[Any, Path], Any], read: Callable[[str], Any]
) -> tuple[Any, Any] | int:
    """Read a project file and write what is made of it; the exit status where that cannot be."""
    from oarkit.project import ProjectError
    from oarkit.sheet.folder import FolderError
    from oarkit.units import Display, filled

    display: Display = "mm"
    try:
        project = read(file)
        display = project.display
        return project, write(project, folder)
    except (ProjectError, FolderError) as error:
        return _refuse(str(error))
    except BadDesign as error:
        said = filled(error.text, error.quantities, display)
        return _refuse(f"{Path(file).name} cannot be built as it stands: {said}")


def _rig(file: str, out: str | None) -> int:
    from oarkit.project import read_project
    from oarkit.sheet import screen
    from oarkit.sheet.folder import write_rig

    if Path(file).suffix.lower() == ".csv":
        return _refuse(
            f"{Path(file).name} is a roster, and `oarkit rig` takes one project file. `oarkit sheet {file}` makes a "
            "sheet for every bench, with all that is said of its rig."
        )
    folder = Path(out) if out else Path(f"{Path(file).stem}-rig")
    made = _made(file, folder, write_rig, read_project)
    if isinstance(made, int):
        return made
    for line in screen.rig_lines(*made, columns=COLUMNS - 1):
        _say(line)
    _say(
        f"\n  written to {folder}: open rig.html\n  (its first drawings apart: length.svg, why this length; "
        f"stroke.svg, the hands)"
    )
    weak = any(check.breaks and check.ratio < made[1].inputs.wanted_safety for check in made[1].fittings)
    return CHECK_FAILS if weak else DONE


def _oar(file: str, out: str | None) -> int:
    from oarkit.project import read_oar
    from oarkit.sheet import screen
    from oarkit.sheet.folder import write_oar

    if Path(file).suffix.lower() == ".csv":
        return _refuse(
            f"{Path(file).name} is a roster, and `oarkit oar` takes one project file. `oarkit sheet {file}` makes a "
            "sheet for every bench, with all that is said of its oars."
        )
    folder = Path(out) if out else Path(f"{Path(file).stem}-oar")
    done = _made(file, folder, write_oar, read_oar)
    if isinstance(done, int):
        return done
    project, (made, sizing) = done
    for line in screen.oar_lines(project.title, made, project.display, sizing, columns=COLUMNS - 1):
        _say(line)
    _say(f"\n  written to {folder}: open oar.html (every check: checks.csv; moment and strength: strength.svg)")
    return DONE if made.passes else CHECK_FAILS


def _sheet(file: str, out: str | None) -> int:
    from oarkit.project import ProjectError, read_project
    from oarkit.sheet.folder import FolderError, write_sheet

    folder = Path(out) if out else Path(f"{Path(file).stem}-sheet")
    if Path(file).suffix.lower() == ".csv":
        try:
            return _class_sheets(file, folder)
        except (ProjectError, FolderError) as error:
            return _refuse(str(error))
    done = _made(file, folder, write_sheet, read_project)
    if isinstance(done, int):
        return done
    project, made = done
    from oarkit.sheet import content

    _say(f"{project.title}\n")
    summary = content.summary(project, made)
    width = max(len(word) for word, _, _ in summary)
    for word, first, second in summary:
        _say(f"  {word:<{width}} {first:>11}   {second}".rstrip())
    said = content.findings(project, made)
    pressing = [f for f in said if f.level != "note"]
    asks = "1 finding asks" if len(pressing) == 1 else f"{len(pressing) or 'no'} findings ask"
    notes = len(said) - len(pressing)
    _say(f"\n  {asks} for a change, {notes} note{'' if notes == 1 else 's'}{' more on the sheet' if notes else ''}")
    for finding in pressing:
        _say(_wrapped(f"{content.LEVELS[finding.level]}: {finding.text}"))
    _say(f"\n  written to {folder}: open sheet.html, or print sheet.pdf at 100 %")
    return DONE if made.passes else CHECK_FAILS


def _wrapped(text: str) -> str:
    from oarkit.sheet.marks import unbroken

    return textwrap.fill(unbroken(text), width=COLUMNS - 1, initial_indent="  - ", subsequent_indent="    ").replace(
        "\u00a0", " "
    )


def _class_sheets(file: str, folder: Path) -> int:
    from oarkit.roster import read_roster, write_roster
    from oarkit.strength.governs import ABUSE

    designs = write_roster(read_roster(file), folder, of=Path(file).name)
    for bench, made in designs.items():
        every = list(dict.fromkeys(f.code for f in made.findings if f.level == "fails"))
        fails = [code for code in every if code not in ABUSE]
        abused = len(every) - len(fails)
        cautions = sum(f.level == "caution" for f in made.findings)
        state = "fails: " + ", ".join(fails) if fails else "ok"
        _say(
            f"  {bench:<14} {state:<20} {cautions} caution{'' if cautions == 1 else 's'}, "
            f"{abused or 'no'} kind{'' if abused == 1 else 's'} of abuse break{'s' if abused == 1 else ''} it"
        )
    _say(f"\n  written to {folder}: one folder a bench, and class.csv")
    return DONE if all(made.passes for made in designs.values()) else CHECK_FAILS


def _woods(words: str) -> int:
    from rich.console import Console
    from rich.table import Table

    from oarkit.tables import other_names, species_table
    from oarkit.wood.adjust import density_at, gravity_at
    from oarkit.wood.species import matching_species

    table = species_table()
    found = matching_species(words, table)
    named = [
        s for s in table if any(w.lower() == words.lower() and proper == s.name for w, proper in other_names().items())
    ]
    found += [s for s in named if s not in found]
    if not found:
        return _refuse(f"no wood matches '{words}'; `oarkit woods` lists them all")
    shown = Table(box=None, pad_edge=False, header_style="bold")
    shown.add_column("wood", min_width=26)
    shown.add_column("grown in", no_wrap=True)
    for heading in ("density\nkg/m3", "modulus\nGPa", "bending\nMPa", "crushing\nMPa", "shear\nMPa"):
        shown.add_column(heading, justify="right", no_wrap=True)
    for s in found:
        gravity = s.gravity_12 or (s.gravity_green and gravity_at(green_gravity=s.gravity_green, moisture=0.12))
        density = "–" if gravity is None else f"{density_at(gravity=gravity, moisture=0.12):.0f}"
        shown.add_row(
            s.name + (" *" if s.second_hand else ""),
            s.origin,
            density + ("" if s.gravity_12 else "~"),
            _cell(s.bending_modulus_12, 1e9, 2),
            _cell(s.bending_strength_12, 1e6, 0),
            _cell(s.compression_parallel_12, 1e6, 1),
            _cell(s.shear_parallel_12, 1e6, 1),
        )
    buffer = io.StringIO()
    Console(file=buffer, width=COLUMNS, force_terminal=sys.stdout.isatty()).print(shown)
    _say("\n".join(line.rstrip() for line in buffer.getvalue().splitlines()))
    _say()
    _say(
        textwrap.fill(
            "Means of small clear straight-grained specimens at 12 % moisture (Wood Handbook FPL-GTR-282, 2021): "
            "half of "
            "all boards are weaker. The modulus is as printed; an oar's is 10 % more, free of shear. ~ is from "
            "the green "
            "gravity." + (" * is quoted second-hand." if any(s.second_hand for s in found) else ""),
            width=COLUMNS - 1,
        )
    )
    return DONE


def _cell(value: float | None, unit: float, digits: int) -> str:
    return "–" if value is None else f"{value / unit:.{digits}f}"


def _example(folder: str, which: str) -> int:
    from oarkit.tables import data_folder

    name = "roster.csv" if which == "roster" else f"{which}.toml"
    target = Path(folder) / name
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        with target.open("x", encoding="utf-8", newline="\n") as file:
            file.write((data_folder() / name).read_text(encoding="utf-8"))
    except FileExistsError:
        return _refuse(
            f"{target} is there already and was left as it is"
            if target.exists()
            else f"{folder} is a file; name a folder"
        )
    except OSError as error:
        return _refuse(f"{target} cannot be written: {error.strerror or error}")
    then = f"oarkit oar {target}" if which == "measured" else f"oarkit sheet {target} --out my-sheet"
    _say(f"written: {target}\nChange its numbers to your own, then:  {then}")
    return DONE
