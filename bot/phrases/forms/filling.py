"""What fills a form from what a message names; None where it lacks something it needs."""

from datetime import timedelta

from bot.actions.ask import Ask, Topic
from bot.actions.command import Command
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
from bot.actions.set_routine import SetRoutine
from bot.actions.set_traits import SetTraits
from bot.actions.share import Invite
from bot.actions.stock_product import StockProduct
from bot.actions.undo import Undo
from bot.actions.walk_through import BeginWalk, EndWalk, PassPlant
from bot.actions.work_through import BeginWork, EndWork, TickWork
from bot.domain.identity import PlantId
from bot.domain.measure import Units
from bot.domain.pest import Level
from bot.domain.trade import Form as Shape
from bot.domain.trade import Grade, Sign
from bot.phrases.asking import ask_amount
from bot.phrases.clause import DATES
from bot.phrases.days import Clock, Day, Every, Period, Trouble, Weekday, evening_hour
from bot.phrases.labels import animals_named, traits_named
from bot.phrases.lexicon import Spot, Word
from bot.phrases.mentions import Mentions
from bot.phrases.names import Pest, Place, Product
from bot.phrases.numbers import Count, Length, Volume, Warmth

_TREATED = frozenset({"leaf", "underside", "stem"})
Filled = tuple[Command, ...] | None
_MOST_WARM, _LEAST_WARM = 45, -10
_BYDAY = ("MO", "TU", "WE", "TH", "FR", "SA", "SU")


def done(told: Mentions) -> Filled:
    """Fill a treatment: plants named, or tonight's; what was done, with what, when."""
    plants = told.plants()
    _, left = told.sides()
    if _is_not_told(told) or told.every(Count) or any(spot.name not in _TREATED for spot in told.every(Spot)):
        return None
    method = told.method()
    if not plants:
        is_whole = told.has(Word.ALL, Word.THEM, Word.BOTH, Word.EXCEPT) or not told.has_stranger()
        if told.every(Place) or told.has(Word.REST) or not is_whole:
            return None
        asked = told.situation.tonight
        plants = tuple(
            one.plant
            for one in asked
            if one.method is not None and one.plant not in left and method in {None, one.method}
        )
    on, product = told.behind(), told.one(Product)
    if not plants or isinstance(on, Trouble) or (product is not None and product.id is None):
        return None
    if told.every(Product) and product is None:
        return None
    if method is None and not set(plants) <= set(told.setting.treatments()):
        return None
    at = told.hour(latest=8)
    is_ahead = at is not None and at > told.situation.now
    identity = None if product is None else product.id
    return (
        None
        if is_ahead
        else (LogRound(plants=plants, method=method, product=identity, on=None if at else on, at=at),)
    )


def _is_not_told(told: Mentions) -> bool:
    """Whether what it speaks of was denied, is only wished, or is of a plant nobody knows."""
    return told.is_denied() or told.is_ahead() or told.names_no_plant_known() or told.names_another()


def find(told: Mentions) -> Filled:
    """Fill what was seen alive: each plant with its number."""
    on = told.behind()
    if isinstance(on, Trouble):
        return None
    spot = told.one(Spot)
    where = None if spot is None else spot.name
    found: list[Command] = []
    pairs = list(told.counted())
    if not pairs and len(plants := told.plants()) == 1:
        counts, grades, pest = told.every(Count), told.every(Grade), told.one(Pest)
        value: int | Grade | None = None
        if len(counts) + len(grades) == 1:
            value = grades[0] if grades else int(counts[0].value)
        pairs = [(value, None if pest is None else pest.key, plants)]
    for amount, key, group in pairs:
        if amount is None:
            if len(pairs) > 1 or (key is None and not told.has(Word.BUGS)):
                return None
            found.append(ask_amount(group, key, on))
        elif isinstance(amount, Grade):
            found.append(LogFind(plants=group, grade=amount, pest=key, where=where, on=on))
        elif amount == 0 or len(group) > 1:
            return None
        else:
            found.append(LogFind(plants=group, count=amount, pest=key, where=where, on=on))
    return tuple(found) or None


