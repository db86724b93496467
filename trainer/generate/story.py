"""What a learner reads about a new house: its title, its brief and its job sheet."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.generate.shapes import HouseShape
from trainer.generate.sketch import Sketch
from trainer.level.as_found import SiteSettings
from trainer.level.model import RoofSettings, TrussSettings
from trainer.words import _, ngettext


def title_of(bird: str, difficulty: int) -> str:
    """Return the title of a house named after ``bird``."""
    return _("{bird}, a new house, {difficulty} of 10").format(bird=bird.capitalize(), difficulty=difficulty)


def brief_of(shape: HouseShape, sketch: Sketch, trusses: TrussSettings, site: SiteSettings) -> str:
    """Return the brief: the shape, its size, the fabricator's measures, and what to look out for."""
    size = _("It is {length} metres long and {width} wide.")
    if sketch.wings or sketch.steps:
        size = _("Its body is {length} metres long and {width} wide.")
    said = [
        shape.brief,
        size.format(length=_metres(sketch.length), width=_metres(sketch.width)),
        _("The trusses stand {spacing} apart.").format(spacing=trusses.spacing),
    ]
    if not all(sketch.ends) or sketch.steps:
        said.append(_("The setback is {setback}.").format(setback=trusses.setback))
    if site.walls or site.delivery or site.dangers:
        said.append(_("Not all is well on this site. Look before you lift."))
    if site.lifting:
        said.append(_("Plan how each kind of truss is lifted."))
    if site.wind == "strong":
        said.append(_("Wind is on its way. Leave no row unsafe."))
    return " ".join(said)


def notes_of(sketch: Sketch, roof: RoofSettings, trusses: TrussSettings) -> Iterator[str]:
    """Yield the fabricator's notes for the job sheet."""
    if trusses.stations_to == "near face":
        yield _("Marks run to the near face of each truss. The truss stands beyond its mark.")
    if sketch.against:
        yield _("Tie each top that meets the higher wall to it before you let go.")
        yield _("Flashing at the higher wall is by others.")
    if roof.overhang and (any(sketch.ends) or any(wing.gable for wing in sketch.wings)):
        yield _("The gable trusses are lower, so that outriggers pass over them.")
    if sketch.against == "round":
        yield _("Stand the half girder, and fix it, before what hangs on it.")
    if all(sketch.ends) and sketch.steps:
        yield _("The verge ends at the inside corner. Over the lower roof the gable face is flush.")
    if any(sketch.dutch):
        yield _("Fix the waling plate before a hip or jack lands on the girder.")
    if trusses.girder_plies > 2 and sketch.wings:
        plies = trusses.girder_plies
        yield ngettext("The girders have {n} ply.", "The girders have {n} plies.", plies).format(n=plies)


def _metres(mm: int) -> str:
    return f"{mm / 1000:g}"
