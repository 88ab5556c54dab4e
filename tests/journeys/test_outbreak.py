"""From the first find to release and beyond; `outbreak` and `talk` stand at 10:00 on Saturday 2 May."""

import re
from datetime import date, datetime, timedelta

import pytest

from bot.domain.identity import PlaceId, PlantId
from bot.domain.journal import (
    CheckedClean,
    Found,
    IsolatedNow,
    LostNow,
    PestCorrected,
    PlantSet,
    ReleasedNow,
    SignSeen,
    TemperatureRead,
    Treated,
    Voided,
)
from bot.domain.trade import Grade, Level, Method, Sign
from tests.journeys.talking import ZONE, Talk

LENS = "checked everything with a lens, all clean"


def live_until_released(talk: Talk, name: str) -> str:
    """Do what is asked and see nothing, evening by evening, until the bot lets the plant go."""
    end = talk.now + timedelta(days=120)
    while talk.now < end:
        (nudge,) = talk.evening()
        talk.passes(minutes=10)
        heard = nudge
        if any(
            line.startswith(("Spray", "Swab", "Rinse", "Wipe", "Prune", "Clean-out"))
            for line in nudge.splitlines()
        ):
            heard += talk.say("done")[0]
        if "Look at " in nudge:
            heard += talk.say(LENS)[0]
        if f"All-clear for {name}" in heard:
            return heard
    raise AssertionError(f"{name} was never released")


@pytest.fixture
def mites(talk: Talk) -> Talk:
    """Spider mites on the ivy, in a warm study that the sun never reaches."""
    talk.set_up(
        ("study has no window", "study is 24 degrees", "usual", "ivy 4 spider mites", "isolate the ivy")
    )
    return talk


def test_a_find_opens_a_case_plans_it_and_watches_the_neighbours(talk: Talk) -> None:
    before = len(talk.told())
    (answer,) = talk.say("hoya 12 longtailed mealybugs in the axils")
    lines = answer.splitlines()
    assert lines == [
        "Written: 12 longtailed mealybugs on hoya, in the axils.",
        "1 Move it away from the others now.",
        "2 Tonight: wipe, then soap.",
        "3 Look at small hoya too.",
        "To get: a lens and goggles.",
    ]
    assert talk.told()[before:] == [
        ("hoya", Found(pest="longtailed_mealybug", grade=Grade.SOME, count=12, where="axils"))
    ]


def test_a_word_for_several_pests_opens_a_case_at_once_and_one_told_by_its_name_says_which(
    talk: Talk,
) -> None:
    before = len(talk.told())
    (answer,) = talk.say("hoya 12 mealybugs in the axils")
    assert answer.startswith("Written: 12 mealybugs on hoya, in the axils.")
    assert "longtailed mealybug" in talk.labels()
    assert talk.told()[-1] == ("hoya", Found(pest="mealybug", grade=Grade.SOME, count=12, where="axils"))
    assert talk.say("hoya 2 longtailed mealybugs")[0].startswith("Written: 2 longtailed mealybugs on hoya.")
    assert [case.pest for case in talk.home.plants[PlantId(1)].open_cases] == ["longtailed_mealybug"]
    assert talk.say("orchid 4 mealies")[0].startswith("Written: 4 longtailed mealybugs on moth orchid.")
    talk.say("hoya 3 mealybugs")
    assert [one.pest for _, one in talk.told()[before:] if isinstance(one, Found)] == [
        "mealybug",
        *["longtailed_mealybug"] * 3,
    ]


def test_a_find_without_a_pest_asks_among_all(talk: Talk) -> None:
    assert talk.say("hoya 5") == ["Which pest is it on hoya? Not written yet."]
    assert len(talk.labels()) == 15  # fourteen pests, and the key
    talk.press("western flower thrips")
    assert talk.told()[-1] == ("hoya", Found(pest="western_flower_thrips", grade=Grade.FEW, count=5))


def test_an_open_case_settles_what_a_bare_number_means(outbreak: Talk) -> None:
    outbreak.say("hoya 3")
    assert outbreak.told()[-1] == ("hoya", Found(pest="longtailed_mealybug", grade=Grade.FEW, count=3))


