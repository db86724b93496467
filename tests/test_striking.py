"""Taking out the braces inside, on whole houses: what may come out, and what of a girder has to be done first.

Trade brief, "Order of work" (common practice, no source): temporary bracing stays until what replaces it is in: for a
row its permanent bracing; for a girder its plies joined, both ends fixed, its brackets filled, and its top chord tied
into the permanently braced row that it stands beside. Ties along top chords stay.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from attempts import attempt, layout_of, level_of

from trainer.rehearse import rehearse
from trainer.site import AnyAction, Bracing, Site
from trainer.site.actions import Unbrace
from trainer.site.bracing import ties_of
from trainer.site.standing import without

WITH_GIRDER = ("wren", "lorikeet", "avocet", "boobook", "chough", "currawong")
"""Houses with a girder that stands beside a row of its own wing."""


def right(level: str) -> list[AnyAction]:
    return list(rehearse(level_of(level), 3, layout=layout_of(level)).actions)


def inside(site: Site) -> list[Bracing]:
    return [piece for piece in site.bracing if piece.kind in ("solid", "prop")]


@pytest.mark.parametrize("level", ["thornbill", "pardalote", "wren", "lorikeet"])
def test_a_right_attempt_takes_every_brace_and_prop_out_and_leaves_the_ties(level: str) -> None:
    done = attempt(level, right(level), seed=3)
    assert (done.findings, done.refused) == ((), ())
    assert inside(done.site) == []
    assert any(piece.kind == "batten" for piece in done.site.bracing)


@pytest.mark.parametrize("level", WITH_GIRDER)
def test_a_girder_without_its_tie_into_the_row_is_not_let_go(level: str) -> None:
    actions = right(level)
    girder = next(m.tag for m in layout_of(level).members if m.kind == "girder")
    off = next(i for i, a in enumerate(actions) if isinstance(a, Unbrace) and girder in a.tags)
    before = attempt(level, actions[:off], seed=3)
    assert before.findings == ()
    assert before.do(actions[off]).findings == ()
    loose = attempt(level, actions[:off], seed=3)
    left = tuple(piece for piece in loose.site.bracing if girder not in piece.tags or piece.kind == "solid")
    loose._site = replace(loose.site, bracing=left, ties=ties_of(left))
    assert {finding.severity for finding in loose.do(actions[off]).findings} == {"stop-work"}


@pytest.mark.parametrize("level", WITH_GIRDER)
def test_a_bracket_that_waits_for_its_truss_takes_nothing_from_what_holds_the_girder(level: str) -> None:
    """Trade brief, "Must": held is both ends fixed and the top tied to what is held; common practice, no source."""
    actions = right(level)
    girder = next(m.tag for m in layout_of(level).members if m.kind == "girder")
    off = next(i for i, a in enumerate(actions) if isinstance(a, Unbrace) and girder in a.tags)
    waiting = attempt(level, actions[:off], seed=3)
    hung = next(tag for tag in layout_of(level).carries[girder] if layout_of(level).by_tag[tag].kind != "saddle")
    waiting._site = without(waiting.site, hung)
    assert [finding for finding in waiting.do(actions[off]).findings if finding.member == girder] == []
