"""The report of one attempt: everything that is on record, in words, lines and drawings, and nothing more claimed."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from pathlib import Path

import pytest
from attempts import level_of, right
from pdfminer.high_level import extract_text
from records_made import NOON, acted, answered, chain, house_begun, marked, opening, paper_begun, with_answers
from report_made import Page, built, mistaken, plain
from sizes import some
from typer.testing import CliRunner

from trainer.cli import app
from trainer.cli.on_paper import type_files
from trainer.level import parse_level
from trainer.picture.as_built import whole_box
from trainer.picture.model import Text, flat
from trainer.picture.moments import moments_picture
from trainer.picture.on_page import HIGH, WIDE, page_scale, placed
from trainer.picture.still_site import StillSite
from trainer.quiz.unit import UNIT_ITEMS
from trainer.records.attempt import Attempt
from trainer.records.record_file import write_record
from trainer.records.seat import Seat
from trainer.records.verify import LIMITS
from trainer.rehearse import rehearse
from trainer.report.attempt_content import attempt_content
from trainer.report.in_words import action_line
from trainer.report.pdf_page import Page as PdfPage
from trainer.rules import all_rules
from trainer.rules.whole import NOT_DONE, at_first
from trainer.session import Session
from trainer.shipped import find_level
from trainer.site import Fix, HandOver, Mark, Stand
from trainer.site.actions import Report, Undo
from trainer.terms import SEVERITIES, SEVERITY_NAMES
from trainer.words import CAUTION, INVENTED

RUNNER = CliRunner()


def run(*words: object, leaves: int = 0) -> tuple[str, str]:
    result = RUNNER.invoke(app, [str(word) for word in words])
    assert result.exit_code == leaves, result.output
    assert "Traceback" not in result.output
    return result.stdout, result.stderr


def page_of(made: Attempt, folder: Path) -> Page:
    run("report", made.id[:8], "-o", folder / "r.html", "--data", folder)
    return Page((folder / "r.html").read_text(encoding="utf-8"))


def test_a_page_has_the_whole_record_its_reasons_and_its_limits(tmp_path: Path) -> None:
    made = mistaken(tmp_path, "wren-07", "pardalote", "tie-down-missing")
    shown = page_of(made, tmp_path)
    (found,) = [fact for act in made.houses[0].acts for fact in act["found"]]
    rule = next(rule for rule in all_rules() if rule.name == found["rule"])
    texts = [rule.what.format(**{k: found[k] for k in ("member", "got", "want")}), rule.why, rule.fix, rule.safety]
    assert made.houses[0].mark is not None
    texts += [rule.source, made.head_code, made.id, f"{made.houses[0].mark['score']} of 100", "self-study"]
    for text in (*texts, *LIMITS, CAUTION, INVENTED, *UNIT_ITEMS.values()):
        assert plain(text) in shown.text, text
    on_house = dict(attempt_content(made, "self-study", ()).covered)
    assert on_house["connect roof and walls, and tie down"] == "pardalote"
    assert on_house["clean up and look after tools"] == ""
    assert (on_house["a hip end and a valley"], on_house["a gable end"]) == ("", "pardalote")
    for act in made.houses[0].acts:
        assert action_line(act["action"]) in shown.text
    assert not re.search(
        r"\bis competent\b|\bqualified as\b|\bready for site\b", shown.text.replace(plain(CAUTION), "")
    )


def test_a_page_makes_no_request_and_forbids_any(tmp_path: Path) -> None:
    shown = page_of(mistaken(tmp_path, "wren-07", "pardalote", None), tmp_path)
    assert shown.fetched == ["data:,"]
    raw = (tmp_path / "r.html").read_text(encoding="utf-8")
    assert "default-src 'none'" in raw
    assert not re.search(r"https?://(?!www\.w3\.org/2000/svg)", raw)


def test_the_lines_of_the_mark_come_to_the_mark(tmp_path: Path) -> None:
    for mistake in ("off-station", "truss-missing", "row-with-nothing-solid"):
        made = mistaken(tmp_path / mistake, "wren-07", "pardalote", mistake)
        (house,) = attempt_content(made, "self-study", ()).houses
        points = [line.points.partition(";")[0] for line in house.findings]
        off = sum(int(each.removeprefix("−")) for each in points if each.startswith("−"))
        assert house.findings
        assert house.mark == f"{max(0, 100 - off)} of 100"
        assert house.sum.startswith(f"100 less {off} is {max(0, 100 - off)}.")


def test_a_roof_that_is_not_whole_is_said_to_be_not_done_before_anything_is_said_of_it(tmp_path: Path) -> None:
    made = mistaken(tmp_path, "wren-07", "pardalote", "tie-down-missing")
    (house,) = attempt_content(made, "self-study", ()).houses
    assert house.outcome == "Practice mark not yet met"
    assert house.missing == tuple(found.what for found in house.findings) and len(house.missing) == 1
    words = page_of(made, tmp_path).text
    assert words.index("Practice mark not yet met") < words.index(NOT_DONE) < words.index("The mark, line by line")
    whole = mistaken(tmp_path / "whole", "wren-07", "pardalote", "off-station")
    assert attempt_content(whole, "self-study", ()).houses[0].missing == ()
    assert NOT_DONE not in page_of(whole, tmp_path / "whole").text


def test_the_first_few_things_missing_are_named_and_the_rest_counted() -> None:
    assert at_first(("a", "b", "c")) == ("a", "b", "c")
    assert at_first(("a", "b", "c", "d")) == ("a", "b", "c", "And 1 more.")
    assert at_first(tuple("abcdefg")) == ("a", "b", "c", "And 4 more.")


def test_what_was_taken_back_is_in_the_list_and_not_in_the_mark(tmp_path: Path) -> None:
    wrong = Session(level_of("wren"), 1).replay(rehearse(level_of("wren"), 1, "off-station").actions)
    at = wrong.findings[0].event
    actions = [outcome.action for outcome in wrong.outcomes[: at + 1]]
    no_such = Fix(tag="TG1", end=1, with_="tie-down strap")
    made = built(tmp_path, "wren-07", "wren", [no_such, *actions, Undo(), Mark(wall="A", at=600)])
    (house,) = attempt_content(made, "self-study", ()).houses
    assert house.findings == ()
    assert [step.text for step in house.steps] == [action_line(act["action"]) for act in made.houses[0].acts]
    assert house.steps[0].refused
    assert made.houses[0].acts[at + 1]["found"], "it was found while it stood"
    assert (house.mark, house.outcome) == ("Not finished", "")
    assert house.sum == "100 less 0 is 100."


def test_stop_work_that_was_put_right_is_not_said_to_have_been_nothing(tmp_path: Path) -> None:
    """The second truss is lifted while nothing holds the first, and that is taken back."""
    actions = right("pardalote", 1)
    first, second = [number for number, action in enumerate(actions) if isinstance(action, Stand)][:2]
    made = built(tmp_path, "wren-07", "pardalote", [*actions[: first + 1], actions[second], Undo()])
    (house,) = attempt_content(made, "self-study", ()).houses
    assert house.findings == () and house.none_found == (
        "Nothing is left open. 1 stop-work finding was put right on the way."
    )
    habit = built(tmp_path / "habit", "wren-07", "pardalote", [Report(fault="bowed wall", wall="D"), Undo()])
    assert attempt_content(habit, "self-study", ()).houses[0].none_found == (
        "Nothing is left open. 1 finding was put right on the way."
    )
    nothing = built(tmp_path / "other", "wren-07", "pardalote", actions[: first + 1])
    assert attempt_content(nothing, "self-study", ()).houses[0].none_found == "Nothing was found."


@pytest.mark.parametrize("level", some(["pardalote", "lorikeet", "wren"], 1))
def test_at_every_moment_the_replay_shows_just_what_the_site_holds(level: str) -> None:
    session = Session(level_of(level), 1)
    sites = [session.site]
    actions = [*right(level, 1)]
    for n, action in enumerate(actions):
        session.do(action)
        sites.append(session.site)
        if n % 40 == 5:  # taken back and done again: what had shown shows again
            session.undo()
            sites.append(session.site)
            session.do(action)
            sites.append(session.site)
    picture = moments_picture(sites, "t", "w")
    groups = [(group.of, tuple(flat(group))) for group in picture.layers[0].items]  # type: ignore[union-attr,arg-type]
    still, scale = StillSite(session.site.layout), page_scale(whole_box(session.site.layout), WIDE, HIGH)
    for moment in (0, 1, 7, len(sites) // 3, len(sites) // 2, len(sites) - 2, len(sites) - 1):
        shown = [item for of, items in groups if _shows(of, moment) for item in items]
        wanted = list(dict.fromkeys(placed(still.items(sites[moment], scale), scale, picture.box)))
        assert set(shown) == set(wanted)
        assert len(shown) == len(wanted)
        # In the order in which they are painted, but for what never lies over another: signs of the same kind.
        assert [item for item in shown if item in wanted[:40]] == wanted[:40]


def _shows(of: str, moment: int) -> bool:
    spans = [int(number) for number in of.split()]
    return not spans or any(a <= moment < b for a, b in zip(spans[::2], spans[1::2], strict=True))


def test_answers_are_told_in_the_questions_own_texts() -> None:
    told = attempt_content(with_answers(), "self-study", ())
    first, second, third, fourth, fifth = told.answers
    assert (first.given, first.want, first.right) == ("The girder", "The girder; The saddle", False)
    assert (second.given, second.want) == ("600.5", "600 ± 2")
    assert third.given == "TG: truncated girder"
    assert fourth.want == "The girder; The hip; The saddle"
    assert fifth.given == "none"


def test_questions_left_open_count_as_asked() -> None:
    paper = paper_begun(NOON, "stand", 3) | {"questions": ["q-1", "q-2", "q-3"]}
    one = answered(NOON, "q-1", "numeric", "How far, in mm?", 600, [598, 602], True, 10)
    told = attempt_content(Attempt(chain(opening(), paper, one)), "self-study", ())
    assert told.right == "Questions: 1 of 3 right."
    assert attempt_content(Attempt(chain(opening())), "self-study", ()).right == ""


def test_no_word_of_a_table_is_torn_apart() -> None:
    """A narrow column once had *counter-signe* over *d*."""
    page = PdfPage("Book", *type_files())
    page.add_page()
    page.rows(("Trust", "Why"), [("counter-signed", "by the assessor's key " * 9)], (5, 95))
    words = extract_text(io.BytesIO(bytes(page.output()))).split()
    assert "counter-signed" in words


def test_a_house_that_is_not_understood_any_more_is_told_and_not_drawn() -> None:
    found = [dict.fromkeys(("rule", "member", "severity", "got", "want", "cause"), "x") | {"severity": "rework"}]
    act = acted(NOON, 0, {"do": "levitate", "tag": "T1"}, []) | {"found": found}
    made = Attempt(chain(opening(), house_begun(NOON, "owl", "id: owl", 1), act, marked(NOON, 92, "met")))
    (house,) = attempt_content(made, "self-study", ()).houses
    assert house.built is None
    assert "can't build this house up again" in house.trouble
    assert house.steps[0].text == "Levitate: T1"
    assert house.findings[0].what == "x: x; x"


def test_a_result_file_is_reported_without_a_store_and_as_pdf(tmp_path: Path) -> None:
    made = mistaken(tmp_path, "wren-07", "wren", "off-station")
    file = tmp_path / "r.attempt.json"
    file.write_bytes(write_record(made))
    _out, err = run("report", file, "-o", tmp_path / "r.pdf", "--data", tmp_path / "nowhere")
    assert "attempt of wren-07" in err
    content = (tmp_path / "r.pdf").read_bytes()
    assert content.startswith(b"%PDF-")
    assert content.rstrip().endswith(b"%%EOF")
    assert len(re.findall(rb"/Type /Page\b(?!s)", content)) >= 4
    assert b"FontFile" in content
    assert b"/Subtype /Image" not in content, "drawings are vectors"


def test_wrong_calls_say_what_to_do(tmp_path: Path) -> None:
    made = mistaken(tmp_path, "wren-07", "pardalote", None)
    assert "must end in .html or .pdf" in run("report", made.id, "-o", "r.csv", "--data", tmp_path, leaves=2)[1]
    assert "No single attempt" in run("report", "zzz", "-o", "r.html", "--data", tmp_path, leaves=2)[1]
    assert "no records" in run("report", "-o", "r.html", "--data", tmp_path / "none", leaves=2)[1]
    nowhere = tmp_path / "records.db" / "r.html"
    assert "can't be written" in run("report", "-o", nowhere, "--data", tmp_path, leaves=2)[1]
    changed = replace(made, entries=(*made.entries[:5], *made.entries[6:]))
    (tmp_path / "bad.attempt.json").write_bytes(write_record(changed))
    assert "entries[5]" in run("report", tmp_path / "bad.attempt.json", "-o", "r.html", leaves=1)[1]


def test_hints_are_told_and_what_they_cost_is_in_the_sum(tmp_path: Path) -> None:
    text = find_level("pardalote").read_text(encoding="utf-8").replace("lesson:\n", "lesson:\n  hint_cost: 4\n")
    assert "hint_cost: 4" in text
    seat = Seat.open(tmp_path, lambda: NOON)
    going = seat.begin(text, 1, "practice")
    for place, action in enumerate(rehearse(parse_level(text, "p"), 1).actions):
        if place in (3, 9):
            going.session.take_hint()
        going.do(action)
    made = going.finish()
    (house,) = attempt_content(made, "self-study", ()).houses
    assert (house.mark, house.sum) == ("92 of 100", "100 less 0, less 8 for hints, is 92.")
    assert [step.number for step in house.steps if step.text.endswith("(after a hint)")] == [4, 10]
    assert ("Hints used", "2") in house.facts


def test_a_row_that_went_over_is_drawn_as_it_lay_and_what_counts_comes_before_the_record(tmp_path: Path) -> None:
    made = mistaken(tmp_path, "wren-07", "pardalote", "row-with-nothing-solid")
    (house,) = attempt_content(made, "self-study", ()).houses
    (fall,) = house.falls
    assert any(fall.title.endswith(f"the fall at action {found.step}") for found in house.findings)
    fell = fall.words.removeprefix("Fell: ").rstrip(".")
    drawn = [item.text for item in flat(fall.layers[0]) if isinstance(item, Text)]
    assert fell in {text.removesuffix(" fell") for text in drawn}
    words = page_of(made, tmp_path).text
    order = ["The mark, line by line", fall.title, "Replay", "Assessor's name", "Appendix: the record", "What was done"]
    assert sorted(order, key=words.index) == order
    whole = mistaken(tmp_path / "whole", "wren-07", "pardalote", "off-station")
    assert attempt_content(whole, "self-study", ()).houses[0].falls == ()


def test_what_was_found_again_and_again_stands_once_and_the_worst_first(tmp_path: Path) -> None:
    level = level_of("pardalote")
    actions = [each for each in rehearse(level, 1).actions if not isinstance(each, Fix)]
    made = built(tmp_path, "wren-07", "pardalote", actions)
    found = [(act["index"], each) for act in made.houses[0].standing for each in act["found"]]
    (house,) = attempt_content(made, "self-study", ()).houses
    kinds = {(each["rule"], each["severity"]) for _index, each in found}
    assert len(house.findings) == len(kinds) < len(found)
    worst = [SEVERITY_NAMES[each] for each in SEVERITIES]
    order = [worst.index(each.first.severity) for each in house.findings]
    assert order == sorted(order) and len(set(order)) > 1
    loose = [(index, each) for index, each in found if each["rule"] == "let-go-half-fixed"]
    shown = next(each for each in house.findings if each.first.rule == "let-go-half-fixed")
    assert shown.what.endswith(f" {len(loose)} times, first at action {loose[0][0] + 1}.")
    assert shown.where.count(" at action ") == len(loose)
    assert sum(each.off for each in house.findings) >= 100 and house.mark == "0 of 100"
    words = page_of(made, tmp_path).text
    assert words.count(shown.first.what) == 4, "in the lines, with its reasons, at its action, and in the replay"


def test_what_fell_and_was_never_cleared_lies_there_at_the_end_and_a_place_left_empty_is_ringed(tmp_path: Path) -> None:
    mistake = rehearse(level_of("pardalote"), 1, "row-with-nothing-solid").actions
    gone = next(each.tag for each in reversed(mistake) if isinstance(each, Stand))
    stood: set[str] = set()
    actions = []
    for each in mistake:
        again = isinstance(each, Stand) and each.tag in stood
        if isinstance(each, Stand):
            stood.add(each.tag)
        if not again and each.do != "clear" and getattr(each, "tag", "") != gone:
            actions.append(each)
    (house,) = attempt_content(built(tmp_path, "wren-10", "pardalote", actions, seconds=1), "self-study", ()).houses
    assert house.built is not None and house.in_space is not None
    every = len(house.sites[-1].layout.members)
    assert house.built.words.startswith(f"{every - 2} of {every} trusses stand. 1 truss lies where it fell.")
    for picture in (house.built, house.in_space):
        drawn = [item.text for item in flat(picture.layers[0]) if isinstance(item, Text)]
        assert sum(text.endswith(" fell") for text in drawn) == 1
    (empty,) = (item for item in flat(house.built.layers[0]) if isinstance(item, Text) and "missing" in item.text)
    assert empty.text == f"{gone} missing" and empty.ringed is not None
    assert len(house.falls) == 1 and not house.timed


def test_nothing_is_touched_where_nothing_was_built(tmp_path: Path) -> None:
    made = built(tmp_path, "wren-07", "pardalote", [HandOver()])
    assert not any(where for _item, where in attempt_content(made, "self-study", ()).covered)
    marked_one = built(tmp_path / "b", "wren-07", "pardalote", [Mark(wall="A", at=600), HandOver()])
    touched = [item for item, where in attempt_content(marked_one, "self-study", ()).covered if where]
    assert touched == [UNIT_ITEMS["set-out"]]
