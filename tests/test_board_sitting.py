"""An assessment sat on the board: chosen, said what is recorded, silent, gone on with, closed with its code."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pygame
import pytest
from attempts import level_of
from board_packs import ASSESSOR, a_pack, put
from board_person import Person
from records_made import BY_HAND, NOON, Clock

from trainer.board.scenes.closed import Closed
from trainer.board.scenes.home import Home
from trainer.board.scenes.quiz import Quiz
from trainer.board.scenes.result import ResultScreen
from trainer.board.scenes.work import Work
from trainer.quiz.judge import right_answer
from trainer.quiz.question import Amount
from trainer.records.asking import questions_for
from trainer.records.keys import fingerprint, new_key, public_hex, public_pem
from trainer.records.pack import MINUTE, make_pack
from trainer.records.proof import prove
from trainer.records.record_file import read_record
from trainer.records.stick import Candidate, tickets_for, write_class
from trainer.records.store import FILE, Store
from trainer.records.trust import examine_sitting, trust_of
from trainer.records.verify import LIMITS, examine, examine_marks
from trainer.records.waiting import waiting_on
from trainer.records.what import WHAT
from trainer.rehearse import rehearse
from trainer.shipped import find_level
from trainer.site import HandOver


def at_home(folder: Path, clock: Clock) -> Person:
    person = Person(data=folder)
    seat = person.app.services.records.seat()
    assert seat is not None
    seat.clock = clock
    person.wait_for_houses()
    return person


def push(person: Person, button: str) -> None:
    person.click_on("button", button)
    person.wait()


def begin(person: Person) -> None:
    person.app.services.go_assessments()
    person.wait()
    push(person, "Invented, for wren-07")
    push(person, "Begin") if person.sees("button", "Begin") else push(person, "Go on")
    person.wait()


def build(person: Person, mistake: str | None = None, upto: int | None = None) -> None:
    """Do the house on the screen, but the hand-over."""
    work = person.work
    done = len(work.session.outcomes)
    level = work.session.level
    actions = [a for a in rehearse(level, work.session.job.seed, mistake).actions if not isinstance(a, HandOver)]
    work.do(actions[done:upto])
    person.wait()


def all_text(person: Person) -> str:
    return " ".join(f"{node.name} {node.value}" for node in person.tree().walk())


def test_a_sitting_from_the_folder_to_the_code(tmp_path: Path) -> None:
    pack, clock = a_pack(questions=4, minutes=90), Clock(BY_HAND)
    put(tmp_path, pack)
    person = at_home(tmp_path, clock)
    person.app.services.go_assessments()
    person.wait()
    assert "Invented, for wren-07, handed out " in all_text(person), "two of one name differ by their times"
    push(person, "Invented, for wren-07")
    said = all_text(person)
    for text in (*WHAT, "2 houses, 4 questions. It may take 90 minutes.", "There are no hints"):
        assert text in said
    push(person, "Begin")
    assert isinstance(person.app.scene, Work)
    assert not person.work.practice
    assert "house 1 of 2, 90 min left" in all_text(person)

    build(person, "off-station")
    assert person.work.findings == ()
    assert not person.sees("heading", "Have a look")
    clock.now += 10 * MINUTE
    person.wait()
    assert "80 min left" in all_text(person)
    person.work._hand_over()
    person.wait()
    assert person.work.entry.id == "thornbill"
    assert "house 2 of 2" in all_text(person)
    build(person)
    person.work._hand_over()
    person.wait()

    from trainer.board.quiz_start import bank

    for number, asked in enumerate(questions_for(pack, "wren-07", bank()), 1):
        scene = person.app.scene
        assert isinstance(scene, Quiz)
        assert scene.quiz.asked == asked
        assert re.search(rf"Question {number} of 4, [78]\d min left", all_text(person))
        if isinstance(asked.task, Amount):
            scene.typing(str(right_answer(asked)))
        else:
            scene.quiz.draft.chosen = list(right_answer(asked))  # type: ignore[arg-type]
        clock.now += 1000
        scene.answer()
        person.wait()
        shown = all_text(person)
        assert asked.why not in shown, f"silent after question {number}"

    assert isinstance(person.app.scene, Closed)
    (file,) = (tmp_path / "results").glob("*.attempt.json")
    made = read_record(file.read_bytes(), file.name).attempt
    shown = all_text(person)
    marks = [house.mark["score"] for house in made.houses if house.mark]
    assert marks[0] < marks[1] == 100
    for text in (made.head_code, str(file), f"A small gable: {marks[0]} of 100", "Questions: 4 of 4", *LIMITS):
        assert text in shown
    trusted = {public_hex(ASSESSOR): "teacher", made.seals[0].key: "seat"}
    assert trust_of(prove(made), trusted) == "supervised"
    said_of_it = [*examine(made, trusted), *examine_marks(made), *examine_sitting(made, trusted, pack, bank())]
    assert all(each.state == "holds" for each in said_of_it)
    push(person, "Look at A small gable")
    assert isinstance(person.app.scene, ResultScreen)
    assert person.sees("list", "Findings")
    person.key("esc")
    assert isinstance(person.app.scene, Closed) and made.head_code in all_text(person), "the code can be written down"
    push(person, "Look at One straight row")
    push(person, "Sitting")
    assert isinstance(person.app.scene, Closed)
    seat = person.app.services.records.seat()
    assert seat is not None
    assert waiting_on(seat) == (), "a ticket is used once"


@pytest.mark.parametrize("stopped", ["in a house", "after a hand-over", "in the questions"])
def test_a_sitting_goes_on_after_a_crash_and_the_gap_is_on_record(stopped: str, tmp_path: Path) -> None:
    pack, clock = a_pack(questions=3), Clock()
    put(tmp_path, pack)
    first = at_home(tmp_path, clock)
    begin(first)
    build(first, upto=12)
    site = first.work.site
    if stopped != "in a house":
        build(first)
        first.work.assignment.do([HandOver()])  # and then the plug is pulled
        if stopped == "in the questions":
            first.work.assignment.handed_over(first.app.services, first.work.entry, first.work.session)
            build(first)
            first.work._hand_over()
            assert isinstance(first.app.scene, Quiz)
    clock.now += 60 * MINUTE
    second = at_home(tmp_path, clock)
    second.app.services.go_assessments()
    second.wait()
    push(second, "Invented, for wren-07: go on")
    assert "the gap is recorded" in all_text(second)
    push(second, "Go on")
    if stopped == "in a house":
        assert replace(second.work.site, job=site.job) == site
        first.work.do(rehearse(level_of("pardalote"), first.work.session.job.seed).actions[12:13])
        first.wait()
        assert first.status.startswith("This attempt went on in another window")
        assert first.work.site == site, "the window left behind does nothing more"
        build(second)
        second.work._hand_over()
    if stopped != "in the questions":
        assert second.work.entry.id == "thornbill"
        build(second)
        second.work._hand_over()
    scene = second.app.scene
    assert isinstance(scene, Quiz)
    seat = second.app.services.records.seat()
    assert seat is not None
    (left,) = [each.begun for each in waiting_on(seat)]
    assert left is not None
    assert [until - since for since, until in left.gaps] == [60 * MINUTE]
    assert [house.mark and house.mark["score"] for house in left.houses] == [100, 100]


def test_after_the_time_the_sitting_is_closed_and_nothing_more_is_done(tmp_path: Path) -> None:
    pack, clock = a_pack(minutes=30), Clock()
    put(tmp_path, pack)
    person = at_home(tmp_path, clock)
    begin(person)
    build(person, upto=9)
    clock.now += 31 * MINUTE
    person.work.do(rehearse(level_of("pardalote"), person.work.session.job.seed).actions[9:10])
    person.wait()
    assert isinstance(person.app.scene, Closed)
    (file,) = (tmp_path / "results").glob("*.attempt.json")
    made = read_record(file.read_bytes(), file.name).attempt
    assert len(made.houses[0].acts) == 9
    assert made.closed


def test_what_waits_is_what_an_assessor_known_here_signed(tmp_path: Path) -> None:
    put(tmp_path, a_pack(), code=None)
    (tmp_path / "packs" / "rubbish.json").write_text("{}", encoding="utf-8")
    person = at_home(tmp_path, Clock())
    seat = person.app.services.records.seat()
    assert seat is not None
    (alone,) = waiting_on(seat)
    assert (alone.ticket, alone.code) == (None, seat.code)
    person.app.services.go_assessments()
    person.wait()
    push(person, "Invented, without a ticket")
    assert "nobody vouches" in all_text(person)
    (tmp_path / "assessors" / "teacher.pub.pem").write_bytes(public_pem(public_hex(new_key())))
    assert waiting_on(seat) == ()
    person.key("esc")
    person.app.services.go_assessments()
    person.wait()
    assert str(tmp_path / "packs") in all_text(person)


def type_code(person: Person, code: str) -> None:
    """Put another code name in the place of the one that is there."""
    person.key("backspace", times=len(person.see("entry", "Your code name").value))
    person.write(code)


def test_a_pack_without_a_ticket_is_sat_under_the_code_name_that_is_typed(tmp_path: Path) -> None:
    """By keyboard alone: another person's code of the list; left, the same code goes on and no other does."""
    put(tmp_path, a_pack(), code=None)
    person = at_home(tmp_path, Clock())
    seat = person.app.services.records.seat()
    assert seat is not None
    person.key("s")
    person.key("enter")
    assert person.focused.name.startswith("Your code name") and person.focused.value == seat.code
    type_code(person, "robin-12")
    person.key("enter")
    assert isinstance(person.app.scene, Work)
    build(person, upto=5)
    (going,) = seat.store.unfinished()
    assert (going.code, going.mode) == ("robin-12", "assessment")
    assert seat.code != "robin-12", "practice here goes on under the seat's own"
    person.key("esc")
    person.tab_to("button", "Leave")
    person.key("enter")
    person.wait(3)
    person.key("s")
    person.key("enter")
    assert person.see("button", "Begin")
    type_code(person, "robin-12")
    assert person.see("button", "Go on") and "You began before" in all_text(person)
    person.key("enter")
    assert len(person.work.session.outcomes) == 5
    assert len(seat.store.unfinished()) == 1


