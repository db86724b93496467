"""The one precedence graph, must and should, that rules, rehearsal, hints and quiz all use."""

from trainer.order.as_good import as_good
from trainer.order.graph import HAND_OVER, finishing, hold_steps, marks_end, needs_bracket, order_of
from trainer.order.load_path import runs_over_truncated, spanned, trimmers
from trainer.order.model import TIED, Edge, Late, LevelAsks, Order, Step, is_tied, spot
