from datetime import datetime
from typing import Any

import httpx
import pytest

from demo.running import OWNER, running
from tests.journeys.talking import START


@pytest.mark.asyncio
async def test_an_update_without_a_date_is_put_aside_and_the_next_message_answered() -> None:
    async with running(START) as whole, httpx.AsyncClient(base_url=whole.standin.url, trust_env=False) as web:
        await say(web, "/start")
        chat = {"id": OWNER, "type": "private"}
        sender = {"id": OWNER, "is_bot": False, "first_name": "Ada"}
        broken = {"message": {"message_id": 900, "chat": chat, "from": sender, "text": "Paris"}}
        assert (await web.post("/updates", json=broken)).status_code == 200
        (answer,) = await say(web, "Gent")
        assert answer["text"].startswith("Written: Gent, Europe/Brussels.")
        assert datetime.fromisoformat(answer["at"]) >= START


async def say(web: httpx.AsyncClient, text: str) -> Any:
    answer = await web.post(f"/person/{OWNER}/say", json={"text": text})
    assert answer.status_code == 200, answer.text
    return [one for one in answer.json()["messages"] if one["who"] == "bot"]


@pytest.mark.asyncio
async def test_a_picture_reaches_the_person_through_the_platform() -> None:
    async with running(START) as whole, httpx.AsyncClient(base_url=whole.standin.url, trust_env=False) as web:
        for text in ("/start", "Gent", "hoya, landing, 15 cm", "no window", "hoya 9 longtailed mealybugs"):
            await say(web, text)
        await say(web, "hoya 12 yesterday")
        (answer,) = await say(web, "chart hoya")
        assert answer["text"].startswith("hoya, longtailed mealybug: too early to tell, 2 counts")
        assert answer["photo"]
