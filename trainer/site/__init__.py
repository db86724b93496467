"""What happens on site: actions, the state they fold into, and how an attempt is replayed."""

from trainer.site.actions import AnyAction, Brace, Fit, Fix, HandOver, Mark, Remove, Restrain, Stand
from trainer.site.beams import bears_on_beam, walls_of_beams
from trainer.site.conditions import LOOKED_AT, MEASURED, Conditions, Flaw, Limits
from trainer.site.crossing import over_internal_wall
from trainer.site.delivery import dockets, packs, shows
from trainer.site.diary import Diary, parse_diary, write_diary
from trainer.site.falling import as_left, gone_on_around, to_clear
from trainer.site.fold import act, start
from trainer.site.holding import apex_tied, wall_tied
from trainer.site.inspection import SPOILT, measured, sound
from trainer.site.job import Hung, Job, Station
from trainer.site.lifting import Lift
from trainer.site.load_path import (
    SLOTTED,
    crossing_key,
    hard_on,
    joined,
    loose_ends,
    loose_stretches,
    seated,
    steadied,
    trimmed,
    wall_at,
)
from trainer.site.looking import known, looked
from trainer.site.marking import READ
from trainer.site.model import Bracing, Event, Fall, Fastened, Marked, Off, Refused, Restrained, Site, Stood
from trainer.site.on_the_day import PEOPLE, RIGHT_PATTERN, come_up, is_there, loose, plans
from trainer.site.placing import same_both_ways
from trainer.site.query import (
    bracket_wanted,
    bracketed,
    end_fixed,
    held,
    mark_wanted,
    permanently_held,
    row_of,
    standing_in_row,
)
from trainer.site.releasing import next_out
from trainer.site.shape import Untrue, height, outermost, plate_out, plates_out, shape, string_over, untrue
from trainer.site.steps import done, missing_before, step_actions, unready
from trainer.site.striking import missing_for_girder, needed_no_more, ties_stripped, tops_untied
from trainer.site.uplift import ENOUGH, Bearing, area, drawn, held_down, needed, post_uplift, pressure, uplift, wanted
