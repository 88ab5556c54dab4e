"""Silence and absence are one member's: the others are told and go on; the home is quiet only if nobody is left."""

from datetime import date

import pytest

from bot.actions.hold import Hold
from bot.domain.journal import HeldUntil
from tests.journeys.talking import OWNER, PARTNER, Talk


@pytest.fixture
def shared(talk: Talk) -> Talk:
    talk.joins()
    talk.say("hoya 12 longtailed mealybugs")
    return talk


@pytest.mark.parametrize("words", ["/stop", "away until 20 may", "i am away until 20 may"])
def test_ones_silence_leaves_the_other_the_evenings(shared: Talk, words: str) -> None:
    assert "Ada still does" in shared.say(words, person=PARTNER)[0]
    assert shared.shown[OWNER][-1].text.startswith("Bo gets no evenings")
    shared.evening()
    assert {one.chat for one in shared.nudges} == {OWNER}


def test_who_comes_back_gets_the_evenings_again_and_the_other_reads_it(shared: Talk) -> None:
    shared.say("away until 20 may", person=PARTNER)
    shared.say("back", person=PARTNER)
    assert shared.shown[OWNER][-1].text == "Bo is back and gets the evenings again."
    shared.evening()
    assert {one.chat for one in shared.nudges} == {OWNER, PARTNER}


def test_the_home_is_quiet_once_nobody_is_left_and_until_the_first_comes_back(shared: Talk) -> None:
    shared.say("away until 20 may", person=PARTNER)
    shared.say("away until 12 may")
    assert shared.evening()
    assert shared.now.date() == date(2026, 5, 12)
    assert {one.chat for one in shared.nudges} == {OWNER}


