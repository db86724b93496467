"""Taking out temporary bracing once what replaces it is in: braces to floor, walls and ground, and props.

Ties along the top chords stay until battens replace them. A row is held by its permanent bracing; a girder of an
opening is held once it is finished and its top chord is tied into the permanently braced row that it stands beside,
since what hangs on it holds only its bottom chord. All of it is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from trainer.order import TIED
from trainer.site.bracing import ALONG_TOPS, ties_of
from trainer.site.holding import held_by_hip_ends, held_from_scratch, holding, one_bay, tied_to
from trainer.site.load_path import joined, loose_ends, steadied
from trainer.site.model import Bracing, How, Site, changed
from trainer.site.query import beside
from trainer.words import _

IN_A_ROW = TIED - {"girder", "truncated_girder"}
"""Kinds of truss of which a row is made, one like the other."""
INSIDE = ("solid", "prop")
"""Kinds of brace that go down to the floor, a wall or the ground."""


def inside(site: Site) -> tuple[Bracing, ...]:
    """Return the braces that stand inside the house, in the order put in."""
    return tuple(piece for piece in site.bracing if piece.kind in INSIDE)


def needed_no_more(site: Site) -> tuple[Bracing, ...]:
    """Return the braces inside that could come out by now, if tops were tied to the trusses beside them first."""
    bare, held = without_braces(site), held_if_tied(site)
    return tuple(piece for piece in inside(site) if may_go(bare, piece, held))


def held_if_tied(site: Site) -> dict[str, How]:
    """Return what would be held with nothing inside, if the tops braced there were tied to the trusses beside them."""
    bare = without_braces(site)
    braced = {tag for piece in inside(site) for tag in piece.tags}
    return _tied_up(bare, held_from_scratch(bare, hip_ends=False), braced)


def ties_stripped(site: Site) -> Iterator[tuple[str, str]]:
    """Yield the pairs of trusses a bay apart whose tops were taken apart again, where one of the two is tied no more.

    A top still tied to the truss on its other side is straight enough: a right attempt ties no more. What others had
    to put back braced is not stripped: that was found, and is whole again.
    """
    for one, other in sorted(site.untied):
        if one not in site.stood or other not in site.stood or other in site.ties.get(one, ()):
            continue
        if _top_tied(site, one) and _top_tied(site, other):
            continue
        if "put right" not in (site.holds.get(one), site.holds.get(other)) and one_bay(site, one, other):
            yield one, other


def tops_untied(site: Site) -> Iterator[str]:
    """Yield the trusses of a row whose top no tie runs along from one a bay away, though one of the row stands there.

    A higher wall, a hip end's extensions that are all fixed over it, or a brace of its own that was left in hold a top
    as well. What others had to put back braced was found, and is whole again.
    """
    if "brace" not in site.job.stages:
        return
    along = ties_of(piece for piece in site.bracing if piece.kind in ALONG_TOPS)
    as_well = {tag for tag, how in site.holds.items() if how in ("given", "put right")}
    as_well.update(held_by_hip_ends(site), *(piece.tags for piece in site.bracing if piece.solid))
    for tag, stood in site.stood.items():
        if site.layout.by_tag[tag].kind not in IN_A_ROW or tag in as_well or stood.place in site.layout.at_wall:
            continue
        if beside(site, tag) and not any(one_bay(site, tag, other) for other in along.get(tag, ())):
            yield tag


def _top_tied(site: Site, tag: str) -> bool:
    return any(one_bay(site, tag, other) for other in site.ties.get(tag, ()))


class Lack(NamedTuple):
    """Something that a girder still lacks: in words, and by the step that was left undone, ``verb tag``."""

    what: str
    undone: str


def missing_for_girder(site: Site, tag: str) -> list[Lack]:
    """Say what a girder still lacks to be held without its brace; of any other truss nothing.

    One over an opening has its top tied into the row beside it; a dutch gable's may be held by its finished hip end.
    A bracket whose truss is still to come takes nothing from what holds it, though the brace is best left until then.
    """
    return [lack for lack in lacks_of_girder(site, tag) if not lack.undone.startswith("stand ")]


def lacks_of_girder(site: Site, tag: str) -> list[Lack]:
    """Say what a girder still lacks, trusses that are still to hang on it too."""
    place = site.stood[tag].place
    if place is None or site.layout.by_tag[place].kind != "girder" or "brace" not in site.job.stages:
        return []
    lacks = _unfinished(site, place)
    tied = any(other in site.restrained and one_bay(site, tag, other) for other in site.ties.get(tag, ()))
    if not tied and tag not in held_by_hip_ends(site, place):
        lacks.append(Lack(_("its top tied into the permanently braced row beside it"), f"tie {tag}"))
    return lacks


def without_braces(site: Site) -> Site:
    """Return the site as it would be with nothing inside to brace or prop it, nor others to hold anything."""
    left = tuple(piece for piece in site.bracing if piece.kind not in INSIDE)
    return changed(site, bracing=left, ties=ties_of(left), holds={})


def _unfinished(site: Site, place: str) -> list[Lack]:
    lacks = []
    if "fix" in site.job.stages and not joined(site, place):
        lacks.append(Lack(_("its plies joined"), f"join {place}"))
    if loose_ends(site, site.at_place[place]):
        lacks.append(Lack(_("both its ends fixed"), f"fix {place}"))
    hung = [other for other in site.layout.carries[place] if site.layout.by_tag[other].kind != "saddle"]
    loose = (other for other in hung if other in site.at_place and loose_ends(site, site.at_place[other]))
    undone = [*(f"fix {other}" for other in loose), *(f"stand {other}" for other in hung if other not in site.at_place)]
    return [*lacks, Lack(_("its brackets filled"), undone[0])] if undone else lacks


def may_go(bare: Site, piece: Bracing, held: Mapping[str, How]) -> bool:
    """Whether a brace may come out where ``held`` are the trusses held without any of them."""
    if piece.kind == "prop":
        places = (bare.stood[tag].place for tag in piece.tags)
        return all(place is None or steadied(bare, place) for place in places)
    return all(tag in held and not _girder_unfinished(bare, tag) for tag in piece.tags)


def _girder_unfinished(site: Site, tag: str) -> bool:
    """Whether a girder of an opening lacks anything but the tie to a row beside it; a stub wing has no such row."""
    place = site.stood[tag].place
    if place is None or site.layout.by_tag[place].kind != "girder":
        return False
    return bool(_unfinished(site, place)) or not any(other in site.restrained for other in beside(site, tag))


def _tied_up(bare: Site, held: dict[str, How], tags: set[str]) -> dict[str, How]:
    """What would be held if the tops of ``tags`` were tied to every truss beside them."""
    ties = dict(bare.ties)
    for tag, other in _could_tie(bare, held, tags):
        ties[tag] = (*ties.get(tag, ()), other)
        ties[other] = (*ties.get(other, ()), tag)
    tied = changed(bare, ties=ties, holds=held)
    newly = dict(pair for tag in held for pair in tied_to(tied, tag, held))
    return holding(tied, newly)


def _could_tie(bare: Site, held: Mapping[str, How], tags: set[str]) -> Iterator[tuple[str, str]]:
    for tag in tags:
        if tag not in held and bare.layout.by_tag[tag].kind in (*TIED, "saddle"):
            yield from ((tag, other) for other in beside(bare, tag))
