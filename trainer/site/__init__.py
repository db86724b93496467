"""What happens on site: actions, the state they fold into, and how an attempt is replayed."""

from trainer.site.actions import (
    Action,
    AnyAction,
    Brace,
    BraceKind,
    Check,
    Cut,
    Fit,
    Fix,
    HandOver,
    Inspect,
    Load,
    Mark,
    Measure,
    Plumb,
    Remove,
    Report,
    Stand,
    String,
    Unbrace,
    Undo,
)
from trainer.site.conditions import LOOKED_AT, MEASURED, Conditions, Flaw, Limits
from trainer.site.delivery import Pack, dockets, packs, shows
from trainer.site.diary import Diary, parse_diary, write_diary
from trainer.site.fold import act, start
from trainer.site.holding import settled
from trainer.site.inspection import SPOILT, measured, sound
from trainer.site.looking import known, looked
from trainer.site.marking import READ
from trainer.site.model import (
    Bracing,
    Event,
    Fastened,
    Fitted,
    How,
    Hung,
    Job,
    Marked,
    Off,
    Reading,
    Refused,
    Site,
    Station,
    Stood,
    Trued,
    run_along,
)
from trainer.site.placing import same_both_ways
from trainer.site.query import (
    bracket_wanted,
    bracketed,
    done,
    end_fixed,
    held,
    mark_wanted,
    missing_before,
    neighbours,
    occupant,
    permanently_held,
    row_of,
    standing_in_row,
    unready,
)
from trainer.site.shape import Shape, Untrue, height, plate_out, shape, strung, untrue
from trainer.site.ways import ways

__all__ = [
    "LOOKED_AT", "MEASURED", "READ", "SPOILT", "Action", "AnyAction", "Brace", "BraceKind", "Bracing", "Check",
    "Conditions", "Cut", "Diary", "Event", "Fastened", "Fit", "Fitted", "Fix", "Flaw", "HandOver", "How", "Hung",
    "Inspect", "Job", "Limits", "Load", "Mark", "Marked", "Measure", "Off", "Pack", "Plumb", "Reading", "Refused",
    "Remove", "Report", "Shape", "Site", "Stand", "Station", "Stood", "String", "Trued", "Unbrace", "Undo", "Untrue",
    "act", "bracket_wanted", "bracketed", "dockets", "done", "end_fixed", "height", "held", "known", "looked",
    "mark_wanted", "measured", "missing_before", "neighbours", "occupant", "packs", "parse_diary", "permanently_held",
    "plate_out", "row_of", "run_along", "same_both_ways", "settled", "shape", "shows", "sound", "standing_in_row",
    "start", "strung", "unready", "untrue", "ways", "write_diary",
]  # fmt: skip