def test_one_alone_rests_with_the_home(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    assert talk.say("away until 9 may")[0].startswith("I stay quiet until Sat 9 May")
    talk.evening()
    assert talk.now.date() == date(2026, 5, 9)


def test_a_trip_told_ahead_begins_when_it_begins(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    answer = talk.tell(Hold(until=date(2026, 5, 12), since=date(2026, 5, 4)))[0]
    assert answer.startswith("I stay quiet from Mon 4 May until Tue 12 May")
    talk.evening()
    assert talk.now.date() == date(2026, 5, 2), "before it the evenings come"
    talk.say("done")
    while (told := talk.evening()) and talk.now.date() < date(2026, 5, 4):
        talk.say("done")
    assert told
    assert talk.now.date() >= date(2026, 5, 12)


@pytest.mark.parametrize("words", ["back", "i'm back", "we are home again"])
def test_undo_after_back_leaves_the_evenings_on_and_takes_nothing_older_back_unasked(
    talk: Talk, words: str
) -> None:
    talk.say("ivy clean")
    talk.say("away until 9 may")
    talk.say(words)
    before = talk.told()
    answer = talk.say("undo")[0]
    assert "that stays" in answer
    assert talk.told() == before
    assert not talk.home.is_held(talk.now.date())
    talk.press("Keep")
    assert talk.told() == before
    talk.press("Take it back")
    assert not talk.home.is_held(talk.now.date())


@pytest.mark.parametrize("words", ["evening at 19:00", "nudge me at 19:00", "evening at 7 pm"])
def test_the_evening_is_the_homes_and_its_change_is_told_to_all(shared: Talk, words: str) -> None:
    shared.say(words, person=PARTNER)
    assert shared.shown[OWNER][-1].text == "Bo moved the evening to 19:00, for all of you."
    assert shared.shown[OWNER][-1].is_silent
    told = len(shared.shown[OWNER])
    shared.say(words, person=PARTNER)
    assert len(shared.shown[OWNER]) == told, "nothing moved"


def test_the_plan_is_laid_around_a_trip_told_ahead(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.say("done")
    leaves, back = date(2026, 5, 9), date(2026, 5, 20)  # the label lets the soap be used again from 9 May on
    answer = talk.tell(Hold(until=back, since=leaves))[0]
    assert answer.startswith("I stay quiet from Sat 9 May until Wed 20 May")
    assert "hoya" in answer, "what slips is said"
    treated = []
    while talk.now.date() < back and talk.evening():
        treated.append(talk.now.date())
    assert all(not leaves <= on < back for on in treated)


def test_what_can_be_done_before_a_trip_is_named(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    answer = talk.tell(Hold(until=date(2026, 5, 12), since=date(2026, 5, 4)))[0]
    assert "Before you leave, Sat 2 May: hoya." in answer


NOTE = "Note for whoever waters"


@pytest.mark.parametrize(
    "words",
    ["away from 8 may to 26 may", "away 8 may until 26 may", "we are on holiday from 8 may till 26 may"],
)
def test_a_trip_offers_a_note_for_whoever_waters(talk: Talk, words: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.say("done")
    assert talk.say(words)[0].startswith("I stay quiet from Fri 8 May until Tue 26 May")
    before = len(talk.told())
    note = talk.press(NOTE)[0].splitlines()
    assert note[0] == "While I am away, Fri 8 May to Tue 26 May:"
    assert note[1] == "Apart because of pests: hoya."
    assert "Sun 10 May: wipe hoya, then soap." in note, "the evening that falls into the trip"
    assert any(line.startswith("Longtailed mealybugs sit here: ") for line in note)
    assert any(line.startswith("Sprays only if I have shown you how") for line in note)
    assert len(talk.told()) == before, "a note writes nothing"


@pytest.mark.parametrize("words", ["away until 3 may", "/stop"])
def test_where_nobody_has_to_water_no_note_is_offered(talk: Talk, words: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.say(words)
    assert NOTE not in talk.labels()


def test_a_home_without_a_case_needs_no_note(talk: Talk) -> None:
    talk.say("away until 20 may")
    assert NOTE not in talk.labels()


@pytest.mark.parametrize(
    "words", ["quiet 19-7", "quiet from 19:00 to 7:00", "no messages between 19:00 and 7:00"]
)
def test_quiet_hours_are_ones_own(shared: Talk, words: str) -> None:
    answer = shared.say(words, person=PARTNER)[0]
    assert answer.endswith("your quiet hours from 19:00 to 07:00. The evening comes to you without a sound.")
    assert "Quiet: 19:00 to 07:00" in shared.say("settings", person=PARTNER)[0]
    assert "Quiet: 22:00 to 08:00" in shared.say("settings")[0]
    shared.evening()
    assert {one.chat: one.answer.is_silent for one in shared.nudges} == {OWNER: False, PARTNER: True}
    before = len(shared.nudges)
    shared.evening()
    assert [one.chat for one in shared.nudges[before:]] == [OWNER], "what is said again does not come"


def test_an_evening_that_is_quiet_for_all_is_refused_and_one_that_is_not_comes(shared: Talk) -> None:
    shared.say("quiet 23-7", person=PARTNER)
    assert "Nothing is written" in shared.say("nudge me at 23:30")[0]
    assert shared.say("nudge me at 22:30")[0].startswith("Written: evening at 22:30")
    shared.evening()
    assert shared.now.hour == 22
    assert {one.chat: one.answer.is_silent for one in shared.nudges} == {OWNER: True, PARTNER: False}


def test_who_has_the_home_alone_sets_its_hours(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    assert talk.say("quiet 23-7")[0].endswith("quiet from 23:00 to 07:00.")
    assert "your" not in talk.say("quiet 23-7")[0]
    assert (talk.home.quiet_from.hour, talk.home.quiet) == (23, {})
    assert "Nothing is written" in talk.say("quiet 19-7")[0], "the evening would lie in them"


def held(talk: Talk) -> list[tuple[date, date | None]]:
    return [
        (one.happened_on, one.payload.until) for one in talk.entries() if isinstance(one.payload, HeldUntil)
    ]


@pytest.mark.parametrize(
    ("words", "since", "until"),
    [
        ("I'll be away next week", date(2026, 5, 4), date(2026, 5, 11)),
        ("we are on holiday next week", date(2026, 5, 4), date(2026, 5, 11)),
        ("I'm away from tuesday to next tuesday", date(2026, 5, 5), date(2026, 5, 12)),
        ("away from friday to monday", date(2026, 5, 8), date(2026, 5, 11)),
        ("away from wednesday for 10 days", date(2026, 5, 6), date(2026, 5, 16)),
        ("im gone from monday to thursday", date(2026, 5, 4), date(2026, 5, 7)),
    ],
)
def test_a_trip_has_both_its_ends(talk: Talk, words: str, since: date, until: date) -> None:
    talk.say(words)
    if "Yes" in talk.labels():
        talk.press("Yes")
    assert held(talk) == [(since, until)]


def test_a_home_of_the_us_tells_the_month_first(talk: Talk) -> None:
    talk.say("us units")
    talk.say("away from 5/9 to 5/12")
    assert held(talk) == [(date(2026, 5, 9), date(2026, 5, 12))]
