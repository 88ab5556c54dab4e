"""What the chat platform offers beside text, driven over HTTP as a person and the platform would."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from typing import Any

import httpx
import pytest

from demo.running import OWNER, running
from tests.journeys.talking import START

pytestmark = pytest.mark.asyncio
GROUP = -7


class Person:
    """Somebody with a telephone."""

    def __init__(self, web: httpx.AsyncClient) -> None:
        self.web = web

    async def do(self, what: str, chat: int = OWNER, **fields: Any) -> dict[str, Any]:
        """Do one thing, and read what came back."""
        speaker = {"as": OWNER} if chat < 0 else {}
        answer = await self.web.post(f"/person/{chat}/{what}", json=fields | speaker)
        return answer.raise_for_status().json()  # type: ignore[no-any-return]

    async def say(self, text: str, chat: int = OWNER, **more: Any) -> dict[str, Any]:
        """Say something and give the last message that came."""
        return (await self.do("say", chat, text=text, **more))["messages"][-1]  # type: ignore[no-any-return]

    async def next_evening(self) -> dict[str, Any]:
        """Pass the time until the bot speaks up."""
        told = (await self.web.post("/clock", json={"to_next_nudge": True})).raise_for_status().json()
        return told["messages"][str(OWNER)][-1]  # type: ignore[no-any-return]


@asynccontextmanager
async def home(*texts: str) -> AsyncIterator[Person]:
    async with (
        running(START) as whole,
        httpx.AsyncClient(base_url=whole.standin.url, trust_env=False, timeout=60) as web,
    ):
        person = Person(web)
        for text in ("/start", "Gent", "ivy, hall, 15 cm", "no window", *texts):
            await person.say(text)
        yield person


async def test_any_known_word_is_a_command_after_a_slash() -> None:
    async with home("ivy 12 spider mites") as person:
        by_word = await person.say("isolated?")
        assert (await person.say("/isolated"))["text"] == by_word["text"]
        assert (await person.say("/history"))["text"] == (await person.say("history"))["text"]
        assert (await person.say("/privacy"))["text"].startswith("Kept on this bot's own machine")
        assert "ivy" in (await person.say("/ivy_none_seen"))["text"]


async def test_the_town_may_be_shared_as_a_location_and_a_group_is_offered_the_reply() -> None:
    async with (
        running(START) as whole,
        httpx.AsyncClient(base_url=whole.standin.url, trust_env=False, timeout=60) as web,
    ):
        person = Person(web)
        asked = await person.say("/start")
        assert asked["location_button"] == "Share my location"
        assert "wants_reply" not in asked
        told = await person.do("location", lat=51.05, lon=3.72)
        assert "location_button" not in told["messages"][-1]
        in_group = await person.say("/start", GROUP)
        assert in_group["wants_reply"] is True
        assert "location_button" not in in_group
        unheard = await person.do("say", GROUP, text="Gent")
        assert unheard["messages"] == []
        heard = await person.do("say", GROUP, text="Gent", reply_to=in_group["id"])
        assert "Gent" in heard["messages"][-1]["text"]


async def test_an_invitation_is_a_link_with_a_button_that_hands_it_on() -> None:
    async with home() as person:
        message = await person.say("invite")
        link = message["text"].splitlines()[-1]
        assert link.startswith("https://t.me/duskround_bot?start=")
        code = link.partition("=")[2]
        ((button,),) = message["buttons"]
        assert button["url"].startswith("https://t.me/share/url?url=")
        welcome = await person.do("say", 2, text=f"/start {code}")  # what the link makes a phone send
        assert welcome["messages"][-1]["text"].startswith("Welcome.")
        told = (await person.web.get(f"/person/{OWNER}/messages")).json()[-1]
        assert told["silent"] is True  # the others read of it without a sound


async def test_an_evening_stands_out_where_it_matters_and_its_repeat_is_silent() -> None:
    async with home("ivy 12 spider mites") as person:
        evening = await person.next_evening()
        assert evening["bold"] == [evening["text"].splitlines()[1]]
        assert "silent" not in evening
        repeat = await person.next_evening()
        assert repeat["silent"] is True


async def test_a_thumb_under_the_evening_is_done_and_a_press_is_noticed() -> None:
    async with home("ivy 12 spider mites") as person:
        evening = await person.next_evening()
        done = await person.do("react", message_id=evening["id"], emoji="👍")
        assert "ivy" in done["messages"][-1]["text"]
        assert "Treated" not in done["messages"][-1]["text"]
        walk = await person.say("walk")
        rows = [button for row in walk["buttons"] for button in row]
        pressed = await person.do("press", message_id=walk["id"], data=rows[0]["data"])
        assert pressed["notice"]


async def test_long_reasons_are_folded() -> None:
    async with home("ivy 12 spider mites") as person:
        (folded,) = (await person.say("why more ivy"))["folded"]
        assert folded.count("\n") >= 2


async def test_an_edit_says_anew_what_the_message_said() -> None:
    async with home() as person:
        await person.say("ivy 30 spider mites")
        told = (await person.web.get(f"/person/{OWNER}/messages")).json()
        own = [one for one in told if one["who"] == "person"][-1]
        await person.do("edit", message_id=own["id"], text="ivy 3 spider mites")
        history = (await person.say("history ivy"))["text"]
        assert "30" not in history


async def test_one_pinned_message_says_how_things_stand_and_is_kept_up_to_date() -> None:
    async with home() as person:
        await person.say("pin a status")
        (status,) = await pinned(person)
        assert status["text"].startswith("Nothing is apart.")
        assert status["silent"] is True
        await person.say("ivy 12 spider mites")
        await person.say("isolate ivy")
        (told,) = await pinned(person)
        assert told["id"] == status["id"]
        assert told["text"].startswith("Apart: ivy.\nLeft tonight: ivy.")
        await person.next_evening()
        await person.say("done")
        (told,) = await pinned(person)
        assert "Nothing is left tonight." in told["text"]
        await person.say("no status")
        assert await pinned(person) == []
        await person.say("pin a status")
        (fresh,) = await pinned(person)
        assert fresh["id"] > status["id"]


async def pinned(person: Person) -> list[dict[str, Any]]:
    told = (await person.web.get(f"/person/{OWNER}/messages")).json()
    return [one for one in told if one.get("pinned")]
