"""A stand-in, a person's client and a running echoing bot for the tests of the doors."""

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path
from typing import Any

import httpx

from bot.app import App, Middle
from bot.clock import Clock
from bot.settings import Secret, Settings
from demo.standin import StandIn
from tests.telegram.echoing import echo, plan_anew, remind
from tests.tools.standing_in import TOKEN, now


class Running:
    """One stand-in and the bot that talks to it."""

    def __init__(self, standin: StandIn, client: httpx.AsyncClient, data: Path, **settings: Any) -> None:
        self.standin = standin
        self.client = client
        self.settings = Settings(
            token=Secret(TOKEN), api_url=standin.url, data=data, tick_seconds=60, **settings
        )
        self.app = self.made()

    def made(self) -> App:
        return App(self.settings, Clock(), Middle(echo, remind, plan_anew))

    def killed(self) -> None:
        """Let go of what the system takes from a killed process, and make another."""
        self.app._holds.close()  # noqa: SLF001 - nobody else lets go for it
        self.app = self.made()

    async def say(self, text: str, chat: int = 1) -> None:
        body = {"text": text, "wait": False}
        (await self.client.post(f"/person/{chat}/say", json=body)).raise_for_status()

    async def fail(self, method: str, **fault: Any) -> None:
        (await self.client.post("/faults", json=[{"method": method, "times": 1} | fault])).raise_for_status()

    async def settle(self) -> None:
        async with asyncio.timeout(20):
            while self.standin.updates.pending:  # noqa: ASYNC110 - the stand-in tells nobody of it
                await asyncio.sleep(0.005)
            await self.app.settled()

    async def said(self, chat: int = 1) -> list[str]:
        messages = (await self.client.get(f"/person/{chat}/messages")).json()
        return [message["text"] for message in messages if message["who"] == "bot"]


@asynccontextmanager
async def standing(data: Path, **settings: Any) -> AsyncIterator[Running]:
    """Everything but the start of the bot; stopped at the end."""
    standin = StandIn(token=TOKEN, clock=now)
    await standin.start()
    async with httpx.AsyncClient(base_url=standin.url, trust_env=False) as client:
        running = Running(standin, client, data, **settings)
        yield running
        await running.app.stop()
    await standin.stop()


@asynccontextmanager
async def running(data: Path, **settings: Any) -> AsyncIterator[Running]:
    """Everything, started."""
    async with standing(data, **settings) as made:
        await made.app.start()
        yield made
