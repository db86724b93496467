"""Where the face of a higher wall can be: what of a lower roof's outline may be named in ``against``.

Such a wall stands between two outside corners, or goes round an inside one; it is no gable, and leaves the roof beside
it an eave to rise from.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from trainer.plan.corners import Xy, outside_corner, xy
from trainer.plan.model import wall_name
from trainer.plan.roof_parts import goes_round
from trainer.words import _, listed


def against_faults(against: Sequence[str], gables: Sequence[str], corners: Sequence[Xy]) -> Iterator[tuple[int, str]]:
    """Yield (place in the list, what is wrong and what to do); all names are those of walls."""
    names = [wall_name(i) for i in range(len(corners))]
    if against and all(name in against or name in gables for name in names):
        yield 0, _("leaves the roof no eave to rise from; let one wall at least be neither a gable nor against a wall")
        return
    for i, wall in enumerate(against):
        if wall in gables:
            yield i, _("wall {wall} is a gable too; take it out of one of the two lists").format(wall=wall)
            continue
        first = names.index(wall)
        second = (first + 1) % len(corners)
        inside = [corner for corner in (first, second) if not outside_corner(corners, corner)]
        if inside := [corner for corner in inside if not goes_round(corners, gables, against, corner)]:
            yield (
                i,
                _(
                    "wall {wall} ends at an inside corner, {at}. A lower roof goes round such a corner where both "
                    "walls there are in against, and it is as long as it is deep on both sides of the corner, or ends "
                    "in a gable, before one straight wall. Draw each part of this one as a house of its own, each "
                    "against its own wall"
                ).format(wall=wall, at=listed([xy(corners[corner]) for corner in inside])),
            )
        after = names[(second + 1) % len(corners)]
        if names[second] in gables and after in against:
            yield (
                i,
                _(
                    "gable {gable} has a higher wall on both sides, so its roof has no eave; "
                    "leave it out of gables, or take wall {wall} or wall {after} out of against"
                ).format(gable=names[second], wall=wall, after=after),
            )


def beams_against(against: Sequence[str], beams: Collection[str]) -> Iterator[tuple[int, str]]:
    """Yield the same for higher walls that are named as verandah beams too."""
    for i, wall in enumerate(against):
        if wall in beams:
            text = _("wall {wall} is in beams: too; a higher wall has no beam, so take it out of one")
            yield i, text.format(wall=wall)
