"""All that a message, or a part of it, names: plants, what was done or seen, numbers, days, in order."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import TypeVar

from bot.actions.situation import Situation
from bot.domain.identity import PlantId
from bot.domain.trade import Grade, Method
from bot.phrases.clause import DATES, Setting, unique
from bot.phrases.days import (
    WEEKDAYS,
    Clock,
    Day,
    Moment,
    MonthDay,
    Murky,
    Trouble,
    Weekday,
    When,
    day_ahead,
    day_behind,
    evening_hour,
)
from bot.phrases.items import Item, Unknown, items_of
from bot.phrases.lexicon import Tool, Word, listed
from bot.phrases.names import OneOf, Pest, Place, Plants, Product, ingredient_of, names_of
from bot.phrases.numbers import Count

_Kind = TypeVar("_Kind")
_LEAVES_OUT = frozenset({"skipped", "without", "save", "minus", "bar", "besides", "cept", "leaving", "left"})
_TO_COME = listed(
    "will would should gonna going want wants need needs must might may could wish plan planning if unless"
    " tomorrow soon supposed hope try"
)
NO_PLANTS = listed("tonight thru through round got gave given there here stuff bit job thing things water")
_SHORT = 2
_LOOKS = listed(
    "small big little large tall mini baby old new young white red pink purple green yellow other second"
)
_JOINTS = frozenset({",", "and", "&", "+", "or", "nor", "n", "the"})
_ENDS = frozenset({".", "!", "?", "\n", ";"})
_PAIR = 2
_ORDINALS = frozenset({"st", "nd", "rd", "th"})
_NUMBER = frozenset({"number", "no", "nr", "#", "the number", "the", "not"})
_MINUTES = {"minute": 1, "hour": 60}
_LONGEST_MONTH = 31


@dataclass(frozen=True, slots=True)
class OfMonth:
    """A day of a month that is not named: "the 15th"."""

    day: int


def mentioned(words: tuple[str, ...], situation: Situation) -> tuple[Item, ...]:
    """Read words into items more freely than for what is sure: short days, spans, numbers of a name."""
    items = list(items_of(words, situation))
    names, base = names_of(situation), None
    found: list[Item] = []
    at = 0
    while at < len(items):
        item = items[at]
        text = item.text
        based = names.base_at(tuple(text.split()), 0)
        base = based[0] if based is not None else base
        freely = _freely(items, at, situation, base)
        if freely is not None:
            found.append(freely[0])
            at += freely[1]
        else:
            found.append(item)
            at += 1
    return tuple(found)


def _freely(
    items: list[Item], at: int, situation: Situation, base: tuple[str, ...] | None
) -> tuple[Item, int] | None:
    item = items[at]
    behind = items[at + 1].text if at + 1 < len(items) else ""
    if isinstance(item.meaning, Unknown) and item.text in WEEKDAYS:
        return Item(Weekday(WEEKDAYS[item.text]), item.text), 1
    if not isinstance(item.meaning, Count):
        return None
    number = int(item.meaning.value)
    before = items[at - 1].text if at else ""
    if behind in _ORDINALS and 1 <= number <= _LONGEST_MONTH:
        return Item(OfMonth(number), item.text), 2  # type: ignore[arg-type]
    if behind.removesuffix("s") in _MINUTES and number:
        return Item(_moment(number * _MINUTES[behind.removesuffix("s")], situation, items, at), item.text), 2
    if behind in {"days", "day"} and before == "there is":
        return Item(Day(situation.today - timedelta(days=number)), item.text), 2
    plant = names_of(situation).numbered(base, number) if base and before in _NUMBER else None
    return None if plant is None else (Item(Plants((plant,)), item.text), 1)


def _moment(minutes: int, situation: Situation, items: list[Item], at: int) -> Moment:
    """Take "30 minutes" as ahead, "there is one hour" and "an hour ago" as behind."""
    is_past = "there is" in {one.text for one in items[max(0, at - 2) : at]}
    is_past = is_past or any(one.text == "ago" for one in items[at + 2 : at + 3])
    return Moment(situation.now + timedelta(minutes=-minutes if is_past else minutes))


@dataclass(frozen=True, slots=True)
class Mentions:
    """What the items of a part of a message name, and the plants of the part before."""

    items: tuple[Item, ...]
    setting: Setting

    @property
    def situation(self) -> Situation:
        """The situation it is read in."""
        return self.setting.situation

    @property
    def words(self) -> frozenset[str]:
        """Its single words."""
        return frozenset(word for item in self.items for word in item.text.split())

    def has(self, *sought: Word) -> bool:
        """Whether any of the steering words is in it."""
        return any(item.meaning in sought for item in self.items if isinstance(item.meaning, Word))

    def every(self, kind: type[_Kind] | tuple[type[_Kind], ...]) -> list[_Kind]:
        """All meanings of a kind, in order."""
        return [item.meaning for item in self.items if isinstance(item.meaning, kind)]

    def one(self, kind: type[_Kind] | tuple[type[_Kind], ...]) -> _Kind | None:
        """Take the only meaning of a kind; None where there is none, or two that differ."""
        found = list(dict.fromkeys(self.every(kind)))
        return found[0] if len(found) == 1 else None

    def sides(self) -> tuple[tuple[PlantId, ...], tuple[PlantId, ...]]:
        """Give the plants told of, and those left out: behind "except", "skipped", before "not"."""
        kept: list[PlantId] = []
        left: list[PlantId] = []
        is_out = False
        for at, item in enumerate(self.items):
            if item.meaning is Word.EXCEPT or item.text in _LEAVES_OUT or self._denies_a_plant(at):
                is_out = True
            elif item.text in _ENDS or item.meaning is Word.BUT or self._begins_anew(item):
                is_out = False
            elif isinstance(item.meaning, Plants):
                (left if is_out or self._is_denied_behind(at) else kept).extend(item.meaning.ids)
        return unique(kept), unique(left)

    def _is_denied_behind(self, at: int) -> bool:
        """Whether a plant is left out behind its name: "the coffee however not", "only the hoya not"."""
        behind = [item for item in self.items[at + 1 : at + 4] if item.meaning is not Word.FILLER]
        if not behind or at == 0:
            return False
        is_denied = behind[0].meaning in {Word.NOT, Word.YET} or (
            behind[0].meaning is Word.BUT and len(behind) > 1 and behind[1].meaning is Word.NOT
        )
        follows = self.items[at + 1 + self.items[at + 1 :].index(behind[0]) + 1 :][:1]
        return is_denied and (not follows or follows[0].text in _ENDS or follows[0].text == ",")

    def _denies_a_plant(self, at: int) -> bool:
        """Whether "not" leads straight to a plant, as in "sprayed all, not the ivy"."""
        if self.items[at].meaning is not Word.NOT or at == 0:
            return False
        behind = [one for one in self.items[at + 1 : at + 4] if one.text not in {"the", "my", "our"}]
        return bool(behind) and isinstance(behind[0].meaning, Plants)

    @staticmethod
    def _begins_anew(item: Item) -> bool:
        return isinstance(item.meaning, Method) or item.meaning in {Word.CHECKED, Word.SAW, Word.DONE}

    def plants(self) -> tuple[PlantId, ...]:
        """Give the plants it is about: named, of a place, all, or those of the part before."""
        told, left = self.sides()
        if not told:
            told = self._pointed_at()
        return tuple(plant for plant in told if plant not in left)

    def _pointed_at(self) -> tuple[PlantId, ...]:
        places = self.every(Place)
        if places:
            return unique(plant for place in places for plant in self.setting.of_place(place))
        if self.has(Word.BOTH):
            asked = self.setting.before or self.setting.treatments() or self.setting.tonight()
            return asked if len(asked) == _PAIR else ()
        if self.has(Word.IT, Word.THEM) and self.setting.before:
            return self.setting.before
        return ()

    def names_all(self) -> bool:
        """Whether it speaks of everything."""
        return self.has(Word.ALL) and not self.sides()[0] and not self.every(Place)

    def is_denied(self) -> bool:
        """Whether a denial stands in it that leaves out no plant: "the orchid was not sprayed"."""
        return self.has(Word.NOT, Word.AGAINST) and not self.sides()[1]

    def is_ahead(self) -> bool:
        """Whether it speaks of what is to come, is wished or supposed."""
        return bool(self.words & _TO_COME)

    def names_another(self) -> bool:
        """Whether a plant is called what no plant here is called: "big hoya", where there is one hoya."""
        if self.every(OneOf):
            return True
        pairs = zip(self.items, self.items[1:], strict=False)
        return any(
            isinstance(left.meaning, Unknown) and left.text in _LOOKS and isinstance(right.meaning, Plants)
            for left, right in pairs
        )

    def has_stranger(self) -> bool:
        """Whether a word nobody knows may be a plant that is not here."""
        return any(
            isinstance(item.meaning, Unknown) and len(item.text) > _SHORT and item.text not in NO_PLANTS
            for item in self.items
        )

    def names_no_plant_known(self) -> bool:
        """Whether a word nobody knows stands where a plant would: "sprayed the fern"."""
        led = (
            (before.text, item)
            for before, item in zip(self.items, self.items[1:], strict=False)
            if isinstance(item.meaning, Unknown)
        )
        return not self.plants() and any(before in {"the", "my", "our"} for before, _ in led)

    def day(self) -> When | None:
        """Take the day told."""
        return next((item.meaning for item in self.items if isinstance(item.meaning, DATES)), None)

    def behind(self) -> date | Trouble | None:
        """Give the day of something done; None is today."""
        of_month = self.one(OfMonth)
        if of_month is not None:
            return _near(of_month.day, self.situation.today, ahead=False)
        day = self.day()
        return None if day is None else day_behind(day, self.situation)

    def ahead(self) -> date | Trouble | None:
        """Give the last day told that is still to come; None where none is told."""
        of_month = self.one(OfMonth)
        if of_month is not None:
            return _near(of_month.day, self.situation.today, ahead=True)
        days = [one for one in self.every(DATES) if isinstance(one, Day | Weekday | MonthDay | Murky)]
        return day_ahead(days[-1], self.situation) if days else None

    def hour(self, *, latest: int) -> datetime | None:
        """Give the moment of today told by a clock or by hours from now."""
        moment, clock = self.one(Moment), self.one(Clock)
        if moment is not None:
            return moment.at.astimezone(UTC)
        if clock is None:
            return None
        told = datetime.combine(
            self.situation.today, evening_hour(clock.time, latest=latest), self.situation.zone
        )
        return told.astimezone(UTC)

    def method(self) -> Method | None:
        """Give what was done."""
        told = dict.fromkeys(self.every(Method) or [tool.method for tool in self.every(Tool)])
        return next(iter(told)) if len(told) == 1 else None

    def ingredient(self) -> str | None:
        """Give the catalogue's key of the product named."""
        product = self.one(Product)
        return None if product is None else ingredient_of(product, self.situation)

    def counted(self) -> Iterator[tuple[int | Grade | None, str | None, tuple[PlantId, ...]]]:
        """Pair numbers, pests and plants as they stand: "60 mites on the mint and 2 on the lemon"."""
        amounts = [
            (at, item.meaning)
            for at, item in enumerate(self.items)
            if isinstance(item.meaning, Count | Grade)
        ]
        groups = self._groups()
        pests = [(at, item.meaning) for at, item in enumerate(self.items) if isinstance(item.meaning, Pest)]
        if not groups or (len(amounts) > 1 and len(amounts) != len(groups)):
            return
        for number, (at, plants) in enumerate(groups):
            amount = amounts[number][1] if len(amounts) == len(groups) else None
            if len(amounts) == 1 and len(groups) == 1:
                amount = amounts[0][1]
            value = amount if isinstance(amount, Grade) or amount is None else _whole(amount)
            near = sorted(pests, key=lambda pest: abs(pest[0] - at))
            yield value, near[0][1].key if near else None, plants

    def _groups(self) -> list[tuple[int, tuple[PlantId, ...]]]:
        """Give plants that stand together as one, "mint and basil", unless a number parts them."""
        groups: list[tuple[int, tuple[PlantId, ...]]] = []
        is_open = False
        for at, item in enumerate(self.items):
            if isinstance(item.meaning, Plants):
                if is_open and groups:
                    groups[-1] = (at, (*groups[-1][1], *item.meaning.ids))
                else:
                    groups.append((at, item.meaning.ids))
                is_open = True
            elif item.text not in _JOINTS:
                is_open = False
        return groups


def _near(day: int, today: date, *, ahead: bool) -> date | Trouble:
    """Give the nearest such day of a month, behind or ahead."""
    step = timedelta(days=1 if ahead else -1)
    on = today + step if ahead else today
    for _ in range(2 * _LONGEST_MONTH):
        if on.day == day:
            return on
        on += step
    return Trouble.NO_SUCH_DAY


def _whole(count: Count) -> int | None:
    value = count.value
    return int(value) if value == int(value) and 0 <= value <= 100_000 else None  # noqa: PLR2004 - nobody counts more
