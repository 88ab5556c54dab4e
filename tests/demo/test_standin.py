import asyncio
import json
import socket
import struct
from collections.abc import AsyncIterator
from datetime import UTC, datetime, timedelta
from typing import Any

import httpx
import pytest
import pytest_asyncio
import telegram
from telegram import Bot, InlineKeyboardButton, InlineKeyboardMarkup
from telegram.error import BadRequest, Conflict, EndPointNotFound, Forbidden, NetworkError, RetryAfter
from tornado.httpserver import HTTPServer
from tornado.netutil import bind_sockets
from tornado.web import Application, RequestHandler

from demo.standin import StandIn

START = datetime(2027, 3, 1, 18, tzinfo=UTC)
START_UNIX = 1803924000  # worked by hand: 20,878 days of 86,400 s from 1970-01-01, plus 18 h
PICTURE = b"\x89PNG\r\n\x1a\n" + struct.pack(">I4sII", 13, b"IHDR", 640, 480) + b"rest"
BUTTONS = InlineKeyboardMarkup([[InlineKeyboardButton("Done", callback_data="done:1")]])


class HandClock:
    """A clock moved by hand."""

    def __init__(self) -> None:
        self.at = START

    def __call__(self) -> datetime:
        return self.at


@pytest_asyncio.fixture
async def standin() -> AsyncIterator[StandIn]:
    server = StandIn(clock=HandClock())
    await server.start()
    yield server
    await server.stop()


@pytest_asyncio.fixture
async def bot(standin: StandIn) -> AsyncIterator[Bot]:
    async with bot_for(standin) as made:
        yield made


@pytest_asyncio.fixture
async def web(standin: StandIn) -> AsyncIterator[httpx.AsyncClient]:
    async with httpx.AsyncClient(base_url=standin.url, trust_env=False) as client:
        yield client


def bot_for(standin: StandIn, token: str = "100:demo") -> Bot:
    return Bot(token, base_url=f"{standin.url}/bot", base_file_url=f"{standin.url}/file/bot")


async def say(web: httpx.AsyncClient, text: str, chat: int = 1, **more: Any) -> Any:
    answer = await web.post(f"/person/{chat}/say", json={"text": text, "wait": False} | more)
    assert answer.status_code == 200, answer.text
    return answer.json()["messages"]


async def seen(web: httpx.AsyncClient, chat: int = 1, **query: Any) -> Any:
    return (await web.get(f"/person/{chat}/messages", params=query)).json()


@pytest.mark.asyncio
async def test_the_bot_learns_who_it_is(bot: Bot) -> None:
    assert (bot.id, bot.bot.is_bot, bot.username) == (100, True, "duskround_bot")


@pytest.mark.asyncio
async def test_a_text_reaches_the_bot_as_the_platform_would_send_it(bot: Bot, web: httpx.AsyncClient) -> None:
    await say(web, "/start abc")
    (update,) = await bot.get_updates()
    message = update.message
    assert message is not None
    assert message.from_user is not None
    assert (message.text, message.date) == ("/start abc", START)
    assert (message.chat.id, message.chat.type, message.from_user.first_name) == (1, "private", "Person 1")
    assert [(e.type, e.offset, e.length) for e in message.entities] == [("bot_command", 0, 6)]


@pytest.mark.asyncio
async def test_a_date_is_told_in_unix_seconds(web: httpx.AsyncClient) -> None:
    await say(web, "hi")
    raw = (await web.post("/bot100:demo/getUpdates")).json()
    assert raw["result"][0]["message"]["date"] == START_UNIX


@pytest.mark.asyncio
async def test_a_group_message_names_who_spoke(bot: Bot, web: httpx.AsyncClient) -> None:
    await say(web, "hello", chat=-5, **{"as": 2})
    (update,) = await bot.get_updates()
    assert update.effective_chat is not None
    assert update.effective_user is not None
    assert (update.effective_chat.id, update.effective_chat.type) == (-5, "group")
    assert (update.effective_user.id, update.effective_user.full_name) == (2, "Person 2")


