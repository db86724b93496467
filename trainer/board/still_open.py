"""What would be found if the roof were handed over as it stands: practice says so before it is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from trainer.rules.judge import judge
from trainer.rules.whole import at_first
from trainer.session.hints import puts_right
from trainer.site import HandOver, Refused, Site, act
from trainer.terms import SEVERITIES

if TYPE_CHECKING:
    from trainer.rules.finding import Finding
    from trainer.session import Session


def open_at_hand_over(session: Session) -> tuple[str, ...]:
    """Return in words what a hand-over would find now, the worst first and no more than a few of it."""
    result = act(session.site, len(session.outcomes), HandOver())
    if isinstance(result, Refused):
        return ()
    after, event = result
    found = sorted(judge(session.site, event, after), key=lambda finding: SEVERITIES.index(finding.severity))
    return at_first([finding.what for finding in found])


def put_right(session: Session, finding: Finding) -> bool:
    """Whether what was found was still so once it had been done, and is so no longer."""
    after = next((site for outcome, site in session.moments if outcome.index == finding.event), None)
    return after is not None and _is_so(after, finding) and not _is_so(session.site, finding)


def _is_so(site: Site, finding: Finding) -> bool:
    """Whether something puts it right now, or a hand-over would find it."""
    if puts_right(site, {finding.cause} - {""}):
        return True
    result = act(site, site.done, HandOver())
    if isinstance(result, Refused):
        return False
    after, event = result
    same = (finding.rule, finding.member)
    return any((f.rule, f.member) == same or (f.cause and f.cause == finding.cause) for f in judge(site, event, after))
