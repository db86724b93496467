"""The house rules: rooms in one order, no circles, a pure core, small modules."""

from __future__ import annotations

import ast
import re
import sys
import tomllib
from functools import cache
from graphlib import TopologicalSorter
from pathlib import Path

import trainer

PACKAGE = Path(trainer.__file__).parent
TOP_FOLDER = Path(__file__).parents[1]
ROOMS = (
    "speech", "words", "terms", "chance", "plan", "read", "roof", "layout", "level", "order", "site", "rules",
    "score", "session", "rehearse",
    "generate", "drill", "quiz", "coverage", "table", "film", "course", "picture", "records", "report", "shipped",
    "board", "cli",
)  # fmt: skip
"""A room imports only itself and rooms before it. DEVELOPERS.md shows the same list."""
OUTSIDE = {
    "read": {"yaml", "pydantic", "pydantic_core"},
    "roof": {"shapely"},
    "level": {"pydantic"},
    "site": {"pydantic"},
    "quiz": {"fsrs", "pydantic"},
    "table": {"pydantic"},
    "course": {"pydantic"},
    "picture": {"shapely"},
    "records": {"cryptography", "pydantic", "rfc8785"},
    "report": {"ezdxf", "fontTools", "fpdf", "jinja2", "markupsafe", "rpack"},
    "board": {"pygame", "font_source_sans_pro", "platformdirs", "pyttsx3"},
    "cli": {"typer", "rich", "platformdirs", "distributed"},
}
"""What a room may import that is neither ours nor the standard library's; nothing where it isn't listed."""
LIBRARIES = {
    "yaml": "pyyaml", "fpdf": "fpdf2", "pygame": "pygame-ce", "font_source_sans_pro": "font-source-sans-pro",
    "pydantic_core": "pydantic", "rpack": "rectangle-packer", "fontTools": "fonttools",
}  # fmt: skip
"""What a library is installed as, where it is imported under another name."""
SHOWN = {
    "fpdf": "fpdf2",
    "rpack": "rectangle-packer",
    "fontTools": "fonttools",
    "pydantic_core": "",
    "markupsafe": "",
    "distributed": "",
    "pyttsx3": "",
    "font_source_sans_pro": "the type's package",
}
"""How DEVELOPERS.md shows a library; what comes with another one is left out."""
SHELLS = {"records", "report", "shipped", "board", "cli"}
IMPURE = {
    "asyncio", "glob", "logging", "multiprocessing", "os", "pathlib", "random", "secrets", "shutil", "socket",
    "sqlite3", "subprocess", "tempfile", "threading", "time", "urllib", "uuid",
}  # fmt: skip
IMPURE_CALLS = {
    "open", "input", "print", "now", "utcnow", "today", "read_text", "write_text", "read_bytes", "write_bytes",
}  # fmt: skip
MOST_LINES = 420


@cache
def modules() -> dict[str, ast.Module]:
    """Every module of the package by its dotted name."""
    found = {}
    for path in sorted(PACKAGE.rglob("*.py")):
        parts = path.relative_to(PACKAGE.parent).with_suffix("").parts
        name = ".".join(parts).removesuffix(".__init__")
        found[name] = ast.parse(path.read_text(encoding="utf-8"), str(path))
    return found


def room_of(module: str) -> str | None:
    """The room of a module of ours; None for the package itself and its ``__main__``."""
    parts = module.split(".")
    return parts[1] if len(parts) > 1 and parts[1] != "__main__" else None


@cache
def imports(name: str) -> frozenset[str]:
    """Dotted names that a module imports anywhere in it, also inside functions or for types only."""
    found: set[str] = set()
    for node in ast.walk(modules()[name]):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{name} line {node.lineno}: write imports in full"
            source = node.module or ""
            submodules = [f"{source}.{alias.name}" for alias in node.names if f"{source}.{alias.name}" in modules()]
            found |= set(submodules or [source])
    return frozenset(found)


def test_every_room_is_in_the_order_and_all_are_known() -> None:
    assert {room for name in modules() if (room := room_of(name))} == set(ROOMS)
    assert set(OUTSIDE) | SHELLS <= set(ROOMS)


