"""What is told of plants, places and habits, said back."""

from collections.abc import Mapping

from bot.actions.read_temperature import TemperatureNoted
from bot.actions.set_animals import AnimalsNoted
from bot.actions.set_routine import HabitsTold, RoutineSaved
from bot.actions.set_traits import TraitNoted
from bot.domain.refusal import BURNT_BY
from bot.wording.days import counted, day, listed, month, near_day
from bot.wording.lines import AFTER
from bot.wording.poison import warning
from bot.wording.saying import says, says_shortly
from bot.wording.voice import Voice

ANIMALS = {"cat": "a cat", "fish": "fish", "dog": "a dog", "bird": "a bird"}

TRAITS = {
    "edible": "edible: only what is labelled for that",
    "not-edible": "not edible",
    "hairy": "hairy: soap and oil stay in the hair, so try one leaf first",
    "not-hairy": "not hairy",
    "cannot-wash": "not to be washed: a damp cloth where others are rinsed",
    "cannot-wipe": "not to be wiped: a product labelled for a short gap is sought instead",
    "cannot-lift": "not to be unpotted: no clean-out but spray at the shortest gap, and roots unseen, a quarter longer",
    "waxy": "waxy: soap and oil take the bloom off for good",
    "not-waxy": "without a bloom",
}


@says
def _animals_noted(told: AnimalsNoted) -> str:
    return (
        f"Written: {listed(ANIMALS[one] for one in told.animals)} at home.{warning(told.judged)}"
        if told.animals
        else "Written: no animals."
    )


@says
def _trait_noted(told: TraitNoted) -> str:
    plants = listed(told.plants)
    if not told.trait.startswith(BURNT_BY):
        return f"Written: {plants} {TRAITS[told.trait]}."
    if not told.product:
        return f"No spray of {plants} is written, so I know nothing that did it. Say it like “{told.plants[0]} is burnt by oil”."
    return f"Written: no {told.product} on {plants} any more. Rinse it with plain water, keep it out of direct sun; burnt parts stay, new leaves come clean."


MONTHS = 12


@says_shortly
def _temperature_noted(told: TemperatureNoted, voice: Voice) -> str:
    if len(told.months) == MONTHS:
        return f"Written: {told.place} usually has {voice.warmth(told.celsius)}."
    if told.months:
        return f"Written: {told.place} usually has {voice.warmth(told.celsius)} in {listed(month(one) for one in told.months)}."
    shifts = [
        f"Next treatment of {voice.plants(names)}: {day(new)}, not {day(old)}."
        for names, old, new in told.moved
    ]
    warmth = voice.warmth(told.celsius)
    if told.span is not None:
        warmth = f"{voice.warmth(told.span[0])} to {voice.warmth(told.span[1])}, counted as {warmth}"
    asked = " Is that usual there, or just now?" if told.asking else ""
    return "\n".join([f"Written: {told.place} is at {warmth}.{asked}", AFTER, *shifts])


_WEEK = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_DAYS = {day[:2].upper(): day for day in _WEEK}
_NTH = {1: "first", 2: "second", 3: "third", 4: "fourth", -1: "last"}


def rule_words(rule: str) -> str:
    """Say a rule as people do: "every Sunday", "the first Saturday of each month", "every 10 days"."""
    parts = dict(part.split("=", 1) for part in rule.split(";") if "=" in part)
    interval = int(parts.get("INTERVAL", "1"))
    match parts.get("FREQ"):
        case "DAILY":
            return _every(interval, "day")
        case "WEEKLY":
            return _weekly(interval, [_DAYS[day] for day in parts.get("BYDAY", "").split(",") if day])
        case "MONTHLY":
            return _monthly(interval, parts)
        case _:
            return f"by the rule {rule}"


def _every(interval: int, unit: str) -> str:
    return {1: f"every {unit}", 2: f"every other {unit}"}.get(interval, f"every {interval} {unit}s")


def _weekly(interval: int, days: list[str]) -> str:
    if not days:
        return _every(interval, "week")
    if interval == 1:
        return f"every {listed(days)}"
    is_every_other = (interval, len(days)) == (2, 1)
    return f"every other {days[0]}" if is_every_other else f"{_every(interval, 'week')} on {listed(days)}"


def _monthly(interval: int, parts: Mapping[str, str]) -> str:
    month = "each month" if interval == 1 else f"every {counted(interval, 'month')}"
    day = parts.get("BYDAY", "")
    if day[-2:] in _DAYS and day[:-2].lstrip("+-").isdigit():
        return f"on the {_NTH.get(int(day[:-2]), day[:-2])} {_DAYS[day[-2:]]} of {month}"
    number = parts.get("BYMONTHDAY", "1")
    return f"on the last day of {month}" if number == "-1" else f"on day {number} of {month}"


@says
def _routine_saved(told: RoutineSaved, voice: Voice) -> str:
    if not told.rule:
        return (
            "Written: no habit any more. While a case or a watch is open I still ask for a look each Sunday."
        )
    following = (
        f" Next time: {near_day(told.next_on, voice.today)}." if told.next_on else " It has no next day."
    )
    return f"Written: a look over all plants {rule_words(told.rule)}.{following}"


@says
def _habits(told: HabitsTold, voice: Voice) -> str:
    if not told.of:
        return (
            "No habit is set. While a case or a watch is open I ask for a look each Sunday; "
            "“look on wednesdays” or “look every first saturday” sets one for all plants."
        )
    lines = [
        f"A look over all plants {rule_words(rule)}{f', next {near_day(on, voice.today)}' if on else ''}."
        for rule, on in told.of
    ]
    return "\n".join([*lines, "“no more checks” ends it."])
