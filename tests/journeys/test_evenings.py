"""What the bot says in the evening, and what answers it; `outbreak` was told at 10:00 on Saturday 2 May."""

import re
from datetime import date, datetime, time, timedelta

import pytest

from bot.domain.identity import HouseholdId, ProductId
from bot.domain.journal import (
    CheckedClean,
    Found,
    Heard,
    HeldUntil,
    Nudged,
    Postponed,
    RoutineSet,
    Treated,
    Voided,
)
from bot.domain.trade import Grade, Level, Method
from bot.domain.window import Facing
from tests.journeys.talking import OWNER, PARTNER, ZONE, Talk

SATURDAY, SUNDAY, MONDAY = date(2026, 5, 2), date(2026, 5, 3), date(2026, 5, 4)
SOAP, ALCOHOL = ProductId(1), ProductId(2)
TONIGHT = (
    "Tonight, Sat 2 May, about 23 min:\nWipe hoya, then soap.\n"
    "Swab moth orchid and coffee plant with alcohol.\n"
    "First soap: one leaf, and the rest after 1 to 2 days."
)
WIPED_HOYA = ("hoya", Treated(method=Method.WIPE))
SPRAYED_HOYA = ("hoya", Treated(method=Method.SPRAY, product=SOAP))
SWABBED_ORCHID = ("moth orchid", Treated(method=Method.SWAB, product=ALCOHOL))
SWABBED_COFFEE = ("coffee plant", Treated(method=Method.SWAB, product=ALCOHOL))
ALL_DONE = [WIPED_HOYA, SPRAYED_HOYA, SWABBED_ORCHID, SWABBED_COFFEE]


def clock(day: date, hour: int, minute: int = 0) -> datetime:
    return datetime(day.year, day.month, day.day, hour, minute, tzinfo=ZONE)


def heard(talk: Talk) -> int:
    return sum(isinstance(one.payload, Heard) for one in talk.entries())


def test_the_evening_comes_at_eight_with_all_that_is_due(outbreak: Talk) -> None:
    assert outbreak.evening() == [TONIGHT]
    assert outbreak.now == clock(SATURDAY, 20)
    assert outbreak.labels() == ["All done", "Not tonight", "How", "Why"]


def test_a_find_of_yesterday_told_after_the_message_brings_no_first_use_into_it(talk: Talk) -> None:
    talk.say("check every week")
    assert "Look at all 5 plants." in talk.evening()[0]
    answer = talk.say("found 6 brown soft scale on the small hoya yesterday")[0]
    assert answer.startswith("Written for Fri 8 May: 6 brown soft scale on small hoya.")
    assert "Wipe small hoya, then soap." in talk.evening()[0]


def test_unanswered_it_is_repeated_once_after_an_hour_and_then_rests_until_the_next_evening(
    outbreak: Talk,
) -> None:
    outbreak.evening()
    assert outbreak.evening()[0].startswith(
        "Once more for tonight, Sat 2 May, about 23 min:\nWipe hoya, then soap"
    )
    assert outbreak.now == clock(SATURDAY, 21)
    assert outbreak.evening()[0].startswith("Tonight, Sun 3 May, about 23 min:\nWipe hoya, then soap")
    assert outbreak.now == clock(SUNDAY, 20)
    outbreak.evening()
    assert outbreak.now == clock(SUNDAY + timedelta(days=1), 20), "nobody is there: said once an evening"


def test_thanks_is_no_answer(outbreak: Talk) -> None:
    outbreak.evening()
    outbreak.passes(minutes=10)
    assert outbreak.say("thanks") == ["You are welcome."]
    assert heard(outbreak) == 0
    assert outbreak.evening()[0].startswith("Once more for tonight")


