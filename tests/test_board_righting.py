"""Making it right: one key takes back what was just found wrong and does it as it should be."""

from attempts import level_of
from board_person import Person
from board_screens import _open

from trainer.rehearse import rehearse
from trainer.site import Stand


def before_a_truss(person: Person) -> Stand:
    """Everything right up to where a truss is about to be stood, well into the house."""
    _open(person)
    actions = rehearse(level_of("wren"), 4).actions
    number = next(i for i, a in enumerate(actions) if isinstance(a, Stand) and i > len(actions) // 2)
    for action in actions[:number]:
        person.work.session.do(action)
    person.work.changed()
    stand = actions[number]
    assert isinstance(stand, Stand)
    return stand


def aside(stand: Stand, by: float) -> Stand:
    (ax, ay), (bx, by_) = stand.start, stand.finish
    across = (0.0, by) if abs(bx - ax) > abs(by_ - ay) else (by, 0.0)
    places = [(x + across[0], y + across[1]) for x, y in (stand.start, stand.finish)]
    return Stand(tag=stand.tag, start=places[0], finish=places[1])


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


def test_in_an_assessment_it_is_not_offered() -> None:
    person = Person()
    _open(person, "a")
    member = person.work.site.layout.by_tag["ST14"]
    person.work.do([Stand(tag="ST14", start=member.start, finish=member.finish)])
    assert not person.sees("button", "Make it right")
    person.key("r", ctrl=True)
    assert person.work.site.stood
