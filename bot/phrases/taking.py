"""Who does what tonight: "I do the balcony", "I'll take the hoya", "leave the ivy to me"."""

from bot.actions.situation import Situation
from bot.actions.take_line import TakeLines
from bot.phrases.asking import Meant
from bot.phrases.items import items_of
from bot.phrases.lexicon import Word, listed
from bot.phrases.names import Place, Plants
from bot.phrases.setting import unique

_LEADS = tuple(
    tuple(lead.split())
    for lead in ("i will do", "i will take", "i do", "i take", "i am doing", "i am taking", "leave")
)
_TAILS = tuple(tuple(tail.split()) for tail in ("to me", "for me", "tonight", "this evening", "today", "."))
_TO_ME = frozenset({("to", "me"), ("for", "me")})
_SHORT = listed("ill i'll")


def read_taking(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read which plants, or which place, somebody means to do tonight; what was done is said otherwise."""
    words = tuple(each for word in words for each in (("i", "will") if word in _SHORT else (word,)))
    lead = next((lead for lead in _LEADS if words[: len(lead)] == lead), None)
    if lead is None:
        return None
    rest, tails = words[len(lead) :], set()
    while (tail := next((one for one in _TAILS if rest[-len(one) :] == one), None)) is not None:
        rest = rest[: -len(tail)]
        tails.add(tail)
    if lead == ("leave",) and not tails & _TO_ME:
        return None
    meanings = (item.meaning for item in items_of(rest, situation))
    named = [one for one in meanings if one not in {Word.FILLER, Word.AND}]
    if not named or not all(isinstance(one, Plants | Place) for one in named):
        return None
    places = {one.id for one in named if isinstance(one, Place)}
    plants = [plant for one in named if isinstance(one, Plants) for plant in one.ids]
    plants += [one.id for one in situation.plants if one.place in places]
    return (TakeLines(unique(plants)),) if plants else None
