"""What a doubter once broke stays mended."""

from datetime import timedelta

from bot.domain.identity import PlantId
from bot.domain.trade import Method
from tests.journeys.talking import PARTNER, Talk


def plant(talk: Talk, name: str) -> PlantId:
    """Find a plant's number by its name."""
    return next(one.id for one in talk.home.plants.values() if one.name == name)


def test_a_second_pest_does_not_bring_the_spray_sooner_than_its_label(talk: Talk) -> None:
    talk.set_up()
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("sprayed the hoya with soap")
    talk.now += timedelta(days=1)
    talk.say("hoya 3 spider mites")
    uses = [one.on for one in talk.home.plants[plant(talk, "hoya")].treatments if one.method is Method.SPRAY]
    for _ in range(4):
        talk.evening()
        nudge = talk.home.nudge
        assert nudge is not None
        for task in nudge.tasks:
            if task.plant == plant(talk, "hoya") and task.product is not None:
                assert (nudge.on - max(uses)).days >= 7  # the label told in the set-up


def test_two_sprays_on_neighbouring_days_do_not_stretch_the_plan(talk: Talk) -> None:
    talk.set_up()
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("sprayed the hoya with soap")
    talk.now += timedelta(days=1)
    answer = talk.asks("sprayed the hoya with soap")
    # 672 degree-days above 8 at 21 degC: 51.7 days without a find, in steps of 7 days from the second day on: seven
    assert "treatment 2 done, about 7 more" in answer


def test_a_plant_taken_back_is_not_asked_about(talk: Talk) -> None:
    talk.set_up()
    talk.say("new plant: fern, study")
    talk.say("fern 3 spider mites")
    talk.evening()
    talk.say("undo")
    talk.say("undo")
    assert "landing:" in talk.say("plants")[0]
    assert "wrong" not in talk.say("done")[0]


def test_a_place_taken_back_leaves_its_plants_without_one(talk: Talk) -> None:
    talk.set_up()
    talk.joins()
    talk.say("balcony faces south")
    talk.say("new plant: bay, balcony", person=PARTNER)
    talk.say("bay 12 longtailed mealybugs", person=PARTNER)
    assert "Taken back" in talk.say("undo")[0]
    assert talk.home.plants[plant(talk, "bay")].place is None
    assert talk.evening()


def test_a_button_whose_plant_is_gone_has_expired(talk: Talk) -> None:
    talk.set_up()
    talk.say("hoya 12 longtailed mealybugs")
    button = talk.button("It is apart now")
    talk.say("binned the hoya")
    assert "earlier message" in talk.press_data(button)[0]


def test_a_double_send_does_not_reach_the_namesake(talk: Talk) -> None:
    talk.set_up()
    talk.say("binned the hoya")
    assert "nothing is written" in talk.say("binned the hoya")[0]
    assert talk.home.plants[plant(talk, "small hoya")].lost_on is None


def test_an_offer_to_release_is_over_after_a_day(talk: Talk) -> None:
    talk.set_up()
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("put hoya back")
    button = talk.button("Put it back anyway")
    talk.now += timedelta(days=25)
    assert "not there yet" in talk.press_data(button)[0]
    assert talk.home.plants[plant(talk, "hoya")].open_cases


def test_a_find_of_a_day_before_the_release_is_written_and_changes_no_plan(talk: Talk) -> None:
    talk.set_up()
    talk.say("hoya 12 longtailed mealybugs")
    talk.now += timedelta(days=2)
    talk.say("put hoya back")
    talk.press("Put it back anyway")
    assert "plan stays" in talk.say("hoya 3 longtailed mealybugs yesterday")[0]


def test_a_clock_that_was_ahead_does_not_silence_the_evenings(talk: Talk) -> None:
    talk.set_up()
    talk.say("hoya 12 longtailed mealybugs")
    talk.now += timedelta(days=365)
    talk.say("plants")
    talk.say("landing is 21 degrees")
    talk.now -= timedelta(days=365)
    talk.say("landing is 22 degrees")
    assert talk.evening()


def test_figures_out_of_bounds_are_refused_for_what_they_are(talk: Talk) -> None:
    talk.set_up()
    before = len(talk.entries())
    for text, reason in (
        ("got neem, ready to use, every 0 days", "cannot be right (1 to 365)"),
        ("got neem, ready to use, every 400 days", "cannot be right (1 to 365)"),
        ("landing is 90 degrees", "outside what plants at home live through"),
        ("landing is -40 degrees", "outside what plants at home live through"),
        ("95.5, 3.7", "not on the globe"),
    ):
        assert reason in talk.say(text)[0]
    assert len(talk.entries()) == before
    assert "200 days" in talk.say("got neem, ready to use, every 200 days")[0]
