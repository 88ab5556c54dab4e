"""What fills a form from what a message names; None where it lacks something it needs."""

from collections.abc import Sequence
from datetime import date, time, timedelta
from itertools import pairwise

from bot.actions.action import ButtonText, Command, Expecting
from bot.actions.add_plants import AddPlants, NewPlant
from bot.actions.ask import Ask, Topic
from bot.actions.correct import Correct
from bot.actions.courtesy import Help
from bot.actions.export import Export
from bot.actions.hold import Hold
from bot.actions.identify import Identify
from bot.actions.isolate import Isolate
from bot.actions.log_check import LogCheck
from bot.actions.log_find import LogFind
from bot.actions.log_round import LogRound
from bot.actions.log_sign import LogSign
from bot.actions.log_use import LogUse
from bot.actions.lose_plant import LosePlant
from bot.actions.mix_batch import Mix
from bot.actions.move_plant import MovePlant
from bot.actions.postpone import Postpone
from bot.actions.read_temperature import ReadTemperature
from bot.actions.release_plant import ReleasePlant
from bot.actions.set_animals import SetAnimals
from bot.actions.set_hours import SetHours
from bot.actions.set_place import SetPlace
from bot.actions.set_routine import SetRoutine
from bot.actions.set_town import SetTown
from bot.actions.set_traits import SetTraits
from bot.actions.share import Invite
from bot.actions.skip_question import SkipQuestion
from bot.actions.stock_product import StockProduct
from bot.actions.tell_how import AskHow
from bot.actions.undo import Undo
from bot.actions.walk_through import BeginWalk, EndWalk, PassPlant
from bot.actions.work_through import BeginWork, EndWork, TickWork
from bot.catalogue.howto import load_howto
from bot.catalogue.towns import find_towns, folded
from bot.domain.agenda import QUARANTINE_DAYS, SHORT_QUARANTINE_DAYS
from bot.domain.identity import PlaceId, PlantId, ProductId
from bot.domain.label import Label
from bot.domain.measure import Units
from bot.domain.trade import Form as Shape
from bot.domain.trade import Grade, Level, Method, Sign
from bot.domain.value import replace
from bot.phrases.asking import ask_amount, ask_method, ask_none_seen, ask_seen
from bot.phrases.bottles import MOST_ML, ask_which_measure
from bot.phrases.days import (
    BYDAY,
    Clock,
    Day,
    Every,
    Moment,
    MonthDay,
    Period,
    Trouble,
    Weekday,
    evening_hour,
    meant_hour,
)
from bot.phrases.identifying import seen_in
from bot.phrases.items import Item, Span, Unknown
from bot.phrases.labels import ALL_YEAR, USUALLY, animals_named, traits_named
from bot.phrases.lexicon import Spot, Tool, Word, listed, words_of_class
from bot.phrases.light import LAMP, facets_in
from bot.phrases.mentions import BESIDES, Counted, Mentions
from bot.phrases.names import OneOf, Pest, Place, Plants, Product, ingredient_of
from bot.phrases.numbers import Count, Length, UnclearVolume, Volume, Warmth, whole_count
from bot.phrases.setting import DATES, unique

Filled = tuple[Command, ...] | None
MOST_WARM, LEAST_WARM = 60, -40
"""Beyond no room is; what is too much for plants is asked by the action. Judgement. [degC]"""
_OF_A_DAY = frozenset({"min", "minimum", "max", "maximum", "low", "lowest", "high", "highest"})
_UP_TO = frozenset({"to", "-", "\u2013", "and"})
_BEHIND = frozenset({"did", "was", "were", "have", "has", "had", "never"})


def done(told: Mentions) -> Filled:
    """Fill a treatment: plants named, or tonight's; what was done, with what, when."""
    if not (told.has(Word.DONE, Word.EXCEPT) or told.methods() or told.every(Product) or told.denied):
        return None
    on = told.behind()
    methods = tuple(one for one in told.methods() if one not in told.denied)
    products = [one for one in told.every(Product) if not {one.id, one.ingredient} & told.denied]
    product = products[0] if len(set(products)) == 1 else None
    is_clear = _are_together(told) and (product is not None or not products)
    method = methods[0] if methods else None
    is_clear = is_clear and not (told.opens_with(Word.DONE) and told.words & BESIDES and (methods or product))
    if not is_clear or isinstance(on, Trouble) or not _is_of_leaves(told, method):
        return None
    if told.is_done_but_for_a_way() and not methods and product is None and told.denied.intersection(Method):
        return _all_but_a_way(told, on)
    if _is_not_told(told):
        return None
    if not methods and product is None and not told.has(Word.DONE) and not is_all_but(told):
        return None
    plants = told.due() or _of_tonight(told, method)
    if told.situation.expecting is Expecting.WORK and not (told.plants() or methods or product):
        return (TickWork(but=told.sides()[1]),)  # the stage shown, nothing else of tonight
    at = told.hour(latest=8)
    is_ahead = at is not None and at > told.situation.now
    is_new = product is not None and product.id is None
    is_named = bool(told.every(Plants)) or told.has(Word.IT, Word.THEM)
    if not plants or is_ahead or (is_new and not (methods and is_named and _is_used(told))):
        return None
    identity = None if product is None else product.id or ProductId(0)
    new = product.ingredient or "" if product is not None and is_new else ""
    whole = LogRound(plants=plants, product=identity, ingredient=new, on=None if at else on, at=at)
    by_hand = {Method.PRUNE, Method.RINSE}
    if {Method.SPRAY, Method.DRENCH}.intersection(methods):  # "wiped and sprayed with soap"
        by_hand |= {Method.WIPE, Method.SWAB}
    apart = by_hand.intersection(methods) if len(methods) > 1 else set()
    return tuple(
        replace(whole, method=each, product=None, ingredient="")
        if each in apart
        else replace(whole, method=each)
        for each in methods
    ) or _with_method(whole, told)


def _is_used(told: Mentions) -> bool:
    """Whether a product stands behind a word of using it, or before what was done with it."""
    items = [one for one in told.items if one.text not in _BEFORE_A_PRODUCT]
    at = next((at for at, one in enumerate(items) if isinstance(one.meaning, Product)), 0)
    is_before = any(isinstance(one.meaning, Method) for one in items[at + 1 : at + 2])
    return is_before or (at > 0 and items[at - 1].text.split()[-1] in _USING)


_BEFORE_A_PRODUCT = listed("some a an the my our more new old fresh diluted")
_USING = listed("with using used w applied by of")


def _all_but_a_way(told: Mentions, on: date | None) -> Filled:
    """Fill "done, except the pruning": of tonight's treatments all others."""
    kept, left = told.sides()
    done: dict[Method, list[PlantId]] = {}
    for one in told.situation.tonight:
        is_meant = one.plant in (kept or told.setting.answered()) and one.plant not in left
        if one.method is not None and one.method not in told.denied and is_meant:
            done.setdefault(one.method, []).append(one.plant)
    return tuple(LogRound(plants=tuple(ids), method=way, on=on) for way, ids in done.items())


