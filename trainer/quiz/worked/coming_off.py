"""Questions of what happens if a brace comes off now: tried on a site as it stands, by the model that judges all."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.quiz.question import Drawing
from trainer.quiz.worked.action_words import action_line
from trainer.quiz.worked.family import QuestionChance, QuestionDraft, family, needs, one_of
from trainer.quiz.worked.subject import Subject
from trainer.quiz.worked.wording import rows_of_tags
from trainer.rehearse.mistakes.planting import RightAttempt
from trainer.rules import PRACTICE
from trainer.site import Event, Refused, Site, act, held
from trainer.site.actions import Brace, BraceKind, Unbrace
from trainer.site.model import Bracing
from trainer.words import _, listed

DAYS = 3
STAYS, ALONE, MORE = "stays", "alone", "more"
ENDINGS = (STAYS, ALONE, MORE)
"""What may come of it: nothing falls, one truss does, or others with it."""
MOST_UP = 14
"""Trusses that stand by then, at most."""


@family(
    topic="bracing",
    difficulty=3,
    serves=("bracing", "safety"),
    rules=("bracing-taken-too-early", "row-with-nothing-solid"),
    why=_("A truss is held by its ends and its top. Follow each tie along the row until something can't move."),
    safety=_("On site nobody tries it out. Where you can't say what holds a truss, leave its brace."),
    source=PRACTICE,
    hint=_("Follow the ties from that truss along the row. Is there anything at their end that can't move?"),
)
def if_it_comes_off(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """What falls if a brace comes off now."""
    job = subject.day(draw.seed % DAYS)
    sites = [site for site in RightAttempt.drawn(job, job.seed).sites if _asks_well(site)]
    by_ending: dict[str, list[tuple[Site, Bracing, Event]]] = {}
    for site in draw.shuffled(sites, "moments")[:MOST_UP]:
        for piece in site.bracing:
            for event in _tried(site, piece):
                by_ending.setdefault(_ending(event), []).append((site, piece, event))
    needs(by_ending)
    ending = draw.pick([each for each in ENDINGS if each in by_ending], "ending")
    site, piece, event = draw.pick(by_ending[ending], "brace")
    tag = piece.tags[0]
    what = (
        _("the brace from {tag} to something solid").format(tag=tag)
        if piece.kind == "solid"
        else _("what ties {tags} together along the tops").format(tags=listed(list(piece.tags), 3))
    )
    text = _("The plan shows what stands, and what holds it. What happens if somebody takes off {what} now?\n{held}")
    said = {
        STAYS: _("Nothing falls: all of them are held still"),
        ALONE: _("One truss falls over, and no other"),
        MORE: _("More than one truss falls over"),
    }
    falls = _("Nothing else that can't move holds {tags}.").format(tags=listed(list(event.fell), 4))
    why = _("Something else that can't move still holds {tag}.").format(tag=tag) if ending == STAYS else falls
    working = (_("Follow the ties along the tops, from truss to truss."), why)
    wrong = [(said[each], why) for each in ENDINGS if each != ending]
    made = one_of(text.format(what=what, held=_held_by(subject, site)), said[ending], wrong, working)
    return QuestionDraft(
        made.text, made.task, made.working, made.slips, (), Drawing(subject.layout, sites=(site,)),
        ("bracing-taken-too-early",) if piece.kind != "solid" or len(site.stood) > 1 else ("row-with-nothing-solid",),
    )  # fmt: skip


def _held_by(subject: Subject, site: Site) -> str:
    """Say what stands and what holds it, for whoever can't see the plan."""
    up = [member for member in subject.layout.members if member.tag in site.stood]
    lines = [_("Up, with their ends fixed: {up}.").format(up=rows_of_tags(up))]
    for piece in site.bracing:
        if piece.kind in ("solid", "batten", "wall tie"):
            brace = Brace(kind=_kind(piece), tags=piece.tags, to="beam" if piece.to else None)
            lines.append(action_line(subject, brace, site) + ".")
    finished = [member for member in up if site.holds.get(member.tag) == "hip end"]
    if finished:
        lines.append(_("In a finished hip end: {tags}.").format(tags=rows_of_tags(finished)))
    for_good = [member for member in up if member.tag in site.restrained]
    if for_good:
        lines.append(_("Braced for good: {tags}.").format(tags=rows_of_tags(for_good)))
    return " ".join(dict.fromkeys(lines))


def _kind(piece: Bracing) -> BraceKind:
    return "solid" if piece.kind == "solid" else "wall tie" if piece.kind == "wall tie" else "batten"


def _asks_well(site: Site) -> bool:
    """Whether it is a quiet moment: a few trusses up, all of them held."""
    return 0 < len(site.stood) <= MOST_UP and site.fall is None and all(held(site, tag) for tag in site.stood)


def _tried(site: Site, piece: Bracing) -> Iterator[Event]:
    if piece.kind in ("solid", "batten") and piece.to is None:
        result = act(site, site.done, Unbrace(kind=_kind(piece), tags=piece.tags, every=piece.every))
        if not isinstance(result, Refused):
            event = result[1]
            if event.fell or not event.let_go:
                yield event


def _ending(event: Event) -> str:
    return STAYS if not event.fell else ALONE if len(event.fell) == 1 else MORE
