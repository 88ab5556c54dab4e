"""What the parts of one message say of each other: of which plants, on which day, one treatment or two."""

import re
from collections.abc import Sequence
from datetime import date

from bot.actions.action import Command
from bot.actions.log_check import LogCheck
from bot.actions.log_find import LogFind
from bot.actions.log_round import LogRound
from bot.actions.log_sign import LogSign
from bot.actions.situation import Situation
from bot.domain.identity import PlantId
from bot.domain.trade import Grade, Method, Sign
from bot.domain.value import replace
from bot.phrases.items import Item, items_of
from bot.phrases.lexicon import JOINS, Tool, Word, listed
from bot.phrases.names import Pest, Plants, Product
from bot.phrases.numbers import Count
from bot.phrases.offering import told_in
from bot.phrases.text import plain, words_of
from bot.phrases.values import plants_of

_OF_MORE = listed("all rest others other everything every everyone except but besides both too also each not")
_OF_NOW = listed("now today tonight still currently presently")
_WITH = listed("with using in by w via")
_TWO = listed("and then & + n")


def agreed(
    told: tuple[Command, ...], text: str, named: tuple[PlantId, ...], situation: Situation
) -> tuple[Command, ...]:
    """Make the commands of one message agree."""
    words = frozenset(words_of(plain(text)))
    told = _without_what_is_to_come(told, text, situation)
    told = _without_the_aside(told, text, situation)
    if named and not words & _OF_MORE:
        told = _of_the_named(told, named)
    told = _of_one_day(told, situation) if not words & _OF_NOW else told
    if any(isinstance(one, LogRound) and one.method is Method.SPRAY for one in told):
        told = _of_water(told, text, situation)
    apart = [one for one in _CLAUSE.split(plain(text)) if _is_of_two(words_of(one))]
    if apart:
        named_there = (each for one in apart for each in told_in(one, situation).every(Plants))
        of = {plant for one in named_there for plant in one.ids}
        told = tuple(
            part for one in told for part in (_in_two(one) if not of or of & {*plants_of((one,))} else (one,))
        )
    return tuple(dict.fromkeys(told))


def _without_what_is_to_come(
    told: tuple[Command, ...], text: str, situation: Situation
) -> tuple[Command, ...]:
    """Read "clivia is finished, lime after dinner": the lime is still to be done."""
    parts = [items_of(words_of(one), situation) for one in _PART.split(plain(text))]
    coming = {
        plant
        for part in parts[1:]
        for at, item in enumerate(part)
        if isinstance(item.meaning, Plants) and _COMING.match(" ".join(one.text for one in part[at + 1 :]))
        if not any(isinstance(one.meaning, Method) or one.meaning is Word.DONE for one in part[:at])
        for plant in item.meaning.ids
    }
    if not coming:
        return told
    left = (
        replace(one, plants=tuple(plant for plant in one.plants if plant not in coming))
        if isinstance(one, LogRound) and set(one.plants) - coming
        else one
        for one in told
    )
    return tuple(left)


def _without_the_aside(told: tuple[Command, ...], text: str, situation: Situation) -> tuple[Command, ...]:
    """Read "hoya sprayed, the ivy is doing fine": of the ivy nothing is told that was done or seen."""
    parts = [part for one in _CLAUSE.split(plain(text)) for part in _clauses(one, situation)]
    aside = {plant for part in parts if len(parts) > 1 for plant in _only_described(part)}
    named = {
        plant
        for part in parts
        for item in part
        if isinstance(item.meaning, Plants) and not _only_described(part)
        for plant in item.meaning.ids
    }
    aside -= named
    if not aside:
        return told
    return tuple(
        replace(one, plants=tuple(plant for plant in one.plants if plant not in aside))
        if isinstance(one, LogRound | LogFind) and {*one.plants} & named and {*one.plants} & aside
        else one
        for one in told
    )


def _clauses(text: str, situation: Situation) -> list[tuple[Item, ...]]:
    """Cut at "and" too, but for plants that are described together."""
    whole = items_of(words_of(text), situation)
    if _only_described(whole):
        return [whole]
    return [items_of(words_of(one), situation) for one in _AND.split(text)]


def _only_described(part: Sequence[Item]) -> tuple[PlantId, ...]:
    """Give the plants of a clause that says how they are, and nothing that is told of a plant here."""
    at = next((at for at, item in enumerate(part) if not _leads_in(item)), len(part))
    plants = tuple(plant for one in part[:at] if isinstance(one.meaning, Plants) for plant in one.meaning.ids)
    behind = part[at:]
    if not plants or not behind:
        return ()
    stays = len(behind) == 1 and behind[0].meaning is Word.UNMOVABLE  # "stays where it is"
    described = [item for item in behind[1:] if item.meaning is not Word.BREAK]
    says = behind[0].text in _STATES and bool(described) and all(map(_describes, described))
    return plants if stays or says else ()


def _leads_in(item: Item) -> bool:
    is_state = item.text in _STATES
    return not is_state and (isinstance(item.meaning, Plants) or item.meaning in _LEADS_IN)