def _with_method(told: LogRound, where: Mentions) -> Filled:
    """Give what was done without a word how: what was asked; a spray of what was not; else it is asked."""
    asked = tuple(plant for plant in told.plants if plant in where.setting.treatments())
    others = tuple(plant for plant in told.plants if plant not in asked)
    if others and told.product is not None:
        return (replace(told, method=Method.SPRAY),)  # the usual way with a product: said in the offer
    looks = tuple(plant for plant in others if plant in where.setting.tonight())
    others = tuple(plant for plant in others if plant not in looks)
    return (
        *([replace(told, plants=asked)] if asked else []),
        *([ask_seen(looks, told.on)] if looks else []),
        *([ask_method(others, on=told.on, at=told.at)] if others else []),
    )


def _are_together(told: Mentions) -> bool:
    """Whether several ways of doing stand side by side: "washed and repotted the hoya"."""
    verbs = [
        at
        for at, item in enumerate(told.items)
        if item.meaning is Word.DONE or (isinstance(item.meaning, Method) and item.meaning not in told.denied)
    ]
    names = [at for at, item in enumerate(told.items) if isinstance(item.meaning, Plants)]
    for left, right in pairwise(verbs):
        is_led = (
            told.items[left].meaning is Word.DONE and bool(names) and left < names[0] <= names[-1] < right
        )
        if not is_led and _are_two(
            told.items[left : right + 1]
        ):  # "did the chilli, pruned and rinsed" is one
            return False
    methods = [at for at, item in enumerate(told.items) if isinstance(item.meaning, Method)]
    inside = told.items[methods[0] : methods[-1]] if methods else ()
    return len(told.methods()) < _PAIR or all(
        isinstance(item.meaning, Method | Product)
        or item.meaning in {Word.AND, Word.BREAK}
        or item.text == "then"
        for item in inside
    )


def _are_two(between: tuple[Item, ...]) -> bool:
    """Whether a second verb tells of something else: "did the hoya and swabbed the ivy"."""
    is_joined = any(item.meaning in {Word.AND, Word.BREAK} for item in between)
    has_plants = any(isinstance(item.meaning, Plants) for item in between)
    is_other = between[0].meaning != between[-1].meaning
    return is_joined and is_other and (has_plants or between[0].meaning is Word.DONE)


def is_all_but(told: Mentions) -> bool:
    """Whether it is "all but the coffee", and nothing else."""
    steering = {item.meaning for item in told.items if isinstance(item.meaning, Word)} - {
        Word.FILLER,
        Word.ALL,
    }
    is_whole = bool(told.items) and told.items[0].text.startswith(("all", "everything"))
    return is_whole and steering == {Word.EXCEPT} and told.setting.is_first and bool(told.sides()[1])


def _is_of_leaves(told: Mentions, method: Method | None) -> bool:
    """Whether it was done where it is done, and at an hour there is: not the roots sprayed, at 13 pm."""
    is_odd = any(
        before.text == "at" and isinstance(item.meaning, Count)
        for before, item in zip(told.items, told.items[1:], strict=False)
    )
    return not is_odd and (
        method is Method.DRENCH or all(spot.name not in {"roots", "soil"} for spot in told.every(Spot))
    )


def _of_tonight(told: Mentions, method: Method | None) -> tuple[PlantId, ...]:
    """Give tonight's treatments where no plant is named, but those left out."""
    _, left = told.sides()
    is_rest = told.has(Word.ALL, Word.REST) or told.excepts() or told.is_done_but()
    is_rest = is_rest and told.speaks_of_the_rest()
    before = told.setting.before
    if told.every((Place, OneOf)) or (left and not is_rest) or told.how_many():
        return ()
    steps = [one.plant for one in told.steps() if told.every(Product)]  # "the soap is on"
    of_it = unique(steps) or told.setting.answered(method)
    alone = told.setting.answered()
    if not of_it and len(alone) == 1 and told.has(Word.IT):
        of_it = alone  # another way than was asked
    if told.has(Word.ALL) and method and of_it != told.setting.answered():
        return ()
    if before and not told.has(Word.ALL, Word.REST, Word.BOTH):
        return before if method and set(of_it) <= set(before) else ()
    is_whole = told.has(Word.ALL, Word.THEM, Word.BOTH, Word.EXCEPT, Word.REST)
    is_whole = is_whole or (told.has(Word.IT) and len(of_it) == 1)
    if not is_whole and (method or told.every(Product)) and told.strangers():
        return ()
    if told.has(Word.REST):
        left = (*left, *told.setting.before)
    rest = tuple(plant for plant in of_it if plant not in left)
    return rest if told.how_many_left() in {None, len(rest)} else ()


def _is_not_told(told: Mentions) -> bool:
    """Whether what it speaks of was denied, is only wished, or is of a plant nobody knows."""
    return told.is_denied() or told.is_ahead() or told.names_another()


def find(told: Mentions) -> Filled:
    """Fill what was seen alive: each plant with its number."""
    on, pairs = told.behind(), told.counted() or _one_pair(told)
    left = () if any(one.meaning is Word.EXCEPT for one in told.items[:1]) else told.sides()[1]
    is_set_right = told.has(Word.IT_IS) and not told.amounts()  # "it's scale on the bay"
    if is_set_right or isinstance(on, Trouble) or any(set(one.plants) & set(left) for one in pairs):
        return None
    found: list[Command] = []
    for each in pairs:
        key = each.pest or told.setting.pest
        seen = LogFind(plants=each.plants, pest=key, where=each.where, on=on)
        if isinstance(each.amount, Grade):
            found.append(replace(seen, grade=each.amount))
        elif each.amount is None and len(pairs) == 1 and (key or told.has(Word.BUGS) or _is_as_before(told)):
            if each.pest is None or not _names_the_kind(told, each.plants):
                return (ask_amount(each.plants, key, on),)
            found += [Correct(plant=plant, pest=each.pest) for plant in each.plants]
        elif each.amount == 0:
            found.append(LogCheck(plants=each.plants, level=told.one(Level), on=on))
        elif each.amount:
            found.append(replace(seen, count=each.amount))
        else:
            return None
    return tuple(found) or None


def _is_as_before(told: Mentions) -> bool:
    """Whether a plant has what another has: "the ivy has it too", "they are on the ivy as well"."""
    return told.has(Word.IT, Word.THEM, Word.IT_IS) and not BESIDES.isdisjoint(one.text for one in told.items)


def _names_the_kind(told: Mentions, plants: tuple[PlantId, ...]) -> bool:
    """Whether it says what sits on plants that are ill: "the ivy is citrus mealybug too"."""
    is_state = bool(told.words & {"is", "are"}) and not told.words & {"has", "have", "there", "with", "back"}
    return is_state and told.situation.sick.issuperset(plants)


