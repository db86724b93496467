"""Diaries for cases, put together from what a carpenter would say and judged from outside.

A case names a house and a base, a right way to build it, and says what is done otherwise. Everything goes through
the contracts: the layout as ``trainer layout --json`` prints it, a diary file, and what ``trainer grade --json`` finds.
Nothing of the trainer's own rooms is used, so that a case can't share a mistake with what it tries.

A base is a list of lines in ``tests/cases/bases.yaml``. A line is an action of a diary, or one of these:

``{up: ST2, tie: ST1}``
    All that one truss takes, done right: plies, brackets for what will hang on it, what lies under a saddle, standing,
    a batten to ST1 (a brace to something solid where ``tie`` is left out), plumbing, both ends, its crossings.
    ``without`` leaves some of it out: ``brace``, ``plumb``, ``end 1``, ``end 2``, ``join``, ``prop``, ``seat``,
    ``trim``, ``cross`` (or ``cross T1``), ``brackets`` (or ``bracket TG1``, the one that this truss needs).
``{done: true}``
    What is left to fix where trusses cross, the inspection, and the hand-over.

In an action, the places of a ``stand``, the connector of a ``fix`` and the place of a bracket ``for`` a truss may be
left out: the layout knows them. A base ``{rehearsed: 3}`` is the right diary that the trainer draws at seed 3.

Edits are done in order: ``{up: …}`` puts that truss up otherwise, ``{drop: where}`` leaves out all such lines
(``drop_any`` also where there are none), ``{stop: where}`` ends the diary there, ``{move: where, before: where}`` and
``{insert: [lines], after: where}`` say what they do. ``where`` is a tag (its ``up`` line, or else its ``stand``),
``hand-over``, or part of an action; in it ``names: ST2`` is any action on that truss, ``nth: 2`` the second such.
"""

from __future__ import annotations

import json
import math
from copy import deepcopy
from functools import cache
from pathlib import Path
from typing import Any

import yaml
from typer.testing import CliRunner

from trainer.cli import app

CASES = Path(__file__).parent / "cases"
TIPS = ("standard", "truncated", "truncated_girder", "girder", "gable", "half")
Action = dict[str, Any]
RUNNER = CliRunner()


_SafeLoader = yaml.CSafeLoader if yaml.__with_libyaml__ else yaml.SafeLoader
_SafeDumper = yaml.CSafeDumper if yaml.__with_libyaml__ else yaml.SafeDumper


class _Reader(_SafeLoader):
    """YAML in which ``on`` is a word, as in a diary."""


_Reader.yaml_implicit_resolvers = {
    letter: [(tag, how) for tag, how in resolvers if not (tag.endswith(":bool") and letter in "oOyYnN")]
    for letter, resolvers in _SafeLoader.yaml_implicit_resolvers.items()
}


def read(path: Path) -> Any:
    """What a YAML file says."""
    return yaml.load(path.read_text(encoding="utf-8"), _Reader)


def called(*words: str) -> str:
    """What a command prints."""
    result = RUNNER.invoke(app, list(words))
    assert result.exit_code == 0, result.output
    return result.stdout


@cache
def _bases() -> dict[str, Any]:
    return read(CASES / "bases.yaml")


def cases_in(folder: str) -> list[tuple[str, dict[str, Any]]]:
    """(name, case) of all cases in a folder, each with its file's level, base and danger where it has none itself."""
    found = []
    for path in sorted((CASES / folder).glob("*.yaml")):
        document = read(path)
        shared = {key: value for key, value in document.items() if key != "cases"}
        found += [(f"{path.stem}: {case['says']}", {**shared, **case}) for case in document["cases"]]
    return found


def level_file(case: dict[str, Any], folder: Path) -> str:
    """The path or the id of a case's level: one of the cases, a shipped one, or either with what the case changes."""
    name = case.get("level") or _bases()[case["base"]]["level"]
    path = CASES / "levels" / f"{name}.yaml"
    if not path.exists():
        path = CASES.parent.parent / "levels" / f"{name}.yaml"
    change = case.get("house")
    if not change:
        return str(path)
    level = _merged(read(path), change)
    file = folder / f"{name}.yaml"
    file.write_text(yaml.dump(level, Dumper=_SafeDumper), encoding="utf-8")
    return str(file)


def _merged(under: dict[str, Any], over: dict[str, Any]) -> dict[str, Any]:
    merged = dict(under)
    for key, value in over.items():
        both = isinstance(value, dict) and isinstance(merged.get(key), dict)
        merged[key] = _merged(merged[key], value) if both else value
    return merged


