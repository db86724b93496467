"""Making it right: what was just found wrong is taken back, and done as it should be."""

from __future__ import annotations

from collections.abc import Collection
from typing import TYPE_CHECKING

from trainer.board.scenes.building import Building
from trainer.rules.judge import judge
from trainer.session.hints import hints, puts_right
from trainer.site import Refused, Site, act
from trainer.site.actions import AnyAction

if TYPE_CHECKING:
    from trainer.session import Session


def better(work: Building) -> AnyAction | None:
    """Return what would have been right in place of the action just done, if that is known.

    It is of the same kind and about the same truss or wall; or else about the truss that the finding names.
    None where hints are not given, where what is shown was found earlier, and after a fall: that is not made right so.
    """
    last = work.session.outcomes[-1] if work.session.outcomes else None
    before = work.site.before
    if last is None or before is None or work.site.fall is not None:
        return None
    if not (work.can_undo and work.entry.level.lesson.hints):
        return None
    if not work.noted or any(finding.event != last.index for finding in work.noted):
        return None
    ready = [hint.action for hint in hints(before)]
    same = [a for a in ready if a.do == last.action.do and _about(a) == _about(last.action)]
    members = {finding.member for finding in work.noted}
    return next(iter([*same, *(a for a in ready if _about(a) & members)]), None)


def make_right(work: Building) -> None:
    """Take back what was just done, and do what is right instead, until doing it again would be right."""
    action = better(work)
    if action is None:
        return
    wrong = work.session.outcomes[-1].action
    noted = {(finding.rule, finding.member) for finding in work.noted}
    work.undo()
    did = [action]
    well = work.do([action])
    while well and action.do != wrong.do:
        members = _found_again(work.site, wrong, noted)
        ready = [hint.action for hint in hints(work.site)]
        following = next((a for a in ready if a.do != wrong.do and a not in did and _about(a) & members), None)
        if following is None:
            break
        did.append(following)
        well = work.do([following])
    _leave_nothing_open(work, {rule for rule, _member in noted})


def _leave_nothing_open(work: Building, rules: Collection[str]) -> None:
    """Put right all that the same rules found before and that is still so: making one right is no half measure."""
    for _time in range(len(work.site.stood) + 1):
        causes = {finding.cause for finding in work.session.findings if finding.rule in rules and finding.cause}
        following = next(iter(puts_right(work.site, causes)), None)
        if following is None or not work.do([following.action]):
            return


def _found_again(site: Site, action: AnyAction, noted: Collection[tuple[str, str]]) -> set[str]:
    """Return the trusses and walls about which the same would be found again if an action were done now."""
    result = act(site, site.done, action)
    if isinstance(result, Refused):
        return set()
    after, event = result
    return {f.member for f in judge(site, event, after) if (f.rule, f.member) in noted}


def taken_back(session: Session) -> int:
    """Return how many stop-work findings were taken back again, and are not counted any more."""
    return sum(finding.severity == "stop-work" for finding in session.taken_back)


def _about(action: AnyAction) -> frozenset[str]:
    """Return the trusses and walls that an action is about."""
    named = (getattr(action, field, None) for field in ("tag", "on", "wall", "start", "finish"))
    return frozenset({*(one for one in named if isinstance(one, str)), *getattr(action, "tags", ())})
