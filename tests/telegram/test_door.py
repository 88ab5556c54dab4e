import asyncio
import json
import logging
import sqlite3
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import httpx
import pytest

from bot.app import App, Middle
from bot.clock import Clock
from bot.settings import Secret, Settings
from bot.storage.sent_notes import Note, SentNotes
from bot.telegram.failures import RefusedTokenError
from bot.telegram.incoming import parse
from bot.telegram.parsed import Me, Parsed
from bot.wording.introduction import DESCRIPTION, SHORT_DESCRIPTION
from demo.standin import StandIn
from tests.telegram.echoing import echo, plan_anew, remind
from tests.telegram.standing import Running, running, standing
from tests.tools.standing_in import TOKEN

pytestmark = pytest.mark.asyncio


def rows(data: Path, query: str) -> list[Any]:
    database = sqlite3.connect(data / "duskround.sqlite")
    try:
        return database.execute(query).fetchall()
    finally:
        database.close()


class SteppingClock(Clock):
    """A clock moved by hand."""

    stepped_s = 0.0

    def __init__(self) -> None:
        self.at = datetime(2027, 5, 4, 20, tzinfo=UTC)

    def ahead(self) -> timedelta:
        return self.at - Clock().now()

    def boot_s(self) -> float:
        return super().boot_s() + self.stepped_s

    def now(self) -> datetime:
        return self.at

    def step(self, by: timedelta) -> None:
        self.at += by
        self.stepped_s += by.total_seconds()


def update(number: int, text: str) -> Parsed:
    person = {"id": 1, "is_bot": False, "first_name": "Ada"}
    chat = {"id": 1, "type": "private"}
    message = {"message_id": number, "date": 1_800_000_000, "chat": chat, "from": person, "text": text}
    return parse({"update_id": number, "message": message}, Me(100, "duskround_bot"))


async def test_a_message_is_journalled_once_answered_once_and_confirmed(tmp_path: Path) -> None:
    async with running(tmp_path) as bot:
        await bot.say("hoya 12")
        await bot.settle()
        assert await bot.said() == ["echo: hoya 12"]
        assert rows(tmp_path, "SELECT source FROM journal") == [("update:1",)]
        assert rows(tmp_path, "SELECT key, state FROM outbox") == [("reply:1:0", "sent")]
        assert bot.standin.updates.pending == []


async def test_messages_of_a_chat_are_answered_in_order(tmp_path: Path) -> None:
    async with running(tmp_path) as bot:
        for number in range(5):
            for chat in (1, 2, 3):
                await bot.say(str(number), chat)
        await bot.settle()
        for chat in (1, 2, 3):
            assert await bot.said(chat) == [f"echo: {number}" for number in range(5)]


async def test_a_failure_writes_nothing_apologises_and_does_not_stop_the_next(tmp_path: Path) -> None:
    async with running(tmp_path) as bot:
        await bot.say("break")
        await bot.say("next")
        await bot.settle()
        said = await bot.said()
        assert said[0].startswith("Something went wrong on my side.")
        assert said[1:] == ["echo: next"]
        assert rows(tmp_path, "SELECT source FROM journal") == [("update:2",)]


