"""A fault of the drawn house, said in the words of the form and the plan: what it is about, what is wrong, the cure."""

from __future__ import annotations

from collections.abc import Mapping

from trainer.board.table import job_panel, lesson_panel, panels
from trainer.board.widgets import Row
from trainer.plan import wall_name
from trainer.table import Drawing, DrawnFault
from trainer.table.form_acts import Way
from trainer.words import _

_NUMBERS = (
    *panels.ROOF, *panels.TRUSSES, *job_panel.NEAR_ENOUGH, *job_panel.BRACING, *job_panel.TIE_DOWN,
    *lesson_panel.NUMBERS, *lesson_panel.CLEAR, *lesson_panel.BY_PLAN,
)  # fmt: skip
FIELDS: Mapping[Way, str] = {
    **{way: said for said, way, *_rest in _NUMBERS},
    ("tolerances", "plumb", "cap"): _("Lean, at most"),
    ("tolerances", "bow", "cap"): _("Bow, at most"),
    ("bracing", "steel_brace_angle", "most"): _("Steel brace: most angle"),
    ("title",): _("What the house is called"),
    ("brief",): _("What the job is"),
    ("job_sheet",): _("The fabricator's own notes"),
    ("style",): _("House style"),
    ("lesson", "ideas"): _("What is new here"),
    ("lesson", "minutes"): _("Minutes that it takes"),
    ("lesson", "place"): _("Place on the path"),
    ("site", "day"): _("Trusses stood in a day"),
    ("tie_down", "open_net_pressure"): _("Net uplift over a beam"),
    ("layout",): _("Fixed by hand"),
    ("plates", "outline"): _("The outline"),
    ("site", "delivery"): _("Wrong in the delivery"),
    ("site", "walls"): _("Wrong with the walls"),
    ("site", "dangers"): _("Danger"),
    ("lesson", "teaches"): _("It teaches these rules"),
}
"""What the forms call the values of a level, by their keys."""
OF_WALLS: Mapping[str, str] = {
    "gables": _("Wall {wall}"),
    "against": _("Wall {wall}"),
    "dutch_gables": _("Dutch gable on wall {wall}"),
    "beams": _("Beam on wall {wall}"),
    "posts": _("Posts on wall {wall}"),
}
GIRDER = _("Dutch gable on wall {wall}: the girder in from the wall")
SMALL_VERGE = _("Dutch gable on wall {wall}: the small verge")
CURES: Mapping[Way, str] = {
    ("plates", "outline"): _("Drag a wall or a corner clear, or undo."),
    ("against",): _("Press the wall, and choose another kind for it."),
    ("dutch_gables",): _("Change its measures or the wall's length, or let the wall be an eave or a gable."),
    ("beams",): _("Set Beam from and to, or let the wall be an eave."),
    ("posts",): _("Write other places for its posts, or none: then they stand by the rules."),
    ("internal_walls",): _("To take it out, choose Internal wall as what the mouse does, and press on it."),
    ("layout",): _("Let it stand by the rule again, on the panel Lesson."),
    ("site", "delivery"): _("Take it off, on the panel Lesson."),
    ("site", "walls"): _("Take it off, on the panel Lesson."),
    ("site", "dangers"): _("Take it off, on the panel Lesson."),
}
"""How to put right at the table what the sentence itself has no cure for."""


def fault_said(drawing: Drawing, fault: DrawnFault) -> str:
    """Return a fault as whole sentences. Those of an outline that is open, or cut, are whole already."""
    if not drawing.closed or (fault.what[:1].isupper() and fault.where[0] != "layout"):
        return fault.what
    subject = _subject(fault)
    own = fault.what.casefold().startswith(f"{subject} ".casefold())
    part = fault.where[-1] in {"at", "verge"}
    said = fault.what[0].upper() + fault.what[1:] if own else f"{subject}{' ' if part else ': '}{fault.what}"
    cure = next((cure for way, cure in CURES.items() if fault.where[: len(way)] == way), "")
    return " ".join(filter(None, (said if said.endswith(".") else f"{said}.", cure)))


def faults_said(drawing: Drawing, faults: tuple[DrawnFault, ...]) -> list[str]:
    """Return them all, each once."""
    return list(dict.fromkeys(fault_said(drawing, fault) for fault in faults))


def fault_rows(drawing: Drawing, faults: tuple[DrawnFault, ...]) -> list[Row]:
    """Return them as the rows of a list, with the numbers that they have on the sheet."""
    return [Row(str(n), f"{n}. {fault_said(drawing, fault)}") for n, fault in enumerate(faults, 1)]


def _subject(fault: DrawnFault) -> str:
    """Return what a fault is about."""
    match fault.where:
        case ("dutch_gables", str(wall), "at" | "verge" as key, *_rest):
            return (GIRDER if key == "at" else SMALL_VERGE).format(wall=wall)
        case (str(key), *_rest) if key in OF_WALLS and fault.wall:
            return OF_WALLS[key].format(wall=fault.wall)
        case ("plates", "outline", int(corner), *_rest):
            return _("Wall {wall}").format(wall=wall_name(corner))
        case ("internal_walls", int(number), *_rest):
            return _("Internal wall {n}").format(n=number + 1)
    known = [way for way in FIELDS if fault.where[: len(way)] == way]
    return FIELDS[max(known, key=len)] if known else ".".join(map(str, fault.where))
