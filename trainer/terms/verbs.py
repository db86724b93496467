"""The verbs of a diary, and the steps of a job: what each is called, its stage, and what it is for."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from typing import Any, Literal, NamedTuple, get_args

from trainer.terms.stages import Stage
from trainer.terms.things import thing
from trainer.terms.trusses import KIND_PLURALS
from trainer.words import _


class VerbTerms(NamedTuple):
    """A verb's ``name`` as a tool, what is ``to_do`` and what is ``done``, and its ``stage``.

    ``to_do`` and ``done`` take an action's own keys, and what ``_fields`` makes of them. The time for an action is put
    down to its verb's stage; taking back stands in none.
    """

    name: str
    to_do: str
    done: str
    stage: Stage | None


VERBS: Mapping[str, VerbTerms] = {
    "check": VerbTerms(_("Check"), _("Check: {item}"), _("Checked: {item}"), "pre-start"),
    "measure": VerbTerms(_("Measure"), _("Measure {of}"), _("Measured {of}"), "pre-start"),
    "report": VerbTerms(_("Report"), _("Report {of}"), _("Reported {of}"), "pre-start"),
    "plan": VerbTerms(_("Plan lifts"), _("Plan lifts of {kind}"), _("Planned lifts of {kind}"), "pre-start"),
    "mark": VerbTerms(_("Mark"), _("Mark {of}"), _("Marked {of}"), "set-out"),
    "stand": VerbTerms(_("Stand"), _("Stand {tag}"), _("Stood {tag}"), "stand"),
    "string": VerbTerms(
        _("String"), _("Pull a string from {from} to {to}"), _("Pulled a string from {from} to {to}"), "stand"
    ),
    "plumb": VerbTerms(_("Straighten"), _("Straighten {tag}"), _("Straightened {tag}"), "stand"),
    "remove": VerbTerms(_("Take down"), _("Take {tag} down"), _("Took {tag} down"), "stand"),
    "stop": VerbTerms(_("Stop"), _("Stop lifting"), _("Stopped lifting"), "stand"),
    "cut": VerbTerms(_("Cut"), _("Cut {tag}"), _("Cut {tag}"), "stand"),
    "clear": VerbTerms(_("Clear"), _("Clear up after the fall"), _("Cleared up after the fall"), "stand"),
    "brace": VerbTerms(_("Brace"), _("Brace {tags}"), _("Braced {tags}"), "brace"),
    "unbrace": VerbTerms(_("Unbrace"), _("Unbrace {tags}"), _("Unbraced {tags}"), "brace"),
    "restrain": VerbTerms(_("Restrain"), _("Restrain with {kind}"), _("Restrained with {kind}"), "brace"),
    "fit": VerbTerms(_("Fit"), _("Fit on {of}{at}"), _("Fitted on {of}{at}"), "fix"),
    "fix": VerbTerms(_("Fix"), _("Fix {tag}, {end}"), _("Fixed {tag}, {end}"), "fix"),
    "inspect": VerbTerms(_("Inspect"), _("Inspect {tag}"), _("Inspected {tag}"), "hand-over"),
    "load": VerbTerms(_("Load"), _("Load the roof"), _("Loaded the roof"), "hand-over"),
    "hand_over": VerbTerms(_("Hand over"), _("Hand over"), _("Handed over"), "hand-over"),
    "undo": VerbTerms(_("Undo"), _("Undo the action before"), _("Undid the action before"), None),
}

StepVerb = Literal[
    "check", "report", "mark", "fit", "stand", "tie", "string", "plumb", "fix", "read", "inspect", "hand_over",
    "join", "seat", "trim", "prop", "cross", "bridge", "slot", "restrain", "secure", "frame",
    "plan", "stop", "load", "strike", "clear",
]  # fmt: skip
"""What a step of the order is: a verb that does one thing, or one of the things that a verb does."""

WHAT_FOR: Mapping[StepVerb, str] = {
    "check": _("Look before you lift: nobody sees a danger from under a truss."),
    "report": _("Something here is not as it should be. Say so before anybody builds on it."),
    "plan": _("How a truss is lifted is settled before it leaves the ground."),
    "mark": _("Every truss stands on a mark."),
    "fit": _("The bracket has to be there before the truss that sits in it."),
    "join": _("Plies that are not joined carry no load together."),
    "stand": _("Everything that stands is held, so the next truss can go up."),
    "tie": _("A truss that nothing holds falls over as soon as it is let go."),
    "fix": _("An end that is not fixed can slide or lift off."),
    "prop": _("The extension hangs free until the trusses under it stand."),
    "cross": _("Where timbers cross they are fixed, so that each steadies the other."),
    "seat": _("A saddle sits on its battens, not on bare trusses."),
    "trim": _("What ends between two trusses needs a trimmer to sit on."),
    "bridge": _("Between two trusses there is nothing to fix the wall to yet."),
    "slot": _("The truss has to move up and down over an inside wall, and not sideways."),
    "string": _("Plates are rarely dead straight. A string shows where the tops belong."),
    "plumb": _("Bracing holds a truss as it is. So it is straightened first."),
    "restrain": _("Temporary bracing does not stay. This is what holds the roof for good."),
    "frame": _("The gable and its verge are framed once the row is straight."),
    "read": _("An inspection begins with a measure."),
    "inspect": _("Somebody has to say yes or no to it, after measuring."),
    "secure": _("Nobody is here at night, and the wind does not wait."),
    "strike": _("A brace that has done its work is in the way of what comes next."),
    "stop": _("People come first: nothing is lifted until it is safe again."),
    "clear": _("Nothing is built on what has fallen."),
    "load": _("Where the first packs land decides what the roof has to carry."),
    "hand_over": _("All is done and looked at. Now others build on it."),
}
"""What each step is for, as a hint says it."""

STAGE_OF: Mapping[StepVerb, Stage] = {
    **{verb: stage for verb in get_args(StepVerb) if verb in VERBS and (stage := VERBS[verb].stage)},
    "tie": "brace", "prop": "brace", "secure": "brace", "strike": "brace",
    "join": "fix", "seat": "fix", "trim": "fix", "cross": "fix", "bridge": "fix", "slot": "fix", "frame": "fix",
    "read": "hand-over",
}  # fmt: skip
"""The stage that a step belongs to: that of the diary's verb of the same name, where there is one."""


