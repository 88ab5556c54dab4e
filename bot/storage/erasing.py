"""What is erased at somebody's wish: a member's account, or a household with all that was told."""

import json
import os
from collections.abc import Container, Iterable, Mapping
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from typing import Any

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
    stranger,
)

_OF_A_HOUSEHOLD = (question, invite, outbox, photo)
_THINGS = (plant, place, product)
_IS_SETTLED = outbox.c.state.in_(("sent", "given-up"))


def erase_member(connection: sa.Connection, number: MemberId, now: datetime) -> str:
    """
    Erase a member's account: name, account, chat, and every message to or from it; give the member's tag.

    What was told of plants stays with the plants, without a name. Messages to the others of the home go too:
    they may hold the name.
    """
    row = connection.execute(sa.select(member).where(member.c.id == number)).one()
    shared = sa.select(member.c.id).where(
        member.c.chat == row.chat, member.c.id != number, member.c.left_at.is_(None)
    )
    if connection.execute(shared).first() is None:
        connection.execute(sa.delete(outbox).where(outbox.c.chat == row.chat))
        connection.execute(sa.update(photo).where(photo.c.chat == row.chat).values(chat=None))
    connection.execute(sa.delete(outbox).where(outbox.c.chat.in_(_chats(row.household)), _IS_SETTLED))
    connection.execute(sa.delete(invite).where(invite.c.member == number))
    _erase_questions(connection, row.household, row.chat, row.name)
    _erase_traces(connection, {row.person, row.chat})
    # never the number of an account: those are positive for people and below -1 for groups
    gone = {
        "person": 0,
        "chat": 0,
        "name": "",
        "is_owner": False,
        "left_at": sa.func.coalesce(member.c.left_at, now),
    }
    connection.execute(sa.update(member).where(member.c.id == number).values(**gone))
    if row.is_owner:  # only where an older copy came back: who hands over before being forgotten owns nothing
        heir = sa.select(sa.func.min(member.c.id)).where(
            member.c.household == row.household, member.c.left_at.is_(None)
        )
        chosen = connection.execute(heir).scalar()
        connection.execute(sa.update(member).where(member.c.id == chosen).values(is_owner=True))
    return str(row.tag)


def erase_household(connection: sa.Connection, number: HouseholdId) -> str:
    """Erase a household: its journal, its plants, its members, every message; give its tag."""
    tag = connection.execute(sa.select(household.c.tag).where(household.c.id == number)).scalar_one()
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
    connection.execute(sa.delete(outbox).where(outbox.c.chat.in_(elsewhere), _IS_SETTLED))
    _erase_traces(connection, {row.person for row in people} | chats)
    for table in _OF_A_HOUSEHOLD:
        connection.execute(sa.delete(table).where(table.c.household == number))
    connection.execute(
        sa.update(journal).where(journal.c.household == number).values(void_of=None)
    )  # entries name each other
    connection.execute(sa.delete(journal).where(journal.c.household == number))
    for table in (*_THINGS, member):
        connection.execute(sa.delete(table).where(table.c.household == number))
    connection.execute(sa.delete(household).where(household.c.id == number))
    return str(tag)


def chats_of(connection: sa.Connection, number: HouseholdId) -> frozenset[int]:
    """Give the chats a household is spoken with, where last words about an erasure may go."""
    return frozenset(connection.execute(_chats(number)).scalars())


def forget_when_settled(connection: sa.Connection, chats: Iterable[int]) -> None:
    """Mark the messages on their way to these chats: they are not kept once they are sent."""
    on_their_way = sa.update(outbox).where(outbox.c.chat.in_(chats), ~_IS_SETTLED)
    connection.execute(on_their_way.values(to_forget=True))


def forget_settled(connection: sa.Connection) -> tuple[int, bool]:
    """Drop marked messages that were sent; give how many, and whether others are still on their way."""
    marked = sa.text("to_forget")
    dropped = connection.execute(sa.delete(outbox).where(marked, _IS_SETTLED)).rowcount
    left = connection.execute(sa.select(outbox.c.id).where(marked).limit(1)).first()
    return dropped, left is not None


def _chats(number: int) -> sa.Select[Any]:
    return sa.select(member.c.chat).where(member.c.household == number, member.c.left_at.is_(None))


def _erase_questions(connection: sa.Connection, home: int, chat: int, name: str) -> None:
    """Erase questions of a chat, those of a home that are over, and those whose buttons may hold a name."""
    written = (json.dumps(name)[1:-1], name)
    of_both = sa.or_(question.c.household == home, question.c.chat == chat)
    for row in connection.execute(sa.select(question).where(of_both)).all():
        has_name = name and any(one in row.choices for one in written)
        if row.chat == chat or row.closed_at is not None or has_name:
            connection.execute(sa.delete(question).where(question.c.id == row.id))


def _erase_traces(connection: sa.Connection, accounts: set[int]) -> None:
    """Erase what else names one of these accounts: as a stranger, or in an update put aside unread."""
    connection.execute(sa.delete(stranger).where(stranger.c.person.in_(accounts)))
    for row in connection.execute(sa.select(parked.c.update_id, parked.c.raw)).all():
        if any(str(account) in row.raw for account in accounts if account):
            connection.execute(sa.delete(parked).where(parked.c.update_id == row.update_id))


class Erasures:
    """A file of what was erased, in the data folder: no copy, however it comes back, may bring it back."""

    def __init__(self, data_folder: Path) -> None:
        self._file = data_folder / "erased.jsonl"

    def add(self, tags: Iterable[str]) -> None:
        """Remember erasures by tag alone, forced to the disk."""
        with self._file.open("a", encoding="utf-8") as file:
            for tag in tags:
                file.write(f"\n{json.dumps({'tag': tag})}\n")  # on a line of its own, also after a cut one
            file.flush()
            os.fsync(file.fileno())

    def replay(
        self, connection: sa.Connection, now: datetime, spared: Mapping[str, Container[int]] | None = None
    ) -> int:
        """
        Erase again whatever was erased and has come back, and count it.

        Version 0.4 noted erasures by number alone, and after one of its restores somebody new could get the
        number of somebody erased: such lines count only where the numbers to be `spared` are told, and for
        what that version made.
        """
        told = self._told()
        tags = [one["tag"] for one in told if "tag" in one]
        homes, people = (
            {
                one[name]
                for one in told
                if name in one and spared is not None and one[name] not in spared[name]
            }
            for name in ("household", "member")
        )
        old_home = household.c.id.in_(homes) & household.c.tag.startswith("household:")
        found = sa.select(household.c.id).where(household.c.tag.in_(tags) | old_home)
        households = connection.execute(found).scalars().all()
        for number in households:
            erase_household(connection, HouseholdId(number))
        old_member = member.c.id.in_(people) & member.c.tag.startswith("member:")
        named = member.c.tag.in_(tags) | old_member
        members = (
            connection.execute(sa.select(member.c.id).where(named, member.c.person != 0)).scalars().all()
        )
        for number in members:
            erase_member(connection, MemberId(number), now)
        return len(households) + len(members)

    def _told(self) -> list[dict[str, Any]]:
        """Read whole lines; a full disk may have cut one, whose erasure was not committed then."""
        told = []
        lines = self._file.read_text("utf-8", errors="replace").splitlines() if self._file.is_file() else []
        for line in lines:
            with suppress(ValueError):
                told.append(json.loads(line))
        return [one for one in told if isinstance(one, dict)]
