"""What a home still has to tell, asked one thing at a time in one order."""

from collections.abc import Sequence
from datetime import time
from enum import Enum

from bot.actions.action import Asking, ButtonText, Choice, Expecting, Outcome
from bot.actions.add_plants import AddPlants, PlantsAdded
from bot.actions.advise import NOTHING_AT_HAND, Shopping
from bot.actions.courtesy import Greeted
from bot.actions.decline import Decline, Declined
from bot.actions.describe_pest import PestDescribed, PestsKnown
from bot.actions.desk import Desk
from bot.actions.explain_term import TermTold
from bot.actions.identify import Identify
from bot.actions.incomplete import Asks, Incomplete, Missing
from bot.actions.isolate import IsolatedThem
from bot.actions.log_find import FindLogged, LogFind
from bot.actions.log_round import NothingDue
from bot.actions.not_understood import Beyond
from bot.actions.set_place import PlacesSaved, ask_window, untold_places
from bot.actions.set_town import NoSuchTown, TownSet, WhichTown
from bot.actions.show_due import DueList
from bot.actions.skip_question import QuestionSkipped
from bot.actions.stock_product import Stocked
from bot.domain.value import replace


class Lacking(Enum):
    PLANTS = "plants"
    TOWN = "town"
    PLACES = "places"
    WINDOWS = "windows"
    FIND = "find"
    SHELF = "shelf"
    NOTHING = "nothing"


class SetUpGoesOn(Outcome, kw_only=True):
    """The next thing that is missing, with the plants or places it is about; or the end of the setting-up."""

    lacking: Lacking
    names: tuple[str, ...] = ()
    evening: time


SETTING_UP = (TownSet, PlantsAdded, PlacesSaved, QuestionSkipped)
IN_BETWEEN = (FindLogged, IsolatedThem, Stocked, Declined, DueList)
"""Answers that may stand in the middle of a setting-up, which then goes on."""
AT_FIRST = (Beyond, Greeted, TermTold, PestDescribed, PestsKnown, NothingDue)
"""And those that may come before anything of a home is told."""


def go_on(desk: Desk, *, skipped: Expecting = Expecting.NOTHING, is_free: bool = True) -> SetUpGoesOn | Asks:
    """Ask what is missing; where something else is asked already, its question stays the open one."""
    lacking, names, asking = _next(desk, skipped)
    offered = offer_not_answered(desk)
    if offered is not None and is_free:
        return Asks(Missing.MEANT, text=offered[0].of, asking=Asking(offered))
    find = _find_in_part(desk)
    if find is not None and is_free and lacking in _ENDS:
        return find
    is_free = is_free and find is None
    if asking is None and is_free and desk.question is not None and desk.question.expecting in _OF_A_HOME:
        desk.close_question()
    evening = desk.household.evening
    return SetUpGoesOn(lacking=lacking, names=names, evening=evening, asking=asking if is_free else None)


def with_next(outcomes: Sequence[Outcome], desk: Desk) -> list[Outcome]:
    """Go on with the setting-up; where that is asked in words, what a find asks is only offered beside it."""
    following = asked_next(outcomes, desk)
    asking = [one for one in outcomes if isinstance(one, FindLogged) and one.asking is not None]
    if not asking or not any(one.asking is not None and not one.asking.choices for one in following):
        return [*outcomes, *following]
    offered = asking[-1].asking.choices[:1] if asking[-1].asking is not None else ()
    quiet = {
        id(one): replace(one, asking=None, offers=offered if one is asking[-1] else ()) for one in asking
    }
    return [*(quiet.get(id(one), one) for one in outcomes), *following]


