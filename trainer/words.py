"""Marks a text for learners as one that a translation catalogue holds.

The core keeps every text in English (Australia) as an ordinary string; only the shells (board,
command line, reports) look it up in a catalogue. ``_`` therefore returns its text unchanged: it is
there for the extractor to find.
"""


def _(text: str) -> str:
    """Return ``text`` as it is; the call marks it for extraction."""
    return text


CAUTION = _(
    "This is a practice aid. On site, follow the fabricator's drawings, the safe work method statement, "
    "the law of your state and your supervisor. Design, certification and high-risk work belong to licensed "
    "people. No result here says that anyone is competent or licensed."
)
"""Stands on every drawing, every screen of findings and every report."""
INVENTED = _("Invented house, for practice only. Do not build from it.")
