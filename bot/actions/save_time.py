"""Little time, or too much to do: what goes first, what can wait, what may be given up."""

from collections.abc import Mapping
from datetime import timedelta

from bot.actions.action import ButtonText, Choice, Command, Outcome, performs
from bot.actions.desk import Desk
from bot.actions.postpone import Postpone
from bot.domain.effort import TRIAGE_FROM, Chore, Sort, chores, given_up, triage, within
from bot.domain.trade import Method
from bot.domain.value import Value

SHORT_MINUTES = 20
"""What "too much" is cut to, where no time was told. Judgement. [min]"""


class SaveTime(Command):
    """So much time is there tonight, or less than it takes. [min]."""

    minutes: int | None = None


class Turn(Value):
    """One plant's work in its turn, and how long it takes. [min]."""

    plant: str
    methods: tuple[Method | None, ...]
    minutes: int


class TimeSaved(Outcome, kw_only=True):
    """What goes first tonight, what waits, and which plants may be given up instead."""

    minutes: int | None
    now: tuple[Turn, ...]
    later: tuple[Turn, ...]
    given_up: tuple[str, ...]
    sorts: Mapping[Sort, tuple[str, ...]]
    """Where there are many cases: all of them by what becomes of them."""
    hours_a_week: float
    hours_saved: float


@performs
def save_time(command: SaveTime, desk: Desk) -> TimeSaved:
    """Put tonight's work in the order it counts and cut it to the time; writes nothing."""
    found = chores(desk.household, desk.knowledge, desk.tonight())
    now, later = within(found, SHORT_MINUTES if command.minutes is None else command.minutes)
    sorted_out = triage(desk.household, desk.knowledge, desk.agenda, desk.today)
    is_many = sum(bool(plant.open_cases) for plant in desk.household.living) >= TRIAGE_FROM
    rest = tuple(one.plant for one in later)
    wait = Choice(ButtonText.REST_TOMORROW, (Postpone(plants=rest, on=desk.today + timedelta(days=1)),))
    return TimeSaved(
        minutes=command.minutes,
        now=tuple(turn_of(one, desk) for one in now),
        later=tuple(turn_of(one, desk) for one in later),
        given_up=desk.names(given_up(desk.household, desk.knowledge, desk.today)) if later or is_many else (),
        sorts={sort: desk.names(plants) for sort, plants in sorted_out.sorts.items()} if is_many else {},
        hours_a_week=sorted_out.hours_a_week,
        hours_saved=sorted_out.hours_saved,
        offers=(wait,) if rest else (),
    )


def turn_of(chore: Chore, desk: Desk) -> Turn:
    """Give one plant's work by name."""
    methods = tuple(task.method for task in chore.tasks)
    return Turn(desk.plant(chore.plant).name, methods, chore.minutes)
