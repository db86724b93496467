"""Every screen of the board, each got to by keys, for pictures and for tests of what all of them must hold to.

As a script it saves a picture of each: ``python tests/board_screens.py FOLDER [WIDTHxHEIGHT SCALE THEME]``.
"""

import sys
from collections.abc import Callable, Iterator
from itertools import product
from pathlib import Path
from tempfile import TemporaryDirectory

import board_course
import board_desk
import board_kept
import board_quiz
import board_site
import board_table
import pygame
from attempts import right
from board_person import ByKeyboard, Person

from trainer.board.library import entry_of, read_entry
from trainer.board.scenes.film import FilmScreen
from trainer.board.scenes.first_truss import FirstTruss
from trainer.board.scenes.predicting import Predicting, ask_to_predict
from trainer.level import parse_level
from trainer.session import Session
from trainer.shipped import find_level
from trainer.site import AnyAction, Brace, Fix, HandOver, Stand

HOUSE = "wren"
SIZES = ((1280, 800), (1366, 768), (1920, 1080))
SCALES = (1.0, 1.5, 2.0)
THEMES = ("light", "dark", "contrast")


def _open(person: Person, mode: str = "p") -> None:
    person.wait_for_houses()
    person.arrow_to(HOUSE, "Houses")
    person.key(mode)


