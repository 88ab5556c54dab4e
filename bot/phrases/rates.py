"""Rates as labels give them: "5 ml per litre", "1 tbsp/gallon", "0.5 %", "1:20", "1 + 9"."""

from decimal import Decimal

from bot.actions.not_understood import NotUnderstood
from bot.actions.situation import Situation
from bot.domain.measure import IMPERIAL_ML, METRIC_ML, SPOON_ML, US_ML
from bot.domain.mixture import rate_of_volume
from bot.domain.value import Value
from bot.phrases.lexicon import listed
from bot.phrases.numbers import SPELT, number_at

_WHOLE = 100
_PER = listed("per / a to in each")
_SHARES = listed("% percent cent")
_VAGUE = listed("cap capful pump squirt glug scoop drop splash dash spoon spoonful shot lid lidful")
"""Vessels and gestures that hold as much as they hold: no rate is made of them."""
_WEIGHTS = listed("g gr gram grams gramme grammes mg kg pound pounds lb lbs")
"""A weight is no volume: what it comes to hangs on the powder."""
_SPELT = {**SPELT, "tbsp": "tablespoon", "tsp": "teaspoon"}


class Rate(Value):
    """So much product in a litre of spray, and the most that is allowed where a range is told. [mL/L]."""

    ml_per_l: Decimal
    most: Decimal | None = None


class Percent(Value):
    """A share, and the word before it. [%]."""

    percent: Decimal
    before: str = ""


class Parts(Value):
    """Parts of water to one of product. [1]."""

    water: Decimal


def rate_at(words: tuple[str, ...], at: int, situation: Situation) -> tuple[Rate, int] | None:
    """Read "5 ml per litre", "1 tbsp/gallon"."""
    amount = number_at(words, at)
    if amount is None:
        return None
    behind = at + amount[1]
    behind += words[behind : behind + 1] in {("fl",), ("fluid",)}
    unit = unit_at(words, behind)
    if unit is None or words[behind + 1 : behind + 2] == () or words[behind + 1] not in _PER:
        return None
    per_at = behind + 2
    per_at += words[per_at : per_at + 1] in {("a",), ("the",), ("each",), ("us",), ("imperial",), ("uk",)}
    count = number_at(words, per_at)
    number, size = count if count is not None and count[1] else (Decimal(1), 0)
    per = unit_at(words, per_at + size)
    if per is None or per in {"tablespoon", "teaspoon"}:
        return None
    system = words[per_at - 1] if words[per_at - 1] in {"us", "imperial", "uk"} else ""
    table = _table(per, system or situation.units.value)
    spoon = US_ML if table is US_ML else SPOON_ML
    ml = amount[0] * (spoon[unit] if unit in SPOON_ML else {**METRIC_ML, **table}[unit])
    if ml <= 0 or number <= 0:
        return None
    return Rate(rate_of_volume(ml, number * {**METRIC_ML, **table}[per])), per_at + size + 1 - at


def _table(per: str, system: str) -> dict[str, Decimal]:
    """Give the measures a rate is told in: labels "per gallon" are mostly American."""
    return IMPERIAL_ML if system in {"imperial", "uk"} and per in IMPERIAL_ML else US_ML


def unit_at(words: tuple[str, ...], at: int) -> str | None:
    """Read a unit of volume in the singular, None where the word is none."""
    if at >= len(words):
        return None
    unit = _SPELT.get(words[at], words[at])
    unit = unit[:-1] if len(unit) > 2 and unit.endswith("s") else unit  # noqa: PLR2004 - "us" is no plural
    unit = _SPELT.get(unit, unit)
    return unit if unit in METRIC_ML or unit in US_ML else None


def percent_at(words: tuple[str, ...], at: int, _: Situation | None = None) -> tuple[Percent, int] | None:
    """Read "0.5 %", "70 percent", "70 per cent"."""
    found = number_at(words, at)
    rest = () if found is None else words[at + found[1] : at + found[1] + 2]
    size = 1 if rest[:1] in {("%",), ("percent",)} else 2 if rest == ("per", "cent") else 0
    if found is None or not size:
        return None
    return Percent(found[0], words[at - 1] if at else ""), found[1] + size


def parts_at(words: tuple[str, ...], at: int, _: Situation) -> tuple[Parts, int] | None:
    """Read "1:20", "1 + 9", "1 part to 20"."""
    clock = words[at].split(":")
    if len(clock) == 2 and clock[0] == "1" and clock[1].isdigit() and int(clock[1]) > 0:  # noqa: PLR2004
        return Parts(Decimal(clock[1])), 1
    if words[at] not in {"1", "one"}:
        return None
    size = 1 + (words[at + 1 : at + 2] == ("part",))
    joint = words[at + size : at + size + 1]
    found = number_at(words, at + size + 1) if at + size + 1 < len(words) else None
    if joint not in {("to",), ("+",), (":",), ("in",)} or found is None or found[0] <= 1:
        return None
    end = size + 1 + found[1]
    end += words[at + end : at + end + 1] in {("parts",), ("part",)}
    is_unit = unit_at(words, at + end) is not None
    water = found[0] - 1 if joint == ("in",) else found[0]
    return None if is_unit else (Parts(water), end)


def tells_a_rate(words: tuple[str, ...]) -> bool:
    """Whether a rate or a share can stand in a message: none does without one of a few words."""
    return bool((_PER | _SHARES) & frozenset(words))


def read_bad_rate(words: tuple[str, ...]) -> NotUnderstood | None:
    """Read a rate that can be none: "5 ml per banana", "2 caps per sprayer", "200 %"."""
    if not (_SHARES | {"per", "/"}) & frozenset(words):
        return None
    for at in range(len(words)):
        amount = number_at(words, at)
        if amount is None:
            continue
        behind = at + amount[1]
        per = words[behind + 1 : behind + 3]
        has_unit = len(per) == len(("per", "banana")) and (
            unit_at(words, behind) is not None or words[behind] in _WEIGHTS
        )
        is_vague = words[behind : behind + 1] != () and words[behind].removesuffix("s") in _VAGUE
        is_none = has_unit and per[0] in {"per", "/"} and per[1].isalpha()
        if is_vague and words[behind + 1 : behind + 2] in {("per",), ("/",), ("in",), ("to",)}:
            return NotUnderstood(" ".join(words[at : behind + 3]), reason="rate")
        if is_none and (amount[0] <= 0 or None in (unit_at(words, behind), unit_at(words, behind + 2))):
            return NotUnderstood(" ".join(words[at : behind + 3]), reason="rate")
        if words[behind : behind + 1] == ("to",) and (upper := number_at(words, behind + 1)) is not None:
            has_unit = unit_at(words, behind + 1 + upper[1]) is not None
            if has_unit and upper[0] < amount[0] and {"per", "/"} & frozenset(words[behind:]):
                return NotUnderstood(" ".join(words[at:]), reason="rate")
        percent = percent_at(words, at)
        if percent is not None and not 0 < percent[0].percent <= _WHOLE:
            return NotUnderstood(" ".join(words[at : at + percent[1]]), reason="percent")
    return None
