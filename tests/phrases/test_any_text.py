"""Whatever is typed, nothing breaks and nothing is written that has no listed verb."""

import re

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from bot.actions.action import Expecting
from bot.actions.add_plants import AddPlants
from bot.actions.correct import Correct
from bot.actions.give_first_aid import GiveFirstAid
from bot.actions.hold import Hold
from bot.actions.isolate import Isolate
from bot.actions.log_round import LogRound
from bot.actions.lose_plant import LosePlant
from bot.actions.mix_batch import Mix
from bot.actions.move_plant import MovePlant
from bot.actions.not_understood import NotUnderstood
from bot.actions.release_plant import ReleasePlant
from bot.actions.set_routine import SetRoutine
from bot.actions.stock_product import StockProduct
from bot.domain.trade import Method
from bot.domain.value import replace
from bot.phrases import grammar, items, text
from bot.phrases.hearing import understand
from bot.phrases.lexicon import FREE, PHRASES, Word
from bot.phrases.notation import notation
from bot.phrases.rates import read_bad_rate
from bot.phrases.reading import ASKED
from tests.phrases.situation import EVENING, table

WORDS = sorted(
    {word for wording, _ in [*table("golden.tsv"), *table("wordings.tsv")] for word in wording.split()}
)
SPOKEN = sorted({" ".join(phrase) for phrase in PHRASES})
DOING = {
    " ".join(phrase)
    for phrase, value in (*PHRASES.items(), *FREE.items())
    if value is Word.DONE or isinstance(value, Method)
}
WRITING = (
    LogRound,
    Isolate,
    MovePlant,
    LosePlant,
    ReleasePlant,
    Hold,
    StockProduct,
    Correct,
    SetRoutine,
    AddPlants,
)
anything = st.text(max_size=80)
phrases = st.lists(st.sampled_from(WORDS + SPOKEN), max_size=12).map(" ".join)
cut = st.tuples(st.sampled_from(WORDS), st.integers(0, 8), st.characters()).map(
    lambda drawn: drawn[0][: drawn[1]] + drawn[2] + drawn[0][drawn[1] + 1 :]
)
mutated = st.lists(st.one_of(st.sampled_from(WORDS), cut), max_size=8).map(" ".join)


@settings(max_examples=300, deadline=None)
@given(st.one_of(anything, phrases, mutated), st.sampled_from(Expecting))
def test_any_text_is_read_without_an_exception(typed: str, expecting: Expecting) -> None:
    situation = replace(EVENING, expecting=expecting)
    meant = understand(typed, situation)
    assert meant
    assert notation(meant, situation)
    assert meant == understand(typed, situation)


@settings(max_examples=300, deadline=None)
@example(typed=".BAY:RNSD")
@given(st.one_of(anything, phrases, mutated))
def test_a_round_is_never_written_without_a_listed_verb(typed: str) -> None:
    meant = understand(typed, EVENING)
    if not any(isinstance(command, LogRound) for command in meant):
        return
    said = " ".join(text.words_of(text.plain(typed)))
    is_listed = any(re.search(rf"\b{re.escape(verb)}\b", said) for verb in DOING)
    is_ticked = text.is_signed(typed) and bool(grammar.plants_named(typed, EVENING))
    is_listed = is_listed or is_ticked or text.is_thumb_up(typed)
    assert is_listed or re.match(r"\W*(all|everything)\b", said)


@pytest.mark.parametrize("typed", ["DNOE✅", "0:00👍", "tomorrow ✅", "thyme ✅", "ok so ✅", "👍 he"])
def test_a_sign_beside_words_that_name_no_plant_writes_no_round(typed: str) -> None:
    assert not any(isinstance(command, LogRound) for command in understand(typed, EVENING))


@settings(max_examples=300, deadline=None)
@given(st.one_of(phrases, mutated))
def test_a_question_mark_never_writes(typed: str) -> None:
    assume(
        not re.search(
            r"[.!?]\s|\n|,\s+(?:\w+ )?(?:wh\w+|how|do|does|did|is|are|can|could|should|would|will)\b",
            typed,
            re.IGNORECASE,
        )
    )
    # what is told before a sentence or clause that asks is told
    meant = understand(f"{typed}?", EVENING)
    assert not any(isinstance(command, WRITING) for command in meant), meant


@settings(max_examples=300, deadline=None)
@given(phrases)
def test_what_is_not_understood_stands_alone_or_beside_an_answer(typed: str) -> None:
    meant = [one for one in understand(typed, EVENING) if not isinstance(one, GiveFirstAid)]  # help in doubt
    lost = [one for one in meant if isinstance(one, NotUnderstood) and one.reason != "asked"]  # "Done! Eh?"
    assert not lost or all(one in lost or isinstance(one, (*ASKED, Mix)) for one in meant)


def test_reading_takes_one_step_a_word() -> None:
    """The lexer moves forward at every step, so the work grows with the length and not faster."""
    steps = []
    for times in (10, 20, 40):
        words = text.words_of(text.plain("hoia and smal orchd 5 " * times))
        steps.append(len(items.items_of(words, EVENING)))
    assert steps[1] == 2 * steps[0]
    assert steps[2] == 4 * steps[0]


def test_no_pattern_repeats_a_repetition() -> None:
    modules = (grammar, items, text)
    patterns = [
        value.pattern
        for module in modules
        for value in vars(module).values()
        if isinstance(value, re.Pattern)
    ]
    assert patterns
    for pattern in patterns:
        assert not re.search(r"\([^()]*[+*][^()]*\)[+*]", pattern.replace("(?:'[^\\W\\d_]+)*", ""))


@pytest.mark.parametrize(
    "typed", ["1 ml per litre, i used 5 g", "5 g", "neem / 5 g", "20 % of 3 g", "5 g per"]
)
def test_a_weight_at_the_end_of_a_message_is_read(typed: str) -> None:
    assert understand(typed, EVENING)


def test_a_rate_by_weight_is_refused_as_one() -> None:
    assert read_bad_rate(("5", "g", "per", "litre")) == NotUnderstood("5 g per litre", reason="rate")
