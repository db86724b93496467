"""Written questions as a spreadsheet's CSV: one row a question; and back, with every fault of every row.

Choices, steps and left sides fill the columns A to H; the answer is a letter, letters, a number, or (for a
match) the right sides, which stand in ``with A`` to ``with H``. Steps stand in their right order.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from trainer.quiz.bank import (
    LETTERS,
    BankFile,
    ChooseOne,
    ChooseSeveral,
    Match,
    Number,
    PutInOrder,
    Question,
    SourceLine,
)
from trainer.quiz.question import Asked, InOrder, Pairs, Task
from trainer.read import SIZE_LIMIT, Fault, Faulty, cell_text, did_you_mean, read_table, refuse, validate
from trainer.read.document import Document, Lines
from trainer.words import _

SPOTS = "ABCDEFGH"
HEADS = (
    "id", "kind", "topic", "difficulty", "serves", "text", *SPOTS, *(f"with {spot}" for spot in SPOTS), "answer",
    "unit", "tolerance", "why", "safety", "source", "rules", *(f"why not {spot}" for spot in LETTERS), "hint",
)  # fmt: skip
HIDDEN = ("answer", "tolerance", "why", "safety", "rules", *(f"why not {spot}" for spot in LETTERS), "hint")
"""What gives an answer away."""
NEEDED = ("id", "kind", "topic", "difficulty", "serves", "text", "why", "source")
MOST_ROWS = 2000
_WHOLE = _("a whole number")


def write_sheet(questions: Iterable[Question], shown: Mapping[str, Asked] | None = None) -> str:
    """Return questions as CSV text with a header row.

    With what is ``shown`` of each, by its id, nothing gives an answer away: those columns are empty, and steps and
    right sides stand as they are asked.
    """
    out = io.StringIO(newline="")
    writer = csv.DictWriter(out, HEADS, restval="")
    writer.writeheader()
    for question in questions:
        row = _row(question) if shown is None else _row(question) | _hidden(shown[question.id].task)
        writer.writerow({name: cell_text(value) for name, value in row.items()})
    return out.getvalue()


def _hidden(task: Task) -> dict[str, Any]:
    """What a row holds in place of an answer."""
    row: dict[str, Any] = dict.fromkeys(HIDDEN, "")
    if isinstance(task, InOrder):
        row |= dict(zip(SPOTS, task.steps, strict=False))
    if isinstance(task, Pairs):
        others = (*task.others, *("" for _spot in SPOTS))
        row |= {f"with {spot}": other for spot, other in zip(SPOTS, others, strict=False)}
    return row


def _row(question: Question) -> dict[str, Any]:
    row: dict[str, Any] = {
        "id": question.id, "kind": question.kind, "topic": question.topic, "difficulty": question.difficulty,
        "serves": "; ".join(question.serves), "text": question.text, "why": question.why,
        "safety": question.safety or "", "source": question.source, "rules": "; ".join(question.rules),
        "hint": question.hint or "",
    }  # fmt: skip
    match question:
        case ChooseOne() | ChooseSeveral():
            row |= dict(zip(SPOTS, question.choices, strict=False))
            row["answer"] = "".join(question.answer)
            row |= {f"why not {letter}": why for letter, why in question.why_not.items()}
        case PutInOrder():
            row |= dict(zip(SPOTS, question.steps, strict=False))
        case Match():
            row |= dict(zip(SPOTS, question.pairs, strict=False))
            row |= {f"with {spot}": side for spot, side in zip(SPOTS, question.pairs.values(), strict=False)}
        case Number():
            row |= {"answer": question.answer, "unit": question.unit, "tolerance": question.tolerance}
    return row


def read_sheet(content: bytes, file: str) -> tuple[Question, ...]:
    """Read questions from CSV as a spreadsheet saves it; ``file`` is the name that faults carry.

    UTF-8 with or without a mark at its beginning; parted by commas, semicolons or tabs.

    :raises Faulty: with every fault of every row, each at its line.
    """
    if len(content) > SIZE_LIMIT:
        refuse(file, 1, "file", _("is larger than {most} MB; save it in parts").format(most=SIZE_LIMIT // 1_000_000))
    without_head = _("is missing; the first row must name the columns: {heads}").format(heads=", ".join(HEADS))
    (head_line, heads), *body = read_table(content, file, without_head)
    heads = [" ".join(head.split()) for head in heads]
    faults = [Fault(file, head_line, "header", what) for what in _head_faults(heads)]
    if len(body) > MOST_ROWS:
        what = _("are {rows}; {most} are enough for one file").format(rows=len(body), most=MOST_ROWS)
        faults.append(Fault(file, head_line, "rows", what))
    if not body:
        faults.append(Fault(file, head_line, "rows", _("are missing; write one row a question")))
    if faults:
        raise Faulty(faults)
    entries, lines, also = [], [], []
    for line, cells in body:
        if len(cells) > len(heads):
            what = _("has {cells} cells and the header {heads}; check its quotes")
            also.append(Fault(file, line, "row", what.format(cells=len(cells), heads=len(heads))))
        row = {head: cell.strip() for head, cell in zip(heads, cells, strict=False) if cell.strip()}
        entries.append(_entry({head: cell.removeprefix("'") for head, cell in row.items()}))
        lines.append(Lines(line))
    at = Lines(head_line, {"questions": Lines(head_line, dict(enumerate(lines)))})
    questions = validate(BankFile, Document(file, {"schema": 1, "questions": entries}, at, tuple(also))).questions
    for question, row_lines in zip(questions, lines, strict=True):
        question._place = SourceLine(file, row_lines.line)
    return questions


def _head_faults(heads: Sequence[str]) -> list[str]:
    faults = []
    for head in heads:
        if head and head not in HEADS:
            guess = did_you_mean(head, HEADS) or _("known: {heads}").format(heads=", ".join(HEADS))
            faults.append(_("has the column '{head}', which is not known; {guess}").format(head=head[:40], guess=guess))
    twice = dict.fromkeys(head for head in heads if head in HEADS and heads.count(head) > 1)
    faults += [_("has the column '{head}' twice; leave one out").format(head=head) for head in twice]
    faults += [_("has no column '{need}'; add it").format(need=need) for need in NEEDED if need not in heads]
    return faults


def _entry(row: Mapping[str, str]) -> dict[str, Any]:
    """A row as a bank file would have it; what can't be read stays text, for the model to say so."""
    entry: dict[str, Any] = {
        name: row[name] for name in ("id", "kind", "topic", "text", "hint", "why", "safety", "source") if name in row
    }
    if "difficulty" in row:
        entry["difficulty"] = _number(row["difficulty"])
    for several in ("serves", "rules"):
        if several in row:
            entry[several] = [item.strip() for item in row[several].replace(",", ";").split(";") if item.strip()]
    spots = [row[spot] for spot in SPOTS if spot in row]
    kind = row.get("kind", "")
    if kind == "number":
        entry |= {name: _number(row[name]) for name in ("answer", "tolerance") if name in row}
        entry |= {"unit": row["unit"]} if "unit" in row else {}
    elif kind == "put in order":
        entry["steps"] = spots
    elif kind == "match":
        entry["pairs"] = {row[spot]: row.get(f"with {spot}", "") for spot in SPOTS if spot in row}
    else:
        entry["choices"] = spots
        letters = [letter for letter in row.get("answer", "").upper() if letter not in " ,;"]
        entry["answer"] = letters if kind == "choose several" else "".join(letters)
        if why_not := {letter: row[key] for letter in LETTERS if (key := f"why not {letter}") in row}:
            entry["why_not"] = why_not
    return entry


def _number(text: str) -> int | float | str:
    """A number as a spreadsheet writes it, also with a decimal comma; else the text."""
    plain = text.replace(",", ".")
    try:
        value = float(plain)
    except ValueError:
        return text
    return int(value) if value.is_integer() else value
