"""Films of houses: a right order, as long as they are to be, and every stop answered as the rules would answer it."""

from __future__ import annotations

import math
import re
from functools import cache

import pytest
from attempts import LEVELS, SHIPPED, layout_of, level_of
from sizes import by_size

from trainer.film import Caption, Film, Player, film_of
from trainer.film.course import LEAST_MS, MOST_MS
from trainer.film.ideas import MOST_CAPTIONS
from trainer.film.stops import STOPS
from trainer.picture.angled import angled, scene_of
from trainer.picture.filmed import Filmed
from trainer.picture.model import Polygon
from trainer.picture.solids import Stander
from trainer.rules.judge import judge
from trainer.session import Session
from trainer.site import Mark, Refused, Stand, act, step_actions

FILMED = tuple(name for name in LEVELS if not level_of(name).lesson.unseen)
SOME = by_size(("thornbill", "woodswallow", "wren"), (*SHIPPED, "woodswallow"), FILMED)


@cache
def film(name: str, seed: int = 1) -> Film:
    return film_of(level_of(name), seed, layout_of(name))


@pytest.mark.parametrize("name", SOME)
def test_what_is_shown_is_a_right_attempt_at_the_house(name: str) -> None:
    made = film(name)
    session = Session(level_of(name), 1, layout=layout_of(name)).replay(shot.action for shot in made.shots)
    assert not session.findings and not session.refused
    assert session.site.handed_over
    assert len(made.sites) == len(made.shots) + 1


@pytest.mark.parametrize("name", SOME)
def test_it_moves_for_60_to_90_seconds_without_a_gap(name: str) -> None:
    made = film(name)
    assert LEAST_MS <= made.length_ms <= MOST_MS
    assert [shot.start_ms for shot in made.shots[1:]] == [shot.end_ms for shot in made.shots[:-1]]


@pytest.mark.parametrize("name", SOME)
def test_marks_come_as_one_run_of_the_tape_along_each_wall(name: str) -> None:
    """All walls are measured from the end of the house where the first one begins, as on the drawings."""
    plan = layout_of(name).house.plan
    for wall in plan.walls:
        marks = [shot.action.at for shot in film(name).shots if isinstance(shot.action, Mark)
                 and shot.action.wall == wall.name]  # fmt: skip
        begin = plan.outline[0]
        back = math.dist(begin, wall.b) < math.dist(begin, wall.a)
        assert marks == sorted(marks, reverse=back)


@pytest.mark.parametrize("name", SOME)
def test_captions_are_few_and_each_stays_until_it_is_read(name: str) -> None:
    captions = film(name).captions
    assert 0 < len(captions) <= MOST_CAPTIONS == 12
    assert len({caption.idea for caption in captions}) == len(captions)
    for caption in captions:
        assert caption.hold_ms == 500 * len(caption.text.split()), "120 words a minute"


@pytest.mark.parametrize("name", SOME)
def test_it_stops_three_times_and_the_rules_agree_with_the_answers(name: str) -> None:
    made = film(name)
    assert len(made.stops) == STOPS == 3
    for stop in made.stops:
        assert sum(option.right for option in stop.options) == 1
        assert len({option.text for option in stop.options}) == len(stop.options) == 3
        number = next(n for n, shot in enumerate(made.shots) if shot.start_ms == stop.at_ms)
        site, shot = made.sites[number], made.shots[number]
        if shot.step.verb != "stand":
            continue
        for option in stop.options:
            tag = next(word for word in re.findall(r"[A-Z]+\d+", option.text) if word in site.layout.by_tag)
            assert (tag == shot.step.tag) == option.right, "the right one is what the film shows next"
            (action, *_others) = step_actions(site, shot.step._replace(tag=tag))
            assert isinstance(action, Stand)
            result = act(site, 0, action)
            assert not isinstance(result, Refused)
            after, event = result
            found = {finding.rule for finding in judge(site, event, after)}
            assert bool(found) != option.right, f"{option.text}: {found}"


@pytest.mark.parametrize("name", SOME)
def test_every_stage_and_every_idea_is_a_part_of_its_own(name: str) -> None:
    made = film(name)
    assert {caption.idea for caption in made.captions} <= {part.key for part in made.parts}
    assert {part.key for part in made.parts} >= {f"stage {stage}" for stage in ("set-out", "stand", "brace")}
    for part in made.parts:
        assert part.ranges == tuple(sorted(part.ranges)) and all(a < b for a, b in part.ranges)
        whole = sum(b - a for a, b in part.ranges)
        assert 0 < whole < made.length_ms
    stages = [part for part in made.parts if part.key.startswith("stage ")]
    assert sum(b - a for part in stages for a, b in part.ranges) == made.length_ms, "the stages are the whole film"


