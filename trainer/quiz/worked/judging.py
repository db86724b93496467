"""Questions of judgement about one rule: of two crews which is wrong, and why; of one, what has to be done now.

The mistake is planted in a real day on a real house, beside the same day mended (:mod:`trainer.quiz.worked.moments`).
The reason is the rule's own; the wrong ones are of rules that are about something else beyond dispute.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from trainer.chance import pick
from trainer.level.dangers import LIES
from trainer.quiz.question import Asked, Drawing, OneOf, Slip
from trainer.quiz.rule_kin import distractors, rules_by_name, words_of
from trainer.quiz.slips import SLIPS
from trainer.quiz.unit import TOPIC_OF, UnitItem
from trainer.quiz.worked.action_words import action_line, belongs
from trainer.quiz.worked.family import Family, NothingToAsk, QuestionChance, QuestionDraft, needs
from trainer.quiz.worked.moments import Crew, Moment, moment_of
from trainer.quiz.worked.subject import Subject
from trainer.rules import PRACTICE, all_rules
from trainer.site.actions import Brace, Fit, Report, Restrain, Stand, Unbrace
from trainer.terms import FAULTS, Stage
from trainer.words import _

NOT_SHOWN = frozenset(
    (
        "brackets-left-loose", "far-bearing-not-carried-across", "out-of-order", "no-string-line", "apex-off-line",
        "worked-on-after-a-fall", "verge-before-row-straight", "truss-missing", "truss-left-over", "braces-left-inside",
    )
)  # fmt: skip
"""Rules whose mistake takes more than a few lines to show; written questions are about these."""
PLACED = frozenset(
    (
        "off-station", "setback-not-the-levels", "girder-off-plate-line", "dutch-girder-off-station", "end-for-end",
        "spacing-too-wide", "bay-left-too-wide", "wrong-truss-for-place",
    )
)  # fmt: skip
"""Rules about where a truss stands: the lines say so, and the question says where it belongs."""
KNOWN: Mapping[str, str] = {
    **dict.fromkeys(
        (
            "outriggers-too-far-apart", "outriggers-not-far-enough-back", "outriggers-end-between-trusses",
            "slotted-bracket-missing", "bottom-chord-ties-too-far-apart", "top-chords-not-tied-under-saddles",
            "top-chord-battens-too-far-apart", "roof-brace-at-wrong-angle", "tie-down-missing",
            "slings-not-spread", "mark-to-wrong-face", "spacing-too-wide", "bay-left-too-wide",
        ),
        _("The job sheet wants: {want}."),
    ),
    "mark-off-station": _("The mark for {member} belongs {want}."),
    "too-heavy-by-hand": _("That kind weighs and measures {got}. The job sheet wants: {want}."),
    **dict.fromkeys(
        ("out-of-plumb", "truss-bowed", "braced-while-crooked", "saddle-over-crooked-truss", "accepted-out-of-limits"),
        _("A reading when it was stood: {got}. That is too much here."),
    ),
    "rejected-though-sound": _("Every reading of {member} is within the limits."),
    "report-without-looking": _("A tape and a level show nothing wrong with {member}."),
    "extension-not-propped": _("No truss stands under the extension of {member} yet."),
    "row-left-unsafe-overnight": _("The next lift is made the day after."),
    "lifted-in-gust": _("The wind has just got up."),
    "stopped-unsecured": _("The wind has just got up."),
}  # fmt: skip
"""What is to be known beside the lines, by rule, in the words of what was found."""
NEVER_FINE = frozenset(("station-not-marked",))
"""Rules that a crew may have kept so far and still have something to do about: there is always something wrong."""
GO_ON_SHARE = 0.45
"""Share of questions about one crew in which nothing is wrong."""
DAYS = 3
"""So many days are drawn for each house."""
OTHERS = 1
"""Wrong things to do beside the rule's own."""
SERVES: Mapping[Stage, UnitItem] = {
    "pre-start": "safety", "set-out": "set-out", "stand": "erecting", "brace": "bracing", "fix": "connections",
    "hand-over": "safety",
}  # fmt: skip
SAFETY = _("Where you see that on site, say stop first. Then say why.")
BESIDE = _("Hold both lists side by side. What does one crew do that the other does not, or does later?")
ONE_BY_ONE = _("Go through the lines one by one. What had to be done before each of them?")


