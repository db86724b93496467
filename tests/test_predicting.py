"""Predict first: what the model shows is what it does, and every question has one right answer that follows of it."""

from __future__ import annotations

from functools import cache

import pytest
from attempts import SHIPPED, layout_of, level_of, right
from board_person import Person
from sizes import by_size

from trainer.board.scenes.predicting import Predicting
from trainer.board.scenes.work import Work
from trainer.film.predicting import APART, MOST, Prediction, prediction
from trainer.rules.judge import judge
from trainer.session import Session
from trainer.site import Refused, Site, Stand, act
from trainer.site.actions import Restrain, Unbrace
from trainer.site.restraints import locked

HOUSES = by_size(("thornbill", "fantail", "wren"), SHIPPED, SHIPPED)


@cache
def asked_on(name: str, seed: int) -> list[tuple[Site, Prediction]]:
    """What is asked while a right attempt is built, with the site then."""
    session, found = Session(level_of(name), seed, layout=layout_of(name)), []
    asked: dict[Prediction, int] = {}
    for action in right(name, seed):
        session.do(action)
        one = prediction(session.site, action, asked)
        if one is not None:
            assert one.key not in {each.key for each in asked}, "each kind of moment once"
            same = [each for each in asked if isinstance(one.tried, Unbrace) and each.tried == one.tried]
            assert len(same) <= 1, "a brace is asked about where it holds and once it no longer does, and no more"
            assert all(session.site.lifted - then >= APART for then in asked.values())
            asked[one] = session.site.lifted
            found.append((session.site, one))
    return found


@pytest.mark.parametrize("seed", [1, 2])
@pytest.mark.parametrize("name", HOUSES)
def test_some_five_moments_are_asked_about_each_with_one_right_answer(name: str, seed: int) -> None:
    found = asked_on(name, seed)
    assert 1 <= len(found) <= MOST == 5
    for _site, one in found:
        assert len({option.text for option in one.options}) == 3
        assert sum(option.right for option in one.options) == 1


@pytest.mark.parametrize("seed", [1, 2])
@pytest.mark.parametrize("name", HOUSES)
def test_the_right_answer_is_what_happens_when_it_is_done(name: str, seed: int) -> None:
    for site, one in asked_on(name, seed):
        result = act(site, site.done, one.tried)
        assert not isinstance(result, Refused)
        after, event = result
        assert after == one.after
        answer = next(option.text for option in one.options if option.right)
        if isinstance(one.tried, Unbrace):
            others = len(event.fell) > 1
            assert ("falls over" in answer.lower()) == bool(event.fell) == (one.after.fall is not None)
            assert ("takes others" in answer) == others
            if not event.fell:
                assert not [f for f in judge(site, event, after) if f.severity == "stop-work"], (
                    "it is sound to take out"
                )
        elif isinstance(one.tried, Restrain):
            tag = answer.split()[0]
            assert tag in locked(after) and "stays so" in answer
            assert judge(site, event, after), "the rules find a row braced before it was straight"
        else:
            assert isinstance(one.tried, Stand) and one.tried.tag in answer
            assert not judge(site, event, after), "it is a right thing to do"
            for wrong in (option for option in one.options if not option.right):
                tag = next(word.strip(",") for word in wrong.text.split() if word.strip(",") in site.layout.by_tag)
                member = site.layout.by_tag[tag]
                tried = act(site, site.done, Stand(tag=tag, start=member.start, finish=member.finish))
                assert isinstance(tried, Refused) or judge(site, tried[1], tried[0]), f"{tag} has to wait"


def test_a_first_truss_falls_and_a_finished_hip_end_holds() -> None:
    keys = [one.key for _site, one in asked_on("fantail", 3)]
    assert keys[0] == "one falls" and "held hip end" in keys


# on the board


def first_brace(person: Person, mode: str = "p") -> Work:
    """Build a house until its first truss is held, the last brace by the tool in hand."""
    person.wait_for_houses()
    person.arrow_to("thornbill", "Houses")
    person.key(mode)
    if person.app.asking:
        person.click_on("button", "Build it now")
    if not isinstance(person.app.scene, Work):
        person.click_on("button", "Skip")  # the four questions before a first house
    work = person.work
    for action in right("thornbill", 1):
        if action.do == "brace":
            work.get_ready(action) if work.practice else work.tools.aim_at(action)
            work.act()
            break
        work.session.do(action)
    person.wait(2)
    return work


def test_it_is_asked_answered_shown_and_gone_on_from() -> None:
    person = Person()
    person.app.comfort.remember(guided=True)
    work = first_brace(person)
    scene = person.app.scene
    assert isinstance(scene, Predicting) and person.focused.key == "predict/said None"
    person.key("enter")  # meant for the work before: no answer
    assert scene.answer is None
    before = work.site
    person.click_on("button", "It stays up")
    person.wait(40, 50)
    said = " ".join(node.value for node in person.tree().walk() if node.key.startswith("predict/answer"))
    assert "Not right: It stays up" in said and "Right: It falls over" in said
    assert scene.site.fall is not None, "it is seen falling"
    person.key("enter")
    assert person.app.scene is work and work.site is before, "nothing of it was done to the learner's roof"


def test_it_can_be_skipped_and_turned_off() -> None:
    person = Person()
    person.app.comfort.remember(guided=True)
    work = first_brace(person)
    person.click_on("button", "Ask no more")
    assert person.app.scene is work and not person.app.comfort.settings.guided


def test_an_assessment_never_asks() -> None:
    person = Person()
    person.app.comfort.remember(guided=True)
    work = first_brace(person, "a")
    assert person.app.scene is work and work.site.bracing
