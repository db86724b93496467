"""Orders that are as good as the usual one: rehearsals and hints keep to the usual, and nothing is marked.

Trade brief, "Order of work", end of *Should* (common practice, no source): one hip end finished before the other
truncated girder stands; a centre jack early to steady a truncated girder; a gable truss stood before the outermost
full-height truss where the string still follows. A gable truss stands lower where the verge overhangs it, so the string
runs over the outermost standard trusses, and it is set to them.
"""

from __future__ import annotations

from trainer.layout import Layout
from trainer.layout.model import Member
from trainer.order.model import Edge

NEAR = 1.0
"""Two jacks this much further off the middle than each other are as near, mm."""


def as_good(layout: Layout, edge: Edge) -> bool:
    """Whether ``edge.then`` before ``edge.first``, both stands, is as good as the other way round."""
    member = layout.by_tag[edge.then.tag]
    return (
        edge.why == "truncated girders first"
        or (edge.why == "outermost first" and member.kind == "gable")
        or (edge.why == "truncated first" and member.kind == "jack" and _centre(layout, member))
    )


def _centre(layout: Layout, jack: Member) -> bool:
    """Whether no other jack hangs nearer the middle of the truncated girder that this one steadies."""
    for carrier in (layout.by_tag[tag] for tag in jack.carried_by):
        hung = (layout.by_tag[tag] for tag in layout.carries[carrier.tag])
        least = min(_off_middle(carrier, other) for other in hung if other.kind == "jack")
        if _off_middle(carrier, jack) <= least + NEAR:
            return True
    return False


def _off_middle(carrier: Member, jack: Member) -> float:
    """How far from the middle of its carrier a jack hangs, mm."""
    return min(abs(carrier.run(end.at) - carrier.span / 2) for end in jack.ends if end.bears_on == carrier.tag)