def test_any_other_answer_spares_the_repeat_but_only_a_word_about_the_work_takes_the_buttons_off(
    outbreak: Talk,
) -> None:
    for number, text in enumerate(("banana", "isolated?", "why")):
        outbreak.evening()
        outbreak.passes(minutes=10)
        outbreak.say(text)
        assert heard(outbreak) == number + 1
        assert outbreak.heard[-1].edits == []
        assert outbreak.next_at() == clock(SATURDAY + timedelta(days=number + 1), 20)
    outbreak.say("done")
    assert [(chat, answer) for chat, _, answer in outbreak.heard[-1].edits] == [(OWNER, None)]
    outbreak.say("hoya 3")
    assert outbreak.heard[-1].edits == []


def test_what_was_told_on_an_earlier_evening_is_taken_back_only_when_asked(outbreak: Talk) -> None:
    outbreak.say("landing is 19 degrees")
    outbreak.passes(days=2)
    before = outbreak.entries()
    (text,) = outbreak.say("undo")
    assert "earlier day" in text
    assert outbreak.entries() == before
    assert outbreak.labels() == ["Take it back", "Keep"]
    assert outbreak.press("Take it back")[0].startswith("Taken back: Sat 2 May")


def test_an_amount_far_from_the_usual_is_asked_about_before_it_teaches(outbreak: Talk) -> None:
    outbreak.say("sprayed hoya with soap")
    before = outbreak.entries()
    (text,) = outbreak.say("used 2 litres")
    assert "far from the 60 mL" in text
    assert outbreak.entries() == before
    assert outbreak.press("Write it")[0].startswith("Written for Sat 2 May: 2 L")


def test_the_same_instant_never_sends_twice(outbreak: Talk) -> None:
    at = clock(SATURDAY, 20)
    assert outbreak.tick(at) == [TONIGHT]
    assert outbreak.tick(at) == []
    repeat = clock(SATURDAY, 21)
    assert len(outbreak.tick(repeat)) == 1
    assert outbreak.tick(repeat) == []
    assert [one.key for one in outbreak.nudges] == ["nudge:1:2026-05-02:1:1", "nudge:1:2026-05-02:2:1"]
    assert [one.payload.count for one in outbreak.entries() if isinstance(one.payload, Nudged)] == [1, 2]


def test_a_week_asleep_owes_one(outbreak: Talk) -> None:
    at = clock(date(2026, 5, 9), 20, 30)
    (text,) = outbreak.tick(at)
    assert text.startswith("Tonight, Sat 9 May, about 39 min:\nWipe hoya, then soap")  # Sunday's looks join
    assert outbreak.tick(at) == []


def test_nothing_is_sent_in_quiet_hours_nor_hours_late(outbreak: Talk) -> None:
    for at in (clock(SATURDAY, 22), clock(SATURDAY, 23, 30), clock(SUNDAY, 3), clock(SUNDAY, 7, 59)):
        assert outbreak.tick(at) == []
    assert outbreak.next_at() == clock(SUNDAY, 20)


def test_twelve_silent_weeks_stay_out_of_quiet_hours_with_two_messages_an_evening_at_most(
    outbreak: Talk,
) -> None:
    sent = []
    while outbreak.now < clock(date(2026, 5, 20), 0) and outbreak.evening():
        sent.append(outbreak.now)
    assert all(8 <= at.hour < 22 for at in sent)
    assert max(sum(at.date() == day for at in sent) for day in {at.date() for at in sent}) == 2


def test_done_answers_the_nudge_and_says_when_each_is_next(outbreak: Talk) -> None:
    before = len(outbreak.told())
    outbreak.evening()
    # by hand, longtailed mealybug: at 21 degC 672/13 = 51.7 days without a find, one spray in 7 days: seven more;
    # where nobody told how warm it is, at 18 degC 67.2 days, one swab in 5 days: thirteen more
    assert outbreak.say("done") == [
        (
            "Written: hoya wiped, then sprayed (soap); "
            "moth orchid and coffee plant swabbed (alcohol).\n"
            "Next Sun 10 May: hoya, moth orchid and coffee plant."
        )
    ]
    assert outbreak.told()[before:] == ALL_DONE


