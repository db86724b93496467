"""How many drawn homes the layout refuses, and how many it lays out wrong; some two minutes for a thousand.

``PYTHONPATH=. python tests/count_homes.py [--homes 1000] [--straight-fascia 600]``
"""

import argparse
from collections import Counter

from homes import home_plan
from layout_checks import HABITS, faults

from trainer.layout import House, LayoutRefused, TrussSpec, lay_out
from trainer.roof import RoofSpec


def main() -> None:
    """Print every home that is refused or wrong, then how many there are of each."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--homes", type=int, default=1000)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--straight-fascia", type=int, default=600)
    given = parser.parse_args()
    counts: Counter[str] = Counter()
    for seed in range(given.first, given.first + given.homes):
        counts[_tried(seed, given.straight_fascia)] += 1
    print(", ".join(f"{counts[what]} {what}" for what in ("sound", "wrong", "refused")), flush=True)


def _tried(seed: int, straight_fascia: int) -> str:
    roof, spec = RoofSpec(22.5, 450, 90, straight_fascia=straight_fascia), TrussSpec(*HABITS[seed % len(HABITS)])
    try:
        wrong = faults(lay_out(House(home_plan(seed), roof, spec)))
    except LayoutRefused as no:
        print(seed, "refused:", *(f"{reason.place} {reason.at}" for reason in no.reasons), flush=True)
        return "refused"
    if wrong:
        print(seed, "wrong:", *wrong, sep="\n  ", flush=True)
    return "wrong" if wrong else "sound"


if __name__ == "__main__":
    main()
