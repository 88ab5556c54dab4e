from datetime import UTC, datetime
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bot.actions.incoming import Incoming, Location, Other, Photo, Press, Quoted, Reaction, Text
from bot.telegram.incoming import parse
from bot.telegram.parsed import Ignored, Me, Moved, Unparsable

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
        message_id=1,
    )


@pytest.mark.parametrize(
    ("content", "kind"),
    [
        ({"location": {"latitude": 51, "longitude": 3.7}}, Location(51.0, 3.7)),
        ({"voice": {"file_id": "v", "file_unique_id": "v", "duration": 3}}, Other("voice")),
        ({"dice": {"value": 3, "emoji": "🎲"}}, Other("dice")),
        ({"something_of_next_year": {}}, Other("something else")),
        ({"text": "nul\0 and half \ud83d"}, Text("nul and half \ufffd")),
        (
            {
                "photo": [
                    {"file_id": "big", "file_unique_id": "b", "width": 9, "height": 9},
                    {"file_id": "small", "file_unique_id": "s", "width": 2, "height": 2},
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
    message = {"message_id": 4, "date": 0, "chat": GROUP}
    query = {"id": "q", "from": ANNA, "data": "q1.0", "chat_instance": "1", "message": message}
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


def earlier(sender: int, text: str = "Tonight: hoya.") -> dict[str, Any]:
    """The message a reply is to."""
    by = {"id": sender, "is_bot": sender == ME.id, "first_name": "Somebody"}
    return message(GROUP, text=text)["message"] | {"message_id": 40, "from": by}  # type: ignore[no-any-return]


def test_in_a_group_a_reply_to_the_bot_is_for_us() -> None:
    assert heard(message(GROUP, text="done", reply_to_message=earlier(ME.id))).addressed
    assert not heard(message(GROUP, text="done", reply_to_message=earlier(8))).addressed


def test_what_is_replied_to_is_told_and_of_it_what_was_picked_out() -> None:
    reply = message(GROUP, text="done", reply_to_message=earlier(ME.id))
    assert heard(reply).quoted == Quoted(40, "Tonight: hoya.", is_ours=True)
    reply["message"]["quote"] = {"text": "hoya", "position": 9}
    assert heard(reply).quoted == Quoted(40, "hoya", is_ours=True)
    assert heard(message(text="done")).quoted is None


def test_words_handed_on_are_told_from_the_senders_own() -> None:
    origin = {"type": "hidden_user", "date": 1_700_000_000, "sender_user_name": "Bo"}
    assert heard(message(text="ivy is dead", forward_origin=origin)).is_forwarded
    assert not heard(message(text="ivy is dead")).is_forwarded


def test_an_edit_carries_the_number_of_what_it_says_anew() -> None:
    edit = {"update_id": 4, "edited_message": message(text="30", edit_date=1_800_000_060)["message"]}
    incoming = heard(edit)
    assert (incoming.kind, incoming.is_edit, incoming.message_id) == (Text("30"), True, 1)


def sign(*emoji: str, before: tuple[str, ...] = ()) -> dict[str, Any]:
    """A change of the signs under message 40."""
    old, new = ([{"type": "emoji", "emoji": one} for one in signs] for signs in (before, emoji))
    changed = {"chat": PRIVATE, "message_id": 40, "date": 1_800_000_000, "user": ANNA}
    return {"update_id": 5, "message_reaction": changed | {"old_reaction": old, "new_reaction": new}}


def test_of_a_reaction_only_what_is_new_counts() -> None:
    assert heard(sign("👍")).kind == Reaction(("👍",), 40)
    assert heard(sign("👍", "👌", before=("👍",))).kind == Reaction(("👌",), 40)
    assert isinstance(parse(sign(before=("👍",)), ME), Ignored)  # taken away
    own = sign("👍")
    own["message_reaction"]["user"] = {"id": 100, "is_bot": True, "first_name": "Duskround"}
    assert isinstance(parse(own, ME), Ignored)


def test_a_group_that_moved_is_told() -> None:
    assert parse(message(GROUP, migrate_to_chat_id=-1005), ME) == Moved(3, -5, -1005)


@pytest.mark.parametrize(
    "update",
    [
        {"update_id": 3, "something_of_next_year": {}},
        {"update_id": 3},
        message(text="x", **{"from": ANNA | {"is_bot": True}}),
        message(GROUP, new_chat_title="Plants"),
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
        (message(photo=[{}]), 3),
        ({"update_id": 3, "edited_message": {}}, 3),
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


@settings(suppress_health_check=[HealthCheck.too_slow])
@given(
    st.dictionaries(st.sampled_from(["update_id", "message", "callback_query", "message_reaction"]), JSON)
    | st.builds(
        lambda content: message(**content),
        st.dictionaries(
            st.sampled_from(["text", "from", "chat", "date", "photo", "location", "reply_to_message"]), JSON
        ),
    )
)
def test_no_update_raises(update: Any) -> None:
    parse(update, ME)