def test_the_button_does_what_the_word_does_and_is_safe_to_press_twice(outbreak: Talk) -> None:
    before = len(outbreak.told())
    outbreak.evening()
    outbreak.press("All done")
    assert outbreak.told()[before:] == ALL_DONE
    assert "One treatment, not two" in outbreak.press("All done")[0]
    assert outbreak.told()[before:] == ALL_DONE


def test_done_twice_is_one_round(outbreak: Talk) -> None:
    before = len(outbreak.told())
    outbreak.evening()
    outbreak.say("done")
    assert "Stood there already" in (outbreak.say("done")[0])
    assert outbreak.told()[before:] == ALL_DONE


def test_two_members_both_say_done_and_it_is_one_round(outbreak: Talk) -> None:
    before = len(outbreak.told())
    outbreak.joins()
    assert outbreak.evening() == [TONIGHT, TONIGHT]
    assert {one.chat for one in outbreak.nudges} == {OWNER, PARTNER}
    outbreak.press("All done")
    assert len(outbreak.heard[-1].edits) == 2
    assert "Stood there already" in outbreak.press("All done", person=PARTNER)[0]
    assert outbreak.told()[before:] == [*ALL_DONE, *ALL_DONE], "each has a word of their own"
    assert sorted(len(plant.treatments) for plant in outbreak.home.living) == [0, 0, 1, 1, 2]


def test_the_other_members_later_does_not_block_done(outbreak: Talk) -> None:
    outbreak.joins()
    outbreak.evening()
    outbreak.say("not tonight", person=PARTNER)
    before = len(outbreak.told())
    outbreak.say("done")
    assert outbreak.told()[before:] == ALL_DONE


def test_done_except_leaves_that_one_open(outbreak: Talk) -> None:
    outbreak.evening()
    before = len(outbreak.told())
    (answer,) = outbreak.say("done except coffee")
    assert "Still open tonight: swab coffee plant with alcohol." in answer
    assert outbreak.told()[before:] == [WIPED_HOYA, SPRAYED_HOYA, SWABBED_ORCHID]
    assert outbreak.evening()[0].startswith(
        "Tonight, Sun 3 May, about 6 min:\nSwab coffee plant with alcohol."
    )


def test_not_tonight_puts_all_of_it_off_by_a_day(outbreak: Talk) -> None:
    outbreak.evening()
    before = len(outbreak.told())
    assert outbreak.say("not tonight") == [
        "Put off: hoya, moth orchid and coffee plant, tomorrow, Sun 3 May."
    ]
    assert [one for _, one in outbreak.told()[before:]] == [Postponed(on=SUNDAY)] * 3
    assert outbreak.evening()[0].startswith("Tonight, Sun 3 May, about 23 min:\nWipe hoya, then soap")


def test_the_not_tonight_button_does_the_same(outbreak: Talk) -> None:
    outbreak.evening()
    assert outbreak.press("Not tonight") == [
        "Put off: hoya, moth orchid and coffee plant, tomorrow, Sun 3 May."
    ]


def test_in_an_hour_brings_it_back_in_an_hour(outbreak: Talk) -> None:
    outbreak.evening()
    outbreak.passes(minutes=5)
    assert outbreak.say("in an hour") == ["Put off: hoya, moth orchid and coffee plant, at 21:05 tonight."]
    outbreak.evening()
    assert outbreak.now == clock(SATURDAY, 21, 5)


def test_where_the_hour_asked_for_finds_all_done_nothing_is_sent(outbreak: Talk) -> None:
    outbreak.evening()
    outbreak.say("in an hour")
    outbreak.passes(minutes=10)
    outbreak.say("done")
    assert outbreak.tick(clock(SATURDAY, 21)) == []
    outbreak.evening()
    assert outbreak.now.date() == date(2026, 5, 10)  # swabs may wait for the hoya's round


