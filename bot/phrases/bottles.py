"""What stands on a bottle: "got soap, concentrate, 49 %", "the neem label says 2 to 5 ml per litre"."""

import re
from dataclasses import dataclass, field
from decimal import Decimal

from bot.actions.action import ButtonText, Choice
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.situation import Situation
from bot.actions.stock_product import StockProduct
from bot.domain.label import Label
from bot.domain.trade import Form
from bot.domain.value import replace
from bot.phrases.asking import Meant
from bot.phrases.days import Every, when_at
from bot.phrases.lexicon import listed, phrase_at
from bot.phrases.names import Product, ingredient_of, names_of
from bot.phrases.numbers import Volume, measure_at, number_at
from bot.phrases.rates import percent_at, rate_at, tells_a_rate

_AROUND = listed(
    "got bought have i we my our the a an some bottle of label says say is it at with on and , . : ! - for"
    " strength active ingredient content product has contains holds concentrated rate dose in new use"
    " today yesterday just now packet pack container can tin spray reads stands written there are needs wants"
    " maximum max most least only up to than more no repeat again apply allowed can be may ( ) new also which"
    " that labelled labeled meant ordered purchased picked from shop store dosage dilution mixing"
    " one must should do does and here its keep keeps"
)
SUBSTANCES = listed("granules liquid powder")
"""What is in a package, said behind a product's name."""
_TOLD_OF_A_LABEL = listed(
    "label says say is has strength contains holds got bought have rate dose : bottle packet reads stands"
    " purchased written ordered max maximum apply repeat allowed"
)
_UNITS_OF_USE = listed("use uses time times application applications spray sprays treatment treatments x")
_PER_YEAR = frozenset({("a", "year"), ("per", "year"), ("a", "season"), ("per", "season"), ("each", "year")})
_BEFORE_EATING = frozenset({"harvest", "harvesting", "eating", "picking"})
_EDIBLE = listed("edible edibles food vegetables herbs fruit veg")
_INDOOR = listed("indoor indoors houseplant houseplants inside")
_OUTDOOR = listed("outdoor outdoors outside garden")
_AFTER_A_USE = listed("plants plant crops use ok okay allowed too only safe fine")
_NO = listed("not no never")
_BEHIND_NOT = listed("for on to be used allowed safe ok")
_PER_WORDS = listed("every each once weekly year season harvest eating")
_MAY_BE_A_LABEL = (_TOLD_OF_A_LABEL - {"is", "has", "says"}) | _EDIBLE | _INDOOR | _OUTDOOR | _PER_WORDS
_NOT_A_LABEL = listed("mix make dilute recipe mixing brew prepare how sprayed treated used")
_MOST_PERCENT = 100


@dataclass(slots=True)
class _Bottle:
    product: Product | None = None
    volume: Decimal | None = None
    rates: list[Decimal] = field(default_factory=list)
    percents: list[Decimal] = field(default_factory=list)
    label: Label = field(default_factory=Label)

    @property
    def has_rules(self) -> bool:
        """Whether any rule of use was told."""
        return bool(set(self.label.facts()) - {"form", "gap_days", "most_ml_per_l"})

    def tell(self, **facts: object) -> None:
        """Keep more of its label."""
        self.label = replace(self.label, **facts)  # type: ignore[arg-type]