def _one_pair(told: Mentions) -> list[Counted]:
    """Give a number told of the plant spoken of before, or asked about."""
    plants, amounts, pests = told.plants(), told.amounts(), told.every(Pest)
    if len(amounts) != 1:
        return []
    spot = told.one(Spot)
    where = None if spot is None else spot.name
    if not plants and not told.every((Plants, Place, OneOf)) and len(told.setting.before) == 1:
        plants = told.setting.before
    is_seen = pests or told.has(Word.BUGS, Word.SAW, Word.LEFT, Word.HAD) or told.setting.before
    if len(plants) == 1 and is_seen:
        pest = pests[0].key if pests else told.setting.pest
        return [Counted(plants=plants, amount=amounts[0], pest=pest, where=where)]
    about = told.setting.about()
    is_asked = about and not told.every(Plants)
    asked = Counted(plants=about, amount=amounts[0], pest=told.setting.asked_pest(), where=where)
    return [asked] if is_asked else []


def sign(told: Mentions) -> Filled:
    """Fill a trace seen."""
    plants, seen, on = told.plants(), told.one(Sign), told.behind()
    return (
        None
        if not plants or seen is None or isinstance(on, Trouble)
        else (LogSign(plants=plants, sign=seen, on=on),)
    )


def _the_rest(told: Mentions, left: tuple[PlantId, ...]) -> tuple[PlantId, ...]:
    if told.has(Word.REST):
        return told.setting.others(left)
    out = {*left, *told.setting.found()}
    return tuple(plant for plant in told.setting.looks() if plant not in out)


def none(told: Mentions) -> Filled:
    """Fill a look with nothing found: plants named, or those that were to be looked at."""
    _, left = told.sides()
    plants, on = told.plants(), told.behind()
    is_of_none_known = not plants and (told.how_many() or told.points_at_one())
    is_called = told.has(Word.NOTHING, Word.NONE, Word.CLEAN, Word.GONE, Word.NOT, Word.CHECKED)
    if is_of_none_known or not is_called or _is_not_looked_at(told) or _is_seen_on_some(told):
        return None
    if not plants and left and not told.has(Word.ALL):
        is_looked_for = told.denied or told.has(Word.CHECKED, Word.NONE, Word.NOTHING, Word.CLEAN)
        plants = left if is_looked_for else ()
    if plants and not left and told.has(Word.REST):  # "ivy and the others clean"
        plants = (*plants, *told.setting.others(plants))
    is_bare = not plants and not left and not told.every((Place, OneOf))
    is_of_it = bool(told.every(Spot)) and bool(told.setting.before)  # "wiped the hoya, every joint, none"
    if is_bare and told.has(Word.CHECKED) and told.has(Word.ALL) and not is_of_it:
        known = (plant.id for plant in told.situation.plants)
        plants = tuple(plant for plant in known if plant not in told.setting.found())
        if _is_of_many(plants, told) and isinstance(on, date | None):
            return (ask_none_seen(plants, on),)
    elif is_bare and (is_of_it or not told.has(Word.REST, Word.ALL)):
        choices = (one for one in told.situation.choices if one.text is not ButtonText.YES)
        is_counted = any(
            isinstance(told, LogFind) for one in choices for told in one.commands[:1]
        )  # "none" says how many
        found = () if is_counted else told.setting.found()
        about = tuple(plant for plant in told.setting.about() if plant not in found)
        plants = about if told.setting.is_first else told.setting.before
    if not plants and not told.every((Place, OneOf)) and told.speaks_of_the_rest():
        plants = _the_rest(told, (*left, *told.setting.before))
        asked = () if plants or not is_bare or isinstance(on, Trouble) else _all_treated(told)
        if asked and not isinstance(on, Trouble):
            return (ask_none_seen(asked, on),)
    if not plants or isinstance(on, Trouble) or told.is_ahead():
        return None
    return (LogCheck(plants=_with_the_rest(plants, told), level=told.one(Level), on=on),)


def _is_seen_on_some(told: Mentions) -> bool:
    """Whether an animal is told of one plant, and none of another: "scale on the hoya, none on the ivy"."""
    pests, named = (
        {told.is_denied_beside(at) for at, item in enumerate(told.items) if isinstance(item.meaning, kind)}
        for kind in (Pest, Plants)
    )
    return False in pests and len(named) > 1 and not told.has(Word.CHECKED, Word.CLEAN)


def _is_not_looked_at(told: Mentions) -> bool:
    """Whether a look or its finding is denied: "have not looked at the ivy", "never clean"."""
    looks = {Word.CHECKED, Word.CLEAN}
    return any(_denies(one) and behind.meaning in looks for one, behind in pairwise(told.items))


def _denies(item: Item) -> bool:
    return item.meaning is Word.NOT or item.text in {
        "never",
        "but",
        "hardly",
        "no longer",
        "barely",
        "far from",
    }


def _with_the_rest(plants: tuple[PlantId, ...], told: Mentions) -> tuple[PlantId, ...]:
    """Add those that were to be looked at to one that is clean besides: "all clean, the ivy too"."""
    is_besides = told.has(Word.ALL) and told.opens_with(Word.CLEAN) and told.words & BESIDES
    rest = _the_rest(told, told.sides()[1]) if is_besides and told.every(Plants) else ()
    return unique((*rest, *plants))


def _all_treated(told: Mentions) -> tuple[PlantId, ...]:
    """Give what a look may be of where none was asked for: what is treated tonight, or all there are."""
    known = (plant.id for plant in told.situation.plants)
    out = {*told.setting.found(), *told.setting.before}
    is_all = told.has(Word.ALL) and not told.has(Word.DONE)
    return tuple(plant for plant in known if plant not in out) if is_all else told.setting.treatments()


def _is_of_many(plants: tuple[PlantId, ...], told: Mentions) -> bool:
    """Whether a look at them all was neither asked for nor is taken at its word in a home so large."""
    return len(plants) > _MANY and not set(plants) <= set(told.setting.looks())


_MANY = 12
"""A look at all of so many plants is asked about. Judgement."""


