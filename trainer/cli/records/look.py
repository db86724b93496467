"""``trainer records list``, ``show`` and ``what``: what is there."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated, Any

import typer

from trainer.cli.data import (
    Assessors,
    DataFolder,
    every_attempt,
    folder_of,
    outlines,
    records_told,
    stored,
    trusted_keys,
)
from trainer.cli.given import AsJson, wrong_call
from trainer.cli.table import table
from trainer.records.clock import moment

if TYPE_CHECKING:
    from trainer.records.attempt import Attempt
    from trainer.records.store import Store

OfCode = Annotated[str | None, typer.Option("--code", metavar="NAME", help="Only this code name's.")]
Which = Annotated[str, typer.Argument(metavar="ATTEMPT", help="The beginning of an attempt's id, as 'list' shows it.")]
Check = Annotated[bool, typer.Option("--check", help="Also check that each attempt holds, which takes longer.")]
HEADS = ("attempt", "code", "name", "began", "mode", "houses", "trust", "note")


def list_(
    code: OfCode = None,
    check: Check = False,
    data: DataFolder = None,
    assessor: Assessors = None,
    as_json: AsJson = False,
) -> None:
    """List the attempts, by when they began.

    Shows who, what, when, the marks and how far each can be relied on. Where an attempt has two ends that contradict
    each other, both are shown, as a conflict. Only --check looks whether each of them holds.
    """
    from trainer.records.people import names  # noqa: PLC0415

    trusted = trusted_keys(data, assessor)
    with stored(data) as store:
        every = every_attempt(store, code) if check else outlines(store, code)
        known = names(store)
        told = [as_json_row(store, attempt, trusted, known) for attempt in every]
    ends = Counter(attempt.id for attempt in every)
    for row in told:
        row["conflict"] = ends[row["attempt"]] > 1
    if as_json:
        typer.echo(json.dumps({"attempts": told}))
    elif told:
        typer.echo(table(HEADS, [_row(row) for row in told]))
    else:
        typer.echo("Nothing is recorded yet.")


def show(attempt: Which, data: DataFolder = None, assessor: Assessors = None) -> None:
    """Show one attempt: houses, findings, marks, gaps.

    Findings are told by their rules; 'trainer rules NAME' explains one.
    """
    trusted = trusted_keys(data, assessor)
    with stored(data) as store:
        found = [each for each in every_attempt(store) if each.id.startswith(attempt)]
        if len({each.id for each in found}) != 1:
            wrong_call(f"No single attempt begins with '{attempt}'. 'trainer records list' shows their ids.")
        typer.echo("\n\n".join("\n".join(_shown(store, each, trusted)) for each in found))


def what(data: DataFolder = None) -> None:
    """Say what is stored, where, why and how long."""
    from trainer.records.people import kept_for  # noqa: PLC0415
    from trainer.records.store import FILE, Store  # noqa: PLC0415
    from trainer.records.what import WHAT  # noqa: PLC0415

    path = folder_of(data) / FILE
    days = None
    if path.exists():
        with records_told(), Store.read(path) as store:
            days = kept_for(store)
    kept = "until somebody erases it." if days is None else f"{days} days; 'trainer records keep' shows what is due."
    typer.echo("\n".join([f"Where: {path}", f"How long: {kept}", *WHAT]))


def as_json_row(store: Store, attempt: Attempt, trusted: dict[str, str], known: dict[str, str]) -> dict[str, Any]:
    """Return one attempt as ``list --json`` tells it. Times are in ms UTC."""
    from trainer.records.regrade import later_marks  # noqa: PLC0415
    from trainer.records.trust import trust_of  # noqa: PLC0415

    fault = attempt.fault
    houses = [] if fault else [
        {"level": house.level, "seed": house.seed, **_mark(house.mark)} for house in attempt.houses
    ]  # fmt: skip
    return {
        "attempt": attempt.id,
        "code": attempt.code,
        "name": known.get(attempt.code),
        "mode": attempt.mode,
        "began": attempt.began,
        "ended": attempt.ended,
        "closed": attempt.closed,
        "houses": houses,
        "drills": []
        if fault
        else [{name: body[name] for name in ("drill", "level", "seed", "right")} for body in attempt.drills],
        "later": [
            {"house": each.house, "score": each.score, "outcome": each.outcome, "rules": each.rules}
            for each in later_marks(store, attempt)
        ],
        "trust": "self-study" if fault else trust_of(attempt, trusted),
        "head_code": attempt.head_code,
        "fault": f"entry {fault.ordinal}: {fault.what}" if fault else None,
    }


def _mark(mark: Any) -> dict[str, Any]:
    return {"score": None if mark is None else mark["score"], "outcome": None if mark is None else mark["outcome"]}


def _row(told: dict[str, Any]) -> tuple[str, ...]:
    later = {each["house"]: each["score"] for each in told["later"]}
    marks = [
        f"{house['level']} {'–' if house['score'] is None else house['score']}"
        + (f" (now {later[n]})" if n in later else "")
        for n, house in enumerate(told["houses"])
    ]
    marks += [f"drill {each['drill']} {'right' if each['right'] else 'not right'}" for each in told["drills"]]
    notes = [
        "DOES NOT HOLD" if told["fault"] else "",
        "conflict" if told["conflict"] else "",
        "" if told["closed"] or told["fault"] else "not closed",
    ]
    return (
        told["attempt"][:8],
        told["code"],
        told["name"] or "",
        moment(told["began"]),
        told["mode"],
        ", ".join(marks),
        told["trust"],
        ", ".join(filter(None, notes)),
    )


def _shown(store: Store, attempt: Attempt, trusted: dict[str, str]) -> Iterator[str]:
    from trainer.records.regrade import later_marks  # noqa: PLC0415
    from trainer.records.trust import trust_of  # noqa: PLC0415
    from trainer.records.verify import LIMITS  # noqa: PLC0415

    yield f"Attempt {attempt.id} of {attempt.code}, {attempt.mode}, begun {moment(attempt.began)}"
    if fault := attempt.fault:
        yield f"  Does not hold from entry {fault.ordinal} on: {fault.what}"
        return
    yield f"  {trust_of(attempt, trusted)}; code {attempt.head_code}; {'closed' if attempt.closed else 'not closed'}"
    for since, until in attempt.gaps:
        yield f"  Stopped at {moment(since)}, went on at {moment(until)}"
    later = later_marks(store, attempt)
    for n, house in enumerate(attempt.houses):
        mark = "not marked" if house.mark is None else f"{house.mark['score']} of 100, {house.mark['outcome']}"
        yield f"  {house.level}, seed {house.seed}: {len(house.acts)} actions; {mark}"
        for now in (each for each in later if each.house == n):
            yield f"    under rules {now.rules}, layout {now.layout}: {now.score} of 100, {now.outcome}"
        for act in house.acts:
            for found in act["found"]:
                yield f"    action {act['index']}: {found['severity']}, {found['rule']} ({found['member']})"
    for body in attempt.drills:
        told = "right" if body["right"] else "not right"
        yield f"  drill {body['drill']} on {body['level']}: {body['reached']} of {body['goals']} done; {told}"
        for found in body["found"]:
            yield f"    {found['severity']}, {found['rule']} ({found['member']})"
    yield from (f"  {limit}" for limit in LIMITS)
