"""How long one more action takes on 300 trusses, beside what it is to take: ``python tests/bench/action_times.py``.

A right attempt, every action of it judged. Processor time of the one thread, the least of three attempts, so that
other work on the machine makes no difference; garbage is collected as in an attempt. In ms.
"""

# ruff: noqa: E402 - the folder of the package is put on the path first
import sys
import time
from collections import defaultdict
from pathlib import Path
from statistics import median, quantiles

sys.path[:0] = [str(Path(__file__).parents[2])]

from test_judging_bench import LARGE

from trainer.level import parse_level
from trainer.rehearse import rehearse
from trainer.session import Session

ATTEMPTS = 3


def main() -> None:
    """Print the median and the slowest hundredth of all actions, the hand-over, then each verb."""
    level = parse_level(LARGE, "bench.yaml")
    layout = Session(level, seed=1).job.layout
    actions = rehearse(level, 1, layout=layout).actions
    took = [min(each) for each in zip(*(_attempt(level, layout, actions) for _ in range(ATTEMPTS)), strict=True)]
    print(f"{len(layout.members)} trusses, {len(actions)} actions")
    print(f"median     {median(took):7.3f}   aim  0.04")
    print(f"p99        {_p99(took):7.3f}   aim  0.5")
    print(f"hand-over  {took[-1]:7.3f}   aim 50")
    verbs = defaultdict(list)
    for action, ms in zip(actions, took, strict=True):
        verbs[action.do].append(ms)
    for verb, times in sorted(verbs.items(), key=lambda pair: -max(pair[1])):
        print(f"{verb:10} {len(times):5}   median {median(times):7.3f}   most {max(times):7.3f}")


def _attempt(level, layout, actions):
    session = Session(level, seed=1, layout=layout)
    took = []
    for action in actions:
        before = time.thread_time_ns()
        session.do(action)
        took.append((time.thread_time_ns() - before) / 1e6)
    assert not session.findings
    return took


def _p99(times):
    return quantiles(times, n=100)[98]


if __name__ == "__main__":
    main()
