"""Towns and zones; where they lie and what they are called is from memory unless said."""

import sqlite3
import threading
from contextlib import closing
from pathlib import Path

import pytest

from bot.catalogue import towns
from bot.catalogue.towns import Town, find_towns, towns_like, zone_at
from tests.catalogue import build_towns


def _first(text: str) -> tuple[str, str]:
    town = find_towns(text)[0]
    return town.name, town.country


@pytest.mark.parametrize(
    "text", ["Gent", "Ghent", "GHENT", " gand ", "Gent, BE", "Ghent, Belgium", "Gent Flanders"]
)
def test_ghent_is_found_by_its_local_and_english_names(text: str) -> None:
    assert _first(text) == ("Gent", "BE")


def test_a_town_carries_region_zone_and_place_to_a_tenth() -> None:
    town = find_towns("Ghent")[0]
    assert (town.region, town.zone, town.latitude, town.longitude) == (
        "Flanders",
        "Europe/Brussels",
        51.0,
        3.7,
    )


def test_several_springfields_come_largest_first() -> None:
    found = find_towns("Springfield", limit=20)
    regions = [town.region for town in found if town.country == "US"]
    assert {"Illinois", "Missouri", "Massachusetts", "Oregon", "Ohio"} <= set(regions)
    assert [town.population for town in found] == sorted((town.population for town in found), reverse=True)
    assert len(find_towns("Springfield")) == 8


@pytest.mark.parametrize(
    "text", ["Springfield, Illinois", "springfield, il", "Springfield, IL, USA", "Springfield Illinois"]
)
def test_a_region_narrows(text: str) -> None:
    assert [town.region for town in find_towns(text)] == ["Illinois"]


def test_a_country_that_has_no_such_town_finds_none() -> None:
    assert find_towns("Reykjavik, Belgium") == ()


@pytest.mark.parametrize(
    ("text", "name", "country"),
    [
        ("malaga", "Málaga", "ES"),
        ("MÁLAGA", "Málaga", "ES"),
        ("Lodz", "Łódź", "PL"),
        ("tromso", "Tromsø", "NO"),
        ("Cologne", "Köln", "DE"),
        ("Москва", "Moscow", "RU"),
        ("東京", "Tokyo", "JP"),
    ],
)
def test_accents_and_scripts_are_forgiven(text: str, name: str, country: str) -> None:
    assert _first(text) == (name, country)


@pytest.mark.parametrize(
    ("text", "name", "country"),
    [
        ("Barcelon", "Barcelona", "ES"),
        ("Barcelnoa", "Barcelona", "ES"),
        ("Asmterdam", "Amsterdam", "NL"),
        ("msterdam", "Amsterdam", "NL"),
        ("Gemt", "Gent", "BE"),  # also the beginning of a lesser-known name of Hamtramck, Michigan
        ("Gemt, Belgium", "Gent", "BE"),
    ],
)
def test_beginnings_and_slips_are_guesses_the_largest_first(text: str, name: str, country: str) -> None:
    assert find_towns(text) == ()
    assert (towns_like(text)[0].name, towns_like(text)[0].country) == (name, country)


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        ",",
        ", BE",
        "Xqzzyvvk",
        "'; drop table town; --",
        "a" * 5_000,
        "Gent " * 1_000,
        "🪴",
        "%",
        "_",
        "\0",
    ],
)
def test_what_is_no_town_finds_none(text: str) -> None:
    assert find_towns(text) == ()
    assert towns_like(text) == ()


def test_an_emoji_beside_the_name_is_overlooked() -> None:
    assert _first("Gent 🪴") == ("Gent", "BE")


def test_any_thread_may_ask_and_none_may_write() -> None:
    found: list[tuple[Town, ...]] = []
    thread = threading.Thread(target=lambda: found.append(find_towns("Ghent")))
    thread.start()
    thread.join()
    assert found == [find_towns("Ghent")]
    with closing(towns._open()) as database, pytest.raises(sqlite3.OperationalError):  # noqa: SLF001
        database.execute("DELETE FROM town")


def test_the_shipped_table_is_what_the_script_builds(tmp_path: Path) -> None:
    build_towns.build(tmp_path / "towns.sqlite")
    assert _rows(tmp_path / "towns.sqlite") == _rows(build_towns.TARGET)
    assert build_towns.TARGET.stat().st_size <= 6_000_000


def _rows(path: Path) -> list[list[tuple[object, ...]]]:
    with closing(sqlite3.connect(path)) as database:
        return [
            database.execute(f"SELECT * FROM {table}").fetchall()
            for table in ("zone", "country", "region", "town", "name")
        ]


@pytest.mark.parametrize(
    ("latitude", "longitude", "zone"),
    [
        (51.05, 3.73, "Europe/Brussels"),  # Ghent
        (40.7, -74.0, "America/New_York"),
        (-33.9, 151.2, "Australia/Sydney"),
        (27.7, 85.3, "Asia/Kathmandu"),
        (-33.9, 18.4, "Africa/Johannesburg"),  # Cape Town
        (28.1, -15.4, "Atlantic/Canary"),  # Las Palmas
    ],
)
def test_the_zone_follows_from_coordinates(latitude: float, longitude: float, zone: str) -> None:
    assert zone_at(latitude, longitude) == zone


@pytest.mark.parametrize(
    ("latitude", "longitude"), [(90.1, 0), (-91, 0), (0, 180.5), (0, -181), (float("nan"), 0)]
)
def test_no_zone_off_the_globe(latitude: float, longitude: float) -> None:
    with pytest.raises(ValueError, match="deg"):
        zone_at(latitude, longitude)
