"""What a word for a pest means: "mealybug" names several; an open case often settles it."""

from collections import Counter
from collections.abc import Mapping

from bot.actions.desk import Desk
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
    single = tuple(key for key, pest in pests.items() if not pest.of)
    if word is None:
        return single
    if word in single:
        return (word,)
    wanted = word.casefold().replace("_", " ")
    keys = tuple(key for key in single if wanted in {pests[key].name.casefold(), *pests[key].words})
    return keys or (pests[word].of if word in pests else single)


def kin(word: str, desk: Desk) -> frozenset[str]:
    """Give every key that a case of what a word says may stand under, words for several pests among them."""
    keys = {word, *candidates(word, desk)}
    return frozenset(keys | {key for key, pest in desk.knowledge.pests.items() if keys & set(pest.of)})


def general_pest(word: str | None, desk: Desk) -> str | None:
    """Give what a word for several pests stands for until they are told apart: the cautious side of each."""
    wanted = None if word is None else word.casefold().replace("_", " ")
    general = ((key, pest) for key, pest in desk.knowledge.pests.items() if pest.of)
    return next((key for key, pest in general if wanted in {key, pest.name.casefold(), *pest.words}), None)


def settle_pest(word: str | None, plant: PlantId, desk: Desk) -> str | None:
    """
    Name the pest without asking, or None.

    The plant's open case settles an unsaid or general word; without one, the only pest open in the
    household does, for a general word that fits it; else a general word stands for all it may be.
    """
    keys, general = candidates(word, desk), general_pest(word, desk)
    if len(keys) == 1:
        return keys[0]
    meant = {*keys, general} if word is not None else set(desk.knowledge.pests)
    own = {case.pest for case in desk.plant(plant).open_cases} & meant
    if len(own) == 1:
        return own.pop()
    if word is None:
        return None
    around = {case.pest for other in desk.household.living for case in other.open_cases} & set(keys)
    return around.pop() if len(around) == 1 else general


def pest_name(key: str, desk: Desk) -> str:
    """Name a pest by its key, or the word that several share."""
    pest = desk.knowledge.pests.get(key)
    return key.replace("_", " ") if pest is None else pest.name