class House:
    """A layout as printed, and the actions that it gives a meaning to."""

    def __init__(self, layout: dict[str, Any]) -> None:
        self.layout = layout
        self.by_tag = {member["tag"]: member for member in layout["members"]}

    def run(self, tag: str, at: list[float]) -> float:
        """How far along a truss a plan point lies from its ``from``, to half a millimetre."""
        (ax, ay), (bx, by) = self.by_tag[tag]["from"], self.by_tag[tag]["to"]
        along = ((at[0] - ax) * (bx - ax) + (at[1] - ay) * (by - ay)) / math.dist((ax, ay), (bx, by))
        return round(along * 2) / 2

    def ends(self, tag: str) -> list[tuple[int, dict[str, Any], list[float]]]:
        member = self.by_tag[tag]
        return [(1, member["ends"][0], member["from"]), (2, member["ends"][1], member["to"])]

    def brackets_of(self, tag: str) -> list[Action]:
        """The brackets that a truss hangs in, on its carriers."""
        hung = [(end, at) for _, end, at in self.ends(tag) if end["bears_on"] in self.by_tag]
        if self.by_tag[tag]["kind"] == "saddle":
            return []
        return [
            {"do": "fit", "part": end["fixing"], "on": end["bears_on"], "at": self.run(end["bears_on"], at)}
            for end, at in hung
        ]

    def put_up(self, line: dict[str, Any], standing: list[str]) -> list[Action]:
        """All that a truss takes, but for what the line leaves out."""
        tag, without = line["up"], line.get("without", [])
        member = self.by_tag[tag]
        found: list[Action] = []
        if member["plies"] > 1 and "join" not in without:
            found.append({"do": "fit", "part": "plies joined", "on": tag})
        if "brackets" not in without:
            for other in self.layout["members"]:
                hung = [fit for fit in self.brackets_of(other["tag"]) if fit["on"] == tag]
                found += hung if f"bracket {other['tag']}" not in without else []
        if member["kind"] == "saddle":
            found += self.under_saddle(tag, without)
        found.append(self.whole({"do": "stand", "tag": tag}))
        if "brace" not in without:
            found += self.braced(line, standing)
        if member["kind"] in TIPS and "plumb" not in without:
            found.append({"do": "plumb", "tag": tag})
        found += [self.whole({"do": "fix", "tag": tag, "end": n}) for n in (1, 2) if f"end {n}" not in without]
        crossed = [fix for other, fix in self.crossings(tag, standing) if f"cross {other}" not in without]
        return found if "cross" in without else found + crossed

    def under_saddle(self, tag: str, without: list[str]) -> list[Action]:
        found = [] if "seat" in without else [{"do": "fit", "part": "batten", "on": tag}]
        names = {end["bears_on"] for _, end, _ in self.ends(tag)}
        for part in self.layout["parts"]:
            if part["name"] in names and part["on"] == tag and "trim" not in without:
                middle = [(a + b) / 2 for a, b in zip(part["from"], part["to"], strict=True)]
                length = math.dist(self.by_tag[tag]["from"], self.by_tag[tag]["to"])
                at = min(max(self.run(tag, middle), 0.0), round(length * 2) / 2)
                found.append({"do": "fit", "part": "trimmer", "on": tag, "at": at})
        return found

    def braced(self, line: dict[str, Any], standing: list[str]) -> list[Action]:
        """The brace of a truss that tips, the prop of a free extension, the tie of a tall saddle."""
        tag = line["up"]
        kind = self.by_tag[tag]["kind"]
        if "tie" in line:
            return [{"do": "brace", "kind": "batten", "tags": [tag, line["tie"]]}]
        if kind in TIPS:
            return [{"do": "brace", "kind": "solid", "tags": [tag]}]
        if kind == "saddle" or "prop" in line.get("without", []):
            return []
        under = [c["under"] for c in self.layout["crossings"] if c["over"] == tag and c["what"] == "extension"]
        free = any(self.by_tag[other]["kind"] == "truncated" and other not in standing for other in under)
        return [{"do": "brace", "kind": "prop", "tags": [tag]}] if free else []

    def crossings(self, tag: str, standing: list[str]) -> list[tuple[str, Action]]:
        """(the other truss, its fixing) wherever an extension crosses a truss and both stand."""
        found = []
        for crossing in self.layout["crossings"]:
            over, under = crossing["over"], crossing["under"]
            other = under if over == tag else over
            if crossing["what"] != "extension" or tag not in (over, under) or other not in standing:
                continue
            found.append((other, {"do": "fix", "tag": over, "at": crossing["at"], "with": "framing anchor"}))
        return found

    def done(self, actions: list[Action]) -> list[Action]:
        """What is left where trusses cross, each truss that tips read and accepted, and the hand-over."""
        standing = [action["tag"] for action in actions if action["do"] == "stand"]
        found: list[Action] = []
        for crossing in self.layout["crossings"]:
            if crossing["what"] == "extension" and {crossing["over"], crossing["under"]} <= set(standing):
                fix = {"do": "fix", "tag": crossing["over"], "at": crossing["at"], "with": "framing anchor"}
                found += [fix] if fix not in actions else []
        for tag in dict.fromkeys(standing):
            if self.by_tag[tag]["kind"] in TIPS:
                found += [{"do": "measure", "what": what, "tag": tag} for what in ("plumb", "bow")]
                found.append({"do": "inspect", "tag": tag, "accept": True})
        return [*found, {"do": "hand_over"}]

    def whole(self, action: Action) -> Action:
        """An action with what the layout knows filled in."""
        member = self.by_tag.get(action.get("tag", ""))
        if action["do"] == "stand" and member:
            return {"do": "stand", "tag": action["tag"], "from": member["from"], "to": member["to"], **action}
        if action["do"] == "fix" and "with" not in action and member:
            connector = member["ends"][action["end"] - 1]["fixing"] if "end" in action else "framing anchor"
            return {**action, "with": connector}
        if action["do"] == "fit" and "for" in action:
            wanted = action["for"]
            (fit,) = (f for f in self.brackets_of(wanted) if f["on"] == action.get("on", f["on"]))
            return {**fit, **{key: value for key, value in action.items() if key != "for"}}
        return dict(action)


