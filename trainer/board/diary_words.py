"""Actions and events in short sentences, as the diary and the strip have them."""

from __future__ import annotations

from collections.abc import Sequence

from trainer.board.tools.hand import Hand
from trainer.board.tools.registry import TOOLS, Toolbox
from trainer.session import ActionResult, Session
from trainer.session.hints import Hint
from trainer.session.why_now import why_now
from trainer.site import needed_no_more
from trainer.site.actions import AnyAction, Mark, Plumb, Restrain, Unbrace
from trainer.site.marking import ON_IT
from trainer.site.model import Event, Site
from trainer.terms import VERBS, WHAT_FOR, done_line, to_do_line
from trainer.words import _, ngettext


def done(action: AnyAction, site: Site) -> tuple[str, str]:
    """Say an action as two short lines of the diary: what, and where or with what."""
    tool = TOOLS.get(action.do)
    return done_line(action.model_dump(by_alias=True, exclude_none=True)), tool.detail(action, site) if tool else ""


def to_do(action: AnyAction, tools: Toolbox) -> str:
    """Say an action as something that could be done next, measures as the tape in the hand shows them."""
    detail = tools[action.do].detail_to_do(action) if action.do in TOOLS else ""
    return ", ".join(filter(None, (to_do_line(action.model_dump(by_alias=True, exclude_none=True)), detail)))


def to_do_in_short(action: AnyAction) -> str:
    """Say what could be done next and to which truss or wall, but not where on it or with what."""
    given = action.model_dump(by_alias=True, exclude_none=True)
    return to_do_line({key: value for key, value in given.items() if key != "at" or not isinstance(value, float | int)})


def reading(event: Event) -> str:
    """Say what came of an event that the learner could not see, such as a reading; nothing for most."""
    tool = TOOLS.get(event.action.do)
    return tool.reading(event) if tool else ""


def came_of(outcomes: Sequence[ActionResult], tools: Toolbox) -> str:
    """Say what a hand did last, how much in one go, and why it went no further; measures as the tape shows them."""
    many = sum(outcome.event is not None for outcome in outcomes)
    parts = [ngettext("{n} done in one go.", "{n} done in one go.", many).format(n=many)] if len(outcomes) > 1 else []
    last = outcomes[-1]
    if last.event is None:
        why = last.refused.why if last.refused else ""
        return " ".join([*parts, _("That can't be done. {why}").format(why=why)])
    what, where = done(last.action, tools.hand.site)
    tool = tools[last.action.do] if last.action.do in TOOLS else None
    said = ", ".join(filter(None, (what, tool.detail_now(last.action) if tool else where)))
    if read := tool.reading_now(last.event) if tool else "":
        said = f"{said}. {read}"
    if n := len(last.event.fell):
        said += ". " + ngettext("{n} truss fell.", "{n} trusses fell.", n).format(n=n)
    if follows := _what_follows(last, tools.hand.session):
        said = f"{said.rstrip('.')}. {follows}"
    return " ".join([*parts, said, *_stopped_at(outcomes, tools.hand)])


def _what_follows(last: ActionResult, session: Session) -> str:
    """After the last straightening, bracing for good or taking off that can be done now, say what comes next."""
    following = () if last.findings or not isinstance(last.action, Plumb | Restrain | Unbrace) else session.hint()
    if following and isinstance(last.action, Unbrace) and (n := len(needed_no_more(session.site))):
        return ngettext("{n} more brace can come out.", "{n} more braces can come out.", n).format(n=n)
    if not following or any(hint.action.do == last.action.do for hint in following):
        return ""
    step, tool = following[0].step, VERBS[following[0].action.do].name
    text = _("That is all of it for now. Next: {tool}. {what_for}")
    return text.format(tool=tool, what_for=WHAT_FOR[step.verb])


def _stopped_at(outcomes: Sequence[ActionResult], hand: Hand) -> list[str]:
    """Say why a tape that was run on went no further, where a mark was in its way."""
    run = [outcome.action for outcome in outcomes if isinstance(outcome.action, Mark)]
    if len(run) < 2:
        return []
    last, step = run[-1], run[-1].at - run[-2].at
    way = 1 if step > 0 else -1
    where = str(last.wall or last.on)
    ahead = [mark.at for mark in hand.site.set_out.get(where, ()) if (mark.at - last.at) * way > 0]
    at = min(ahead, key=lambda each: abs(each - last.at), default=None)
    if at is None or abs(at - last.at) > abs(step) + ON_IT:
        return []
    return [_("The tape stopped there: a mark is {there} already.").format(there=hand.read_off(where, at))]


def of_hint(hint: Hint, depth: int, tools: Toolbox) -> str:
    """Return what a hint says at a depth before the deepest, from 1, and what the next press of its key gives."""
    said = (
        why_now(tools.hand.site, hint.step),
        _("Next: {what}.").format(what=to_do_in_short(hint.action)),
        _("You could do this: {what}.").format(what=to_do(hint.action, tools)),
    )
    deeper = (_("Press H again: which?"), _("Press H again: where?"), _("Press H again to get it ready."))
    return f"{said[depth - 1]} {deeper[depth - 1]}"
