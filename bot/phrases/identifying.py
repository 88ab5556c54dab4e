"""Something seen that nobody has named: "what is this", "bumps that lift off", "tiny flies at the fern"."""

import re
from itertools import pairwise

from bot.actions.identify import Identify
from bot.actions.log_find import LogFind
from bot.actions.situation import Situation
from bot.domain.identity import PlantId
from bot.domain.trade import Grade
from bot.phrases.asking import Meant
from bot.phrases.items import Unknown, items_of
from bot.phrases.lexicon import Spot, Word, classes_of, listed, worded, words_of_class
from bot.phrases.names import Pest, Plants
from bot.phrases.numbers import Count

_ASKS = worded(
    "what is this | what is that | what is it | what are these | what are those | what are they"
    " | which pest | what pest | what bug | identify | find out | no idea what | not sure what"
    " | do not know what | what has | what have"
)
_SEEN = {name: words_of_class("seen", name) for name in classes_of("seen")}
_MOST_STRANGE = 2
"""What of an animal is told by a word, as the key asks for it: "look flies", "where mix"."""
_SIZES = listed("tiny small little white green black brown strange weird unknown odd wee dark pale")
_CREATURES = listed(
    "bug bugs insects insect things creature creatures critter critters specks dots stuff beasties"
)
_OWN_WORD = listed(
    "bumps bump discs disc shields shield domes lumps scabs flies midges silvery slivers powder grains moths"
    " insects patches specks streaks"
)
"""Words that no sign has a name for, so that they alone lead to the key."""
_PASSING = listed(
    " there is are some a the an on of my our it i we have has see saw found with at around in little tiny"
    " small these this that what pest bug identify find out no idea not sure do know which are those they"
    " white brown black green strange weird unknown insects creatures critters specks dots bugs and , . !"
    " ? please help leaves leaf stuff thing things something got from near under over all behind when touch"
    " come comes coming out up fly run running runnin crawl crawling jump around everywhere few many lots lot"
    " they their its like looks look with long thin off body do not does dunno name call called few about"
    " inside them animal animals insect creature kind type sort beast hard round flat oval fingernail nail"
)


_DENIED = listed("no not any without never none")
_DESCRIBED = _SIZES | _CREATURES | _SEEN["colour-green"]
_LOOKS = frozenset[str]().union(*(words for name, words in _SEEN.items() if name.startswith("look-")))
_TOLD = frozenset[str]().union(*_SEEN.values())
_PASSING |= _TOLD
_ANIMALS = _CREATURES | _OWN_WORD | listed("animal animals insect creature bug pest pests threads webs beast")
_ASKS_ABOUT = re.compile(
    r"\bwhat (?:is|are) (?:this|these|that|those|them|the)(?: \w+)?"
    rf" (?:{'|'.join(sorted(_ANIMALS))})(?: (?:on|in|at|under|here|there)\b| [?.!,]|$)"
    rf"|\bwhat (?:kind|sort|type) of (?:{'|'.join(sorted(_ANIMALS))})\b"
)
"""What is asked of an animal that is pointed at."""
_ASK_OPENINGS = frozenset(ask[0] for ask in _ASKS)


def read_identification(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read a question what it is, with what of it is told already; None where it is something else."""
    seen = seen_in(words)
    is_named = "what" in words and _ASKS_ABOUT.search(" ".join(words)) is not None
    may_ask = not _ASK_OPENINGS.isdisjoint(words)
    asks = is_named or any(
        words[at : at + len(ask)] == ask
        for at, word in enumerate(words if may_ask else ())
        if word in _ASK_OPENINGS
        for ask in _ASKS
    )
    is_described = not _CREATURES.isdisjoint(words) and any(
        size in _SIZES | _TOLD and one in _CREATURES for size, one in pairwise(words)
    )
    if not asks and not is_described and not (seen and _OWN_WORD & frozenset(words)):
        return None
    plants: list[PlantId] = []
    counts: list[int] = []
    strange = 0
    for item in items_of(words, situation):
        if not isinstance(item.meaning, Pest) and _PASSING.issuperset(item.text.split()):
            continue
        match item.meaning:
            case Plants(ids=ids):
                plants += ids
            case Count(value=number):
                counts.append(int(number))
            case Word.FILLER | Word.BREAK | Word.QUESTION | Word.IT | Word.SAW | Word.BUGS | Spot() | Grade():
                pass
            case Unknown():
                strange += 1
            case _:
                return None
    if strange > (_MOST_STRANGE if seen or is_named else 0):
        return None
    known = tuple(plant.id for plant in situation.plants if plant.id in plants)
    find = LogFind(plants=known, count=counts[0]) if known and len(counts) == 1 else None
    return (Identify(plants=known, answers=seen, find=find),)


def seen_in(words: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    """Give the answers of the key that the words tell: the looks, then what is said besides."""
    is_dry = any(one in _DENIED and "sticky" in words[at + 1 : at + 3] for at, one in enumerate(words))
    words = tuple(one for one in words if one != "sticky") if is_dry else words
    is_green = not (_SEEN["colour-green"].isdisjoint(words) or _CREATURES.isdisjoint(words))
    is_green = is_green and not any(one in _DENIED and other in _DESCRIBED for one, other in pairwise(words))
    told = {"look": "insects"} if is_green and _LOOKS.isdisjoint(words) else dict[str, str]()
    for name, spelt in _SEEN.items() if not _TOLD.isdisjoint(words) else ():
        question, _, answer = name.partition("-")
        if not spelt.isdisjoint(words) and (told or question == "look"):
            told.setdefault(question, answer)
    return (*told.items(), *((("sticky", "no"),) if is_dry and told else ()))
