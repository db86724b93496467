"""How often somebody acts for a safe day: looking round, reporting, the lift plan, a gust, the first packs.

A dozen at most for a house, so that it stays quick to do (a target of this trainer's own, no source).
"""

from itertools import groupby

import pytest
from attempts import layout_of, level_of
from board_robot import Robot
from sizes import some

from trainer.rehearse import rehearse
from trainer.session import Session
from trainer.shipped import level_paths
from trainer.site import AnyAction
from trainer.site.actions import Plan

MOST = 12
OF_THE_DAY = {"check", "report", "stop", "load", "plan"}


def asks_for_the_day(name: str) -> bool:
    site = level_of(name).site
    return bool(site.dangers or site.lifting or site.loading)


IDS = [path.stem for path in level_paths() if asks_for_the_day(path.stem)]


def by_act(actions: tuple[AnyAction, ...]) -> list[list[AnyAction]]:
    """Actions as a hand does them: all kinds of truss that are lifted alike are planned by one press."""
    plans = [action for action in actions if isinstance(action, Plan)]
    order = sorted(plans, key=_alike)
    together: list[list[AnyAction]] = [list(same) for _alike, same in groupby(order, _alike)]
    first = next((n for n, action in enumerate(actions) if isinstance(action, Plan)), 0)
    others: list[list[AnyAction]] = [[action] for action in actions if not isinstance(action, Plan)]
    return [*others[:first], *together, *others[first:]]


def _alike(plan: Plan) -> tuple[str, int, str]:
    return plan.by, plan.people, plan.slung or ""


@pytest.mark.parametrize("name", some(IDS, 4, 20))
def test_a_safe_day_takes_no_more_than_a_dozen_acts(name: str) -> None:
    layout = layout_of(name)
    actions = rehearse(level_of(name), 1, layout=layout).actions
    robot = Robot(Session(level_of(name), 1, layout=layout))
    acts = 0
    for act in by_act(actions):
        acts += act[0].do in OF_THE_DAY
        plans = [action for action in act if isinstance(action, Plan)]
        if len(plans) > 1:
            tool = robot.tools.use("plan")
            for plan in plans:
                tool.take_row(None, plan.kind)
            tool.by, tool.people, tool.slung = plans[0].by, plans[0].people, plans[0].slung or ""
            assert tool.actions() == plans, "one press plans them all"
        for action in act:
            robot.do(action)
    assert robot.session.findings == () and robot.session.refused == ()
    assert robot.session.site.handed_over
    assert 0 < acts <= MOST
