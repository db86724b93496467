"""The level file, whole."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Annotated, Any, Literal, Self

from pydantic import AfterValidator, BeforeValidator, Field, model_validator

from trainer.layout.model import Change, FixingSpec, House, TrussSpec
from trainer.level.as_found import SiteSettings
from trainer.level.block import DEGREES, MM, SMALL, Block, Corner, Edition, Name, Title
from trainer.level.instructions import ADVICE, BracingBlock, Fastener, Fixings, OrderAdvice, TieDown, Tolerances
from trainer.level.lesson import Lesson
from trainer.plan import DutchGable, PlatePlan, beams_of
from trainer.read.schema_walk import WANTED
from trainer.roof.model import RoofSpec
from trainer.words import _

Outline = Annotated[
    tuple[Corner, ...],
    Field(min_length=4, max_length=500, json_schema_extra={WANTED: "a list of 4 to 500 corners [x, y], anticlockwise"}),
]
Gables = Annotated[tuple[str, ...], Field(max_length=250)]
WallName = Annotated[str, Field(min_length=1, max_length=10)]
Along = Annotated[int, Field(ge=0, le=400_000), MM]


def _by_wall(given: object) -> object:
    """Read a list of walls as beams over the whole of each."""
    if isinstance(given, list) and all(isinstance(name, str) for name in given):
        return dict.fromkeys(given)
    if isinstance(given, dict):  # what comes out of Python and not of JSON is taken strictly
        return {name: tuple(on) if isinstance(on, list) else on for name, on in given.items()}
    return given


def _or_a_list(schema: dict[str, Any]) -> None:
    """Describe the beams: by wall, or the walls alone as a list."""
    schema["type"] = ["object", "array"]
    schema["items"], schema["maxItems"] = {"type": "string", "minLength": 1, "maxLength": 10}, MOST_BEAMS
    schema[WANTED] = "a list of walls, or from where to where on each, such as {A: [600, 4200]}"


MOST_BEAMS = 250
NONE: dict[str, Any] = {}
Beams = Annotated[
    dict[WallName, tuple[Along, Along] | None],
    Field(max_length=MOST_BEAMS, json_schema_extra=_or_a_list),
    BeforeValidator(_by_wall),
]
Posts = Annotated[
    dict[WallName, Annotated[tuple[Along, ...], Field(max_length=100)]],
    Field(max_length=MOST_BEAMS, json_schema_extra={WANTED: "where they stand on each wall, such as {A: [0, 3000]}"}),
]
Note = Annotated[str, Field(min_length=1, max_length=200), Field(json_schema_extra={WANTED: "a sentence or two"})]
InternalWalls = Annotated[
    tuple[Annotated[tuple[Corner, ...], Field(min_length=2, max_length=10)], ...], Field(max_length=100)
]


class DutchGableSettings(Block):
    """A small gable above a hip end."""

    at: Annotated[int, Field(ge=300, le=20_000), MM]
    """Station of its girder truss, from the setback on, mm."""
    verge: Annotated[int, Field(ge=0, le=600), MM] = 300
    """How far the small verge stands out from the girder's centre, mm."""


DutchGables = Annotated[dict[str, DutchGableSettings], Field(max_length=250)]


class Plates(Block):
    """The top plates."""

    outline: Outline
    """Corners along the outside of the plates, anticlockwise, mm; x to the right, y up."""
    width: Annotated[int, Field(ge=45, le=300), MM]
    """Width of the plates, mm."""
    height: Annotated[int, Field(ge=2100, le=4200), MM] = 2400
    """Height of the walls, from the slab to the top of the plates, mm; a look only."""


class RoofSettings(Block):
    """The roof over the plates."""

    pitch: Annotated[float, Field(ge=5, le=60), DEGREES]
    """Pitch of every plane, degrees."""
    overhang: Annotated[int, Field(ge=0, le=1500), MM]
    """Level distance from the outside of the plate to the end of the tail, mm."""
    heel: Annotated[int, Field(ge=0, le=600), MM]
    """Height of the top of the top chord over the plate's outside face, mm."""
    cover: Literal["sheet", "tile"] = "sheet"
    """What covers the roof."""
    straight_fascia: Annotated[int, Field(ge=0, le=1500), MM] = 600
    """Depth of the steps in a wall that the fascia runs straight past, mm; 0: it follows every step."""


StyleName = Annotated[str, Name, Field(json_schema_extra={WANTED: f"{SMALL}, such as wide-bays"})]
Spacing = Annotated[int, Field(ge=300, le=1200), MM]
Setback = Annotated[int, Field(ge=300, le=3600), MM]


class TrussHabits(Block):
    """What a fabricator does the same way unless told otherwise."""

    thickness: Annotated[int, Field(ge=30, le=60), MM] = 35
    """Thickness of one ply, mm."""
    girder_plies: Annotated[int, Field(ge=1, le=4)] = 2
    """Plies of a girder."""
    stations_to: Literal["centre line", "near face"] = "centre line"
    """Whether setback and marks run to a truss's centre line or to its face nearest the end wall."""
    smallest_saddle: Annotated[int, Field(ge=0, le=3600), MM] = 0
    """Base under which a saddle is left out, mm."""
    outrigger_depth: Annotated[int, Field(ge=0, le=300), MM] = 90
    """Depth of the outriggers that pass over a gable truss, mm."""
    gable_stands: Literal["inside plate", "flush"] = "inside plate"
    """Where a gable truss stands: against the inside of the end plate, or flush with its outside."""
    saddle_overrun: Annotated[int, Field(ge=0, le=1200), MM] = 300
    """How far a saddle's end may run past the last truss under it, mm; beyond that it sits on a trimmer."""


