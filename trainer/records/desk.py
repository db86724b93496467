"""The assessor's desk: what is handed out and taken back while a key is open, and how the key is forgotten again."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from trainer.generate import CannotMake, make_family
from trainer.level import parse_level, write_level
from trainer.quiz.bank import Question
from trainer.quiz.unit import TOPICS
from trainer.records.asking import bank_hash, questions_for
from trainer.records.attempt import Attempt
from trainer.records.collect import Taken, take_in
from trainer.records.countersign import assessors_seal, why_not_signed
from trainer.records.errors import RecordsError
from trainer.records.files import write_whole
from trainer.records.journal import Clock
from trainer.records.keys import PrivateKey, new_key, public_hex, read_private, save_key, trust_key
from trainer.records.pack import MINUTE, AssessmentPack, PackPaper, SeedPolicy, Ticket, make_pack
from trainer.records.record_file import write_record
from trainer.records.stick import Candidate, Result, packs_of, tickets_for
from trainer.records.store import Store
from trainer.records.verify import Keys
from trainer.records.waiting import ASSESSORS
from trainer.words import _

IDLE = 10 * MINUTE
"""An open key is forgotten after so long without anything done, ms."""
HOURS = 12
"""For how long a ticket can be used."""


class Shut(RecordsError):  # noqa: N818 - an answer about a key
    """Raised where the key was forgotten meanwhile."""

    text = _("The key is shut again. Open it with the passphrase.")


class Desk:
    """An assessor's key: encrypted in its file, and open here only while the desk is in use."""

    def __init__(self, clock: Clock) -> None:
        self._clock = clock
        self._key: PrivateKey | None = None
        self._used = 0
        self.name = ""

    @property
    def open(self) -> bool:
        """Whether the key is open; after ten idle minutes it is not any more."""
        if self._key is not None and self._clock() - self._used > IDLE:
            self.forget()
        return self._key is not None

    @property
    def key(self) -> PrivateKey:
        """The open key. Raises :class:`Shut` where it was forgotten."""
        if not self.open or self._key is None:
            raise Shut
        return self._key

    def touch(self) -> None:
        """Somebody is at the desk."""
        if self.open:
            self._used = self._clock()

    def forget(self) -> None:
        """Shut the key: on leaving the desk, and before the machine is handed over."""
        self._key = None

    def unlock(self, file: Path, passphrase: str, data: Path) -> None:
        """Open the key in ``file``, and trust its public half on this machine.

        :raises RecordsError: where the passphrase is not its own, or there is no key.
        """
        try:
            pem = file.read_bytes()
        except OSError as error:
            text = _("{path}: can't be read: {why}.")
            raise RecordsError(text.format(path=file, why=error.strerror or error)) from error
        self._opened(read_private(pem, passphrase, str(file)), file, data)

    def make(self, file: Path, passphrase: str, data: Path) -> None:
        """Make a key in ``file``, open it, and trust it on this machine; one that is there is never replaced."""
        key = new_key()
        save_key(key, passphrase, file)
        self._opened(key, file, data)

    def _opened(self, key: PrivateKey, file: Path, data: Path) -> None:
        self._key, self._used, self.name = key, self._clock(), file.stem
        trust_key(public_hex(key), data / ASSESSORS, self.name)


@dataclass(frozen=True)
class Family:
    """A new house for each candidate: of which shape, how hard, from 1 to 10."""

    shape: str
    difficulty: int


@dataclass(frozen=True)
class Wish:
    """What is to be sat. ``levels`` are the texts of level files, ``questions`` how many are asked after them.

    ``family``: a new house for each, after those. Without ``layout_sheet`` nobody has the layout drawing at hand;
    ``withhold`` says nothing at the seat of how it went.
    """

    title: str
    levels: tuple[str, ...]
    questions: int = 0
    minutes: int | None = None
    practice_mark: int | None = None
    layout_sheet: bool = True
    withhold: bool = False
    own_seeds: bool = False
    family: Family | None = None


