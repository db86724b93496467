"""A pulled plug: a program killed while it records, at moments drawn at random, loses nothing it acknowledged."""

from __future__ import annotations

import os
import random
import subprocess
import sys
import time
from pathlib import Path

import pytest
from records_made import EDITIONS, NOON, act, uuid_of

from trainer.records import bodies
from trainer.records.chain import first_break
from trainer.records.keeping import look_over
from trainer.records.store import FILE, Store

KILLS = 200 if os.environ.get("TRAINER_FULL") else 12

PLAY = """
import sys
from pathlib import Path
sys.path.insert(0, sys.argv[3])
from records_made import act, house, opening
from trainer.records.store import Store
with Store.open(Path(sys.argv[1])) as store:
    tip = store.begin(opening(int(sys.argv[2])), house())
    print(tip.head.hex(), flush=True)
    for index in range(100_000):
        tip = store.append(tip, act(index))
        print(tip.head.hex(), flush=True)  # this is the acknowledgement
"""


@pytest.mark.parametrize("seed", range(KILLS))
def test_nothing_acknowledged_is_lost_when_the_program_is_killed(seed: int, tmp_path: Path) -> None:
    path = tmp_path / FILE
    with Store.open(path) as store:  # an earlier attempt, which is to stay whole
        store.begin(*(body for body in _earlier()))
    words = [sys.executable, "-c", PLAY, str(path), str(seed), str(Path(__file__).parent)]
    with subprocess.Popen(words, stdout=subprocess.PIPE, text=True) as play:
        assert play.stdout is not None
        acknowledged = [play.stdout.readline().strip()]
        time.sleep(random.Random(seed).uniform(0, 0.25))
        play.kill()  # SIGKILL where there are signals
        acknowledged += [line.strip() for line in play.stdout if line.endswith("\n")]
    assert len(acknowledged[0]) == 64, "it had begun"

    with Store.open(path) as store:
        assert look_over(store).troubles == ()
        (left,) = store.unfinished()
        heads = [entry.hash.hex() for entry in left.entries]
        assert heads[1 : len(acknowledged) + 1] == acknowledged
        assert len(heads) - 1 <= len(acknowledged) + 1, "at most the entry it was writing is there besides"
        tip = store.append(store.tip(left), bodies.gap(NOON + 10**8, left.ended, EDITIONS), act(len(heads) - 2))
        store.append(tip, bodies.mark(NOON + 10**8, 50, "unfinished"), bodies.close(NOON + 10**8))
        (whole,) = store.attempts(uuid_of(seed))
        assert whole.closed
        assert whole.fault is None
        assert len(whole.gaps) == 1
        assert first_break(store.attempts(uuid_of(10_000))[0].entries) is None


def _earlier() -> list[dict[str, object]]:
    from records_made import said

    return said(seed=10_000)