@pytest.mark.asyncio
async def test_updates_come_again_until_a_later_offset_confirms_them(
    bot: Bot, web: httpx.AsyncClient
) -> None:
    for text in ("one", "two", "three"):
        await say(web, text)
    first = await bot.get_updates()
    again = await bot.get_updates(offset=first[0].update_id)
    assert [u.update_id for u in first] == [u.update_id for u in again] == [1, 2, 3]
    assert [u.update_id for u in await bot.get_updates(offset=2, limit=1)] == [2]
    assert [u.update_id for u in await bot.get_updates()] == [2, 3]
    assert [u.update_id for u in await bot.get_updates(offset=-1)] == [3]
    assert [u.update_id for u in await bot.get_updates()] == [3]
    assert await bot.get_updates(offset=4) == ()


@pytest.mark.asyncio
async def test_a_waiting_poll_ends_as_soon_as_an_update_arrives(bot: Bot, web: httpx.AsyncClient) -> None:
    poll = asyncio.create_task(bot.get_updates(timeout=30))
    await asyncio.sleep(0.05)
    await say(web, "hi")
    async with asyncio.timeout(1):
        assert len(await poll) == 1


@pytest.mark.asyncio
async def test_the_earlier_of_two_pollers_is_told_of_the_conflict(standin: StandIn, bot: Bot) -> None:
    earlier = asyncio.create_task(bot.get_updates(timeout=30))
    await asyncio.sleep(0.05)
    async with bot_for(standin) as other:
        assert await other.get_updates() == ()
    with pytest.raises(Conflict, match="terminated by other getUpdates request"):
        await earlier


@pytest.mark.asyncio
async def test_only_the_kinds_asked_for_are_queued(bot: Bot, web: httpx.AsyncClient) -> None:
    await bot.get_updates(allowed_updates=["callback_query"])
    await say(web, "unheard")
    await bot.get_updates(allowed_updates=[])
    await say(web, "heard")
    assert [u.message and u.message.text for u in await bot.get_updates()] == ["heard"]


@pytest.mark.asyncio
async def test_a_message_with_buttons_is_seen_pressed_and_edited_in_place(
    bot: Bot, web: httpx.AsyncClient
) -> None:
    await say(web, "hi")
    sent = await bot.send_message(1, "Tonight", reply_markup=BUTTONS)
    (shown,) = await seen(web, after=1)
    assert shown == {
        "id": 2,
        "who": "bot",
        "text": "Tonight",
        "buttons": [[{"label": "Done", "data": "done:1"}]],
        "photo": None,
        "document": None,
        "at": "2027-03-01T18:00:00+00:00",
        "edited_at": None,
    }
    await web.post("/person/1/press?wait=false", json={"message_id": 2, "data": "done:1"})
    query = (await bot.get_updates(offset=2))[0].callback_query
    assert query is not None
    assert isinstance(query.message, telegram.Message)
    assert (query.data, query.chat_instance, query.from_user.id) == ("done:1", "1", 1)
    assert (query.message.text, query.message.reply_markup) == ("Tonight", BUTTONS)
    assert await query.answer("Noted")
    edited = await bot.edit_message_text("Done.", 1, sent.message_id)
    assert isinstance(edited, telegram.Message)
    assert edited.edit_date == START
    (shown,) = await seen(web, after=2, since=START.isoformat())
    assert (shown["id"], shown["text"], shown["buttons"]) == (2, "Done.", [])
    assert shown["edited_at"] == "2027-03-01T18:00:00+00:00"


@pytest.mark.asyncio
async def test_buttons_can_be_changed_alone_and_old_ones_still_pressed(
    bot: Bot, web: httpx.AsyncClient
) -> None:
    await say(web, "hi")
    await bot.send_message(1, "Tonight", reply_markup=BUTTONS)
    await bot.edit_message_reply_markup(1, 2)
    pressed = await web.post("/person/1/press?wait=false", json={"message_id": 2, "data": "done:1"})
    assert pressed.status_code == 200
    with pytest.raises(BadRequest, match="Query is too old"):
        await bot.answer_callback_query("999")


