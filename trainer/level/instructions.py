"""A house's own instructions: limits, bracing, tie-down and fixings.

All default values are invented for practice. On a job, check the truss plan and the current standard.
"""

from __future__ import annotations

from typing import Annotated, Literal, Self, get_args

from pydantic import Field, model_validator

from trainer.layout.bracing import BracingSpec, RestraintKind, ShortRows
from trainer.level.block import DEGREES, KN, KPA, MM, UNIQUE, UNIQUE_ITEMS, Block
from trainer.words import _

Connector = Literal["framing anchor", "tie-down strap"]
Bracket = Literal["hanger", "heavy girder bracket"]
Fastener = Literal["framing anchor", "tie-down strap", "hanger", "heavy girder bracket"]
WindClass = Literal["N1", "N2", "N3", "N4", "N5", "N6", "C1", "C2", "C3", "C4"]

Advice = Literal[
    "girders first", "truncated girders first", "truncated first", "hip end first", "outermost first"
]  # fmt: skip
ADVICE: tuple[Advice, ...] = get_args(Advice)
"""What should be stood first, by the names that the order of work knows it by."""
OrderAdvice = Annotated[tuple[Advice, ...], UNIQUE, UNIQUE_ITEMS]


class PlumbLimit(Block):
    """How far out of plumb a truss may be: the lesser of its height / ratio and the cap."""

    ratio: Annotated[int, Field(ge=20, le=500)] = 50
    """A truss may lean by its height divided by this."""
    cap: Annotated[int, Field(ge=1, le=200), MM] = 50
    """And never by more than this, mm."""

    def limit(self, height: float) -> float:
        """Return how far a truss ``height`` mm high may lean, mm."""
        return min(height / self.ratio, float(self.cap))


class Bow(Block):
    """How far a truss may be bowed: the lesser of its length / ratio and the cap."""

    ratio: Annotated[int, Field(ge=50, le=1000)] = 200
    """A truss may bow by its length divided by this."""
    cap: Annotated[int, Field(ge=1, le=200), MM] = 50
    """And never by more than this, mm."""

    def limit(self, length: float) -> float:
        """Return how far a truss ``length`` mm long may be bowed, mm."""
        return min(length / self.ratio, float(self.cap))


class Tolerances(Block):
    """What is near enough on this house."""

    station: Annotated[int, Field(ge=1, le=50), MM] = 10
    """How far a truss may stand off its station, mm."""
    plumb: PlumbLimit = PlumbLimit()
    bow: Bow = Bow()
    apex: Annotated[int, Field(ge=6, le=100), MM] = 10
    """How far the top of a truss may be off the line of the others, mm."""
    plates: Annotated[int, Field(ge=1, le=50), MM] = 5
    """How far plates may be out of straight, level, length or square before trusses go on, mm."""


class AngleRange(Block):
    """The angles allowed, degrees."""

    least: Annotated[int, Field(ge=5, le=85), DEGREES] = 30
    most: Annotated[int, Field(ge=5, le=85), DEGREES] = 60

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if self.least > self.most:
            raise ValueError(
                _("has a least angle, {least}, over its most, {most}; swap them").format(
                    least=self.least, most=self.most
                )
            )
        return self


