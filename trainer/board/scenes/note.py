"""What was found, explained: what happened, why it matters, how to put it right, the safety note, the source."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from trainer.board.scenes.building import Building
from trainer.board.scenes.righting import better, make_right
from trainer.board.widgets import Button, Column, Flow, Label, Pad, Paragraph, Prose, Scroll, Widget
from trainer.board.widgets.boxes import Beside
from trainer.board.widgets.drawing import Sign
from trainer.picture.found import INKS, FoundMark
from trainer.terms import SEVERITY_MEANS, SEVERITY_NAMES
from trainer.words import CAUTION, _

if TYPE_CHECKING:
    from trainer.rules.finding import Finding


ON_SITE = _("On site: stop, help the hurt, keep people out and report it. Then clear it.")
IN_PRACTICE = _("Here you may take it back instead.")


def _last_fell(work: Building) -> tuple[str, ...]:
    """Return what fell in what was done last."""
    event = work.session.outcomes[-1].event if work.session.outcomes else None
    return event.fell if event is not None else ()


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


def finding_widgets(finding: Finding) -> list[Widget]:
    """Return a finding as a sign with the severity in words, and its texts."""
    ink = INKS[finding.severity]
    severity = SEVERITY_NAMES[finding.severity]
    name = Label(severity, "heading", ink, key=f"head/{finding.event}/{finding.rule}")
    head = Beside(name, Sign(finding.severity, severity), gap=8, left=True)
    blocks = [
        Paragraph(SEVERITY_MEANS[finding.severity], "small", "panel_faint"),
        Paragraph(finding.what, "strong", space=12),
    ]
    for heading, text in (
        (_("Why it matters"), finding.why),
        (_("Put it right"), finding.fix),
        (_("Safety"), finding.safety),
    ):
        if text:
            blocks += [Paragraph(heading, "strong", "accent", space=1), Paragraph(text, space=10)]
    blocks.append(Paragraph(_("Source: {source}").format(source=finding.source), "small", "panel_faint", space=14))
    return [head, Prose(blocks, key=f"text/{finding.event}/{finding.rule}/{finding.member}")]


def note(work: Building, findings: Sequence[Finding]) -> Widget:
    """Return the note that takes the place of the column while something has just been found."""
    parts: list[Widget] = [Label(_("Have a look at this"), "title", role="heading")]
    fell = work.site.fall is not None and bool(_last_fell(work))
    if fell:
        words = f"{ON_SITE} {IN_PRACTICE}" if work.can_undo else ON_SITE
        parts.append(Prose([Paragraph(words, space=10)], key="note/fall"))
    for finding in findings:
        parts += finding_widgets(finding)
    parts.append(Prose([Paragraph(CAUTION, "small", "panel_faint")], key="caution"))
    buttons: list[Widget] = []
    if better(work) is not None:
        buttons.append(Button(_("Make it right"), partial(make_right, work), shortcut="Ctrl R", key="note/right"))
    if work.can_undo:
        name = _("Take it back") if fell else _("Undo it")
        buttons.append(Button(name, work.undo, picture="undo", shortcut="U", key="note/undo"))
    buttons.append(Button(_("Go on"), work.close_note, kind="primary", shortcut="Enter", key="note/go on"))
    row = Flow(buttons, gap=12, key="note/buttons")
    if row.wide(work.ui) > work.roots["side"].rect.width - work.ui.look.px(32):
        # Large text: one line of buttons leaves more room to read; the keys stand in the list of keys.
        for button in buttons:
            button.shortcut = ""
    return Pad(
        Column([Scroll(Column(parts, gap=4), _("What was found")), row], gap=12),
        pad=16, column=True, name=_("What was found"), key="note",
    )  # fmt: skip
