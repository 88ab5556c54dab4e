"""What the storage tests tell: one household, a few entries, fixed instants."""

from datetime import UTC, date, datetime, timedelta

from bot.actions.ports import Member
from bot.domain.identity import EntryId, PlantId
from bot.domain.journal import Draft, Payload, PlantSet
from bot.storage.database import Database

NOW = datetime(2026, 3, 1, 19, 0, tzinfo=UTC)
TODAY = date(2026, 3, 1)
PERSON = 42
GROUP = -100_200_300_400


def later(seconds: float) -> datetime:
    return NOW + timedelta(seconds=seconds)


def draft(payload: Payload, plant: PlantId | None = None, void_of: EntryId | None = None) -> Draft:
    return Draft(payload=payload, happened_at=NOW, happened_on=TODAY, plant=plant, void_of=void_of)


def named(name: str) -> Draft:
    return draft(PlantSet(name=name))


def found(database: Database, person: int = PERSON, chat: int = PERSON) -> Member:
    with database.unit() as unit:
        return unit.found_household(person, chat, "Mira", NOW)
