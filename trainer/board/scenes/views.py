"""The ways of looking at one house: plan, angled view, section and single truss, and the strip over them."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from functools import partial
from typing import TYPE_CHECKING, Literal

import pygame

from trainer.board.angled_view import AngledView
from trainer.board.command import Command
from trainer.board.fall_inset import FallInset
from trainer.board.magnifier import Magnifier
from trainer.board.plan_view import PlanView
from trainer.board.scene import Scene
from trainer.board.scenes.line_controls import line_controls, press
from trainer.board.scenes.moving import Moving
from trainer.board.section_line import LineDrawer
from trainer.board.section_view import SectionView
from trainer.board.sheet_view import SheetView
from trainer.board.widgets import Button, Column, Flow, Pad, Widget
from trainer.board.yard_view import YardView
from trainer.picture.angled import Scene3, scene_of
from trainer.picture.as_built import lying, marks, whole_box
from trainer.picture.compare import Difference, in_space
from trainer.picture.cut import SectionLine
from trainer.picture.found import FoundMark, loose, on_angled, on_section
from trainer.picture.model import Item, Line
from trainer.picture.solids import Stander
from trainer.picture.space import Turn
from trainer.plan import Point, read_back
from trainer.site.holding import held_by_own
from trainer.words import _

if TYPE_CHECKING:
    from trainer.site.model import Site

Which = Literal["plan", "angled", "section", "yard", "sheet"]
NAMES: dict[Which, str] = {"plan": _("Plan"), "angled": _("Angled"), "section": _("Section"), "yard": _("Truss"),
    "sheet": _("Layout"),
}  # fmt: skip
KEYS: dict[int, Which] = {
    pygame.K_F3: "plan", pygame.K_F4: "angled", pygame.K_F5: "section", pygame.K_F7: "yard",
    pygame.K_F9: "sheet",
}  # fmt: skip
FROM_ABOVE = ("plan", "sheet")
"""The views that a magnifying glass may be held over."""
LARGE_TEXT = 1.5
LARGER = 8.0
"""How much larger than it is what is out of true may be shown."""


class Views:
    """Holds the views of one screen; ``plan`` is the screen's own. ``found`` are findings to show on them.

    ``sheet``: whether the layout drawing, which every carpenter is given on site, is among them. Its measures run from
    the first corner of each wall, or from the other one of those that are measured ``back``; None: as a tape is hooked
    to begin with.
    """

    def __init__(
        self, scene: Scene, plan: PlanView, site: Callable[[], Site], *, chosen: Callable[[], str],
        choose: Callable[[str], None], found: Callable[[], Sequence[FoundMark]],
        turned: Callable[[], bool] = lambda: False, larger: bool = True,
        reference: Callable[[], Sequence[Difference]] = tuple, say: Callable[[str], None] | None = None,
        sheet: bool = True, back: Callable[[], Collection[str]] | None = None,
    ) -> None:  # fmt: skip
        self.which: Which = "plan"
        self.plan = plan
        self.larger = larger
        self.may_enlarge = larger
        self._keys = {key: which for key, which in KEYS.items() if sheet or which != "sheet"}
        self._scene = scene
        self._site = site
        self._chosen = chosen
        self._choose = choose
        self._found = found
        self._turned = turned
        self._reference = reference
        self._back = back or (lambda: read_back(site().layout.house.plan))
        self._say_on_sheet = say
        self._say = say if say is not None else self._note_on_plan
        self.stander = Stander(site().layout)
        self.moving = Moving(site, self.stander, lambda: self.times, lambda: scene.ui.look.still)
        self._inset = FallInset(site, self.stander, self.look, lambda: self.share)
        plan.over = self._inset.paint
        self._glass = False
        self._seen: Scene3 | None = None
        self._made: dict[Which, PlanView] = {"plan": plan}

    # what is looked at

    @property
    def times(self) -> float:
        """How much larger than it is a lean is shown."""
        return LARGER if self.larger else 1.0

    @property
    def share(self) -> float:
        """How much of a fall is over, from 0 to 1: what fell then lies there."""
        return self.moving.share

    def look(self) -> Scene3:
        """Return what stands, in space, worked out once until something changes."""
        if self._seen is None:
            site = self._site()
            solids = self.stander.solids(site, self.times, self.share)
            self._seen = scene_of(site, solids)
        return self._seen

    def invalidate(self) -> None:
        """The site, or how it is to be seen, has changed."""
        self._seen = None
        for view in self._made.values():
            view.invalidate()

    def view(self) -> PlanView:
        """Return the view that is open."""
        if self.which not in self._made:
            self._made[self.which] = self._make(self.which)
            if self.which != "angled":
                self._made[self.which].over = self._inset.paint
            if self.which in {"angled", "section"}:
                self._made[self.which].note = self._note
        made = self._made[self.which]
        if isinstance(made, SectionView | YardView | SheetView):
            made.follow()
        if self.which in FROM_ABOVE:
            made.magnifier = made.magnifier or Magnifier() if self._glass else None
            made.chosen_place, made.pointer_moved = self._chosen_place, partial(self._scene.redraw, "plan")
        return made

    def _chosen_place(self) -> Point | None:
        """The middle of the chosen truss, where it stands or, on the layout drawing, where it belongs."""
        site, tag = self._site(), self._chosen()
        if self.which == "sheet":
            return site.layout.by_tag[tag].middle if tag in site.layout.by_tag else None
        return lying(site.stood[tag]).middle if tag in site.stood else None

    def magnify(self) -> None:
        """Take up the magnifying glass, or put it away."""
        if self.which not in FROM_ABOVE:
            self.show("plan")
        self._glass = not self._glass
        self._scene.refresh()

    def _make(self, which: Which) -> PlanView:
        if which == "section":
            return SectionView(NAMES[which], self._site, self.look, self._chosen, self._on_section)
        if which == "yard":
            return YardView(
                NAMES[which], self._site, self.stander, self._chosen, self._turned, explained=self.may_enlarge
            )
        if which == "sheet":
            return SheetView(
                NAMES[which], self._site().layout, self._chosen, self._back, self._marked, self._say_on_sheet
            )
        box = whole_box(self._site().layout)
        return AngledView(NAMES["angled"], box, self.look, self._named, self._choose, self._chosen, self._on_angled)

    def _marked(self) -> list[Line]:
        """The marks that were made; an assessment does not show them over those of the drawing."""
        return marks(self._site()) if self.may_enlarge else []

    def _loose(self) -> list[str]:
        """The trusses that nothing holds yet; an assessment does not say."""
        site = self._site()
        if not self.may_enlarge:
            return []
        held = held_by_own(site)
        return [tag for tag in self.look().solids if tag not in held]

    def _note(self) -> str:
        if self._covered:
            return ""
        fell = _("Red figures: people could have stood there.") if self.which == "angled" and self._site().fall else ""
        size = _("Lean and bow are shown {factor} times as large.").format(factor=f"{LARGER:g}") if self.larger else ""
        ring = _("A ring: not held yet.") if self.which == "angled" and self._loose() else ""
        roof = _("Thin dashes: the finished roof.")
        return "  ".join(filter(None, (fell, size, ring, roof)))

    def _named(self) -> Collection[str]:
        return {self._chosen()} - {found.tag for found in self._found() if found.words}

    def _on_angled(self, turn: Turn, scale: float) -> list[Item]:
        found = on_angled(self._found(), self.look().solids, turn, scale, self._chosen())
        missed = self._reference()
        framed = {one.place.tag: self.stander.framed(one.place) for one in missed}
        found += loose(self._loose(), self.look().solids, turn, scale)
        return [*found, *in_space(missed, framed, turn), *self.moving.items(turn.all_flat)]

    def _on_section(self, cut: SectionLine) -> list[Item]:
        return on_section(self._found(), self.look().solids, cut)

    # going from one to another

    def show(self, which: Which) -> None:
        """Open a view; the one that is open shows everything again."""
        self.stop_drawing()
        if self.which == which:
            self.view().show_all()
        self.which = which
        self._scene.refresh()

    def cover(self) -> None:
        """Show the roof covered, in space: it turns once while its sheets run on, if things may move."""
        self.show("angled")
        view = self.view()
        if isinstance(view, AngledView):
            view.cover(still=self._scene.ui.look.still)

    def uncover(self) -> None:
        """Take the roof's cover off again, so that what is under it is seen."""
        view = self.view()
        if isinstance(view, AngledView) and view.planes:
            self._planes(view)

    @property
    def _covered(self) -> bool:
        view = self._made.get(self.which)
        return isinstance(view, AngledView) and view.planes

    def key(self, event: pygame.event.Event) -> bool:
        """Take a key that opens a view."""
        if event.key == pygame.K_F10:
            self.magnify()
            return True
        if event.key not in self._keys:
            return False
        self.show(self._keys[event.key])
        return True

    def zoom_key(self, event: pygame.event.Event) -> bool:
        """Take a key that zooms the open view."""
        return self.view().zoom_key(event)

    def commands(self) -> list[Command]:
        """Return what can be done with the views, by name."""
        found = [
            Command(
                _("Look: {view}").format(view=NAMES[which]), pygame.key.name(key).upper(), partial(self.show, which)
            )
            for key, which in self._keys.items()
        ]
        return [
            *found,
            Command(_("Draw the line of a section"), "", self._draw_any_line),
            Command(_("Magnifying glass"), "F10", self.magnify),
            Command(_("Show everything"), "0", lambda: self.view().show_all()),
            Command(_("Nearer"), "]", lambda: self.view().zoom_by(1.25)),
            Command(_("Farther"), "[", lambda: self.view().zoom_by(0.8)),
        ]

    def tick(self, now_ms: int) -> None:
        """Let time pass; the region ``plan`` is drawn again while something in it moves."""
        acting, falling = self.moving.tick(now_ms)
        if falling:
            self.invalidate()
        if acting or falling:
            self._scene.redraw("plan")
        view = self.view()
        view.now_ms = now_ms
        if not view.resting:
            self._scene.redraw("plan")

    def strip(self, width: int) -> Widget:
        """Return the strip over the view, so many px wide: which view, and how to look."""
        # Large text: one line of buttons leaves more room for the view; their keys stand under their names.
        spare = self._scene.ui.look.scale < LARGE_TEXT
        parts: list[Widget] = [
            Button(
                NAMES[which], partial(self.show, which), kind="tab", checked=self.which == which, key=f"view/{which}",
                shortcut=pygame.key.name(key).upper(), ground="paper", tight=not spare, key_under=not spare,
            )
            for key, which in self._keys.items()
        ]  # fmt: skip
        parts += self._controls(self.view())
        ui, pad = self._scene.ui, 4 if spare else 2
        gap, room = 4 if spare else 0, width - 2 * ui.look.px(pad)
        flow = Flow(parts, gap=gap, key="views/flow")
        for more in self._where_there_is_room(spare=spare):
            # A key, a command and another button do the same.
            longer = Flow([*flow.children, more], gap=gap, key="views/flow")
            flow = longer if longer.high(ui, room) == flow.high(ui, room) else flow
        drawer = self.plan.drawer
        lines = [flow, line_controls(ui, room, drawer, self.stop_drawing)] if isinstance(drawer, LineDrawer) else [flow]
        return Pad(Column(lines, gap=gap), pad=pad, ground="paper", name=_("Ways to look"), key="views")

    def _where_there_is_room(self, *, spare: bool) -> list[Widget]:
        """Return the buttons that the strip has where they need no line of their own."""
        found: list[Widget] = []
        if self.which in FROM_ABOVE and not self.drawing:
            glass = press(_("Magnify"), self.magnify, "magnify", on=self._glass, shortcut="F10")
            glass.key_under = not spare
            found.append(glass)
        return [*found, press(_("Whole house"), self._whole, "whole", shortcut="0")] if spare else found

    def _whole(self) -> None:
        self.view().show_all()
        self._scene.redraw("plan")

    def _controls(self, view: PlanView) -> list[Widget]:
        if isinstance(view, AngledView):
            return [
                press(_("Turn"), view.turn_on, "turn"), press(_("Tilt"), view.tilt_on, "tilt"),
                press(_("Roof planes"), partial(self._planes, view), "planes", on=view.planes), *self._enlarge(),
            ]  # fmt: skip
        if isinstance(view, SectionView):
            return [*self._enlarge(), *self._across(view)]
        if isinstance(view, YardView):
            return [press(_("Compare"), partial(self._compare, view), "compare", on=bool(view.other))]
        return []

    def _across(self, view: SectionView) -> list[Widget]:
        """Return how to choose the line that a section runs on."""

        def along(on_truss: bool) -> None:
            view.on_truss = on_truss
            self._scene.refresh()

        found: list[Widget] = [press(_("Draw the line"), partial(self._draw_line, view), "draw")]
        if view.truss:
            found.append(press(_("Across the house"), lambda: along(False), "across"))
        elif view.chosen:
            found.append(press(_("Along {tag}").format(tag=view.chosen), lambda: along(True), "along"))
        return found

    def _draw_any_line(self) -> None:
        if self.which != "section":
            self.show("section")
        view = self.view()
        if isinstance(view, SectionView):
            self._draw_line(view)

    def _draw_line(self, view: SectionView) -> None:
        """Go to the plan to draw the line of the section there."""

        def changed() -> None:
            self._say(drawer.note)
            self._scene.refresh("views", "plan", "strip")

        def done(cut: SectionLine) -> None:
            view.put(cut)
            self.show("section")
            self._say("")
            self._scene.services.focus(view.key)

        self.show("plan")
        drawer = self.plan.drawer = LineDrawer(self._site(), view.across, changed, done)
        changed()
        self._scene.services.focus(self.plan.key)

    def _note_on_plan(self, text: str) -> None:
        self.plan.note = lambda: text

    @property
    def drawing(self) -> bool:
        """Whether the line of a section is being drawn on the plan."""
        return self.plan.drawer is not None

    def stop_drawing(self) -> None:
        """Leave the line of the section as it was."""
        if self.drawing:
            self.plan.drawer = None
            self._say("")
            self._scene.refresh()

    def _enlarge(self) -> list[Widget]:
        if not self.may_enlarge:
            return []
        text = _("Lean × {n}").format(n=f"{LARGER:g}")
        return [press(text, self._true_size, "larger", on=self.larger)]

    def _true_size(self) -> None:
        self.larger = not self.larger
        self.invalidate()
        self._scene.refresh()

    def _planes(self, view: AngledView) -> None:
        view.planes = not view.planes
        view.invalidate()
        self._scene.refresh()

    def _compare(self, view: YardView) -> None:
        view.compare()
        self._scene.refresh()
