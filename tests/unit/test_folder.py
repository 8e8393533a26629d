"""The output folder is written whole or not at all, and never over what somebody else put there."""

import errno
import json
import os
import shutil
import stat
import subprocess
import sys
import tempfile
from functools import partial
from pathlib import Path

import pytest

from oarkit.sheet import folder
from oarkit.sheet.folder import FolderError, check_folder, write_folder, write_sheet
from oarkit.tables import data_folder

FIRST = {"sheet.html": b"<p>first</p>", "results.json": b"{}", "bench-1/sheet.pdf": b"%PDF first"}
SECOND = {"sheet.html": b"<p>second</p>", "bench-2/sheet.pdf": b"%PDF second"}
RECORD = "oarkit-files.json"
NOBODY = 65534


@pytest.fixture
def place(tmp_path, monkeypatch):
    """An output folder, not there yet, in an otherwise empty folder; the process stands elsewhere."""
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    monkeypatch.chdir(elsewhere)
    (tmp_path / "work").mkdir()
    return tmp_path / "work" / "sheet"


def contents(top):
    """Everything below a folder: files with their bytes, links with their aim, folders."""
    found = {}
    for entry in sorted(top.rglob("*")):
        name = entry.relative_to(top).as_posix()
        found[name] = os.readlink(entry) if entry.is_symlink() else None if entry.is_dir() else entry.read_bytes()
    return found


def files_in(top):
    """Files that oarkit was asked to write, by name."""
    return {name: data for name, data in contents(top).items() if data is not None and name != RECORD}


def refused(place, files=SECOND):
    """The sentence with which a folder is refused; nothing around it may change."""
    before = contents(place.parent)
    with pytest.raises(FolderError) as caught:
        write_folder(place, files)
    assert contents(place.parent) == before
    sentence = str(caught.value)
    assert sentence.strip()
    assert not [word for word in ("Errno", "Error", "Traceback", "None") if word in sentence], sentence
    return sentence


# what is written


def test_a_new_folder_holds_the_files_and_a_record(place):
    """Every file is there byte for byte, with a record of them, and nothing lies beside the folder."""
    write_folder(place, FIRST)
    assert files_in(place) == FIRST
    assert set(json.loads((place / RECORD).read_text())["files"]) == set(FIRST)
    assert [entry.name for entry in place.parent.iterdir()] == ["sheet"]


def test_the_folder_can_be_read_like_any_other(place):
    """Folder and files have the rights that the umask leaves, not those of a hiding place."""
    before = os.umask(0o022)
    try:
        write_folder(place, FIRST)
    finally:
        os.umask(before)
    assert stat.S_IMODE(place.stat().st_mode) == 0o755
    assert stat.S_IMODE((place / "sheet.html").stat().st_mode) == 0o644


def test_an_empty_folder_is_filled(place):
    """An empty folder of that name is taken."""
    place.mkdir()
    write_folder(place, FIRST)
    assert files_in(place) == FIRST


def test_own_output_is_written_again_and_drops_what_is_no_longer_written(place):
    """A second run leaves its own files only; a bench that has gone is gone from the folder."""
    write_folder(place, FIRST)
    write_folder(place, SECOND)
    assert files_in(place) == SECOND
    assert "bench-1" not in contents(place)
    assert [entry.name for entry in place.parent.iterdir()] == ["sheet"]


def test_the_folder_is_built_aside_and_moved_whole(place, monkeypatch):
    """While files are being written the old folder stands untouched; when the new one appears it is complete."""
    write_folder(place, FIRST)
    old = contents(place)
    seen, moved = [], []
    fsync, rename = os.fsync, Path.rename

    def look(handle):
        seen.append(contents(place))
        fsync(handle)

    def move(self, target):
        if Path(target) == place:
            moved.append(files_in(self))
            assert self.parent == place.parent  # one file system: the move is whole
        return rename(self, target)

    monkeypatch.setattr(os, "fsync", look)
    monkeypatch.setattr(Path, "rename", move)
    write_folder(place, SECOND)
    assert len(seen) >= len(SECOND)  # each file reaches the disk before the move
    assert all(each == old for each in seen)
    assert moved == [SECOND]


def test_missing_parents_are_made(place):
    """A folder several levels down is made with all that is missing above it."""
    write_folder(place / "a" / "b", FIRST)
    assert files_in(place / "a" / "b") == FIRST


def test_a_relative_folder_lies_under_where_one_stands(place, monkeypatch):
    """A plain name is a folder below the one that the process stands in."""
    monkeypatch.chdir(place.parent)
    write_folder(Path("sheet"), FIRST)
    assert files_in(place) == FIRST


