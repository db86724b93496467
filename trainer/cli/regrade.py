"""``trainer regrade``: recorded attempts judged again under the rules of today."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Annotated

import typer

from trainer.cli.data import DataFolder, in_processes, said_attempts, stored
from trainer.cli.given import say, show, wrong_call
from trainer.cli.options import option
from trainer.cli.table import table
from trainer.words import _, ngettext

if TYPE_CHECKING:
    from trainer.records.attempt import Attempt
    from trainer.records.judging import Judged

Keep = Annotated[bool, typer.Option("--keep", help="Keep the marks of today beside the recorded ones.")]
Processes = Annotated[int | None, typer.Option("--processes", min=1, max=256, help="How many at once on this machine.")]
Scheduler = Annotated[str | None, option("--scheduler", "ADDRESS", "Judge on a Dask cluster (extra 'cluster').")]
JUDGING = _("Judging again")


def regrade(
    keep: Keep = False, processes: Processes = None, scheduler: Scheduler = None, data: DataFolder = None
) -> None:
    """Show what marks would be under the rules of today.

    Every recorded action is judged again. Recorded marks never change; with --keep, those of today are kept beside
    them and both are shown from then on.
    """
    from trainer.records.regrade import keep as keep_marks
    from trainer.records.regrade import pack_up

    with stored(data, write=keep) as store:
        sound = said_attempts(store)
        found = list(zip(sound, _judge([pack_up(each) for each in sound], processes, scheduler), strict=True))
        show(_changes(found))
        if keep:
            kept = keep_marks(store, found)
            text = ngettext(
                "Kept {n} mark of today beside the recorded one.",
                "Kept {n} marks of today beside the recorded ones.",
                kept,
            )
            say(text.format(n=kept))


def _judge(packed: list[bytes], processes: int | None, scheduler: str | None) -> Iterable[tuple[Judged, ...]]:
    """Judge attempts here, in several processes or on a cluster; the results are the same."""
    from trainer.records.regrade import judged

    if scheduler is not None:
        return _on_cluster(packed, scheduler)
    return in_processes(judged, packed, JUDGING, processes)


def _on_cluster(packed: list[bytes], scheduler: str) -> Iterable[tuple[Judged, ...]]:
    from trainer.records.regrade import judged

    try:
        from distributed import Client
    except ImportError:
        wrong_call(_("Judging on a cluster needs the extra 'cluster': pip install 'roof-truss-trainer[cluster]'."))
    try:
        client = Client(scheduler, timeout="10s")
    except (OSError, ValueError) as error:
        wrong_call(_("{scheduler}: the cluster does not answer: {error}").format(scheduler=scheduler, error=error))
    with client:
        found: list[tuple[Judged, ...]] = client.gather(client.map(judged, packed, pure=False))
        return found


def _changes(found: list[tuple[Attempt, tuple[Judged, ...]]]) -> str:
    changed = [(attempt, each) for attempt, judged in found for each in judged if not each.same]
    head = _("Judged again: houses {houses}, attempts {attempts}. Would change: {changed}.").format(
        houses=sum(len(judged) for _attempt, judged in found), attempts=len(found), changed=len(changed)
    )
    if not changed:
        return head
    columns = (_("code"), _("attempt"), _("level"), _("then"), _("now"))
    rows = [(attempt.code, attempt.id[:8], each.level, *_marks(each)) for attempt, each in changed]
    what = [
        f"  {attempt.id[:8]} {each.level}: {'; '.join(_what_changed(each))}" for attempt, each in changed if each.now
    ]
    blocks = [head, table(columns, rows), "\n".join([_("What has changed:"), *what]) if what else ""]
    return "\n\n".join([*filter(None, blocks), *_why([each for _attempt, each in changed])])


def _marks(each: Judged) -> tuple[str, str]:
    """The mark as recorded and the mark of today, in words."""
    then = _("not marked") if each.then is None else f"{each.then[0]} {each.then[1]}"
    return then, each.trouble if each.now is None else f"{each.now[0]} {each.now[1]}"


def _what_changed(each: Judged) -> Iterator[str]:
    if each.newly:
        yield _("found now: {rules}").format(rules=_listed(each.newly))
    if each.no_more:
        yield _("found no more: {rules}").format(rules=_listed(each.no_more))
    if each.refused:
        text = ngettext("{n} action refused otherwise", "{n} actions refused otherwise", each.refused)
        yield text.format(n=each.refused)
    if not (each.newly or each.no_more or each.refused):
        yield _("the same findings, worded or counted otherwise")


def _listed(rules: Iterable[tuple[str, int]]) -> str:
    return ", ".join(rule if times == 1 else f"{rule} {times}x" for rule, times in rules)


def _why(changed: list[Judged]) -> Iterator[str]:
    """Why marks change: what each rule that finds more than it did is there for, and which found something before."""
    from trainer.rules import all_rules

    newly = {rule for each in changed for rule, _times in each.newly}
    no_more = {rule for each in changed for rule, _times in each.no_more} - newly
    if newly:
        lines = [f"  {rule.name} ({rule.severity}): {rule.why}" for rule in all_rules() if rule.name in newly]
        yield "\n".join([_("What the rules of today find, and why it matters:"), *lines])
    if no_more:
        yield _("No fault any more, or another rule's: {rules}.").format(rules=", ".join(sorted(no_more)))
