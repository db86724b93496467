"""Makes a level as hard as asked: a shape is drawn, laid out once, and made longer by the bays that are wanting."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from trainer.generate.birds import BIRDS
from trainer.generate.draw import Draw
from trainer.generate.faults import site_with
from trainer.generate.shapes import SHAPES, Habits, HouseShape
from trainer.generate.sketch import Sketch
from trainer.generate.story import brief_of, notes_of, title_of
from trainer.layout import Layout, lay_out
from trainer.level import Lesson, Level, difficulty
from trainer.level.as_found import SiteSettings, Wind
from trainer.level.dangers import DangerKind
from trainer.level.difficulty import BANDS, FAULT, HARDEST
from trainer.level.model import DutchGableSettings, Plates, RoofSettings, TrussSettings
from trainer.read import did_you_mean
from trainer.terms import STAGES, Stage
from trainer.words import _

FOUND_BY: Mapping[DangerKind, str] = MappingProxyType(
    {
        "service line": "service-line-in-reach",
        "open stair void": "stair-void-open",
        "missing rail": "edge-left-open",
        "missing platform": "edge-left-open",
        "people in the exclusion zone": "people-under-the-lift",
        "pack on a lintel": "pack-landed-badly",
        "pack on a half-braced row": "pack-left-on-row",
        "gust forecast": "forecast-not-heeded",
        "gust at noon": "lifted-in-gust",
        "licence missing": "lifted-without-licence",
        "beam not bolted down": "beam-not-bolted-down",
        "beam propped": "beam-propped",
        "post not braced": "post-not-braced",
        "post not tied down": "post-not-tied-down",
        "post brace taken off": "post-brace-taken-off",
    }
)
"""The rule that each danger is about."""
HABITS = (Habits(600, 1800), Habits(600, 1800), Habits(600, 2400), Habits(900, 1800))
"""Spacings and setbacks that are made; common practice, no source."""
WIDE_BAYS_TO = 2
"""The hardest houses with the widest bays: any harder would be too long to be a house."""
FAULTS = (0, 0, 0, 1, 1, 2, 2, 3, 4, 5)
"""Faults planted at each difficulty."""
WINDY_FROM = 8
FIRST_STAGES: tuple[Stage, ...] = ("set-out", "stand", "brace", "hand-over")
"""Of some of the easiest houses: others fasten them."""
OVER_HARDEST = 60
"""Points over the last band that the hardest houses may have."""
CLEAR = 3
"""Points that a house keeps from the edges of its band."""
CLEAR_OF_RIDGE = 200
"""From an inside wall to the ridge over it, mm."""
MINUTES_A_TRUSS = 0.65
"""Common practice on the board, no source."""


class CannotMake(ValueError):  # noqa: N818 - it is an answer about what was asked, not a fault of the program
    """Raised where there is no such shape, or none so hard or easy; says what there is."""


def make_level(seed: int, hard: int, shape: str | None = None) -> Level:
    """Return a new level of difficulty ``hard``, 1 to 10; the same for the same seed, difficulty and shape.

    :raises CannotMake: where there is no such shape, or it can't be that hard.
    """
    return drawn_level(Draw(seed, hard), shape)


def short_level(seed: int, hard: int, shape: str, minutes: int) -> Level:
    """Return a new level that takes ``minutes`` at most, with the faults of one that is so ``hard``.

    Where it would take longer its trusses stand in wide bays, and where that is not enough it is as small as can be.

    :raises CannotMake: where there is no such shape, or none that takes so little.
    """
    draw = Draw(seed, hard)
    level = drawn_level(draw, shape)
    making = _Making(draw, SHAPES[shape], wide=True)
    for own in (draw, replace(draw, least=True)):
        if (level.lesson.minutes or 0) <= minutes:
            break
        level, layout = making.finished(making.shape.make(own, making.habits))
        level = level.model_copy(update={"title": title_of(making.bird, difficulty(level, layout).grade)})
    if (level.lesson.minutes or 0) > minutes:
        text = _("a house of shape {shape} takes {least} minutes at least")
        raise CannotMake(text.format(shape=shape, least=level.lesson.minutes))
    return level


def drawn_level(draw: Draw, shape: str | None) -> Level:
    """Return the level that a draw comes to; :class:`CannotMake` as :func:`make_level`."""
    hard = draw.difficulty
    chosen = _shape(draw, hard, shape)
    making = _Making(draw, chosen)
    sketch, points = making.measured(draw)
    if points > _band(hard)[1]:
        sketch, points = making.measured(replace(draw, least=True))
    return making.finished(sketch.longer(max(0, _wanted(draw, hard) - points), making.habits.spacing))[0]


def _shape(draw: Draw, hard: int, name: str | None) -> HouseShape:
    if not 1 <= hard <= HARDEST:
        raise CannotMake(_("the difficulty is {hard}; give one from 1 to {hardest}").format(hard=hard, hardest=HARDEST))
    fitting = [each for each in SHAPES.values() if each.easiest <= hard <= each.hardest]
    if name is None:
        return draw.pick(fitting, "shape")
    if name not in SHAPES:
        raise CannotMake(
            _("no shape is called '{name}'; {guess}").format(
                name=name[:40], guess=did_you_mean(name, SHAPES) or ", ".join(SHAPES)
            )
        )
    if SHAPES[name] not in fitting:
        can_be = f"{SHAPES[name].easiest} to {SHAPES[name].hardest}"
        raise CannotMake(
            _("a house of shape {name} can be {can_be} of 10; for {hard} there is {names}").format(
                name=name, can_be=can_be, hard=hard, names=_names(fitting)
            )
        )
    return SHAPES[name]


def _names(shapes: list[HouseShape]) -> str:
    return ", ".join(shape.name for shape in shapes)


def _wanted(draw: Draw, hard: int) -> int:
    """The points that the house is to have, well inside its band."""
    low, high = _band(hard)
    return draw.between(low + CLEAR, high - CLEAR, 1, "points")


def _band(hard: int) -> tuple[int, int]:
    """The least and the most points of houses that are so hard."""
    low = BANDS[hard - 2] if hard > 1 else 0
    return low, BANDS[hard - 1] - 1 if hard < HARDEST else low + OVER_HARDEST


@dataclass(frozen=True)
class _Making:
    """What stays the same while one level is made."""

    draw: Draw
    shape: HouseShape
    wide: bool = False
    """Whether the trusses stand in the widest bays, so that there are fewer of them."""

    @property
    def habits(self) -> Habits:
        """The spacing and the setback."""
        if self.wide:
            return HABITS[-1]
        wide = self.draw.difficulty <= WIDE_BAYS_TO
        return self.draw.pick(HABITS if wide else [h for h in HABITS if h.spacing < HABITS[-1].spacing], "habits")

    def measured(self, draw: Draw) -> tuple[Sketch, int]:
        """Return a sketch and its points, with all the faults that will be planted."""
        sketch = self.shape.make(draw, self.habits)
        plain = self.level(sketch, SiteSettings())
        measured = difficulty(plain, lay_out(plain.house()))
        return sketch, measured.points + FAULT * FAULTS[draw.difficulty - 1]

    @property
    def bird(self) -> str:
        """What the house is named after."""
        return self.draw.pick(BIRDS, "bird")

    def finished(self, sketch: Sketch) -> tuple[Level, Layout]:
        """Return the level of a sketch with its inside walls and all that is wrong on its site, and its layout."""
        draw, hard = self.draw, self.draw.difficulty
        sketch = self.with_walls(sketch)
        layout = lay_out(self.level(sketch, SiteSettings()).house())
        wind: Wind = "strong" if hard >= WINDY_FROM and draw.maybe(0.3, "wind") else "calm"
        return self.level(sketch, site_with(draw, layout, FAULTS[hard - 1], wind), layout), layout

    def level(self, sketch: Sketch, site: SiteSettings, layout: Layout | None = None) -> Level:
        """Return the level of a sketch; with its ``layout``, what it teaches too."""
        draw = self.draw
        roof = RoofSettings(
            pitch=draw.between(35, 55, 1, "pitch") / 2,
            overhang=draw.pick((450, 600), "overhang"),
            heel=draw.pick((90, 100, 120), "heel"),
            cover=draw.pick(("sheet", "tile"), "cover"),
        )
        trusses = self._trusses(sketch)
        turn = draw.between(0, 7 if self._alike_both_ways(sketch) else 3, 1, "turn")
        plan = sketch.plan(turn)
        bird = self.bird
        given = {
            "schema": 1,
            "id": f"{bird}-{draw.difficulty}-{draw.seed}",
            "title": title_of(bird, draw.difficulty),
            "brief": brief_of(self.shape, sketch, trusses, site),
            "job_sheet": tuple(notes_of(sketch, roof, trusses)),
            "plates": Plates(outline=plan.outline, width=draw.pick((70, 90), "plates")),
            "gables": tuple(wall for wall, at in plan.gables.items() if not at),
            "against": plan.against,
            "dutch_gables": {
                wall: DutchGableSettings(at=trusses.setback + at - self.habits.setback)
                for wall, at in plan.gables.items()
                if at
            },
            "beams": sketch.beams(turn),
            "internal_walls": plan.inside,
            "roof": roof,
            "trusses": trusses,
            "site": site,
            "lesson": self._lesson(layout, site),
        }
        return Level.model_validate(given)

    def with_walls(self, sketch: Sketch) -> Sketch:
        """Put in inside walls, half a bay off every truss, jack and saddle, and clear of the ridges."""
        draw, spacing = self.draw, self.habits.spacing
        if sketch.against == "round":
            return sketch  # a wall across one leg is out of step with the trusses of the other
        bays = (sketch.width // 2 - CLEAR_OF_RIDGE - spacing // 2) // spacing
        along = sketch.width - bays * spacing - spacing // 2
        if sketch.against == "back":  # stations run from the front alone
            along = sketch.width // 2 // spacing * spacing + spacing // 2
        across = sketch.length // 2 // spacing * spacing + spacing // 2
        if any(wing.at + wing.width // 2 == across for wing in sketch.wings):
            across -= spacing
        return replace(
            sketch,
            along=along if draw.difficulty > 1 and draw.maybe(0.6, "wall along") else 0,
            across=across if draw.difficulty > 1 and draw.maybe(0.6, "wall across") else 0,
        )

    def _trusses(self, sketch: Sketch) -> TrussSettings:
        draw = self.draw
        near_face = not sketch.wings and draw.difficulty > 1 and draw.maybe(0.25, "near face")
        thickness = draw.pick((35, 35, 45), "thickness")
        # Either way the girder's middle is in line with the bays, so that no creeper stands hard beside it.
        setback = self.habits.setback - (thickness if near_face else 0)
        return TrussSettings(
            spacing=self.habits.spacing,
            setback=setback,
            thickness=thickness,
            girder_plies=3 if len(sketch.wings) > 1 and draw.maybe(0.3, "plies") else 2,
            stations_to="near face" if near_face else "centre line",
        )

    def _alike_both_ways(self, sketch: Sketch) -> bool:
        """Whether bays run full from either end, so that it makes no difference which comes first."""
        return sketch.length % self.habits.spacing == 0

    def _lesson(self, layout: Layout | None, site: SiteSettings) -> Lesson:
        if layout is None:
            return Lesson(stages=self._stages())
        minutes = max(5, round(len(layout.members) * MINUTES_A_TRUSS))
        return Lesson(stages=self._stages(), teaches=tuple(_teaches(layout, site)), minutes=minutes)

    def _stages(self) -> tuple[Stage, ...]:
        return FIRST_STAGES if self.draw.difficulty == 1 and self.draw.maybe(0.4, "stages") else STAGES


def _teaches(layout: Layout, site: SiteSettings) -> Iterator[str]:
    """The rules that this house is about."""
    yield from ("off-station", "row-with-nothing-solid", "stood-before-last-tied")
    if layout.counts.get("truncated_girder"):
        yield from ("setback-not-the-levels", "hip-before-truncated-girder", "out-of-order")
    if any(member.is_dutch for member in layout.members):
        yield from ("dutch-girder-off-station", "waling-plate-missing", "verge-ladder-missing")
    if any(member.kind == "girder" and not member.is_dutch for member in layout.members):
        yield from ("girder-off-plate-line", "carried-before-carrier", "hanger-missing")
    if layout.counts.get("saddle"):
        yield "saddle-before-support"
    if layout.at_wall:
        yield "wall-tie-missing"
    if layout.house.plan.beams:
        yield "braced-to-beam"
    faults = {truss.fault for truss in site.delivery}
    if faults & {"broken web", "loose nailplate"}:
        yield "damaged-truss-stood"
    if "unwanted tail" in faults:
        yield "tail-where-none-belongs"
    if "swapped tag" in faults:
        yield "wrong-truss-for-place"
    yield from dict.fromkeys(FOUND_BY[danger.what] for danger in site.dangers)
    if site.lifting:
        yield from ("lift-not-planned", "too-heavy-by-hand")