def test_a_round_is_told_days_later_and_the_next_follows_from_its_day(outbreak: Talk) -> None:
    outbreak.evening()
    outbreak.at(date(2026, 5, 5), 9)
    before = len(outbreak.told())
    (answer,) = outbreak.say("did the hoya on sunday")
    assert answer.startswith("Written for Sun 3 May: hoya wiped, then sprayed (soap).")
    assert "next Sun 10 May" in answer
    assert outbreak.told()[before:] == [WIPED_HOYA, SPRAYED_HOYA]
    assert outbreak.entries()[-1].happened_on == SUNDAY


def test_an_hour_before_is_taken_from_the_clock(outbreak: Talk) -> None:
    outbreak.evening()
    outbreak.say("did them all an hour ago")
    assert {one.happened_at for one in outbreak.entries()[-4:]} == {clock(SATURDAY, 19)}


def test_after_midnight_done_counts_for_the_evening_before(outbreak: Talk) -> None:
    outbreak.evening()
    outbreak.say("done", at=clock(SUNDAY, 1, 30))
    assert outbreak.entries()[-1].happened_on == SATURDAY


def test_undo_takes_back_a_whole_evening_and_then_the_find_before_it(outbreak: Talk) -> None:
    outbreak.evening()
    outbreak.say("done")
    assert outbreak.say("undo") == [
        "Taken back: today: hoya wiped; today: hoya sprayed; today: moth orchid and coffee plant swabbed."
    ]
    assert outbreak.say("oops") == ["Taken back: today: coffee plant longtailed mealybug."]
    assert [one.name for one in outbreak.home.living if one.open_cases] == ["hoya", "moth orchid"]
    assert sum(isinstance(one.payload, Voided) for one in outbreak.entries()) == 5


def test_undo_takes_back_only_ones_own_words(outbreak: Talk) -> None:
    outbreak.joins()
    outbreak.say("hoya 3", person=PARTNER)
    assert outbreak.say("undo", person=PARTNER) == ["Taken back: today: hoya longtailed mealybug."]
    assert outbreak.say("undo", person=PARTNER) == ["There is nothing of yours left to take back."]


def test_a_late_round_moves_what_follows(outbreak: Talk) -> None:
    outbreak.evening()
    outbreak.say("done")
    outbreak.at(date(2026, 5, 12), 20, 30)  # a day past the window's end, 11 May
    answer = outbreak.asks("did the hoya")
    assert "hoya: a little later than planned; little harm." in answer
    assert "next Tue 19 May" in answer


def test_a_missed_round_says_what_it_costs(outbreak: Talk) -> None:
    outbreak.evening()
    outbreak.say("done")
    outbreak.at(date(2026, 5, 30), 20, 30)
    (nudge,) = outbreak.tick()
    assert "Wipe hoya" in nudge
    assert outbreak.press("More")[0].endswith(
        "Late: hoya, moth orchid and coffee plant; tonight still helps, about one treatment more."
    )
    assert outbreak.say("not tonight")[0].splitlines()[1] == (
        "Past the best days by then: hoya, moth orchid and coffee plant; about one treatment more each."
    )
    answer = outbreak.asks("did the hoya")
    assert "hoya: later than Mon 11 May, so young ones may have grown up: one treatment more." in answer


def test_putting_off_past_the_window_names_who_runs_late(outbreak: Talk) -> None:
    outbreak.evening()
    outbreak.say("done")
    outbreak.at(date(2026, 5, 10), 20, 30)
    outbreak.tick()
    assert (
        "A little late by then: moth orchid and coffee plant; little harm if it stays at that."
        in (outbreak.say("not tonight")[0])
    )


