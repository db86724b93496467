"""A saddle truss set on trusses that were not straight yet."""

from __future__ import annotations

from trainer.rules.plain import called
from trainer.rules.rule import PRACTICE, Finds, Found, rule, truss_of
from trainer.rules.trueness import cause_of_untrue, in_words, out_of_true
from trainer.site import Event, Site, Stand, unready
from trainer.words import _


@rule(
    severity="rework",
    on=Stand,
    what=_("Saddle {member} was set down over {got}. Wanted: {want}."),
    why=_("Saddles lock a lean in. A truss with saddles on it can hardly be pushed straight."),
    fix=_("Take the saddle down. Line and plumb every truss under it, then set it down again."),
    safety=_("Never stand on a truss that is not braced and fixed."),
    source=PRACTICE,
)
def saddle_over_crooked_truss(before: Site, event: Event, after: Site) -> Finds:
    """A truss under the saddle just stood is braced and fixed, but out of true; told at the first saddle over it."""
    place = after.stood[truss_of(event)].place
    if place is None or "stand" not in after.job.stages or after.layout.by_tag[place].kind != "saddle":
        return
    for under in after.layout.by_tag[place].carried_by:
        tag = after.at_place.get(under)
        if tag is None or unready(before, under) or _already_loaded(before, under):
            continue
        for out in out_of_true(after, tag):
            got = _("{truss}, {out}").format(truss=called(after.layout.by_tag[tag]), out=in_words(out))
            want = _("trusses under it straight and plumb first")
            yield Found(truss_of(event), got, want, cause_of_untrue(after, tag, out))
            break


def _already_loaded(before: Site, under: str) -> bool:
    by_tag = before.layout.by_tag
    return any(by_tag[other].kind == "saddle" and other in before.at_place for other in before.layout.carries[under])
