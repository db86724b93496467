"""How far an attempt may be relied on: one of three labels, and whether a sitting was of the pack it names."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal, get_args

from trainer.quiz.bank import Question
from trainer.read import Faulty
from trainer.records.asking import OtherQuestions, judged_wrongly, questions_for
from trainer.records.attempt import Attempt
from trainer.records.gradebook import Rank, allowed_minutes, houses_differ
from trainer.records.pack import MINUTE, AssessmentPack, Ticket, read_ticket
from trainer.records.proof import PROVED, Proved
from trainer.records.remarks import not_by_hand, went_on_elsewhere
from trainer.records.sitting import limit_of
from trainer.records.verify import Keys, Said, closed_elsewhere, covers, cut_off
from trainer.words import _, ngettext

Trust = Literal["self-study", "supervised", "counter-signed"]
BY_TRUST = get_args(Trust)
"""The labels, the least first."""
_GRACE = 60_000
"""Between the last action in time and the close, ms."""


def trust_of(attempt: Proved, trusted: Keys) -> Trust:
    """Return an attempt's label. ``trusted`` are the assessors' public keys; a seat's own key earns nothing.

    Self-study: nobody vouches for it. Supervised: an assessor gave this candidate a ticket for it, every mark is
    proved, and nothing shows that it was sent in from a file or went on elsewhere. Counter-signed: such a ticket began
    it, and an assessor signed the whole of it after the close, having been shown what there is to remark; the reason
    says too where no hand did it, or where it went on elsewhere.
    """
    return trust_and_why(attempt, trusted)[0]


def trust_and_why(attempt: Proved, trusted: Keys) -> tuple[Trust, str]:
    """Return the label and, in one plain sentence, why it is that."""
    if not all(proof.stands for proof in attempt.proofs):
        return "self-study", attempt.doubts[0]
    if why := cut_off(attempt):
        return "self-study", why.rstrip(".")
    why = no_good_ticket(attempt, trusted)
    if who := signed_by(attempt, trusted):
        if why:
            return "self-study", _("signed after the close by {who}, but {why}").format(who=who, why=why)
        signed = _("signed after the close by {who}").format(who=who)
        # An assessor may sign for it all the same; whoever reads the label is to know what was signed.
        return "counter-signed", ". ".join(filter(None, [signed, attempt.unmanned, elsewhere(attempt)]))
    if why := why or next(iter(attempt.doubts), "") or attempt.unmanned or elsewhere(attempt):
        return "self-study", why
    ticket = _ticket_of(attempt)
    return "supervised", _("begun with a ticket of {who}").format(who=trusted[ticket.signed.key] if ticket else "")


def signed_by(attempt: Attempt, trusted: Keys) -> str:
    """Return the name of a trusted assessor who signed the whole of an attempt, or an empty text."""
    signed = (each for each in attempt.seals if each.role == "assessor" and covers(each, attempt))
    return next((trusted[each.key] for each in signed if each.key in trusted), "")


def elsewhere(attempt: Attempt) -> str:
    """Say that a sitting was not begun, gone on with and closed on one and the same seat, or return an empty text."""
    return went_on_elsewhere(attempt) or closed_elsewhere(attempt)


def rank_by(trusted: Keys) -> Rank:
    """Return how attempts rank beside one another; one that was not judged again ranks by its signatures and ticket."""

    def rank(attempt: Attempt) -> int:
        if attempt.fault is not None:
            return 0
        if not isinstance(attempt, Proved):
            n = len(attempt.houses)
            attempt = Proved(attempt.entries, attempt.seals, (PROVED,) * n, unmanned=not_by_hand(attempt))
        return BY_TRUST.index(trust_of(attempt, trusted))

    return rank


def no_good_ticket(attempt: Attempt, trusted: Keys) -> str:
    """Say why an attempt's ticket earns nothing, or return an empty text."""
    if "ticket" not in attempt.opening:
        return _("nobody gave a ticket for it")
    if why := not_as_due(attempt):
        return why
    ticket = _ticket_of(attempt)
    return "" if ticket and ticket.signed.key in trusted else _("its ticket is signed by a key that is not known here")


def not_as_due(attempt: Attempt) -> str:
    """Say that an attempt is no sitting of what its ticket is for, or return an empty text; also without a ticket."""
    if "ticket" not in attempt.opening:
        return ""
    ticket = _ticket_of(attempt)
    if ticket is None or not _fits(ticket, attempt):
        return _("its ticket is for something else, had run out, or was changed")
    if attempt.mode != "assessment" or any(attempt.hints):
        return _("it was practice, or hints were taken in it, and a ticket is for an assessment without")
    sat = [(house.text, house.seed, house.practice_mark) for house in attempt.houses]
    if ticket.is_for(sat, allowed_minutes(attempt)):
        return ""
    return _("its houses, their sites, its time or its practice mark are not those that its ticket is for")


def not_of_pack(attempt: Attempt, pack: AssessmentPack, bank: Sequence[Question]) -> str:
    """Say that other houses were sat, or other questions answered, than ``pack`` has; else return an empty text."""
    said = (next(_pack_said(attempt, pack, {pack.signed.key: ""})), *_paper_said(attempt, pack, bank))
    return next((each.text.rstrip(".") for each in said if each.state == "fails"), "")


