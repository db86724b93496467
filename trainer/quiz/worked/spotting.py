"""Spot the fault: in the set-out of a row as it stands, and in a page of a diary. The rules say which line is wrong."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal, get_args

from trainer.layout import Member
from trainer.order import spot
from trainer.plan import Wall, read_back
from trainer.plan.points import to_half
from trainer.quiz.question import Drawing, LabelledPlace, Slip, SpotFault
from trainer.quiz.worked.family import NothingToAsk, QuestionChance, QuestionDraft, family, needs
from trainer.quiz.worked.subject import EXACT, Subject
from trainer.quiz.worked.wording import called, num
from trainer.rules import PRACTICE, Finding, judged
from trainer.rules.rule import LEVEL
from trainer.site import AnyAction, Brace, Fit, Fix, Stand
from trainer.site.actions import Cut, Unbrace
from trainer.words import _, listed

FEWEST_SHOWN, MOST_SHOWN = 4, 7


@family(
    topic="inspection",
    difficulty=2,
    serves=("erecting", "set-out"),
    rules=("off-station", "spacing-too-wide"),
    why=_("One truss off its mark puts two gaps out. Found now it is a tap with a hammer; later it is rework."),
    source=LEVEL,
)
def fault_in_row(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Which truss of a row stands off its station."""
    runs = [run for wall in subject.layout.house.plan.walls for run in _even_runs(subject, wall)]
    wall, run = draw.pick(runs, "run")
    first = int(draw.chance("from") * (len(run) - FEWEST_SHOWN + 1))
    shown = run[first : first + MOST_SHOWN]
    at = 1 + int(draw.chance("wrong") * (len(shown) - 2))
    near = subject.job.station_tolerance
    out = round(near) + 8 + int(draw.chance("out") * 45)
    out = -out if draw.chance("which way") < 0.5 else out
    truss = shown[at][1]
    moved = _moved(subject, truss, out, wall)
    needs(_off_station(subject, moved))
    readings = [mark + (out if i == at else 0) for i, (mark, _m) in enumerate(shown)]
    lines = tuple(
        _("{truss}: {at} on wall {wall}").format(truss=called(m), at=num(reading, 1), wall=wall.name)
        for reading, (_mark, m) in zip(readings, shown, strict=True)
    )
    places = tuple(
        LabelledPlace(m.tag, (moved if i == at else m).middle, called(m)) for i, (_mark, m) in enumerate(shown)
    )
    text = _("You check a row with the tape. Bays are {spacing}, and {near} either way is allowed. Which truss is out?")
    before, after = readings[at] - readings[at - 1], readings[at + 1] - readings[at]
    working = (
        _("The bays beside it are {before} and {after}.").format(before=num(before, 1), after=num(after, 1)),
        _("{truss} belongs at {mark}. It stands at {got}, so it is {out} out.").format(
            truss=truss.tag, mark=num(shown[at][0], 1), got=num(readings[at], 1), out=abs(out)
        ),
    )
    slips = tuple(
        Slip(line, _("Its own mark is right. Look which truss has a wrong bay on both sides.")) for line in lines
    )
    layout = replace(subject.layout, members=tuple(moved if m.tag == truss.tag else m for m in subject.layout.members))
    return QuestionDraft(
        text.format(spacing=subject.spacing, near=num(near)), SpotFault(lines, at, places), working,
        tuple(slip for slip in slips if slip.text != lines[at]), (truss.tag,), Drawing(layout),
    )  # fmt: skip


def _even_runs(subject: Subject, wall: Wall) -> Iterator[tuple[Wall, list[tuple[float, Member]]]]:
    """Runs of four or more marks on a wall that are one spacing apart, of trusses that stand square to it."""
    run: list[tuple[float, Member]] = []
    for mark in [*subject.tapes(wall), None]:
        if mark and (not run or abs(mark[0] - run[-1][0] - subject.spacing) < EXACT) and mark[1].kind != "hip":
            run.append(mark)
            continue
        if len(run) >= FEWEST_SHOWN:
            yield wall, run
        run = [mark] if mark else []


