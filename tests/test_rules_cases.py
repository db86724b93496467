"""Every rule has a guilty case and an innocent near miss beside it, and both are run."""

import re
from functools import cache

import pytest
from attempts import CASES, actions_of, attempt, inspection, layout_of, set_up, struck

from trainer.read import read_yaml
from trainer.rules import all_rules
from trainer.site import Flaw

NAMES = [rule.name for rule in all_rules()]
EXPECTED = ("finds", "got", "want")


def measures(text):
    return set(re.findall(r"[\d.]+ (?:mm|kg)", text))


@cache
def cases_of(name):
    path = CASES / "rules" / f"{name}.yaml"
    return read_yaml(path.read_bytes(), path.name).data if path.exists() else {}


def every(sort):
    found = [(name, case) for name in NAMES for case in cases_of(name).get(sort, [])]
    return [pytest.param(name, case, id=f"{name}: {case['says']}") for name, case in found]


def flaws_of(case):
    """A place is a tuple, as everywhere on a site."""
    return tuple(
        Flaw(**{key: tuple(value) if key == "at" else value for key, value in flaw.items()})
        for flaw in case.get("flaws", ())
    )


def expand(case):
    """The actions of a case, and what each of them is to find.

    Where it doesn't do so itself the roof is inspected, and the braces that are needed no more are taken out.
    """
    actions, expected, standing = [], [], []
    for entry in case["actions"]:
        if "ready" in entry:
            done = []
            for tag in entry["ready"]:
                done += set_up(layout_of(case["level"]), tag, standing, entry.get("count", 1))
                standing.append(tag)
        else:
            standing += [entry["tag"]] if entry["do"] == "stand" else []
            done = list(actions_of([{key: value for key, value in entry.items() if key not in EXPECTED}]))
            if entry["do"] == "hand_over" and not any(action.do == "inspect" for action in actions):
                done = [*inspection(case["level"], actions, flaws_of(case)), *done]
            if entry["do"] == "hand_over" and not case.get("strikes"):
                done = [*struck(case["level"], actions, flaws_of(case)), *done]
        actions += done
        expected += [{}] * (len(done) - 1) + [entry]
    return actions, expected


def run(case):
    actions, expected = expand(case)
    done = attempt(case["level"], actions, flaws_of(case))
    assert done.refused == ()
    wanted = [
        (i, rule, member)
        for i, entry in enumerate(expected)
        for rule, members in entry.get("finds", {}).items()
        for member in ([members] if isinstance(members, str) else members)
    ]
    assert sorted((f.event, f.rule, f.member) for f in done.findings) == sorted(wanted)
    return done.findings, expected


@pytest.mark.parametrize("name", NAMES)
def test_every_rule_has_both(name):
    cases = cases_of(name)
    assert cases.get("rule") == name
    assert cases.get("guilty"), f"{name} has no guilty case"
    assert cases.get("innocent"), f"{name} has no innocent near miss"


def test_no_case_is_for_a_rule_that_is_gone():
    assert {path.stem for path in (CASES / "rules").iterdir()} == set(NAMES)


@pytest.mark.parametrize(("name", "case"), every("guilty"))
def test_guilty(name, case):
    findings, expected = run(case)
    ours = [finding for finding in findings if finding.rule == name]
    assert ours
    for finding in ours:
        entry = expected[finding.event]
        assert finding.got == entry.get("got", finding.got)
        assert finding.want == entry.get("want", finding.want)
        for said in (finding.member, finding.got, finding.want):
            assert said in finding.what
        assert not measures(finding.got) & measures(finding.want), "what was found never reads like what is allowed"


@pytest.mark.parametrize(("name", "case"), every("innocent"))
def test_innocent(name, case):
    findings, _expected = run(case)
    assert name not in [finding.rule for finding in findings]