@dataclass(frozen=True, slots=True)
class RuleFamily(Family):
    """A family that asks about one rule of a stage: its seed says which, by its place in ``judged``."""

    judged: tuple[str, ...] = ()

    def rule_of(self, seed: int) -> str:
        """The rule that a seed asks about."""
        return self.judged[seed % len(self.judged)]

    def seed_of(self, rule: str, turn: int) -> int:
        """A seed that asks about a rule."""
        return turn * len(self.judged) + self.judged.index(rule)

    def ask(self, subject: Subject, seed: int) -> Asked | None:
        """Return the question for a seed, or for the next whose rule can be broken on this house; none if none can."""
        for later in range(len(self.judged)):
            # Not super(): a dataclass with slots is made anew, and the class that super() would look for is gone.
            if (asked := Family.ask(self, subject, seed + later)) is not None:
                return asked
        return None

    def ask_about(self, rule: str, subject: Subject, turn: int) -> Asked | None:
        """Return a question about one rule; none where it can't be broken on this house."""
        return Family.ask(self, subject, self.seed_of(rule, turn))


def _which_crew(subject: Subject, draw: QuestionChance, name: str) -> QuestionDraft:
    moment = _moment(subject, draw, name)
    rule = rules_by_name()[name]
    first = draw.chance("which crew is wrong") < 0.5
    crews = (moment.wrong, moment.right) if first else (moment.right, moment.wrong)
    lists = [_list(subject, crew, moment) for crew in crews]
    needs(lists[0] != lists[1])
    text = "\n".join(
        (
            _(
                "Two crews build the same roof. {known}A step in one list only was not done by the other crew. Steps "
                "in neither list were done right by both. Which of them is wrong, and why?"
            ).format(known=_known(subject, moment)),
            _("Crew 1: {lines}").format(lines=_numbered(lists[0])),
            _("Crew 2: {lines}").format(lines=_numbered(lists[1])),
        )
    )
    other, not_that = _other_reason(text, name)
    guilty, innocent = ("1", "2") if first else ("2", "1")
    said = _("Crew {crew}. {why}")
    choices = [said.format(crew=crew, why=why) for why in (rule.why, other) for crew in (guilty, innocent)]
    did = moment.finding.what
    another = _("The crew is right. But the reason is another: {did} {not_that}").format(did=did, not_that=not_that)
    slips = (
        Slip(choices[1], _("The reason is right. But it was crew {crew}: {did}").format(crew=guilty, did=did)),
        Slip(choices[2], another),
        Slip(choices[3], _("It was crew {crew}: {did}").format(crew=guilty, did=did)),
    )
    return QuestionDraft(
        text, OneOf(tuple(choices), 0), (did, rule.fix), slips, (), _drawing(subject, crews, draw), (name,), BESIDE
    )


def _what_now(subject: Subject, draw: QuestionChance, name: str) -> QuestionDraft:
    moment = _moment(subject, draw, name)
    rule = rules_by_name()[name]
    fine = name not in NEVER_FINE and draw.chance("nothing wrong") < GO_ON_SHARE
    crew = moment.right if fine else moment.wrong
    right, wrong = (_list(subject, each, moment) for each in (moment.right, moment.wrong))
    needs(right != wrong)
    lines = right if fine else _with_left_out(right, wrong)
    text = "\n".join(
        (
            _(
                "A crew has come this far. {known}What is not in the list was done right. What has to be done now?"
            ).format(known=_known(subject, moment)),
            _numbered(lines),
        )
    )
    go_on = _("Nothing. Go on.")
    away = _other_things(text, name, draw)
    did = moment.finding.what
    if fine:
        own = Slip(rule.fix, _("Here it was done right, so there is nothing to put right. Read the lines again."))
        choices, slips = (go_on, rule.fix, *(slip.text for slip in away)), (own, *away)
        working = (_("Nothing is wrong here."), _("What could have gone wrong: {why}").format(why=rule.why))
    else:
        on = Slip(go_on, _("Something is wrong here: {did}").format(did=did))
        choices, slips, working = (rule.fix, go_on, *(slip.text for slip in away)), (on, *away), (did, rule.why)
    return QuestionDraft(
        text, OneOf(choices, 0), working, slips, (), _drawing(subject, (crew,), draw), (name,), ONE_BY_ONE
    )


def _other_reason(text: str, rule: str) -> tuple[str, str]:
    """A wrong reason, and what is wrong with it: of those said on site the one that shares most with what is asked."""
    words = words_of(text)
    return max(SLIPS[rule].why, key=lambda each: len(words_of(each[0]) & words))