def _moved(subject: Subject, member: Member, out: float, wall: Wall) -> Member:
    """The truss so far on along the tape on a wall."""
    dx, dy = wall.along
    out = -out if wall.name in read_back(subject.layout.house.plan) else out
    ends = tuple(replace(end, at=(end.at[0] + dx * out, end.at[1] + dy * out)) for end in member.ends)
    return replace(member, ends=(ends[0], ends[1]))


def _off_station(subject: Subject, moved: Member) -> bool:
    """Whether the rules find a truss off its station where it has been moved to."""
    stand = Stand(tag=moved.tag, start=to_half(moved.start), finish=to_half(moved.finish))
    result = judged(subject.work, [stand])
    return result is not None and any(finding.rule == "off-station" for finding in result[1])


@dataclass(frozen=True, slots=True)
class _Page:
    """A page of a diary, right so far: its actions, and how each reads."""

    actions: tuple[AnyAction, ...]
    lines: tuple[str, ...]

    def without(self, index: int) -> _Page:
        """The page with one action left out."""
        return _Page(self.actions[:index] + self.actions[index + 1 :], self.lines[:index] + self.lines[index + 1 :])

    def with_one_more(self, index: int, action: AnyAction, line: str) -> _Page:
        """The page with one more action before ``index``."""
        return _Page(
            (*self.actions[:index], action, *self.actions[index:]), (*self.lines[:index], line, *self.lines[index:])
        )

    def swapped(self, index: int, action: AnyAction, line: str) -> _Page:
        """The page with another action in the place of one."""
        return _Page(
            (*self.actions[:index], action, *self.actions[index + 1 :]),
            (*self.lines[:index], line, *self.lines[index + 1 :]),
        )


def _page(subject: Subject, tags: Sequence[str]) -> _Page:
    """Some trusses stood one after another, each done right: bracket, standing, bracing, fixing."""
    actions: list[AnyAction] = []
    lines: list[str] = []
    braced_rows: dict[str, str] = {}
    for tag in tags:
        member = subject.layout.by_tag[tag]
        for number, end in enumerate(member.ends, 1):
            if not end.wall and member.kind != "saddle":
                hung = next(h for h in subject.job.hung[end.bears_on] if (h.tag, h.end) == (tag, number))
                actions.append(Fit(part=hung.part, on=end.bears_on, at=hung.at))
                lines.append(
                    _("fit the {part} for {tag} on {carrier}").format(part=hung.part, tag=tag, carrier=end.bears_on)
                )
        actions.append(Stand(tag=tag, start=member.start, finish=member.finish))
        lines.append(_stood(subject, member))
        if member.kind in ("standard", "truncated", "truncated_girder", "girder", "gable"):
            mate = braced_rows.get(member.row)
            if mate:
                actions.append(Brace(kind="batten", tags=(tag, mate)))
                lines.append(_("tie {tag} to {mate} with a batten").format(tag=tag, mate=mate))
            else:
                actions.append(Brace(kind="solid", tags=(tag,)))
                lines.append(_("brace {tag} to the floor").format(tag=tag))
            braced_rows[member.row] = tag
        for number, end in enumerate(member.ends, 1):
            actions.append(Fix(tag=tag, end=number, with_=end.fixing))
        lines += [_("fix both ends of {tag}").format(tag=tag)] * 2
    return _Page(tuple(actions), tuple(lines))


def _stood(subject: Subject, member: Member, out: float = 0.0) -> str:
    plates = subject.walls_under(member)
    if not plates or member.kind == "hip":
        return _("stand {truss} on its marks").format(truss=called(member))
    end, wall = plates[0]
    return _("stand {truss} at {at} on wall {wall}").format(
        truss=called(member), at=num(subject.tape(member, end)[1] + out, 1), wall=wall.name
    )


Timber = Literal["web", "bottom chord", "top chord"]
TIMBERS: tuple[Timber, ...] = get_args(Timber)
Plant = Callable[[Subject, QuestionChance], tuple[_Page, str]]
"""Makes a page with one mistake in it, and says what there is to know besides the page."""