Handed = tuple[AssessmentPack, tuple[Candidate, ...]]
"""A pack, and those who sit it."""


def packed(
    wish: Wish, key: PrivateKey, seed: int, at: int, bank: Sequence[Question], candidates: Sequence[Candidate]
) -> tuple[Handed, ...]:
    """Sign what is wished for; ``seed`` decides the houses of a family and the sites, ``at`` in ms UTC.

    One pack for all, or where each has a house of their own a pack for each.

    :raises RecordsError: where there is nothing to sit, or there are not so many houses.
    :raises TooFewQuestions: where fewer questions can be asked.
    """
    if wish.family is None:
        return ((_packed(wish, key, seed, at, bank), tuple(candidates)),)
    try:
        houses = make_family(seed, wish.family.difficulty, wish.family.shape, len(candidates))
    except CannotMake as why:
        raise RecordsError(_("The houses can't be made: {why}.").format(why=why)) from why
    own = (replace(wish, levels=(*wish.levels, write_level(house))) for house in houses)
    return tuple((_packed(each, key, seed, at, bank), (who,)) for each, who in zip(own, candidates, strict=True))


def _packed(wish: Wish, key: PrivateKey, seed: int, at: int, bank: Sequence[Question]) -> AssessmentPack:
    if not wish.levels and not wish.questions:
        raise RecordsError(_("Choose a house, or questions: there is nothing to sit yet."))
    texts = wish.levels if wish.layout_sheet else tuple(_without_sheet(text) for text in wish.levels)
    paper = None
    if wish.questions:
        paper = PackPaper(questions=wish.questions, topics=list(TOPICS), bank=bank_hash(bank))
    seeds: SeedPolicy = "by code" if wish.own_seeds else "same"
    pack = make_pack(
        key, wish.title, texts, at, seed, seeds, wish.minutes, wish.practice_mark, paper, withhold=wish.withhold,
        houses_differ=wish.family is not None,
    )  # fmt: skip
    questions_for(pack, "anybody", bank)
    return pack


def _without_sheet(text: str) -> str:
    level = parse_level(text, "level")
    return write_level(level.model_copy(update={"lesson": level.lesson.model_copy(update={"layout_sheet": False})}))


def tickets_of(
    pack: AssessmentPack, key: PrivateKey, candidates: Iterable[Candidate], nonces: Iterable[str], at: int
) -> tuple[Ticket, ...]:
    """Return a ticket for each candidate, to be used within twelve hours of ``at``, ms UTC."""
    return tickets_for(key, pack, candidates, nonces, at, at + HOURS * 60 * MINUTE)


@dataclass(frozen=True)
class Back:
    """What came of taking a class back: whose results were signed, what was taken in, and what is to be said."""

    signed: tuple[str, ...]
    taken: tuple[Taken, ...]
    said: tuple[str, ...]


def take_back(
    store: Store, results: Sequence[Result], written: Mapping[str, Sequence[str]], key: PrivateKey, known: Keys,
    at: int, bank: Callable[[], Sequence[Question]],
) -> Back:  # fmt: skip
    """Counter-sign the results whose codes were written down, in their files too, and take all of them in.

    Only sittings that one of the ``known`` keys handed out are signed; ``bank`` reads the questions that a pack asks.
    """
    packs = packs_of(each.file for each in results)
    asked = bank() if any(pack.paper for pack in packs.values()) else ()
    signed, said, attempts = [], [], []
    for result in results:
        attempt = result.attempt
        if attempt.code in written:
            why = why_not_signed(attempt, written, known, packs, asked)
            seal = None if why else assessors_seal(attempt, key, at)
            if why:
                said.append(_("{code}: {why}. It was not signed.").format(code=attempt.code, why=why))
            if seal is not None:
                attempt = Attempt(attempt.entries, (*attempt.seals, seal))
                write_whole(result.file, write_record(attempt))
                signed.append(attempt.code)
        attempts.append(attempt)
    return Back(tuple(signed), take_in(store, attempts), tuple(said))
