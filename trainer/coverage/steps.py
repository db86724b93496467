"""Every step of the job, stage by stage as the trade brief has them, and what each is covered by."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.coverage.houses import (
    Asks,
    always,
    at_higher_wall,
    crossings,
    delivery_found,
    hung,
    kinds,
    near_face,
    on_beams,
    openings,
    over_lower_roofs,
    parts,
    round_higher_walls,
    several_plies,
    walls_across,
    walls_along,
    walls_found,
    windy,
)
from trainer.quiz.unit import Topic
from trainer.terms import Stage
from trainer.words import _


@dataclass(frozen=True, slots=True)
class JobStep:
    """One step: its ``name``, its stage, what is done, on which houses, and the drills and topics that practise it."""

    name: str
    stage: Stage
    what: str
    here: Asks
    drills: tuple[str, ...] = ()
    topics: tuple[Topic, ...] = ()


STEPS: tuple[JobStep, ...] = (
    JobStep("checks", "pre-start", _("read the method statement; manage falls and falling objects; plan the lifting"),
            always, ("look-round", "lift-plan"), ("safety", "lifting", "who decides what")),
    JobStep("walls", "pre-start", _("check that frames are braced, and plates level, straight, square and to size"),
            walls_found("bowed wall", "plate out of level", "out of square", "wrong length", "wall not braced"),
            ("true-plates",), ("inspection", "tolerances")),
    JobStep("beams", "pre-start", _("see that verandah beams are straight and bolted down, posts braced and tied down"),
            on_beams, ("beam-and-posts",), ("inspection", "safety")),
    JobStep("delivery", "pre-start", _("count and inspect the delivery against the layout"),
            delivery_found, ("how-many",), ("reading plans",)),
    JobStep("packs", "pre-start", _("land the packs where the frame can carry them"),
            walls_found("pack landed badly"), (), ("lifting",)),
    JobStep("plates", "set-out", _("mark stations on the plates by running measurement from one end"),
            always, ("read-the-tape", "where-the-first-goes"), ("set-out",)),
    JobStep("girder marks", "set-out", _("mark girders for what hangs on them; carry the measure across"),
            hung, ("read-the-tape",), ("set-out",)),
    JobStep("near face", "set-out", _("mark to the near face where the fabricator does"), near_face, (), ("set-out",)),
    JobStep("girders", "stand", _("stand girders over openings"), openings, ("what-order",), ("order",)),
    JobStep("half girder", "stand", _("stand the half girder at a higher wall's corner before what hangs on it"),
            round_higher_walls, ("what-order",), ("order", "reading plans")),
    JobStep("truncated girders", "stand", _("stand truncated girders at the setback"),
            kinds("truncated_girder"), ("where-the-first-goes", "what-order"), ("order", "set-out")),
    JobStep("hips", "stand", _("stand hip trusses"), kinds("hip"), ("what-order",), ("order",)),
    JobStep("truncated", "stand", _("stand truncated trusses"), kinds("truncated"), ("which-truss",), ("order",)),
    JobStep("jacks and creepers", "stand", _("stand jacks and creepers"),
            kinds("jack", "creeper"), ("which-truss", "turn-it-right"), ("order",)),
    JobStep("standard", "stand", _("stand standard trusses"), kinds("standard"), ("which-truss",), ("order",)),
    JobStep("gable end", "stand", _("stand the gable truss"), kinds("gable"), (), ("gables and verges",)),
    JobStep("half", "stand", _("hang half trusses on a ledger along a higher wall"),
            kinds("half"), ("tie-it-to-the-wall",), ("order", "fixing")),
    JobStep("saddles", "stand", _("stand saddle trusses over finished trusses"),
            kinds("saddle"), ("what-order",), ("saddles",)),
    JobStep("line up", "stand", _("pull a string from apex to apex, and line up and plumb the trusses"),
            kinds("standard"), ("line-it-up",), ("tolerances", "inspection")),
    JobStep("temporary bracing", "brace", _("brace each truss as it goes up"),
            always, ("brace-the-row",), ("bracing",)),
    JobStep("wall ties", "brace", _("tie each top at a higher wall to that wall before it is let go"),
            at_higher_wall, ("tie-it-to-the-wall",), ("bracing",)),
    JobStep("end of day", "brace", _("leave the roof safe when wind comes"), windy, (), ("bracing", "safety")),
    JobStep("permanent bracing", "brace", _("put in the bracing of roof, webs, bottom chords and ends"),
            always, ("brace-the-roof",), ("bracing",)),
    JobStep("brackets", "fix", _("fit brackets to carriers and fasten what hangs"), hung, ("fasten-it",), ("fixing",)),
    JobStep("plies", "fix", _("join the plies of a girder"), several_plies, (), ("fixing",)),
    JobStep("tie-down", "fix", _("tie down every bearing"), always, ("fasten-it",), ("fixing",)),
    JobStep("crossings", "fix", _("fix extensions where they cross"),
            crossings("extension"), ("land-it",), ("fixing",)),
    JobStep("walls across", "fix", _("bracket the tops of internal walls across the trusses"),
            walls_across, (), ("fixing",)),
    JobStep("walls along", "fix", _("trim between trusses for internal walls along them"),
            walls_along, (), ("fixing",)),
    JobStep("saddle supports", "fix", _("put supports and trimmers under saddles"),
            parts("trimmer"), (), ("saddles",)),
    JobStep("verge", "fix", _("frame the gable and the verge: studs, outriggers, verge rafters"),
            parts("outrigger"), (), ("gables and verges",)),
    JobStep("gable face", "fix", _("end the verge at the inside corner where a gable goes on over a lower roof"),
            over_lower_roofs, (), ("gables and verges",)),
    JobStep("dutch gable", "fix", _("fix the waling plate and verge ladders of a dutch gable, and land tops on it"),
            parts("waling plate"), ("land-it",), ("gables and verges",)),
    JobStep("inspect", "hand-over", _("inspect position, spacing, plumb, bow, apex line and every fixing"),
            always, ("find-the-fault",), ("inspection", "tolerances")),
    JobStep("load", "hand-over", _("load nothing on the roof before it is handed over"), always, (), ("safety",)),
)  # fmt: skip