def _even_row(subject: Subject, draw: QuestionChance) -> list[Member]:
    """Three neighbours of a row that stand on plates at both ends."""
    rows = []
    for tags in subject.layout.rows.values():
        members = [subject.layout.by_tag[tag] for tag in tags]
        for three in zip(members, members[1:], members[2:], strict=False):
            even = all(abs(abs(spot(b) - spot(a)) - subject.spacing) < EXACT for a, b in pairwise(three))
            if even and all(m.kind == "standard" and len(subject.walls_under(m)) == 2 for m in three):
                rows.append(list(three))
    return draw.pick(rows, "row")


def _not_braced(subject: Subject, draw: QuestionChance) -> tuple[_Page, str]:
    three = _even_row(subject, draw)
    page = _page(subject, [m.tag for m in three])
    ties = [i for i, action in enumerate(page.actions) if isinstance(action, Brace)]
    return page.without(ties[int(draw.chance("which tie") * 2)]), _("Nothing else of this row stands yet.")


def _off_its_mark(subject: Subject, draw: QuestionChance) -> tuple[_Page, str]:
    three = _even_row(subject, draw)
    page = _page(subject, [m.tag for m in three])
    member = three[int(draw.chance("which") * 3)]
    _end, wall = subject.walls_under(member)[0]
    out = round(subject.job.station_tolerance) + 10 + int(draw.chance("out") * 40)
    moved = _moved(subject, member, out, wall)
    index = next(i for i, a in enumerate(page.actions) if isinstance(a, Stand) and a.tag == member.tag)
    stand = Stand(tag=member.tag, start=to_half(moved.start), finish=to_half(moved.finish))
    known = _("Wall {wall} is marked at {marks}.").format(
        wall=wall.name, marks=listed([num(subject.tape(m, subject.walls_under(m)[0][0])[1], 1) for m in three])
    )
    return page.swapped(index, stand, _stood(subject, member, out)), known


def _hip_end(subject: Subject, draw: QuestionChance) -> tuple[Member, list[Member]]:
    """A truncated girder on plates, and trusses that hang on it and on a wall."""
    found = []
    for girder in subject.of_kind("truncated_girder"):
        hung = [subject.layout.by_tag[tag] for tag in subject.layout.carries[girder.tag]]
        plain = [m for m in hung if m.kind in ("hip", "jack") and m.ends[0].on_plate and m.carried_by == (girder.tag,)]
        if len(subject.walls_under(girder)) == 2 and any(m.kind == "hip" for m in plain):
            found.append((girder, plain))
    return draw.pick(found, "hip end")


def _before_it_was_ready(subject: Subject, draw: QuestionChance) -> tuple[_Page, str]:
    girder, hung = _hip_end(subject, draw)
    hip = next(m for m in hung if m.kind == "hip")
    page = _page(subject, [girder.tag, hip.tag])
    drop = [
        i for i, a in enumerate(page.actions) if isinstance(a, (Brace, Fix)) and girder.tag in page.lines[i].split()
    ]
    index = draw.pick([i for i in drop if isinstance(page.actions[i], Brace)] or drop, "left out")
    return page.without(index), _("Nothing else of this hip end stands yet.")


def _no_bracket(subject: Subject, draw: QuestionChance) -> tuple[_Page, str]:
    girder, hung = _hip_end(subject, draw)
    chosen = draw.shuffled(hung, "hung")[:2]
    page = _page(subject, [girder.tag, *(m.tag for m in chosen)])
    fits = [i for i, action in enumerate(page.actions) if isinstance(action, Fit)]
    return page.without(draw.pick(fits, "left out")), _("No other bracket is on {girder}.").format(girder=girder.tag)


def _turned(subject: Subject, draw: QuestionChance) -> tuple[_Page, str]:
    girder, hung = _hip_end(subject, draw)
    jacks = [m for m in hung if m.kind == "jack"]
    jack = draw.pick(jacks, "jack")
    page = _page(subject, [girder.tag, jack.tag])
    index = next(i for i, a in enumerate(page.actions) if isinstance(a, Stand) and a.tag == jack.tag)
    stand = Stand(tag=jack.tag, start=jack.finish, finish=jack.start)
    line = _("stand {truss}, its tail towards {girder}").format(truss=called(jack), girder=girder.tag)
    return page.swapped(index, stand, line), _("{jack} has its tail at the wall.").format(jack=jack.tag)


