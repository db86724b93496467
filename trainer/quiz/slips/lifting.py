"""Wrong choices about lifting, wind and a fall: what is done and said on site instead."""

from __future__ import annotations

from collections.abc import Mapping

from trainer.quiz.slips.model import RuleSlips
from trainer.words import _

OF_LIFTING: Mapping[str, RuleSlips] = {
    "lifted-without-licence": RuleSlips(
        (
            (_("Stop lifting. Let the one who has done it longest give the signals."),
             _("Long practice is no licence. The law asks for one.")),
            (_("Lift light loads only. Leave the heavy ones until the dogger comes."),
             _("Light loads fall too. Slinging any crane load asks for a licence.")),
        ),
        (
            (_("The licence says how much a crane can lift. Without it nobody on site knows that."),
             _("The crane's own chart says that. The licence is for those who sling and direct.")),
            (_("A dogger brings the slings along. Those that lie on site may be too short."),
             _("It is about who slings and directs, not about whose slings they are.")),
        ),
    ),
    "lift-not-planned": RuleSlips(
        (
            (_("Lift it slowly, and look how it hangs. Plan the other lifts by what you have seen."),
             _("In the air it is too late to find that it hangs badly.")),
            (_("Set it down. Begin with a smaller truss, and go on up to the ones that feel too heavy."),
             _("Mass and length stand on the job sheet. Nobody finds them out by lifting.")),
        ),
        (
            (_("The plan of the lifts says which truss goes where. Without one they land in the wrong places."),
             _("The layout says that. The plan says how each kind is lifted.")),
            (_("The plan of the lifts is for the crane's bill. It shows what was lifted, and how long it took."),
             _("It is not about the bill. How it is lifted is settled on the ground.")),
        ),
    ),
    "too-heavy-by-hand": RuleSlips(
        (
            (_("Put two more people on it, and rest half way up."),
             _("Over the limit it is a load for the crane, however many carry it.")),
            (_("Set it down. Take it up one end at a time, over the plate."),
             _("With one end up and one down it gets away from those who hold it.")),
        ),
        (
            (_("A heavy or a long truss takes too long by hand. The crew is tired before the first row stands."),
             _("Time is the least of it. It gets away from those who carry it.")),
            (_("A heavy or a long truss presses on the hands. Its nailplates come loose where it is held."),
             _("Hands don't loosen nailplates. People are hurt, and it falls.")),
        ),
    ),
    "too-few-to-lift": RuleSlips(
        (
            (_("Set it down. Take hold of it in its middle, where both ends balance."),
             _("One person can't steady both ends, and a breath of wind turns it.")),
            (_("Pull it up alone with a rope over the plate, a little at a time."),
             _("What slips comes down on you. Nobody lifts a truss alone.")),
        ),
        (
            (_("One person can't read the tag and the layout. The truss then lands end for end."),
             _("One person can read both. But nobody can hold both ends.")),
            (_("One person takes twice as long. The crane waits, and has to be paid all the same."),
             _("It is not about time. Nobody holds both ends of a truss alone.")),
        ),
    ),
    "slung-at-apex": RuleSlips(
        (
            (_("Put a second sling round the apex. Then it is held there twice, and can't slip."),
             _("It still hangs by one place, and bends and swings.")),
            (_("Set it down. Sling it by its two tails, as far out as the slings reach."),
             _("Tails are not made to be lifted by. It is slung at panel points.")),
        ),
        (
            (_("Hung by its apex a truss comes up too high. The hook is in the way when it lands, and can't be let "
                "go."),
             _("A hook can be let go there. But the truss swings and bends.")),
            (_("Hung by its apex a truss hangs dead still. Nobody can turn it round in the air before it lands."),
             _("It is never still. It swings and bends, and its joints can break.")),
        ),
    ),
    "slings-not-spread": RuleSlips(
        (
            (_("Lift it faster, so that it hangs for less time. Look it over when it stands."),
             _("It bends at once. Up there it is hard to look over.")),
            (_("Set it down. Use longer slings at the same two places by the middle."),
             _("Its ends still hang. The slings have to hold it further out.")),
        ),
        (
            (_("Close slings rub on each other. After a few lifts they fray, and have to be bought new."),
             _("It is about the truss. Its ends hang, and it bends sideways.")),
            (_("Close slings press its top chords together. The truss comes out shorter than it was made."),
             _("Slings don't shorten it. Its ends hang, and it bends sideways.")),
        ),
    ),
    "lifted-in-gust": RuleSlips(
        (
            (_("Go on with two people on the tag line. Two hold what one can't."),
             _("A gust takes a truss out of many hands.")),
            (_("Stop lifting. Leave the row as it is until the wind has dropped."),
             _("A row that nobody braced may be over by then.")),
        ),
        (
            (_("A gust moves the crane's arm. The truss lands beside its mark, and has to be shifted again."),
             _("Shifting is no harm. A row that is pushed over is.")),
            (_("A gust blows dust into the eyes. The tags and the tape can't be read until it is over."),
             _("It is not about reading. A gust takes the truss and the row.")),
        ),
    ),
    "taken-down-again": RuleSlips(
        (
            (_("Stand what comes to hand. It can be moved when all are up."),
             _("Each move is one more lift, with people near it.")),
            (_("Leave gaps in the row, so that a truss can be changed later."),
             _("Beside a gap a truss has nothing to be tied to. Plan the order instead.")),
        ),
        (
            (_("Each lift works the nailplates. After the second a truss has to go back to its maker."),
             _("A truss slung well takes many lifts. Each is a risk for people.")),
            (_("Each lift rubs at the tag. After the second nobody can read which truss it is."),
             _("Tags last. It is about the risk and the cost of each lift.")),
        ),
    ),
    "worked-on-after-a-fall": RuleSlips(
        (
            (_("Help the hurt. Stand the trusses that look whole before the wind gets up. Then report the fall."),
             _("Nothing that fell is stood again, and nothing is lifted before it is reported and cleared.")),
            (_("Keep people out, and go on at the other end of the house. Clear the fall when the crane is free."),
             _("What still stands may be damaged too. Nothing is lifted before the fall is reported and cleared.")),
        ),
        (
            (_("What fell is in the way, and the crane has no room. The next trusses can't be landed beside it."),
             _("Room is the least of it. Someone may be hurt, and what still stands may be damaged.")),
            (_("What fell is counted by the insurer. Whatever is lifted before that has to be paid by the crew."),
             _("It is about people, and about what the fall has struck.")),
        ),
    ),
    "stopped-unsecured": RuleSlips(
        (
            (_("Stop at once. The ties along the tops will do."),
             _("Tied only to each other, all of them go over together.")),
            (_("Brace the last truss of the row. Then stop."),
             _("Each truss that stands has to be held, not one of them.")),
        ),
        (
            (_("When lifting stops, the crane leaves. A loose truss can't be put straight without it."),
             _("Hands put it straight. But a truss that nothing holds goes over.")),
            (_("When lifting stops, the timber dries. A loose truss then shrinks away from its mark."),
             _("Timber does not move so fast. It is the wind that takes it.")),
        ),
    ),
}  # fmt: skip
