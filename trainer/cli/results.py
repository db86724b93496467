"""Result files as a command is given them: many files and folders, of which one bad one spoils nothing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from trainer.cli.given import file_bytes, wrong_call
from trainer.cli.options import argument
from trainer.words import _

if TYPE_CHECKING:
    from trainer.records.attempt import Attempt

ResultFiles = Annotated[list[Path], argument("FILE...", "Result files (.attempt.json), or folders of them.")]


@dataclass(frozen=True)
class Given:
    """A result that was given, and whether its file is byte for byte as it was written."""

    file: Path
    attempt: Attempt
    untouched: bool


def result_paths(given: Sequence[Path]) -> list[Path]:
    """Return the result files among files and folders, each once; stop at what is neither."""
    from trainer.records.record_file import SUFFIX

    found: dict[Path, None] = {}
    for path in given:
        if path.is_dir():
            inside = sorted(each for each in path.rglob(f"*{SUFFIX}") if each.is_file())
            if not inside:
                wrong_call(_("{path}: there are no result files (.attempt.json) in it.").format(path=path))
            found.update(dict.fromkeys(inside))
        elif path.is_file():
            found[path] = None
        else:
            wrong_call(_("{path}: no such file or folder.").format(path=path))
    return list(found)


def results_in(given: Sequence[Path], troubles: list[str]) -> Iterator[Given]:
    """Read every result among files and folders; what is to be said of those that don't hold goes to ``troubles``."""
    from trainer.read import Faulty
    from trainer.records.record_file import MOST_BYTES, read_record

    for path in result_paths(given):
        try:
            read = read_record(file_bytes(path, MOST_BYTES), str(path))
        except Faulty as error:
            troubles.append("\n".join(map(str, error.faults)))
        else:
            yield Given(path, read.attempt, read.untouched)


def beside(given: Sequence[Given]) -> Iterator[Given]:
    """Read the other results in the folders of those given: what one sees only beside another shows then too."""
    read = {each.file.resolve() for each in given}
    folders = sorted({each.file.parent for each in given})
    return results_in([path for path in result_paths(folders) if path.resolve() not in read], [])
