"""The drawing table: a house being drawn, what is done to it, undo without end, and what comes of it at once.

A :class:`Drawing` never changes; each act of ``outline_acts``, ``wall_acts`` and ``form_acts`` gives another one, and
:class:`History` keeps them all. What a learner draws wrong is drawn, and :func:`study` says what is wrong with it and
where; only what nobody could draw is refused (:class:`CannotDraw`). ``ring.py`` is where an outline is changed,
``pacing.py`` reads walls as one paces them, ``as_level.py`` goes to a level file's data and back.
"""

from trainer.table.as_level import data_over, drawing_of, level_data
from trainer.table.behind import PutBehind, usual_depth, wall_behind
from trainer.table.drawing import KINDS, CannotDraw, Drawing, Kind, WallKind, new_drawing
from trainer.table.form_acts import FastenTruss, MoveTruss, PutDanger, SetValue
from trainer.table.history import Act, History
from trainer.table.naming import id_of, is_named, suggested_title
from trainer.table.outline_acts import (
    Close,
    Mirror,
    MoveCorner,
    MoveWall,
    Pace,
    PushBay,
    PutCorner,
    SetLength,
    SplitWall,
    Step,
    TakeBack,
    TakeOut,
    Turn,
)
from trainer.table.pacing import NEAREST, SHORTEST, read_pace, whole_mm
from trainer.table.study import DrawnFault, Study, glance, moved_by_hand, roof_of, study
from trainer.table.wall_acts import PutInside, SetBeam, SetDutch, SetKind, TakeInside
