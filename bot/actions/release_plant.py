"""Let plants go back."""

from datetime import date

from bot.actions.action import Asking, ButtonText, Choice, Command, Outcome, performs
from bot.actions.ask import Ask, Topic
from bot.actions.decline import Decline
from bot.actions.desk import Desk
from bot.actions.move_plant import MovePlant
from bot.actions.show_photos import PhotosShown, show_photos
from bot.domain.identity import PlantId
from bot.domain.journal import ReleasedNow
from bot.domain.progress import Progress
from bot.domain.value import replace


class ReleasePlant(Command, kw_only=True):
    """Back from isolation; against the rule only when confirmed."""

    plants: tuple[PlantId, ...]
    on: date | None = None
    confirmed: bool = False
    asked_on: date | None = None
    """The evening on which it was offered; a day later the offer is over."""


class ReleasedThem(Outcome):
    """Back from isolation; watched until a day."""

    plants: tuple[tuple[str, bool, date | None], ...]
    not_isolated: tuple[str, ...]
    ended: tuple[Progress, ...] = ()
    """Cases that end here by the rule, as they stood."""


class NotYet(Outcome):
    """The rule does not let it go yet; can be done all the same."""

    plant: str
    progress: tuple[Progress, ...]
    quarantine_until: date | None = None


MOST_PLACES = 5
"""Places offered beside the one it stands at; another can be typed. Judgement."""


@performs
def release(command: ReleasePlant, desk: Desk) -> list[Outcome]:
    """Let plants go by the rule, or against it when the person said so twice; never silently."""
    isolated = [plant for plant in command.plants if desk.plant(plant).is_isolated]
    rest = [plant for plant in command.plants if plant not in isolated]
    held = [plant for plant in isolated if not _qualifies(desk, plant)]
    is_offered = command.asked_on is None or (desk.today - command.asked_on).days <= 1
    if held and not (command.confirmed and is_offered):
        first = desk.plant(held[0])
        anyway = replace(command, confirmed=True, asked_on=desk.today)
        choices = (Choice(ButtonText.BACK_ANYWAY, (anyway,)), Choice(ButtonText.KEEP_APART, (Decline(),)))
        progress = desk.agenda.progress.get(held[0], ())
        return [NotYet(first.name, progress, first.quarantine_until, asking=Asking(choices))]
    by_rule = {plant: plant not in held for plant in isolated}
    ended = tuple(
        state for plant in isolated if by_rule[plant] for state in desk.agenda.progress.get(plant, ())
    )
    photos = [show_photos(Ask(topic=Topic.PHOTOS, plants=(plant,)), desk) for plant in isolated if ended]
    desk.write(
        desk.draft(ReleasedNow(by_rule=by_rule[plant]), plant=plant, on=command.on) for plant in isolated
    )
    watches = desk.agenda.watched
    released = ReleasedThem(
        tuple(
            (desk.plant(plant).name, by_rule[plant], watches[plant].until if plant in watches else None)
            for plant in isolated
        ),
        desk.names(rest),
        ended,
        asking=_ask_where(tuple(isolated), desk),
    )
    return [*(one for one in photos[:1] if isinstance(one, PhotosShown) and one.count > 1), released]


def _ask_where(plants: tuple[PlantId, ...], desk: Desk) -> Asking | None:
    """
    Ask where plants stand that were moved: warmth, sun and neighbours are those of the place that is written.

    Who was told of no other place goes back to where it stood.
    """
    places = desk.household.places
    stays = [place for plant in plants for _, place in reversed(desk.plant(plant).stays)]
    if len(set(stays)) < 2:  # noqa: PLR2004 - one place all along
        return None
    now = desk.plant(plants[0]).place
    likely = [place for place in dict.fromkeys((*stays, *places)) if place in places and place != now]
    moves = (
        Choice(ButtonText.TO_PLACE, (MovePlant(plants, place),), places[place].name)
        for place in likely[:MOST_PLACES]
    )
    stay = () if now is None else (Choice(ButtonText.STAYS_AT, (Decline(),), places[now].name),)
    return Asking((*moves, *stay))


def _qualifies(desk: Desk, plant: PlantId) -> bool:
    known = desk.plant(plant)
    return plant in desk.agenda.ready or (not known.open_cases and known.quarantine_until is None)
