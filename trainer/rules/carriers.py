"""What a truss is set down on before that can carry it.

A carrier, or a truss under a saddle, carries once it stands, is held, and both its ends are fixed. The
first truss set down too early is found; others on the same carrier came of the same thing left undone,
and are not told again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from trainer.layout.model import Member
from trainer.order import Step
from trainer.rules.plain import called, listed
from trainer.rules.rule import Found
from trainer.site import Site, unready
from trainer.words import _

_UNDONE = {"tie": _("braced"), "fix": _("fixed at both ends")}


def set_down_too_early(before: Site, after: Site, tag: str, meant: Callable[[Member, Member], bool]) -> Iterator[Found]:
    """Find each carrier that was not ready for the truss ``tag`` just stood, and was not found so before.

    ``meant`` says of a carried truss and its carrier whether they are the asking rule's.
    """
    place = after.stood[tag].place
    if place is None:
        return
    by_tag = before.layout.by_tag
    for carrier in by_tag[place].carried_by:
        steps = unready(before, carrier) if meant(by_tag[place], by_tag[carrier]) else ()
        if steps and not any(other in before.at_place for other in _others(before, carrier, place)):
            fixing = "fix" in before.job.stages
            ready = (
                _("{carrier} standing, braced and fixed first") if fixing else _("{carrier} standing and braced first")
            )
            want = ready.format(carrier=carrier)
            yield Found(tag, _undone(before, carrier, steps), want, cause_of(steps[0]))


def cause_of(step: Step) -> str:
    """Name the thing left undone. The fixings of both ends are one thing."""
    return f"{step.verb} {step.tag}"


def _others(site: Site, carrier: str, place: str) -> Iterator[str]:
    """What else the carrier carries in the same way: saddles sit on it, other trusses hang on it."""
    by_tag = site.layout.by_tag
    saddle = by_tag[place].kind == "saddle"
    return (o for o in site.layout.carries[carrier] if o != place and (by_tag[o].kind == "saddle") == saddle)


def _undone(site: Site, carrier: str, steps: tuple[Step, ...]) -> str:
    name = called(site.layout.by_tag[site.at_place.get(carrier, carrier)])
    if steps[0].verb == "stand":
        return _("before {carrier} was standing").format(carrier=name)
    undone = [text for verb, text in _UNDONE.items() if any(step.verb == verb for step in steps)]
    return _("before {carrier} was {undone}").format(carrier=name, undone=listed(undone))