def test_many_asks_for_a_clean_out_and_says_what_discarding_is_worth(talk: Talk) -> None:
    (answer,) = talk.say("lots of longtailed mealybugs on the hoya")
    assert "2 Tonight: clean-out." in answer
    assert "extension services would bin a plant that is cheap to replace." in talk.press("More")[0]
    talk.evening()
    talk.say("done")
    assert not any(isinstance(payload, Treated) for _, payload in talk.told()), "a clean-out has to be named"
    talk.press("Full clean-out done")
    assert talk.told()[-1] == ("hoya", Treated(method=Method.CLEAN_OUT))


def test_without_a_product_handwork_bridges_and_the_kind_to_look_for_is_named(stranger_talk: Talk) -> None:
    stranger_talk.set_up(("/start", "Gent", "hoya, landing", "no window"))
    (answer,) = stranger_talk.say("hoya 12 longtailed mealybugs")
    assert "Tonight: wipe.\nTo get: horticultural oil for houseplants and a lens." in answer
    assert "because nothing on the shelf fits, so handwork" in stranger_talk.asks("why")


def test_a_sign_asks_for_a_close_look_and_resets_nothing(talk: Talk) -> None:
    assert talk.say("webbing on the ivy") == [
        "Written: webbing on ivy. No living pest yet: please look closely by Mon 4 May."
    ]
    assert talk.told()[-1] == ("ivy", SignSeen(Sign.WEBBING))
    assert not talk.home.living[-1].cases


def test_the_pest_is_set_right_later(outbreak: Talk) -> None:
    assert outbreak.say("it's spider mites on the hoya, not mealybug") == [
        "Corrected: the case on hoya is spider mite. The plan follows it from now on."
    ]
    assert outbreak.told()[-1] == ("hoya", PestCorrected("spider_mite"))
    assert outbreak.say("it's scale on the hoya") == ["Which pest is it on hoya? Not written yet."]
    assert outbreak.press("armoured scale")[0].startswith("Corrected: the case on hoya is armoured scale.")
    assert outbreak.say("it's scale on the small hoya") == [
        "Which pest is it on small hoya? Not written yet."
    ]
    assert outbreak.press("brown soft scale") == ["There is nothing of yours left to take back."]


def test_the_plant_is_set_right_in_one_word(talk: Talk) -> None:
    talk.say("hoya 3 longtailed mealybugs")
    (answer,) = talk.say("that was the small hoya")
    assert answer.startswith("Changed: today, Sat 2 May: small hoya")
    plants = {plant.name: plant for plant in talk.home.living}
    assert not plants["hoya"].cases
    assert plants["small hoya"].open_cases[0].pest == "longtailed_mealybug"
    assert isinstance(talk.entries()[-2].payload, Voided)


def test_with_nothing_told_there_is_nothing_to_set_right(outbreak: Talk) -> None:
    outbreak.joins()
    assert outbreak.say("that was the small hoya", person=2) == [
        "There is nothing of yours left to take back."
    ]


def test_isolated_lists_who_is_apart_since_when_and_who_is_watched(outbreak: Talk) -> None:
    outbreak.say("isolate the hoya")
    lines = outbreak.say("isolated?")[0].splitlines()
    assert lines[0] == "Apart, 1 plant:"
    assert lines[1].startswith("hoya (longtailed mealybug, landing): free from ")
    assert lines[2].startswith("Still to be set apart: moth orchid and coffee plant; free from ")
    assert outbreak.press("More") == ["Look at weekly: small hoya."]
    assert ("hoya", IsolatedNow()) in outbreak.told()


def test_isolated_says_so_when_nothing_is(talk: Talk) -> None:
    assert talk.say("isolated?") == ["No plant is apart."]


def test_due_lists_the_evenings_and_the_week(outbreak: Talk) -> None:
    (answer,) = outbreak.say("what's due")
    assert answer.startswith(
        "today, Sat 2 May: wipe hoya, then soap.\nswab moth orchid and coffee plant with alcohol.\n"
    )
    assert "look at hoya, small hoya, moth orchid and coffee plant" in answer
    (week,) = outbreak.say("what is due this week")
    assert week == "today, Sat 2 May: wipe hoya, then soap.\nswab moth orchid and coffee plant with alcohol."
    outbreak.evening()
    outbreak.say("done")
    assert outbreak.say("what is due this week") == ["Nothing is due this week."]


