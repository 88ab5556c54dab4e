"""
What stands on a bottle, and what a mixture of it is asked to be, by one reader of both.

"got soap, concentrate, 49 %", "the neem label says 2 to 5 ml per litre"; "2 l of neem at 0.5 %",
"1 tbsp a gallon", "1:20 for a litre", "dilute 70 % alcohol to 25 %".
"""

import re
from decimal import Decimal
from typing import TypeVar

from bot.actions.action import ButtonText, Choice
from bot.actions.courtesy import Thanks
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.mix_batch import Mix
from bot.actions.set_tools import SetTools
from bot.actions.situation import Situation
from bot.actions.stock_product import StockProduct
from bot.domain.label import Label
from bot.domain.measure import IMPERIAL_ML, METRIC_ML, US_ML, Tool
from bot.domain.mixture import Share, spray_ml
from bot.domain.trade import Form
from bot.domain.value import Value, replace
from bot.phrases.asking import Meant
from bot.phrases.days import Every, when_at
from bot.phrases.items import Read, laid_out
from bot.phrases.lexicon import each_of, listed, phrase_at
from bot.phrases.names import Plants, Product, ingredient_of, names_of
from bot.phrases.numbers import UnclearVolume, Volume, measure_at, number_at
from bot.phrases.rates import Parts, Percent, Rate, parts_at, percent_at, rate_at, tells_a_rate, unit_at

_AROUND = listed(
    "got bought have i my we our the a an some bottle of label says say is it at with on and , . : ! - for"
    " strength active ingredient content product has contains holds concentrated rate dose in new use"
    " today yesterday just now packet pack container can tin spray reads stands written there are needs wants"
    " maximum max most least only up to than more no repeat again apply allowed can be may ( ) new also which"
    " that labelled labeled meant ordered purchased picked from shop store dosage dilution mixing"
    " one must should do does and here its keep keeps both them"
)
_POINTING = listed("it its this that they both")
SUBSTANCES = listed("granules liquid powder")
"""What is in a package, said behind a product's name."""
_TOLD_OF_A_LABEL = listed(
    "label says say is has strength contains holds got bought have rate dose : bottle packet reads stands"
    " purchased written ordered max maximum apply repeat allowed"
)
_UNITS_OF_USE = "uses?|times?|applications?|sprays?|treatments?|x"
_EDIBLE = listed("edible edibles food vegetables herbs fruit veg")
_INDOOR = listed("indoor indoors houseplant houseplants inside")
_OUTDOOR = listed("outdoor outdoors outside garden")
_AFTER_A_USE = "plants|plant|crops|use|ok|okay|allowed|too|only|safe|fine"
_PER_WORDS = listed("every each once weekly year season harvest eating")
_MAY_BE_A_LABEL = (_TOLD_OF_A_LABEL - {"is", "has", "says"}) | _EDIBLE | _INDOOR | _OUTDOOR | _PER_WORDS
_NOT_A_LABEL = listed("mix make dilute recipe mixing brew prepare how sprayed treated used")
_MOST_PERCENT = 100
_MIXES = listed("mix dilute make brew recipe mixing batch prepare")
_PASSING = _MIXES | listed(
    "up a an of the for with at to into in from how do i we you can need want much many some please me my"
    " spray water solution , . ! and it is ml tonight label says say strength concentrate product active"
    " ingredient part parts per cent percent % v use using plus + our should would like now let us goes go"
)
_HINTS = _MIXES | listed(
    "% percent per / much many label strength spoon spoons syringe dropper drops pipette + part"
)
_SYRINGES = {"1": Tool.SYRINGE_1, "3": Tool.SYRINGE_3, "5": Tool.SYRINGE_5, "10": Tool.SYRINGE_10}
_TOOLS = each_of(
    ("syringe", Tool.SYRINGE),
    ("spoon | spoons | teaspoon | teaspoons", Tool.SPOON),
    ("dropper | drops | pipette", Tool.DROPPER),
)
_SETTING = {
    **{f"{size} ml syringe": tool for size, tool in _SYRINGES.items()},
    **{f"syringe of {size} ml": tool for size, tool in _SYRINGES.items()},
    **each_of(
        ("syringe | oral syringe", Tool.SYRINGE),
        ("dropper | pipette | eye dropper", Tool.DROPPER),
        ("measuring spoon | spoon | teaspoon | set of measuring spoons", Tool.SPOON),
        ("1/8 tsp | 1/8 teaspoon | 1/8 tsp spoon | 1/8 teaspoon spoon", Tool.EIGHTH_SPOON),
        ("measuring jug | jug | measuring cup | measuring beaker", Tool.JUG),
    ),
}
_AT_HAND = listed("have got bought own measure")
_NONE_OF = listed("no not without")
_AROUND_TOOLS = _AT_HAND | _NONE_OF | listed("i we a an the and also my our too with now , . ! only here")
MOST_ML = Decimal(100_000)
MOST_PLANTS = 500


