"""Marks a text for learners as one that a translation catalogue holds, and returns it as it is spoken.

Every text is written in English (Australia) where it is used, and is complete without a catalogue. Babel extracts what
is marked; a translation is one catalogue of these.
"""

from __future__ import annotations

from trainer.speech import spoken


def _(text: str) -> str:
    """Return ``text`` in the language that is spoken; the call marks it for extraction."""
    return spoken(text)


CAUTION = _(
    "This is a practice aid. On site, follow the fabricator's drawings, the safe work method statement, "
    "the law of your state and your supervisor. Design, certification and high-risk work belong to licensed "
    "people. No result here says that anyone is competent or licensed."
)
"""Stands on every drawing, every screen of findings and every report."""
INVENTED = _("Invented house, for practice only. Do not build from it.")
