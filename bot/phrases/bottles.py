"""What stands on a bottle: "got soap, concentrate, 49 %", "the neem label says 2 to 5 ml per litre"."""

from dataclasses import dataclass, field, replace
from decimal import Decimal

from bot.actions.button_texts import ButtonText
from bot.actions.commands import Choice, Incomplete, Missing, StockProduct
from bot.actions.situation import Situation
from bot.domain.trade import Form
from bot.phrases.asking import Meant
from bot.phrases.days import Every, when_at
from bot.phrases.names import Product, ingredient_of, names_of
from bot.phrases.numbers import Volume, measure_at, number_at
from bot.phrases.rates import percent_at, rate_at, tells_a_rate
from bot.phrases.words import listed, phrase_at

_AROUND = listed(
    "got bought have i we my our the a an some bottle of label says say is it at with on and , . : ! - for"
    " strength active ingredient content product has contains holds concentrated rate dose in new use"
)
_TOLD_OF_A_LABEL = listed("label says say is has strength contains holds got bought have rate dose :")
_NOT_A_LABEL = listed("mix make dilute recipe mixing brew prepare how sprayed treated used")
_MOST_PERCENT = 100


@dataclass(slots=True)
class _Bottle:
    product: Product | None = None
    form: Form | None = None
    gap_days: int | None = None
    volume: Decimal | None = None
    rates: list[Decimal] = field(default_factory=list)
    percents: list[Decimal] = field(default_factory=list)
    most: Decimal | None = None


def read_bottle(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read what a label says of a rate or a strength; None where neither is told, or something else too."""
    if frozenset(words) & _NOT_A_LABEL or "?" in words or not tells_a_rate(words):
        return None
    bottle = _Bottle()
    at = 0
    while at < len(words):
        size = _take(words, at, bottle, situation)
        if size == 0:
            return None
        at += size
    if bottle.volume is not None and not frozenset(words) & _TOLD_OF_A_LABEL:
        return None  # "5 ml per litre for 2 l of neem" asks for a mixture
    if len(bottle.rates) + len(bottle.percents) == 0 or len(bottle.rates) > 1 or len(bottle.percents) > 1:
        return None
    if any(not 0 < percent <= _MOST_PERCENT for percent in bottle.percents):
        return None
    return _told(bottle, words, situation)


def _take(words: tuple[str, ...], at: int, bottle: _Bottle, situation: Situation) -> int:
    """Take what begins here and give its length in words, 0 where it means nothing here."""
    low = number_at(words, at)
    if low is not None and words[at + low[1] : at + low[1] + 1] in {("to",), ("-",)}:
        high = rate_at(words, at + low[1] + 1, situation.units)
        if high is not None and low[0] > 0:
            return (
                0 if not _range(bottle, low[0], words, at + low[1] + 1, situation) else low[1] + 1 + high[1]
            )
    rate = rate_at(words, at, situation.units)
    if rate is not None:
        bottle.rates.append(rate[0])
        return rate[1]
    percent = percent_at(words, at)
    if percent is not None:
        bottle.percents.append(percent[0])
        return percent[1]
    return _take_the_rest(words, at, bottle, situation)


def _range(bottle: _Bottle, low: Decimal, words: tuple[str, ...], at: int, situation: Situation) -> bool:
    """Keep a range of rates: the plan takes the lower, the label allows the upper."""
    high, number = rate_at(words, at, situation.units), number_at(words, at)
    if high is None or number is None or number[0] <= 0 or low > number[0]:
        return False
    bottle.rates.append(high[0] * low / number[0])
    bottle.most = high[0]
    return True


def _take_the_rest(words: tuple[str, ...], at: int, bottle: _Bottle, situation: Situation) -> int:
    measured = measure_at(words, at, situation.units)
    if measured is not None and isinstance(measured[0], Volume):
        bottle.volume = measured[0].ml
        return measured[1]
    every = when_at(words, at, situation)
    if every is not None and isinstance(every[0], Every) and every[0].days:
        bottle.gap_days = every[0].days
        return every[1]
    named = names_of(situation).exact_at(words, at)
    if named is not None and isinstance(named[0], Product) and bottle.product in {None, named[0]}:
        bottle.product = named[0]
        return named[1]
    phrase = phrase_at(words, at)
    if phrase is not None and isinstance(phrase[0], Form):
        bottle.form = phrase[0]
        return phrase[1]
    return int(words[at] in _AROUND)


def _told(bottle: _Bottle, words: tuple[str, ...], situation: Situation) -> Meant:
    told = StockProduct(
        ingredient="",
        form=bottle.form,
        gap_days=bottle.gap_days,
        stock_ml=None if bottle.volume is None else float(bottle.volume),
        rate_ml_per_l=bottle.rates[0] if bottle.rates else None,
        most_ml_per_l=bottle.most,
        strength_percent=bottle.percents[0] if bottle.percents else None,
    )
    ingredient = None if bottle.product is None else ingredient_of(bottle.product, situation)
    if ingredient is not None and frozenset(words) & _TOLD_OF_A_LABEL:
        return (replace(told, ingredient=ingredient),)
    return (_ask_which(told, ingredient, situation),)


def _ask_which(told: StockProduct, ingredient: str | None, situation: Situation) -> Incomplete:
    """Offer whose label it is, where that was not said."""
    choices = []
    for known in situation.shelf:
        key = ingredient_of(Product(known.id, None), situation)
        if key is not None and ingredient in {None, key}:
            choices.append(Choice(ButtonText.LABEL_OF, (replace(told, ingredient=key),), known.names[0]))
    return Incomplete(missing=Missing.WHICH_PRODUCT, choices=tuple(choices[:8]))
