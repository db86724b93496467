"""The panel of the house's own instructions: the brief, what is near enough, bracing, tie-down and fixings."""

from __future__ import annotations

from collections.abc import Sequence
from typing import get_args

from trainer.board.table.form import (
    Numbers,
    choice_entry,
    lines_entry,
    number_entry,
    optional_entry,
    several,
    text_entry,
)
from trainer.board.table.state import Table
from trainer.board.widgets import Flow, Label, Paragraph, Prose, Widget
from trainer.layout.bracing import RestraintKind
from trainer.level.instructions import (
    ADVICE,
    BracingBlock,
    Bracket,
    Connector,
    Fixings,
    TieDown,
    Tolerances,
    WindClass,
)
from trainer.table.form_acts import Way
from trainer.terms import KIND_NAMES, thing
from trainer.words import INVENTED, _

LONGEST_BRIEF = 300
_NEAR, _BRACED, _TIED, _FIXED = Tolerances(), BracingBlock(), TieDown(), Fixings()
NEAR_ENOUGH: Numbers = (
    (_("Truss off its station"), ("tolerances", "station"), _NEAR.station, 1, "mm"),
    (_("Plates out of true"), ("tolerances", "plates"), _NEAR.plates, 1, "mm"),
    (_("Lean: height divided by"), ("tolerances", "plumb", "ratio"), _NEAR.plumb.ratio, 10, ""),
    (_("and never more than"), ("tolerances", "plumb", "cap"), _NEAR.plumb.cap, 5, "mm"),
    (_("Bow: length divided by"), ("tolerances", "bow", "ratio"), _NEAR.bow.ratio, 10, ""),
    (_("and never more than"), ("tolerances", "bow", "cap"), _NEAR.bow.cap, 5, "mm"),
    (_("Apex off the line"), ("tolerances", "apex"), _NEAR.apex, 1, "mm"),
)
BRACING: Numbers = (
    (_("Battens while standing, at most"), ("bracing", "top_chord_ties"), _BRACED.top_chord_ties, 100, "mm"),
    (_("Bottom-chord ties, at most"), ("bracing", "bottom_chord_ties"), _BRACED.bottom_chord_ties, 100, "mm"),
    (_("Webs are tied if longer than"), ("bracing", "web_ties_over"), _BRACED.web_ties_over, 100, "mm"),
    (_("Ties under saddles, at most"), ("bracing", "under_saddles"), _BRACED.under_saddles, 100, "mm"),
    (_("Steel brace: least angle"), ("bracing", "steel_brace_angle", "least"), _BRACED.steel_brace_angle.least, 5, "°"),
    (_("and most"), ("bracing", "steel_brace_angle", "most"), _BRACED.steel_brace_angle.most, 5, "°"),
)
TIE_DOWN: Numbers = (
    (_("Net uplift"), ("tie_down", "net_pressure"), _TIED.net_pressure, 0.1, "kPa"),
    (_("A framing anchor holds"), ("tie_down", "capacity", "framing anchor"), _TIED.capacity.framing_anchor, 0.5, "kN"),
    (_("A tie-down strap holds"), ("tie_down", "capacity", "tie-down strap"), _TIED.capacity.tie_down_strap, 0.5, "kN"),
    (_("A hanger holds"), ("tie_down", "capacity", "hanger"), _TIED.capacity.hanger, 0.5, "kN"),
    (
        _("A heavy girder bracket holds"),
        ("tie_down", "capacity", "heavy girder bracket"),
        _TIED.capacity.heavy_girder_bracket,
        0.5,
        "kN",
    ),
)
SHORT = (("one brace", _("one brace")), ("cross", _("a cross")))
OPEN_UPLIFT = _("Net uplift over a beam; 0: 1.5 times the other")
IN_FILE = _(
    "The file of a saved house can also say which trusses lie in which pack. It is plain text. "
    "The page for teachers, levels/README.md, says what each word in it means."
)


def job_panel(table: Table) -> list[Widget]:
    """Return the form of what this house asks for; what is left alone has a usual value."""
    parts: list[Widget] = [
        Label(INVENTED, "small", "accent", key="table/invented"),
        text_entry(table, _("What the job is, in short sentences"), ("brief",), most=LONGEST_BRIEF),
        lines_entry(table, _("The fabricator's own notes, one a line"), ("job_sheet",), show=3),
    ]
    for said, numbers in ((_("Near enough"), NEAR_ENOUGH), (_("Bracing"), BRACING), (_("Tie-down"), TIE_DOWN)):
        entries = [number_entry(table, *one) for one in numbers]
        parts += [Label(said, "strong", key=f"table/{said}"), Flow([*entries], gap=8, fill=True, key=f"flow/{said}")]
        if numbers is BRACING:
            permanent = get_args(RestraintKind)
            parts += [
                several(table, _("Permanent bracing"), ("bracing", "permanent"), permanent, _BRACED.permanent),
                choice_entry(table, _("A row too short for a cross gets"), ("bracing", "short_rows"), SHORT),
            ]
    wind = tuple((each, each) for each in _first(_TIED.wind_class, get_args(WindClass)))
    fixings: list[Widget] = [_fixing(table, KIND_NAMES[kind], kind, get_args(Connector)) for kind in KIND_NAMES]
    fixings += [
        _fixing(table, _("An end that hangs"), "hung", get_args(Bracket)),
        _fixing(table, _("A girder that hangs"), "hung_girder", get_args(Bracket)),
        _fixing(table, _("An extension where it crosses"), "crossing", get_args(Connector)),
    ]
    return [
        *parts,
        optional_entry(table, OPEN_UPLIFT, ("tie_down", "open_net_pressure"), 0.1, "kPa"),
        choice_entry(table, _("Wind class"), ("tie_down", "wind_class"), wind),
        Label(_("What fastens it"), "strong", key="table/fixings"),
        Flow(fixings, gap=8, fill=True, key="table/fixing row"),
        number_entry(
            table,
            _("Brackets along inside walls, at most"),
            ("fixings", "wall_brackets"),
            _FIXED.wall_brackets,
            100,
            "mm",
        ),
        choice_entry(
            table, _("Gables are framed on this job"), ("gable_framing",), ((True, _("yes")), (False, _("no")))
        ),
        several(table, _("What the fabricator asks to be stood first"), ("order_advice",), ADVICE, ADVICE),
        Prose([Paragraph(IN_FILE, "small", "panel_faint")], key="table/in file"),
    ]


def _fixing(table: Table, said: str, kind: str, fasteners: Sequence[str]) -> Widget:
    way: Way = ("fixings", kind)
    return choice_entry(
        table, said, way, tuple((each, thing(each)) for each in _first(getattr(_FIXED, kind), fasteners))
    )


def _first(usual: str, options: Sequence[str]) -> list[str]:
    """The options, the usual one first, as a choice has them that leaves the usual one unsaid."""
    return [usual, *(each for each in options if each != usual)]
