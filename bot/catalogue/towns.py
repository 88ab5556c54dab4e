"""
Towns, looked up offline by local and English names, and the zone of coordinates.

The table is made from GeoNames (geonames.org), licensed CC BY 4.0: towns of 15,000 people and more.
"""

import re
import sqlite3
import unicodedata
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

_FILE = Path(__file__).parent / "towns.sqlite"
_COLUMNS = "t.name, t.region, t.country, t.latitude, t.longitude, t.zone, t.population"
LONGEST_NAME = 100
LIKENESS = 82
"""Least likeness of a misspelt name, of 100. Judgement."""
LEAST_LETTERS = 4
_NUMBER = r"([-+]?\d{1,3}(?:\.\d{1,10})?)"
_PLAIN = re.compile(rf"{_NUMBER}\s*°?\s*([NS]?)\s*[,; ]\s*{_NUMBER}\s*°?\s*([EW]?)", re.IGNORECASE)
_MINUTES = re.compile(
    r"(\d{1,3})\s*°\s*(\d{1,2})\s*['′]?\s*([NS])\s*[,; ]?\s*(\d{1,3})\s*°\s*(\d{1,2})\s*['′]?\s*([EW])",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Town:
    """A town with its zone; coordinates to 0.1. [deg]."""

    name: str
    region: str
    country: str
    latitude: float
    longitude: float
    zone: str
    population: int


def folded(name: str) -> str:
    """Fold a name for the look-up: no case, no accents, single spaces."""
    plain = unicodedata.normalize("NFKD", name).casefold()
    kept = "".join(letter for letter in plain if not unicodedata.combining(letter))
    return " ".join(re.sub(r"[-'’.]", " ", kept).split())


def find_towns(text: str, limit: int = 8) -> tuple[Town, ...]:
    """
    Find towns by name, largest first: exact names, else beginnings, else small slips of the finger.

    "Springfield, Illinois" and "Gent, BE" narrow by region or country.
    """
    if len(text) > LONGEST_NAME:
        return ()
    name, _, narrow = (folded(part) for part in text.partition(","))
    if not name:
        return ()
    with closing(_open()) as database:
        found = _exact(database, name) or _beginning(database, name) or _misspelt(database, name)
    if narrow:
        found = [
            town
            for town in found
            if narrow in {folded(town.country), folded(town.region)}
            or (len(narrow) >= LEAST_LETTERS and folded(town.region).startswith(narrow))
        ]
    return tuple(found[:limit])


def _open() -> sqlite3.Connection:
    return sqlite3.connect(f"file:{_FILE}?mode=ro&immutable=1", uri=True)


def _towns(database: sqlite3.Connection, where: str, *values: str) -> list[Town]:
    rows = database.execute(
        f"SELECT DISTINCT {_COLUMNS} FROM name n JOIN town t ON t.id = n.town WHERE {where}"  # noqa: S608 - ours
        " ORDER BY t.population DESC, t.id LIMIT 60",
        values,
    )
    return [
        Town(
            name=row[0],
            region=row[1],
            country=row[2],
            latitude=row[3],
            longitude=row[4],
            zone=row[5],
            population=row[6],
        )
        for row in rows
    ]


def _exact(database: sqlite3.Connection, name: str) -> list[Town]:
    return _towns(database, "n.folded = ?", name)


def _beginning(database: sqlite3.Connection, name: str) -> list[Town]:
    if len(name) < LEAST_LETTERS:
        return []
    return _towns(database, "n.folded >= ? AND n.folded < ?", name, name + "\U0010ffff")


def _misspelt(database: sqlite3.Connection, name: str) -> list[Town]:
    from rapidfuzz import fuzz, process  # noqa: PLC0415 - loaded on demand

    if len(name) < LEAST_LETTERS:
        return []
    near = [
        row[0]
        for row in database.execute(
            "SELECT DISTINCT folded FROM name WHERE folded >= ? AND folded < ?", (name[0], name[0] + "\U0010ffff")
        )
    ]
    best = process.extract(name, near, scorer=fuzz.ratio, score_cutoff=LIKENESS, limit=3)
    towns = [town for found, _, _ in best for town in _exact(database, found)]
    return sorted(dict.fromkeys(towns), key=lambda town: -town.population)


def zone_at(latitude: float, longitude: float) -> str:
    """
    Give the IANA zone at coordinates. [deg].

    Raises
    ------
    ValueError
        Outside -90 to 90 and -180 to 180.
    """
    if not (-90 <= latitude <= 90 and -180 <= longitude <= 180):  # noqa: PLR2004 - the globe
        raise ValueError(f"{latitude} deg, {longitude} deg is not on the globe")
    import tzfpy  # noqa: PLC0415 - 43 MB once loaded

    return str(tzfpy.get_tz(longitude, latitude)) or "UTC"


def parse_coordinates(text: str) -> tuple[float, float] | None:
    """
    Read coordinates as typed, None where the text is none. [deg].

    Raises
    ------
    ValueError
        Where they are not on the globe.
    """
    if len(text) > LONGEST_NAME:
        return None
    minutes = _MINUTES.fullmatch(text.strip())
    plain = _PLAIN.fullmatch(text.strip())
    if minutes:
        d1, m1, ns, d2, m2, ew = minutes.groups()
        latitude, longitude = float(d1) + float(m1) / 60, float(d2) + float(m2) / 60
    elif plain:
        latitude, ns, longitude, ew = float(plain[1]), plain[2], float(plain[3]), plain[4]
    else:
        return None
    latitude *= -1 if ns.upper() == "S" else 1
    longitude *= -1 if ew.upper() == "W" else 1
    if not (-90 <= latitude <= 90 and -180 <= longitude <= 180):  # noqa: PLR2004 - the globe
        raise ValueError(f"{latitude} deg, {longitude} deg is not on the globe")
    return latitude, longitude
