"""Which gables are judged at hand-over for their framing: those that stand where they belong."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.order.verge import FRAMED
from trainer.rules.placement import in_wrong_place
from trainer.site import Site


def gables_asking(site: Site, part: str) -> Iterator[tuple[str, str, str]]:
    """Yield (place, truss in it, cause) of each gable that needs a part."""
    if "fix" not in site.job.stages:
        return
    number = FRAMED.index(part) + 1
    for place, asked in site.job.gable_frames:
        tag = site.at_place.get(place)
        if asked == number and tag is not None and not in_wrong_place(site, tag):
            yield place, tag, f"frame {place} {part}"
