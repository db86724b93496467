"""How the questions of a class's papers did."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from trainer.quiz.items import ItemStatistics, statistics
from trainer.records.trust import BY_TRUST
from trainer.report.class_book import filled
from trainer.report.class_counted import Relied
from trainer.words import _, ngettext

ITEM_HEAD = (_("Question"), _("Right"), _("Share right"), _("Discrimination"), _("With the rest"))


@dataclass(frozen=True)
class PaperTable:
    """How the questions of one paper did; ``head`` names the columns that have something in them."""

    name: str
    notes: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def paper_tables(attempts: Iterable[Relied]) -> Iterator[PaperTable]:
    """Yield how the questions of each paper did, in each person's last whole sitting of those with the best label."""
    texts: dict[str, str] = {}
    sat: dict[tuple[str, ...], dict[str, tuple[int, ...]]] = defaultdict(dict)
    names: dict[tuple[str, ...], str] = {}
    for attempt, _trust in sorted(attempts, key=lambda each: (BY_TRUST.index(each[1]), each[0].began)):
        for paper in attempt.papers:
            given = {str(answer["question"]): int(answer["right"]) for answer in paper.answers}
            texts.update({str(answer["question"]): str(answer["text"]) for answer in paper.answers})
            questions = tuple(sorted(given))
            if questions:
                sat[questions][attempt.code] = tuple(given[question] for question in questions)
                names[questions] = _("{name}, seed {seed}").format(name=paper.name, seed=paper.seed)
    for questions, rows in sorted(sat.items(), key=lambda each: (-len(each[1]), each[0])):
        found = statistics(questions, list(rows.values()))
        notes = [ngettext("{n} person.", "{n} people.", found.learners).format(n=found.learners), MANNERS[found.manner]]
        if found.manner == "whole" and found.kr20 is not None and found.sem is not None:
            notes.append(_("KR-20 {r:.2f}, SEM {sem:.2f}.").format(r=found.kr20, sem=found.sem))
        lines = tuple(_item(item, texts[item.item], found.learners, found.manner) for item in found.items)
        yield PaperTable(names[questions], " ".join(notes), *filled(ITEM_HEAD, lines))


MANNERS = {
    "counts only": _("Under 10 people: counts only."),
    "early look": _("10 to 29 people: an early look, with 95 % intervals."),
    "without reliability": _("30 to 99 people: no reliability yet."),
    "whole": "",
}


def _item(item: ItemStatistics, text: str, learners: int, manner: str) -> tuple[str, ...]:
    none = _("not available")
    share = discrimination = rest = ""
    if manner != "counts only" and item.p is not None:
        share = f"{item.p:.2f}"
        if manner == "early look":
            share += f" ({item.p_low:.2f}–{item.p_high:.2f})"
        else:
            discrimination = none if item.d is None else f"{item.d:.2f}"
            rest = none if item.rest_point_biserial is None else f"{item.rest_point_biserial:.2f}"
    return text, f"{item.right} / {learners}", share, discrimination, rest
