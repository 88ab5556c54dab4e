"""What is asked of the plan, in many words, and in one breath with what is told."""

from pathlib import Path

import pytest

from bot.actions.ask import Ask, Topic
from bot.actions.courtesy import Help
from bot.actions.incomplete import Incomplete
from bot.actions.log_round import LogRound
from bot.actions.not_understood import NotUnderstood
from bot.domain.value import replace
from bot.phrases.answering import read_ticks
from bot.phrases.forms.rows import ASKED_IN_MANY_WORDS
from bot.phrases.hearing import heard, understand
from bot.phrases.notation import notation
from bot.phrases.text import plain, words_of
from bot.rehearsal import read_situation
from tests.phrases.situation import EVENING, KNOWLEDGE
from tests.tools.train import QUESTIONS

HOME = read_situation(
    """
now = 2026-09-15T19:40:00
places = ["porch", "den"]
plants = [{names = ["clivia"], place = "porch"}, {names = ["aralia"], place = "den"},
  {names = ["lime"], place = "den"}]
shelf = [{ingredient = "soap"}, {ingredient = "spinosad"}]
tonight = [{plant = "clivia", method = "wipe"}, {plant = "aralia", method = "prune"},
  {plant = "lime", method = "rinse"}]
""",
    KNOWLEDGE,
)


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("can we leave pruning out?", "ask instead"),
        ("could I skip the wiping", "ask instead"),
        ("is pruning really necessary?", "ask instead"),
        ("how far from the other plants?", "ask how isolate"),
        ("what do I use against spider mites", "ask about spider_mite"),
        ("what works against thrips?", "ask about western_flower_thrips"),
        ("why is everything still isolated", "ask isolated"),
        ("which day is it over", "ask release"),
        ("how long do they have to stay by themselves", "ask release"),
        ("so what is it then tonight", "ask due"),
        ("what was done to the lime so far, can you tell me?", "ask log lime"),
        ("can you tell me what has happened to the clivia", "ask log clivia"),
        ("what did I do with the aralia last week, can you tell me", "ask log aralia when=last-week"),
        ("what is left for tonight then", "ask due"),
        ("I'd like to see what is due", "ask due"),
        ("how did you get that date", "ask why"),
        ("howmany sprays left", "ask why"),
        ("can my other plants catch it", "ask term spread"),
        ("do mealybugs fly?", "ask term spread"),
        ("do the eggs hatch after the spray?", "ask term eggs"),
        ("will the clivia live", "ask term survival"),
        ("may i take half of the soap", "ask term strength"),
        ("can the lime get plant food", "ask term feeding"),
        ("how often should i water the aralia", "ask term feeding"),
        ("may i use that soil again", "ask term reuse"),
        ("may the aralia go out on the terrace", "ask term moving"),
        ("would the soap hurt my cat", "ask safety product=soap"),
        ("can I spray with the baby in the room", "ask safety"),
    ],
)
def test_what_is_asked_is_answered(text: str, meaning: str) -> None:
    assert notation(understand(text, HOME), HOME) == meaning


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("the clivia yes the aralia no", "done clivia"),
        ("clivia and lime: y, aralia: n", "done clivia lime"),
        ("aralia yep, the rest nope", "done aralia"),
        ("aralia done, clivia in the morning", "done aralia"),
    ],
)
def test_what_is_still_to_come_is_not_written_as_done(text: str, meaning: str) -> None:
    assert notation(understand(text, HOME), HOME) == meaning


def test_a_plant_of_which_nothing_is_asked_tonight_is_not_ticked_off() -> None:
    situation = replace(HOME, tonight=HOME.tonight[:1])
    assert "done" not in notation(understand("aralia yes, clivia no", situation), situation)


@pytest.mark.parametrize("text", ["why 27 september?", "and why on 27 september"])
def test_why_of_a_day_is_of_that_day(text: str) -> None:
    assert understand(text, HOME) == (Ask(topic=Topic.WHY, on=HOME.today.replace(day=27)),)


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("wiped the clivia. what's left tonight?", "done clivia method=wipe + ask due"),
        ("long day today, what do I do tonight", "ask due"),
    ],
)
def test_what_is_told_and_asked_in_one_breath_is_both(text: str, meaning: str) -> None:
    assert notation(understand(text, HOME), HOME) == meaning


@pytest.mark.parametrize(
    ("text", "answered"),
    [
        ("wiped the clivia what's next", "ask due + ask meant"),
        ("moved the lime to the porch what do I do tonight", "ask due + ask meant"),
        ("clivia to be sprayed, when is it due", None),
        ("lime washed when it is warmer", None),
        ("got it wrong, how do I undo", None),
    ],
)
def test_what_stands_before_a_question_without_a_stop_is_offered(text: str, answered: str | None) -> None:
    reading = heard(text, HOME)
    assert all(isinstance(one, Ask | Help | NotUnderstood | Incomplete) for one in reading.sure)
    assert answered is None or notation(understand(text, HOME), HOME) == answered


