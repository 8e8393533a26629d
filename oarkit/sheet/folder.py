"""Writes the output folder: built aside, moved into place whole, and never over what somebody else put there."""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import tempfile
from collections.abc import Callable, Mapping
from pathlib import Path, PurePosixPath
from typing import Any

from oarkit.design import Design, OarDesign, Side, Sizing, design, oar_design, sized
from oarkit.project import OarProject, Project

RECORD = "oarkit-files.json"  #: names and digests of what oarkit wrote


class FolderError(Exception):
    """The output folder cannot be written; what was there is as it was."""


def write_sheet(project: Project, out: str | Path) -> Design:
    """Design a project and write its sheet: HTML, PDF, tables and results.

    Parameters
    ----------
    project : Project
        A checked project. [record]
    out : str or Path
        Folder to write; a folder that holds anything oarkit did not write is refused. [path]

    Returns
    -------
    Design
        What was computed. [record]

    Raises
    ------
    FolderError
        The folder cannot be written, in words; what was there is as it was.
    BadDesign
        The numbers cannot be built or rowed.

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> import tempfile
    >>> from oarkit import example_project
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     made = write_sheet(example_project("quillet"), f"{folder}/sheet")
    >>> made.passes
    True
    """
    check_folder(Path(out), of=project.name)
    made = design(project.inputs)
    write_folder(Path(out), sheet_files(project, made), of=project.name)
    return made


def write_rig(project: Project, out: str | Path) -> Design:
    """Design a project and write what it says of the rig alone: one page, and its first two drawings apart.

    Parameters
    ----------
    project : Project
        A checked project. [record]
    out : str or Path
        Folder to write; a folder that holds anything oarkit did not write is refused. [path]

    Returns
    -------
    Design
        What was computed. [record]

    Raises
    ------
    FolderError
        The folder cannot be written, in words; what was there is as it was.
    BadDesign
        The numbers cannot be built or rowed.

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> import tempfile
    >>> from oarkit import example_project
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     made = write_rig(example_project("quillet"), f"{folder}/rig")
    ...     sorted(path.name for path in Path(f"{folder}/rig").iterdir())
    ['length.svg', 'oarkit-files.json', 'rig.html', 'stroke.svg']
    """
    from oarkit.sheet import html

    check_folder(Path(out), of=f"{project.name}, its rig")
    made = design(project.inputs)
    papers = html.rig_drawings(project, made)
    files = {"rig.html": html.rig_html(project, made, papers).encode(), "length.svg": papers[0].svg().encode()}
    if made.stroke is not None:
        files["stroke.svg"] = papers[1].svg().encode()
    write_folder(Path(out), files, of=f"{project.name}, its rig")
    return made


def write_oar(project: OarProject, out: str | Path) -> tuple[OarDesign, dict[Side, Sizing]]:
    """Judge an oar and write what it says of the oar alone: one page, its checks, and results.

    Parameters
    ----------
    project : OarProject
        A checked project, whole or of an oar alone. [record]
    out : str or Path
        Folder to write; a folder that holds anything oarkit did not write is refused. [path]

    Returns
    -------
    tuple of OarDesign and dict
        What was computed, and how each oar would be sized anew. [records]

    Raises
    ------
    FolderError
        The folder cannot be written, in words; what was there is as it was.
    BadDesign
        The numbers cannot be built.

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> import tempfile
    >>> from oarkit.project import read_oar
    >>> from oarkit.tables import data_folder
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     made, _ = write_oar(read_oar(data_folder() / "quillet.toml"), f"{folder}/oar")
    ...     sorted(path.name for path in Path(f"{folder}/oar").iterdir())
    ['checks.csv', 'oar.html', 'oarkit-files.json', 'results.json', 'stations.csv', 'strength.svg']
    """
    from oarkit.sheet import html, results

    check_folder(Path(out), of=f"{project.name}, its oar")
    made = oar_design(project.oar_inputs)
    sizing = {side: sized(made, side) for side in made.oars}
    papers = html.oar_drawings(made, project.display, sizing)
    files = {
        "oar.html": html.oar_html(project.title, project.display, made, sizing, papers).encode(),
        "strength.svg": papers[1].svg().encode(),
        "checks.csv": results.checks_csv(made).encode(),
        "stations.csv": results.stations_csv(made).encode(),
        "results.json": results.oar_json(project.title, made, project.display).encode(),
    }
    write_folder(Path(out), files, of=f"{project.name}, its oar")
    return made, sizing


def sheet_files(project: Project, made: Design) -> dict[str, bytes]:
    """Every file of a sheet, by name."""
    from oarkit.sheet import html, pdf, results

    sizing = {side: sized(made.oar, side) for side in made.oars}
    papers = html.drawings(project, made, sizing)
    files = {
        "sheet.html": html.sheet_html(project, made, sizing, papers).encode(),
        "sheet.pdf": pdf.sheet_pdf(project, made, sizing, papers),
        "results.json": results.results_json(project, made).encode(),
        "results.csv": results.results_csv(made).encode(),
        "checks.csv": results.checks_csv(made.oar).encode(),
        "stations.csv": results.stations_csv(made).encode(),
        "marks.csv": results.marks_csv(project, made).encode("utf-8-sig"),
        "working.csv": results.working_csv(project, made).encode("utf-8-sig"),
    }
    if made.stroke is not None:
        files["paths.csv"] = results.paths_csv(made).encode()
    return files


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def check_folder(out: Path, of: str = "") -> None:
    """Refuse a folder that must not be written over with the sheet of that project file, before any work is done."""
    try:
        _check(_placed(out), out, of)
    except OSError as error:
        raise FolderError(f"{str(out)[:80]} cannot be used: {error.strerror or error}") from None


