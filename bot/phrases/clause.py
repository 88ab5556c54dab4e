"""One clause of a message: its items, and what may be asked of them."""

from collections.abc import Iterable
from datetime import date
from typing import TypeVar

from bot.actions.add_plants import NewPlant
from bot.actions.situation import Situation
from bot.domain.identity import PlantId
from bot.domain.trade import Method
from bot.domain.value import dataclass
from bot.phrases.days import Clock, Day, Moment, MonthDay, Murky, Period, Weekday, When
from bot.phrases.items import Item, Meaning
from bot.phrases.lexicon import Word
from bot.phrases.names import Pest, Place, Plants

_Kind = TypeVar("_Kind")
DATES = (Day, Weekday, MonthDay, Murky, Period)
TIMES = (*DATES, Moment, Clock)
_REPEATABLE = (Plants, Word, Pest, Method)


@dataclass(frozen=True, slots=True)
class Clause:
    """Items that are understood together, and the mark or word that stood before them."""

    items: tuple[Item, ...]
    joint: str = ""

    def has(self, *sought: Word) -> bool:
        """Whether any of the words is in it."""
        return any(item.meaning in sought for item in self.items if isinstance(item.meaning, Word))

    def every(self, kind: type[_Kind] | tuple[type[_Kind], ...]) -> list[_Kind]:
        """All meanings of a kind, in order."""
        return [item.meaning for item in self.items if isinstance(item.meaning, kind)]

    def one(self, kind: type[_Kind] | tuple[type[_Kind], ...]) -> _Kind | None:
        """Take the first meaning of a kind; `only` makes sure that there is no second."""
        return next(iter(self.every(kind)), None)

    def day(self) -> When | None:
        """Take the day told, in whatever form."""
        return next((item.meaning for item in self.items if isinstance(item.meaning, DATES)), None)

    def content(self) -> list[Meaning]:
        """Every meaning but fillers."""
        return [item.meaning for item in self.items if item.meaning is not Word.FILLER]

    def only(self, *allowed: Word | type) -> bool:
        """Whether nothing else is in it, and no kind of value twice: what is told is never dropped."""
        kinds = tuple(kind for kind in allowed if isinstance(kind, type))
        content = self.content()
        if not all(meaning in allowed or isinstance(meaning, kinds) for meaning in content):
            return False
        single = [_family(meaning) for meaning in content if not isinstance(meaning, _REPEATABLE)]
        return len(single) == len(set(single))

    def text(self) -> str:
        """Quote the clause as it was typed, nearly."""
        return " ".join(item.text for item in self.items)

    def with_more(self, other: "Clause") -> "Clause":
        """Join the clause and another one's items."""
        joint = Item(Word.FILLER, other.joint)
        return Clause((*self.items, joint, *other.items), self.joint)


def _family(meaning: Meaning) -> type:
    return Day if isinstance(meaning, TIMES) else type(meaning)


@dataclass(frozen=True, slots=True)
class Setting:
    """What a clause is read in: the household, and the plants of the clause before."""

    situation: Situation
    before: tuple[PlantId, ...] = ()
    mentioned: tuple[PlantId, ...] = ()
    is_first: bool = True
    on: date | None = None
    """The day of the clause before, where it holds for what follows."""
    pest: str | None = None
    """The pest of the clause before."""
    stocked: str | None = None
    """The ingredient that the clause before put on the shelf."""

    def about(self) -> tuple[PlantId, ...]:
        """Plants that the open question asks about."""
        offered = (command for choice in self.situation.choices for command in choice.commands)
        plants = (plant for one in offered for plant in getattr(one, "plants", ()))
        found = unique(plant for plant in plants if not isinstance(plant, NewPlant))
        return found if len(found) == 1 else ()

    def asked_pest(self) -> str | None:
        """Give the pest that the open question asks about."""
        offered = (command for choice in self.situation.choices for command in choice.commands)
        return next((pest for one in offered if (pest := getattr(one, "pest", None)) is not None), None)

    def treatments(self) -> tuple[PlantId, ...]:
        """Plants that tonight's nudge, or the answer to a find since, asked a treatment for."""
        return tuple(asked.plant for asked in self.situation.tonight if asked.method is not None)

    def answered(self, method: Method | None = None) -> tuple[PlantId, ...]:
        """Plants whose treatment, or just this one, is told done without a name."""
        return unique(
            asked.plant
            for asked in self.situation.tonight
            if asked.method is not None and not asked.is_beside and method in {None, asked.method}
        )

    def looks(self) -> tuple[PlantId, ...]:
        """Plants that tonight's nudge asked a look at."""
        return unique(asked.plant for asked in self.situation.tonight if asked.method is None)

    def others(self, named: tuple[PlantId, ...] = ()) -> tuple[PlantId, ...]:
        """
        Give the plants asked to be looked at besides those spoken of: "others clean".

        A plant with a case is none of the others while any without is: it wants to be told by its name. Where
        nothing was spoken of and none of those asked for has a case, there are no others.
        """
        spoken = {*self.mentioned, *named, *self.situation.found_today}
        asked = tuple(plant for plant in self.looks() if plant not in spoken)
        well = tuple(plant for plant in asked if plant not in self.situation.sick)
        if not spoken:
            return well if well != asked else ()
        return well or asked

    def tonight(self) -> tuple[PlantId, ...]:
        """All plants of tonight's nudge."""
        return unique(asked.plant for asked in self.situation.tonight)

    def of_place(self, place: Place) -> tuple[PlantId, ...]:
        """Plants that stand in a place."""
        return tuple(plant.id for plant in self.situation.plants if plant.place == place.id)

    def label(self, plant: PlantId) -> str:
        """Find the name a plant is shown by."""
        return next((known.names[0] for known in self.situation.plants if known.id == plant), "?")


def is_scattered(clause: Clause) -> bool:
    """Tell whether other words stand between the plants, so that a clause may be missing its comma."""
    at = [place for place, meaning in enumerate(clause.content()) if isinstance(meaning, Plants)]
    return bool(at) and at[-1] - at[0] >= len(at)


def unique(plants: Iterable[PlantId]) -> tuple[PlantId, ...]:
    """Each plant once, in order."""
    return tuple(dict.fromkeys(plants))


def named(clause: Clause) -> tuple[PlantId, ...]:
    """Plants named before any exception."""
    return _split(clause)[0]


def excepted(clause: Clause) -> tuple[PlantId, ...]:
    """Plants named after "except"."""
    return _split(clause)[1]


def _split(clause: Clause) -> tuple[tuple[PlantId, ...], tuple[PlantId, ...]]:
    sides: tuple[list[PlantId], list[PlantId]] = ([], [])
    side = 0
    for item in clause.items:
        if item.meaning is Word.EXCEPT:
            side = 1
        elif isinstance(item.meaning, Plants):
            sides[side].extend(item.meaning.ids)
    return unique(sides[0]), unique(sides[1])
