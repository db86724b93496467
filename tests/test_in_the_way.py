"""Nobody stands a truss through timber that is there: refused in plain words; what only touches or passes is not."""

import pytest
from attempts import LEVELS, layout_of, level_of, right
from board_person import Person
from sizes import some

from trainer.session import Session
from trainer.site import Stand, act
from trainer.site.delivery import lies_turned
from trainer.site.placing import same_both_ways


def stood(*tags: str) -> Session:
    attempt = Session(level_of("wren"), 1, layout=layout_of("wren"))
    for tag in tags:
        assert attempt.do(as_drawn(tag)).refused is None
    return attempt


def as_drawn(tag: str, aside: tuple[float, float] = (0.0, 0.0)) -> Stand:
    member = layout_of("wren").by_tag[tag]
    (ax, ay), (bx, by), (dx, dy) = member.start, member.finish, aside
    return Stand(tag=tag, start=(ax + dx, ay + dy), finish=(bx + dx, by + dy))


def why(attempt: Session, stand: Stand) -> str:
    outcome = attempt.do(stand)
    return outcome.refused.why if outcome.refused else ""


def test_a_truss_through_another_is_refused_and_it_says_which() -> None:
    attempt = stood("G1")
    assert "through G1" in why(attempt, as_drawn("ST6", (3000.0, 3900.0)))
    assert "ST6" not in attempt.site.stood


def test_a_truss_half_in_the_one_beside_it_is_refused_and_one_that_touches_it_is_not() -> None:
    attempt = stood("ST4")
    assert "ST4" in why(attempt, as_drawn("ST5", (-590.0, 0.0)))
    assert not why(attempt, as_drawn("ST5", (-560.0, 0.0)))


def test_what_ends_at_a_carrier_sits_on_others_or_runs_over_them_is_not_in_the_way() -> None:
    attempt = stood("TG1", "T1", "T2", "G1", "H1", "J3", "T3")
    assert not why(attempt, as_drawn("S3"))


@pytest.mark.parametrize("name", some(LEVELS, 4, 20))
def test_no_right_build_is_ever_in_the_way(name: str) -> None:
    site = Session(level_of(name), 1, layout=layout_of(name)).site
    for index, action in enumerate(right(name, 1)):
        result = act(site, index, action)
        assert isinstance(result, tuple), (action, result)
        site = result[0]


def test_a_truss_comes_into_the_hand_as_it_lay_in_its_pack() -> None:
    """By the seed, some one way about and some the other: turning it is the learner's."""
    layout = layout_of("wren")
    unlike = [member.tag for member in layout.members if not same_both_ways(member)]
    person = Person()
    person.app.services.seed = lambda: 1
    person.app.open("wren")
    person.wait(2)
    person.key("s")
    ways = set()
    for tag in unlike:
        person.work.choose(tag)
        ways.add(person.work.hand.aim.turned)
        assert person.work.hand.aim.turned == lies_turned(person.work.site.job, tag)
    assert ways == {False, True}
