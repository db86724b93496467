"""The tools: one for every verb of a diary, by key and by mouse; hints that can be followed to the end."""

from typing import get_args

import pytest
from attempts import level_of, right
from board_person import ByKeyboard, ByMouse, Person
from sizes import by_size, some

from trainer.board.diary_words import done, reading, to_do
from trainer.board.scenes.result import ResultScreen
from trainer.board.tools.measure import ASKS, BETWEEN, READING_KINDS
from trainer.board.tools.registry import STAGE_TOOLS, TOOLS, Toolbox, stage_of
from trainer.layout import Member
from trainer.picture.dangers import spots
from trainer.plan import Point
from trainer.session import Session
from trainer.shipped import art_path
from trainer.site import AnyAction, Brace, Fit, Fix, Refused, Site, Stand, act
from trainer.site.actions import (
    Check,
    Clear,
    Cut,
    Inspect,
    Load,
    Mark,
    Measure,
    Plan,
    Plumb,
    Remove,
    Report,
    Restrain,
    Stop,
    String,
    Unbrace,
)
from trainer.site.restraints import locked
from trainer.site.spots import spots_of
from trainer.terms import OUTCOME_NAMES, STAGES, VERBS, counted

DIARY = {kind.model_fields["do"].default for kind in get_args(AnyAction)}


