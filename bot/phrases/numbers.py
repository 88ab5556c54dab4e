"""Numbers as people write them, and the units that follow them."""

import re
from decimal import Decimal
from functools import lru_cache

from bot.domain.measure import IMPERIAL_ML, INCH_CM, METRIC_ML, US_ML, Units
from bot.domain.value import Value
from bot.phrases.lexicon import each_of, each_worded

_THOUSANDS = re.compile(r"-?\d{1,3}(?:[.,]\d{3})+")
_DIGITS = re.compile(r"-?\d+(?:[.,]\d+)?")
_MOST_DIGITS = 12
_FRACTION = re.compile(r"(\d{1,2})/(\d{1,2})")

_COUNTING = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen"
    " sixteen seventeen eighteen nineteen twenty"
)
UNITS = {word: value for value, word in enumerate(_COUNTING.split())}
"""Nought to twenty in words."""
_TENS = {
    word: 10 * tens
    for tens, word in enumerate(
        ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"], 2
    )
}
_LOOSE = each_worded(
    ("dozen | a dozen | one dozen | a whole dozen | a good dozen", Decimal(12)),
    ("two dozen", Decimal(24)),
    ("half dozen | half a dozen", Decimal(6)),
    ("a couple of | a couple | couple of | a pair of", Decimal(2)),
    ("a single | a | an | one", Decimal(1)),
    ("a hundred", Decimal(100)),
    ("a quarter", Decimal("0.25")),
    ("three quarters", Decimal("0.75")),
    ("one and a half", Decimal("1.5")),
    ("half a | half an | a half | half", Decimal("0.5")),
)
OPENING = frozenset({phrase[0] for phrase in _LOOSE} | UNITS.keys() | _TENS.keys())
"""Words that a number in words begins with."""
_AND_A_HALF = ("and", "a", "half")
_ONLY_BEFORE_A_UNIT = frozenset({("half", "a"), ("half", "an"), ("a", "half"), ("half",), ("a",), ("an",)})

SPELT = {"gal": "gallon", "qt": "quart", "oz": "ounce", "pt": "pint"}
_SYSTEMS = each_of(("us | american", US_ML), ("imperial | uk | british | imp", IMPERIAL_ML))
_OFUNITS = {Units.US: US_ML, Units.IMPERIAL: IMPERIAL_ML}
_DEGREES = frozenset({"degrees", "degree", "deg", "\u00b0", "degs"})
_SCALES = {"c": False, "celsius": False, "centigrade": False, "f": True, "fahrenheit": True}
_FREEZING_F, _PER_F = Decimal(32), Decimal(5) / Decimal(9)


class Count(Value):
    """A bare number."""

    value: Decimal


class Volume(Value):
    """A volume told. [mL]."""

    ml: Decimal


class UnclearVolume(Value):
    """A quart, pint, cup, ounce or gallon of an unnamed system."""

    amount: Decimal
    unit: str


class Warmth(Value):
    """A temperature told. [degC]."""

    celsius: Decimal


class Length(Value):
    """A pot's width told. [cm]."""

    cm: Decimal


Measure = Volume | UnclearVolume | Warmth | Length


@lru_cache(maxsize=2048)
def number_at(words: tuple[str, ...], start: int) -> tuple[Decimal, int] | None:
    """Read a number in digits or words, and how many words it took; "a" counts as one before a unit only."""
    if start >= len(words) or (words[start].isalpha() and words[start] not in OPENING):
        return None
    loose = _loose_at(words, start)
    if loose is not None:
        return loose
    told = _whole_at(words, start)
    if told is not None and words[start + told[1] : start + told[1] + len(_AND_A_HALF)] == _AND_A_HALF:
        return told[0] + Decimal("0.5"), told[1] + len(_AND_A_HALF)  # "twenty two and a half"
    return told or _fraction(words[start])


def _whole_at(words: tuple[str, ...], start: int) -> tuple[Decimal, int] | None:
    spelt = _spelt_at(words, start)
    if spelt is not None:
        return Decimal(spelt[0]), spelt[1]
    word = words[start]
    is_number = len(word) <= _MOST_DIGITS and _DIGITS.fullmatch(word)
    return (Decimal(word.replace(",", ".")), 1) if is_number else None


def count_at(words: tuple[str, ...], start: int) -> tuple[Count, int] | None:
    """Read a number that stands for itself: never a mere article."""
    found = number_at(words, start)
    if found is None or words[start : start + found[1]] in _ONLY_BEFORE_A_UNIT or "/" in words[start]:
        return None
    if _THOUSANDS.fullmatch(words[start]):  # nobody counts to three decimals
        return Count(Decimal(words[start].replace(",", "").replace(".", ""))), 1
    return Count(found[0]), found[1]


