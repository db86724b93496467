"""A translation is one catalogue: all texts are extracted by Babel, and with a made-up language the trainer speaks it.

The language has three plural forms, chosen as in Polish; each is marked with its number.
"""

import ast
import io
import json
import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from attempts import level_of
from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.mofile import write_mo

import trainer
from trainer.rehearse import rehearse
from trainer.rules import all_rules
from trainer.shipped import level_paths
from trainer.shipped.course import course
from trainer.site import write_diary
from trainer.words import CAUTION

PACKAGE = Path(trainer.__file__).parent
ROOT = Path(__file__).parent.parent
OPEN, SHUT = "\u00ab", "\u00bb"
"""Stand round every text of the made-up language."""


@pytest.fixture(scope="module")
def extracted() -> Catalog:
    catalog = Catalog()
    keywords = {"_": None, "ngettext": (1, 2)}
    with (ROOT / "pyproject.toml").open("rb") as file:
        found = [(each["pattern"], each["method"]) for each in tomllib.load(file)["tool"]["babel"]["mappings"]]
    for _file, _line, message, _comments, _context in extract_from_dir(str(PACKAGE), found, keywords=keywords):
        catalog.add(message)
    return catalog


def test_every_text_of_every_rule_is_extracted(extracted: Catalog) -> None:
    for rule in all_rules():
        for text in (rule.what, rule.why, rule.fix, rule.safety):
            assert not text or text in extracted, f"{rule.name}: {text}"
    assert CAUTION in extracted
    assert [text for step in course().steps for text in (step.title, *step.words) if text not in extracted] == []
    assert len(extracted) > 1000


def test_no_text_is_made_up_before_it_is_marked() -> None:
    """Babel can't see into an f-string: its pieces would never be found in a catalogue."""
    marked = re.compile(r"(?<![\w.])_\(\s*f[\"']")
    assert [str(path) for path in PACKAGE.rglob("*.py") if marked.search(path.read_text(encoding="utf-8"))] == []


SPEAK = """
import gettext, sys
from pathlib import Path
sys.path[:0] = {path!r}
from trainer.speech import speak
speak(gettext.GNUTranslations(Path({mo!r}).open("rb")))
from board_person import Person

person = Person((1280, 800))
for _frame in range(200):
    person.wait()
    if type(person.app.scene).__name__ == "Home" and not person.app.scene.library.waiting:
        break
person.wait(3)
person.app.scene.choose("wren")

def tell(where):
    for node in person.tree().walk():
        if node.role not in ("row", "truss", "plan", "image", "view", "window"):
            for text in (node.name, node.value):
                for line in text.split("\\n"):
                    print(where, node.role, line, sep="\\t")

tell("houses")
for key in ("f1", "f2", "f8"):
    person.key(key)
    tell(key)
    person.key("esc")
person.key("f", ctrl=True)
tell("find")
person.key("esc")
person.key("p")
person.key("j")
tell("job sheet")
for tool in "qamsgprbfxi":
    person.key(tool)
    tell("tool " + tool)
for tool in "rxbl":
    person.key(tool, shift=True)
    tell("tool shift " + tool)
person.key("h")
tell("hint")
person.key("s")
person.type(2400)
person.key("enter")
tell("found")
"""
KEYBOARD = {"Esc", "Enter", "Delete", "Ctrl", "Shift", "Tab", "Alt", "Space", "Home", "End", "Page", "Down"}
"""What stands on the keys."""
LEVELS = re.compile("|".join(path.stem for path in level_paths()))
DATA = re.compile(r"one running measure|Broken hip|wren|A gabled wing|A girder spans|One hip of|runs off the back")
"""Words of the level file and of the course, which are their own data."""


FORMS = ("¹", "²", "³")
"""Mark which plural form of the made-up language a text is in: for 1; for 2, 3 and 4; for 5 and more."""


@pytest.fixture(scope="module")
def made_up(extracted: Catalog, tmp_path_factory: pytest.TempPathFactory) -> Path:
    language = Catalog(locale="pl")
    for message in extracted:
        if message.pluralizable:
            one, many = message.id
            forms = zip((one, many, many), FORMS, strict=True)
            language.add(message.id, tuple(f"{OPEN}{text}{form}{SHUT}" for text, form in forms))
        elif message.id:
            language.add(message.id, f"{OPEN}{message.id}{SHUT}")
    compiled = io.BytesIO()
    write_mo(compiled, language)
    mo = tmp_path_factory.mktemp("language") / "trainer.mo"
    mo.write_bytes(compiled.getvalue())
    return mo


