"""Which truss next, and why: answers and reasons are those of the order's own edges.

A wrong answer is a truss that has to wait for another, with a reason as somebody might think of it who has the edge the
wrong way round. Trade brief, "Order of work": common practice, no source.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass

from trainer.film.model import Option
from trainer.layout import Layout
from trainer.order import Edge, Order, Step, as_good
from trainer.quiz.worked.orders import REASONS, TO_THE_STRING
from trainer.rules.plain import called
from trainer.words import _

WHICH = _("Which next, and why?")
MISREAD: Mapping[str, str] = {
    "carrier": _("because {first} hangs on it"),
    "support": _("because {first} sits on it"),
    "girders first": _("because {first} needs something to be tied to"),
    "truncated first": _("because {first} can go in under its extension later"),
    "hip end first": _("because the row in the middle holds the hip ends"),
    "outermost first": _("because a row goes up bay by bay from what stands"),
}
"""The reasons of somebody who has the edge from ``first`` the wrong way round."""


@dataclass(frozen=True)
class WhichNext:
    """Asks about the order of one house."""

    layout: Layout
    order: Order

    def asked(self, tag: str, stood: Collection[str], rest: Sequence[str]) -> Iterator[tuple[Edge, list[Option]]]:
        """Yield why it is the turn of ``tag``, with the options: that one, and two that wait.

        ``stood`` are the trusses that stand, ``rest`` those from which another that waits is taken.
        """
        for edge in self.order.out_of.get(Step("stand", tag), ()):
            if self._asks(edge) and edge.then.tag not in stood:
                other = self._another(edge, stood, rest)
                if other is not None:
                    yield edge, [self._right(edge), self._wrong(edge), self._wrong(other)]

    def _asks(self, edge: Edge) -> bool:
        """Whether an edge is a reason for one truss before another, either way round of which is not as good."""
        between = edge.first.verb == edge.then.verb == "stand"
        return between and edge.why in REASONS and not as_good(self.layout, edge)

    def _another(self, edge: Edge, stood: Collection[str], rest: Sequence[str]) -> Edge | None:
        """Return why some other truss has to wait: of another kind than those of ``edge``, if there is such a one."""
        mine = {self.layout.by_tag[step.tag].kind for step in (edge.first, edge.then)}
        found = None
        for tag in rest:
            if tag in stood or tag in (edge.first.tag, edge.then.tag):
                continue
            into = self.order.into.get(Step("stand", tag), ())
            lacking = next((e for e in into if self._asks(e) and e.first.tag not in stood), None)
            if lacking is not None and self.layout.by_tag[tag].kind not in mine:
                return lacking
            found = found or lacking
        return found

    def _right(self, edge: Edge) -> Option:
        return self._option(edge.first.tag, self._reason(edge), edge, right=True)

    def _wrong(self, edge: Edge) -> Option:
        """Return the truss that waits, as an answer with the reason the wrong way round."""
        return self._option(edge.then.tag, MISREAD[edge.why].format(first=edge.first.tag), edge, right=False)

    def _option(self, tag: str, reason: str, edge: Edge, *, right: bool) -> Option:
        text = _("{truss}, {reason}").format(truss=called(self.layout.by_tag[tag]), reason=reason)
        before = _("{first} comes before {then}, {reason}.")
        why = before.format(first=edge.first.tag, then=edge.then.tag, reason=self._reason(edge))
        return Option(capital(text), right, why)

    def _reason(self, edge: Edge) -> str:
        gable = edge.why == "outermost first" and self.layout.by_tag[edge.then.tag].kind == "gable"
        return (TO_THE_STRING if gable else REASONS[edge.why]).format(then=edge.then.tag)


def capital(text: str) -> str:
    """Return a text that begins a line."""
    return text[:1].upper() + text[1:]
