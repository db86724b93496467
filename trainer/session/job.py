"""The job that a level sets."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from trainer.layout import Layout, lay_out
from trainer.level import Level
from trainer.order import needs_bracket
from trainer.read import Where, did_you_mean
from trainer.session.beams import at_a_post, beam_site_faults, on_a_beam
from trainer.site import LOOKED_AT, MEASURED, Conditions, Flaw, Job, Limits, uplift
from trainer.terms import Mode
from trainer.words import _, ngettext

NO_WALL = _("names a wall '{name}' that this house doesn't have; {guess}")
NO_TRUSS = _("names a truss '{name}' that this house doesn't have; {guess}")


def job_of(level: Level, seed: int, mode: Mode = "practice", layout: Layout | None = None) -> Job:
    """Return the job that ``level`` sets; ``layout`` saves working it out again.

    What the level says of walls and trusses that the house does not have is left out; see :func:`site_faults`.

    :raises LayoutRefused: where the level's house can't be laid out.
    """
    layout = layout or lay_out(level.house())
    near = level.tolerances
    limits = Limits(
        near.plumb.ratio,
        near.plumb.cap,
        near.bow.ratio,
        near.bow.cap,
        float(near.apex),
        float(near.plates),
        float(level.site.clear_of_lines),
    )
    return Job(
        layout,
        station_tolerance=float(near.station),
        stages=frozenset(level.lesson.stages),
        undo_allowed=mode == "practice",
        seed=seed,
        conditions=_conditions(level, layout, limits),
        advice=frozenset(level.order_advice),
        tie_down=level.tie_down,
        limits=limits,
        bracing=level.bracing.spec(),
        gable_framing=level.gable_framing,
    )


def site_faults(level: Level, layout: Layout) -> Iterator[tuple[Where, str]]:
    """Yield (path in the level file, what is wrong) for whatever of the site block isn't there, or can't be found."""
    walls = layout.house.plan.by_name
    for i, wall in enumerate(level.site.walls):
        if wall.wall not in walls:
            yield ("site", "walls", i, "wall"), _unknown(NO_WALL, wall.wall, walls)
        elif wall.fault == "ledger on brick veneer" and wall.wall not in layout.ledgers.values():
            text = _("wall {wall} has no ledger; name a wall of against: along which half trusses run up to it")
            yield ("site", "walls", i, "wall"), text.format(wall=wall.wall)
        elif wall.fault in MEASURED and walls[wall.wall].against:
            text = _("wall {wall} is the face of a higher wall and has no plate; give this fault to another wall")
            yield ("site", "walls", i, "wall"), text.format(wall=wall.wall)
    for i, truss in enumerate(level.site.delivery):
        for key, tag in (("truss", truss.truss), ("other", truss.other)):
            if tag is not None and tag not in layout.by_tag:
                yield ("site", "delivery", i, key), _unknown(NO_TRUSS, tag, layout.by_tag)
        if truss.other and _alike(layout, truss.truss, truss.other):
            yield ("site", "delivery", i), _("swaps the tags of two trusses that are the same piece; nobody could tell")
    yield from _no_such_danger(level, layout)
    yield from beam_site_faults(level, layout)
    yield from _not_packed(level, layout)
    yield from _never_found(level)
    yield from _weak_brackets(level, layout)


def _not_packed(level: Level, layout: Layout) -> Iterator[tuple[Where, str]]:
    """What is wrong with the level's own packs: a truss that isn't there, and those that lie in none."""
    for i, pack in enumerate(level.site.packs):
        for j, tag in enumerate(pack):
            if tag not in layout.by_tag:
                yield ("site", "packs", i, j), _unknown(NO_TRUSS, tag, layout.by_tag)
    named = {tag for pack in level.site.packs for tag in pack}
    if level.site.packs and (loose := [tag for tag in layout.by_tag if tag not in named]):
        yield (
            ("site", "packs"),
            _("leaves out {loose}; put each truss in a pack, also one that did not come").format(
                loose=", ".join(loose)
            ),
        )


def _no_such_danger(level: Level, layout: Layout) -> Iterator[tuple[Where, str]]:
    """Dangers on walls and trusses that the house does not have, or that come after the last truss is up."""
    walls, count = layout.house.plan.by_name, len(layout.members)
    for i, danger in enumerate(level.site.dangers):
        if danger.wall is not None and danger.wall not in walls:
            yield ("site", "dangers", i, "wall"), _unknown(NO_WALL, danger.wall, walls)
        if danger.tag is not None and danger.tag not in layout.by_tag:
            yield ("site", "dangers", i, "tag"), _unknown(NO_TRUSS, danger.tag, layout.by_tag)
        if danger.after is not None and danger.after >= count:
            text = ngettext(
                "comes after lift {after}; this house has {count} truss, so give a number below that",
                "comes after lift {after}; this house has {count} trusses, so give a number below that",
                count,
            )
            yield ("site", "dangers", i, "after"), text.format(after=danger.after, count=count)


def _never_found(level: Level) -> Iterator[tuple[Where, str]]:
    """Faults that no check of this level's own list would show."""
    found: list[tuple[Where, str]] = [(("site", "walls", i), wall.fault) for i, wall in enumerate(level.site.walls)]
    found += [(("site", "delivery", i), truss.fault) for i, truss in enumerate(level.site.delivery)]
    found += [(("site", "dangers", i), danger.what) for i, danger in enumerate(level.site.dangers)]
    for where, fault in found:
        items = LOOKED_AT.get(fault, ())
        if items and not set(items) & set(level.site.checks):
            text = _("has '{fault}', which nobody could find; add '{item}' to the checks")
            yield where, text.format(fault=fault, item=items[-1])