def examine_sitting(
    attempt: Attempt, trusted: Keys, pack: AssessmentPack | None = None, bank: Sequence[Question] = ()
) -> tuple[Said, ...]:
    """Say what there is to say of a sitting's ticket, and with the ``pack`` at hand whether it was of that pack.

    With the ``bank`` of questions that the pack was made with, its answers are judged again too.
    """
    if "pack" not in attempt.opening:
        return ()
    of_pack = () if pack is None else (*_pack_said(attempt, pack, trusted), *_paper_said(attempt, pack, bank))
    return (*_ticket_said(attempt, trusted), *of_pack)


def _ticket_said(attempt: Attempt, trusted: Keys) -> Iterator[Said]:
    if "ticket" not in attempt.opening:
        yield Said("unknown", _("It was sat without a ticket. Nobody says that somebody watched."))
        return
    ticket = _ticket_of(attempt)
    if why := not_as_due(attempt):
        yield Said("fails", f"{why[0].upper()}{why[1:]}.")
    elif ticket and ticket.signed.key in trusted:
        yield Said("holds", _("It began with a ticket signed by {who}.").format(who=trusted[ticket.signed.key]))
    else:
        yield Said("unknown", _("It began with a ticket, signed by a key that is not known here."))


def _pack_said(attempt: Attempt, pack: AssessmentPack, trusted: Keys) -> Iterator[Said]:
    built = [(house.level, house.text, house.seed, house.practice_mark) for house in attempt.houses]
    due = [(*house, pack.seed(attempt.code, n), pack.content.practice_mark) for n, house in enumerate(pack.houses)]
    differ = houses_differ(attempt) is bool(pack.content.houses_differ)
    if attempt.opening["pack"] != pack.signed.hash or built != due[: len(built)] or not differ:
        yield Said("fails", _("It is no sitting of the pack given: other houses, other seeds, or another pack."))
        return
    text = ngettext(
        "It is a sitting of the pack '{title}': {n} of {all} house, with the pack's own seeds.",
        "It is a sitting of the pack '{title}': {n} of {all} houses, with the pack's own seeds.",
        len(due),
    )
    sat = text.format(title=pack.title, n=len(built), all=len(due))
    if pack.signed.key in trusted:
        yield Said("holds", sat)
    else:
        yield Said("unknown", _("{said} But the pack is signed by a key that is not known here.").format(said=sat))
    limit = limit_of(pack, attempt)
    taken = _worked_ms(attempt)
    if limit is not None and taken > limit + _GRACE:
        text = _("It took {taken:.0f} min. It might take {limit:.0f} min.")
        yield Said("fails", text.format(taken=taken / 60_000, limit=limit / 60_000))
    said = attempt.opening.get("minutes")
    if said is not None and said * MINUTE != limit:
        yield Said("fails", _("It says of itself that it might take another time than its pack and ticket allow."))


def _worked_ms(attempt: Attempt) -> int:
    """The time until the last act or answer, ms, without stops: who only came late to the close did nothing late."""
    times = (int(entry.body["at"]) for entry in attempt.entries if entry.body["kind"] in ("act", "answer"))
    last = max(times, default=attempt.began)
    return last - attempt.began - sum(max(0, until - since) for since, until in attempt.gaps if until <= last)


def _paper_said(attempt: Attempt, pack: AssessmentPack, bank: Sequence[Question]) -> Iterator[Said]:
    if pack.paper is None:
        if attempt.papers:
            yield Said("fails", _("It answers questions that the pack does not ask."))
        return
    if not attempt.papers:
        yield Said("unknown", _("It never came to the questions."))
        return
    paper = attempt.papers[0]
    try:
        asked = questions_for(pack, attempt.code, bank)
    except OtherQuestions:
        yield Said("unknown", _("Its answers can't be judged again: this trainer has other questions."))
        return
    wrong = judged_wrongly(paper, asked)
    if len(attempt.papers) > 1 or paper.seed != pack.seed(attempt.code, len(pack.houses)) or wrong:
        text = _("Its answers are not what they come to, or to questions that the pack does not ask here: {ids}.")
        yield Said("fails", text.format(ids=", ".join(wrong) or _("another paper")))
        return
    if attempt.silent:
        yield Said("holds", _("Its answers were judged again. How many are right is shown after the close."))
        return
    right = sum(bool(body["right"]) for body in paper.answers)
    text = ngettext(
        "{n} of {all} question was answered, {right} of them right, as judged again.",
        "{n} of {all} questions were answered, {right} of them right, as judged again.",
        len(asked),
    )
    yield Said("holds", text.format(n=len(paper.answers), all=len(asked), right=right))


def _ticket_of(attempt: Attempt) -> Ticket | None:
    given = attempt.opening.get("ticket")
    try:
        return None if given is None else read_ticket(given, "ticket")
    except Faulty:
        return None


def _fits(ticket: Ticket, attempt: Attempt) -> bool:
    return ticket.fits(str(attempt.opening.get("pack")), attempt.code, attempt.began)