def spoken(program: str, made_up: Path, *words: str, typed: str = "") -> str:
    text = program.format(path=[str(Path(__file__).parent), *sys.path], mo=str(made_up))
    said = subprocess.run(
        [sys.executable, "-c", text, *words], input=typed, capture_output=True, text=True, check=False, encoding="utf-8"
    )
    assert said.returncode in (0, 1, 2) and "Traceback" not in said.stderr, said.stderr[-2000:]
    return said.stdout + said.stderr


def test_the_board_speaks_the_language_of_a_catalogue(made_up: Path) -> None:
    lines = [line for line in spoken(SPEAK, made_up).splitlines() if line.count("\t") == 2]
    assert len(lines) > 300
    english = {line for line in lines if _untranslated(line.rsplit("\t", 1)[1])}
    assert english == set(), "\n".join(sorted({line.split("\t")[2] for line in english}))


COMMAND = """
import gettext, sys
from pathlib import Path
sys.path[:0] = {path!r}
from trainer.speech import speak
speak(gettext.GNUTranslations(Path({mo!r}).open("rb")))
from trainer.cli import main
main()
"""


@pytest.fixture(scope="module")
def diary(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("diary") / "diary.yaml"
    diary = rehearse(level_of("wren"), 1, "off-station")
    path.write_text(write_diary(diary), encoding="utf-8")
    return path


COMMANDS = (
    ("roof", "wren"), ("layout", "wren"), ("check", "wren"), ("grade", "wren", "DIARY"), ("rules",), ("drills",),
    ("drills", "wren"), ("rules", "off-station"), ("coverage",),
    ("paper", "--count", "3", "--level", "wren", "--seed", "3"),
    ("today", "--data", "DATA"),
    ("records", "list", "--data", "DATA"), ("records", "what", "--data", "DATA"), ("report", "x", "-o", "x.txt"),
    ("draw", "wren", "-o", "wren.gif"), ("draw", "wren", "-o", "x.svg", "--theme", "drak"), ("rules", "off-staton"),
    ("quiz", "--topics", "safty"), ("check", "no-such-level"), ("paper", "--count", "400", "--topics", "lifting"),
)  # fmt: skip
HELP = (
    ("--help",),
    ("layout", "--help"),
    ("bank", "-h"),
    ("sit", "--help"),
    ("records", "--help"),
    ("records", "keep", "-h"),
)
OF_THE_LIBRARY = re.compile(r"Usage: .*|Options:|Arguments:|Commands:|Show this message and exit\.|\[[^\]]*\]|<[^>]*>")
"""What the library for command lines says itself, round the texts of the help."""
ALL_COMMANDS = COMMAND.replace(
    "main()\n",
    """
import io, json
from contextlib import redirect_stderr, redirect_stdout
for words in json.loads(sys.argv[1]):
    said, sys.argv = io.StringIO(), ["trainer", *words]
    with redirect_stdout(said), redirect_stderr(said):
        try:
            main()
        except SystemExit:
            pass
    sys.stdout.write(json.dumps(said.getvalue()) + chr(10))
""",
)
"""Every command in one program: starting it is what takes long."""


@pytest.fixture(scope="module")
def commands_said(made_up: Path, diary: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[tuple[str, ...], str]:
    given = {"DIARY": str(diary), "DATA": str(tmp_path_factory.mktemp("data"))}
    called = [[given.get(word, word) for word in words] for words in COMMANDS + HELP]
    said = spoken(ALL_COMMANDS, made_up, json.dumps(called)).splitlines()
    return {words: json.loads(line) for words, line in zip(COMMANDS + HELP, said, strict=True)}


@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
def test_a_command_speaks_the_language_of_a_catalogue(
    words: tuple[str, ...], commands_said: dict[tuple[str, ...], str]
) -> None:
    said = commands_said[words]
    assert OPEN in said and "Traceback" not in said
    english = [line for line in said.splitlines() if _untranslated(line)]
    assert english == [], "\n".join(english)


@pytest.mark.parametrize("words", HELP, ids=" ".join)
def test_the_help_speaks_the_language_of_a_catalogue(
    words: tuple[str, ...], commands_said: dict[tuple[str, ...], str]
) -> None:
    """Descriptions of commands and options, and in a list of commands the first sentence of each."""
    own, _heading, listed = commands_said[words].partition("Commands:")
    assert OPEN in own
    spoken_of_it = re.sub(rf"{OPEN}[^{SHUT}]*{SHUT}", "", OF_THE_LIBRARY.sub("", own))
    assert re.findall(r"(?<![\w-])[a-z]{3,}", spoken_of_it) == []
    assert [line for line in listed.splitlines() if re.match(r"  [a-z-]+  ", line) and OPEN not in line] == []


def test_a_quiz_speaks_it_and_counts_in_its_plural_forms(made_up: Path, tmp_path: Path) -> None:
    words = ["quiz", "--level", "wren", "--count", "6", "--seed", "4", "--everything", "--data", str(tmp_path)]
    typed = "B\nstop\n" + "hint\nplan\nB\nstop\n" + "stop\n"
    said = spoken(ALL_COMMANDS, made_up, json.dumps([words] * 3), typed=typed)
    begun, again, over = map(json.loads, said.splitlines())
    assert "6 questions. Lengths are in millimetres.³" in begun
    assert "Stopped. 1 of 6 is answered and kept. The same command goes on.¹" in begun
    assert "Going on: 1 is answered.¹" in again
    assert "Going on: 2 are answered.²" in over


def test_every_text_of_the_command_line_and_of_the_reports_is_marked() -> None:
    """A text of two words or more that is neither marked nor a docstring can't be translated."""
    english = []
    for room in ("cli", "report"):
        for path in sorted((PACKAGE / room).rglob("*.py")):
            english += [f"{path.name}: {text!r}" for text in _unmarked(ast.parse(path.read_text(encoding="utf-8")))]
    assert english == []


def _unmarked(tree: ast.Module) -> Iterator[str]:
    marked = {
        id(part)
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") in ("_", "ngettext")
        for part in ast.walk(node)
    }
    docs = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    docs |= {id(key) for node in ast.walk(tree) for key in _never_shown(node)}
    for node in ast.walk(tree):
        text = node.value if isinstance(node, ast.Constant) and isinstance(node.value, str) else ""
        if id(node) not in marked | docs and re.search(r"[A-Za-z]{3,},? [A-Za-z]{2,}", text):
            yield text


DECLARED = ("argument", "option", "out_option", "seed_option", "Option", "Argument", "Typer")
"""What a command declares its help with, which is extracted as a whole."""


def _never_shown(node: ast.AST) -> Iterator[ast.AST]:
    """What a program compares, looks up, draws by or reads itself, a person does not see; help is found by itself."""
    if isinstance(node, ast.Compare):
        yield from node.comparators
    elif isinstance(node, ast.Dict):
        yield from filter(None, node.keys)
    elif isinstance(node, ast.Call) and getattr(node.func, "id", "") in ("shuffled", "parse_diary"):
        yield from (part for argument in node.args for part in ast.walk(argument))
    elif isinstance(node, ast.Call) and getattr(node.func, "id", getattr(node.func, "attr", "")) in DECLARED:
        yield from (part for argument in (*node.args, *node.keywords) for part in ast.walk(argument))


def test_nothing_is_counted_but_by_the_plural_forms_of_the_language(extracted: Catalog) -> None:
    """``{n} trusses`` under ``_()`` has one form for every number."""
    counting = re.compile(
        r"\{(n|count|number|minutes|days)\}\*{0,2} (?!of\b|in\b|and\b|is\b|mm\b|min\b|s\b|px\b)[a-z]{3,}"
    )
    once = [message.id for message in extracted if not message.pluralizable and counting.search(str(message.id))]
    assert once == []


def _untranslated(text: str) -> bool:
    """Whether a text has English words outside all marks, but for keys, tags, units and what the level file says."""
    while OPEN in text:
        shorter = re.sub(rf"{OPEN}[^{OPEN}{SHUT}]*{SHUT}", "", text)
        if shorter == text:
            break
        text = shorter
    text = re.sub(r"\S+\.yaml", "", text)  # paths
    text = re.sub(r"[a-z]+(-[a-z]+)+", "", LEVELS.sub("", text))  # names of rules, drills and families
    words = [word for word in re.findall(r"[A-Za-z]{3,}", text) if word not in KEYBOARD]
    return bool(words) and not DATA.search(text)
