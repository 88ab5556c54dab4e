from datetime import datetime
from pathlib import Path
from typing import Any

import httpx
import pytest

from demo.running import OWNER, running
from tests.journeys.talking import START
from tests.journeys.test_photos import picture

WHAT = "What do you see? “Not sure” is an answer too."


@pytest.mark.asyncio
async def test_an_update_without_a_date_is_put_aside_and_the_next_message_answered() -> None:
    async with (
        running(START) as whole,
        httpx.AsyncClient(base_url=whole.standin.url, trust_env=False, timeout=60) as web,
    ):
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
    async with (
        running(START) as whole,
        httpx.AsyncClient(base_url=whole.standin.url, trust_env=False, timeout=60) as web,
    ):
        for text in ("/start", "Gent", "hoya, landing, 15 cm", "no window", "hoya 9 longtailed mealybugs"):
            await say(web, text)
        await say(web, "hoya 12 yesterday")
        (answer,) = await say(web, "chart hoya")
        assert answer["text"].startswith("hoya, longtailed mealybug: too early to tell from 2 counts")
        assert answer["photo"]


@pytest.mark.asyncio
async def test_a_photo_is_fetched_kept_and_shown_after_a_restart(tmp_path: Path) -> None:
    green, blue = picture((0, 120, 0)), picture((0, 0, 200))
    async with (
        running(START, tmp_path) as whole,
        httpx.AsyncClient(base_url=whole.standin.url, trust_env=False, timeout=60) as web,
    ):
        for text in ("/start", "Gent", "hoya, landing, 15 cm", "no window"):
            await say(web, text)
        (answer,) = await send(web, green, "hoya")
        # the name also answers what the set-up asked last: on which plant was something seen
        assert answer["text"] == f"{WHAT}\n\nWritten: a photo of hoya."
        await send(web, blue, "hoya")
    kept = sorted((tmp_path / "photos").rglob("*.jpg"))
    assert [file.read_bytes() for file in kept] == [green, blue]
    async with (
        running(START, tmp_path) as whole,
        httpx.AsyncClient(base_url=whole.standin.url, trust_env=False, timeout=60) as web,
    ):
        (answer,) = await say(web, "photos hoya")
        assert answer["text"].startswith("hoya: Sat 2 May on the left")
        assert answer["photo"]


@pytest.mark.asyncio
async def test_what_is_no_picture_is_not_kept_and_the_bot_goes_on(tmp_path: Path) -> None:
    async with (
        running(START, tmp_path) as whole,
        httpx.AsyncClient(base_url=whole.standin.url, trust_env=False, timeout=60) as web,
    ):
        for text in ("/start", "Gent", "hoya, landing, 15 cm", "no window"):
            await say(web, text)
        said = await send(web, b"\xff\xd8 no picture at all", "hoya")
        assert [one["text"] for one in said] == [
            f"{WHAT}\n\nWritten: a photo of hoya.",
            "A photo you sent is no picture I can keep (JPEG, PNG or WebP, up to 10 MB): it is not among your photos. What you told with it stays written. Please send it again as a photo.",
        ]
        assert list((tmp_path / "photos").rglob("*")) == []
        (answer,) = await say(web, "photos hoya")
        assert answer["text"] == "No photo of hoya yet. Send one with its name under it."
        await send(web, picture((0, 120, 0)), "hoya")
        (answer,) = await say(web, "photos hoya")
        assert answer["photo"]  # the one that was refused stands in nobody's way
        assert await say(web, "isolated?")


async def send(web: httpx.AsyncClient, content: bytes, caption: str) -> Any:
    """Send a photo as a person does."""
    files = {"file": ("plant.jpg", content, "image/jpeg")}
    answer = await web.post(f"/person/{OWNER}/photo", files=files, data={"caption": caption})
    assert answer.status_code == 200, answer.text
    return [one for one in answer.json()["messages"] if one["who"] == "bot"]
