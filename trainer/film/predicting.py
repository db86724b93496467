"""Predict first: at a few deciding moments of a house, what happens if a brace comes off now, and which truss is next.

What happens is not written down anywhere: it is tried on the site as it stands, by the same model that judges the
learner, and the site after that is what is shown. Which truss is next comes of the order's own edges.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import chain

from trainer.chance import shuffled
from trainer.film.model import Option
from trainer.film.stops import LOCKED
from trainer.film.which import WHICH, WhichNext
from trainer.session.hints import hints
from trainer.site import AnyAction, Brace, Fix, Refused, Restrain, Site, Stand, act, held, step_actions, untrue
from trainer.site.actions import Unbrace
from trainer.site.model import Bracing
from trainer.site.restraints import locked
from trainer.words import _, listed, ngettext

MOST = 5
"""So many are asked on one house."""
APART = 2
"""So many trusses are lifted between two of them, at the least."""


@dataclass(frozen=True, eq=False)
class Prediction:
    """A question about the site as it stands. ``tried`` is what it asks about, ``after`` the site once that was done.

    ``tag`` is the truss that it is about.

    ``key`` is what kind of moment it is: each is asked once on a house.
    """

    key: str
    tag: str
    text: str
    options: tuple[Option, ...]
    tried: AnyAction
    after: Site

    def repeats(self, other: Prediction) -> bool:
        """Whether it is of the same kind as another, or has the same answer about the same brace."""
        same_fall = (self.after.fall is None) == (other.after.fall is None)
        return self.key == other.key or (isinstance(self.tried, Unbrace) and self.tried == other.tried and same_fall)


def prediction(site: Site, did: AnyAction, asked: Mapping[Prediction, int]) -> Prediction | None:
    """Return what to ask after ``did``, if this is such a moment.

    ``asked`` is what was asked before on this house, with how many trusses had been lifted then.
    """
    if len(asked) >= MOST or site.fall is not None or not isinstance(did, Brace | Fix | Restrain):
        return None
    if any(site.lifted - then < APART for then in asked.values()):
        return None
    if site.last is None or not held(site, site.last):
        return None
    found = chain(_braced_crooked(site), _brace_off(site), _which_next(site))
    return next((one for one in found if not any(map(one.repeats, asked))), None)


def _brace_off(site: Site) -> Iterator[Prediction]:
    """Ask what happens if the brace to something solid comes off that stands longest in the row of the last truss."""
    row = site.layout.by_tag[site.stood[site.last or ""].place or site.last or ""].row
    for piece in site.bracing:
        tag = piece.tags[0]
        if piece.kind == "solid" and piece.to is None and site.layout.by_tag[tag].row == row:
            action = Unbrace(kind="solid", tags=piece.tags)
            result = act(site, site.done, action)
            if not isinstance(result, Refused):
                after, event = result
                fell = event.fell
                if fell or not event.let_go:
                    yield _if_it_comes_off(site, piece, action, after, fell)
            return


def _if_it_comes_off(site: Site, piece: Bracing, action: Unbrace, after: Site, fell: tuple[str, ...]) -> Prediction:
    tag = piece.tags[0]
    beside = [other for other in site.stood if other != tag]
    alone = len(fell) == 1
    for_good = "for good" if tag in site.restrained else after.holds.get(tag, "")
    key = "one falls" if alone else "a row falls" if fell else f"held {for_good}"
    stays = _("It stays up")
    tips = _("It falls over")
    if beside:
        stays = _("Nothing falls: {tag} stays up").format(tag=tag)
        tips = _("{tag} falls over, and nothing else").format(tag=tag)
    third = _("{tag} falls over, and takes others with it").format(tag=tag) if beside else _("It leans, and stays so")
    why = _falls(site, fell) if fell else _stays(site, after, tag)
    right = tips if alone else third if fell else stays
    options = [Option(text, text == right, why) for text in (stays, tips, third)]
    text = _("Stop and think: what happens if the brace from {tag} to something solid comes off now?")
    return Prediction(key, tag, text.format(tag=tag), tuple(options), action, after)


def _falls(site: Site, fell: tuple[str, ...]) -> str:
    falls = ngettext("{tags} falls.", "{tags} fall.", len(fell)).format(tags=listed(list(fell), 4))
    if len(fell) == 1 and len(site.stood) == 1:
        if any(fastenings and at[0] == fell[0] for at, fastenings in site.fixed.items()):
            return _("{falls} Fixed ends do not hold a truss upright: it turns about them.").format(falls=falls)
        return _("{falls} Its ends only rest on the plates, and nothing else holds its top.").format(falls=falls)
    if len(fell) == 1:
        return _("{falls} Nothing else that can't move holds it.").format(falls=falls)
    return _("{falls} Nothing else that can't move holds any of them.").format(falls=falls)


def _stays(site: Site, after: Site, tag: str) -> str:
    """Say what holds a truss once its brace is off."""
    how = after.holds.get(tag, "")
    if tag in site.restrained:
        return _("Permanent bracing holds {tag} now.").format(tag=tag)
    if how == "hip end":
        return _("The finished hip end holds {tag}: its hips and jacks run down to plates on three sides.").format(
            tag=tag
        )
    return _("{tag} is tied to a truss that something else solid holds.").format(tag=tag)


def _braced_crooked(site: Site) -> Iterator[Prediction]:
    """Ask what permanent bracing does to a row that is not straightened yet."""
    for step, edges in site.job.order.into.items():
        crossed = [site.at_place.get(edge.first.tag, "") for edge in edges if edge.why == LOCKED]
        if not crossed or "" in crossed:
            continue
        crooked = next((tag for tag in crossed if next(untrue(site, tag), None)), "")
        result = act(site, site.done, action := step_actions(site, step)[0]) if crooked else None
        if result is None or isinstance(result, Refused):
            continue
        out = next(untrue(result[0], crooked), None)
        if out is not None and crooked in locked(result[0]):
            yield _if_braced_now(site, crooked, action, result[0])
            return


def _if_braced_now(site: Site, tag: str, action: AnyAction, after: Site) -> Prediction:
    why = _("A strap holds {tag} as it stands, and it leans or bows too much. Straighten the row first.").format(
        tag=tag
    )
    options = [
        Option(_("It pulls the row straight"), False, why),
        Option(_("{tag} leans or bows as it does now, and stays so").format(tag=tag), True, why),
        Option(_("It pulls the row over, and it falls"), False, why),
    ]
    text = _("Stop and think: nobody has straightened this row. What happens if its roof brace goes on now?")
    return Prediction("leans", tag, text, tuple(shuffled(options, site.job.seed, "predict", tag)), action, after)


def _which_next(site: Site) -> Iterator[Prediction]:
    """Ask which truss is next, and why, where one that is ready holds others up; show it standing."""
    which = WhichNext(site.layout, site.job.order)
    rest = [member.tag for member in site.layout.members]
    stood = frozenset(site.at_place)
    for hint in hints(site):
        if isinstance(hint.action, Stand):
            for edge, options in which.asked(hint.step.tag, stood, rest):
                result = act(site, site.done, hint.action)
                if not isinstance(result, Refused):
                    mixed = shuffled(options, site.job.seed, "predict", hint.step.tag)
                    yield Prediction(f"which {edge.why}", hint.action.tag, WHICH, tuple(mixed), hint.action, result[0])
