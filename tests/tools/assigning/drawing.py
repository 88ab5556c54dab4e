"""
What a word in braces stands for in a line: drawn once a line, as plain English and as notation.

A word that ends in a figure is drawn as the word without it, and differs from it.
"""

import re
from collections.abc import Iterable
from datetime import date, timedelta
from random import Random

from tests.tools.assigning.homes import STOCK, Home

Pair = tuple[str, str]
PESTS = {
    "citrus_mealybug": "mealybugs",
    "longtailed_mealybug": "longtailed mealybugs",
    "spider_mite": "spider mites",
    "brown_soft_scale": "soft scale insects",
    "armoured_scale": "hard scale insects",
    "greenhouse_whitefly": "whiteflies",
    "western_flower_thrips": "thrips",
    "fungus_gnat": "fungus gnats",
    "green_peach_aphid": "green aphids",
    "melon_aphid": "black aphids",
}
DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
CHOICES: dict[str, tuple[Pair, ...]] = {
    "did": (
        ("sprayed", "spray"),
        ("wiped down", "wipe"),
        ("rinsed under the shower or tap", "rinse"),
        ("dabbed with a cotton bud", "swab"),
        ("pruned back", "prune"),
        ("put into fresh potting mix", "repot"),
    ),
    "sign": (
        ("fine webbing", "webbing"),
        ("sticky leaves", "honeydew"),
        ("white fluff, but nothing that moves", "fluff"),
        ("pale dots in the leaves, no animal to be seen", "specks"),
        ("empty shed skins", "cast-skins"),
    ),
    "n": (("two", "2"), ("twelve (a dozen)", "12"), *((str(n), str(n)) for n in (3, 4, 5, 7, 8, 11, 23, 40))),
    "amount": (("a few", "few"), ("a great many", "many"), ("masses of", "many")),
    "days": tuple((str(n), str(n)) for n in (5, 7, 10, 14)),
    "uses": tuple((str(n), str(n)) for n in (2, 3, 4, 6)),
    "weekday": tuple((day, day[:2].upper()) for day in DAYS),
    "facing": (("north", "n"), ("east", "e"), ("south", "s"), ("west", "w"), ("south-east", "se")),
    "animal": (("a cat lives", "cat"), ("a dog lives", "dog"), ("two cats live", "cat")),
}
BY_UNITS: dict[str, dict[str, tuple[Pair, ...]]] = {
    "metric": {
        "width": tuple((f"{n} cm", str(n)) for n in (9, 12, 14, 17, 21)),
        "degrees": tuple((f"{n} degrees Celsius", str(n)) for n in (9, 16, 18, 21, 24, 27)),
        "bottle": tuple((f"{n} ml", str(n)) for n in (250, 500, 750)),
        "mixed": (("1 litre", "1000"), ("750 ml", "750"), ("half a litre", "500"), ("2 litres", "2000")),
        "volume": tuple((f"{n} ml", str(n)) for n in (200, 300, 450, 600)),
        "clock": (("18:30", "18:30"), ("19:00", "19:00"), ("20:30", "20:30"), ("21:00", "21:00")),
    },
    "us": {
        "width": (("4 inches", "10.16"), ("5 inches", "12.7"), ("6 inches", "15.24")),
        "degrees": tuple((f"{n} degrees Fahrenheit", f"{(n - 32) / 1.8:.1f}") for n in (62, 66, 70, 75, 81)),
        "bottle": (("8 fl oz", "236.59"), ("16 fl oz", "473.18"), ("32 fl oz", "946.35")),
        "mixed": (("16 fl oz", "473"), ("a quart", "946"), ("half a gallon", "1893")),
        "volume": (("8 fl oz", "236.59"), ("16 fl oz", "473.18"), ("20 fl oz", "591.47")),
        "clock": (("6:30 pm", "18:30"), ("7:00 pm", "19:00"), ("8:30 pm", "20:30"), ("9:00 pm", "21:00")),
    },
}
TRIES = 200


