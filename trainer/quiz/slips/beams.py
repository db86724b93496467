"""Wrong choices about verandah beams, posts and a higher wall: what is done and said on site instead."""

from __future__ import annotations

from collections.abc import Mapping

from trainer.quiz.slips.model import RuleSlips
from trainer.words import _

OF_BEAMS: Mapping[str, RuleSlips] = {
    "beam-not-bolted-down": RuleSlips(
        (
            (_("Put the other trusses on. Their weight keeps the beam down until it is bolted."),
             _("It can roll under a load, and wind lifts it with all that is on it.")),
            (_("Drive nails at an angle through the beam into its posts, and go on."),
             _("Nails are not what its drawing asks for. It has to be bolted.")),
        ),
        (
            (_("A loose beam shrinks away from its posts as it dries. The trusses on it sink, and the eave shows it. "
                "Whoever put the beam up has to pack it. You look at it so that this is done in time."),
             _("Shrinking is slow and small. A loose beam can roll off its posts today.")),
            (_("Bolts pull a beam straight between its posts. Without them it bows, and the tops go off the line. "
                "Whoever stands the trusses has to shift them all. You look at it to save that work."),
             _("Bolts hold it down, not straight. A loose beam rolls under a load.")),
        ),
    ),
    "beam-propped": RuleSlips(
        (
            (_("Leave the prop there for good. It helps the posts, and can be cased in when the verandah is finished."),
             _("It is not tied down. Whoever designed the beam decides whether a post more is wanted.")),
            (_("Knock the prop out as it stands. If the beam with all its trusses stays up, no prop was needed."),
             _("Never take a prop from under a loaded beam. It drops.")),
        ),
        (
            (_("A prop stands where people walk. Whoever lays the floor of the verandah has to work round it."),
             _("It is not about room. The beam drops when the prop goes.")),
            (_("A prop lifts the beam above its posts. The eave then runs uphill, and the water stands in the gutter."),
             _("It may be set just right. It still takes load that the posts are made for.")),
        ),
    ),
    "post-not-braced": RuleSlips(
        (
            (_("Go on. Once trusses stand on the beam, their weight keeps the post from moving."),
             _("Weight pushes a post that leans further over. A pin holds nothing upright.")),
            (_("Take the weight off. Have the post braced along the beam. The trusses hold it across."),
             _("They hold it only once the roof is braced. Until then it is braced both ways.")),
        ),
        (
            (_("A post stands on a pin. Until it is braced it turns, and its bolts come loose."),
             _("It hardly turns. But it can lean, and the beam goes with it.")),
            (_("A post stands in the sun. Until it is braced it bows, and then stays as it is."),
             _("That is slow. A post that is not braced can lean over today.")),
        ),
    ),
    "post-not-tied-down": RuleSlips(
        (
            (_("Brace the post both ways, and go on. A post that can't lean can't lift out either."),
             _("Braces keep it plumb. Only a tie at its foot keeps it down.")),
            (_("Go on. Tie the foot when the cover is on. Before that the wind has nothing to lift."),
             _("By then it is forgotten. It is looked at before it carries a truss.")),
        ),
        (
            (_("Water runs down a post to its foot. A loose foot stands in it and rots. Whoever set the posts has to "
                "change them. You look at them before they are out of sight."),
             _("Rot takes years. A loose post lifts out in one storm.")),
            (_("People lean ladders on a post. A loose one is pushed off its footing, bit by bit. Whoever set the "
                "posts has left by then. You look at them before the ladders come."),
             _("Keep ladders off it as well. But it is the wind that lifts it out.")),
        ),
    ),
    "post-brace-taken-off": RuleSlips(
        (
            (_("Go on. Trusses that are fixed to the beam hold the post from now on."),
             _("They hold it only once the roof is braced for good.")),
            (_("Stop. Tie the post to the next one with a batten. Go on when both are plumb."),
             _("Posts that are tied to each other lean together. Each has its own braces.")),
        ),
        (
            (_("The braces carry part of the beam. The post is not made for all of it."),
             _("The post carries the beam. The braces keep it from leaning.")),
            (_("The braces show where the post belongs. Without them it can't be checked."),
             _("A tape and a level check it. The braces keep it from leaning.")),
        ),
    ),
    "braced-to-beam": RuleSlips(
        (
            (_("Leave that brace. Put a second one beside it, to the same beam, for safety."),
             _("Both then hold to something that sways.")),
            (_("Take that brace off. Brace the truss to the post that stands under the beam."),
             _("A post on a pin can lean. It holds nothing either.")),
        ),
        (
            (_("A beam on posts is dressed timber. A brace leaves nail holes that are seen."),
             _("Holes are the least. A beam that sways holds nothing.")),
            (_("A beam on posts is thin. The nails of a brace come out on its other side."),
             _("It is thick enough for nails. But it can sway, and the truss with it.")),
        ),
    ),
    "wall-tie-missing": RuleSlips(
        (
            (_("Tie its top to the trusses beside it. Then let them all go."),
             _("Tied to each other alone, the whole row can tip.")),
            (_("Fix both its ends well, and let it go. Tie its top at the end."),
             _("Fixed ends hold its feet. Its top tips until it is tied to the wall.")),
        ),
        (
            (_("A truss at a higher wall leaves a gap there. The tie closes it, so that the rain can't run down "
                "inside."),
             _("Flashing keeps the rain out, and others fit it. The tie holds the truss.")),
            (_("A truss at a higher wall holds that wall up. Without the ties the wall leans out over the lower roof."),
             _("That wall was braced before. It holds the trusses, not they the wall.")),
        ),
    ),
}  # fmt: skip