def read_bottle(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read what a label says, in one piece; None where nothing of it is told, or something else too."""
    words = _usual(words)
    if frozenset(words) & _NOT_A_LABEL or "?" in words:
        return None
    if not tells_a_rate(words) and not frozenset(words) & _MAY_BE_A_LABEL:
        return None
    bottle = _taken(words, situation)
    if bottle is None:
        return None
    if bottle.volume is not None and not frozenset(words) & _TOLD_OF_A_LABEL:
        return None  # "5 ml per litre for 2 l of neem" asks for a mixture
    if len(bottle.rates) > 1 or len(bottle.percents) > 1 or not _tells_enough(bottle):
        return None
    if any(not 0 < percent <= _MOST_PERCENT for percent in bottle.percents):
        return None
    return _told(bottle, words, situation)


def is_of_a_bottle(words: tuple[str, ...], situation: Situation) -> bool:
    """Whether a message is of a product and its label to the last word."""
    bottle = _taken(_usual(words), situation)
    return bottle is not None and bottle.product is not None


def _taken(words: tuple[str, ...], situation: Situation) -> _Bottle | None:
    """Take all that is told of a bottle; None where a word is of something else."""
    bottle = _Bottle()
    at = 0
    while at < len(words):
        size = _take(words, at, bottle, situation)
        if size == 0:
            return None
        at += size
    return bottle


def _tells_enough(bottle: _Bottle) -> bool:
    """Whether it is a label's: a rate, a strength or a rule, or two facts of a named product."""
    facts = (bottle.label.form, bottle.label.gap_days, bottle.volume)
    is_sure = bool(bottle.rates or bottle.percents) or bottle.has_rules
    is_bare = bottle.product is None and bottle.label.gap_days is not None and bottle.volume is None
    return is_sure or is_bare or (bottle.product is not None and any(fact is not None for fact in facts))


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
    bottle.tell(most_ml_per_l=high[0])
    return True


def _take_a_rule(words: tuple[str, ...], at: int, bottle: _Bottle) -> int:
    """Take "max 4 a year", "3 days before harvest", "not for edibles", "indoors only"; 0 for none of them."""
    number = number_at(words, at) if words[at] not in {"a", "an"} else None
    if number is not None and number[0] == int(number[0]):
        return _take_a_number(int(number[0]), words, at, at + number[1], bottle)
    is_no = words[at] in _NO
    start = at + is_no
    while is_no and start < len(words) and words[start] in _BEHIND_NOT:
        start += 1
    if words[start : start + 1] == () or words[start] not in _EDIBLE | _INDOOR | _OUTDOOR:
        return 0
    end = start + 1
    is_food = words[start] in _EDIBLE
    while end < len(words) and words[end] in _AFTER_A_USE | (
        _EDIBLE | {"or", ","} if is_food else frozenset()
    ):
        end += 1
    if words[start] in _EDIBLE:
        bottle.tell(is_for_edibles=not is_no)
    elif words[start] in _INDOOR:
        bottle.tell(is_for_indoors=not is_no)
    elif "only" in words[max(0, start - 2) : end]:
        bottle.tell(is_for_indoors=False)
    else:
        return 0
    return end - at


def _take_a_number(number: int, words: tuple[str, ...], at: int, behind: int, bottle: _Bottle) -> int:
    """Take "4 uses a year", "3 days before harvest"; 0 for any other number."""
    uses_at = behind + (words[behind : behind + 1] != () and words[behind] in _UNITS_OF_USE)
    if words[uses_at : uses_at + 2] in _PER_YEAR:
        bottle.tell(uses_a_year=number)
        return uses_at + 2 - at
    is_most = bool({"max", "maximum", "most"} & frozenset(words[max(0, at - 2) : at]))
    if is_most and uses_at > behind and words[uses_at : uses_at + 1] in {(), (",",), (".",)}:
        bottle.tell(uses_a_year=number)  # of no more than a season: the year is the careful side
        return uses_at - at
    is_days = words[behind : behind + 1] in {("day",), ("days",)}
    if is_days and words[behind + 1 : behind + 2] in {("before",), ("until",), ("to",)}:
        end = behind + 2 + (words[behind + 2 : behind + 3] == ("the",))
        if words[end : end + 1] != () and words[end] in _BEFORE_EATING:
            bottle.tell(harvest_days=number)
            return end + 1 - at
    return 0


def _take_the_rest(words: tuple[str, ...], at: int, bottle: _Bottle, situation: Situation) -> int:
    rule = _take_a_rule(words, at, bottle)
    if rule:
        return rule
    measured = measure_at(words, at, situation.units)
    if measured is not None and isinstance(measured[0], Volume):
        bottle.volume = measured[0].ml
        return measured[1]
    every = when_at(words, at, situation)
    if every is not None and isinstance(every[0], Every) and every[0].days:
        bottle.tell(gap_days=every[0].days)
        return every[1]
    named = names_of(situation).exact_at(words, at)
    if named is not None and isinstance(named[0], Product) and bottle.product in {None, named[0]}:
        bottle.product = named[0]
        return named[1]
    phrase = phrase_at(words, at)
    if phrase is not None and isinstance(phrase[0], Form):
        bottle.tell(form=phrase[0])
        return phrase[1]
    return int(words[at] in _AROUND or words[at] in SUBSTANCES)


_SAID_OTHERWISE = tuple(
    (re.compile(pattern), usual)
    for pattern, usual in (
        (r"\bonce (?:a|per) week\b", "every 7 days"),
        (
            r"\b(?:every |q ?)(\d+)(?: (?:to|-|or) \d+)? d(?:ays?)?\b",
            r"every \1 days",
        ),  # the least it asks for
        (r"/ ?(?:yr|year|season)\b", "a year"),
        (r"^((?:the )?label says|it says|it says on the label) (?=\d+ days?$)", r"\1 every "),
        (r"\beach (?=\d+ days?\b|two weeks\b|week\b)", "every "),
        (
            (
                r"\b(?:not?|never|nuh|off)(?: (?!before|until|till|within|for|less)[a-z']+){0,9}? "
                r"(?:eat|eats|eaten|ate|eating|eatin)\b"
            ),
            "not for edibles",
        ),
    )
)


def _usual(words: tuple[str, ...]) -> tuple[str, ...]:
    """Say "each 7 d", "once a week", "off what one eats" as most labels do."""
    said = " ".join(words)
    for pattern, usual in _SAID_OTHERWISE:
        said = pattern.sub(usual, said)
    return tuple(said.split(" "))


def _told(bottle: _Bottle, words: tuple[str, ...], situation: Situation) -> Meant | None:
    told = StockProduct(
        ingredient="",
        stock_ml=None if bottle.volume is None else round(float(bottle.volume), 2),
        label=replace(
            bottle.label,
            rate_ml_per_l=bottle.rates[0] if bottle.rates else None,
            strength_percent=bottle.percents[0] if bottle.percents else None,
        ),
    )
    ingredient = None if bottle.product is None else ingredient_of(bottle.product, situation)
    is_told = (
        bool(frozenset(words) & _TOLD_OF_A_LABEL) or bottle.has_rules or bottle.label.gap_days is not None
    )
    if ingredient is not None and is_told:
        return (replace(told, ingredient=ingredient),)
    if not (bottle.rates or bottle.percents or (ingredient is None and is_told)):
        return None
    return (_ask_which(told, ingredient, situation),)


def _ask_which(told: StockProduct, ingredient: str | None, situation: Situation) -> Incomplete:
    """Offer whose label it is, where that was not said."""
    choices = []
    for known in situation.shelf:
        key = ingredient_of(Product(known.id, None), situation)
        if key is not None and ingredient in {None, key}:
            choices.append(Choice(ButtonText.LABEL_OF, (replace(told, ingredient=key),), known.names[0]))
    return Incomplete(missing=Missing.WHICH_PRODUCT, choices=tuple(choices[:8]))
