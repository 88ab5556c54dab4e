"""A chat that floods is heard last of all, and its answers go out slowly; nobody else waits for it."""

import asyncio
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.telegram.parsed import Ignored, Parsed
from bot.telegram.turns import in_turn
from tests.telegram.standing import Running, running
from tests.telegram.test_door import rows


def update(chat: int | None, number: int) -> Parsed:
    return Ignored(number, chat)


@given(st.lists(st.integers(1, 5), max_size=100))
def test_all_are_heard_and_every_chat_keeps_its_order(chats: list[int]) -> None:
    updates = [update(chat, number) for number, chat in enumerate(chats)]
    turns = in_turn(updates)
    assert sorted(one.update_id or 0 for one in turns) == list(range(len(updates)))
    for chat in set(chats):
        mine = [one.update_id or 0 for one in turns if one.chat == chat]
        assert mine == sorted(mine)


def test_one_message_behind_ninety_of_another_chat_is_heard_second() -> None:
    flood = [update(1, number) for number in range(90)]
    assert in_turn([*flood, update(2, 90), update(3, 91)])[:4] == [
        flood[0],
        update(2, 90),
        update(3, 91),
        flood[1],
    ]


def test_updates_of_no_chat_take_their_turn_too() -> None:
    updates = [update(None, 1), update(None, 2), update(5, 3)]
    assert in_turn(updates) == [updates[0], updates[2], updates[1]]


@pytest.mark.asyncio
async def test_a_flood_of_one_chat_holds_up_no_other(tmp_path: Path) -> None:
    async with running(tmp_path) as bot:
        for number in range(95):
            await bot.client.post("/updates", json=whole(1, 1_000 + number))
        for chat in (2, 3, 4):
            await bot.client.post("/updates", json=whole(chat, 1_100 + chat))
        await heard(bot)
        assert [await bot.said(chat) for chat in (2, 3, 4)] == [
            [f"echo: {1_100 + chat}"] for chat in (2, 3, 4)
        ]
        assert len(await bot.said(1)) < 30, "its answers leave one a second after the first few"
        order = [
            int(source.removeprefix("update:")) for (source,) in rows(tmp_path, "SELECT source FROM journal")
        ]
    assert len(order) == 98, "all are written"
    own = [number for number in order if number < 1_100]
    assert own == sorted(own)


def whole(chat: int, number: int) -> dict[str, Any]:
    person = {"id": chat, "is_bot": False, "first_name": "Ada"}
    place = {"id": chat, "type": "private"}
    message = {"message_id": number, "date": 1_800_000_000, "from": person, "chat": place}
    return {"update_id": number, "message": message | {"text": str(number)}}


async def heard(bot: Running) -> None:
    """Wait until all is confirmed and the answers of the quiet chats are out."""
    async with asyncio.timeout(30):
        while bot.standin.updates.pending or not all([await bot.said(chat) for chat in (2, 3, 4)]):  # noqa: ASYNC110 - the stand-in tells nobody of it
            await asyncio.sleep(0.01)