@cache
def _house(level: str) -> House:
    """A house as laid out, once for all its cases; a level that a case changes is a file of its own."""
    return House(json.loads(called("layout", level, "--json")))


@cache
def _rehearsed(level: str, seed: int) -> list[Action]:
    return yaml.load(called("rehearse", level, "--seed", str(seed)), _Reader)["actions"]


class Diary:
    """The lines of a case, and the actions that they come to."""

    def __init__(self, case: dict[str, Any], folder: Path) -> None:
        self.level = level_file(case, folder)
        self.house = _house(self.level)
        lines = self._base(case, folder)
        for edit in case.get("edits", []):
            lines = self._edited(lines, edit)
        self.actions = self._actions(lines)
        self.seed = case["base"].get("rehearsed", 0) if isinstance(case.get("base"), dict) else 0

    def _base(self, case: dict[str, Any], folder: Path) -> list[Action]:
        base = case.get("base")
        if isinstance(base, dict):
            return deepcopy(_rehearsed(self.level, base["rehearsed"]))
        return deepcopy([*(_bases()[base]["lines"] if base else []), *case.get("lines", [])])

    def _edited(self, lines: list[Action], edit: dict[str, Any]) -> list[Action]:
        edit = dict(edit)
        if "up" in edit:  # the same truss, put up otherwise
            here = self._find(lines, edit["up"])
            return [*lines[:here], edit, *lines[here + 1 :]]
        if "drop" in edit or "drop_any" in edit:
            gone = [i for i, line in enumerate(lines) if self._is(line, edit.get("drop", edit.get("drop_any")))]
            assert gone or "drop_any" in edit, f"nothing to drop: {edit}"
            return [line for i, line in enumerate(lines) if i not in gone]
        if "stop" in edit:  # the diary goes no further than this line
            return lines[: self._find(lines, edit["stop"]) + 1]
        if "move" in edit:
            here = self._find(lines, edit["move"])
            moved = [lines[here]]
            lines = [*lines[:here], *lines[here + 1 :]]
        else:
            moved = edit["insert"]
        if "before" in edit:
            there = self._find(lines, edit["before"])
        elif "after" in edit:
            there = self._find(lines, edit["after"]) + 1
        else:
            there = len(lines)
        return [*lines[:there], *moved, *lines[there:]]

    def _is(self, line: Action, where: str | dict[str, Any]) -> bool:
        if isinstance(where, str):
            return line.get("up") == where or (line.get("do"), line.get("tag")) == ("stand", where)
        named = where.get("names")
        rest = {key: value for key, value in where.items() if key not in ("names", "nth")}
        return all(line.get(key) == value for key, value in rest.items()) and (
            named is None or named == line.get("tag") or named in line.get("tags", [])
        )

    def _find(self, lines: list[Action], where: str | dict[str, Any]) -> int:
        if where == "hand-over":
            where = {"done": True} if any("done" in line for line in lines) else {"do": "hand_over"}
        found = [i for i, line in enumerate(lines) if self._is(line, where)]
        nth = where.get("nth", 1) if isinstance(where, dict) else 1
        assert len(found) >= nth, f"no such line: {where}"
        return found[nth - 1]

    def _actions(self, lines: list[Action]) -> list[Action]:
        actions: list[Action] = []
        standing: list[str] = []
        for line in lines:
            if "up" in line:
                more = self.house.put_up(line, standing)
            elif "done" in line:
                more = self.house.done(actions)
            else:
                more = [self.house.whole(line)]
            actions += more
            standing += [action["tag"] for action in more if action["do"] == "stand"]
        return actions

    def moment(self, where: str | dict[str, Any]) -> int:
        """The action at which something is to be found: a tag's lift, the hand-over, or part of an action.

        ``{lift_after: where}`` is the first lift after another action.
        """
        if isinstance(where, dict) and "lift_after" in where:
            start = self._find(self.actions, where["lift_after"])
            return next(i for i, a in enumerate(self.actions) if i > start and a["do"] == "stand")
        return self._find(self.actions, where)

    def judged(self, folder: Path) -> dict[str, Any]:
        """What the trainer says of the diary."""
        path = folder / "diary.yaml"
        diary = {"schema": 1, "level": self.house.layout["level"], "seed": self.seed, "actions": self.actions}
        path.write_text(yaml.dump(diary, Dumper=_SafeDumper, sort_keys=False), encoding="utf-8")
        return json.loads(called("grade", self.level, str(path), "--json"))
