"""People and homes put together from the stock by a seed; what drawers are made of, training never sees."""

import tomllib
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from pathlib import Path
from random import Random
from typing import Any, TypeVar

STOCK: dict[str, Any] = tomllib.loads((Path(__file__).parent / "stock.toml").read_text("utf-8"))
METHODS = ("spray", "wipe", "rinse", "swab")
FIRST_DAY = date(2026, 1, 1)
PER_PLACE = 2
T = TypeVar("T")


@dataclass(frozen=True)
class Home:
    """One home: plants by place, products as key and word, what is ill, and what is asked tonight."""

    name: str
    town: str
    zone: str
    units: str
    now: datetime
    plants: dict[str, str]
    shelf: tuple[tuple[str, str], ...]
    pests: tuple[str, ...]
    case: tuple[str, str]
    second: tuple[str, str]
    apart: str
    tonight: tuple[tuple[str, str], ...]
    unknown: tuple[str, ...]
    other: str
    groups: tuple[tuple[str, int], ...] = ()

    @property
    def places(self) -> tuple[str, ...]:
        """The places in their order."""
        return tuple(dict.fromkeys(self.plants.values()))

    @property
    def due(self) -> tuple[str, ...]:
        """What is to be treated tonight."""
        return tuple(plant for plant, method in self.tonight if method)

    def standing(self, place: str) -> tuple[str, ...]:
        """Give the plants of a place."""
        return tuple(plant for plant, where in self.plants.items() if where == place)


def half(things: list[T], *, is_drawer: bool) -> list[T]:
    """Give the part of a stock that is for drawers, or for training."""
    return things[is_drawer::2]


def person(seed: Random, *, is_drawer: bool) -> str:
    """Put a person together: age, trade, first language and manner of writing."""
    trade, tongue, manner = (
        seed.choice(half(STOCK[kind], is_drawer=is_drawer)) for kind in ("trades", "tongues", "manners")
    )
    age = seed.randint(21, 79)
    before = "retired " if age > 67 else ""
    return f"{age} years old, {before}{trade}. First language: {tongue}. Manner: {manner}."


def home(name: str, seed: Random, *, is_drawer: bool, units: str = "metric") -> Home:
    """Make a home of four places with two plants each."""
    plants = seed.sample(half(STOCK["plants"], is_drawer=is_drawer), 12)
    places = seed.sample(half(STOCK["places"], is_drawer=is_drawer), 4)
    standing = {plant: places[number // PER_PLACE] for number, plant in enumerate(plants[:8])}
    return _home(name, seed, standing, plants[8:], is_drawer=is_drawer, units=units)


def sixty(name: str, seed: Random, *, is_drawer: bool) -> Home:
    """Make a home of sixty numbered plants on four racks."""
    kinds = seed.sample(half(STOCK["numbered"], is_drawer=is_drawer), 5)
    rack = seed.choice(half(STOCK["racks"], is_drawer=is_drawer))
    groups = list(zip(kinds, seed.sample((18, 14, 11, 9, 8), 5), strict=True))
    standing = {
        f"{kind} {number}": f"{rack} {min(at + 1, 4)}"
        for at, (kind, many) in enumerate(groups)
        for number in range(1, many + 1)
    }
    unknown = [f"{kind} {many + 1}" for kind, many in groups]
    made = _home(name, seed, standing, unknown, is_drawer=is_drawer, units="metric")
    return Home(**{**vars(made), "groups": tuple(groups)})


def _home(
    name: str, seed: Random, standing: dict[str, str], unknown: list[str], *, is_drawer: bool, units: str
) -> Home:
    town, zone = seed.choice(half(STOCK["towns"][units], is_drawer=is_drawer))
    ill, also_ill, third, looked_at = seed.sample(list(standing), 4)
    pests = tuple(seed.sample(STOCK["pests"], 4))
    products = half(STOCK["products"], is_drawer=is_drawer)
    seed.shuffle(products)
    shelf = tuple({key: (key, word) for key, word in products}.values())[:3]
    day = FIRST_DAY + timedelta(days=seed.randrange(365))
    return Home(
        name=name,
        town=town,
        zone=zone,
        units=units,
        now=datetime.combine(day, time(seed.choice((19, 20)), seed.randrange(0, 60, 5))),
        plants=standing,
        shelf=shelf,
        pests=pests,
        case=(ill, pests[0]),
        second=(also_ill, pests[1]),
        apart=third,
        tonight=(
            (ill, "spray"),
            (also_ill, seed.choice(METHODS)),
            (third, seed.choice(METHODS)),
            (looked_at, ""),
        ),
        unknown=tuple(unknown),
        other=seed.choice(half(STOCK["others"], is_drawer=is_drawer)),
    )
