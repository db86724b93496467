"""A second opinion on the questions about the site: checks, walls, the load, and what makes a roof one piece."""

from __future__ import annotations

import math
import re

from quiz_reading import NEAR, TAG, agrees, answer, check, numbers, right, tags, taped_ends, wrong
from shapely import LineString, Point

from trainer.layout.model import Member
from trainer.quiz.question import Asked, InOrder, Pairs, SpotFault
from trainer.quiz.worked import Subject


def line(member: Member) -> LineString:
    return LineString((member.start, member.finish))


def whole_line(member: Member) -> LineString:
    """From its plate end to the end of its extension, level, as its top tells it."""
    (ax, ay), (bx, by) = member.start, member.finish
    length = math.dist(member.start, member.finish)
    reach = max(length, member.top[-1][0])
    return LineString((member.start, (ax + (bx - ax) / length * reach, ay + (by - ay) / length * reach)))


@check("before-the-first-lift")
def _(q: Asked, s: Subject) -> None:
    assert set(right(q)) <= set(s.level.site.checks)
    assert not set(wrong(q)) & set(s.level.site.checks)


@check("plate-reading")
def _(q: Asked, s: Subject) -> None:
    got, limit = numbers(re.sub(r"wall [A-Z]+", "", q.text, flags=re.IGNORECASE))
    assert limit == s.level.tolerances.plates
    assert right(q)[0].startswith("Go on: it is near enough" if got <= limit else "Report it")


@check("adding-up")
def _(q: Asked, s: Subject) -> None:
    each, bays = numbers(q.text)
    agrees(q, sum(each for _bay in range(int(bays))))
    wall = next(w for w in s.layout.house.plan.walls if f"wall {w.name} " in q.text)
    bearing = LineString((wall.a, wall.b))
    standing = [
        m for m in s.layout.members if m.kind != "hip" and any(bearing.distance(Point(e.at)) < 1 for e in m.ends)
    ]
    assert len(standing) >= bays


@check("studs-under")
def _(q: Asked, s: Subject) -> None:
    (tag,) = set(tags(q.text))
    name = re.search(r"wall ([A-Z]+)", q.text)
    assert name is not None
    wall = s.layout.house.plan.by_name[name[1]]
    met = line(s.layout.by_tag[tag]).intersection(LineString((wall.a, wall.b)).buffer(1)).centroid
    along = math.dist(taped_ends(s, wall.name)[0], (met.x, met.y))
    # A level may mark to a face: half a girder's width from its middle.
    assert abs(answer(q) - along) <= s.layout.by_tag[tag].width / 2 + NEAR
    assert s.layout.by_tag[tag].kind in ("girder", "truncated_girder")


SEEN = {
    "in no pack": "missing truss", "cracked through": "broken web", "has lifted off": "loose nailplate",
    "sways": "wall not braced", "A pack lies": "pack landed badly", "on the end that hangs": "unwanted tail",
    "lie in a bag": "loose brackets",
}  # fmt: skip


@check("name-the-fault")
def _(q: Asked, s: Subject) -> None:
    assert isinstance(q.task, Pairs)
    for left, at in zip(q.task.left, q.task.right, strict=True):
        assert q.task.others[at] == next(word for seen, word in SEEN.items() if seen in left)
        for tag in re.findall(TAG, left):
            member = s.layout.by_tag[tag]
            if "on the end that hangs" in left:
                assert any(end.bears_on in s.layout.by_tag or end.on_ledger for end in member.ends)
            if "Hangers" in left:
                assert any(end.bears_on == tag for m in s.layout.members for end in m.ends)


@check("tops-along-a-string")
def _(q: Asked, s: Subject) -> None:
    assert isinstance(q.task, SpotFault)
    limit = numbers(q.text)[0]
    assert limit == s.level.tolerances.apex
    out = [i for i, told in enumerate(q.task.lines) if numbers(told)[0] > limit]
    assert out == [q.task.right]
    first, last, *_rest = tags(q.text)
    ridge = LineString((line(s.layout.by_tag[first]).centroid, line(s.layout.by_tag[last]).centroid))
    for told in q.task.lines:
        (tag,) = tags(told)
        assert s.layout.by_tag[tag].kind == "standard"
        assert ridge.distance(line(s.layout.by_tag[tag])) < 1, "the string passes over it"