@pytest.mark.asyncio
async def test_pictures_and_files_travel_both_ways(bot: Bot, web: httpx.AsyncClient) -> None:
    files = {"file": ("leaf.png", PICTURE, "image/png")}
    sent = await web.post("/person/1/photo?wait=false", files=files, data={"caption": "what is this"})
    assert sent.status_code == 200
    message = (await bot.get_updates())[0].message
    assert message is not None
    assert (message.caption, message.photo[0].width, message.photo[0].height) == ("what is this", 640, 480)
    assert await (await message.photo[0].get_file()).download_as_bytearray() == PICTURE
    await bot.send_photo(1, message.photo[0].file_id, caption="yours")
    await bot.send_photo(1, PICTURE)
    document = (await bot.send_document(1, b"BEGIN", caption="plan", filename="plan.ics")).document
    assert document is not None
    assert (document.file_name, document.file_size) == ("plan.ics", 5)
    await bot.send_document(1, document.file_id)
    shown = await seen(web, after=1)
    assert [m["text"] for m in shown] == ["yours", "", "plan", ""]
    assert (await web.get(shown[0]["photo"])).content == PICTURE
    assert (await web.get(shown[1]["photo"])).content == PICTURE
    assert (await web.get(shown[3]["document"])).content == b"BEGIN"


@pytest.mark.asyncio
async def test_the_smaller_methods_answer(bot: Bot, web: httpx.AsyncClient) -> None:
    await say(web, "hi")
    await bot.send_message(1, "hello")
    assert await bot.set_my_commands([("help", "what I can do")])
    assert [c.command for c in await bot.get_my_commands()] == ["help"]
    assert await bot.set_message_reaction(1, 1, "👍")
    assert await bot.send_chat_action(1, "typing")
    assert await bot.delete_message(1, 2)
    assert [m["id"] for m in await seen(web)] == [1]
    assert (await seen(web, after=2))[0]["deleted"] is True


@pytest.mark.asyncio
async def test_a_location_reaches_the_bot(bot: Bot, web: httpx.AsyncClient) -> None:
    await web.post("/person/1/location?wait=false", json={"lat": 51.05, "lon": 3.72})
    message = (await bot.get_updates())[0].message
    assert message is not None
    assert message.location is not None
    assert (message.location.latitude, message.location.longitude) == (51.05, 3.72)


@pytest.mark.asyncio
async def test_refusals_have_the_form_of_the_platform(
    standin: StandIn, bot: Bot, web: httpx.AsyncClient
) -> None:
    await say(web, "hi")
    sent = await bot.send_message(1, "hello", reply_markup=BUTTONS)
    long_data = InlineKeyboardMarkup([[InlineKeyboardButton("x", callback_data="é" * 33)]])  # 66 bytes
    for refused, why in (
        (bot.send_message(2, "hi"), "[Cc]hat not found"),
        (bot.send_message(1, " "), "text is empty"),
        (bot.send_message(1, "x" * 4097), "too long"),
        (bot.send_message(1, "x", reply_markup=long_data), "[Bb]utton_data_invalid"),
        (bot.edit_message_text("hello", 1, 2, reply_markup=BUTTONS), "is not modified"),
        (bot.edit_message_text("hello", 1, 77), "to edit not found"),
        (bot.edit_message_text("hello", 1, 1), "can't be edited"),
        (bot.delete_message(1, 77), "to delete not found"),
        (bot.send_photo(1, "nonsense"), "wrong file identifier"),
        (bot.get_file("nonsense"), "invalid file_id"),
    ):
        with pytest.raises(BadRequest, match=f"(?i){why}"):
            await refused
    with pytest.raises(EndPointNotFound):
        await bot.do_api_request("noSuchMethod")
    wrong = await web.post("/bot100:other/getMe")
    assert (wrong.status_code, wrong.json()["error_code"]) == (401, 401)
    assert sent.message_id == 2
    assert len(standin.chats.by_id[1].messages) == 2


