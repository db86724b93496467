"""What the board loads before there is something to see: each thing no sooner than it is needed."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

START = """
import sys
import trainer.__main__
from pathlib import Path
from trainer.board import window

def loop(app):
    for number in range(400):
        app.frame(number * 15)
        if not number:
            print("frame", *sys.modules)
        if getattr(app.scene, "entry", None) is not None:
            print("house", *sys.modules)
            return

window._loop = loop
window.open_window(None, Path(sys.argv[1]))
"""
SLOW = ("numpy", "shapely", "sqlite3", "cryptography", "fsrs", "jinja2", "fpdf", "rich")
"""Libraries that a first house does not ask for."""


@pytest.mark.parametrize("start", ["the first", "a later"])
def test_a_house_is_on_the_screen_before_anything_slow_is_loaded(start: str, tmp_path: Path) -> None:
    if start == "a later":
        (tmp_path / "settings.json").write_text('{"shown": true}', encoding="utf-8")
    env = {**os.environ, "SDL_VIDEODRIVER": "dummy", "PYTHONPATH": os.pathsep.join(sys.path)}
    code = [sys.executable, "-c", START, str(tmp_path)]
    said = subprocess.run(code, env=env, check=True, capture_output=True, text=True).stdout.splitlines()
    loaded = {line.split()[0]: set(line.split()[1:]) for line in said if line.split()[0] in {"frame", "house"}}
    assert "pygame" in loaded["frame"] and not {"pydantic", "trainer.layout", *SLOW} & loaded["frame"]
    assert "trainer.layout" in loaded["house"] and not set(SLOW) & loaded["house"]


SETTLED = START.replace(
    'if getattr(app.scene, "entry", None) is not None:',
    """
        if hasattr(app.scene, "library"):
            del app.scene.library.waiting[2:]
        if getattr(app.scene, "_looked", False):""",
)
"""Until the records have been read, which comes after the houses: after two of them here."""


def test_looking_at_the_path_again_asks_for_no_signature(tmp_path: Path) -> None:
    """Reading what was done before loads the store, but not the library that signs."""
    (tmp_path / "settings.json").write_text('{"shown": true}', encoding="utf-8")
    env = {**os.environ, "SDL_VIDEODRIVER": "dummy", "PYTHONPATH": os.pathsep.join(sys.path)}
    code = [sys.executable, "-c", SETTLED, str(tmp_path)]
    for start in (1, 2):
        said = subprocess.run(code, env=env, check=True, capture_output=True, text=True).stdout.splitlines()
        (loaded,) = [set(line.split()) for line in said if line.startswith("house")]
        assert "sqlite3" in loaded
        assert ("cryptography" in loaded) == (start == 1), "the first makes the seat's key"
