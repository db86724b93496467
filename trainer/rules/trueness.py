"""How true the trusses stand: plumb, straight, and in line.

A truss need not have been plumbed: only how it stands counts. What is out in several ways at once was left
undone once, so its findings share a cause.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from trainer.order import TIED
from trainer.rules.permanent import cause_of
from trainer.rules.placement import in_wrong_place
from trainer.rules.plain import mm
from trainer.rules.rule import Found
from trainer.site import Site, Untrue, gone_on_around, outermost, string_over, untrue
from trainer.site.shape import WAYS, Way, left_unfixed, pulled_over_by
from trainer.words import _

HOW: dict[Way, str] = {
    "plumb": _("{out} out of plumb"),
    "bow": _("bowed by {out}"),
    "apex": _("with its top {out} off the line"),
}


def handed_over_untrue(after: Site, way: Way) -> Iterator[Found]:
    """Yield the trusses that are out in this way, on a level where the learner stands them."""
    lying = gone_on_around(after)
    for tag in after.stood if "stand" in after.job.stages else ():
        # A truss in another's place is out of line because of that, and one that lies where it fell is not out of true.
        if tag in lying or (way == "apex" and in_wrong_place(after, tag)):
            continue
        for out in out_of_true(after, tag, (way,)):
            want = _("no more than {limit}").format(limit=mm(out.limit))
            yield Found(tag, in_words(out), want, cause_of_untrue(after, tag, out))


def out_of_true(site: Site, tag: str, ways: Iterable[Way] = WAYS) -> Iterator[Untrue]:
    """Yield each of ``ways`` in which a standing truss is out; those whose ends set them are not asked."""
    return untrue(site, tag, ways) if site.layout.by_tag[tag].kind in TIED else iter(())


def in_words(out: Untrue) -> str:
    """Say how a truss is out."""
    return HOW[out.way].format(out=mm(out.got, out.limit))


def cause_of_untrue(site: Site, tag: str, out: Untrue) -> str:
    """Name what was left undone where a truss is out of true.

    It was not plumbed, or a strap was pulled too hard over it; or the string that it was lined up by ran from a truss
    that was not; its row had no string; or nothing that runs over it was fixed to it.
    """
    place = site.stood[tag].place or tag
    if out.way == "plumb" and (pulled := pulled_over_by(site, tag)):
        return cause_of(site, pulled)
    if out.way == "plumb" and site.handed_over and (over := left_unfixed(site, tag)):
        return f"cross {over[0]}"
    if out.way == "apex" and (string := string_over(site, tag)):
        crooked = next((end for end in string[0] if end not in site.plumbed), tag)
        return f"plumb {site.stood[crooked].place or crooked}"
    if out.way == "apex" and not outermost(site, tag):
        return f"string {site.layout.by_tag[place].row}"
    return f"plumb {place}"
