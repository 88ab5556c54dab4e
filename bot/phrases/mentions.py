"""All that a message, or a part of it, names: plants, what was done or seen, numbers, days, in order."""

from collections.abc import Iterable, Iterator
from datetime import UTC, date, datetime, timedelta
from itertools import pairwise, takewhile
from typing import Any, TypeVar

from bot.actions.action import Command
from bot.actions.log_find import LogFind
from bot.actions.log_round import LogRound
from bot.actions.log_sign import LogSign
from bot.actions.situation import Asked, Situation
from bot.catalogue.load import load
from bot.domain.identity import PlantId
from bot.domain.trade import Grade, Method, Sign
from bot.domain.value import Value, cached_property
from bot.phrases.days import Clock, Day, Moment, Trouble, When, day_ahead, day_behind, meant_hour
from bot.phrases.items import LOOKS_ALONE, Item, OfMonth, Span, Unknown, is_group
from bot.phrases.lexicon import JOINS, Spot, Tool, Word, listed, words_of_class
from bot.phrases.names import OneOf, Pest, Place, Plants, Product, ingredient_of
from bot.phrases.numbers import Count, number_at, whole_count
from bot.phrases.setting import DATES, Setting, unique
from bot.phrases.text import plain
from bot.phrases.values import values_of

_Kind = TypeVar("_Kind")
_LEAVES = listed("leaf leaves stem stems twig twigs branch branches plant plants pot pots shoot shoots")
GROWING = _LEAVES | listed("buds flowers spikes")
_LEAVES_OUT = frozenset(
    {"never", "skipped", "without", "save", "minus", "bar", "besides", "cept", "leaving", "left"}
)
_TO_COME = listed(
    "will would should gonna going want wants need needs must might may could wish plan planning if unless"
    " tomorrow soon supposed hope try always usually"
) | {"have to", "used to"}
NO_PLANTS = words_of_class("idle", "careful") | listed(
    "tonight thru through round got gave given there here stuff bit job thing things water"
)
_SPEAKS = listed("say said shout tell told mention text write wrote report answer reply message log")
GIVING = listed("gave given fed watered")
"""What tells that plants had what tonight asks for; any other plants had water or food."""
_SHORT = 2
_OF_OTHERS = listed("her his their your another")
_MARKS = frozenset({",", ".", "!", "?", "\n", ";", "-", "(", ")", ":"})
BESIDES = listed("too also besides additionally plus extra") | {"as well"}
"""Words of what is told of more, not of the same."""
_JOINTS = frozenset({",", "and", "&", "+", "or", "nor", "n", "the"})
_WHOLE = frozenset({Word.ALL, Word.DONE, Word.DO, Word.CLEAN, Word.NONE, Word.NOTHING, Word.CHECKED})
_NOTHING_SEEN = frozenset({Word.NOTHING, Word.NONE, Word.CLEAN})
_DENIED = frozenset({Word.NOTHING, Word.NONE, Word.LATER, Word.UNTIL})
_LEAVING = frozenset({Word.EXCEPT, Word.NOT, Word.NO_TIME, Word.SKIP, Word.AGAINST, Word.YET})
_DENIES = frozenset({Word.NOT, Word.AGAINST, Word.NOTHING, Word.NONE})
_EXCEPTS = frozenset({Word.EXCEPT, Word.SKIP})
_EXCEPTING = frozenset({"never", "without", "skipped"})
_ONLY = frozenset({"only", "just"})
_PAIR = 2
_FEW = 2
"""So many others of a group are asked about: "both hoyas done". Judgement. [1]"""
_LONGEST_MONTH = 31


class Counted(Value, kw_only=True):
    """Plants told of together, how many were seen on each, of which pest, and where on them."""

    plants: tuple[PlantId, ...]
    amount: int | Grade | None
    pest: str | None
    where: str | None


_WORDY = frozenset({Word, Unknown})


class _Sides(Value):
    """Plants told of, plants left out, and where what leaves them out stands."""

    kept: tuple[PlantId, ...]
    left: tuple[PlantId, ...]
    denials: frozenset[int]


