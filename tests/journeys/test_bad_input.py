"""Whatever comes in: a clear answer or a refusal, nothing in the journal, and the next message is answered."""

import pytest

from bot.actions.incoming import Location, Other, Photo, Press
from bot.domain.journal import HouseholdSet
from bot.messages import MAX_TEXT, cut
from tests.journeys.talking import OWNER, PARTNER, STRANGER, Talk

REFUSAL = "This bot keeps one home's plants and I do not know you."
EXPIRED = ["That button is from an earlier message. Please say it in words."]
NOT_UNDERSTOOD = "so nothing is written."


def refused(talk: Talk, text: str) -> str:
    """Say it; nothing may be written, and the next message must be answered."""
    before = talk.entries()
    (answer,) = talk.say(text)
    assert talk.entries() == before
    assert "landing: hoya and small hoya" in talk.say("plants")[0]
    assert 0 < len(answer) <= MAX_TEXT
    return answer


def test_a_stranger_is_refused_once_an_hour_and_told_nothing(talk: Talk) -> None:
    before = talk.entries()
    (answer,) = talk.say("isolated?", person=STRANGER)
    assert answer.startswith(REFUSAL)
    assert "hoya" not in answer
    talk.passes(minutes=59)
    assert talk.say("/start", person=STRANGER) == []
    talk.passes(minutes=1)
    assert talk.say("/start", person=STRANGER)[0].startswith(REFUSAL)
    assert talk.send(Press("q1.0", 5, "callback"), person=STRANGER) == []
    assert talk.entries() == before
    assert "landing:" in talk.say("plants")[0]


def test_a_stranger_in_a_members_group_is_still_a_stranger(talk: Talk) -> None:
    assert talk.say("plants", person=STRANGER, chat=-5)[0].startswith(REFUSAL)
    assert "landing:" in talk.say("plants")[0]


@pytest.mark.parametrize("text", ["monstera 3 mites", "done monstera", "monstera clean"])
def test_an_unknown_plant_is_named_and_nothing_is_written(talk: Talk, text: str) -> None:
    assert refused(talk, text) == (
        "I know no plant called “monstera”. Nothing is written. “plants” lists what I know."
    )


def test_a_question_without_choices_shows_no_buttons_of_an_earlier_one(talk: Talk) -> None:
    talk.say("big fern, study\nsmall fern, study")
    talk.say("fern 3 mites")
    assert talk.labels() == ["big fern", "small fern"]
    talk.say("monstera 3 mites")
    assert talk.labels() == []


def test_a_name_two_plants_answer_to_is_asked_back(talk: Talk) -> None:
    talk.say("big fern, study\nsmall fern, study")
    before = len(talk.told())
    assert talk.say("fern 3 spider mites") == ["Which one for “fern”?"]
    assert talk.told()[before:] == []
    assert talk.press("small fern")[0].startswith("Written: 3 spider mites on small fern.")
    assert [name for name, _ in talk.told()[before:]] == ["small fern"]


@pytest.mark.parametrize(
    "data",
    [
        "",
        "q",
        "q1",
        "q1.",
        "q.1",
        "x1.0",
        "q1.0.0",
        "q-1.0",
        "q1.-1",
        "q1.9999",
        "q1.10",
        "q424242.0",
        "q" + "9" * 62 + ".0",
        "q1." + "9" * 60,
        "q٣.٠",  # digits of another script
        "q1.0; DROP TABLE journal",
        "\U0001fab4",
    ],
)
def test_an_unknown_forged_or_truncated_button_does_nothing(talk: Talk, data: str) -> None:
    before = talk.entries()
    assert talk.press_data(data) == EXPIRED
    assert talk.entries() == before
    assert "landing:" in talk.say("plants")[0]


def test_a_button_of_another_chat_or_household_does_nothing(outbreak: Talk) -> None:
    outbreak.joins()
    outbreak.evening()
    before = outbreak.entries()
    mine, partners = outbreak.button("All done"), outbreak.button("All done", person=PARTNER)
    assert mine != partners
    assert outbreak.press_data(mine, person=PARTNER) == EXPIRED
    with outbreak.database.unit() as store:
        store.found_household(STRANGER, STRANGER, "Else", outbreak.now)
    assert outbreak.press_data(mine, person=STRANGER) == EXPIRED
    assert outbreak.new_since(len(before)) == []
    assert "Written" in outbreak.press_data(partners, person=PARTNER)[0]


@pytest.mark.parametrize("text", ["a" * 5_000, "done " * 1_000, "hoya, landing\n" * 400, "🪴" * 5_000])
def test_a_very_long_message_is_declined_in_a_short_one(talk: Talk, text: str) -> None:
    assert refused(talk, text).startswith("That is longer than I can read at once")


@pytest.mark.parametrize(
    "text",
    ["🪴🪴🪴", "🐛", "👎", "\0", "{}", "%s %n", "/unknown", "' OR 1=1 --", "\u202eeman", "\ud800", "  .  "],
)
def test_emoji_and_gibberish_are_not_understood_and_said_so(talk: Talk, text: str) -> None:
    assert NOT_UNDERSTOOD in refused(talk, text)