def _weak_brackets(level: Level, layout: Layout) -> Iterator[tuple[Where, str]]:
    """Kinds of bracket that hold less than the wind lifts where they are used; of each the worst place."""
    job = Job(layout, tie_down=level.tie_down)
    worst: dict[str, tuple[float, str]] = {}
    for member in layout.members:
        for end in (1, 2):
            if needs_bracket(member, end):
                part = member.ends[end - 1].fixing
                worst[part] = max(worst.get(part, (0.0, "")), (uplift(job, member.tag, end), member.tag))
    for part, (lift, tag) in worst.items():
        holds = level.tie_down.capacity.of(part)
        if holds < lift:
            text = _(
                "is {holds:g} kN, but the end of {tag} in its {part} is lifted by {lift:.1f} kN; give a stronger"
            ).format(holds=holds, tag=tag, part=part, lift=lift)
            yield ("tie_down", "capacity", part), text


def _alike(layout: Layout, tag: str, other: str) -> bool:
    pieces = [layout.by_tag[name].like for name in (tag, other) if name in layout.by_tag]
    return len(pieces) == 2 and pieces[0] == pieces[1]


def _conditions(level: Level, layout: Layout, limits: Limits) -> Conditions:
    """The site as found; on a level without the pre-start, what it would have found has been put right."""
    walls = (w for w in level.site.walls if w.wall in layout.house.plan.by_name)
    trusses = (
        t for t in level.site.delivery if t.truss in layout.by_tag and (t.other is None or t.other in layout.by_tag)
    )
    flaws = (
        *(Flaw(w.fault, wall=w.wall, by=float(w.by)) for w in walls),
        *(Flaw(t.fault, tag=t.truss, other=t.other or "") for t in trusses),
        *_dangers(level, layout),
    )
    stages = level.lesson.stages
    before, lifting = "pre-start" not in stages, "stand" in stages
    left = (flaw for flaw in dict.fromkeys(flaws) if (lifting if flaw.after else not (before and limits.matters(flaw))))
    site = level.site
    return Conditions(site.checks, tuple(left), site.wind, site.day, _packs(level, layout), site.lifting, site.loading)


def _dangers(level: Level, layout: Layout) -> Iterator[Flaw]:
    """The dangers of the day that this house can have; an unbraced wall is one like any other that is not braced."""
    for danger in level.site.dangers:
        wall, tag = danger.wall or "", danger.tag or ""
        if (wall and wall not in layout.house.plan.by_name) or (tag and tag not in layout.by_tag):
            continue
        if danger.after is not None and danger.after >= len(layout.members):
            continue
        if not (on_a_beam(danger, layout) and at_a_post(danger, layout)):
            continue
        if danger.what == "unbraced wall":
            yield Flaw("wall not braced", wall=wall)
            continue
        at = (float(danger.at[0]), float(danger.at[1])) if danger.at else None
        yield Flaw(danger.what, wall=wall, tag=tag, at=at, clear=float(danger.clear), after=danger.after or 0)


def _packs(level: Level, layout: Layout) -> tuple[tuple[str, ...], ...]:
    there = (tuple(tag for tag in pack if tag in layout.by_tag) for pack in level.site.packs)
    return tuple(pack for pack in there if pack)


def _unknown(text: str, name: str, known: Iterable[str]) -> str:
    return text.format(name=name, guess=did_you_mean(name, known) or _("see the layout"))