class Mentions(Value, dict=True):
    """What the items of a part of a message name, and the plants of the part before."""

    items: tuple[Item, ...]
    setting: Setting

    @property
    def situation(self) -> Situation:
        """The situation it is read in."""
        return self.setting.situation

    @cached_property
    def words(self) -> frozenset[str]:
        """Its single words."""
        return frozenset(word for item in self.items for word in item.text.split())

    @cached_property
    def _by_kind(self) -> dict[object, list[Any]]:
        found: dict[object, list[Any]] = {}
        for item in self.items:
            found.setdefault(type(item.meaning), []).append(item.meaning)
        return found

    @cached_property
    def calling(self) -> frozenset[object]:
        """Its steering words and ways of doing, and of all else the kinds."""
        return frozenset((*self._by_kind, *self.every((Word, Method))))

    @cached_property
    def _steering(self) -> frozenset[Word]:
        return frozenset(self._by_kind.get(Word, ()))

    def has(self, *sought: Word) -> bool:
        """Whether any of the steering words is in it."""
        return not self._steering.isdisjoint(sought)

    def every(self, kind: type[_Kind] | tuple[type[_Kind], ...]) -> list[_Kind]:
        """All meanings of a kind, in order."""
        if not isinstance(kind, tuple):
            return list(self._by_kind.get(kind, ()))
        if self._by_kind.keys().isdisjoint(kind):
            return []
        found: list[Any] = [item.meaning for item in self.items if type(item.meaning) in kind]
        return found

    def one(self, kind: type[_Kind] | tuple[type[_Kind], ...]) -> _Kind | None:
        """Take the only meaning of a kind; None where there is none, or two that differ."""
        found = list(dict.fromkeys(self.every(kind)))
        return found[0] if len(found) == 1 else None

    def sides(self) -> tuple[tuple[PlantId, ...], tuple[PlantId, ...]]:
        """Give the plants told of, and those left out: by "except", "skipped", "not"."""
        return self._sides.kept, self._sides.left

    def has_left_out(self, at: int) -> bool:
        """Whether the denial or exception at a place leaves out plants that are named."""
        return at in self._sides.denials

    def speaks_of_the_rest(self) -> bool:
        """Whether what is left out is left out of all: "done, not the ivy", not "never did the ivy"."""
        if not self._sides.denials or self.has(Word.EXCEPT, Word.REST):
            return True
        for begin, clause in self._clauses():
            first = next((at for at in range(len(clause)) if begin + at in self._sides.denials), None)
            if first is None:
                continue
            is_behind = any(isinstance(item.meaning, Plants) for item in clause[first:])
            whole = clause[:first] if is_behind else ()
            return any(item.meaning in _WHOLE for item in (*self.items[:begin], *whole))
        return True

    def is_denied_beside(self, at: int) -> bool:
        """Whether a denial stands in the clause of an item."""
        clause = next((one for begin, one in reversed([*self._clauses()]) if begin <= at), self.items)
        return any(leaves_out(item) or item.meaning in _DENIED for item in clause)

    @cached_property
    def denied(self) -> frozenset[object]:
        """Give the ways of doing, products, traces and animals that are said not to be, and nowhere to be."""
        told: tuple[set[object], set[object]] = (set(), set())
        if not (self.has(*_DENIES, *_EXCEPTS) or any(item.text in _EXCEPTING for item in self.items)):
            return frozenset()
        for _, clause in self._clauses():
            is_denied = is_excepted = False
            for item in clause:
                is_number = isinstance(item.meaning, Count | Grade)
                if is_number or item.text in _ONLY:
                    is_denied = is_excepted = False
                elif isinstance(item.meaning, Plants):
                    is_excepted = False  # "except strep 9, and sprayed the rest"
                elif item.meaning in _DENIES or item.text == "never":
                    is_denied = True
                elif item.meaning in _EXCEPTS or item.text in _EXCEPTING:
                    is_excepted = True
                is_way = isinstance(item.meaning, Method | Tool | Product)
                told[is_denied or (is_excepted and is_way)].update(told_by(item))
        return frozenset(told[True] - told[False])

    def denies(self, commands: Iterable[Command]) -> bool:
        """Whether commands would write what is denied: "done except pruning" is no pruning."""
        written = (one for one in commands if isinstance(one, LogRound | LogSign | LogFind))
        return bool(self.denied and self.denied & values_of(written))

    @cached_property
    def _sides(self) -> "_Sides":
        if not (self.has(*_LEAVING, Word.ALL) or any(item.text in _LEAVES_OUT for item in self.items)):
            return _Sides(unique(plant for one in self.every(Plants) for plant in one.ids), (), frozenset())
        kept: list[PlantId] = []
        left: list[PlantId] = []
        denials: set[int] = set()
        was_out = is_all = False
        last: tuple[list[PlantId], bool] = ([], False)
        for begin, clause in self._clauses():
            named = [
                (at, one.meaning.ids) for at, one in enumerate(clause) if isinstance(one.meaning, Plants)
            ]
            is_silent = any(item.text in _SPEAKS for item in clause)  # "sorry I did not say"
            denied = next((at for at in range(len(clause)) if _leaves_out_at(clause, at)), None)
            denied = None if is_silent and not named and denied is not None else denied
            if denied is None and is_all:
                denied = next((at for at, item in enumerate(clause) if _is_all_but(item)), None)
                denied = None if denied is not None and any(map(_does, clause)) else denied
            is_all = is_all or any(item.meaning is Word.ALL for item in clause)
            if denied is None:
                is_list = was_out and all(_joins(item) or isinstance(item.meaning, Plants) for item in clause)
                was_out = is_list
                (left if is_list else kept).extend(plant for _, ids in named for plant in ids)
            else:
                was_out = True
                behind = [plant for at, ids in named if at > denied for plant in ids]
                before = [plant for at, ids in named if at < denied for plant in ids]
                if not named and (not last[1] or any(item.meaning is Word.IT for item in clause)):
                    behind = last[
                        0
                    ]  # "the coffee, however, not"; "only looked at the coffee, did not spray it"
                left.extend(behind or before)
                kept.extend(before if behind else ())
                denials |= {begin + denied} if behind or before else set()
            if named:
                last = [plant for _, ids in named for plant in ids], any(map(_does, clause))
        return _Sides(
            tuple(plant for plant in unique(kept) if plant not in left), unique(left), frozenset(denials)
        )

    def _clauses(self) -> Iterator[tuple[int, tuple[Item, ...]]]:
        """Give the clauses between marks and "but", and where each begins."""
        begin = 0
        for at, item in enumerate(self.items):
            if item.text in _MARKS or item.meaning is Word.BUT:
                yield begin, self.items[begin:at]
                begin = at
        yield begin, self.items[begin:]

    def tells_some_done(self) -> bool:
        """Whether a clause tells of plants, and of no day, that they are done: "sage is done"."""
        named = (one for _, one in self._clauses() if any(isinstance(item.meaning, Plants) for item in one))
        return any(any(map(_does, one)) and not any(map(_is_else, one)) for one in named)

    def plants(self) -> tuple[PlantId, ...]:
        """Give the plants it is about: named, of a place, all, or those of the part before."""
        told, left = self.sides()
        if not told:
            told = self.of_places() or self._pointed_at()
        return tuple(plant for plant in told if plant not in left)

    def opens_with(self, *heads: Word) -> bool:
        """Whether it begins with a clause that tells no more than one of these: "all done, and …"."""
        first = list(takewhile(lambda one: one.meaning not in {Word.BREAK, Word.AND}, self.items))
        is_bare = all(one.meaning in {*heads, Word.DO, Word.ALL, Word.FILLER, Word.IT} for one in first)
        return is_bare and len(first) < len(self.items) and any(one.meaning in heads for one in first)

    def due(self) -> tuple[PlantId, ...]:
        """Give the plants it is about; of a large group that is only told done, those treated tonight."""
        plants = self.plants()
        if self.methods() or self.every(Product):
            return plants
        open_now = self.setting.answered()
        named = [one.meaning for one in self.items if is_group(one)]
        groups = [one.ids for one in named if isinstance(one, Plants)] or [self.of_places()]
        waits = {one for ids in groups if set(ids) & set(open_now) for one in ids if one not in open_now}
        return tuple(one for one in plants if one not in waits) if len(waits) > _FEW else plants

    def last_plants(self) -> tuple[PlantId, ...]:
        """Give the plants that a part behind this one would go on about."""
        named = [item.meaning.ids for item in self.items if isinstance(item.meaning, Plants)]
        return named[-1] if named and self.sides()[1] else self.plants() or self.setting.before

    def of_places(self) -> tuple[PlantId, ...]:
        """Give the plants of the places named."""
        return unique(plant for place in self.every(Place) for plant in self.setting.of_place(place))

    def _pointed_at(self) -> tuple[PlantId, ...]:
        """Give those before for "it" and "them"; for "both" and "all three" so many that were spoken of."""
        setting, many = self.setting, self.how_many()
        if many is None and not setting.before and self.points_at_one():
            return setting.situation.spoken if len(setting.situation.spoken) == 1 else ()
        if many is None:
            return setting.before if self.has(Word.IT, Word.THEM) else ()
        asked = (setting.looks(), setting.treatments())
        asked = asked if self.has(*_NOTHING_SEEN, Word.CHECKED) else asked[::-1]
        known = tuple(one.id for one in self.situation.plants)
        groups = (setting.before, tuple(one.plant for one in self.steps()), *asked, setting.tonight(), known)
        return next((plants for one in groups if len(plants := unique(one)) == many), ())

    def points_at_one(self) -> bool:
        """Whether it tells of one plant without its name: "no bugs on it"."""
        led = (
            one.text in {"on", "from"} and behind.meaning is Word.IT for one, behind in pairwise(self.items)
        )
        return any(led)

    def how_many(self) -> int | None:
        """Give the number of "both", "all three", "all 4 of them"."""
        return _PAIR if self.has(Word.BOTH) else self._number_of(Word.ALL)

    def how_many_left(self) -> int | None:
        """Give the number of "the other two"."""
        return self._number_of(Word.REST)

    def _number_of(self, word: Word) -> int | None:
        ends = (tuple(one.text.split()[-1:]) for one in self.items if one.meaning is word)
        told = [int(number[0]) for end in ends if (number := number_at(end, 0)) is not None and number[0] > 1]
        return told[0] if told else None

    def is_denied(self) -> bool:
        """Whether a denial stands in it that leaves out no plant: "the orchid was not sprayed"."""
        is_of_a_look = bool(self.denied) and not self.every((Method, Tool, Product))  # "did it, no webs"
        is_of_a_look = is_of_a_look or _is_of_products_alone(self.items)  # "wiped the hoya no soap"
        return self.has(Word.NOT, Word.AGAINST, Word.YET) and not self.sides()[1] and not is_of_a_look

    def sees_none(self) -> bool:
        """Whether all that might have been seen is said not to be there: "no webs on the jade"."""
        told = [item for item in self.items if isinstance(item.meaning, Sign | Pest | Count | Grade)]
        return bool(told) and all(self.denied.issuperset(told_by(item) or (None,)) for item in told)

    def excepts(self) -> bool:
        """Whether plants stand behind "except" and none before it: "tomorrow except coffee"."""
        said = [item.meaning for item in self.items if isinstance(item.meaning, Plants | Word)]
        marks = [meaning for meaning in said if meaning is Word.EXCEPT or isinstance(meaning, Plants)]
        return len(marks) > 1 and marks[0] is Word.EXCEPT

    def is_done_but(self) -> bool:
        """Whether it is told done before anything is left out: "done, not the coffee"."""
        first = next((at for at in self._told_done() if self.items[at].meaning is Word.DONE), None)
        return first is not None and all(at > first for at in self._sides.denials)

    def is_done_but_for_a_way(self) -> bool:
        """Whether all is told done but what is denied: "done, no pruning", "all except the pruning"."""
        first = next((at for at, item in enumerate(self.items) if leaves_out(item)), None)
        if first is None:
            return False
        is_led = self.items[first].meaning is Word.EXCEPT
        return any(is_led or at < first for at in self._told_done())

    def _told_done(self) -> Iterator[int]:
        """Give where it says "done" or "all", but for "I did not prune the fig"."""
        for at, (one, behind) in enumerate(pairwise((*self.items, Item(Word.FILLER, "")))):
            is_not = behind.meaning is Word.NOT or behind.text == "never"
            is_denied = is_not and one.text.endswith("did")
            if one.meaning in {Word.DONE, Word.ALL} and not is_denied:
                yield at

    def is_ahead(self) -> bool:
        """Whether it speaks of what is to come, is wished or supposed."""
        said = [item.text for item in self.items if type(item.meaning) in _WORDY and not _is_as_told(item)]
        return (
            not _TO_COME.isdisjoint((*said, *" ".join(said).split()))
            or "tomorrow" in self.words
            or any(one.text == "to be" and isinstance(do.meaning, Method) for one, do in pairwise(self.items))
            or any(day.on > self.situation.today for day in self.every(Day))
        )

    def names_another(self) -> bool:
        """Whether a plant is called what no plant here is called: "big hoya", where there is one hoya."""
        pairs = list(zip(self.items, (*self.items[1:], None), strict=False))
        if any(
            isinstance(one.meaning, OneOf) and not (behind and isinstance(behind.meaning, Plants))
            for one, behind in pairs
        ):
            return True
        return any(
            right is not None
            and isinstance(right.meaning, Plants)
            and (left.text in _OF_OTHERS or (isinstance(left.meaning, Unknown) and left.text in LOOKS_ALONE))
            for left, right in pairs
        )

    def strangers(self) -> list[str]:
        """Give the words nobody knows that may be a plant that is not here."""
        strange = (one.text for one in self.items if isinstance(one.meaning, Unknown))
        return [text for text in strange if len(text) > _SHORT and text not in NO_PLANTS]

    def names_no_plant_known(self) -> bool:
        """Whether a word nobody knows stands where a plant would: "sprayed the fern"."""
        led = (
            (before.text, item)
            for before, item in zip(self.items, self.items[1:], strict=False)
            if isinstance(item.meaning, Unknown)
        )
        return not self.plants() and any(before in {"the", "my", "our"} for before, _ in led)

    def days(self) -> list[When | OfMonth]:
        """Give the days told, in order."""
        return self.every((*DATES, OfMonth))

    def behind(self) -> date | Trouble | None:
        """Give the day of something done; None is today. Two that differ are unclear."""
        told = dict.fromkeys(_as_date(day, self.situation, ahead=False) for day in self.days())
        dates = {day for day in told if isinstance(day, date)}
        if len(dates) == 1:
            return next(iter(dates))
        return (Trouble.UNCLEAR if dates else next(iter(told))) if told else self.setting.on

    def date_of(self, day: When | OfMonth, *, ahead: bool) -> date | Trouble:
        """Give the date of a day told."""
        return _as_date(day, self.situation, ahead=ahead)

    def is_named_in_full(self, place: Item) -> bool:
        """Whether a place is called by its name, not by a word of it."""
        names = {plain(one.name) for one in self.situation.places if Place(one.id) == place.meaning}
        return place.text in names

    def ahead(self) -> date | Trouble | None:
        """Give the last day told that is still to come; None where none is told."""
        told = [_as_date(day, self.situation, ahead=True) for day in self.days()]
        spans = [self.situation.today + timedelta(days=span.days) for span in self.every(Span)]
        dates = [day for day in (*told, *spans) if isinstance(day, date) and day > self.situation.today]
        return dates[-1] if dates else next(iter(told), None)

    def hour(self, *, latest: int) -> datetime | None:
        """Give the moment of today told by a clock or by hours from now."""
        moment, clock = self.one(Moment), self.one(Clock)
        if moment is not None:
            return moment.at.astimezone(UTC)
        if clock is None:
            return None
        told = datetime.combine(self.situation.today, meant_hour(clock, latest=latest), self.situation.zone)
        return told.astimezone(UTC)

    def methods(self) -> tuple[Method, ...]:
        """Give what was done."""
        told = self.every(Method) or ([Method.PREDATORS] if self.is_let_loose() else [])
        told = told or [tool.method for tool in self.every(Tool)]
        return tuple(dict.fromkeys(told))

    def steps(self) -> tuple[Asked, ...]:
        """Give the parts of tonight's lines that it names by what is done, or by what with."""
        ways, products = self.methods(), {one.id for one in self.every(Product)} - {None}
        return tuple(one for one in self.situation.tonight if one.method in ways or one.product in products)

    def is_given(self) -> bool:
        """Whether plants are told to have had what tonight asks them to be given: "the hoya got its soap"."""
        asked = {one.plant for one in self.steps()} if self.every(Product) else ()
        is_theirs = any(
            isinstance(one.meaning, Plants) or one.meaning in {Word.ALL, Word.BOTH, Word.THEM}
            for one, behind in pairwise(self.items)
            if "got" in behind.text.split()
        )
        plants = self.plants() or (self.setting.answered() if self.has(Word.ALL, Word.THEM) else ())
        return (is_theirs or bool(self.words & GIVING)) and bool(plants) and set(plants) <= set(asked)

    def is_let_loose(self) -> bool:
        """Tell of "released phytoseiulus on the ivy": animals come onto the plant, which stays."""
        kind = load().products.get(self.ingredient() or "") if self.has(Word.RELEASE, Word.PUT) else None
        return kind is not None and kind.is_alive

    def ingredient(self) -> str | None:
        """Give the catalogue's key of the product named."""
        product = self.one(Product)
        return None if product is None else ingredient_of(product, self.situation)

    def counted(self) -> list[Counted]:
        """
        Pair numbers, pests and plants as they stand: "60 mites on the mint, 2 on the lemon, basil clean".

        Numbers stand before their plants or behind them, the same way all through a message.
        """
        amounts, groups = self._amounts if self.amounts() else [], self._groups()
        if not groups or (amounts and len(amounts) not in {1, len(groups)}):
            return []
        if len(amounts) == 1 and len(groups) > 1:
            merged = unique(plant for _, plants in groups for plant in plants)
            groups = [(groups[-1][0], merged)]
        pests = [(at, one.meaning.key) for at, one in enumerate(self.items) if isinstance(one.meaning, Pest)]
        begun = [min(at, amounts[number][0] if amounts else at) for number, (at, _) in enumerate(groups)]
        paired: list[Counted] = []
        for number, (at, plants) in enumerate(groups):
            near = min(pests, key=lambda pest: abs(pest[0] - at), default=(at, None))
            told = pests[number] if len({key for _, key in pests}) > 1 and len(pests) == len(groups) else near
            amount = amounts[number][1] if amounts else None
            paired.append(
                Counted(plants=plants, amount=amount, pest=told[1], where=self._where(begun, number))
            )
        return paired

    def _where(self, begun: list[int], number: int) -> str | None:
        """Give where on a group it was seen: said of all before the first or behind the last, else of one."""
        spot = self.one(Spot)
        at = next((at for at, item in enumerate(self.items) if item.meaning == spot), 0)
        is_of_all = at < begun[0] or at > begun[-1]
        is_here = begun[number] < at < (*begun, len(self.items))[number + 1]
        return spot.name if spot is not None and (is_of_all or is_here) else None

    def amounts(self) -> list[int | Grade]:
        """Give numbers and grades, in order."""
        return [amount for at, amount in self._amounts if self.items[at].meaning not in _NOTHING_SEEN]

    @cached_property
    def _amounts(self) -> list[tuple[int, int | Grade]]:
        """Give numbers, grades and "clean" by where they stand; a grade beside a number adds nothing."""
        found: list[tuple[int, int | Grade]] = []
        is_beside = False
        for at, item in enumerate(self.items):
            is_beside = is_beside and not isinstance(item.meaning, Plants)
            value: int | Grade | None = None
            if isinstance(item.meaning, Grade) and not self._is_of_leaves(at):
                value = item.meaning
            behind = self.items[at + 1].text if at + 1 < len(self.items) else ""
            if item.meaning in _NOTHING_SEEN and not self.has(Word.NOT):
                value = 0
            if isinstance(item.meaning, Count) and behind not in _LEAVES:  # "hoya has 5 leaves"
                value = whole_count(item.meaning.value)
            if value is None:
                continue
            last = found[-1][1] if found else None
            if is_beside and (last == value or isinstance(value, Grade)):
                continue
            if is_beside and isinstance(last, Grade):
                found[-1] = (at, value)
            else:
                found.append((at, value))
            is_beside = True
        return found

    def _is_of_leaves(self, at: int) -> bool:
        """Whether a grade counts what grows: "many buds", "a few brown leaves"."""
        behind = (one.text for one in self.items[at + 1 :] if not isinstance(one.meaning, Unknown))
        return next(behind, "") in GROWING

    def _groups(self) -> list[tuple[int, tuple[PlantId, ...]]]:
        """Give plants that stand together as one, "mint and basil", unless a number parts them."""
        groups: list[tuple[int, tuple[PlantId, ...]]] = []
        is_open = False
        for at, item in enumerate(self.items):
            if isinstance(item.meaning, Plants):
                if is_open and groups:
                    groups[-1] = (at, unique((*groups[-1][1], *item.meaning.ids)))
                else:
                    groups.append((at, item.meaning.ids))
                is_open = True
            elif item.text not in _JOINTS:
                is_open = False
        if (
            len(groups) > 1
            and len(groups[0][1]) > 1
            and all(set(ids) <= set(groups[0][1]) for _, ids in groups[1:])
        ):
            groups = groups[1:]
        once: dict[tuple[PlantId, ...], int] = {}
        for at, ids in groups:
            once.setdefault(ids, at)
        return [(at, ids) for ids, at in once.items()]


