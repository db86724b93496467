"""Run the main job through the installed command: every level checked, laid out, drawn, rehearsed and graded.

As many levels at a time as there are cores: most of the time goes into starting the command.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import trainer
from trainer.shipped import art_path, level_paths


def run(*words: str) -> str:
    """Run the command and return what it printed; stop where it fails."""
    done = subprocess.run([sys.argv[1], *words], capture_output=True, encoding="utf-8", check=False)
    if done.returncode:
        sys.exit(f"trainer {' '.join(words)} left with {done.returncode}:\n{done.stderr}")
    return done.stdout


def main() -> None:
    """Do the job on every shipped level, all from inside the installed package."""
    package = Path(trainer.__file__).parent
    paths = level_paths()
    assert paths, "the wheel carries no level"
    for path in (*paths, art_path("palette.yaml")):
        assert path.is_file() and path.is_relative_to(package), f"{path} is not in the wheel"
    with ThreadPoolExecutor(os.cpu_count()) as pool:
        for line in pool.map(main_job, paths):
            print(line)


def main_job(path: Path) -> str:
    """Do the job on one level and return what came of it; each level has files of its own."""
    level, file = path.stem, str(path)  # those kept for assessment are shown by their files alone
    run("check", level)
    assert json.loads(run("roof", file, "--json"))["level"] == level
    assert json.loads(run("layout", file, "--json"))["members"]
    for picture in (f"{level}.svg", f"{level}.png"):
        run("draw", file, "-o", picture)
        assert Path(picture).stat().st_size > 10_000, f"{picture} is all but empty"
    run("rehearse", file, "--seed", "1", "-o", f"{level}-diary.yaml")
    graded = json.loads(run("grade", level, f"{level}-diary.yaml", "--json"))
    assert (graded["outcome"], graded["findings"], graded["refused"]) == ("met", [], []), graded
    return f"{level}: checked, laid out, drawn, rehearsed, graded {graded['score']}"


if __name__ == "__main__":
    main()
