"""Stand a truss where it is aimed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from trainer.board.aim import (
    LIES,
    LIES_NAMES,
    Aim,
    aims_of,
    bears_on_a_wall,
    ends,
    first_aim,
    from_wall,
    in_words,
    inward_in_words,
    on_wall,
    place_by_wall,
    place_in_words,
)
from trainer.board.overlay import NOTE_PX, outside, tape_along_wall
from trainer.board.snap import BEYOND, LANDS, REACH, aim_for, drop_in_places, lands, wall_places
from trainer.board.tools.along import following
from trainer.board.tools.hand import yard
from trainer.board.tools.panel import (
    Screen,
    along_entry,
    choice,
    choice_of,
    entry,
    faint,
    row,
    tape_choice,
    wall_choice,
)
from trainer.board.tools.tool import Tool, Wanted
from trainer.board.widgets import Button, Flow, Widget
from trainer.layout import Member
from trainer.picture.as_built import LyingPiece, body
from trainer.picture.measures import figure
from trainer.picture.model import Item, Line, Polygon, Text
from trainer.picture.tags import number_of
from trainer.picture.trusses import strip
from trainer.plan import Point, Wall
from trainer.plan.points import half
from trainer.session.hands import hold_it
from trainer.session.runs import stand_run
from trainer.site.actions import Stand
from trainer.site.delivery import lies_turned
from trainer.site.fastening import CONNECTORS
from trainer.site.model import Site, Stood
from trainer.terms import KIND_NAMES
from trainer.words import _


@dataclass
class StandTool(Tool[Stand]):
    """The truss in the hand and its aim are the hand's; here are the places at which both its ends come on lines."""

    key = "S"
    first_words = _("Choose a truss in the yard. Then point where it stands, or type the measure.")
    button = _("Stand it")
    from_yard = True
    routine = "hold it"
    one_or_all = (_("stand it"), _("stand, fix, tie"))
    runs: bool = False
    """Whether the next numbers are stood too, on the next marks, where more than one act is done in one go."""

    with_: str = CONNECTORS[0]
    """What its ends on plates are fixed with, where that is done in one go."""

    with_of: dict[str, str] = field(default_factory=dict, repr=False, compare=False)
    """What the last truss of each kind was fixed with so."""

    following: str = ""
    """The truss that comes next after the one stood last."""

    short: str = ""
    """Why a press does not stand it here: it would land on nothing; an empty text where a press stands it."""

    _drops: list[Point] = field(default_factory=list, repr=False, compare=False)
    _drops_of: tuple[object, ...] = field(default=(), repr=False, compare=False)

    def take_up(self) -> None:
        """Go on with the truss that comes next, where the hand has come to one that stands."""
        if self.hand.stands:
            self.hand.truss = ""
            if self.following in yard(self.site):
                self.choose(self.following)

    def choose(self, tag: str) -> None:
        """A truss taken from the yard is held the way its kind lies, turned as it lay in its pack."""
        changed = tag != self.hand.truss
        super().choose(tag)
        if self.hand.member is not None and changed:
            self.with_ = self.with_of.get(self.hand.member.kind, self.with_)
            aim = first_aim(self.hand.plan, self.hand.member, self.hand.aim.wall)
            self.hand.hold(replace(aim, at=self.hand.aim.at, turned=lies_turned(self.site.job, tag)))
            self.hand.aimed = False

    def take(self, screen: Screen, tag: str) -> None:
        super().take(screen, tag)
        if self.hand.member is not None:
            screen.say(self.hand.hook_in_words(self.hand.aim.wall))

    def actions(self) -> Wanted:
        member = self.hand.member
        if member is None:
            return _("Take a truss from the yard first.")
        if not self.hand.aimed:
            return _("{tag} is in your hand. Point where it stands, or type the measure.").format(tag=member.tag)
        start, finish = ends(self.hand.plan, member, self.hand.aim)
        stand = Stand(tag=member.tag, start=start, finish=finish)
        if not self.in_one_go:
            return [stand]
        return stand_run(self.site, stand, self.with_) if self.runs else hold_it(self.site, stand, self.with_)

    @property
    def how_much(self) -> tuple[str, ...]:
        return (*self.one_or_all, _("and all like it"))

    @property
    def go(self) -> int:
        return int(self.in_one_go) + int(self.in_one_go and self.runs)

    def go_on_with(self, number: int) -> None:
        super().go_on_with(number)
        self.runs = number > 1

    def aim_at(self, action: Stand) -> str:
        self.hand.truss = action.tag
        aims = aims_of(self.hand.plan, self.site.layout.by_tag[action.tag], action.start, action.finish)
        if not aims:
            return _("No tape reaches that place from a wall.")
        self.hand.hold(next((aim for aim in aims if aim.wall == self.hand.aim.wall and not aim.off), aims[0]))
        return ""

    def after(self, action: Stand) -> None:
        """Take the next number of the same kind from the yard, turned as the last; its place is still to be said."""
        waiting, by_tag = yard(self.site), self.site.layout.by_tag
        self.with_of[by_tag[action.tag].kind] = self.with_
        same = [t for t in waiting if by_tag[t].kind == by_tag[action.tag].kind]
        later = [t for t in same if number_of(t) > number_of(action.tag)]
        self.following, lies = (later or same or waiting or [""])[0], self.hand.aim.lies
        self.choose(self.following)
        if same:
            self.hand.aim = replace(self.hand.aim, lies=lies)
        self.hand.caught = ""

    @property
    def title(self) -> str:
        member = self.hand.member
        return f"{member.tag}, {KIND_NAMES[member.kind]}" if member else _("Stand a truss")

    @property
    def has_button(self) -> bool:
        return self.hand.member is not None

    def controls(self, screen: Screen) -> list[Widget]:
        hand = self.hand
        if hand.member is None:
            advice = faint(_("Take a truss from the yard: choose it and press Enter, or drag it."))
            return [advice, *self.go_choice(screen), *self._with(screen)]
        aim = hand.aim
        wall = wall_choice(screen, hand, aim.wall, lambda name: setattr(hand, "aim", replace(hand.aim, wall=name)))
        at = along_entry(
            screen, hand, aim.wall, hand.tape_start(aim.wall), aim.at, lambda mm: hand.hold(replace(hand.aim, at=mm)),
            blank=not hand.aimed,
        )  # fmt: skip
        off = entry(screen, _("In from it"), aim.off, lambda mm: hand.hold(replace(hand.aim, off=mm)), key="panel/off")
        lies = choice(
            screen, _("It lies"), [LIES_NAMES[each] for each in LIES], LIES.index(aim.lies),
            lambda i: setattr(hand, "aim", replace(hand.aim, lies=LIES[i])), key="lies", shortcut="L",
        )  # fmt: skip
        turn = Button(_("Turn end for end"), screen.turn, picture="turn", shortcut="T", key="panel/turn")
        end = faint(_("End {end} is at the wall.").format(end=2 if aim.turned else 1))
        return [
            *([] if hand.aimed else [faint(_("Point where it stands, or type the measure."))]),
            row(wall, tape_choice(screen, hand, aim.wall), at, off, lies, *self.go_choice(screen), *self._with(screen)),
            Flow([turn, end], key="panel/turned"),
        ]

    def _with(self, screen: Screen) -> list[Widget]:
        """Return the choice of what ends on plates are fixed with, where they are fixed in one go."""
        if not (self.in_one_go and screen.offers(self.routine) and "fix" in self.site.job.stages):
            return []
        return [choice_of(screen, _("Ends on plates with"), self, "with_", CONNECTORS)]

    # on the plan

    def point_at(self, place: Point, truss: Stood | None, mm_per_px: float) -> None:
        member = self.hand.member
        if member is not None:
            drops = self._drop_ins(member)
            aim, self.hand.caught = aim_for(self.site, member, place, self.hand.aim, mm_per_px, drops)
            self.hand.hold(aim)
            self.short = _reaches_nothing(self.site, member, aim, place, mm_per_px)

    def _drop_ins(self, member: Member) -> list[Point]:
        """Return the places at which a truss held by its middle has both ends on lines; cached until they change."""
        of = (self.site.done, len(self.site.stood), member.tag, self.hand.aim.lies, self.hand.aim.wall)
        if of != self._drops_of:
            self._drops_of = of
            self._drops = [] if bears_on_a_wall(member) else drop_in_places(self.site, member, self.hand.aim)
        return self._drops

    def press(self, screen: Screen, place: Point, tag: str) -> None:
        if self.short:
            screen.say(self.short)
        elif self.hand.member is not None:
            screen.act()
        elif tag:
            self.hand.truss = tag
        else:
            screen.say(self.first_words)

    def move(self, screen: Screen, across: int, up: int, step: float) -> None:
        self.hand.caught = ""
        if self.hand.member is not None:
            aim = self.hand.aim
            self.hand.hold(replace(aim, at=aim.at + across * step, off=aim.off + up * step))

    def next_catch(self) -> bool:
        hand, member = self.hand, self.hand.member
        if member is None:
            return False
        wall = hand.plan.by_name[hand.aim.wall]
        if bears_on_a_wall(member):
            places = [
                p for p in wall_places(self.site, wall, member.width) if -BEYOND <= p.value <= wall.length + BEYOND
            ]
            if places:
                hand.hold(replace(hand.aim, at=following(hand, places, hand.aim.at)))
            return bool(places)
        aims = sorted(_measures(wall, self._drop_ins(member)))
        if aims:
            at, off = next((aim for aim in aims if _after(aim, hand.aim)), aims[0])
            hand.hold(replace(hand.aim, at=at, off=off))
        return bool(aims)

    def drawn(self, hovered: str) -> list[Item]:
        hand, member = self.hand, self.hand.member
        if member is None or not hand.aimed:
            return []
        lies = LyingPiece(*ends(hand.plan, member, hand.aim))
        items: list[Item] = [
            Polygon(item.points, item.fill, "mark", 2.0) if isinstance(item, Polygon) else item
            for item in body(member, lies)
        ]
        tag_at, *others = [lies.at(lies.length * part) for part in (0.5, 0.4, 0.6, 0.3, 0.7)]
        items.append(Text(tag_at, member.tag, "ink", NOTE_PX, "px", bold=True, ground="select", places=tuple(others)))
        items += _end_numbers(lies)
        wall = hand.plan.by_name[hand.aim.wall]
        items += tape_along_wall(
            self.site, wall, hand.aim.at, hand.tape_start(wall.name), hand.note(wall.name, hand.aim.at)
        )
        return [*items, *(_measure_in(wall, hand.aim) if hand.aim.off else ())]

    @property
    def aimed_at(self) -> str:
        if self.hand.member is None:
            return ""
        where = in_words(self.hand.aim) if self.hand.aimed else _("not yet aimed")
        return f"{self.hand.member.tag}: {where}"

    def ghost(self, action: Stand) -> list[Item]:
        member = self.site.layout.by_tag[action.tag]
        lies = LyingPiece(action.start, action.finish)
        first, last = min(0.0, member.top[0][0]), max(lies.length, member.top[-1][0])
        outline = strip(lies.at(first), lies.at(last), member.width + 60)
        return [
            Line((*outline, outline[0]), "ghost", 2.0, "px", (8.0, 5.0)),
            Text(lies.at(lies.length / 2), member.tag, "ink", NOTE_PX, "px", bold=True, ground="paper"),
        ]

    @classmethod
    def detail(cls, action: Stand, site: Site) -> str:
        return place_in_words(site, action.start)

    def detail_now(self, action: Stand) -> str:
        wall, along, off = place_by_wall(self.site, action.start)
        there = _("wall {wall} {there}").format(wall=wall, there=self.hand.read_off(wall, half(along) + 0.0))
        return there + inward_in_words(off)