def _as_date(told: When | OfMonth, situation: Situation, *, ahead: bool) -> date | Trouble:
    if isinstance(told, OfMonth):
        return _near(told.day, situation.today, ahead=ahead)
    return day_ahead(told, situation) if ahead else day_behind(told, situation)


def told_by(item: Item) -> tuple[object, ...]:
    """Give what an item would write: a way of doing, a product, a trace, an animal."""
    match item.meaning:
        case Word() | Plants() | Unknown():
            return ()
        case Method() | Sign():
            return (item.meaning,)
        case Tool(method=method):
            return (method,)
        case Product(id=identity, ingredient=key):
            return tuple(one for one in (identity, key) if one is not None)
        case Pest(key=key):
            return (key,)
        case _:
            return ()


def _is_as_told(item: Item) -> bool:
    """Whether it says no more than that it was done as somebody wants it: "like you want"."""
    return item.meaning is Word.FILLER and " you " in item.text


def _is_all_but(item: Item) -> bool:
    return item.text in _ONLY or item.meaning is Word.BUT


def _does(item: Item) -> bool:
    """Whether it tells that something was done, so that a denial behind it denies something else."""
    return isinstance(item.meaning, Method | Tool) or item.meaning in {Word.DONE, Word.CHECKED, Word.CLEAN}


