"""What written questions are about, and which part of the unit of competency each serves."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, get_args

from trainer.terms import Stage
from trainer.words import _

Topic = Literal[
    "terms",
    "reading plans",
    "safety",
    "lifting",
    "set-out",
    "order",
    "bracing",
    "fixing",
    "tolerances",
    "gables and verges",
    "saddles",
    "inspection",
    "tools and PPE",
    "ceiling trimming and access holes",
    "clean-up",
    "who decides what",
]
TOPICS: tuple[Topic, ...] = get_args(Topic)
TOPIC_NAMES: Mapping[str, str] = {
    "terms": _("Terms"),
    "reading plans": _("Reading plans"),
    "safety": _("Safety"),
    "lifting": _("Lifting"),
    "set-out": _("Set-out"),
    "order": _("Order"),
    "bracing": _("Bracing"),
    "fixing": _("Fixing"),
    "tolerances": _("Tolerances"),
    "gables and verges": _("Gables and verges"),
    "saddles": _("Saddles"),
    "inspection": _("Inspection"),
    "tools and PPE": _("Tools and PPE"),
    "ceiling trimming and access holes": _("Ceiling trimming and access holes"),
    "clean-up": _("Clean-up"),
    "who decides what": _("Who decides what"),
}

UnitItem = Literal[
    "plan",
    "safety",
    "tools",
    "site",
    "materials",
    "set-out",
    "lifting",
    "erecting",
    "internal walls",
    "ceiling",
    "bracing",
    "restraint",
    "connections",
    "clean-up",
]
UNIT_ITEMS: dict[UnitItem, str] = {
    "plan": _("read the instructions and plan the sequence"),
    "safety": _("work to the codes and keep people safe"),
    "tools": _("choose tools and protective equipment"),
    "site": _("inspect the site"),
    "materials": _("identify and count what is needed from the layout"),
    "set-out": _("set out on the plates"),
    "lifting": _("lift and stack trusses"),
    "erecting": _("erect, plumb and fix in sequence, with the apexes in line"),
    "internal walls": _("keep bottom chords clear over internal walls and steady those walls"),
    "ceiling": _("trim the ceiling, and frame access holes and creepers"),
    "bracing": _("brace the roof"),
    "restraint": _("restrain chords and webs sideways"),
    "connections": _("connect roof and walls, and tie down"),
    "clean-up": _("clean up and look after tools"),
}
"""The items of CPCCCA3006 *Erect roof trusses*, in our words. The unit's steel trusses are outside our scope."""
TOPIC_OF: Mapping[Stage, Topic] = {
    "pre-start": "inspection", "set-out": "set-out", "stand": "order", "brace": "bracing", "fix": "fixing",
    "hand-over": "inspection",
}  # fmt: skip
"""The topic of questions about a rule, by its stage."""
