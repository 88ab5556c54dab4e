"""How warm a place is."""

from datetime import date

from bot.actions.action import Asking, ButtonText, Choice, Command, Outcome, performs
from bot.actions.decline import Decline
from bot.actions.desk import Desk
from bot.domain.climate import is_usual_doubted, usual_on
from bot.domain.identity import PlaceId, PlantId
from bot.domain.journal import TemperatureRead, UsualByMonth
from bot.domain.measure import Units
from bot.domain.value import replace


class ReadTemperature(Command):
    """How warm a place is. [degC]."""

    place: PlaceId
    celsius: float
    on: date | None = None
    months: tuple[int, ...] = ()
    """Months of every year it usually is so warm in, instead of a reading."""
    is_sure: bool = False
    """Meant so, however odd: it was asked about."""
    low: float | None = None
    high: float | None = None
    """A day's lowest and highest, of which the warmth is the mean. [degC]"""


class TemperatureNoted(Outcome):
    """A reading written, or what is usual in some months. [degC]."""

    place: str
    celsius: float
    months: tuple[int, ...] = ()
    span: tuple[float, float] | None = None
    """The day's lowest and highest, where they were told."""
    moved: tuple[tuple[tuple[str, ...], date, date], ...] = ()
    """Plants whose next round moves with it: from which evening, to which."""


class BadTemperature(Outcome):
    """A reading outside what a home has, or one likelier told in the other scale's degrees. [degC]."""

    celsius: float


CELSIUS = (-10.0, 45.0)
"""What a home with living plants can have; anything else is a slip of the finger. Judgement. [degC]"""
COLDEST_ROOM = 4.0
"""Below it a room in degrees Fahrenheit may be told in Celsius: 21, 35. Judgement. [degC]"""
LIKELY_C = (5.0, 39.0)
WHOLE_WITHIN = 0.101
"""A reading kept to a tenth of a degree was a whole number of degrees Fahrenheit. [degF]"""


@performs
def read_temperature(command: ReadTemperature, desk: Desk) -> TemperatureNoted | BadTemperature:
    """Write a reading of a place. [degC]."""
    span = None if command.low is None or command.high is None else (command.low, command.high)
    for celsius in span or (command.celsius,):
        if not CELSIUS[0] <= celsius <= CELSIUS[1]:
            return BadTemperature(celsius)
    asked = None if command.is_sure else _asks_which_scale(command, desk)
    if asked is not None:
        return BadTemperature(command.celsius, asking=asked)
    if command.months:
        told = UsualByMonth(place=command.place, months=command.months, celsius=command.celsius)
        desk.write([desk.draft(told)])
        return TemperatureNoted(desk.household.places[command.place].name, command.celsius, command.months)
    has_cases = any(plant.open_cases for plant in desk.household.living)
    before = next_rounds(desk) if has_cases else {}
    reading = TemperatureRead(
        place=command.place, celsius=command.celsius, low=command.low, high=command.high
    )
    desk.write([desk.draft(reading, on=command.on)])
    moved: dict[tuple[date, date], list[str]] = {}
    for plant, on in next_rounds(desk).items() if before else ():
        if before.get(plant, on) != on:
            moved.setdefault((before[plant], on), []).append(desk.plant(plant).name)
    return TemperatureNoted(
        desk.household.places[command.place].name,
        command.celsius,
        span=span,
        moved=tuple((tuple(names), *days) for days, names in moved.items()),
        asking=_asks_what_is_usual(command, desk),
    )


def _asks_which_scale(command: ReadTemperature, desk: Desk) -> Asking | None:
    """Ask whether "21 degrees" in a room are of Fahrenheit at all, the home's or the person's."""
    told = round(command.celsius * 1.8 + 32, 1)
    is_whole = abs(told - round(told)) <= WHOLE_WITHIN and not command.celsius.is_integer()
    told = float(round(told)) if is_whole else told
    is_room = desk.household.places[command.place].outdoors is None
    is_odd = is_room and command.celsius < COLDEST_ROOM and LIKELY_C[0] <= told <= LIKELY_C[1]
    if not is_odd or not (is_whole or desk.household.units is Units.US):
        return None
    return Asking(
        (
            Choice(ButtonText.DEGREES_C, (replace(command, celsius=told, is_sure=True),), f"{told:g}"),
            Choice(ButtonText.DEGREES_F, (replace(command, is_sure=True),), f"{told:g}"),
        )
    )


def _asks_what_is_usual(command: ReadTemperature, desk: Desk) -> Asking | None:
    """Ask whether a reading is usual: at the first, and where they keep off it; unanswered it is not."""
    place = desk.household.places[command.place]
    if usual_on(place, command.on or desk.today) is not None and not is_usual_doubted(place):
        return None
    return ask_what_is_usual(command.place, command.celsius)


def ask_what_is_usual(place: PlaceId, celsius: float) -> Asking:
    """Ask whether a reading is what is usual there. [degC]."""
    usual = ReadTemperature(place, celsius, months=tuple(range(1, 13)))
    return Asking((Choice(ButtonText.IS_USUAL, (usual,)), Choice(ButtonText.JUST_NOW, (Decline(),))))


def next_rounds(desk: Desk) -> dict[PlantId, date]:
    """Give the evening of each plant's next treatment."""
    rounds: dict[PlantId, date] = {}
    for evening in desk.agenda.evenings:
        for task in evening.tasks:
            if task.method is not None:
                rounds.setdefault(task.plant, evening.on)
    return rounds