def built(house: str = "wren") -> Person:
    """At work on a house that stands but for its last trusses."""
    person = Person((1600, 900))
    person.wait_for_houses()
    person.arrow_to(house, "Houses")
    person.key("p")
    wanted = right(house, 4)
    person.build(wanted[: len(wanted) * 4 // 5])
    return person


def along_the_row(site: Site, one: str, other: str) -> tuple[Point, Point]:
    """Two places, to 10 mm, a little outside two trusses of a row: a line from one to the other crosses both."""
    (ax, ay), (bx, by) = (
        tuple(0.7 * s + 0.3 * f for s, f in zip(site.stood[tag].start, site.stood[tag].finish, strict=True))
        for tag in (one, other)
    )
    if abs(ax - bx) > abs(ay - by):
        out = 100 if bx > ax else -100
        return (round(ax - out, -1), round(ay, -1)), (round(bx + out, -1), round(ay, -1))
    out = 100 if by > ay else -100
    return (round(ax, -1), round(ay - out, -1)), (round(ax, -1), round(by + out, -1))


def every_verb(person: Person) -> list[AnyAction]:
    """One action of every verb that has no tool of its own to test elsewhere, as it can be done on this site."""
    site = person.work.site
    rows = ([tag for tag in tags if tag in site.stood] for tags in site.layout.rows.values())
    row = next(tags for tags in rows if sum(tag.startswith("ST") for tag in tags) > 2)
    begins, ends = along_the_row(site, row[0], row[2])
    along_it = [member.tag for lines in site.job.rows.values() for member in lines.members]
    waiting = next(tag for tag in site.layout.by_tag if tag not in site.stood)
    over, spot = next(
        (stood, spot) for stood in site.stood.values() for spot in spots_of(site, stood.tag) if "crossing" in spot.words
    )
    piece = next(piece for piece in site.bracing if piece.kind == "batten")
    tips = [tag for tag in site.stood if site.layout.by_tag[tag].kind in ("standard", "truncated", "truncated_girder")]
    free = next(tag for tag in tips if tag not in locked(site))
    return [
        Check(item=site.job.conditions.checks[0]),
        Measure(what="straight", wall="B"),
        Measure(what="plumb", tag=row[1]),
        Report(fault="bowed wall", wall="A"),
        Report(fault="broken web", tag=waiting),
        Report(fault="service line", at=(2000, -1500)),
        Report(fault="missing rail", wall="B"),
        Report(fault="licence missing"),
        Report(fault="sling at the apex", tag=waiting),
        Measure(what="clearance", at=(3000, -1500)),
        String(start=row[0], finish=row[-1]),
        Measure(what="apex", tag=row[1]),
        Plumb(tag=free),
        Brace(kind="prop", tags=(row[1],)),
        Brace(kind="steel brace", tags=tuple(row[:3])),
        Fix(tag=over.tag, at=spot.at, with_="nails", count=2),
        Fix(tag=row[1], end=2, with_="framing anchor", nails="half"),
        Restrain(kind="web tie", start=begins, finish=ends),
        Restrain(kind="roof brace", start=begins, finish=ends, tension="hard"),
        Unbrace(kind="roof brace", tags=tuple(sorted(row[:3], key=along_it.index))),
        Brace(kind="batten", tags=(row[0], row[2]), every=2700),
        Unbrace(kind=piece.kind, tags=piece.tags, every=piece.every),
        Plan(kind="standard", by="crane", people=2, slung="spread slings"),
        Plan(kind="hip", by="hand", people=3),
        Stop(),
        Inspect(tag=row[0], accept=False),
        Load(what="packs", pattern="both slopes"),
        Cut(tag=waiting, where="web"),
        Load(what="battens"),
        Remove(tag=row[1]),
    ]


@pytest.mark.parametrize("hands", [ByKeyboard, ByMouse])
def test_every_verb_is_done_by_keyboard_alone_and_by_mouse_alone(hands: type[ByKeyboard] | type[ByMouse]) -> None:
    person = built()
    for wanted in every_verb(person):
        before = len(person.work.session.outcomes)
        hands(person).do(wanted)
        outcomes = person.work.session.outcomes
        assert len(outcomes) == before + 1, f"{wanted}: {person.status}"
        assert outcomes[-1].action == wanted
        assert outcomes[-1].refused is None, outcomes[-1].refused
        if person.work.noted:
            person.read_note(by_mouse=hands is ByMouse)


@pytest.mark.parametrize("hands", [ByKeyboard, ByMouse])
def test_a_truss_is_braced_to_a_verandah_beam_only_where_the_house_has_one(
    hands: type[ByKeyboard] | type[ByMouse],
) -> None:
    person = built("curlew")
    tag = next(tag for tag in person.work.site.stood if tag.startswith("ST"))
    for wanted in (Brace(kind="solid", tags=(tag,), to="beam"), Brace(kind="solid", tags=(tag,))):
        hands(person).do(wanted)
        assert person.work.session.outcomes[-1].action == wanted
        if person.work.noted:
            person.key("enter") if hands is ByKeyboard else person.click_on("button", "Go on")
    site = built("pardalote").work.site
    refused = act(site, site.done, Brace(kind="solid", tags=(next(iter(site.stood)),), to="beam"))
    assert isinstance(refused, Refused) and "no verandah beam" in refused.why


def test_every_verb_has_a_tool_words_and_a_place_in_a_stage() -> None:
    assert set(TOOLS) | {"hand_over", "undo"} == DIARY == set(VERBS)
    assert tuple(STAGE_TOOLS) == STAGES
    assert all(VERBS[verb].stage == stage_of(verb) for verb in TOOLS)
    assert len({tool.key for tool in TOOLS.values()}) == len(TOOLS)
    for verb, tool in TOOLS.items():
        assert tool.first_words and art_path(f"icons/{verb}.svg").is_file()


def test_what_is_done_is_said_without_the_words_of_the_file() -> None:
    person = built()
    for action in every_verb(person):
        for text in (*done(action, person.work.site), to_do(action, person.work.tools)):
            assert "{" not in text and "_" not in text
        assert done(action, person.work.site)[0]


def test_what_a_tape_read_is_said_of_marks_and_measurements_alike() -> None:
    person = built()
    events = [outcome.event for outcome in person.work.session.outcomes if outcome.event is not None]
    read = [event for event in events if event.reading is not None]
    assert {"mark", "measure"} <= {event.action.do for event in read}
    for event in read:
        assert event.reading is not None and f"It reads {event.reading.got:g} mm." in reading(event)


@pytest.mark.parametrize("house", by_size(["pardalote"], ["pardalote", "wren"], ["pardalote", "wren"]))
def test_hints_taken_up_by_keys_build_the_house_through_all_its_stages(house: str) -> None:
    """A robot presses H for a hint, H to take up the tool, Enter to do it, and comes to the practice mark."""
    person = Person((1280, 800))
    person.wait_for_houses()
    person.arrow_to(house, "Houses")
    person.key("p")
    stages = set()
    for _ in range(3000):
        hints = person.work.session.hint()
        if not hints:
            break
        before = len(person.work.session.outcomes)
        person.key("h", times=3)
        assert person.work.ghost in {hint.action for hint in hints}
        stages.add(person.work.stage)
        person.key("h")
        if person.app.asking:
            person.tab_to("button", "Hand over")
        person.key("enter")
        if isinstance(person.app.scene, ResultScreen):
            break
        outcome = person.work.session.outcomes[-1]
        assert len(person.work.session.outcomes) == before + 1, person.status
        assert outcome.refused is None and not outcome.findings, outcome
    assert isinstance(person.app.scene, ResultScreen)
    assert person.see("label", "100 of 100")
    assert person.see("heading", OUTCOME_NAMES["shown"]), "whoever only pressed the hint key has done nothing alone"
    assert len(stages) >= 4


@pytest.mark.parametrize("house", some(["pardalote", "wren", "kookaburra"], 1))
def test_a_tool_can_be_aimed_at_whatever_a_hint_suggests(house: str) -> None:
    session = Session(level_of(house), 3)
    tools = Toolbox(session)
    seen = set()
    while not session.site.handed_over:
        for hint in session.hint()[:4]:
            if hint.action.do != "hand_over":
                assert tools.aim_at(hint.action) == "", hint
                assert tools.tool.actions() == [hint.action]
                seen.add(hint.action.do)
        session.do(session.hint()[0].action)
    assert {"mark", "stand", "brace", "fix"} <= seen


# what a tool wants before anything comes of it


def test_outriggers_have_to_run_back() -> None:
    tool = Toolbox(Session(level_of("wren"), 1)).use("fit")
    tool.choose("GT1")
    tool.part, tool.every, tool.back = "outrigger", 600.0, 0.0
    assert tool.actions() == "Type how far apart they go, and how far outriggers run back."
    tool.back = 50.0
    assert tool.actions() == [Fit(part="outrigger", on="GT1", every=600.0, back=50.0)]


def test_a_batten_wants_two_trusses() -> None:
    tool = Toolbox(Session(level_of("wren"), 1)).use("brace")
    tool.change_kind("batten")
    tool.every = 2700
    for picked in ((), ("ST1",)):
        tool.picked = picked
        assert tool.actions() == "Choose two standing trusses for the batten."
    tool.picked = ("ST1", "ST2")
    assert tool.actions() == [Brace(kind="batten", tags=("ST1", "ST2"), every=2700)]


def test_a_lift_plan_says_how_many_and_by_crane_where_it_is_slung() -> None:
    tool = Toolbox(Session(level_of("wren"), 1)).use("plan")
    assert tool.actions() == "Type how many people lift it."
    tool.people = 2
    assert tool.actions() == [Plan(kind=tool.kind, by="hand", people=2)]
    tool.by = "crane"
    assert tool.actions() == "Choose where it is slung."


# a look round, the lift plan, and a fall


def at(house: str, size: tuple[int, int] = (1280, 800)) -> Person:
    """At work on a house on which nothing has been done."""
    person = Person(size)
    person.app.open(house)
    person.wait(3)
    return person


def done_so_far(person: Person) -> list[AnyAction]:
    return [outcome.action for outcome in person.work.session.outcomes]


def test_a_danger_on_the_plan_is_asked_about_and_reported_by_mouse() -> None:
    person = at("kookaburra")
    ByMouse(person).take_up("check")
    line = next(spot for spot in spots(person.work.site) if spot.word == "line")
    person.click(person.plan.to_window(line.place))
    assert done_so_far(person) == [Check(item="exclusion zone")]
    assert person.sees("label", line.flaw.in_words), "it says what is seen"
    assert line.flaw in person.work.site.flaws, "and looking has put nothing right"
    person.click_on("button", "Get the report ready")
    person.click_on("button", "Report it")
    assert done_so_far(person)[1:] == [Report(fault="service line", at=line.place)]
    assert line.flaw not in person.work.site.flaws


def test_a_danger_is_looked_at_and_reported_by_three_presses_of_enter() -> None:
    person = at("kookaburra")
    person.key("q")
    person.arrow_to("plan/1", "Places")
    platform = spots(person.work.site)[1]
    assert platform.item == "edge protection"
    person.key("enter", times=3)
    assert done_so_far(person) == [Check(item="edge protection"), Report(fault="missing platform", at=platform.place)]
    assert platform.flaw not in person.work.site.flaws


def test_how_near_loads_swing_is_measured_from_what_was_seen() -> None:
    person = at("kookaburra")
    person.key("q")
    person.arrow_to("exclusion zone", "Places")
    person.key("enter")
    person.click_on("button", "Measure how near")
    person.click_on("button", "Measure it")
    line = next(spot for spot in spots(person.work.site) if spot.word == "line")
    assert done_so_far(person)[-1] == Measure(what="clearance", at=line.place)
    assert "Loads will swing within 1200 mm of the line. They have to stay 3000 mm clear." in person.status


def test_a_press_on_a_danger_with_the_report_in_hand_reports_it_and_not_before_it_is_said() -> None:
    person = at("kookaburra")
    ByMouse(person).take_up("report")
    platform = next(spot for spot in spots(person.work.site) if spot.word == "no platform")
    person.click(person.plan.to_window(platform.place))
    assert done_so_far(person) == []
    person.click_on("button", "Report it")
    assert done_so_far(person) == [Report(fault="missing platform", at=platform.place)]


@pytest.mark.parametrize("hands", [ByKeyboard, ByMouse])
def test_several_kinds_are_picked_and_planned_alike_by_one_press(hands: type[ByKeyboard] | type[ByMouse]) -> None:
    person = at("kookaburra")
    first, *rest = person.work.site.job.lifts
    hands(person).do(Plan(kind=first, by="crane", people=2, slung="panel points"))
    assert person.work.tools["plan"].kind == rest[0], "it goes on to the next kind"
    if hands is ByMouse:
        person.click_row("Lift plan", rest[0])
        person.click_row("Lift plan", rest[1])
        person.click_on("button", f"Pick all {len(rest)} left")
        person.click_on("button", f"Plan {len(rest)} kinds so")
    else:
        person.key("p", shift=True)
        person.key("enter")
        person.key("down")
        person.key("enter")
        one, other = (counted(kind, person.work.site.job.lifts[kind].many) for kind in rest[:2])
        assert person.sees("label", f"For: {one}, {other}."), "it says what is picked"
        person.tab_to("button", f"Pick all {len(rest)} left")
        person.key("enter")
        person.tab_to("button", f"Plan {len(rest)} kinds so")
        person.key("enter")
    planned = [Plan(kind=kind, by="crane", people=2, slung="panel points") for kind in (first, *rest)]
    assert done_so_far(person) == planned


def test_a_number_typed_for_one_tool_stays_with_it() -> None:
    person = at("kookaburra")
    person.key("m")
    person.type(4200)
    person.key("p", shift=True)
    assert person.see("entry", "People").value.strip() == "0"
    person.key("m")
    assert person.see("entry", "Along it").value == "4200 mm"


@pytest.mark.parametrize("hands", [ByKeyboard, ByMouse])
def test_a_fall_is_reported_and_cleared(hands: type[ByKeyboard] | type[ByMouse]) -> None:
    person = at("wren", (1600, 900))
    members = [m for m in person.work.site.layout.members if m.kind == "standard"][:2]
    for member in members:
        person.work.do([Stand(tag=member.tag, start=member.start, finish=member.finish)])
    assert person.work.site.fall is not None
    person.wait()
    person.work.close_note()
    for action in (Report(fault="a fall"), Clear()):
        hands(person).do(action)
        assert done_so_far(person)[-1] == action, person.status
    assert person.work.site.fall is None


# the board's own tape


def test_the_tape_measures_between_any_two_points_by_mouse() -> None:
    person = built()
    ByMouse(person).take_up("measure")
    person.work.tool.what = BETWEEN
    corners = person.work.site.layout.house.plan.outline
    for corner in corners[:2]:
        person.click(person.plan.to_window(corner))
    assert person.plan.value == "13200 mm"
    person.click(person.plan.to_window(corners[0]))
    person.click(person.plan.to_window(corners[2]))
    across, up = corners[2][0] - corners[0][0], corners[2][1] - corners[0][1]
    assert person.plan.value == f"{round((across**2 + up**2) ** 0.5 * 2) / 2:g} ({across} × {up}) mm".replace(
        " (", "  ("
    )
    assert len(person.work.session.outcomes) == len(person.work.session.diary().actions)


def test_the_tape_measures_between_any_two_points_by_keyboard() -> None:
    person = built()
    before = len(person.work.session.outcomes)
    person.key("a")
    person.press_until("c", "What", "between two points")
    person.tab_to("plan", "Plan")
    person.key("enter")
    person.key("right", times=4)
    person.key("up", shift=True, times=3)
    person.key("enter")
    assert person.plan.value == "200  (200 × 3) mm"
    assert len(person.work.session.outcomes) == before


def test_the_tape_can_be_set_down_on_the_last_mark_and_read_from_there() -> None:
    person = Person()
    person.app.open("wren")
    person.wait(3)
    hands = ByKeyboard(person)
    for action in (Mark(wall="A", at=600), Mark(wall="A", at=1200, measured_from=600)):
        hands.do(action)
        assert person.work.session.outcomes[-1].action == action
    tool = person.work.tool
    assert person.see("entry", "Along it").value == "", "where the next mark goes is still to be said"
    assert tool.tape_start == 1200, "it is set down on the mark just made"
    person.key("k")
    assert tool.tape_start == 0


def with_girder_chosen(tool: str) -> tuple[Person, Member, float]:
    """A girder in line with walls stands, and is chosen with some other tool; where on it something will hang."""
    person = Person()
    person.app.open("kookaburra")
    person.wait(3)
    girder = person.work.site.layout.by_tag["G1"]
    person.work.do([Stand(tag="G1", start=girder.start, finish=girder.finish)])
    person.wait()
    person.read_note()  # it went up before the checks
    person.key(tool)
    person.key("o")
    person.arrow_to("G1", "Roof so far")
    assert person.work.hand.truss == "G1"
    run = person.work.site.job.stations["G1"][0].run
    return person, girder, run


def test_a_girder_chosen_before_takes_its_mark_by_keyboard_and_a_wall_takes_its_own() -> None:
    person, _girder, run = with_girder_chosen("p")
    person.key("m")
    assert person.work.tools["mark"].on in person.work.site.layout.house.plan.by_name
    person.key("o")
    assert not any(row.value == "chosen" for row in person.see("list", "Roof so far").children), "the wall is meant"
    hands = ByKeyboard(person)
    for action in (Mark(on="G1", at=run), Mark(wall="A", at=600), Mark(on="G1", at=run + 600)):
        hands.do(action)
        assert person.work.session.outcomes[-1].action == action


def test_on_a_girder_k_sets_the_tape_down_on_its_last_mark_and_hooks_it_on_the_end_again() -> None:
    person, _girder, run = with_girder_chosen("p")
    ByKeyboard(person).do(Mark(on="G1", at=run))
    read = []
    for _press in range(2):
        person.key("k")
        read.append(person.work.tool.tape_start)
    assert read == [run, 0]


@pytest.mark.parametrize("first", ["", "G1"])
def test_a_mark_pointed_at_on_a_girder_goes_on_it_though_walls_lie_in_line_with_it(first: str) -> None:
    person, girder, run = with_girder_chosen("p")
    hands = ByMouse(person)
    hands.take_up("mark")
    if not first:
        person.work.hand.truss = ""
    x, y = (a + run * d for a, d in zip(girder.start, girder.direction, strict=True))
    person.click(hands._near((x, y), 12.0))
    assert person.work.session.outcomes[-1].action == Mark(on="G1", at=run)
    hands.do(Mark(wall="A", at=1200))
    assert person.work.session.outcomes[-1].action == Mark(wall="A", at=1200)


# before all of it is said


def test_outriggers_wait_until_they_run_back_and_gable_studs_do_not() -> None:
    tool = Toolbox(Session(level_of("pardalote")))["fit"]
    tool.choose("GT1")
    tool.part, tool.every = "outrigger", 900.0
    for back in (0.0, -1.0, -600.0):
        tool.back = back
        assert isinstance(tool.actions(), str), "it says what is wanted"
    tool.back = 0.5
    assert tool.actions() == [Fit(part="outrigger", on="GT1", every=900, back=0.5)]
    tool.part, tool.back = "gable stud", 0.0
    assert tool.actions() == [Fit(part="gable stud", on="GT1", every=900)]


@pytest.mark.parametrize("kind", ["batten", "steel brace", "diagonal"])
def test_what_ties_trusses_waits_until_two_are_picked(kind: str) -> None:
    tool = Toolbox(Session(level_of("wren")))["brace"]
    tool.change_kind(kind)
    tool.every = 2700
    for picked in ((), ("ST1",)):
        tool.picked = picked
        assert isinstance(tool.actions(), str), "it says what is wanted"
    tool.picked = ("ST1", "ST2")
    every = 2700 if kind == "batten" else None
    assert tool.actions() == [Brace(kind=kind, tags=("ST1", "ST2"), every=every)]


def test_every_reading_says_which_question_it_answers() -> None:
    assert set(ASKS) == set(READING_KINDS)
    person = built()
    person.work.use("measure")
    for what in READING_KINDS:
        person.work.tool.what = what
        person.work.refresh()
        person.wait()
        assert any(node.name == ASKS[what] for node in person.tree().walk()), what


def test_a_report_on_the_look_round_leads_back_to_it() -> None:
    """Enter, pressed once more, goes on with the round, and reports nothing twice."""
    session = Session(level_of("bee-eater"), 1)
    tools = Toolbox(session)
    for action in right("bee-eater", 1):
        if action.do == "report":
            break
        session.do(action)
    tools.use("check")
    assert tools.aim_at(action) == "" and tools.tool.verb == "report"
    session.do(action)
    tools.after(action)
    assert tools.tool.verb == "check"
    tools.use("report")
    tools.after(action)
    assert tools.tool.verb == "report", "whoever took it up by hand keeps it"
