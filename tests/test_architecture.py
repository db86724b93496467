"""The house rules: rooms in one order, no circles, a pure core, small modules."""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterator
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

import trainer

PACKAGE = Path(trainer.__file__).parent
ROOMS = (
    "speech", "words", "terms", "plan", "read", "roof", "layout", "level", "order", "site", "rules", "score", "session",
    "rehearse",
    "generate", "drill", "quiz", "coverage", "picture", "records", "report", "shipped", "board", "cli",
)  # fmt: skip
"""A room imports only itself and rooms before it. DEVELOPERS.md shows the same list."""
OUTSIDE = {
    "plan": {"shapely"},
    "read": {"yaml", "pydantic", "pydantic_core"},
    "roof": {"shapely", "numpy"},
    "layout": {"shapely", "numpy"},
    "level": {"pydantic", "pydantic_core"},
    "site": {"pydantic", "pydantic_core"},
    "quiz": {"fsrs", "pydantic"},
    "records": {"cryptography", "rfc8785"},
    "report": {"fpdf", "jinja2", "markupsafe"},
    "board": {"pygame", "font_source_sans_pro", "platformdirs"},
    "cli": {"typer", "rich", "platformdirs", "distributed"},
}
"""What a room may import that is neither ours nor the standard library's; nothing where it isn't listed."""
SHELLS = {"records", "report", "shipped", "board", "cli"}
IMPURE = {
    "asyncio", "glob", "logging", "multiprocessing", "os", "pathlib", "random", "secrets", "shutil", "socket",
    "sqlite3", "subprocess", "tempfile", "threading", "time", "urllib", "uuid",
}  # fmt: skip
IMPURE_CALLS = {
    "open", "input", "print", "now", "utcnow", "today", "read_text", "write_text", "read_bytes", "write_bytes",
}  # fmt: skip
MOST_LINES = 420


def modules() -> dict[str, ast.Module]:
    """Every module of the package by its dotted name."""
    found = {}
    for path in sorted(PACKAGE.rglob("*.py")):
        parts = path.relative_to(PACKAGE.parent).with_suffix("").parts
        name = ".".join(parts).removesuffix(".__init__")
        found[name] = ast.parse(path.read_text(encoding="utf-8"), str(path))
    return found


MODULES = modules()


def room_of(module: str) -> str | None:
    """The room of a module of ours; None for the package itself and its ``__main__``."""
    parts = module.split(".")
    return parts[1] if len(parts) > 1 and parts[1] != "__main__" else None


def imports(name: str) -> Iterator[str]:
    """Dotted names that a module imports anywhere in it, also inside functions or for types only."""
    for node in ast.walk(MODULES[name]):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{name} line {node.lineno}: write imports in full"
            source = node.module or ""
            submodules = [f"{source}.{alias.name}" for alias in node.names if f"{source}.{alias.name}" in MODULES]
            yield from submodules or [source]


def test_every_room_is_in_the_order_and_all_are_known() -> None:
    assert {room for name in MODULES if (room := room_of(name))} <= set(ROOMS)
    assert set(OUTSIDE) | SHELLS <= set(ROOMS)


@pytest.mark.parametrize("name", MODULES)
def test_a_room_imports_only_rooms_before_it(name: str) -> None:
    room = room_of(name)
    for imported in imports(name):
        if not imported.startswith("trainer."):
            continue
        other = room_of(imported)
        if room is None:
            assert name == "trainer.__main__" and other in {"cli", "shipped", "speech"}
        elif other is not None:
            assert ROOMS.index(other) <= ROOMS.index(room), f"{name} imports {imported}, which comes after it"


@pytest.mark.parametrize("name", MODULES)
def test_a_room_imports_from_outside_only_what_it_may(name: str) -> None:
    allowed = OUTSIDE.get(room_of(name) or "", set())
    outside = {imported.split(".")[0] for imported in imports(name)} - sys.stdlib_module_names - {"trainer"}
    assert outside <= allowed, f"{name} imports {sorted(outside - allowed)}"


def test_modules_import_each_other_in_no_circle() -> None:
    graph = {name: {other for other in imports(name) if other in MODULES and other != name} for name in MODULES}
    # A package's __init__ gathers its modules; that they reach it is no circle unless they import it by name.
    order = tuple(TopologicalSorter(graph).static_order())
    assert set(order) == set(MODULES)


@pytest.mark.parametrize("name", [name for name in MODULES if room_of(name) not in SHELLS and room_of(name)])
def test_the_core_reads_no_file_clock_or_dice(name: str) -> None:
    taken = {imported.split(".")[0] for imported in imports(name)} & IMPURE
    assert not taken, f"{name} imports {sorted(taken)}; files, clocks and seeds are passed in by the shells"
    for node in ast.walk(MODULES[name]):
        if isinstance(node, ast.Call):
            called = getattr(node.func, "id", None) or getattr(node.func, "attr", None)
            assert called not in IMPURE_CALLS, f"{name} line {node.lineno} calls {called}()"
        assert not isinstance(node, ast.Global | ast.Nonlocal), f"{name} line {node.lineno}: no globals in the core"


@pytest.mark.parametrize("path", sorted(PACKAGE.rglob("*.py")), ids=lambda path: str(path.relative_to(PACKAGE)))
def test_a_module_is_small_enough_to_hold_in_mind(path: Path) -> None:
    lines = path.read_text(encoding="utf-8").count("\n")
    assert lines <= MOST_LINES, f"{lines} lines; a module holds one idea"


TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "trainer", "levels", "tests", "art"}
"""All that lies at the top, beside folders whose names begin with a dot."""
BUILT = {"build", "dist", "__pycache__"}
OURS = {"", ".cfg", ".ini", ".md", ".py", ".rst", ".sh", ".toml"}
"""Endings of what belongs to a project. The README's commands leave files of other endings where they are run."""


def belongs(path: Path) -> bool:
    """Whether something at the top is part of the project, and not what was built or written while using it."""
    if path.is_file():
        return path.suffix in OURS
    if path.name in BUILT or (path / "pyvenv.cfg").exists():
        return False
    return any(each.is_file() and each.suffix in OURS for each in path.rglob("*"))


def test_the_top_holds_two_pages_the_project_file_and_four_folders() -> None:
    top = Path(__file__).parents[1]
    found = {path.name: path for path in top.iterdir() if not path.name.startswith(".")}
    assert set(found) >= TOP
    assert {name for name, path in found.items() if belongs(path)} <= TOP
