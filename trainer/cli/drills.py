"""``trainer drills``: the short exercises, and what each asks on a house."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from trainer.cli.data import DataFolder
from trainer.cli.given import AsJson, given_layout, say, show, wrong_call
from trainer.cli.open_level import open_level
from trainer.cli.options import argument, option, seed_option
from trainer.words import _

if TYPE_CHECKING:
    from trainer.drill import Drill
    from trainer.level import Level

LevelArgument = Annotated[
    str | None, argument("[LEVEL]", "A level file or the id of a shipped level; without one, the kinds alone.")
]
OfKind = Annotated[str | None, option("--kind", "KIND", "Only this kind.")]
Seed = Annotated[int, seed_option("Decides what each drill asks.")]


def drills(
    level: LevelArgument = None, kind: OfKind = None, seed: Seed = 0, as_json: AsJson = False, data: DataFolder = None
) -> None:
    """List the drills, or print what each asks on a level.

    A drill is two to five minutes on one skill: part of the roof stands already, and the rest is up to you.
    """
    import json

    from trainer.drill import drills
    from trainer.read import did_you_mean

    names = [each.name for each in drills()]
    if kind is not None and kind not in names:
        wrong_call(
            _("No drill is called '{kind}'; {guess}.").format(
                kind=kind[:40], guess=did_you_mean(kind, names) or ", ".join(names)
            )
        )
    chosen = [each for each in drills() if kind in (None, each.name)]
    if level is not None:
        asked = _asked(open_level(level, data), [each.name for each in chosen], seed)
        show(json.dumps([_as_data(each) for each in asked], indent=2) if as_json else _in_words(asked))
    elif as_json:
        listed = [{"kind": k.name, "skill": k.skill, "minutes": k.minutes, "rules": list(k.rules)} for k in chosen]
        show(json.dumps(listed, indent=2))
    else:
        wide = max(len(each.name) for each in chosen)
        lasts = _("{minutes} min")
        lines = (f"{each.name:<{wide}}  {lasts.format(minutes=each.minutes)}  {each.skill}" for each in chosen)
        show("\n".join(lines))


def _asked(house: Level, kinds: list[str], seed: int) -> list[Drill]:
    from trainer.drill import CannotDrill, make_drill

    layout = given_layout(house)
    made = []
    for kind in kinds:
        try:
            made.append(make_drill(kind, house, seed, layout))
        except CannotDrill as reason:
            say(f"{kind}: {reason}")
    return made


def _in_words(asked: list[Drill]) -> str:
    return "\n\n".join(
        _("{title} ({minutes} min)").format(title=each.title, minutes=each.minutes) + f"\n{each.task}" for each in asked
    )


def _as_data(drill: Drill) -> dict[str, object]:
    given = [action.model_dump(mode="json", by_alias=True, exclude_none=True) for action in drill.given]
    said = {"kind": drill.kind, "level": drill.level.id, "seed": drill.seed, "title": drill.title, "task": drill.task}
    return {**said, "minutes": drill.minutes, "rules": list(drill.rules), "given": given}
