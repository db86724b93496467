"""The slip of each tool: its measures and choices as controls, so that everything can be typed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from trainer.board import bench as hand
from trainer.board.aim import LIES, LIES_NAMES, Aim
from trainer.board.scenes import slips_more
from trainer.board.scenes.desk import AT, Desk
from trainer.board.scenes.slips_more import faint, go, heading, walls
from trainer.board.spots import spots_of
from trainer.board.tools import Tool
from trainer.board.verbs import SPACED, WHOLE, placed
from trainer.board.widgets import Button, Choice, Entry, Flow, Label, Widget
from trainer.site.fastening import BRACKETS, CONNECTORS
from trainer.terms import KIND_NAMES, thing
from trainer.words import _


def slip(work: Desk) -> list[Widget]:
    """Return the controls of the tool in the hand."""
    return _SLIPS[work.bench.tool](work)


def _from(work: Desk, wall: str) -> Choice:
    """The corner at which the tape is hooked, named by the walls that meet there."""
    names = walls(work)
    index = names.index(wall)
    before, after = names[index - 1], names[(index + 1) % len(names)]
    options = [_("corner {a}{b}").format(a=before, b=wall), _("corner {a}{b}").format(a=wall, b=after)]
    if work.bench.tool == "mark":
        options.append(_("the last mark"))
    return Choice(
        _("Tape from"), options, hand.tape_at(work.bench), lambda i: work.change(lambda b: hand.hook(b, i)),
        key="slip/from", shortcut="K",
    )  # fmt: skip


def _measure(work: Desk, name: str, where: str, value: float, put: Callable[[float], None]) -> Entry:
    """An entry for a measure along a wall, shown from the corner where the tape is hooked."""

    def take(number: float) -> None:
        put(hand.meant(work.bench, work.site, where, number))

    return Entry(name, hand.shown(work.bench, work.site, where, value), take, key=AT, enter=work.act, nudge=10.0)


def _mark(work: Desk) -> list[Widget]:
    bench = work.bench
    names = walls(work)
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
        heading(_("Mark a station")),
        faint(_("Point at a plate, or type the measure. For a mark on a girder, choose it in a list.")),
        Flow(row, fill=True, key="slip/row"),
        go(work, _("Mark it")),
    ]


def _stand(work: Desk) -> list[Widget]:
    bench = work.bench
    member = hand.member_in_hand(bench, work.site)
    if member is None:
        return [
            heading(_("Stand a truss")),
            faint(_("Take a truss from the yard: choose it and press Enter, or drag it.")),
        ]
    names = walls(work)

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
        heading(f"{member.tag}, {KIND_NAMES[member.kind]}"),
        Flow([wall, _from(work, bench.aim.wall), at, off, lies], fill=True, key="slip/row"),
        Flow([turn, Label(_("End {end} is at the wall.").format(end=end), "small", "panel_faint")], key="slip/turnrow"),
        go(work, _("Stand it")),
    ]


def _fit(work: Desk) -> list[Widget]:
    bench = work.bench
    part = Choice(
        _("Part"), [thing(part) for part in hand.PARTS], hand.PARTS.index(bench.part),
        lambda i: work.change(lambda b: setattr(b, "part", hand.PARTS[i])),
        key="slip/part", shortcut="C",
    )  # fmt: skip
    if not bench.fit_on:
        return [
            heading(_("Fit a part")),
            faint(_("Choose the truss that will carry: in a list, or on the plan.")),
            part,
        ]
    row: list[Widget] = [part]
    if bench.part not in BRACKETS and bench.part not in WHOLE:
        row.append(
            Choice(
                _("Where"),
                [_("on it as a whole"), _("at a place")],
                int(bench.fit_placed),
                lambda i: work.change(lambda b: setattr(b, "fit_placed", bool(i))),
                key="slip/placed",
            )
        )
    if placed(bench):
        row.append(
            Entry(
                _("From its end 1"),
                bench.fit_at,
                lambda v: work.change(lambda b: setattr(b, "fit_at", v)),
                key=AT,
                enter=work.act,
                nudge=10.0,
            )
        )
    elif bench.part in SPACED:
        row.append(
            Entry(
                _("One every"),
                bench.fit_every,
                lambda v: work.change(lambda b: setattr(b, "fit_every", v)),
                key="slip/every",
                enter=work.act,
                nudge=50.0,
            )
        )
        if bench.part == "outrigger":
            row.append(
                Entry(
                    _("Run back"),
                    bench.fit_back,
                    lambda v: work.change(lambda b: setattr(b, "fit_back", v)),
                    key="slip/back",
                    enter=work.act,
                    nudge=50.0,
                )
            )
    return [
        heading(_("Fit on {tag}").format(tag=bench.fit_on)),
        Flow(row, fill=True, key="slip/row"),
        go(work, _("Fit it")),
    ]


def _brace(work: Desk) -> list[Widget]:
    bench = work.bench
    kind = Choice(
        _("With"), [hand.BRACE_NAMES.get(b, thing(b)) for b in hand.BRACES], hand.BRACES.index(bench.brace),
        lambda i: work.change(lambda b: hand.brace_with(b, hand.BRACES[i])),
        key="slip/brace", shortcut="C",
    )  # fmt: skip
    if hand.picks(bench):
        picked = " – ".join(bench.picked) or _("none yet")
        text = _("Picked: {tags}. Pick two that stand.") if bench.brace == "batten" else _("Picked: {tags}.")
        what = text.format(tags=picked)
    else:
        what = (
            _("Chosen: {tag}").format(tag=bench.truss)
            if bench.truss in work.site.stood
            else _("Choose a standing truss.")
        )
    row: list[Widget] = [kind]
    if bench.brace == "batten":
        row.append(
            Entry(
                _("A row every"),
                bench.rows_every,
                lambda v: work.change(lambda b: setattr(b, "rows_every", round(v))),
                key=AT,
                enter=work.act,
                nudge=300.0,
            )
        )
    return [heading(_("Brace")), Flow(row, fill=True, key="slip/row"), faint(what), go(work, _("Brace it"))]


def which_ends(work: Desk) -> list[str]:
    """Return what of the chosen truss can be fixed, in words: both ends, each end, each crossing."""
    spots = enumerate(spots_of(work.site, work.bench.truss), 1)
    return [_("both ends"), _("end 1"), _("end 2"), *(f"{n}: {spot.words}" for n, spot in spots)]


def _fix(work: Desk) -> list[Widget]:
    bench = work.bench
    ends = which_ends(work)
    end = Choice(
        _("Which"), ends, bench.end % len(ends), lambda i: work.change(lambda b: setattr(b, "end", i)), key="slip/end",
        shortcut="E",
    )  # fmt: skip
    with_ = Choice(
        _("With"), [thing(name) for name in CONNECTORS], CONNECTORS.index(bench.connector),
        lambda i: work.change(lambda b: setattr(b, "connector", CONNECTORS[i])), key="slip/with", shortcut="C",
    )  # fmt: skip
    count = Entry(
        _("How many"), bench.count, lambda v: work.change(lambda b: setattr(b, "count", max(1, min(20, round(v))))),
        key="slip/count", unit="", enter=work.act,
    )  # fmt: skip
    chosen = bench.truss in work.site.stood
    head = _("Fix {tag}").format(tag=bench.truss) if chosen else _("Fix an end")
    say = [] if chosen else [faint(_("Choose a standing truss in the list, or press on an end on the plan."))]
    return [heading(head), *say, Flow([with_, end, count], fill=True, key="slip/row"), go(work, _("Fix it"))]


def _remove(work: Desk) -> list[Widget]:
    chosen = work.bench.truss in work.site.stood
    head = _("Take {tag} down").format(tag=work.bench.truss) if chosen else _("Take a truss down")
    say = _("Its bracing and fixings come off with it.") if chosen else _("Choose a standing truss.")
    return [heading(head), faint(say), go(work, _("Take it down"))]


_SLIPS: dict[Tool, Callable[[Desk], list[Widget]]] = {
    "mark": _mark, "fit": _fit, "stand": _stand, "brace": _brace, "fix": _fix, "remove": _remove, **slips_more.SLIPS,
}  # fmt: skip
