"""Wrong choices about hip ends, girders and saddles: what is done and said on site instead."""

from __future__ import annotations

from collections.abc import Mapping

from trainer.quiz.slips.model import RuleSlips
from trainer.words import _

OF_HIPS: Mapping[str, RuleSlips] = {
    "setback-not-the-levels": RuleSlips(
        (
            (_("Leave it. The jacks can be trimmed to reach."),
             _("A truss is never cut. Move the girder to its setback.")),
            (_("Set it back by as much as the other end of the house has. Then both of its ends match."),
             _("Each end has its own setback on the layout. Read it there.")),
        ),
        (
            (_("The setback says how far the eave stands out from the end wall. With another one the gutter does not "
                "fit."),
             _("That is the overhang. The setback says where the hip end begins.")),
            (_("A girder too far in makes the roof steeper."), _("The pitch stays. But jacks and hips no longer fit.")),
        ),
    ),
    "plies-not-joined": RuleSlips(
        (
            (_("Stand the plies side by side, and join them when all the trusses stand."),
             _("Up there half of the fixings can't be reached. Until then each ply is alone.")),
            (_("Join them at both ends. That keeps them together."),
             _("Between the ends they part under load. The whole pattern is needed.")),
        ),
        (
            (_("The plies are joined so that the girder lifts as one. A crane can't hold two at once."),
             _("It may lift as one and still not carry as one.")),
            (_("Joined plies can't rub on each other."), _("Rubbing is nothing. Only joined they share the load.")),
        ),
    ),
    "hanger-missing": RuleSlips(
        (
            (_("Nail through the girder into the end of the truss."),
             _("Nails in the end of a grain hold nothing. It needs its hanger.")),
            (_("Stand a prop under it, and fit the hanger in the end. Fitted all in one go, they come out alike."),
             _("A prop gets knocked out. The hanger is there before the truss.")),
        ),
        (
            (_("The hanger keeps the truss at its spacing. Without one it slides along the girder to the next."),
             _("It may do that too. But it carries the truss.")),
            (_("Without a hanger the truss is hard to find on the layout."), _("It is about what holds it up.")),
        ),
    ),
    "hip-before-truncated-girder": RuleSlips(
        (
            (_("Prop the hip, and stand the truncated girder under it afterwards. Then take the prop out."),
             _("The girder can't be swung in under a hip. It goes first.")),
            (_("Stand the other hip too, so that the two lean on each other."), _("Neither has anything to lean on.")),
        ),
        (
            (_("Hips first would make the girder hard to see."), _("It is about what the hip sits on.")),
            (_("The hip is heavier than the truncated girder, so it is fixed after it. What is heavy is fixed last."),
             _("It is lighter. But the girder carries it.")),
        ),
    ),
    "carried-before-carrier": RuleSlips(
        (
            (_("Prop the truss at its free end until the carrier is there. Push the carrier in under it from the "
                "side."),
             _("The carrier can't be stood with others in its way.")),
            (_("Tie it to the truss beside it. That carries it meanwhile."),
             _("A tie keeps it from tipping. It carries nothing.")),
        ),
        (
            (_("The layout numbers the carriers first."), _("The numbers say nothing of the order.")),
            (_("A carrier stood later has to be shorter. The room for it gets less as soon as others stand there."),
             _("It is as long. But nothing held the other until then.")),
        ),
    ),
    "out-of-order": RuleSlips(
        (
            (_("Take it all down, and begin again."), _("What stands safely stays. Go on with what comes first.")),
            (_("Put in twice the bracing, to make up for it. Then the order is all the same."),
             _("It is sound as it is. The order is for the next time.")),
        ),
        (
            (_("The order is there so that the crane moves least. Each time it is set up anew, the crew has to wait "
                "for an hour."),
             _("It may help the crane. It is there so that each part steadies the next.")),
            (_("The maker's promise asks for that order."), _("It is there so that each part steadies the next.")),
        ),
    ),
    "extension-not-propped": RuleSlips(
        (
            (_("Have somebody hold it until the jacks come."), _("Nobody stands under it, or hangs on to it.")),
            (_("Nail the extension twice as well to the girder under it. Then its weight is held there."),
             _("It still hangs free beyond the girder, and bends down.")),
        ),
        (
            (_("An extension needs a prop because it is too short."),
             _("It is long enough. But nothing is under it yet.")),
            (_("The prop keeps the spacing until the trusses stand. Without it they come too close to each other "
                "there."),
             _("Marks do that. The prop keeps it from hanging down.")),
        ),
    ),
    "girder-off-plate-line": RuleSlips(
        (
            (_("Pack it out where it lies over the opening."), _("Packing moves no load. Move the girder.")),
            (_("Leave it. The trusses that hang on it can be longer. Have these sent back for longer ones."),
             _("They are made to one length.")),
        ),
        (
            (_("A girder off the line can be seen from below. Whoever does the ceiling has to hide it with a board."),
             _("It is not about looks. What hangs on it no longer fits.")),
            (_("The lintel under it has to be as wide."),
             _("There is no wall under it. It carries on its line from end to end.")),
        ),
    ),
    "heavy-girder-bracket-missing": RuleSlips(
        (
            (_("Use the hangers of the other trusses, two at a time. Two carry twice as much, and there are plenty."),
             _("They are made for far less. The job sheet names the bracket.")),
            (_("Nail the girder through from both sides."), _("Nails alone do not carry a girder.")),
        ),
        (
            (_("The bracket keeps the girder upright."), _("Braces do that. The bracket carries its end.")),
            (_("It is needed so that the girder can be moved later. What is bolted can be taken off again."),
             _("A girder stays where it is. It needs something to sit in.")),
        ),
    ),
    "studs-missing-under-girder": RuleSlips(
        (
            (_("Nail a thicker top plate on."), _("A plate bends between studs, however thick.")),
            (_("Move the girder over to the next stud. It has to stand on a stud, whichever one that is."),
             _("Its place is on the layout. The studs go to the girder.")),
        ),
        (
            (_("Studs under a girder keep it from sliding. It would creep along the plate, a little with every gust."),
             _("Its fixing does that. The studs carry it down.")),
            (_("The wall looks unfinished without them."), _("It is about what the girder weighs on.")),
        ),
    ),
    "far-bearing-not-carried-across": RuleSlips(
        (
            (_("Mark the far wall by eye, square to the near one."), _("By eye nobody is square over that length.")),
            (_("Stand the girder, and mark the far wall from it."),
             _("Then the mark only says where it happened to stand.")),
        ),
        (
            (_("Both marks are wanted by the inspector."), _("It is about the girder being square.")),
            (_("The far mark shows how long the girder is. It is measured off there before the maker cuts it to fit."),
             _("That is on the layout. The mark says where its far end goes.")),
        ),
    ),
    "saddle-before-support": RuleSlips(
        (
            (_("Prop the saddle until the trusses under it stand."),
             _("They can't be stood from below with a saddle on top.")),
            (_("Nail it to the one truss that is there."), _("It needs all that are under it.")),
        ),
        (
            (_("The saddle is the smallest truss, so every other truss comes first. What is small goes up last."),
             _("It comes last because it sits on the others.")),
            (_("Stood first they would get wet."), _("It is about what carries them.")),
        ),
    ),
    "saddle-over-crooked-truss": RuleSlips(
        (
            (_("Pack the saddle until it looks straight."), _("Then the packing hides what is wrong below.")),
            (_("Straighten the truss below with the saddle on it. Its weight keeps both of them where they belong."),
             _("The saddle holds it. It comes off first.")),
        ),
        (
            (_("A crooked truss is too weak for a saddle."),
             _("It may be as strong. But the saddle locks it as it is.")),
            (_("A saddle is cut to fit, so the trusses don't matter."),
             _("Nothing is cut. It fits straight trusses only.")),
        ),
    ),
    "saddle-without-batten": RuleSlips(
        (
            (_("Nail the saddle straight on to the trusses."), _("Between the trusses it has nothing under it.")),
            (_("Cut the saddle to the slope."), _("A truss is never cut.")),
        ),
        (
            (_("The batten keeps water out of the valley."), _("The roof does that. The batten carries the saddle.")),
            (_("The batten marks where the saddle goes on the trusses. Without one it has to be measured anew for "
                "each saddle."),
             _("It does. But above all it carries it.")),
        ),
    ),
    "saddle-without-trimmer": RuleSlips(
        (
            (_("Let the end hang free. It is only a short piece."), _("A free end sags, and pulls on its nails.")),
            (_("Nail the end of the saddle to a batten between the two trusses. That is as good as a trimmer."),
             _("A batten is too thin to carry it.")),
        ),
        (
            (_("The trimmer keeps the two trusses at their spacing, so that the saddle can be set down."),
             _("Marks and ties do. The trimmer carries the saddle's end.")),
            (_("The trimmer is there for the plasterer."), _("It is up at the roof. It carries the saddle's end.")),
        ),
    ),
    "top-chords-not-tied-under-saddles": RuleSlips(
        (
            (_("Leave it to the saddles. They lie over the top chords."),
             _("They stand apart. Between them a chord can bend.")),
            (_("Put one more roof brace under them."), _("It keeps the row from leaning. The chords still bend.")),
        ),
        (
            (_("The ties there carry the saddles over the top chords. Without them a saddle sinks in between two "
                "trusses."),
             _("The battens do. The ties keep the chords straight.")),
            (_("No sheets come there, so nothing is needed."),
             _("That is just why: no roof battens hold these chords.")),
        ),
    ),
    "tail-where-none-belongs": RuleSlips(
        (
            (_("Saw it off once the truss stands. Up there you see best how much of it has to come off."),
             _("It must not be cut off on site. The fabricator says what is done.")),
            (_("Leave it. It lies inside the roof."), _("It is in the way of what comes there.")),
        ),
        (
            (_("A tail too many makes the truss too heavy. Its other end then lifts off the plate before it is fixed."),
             _("It weighs little. But it does not belong there.")),
            (_("The tail would drip into the room."), _("It is in the way of the other roof.")),
        ),
    ),
    "brackets-left-loose": RuleSlips(
        (
            (_("Tighten them at height, when all the trusses stand. Then each one can be turned to where it fits."),
             _("By then they carry, and some can't be reached.")),
            (_("Put in every other bolt. That is enough for now."),
             _("What is for now gets forgotten. All of them, on the ground.")),
        ),
        (
            (_("Loose brackets rattle while the girder is lifted."), _("That is the least. Loaded, they slip.")),
            (_("A loose bracket can be moved if the girder is off. Once it is tight, it keeps the girder where it is "
                "not wanted."),
             _("The girder is put right, not the bracket.")),
        ),
    ),
    "end-for-end": RuleSlips(
        (
            (_("Leave it. Both halves of a truss are alike."),
             _("They look alike. But one end has the tail, and webs differ.")),
            (_("Cut the tail off, and nail one on at the other end. That is less work than lifting it again."),
             _("A truss is never cut. Turn it round.")),
        ),
        (
            (_("The stamp has to face the street."),
             _("Nobody minds the stamp. Each end is made for what it lands on.")),
            (_("The other way round it is too long. It then stands out over the plate, and the gutter does not fit "
                "there."),
             _("It is as long. But its ends are in each other's place.")),
        ),
    ),
    "truss-cut": RuleSlips(
        (
            (_("Nail a piece as thick on both sides of the cut. Three timbers side by side are stronger than one was."),
             _("Only the fabricator's detail says what mends it. It may not be enough.")),
            (_("Cut the next one the same way, so that both look alike."), _("Then there are two that can come down.")),
        ),
        (
            (_("A cut lets damp into the timber. It rots from there, and nobody sees it until it is too late."),
             _("It takes away what carries the load.")),
            (_("The maker takes no cut truss back."), _("It is about the roof over your head.")),
        ),
    ),
    "dutch-girder-off-station": RuleSlips(
        (
            (_("Leave it. Stand the others by it, so that the gaps are right."),
             _("Then all of them are off. The hip end still does not close.")),
            (_("Take it down. Measure again from the last truss that stands."),
             _("If that one is out, so is the girder. Measure from the end wall.")),
        ),
        (
            (_("The small gable stands over the end wall. Off its station, it leans out over it."),
             _("It stands in from the wall. It is about what lands on it.")),
            (_("The girder has to miss the walls inside. Off its station, it lies along one of them."),
             _("It spans over them. It is about what lands on it.")),
        ),
    ),
    "waling-plate-missing": RuleSlips(
        (
            (_("Nail the tops of hips and jacks to the girder as they lie, each where it meets it."),
             _("Nails into the end of a grain hold nothing. The tops rest on the waling plate.")),
            (_("Leave what has landed. Nail a block under each top, at the height where it lies now."),
             _("One block is higher than the next. The plan asks for one plate, level.")),
        ),
        (
            (_("The waling plate holds the plies of the girder together. With none, they part as the hip end is "
                "loaded."),
             _("The plies have fixings of their own. The tops rest on the waling plate.")),
            (_("The waling plate keeps the girder from bowing at its middle. With none, it bends out over the hip "
                "end."),
             _("Braces and ties keep it straight. The tops rest on the waling plate.")),
        ),
    ),
    "verge-ladder-missing": RuleSlips(
        (
            (_("Run the battens out over the verge on each slope."),
             _("Battens alone bend down there. The ladders carry that edge.")),
            (_("Nail the barge to the ends of the battens."),
             _("The barge carries nothing. The ladders on the face do.")),
        ),
        (
            (_("The roof runs out past the girder of a dutch gable. Ladders on its face let people get there later."),
             _("Nobody climbs on them. They carry the edge of the roof.")),
            (_("The girder of a dutch gable leans out under its load. Ladders on its face hold it back to the row."),
             _("Braces and ties hold it. The ladders carry the edge of the roof.")),
        ),
    ),
}  # fmt: skip
