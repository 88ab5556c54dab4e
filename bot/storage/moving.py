"""A household as one JSON document, out of one database and into another, where it gets numbers anew."""

import json
from base64 import b64decode, b64encode
from collections.abc import Callable, Mapping
from datetime import date, datetime
from typing import Any

import sqlalchemy as sa

from bot.domain.identity import HouseholdId, PhotoId
from bot.storage.codec import decode_payload
from bot.storage.failure import StoreError
from bot.storage.photos import BadPictureError, PhotoFolder
from bot.storage.tables import household, journal, member, photo, place, plant, product

FORMAT = "duskround-household"
VERSION = 2
"""Version 1 held the numbers of photos alone."""
MOST_ENTRIES = 1_000_000

_NUMBERED: dict[str, str] = {
    "place": "places",
    "plant": "plants",
    "plants": "plants",
    "cleaned_out": "plants",
    "product": "products",
    "photo": "photos",
}
"""Fields of payloads that hold a number of ours, or a list of them, and of which table it is."""

Row = Mapping[str, Any]


def export_household(
    connection: sa.Connection, number: HouseholdId, photos: PhotoFolder | None = None
) -> dict[str, Any]:
    """
    Give a household as plain values: everybody who shared it, its numbers, and its whole journal.

    Photos and chat accounts are in it only for an operator who moves a household, with its folder of photos.
    """
    founded = connection.scalar(sa.select(household.c.founded_at).where(household.c.id == number))
    if founded is None:
        raise StoreError(f"there is no household {number}")
    return {
        "format": FORMAT,
        "version": VERSION,
        "founded_at": founded.isoformat(),
        "members": [
            _member(row, with_accounts=photos is not None) for row in _rows(connection, member, number)
        ],
        "places": _numbers(connection, place, number),
        "plants": _numbers(connection, plant, number),
        "products": _numbers(connection, product, number),
        "photos": [_photo(row, photos) for row in _rows(connection, photo, number)],
        "journal": [_entry(row) for row in _rows(connection, journal, number)],
    }


def import_household(
    connection: sa.Connection, told: object, owner: tuple[int, str] | None, photos: PhotoFolder, now: datetime
) -> HouseholdId:
    """
    Write a household that was exported, its photos too, under new numbers, and give its own.

    Parameters
    ----------
    told
        What `export_household` gave, as read from a file: nothing in it is trusted.
    owner
        Account and name of who is to own it where the document holds no accounts.

    Raises
    ------
    StoreError
        Where the document is none of ours, the household is here already, or an entry or a photo of it cannot
        be read; nothing is to be committed then, and photos written so far are swept.
    """
    try:
        return _imported(connection, _document(told), owner, photos, now)
    except RecursionError as error:
        raise StoreError("the document is nested too deeply") from error
    except (sa.exc.SQLAlchemyError, OverflowError, ValueError) as error:
        reason = str(getattr(error, "orig", error)).partition("\n")[0]
        raise StoreError(f"the document holds what no database takes: {reason}") from error


def _imported(
    connection: sa.Connection,
    document: dict[str, Any],
    owner: tuple[int, str] | None,
    photos: PhotoFolder,
    now: datetime,
) -> HouseholdId:
    members = [_table(one, "member") for one in _list(document, "members")]
    if owner is None and not any("person" in one for one in members):
        raise StoreError("the document names no accounts: say whose household it is to be (--owner ACCOUNT)")
    founded = _instant(document, "founded_at")
    entries = [_table(one, "entry") for one in _list(document, "journal")]
    if len(entries) > MOST_ENTRIES:
        raise StoreError(f"{len(entries)} entries are more than {MOST_ENTRIES}")
    _refuse_twice(connection, founded, entries)
    home = _insert(connection, household, {"founded_at": founded, "next_evening_at": now})
    numbers = {
        name: {
            _integer(one): _insert(connection, table, {"household": home}) for one in _list(document, name)
        }
        for name, table in (("places", place), ("plants", plant), ("products", product))
    }
    numbers["photos"] = _photos(connection, HouseholdId(home), document, photos, now)
    numbers["members"] = {
        _integer(one.get("id")): _add_member(connection, home, one, owner, now) for one in members
    }
    written: dict[int, int] = {}
    for entry in entries:
        written[_integer(entry.get("id"))] = _add_entry(connection, home, entry, numbers, written)
    if owner is not None and not any("person" in one for one in members):
        _make_owner(connection, home, owner)
    return HouseholdId(home)


