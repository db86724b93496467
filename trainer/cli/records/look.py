"""``trainer records list``, ``show`` and ``what``: what is there."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Annotated, Any

import typer

from trainer.cli.data import (
    Assessors,
    DataFolder,
    attempt_meant,
    every_attempt,
    folder_of,
    outlines,
    proved,
    records_explained,
    stored,
    trusted_keys,
    whole,
)
from trainer.cli.given import AsJson, show
from trainer.cli.options import argument, option
from trainer.cli.table import table
from trainer.records.clock import moment, now
from trainer.terms import MODE_NAMES, OUTCOME_NAMES, SEVERITY_NAMES
from trainer.words import _, ngettext

if TYPE_CHECKING:
    from trainer.records.attempt import Attempt, RecordedHouse
    from trainer.records.store import Store

OfCode = Annotated[str | None, option("--code", "NAME", "Only this code name's.")]
Which = Annotated[str, argument("ATTEMPT", "The beginning of an attempt's id, as 'list' shows it.")]
Check = Annotated[bool, typer.Option("--check", help="Also check that each attempt holds, which takes longer.")]
HEADS = (
    _("attempt"), _("code"), _("name"), _("began"), _("mode"), _("houses"), _("questions"), _("time"), _("trust"),
    _("because"), _("note"),
)  # fmt: skip


_UNSEEN: dict[str, Any] = {"score": None, "outcome": None, "missing": []}
"""Of a house that is not marked, or whose mark is not to be seen yet."""


def list_(
    code: OfCode = None,
    check: Check = False,
    data: DataFolder = None,
    assessor: Assessors = None,
    as_json: AsJson = False,
) -> None:
    """List the attempts, by when they began.

    Shows who, what, when, the marks, how far each can be relied on and what to ask about. Where an attempt has two ends
    that contradict each other, both are shown, as a conflict. Only --check looks whether each of them holds.
    """
    from trainer.records.gradebook import tries
    from trainer.records.people import names
    from trainer.records.remarks import seen_together
    from trainer.records.trust import rank_by

    trusted = trusted_keys(data, assessor)
    with stored(data) as store:
        found = every_attempt(store) if check else outlines(store)
        holds = {each.head: each for each in proved(store, [each for each in found if each.fault is None], data)}
        beside = [holds[each.head] if each.head in holds else whole(store, each) for each in found]
        together = seen_together(beside, now(), rank_by(trusted))
        every = [each for each in beside if code is None or each.code == code]
        known = names(store)
        times = tries((each for each in every if each.fault is None), rank_by(trusted))
        rows = [as_json_row(store, attempt, trusted, known, times) for attempt in every]
    ends = Counter(attempt.id for attempt in every)
    for row in rows:
        row["conflict"] = ends[row["attempt"]] > 1
        row["remarks"] += filter(None, [together.get(row["attempt"])])
    if as_json:
        show(json.dumps({"attempts": rows}))
    elif rows:
        show(table(HEADS, [_row(row) for row in rows]))
    else:
        show(_("Nothing is recorded yet."))


def show_(attempt: Which, data: DataFolder = None, assessor: Assessors = None) -> None:
    """Show one attempt: houses, findings, marks, gaps.

    Findings are named by their rules; 'trainer rules NAME' explains one. Of an assessment they are shown once it is
    closed.
    """
    from trainer.records.proof import prove

    trusted = trusted_keys(data, assessor)
    with stored(data) as store:
        found = [prove(each) if each.fault is None else each for each in attempt_meant(store, attempt)]
        show("\n\n".join("\n".join(_shown(store, each, trusted)) for each in found))


def what(data: DataFolder = None) -> None:
    """Say what is stored, where, why and how long."""
    from trainer.records.people import retention_days
    from trainer.records.store import FILE, Store
    from trainer.records.what import WHAT

    path = folder_of(data) / FILE
    days = None
    if path.exists():
        with records_explained(), Store.read(path) as store:
            days = retention_days(store)
    kept = (
        _("until somebody erases it.")
        if days is None
        else ngettext(
            "{n} day; 'trainer records keep' shows what is due.",
            "{n} days; 'trainer records keep' shows what is due.",
            days,
        ).format(n=days)
    )
    show("\n".join([_("Where: {path}").format(path=path), _("How long: {kept}").format(kept=kept), *WHAT]))


def as_json_row(
    store: Store,
    attempt: Attempt,
    trusted: dict[str, str],
    known: dict[str, str],
    times: Mapping[tuple[bytes, int], int],
) -> dict[str, Any]:
    """Return one attempt as ``list --json`` has it. Times are in ms UTC, minutes where their names say so."""
    from trainer.records.gradebook import UNSEEN, grades_of
    from trainer.records.proof import Proved
    from trainer.records.regrade import later_marks
    from trainer.records.trust import trust_and_why
    from trainer.records.verify import cut_off

    fault = attempt.fault
    trust, why = trust_and_why(attempt, trusted) if isinstance(attempt, Proved) else ("self-study", "")
    missing = [proof.missing for proof in attempt.proofs] if isinstance(attempt, Proved) else []
    houses = [] if fault else [
        {
            "level": house.level, "seed": house.seed, **(_UNSEEN if attempt.silent else _mark(house, lacks)),
            "try": times[attempt.head, n], "hints": attempt.hints[n],
        }
        for n, (house, lacks) in enumerate(zip(attempt.houses, missing or [()] * len(attempt.houses), strict=True))
    ]  # fmt: skip
    grades = None if fault else grades_of(attempt).as_json() | (UNSEEN if attempt.silent else {})
    return {
        "attempt": attempt.id,
        "code": attempt.code,
        "name": known.get(attempt.code),
        "mode": attempt.mode,
        "began": attempt.began,
        "ended": attempt.ended,
        "closed": attempt.closed,
        "houses": houses,
        "grades": grades,
        "drills": []
        if fault
        else [{name: body[name] for name in ("drill", "level", "seed", "right")} for body in attempt.drills],
        "later": [
            {"house": each.house, "score": each.score, "outcome": each.outcome, "rules": each.rules}
            for each in later_marks(store, attempt)
            if not attempt.silent
        ],
        "trust": trust,
        "trust_why": why,
        "remarks": [*filter(None, [cut_off(attempt)]), *attempt.remarks] if isinstance(attempt, Proved) else [],
        "head_code": attempt.head_code,
        "fault": _("entry {ordinal}: {what}").format(ordinal=fault.ordinal, what=fault.what) if fault else None,
    }


def _mark(house: RecordedHouse, missing: Sequence[str]) -> dict[str, Any]:
    """The mark of a house, and what its roof was handed over without."""
    from trainer.records.gradebook import score_of

    if house.mark is None:
        return _UNSEEN
    return {"score": score_of(house), "outcome": house.mark["outcome"], "missing": list(missing)}


def _lacks(missing: Sequence[str]) -> str:
    """What a roof that was not met was handed over without, in short."""
    if len(missing) < 2:
        return f": {missing[0]}" if missing else ""
    more = len(missing) - 1
    said = ngettext(": {first} and {n} more", ": {first} and {n} more", more)
    return said.format(first=missing[0], n=more)


def _row(row: dict[str, Any]) -> tuple[str, ...]:
    later = {each["house"]: each["score"] for each in row["later"]}
    marks = [
        f"{house['level']} {'–' if house['score'] is None else house['score']}"
        + (_(" not yet met") + _lacks(house["missing"]) if house["outcome"] == "not yet met" else "")
        + (_(" (now {later})").format(later=later[n]) if n in later else "")
        + (_(" (try {n})").format(n=house["try"]) if house["try"] > 1 else "")
        + (ngettext(" ({n} hint)", " ({n} hints)", house["hints"]).format(n=house["hints"]) if house["hints"] else "")
        for n, house in enumerate(row["houses"])
    ]
    marks += [
        (_("drill {drill} right") if each["right"] else _("drill {drill} not right")).format(drill=each["drill"])
        for each in row["drills"]
    ]
    notes = [
        _("DOES NOT HOLD") if row["fault"] else "",
        _("conflict") if row["conflict"] else "",
        *row["remarks"],
    ]
    return (
        row["attempt"][:8],
        row["code"],
        row["name"] or "",
        moment(row["began"]),
        row["mode"],
        ", ".join(marks),
        *_questions_and_time(row["grades"]),
        row["trust"],
        row["trust_why"],
        ", ".join(filter(None, notes)),
    )


def _questions_and_time(grades: dict[str, Any] | None) -> tuple[str, str]:
    """What the gradebook has of a whole attempt, in words: questions right, and time with what was granted."""
    if grades is None:
        return "", ""
    questions = ""
    if grades["quiz_total"] is not None:
        right = "–" if grades["quiz_right"] is None else grades["quiz_right"]
        questions = _("{right} of {total}").format(right=right, total=grades["quiz_total"])
        if grades["judged_total"] and grades["sums_total"] and grades["quiz_right"] is not None:
            text = _("{questions} (judgement {judged} of {of}, sums {sums} of {all})")
            questions = text.format(
                questions=questions, judged=grades["judged_right"], of=grades["judged_total"],
                sums=grades["sums_right"], all=grades["sums_total"],
            )  # fmt: skip
    time = _("{n:.1f} min").format(n=grades["used_minutes"])
    if grades["allowed_minutes"] is not None:
        text = _("{n:.1f} of {all} min")
        time = text.format(n=grades["used_minutes"], all=grades["allowed_minutes"])
    parts = [time, *([_("time was up")] if grades["time_up"] else [])]
    if grades["extra_minutes"]:
        parts.append(_("{n} min granted").format(n=grades["extra_minutes"]))
    if grades["break_minutes"]:
        parts.append(_("{n} min of breaks").format(n=grades["break_minutes"]))
    if grades["eased"]:
        parts.append(grades["eased"])
    return questions, "; ".join(parts)


def _shown(store: Store, attempt: Attempt, trusted: dict[str, str]) -> Iterator[str]:
    from trainer.records.gradebook import UNSEEN, grades_of, score_of
    from trainer.records.proof import Proved
    from trainer.records.regrade import later_marks
    from trainer.records.trust import trust_and_why
    from trainer.records.verify import LIMITS
    from trainer.report.found_content import missing_in_words
    from trainer.rules.whole import NOT_DONE

    yield _("Attempt {id} of {code}, {mode}, begun {began}").format(
        id=attempt.id, code=attempt.code, mode=MODE_NAMES[attempt.mode], began=moment(attempt.began)
    )
    if fault := attempt.fault:
        yield _("  Does not hold from entry {ordinal} on: {what}").format(ordinal=fault.ordinal, what=fault.what)
        return
    closed = _("{trust}; code {code}; closed") if attempt.closed else _("{trust}; code {code}; not closed")
    trust, why = trust_and_why(attempt, trusted) if isinstance(attempt, Proved) else ("self-study", "")
    yield "  " + closed.format(trust=_("{trust} ({why})").format(trust=trust, why=why), code=attempt.head_code)
    for since, until in attempt.gaps:
        yield _("  Stopped at {since}, went on at {until}").format(since=moment(since), until=moment(until))
    later, shown = later_marks(store, attempt), not attempt.silent
    grades = grades_of(attempt).as_json() | ({} if shown else UNSEEN)
    questions, time = _questions_and_time(grades)
    yield _("  Time: {time}").format(time=time)
    if questions:
        yield _("  Questions right: {questions}").format(questions=questions)
    if grades["hints"]:
        yield _("  Hints: {n}").format(n=grades["hints"])
    yield from (f"  {text}" for text in (attempt.remarks if isinstance(attempt, Proved) else ()))
    for n, house in enumerate(attempt.houses):
        mark = _("not marked") if house.mark is None or not shown else _score(score_of(house), house.mark["outcome"])
        acts = len(house.acts)
        text = ngettext("{level}, seed {seed}: {n} action; {mark}", "{level}, seed {seed}: {n} actions; {mark}", acts)
        yield "  " + text.format(level=house.level, seed=house.seed, n=acts, mark=mark)
        if shown and (missing := missing_in_words(house)):
            yield from (f"    {NOT_DONE}", *(f"      {what}" for what in missing))
        for again in (each for each in later if shown and each.house == n):
            yield _("    under rules {rules}, layout {layout}: {mark}").format(
                rules=again.rules, layout=again.layout, mark=_score(again.score, again.outcome)
            )
        for act in house.acts if shown else ():
            for found in act["found"]:
                yield _("    action {number}: {severity}, {rule} ({member})").format(
                    number=act["index"] + 1,
                    severity=SEVERITY_NAMES.get(found["severity"], found["severity"]),
                    rule=found["rule"],
                    member=found["member"],
                )
    for body in attempt.drills:
        went = _("right") if body["right"] else _("not right")
        yield _("  drill {drill} on {level}: {reached} of {goals} done; {went}").format(
            drill=body["drill"], level=body["level"], reached=body["reached"], goals=body["goals"], went=went
        )
        for found in body["found"]:
            yield f"    {SEVERITY_NAMES.get(found['severity'], found['severity'])}, {found['rule']} ({found['member']})"
    yield from (f"  {limit}" for limit in LIMITS)


def _score(score: int | None, outcome: str) -> str:
    """Say a mark and what came of it; what was not finished has none."""
    if score is None:
        return OUTCOME_NAMES.get(outcome, outcome)
    return _("{score} of 100. {outcome}").format(score=score, outcome=OUTCOME_NAMES.get(outcome, outcome))
