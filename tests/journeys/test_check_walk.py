"""The weekly check walk, one tap a plant, from the first to the summary."""

from bot.actions.incoming import Press
from bot.domain.journal import CheckedClean, Found, WalkBegun, WalkPassed
from bot.domain.trade import Grade, Level
from tests.journeys.talking import Talk

STEP = ["None seen", "A few", "Some", "Many", "Not today", "Stop for now"]


def test_a_whole_walk_from_the_first_plant_to_the_summary(talk: Talk) -> None:
    talk.say("ivy 8 spider mites")
    assert talk.say("walk") == ["A walk by 5 plants, those without a find first. How closely do you look?"]
    assert talk.labels() == ["A plain look", "With a lens", "Just a glance"]
    assert talk.press("A plain look")[0] == (
        "1 of 5: hoya, landing.\nAxils, undersides, crown, rim of the pot: 3 to 5 minutes each.\n"
        "Dead leaves off the potting mix on the way."
    )
    assert talk.labels() == STEP
    assert talk.press("None seen") == ["Written: none seen on hoya.\n\n2 of 5: small hoya, landing."]
    assert talk.press("Not today") == ["3 of 5: moth orchid, kitchen."]
    assert talk.press("A few") == ["Which pest is it on moth orchid? Not written yet."]
    talk.press("Another, or don't know")
    (answer,) = talk.press("citrus mealybug")
    assert answer.startswith("Written: a few citrus mealybugs on moth orchid.")
    assert answer.endswith("\n\n4 of 5: coffee plant, kitchen.")
    assert talk.press("None seen")[0].endswith(
        "5 of 5: ivy, study.\nIt has spider mites: undersides along the veins, shoot tips; in dry warm air."
    )
    assert talk.press("Some")[0].endswith(
        "Walk done.\nFound something: moth orchid and ivy.\nNot looked at: small hoya.\nNone seen: hoya and coffee plant."
    )
    payloads = [one for _, one in talk.told()]
    assert CheckedClean(Level.PLAIN) in payloads
    assert WalkPassed() in payloads
    grades = [one.grade for one in payloads if isinstance(one, Found)]
    assert grades == [Grade.SOME, Grade.FEW, Grade.SOME]


def test_the_cases_come_last_and_the_watched_before_them(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("ivy 60 spider mites")
    talk.say("walk with a lens")
    begun = next(one for _, one in talk.told() if isinstance(one, WalkBegun))
    names = [talk.home.plants[plant].name for plant in begun.plants]
    # small hoya shares the landing with the hoya; many mites are worse than some mealybugs
    assert names == ["moth orchid", "coffee plant", "small hoya", "hoya", "ivy"]
    assert begun.level is Level.LENS


def test_a_walk_is_answered_in_words(talk: Talk) -> None:
    talk.say("ivy 8 spider mites")
    talk.say("walk")
    talk.say("a lens")
    assert talk.say("none")[0].endswith("2 of 5: small hoya, landing.")
    assert talk.say("clean")[0].endswith("3 of 5: moth orchid, kitchen.")
    assert talk.say("skip") == ["4 of 5: coffee plant, kitchen."]
    assert "5 of 5: ivy, study.\nIt has spider mites: " in talk.say("3 citrus mealybugs")[0]
    assert talk.say("12")[0].endswith("Not looked at: moth orchid.\nNone seen: hoya and small hoya.")
    found = [(name, one.pest, one.count) for name, one in talk.told() if isinstance(one, Found)]
    assert found == [
        ("ivy", "spider_mite", 8),
        ("coffee plant", "citrus_mealybug", 3),
        ("ivy", "spider_mite", 12),
    ]


def test_a_walk_is_gone_on_with_after_a_stop_and_a_day(talk: Talk) -> None:
    talk.say("walk with a lens")
    talk.press("None seen")
    assert talk.press("Stop for now") == ["Stopped, 4 plants left. “walk” goes on there within two days."]
    talk.passes(days=1)
    assert talk.say("walk") == ["Going on where you stopped.\n2 of 5: small hoya, landing."]
    talk.press("Stop for now")
    talk.passes(days=3)
    assert talk.say("walk") == ["A walk by 5 plants, those without a find first. How closely do you look?"]


def test_undo_brings_the_plant_back_into_the_walk(talk: Talk) -> None:
    talk.say("walk with a lens")
    talk.press("None seen")
    talk.say("undo")
    assert "\n1 of 5: hoya, landing.\n" in talk.say("walk")[0]


def test_a_tap_turns_the_same_message_into_the_next_plant(talk: Talk) -> None:
    talk.say("walk with a lens")
    data = talk.button("None seen")
    assert talk.send(Press(data, 77, "callback")) == []
    (edit,) = talk.heard[-1].edits
    assert edit[:2] == (1, 77)
    assert edit[2] is not None
    assert edit[2].text.endswith("2 of 5: small hoya, landing.")
    assert [one.label for row in edit[2].buttons for one in row] == STEP


def test_an_old_button_of_a_walk_writes_nothing_twice(talk: Talk) -> None:
    talk.say("walk with a lens")
    data = talk.button("None seen")
    talk.press_data(data)
    before = len(talk.entries())
    talk.press_data(data)
    assert talk.new_since(before) == []


def test_the_evening_offers_a_walk_where_many_are_to_be_looked_at(talk: Talk) -> None:
    talk.say("check on sundays")
    talk.evening()
    assert "One by one" in talk.labels()
    assert talk.press("One by one")[0].startswith("A walk by 5 plants")


def test_without_plants_or_a_walk_it_says_so(stranger_talk: Talk) -> None:
    stranger_talk.set_up(("/start", "Gent", "skip"))
    assert stranger_talk.say("walk") == ["I know no plants yet. Send them one a line, like “hoya, landing”."]
    assert stranger_talk.say("end walk") == ["No walk is under way. “walk” begins one."]


def test_dead_plants_and_new_ones_do_not_hold_a_walk_up(talk: Talk) -> None:
    talk.say("walk with a lens")
    talk.say("hoya died")
    talk.say("fern, kitchen, 12 cm")
    for _ in range(3):
        talk.say("walk")
        talk.press("None seen")
    assert talk.say("walk")[0].endswith("5 of 5: ivy, study.")
    assert talk.press("None seen")[0].endswith(
        "Walk done.\nNone seen: small hoya, moth orchid, coffee plant and ivy."
    )
