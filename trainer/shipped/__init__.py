"""Where the shipped levels and art are: beside the package in a checkout, inside it once installed."""

from __future__ import annotations

import gettext
from pathlib import Path

from trainer.read import did_you_mean
from trainer.words import _

_HERE = Path(__file__).parent
_CHECKOUT = _HERE.parents[1]


class NoSuchLevel(LookupError):  # noqa: N818 - it is an answer, not a fault of the program
    """Raised where neither a file nor a shipped level has the name given."""


PATH_FILE = "path.txt"
"""File of a folder of levels with their order: one id a line; what follows # is a remark."""


def level_paths() -> tuple[Path, ...]:
    """Return the files of the shipped levels: those on the path in its order, then the others by id."""
    folder = _folder("levels")
    by_id = {path.stem: path for path in sorted(folder.glob("*.yaml"))}
    on_path = [by_id.pop(name) for name, _line in path_lines(folder) if name in by_id]
    return (*on_path, *by_id.values())


def path_lines(folder: Path) -> list[tuple[str, int]]:
    """Return the ids on the path of a folder of levels, each with its line from 1; none where there is no path."""
    file = folder / PATH_FILE
    lines = file.read_text(encoding="utf-8").splitlines() if file.is_file() else []
    return [(name, n) for n, line in enumerate(lines, 1) if (name := line.partition("#")[0].strip())]


def style_paths(level_file: Path | None = None) -> tuple[Path, ...]:
    """Return the files of the shipped house styles, and those in ``styles`` beside ``level_file``, which go before."""
    beside = sorted((level_file.parent / "styles").glob("*.yaml")) if level_file else []
    shipped = sorted((_folder("levels") / "styles").glob("*.yaml"))
    return tuple({path.stem: path for path in (*shipped, *beside)}.values())


def style_texts(level_file: Path) -> dict[str, tuple[bytes, str]]:
    """Return the text and the file of every house style that ``level_file`` may name, by its name."""
    return {path.stem: (path.read_bytes(), str(path)) for path in style_paths(level_file)}


def bank_paths() -> tuple[Path, ...]:
    """Return the files of the shipped bank of questions, by topic."""
    return tuple(sorted((_folder("levels") / "bank").glob("*.yaml")))


def course_path() -> Path:
    """Return the file of the shipped course."""
    return _folder("levels") / "course" / "course.yaml"


def find_level(path_or_id: str) -> Path:
    """Return the level file that ``path_or_id`` names: a file as it stands, or a shipped level's id.

    Raises :class:`NoSuchLevel`, saying what may have been meant.
    """
    try:
        if Path(path_or_id).is_file():
            return Path(path_or_id)
    except OSError:  # a name that no file can have
        pass
    shipped = {path.stem: path for path in sorted(level_paths())}
    if path_or_id in shipped:
        return shipped[path_or_id]
    guess = did_you_mean(path_or_id, shipped)
    known = _("shipped levels: {levels}").format(levels=", ".join(shipped))
    text = _("no file and no level is called '{name}'; {guess}")
    raise NoSuchLevel(text.format(name=path_or_id[:80], guess=guess or known))


def catalogue() -> gettext.NullTranslations:
    """Return the catalogue of this person's language; where there is none, one that gives each text as it is.

    The language is told by the environment, as gettext does: LANGUAGE, LC_ALL, LC_MESSAGES, LANG.
    """
    return gettext.translation("trainer", _folder("art") / "catalogues", fallback=True)


def art_path(name: str) -> Path:
    """Return the file ``name`` of the art folder."""
    return _folder("art") / name


def _folder(name: str) -> Path:
    installed = _HERE / name
    return installed if installed.is_dir() else _CHECKOUT / name
