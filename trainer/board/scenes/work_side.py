"""The column beside the plan: yard, roof so far, job sheet and diary, and under them the tool's panel."""

from __future__ import annotations

from collections.abc import Collection
from functools import partial
from itertools import chain

from trainer.board import diary_words
from trainer.board.jobsheet import paragraphs
from trainer.board.scenes.building import SHEET, TABS, Building, Tab
from trainer.board.scenes.note import read_again
from trainer.board.scenes.work_keys import LIST_KEY, TAB_KEYS
from trainer.board.tools.hand import yard
from trainer.board.tools.panel import DO_IT
from trainer.board.widgets import (
    Button,
    Choice,
    Column,
    Flow,
    Label,
    Listing,
    Pad,
    Paragraph,
    Prose,
    Row,
    Scroll,
    Widget,
)
from trainer.board.widgets.boxes import Divider
from trainer.picture.sheet import counts_in_words
from trainer.session.job_sheet import job_sheet
from trainer.site.holding import held_by_own
from trainer.site.model import Site
from trainer.terms import KIND_NAMES, SEVERITIES, SEVERITY_NAMES
from trainer.words import _

TIGHT = 8.0
"""Room round the column where it scrolls, px at 100 %."""
BESIDE_BAR = 24.0
"""What a bar and the room round what scrolls take of its width, px at 100 %."""
LISTED = 0.4
"""The most of the column that a list takes where all of it scrolls."""
TAB_NAMES: dict[Tab, str] = {"yard": _("Yard"), "roof": _("Roof"), "sheet": _("Job sheet"), "diary": _("Diary")}


def side(work: Building, high: int, wide: int) -> Widget:
    """Return the column for a place of this size, px."""
    tabs = _tabs(work, wide)
    if work.tab == "sheet":
        return Pad(
            Column([tabs, Scroll(Prose(_sheet(work)), _("Job sheet"), key=SHEET)], gap=10),
            pad=14,
            column=True,
            name=_("Job sheet"),
        )
    if work.tab == "diary":
        return Pad(Column([tabs, _diary(work)], gap=10), pad=14, column=True, name=_("Diary"))
    listing = {"yard": _yard, "roof": _roof, "own": _own}[work.tab](work)
    panel = work.tool.panel(work)
    column = _in_order(work, tabs, listing, panel)
    pad = 2 * work.ui.look.px(14)
    listing.grows = False
    if column.high(work.ui, wide - pad) <= high - pad:
        listing.grows = True
        return Pad(column, pad=14, column=True, name=_("Tool in use"))
    # Not room for everything at this text size: all but what does it scrolls, and nothing is cut.
    tight = 2 * work.ui.look.px(TIGHT)
    listing.show = max(1, int(LISTED * high / max(1, listing.row_height(work.ui, wide - 2 * tight))))
    pinned: list[Widget] = [control for control in panel if control.key == DO_IT]
    rest = _in_order(work, tabs, listing, [control for control in panel if control.key != DO_IT])
    scroll = Scroll(rest, _("Tool in use"), key=f"side/{work.tool.verb}/{work.tab}")
    return Pad(Column([scroll, *pinned], gap=6), pad=TIGHT, column=True, name=_("Tool in use"))


def _tabs(work: Building, wide: int) -> Widget:
    """Return what opens the parts of the column; tabs that have no room beside each other are one choice."""
    names = dict(TAB_NAMES)
    if work.tool.list_name:
        names["own"] = work.tool.list_name
    shown = [tab for tab in TABS if tab in names]
    room = wide - work.ui.look.px(2 * TIGHT + BESIDE_BAR)
    for key_under, tight in ((False, False), (True, False), (True, True)):
        tabs = Flow(
            [
                Button(
                    names[tab], partial(work.open_tab, tab), kind="tab", checked=work.tab == tab, key=f"tab/{tab}",
                    shortcut=TAB_KEYS.get(tab, ""), key_under=key_under, tight=tight,
                )
                for tab in shown
            ],
            gap=2, key="tabs",
        )  # fmt: skip
        if tabs.wide(work.ui) <= room:
            return tabs
    if work.tab not in shown:
        return tabs
    return Choice(
        _("Show"), [names[tab] for tab in shown], shown.index(work.tab), lambda i: work.open_tab(shown[i]), key="tab",
        tight=True, shortcut=" ".join(TAB_KEYS[tab] for tab in shown if tab in TAB_KEYS),
    )  # fmt: skip


