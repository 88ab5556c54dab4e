"""Several plants in one message: each keeps its own number, and numbers that name plants count nothing."""

import pytest

from bot.actions.action import ButtonText, Choice, Expecting
from bot.actions.log_find import LogFind, grade_choices
from bot.domain.value import replace
from bot.phrases.hearing import heard, understand
from bot.phrases.notation import notation
from bot.rehearsal import read_situation
from bot.wording.button_texts import button_text
from tests.phrases.situation import EVENING, KNOWLEDGE, clauses, offered

STREPS = [("strep", number, "top tier" if number < 9 else "bottom tier") for number in range(1, 13)]
FUCHSIAS = [("fuchsia", number, "porch" if number == 3 else "den") for number in range(1, 6)]
HOYAS = [("hoya", 1, "den"), ("hoya", 2, "porch"), ("hoya", 4, "den")]
OTHERS = {
    "gardenia": "den",
    "medinilla": "den",
    "croton": "bathroom",
    "coleus": "bathroom",
    "kerrii": "den",
    "linearis": "porch",
}
TONIGHT = {
    **{f"strep {number}": "swab" for number in (2, 4, 5, 9)},
    "medinilla": "spray",
    "gardenia": "spray",
    "fuchsia 4": "wipe",
    "croton": "",
    "coleus": "",
}


def _home(asked: dict[str, str]) -> str:
    named = [(f"{name} {number}", place) for name, number, place in (*STREPS, *FUCHSIAS, *HOYAS)]
    plants = [f'{{ names = ["{name}"], place = "{place}" }}' for name, place in (*named, *OTHERS.items())]
    lines = [f'{{ plant = "{one}"{way and f", method = {way!r}"} }}' for one, way in asked.items()]
    return (
        "now = 2026-05-06T20:10:00\n"
        'places = ["top tier", "bottom tier", "den", "porch", "bathroom"]\n'
        f"plants = [{', '.join(plants)}]\n"
        'shelf = [{ ingredient = "soap" }, { ingredient = "spinosad" }, { ingredient = "alcohol" }]\n'
        f"tonight = [{', '.join(lines)}]\n"
    )


QUIET = read_situation(_home({}), KNOWLEDGE)
NUDGE = read_situation(_home(TONIGHT), KNOWLEDGE)


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        (
            "strep 2 and strep 5 and strep 7 have 6 thrips each",
            "find strep_2 strep_5 strep_7 6 pest=western_flower_thrips",
        ),
        ("6 thrips each on gardenia and croton", "find gardenia croton 6 pest=western_flower_thrips"),
        (
            "Thrips on strep 2 strep 3 and strep 8, about six on each",
            "find strep_2 strep_3 strep_8 6 pest=western_flower_thrips",
        ),
        ("both the croton and the coleus have nine mites each", "find croton coleus 9 pest=spider_mite"),
        (
            "gardenia 0, croton 1, medinilla 0, coleus 2, all with lens",
            "none gardenia medinilla level=lens + find croton 1 + find coleus 2",
        ),
        (
            "gardenia 5 mealybugs medinilla 2 croton nothing",
            "find gardenia 5 pest=mealybug + find medinilla 2 pest=mealybug + none croton",
        ),
        ("strep 4 has 3 strep 6 has 2 strep 11 has none", "find strep_4 3 + find strep_6 2 + none strep_11"),
        (
            "I counted four on the croton, none on the coleus and one on kerrii",
            "find croton 4 + none coleus + find kerrii 1",
        ),
        (
            "gardenia has 12 mealybugs in the axils and fuchsia 2 has 3",
            "find gardenia 12 pest=mealybug where=axils + find fuchsia_2 3 pest=mealybug",
        ),
        (
            "the mealybugs are on the hoya kerrii, about twelve of em, and fuchsia 2 has three",
            "find kerrii 12 pest=mealybug + find fuchsia_2 3 pest=mealybug",
        ),
        (
            "gardenia clean\ncroton 2\nmedinilla clean\nstrep 3 1",
            "none gardenia medinilla + find croton 2 + find strep_3 1",
        ),
    ],
)
def test_each_plant_keeps_its_own_number(text: str, meaning: str) -> None:
    assert clauses(notation(heard(text, QUIET).sure, QUIET)) == clauses(meaning)


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("eight mites a leaf on croton and coleus", "find croton coleus 8 pest=spider_mite where=leaf"),
        ("3 mealybugs on gardenia, the same on medinilla", "find gardenia medinilla 3 pest=mealybug"),
        ("Gardenia: white fluff, 12. Also the croton, 5", "find gardenia 12 + find croton 5"),
    ],
)
def test_one_number_for_several_is_asked_whole(text: str, meaning: str) -> None:
    reading = heard(text, QUIET)
    assert not reading.sure
    assert clauses(notation(reading.offers[0].commands, QUIET)) == clauses(meaning)


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("done with strep 2 4 5 and 9", "done strep_2 strep_4 strep_5 strep_9"),
        ("did strep 4 and nine and the fuchsia 4 too", "done strep_4 strep_9 fuchsia_4"),
        ("strep two and nine done", "done strep_2 strep_9"),
        (
            "swabbed strep 2 4 5 and 9 with alcohol",
            "done strep_2 strep_4 strep_5 strep_9 method=swab product=alcohol",
        ),
        ("strep 2 5 7 clean", "none strep_2 strep_5 strep_7"),
        ("strep twelve, eleven and ten are clean", "none strep_10 strep_11 strep_12"),
        ("the whole top tier is done but not four and five", "done strep_2"),
        ("bottom tier all clean except eleven", "none strep_9 strep_10 strep_12"),
        ("strep 2 had 4 and 9 has 3", "find strep_2 4 + find strep_9 3"),
        ("strep 4 3", "find strep_4 3"),
        ("strep 2 four mites", "find strep_2 4 pest=spider_mite"),
        ("3 on strep 4, 2 on strep 5", "find strep_4 3 + find strep_5 2"),
    ],
)
def test_numbers_behind_a_name_are_plants(text: str, meaning: str) -> None:
    assert clauses(notation(heard(text, NUDGE).sure, NUDGE)) == clauses(meaning)


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("all done except four and nine", "done strep_2 strep_5 medinilla gardenia fuchsia_4"),
        ("all done but not four and nine", "done strep_2 strep_5 medinilla gardenia fuchsia_4"),
        ("done all but number nine", "done strep_2 strep_4 strep_5 medinilla gardenia fuchsia_4"),
        ("swabbed two four and five", "done strep_2 strep_4 strep_5 method=swab"),
    ],
)
def test_numbers_without_a_name_are_plants_of_tonight_and_asked(text: str, meaning: str) -> None:
    reading = heard(text, NUDGE)
    assert not reading.sure
    assert clauses(notation(reading.offers[0].commands, NUDGE)) == clauses(meaning)