_FIRST_PACKS = VerbTerms(
    _("First packs"), _("Say where the first packs land"), _("Said where the first packs land"), "hand-over"
)


def terms_of(action: Mapping[str, Any]) -> VerbTerms:
    """Return what an action's verb is called; to load by a pattern is only to say where packs are to land."""
    return _FIRST_PACKS if action["do"] == "load" and action.get("pattern") else VERBS[action["do"]]


def to_do_line(action: Mapping[str, Any]) -> str:
    """Return an action, by the keys of a diary, as something that could be done next."""
    return terms_of(action).to_do.format_map(_fields(action))


def done_line(action: Mapping[str, Any]) -> str:
    """Return an action, by the keys of a diary, as something that was done."""
    return terms_of(action).done.format_map(_fields(action))


def _fields(action: Mapping[str, Any]) -> Mapping[str, str]:
    """Return what the lines of verbs take: the action's own values as words, and what is made of several of them."""
    at = action.get("at")
    end = _("end {end}").format(end=action["end"]) if "end" in action else _("a crossing")
    made = {
        "of": _of(action),
        "tags": " – ".join(action.get("tags", ())),
        "at": _(" at {at}").format(at=f"{at:g}") if isinstance(at, int | float) else "",
        "end": end,
    }
    own = {key: thing(value) for key, value in action.items() if isinstance(value, str)}
    if action["do"] == "plan":
        own["kind"] = KIND_PLURALS[action["kind"]]
    return defaultdict(str, own | made)


def _of(action: Mapping[str, Any]) -> str:
    """Say what an action is done to: a wall, a truss or a place; what lies nowhere is of the whole site."""
    if action.get("wall"):
        return _("wall {wall}").format(wall=action["wall"])
    at = action.get("at")
    if isinstance(at, list | tuple) and action["do"] in ("report", "measure"):
        return _("the place {x}, {y}").format(x=f"{at[0]:g}", y=f"{at[1]:g}")
    return str(
        action.get("on")
        or action.get("tag")
        or (thing(action.get("fault", "")) if action.get("fault") == "a fall" else "")
        or (_("the site") if action["do"] == "report" else "")
    )
