"""Mixtures: "2 l of neem at 0.5 %", "1 tbsp a gallon", "1:20 for a litre", "dilute 70 % alcohol to 25 %"."""

from dataclasses import dataclass, field
from decimal import Decimal

from bot.actions.action import ButtonText, Choice
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.mix_batch import Mix
from bot.actions.set_tools import SetTools
from bot.actions.situation import Situation
from bot.domain.identity import PlantId
from bot.domain.measure import IMPERIAL_ML, METRIC_ML, US_ML, Tool
from bot.domain.mixture import Share, spray_ml
from bot.domain.value import replace
from bot.phrases.asking import Meant
from bot.phrases.lexicon import each_of, listed
from bot.phrases.names import Names, Plants, Product, ingredient_of, names_of
from bot.phrases.numbers import UnclearVolume, Volume, measure_at, number_at
from bot.phrases.rates import parts_at, percent_at, rate_at, unit_at

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
    **dict.fromkeys(("syringe", "oral syringe"), Tool.SYRINGE),
    **dict.fromkeys(("dropper", "pipette", "eye dropper"), Tool.DROPPER),
    **dict.fromkeys(("measuring spoon", "spoon", "teaspoon", "set of measuring spoons"), Tool.SPOON),
    **dict.fromkeys(("1/8 tsp", "1/8 teaspoon", "1/8 tsp spoon", "1/8 teaspoon spoon"), Tool.EIGHTH_SPOON),
    **dict.fromkeys(("measuring jug", "jug", "measuring cup", "measuring beaker"), Tool.JUG),
}
_AT_HAND = listed("have got bought own measure")
_NONE_OF = listed("no not without")
_AROUND_TOOLS = _AT_HAND | _NONE_OF | listed("i we a an the and also my our too with now , . ! only here")
MOST_ML = Decimal(100_000)
MOST_PLANTS = 500


@dataclass(slots=True)
class _Said:
    """What a message tells of a mixture."""

    volumes: list[Decimal] = field(default_factory=list)
    unclear: list[UnclearVolume] = field(default_factory=list)
    rates: list[Decimal] = field(default_factory=list)
    percents: list[tuple[Decimal, str]] = field(default_factory=list)
    parts: Decimal | None = None
    product: Product | None = None
    plants: tuple[PlantId, ...] = ()
    count: int = 0
    """Plants of which only the number is told. [1]"""
    tool: Tool | None = None
    words: tuple[str, ...] = ()


