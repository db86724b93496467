"""What the inspection of one truss should show: everything wrong with how it stands, each with its cause.

A fault that was told when it was made keeps its cause here, so that accepting it is marked with it as one.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from trainer.order import TIED
from trainer.rules.delivery import flaws_of
from trainer.rules.placement import misplaced
from trainer.rules.trueness import cause_of_untrue, in_words, out_of_true
from trainer.site import SPOILT, Site, end_fixed
from trainer.site.query import half_nailed
from trainer.words import _


@dataclass(frozen=True, slots=True)
class Wrong:
    """One thing wrong with a standing truss, in words, and the cause it came of."""

    text: str
    cause: str


def wrong_with(site: Site, tag: str) -> Iterator[Wrong]:
    """Yield what is wrong with the standing truss ``tag``, the heaviest first."""
    stood = site.stood[tag]
    if site.cuts.get(tag):
        yield Wrong(_("cut"), cause_of_cut(tag, 1))
    for flaw in (flaw for flaw in flaws_of(site, tag) if flaw.what in SPOILT):
        yield Wrong(flaw.what, f"flaw {flaw.what} {flaw.tag}")
    if out := misplaced(site, tag):
        yield Wrong(out.got, out.cause)
    elif stood.turned:
        yield Wrong(_("end for end"), cause_of_turn(site, tag))
    if stood.place and "fix" in site.job.stages:
        for end in (1, 2):
            if not end_fixed(site, stood.place, end):
                yield Wrong(_("loose at end {end}").format(end=stood.own_end(end)), f"fix {stood.place}")
                break
        for end, connector in half_nailed(site, tag):
            text = _("the {connector} at end {end} half nailed").format(connector=connector, end=end)
            yield Wrong(text, cause_of_half(site, tag))
    for untrue in out_of_true(site, tag):
        yield Wrong(in_words(untrue), cause_of_untrue(site, tag, untrue))


def tips(site: Site, tag: str) -> bool:
    """Whether plumb and bow are read of this truss."""
    return site.layout.by_tag[tag].kind in TIED


def cause_of_cut(tag: str, number: int) -> str:
    """Name the ``number``th cut in a truss, from 1."""
    return f"cut {tag} {number}"


def cause_of_half(site: Site, tag: str) -> str:
    """Name the nails left out at the ends of a truss."""
    return f"nails {site.stood[tag].place or tag}"


def cause_of_turn(site: Site, tag: str) -> str:
    """Name the standing of a truss that put it the wrong way round."""
    return f"turned {tag} {site.stood[tag].turn}"
