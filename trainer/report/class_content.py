"""A class as a report has it: who is where, what goes wrong, where time goes, how questions did, what comes next."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from statistics import median

from trainer.course import Course
from trainer.picture import Picture
from trainer.picture.chart import Bar, bars
from trainer.read import write_table
from trainer.records.attempt import Attempt, RecordedHouse
from trainer.records.clock import moment
from trainer.records.gradebook import HOUSES_DIFFER, grades_of, houses_differ, score_of
from trainer.records.judging import missing_from
from trainer.records.proof import Proved
from trainer.records.remarks import in_one_cell, seen_together
from trainer.records.trust import BY_TRUST
from trainer.report.class_book import (
    APART_COLUMNS,
    BOOK_HEAD,
    GRADE_COLUMNS,
    apart_cells,
    book_rows,
    filled,
    grade_cells,
    ranks_of,
    titles_of,
)
from trainer.report.class_counted import counted_in
from trainer.report.class_questions import PaperTable, paper_tables
from trainer.report.in_words import lasting
from trainer.report.skills import Table, skills_of_class
from trainer.rules import all_rules, title_of
from trainer.terms import OUTCOME_NAMES, SEVERITIES, SEVERITY_NAMES, STAGE_NAMES, VERBS, Stage
from trainer.words import CAUTION, _, listed, ngettext

MOST_BARS = 12
HARD = 0.5
"""A question that fewer get right than this is worth a lesson."""
IDLE = 10 * 60_000
"""A longer pause between two actions counts as this long, ms: somebody was called away."""
COLUMNS = (
    "code", "level", "attempts", "last_score", "last_outcome", "best_score", "minutes", "actions", "findings", "trust",
    "missing", "trust_why", "hints", *GRADE_COLUMNS, "remarks", "eased", "apart",
    *APART_COLUMNS,
)  # fmt: skip
NO_RESULT = _("Ticket given, result missing")
NO_NAMES = _("Code names only. The list of names stays with the college.")
NO_CLAIM = _("Marks are of the practice mark only. They do not say that anyone is competent or ready for site.")


@dataclass(frozen=True)
class Tried:
    """How one person did on one house.

    ``last`` and ``best`` are of the attempts of the best trust alone, whose label ``trust`` is; ``attempts`` and
    ``minutes`` of all, and ``apart`` says what each of less trust came to.
    """

    code: str
    level: str
    attempts: int
    last: RecordedHouse
    best: int | None
    minutes: float
    findings: int
    trust: str
    of: Attempt = field(repr=False)
    """The attempt of which ``last`` is a part."""
    hints: int = 0
    apart: tuple[str, ...] = ()


@dataclass(frozen=True)
class Chart:
    """A drawing and the table that says the same."""

    title: str
    picture: Picture = field(repr=False)
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""


@dataclass(frozen=True)
class ClassContent:
    """A whole class. ``where`` has a row for each code name and a column for each of ``houses``."""

    title: str
    facts: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]
    houses: tuple[str, ...]
    """The titles of what was tried."""
    where: tuple[tuple[str, tuple[str, ...]], ...]
    charts: tuple[Chart, ...]
    papers: tuple[PaperTable, ...]
    suggestions: tuple[str, ...]
    remarks: tuple[str, ...]
    tried: tuple[Tried, ...] = field(repr=False)
    book: tuple[tuple[str, ...], tuple[tuple[str, ...], ...]] = ((), ())
    """Its gradebook: the columns that have something in them, and a line for each attempt."""
    asked: tuple[tuple[Attempt, str], ...] = field(default=(), repr=False)
    """Attempts of questions alone, each with its label."""
    whys: Mapping[bytes, str] = field(default_factory=dict, repr=False)
    together: Mapping[str, str] = field(default_factory=dict, repr=False)
    """What shows only where all attempts are looked at, by their ids."""
    missing: tuple[str, ...] = ()
    """Code names with a ticket whose result is not there."""
    skills: Table = ((), ())
    """How far people have come with each skill of the course."""


def class_content(
    attempts: Sequence[tuple[Attempt, str]],
    taught: Mapping[str, Sequence[str]],
    whys: Mapping[bytes, str] | None = None,
    course: Course | None = None,
    missing: Sequence[str] = (),
    now: int | None = None,
) -> ClassContent:
    """Return what is to be said of attempts that hold, each with its label of trust.

    ``taught`` has, for each rule, the titles of the houses that teach it, the easiest first; ``whys`` the reason for
    each label, by the attempt's last hash; ``course`` has the skills that are practised; ``missing`` are code names
    with a ticket whose result is not there. Of an assessment that is not closed it says only that it goes on.
    """
    attempts = [(attempt.veiled, trust) for attempt, trust in attempts]
    tried = tuple(_tried(attempts))
    levels = tuple(dict.fromkeys(sorted(each.level for each in tried)))
    codes = sorted({attempt.code for attempt, _trust in attempts})
    by_code = {(each.code, each.level): each for each in tried}
    where = tuple((code, tuple(_cell(by_code.get((code, level))) for level in levels)) for code in codes)
    times = [attempt.began for attempt, _trust in attempts]
    facts = (
        (_("Code names"), str(len(codes))),
        *([(NO_RESULT, ", ".join(missing))] if missing else []),
        (_("Attempts"), str(len(attempts))),
        (_("Houses begun"), str(sum(len(attempt.houses) for attempt, _trust in attempts))),
        (_("From"), moment(min(times)) if times else _("nothing yet")),
        (_("To"), moment(max(times)) if times else _("nothing yet")),
        *([(_("Houses"), HOUSES_DIFFER)] if any(houses_differ(attempt) for attempt, _trust in attempts) else []),
    )
    ranks = ranks_of(attempts)
    counted, left_out = counted_in(attempts, ranks)
    facts += ((_("Not counted in what is said of all"), left_out),) if left_out else ()
    papers = tuple(paper_tables(counted))
    titles = titles_of(each.last for each in sorted(tried, key=lambda each: BY_TRUST.index(each.trust)))
    broken = _broken(counted, tried)
    together = seen_together((attempt for attempt, _trust in attempts), now, lambda each: ranks[each.head])
    return ClassContent(
        _("Class report"), facts, (NO_NAMES, NO_CLAIM, CAUTION), tuple(titles[level] for level in levels), where,
        (_broken_chart(broken, len(codes)), _stage_chart(counted), _house_chart(tried, titles)), papers,
        tuple(_suggestions(broken, taught, len(codes), papers, tried)), tuple(_remarks(attempts, together)), tried,
        filled(BOOK_HEAD, book_rows(attempts, whys)),
        tuple(each for each in attempts if each[0].papers and not each[0].houses), whys or {}, together,
        tuple(missing),
        filled(*skills_of_class(course, [attempt for attempt, _trust in counted])) if course else ((), ()),
    )  # fmt: skip


def _remarks(attempts: Sequence[tuple[Attempt, str]], together: Mapping[str, str]) -> Iterator[str]:
    """What is worth a look before anything is signed: doubts, and what happened on the way."""
    ends = Counter(id_ for id_, _head in {(attempt.id, attempt.head) for attempt, _trust in attempts})
    for attempt, _trust in sorted(attempts, key=lambda each: (each[0].code, each[0].began)):
        if ends[attempt.id] > 1:
            text = _("{code}, begun {when}: Results under its id are not the same: {n}. One was cut off or changed.")
            yield text.format(code=attempt.code, when=moment(attempt.began), n=ends[attempt.id])
        seen = (*attempt.doubts, *attempt.remarks) if isinstance(attempt, Proved) else ()
        for text in (*seen, *filter(None, [together.get(attempt.id)])):
            yield _("{code}, begun {when}: {text}").format(code=attempt.code, when=moment(attempt.began), text=text)


def as_table(content: ClassContent) -> str:
    """Return a class as CSV, a row for each code name and house; at its end one for each whose result is missing."""
    rows: list[Sequence[object]] = [COLUMNS]
    for each in content.tried:
        score, outcome = score_of(each.last), each.last.mark["outcome"] if each.last.mark else ""
        marks = ["" if score is None else score, outcome, "" if each.best is None else each.best]
        counted = [f"{each.minutes:.1f}", len(each.last.acts), each.findings, each.trust, len(missing_from(each.last))]
        book = [
            content.whys.get(each.of.head, ""),
            each.hints,
            *grade_cells(grades_of(each.of)),
            in_one_cell(each.of, content.together),
            grades_of(each.of).eased,
            "; ".join(each.apart),
            *apart_cells(grades_of(each.of)),
        ]
        rows.append([each.code, each.level, each.attempts, *marks, *counted, *book])
    for attempt, trust in content.asked:
        grades = grades_of(attempt)
        counted = [f"{grades.used_minutes:.1f}", "", "", trust, ""]
        book = [content.whys.get(attempt.head, ""), grades.hints, *grade_cells(grades)]
        seen = in_one_cell(attempt, content.together)
        ending = [seen, grades.eased, "", *apart_cells(grades)]
        rows.append([attempt.code, "", 1, "", "", "", *counted, *book, *ending])
    said = {"attempts": 0, "remarks": NO_RESULT}
    rows += ([each, *(said.get(column, "") for column in COLUMNS[1:])] for each in content.missing)
    return write_table(rows)


def _tried(attempts: Iterable[tuple[Attempt, str]]) -> Iterator[Tried]:
    by_both: dict[tuple[str, str], list[tuple[RecordedHouse, str, Attempt, int]]] = defaultdict(list)
    for attempt, trust in attempts:
        for house, hints in zip(attempt.houses, attempt.hints, strict=True):
            by_both[attempt.code, house.level].append((house, trust, attempt, hints))
    for (code, level), all_of in sorted(by_both.items()):
        ordered = sorted(all_of, key=lambda each: each[0].began)
        most = max((each[1] for each in ordered), key=BY_TRUST.index)
        counted = [each for each in ordered if each[1] == most]
        last, trust, of, hints = counted[-1]
        marks = [score for each in counted if (score := score_of(each[0])) is not None]
        apart = tuple(f"{each[1]}: {_went(each[0])}" for each in ordered if each[1] != most)
        minutes = sum(sum(_spent(each[0]).values()) for each in ordered) / 60_000
        found = sum(len(act["found"]) for act in last.standing)
        yield Tried(code, level, len(ordered), last, max(marks, default=None), minutes, found, trust, of, hints, apart)


def _cell(tried: Tried | None) -> str:
    if tried is None:
        return ""
    went = _went(tried.last)
    if tried.apart:
        text = ngettext(
            "{trust}: {outcome} (of {n} try); not counted: {apart}",
            "{trust}: {outcome} (of {n} tries); not counted: {apart}",
            tried.attempts,
        )
        apart = "; ".join(tried.apart)
        return text.format(trust=tried.trust, outcome=went, n=tried.attempts, apart=apart)
    if tried.of.mode == "assessment" and tried.trust == "self-study" and tried.last.mark is not None:
        went = f"{tried.trust}: {went}"  # nobody is to take it for a result that somebody vouches for
    return went if tried.attempts == 1 else _("{outcome} (try {n})").format(outcome=went, n=tried.attempts)


def _went(house: RecordedHouse) -> str:
    mark = house.mark
    if mark is None:
        return _("going on")
    went = OUTCOME_NAMES[mark["outcome"]].lower()
    if mark["outcome"] == "unfinished":
        return went
    n = len(missing_from(house))
    lacks = ngettext("{n} thing missing", "{n} things missing", n).format(n=n)
    return f"{went}, {lacks}, {mark['score']}" if n else f"{mark['score']}, {went}"


def _spent(house: RecordedHouse) -> Counter[Stage]:
    """Time for each stage, ms: from one action to the next, which it is put down to."""
    spent: Counter[Stage] = Counter()
    before = house.began
    for act in house.acts:
        at = int(act["at"])
        verb = VERBS.get(str(act["action"].get("do")))
        if verb and verb.stage:
            spent[verb.stage] += min(max(0, at - before), IDLE)
        before = at
    return spent


@dataclass
class _Broken:
    """How often a rule was broken, and by whom."""

    severity: str
    times: int = 0
    codes: set[str] = field(default_factory=set)


def _broken(attempts: Iterable[tuple[Attempt, str]], tried: Iterable[Tried]) -> dict[str, _Broken]:
    """What was broken, in attempts that count: not in one of a lesser label than the best at the same house."""
    found: dict[str, _Broken] = {}
    best = {(each.code, each.level): each.trust for each in tried}
    for attempt, trust in attempts:
        for house in (each for each in attempt.houses if best[attempt.code, each.level] == trust):
            for act in house.standing:
                for fact in act["found"]:
                    each = found.setdefault(str(fact["rule"]), _Broken(str(fact["severity"])))
                    each.times += 1
                    each.codes.add(attempt.code)
    return dict(sorted(found.items(), key=lambda item: (-len(item[1].codes), _weight(item[1]), item[0])))


def _weight(broken: _Broken) -> int:
    return SEVERITIES.index(broken.severity) if broken.severity in SEVERITIES else len(SEVERITIES)


def _broken_chart(broken: Mapping[str, _Broken], learners: int) -> Chart:
    title = _("What went wrong most, by how many people it happened to")
    share = _("{n} of {all}")
    first = [
        Bar(title_of(name), len(b.codes), share.format(n=len(b.codes), all=learners))
        for name, b in list(broken.items())[:MOST_BARS]
    ]
    drawn = bars(first, title)
    rows = tuple(
        (title_of(name), SEVERITY_NAMES.get(b.severity, b.severity), str(len(b.codes)), str(b.times))
        for name, b in broken.items()
    )
    return Chart(title, drawn, (_("What went wrong"), _("Kind"), _("People"), _("Times")), rows)


def _stage_chart(attempts: Iterable[tuple[Attempt, str]]) -> Chart:
    title = _("Where the time goes, by stage")
    spent: Counter[Stage] = Counter()
    for attempt, _trust in attempts:
        for house in attempt.houses:
            spent.update(_spent(house))
    total = sum(spent.values()) or 1
    drawn = bars([Bar(name, spent[s], f"{100 * spent[s] / total:.0f} %") for s, name in STAGE_NAMES.items()], title)
    rows = tuple((name, lasting(spent[s]), f"{100 * spent[s] / total:.0f} %") for s, name in STAGE_NAMES.items())
    note = _("The time from one action to the next is put down to the later one. A pause counts as 10 minutes at most.")
    return Chart(title, drawn, (_("Stage"), _("Time, all together"), _("Share")), rows, note)


def _house_chart(tried: Sequence[Tried], titles: Mapping[str, str]) -> Chart:
    title = _("Time for each house, the middle of all who tried it")
    by_level: dict[str, list[float]] = defaultdict(list)
    for each in tried:
        by_level[each.level].append(each.minutes)
    middle = sorted(((median(times), level, len(times)) for level, times in by_level.items()), reverse=True)
    drawn = bars(
        [Bar(titles[level], round(minutes), f"{minutes:.0f} min") for minutes, level, _n in middle[:MOST_BARS]], title
    )
    rows = tuple((titles[level], str(n), f"{minutes:.1f}") for minutes, level, n in middle)
    return Chart(title, drawn, (_("House"), _("People"), _("Minutes")), rows)


def _suggestions(
    broken: Mapping[str, _Broken], taught: Mapping[str, Sequence[str]], learners: int,
    papers: Sequence[PaperTable], tried: Sequence[Tried],
) -> Iterator[str]:  # fmt: skip
    rules = {rule.name: rule for rule in all_rules()}
    urgent = sorted(broken.items(), key=lambda item: (item[1].severity != "stop-work", -len(item[1].codes), item[0]))
    for name, each in urgent[:3]:
        n = len(each.codes)
        text = ngettext(
            "{title}: it happened to {n} of {all} ({kind}). {fix}",
            "{title}: it happened to {n} of {all} ({kind}). {fix}",
            n,
        )
        kind = SEVERITY_NAMES.get(each.severity, each.severity).lower()
        fix = rules[name].fix if name in rules else ""
        houses = [f"'{title}'" for title in taught.get(name, ())[:3]]
        practise = ""
        if houses:
            practise = _(" Build {house} in the next lesson").format(house=houses[0])
            practise += _("; then {houses}.").format(houses=listed(houses[1:])) if houses[1:] else "."
        yield text.format(title=title_of(name), n=n, all=learners, kind=kind, fix=fix) + practise
    for paper in papers:
        hard = [row for row in paper.rows if _share(row[1]) < HARD]
        for row in sorted(hard, key=lambda row: _share(row[1]))[:3]:
            yield _("Few got this right ({n}): {text}").format(n=row[1], text=row[0])
    waiting = sorted(
        {each.code for each in tried if each.last.mark is None or each.last.mark["outcome"] == "unfinished"}
    )
    if waiting:
        yield _("Not handed over yet: {codes}. Give them time to finish.").format(codes=", ".join(waiting))
    if not broken and tried:
        yield _("Nothing was broken. Go on to a harder house.")


def _share(count: str) -> float:
    right, _slash, all_of = count.partition(" / ")
    return int(right) / int(all_of)
