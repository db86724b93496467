"""Rows of temporary battens: where they are drawn, what comes off again, and what the board says and asks of them."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from attempts import layout_of, level_of
from board_person import Person

from trainer.board.diary_words import done, to_do
from trainer.board.tools.brace import BraceTool
from trainer.board.tools.registry import Toolbox
from trainer.board.tools.unbrace import pieces_on
from trainer.picture.angled import Scene3, angled, scene_of, sketch
from trainer.picture.cut import SectionLine
from trainer.picture.model import Item, Line, Polygon
from trainer.picture.section import section
from trainer.picture.solids import Stander
from trainer.picture.space import Turn
from trainer.picture.still_site import StillSite
from trainer.picture.struts import Strut, struts
from trainer.rehearse import rehearse
from trainer.session import Session, job_of
from trainer.session.job_sheet import job_sheet
from trainer.site import Brace, Site, Stand
from trainer.site.actions import Unbrace
from trainer.site.batten_rows import row_runs

HOUSE = "wren"
ROW = ("ST1", "ST2")
"""Two neighbours of the wider wing."""
TURN = Turn(30.0, 32.0)
RULE = "top-chord-battens-too-far-apart"


def built(*battens: Brace) -> Session:
    """Two trusses of a row, the first solid, and battens over them."""
    session = Session(level_of(HOUSE), 3, layout=layout_of(HOUSE))
    for tag in ROW:
        member = layout_of(HOUSE).by_tag[tag]
        session.do(Stand(tag=tag, start=member.start, finish=member.finish))
    session.do(Brace(kind="solid", tags=ROW[:1]))
    for batten in battens:
        session.do(batten)
    return session


def over(every: int | None) -> Brace:
    return Brace(kind="batten", tags=ROW, every=every)


def along_and_ridge() -> tuple[int, float, float, float]:
    """The axis that the row runs along, and across it its ridge and the outsides of both plates: half the span each."""
    member = layout_of(HOUSE).by_tag[ROW[0]]
    across = 0 if member.start[0] != member.finish[0] else 1
    low, high = sorted((member.start[across], member.finish[across]))
    return across, (low + high) / 2, low, high


def by_hand(every: int) -> list[float]:
    """Where rows lie across the row: stepped off from the ridge to both plates, as with a tape."""
    _across, ridge, low, high = along_and_ridge()
    found = [ridge]
    for step in (every, -every):
        place = ridge + step
        while low < place < high:
            found.append(place)
            place += step
    return sorted(found)


def drawn(site: Site) -> list[Strut]:
    return [strut for strut in struts(site, Stander(site.layout).solids(site)) if strut.run == "batten"]


@pytest.mark.parametrize("every", [700, 1200, 1900, 2400, 6000])
def test_battens_are_drawn_in_rows_from_the_ridge_down_each_slope(every: int) -> None:
    across, *_rest = along_and_ridge()
    rows = drawn(built(over(every)).site)
    assert [set(strut.of) for strut in rows] == [set(ROW)] * len(rows)
    for end in (0, 1):
        # What leans is drawn as it leans, so across the row a place is out by no more than the top of a truss is.
        places = sorted((strut.a, strut.b)[end][across] for strut in rows)
        assert places == pytest.approx(by_hand(every), abs=60)


def test_without_a_gap_they_are_drawn_as_the_job_sheet_says() -> None:
    assert level_of(HOUSE).bracing.top_chord_ties == 3000
    assert drawn(built(over(None)).site) == drawn(built(over(3000)).site)


def plan(site: Site) -> list[Item]:
    return StillSite(site.layout).items(site, 1.0)


def as_a_sketch(site: Site) -> list[Item]:
    return sketch(scene(site), TURN)


def between_the_two(site: Site) -> list[Item]:
    """A section that looks along the row, cut through the battens."""
    one, other = (site.layout.by_tag[tag] for tag in ROW)
    (ax, ay), (bx, by) = (
        ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in ((one.start, other.start), (one.finish, other.finish))
    )
    return section(scene(site), SectionLine((ax, ay), (bx, by)))


def scene(site: Site) -> Scene3:
    return scene_of(site, Stander(site.layout).solids(site))


@pytest.mark.parametrize("view", [plan, as_a_sketch, between_the_two])
def test_every_view_shows_one_more_piece_for_each_row(view: Callable[[Site], list[Item]]) -> None:
    def pieces(every: int) -> int:
        return sum(
            (isinstance(item, Line) and item.role == "brace") or (isinstance(item, Polygon) and item.fill == "brace")
            for item in view(built(over(every)).site)
        )

    assert pieces(1200) - pieces(2400) == len(by_hand(1200)) - len(by_hand(2400)) > 0


def test_at_an_angle_every_row_is_seen_from_end_to_end() -> None:
    """There a piece may be drawn in several, each behind what lies before it."""
    site = built(over(1200)).site
    seen = [
        point
        for item in angled(scene(site), TURN, 0.1)
        if isinstance(item, Line) and item.role == "brace"
        for point in item.points
    ]
    for strut in drawn(site):
        for end in (strut.a, strut.b):
            assert min(math.dist(TURN.flat(end), point) for point in seen) < 1


def test_rows_keep_to_a_truss_whose_ridge_is_at_its_end() -> None:
    """A hip's highest place is where it leaves its own run: one row there, the others down from it."""
    assert row_runs(2500.0, 3000.0, 1000.0) == (500.0, 1500.0, 2500.0)