def later(told: Mentions) -> Filled:
    """Fill what is put off: plants named or all of tonight, till when."""
    on, at = told.ahead(), told.hour(latest=12)
    is_put_off = told.has(*_PUTS_OFF) or told.words & _LATER_WORDS or _is_work_denied(told)
    plants = _put_off(told)
    is_behind = bool(told.days()) and speaks_of_before(told.items)
    if (
        told.tells_some_done()
        or not plants
        or (not is_put_off and on is None and not at)
        or told.words & {"was", "were"}
        or is_behind
    ):
        return None
    if (told.every(Moment) and told.days()) or (told.has(Word.HAD) and told.has(Word.NOTHING)):
        return None
    if any(one.meaning is Word.NOTHING and one.text == "not" for one in told.items):
        return None  # "the ivy did not have any"
    if any((one.meaning, then.meaning) == (Word.NOT, Word.LATER) for one, then in pairwise(told.items)):
        return None  # "not later!"
    is_of_plants = bool(told.every((Plants, OneOf, Place)) or told.days() or told.hour(latest=12))
    if (
        (bool(told.every(Product)) or (bool(told.every((Method, Tool))) and not told.steps()))
        and not is_of_plants
        and not told.has(Word.LATER, Word.SKIP, Word.NO_TIME, Word.UNTIL)
    ):
        return None  # "no soap here", "wiped the others, no rinse"
    tomorrow = told.situation.today + timedelta(days=1)
    if at is not None and (on is None or isinstance(on, Trouble)):
        local = at.astimezone(told.situation.zone)
        is_tonight = at > told.situation.now and local.date() == told.situation.today
        if on is None and at <= told.situation.now:
            return None  # that hour is over
        if is_tonight and local.hour < told.situation.quiet_from_hour:
            return (Postpone(plants=plants, at=at),)
        return (Postpone(plants=plants, on=tomorrow),)
    if isinstance(on, Trouble) and Day(told.situation.today) not in told.days():
        return None
    is_ahead = isinstance(on, date) and on > told.situation.today
    return (Postpone(plants=plants, on=on if is_ahead and isinstance(on, date) else tomorrow),)


def speaks_of_before(items: Sequence[Item]) -> bool:
    """Whether what is denied is of the past: "did not", "was not"."""
    return any(
        bool(_BEHIND.intersection(before.text.split()[-1:])) and item.meaning is Word.NOT
        for before, item in pairwise(items)
    )


def _is_work_denied(told: Mentions) -> bool:
    """Whether work is denied: a "no" in front of anything else answers or turns ("no, the hoya has 4")."""
    said = [None, *(one for one in told.items if one.meaning not in {Word.FILLER, Word.AND}), None]
    return any(_denies_work(*three) for three in zip(said, said[1:], said[2:], strict=False))


def _denies_work(before: Item | None, item: Item | None, behind: Item | None) -> bool:
    if item is None or item.meaning not in _DENIES:
        return False
    if item.text not in _NO or (before is not None and isinstance(before.meaning, Plants)):  # "ivy no"
        return behind is None or (
            behind.meaning not in _OF_LOOKS and not isinstance(behind.meaning, Pest | Count | Grade)
        )
    return behind is None or behind.meaning in _OF_WORK or isinstance(behind.meaning, Method | Tool | Product)


_NO = listed("no nope nah non nein")
_DENIES = frozenset({Word.NOT, Word.NOTHING, Word.NONE})
_OF_LOOKS = frozenset({Word.CLEAN, Word.BUGS, Word.SAW, Word.ISOLATE, Word.MOVE, Word.LOST})
_OF_WORK = frozenset({Word.DO, Word.DONE, Word.CHECKED, Word.CHECK, *_DENIES})
_PUTS_OFF = (Word.LATER, Word.NO_TIME, Word.SKIP, Word.YET, Word.UNTIL)
_LATER_WORDS = frozenset({"wait", "instead", "another"})


def _put_off(told: Mentions) -> tuple[PlantId, ...]:
    named, left = told.sides()
    is_rest = told.has(Word.REST) or (told.excepts() and "leaving" not in told.words)
    is_whole = told.has(Word.ALL, Word.NOTHING, Word.NONE) and not named and told.speaks_of_the_rest()
    if is_rest or is_whole:
        out = {*named, *left, *(told.setting.before if is_rest else ())}
        rest = tuple(one for one in told.of_places() or told.setting.tonight() if one not in out)
        return rest if told.how_many_left() in {None, len(rest)} else ()
    plants = named or left or told.of_places() or told.setting.before
    if told.every((Plants, Place, OneOf)) or told.names_no_plant_known():
        return plants
    spoken = told.situation.spoken
    is_denied = not plants and speaks_of_before(told.items) and bool(told.words & {"it", "them", "that"})
    if is_denied and spoken and set(spoken).isdisjoint(told.setting.tonight()):
        return spoken  # "no, I did not do it" of what was written last
    steps = unique(one.plant for one in told.steps() if not one.is_done)  # "the soap can wait"
    if steps:
        return tuple(one for one in steps if not plants or one in plants)
    return plants or told.setting.tonight()


def isolate(told: Mentions) -> Filled:
    """Fill plants put apart, and where to."""
    about = told.setting.about()
    if told.words & {"they", "them", "those", "both"}:
        about = tuple(one for one in told.situation.spoken if one in told.situation.sick)
    named, left = _named(told), told.sides()[1]
    if "longer" in told.words:
        return None  # "no longer isolated"
    plants, on, place = named or (() if left else about), told.behind(), told.one(Place)
    is_called = told.has(Word.ISOLATE, Word.AWAY) or bool(told.words & _APART)
    is_behind = isinstance(on, date) and on < told.situation.today
    is_quarantine = "quarantine" in told.words and not is_behind
    is_not_told = told.is_denied() or told.names_another() or (told.is_ahead() and not is_quarantine)
    if not plants or not is_called or is_not_told or told.every((Count, Grade, Method)):
        return None
    if is_quarantine:
        until = told.ahead()
        days = (until - told.situation.today).days if isinstance(until, date) else QUARANTINE_DAYS
        return (Isolate(plants, quarantine_days=max(days, SHORT_QUARANTINE_DAYS)),)
    if isinstance(on, Trouble):
        return None
    apart = Isolate(plants, on)
    return (apart,) if place is None else (apart, MovePlant(plants, place.id, on))


_APART = listed(
    "apart away alone own separate separated isolated isolating quarantine off corner solo moved aside"
)


def stays(told: Mentions) -> Filled:
    """Fill plants that cannot be moved."""
    named, left = told.sides()
    plants = named or left or told.setting.before or told.setting.about()
    return (Isolate(plants, apart=False),) if plants else None


def move(told: Mentions) -> Filled:
    """Fill plants taken to a place; the last place named is where they went."""
    plants, on, places = _named(told), told.behind(), told.every(Place)
    if not plants or isinstance(on, Trouble) or _is_not_told(told):
        return None
    each = _each_to_its_place(told, on) or _swapped(plants, told, on)
    return each or ((MovePlant(plants, places[-1].id, on),) if places else None)


def _each_to_its_place(told: Mentions, on: date | None) -> tuple[MovePlant, ...]:
    """Give a move for each where plants and places take turns: "fern to the hall, ivy to the study"."""
    named = [one.meaning for one in told.items if isinstance(one.meaning, Plants | Place)]
    pairs = [
        MovePlant(plant.ids, place.id, on)
        for plant, place in zip(named[::2], named[1::2], strict=False)
        if isinstance(plant, Plants) and isinstance(place, Place)
    ]
    return tuple(pairs) if 2 * len(pairs) == len(named) > len("xy") else ()


def _swapped(plants: tuple[PlantId, ...], told: Mentions, on: date | None) -> tuple[MovePlant, ...]:
    """Give each of two plants the other's place."""
    stands = {one.id: one.place for one in told.situation.plants}
    is_swap = len(plants) == len("xy") and bool(told.words & listed("swap swapped switched traded exchanged"))
    to = [stands[one] for one in reversed(plants)] if is_swap else []
    return tuple(
        MovePlant((one,), place, on) for one, place in zip(plants, to, strict=False) if place is not None
    )