@pytest.mark.asyncio
async def test_json_bodies_are_taken_like_forms(web: httpx.AsyncClient) -> None:
    await say(web, "hi")
    sent = await web.post("/bot100:demo/sendMessage", json={"chat_id": 1, "text": "hello"})
    assert sent.json()["result"]["text"] == "hello"
    for body in (b"{", b"[1]", b"[" * 100_000):
        answer = await web.post(
            "/bot100:demo/sendMessage", content=body, headers={"Content-Type": "application/json"}
        )
        assert (answer.status_code, answer.json()["ok"]) == (400, False)
    for fields in (
        {"text": "x"},
        {"chat_id": "x", "text": "x"},
        {"chat_id": 1, "text": "x", "reply_markup": "{"},
    ):
        assert (await web.post("/bot100:demo/sendMessage", data=fields)).status_code == 400


@pytest.mark.asyncio
async def test_a_blocked_bot_is_forbidden_until_unblocked(bot: Bot, web: httpx.AsyncClient) -> None:
    await say(web, "hi")
    await web.post("/person/1/block", json={"blocked": True})
    with pytest.raises(Forbidden, match="bot was blocked by the user"):
        await bot.send_message(1, "hello")
    assert (await web.post("/person/1/say", json={"text": "hi"})).status_code == 400
    await web.post("/person/1/block", json={"blocked": False})
    assert (await bot.send_message(1, "hello")).text == "hello"


@pytest.mark.asyncio
@pytest.mark.filterwarnings("ignore:.*attribute `retry_after` will be:DeprecationWarning")
async def test_a_fault_strikes_as_often_as_asked(bot: Bot, web: httpx.AsyncClient) -> None:
    await say(web, "hi")
    await web.post("/faults", json=[{"method": "sendMessage", "times": 2, "status": 429, "retry_after": 7}])
    for _ in range(2):
        with pytest.raises(RetryAfter) as refused:
            await bot.send_message(1, "hello")
        assert refused.value.retry_after in {7, timedelta(seconds=7)}
    await bot.send_message(1, "hello")
    assert [m["text"] for m in await seen(web)] == ["hi", "hello"]


@pytest.mark.asyncio
@pytest.mark.parametrize(("cut", "delivered"), [("before", []), ("after", ["hello"])])
async def test_a_cut_connection_hides_whether_the_message_arrived(
    bot: Bot, web: httpx.AsyncClient, cut: str, delivered: list[str]
) -> None:
    await say(web, "hi")
    await web.post("/faults", json=[{"method": "sendMessage", "times": 1, "cut": cut, "delay_s": 0.01}])
    with pytest.raises(NetworkError):
        await bot.send_message(1, "hello")
    assert [m["text"] for m in await seen(web, after=1)] == delivered
    assert (await web.get("/calls")).json()["sendMessage"] == 1


@pytest.mark.asyncio
async def test_an_empty_list_clears_the_faults(bot: Bot, web: httpx.AsyncClient) -> None:
    await say(web, "hi")
    await web.post("/faults", json=[{"method": "sendMessage", "times": 9, "status": 500}])
    await web.post("/faults", json=[])
    assert (await bot.send_message(1, "hello")).text == "hello"


@pytest.mark.asyncio
async def test_a_webhook_gets_each_update_until_it_says_yes(bot: Bot, web: httpx.AsyncClient) -> None:
    taken: list[tuple[str, int]] = []
    enough = asyncio.Event()

    class Hook(RequestHandler):
        def post(self) -> None:
            secret = self.request.headers["X-Telegram-Bot-Api-Secret-Token"]
            taken.append((secret, json.loads(self.request.body)["update_id"]))
            self.set_status(500 if len(taken) == 1 else 200)
            if len(taken) == 3:
                enough.set()

    sockets = bind_sockets(0, "127.0.0.1")
    server = HTTPServer(Application([("/hook", Hook)], log_function=lambda _: None))
    server.add_sockets(sockets)
    await bot.set_webhook(f"http://127.0.0.1:{sockets[0].getsockname()[1]}/hook", secret_token="s3cret")
    with pytest.raises(Conflict, match="webhook is active"):
        await bot.get_updates()
    await say(web, "one")
    await say(web, "two")
    async with asyncio.timeout(5):
        await enough.wait()
    assert taken == [("s3cret", 1), ("s3cret", 1), ("s3cret", 2)]
    await bot.delete_webhook()
    assert await bot.get_updates(offset=3) == ()
    server.stop()
    await server.close_all_connections()