class TrussSettings(TrussHabits):
    """The fabricator's habits for this house."""

    spacing: Spacing
    """Largest distance from truss to truss, mm."""
    setback: Setback
    """Station of the truncated girders, mm."""


class Changed(Block):
    """One truss that the fabricator's drawing has otherwise than the layout rules here."""

    truss: Annotated[str, Field(min_length=1, max_length=10)]
    """Its tag, as the layout has it without this block."""
    station: Annotated[float, Field(ge=0, le=200_000), MM] | None = None
    """Where it stands by the drawing, to its centre line, mm."""
    start: Annotated[Fastener | None, Field(alias="from")] = None
    """What fastens its `from` end."""
    finish: Annotated[Fastener | None, Field(alias="to")] = None
    """What fastens its `to` end."""

    @model_validator(mode="after")
    def _something(self) -> Self:
        if self.station is None and self.start is None and self.finish is None:
            raise ValueError(
                _("changes nothing about {truss}; give station:, from: or to:, or leave it out").format(
                    truss=self.truss
                )
            )
        return self


def _once(changes: tuple[Changed, ...]) -> tuple[Changed, ...]:
    tags = [change.truss for change in changes]
    for i, tag in enumerate(tags):
        if tag in tags[:i]:
            raise ValueError(_("changes {tag} twice; put all of it in one entry").format(tag=tag))
    return changes


class Level(Block):
    """One house and what is done on it, as a level file gives it."""

    schema_: Edition
    """Edition of the level file; always 1."""
    id: Annotated[str, Name, Field(json_schema_extra={WANTED: f"{SMALL}, such as wren"})]
    """Short name; a shipped level's file is named after it."""
    style: StyleName | None = None
    """The house style whose habits hold wherever this file gives none of its own."""
    title: Title
    """Title for the learner."""
    brief: Annotated[str, Field(min_length=1, max_length=1000)]
    """What the job is, in plain short sentences."""
    job_sheet: Annotated[tuple[Note, ...], Field(max_length=20)] = ()
    """The fabricator's own notes on this house, one a line, for the job sheet."""
    plates: Plates
    gables: Gables = ()
    """Walls that are gables; every other wall is an eave. Walls are A, B, … in the order of the outline."""
    against: Gables = ()
    """Walls that are the face of a higher wall frame, which goes on up: no plate and no eave there."""
    dutch_gables: DutchGables = NONE
    """Walls whose hip ends have a small gable above them, each with where its girder truss stands."""
    beams: Beams = NONE
    """Verandah beams on posts, which trusses bear on as on plates: walls that are one, or part of one."""
    posts: Posts = NONE
    """Where the posts of a beam stand by the drawing, mm from its wall's first corner, where not as worked out."""
    internal_walls: InternalWalls = ()
    """Internal walls, each from corner to corner, mm; they never carry a truss."""
    roof: RoofSettings
    trusses: TrussSettings
    tolerances: Tolerances = Tolerances()
    bracing: BracingBlock = BracingBlock()
    tie_down: TieDown = TieDown()
    fixings: Fixings = Fixings()
    layout: Annotated[tuple[Changed, ...], Field(max_length=200), AfterValidator(_once)] = ()
    """Trusses that the fabricator's drawing has otherwise, by hand."""
    order_advice: OrderAdvice = ADVICE
    """What this fabricator asks to be stood first, within a wing; what is left out is free."""
    gable_framing: bool = True
    """Whether gables are framed on this job: outriggers, verge rafters and gable studs."""
    site: SiteSettings = SiteSettings()
    lesson: Lesson = Lesson()

    def _dutch_gables(self) -> Iterator[DutchGable]:
        """Each to its girder's centre line, in the order of the walls."""
        habits = self.trusses
        offset = habits.girder_plies * habits.thickness / 2 if habits.stations_to == "near face" else 0.0
        for wall, gable in sorted(self.dutch_gables.items(), key=lambda item: (len(item[0]), item[0])):
            yield DutchGable(wall, gable.at + offset, float(gable.verge))

    def house(self) -> House:
        """Return what the layout is worked out from."""
        plan = PlatePlan(self.plates.outline, self.plates.width, frozenset(self.gables), self.internal_walls)
        plan = replace(plan, against=frozenset(self.against), height=float(self.plates.height))
        return House(
            replace(plan, dutch_gables=tuple(self._dutch_gables()), beams=beams_of(plan, self.beams, self.posts)),
            RoofSpec(self.roof.pitch, self.roof.overhang, self.roof.heel, self.roof.straight_fascia),
            TrussSpec(**self.trusses.model_dump()),
            FixingSpec(**self.fixings.model_dump()),
            tuple(Change(c.truss, c.station, (c.start, c.finish)) for c in self.layout),
        )