def _placed(out: Path) -> Path:
    """Where the folder really is: links above it are seen through, one in its own place is not."""
    named = Path(os.path.abspath(out))
    return named.parent.resolve() / named.name


def _check(place: Path, out: Path, of: str) -> None:
    if place.is_symlink():
        raise FolderError(f"{out} is a link to another place; name a plain folder")
    here = Path.cwd().resolve()
    if place in (here, *here.parents):
        raise FolderError(
            f"{out} is the folder you stand in, or one above it; name a folder of its own, like --out my-sheet"
        )
    if place.exists() and not place.is_dir():
        raise FolderError(f"{out} is a file; name a folder")
    above = next(parent for parent in place.parents if parent.exists())
    if not above.is_dir():
        raise FolderError(f"{above} is a file, so {out} cannot be made in it")
    strange = _strange_files(place) if place.exists() else []
    if strange:
        listed = ", ".join(strange[:3]) + (f" and {len(strange) - 3} more" if len(strange) > 3 else "")
        raise FolderError(
            f"{out} holds what oarkit did not write, or what was changed since ({listed}); nothing was touched. "
            "Name another folder, or clear this one yourself"
        )
    other = _record_of(place).get("of") or of
    if of and other != of:
        raise FolderError(f"{out} holds what was made of {other}; nothing was touched. Name another folder")


def _strange_files(place: Path) -> list[str]:
    """Names in a folder that are not, or no longer, as oarkit wrote them; an error where it cannot be looked into."""

    def stop(error: OSError) -> None:
        raise error

    found = [Path(at) / name for at, folders, files in os.walk(place, onerror=stop) for name in (*folders, *files)]
    if not found:
        return []
    listed = _record_of(place).get("files")
    written = {str(name): str(digest) for name, digest in listed.items()} if isinstance(listed, dict) else {}
    folders = {str(parent) for name in written for parent in PurePosixPath(name).parents}
    strange = []
    for entry in sorted(found):
        name = entry.relative_to(place).as_posix()
        if name == RECORD and written and not entry.is_symlink():
            continue
        if entry.is_dir() and not entry.is_symlink() and name in folders:
            continue
        if entry.is_symlink() or name not in written or not _is_as_written(entry, written[name]):
            strange.append(name)
    return strange


def _record_of(place: Path) -> dict[str, Any]:
    """What oarkit noted when it wrote the folder; empty where it did not, or where the note cannot be read."""
    try:
        record = json.loads((place / RECORD).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return record if isinstance(record, dict) else {}


def _is_as_written(file: Path, digest: str) -> bool:
    try:
        return _digest(file.read_bytes()) == digest
    except OSError:
        return False


def write_folder(out: Path, files: Mapping[str, bytes], *, of: str = "") -> None:
    """Build a folder aside and move it into place whole.

    Parameters
    ----------
    out : Path
        The folder. [path]
    files : mapping
        Contents by file name, with "/" for a folder within. [bytes]
    of : str, optional
        File that the contents were made of; a folder made of another is refused. [text]

    Returns
    -------
    None
        Nothing. [none]

    Raises
    ------
    FolderError
        It cannot be written; what was there is as it was.

    Notes
    -----
    Source: derived; a rename within one folder is whole or not at all.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     write_folder(Path(folder) / "new", {"a.txt": b"a"})
    ...     sorted(p.name for p in (Path(folder) / "new").iterdir())
    ['a.txt', 'oarkit-files.json']
    """
    check_folder(out, of)
    place = _placed(out)
    aside: Path | None = None
    made: list[Path] = []
    try:
        for parent in reversed([parent for parent in place.parents if not parent.exists()]):
            parent.mkdir()
            made.insert(0, parent)
        aside = Path(tempfile.mkdtemp(prefix=f".{place.name[:40]}.new-", dir=place.parent))
        for name, data in files.items():
            _write_file(aside / name, data)
        record = {"written_by": "oarkit", "of": of, "files": {name: _digest(data) for name, data in files.items()}}
        _write_file(aside / RECORD, (json.dumps(record, indent=1) + "\n").encode())
        aside.chmod(0o777 & ~_umask())
        _swap(aside, place)
    except OSError as error:
        raise FolderError(
            f"{str(out)[:80]} could not be written ({error.strerror or error}); what was there is as it was"
        ) from None
    finally:
        if aside is not None and aside.exists():
            shutil.rmtree(aside, ignore_errors=True)
        for parent in made:  # one that holds the new folder stays, for it cannot be taken away
            _quietly(parent.rmdir)


def _write_file(file: Path, data: bytes) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    with file.open("xb") as handle:
        handle.write(data)
        handle.flush()
        os.fsync(handle.fileno())


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _swap(aside: Path, place: Path) -> None:
    """Put the new folder where the old one is, or leave the old one, whatever stops it."""
    if not place.exists():
        aside.rename(place)
        return
    old = Path(tempfile.mkdtemp(prefix=f".{place.name[:40]}.old-", dir=place.parent))
    try:
        place.rename(old)
        aside.rename(place)
    except BaseException:
        if not place.exists():
            old.rename(place)
        _quietly(old.rmdir)
        raise
    shutil.rmtree(old, ignore_errors=True)


def _quietly(action: Callable[[], object]) -> None:
    try:
        action()
    except OSError:
        return