@pytest.mark.asyncio
async def test_a_raw_update_is_passed_on_as_given(bot: Bot, web: httpx.AsyncClient) -> None:
    poison = {"message": {"message_id": 9, "chat": {"id": 4, "type": "private"}, "text": "no date"}}
    assert (await web.post("/updates", json=poison)).json() == {"update_id": 1}
    assert (await web.post("/updates", json={"update_id": 70})).json() == {"update_id": 70}
    await say(web, "hi")
    raw = (await web.post("/bot100:demo/getUpdates")).json()["result"]
    assert raw[0] == {"update_id": 1} | poison
    assert [update["update_id"] for update in raw] == [1, 70, 71]
    assert (await bot.send_message(4, "known now")).text == "known now"


@pytest.mark.asyncio
async def test_say_answers_with_what_the_bot_wrote_once_settled(
    standin: StandIn, bot: Bot, web: httpx.AsyncClient
) -> None:
    async def settled() -> None:
        for update in await bot.get_updates():
            assert update.message is not None
            await bot.send_message(update.message.chat_id, f"heard {update.message.text}")
            await bot.get_updates(offset=update.update_id + 1)

    standin.settled = settled
    for text in ("one", "two"):
        answer = (await web.post("/person/1/say", json={"text": text})).json()
        assert [m["text"] for m in answer["messages"]] == [f"heard {text}"]


@pytest.mark.asyncio
async def test_press_answers_with_the_edited_message_and_the_notice(
    standin: StandIn, bot: Bot, web: httpx.AsyncClient
) -> None:
    await say(web, "hi")
    await bot.send_message(1, "Tonight", reply_markup=BUTTONS)

    async def settled() -> None:
        query = (await bot.get_updates(offset=2))[0].callback_query
        assert query is not None
        await query.answer("Noted")
        await query.edit_message_text("Done.")

    standin.settled = settled
    answer = (await web.post("/person/1/press", json={"message_id": 2, "data": "done:1"})).json()
    assert [(m["id"], m["text"]) for m in answer["messages"]] == [(2, "Done.")]
    assert answer["notice"] == "Noted"


@pytest.mark.asyncio
async def test_without_a_hook_say_waits_only_for_the_confirmation(bot: Bot, web: httpx.AsyncClient) -> None:
    answer = asyncio.create_task(web.post("/person/1/say", json={"text": "hi"}))
    (update,) = await bot.get_updates(timeout=5)
    await bot.send_message(1, "hello")
    await bot.get_updates(offset=update.update_id + 1)
    assert [m["text"] for m in (await answer).json()["messages"]] == ["hello"]


@pytest.mark.asyncio
async def test_the_clock_is_moved_by_its_hook(standin: StandIn, bot: Bot, web: httpx.AsyncClient) -> None:
    assert (await web.post("/clock", json={"by_seconds": 60})).status_code == 409
    clock = standin.clock
    assert isinstance(clock, HandClock)
    await say(web, "hi")

    async def move(step: dict[str, Any]) -> None:
        clock.at += timedelta(seconds=step["by_seconds"])
        await bot.send_message(1, "nudge")

    standin.move_clock = move
    moved = (await web.post("/clock", json={"by_seconds": 86400})).json()
    assert moved["now"] == "2027-03-02T18:00:00+00:00" == (await web.get("/clock")).json()["now"]
    assert [m["text"] for m in moved["messages"]["1"]] == ["nudge"]


