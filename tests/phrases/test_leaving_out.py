"""What is taken back in the same breath is not read, and what is denied or listed is no taking back."""

import pytest

from bot.phrases.hearing import understand
from bot.phrases.leaving_out import told_of
from bot.phrases.notation import notation
from tests.phrases.situation import EVENING


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("gave the hoya a wipe, sorry a spray", "gave the hoya a spray"),
        ("sprayed no wiped the hoya", "wiped the hoya"),
        ("sprayed the orchid, oops, the hoya", "sprayed the hoya"),
        ("two, nah three days ago I sprayed the hoya", "three days ago i sprayed the hoya"),
        ("hoya later, till friday, no, saturday", "hoya later, till saturday"),
        ("write to me at 8, make that half 9", "write to me at half 9"),
        ("7 aphids, mealybugs I mean, on the hoya", "7 mealybugs , on the hoya"),
        ("mix a litre, sorry 750 ml of soap", "mix 750 ml of soap"),
        ("the hoya's 5, no, 6 mites", "the hoya's 6 mites"),
    ],
)
def test_what_the_next_words_set_right_is_left_out(text: str, meant: str) -> None:
    assert told_of(text, EVENING) == meant


@pytest.mark.parametrize(
    "text",
    [
        "no mites, no aphids on the hoya",
        "hoya no 2 has 3, no 4 has 7",
        "did not do the hoya, sorry, the orchid is done",
        "not the hoya, I meant the orchid",
        "hoya yes, orchid no, coffee yes",
        "hoya sprayed, wait, is that enough?",
        "sprayed the hoya, actually wiped it too",
        "said 14, meant 5",
    ],
)
def test_what_is_denied_listed_or_put_right_later_stays(text: str) -> None:
    assert told_of(text, EVENING) == text


def test_what_is_taken_back_is_not_written() -> None:
    assert notation(understand("sprayed the orchid, no wait, the hoya", EVENING), EVENING) == notation(
        understand("sprayed the hoya", EVENING), EVENING
    )


def test_fragments_between_slashes_are_parts_of_one_message() -> None:
    assert notation(understand("hoya sprayed / orchid clean", EVENING), EVENING) == notation(
        understand("hoya sprayed, orchid clean", EVENING), EVENING
    )


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("moved the hoya away from the ivy", "isolate hoya"),
        ("the hoya stands apart from the ivy and the orchid now", "isolate hoya"),
        ("put the coffee away from ivy", "isolate coffee"),
        ("ivy is away from the others now", "isolate ivy"),
    ],
)
def test_of_what_a_plant_is_moved_away_from_nothing_is_told(text: str, meaning: str) -> None:
    assert notation(understand(text, EVENING), EVENING) == meaning


@pytest.mark.parametrize(
    "text",
    [
        "all sprayed apart from the ivy",
        "treated them apart from the orchid",
        "all done aside from the orchid",
        "it is clean apart from the ivy",
    ],
)
def test_apart_from_a_plant_leaves_it_out(text: str) -> None:
    assert told_of(text, EVENING) == text


def test_who_is_told_of_behind_and_is_no_plant_that_another_is_moved_from() -> None:
    text = "kept the orchid away from the hoya and ivy sprayed"
    assert notation(understand(text, EVENING), EVENING) == "isolate orchid + done ivy method=spray"


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("Dear Ada,\nhoya sprayed.\nKind regards,\nBo", "hoya sprayed."),
        ("Good evening Ada, hoya sprayed", "hoya sprayed"),
        ("No, thanks, Ivy", "No, thanks, Ivy"),
        ("hello wait, ivy sprayed", "hello wait, ivy sprayed"),
        ("evening postponed: hoya", "evening postponed: hoya"),
        ("ivy sprayed. Cheers, Coffee next", "ivy sprayed. Cheers, Coffee next"),
        ("hoya sprayed. With gratitude, Ileana", "hoya sprayed."),
        ("hi hoya, sprayed it", "hi hoya, sprayed it"),
        ("thanks, hoya sprayed", "thanks, hoya sprayed"),
        ("Yours, Bo", "Yours, Bo"),
    ],
)
def test_what_a_letter_opens_and_ends_with_is_left_out(text: str, meant: str) -> None:
    assert told_of(text, EVENING) == meant


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("moved the ivy away, wiped the dust from the hoya", "isolate ivy + done hoya method=wipe"),
        ("isolated ivy and wiped bugs from the hoya", "isolate ivy + done hoya method=wipe"),
        (
            "moved the hoya away from the ivy and orchid to the kitchen",
            "isolate hoya + move hoya place=kitchen",
        ),
        ("moved the hoya to the study, away from the ivy", "isolate hoya + move hoya place=study"),
    ],
)
def test_from_is_of_its_own_clause(text: str, meaning: str) -> None:
    assert notation(understand(text, EVENING), EVENING) == meaning


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("Ivy (my aunt) wiped the hoya", "my aunt wiped the hoya"),
        ("Ivy, our lovely neighbour, rinsed the orchid", "our lovely neighbour rinsed the orchid"),
        ("my cousin Ivy pruned the hoya", "my cousin pruned the hoya"),
        ("the orchid was wiped by Ivy", "the orchid was wiped"),
        ("wiped the orchid by the ivy", "wiped the orchid"),
        ("orchid rinsed by my wife Ivy", "orchid rinsed by my wife"),
        ("Ivy from next door treated our orchid", "treated our orchid"),
        ("Ivy and I wiped the orchid", "i wiped the orchid"),
        ("Ivy noticed 3 mites on the hoya", "noticed 3 mites on the hoya"),
        ("hoya is wiped, Ivy rinsed the orchid", "hoya is wiped, rinsed the orchid"),
    ],
)
def test_a_plants_name_that_is_a_persons_is_left_out(text: str, meant: str) -> None:
    assert told_of(text, EVENING) == meant


@pytest.mark.parametrize(
    "text",
    [
        "ivy sprayed the orchid too",
        "ivy wiped the orchid clean",
        "ivy sprayed, the orchid wiped",
        "ivy, orchid and hoya sprayed",
        "gave my friend ivy and hoya cuttings",
        "wiped the hoya, ivy and my aunt's orchid, too",
        "put the hoya by the ivy",
    ],
)
def test_a_plants_name_that_is_a_plants_stays(text: str) -> None:
    assert told_of(text, EVENING) == text
