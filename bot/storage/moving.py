"""A household as one JSON document, out of one database and into another, where it gets numbers anew."""

import json
from collections.abc import Mapping, Sequence
from datetime import date, datetime
from typing import Annotated, Any, Literal

import msgspec
import sqlalchemy as sa
from msgspec import UNSET, UnsetType

from bot.domain.identity import HouseholdId, PhotoId
from bot.storage.codec import decode_payload
from bot.storage.failure import StoreError
from bot.storage.photos import BadPictureError, PhotoFolder
from bot.storage.prepared import inserted
from bot.storage.tables import household, journal, member, photo, place, plant, product

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
_THINGS = {"places": place, "plants": plant, "products": product}
_Instant = Annotated[datetime, msgspec.Meta(tz=True)]


class _Member(msgspec.Struct, kw_only=True):
    id: int
    name: str = ""
    is_owner: bool = False
    has_left: bool = False
    person: int | UnsetType = UNSET
    chat: int | UnsetType = UNSET


class _Photo(msgspec.Struct):
    id: int
    content: bytes | UnsetType = UNSET


class _Entry(msgspec.Struct, kw_only=True):
    id: int
    member: int | None
    plant: int | None
    kind: str
    version: int
    happened_at: _Instant
    happened_on: date
    recorded_at: _Instant
    source: str = "import"
    payload: dict[str, Any]
    void_of: int | None


class _Document(msgspec.Struct, kw_only=True):
    format: Literal["duskround-household"] = "duskround-household"
    version: Literal[1, 2] = 2
    founded_at: _Instant
    members: list[_Member]
    places: list[int]
    plants: list[int]
    products: list[int]
    photos: list[_Photo | int]
    """Version 1 held the numbers of photos alone."""
    journal: Annotated[list[_Entry], msgspec.Meta(max_length=MOST_ENTRIES)]


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
    pictures = [PhotoId(one.id) for one in _rows(connection, photo, number)]
    document = _Document(
        founded_at=founded,
        members=[
            _Member(
                id=one.id,
                name=one.name,
                is_owner=one.is_owner,
                has_left=one.left_at is not None,
                person=UNSET if photos is None else one.person,
                chat=UNSET if photos is None else one.chat,
            )
            for one in _rows(connection, member, number)
        ],
        places=[one.id for one in _rows(connection, place, number)],
        plants=[one.id for one in _rows(connection, plant, number)],
        products=[one.id for one in _rows(connection, product, number)],
        photos=[
            _Photo(one, (None if photos is None else photos.read(number, one)) or UNSET) for one in pictures
        ],
        journal=[
            _Entry(
                **{name: getattr(row, name) for name in _Entry.__struct_fields__ if name != "payload"},
                payload=json.loads(row.payload),
            )
            for row in _rows(connection, journal, number)
        ],
    )
    plain: dict[str, Any] = msgspec.to_builtins(document)
    return plain


def import_household(
    connection: sa.Connection, told: object, owner: tuple[int, str] | None, photos: PhotoFolder, now: datetime
) -> HouseholdId:
    """
    Write a household that was exported, its photos too, under new numbers, and give its own.

    Of `told`, as read from a file, nothing is trusted; `owner`, account and name, is to own it where the
    document holds no accounts. StoreError where the document is none of ours, the household is here already,
    or an entry or a photo of it cannot be read; nothing is to be committed then, and photos written so far
    are swept.
    """
    try:
        return _imported(connection, msgspec.convert(told, _Document), owner, photos, now)
    except RecursionError as error:
        raise StoreError("the document is nested too deeply") from error
    except msgspec.MsgspecError as error:
        raise StoreError(f"this is no household exported by Duskround: {error}") from error
    except (sa.exc.SQLAlchemyError, OverflowError, ValueError) as error:
        reason = str(getattr(error, "orig", error)).partition("\n")[0]
        raise StoreError(f"the document holds what no database takes: {reason}") from error


