"""What a part of a message is read in: the household, and the part before."""

from collections.abc import Iterable
from datetime import date

from bot.actions.add_plants import NewPlant
from bot.actions.identify import Identify
from bot.actions.log_find import LogFind
from bot.actions.situation import Situation
from bot.domain.identity import PlantId
from bot.domain.trade import Method
from bot.domain.value import Value
from bot.phrases.days import Clock, Day, Moment, MonthDay, Murky, Period, Weekday
from bot.phrases.names import Place

DATES = (Day, Weekday, MonthDay, Murky, Period)
TIMES = (*DATES, Moment, Clock)


class Setting(Value):
    """What a part is read in: the household, and the plants of the clause before."""

    situation: Situation
    before: tuple[PlantId, ...] = ()
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
        amounts = [one for choice in self.situation.choices for one in choice.commands]
        is_one_find = bool(amounts) and {getattr(one, "plants", None) for one in amounts} == {found}
        return found if len(found) == 1 or (is_one_find and isinstance(amounts[0], LogFind)) else ()

    def described(self) -> tuple[PlantId, ...]:
        """Plants on which something was described, while the key asks what it is."""
        offered = [command for choice in self.situation.choices for command in choice.commands]
        return next((one.plants for one in offered if isinstance(one, Identify)), ())

    def found(self) -> frozenset[PlantId]:
        """Plants on which something was seen today, or told and not yet answered."""
        return self.situation.found_today

    def asked_pest(self) -> str | None:
        """Give the pest that the open question asks about, where it is one."""
        offered = (command for choice in self.situation.choices for command in choice.commands)
        pests = {pest for one in offered if (pest := getattr(one, "pest", None)) is not None}
        return pests.pop() if len(pests) == 1 else None

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

    def others(self, spoken: tuple[PlantId, ...]) -> tuple[PlantId, ...]:
        """
        Give the plants asked to be looked at besides those spoken of: "others clean".

        A plant with a case is none of the others while any without is: it wants to be told by its name. Where
        nothing was spoken of and none of those asked for has a case, there are no others.
        """
        out = {*spoken, *self.found()}
        asked = tuple(plant for plant in self.looks() if plant not in out)
        well = tuple(plant for plant in asked if plant not in self.situation.sick)
        if not out:
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


def unique(plants: Iterable[PlantId]) -> tuple[PlantId, ...]:
    """Each plant once, in order."""
    return tuple(dict.fromkeys(plants))