def _wrong_setback(subject: Subject, draw: QuestionChance) -> tuple[_Page, str]:
    girder, _hung = _hip_end(subject, draw)
    wall = subject.end_wall(girder)
    if wall is None:
        raise NothingToAsk
    out = 600.0 if girder.station + 600 < girder.span / 2 else -600.0
    dx, dy = wall.inward
    ends = [(x + dx * out, y + dy * out) for x, y in (girder.start, girder.finish)]
    page = _page(subject, [girder.tag])
    index = next(i for i, a in enumerate(page.actions) if isinstance(a, Stand))
    stand = Stand(tag=girder.tag, start=to_half(ends[0]), finish=to_half(ends[1]))
    line = _("stand {truss} {station} in from wall {wall}").format(
        truss=called(girder), station=num(girder.station + out, 1), wall=wall.name
    )
    return page.swapped(index, stand, line), _("The plan puts {truss} {station} in from wall {wall}.").format(
        truss=girder.tag, station=num(girder.station, 1), wall=wall.name
    )


def _cut(subject: Subject, draw: QuestionChance) -> tuple[_Page, str]:
    three = _even_row(subject, draw)
    page = _page(subject, [m.tag for m in three[:2]])
    member = three[int(draw.chance("which") * 2)]
    where: Timber = draw.pick(TIMBERS, "where")
    after = next(i for i, a in enumerate(page.actions) if isinstance(a, Stand) and a.tag == member.tag) + 1
    cut = Cut(tag=member.tag, where=where)
    line = _("notch the {where} of {tag}, so that a pipe passes").format(where=where, tag=member.tag)
    return page.with_one_more(after, cut, line), _("All trusses here are sound.")


def _unbraced(subject: Subject, draw: QuestionChance) -> tuple[_Page, str]:
    three = _even_row(subject, draw)
    page = _page(subject, [m.tag for m in three])
    ties = [i for i, action in enumerate(page.actions) if isinstance(action, Brace)]
    index = ties[int(draw.chance("which tie") * 2)]
    brace = page.actions[index]
    assert isinstance(brace, Brace)
    last = max(i for i, a in enumerate(page.actions) if isinstance(a, Fix)) + 1
    taken = Unbrace(kind=brace.kind, tags=brace.tags)
    known = _("No permanent bracing is in yet.")
    return page.with_one_more(last, taken, _("take out what braces {tag}").format(tag=brace.tags[0])), known


PLANTS: tuple[Plant, ...] = (
    _cut, _unbraced, _not_braced, _off_its_mark, _before_it_was_ready, _no_bracket, _turned, _wrong_setback,
)  # fmt: skip


@family(
    topic="inspection",
    difficulty=3,
    serves=("erecting", "bracing", "connections"),
    why=_("A mistake is cheapest where it is made. Read each step and ask what it needed before it."),
    source=PRACTICE,
    safety=_("If you see a step like that on site, stop and say so before the next one."),
)
def fault_in_diary(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Which line of a diary is the mistake."""
    for plant in draw.shuffled(PLANTS, "mistake"):
        try:
            page, known = plant(subject, draw)
        except NothingToAsk:
            continue
        _site, found = judged(subject.work, page.actions) or (None, ())
        findings = [finding for finding in found if finding.severity != "habit"]
        if len(findings) == 1:
            return _diary(page, known, findings[0])
    raise NothingToAsk


def _diary(page: _Page, known: str, finding: Finding) -> QuestionDraft:
    merged: list[str] = []
    right = -1
    for i, line in enumerate(page.lines):
        if not merged or merged[-1] != line:
            merged.append(line)
        if i == finding.event:
            right = len(merged) - 1
    lines = tuple(line[0].upper() + line[1:] + "." for line in merged)
    needs(len(set(lines)) == len(lines) >= 3)
    text = _("Here is a page of a diary. {known} At which line was the mistake made?").format(known=known)
    working = (finding.what, finding.fix)
    slips = tuple(Slip(line, _("That step is right by itself.")) for i, line in enumerate(lines) if i != right)
    return QuestionDraft(text, SpotFault(lines, right), working, slips, (finding.member,), None, (finding.rule,))
