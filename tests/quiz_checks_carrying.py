"""A second opinion on the questions about what carries what, loads and limits."""

from __future__ import annotations

import math
import re

from quiz_reading import (
    KINDS,
    NEAR,
    agrees,
    check,
    hangs_on,
    letters,
    line,
    numbers,
    outline,
    right,
    tags,
    wall_ends,
    walls_in,
    whole_line,
    wrong,
)
from shapely import LineString, Point

from trainer.layout.as_json import layout_json
from trainer.layout.model import Member
from trainer.quiz.question import Asked, Pairs
from trainer.quiz.worked import Subject

# what carries what


@check("who-carries")
def _(q: Asked, s: Subject) -> None:
    truss = tags(q.text)[0]
    (carrier,) = tags(right(q)[0])
    assert carrier in hangs_on(s, truss)
    assert not {tags(choice)[0] for choice in wrong(q)} & hangs_on(s, truss)


@check("what-hangs")
def _(q: Asked, s: Subject) -> None:
    (girder,) = tags(q.text)
    assert all(girder in hangs_on(s, tag) for tag in right(q))
    assert not any(girder in hangs_on(s, tag) for tag in wrong(q))


@check("match-carriers")
def _(q: Asked, s: Subject) -> None:
    assert isinstance(q.task, Pairs)
    for left, i in zip(q.task.left, q.task.right, strict=True):
        assert tags(q.task.others[i])[0] in hangs_on(s, tags(left)[0])


@check("count-of-kind")
def _(q: Asked, s: Subject) -> None:
    kind = re.search(r"How many (.+?)(?:es|s) has", q.text)[1].removesuffix("e")  # type: ignore[index]
    ours = [m for m in s.layout.members if KINDS[letters(m.tag)] in (kind, kind + "e")]
    agrees(q, len(ours))


@check("delivery-short")
def _(q: Asked, s: Subject) -> None:
    packs = {name: int(n) for n, name in re.findall(r"(\d+) ([a-z ]+?(?:truss|girder))(?:es|s)?\b", q.text)}
    plan = {name: sum(KINDS[letters(m.tag)] == name for m in s.layout.members) for name in packs}
    short = [name for name in packs if packs[name] < plan[name]]
    assert short == right(q)
    assert all(packs[name] == plan[name] for name in packs if name not in short)


def _has_eave(s: Subject, member: Member, end: int) -> bool:
    """Whether just past an end, along the truss, it is outdoors."""
    at, other = (member.start, member.finish) if end == 1 else (member.finish, member.start)
    length = math.dist(at, other)
    beyond = Point(at[0] + (at[0] - other[0]) / length * 5, at[1] + (at[1] - other[1]) / length * 5)
    on_wall = outline(s).exterior.distance(Point(at)) < NEAR
    # Hard against the end of an opening's girder there is another wall's face, and no room for a tail.
    girders = [g for g in s.layout.members if g.kind == "girder"]
    if any(math.dist(at, e.at) <= g.width + member.width for g in girders if g is not member for e in g.ends):
        return False
    return on_wall and not outline(s).buffer(0.01).covers(beyond)


@check("one-tail-only")
def _(q: Asked, s: Subject) -> None:
    for tag in right(q):
        member = s.layout.by_tag[tag]
        assert not all(_has_eave(s, member, end) for end in (1, 2)) or s.level.roof.overhang == 0, (q.text, tag)
    for tag in wrong(q):
        assert all(_has_eave(s, s.layout.by_tag[tag], end) for end in (1, 2)), (q.text, tag)


@check("which-way-round")
def _(q: Asked, s: Subject) -> None:
    member = s.layout.by_tag[tags(q.text)[0]]
    (end,) = [end for end in (1, 2) if member.ends[end - 1].tail > 0]
    (told,) = walls_in(right(q)[0])
    a, b = wall_ends(s, told)
    at = member.start if end == 1 else member.finish
    assert LineString([a, b]).distance(Point(at)) < NEAR
    assert _has_eave(s, member, end)


@check("extension-over")
def _(q: Asked, s: Subject) -> None:
    (tag,) = tags(q.text)
    member = s.layout.by_tag[tag]
    ux, uy = member.direction
    run = member.top[-1][0]
    stop = (member.start[0] + ux * run, member.start[1] + uy * run)
    extension = LineString([member.finish, stop])
    for other in right(q):
        # "Fixed there to each other and to the next full-height truss": at the apex that one may stand a little on.
        near = s.level.trusses.spacing if letters(other) in ("ST", "HF") else 0.6
        assert whole_line(s, other).distance(extension) <= near, (q.text, other)
    for other in wrong(q):
        met = whole_line(s, other).distance(extension) < 0.6 and line(s, other).distance(Point(member.finish)) > 1
        # At the apex several meet: there it is fixed to the next full-height truss, and told by that one.
        assert not met or Point(stop).distance(line(s, other)) < 0.6, (q.text, other)


@check("which-bracket")
def _(q: Asked, s: Subject) -> None:
    truss = tags(q.text)[0]
    on_ledger = "on the ledger" in q.text
    on_wall = "on wall" in q.text and not on_ledger
    schedule = s.level.fixings.model_dump()
    kind = KINDS[letters(truss)].removesuffix(" truss").replace(" ", "_")
    hung = "hung_girder" if letters(truss) in ("G", "TG") else "hung"
    assert right(q) == [schedule[kind if on_wall else hung]]
    if not (on_wall or on_ledger):
        assert tags(q.text)[1] in hangs_on(s, truss)


# loads and limits


