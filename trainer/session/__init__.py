"""The one door to an attempt: act, undo, findings, hints."""

from trainer.session.job import job_of, site_faults
from trainer.session.lift_sheet import lift_sheet
from trainer.session.session import ActionResult, Listener, Session
