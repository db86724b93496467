"""A pulled plug: a program killed while a house is built, at moments drawn at random, loses nothing acknowledged."""

from __future__ import annotations

import random
import subprocess
import sys
import time
from pathlib import Path

import pytest
from attempts import level_of
from records_made import NOON, said
from sizes import by_size

from trainer.records.chain import first_break
from trainer.records.judging import judge_again
from trainer.records.keeping import look_over
from trainer.records.seat import Seat
from trainer.records.store import FILE, Store
from trainer.rehearse import rehearse
from trainer.session import Session

KILLS = by_size(2, 6, 200)
HOUSES = ("pardalote", "wren", "lorikeet")

PLAY = """
import itertools, sys
from pathlib import Path
sys.path.insert(0, sys.argv[3])
from attempts import level_of
from trainer.records.seat import Seat
from trainer.rehearse import rehearse
from trainer.shipped import find_level
from trainer.site.actions import (Measure)
level, seed = sys.argv[2], int(sys.argv[4])
times = itertools.count(1_760_000_000_000, 1000)
seat = Seat.open(Path(sys.argv[1]), lambda: next(times))
going = seat.begin(find_level(level).read_text(encoding="utf-8"), seed, "practice")
done = [each for each in rehearse(level_of(level), seed).actions if each.do != "hand_over"]
for action in itertools.chain(done, itertools.repeat(Measure(what="straight", wall="A"), 100_000)):
    going.do(action)
    print(going._journal.tip.head.hex(), flush=True)  # this is the acknowledgement
"""


@pytest.mark.parametrize("kill", range(KILLS))
def test_nothing_acknowledged_is_lost_when_the_program_is_killed(kill: int, tmp_path: Path) -> None:
    with Store.open(tmp_path / FILE) as store:  # an earlier attempt, which is to stay whole
        earlier = store.begin(*said(seed=10_000)).attempt
    level, seed = HOUSES[kill % len(HOUSES)], 1 + kill % 5
    words = [sys.executable, "-c", PLAY, str(tmp_path), level, str(Path(__file__).parent), str(seed)]
    with subprocess.Popen(words, stdout=subprocess.PIPE, text=True) as play:
        assert play.stdout is not None
        acknowledged = [play.stdout.readline().strip()]
        time.sleep(random.Random(kill).uniform(0, 0.6))
        play.kill()  # SIGKILL where there are signals
        acknowledged += [line.strip() for line in play.stdout if line.endswith("\n")]
    assert len(acknowledged[0]) == 64, "it had begun"

    later = iter(range(NOON + 10**8, NOON + 10**9, 1000))
    seat = Seat.open(tmp_path, lambda: next(later))
    assert look_over(seat.store).troubles == ()
    (left,) = seat.unfinished()
    heads = [entry.hash.hex() for entry in left.entries]
    assert heads[2 : len(acknowledged) + 2] == acknowledged, "every action that was acknowledged is there"
    assert len(heads) - 2 <= len(acknowledged) + 1, "at most the one it was writing is there besides"

    going = seat.resume(left)
    done = len(left.houses[0].acts)
    again = Session(level_of(level), seed)
    right = [each for each in rehearse(level_of(level), seed).actions if each.do != "hand_over"]
    assert going.session.site == again.replay(going.session.diary().actions).site
    assert list(going.session.diary().actions[: len(right)]) == right[:done]
    for action in (*right[done:], rehearse(level_of(level), seed).actions[-1]):
        going.do(action)
    made = going.finish()
    assert made.closed
    assert made.fault is None
    assert len(made.gaps) == 1
    (judged,) = judge_again(made)
    assert judged.same
    assert judged.now == (100, "met"), "it goes on to its end as if nothing had been"
    assert first_break(seat.store.attempts(earlier)[0].entries) is None
