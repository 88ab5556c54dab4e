"""What is told of plants, places and habits, said back."""

from bot.actions.read_temperature import TemperatureNoted
from bot.actions.set_animals import AnimalsNoted
from bot.actions.set_traits import TraitNoted
from bot.wording.days import day, listed, month
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
    "cannot-lift": "not to be lifted: its roots stay unseen, so it waits a quarter longer",
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
    return f"Written: {listed(told.plants)} {TRAITS[told.trait]}."


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
