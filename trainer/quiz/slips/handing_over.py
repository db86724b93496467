"""Wrong choices about the inspection, loading and handing over: what is done and said on site instead."""

from __future__ import annotations

from collections.abc import Mapping

from trainer.quiz.slips.model import RuleSlips
from trainer.words import _

OF_HAND_OVER: Mapping[str, RuleSlips] = {
    "bay-left-too-wide": RuleSlips(
        (
            (_("Leave the truss. Nail a rafter of the same timber into the wide bay, from the plate up to the ridge."),
             _("Nobody designed that rafter. The truss goes to its mark.")),
            (_("Move the truss to its mark, with all that is on it. The roof braces stretch, and can stay as they "
                "are."),
             _("What was fixed off the mark no longer holds at the mark. It is done again.")),
        ),
        (
            (_("Each truss is made to stand in line with the next when it is seen from the street. Beside a wide bay "
                "the ceiling looks uneven."),
             _("It is not about looks. Beside a wide bay a truss carries too much.")),
            (_("Each truss leans a little on its ties towards the next. Beside a wide bay it leans further, and its "
                "fixings work loose."),
             _("A held truss does not lean into a gap. It carries too much beside it.")),
        ),
    ),
    "loaded-before-hand-over": RuleSlips(
        (
            (_("Leave the load. Spread it on both slopes, and finish the bracing."),
             _("Nobody works under a roof that was loaded too early. Take it off first.")),
            (_("Take half of it off. A roof half braced can take half of the load."),
             _("It may take none. Loads tip trusses that are not fully braced.")),
        ),
        (
            (_("An unfinished roof can't be inspected with a load on it. It hides the fixings."),
             _("They could be seen from below. But loads tip trusses that are not braced.")),
            (_("An unfinished roof is open to the rain. Packs get wet, and have to go back."),
             _("Rain is the least. Loads tip trusses that are not fully braced.")),
        ),
    ),
    "roof-loaded-unevenly": RuleSlips(
        (
            (_("Tell the crew before they lift. One stack at the ridge, for both slopes."),
             _("A heap at mid-span bends the trusses. Small stacks, near the walls.")),
            (_("Let them load one slope and cover it. Then the other slope comes."),
             _("A load on one side bends the trusses. It goes on both slopes.")),
        ),
        (
            (_("Covers are laid from the eave up. A heap on one side or at mid-span is too far off, and is carried "
                "twice."),
             _("It is not about carrying. A heap bends the trusses.")),
            (_("Cranes reach only so far. A heap on one side or at mid-span stands where no hook can get at it again."),
             _("A crane may well reach it. The trusses can't take it.")),
        ),
    ),
    "loading-not-agreed": RuleSlips(
        (
            (_("Say that the roof is finished. The crew knows best where its packs land."),
             _("They land them where it suits their crane. The trusses may not suit that.")),
            (_("Say where the first packs land: in one stack on the strongest truss."),
             _("No truss is made for a heap. Small stacks, on both slopes.")),
        ),
        (
            (_("The next crew shares the crane with you. They have to know for how long."),
             _("It is not about the crane. It is about where they load the roof.")),
            (_("The next crew picks its cover by the roof. They need to know its pitch."),
             _("The cover was picked long ago. It is about where its packs land.")),
        ),
    ),
    "accepted-unmeasured": RuleSlips(
        (
            (_("Sight along the row. Change your verdict if one of them stands out."),
             _("The eye misses a lean of a few centimetres. Measure it.")),
            (_("Leave it as it is. Measure the next of its kind, and judge both by it."),
             _("The reading of one says nothing about the other.")),
        ),
        (
            (_("The eye gets tired up there. With a reading two people can share the work."),
             _("It is not about the work. The eye misses a lean that a reading shows.")),
            (_("The eye can't see the tags from the floor. A reading says which truss it is."),
             _("The tag says that. A reading says whether it stands within limits.")),
        ),
    ),
    "accepted-out-of-limits": RuleSlips(
        (
            (_("Leave it accepted. Write the reading beside it for those who come next."),
             _("They cover it up as it is. It is put right first.")),
            (_("Measure it again until a reading is within the limit. Then leave it."),
             _("The truss is no straighter for that. Put it right, then measure.")),
        ),
        (
            (_("What is accepted is paid for. Then the maker takes nothing back."),
             _("It is not about who pays. It is soon covered up.")),
            (_("What is accepted is signed. Then only an inspector may touch it."),
             _("It may be put right. But it is soon covered, and that costs far more.")),
        ),
    ),
    "rejected-though-sound": RuleSlips(
        (
            (_("Keep it rejected. It can only gain from being put right once more."),
             _("Work that is right is then done again, for nothing.")),
            (_("Ask whoever stood it. Take the verdict back if they say that it is sound."),
             _("A reading decides, and not what somebody says.")),
        ),
        (
            (_("A truss that was rejected can't be stood again. Another has to be made first."),
             _("It could be put right. But here nothing was wrong with it.")),
            (_("A verdict is given only once. What was rejected stays so in the papers for good."),
             _("A verdict can be changed. Until then work is done again, for nothing.")),
        ),
    ),
    "not-inspected": RuleSlips(
        (
            (_("Measure the first truss that was stood. The others were stood by it."),
             _("Each row and each kind can be out by itself.")),
            (_("Look up from below in each room. Measure what does not look right."),
             _("The eye misses a lean of a few centimetres.")),
        ),
        (
            (_("An inspection shows who made which fault. Later nobody can remember it."),
             _("It is not about blame. Faults are still easy to reach.")),
            (_("An inspection gives the timber time to settle. Later it takes more load."),
             _("Timber needs no such time. Faults are still easy to reach.")),
        ),
    ),
    "braces-left-inside": RuleSlips(
        (
            (_("Leave them there for good. The more braces a roof has, the better."),
             _("What replaces them is in. They are in the way, and push walls about.")),
            (_("Take the braces and props out. Then tie each top along the row."),
             _("Between the two nothing holds it. The ties come first.")),
        ),
        (
            (_("The next house needs them. Left inside, they have to be bought again for it."),
             _("Timber can be bought. They are in the way, and push walls about.")),
            (_("Their timber is not treated. Left inside, it rots, and what it touches rots with it."),
             _("It stays dry there. But it is in the way, and pushes walls about.")),
        ),
    ),
}  # fmt: skip
