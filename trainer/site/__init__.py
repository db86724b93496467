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
from trainer.site.fold import act, start
from trainer.site.model import Bracing, Event, Fastened, Fitted, How, Job, Off, Refused, Site, Stood

__all__ = [
    "Action", "AnyAction", "Brace", "BraceKind", "Bracing", "Event", "Fastened", "Fit", "Fitted", "Fix",
    "HandOver", "How", "Job", "Mark", "Off", "Refused", "Remove", "Site", "Stand", "Stood", "Undo", "act", "start",
]  # fmt: skip
