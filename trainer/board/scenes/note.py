"""What was found, explained: what happened, why it matters, how to put it right, the safety note, the source."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from trainer.board.scenes.building import GO_ON, NOTE_TEXT, Building
from trainer.board.scenes.righting import better, make_right
from trainer.board.tools.clear import ClearTool
from trainer.board.tools.report import REPORT_A_FALL, ReportTool
from trainer.board.widgets import Button, Column, Flow, Label, Pad, Paragraph, Prose, Scroll, Widget
from trainer.board.widgets.boxes import Beside
from trainer.board.widgets.drawing import Sign
from trainer.picture.found import INKS, FoundMark
from trainer.terms import SEVERITY_MEANS, SEVERITY_NAMES
from trainer.words import CAUTION, _

if TYPE_CHECKING:
    from trainer.rules.finding import Finding


READ_ON = 0.8
"""How much of the note Enter goes on by, as a share of its height."""


def shown_on_views(findings: Sequence[Finding], strong: Finding | None = None) -> tuple[FoundMark, ...]:
    """Return findings as the views show them, each truss once with the worst; all strong unless one is given."""
    worst: dict[str, Finding] = {}
    for finding in sorted(findings, key=lambda f: (f is not strong, list(INKS).index(f.severity))):
        worst.setdefault(finding.member, finding)
    return tuple(
        FoundMark(
            f.member, f.severity, f"{f.member}: {SEVERITY_NAMES[f.severity]}", strong=strong is None or f is strong
        )
        for f in reversed(worst.values())
    )


def finding_widgets(finding: Finding, now: Sequence[Paragraph] = ()) -> list[Widget]:
    """Return a finding as a sign with the severity in words, and its texts; after what happened, what to do ``now``."""
    ink = INKS[finding.severity]
    severity = SEVERITY_NAMES[finding.severity]
    name = Label(severity, "heading", ink, key=f"head/{finding.event}/{finding.rule}")
    head = Beside(name, Sign(finding.severity, severity), gap=8, left=True)
    blocks = [
        Paragraph(SEVERITY_MEANS[finding.severity], "small", "panel_faint"),
        Paragraph(finding.what, "strong", space=12),
        *now,
    ]
    for heading, text in (
        (_("Why it matters"), finding.why),
        (_("Put it right"), finding.fix),
        (_("Safety"), finding.safety),
    ):
        if text:
            blocks += [Paragraph(heading, "strong", "accent", space=1), Paragraph(text, space=10)]
    source = Paragraph(_("Source: {source}").format(source=finding.source), "small", "panel_faint", space=14)
    return [head, Prose(blocks, key=_text_key(finding)), Prose([source], key=f"source/{finding.event}/{finding.rule}")]


def _text_key(finding: Finding) -> str:
    return f"text/{finding.event}/{finding.rule}/{finding.member}"


def note(work: Building, findings: Sequence[Finding]) -> Widget:
    """Return the note that takes the place of the column while something has just been found."""
    roomy = work.ui.look.roomy(work.size)
    parts: list[Widget] = [Label(_("Have a look at this"), "title" if roomy else "strong", role="heading")]
    now = _after_a_fall(work)
    for finding in findings:
        parts += finding_widgets(finding, now)
        now = []
    parts.append(Prose([Paragraph(CAUTION, "small", "panel_faint")], key="caution"))
    pad = 16 if roomy else 8
    row = Flow(_buttons(work, roomy=roomy), gap=12 if roomy else 6, key="note/buttons")
    if row.wide(work.ui) > work.roots["side"].rect.width - work.ui.look.px(2 * pad):
        # Large text: one line of buttons leaves more room to read.
        for button in row.children:
            if isinstance(button, Button):
                button.key_under = True
    text = Scroll(Column(parts, gap=4), _("What was found"), key=NOTE_TEXT)
    text.stops = True
    return Pad(Column([text, row], gap=pad * 0.75), pad=pad, column=True, name=_("What was found"), key="note")


def _buttons(work: Building, *, roomy: bool) -> list[Widget]:
    """What can be done about it. Where there is little room, to take it back is left to the bar at the top."""
    buttons: list[Widget] = []
    if better(work) is not None:
        buttons.append(Button(_("Make it right"), partial(make_right, work), shortcut="Ctrl R", key="note/right"))
    if work.site.fall is not None and not work.site.fall.reported:
        ready = partial(work.get_ready, REPORT_A_FALL)
        buttons.append(Button(_("Report it"), ready, shortcut=ReportTool.key, key="note/report"))
    if work.can_undo and roomy:
        name = _("Undo it") if work.site.fall is None else _("Take it back")
        if any(finding.event != work.session.outcomes[-1].index for finding in work.noted):
            name = _("Undo the last act")  # others were done since it was found
        buttons.append(Button(name, work.undo, picture="undo", shortcut="U", key="note/undo"))
    return [*buttons, Button(_("Go on"), partial(go_on, work), kind="primary", shortcut="Enter", key=GO_ON)]


def _after_a_fall(work: Building) -> list[Paragraph]:
    """What to do while something lies where it fell; nothing where nothing does."""
    fall = work.site.fall
    if fall is None:
        return []
    steps = [_("Stop. Keep people out. Help anybody who is hurt.")]
    if not fall.reported:
        steps.append(_("Report the fall: {key}.").format(key=ReportTool.key))
    steps += [
        _("Then clear it away: {key}. New trusses come into the yard.").format(key=ClearTool.key),
        _("Stand those. Hold each one before the next is lifted."),
    ]
    if work.can_undo:
        steps.append(_("Only here, in practice, you may take it back instead: U."))
    lines = [Paragraph(f"{number}.  {step}", space=4) for number, step in enumerate(steps, 1)]
    return [Paragraph(_("What to do now"), "strong", "accent", space=1), *lines[:-1], replace(lines[-1], space=10)]


def read_again(work: Building, row: str) -> None:
    """Show again what was found at a row of the diary."""
    found = tuple(finding for finding in work.findings if finding.event == int(row))
    if found:
        work.show_found(found)


def read_last_found(work: Building) -> None:
    """Show again what was found last and not taken back since."""
    if work.findings:
        read_again(work, str(work.findings[-1].event))


def go_on(work: Building) -> None:
    """Put the note away; where a stop-work finding in it was not read to its end, read on first."""
    by_key = {widget.key: widget for widget in work.roots["side"].walk()}
    text = by_key.get(NOTE_TEXT)
    to_read = [by_key[_text_key(finding)] for finding in work.noted if finding.severity == "stop-work"]
    if isinstance(text, Scroll) and any(one.rect.bottom > text.rect.bottom for one in to_read):
        text.move(work.ui, READ_ON * text.rect.height)
    else:
        work.close_note()
