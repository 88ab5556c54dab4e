"""What was seen, in a home that is open to a yes, is put right: how many, or on which plant."""

from bot.actions.situation import Situation
from bot.domain.value import replace
from bot.phrases.home_words import Event, words_at
from bot.phrases.homes import COUNTING, Home, how_many
from bot.phrases.kept import kept
from bot.phrases.lexicon import listed
from bot.phrases.names import Pest, Plants
from bot.phrases.offered_homes import ON

_TURNS = listed("no nope nah not wait sorry meant mean oops actually rather was wrong should make")
_DENIES = listed("not never neither than instead")
_BESIDE = _TURNS | listed(
    "oh ah er um i it that this the a my on is be it's that's just only to of them than instead but , . !"
)


def with_find_put_right(text: str, offered: Home, known: Situation) -> Home | None:
    """Give an offered home with its last find as it is put right: "no, 50", "I meant jade"."""
    finds = [one for one in offered.lines if ON in one]
    if not finds:
        return None
    said = kept(words_at, (text, None), known)
    number, named, denied, is_denied = "", list[str](), list[str](), False
    for one in said.events:
        word = said.words[one.start]
        if one.what in {"count", "grade"} and not is_denied:
            number = how_many(one)
        elif one.what == "own" and (name := _name_of(one, known)):
            (denied if is_denied else named).append(name)
        elif one.what not in {"count", "grade"} and not (
            word in _BESIDE or (isinstance(one.value, Pest) and said.text(one.start, one.end) in finds[-1])
        ):
            return None
        is_denied = word in _DENIES or (is_denied and one.what in {"around", "telling"})
    of_it = [one for one in finds if not denied or set(_plants_of(one)) & set(denied)]
    is_turned = bool(_TURNS.intersection(said.words))
    if not of_it or len(named) > 1 or not (number or named) or not (is_turned or not named):
        return None
    line = of_it[-1]
    what, _, plants = line.rpartition(ON)
    seen = what.split(" ", 1)[1] if what.startswith(COUNTING) and " " in what else what
    if named == [plants] and not number:
        return None
    right = f"{f'{number} {seen}' if number else what}{ON}{named[0] if named else plants}"
    return replace(offered, lines=tuple(right if one == line else one for one in offered.lines), unread=())


def _name_of(one: Event, known: Situation) -> str:
    """Give the one plant that an event names."""
    ids = one.value.ids if isinstance(one.value, Plants) else ()
    named = [each.names[0] for each in known.plants if each.id in ids]
    return named[0] if len(named) == 1 else ""


def _plants_of(line: str) -> list[str]:
    return line.rpartition(ON)[2].replace(" and ", ", ").split(", ")
