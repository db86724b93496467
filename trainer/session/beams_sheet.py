"""What the job sheet says of verandah beams: where they run, where posts stand, and what each has to hold down."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.layout.posts import free_posts
from trainer.site import Job, post_uplift
from trainer.words import _


def beam_lines(job: Job) -> tuple[str, ...]:
    """Return the lines of the sheet; none for a house without beams."""
    return tuple(_lines(job)) if job.layout.house.plan.beams else ()


def _lines(job: Job) -> Iterator[str]:
    uplift = post_uplift(job)
    for beam in job.layout.house.plan.beams:
        long = _("Verandah beam on wall {wall}, from **{low}** to **{high}** mm.")
        yield long.format(wall=beam.wall, low=_mm(beam.low), high=_mm(beam.high))
        free = free_posts(job.layout, beam.wall)
        places = ", ".join(f"{_mm(post.run)} ({uplift[post]:.1f} kN)" for post in free)
        if places:
            text = _("Posts along wall {wall}, with the uplift that each holds down: {places}.")
            yield text.format(wall=beam.wall, places=places)
    yield _("Trusses bear on a beam as on a plate. Tie each one down to it.")
    yield _("Before you start, the beam is straight and bolted to its posts. Look, and report it if it is not.")
    yield _("Posts are braced both ways and tied to the ground. Their braces stay until the roof is braced.")
    yield _("Brace nothing to a beam. Never prop one in the middle.")


def _mm(length: float) -> str:
    return f"{length:.1f}".removesuffix(".0")
