"""Trusses that were let go with nothing to hold them, or not all that is to hold them.

At every lift all that stands is held: the truss stood last is let go by the next, in whatever row. One thing
left undone is found once, by the stronger rule: where a whole row went over, the row is found and not the truss
as well; where a truss is loose only because its carrier is, the carrier is found or was, when the truss was set
down on it; a truss with no brace at all is not found again for its ends. Where one brace or truss taken away
leaves several loose, that is one thing too.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from trainer.order import TIED
from trainer.rules.permanent import leaning_one_way
from trainer.rules.rule import Finds, Found
from trainer.site import Event, HandOver, Remove, Site, apex_tied, loose_ends, row_of
from trainer.site.actions import Unbrace
from trainer.site.holding import held_by_own
from trainer.site.query import beside
from trainer.words import _

SHORT_BLOCKS = ("packer", "trimmer")
"""Parts that go between trusses and brace nothing: trusses with blocks between them fall together."""


@dataclass(frozen=True, slots=True)
class LetGo:
    """A truss let go loose; ``fell``: its row went over."""

    fell: bool
    found: Found


def let_go_loose(before: Site, event: Event) -> Iterator[LetGo]:
    """Yield the trusses let go loose in one event; of a row that went over, the first alone.

    One that is held but for an end that is not fixed is left to :func:`half_fixed`.
    """
    taken = took_away(event)
    if taken:
        tips = [tag for tag in event.let_go if _needs_bracing(before, tag)]
        loose = tips or [tag for tag in event.let_go if _is_saddle(before, tag)]
    else:
        loose = [tag for tag in event.let_go if _loose(before, tag) and not half_fixed(before, tag)]
    rows: set[str] = set()
    for tag in loose:
        if tag in event.fell and (row := row_of(before, tag)) not in rows:
            rows.add(row)
            yield LetGo(True, _found(before, event, tag))
    alone = [tag for tag in loose if tag not in event.fell]
    for tag in alone[:1] if taken else alone:
        yield LetGo(False, _found(before, event, tag))


def took_away(event: Event) -> bool:
    """Whether the event took something away that held trusses: a brace, or a truss that others were tied to."""
    return isinstance(event.action, Remove | Unbrace)


def half_fixed(before: Site, tag: str) -> tuple[int, ...]:
    """The ends still to be fixed of a truss that something does hold: its bracing, or its other end."""
    ends = loose_ends(before, tag)
    steadied = tag in before.holds or (not _needs_bracing(before, tag) and len(ends) == 1)
    return ends if steadied else ()


def never_tied(before: Site) -> Finds:
    """Yield the trusses that were let go loose, that others had to hold, and that nothing was tied to since.

    Where nothing stands beside one to tie it to, or it fell, that is what is missing.
    """
    righted = [tag for tag, how in before.holds.items() if how == "put right" and _needs_bracing(before, tag)]
    if not righted:
        return
    held = held_by_own(before)
    for tag in righted:
        alone = tag not in held and not before.ties.get(tag)
        if alone and tag not in before.fell and beside(before, tag):
            place = before.stood[tag].place or tag
            got = _("with nothing to hold it, and handed over so")
            yield Found(tag, got, _("tied to a truss a bay away that is held"), f"tie {place}")


def _loose(before: Site, tag: str) -> bool:
    """Whether the truss itself lacks what holds it, and not only its carrier."""
    if tag in before.holds:
        return False
    return _needs_bracing(before, tag) or bool(loose_ends(before, tag)) or _apex_loose(before, tag)


def _needs_bracing(site: Site, tag: str) -> bool:
    return site.layout.by_tag[tag].kind in TIED


def _apex_loose(site: Site, tag: str) -> bool:
    return not loose_ends(site, tag) and not apex_tied(site, tag, site.holds)


def _is_saddle(site: Site, tag: str) -> bool:
    return site.layout.by_tag[tag].kind == "saddle"


def _blocked(site: Site, tag: str) -> bool:
    """Whether short blocks were put between a truss and another; on a gable truss packers carry its cladding."""
    gable = site.layout.by_tag[tag].kind == "gable"
    return not gable and any(part.part in SHORT_BLOCKS for part in site.fitted.get(tag, ()))


def _without_brace(before: Site, tag: str) -> str:
    """What is left to hold a truss whose brace came off, which is not enough."""
    if any(tag in tags for _piece, tags, _cause in leaning_one_way(before)):
        return _("under roof braces that all lean one way, once the brace was off")
    place = before.stood[tag].place
    hung = before.layout.carries[place] if place and before.layout.by_tag[place].is_dutch else ()
    if hung and all(other in before.at_place for other in hung):
        return _("with only a hip end at its lower part to hold it, once the brace was off")
    return _("with nothing to hold it once the brace was off")


def to_the_wall(site: Site, place: str) -> str:
    """What holds a truss at a higher wall."""
    return _("its top tied to wall {wall} before it is let go").format(wall=site.layout.at_wall[place])


def _found(before: Site, event: Event, tag: str) -> Found:
    place = before.stood[tag].place or tag
    braced = _needs_bracing(before, tag)
    if isinstance(event.action, Remove):
        got = _("with nothing to hold it once {other} was down").format(other=event.action.tag)
    elif isinstance(event.action, Unbrace):
        got = _without_brace(before, tag)
    elif isinstance(event.action, HandOver):
        got = _("at hand-over with nothing to hold it")
    elif braced and _blocked(before, tag):
        got = _("with only short blocks to hold it")
    elif braced and any(piece.kind == "prop" and tag in piece.tags for piece in before.bracing):
        got = _("with only a prop under it: that carries weight, and keeps no truss from tipping")
    else:
        got = _("with nothing to hold it")
    apex = _is_saddle(before, tag) and not loose_ends(before, tag)
    if place in before.layout.at_wall:
        want = to_the_wall(before, place)
    elif braced:
        want = _(
            "braced to something solid (a wall that is itself braced, the floor or the ground), "
            "or tied to a truss a bay away that is held"
        )
    elif apex:
        want = _("tied at its apex to the girder, or to the saddle before it")
    else:
        want = _("fixed at both ends")
    return Found(tag, got, want, f"{'tie' if needs_tie(before, tag) else 'fix'} {place}")


def needs_tie(site: Site, tag: str) -> bool:
    """Whether it is a tie that a loose truss lacks, or a brace, and not the fixing of its ends."""
    return _needs_bracing(site, tag) or (_is_saddle(site, tag) and not loose_ends(site, tag))
