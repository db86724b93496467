"""An extension that is not fixed where it crosses another truss."""

from __future__ import annotations

from trainer.layout.model import Crossing
from trainer.rules.placement import in_wrong_place
from trainer.rules.plain import listed
from trainer.rules.rule import PRACTICE, Finds, Found, rule
from trainer.site import ENOUGH, Event, HandOver, Site, crossing_key, wanted
from trainer.words import _, ngettext


@rule(
    severity="rework",
    on=HandOver,
    what=_("{member} has {got}. Wanted: {want}."),
    why=_("Extensions keep the trusses under them upright. Left loose, a whole row can lean."),
    fix=_("Fix the extension to every truss it crosses, with the connector on the plan."),
    safety=_("Check that the row is straight and held before you climb up to it."),
    source=PRACTICE,
)
def extension_not_fixed(before: Site, event: Event, after: Site) -> Finds:
    """A truss is handed over with its extension not fixed at some crossing; told once a truss."""
    for place, tag in after.at_place.items() if "fix" in after.job.stages else ():
        ours = [c for c in after.job.crossings.get(place, ()) if c.over == place and c.under in after.at_place]
        loose = [c for c in ours if not _fixed(after, c)]
        if loose and not in_wrong_place(after, tag):
            yield Found(tag, _got(after, loose, ours), _want(after, place, loose), f"cross {place}")


def _got(site: Site, loose: list[Crossing], ours: list[Crossing]) -> str:
    """What is loose; a top that only lands on a waling plate crosses nothing."""
    if all(site.layout.by_tag[c.under].is_dutch for c in loose):
        girders = listed([site.at_place[c.under] for c in loose])
        return _("its top loose on the waling plate of {girder}").format(girder=girders)
    text = ngettext(
        "its extension loose at {n} of {all} crossing", "its extension loose at {n} of {all} crossings", len(ours)
    )
    return text.format(n=len(loose), all=len(ours))


def _want(site: Site, place: str, loose: list[Crossing]) -> str:
    """What fixes it, and where: crossings that take the same are told together."""
    under: dict[tuple[str, int, bool], list[str]] = {}
    for crossing in loose:
        key = (*wanted(site.job, place, crossing), site.layout.by_tag[crossing.under].is_dutch)
        under.setdefault(key, []).append(site.at_place[crossing.under])
    crosses, lands = _("{connector} where it crosses {trusses}"), _("{connector} where it lands on {trusses}")
    return listed(
        [
            (lands if dutch else crosses).format(
                connector=f"{count} × {connector}" if count > 1 else connector, trusses=listed(trusses)
            )
            for (connector, count, dutch), trusses in under.items()
        ]
    )


def _fixed(site: Site, crossing: Crossing) -> bool:
    key = crossing_key(site, crossing)
    connector = site.layout.house.fixings.crossing
    return key is not None and any(one.with_ in ENOUGH[connector] for one in site.fixed.get(key, ()))
