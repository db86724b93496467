"""A truss that stood right and was taken down again."""

from __future__ import annotations

from trainer.order import needs_bracket
from trainer.rules.delivery import flaws_of
from trainer.rules.placement import misplaced
from trainer.rules.rule import PRACTICE, Finds, Found, rule, truss_of
from trainer.site import Event, Remove, Site, bracketed, unready
from trainer.words import _


@rule(
    severity="rework",
    on=Remove,
    what=_("{member} was taken down again, though {got}. Wanted: {want}."),
    why=_("Each lift costs time and crane hire. Each lift also puts people under a load once more."),
    fix=_("Plan the order before you lift. Then stand each truss once."),
    safety=_("Taking down is as risky as standing. Hold the truss before you loosen anything."),
    source=PRACTICE,
)
def taken_down_again(before: Site, event: Event, after: Site) -> Finds:
    """A truss was taken down for no mistake of its own, nor of what carries it.

    Taking down what stands wrong, is damaged, or was set down too early, puts a mistake right that was found before.
    """
    tag = truss_of(event)
    if not _with_reason(before, tag):
        yield Found(tag, _("it stood where it belongs"), _("each truss stood once"))


def _with_reason(site: Site, tag: str) -> bool:
    stood = site.stood[tag]
    if stood.place is None or stood.turned or misplaced(site, tag) or site.cuts.get(tag) or any(flaws_of(site, tag)):
        return True
    member = site.layout.by_tag[stood.place]
    if any(needs_bracket(member, end) and not bracketed(site, stood.place, end) for end in (1, 2)):
        return True
    return any(_to_be_redone(site, carrier) for carrier in member.carried_by)


def _to_be_redone(site: Site, place: str) -> bool:
    """Whether a carrier is not ready, or has itself to come down, so that what it carries comes down first."""
    if unready(site, place):
        return True
    return _with_reason(site, site.at_place[place])
