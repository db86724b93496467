"""The trade words, each with a picture and a few plain sentences, and where they stand in a text."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache, lru_cache

from trainer.words import _


@dataclass(frozen=True, slots=True)
class Term:
    """A trade word: its name, which is its picture's too, what it means, and other forms that it stands in."""

    name: str
    text: str
    forms: tuple[str, ...] = ()

    @property
    def picture(self) -> str:
        """Name of its picture in the art folder."""
        return f"words/{self.name.replace(' ', '-')}"


TERMS: tuple[Term, ...] = (
    Term("apex", _("The highest point of a truss or a roof."), ("apexes",)),
    Term("batten", _("A length of timber across the trusses. It ties one truss to the next."), ("battens",)),
    Term("bottom chord", _("The level timber along the bottom of a truss."), ("bottom chords",)),
    Term("bottom-chord tie", _("A long timber that holds the bottom chords at their spacing."), ("bottom-chord ties",)),
    Term("bow", _("A bend sideways. A truss should run straight from end to end."), ("bowed", "bows")),
    Term("brace", _("A timber or strap that stops something from falling over."), ("braced", "bracing", "braces")),
    Term("creeper truss", _("A short truss from a wall to the hip truss."), ("creeper trusses", "creeper", "creepers")),
    Term(
        "crossing", _("The place where one timber passes over another. They are fixed together there."), ("crossings",)
    ),
    Term("diagonal", _("A timber that runs slanting across several trusses."), ("diagonals",)),
    Term("eave", _("The edge of the roof that hangs out past the wall."), ("eaves",)),
    Term(
        "extension",
        _("A top chord that runs on past the end of its truss. It lies over the next trusses."),
        ("extensions",),
    ),
    Term("framing anchor", _("A light metal connector. It holds a truss down on the plate."), ("framing anchors",)),
    Term("gable stud", _("An upright timber in a gable. The cladding is fixed to it."), ("gable studs",)),
    Term(
        "gable truss",
        _("The last truss of a gable. It stands just inside the end wall."),
        ("gable trusses", "gable", "gables"),
    ),
    Term("girder truss", _("A strong truss that carries other trusses."), ("girder trusses", "girder", "girders")),
    Term("hanger", _("A bracket on a truss. It holds the end of another truss."), ("hangers",)),
    Term(
        "heavy girder bracket",
        _("A strong bracket, bolted to a girder. It holds the end of another girder."),
        ("heavy girder brackets", "heavy bracket"),
    ),
    Term("heel", _("How high the top chord is over the outside of the plate."), ("heels",)),
    Term("hip", _("The line where two slopes of a roof meet and stick out."), ("hips", "hipped")),
    Term("hip truss", _("The truss along the hip. It runs from the corner to the truncated girder."), ("hip trusses",)),
    Term(
        "jack truss", _("A short truss from the end wall to the truncated girder."), ("jack trusses", "jack", "jacks")
    ),
    Term("mark", _("A chalk line on a plate. It shows where a truss goes."), ("marks",)),
    Term("nailplate", _("A steel plate with teeth. It joins the timbers of a truss."), ("nailplates",)),
    Term("outrigger", _("A timber that passes over the gable truss. It carries the verge."), ("outriggers",)),
    Term("overhang", _("How far the roof goes past the outside of the plate, measured level."), ("overhangs",)),
    Term("packer", _("A piece of timber that fills a gap, so that things line up."), ("packers",)),
    Term("pitch", _("How steep the roof is, in degrees."), ("pitches",)),
    Term("plumb", _("Dead upright. A truss that leans is out of plumb."), ()),
    Term("ply", _("One of several trusses that are joined side by side."), ("plies",)),
    Term("prop", _("A timber that holds something up from below."), ("props",)),
    Term("row", _("Trusses that stand side by side, one behind the other."), ("rows",)),
    Term(
        "saddle truss",
        _("A truss that sits on top of other trusses. Saddles make a valley."),
        ("saddle trusses", "saddle", "saddles"),
    ),
    Term("setback", _("How far the truncated girder stands from the end wall."), ("setbacks",)),
    Term("span", _("From outside of plate to outside of plate, along a truss."), ("spans",)),
    Term("standard truss", _("A truss of full height, with two slopes."), ("standard trusses",)),
    Term("station", _("How far a truss stands from the outside of the end wall."), ("stations",)),
    Term("steel brace", _("A steel strap, pulled tight across the trusses."), ("steel braces",)),
    Term(
        "string line",
        _("A string pulled tight from truss to truss. It shows what is out of line."),
        ("string lines", "string"),
    ),
    Term("tail", _("The part of a truss past the plate. Tails make the eave."), ("tails",)),
    Term(
        "tie-down strap",
        _("A strong steel strap. It holds a truss down against the wind."),
        ("tie-down straps", "strap", "straps"),
    ),
    Term("top chord", _("The sloping timber along the top of a truss."), ("top chords",)),
    Term(
        "top plate", _("The timber along the top of a wall. It carries the trusses."), ("top plates", "plate", "plates")
    ),
    Term("trimmer", _("A short timber between two trusses. It carries something."), ("trimmers",)),
    Term(
        "truncated girder",
        _("A strong truss with a flat top. It stands at the setback and carries the hip end."),
        ("truncated girders",),
    ),
    Term("truncated truss", _("A truss with a flat top. Each next one is higher."), ("truncated trusses",)),
    Term("valley", _("The line where two slopes of a roof meet and go in."), ("valleys",)),
    Term(
        "verge rafter", _("The timber along the outside of a gable's overhang."), ("verge rafters", "verge", "verges")
    ),
    Term("web", _("A timber inside a truss, between the chords."), ("webs",)),
    Term("web tie", _("A long timber that holds the webs at their spacing."), ("web ties",)),
)


@cache
def _by_form() -> dict[str, Term]:
    return {form: term for term in TERMS for form in (term.name, *term.forms)}


@cache
def _pattern() -> re.Pattern[str]:
    """Matches any form of a word, the longest first."""
    forms = sorted(_by_form(), key=len, reverse=True)
    return re.compile(r"\b(" + "|".join(re.escape(form) for form in forms) + r")\b", re.IGNORECASE)


@lru_cache(maxsize=4000)
def words_in(text: str) -> tuple[tuple[int, int, Term], ...]:
    """Return (begin, end, term) of every trade word in a text, in order."""
    return tuple((m.start(), m.end(), _by_form()[m.group(1).casefold()]) for m in _pattern().finditer(text))


def term_of(word: str) -> Term | None:
    """Return the term that a word is a form of, if it is a trade word."""
    return _by_form().get(word.casefold())


def met_in(texts: Iterable[str]) -> list[Term]:
    """Return the terms that stand in texts, in the order of their names."""
    found = {term for text in texts for _begin, _end, term in words_in(text)}
    return [term for term in TERMS if term in found]
