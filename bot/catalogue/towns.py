"""
Towns, looked up offline by local and English names, and the zone of coordinates.

The table is made from GeoNames (geonames.org), licensed CC BY 4.0: towns of 5,000 people and more, names in
Latin script, and the other scripts of towns of a million.
"""

import re
import sqlite3
import unicodedata
from contextlib import closing
from pathlib import Path

from bot.domain.value import Value

_FILE = Path(__file__).parent / "towns.sqlite"
LONGEST_NAME = 100
LEAST_LETTERS = 4
"""Shorter names must be exact."""
LETTERS_FOR_TWO_SLIPS = 8
"""Shorter names may have one slip. Judgement."""
_MOST_ROWS = 200
_SELECT = """
SELECT DISTINCT
    t.id, t.name, r.name, r.code, r.country, t.latitude_tenths, t.longitude_tenths, z.name, t.population
FROM name n JOIN town t ON t.id = n.town JOIN region r ON r.id = t.region JOIN zone z ON z.id = t.zone
"""
_ORDER = " ORDER BY t.id LIMIT ?"  # towns are numbered from the largest
_STROKED = str.maketrans(
    {"ł": "l", "ø": "o", "đ": "d", "ð": "d", "þ": "th", "æ": "ae", "œ": "oe", "ı": "i", "ħ": "h"}
)


class Town(Value, kw_only=True):
    """A town with its zone; coordinates to 0.1. [deg]; the region is empty where GeoNames names none."""

    name: str
    region: str
    country: str
    latitude: float
    longitude: float
    zone: str
    population: int


class _Found(Value):
    number: int
    region_code: str
    town: Town


def folded(name: str) -> str:
    """Fold a name for the look-up: no case, no accents, no strokes, words apart by one space."""
    plain = unicodedata.normalize("NFKD", name.casefold())
    bare = "".join(letter for letter in plain if not unicodedata.combining(letter)).translate(_STROKED)
    return unicodedata.normalize("NFC", " ".join(re.findall(r"[^\W_]+", bare)))


def find_towns(text: str, limit: int = 8) -> tuple[Town, ...]:
    """
    Find towns of exactly that name, largest first.

    "Springfield, Illinois" and "Gent, BE" narrow by region or country, with or without the comma.
    """
    name, narrows = _parts(text)
    if not name:
        return ()
    with closing(_open()) as database:
        found = _narrowed(database, _exact(database, name), narrows)
        found = found or ([] if narrows else _split(database, name))
    return tuple(one.town for one in found[:limit])


def towns_like(text: str, limit: int = 4) -> tuple[Town, ...]:
    """Find towns whose name begins so or is written almost so, largest first: guesses, to be asked."""
    name, narrows = _parts(text)
    if not name:
        return ()
    with closing(_open()) as database:
        near = [*_beginning(database, name), *_misspelt(database, name)]
        found = _narrowed(database, sorted(set(near), key=lambda one: one.number), narrows)
    return tuple(one.town for one in found[:limit])


def _parts(text: str) -> tuple[str, list[str]]:
    if len(text) > LONGEST_NAME:
        return "", []
    name, *narrows = (folded(part) for part in text.split(","))
    return name, [narrow for narrow in narrows if narrow]


def _open() -> sqlite3.Connection:
    # Opened for each question, so any thread may ask; immutable, so a read-only disk will do.
    return sqlite3.connect(f"{_FILE.as_uri()}?mode=ro&immutable=1", uri=True)


def _towns(database: sqlite3.Connection, where: str, *values: str) -> list[_Found]:
    rows = database.execute(_SELECT + where + _ORDER, (*values, _MOST_ROWS))
    return [
        _Found(
            row[0],
            folded(row[3]),
            Town(
                name=row[1],
                region=row[2],
                country=row[4],
                latitude=row[5] / 10,
                longitude=row[6] / 10,
                zone=row[7],
                population=row[8],
            ),
        )
        for row in rows
    ]


def _exact(database: sqlite3.Connection, name: str) -> list[_Found]:
    return _towns(database, "WHERE n.folded = ?", name)


def _split(database: sqlite3.Connection, name: str) -> list[_Found]:
    """Take the last words as a region or country: "springfield illinois"."""
    words = name.split()
    for count in range(len(words) - 1, 0, -1):
        exact = _exact(database, " ".join(words[:count]))
        found = _narrowed(database, exact, [" ".join(words[count:])])
        if found:
            return found
    return []


def _beginning(database: sqlite3.Connection, name: str) -> list[_Found]:
    if len(name) < LEAST_LETTERS:
        return []
    return _towns(database, "WHERE n.folded >= ? AND n.folded < ?", name, name + "\U0010ffff")


def _misspelt(database: sqlite3.Connection, name: str) -> list[_Found]:
    from rapidfuzz.distance import OSA  # noqa: PLC0415 - loaded on demand

    if len(name) < LEAST_LETTERS:
        return []
    slips = 2 if len(name) >= LETTERS_FOR_TWO_SLIPS else 1
    rows = database.execute(
        "SELECT DISTINCT folded FROM name WHERE length(folded) BETWEEN ? AND ?",
        (len(name) - slips, len(name) + slips),
    )
    distances = ((row[0], OSA.distance(name, row[0], score_cutoff=slips)) for row in rows)
    near = [(spelling, distance) for spelling, distance in distances if distance <= slips]
    least = min((distance for _, distance in near), default=0)
    found = [one for spelling, distance in near if distance == least for one in _exact(database, spelling)]
    return sorted({one.number: one for one in found}.values(), key=lambda one: one.number)


def _narrowed(database: sqlite3.Connection, found: list[_Found], narrows: list[str]) -> list[_Found]:
    for narrow in narrows:
        country = database.execute("SELECT code FROM country WHERE folded = ?", (narrow,)).fetchone()
        found = [
            one for one in found if (country and one.town.country == country[0]) or _is_within(one, narrow)
        ]
    return found


def _is_within(one: _Found, narrow: str) -> bool:
    if narrow.replace(" ", "") == one.region_code:
        return True
    return len(narrow) >= LEAST_LETTERS and folded(one.town.region).startswith(narrow)


def zone_at(latitude: float, longitude: float) -> str:
    """Give the IANA zone at coordinates; ValueError outside -90 to 90 and -180 to 180. [deg]."""
    if not (-90 <= latitude <= 90 and -180 <= longitude <= 180):  # noqa: PLR2004 - the globe
        raise ValueError(f"{latitude} deg, {longitude} deg is not on the globe")
    import tzfpy  # noqa: PLC0415 - 43 MB once loaded

    return str(tzfpy.get_tz(longitude, latitude)) or "UTC"
