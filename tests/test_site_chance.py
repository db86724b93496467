"""Actions drawn at random, sense and nonsense: nothing crashes, refusing changes nothing, and what is held is as
a slow reckoning from the braces and fixings alone has it."""

from __future__ import annotations

from attempts import layout_of
from hypothesis import example, given, settings
from hypothesis import strategies as st

from trainer.layout import Layout
from trainer.site import AnyAction, Brace, Fit, Fix, HandOver, Job, Mark, Refused, Remove, Site, Stand, act, start
from trainer.site.actions import Check, Cut, Inspect, Load, Measure, Plumb, Report, String, Unbrace, Undo

LAYOUT = layout_of("corner")
TAGS = tuple(LAYOUT.by_tag)
TIPS_OVER = ("standard", "girder", "truncated_girder", "truncated", "gable")


def places(layout: Layout) -> st.SearchStrategy[tuple[tuple[float, float], tuple[float, float]]]:
    def placed(tag: str, dx: float, dy: float, flip: bool) -> tuple[tuple[float, float], tuple[float, float]]:
        (ax, ay), (bx, by) = layout.by_tag[tag].start, layout.by_tag[tag].finish
        ends = ((ax + dx, ay + dy), (bx + dx, by + dy))
        return ends[::-1] if flip else ends

    near = st.one_of(st.just(0.0), st.floats(-900, 900))
    return st.builds(placed, st.sampled_from(TAGS), near, near, st.booleans())


tags = st.one_of(st.sampled_from(TAGS), st.sampled_from(TAGS), st.just("X9"))
some_tags = st.lists(tags, min_size=1, max_size=4).map(tuple)
stands = st.builds(
    lambda tag, ends: Stand(tag=tag, start=ends[0], finish=ends[1]), st.sampled_from(TAGS), places(LAYOUT)
)
rights = st.sampled_from(TAGS).map(
    lambda tag: Stand(tag=tag, start=LAYOUT.by_tag[tag].start, finish=LAYOUT.by_tag[tag].finish)
)
kinds = st.sampled_from(("solid", "batten", "batten", "steel brace", "diagonal", "prop"))
actions: st.SearchStrategy[AnyAction] = st.one_of(
    rights,
    rights,
    stands,
    st.builds(lambda kind, some: Brace(kind=kind, tags=some), kinds, some_tags),
    st.builds(
        lambda tag, end, what: Fix(tag=tag, end=end, with_=what),
        tags,
        st.integers(1, 2),
        st.sampled_from(("framing anchor", "hanger", "string")),
    ),
    st.builds(lambda on, at: Fit(part="hanger", on=on, at=at), tags, st.floats(-10, 9000)),
    st.builds(lambda wall, at: Mark(wall=wall, at=at), st.sampled_from("ABZ"), st.floats(-10, 9000)),
    st.builds(lambda tag: Remove(tag=tag), tags),
    st.just(Undo()),
    st.builds(lambda kind, some: Unbrace(kind=kind, tags=some), kinds, some_tags),
    st.builds(lambda one, other: String(start=one, finish=other), tags, tags),
    st.builds(lambda tag: Plumb(tag=tag), tags),
    st.builds(lambda what, tag: Measure(what=what, tag=tag), st.sampled_from(("plumb", "bow", "apex")), tags),
    st.builds(lambda tag: Report(fault="broken web", tag=tag), tags),
    st.builds(lambda tag, where: Cut(tag=tag, where=where), tags, st.sampled_from(("tail", "web"))),
    st.builds(lambda tag, accept: Inspect(tag=tag, accept=accept), tags, st.booleans()),
    st.sampled_from((Check(item="weather"), Check(item="wether"), Load(what="battens"))),
)


STOOD_TWICE = (
    ("GT1", (107.5, 0.0), (107.5, 3600.0)),
    *[("ST1", (900.0, 0.0), (900.0, 3600.0))] * 2,
)
"""The first falls as the second is lifted, which is then stood a second time where it stands."""


def held_by_reckoning(site: Site) -> set[str]:
    """What is held, from the braces on and the ends fixed, again and again until nothing more is."""
    layout = site.layout
    held = {tag for tag, how in site.holds.items() if how == "put right"}
    for _ in range(len(site.stood) + 1):
        for piece in site.bracing:
            ties = piece.kind in ("batten", "steel brace", "diagonal") and held & set(piece.tags)
            if piece.kind == "solid" or ties:
                held |= set(piece.tags)
        for tag, stood in site.stood.items():
            fixed = all(site.fixed.get((tag, end)) for end in (1, 2))
            under = layout.by_tag[stood.place].carried_by if stood.place else ()
            if layout.by_tag[tag].kind not in TIPS_OVER and fixed and {site.at_place.get(c) for c in under} <= held:
                held.add(tag)
    return held


@settings(max_examples=150)
@example([Stand(tag=tag, start=start, finish=finish) for tag, start, finish in STOOD_TWICE])
@given(st.lists(actions, max_size=60))
def test_any_actions_fold_into_a_site_that_hangs_together(drawn: list[AnyAction]) -> None:
    site = start(Job(LAYOUT))
    past = [site]
    for index, action in enumerate([*drawn, HandOver()]):
        result = act(site, index, action)
        if isinstance(result, Refused):
            assert result.why.endswith((".", "?"))
            continue
        site, event = result
        assert event.index == index
        assert set(event.fell) <= set(site.holds)
        if isinstance(action, Undo):
            past.pop()
            assert site == past[-1]
        else:
            past.append(site)
        assert set(site.holds) == held_by_reckoning(site)
        assert {stood.place: tag for tag, stood in site.stood.items() if stood.place} == site.at_place
        assert site.astray == {tag for tag, stood in site.stood.items() if stood.place is None}
        assert {tag for tag, _ in site.fixed} | set(site.plumbed) | set(site.inspected) <= set(site.stood)
        assert {end for ends in site.strings for end in ends} <= set(site.stood)
    assert site.handed_over