def _other_things(text: str, rule: str, draw: QuestionChance) -> tuple[Slip, ...]:
    """Wrong things to do: one that is done on site, and others that put other things right."""
    own = Slip(*pick(SLIPS[rule].do, draw.seed, draw.house, rule, "thing"))
    others = distractors(text, rule, OTHERS, draw.seed, draw.house, rule, "now")
    instead = _("Nothing here asks for that. It is for this: {why}")
    return (own, *(Slip(each.fix, instead.format(why=each.why)) for each in others))


def _moment(subject: Subject, draw: QuestionChance, name: str) -> Moment:
    moment = moment_of(subject, name, draw.seed % DAYS)
    if moment is None:
        raise NothingToAsk
    return moment


def _list(subject: Subject, crew: Crew, moment: Moment) -> list[str]:
    places = moment.finding.rule in PLACED
    return list(dict.fromkeys(action_line(subject, action, crew.site, places=places) for action in crew.shown))


def _numbered(lines: list[str]) -> str:
    return " ".join(f"{n}. {line}." for n, line in enumerate(lines, 1))


def _with_left_out(right: list[str], wrong: list[str]) -> list[str]:
    """The lines of the wrong crew; where all that is wrong is what it never did, these too, before its last."""
    if not set(wrong) <= set(right):
        return wrong
    return [*wrong[:-1], *(_("Not done: {line}").format(line=line) for line in right if line not in wrong), wrong[-1]]


def _known(subject: Subject, moment: Moment) -> str:
    """What is to be known beside the lines, with a space after it."""
    finding = moment.finding
    said = [KNOWN[finding.rule]] if finding.rule in KNOWN else []
    if finding.rule in PLACED and finding.member in subject.layout.by_tag:
        said.append(_("On the layout: {place}.").format(place=belongs(subject, finding.member)))
    found = next((a for a in moment.right.shown if isinstance(a, Report) and a not in moment.wrong.actions), None)
    late = next((a for a in moment.wrong.shown if isinstance(a, Report)), None)
    report = found or (late if finding.rule != "report-without-looking" else None)
    if report is not None:
        what, _colon, fault = FAULTS[report.fault].partition(": ")
        of = f"{what} " if report.fault not in LIES else ""
        said.append(_("What was found here: {fault}.").format(fault=of + fault))
    facts = {"got": finding.got, "want": finding.want, "member": finding.member}
    return "".join(text.format(**facts) + " " for text in said)


def _drawing(subject: Subject, crews: tuple[Crew, ...], draw: QuestionChance) -> Drawing | None:
    """The roofs of the crews, where something that differs can be seen on a plan."""
    return Drawing(subject.layout, sites=tuple(crew.site for crew in crews)) if _seen(crews) else None


def _seen(crews: tuple[Crew, ...]) -> bool:
    return any(isinstance(action, Stand | Brace | Unbrace | Restrain | Fit) for crew in crews for action in crew.shown)


def _of_stage(form: str, stage: Stage) -> RuleFamily:
    judged = tuple(rule.name for rule in all_rules() if rule.stage == stage and rule.name not in NOT_SHOWN)
    draft = _which_crew if form == "which-crew" else _what_now

    def make(subject: Subject, draw: QuestionChance) -> QuestionDraft:
        return draft(subject, draw, judged[draw.seed % len(judged)])

    why = _("Whoever sees a mistake while it is small can still stop it. Say what is wrong, and why.")
    return RuleFamily(
        f"{form}-{stage}", TOPIC_OF[stage], 3, (SERVES[stage],), judged, why, SAFETY, PRACTICE, make, judged=judged
    )


which_crew_pre_start = _of_stage("which-crew", "pre-start")
which_crew_set_out = _of_stage("which-crew", "set-out")
which_crew_stand = _of_stage("which-crew", "stand")
which_crew_brace = _of_stage("which-crew", "brace")
which_crew_fix = _of_stage("which-crew", "fix")
which_crew_hand_over = _of_stage("which-crew", "hand-over")
what_now_pre_start = _of_stage("what-now", "pre-start")
what_now_set_out = _of_stage("what-now", "set-out")
what_now_stand = _of_stage("what-now", "stand")
what_now_brace = _of_stage("what-now", "brace")
what_now_fix = _of_stage("what-now", "fix")
what_now_hand_over = _of_stage("what-now", "hand-over")
JUDGING: tuple[RuleFamily, ...] = tuple(made for made in list(globals().values()) if isinstance(made, RuleFamily))
"""Every family of this module."""