def _in_order(work: Building, tabs: Widget, listing: Widget, panel: list[Widget]) -> Column:
    """Return the parts under each other; the list comes last where the tool wants none of its trusses."""
    controls = Column(panel, gap=8, key="panel")
    parts = [controls, Divider(), listing] if work.tool.of_site else [listing, Divider(), controls]
    return Column([tabs, *parts], gap=10)


def _sheet(work: Building) -> list[Paragraph]:
    level, job = work.entry.level, work.site.job
    return paragraphs(level, job_sheet(level, job, counts_in_words(job.layout)))


def _yard(work: Building) -> Listing:
    site = work.site
    rows = [Row(tag, tag, KIND_NAMES[site.layout.by_tag[tag].kind]) for tag in yard(site)]
    return Listing(
        _("Yard"), rows, work.tool.listed, work.choose, take=work.take, key=LIST_KEY,
        carry=work.carry, drop=work.drop, empty=_("The yard is empty: every truss stands."),
    )  # fmt: skip


def _own(work: Building) -> Listing:
    """The list of a tool that has one."""
    tool = work.tool
    return Listing(
        tool.list_name, tool.rows(), tool.row, work.choose_row, take=work.take_row, key=LIST_KEY, tall=True,
        empty=tool.list_empty,
    )  # fmt: skip


def _roof(work: Building) -> Listing:
    site = work.site
    held = held_by_own(site)
    rows = [
        Row(tag, f"{tag}, {KIND_NAMES[site.layout.by_tag[tag].kind]}", second=how_far(site, tag, held))
        for tag in along_rows(site)
    ]
    return Listing(
        _("Roof so far"), rows, work.tool.listed, work.choose,
        take=work.take, key=LIST_KEY, tall=True, empty=_("Nothing stands yet. Take a truss from the yard."),
    )  # fmt: skip


def along_rows(site: Site) -> list[str]:
    """Return what stands in the order in which it lies along its row, row after row."""
    places = {place: number for number, place in enumerate(chain.from_iterable(site.layout.rows.values()))}
    return sorted(site.stood, key=lambda tag: places.get(site.stood[tag].place or tag, len(places)))


def how_far(site: Site, tag: str, held: Collection[str]) -> str:
    """Say what has been done to a standing truss; braced is one with a path from its top to something solid."""
    if site.fall is not None and (lying := site.fall.lying.get(tag)) is not None:
        return _("struck by what fell") if lying.struck else _("lies where it fell")
    tied = any(tag in brace.tags for brace in site.bracing)
    braced = _("braced") if tag in held else _("tied to nothing solid") if tied else _("not braced")
    if "fix" not in site.job.stages:
        return " · ".join([braced, _("ends fixed by others")])
    fixed = sum(bool(site.fixed.get((tag, end))) for end in (1, 2))
    return " · ".join([braced, _("{n} of 2 ends fixed").format(n=fixed)])


def _diary(work: Building) -> Widget:
    """The actions so far, the last one first, each with what was found there."""
    findings: dict[int, list[str]] = {}
    for finding in work.findings:
        findings.setdefault(finding.event, []).append(finding.severity)
    rows = []
    for outcome in reversed(work.session.outcomes):
        index, action, event = outcome.index, outcome.action, outcome.event
        if event is None:
            continue  # nobody could do that: it was said at once, and nothing was done
        found = findings.get(index, [])
        worst = min(found, key=SEVERITIES.index, default="")
        what, where = diary_words.done(action, work.site)
        read = "" if found else diary_words.reading(event)
        second = SEVERITY_NAMES.get(worst, ": ".join(filter(None, (where, read))))
        rows.append(Row(str(index), f"{index + 1}  {what}", second=second, picture=worst))
    blocks = [Label(_("What has been done, the last first"), "small", "panel_faint")]
    listing = Listing(
        _("Diary"), rows, work.diary_row, work.choose_diary, take=partial(read_again, work), key="diary/list",
        tall=True, empty=_("Nothing has been done yet."),
    )  # fmt: skip
    save = Button(_("Save the diary"), work.save, shortcut="Ctrl S", key="diary/save")
    column = Column([*blocks, listing, save], gap=8)
    column.grows = True
    return column
