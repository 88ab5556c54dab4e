import asyncio
from typing import Any

import pytest

from bot.telegram.delivery import ChatMoved, Delayed, Delivered, Delivery, GivenUp, Outcome, Parcel
from bot.telegram.failures import AlreadySettledError, ChatMovedError, TryLaterError
from bot.telegram.pacing import Pace


class Platform:
    """Fails as told, then takes everything."""

    def __init__(self, *failures: Exception) -> None:
        self.failures = list(failures)
        self.taken: list[Any] = []

    async def call(self, _method: str, body: dict[str, Any]) -> Any:
        await asyncio.sleep(0)
        if self.failures:
            raise self.failures.pop(0)
        self.taken.append(body["chat_id"])
        return {"message_id": 50 + len(self.taken)}


def parcel(number: int, chat: int = 1, tries: int = 1) -> Parcel:
    body = {"chat_id": chat, "text": "x"}
    return Parcel(id=number, key=f"reply:{number}:0", chat=chat, method="sendMessage", body=body, tries=tries)


async def outcomes(platform: Platform, *parcels: Parcel) -> list[Outcome]:
    told: list[Outcome] = []
    delivery = Delivery(platform, told.append)
    delivery.add(parcels)
    delivery.add(parcels)  # claimed a second time while still held: not sent twice
    await delivery.drained()
    assert delivery.is_idle
    return told


@pytest.mark.asyncio
async def test_parcels_are_delivered_once_with_their_number() -> None:
    told = await outcomes(Platform(), parcel(1), parcel(2, chat=2))
    assert told == [Delivered(1, "reply:1:0", 51), Delivered(2, "reply:2:0", 52)]


@pytest.mark.asyncio
async def test_what_stands_already_is_settled() -> None:
    assert await outcomes(Platform(AlreadySettledError("x")), parcel(1)) == [Delivered(1, "reply:1:0", None)]


@pytest.mark.asyncio
async def test_a_long_wait_goes_back_to_the_database_with_all_that_follows_in_the_chat() -> None:
    told = await outcomes(Platform(TryLaterError("asked to wait", 600)), parcel(1), parcel(2))
    assert told == [Delayed(1, 600, "asked to wait"), Delayed(2, 600, "asked to wait")]


@pytest.mark.asyncio
async def test_after_many_tries_it_is_given_up() -> None:
    told = await outcomes(Platform(TryLaterError("BadGateway", 600)), parcel(1, tries=50))
    assert told == [GivenUp(1, "BadGateway")]


@pytest.mark.asyncio
async def test_a_moved_chat_is_followed() -> None:
    platform = Platform(ChatMovedError(-1005))
    assert await outcomes(platform, parcel(1, chat=-5)) == [
        ChatMoved(-5, -1005),
        Delivered(1, "reply:1:0", 51),
    ]
    assert platform.taken == [-1005]


def test_a_chat_may_burst_five_and_then_one_a_second() -> None:
    at_s = 100.0
    pace = Pace(5, 1.0, lambda: at_s)
    assert [pace.wait_s() for _ in range(7)] == [0, 0, 0, 0, 0, 1, 2]
    assert not pace.is_rested
    at_s = 107.0
    assert pace.is_rested
    assert pace.wait_s() == 0


def test_nudges_leave_at_25_a_second() -> None:
    pace = Pace(1, 25.0, lambda: 100.0)
    assert [round(pace.wait_s(), 3) for _ in range(4)] == [0, 0.04, 0.08, 0.12]