def test_what_is_no_code_name_is_not_taken_by_mouse_either(tmp_path: Path) -> None:
    put(tmp_path, a_pack(), code=None)
    person = at_home(tmp_path, Clock())
    seat = person.app.services.records.seat()
    assert seat is not None
    push(person, "Assessments")
    push(person, "Invented, without a ticket")
    for code in ("", "two words", "=sum"):
        person.click_on("entry", "Your code name")
        type_code(person, code)
        push(person, "Begin")
        assert "That is no code name." in all_text(person)
        assert seat.store.ids() == []
    person.click_on("entry", "Your code name")
    type_code(person, "robin-12")
    assert "That is no code name." not in all_text(person)
    push(person, "Begin")
    assert isinstance(person.app.scene, Work)
    assert [opening["code"] for opening in seat.store.openings()] == ["robin-12"]


def test_a_ticket_says_whose_it_is(tmp_path: Path) -> None:
    put(tmp_path, a_pack())
    person = at_home(tmp_path, Clock())
    person.key("s")
    person.key("enter")
    assert not person.sees("entry", "Your code name")
    assert person.focused.name == "Begin"


def test_what_is_recorded_can_be_read_on_any_screen(tmp_path: Path) -> None:
    person = at_home(tmp_path, Clock())
    seat = person.app.services.records.seat()
    assert seat is not None
    person.app.navigator.recorded()
    person.wait()
    for text in (*WHAT, seat.code, str(tmp_path)):
        assert text in all_text(person)


