"""Wrong choices about straightening, tie-down and internal walls: what is done and said on site instead."""

from __future__ import annotations

from collections.abc import Mapping

from trainer.quiz.slips.model import RuleSlips
from trainer.words import _

OF_FIXING: Mapping[str, RuleSlips] = {
    "no-string-line": RuleSlips(
        (
            (_("Leave those that stand. Pull the string for the trusses that are to come."),
             _("What stands is then off the line of the others.")),
            (_("Sight along the tails of the row. Where they line up, the tops do as well."),
             _("Plates are rarely dead straight. Tails in line don't put tops in line.")),
        ),
        (
            (_("A string from top to top holds the trusses until they are tied."),
             _("A string holds nothing. It shows where each top has to be.")),
            (_("A string from top to top shows how long the ridge has to be."),
             _("The plan says how long it is. The string shows where each top has to be.")),
        ),
    ),
    "tail-cut": RuleSlips(
        (
            (_("Nail on a piece of the same timber, as long as what is gone."),
             _("It may not carry the eave. Only the written detail says what does.")),
            (_("Cut the other tails as short, so that the eave is in line again."),
             _("Then they are all too short, and the eave is too narrow.")),
        ),
        (
            (_("The tails keep the truss on its plate. With a short one it slides in off the wall."),
             _("Its fixings keep it there. The tails make the eave.")),
            (_("The tails are the first to rot. A fresh cut takes up water, and so do those beside it."),
             _("It is not about rot. The tails make the eave, and a short one stays short.")),
        ),
    ),
    "truss-bowed": RuleSlips(
        (
            (_("Turn the truss round, so that it bows to the other side. Then nail it."),
             _("It is as bowed as before, and now stands end for end.")),
            (_("Leave it as it is. The steel brace pulls it straight when it goes on."),
             _("A brace locks the row as it stands. Straight comes first.")),
        ),
        (
            (_("A bowed chord is short. One end of the truss no longer reaches its plate."),
             _("A bow hardly shortens it. But it bends further under load.")),
            (_("A bowed chord is wet. It has to dry before it is nailed to anything."),
             _("It may be dry and bowed. It is weak, as it bends further under load.")),
        ),
    ),
    "apex-off-line": RuleSlips(
        (
            (_("Sight along the tails from one outermost truss to the other. Shift the truss until its tail is in "
                "that line."),
             _("Tails in line don't put tops in line. The string goes from top to top.")),
            (_("Pull a string along the plate from one end wall to the other. Shift the truss until its heel meets "
                "it."),
             _("That puts the heels in line. The ridge is made by the tops.")),
        ),
        (
            (_("The ridge then comes low. A truss that is out of line stands lower than the ones on both sides of it."),
             _("It stands as high as they do. But the ridge wanders.")),
            (_("The bays then come out uneven. A truss that is out of line stands nearer to one neighbour than the "
                "other."),
             _("Its station stays as it is. It is its top that is off the line.")),
        ),
    ),
    "long-web-not-tied": RuleSlips(
        (
            (_("Run a tie along the row. Nail it to each bottom chord below the web."),
             _("That ties the chord. The web still bows at its middle.")),
            (_("Drive more nails through the plates at both ends of each long web."),
             _("Nailplates are left alone. And it is at its middle that the web bows.")),
        ),
        (
            (_("A long thin web that is pulled gets longer. A tie takes half of the pull off it."),
             _("A web that is pulled stays straight by itself. One that is pushed bows.")),
            (_("A long thin web shakes in the wind. A tie at its middle keeps the ceiling quiet."),
             _("It is not about noise. Pushed, it bows out sideways.")),
        ),
    ),
    "fixed-hard-to-internal-wall": RuleSlips(
        (
            (_("Leave the fixing in. Pack the gap under the truss too, so that it sits firm."),
             _("Then the wall carries the roof. It must not.")),
            (_("Take the fixing out, and leave it at that. The ceiling holds the wall well enough."),
             _("Nothing then holds the top of the wall straight. It needs a slotted bracket.")),
        ),
        (
            (_("An internal wall is rarely in line. A truss fixed hard to it is pulled off its mark, and so is the "
                "row."),
             _("It may be well in line. It must not carry the roof.")),
            (_("An internal wall may come out one day. A truss fixed hard to it has to be cut loose, and is then too "
                "weak."),
             _("That day may never come. The wall must not carry the roof from the first.")),
        ),
    ),
    "extension-not-fixed": RuleSlips(
        (
            (_("Fix the extension at its upper end. Its weight keeps it on the others."),
             _("Weight keeps no truss upright. It is fixed to each one that it crosses.")),
            (_("Fix the extension to every second truss. The ones between can't go far."),
             _("They can lean. It is fixed to each truss that it crosses.")),
        ),
        (
            (_("Extensions carry the ceiling of the hip end. Left loose, it sags."),
             _("They are up at the roof. They keep the trusses under them upright.")),
            (_("Extensions show where the hip line runs. Left loose, it gets lost."),
             _("They do more than show it. They keep the trusses under them upright.")),
        ),
    ),
    "slotted-bracket-missing": RuleSlips(
        (
            (_("Nail each truss down to that wall, so that the wall's top is held."),
             _("The wall would carry the roof. A slotted bracket lets the truss move.")),
            (_("Fix one slotted bracket at each end of the wall. The plate holds the rest."),
             _("A long plate bends between its ends. The plan says how far apart they are.")),
        ),
        (
            (_("The wall carries the middle of each truss. A slotted bracket spreads that load along the plate."),
             _("An internal wall carries no truss. The bracket carries no load.")),
            (_("The wind lifts trusses off an internal wall. A slotted bracket ties their middle down to it."),
             _("The ends are tied down. The bracket holds the wall, and not the truss.")),
        ),
    ),
    "tie-down-missing": RuleSlips(
        (
            (_("Drive two long nails through the end into the plate, at an angle."),
             _("The plan says what holds it, and that is more than two nails.")),
            (_("Leave it. The cover and the ceiling weigh enough to keep it down."),
             _("Wind can lift more than a light roof weighs.")),
        ),
        (
            (_("Wind pushes a roof along. Each end must be kept from sliding on the plate."),
             _("One connector stops it from sliding. The rest hold against the lift.")),
            (_("Wind shakes a roof. Each end must be kept so still that no ceiling cracks."),
             _("It is about far more. Wind can lift the roof off.")),
        ),
    ),
    "tie-down-too-light": RuleSlips(
        (
            (_("Work out the weight: roof area times what the cover weighs. Then fit connectors to hold that."),
             _("Its weight holds it down. It is the lift that they have to hold.")),
            (_("Leave them at the middle of the house. Add connectors at the corners, where the wind is felt."),
             _("Each end and each crossing is lifted by the roof it carries.")),
        ),
        (
            (_("The roof presses on each end and each crossing. With too few connectors it sinks, and the ceiling "
                "cracks."),
             _("The plate takes what presses. Connectors hold against the lift.")),
            (_("The inspector counts what is at each end. With too few connectors the whole roof has to be fixed "
                "again."),
             _("It is not about the count. Wind lifts what is held too lightly.")),
        ),
    ),
    "connector-half-nailed": RuleSlips(
        (
            (_("Take longer nails for the holes that are used. Leave the others open."),
             _("Its figure is for the nails on the sheet, and for all of them.")),
            (_("Put the nails in at both ends. The holes between are spare ones."),
             _("No hole that the sheet asks for is spare.")),
        ),
        (
            (_("A connector with open holes rusts from inside. In a few years it holds about half of what it did."),
             _("Rust is slow. Half-nailed, it holds half from the first day.")),
            (_("A connector with every nail in keeps the truss plumb. With half of the nails it leans in its bracket."),
             _("Ties and braces keep it plumb. The nails hold against the lift.")),
        ),
    ),
}  # fmt: skip
