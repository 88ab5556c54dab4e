"""New arrivals kept apart, and the strict rule."""

import pytest

from bot.domain.journal import IsolatedNow
from tests.journeys.talking import Talk


@pytest.fixture
def arrived(talk: Talk) -> Talk:
    talk.passes(days=2)
    talk.say("fern, study, 12 cm")
    return talk


def test_a_new_arrival_is_offered_six_weeks_apart(arrived: Talk) -> None:
    assert arrived.labels() == ["Six weeks apart", "Three weeks apart", "It is not new"]
    # 4 May and 42 days: 15 June.
    assert arrived.press("Six weeks apart")[0].startswith("Written: fern is apart until Mon 15 Jun")
    assert arrived.say("when can the fern go back")[0].startswith("fern is new: apart until Mon 15 Jun")
    assert "fern (study): free from Mon 15 Jun at best." in arrived.say("isolated?")[0]
    assert "look at fern" in arrived.say("what's due")[0], "a look a week"


def test_it_leaves_after_its_weeks_and_a_look_that_finds_none(arrived: Talk) -> None:
    arrived.press("Three weeks apart")
    assert arrived.say("put fern back")[0].startswith("fern is new: apart until Mon 25 May")
    arrived.passes(days=21)
    assert arrived.say("put fern back")[0].startswith("fern is new: apart until"), "nobody has looked"
    assert "All-clear for fern" in arrived.say("fern clean")[0]
    assert arrived.say("put fern back")[0].startswith("Written: fern goes back, all-clear.")


def test_it_may_go_earlier_on_the_persons_word(arrived: Talk) -> None:
    arrived.press("Six weeks apart")
    arrived.say("put fern back")
    assert "on your word, before the all-clear" in arrived.press("Put it back anyway")[0]


def test_a_find_ends_the_quarantine_and_opens_a_case(arrived: Talk) -> None:
    arrived.press("Six weeks apart")
    arrived.say("fern 3 citrus mealybugs")
    assert arrived.say("when can the fern go back")[0].startswith("fern: living ones today")


@pytest.mark.parametrize(
    ("text", "days"),
    [("quarantine the ivy", 42), ("quarantine the ivy for 3 weeks", 21), ("quarantine ivy for 5 days", 21)],
)
def test_the_length_can_be_said_but_not_below_three_weeks(talk: Talk, text: str, days: int) -> None:
    talk.say(text)
    assert talk.told()[-1][1] == IsolatedNow(apart=True, quarantine_days=days)


def test_the_first_list_of_a_home_is_not_taken_for_arrivals(stranger_talk: Talk) -> None:
    for text in ("/start", "Gent", "hoya, landing, 15 cm", "no window", "fern, landing, 12 cm"):
        stranger_talk.say(text)
    assert not any("weeks" in label for label in stranger_talk.labels())


def test_strict_asks_for_more_and_can_be_undone(talk: Talk) -> None:
    assert "95 %" in talk.say("strict")[0]
    assert talk.home.is_strict
    assert "90 %" in talk.say("strict off")[0]
    talk.say("undo")
    assert talk.home.is_strict


def test_why_shows_terms_sources_and_what_would_change_it(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    why = talk.say("why more hoya")[0]
    for part in (
        "degree-days above 8 °C, at 21 °C",
        "Reach: a spray hits the young well",
        "Looks come weekly",
        "Looks: 0 looks counted",
        "(our judgement",
    ):
        assert part in why
    assert "lens looks bring it forward" in why


def test_why_explains_the_hour_the_watch_and_the_quarantine(talk: Talk) -> None:
    talk.say("study faces south")
    talk.say("ivy 12 spider mites")
    assert "Hour: study: looks south; oil, soap and neem burn in direct sun." in talk.asks("why ivy")
    talk.say("hoya 12 longtailed mealybugs")
    assert talk.say("why small hoya")[0].startswith(
        "small hoya is on watch because it shared a place with hoya"
    )
    talk.say("quarantine the orchid")
    assert "extension services advise three to six weeks" in talk.say("why orchid")[0]
