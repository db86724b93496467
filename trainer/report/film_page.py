"""A film as one page: the picture as a list of pieces with their times, and all that it says as text too."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from trainer.film import Caption, Film, Stop
from trainer.film.player import SPEED_NAMES, SPEEDS, USUAL
from trainer.picture import Palette
from trainer.picture.filmed import LIFT, Filmed, Seen
from trainer.picture.model import Line, Polygon, Text
from trainer.report.page import page
from trainer.words import CAUTION, INVENTED, _

WIDE_PX = 900.0
"""About how wide the picture is shown."""


@dataclass(frozen=True)
class FilmPage:
    """What the page says; ``data`` is what its script plays, as JSON."""

    title: str
    cautions: tuple[str, ...]
    cues: Sequence[Caption | Stop]
    parts: Sequence[str]
    speeds: Sequence[tuple[str, str, bool]]
    data: str


def film_page(film: Film, palette: Palette, fonts: tuple[Path, Path]) -> str:
    """Return a film as one page that needs nothing else; ``fonts`` are the type's files, regular and semibold."""
    filmed = Filmed(film, WIDE_PX)
    data = {
        "box": [round(side) for side in filmed.box],
        "lift": LIFT,
        "length": film.length_ms,
        "items": [_item(seen, palette) for seen in filmed.items()],
        "cues": [_cue(cue) for cue in film.cues],
        "steps": film.steps,
        "stands": [shot.end_ms for shot in film.shots if shot.step.verb == "stand"],
        "parts": [part.ranges for part in film.parts],
    }
    content = FilmPage(
        _("{title}: watch it built").format(title=film.title), (CAUTION, INVENTED), film.cues,
        [part.name for part in film.parts],
        [(name, f"{speed:g}", n == USUAL) for n, (name, speed) in enumerate(zip(SPEED_NAMES, SPEEDS, strict=True))],
        json.dumps(data, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c"),
    )  # fmt: skip
    return page("film.html", content, palette, fonts)


def _item(seen: Seen, palette: Palette) -> dict[str, Any]:
    """Return a piece: ``p`` its places, ``f`` and ``e`` the colours of its ground and edge, ``w`` px, ``s`` spans."""
    item = seen.item
    said: dict[str, Any] = {"s": [moment for span in seen.spans for moment in span]}
    if seen.lift:
        said["l"] = seen.lift
    if isinstance(item, Text):
        return said | {"t": item.text, "p": [round(v) for v in item.at], "e": palette[item.role]}
    said["p"] = [round(v) for place in item.points for v in place]
    said["w"] = item.width
    if isinstance(item, Polygon):
        said |= {"f": palette[item.fill]} if item.fill else {"f": ""}
        return said | ({"e": palette[item.edge]} if item.edge else {})
    assert isinstance(item, Line)
    return said | {"e": palette[item.role]} | ({"d": item.dash} if item.dash else {})


def _cue(cue: Caption | Stop) -> dict[str, Any]:
    if isinstance(cue, Caption):
        return {"at": cue.at_ms, "name": cue.name, "text": cue.text, "hold": cue.hold_ms}
    options = [{"text": option.text, "right": option.right, "why": option.why} for option in cue.options]
    return {"at": cue.at_ms, "text": cue.text, "options": options}
