"""``trainer roof``: the faces, lines and areas of a level's roof."""

from __future__ import annotations

import json
import math
from typing import TYPE_CHECKING

from trainer.cli.data import DataFolder
from trainer.cli.given import AsJson, LevelName, show
from trainer.cli.open_level import open_level
from trainer.cli.table import table
from trainer.words import _

if TYPE_CHECKING:
    from trainer.roof.model import Crease, Face, Roof


def roof(level: LevelName, as_json: AsJson = False, data: DataFolder = None) -> None:
    """Print a level's roof.

    Faces with their areas; ridge, hip and valley lines with their lengths. It is worked out for every
    legal plan, also where the trusses can't be laid out.
    """
    from trainer.layout.as_json import roof_json
    from trainer.roof import solve

    given = open_level(level, data)
    house = given.house()
    solved = solve(house.plan, house.roof)
    if as_json:
        show(json.dumps({"level": given.id, "roof": roof_json(solved)}))
    else:
        show(_for_people(given.title, house.roof.pitch, solved))


def _for_people(title: str, pitch: float, solved: Roof) -> str:
    faces = table(
        (_("face from wall"), _("plan m2"), _("true m2")),
        [(", ".join(face.walls), *(f"{area:.2f}" for area in _areas(face, pitch))) for face in solved.faces],
        "lrr",
    )
    lines = table(
        (_("line"), _("from"), _("to"), _("plan mm"), _("true mm")),
        [
            (name, _place(crease[0]), _place(crease[1]), *(f"{length:.0f}" for length in _lengths(crease)))
            for name, creases in ((_("ridge"), solved.ridges), (_("hip"), solved.hips), (_("valley"), solved.valleys))
            for crease in creases
        ],
        "lllrr",
    )
    total = _("Plan area {plan:.2f} m2, roof area {roof:.2f} m2, eaves included.").format(
        plan=solved.plan_area_m2, roof=solved.area_m2
    )
    note = _("Ridges, hips and valleys are measured inside the plates; heights are above the plate.")
    head = _("{title}: roof at {pitch:g} degrees").format(title=title, pitch=pitch)
    return f"{head}\n\n{faces}\n\n{lines}\n\n{total}\n{note}"


def _areas(face: Face, pitch: float) -> tuple[float, float]:
    """Return a face's plan and true area in m2; all faces have the pitch."""
    corners = face.polygon
    twice = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, corners[1:] + corners[:1], strict=True))
    plan = abs(twice) / 2e6
    return plan, plan / math.cos(math.radians(pitch))


def _lengths(crease: Crease) -> tuple[float, float]:
    """Return a line's length in plan and along the slope, mm."""
    (ax, ay, az), (bx, by, bz) = crease
    plan = math.hypot(bx - ax, by - ay)
    return plan, math.hypot(plan, bz - az)


def _place(corner: tuple[float, float, float]) -> str:
    return _("({x:g}, {y:g}) up {z:.0f}").format(x=corner[0], y=corner[1], z=corner[2])
