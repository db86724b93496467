"""What the trainer finds in an attempt: one short file a rule, named for the mistake.

A rule subscribes to the kinds of action that its mistake can come of. It is given the site before one
event, the event, and the site after it, and yields what it finds; it keeps nothing. So judging one more
action costs what that action touches, and an attempt judged again gives the same findings.

**Where things are.** Rules are filed by stage: ``pre_start/``, ``set_out/``, ``stand/``, ``brace/``,
``fix/``, ``hand_over/``; each lists its own as ``RULES``. What
several rules ask is beside them: :mod:`placement` (is it where it belongs), :mod:`carriers` (was the carrier
ready), :mod:`letting_go` (what was let go loose), :mod:`brackets`, :mod:`completeness`. :mod:`judge` puts
them together. :mod:`rule` has the decorator.

**To add a rule:** write its file under its stage, with its texts and its check; list it in its stage's ``RULES``;
name it in :mod:`duties` under what of the job it covers, and give it a title in :mod:`titles`, a guilty case and an
innocent near miss under
``tests/cases/rules/``; write the page anew with ``trainer rules --page``. Tests fail until all of it is
there. ``what`` may use ``{member}``, ``{got}`` and ``{want}`` and nothing else,
so that a finding can be worded again in another language.

**One cause counts once.** Two means, and no third:

*Within what one event shows*, one question has one answer, and the rules that share it each take their part:

- ``placement.misplaced`` gives a truss one fault of place: setback before girder line before wrong truss
  before off station. A truncated girder off its setback is not off-station as well; a truss that moved
  with its carrier is not out at all. ``spacing-too-wide`` speaks only where neither neighbour is out.
- ``carriers.set_down_too_early`` names a carrier that was not ready once, at the first truss set down on it.
  A saddle's support, a hip's truncated girder and any other carrier have a rule each, and never two.
- ``letting_go.let_go_loose`` gives a row that went over to ``row-with-nothing-solid``, a truss that lost what held
  it to ``bracing-taken-too-early``, and any other loose truss to ``stood-before-last-tied``. A truss that is loose
  only because its carrier is, is none of these. One that its ends hold is loose with neither fixed; with one
  fixed it is held, and ``let-go-half-fixed`` speaks of the other.
- A swapped tag that nobody saw is found as the wrong truss that it puts in the roof, both ways round as one.
- ``brackets``: a bracket is not missed while its carrier is; an end without its bracket is not missed again
  for want of nails. ``out-of-order`` leaves a carrier that does not stand to the rules above.
- ``links``: a bracket, batten or trimmer is looked for when something comes down on it; ``tie-down-missing`` speaks of
  an end with nothing of the right kind, ``tie-down-too-light`` only of one with too few.
- ``permanent.lack_of_row``: braces of a row that come out before its roof braces are all in came out too early for want
  of the first that is missing, and share its cause. A girder's brace shares that of whatever the girder still lacks.
- ``completeness``: an empty place whose truss stands elsewhere was found where that truss stands; a truss
  in the yard and its empty place are one thing. A missing truss misses no fixings.
  One that fell and was cleared away shares the cause of the fall.
- ``links.cause_of_slot``: a slotted bracket missing where something was fixed hard to the wall is that fixing.
- Others put right what fell or was let go loose, so that an attempt can be read on. What still lies so at hand-over,
  or is still not tied, is found again with its cause: the roof is not whole.

*Over time*, one thing left undone can show more than once: a girder never fixed is found when a hip is hung on
it, and again at hand-over. Both are told, since both are true and each explains something. Each finding
carries its ``cause``, named after what was left undone (``fix TG1``) or mixed up (``trusses T1 T2``), and
:mod:`trainer.score` marks a cause once, by its heaviest finding.
"""

from trainer.rules.duties import DUTIES
from trainer.rules.finding import Finding
from trainer.rules.judge import all_rules, judge
from trainer.rules.page import rules_page
from trainer.rules.replay import judged
from trainer.rules.rule import LEVEL, PRACTICE, TRAINING_CODE, Rule
from trainer.rules.titles import title_of