def sign(told: Mentions) -> Filled:
    """Fill a trace seen."""
    plants, seen, on = told.plants(), told.one(Sign), told.behind()
    return (
        None
        if not plants or seen is None or isinstance(on, Trouble)
        else (LogSign(plants=plants, sign=seen, on=on),)
    )


def none(told: Mentions) -> Filled:
    """Fill a look with nothing found: plants named, or those that were to be looked at."""
    plants, on = told.plants(), told.behind()
    if not plants and told.names_no_plant_known():
        return None
    if not plants and not told.every(Place):
        out = {*told.sides()[1], *told.situation.found_today}
        plants = tuple(plant for plant in told.setting.looks() if plant not in out)
    if not plants or isinstance(on, Trouble) or told.every((Count, Grade)):
        return None
    return (LogCheck(plants=plants, level=told.one(Level), on=on),)


def later(told: Mentions) -> Filled:
    """Fill what is put off: plants named or all of tonight, till when."""
    named, left = told.sides()
    plants = told.plants() or (() if told.every(Place) else told.setting.tonight())
    plants = tuple(plant for plant in plants if plant not in left)
    if not plants or (not named and told.names_no_plant_known()):
        return None
    at = told.hour(latest=12)
    if at is not None:
        local = at.astimezone(told.situation.zone)
        is_tonight = at > told.situation.now and local.date() == told.situation.today
        is_awake = local.hour < told.situation.quiet_from_hour
        if is_tonight and is_awake:
            return (Postpone(plants=plants, at=at),)
        return (Postpone(plants=plants, on=told.situation.today + timedelta(days=1)),)
    on = told.ahead()
    tomorrow = told.situation.today + timedelta(days=1)
    if Day(told.situation.today) in told.every(Day) and len(told.every(DATES)) == 1:
        on = tomorrow  # "not today"
    if isinstance(on, Trouble) or told.words & {"was", "were"}:
        return None
    return (Postpone(plants=plants, on=on or tomorrow),)


def isolate(told: Mentions) -> Filled:
    """Fill plants put apart, and where to."""
    plants, on, place = _named(told), told.behind(), told.one(Place)
    if not plants or isinstance(on, Trouble) or told.is_denied():
        return None
    apart = Isolate(plants, on)
    return (apart,) if place is None else (apart, MovePlant(plants, place.id, on))


def stays(told: Mentions) -> Filled:
    """Fill plants that cannot be moved."""
    plants = _named(told) or told.setting.before
    return (Isolate(plants, apart=False),) if plants else None


def move(told: Mentions) -> Filled:
    """Fill plants taken to a place; the last place named is where they went."""
    plants, on, places = _named(told), told.behind(), told.every(Place)
    if not plants or isinstance(on, Trouble) or not places or _is_not_told(told):
        return None
    return (MovePlant(plants, places[-1].id, on),)


def release(told: Mentions) -> Filled:
    """Fill plants back from isolation."""
    plants, on = _named(told), told.behind()
    if not plants or isinstance(on, Trouble) or told.is_denied():
        return None
    return (ReleasePlant(plants=plants, on=on, confirmed=told.has(Word.ANYWAY)),)


def lost(told: Mentions) -> Filled:
    """Fill plants that died or were thrown out."""
    plants, on = _named(told), told.behind()
    is_told = not isinstance(on, Trouble) and not _is_not_told(told)
    return (LosePlant(plants, on),) if plants and is_told and not isinstance(on, Trouble) else None


