"""Marks a text for learners as one that a translation catalogue holds, and returns it as it is spoken.

Every text is written in English (Australia) where it is used, and is complete without a catalogue. Babel extracts what
is marked; a translation is one catalogue of these.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from trainer.speech import language

_SIGNS = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb\ud800-\udfff]"
)
"""Signs that move a terminal's cursor, turn the direction of writing, or can't be seen at all."""


def printable(text: str) -> str:
    """Return a text without the signs by which a file could write elsewhere on a screen than where it is shown."""
    return _SIGNS.sub("", text)


def _(text: str) -> str:
    """Return ``text`` in the language that is spoken; the call marks it for extraction."""
    return language().gettext(text)


def ngettext(one: str, many: str, n: int) -> str:
    """Return the form for ``n`` of a text that counts something, in the language that is spoken.

    English has two forms, ``one`` and ``many``; a catalogue has as many as its language. The number itself is put in
    afterwards: ``ngettext("{n} truss", "{n} trusses", n).format(n=n)``.
    """
    return language().ngettext(one, many, n)


def listed(names: Sequence[str], most: int | None = None) -> str:
    """Return names in a row, as ``T1, T2 and T3``; beyond ``most`` of them only how many more."""
    shown = list(names[:most])
    if len(shown) < len(names):
        more = len(names) - len(shown)
        return ngettext("{some} and {n} more", "{some} and {n} more", more).format(some=", ".join(shown), n=more)
    if len(shown) < 2:
        return "".join(shown)
    return _("{some} and {last}").format(some=", ".join(shown[:-1]), last=shown[-1])


CAUTION = _(
    "This is a practice aid. On site, follow the fabricator's drawings, the safe work method statement, "
    "the law of your state and your supervisor. Design, certification and high-risk work belong to licensed "
    "people. No result here says that anyone is competent or licensed."
)
"""Stands on every drawing, every screen of findings and every report."""
FORMULAS = _(
    "For sums: rise = run × tan(pitch). Length on the slope = run ÷ cos(pitch). Run of a hip = run × √2. "
    "Lift = net pressure × roof area. Bays = length ÷ spacing."
)
"""Stands beside every sum: nobody has to know these by heart."""
IN_SHORT = _("A practice aid. On site, follow the fabricator's drawings and your supervisor.")
"""The same where there is no room for all of it, which can then be read nearby."""
INVENTED = _("Invented house, for practice only. Do not build from it.")
