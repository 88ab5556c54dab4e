from datetime import UTC, datetime
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.actions.incoming import Incoming, Location, Other, Photo, Press, Text
from bot.telegram.incoming import Ignored, Me, Moved, Unparsable, chat_of, parse

ME = Me(100, "duskround_bot")
PRIVATE = {"id": 5, "type": "private"}
GROUP = {"id": -5, "type": "supergroup"}
ANNA = {"id": 7, "is_bot": False, "first_name": "Anna"}
AT = datetime(2027, 1, 15, 8, tzinfo=UTC)  # 1,800,000,000 s: 20,833 days and 8 h, worked by hand


def message(chat: dict[str, Any] = PRIVATE, **content: Any) -> dict[str, Any]:
    told = {"message_id": 1, "date": 1_800_000_000, "chat": chat, "from": ANNA} | content
    return {"update_id": 3, "message": told}


def heard(update: Any) -> Incoming:
    incoming = parse(update, ME)
    assert isinstance(incoming, Incoming), incoming
    return incoming


def test_a_text_is_read() -> None:
    assert heard(message(text="done")) == Incoming(
        update_id=3,
        chat=5,
        person=7,
        name="Anna",
        kind=Text("done"),
        at=AT,
        is_group=False,
        addressed=True,
    )


@pytest.mark.parametrize(
    ("content", "kind"),
    [
        ({"location": {"latitude": 51, "longitude": 3.7}}, Location(51.0, 3.7)),
        ({"sticker": {}}, Other("sticker")),
        ({"dice": {}}, Other("something else")),
        ({"text": "nul\0 and half \ud83d"}, Text("nul and half \ufffd")),
        (
            {
                "photo": [
                    {"file_id": "big", "width": 9, "height": 9},
                    {"file_id": "small", "width": 2, "height": 2},
                ],
                "caption": "hoya",
            },
            Photo("big", "hoya"),
        ),
    ],
)
def test_other_kinds_are_read(content: dict[str, Any], kind: object) -> None:
    assert heard(message(**content)).kind == kind


def test_a_press_is_read() -> None:
    query = {"id": "q", "from": ANNA, "data": "q1.0", "message": {"message_id": 4, "date": 0, "chat": GROUP}}
    incoming = heard({"update_id": 3, "callback_query": query})
    assert (incoming.kind, incoming.chat, incoming.addressed) == (Press("q1.0", 4, "q"), -5, True)


@pytest.mark.parametrize(
    ("text", "read", "addressed"),
    [
        ("/due", "/due", True),
        ("/due@Duskround_bot hoya", "/due hoya", True),
        ("/due@other_bot", "/due", False),
        ("good morning", "good morning", False),
    ],
)
def test_in_a_group_only_our_commands_are_for_us(text: str, read: str, *, addressed: bool) -> None:
    incoming = heard(message(GROUP, text=text))
    assert (incoming.kind, incoming.addressed, incoming.is_group) == (Text(read), addressed, True)


def test_in_a_group_a_reply_to_the_bot_is_for_us() -> None:
    assert heard(message(GROUP, text="done", reply_to_message={"from": {"id": 100}})).addressed
    assert not heard(message(GROUP, text="done", reply_to_message={"from": {"id": 8}})).addressed


def test_a_group_that_moved_is_told() -> None:
    assert parse(message(GROUP, migrate_to_chat_id=-1005), ME) == Moved(3, -5, -1005)


@pytest.mark.parametrize(
    "update",
    [
        {"update_id": 3, "edited_message": {}},
        {"update_id": 3, "poll": {}},
        {"update_id": 3},
        message(text="x") | {"message": message(text="x")["message"] | {"from": {"id": 9, "is_bot": True}}},
    ],
)
def test_what_asks_nothing_is_ignored(update: Any) -> None:
    assert isinstance(parse(update, ME), Ignored)


@pytest.mark.parametrize(
    ("update", "number"),
    [
        ([], None),
        ({"update_id": "3"}, None),
        ({"update_id": True}, None),
        ({"update_id": 3, "message": []}, 3),
        (message(text=7), 3),
        (message(text="x", date=None), 3),
        (message(text="x", date=10**12), 3),
        (message({"id": 2**70}, text="x"), 3),
        (message(location={"latitude": 91, "longitude": 0}), 3),
        (message(location={"latitude": float("nan"), "longitude": 0}), 3),
        (message(photo=[]), 3),
    ],
)
def test_what_is_out_of_form_is_unparsable(update: Any, number: int | None) -> None:
    parsed = parse(update, ME)
    assert isinstance(parsed, Unparsable)
    assert parsed.update_id == number


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=5,
)


@given(
    st.dictionaries(st.sampled_from(["update_id", "message", "callback_query"]), JSON)
    | st.builds(
        lambda content: message(**content),
        st.dictionaries(
            st.sampled_from(["text", "from", "chat", "date", "photo", "location", "reply_to_message"]), JSON
        ),
    )
)
def test_no_update_raises(update: Any) -> None:
    parse(update, ME)
    chat_of(update)
