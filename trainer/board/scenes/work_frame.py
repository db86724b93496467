"""The frame of the work screen: where its regions go, the bar, the tools, the strip under the plan."""

from __future__ import annotations

from collections.abc import Callable, Collection
from functools import partial

import pygame

from trainer.board import wording
from trainer.board.camera import Camera
from trainer.board.paint import Brush
from trainer.board.scenes.building import Building
from trainer.board.scenes.note import read_last_found
from trainer.board.scenes.views import LARGE_TEXT
from trainer.board.scenes.work_keys import LAST_FOUND_KEY, press_tool
from trainer.board.still_open import put_right
from trainer.board.tools.registry import STAGE_TOOLS, TOOLS
from trainer.board.widgets import Button, Canvas, Choice, Column, Flow, Label, Node, Pad, Scroll, Widget
from trainer.board.widgets.boxes import Beside
from trainer.board.widgets.drawing import Sign
from trainer.layout import Member
from trainer.picture.as_built import lying
from trainer.picture.elevation import elevation
from trainer.picture.model import Text
from trainer.picture.placing import lettered
from trainer.terms import KIND_NAMES, STAGE_NAMES, VERBS, Stage
from trainer.words import _, ngettext

SIDE = 0.34
"""The most of the window's width that the column takes, so that the house is larger."""
LEAST_HIGH = 560
"""A window lower than this at 100 %, px, has no room for the truss from the side beside the plan."""
STRIP_LINES = 3
"""So many lines have room in the strip: two of what was said, one of the truss's size."""
STRIP_PAD = 6
"""Room round what the strip says, px at 100 %."""
SIDE_VIEW = 190
"""Room for the truss from the side, px at 100 %."""
LEAST_LETTERED = 60
"""A truss drawn lower than this at 100 %, px, has no room for the numbers of its ends."""


def places_of_regions(work: Building, size: tuple[int, int]) -> dict[str, pygame.Rect]:
    """Return where the regions go: the plan has what the others leave."""
    look = work.ui.look
    wide, high = size
    top = bar(work).high(work.ui, wide)
    left = _rail_width(work) + look.px(8)
    side = min(look.px(400), int(wide * SIDE))
    middle = wide - left - side
    over = work.views.strip(middle).high(work.ui, middle)
    foot = look.line("body") * 2 + look.px(14) if work.message or _seen_from_the_side(work) else 0
    foot += look.line("small") if foot and _truss_wanted(work) else 0
    foot = max(foot, look.line("body") * work.strip_lines)
    if look.scale >= LARGE_TEXT:
        foot = max(foot, min(work.said(middle), int((high - top - over) * work.strip_grows)))
    return {
        "bar": pygame.Rect(0, 0, wide, top),
        "rail": pygame.Rect(0, top, left, high - top),
        "side": pygame.Rect(wide - side, top, side, high - top),
        "strip": pygame.Rect(left, high - foot, middle, foot),
        "views": pygame.Rect(left, top, middle, over),
        "plan": pygame.Rect(left, top + over, middle, high - top - foot - over),
    }


def bar(work: Building) -> Widget:
    """The bar at the top: back, title, and what can be done at any time."""
    room = work.size[0] - work.ui.look.px(12)
    # With no room for all of it the keys go under the names, then the progress goes, the mode, and only then the name
    # of the house, which is tried in smaller letters first.
    for under, without, style in (
        (False, (), "heading"), (True, (), "heading"), (True, PROGRESS, "heading"), (True, ASIDE, "heading"),
        (True, ASIDE, "strong"), (True, ASIDE, "small"), (True, (*ASIDE, "heading"), "small"),
    ):  # fmt: skip
        flow = _bar_flow(work, keys_under=under, without=without, style=style)
        if flow.wide(work.ui) <= room:
            break
    return Pad(flow, pad=3 if under else 6, ground="paper", name=_("Top"), key="bar")


PROGRESS, ASIDE = ("bar/progress",), ("bar/progress", "bar/mode")
"""Keys of what may go from the bar."""


