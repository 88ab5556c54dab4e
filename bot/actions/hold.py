"""Rest until a day, or until somebody speaks of plants again."""

from dataclasses import dataclass
from datetime import date

from bot.actions.command import Command, performs
from bot.actions.desk import Desk
from bot.actions.outcome import Outcome
from bot.domain.journal import HeldUntil


@dataclass(frozen=True, slots=True)
class Hold(Command):
    """Away, or silence, until a day or until further notice."""

    until: date | None = None


@dataclass(frozen=True, slots=True)
class EveningsHeld(Outcome):
    """No nudges until a day, or until told; plants whose round runs past its last good day by then."""

    until: date | None
    late: tuple[tuple[str, date], ...] = ()


@dataclass(frozen=True, slots=True)
class Paused(Outcome):
    """Beside another outcome: the evenings rest, until a day or until told."""

    until: date | None


@performs
def hold(command: Hold, desk: Desk) -> EveningsHeld:
    """Rest until a day, or until the person speaks of plants again."""
    until = command.until
    late = {
        desk.plant(task.plant).name: task.closes_on
        for evening in desk.agenda.evenings
        for task in evening.tasks
        if task.method is not None and (until is None or task.closes_on < until)
    }
    desk.write([desk.draft(HeldUntil(until))])
    return EveningsHeld(until, tuple(late.items()))
