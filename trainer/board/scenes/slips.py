"""The slip of each tool: its measures and choices as controls, so that everything can be typed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from trainer.board import bench as hand
from trainer.board.aim import LIES, LIES_NAMES, Aim
from trainer.board.scenes.desk import AT, Desk
from trainer.board.widgets import Button, Choice, Entry, Flow, Label, Widget
from trainer.board.wording import KIND
from trainer.site.fastening import BRACKETS
from trainer.words import _


def slip(work: Desk) -> list[Widget]:
    """Return the controls of the tool in the hand."""
    return {
        "mark": _mark, "fit": _fit, "stand": _stand, "brace": _brace, "fix": _fix, "remove": _remove,
    }[work.bench.tool](work)  # fmt: skip


def _heading(text: str) -> Label:
    return Label(text, "heading", role="heading")


def _say(text: str) -> Label:
    return Label(text, "small", "panel_faint")


def _go(work: Desk, name: str) -> Button:
    return Button(name, work.act, kind="primary", shortcut="Enter", key="slip/go")


def _walls(work: Desk) -> list[str]:
    return [wall.name for wall in work.site.layout.house.plan.walls]


def _from(work: Desk, wall: str) -> Choice:
    """The corner at which the tape is hooked, named by the walls that meet there."""
    names = _walls(work)
    index = names.index(wall)
    before, after = names[index - 1], names[(index + 1) % len(names)]
    options = [_("corner {a}{b}").format(a=before, b=wall), _("corner {a}{b}").format(a=wall, b=after)]
    return Choice(
        _("Tape from"), options, int(work.bench.from_far),
        lambda i: work.change(lambda b: setattr(b, "from_far", bool(i))),
        key="slip/from", shortcut="K",
    )  # fmt: skip


def _measure(work: Desk, name: str, where: str, value: float, put: Callable[[float], None]) -> Entry:
    """An entry for a measure along a wall, shown from the corner where the tape is hooked."""

    def take(number: float) -> None:
        put(hand.shown(work.bench, work.site, where, number))

    return Entry(name, hand.shown(work.bench, work.site, where, value), take, key=AT, enter=work.act, nudge=10.0)


def _mark(work: Desk) -> list[Widget]:
    bench = work.bench
    names = _walls(work)
    on_wall = bench.mark_on in names
    wall = Choice(
        _("Wall"), names if on_wall else [*names, bench.mark_on],
        names.index(bench.mark_on) if on_wall else len(names),
        lambda i: work.change(lambda b: setattr(b, "mark_on", names[i % len(names)])), key="slip/wall", shortcut="W",
    )  # fmt: skip
    entry = _measure(
        work, _("Along it"), bench.mark_on, bench.mark_at, lambda at: work.change(lambda b: setattr(b, "mark_at", at))
    )
    row: list[Widget] = [wall, entry]
    if on_wall:
        row.insert(1, _from(work, bench.mark_on))
    return [
        _heading(_("Mark a station")),
        _say(_("Point at a plate, or type the measure. For a mark on a girder, choose it in a list.")),
        Flow(row, fill=True, key="slip/row"),
        _go(work, _("Mark it")),
    ]


def _stand(work: Desk) -> list[Widget]:
    bench = work.bench
    member = hand.member_in_hand(bench, work.site)
    if member is None:
        return [
            _heading(_("Stand a truss")),
            _say(_("Take a truss from the yard: choose it and press Enter, or drag it.")),
        ]
    names = _walls(work)

    def put(aim: Aim, *, settle_hip: bool = True) -> None:
        work.change(lambda b: setattr(b, "aim", aim), settle_hip=settle_hip)

    wall = Choice(
        _("Wall"),
        names,
        names.index(bench.aim.wall),
        lambda i: put(replace(bench.aim, wall=names[i])),
        key="slip/wall",
        shortcut="W",
    )
    at = _measure(work, _("Along it"), bench.aim.wall, bench.aim.at, lambda mm: put(replace(bench.aim, at=mm)))
    off = Entry(
        _("In from it"),
        bench.aim.off,
        lambda mm: put(replace(bench.aim, off=mm)),
        key="slip/off",
        enter=work.act,
        nudge=10.0,
    )
    ways = [LIES_NAMES[lies] for lies in LIES]
    lies = Choice(
        _("It lies"),
        ways,
        LIES.index(bench.aim.lies),
        lambda i: put(replace(bench.aim, lies=LIES[i]), settle_hip=False),
        key="slip/lies",
        shortcut="L",
    )
    end = 2 if bench.aim.turned else 1
    turn = Button(_("Turn end for end"), work.turn, picture="turn", shortcut="T", key="slip/turn")
    return [
        _heading(f"{member.tag}, {KIND[member.kind]}"),
        Flow([wall, _from(work, bench.aim.wall), at, off, lies], fill=True, key="slip/row"),
        Flow([turn, Label(_("End {end} is at the wall.").format(end=end), "small", "panel_faint")], key="slip/turnrow"),
        _go(work, _("Stand it")),
    ]


def _fit(work: Desk) -> list[Widget]:
    bench = work.bench
    part = Choice(
        _("Bracket"), BRACKETS, BRACKETS.index(bench.part),
        lambda i: work.change(lambda b: setattr(b, "part", BRACKETS[i])),
        key="slip/part", shortcut="C",
    )  # fmt: skip
    if not bench.fit_on:
        return [
            _heading(_("Fit a bracket")),
            _say(_("Choose the truss that will carry: in a list, or on the plan.")),
            part,
        ]
    at = Entry(
        _("From its end 1"),
        bench.fit_at,
        lambda v: work.change(lambda b: setattr(b, "fit_at", v)),
        key=AT,
        enter=work.act,
        nudge=10.0,
    )
    return [
        _heading(_("Fit a bracket on {tag}").format(tag=bench.fit_on)),
        Flow([part, at], fill=True, key="slip/row"),
        _go(work, _("Fit it")),
    ]


def _brace(work: Desk) -> list[Widget]:
    bench = work.bench
    kind = Choice(
        _("With"), [hand.BRACE_NAMES[b] for b in hand.BRACES], hand.BRACES.index(bench.brace),
        lambda i: work.change(lambda b: hand.brace_with(b, hand.BRACES[i])),
        key="slip/brace", shortcut="C",
    )  # fmt: skip
    if bench.brace == "batten":
        picked = " – ".join(bench.picked) or _("none yet")
        what = _("Picked: {tags}. Pick two that stand.").format(tags=picked)
    else:
        what = (
            _("Chosen: {tag}").format(tag=bench.truss)
            if bench.truss in work.site.stood
            else _("Choose a standing truss.")
        )
    return [_heading(_("Brace")), kind, _say(what), _go(work, _("Brace it"))]


def _fix(work: Desk) -> list[Widget]:
    bench = work.bench
    ends = [_("both ends"), _("end 1"), _("end 2")]
    end = Choice(
        _("Which"), ends, bench.end, lambda i: work.change(lambda b: setattr(b, "end", i)), key="slip/end", shortcut="E"
    )
    with_ = Choice(
        _("With"), hand.CONNECTORS, hand.CONNECTORS.index(bench.connector),
        lambda i: work.change(lambda b: setattr(b, "connector", hand.CONNECTORS[i])), key="slip/with", shortcut="C",
    )  # fmt: skip
    count = Entry(
        _("How many"), bench.count, lambda v: work.change(lambda b: setattr(b, "count", max(1, min(20, round(v))))),
        key="slip/count", unit="", enter=work.act,
    )  # fmt: skip
    chosen = bench.truss in work.site.stood
    heading = _("Fix {tag}").format(tag=bench.truss) if chosen else _("Fix an end")
    say = [] if chosen else [_say(_("Choose a standing truss in the list, or press on an end on the plan."))]
    return [_heading(heading), *say, Flow([with_, end, count], fill=True, key="slip/row"), _go(work, _("Fix it"))]


def _remove(work: Desk) -> list[Widget]:
    chosen = work.bench.truss in work.site.stood
    heading = _("Take {tag} down").format(tag=work.bench.truss) if chosen else _("Take a truss down")
    say = _("Its bracing and fixings come off with it.") if chosen else _("Choose a standing truss.")
    return [_heading(heading), _say(say), _go(work, _("Take it down"))]
