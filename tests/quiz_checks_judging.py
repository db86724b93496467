"""A second opinion on questions of judgement: both days are judged once more, whole and from the first action on."""

from __future__ import annotations

import re

from quiz_reading import CHECKS, check, right, tags, wrong

from trainer.quiz.question import Asked
from trainer.quiz.worked import Subject
from trainer.quiz.worked.action_words import action_line
from trainer.quiz.worked.judging import DAYS, JUDGING, PLACED
from trainer.quiz.worked.moments import Crew, Moment, moment_of
from trainer.rules import all_rules, judged
from trainer.site import Site

WHY = {rule.name: rule.why for rule in all_rules()}
FIX = {rule.name: rule.fix for rule in all_rules()}


def found_of(crew: Crew) -> set[str]:
    """The rules that are broken by the last thing that a crew does, as ``trainer grade`` finds them."""
    outcome = judged(crew.site.job, crew.actions)
    assert outcome is not None, "it can be done"
    last = len(crew.actions) - 1
    return {finding.rule for finding in outcome[1] if finding.event == last}


def told(crew: Crew, subject: Subject, moment: Moment) -> list[str]:
    lines = (action_line(subject, a, crew.site, places=moment.finding.rule in PLACED) for a in crew.shown)
    return list(dict.fromkeys(lines))


def listed_in(text: str) -> list[str]:
    return [line.rstrip(".") for line in re.split(r"(?:^|\. )\d+\. ", text) if line]


def moment_in(q: Asked, s: Subject) -> Moment:
    (rule,) = q.rules
    moment = moment_of(s, rule, int(q.id.rpartition(".")[2]) % DAYS)
    assert moment is not None
    assert rule in found_of(moment.wrong)
    assert not found_of(moment.right)
    return moment


def which_crew(q: Asked, s: Subject) -> None:
    moment = moment_in(q, s)
    (rule,) = q.rules
    lists = [listed_in(line.partition(": ")[2]) for line in q.text.split("\n")[1:]]
    guilty = 1 + lists.index(told(moment.wrong, s, moment))
    assert lists[2 - guilty] == told(moment.right, s, moment)
    (choice,) = right(q)
    assert choice == f"Crew {guilty}. {WHY[rule]}"
    assert len({text.partition(". ")[2] for text in (choice, *wrong(q))}) == 2, "both reasons for both crews"


def what_now(q: Asked, s: Subject) -> None:
    moment = moment_in(q, s)
    (rule,) = q.rules
    lines = listed_in(q.text.split("\n")[1])
    (choice,) = right(q)
    rightly, wrongly = told(moment.right, s, moment), told(moment.wrong, s, moment)
    fine = lines == rightly
    assert choice == ("Nothing. Go on." if fine else FIX[rule])
    if not fine:
        undone = [line.removeprefix("Not done: ") for line in lines if line.startswith("Not done: ")]
        assert [line for line in lines if not line.startswith("Not done: ")] == wrongly
        only_left_out = set(wrongly) < set(rightly)
        assert undone == ([line for line in rightly if line not in wrongly] if only_left_out else [])


for _family in JUDGING:
    CHECKS[_family.name] = which_crew if _family.name.startswith("which-crew") else what_now


def anchored(site: Site, without: tuple[str, frozenset[str]], tag: str) -> bool:
    """Whether ties along the tops lead from a truss to one that something solid holds, once one piece is off."""
    pieces = [p for p in site.bracing if (p.kind, frozenset(p.tags)) != without]
    solid = {t for p in pieces if p.solid for t in p.tags} | set(site.restrained)
    solid |= {t for t, how in site.holds.items() if how in ("hip end", "permanent", "given")}
    solid |= {t for t in site.stood if t.startswith("TG") and stands_finished(site, t)}
    reached, waiting = {tag}, [tag]
    while waiting:
        one = waiting.pop()
        for piece in pieces:
            if not piece.solid and one in piece.tags:
                new = set(piece.tags) - reached
                reached |= new
                waiting += new
    return bool(reached & solid)


def stands_finished(site: Site, girder: str) -> bool:
    """Whether all that hangs on a truncated girder and its hips stands: fixed, it is as good as something solid."""
    hangs = {m.tag for m in site.layout.members if girder in m.carried_by and m.kind in ("hip", "jack")}
    hangs |= {m.tag for m in site.layout.members if m.kind == "creeper" and hangs & set(m.carried_by)}
    return bool(hangs) and hangs <= set(site.stood)


@check("if-it-comes-off")
def _(q: Asked, s: Subject) -> None:
    assert q.drawing is not None
    (site,) = q.drawing.sites
    asked = q.text.split("\n")[0]
    named = set(tags(asked))
    kind = "solid" if "something solid" in asked else "batten"
    pieces = [p for p in site.bracing if p.kind == kind and p.tags[0] in named and (kind == "batten" or p.to is None)]
    (choice,) = right(q)
    holds = [anchored(site, (kind, frozenset(p.tags)), tag) for p in pieces for tag in p.tags]
    assert pieces and (choice.startswith("Nothing falls") in holds)
