"""Until when a lamp is on, told by itself: "it goes off at 21:00", "the lamp in the nook, till nine"."""

from datetime import time

from bot.actions.set_place import SetPlace
from bot.actions.situation import KnownPlace, Situation
from bot.phrases.days import clock_at, evening_hour
from bot.phrases.home_words import ARTICLES, PREPOSITIONS
from bot.phrases.lexicon import listed
from bot.phrases.text import plain, words_of

_MOST_WORDS = 18
_UNTIL = listed("until till til off")
_LAMPS = listed("lamp lamps light lights bulb bulbs growlight growlights")
_EVENING = listed("evening night tonight")
_BESIDE = (
    listed("it that there is are stays burns shines goes turns switches switched turned comes then and grow")
    | listed("usually always about around please one these those they by day every each , . ! morning")
    | _LAMPS
    | _EVENING
    | _UNTIL
    | ARTICLES
    | PREPOSITIONS
)


def read_lamp(text: str, situation: Situation) -> SetPlace | None:
    """Read until when a lamp is on, of the place that is named, else of the only one without other light."""
    words = words_of(plain(text))
    ends = [at for at, word in enumerate(words) if word in _UNTIL]
    if not ends or len(words) > _MOST_WORDS:
        return None
    start = ends[-1] + 1
    start += words[start : start + 1] in {("at",), ("about",), ("around",), ("by",)}
    told = clock_at(("at", *words[start:]), 0) if start < len(words) else None
    if told is None:
        return None
    end = start + told[1] - 1
    place, named = _place_named(words[: ends[-1]] + words[end:], situation)
    rest = {*words[: ends[-1]], *words[end:]} - named
    waiting = [one for one in situation.places if one.awaits_lamp]
    is_of_a_lamp = bool(_LAMPS & rest)
    place = place or (waiting[0] if len(waiting) == 1 and not named else None)
    if place is None or not rest <= _BESIDE or not (is_of_a_lamp or place.awaits_lamp):
        return None
    return SetPlace(
        name=place.name, place_id=place.id, lamp_until=_at_night(told[0].time, words[start], rest)
    )


def _at_night(at: time, said: str, rest: set[str]) -> time:
    """Give an hour told as “nine” or “9” as that of the evening, unless the morning is told."""
    is_open = ":" not in said or bool(_EVENING & rest)
    return evening_hour(at) if is_open and "morning" not in rest else at


def _place_named(words: tuple[str, ...], situation: Situation) -> tuple[KnownPlace | None, set[str]]:
    """Give the place that is named, by its name or the last word of only one, and the words of it."""
    for is_whole in (True, False):
        found = {
            one: {*name}
            for one in situation.places
            if (name := words_of(plain(one.name))[0 if is_whole else -1 :])
            and any(words[at : at + len(name)] == name for at in range(len(words)))
        }
        if len(found) == 1:
            return next(iter(found.items()))
    return None, set()
