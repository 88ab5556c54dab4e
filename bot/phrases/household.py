"""Clauses about the household: shelf, temperatures, habits, absences, mixtures, new plants."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from itertools import takewhile

from bot.actions.action import ButtonText, Choice
from bot.actions.hold import Hold
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.mix_batch import Mix
from bot.actions.read_temperature import ReadTemperature
from bot.actions.stock_product import StockProduct
from bot.domain.identity import PlaceId, ProductId
from bot.domain.label import Label
from bot.domain.measure import IMPERIAL_ML, US_ML, Units
from bot.domain.trade import Form, Grade
from bot.phrases.asking import Meant, bad_day, not_understood
from bot.phrases.clause import DATES, Clause, Setting
from bot.phrases.days import Day, Every, Trouble, day_ahead, day_behind
from bot.phrases.items import Item
from bot.phrases.lexicon import Spot, Tool, Word, listed
from bot.phrases.names import Place, Product, ingredient_of
from bot.phrases.numbers import Count, UnclearVolume, Volume, Warmth

MOST_ML = 100_000
_AT_HAND = ("i have ", "we have ", "there is ", "there are ", "also have ", "i also have ")
COLDEST, HOTTEST = -40, 60
_OF_A_DAY = frozenset({"min", "minimum", "max", "maximum", "low", "lowest", "high", "highest"})
_UP_TO = frozenset({"to", "-", "\u2013", "and"})
_ENDS = 2


def read_mixture(clause: Clause, setting: Setting) -> Meant | None:
    """Read "mix 750 ml", "mix half a US gallon of neem"."""
    del setting
    kinds = (Tool, Product, Volume, UnclearVolume, Grade)
    if not clause.has(Word.MIX) or not clause.only(Word.MIX, Word.DO, *kinds):
        return None
    if clause.one(Grade) not in {None, Grade.SOME}:
        return None  # "mix some neem" leaves the volume open; "mix many" tells nothing
    product = clause.one(Product)
    if product is not None and product.id is None:
        return not_understood(clause, "shelf")
    chosen = None if product is None else product.id
    unclear, volume = clause.one(UnclearVolume), clause.one(Volume)
    if unclear is not None:
        return (_ask_which_measure(unclear, chosen),)
    if volume is None:
        return (Incomplete(missing=Missing.AMOUNT, text="volume"),)
    if not 0 < volume.ml <= MOST_ML:
        return not_understood(clause, "count")
    return (_mix(volume.ml, chosen),)


def _ask_which_measure(unclear: UnclearVolume, product: ProductId | None) -> Incomplete:
    systems = {ButtonText.US_MEASURE: US_ML, ButtonText.IMPERIAL_MEASURE: IMPERIAL_ML}
    choices = tuple(
        Choice(text, (_mix(unclear.amount * system[unclear.unit], product),), unclear.unit)
        for text, system in systems.items()
    )
    return Incomplete(missing=Missing.AMOUNT, text=unclear.unit, choices=choices)


def _mix(ml: Decimal, product: ProductId | None) -> Mix:
    return Mix(volume_ml=float(ml), product=product)


def read_stock(clause: Clause, setting: Setting) -> Meant | None:
    """Read "got neem, ready to use, every 7 days", and what a next clause adds: "label says every 7 days"."""
    used_up = _used_up(clause, setting)
    if used_up is not None:
        return (StockProduct(ingredient=used_up, stock_ml=0),)
    several = _several_products(clause, setting)
    if several:
        return several
    product = clause.one(Product)
    ingredient = _stocked(clause, product, setting)
    words = (Word.GOT, Word.LABEL, Word.NEW, Word.IT_IS, Word.IT, Word.LEFT)
    if ingredient is None or not clause.only(*words, Product, Form, Every, Volume, Tool):
        return None
    every, volume = clause.one(Every), clause.one(Volume)
    if every is not None and every.days is None:
        return not_understood(clause, "shelf")
    return (
        StockProduct(
            ingredient=ingredient,
            label=Label(form=clause.one(Form), gap_days=None if every is None else every.days),
            stock_ml=None if volume is None else round(float(volume.ml), 2),
        ),
    )


def _used_up(clause: Clause, setting: Setting) -> str | None:
    """Read "no soap left", "out of neem": which product is at its end."""
    product = clause.one(Product)
    is_none_left = clause.has(Word.NOT) and clause.has(Word.LEFT)
    if product is None or product.id is None or not (clause.has(Word.EMPTY) or is_none_left):
        return None
    is_only_that = clause.only(Product, Word.EMPTY, Word.NOT, Word.LEFT, Word.IT_IS, Word.HAD)
    return ingredient_of(product, setting.situation) if is_only_that else None


def _several_products(clause: Clause, setting: Setting) -> Meant | None:
    """Read "i have neem and alcohol": each of them, of which nothing more is told."""
    products = clause.every(Product)
    is_told = clause.has(Word.GOT) or clause.text().startswith(_AT_HAND)
    if len(products) <= 1 or not is_told or not all(_is_only_named(item) for item in clause.content()):
        return None
    keys = [ingredient_of(product, setting.situation) for product in products]
    return tuple(StockProduct(ingredient=key) for key in dict.fromkeys(keys) if key is not None)


def _is_only_named(meaning: object) -> bool:
    return meaning is Word.GOT or isinstance(meaning, Product)


def _stocked(clause: Clause, product: Product | None, setting: Setting) -> str | None:
    """Give the ingredient that is told to be at hand, None where none is."""
    if product is None:
        is_more = clause.has(Word.LABEL) or bool(clause.every((Form, Every, Volume)))
        return setting.stocked if is_more else None
    is_at_hand = clause.text().startswith(_AT_HAND) and clause.only(Product, Form, Volume)
    is_next = setting.stocked is not None and clause.only(Product, Form, Volume, Every)
    if not (is_at_hand or is_next or clause.has(Word.GOT, Word.LABEL, Word.NEW)):
        return None
    return ingredient_of(product, setting.situation)


def read_temperature(clause: Clause, setting: Setting) -> Meant | None:
    """Read "kitchen is 24 degrees"."""
    place = clause.one(Place)
    known = (Place, Warmth, Count, Word.FILL_TO, Word.IT_IS, Word.IT, Word.HAD, *DATES)
    if place is None or not clause.every(Warmth) or not clause.only(*known):
        return None
    read = warmths(clause.items, setting.situation.units)
    if len(read) != len(clause.every((Warmth, Count))):
        return None
    if not all(COLDEST <= celsius <= HOTTEST for celsius in read):
        return not_understood(clause, "temperature")
    day = clause.day()
    on: date | Trouble | None = None if day is None else day_behind(day, setting.situation)
    if isinstance(on, Trouble):
        return bad_day(clause, on)
    return (read_as(place.id, read, on),)


def warmths(items: Sequence[Item], units: Units) -> list[float]:
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
    if len(numbers) != _ENDS:
        return False
    between = texts[numbers[0] + 1 : numbers[1]]
    return bool(_OF_A_DAY & set(texts)) or (len(between) == 1 and between[0] in _UP_TO)


def read_as(place: PlaceId, read: Sequence[float], on: date | None) -> ReadTemperature:
    """Make a reading of one temperature, or of a day's lowest and highest. [degC]."""
    if len(read) == 1:
        return ReadTemperature(place, read[0], on)
    low, high = sorted(read)
    return ReadTemperature(place, round((low + high) / 2, 1), on, low=low, high=high)


