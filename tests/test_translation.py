"""A translation is one catalogue: all texts are extracted by Babel, and with a made-up language the board speaks it."""

import io
import re
import subprocess
import sys
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.mofile import write_mo

import trainer
from trainer.rules import all_rules
from trainer.words import CAUTION

PACKAGE = Path(trainer.__file__).parent
OPEN, SHUT = "\u00ab", "\u00bb"
"""Stand round every text of the made-up language."""


@pytest.fixture(scope="module")
def extracted() -> Catalog:
    catalog = Catalog()
    keywords = {"_": None, "ngettext": (1, 2)}
    for _file, _line, message, _comments, _context in extract_from_dir(str(PACKAGE), keywords=keywords):
        catalog.add(message)
    return catalog


def test_every_text_of_every_rule_is_extracted(extracted: Catalog) -> None:
    for rule in all_rules():
        for text in (rule.what, rule.why, rule.fix, rule.safety):
            assert not text or text in extracted, f"{rule.name}: {text}"
    assert CAUTION in extracted
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
KEYBOARD = {"Esc", "Enter", "Ctrl", "Shift", "Tab", "Alt", "Space", "Home", "End", "Page", "Down"}
"""What stands on the keys."""
DATA = re.compile(r"Broken hip|wren|A gabled wing|A girder spans|One hip of|runs off the back")
"""Words of the level file, which is its own data."""


def test_the_board_speaks_the_language_of_a_catalogue(extracted: Catalog, tmp_path: Path) -> None:
    made_up = Catalog(locale="pl")  # three plural forms
    for message in extracted:
        if message.pluralizable:
            one, many = message.id
            made_up.add(message.id, tuple(f"{OPEN}{text}{SHUT}" for text in (one, many, many)))
        elif message.id:
            made_up.add(message.id, f"{OPEN}{message.id}{SHUT}")
    compiled = io.BytesIO()
    write_mo(compiled, made_up)
    mo = tmp_path / "trainer.mo"
    mo.write_bytes(compiled.getvalue())
    text = SPEAK.format(path=[str(Path(__file__).parent), *sys.path], mo=str(mo))
    said = subprocess.run([sys.executable, "-c", text], capture_output=True, text=True, check=False, encoding="utf-8")
    assert said.returncode == 0, said.stderr[-2000:]
    lines = [line for line in said.stdout.splitlines() if line.count("\t") == 2]
    assert len(lines) > 300
    english = {line for line in lines if _untranslated(line.rsplit("\t", 1)[1])}
    assert english == set(), "\n".join(sorted({line.split("\t")[2] for line in english}))


def _untranslated(text: str) -> bool:
    """Whether a text has English words outside all marks, but for keys, tags, units and what the level file says."""
    while OPEN in text:
        shorter = re.sub(rf"{OPEN}[^{OPEN}{SHUT}]*{SHUT}", "", text)
        if shorter == text:
            break
        text = shorter
    words = [word for word in re.findall(r"[A-Za-z]{3,}", text) if word not in KEYBOARD]
    return bool(words) and not DATA.search(text)
