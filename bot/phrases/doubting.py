"""What is too much like talk, or told twice over, to be written at once: it is only offered."""

import re
from itertools import combinations

from bot.actions.action import Command
from bot.actions.add_plants import AddPlants, NewPlant
from bot.actions.correct import Correct
from bot.actions.log_check import LogCheck
from bot.actions.log_find import LogFind
from bot.actions.log_round import LogRound
from bot.actions.postpone import Postpone
from bot.actions.rename import Rename
from bot.actions.set_place import SetPlace
from bot.actions.set_town import SetTown
from bot.actions.situation import Situation
from bot.catalogue.towns import find_towns
from bot.domain.trade import Method
from bot.phrases.items import items_of
from bot.phrases.lexicon import KNOWN, Tool, Word, listed, words_of_class
from bot.phrases.names import OneOf, Place, Plants, Product
from bot.phrases.numbers import UNITS
from bot.phrases.text import LONGEST, plain, words_of
from bot.phrases.values import plants_of

_TALK = listed(
    "am is are was were be been i we you he she they it have has had got get gets keep keeps live lives "
    "do does did let think call called say said lost um uh er erm hmm yeah yes yep aye na nah lol ok okay so "
    "then also but before after since yesterday today tomorrow tonight now this that these those there here "
    "what who why how upon dey based"
)
"""Verbs, and words that only lead from one thing to the next: no name has one. Judgement."""
_AROUND = listed("the a an my our")
"""What stands around a plant's name, not in it, unless the kind is so called."""
_MOST_SPELT = 10
"""Up to here a number in words says how many of a kind there are. Judgement."""
_HOW_MANY = frozenset(word for word, number in UNITS.items() if 0 < number <= _MOST_SPELT)
_TRAILING = listed("on please from in at")
_LOOKS = listed(
    "small big little large tall mini baby old new young white red pink purple yellow orange blue green"
    " variegated dwarf giant trailing climbing left right upstairs downstairs front back north south east"
    " west spare other main upper lower top bottom middle first second third light grow"
)
"""What tells one plant or place of a kind from another. Judgement."""
_IDLE = words_of_class("idle", "words", "people")
_ROOMS = words_of_class("home", "rooms")
_LEADS_TO_A_TOWN = listed(
    "i am we are live lives in near it is my home town city the our house of from flat apartment place ,"
)
_LISTED = re.compile(r"[^,:;.]+, ?[^,:;.]+(?:, ?\d+ ?(?:cm|in|inch)\.?)?")
"""A plant and its place, as they are asked for."""
_LINES = 3
"""So many lines are a list, in which a name may be anything. Judgement."""
_LONGEST = 6
"""More words than this are a sentence. Judgement."""


def is_doubtful(told: tuple[Command, ...], text: str, situation: Situation) -> bool:
    """Whether something that was read is only likely."""
    return any(_has_doubtful_name(one, text, situation) for one in told) or any(
        _is_said_again(one, other) for one, other in combinations(told, 2)
    )


def _has_doubtful_name(told: Command, text: str, situation: Situation) -> bool:
    match told:
        case AddPlants(plants=plants, is_sure=is_sure):
            lines = text.strip().splitlines()
            if len(lines) > 1 and all(map(_LISTED.fullmatch, lines)):
                return False
            is_list = is_sure or len(lines) > _LINES
            is_asked_back = len(plants) == 1 and bool(find_towns(plants[0].name))  # the town, or a plant?
            return any(
                _is_no_plant(one, situation)
                or (
                    one.place
                    and _is_no_place(one.place, situation, is_list=is_list or one.pot_cm is not None)
                )
                or not (is_list or is_asked_back or _is_a_kind(one.name, situation))
                for one in plants
            ) or _is_counted_otherwise(plants, text)
        case LogRound():
            is_offered = any(told in one.commands for one in situation.choices)
            return not is_offered and not _names_what_was_done(text, situation)
        case SetPlace(name=name, place_id=None) if name:
            return _is_no_place(name, situation) or "of" in words_of(plain(name))
        case SetTown(text=name):
            words = words_of(plain(name))
            lead = _last_lead(words)
            rest = frozenset(words[lead:])
            is_idle = bool(rest & _IDLE - {"bath", "nice", "of"}) and len(rest) > 1
            is_led = "near" in words or _LEADS_TO_A_TOWN.issuperset(words[:lead])
            return _is_talk(words[lead:]) or not is_led or is_idle
        case Rename(name=name):
            words = words_of(plain(name))
            return _is_talk(words) or bool(frozenset(words[-1:]) & _TRAILING)
        case _:
            return False


