"""What findings, the job sheet and hints say of a half girder, and of a verge that ends at an inside corner."""

import pytest
from attempts import layout_of, level_of, right
from recall import judged, planted

from trainer.board import diary_words
from trainer.board.tools.registry import Toolbox
from trainer.session import Session, job_of
from trainer.session.job_sheet import job_sheet
from trainer.site import Fix


@pytest.mark.parametrize(
    ("level", "rule", "want"),
    [
        ("jacana", "girder-off-plate-line", "its face in line with the higher wall at the corner, within 10 mm"),
        ("wren", "girder-off-plate-line", "its outside face in line with the outside of the plates, within 10 mm"),
        ("jacana", "outriggers-missing", "outriggers up the slope, no more than 900 mm apart"),
        ("dollarbird", "outriggers-missing", "outriggers up both slopes, no more than 600 mm apart"),
        ("dollarbird", "verge-rafters-missing", "one, on the ends of the outriggers"),
        ("pardalote", "verge-rafters-missing", "a pair of them, on the ends of the outriggers"),
    ],
)
def test_a_finding_wants_what_stands_on_this_house(level, rule, want):
    found = judged(level, 3, planted(level, 3, rule).actions).findings
    assert want in {finding.want for finding in found if finding.rule == rule}


@pytest.mark.parametrize(
    ("level", "there", "not_there"),
    [
        ("jacana", "The half girder stands with its face in line with the higher wall at the corner.", "an opening"),
        ("jacana", "On a ledger: **hanger**.", "saddle"),
        ("jacana", "Where a girder hangs on a ledger: **heavy girder bracket**.", "saddle"),
        ("woodswallow", "On a ledger: **hanger**.", "girder hangs on"),
        ("dollarbird", "Where a truss hangs on another: **hanger**.", "girder hangs on"),
        ("wren", "Where a truncated girder hangs on a girder: **heavy girder bracket**.", "ledger"),
    ],
)
def test_the_job_sheet_says_what_is_so_on_this_house(level, there, not_there):
    sheet = dict(job_sheet(level_of(level), job_of(level_of(level), 1, layout=layout_of(level)), ""))
    lines = sheet["Set-out"] + sheet["Fixings"]
    assert there in lines
    assert not [line for line in lines if not_there in line]


def test_a_crossing_to_be_fixed_is_named_by_what_is_crossed():
    session = Session(level_of("jacana"), 1, layout=layout_of("jacana")).replay(right("jacana", 1))
    crossings = [action for action in right("jacana", 1) if isinstance(action, Fix) and action.at]
    tools = Toolbox(session)
    said = [diary_words.to_do(action, tools) for action in crossings]
    assert "Fix H1, a crossing, at T1, framing anchor" in said
    assert len(set(said)) == len(said)
