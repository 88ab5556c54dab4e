"""What is too much like talk, or told twice over, to be written at once: it is only offered."""

from itertools import combinations

from bot.actions.add_plants import AddPlants, NewPlant
from bot.actions.command import Command
from bot.actions.correct import Correct
from bot.actions.log_find import LogFind
from bot.actions.log_round import LogRound
from bot.actions.rename import Rename
from bot.actions.set_place import SetPlace
from bot.actions.set_town import SetTown
from bot.actions.situation import Situation
from bot.phrases.lexicon import listed
from bot.phrases.text import plain, words_of

_TALK = listed(
    "am is are was were be been i we you he she they it have has had got get gets keep keeps live lives "
    "do does did let think call called say said lost um uh er erm hmm yeah yes yep aye na nah lol ok okay so "
    "then also but before after since yesterday today tomorrow tonight now this that these those there here "
    "what who why how upon dey"
)
"""Verbs, and words that only lead from one thing to the next: no name has one. Judgement."""
_AROUND = listed("the a an my our")
"""What stands around a plant's name, not in it, unless the kind is so called."""
_HOW_MANY = listed("one two three four five six seven eight nine ten")
_TRAILING = listed("on please from in at")
_LONGEST = 6
"""More words than this are a sentence. Judgement."""


def is_doubtful(told: tuple[Command, ...], situation: Situation) -> bool:
    """Whether something that was read is only likely."""
    return any(_has_doubtful_name(one, situation) for one in told) or any(
        _is_said_again(one, other) for one, other in combinations(told, 2)
    )


def _has_doubtful_name(told: Command, situation: Situation) -> bool:
    match told:
        case AddPlants(plants=plants):
            return any(
                _is_no_plant(one, situation) or (one.place and _is_no_place(one.place, situation))
                for one in plants
            )
        case SetPlace(name=name, place_id=None) if name:
            return _is_no_place(name, situation) or "of" in words_of(plain(name))
        case SetTown(text=name):
            words = words_of(plain(name))
            return _is_talk(words[_last_lead(words) :])
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
        or (plant.pot_cm is None and bool(frozenset(words[:-1]) & _AROUND))
        or bool(frozenset(words) & _HOW_MANY)
        or len(kinds) > 1
        or (len(words) > 1 and "".join(words) in situation.kinds)
    )


def _is_no_place(name: str, situation: Situation) -> bool:
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
    )


def _is_said_again(one: Command, other: Command) -> bool:
    """Whether two reports tell the same of one plant, one of them less fully."""
    match one, other:
        case Correct(), Correct():
            return True
        case LogRound(), LogRound():
            lacks = any(each.method is None and each.product is None for each in (one, other))
        case LogFind(), LogFind():
            lacks = (one.pest is None) != (other.pest is None)
        case _:
            return False
    return lacks and bool(frozenset(one.plants) & frozenset(other.plants))