@check("roof-on-bearing")
def _(q: Asked, s: Subject) -> None:
    (truss,) = tags(q.text)
    span, tail, width = numbers(q.text.replace("m²", ""))
    assert abs(line(s, truss).length - span) < 0.051 and tail == s.level.roof.overhang
    agrees(q, (span / 2 + tail) * width / 1e6, 0.006)
    # Brute force over the plan: of fine points across half a truss, how wide a strip is nearest to this one?
    member, (a, b) = s.layout.by_tag[truss], line(s, truss).coords
    middle = ((a[0] + b[0]) / 2 * 0.4 + a[0] * 0.6, (a[1] + b[1]) / 2 * 0.4 + a[1] * 0.6)
    px, py = -member.direction[1], member.direction[0]
    row = [line(s, tag) for tag in s.layout.rows[member.row] if tag != truss]
    steps = [k * 5.0 for k in range(-260, 261)]
    near = sum(
        all(line(s, truss).distance(p) <= other.distance(p) for other in row)
        for p in (Point(middle[0] + px * t, middle[1] + py * t) for t in steps)
    )
    assert abs(near * 5.0 - width) <= 10


@check("uplift-at-bearing")
def _(q: Asked, s: Subject) -> None:
    area, pressure, *_one = numbers(q.text.replace("m²", ""))
    tie_down = s.level.tie_down
    (wall,) = re.findall(r"on wall ([A-Z]+)", q.text)
    on = s.level.beams.get(wall, (0, 0)) or (0, math.inf)
    where = s.layout.house.plan.by_name[wall]
    (end,) = (e for e in s.layout.by_tag[tags(q.text)[0]].ends if e.bears_on == f"plate {wall}")
    over = on[0] <= math.dist(where.a, end.at) <= on[1] and wall in s.level.beams
    assert pressure == (tie_down.pressure_over_beams if over else tie_down.net_pressure)
    agrees(q, area * pressure, 0.006)


@check("post-bays")
def _(q: Asked, s: Subject) -> None:
    low, high, widest = numbers(re.sub(r"wall [A-Z]+", "", q.text))
    assert widest == 3600  # the trade brief
    wall = re.findall(r"on wall ([A-Z]+)", q.text)[0]
    start, along = s.layout.house.plan.by_name[wall].a, s.layout.house.plan.by_name[wall].along
    on = s.level.beams[wall] or (0, s.layout.house.plan.by_name[wall].length)
    girders = [
        (e.at[0] - start[0]) * along[0] + (e.at[1] - start[1]) * along[1]
        for m in s.layout.members
        if letters(m.tag) in ("G", "TG")
        for e in m.ends
        if e.bears_on == f"plate {wall}"
    ]
    near = 150  # two girders as near to each other share a post
    stands = {*on, *(run for run in girders if on[0] < run < on[1])}
    assert {low, high} <= stands and not any(low + near < run < high - near for run in stands)
    agrees(q, next((high - low) / n for n in range(1, 99) if (high - low) / n <= widest), 1)


@check("uplift-at-post")
def _(q: Asked, s: Subject) -> None:
    run, area, closed, over = numbers(re.sub(r"wall [A-Z]+", "", q.text.replace("m²", "")))
    tie_down = s.level.tie_down
    assert (closed, over) == (tie_down.net_pressure, tie_down.open_net_pressure)
    agrees(q, area * over, 0.006)
    # The roof at all posts of the beam together is what the trusses set down on it.
    wall = re.findall(r"on wall ([A-Z]+)", q.text)[0]
    (beam,) = (b for b in layout_json(s.level.id, s.layout)["beams"] if b["wall"] == wall)
    ends = {(each["tag"], each["end"]) for each in beam["carries"]}
    borne = sum(s.load[tag].ends_m2[end - 1] for tag, end in ends)
    assert abs(sum(post["reaches_m2"] for post in beam["posts"]) - borne) < 1e-6
    assert any(abs(post["run"] - run) < 1 and abs(post["reaches_m2"] - area) < 0.051 for post in beam["posts"])


@check("which-holds")
def _(q: Asked, s: Subject) -> None:
    uplift, light, heavy = numbers(q.text)
    assert (light, heavy) == (s.level.tie_down.capacity.framing_anchor, s.level.tie_down.capacity.tie_down_strap)
    (told,) = right(q)
    want = "framing anchor" if uplift <= light else "tie-down strap" if uplift <= heavy else "neither"
    assert want in told


@check("plumb-limit")
@check("bow-limit")
def _(q: Asked, s: Subject) -> None:
    (truss,) = tags(q.text)
    size, ratio, cap = numbers(q.text)
    limits = s.level.tolerances
    own = limits.plumb if "lean" in q.text else limits.bow
    assert (ratio, cap) == (own.ratio, own.cap)
    if "lean" not in q.text:
        assert abs(line(s, truss).length - size) <= 0.5
    # The trade brief: the lesser of height/50 and 50, of length/200 and 50, or the level's own.
    agrees(q, size / ratio if size / ratio < cap else cap)


@check("tie-rows")
def _(q: Asked, s: Subject) -> None:
    span, gap = numbers(q.text)
    assert span in {wing.span for wing in s.layout.wings}
    agrees(q, next(rows for rows in range(99) if span / (rows + 1) <= gap + 1e-6))


@check("brace-angle")
def _(q: Asked, s: Subject) -> None:
    across, spacing, least, most = numbers(q.text)
    limits = s.level.bracing.steel_brace_angle
    assert (spacing, least, most) == (s.level.trusses.spacing, limits.least, limits.most)

    def angle(choice: str) -> float:
        return math.degrees(math.atan(numbers(choice)[0] * spacing / across))

    assert least <= angle(right(q)[0]) <= most
    assert all(not least <= angle(choice) <= most for choice in wrong(q))
