"""The job sheet: a level's own instructions, in plain words."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from trainer.level import Level
from trainer.order.inspection import sample
from trainer.plan import round_corners
from trainer.session.beams_sheet import beam_lines
from trainer.session.lift_sheet import lift_sheet
from trainer.site import Job
from trainer.terms import thing
from trainer.words import _, ngettext

_KINDS = (
    ("standard", _("Standard trusses")), ("girder", _("Girder trusses")), ("truncated_girder", _("Truncated girders")),
    ("truncated", _("Truncated trusses")), ("hip", _("Hip trusses")), ("jack", _("Jack trusses")),
    ("creeper", _("Creeper trusses")), ("gable", _("Gable trusses")),
    ("half", _("Half trusses")),
)  # fmt: skip


RECTANGLE = 4
"""Corners of a house without an opening."""


def job_sheet(level: Level, job: Job, counts: str) -> list[tuple[str, list[str]]]:
    """Return the sheet as headings with their lines, in which ``**`` stands round what matters most.

    It says nothing about kinds of truss that the house of the ``job`` has not; ``counts`` says how many of each kind
    were delivered.
    """
    kinds = {member.kind for member in job.layout.members}
    sections = (
        (_("Delivered"), [counts + "."]),
        (_("The roof"), _roof(level)),
        (_("The fabricator's notes"), list(level.job_sheet)),
        (_("Before the first lift"), _look_round(level)),
        (_("Beams and posts"), list(beam_lines(job))),
        (_("Lifting"), list(lift_sheet(job))),
        (_("Set-out"), _set_out(level, kinds)),
        (_("Dutch gable"), _dutch_gables(level)),
        (_("Near enough"), _tolerances(level)),
        (_("Bracing while it goes up"), _bracing(level, kinds)),
        (_("Permanent bracing"), _permanent(level, job, kinds)),
        (_("Fixings"), _fixings(level, kinds)),
        (_("Tie-down"), _tie_down(level)),
        (_("Days and weather"), _days(level)),
        (_("Inspection"), _inspection(level, sample(job.layout))),
        (_("After hand-over"), _first_packs(level)),
        (_("If something falls"), _after_a_fall(level)),
        (_("Safety"), _safety(level)),
    )
    return [(heading, lines) for heading, lines in sections if lines]


def _roof(level: Level) -> list[str]:
    roof = level.roof
    lines = [
        _("Pitch **{pitch:g}°** on every plane.").format(pitch=roof.pitch),
        _("Overhang **{overhang}** mm: from the outside of the plate to the end of the tail.").format(
            overhang=roof.overhang
        ),
        _("Heel **{heel}** mm: top of the top chord over the outside of the plate.").format(heel=roof.heel),
        _("Cover: {cover}.").format(cover={"sheet": _("sheet"), "tile": _("tile")}[roof.cover]),
    ]
    lines += _walls(level)
    if level.against:
        text = ngettext(
            "Wall **{walls}** goes on up: no plate and no eave there.",
            "Walls **{walls}** go on up: no plate and no eave there.",
            len(level.against),
        )
        lines.append(text.format(walls=", ".join(level.against)))
        lines.append(_("Tie each top that meets it to that wall before you let the truss go."))
    return lines


def _walls(level: Level) -> list[str]:
    """Say which walls have a gable, a dutch gable or a beam, and what all the others are."""
    gables, dutch, beams = (", ".join(walls) for walls in (level.gables, level.dutch_gables, level.beams))
    lines = []
    if gables:
        text = ngettext("Gable on wall **{walls}**.", "Gables on walls **{walls}**.", len(level.gables))
        lines.append(text.format(walls=gables))
    if dutch:
        text = ngettext(
            "Dutch gable over wall **{walls}**: an eave, with a small gable above it.",
            "Dutch gables over walls **{walls}**: eaves, each with a small gable above it.",
            len(level.dutch_gables),
        )
        lines.append(text.format(walls=dutch))
    if beams:
        text = ngettext(
            "Verandah beam on posts along wall **{walls}**.",
            "Verandah beams on posts along walls **{walls}**.",
            len(level.beams),
        )
        lines.append(text.format(walls=beams))
    if lines and not level.against:
        lines.append(_("Every other wall is an eave."))
    elif not level.against:
        lines.append(_("Every wall is an eave."))
    return lines


def _look_round(level: Level) -> list[str]:
    """What to look for, in general words: what is really there has to be seen."""
    if "pre-start" not in level.lesson.stages:
        return []
    return [
        _("Look round: {places}.").format(places=", ".join(map(thing, level.site.checks))),
        _("Look for anything that somebody could fall from or into, or that could fall on somebody."),
        _("Loads stay **{mm}** mm clear of service lines.").format(mm=level.site.clear_of_lines),
        _("Keep people out from under the lift. Look at how the packs lie, and at the forecast."),
        _("Report what is wrong. It is put right before anything is lifted."),
    ]


def _set_out(level: Level, kinds: Collection[str]) -> list[str]:
    trusses = level.trusses
    face = trusses.stations_to == "near face"
    to = _("to the face nearest the end wall") if face else _("to the middle of the truss")
    lines = [_("Spacing **{spacing}** mm. No gap may be more.").format(spacing=trusses.spacing)]
    if "truncated_girder" in kinds:
        setback = _("Setback **{setback}** mm: outside of a hipped end wall to the truncated girder.")
        lines.append(setback.format(setback=trusses.setback))
    lines += [
        _("Measures run from the outside of the end wall {to}.").format(to=to),
        _("Hook the tape once and let the measures run on."),
        _("Trusses are **{thick}** mm thick.").format(thick=trusses.thickness),
    ]
    if not face:
        half = f"{trusses.thickness / 2:g}"
        lines.append(
            _("So one that stands against a line is marked **{half}** mm past it: half of that.").format(half=half)
        )
    if not {"girder", "truncated_girder"}.isdisjoint(kinds):
        plies = trusses.girder_plies
        lines.append(ngettext("Girders have **{n}** ply.", "Girders have **{n}** plies.", plies).format(n=plies))
    if "girder" in kinds and round_corners(level.house().plan):
        lines.append(_("The half girder stands with its face in line with the higher wall at the corner."))
    elif "girder" in kinds and len(level.plates.outline) > RECTANGLE:
        lines.append(_("A girder over an opening stands in line with the outside of the plates beside it."))
    if "saddle" in kinds:
        lines.append(_("Saddles start one spacing in from there, and go on at the spacing."))
    if level.gables:
        stands = (
            _("The gable truss stands against the inside of the end plate.")
            if trusses.gable_stands == "inside plate"
            else _("The gable truss stands flush with the outside of the end wall.")
        )
        lines.append(stands)
    return lines


def _dutch_gables(level: Level) -> list[str]:
    """Where their girders stand, and what goes on those, wall by wall."""
    text = _("Wall **{wall}**: its girder stands **{at}** mm in. The small verge stands out **{verge}** mm.")
    walls = [text.format(wall=wall, at=own.at, verge=own.verge) for wall, own in level.dutch_gables.items()]
    return walls and [
        *walls,
        _("Brace each girder and fix both its ends before anything hangs on it."),
        _("Fix the waling plate to its outer face, level, before a hip or jack lands there."),
        _("Fix the top of each hip and jack to it with **{connector}**.").format(connector=level.fixings.crossing),
        _("Verge ladders go on its face, one a slope, once the row is straight and braced."),
    ]


def _tolerances(level: Level) -> list[str]:
    near = level.tolerances
    plates = (
        _("Plates: **{mm}** mm, measured before trusses go on.")
        if "pre-start" in level.lesson.stages
        else _("Plates: **{mm}** mm. Others have measured them on this job.")
    )
    return [
        _("Position: **{mm}** mm either way.").format(mm=near.station),
        _("Out of plumb: height ÷ {ratio}, never over {cap} mm.").format(ratio=near.plumb.ratio, cap=near.plumb.cap),
        _("Bow: length ÷ {ratio}, never over {cap} mm.").format(ratio=near.bow.ratio, cap=near.bow.cap),
        _("Tops of full-height trusses: **{mm}** mm off their line.").format(mm=near.apex),
        plates.format(mm=near.plates),
    ]


def _bracing(level: Level, kinds: Collection[str]) -> list[str]:
    bracing = level.bracing
    held = (
        _("Before each lift, all that stands is held: both ends fixed, its top braced or tied to what is held.")
        if "fix" in level.lesson.stages
        else _(
            "Before each lift, all that stands is held: its top braced or tied to what is held. Others fix its ends."
        )
    )
    gables = {"gable", "standard"}.issubset(kinds) and "stand" in level.lesson.stages
    return [
        held,
        *([_("A gable truss goes up at any time after the standard truss next to it.")] if gables else []),
        _("No held truss one bay away: brace it to something solid. Otherwise tie it to that one with a batten."),
        _("Rows of ties (battens) along the top chords: from the ridge down, no more than **{mm}** mm apart.").format(
            mm=bracing.top_chord_ties
        ),
        _("That gap is measured on the level, as the plan shows it."),
        _("Before hand-over, take out props and braces to floor, walls and ground. Permanent bracing comes first."),
        _("Ties along the tops stay."),
    ]


def _permanent(level: Level, job: Job, kinds: Collection[str]) -> list[str]:
    """The permanent bracing that the level asks for, and what of it the house turns out not to need."""
    bracing = level.bracing
    asked = {
        "roof brace": _("Roof braces: both ways on each slope, over every full-height truss."),
        "bottom-chord tie": _("Ties along the bottom chords: no more than **{mm}** mm apart.").format(
            mm=bracing.bottom_chord_ties
        ),
        "web tie": _("Ties along webs longer than **{mm}** mm, near their middles.").format(mm=bracing.web_ties_over),
        "top-chord tie": _("Ties along top chords under saddles: no more than **{mm}** mm apart.").format(
            mm=bracing.under_saddles
        ),
        "end brace": _("End braces over the plates, at both ends of each row."),
    }
    if "saddle" not in kinds:
        del asked["top-chord tie"]
    needed = {piece.kind for piece in job.restraints}
    none = _("This house needs none.")
    lines = [text if kind in needed else f"{text} {none}" for kind, text in asked.items() if kind in bracing.permanent]
    if "roof brace" in bracing.permanent:
        angle = bracing.steel_brace_angle
        lines[1:1] = [
            _("A roof brace runs from the plate to the ridge, {least}° to {most}° to the trusses.").format(
                least=angle.least, most=angle.most
            ),
            _("A long row takes a V or more, a shorter one a cross."),
            _("Too short for a cross: {what} on each slope.").format(
                what={"one brace": _("one brace"), "cross": _("a cross all the same")}[bracing.short_rows]
            ),
            _("Take its lower end round the plate and nail it off."),
            _("Pull a strap until it is straight, and no further."),
        ]
    return lines or [_("None on this job.")]


def _fixings(level: Level, kinds: Collection[str]) -> list[str]:
    fixings = level.fixings
    walls = _("Over internal walls: **slotted brackets**, no more than {mm} mm apart. No nails.")
    by_connector: dict[str, list[str]] = {}
    for kind, name in _KINDS:
        if kind in kinds:
            by_connector.setdefault(getattr(fixings, kind), []).append(name.lower())
    lines = [
        _("On a plate, **{connector}**: {kinds}.").format(connector=c, kinds=", ".join(k))
        for c, k in by_connector.items()
    ]
    carriers = not {"girder", "truncated_girder", "hip"}.isdisjoint(kinds)
    if "half" in kinds:
        lines.append(_("On a ledger: **{hung}**.").format(hung=fixings.hung))
    if "half" in kinds and not {"girder", "truncated_girder"}.isdisjoint(kinds):
        lines.append(_("Where a girder hangs on a ledger: **{hung}**.").format(hung=fixings.hung_girder))
    if carriers:
        lines.append(_("Where a truss hangs on another: **{hung}**.").format(hung=fixings.hung))
    if {"girder", "truncated_girder"}.issubset(kinds):
        lines.append(_("Where a truncated girder hangs on a girder: **{hung}**.").format(hung=fixings.hung_girder))
    if carriers or "half" in kinds:
        lines.append(
            _("Fit the bracket to the carrier before the truss is set down in it. Then fasten the truss with it.")
        )
    if carriers:
        lines.append(_("Join the plies of a girder before it carries."))
    if "hip" in kinds:
        text = _("Extensions are fixed at each truss they cross, each with a **{connector}**.")
        lines.append(text.format(connector=fixings.crossing))
    if "saddle" in kinds:
        text = _("Saddles are fixed to what they sit on, each crossing with a **{connector}**.")
        lines.append(text.format(connector=fixings.saddle))
        lines.append(_("Put a batten under each saddle, and a trimmer where its end has no truss below."))
    if level.internal_walls:
        lines.append(walls.format(mm=fixings.wall_brackets))
    return lines


def _tie_down(level: Level) -> list[str]:
    tie, hold = level.tie_down, level.tie_down.capacity
    return [
        _("Wind class {wind}. Net uplift {kpa:g} kPa on the plan area that a bearing carries.").format(
            wind=tie.wind_class, kpa=tie.net_pressure
        ),
        *_over_beams(level),
        _(
            "One framing anchor holds {anchor:g} kN, a strap {strap:g}, a hanger {hanger:g}, a heavy bracket {heavy:g}."
        ).format(
            anchor=hold.framing_anchor, strap=hold.tie_down_strap, hanger=hold.hanger, heavy=hold.heavy_girder_bracket
        ),
        _("These figures are invented. Check the truss plan and the current standard."),
    ]


def _over_beams(level: Level) -> list[str]:
    if not level.beams:
        return []
    return [_("Over a verandah beam it is **{kpa:g}** kPa.").format(kpa=level.tie_down.pressure_over_beams)]


def _days(level: Level) -> list[str]:
    if level.site.day is None or "brace" not in level.lesson.stages:
        return []
    wind = {"calm": _("no wind"), "fresh": _("a fresh wind"), "strong": _("a strong wind")}[level.site.wind]
    return [
        ngettext(
            "A day ends after **{n}** truss. Expect {wind} at night.",
            "A day ends after **{n}** trusses. Expect {wind} at night.",
            level.site.day,
        ).format(n=level.site.day, wind=wind),
        _("Leave nothing loose. Put a diagonal in each row of three or more, or brace two of its trusses solid."),
    ]


def _inspection(level: Level, inspect: Sequence[str]) -> list[str]:
    if "hand-over" not in level.lesson.stages:
        return []
    return [
        _("Before you hand over, inspect **{trusses}**.").format(trusses=", ".join(inspect)),
        _("Measure plumb and bow of each. Then accept it or reject it."),
    ]


def _first_packs(level: Level) -> list[str]:
    if not level.site.loading or "hand-over" not in level.lesson.stages:
        return []
    return [_("Say where the first packs land. Nothing goes on the roof before hand-over.")]


def _after_a_fall(level: Level) -> list[str]:
    if "stand" not in level.lesson.stages:
        return []
    return [
        _("Stop. Help anybody who is hurt. Keep everybody else out."),
        _("Tell the supervisor: report the fall. Touch nothing until you may."),
        _("Then clear it away. Nothing that fell is stood again: new trusses come."),
    ]


def _safety(level: Level) -> list[str]:
    return [
        _("Stay {mm} mm clear of unprotected edges.").format(mm=level.site.clear_of_edge),
        _("A fall from {mm} mm or more asks for a written method statement here.").format(mm=level.site.fall_height),
        _("Stop lifting when the wind gets up. Make safe what stands."),
        _("Stand only on trusses that are braced and fixed."),
        _("Never cut a truss. Tails are trimmed only if the fabricator's drawing allows it. Report damage."),
    ]