def test_another_seed_begins_elsewhere() -> None:
    orders = {tuple(s.step.tag for s in film("fantail", seed).shots if s.step.verb == "stand") for seed in (1, 2, 3)}
    assert len(orders) > 1


# playing


def played(player: Player, pass_captions: bool = False) -> tuple[int, list[str]]:
    """Play to the end, skipping stops; return how long it took, and what it was held for."""
    player.playing, took, met = True, 0, []
    while player.playing:
        held = player.held
        player.tick(50)
        took += 50
        if player.held is not None and player.held is not held:
            met.append("said" if isinstance(player.held, Caption) else "asked")
        if player.asking is not None or (player.held is not None and pass_captions):
            player.go_on()
    return took, met


def test_captions_hold_the_film_until_they_are_read_or_passed() -> None:
    made = film("thornbill")
    hold = sum(caption.hold_ms for caption in made.captions)
    player = Player(made)
    player.choose(None)
    read, _met = played(player)
    assert abs(read - made.length_ms - hold) < 100 * len(made.cues)
    player.choose(None)
    passed, _met = played(player, pass_captions=True)
    assert abs(passed - made.length_ms) < 100 * len(made.cues)
    slow = Player(made, speed=1)
    slow.choose(None)
    assert abs(played(slow, pass_captions=True)[0] - 2 * made.length_ms) < 100 * len(made.cues)


def test_a_part_shows_its_own_time_alone() -> None:
    made = film("wren")
    part = next(part for part in made.parts if part.key == "hip")
    player = Player(made)
    player.choose(part)
    assert isinstance(player.held, Caption) and player.held.idea == "hip"
    took, _met = played(player, pass_captions=True)
    assert abs(took - sum(b - a for a, b in part.ranges)) < 500
    assert player.at_ms == part.ranges[-1][1]


def test_without_movement_one_goes_from_picture_to_picture() -> None:
    made = film("thornbill")
    player = Player(made, still=True)
    player.choose(None)
    player.playing = True
    assert not player.tick(10_000) and player.at_ms == 0
    pictures = set()
    for _turn in range(200):
        player.go_on()
        pictures.add(player.at_ms)
    assert player.ended and {shot.end_ms for shot in made.shots if shot.step.verb == "stand"} <= pictures
    player.back()
    assert not player.ended


def test_an_answer_shows_its_reasons_before_it_goes_on() -> None:
    made = film("thornbill")
    player = Player(made)
    player.go(made.stops[0].at_ms)
    while player.asking is None:
        player.go_on()
    player.take(1)
    player.playing = True
    player.tick(60_000)
    assert player.answer == 1 and player.asking is made.stops[0], "it waits"
    player.go_on()
    assert player.asking is None


# the picture


@pytest.mark.parametrize("name", ["thornbill", "fantail"])
def test_the_last_picture_has_every_timber_that_the_angled_view_has(name: str) -> None:
    made = film(name)
    filmed = Filmed(made, 1000)
    seen = [each for each in filmed.items() if each.at(made.length_ms)]
    solids = Stander(layout_of(name)).solids(made.sites[-1])
    whole = angled(scene_of(made.sites[-1], solids), filmed.turn, 1.0)
    # A film's shadow is that of the walls alone.
    timbers = {item for item in whole if isinstance(item, Polygon) and item.fill not in {"cast", "cast_edge"}}
    bare = {item for item in angled(scene_of(made.sites[0], {}), filmed.turn, 1.0) if isinstance(item, Polygon)}
    assert timbers - bare, "trusses stand"
    assert timbers - bare <= {each.item for each in seen}
    first = [each.item for each in filmed.items() if each.at(0)]
    assert not (timbers - bare) & set(first), "none of them stands at the beginning"


def test_braces_that_were_taken_out_are_gone_at_the_end() -> None:
    made = film("wren")
    pieces = list(Filmed(made, 1000).items())
    gone = [each for each in pieces if each.at(made.length_ms // 2) and not each.at(made.length_ms)]
    assert any(getattr(each.item, "role", "") == "brace" for each in gone)


@pytest.mark.parametrize(
    ("name", "idea", "said"),
    [
        ("jacana", "girder", "A half girder runs from the higher wall's corner"),
        ("wren", "girder", "A girder spans the opening"),
        ("jacana", "hip", "The hip now, from the corner"),
        ("jacana", "gable", "tied like the others of its row"),
        ("dollarbird", "gable", "straight on over the lower roof"),
        ("dollarbird", "truncated", "has a level top"),
    ],
)
def test_a_caption_says_what_is_so_on_this_house(name: str, idea: str, said: str) -> None:
    (text,) = (caption.text for caption in film(name).captions if caption.idea == idea)
    assert said in text
    assert "string" not in text
