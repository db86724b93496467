"""Wrong choices about what is looked at before the first lift: what is done and said on site instead."""

from __future__ import annotations

from collections.abc import Mapping

from trainer.quiz.slips.model import RuleSlips
from trainer.words import _

OF_THE_START: Mapping[str, RuleSlips] = {
    "check-left-undone": RuleSlips(
        (
            (_("Finish today's lifts. Go through the list before the first lift of tomorrow."),
             _("What the list would find can hurt someone today.")),
            (_("Go on lifting. One of the crew ticks the list from the plates, where it can all be seen."),
             _("Up there it is too late, and ticking finds nothing. Somebody has to look.")),
        ),
        (
            (_("The list is signed so that the day gets paid. Without it the hours of the crew don't count."),
             _("It is not about pay. It is about who could be hurt.")),
            (_("The list shows that the crew knows the house. After that nobody has to ask up on the plates."),
             _("Asking is never wrong. The list is there to find what can hurt someone.")),
        ),
    ),
    "service-line-in-reach": RuleSlips(
        (
            (_("Lift more slowly. One person watches the line, and calls out when a truss swings near it."),
             _("A call comes too late. A live line can kill before anything touches it.")),
            (_("Stop lifting. Push the line aside with a dry timber, and tie it back before the next lift."),
             _("Nobody goes near a live line, with timber or without. Those who run it make it safe.")),
        ),
        (
            (_("A truss that catches the line pulls it down. The whole street may be without power for days."),
             _("That is the least of it. What comes near a live line can kill whoever holds it.")),
            (_("Current heats the nailplates of a truss that comes near. They let go of the timber in the air."),
             _("It is people who are killed. Damp timber and slings carry current too.")),
        ),
    ),
    "stair-void-open": RuleSlips(
        (
            (_("Stop lifting. Lay a sheet over the void, and tell everyone that it is there."),
             _("A loose sheet slides or breaks. It looks safe and is not.")),
            (_("Lift from the other side of it. Mark the void with a bright tape on the floor."),
             _("Nobody looks at the floor while a truss is landed. Tape stops no fall.")),
        ),
        (
            (_("Nails and tools fall into a stair void and are lost. Each time the whole crew has to wait."),
             _("It is people who fall into it. That is a fall of a whole storey.")),
            (_("Frames round a stair void are weak until the stairs are in. They may not carry a truss yet."),
             _("They carry as other frames do. The hole in the floor is the danger.")),
        ),
    ),
    "edge-left-open": RuleSlips(
        (
            (_("Let the surest climber work at that edge. The others keep inside."),
             _("Sure feet slip too. Nobody works at an open edge.")),
            (_("Lift slowly there. Put the rail up once the trusses on that side stand."),
             _("It is while they are landed that people fall.")),
        ),
        (
            (_("Most bad injuries on roofs come of tools. They drop where there is no rail to stop them."),
             _("Tools hurt too. But most bad injuries on roofs come of falls.")),
            (_("Trusses are leaned on the rail while they wait. With none they slide off the plates."),
             _("Nothing is leaned on a rail. It stops people from falling.")),
        ),
    ),
    "people-under-the-lift": RuleSlips(
        (
            (_("Call out before each lift, and go on. Those below step aside when a truss comes."),
             _("A truss that slips comes faster than anyone can step aside. Clear the zone.")),
            (_("Stop lifting. Give helmets to all who stand in the zone, and lift slowly from then on."),
             _("No helmet stops a truss. Nobody stays under a lift.")),
        ),
        (
            (_("Those below talk to the one who signals. The crane then waits, and each lift takes longer."),
             _("It is not about time. A truss may come down on them.")),
            (_("Those below get hold of the tag line. The truss is then turned before it is at its place."),
             _("The tag line is held from well clear. What slips comes down on those below.")),
        ),
    ),
    "forecast-not-heeded": RuleSlips(
        (
            (_("Go on while it is calm. Brace the row when the first gust has come."),
             _("The first gust may take the truss in the slings. Agree before when lifting stops.")),
            (_("Lift faster while it is calm. The more trusses stand, the better they take the wind."),
             _("A row with only ties on it is a sail. More trusses make a bigger one.")),
        ),
        (
            (_("Wind dries the timber of a truss in the slings. It bows before it is fixed."),
             _("Timber does not dry so fast. Wind pushes on what hangs and what stands.")),
            (_("Strings blow about in the wind. A row can't be put straight by them that day."),
             _("Straight can wait. The wind may take the row.")),
        ),
    ),
    "unbraced-wall-loaded": RuleSlips(
        (
            (_("Go on. Once trusses are fixed to both walls, they hold the frame up."),
             _("The frame holds the trusses. Until it is braced it can fold under them.")),
            (_("Land the next ones gently. Have somebody hold the frame while they come down."),
             _("Nobody can hold a frame that folds, and they stand under it.")),
        ),
        (
            (_("A frame that is not braced is springy. Nails bounce on it, and trusses are not held well."),
             _("Nails can be driven. But the frame can fold under the trusses.")),
            (_("A frame that is not braced has no marks yet. The trusses on it stand where nobody measured."),
             _("Marks are drawn on the plate, braced or not. It is about what the frame can hold.")),
        ),
    ),
    "ledger-not-on-studs": RuleSlips(
        (
            (_("Put in twice as many bolts, and longer ones. Then the bricks take what hangs on the ledger."),
             _("Brick veneer carries nothing but itself, with any number of bolts.")),
            (_("Put props under the ledger along its length. Leave them there until the roof is finished."),
             _("When they go, it hangs on the bricks again. It has to be bolted to the studs.")),
        ),
        (
            (_("Bricks hold water. A ledger bolted to them rots in a few years, and the roof under it leaks."),
             _("Damp is slow. Brick veneer can't carry the ledger from the first day.")),
            (_("Bolts crack the bricks round them. The owner sees it, and the whole wall has to be rendered."),
             _("It is not about looks. The ledger pulls out, and the roof comes down.")),
        ),
    ),
    "plate-out-of-true": RuleSlips(
        (
            (_("Go on. The weight of the roof pulls that wall straight when all the trusses stand."),
             _("Weight pushes a wall that is out further out. It is put right from below.")),
            (_("Cut the ends of the trusses on that wall, so that they fit it as it stands."),
             _("A truss is never cut. The wall is put right.")),
        ),
        (
            (_("A plate that is out splits when it is nailed. The trusses come loose, and the roof leaks in time."),
             _("It takes nails as well as any. But the roof follows it.")),
            (_("A plate that is out shows a wall with no braces. It goes over as soon as a truss is landed on it."),
             _("It may be well braced and still be out. What stands on it is then out as well.")),
        ),
    ),
    "pack-landed-badly": RuleSlips(
        (
            (_("Leave it there. Lift its trusses first, so that it gets lighter."),
             _("The frame may give way before. The pack goes first.")),
            (_("Report it. Have the pack slid along the plate to the middle of the wall."),
             _("It still lies on the frame, and sliding it may push the frame over.")),
        ),
        (
            (_("A pack takes up room. Nobody gets past it to mark the plate."),
             _("It is about its weight, not about room.")),
            (_("A pack dries up there in the sun. Its trusses bow before they are lifted."),
             _("That takes weeks. Its weight can bring the frame down today.")),
        ),
    ),
    "missing-truss-not-reported": RuleSlips(
        (
            (_("Start with what is there. Where one is missing, share the gap out among the trusses beside it."),
             _("Then each of those gaps is too wide. Report what is missing before the first lift.")),
            (_("Count what stands in the roof at the end. Then order all that is missing in one go."),
             _("By then a row has waited half done. Count the load on the ground.")),
        ),
        (
            (_("A truss that is missed late has to be paid for. The maker asks to be told on the same day."),
             _("Who pays is not the point. A row has to wait half done.")),
            (_("A truss that is missed puts the tags out. All after it have to be given another number."),
             _("Tags stay as they are. But a row has to wait half done.")),
        ),
    ),
    "report-without-looking": RuleSlips(
        (
            (_("Report all that could be wrong. Whoever comes to look finds out what is so."),
             _("They stop work for each of these. Soon no report is believed.")),
            (_("Ask the others what they think. Report it if most of them say so too."),
             _("Nobody measures a wall by asking round. Look, then report.")),
        ),
        (
            (_("One that is not so can't be taken back. The other crew then does what it says, and one of them pays."),
             _("It can be taken back. But others have stopped work for it.")),
            (_("A report goes to the inspector. Each one puts the day of the inspection back by a week."),
             _("It is about those on site who stop work for it.")),
        ),
    ),
    "damaged-truss-stood": RuleSlips(
        (
            (_("Leave it where it stands. Nail a piece as thick on both sides of the damage, and go on."),
             _("Only the fabricator's written repair says what holds. Yours may not.")),
            (_("Take it down and turn it round. Then the damage lies on the side that carries less."),
             _("A damaged truss may fail either way round. And each end is made for its own place.")),
        ),
        (
            (_("A damaged truss can't be tied to the next. From there on nothing holds the row."),
             _("It can be tied. But it may fail under the first load.")),
            (_("A damaged truss shows through the ceiling. It has to be changed before the plasterer comes."),
             _("It may fail long before that, under its first load.")),
        ),
    ),
    "pack-left-on-row": RuleSlips(
        (
            (_("Stop. Brace the row under the pack. Then go on lifting."),
             _("Whoever braces it stands by a row that may roll over. The pack comes off first.")),
            (_("Lift the trusses off it one by one, as they are needed."),
             _("The row may roll over before the pack is gone.")),
        ),
        (
            (_("A row with a pack on it sags. Its ridge is then no longer level when it is covered."),
             _("Sagging is the least. A half-braced row rolls over.")),
            (_("A row with a pack on it can't be measured. The pack hides its marks and its tops."),
             _("It is not about measuring. The row can roll over.")),
        ),
    ),
}  # fmt: skip
