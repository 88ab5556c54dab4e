"""Texts that set a household up."""

from datetime import time

import pytest

from bot.actions.action import ButtonText, Choice, Command, Expecting
from bot.actions.add_plants import AddPlants, NewPlant
from bot.actions.begin_talk import BeginTalk
from bot.actions.courtesy import Help
from bot.actions.hold import Hold
from bot.actions.log_round import LogRound
from bot.actions.not_understood import NotUnderstood
from bot.actions.set_hours import SetHours
from bot.actions.set_place import SetPlace
from bot.actions.set_town import SetCoordinates, SetTown
from bot.actions.undo import Undo
from bot.domain.value import replace
from bot.domain.window import Facing, Outdoors
from bot.phrases.hearing import understand
from tests.phrases.situation import EVENING, HOYA, KITCHEN, LANDING

WAITING = {expecting: replace(EVENING, expecting=expecting) for expecting in Expecting}


@pytest.mark.parametrize(
    ("text", "command"),
    [
        ("/start", BeginTalk()),
        ("/start K7-x", BeginTalk("K7-x")),
        ("/START@a_bot K7", BeginTalk("K7")),
        ("I live in Ghent", SetTown("Ghent")),
        ("town Sint-Niklaas", SetTown("Sint-Niklaas")),
        ("51.05, 3.73", SetCoordinates(51.05, 3.73)),
        ("nudge me at 20:30", SetHours(evening=time(20, 30))),
        ("evening 20:00", SetHours(evening=time(20))),
        ("quiet 22:00-08:00", SetHours(quiet_from=time(22), quiet_until=time(8))),
        ("quiet from 10 pm to 8", SetHours(quiet_from=time(22), quiet_until=time(8))),
        (
            "place landing, no window, light until 18:00",
            SetPlace(name="landing", place_id=LANDING, facing=Facing.NONE, lamp_until=time(18)),
        ),
        ("kitchen sill faces west", SetPlace(name="kitchen sill", facing=Facing.W)),
        ("The loft looks east", SetPlace(name="loft", facing=Facing.E)),
        ("terrace is outdoors, afternoon sun", SetPlace(name="terrace", outdoors=Outdoors.AFTERNOON)),
        ("add place kitchen, west", SetPlace(name="kitchen", place_id=KITCHEN, facing=Facing.W)),
        ("the porch faces south west", SetPlace(name="porch", facing=Facing.SW)),
        ("add place cellar, grow light from 8 to 20", None),
        ("ficus, landing, 15 cm", AddPlants((NewPlant(name="ficus", place="landing", pot_cm=15.0),))),
        ("add Fern, kitchen", AddPlants((NewPlant(name="Fern", place="kitchen"),), is_sure=True)),
        ("new plant: fern, kitchen", AddPlants((NewPlant(name="fern", place="kitchen"),), is_sure=True)),
        ("I'm back", Hold(EVENING.today)),
    ],
)
def test_a_household_is_told_about_at_any_time(text: str, command: Command | None) -> None:
    if command is None:
        command = SetPlace(name="cellar", lamp_from=time(8), lamp_until=time(20))
    assert understand(text, EVENING) == (command,)


@pytest.mark.parametrize(
    ("expecting", "text", "command"),
    [
        (Expecting.TOWN, "Gent", SetTown("Gent")),
        (Expecting.TOWN, "Bath", SetTown("Bath")),
        (Expecting.TOWN, "51.05 3.73", SetCoordinates(51.05, 3.73)),
        (Expecting.TOWN, "help", Help()),
        (Expecting.EVENING, "20:00", SetHours(evening=time(20))),
        (Expecting.EVENING, "8 pm", SetHours(evening=time(20))),
        (Expecting.EVENING, "half past eight", SetHours(evening=time(20, 30))),
        (Expecting.EVENING, "at 8", SetHours(evening=time(20))),
        (Expecting.QUIET, "22-8", SetHours(quiet_from=time(22), quiet_until=time(8))),
        (Expecting.PLACE, "west", SetPlace(name="", facing=Facing.W)),
        (Expecting.PLACE, "no idea", SetPlace(name="", facing=Facing.UNKNOWN)),
        (Expecting.PLACE, "undo", Undo()),
    ],
)
def test_a_bare_answer_fits_the_open_question(expecting: Expecting, text: str, command: Command) -> None:
    assert understand(text, WAITING[expecting]) == (command,)


def test_a_plant_list_keeps_its_lines_and_numbers_its_twins() -> None:
    (added,) = understand("Fern\nmoth orchid (2x), kitchen\n3x Aloe, study, 9 cm", WAITING[Expecting.PLANTS])
    assert isinstance(added, AddPlants)
    assert [plant.name for plant in added.plants] == [
        "Fern",
        "moth orchid 1",
        "moth orchid 2",
        "Aloe 1",
        "Aloe 2",
        "Aloe 3",
    ]
    assert added.plants[1].place == "kitchen"
    assert added.plants[-1].pot_cm == 9.0


def test_a_long_list_may_be_pasted_and_a_long_message_not() -> None:
    lines = "\n".join(f"plant {letter}, kitchen" for letter in "abcdefgh" * 8)
    assert len(lines) > 600
    (added,) = understand(lines, WAITING[Expecting.PLANTS])
    assert isinstance(added, AddPlants)
    assert len(added.plants) == 64
    (refused,) = understand("done " * 200, EVENING)
    assert refused == NotUnderstood(("done " * 200)[:600], reason="too long")


def test_done_is_no_plant_of_the_list() -> None:
    (meant,) = understand("done", WAITING[Expecting.PLANTS])
    assert isinstance(meant, NotUnderstood)


def test_an_offered_answer_may_be_typed() -> None:
    offered = (LogRound(plants=(HOYA,)),)
    choices = (Choice(ButtonText.SPRAYED, offered), Choice(ButtonText.UP_TO_30, ()))
    asked = replace(EVENING, choices=choices, choice_texts=("Sprayed", "Some (up to about 30)"))
    assert understand("sprayd", asked) == offered
    assert understand("Sprayed!", asked) == offered
    assert understand("undo", asked) == (Undo(),)


@pytest.mark.parametrize("expecting", [Expecting.TOWN, Expecting.PLANTS])
@pytest.mark.parametrize(
    "text",
    [
        *(
            "hang on",
            "one sec pls",
            "hi there",
            "guten tag",
            "ok cool",
            "brb",
            "ok let me think",
            "hello bot",
        ),
        *("what do you need that for", "how does this work", "can you help me with thrips", "who are you"),
        *("do i have to list them all", "just a moment, phone", "wait, someone is at the door", "hallo"),
    ],
)
def test_a_word_of_waiting_a_greeting_or_a_question_is_no_town_and_no_plant(
    expecting: Expecting, text: str
) -> None:
    for home in (EVENING, replace(EVENING, plants=(), places=(), shelf=(), tonight=())):
        meant = understand(text, replace(home, expecting=expecting))
        assert not any(isinstance(one, SetTown | AddPlants) for one in meant), meant


@pytest.mark.parametrize(
    ("text", "evening"),
    [
        ("nudge me at 09:00", time(9)),
        ("evening 08:30", time(8, 30)),
        ("nudge me at 7 am", time(7)),
        ("write me at 8", time(20)),
        ("nudge me at 8:30", time(20, 30)),
    ],
)
def test_an_hour_written_with_two_figures_is_meant_as_it_stands(text: str, evening: time) -> None:
    assert understand(text, EVENING) == (SetHours(evening=evening),)
