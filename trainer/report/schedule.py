"""What the sheets of a house list: its trusses piece by piece, its set-out wall by wall, its bracing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from trainer.layout import Layout, Member
from trainer.layout.bracing import Restraint, RestraintKind
from trainer.layout.marks import along_bearing, mark_run
from trainer.layout.webs import webs
from trainer.level import Level
from trainer.level.dangers import Lifting
from trainer.picture.measures import figure, post_runs
from trainer.picture.tags import number_of
from trainer.plan import hooked_at, taped
from trainer.site import Job, uplift, wanted
from trainer.site.lifting import mass
from trainer.terms import KIND_NAMES, thing
from trainer.words import _, ngettext

SCHEDULE_HEAD = (_("Trusses"), _("Kind"), _("How many"), _("Plies"), _("Span"), _("Height"), _("Tails"), _("kg each"))
SET_OUT_HEAD = (_("mm"), _("Truss"), _("Held down by"), _("kN"))
HUNG_HEAD = (_("mm"), _("Truss"), _("Hung in"))
SADDLE_HEAD = (_("Saddle"), _("One end"), _("Other end"), _("Over"))
BRACING_HEAD = (_("On the plan"), _("What"), _("Over which trusses"))
LETTERS: dict[RestraintKind, str] = {
    "roof brace": "RB", "bottom-chord tie": "BT", "web tie": "WT", "top-chord tie": "TT", "end brace": "EB",
}  # fmt: skip
"""What a piece of bracing is called on the plan, before its number."""


def schedule(layout: Layout, level: Level) -> list[tuple[str, ...]]:
    """Return a row for each design of truss: its tags, kind, number, plies, span, height, tails and mass."""
    density = (level.site.lifting or Lifting()).density
    designs: dict[object, list[Member]] = {}
    for member in layout.members:
        designs.setdefault((*member.like, member.span), []).append(member)
    rows: list[tuple[str, ...]] = []
    order = list(KIND_NAMES)
    for alike in sorted(designs.values(), key=lambda alike: order.index(alike[0].kind)):
        first = alike[0]
        frame = webs(first, layout.house)
        high = max(z for _run, z in frame.top) - frame.bottom
        tails = " / ".join(figure(end.tail) if end.tail else "–" for end in first.ends)
        rows.append(
            (
                in_runs([member.tag for member in alike]), KIND_NAMES[first.kind], str(len(alike)), str(first.plies),
                f"{first.span:.0f}", f"{high:.0f}", tails, f"{mass(first, layout.house, density):.0f}",
            )
        )  # fmt: skip
    return rows


def mass_rule(level: Level) -> str:
    """Say by which rule the masses are worked out."""
    density = (level.site.lifting or Lifting()).density
    text = _(
        "Mass: lengths of the chords and webs, by their depth, thickness and plies, at {density} kg/m³ with nailplates "
        "counted in. Height: from the underside of the bottom chord to the top. The fabricator's own sheet gives the "
        "real mass."
    )
    return text.format(density=density)


def in_runs(tags: Sequence[str]) -> str:
    """Return tags with those that follow each other as one run: ``ST1–ST4, ST7``."""
    ordered = sorted(tags, key=lambda tag: (tag.rstrip("0123456789"), number_of(tag)))
    found = []
    numbered = enumerate(ordered)
    for _key, group in groupby(numbered, key=lambda pair: (pair[1].rstrip("0123456789"), number_of(pair[1]) - pair[0])):
        run = [tag for _i, tag in group]
        found.append(run[0] if len(run) == 1 else f"{run[0]}, {run[1]}" if len(run) == 2 else f"{run[0]}–{run[-1]}")
    return ", ".join(found)


@dataclass(frozen=True, slots=True)
class SetOut:
    """What is marked along one wall or one carrier: its heading, what the columns are, and the rows."""

    name: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def set_out(job: Job) -> Iterator[SetOut]:
    """Yield the set-out, wall by wall as the tape shows it, then carrier by carrier from its first end."""
    layout, plan = job.layout, job.layout.house.plan
    found: dict[str, list[tuple[float, Member, int]]] = {}
    for member in layout.members:
        for number, end in enumerate(member.ends, 1):
            if end.wall or (end.bears_on in layout.by_tag and member.kind != "saddle"):
                on = along_bearing(layout, member, number)[0]
                found.setdefault(on, []).append((mark_run(layout, member, number), member, number))
    for wall in plan.walls:
        marks = sorted(
            ((taped(plan, wall, run), member, end) for run, member, end in found.pop(wall.name, [])),
            key=lambda mark: mark[0],
        )
        name = _("Wall {wall}, {kind}, {length} long, measured from {corner}").format(
            wall=wall.name, kind=_wall_kind(wall.gable, wall.against), length=figure(wall.length),
            corner=hooked_at(plan, wall),
        )  # fmt: skip
        for beam in plan.beams:
            if beam.wall == wall.name:
                low, high = sorted(taped(plan, wall, run) for run in (beam.low, beam.high))
                posts = sorted(taped(plan, wall, run) for run in post_runs(layout, beam))
                name += _("; beam from {low} to {high}, middles of posts at {posts}").format(
                    low=figure(low), high=figure(high), posts=", ".join(map(figure, posts))
                )
        yield SetOut(name, SET_OUT_HEAD, tuple(_on_wall(job, wall.length, *mark) for mark in marks))
    for tag, marks in found.items():
        carrier = layout.by_tag[tag]
        name = _("{kind} {tag}, from its end on {first}").format(
            kind=KIND_NAMES[carrier.kind], tag=tag, first=carrier.ends[0].bears_on
        )
        ordered = sorted(marks, key=lambda mark: mark[0])
        rows = ((figure(run), m.tag, thing(m.ends[end - 1].fixing)) for run, m, end in ordered)
        yield SetOut(name[:1].upper() + name[1:], HUNG_HEAD, tuple(rows))
    saddles = [member for member in layout.members if member.kind == "saddle"]
    if saddles:
        name = _("Saddles, in mm along each truss under them from its first end")
        yield SetOut(name, SADDLE_HEAD, tuple(_saddle(layout, member) for member in saddles))


def _saddle(layout: Layout, member: Member) -> tuple[str, ...]:
    """Return a saddle's row: the truss under each end and where along it, and what else it lies over."""
    ends = []
    for number, end in enumerate(member.ends, 1):
        at = _("{truss} at {mm}")
        known = end.wall or end.bears_on in layout.by_tag
        run = figure(mark_run(layout, member, number)) if known else ""
        ends.append(at.format(truss=end.bears_on, mm=run) if known else end.bears_on)
    under = {end.bears_on for end in member.ends}
    return member.tag, *ends, in_runs([tag for tag in member.carried_by if tag not in under]) or "–"


def _wall_kind(gable: bool, against: bool) -> str:
    return _("higher wall") if against else _("gable") if gable else _("eave")


def _on_wall(job: Job, length: float, run: float, member: Member, end: int) -> tuple[str, ...]:
    connector, count = wanted(job, member.tag, end)
    times = ngettext("{n} {connector}", "{n} × {connector}", count).format(n=count, connector=thing(connector))
    at = _("corner") if run in {0, length} else figure(run)
    if run > length:
        times += " " + _("({mm} past the corner)").format(mm=figure(run - length))
    elif run < 0:
        times += " " + _("({mm} before the corner)").format(mm=figure(-run))
    return at, member.tag, times, f"{uplift(job, member.tag, end):.1f}"


def bracing_rows(pieces: Sequence[Restraint]) -> list[tuple[str, ...]]:
    """Return a row for each piece of permanent bracing: what the plan calls it, what it is, and over which trusses."""
    return [(label(piece), thing(piece.kind), in_runs(piece.over)) for piece in pieces]


def label(piece: Restraint) -> str:
    """Return what the plan calls a piece of bracing: ``RB3``."""
    return f"{LETTERS[piece.kind]}{number_of(piece.name)}"
