from datetime import date, timedelta

import pytest
import sqlalchemy as sa

from bot.actions.action import ButtonText, Choice, Expecting
from bot.actions.ports import Store
from bot.actions.undo import Undo
from bot.domain.identity import HouseholdId
from bot.domain.journal import Found, PestCorrected, PlantSet, Voided
from bot.domain.trade import Grade
from bot.storage.database import Database
from bot.storage.engine import open_engine
from tests.storage.conftest import Open
from tests.storage.sample import GROUP, NOW, PERSON, TODAY, draft, found, later, named


def test_the_store_is_what_the_actions_need(database: Database) -> None:
    with database.unit() as unit:
        needed: Store = unit
        assert needed.earliest_evening() is None


def test_the_founder_is_found_again_as_owner(database: Database) -> None:
    founder = found(database)
    with database.unit() as unit:
        assert unit.member(PERSON, PERSON) == founder
        assert unit.members(founder.household) == (founder,)
        assert founder.is_owner


def test_nobody_knows_a_stranger(database: Database) -> None:
    found(database)
    with database.unit() as unit:
        assert unit.member(7, 7) is None
        assert unit.member(7, GROUP) is None


def test_in_a_group_the_chat_decides_the_household(database: Database) -> None:
    own = found(database)
    shared = found(database, person=7, chat=GROUP)
    with database.unit() as unit:
        assert unit.member(PERSON, GROUP) is None
        joined = unit.join_household(shared.household, PERSON, GROUP, "Ada")
    with database.unit() as unit:
        assert unit.member(PERSON, GROUP) == joined
        assert unit.member(PERSON, PERSON) == own
        assert unit.members(shared.household) == (shared, joined)


def test_a_member_of_a_group_alone_may_write_privately(database: Database) -> None:
    shared = found(database, person=7, chat=GROUP)
    with database.unit() as unit:
        assert unit.member(7, 7) == shared


def test_who_left_is_no_member_and_may_join_again(database: Database) -> None:
    founder = found(database)
    with database.unit() as unit:
        unit.leave_household(PERSON, founder.household, NOW)
        assert unit.member(PERSON, PERSON) is None
        assert unit.members(founder.household) == ()
        again = unit.join_household(founder.household, PERSON, PERSON, "Mira")
        assert again.id > founder.id


def test_entries_come_back_as_they_were_appended(database: Database, reopen: Open) -> None:
    founder = found(database)
    with database.unit() as unit:
        ivy = unit.new_plant(founder.household)
        drafts = [draft(PlantSet(name=f"ivy {n}"), plant=ivy) for n in range(40)]
        added = unit.append(founder.household, drafts, "update:1", later(1))
        assert unit.entries(founder.household) == added
    assert [entry.payload for entry in added] == [one.payload for one in drafts]
    with reopen().unit() as unit:
        assert unit.entries(founder.household) == added


def test_households_do_not_see_each_other(database: Database) -> None:
    mine, theirs = found(database), found(database, person=7, chat=7)
    with database.unit() as unit:
        unit.append(mine.household, [named("ivy")], "update:1", NOW)
        assert unit.entries(theirs.household) == ()


def test_nothing_to_append_is_nothing_appended(database: Database) -> None:
    founder = found(database)
    with database.unit() as unit:
        assert unit.append(founder.household, [], "update:1", NOW) == ()


def test_an_undone_group_stays_in_the_journal(database: Database, reopen: Open) -> None:
    home = found(database).household
    with database.unit() as unit:
        told = unit.append(home, [draft(Found(pest="mite", grade=Grade.FEW)), named("ivy")], "update:1", NOW)
    with database.unit() as unit:
        voids = [draft(Voided(), void_of=entry.id) for entry in told]
        undone = unit.append(home, voids, "update:2", NOW)
    with reopen().unit() as unit:
        assert unit.entries(home) == told + undone
        assert [entry.void_of for entry in undone] == [entry.id for entry in told]


def test_places_plants_and_products_are_numbered(database: Database) -> None:
    home = found(database).household
    with database.unit() as unit:
        assert unit.new_plant(home) < unit.new_plant(home)
        assert unit.new_place(home) < unit.new_place(home)
        assert unit.new_product(home) < unit.new_product(home)


