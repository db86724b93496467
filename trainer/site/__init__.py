"""What happens on site: actions, the state they fold into, and how an attempt is replayed."""

from trainer.site.actions import (
    Action,
    AnyAction,
    Brace,
    BraceKind,
    Fit,
    Fix,
    HandOver,
    Mark,
    Remove,
    Stand,
    Undo,
)
from trainer.site.diary import Diary, parse_diary, write_diary
from trainer.site.fold import act, start
from trainer.site.model import Bracing, Event, Fastened, Fitted, How, Hung, Job, Off, Refused, Site, Stood, run_along
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
    row_of,
    standing_in_row,
    unready,
)
from trainer.site.ways import ways

__all__ = [
    "Action", "AnyAction", "Brace", "BraceKind", "Bracing", "Diary", "Event", "Fastened", "Fit", "Fitted", "Fix",
    "HandOver", "How", "Hung", "Job", "Mark", "Off", "Refused", "Remove", "Site", "Stand", "Stood", "Undo", "act",
    "bracket_wanted", "bracketed", "done", "end_fixed", "held", "mark_wanted", "missing_before", "neighbours",
    "occupant", "parse_diary", "row_of", "run_along", "same_both_ways", "standing_in_row", "start",
    "unready", "ways", "write_diary",
]  # fmt: skip
