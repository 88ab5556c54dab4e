"""What a next message puts right, and what a clause denies, spares, gives away or says of another's work."""

import pytest

from bot.domain.journal import (
    CheckedClean,
    Found,
    LostNow,
    PestCorrected,
    PlantSet,
    Postponed,
    ProductSet,
    Treated,
)
from bot.domain.trade import Grade, Method
from tests.journeys.talking import Talk


def _found(talk: Talk) -> dict[str | None, int | None]:
    return {name: one.count for name, one in talk.told() if isinstance(one, Found)}


def _looked(talk: Talk) -> set[str | None]:
    return {name for name, one in talk.told() if isinstance(one, CheckedClean)}


def _done(talk: Talk) -> set[tuple[str | None, Method]]:
    return {(name, one.method) for name, one in talk.told() if isinstance(one, Treated)}


@pytest.mark.parametrize(
    "text", ["oops 9", "no wait, 9", "9 i mean", "actually there were 9", "no - more exactly 9"]
)
def test_a_number_put_right_behind_a_find_changes_it_and_names_no_kind(talk: Talk, text: str) -> None:
    talk.say("4 mealybugs on the ivy")
    talk.say(text)
    assert _found(talk) == {"ivy": 9}
    assert not any(isinstance(one, PestCorrected) for _, one in talk.told())


def test_a_number_that_counts_days_changes_no_find(talk: Talk) -> None:
    talk.say("4 mealybugs on the ivy")
    talk.say("sorry, in 3 days")
    assert _found(talk) == {"ivy": 4}


def test_another_number_names_no_kind_where_two_are_offered(talk: Talk) -> None:
    talk.say("4 mealybugs on the ivy")
    talk.say("many")
    grades = [one.grade for name, one in talk.told() if name == "ivy" and isinstance(one, Found)]
    assert grades[-1] is Grade.MANY
    assert not any(isinstance(one, PestCorrected) for _, one in talk.told())


@pytest.mark.parametrize(
    "text",
    [
        "thrips on the ivy but not on the hoya, 6",
        "thrips on the ivy, none on the hoya, about 6 each",
        "6 thrips on the ivy but not the hoya",
    ],
)
def test_a_plant_that_is_spared_is_clean_and_the_number_is_of_the_other(talk: Talk, text: str) -> None:
    talk.say(text)
    assert _found(talk) == {"ivy": 6}
    assert _looked(talk) == {"hoya"}


def test_all_but_one_are_those(talk: Talk) -> None:
    living = {one.name for one in talk.home.living}
    talk.say("thrips on everything except the ivy, a few")
    assert set(_found(talk)) == living - {"ivy"}


def test_all_of_them_are_those(talk: Talk) -> None:
    talk.say("all of them have thrips, a few")
    assert set(_found(talk)) == {one.name for one in talk.home.living}


@pytest.mark.parametrize(
    "text", ["neither the ivy nor the hoya has any bugs", "neither ivy nor hoya has anything"]
)
def test_neither_has_any(talk: Talk, text: str) -> None:
    talk.say(text)
    assert _looked(talk) == {"ivy", "hoya"}
    assert not _found(talk)


@pytest.mark.parametrize(
    "text", ["wiped the hoya, ivy looks good", "ivy is fine. wiped the hoya", "hoya wiped, ivy still ok"]
)
def test_who_is_well_was_not_treated(talk: Talk, text: str) -> None:
    talk.say("hoya 12 citrus mealybugs")
    talk.evening()
    talk.say(text)
    assert {name for name, _ in _done(talk)} == {"hoya"}
    assert not _looked(talk)
    talk.press("Yes")
    assert _looked(talk) == {"ivy"}


def test_who_is_well_beside_looks_is_clean(talk: Talk) -> None:
    talk.say("no bugs on the hoya, ivy fine too")
    assert _looked(talk) == {"hoya", "ivy"}


@pytest.mark.parametrize(
    "text", ["wiped the hoya and soaped it", "hoya: wiped, then soaped", "Soaped and wiped hoya"]
)
def test_a_step_in_its_own_word_is_done(talk: Talk, text: str) -> None:
    talk.say("hoya 12 citrus mealybugs")
    talk.evening()
    talk.say(text)
    assert _done(talk) == {("hoya", Method.WIPE), ("hoya", Method.SPRAY)}


def test_a_soaped_cloth_sprays_nothing(talk: Talk) -> None:
    talk.say("wiped the hoya with a soaped cloth")
    assert ("hoya", Method.SPRAY) not in _done(talk)


@pytest.mark.parametrize(
    "text", ["I didn't do the hoya, my husband did it", "i didn't do it, my daughter did the hoya"]
)
def test_what_another_did_is_done(talk: Talk, text: str) -> None:
    talk.say("hoya 12 citrus mealybugs")
    talk.evening()
    talk.say(text)
    assert not any(isinstance(one, Postponed) for _, one in talk.told())


def test_nothing_done_puts_off_and_tells_of_no_look(talk: Talk) -> None:
    talk.say("hoya 12 citrus mealybugs")
    talk.evening()
    talk.say("i did nothing today")
    assert any(isinstance(one, Postponed) for _, one in talk.told())
    assert not _looked(talk)


