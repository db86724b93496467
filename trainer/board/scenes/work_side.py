"""The column beside the plan: yard, roof so far, job sheet and diary, and under them the tool's slip."""

from __future__ import annotations

from functools import partial

from trainer.board import bench as hand
from trainer.board import wording
from trainer.board.jobsheet import job_sheet
from trainer.board.scenes.desk import LIST_KEY, OWN_TABS, TAB_NAMES, TABS, Desk
from trainer.board.scenes.slips import slip
from trainer.board.widgets import Block, Button, Column, Flow, Label, Listing, Pad, Prose, Row, Scroll, Widget
from trainer.board.widgets.boxes import Rule
from trainer.order.inspection import sample
from trainer.picture.sheet import counts_in_words
from trainer.site.model import Site
from trainer.terms import KIND_NAMES, SEVERITIES, SEVERITY_NAMES, thing
from trainer.words import _


def side(work: Desk, high: int, wide: int) -> Widget:
    """Return the column for a place of this size, px."""
    names = dict(TAB_NAMES)
    if own := OWN_TABS.get(work.bench.tool):
        names["own"] = own
    tabs = Flow(
        [
            Button(names[t], partial(work.open_tab, t), kind="tab", checked=work.tab == t, key=f"tab/{t}")
            for t in TABS if t in names
        ],
        gap=2, key="tabs",
    )  # fmt: skip
    if work.tab == "sheet":
        return Pad(
            Column([tabs, Scroll(Prose(_sheet(work)), _("Job sheet"))], gap=10),
            pad=14,
            column=True,
            name=_("Job sheet"),
        )
    if work.tab == "diary":
        return Pad(Column([tabs, _diary(work)], gap=10), pad=14, column=True, name=_("Diary"))
    listing = {"yard": _yard, "roof": _roof, "own": _own}[work.tab](work)
    controls = Column(slip(work), gap=8, key="slip")
    column = Column([tabs, listing, Rule(), controls], gap=10)
    pad = 2 * work.ui.look.px(14)
    listing.grows = False
    if column.high(work.ui, wide - pad) > high - pad:
        # Not room for everything at this text size: the whole column scrolls, and nothing is cut.
        return Pad(Scroll(column, _("Bench")), pad=14, column=True, name=_("Bench"))
    listing.grows = True
    return Pad(column, pad=14, column=True, name=_("Bench"))


def _sheet(work: Desk) -> list[Block]:
    layout = work.site.layout
    kinds = {member.kind for member in layout.members}
    return job_sheet(work.entry.level, counts_in_words(layout), kinds, sample(layout))


def _yard(work: Desk) -> Listing:
    site = work.site
    rows = [Row(tag, tag, KIND_NAMES[site.layout.by_tag[tag].kind]) for tag in hand.yard(site)]
    return Listing(
        _("Yard"), rows, hand.listed(work.bench), work.choose, take=work.take, key=LIST_KEY,
        carry=work.carry, drop=work.drop, empty=_("The yard is empty: every truss stands."),
    )  # fmt: skip


def _own(work: Desk) -> Listing:
    """The list of a tool that has one: what to check, or the bracing that is on."""
    site, bench = work.site, work.bench
    if bench.tool == "check":
        rows = [
            Row(
                item,
                thing(item),
                picture="good" if item in site.checked else "open",
                second=_("checked") if item in site.checked else _("not checked yet"),
            )
            for item in site.job.conditions.checks
        ]
        chosen, empty = bench.item, _("This house has nothing to check.")
    else:
        rows = [Row(str(i), " – ".join(piece.tags), second=thing(piece.kind)) for i, piece in enumerate(site.bracing)]
        chosen = str(bench.piece % len(rows)) if rows else ""
        empty = _("No bracing is on yet.")
    name = OWN_TABS.get(bench.tool, _("Checks"))
    return Listing(name, rows, chosen, work.choose_own, take=work.take_own, key=LIST_KEY, tall=True, empty=empty)


def _roof(work: Desk) -> Listing:
    site = work.site
    rows = [
        Row(tag, f"{tag}, {KIND_NAMES[site.layout.by_tag[tag].kind]}", second=how_far(site, tag)) for tag in site.stood
    ]
    picked = work.bench.picked[-1:] if hand.picks(work.bench) else ()
    chosen = picked[0] if picked and not work.bench.truss else hand.listed(work.bench)
    return Listing(
        _("Roof so far"), rows, chosen, work.choose,
        take=work.take, key=LIST_KEY, tall=True, empty=_("Nothing stands yet. Take a truss from the yard."),
    )  # fmt: skip


def how_far(site: Site, tag: str) -> str:
    """Say what has been done to a standing truss."""
    fixed = sum(bool(site.fixed.get((tag, end))) for end in (1, 2))
    braced = any(tag in brace.tags for brace in site.bracing)
    return " · ".join([_("braced") if braced else _("not braced"), _("{n} of 2 ends fixed").format(n=fixed)])


def _diary(work: Desk) -> Widget:
    """The actions so far, the last one first, each with what was found there."""
    findings: dict[int, list[str]] = {}
    for finding in work.findings:
        findings.setdefault(finding.event, []).append(finding.severity)
    rows = []
    for index, action in reversed(list(enumerate(work.session.diary().actions))):
        found = findings.get(index, [])
        worst = min(found, key=SEVERITIES.index, default="")
        what, where = wording.done(action, work.site)
        event = work.session.outcomes[index].event
        read = wording.reading(event) if event is not None and not found else ""
        second = SEVERITY_NAMES.get(worst, ": ".join(filter(None, (where, read))))
        rows.append(Row(str(index), f"{index + 1}  {what}", second=second, picture=worst))
    blocks = [Label(_("What has been done, the last first"), "small", "panel_faint")]
    listing = Listing(
        _("Diary"), rows, work.diary_row, work.choose_diary, take=work.open_diary_row, key="diary/list", tall=True,
        empty=_("Nothing has been done yet."),
    )  # fmt: skip
    save = Button(_("Save the diary"), work.save, shortcut="Ctrl S", key="diary/save")
    column = Column([*blocks, listing, save], gap=8)
    column.grows = True
    return column