# what is found, and taken back


def test_undo_takes_the_battens_and_what_was_found_back() -> None:
    session = built()
    before, found = session.site, session.findings
    session.do(over(5000))
    assert [f.member for f in session.findings if f.rule == RULE] == [ROW[1]]
    session.undo()
    assert session.findings == found and session.site.bracing == before.bracing
    session.do(over(3000))
    assert session.findings == found


def test_one_row_of_trusses_braced_too_wide_is_one_cause() -> None:
    session = built(over(5000))
    member = layout_of(HOUSE).by_tag["ST3"]
    session.do(Stand(tag="ST3", start=member.start, finish=member.finish))
    session.do(Brace(kind="batten", tags=("ST2", "ST3"), every=5000))
    found = [f for f in session.findings if f.rule == RULE]
    assert [f.member for f in found] == ["ST2", "ST3"]
    assert len({f.cause for f in found}) == 1


def test_battens_come_off_by_their_gap_where_two_sets_lie_on_the_same_trusses() -> None:
    both = built(over(3000), over(1200)).site.bracing[1:]
    assert [piece.every for piece in both] == [3000, 1200]
    session = built(over(3000), over(1200))
    session.do(Unbrace(kind="batten", tags=ROW, every=1200))
    assert [piece.every for piece in session.site.bracing[1:]] == [3000]
    outcome = session.do(Unbrace(kind="batten", tags=ROW, every=1200))
    assert outcome.refused is not None
    session.do(Unbrace(kind="batten", tags=ROW))
    assert len(session.site.bracing) == 1


def test_a_right_diary_says_the_gap_and_an_old_one_without_it_is_as_right() -> None:
    diary = rehearse(level_of(HOUSE), 2, layout=layout_of(HOUSE))
    battens = [a for a in diary.actions if isinstance(a, Brace) and a.kind == "batten"]
    assert battens and {a.every for a in battens} == {level_of(HOUSE).bracing.top_chord_ties}
    old = [a.model_copy(update={"every": None}) if a in battens else a for a in diary.actions]
    session = Session(level_of(HOUSE), 2, layout=layout_of(HOUSE)).replay(old)
    assert session.findings == () and session.refused == ()


# on the board


def test_the_job_sheet_tells_the_levels_own_value() -> None:
    level = level_of(HOUSE)
    for most in (3000, 2700):
        bracing = level.bracing.model_copy(update={"top_chord_ties": most})
        sheet = job_sheet(level.model_copy(update={"bracing": bracing}), job_of(level, 1, layout=layout_of(HOUSE)), "")
        texts = [line for _heading, lines in sheet for line in lines]
        assert any("battens" in text and f"**{most}** mm" in text for text in texts)


def test_the_tool_asks_for_the_gap_before_it_puts_battens_on_and_a_hint_gives_it() -> None:
    tools = Toolbox(built())
    tool = tools.use("brace")
    assert isinstance(tool, BraceTool)
    tool.kind, tool.picked = "batten", ROW
    for every in (0, 50, 90_000):
        tool.every = every
        assert "how far apart" in tool.actions()
    for action in (over(2700), Brace(kind="diagonal", tags=ROW)):
        assert tools.aim_at(action) == ""
        assert tool.actions() == [action]


def test_the_diary_and_the_lists_say_the_gap() -> None:
    session = built(over(2700))
    assert "every 2700 mm" in " ".join(done(over(2700), session.site))
    assert "every 2700 mm" in to_do(over(2700), Toolbox(session))
    assert "every 2700 mm" in pieces_on(session.site)[-1].in_words
    assert "every" not in " ".join(done(over(None), session.site))


def test_the_gap_is_told_once_by_keys_and_kept_for_the_next_truss() -> None:
    person = Person()
    person.app.open(HOUSE)
    person.wait(3)
    for action in built().diary().actions:
        person.work.session.do(action)
    person.work.changed()
    person.key("b")
    person.press_until("c", "With", "batten: ties one truss to the next")
    for tag in ROW:
        person.arrow_to(tag, "Roof so far")
        person.key("enter")
    assert "how far apart" in person.status
    person.type(2400)
    person.key("enter")
    assert person.work.session.outcomes[-1].action == over(2400)
    assert "every 2400 mm" in person.status
    assert person.see("entry", "A row every").value == "2400 mm"
