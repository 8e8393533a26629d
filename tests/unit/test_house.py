"""The rules of the house, read from the source: who may call whom, what the core leaves alone, what is documented."""

import ast
import importlib
import inspect
import re
import subprocess
import sys
from pathlib import Path

import pytest

import oarkit
from oarkit.working import Formula

HOUSE = Path(oarkit.__file__).parent

#: A room uses what stands before it, and itself.
ORDER = (
    "working", "wood", "section", "rig", "rower", "stroke", "fit", "oar", "strength", "shop", "design", "many", "units",
    "tables", "project", "draw", "sheet", "roster", "worksheet", "cli",
)  # fmt: skip
FRONT = {"__init__", "__main__"}  #: of the package itself, exempt from the order
CORE = ORDER[: ORDER.index("design") + 1]
SPOKEN = (*CORE, "units", "tables", "project")  #: rooms whose public functions keep the whole docstring
NOT_IN_CORE = {"pandas", "matplotlib", "pydantic", "reportlab", "rich", "csv", "pathlib", "io", "jinja2"}
LATE = ("pandas", "sympy", "matplotlib", "pydantic", "reportlab")
LONGEST = 400  #: lines a module

MODULES = sorted(HOUSE.rglob("*.py"))


def _name(path: Path) -> str:
    """Dotted name of a module within the package."""
    parts = path.relative_to(HOUSE).with_suffix("").parts
    return ".".join(parts if len(parts) == 1 or parts[-1] != "__init__" else parts[:-1])


def _room(path: Path) -> str:
    return _name(path).split(".")[0]


def _of(rooms: tuple[str, ...]) -> list[Path]:
    return [path for path in MODULES if _room(path) in rooms]