@pytest.mark.parametrize("what", ["sticker", "voice", "edit"])
def test_what_the_bot_cannot_read_it_says(talk: Talk, what: str) -> None:
    before = talk.entries()
    assert len(talk.send(Other(what))) == 1
    assert len(talk.send(Photo("file", ""))) == 1
    assert talk.entries() == before


def test_the_words_under_a_picture_count_as_said(talk: Talk) -> None:
    assert talk.send(Photo("file", "hoya 3 spider mites"))[0].startswith("Written: 3 spider mites on hoya.")


def test_a_town_that_does_not_exist_is_named_and_may_be_tried_again(talk: Talk) -> None:
    assert refused(talk, "I live in Atlantisburg") == (
        "I know no town called “Atlantisburg”. Try a larger one nearby, or send coordinates like 51.1, 3.7; "
        "“skip” puts it off."
    )


def test_a_town_that_exists_several_times_is_asked_back(talk: Talk) -> None:
    assert refused(talk, "I live in Springfield") == "There are 8 places called Springfield. Which one?"


@pytest.mark.parametrize(
    ("latitude", "longitude"),
    [(91, 0), (-90.1, 0), (0, 181), (0, -999), (float("nan"), 0), (float("inf"), 0)],
)
def test_a_place_off_the_globe_is_refused_with_the_bounds(
    talk: Talk, latitude: float, longitude: float
) -> None:
    before = talk.entries()
    (answer,) = talk.send(Location(latitude, longitude))
    assert answer.endswith(
        "is not on the globe: latitude runs from -90 to 90, longitude from -180 to 180. Nothing is written."
    )
    assert talk.entries() == before


@pytest.mark.parametrize(
    "text",
    ["did the hoya on 20 june", "sprayed hoya tomorrow", "hoya 3 mites on 20 june", "hoya clean tomorrow"],
)
def test_a_day_to_come_is_not_written(talk: Talk, text: str) -> None:
    assert refused(talk, text) == "That day is still to come, so I wrote nothing. Tell me once it is done."


def test_a_day_too_long_ago_is_not_written(talk: Talk) -> None:
    assert refused(talk, "did the hoya on 3 january 2024").startswith(
        "That day cannot be meant: it is over, or more than 400 days ago"
    )


@pytest.mark.parametrize(
    "text",
    ["hoya -3 spider mites", "hoya -3", "hoya 1000000000", "hoya 1000000000 mites", "hoya 100001 mites"],
)
def test_a_find_of_an_impossible_number_is_not_written(talk: Talk, text: str) -> None:
    assert refused(talk, text).startswith("I cannot make a find of that number.")


def test_a_find_of_a_hundred_thousand_is_the_largest(talk: Talk) -> None:
    assert "100000 spider mites on hoya." in talk.say("hoya 100000 spider mites")[0]


@pytest.mark.parametrize("days", [0, 366, 400])
def test_a_label_gap_no_label_has_is_not_written(talk: Talk, days: int) -> None:
    refused(talk, f"got neem, ready to use, every {days} days")


@pytest.mark.parametrize("celsius", [-40, 90])
def test_a_temperature_no_home_has_is_not_written(talk: Talk, celsius: int) -> None:
    refused(talk, f"landing is {celsius} degrees")


def test_half_a_message_is_never_written(talk: Talk) -> None:
    refused(talk, "hoya clean, monstera 3 mites")
    refused(talk, "hoya 3 spider mites, ivy -3")


def test_no_answer_is_longer_than_the_platform_takes(talk: Talk) -> None:
    assert cut("a" * MAX_TEXT) == "a" * MAX_TEXT
    assert cut("a" * (MAX_TEXT + 1)) == "a" * (MAX_TEXT - 1) + "…"
    for number in range(100):
        talk.say(f"new plant: fern of a rather long name {number}x, kitchen")
    assert all(len(answer.text) <= MAX_TEXT for answer in talk.shown[OWNER])
    assert "landing:" in talk.say("plants")[0]


def test_a_household_far_in_the_north_has_evenings_without_a_dark_hour(stranger_talk: Talk) -> None:
    stranger_talk.set_up(("/start", "Tromsø", "hoya, landing", "north", "got soap", "hoya 12 spider mites"))
    assert [one for _, one in stranger_talk.told()][0] == HouseholdSet(  # noqa: RUF015 - a list of pairs
        town="Tromsø", latitude=69.6, longitude=19.0, zone="Europe/Oslo"
    )
    stranger_talk.at(stranger_talk.now.date().replace(month=6, day=20), 12)
    (nudge,) = stranger_talk.evening()
    assert "hoya" in nudge


@pytest.mark.parametrize("text", ["landing is 21 degrees F", "the landing is 30 °F", "landing 17 F now"])
def test_a_room_told_in_fahrenheit_that_would_be_freezing_is_asked_back(text: str, talk: Talk) -> None:
    assert "would be freezing. Is it °F, or °C?" in refused(talk, text)


def test_a_cold_room_in_its_own_degrees_is_taken_at_its_word(talk: Talk) -> None:
    before = len(talk.entries())
    talk.say("landing is 3 degrees")
    assert len(talk.entries()) == before + 1