def test_a_room_imports_only_rooms_before_it() -> None:
    wrong = []
    for name in modules():
        ours = {other for imported in imports(name) if (other := room_of(imported)) and imported.startswith("trainer.")}
        room = room_of(name)
        may = {"cli", "shipped", "speech"} if room is None else set(ROOMS[: ROOMS.index(room) + 1])
        wrong += [f"{name} imports {other}, which comes after it" for other in sorted(ours - may)]
    assert not wrong, "\n".join(wrong)


def test_a_room_imports_from_outside_just_what_stands_beside_it() -> None:
    used: dict[str, set[str]] = {}
    wrong = []
    for name in modules():
        room = room_of(name) or ""
        outside = {imported.split(".")[0] for imported in imports(name)} - sys.stdlib_module_names - {"trainer"}
        used.setdefault(room, set()).update(outside)
        wrong += [f"{name} imports {each}" for each in sorted(outside - OUTSIDE.get(room, set()))]
    for room, allowed in OUTSIDE.items():
        wrong += [f"nothing in {room} imports {each}" for each in sorted(allowed - used[room])]
    assert not wrong, "\n".join(wrong)


def test_the_project_asks_for_just_what_is_imported() -> None:
    project = tomllib.loads((TOP_FOLDER / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    asked = {re.split(r"[^\w.-]", line)[0].lower() for line in project["dependencies"]}
    shipped = (line for extra in ("cluster", "voice") for line in project["optional-dependencies"][extra])
    extras = {re.split(r"[^\w.-]", line)[0].lower() for line in shipped}
    used = {LIBRARIES.get(each, each) for allowed in OUTSIDE.values() for each in allowed}
    assert asked | extras == used


def test_the_page_for_contributors_shows_the_same_rooms() -> None:
    page = (TOP_FOLDER / "DEVELOPERS.md").read_text(encoding="utf-8")
    table = page.partition("## The rooms")[2].partition("\n## ")[0]
    rows = re.findall(r"^\| `(\w+)` \| .+ \| (.+) \|$", table, re.MULTILINE)
    shown = {room: set() if outside == "–" else set(outside.split(", ")) for room, outside in rows}
    assert list(shown) == list(ROOMS)
    assert shown == {room: {SHOWN.get(each, each) for each in OUTSIDE.get(room, ())} - {""} for room in ROOMS}


def test_modules_import_each_other_in_no_circle() -> None:
    graph = {name: {other for other in imports(name) if other in modules() and other != name} for name in modules()}
    # A package's __init__ gathers its modules; that they reach it is no circle unless they import it by name.
    order = tuple(TopologicalSorter(graph).static_order())
    assert set(order) == set(modules())


def test_the_core_reads_no_file_clock_or_dice() -> None:
    wrong = []
    for name in modules():
        if room_of(name) in SHELLS or not room_of(name):
            continue
        wrong += [f"{name} imports {each}" for each in {imp.split(".")[0] for imp in imports(name)} & IMPURE]
        for node in ast.walk(modules()[name]):
            if isinstance(node, ast.Call):
                called = getattr(node.func, "id", None) or getattr(node.func, "attr", None)
                wrong += [f"{name} line {node.lineno} calls {called}()"] * (called in IMPURE_CALLS)
            if isinstance(node, ast.Global | ast.Nonlocal):
                wrong.append(f"{name} line {node.lineno}: a global")
    assert not wrong, "\n".join(["files, clocks and seeds are passed in by the shells", *wrong])


def test_a_module_is_small_enough_to_hold_in_mind() -> None:
    lines = {path: path.read_text(encoding="utf-8").count("\n") for path in PACKAGE.rglob("*.py")}
    long = [f"{path.relative_to(PACKAGE)}: {count} lines" for path, count in lines.items() if count > MOST_LINES]
    assert not long, "\n".join(["a module holds one idea", *long])


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
    found = {path.name: path for path in TOP_FOLDER.iterdir() if not path.name.startswith(".")}
    assert set(found) >= TOP
    assert {name for name, path in found.items() if belongs(path)} <= TOP
