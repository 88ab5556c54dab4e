"""Predators, a day's extremes, what is usual, and a strength nobody told."""

from bot.domain.journal import TemperatureRead, Treated
from bot.domain.trade import Method
from tests.journeys.talking import Talk


def test_predators_are_put_on_a_plant_and_the_plant_stays_apart(talk: Talk) -> None:
    talk.set_up(("ivy 10 spider mites", "isolate the ivy", "got phytoseiulus"))
    assert "at the soonest" not in talk.asks("got phytoseiulus"), "animals have no label of uses"
    talk.say("released the predatory mites on the ivy")
    told = [one.payload for one in talk.entries() if isinstance(one.payload, Treated)]
    assert [one.method for one in told] == [Method.PREDATORS]
    (ivy,) = (plant for plant in talk.home.plants.values() if plant.name == "ivy")
    assert ivy.is_apart
    assert "a spray kills the predators there" in talk.asks("can I spray the ivy with soap")


def test_a_days_lowest_and_highest_are_told_in_one_line(talk: Talk) -> None:
    talk.set_up(())
    for text in ("landing 16 to 24 degrees", "lowest 16 and highest 24 degrees on the landing"):
        assert "16 °C to 24 °C, counted as 20 °C" in talk.asks(text)
    told = [one.payload for one in talk.entries() if isinstance(one.payload, TemperatureRead)]
    assert [(one.low, one.celsius, one.high) for one in told][-2:] == [(16, 20, 24)] * 2
    assert "outside what plants at home live through" in talk.asks("landing 16 to 50 degrees")


def test_what_is_usual_is_told_without_being_asked(talk: Talk) -> None:
    talk.set_up(())
    for text in ("landing is usually 19 degrees", "the landing normally has 19 C"):
        assert "landing usually has 19 °C" in talk.asks(text)
    (landing,) = (place for place in talk.home.places.values() if place.name == "landing")
    assert set(landing.by_month.values()) == {19}


def test_a_strength_nobody_read_is_not_said_as_a_fact(talk: Talk) -> None:
    talk.set_up(("got soap concentrate",))
    assert "% active" not in talk.asks("mix 1 litre")
    talk.say("soap is 49 %")
    assert "as is usual of its kind" not in talk.asks("mix 1 litre")