def test_reports_are_written_from_the_board(tmp_path: Path) -> None:
    put(tmp_path, a_pack(minutes=30))
    clock = Clock()
    person = at_home(tmp_path, clock)
    begin(person)
    build(person, "off-station")
    person.work._hand_over()
    person.wait()
    clock.now += 31 * MINUTE
    person.work._hand_over()
    person.wait()
    push(person, "Look at A small gable")
    person.tab_to("button", "Write a report")  # below the fold, where much is missing
    person.key("return")
    person.wait()
    assert person.sees("region", "The report is written")
    (page,) = (tmp_path / "reports").glob("wren-07-*.html")
    assert str(page) in all_text(person)
    assert "off-station" in page.read_text(encoding="utf-8")
    person.key("esc")
    person.app.navigator.class_report()
    person.wait()
    assert "wren-07" in (tmp_path / "reports" / "class-attempt.html").read_text(encoding="utf-8")


def test_a_close_that_cant_be_recorded_is_told_and_done_later(tmp_path: Path) -> None:
    put(tmp_path, a_pack(minutes=30))
    clock = Clock()
    person = at_home(tmp_path, clock)
    begin(person)
    build(person, upto=9)
    clock.now += 31 * MINUTE
    seat = person.app.services.records.seat()
    assert seat is not None
    # A second program holds the records for longer than this one waits.
    seat.store.rows("PRAGMA busy_timeout = 50")
    with Store.open(tmp_path / FILE) as other, other.writing():
        person.work._hand_over()
        person.wait()
    assert person.sees("region", "The sitting is not closed yet")
    assert "another window is writing" in all_text(person)
    person.key("esc")
    clock.now += MINUTE
    person.app.services.go_assessments()
    person.wait()
    push(person, "Invented, for wren-07: go on")
    push(person, "Go on")
    if not isinstance(person.app.scene, Closed):  # the gap is not counted, so a little time may be left
        clock.now += 31 * MINUTE
        person.work._hand_over()
        person.wait()
    assert isinstance(person.app.scene, Closed)
    (file,) = (tmp_path / "results").glob("*.attempt.json")
    assert len(read_record(file.read_bytes(), file.name).attempt.houses[0].acts) == 9


