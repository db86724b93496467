"""The mouse on the plan of the work screen: what a press does with each tool."""

from __future__ import annotations

from trainer.board import bench as hand
from trainer.board.scenes.desk import Desk
from trainer.board.scenes.work_live import nearest_end
from trainer.board.tools import FIRST_WORDS, ONE_STANDING
from trainer.plan import Point
from trainer.words import _


def click(work: Desk, place: Point) -> None:
    """Do what the tool does at a place of the plan, which it is aimed at already."""
    bench = work.bench
    if bench.tool == "mark" or (bench.tool == "stand" and hand.member_in_hand(bench, work.site)):
        work.act()
    elif hand.between_points(bench):
        hand.put_tape(bench)
        if bench.tool == "restrain" and len(bench.tape) == 2:
            work.act()
    elif hand.aims_at_wall(bench):
        if bench.tool == "measure":
            work.act()
    elif bench.tool in {"check", "load"}:
        work.say(FIRST_WORDS[bench.tool])
    elif not work.hovered:
        work.say(_("There is no truss there. Point at one that stands."))
    else:
        _click_truss(work, work.hovered, place)


def _click_truss(work: Desk, tag: str, place: Point) -> None:
    """Press on a standing truss: do what the tool does to it, unless that does harm; then it is only chosen."""
    bench = work.bench
    if hand.picks(bench):
        if hand.pick(bench, tag):
            work.act()
        return
    bench.truss = tag
    if bench.tool == "unbrace":
        pieces = list(enumerate(work.site.bracing))
        bench.piece = next((i for i, piece in reversed(pieces) if tag in piece.tags), -1)
    elif bench.tool == "fix":
        bench.end = nearest_end(work.site, tag, place, crossing=bench.end >= hand.SPOTS)
    elif bench.tool == "fit":
        bench.fit_placed = True
    if bench.tool in ONE_STANDING or bench.tool in {"brace", "fit", "measure"}:
        work.act()