@pytest.mark.parametrize(
    "text",
    [
        "That was the last of the soap",
        "clivia just looked at. clean. it is the lime I pruned back",
        "It was the day before yesterday I sprayed them, the clivia and the lime, all two",
        "no messages after 22:00, this is the night rest",
        "lime wiped. They were the worst of the lot",
    ],
)
def test_what_is_said_of_a_thing_just_named_is_no_question(text: str) -> None:
    reading = heard(text, HOME)
    told = (*reading.sure, *(command for offer in reading.offers for command in offer.commands))
    assert not any(isinstance(one, Ask) for one in told)


@pytest.mark.parametrize(
    "text", ["clivia yes or no", "clivia yes no", "not the clivia, lime yes", "was clivia yes"]
)
def test_what_is_no_tick_is_none(text: str) -> None:
    assert read_ticks(words_of(plain(text)), HOME) is None


@pytest.mark.parametrize(
    "text", ["i'm afraid i don't know how this works, can you explain", "no idea what you want me to do"]
)
def test_what_is_not_known_is_not_put_off(text: str) -> None:
    assert "later" not in notation(understand(text, HOME), HOME)


@pytest.mark.parametrize("text", ["is alcohol more strong than soap", "is spinosad better or the soap"])
def test_a_comparison_puts_nothing_on_the_shelf(text: str) -> None:
    assert "stock" not in notation(understand(text, HOME), HOME)


@pytest.mark.parametrize("text", ["what did Ruben eat on sunday with the neighbours", "how was your day"])
def test_what_is_beyond_is_never_the_due_list(text: str) -> None:
    told = understand(text, HOME)
    assert not any(isinstance(one, Ask) and one.topic is Topic.DUE for one in told)
    assert all(isinstance(one, Ask | NotUnderstood) for one in told)


def test_what_is_asked_in_many_words_has_templates() -> None:
    assert {f"ask.term.{key}" for key in ASKED_IN_MANY_WORDS} == {
        file.stem for file in QUESTIONS.glob("ask.term.*.txt")
    }


@pytest.mark.parametrize(
    "text",
    [
        "now which one stands apart",
        "and which of them is with the others",
        "then which plants are wiped with soap",
    ],
)
def test_which_of_them_asks_and_tells_nothing(text: str) -> None:
    assert all(isinstance(one, Ask | Help | NotUnderstood | Incomplete) for one in heard(text, HOME).sure)


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("what is toxic?", "ask safety"),
        ("harmful?", "ask safety"),
        ("can cats be near the clivia?", "ask safety clivia"),
        ("why cant i eat the clivia", "ask eating clivia"),
    ],
)
def test_what_is_dangerous_or_eaten_is_answered_by_its_word(text: str, meaning: str) -> None:
    assert notation(understand(text, HOME), HOME) == meaning


@pytest.mark.parametrize("text", ["all done before bed", "let me have all done before bed", "roughly done"])
def test_what_is_only_wished_or_not_quite_done_is_offered(text: str) -> None:
    assert not any(isinstance(one, LogRound) for one in understand(text, EVENING))


ANSWERS_TO = {
    "due": ("ask due", "ask with"),
    "with": ("ask with", "ask how"),
    "fit": ("ask fit",),
    "how": ("ask how", "ask steps"),
    "order": ("ask order", "ask due"),
    "why": ("ask why", "ask late"),
    "when": ("ask due", "ask after", "ask release"),
    "instead": ("ask instead", "ask fit", "ask dish"),
    "buy": ("ask buy",),
}


def test_questions_of_ten_people_nobody_trained_on_are_answered() -> None:
    """
    Ten people's 440 questions of an evening, wrapped as people wrap them; first run, 1 December 2026: 283 and 24.

    Before 1,100 of others were taught it was 136; since then a rule or two was chosen by them. 293 and 34 before
    900 questions of twelve more people were taught, which brought 306 and 37.
    """
    right = wrong = 0
    for file in sorted((Path(__file__).parent / "questions_unseen").glob("*.tsv")):
        for line in file.read_text("utf-8").splitlines():
            key, _, text = line.partition("\t")
            text = text.replace("{p}", "hoya").replace("{q}", "oil").replace("{l}", "kitchen")
            said = notation(heard(text, EVENING).sure, EVENING)
            is_asked = any(each.startswith(("ask ", "help", "mix")) for each in said.split(" + "))
            is_right = any(one in said for one in ANSWERS_TO.get(key, ())) or (
                key == "nothing" and not is_asked
            )
            right, wrong = right + is_right, wrong + (is_asked and not is_right)
    assert right >= 303
    assert wrong <= 37