def asked_next(outcomes: Sequence[Outcome], desk: Desk) -> list[Outcome]:
    """Go on with the setting-up where something of it was told, or where a find came before it was over."""
    told = [one for one in outcomes if isinstance(one, SETTING_UP)]
    has_windows_left = bool(untold_places(desk))
    has_begun = desk.household.is_zone_told and bool(desk.household.living)
    is_over = has_begun and not has_windows_left and bool(desk.household.places)
    is_offered = desk.question is not None and desk.question.expecting not in _OF_A_HOME
    is_first = not (has_begun or is_offered) and all(isinstance(one, AT_FIRST) for one in outcomes)
    is_between = not is_over and (is_first or any(isinstance(one, IN_BETWEEN) for one in outcomes))
    is_asked = any(
        isinstance(one, WhichTown | NoSuchTown)
        or (isinstance(one, Asks) and one.missing is Missing.MEANT and isinstance(outcomes[0], TownSet))
        for one in outcomes
    )
    is_of_old_places = all(isinstance(one, PlantsAdded) and not one.new_places for one in told)
    is_told_before = bool(told) and is_of_old_places and desk.household.is_zone_told and has_windows_left
    if desk.is_home_erased or is_asked or is_told_before or not (told or is_between):
        return []  # who left the window's question open is not asked it with each plant
    if not told and has_windows_left and all(isinstance(one, _TOLD_BESIDE) for one in outcomes):
        return []  # the windows were asked; they are asked again in an evening's message of their own
    if is_first and not desk.household.is_zone_told:
        in_words = Asking((), Expecting.TOWN)
        return [SetUpGoesOn(lacking=Lacking.TOWN, evening=desk.household.evening, asking=in_words)]
    skipped = next((one.skipped for one in told if isinstance(one, QuestionSkipped)), Expecting.NOTHING)
    if any(isinstance(one, Shopping) for one in outcomes) and _next(desk, skipped)[0] is Lacking.SHELF:
        return []  # that there is nothing to treat with was told
    asking = [one for one in outcomes if one.asking is not None]
    if asking and all(isinstance(one, FindLogged) for one in asking):
        following = go_on(desk, skipped=skipped)
        if following.asking is not None and not following.asking.choices:
            return [following]
    return [go_on(desk, skipped=skipped, is_free=not asking)]


_TOLD_BESIDE = (FindLogged, Stocked, DueList)
_OF_A_HOME = (Expecting.TOWN, Expecting.PLANTS, Expecting.WHERE, Expecting.PLACE)
_ENDS = (Lacking.FIND, Lacking.SHELF, Lacking.NOTHING)


def offer_not_answered(desk: Desk) -> tuple[Choice, ...] | None:
    """Give the offer of plants that another message passed by."""
    choices = () if desk.question is None else desk.question.choices
    first = choices[0] if choices else None
    if first is None or first.text is not ButtonText.YES or not first.of:
        return None
    living = desk.household.living
    lists = [told for told in first.commands if isinstance(told, AddPlants)]
    added = [one.name.casefold() for told in lists for one in told.plants]
    is_seen = any(one.then for one in lists)
    known = {plant.name.casefold() for plant in living if plant.cases or not is_seen}
    return choices if added and not known & set(added) else None


def _find_in_part(desk: Desk) -> Asks | None:
    """Ask again for the number of a find, or for its plant, where that is still open."""
    choices = () if desk.question is None else desk.question.choices
    told = [one for choice in choices for one in choice.commands]
    kept = [one.keeps for one in told if isinstance(one, Decline) and one.keeps]
    if kept:
        return Asks(Missing.SEEN_WHERE, text=kept[0], asking=Asking(choices))
    finds = [one for one in told if isinstance(one, LogFind) and one.grade]
    return Asks(Missing.AMOUNT, desk.names(finds[0].plants), asking=Asking(choices)) if finds else None


def _next(desk: Desk, skipped: Expecting) -> tuple[Lacking, tuple[str, ...], Asking | None]:
    household = desk.household
    if not household.is_zone_told and skipped is not Expecting.TOWN and household.living:
        return Lacking.TOWN, (), Asking((), Expecting.TOWN)
    if not household.living and skipped is not Expecting.PLANTS:
        return Lacking.PLANTS, (), Asking((), Expecting.PLANTS)
    homeless = tuple(plant.name for plant in household.living if plant.place is None)
    if homeless and skipped is not Expecting.WHERE:
        return Lacking.PLACES, homeless, Asking((), Expecting.WHERE)
    untold = untold_places(desk)
    if untold:
        return Lacking.WINDOWS, tuple(place.name for place in untold), ask_window(untold[0])
    if household.living and not any(plant.cases for plant in household.living):
        return Lacking.FIND, (), Asking(_FIRST_STEPS)
    if household.living and not household.products and not _is_shelf_settled(desk):
        return Lacking.SHELF, (), Asking(NOTHING_AT_HAND)
    return Lacking.NOTHING, (), None


def _is_shelf_settled(desk: Desk) -> bool:
    """Whether it was told that there is nothing to treat with, or asked often enough."""
    asked, is_answered = desk.store.times_asked(desk.member.household, NOTHING_AT_HAND)
    return is_answered or asked >= _MOST_ASKED


_MOST_ASKED = 2
"""So often it is asked what is at hand, where nothing is told of it. Judgement. [1]"""
_FIRST_STEPS = (
    Choice(ButtonText.ON_A_PLANT, (Incomplete(missing=Missing.SEEN),)),
    Choice(ButtonText.FIND_OUT, (Identify(),)),
    Choice(ButtonText.AT_HAND, (Incomplete(missing=Missing.AT_HAND),)),
    Choice(ButtonText.NOTHING_YET, (Decline(),)),
)
