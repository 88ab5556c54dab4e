"""Clauses that tell what a look at a plant found: living pests, a sign, or none seen."""

from datetime import date
from decimal import Decimal
from itertools import pairwise

from bot.actions.action import Command
from bot.actions.log_check import LogCheck
from bot.actions.log_find import LogFind
from bot.actions.log_sign import LogSign
from bot.domain.identity import PlantId
from bot.domain.trade import Grade, Level, Method, Sign
from bot.phrases.asking import Meant, ask_amount, ask_none_seen, ask_seen, ask_which, bad_day, not_understood
from bot.phrases.clause import DATES, Clause, Setting, excepted, is_scattered, named, unique
from bot.phrases.days import Trouble, day_behind
from bot.phrases.lexicon import Spot, Word
from bot.phrases.names import Pest, Place, Plants
from bot.phrases.numbers import Count

MOST = 100_000
_FIND_WORDS = (
    Word.BUGS,
    Word.SAW,
    Word.LEFT,
    Word.HAD,
    Word.IT,
    Word.THEM,
    Word.CHECKED,
    Word.BOTH,
    Word.IT_IS,
    Word.GOT,
)
_FIND_KINDS = (Count, Grade, Pest, Spot, Plants, Level, *DATES)
_SIGN_WORDS = (
    Word.SAW,
    Word.HAD,
    Word.LEFT,
    Word.IT,
    Word.THEM,
    Word.BOTH,
    Word.IT_IS,
    Word.GOT,
    Word.CHECKED,
)
_SIGN_KINDS = (Sign, Grade, Spot, Plants, *DATES)
_NONE_WORDS = (
    Word.CLEAN,
    Word.NONE,
    Word.NOTHING,
    Word.NOT,
    Word.BUGS,
    Word.CHECKED,
    Word.SAW,
    Word.HAD,
    Word.LEFT,
    Word.ALL,
    Word.BOTH,
    Word.IT,
    Word.THEM,
    Word.REST,
    Word.EXCEPT,
    Word.IT_IS,
)
_NONE_KINDS = (Pest, Plants, Place, Level, *DATES)
_PAIR = 2
MANY = 12
"""A look at all of so many plants is asked about. Judgement."""


def read_find(clause: Clause, setting: Setting) -> Meant | None:
    """Read "hoya 5", "a few mites on ivy"; None when it tells of no number, grade or pest."""
    if not clause.only(*_FIND_WORDS, *_FIND_KINDS) or len(set(clause.every(Pest))) > 1:
        return None
    count, grade, pest = clause.one(Count), clause.one(Grade), clause.one(Pest)
    if _counts_parts(clause) or _is_a_lone_one(clause) or is_scattered(clause):
        return None
    if count is None and grade is None and pest is None and not clause.has(Word.BUGS):
        return None
    plants = _pointed_at(clause, setting)
    if not plants and not (pest or clause.has(Word.BUGS, Word.SAW)):
        return None
    on = _on(clause, setting)
    if isinstance(on, Trouble):
        return bad_day(clause, on)
    return _found(clause, setting, plants, on)


def _found(clause: Clause, setting: Setting, plants: tuple[PlantId, ...], on: date | None) -> Meant | None:
    count, grade, pest = clause.one(Count), clause.one(Grade), clause.one(Pest)
    if count is not None and grade is not None:
        return None
    number = None if count is None else whole_count(count.value)
    if count is not None and number is None:
        return not_understood(clause, "count")
    if number is not None and len(plants) > 1:
        return not_understood(clause, "each")
    spot, key = clause.one(Spot), None if pest is None else pest.key

    def find(chosen: tuple[PlantId, ...]) -> Command:
        if number == 0:
            return LogCheck(plants=chosen, on=on)
        if number is None and grade is None:
            return ask_amount(chosen, key, on)
        where = None if spot is None else spot.name
        return LogFind(plants=chosen, count=number, grade=grade, pest=key, where=where, on=on)

    return (find(plants),) if plants else (ask_which(clause, setting, find),)


def _is_a_lone_one(clause: Clause) -> bool:
    """Tell whether "one" may be a pronoun or a clipped "done", as in "one hoya"."""
    told = clause.has(Word.BUGS, Word.SAW, Word.HAD, Word.LEFT) or bool(clause.every((Pest, Spot)))
    texts = [item.text for item in clause.items]
    return "one" in texts and not told and ("one", "on") not in set(pairwise(texts))


def _counts_parts(clause: Clause) -> bool:
    """Read "5 leaves", "2 flowers": parts of the plant are counted, not animals."""
    pairs = pairwise(clause.items)
    return any(
        isinstance(left.meaning, Count | Grade)
        and isinstance(right.meaning, Spot)
        and right.text[:3] not in {"on ", "und"}
        for left, right in pairs
    )


def whole_count(value: Decimal) -> int | None:
    """Give a number as a count of animals, None where nobody can have counted that."""
    return int(value) if value == int(value) and 0 <= value <= MOST else None


