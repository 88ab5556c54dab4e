"""Mixtures: "2 l of neem at 0.5 %", "1 tbsp a gallon", "1:20 for a litre", "dilute 70 % alcohol to 25 %"."""

from dataclasses import dataclass, field, replace
from decimal import Decimal

from bot.actions.commands import Choice, Incomplete, Missing, Mix, StockProduct
from bot.actions.situation import Situation
from bot.domain.measure import IMPERIAL_ML, METRIC_ML, SPOON_ML, US_ML, Tool
from bot.domain.mixture import Share, rate_of_volume
from bot.phrases.asking import Meant
from bot.phrases.names import Names, Product, ingredient_of, names_of
from bot.phrases.numbers import SPELT, UnclearVolume, Volume, measure_at, number_at
from bot.phrases.words import listed

_MIXES = listed("mix dilute make brew recipe mixing batch prepare")
_LABEL = listed("label says strength")
_PASSING = _MIXES | listed(
    "up a an of the for with at to into in from how do i we you can need want much many some please me my"
    " spray water solution , . ! and it is ml tonight label says say strength concentrate product active"
    " ingredient part parts per cent percent % v use using plus + our should would like now let us goes go"
)
_HINTS = _MIXES | listed(
    "% percent per / much many label strength spoon spoons syringe dropper drops pipette + part"
)
_PER = listed("per / a to in each")
_TOOLS = {
    "syringe": Tool.SYRINGE,
    "spoon": Tool.SPOON,
    "spoons": Tool.SPOON,
    "teaspoon": Tool.SPOON,
    "teaspoons": Tool.SPOON,
    "dropper": Tool.DROPPER,
    "drops": Tool.DROPPER,
    "pipette": Tool.DROPPER,
}
_SPELT = {**SPELT, "tbsp": "tablespoon", "tsp": "teaspoon"}
MOST_ML = Decimal(100_000)


@dataclass(slots=True)
class _Said:
    """What a message tells of a mixture."""

    volumes: list[Decimal] = field(default_factory=list)
    unclear: list[UnclearVolume] = field(default_factory=list)
    rates: list[Decimal] = field(default_factory=list)
    percents: list[tuple[Decimal, str]] = field(default_factory=list)
    parts: Decimal | None = None
    product: Product | None = None
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
    if not is_rich and not (said.product is not None and _asks_how_much(said)):
        return None
    is_asked = bool(_MIXES & frozenset(words)) or bool(said.volumes) or bool(said.unclear)
    if _LABEL & frozenset(words) and not said.volumes:
        return _label(said, situation)
    return _mixture(said, situation) if is_asked else None


def _asks_how_much(said: _Said) -> bool:
    """Tell whether it is "how much soap for 500 ml", or "how much neem per litre", which is for one."""
    if not frozenset(said.words) & {"much", "many"}:
        return False
    if not said.volumes and "per" in said.words:
        unit = _unit(said.words, said.words.index("per") + 1)
        if unit in METRIC_ML:
            said.volumes.append(METRIC_ML[unit])
    return bool(said.volumes or said.unclear)


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
    rate = _rate_at(words, at, us=situation.fahrenheit)
    if rate is not None:
        said.rates.append(rate[0])
        return rate[1]
    percent = _percent_at(words, at)
    if percent is not None:
        said.percents.append((percent[0], words[at - 1] if at else ""))
        return percent[1]
    parts = _parts_at(words, at)
    if parts is not None:
        said.parts = parts[0]
        return parts[1]
    measured = measure_at(words, at, fahrenheit=situation.fahrenheit)
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
    if words[at] in _TOOLS:
        said.tool = _TOOLS[words[at]]
        return 1
    if words[at - 1 : at] == ("per",) and _unit(words, at) is not None:
        return 1
    return int(words[at] in _PASSING)


def _rate_at(words: tuple[str, ...], at: int, *, us: bool) -> tuple[Decimal, int] | None:
    """Read "5 ml per litre", "1 tbsp/gallon": the rate and its length."""
    amount = number_at(words, at)
    if amount is None:
        return None
    unit_at = at + amount[1]
    unit = _unit(words, unit_at)
    if unit is None or words[unit_at + 1 : unit_at + 2] == () or words[unit_at + 1] not in _PER:
        return None
    per_at = unit_at + 2
    per_at += words[per_at : per_at + 1] in {("a",), ("the",), ("each",), ("us",), ("imperial",), ("uk",)}
    count = number_at(words, per_at)
    number, size = count if count is not None and count[1] else (Decimal(1), 0)
    per = _unit(words, per_at + size)
    if per is None or per in {"tablespoon", "teaspoon"}:
        return None
    system = words[per_at - 1] if words[per_at - 1] in {"us", "imperial", "uk"} else ""
    table = _table(per, system or ("us" if us else ""))
    spoon = US_ML if table is US_ML else SPOON_ML
    ml = amount[0] * (spoon[unit] if unit in SPOON_ML else {**METRIC_ML, **table}[unit])
    return rate_of_volume(ml, number * {**METRIC_ML, **table}[per]), per_at + size + 1 - at


