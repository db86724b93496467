"""The trade words, each with a picture and a few plain sentences, and where they stand in a text."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache, lru_cache

from trainer.words import _


@dataclass(frozen=True, slots=True)
class Term:
    """A trade word: its picture, its name, what it means, and other forms that it stands in, parted by commas."""

    drawn: str
    name: str
    text: str
    others: str = ""

    @property
    def forms(self) -> tuple[str, ...]:
        """Every form of the word."""
        return (self.name, *filter(None, self.others.split(", ")))

    @property
    def picture(self) -> str:
        """Name of its picture in the art folder."""
        return f"words/{self.drawn}"


TERMS: tuple[Term, ...] = (
    Term("apex", _("apex"), _("The highest point of a truss or a roof."), _("apexes")),
    Term(
        "barge",
        _("barge"),
        _("The board fixed along the outside of the verge."),
        _("barges, barge board, barge boards"),
    ),
    Term(
        "batten", _("batten"), _("A length of timber across the trusses. It ties one truss to the next."), _("battens")
    ),
    Term("bottom-chord", _("bottom chord"), _("The level timber along the bottom of a truss."), _("bottom chords")),
    Term(
        "bottom-chord-tie",
        _("bottom-chord tie"),
        _("A long timber that holds the bottom chords at their spacing."),
        _("bottom-chord ties"),
    ),
    Term("bow", _("bow"), _("A bend sideways. A truss should run straight from end to end."), _("bowed, bows")),
    Term(
        "brace",
        _("brace"),
        _("A timber or strap that stops something from falling over."),
        _("braced, bracing, braces"),
    ),
    Term(
        "broken-hip",
        _("broken hip"),
        _("The short hip left where a lower wing meets a hip end. It runs from the high ridge down to the low one."),
        _("broken hips"),
    ),
    Term(
        "creeper-truss",
        _("creeper truss"),
        _("A short truss from a wall to the hip truss."),
        _("creeper trusses, creeper, creepers"),
    ),
    Term(
        "crossing",
        _("crossing"),
        _("The place where one timber passes over another. They are fixed together there."),
        _("crossings"),
    ),
    Term("diagonal", _("diagonal"), _("A timber that runs slanting across several trusses."), _("diagonals")),
    Term(
        "dutch-gable",
        _("dutch gable"),
        _("A hip end with a small gable above it. A full-height girder stands in from the end wall."),
        _("dutch gables"),
    ),
    Term("eave", _("eave"), _("The edge of the roof that hangs out past the wall."), _("eaves")),
    Term(
        "end-brace",
        _("end brace"),
        _("A brace over the plate at the end of a row. It ties the last two trusses."),
        _("end braces"),
    ),
    Term(
        "extension",
        _("extension"),
        _("A top chord that runs on past the end of its truss. It lies over the next trusses."),
        _("extensions"),
    ),
    Term(
        "framing-anchor",
        _("framing anchor"),
        _("A light metal connector. It holds a truss down on the plate."),
        _("framing anchors"),
    ),
    Term(
        "gable-stud", _("gable stud"), _("An upright timber in a gable. The cladding is fixed to it."), _("gable studs")
    ),
    Term(
        "gable-truss",
        _("gable truss"),
        _("The last truss of a gable. It stands just inside the end wall."),
        _("gable trusses, gable, gables"),
    ),
    Term(
        "girder-truss",
        _("girder truss"),
        _("A strong truss that carries other trusses."),
        _("girder trusses, girder, girders"),
    ),
    Term("hanger", _("hanger"), _("A bracket on a truss. It holds the end of another truss."), _("hangers")),
    Term(
        "heavy-girder-bracket",
        _("heavy girder bracket"),
        _("A strong bracket, bolted to a girder. It holds the end of another girder."),
        _("heavy girder brackets, heavy bracket"),
    ),
    Term("heel", _("heel"), _("How high the top chord is over the outside of the plate."), _("heels")),
    Term("hip", _("hip"), _("The line where two slopes of a roof meet and stick out."), _("hips, hipped")),
    Term(
        "hip-truss",
        _("hip truss"),
        _("The truss along the hip. It runs from the corner to the truncated girder."),
        _("hip trusses"),
    ),
    Term(
        "jack-truss",
        _("jack truss"),
        _("A short truss from the end wall to the truncated girder."),
        _("jack trusses, jack, jacks"),
    ),
    Term("mark", _("mark"), _("A chalk line on a plate. It shows where a truss goes."), _("marks")),
    Term("nailplate", _("nailplate"), _("A steel plate with teeth. It joins the timbers of a truss."), _("nailplates")),
    Term(
        "outrigger",
        _("outrigger"),
        _("A timber that passes over the gable truss. It carries the verge."),
        _("outriggers"),
    ),
    Term(
        "overhang",
        _("overhang"),
        _("How far the roof goes past the outside of the plate, measured level."),
        _("overhangs"),
    ),
    Term("packer", _("packer"), _("A piece of timber that fills a gap, so that things line up."), _("packers")),
    Term("pitch", _("pitch"), _("How steep the roof is, in degrees."), _("pitches")),
    Term("plumb", _("plumb"), _("Dead upright. A truss that leans is out of plumb.")),
    Term("ply", _("ply"), _("One of several trusses that are joined side by side."), _("plies")),
    Term("prop", _("prop"), _("A timber that holds something up from below."), _("props")),
    Term(
        "ridge",
        _("ridge"),
        _("The level line along the top of a roof, where two slopes meet."),
        _("ridges"),
    ),
    Term(
        "roof-brace",
        _("roof brace"),
        _("A steel strap over the top chords, from the plate up to the ridge. It stays for good."),
        _("roof braces"),
    ),
    Term("row", _("row"), _("Trusses that stand side by side, one behind the other."), _("rows")),
    Term(
        "saddle-truss",
        _("saddle truss"),
        _("A truss that sits on top of other trusses. Saddles make a valley."),
        _("saddle trusses, saddle, saddles"),
    ),
    Term("setback", _("setback"), _("How far the truncated girder stands from the end wall."), _("setbacks")),
    Term(
        "slotted-bracket",
        _("slotted bracket"),
        _("It holds a truss sideways over an inside wall. The nail slides in its slot, so the truss can move down."),
        _("slotted brackets"),
    ),
    Term("span", _("span"), _("From outside of plate to outside of plate, along a truss."), _("spans")),
    Term("standard-truss", _("standard truss"), _("A truss of full height, with two slopes."), _("standard trusses")),
    Term("station", _("station"), _("How far a truss stands from the outside of the end wall."), _("stations")),
    Term("steel-brace", _("steel brace"), _("A steel strap, pulled tight across the trusses."), _("steel braces")),
    Term(
        "string-line",
        _("string line"),
        _("A string pulled tight from truss to truss. It shows what is out of line."),
        _("string lines, string"),
    ),
    Term("tail", _("tail"), _("The part of a truss past the plate. Tails make the eave."), _("tails")),
    Term(
        "tie-down-strap",
        _("tie-down strap"),
        _("A strong steel strap. It holds a truss down against the wind."),
        _("tie-down straps, strap, straps"),
    ),
    Term("top-chord", _("top chord"), _("The sloping timber along the top of a truss."), _("top chords")),
    Term(
        "top-plate",
        _("top plate"),
        _("The timber along the top of a wall. It carries the trusses."),
        _("top plates, plate, plates"),
    ),
    Term("trimmer", _("trimmer"), _("A short timber between two trusses. It carries something."), _("trimmers")),
    Term(
        "truncated-girder",
        _("truncated girder"),
        _("A strong truss with a flat top. It stands at the setback and carries the hip end."),
        _("truncated girders"),
    ),
    Term(
        "truncated-truss",
        _("truncated truss"),
        _("A truss with a flat top. Each next one is higher."),
        _("truncated trusses"),
    ),
    Term("valley", _("valley"), _("The line where two slopes of a roof meet and go in."), _("valleys")),
    Term(
        "verandah-beam",
        _("verandah beam"),
        _("A beam on posts. It carries trusses where there is no wall."),
        _("verandah beams"),
    ),
    Term(
        "verge-ladder",
        _("verge ladder"),
        _("Two timbers joined by rungs, fixed to a girder's face. It carries the verge of a dutch gable."),
        _("verge ladders"),
    ),
    Term(
        "verge-rafter",
        _("verge rafter"),
        _("The timber along the outside of a gable's overhang."),
        _("verge rafters, verge, verges"),
    ),
    Term(
        "waling-plate",
        _("waling plate"),
        _("A timber fixed level along the face of a girder. The tops of hips and jacks land on it."),
        _("waling plates"),
    ),
    Term("web", _("web"), _("A timber inside a truss, between the chords."), _("webs")),
    Term("web-tie", _("web tie"), _("A long timber that holds the webs at their spacing."), _("web ties")),
)


@cache
def _by_form() -> dict[str, Term]:
    return {form: term for term in TERMS for form in term.forms}


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
