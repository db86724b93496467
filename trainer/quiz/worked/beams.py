"""Questions of verandah beams: where posts stand, and what the wind lifts at one."""

from __future__ import annotations

import math
from itertools import pairwise

from trainer.layout.posts import WIDEST, Post, post_areas, posts
from trainer.quiz.worked.family import QuestionChance, QuestionDraft, family, needs, number
from trainer.quiz.worked.loads import FORMULA, SAFETY
from trainer.quiz.worked.subject import Subject
from trainer.quiz.worked.wording import num
from trainer.rules import PRACTICE
from trainer.words import _, ngettext

LEAST_AREA = 1.0
"""Posts that carry less roof than this are not asked about, m²."""


@family(
    topic="reading plans",
    difficulty=2,
    serves=("plan", "site"),
    why=_("A post stands at both ends of a beam and under every girder. Between them the bays are equal."),
    source=PRACTICE,
)
def post_bays(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """How wide the equal bays are between two posts that are given."""
    stretches = [
        (beam.wall, a.run, b.run)
        for beam in subject.layout.house.plan.beams
        if beam.posts is None
        for a, b in pairwise(_fixed(subject, beam.wall, (beam.low, beam.high)))
        if b.run - a.run > WIDEST
    ]
    wall, low, high = draw.pick(stretches, "stretch")
    long = high - low
    bays = math.ceil(long / WIDEST)
    text = _(
        "The verandah beam on wall {wall} has a post at {low} and a post at {high}. Others stand between them, in "
        "equal bays of {widest} at most. There are as few as will do. How wide is each bay?"
    ).format(wall=wall, low=num(low, 1), high=num(high, 1), widest=num(WIDEST))
    working = (
        _("From post to post it is {high} − {low} = {long}.").format(
            high=num(high, 1), low=num(low, 1), long=num(long, 1)
        ),
        ngettext(
            "{long} ÷ {widest} = {share}, so {n} bay is needed.",
            "{long} ÷ {widest} = {share}, so {n} bays are needed.",
            bays,
        ).format(long=num(long, 1), widest=num(WIDEST), share=num(long / WIDEST, 2), n=bays),
        _("{long} ÷ {bays} = {width}.").format(long=num(long, 1), bays=bays, width=num(long / bays, 1)),
    )
    slips = (
        (WIDEST, _("That leaves one short bay. The bays are equal.")),
        (long / (bays + 1), _("That is a bay more than it needs.")),
        (long / (bays + 2), _("That is two bays more than it needs.")),
        (long / (bays - 1), _("Then the bays are too wide.")),
        (high / bays, _("The bays begin at the first of the two posts, not at the corner.")),
    )
    return number(text, long / bays, working, slips, tolerance=1)


def _fixed(subject: Subject, wall: str, ends: tuple[float, float]) -> list[Post]:
    """The posts that stand where they must: at the ends, and under girders."""
    return [post for post in posts(subject.layout) if post.wall == wall and (post.run in ends or post.under)]


@family(
    topic="fixing",
    difficulty=3,
    serves=("connections",),
    rules=("post-not-tied-down", "beam-not-bolted-down"),
    why=_("What holds a roof down goes on to the ground: truss to beam, beam to post, post to footing."),
    source=FORMULA,
    safety=SAFETY,
)
def uplift_at_post(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The net uplift at a post from the roof that comes down there, open underneath."""
    tie_down = subject.level.tie_down
    pressure = tie_down.pressure_over_beams
    found = [
        (post, area)
        for beam in subject.layout.house.plan.beams
        for post, area in post_areas(subject.layout, beam)
        if area >= LEAST_AREA and not post.wall_end
    ]
    needs(pressure > tie_down.net_pressure)
    post, area = draw.pick(found, "post")
    shown = round(area, 1)
    uplift = pressure * shown
    text = _(
        "The post at {run} under the beam on wall {wall} holds up {area} m² of roof in plan. Net uplift is "
        "{closed} kPa over rooms and {open} kPa over the verandah. How many kN must its tie-down hold?"
    ).format(
        run=num(post.run), wall=post.wall, area=num(shown, 1), closed=num(tie_down.net_pressure, 3),
        open=num(pressure, 3),
    )  # fmt: skip
    working = (
        _("It is open underneath, so {open} kPa counts.").format(open=num(pressure, 3)),
        _("{open} × {area} = {uplift} kN.").format(open=num(pressure, 3), area=num(shown, 1), uplift=num(uplift, 2)),
    )
    slips = (
        (tie_down.net_pressure * shown, _("That is the pressure over rooms. Here it is open underneath.")),
        ((tie_down.net_pressure + pressure) * shown, _("The two are not added. One counts where it is closed.")),
        (shown / pressure, _("That divides. Pressure times area gives force.")),
        (uplift / 2, _("The area given is already that of one post.")),
        (2 * uplift, _("That is two posts like this one.")),
    )
    return number(text, uplift, working, slips, post.under, "kN", 2, tolerance=0.02)