def _table(per: str, system: str) -> dict[str, Decimal]:
    """Give the measures a rate is told in: labels "per gallon" are mostly American."""
    return IMPERIAL_ML if system in {"imperial", "uk"} and per in IMPERIAL_ML else US_ML


def _unit(words: tuple[str, ...], at: int) -> str | None:
    if at >= len(words):
        return None
    unit = _SPELT.get(words[at], words[at])
    unit = unit[:-1] if len(unit) > 2 and unit.endswith("s") else unit  # noqa: PLR2004 - "us" is no plural
    unit = _SPELT.get(unit, unit)
    return unit if unit in METRIC_ML or unit in US_ML else None


def _percent_at(words: tuple[str, ...], at: int) -> tuple[Decimal, int] | None:
    found = number_at(words, at)
    if found is None:
        return None
    rest = words[at + found[1] : at + found[1] + 2]
    if rest[:1] in {("%",), ("percent",)}:
        return found[0], found[1] + 1
    return (found[0], found[1] + 2) if rest == ("per", "cent") else None


def _parts_at(words: tuple[str, ...], at: int) -> tuple[Decimal, int] | None:
    """Read "1:20", "1 + 9", "1 part to 20": the parts of water to one of product."""
    clock = words[at].split(":")
    if len(clock) == 2 and clock[0] == "1" and clock[1].isdigit() and int(clock[1]) > 0:  # noqa: PLR2004
        return Decimal(clock[1]), 1
    if words[at] not in {"1", "one"}:
        return None
    size = 1 + (words[at + 1 : at + 2] == ("part",))
    joint = words[at + size : at + size + 1]
    found = number_at(words, at + size + 1) if at + size + 1 < len(words) else None
    if joint not in {("to",), ("+",), (":",), ("in",)} or found is None or found[0] <= 1:
        return None
    end = size + 1 + found[1]
    end += words[at + end : at + end + 1] in {("parts",), ("part",)}
    is_unit = _unit(words, at + end) is not None
    water = found[0] - 1 if joint == ("in",) else found[0]
    return None if is_unit else (water, end)


def _mixture(said: _Said, situation: Situation) -> Meant | None:
    if len(said.rates) > 1 or len(said.volumes) + len(said.unclear) > 1:
        return None
    base = Mix(
        volume_ml=float(said.volumes[0]) if said.volumes else None,
        product=None if said.product is None else said.product.id,
        ingredient=None if said.product is None else ingredient_of(said.product, situation),
        rate_ml_per_l=said.rates[0] if said.rates else None,
        parts=said.parts,
        tool=said.tool,
        is_for_tonight=_is_for_tonight(said),
    )
    if said.volumes and not 0 < said.volumes[0] <= MOST_ML:
        return None
    mixed = _with_percents(base, said)
    if mixed is None:
        return None
    if said.unclear:
        return (_ask_which_measure(mixed, said.unclear[0]),)
    return (mixed,)


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


def _ask_which_measure(mixed: Mix, unclear: UnclearVolume) -> Incomplete:
    choices = tuple(
        Choice(
            f"{name} {unclear.unit}", (replace(mixed, volume_ml=float(unclear.amount * table[unclear.unit])),)
        )
        for name, table in (("US", US_ML), ("Imperial", IMPERIAL_ML))
        if unclear.unit in table
    )
    return Incomplete(missing=Missing.AMOUNT, text=unclear.unit, choices=choices)


def _label(said: _Said, situation: Situation) -> Meant | None:
    """Read what the label says of a product: its rate or its strength."""
    ingredient = None if said.product is None else ingredient_of(said.product, situation)
    if ingredient is None or len(said.rates) + len(said.percents) != 1:
        return None
    if said.rates:
        return (StockProduct(ingredient=ingredient, rate_ml_per_l=said.rates[0]),)
    return (StockProduct(ingredient=ingredient, strength_percent=said.percents[0][0]),)