def is_standing(told: Mentions) -> bool:
    """Whether it is no more than which plants are where by now: "all three are in the study now: …"."""
    said = {type(item.meaning) for item in told.items if not isinstance(item.meaning, Word)}
    is_now = "now" in told.words and bool(told.words & {"is", "are", "stand", "stands", "in", "on"})
    return is_now and said == {Plants, Place}


def leads_to_a_stranger(told: Mentions) -> bool:
    """Whether a plant went where nobody has told of yet: "put it in the bathroom"."""
    is_led = any(item.text.split()[0] in {"to", "in", "into", "onto", "on"} for item in told.items[:-1])
    is_moved = told.has(Word.MOVE, Word.PUT, Word.FILL_TO) and not told.every(Place) and not told.days()
    last = told.items[-1]
    return is_led and is_moved and isinstance(last.meaning, Unknown) and last.text not in {"me", "us", "you"}


def release(told: Mentions) -> Filled:
    """Fill plants back from isolation."""
    plants, on = _named(told), told.behind()
    if not plants or isinstance(on, Trouble) or told.is_denied() or told.is_let_loose():
        return None
    return (ReleasePlant(plants=plants, on=on, confirmed=told.has(Word.ANYWAY)),)


def lost(told: Mentions) -> Filled:
    """Fill plants that died or were thrown out."""
    alive = _alive(told)
    plants, on = tuple(one for one in _named(told) if one not in alive), told.behind()
    is_told = not isinstance(on, Trouble) and not _is_not_told(told)
    return (LosePlant(plants, on),) if plants and is_told and not isinstance(on, Trouble) else None


def _alive(told: Mentions) -> set[PlantId]:
    """Give plants of which a clause says that they live: "jade is alive, ivy is dead"."""
    alive: set[PlantId] = set()
    clause: list[Item] = []
    for item in (*told.items, None):
        if item is not None and item.meaning not in {Word.BREAK, Word.BUT, Word.AND}:
            clause.append(item)
            continue
        words = {word for one in clause for word in one.text.split()}
        if words & _ALIVE and not any(one.meaning in {Word.LOST, Word.GONE} for one in clause):
            alive |= {plant for one in clause if isinstance(one.meaning, Plants) for plant in one.meaning.ids}
        clause = []
    return alive


_ALIVE = listed(
    "alive lives living survived survives surviving kept recovered recovers recovering fine great well"
)


def stock(told: Mentions) -> Filled:
    """Fill a product put on the shelf with what its label says."""
    named = list(dict.fromkeys(told.every(Product)))
    products = [one for one in named if {one.id, one.ingredient}.isdisjoint(told.denied)]
    is_left = "left" in told.words
    if len(named) > 1 and told.has(Word.EMPTY, Word.GONE):
        return None  # which of them is empty?
    if len(named) > 1:
        keys = [(key, one in products) for one in named if (key := _key(told, one))]
        return (
            tuple(
                StockProduct(ingredient=key, stock_ml=None if has else 0)
                for key, has in dict.fromkeys(keys)
                if has or is_left
            )
            or None
        )
    if named and not products and not is_left and not told.every((Every, Volume, Count)):
        return None  # "no soap here"
    key = told.ingredient() or told.setting.stocked
    if key is None:
        return None
    every, volume, span = told.one(Every), told.one(Volume), told.one((Span, Day))
    days = None if every is None else every.days
    if days is None and span is not None:
        days = span.days if isinstance(span, Span) else None
    if days is None and isinstance(span, Day):
        days = abs((span.on - told.situation.today).days) or None
    noughts = [
        at for at, item in enumerate(told.items) if isinstance(item.meaning, Count) and not item.meaning.value
    ]
    is_of_days = [one.text in _OF_DAYS for at in noughts for one in told.items[at + 1 : at + 2]]
    days = 0 if any(is_of_days) else days  # "0 days before eating" leaves some of it
    is_eaten = bool(told.words & _EATEN)
    is_empty = told.has(Word.EMPTY, Word.GONE) or (told.has(Word.NOT) and "left" in told.words)
    is_empty = is_empty or "finished" in told.words or (bool(noughts) and not any(is_of_days))
    is_forbidden = told.has(Word.NOT, Word.NOTHING) or bool(
        told.words & {"never", "unsuitable", "forbidden", "prohibited"}
    )
    is_of_year = bool(told.words & {"year", "annum", "season", "yearly", "annually"})
    uses = _uses(told) if is_of_year else None
    return (
        StockProduct(
            ingredient=key,
            stock_ml=0 if is_empty else None if volume is None else round(float(volume.ml), 2),
            label=Label(
                form=_shape(told),
                gap_days=None if is_eaten else days,
                harvest_days=days if is_eaten else None,
                uses_a_year=uses,
                is_for_edibles=False if is_eaten and days is None and is_forbidden else None,
                is_for_indoors=False
                if told.words & {"indoors", "indoor", "inside"} and is_forbidden
                else None,
            ),
        ),
    )


def _uses(told: Mentions) -> int | None:
    """Give how often: the number before "times", else the first; once, twice, thrice."""
    spelt = next((often for word, often in _OFTEN.items() if word in told.words), None)
    counts = [
        (at, item.meaning.value) for at, item in enumerate(told.items) if isinstance(item.meaning, Count)
    ]
    before = [value for at, value in counts if at + 1 < len(told.items) and told.items[at + 1].text in _TIMES]
    told_of = before or [value for _, value in counts]
    return int(told_of[0]) if told_of else spelt


_OFTEN = {"once": 1, "twice": 2, "thrice": 3}
_TIMES = frozenset({"times", "x", "uses", "applications"})
_OF_DAYS = listed("day days d")
_EATEN = listed("eat eating eaten harvest harvesting pick picking edible edibles food herbs vegetables")


def _shape(told: Mentions) -> Shape | None:
    """Give whether it is ready to use; "concentrate" behind a product is but its name."""
    shapes = [
        item.meaning
        for at, item in enumerate(told.items)
        if isinstance(item.meaning, Shape) and not (at and isinstance(told.items[at - 1].meaning, Product))
    ]
    if Shape.READY in shapes or {"mixing", "diluting"} & told.words:
        return Shape.READY
    return shapes[0] if shapes else None


def _key(told: Mentions, product: Product) -> str | None:
    if product.ingredient:
        return product.ingredient
    return Mentions(tuple(i for i in told.items if i.meaning == product), told.setting).ingredient()


def temperature(told: Mentions) -> Filled:
    """Fill how warm a place is; a bare number counts in the household's degrees."""
    place, on = told.one(Place), told.behind()
    read = _warmths(told.items, told.situation.units)
    if place is None or isinstance(on, Trouble) or not 0 < len(read) <= _PAIR:
        return None
    if not all(LEAST_WARM <= celsius <= MOST_WARM for celsius in read):
        return None
    if told.words & USUALLY and len(read) == 1:
        return (ReadTemperature(place.id, read[0], months=ALL_YEAR),)
    return (_read_as(place.id, read, on),)


