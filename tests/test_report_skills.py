"""The skills in reports for teachers: how far each person has come, in a class and in one attempt."""

from functools import partial
from itertools import count
from pathlib import Path

import pytest
from test_course import course

from trainer.board.window import palettes
from trainer.cli.on_paper import type_files
from trainer.records.drills import keep_watched
from trainer.records.entries import DrillEntry
from trainer.records.proof import prove
from trainer.records.seat import CODE_SETTING, Seat
from trainer.report.skills import skills_in, skills_of_class
from trainer.report.write import attempt_report, class_report, content_of

HEAD = ("Skill", "Shown", "With help", "Alone", "A week later", "On a new house", "Deciding, and not alone yet")


@pytest.fixture
def seat(tmp_path: Path) -> Seat:
    return Seat.open(tmp_path, clock=partial(next, count(1_772_000_000_000, 1000)))


def finished(seat: Seat, name: str, house: str) -> None:
    journal = seat.journal("practice")
    journal.note(
        DrillEntry(
            at=seat.clock(), drill=name, level=house, seed=1, reached=4, goals=4, right=True, hinted=False, found=[],
            rules=[],
        )
    )  # fmt: skip
    journal.finish(seat.key)


def test_a_class_has_a_row_for_each_skill_met_and_says_who_is_not_alone_yet(seat: Seat) -> None:
    seat.store.set_setting(CODE_SETTING, "amber-12")
    keep_watched(seat, "watch-gable", "pardalote", 1, 1)
    finished(seat, "finish-row-3", "silvereye")
    seat.store.set_setting(CODE_SETTING, "cobalt-07")
    finished(seat, "finish-row-1", "thornbill")
    attempts = [prove(each) for id_ in seat.store.ids() for each in seat.store.attempts(id_)]
    assert skills_of_class(course(), attempts) == (
        HEAD,
        (
            ("A row, tied as it goes", "2", "2", "1", "0", "0", "cobalt-07"),
            ("A gable end", "1", "0", "0", "0", "0", ""),
        ),
    )
    content, fonts, light = content_of(attempts, {}, (), course()), type_files(), palettes()["light"]
    page = class_report(".html", content, light, fonts).decode()
    assert "<h2>Skills</h2>" in page and "<td>cobalt-07</td>" in page
    assert class_report(".pdf", content, light, fonts).startswith(b"%PDF")
    alone = next(each for each in attempts if each.drills[0]["drill"] == "finish-row-3")
    assert skills_in(course(), alone) == (("A row, tied as it goes", "alone"),)
    assert "<td>alone</td>" in attempt_report(".html", alone, (), {}, light, fonts, course=course()).decode()
    assert attempt_report(".pdf", alone, (), {}, light, fonts, course=course()).startswith(b"%PDF")
