"""Messages torn, shuffled and glued together: the bot always answers, and never raises."""

import random
from datetime import timedelta

import pytest

from bot.messages import MAX_TEXT
from tests.journeys.talking import Talk
from tests.phrases.situation import table

KNOWN = [wording for name in ("golden.tsv", "wordings.tsv") for wording, _ in table(name)]
WORDS = sorted({word for wording in KNOWN for word in wording.split()})
NOISE = ("%", "1:20", "0", "-1", "1e9", "½", "9" * 40, "\n", "é", "\U0001fab4", "5 ml per banana", "200%")
MESSAGES = 250


def torn(chance: random.Random) -> str:
    """Change a known wording."""
    words = chance.choice(KNOWN).split()
    match chance.randrange(5):
        case 0:
            chance.shuffle(words)
        case 1:
            words.insert(chance.randrange(len(words) + 1), chance.choice(WORDS))
        case 2:
            words += [chance.choice((",", "and", ".")), *chance.choice(KNOWN).split()]
        case 3:
            words.insert(chance.randrange(len(words) + 1), chance.choice(NOISE))
        case _:
            pass
    return " ".join(words)


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_whatever_is_said_or_pressed_is_answered(talk: Talk, seed: int) -> None:
    chance = random.Random(seed)
    for _ in range(MESSAGES):
        buttons = [button for row in talk.shown[1][-1].buttons for button in row]
        if buttons and chance.random() < 0.15:
            answers = talk.press_data(chance.choice(buttons).data)
        else:
            answers = talk.say(torn(chance))
        assert answers
        assert all(0 < len(answer) <= MAX_TEXT for answer in answers)
        if chance.random() < 0.1:
            talk.now += timedelta(days=chance.randrange(9))
            talk.evening()


def test_a_number_nobody_can_mean_is_no_temperature(talk: Talk) -> None:
    before = talk.entries()
    talk.say("m1:20x01 l999999999999999999999999999999 f n em")
    talk.say("landing is 99999999999999999999999999 f")
    assert talk.entries() == before


@pytest.mark.parametrize(
    "text",
    [
        "5 mL per banana for a litre of neem",
        "mix 0 ml",
        "got neem concentrate, every 0 days",
        "got neem concentrate, every 400 days",
        "landing is -40 degrees",
        "landing is 90 degrees",
        "hoya 3 dragonflies",
        "mix a litre of soap at 200%",
    ],
)
def test_nonsense_is_refused_and_half_written_nowhere(talk: Talk, text: str) -> None:
    before = talk.entries()
    assert talk.say(text)[0]
    assert talk.entries() == before
