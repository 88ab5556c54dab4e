from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

import pytest

from bot.domain.identity import HouseholdId
from bot.domain.journal import Nudged
from bot.storage.database import Database
from bot.storage.delivery import OutboxRow
from bot.storage.journal_cache import Held, JournalCache
from tests.storage.conftest import Open
from tests.storage.sample import NOW, draft, found, later, named


def test_two_writers_never_lose_an_update(reopen: Open) -> None:
    """Each appends the number of entries it read; a lost update would be a number told twice."""
    writers = [reopen() for _ in range(4)]
    home = found(writers[0]).household
    start = Barrier(len(writers))

    def count_up(database: Database) -> None:
        start.wait()
        for _ in range(10):
            with database.unit() as unit:
                count = len(unit.entries(home))
                unit.append(home, [draft(Nudged(count=count, tasks=()))], "evening", NOW)

    with ThreadPoolExecutor(len(writers)) as threads:
        list(threads.map(count_up, writers))
    for database in writers:
        with database.unit() as unit:
            told = [entry.payload for entry in unit.entries(home)]
        assert told == [Nudged(count=count, tasks=()) for count in range(40)]


def test_two_senders_never_claim_the_same(reopen: Open) -> None:
    senders = [reopen() for _ in range(4)]
    with senders[0].unit() as unit:
        for chat in range(1, 41):
            unit.queue(f"nudge:{chat}", chat, "sendMessage", {}, NOW)
    start = Barrier(len(senders))

    def claim(database: Database) -> list[OutboxRow]:
        start.wait()
        mine: list[OutboxRow] = []
        for _ in range(20):
            with database.unit() as unit:
                mine.extend(unit.claim_outbox(NOW, "me", later(60), 3))
        return mine

    with ThreadPoolExecutor(len(senders)) as threads:
        claimed = [row.chat for rows in threads.map(claim, senders) for row in rows]
    assert sorted(claimed) == list(range(1, 41))


def test_a_due_household_held_by_one_is_skipped_by_another(url: str, reopen: Open) -> None:
    if url.startswith("sqlite"):
        pytest.skip("SQLite has one writer: the other waits instead")
    mine, other = reopen(), reopen()
    first, second = (found(mine, person=n, chat=n).household for n in (1, 2))
    with mine.unit() as unit:
        unit.set_next_evening(first, NOW)
        unit.set_next_evening(second, later(1))
    with mine.unit() as holding, other.unit() as looking:
        assert holding.due_households(later(1), 1) == (first,)
        assert looking.due_households(later(1), 5) == (second,)


def test_a_rolled_back_append_never_reaches_the_cache(database: Database) -> None:
    home = found(database).household

    class _Stop(Exception):  # noqa: N818 - not an error, only the way out
        pass

    def append_in_vain() -> None:
        with database.unit() as unit:
            unit.entries(home)
            unit.append(home, [named("ghost")], "update:1", NOW)
            assert len(unit.entries(home)) == 1
            raise _Stop

    with pytest.raises(_Stop):
        append_in_vain()
    with database.unit() as unit:
        assert unit.entries(home) == ()
        # SQLite gives the number of the ghost once more; what it names must be the ivy
        added = unit.append(home, [named("ivy")], "update:2", NOW)
    with database.unit() as unit:
        assert unit.entries(home) == added


def test_a_warm_journal_sees_what_others_appended(reopen: Open) -> None:
    mine, other = reopen(), reopen()
    home = found(mine).household
    with mine.unit() as unit:
        first = unit.append(home, [named("ivy")], "update:1", NOW)
        assert unit.entries(home) == first
    with other.unit() as unit:
        second = unit.append(home, [named("hoya")], "update:2", NOW)
    with mine.unit() as unit:
        assert unit.entries(home) == first + second


def test_an_erased_home_leaves_a_warm_journal(reopen: Open) -> None:
    mine, other = reopen(), reopen()
    home = found(mine).household
    with mine.unit() as unit:
        unit.append(home, [named("ivy"), named("hoya")], "update:1", NOW)
        assert len(unit.entries(home)) == 2
    with other.unit() as unit:
        unit.forget_household(home)
    with mine.unit() as unit:
        assert unit.entries(home) == ()


def test_a_warm_journal_is_not_read_again(database: Database) -> None:
    home = found(database).household
    with database.unit() as unit:
        unit.append(home, [named("ivy")], "update:1", NOW)
        unit.entries(home)
    with database.unit() as unit:
        once = unit.entries(home)
    with database.unit() as unit:
        assert unit.entries(home) is once


def test_the_cache_keeps_the_last_used() -> None:
    cache = JournalCache(households=2)
    kept, dropped, new = HouseholdId(1), HouseholdId(2), HouseholdId(3)
    for home in (kept, dropped):
        cache.put(home, Held())
    cache.take(kept)
    cache.put(new, Held())
    assert len(cache) == 2


def test_the_cache_is_bounded_by_its_entries_too(database: Database) -> None:
    home = found(database).household
    with database.unit() as unit:
        four = unit.append(home, [named("ivy")] * 4, "update:1", NOW)
    cache = JournalCache(entries=6)
    cache.put(HouseholdId(1), Held(four))
    cache.put(HouseholdId(2), Held(four))
    assert cache.take(HouseholdId(1)) == Held()
    assert cache.take(HouseholdId(2)) == Held(four)
    cache.put(HouseholdId(2), Held(four[:1]))
    cache.put(HouseholdId(3), Held(four))
    assert len(cache) == 2