def _describes(item: Item) -> bool:
    """Whether it tells of nothing done, seen or counted."""
    is_told = (
        isinstance(item.meaning, (Method, Tool, Product, Pest, Count, Grade, Sign)) or item.meaning in _TELLS
    )
    return not is_told and item.text not in _ALIKE


_TELLS = frozenset(
    {Word.DONE, Word.CHECKED, Word.CLEAN, Word.NONE, Word.NOTHING, Word.SAW, Word.BUGS, Word.ALL, Word.BOTH}
    | {Word.HAD, Word.LOST, Word.GONE, Word.RELEASE, Word.ISOLATE}
)
_ALIKE = listed(
    "too also besides same likewise ditto either both well equally included after behind last first turn go"
    " before later it them damp dry drying wet soaked soaking soapy dripping sticky"
) | {"as well"}


_CLAUSE = re.compile(r"[,.;!\n]+|\b(?:but|while|though)\b")
_AND = re.compile(r"\band\b")
_STATES = listed("is are looks look seems seem stays stay keeps stands grows has feels likes needs")
_LEADS_IN = JOINS | {Word.BUT}
_PART = re.compile(r"[,.;\n]+|\bbut\b")
_COMING = re.compile(
    r"(?:will be |comes? |is )?(?:after|later|next|tomorrow|in the morning|when|once|before)\b(?! than)"
)


def _of_the_named(told: tuple[Command, ...], named: tuple[PlantId, ...]) -> tuple[Command, ...]:
    """
    Read "did chilli and basil, pruned and rinsed": that is what was done to these two, and to no other.

    Where what was done is said, "did" alone says nothing more.
    """
    bare = [one for one in told if isinstance(one, LogRound) and one.method is None and one.product is None]
    if len(bare) != 1 or not set(bare[0].plants) <= set(named):
        return told
    works = [one for one in told if isinstance(one, LogRound) and one is not bare[0]]
    if not works or any(one.on != bare[0].on for one in works):
        return told
    ours = {one: replace(one, plants=bare[0].plants) for one in works if not set(one.plants) <= set(named)}
    said = {plant for one in works for plant in ours.get(one, one).plants}
    kept = (one for one in told if one is not bare[0] or not set(bare[0].plants) <= said)
    return tuple(ours[one] if isinstance(one, LogRound) and one in ours else one for one in kept)


def _of_water(told: tuple[Command, ...], text: str, situation: Situation) -> tuple[Command, ...]:
    """Read "sprayed the ivy, no soap", "sprayed it with water": with no product it was rinsed."""
    rounds = {one.method for one in told if isinstance(one, LogRound)}
    if len(rounds) > 1 or not (is_without(text, situation) or _WATER.search(plain(text))):
        return told
    return tuple(
        replace(one, method=Method.RINSE)
        if isinstance(one, LogRound) and one.method is Method.SPRAY and one.product is None
        else one
        for one in told
    )


def is_without(text: str, situation: Situation) -> bool:
    """Whether every product that is named is denied."""
    said = told_in(text, situation)
    named = said.every(Product)
    return bool(named) and all(one.id in said.denied for one in named)


_WATER = re.compile(
    r"\bspray\w*\b(?:(?!\b(?:and|then|but|dilut|mix|fill|mopp?|clean|wip|rins|wash|swabb?|prun)\w*)[^,.;!?\n])*?"
    r"\b(?:with|using) (?:(?:just|only|some|plain|clean|clear|tap|rain|warm|cold|lukewarm|soft) )*"
    r"(?:rain)?water\b(?!-)"
)


def _of_one_day(told: tuple[Command, ...], situation: Situation) -> tuple[Command, ...]:
    """Read "wiped hoya yesterday, 11 on it": they were seen at that, and not today."""
    rounds = [one for one in told if isinstance(one, LogRound)]
    days = {one.on for one in rounds}
    day = next(iter(days)) if len(days) == 1 else None
    treated = {plant for one in rounds for plant in one.plants}
    if day is None or day >= situation.today:
        return told
    return tuple(_dated(one, day) if set(getattr(one, "plants", ())) <= treated else one for one in told)


def _dated(told: Command, day: date) -> Command:
    match told:
        case LogFind(on=None) | LogCheck(on=None) | LogSign(on=None):
            return replace(told, on=day)
        case _:
            return told


_CLAUSE = re.compile(r"[,.;!?\n]")


def _is_of_two(words: tuple[str, ...]) -> bool:
    """Whether a clause tells of wiping and something else, and not of wiping with it."""
    wipes = any(word.startswith("wip") for word in words)
    return wipes and not _TWO.isdisjoint(words) and _WITH.isdisjoint(words)


def _in_two(told: Command) -> tuple[Command, ...]:
    """Read "wiped and soap on the ivy" as the two treatments that it is; "wiped with soap" stays one."""
    if not isinstance(told, LogRound) or told.method is not Method.WIPE or told.product is None:
        return (told,)
    return (replace(told, product=None), replace(told, method=Method.SPRAY))