def _bar_flow(work: Building, *, keys_under: bool, without: Collection[str], style: str) -> Flow:
    """The bar's parts: the name left, what helps in the middle, and handing over at the right with how far it is."""
    mode = ", ".join(filter(None, (_("Practice") if work.practice else _("Assessment"), work.assignment.status())))
    buttons: list[Widget] = [
        Button(work.assignment.back, work.leave, shortcut="Esc", key="bar/houses", kind="quiet", ground="paper"),
        Label(work.entry.level.title, style, "ink", ground="paper", role="heading"),
        Label(mode, "small", "faint", ground="paper", key="bar/mode"),
    ]
    if work.practice:
        buttons.append(
            Button(
                _("Undo"), work.undo, shortcut="U", key="bar/undo", kind="quiet", ground="paper", enabled=work.can_undo
            )
        )
        if work.entry.level.lesson.hints:
            buttons.append(Button(_("Hint"), work.hint, shortcut="H", key="bar/hint", kind="quiet", ground="paper"))
    if _found_open(work):
        again = Button(
            _("Last found"),
            partial(read_last_found, work),
            shortcut=LAST_FOUND_KEY,
            key="bar/found",
            kind="quiet",
            ground="paper",
        )
        buttons.append(again)
    help_ = Button(_("Help"), work.services.help, shortcut="F1", key="bar/help", kind="quiet", ground="paper")
    buttons.append(help_)
    middle = len(buttons)
    if work.assignment.handed_over_by_hand:
        stand, all_of_them = len(work.site.stood), len(work.site.layout.members)
        said = ngettext("{n} of {all} stands", "{n} of {all} stand", stand).format(n=stand, all=all_of_them)
        buttons.append(Label(said, "small", "faint", ground="paper", key="bar/progress"))
        over = Button(_("Hand over"), work.hand_over, shortcut="Ctrl Enter", key="bar/hand over", ground="paper")
        buttons.append(over)
    left = [b for b in buttons[:middle] if b.key not in without and b.role not in without]
    right = [b for b in buttons[middle:] if b.key not in without]
    for button in (*left, *right):
        if isinstance(button, Button):
            button.key_under = keys_under
    return Flow([*left, *right], gap=4, key="bar/flow", to_right=len(left) if right else 0)


def _found_open(work: Building) -> bool:
    """Whether something was found, and the last of it is not put right; worked out once after each action."""
    if not work.findings:
        return False
    last, now = work.findings[-1], len(work.session.outcomes)
    known = work.ui.memory.get("bar/open")
    if known is None or known[:2] != (last, now):
        known = work.ui.memory["bar/open"] = (last, now, not put_right(work.session, last))
    return bool(known[2])


def stage_label(stage: Stage) -> str:
    """Return the number and name of a stage: some tools have the name alone, and Ctrl with the number opens it."""
    return f"{list(STAGE_NAMES).index(stage) + 1} {STAGE_NAMES[stage]}"


def _tools(work: Building, stage: Stage, *, tight: bool) -> list[Widget]:
    return [
        Button(
            VERBS[tool.verb].name, partial(press_tool, work, tool.verb), kind="tool", picture=tool.verb,
            checked=work.tool.verb == tool.verb,
            key=f"tool/{tool.verb}", ground="paper", shortcut=tool.key, tight=tight,
        )
        for tool in STAGE_TOOLS[stage]
    ]  # fmt: skip


def _stages(work: Building, open_one: Stage, *, tight: bool) -> Column:
    """The stages of the job, one under the other; the open one has its tools under it."""
    parts: list[Widget] = []
    for stage in STAGE_NAMES:
        here = stage == open_one
        parts.append(
            Button(
                stage_label(stage),
                partial(work.open_stage, stage),
                kind="tab",
                checked=here,
                key=f"stage/{stage}",
                ground="paper",
            )
        )
        if here:
            parts += _tools(work, stage, tight=tight)
    return Column(parts, gap=2, key="rail/column")


def _one_stage(work: Building, open_one: Stage, *, tight: bool) -> Column:
    """The tools of one stage under a choice of the stage."""
    stages = list(STAGE_NAMES)
    choice = Choice(
        _("Stage"), [stage_label(stage) for stage in stages], stages.index(open_one),
        lambda i: work.open_stage(stages[i]), key="stage", ground="paper", tight=True,
    )  # fmt: skip
    return Column([choice, *_tools(work, open_one, tight=tight)], gap=2 if tight else 4, key="rail/column")


def rail(work: Building) -> Widget:
    """The tools of a stage among the stages of the job; where the text is large, one choice for the stage.

    What has room for the stage with the most tools is taken for all of them, so that the stages keep their places.
    """
    room = places_of_regions(work, work.size)["rail"].height - work.ui.look.px(8)
    fullest = max(STAGE_TOOLS, key=lambda stage: len(STAGE_TOOLS[stage]))
    forms = [partial(form, tight=tight) for form in (_stages, _one_stage) for tight in (False, True)]
    fits = (form for form in forms if form(work, fullest).high(work.ui, _rail_width(work)) <= room)
    column = next(fits, forms[-1])(work, work.stage)
    return Pad(column, pad=4, ground="paper", name=_("Tools"), key="rail")


def _rail_width(work: Building) -> int:
    """Width of the tools' column: the same for every stage, so that the plan keeps its place."""
    look = work.ui.look
    words = [look.width(VERBS[verb].name, "small") + look.px(16) for verb in TOOLS]
    # Where there is little room they are one choice, in small letters.
    style = "body" if look.roomy(work.size) else "small"
    stages = [look.width(stage_label(stage), style) + look.px(20) for stage in STAGE_NAMES]
    return max(look.px(84), *words, *stages)


