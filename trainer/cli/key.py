"""``trainer key``: makes an assessor's key."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from trainer.cli.data import PassphraseFile, passphrase, records_explained
from trainer.cli.given import say, wrong_call
from trainer.cli.options import argument
from trainer.words import _

NewKey = Annotated[Path, argument("FILE", "Where the private key goes; its name ends in .pem.")]


def key(file: NewKey, passphrase_file: PassphraseFile = None) -> None:
    """Make an assessor's key, under a passphrase.

    The private key stays with the assessor and never goes to a seat. The public key beside it (.pub.pem) goes into the
    folder 'assessors' of each seat's data folder. Nobody can recover a lost passphrase.
    """
    if file.suffix != ".pem" or file.name.endswith(".pub.pem"):
        wrong_call(_("{file}: give the key a name that ends in .pem, such as assessor.pem.").format(file=file))
    from trainer.records.keys import fingerprint, new_key, public_hex, save_key

    with records_explained():
        made = new_key()
        public = save_key(made, passphrase(passphrase_file, new=True), file)
    say(_("Wrote {file} (keep it to yourself) and {public} (for every seat).").format(file=file, public=public))
    typer.echo(fingerprint(public_hex(made)))
