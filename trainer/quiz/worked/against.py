"""Questions about a lower roof against a higher wall: half trusses, the ledger, and what a top is tied to."""

from __future__ import annotations

import math

from trainer.quiz.worked.family import QuestionChance, QuestionDraft, family, number, one_of
from trainer.quiz.worked.subject import Subject
from trainer.quiz.worked.wording import called, degrees, num
from trainer.rules import PRACTICE
from trainer.words import _


@family(
    topic="reading plans",
    difficulty=2,
    serves=("materials", "erecting"),
    rules=("wrong-truss-for-place",),
    why=_("A half truss is highest at the wall. Flashing and cladding there are set out from that height."),
)
def half_truss_height(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The height of the roof line where a full-height half truss meets the wall."""
    found = [m for m in subject.of_kind("half") if m.full_height and m.ends[0].on_plate and len(m.top) == 2]
    truss, roof = draw.pick(found, "truss"), subject.layout.house.roof
    z = roof.heel + truss.span * subject.slope
    text = _(
        "The pitch is {pitch} and the heel {heel}. {truss} runs {span} from the outside of its plate to a higher wall. "
        "How high above the plate is the roof line at the wall?"
    ).format(pitch=degrees(roof.pitch), heel=roof.heel, truss=called(truss), span=num(truss.span, 1))
    steps = [
        _("It rises all the way: {run} × tan {pitch} = {rise}.").format(
            run=num(truss.span, 1), pitch=degrees(roof.pitch), rise=num(truss.span * subject.slope)
        )
    ]
    if roof.heel:
        steps.append(
            _("With the heel: {rise} + {heel} = {z}.").format(rise=num(z - roof.heel), heel=roof.heel, z=num(z))
        )
    slips = (
        (z - roof.heel, _("That leaves out the heel.")),
        (
            roof.heel + truss.span / 2 * subject.slope,
            _("A half truss rises over all of its span, not over half of it."),
        ),
        (
            roof.heel + (truss.span + roof.overhang) * subject.slope,
            _("That starts at the end of the tail. Start at the plate."),
        ),
        (
            roof.heel + truss.span * math.sin(math.radians(roof.pitch)),
            _("That uses the sine. A level run takes the tangent."),
        ),
        (
            roof.heel + truss.span / math.cos(math.radians(roof.pitch)) * subject.slope,
            _("That takes the slope for the level run."),
        ),
    )
    return number(text, z, steps, slips, (truss.tag,), tolerance=1)


@family(
    topic="set-out",
    difficulty=2,
    serves=("set-out", "erecting"),
    rules=("mark-off-station", "off-station"),
    why=_("A bracket on the ledger has to face its mark on the plate. Else the truss runs askew."),
)
def ledger_mark(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Where the bracket of a half truss goes on the ledger, by its mark on the plate across the room."""
    found = []
    for truss in subject.of_kind("half"):
        plate, ledger = truss.ends
        if not (plate.on_plate and ledger.on_ledger):
            continue
        (wall, on_plate), (face, on_ledger) = (subject.tape(truss, end) for end in (1, 2))
        if wall.length == face.length and abs(on_plate - on_ledger) < 1 and on_plate * 2 != wall.length:
            found.append((truss, wall, face, on_plate, wall.length - on_ledger))
    truss, wall, face, here, there = draw.pick(found, "truss")
    text = _(
        "Walls {wall} and {face} are both {length} long. On wall {wall} the centre of {truss} is at {here} from "
        "{corner}. Today the tape on wall {face} is hooked at the house's other end. What does it show at its bracket?"
    ).format(
        wall=wall.name, face=face.name, length=num(wall.length, 1), truss=called(truss), here=num(here, 1),
        corner=subject.hooked_at(wall),
    )  # fmt: skip
    steps = (
        _("The two tapes start at opposite ends."),
        _("{length} − {here} = {there}.").format(length=num(wall.length, 1), here=num(here, 1), there=num(there, 1)),
    )
    thickness = truss.width
    slips = (
        (here, _("That is measured from the other end.")),
        (there + thickness / 2, _("That is to a face. The bracket is marked to the centre.")),
        (there - thickness / 2, _("That is to a face. The bracket is marked to the centre.")),
        (there + subject.spacing, _("That is the next truss's place.")),
        (there - subject.spacing, _("That is the next truss's place.")),
    )
    return number(text, there, steps, slips, (truss.tag,), tolerance=0.5, decimals=1)


@family(
    topic="bracing",
    difficulty=1,
    serves=("bracing", "connections"),
    rules=("wall-tie-missing",),
    why=_("A row tied only to itself can tip as one. The braced wall is what can't move."),
    safety=_("Stay on the platform, and keep hold of the truss until its top is tied."),
    source=PRACTICE,
)
def tied_to_the_wall(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """What is done with the top of a truss at a higher wall before it is let go."""
    at_wall = subject.layout.at_wall
    tag = draw.pick(sorted(at_wall), "truss")
    truss = subject.layout.by_tag[tag]
    if draw.chance("tied") < 0.5:
        asked = _(
            "{truss} stands at wall {wall}, which goes on up. Both its ends are fixed, and its top is tied to it. "
            "What comes next?"
        ).format(truss=called(truss), wall=at_wall[tag])
        wrong = [
            (_("Wait for the roof battens to hold its top"), _("Its top is held already, by a wall that can't move.")),
            (_("Brace it to the floor as well"), _("The wall holds it. Another brace is only in the way.")),
            (_("Fit the flashing over its top"), _("Flashing is by others, later.")),
        ]
        working = (_("Both ends and the top are held."), _("So hands may leave it, and the next lift may come."))
        return one_of(asked, _("Let it go, and lift the next"), wrong, working, (tag,))
    text = _("{truss} has just been set down at wall {wall}, which goes on up. What comes before it is let go?")
    right = _("Fix both ends, and tie its top to wall {wall}").format(wall=at_wall[tag])
    wrong = [
        (_("Tie it to the next truss alone"), _("Then nothing solid holds the row. It can tip as one.")),
        (_("Fix both ends, and leave the top for later"), _("A truss fixed at its ends alone still tips over.")),
        (_("Put short blocks between it and the next truss"), _("Blocks brace nothing. The trusses fall together.")),
        (_("Fit the flashing over its top"), _("Flashing is by others, later. It holds nothing up.")),
    ]
    working = (
        _("Both ends fixed keep its foot in place. Its top can still tip."),
        _("The higher wall is braced and can't move. So the top is tied to that."),
    )
    asked = text.format(truss=called(truss), wall=at_wall[tag])
    return one_of(asked, right, draw.shuffled(wrong, "wrong")[:3], working, (tag,))