def stock(told: Mentions) -> Filled:
    """Fill a product put on the shelf with what its label says."""
    products = list(dict.fromkeys(told.every(Product)))
    every, volume = told.one(Every), told.one(Volume)
    if len(products) > 1:
        keys = [key for one in products if (key := _key(told, one))]
        return tuple(StockProduct(ingredient=key) for key in dict.fromkeys(keys))
    key = told.ingredient() or told.setting.stocked
    if key is None:
        return None
    is_empty = told.has(Word.EMPTY, Word.GONE) or (told.has(Word.NOT) and told.has(Word.LEFT))
    return (
        StockProduct(
            ingredient=key,
            form=told.one(Shape),
            gap_days=None if every is None else every.days,
            stock_ml=0 if is_empty else None if volume is None else float(volume.ml),
        ),
    )


def _key(told: Mentions, product: Product) -> str | None:
    if product.ingredient:
        return product.ingredient
    return Mentions(tuple(i for i in told.items if i.meaning == product), told.setting).ingredient()


def temperature(told: Mentions) -> Filled:
    """Fill how warm a place is; a bare number counts in the household's degrees."""
    place, warmth, count, on = told.one(Place), told.one(Warmth), told.one(Count), told.behind()
    if place is None or isinstance(on, Trouble) or (warmth is None and count is None):
        return None
    if warmth is not None:
        celsius = float(warmth.celsius)
    else:
        value = float(count.value) if count is not None else 0.0
        celsius = round((value - 32) / 1.8, 1) if told.situation.units is Units.US else value
    return (ReadTemperature(place.id, celsius, on),) if _LEAST_WARM <= celsius <= _MOST_WARM else None


def hold(told: Mentions) -> Filled:
    """Fill an absence, a silence, or the coming back."""
    if told.words & {"back", "home", "resume", "returned"} and not told.has(Word.UNTIL, Word.AWAY):
        return (Hold(told.situation.today),)
    until = told.ahead()
    return None if isinstance(until, Trouble) else (Hold(until),)


def routine(told: Mentions) -> Filled:
    """Fill a habit of looking: on which day of the week."""
    every, days = told.one(Every), told.every(Weekday)
    if every is not None and every.weekday is not None:
        days = [Weekday(every.weekday), *days]
    if len(days) > 1:
        named = ",".join(_BYDAY[index] for index in sorted({day.index for day in days}))
        return (SetRoutine("check", f"FREQ=WEEKLY;BYDAY={named}"),)
    day = days[0] if days else None
    if every is not None:
        return (SetRoutine("check", every.rule),)
    return (SetRoutine("check", f"FREQ=WEEKLY;BYDAY={_BYDAY[day.index]}"),) if day is not None else None


def mix(told: Mentions) -> Filled:
    """Fill a mixture asked for."""
    volume, product = told.one(Volume), told.one(Product)
    if product is not None and product.id is None:
        return None
    identity = None if product is None else product.id
    if volume is None:
        return (Mix(volume_ml=None, product=identity, is_for_tonight=True),)
    return (Mix(volume_ml=float(volume.ml), product=identity),)


def use(told: Mentions) -> Filled:
    """Fill how much an evening took."""
    volume, on = told.one(Volume), told.behind()
    return None if volume is None or isinstance(on, Trouble) else (LogUse(ml=volume.ml, on=on),)


def pot(told: Mentions) -> Filled:
    """Fill a pot's width; pots are set one plant at a time by the same words as in a list."""
    from bot.actions.set_pot import SetPot  # noqa: PLC0415 - beside the only use

    plants, width = () if told.names_another() else _named(told), told.one(Length)
    return (SetPot(plants, float(width.cm)),) if plants and width is not None else None


def animals(told: Mentions) -> Filled:
    """Fill the animals that live here."""
    kinds = animals_named(told.words)
    return (SetAnimals(kinds),) if kinds else None


def tell(told: Mentions) -> Filled:
    """Fill what a plant is."""
    plants, traits = _named(told), traits_named(told.words)
    if not plants or len(traits) != 1:
        return None
    return (SetTraits(plants, f"not-{traits[0]}" if told.has(Word.NOT) else traits[0]),)


