"""Write finds whose pest a word names, or ask which it is."""

from collections.abc import Sequence

from bot.actions.action import Asking, ButtonText, Choice, Command, performs
from bot.actions.correct import Correct
from bot.actions.desk import Desk
from bot.actions.identify import Identify
from bot.actions.incomplete import Asks, Incomplete, Missing
from bot.actions.log_check import LogCheck
from bot.actions.log_find import Before, FindInPast, FindLogged, LogFind, log_find
from bot.actions.pest_word import candidates, settle_pest
from bot.actions.walk_through import GoOn
from bot.domain.identity import PlantId
from bot.domain.journal import PestCorrected
from bot.domain.value import replace


@performs
def log_finds(command: LogFind, desk: Desk) -> list[FindLogged | FindInPast] | Asks:
    """Write a find on each plant once its pest is known without a doubt, or ask for the pest."""
    finds = (replace(command, also=()), *(replace(one, pest=command.pest) for one in command.also))
    if all(_is_settled(one, desk) for one in finds):
        return [logged for one in finds for logged in _logged(one, desk)]
    plants = tuple(plant for one in finds for plant in one.plants)
    known = _known_here(desk) if command.pest is None else ()
    goes_on = () if desk.household.walk is None else (GoOn(),)
    named = tuple(
        Choice(ButtonText.NAMED, (replace(command, pest=pest), *goes_on), desk.knowledge.pests[pest].name)
        for pest in dict.fromkeys((*known, *candidates(command.pest, desk)))
    )
    choices = (*named, Choice(ButtonText.FIND_OUT, (Identify(plants=plants, find=command),)))
    if command.pest is None and 0 < len(known) <= FEW_KNOWN:
        rest = Incomplete(missing=Missing.WHICH_PEST, plants=plants, choices=choices[len(known) :])
        choices = (*choices[: len(known)], Choice(ButtonText.ANOTHER, (rest,)))
    return Asks(Missing.WHICH_PEST, desk.names(plants), asking=Asking(choices))


def asked_together(commands: Sequence[Command], desk: Desk) -> list[Command]:
    """
    Put finds of a message that wait for the same pest into the first, so that one answer is for all.

    Finds come before looks: what was found on one of several plants speaks for it.
    """
    waiting = [one for one in commands if isinstance(one, LogFind) and not _is_settled(one, desk)]
    alike = [one for one in waiting if one.pest == waiting[0].pest]
    whole = [replace(one, also=tuple(alike[1:])) if one in alike[:1] else one for one in commands]
    told = [one for one in whole if one not in alike[1:]]
    is_found = any(isinstance(one, LogFind) for one in told)
    return sorted(told, key=lambda one: isinstance(one, LogCheck)) if is_found else told


def _is_settled(find: LogFind, desk: Desk) -> bool:
    return all(settle_pest(find.pest, plant, desk) is not None for plant in find.plants)


FEW_KNOWN = 3
"""Of so many pests that the home has had, these alone are offered first. Judgement. [1]"""


def _known_here(desk: Desk) -> tuple[str, ...]:
    """Give the pests that the home has had, those it has now first."""
    cases = [case for plant in desk.household.plants.values() for case in plant.cases]
    return tuple(
        dict.fromkeys(case.pest for case in sorted(cases, key=lambda one: one.closed_on is not None))
    )


def _logged(command: LogFind, desk: Desk) -> list[FindLogged | FindInPast]:
    """Write finds; a pest told by its own name tells what an open case of a general word is."""
    pest_of = ((plant, settle_pest(command.pest, plant, desk)) for plant in command.plants)
    settled = [(plant, pest) for plant, pest in pest_of if pest is not None]
    pests = desk.knowledge.pests
    known = {plant: {case.pest for case in desk.plant(plant).open_cases} for plant, _ in settled}
    is_first = not any(plant.cases for plant in desk.household.plants.values())
    anew = [(plant, pest) for plant, pest in settled if any(pest in pests[one].of for one in known[plant])]
    desk.write(desk.draft(PestCorrected(pest), plant=plant) for plant, pest in anew)
    before = Before(known | {plant: {pest} for plant, pest in anew}, is_first)
    logged = []
    for one, (plant, pest) in zip(log_find(command, settled, before, desk), settled, strict=True):
        others, tell = _others(plant, pest, desk)
        is_known = pest in {each for each in before.pests[plant] if not pests[each].of}
        if not others or is_known or isinstance(one, FindInPast):
            logged.append(one)
            continue
        kinds = tuple(
            Choice(ButtonText.NAMED, (Correct(plant=plant, pest=each),), pests[each].name) for each in others
        )
        logged.append(replace(one, tell=tell, offers=(*kinds, *one.offers)))
    return logged


def _others(plant: PlantId, pest: str, desk: Desk) -> tuple[tuple[str, ...], str | None]:
    """Give what else the word may have meant: the pests of a general one, or what lives on that plant."""
    meant = desk.knowledge.pests[pest]
    if meant.mistaken is not None and meant.mistaken.is_likely_on(desk.knowledge.kind_of(desk.plant(plant))):
        return meant.mistaken.pests, meant.mistaken.tell
    return meant.of, desk.knowledge.tell.get(pest)
