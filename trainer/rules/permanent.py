"""What rules of permanent bracing ask: which wants are left unserved, and what one fault of it comes of.

Any pieces that serve what a row needs are right, not those of the reference plan alone. A piece with a fault
of its own has that fault reported, and counts as there: what it crosses is not missed again.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from trainer.layout.bracing import Restraint, RestraintKind, Want
from trainer.plan.points import middle
from trainer.rules.placement import misplaced
from trainer.site import Event, Restrained, Site
from trainer.site.restraints import is_in, leans, leans_in, runs_of, unserved


@dataclass(frozen=True, slots=True)
class Unserved:
    """Trusses that lack bracing of one kind: ``piece`` is one of the plan that would serve them."""

    piece: Restraint
    wants: tuple[Want, ...]
    cause: str

    def tags(self, site: Site) -> list[str]:
        """The trusses, in order along their row."""
        return [site.at_place[want.tag] for want in self.wants]


def left_unserved(site: Site, kind: RestraintKind) -> Iterator[Unserved]:
    """Yield what is handed over without bracing of a kind, once for all pieces that serve the same wants."""
    if "brace" not in site.job.stages:
        return
    seen: set[str] = set()
    said: set[tuple[str, str, str]] = set()
    for piece in site.job.restraints:
        if piece.kind == kind and piece.group not in seen and (wants := unserved(site, piece, only_sound=False)):
            seen.add(piece.group)
            lacks = {(piece.row, piece.side, want.tag) for want in wants}
            if not lacks <= said:
                yield Unserved(piece, wants, cause_of_lack(site, piece, wants))
            said |= lacks


def leaning_one_way(site: Site) -> Iterator[tuple[Restraint, list[str], str]]:
    """Yield (piece of the plan, the trusses under it that stand, cause) for each slope that has braces one way only.

    A slope with a truss that no brace crosses is reported as that.
    """
    if "brace" not in site.job.stages:
        return
    missing = [lack.piece for lack in left_unserved(site, "roof brace")]
    seen: set[tuple[str, str]] = set()
    for piece in site.job.restraints:
        slope = (piece.row, piece.side)
        if piece.kind != "roof brace" or slope in seen or any((m.row, m.side) == slope for m in missing):
            continue
        own = set(leans(site.job.rows[piece.row], piece.start, piece.finish))
        tags = [site.at_place[want.tag] for want in piece.wants if want.tag in site.at_place]
        if tags and not own <= leans_in(site, piece.row, only_sound=False):
            seen.add(slope)
            yield piece, tags, f"restrain {piece.group}"


def cause_of_lack(site: Site, piece: Restraint, wants: tuple[Want, ...]) -> str:
    """Name what the lack of a piece comes of: where one like it misses only trusses out of place, the first."""
    alike = any((each.kind, each.row) == (piece.kind, piece.row) for each in site.permanent)
    out = [wrong.cause for want in wants if alike and (wrong := misplaced(site, site.at_place[want.tag]))]
    return out[0] if out and len(out) == len(wants) else f"restrain {piece.group}"


def lack_of_row(site: Site, row: str) -> str | None:
    """Name the first roof brace of the plan that a row still lacks, as what its trusses are loose for; none if none."""
    for piece in site.job.restraints:
        if (piece.kind, piece.row) == ("roof brace", row) and not is_in(site, piece):
            return cause_of_lack(site, piece, unserved(site, piece, only_sound=False))
    return None


def widest_gap(site: Site, kind: RestraintKind, want: Want) -> float:
    """Return the longest stretch of a truss's want that no piece of a kind serves, mm."""
    return want.widest_gap(runs_of(site, kind, site.at_place[want.tag]))


def put_in(event: Event, after: Site) -> Restrained | None:
    """Return the piece that was put in, if it was a roof brace."""
    piece = after.permanent[-1] if after.permanent else None
    return piece if piece and piece.kind == "roof brace" else None


def roof_braces(site: Site) -> Iterator[Restrained]:
    """Yield the roof braces that lie over standing trusses at hand-over, where bracing is judged."""
    if "brace" in site.job.stages:
        yield from (piece for piece in site.permanent if piece.kind == "roof brace" and piece.crosses)


def cause_of(site: Site, piece: Restrained) -> str:
    """Name what a fault of a piece comes of: the piece of the plan in whose stead it was put in, if any."""
    tags = {site.stood[tag].place for tag, _ in piece.crosses if tag in site.stood}
    alike = [plan for plan in site.job.restraints if (plan.kind, plan.row) == (piece.kind, piece.row)]
    best = max(alike, key=lambda plan: (len(tags & set(plan.over)), _near(plan, piece)), default=None)
    return f"restrain {best.group}" if best else ""


def _near(plan: Restraint, piece: Restrained) -> float:
    """How near a piece lies to one of the plan; the greater the nearer."""
    (x, y), (at_x, at_y) = middle(plan.start, plan.finish), middle(piece.start, piece.finish)
    return -abs(x - at_x) - abs(y - at_y)