def test_a_question_of_a_newer_version_is_an_empty_one(database: Database, url: str) -> None:
    home = found(database).household
    with database.unit() as unit:
        asked = unit.ask(home, PERSON, Expecting.CHOICE, (Choice(ButtonText.WHY, (Undo(),)),), NOW)
    engine = open_engine(url)
    with engine.begin() as connection:
        told = '[{"text":"to-come","of":"","commands":[{"type":"to_come"}]}]'
        connection.execute(
            sa.text("UPDATE question SET choices = :told, expecting = 'to-come'"), {"told": told}
        )
    engine.dispose()
    with database.unit() as unit:
        empty = unit.question(home, PERSON)
        assert empty is not None
        assert (empty.id, empty.expecting, empty.choices) == (asked.id, Expecting.NOTHING, ())
        assert unit.question_by_id(asked.id) == empty


def test_a_new_question_closes_the_one_before(database: Database) -> None:
    home = found(database).household
    choices = (Choice(ButtonText.NAMED, (Undo(),), "Undo it"),)
    with database.unit() as unit:
        assert unit.question(home, PERSON) is None
        first = unit.ask(home, PERSON, Expecting.CHOICE, choices, NOW)
        assert unit.question(home, PERSON) == first
        second = unit.ask(home, PERSON, Expecting.TOWN, (), later(1))
    with database.unit() as unit:
        assert unit.question(home, PERSON) == second
        assert unit.question(home, GROUP) is None
        assert unit.question_by_id(first.id) == first
        unit.close_question(home, PERSON)
        assert unit.question(home, PERSON) is None
        assert unit.question_by_id(second.id) == second
        assert unit.question_by_id(999) is None


def test_due_households_come_oldest_first(database: Database) -> None:
    homes = [found(database, person=n, chat=n).household for n in range(1, 5)]
    with database.unit() as unit:
        for home, minutes in zip(homes, (3, 1, 2, 9), strict=True):
            unit.set_next_evening(home, NOW + timedelta(minutes=minutes))
    with database.unit() as unit:
        assert unit.due_households(NOW + timedelta(minutes=3), 10) == (homes[1], homes[2], homes[0])
        assert unit.due_households(NOW + timedelta(minutes=3), 2) == (homes[1], homes[2])
        assert unit.earliest_evening() == NOW + timedelta(minutes=1)
        unit.set_next_evening(homes[1], None)
        assert unit.earliest_evening() == NOW + timedelta(minutes=2)


def test_an_invitation_is_spent_once_and_lapses(database: Database) -> None:
    founder = found(database)
    with database.unit() as unit:
        code, until = unit.new_invite(founder, NOW)
        other, _ = unit.new_invite(founder, NOW)
    assert until == NOW + timedelta(days=2)
    with database.unit() as unit:
        assert unit.take_invite("nonsense", NOW) is None
        assert unit.take_invite(other, until) is None
        assert unit.take_invite(code, later(1)) == founder.household
        assert unit.take_invite(code, later(2)) is None


def test_a_stranger_is_answered_once_an_hour(database: Database) -> None:
    answered = []
    for seconds in (0, 3599, 3600, 3601):
        with database.unit() as unit:
            answered.append(unit.refuse_stranger(7, later(seconds)))
    with database.unit() as unit:
        assert unit.refuse_stranger(8, later(1))
    assert answered == [True, False, True, False]


@pytest.mark.parametrize("on", [TODAY, date(2026, 12, 31)])
def test_the_nudges_of_an_evening_are_found(database: Database, on: date) -> None:
    home = found(database).household
    keys = (
        f"nudge:{home}:{on}:1:{PERSON}",
        f"nudge:{home}:{on}:2:{GROUP}",
        f"nudge:{home}:{on}:3:{GROUP}",
        f"nudge:{home}:{on + timedelta(days=1)}:1:{PERSON}",
        f"nudge:{home}1:{on}:1:{PERSON}",
        "reply:5:0",
    )
    with database.unit() as unit:
        chats = (PERSON, GROUP, GROUP, PERSON, PERSON, PERSON)
        for n, (key, chat) in enumerate(zip(keys, chats, strict=True), start=900):
            number = unit.queue(key, chat, "sendMessage", {"text": f"nudge {n}"}, NOW, household=home)
            assert number is not None
            if n != 902:
                unit.settle(NOW, {number: n})
    with database.unit() as unit:
        assert unit.nudged_messages(home, on) == (
            (PERSON, 900, "nudge 900"),
            (GROUP, 901, "nudge 901"),
        )
        assert unit.nudged_messages(HouseholdId(10**9), on) == ()


def test_a_correction_reads_back(database: Database, reopen: Open) -> None:
    home = found(database).household
    with database.unit() as unit:
        (entry,) = unit.append(home, [draft(PestCorrected("thrips"))], "update:1", NOW)
    with reopen().unit() as unit:
        assert unit.entries(home)[0] == entry
