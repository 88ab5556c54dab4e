"""Plants that died or were thrown out."""

import re
from datetime import date

from bot.actions.action import ButtonText, Command, Outcome, performs
from bot.actions.desk import Desk
from bot.domain.identity import PlantId
from bot.domain.journal import LostNow


class LosePlant(Command):
    plants: tuple[PlantId, ...]
    on: date | None = None


_SAID = (ButtonText.YES, ButtonText.PASSED_BY, ButtonText.WRITE_IT)
"""Buttons of what somebody told; that a plant may be lost is offered without a word of it too."""


class PlantsGone(Outcome):
    """Something about plants that died or were thrown out; nothing is written."""

    plants: tuple[str, ...]


class Lost(Outcome):
    """Gone for good; whom an infested one leaves on watch."""

    plants: tuple[str, ...]
    was_infested: bool = False
    watched: tuple[str, ...] = ()


@performs
def lose(command: LosePlant, desk: Desk) -> Lost:
    """Write that plants are gone."""
    was_infested = any(desk.plant(plant).cases for plant in command.plants)
    desk.write(desk.draft(LostNow(), plant=plant, on=command.on) for plant in command.plants)
    watched = [plant for plant, why in desk.agenda.watched.items() if why.because_of in command.plants]
    return Lost(desk.names(command.plants), was_infested, desk.names(watched))


def asked_back(desk: Desk, *told: type[Command]) -> frozenset[PlantId]:
    """Give plants of which somebody told such a thing, who was asked back and has not answered."""
    questions = (desk.store.question(desk.member.household, one.chat) for one in desk.members)
    choices = [choice for one in questions if one is not None for choice in one.choices]
    inside = [inner for one in choices for each in one.commands for inner in getattr(each, "choices", ())]
    said = (one for one in (*choices, *inside) if LosePlant not in told or one.text in _SAID)
    commands = (each for one in said for each in one.commands if isinstance(each, told))
    return frozenset(plant for each in commands for plant in getattr(each, "plants", ()))


def _says_gone(commands: tuple[Command, ...]) -> bool:
    offered = (each for one in commands for choice in getattr(one, "choices", ()) for each in choice.commands)
    return any(isinstance(one, LosePlant) for one in (*commands, *offered))


def gone_by_name(text: str, commands: tuple[Command, ...], desk: Desk) -> PlantsGone | None:
    """
    Find the exact name of a plant that is gone, so that a double send never reaches its namesake.

    What is a word of a living plant's name speaks of that one, but where a plant is said to be gone.
    """
    household = desk.household
    living = {plant.name.casefold() for plant in household.living}
    taken = living if _says_gone(commands) else {word for name in living for word in (name, *name.split())}
    lost = [one.name for one in household.plants.values() if one.lost_on and one.name.casefold() not in taken]
    rest = text.casefold() if lost else ""
    for name in sorted(living, key=len, reverse=True) if lost else ():
        rest = re.sub(rf"\b{re.escape(name)}\b", " ", rest)
    named = tuple(name for name in lost if re.search(rf"\b{re.escape(name.casefold())}\b", rest))
    return PlantsGone(named) if named else None