@check("crossings-to-fix")
def _(q: Asked, s: Subject) -> None:
    (tag,) = set(tags(q.text))
    member = s.layout.by_tag[tag]
    whole = whole_line(member)
    beyond = LineString((member.finish, whole.coords[-1]))
    assert beyond.length > 1
    met = {
        m.tag for m in s.layout.members
        if m.wing == member.wing and (m.kind in ("truncated", "standard", "half") or m.is_dutch)
        and line(m).distance(beyond) < 1
    }  # fmt: skip
    tip = Point(whole.coords[-1])
    at_tip = any(line(s.layout.by_tag[t]).distance(tip) < 1 for t in met)
    on_hip = any(
        m.kind == "hip" and m.wing == member.wing and whole_line(m).distance(tip) < 1 for m in s.layout.members
    )
    # A hip ends at the apex, where the next full-height truss may stand a little further on, if the wing has one.
    wing = next(w for w in s.layout.wings if w.id == member.wing)
    across = 1 if wing.axis == "x" else 0
    middle = (wing.rect[across] + wing.rect[2 + across]) / 2
    for half in (m for m in s.layout.members if m.kind == "half" and m.wing == member.wing):
        middle = half.finish[across]  # its ridge runs along the higher wall
    full = any(m.full_height and m.wing == member.wing for m in s.layout.members)
    on_middle = abs((tip.x, tip.y)[across] - middle) < 1
    agrees(q, len(met) + (not at_tip and (full if on_middle else member.kind == "jack" and on_hip)))


@check("girder-comes-first")
def _(q: Asked, s: Subject) -> None:
    assert isinstance(q.task, InOrder)
    girder, carried = tags(q.text)
    assert s.layout.by_tag[girder].plies == s.level.trusses.girder_plies > 1
    assert any(end.bears_on == girder for end in s.layout.by_tag[carried].ends)
    words = [q.task.steps[i].split()[0] for i in q.task.right]
    assert words == ["Join", "Stand", "Brace", "Set", "Fasten"]


@check("tied-under-saddles")
def _(q: Asked, s: Subject) -> None:
    (tag,) = set(tags(q.text))
    under = whole_line(s.layout.by_tag[tag])
    agrees(q, sum(m.kind == "saddle" and line(m).crosses(under) for m in s.layout.members))


@check("accept-or-reject")
def _(q: Asked, s: Subject) -> None:
    (tag,) = set(tags(q.text))
    told = numbers(q.text)
    tall, long, plumb, bow, apex, lean, bend, *caps, line_ = told
    member, near = s.layout.by_tag[tag], s.level.tolerances
    assert (tall, long) == (round(max(z for _run, z in member.top)), round(member.span))
    assert (lean, bend, line_) == (near.plumb.ratio, near.bow.ratio, near.apex)
    assert (caps[0], caps[-1]) == (near.plumb.cap, near.bow.cap)
    over = [
        plumb > min(tall / lean, caps[0]),
        bow > min(long / bend, caps[-1]),
        apex > line_,
    ]
    wanted = ["plumb", "bowed", "top"]
    said = right(q)[0]
    assert (said == "Accept it") == (not any(over))
    assert sum(over) <= 1
    assert [word in said for word in wanted] == over


@check("over-an-inside-wall")
def _(q: Asked, s: Subject) -> None:
    (tag,) = set(tags(q.text))
    if "outside wall" in q.text:
        name = q.text.partition("outside wall ")[2].split(",")[0]
        assert name in {end.wall for end in s.layout.by_tag[tag].ends}
        assert right(q) == ["the schedule's connector, nailed tight"]
        return
    along = 0 if "left and right" in q.text else 1
    walls = [LineString(wall) for wall in s.layout.house.plan.internal_walls]
    met = [w for w in walls if w.crosses(line(s.layout.by_tag[tag])) or w.distance(line(s.layout.by_tag[tag])) < 100]
    assert met, "it passes over such a wall"
    ways = {0 if a[1] == b[1] else 1 for w in met for a, b in zip(w.coords, w.coords[1:], strict=False)}
    assert along in ways
    assert right(q) == ["slotted bracket, free to move"]


@check("v-or-cross")
def _(q: Asked, s: Subject) -> None:
    """One brace at 30° needs half the span times tan 30° along the row, and two one after another twice that."""
    (first,) = tags(q.text)
    half, length, *_angles = numbers(q.text)
    rise = max(z for _run, z in s.layout.by_tag[first].top) - s.level.roof.heel
    assert abs(rise / math.tan(math.radians(s.level.roof.pitch)) - half) < 1
    fit = int(length / (half * math.tan(math.radians(30))))
    assert right(q)[0].startswith(("what the job sheet", "one cross", "a V")[min(fit, 2)])


@check("long-webs")
def _(q: Asked, s: Subject) -> None:
    *lengths, limit = numbers(q.text)
    (tag,) = set(tags(q.text))
    agrees(q, sum(length > limit for length in lengths))
    member = s.layout.by_tag[tag]
    rise = max(z for _run, z in member.top)
    # No web is longer than the height of the truss and a quarter of its span make together.
    assert all(length <= math.hypot(rise, member.span / 4) + 1 for length in lengths)
    assert len(lengths) >= 2