class _Count(Value):
    """Plants of which only the number is told. [1]."""

    number: int


class _OneUnit(Value):
    """The litre of "how much per litre"."""

    unit: str


_Kind = TypeVar("_Kind")


class _Said(Value):
    """What a message tells of a bottle or of a mixture."""

    words: tuple[str, ...]
    meanings: tuple[object, ...]

    def all(self, kind: type[_Kind]) -> list[_Kind]:
        """Give what was told of one kind."""
        return [one for one in self.meanings if isinstance(one, kind)]

    def has(self, *words: str) -> bool:
        """Whether one of these words stands in it."""
        return not frozenset(words).isdisjoint(self.words)

    @property
    def label(self) -> Label:
        """What was told of the label, put together."""
        told = self.all(Label)
        return Label(**{name: getattr(one, name) for one in told for name in one.facts()})

    @property
    def product(self) -> Product | None:
        """The product named last."""
        return next(reversed(self.all(Product)), None)


def _range_at(words: tuple[str, ...], at: int, situation: Situation) -> tuple[Rate, int] | None:
    """Read "2 to 5 ml per litre": the plan takes the lower, the label allows the upper."""
    low = number_at(words, at)
    if low is None or words[at + low[1] : at + low[1] + 1] not in {("to",), ("-",)}:
        return None
    behind = at + low[1] + 1
    high, number = rate_at(words, behind, situation), number_at(words, behind)
    if high is None or number is None or not 0 < low[0] <= number[0]:
        return None
    return Rate(high[0].ml_per_l * low[0] / number[0], most=high[0].ml_per_l), low[1] + 1 + high[1]


def _count_at(words: tuple[str, ...], at: int, _: Situation) -> tuple[_Count, int] | None:
    counted = number_at(words, at)
    if counted is None or words[at + counted[1] : at + counted[1] + 1] not in {("plants",), ("pots",)}:
        return None
    return (_Count(int(counted[0])), counted[1] + 1) if 1 <= counted[0] <= MOST_PLANTS else None


def _volume_at(words: tuple[str, ...], at: int, situation: Situation) -> tuple[object, int] | None:
    measured = measure_at(words, at, situation.units)
    return measured if measured is not None and isinstance(measured[0], Volume | UnclearVolume) else None


def _name_at(words: tuple[str, ...], at: int, situation: Situation) -> tuple[object, int] | None:
    named = names_of(situation).exact_at(words, at)
    return named if named is not None and isinstance(named[0], Product | Plants) else None


def _tool_at(words: tuple[str, ...], at: int, _: Situation) -> tuple[object, int] | None:
    if words[at] in _TOOLS:
        return _TOOLS[words[at]], 1
    is_unit = words[at - 1 : at] == ("per",) and unit_at(words, at) is not None
    return (_OneUnit(words[at]), 1) if is_unit else None


def _every_at(words: tuple[str, ...], at: int, situation: Situation) -> tuple[Label, int] | None:
    every = when_at(words, at, situation)
    if every is None or not isinstance(every[0], Every) or not every[0].days:
        return None
    return Label(gap_days=every[0].days), every[1]


