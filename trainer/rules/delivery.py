"""What is wrong with a truss as it came."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.site import Flaw, Site


def flaws_of(site: Site, tag: str) -> Iterator[Flaw]:
    """Yield what is wrong with the standing truss ``tag``, whichever tag it wears, and was not put right."""
    return (flaw for flaw in site.flaws if flaw.tag == site.stood[tag].piece)