def _is_else(item: Item) -> bool:
    """Whether a word keeps its clause from telling of what was done: a denial, a day, a task."""
    is_ahead = isinstance(item.meaning, (Tool, *DATES)) or item.meaning in {Word.DO, Word.HEDGE, Word.NOT}
    return is_ahead or leaves_out(item) or item.meaning in _DENIED


def leaves_out(item: Item) -> bool:
    """Whether a word leaves out what is named beside it."""
    return item.meaning in _LEAVING or item.text in _LEAVES_OUT


def _is_of_products_alone(items: tuple[Item, ...]) -> bool:
    """Whether, behind a treatment, each denial is of a product: "wiped the hoya no soap"."""
    denials = [at for at, one in enumerate(items) if one.meaning in {Word.NOT, Word.AGAINST, Word.YET}]
    done = next((at for at, one in enumerate(items) if isinstance(one.meaning, Method)), len(items))
    return bool(denials) and all(
        at > done
        and items[at].text == "no"
        and any(isinstance(one.meaning, Product) for one in items[at + 1 : at + 2])
        for at in denials
    )


def _leaves_out_at(clause: tuple[Item, ...], at: int) -> bool:
    if _is_of_products_alone(clause):
        return False
    if not leaves_out(clause[at]) or clause[at].text != "left":
        return leaves_out(clause[at])
    return not any(isinstance(item.meaning, Count | Grade) for item in clause[:at])  # "hoya had 3 left"


def _joins(item: Item) -> bool:
    return item.meaning in JOINS or item.text in _MARKS


def _near(day: int, today: date, *, ahead: bool) -> date | Trouble:
    """Give the nearest such day of a month, behind or ahead."""
    step = timedelta(days=1 if ahead else -1)
    on = today + step if ahead else today
    for _ in range(2 * _LONGEST_MONTH):
        if on.day == day:
            return on
        on += step
    return Trouble.NO_SUCH_DAY
