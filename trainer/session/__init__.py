"""The one door to an attempt: act, undo, findings, hints."""

from trainer.session.hints import Hint
from trainer.session.session import Mode, Outcome, Session, job_of

__all__ = ["Hint", "Mode", "Outcome", "Session", "job_of"]