def undo(_told: Mentions) -> Filled:
    """Take back."""
    return (Undo(),)


def correct_plant(told: Mentions) -> Filled:
    """Fill which plant was meant: the last named."""
    plants, left = told.sides()
    right = [plant for plant in plants if plant not in left]
    return (Correct(plant=right[0]),) if len(right) == 1 else None


def correct_pest(told: Mentions) -> Filled:
    """Fill which pest it is; one denied is not it."""
    pests = [
        item.meaning
        for at, item in enumerate(told.items)
        if isinstance(item.meaning, Pest) and not _is_denied(told, at)
    ]
    keys = list(dict.fromkeys(pest.key for pest in pests))
    plants = told.plants()
    if len(keys) != 1 or len(plants) > 1:
        return None
    return (Correct(plant=plants[0] if plants else None, pest=keys[0]),)


def correct_count(told: Mentions) -> Filled:
    """Fill the right number; one denied is not it."""
    counts = [
        item.meaning
        for at, item in enumerate(told.items)
        if isinstance(item.meaning, Count) and not _is_denied(told, at)
    ]
    plants = told.plants()
    if len(counts) != 1 or len(plants) > 1 or counts[0].value != int(counts[0].value):
        return None
    return (Correct(plant=plants[0] if plants else None, count=int(counts[0].value)),)


def _is_denied(told: Mentions, at: int) -> bool:
    before = told.items[max(0, at - 1) : at]
    return any(item.meaning is Word.NOT for item in before)


def hours_evening(told: Mentions) -> Filled:
    """Fill the evening's hour."""
    clock, count = told.one(Clock), told.one(Count)
    if clock is not None:
        return (SetHours(evening=evening_hour(clock.time)),)
    if count is None or count.value != int(count.value) or not 1 <= count.value <= 23:  # noqa: PLR2004 - a clock's hours
        return None
    from datetime import time  # noqa: PLC0415

    return (SetHours(evening=evening_hour(time(int(count.value)))),)


def tick(told: Mentions) -> Filled:
    """Fill what is left out of the stage that is done."""
    return (TickWork(but=told.sides()[1] or (told.sides()[0] if told.is_denied() else ())),)


def passed(told: Mentions) -> Filled:
    """Pass the plant that the walk asks about."""
    for choice in told.situation.choices:
        for command in choice.commands:
            if isinstance(command, PassPlant):
                return (command,)
    return None


def ask(topic: Topic, told: Mentions) -> Filled:
    """Fill a question with the plants, product and time it names."""
    period, product, place = told.one(Period), told.one(Product), told.one(Place)
    plants = told.sides()[0] if topic not in _OF_ALL else ()
    when = None if period is None else period.name
    if topic is Topic.DUE and when is None and "tomorrow" in told.words:
        when = "tomorrow"
    if topic is Topic.LOG and "yesterday" in told.words:
        when = "yesterday"
    of_stock = topic is Topic.STOCK and product is not None
    return (
        Ask(
            topic=topic,
            plants=plants,
            place=place.id if place is not None and topic is Topic.SUN else None,
            product=product.id if of_stock and product is not None else None,
            when=when if topic in {Topic.DUE, Topic.LOG} else None,
        ),
    )


_OF_ALL = frozenset(
    {Topic.DUE, Topic.ISOLATED, Topic.STOCK, Topic.SETTINGS, Topic.ROUTINES, Topic.MEMBERS, Topic.PLANTS}
)


def _named(told: Mentions) -> tuple[PlantId, ...]:
    """Give plants named or pointed at, never those of a whole place: what is moved, lost, put apart."""
    plants, left = told.sides()
    if not plants and (told.has(Word.IT, Word.THEM, Word.BOTH) or len(told.setting.before) == 1):
        plants = told.setting.before
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
    "ask.pest": Identify(),
}