def _last_lead(words: tuple[str, ...]) -> int:
    """Find where a town may begin: behind the last "in" or "near"."""
    return max((at + 1 for at, word in enumerate(words) if word in {"in", "near"}), default=0)


def _is_talk(words: tuple[str, ...]) -> bool:
    return len(words) > _LONGEST or not words or bool(frozenset(words) & _TALK)


def is_list_of_strangers(told: tuple[Command, ...], text: str, situation: Situation) -> bool:
    """Whether of the plants in a list too few are of a kind that is known, or a place may be among them."""
    names = [one.name for each in told if isinstance(each, AddPlants) for one in each.plants]
    known = sum(_is_a_kind(name, situation) for name in names)
    if all(map(_LISTED.fullmatch, text.strip().splitlines())):
        return False
    return bool(names) and (known * 2 < len(names) or (known < len(names) and ": " in text))


def _names_what_was_done(text: str, situation: Situation) -> bool:
    """Whether a plant or a place stands in it, or a listed word of doing: one slip of a verb is no report."""
    if not any(map(str.isalpha, text)):
        return True  # a sign by itself
    items = items_of(words_of(plain(text[:LONGEST])), situation)
    kinds = (Plants, Place, OneOf, Method, Tool, Product)
    return any(isinstance(one.meaning, kinds) or one.meaning in _DOING for one in items)


_DOING = frozenset({Word.DONE, Word.ALL, Word.BOTH, Word.REST, Word.DO})


def _is_counted_otherwise(plants: tuple[NewPlant, ...], text: str) -> bool:
    """Whether a number is told that neither their own numbers nor how many they are accounts for."""
    told = frozenset(words_of(plain(text))) & (_HOW_MANY - {"one"})
    is_numbered = any(one.name[-1:].isdigit() for one in plants)
    return bool(told) and not is_numbered and len(plants) not in {UNITS[word] for word in told}


def _is_a_kind(name: str, situation: Situation) -> bool:
    """Whether a name is a kind of plant's, with at most what tells one of them from another."""
    words = tuple(word for word in words_of(plain(name)) if word not in _LOOKS and not word.isdigit())
    said = {" ".join(words), " ".join((*words[:-1], words[-1].removesuffix("s"))) if words else ""}
    is_epithet = len(words) > 1 and words[-1].isalpha() and words[-1] not in KNOWN | _IDLE | _TALK
    return bool(said & situation.kinds) or (is_epithet and " ".join(words[:-1]) in situation.kinds)


def _is_no_plant(plant: NewPlant, situation: Situation) -> bool:
    said = plain(plant.name)
    words = words_of(said)
    if said in situation.kinds:
        return False
    kinds = [word for word in words if word in situation.kinds]
    is_alone = plant.place is None and plant.pot_cm is None
    return (
        not words
        or bool(frozenset(words) & _TALK)
        or (is_alone and len(words) > _LONGEST)
        or not words[0][0].isalpha()
        or said.endswith("'s")
        or ":" in said
        or (plant.pot_cm is None and bool(frozenset(words[:-1]) & _AROUND))
        or bool(frozenset(words) & _HOW_MANY)
        or len(kinds) > 1
        or (len(words) > 1 and "".join(words) in situation.kinds)
    )


def _is_no_place(name: str, situation: Situation, *, is_list: bool = False) -> bool:
    said = plain(name)
    known = {place.name.lower() for place in situation.places}
    if said in known:
        return False
    words = words_of(said)
    return (
        _is_talk(words)
        or not words[0][0].isalpha()
        or said.endswith("'s")
        or said.removesuffix("s") in known
        or words[0] in _AROUND | _HOW_MANY
        or not (is_list or all(word in _ROOMS | _LOOKS or word.isdigit() for word in words))
    )


def _is_said_again(one: Command, other: Command) -> bool:
    """Whether two reports tell the same of one plant, one of them less fully."""
    match one, other:
        case Correct(), Correct():
            return one.plant == other.plant
        case LogRound(), LogRound():
            lacks = any(each.method is None and each.product is None for each in (one, other))
        case LogFind(), LogFind():
            lacks = (one.pest is None) != (other.pest is None)
        case (Postpone(), Postpone()) | (Postpone(), LogCheck()) | (LogCheck(), Postpone()):
            return bool(frozenset(plants_of((one,))) & frozenset(plants_of((other,))))
        case _:
            return False
    return lacks and bool(frozenset(one.plants) & frozenset(other.plants))