def test_with_no_case_nothing_is_due_and_there_is_no_why(talk: Talk) -> None:
    assert talk.say("why") == ["No case is open, so nothing is planned and there is nothing to explain."]
    assert talk.say("why ivy") == ["ivy: no open case."]


def test_why_gives_terms_assumption_and_source(outbreak: Talk) -> None:
    (first,) = outbreak.say("why more hoya")
    assert "because a spray reaches what a swab misses." in first
    assert "The first treatment is due at once." in first
    outbreak.evening()
    outbreak.say("done")
    (answer,) = outbreak.say("why more")
    assert "at 21 °C the stage a spray reaches lasts" in answer
    assert "Label of soap: not before 7 days (as you told me)." in answer
    assumed = "24 °C (assumed, the cautious side; tell me “kitchen is 21 degrees”)"
    assert assumed in outbreak.say("why more coffee plant")[0]
    assert "So the window is Sat 9 May to Mon 11 May." in answer
    assert "Going back: " in answer


def test_why_says_since_when_a_round_is_late(talk: Talk) -> None:
    talk.set_up(("hoya 3 citrus mealybugs", "swabbed hoya"))
    ahead = talk.asks("why hoya")
    assert "Swab with alcohol, because" in ahead
    assert "Next Thu 7 May to Sun 10 May: " in ahead
    talk.passes(days=7)
    assert "The next swab with alcohol is due now, by tomorrow, Sun 10 May" in talk.asks("why hoya")
    talk.passes(days=2)
    assert "was due by yesterday, Sun 10 May, because up to 5 in one spot" in talk.asks("why hoya")


def test_why_says_where_the_label_is_longer_than_the_pest_allows(mites: Talk) -> None:
    mites.evening()
    mites.say("done")
    answer = mites.asks("why ivy")
    assert "It often outruns 7 to 9 days" in answer or "The label is longer than the pest allows" in answer


def test_why_says_when_a_place_is_too_cold_or_too_hot_to_tell(mites: Talk) -> None:
    mites.evening()
    mites.say("done")
    mites.passes(days=3)  # what was read on the first day has faded
    mites.say("study is 10 degrees in may")
    assert "It is too cold there to tell how fast they grow." in mites.asks("why ivy")
    mites.say("study is 44 degrees")
    assert "It is hotter than the studies cover" in mites.asks("why ivy")
    assert [one.celsius for _, one in mites.told() if isinstance(one, TemperatureRead)][-2:] == [24, 44]


def test_when_can_it_go_back_names_the_day_and_what_binds(outbreak: Talk) -> None:
    (answer,) = outbreak.say("when can the hoya go back")
    assert answer.startswith("hoya: living ones today, looks count from tomorrow; free from ")
    assert "what holds it: " in answer
    assert outbreak.say("when can the small hoya go back") == [
        "small hoya: not apart; looked at weekly while hoya has its case."
    ]
    outbreak.say("isolate the small hoya")
    assert outbreak.say("when can the small hoya go back") == [
        "small hoya is apart since Sat 2 May without a case: it may go back when you like."
    ]


def test_clean_checks_write_a_level_and_say_how_far_it_is(outbreak: Talk) -> None:
    outbreak.evening()
    outbreak.say("done")
    outbreak.at(date(2026, 5, 10), 20, 30)
    (answer,) = outbreak.say("hoya clean")
    assert answer.startswith("Written: none seen on hoya.\nhoya: ")
    assert outbreak.told()[-1] == ("hoya", CheckedClean(Level.PLAIN))
    before = len(outbreak.told())
    outbreak.say("hoya clean")
    assert outbreak.told()[before:] == []
    outbreak.say(LENS)
    assert [one for _, one in outbreak.told()[before:]] == [CheckedClean(Level.LENS)] * 5


def test_mites_are_sprayed_looked_for_and_released_by_the_rule_then_watched(mites: Talk) -> None:
    heard = live_until_released(mites, "ivy")
    assert "“put ivy back”" in heard
    (answer,) = mites.say("put ivy back")
    assert answer.startswith("Written: ivy goes back, all-clear.\nLook at ivy weekly until ")
    assert re.search(r"\nWell done: over in \d+ days and \d+ treatments, seen 4, then none\.$", answer)
    assert mites.told()[-1] == ("ivy", ReleasedNow(by_rule=True))
    released_at = mites.now
    assert date(2026, 5, 23) < released_at.date() < date(2026, 8, 1)
    assert mites.say("isolated?")[0].startswith("No plant is apart.\nLook at weekly: ivy.")
    assert mites.say("put ivy back") == ["ivy was not apart."]


