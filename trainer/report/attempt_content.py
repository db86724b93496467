"""One attempt as a report has it: facts of the record put to words, lines and drawings, whatever prints them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from trainer.course import Course
from trainer.level import Level, parse_level
from trainer.picture import Picture
from trainer.picture.falling import down
from trainer.picture.found import FoundMark
from trainer.picture.moments import built_picture, moments_picture, reference_picture
from trainer.picture.site_in_space import site_in_space
from trainer.read import Faulty
from trainer.records.attempt import Attempt, RecordedHouse
from trainer.records.chain import JsonObject
from trainer.records.clock import moment
from trainer.records.gradebook import HOUSES_DIFFER, grades_of, houses_differ
from trainer.records.judging import moved_on, session_of
from trainer.records.regrade import LaterMark
from trainer.records.verify import LIMITS, Said
from trainer.report.found_content import (
    FindingContent,
    KindFound,
    findings_of,
    missing_in_words,
    none_found,
    of_each_kind,
)
from trainer.report.in_words import action_line, lasting
from trainer.report.skills import skills_in
from trainer.report.unit_content import covered_by, covered_in_words
from trainer.score import FULL
from trainer.session import Session
from trainer.session.skills import in_words, skills_shown
from trainer.session.why_now import hints_counted
from trainer.site import Refused, Site, act, as_left, start
from trainer.terms import MODE_NAMES, OUTCOME_NAMES, SEVERITIES
from trainer.words import CAUTION, INVENTED, _, listed, ngettext

RINGED = _(
    "A ring is round each truss that something was found of, and round each place left empty; the number beside it is "
    "the action's."
)
ONCE = _("Findings that come of one cause count once, by the worst of them.")
BY_HAND_MS = 2000
"""Where no action took so long, nobody did them one by one at the board."""
ROUNDING = 0.5
"""A number that may be no farther off than this was wanted as it is."""


@dataclass(frozen=True)
class StepContent:
    """One action: ``after`` the start of the house, in words, and how it went."""

    number: int
    after: str
    text: str
    refused: str
    findings: tuple[FindingContent, ...]


@dataclass(frozen=True)
class HouseContent:
    """One house; ``missing`` is what it was handed over without, said first; ``none_found`` stands in for no findings.

    ``findings`` are by kind, the worst first; those of each action are with its step.

    The drawings are None, and ``trouble`` says why, where it can't be built up again.
    """

    title: str
    facts: tuple[tuple[str, str], ...]
    mark: str
    outcome: str
    missing: tuple[str, ...]
    findings: tuple[KindFound, ...]
    none_found: str
    sum: str
    steps: tuple[StepContent, ...]
    built: Picture | None = field(repr=False)
    reference: Picture | None = field(repr=False)
    sites: tuple[Site, ...] = field(repr=False)
    falls: tuple[Picture, ...] = field(repr=False)
    trouble: str
    timed: bool
    """Whether its actions took so long that it says something when each was done; a file that is read in takes none."""

    @property
    def in_space(self) -> Picture | None:
        """The site as it was left, from above at an angle."""
        title = _("{house}, seen at an angle").format(house=self.title)
        return site_in_space(self.sites[-1], title, self.built.words.removesuffix(RINGED)) if self.built else None

    @property
    def replay(self) -> Picture | None:
        """The plan after every action: the longest of all to draw, and on a page with scripts alone."""
        return moments_picture(self.sites, self.built.title, self.built.words) if self.built else None


@dataclass(frozen=True)
class AnswerContent:
    """One question answered."""

    number: int
    text: str
    given: str
    want: str
    right: bool
    took: str


@dataclass(frozen=True)
class AttemptContent:
    """A whole attempt. ``covered`` are items of the unit, each with what of this serves it, or an empty text.

    ``covered_in_words`` has those touched and those not, in a line each.
    """

    title: str
    facts: tuple[tuple[str, str], ...]
    said: tuple[Said, ...]
    houses: tuple[HouseContent, ...]
    answers: tuple[AnswerContent, ...]
    covered: tuple[tuple[str, str], ...]
    covered_in_words: tuple[str, str]
    cautions: tuple[str, ...]
    limits: tuple[str, ...]
    skills: tuple[tuple[str, str], ...] = ()
    """The skills of the course that it shows, each with how far."""
    asked: int = 0
    """How many questions it had, answered or not."""

    @property
    def right(self) -> str:
        """How many of its questions were answered rightly, in words; empty where it had none."""
        text = _("Questions: {n} of {all} right.")
        return text.format(n=sum(answer.right for answer in self.answers), all=self.asked) if self.asked else ""


def attempt_content(
    attempt: Attempt, trust: str, said: Sequence[Said], later: Sequence[LaterMark] = (), course: Course | None = None
) -> AttemptContent:
    """Return what a report says of an attempt that holds: its label ``trust``, and what was ``said`` of the record.

    ``course`` has the skills that are practised.
    """
    facts = (
        (_("Code name"), attempt.code),
        (_("Attempt"), attempt.id),
        (_("Kind"), MODE_NAMES[attempt.mode]),
        (_("Pack"), str(attempt.opening.get("title", _("none")))),
        (_("Begun"), moment(attempt.began)),
        (_("Took"), lasting(attempt.ended - attempt.began)),
        *_book(attempt),
        *([(_("Houses"), HOUSES_DIFFER)] if houses_differ(attempt) else []),
        (_("Left on the way"), _gaps(attempt)),
        (_("Closed"), _("yes") if attempt.closed else _("no")),
        (_("How far it can be relied on"), trust),
        (_("Code at the close"), attempt.head_code),
    )
    built = [_again(attempt, house) for house in attempt.houses]
    houses = tuple(
        _house(house, built[n], tuple(each for each in later if each.house == n))
        for n, house in enumerate(attempt.houses)
    )
    again = [(h, level, s.site.layout) for h, (level, s, _t) in zip(attempt.houses, built, strict=True) if level and s]
    covered = covered_by(attempt, again)
    return AttemptContent(
        _("Attempt of {code}").format(code=attempt.code), facts, tuple(said), houses, tuple(_answers(attempt)),
        covered, covered_in_words(covered, len(houses)), (INVENTED, CAUTION), LIMITS,
        skills_in(course, attempt) if course else (), grades_of(attempt).quiz_total or len(attempt.answers),
    )  # fmt: skip


def _book(attempt: Attempt) -> Iterator[tuple[str, str]]:
    """What the gradebook has of it beside its marks."""
    grades = grades_of(attempt)
    if grades.allowed_minutes is not None:
        text = _("{n:.1f} of {all} min")
        used = text.format(n=grades.used_minutes, all=grades.allowed_minutes)
        yield _("Time used"), f"{used}; {_('time was up')}" if grades.time_up else used
    if grades.extra_minutes or grades.break_minutes:
        text = _("{n} min more, {breaks} min of breaks")
        yield _("Granted"), text.format(n=grades.extra_minutes, breaks=grades.break_minutes)
    if grades.eased:
        yield _("The board was eased"), grades.eased
    if grades.quiz_total is not None:
        text = _("{right} of {total}")
        right = text.format(right=grades.quiz_right, total=grades.quiz_total)
        yield _("Questions right"), f"{right}. {grades.sums_apart}" if grades.sums_apart else right
    yield _("Hints used"), str(grades.hints)


def _gaps(attempt: Attempt) -> str:
    return "; ".join(
        _("{when}, for {long}").format(when=moment(since), long=lasting(until - since)) for since, until in attempt.gaps
    ) or _("no")


def _house(
    house: RecordedHouse, again: tuple[Level | None, Session | None, str], later: tuple[LaterMark, ...]
) -> HouseContent:
    level, session, trouble = again
    findings = findings_of(house, level)
    by_step: dict[int, list[FindingContent]] = {}
    for finding in findings:
        by_step.setdefault(finding.step, []).append(finding)
    steps = tuple(_step(house, each, by_step) for each in house.acts)
    title = level.title if level else house.level
    to_meet = house.practice_mark if house.practice_mark is not None or level is None else level.lesson.practice_mark
    facts = [
        (_("House"), f"{house.level}: {title}"),
        (_("Seed"), str(house.seed)),
        (_("Took"), lasting(house.ended - house.began)),
        (_("Actions"), str(len(house.acts))),
        (_("Actions that nobody could do"), str(sum("refused" in each for each in house.acts))),
        (_("Hints used"), str(_hints(house))),
        (_("Practice mark"), str(to_meet)),
    ]
    if session is not None and session.hints:
        facts.append((_("How deep the hints went"), hints_counted(session.hint_depths)))
    if session is not None and (shown := skills_shown(session.outcomes, session.site)):
        facts.append((_("Shown by a hint, so not done"), in_words(shown)))
    facts += [
        (_("Under later rules"), f"{each.score}, {OUTCOME_NAMES.get(each.outcome, each.outcome).lower()}")
        for each in later
    ]
    # A mark of a house that was not handed over would say too much.
    marked = None if house.mark is None or house.mark["outcome"] == "unfinished" else house.mark
    moments = tuple(_sites(session)) if session else ()
    sites = tuple(map(as_left, moments))
    built, reference = _drawn(sites[-1], _marks(house), title) if sites else (None, None)
    return HouseContent(
        title, tuple(facts),
        _("Not finished") if marked is None else _("{score} of 100").format(score=marked["score"]),
        "" if marked is None else OUTCOME_NAMES.get(str(marked["outcome"]), str(marked["outcome"])),
        missing_in_words(house), of_each_kind(findings), none_found(house), _sum(house, findings, level), steps, built,
        reference, sites, tuple(_falls(moments, title)), trouble, _timed(house),
    )  # fmt: skip


def _timed(house: RecordedHouse) -> bool:
    """Whether any action took as long as a hand at the board does."""
    times = [house.began, *(int(each["at"]) for each in house.acts)]
    return any(after - before >= BY_HAND_MS for before, after in pairwise(times))


def _again(attempt: Attempt, house: RecordedHouse) -> tuple[Level | None, Session | None, str]:
    """The level and the house built up again, as far as this trainer still understands them."""
    try:
        level = parse_level(house.text, house.level)
        session = session_of(house, attempt.mode)
    except (Faulty, ValueError):
        return None, None, _("This trainer can't build this house up again, so it is not drawn.")
    moved = moved_on(attempt)
    return level, session, _("Rules or layout have moved on since. The drawings are of today's.") if moved else ""


def _marks(house: RecordedHouse) -> list[FoundMark]:
    """The worst of what was found of each truss, with the number of its action, counted from 1."""
    found = [(fact, int(each["index"]) + 1) for each in house.standing for fact in each["found"]]
    found = [each for each in found if each[0]["severity"] in SEVERITIES]
    found.sort(key=lambda each: (SEVERITIES.index(each[0]["severity"]), each[1]))
    worst: dict[str, FoundMark] = {}
    for fact, number in found:
        worst.setdefault(str(fact["member"]), FoundMark(str(fact["member"]), str(fact["severity"]), str(number)))
    return list(worst.values())


def _drawn(site: Site, found: Sequence[FoundMark], title: str) -> tuple[Picture, Picture]:
    as_built = _("{title}, as built").format(title=title)
    fell = len(down(site))
    n = len(site.stood) - fell
    words = ngettext("{n} of {all} trusses stands.", "{n} of {all} trusses stand.", n).format(
        n=n, all=len(site.layout.members)
    )
    if fell:
        lies = ngettext("{n} truss lies where it fell.", "{n} trusses lie where they fell.", fell).format(n=fell)
        words = f"{words} {lies}"
    reference = reference_picture(site.layout, _("{title}, where each truss belongs").format(title=title), "")
    if any(one.tag in site.layout.by_tag for one in found):
        words = f"{words} {RINGED}"
    return built_picture(site, found, as_built, words), reference


def _falls(sites: Sequence[Site], title: str) -> Iterator[Picture]:
    """Yield what each row that went over left behind, at the action that let it go, counted from 1."""
    for number, (before, after) in enumerate(pairwise(sites), 1):
        if after.fall is not None and before.fall is None:
            fell = [tag for tag, lying in after.fall.lying.items() if not lying.struck]
            struck = [tag for tag, lying in after.fall.lying.items() if lying.struck]
            words = _("Fell: {tags}.").format(tags=listed(fell))
            if struck:
                words += " " + _("Struck: {tags}.").format(tags=listed(struck))
            yield site_in_space(after, _("{title}: the fall at action {n}").format(title=title, n=number), words)


def _sites(session: Session) -> Iterator[Site]:
    """The site before the first action and after each; what was refused changed nothing."""
    site = start(session.job)
    yield site
    for outcome in session.outcomes:
        after = act(site, outcome.index, outcome.action)
        site = site if isinstance(after, Refused) else after[0]
        yield site


def _step(house: RecordedHouse, done: JsonObject, by_step: dict[int, list[FindingContent]]) -> StepContent:
    number = int(done["index"]) + 1
    return StepContent(
        number, lasting(int(done["at"]) - house.began), _action(done), str(done.get("refused", "")),
        tuple(by_step.get(number, ())),
    )  # fmt: skip


def _action(done: JsonObject) -> str:
    line = action_line(done["action"])
    return _("{action} (after a hint)").format(action=line) if done.get("hinted") else line


def _hints(house: RecordedHouse) -> int:
    """How often a hint was taken; undoing an action does not give it back."""
    return sum(bool(done.get("hinted")) for done in house.acts)


def _sum(house: RecordedHouse, findings: Sequence[FindingContent], level: Level | None) -> str:
    if house.mark is None:
        return ""
    off = sum(finding.off for finding in findings)
    hints = _hints(house) * level.lesson.hint_cost if level else 0
    left = max(0, FULL - off - hints)
    if left != house.mark["score"]:
        return _("The record says {score}; the lines above come to {left} under the rules of today.").format(
            score=house.mark["score"], left=left
        )
    if hints:
        text = _("100 less {off}, less {hints} for hints, is {left}.").format(off=off, hints=hints, left=left)
    else:
        text = _("100 less {off} is {left}.").format(off=off, left=left)
    return text if all(finding.off for finding in findings) else f"{text} {ONCE}"


def _answers(attempt: Attempt) -> Iterator[AnswerContent]:
    for number, entry in enumerate(attempt.answers, 1):
        body = entry.body
        yield AnswerContent(
            number, str(body["text"]), _answer(body, body["given"]), _answer(body, body["want"]), bool(body["right"]),
            lasting(int(body["took"])),
        )  # fmt: skip


def _wanted(low: float, high: float) -> str:
    """A number that was wanted, and how far off it may be, where that is more than rounding."""
    middle, off = (low + high) / 2, (high - low) / 2
    return f"{middle:g} ± {off:g}" if off > ROUNDING else f"{middle:g}"


def _answer(body: JsonObject, value: object) -> str:
    """An answer in the question's own texts, where they were recorded."""
    texts = {name: text for part in (body.get("offered") or {}).values() for name, text in part.items()}
    if value is None:
        return _("none")
    if body["asked"] == "numeric":
        return _wanted(*value) if isinstance(value, list) else f"{value:g}"
    names: Iterable[object] = value if isinstance(value, list) else ()
    if body["asked"] == "matching":
        return "; ".join(": ".join(texts.get(str(one), str(one)) for one in pair) for pair in names)  # type: ignore[attr-defined]
    return "; ".join(texts.get(str(name), str(name)) for name in names)