def _form_at(words: tuple[str, ...], at: int, _: Situation) -> tuple[Label, int] | None:
    phrase = phrase_at(words, at)
    return (Label(form=phrase[0]), phrase[1]) if phrase is not None and isinstance(phrase[0], Form) else None


_USES_A_YEAR = re.compile(rf"(?:(?:{_UNITS_OF_USE}) )?(?:(?:a|per) (?:year|season)|each year)(?= |$)")
_USES_AT_MOST = re.compile(rf"(?:{_UNITS_OF_USE})(?= [,.](?: |$)|$)")
"""Of no more than a season: the year is the careful side."""
_BEFORE_EATING = re.compile(
    r"days? (?:before|until|to) (?:the )?(?:harvest|harvesting|eating|picking)(?= |$)"
)


def _rule_at(words: tuple[str, ...], at: int, _: Situation) -> tuple[Label, int] | None:
    """Read "max 4 a year", "3 days before harvest"."""
    number = number_at(words, at) if words[at] not in {"a", "an"} else None
    if number is None or number[0] != int(number[0]):
        return None
    behind = " ".join(words[at + number[1] :])
    is_most = not {"max", "maximum", "most"}.isdisjoint(words[max(0, at - 2) : at])
    uses = _USES_A_YEAR.match(behind) or (_USES_AT_MOST.match(behind) if is_most else None)
    if found := uses or _BEFORE_EATING.match(behind):
        label = Label(uses_a_year=int(number[0])) if uses else Label(harvest_days=int(number[0]))
        return label, number[1] + len(found[0].split())
    return None


_MEANT_FOR = re.compile(
    r"(?P<no>(?:not|no|never)(?: (?:for|on|to|be|used|allowed|safe|ok))* )?"
    rf"(?:(?P<food>{'|'.join(_EDIBLE)})(?: (?:{_AFTER_A_USE}|{'|'.join(_EDIBLE)}|or|,)(?= |$))*"
    rf"|(?:(?P<inside>{'|'.join(_INDOOR)})|{'|'.join(_OUTDOOR)})(?: (?:{_AFTER_A_USE})(?= |$))*)(?= |$)"
)


def _use_at(words: tuple[str, ...], at: int, _: Situation) -> tuple[Label, int] | None:
    """Read "not for edibles", "indoors only"."""
    found = _MEANT_FOR.match(" ".join(words[at:]))
    if found is None:
        return None
    end, start = at + len(found[0].split()), at + len((found["no"] or "").split())
    if found["food"]:
        return Label(is_for_edibles=not found["no"]), end - at
    if found["inside"]:
        return Label(is_for_indoors=not found["no"]), end - at
    return (Label(is_for_indoors=False), end - at) if "only" in words[max(0, start - 2) : end] else None


_OF_A_LABEL: tuple[Read, ...] = (
    *(_range_at, rate_at, percent_at, _rule_at, _use_at, _volume_at, _every_at, _name_at, _form_at),
)
_OF_A_MIXTURE: tuple[Read, ...] = (rate_at, percent_at, parts_at, _count_at, _volume_at, _name_at, _tool_at)


