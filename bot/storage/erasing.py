"""What is erased at somebody's wish: a member's account, or a household with all that was told."""

import json
from datetime import datetime
from pathlib import Path

import sqlalchemy as sa

from bot.domain.identity import HouseholdId, MemberId
from bot.storage.tables import (
    household,
    invite,
    journal,
    member,
    outbox,
    parked,
    photo,
    place,
    plant,
    product,
    question,
)

_OF_A_HOUSEHOLD = (question, invite, outbox, photo)
_THINGS = (plant, place, product)


def erase_member(connection: sa.Connection, number: MemberId, now: datetime) -> None:
    """
    Erase a member's account: name, account, chat, and every message to or from it.

    What was told of plants stays with the plants, without a name.
    """
    row = connection.execute(sa.select(member.c.person, member.c.chat).where(member.c.id == number)).first()
    if row is None:
        return
    others = sa.select(member.c.id).where(member.c.chat == row.chat, member.c.id != number)
    if connection.execute(others).first() is None:
        connection.execute(sa.delete(outbox).where(outbox.c.chat == row.chat))
        connection.execute(sa.delete(question).where(question.c.chat == row.chat))
    _erase_parked(connection, {row.person, row.chat})
    # never the number of an account: those are positive for people and below -1 for groups
    gone = {"person": 0, "chat": 0, "name": "", "left_at": sa.func.coalesce(member.c.left_at, now)}
    connection.execute(sa.update(member).where(member.c.id == number).values(**gone))


def erase_household(connection: sa.Connection, number: HouseholdId) -> None:
    """Erase a household: its journal, its plants, its members, every message."""
    people = connection.execute(
        sa.select(member.c.person, member.c.chat).where(member.c.household == number)
    ).all()
    chats = {row.chat for row in people}
    elsewhere = set(
        connection.execute(
            sa.select(member.c.chat).where(member.c.household != number, member.c.chat.in_(chats))
        ).scalars()
    )
    connection.execute(sa.delete(outbox).where(outbox.c.chat.in_(chats - elsewhere)))
    _erase_parked(connection, {row.person for row in people} | chats)
    for table in _OF_A_HOUSEHOLD:
        connection.execute(sa.delete(table).where(table.c.household == number))
    connection.execute(
        sa.update(journal).where(journal.c.household == number).values(void_of=None)
    )  # entries name each other
    connection.execute(sa.delete(journal).where(journal.c.household == number))
    for table in (*_THINGS, member):
        connection.execute(sa.delete(table).where(table.c.household == number))
    connection.execute(sa.delete(household).where(household.c.id == number))


def _erase_parked(connection: sa.Connection, accounts: set[int]) -> None:
    """Erase what was put aside unread where it names one of these accounts."""
    for row in connection.execute(sa.select(parked.c.update_id, parked.c.raw)).all():
        if any(str(account) in row.raw for account in accounts if account):
            connection.execute(sa.delete(parked).where(parked.c.update_id == row.update_id))


class Erasures:
    """A file of what was erased, beside the backups: a restored copy must not bring it back."""

    def __init__(self, data_folder: Path) -> None:
        self._file = data_folder / "erased.jsonl"

    def add(self, *, household: HouseholdId | None = None, member: MemberId | None = None) -> None:
        """Remember an erasure by its number alone."""
        line = json.dumps({"household": household} if household is not None else {"member": member})
        with self._file.open("a", encoding="utf-8") as file:
            file.write(line + "\n")

    def replay(self, connection: sa.Connection, now: datetime) -> int:
        """Erase again whatever was erased since a copy was made, and count it."""
        lines = self._file.read_text("utf-8").splitlines() if self._file.is_file() else []
        for line in lines:
            told = json.loads(line)
            if "household" in told:
                erase_household(connection, HouseholdId(told["household"]))
            else:
                erase_member(connection, MemberId(told["member"]), now)
        return len(lines)
