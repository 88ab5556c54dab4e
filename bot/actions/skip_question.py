"""Put off what the setting-up asks."""

from dataclasses import dataclass

from bot.actions.choice import Command
from bot.actions.desk import Desk
from bot.actions.outcome import Outcome
from bot.actions.set_place import NoPlaceAsked, PlacesSaved, SetPlace, set_place
from bot.actions.situation import Expecting
from bot.domain.window import Facing


@dataclass(frozen=True, slots=True)
class SkipQuestion(Command):
    """Put off the open question of the setting-up; it can be answered any time."""


@dataclass(frozen=True, slots=True)
class QuestionSkipped(Outcome):
    """A question of the setting-up was put off."""

    skipped: Expecting
    asks_plants: bool


def skip_question(_: SkipQuestion, desk: Desk) -> QuestionSkipped | PlacesSaved | NoPlaceAsked:
    """Put off what was asked; go on with the next thing that is missing."""
    question = desk.store.question(desk.member.household, desk.member.chat)
    skipped = question.expecting if question is not None else Expecting.NOTHING
    if skipped is Expecting.PLACE:
        return set_place(SetPlace(name="", facing=Facing.UNKNOWN), desk)
    desk.store.close_question(desk.member.household, desk.member.chat)
    asks_plants = skipped is Expecting.TOWN and not desk.household.living
    if asks_plants:
        desk.store.ask(desk.member.household, desk.member.chat, Expecting.PLANTS, (), desk.now)
    return QuestionSkipped(skipped, asks_plants=asks_plants)
