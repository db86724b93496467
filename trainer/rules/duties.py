"""Every must, should, limit and danger of the job, and the rules that find it missed.

The sentences are the trade's own, in our words. What no rule judges says why not: some of it can't be seen on a
plan, and some is told as a caution because only licensed people decide it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from trainer.words import _

DutyKind = Literal["must", "should", "limit", "danger"]


@dataclass(frozen=True, slots=True)
class Duty:
    """One thing that the job asks: its kind, the words, the names of the rules that find it missed.

    ``note`` says why no rule judges it, where none does, or what of it none judges.
    """

    kind: DutyKind
    what: str
    rules: tuple[str, ...] = ()
    note: str = ""


_JUDGED: Mapping[DutyKind, Mapping[str, str]] = {
    "must": {
        _(
            "the pre-start is done before anything is lifted: method statement, falls, exclusion zone, lifting, weather"
        ): "check-left-undone",
        _("wall frames are braced before they carry"): "unbraced-wall-loaded",
        _("studs stand under every girder"): "studs-missing-under-girder",
        _("a ledger is bolted to studs, never to brick veneer"): "ledger-not-on-studs",
        _("each top at a higher wall is tied to it before it is let go"): "wall-tie-missing",
        _(
            "a verandah beam is straight and bolted down, its posts braced both ways and tied down, before it carries"
        ): "beam-not-bolted-down post-not-braced post-not-tied-down plate-out-of-true",
        _("a verandah beam is never propped in the middle to hold trusses up"): "beam-propped",
        _("posts stay braced until the roof is braced for good"): "post-brace-taken-off",
        _("no truss is braced to a beam on posts: it is not solid"): "braced-to-beam",
        _("packs are landed where the frame can carry them"): "pack-landed-badly pack-left-on-row",
        _(
            "how each kind of truss is lifted is planned: by whom, how many, and where it is slung"
        ): "lift-not-planned too-heavy-by-hand too-few-to-lift slung-at-apex slings-not-spread",
        _("somebody licensed directs each crane lift"): "lifted-without-licence",
        _(
            "lifting stops in wind, with every truss that stands held"
        ): "lifted-in-gust stopped-unsecured forecast-not-heeded",
        _("a finished roof is loaded evenly, and the next crew is told so"): "roof-loaded-unevenly loading-not-agreed",
        _(
            "a carrier stands, is braced and fixed before what it carries is set down"
        ): "carried-before-carrier hip-before-truncated-girder saddle-before-support",
        _(
            "a carrier has its brackets before what hangs in them is set down"
        ): "hanger-missing heavy-girder-bracket-missing brackets-left-loose",
        _(
            "a truss with no held neighbour a bay away is braced to something solid before it is let go"
        ): "row-with-nothing-solid",
        _(
            "at every lift all that stands is held: its top tied to what is held, both its ends fixed"
        ): "stood-before-last-tied let-go-half-fixed",
        _("temporary bracing stays until the permanent bracing that replaces it is in"): "bracing-taken-too-early",
        _("temporary ties along the top chords stay until battens replace them"): "top-chord-ties-stripped",
        _(
            "saddles go only over trusses that are straight, braced and fixed"
        ): "saddle-before-support saddle-over-crooked-truss",
        _("no load goes on the roof before hand-over"): "loaded-before-hand-over",
        _(
            "every truss stands on its station, the right one, the right way round"
        ): "off-station setback-not-the-levels girder-off-plate-line wrong-truss-for-place end-for-end",
        _("every truss of the layout stands"): "truss-missing truss-left-over",
        _("every bearing is tied down, every carried truss fastened"): "tie-down-missing",
        _("every connector has all its nails"): "connector-half-nailed",
        _("multi-ply girders are joined before they carry"): "plies-not-joined",
        _(
            "an extension is propped or tied until the truncated trusses stand, then fixed at every crossing"
        ): "extension-not-propped extension-not-fixed",
        _(
            "a saddle sits on its batten, and on a trimmer where its end has no truss under it"
        ): "saddle-without-batten saddle-without-trimmer",
        _(
            "trusses pass over internal walls on slotted brackets: a wall that must not carry carries nothing"
        ): "fixed-hard-to-internal-wall slotted-bracket-missing",
        _("no truss is cut, notched or drilled inside its tails"): "truss-cut",
        _("a tail that is needed stays; one that has no place there is reported"): "tail-cut tail-where-none-belongs",
        _("a damaged truss is reported, and mended only by the fabricator's written detail"): "damaged-truss-stood",
        _(
            "roof bracing runs over the top chords without a break, tied down to the plates"
        ): "roof-brace-missing roof-brace-broken roof-brace-not-tied-down",
        _(
            "roof braces run both ways on each slope, so that one pulls whichever way the wind blows"
        ): "roof-braces-all-one-way",
        _(
            "permanent bracing goes on a row that is straight and plumb, since it locks the row as it stands"
        ): "braced-while-crooked",
        _("a strap is tensioned until it is straight, and no further"): "strap-pulled-too-hard",
        _("ties are packed and strapped at their ends"): "tie-end-loose",
        _("top chords are tied where saddles lie over them"): "top-chords-not-tied-under-saddles",
        _("ends are braced where the job sheet asks"): "end-brace-missing",
        _(
            "at a gable with a verge: outriggers over the lower gable truss, verge rafters, and studs or packing"
        ): "outriggers-missing verge-rafters-missing gable-studs-missing",
        _(
            "a dutch gable's girder stands on its station, and has its waling plate before a hip or jack lands on it"
        ): "dutch-girder-off-station waling-plate-missing",
        _("the small verge of a dutch gable has its ladders"): "verge-ladder-missing",
        _("every row is left safe at the end of a day"): "row-left-unsafe-overnight",
        _(
            "the roof is inspected before hand-over, and what is out of the limits is rejected"
        ): "not-inspected accepted-unmeasured accepted-out-of-limits",
        _(
            "after a fall all work stops; it is reported, cleared, and what fell or was struck is replaced"
        ): "worked-on-after-a-fall",
    },
    "should": {
        _(
            "once what replaces them is in, braces to floor, walls and ground, and props, come out before hand-over"
        ): "braces-left-inside",
        _("verge and gable are framed after the rows are straight"): "verge-before-row-straight",
        _("what is sound is accepted"): "rejected-though-sound",
        _("the load is counted and inspected against the layout first"): "missing-truss-not-reported",
        _("what is reported has been looked at or measured"): "report-without-looking",
        _("stations are marked before trusses stand to them"): "station-not-marked",
        _("stations are marked by running measurement from one end"): "measured-bay-by-bay",
        _("a girder's far bearing is found by carrying the measurement across"): "far-bearing-not-carried-across",
        _("marks all show the face that the job sheet says"): "mark-to-wrong-face",
        _(
            "girders first; truncated girders, then hips; the hip end before the middle; "
            "the outermost standard trusses before the rest"
        ): "out-of-order",
        _("tops are lined up by a string before the trusses between go up"): "no-string-line",
        _("a truss is stood once"): "taken-down-again",
    },
    "limit": {
        _(
            "outriggers at the job sheet's spacing, in at least as far as they stand out, and to a truss's centre"
        ): "outriggers-too-far-apart outriggers-not-far-enough-back outriggers-end-between-trusses",
        _("plates straight, level, to length and square, within the job sheet's limit"): "plate-out-of-true",
        _("marks and stations within the job sheet's tolerance"): "mark-off-station off-station",
        _("no gap wider than the spacing"): "spacing-too-wide bay-left-too-wide",
        _("uplift, net pressure times area, within what the connectors hold"): "tie-down-too-light",
        _("out of plumb: the lesser of height / 50 and the job sheet's cap"): "out-of-plumb",
        _("bow: the lesser of length / 200 and the job sheet's cap"): "truss-bowed",
        _("tops in line within the job sheet's tolerance"): "apex-off-line",
        _("a roof brace runs within the job sheet's range of angles to the trusses"): "roof-brace-at-wrong-angle",
        _(
            "rows of ties along the top chords while trusses go up, within the job sheet's spacing"
        ): "top-chord-battens-too-far-apart",
        _(
            "ties along the bottom chords and the long webs within the job sheet's spacing"
        ): "bottom-chord-ties-too-far-apart long-web-not-tied",
    },
    "danger": {
        _("a row goes over like dominoes"): "row-with-nothing-solid stood-before-last-tied row-left-unsafe-overnight",
        _(
            "a gap in the path from roof to wall"
        ): "tie-down-missing tie-down-too-light plies-not-joined hanger-missing extension-not-fixed",
        _("truncated trusses lean under extensions left unfixed"): "extension-not-fixed out-of-plumb",
        _("walls that won't take the roof"): "unbraced-wall-loaded studs-missing-under-girder plate-out-of-true",
        _("a damaged or missing truss is found at height"): "damaged-truss-stood missing-truss-not-reported",
        _(
            "falls outward and inward, power lines, strong wind, people below"
        ): "check-left-undone stair-void-open edge-left-open service-line-in-reach people-under-the-lift "
        "lifted-in-gust",
    },
}
"""By kind: what the job asks, and the names of the rules that find it missed."""
_UNJUDGED = (
    Duty(
        "must",
        _("nobody stands on a truss that is not braced and fixed, works from a tail, or hangs fall gear on a truss"),
        note=_("told as a caution: a plan can't show it"),
    ),
    Duty(
        "limit",
        _("manufacture, sling angle, sideways bend in lifting"),
        note=_("references from overseas, never marked against; the lifting plan and the rigger decide"),
    ),
)
_WITH_RULES = (
    Duty(kind, what, tuple(rules.split())) for kind, asked in _JUDGED.items() for what, rules in asked.items()
)
DUTIES = (*_WITH_RULES, *_UNJUDGED)
"""What rules judge, by kind, and then what none does."""