def test_a_find_after_release_reopens_the_case(mites: Talk) -> None:
    live_until_released(mites, "ivy")
    mites.say("put ivy back")
    mites.passes(days=2)
    assert "That opens its case again." in mites.say("ivy 2 mites")[0]
    assert mites.say("isolated?")[0].startswith("Still to be set apart: ivy; free from ")
    assert mites.evening()[0].splitlines()[1] == "Prune ivy, then rinse."  # told after five: sprayed tomorrow


def test_a_nudge_says_who_may_leave(mites: Talk) -> None:
    live_until_released(mites, "ivy")
    mites.passes(days=6)
    (nudge,) = mites.evening()
    assert "All-clear for ivy: “put ivy back”." in nudge
    assert ": all-clear." in mites.say("when can the ivy go back")[0]


def test_release_against_the_rule_takes_a_second_word(outbreak: Talk) -> None:
    before = len(outbreak.told())
    (answer,) = outbreak.say("put hoya back")
    assert answer.startswith(
        "hoya is not there yet: living ones today, looks count from tomorrow; free from "
    )
    assert outbreak.labels() == ["Put it back anyway", "Keep it apart"]
    assert outbreak.told()[before:] == []
    assert outbreak.press("Keep it apart") == ["All right, it stays as it is. Nothing is written."]
    assert outbreak.told()[before:] == []
    assert outbreak.press("Put it back anyway")[0].startswith(
        "Written: hoya goes back, on your word, before the all-clear.\nLook at hoya weekly until "
    )
    assert outbreak.told()[before:] == [("hoya", ReleasedNow(by_rule=False))]


def test_undo_puts_a_released_plant_back_into_isolation(outbreak: Talk) -> None:
    outbreak.say("put hoya back")
    outbreak.press("Put it back anyway")
    assert outbreak.say("undo") == ["Taken back: today: hoya back with the others."]
    assert "set apart: hoya, moth orchid and coffee plant;" in outbreak.say("isolated?")[0]


def test_a_plant_apart_without_a_case_goes_back_at_a_word(talk: Talk) -> None:
    talk.say("isolate the calathea")
    talk.say("isolate the ivy")
    assert talk.say("put ivy back")[0].startswith("Written: ivy goes back, all-clear.")


def test_a_move_keeps_the_isolation(outbreak: Talk) -> None:
    outbreak.say("isolate the hoya")
    assert outbreak.say("moved hoya to the study") == ["Written: hoya at study. Still apart: hoya."]
    assert outbreak.told()[-1] == ("hoya", PlantSet(place=PlaceId(3)))
    assert outbreak.say("moved small hoya to the study") == ["Written: small hoya at study."]


def test_a_lost_plant_is_never_asked_for_again(outbreak: Talk) -> None:
    (answer,) = outbreak.say("binned the coffee")
    assert answer.startswith("Written: coffee plant gone. Old mix and leaves go into a closed bag")
    assert outbreak.told()[-1] == ("coffee plant", LostNow())
    assert "coffee" not in outbreak.evening()[0]


def test_the_history_tells_a_plant_and_a_week(outbreak: Talk) -> None:
    outbreak.evening()
    outbreak.say("done")
    outbreak.at(date(2026, 5, 6), 12)
    assert outbreak.say("hoya history") == [
        "Sat 2 May: hoya sprayed\nSat 2 May: hoya wiped\nSat 2 May: hoya longtailed mealybug\nSat 2 May: hoya new"
    ]
    head, first, *_ = outbreak.say("what did I do last week")[0].splitlines()
    assert head == "Ada, Mon 27 Apr to Sun 3 May:"
    assert re.fullmatch(
        r"Sat 2 May: (moth orchid|coffee plant) and (moth orchid|coffee plant) swabbed", first
    )
    outbreak.at(date(2026, 6, 3), 12)
    assert outbreak.say("what did I do last week") == [
        "Nothing is written of Ada for Mon 25 May to Sun 31 May."
    ]