def test_too_soon_for_the_label_is_said_and_written(outbreak: Talk) -> None:
    outbreak.evening()
    outbreak.say("done")
    outbreak.at(date(2026, 5, 5), 20)
    before = len(outbreak.told())
    (answer,) = outbreak.say("sprayed the hoya with soap")
    assert (
        "hoya: only 3 days after the last soap, the label says 7. The label is the law where you live, so wait "
        "longer next time."
    ) in answer
    assert outbreak.told()[before:] == [SPRAYED_HOYA]


def test_handwork_of_another_kind_is_written_as_told(outbreak: Talk) -> None:
    outbreak.evening()
    before = len(outbreak.told())
    outbreak.say("rinsed the hoya")
    outbreak.say("swabbed the hoya")
    assert outbreak.told()[before:] == [
        ("hoya", Treated(method=Method.RINSE)),
        ("hoya", Treated(method=Method.SWAB, product=ALCOHOL)),
    ]


def test_done_when_nothing_is_due_writes_nothing(outbreak: Talk) -> None:
    outbreak.evening()
    outbreak.say("done")
    outbreak.at(date(2026, 5, 5), 12)
    before = len(outbreak.entries())
    (answer,) = outbreak.say("done")
    assert "so I wrote nothing" in answer
    assert outbreak.new_since(before) == []


def test_done_asks_what_was_seen_and_all_clean_answers(outbreak: Talk) -> None:
    outbreak.evening()
    outbreak.say("done")
    outbreak.at(date(2026, 5, 10), 20)
    (nudge,) = outbreak.tick()
    assert "Look at hoya, small hoya, moth orchid and coffee plant with a lens." in nudge
    assert outbreak.labels() == [
        "All done, none seen, with a lens",
        "All done",
        "None seen, with a lens",
        "Not tonight",
        "One by one",
        "Why",
        "More",
    ]
    assert outbreak.press("More")[0].startswith(
        "Then “all clean, with a lens”, or “hoya 3, small hoya clean”."
    )
    assert "What did you see on hoya, small hoya, moth orchid and coffee plant?" in outbreak.say("done")[0]
    before = len(outbreak.told())
    outbreak.say("hoya 3 in the axils")
    assert outbreak.told()[before:] == [
        ("hoya", Found(pest="longtailed_mealybug", grade=Grade.FEW, count=3, where="axils"))
    ]
    outbreak.press("None seen, with a lens")
    checked = [name for name, one in outbreak.told()[before:] if one == CheckedClean(Level.LENS)]
    assert checked == ["hoya", "small hoya", "moth orchid", "coffee plant"]


@pytest.mark.parametrize(
    ("button", "level", "is_treated"),
    [
        ("All done, none seen, with a lens", Level.LENS, True),
        ("All done, none seen", Level.PLAIN, True),
        ("None seen, with a lens", Level.LENS, False),
        ("None seen", Level.PLAIN, False),
    ],
)
def test_a_button_writes_just_what_it_says(
    outbreak: Talk,
    button: str,
    level: Level,
    is_treated: bool,  # noqa: FBT001
) -> None:
    outbreak.evening()
    outbreak.say("done")
    outbreak.say("orchid clean")  # who has told plain looks is offered them
    outbreak.at(date(2026, 5, 10), 20)
    outbreak.tick()
    before = len(outbreak.told())
    outbreak.press(button)
    told = outbreak.told()[before:]
    looked = {name for name, one in told if one == CheckedClean(level)}
    assert looked == {"hoya", "small hoya", "moth orchid", "coffee plant"}
    assert any(isinstance(one, Treated) for _, one in told) is is_treated
    assert not any(isinstance(one, CheckedClean) and one.level is not level for _, one in told)


def test_a_habit_brings_the_walk_on_its_day(talk: Talk) -> None:
    assert talk.say("check on sundays") == [
        "Written: a look over all plants every Sunday. Next time: tomorrow, Sun 3 May."
    ]
    assert RoutineSet(name="check", rule="FREQ=WEEKLY;BYDAY=SU") in [one for _, one in talk.told()]