def test_a_sheet_is_written_with_its_seven_files(place, quillet, quillet_files):
    """The main call writes what the sheet is made of, byte for byte, and gives back the design."""
    made = write_sheet(quillet, place)
    assert files_in(place) == quillet_files
    assert made.passes


# what is refused


def test_a_folder_with_a_foreign_file_is_refused(place):
    """What oarkit did not write is named and not touched."""
    place.mkdir()
    (place / "notes.txt").write_text("mine")
    assert "notes.txt" in refused(place)


@pytest.mark.parametrize("name", ["notes.txt", ".hidden", "bench-1/notes.txt", "sheet.html~"])
def test_own_output_with_a_file_put_beside_it_is_refused(place, name):
    """A note among the files of a sheet stops the next run."""
    write_folder(place, FIRST)
    (place / name).write_text("mine")
    assert name in refused(place)


def test_a_changed_file_is_refused(place):
    """A file that was altered by hand since, even at the same length, is not written over."""
    write_folder(place, FIRST)
    (place / "sheet.html").write_bytes(FIRST["sheet.html"].replace(b"first", b"fIrst"))
    assert "sheet.html" in refused(place)


def test_a_missing_file_is_no_hindrance(place):
    """Own output from which a file was taken away holds nothing of anybody else's."""
    write_folder(place, FIRST)
    (place / "results.json").unlink()
    write_folder(place, SECOND)
    assert files_in(place) == SECOND


def test_a_foreign_folder_within_is_refused(place):
    """An empty folder that oarkit did not make is somebody's too."""
    write_folder(place, FIRST)
    (place / "photos").mkdir()
    assert "photos" in refused(place)


@pytest.mark.parametrize(
    "record", [None, "", "{", "[]", '{"files": []}', '{"files": {}}', "\udce4", '{"files": {"x": 1}}']
)
def test_without_a_true_record_the_files_count_as_foreign(place, record):
    """Where the record is missing or no longer makes sense, nothing in the folder is taken for oarkit's own."""
    write_folder(place, FIRST)
    (place / RECORD).unlink()
    if record is not None:
        (place / RECORD).write_text(record, encoding="utf-8", errors="surrogateescape")
    refused(place)


def test_many_foreign_files_are_counted_not_listed(place):
    """The sentence names three and says how many more there are."""
    place.mkdir()
    for number in range(7):
        (place / f"{number}.txt").write_text("mine")
    assert "and 4 more" in refused(place)


def test_a_file_in_its_place_is_refused(place):
    """A file of that name is not written over."""
    place.write_text("mine")
    assert "is a file" in refused(place)


def test_a_file_above_it_is_refused(place):
    """A file cannot hold a folder."""
    place.write_text("mine")
    before = contents(place.parent)
    with pytest.raises(FolderError, match="is a file"):
        write_folder(place / "deep" / "sheet", FIRST)
    assert contents(place.parent) == before


@pytest.mark.parametrize("aim", ["folder", "file", "nowhere"])
def test_a_link_in_its_place_is_refused(place, aim):
    """A link leads to somebody else's place, whether there is anything or not."""
    target = place.parent / "target"
    if aim == "folder":
        target.mkdir()
    elif aim == "file":
        target.write_text("mine")
    place.symlink_to(target)
    assert "is a link" in refused(place)


@pytest.mark.parametrize("aim", ["sheet.html", "../target", "nowhere"])
def test_a_link_within_is_refused(place, aim):
    """A link among the files is foreign, even one to a file of oarkit's own with the same bytes."""
    write_folder(place, FIRST)
    (place.parent / "target").write_bytes(FIRST["results.json"])
    (place / "results.json").unlink()
    (place / "results.json").symlink_to(aim)
    assert "results.json" in refused(place)


def test_a_record_that_is_a_link_is_refused(place):
    """The record itself may not lead elsewhere."""
    write_folder(place, FIRST)
    (place / RECORD).rename(place.parent / "record")
    (place / RECORD).symlink_to("../record")
    refused(place)


def test_a_folder_linked_within_is_refused(place):
    """A subfolder of oarkit's own name that leads elsewhere is foreign."""
    write_folder(place, FIRST)
    shutil.move(place / "bench-1", place.parent / "other")
    (place / "bench-1").symlink_to("../other")
    refused(place)


@pytest.mark.parametrize("named", [".", "..", "../..", "/", "sub/..", "./", "../work"])
def test_where_one_stands_and_above_is_refused(place, monkeypatch, named):
    """The current folder and its parents are never replaced, however they are written, empty or not."""
    place.mkdir()
    monkeypatch.chdir(place.parent)
    before = contents(place.parent.parent)
    with pytest.raises(FolderError, match="stand in"):
        write_folder(Path(named), FIRST)
    assert contents(place.parent.parent) == before


