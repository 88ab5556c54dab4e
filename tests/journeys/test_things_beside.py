"""What stands beside a telling: a no that turns, one plant more, things no list is kept of, a mixture asked for."""

import pytest

from bot.actions.postpone import Postpone
from bot.domain.journal import CheckedClean, Found, LostNow, Postponed, Treated
from bot.phrases.hearing import understand
from tests.journeys.talking import Talk
from tests.phrases.situation import EVENING


def _offered(text: str) -> list[object]:
    told = understand(text, EVENING)
    choices = (choice for one in told for choice in getattr(one, "choices", ())[:1])
    return [*told, *(each for choice in choices for each in choice.commands)]


@pytest.mark.parametrize(
    "text",
    [
        "no, there are still 6 on the hoya, orchid looks fine",
        "No no, the orchid is alive!",
        "the hoya is not clean, it has 2 mealybugs",
        "wiped the hoya, no rinse",
        "the orchid is in the bedroom by itself, no window",
    ],
)
def test_a_no_that_answers_or_turns_puts_nothing_off(text: str) -> None:
    assert not any(isinstance(one, Postpone) for one in _offered(text))


@pytest.mark.parametrize(
    "text", ["no time for the hoya", "the hoya did not get its wipe", "hoya not tonight"]
)
def test_work_that_is_denied_is_put_off(text: str) -> None:
    assert any(isinstance(one, Postpone) for one in _offered(text))


def test_a_yes_takes_one_plant_more(talk: Talk) -> None:
    talk.say("maybe rinsed the ivy i guess")
    assert not any(isinstance(one, Treated) for _, one in talk.told()[-2:])
    talk.say("yes and the orchid too")
    assert {name for name, one in talk.told() if isinstance(one, Treated)} == {"ivy", "moth orchid"}


def test_a_yes_for_another_plant_alone_is_no_yes_for_more(talk: Talk) -> None:
    talk.say("maybe rinsed the ivy i guess")
    talk.say("yes the orchid")
    assert not any(name == "ivy" and isinstance(one, Treated) for name, one in talk.told())


def test_what_is_found_on_one_of_several_is_not_offered_as_clean(talk: Talk) -> None:
    talk.say("hoya 12 citrus mealybugs")
    talk.evening()
    talk.say("ivy and orchid clean, 4 citrus mealybugs on the hoya")
    if "Yes" in talk.labels():
        talk.press("Yes")
    assert not any("Clean too" in label for label in talk.labels())
    assert {name for name, one in talk.told() if isinstance(one, CheckedClean)} == {"ivy", "moth orchid"}
    assert [one.count for name, one in talk.told() if name == "hoya" and isinstance(one, Found)] == [12, 4]


@pytest.mark.parametrize(
    "text",
    ["bought 4 sticky cards", "i have got a loupe and new gloves now", "hung a yellow card by the ivy"],
)
def test_things_no_list_is_kept_of_are_taken_note_of(talk: Talk, text: str) -> None:
    before = talk.told()
    assert "Good to have" in talk.say(text)[0]
    assert talk.told() == before


@pytest.mark.parametrize(
    "text", ["put the ivy in a new pot", "yellow card on the ivy, 7 gnats", "got soap in a bottle"]
)
def test_what_tells_more_than_that_is_no_such_thing(talk: Talk, text: str) -> None:
    assert "Good to have" not in "\n".join(talk.say(text))


@pytest.mark.parametrize("text", ["how much neem do I mix", "how much neem do I put in the water"])
def test_a_mixture_of_what_is_not_at_hand_is_told_for_a_litre(talk: Talk, text: str) -> None:
    assert talk.say(text)[0].startswith("For 1 L:")


def test_of_several_answers_to_a_question_none_is_offered_as_told(talk: Talk) -> None:
    talk.say("got neem oil")
    talk.say("mix 1 litre of neem")
    talk.say("hoya 12 citrus mealybugs")
    assert not any("ready to use" in one for one in talk.evening())
    assert not any(isinstance(one, Postponed) for _, one in talk.told())


@pytest.mark.parametrize(
    "text",
    [
        "Well well! And what, tell me, is a 'clean-out'?",
        "I am confused. What on earth is a clean-out, and do I need oil?",
        "so what do you mean by a clean out",
    ],
)
def test_a_term_is_explained_wherever_it_is_asked_for(talk: Talk, text: str) -> None:
    assert any("unpot" in answer.casefold() for answer in talk.say(text))


def test_the_first_find_offers_how_its_handwork_is_done(talk: Talk) -> None:
    talk.say("hoya 12 citrus mealybugs")
    assert any("•" in answer for answer in talk.press("How"))


def test_a_plan_said_back_is_not_written_as_done(talk: Talk) -> None:
    talk.say("hoya 12 citrus mealybugs")
    for text in (
        "tonight wipe the hoya",
        "so, prune, swab, oil, fine",
        "tonight - wipe the hoya and that is it",
    ):
        talk.say(text)
    assert not any(isinstance(one, Treated) for _, one in talk.told())


