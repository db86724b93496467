"""Makes the film of a house: a right order that is easy to follow, played on the site, cut into shots."""

from __future__ import annotations

from trainer.film.course import Course
from trainer.film.ideas import BY_KEY, captions, parts
from trainer.film.model import Film, Shot, Stop
from trainer.film.stops import stops
from trainer.layout import Layout
from trainer.level import Level
from trainer.rehearse.playing import play
from trainer.rehearse.sequence import tidy_sequence
from trainer.session import job_of
from trainer.site import Site, start


def film_of(level: Level, seed: int, layout: Layout | None = None, *, idea: str = "") -> Film:
    """Return the film of a level's house; ``seed`` chooses where it begins, and mixes the answers of its stops.

    ``layout`` saves working it out again. An ``idea`` that is named is a part of it, however many others there are.

    :raises LayoutRefused: where the level's house can't be laid out.
    """
    job = job_of(level, seed, layout=layout)
    played = play(start(job), tidy_sequence(job.layout, job.order, seed), seed)
    sites = [played.site]
    while (before := sites[-1].before) is not None:
        sites.append(before)
    course = Course(
        job.layout, job.order, seed, tuple(played.steps), tuple(played.actions), _as_many(sites, len(played.steps))
    )
    starts = course.starts
    shots = tuple(
        Shot(step, action, starts[n], starts[n + 1] - starts[n])
        for n, (step, action) in enumerate(zip(course.steps, course.actions, strict=True))
    )
    told = captions(course, idea)

    def wanted(stop: Stop) -> bool:
        """Whether a stop asks about the idea: at a step of it, or why that step waits for another."""
        about, at = BY_KEY[idea].about, course.steps[starts.index(stop.at_ms)]
        return about(course, at) or (stop.waits is not None and about(course, stop.waits))

    asked = stops(course, wanted) if idea in BY_KEY else stops(course)
    near = frozenset(stop.at_ms for stop in asked if wanted(stop)) if idea in BY_KEY else frozenset()
    return Film(level.id, level.title, seed, shots, course.sites, told, asked, parts(course, told, idea, near))


def _as_many(sites: list[Site], steps: int) -> tuple[Site, ...]:
    """Return the sites in the order of the film; there is one more than steps."""
    assert len(sites) == steps + 1, "each step of a right order leaves one site behind it"
    return tuple(reversed(sites))