def test_away_rests_until_the_day_and_stop_until_told(outbreak: Talk) -> None:
    assert outbreak.say("away until 20 may")[0].startswith("I stay quiet until Wed 20 May.")
    outbreak.evening()
    assert outbreak.now == clock(date(2026, 5, 20), 20)
    assert outbreak.say("stop")[0].startswith("I stay quiet until you write “back”.")
    assert outbreak.evening() == []
    assert [one for _, one in outbreak.told() if isinstance(one, HeldUntil)] == [
        HeldUntil(date(2026, 5, 20)),
        HeldUntil(None),
    ]


def test_without_a_town_nothing_is_ever_sent(stranger_talk: Talk) -> None:
    stranger_talk.say("/start")
    assert stranger_talk.next_at() is None
    assert stranger_talk.evening() == []


def test_a_household_everybody_left_is_never_looked_at_again(outbreak: Talk) -> None:
    with outbreak.database.unit() as store:
        store.leave_household(OWNER, HouseholdId(1), outbreak.now)
    assert outbreak.tick(clock(SATURDAY, 20)) == []
    assert outbreak.next_at() is None


@pytest.mark.parametrize("town", ["Auckland", "Honolulu", "Anchorage", "Tokyo", "Lima", "Apia"])
@pytest.mark.parametrize("hours", [0, 2, 9, 14])
def test_a_household_that_moves_zone_has_one_evening_a_day_by_its_new_clock(
    outbreak: Talk, town: str, hours: int
) -> None:
    outbreak.evening()
    outbreak.passes(hours=hours)
    outbreak.say(f"I live in {town}")
    if "Which one?" in outbreak.shown[1][-1].text:
        outbreak.press(outbreak.labels()[0])
    zone = outbreak.home.zone
    assert zone.key != "Europe/Brussels"
    moved_at, evenings = outbreak.now, []
    for _ in range(12):
        if not outbreak.evening():
            break
        local = outbreak.now.astimezone(zone)
        assert time(8) <= local.time() < time(22), f"in the quiet hours: {local}"
        said = outbreak.nudges[-1].answer.text
        if said.startswith("Tonight, "):
            evenings.append(local.date())
        outbreak.passes(minutes=1)
    assert evenings, "the evenings go on"
    assert len(evenings) == len(set(evenings)), "no evening is told of twice"
    assert outbreak.now > moved_at


def test_an_old_button_takes_back_only_what_it_showed(outbreak: Talk) -> None:
    outbreak.say("landing is 19 degrees")
    outbreak.passes(days=2)
    outbreak.say("undo")
    outbreak.say("hoya clean")
    before = outbreak.entries()
    (text,) = outbreak.press("Take it back")
    assert text.startswith("You told more since, so nothing is taken back.")
    assert outbreak.entries() == before


def test_what_was_told_wrong_about_another_product_is_no_rule_for_an_earlier_day(outbreak: Talk) -> None:
    # a use written for today says nothing against one of the day before
    outbreak.say("sprayed hoya with soap")
    (text,) = outbreak.say("sprayed hoya with soap yesterday")
    assert "must not follow another product" not in text


def test_how_far_several_plants_are_is_one_line(outbreak: Talk) -> None:
    outbreak.evening()
    outbreak.say("done")
    text = "\n".join(outbreak.evening())
    while "More" in outbreak.labels():
        text += "\n".join(outbreak.press("More"))
    assert re.search(r"^Treatment 2, up to about \d+ more\.$", text, re.MULTILINE), text


def test_an_evening_shows_eight_buttons_and_the_rest_behind_more(outbreak: Talk) -> None:
    outbreak.evening()
    outbreak.say("done")
    outbreak.say("orchid clean")
    outbreak.at(date(2026, 5, 9), 9)
    outbreak.say("i saw something on the coffee plant")
    outbreak.at(date(2026, 5, 10), 20)
    outbreak.tick()
    shown = outbreak.labels()
    assert len(shown) == 8
    assert shown[-1] == "More"
    assert shown[:2] == ["All done, none seen, with a lens", "All done, none seen"]
    hidden = outbreak.press("More")
    assert hidden[0]
    assert {"Not tonight", "One by one", "Why"} <= {*shown, *outbreak.labels()}
    before = len(outbreak.told())
    outbreak.press("Not tonight")
    assert any(isinstance(one, Postponed) for _, one in outbreak.told()[before:])