def read_bottle(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read what a label says, in one piece; None where nothing of it is told, or something else too."""
    words = _usual(words)
    if frozenset(words) & _NOT_A_LABEL or "?" in words:
        return None
    is_pointing = bool(situation.stocked and frozenset(words) & _POINTING)
    if not (is_pointing or tells_a_rate(words) or frozenset(words) & _MAY_BE_A_LABEL):
        return None
    said = _of_one_bottle(words, situation)
    if said is None or (said.all(Volume) and not said.has(*_TOLD_OF_A_LABEL)):
        return None  # "5 ml per litre for 2 l of neem" asks for a mixture
    rates, percents, volumes = said.all(Rate), said.all(Percent), said.all(Volume)
    if len(rates) > 1 or len(percents) > 1 or not all(0 < one.percent <= _MOST_PERCENT for one in percents):
        return None
    has_rules = bool(set(said.label.facts()) - {"form", "gap_days"})
    has_gap, is_of_label = said.label.gap_days is not None, said.has(*_TOLD_OF_A_LABEL)
    is_bare = said.product is None and not volumes and (has_gap or (is_pointing and bool(said.label.form)))
    is_of_product = said.product is not None and bool(said.label.form or has_gap or volumes)
    if not (rates or percents or has_rules or is_bare or is_of_product):
        return None
    label = replace(
        said.label,
        rate_ml_per_l=rates[0].ml_per_l if rates else None,
        most_ml_per_l=rates[0].most if rates else None,
        strength_percent=percents[0].percent if percents else None,
    )
    told = StockProduct(
        ingredient="", stock_ml=round(float(volumes[-1].ml), 2) if volumes else None, label=label
    )
    ingredient = None if said.product is None else ingredient_of(said.product, situation)
    is_told = is_of_label or has_rules or is_bare or has_gap
    if ingredient is not None and is_told:
        return (replace(told, ingredient=ingredient),)
    if not (rates or percents or (ingredient is None and is_told)):
        return None
    keys = [(known, ingredient_of(Product(known.id, None), situation)) for known in situation.shelf]
    meant = [(key for _, key in keys if key is not None), situation.stocked]
    of = next((each for one in meant if len(each := tuple(one)) == 1 + said.has("both", "each")), ())
    if ingredient is None and of:
        return tuple(replace(told, ingredient=one) for one in of)
    choices = [
        Choice(ButtonText.LABEL_OF, (replace(told, ingredient=key),), known.names[0])
        for known, key in keys
        if key is not None
        and (key == ingredient or (ingredient is None and key in (situation.stocked or {key})))
    ]
    return (Incomplete(missing=Missing.WHICH_PRODUCT, choices=tuple(choices[:8])),)


def is_of_a_bottle(words: tuple[str, ...], situation: Situation) -> bool:
    """Whether a message is of a product and its label to the last word."""
    said = _of_one_bottle(_usual(words), situation)
    return said is not None and said.product is not None


def _of_one_bottle(words: tuple[str, ...], situation: Situation) -> _Said | None:
    meanings = laid_out(words, situation, _OF_A_LABEL, _AROUND | SUBSTANCES)
    if meanings is None or any(isinstance(one, UnclearVolume | Plants) for one in meanings):
        return None
    said = _Said(words, tuple(meanings))
    return said if len(set(said.all(Product))) <= 1 else None


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


def read_recipe(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read what a mixture is asked of; None where nothing but a volume and a product is told, or less."""
    if not _HINTS & frozenset(words) and not any(":" in word for word in words):
        return None
    meanings = laid_out(words, situation, _OF_A_MIXTURE, _PASSING)
    if meanings is None:
        return None
    said = _Said(words, tuple(meanings))
    rates, parts, tools = said.all(Rate), said.all(Parts), said.all(Tool)
    unclear, count = said.all(UnclearVolume), next(reversed(said.all(_Count)), _Count(0)).number
    plants = tuple(plant for named in said.all(Plants) for plant in named.ids)
    volumes = [one.ml for one in said.all(Volume)]
    is_mixed, is_much = said.has(*_MIXES), said.has("much", "many")
    is_for_tonight = is_mixed and said.has("tonight")
    is_rich = bool(rates or said.all(Percent) or parts or tools or is_for_tonight)
    is_rich = is_rich or (bool(plants or count) and (is_mixed or said.has("spray")))
    if (
        not (is_rich or volumes) and said.product is not None and is_much
    ):  # "how much neem per litre": for one
        volumes = [METRIC_ML[one.unit] for one in said.all(_OneUnit)[:1] if one.unit in METRIC_ML]
    is_asked = said.product is not None and is_much and bool(volumes or unclear or plants or count)
    if not (is_rich or is_asked) or not (is_mixed or said.has("much") or volumes or unclear):
        return None
    is_too_much = any(not 0 < one <= MOST_ML for one in volumes)
    if len(rates) > 1 or len(volumes) + len(unclear) > 1 or is_too_much:
        return None
    of_plants = float(count * spray_ml(None)) if count else None
    base = Mix(
        volume_ml=float(volumes[0]) if volumes else of_plants,
        product=None if said.product is None else said.product.id,
        ingredient=None if said.product is None else ingredient_of(said.product, situation),
        rate_ml_per_l=rates[0].ml_per_l if rates else None,
        parts=parts[-1].water if parts else None,
        tool=tools[-1] if tools else None,
        plants=plants,
        is_for_tonight=is_for_tonight,
    )
    mixed = _with_percents(base, said)
    return mixed if mixed is None else (ask_which_measure(mixed, unclear[0]) if unclear else mixed,)


def _with_percents(base: Mix, said: _Said) -> Mix | None:
    """Sort percentages out: what is wanted, and what the bottle holds."""
    is_of_product = said.has("product", "v")
    share = Share.ACTIVE if said.has("active") else Share.PRODUCT if is_of_product else None
    match said.all(Percent):
        case []:
            return base
        case [Percent(percent, before)] if said.has("dilute") and before != "to":
            return replace(base, stock_percent=percent)
        case [Percent(percent, _)]:
            return replace(base, percent=percent, percent_of=share)
        case [Percent(first, before), Percent(second, _)]:
            stock, wanted = (second, first) if before == "to" or second > first else (first, second)
            return replace(base, percent=wanted, percent_of=Share.ACTIVE, stock_percent=stock)
        case _:
            return None


def ask_which_measure(mixed: Mix, unclear: UnclearVolume) -> Incomplete:
    """Ask whether a gallon is the American one."""
    choices = tuple(
        Choice(text, (replace(mixed, volume_ml=float(unclear.amount * table[unclear.unit])),), unclear.unit)
        for text, table in ((ButtonText.US_MEASURE, US_ML), (ButtonText.IMPERIAL_MEASURE, IMPERIAL_ML))
        if unclear.unit in table
    )
    return Incomplete(missing=Missing.AMOUNT, text=unclear.unit, choices=choices)


def read_tools(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read "i have a 1 ml syringe and measuring spoons", "no dropper": what is measured with."""
    found = tuple(
        one for one in laid_out(words, situation, (_kept_at,), _AROUND_TOOLS) or () if isinstance(one, Tool)
    )
    if found and _NONE_OF & frozenset(words):
        return (SetTools((), gone=found),)
    return (SetTools(found),) if found and _AT_HAND & frozenset(words) else None


def read_goods(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read "bought sticky cards and a lens", "put a card on the hoya": nothing of it is written."""
    names, at, is_told = names_of(situation), 0, False
    goods = _GOODS if _AT_HAND & frozenset(words) else _PUT_UP
    if (_AT_HAND | {"put", "hung"}).isdisjoint(words):
        return None
    while at < len(words):
        known = names.exact_at(words, at)
        if words[at] in goods:
            is_told, at = True, at + 1
        elif known is not None and not isinstance(known[0], Product):
            at += known[1]
        elif words[at] in _AROUND_GOODS or (words[at].isdigit() and {*words[at + 1 : at + 4]} & goods):
            at += 1
        else:
            return None
    return (Thanks(is_at_hand=True),) if is_told else None


_GOODS = listed(
    "lens loupe magnifier card cards trap traps mix soil compost pot pots gloves goggles glasses mask sprayer"
    " bottle bottles swabs buds cotton bags bag tray trays saucer saucers tape brush sponge cloth cloths"
)
_PUT_UP = listed("card cards trap traps tape")
_AROUND_GOODS = (
    _AT_HAND
    | listed(
        "put hung a an the some few new fresh sticky yellow blue potting spray on in at by beside for of"
    )
    | listed("and , . ! i we my our also too now today magnifying with pack packet couple two three pair")
)


def _kept_at(words: tuple[str, ...], at: int, _: Situation) -> tuple[Tool, int] | None:
    for size in range(4, 0, -1):
        phrase = " ".join(words[at : at + size])
        tool = _SETTING.get(phrase, _SETTING.get(phrase.removesuffix("s")))
        if tool is not None:
            return tool, size
    return None
