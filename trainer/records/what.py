"""What is stored, why, and what it can't do: the same words on the board, at the command line and in reports."""

from __future__ import annotations

from trainer.words import _

WHAT = (
    _("Stored: a code name, what was done on each house or answered to each question, and when."),
    _("Stored: the house's level file, the seed, the marks, and which edition of the rules judged it."),
    _("Stored: whether a hint was taken before it."),
    _("Why: so that you can go on, see what to practise next, and show your work to an assessor."),
    _("Not stored: your name, unless somebody here enters it. It then stays on this machine."),
    _("Not stored: anything on your health, what else you type, or what else this machine does."),
    _("Nothing leaves this machine unless somebody exports it."),
    _("A sitting writes its result into the folder of its class, such as a stick."),
    _("To remove a person: 'trainer records erase CODE'. Files handed out before are not reached."),
)