def class_on_a_stick(folder: Path, withhold: bool = False) -> Path:
    levels = [find_level("pardalote").read_text(encoding="utf-8")]
    pack = make_pack(ASSESSOR, "Of the class", levels, NOON - 1, 5, minutes=90, withhold=withhold)
    tickets = tickets_for(ASSESSOR, pack, [Candidate("emu-3")], ["ab" * 16], NOON - 1, NOON + 10**8)
    write_class(folder, ASSESSOR, "teacher", [(pack, tickets)])
    return folder


def open_stick(person: Person, stick: Path) -> None:
    """Choose the folder of a class by the list of folders."""
    person.app.services.ui.memory["folders/last"] = stick.parent
    person.app.services.go_assessments()
    person.wait()
    push(person, "Open the folder of a class")
    person.arrow_to(str(stick), "Folders")
    push(person, "Open the chosen one")
    push(person, "Use this folder")


@pytest.mark.parametrize("withhold", [False, True])
def test_the_folder_of_a_class_is_chosen_its_key_asked_about_and_the_result_written_back(
    tmp_path: Path, withhold: bool
) -> None:
    stick, clock = class_on_a_stick(tmp_path / "stick", withhold), Clock(BY_HAND)
    person = at_home(tmp_path / "seat", clock)
    open_stick(person, stick)
    assert fingerprint(public_hex(ASSESSOR)) in all_text(person), "a new key is shown by its code, and asked about"
    push(person, "Not now")
    assert not (tmp_path / "seat" / "assessors").exists()
    open_stick(person, stick)
    push(person, "It is theirs")
    push(person, "Of the class, for emu-3")
    push(person, "Begin")
    person.wait()
    build(person)
    clock.now += 50 * MINUTE
    person.wait()
    clock.now += 3 * MINUTE
    person.work._hand_over()
    person.wait()
    assert isinstance(person.app.scene, Closed)
    (file,) = (stick / "results").glob("*.attempt.json")
    made = read_record(file.read_bytes(), "it").attempt
    assert made.head_code in all_text(person) and str(file) in all_text(person)
    assert ("100 of 100" in all_text(person)) is not withhold
    assert [each.body["kind"] for each in made.entries].count("beat") == 1, "a heartbeat where nothing else was written"
    assert trust_of(prove(made), {public_hex(ASSESSOR): "a"}) == "supervised"
    open_stick(person, stick)
    assert "No assessment waits here" in all_text(person), "one ticket is for one sitting"


