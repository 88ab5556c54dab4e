"""Answer what is asked; nothing here writes."""

from dataclasses import dataclass

from bot.actions.advise import tell_the_sun, tell_what_fits, tell_what_to_buy
from bot.actions.answer_safety import tell_cautions, tell_whether_to_eat
from bot.actions.ask import Ask, Topic
from bot.actions.command import performs
from bot.actions.desk import Desk
from bot.actions.explain import explain
from bot.actions.outcome import Outcome
from bot.actions.set_routine import show_habits
from bot.actions.share import list_members
from bot.actions.show_due import show_due
from bot.actions.show_history import show_history
from bot.actions.show_isolated import show_isolated
from bot.actions.show_photos import show_photos
from bot.actions.show_places import tell_places
from bot.actions.show_plants import NoPlants, show_plants
from bot.actions.show_release import show_release
from bot.actions.show_settings import show_settings
from bot.actions.show_shelf import show_shelf
from bot.actions.show_trend import show_trend


@dataclass(frozen=True, slots=True)
class NoDishSoap(Outcome):
    """Dish soap is no labelled insecticide."""


@dataclass(frozen=True, slots=True)
class AntsFirst(Outcome):
    """What to do about ants before the pest they guard."""


@performs
def answer(command: Ask, desk: Desk) -> Outcome:  # noqa: C901, PLR0912 - one arm a topic
    """Give the values an answer is made of."""
    match command.topic:
        case Topic.ANTS:
            return AntsFirst()
        case Topic.DISH_SOAP:
            return NoDishSoap()
        case Topic.SAFETY:
            return tell_cautions(command.product, desk)
        case Topic.EATING:
            return tell_whether_to_eat(command.plants, desk)
        case Topic.BUY:
            return tell_what_to_buy(desk)
        case Topic.SETTINGS:
            return show_settings(desk)
        case Topic.STOCK:
            return show_shelf(desk)
        case Topic.MEMBERS:
            return list_members(desk)
        case Topic.ROUTINES:
            return show_habits(desk)
        case _ if not desk.household.plants:
            return NoPlants()
        case Topic.FIT:
            return tell_what_fits(command.plants, command.product, desk)
        case Topic.SUN:
            return tell_the_sun(command.plants, command.place, desk)
        case Topic.PLACES:
            return tell_places(command.plants, desk)
        case Topic.ISOLATED:
            return show_isolated(desk)
        case Topic.DUE:
            return show_due(desk, is_week=command.when == "week")
        case Topic.WHY:
            return explain(command, desk)
        case Topic.RELEASE:
            return show_release(command.plants, desk)
        case Topic.LOG:
            return show_history(command, desk)
        case Topic.PLANTS:
            return show_plants(desk)
        case Topic.PHOTOS:
            return show_photos(command.plants, desk)
        case Topic.TREND:
            return show_trend(command.plants, desk)