def test_a_stall_asks_for_a_clean_out_and_says_why(outbreak: Talk) -> None:
    outbreak.evening()
    outbreak.say("done")
    outbreak.at(date(2026, 5, 24), 12)  # 22 days after the start
    outbreak.say("hoya 3")
    assert "because still alive two weeks after the start" in outbreak.asks("why hoya")


def test_an_outbreak_is_told_in_one_message_after_another_or_not_at_all(talk: Talk) -> None:
    before = len(talk.told())
    talk.say("ivy 4 spider mites")
    (answer,) = talk.say("hoya clean, ivy 2")
    assert "none seen on hoya" in answer
    assert "2 spider mites on ivy" in answer
    assert {one.source for one in talk.entries()[-2:]} == {talk.entries()[-1].source}
    talk.say("undo")
    assert [name for name, _ in talk.told()[before:]] == ["ivy"]


def test_help_and_first_aid_write_nothing(outbreak: Talk) -> None:
    before = len(outbreak.entries())
    assert outbreak.say("bleach in my eye")[0].startswith("Stop, get away from it, into fresh air.")
    assert "“done”, “done except ivy”" in outbreak.say("help")[0]
    assert len(outbreak.entries()) == before


def test_the_clock_change_leaves_the_evening_at_eight(outbreak: Talk) -> None:
    # the clocks go back in Brussels on 25 October 2026
    outbreak.at(date(2026, 10, 24), 23)
    outbreak.evening()
    assert outbreak.now == datetime(2026, 10, 25, 20, tzinfo=ZONE)
    assert outbreak.now.utcoffset() == timedelta(hours=1)


def test_who_is_moved_away_from_the_healthy_is_apart_and_beside_healthy_ones_it_is_asked(
    outbreak: Talk,
) -> None:
    outbreak.say("hall has no window")
    (text,) = outbreak.say("moved hoya to the hall")
    assert text == "Written: hoya at hall. Still apart: hoya."
    assert outbreak.home.plants[PlantId(1)].isolated_on == date(2026, 5, 2)
    outbreak.say("ivy 3 spider mites")
    before = outbreak.entries()
    (text,) = outbreak.say("moved ivy to the landing")
    assert text.endswith("small hoya, with no case, stands at landing too: is ivy apart there?")
    assert not any(isinstance(one.payload, IsolatedNow) for one in outbreak.entries()[len(before) :])
    assert outbreak.labels() == ["It is apart now", "Cannot be moved"]


def test_a_plant_that_came_later_did_not_stand_beside_a_case_before(outbreak: Talk) -> None:
    outbreak.say("hall has no window")
    outbreak.say("moved hoya to the hall")
    outbreak.passes(days=12)
    outbreak.say("new plant: fern, landing")
    outbreak.press("Six weeks apart")
    assert "fern" not in outbreak.asks("isolated?").partition("weekly")[2]


def test_roots_are_a_hiding_place_for_mealybugs_and_not_for_mites(talk: Talk) -> None:
    talk.say("jade plant, study\nfern, kitchen")
    talk.say("ivy 2 spider mites")  # the first find ends in what to get

    def back(text: str) -> str:
        return next(line for line in talk.asks(text).split("\n") if line.startswith("Free from"))

    assert back("jade plant 2 spider mites") == back("fern 2 spider mites")
    talk.say("undo")
    talk.say("undo")
    talk.say("jade plant 2 longtailed mealybugs")
    talk.say("fern 2 longtailed mealybugs")
    assert "and once the roots" in talk.say("when can the jade plant go back")[0]
    assert "and once the roots" not in talk.say("when can the fern go back")[0]


def test_what_is_found_on_the_day_of_a_sign_is_treated_that_evening(talk: Talk) -> None:
    talk.say("fluff on the hoya")
    assert "\n2 Tonight: wipe" in talk.say("the hoya has 12 longtailed mealybugs")[0]


@pytest.mark.parametrize("plant", ["dill", "calathea"])
def test_what_must_stay_moist_is_not_dried_and_that_is_said(talk: Talk, plant: str) -> None:
    talk.say(f"{plant}, kitchen")
    (answer,) = talk.say(f"7 fungus gnats on the {plant}")
    assert "Its mix must stay moist: nothing by hand." in answer
