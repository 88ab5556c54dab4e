"""Which pest a word means: "mealybug" names several; an open case often settles it."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace

from bot.actions.button_texts import ButtonText
from bot.actions.choice import Choice
from bot.actions.command import performs
from bot.actions.desk import Desk
from bot.actions.identify import Identify
from bot.actions.incomplete import Asks, Missing
from bot.actions.log_find import FindInPast, FindLogged, LogFind, log_find
from bot.actions.outcome import Asking
from bot.actions.walk_through import GoOn
from bot.domain.identity import PlantId
from bot.domain.pest import Pest


def pest_words(pests: Mapping[str, Pest]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Give each pest's own words by its key; a word that several share stands for itself."""
    meanings = Counter(word for pest in pests.values() for word in set(pest.words))
    own = ((key, tuple(word for word in pest.words if meanings[word] == 1)) for key, pest in pests.items())
    shared = ((word, (word,)) for word, count in sorted(meanings.items()) if count > 1)
    return (*own, *shared)


def candidates(word: str | None, desk: Desk) -> tuple[str, ...]:
    """Give the catalogue keys a word may mean; all of them without a word."""
    pests = desk.knowledge.pests
    if word is None:
        return tuple(pests)
    if word in pests:
        return (word,)
    wanted = word.casefold().replace("_", " ")
    keys = tuple(key for key, pest in pests.items() if wanted in {pest.name.casefold(), *pest.words})
    return keys or tuple(pests)


def settle_pest(word: str | None, plant: PlantId, desk: Desk) -> str | None:
    """
    Name the pest without asking, or None.

    The plant's open case settles an unsaid or general word; without one, the only pest open in the
    household does, for a general word that fits it.
    """
    keys = candidates(word, desk)
    if len(keys) == 1:
        return keys[0]
    own = {case.pest for case in desk.plant(plant).open_cases} & set(keys)
    if len(own) == 1:
        return own.pop()
    if word is None:
        return None
    around = {case.pest for other in desk.household.living for case in other.open_cases} & set(keys)
    return around.pop() if len(around) == 1 else None


@performs
def log_finds(command: LogFind, desk: Desk) -> list[FindLogged | FindInPast] | Asks:
    """Write a find on each plant once its pest is known without a doubt, or ask for the pest."""
    settled = [(plant, settle_pest(command.pest, plant, desk)) for plant in command.plants]
    if all(pest is not None for _, pest in settled):
        return [log_find(command, plant, pest, desk) for plant, pest in settled if pest is not None]
    goes_on = () if desk.household.walk is None else (GoOn(),)
    named = tuple(
        Choice(ButtonText.NAMED, (replace(command, pest=pest), *goes_on), desk.knowledge.pests[pest].name)
        for pest in candidates(command.pest, desk)
    )
    find_out = Choice(ButtonText.FIND_OUT, (Identify(plants=command.plants, find=command),))
    return Asks(Missing.WHICH_PEST, desk.names(command.plants), asking=Asking((*named, find_out)))