def read_sign(clause: Clause, setting: Setting) -> Meant | None:
    """Read "webbing on the ivy"; None when it tells of no sign."""
    sign = clause.one(Sign)
    if sign is None or is_scattered(clause) or not clause.only(*_SIGN_WORDS, *_SIGN_KINDS):
        return None
    on = _on(clause, setting)
    if isinstance(on, Trouble):
        return bad_day(clause, on)
    plants = _pointed_at(clause, setting)

    def seen(chosen: tuple[PlantId, ...]) -> Command:
        return LogSign(plants=chosen, sign=sign, on=on)

    return (seen(plants),) if plants else (ask_which(clause, setting, seen),)


def read_check(clause: Clause, setting: Setting) -> Meant | None:
    """Read "hoya clean", "checked ivy, nothing"; None when it tells of no look."""
    if not _tells_of_a_look(clause) or not clause.only(*_NONE_WORDS, *_NONE_KINDS):
        return None
    on = _on(clause, setting)
    if isinstance(on, Trouble):
        return bad_day(clause, on)
    plants = _looked_at(clause, setting)
    if plants is None:
        return not_understood(clause, "plants")
    plants = tuple(p for p in plants if p not in excepted(clause))
    if _is_imperative(clause):
        return (ask_seen(plants, on),)
    is_vague_place = bool(clause.every(Place)) and not clause.has(
        Word.CHECKED, Word.NOTHING, Word.NONE, Word.BUGS
    )
    if not plants or not _says_none(clause) or is_vague_place:
        if not plants and _says_none(clause) and clause.has(Word.ALL, Word.REST):
            return (ask_none_seen(_all_meant(clause, setting), on),)
        return (ask_seen(plants, on, setting.mentioned if _says_none(clause) else ()),)
    if is_of_many(plants, setting) and clause.has(Word.ALL) and not named(clause) and not clause.every(Place):
        return (ask_none_seen(plants, on),)
    return (LogCheck(plants=plants, level=clause.one(Level), on=on),)


def is_of_many(plants: tuple[PlantId, ...], setting: Setting) -> bool:
    """Whether a look at them all was neither asked for nor is taken at its word in a home so large."""
    return len(plants) > MANY and not set(plants) <= set(setting.looks())


def _all_meant(clause: Clause, setting: Setting) -> tuple[PlantId, ...]:
    """Give all that "all clean" may mean where nothing was to be looked at tonight."""
    out = {*excepted(clause), *setting.mentioned, *setting.situation.found_today}
    return tuple(plant.id for plant in setting.situation.plants if plant.id not in out)


def _is_imperative(clause: Clause) -> bool:
    """Tell whether it may be a task, as "clean the hoya" is, and not a look."""
    return clause.content()[0] is Word.CLEAN and clause.items[0].text == "clean" and bool(named(clause))


def _says_none(clause: Clause) -> bool:
    return clause.has(Word.CLEAN, Word.NONE, Word.NOTHING) or _denies_pests(clause)


def _denies_pests(clause: Clause) -> bool:
    return clause.has(Word.NOT) and (clause.has(Word.BUGS) or bool(clause.every(Pest)))


def _tells_of_a_look(clause: Clause) -> bool:
    if clause.has(Word.NOT) and (
        not _denies_pests(clause) or clause.has(Word.CLEAN, Word.NONE, Word.NOTHING)
    ):
        return False
    if clause.has(Word.DONE) or clause.every(Method):
        return False
    return clause.has(Word.CHECKED) or _says_none(clause)


def _looked_at(clause: Clause, setting: Setting) -> tuple[PlantId, ...] | None:
    plants, place = named(clause), clause.one(Place)
    if plants:
        return plants if place is None else None
    if place is not None:
        return setting.of_place(place)
    infested = setting.situation.found_today
    if clause.has(Word.REST):
        return setting.others() or None
    if clause.has(Word.ALL):
        known = unique(plant.id for plant in setting.situation.plants)
        looked_at = known if clause.has(Word.CHECKED) else setting.looks()
        return tuple(plant for plant in looked_at if plant not in infested)
    if clause.has(Word.BOTH):
        return setting.before if len(setting.before) == _PAIR else None
    is_carried = clause.has(Word.IT, Word.THEM) or clause.joint in {"and", "&", "+"}
    return setting.before if is_carried else ()


def _pointed_at(clause: Clause, setting: Setting) -> tuple[PlantId, ...]:
    plants = named(clause)
    if plants:
        return plants
    if clause.has(Word.BOTH) and len(setting.before) != _PAIR:
        return ()
    # "hoya done, 5 left" speaks of the hoya; behind several plants it could be any of them.
    return setting.before if len(setting.before) == 1 or clause.has(Word.BOTH, Word.THEM) else ()


def _on(clause: Clause, setting: Setting) -> date | Trouble | None:
    day = clause.day()
    return None if day is None else day_behind(day, setting.situation)
