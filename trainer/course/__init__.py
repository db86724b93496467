"""The course: one idea at a time, each watched, finished and built; what comes next, and what a day holds."""

from trainer.course.finish import Help, finish
from trainer.course.mastery import SkillState, TimeDone, holding_back, mastery, states_in_words
from trainer.course.met import Met, met_so_far
from trainer.course.model import Course, CourseStep, parse_course
from trainer.course.sittings import Build, Done, FinishIt, Part, Sitting, Watch, sittings, steps_of
from trainer.course.today import LastHouse, Today, today, with_done
from trainer.course.transfer import house_of_part, new_house, once_more_house