def test_where_one_stands_is_refused_through_a_link_above(place, monkeypatch):
    """A path that comes to the current folder by way of a link is seen through."""
    place.mkdir()
    monkeypatch.chdir(place)
    (place.parent.parent / "way").symlink_to(place.parent)
    with pytest.raises(FolderError, match="stand in"):
        write_folder(place.parent.parent / "way" / "sheet", FIRST)


def test_a_refusal_comes_before_any_work(place, quillet, monkeypatch):
    """A folder that cannot be used is refused before the design is made."""
    place.mkdir()
    (place / "notes.txt").write_text("mine")
    monkeypatch.setattr(folder, "design", lambda inputs: pytest.fail("the design was made"))
    with pytest.raises(FolderError):
        write_sheet(quillet, place)


def test_a_name_too_long_for_the_disk_is_refused_in_words(place):
    """A name of 300 letters is an error with a sentence, not a crash."""
    with pytest.raises(FolderError, match="too long"):
        write_folder(place.parent / ("a" * 300), FIRST)


def test_a_check_leaves_no_trace(place):
    """Looking whether a folder may be written makes nothing."""
    check_folder(place / "a" / "b")
    assert contents(place.parent) == {}


# what fails half way


def full(*_, **__):
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


class Failing:
    """Stands in for a function and fails at its n-th call; earlier and later calls go through."""

    def __init__(self, function, at, error=None):
        self.function, self.left = function, at
        self.error = error or OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    def __get__(self, instance, owner):
        return self if instance is None else partial(self, instance)

    def __call__(self, *words, **more):
        if self.function is not OPEN or words[1:] == ("xb",):  # files are opened to be read, too
            self.left -= 1
        if self.left == 0:
            self.left = -1
            raise self.error
        return self.function(*words, **more)


OPEN = Path.open
FULL = [
    pytest.param(os, "fsync", 1, id="first file"),
    pytest.param(os, "fsync", 2, id="second file"),
    pytest.param(os, "fsync", 3, id="record"),
    pytest.param(Path, "open", 1, id="opening"),
    pytest.param(tempfile, "mkdtemp", 1, id="folder aside"),
    pytest.param(tempfile, "mkdtemp", 2, id="folder for the old one"),
    pytest.param(Path, "chmod", 1, id="rights"),
    pytest.param(Path, "rename", 1, id="first move"),
    pytest.param(Path, "rename", 2, id="second move"),
]


@pytest.mark.parametrize(("owner", "name", "at"), FULL)
def test_a_full_disk_leaves_the_old_folder_as_it_was(place, monkeypatch, owner, name, at):
    """Wherever the disk runs full, the old folder stays byte for byte and nothing is left beside it."""
    write_folder(place, FIRST)
    with monkeypatch.context() as patch:
        patch.setattr(owner, name, Failing(getattr(owner, name), at))
        assert "No space left on device" in refused(place)
    write_folder(place, SECOND)
    assert files_in(place) == SECOND


@pytest.mark.parametrize(
    ("owner", "name", "at"), [case for case in FULL if case.id not in ("folder for the old one", "second move")]
)
def test_a_full_disk_leaves_nothing_where_nothing_was(place, monkeypatch, owner, name, at):
    """A first run that fails takes away what it made, the parents too."""
    with monkeypatch.context() as patch:
        patch.setattr(owner, name, Failing(getattr(owner, name), at))
        with pytest.raises(FolderError, match="No space left"):
            write_folder(place / "a" / "b", SECOND)
    assert contents(place.parent) == {}


def test_a_parent_that_cannot_be_made_takes_the_others_with_it(place, monkeypatch):
    """Where the second of two missing parents cannot be made, the first goes again."""
    with monkeypatch.context() as patch:
        patch.setattr(Path, "mkdir", Failing(Path.mkdir, 2))
        with pytest.raises(FolderError, match="No space left"):
            write_folder(place / "a" / "b", SECOND)
    assert contents(place.parent) == {}


def test_parents_that_were_there_stay(place, monkeypatch):
    """A failure takes away only the parents that the run itself made."""
    (place / "a").mkdir(parents=True)
    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(FolderError):
        write_folder(place / "a" / "b" / "c", SECOND)
    assert contents(place.parent) == {"sheet": None, "sheet/a": None}


@pytest.mark.parametrize(
    ("owner", "name", "at"),
    [
        pytest.param(os, "fsync", 1, id="first file"),
        pytest.param(os, "fsync", 3, id="record"),
        pytest.param(Path, "rename", 1, id="first move"),
        pytest.param(Path, "rename", 2, id="second move"),
    ],
)
def test_an_interrupt_leaves_the_old_folder_as_it_was(place, monkeypatch, owner, name, at):
    """Ctrl-C at any moment leaves the old folder in its place and nothing beside it."""
    write_folder(place, FIRST)
    before = contents(place.parent)
    monkeypatch.setattr(owner, name, Failing(getattr(owner, name), at, KeyboardInterrupt()))
    with pytest.raises(KeyboardInterrupt):
        write_folder(place, SECOND)
    assert contents(place.parent) == before