async def test_a_failure_is_logged_without_the_persons_words(
    tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    async with running(tmp_path) as bot:
        await bot.say("break")
        await bot.settle()
    (line,) = (record.getMessage() for record in caplog.records if record.name == "bot.taking")
    assert line.startswith("update 1 failed: RuntimeError at ")
    assert "break" not in line


async def test_an_update_out_of_form_is_put_aside_without_an_answer(tmp_path: Path) -> None:
    async with running(tmp_path) as bot:
        await bot.client.post(
            "/updates", json={"message": {"chat": {"id": 1}, "from": {"id": 1}, "text": "x"}}
        )
        await bot.say("after")
        await bot.settle()
        assert await bot.said() == ["echo: after"]
        assert rows(tmp_path, "SELECT reason FROM parked") == [("TypeError",)]


async def test_an_update_brought_again_changes_nothing(tmp_path: Path) -> None:
    async with running(tmp_path) as bot:
        await bot.say("once")
        await bot.settle()
        message = bot.standin.chats.by_id[1].messages[0].as_platform()
        await bot.client.post("/updates", json={"update_id": 1, "message": message})
        await bot.settle()
        assert await bot.said() == ["echo: once"]


async def test_a_press_is_noticed_and_changes_its_message(tmp_path: Path) -> None:
    async with running(tmp_path) as bot:
        await bot.say("buttons")
        await bot.settle()
        press = {"message_id": 2, "data": "again", "wait": False}
        (await bot.client.post("/person/1/press", json=press)).raise_for_status()
        await bot.settle()
        assert await bot.said() == ["pressed again"]
        assert bot.standin.calls["answerCallbackQuery"] == 1


@pytest.mark.parametrize(
    ("fault", "calls"),
    [
        ({"status": 429, "retry_after": 1}, 2),
        ({"status": 502}, 2),
        ({"cut": "before"}, 2),
        ({"cut": "after"}, 2),
        ({"status": 403}, 1),
        ({"status": 400}, 1),
    ],
)
async def test_what_may_pass_is_tried_again_and_what_never_will_is_given_up(
    tmp_path: Path, fault: dict[str, Any], calls: int
) -> None:
    async with running(tmp_path) as bot:
        await bot.fail("sendMessage", **fault)
        await bot.say("hello")
        await bot.settle()
        assert bot.standin.calls["sendMessage"] == calls
        expected = "sent" if calls > 1 else "given-up"
        assert rows(tmp_path, "SELECT state FROM outbox") == [(expected,)]


async def test_a_chat_that_must_wait_holds_up_no_other(tmp_path: Path) -> None:
    async with running(tmp_path) as bot:
        await bot.fail("sendMessage", status=429, retry_after=5)
        await bot.say("slow", 1)
        await comes(lambda: bot.standin.calls.get("sendMessage", 0) == 1)
        await bot.say("quick", 2)
        await comes(lambda: bot.standin.calls["sendMessage"] == 2)
        assert (await bot.said(1), await bot.said(2)) == ([], ["echo: quick"])
        await bot.settle()
        assert await bot.said(1) == ["echo: slow"]


async def test_what_a_killed_process_left_is_sent_at_the_next_start(tmp_path: Path) -> None:
    async with standing(tmp_path) as bot:
        bot.standin.chats.open(1)
        bot.app.taking.take([update(7, "left")], ())  # committed and claimed, and nobody sends it
        bot.killed()
        await bot.app.start()
        await bot.settle()
        assert await bot.said() == ["echo: left"]


async def test_of_updates_taken_together_the_one_that_fails_takes_no_other_with_it(tmp_path: Path) -> None:
    async with standing(tmp_path) as bot:
        together = [update(1, "first"), update(2, "break"), update(3, "third")]
        parcels = bot.app.taking.take(together, ())
        assert [parcel.key for parcel in parcels] == ["reply:1:0", "reply:2:0", "reply:3:0"]
        assert rows(tmp_path, "SELECT source FROM journal") == [("update:1",), ("update:3",)]
        assert bot.app.taking.take(together, ()) == []
        assert len(rows(tmp_path, "SELECT key FROM outbox")) == 3


async def test_what_a_killed_process_had_sent_but_not_settled_is_not_sent_again(tmp_path: Path) -> None:
    async with standing(tmp_path) as bot:
        bot.standin.chats.open(1)
        sent, waiting = bot.app.taking.take([update(7, "sent"), update(8, "waiting")], ())
        killed = SentNotes(tmp_path)
        killed.add(Note(sent.id, sent.key, 900))
        killed.add(Note(waiting.id, "reply:7:0", 901))  # of another database: the number is not enough
        killed.close()
        bot.killed()
        await bot.app.start()
        await bot.settle()
        assert await bot.said() == ["echo: waiting"]
        assert rows(tmp_path, "SELECT key, platform_message_id FROM outbox WHERE id = 1") == [
            ("reply:7:0", 900)
        ]


async def test_polling_goes_on_after_the_platform_failed(tmp_path: Path) -> None:
    async with running(tmp_path) as bot:
        await bot.fail("getUpdates", status=500)
        await bot.say("first")
        await bot.settle()
        await bot.say("second")
        await bot.settle()
        assert await bot.said() == ["echo: first", "echo: second"]


async def test_a_refused_token_ends_the_start(tmp_path: Path) -> None:
    async with standing(tmp_path) as bot:
        bot.standin.token = "100:other"
        with pytest.raises(RefusedTokenError):
            await bot.app.start()


async def test_an_evening_is_sent_once_a_day(tmp_path: Path) -> None:
    async with running(tmp_path) as bot:
        for chat in range(1, 13):
            await bot.say("hi", chat)
        await bot.settle()
        assert [await bot.said(chat) for chat in range(1, 13)] == [["echo: hi"]] * 12
        await bot.app.plan_anew()
        await bot.app.tick()
        await bot.app.tick()
        await bot.settle()
        assert [await bot.said(chat) for chat in range(1, 13)] == [["echo: hi", "tonight"]] * 12
        assert await bot.app.next_evening_at() is None


async def test_the_bot_introduces_itself_and_again_only_where_something_changed(tmp_path: Path) -> None:
    async with running(tmp_path) as bot:
        await introduced(bot)
        about = (await bot.client.get("/about")).json()
        assert about["description"] == DESCRIPTION
        assert about["short_description"] == SHORT_DESCRIPTION
        menus = {
            kind: {one["command"]: one["description"] for one in menu}
            for kind, menu in about["menus"].items()
        }
        assert menus.keys() == {"all_private_chats", "all_group_chats"}
        assert menus["all_private_chats"]["privacy"] == "what is kept, and how to be forgotten"
        assert "privacy" not in menus["all_group_chats"]
        set_before = bot.standin.calls["setMyCommands"]
        await bot.app.stop()
        bot.app = bot.made()
        await bot.app.start()
        await asyncio.sleep(0.3)
        assert bot.standin.calls["setMyCommands"] == set_before


async def comes(is_there: Callable[[], bool]) -> None:
    """Wait for something that nobody tells of."""
    async with asyncio.timeout(10):
        while not is_there():  # noqa: ASYNC110 - as said
            await asyncio.sleep(0.02)


async def introduced(bot: Running) -> None:
    await comes(lambda: "setMyShortDescription" in bot.standin.calls)


async def test_a_webhook_takes_only_what_carries_the_secret(tmp_path: Path, unused_tcp_port: int) -> None:
    url = f"http://127.0.0.1:{unused_tcp_port}/hook"
    listen = f"127.0.0.1:{unused_tcp_port}"
    async with running(
        tmp_path, webhook_url=url, webhook_secret=Secret("s3cret"), webhook_listen=listen
    ) as bot:
        await bot.say("by post")
        await bot.settle()
        assert await bot.said() == ["echo: by post"]
        headers = {"X-Telegram-Bot-Api-Secret-Token": "wrong"}
        async with httpx.AsyncClient(trust_env=False) as stranger:
            assert (await stranger.post(url, content=json.dumps({}), headers=headers)).status_code == 403
            headers["X-Telegram-Bot-Api-Secret-Token"] = "s3cret"
            assert (await stranger.post(url, content="{", headers=headers)).status_code == 400
        assert rows(tmp_path, "SELECT count(*) FROM seen") == [(1,)]


async def test_a_stop_sends_what_is_at_hand_and_writes_that_it_was_sent(tmp_path: Path) -> None:
    async with running(tmp_path) as bot:
        for chat in range(1, 21):
            await bot.say("bye", chat)
        await asyncio.sleep(0.05)
    states = rows(tmp_path, "SELECT state, count(*) FROM outbox GROUP BY state")
    assert states
    assert all(state == "sent" for state, _ in states)


async def test_a_start_copies_the_database_unless_there_is_a_copy_of_the_last_day(tmp_path: Path) -> None:
    copies = tmp_path / "backups"
    async with running(tmp_path) as bot:
        await comes(lambda: len(list(copies.glob("duskround-*.sqlite"))) == 1)
        await bot.app.stop()
        bot.app = bot.made()
        await bot.app.start()
        await asyncio.sleep(0.3)
        assert len(list(copies.glob("duskround-*.sqlite"))) == 1
        (copy,) = copies.glob("duskround-*.sqlite")
        copy.rename(copies / "duskround-20991231T000000Z.sqlite")  # of a clock that was years ahead
        await bot.app.stop()
        bot.app = bot.made()
        await bot.app.start()
        await comes(lambda: len(list(copies.glob("duskround-*.sqlite"))) == 2)


async def test_a_copy_that_fails_is_told_and_stops_nothing(
    tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    (tmp_path / "backups").write_text("in the way")
    app = App(Settings(token=Secret(TOKEN), data=tmp_path), SteppingClock(), Middle(echo, remind, plan_anew))
    await app.keep_up()
    assert "no backup this night" in caplog.text
    await app.stop()


async def test_the_operator_is_told_of_errors_once_an_hour_and_of_nobodys_words(tmp_path: Path) -> None:
    clock = SteppingClock()
    standin = StandIn(token=TOKEN, clock=clock.now)
    await standin.start(0)
    settings = Settings(token=Secret(TOKEN), owner=1, data=tmp_path, api_url=standin.url)
    app = App(settings, clock, Middle(echo, remind, plan_anew), pacing=False)
    await app.start()
    try:
        for _ in range(3):
            logging.getLogger("bot.app").error("update %d failed: %s", 7, "hoya of Ada")
            await app.look_over()
            await app.settled()
        told = rows(tmp_path, "SELECT body FROM outbox WHERE key LIKE 'alert:%'")
        assert len(told) == 1
        assert "one error since the last word" in told[0][0]
        assert "hoya" not in told[0][0]
        clock.step(timedelta(hours=1, minutes=1))
        await app.look_over()
        await app.settled()
        told = rows(tmp_path, "SELECT body FROM outbox WHERE key LIKE 'alert:%' ORDER BY id")
        assert len(told) == 2
        assert "2 errors since the last word" in told[1][0]
    finally:
        await app.stop()
        await standin.stop()