def _warmths(items: Sequence[Item], units: Units) -> list[float]:
    """
    Give the temperatures told, a bare number in the home's degrees. [degC].

    Beside one told in degrees a bare number counts only where both are called the ends of a day.
    """
    told = [float(one.meaning.celsius) for one in items if isinstance(one.meaning, Warmth)]
    bare = [float(one.meaning.value) for one in items if isinstance(one.meaning, Count)]
    if units is Units.US:
        bare = [round((value - 32) / 1.8, 1) for value in bare]
    if _is_span(items):
        return [*bare, *told]
    return told or (bare if len(bare) == 1 else [])


def _is_span(items: Sequence[Item]) -> bool:
    """Whether two numbers are the ends of a day: "16 to 24", "min 16 max 24"."""
    texts = [one.text.casefold() for one in items]
    numbers = [at for at, one in enumerate(items) if isinstance(one.meaning, Count | Warmth)]
    if len(numbers) != _PAIR:
        return False
    between = texts[numbers[0] + 1 : numbers[1]]
    return bool(_OF_A_DAY & set(texts)) or (len(between) == 1 and between[0] in _UP_TO)


def _read_as(place: PlaceId, read: Sequence[float], on: date | None) -> ReadTemperature:
    """Make a reading of one temperature, or of a day's lowest and highest. [degC]."""
    if len(read) == 1:
        return ReadTemperature(place, read[0], on)
    low, high = sorted(read)
    return ReadTemperature(place, round((low + high) / 2, 1), on, low=low, high=high)


def hold(told: Mentions) -> Filled:
    """Fill an absence, a silence, or the coming back."""
    if told.words & {"back", "home", "resume", "returned"} and not told.has(Word.UNTIL, Word.AWAY):
        is_ahead = any(
            one.text == "back" and isinstance(day.meaning, DATES) for one, day in pairwise(told.items)
        )
        if not is_ahead:  # not "in the hills, back monday"
            return (Hold(told.situation.today),)
    named = told.days()
    if len(named) > _PAIR:  # "from 22 January to 3 February (with sun, I hope)"
        named = [one for one in named if isinstance(one, MonthDay)]
    if len(named) == _PAIR:  # "from tuesday to next tuesday"
        named = [Weekday(one.index, "") if isinstance(one, Weekday) else one for one in named]
    days = [day for one in named if isinstance(day := told.date_of(one, ahead=True), date)]
    if len(days) == _PAIR and days[1] <= days[0] and isinstance(named[1], Weekday):
        days[1] += timedelta(weeks=1)
    if days and isinstance(named[-1], Period):
        days = [days[0], days[-1] + timedelta(weeks=1)]
    if len(days) == _PAIR and any(
        one.text.startswith("for ") for one in told.items if one.meaning == named[-1]
    ):
        days[1] += days[0] - told.situation.today  # "from thursday for ten days"
    if len(days) == _PAIR and days[0] <= days[1]:
        return (Hold(days[1], since=days[0]),)
    if all(one.meaning is Word.FILLER or isinstance(one.meaning, DATES) for one in told.items):
        return None  # a day alone is an answer to something else
    until = told.ahead()
    is_lasting = until is not None or told.has(Word.STOP, Word.AWAY) or bool(told.words & _SILENCING)
    return None if isinstance(until, Trouble) or not is_lasting or len(days) > 1 else (Hold(until),)


_SILENCING = frozenset({"no", "without", "quit", "pause", "mute", "silence", "quiet", "cease", "nothing"})


def add(told: Mentions) -> Filled:
    """Fill plants that are new here, by their kinds, and the place where they all stand."""
    words = tuple(word for item in told.items for word in item.text.split())
    kinds = told.situation.kinds
    names: list[str] = []
    at = 0
    while at < len(words):
        size = next((n for n in (3, 2, 1) if " ".join(words[at : at + n]) in kinds), 0)
        if size:
            names.append(" ".join(words[at : at + size]))
        at += size or 1
    if not names or told.is_denied() or told.every(Plants):
        return None
    where = _standing(told, frozenset(word for name in names for word in name.split()))
    plants = tuple(NewPlant(name=name, place=where) for name in dict.fromkeys(names))
    return (AddPlants(plants, is_sure=True),)


def _standing(told: Mentions, named: frozenset[str]) -> str | None:
    """Give the place named, else what nobody knows behind "in", "on" or "at"."""
    place = told.one(Place)
    if place is not None:
        return next((one.name for one in told.situation.places if one.id == place.id), None)
    led: list[str] = []
    is_led = False
    for item in told.items:
        is_strange = isinstance(item.meaning, Unknown) and item.text not in named
        if led and not is_strange:
            break
        if is_strange and is_led:
            led.append(item.text)
        elif item.text not in {"the", "my", "our"}:
            is_led = item.text in {"in", "on", "at", "into", "onto", "inside"}
    return " ".join(led[:_MOST_WORDS]) or None


_MOST_WORDS = 3
"""Words of a place's or a plant's new name that are taken. Judgement. [1]"""


def town(told: Mentions) -> Filled:
    """Fill the town lived in: the longest run of words nobody knows that is a town's name."""
    runs: list[list[str]] = [[]]
    for item in told.items:
        if isinstance(item.meaning, Unknown):
            runs[-1].append(item.text)
        else:
            runs.append([])
    parts = {" ".join(run[at : at + n]) for run in runs for n in (3, 2, 1) for at in range(len(run) - n + 1)}
    towns = [part for part in sorted(parts, key=lambda one: (-len(one), one)) if _is_town(part)]
    return (SetTown(towns[0]),) if towns else None


def _is_town(part: str) -> bool:
    return any(folded(town.name) == folded(part) for town in find_towns(part))


def routine(told: Mentions) -> Filled:
    """Fill a habit of looking: on which day of the week."""
    often = told.every(Every)  # "wednesdays, every week"
    every = next((one for one in often if one.days is not None), next(iter(often), None))
    days = [*(Weekday(one.weekday) for one in often if one.weekday is not None), *told.every(Weekday)]
    weeks = every.days // _WEEK if every is not None and every.days and every.days % _WEEK == 0 else 1
    weeks = 2 if told.words & {"second", "2nd", "alternate", "fortnight", "other"} else weeks
    if every is not None and every.days is not None and not 0 < every.days <= _LONGEST_HABIT:
        return None
    rules = {one.otherwise for one in often if one.otherwise}
    if rules:
        return None if days or len(rules) > 1 else (SetRoutine("check", rules.pop()),)
    if not days:
        return None if every is None else (SetRoutine("check", every.rule),)
    named = ",".join(BYDAY[index] for index in sorted({day.index for day in days}))
    interval = f";INTERVAL={weeks}" if weeks > 1 else ""
    return (SetRoutine("check", f"FREQ=WEEKLY{interval};BYDAY={named}"),)


