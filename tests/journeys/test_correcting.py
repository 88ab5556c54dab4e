"""Anything told on any day can be put right: shown with its date, changed by one tap, the journal keeps both."""

from datetime import date

import pytest

from bot.actions.correct_entry import CorrectEntry, DeleteEntry, Entered, Kind
from bot.domain.identity import PlantId
from bot.domain.journal import CheckedClean, Found, Treated, Voided
from bot.domain.trade import Level
from tests.journeys.talking import PARTNER, Talk

HOYA = PlantId(1)
SATURDAY = date(2026, 5, 2)


@pytest.fixture
def told(talk: Talk) -> Talk:
    talk.say("got spinosad")
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("sprayed hoya with soap")
    talk.passes(days=3)
    talk.say("ivy clean")
    return talk


def products_used(talk: Talk) -> list[str | None]:
    home = talk.home
    return [
        None if one.product is None else home.products[one.product].ingredient
        for one in home.plants[HOYA].treatments
    ]


def test_a_treatment_of_days_ago_gets_its_right_product(told: Talk) -> None:
    spinosad = next(one.id for one in told.home.products.values() if one.ingredient == "spinosad")
    command = CorrectEntry(
        of=Entered(kind=Kind.TREATED, plant=HOYA, on=SATURDAY), to=Entered(product=spinosad)
    )
    shown = told.tell(command)[0]
    assert "Sat 2 May: hoya sprayed (soap)" in shown
    assert products_used(told) == ["soap"], "shown, and not yet changed"
    changed = told.press("Change it")[0]
    assert changed.startswith("Changed: Sat 2 May: hoya sprayed (spinosad)")
    assert products_used(told) == ["spinosad"]


def test_the_dates_that_move_are_said(told: Talk) -> None:
    told.tell(DeleteEntry(of=Entered(kind=Kind.TREATED, plant=HOYA)))
    answer = told.press("Delete it")[0]
    assert "hoya: next treatment" in answer
    assert products_used(told) == []
    assert sum(isinstance(one.payload, Treated) for one in told.entries()) == 1, (
        "the journal keeps what was told"
    )
    assert sum(isinstance(one.payload, Voided) for one in told.entries()) == 1


def test_a_count_and_a_plant_are_put_right(told: Talk) -> None:
    told.tell(CorrectEntry(of=Entered(kind=Kind.FOUND, plant=HOYA, count=12), to=Entered(count=2)))
    told.press("Change it")
    assert [find.count for case in told.home.plants[HOYA].cases for find in case.finds] == [2]
    told.tell(CorrectEntry(of=Entered(kind=Kind.LOOK), to=Entered(plant=PlantId(2))))
    told.press("Change it")
    assert ("small hoya", CheckedClean(Level.PLAIN)) in told.told()
    assert ("ivy", CheckedClean(Level.PLAIN)) not in told.told()


def test_the_other_may_put_it_right_and_both_words_go(told: Talk) -> None:
    told.joins()
    told.say("sprayed hoya with soap on 2 may", person=PARTNER)
    told.tell(DeleteEntry(of=Entered(kind=Kind.TREATED, plant=HOYA, on=SATURDAY)), person=PARTNER)
    told.press("Delete it", person=PARTNER)
    assert products_used(told) == []


def test_several_that_fit_are_listed_and_nothing_like_it_says_what_there_is(told: Talk) -> None:
    listed = told.tell(DeleteEntry(of=Entered(plant=HOYA)))[0]
    assert listed.startswith("Which one?")
    assert told.labels() == ["1", "2", "Keep"]
    told.press("Keep")
    missing = told.tell(DeleteEntry(of=Entered(kind=Kind.LOOK, plant=HOYA)))[0]
    assert "nothing like that of hoya" in missing
    assert "12 longtailed mealybug" in missing
    assert any(isinstance(payload, Found) for _, payload in told.told())


def test_a_tap_pressed_twice_changes_once(told: Talk) -> None:
    told.tell(CorrectEntry(of=Entered(kind=Kind.FOUND, plant=HOYA), to=Entered(count=2)))
    told.press("Change it")
    before = len(told.entries())
    told.press("Change it")
    assert len(told.new_since(before)) == 0


@pytest.fixture
def days_later(talk: Talk) -> Talk:
    """A find and a spray of Saturday 2 May, seen on the Monday after."""
    talk.say("got neem, ready to use")
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("sprayed hoya with soap")
    talk.passes(days=2)
    return talk


@pytest.mark.parametrize(
    "words",
    [
        "the 12 on the hoya were 2",
        "the 12 on the hoya on saturday should have been 2",
        "the 12 longtailed mealybugs on the hoya were really 2",
        "on 2 may the 12 on the hoya was only 2",
    ],
)
def test_a_count_of_an_earlier_day_is_put_right_in_words(days_later: Talk, words: str) -> None:
    before = days_later.told()
    days_later.say(words)
    assert days_later.told() == before, "shown, and not changed yet"
    days_later.press("Change it")
    assert [payload.count for _, payload in days_later.told() if isinstance(payload, Found)] == [2]


@pytest.mark.parametrize(
    "words",
    [
        "on 2 may the hoya got neem, not soap",
        "the hoya had neem on saturday instead of soap",
        "saturday the hoya got neem not soap",
        "the hoya got neem rather than soap on saturday",
    ],
)
def test_a_product_of_an_earlier_day_is_put_right_in_words(days_later: Talk, words: str) -> None:
    before = days_later.told()
    days_later.say(words)
    assert days_later.told() == before
    days_later.press("Change it")
    (treated,) = [payload for _, payload in days_later.told() if isinstance(payload, Treated)]
    assert treated.product is not None
    assert days_later.home.products[treated.product].ingredient == "neem"


@pytest.mark.parametrize(
    "words",
    [
        "delete saturday's find on the hoya",
        "please delete the find on the hoya",
        "erase the find of the hoya",
        "scrap the hoya find of 2 may",
    ],
)
def test_an_entry_of_an_earlier_day_is_deleted_in_words(days_later: Talk, words: str) -> None:
    before = days_later.told()
    days_later.say(words)
    assert days_later.told() == before
    days_later.press("Delete it")
    assert not any(isinstance(payload, Found) for _, payload in days_later.told())


@pytest.mark.parametrize(
    "words", ["delete hoya", "the hoya was sprayed, not the ivy", "hoya has 12 mites, not 2"]
)
def test_what_puts_no_entry_right_writes_nothing_by_this_way(days_later: Talk, words: str) -> None:
    days_later.say(words)
    assert "Delete it" not in days_later.labels()
    assert any(isinstance(payload, Found) for _, payload in days_later.told())
