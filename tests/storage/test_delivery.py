from datetime import timedelta

import pytest

from bot.storage.database import Database
from bot.storage.delivery import OutboxRow
from bot.storage.store import SEEN_KEPT, SqlStore
from tests.storage.sample import GROUP, NOW, PERSON, found, later

LEASE = later(60)


def queued(unit: SqlStore, key: str, chat: int = PERSON) -> int:
    number = unit.queue(key, chat, "sendMessage", {"text": "Good evening"}, NOW)
    assert number is not None
    return number


def claimed_keys(rows: tuple[OutboxRow, ...]) -> list[str]:
    return [row.key for row in rows]


def test_an_update_is_seen_once(database: Database) -> None:
    with database.unit() as unit:
        assert unit.mark_seen(10, NOW)
        assert not unit.mark_seen(10, NOW)
    with database.unit() as unit:
        assert not unit.mark_seen(10, NOW)
        assert unit.mark_seen(11, NOW)


def test_old_updates_are_forgotten(database: Database) -> None:
    with database.unit() as unit:
        unit.mark_seen(10, NOW)
        unit.mark_seen(11, later(10))
        unit.tidy(later(10) + SEEN_KEPT)
        assert unit.mark_seen(10, NOW)
        assert not unit.mark_seen(11, NOW)


@pytest.mark.parametrize("raw", ['{"message": 1}', "half a pair \ud83e", "a zero \x00 byte"])
def test_any_update_can_be_parked_twice(database: Database, raw: str) -> None:
    with database.unit() as unit:
        unit.park(10, raw, "no date", NOW)
        unit.park(10, raw, "no date", NOW)
        assert unit.parked() == 1


def test_a_key_is_queued_once(database: Database) -> None:
    with database.unit() as unit:
        assert queued(unit, "reply:1:0")
        assert unit.queue("reply:1:0", PERSON, "sendMessage", {}, NOW) is None
        assert unit.undelivered() == 1


def test_what_is_claimed_is_what_was_queued(database: Database) -> None:
    home = found(database).household
    body = {"text": "Ivy: swab ☂ \ud83e", "reply_markup": {"inline_keyboard": [[]]}}
    with database.unit() as unit:
        number = unit.queue("reply:1:0", PERSON, "sendMessage", body, NOW, household=home)
        rows = unit.claim_outbox(NOW, "me", LEASE, 10)
    assert number is not None
    assert rows == (
        OutboxRow(
            id=number,
            key="reply:1:0",
            household=home,
            chat=PERSON,
            method="sendMessage",
            body=body,
            tries=1,
        ),
    )


def test_nothing_waiting_is_nothing_claimed(database: Database) -> None:
    with database.unit() as unit:
        assert unit.claim_outbox(NOW, "me", LEASE, 10) == ()


def test_a_row_born_claimed_is_left_to_its_writer(database: Database) -> None:
    with database.unit() as unit:
        unit.queue_claimed([("reply:1:0", PERSON, "sendMessage", {})], NOW, "me", LEASE)
        assert unit.claim_outbox(NOW, "other", later(90), 10) == ()
        assert claimed_keys(unit.claim_outbox(LEASE, "other", later(120), 10)) == ["reply:1:0"]


def test_a_lease_that_ended_is_claimed_again(database: Database) -> None:
    with database.unit() as unit:
        queued(unit, "reply:1:0")
        unit.claim_outbox(NOW, "crashed", LEASE, 10)
    with database.unit() as unit:
        assert unit.claim_outbox(LEASE - timedelta(microseconds=1), "other", later(90), 10) == ()
        (row,) = unit.claim_outbox(LEASE, "other", later(120), 10)
    assert row.tries == 2


def test_a_new_process_frees_what_the_one_before_claimed(database: Database) -> None:
    with database.unit() as unit:
        queued(unit, "reply:1:0")
        unit.claim_outbox(NOW, "killed", LEASE, 10)
    with database.unit() as unit:
        unit.release_claims()
        (row,) = unit.claim_outbox(NOW, "next", LEASE, 10)
    assert row.key == "reply:1:0"
    with database.unit() as unit:  # and freed again, however often it is killed within one lease
        unit.release_claims()
        assert claimed_keys(unit.claim_outbox(NOW, "third", LEASE, 10)) == ["reply:1:0"]


def test_in_a_chat_nothing_overtakes(database: Database) -> None:
    with database.unit() as unit:
        first, _ = queued(unit, "a1"), queued(unit, "a2")
        queued(unit, "b1", GROUP)
        assert claimed_keys(unit.claim_outbox(NOW, "me", LEASE, 10)) == ["a1", "b1"]
        assert unit.claim_outbox(NOW, "me", LEASE, 10) == ()
        unit.settle(NOW, {first: 555})
        assert claimed_keys(unit.claim_outbox(NOW, "me", LEASE, 10)) == ["a2"]


def test_later_ones_wait_behind_a_retry(database: Database) -> None:
    with database.unit() as unit:
        first, _ = queued(unit, "a1"), queued(unit, "a2")
        unit.claim_outbox(NOW, "me", LEASE, 10)
        unit.retry_later(first, later(5), "too many requests")
        assert unit.claim_outbox(later(4), "me", LEASE, 10) == ()
        assert claimed_keys(unit.claim_outbox(later(5), "me", LEASE, 10)) == ["a1"]


def test_a_row_given_up_lets_the_next_through(database: Database) -> None:
    with database.unit() as unit:
        first, _ = queued(unit, "a1"), queued(unit, "a2")
        unit.give_up(first, "blocked")
        assert unit.undelivered() == 1
        unit.retry_later(first, NOW, "too late to change that")
        assert claimed_keys(unit.claim_outbox(NOW, "me", LEASE, 10)) == ["a2"]


def test_a_sent_row_stays_sent(database: Database) -> None:
    with database.unit() as unit:
        first = queued(unit, "a1")
        unit.settle(NOW, {first: None})
        unit.retry_later(first, NOW, "late answer")
        unit.give_up(first, "late answer")
        assert unit.undelivered() == 0
        assert unit.claim_outbox(later(999), "me", later(1999), 10) == ()


def test_a_claim_takes_no_more_than_asked(database: Database) -> None:
    with database.unit() as unit:
        for chat in range(1, 6):
            queued(unit, f"a{chat}", chat)
        assert claimed_keys(unit.claim_outbox(NOW, "me", LEASE, 2)) == ["a1", "a2"]
        assert claimed_keys(unit.claim_outbox(NOW, "me", LEASE, 9)) == ["a3", "a4", "a5"]


def test_a_moved_chat_takes_its_members_and_messages_along(database: Database) -> None:
    home = found(database, chat=GROUP).household
    with database.unit() as unit:
        sent, _ = queued(unit, "a1", GROUP), queued(unit, "a2", GROUP)
        unit.settle(NOW, {sent: 1})
        unit.migrate_chat(GROUP, -1_009_000_000_000)
        assert unit.members(home)[0].chat == -1_009_000_000_000
        assert [row.chat for row in unit.claim_outbox(NOW, "me", LEASE, 9)] == [-1_009_000_000_000]
