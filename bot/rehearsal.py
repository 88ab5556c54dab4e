"""What a message would mean in a situation written down in a file: `python -m bot understand`."""

import tomllib
from collections.abc import Iterable, Iterator
from datetime import datetime
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from bot.actions.action import Choice, Expecting
from bot.actions.isolate import ask_apart
from bot.actions.log_find import grade_choices
from bot.actions.pest_word import pest_words
from bot.actions.set_place import ask_window
from bot.actions.situation import Asked, KnownPlace, KnownPlant, KnownProduct, Situation
from bot.actions.walk_through import walk_choices
from bot.actions.work_through import STAGE_CHOICES
from bot.catalogue.load import load
from bot.domain.household import Place
from bot.domain.identity import PlaceId, PlantId, ProductId
from bot.domain.knowledge import Knowledge
from bot.domain.measure import Units
from bot.domain.trade import Method
from bot.phrases.hearing import heard
from bot.phrases.notation import notation
from bot.wording.button_texts import button_text

USUAL = Path(__file__).parent / "rehearsal.toml"
"""The situation where none is given: an evening with a nudge unanswered."""


def rehearse(lines: Iterable[str], situation: Situation) -> Iterator[str]:
    """
    Give each phrase, a tab, and its meaning; empty lines and comments are left out.

    What is only likely gives its offers instead, the likeliest first, each with its chance.
    """
    for line in lines:
        phrase = line.rstrip("\n").partition("\t")[0]
        if phrase.strip() and not phrase.startswith("#"):
            told = phrase.replace("\\n", "\n")
            reading = heard(told, situation)
            offers = (
                f"likely {one.chance:.2f} {notation(one.commands, situation)}" for one in reading.offers
            )
            meaning = " | ".join(offers) or notation(reading.commands(), situation)
            yield f"{phrase}\t{meaning}"


def read_situation(text: str, knowledge: Knowledge | None = None) -> Situation:
    """
    Read a situation from TOML; names of pests and products are the catalogue's.

    It holds now, zone, units, quiet_from_hour, is_held, places, plants (names, place), shelf (ingredient),
    tonight (plant, method; none is a look), sick, found_today, expecting, and the open question: what it asks
    ("amount", "apart", "facing", "walk", "work") about which plant or place. ValueError names what is missing
    or of a wrong kind.
    """
    facts = knowledge or load().knowledge
    try:
        return situation_of(tomllib.loads(text), facts)
    except (KeyError, TypeError, ValueError, AttributeError) as error:
        raise ValueError(f"the situation cannot be read: {error!r}") from None


def situation_of(told: dict[str, Any], facts: Knowledge) -> Situation:
    """Give the situation that a file, or one part of it, tells of."""
    zone = ZoneInfo(told.get("zone", "Europe/Brussels"))
    now = datetime.fromisoformat(str(told["now"]))
    now = now if now.tzinfo else now.replace(tzinfo=zone)
    places = {name: PlaceId(number) for number, name in enumerate(told.get("places", ()), start=1)}
    plants = tuple(
        KnownPlant(id=PlantId(number), names=tuple(one["names"]), place=places.get(one.get("place", "")))
        for number, one in enumerate(told.get("plants", ()), start=1)
    )
    by_name = {plant.names[0]: plant.id for plant in plants}
    choices, expecting = _question(told, by_name, places)
    return Situation(
        now=now,
        zone=zone,
        today=told.get("today", now.astimezone(zone).date()),
        plants=plants,
        places=tuple(KnownPlace(number, name) for name, number in places.items()),
        shelf=tuple(
            KnownProduct(id=ProductId(number), names=tuple(facts.products[one["ingredient"]].words))
            for number, one in enumerate(told.get("shelf", ()), start=1)
        ),
        tonight=tuple(
            Asked(by_name[one["plant"]], Method(one["method"]) if "method" in one else None)
            for one in told.get("tonight", ())
        ),
        sick=frozenset(by_name[name] for name in told.get("sick", ())),
        found_today=frozenset(by_name[name] for name in told.get("found_today", ())),
        pests=pest_words(facts.pests),
        ingredients=tuple((key, kind.words) for key, kind in facts.products.items()),
        kinds=facts.kind_words,
        expecting=expecting,
        choices=choices,
        choice_texts=tuple(button_text(choice) for choice in choices),
        units=Units(told.get("units", "metric")),
        quiet_from_hour=int(told.get("quiet_from_hour", 22)),
        is_held=bool(told.get("is_held", False)),
    )


def _question(
    told: dict[str, Any], plants: dict[str, PlantId], places: dict[str, PlaceId]
) -> tuple[tuple[Choice, ...], Expecting]:
    """Give the open question's choices, as the actions offer them."""
    expecting = Expecting(told.get("expecting", "nothing"))
    about = told.get("about", "")
    match told.get("asks"):
        case None:
            return (), expecting
        case "amount":
            return grade_choices((plants[about],), told.get("pest")), Expecting.CHOICE
        case "apart":
            return ask_apart((plants[about],)).choices, Expecting.CHOICE
        case "facing":
            return ask_window(Place(places[about], about)).choices, Expecting.PLACE
        case "walk":
            return walk_choices((plants[about],)), Expecting.WALK
        case "work":
            return STAGE_CHOICES, Expecting.WORK
        case other:
            raise ValueError(f"no question asks {other!r}")
