"""``trainer pack`` and ``trainer ticket``: what an assessor hands out."""

from __future__ import annotations

import secrets
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trainer.cli.data import CodeName, KeyFile, PassphraseFile, given_pack, private_key, records_explained, right_code
from trainer.cli.given import file_bytes, given_layout, given_level, say, wrong_call
from trainer.cli.options import argument, option, out_option, seed_option
from trainer.cli.questions import Topics, the_bank, the_topics
from trainer.records.clock import now
from trainer.words import _, ngettext

if TYPE_CHECKING:
    from trainer.records.keys import PrivateKey
    from trainer.records.pack import AssessmentPack, PackPaper, SeedPolicy

Levels = Annotated[list[str] | None, argument("[LEVEL]...", "The houses, in the order they are sat.")]
Questions = Annotated[
    int, typer.Option("--questions", min=0, max=200, help="Ask so many questions after the houses, about them too.")
]
Out = Annotated[Path, out_option("FILE", "Write it to this file.")]
Title = Annotated[str, option("--title", "TEXT", "What the assessment is called.")]
Minutes = Annotated[int | None, typer.Option("--minutes", min=1, max=1440, help="Time for all of it.")]
ToMeet = Annotated[int | None, typer.Option("--practice-mark", min=0, max=100, help="Instead of the levels' own.")]
Seed = Annotated[int | None, seed_option("Decides the sites; drawn without it.")]
OwnSeeds = Annotated[bool, typer.Option("--own-seeds", help="Each candidate gets a site of their own.")]
PackFile = Annotated[Path, argument("PACK", "An assessment pack.")]
Extra = Annotated[int, typer.Option("--extra-minutes", min=0, max=1440, help="On top of the pack's time.")]
Breaks = Annotated[int, typer.Option("--break-minutes", min=0, max=1440, help="Breaks that are not counted.")]
Hours = Annotated[int, typer.Option("--hours", min=1, max=24 * 366, help="For how long the ticket can be used.")]
HOUR = 3_600_000


def pack(
    output: Out,
    key: KeyFile,
    levels: Levels = None,
    questions: Questions = 0,
    topics: Topics = None,
    title: Title = "Assessment",
    minutes: Minutes = None,
    practice_mark: ToMeet = None,
    seed: Seed = None,
    own_seeds: OwnSeeds = False,
    passphrase_file: PassphraseFile = None,
) -> None:
    """Make an assessment pack and sign it.

    It holds houses, questions or both. It carries the level files whole; questions are drawn from the bank that every
    seat has. A sitting of it gives no hints and says nothing until it is closed.
    """
    from trainer.records.files import write_whole
    from trainer.records.signed import write_signed

    asked = Asked(levels or [], questions, topics, title, minutes, practice_mark, seed, own_seeds)
    texts = asked.texts()
    with records_explained():
        made = asked.made(private_key(key, passphrase_file), texts)
        write_whole(output, write_signed(made.signed))
    say(_("Wrote {output}: {parts}.").format(output=output, parts=asked.in_words()))


@dataclass(frozen=True)
class Asked:
    """What is to be sat, as a command was asked for it."""

    levels: Sequence[str]
    questions: int
    topics: list[str] | None
    title: str
    minutes: int | None
    practice_mark: int | None
    seed: int | None
    own_seeds: bool
    family: bool = False

    def texts(self) -> list[str]:
        """Return the levels' files whole; stop where there is nothing to sit."""
        if not self.levels and not self.questions and not self.family:
            wrong_call(_("A pack has houses or questions. Name levels, or give --questions."))
        return [_whole_text(level) for level in self.levels]

    def made(self, key: PrivateKey, texts: Sequence[str]) -> AssessmentPack:
        """Return the pack, signed."""
        from trainer.records.pack import make_pack

        paper = _blueprint(self.questions, self.topics) if self.questions else None
        drawn = secrets.randbelow(2**48) if self.seed is None else self.seed
        policy: SeedPolicy = "by code" if self.own_seeds else "same"
        made = make_pack(
            key, self.title, texts, now(), drawn, policy, self.minutes, self.practice_mark, paper,
            houses_differ=self.family,
        )  # fmt: skip
        _makeable(made)
        return made

    def in_words(self) -> str:
        """Return what is sat, in a few words."""
        own = [_("a new house for each")] if self.family else []
        return "; ".join((*own, *_parts(self.levels, self.questions, self.minutes)))


def _parts(levels: Sequence[str], questions: int, minutes: int | None) -> list[str]:
    parts = [_("houses {levels}").format(levels=", ".join(levels))] if levels else []
    parts += [ngettext("{n} question", "{n} questions", questions).format(n=questions)] if questions else []
    timed = ngettext("{n} minute", "{n} minutes", minutes or 0).format(n=minutes)
    return [*parts, timed if minutes else _("no limit of time")]


def _blueprint(questions: int, topics: list[str] | None) -> PackPaper:
    from trainer.records.asking import bank_hash
    from trainer.records.pack import PackPaper

    return PackPaper(questions=questions, topics=list(the_topics(topics)), bank=bank_hash(the_bank()))


def _makeable(made: AssessmentPack) -> None:
    """Stop where there are not as many questions as are to be asked."""
    from trainer.quiz.paper import TooFewQuestions
    from trainer.records.asking import questions_for

    try:
        questions_for(made, "anybody", the_bank() if made.paper else ())
    except TooFewQuestions as few:
        wrong_call(str(few))


def _whole_text(name: str) -> str:
    """The text of a level that can be laid out; its house style's habits written in where it names one."""
    from trainer.level import whole_text
    from trainer.shipped import find_level

    level = given_level(name)
    given_layout(level)
    return whole_text(level, file_bytes(find_level(name)).decode("utf-8"))


def ticket(
    pack: PackFile,
    code: CodeName,
    key: KeyFile,
    output: Out,
    extra_minutes: Extra = 0,
    break_minutes: Breaks = 0,
    hours: Hours = 12,
    passphrase_file: PassphraseFile = None,
) -> None:
    """Let one candidate sit a pack, once.

    Give it out where you watch the sitting: the record then says 'supervised'.
    """
    from trainer.records.files import write_whole
    from trainer.records.pack import make_ticket
    from trainer.records.signed import write_signed

    right_code(code)
    with records_explained():
        sat = given_pack(pack)
        signer = private_key(key, passphrase_file)
        at = now()
        made = make_ticket(
            signer, sat, code, secrets.token_hex(16), at, at + hours * HOUR, extra_minutes, break_minutes
        )
        write_whole(output, write_signed(made.signed))
    text = ngettext(
        "Wrote {output}: for {code}, to be used within {n} hour.",
        "Wrote {output}: for {code}, to be used within {n} hours.",
        hours,
    )
    say(text.format(output=output, code=code, n=hours))