def test_a_stick_that_can_not_be_written_loses_nothing(tmp_path: Path) -> None:
    stick, clock = class_on_a_stick(tmp_path / "stick"), Clock()
    (stick / "results").write_text("a file where the folder should be", encoding="utf-8")
    put(tmp_path / "seat", a_pack(), None)
    person = at_home(tmp_path / "seat", clock)
    open_stick(person, stick)
    push(person, "Of the class, for emu-3")
    push(person, "Begin")
    person.wait()
    build(person)
    person.work._hand_over()
    person.wait()
    assert "could not be written" in all_text(person)
    assert len(list((tmp_path / "seat" / "results").glob("*.attempt.json"))) == 1


def test_a_held_key_is_not_typed_on_the_screen_that_it_opened_and_held_enter_counts_once(tmp_path: Path) -> None:
    person = at_home(tmp_path / "seat", Clock())
    held = pygame.event.Event(pygame.KEYDOWN, key=pygame.K_k, mod=0, unicode="k")
    for _repeat in range(3):
        person.app.handle(held)
        person.wait()
    (entry,) = (each for each in person.tree().walk() if each.name == "Passphrase")
    assert not entry.value
    person.app.handle(pygame.event.Event(pygame.KEYUP, key=pygame.K_k, mod=0))
    person.key("k")
    (entry,) = (each for each in person.tree().walk() if each.name == "Passphrase")
    assert len(entry.value) == 1
    person.app.handle(pygame.event.Event(pygame.KEYDOWN, key=pygame.K_RETURN, mod=0, unicode=""))
    before = person.tree()
    person.app.handle(pygame.event.Event(pygame.KEYDOWN, key=pygame.K_RETURN, mod=0, unicode=""))
    assert person.tree() == before, "Enter that is held counts once"


def test_the_folder_of_a_class_that_is_gone_at_the_close_is_never_made_anew_and_gets_its_result_later(
    tmp_path: Path,
) -> None:
    stick, away = class_on_a_stick(tmp_path / "stick"), tmp_path / "away"
    person = at_home(tmp_path / "seat", Clock())
    open_stick(person, stick)
    push(person, "It is theirs")
    push(person, "Of the class, for emu-3")
    push(person, "Begin")
    person.wait()
    build(person, upto=3)
    stick.rename(away)
    person.work._hand_over()
    person.wait()
    assert isinstance(person.app.scene, Closed)
    code = person.app.scene.made.head_code
    assert (
        not stick.exists() and "could not be written" in all_text(person) and str(tmp_path / "seat") in all_text(person)
    )
    stick.write_text("a file in its place", encoding="utf-8")
    push(person, "Write the result again")
    assert "could not be written" in all_text(person)
    stick.unlink()
    away.rename(stick)
    open_stick(person, stick)
    (file,) = (stick / "results").glob("*.attempt.json")
    assert "The result of emu-3 was missing here" in all_text(person) and str(file) in all_text(person)
    push(person, "Finished sittings")
    push(person, "Of the class, by emu-3")
    assert code in all_text(person) and "emu-3" in all_text(person) and "Write this code down" in all_text(person)
    file.unlink()
    push(person, "Write the result again")
    assert file.exists() and str(file) in all_text(person)


