"""The first page of a card model: what is needed, how a piece is made, and the order to build in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from trainer.layout import Layout
from trainer.level import Level
from trainer.order import Order, Step, order_of
from trainer.picture import Palette, View
from trainer.picture.card_leaves import BESIDE
from trainer.picture.card_printed import HOW_HIGH, how_picture
from trainer.picture.card_trimmers import TRIMMER, trimmer_tag
from trainer.picture.card_verandah import BEAM, POST
from trainer.picture.cutout import CardModel
from trainer.picture.model import MEDIUM
from trainer.rehearse.constraint import Constraint
from trainer.rehearse.sequence import tidy_sequence
from trainer.report.drawing_page import PEN
from trainer.report.pdf_page import SMALL, TITLE, Page
from trainer.report.pdf_picture import FAMILY, POINTS, draw
from trainer.terms import STAGES
from trainer.words import CAUTION, INVENTED, _, ngettext

RULER = 100
"""Length of the line by which the printing is checked, mm."""
ORDER_COLUMNS = 9
"""Of the building order on its page."""
HIP_END = ("jack", "creeper")


def building_order(model: CardModel) -> list[str]:
    """Return the tags of trusses in a right order of standing that is easy to follow, carriers before the carried.

    It is the trainer's own; of what that leaves free, what has its slots above comes before what goes into them, and
    hips just before the jacks and creepers of their hip end.
    """
    order = order_of(model.layout, frozenset(STAGES))
    tidy = [step.tag for step in tidy_sequence(model.layout, order, 0) if step.verb == "stand"]
    place, before = {tag: number for number, tag in enumerate(tidy)}, _before(model, order)
    found: dict[str, None] = {}
    begun: set[str] = set()

    def put(tag: str) -> None:
        if tag not in begun:
            begun.add(tag)
            for first in sorted(before[tag], key=place.__getitem__):
                put(first)
            found[tag] = None

    for tag in sorted(tidy, key=lambda tag: model.layout.by_tag[tag].kind == "hip"):
        put(tag)
    return list(found)


def _before(model: CardModel, order: Order) -> dict[str, set[str]]:
    """For each truss, those stood before it: by the order, those its slots go over, and hips before their jacks."""
    layout = model.layout
    stands = [Step("stand", tag) for tag in layout.by_tag]
    masks = Constraint(layout, order).before(stands)
    before = {step.tag: {other.tag for i, other in enumerate(stands) if masks[step] >> i & 1} for step in stands}
    for piece in model.pieces:
        for slot in piece.slots:
            if slot.mouth < slot.end and piece.tag in before:
                before[piece.tag].add(slot.other)
    for member in layout.members:
        if member.kind in HIP_END:
            before[member.tag] |= {hip.tag for hip in layout.members if hip.kind == "hip" and hip.row == member.row}
    return before


def piece_order(model: CardModel) -> list[str]:
    """Return the same with beams and posts first, and each trimmer before the saddle whose end stands on it."""
    under: dict[str, list[str]] = {}
    for part in model.layout.parts:
        if part.part == "trimmer":
            under.setdefault(part.on, []).append(trimmer_tag(part))
    trusses = [piece for tag in building_order(model) for piece in (*under.get(tag, ()), tag)]
    return [*(piece.tag for piece in model.pieces if piece.tag not in trusses), *trusses]


def first_page(page: Page, level: Level, model: CardModel, order: Sequence[str], palette: Palette) -> None:
    """Write the first page."""
    page.add_page()
    title = _("{house}: a card model at 1:{scale}").format(house=level.id.capitalize(), scale=model.scale)
    page.say(title, TITLE, bold=True)
    page.say(INVENTED, SMALL, bold=True)
    page.ln(2)
    page.say(_("Check the printer first. This line is {mm} mm long:").format(mm=RULER))
    _ruler(page)
    page.say(_("If it is not, print again at 100 %, without fitting to the page."))
    page.head(_("What you need"))
    n = len(model.layout.members)
    card = ngettext(
        "{n} truss, printed on card of 200 to 250 g/m², or on paper that is then glued on card; a board for the "
        "plan, glue, a sharp knife and a steel ruler. "
        "Cut away from your fingers.",
        "{n} trusses, printed on card of 200 to 250 g/m², or on paper that is then glued on card; a board for the "
        "plan, glue, a sharp knife and a steel ruler. "
        "Cut away from your fingers.",
        n,
    )
    page.say(card.format(n=n))
    page.head(_("How a piece is made"), HOW_HIGH)
    _how(page, model, palette)
    page.listed(_("How to build it"), tuple(instructions(model)))
    page.head(_("Building order"))
    page.say(" ".join(order_words(model.layout)), SMALL)
    page.ln(1)
    in_order(page, [f"{number}  {tag}" for number, tag in enumerate(order, 1)])
    page.ln(3)
    page.say(CAUTION, SMALL)


def in_order(page: Page, words: Sequence[str]) -> None:
    """Write short words in columns that are read down and then across, on as many pages as they take."""
    line, wide = SMALL / POINTS * 1.2, page.epw / ORDER_COLUMNS
    while words:
        top = page.get_y()
        room = int((page.h - page.b_margin - top) / line) * ORDER_COLUMNS
        here, words = words[:room], words[room:]
        high = -(-len(here) // ORDER_COLUMNS)
        page.set_font(FAMILY, "", SMALL)
        for place, word in enumerate(here):
            column, row = divmod(place, high)
            page.text(page.l_margin + page.c_margin + column * wide, top + (row + 0.8) * line, word)
        page.set_y(top + high * line)
        if words:
            page.add_page()


def _ruler(page: Page) -> None:
    left, y = page.l_margin, page.get_y() + 5
    page.set_line_width(MEDIUM * PEN)
    page.line(left, y, left + RULER, y)
    for mm in range(0, RULER + 1, 10):
        page.line(left + mm, y - (3 if mm % 50 == 0 else 1.8), left + mm, y)
    page.set_y(y + 2)


def _how(page: Page, model: CardModel, palette: Palette) -> None:
    top = page.get_y() + 1
    tails = any(end.tail for member in model.layout.members for end in member.ends)
    draw(page, how_picture(tails, bool(model.raised)), palette, View(1.0, 0.0, HOW_HIGH), (page.l_margin, top), PEN)
    page.set_y(top + HOW_HIGH)


def board_words(model: CardModel) -> Iterator[str]:
    """Yield what is said of the board: where it is cut, and how high it stands."""
    yield _("Glue the plan on a board. Cut the board along the outside of the walls.")
    if model.layout.house.plan.beams:
        text = _("Put blocks {mm} mm high under the walls: so high are the posts that carry the beams, at this scale.")
        yield text.format(mm=model.raised)
    elif model.raised:
        yield _("Put blocks {mm} mm high under the board: tails hang below it.").format(mm=model.raised)


def instructions(model: CardModel) -> Iterator[str]:
    """Yield how the model is built, a line for each thing to do or to know."""
    yield from board_words(model)
    if model.layout.house.plan.beams:
        text = _("{beam} is a beam: fold its flange and glue it under the edge of the board, so that the strip hangs "
                 "down at the outside. {post} is a post: fold it along its middle, and glue it upright behind the "
                 "beam, where the plan shows it.")  # fmt: skip
        yield text.format(beam=BEAM, post=POST)
    yield _("Cut round the full lines; leave the webs in. Hold the print before you: dashes fold away from you, dash "
            "and dot towards you.")  # fmt: skip
    yield _("A foot goes on the mark with its tag: its mark lies on the side that the foot folds to.")
    if any(not tab.foot for tabs in model.tabs.values() for tab in tabs):
        yield _(
            "A tab at a hung end is glued to the face of the truss that carries it, at the line with its "
            "tag. A tag in brackets goes on the back."
        )
    if any(piece.slots for piece in model.pieces):
        yield _(
            "Slots go half into each other: what passes over has its slot below, what it crosses has its slot on top. "
            "A slot is so narrow that one cut of the knife makes it."
        )
    kinds = {member.kind for member in model.layout.members}
    if kinds & {"hip", "jack"}:
        yield _("The tip of an extension, with no tab, is glued to what it comes up against.")
    if "saddle" in kinds:
        yield _("The thin ends of a saddle lie on the trusses under them: glue them there.")
    if any(leaf.aside for leaf in model.leaves.values()):
        text = _("Where a hip and a jack meet a girder at one place, the jack stands {mm} mm aside, as on site.")
        yield text.format(mm=round(BESIDE))
    if model.below_plate:
        text = _("The lowest {mm:g} mm of each truss is the top plate that it stands on; it holds the tails.")
        yield text.format(mm=model.below_plate)
    if any(leaf.shortened for leaf in model.leaves.values()):
        yield _("Where two tails would cross at an inside corner, one is cut short and glued to the other.")
    if any(part.part == "outrigger" for part in model.layout.parts):
        yield _("A gable truss is lower than the rest: on site, outriggers pass over it.")
    if any(member.plies > 1 for member in model.layout.members):
        yield _("A girder of several plies is one piece of card.")
    if any(piece.tag.startswith(TRIMMER) for piece in model.pieces):
        text = _("{trimmer} is a trimmer, on which the end of a saddle stands. Its slot goes over the outer truss, its "
                 "tab on the face of the inner one. Glue the saddle's end flat against its side.")  # fmt: skip
        yield text.format(trimmer=TRIMMER)
    yield _("The white number on each piece is its place in the building order.")


def order_words(layout: Layout) -> Iterator[str]:
    """Yield why the pieces come in this order."""
    yield _("One right order of many. A truss that carries stands before what it carries.")
    if sum(member.kind == "standard" for member in layout.members) > 2:
        yield _("The outermost two of a row come first: a string between them lines up the rest.")
    if any(member.kind == "hip" for member in layout.members):
        yield _("What passes over comes after what it passes over.")
