"""What is found is said with the worst first, is read before it goes away, and says what to do after a fall."""

import pytest
from board_person import ByKeyboard, Person
from board_screens import _open, aside, before_a_truss
from board_site import fell, open_house

from trainer.board.scenes.righting import taken_back
from trainer.board.tools.report import FALL
from trainer.site import Brace, HandOver, Stand
from trainer.site.actions import Clear, Report, Unbrace
from trainer.terms import SEVERITIES

ROW = ("ST12", "ST13", "ST14", "ST15", "ST16")


def with_all_kinds(person: Person) -> None:
    """A truss stood off its mark, without a mark, while nothing was looked at."""
    _open(person)
    member = person.work.site.layout.by_tag["TG1"]
    person.work.do([aside(Stand(tag="TG1", start=member.start, finish=member.finish), 60.0)])
    person.wait()


def said(person: Person) -> list[str]:
    """The severities in the note, from the top down."""
    heads = [node for node in person.see("region", "What was found").walk() if node.key.startswith("head/")]
    return [node.name for node in sorted(heads, key=lambda node: node.rect.top)]


def test_the_worst_is_said_first_and_is_in_sight() -> None:
    person = Person()
    with_all_kinds(person)
    found = [finding.severity for finding in person.work.noted]
    assert len(set(found)) > 1, "several kinds at once"
    assert found == sorted(found, key=SEVERITIES.index)
    assert said(person)[0] == "Stop work"
    first = next(node for node in person.tree().walk() if node.key.startswith("text/"))
    assert first.rect.height > 60, "its text shows"


@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_enter_reads_a_stop_work_finding_to_its_end_before_it_goes_away(scale: float) -> None:
    person = Person(scale=scale)
    with_all_kinds(person)
    assert person.focused.role == "scroll" and person.focused.name == "What was found"
    worst = sum(finding.severity == "stop-work" for finding in person.work.noted)
    pages = 0
    while person.work.noted:
        texts = [n for n in person.tree().walk() if n.key.startswith("text/")][:worst]
        bottom = person.see("scroll", "What was found").rect.bottom
        keys = {node.key for node in texts}
        ends = max(w.rect.bottom for w in person.app.scene.roots["side"].walk() if w.key in keys)
        person.key("enter")
        pages += 1
        assert bool(person.work.noted) == (ends > bottom), "it goes only when its end has been in sight"
        assert pages < 20
    assert pages > 1 or scale == 1.0


def test_a_lesser_finding_goes_away_at_once() -> None:
    person = Person()
    stand = before_a_truss(person)
    person.work.do([aside(stand, 60.0)])
    person.wait()
    if all(finding.severity != "stop-work" for finding in person.work.noted):
        person.key("enter")
        assert not person.work.noted


def test_what_is_being_typed_is_still_there_once_a_note_was_read() -> None:
    person = Person()
    _open(person)
    person.key("m")
    person.tab_to("entry", "Along it")
    person.type(42)
    member = person.work.site.layout.by_tag["TG1"]
    person.work.do([Stand(tag="TG1", start=member.start, finish=member.finish)])
    person.wait()
    assert person.work.noted
    person.read_note()
    person.type(5)
    person.key("tab")
    assert person.see("entry", "Along it").value == "425 mm"


# after a fall


def test_after_a_fall_the_note_says_what_to_do_and_does_not_offer_to_make_it_right() -> None:
    person = Person()
    fell(person)
    assert not person.sees("button", "Make it right")
    text = next(node.value for node in person.tree().walk() if node.key.startswith("text/"))
    steps = [text.index(word) for word in ("Stop.", "Report the fall", "clear it away", "Stand those", "take it back")]
    assert steps == sorted(steps)
    person.key("r", ctrl=True)
    assert person.work.site.fall is not None, "the key does nothing either"
    person.click_on("button", "Report it")
    assert not person.work.noted and person.work.tools["report"].fault == FALL
    person.key("enter")
    assert person.work.site.fall.reported
    ByKeyboard(person).do(Clear())
    assert person.work.site.fall is None and not person.work.site.stood


def test_what_fell_is_said_to_lie_in_the_list_of_the_roof() -> None:
    person = Person()
    fell(person)
    person.read_note()
    person.key("o")
    rows = [row.name for row in person.see("list", "Roof so far").children]
    assert len(rows) == len(ROW) and all("lies where it fell" in row for row in rows)


@pytest.mark.parametrize("chosen", ["", "ST14", "TG1"])
def test_what_fell_lies_on_every_view(chosen: str) -> None:
    """Also in the section, whatever it ran along before."""
    person = Person()
    open_house(person, "wren")
    layout = person.work.site.layout
    for tag in ("TG1", *ROW):
        member = layout.by_tag[tag]
        person.work.session.do(Stand(tag=tag, start=member.start, finish=member.finish))
        person.work.session.do(Brace(kind="solid", tags=(tag,)))
    person.work.changed()
    person.work.hand.truss = chosen
    person.key("f5")
    before = person.see("view").value
    person.key("f3")
    for number, tag in enumerate(ROW):
        if number:
            person.work.session.do(Brace(kind="batten", tags=(ROW[number - 1], tag), every=1800))
    for tag in ROW:
        person.work.do([Unbrace(kind="solid", tags=(tag,))])
    person.wait_long(3000)
    assert person.work.site.fall is not None
    person.read_note()
    for key in ("f3", "f4", "f5"):
        person.key(key)
        person.wait_long(2000)
        view = person.work.views.view()
        words = {
            item.text for item in view.still(view.camera.view.scale) if getattr(item, "text", "").endswith(" fell")
        }
        assert words, f"{key} shows nothing that fell"
    person.work.do([Report(fault=FALL), Clear()])
    person.wait(2)
    person.key("f5")
    if chosen != "ST14":
        assert person.see("view").value == before, "and back to what was looked at before"


# nothing is never said of what was put right


def test_what_was_put_right_is_not_said_to_have_been_nothing() -> None:
    person = Person()
    fell(person)
    person.key("u")
    assert taken_back(person.work.session) == 1
    person.work.do([HandOver()])
    person.work.assignment.handed_over(person.app.services, person.work.entry, person.work.session)
    person.wait(2)
    said = " ".join(node.name for node in person.tree().walk())
    assert "No mistake was found" not in said and "put right on the way" in said
