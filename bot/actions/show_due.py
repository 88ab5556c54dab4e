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


def due_lines(desk: Desk, tasks: tuple[Task, ...]) -> tuple[DueLine, ...]:
    """Give tasks with their names."""
    return tuple(
        DueLine(name=desk.plant(task.plant).name, task=task, product=desk.product_name(task.product))
        for task in tasks
    )


@answers(Topic.DUE)
def show_due(command: Ask, desk: Desk) -> DueList:
    evenings = tuple((evening.on, due_lines(desk, evening.tasks)) for evening in desk.agenda.evenings)
    return DueList(today=desk.today, evenings=evenings, is_week=command.when == "week")