NONSENSE: list[tuple[str, Any]] = [
    ("/person/x/say", {"text": "hi"}),
    ("/person/0/say", {"text": "hi"}),
    ("/person/99999999999999999999/say", {"text": "hi"}),
    ("/person/1/say", {}),
    ("/person/1/say", {"text": 5}),
    ("/person/1/say", {"text": "  "}),
    ("/person/1/say", {"text": "x" * 4097}),
    ("/person/1/say", {"text": "\ud800"}),
    ("/person/1/say", {"text": "hi", "as": 2}),
    ("/person/-1/say", {"text": "hi"}),
    ("/person/1/say", {"text": "hi", "wait": "soon"}),
    ("/person/1/say", []),
    ("/person/1/say", "{"),
    ("/person/1/say", "[" * 100_000),
    ("/person/1/location", {"lat": 91, "lon": 0}),
    ("/person/1/location", {"lat": True, "lon": 0}),
    ("/person/1/location", '{"lat": NaN, "lon": 0}'),
    ("/person/1/photo", {}),
    ("/person/1/press", {"message_id": 1, "data": "no such button"}),
    ("/person/1/press", {"message_id": "x", "data": "y"}),
    ("/person/1/press", {"message_id": 50, "data": "y"}),
    ("/person/8/press", {"message_id": 1, "data": "y"}),
    ("/person/8/block", {"blocked": True}),
    ("/person/1/block", {"blocked": "yes"}),
    ("/clock", {}),
    ("/clock", {"to": "soon"}),
    ("/clock", {"to": "2027-03-02T18:00:00"}),
    ("/clock", {"to": "2020-01-01T00:00:00+00:00"}),
    ("/clock", {"to": 5}),
    ("/clock", {"by_seconds": -1}),
    ("/clock", {"by_seconds": 10**400}),
    ("/clock", {"to_next_nudge": False}),
    ("/clock", {"sideways": True}),
    ("/faults", {}),
    ("/faults", [1]),
    ("/faults", [{}]),
    ("/faults", [{"method": "noSuchMethod"}]),
    ("/faults", [{"method": "sendMessage", "times": 0}]),
    ("/faults", [{"method": "sendMessage", "cut": "sideways"}]),
    ("/faults", [{"method": "sendMessage", "status": 200}]),
    ("/faults", [{"method": "sendMessage", "retry_after": -1}]),
    ("/faults", [{"method": "sendMessage", "delay_s": "long"}]),
    ("/faults", [{"method": "sendMessage", "more": 1}]),
    ("/updates", []),
    ("/updates", {"update_id": "x"}),
    ("/updates", {"update_id": -1}),
]


@pytest.mark.asyncio
async def test_nonsense_is_refused_in_words_and_changes_nothing(
    standin: StandIn, web: httpx.AsyncClient
) -> None:
    await say(web, "hi")
    for path, body in NONSENSE:
        text = body if isinstance(body, str) else json.dumps(body)
        answer = await web.post(path, content=text)
        assert (answer.status_code, bool(answer.json()["error"])) == (400, True), (path, body)
    for path in ("/person/x/messages", "/person/1/messages?after=x", "/person/1/messages?since=x"):
        assert (await web.get(path)).status_code == 400
    assert (await web.post("/person/1/photo", content=b"x", headers=BROKEN_PARTS)).status_code == 400
    assert list(standin.chats.by_id) == [1]
    assert (standin.faults, len(standin.updates.pending)) == ([], 1)
    assert [m["text"] for m in await seen(web)] == ["hi"]


BROKEN_PARTS = {"Content-Type": "multipart/form-data; boundary=none"}


@pytest.mark.asyncio
async def test_a_chat_nobody_spoke_in_is_empty(web: httpx.AsyncClient) -> None:
    assert await seen(web, chat=3) == []


@pytest.mark.asyncio
async def test_the_page_allows_nothing_from_elsewhere(web: httpx.AsyncClient) -> None:
    page = await web.get("/")
    assert page.headers["Content-Type"].startswith("text/html")
    assert page.headers["Content-Security-Policy"].startswith("default-src 'none'")
    assert "innerHTML" not in page.text
    assert "//" not in page.text.replace("<!doctype html>", "")


@pytest.mark.asyncio
async def test_it_listens_on_loopback_only(standin: StandIn) -> None:
    server = standin._server  # noqa: SLF001 - nothing else names the socket
    assert server is not None
    names = [sock.getsockname() for sock in server._sockets.values()]  # noqa: SLF001 - same
    assert names == [("127.0.0.1", standin.port)]
    with pytest.raises(OSError, match="refused"), socket.socket() as other:
        other.connect(("127.0.0.2", standin.port))