def test_until_it_is_closed_nobody_practises_on_its_houses_here(tmp_path: Path) -> None:
    clock = Clock(BY_HAND)
    put(tmp_path, a_pack())
    person = at_home(tmp_path, clock)
    begin(person)
    build(person, upto=5)
    person.app.services.go_home()
    for house in ("pardalote", "thornbill"):  # the one that is begun, and the one that comes after it
        person.wait()
        home = person.app.scene
        assert isinstance(home, Home)
        home.choose(house)
        person.wait()
        for name in ("Practise", "Be assessed", "Quiz", "Drills", "Watch it built", "Change this house"):
            assert not person.sees("button", name), (house, name)
        assert "In a sitting: finish that first" in all_text(person)
        for key in "pqdacf":
            person.key(key)
            assert "Finish the sitting first, under Assessments." in all_text(person), (house, key)
            person.key("esc")
        for key in "we":
            person.key(key)
            assert person.app.scene is home, (house, key)
    home.choose("fantail")
    person.wait()
    assert person.sees("button", "Practise"), "another house is open"
    clock.now += 150_000
    begin(person)
    for _house in range(2):
        build(person)
        person.work._hand_over()
        person.wait()
    (file,) = (tmp_path / "results").glob("*.attempt.json")
    noticed = [
        each.text for each in examine(read_record(file.read_bytes(), "it").attempt, {}) if each.state == "noticed"
    ]
    assert len(noticed) == 1 and re.search(r"The sitting was left for 2\.[5-9] minutes\.", noticed[0])
    person.app.services.go_home()
    person.wait()
    person.app.scene.choose("pardalote")  # type: ignore[attr-defined]
    person.wait()
    assert person.sees("button", "Practise"), "closed: open again"


def test_a_sitting_can_be_closed_with_questions_left(tmp_path: Path) -> None:
    put(tmp_path, a_pack(questions=3))
    person = at_home(tmp_path, Clock())
    begin(person)
    for _house in range(2):
        person.work._hand_over()
        person.wait()
    assert isinstance(person.app.scene, Quiz)
    person.key("esc")
    person.wait()
    assert "3 questions are not answered." in all_text(person)
    push(person, "Close the sitting now")
    (made,) = (read_record(file.read_bytes(), file.name).attempt for file in (tmp_path / "results").iterdir())
    assert isinstance(person.app.scene, Closed) and made.closed and not made.answers


def test_what_was_begun_from_a_stick_is_named_without_it_and_what_is_back_says_so(tmp_path: Path) -> None:
    stick, clock = class_on_a_stick(tmp_path / "stick"), Clock(BY_HAND)
    first = at_home(tmp_path / "seat", clock)
    open_stick(first, stick)
    push(first, "It is theirs")
    push(first, "Of the class, for emu-3")
    push(first, "Begin")
    build(first, upto=3)
    again = at_home(tmp_path / "seat", clock)
    again.app.services.go_assessments()
    again.wait()
    assert "The sitting of emu-3 was begun and is not closed. Open the folder of its class" in all_text(again)
    open_stick(again, stick)
    push(again, "Of the class, for emu-3: go on")
    push(again, "Go on")
    clock.now += MINUTE
    again.work._hand_over()
    again.wait()
    assert isinstance(again.app.scene, Closed) and "It belongs to emu-3:" in all_text(again)
    other = at_home(tmp_path / "another seat", clock)
    open_stick(other, stick)
    push(other, "It is theirs")
    assert "Of the class, for emu-3: a result is back" in all_text(other)