def read_recipe(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read what a mixture is asked of; None where nothing but a volume and a product is told, or less."""
    if not _HINTS & frozenset(words) and not any(":" in word for word in words):
        return None
    said = _scan(words, situation)
    if said is None:
        return None
    is_rich = bool(said.rates or said.percents or said.parts or said.tool) or _is_for_tonight(said)
    is_spray = bool((_MIXES | {"spray"}) & frozenset(words))
    is_rich = is_rich or (bool(said.plants or said.count) and is_spray)
    if not is_rich and not (said.product is not None and _asks_how_much(said)):
        return None
    is_asked = bool((_MIXES | {"much"}) & frozenset(words)) or bool(said.volumes) or bool(said.unclear)
    return _mixture(said, situation) if is_asked else None


def read_tools(words: tuple[str, ...]) -> Meant | None:
    """Read "i have a 1 ml syringe and measuring spoons", "no dropper": what is measured with."""
    found: list[Tool] = []
    rest, at = [], 0
    while at < len(words):
        tool, size = _tool_at(words, at)
        if tool is None:
            rest.append(words[at])
        else:
            found.append(tool)
        at += size
    if not found or not set(rest) <= _AROUND_TOOLS:
        return None
    if set(rest) & _NONE_OF:
        return (SetTools((), gone=tuple(found)),)
    return (SetTools(tuple(found)),) if set(rest) & _AT_HAND else None


def _tool_at(words: tuple[str, ...], at: int) -> tuple[Tool | None, int]:
    for size in range(4, 0, -1):
        phrase = " ".join(words[at : at + size])
        phrase = phrase.removesuffix("s") if phrase not in _SETTING else phrase
        if phrase in _SETTING:
            return _SETTING[phrase], size
    return None, 1


def _asks_how_much(said: _Said) -> bool:
    """Tell whether it is "how much soap for 500 ml", or "how much neem per litre", which is for one."""
    if not frozenset(said.words) & {"much", "many"}:
        return False
    if not said.volumes and "per" in said.words:
        unit = unit_at(said.words, said.words.index("per") + 1)
        if unit in METRIC_ML:
            said.volumes.append(METRIC_ML[unit])
    return bool(said.volumes or said.unclear or said.plants or said.count)


def _is_for_tonight(said: _Said) -> bool:
    return "tonight" in said.words and bool(_MIXES & frozenset(said.words))


def _scan(words: tuple[str, ...], situation: Situation) -> _Said | None:
    names, said, at = names_of(situation), _Said(words=words), 0
    while at < len(words):
        size = _take(words, at, said, names, situation)
        if size == 0:
            return None
        at += size
    return said


def _take(words: tuple[str, ...], at: int, said: _Said, names: Names, situation: Situation) -> int:
    """Take what begins here and give its length in words, 0 where it means nothing here."""
    size = _take_rate(words, at, said, situation) or _take_count(words, at, said)
    if size:
        return size
    measured = measure_at(words, at, situation.units)
    if measured is not None and isinstance(measured[0], Volume):
        said.volumes.append(measured[0].ml)
        return measured[1]
    if measured is not None and isinstance(measured[0], UnclearVolume):
        said.unclear.append(measured[0])
        return measured[1]
    named = names.exact_at(words, at)
    if named is not None and isinstance(named[0], Product):
        said.product = named[0]
        return named[1]
    if named is not None and isinstance(named[0], Plants):
        said.plants += named[0].ids
        return named[1]
    if words[at] in _TOOLS:
        said.tool = _TOOLS[words[at]]
        return 1
    if words[at - 1 : at] == ("per",) and unit_at(words, at) is not None:
        return 1
    return int(words[at] in _PASSING)


def _take_rate(words: tuple[str, ...], at: int, said: _Said, situation: Situation) -> int:
    rate = rate_at(words, at, situation.units)
    if rate is not None:
        said.rates.append(rate[0])
        return rate[1]
    percent = percent_at(words, at)
    if percent is not None:
        said.percents.append((percent[0], words[at - 1] if at else ""))
        return percent[1]
    parts = parts_at(words, at)
    if parts is not None:
        said.parts = parts[0]
        return parts[1]
    return 0


def _take_count(words: tuple[str, ...], at: int, said: _Said) -> int:
    """Take "5 plants": of which only the number is told."""
    counted = number_at(words, at)
    if counted is None or words[at + counted[1] : at + counted[1] + 1] not in {("plants",), ("pots",)}:
        return 0
    said.count = int(counted[0]) if 0 < counted[0] <= MOST_PLANTS else 0
    return counted[1] + 1 if said.count else 0


def _mixture(said: _Said, situation: Situation) -> Meant | None:
    if len(said.rates) > 1 or len(said.volumes) + len(said.unclear) > 1:
        return None
    base = Mix(
        volume_ml=_volume_of(said),
        product=None if said.product is None else said.product.id,
        ingredient=None if said.product is None else ingredient_of(said.product, situation),
        rate_ml_per_l=said.rates[0] if said.rates else None,
        parts=said.parts,
        tool=said.tool,
        plants=said.plants,
        is_for_tonight=_is_for_tonight(said),
    )
    if said.volumes and not 0 < said.volumes[0] <= MOST_ML:
        return None
    mixed = _with_percents(base, said)
    if mixed is None:
        return None
    if said.unclear:
        return (ask_which_measure(mixed, said.unclear[0]),)
    return (mixed,)


def _volume_of(said: _Said) -> float | None:
    if said.volumes:
        return float(said.volumes[0])
    return float(said.count * spray_ml(None)) if said.count else None


def _with_percents(base: Mix, said: _Said) -> Mix | None:
    """Sort percentages out: what is wanted, and what the bottle holds."""
    share = None
    if "active" in said.words:
        share = Share.ACTIVE
    elif "product" in said.words or "v" in said.words:
        share = Share.PRODUCT
    match said.percents:
        case []:
            return base
        case [(percent, before)] if "dilute" in said.words and before != "to":
            return replace(base, stock_percent=percent)
        case [(percent, _)]:
            return replace(base, percent=percent, percent_of=share)
        case [(first, before), (second, _)]:
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