def _half_built(person: Person) -> None:
    """Part of the roof, done through the session: how it is got at by hand is tested elsewhere."""
    _open(person)
    actions = right(HOUSE, 4)
    person.build(actions[: len(actions) * 2 // 3])


def _wrong(person: Person) -> None:
    """A truss stood where none belongs."""
    _half_built(person)
    waiting = [
        m for m in person.work.site.layout.members if m.tag not in person.work.site.stood and m.kind == "standard"
    ]
    member = waiting[0]
    dx, dy = member.direction
    person.key("s")
    aside = (-dy * 170, dx * 170)
    person.work.do(
        [
            Stand(
                tag=member.tag,
                start=(member.start[0] + aside[0], member.start[1] + aside[1]),
                finish=(member.finish[0] + aside[0], member.finish[1] + aside[1]),
            )
        ]
    )


def _handed_over(person: Person, actions: tuple[AnyAction, ...]) -> None:
    _open(person)
    person.build(action for action in actions if not isinstance(action, HandOver))
    ByKeyboard(person).do(HandOver())


def houses(person: Person) -> None:
    person.wait_for_houses()
    person.arrow_to(HOUSE, "Houses")


def first_look(person: Person) -> None:
    """What is to be built, before the first truss."""
    person.wait_for_houses()
    person.key("f")


def first_truss(person: Person) -> None:
    first_look(person)
    person.key("enter")


def layout_sheet(person: Person) -> None:
    """The layout drawing at hand, with a truss in the hand ringed where it belongs."""
    _half_built(person)
    person.key("s")
    person.key("f9")


def keys(person: Person) -> None:
    person.wait_for_houses()
    person.key("f1")


def comfort(person: Person) -> None:
    person.wait_for_houses()
    person.key("f2")


def words(person: Person) -> None:
    _half_built(person)
    person.key("j")
    person.key("f8")
    person.key("down", times=3)


def find(person: Person) -> None:
    _half_built(person)
    person.key("f", ctrl=True)


def find_nothing(person: Person) -> None:
    person.wait_for_houses()
    person.key("f", ctrl=True)
    person.write("xyz")


def job_sheet(person: Person) -> None:
    _open(person)


def mark(person: Person) -> None:
    _half_built(person)
    person.key("m")
    person.type(4200)


def stand(person: Person) -> None:
    _half_built(person)
    person.key("s")
    person.key("down", times=3)
    person.key("enter")
    person.type(10500)
    person.key("tab")


def stand_hung(person: Person) -> None:
    _half_built(person)
    person.key("s")
    person.key("end")
    person.key("enter")
    person.type(3000)
    person.key("tab")
    person.type(2500)
    person.key("tab")


def fit(person: Person) -> None:
    _half_built(person)
    person.key("f")
    person.key("down")
    person.type(1800)


def brace(person: Person) -> None:
    _half_built(person)
    person.key("b")
    person.key("down", times=4)


def fix(person: Person) -> None:
    _half_built(person)
    person.key("x")
    person.key("down", times=6)


def take_down(person: Person) -> None:
    _half_built(person)
    person.key("r")
    person.key("down", times=2)


def check(person: Person) -> None:
    _half_built(person)
    person.key("q")
    person.key("down", times=2)
    person.key("enter")


def tape(person: Person) -> None:
    """The board's own tape between two points of the plan."""
    _half_built(person)
    person.key("a")
    person.press_until("c", "What", "between two points")
    for corner in (0, 2):
        person.click(person.plan.to_window(person.work.site.layout.house.plan.outline[corner]))


def measure(person: Person) -> None:
    _half_built(person)
    person.key("a")
    person.press_until("c", "What", "plate straight")
    person.tab_to("button", "Measure it")
    person.key("enter")


def report(person: Person) -> None:
    _half_built(person)
    person.key("r", shift=True)
    person.key("w", times=2)


def string(person: Person) -> None:
    _half_built(person)
    person.key("g")
    person.key("down", times=2)
    person.key("enter")


def unbrace(person: Person) -> None:
    _half_built(person)
    person.key("b", shift=True)
    person.key("up", times=3)


def restrain(person: Person) -> None:
    _half_built(person)
    person.key("z")
    for corner in ((1200, 2000), (6000, 6100)):
        person.click(person.plan.to_window(corner))


def fix_crossing(person: Person) -> None:
    _half_built(person)
    person.key("x")
    person.arrow_to("T3", "Roof so far")
    person.key("e", times=2)


def inspect(person: Person) -> None:
    _half_built(person)
    person.key("i")
    person.key("down", times=2)


def diary(person: Person) -> None:
    _half_built(person)
    person.key("d")


def hint(person: Person) -> None:
    _half_built(person)
    person.key("s")
    person.key("h")


def refused(person: Person) -> None:
    _half_built(person)
    person.key("s")
    person.key("down")
    person.key("enter")
    person.type(-5000)
    person.key("enter")


def angled(person: Person) -> None:
    _half_built(person)
    person.key("f4")


def planes(person: Person) -> None:
    angled(person)
    person.work.choose("TG2")
    person.tab_to("button", "Roof planes")
    person.key("enter")


def section(person: Person) -> None:
    _half_built(person)
    person.work.choose("ST14")
    person.key("f5")


def section_across(person: Person) -> None:
    """Across the hip end, on a line drawn with the mouse."""
    section_line(person)
    for corner in ((6600, 0), (13_200, 5550)):
        person.click(person.plan.to_window(corner))


def section_line(person: Person) -> None:
    section(person)
    person.tab_to("button", "Draw the line")
    person.key("enter")


def one_truss(person: Person) -> None:
    _half_built(person)
    person.work.choose("ST8")
    person.key("f7")


def two_trusses(person: Person) -> None:
    one_truss(person)
    person.tab_to("button", "Compare")
    person.key("enter")
    person.work.choose("TG1")


def before_a_truss(person: Person) -> Stand:
    """Everything right up to where a truss is about to be stood, well into the house."""
    _open(person)
    actions = right(HOUSE, 4)
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


def faulty_truss(person: Person) -> None:
    person.wait_for_houses()
    person.arrow_to("frogmouth", "Houses")
    person.key("p")
    person.work.choose("C3")
    person.key("f7")


def to_make_right(person: Person) -> None:
    stand = before_a_truss(person)
    person.work.do([aside(stand, 60.0)])


def found_in_space(person: Person) -> None:
    _wrong(person)
    person.key("f4")


def found(person: Person) -> None:
    _wrong(person)


def leaving(person: Person) -> None:
    _half_built(person)
    person.key("esc")


def handing_over(person: Person) -> None:
    _half_built(person)
    person.key("enter", ctrl=True)


def assessment(person: Person) -> None:
    _open(person, "a")
    person.key("s")
    person.key("down", times=2)


def clean_result(person: Person) -> None:
    _handed_over(person, right(HOUSE, 4))


def poor_result(person: Person) -> None:
    actions = right(HOUSE, 4)
    fixes = [a for a in actions if isinstance(a, Fix)]
    _handed_over(person, tuple(a for a in actions if a not in fixes[-9:] and a != actions[5]))
    person.key("down", times=2)


def one_finding(person: Person) -> None:
    poor_result(person)
    person.key("enter")


def looking_back(person: Person) -> None:
    poor_result(person)
    person.tab_to("button", "Next finding")
    person.key("enter")


def beside_the_reference(person: Person) -> None:
    _wrong(person)
    person.key("enter")
    ByKeyboard(person).do(HandOver())
    person.tab_to("tab", "Beside the reference")
    person.key("enter")


def first_truss_done(person: Person) -> None:
    """The end of the guided truss."""
    first_truss(person)
    scene = person.app.scene
    assert isinstance(scene, FirstTruss)
    while (following := scene.next_step) is not None:
        scene.session.do(following[1])
    scene.changed()


def four_whys(person: Person) -> None:
    """What every roof asks, all of it answered."""
    first_truss_done(person)
    person.click_on("button", "Build the whole house")
    person.wait(3)
    person.key("enter", times=7)


def leaving_quiz(person: Person) -> None:
    board_quiz.quiz_right(person)
    person.key("esc")


def film(person: Person) -> None:
    """The film of a small house, at its first caption."""
    person.wait_for_houses()
    person.arrow_to("thornbill", "Houses")
    person.key("w")
    scene = person.app.scene
    assert isinstance(scene, FilmScreen)
    while not scene.ready:
        person.wait()


def film_asks(person: Person) -> None:
    """A film that was just answered wrongly."""
    film(person)
    scene = person.app.scene
    assert isinstance(scene, FilmScreen) and scene.player is not None
    stop = scene.film.stops[1]
    scene.player.go(stop.at_ms)
    person.key("n", times=scene.player.asking is None)
    scene.take(next(n for n, option in enumerate(stop.options) if not option.right))


def predict(person: Person) -> None:
    """A question about the roof as it stands."""
    _half_built(person)
    action = next(each for each in right(HOUSE, 4) if isinstance(each, Brace))
    session = Session(person.work.session.level, 4, layout=person.work.site.layout)
    session.replay(right(HOUSE, 4)[: right(HOUSE, 4).index(action) + 3])
    ask_to_predict(person.work, session.site, action, {})
    assert isinstance(person.app.scene, Predicting)


def predicted(person: Person) -> None:
    """The same once it was answered wrongly, and the model has shown what happens."""
    predict(person)
    scene = person.app.scene
    assert isinstance(scene, Predicting)
    scene.take(next(n for n, option in enumerate(scene.asks.options) if not option.right))
    person.wait_long(2000)


OVERLAP = (
    "[[0, 0], [9000, 0], [9000, -7000], [18000, -7000], [18000, 2000], [12000, 2000], "
    "[12000, 5000], [18000, 5000], [18000, 14000], [9000, 14000], [9000, 7000], [0, 7000]]"
)
"""Two parts that overlap a third at both corners of one end: no truss layout for it here."""


def not_buildable(person: Person) -> None:
    """A house whose layout is refused, with every reason."""
    person.wait_for_houses()
    text = not_buildable_text()
    person.app.services.go_work(entry_of(parse_level(text, "it"), text), "practice")


def not_buildable_text() -> str:
    """A level whose layout is refused."""
    outline = "[[0, 0], [13200, 0], [13200, 11100], [7500, 11100], [7500, 7200], [0, 7200]]"
    text = read_entry(find_level(HOUSE)).text.replace(outline, OVERLAP).replace("gables: [C]", "gables: []")
    return text.replace("internal_walls: [[[0, 4000], [6300, 4000]]]", "internal_walls: []")


SCREENS: dict[str, Callable[[Person], None]] = {
    f.__name__: f
    for f in (
        houses, first_look, first_truss, layout_sheet,
        keys, comfort, words, find, find_nothing, job_sheet, mark, stand, stand_hung,
        fit, brace, fix,
        take_down, check, tape,
        measure, report, string, unbrace, restrain, fix_crossing, inspect, diary, hint, refused,
        angled, planes, section, section_line, section_across, one_truss, two_trusses, found_in_space, found,
        to_make_right, faulty_truss,
        leaving, handing_over, assessment, clean_result, poor_result, one_finding, looking_back,
        beside_the_reference, film, film_asks, predict, predicted,
        *board_quiz.SCREENS, *board_course.SCREENS, first_truss_done, four_whys, leaving_quiz,
        not_buildable, *board_kept.KEPT,
        *board_site.SITE, *board_table.TABLE, *board_desk.DESK,
    )
}  # fmt: skip
NEED_A_FOLDER = {f.__name__ for f in (*board_kept.KEPT, *board_desk.DESK)}


def at(screen: str, size: tuple[int, int], scale: float, theme: str) -> Person:
    """A person who has come to a screen."""
    folder = TemporaryDirectory() if screen in NEED_A_FOLDER else None
    person = Person(size, theme=theme, scale=scale, data=Path(folder.name) if folder else None)
    person.folder = folder  # it goes when the person does
    SCREENS[screen](person)
    person.wait(6)
    return person


def corners() -> Iterator[tuple[tuple[int, int], float, str]]:
    """The looks to take pictures of: the smallest and the largest window and text, in every theme."""
    yield from product((SIZES[0], SIZES[-1]), (SCALES[0], SCALES[-1]), THEMES)


def main(arguments: list[str]) -> None:
    folder = Path(arguments[0])
    folder.mkdir(parents=True, exist_ok=True)
    looks = list(corners())
    if len(arguments) > 1:
        wide, high = arguments[1].split("x")
        looks = [((int(wide), int(high)), float(arguments[2]), arguments[3])]
    wanted = arguments[4:] or list(SCREENS)
    for size, scale, theme in looks:
        for screen in wanted:
            person = at(screen, size, scale, theme)
            name = f"{screen}-{size[0]}x{size[1]}-{round(scale * 100)}-{theme}.png"
            pygame.image.save(person.surface, str(folder / name))


if __name__ == "__main__":
    main(sys.argv[1:])