def test_what_was_just_written_is_denied_in_any_words(talk: Talk) -> None:
    talk.say("sprayed the ivy with soap")
    assert any(isinstance(one, Treated) for _, one in talk.told())
    talk.say("hang on, I haven't done it, that was only a question - it's for tonight")
    talk.press("Delete it")
    assert not any(isinstance(one, Treated) for _, one in talk.told())


def test_what_is_not_denied_of_an_offer_is_offered(talk: Talk) -> None:
    talk.say("perhaps pruned the ivy and swabbed the ivy and rinsed the ivy")
    assert "Yes" in talk.labels()
    talk.say("no, I did not swab")
    talk.press("Yes")
    assert {one.method.value for _, one in talk.told() if isinstance(one, Treated)} == {"prune", "rinse"}


def test_a_find_on_a_plant_that_is_new_is_kept_through_the_key(stranger_talk: Talk) -> None:
    for text in (
        "/start",
        "Ghent",
        "fern in the hall",
        "west",
        "thin silvery slivers that run, on the begonia",
    ):
        stranger_talk.say(text)
    if "It runs, jumps or flies" in stranger_talk.labels():
        stranger_talk.press("It runs, jumps or flies")
    stranger_talk.say("begonia, in the porch")
    stranger_talk.press("Many")
    assert [(name, one.pest) for name, one in stranger_talk.told() if isinstance(one, Found)] == [
        ("begonia", "western_flower_thrips")
    ]


@pytest.mark.parametrize(
    ("text", "where"),
    [
        (
            "den has the fern and the aloe, just a lamp - porch has the mint and the sage - all well",
            {"den": {"fern", "aloe"}, "porch": {"mint", "sage"}},
        ),
        (
            "Fern, den. Mint, sage, porch. Basil, aloe, landing.",
            {"den": {"Fern"}, "porch": {"Mint", "sage"}, "landing": {"Basil", "aloe"}},
        ),
        (
            "Did you hear me on the porch?? Mint and sage are in there and it looks east!!",
            {"porch": {"Mint", "sage"}},
        ),
    ],
)
def test_each_plant_stands_where_its_own_clause_says(
    stranger_talk: Talk, text: str, where: dict[str, set[str]]
) -> None:
    for said in ("/start", "Ghent", "pothos in the attic", "north", text):
        stranger_talk.say(said)
    if "Yes" in stranger_talk.labels():
        stranger_talk.press("Yes")
    held = "\n".join(stranger_talk.say("places"))
    for room, plants in where.items():
        line = next(one for one in held.splitlines() if one.startswith((f"{room}:", f"{room} (")))
        assert all(one.casefold().split()[0] in line.casefold() for one in plants), line


def test_the_name_below_a_letter_is_no_plant(stranger_talk: Talk) -> None:
    for said in ("/start", "Ghent", "fern in the hall", "west"):
        stranger_talk.say(said)
    answer = "\n".join(
        stranger_talk.say("Dear bot,\n\nI have neem oil and soap in the house.\n\nWith every good wish,\nAda")
    )
    assert "Ada" not in answer
    assert "neem" in answer


def test_hard_shields_that_are_not_sticky_lead_to_the_key(talk: Talk) -> None:
    assert "fingernail" in talk.say("20 hard round shields on the ivy. Not sticky.")[0]
    talk.press("A lid lifts off a soft body")
    assert "armoured scale" in "\n".join(talk.labels())


@pytest.mark.parametrize(
    "text",
    [
        "ivy is alive, orchid is dead",
        "threw the orchid out, kept the ivy",
        "the ivy survived but the orchid died",
    ],
)
def test_what_lives_is_not_lost_beside_what_died(talk: Talk, text: str) -> None:
    talk.say(text)
    if "Yes" in talk.labels():
        talk.press("Yes")
    assert {name for name, one in talk.told() if isinstance(one, LostNow)} <= {"moth orchid"}


@pytest.mark.parametrize(
    "text",
    [
        "hoya: wiped yes, soaped no",
        "I have not moved the hoya",
        "not the hoya but the ivy has 4 mealybugs",
        "not done yet, will do it tonight",
        "fresh mix for the hoya is on order",
    ],
)
def test_what_is_only_denied_is_not_put_off(talk: Talk, text: str) -> None:
    talk.say("hoya 12 citrus mealybugs")
    talk.evening()
    talk.say(text)
    assert not any(isinstance(one, Postponed) for _, one in talk.told())


@pytest.mark.parametrize("text", ["no I didn't", "nope, not done", "I haven't done it"])
def test_a_short_denial_asks_of_what_was_just_written(talk: Talk, text: str) -> None:
    talk.say("sprayed the ivy with soap")
    talk.say(text)
    assert "Delete it" in talk.labels()


@pytest.mark.parametrize(
    "text",
    [
        "basil in the den and we used to have a fern there",
        "in the den a basil. if only I had a fern there too",
    ],
)
def test_a_plant_that_is_past_or_thought_of_is_not_added_unasked(stranger_talk: Talk, text: str) -> None:
    for said in ("/start", "Ghent", text):
        stranger_talk.say(said)
    assert "Yes" in stranger_talk.labels(), "it is asked, not written"


def test_a_mark_within_a_run_of_words_ends_no_reading() -> None:
    assert understand("From now on we should like to do our Done! checks on Mondays and Thursdays", EVENING)
