"""Stop and think: a question about the roof as it stands; once it is answered, the model shows what happens."""

from __future__ import annotations

from functools import partial

import pygame

from trainer.board.camera import Camera
from trainer.board.command import Command
from trainer.board.paint import Brush
from trainer.board.scene import TOO_SOON_MS, Scene
from trainer.board.widgets import Button, Canvas, Column, Flow, Pad, Paragraph, Prose, Scroll, Widget, top_bar
from trainer.film.predicting import Prediction, prediction
from trainer.picture.angled import angled, box_with_yard, scene_of
from trainer.picture.filmed import turn_of
from trainer.picture.solids import Stander
from trainer.site import AnyAction, Site
from trainer.words import _

FALL_MS = 1500
"""How long it takes for what falls to come down."""
LARGER = 8.0
"""How much larger than it is a lean is shown."""


def ask_to_predict(work: Scene, site: Site, did: AnyAction, asked: dict[Prediction, int]) -> None:
    """Ask about ``site`` as it is after ``did``, if this is a moment for it; then go back to ``work``.

    ``asked`` keeps what was asked on this house, with how many trusses had been lifted then.
    """
    asks = prediction(site, did, asked)
    if asks is not None:
        asked[asks] = site.lifted
        work.services.show(Predicting(work, site, asks))


class Predicting(Scene):
    """Asks one question about a site, and goes back to the work on it."""

    name = _("What happens?")
    order = ("side", "picture", "bar")

    def __init__(self, work: Scene, site: Site, asks: Prediction) -> None:
        super().__init__(work.services)
        self.work = work
        self.asks = asks
        self.answer: int | None = None
        self._now_stands = site
        self._stander = Stander(site.layout)
        self._turn = turn_of(site.layout)
        self._share = 0.0
        self._begun: int | None = None
        self._came = self._now = -1

    # what shows

    @property
    def site(self) -> Site:
        """The site that is shown: as it stands, and once the question is answered as the model has it then."""
        return self._now_stands if self.answer is None else self.asks.after

    def tick(self, now_ms: int) -> None:
        self._came, self._now = now_ms if self._came < 0 else self._came, now_ms
        if self.answer is None or self._share >= 1.0:
            return
        if self._begun is None:
            self._begun = now_ms
        still = self.ui.look.still or self.site.fall is None
        self._share = 1.0 if still else min(1.0, (now_ms - self._begun) / FALL_MS)
        self.redraw("picture")

    def places(self, size: tuple[int, int]) -> dict[str, pygame.Rect]:
        wide, high = size
        top = self._bar().high(self.ui, wide)
        side = min(self.ui.look.px(400), int(wide * 0.44))
        return {
            "bar": pygame.Rect(0, 0, wide, top),
            "side": pygame.Rect(wide - side, top, side, high - top),
            "picture": pygame.Rect(0, top, wide - side, high - top),
        }

    def make(self, region: str) -> Widget:
        if region == "picture":
            picture = Canvas(_("The roof as it stands"), self._paint)
            return Pad(picture, pad=0, ground="paper", name=_("Picture"), key="predict/picture")
        return self._bar() if region == "bar" else self._side()

    def _bar(self) -> Widget:
        return top_bar(self.name, _("Your work"), self.leave, self.services.help)

    def _side(self) -> Widget:
        parts: list[Widget] = [Prose([Paragraph(f"**{self.asks.text}**")], key="predict/question")]
        for number, option in enumerate(self.asks.options):
            if self.answer is None:
                key = f"predict/option {number}"
                parts.append(Button(option.text, partial(self.take, number), key=key, shortcut=str(number + 1)))
            elif option.right or number == self.answer:
                head = _("Right") if option.right else _("Not right")
                parts.append(Prose([Paragraph(f"**{head}**: {option.text}.")], key=f"predict/answer {number}"))
        if self.answer is not None:
            told = (option for n, option in enumerate(self.asks.options) if option.right or n == self.answer)
            why = [Paragraph(text) for text in dict.fromkeys(option.why for option in told)]
            if self.asks.key == "leans":
                larger = _("Lean and bow are shown {factor} times as large.").format(factor=f"{LARGER:g}")
                why.append(Paragraph(larger))
            nothing = Paragraph(_("Nothing of this was done to your roof."), "small", "panel_faint")
            parts.append(Prose([*why, nothing], key="predict/why"))
        said_all = Scroll(Column(parts, gap=8), self.name, key=f"predict/said {self.answer}")
        said_all.stops = self.answer is None  # an Enter that was meant for the work before is no answer
        buttons = Flow([self._on(), Button(_("Ask no more"), self.no_more, key="predict/no more")], gap=8)
        return Pad(Column([said_all, buttons], gap=10), pad=14, column=True, name=self.name)

    def _on(self) -> Button:
        if self.answer is None:
            return Button(_("Skip the question"), self.leave, key="predict/on", shortcut="N")
        return Button(_("Go on building"), self.leave, key="predict/on", shortcut="N", kind="primary")

    def _paint(self, surface: pygame.Surface, rect: pygame.Rect) -> None:
        seen = rect.clip(surface.get_rect())
        if seen.width < 20 or seen.height < 20:
            return
        look = self.ui.look
        window = surface.subsurface(seen)
        window.fill(look["paper"])
        camera = Camera()
        camera.resize(rect.size)
        times = LARGER if self.asks.key == "leans" else 1.0
        scene = scene_of(self.site, self._stander.solids(self.site, times, self._share))
        camera.look_at(box_with_yard(scene, self._turn))
        tag = self.asks.tag if self.asks.tag in self.site.stood else ""
        chosen = tag if self.answer is not None and self.site.fall is None else ""
        items = angled(scene, self._turn, camera.view.scale, [tag], chosen=chosen)
        Brush(window, look.colours, camera.view, lettering=look.scale, inside=True).paint(items)

    # doing

    def first_focus(self) -> str:
        return f"predict/said {self.answer}" if self.answer is None else "predict/on"

    def take(self, option: int) -> None:
        """Answer, and let the model show what happens."""
        if self.answer is None and option < len(self.asks.options):
            self.answer = option
            self.refresh()
            self.services.focus("predict/on")

    def leave(self) -> None:
        """Go back to the work."""
        self.services.show(self.work)

    def no_more(self) -> None:
        """Have no more questions while building, on this house or another, until they are turned on again."""
        self.services.comfort.remember(guided=False)
        self.leave()

    def commands(self) -> list[Command]:
        return [Command(_("Back to: {place}").format(place=_("Your work")), "Esc", self.leave)]

    def key(self, event: pygame.event.Event) -> bool:
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        if self._now - self._came < TOO_SOON_MS and event.key != pygame.K_ESCAPE:
            return True  # a measure that was being typed does not answer
        if event.key in {pygame.K_ESCAPE, pygame.K_n}:
            self.leave()
        elif event.key in {pygame.K_1, pygame.K_2, pygame.K_3}:
            self.take(event.key - pygame.K_1)
        else:
            return False
        return True
