"""Why a step comes now: what it is for, and what waits for it, as the edges of the order have it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from trainer.order import Step
from trainer.order.model import Verb
from trainer.site import Site, done
from trainer.words import _, listed

MOST = 2
"""How many trusses that wait are named."""
WHAT_FOR: dict[Verb, str] = {
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
    "strike": _("It has done its work, and is in the way of what comes next."),
    "stop": _("People come first: nothing is lifted until it is safe again."),
    "clear": _("Nothing is built on what has fallen."),
    "load": _("Where the first packs land decides what the roof has to carry."),
    "hand_over": _("All is done and looked at. Now others build on it."),
}


def why_now(site: Site, step: Step) -> str:
    """Return what a step is for and which trusses wait for it."""
    waiting = list(dict.fromkeys(_waiting(site, step)))
    if not waiting:
        return WHAT_FOR[step.verb]
    named = waiting[:MOST] if len(waiting) <= MOST else [*waiting[:MOST], _("others")]
    return _("{what_for} {trusses} can't go up before.").format(what_for=WHAT_FOR[step.verb], trusses=listed(named))


def _waiting(site: Site, step: Step) -> Iterator[str]:
    """The trusses that may not be stood before this step is done, in the order of the edges."""
    for edge in site.job.order.out_of.get(step, ()):
        if edge.then.verb == "stand" and edge.then.tag != step.tag and not done(site, edge.then):
            yield edge.then.tag


def hints_counted(depths: Sequence[int]) -> str:
    """Return in words how many hints went how deep."""
    counted = Counter(depths)
    return _("Hints: {why} why, {which} which, {where} where, {do_it} do it.").format(
        why=counted[1], which=counted[2], where=counted[3], do_it=counted[4]
    )
