"""Attempts for tests: levels of the shop and of the cases, and what is found when actions are done on them."""

from collections.abc import Collection
from dataclasses import replace
from functools import cache
from pathlib import Path

from trainer.layout import Layout, lay_out
from trainer.layout.marks import centre_run
from trainer.level import Level, parse_level
from trainer.rehearse import rehearse
from trainer.rules.inspected import wrong_with
from trainer.session import Session
from trainer.shipped import find_level, level_paths, style_texts
from trainer.site import AnyAction, Brace, Diary, Fit, Fix, Flaw, Stand, next_out, start
from trainer.site.actions import Inspect, Measure, Plumb

CASES = Path(__file__).parent / "cases"
LEVELS = tuple(path.stem for path in level_paths())
"""Every shipped level."""
SHIPPED = (
    *("pardalote", "fantail", "wagtail", "wren", "lapwing", "lorikeet"),
    *("swallow", "currawong", "bowerbird", "heron", "kookaburra", "robin"),
)
"""Shipped levels of every kind, for what takes long: one with a beam on posts, one along a higher wall, and one with a
staggered front among them.
"""


@cache
def level_of(name: str) -> Level:
    """A level of the cases, or else a shipped one."""
    path = CASES / "levels" / f"{name}.yaml"
    path = path if path.exists() else find_level(name)
    return parse_level(path.read_bytes(), path.name, style_texts(path))


@cache
def layout_of(name: str) -> Layout:
    return lay_out(level_of(name).house())


@cache
def right(name: str, seed: int) -> tuple[AnyAction, ...]:
    """The actions of a right diary, drawn once."""
    return rehearse(level_of(name), seed, layout=layout_of(name)).actions


def attempt(
    name: str, actions: tuple[AnyAction, ...] | list[AnyAction], flaws: tuple[Flaw, ...] = (), seed: int = 0
) -> Session:
    """Do ``actions`` on a level, one after another; ``flaws`` are what its site is found with."""
    session = Session(level_of(name), seed, layout=layout_of(name))
    if flaws:
        session.job = replace(session.job, conditions=replace(session.job.conditions, flaws=flaws))
        session._site = start(session.job)
    return session.replay(actions)


def actions_of(entries: list[dict[str, object]]) -> tuple[AnyAction, ...]:
    """Actions as a diary writes them."""
    return Diary(level="case", actions=entries).actions


def set_up(layout: Layout, tag: str, standing: Collection[str] = (), count: int = 1) -> list[AnyAction]:
    """All that one truss takes, done right: brackets, plies, what lies under a saddle, standing, a solid brace and
    plumbing where it tips, ``count`` fixings an end; and as many at the crossings with those that are ``standing``.
    """
    member = layout.by_tag[tag]
    actions: list[AnyAction] = [Fit(part="plies joined", on=tag)] if member.plies > 1 else []
    actions += [Fit(part="batten", on=tag)] if member.kind == "saddle" else []
    actions += [Fit(part=part.part, on=tag) for part in layout.parts if (part.part, part.on) == ("waling plate", tag)]
    for number, end in enumerate(member.ends, 1):
        if end.on_ledger:
            actions.append(Fit(part=end.fixing, on=end.bears_on, at=centre_run(layout, member, number)))
        if end.bears_on in layout.by_tag and member.kind != "saddle":
            carrier = layout.by_tag[end.bears_on]
            (x, y), (ux, uy) = carrier.start, carrier.direction
            at = round(((end.at[0] - x) * ux + (end.at[1] - y) * uy) * 2) / 2
            actions.append(Fit(part=end.fixing, on=carrier.tag, at=at))
    actions.append(Stand(tag=tag, start=member.start, finish=member.finish))
    if member.kind in ("standard", "girder", "truncated_girder", "truncated", "gable", "half"):
        actions += [Brace(kind="wall tie" if tag in layout.at_wall else "solid", tags=(tag,)), Plumb(tag=tag)]
    actions += [Fix(tag=tag, end=i, with_=end.fixing, count=count) for i, end in enumerate(member.ends, 1)]
    for crossing in layout.crossings:
        both = {crossing.over, crossing.under}
        if crossing.what == "extension" and tag in both and both - {tag} <= set(standing):
            actions.append(Fix(tag=crossing.over, at=crossing.at, with_="framing anchor", count=count))
    return actions


def inspection(name: str, actions: list[AnyAction], flaws: tuple[Flaw, ...] = ()) -> list[AnyAction]:
    """The inspection of what ``actions`` have stood on a level: plumb and bow measured, and a right verdict on each."""
    site = attempt(name, actions, flaws).site
    done: list[AnyAction] = []
    for step in site.job.order.steps:
        if step.verb == "inspect" and step.tag in site.stood:
            done += [Measure(what="plumb", tag=step.tag), Measure(what="bow", tag=step.tag)]
            done.append(Inspect(tag=step.tag, accept=not any(wrong_with(site, step.tag))))
    return done


def struck(name: str, actions: list[AnyAction], flaws: tuple[Flaw, ...] = ()) -> list[AnyAction]:
    """What takes out the braces that are needed no more once ``actions`` are done on a level, and ties bare tops."""
    session = attempt(name, actions, flaws)
    done: list[AnyAction] = []
    while out := next_out(session.site):
        session.do(out)
        done.append(out)
    return done