def measure_at(words: tuple[str, ...], start: int, units: Units = Units.METRIC) -> tuple[Measure, int] | None:
    """Read a number with a unit of volume, temperature or length."""
    found = number_at(words, start)
    if found is None:
        return None
    value, size = found
    rest = words[start + size : start + size + 3]
    if words[start + size + 1 : start + size + 4] == _AND_A_HALF:  # "a litre and a half"
        more = _volume(value + Decimal("0.5"), rest[:1], units)
        if more is not None:
            return more[0], size + more[1] + len(_AND_A_HALF)
    unit: tuple[Measure, int] | None = _volume(value, rest, units)
    unit = unit or _warmth(value, rest, fahrenheit=units is Units.US) or _length(value, rest)
    return None if unit is None else (unit[0], size + unit[1])


def _spelt_at(words: tuple[str, ...], start: int) -> tuple[int, int] | None:
    """Read a number below a thousand in words: "twenty three", "two hundred and fifty"."""
    small = _below_hundred(words, start)
    behind = start + (small[1] if small else 0)
    if words[behind : behind + 1] != ("hundred",) or not (small and 0 < small[0] < 10):  # noqa: PLR2004 - a digit
        return small
    rest_at = behind + 1 + (words[behind + 1 : behind + 2] == ("and",))
    rest = _below_hundred(words, rest_at)
    if rest is None:
        return small[0] * 100, behind + 1 - start
    return small[0] * 100 + rest[0], rest_at + rest[1] - start


def _below_hundred(words: tuple[str, ...], start: int) -> tuple[int, int] | None:
    word = words[start] if start < len(words) else ""
    if word in _TENS:
        unit = UNITS.get(words[start + 1], 0) if start + 1 < len(words) else 0
        return (_TENS[word] + unit, 2) if 0 < unit < 10 else (_TENS[word], 1)  # noqa: PLR2004 - a digit
    return (UNITS[word], 1) if word in UNITS else None


def _loose_at(words: tuple[str, ...], start: int) -> tuple[Decimal, int] | None:
    for size in (4, 3, 2, 1):
        phrase = words[start : start + size]
        if len(phrase) == size and phrase in _LOOSE:
            return _LOOSE[phrase], size
    return None


def _fraction(word: str) -> tuple[Decimal, int] | None:
    match = _FRACTION.fullmatch(word)
    if match is None or int(match[2]) == 0:
        return None
    return Decimal(match[1]) / Decimal(match[2]), 1


def _one(unit: str) -> str:
    unit = SPELT.get(unit, unit)
    return unit[:-1] if len(unit) > 2 and unit.endswith("s") else unit  # noqa: PLR2004 - "us" is no plural


def _volume(value: Decimal, rest: tuple[str, ...], units: Units) -> tuple[Volume | UnclearVolume, int] | None:
    system = _SYSTEMS.get(rest[0]) if rest else None
    named = rest[1:] if system is not None else rest
    skipped = len(rest) - len(named)
    if named[:1] in {("fl",), ("fluid",)}:
        named, skipped = named[1:], skipped + 1
    if not named:
        return None
    unit = _one(named[0])
    if unit in METRIC_ML and not skipped:
        return Volume(value * METRIC_ML[unit]), 1
    if unit not in US_ML:
        return None
    system = system or _OFUNITS.get(units)
    if system is None:
        return UnclearVolume(value, unit), skipped + 1
    return Volume(value * system[unit]), skipped + 1


def _warmth(value: Decimal, rest: tuple[str, ...], *, fahrenheit: bool) -> tuple[Warmth, int] | None:
    size = 0
    if rest[:1] and rest[0] in _DEGREES:
        size, rest = 1, rest[1:]
    if rest[:1] and rest[0] in _SCALES:
        return Warmth(_celsius(value, fahrenheit=_SCALES[rest[0]])), size + 1
    return (Warmth(_celsius(value, fahrenheit=fahrenheit)), size) if size else None


def _celsius(value: Decimal, *, fahrenheit: bool) -> Decimal:
    return ((value - _FREEZING_F) * _PER_F).quantize(Decimal("0.1")) if fahrenheit else value


def _length(value: Decimal, rest: tuple[str, ...]) -> tuple[Length, int] | None:
    if rest[:1] and rest[0] in {"cm", "centimetre", "centimetres", "centimeters"}:
        return Length(value), 1
    if rest[:1] and rest[0] in {"inch", "inches"}:
        return Length((value * INCH_CM).quantize(Decimal("0.01"))), 1
    return None


def whole_count(value: Decimal) -> int | None:
    """Give a number as a count of animals, None where nobody can have counted that."""
    return int(value) if value == int(value) and 0 <= value <= MOST_COUNTED else None


MOST_COUNTED = 100_000
