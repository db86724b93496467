"""Words for what nobody could do."""

from __future__ import annotations

from collections.abc import Iterable

from trainer.read import did_you_mean
from trainer.site.model import Refused, Site
from trainer.words import _

FEW = 12
"""As many choices as are listed in a refusal."""


def unknown(what: str, word: str, known: Iterable[str]) -> Refused:
    """Say that there is no such thing, and which was perhaps meant."""
    choices = list(known)
    guess = did_you_mean(word, choices)
    text = _("There is no {what} '{word}' on this job.").format(what=what, word=word)
    if guess:
        advice = guess[0].upper() + guess[1:]
    elif len(choices) <= FEW:
        advice = _("Choose from: {choices}.").format(choices=", ".join(choices))
    else:
        advice = _("Read the tags on the layout.")
    return Refused(f"{text} {advice}")


def unknown_truss(site: Site, tag: str) -> Refused | None:
    """Refuse a tag that no truss of this house carries."""
    return None if tag in site.layout.by_tag else unknown(_("truss"), tag, site.layout.by_tag)


def not_standing(site: Site, tag: str) -> Refused | None:
    """Refuse a truss that is unknown or does not stand."""
    if tag in site.stood:
        return None
    return unknown_truss(site, tag) or Refused(_("{tag} is not standing. Stand it first.").format(tag=tag))


def past_the_end(where: str, at: float, length: float, beyond: float = 0.0) -> Refused | None:
    """Refuse a measure that is further than ``beyond`` mm past either end of a wall or truss."""
    if -beyond <= at <= length + beyond:
        return None
    text = _("That is {past:g} mm past the end of {where}, which is {length:g} mm long.")
    return Refused(text.format(past=max(-at, at - length), where=where, length=length))