class BracingBlock(Block):
    """Bracing as this house asks for it."""

    steel_brace_angle: AngleRange = AngleRange()
    """Angle in plan between a permanent steel brace and the trusses it crosses."""
    top_chord_ties: Annotated[int, Field(ge=600, le=6000), MM] = 3000
    """Largest gap between rows of battens along the top chords while erecting, mm on the level."""
    bottom_chord_ties: Annotated[int, Field(ge=600, le=6000), MM] = 4000
    """Largest gap between ties along the bottom chords, mm."""
    permanent: Annotated[tuple[RestraintKind, ...], UNIQUE, UNIQUE_ITEMS] = (
        "roof brace", "bottom-chord tie", "web tie", "top-chord tie",
    )  # fmt: skip
    """Which permanent bracing this house asks for; none where the list is empty."""
    web_ties_over: Annotated[int, Field(ge=600, le=6000), MM] = 2000
    """Webs longer than this are tied at their middles, mm."""
    under_saddles: Annotated[int, Field(ge=300, le=6000), MM] = 1200
    """Largest gap between ties along the top chords that saddles cover, mm."""
    short_rows: ShortRows = "one brace"
    """Roof braces on each slope of a row that is too short for a cross within the angles."""

    def spec(self) -> BracingSpec:
        """Return what the trainer works with: the plan of permanent bracing, and how far apart battens may be."""
        angle = self.steel_brace_angle
        return BracingSpec(
            frozenset(self.permanent),
            float(angle.least),
            float(angle.most),
            float(self.bottom_chord_ties),
            float(self.web_ties_over),
            float(self.under_saddles),
            self.top_chord_ties,
            self.short_rows,
        )


class Capacity(Block):
    """What each connector holds against uplift on this house, kN; invented, no maker's figure."""

    framing_anchor: Annotated[float, Field(alias="framing anchor", ge=0.1, le=100), KN] = 3.5
    tie_down_strap: Annotated[float, Field(alias="tie-down strap", ge=0.1, le=100), KN] = 15.0
    hanger: Annotated[float, Field(ge=0.1, le=100), KN] = 4.0
    heavy_girder_bracket: Annotated[float, Field(alias="heavy girder bracket", ge=0.1, le=100), KN] = 16.0

    def of(self, connector: str) -> float:
        """Return what one connector holds, kN; nothing for what is not in the schedule."""
        return float(getattr(self, connector.replace(" ", "_").replace("-", "_"), 0.0))


OPEN = 1.5
"""How many times as hard the wind lifts where it is open underneath, unless the level says; invented."""


class TieDown(Block):
    """The tie-down schedule of this house."""

    wind_class: WindClass = "N2"
    """Wind class of the site."""
    net_pressure: Annotated[float, Field(ge=0, le=10), KPA] = 0.6
    """Uplift less dead load, kPa on the plan area that a bearing carries."""
    open_net_pressure: Annotated[float, Field(ge=0, le=20), KPA] | None = None
    """The same over a verandah beam, where wind also pushes from below; 1.5 times the other where left out."""
    capacity: Capacity = Capacity()

    @model_validator(mode="after")
    def _more_where_open(self) -> Self:
        if self.open_net_pressure is not None and self.open_net_pressure < self.net_pressure:
            raise ValueError(
                _("has open_net_pressure {open:g} under net_pressure {net:g}; open underneath, wind lifts more").format(
                    open=self.open_net_pressure, net=self.net_pressure
                )
            )
        return self

    @property
    def pressure_over_beams(self) -> float:
        """Net uplift over a verandah beam, kPa."""
        return OPEN * self.net_pressure if self.open_net_pressure is None else self.open_net_pressure


class Fixings(Block):
    """Which connector fastens an end: by kind of truss on a plate, and the bracket of one that hangs."""

    standard: Connector = "framing anchor"
    girder: Connector = "tie-down strap"
    truncated_girder: Connector = "tie-down strap"
    truncated: Connector = "framing anchor"
    hip: Connector = "framing anchor"
    jack: Connector = "framing anchor"
    creeper: Connector = "framing anchor"
    gable: Connector = "framing anchor"
    saddle: Connector = "framing anchor"
    """Holds a saddle truss on what it sits on."""
    half: Connector = "framing anchor"
    """Holds a half truss on its plate; its other end hangs in a bracket on the ledger."""
    hung: Bracket = "hanger"
    """Holds the end of a truss on the truss, or the ledger, that carries it."""
    hung_girder: Bracket = "heavy girder bracket"
    """Holds the end of a truncated girder on a girder, or on a ledger."""
    crossing: Connector = "framing anchor"
    """Holds an extension on each truss that it crosses."""
    wall_brackets: Annotated[int, Field(ge=600, le=6000), MM] = 1800
    """Widest gap between slotted brackets along an internal wall, mm."""