def strip(work: Building) -> Widget:
    """What was last said, and the chosen truss from the side with its size."""
    message = _message(work)
    look, place = work.ui.look, places_of_regions(work, work.size)["strip"]
    if not place.height:
        return Pad(Column([]), pad=0, ground="paper", name=_("Strip"), key="strip")
    room = place.width - look.px(SIDE_VIEW + 3 * 12)
    # What was said comes before the truss from the side: words that are cut off help nobody.
    if not _truss_wanted(work) or len(look.wrap(work.message, "body", room)) >= STRIP_LINES:
        return _said(work, message)
    member = _seen_from_the_side(work)
    if member is None:
        return Pad(Column([message]), pad=STRIP_PAD, ground="paper", name=_("Strip"), key="strip")
    named = f"{member.tag}, {KIND_NAMES[member.kind]}"
    sized = f"{named}: {wording.size(member)}"
    lines = len(look.wrap(work.message, "body", room)) + len(look.wrap(sized, "small", room))
    caption = Label(sized if lines <= STRIP_LINES else named, "small", "faint", ground="paper", key="strip/size")
    high = place.height / look.scale - 12
    drawing = Canvas(
        f"{member.tag} from the side", lambda s, r: _paint(work, member, s, r, mirrored=work.hand.turned),
        tall=high, broad=SIDE_VIEW,
    )  # fmt: skip
    beside = Beside(Column([message, caption], gap=0), drawing)
    return Pad(beside, pad=STRIP_PAD, ground="paper", name=_("Strip"), key="strip")


def _message(work: Building) -> Widget:
    label = Label(work.message, "body", "ink", ground="paper", role="status", key="strip/message")
    # What was refused does not look like what was done: it has a hand before it.
    refused = bool(work.refusal) and work.message == work.refusal
    return Beside(label, Sign("stop", _("Refused")), left=True) if refused else label


def _said(work: Building, message: Widget) -> Widget:
    said = Scroll(message, _("What was said last"), key="strip/said", text=work.message)
    said.ground = "paper"
    return Pad(said, pad=STRIP_PAD, ground="paper", name=_("Strip"), key="strip")


def said_high(work: Building, width: int) -> int:
    """How high all that was said last is in a strip so wide, px."""
    return _said(work, _message(work)).high(work.ui, width) if work.message else 0


def _seen_from_the_side(work: Building) -> Member | None:
    """The truss that the strip shows: what was found of it, else the chosen one."""
    about = work.noted[0].member if work.noted else work.hand.truss
    return work.site.layout.by_tag.get(about) if _truss_wanted(work) else None


def _truss_wanted(work: Building) -> bool:
    """Whether the chosen truss is to be seen from the side: a line that is drawn on the plan has the room.

    Where large text leaves little room the plan has it: the truss can be looked at in a view of its own.
    """
    roomy = work.size[1] >= work.ui.look.px(LEAST_HIGH)
    return roomy and work.views.which == "plan" and not work.views.drawing


def views(work: Building) -> Widget:
    """The ways to look at the house."""
    return work.views.strip(places_of_regions(work, work.size)["views"].width)


REGIONS: dict[str, Callable[[Building], Widget]] = {"rail": rail, "views": views, "strip": strip, "bar": bar}


def _paint(work: Building, member: Member, surface: pygame.Surface, rect: pygame.Rect, *, mirrored: bool) -> None:
    if rect.width < 20 or rect.height < 20:
        return
    items, box = elevation(work.views.stander.framed(member), mirrored=mirrored)
    window = surface.subsurface(rect.clip(surface.get_rect()))
    window.fill(work.ui.look["paper"])
    look = work.ui.look
    if window.get_height() < look.px(LEAST_LETTERED):
        items = [item for item in items if not isinstance(item, Text)]
    camera = Camera(lambda scale: lettered(items, scale, look.scale, box))
    camera.resize(window.get_size())
    camera.look_at(box)
    Brush(window, look.colours, camera.view, lettering=look.scale).paint(items)


def places(work: Building) -> tuple[Node, ...]:
    """Return the standing trusses as nodes of the plan, each at its middle on the window."""
    nodes = []
    for tag, stood in work.site.stood.items():
        lies = lying(stood)
        x, y = work.plan.to_window(lies.at(lies.length / 2))
        state = _("chosen") if tag == work.hand.truss else ""
        rect = pygame.Rect(x - 6, y - 6, 12, 12)
        nodes.append(Node("truss", tag, state, f"truss/{tag}", rect, False, False, True, False, "", (), (), ()))
    return tuple(nodes)
