import asyncio

import pytest

from bot.evening import Evening


@pytest.mark.asyncio
async def test_ticks_come_one_at_a_time_and_missed_ones_once() -> None:
    running, most, count = 0, 0, 0

    async def tick() -> None:
        nonlocal running, most, count
        running += 1
        most, count = max(most, running), count + 1
        await asyncio.sleep(0.12)
        running -= 1

    evening = Evening(tick, 0.05)
    evening.start()
    await asyncio.sleep(0.6)
    evening.stop()
    await asyncio.sleep(0.15)
    assert most == 1
    # worked by hand: a tick takes 0.12 s, so in 0.6 s at most five begin, where twelve were due
    assert 2 <= count <= 5


@pytest.mark.asyncio
async def test_a_stopped_evening_can_be_stopped_again() -> None:
    async def tick() -> None:
        await asyncio.sleep(0)

    evening = Evening(tick, 1)
    evening.start()
    evening.stop()
    await asyncio.sleep(0)
    evening.stop()
