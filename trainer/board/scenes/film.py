"""Watching a house being built: the picture, what is said of it, the questions, and what plays it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from itertools import islice
from typing import TYPE_CHECKING

import pygame

from trainer.board.command import Command
from trainer.board.film_view import FilmView
from trainer.board.library import HouseEntry
from trainer.board.scene import TOO_SOON_MS, Scene
from trainer.board.scenes.asking import show_message
from trainer.board.services import Services
from trainer.board.widgets import Button, Choice, Column, Flow, Label, Pad, Paragraph, Prose, Scroll, Widget, top_bar
from trainer.words import CAUTION, INVENTED, _, ngettext

if TYPE_CHECKING:
    from trainer.film import Film, Player
    from trainer.picture.filmed import Seen

AT_ONCE = 300
"""So many pieces of the film are made from frame to frame."""
FOLLOWS = ("film/play", "film/on", "film/option", "film/build", "bar/")
"""Where the focus is taken on from when there is something else to be done; on other controls it stays."""
WIDE_PX = 1000.0
PART_MS = 12_000
"""How long one idea moves at least where it is shown by itself, unless that is too slow."""
EVERY_MS = 1000 / 30
"""How long a picture stays while the film moves, ms."""


class FilmScreen(Scene):
    """Shows how one house goes up. ``leave`` goes back to where it was opened from."""

    name = _("Watch it built")
    order = ("side", "foot", "picture", "bar")

    def __init__(
        self, services: Services, entry: HouseEntry, *, back: str = "", leave: Callable[[], None] | None = None,
        part: str = "", watched: Callable[[], None] | None = None,
    ) -> None:  # fmt: skip
        """Show one ``part`` alone where one is named; ``watched`` goes on from there once it was seen to its end."""
        super().__init__(services)
        self.entry = entry
        self.player: Player | None = None
        self._back = back or _("Houses")
        self._leave = leave or services.go_home
        self._part, self._watched = part, watched
        self.asked = self.right = 0
        self._making: Iterator[Seen] | None = None
        self._made: list[Seen] = []
        self._view: FilmView | None = None
        self._seen = False
        self._last_ms = self._drawn_ms = 0
        self._asked_ms = -TOO_SOON_MS

    # making it

    def _make_some(self) -> None:
        """Make the film after the first frame, a little in each: of a large house it takes some seconds."""
        from trainer.film import Player, film_of  # loads the core's libraries
        from trainer.layout import LayoutRefused
        from trainer.picture.filmed import Filmed

        if self.player is None:
            try:
                film = film_of(self.entry.level, 1, idea=self._part)
            except LayoutRefused as refused:
                self._leave()
                reasons = [f"**{each.place}**: {each.why}" for each in refused.reasons]
                show_message(self.services, _("There is no film of this house"), reasons)
                return
            filmed = Filmed(film, WIDE_PX)
            self.player = Player(film, still=self.ui.look.still)
            self._making = filmed.items()
            self._view = FilmView(_("The roof so far"), filmed.box, lambda: self.at_ms, self._in_words)
            self.refresh()
        some = list(islice(self._making or (), AT_ONCE))
        self._made += some
        if len(some) < AT_ONCE:
            self._making = None
            self._begin()

    def _begin(self) -> None:
        from trainer.film.player import SPEEDS, USUAL

        assert self.player is not None and self._view is not None
        self._view.show(self._made)
        part = next((part for part in self.film.parts if part.key == self._part), None)
        self.player.choose(part)
        if part is not None:  # what is only a moment of the film is shown more slowly by itself
            lasts = sum(end - start for start, end in part.ranges)
            slow = [n for n in range(USUAL + 1) if lasts >= PART_MS * SPEEDS[n]]
            self.player.speed = max(slow, default=0)
        self.player.playing = not self.player.still
        self._changed()

    @property
    def ready(self) -> bool:
        """Whether all of it is made."""
        return self.player is not None and self._making is None

    @property
    def at_ms(self) -> int:
        """The moment that is shown."""
        return self.player.at_ms if self.player else 0

    @property
    def asks(self) -> bool:
        """Whether there is a question in what is shown."""
        ranges = self.player.ranges if self.player else ()
        return any(start <= stop.at_ms < end for start, end in ranges for stop in self.film.stops)

    @property
    def film(self) -> Film:
        """The film, once it is being made."""
        assert self.player is not None
        return self.player.film

    # time

    def tick(self, now_ms: int) -> None:
        passed, self._last_ms = now_ms - self._last_ms, now_ms
        if not self._seen:
            self._seen = True
        elif not self.ready:
            self._make_some()
        elif self.player is not None:
            self.player.still = self.ui.look.still
            before = (self.player.held, self.player.ended, self.player.said, self.player.playing)
            moved = self.player.tick(min(passed, 100))
            if (self.player.held, self.player.ended, self.player.said, self.player.playing) != before:
                self._changed()
            elif moved and now_ms - self._drawn_ms >= EVERY_MS:
                self._drawn_ms = now_ms
                self.redraw("picture")

    def look_changed(self) -> None:
        if self._view is not None:
            self._view.invalidate()

    def _changed(self) -> None:
        """What is said or asked has changed: put the focus where one goes on."""
        self.refresh()
        if self.player is not None and self.size != (0, 0):
            asked = self.player.asking is not None and self.player.answer is None
            if asked:
                self._asked_ms = self._last_ms
            if asked or self.ui.focus.startswith(FOLLOWS):
                self.services.focus("film/option 0" if asked else self.first_focus())

    # what shows

    def places(self, size: tuple[int, int]) -> dict[str, pygame.Rect]:
        wide, high = size
        top = self._bar().high(self.ui, wide)
        side = min(self.ui.look.px(400), int(wide * 0.44))
        foot = min(self._foot().high(self.ui, wide - side), (high - top) // 2)
        return {
            "bar": pygame.Rect(0, 0, wide, top),
            "side": pygame.Rect(wide - side, top, side, high - top),
            "foot": pygame.Rect(0, high - foot, wide - side, foot),
            "picture": pygame.Rect(0, top, wide - side, high - top - foot),
        }

    def make(self, region: str) -> Widget:
        if region == "bar":
            return self._bar()
        if region in {"side", "foot"}:
            return self._side() if region == "side" else self._foot()
        if self._view is None or not self.ready:
            wait = Label(_("The film is being made …"), "body", "ink", ground="paper", role="status")
            return Pad(wait, pad=24, ground="paper", name=_("Picture"), key="film/wait")
        return self._view

    def _bar(self) -> Widget:
        return top_bar(f"{self.name}: {self.entry.level.title}", self._back, self._leave, self.services.help)

    def _side(self) -> Widget:
        if self.player is None or not self.ready:
            return Pad(Prose([Paragraph(INVENTED, "small", "panel_faint")], key="invented"), pad=16, column=True)
        said = Scroll(Column(self._said(), gap=8), _("What is shown"), key=f"film/said {self.at_ms}")
        return Pad(said, pad=14, column=True, name=_("What is shown"))

    def _foot(self) -> Widget:
        if self.player is None or not self.ready:
            return Pad(Widget(), pad=0, ground="paper", name=_("Playing"), key="film/foot")
        controls = Scroll(Column(self._controls(), gap=6), _("Playing"), key="film/controls")
        controls.ground = "paper"
        return Pad(controls, pad=8, ground="paper", name=_("Playing"), key="film/foot")

    def _said(self) -> list[Widget]:
        player = self.player
        assert player is not None
        stop = player.asking
        if stop is not None:
            return self._question()
        if player.ended:
            end = _("That part is shown.") if player.part else _("The roof is up, braced and handed over.")
            return [Label(end, "body", role="status"), Prose([Paragraph(CAUTION, "small", "panel_faint")])]
        told = player.said
        if told is None:
            return [Label(_("The walls are up. The trusses are on site."), "body", role="status")]
        parts: list[Widget] = [Label(told.name, "heading", role="heading")]
        parts.append(Prose([Paragraph(told.text)], key="film/caption"))
        return parts

    def _question(self) -> list[Widget]:
        player = self.player
        assert player is not None and player.asking is not None
        stop = player.asking
        parts: list[Widget] = [Prose([Paragraph(f"**{stop.text}**")], key="film/question")]
        for number, option in enumerate(stop.options):
            if player.answer is None:
                parts.append(
                    Button(
                        option.text, partial(self.take, number), key=f"film/option {number}", shortcut=str(number + 1)
                    )
                )
            elif option.right or number == player.answer:
                head = _("Right") if option.right else _("Not right")
                parts.append(Prose([Paragraph(f"**{head}**: {option.text}.")], key=f"film/answer {number}"))
        if player.answer is not None:
            told = (option for n, option in enumerate(stop.options) if option.right or n == player.answer)
            parts.append(Prose([Paragraph(text) for text in dict.fromkeys(each.why for each in told)], key="film/why"))
        return parts

    def _controls(self) -> list[Widget]:
        from trainer.film.player import SPEED_NAMES

        player = self.player
        assert player is not None
        ends = Button(_("Build it yourself"), self.build, kind="primary", key="film/build", ground="paper")
        if self._watched is not None:
            ends = Button(_("Go on"), self._watched, kind="primary", key="film/build", ground="paper")
        name = _("Pause") if player.playing else _("Play again") if player.ended else _("Play")
        play = Button(name, self.play, shortcut="P", key="film/play", ground="paper")
        back = Button(_("Back"), self.back, shortcut="B", key="film/back", ground="paper")
        buttons = [*([ends] if player.ended else []), *([] if player.still else [play]), self._on(player), back]
        names = [_("the whole house"), *(part.name for part in self.film.parts)]
        at = self.film.parts.index(player.part) + 1 if player.part else 0
        only = Choice(_("Show"), names, at, self._choose, key="film/part", ground="paper")
        speed = Choice(_("Speed"), SPEED_NAMES, player.speed, self._set_speed, key="film/speed", ground="paper")
        choices = Flow([only, *([] if player.still else [speed])], gap=12, key="film/choices")
        return [Flow(buttons, gap=6, key="film/buttons"), choices]

    def _on(self, player: Player) -> Button:
        """Return what passes that for which the film is held, or goes on by a step."""
        skip = player.asking is not None and player.answer is None
        held = player.held is not None
        name = _("Skip the question") if skip else _("Go on") if held else _("Next step")
        kind = "primary" if held and not skip else "plain"
        return Button(name, self.on, shortcut="N", kind=kind, key="film/on", ground="paper", enabled=not player.ended)

    def _in_words(self) -> str:
        """Say what the picture shows."""
        if self.player is None:
            return ""
        standing = sum(shot.step.verb == "stand" and shot.end_ms <= self.at_ms for shot in self.film.shots)
        return ngettext("{n} truss stands", "{n} trusses stand", standing).format(n=standing)

    # doing

    def first_focus(self) -> str:
        player = self.player
        if player is None or not self.ready:
            return "bar/houses"
        if player.ended:
            return "film/build"
        return "film/on" if player.held is not None or player.still else "film/play"

    def play(self) -> None:
        """Play or pause."""
        if self.player is not None and self.ready:
            self.player.play()
            self._changed()

    def on(self) -> None:
        """Pass what the film is held for, or go on by a step."""
        if self.player is not None and self.ready:
            self.player.go_on()
            self._changed()

    def back(self) -> None:
        """Go back by a step."""
        if self.player is not None and self.ready:
            self.player.back()
            self._changed()

    def take(self, option: int) -> None:
        """Answer a question; one that came just now was not what was pressed for."""
        player = self.player
        if player is None or player.asking is None or player.answer is not None:
            return
        if self._last_ms - self._asked_ms < TOO_SOON_MS:
            return
        if option < len(player.asking.options):
            player.take(option)
            self.asked += 1
            self.right += player.asking.options[option].right
            self._changed()

    def build(self) -> None:
        """Go and build this house."""
        self.services.go_work(self.entry, "practice")

    def slower(self) -> None:
        """Go on more slowly."""
        if self.player is not None:
            self._set_speed(max(0, self.player.speed - 1))

    def _set_speed(self, index: int) -> None:
        if self.player is not None:
            self.player.speed = index
            self.refresh("foot")

    def _choose(self, number: int) -> None:
        if self.player is not None:
            self.player.choose(self.film.parts[number - 1] if number else None)
            self._changed()

    def commands(self) -> list[Command]:
        return [
            Command(_("Play or pause the film"), "P", self.play),
            Command(_("Film: go on, or one step on"), "N", self.on),
            Command(_("Film: one step back"), "B", self.back),
            Command(_("Film: slower"), "S", self.slower),
            Command(_("Back to: {place}").format(place=self._back), "Esc", self._leave),
        ]

    def key(self, event: pygame.event.Event) -> bool:
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return False
        does: dict[int, Callable[[], object]] = {
            pygame.K_p: self.play, pygame.K_n: self.on, pygame.K_b: self.back, pygame.K_s: self.slower,
            pygame.K_ESCAPE: self._leave, pygame.K_1: partial(self.take, 0), pygame.K_2: partial(self.take, 1),
            pygame.K_3: partial(self.take, 2),
        }  # fmt: skip
        if event.key not in does:
            return False
        does[event.key]()
        return True
