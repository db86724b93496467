"""Skills that one act decides: whoever had that act got ready by the deepest hint was shown the skill."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from trainer.session.session import DEEPEST, ActionResult
from trainer.site import AnyAction, Brace, Site, Stand
from trainer.site.actions import Inspect, Unbrace
from trainer.words import _, listed

SKILLS: Mapping[str, str] = {
    "hold the first truss": _("holding the first truss"),
    "carriers first": _("standing a carrier before what it carries"),
    "take bracing off": _("knowing when a brace may come off"),
    "judge a truss": _("judging a truss at the inspection"),
}
"""Each skill by its name, with its words."""


def in_words(names: Iterable[str]) -> str:
    """Return skills in words, by their names; one that is not known here by its name alone."""
    return listed([SKILLS.get(name, name) for name in names])


def skills_shown(outcomes: Iterable[ActionResult], site: Site) -> tuple[str, ...]:
    """Return the skills whose deciding act, the first of its kind that could be done, was got ready by a hint."""
    decides: dict[str, Callable[[AnyAction], bool]] = {
        "hold the first truss": lambda action: isinstance(action, Brace),
        "carriers first": lambda action: isinstance(action, Stand) and bool(site.layout.carries.get(action.tag)),
        "take bracing off": lambda action: isinstance(action, Unbrace),
        "judge a truss": lambda action: isinstance(action, Inspect),
    }
    first: dict[str, bool] = {}
    for outcome in outcomes:
        for skill, is_it in decides.items():
            if outcome.event is not None and skill not in first and is_it(outcome.action):
                first[skill] = outcome.hint_depth == DEEPEST
    return tuple(skill for skill in SKILLS if first.get(skill))
