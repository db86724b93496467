"""Pages of HTML from their templates, each one file that needs nothing else and makes no request."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from importlib.resources import files

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from trainer.picture import Palette, Picture, to_svg
from trainer.report.class_content import ITEM_HEAD
from trainer.rules.whole import NOT_DONE
from trainer.words import _

SIGNS: Mapping[str, str] = {"holds": _("Holds"), "fails": _("Fails"), "unknown": _("Not known")}
COVERS = _("The houses here that practise each item of the unit. It says nothing of how well, or of competency.")

TEXTS: Mapping[str, str] = {
    "action": _("Action"),
    "after": _("After"),
    "answer": _("Answer:"),
    "as_built": _("As built"),
    "as_built_beside_where": _("As built, beside where each truss belongs"),
    "at_action": _("at action"),
    "back": _("Back"),
    "code_name": _("Code name"),
    "date": _("Date"),
    "end": _("End"),
    "for_the_next_lesson": _("For the next lesson"),
    "given": _("Given"),
    "here": _("Here"),
    "how_questions_did": _("How questions did"),
    "item": _("Item"),
    "items_of_the_unit": _("Items of the unit that this touches"),
    "kind": _("Kind"),
    "moment_of_the_attempt": _("Moment of the attempt"),
    "no": _("No."),
    "no_questions_were_answered": _("No questions were answered."),
    "no_too": _("no"),
    "nobody_could_do_that": _("Nobody could do that:"),
    "not_done": NOT_DONE,
    "not_touched": _("not touched"),
    "nothing_was_found": _("Nothing was found."),
    "off_the_mark": _("Off the mark"),
    "on": _("On"),
    "pause": _("Pause"),
    "play": _("Play"),
    "question": _("Question"),
    "questions": _("Questions"),
    "replay": _("Replay"),
    "right": _("Right"),
    "start": _("Start"),
    "the_mark_line_by": _("The mark, line by line"),
    "the_replay_needs_scripts": _("The replay needs scripts, which are turned off here. All actions are listed below."),
    "the_site_before_the": _("The site before the first action."),
    "took": _("Took"),
    "wanted": _("Wanted"),
    "what": _("What"),
    "what_holds_of_this": _("What holds of this record"),
    "what_this_cant_show": _("What this can't show"),
    "what_was_done": _("What was done"),
    "what_was_found": _("What was found"),
    "what_was_found_and": _("What was found, and why it matters"),
    "where_each_truss_belongs": _("Where each truss belongs"),
    "who_is_where": _("Who is where"),
    "yes": _("yes"),
}
"""What the templates say, by the names they know it by: a catalogue is made from texts in Python."""


@cache
def _environment() -> Environment:
    loader = PackageLoader("trainer.report", "pages")
    return Environment(loader=loader, autoescape=True, undefined=StrictUndefined, keep_trailing_newline=True)


def page(template: str, content: object, palette: Palette) -> str:
    """Fill a template of this room with what is to be said."""
    environment = _environment()

    def source(name: str) -> Markup:
        return Markup(files("trainer.report").joinpath("pages", name).read_text(encoding="utf-8"))

    def svg(picture: Picture) -> Markup:
        return Markup(to_svg(picture, palette))

    return environment.get_template(template).render(
        content=content,
        svg=svg,
        source=source,
        signs=SIGNS,
        covers=COVERS,
        t=TEXTS,
        item_head=ITEM_HEAD,
    )
