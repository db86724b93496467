"""A finished roof with what a question is about ringed on it, and what each of those trusses bears on."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import pygame

from trainer.board.library import HouseEntry
from trainer.board.paint import Brush
from trainer.board.plan_view import PlanView
from trainer.board.scene import Scene
from trainer.board.services import Services
from trainer.board.widgets import Button, Column, Flow, Label, Listing, Pad, Paragraph, Prose, Row, Widget
from trainer.layout import Layout, Member
from trainer.picture.model import Box
from trainer.picture.on_screen import on_screen, ring_round
from trainer.picture.sheet import plan_picture
from trainer.terms import KIND_NAMES
from trainer.words import INVENTED, _

RING = 220.0
"""How much wider than a truss the ring round it is, mm."""
ROUND = 2500.0
"""How much of the roof round the trusses is shown, mm."""


class OnRoof(Scene):
    """A house as its layout has it, opened at some of its trusses; ``back`` goes where one came from."""

    order = ("side", "plan", "bar")

    def __init__(
        self, services: Services, entry: HouseEntry, layout: Layout, about: Sequence[str], back: Callable[[], None]
    ) -> None:
        super().__init__(services)
        self.name = _("On the roof: {title}").format(title=entry.level.title)
        self.entry = entry
        self.layout = layout
        self.about = tuple(layout.by_tag[tag] for tag in about if tag in layout.by_tag)
        self.back = back
        self.chosen = self.about[0].tag if self.about else ""
        picture = plan_picture(layout)
        self.plan = PlanView(_("The finished roof"), picture.box, on_screen(layout, picture), self._live)
        self.plan.status = ", ".join(member.tag for member in self.about)
        self._whole = picture.box
        self._near = True
        self._look()

    def _look(self) -> None:
        self.plan.camera.look_at(_round(self.about, self._whole) if self._near else self._whole)
        self.plan.invalidate()

    def _live(self, brush: Brush) -> None:
        brush.paint([ring_round(self.layout, member, strong=member.tag == self.chosen) for member in self.about])

    def places(self, size: tuple[int, int]) -> dict[str, pygame.Rect]:
        wide, high = size
        top = self._bar().high(self.ui, wide)
        side = min(self.ui.look.px(400), int(wide * 0.42))
        return {
            "bar": pygame.Rect(0, 0, wide, top),
            "side": pygame.Rect(wide - side, top, side, high - top),
            "plan": pygame.Rect(0, top, wide - side, high - top),
        }

    def make(self, region: str) -> Widget:
        if region == "plan":
            return self.plan
        return self._bar() if region == "bar" else self._side()

    def _bar(self) -> Widget:
        label = Label(self.name, "heading", "ink", ground="paper", role="heading")
        return Pad(label, pad=12, ground="paper", name=_("Top"), key="bar")

    def _side(self) -> Widget:
        rows = [
            Row(member.tag, f"{member.tag}, {KIND_NAMES[member.kind]}", second=_in_words(member))
            for member in self.about
        ]
        listing = Listing(_("Trusses"), rows, self.chosen, self.choose, key="roof/trusses", tall=True)
        wide = _("The whole house") if self._near else _("Close up")
        buttons = Flow(
            [
                Button(_("Back"), self.back, kind="primary", shortcut="Esc", key="roof/back"),
                Button(wide, self.other_view, shortcut="V", key="roof/view"),
                Button(_("Build this house"), self.build, shortcut="P", key="roof/build"),
            ],
            gap=10, key="roof/buttons",
        )  # fmt: skip
        note = Prose([Paragraph(INVENTED, "small", "panel_faint", space=0)], key="invented")
        column = Column(
            [Label(_("What the question is about"), "heading", role="heading"), listing, buttons, note], gap=10
        )
        return Pad(column, pad=16, column=True, name=_("What the question is about"), key="side")

    def first_focus(self) -> str:
        return "roof/back"

    def choose(self, tag: str) -> None:
        """Choose one of the trusses."""
        self.chosen = tag
        member = self.layout.by_tag[tag]
        self.plan.camera.reveal(((member.start[0] + member.finish[0]) / 2, (member.start[1] + member.finish[1]) / 2))
        self.refresh("side")
        self.redraw("plan")

    def other_view(self) -> None:
        """Look at the whole house, or close up again."""
        self._near = not self._near
        self._look()
        self.refresh()

    def build(self) -> None:
        """Go and build this house."""
        self.services.go_work(self.entry, "practice")

    def tick(self, now_ms: int) -> None:
        self.plan.now_ms = now_ms
        if not self.plan.resting:
            self.redraw("plan")

    def look_changed(self) -> None:
        self.plan.invalidate()

    def key(self, event: pygame.event.Event) -> bool:
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        if event.key == pygame.K_ESCAPE:
            self.back()
        elif event.key == pygame.K_v:
            self.other_view()
        elif event.key == pygame.K_p:
            self.build()
        else:
            return self.plan.zoom_key(event)
        return True


def _in_words(member: Member) -> str:
    ends = _(" and ").join(end.bears_on for end in member.ends)
    return _("on {ends}").format(ends=ends)


def _round(members: Sequence[Member], whole: Box) -> Box:
    """The box round some trusses with some of the roof about them, within the whole."""
    points = [point for member in members for point in (member.start, member.finish)]
    if not points:
        return whole
    xs, ys = [x for x, _y in points], [y for _x, y in points]
    return (
        max(whole[0], min(xs) - ROUND), max(whole[1], min(ys) - ROUND),
        min(whole[2], max(xs) + ROUND), min(whole[3], max(ys) + ROUND),
    )  # fmt: skip
