"""Making it right: one key takes back what was just found wrong and does it as it should be."""

from board_person import Person
from board_screens import _open, aside, before_a_truss

from trainer.board.scenes.work_side import how_far
from trainer.site import Brace, Fix, Mark, Stand
from trainer.site.holding import held_by_own


def test_a_truss_off_its_station_is_put_on_it_by_one_key() -> None:
    person = Person()
    right = before_a_truss(person)
    person.work.do([aside(right, 60.0)])
    assert person.sees("button", "Make it right")
    found = len(person.work.session.findings)
    person.key("r", ctrl=True)
    stood = person.work.site.stood[right.tag]
    assert max(abs(end.across) + abs(end.along) for end in stood.off) <= 1
    assert not person.work.noted and len(person.work.session.findings) < found
    assert not person.sees("button", "Make it right")


def test_the_same_by_mouse_and_undo_goes_back_before_it() -> None:
    person = Person()
    right = before_a_truss(person)
    before = person.work.site
    person.work.do([aside(right, 60.0)])
    person.click_on("button", "Make it right")
    assert right.tag in person.work.site.stood
    person.key("u")
    assert person.work.site == before


def test_all_of_what_was_found_is_made_right_and_not_only_the_first_of_it() -> None:
    """A truss let go with neither end fixed: both are, and the next may then be lifted."""
    person = Person()
    _open(person)
    by_tag = person.work.site.layout.by_tag
    stand = {
        tag: Stand(tag=tag, start=by_tag[tag].start, finish=by_tag[tag].finish) for tag in ("ST12", "ST13", "ST14")
    }
    fixed = [Fix(tag="ST12", end=end, with_="framing anchor") for end in (1, 2)]
    held = [Brace(kind="solid", tags=("ST12",)), *fixed]
    for action in (stand["ST12"], *held, stand["ST13"], Brace(kind="batten", tags=("ST12", "ST13"), every=1800)):
        person.work.session.do(action)
    person.work.changed()
    person.work.do([stand["ST14"]])
    rules = {finding.rule for finding in person.work.noted}
    assert person.work.site.fall is None and rules
    person.wait()
    person.key("r", ctrl=True)
    assert "ST14" not in person.work.site.stood
    assert all(person.work.site.fixed.get(("ST13", end)) for end in (1, 2))
    assert len(person.work.session.diary().actions) <= 10, "and no more is done than that"
    again = person.work.session.do(stand["ST14"])
    assert not rules & {finding.rule for finding in again.findings}


def test_in_an_assessment_it_is_not_offered() -> None:
    person = Person()
    _open(person, "a")
    member = person.work.site.layout.by_tag["ST14"]
    person.work.do([Stand(tag="ST14", start=member.start, finish=member.finish)])
    assert not person.sees("button", "Make it right")
    person.key("r", ctrl=True)
    assert person.work.site.stood


def test_after_it_nothing_of_that_cause_is_open_not_of_a_truss_before_either() -> None:
    """Three trusses stood one after the other with nothing tied: making the last right ties them all."""
    person = Person()
    _open(person)
    by_tag = person.work.site.layout.by_tag
    first = [Fix(tag="ST12", end=end, with_="framing anchor") for end in (1, 2)]
    for tag in ("ST12", "ST13", "ST14"):
        person.work.session.do(Stand(tag=tag, start=by_tag[tag].start, finish=by_tag[tag].finish))
        if tag == "ST12":
            for action in (Brace(kind="solid", tags=("ST12",)), *first):
                person.work.session.do(action)
        for end in (1, 2):
            person.work.session.do(Fix(tag=tag, end=end, with_="framing anchor"))
    person.work.changed()
    assert how_far(person.work.site, "ST13", held_by_own(person.work.site)).startswith("not braced")
    person.work.do([Stand(tag="ST15", start=by_tag["ST15"].start, finish=by_tag["ST15"].finish)])
    assert person.work.noted and person.work.site.fall is None
    person.wait()
    person.key("r", ctrl=True)
    assert {"ST12", "ST13", "ST14"} <= set(held_by_own(person.work.site))
    assert how_far(person.work.site, "ST13", held_by_own(person.work.site)).startswith("braced")


def test_what_is_still_open_comes_before_any_other_hint_and_braced_means_a_path_to_something_solid() -> None:
    person = Person()
    _open(person)
    by_tag = person.work.site.layout.by_tag
    for tag in ("ST12", "ST13", "ST14"):
        person.work.session.do(Stand(tag=tag, start=by_tag[tag].start, finish=by_tag[tag].finish))
        if tag == "ST12":
            person.work.session.do(Brace(kind="solid", tags=("ST12",)))
        for end in (1, 2):
            person.work.session.do(Fix(tag=tag, end=end, with_="framing anchor"))
    hints = person.work.session.hint()
    urgent = [hint for hint in hints if hint.urgent]
    assert hints[: len(urgent)] == tuple(urgent)
    assert any("ST13" in getattr(hint.action, "tags", ()) for hint in urgent)
    person.work.session.do(Brace(kind="batten", tags=("ST13", "ST14"), every=1800))
    assert how_far(person.work.site, "ST14", held_by_own(person.work.site)).startswith("tied to nothing solid")


def test_what_was_found_last_is_one_press_away_while_it_stands() -> None:
    person = Person()
    right = before_a_truss(person)
    assert not person.sees("button", "Last found"), "nothing is found yet"
    person.work.do([aside(right, 60.0)])
    found = person.work.noted
    person.read_note()
    person.work.do([Fix(tag=right.tag, end=1, with_="framing anchor")])
    person.click_on("button", "Last found")
    assert person.work.noted == found
    person.read_note()
    person.key("d", ctrl=True)
    assert person.work.noted == found
    person.read_note()
    person.key("u", times=2)
    assert not person.sees("button", "Last found"), "it was taken back"


def test_what_nobody_could_do_is_not_listed_as_done() -> None:
    person = Person()
    before_a_truss(person)
    person.work.open_tab("diary")
    person.wait()
    rows = [row.key for row in person.see("list", "Diary").children]
    person.work.do([Mark(wall="A", at=-1482.5)])
    assert "past the end" in person.status
    assert [row.key for row in person.see("list", "Diary").children] == rows
