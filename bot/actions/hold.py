"""Rest until a day, or until somebody speaks again: for oneself, for the home only if nobody is left."""

from datetime import date, timedelta

from bot.actions.action import ButtonText, Choice, Command, Outcome, performs
from bot.actions.desk import Desk
from bot.actions.pass_on import PassOn
from bot.domain.journal import HeldUntil


class Hold(Command):
    """Away, or silence, until a day or until further notice; from a day on where that is told ahead."""

    until: date | None = None
    since: date | None = None


class EveningsHeld(Outcome):
    """No nudges until a day, or until told; plants whose round runs past its last good day by then."""

    until: date | None
    late: tuple[tuple[str, date], ...] = ()
    since: date | None = None
    """Where it begins on a later day."""
    others: tuple[str, ...] = ()
    """Who goes on getting the evenings."""
    before: tuple[tuple[date, tuple[str, ...]], ...] = ()
    """Evenings with treatments before a trip told ahead begins."""


class MemberAway(Outcome):
    """To the others: who gets no evenings, from when, until when; until today: who does again."""

    name: str
    until: date | None
    since: date | None = None


class Paused(Outcome):
    """Beside another outcome: the evenings rest, until a day or until told."""

    until: date | None


@performs
def hold(command: Hold, desk: Desk) -> EveningsHeld:
    """Rest until a day, or until the person speaks of plants again; the others are told, and go on."""
    until, household = command.until, desk.household
    since = command.since if command.since is not None and command.since > desk.today else None
    is_back = until is not None and until <= desk.today
    members = desk.others
    left = [one for one in members if not household.is_away(one.id, since or desk.today)]
    late = {
        desk.plant(task.plant).name: task.closes_on
        for evening in desk.agenda.evenings
        for task in evening.tasks
        if task.method is not None
        and (until is None or task.closes_on < until)
        and (since is None or task.closes_on >= since)
    }
    drafts = [desk.draft(HeldUntil(until, is_own=True), on=since)] if members else []
    if not left or (is_back and household.is_held(desk.today)):
        ends = [until, *(household.away[one.id][1] for one in members if one.id in household.away)]
        first = min((end for end in ends if end is not None), default=None)
        drafts.append(desk.draft(HeldUntil(until if is_back else first), on=since))
    desk.write(drafts)
    desk.tell_others(MemberAway(desk.member.name, until, since))
    before = tuple(
        (evening.on, desk.names(dict.fromkeys(task.plant for task in evening.tasks if task.method)))
        for evening in desk.agenda.evenings
        if since is not None and evening.on < since and any(task.method for task in evening.tasks)
    )
    return EveningsHeld(
        until,
        tuple(late.items()),
        since,
        tuple(one.name for one in left),
        before,
        offers=_note(since or desk.today, until, desk),
    )


def _note(since: date, until: date | None, desk: Desk) -> tuple[Choice, ...]:
    """Offer a note for whoever waters, where somebody is away for days and a plant has to be minded."""
    if until is None or until - since <= timedelta(days=1):
        return ()
    is_minded = any(plant.is_isolated for plant in desk.household.living)
    return (Choice(ButtonText.NOTE_FOR_OTHERS, (PassOn(since=since, until=until),)),) if is_minded else ()