def _reaches_nothing(site: Site, member: Member, aim: Aim, place: Point, mm_per_px: float) -> str:
    """Say that a truss does not span where the hand is, far from any plate; nothing where it does, or nobody asks."""
    wall = site.layout.house.plan.by_name[aim.wall]
    near = site.layout.house.plan.plate_width + max(LANDS, 2 * REACH * mm_per_px)
    square = aim.lies == "square" and bears_on_a_wall(member)
    if not square or from_wall(wall, place) <= near or lands(site, member, wall, aim.at):
        return ""
    return _(
        "{tag} is {span} mm long: across there it ends on nothing. Press on a mark or a plate to stand it all the same."
    ).format(tag=member.tag, span=figure(member.span))


def _measures(wall: Wall, places: list[Point]) -> Iterator[tuple[float, float]]:
    """Yield places as measures along a wall and in from it, mm."""
    for place in places:
        at, off = on_wall(wall, place)
        yield (half(at), half(off))


def _after(measures: tuple[float, float], aim: Aim) -> bool:
    """Whether a place comes after the aim, along the wall and then in from it."""
    at, off = measures
    return at > aim.at + 0.25 or (abs(at - aim.at) < 0.3 and off > aim.off + 0.25)


def _end_numbers(lies: LyingPiece) -> list[Item]:
    """Return each end's number, a little in from it."""
    ux, uy = lies.unit
    where = ((1, 0.0, (ux * 0.9, uy * 0.9)), (2, lies.length, (-ux * 0.9, -uy * 0.9)))
    return [
        Text(lies.at(run), str(number), "ink", NOTE_PX, "px", bold=True, ground="paper", off=off, spare=True)
        for number, run, off in where
    ]


def _measure_in(wall: Wall, aim: Aim) -> list[Item]:
    """Return the measure in from a wall to the near end."""
    a, b = outside(wall, aim.at, 0), outside(wall, aim.at, -aim.off)
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    return [
        Line((a, b), "mark", 1.5, "px", (6.0, 4.0)),
        Text(middle, figure(aim.off), "mark", NOTE_PX, "px", bold=True, ground="paper"),
    ]
