"""An invented assessment pack as an assessor puts it on a seat: the pack, a ticket, the public key."""

from pathlib import Path

from records_made import NOON

from trainer.records.asking import bank_hash
from trainer.records.keys import new_key, public_hex, public_pem
from trainer.records.pack import MINUTE, AssessmentPack, PackPaper, make_pack, make_ticket
from trainer.records.signed import write_signed
from trainer.shipped import find_level

ASSESSOR = new_key()
HOUSES = ("pardalote", "thornbill")
DAY = 24 * 60 * MINUTE


def a_pack(questions: int = 0, **more: int) -> AssessmentPack:
    from trainer.board.quiz_start import bank

    paper = PackPaper(questions=questions, topics=["set-out", "safety"], bank=bank_hash(bank())) if questions else None
    levels = [find_level(name).read_text(encoding="utf-8") for name in HOUSES]
    return make_pack(ASSESSOR, "Invented", levels, NOON - DAY, 5, paper=paper, **more)


def put(folder: Path, pack: AssessmentPack, code: str | None = "wren-07") -> None:
    """What the assessor puts on a seat: the pack, a ticket, the public key."""
    (folder / "packs").mkdir(parents=True, exist_ok=True)
    (folder / "packs" / "pack.json").write_bytes(write_signed(pack.signed))
    if code is not None:
        ticket = make_ticket(ASSESSOR, pack, code, "cd" * 16, NOON - 1, NOON + DAY)
        (folder / "packs" / f"{code}.json").write_bytes(write_signed(ticket.signed))
    (folder / "assessors").mkdir(exist_ok=True)
    (folder / "assessors" / "teacher.pub.pem").write_bytes(public_pem(public_hex(ASSESSOR)))
