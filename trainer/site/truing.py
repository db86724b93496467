"""String lines, straightening, cutting and loading."""

from __future__ import annotations

from trainer.site.actions import Cut, Load, Plumb, String
from trainer.site.doing import does
from trainer.site.model import Event, Refused, Site, changed
from trainer.site.on_the_day import agree
from trainer.site.query import row_of
from trainer.site.refusals import not_standing, unknown_truss
from trainer.site.restraints import locked
from trainer.site.shape import line_for
from trainer.words import _


@does(String)
def string(site: Site, index: int, action: String) -> tuple[Site, Event] | Refused:
    """Pull a string from one standing truss to another of its row."""
    ends = (action.start, action.finish)
    for tag in ends:
        if refused := not_standing(site, tag):
            return refused
    if ends[0] == ends[1]:
        return Refused(_("A string needs two trusses. Name the other one."))
    if len({row_of(site, tag) for tag in ends}) > 1:
        return Refused(
            _("{one} and {other} are not in one row. Pull the string along a row.").format(one=ends[0], other=ends[1])
        )
    return changed(site, strings=(*site.strings, ends)), Event(index, action)


@does(Plumb)
def plumb(site: Site, index: int, action: Plumb) -> tuple[Site, Event] | Refused:
    """Straighten a standing truss, within what hands can do, and line it up by what there is to go by."""
    if refused := not_standing(site, action.tag):
        return refused
    if action.tag in locked(site):
        text = _(
            "{tag} is braced for good: a roof brace lies over it, so it can't be moved. Take that roof brace off "
            "first. Then straighten {tag}, and brace it again."
        )
        return Refused(text.format(tag=action.tag))
    return changed(site, plumbed={**site.plumbed, action.tag: line_for(site, action.tag)}), Event(index, action)


@does(Cut)
def cut(site: Site, index: int, action: Cut) -> tuple[Site, Event] | Refused:
    """Cut a truss, in the yard or standing."""
    if refused := unknown_truss(site, action.tag):
        return refused
    ends = site.layout.by_tag[action.tag].ends
    comes_with = any(flaw.what == "unwanted tail" and flaw.tag == action.tag for flaw in site.flaws)
    if action.where == "tail" and not comes_with and not any(end.tail for end in ends):
        return Refused(_("{tag} has no tail to cut.").format(tag=action.tag))
    cuts = {**site.cuts, action.tag: (*site.cuts.get(action.tag, ()), action.where)}
    return changed(site, cuts=cuts), Event(index, action)


@does(Load)
def load(site: Site, index: int, action: Load) -> tuple[Site, Event] | Refused:
    """Put a load on the roof, as far as it stands; or say where the first packs are to land."""
    if action.pattern:
        return agree(site, index, action)
    if not site.stood:
        return Refused(_("No truss stands yet. There is nothing to load."))
    return changed(site, loads=(*site.loads, action.what)), Event(index, action)
