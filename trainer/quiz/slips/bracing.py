"""Wrong choices about permanent bracing and the verge: what is done and said on site instead."""

from __future__ import annotations

from collections.abc import Mapping

from trainer.quiz.slips.model import RuleSlips
from trainer.words import _

OF_BRACING: Mapping[str, RuleSlips] = {
    "roof-brace-missing": RuleSlips(
        (
            (_("Leave the temporary bracing of the row in for good."),
             _("It is not made for it, and it is in the way. The roof brace holds for good.")),
            (_("Nail more rows of battens to the roof, from plate to ridge."),
             _("Battens make trusses lean together. Only a slanted brace stops that.")),
        ),
        (
            (_("Roof braces hold the sheets on."), _("They keep the row from leaning. The battens take the sheets.")),
            (_("They carry part of the weight to the plates. Without them the trusses bend down too far."),
             _("The trusses carry the weight. A brace takes the push along the row.")),
        ),
    ),
    "roof-brace-at-wrong-angle": RuleSlips(
        (
            (_("Pull it tighter. Then the angle does not matter. A tight strap holds at any slope."),
             _("Pulled tighter it bends the row, and still does not hold it well.")),
            (_("Put a second one beside it, at the same angle."), _("Two at the wrong angle still hold badly.")),
        ),
        (
            (_("At another angle it would be too long for the strap on the roll. A lap would have to be paid for."),
             _("Straps can be lapped. It is about how well it holds.")),
            (_("All braces of a street have to look alike."),
             _("Nobody sees them. At the wrong angle they hold badly.")),
        ),
    ),
    "roof-braces-all-one-way": RuleSlips(
        (
            (_("Pull the ones there are tighter."), _("A strap holds one way only, however tight it is.")),
            (_("Put one more in beside them, the same way. Then there are two, and each has half of it to hold."),
             _("It goes slack with the others when the wind turns.")),
        ),
        (
            (_("Braces both ways hold twice the weight."), _("They carry no weight. Each holds one way of the wind.")),
            (_("One way would be enough. The other is a spare, should the first tear. They are thin."),
             _("One way holds nothing when the wind comes from the other side.")),
        ),
    ),
    "roof-brace-not-tied-down": RuleSlips(
        (
            (_("Nail its end to the last top chord with twice as many nails. That holds as well as a plate."),
             _("It still pulls on a truss only. It has to pull on the wall.")),
            (_("Nail it to the fascia. That runs along all the ends."), _("A fascia holds nothing. The plate does.")),
        ),
        (
            (_("The end has to reach the plate so that the strap is tight. A loose strap holds nothing."),
             _("It can be tight and still pull on a truss only.")),
            (_("Otherwise water runs along it into the wall."), _("It is about the pull, not about water.")),
        ),
    ),
    "roof-brace-broken": RuleSlips(
        (
            (_("Start a new one lower down, in the next bay, and leave the gap."),
             _("What is pulled at the top never gets to the bottom.")),
            (_("Nail the two loose ends to one truss, each on its own side."),
             _("Only if they are lapped and joined do they work as one.")),
        ),
        (
            (_("A broken brace rattles in the wind."), _("That is harmless. But it holds nothing.")),
            (_("The part that runs to the ridge holds half of the row. The part that is left holds the other half."),
             _("It holds none of it. A brace works as one line.")),
        ),
    ),
    "bottom-chord-ties-too-far-apart": RuleSlips(
        (
            (_("Leave it to the ceiling battens. They come in a week. They are much closer."),
             _("They may be meant to do it, or not: the job sheet says. It asks for ties here.")),
            (_("Use thicker timber for the ties that there are."),
             _("The gap stays as wide. The chord bows between them.")),
        ),
        (
            (_("The ties carry the ceiling."), _("The bottom chords do. The ties keep them from bowing sideways.")),
            (_("The ties keep the bottom chord from sagging. Without them the ceiling cracks in the middle of each "
                "room."),
             _("Webs do that. Sideways is where it has nothing.")),
        ),
    ),
    "end-brace-missing": RuleSlips(
        (
            (_("Nail the last truss to the plate with more nails."),
             _("Nails hold its foot. The push comes in above it.")),
            (_("Fit it in the middle of the row, where it is strongest."),
             _("The push comes in at the end. It goes down there.")),
        ),
        (
            (_("The end brace closes the eave against birds."),
             _("It takes the wind along the row down to the plate.")),
            (_("Without it the last truss of the row weighs too much on the plate. The plate is then pressed out of "
                "level there."),
             _("The weight is the same. It is about wind from the end.")),
        ),
    ),
    "tie-end-loose": RuleSlips(
        (
            (_("Nail the end of it to its last truss twice."), _("Then tie and truss move together.")),
            (_("Cut it off at the last truss that it reaches. What hangs over is in the way, and holds nothing."),
             _("Its end still moves with the trusses.")),
        ),
        (
            (_("A loose end could hurt somebody in the roof."),
             _("The danger is another: it holds none of its trusses.")),
            (_("Only the truss at the loose end is not held. All the others have two neighbours, and stay where they "
                "are."),
             _("None of them is. The whole tie moves.")),
        ),
    ),
    "outriggers-missing": RuleSlips(
        (
            (_("Let the battens hang out past the gable truss. They carry the verge. They are fixed to all the "
                "others."),
             _("Battens are too thin. The verge sags, or lifts off.")),
            (_("Nail short pieces to the face of the gable truss."),
             _("A piece nailed on turns down. An outrigger runs back to the next truss.")),
        ),
        (
            (_("Outriggers brace the gable truss, and tie it to the trusses inside. It would fall out when the sheets "
                "go on."),
             _("They carry the verge. The gable truss is tied to the row before.")),
            (_("They keep the sheets straight at the end."), _("They carry the verge. Straight sheets come of that.")),
        ),
    ),
    "outriggers-too-far-apart": RuleSlips(
        (
            (_("Use thicker verge rafters."), _("The sheet says how far apart the outriggers are. Put more in.")),
            (_("Move the last two closer together. The verge is heaviest at its end."),
             _("Then the others are further apart still.")),
        ),
        (
            (_("Too far apart they let birds in."), _("Each carries too much, and the verge sags.")),
            (_("The gable truss would lean out. Each of them is one thing more that holds it back."),
             _("It is the verge that gives way between them.")),
        ),
    ),
    "outriggers-not-far-enough-back": RuleSlips(
        (
            (_("Put twice as many nails in at the gable truss. Nails hold an outrigger down, however short it is "
                "inside the truss."),
             _("It turns about the gable truss. Only its length inside holds it down.")),
            (_("Cut them shorter outside by half."), _("Then the verge is not what was drawn. Run them further back.")),
        ),
        (
            (_("A short outrigger looks bad from inside."), _("Nobody looks. The wind lifts it.")),
            (_("Longer ones have room for more nails where they cross the truss. With less inside than outside, too "
                "many would split it."),
             _("It is the length inside that balances what stands out.")),
        ),
    ),
    "outriggers-end-between-trusses": RuleSlips(
        (
            (_("Nail the end to the nearest batten. The sheets on top of it hold it down as well."),
             _("A batten gives way. It must end on a truss.")),
            (_("Leave it. It is long enough."), _("Its end has nothing to hold it down.")),
        ),
        (
            (_("An end between trusses sags under the sheets. Water then runs to that place, and stays there."),
             _("Not down: up. The wind turns it over the gable.")),
            (_("The end has to be seen from below."), _("It has to be held down, by a truss.")),
        ),
    ),
    "verge-rafters-missing": RuleSlips(
        (
            (_("Nail the gutter to the ends of the outriggers."),
             _("There is no gutter on a verge. The rafter joins them.")),
            (_("Run the battens out, and nail the board to these."), _("Then it hangs on battens only.")),
        ),
        (
            (_("A verge rafter holds the gable truss up. Without one the gable truss leans out over the end wall."),
             _("It lies outside of it. It joins the outriggers.")),
            (_("It keeps rain from the outriggers."), _("It ties their ends together, so that the verge holds.")),
        ),
    ),
    "gable-studs-missing": RuleSlips(
        (
            (_("Nail the cladding or the brick ties to the webs of the gable truss."),
             _("They are too far apart for it. Fit the studs.")),
            (_("Leave it to the plasterer."), _("It is framing, and it comes before the cladding.")),
        ),
        (
            (_("Gable studs carry the roof over the end wall."),
             _("The truss does. The studs take the wind on the gable.")),
            (_("They stop the gable truss from sagging. The gable truss spans from wall to wall with nothing under "
                "its middle."),
             _("It sits on the wall. They take the cladding and the wind.")),
        ),
    ),
    "verge-before-row-straight": RuleSlips(
        (
            (_("Take the verge off, and leave the outriggers out."),
             _("The verge needs them. Where the row comes straight, nothing has to come off.")),
            (_("Trim the verge rafters until they look straight. A verge is seen from outside, and the row is not."),
             _("Then a straight verge sits on a crooked row.")),
        ),
        (
            (_("A verge is too heavy for a row that is not straight. It bends the gable truss down at its middle."),
             _("It is light. But it locks the end as it stands.")),
            (_("The outriggers would not reach."), _("They reach. But the row can't be moved any more.")),
        ),
    ),
    "braced-while-crooked": RuleSlips(
        (
            (_("Pull the strap tight. It straightens the row."), _("It pulls one end over, and the crook stays.")),
            (_("Knock the truss straight with the brace on, then add a nail. After that go on with the rest of the "
                "row."),
             _("The brace holds it as it was. It springs back, or the nails tear.")),
        ),
        (
            (_("The inspector measures before the bracing goes on."),
             _("Measured is at any time. But straightened it can't be any more.")),
            (_("A brace on a crooked truss is too long, and hangs loose. A loose strap holds no row, however straight "
                "it is."),
             _("It can be as tight as any. It holds the truss crooked.")),
        ),
    ),
    "strap-pulled-too-hard": RuleSlips(
        (
            (_("Leave it. Tighter is better."), _("It has pulled the row over.")),
            (_("Pull the next one as hard, on the same side. Two that pull alike keep the row from leaning back the "
                "other way."),
             _("It pulls the same way, and the row leans more.")),
        ),
        (
            (_("A strap pulled hard tears, and the brace the other way with it. What is torn can't be nailed again. A "
                "new roll has to come."),
             _("Before it tears it has pulled the row over.")),
            (_("A tight strap sings in the wind."), _("That is harmless. The row leans, and is braced so.")),
        ),
    ),
    "top-chord-ties-stripped": RuleSlips(
        (
            (_("Lay the battens out loose on the roof. Their weight does it. Nail them down in one go."),
             _("Only what is nailed holds a chord.")),
            (_("Put in one more roof brace."), _("It keeps the row from leaning. Between ties the chords still bend.")),
        ),
        (
            (_("Without them the roof battens can't be set out."), _("They can. But the chords can bend.")),
            (_("The ties hold the trusses up until the sheets are on the roof. Nailed to the tops, they take part of "
                "it from each truss to the next. So it goes on to the end walls. Without them each truss has to carry "
                "all of its own."),
             _("The roof braces do. The ties keep each chord straight.")),
        ),
    ),
}  # fmt: skip
