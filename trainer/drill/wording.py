"""How drills say which trusses and places they mean."""

from __future__ import annotations

from trainer.layout.model import Member
from trainer.site import Site, mark_wanted
from trainer.words import _, listed


def place_words(site: Site, member: Member) -> str:
    """Return where a truss goes, by the measure at each of its ends from a wall's first corner or a truss's end."""
    said = []
    for end in (1, 2):
        where, at = mark_wanted(site, member.tag, end)
        text = _("wall {name} at {at}") if member.ends[end - 1].on_plate else _("{name} at {at}")
        said.append(text.format(name=where, at=f"{at:g}"))
    return listed(said)
