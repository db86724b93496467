"""Acts at the drawing table drawn by seed, as somebody would do them who knows nothing of houses."""

from __future__ import annotations

import random

from trainer.table import (
    KINDS,
    Act,
    Close,
    Drawing,
    FastenTruss,
    Mirror,
    MoveCorner,
    MoveTruss,
    MoveWall,
    Pace,
    PushBay,
    PutBehind,
    PutCorner,
    PutInside,
    SetBeam,
    SetDutch,
    SetKind,
    SetLength,
    SetValue,
    SplitWall,
    Step,
    TakeBack,
    TakeInside,
    TakeOut,
    Turn,
)
from trainer.table.outline_acts import WAYS

DANGERS = [{"what": "missing rail", "wall": "B"}, {"what": "service line", "at": [3000, -2000]}]
VALUES = (
    (("roof", "pitch"), (5, 15, 22.5, 45, 60, 75, "steep")), (("roof", "overhang"), (0, 450, 1500, -3)),
    (("trusses", "setback"), (300, 1800, 2400, 9000)), (("trusses", "spacing"), (300, 600, 1200, None)),
    (("trusses", "stations_to"), ("near face", None)), (("style",), ("wide-bays", "no-such", None)),
    (("roof", "straight_fascia"), (0, 600, 1500, None)), (("lesson", "practice_mark"), (80, 101, None)),
    (("title",), ("Another house", "")),
    (("site", "dangers"), (DANGERS, None)),
)  # fmt: skip


def size(dice: random.Random) -> int:
    """A length as people give them."""
    return dice.choice([dice.randrange(1, 120) * 100, dice.randrange(1, 1200) * 10, dice.randrange(1, 12000)])


def some_act(dice: random.Random, drawing: Drawing) -> Act:
    """Return an act that may or may not be possible on a sheet."""
    wall = dice.choice([*drawing.names, "A", "Z"])
    length = drawing.length(drawing.index(wall)) if wall in drawing.names else 5000
    place = (dice.randrange(-30, 200) * 100, dice.randrange(-30, 200) * 100)
    if not drawing.closed:
        steps = tuple(Step(size(dice), dice.choice(list(WAYS))) for _ in range(dice.randrange(1, 5)))
        return dice.choice(
            [PutCorner(place), Pace(steps), Pace(steps, close=True), Close(), TakeBack(), Mirror(), Turn()]
        )
    way, values = dice.choice(VALUES)
    out = size(dice) * dice.choice([1, -1])
    acts: tuple[Act, ...] = (
        MoveWall(wall, out), MoveWall(wall, out // 10),
        SetLength(wall, abs(out)), MoveCorner(dice.randrange(len(drawing.corners) + 1), place),
        SplitWall(wall, dice.randrange(length + 2)), TakeOut(wall), TakeOut(wall), Mirror(), Turn(),
        PushBay(wall, dice.randrange(length + 1), dice.randrange(length + 9), out),
        SetKind(wall, dice.choice(KINDS)), SetKind(wall, dice.choice(KINDS)),
        SetDutch(wall, size(dice), 300), SetBeam(wall, (0, size(dice)), dice.choice([None, (0, 2000)])),
        PutInside((place, (place[0], place[1] + size(dice)))), TakeInside(0),
        PutBehind(wall, out // 3), SetValue(way, dice.choice(values)),
        FastenTruss(f"J{dice.randrange(1, 5)}", "from", dice.choice([None, "tie-down strap", "hanger"])),
        MoveTruss(f"ST{dice.randrange(1, 5)}", dice.choice([None, float(size(dice))])), PutCorner(place), Close(),
    )  # fmt: skip
    return dice.choice(acts)