def key(name: str) -> str:
    """Write a name as notation does."""
    return name.lower().replace(" ", "_")


def listed(names: Iterable[str]) -> str:
    """Join names as English does."""
    *before, last = names
    return f"{', '.join(before)} and {last}" if before else last


def _plain(name: str) -> Pair:
    return name, key(name)


def _all(names: Iterable[str]) -> Pair:
    names = tuple(names)
    return listed(f"the {name}" for name in names), " ".join(map(key, names))


def _added(told: Iterable[Pair]) -> str:
    return " + ".join(
        f"add {key(plant)}" + (f" place={key(place)}" if place else "") for plant, place in told
    )


class Drawing:
    """The words of one line about one home."""

    def __init__(self, home: Home, seed: Random) -> None:
        self._home = home
        self._seed = seed
        self._drawn: dict[str, Pair] = {}

    def fill(self, text: str, *, as_notation: bool) -> str:
        """Write a line with its words drawn."""
        return re.sub(r"\{(\w+)\}", lambda word: self._word(word[1])[as_notation], text)

    def _word(self, name: str) -> Pair:
        if name not in self._drawn:
            stem = name.rstrip("0123456789")
            taken = [pair for other, pair in self._drawn.items() if other.rstrip("0123456789") == stem]
            self._drawn[name] = next(
                pair for pair in (self._draw(stem) for _ in range(TRIES)) if pair not in taken
            )
        return self._drawn[name]

    def _draw(self, stem: str) -> Pair:
        choices = CHOICES.get(stem) or BY_UNITS[self._home.units].get(stem)
        if choices:
            return self._seed.choice(choices)
        for draw in (
            self._plant,
            self._pest_or_product,
            self._plants,
            self._group,
            self._place,
            self._day,
            self._tonight,
        ):
            pair = draw(stem)
            if pair is not None:
                return pair
        raise KeyError(stem)

    def _plant(self, stem: str) -> Pair | None:
        home, seed = self._home, self._seed
        ill, _ = home.case
        match stem:
            case "p":
                return _plain(seed.choice(list(home.plants)))
            case "not_case":
                return _plain(seed.choice([plant for plant in home.plants if plant != ill]))
            case "case":
                return _plain(ill)
            case "apart":
                return _plain(home.apart)
            case "new":
                return _plain(seed.choice(home.unknown))
            case "nickname":
                return _plain(seed.choice(STOCK["nicknames"]))
            case "other":
                return _plain(home.other)
            case _:
                return None

    def _pest_or_product(self, stem: str) -> Pair | None:
        home, seed = self._home, self._seed
        _, pest = home.case
        match stem:
            case "casepest":
                return PESTS[pest], pest
            case "pest":
                drawn = seed.choice(home.pests)
                return PESTS[drawn], drawn
            case "other_pest":
                drawn = seed.choice([one for one in home.pests if one != pest])
                return PESTS[drawn], drawn
            case "product":
                ingredient, word = seed.choice(home.shelf)
                return word, ingredient
            case _:
                return None

    def _plants(self, stem: str) -> Pair | None:
        home, seed = self._home, self._seed
        plants = list(home.plants.items())
        match stem:
            case "these":
                return _all(seed.sample(list(home.plants), seed.choice((1, 1, 2, 3))))
            case "list":
                some = seed.sample(list(home.plants), seed.choice((2, 3, 4, 5)))
                return listed(some), _added((plant, "") for plant in some)
            case "placed_list":
                told = seed.sample(plants, seed.choice((1, 2, 3, 4)))
                return "; ".join(f"{plant} in/on {place}" for plant, place in told), _added(told)
            case "trio":
                some = seed.sample(list(home.plants), 3)
                place = home.plants[some[0]]
                told = [(plant, place) for plant in some]
                return f"{listed(some)}, all in/on the place called {place}", _added(told)
            case "several":
                kind = seed.choice([plant for plant in home.plants if key(plant) != self._word("p")[1]])
                number, said = seed.choice(((2, "two"), (3, "three"), (4, "four")))
                told = [(f"{kind} {one}", "") for one in range(1, number + 1)]
                return f"{said} plants of the sort {kind}", _added(told)
            case _:
                return None

    def _group(self, stem: str) -> Pair | None:
        if stem not in {"group", "group_rest", "number", "series"}:
            return None
        if stem == "group":
            kind, many = self._seed.choice(self._home.groups)
            return kind, _all(f"{kind} {number}" for number in range(1, many + 1))[1]
        kind, every = self._word("group")
        plants = every.split()
        if stem == "number":
            drawn = self._seed.choice(plants)
            return drawn.rpartition("_")[2], drawn
        if stem == "group_rest":
            return "", " ".join(plant for plant in plants if plant != self._word("number")[1])
        first = self._seed.randrange(len(plants) - 4)
        last = self._seed.randrange(first + 2, min(len(plants), first + 7))
        out = self._seed.choice((None, self._seed.randrange(first + 1, last)))
        but = "" if out is None else f", leaving out number {out + 1}"
        meant = (plants[number] for number in range(first, last + 1) if number != out)
        return f"{kind} number {first + 1} to number {last + 1}{but}", " ".join(meant)

    def _place(self, stem: str) -> Pair | None:
        home, seed = self._home, self._seed
        match stem:
            case "town":
                return home.town, home.town.lower()
            case "place":
                return _plain(seed.choice(home.places))
            case "first_place":
                return _plain(home.places[0])
            case "apart_place":
                return _plain(home.plants[home.apart])
            case "elsewhere":
                stands = next(place for plant, place in home.plants.items() if plant == self._word("p")[0])
                return _plain(seed.choice([place for place in home.places if place != stands]))
            case "there":
                return _all(home.standing(self._word("place")[0]))
            case "out":
                return _plain(seed.choice(home.standing(self._word("place")[0])))
            case "there_but":
                there = home.standing(self._word("place")[0])
                return _all(plant for plant in there if plant != self._word("out")[0])
            case _:
                return None

    def _day(self, stem: str) -> Pair | None:
        today, seed = self._home.now.date(), self._seed
        match stem:
            case "past":
                ago = seed.choice((0, 0, 0, 1, 1, 2, 3, 5, 8))
                day = today - timedelta(days=ago)
                near = ("", " yesterday", " the day before yesterday")
                said = near[ago] if ago < len(near) else f" {ago} days ago"
                if ago and seed.random() < 1 / 3:
                    said = f" on {self._said(day)}"
                return said, f" on={day}" if ago else ""
            case "ahead":
                days = seed.choice((1, 2, 3, 4, 6))
                day = today + timedelta(days=days)
                said = seed.choice((f"in {days} days", f"on {DAYS[day.weekday()]}, {self._said(day)}"))
                return "tomorrow" if days == 1 else said, f" on={day}"
            case "tomorrow":
                return "", f" on={today + timedelta(days=1)}"
            case "soon":
                day = today + timedelta(days=seed.choice((4, 7, 10)))
                return self._said(day), day.isoformat()
            case "later_on":
                day = date.fromisoformat(self._word("soon")[1]) + timedelta(days=seed.choice((3, 7, 12)))
                return self._said(day), day.isoformat()
            case "hour_ago":
                return "", f"{self._home.now - timedelta(hours=1):%H:%M}"
            case _:
                return None

    def _said(self, day: date) -> str:
        return f"{day:%B} {day.day}" if self._home.units == "us" else f"{day.day} {day:%B}"

    def _tonight(self, stem: str) -> Pair | None:
        home, seed = self._home, self._seed
        match stem:
            case "due":
                return _plain(seed.choice(home.due))
            case "dues":
                return _all(home.due)
            case "rest_due":
                return _all(plant for plant in home.due if plant != self._word("due")[0])
            case "asked":
                return _all(plant for plant, _ in home.tonight)
            case "look":
                return _plain(next(plant for plant, method in home.tonight if not method))
            case "sprayed":
                return _plain(seed.choice([plant for plant, method in home.tonight if method == "spray"]))
            case _:
                return None