def _imported(
    connection: sa.Connection,
    told: _Document,
    owner: tuple[int, str] | None,
    photos: PhotoFolder,
    now: datetime,
) -> HouseholdId:
    is_without_accounts = all(one.person is UNSET for one in told.members)
    if owner is None and is_without_accounts:
        raise StoreError("the document names no accounts: say whose household it is to be (--owner ACCOUNT)")
    _refuse_twice(connection, told)
    home = inserted(connection, household, {"founded_at": told.founded_at, "next_evening_at": now})
    numbers = {
        name: {one: inserted(connection, table, {"household": home}) for one in getattr(told, name)}
        for name, table in _THINGS.items()
    }
    numbers["photos"] = _photos(connection, HouseholdId(home), told, photos, now)
    numbers["members"] = {one.id: _add_member(connection, home, one, owner, now) for one in told.members}
    written: dict[int, int] = {}
    for entry in told.journal:
        written[entry.id] = _add_entry(connection, home, entry, numbers, written)
    if owner is not None and is_without_accounts:
        person, name = owner
        row = {"household": home, "person": person, "chat": person, "name": name, "is_owner": True}
        inserted(connection, member, row)
    return HouseholdId(home)


def _refuse_twice(connection: sa.Connection, told: _Document) -> None:
    """Refuse a household that is here: founded at the same instant, to the microsecond, and begun alike."""
    begun = (told.journal[0].recorded_at, told.journal[0].kind) if told.journal else None
    known = sa.select(household.c.id).where(household.c.founded_at == told.founded_at)
    for number in connection.execute(known).scalars().all():
        first = sa.select(journal.c.recorded_at, journal.c.kind).where(journal.c.household == number)
        row = connection.execute(first.order_by(journal.c.id).limit(1)).first()
        if (None if row is None else tuple(row)) == begun:
            raise StoreError(f"this household is here already, as number {number}")


def _rows(connection: sa.Connection, table: sa.Table, number: int) -> Sequence[sa.Row[Any]]:
    chosen = sa.select(table).where(table.c.household == number).order_by(table.c.id)
    return connection.execute(chosen).all()


def _photos(
    connection: sa.Connection, home: HouseholdId, told: _Document, photos: PhotoFolder, now: datetime
) -> dict[int, int]:
    """Give pictures new numbers and write those that are in the document; the others are lost."""
    numbers = {}
    for one in (_Photo(one) if isinstance(one, int) else one for one in told.photos):
        row = {
            "household": home,
            "file_id": "",
            "album": "",
            "state": "refused" if one.content is UNSET else "kept",
            "tries": 0,
            "sent_at": now,
            "not_before": now,
        }
        number = numbers[one.id] = inserted(connection, photo, row)
        if isinstance(one.content, bytes):
            try:
                photos.keep(home, PhotoId(number), one.content)
            except BadPictureError as error:
                raise StoreError(f"photo {one.id} cannot be kept: {error}") from error
    return numbers


def _add_member(
    connection: sa.Connection, home: int, told: _Member, owner: tuple[int, str] | None, now: datetime
) -> int:
    has_account = told.person is not UNSET
    row = {
        "household": home,
        "person": told.person if has_account else 0,
        "chat": told.chat if has_account else 0,
        "name": told.name,
        "is_owner": told.is_owner and owner is None,
        # without an account nobody can speak as this member any more: the entries keep their author
        "left_at": now if told.has_left or not has_account else None,
    }
    return inserted(connection, member, row)


def _add_entry(
    connection: sa.Connection,
    home: int,
    entry: _Entry,
    numbers: Mapping[str, Mapping[int, int]],
    written: Mapping[int, int],
) -> int:
    payload = _renumbered(entry.payload, numbers, entry.id)
    text = json.dumps(payload, ensure_ascii=False, separators=(",", ":"))  # as the codec writes it
    decode_payload(entry.kind, entry.version, text, entry.id)  # what this program cannot read must not get in
    row = msgspec.structs.asdict(entry) | {
        "household": home,
        "member": _given(entry.member, numbers["members"], entry.id),
        "plant": _given(entry.plant, numbers["plants"], entry.id),
        "payload": text,
        "void_of": _given(entry.void_of, written, entry.id),
    }
    del row["id"]
    return inserted(connection, journal, row)


def _given(old: object, numbers: Mapping[int, int], entry: int) -> int | None:
    if old is None:
        return None
    number = numbers.get(old) if isinstance(old, int) else None
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
