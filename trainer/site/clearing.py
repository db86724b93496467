"""Clearing up after a fall: new trusses for what fell or was struck lie in the yard, to be stood again."""

from __future__ import annotations

from trainer.site.actions import Clear
from trainer.site.doing import does
from trainer.site.falling import to_clear, with_all_on
from trainer.site.holding import held_from_scratch, holding
from trainer.site.model import Event, How, Refused, Site, changed
from trainer.site.standing import without
from trainer.words import _


@does(Clear)
def clear(site: Site, index: int, action: Clear) -> tuple[Site, Event] | Refused:
    """Clear what lies where it fell, or that work went on around. What leaned on it alone is braced by whoever clears.

    What was hung since on a truss that goes comes down with it, and may be stood again.
    """
    fall = to_clear(site)
    if fall is None:
        return Refused(_("Nothing has fallen. There is nothing to clear."))
    bare = site
    for tag in with_all_on(site, fall.lying):
        if tag not in fall.lying:
            bare = without(bare, tag)
    for tag in fall.lying:
        bare = replaced(bare, tag)
    bare = changed(bare, holds=held_from_scratch(bare), fall=None)
    lost: dict[str, How] = {tag: "put right" for tag in site.holds if tag in bare.stood and tag not in bare.holds}
    return changed(bare, holds=holding(bare, lost)), Event(index, action)


def replaced(site: Site, tag: str) -> Site:
    """Return the site with a truss gone and a new one for it in the yard: whole, bare, as the drawings have it."""
    bare = without(site, tag)
    return changed(
        bare,
        fitted={on: parts for on, parts in bare.fitted.items() if on != tag},
        cuts={of: cuts for of, cuts in bare.cuts.items() if of != tag},
        put_right=bare.put_right.union(flaw for flaw in bare.flaws if tag in (flaw.tag, flaw.other)),
    )
