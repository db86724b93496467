"""The drill on permanent bracing: a row stands on its temporary bracing, and gets what it keeps."""

from __future__ import annotations

from collections import Counter

from trainer.chance import pick
from trainer.drill.kind import drill, kind
from trainer.drill.model import CannotDrill, Drill, Kind
from trainer.drill.playing import DrillSite
from trainer.layout import Layout
from trainer.layout.bracing import Restraint
from trainer.level import Level
from trainer.order import Step
from trainer.order.straightening import lines
from trainer.session import Session
from trainer.site import done
from trainer.words import _

PIECES = 5
"""Pieces of one drill, at most."""
CROOKED = 2
"""Trusses that don't stand true yet, at most."""


@kind(
    title=_("Brace the roof"),
    skill=_("put in the permanent bracing of a row"),
    stages=("stand", "brace"),
    minutes=5,
    rules=(
        "roof-brace-missing", "roof-braces-all-one-way", "strap-pulled-too-hard", "braced-while-crooked",
        "roof-brace-at-wrong-angle", "roof-brace-not-tied-down", "roof-brace-broken",
        "bottom-chord-ties-too-far-apart", "long-web-not-tied", "top-chords-not-tied-under-saddles",
        "end-brace-missing", "tie-end-loose",
    ),
)  # fmt: skip
def brace_the_roof(me: Kind, level: Level, layout: Layout, seed: int) -> Drill:
    """Put in roof braces and ties over one row, and first straighten what under them does not stand true."""
    scene = DrillSite.of(level, layout, seed)
    rows: dict[str, list[Restraint]] = {}
    for piece in scene.job.restraints:
        rows.setdefault(piece.row, []).append(piece)
    if not rows:
        raise CannotDrill(_("This needs a row with permanent bracing."))
    row = pick(sorted(rows), seed, level.id, "row")
    pieces = rows[row][:PIECES]
    over = {tag for piece in pieces for tag in piece.over}
    tags = [tag for tag in layout.rows.get(row, tuple(sorted(over))) if tag in over]
    wanted = ", ".join(f"{kind} × {count}" for kind, count in Counter(piece.kind for piece in pieces).items())
    told = _(
        "The row from {first} to {last} stands. It still needs: {wanted}. Put them in by the job sheet. "
        "Pull each strap until it is straight."
    )
    goal = [Step("restrain", piece.name) for piece in pieces]
    crooked = _crooked(
        level, scene, goal, [tag for piece in pieces if piece.kind == "roof brace" for tag in piece.over]
    )
    if crooked:
        told += " " + _("First look along it: not every truss stands true yet.")
    goal += crooked
    return drill(me, level, scene, goal, told.format(first=tags[0], last=tags[-1], wanted=wanted))


def _crooked(level: Level, scene: DrillSite, goal: list[Step], over: list[str]) -> list[Step]:
    """The plumbing of the first few between a row's outermost that need it, and that roof braces would lock."""
    between = {tag for line in lines(scene.job.layout) for tag in line.between}
    plumbed = [Step("plumb", tag) for tag in dict.fromkeys(over) if tag in between]
    given = scene.given(scene.left([*goal, *plumbed]))
    site = Session(level, scene.seed, layout=scene.job.layout, given=given).site
    return [step for step in plumbed if step.tag in site.at_place and not done(site, step)][:CROOKED]