def test_an_interrupt_of_a_first_run_leaves_nothing(place, monkeypatch):
    """Ctrl-C while the first folder is being built takes away the folder and its parents."""
    monkeypatch.setattr(os, "fsync", Failing(os.fsync, 2, KeyboardInterrupt()))
    with pytest.raises(KeyboardInterrupt):
        write_folder(place / "a" / "b", SECOND)
    assert contents(place.parent) == {}


# what may not be written


@pytest.fixture
def shared():
    """A folder that every user of the machine can reach."""
    made = Path(tempfile.mkdtemp(prefix="oarkit-test-"))
    made.chmod(0o755)
    yield made
    for entry in [made, *made.rglob("*")]:
        if entry.is_dir() and not entry.is_symlink():
            entry.chmod(0o755)
    shutil.rmtree(made)


def as_nobody(command, *, environment, ready="import oarkit.sheet.folder"):
    """Runs Python without the rights of root, or with one's own rights where one is not root."""
    lost = f"import os\nif os.geteuid() == 0:\n    os.setgroups([]); os.setgid({NOBODY}); os.setuid({NOBODY})"
    program = "\n".join((ready, lost, command))
    return subprocess.run(
        [sys.executable, "-c", program], cwd="/", env=environment, capture_output=True, text=True, timeout=60
    )


WRITE = (
    "from pathlib import Path\nfrom oarkit.sheet.folder import FolderError, write_folder\n"
    "try:\n    write_folder(Path({0!r}), {{'sheet.html': b'new'}})\n"
    "except FolderError as error:\n    print(error)\nelse:\n    print('DONE')\n"
)


#: A short sheet; and what is read late is read now, for it may lie in the home of the one who tests.
READY = """
import oarkit.cli
import oarkit.sheet.folder
from oarkit import design, example_project
design(example_project("quillet").inputs)
oarkit.sheet.folder.sheet_files = lambda project, made: {"sheet.html": b"new"}
"""


def test_without_the_right_to_write_the_command_says_so(shared, environment):
    """Example and sheet in a folder that one may not write end with a sentence and status 2."""
    project = str(data_folder() / "quillet.toml")
    words = (["example", str(shared / "mine")], ["sheet", project, "--out", str(shared / "sheet")])
    command = f"print(*[oarkit.cli.main(words) for words in {words!r}])"
    shared.chmod(0o555)
    done = as_nobody(command, environment=environment, ready=READY)
    assert done.stdout == "2 2\n"
    assert done.stderr.count("Permission denied") == 2
    assert "Traceback" not in done.stderr
    assert contents(shared) == {}


@pytest.mark.parametrize("rights", [0o700, 0o711, 0o755], ids=oct)
def test_own_output_that_may_not_be_replaced_stays(shared, environment, rights):
    """A folder of another user's is left as it is, whether it can be looked into or not."""
    place = shared / "sheet"
    write_folder(place, FIRST)
    before = contents(shared)
    if os.geteuid() == 0:
        place.chmod(rights)
    else:
        shared.chmod(0o555)
    done = as_nobody(WRITE.format(str(place)), environment=environment)
    place.chmod(0o755)
    assert done.stderr == ""
    assert "DONE" not in done.stdout
    assert done.stdout.strip()
    assert contents(shared) == before


def test_a_folder_that_cannot_be_looked_into_is_refused(shared, environment):
    """A folder whose contents cannot be seen may hold anything; it is not moved out of the way as if it were empty."""
    place = shared / "sheet"
    place.mkdir()
    (place / "notes.txt").write_text("mine")
    shared.chmod(0o777)
    place.chmod(0o700 if os.geteuid() == 0 else 0o000)
    done = as_nobody(WRITE.format(str(place)), environment=environment)
    place.chmod(0o755)
    assert done.stderr == ""
    assert "DONE" not in done.stdout
    assert contents(shared) == {"sheet": None, "sheet/notes.txt": b"mine"}


def test_a_folder_under_one_that_cannot_be_entered_is_refused(shared, environment):
    """Where not even the way to the folder may be gone, the refusal is a sentence."""
    closed = shared / "closed"
    closed.mkdir()
    closed.chmod(0o700 if os.geteuid() == 0 else 0o000)
    done = as_nobody(WRITE.format(str(closed / "deep" / "sheet")), environment=environment)
    closed.chmod(0o755)
    assert done.stderr == ""
    assert "Permission denied" in done.stdout
    assert contents(shared) == {"closed": None}
