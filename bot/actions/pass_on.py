"""A note for whoever waters while somebody is away: what not to touch, what to do when, where to look."""

from datetime import date

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk
from bot.actions.show_due import DueLine, due_lines
from bot.domain.agenda import plan
from bot.domain.value import replace


class PassOn(Command, kw_only=True):
    """Give the message for whoever waters from a day on, until the day somebody is back."""

    since: date
    until: date


class NoteForOthers(Outcome, kw_only=True):
    """What somebody who knows nothing of the outbreak needs, to be handed on as it stands."""

    since: date
    until: date
    apart: tuple[str, ...]
    """Plants with a case, or kept apart: nobody moves them, or goes from them to the others."""
    evenings: tuple[tuple[date, tuple[DueLine, ...]], ...]
    looks: tuple[tuple[str, str], ...]
    """Pests of the home, each with where it sits."""


@performs
def pass_on(command: PassOn, desk: Desk) -> NoteForOthers:
    """Plan the days as if the evenings did not rest: somebody else may do them."""
    household = replace(desk.household, held_from=None, held_until=None, derived={})
    agenda = plan(household, desk.knowledge, max(command.since, desk.today))
    apart = [plant for plant in household.living if plant.is_isolated]
    keys = sorted({case.pest for plant in apart for case in plant.open_cases})
    pests = [desk.knowledge.pests[key] for key in keys]
    return NoteForOthers(
        since=command.since,
        until=command.until,
        apart=tuple(plant.name for plant in apart),
        evenings=tuple(
            (evening.on, due_lines(desk, evening.tasks))
            for evening in agenda.evenings
            if evening.on < command.until
        ),
        looks=tuple((pest.name, pest.looking.where) for pest in pests),
    )
