"""Levels with every setting drawn at random, for questions about houses nobody has looked at. Invented, by seed."""

from __future__ import annotations

import random

from dutch import with_dutch
from houses import grown_house
from plans import house_like_plan

from trainer.layout import LayoutRefused
from trainer.level import Level
from trainer.plan import PlatePlan
from trainer.quiz.worked import Subject, subject_of


def random_level(seed: int) -> Level:
    """A level on a grown plan: pitch, habits, tolerances, bracing, tie-down and fixings all drawn."""
    dice = random.Random(f"quiz level {seed}")
    gables = dice.random() < 0.7
    plan = house_like_plan(seed, gables) if dice.random() < 0.6 else grown_house(seed, gables)
    spacing = dice.choice((450, 600, 600, 750, 900))
    dutch = with_dutch(plan, 2400, seed) if seed % 3 == 0 else None
    return Level.model_validate(
        {
            "schema": 1,
            "id": f"house-{seed}",
            "title": "A house",
            "brief": "Invented.",
            "plates": {"outline": plan.outline, "width": dice.choice((70, 90, 140))},
            "gables": sorted(plan.gables),
            "dutch_gables": {g.wall: {"at": g.at, "verge": g.verge} for g in (dutch.dutch_gables if dutch else ())},
            "beams": _beams(plan, seed),
            "roof": {
                "pitch": dice.choice((15, 20, 22.5, 25, 27.5, 30, 37.5)),
                "overhang": dice.choice((0, 300, 450, 600)),
                "heel": dice.choice((0, 90, 120)),
            },
            "trusses": {
                "spacing": spacing,
                "setback": dice.choice((1500, 1800, 2400)),
                "thickness": dice.choice((35, 45)),
                "girder_plies": dice.choice((1, 2, 3)),
                "stations_to": dice.choice(("centre line", "centre line", "near face")),
                "smallest_saddle": dice.choice((0, 0, 600)),
                "outrigger_depth": dice.choice((70, 90)),
                "gable_stands": dice.choice(("inside plate", "flush")),
            },
            "tolerances": {
                "station": dice.choice((5, 10, 15)),
                "plumb": {"ratio": dice.choice((50, 100)), "cap": dice.choice((20, 30, 50))},
                "bow": {"ratio": dice.choice((200, 300)), "cap": dice.choice((20, 30, 50))},
            },
            "bracing": {"bottom_chord_ties": dice.choice((2400, 3000, 4000))},
            "tie_down": {
                "net_pressure": dice.choice((0.4, 0.6, 1.2, 2.1)),
                "open_net_pressure": 2.5,
                "capacity": {"framing anchor": dice.choice((1.5, 2.5)), "tie-down strap": dice.choice((5.0, 8.0))},
            },
            "fixings": {"standard": dice.choice(("framing anchor", "tie-down strap"))},
        },
        strict=False,
    )


def _beams(plan: PlatePlan, seed: int) -> list[str]:
    """One wall in two houses of five is a verandah beam, where it is no gable."""
    dice = random.Random(f"quiz beams {seed}")
    eaves = [wall.name for wall in plan.walls if not wall.gable]
    return [dice.choice(eaves)] if eaves and dice.random() < 0.4 else []


def random_subject(seed: int) -> Subject | None:
    """The house of a seed; none where its plan is refused."""
    try:
        return subject_of(random_level(seed))
    except LayoutRefused:
        return None
