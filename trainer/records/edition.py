"""Which edition of the layout and of the rules judged an attempt: a fingerprint of the code that decides.

A changed comment gives another edition too. That does no harm: where editions differ, an attempt is judged
again, and only a difference in the result counts.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from functools import cache
from pathlib import Path

import trainer

_LAYOUT = ("plan", "roof", "layout", "level", "read")
_RULES = ("chance", "terms", "order", "site", "rules", "score", "session")
_LENGTH = 16


@cache
def editions() -> dict[str, str]:
    """Return the trainer's version, and the editions of layout and rules as hexadecimal figures."""
    return {"trainer": trainer.__version__, "layout": _edition(_LAYOUT), "rules": _edition(_RULES)}


def _edition(rooms: Iterable[str]) -> str:
    package = Path(trainer.__file__).parent
    digest = hashlib.sha256()
    for room in rooms:
        single = package / f"{room}.py"
        for path in [single] if single.exists() else sorted((package / room).rglob("*.py")):
            text = path.read_bytes().replace(b"\r\n", b"\n")
            digest.update(path.relative_to(package).as_posix().encode() + b"\0" + hashlib.sha256(text).digest())
    return digest.hexdigest()[:_LENGTH]
