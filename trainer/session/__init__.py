"""The one door to an attempt: act, undo, findings, hints."""

from trainer.session.hints import Hint
from trainer.session.job import job_of, site_faults
from trainer.session.session import Journal, Outcome, Session

__all__ = ["Hint", "Journal", "Outcome", "Session", "job_of", "site_faults"]
