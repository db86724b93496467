"""Mistakes at a higher wall: a top that is tied to another truss, or braced, but not tied to the wall."""

from __future__ import annotations

from trainer.chance import shuffled
from trainer.rehearse.mistakes.planting import Planted, Plantings, RightAttempt, needs
from trainer.site import Brace, HandOver, Job, Stand, held
from trainer.site.query import beside
from trainer.words import _


@needs(_("a truss that stands at a higher wall"))
def wall_tie_missing(job: Job, seed: int) -> Plantings:
    """The top of a truss is tied to the truss beside it, or braced where none stands there, and not to the wall."""
    attempt = RightAttempt.drawn(job, seed)
    ties = [i for i, a in enumerate(attempt.actions) if isinstance(a, Brace) and a.kind == "wall tie"]
    for i in shuffled(ties, seed, "wall tie"):
        tag, site = attempt.steps[i].tag, attempt.sites[i]
        near = [other for other in beside(site, tag) if held(site, other)]
        after = (n for n, a in enumerate(attempt.actions) if n > i and isinstance(a, Stand | HandOver))
        if (event := next(after, None)) is not None:
            batten = [Brace(kind="batten", tags=(tag, other), every=job.bracing.batten_rows) for other in near[:1]]
            instead = batten or [Brace(kind="solid", tags=(tag,))]
            yield Planted([*attempt.actions[:i], *instead, *attempt.actions[i + 1 :]], tag, event)
