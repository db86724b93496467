"""The diary: an attempt as a file, one line an action, in the order done."""

from __future__ import annotations

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

from trainer.read import Where, read_yaml, validate, yaml_flow
from trainer.read.schema_walk import WANTED
from trainer.site.actions import Action, AnyAction

Place = Annotated[int, Field(ge=0, lt=2**53)]
"""An action's place in the diary."""


class Diary(BaseModel):
    """One attempt: on which level, with which seed, and all that was done, undone actions and undos included."""

    model_config = ConfigDict(frozen=True, extra="forbid", validate_by_name=True, validate_by_alias=True)

    schema_: Annotated[int, Field(ge=1, le=1, json_schema_extra={WANTED: "1"})] = Field(
        default=1, validation_alias="schema", serialization_alias="schema"
    )
    """Edition of the diary file; always 1."""
    level: Annotated[str, Field(min_length=1, max_length=200)]
    """Id of the level."""
    seed: Annotated[int, Field(ge=0, lt=2**53)] = 0
    """Seed of whatever is imperfect on the site."""
    actions: tuple[Action, ...]
    """What was done, in order."""
    hints: tuple[Place, ...] = ()
    """The actions, counted from 0, before which a hint was taken; only where any was."""
    hint_depths: tuple[Annotated[int, Field(ge=1, le=4)], ...] = ()
    """How deep each of them went: 1 why, 2 which, 3 where, 4 do it. A hint not counted here is of 1."""
    hand: tuple[tuple[Place, Place], ...] = ()
    """What one hand did in one go: the first and the last action of each, counted from 0; only where any was."""


def parse_diary(text: str | bytes, file: str, level: str | None = None) -> Diary:
    """Read a diary's text; ``file`` is the name that faults carry, ``level`` the one it must be an attempt at.

    Raises :class:`trainer.read.Faulty` with every fault. Whether an action can be done is not asked here.
    """
    document = read_yaml(text, file)
    return validate(Diary, document, also=_of_another_level(document.data, level))


def _of_another_level(data: object, level: str | None) -> list[tuple[Where, str]]:
    named = data.get("level") if isinstance(data, dict) else None
    if level is None or not isinstance(named, str) or named == level:
        return []
    return [(("level",), f"is '{named[:40]}'; this diary is held against '{level}', so give it its own level")]


def write_diary(diary: Diary) -> str:
    """Return the diary as YAML that :func:`parse_diary` reads, and that comes out the same once read."""
    head = ["schema: 1", f"level: {yaml_flow(diary.level)}", f"seed: {diary.seed}"]
    head += [f"hints: {yaml_flow(diary.hints)}"] if diary.hints else []
    head += [f"hint_depths: {yaml_flow(diary.hint_depths)}"] if any(each > 1 for each in diary.hint_depths) else []
    head += [f"hand: {yaml_flow(diary.hand)}"] if diary.hand else []
    lines = [f"- {_line(action)}" for action in diary.actions]
    return "\n".join([*head, "actions:" if lines else "actions: []", *lines]) + "\n"


def _line(action: AnyAction) -> str:
    fields = action.model_dump(by_alias=True, exclude_none=True)
    return "{" + ", ".join(f"{key}: {yaml_flow(value)}" for key, value in fields.items()) + "}"
