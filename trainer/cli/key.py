"""``trainer key``: makes an assessor's key."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from trainer.cli.data import DataFolder, PassphraseFile, folder_of, passphrase, records_explained
from trainer.cli.given import say, show, wrong_call
from trainer.cli.options import argument
from trainer.words import _

NewKey = Annotated[Path, argument("FILE", "Where the private key goes; its name ends in .pem.")]


def key(file: NewKey, passphrase_file: PassphraseFile = None, data: DataFolder = None) -> None:
    """Make an assessor's key, under a passphrase.

    The private key stays with the assessor and never goes to a seat. This machine trusts its public half from now on,
    which lies beside it (.pub.pem): other seats get it with the packs. Nobody can recover a lost passphrase.
    """
    if file.suffix != ".pem" or file.name.endswith(".pub.pem"):
        wrong_call(_("{file}: give the key a name that ends in .pem, such as assessor.pem.").format(file=file))
    from trainer.records.keys import fingerprint, new_key, public_hex, save_key, trust_key
    from trainer.records.waiting import ASSESSORS

    with records_explained():
        made = new_key()
        public = save_key(made, passphrase(passphrase_file, new=True), file)
        trust_key(public_hex(made), folder_of(data) / ASSESSORS, file.stem)
    say(_("Wrote {file} (keep it to yourself) and {public} (for every seat).").format(file=file, public=public))
    show(fingerprint(public_hex(made)))