def _refuse_twice(connection: sa.Connection, founded: datetime, entries: list[dict[str, Any]]) -> None:
    """Refuse a household that is here: founded at the same instant, to the microsecond, and begun alike."""
    begun = None if not entries else (_instant(entries[0], "recorded_at"), str(entries[0].get("kind")))
    known = sa.select(household.c.id).where(household.c.founded_at == founded)
    for number in connection.execute(known).scalars().all():
        first = sa.select(journal.c.recorded_at, journal.c.kind).where(journal.c.household == number)
        row = connection.execute(first.order_by(journal.c.id).limit(1)).first()
        if (None if row is None else tuple(row)) == begun:
            raise StoreError(f"this household is here already, as number {number}")


def _rows(connection: sa.Connection, table: sa.Table, number: int) -> list[Row]:
    found = connection.execute(sa.select(table).where(table.c.household == number).order_by(table.c.id))
    return [dict(row._mapping) for row in found]  # noqa: SLF001 - the library's public name for it


def _numbers(connection: sa.Connection, table: sa.Table, number: int) -> list[int]:
    chosen = sa.select(table.c.id).where(table.c.household == number).order_by(table.c.id)
    return list(connection.execute(chosen).scalars())


def _member(row: Row, *, with_accounts: bool) -> dict[str, Any]:
    told = {
        "id": row["id"],
        "name": row["name"],
        "is_owner": row["is_owner"],
        "has_left": row["left_at"] is not None,
    }
    return told | ({"person": row["person"], "chat": row["chat"]} if with_accounts else {})


def _entry(row: Row) -> dict[str, Any]:
    return {
        "id": row["id"],
        "member": row["member"],
        "plant": row["plant"],
        "kind": row["kind"],
        "version": row["version"],
        "happened_at": row["happened_at"].isoformat(),
        "happened_on": row["happened_on"].isoformat(),
        "recorded_at": row["recorded_at"].isoformat(),
        "source": row["source"],
        "payload": json.loads(row["payload"]),
        "void_of": row["void_of"],
    }


def _document(told: object) -> dict[str, Any]:
    document = _table(told, "document")
    if document.get("format") != FORMAT:
        raise StoreError("this is no household exported by Duskround")
    if document.get("version") not in (1, VERSION):
        raise StoreError(
            f"the document is of version {document.get('version')!r}, this program reads up to {VERSION}"
        )
    return document


def _table(value: object, what: str) -> dict[str, Any]:
    if not isinstance(value, dict):
        raise StoreError(f"{what}: a table is expected")
    return value


def _list(document: Row, name: str) -> list[Any]:
    value = document.get(name)
    if not isinstance(value, list):
        raise StoreError(f"{name}: a list is expected")
    return value


def _integer(value: object) -> int:
    if isinstance(value, bool) or not isinstance(value, int):
        raise StoreError(f"{value!r}: a number is expected")
    return value


def _read(value: object, read: Callable[[str], Any], what: str) -> Any:
    try:
        return read(str(value))
    except ValueError as error:
        raise StoreError(f"{what}: {value!r} cannot be read") from error


def _instant(row: Row, name: str) -> datetime:
    at: datetime = _read(row.get(name), datetime.fromisoformat, name)
    if at.tzinfo is None:
        raise StoreError(f"{name}: {at.isoformat()} has no zone")
    return at


def _insert(connection: sa.Connection, table: sa.Table, row: dict[str, Any]) -> int:
    key = connection.execute(sa.insert(table), row).inserted_primary_key
    assert key is not None
    return int(key[0])


