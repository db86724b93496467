"""A truss stood before another that goes up first in a better order."""

from __future__ import annotations

from trainer.order import Edge, Step, as_good
from trainer.rules.carriers import cause_of
from trainer.rules.placement import in_wrong_place
from trainer.rules.plain import listed
from trainer.rules.rule import PRACTICE, Finds, Found, rule, truss_of
from trainer.site import Event, Site, Stand
from trainer.words import _, ngettext

REASONS = {
    "girders first": _("girders first: the rest hangs on them or lands on them"),
    "truncated first": _("truncated trusses first: jacks and creepers run over and past them"),
    "hip end first": _("the hip end first: once finished it steadies the row after it"),
    "outermost first": _(
        "the outermost full-height trusses first: a string between their tops lines up the rest, a gable truss too"
    ),
    "string first": _("a string first: it shows where each top belongs, whatever the plates do"),
}
"""Why the good order is good, by the key of the edge."""


@rule(
    severity="habit",
    on=Stand,
    what=_("{member} was stood {got}. A better order is {want}."),
    why=_("It is sound so far. In the better order the roof goes together straight. Each part steadies the next."),
    fix=_("Nothing to undo. Next time, finish the earlier trusses first."),
    safety=_("Check that the row is tied to something solid before you go on."),
    source=PRACTICE,
)
def out_of_order(before: Site, event: Event, after: Site) -> Finds:
    """The truss just stood comes after another by good habit, told once for each truss and reason, and counted once.

    An order that is as good is not told. A carrier that does not stand yet is left to the rules about carriers, a truss
    in a wrong place to those of places, and a string to a rule of its own.
    """
    place = after.stood[truss_of(event)].place
    if place is None or "stand" not in before.job.stages or in_wrong_place(after, truss_of(event)):
        return
    late: dict[str, list[Edge]] = {}
    carriers = before.layout.by_tag[place].carried_by
    for edge in before.job.order.into.get(Step("stand", place), ()):
        if edge.strength != "should" or edge.first.verb != "stand" or edge.first.tag in carriers:
            continue
        if edge.first.tag not in before.at_place and not as_good(before.layout, edge):
            late.setdefault(edge.why, []).append(edge)
    fresh = {why: [edge for edge in edges if not _found_before(before, edge)] for why, edges in late.items()}
    cause = next((cause_of(new[0].first) for new in fresh.values() if new), "")
    for why, new in fresh.items():
        if new:
            yield Found(truss_of(event), _before(after, truss_of(event), place, new), REASONS[why], cause)


def _before(site: Site, tag: str, place: str, edges: list[Edge]) -> str:
    """Say what a truss was stood before; by places, where trusses that are alike stand in each other's."""
    others = [edge.first.tag for edge in edges]
    if tag == place and not any(other in site.stood for other in others):
        return _("before {others}").format(others=listed(others))
    empty = ngettext(
        "before the place of {others} was filled", "before the places of {others} were filled", len(others)
    )
    said = empty.format(others=listed(others))
    return said if tag == place else _("in the place of {place}, {before}").format(place=place, before=said)


def _found_before(before: Site, edge: Edge) -> bool:
    """Whether another truss was stood too soon before the same one for the same reason."""
    return any(
        other.why == edge.why and other.then.tag in before.at_place
        for other in before.job.order.out_of.get(edge.first, ())
        if other.strength == "should" and other != edge
    )