_WEEK, _LONGEST_HABIT = 7, 90
"""Nobody keeps a habit of looking that is rarer. Judgement. [d]"""


def mix(told: Mentions) -> Filled:
    """Fill a mixture asked for."""
    volume, unclear, product = told.one(Volume), told.one(UnclearVolume), told.one(Product)
    is_strange = product is not None and product.id is None
    ingredient = product.ingredient if product is not None and is_strange else None
    mixed = Mix(volume_ml=None, product=None if product is None else product.id, ingredient=ingredient)
    if unclear is not None:
        return (ask_which_measure(mixed, unclear),)
    if volume is None:  # "how much neem do I mix" that is not on the shelf: of a litre
        return (replace(mixed, volume_ml=1000.0) if is_strange else replace(mixed, is_for_tonight=True),)
    return (replace(mixed, volume_ml=float(volume.ml)),) if 0 < volume.ml <= MOST_ML else None


def use(told: Mentions) -> Filled:
    """Fill how much an evening took."""
    volume, on = told.one(Volume), told.behind()
    return None if volume is None or isinstance(on, Trouble) else (LogUse(ml=round(volume.ml, 2), on=on),)


def pot(told: Mentions) -> Filled:
    """Fill a pot's width; pots are set one plant at a time by the same words as in a list."""
    from bot.actions.set_pot import SetPot  # noqa: PLC0415 - beside the only use

    plants, width = () if told.names_another() else _named(told), told.one(Length)
    is_pot = width is not None and _LEAST_POT <= width.cm <= _MOST_POT
    return (SetPot(plants, float(width.cm)),) if plants and width is not None and is_pot else None


_LEAST_POT, _MOST_POT = 3, 100
"""Narrower or wider is no pot of a houseplant. Judgement. [cm]"""


def animals(told: Mentions) -> Filled:
    """Fill the animals that live here."""
    kinds = animals_named(told.words)
    return (SetAnimals(kinds),) if kinds else None


def tell(told: Mentions) -> Filled:
    """Fill what a plant is."""
    plants, traits = _named(told), traits_named(told.words)
    if not traits and told.words & listed("eat eating eats ate food cooking cook salad eatable consume"):
        traits = ("edible",)
    if not plants or len(traits) != 1:
        return None
    return (SetTraits(plants, f"not-{traits[0]}" if told.has(Word.NOT) else traits[0]),)


def undo(_told: Mentions) -> Filled:
    """Take back."""
    return (Undo(),)


def correct_plant(told: Mentions) -> Filled:
    """Fill which plant was meant: not the one denied, nor the one that was just spoken of."""
    named = unique(plant for one in told.every(Plants) for plant in one.ids)
    right = [plant for plant in told.sides()[0] if plant not in told.setting.about()]
    right = right or [plant for plant in named if plant not in told.setting.about()]
    return (Correct(plant=right[0]),) if len(right) == 1 else None


def correct_pest(told: Mentions) -> Filled:
    """Fill which pest it is; one denied is not it."""
    pests = [
        item.meaning
        for at, item in enumerate(told.items)
        if isinstance(item.meaning, Pest) and not _is_denied(told, at)
    ]
    keys = list(dict.fromkeys(pest.key for pest in pests))
    if len(keys) != 1:
        return None
    return tuple(Correct(plant=plant, pest=keys[0]) for plant in told.plants() or (None,))


def correct_count(told: Mentions) -> Filled:
    """Fill the right number: the last; one denied is not it."""
    counts = [
        item.meaning
        for at, item in enumerate(told.items)
        if isinstance(item.meaning, Count) and not _is_denied(told, at)
    ]
    plants = told.plants()
    if not counts or len(plants) > 1 or counts[-1].value != int(counts[-1].value):
        return None
    return (Correct(plant=plants[0] if plants else None, count=int(counts[-1].value)),)


def _is_denied(told: Mentions, at: int) -> bool:
    before = told.items[max(0, at - 1) : at]
    return any(item.meaning is Word.NOT for item in before)


def hours_evening(told: Mentions) -> Filled:
    """Fill the evening's hour."""
    hours = {_hour_of(one.meaning): one.meaning for one in told.items if _hour_of(one.meaning) is not None}
    if len(hours) not in {1, 2}:
        return None
    hour, meaning = list(hours.items())[-1]
    assert hour is not None
    return (SetHours(evening=meant_hour(meaning) if isinstance(meaning, Clock) else evening_hour(hour)),)


def tick(told: Mentions) -> Filled:
    """Fill what is left out of the stage that is done, or that all of it is."""
    kept, left = told.sides()
    if (
        not kept
        and not left
        and (told.has(Word.SKIP, Word.EXCEPT) or told.words & {"skip", "jump", "leave", "pass", "omit"})
    ):
        return (TickWork(is_left_out=True),)
    if left and not told.speaks_of_the_rest():
        return None
    return (TickWork(but=left or (kept if told.is_denied() else ())),)


def passed(told: Mentions) -> Filled:
    """Pass the plant that the walk asks about."""
    for choice in told.situation.choices:
        for command in choice.commands:
            if isinstance(command, PassPlant):
                return (command,)
    return None


def ask(topic: Topic, told: Mentions) -> Filled:
    """Fill a question with the plants, product and time it names."""
    if topic is Topic.FIT and animals_named(told.words):
        topic = Topic.SAFETY  # "is neem ok for the cat" asks of no plant
    products, place = tuple(dict.fromkeys(told.every(Product))), told.one(Place)
    is_of_a_way = topic is not Topic.WITH or bool(told.every(Method))
    if topic in _OF_OTHERS and (
        len(products) > 1 or (is_of_a_way and any(one.id is None for one in products))
    ):
        topic = Topic.FIT  # "is neem better than soap"
    if topic in _OF_A_USE and _names_a_strange_product(told, is_use=topic is Topic.FIT):
        return None
    is_used = topic is Topic.EATING and bool(told.has(Word.BREAK, Word.DONE) or told.days())
    is_of_it = (
        topic in _OF_A_PRODUCT and not is_used
    )  # "neem on the jade yesterday. is the basil safe to eat?"
    keys = [ingredient_of(one, told.situation) for one in products if is_of_it]
    product = products[0].id if len(keys) == 1 else None
    plants = unique(plant for one in told.every(Plants) for plant in one.ids) if topic not in _OF_ALL else ()
    ways = load_howto().way_by_word
    named = {ways[one].key for one in {*told.words, *(item.text for item in told.items)} if one in ways}
    if topic is Topic.STEPS and len(named) == 1:
        return (AskHow(way=named.pop(), plant=plants[0] if len(plants) == 1 else None),)
    when = _asked_time(topic, told)
    on = told.behind() if topic is Topic.LOG and when is None else told.ahead()
    pest = told.one(Pest) if topic is Topic.PLANTS else None
    return (
        Ask(
            topic=topic,
            plants=plants,
            place=place.id if place is not None and topic in _OF_A_PLACE else None,
            product=product,
            ingredients=tuple(dict.fromkeys(filter(None, keys))) if product is None else (),
            when=when,
            on=on if topic in {Topic.EATING, Topic.WHY, Topic.LOG} and isinstance(on, date) else None,
            pest=None if pest is None else pest.key,
            in_full=topic is Topic.WHY and bool(_IN_FULL & told.words),
        ),
    )


