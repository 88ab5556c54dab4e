"""
What a message would mean, without a household: for contributors, by `python -m bot understand`.

Without a file the evening is Wednesday 2026-05-06, 20:10 in Brussels, with a nudge unanswered.
"""

import tomllib
from collections.abc import Iterable, Iterator
from datetime import date, datetime
from zoneinfo import ZoneInfo

from bot.actions.situation import Asked, KnownPlace, KnownPlant, KnownProduct, Situation
from bot.domain.identity import PlaceId, PlantId, ProductId
from bot.domain.trade import Method
from bot.phrases.grammar import understand
from bot.phrases.notation import notation

ZONE = ZoneInfo("Europe/Brussels")
LANDING, KITCHEN, STUDY, BALCONY = (PlaceId(number) for number in range(1, 5))
HOYA, SMALL_HOYA, ORCHID, COFFEE, IVY, BAY, CALATHEA, CHILLI = (PlantId(number) for number in range(1, 9))
SOAP, NEEM, ALCOHOL = (ProductId(number) for number in range(1, 4))

EVENING = Situation(
    now=datetime(2026, 5, 6, 20, 10, tzinfo=ZONE),
    zone=ZONE,
    today=date(2026, 5, 6),
    plants=(
        KnownPlant(id=HOYA, names=("hoya",), place=LANDING),
        KnownPlant(id=SMALL_HOYA, names=("small hoya",), place=LANDING),
        KnownPlant(id=ORCHID, names=("orchid", "moth orchid"), place=KITCHEN),
        KnownPlant(id=COFFEE, names=("coffee", "coffee plant"), place=KITCHEN),
        KnownPlant(id=IVY, names=("ivy",), place=STUDY),
        KnownPlant(id=BAY, names=("bay", "bay laurel"), place=BALCONY),
        KnownPlant(id=CALATHEA, names=("calathea",), place=STUDY),
        KnownPlant(id=CHILLI, names=("chilli",), place=BALCONY),
    ),
    places=(
        KnownPlace(LANDING, "landing"),
        KnownPlace(KITCHEN, "kitchen"),
        KnownPlace(STUDY, "study"),
        KnownPlace(BALCONY, "balcony"),
    ),
    shelf=(
        KnownProduct(id=SOAP, names=("soap", "insecticidal soap")),
        KnownProduct(id=NEEM, names=("neem", "neem oil")),
        KnownProduct(id=ALCOHOL, names=("alcohol", "isopropyl alcohol")),
    ),
    tonight=(
        Asked(HOYA, Method.SPRAY),
        Asked(ORCHID, Method.SPRAY),
        Asked(COFFEE, Method.SWAB),
        Asked(IVY, None),
    ),
    pests=(
        ("mealybug", ("mealybug", "mealy", "mealies", "mealy bug", "mealie")),
        ("scale", ("scale", "scale insect", "scales")),
        ("mite", ("mite", "spider mite", "red spider")),
        ("thrips", ("thrips", "thrip")),
        ("aphid", ("aphid", "greenfly")),
    ),
    ingredients=(
        ("soap", ("soap", "insecticidal soap")),
        ("neem", ("neem", "neem oil")),
        ("alcohol", ("alcohol", "isopropyl alcohol", "rubbing alcohol")),
        ("oil", ("oil", "horticultural oil")),
    ),
)


def rehearse(lines: Iterable[str], situation: Situation = EVENING) -> Iterator[str]:
    """Give each phrase, a tab, and its meaning; empty lines and comments are left out."""
    for line in lines:
        phrase = line.rstrip("\n").partition("\t")[0]
        if phrase.strip() and not phrase.startswith("#"):
            told = phrase.replace("\\n", "\n")
            yield f"{phrase}\t{notation(understand(told, situation), situation)}"


def read_situation(text: str) -> Situation:
    """
    Read a situation from TOML: now, zone, places, plants, shelf, tonight; pests and products as usual.

    Raises
    ------
    ValueError
        Naming what is missing or of a wrong kind.
    """
    try:
        told = tomllib.loads(text)
        zone = ZoneInfo(told.get("zone", "Europe/Brussels"))
        now = datetime.fromisoformat(str(told["now"]))
        now = now if now.tzinfo else now.replace(tzinfo=zone)
        places = {name: PlaceId(number) for number, name in enumerate(told.get("places", ()), start=1)}
        plants = tuple(
            KnownPlant(id=PlantId(number), names=tuple(one["names"]), place=places.get(one.get("place", "")))
            for number, one in enumerate(told.get("plants", ()), start=1)
        )
        by_name = {plant.names[0]: plant.id for plant in plants}
        return Situation(
            now=now,
            zone=zone,
            today=now.astimezone(zone).date(),
            plants=plants,
            places=tuple(KnownPlace(number, name) for name, number in places.items()),
            shelf=tuple(
                KnownProduct(id=ProductId(number), names=tuple(one["names"]))
                for number, one in enumerate(told.get("shelf", ()), start=1)
            ),
            tonight=tuple(
                Asked(by_name[one["plant"]], Method(one["method"]) if "method" in one else None)
                for one in told.get("tonight", ())
            ),
            pests=EVENING.pests,
            ingredients=EVENING.ingredients,
        )
    except (KeyError, TypeError, ValueError) as error:
        raise ValueError(f"the situation cannot be read: {error!r}") from None