ALL = "strep_2 strep_4 strep_5 strep_9 medinilla gardenia fuchsia_4"


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("all done, sprayed soap on croton as well", f"done {ALL} + done croton method=spray product=soap"),
        (
            "all done and I sprayed the coleus with soap too",
            f"done {ALL} + done coleus method=spray product=soap",
        ),
        ("everything done and I wiped the kerrii besides", f"done {ALL} + done kerrii method=wipe"),
        (
            "all done, 4 left on gardenia, medinilla 3, strep 2 clean",
            f"done {ALL} + find gardenia 4 + find medinilla 3 + none strep_2",
        ),
        (
            "all done. all clean with lens except croton 1",
            f"done {ALL} + none coleus level=lens + find croton 1",
        ),
        ("all done, wiped the gardenia", f"done {ALL.replace(' gardenia', '')} + done gardenia method=wipe"),
        (
            "done I did the streps except strep 9 cause I ran out of mix and I sprayed the medinilla",
            "done strep_2 strep_4 strep_5 + done medinilla method=spray",
        ),
        ("done, plus soap on the croton", f"done {ALL} + done croton method=spray product=soap"),
        ("done, also wiped the kerrii", f"done {ALL} + done kerrii method=wipe"),
        ("I did the streps", "done strep_2 strep_4 strep_5 strep_9"),
        ("done, not the gardenia", f"done {ALL.replace(' gardenia', '')}"),
    ],
)
def test_all_done_is_told_beside_what_else_was_done(text: str, meaning: str) -> None:
    reading = heard(text, NUDGE)
    told = reading.offers[0].commands if reading.offers else reading.sure
    assert clauses(notation(told, NUDGE)) == clauses(meaning)


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        (
            "I looked at the fuchsias in the den, nothing on any of them",
            "none fuchsia_1 fuchsia_2 fuchsia_4 fuchsia_5",
        ),
        ("fuchsias on the porch clean", "none fuchsia_3"),
        (
            "sprayed the fuchsias in the den with soap",
            "done fuchsia_1 fuchsia_2 fuchsia_4 fuchsia_5 method=spray product=soap",
        ),
        ("looked at the hoyas in the den, none seen", "none hoya_1 hoya_4 kerrii"),
        ("all hoyas on the porch are clean", "none hoya_2 linearis"),
        (
            "moved the fuchsias to the porch",
            "move fuchsia_1 fuchsia_2 fuchsia_3 fuchsia_4 fuchsia_5 place=porch",
        ),
    ],
)
def test_a_group_at_a_place_is_what_stands_there(text: str, meaning: str) -> None:
    assert clauses(notation(heard(text, QUIET).sure, QUIET)) == clauses(meaning)


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("the second fuchsia has 6 aphids", "find fuchsia_2 6 pest=aphid"),
        ("sprayed the fourth strep with soap", "done strep_4 method=spray product=soap"),
    ],
)
def test_an_ordinal_is_most_likely_the_number(text: str, meaning: str) -> None:
    reading = heard(text, QUIET)
    assert not reading.sure
    assert clauses(notation(reading.offers[0].commands, QUIET)) == clauses(meaning)


