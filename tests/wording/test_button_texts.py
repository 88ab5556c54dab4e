"""Every button has its words, and they fit."""

import pytest

from bot.actions.action import ButtonText, Choice
from bot.wording.button_texts import BUTTON_TEXTS, LONGEST, button_text


@pytest.mark.parametrize("text", ButtonText, ids=lambda text: text.value)
def test_every_button_has_words_that_fit(text: ButtonText) -> None:
    assert 0 < len(BUTTON_TEXTS[text]) <= LONGEST
    assert "!" not in BUTTON_TEXTS[text]


def test_no_two_buttons_say_the_same() -> None:
    said = [text.casefold() for text in BUTTON_TEXTS.values()]
    assert len(said) == len(set(said)), "typed, neither could be told from the other"


def test_a_name_is_put_in_as_it_is_and_cut_where_it_is_too_long() -> None:
    assert button_text(Choice(ButtonText.TAKE_OFF, (), "{of} & <b>")) == "Take {of} & <b> off"
    assert button_text(Choice(ButtonText.ADD, (), "x" * 90)) == f"Add {'x' * 35}…"
    assert button_text(Choice(ButtonText.ADD, (), "x" * 36)) == f"Add {'x' * 36}"