def _imports(path: Path) -> set[str]:
    """Every module that a module imports, at its head or within a function, as written out in full."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            package = f"oarkit.{_name(path)}".rsplit(".", node.level)[0] if node.level else ""
            module = ".".join(part for part in (package, node.module) if part)
            found |= {f"{module}.{alias.name}" for alias in node.names} if module == "oarkit" else {module}
    return found


def _rooms_used(path: Path) -> set[str]:
    used = {name.split(".")[1] for name in _imports(path) if name.startswith("oarkit.")}
    return used - {"__version__"}


def test_every_room_has_its_place():
    """Each folder and file of the package stands in the order of the house, so that the next tests see it."""
    found = {_room(path) for path in MODULES}
    assert found - FRONT <= set(ORDER)
    assert {"working", "wood", "section", "rig", "rower", "oar", "strength", "design", "units", "tables"} <= found


@pytest.mark.parametrize("path", [p for p in MODULES if _room(p) not in FRONT], ids=_name)
def test_arrows_point_up(path):
    """A module uses rooms that stand above its own, and its own."""
    allowed = set(ORDER[: ORDER.index(_room(path)) + 1])
    assert _rooms_used(path) <= allowed


@pytest.mark.parametrize("path", _of(CORE), ids=_name)
def test_core_touches_no_file_and_no_drawing(path):
    """The core imports nothing that reads, draws or validates, and opens nothing; shop units stand below it."""
    assert {name.split(".")[0] for name in _imports(path)} & NOT_IN_CORE == set()
    assert "units" not in _rooms_used(path)
    called = {node.func for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))) if isinstance(node, ast.Call)}
    names = {getattr(function, "id", None) or getattr(function, "attr", None) for function in called}
    assert names & {"open", "read_text", "write_text", "read_bytes", "print"} == set()


@pytest.mark.parametrize("path", MODULES, ids=_name)
def test_a_module_is_short(path):
    """A file has one topic and stays short."""
    assert len(path.read_text(encoding="utf-8").splitlines()) <= LONGEST


def test_import_costs_little():
    """Importing oarkit brings in none of the packages that cost time."""
    code = f"import oarkit, sys; print(*(name for name in {LATE} if name in sys.modules))"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=HOUSE.parent)
    assert run.stdout.split() == []


# Docstrings


def _public(rooms: tuple[str, ...], kind) -> list:
    """Public functions or classes defined in rooms, each once."""
    found = []
    for path in _of(rooms):
        module = importlib.import_module(f"oarkit.{_name(path)}")
        found += [
            item
            for name, item in vars(module).items()
            if not name.startswith("_") and kind(item) and item.__module__ == module.__name__
        ]
    return found


def _plain_function(item) -> bool:
    return inspect.isfunction(inspect.unwrap(item)) if callable(item) and not inspect.isclass(item) else False


def _id(item) -> str:
    return f"{item.__module__.removeprefix('oarkit.')}.{item.__qualname__}"


FUNCTIONS = _public(SPOKEN, _plain_function)
CLASSES = _public(SPOKEN, inspect.isclass)


def _sections(function) -> dict[str, list[str]]:
    """Sections of a numpydoc docstring by their underlined headings."""
    lines = (inspect.getdoc(function) or "").splitlines()
    heads = [i for i in range(len(lines) - 1) if lines[i + 1] and set(lines[i + 1]) == {"-"}]
    ends = [*heads[1:], len(lines)]
    return {lines[start]: lines[start + 2 : stop] for start, stop in zip(heads, ends, strict=False)}


def _entries(lines: list[str]) -> dict[str, str]:
    """Entries of a section: what stands at the margin, to the indented description under it."""
    entries: dict[str, str] = {}
    for line in lines:
        if line and not line.startswith(" "):
            entries[head := line] = ""
        elif line:
            entries[head] = f"{entries[head]} {line.strip()}".strip()
    return entries


def _described(function) -> dict[str, str]:
    """Each documented parameter to its description, 'x, y : array' counting for both."""
    entries = _entries(_sections(function).get("Parameters", []))
    return {name.strip("* "): text for head, text in entries.items() for name in head.split(" : ")[0].split(",")}


def _unit(text: str) -> str | None:
    match = re.search(r"\[([^\[\]]+)\]$", text)
    return match[1] if match else None


def test_there_are_functions_to_read():
    """The next tests read something."""
    assert len(FUNCTIONS) > 60
    assert len(CLASSES) > 20


@pytest.mark.parametrize("function", FUNCTIONS, ids=_id)
def test_docstring(function):
    """A public function tells its parameters and results with their units, its source, and shows itself at work."""
    sections = _sections(function)
    parameters = [name for name in inspect.signature(function).parameters if name != "self"]
    assert (inspect.getdoc(function) or "").splitlines()[:1] != []
    assert list(_described(function)) == parameters
    for name, text in _described(function).items():
        assert _unit(text), f"{name} has no trailing [unit]"
    results = _entries(sections.get("Returns", []))
    assert results, "no Returns"
    assert all(_unit(text) for text in results.values()), "a result has no trailing [unit]"
    assert "Source" in " ".join(sections.get("Notes", [])), "no source in the Notes"
    assert ">>>" in " ".join(sections.get("Examples", [])), "no example"


@pytest.mark.parametrize("record", CLASSES, ids=_id)
def test_class_docstring(record):
    """A class says in its own words what it is."""
    said = record.__doc__
    assert said
    assert not said.startswith(f"{record.__name__}(")  # the signature that dataclasses writes is no docstring


STATED = [function for function in FUNCTIONS if isinstance(getattr(function, "formula", None), Formula)]


@pytest.mark.parametrize("function", STATED, ids=_id)
def test_printed_formula(function):
    """A printed formula names parameters of its function, in the units that the docstring gives them."""
    described = _described(function)
    results = _entries(_sections(function)["Returns"])
    assert _unit(next(iter(results.values()))) == function.formula.unit
    assert function.formula.text
    assert function.formula.source
    for name, symbol in function.formula.where.items():
        assert name in described
        assert _unit(symbol) == _unit(described[name]), name


def test_formulas_are_found():
    """The formulas of every room that computes are among those read."""
    rooms = {function.__module__.split(".")[1] for function in STATED}
    assert {"wood", "rig", "rower", "oar", "strength"} <= rooms
    assert len(STATED) > 30


def test_symbols_do_not_clash_within_a_formula():
    """Two parameters of one formula never share a symbol."""
    for function in STATED:
        symbols = [symbol.rsplit(" [", 1)[0] for symbol in function.formula.where.values()]
        assert len(symbols) == len(set(symbols)), _id(function)