@pytest.mark.parametrize(
    "text", ["all clean", "none seen", "all clean except strep 9", "nothing on the others"]
)
def test_a_find_that_is_still_asked_about_is_left_out_of_all_clean(text: str) -> None:
    croton = next(one.id for one in NUDGE.plants if one.names[0] == "croton")
    found = (LogFind(plants=(croton,), count=2, pest="scale"),)
    offered = (Choice(ButtonText.YES, found, ""),)
    asked = replace(NUDGE, choices=offered, choice_texts=("Yes",), found_today=frozenset({croton}))
    told = heard(text, asked)
    assert clauses(notation(told.sure, asked)) == clauses("none coleus")


def test_what_is_clean_besides_is_not_all_there_is() -> None:
    assert clauses(notation(heard("all clean, kerrii too", NUDGE).sure, NUDGE)) == clauses(
        "none croton coleus kerrii"
    )


@pytest.mark.parametrize("text", ["8 on each", "8 each", "eight apiece", "about 8 each", "8 on both"])
def test_how_many_on_each_is_answered_for_all_that_were_asked_about(text: str) -> None:
    plants = tuple(one.id for one in QUIET.plants if one.names[0] in {"croton", "coleus"})
    choices = grade_choices(plants, "scale", None)
    texts = tuple(map(button_text, choices))
    asked = replace(QUIET, expecting=Expecting.CHOICE, choices=choices, choice_texts=texts)
    assert clauses(notation(heard(text, asked).sure, asked)) == clauses("find croton coleus 8 pest=scale")


def test_what_one_plant_got_is_written_on_no_other_of_tonight() -> None:
    told = heard("strep 9 swabbed and sprayed with alcohol on monday", NUDGE).sure
    assert {plant for one in told for plant in getattr(one, "plants", ())} == {
        one.id for one in NUDGE.plants if one.names[0] == "strep 9"
    }


@pytest.mark.parametrize("words", ["every leaf", "all the axils", "all stems and every crown"])
def test_all_parts_of_a_plant_just_treated_are_not_all_plants(words: str) -> None:
    for said in (
        f"swabbed the coffee, went over {words}, saw none",
        f"wiped the coffee, checked {words}, none",
    ):
        read_as = notation(offered(understand(said, EVENING)), EVENING)
        assert "none coffee" in read_as
        assert "bay" not in read_as


@pytest.mark.parametrize(
    "text",
    [
        "the ivy is doing fine, hoya sprayed",
        "hoya sprayed, ivy is doing fine",
        "the ivy is big, the hoya is sprayed",
        "ivy has new leaves, sprayed the hoya",
        "hoya sprayed, the ivy and coffee are doing fine",
        "sprayed hoya; ivy stands next to it",
    ],
)
def test_what_is_said_of_how_another_plant_is_writes_nothing_of_it(text: str) -> None:
    reading = heard(text, EVENING)
    told = (*reading.sure, *(each for one in reading.offers[:1] for each in one.commands))
    ivy = next(one.id for one in EVENING.plants if one.names[0] == "ivy")
    assert told
    assert not any(ivy in getattr(one, "plants", ()) for one in told)


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("hoya and ivy sprayed", "done hoya ivy method=spray"),
        ("hoya is sprayed and ivy is too", "done hoya ivy method=spray"),
        ("the hoya is wiped, the ivy is wiped too", "done hoya ivy method=wipe"),
    ],
)
def test_who_is_told_of_in_a_clause_of_its_own_keeps_what_was_done(text: str, meaning: str) -> None:
    assert clauses(notation(heard(text, EVENING).sure, EVENING)) == clauses(meaning)