@pytest.mark.parametrize(
    "words",
    ["the orchid I will do on friday", "will do the orchid friday", "we'll do the orchid on friday"],
)
def test_a_promise_puts_off_its_own_plant(outbreak: Talk, words: str) -> None:
    outbreak.evening()
    outbreak.say(words)
    put_off = {plant: told for plant, told in outbreak.told() if isinstance(told, Postponed)}
    assert {plant: told.on for plant, told in put_off.items()} == {"moth orchid": date(2026, 5, 8)}


@pytest.mark.parametrize(
    "words", ["not tonight, sauna", "not today, migraine", "not tonight, terrible headache"]
)
def test_an_excuse_is_no_more_than_that(outbreak: Talk, words: str) -> None:
    outbreak.evening()
    outbreak.say(words)
    assert len([told for _, told in outbreak.told() if isinstance(told, Postponed)]) == 3


@pytest.mark.parametrize(
    "words",
    [
        "moved the ivy to the bathroom. No window there.",
        "put the ivy into the bathroom, it has no window",
        "and moved it to the bathroom, no window there",
    ],
)
def test_a_move_into_a_new_room_keeps_what_is_told_of_the_room(talk: Talk, words: str) -> None:
    talk.say("ivy 3 longtailed mealybugs")
    talk.say(words)
    if "Yes" in talk.labels():
        talk.press("Yes")
    ivy = next(one for one in talk.home.living if one.name == "ivy")
    assert ivy.place is not None
    place = talk.home.places[ivy.place]
    assert (place.name, place.facing) == ("bathroom", Facing.NONE)


def test_what_the_label_says_of_eating_is_asked_every_third_evening(talk: Talk) -> None:
    talk.say("basil, kitchen")
    talk.say("basil is edible")
    talk.say("basil 12 green peach aphids")
    asked = []
    for _ in range(6):
        asked.append(any("eaten" in one or "eating" in one for one in talk.evening()))
        talk.passes(days=1)
    assert 1 <= sum(asked) <= 2


@pytest.mark.parametrize("words", ["coffee plant later tomorrow", "put the coffee plant off until tomorrow"])
@pytest.mark.parametrize(
    ("shelf", "find"),
    [
        ("canola oil, every 10 days", "coffee 14 spider mites"),
        ("pyrethrins, every 14 days", "coffee 9 citrus mealybugs"),
        ("neem, every 7 days", "coffee 11 thrips"),
    ],
)
def test_what_is_put_off_is_said_listed_and_asked_for_on_one_day(
    talk: Talk, shelf: str, find: str, words: str
) -> None:
    """Of all that is due in four weeks every third evening's is put off; the rest is done."""
    talk.say(shelf)
    talk.say(find)
    said_for = None
    put_off = 0
    for evening in range(28):
        talk.evening()
        nudge = next(one.payload for one in reversed(talk.entries()) if isinstance(one.payload, Nudged))
        is_due = any(task.method is not None for task in nudge.tasks)
        if is_due and said_for is not None:
            assert f"{talk.now:%a} {talk.now.day} {talk.now:%b}" == said_for
            said_for = None
        if is_due and evening % 3 == 2:
            told = re.match(r"Put off: coffee plant, (?:tomorrow, )?(.*)\.", talk.say(words)[0])
            assert told is not None
            said_for = told[1]
            put_off += 1
            assert said_for in talk.say("what's due for the coffee plant?")[0].partition(":")[0]
        elif is_due:
            talk.say("coffee done")
        talk.passes(days=1)
    assert put_off
