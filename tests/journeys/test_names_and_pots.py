"""What things are called, how wide their pots are, where they stand: told, told otherwise, taken back."""

import pytest

from bot.domain.journal import PlaceGone, PlantRenamed, PlantSet, Treated
from tests.journeys.talking import Talk


@pytest.mark.parametrize(
    "text",
    [
        "rename ivy to Green Curtain",
        "call the ivy Green Curtain",
        "ivy is now named Green Curtain.",
    ],
)
def test_a_plant_is_called_otherwise_and_answers_to_the_new_name(talk: Talk, text: str) -> None:
    assert talk.say(text) == ["Written: ivy is called Green Curtain now."]
    assert talk.say("green curtain 3 spider mites")[0].startswith("Written: 3 spider mites on Green Curtain.")
    # The old name is still a kind, and no other ivy is there: it is asked, and nothing is written.
    assert talk.say("ivy clean")[0].endswith("did you look at it? Not written yet.")
    talk.say("undo")
    assert talk.say("undo")[0] == "Taken back: today: Green Curtain another name."
    assert [plant.name for plant in talk.home.living][-1] == "ivy"


def test_no_two_plants_and_no_two_places_bear_one_name(talk: Talk) -> None:
    before = len(talk.entries())
    assert talk.say("rename ivy to Small Hoya")[0].startswith("Small Hoya is another's name already")
    assert talk.say("rename study to kitchen")[0].startswith("kitchen is another's name already")
    assert talk.new_since(before) == []


def test_a_name_for_which_several_plants_come_into_question_is_asked_back(talk: Talk) -> None:
    talk.say("rename hoya to big hoya")
    before = len(talk.entries())
    assert talk.say("call the hoya Bertha")[0].startswith("Which plant is that about?")
    assert talk.say("hoya has a 20 cm pot")[0].startswith("Which plant is that about?")
    assert talk.new_since(before) == []


@pytest.mark.parametrize(
    "text", ["call the vet", "rename x to y", "call the hoya done", "the hoya is called"]
)
def test_what_is_no_name_renames_nothing(talk: Talk, text: str) -> None:
    before = len(talk.entries())
    talk.say(text)
    assert talk.new_since(before) == []


@pytest.mark.parametrize(
    ("text", "width"),
    [
        ("ivy has a 20 cm pot", 20.0),
        ("the ivy is in a 20cm pot now", 20.0),
        ("ivy's pot is 20 cm wide", 20.0),
        ("ivy is in an 8 inch pot", 20.32),  # 8 x 2.54 = 20.32 cm: NIST Handbook 44, appendix C
    ],
)
def test_the_width_of_a_pot_is_kept_and_reckoned_with(talk: Talk, text: str, width: float) -> None:
    before = len(talk.entries())
    talk.say(text)
    assert talk.new_since(before) == [PlantSet(pot_cm=width)]
    assert [plant.pot_cm for plant in talk.home.living][-1] == width


def test_repotting_into_a_wider_pot_is_a_treatment_and_a_width(talk: Talk) -> None:
    before = len(talk.entries())
    answer = talk.say("repotted the ivy into a 24 cm pot")
    assert answer == ["Written: ivy repotted.\n\nWritten: ivy in a pot of 24 cm."]
    assert [type(one) for one in talk.new_since(before)] == [Treated, PlantSet]
    talk.say("undo")
    assert [plant.pot_cm for plant in talk.home.living][-1] is None


@pytest.mark.parametrize(
    "text", ["ivy has a 500 cm pot", "ivy has a 0 cm pot", "ivy has a cm pot", "is ivy in a 20 cm pot?"]
)
def test_no_pot_is_half_a_metre_wide_and_a_question_writes_none(talk: Talk, text: str) -> None:
    before = len(talk.entries())
    talk.say(text)
    assert talk.new_since(before) == []


def test_a_place_goes_once_nothing_stands_there(talk: Talk) -> None:
    before = len(talk.entries())
    assert talk.say("remove kitchen") == [
        "moth orchid and coffee plant stand at kitchen, so nothing is written. Move them first."
    ]
    assert talk.new_since(before) == []
    talk.say("moved orchid and coffee plant to the study")
    assert talk.say("remove the kitchen") == ["Written: kitchen is no place of yours any more."]
    assert talk.say("places") == [
        "landing (no window): hoya and small hoya\nstudy (looks north): moth orchid, coffee plant and ivy"
    ]
    assert talk.say("undo") == ["Taken back: today: a place removed."]
    assert "kitchen (looks north): nothing there" in talk.say("places")[0]


def test_a_place_to_which_plants_come_back_by_a_taking_back_is_there_again(talk: Talk) -> None:
    talk.joins()
    talk.say("moved orchid and coffee plant to the study")
    talk.say("remove the kitchen", person=2)
    talk.say("undo")  # the other's move, told before the place was let go of
    assert any(isinstance(one, PlaceGone) for _, one in talk.told())
    assert talk.say("where is the orchid") == ["kitchen (looks north): moth orchid and coffee plant"]


def test_names_and_places_go_along_to_another_home(talk: Talk) -> None:
    talk.set_up(
        ("rename ivy to Green Curtain", "moved orchid and coffee plant to the study", "remove kitchen")
    )
    assert any(isinstance(one, PlantRenamed) for _, one in talk.told())
    assert [place.name for place in talk.home.places.values()] == ["landing", "study"]


@pytest.mark.parametrize(
    "words",
    [
        "hoya and ivy are both crassulas",
        "the ivy is a crassula, and so is the hoya",
        "the hoya is a kind of jade",
    ],
)
def test_a_kind_that_is_told_says_what_hurts_a_plant(talk: Talk, words: str) -> None:
    """That soap hurts a jade plant is from memory, as its kind in the catalogue says; of a hoya nothing is known."""
    assert "soap on hoya: yes" in talk.asks("can I use soap on the hoya")
    before = len(talk.home.living)
    assert "Not for it: insecticidal soap" in talk.say(words)[0]
    assert "soap on hoya: no, this plant is hurt by it" in talk.asks("can I use soap on the hoya")
    assert len(talk.home.living) == before
