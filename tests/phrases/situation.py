"""The evening that the tables of wordings are read in: Wednesday 2026-05-06, 20:10 in Brussels."""

from collections.abc import Iterator
from datetime import date, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from bot.actions.situation import Asked, KnownPlace, KnownPlant, KnownProduct, Situation
from bot.domain.identity import PlaceId, PlantId, ProductId
from bot.domain.trade import Method

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


def table(name: str) -> Iterator[tuple[str, str]]:
    """Wording and meaning, line by line."""
    for line in (Path(__file__).parent / name).read_text(encoding="utf-8").splitlines():
        if line and not line.startswith("#"):
            wording, _, meaning = line.partition("\t")
            yield wording, meaning


def clauses(meaning: str) -> set[tuple[str, frozenset[str]]]:
    """A meaning without its order: what is asked keeps its topic with it."""
    return {(part.split()[0], frozenset(part.split()[1:])) for part in meaning.split(" + ")}