@pytest.mark.parametrize("text", ["did half of it", "half done so far", "i did just one leaf today"])
def test_a_part_of_the_work_is_not_offered_as_all_of_it(talk: Talk, text: str) -> None:
    talk.say("hoya 12 citrus mealybugs")
    talk.evening()
    assert "Did you mean" not in "\n".join(talk.say(text))
    assert not _done(talk)


@pytest.mark.parametrize("text", ["sorry, not done", "wait i haven't done it"])
def test_a_done_is_taken_back(talk: Talk, text: str) -> None:
    talk.say("hoya 12 citrus mealybugs")
    talk.evening()
    talk.say("done")
    talk.say(text)
    assert "Keep" in talk.labels()  # which of the two entries is asked


@pytest.mark.parametrize("text", ["we have no soap", "there's not any soap here", "I threw away the soap"])
def test_one_product_that_is_not_there_is_used_up_and_no_look(talk: Talk, text: str) -> None:
    talk.say("got soap, ready to use")
    talk.say(text)
    assert [one.stock_ml for _, one in talk.told() if isinstance(one, ProductSet)][-1] == 0
    assert not _looked(talk)


@pytest.mark.parametrize("text", ["do we have any soap", "is there no soap?"])
def test_asking_for_a_product_empties_no_bottle(talk: Talk, text: str) -> None:
    talk.say("got soap, ready to use")
    before = talk.told()
    talk.say(text)
    assert talk.told() == before


@pytest.mark.parametrize("text", ["sold the ivy", "I gave my ivy to a friend", "gave the ivy away"])
def test_a_plant_given_away_is_asked_off_the_list(talk: Talk, text: str) -> None:
    talk.say(text)
    assert not any(isinstance(one, LostNow) for _, one in talk.told())
    talk.press(talk.labels()[0])
    assert [name for name, one in talk.told() if isinstance(one, LostNow)] == ["ivy"]


def test_going_on_about_a_new_room_agrees_to_the_move(talk: Talk) -> None:
    talk.say("moved the ivy to the larder")
    assert not any(isinstance(one, PlantSet) for one in talk.new_since(len(talk.entries()) - 1))
    talk.say("larder faces north")
    larder = next(one.id for one in talk.home.places.values() if one.name == "larder")
    assert [one.name for one in talk.home.living if one.place == larder] == ["ivy"]


@pytest.mark.parametrize(
    "text",
    [
        "no, the ivy is in the pantry",
        "oh sorry I meant the ivy is in the pantry",
        "not there, the ivy is in the pantry",
    ],
)
def test_where_a_plant_is_said_to_stand_puts_right_what_was_just_written(
    stranger_talk: Talk, text: str
) -> None:
    for line in ("/start", "I live in Graz", "ivy and aloe in the den"):
        stranger_talk.say(line)
    stranger_talk.say(text)
    stranger_talk.press("Yes")
    places = {one.id: one.name for one in stranger_talk.home.places.values()}
    stands = {one.name: places[one.place] for one in stranger_talk.home.living if one.place is not None}
    assert stands == {"ivy": "pantry", "aloe": "den"}


@pytest.mark.parametrize("text", ["we don't have an aloe", "there is no aloe, i have none"])
def test_a_plant_that_there_is_not_is_asked_off_the_list(stranger_talk: Talk, text: str) -> None:
    for line in ("/start", "I live in Graz", "ivy and aloe in the den", text):
        stranger_talk.say(line)
    stranger_talk.press(stranger_talk.labels()[0])
    assert [one.name for one in stranger_talk.home.living] == ["ivy"]


def test_what_is_at_hand_is_asked_no_more_once_it_was_answered(stranger_talk: Talk) -> None:
    for line in ("/start", "Graz", "ivy in the den, 7 scale on it", "den is north"):
        stranger_talk.say(line)
    stranger_talk.press("Nothing yet")
    said = [*stranger_talk.say("aloe in the hall"), *stranger_talk.say("hall is west")]
    assert "What do you have to treat with" not in "\n".join(said)


@pytest.mark.parametrize(
    "text", ["i gave my soap to a neighbour", "i ordered soap", "i might get some soap", "my cousin has soap"]
)
def test_what_is_not_had_is_not_put_on_the_shelf(stranger_talk: Talk, text: str) -> None:
    for line in ("/start", "Graz", "ivy in the den", "den is north", text):
        stranger_talk.say(line)
    assert "got soap" not in "\n".join(stranger_talk.asks(text)) if stranger_talk.labels() else True
    assert not stranger_talk.home.products


@pytest.mark.parametrize("text", ["Best wishes, Rose", "With kind regards, Rose.", "Many thanks, Rose"])
def test_who_signs_a_letter_is_no_plant(stranger_talk: Talk, text: str) -> None:
    stranger_talk.say("/start")
    stranger_talk.say(f"Hello, I have an ivy in the den. {text}")
    assert [one.name for one in stranger_talk.home.living] == ["ivy"]


@pytest.mark.parametrize(
    "text", ["my cousin has a fern. i have an ivy in the den", "ivy in the den; a friend keeps ferns"]
)
def test_what_others_have_is_not_ours(stranger_talk: Talk, text: str) -> None:
    stranger_talk.say("/start")
    stranger_talk.say(text)
    stranger_talk.press("Yes")
    assert [one.name for one in stranger_talk.home.living] == ["ivy"]
