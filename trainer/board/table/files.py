"""The houses that somebody has drawn, and the sheet on the table: files in the data folder.

The sheet is written after every act, whole or not at all, so that a crash loses at most the last one.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from trainer.level.write import HEAD
from trainer.read import Document, Faulty, read_yaml, rewrite_yaml, yaml_entry
from trainer.read.document import Lines
from trainer.records.errors import RecordsError
from trainer.records.files import not_written, write_whole
from trainer.table import Drawing, data_over, drawing_of, level_data, new_drawing
from trainer.words import _

FOLDER, SHEET, DELETED = "houses", "drawing.json", "deleted"


@dataclass(frozen=True)
class Source:
    """The file that a drawing is of: its text as read or last written, and what was drawn then."""

    path: Path
    text: str
    drawing: Drawing


def own_paths(data: Path | None) -> tuple[Path, ...]:
    """Return the level files of somebody's own houses, by name."""
    return tuple(sorted((data / FOLDER).glob("*.yaml"))) if data is not None else ()


def put_away(path: Path) -> Path:
    """Move the file of somebody's own house out of the path's sight; return where it is kept.

    :raises RecordsError: where it can't be moved.
    """
    folder = path.parent / DELETED
    number, kept = 1, folder / path.name
    while kept.exists():
        number += 1
        kept = folder / f"{path.stem}-{number}{path.suffix}"
    _move(path, kept)
    return kept


def clear_sheet_of(data: Path | None, path: Path) -> None:
    """Empty the sheet where all that lies on it is in the file of a house that is to go.

    :raises RecordsError: where it can't be written.
    """
    kept = kept_sheet(data)
    if kept is not None and kept[1] is not None and kept[1].path == path and kept[1].drawing == kept[0]:
        keep_sheet(data, new_drawing(), None)


def put_back(kept: Path, path: Path) -> None:
    """Move it back to where it was.

    :raises RecordsError: where it can't be moved, or another house has its place by now.
    """
    if path.exists():
        raise RecordsError(_("{path}: another house lies there by now.").format(path=path))
    _move(kept, path)


def _move(path: Path, to: Path) -> None:
    try:
        to.parent.mkdir(parents=True, exist_ok=True)
        path.rename(to)
    except OSError as error:
        raise not_written(to, error) from error


def open_source(path: Path) -> Source:
    """Read a level file to draw on.

    :raises Faulty: with why it can't be drawn.
    :raises OSError: where it can't be read.
    """
    content = path.read_bytes()
    drawing = drawing_of(read_yaml(content, str(path)))
    return Source(path, content.decode("utf-8"), drawing)


def same_file(one: Source | None, other: Source) -> bool:
    """Whether two drawings are of one file as it is."""
    return one is not None and one.path == other.path and one.text == other.text


def copy_of(text: str) -> Drawing:
    """Return a house drawn as another one is: what a level's text holds, under a name of its own."""
    drawing = drawing_of(read_yaml(text, "level"))
    title = _("{title}, drawn on").format(title=str(drawing.at("title"))[:60])
    lesson = {key: value for key, value in (drawing.at("lesson") or {}).items() if key not in {"place", "unseen"}}
    values = {**drawing.values, "id": f"my-{drawing.at('id')}"[:40], "title": title, "lesson": lesson}
    return replace(drawing, values={key: value for key, value in values.items() if value != {}})


def save(source: Source | None, drawing: Drawing, data: Path, taken: frozenset[str]) -> Source:
    """Write a drawing to its file, only what is other than before; a new one to a file of its own id.

    ``taken`` are ids that other houses have.

    :raises RecordsError: where it can't be written.
    """
    if source is None:
        drawing = replace(drawing, values={**drawing.values, "id": free_id(drawing, data, taken)})
        path = data / FOLDER / f"{drawing.values['id']}.yaml"
        text = "".join(f"{line}\n" for line in _fresh(drawing))
    else:
        path = source.path
        there = _now_there(source)
        old: Any = read_yaml(there, str(path)).data
        text = rewrite_yaml(there, data_over(old, source.drawing, drawing))
        drawing = drawing_of(read_yaml(text, str(path))) if there != source.text else drawing
    write_whole(path, text.encode("utf-8"))
    return Source(path, text, drawing)


def _now_there(source: Source) -> str:
    """Return the text of a drawing's file, which somebody may have changed since; as it was, where that is no level."""
    try:
        return open_source(source.path).text
    except (OSError, Faulty):
        return source.text


def _fresh(drawing: Drawing) -> list[str]:
    return [HEAD, *(line for key, value in level_data(drawing).items() for line in yaml_entry(key, value))]


def free_id(drawing: Drawing, data: Path, taken: frozenset[str]) -> str:
    """Return the drawing's id, with a number after it where another house has that."""
    name = str(drawing.at("id") or "my-house")
    there = taken | {path.stem for path in own_paths(data)}
    number, free = 1, name
    while free in there:
        number += 1
        free = f"{name}-{number}"
    return free


def keep_sheet(data: Path | None, drawing: Drawing, source: Source | None) -> None:
    """Keep the sheet as it is now.

    :raises RecordsError: where it can't be.
    """
    if data is None:
        return
    saved = source is not None and source.drawing == drawing
    kept = {
        "closed": drawing.closed, "file": str(source.path) if source else "", "saved": saved,
        "level": level_data(drawing),
    }  # fmt: skip
    write_whole(data / SHEET, (json.dumps(kept, indent=1) + "\n").encode("utf-8"))


def kept_sheet(data: Path | None) -> tuple[Drawing, Source | None] | None:
    """Return the sheet that was kept, and the file that it is of; None where there is none that can be used.

    A sheet that was saved is as its file is now, which somebody may have changed by hand.
    """
    if data is None:
        return None
    try:
        kept = json.loads((data / SHEET).read_text(encoding="utf-8"))
        drawing = drawing_of(Document(SHEET, kept["level"], Lines(1)))
        drawing = replace(drawing, closed=bool(kept["closed"]) and drawing.closed)
        file, saved = Path(kept["file"]) if kept["file"] else None, kept["saved"] is True
    except (OSError, ValueError, KeyError, TypeError, Faulty):
        return None
    try:
        source = open_source(file) if file is not None else None
    except (OSError, Faulty):
        source = None  # the file is gone, or no level any more; what was drawn is still there
    return source.drawing if source is not None and saved else drawing, source
