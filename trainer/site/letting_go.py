"""What happens when hands leave a truss: it is held, or others brace it, or its whole row goes over."""

from __future__ import annotations

from collections.abc import Iterable

from trainer.order import TIED
from trainer.site.actions import AnyAction
from trainer.site.falling import fallen, with_all_on
from trainer.site.holding import holding
from trainer.site.model import Event, How, Site, changed
from trainer.site.query import row_of, standing_in_row


def let_go(site: Site, tags: Iterable[str]) -> tuple[Site, tuple[str, ...]]:
    """Let go of ``tags``: the site after it, and the tags that fell.

    A row with nothing held in it goes over, whole, with what hangs on it, and lies there. What was let go unheld
    beside others that are held stands braced afterwards: others put it right, so that later mistakes still show.
    """
    unheld = [tag for tag in tags if tag not in site.holds]
    if not unheld:
        return site, ()
    fell: list[str] = []
    began: list[str] = []
    for row in dict.fromkeys(row_of(site, tag) for tag in unheld if site.layout.by_tag[tag].kind in TIED):
        mates = [tag for tag in standing_in_row(site, row) if tag not in fell]
        loose = [tag for tag in unheld if row_of(site, tag) == row and tag not in mates]
        if not any(tag in site.holds for tag in mates):
            fell += [*mates, *loose]
            began += [tag for tag in unheld if tag in fell][:1]
    down = with_all_on(site, [*began, *fell])
    put_right: dict[str, How] = dict.fromkeys([*unheld, *down], "put right")
    after = changed(site, holds=holding(site, put_right))
    return (fallen(after, down, f"tie {site.stood[began[0]].place or began[0]}") if began else after), down


def let_go_of_lost(before: Site, left: Site, index: int, action: AnyAction) -> tuple[Site, Event]:
    """Let go of what was held ``before`` something was taken away, and is not held in what is ``left``."""
    lost = tuple(tag for tag in before.holds if tag not in left.holds and tag in left.stood)
    after, fell = let_go(left, lost)
    return after, Event(index, action, lost, fell)