def _names_a_strange_product(told: Mentions, *, is_use: bool) -> bool:
    """Whether something nobody knows would be used: "can i put talcum on it", "is tea tree oil ok"."""
    is_used = is_named = is_strange = False
    for at, one in enumerate(told.items):
        if isinstance(one.meaning, Unknown) and one.text not in _APPLYING:
            is_used = is_used and one.text not in _STANDS_FOR_ALL
            is_strange = is_strange or one.text not in _NO_NAMES
            if is_use and is_used and is_strange:
                return True
        elif isinstance(one.meaning, Product) and is_named and is_strange:
            return True
        elif not (isinstance(one.meaning, Plants) and one.meaning.loose and is_strange):  # "tea tree oil"
            is_article = one.text in _BEFORE_A_NAME
            is_used = one.text in _APPLYING or (not at and one.text in _BEING) or (is_used and is_article)
            is_named = is_used or is_article or one.text in _LEADS_A_NAME
            is_strange = False
    return False


_STANDS_FOR_ALL = listed("anything something everything nothing else")
_BEING, _LEADS_A_NAME = listed("is are"), listed("with have some any")
_APPLYING = listed("use using apply applying put putting try trying")
_NO_NAMES = words_of_class("idle", "words", "people") | listed(
    "anything something everything nothing another more less other which only both either good better"
    " lick eat touch drink smell sniff chew like need want buy get"
)
_BEFORE_A_NAME = listed("the a an some my our of any this that")
_OF_A_USE = frozenset({Topic.FIT, Topic.EATING, Topic.SAFETY})
_OF_OTHERS = frozenset({Topic.WITH, Topic.TREND})


def _asked_time(topic: Topic, told: Mentions) -> str | None:
    """Give the days that are asked about, of what is due or was done."""
    period, days = told.one(Period), {one.on for one in told.every(Day)}
    today = told.situation.today
    if topic not in {Topic.DUE, Topic.LOG}:
        return None
    if period is not None:
        return period.name
    if "week" in told.words and not told.every(Count):
        is_over = topic is Topic.LOG and bool(_OVER & told.words)
        return "last-week" if is_over else "week" if topic is Topic.DUE else None
    day = today + timedelta(days=1 if topic is Topic.DUE else -1)
    return {Topic.DUE: "tomorrow", Topic.LOG: "yesterday"}[topic] if day in days else None


_IN_FULL = listed("more full sums sources source detail details exactly")
_OVER = listed("past passed last gone previous before")
_OF_A_PLACE = frozenset({Topic.SUN, Topic.WHY, Topic.PLANTS})
_OF_A_PRODUCT = frozenset({Topic.STOCK, Topic.FIT, Topic.SAFETY, Topic.EATING})
_OF_ALL = frozenset(
    {Topic.ISOLATED, Topic.STOCK, Topic.SETTINGS, Topic.ROUTINES, Topic.MEMBERS, Topic.PLANTS, Topic.PESTS}
)


def identify(told: Mentions) -> Filled:
    """Ask what was seen, and on which plant, with what of it is told already."""
    plants = unique(plant for one in told.every(Plants) for plant in one.ids)[:1]
    seen = seen_in(tuple(word for one in told.items for word in one.text.split()))
    counts = {whole_count(one.value) for one in told.every(Count)}
    count = counts.pop() if plants and len(counts) == 1 else None
    find = None if count is None else LogFind(plants=plants, count=count)
    return (Identify(plants=plants, answers=seen, find=find),)


def quiet(told: Mentions) -> Filled:
    """Fill between which hours nothing is sent: evening first, then morning."""
    hours = [hour for item in told.items if (hour := _hour_of(item.meaning)) is not None]
    if len(hours) != _PAIR:
        return None
    since, until = hours
    if since.hour < _NOON and since.hour >= _EARLIEST_NIGHT:
        since = since.replace(hour=since.hour + _NOON)
    return (SetHours(quiet_from=since, quiet_until=until),)


_PAIR, _NOON, _EARLIEST_NIGHT = 2, 12, 6
_HOURS, _MINUTES, _HUNDRED = 24, 60, 100


def _hour_of(meaning: object) -> time | None:
    if isinstance(meaning, Clock):
        return meaning.time
    if isinstance(meaning, Count):
        value = float(meaning.value)
        minutes = round((value - int(value)) * 100)
        if value >= _HUNDRED and value == int(value):
            value, minutes = divmod(int(value), _HUNDRED)
        if 0 <= value < _HOURS and 0 <= minutes < _MINUTES:
            return time(int(value), minutes)
    return None


def place(told: Mentions) -> Filled:
    """Fill which way a place looks, or when it has sun: the place named, else the one asked about."""
    asked = next(
        (one for choice in told.situation.choices for one in choice.commands if isinstance(one, SetPlace)),
        None,
    )
    named = next((one.meaning for one in told.items if told.is_named_in_full(one)), None) or told.one(Place)
    is_window = asked is not None and not any(told.is_named_in_full(one) for one in told.items)
    identity = asked.place_id if asked and is_window else named.id if isinstance(named, Place) else None
    if identity is None:
        return None
    words = tuple(word for item in told.items for word in item.text.split())
    facets = facets_in(words)
    if facets is None:
        return None
    facing, outdoors = facets
    name = next(one.name for one in told.situation.places if one.id == identity)
    has_lamp = LAMP.search(" ".join(words)) is not None
    return (SetPlace(name=name, place_id=identity, facing=facing, outdoors=outdoors, has_lamp=has_lamp),)


def skip(told: Mentions) -> Filled:
    """Pass over the open question of the setting-up."""
    return None if told.situation.expecting is Expecting.NOTHING else (SkipQuestion(),)


def _named(told: Mentions) -> tuple[PlantId, ...]:
    """Give plants named or pointed at, never those of a whole place: what is moved, lost, put apart."""
    plants, left = told.sides()
    if not plants and (told.has(Word.IT, Word.THEM, Word.BOTH) or len(told.setting.before) == 1):
        plants = told.setting.before or told.situation.spoken
    return tuple(plant for plant in plants if plant not in left)


def plainly(command: Command, _told: Mentions) -> Filled:
    """Give what needs nothing."""
    return (command,)


SIMPLE: dict[str, Command] = {
    "walk": BeginWalk(),
    "work": BeginWork(),
    "endwork": EndWork(),
    "endwalk": EndWalk(),
    "help": Help(),
    "invite": Invite(),
    "export": Export(),
}
