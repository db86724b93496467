"""A row braced for good while a truss in it was out of true."""

from __future__ import annotations

from trainer.rules.permanent import put_in
from trainer.rules.placement import in_wrong_place
from trainer.rules.plain import mm
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.rules.trueness import cause_of_untrue, in_words, out_of_true
from trainer.site import Event, Restrain, Site
from trainer.site.restraints import locked
from trainer.words import _


@rule(
    severity="rework",
    on=Restrain,
    what=_("{member} was braced for good {got}. Wanted: {want}."),
    why=_("Permanent bracing locks the row as it stands. A truss can't be plumbed through it afterwards."),
    fix=_("Put temporary bracing on. Take the roof brace off, straighten the truss, then brace it again."),
    safety=_("Take no brace off while nothing else holds the row."),
    source=PRACTICE,
)
def braced_while_crooked(before: Site, event: Event, after: Site) -> Finds:
    """A roof brace is put over a truss that is not straight, plumb and in line; once for each truss."""
    piece = put_in(event, after)
    if piece is None or "stand" not in after.job.stages:
        return
    fast = locked(before)
    for tag in (tag for tag, _run in piece.crosses if tag not in fast):
        # A truss in another's place is out of line because of that.
        outs = (out for out in out_of_true(before, tag) if out.way != "apex" or not in_wrong_place(before, tag))
        if out := next(outs, None):
            want = _("straight and plumb first, out by no more than {limit}").format(limit=mm(out.limit))
            yield Found(tag, in_words(out), want, cause_of_untrue(before, tag, out))
