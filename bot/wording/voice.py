"""What a sentence needs besides its outcome: today, the household's clocks and its measures."""

import re
from collections.abc import Sequence
from collections.abc import Set as AbstractSet
from datetime import date, datetime, time
from decimal import Decimal
from zoneinfo import ZoneInfo

from bot.domain.measure import IMPERIAL_ML, INCH_CM, METRIC_ML, TEASPOON_ML, US_ML, Units
from bot.domain.value import Value
from bot.wording.days import listed

_LITRE = METRIC_ML["litre"]
_SPOONS_TO_A_TABLESPOON = 3
_MOST_TABLESPOONS = 4
"""Above so many spoons people take a cup. Judgement. [1]"""
NAMED = 3
"""Fewer plants than these are always named. Judgement. [1]"""
MANY = 5
"""More plants than these are told of as a number first. Judgement. [1]"""

_DATE = re.compile(r"\b((?:Mon|Tue|Wed|Thu|Fri|Sat|Sun)) (\d{1,2}) ([A-Z][a-z]{2})\b")
_WARMTH = re.compile(r"(-?\d+(?:\.\d+)?) °C")
_LENGTH = re.compile(r"(\d+) cm\b")


class Voice(Value):
    today: date
    zone: ZoneInfo
    units: Units = Units.METRIC
    clock_hours: int = 24
    standing: tuple[tuple[str, tuple[str, ...]], ...] = ()
    """Every place with all plants that stand there."""

    def plants(self, names: Sequence[str]) -> str:
        """
        Name plants, by place where that is shorter: "all 4 at landing, all but ivy at study".

        Every one is named, alone or in the "all" of its place: who is not must not be taken for meant.
        """
        if len(names) < NAMED:
            return listed(names)
        return min(listed(names), self._by_place(names), key=len)

    def _by_place(self, names: Sequence[str]) -> str:
        parts, left = [], list(dict.fromkeys(names))
        if set(left) == {name for _, there in self.standing for name in there}:
            return f"all {len(left)} plants"
        for place, there in self.standing:
            here = [name for name in there if name in left]
            others = [name for name in there if name not in here]
            if len(here) >= NAMED and len(others) < len(here):
                but = f" but {listed(others)}" if others else ""
                parts.append(f"all {len(here) if not but else ''}".rstrip() + f"{but} at {place}")
                left = [name for name in left if name not in here]
        return listed([*parts, *left])

    def places(self, names: AbstractSet[str]) -> str:
        return listed(place for place, there in self.standing if names & set(there))

    def clock(self, at: time | datetime) -> str:
        """Say a clock time, an instant by the household's clocks: "20:00", "8 pm"."""
        local = at.astimezone(self.zone) if isinstance(at, datetime) and at.tzinfo is not None else at
        if self.clock_hours == 24:  # noqa: PLR2004 - hours of a day
            return f"{local.hour:02d}:{local.minute:02d}"
        minutes = f":{local.minute:02d}" if local.minute else ""
        return f"{(local.hour - 1) % 12 + 1}{minutes} {'am' if local.hour < 12 else 'pm'}"  # noqa: PLR2004 - noon

    def length(self, cm: float) -> str:
        return f"{cm:g} cm" if self.units is not Units.US else f"{cm / float(INCH_CM):.2g} in"

    @property
    def batch(self) -> str:
        """An amount of spray as one would mix it."""
        return "750 ml" if self.units is Units.METRIC else "1 quart"

    @property
    def example_rate(self) -> str:
        """A rate as a label there gives it."""
        return "5 ml per litre" if self.units is Units.METRIC else "2 tsp per gallon"

    def local(self, text: str) -> str:
        """Say a text in the household's order of dates and units, whatever file or table it is from."""
        if self.units is not Units.US:
            return text
        text = _DATE.sub(r"\1 \3 \2", text)
        text = _WARMTH.sub(lambda found: self.warmth(float(found[1])), text)
        return _LENGTH.sub(lambda found: self.length(float(found[1])), text)

    def warmth(self, celsius: float) -> str:
        if self.units is Units.US:
            return f"{round(celsius * 1.8 + 32)} °F"
        return f"{celsius:g} °C"

    def volume(self, ml: Decimal) -> str:
        """Say a volume [mL] in the household's measures."""
        if self.units is Units.METRIC:
            return f"{plain(ml / _LITRE)} L" if ml >= _LITRE else f"{plain(ml)} mL"
        table = US_ML if self.units is Units.US else IMPERIAL_ML
        if ml >= table["gallon"]:
            return f"{_short(ml / table['gallon'])} {self.units_word} gal"
        if ml >= table["ounce"] * 2:
            return f"{_short(ml / table['ounce'])} fl oz"
        return self.spoons(ml)

    @property
    def units_word(self) -> str:
        """Whose gallons they are."""
        return "US" if self.units is Units.US else "imperial"

    def spoons(self, ml: Decimal) -> str:
        """Say an amount [mL] in the household's spoons, to an eighth of a teaspoon."""
        eighths = int((ml / TEASPOON_ML[self.units] * 8).quantize(Decimal(1)))
        if not eighths and ml:
            return f"less than {_eighths(1)} tsp"
        tablespoons, rest = divmod(eighths, 8 * _SPOONS_TO_A_TABLESPOON)
        parts = [f"{tablespoons} tbsp"] if tablespoons else []
        if rest or not parts:
            parts.append(f"{_eighths(rest)} tsp")
        return " + ".join(parts)

    def rate(self, ml_per_l: Decimal) -> str:
        """Say how much of a product goes into how much spray [mL/L]."""
        if self.units is Units.METRIC:
            return f"{plain(ml_per_l) if ml_per_l < 1 else _short(ml_per_l)} mL per litre"
        table = US_ML if self.units is Units.US else IMPERIAL_ML
        in_a_gallon = ml_per_l * table["gallon"] / _LITRE
        ounces = in_a_gallon / table["ounce"]
        is_small = in_a_gallon < TEASPOON_ML[self.units] * _SPOONS_TO_A_TABLESPOON * _MOST_TABLESPOONS
        in_ounces = not is_small or (self.units is Units.IMPERIAL and not ounces * 4 % 1)
        said = f"{_short(ounces)} fl oz" if in_ounces else self.spoons(in_a_gallon)
        return f"{said} per {self.units_word} gallon"


def plain(number: Decimal) -> str:
    """Say a number without a tail of noughts, to three places at most."""
    return f"{number.quantize(Decimal('0.001')).normalize():f}"


def _short(number: Decimal) -> str:
    return plain(number.quantize(Decimal("0.1") if number >= 10 else Decimal("0.01")))  # noqa: PLR2004 - reading


def _eighths(spoons: int) -> str:
    whole, rest = divmod(spoons, 8)
    part = ("", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞")[rest]
    return f"{whole or ''}{part}" or "0"
