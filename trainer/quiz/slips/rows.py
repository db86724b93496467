"""Wrong choices about setting out, the first truss and the row: what is done and said on site instead."""

from __future__ import annotations

from collections.abc import Mapping

from trainer.quiz.slips.model import RuleSlips
from trainer.words import _

OF_ROWS: Mapping[str, RuleSlips] = {
    "mark-off-station": RuleSlips(
        (
            (_("Leave the line. Stand the truss beside it by as much as it is out."),
             _("Nobody else knows that. The next one on the roof stands a truss to the wrong line.")),
            (_("Shift all the marks after it by as much, so that the gaps are even again."),
             _("Then one wrong mark has made all the rest wrong.")),
        ),
        (
            (_("A truss on a wrong mark is weaker, so the roof sags there."),
             _("The truss stays as strong as it was. It is in the wrong place.")),
            (_("Marks are for the inspector. The trusses are spaced by their ties. A line says only where to begin."),
             _("Ties hold what stands. Where it stands, the marks say.")),
        ),
    ),
    "measured-bay-by-bay": RuleSlips(
        (
            (_("Cut a stick to the spacing, and step it along the plate from mark to mark."),
             _("A stick adds up its error just as the tape does.")),
            (_("Measure each bay twice, from mark to mark, before you draw the line."),
             _("It is still one bay on another. What is out in one is out in all after it.")),
        ),
        (
            (_("Measured bay by bay, the last bay of a wall is always too wide. One more truss has to be ordered."),
             _("It may come out too wide or too narrow. Errors add up either way.")),
            (_("The bays would be even. But it takes twice as long."),
             _("They would not be even. Time is not what it is about.")),
        ),
    ),
    "station-not-marked": RuleSlips(
        (
            (_("Stand on, and measure each truss from the one before it."),
             _("That is bay by bay, and from a truss that may lean.")),
            (_("Mark the one plate. A truss square to it finds its own place on the other."),
             _("Nobody sees square by eye over that length. Both plates are marked.")),
        ),
        (
            (_("With no line on the plate, a truss can't be nailed to what is under it. It then slides along with the "
                "next one."),
             _("It can be nailed anywhere. That is just the trouble.")),
            (_("The marks show how many trusses have to be ordered."),
             _("They came long ago, as the layout says. A mark says where each of them stands.")),
        ),
    ),
    "mark-to-wrong-face": RuleSlips(
        (
            (_("Keep the line, and remember to stand that truss on its other side."),
             _("Who stands it may be somebody else. All marks mean the same.")),
            (_("Mark all other trusses to that face too, so that all are alike."),
             _("Then all are off the truss plan by half a thickness.")),
        ),
        (
            (_("The face of a mark says which way round the truss goes."),
             _("Which way round is on the truss and on the layout. The mark says where it stands.")),
            (_("To the face or to the middle is the same. A truss is thin. But a mark to the middle is soon covered "
                "up."),
             _("Half a thickness is more than a truss may be out.")),
        ),
    ),
    "row-with-nothing-solid": RuleSlips(
        (
            (_("Tie three or four more trusses to it. Enough of them hold each other up."),
             _("Tied to each other only, all of them fall together.")),
            (_("Nail its ends to the plates well. A truss nailed at both ends stays up. Ends are what it is made to "
                "stand on."),
             _("Ends hold its feet. Its top still tips over.")),
        ),
        (
            (_("The first truss is the heaviest of the row, so it needs a brace of its own."),
             _("It is like the others. But it has none beside it to be tied to.")),
            (_("The brace pulls the first truss straight, so that all the others come straight."),
             _("It keeps the truss from falling. Straightening comes later.")),
        ),
    ),
    "off-station": RuleSlips(
        (
            (_("Leave it there, and move the next one so that the gaps are even."),
             _("Then the next is off its mark too.")),
            (_("Measure from the truss before it, and move it to the spacing."),
             _("If the one before is out, this one is out as well. Measure from the end of the wall.")),
        ),
        (
            (_("A truss beside its mark has nothing under it to be nailed to."),
             _("The plate runs on under it. It could be nailed, in the wrong place.")),
            (_("A truss off its mark leans. It can't be tied to the next one, which stands upright on its own mark."),
             _("It can stand upright and be off its mark.")),
        ),
    ),
    "let-go-half-fixed": RuleSlips(
        (
            (_("Put another brace on its top. That does for the loose end."),
             _("A brace holds the top. The loose end still slides off.")),
            (_("Fix the loose ends of all trusses together, once the row stands. One round with all the nails is "
                "quicker."),
             _("Until then each of them can slide. One connector now, the rest later.")),
        ),
        (
            (_("Both ends are fixed at once so that the truss comes out straight. Afterwards it can't be turned any "
                "more."),
             _("Straight is for the string to say. A fixed end can't slide.")),
            (_("A truss with a loose end can't be tied to the next."),
             _("It can be tied. But its end can slide off all the same.")),
        ),
    ),
    "stood-before-last-tied": RuleSlips(
        (
            (_("Hold on to each truss by hand while the next is lifted. Then brace and tie both."),
             _("A hand does not hold a truss in a gust. One of you is under it, too.")),
            (_("Set short blocks between the two. Tie the whole row at the end."),
             _("Blocks keep a gap. They stop nothing from tipping.")),
        ),
        (
            (_("An untied truss would have to be straightened again at the end."), _("It may fall long before that.")),
            (_("The tie keeps the spacing. Without it the gap comes out wrong. It can't be put right "
                "once the next truss stands. Both of them are then in the way of the tape."),
             _("The mark keeps the spacing. The tie keeps the truss from tipping.")),
        ),
    ),
    "bracing-taken-too-early": RuleSlips(
        (
            (_("Hurry with the next trusses. The more stand, the safer the row is."),
             _("Every truss more is one more that falls. Put the brace back first.")),
            (_("Have two people hold the row while you put in the permanent bracing."),
             _("People can't hold a row that goes over, and now they stand under it.")),
        ),
        (
            (_("Temporary bracing has to stay in for good. Taken out, it has to be put in again by those who cover "
                "the roof."),
             _("It comes out when something else holds the row. Not before.")),
            (_("The braces are needed to measure the trusses by."),
             _("They are there to hold. Nothing is measured by them.")),
        ),
    ),
    "top-chord-battens-too-far-apart": RuleSlips(
        (
            (_("Leave them. The roof battens close the gaps soon enough. Go on till then with the row."),
             _("Until then the top chords can bend. That is when people stand on them.")),
            (_("Take thicker ties in the same places."), _("It is the gap that lets the chord bend, not the tie.")),
        ),
        (
            (_("Rows too far apart leave nothing to stand on up there."),
             _("Nobody should stand on them. They keep the chord straight.")),
            (_("The ties carry the weight of the truss. Too far apart, each of them has more of it than it can hold "
                "up."),
             _("The plates carry it. The ties keep the chord from bending sideways.")),
        ),
    ),
    "spacing-too-wide": RuleSlips(
        (
            (_("Nail a second batten across the wide gap."),
             _("Battens, sheets and ceiling are made for even gaps. Move the truss.")),
            (_("Share it out: move every truss of the row a little. Then no gap is much too wide."),
             _("Then all are off their marks. Find the one that is out.")),
        ),
        (
            (_("A wide gap lets the trusses lean into it. They lean a little more each day, until the ties come out "
                "of their tops."),
             _("The ties hold them. It is the battens and sheets that can't reach.")),
            (_("Wide gaps make the roof heavier."), _("They do not. Each truss beside one carries more of it.")),
        ),
    ),
    "wrong-truss-for-place": RuleSlips(
        (
            (_("Leave it, as long as it is as long as the right one."),
             _("Trusses as long may be made for other loads. The tag says which goes where.")),
            (_("Change the tags over, so that the layout is right again. Then nothing has to be moved."),
             _("A tag says how a truss was made. A new tag changes nothing.")),
        ),
        (
            (_("The tags have to run in order for whoever inspects the roof. One out of order holds up the hand-over "
                "by a day or more."),
             _("The order of tags is not the point. Each truss is made for its place.")),
            (_("The wrong truss can't be tied to the others."),
             _("It can be tied. But it may be too weak there, or leave a step.")),
        ),
    ),
    "truss-missing": RuleSlips(
        (
            (_("Move the two beside it closer, so that the gap is shared. Then nothing has to be waited for."),
             _("Then three gaps are too wide in place of one.")),
            (_("Nail longer battens over the gap, and hand over."),
             _("The battens sag, and the trusses beside carry too much.")),
        ),
        (
            (_("A gap lets the wind into the roof. It pushes the sheets up from below, one after the other."),
             _("It lets loads go where nothing is made for them.")),
            (_("The row can't be straightened with one truss missing."),
             _("It could. But what that truss should carry lies on the two beside it.")),
        ),
    ),
    "truss-left-over": RuleSlips(
        (
            (_("Send it back. The maker sent one too many."),
             _("The list that came with it says how many there are. Look for its place first.")),
            (_("Stand it in the roof beside another one, for strength. Two are stronger than one, whatever their tags "
                "say."),
             _("It has a place of its own, and something else stands there.")),
        ),
        (
            (_("A truss that stands in the yard is money lost. It should have gone back on the lorry that brought it."),
             _("What stands in its place may not carry the load there.")),
            (_("It is in the way of the next trade."), _("That too. But a wrong truss stands in the roof.")),
        ),
    ),
    "out-of-plumb": RuleSlips(
        (
            (_("Leave it. The roof battens pull it upright, with the rest."), _("They lock it as it leans.")),
            (_("Plumb the first truss. The others follow along their ties. One check with the level does for a row."),
             _("Each is plumbed by itself. Ties carry an error along the row.")),
        ),
        (
            (_("A truss that leans is shorter, so the ridge comes out low."),
             _("A few millimetres of lean hardly lower it. But it pushes sideways.")),
            (_("It looks bad from the street."), _("That is the least of it. A leaning truss pushes on the rest.")),
        ),
    ),
    "row-left-unsafe-overnight": RuleSlips(
        (
            (_("Lay the next packs on the row. Their weight keeps it down."),
             _("Weight up there makes it fall harder.")),
            (_("Put up tape around it, and a sign for the night. Ask the neighbours to stay away from it."),
             _("That keeps people out. The row still falls.")),
        ),
        (
            (_("The dew at night warps trusses that are not braced. In the morning they no longer fit their marks on "
                "the plates."),
             _("The wind is what takes them.")),
            (_("Somebody might steal the loose trusses."), _("It is about wind, with nobody there to see.")),
        ),
    ),
}  # fmt: skip
