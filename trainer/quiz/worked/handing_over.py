"""Questions about the inspection at hand-over: what is measured, what is allowed, and what is said of it."""

from __future__ import annotations

from trainer.quiz.worked.family import QuestionChance, QuestionDraft, family, one_of
from trainer.quiz.worked.subject import Subject
from trainer.quiz.worked.wording import called, num
from trainer.rules.rule import LEVEL
from trainer.site import height
from trainer.words import _

FAULTS = ("plumb", "bow", "apex")
NAMES = {
    "": _("Accept it"), "plumb": _("Reject it: it is out of plumb"), "bow": _("Reject it: it is bowed"),
    "apex": _("Reject it: its top is off the line"),
}  # fmt: skip


@family(
    topic="inspection",
    difficulty=3,
    serves=("erecting",),
    rules=(
        "accepted-out-of-limits", "rejected-though-sound", "accepted-unmeasured", "not-inspected", "out-of-plumb",
        "truss-bowed", "apex-off-line",
    ),
    why=_("Hand-over is the last look. What passes now is built in, and what is sound should not be pulled apart."),
    safety=_("Inspect from a platform. Nobody walks the roof to look at it."),
    source=LEVEL,
)  # fmt: skip
def accept_or_reject(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Whether a truss measured at hand-over is within this house's limits, and if not, which one it breaks."""
    standards = subject.of_kind("standard")
    truss = draw.pick(standards, "truss")
    near = subject.level.tolerances
    tall, long = round(height(truss)), round(truss.span)
    limits = {"plumb": near.plumb.limit(tall), "bow": near.bow.limit(long), "apex": float(near.apex)}
    wrong = draw.pick(("", *FAULTS), "wrong")
    # Clear of the limit on the one side or the other, in whole mm.
    got = {name: int(draw.chance("got", name) * 0.85 * limit) for name, limit in limits.items()}
    if wrong:
        got[wrong] = int(limits[wrong] * (1.1 + 0.5 * draw.chance("out"))) + 1
    text = _(
        "{truss} is {tall} high and {long} long. You find it {plumb} out of plumb, bowed by {bow}, and its top {apex} "
        "off the string. Allowed are height ÷ {lean} and length ÷ {bend}, {most} at most, and {line} at the top. "
        "What do you say?"
    ).format(
        truss=called(truss), tall=tall, long=long, plumb=got["plumb"], bow=got["bow"], apex=got["apex"],
        lean=near.plumb.ratio, bend=near.bow.ratio, most=_caps(near.plumb.cap, near.bow.cap), line=near.apex,
    )  # fmt: skip
    measured = {
        "plumb": _("Plumb: {tall} ÷ {ratio} = {share}, so {limit} is allowed. It is {got} out.").format(
            tall=tall, ratio=near.plumb.ratio, share=num(tall / near.plumb.ratio, 1), limit=num(limits["plumb"], 1),
            got=got["plumb"],
        ),
        "bow": _("Bow: {long} ÷ {ratio} = {share}, so {limit} is allowed. It is {got} bowed.").format(
            long=long, ratio=near.bow.ratio, share=num(long / near.bow.ratio, 1), limit=num(limits["bow"], 1),
            got=got["bow"],
        ),
        "apex": _("Top: {limit} is allowed. It is {got} off.").format(limit=near.apex, got=got["apex"]),
    }  # fmt: skip
    sound = _("Every measure is within its limit.")
    others = [
        (NAMES[name], _("One measure is over its limit: work out each of them.") if not name else _within(name))
        for name in NAMES
        if name != wrong
    ]
    working = (*measured.values(), sound if not wrong else _("One measure is over its limit."))
    return one_of(text, NAMES[wrong], others, working, (truss.tag,))


def _within(name: str) -> str:
    return {
        "plumb": _("Out of plumb it is within what is allowed."),
        "bow": _("The bow is within what is allowed."),
        "apex": _("The top is within what is allowed."),
    }[name]


def _caps(plumb: int, bow: int) -> str:
    return str(plumb) if plumb == bow else _("{plumb} and {bow}").format(plumb=plumb, bow=bow)
