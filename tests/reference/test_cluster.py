"""Judging on a Dask cluster gives what judging here gives. Needs the extra ``cluster``."""

from __future__ import annotations

import re
from pathlib import Path

from distributed import LocalCluster
from records_made import ended, house_begun, marked, opening, uuid_of
from typer.testing import CliRunner

from trainer.cli import app
from trainer.records.store import FILE, Store
from trainer.shipped import find_level


def test_a_cluster_comes_to_the_same_marks(tmp_path: Path) -> None:
    text = find_level("pardalote").read_text(encoding="utf-8")
    with Store.open(tmp_path / FILE) as store:
        for seed in range(8):
            house = house_begun(1, "pardalote", text, seed)
            store.begin(opening(seed), house, marked(2, 10 * seed, "not yet met"), ended(3))
    here = CliRunner().invoke(app, ["regrade", "--data", str(tmp_path)])
    with LocalCluster(n_workers=1, processes=True, dashboard_address=None) as cluster:
        words = ["regrade", "--data", str(tmp_path), "--scheduler", cluster.scheduler_address]
        there = CliRunner().invoke(app, words)
    assert there.exit_code == here.exit_code == 0, there.output
    assert there.stdout == here.stdout
    assert re.search(rf"{uuid_of(1)[:8]} +pardalote +10 not yet met +100 unfinished", there.stdout)
