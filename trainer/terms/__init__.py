"""What things are called: one name for each kind of truss, stage, severity, outcome, mode, verb, part and fault.

Whatever a learner reads, on the board, in a finding, a report, a paper or on the command line, takes its names from
here.
"""

from trainer.terms.results import (
    MODE_NAMES,
    OUTCOME_NAMES,
    SEVERITIES,
    SEVERITY_MEANS,
    SEVERITY_NAMES,
    Mode,
    Outcome,
    Severity,
)
from trainer.terms.stages import STAGE_NAMES, STAGES, Stage
from trainer.terms.things import CUTS, FAULTS, LOADS, READINGS, THINGS, thing
from trainer.terms.trusses import KIND_NAMES, KIND_PLURALS, TrussKind, counted
from trainer.terms.verbs import STAGE_OF, VERBS, WHAT_FOR, StepVerb, done_line, to_do_line
