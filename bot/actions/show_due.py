"""What the coming evenings bring."""

from datetime import date

from bot.actions.action import Outcome
from bot.actions.ask import Ask, Topic, answers
from bot.actions.desk import Desk
from bot.domain.agenda import Task
from bot.domain.value import Value


class DueLine(Value, kw_only=True):
    """One plant's line of the agenda."""

    name: str
    task: Task
    product: str | None


class DueList(Outcome, kw_only=True):
    today: date
    evenings: tuple[tuple[date, tuple[DueLine, ...]], ...]
    is_week: bool
    free: tuple[str, ...] = ()
    """Plants asked about of which nothing is due."""


def due_lines(desk: Desk, tasks: tuple[Task, ...]) -> tuple[DueLine, ...]:
    """Give tasks with their names."""
    return tuple(
        DueLine(name=desk.plant(task.plant).name, task=task, product=desk.product_name(task.product))
        for task in tasks
    )


@answers(Topic.DUE)
def show_due(command: Ask, desk: Desk) -> DueList:
    asked = set(command.plants)
    found = [
        (evening.on, tuple(one for one in evening.tasks if not asked or one.plant in asked))
        for evening in desk.agenda.evenings
    ]
    evenings = tuple((on, due_lines(desk, tasks)) for on, tasks in found if tasks)
    due = {task.plant for _, tasks in found for task in tasks}
    free = desk.names(one for one in command.plants if one not in due)
    return DueList(today=desk.today, evenings=evenings, is_week=command.when == "week", free=free)
