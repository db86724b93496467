"""What would be found if the roof were handed over as it stands: practice says so before it is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from trainer.rules.judge import judge
from trainer.rules.whole import at_first
from trainer.site import HandOver, Refused, act
from trainer.terms import SEVERITIES

if TYPE_CHECKING:
    from trainer.session import Session


def open_at_hand_over(session: Session) -> tuple[str, ...]:
    """Return in words what a hand-over would find now, the worst first and no more than a few of it."""
    result = act(session.site, len(session.outcomes), HandOver())
    if isinstance(result, Refused):
        return ()
    after, event = result
    found = sorted(judge(session.site, event, after), key=lambda finding: SEVERITIES.index(finding.severity))
    return at_first([finding.what for finding in found])