def read_absence(clause: Clause, setting: Setting) -> Meant | None:
    """Read "away until 20 may", "stop", "i am back"."""
    is_back = clause.only(Word.BACK) and setting.situation.is_held
    if is_back or (clause.has(Word.RESUME) and clause.only(Word.RESUME)):
        return (Hold(setting.situation.today),)
    if clause.has(Word.AWAY) and len(clause.every(DATES)) > 1:
        return _span(clause, setting) or not_understood(clause, "away later")
    if not clause.has(Word.AWAY, Word.STOP) or not clause.only(Word.AWAY, Word.STOP, Word.UNTIL, *DATES):
        return None
    day = clause.day()
    if day is None:
        return _without_end(clause)
    if day == Day(setting.situation.today):
        return None
    until = day_ahead(day, setting.situation)
    return bad_day(clause, until) if isinstance(until, Trouble) else (Hold(until),)


def _span(clause: Clause, setting: Setting) -> Meant | None:
    """Read a trip told with both its ends."""
    told = [item.meaning for item in clause.items if isinstance(item.meaning, DATES)]
    match [day_ahead(day, setting.situation) for day in told]:
        case [date() as since, date() as until] if since < until:
            return (Hold(until, since=since),)
        case _:
            return None


def _without_end(clause: Clause) -> Meant | None:
    if clause.has(Word.UNTIL):
        return None
    is_plain = clause.has(Word.STOP) or clause.text() in {"hold", "pause"}
    return (Hold(),) if is_plain else (Incomplete(missing=Missing.WHEN, text=clause.text()),)


_BEHIND_A_NAME = listed("just arrived came in on at from for")


def read_arrival(clause: Clause, setting: Setting) -> Meant | None:
    """Read "got a new orchid": which plant it is and where it stands is asked."""
    del setting
    meanings = [item.meaning for item in clause.items]
    if Word.NEW not in meanings or Word.HEDGE in meanings or Word.NOT in meanings:
        return None
    if any(isinstance(meaning, Spot) for meaning in meanings) or clause.content()[0] not in {
        Word.NEW,
        Word.SAW,
        Word.GOT,
    }:
        return None
    behind = clause.items[meanings.index(Word.NEW) + 1 :]
    behind = tuple(takewhile(lambda item: not frozenset(item.text.split()) & _BEHIND_A_NAME, behind))
    kind = " ".join(item.text for item in behind if not isinstance(item.meaning, Day))
    return (Incomplete(missing=Missing.ADD, text=kind),) if kind else None