def _photo(row: Row, photos: PhotoFolder | None) -> dict[str, Any]:
    content = photos.read(HouseholdId(row["household"]), PhotoId(row["id"])) if photos is not None else None
    return {"id": row["id"]} | ({} if content is None else {"content": b64encode(content).decode()})


def _photos(
    connection: sa.Connection, home: HouseholdId, document: Row, photos: PhotoFolder, now: datetime
) -> dict[int, int]:
    """Give pictures new numbers and write those that are in the document; the others are lost."""
    numbers = {}
    for told in _list(document, "photos"):
        one = _table(told if isinstance(told, dict) else {"id": told}, "photo")
        content = one.get("content")
        row = {
            "household": home,
            "file_id": "",
            "album": "",
            "state": "refused" if content is None else "kept",
            "tries": 0,
            "sent_at": now,
            "not_before": now,
        }
        number = numbers[_integer(one.get("id"))] = _insert(connection, photo, row)
        if content is not None:
            try:
                photos.keep(home, PhotoId(number), b64decode(str(content), validate=True))
            except BadPictureError as error:
                raise StoreError(f"photo {one['id']} cannot be kept: {error}") from error
    return numbers


def _add_member(
    connection: sa.Connection, home: int, told: Row, owner: tuple[int, str] | None, now: datetime
) -> int:
    has_account = "person" in told
    row = {
        "household": home,
        "person": _integer(told["person"]) if has_account else 0,
        "chat": _integer(told["chat"]) if has_account else 0,
        "name": str(told.get("name", "")),
        "is_owner": told.get("is_owner") is True and owner is None,
        # without an account nobody can speak as this member any more: the entries keep their author
        "left_at": now if told.get("has_left") is True or not has_account else None,
    }
    return _insert(connection, member, row)


def _make_owner(connection: sa.Connection, home: int, owner: tuple[int, str]) -> None:
    person, name = owner
    row = {"household": home, "person": person, "chat": person, "name": name, "is_owner": True}
    _insert(connection, member, row)


def _add_entry(
    connection: sa.Connection,
    home: int,
    entry: Row,
    numbers: Mapping[str, Mapping[int, int]],
    written: Mapping[int, int],
) -> int:
    old = _integer(entry.get("id"))
    payload = _renumbered(_table(entry.get("payload"), f"entry {old}"), numbers, old)
    text = json.dumps(payload, ensure_ascii=False, separators=(",", ":"))  # as the codec writes it
    kind, version = str(entry.get("kind")), _integer(entry.get("version"))
    decode_payload(kind, version, text, old)  # what this program cannot read must not get in
    row = {
        "household": home,
        "member": _given(entry.get("member"), numbers["members"], old),
        "plant": _given(entry.get("plant"), numbers["plants"], old),
        "kind": kind,
        "version": version,
        "happened_at": _instant(entry, "happened_at"),
        "happened_on": _read(entry.get("happened_on"), date.fromisoformat, "happened_on"),
        "recorded_at": _instant(entry, "recorded_at"),
        "source": str(entry.get("source", "import")),
        "payload": text,
        "void_of": _given(entry.get("void_of"), written, old),
    }
    return _insert(connection, journal, row)


def _given(old: object, numbers: Mapping[int, int], entry: int) -> int | None:
    if old is None:
        return None
    number = numbers.get(_integer(old))
    if number is None:
        raise StoreError(f"entry {entry} names a number {old} that the document does not hold")
    return number


def _renumbered(value: Any, numbers: Mapping[str, Mapping[int, int]], entry: int) -> Any:
    """Give the same payload with new numbers wherever one of ours stands in it."""
    if isinstance(value, list):
        return [_renumbered(one, numbers, entry) for one in value]
    if not isinstance(value, dict):
        return value
    renumbered = {}
    for name, held in value.items():
        table = _NUMBERED.get(name)
        if table is None or held is None:
            renumbered[name] = _renumbered(held, numbers, entry)
        elif isinstance(held, list):
            renumbered[name] = [_given(one, numbers[table], entry) for one in held]
        else:
            renumbered[name] = _given(held, numbers[table], entry)
    return renumbered
