"""Messages of several things: each piece is read by itself, offered as one, and nothing is told that was not."""

from pathlib import Path

import pytest

from bot.actions.not_understood import NotUnderstood
from bot.actions.situation import Situation
from bot.phrases import cutting
from bot.phrases.cutting import MOST_READ, pieces, read_apart
from bot.phrases.hearing import understand
from bot.phrases.reading import Reading, read, read_piece
from bot.phrases.text import LONGEST
from tests.phrases.hands import drawer, see
from tests.phrases.situation import EVENING, answered, first_offer


@pytest.mark.parametrize(
    ("text", "cut"),
    [
        ("sprayed the hoya. orchid clean", ("sprayed the hoya.", "orchid clean")),
        ("sprayed the hoya 🎸 orchid clean", ("sprayed the hoya", "orchid clean")),
        ("sprayed the hoya - orchid clean\nwhat's next", ("sprayed the hoya", "orchid clean", "what's next")),
        ("hoya! sprayed it", ("hoya! sprayed it",)),
    ],
)
def test_a_message_is_cut_behind_sentences_lines_dashes_and_signs(text: str, cut: tuple[str, ...]) -> None:
    assert pieces(text) == cut


@pytest.mark.parametrize(
    ("text", "told", "asked"),
    [
        (
            "coffee has 3 scale, I put it apart from the rest, and is neem any good?",
            "find coffee 3 pest=scale + isolate coffee",
            "ask",
        ),
        (
            "the orchid lives on the landing now; ivy had 4 mites on it",
            "move orchid place=landing + find ivy 4",
            "",
        ),
        (
            "what is due tomorrow? oh and the ivy got pruned back hard today",
            "done ivy method=prune",
            "ask due",
        ),
    ],
)
def test_what_several_pieces_tell_is_told_and_what_they_ask_isanswered(
    text: str, told: str, asked: str
) -> None:
    said = f"{answered(text)} + {first_offer(text)[0]}"
    for one in told.split(" + "):
        assert set(one.split()) <= set(said.replace("+", " ").split()), said
    assert asked in said


@pytest.mark.parametrize(
    "behind",
    [
        *("Not really.", "Never mind.", "I wish!", "In my dreams.", "Or so I hope."),
        *("well not clean, 3 mites", "nope, 2 mites.", "Just joking, the orchid has mites."),
    ],
)
@pytest.mark.parametrize("told", ["hoya sprayed. orchid clean.", "orchid clean. ivy wiped."])
def test_what_takes_back_what_was_told_before_it_lets_no_piece_befirst_offer(told: str, behind: str) -> None:
    text = f"{told} {behind}"
    assert read_apart(text, read(text, EVENING), EVENING) is None


@pytest.mark.parametrize(
    ("text", "untold"),
    [
        ("I'd love to release the ivy, hoya sprayed", "release"),
        ("Let's say the hoya has 10 mites. How long until it's clean? ivy sprayed", "find"),
        ("after the ivy is sprayed, do I isolate it? hoya has mites", "done ivy"),
        ("kitchen window faces south? hoya sprayed", "done ivy"),
        ("Ivy died? hoya sprayed", "lost"),
        ("plan for tomorrow: hoya sprayed. orchid clean. then ivy", "done"),
        ("tomorrow: spray hoya. wipe orchid. ivy has 3 mites now", "done"),
        ("no, hoya sprayed, orchid clean", "later"),
        ("saw 4 white ones on coffee. mites on ivy, 3. hoya done", "coffee 4 pest"),
        ("moved the ivy to the kitchen. no window there", "place landing"),
        ("thanks, undo that, ivy clean, hoya done", "undo"),
        ("put ivy apart, no, bay. chilli sprayed.", "isolate ivy"),
        ("moved the ivy to the study, no, kitchen; bay sprayed; coffee clean", "study"),
        ("not a single one is clean, hoya and bay", "none hoya bay +"),
    ],
)
def test_no_piece_tells_what_is_wished_supposed_asked_or_of_something_else(text: str, untold: str) -> None:
    assert untold not in f"{answered(text)} + {first_offer(text)[0]}"


@pytest.mark.parametrize(
    "text",
    [
        "nothing on the orchid, I looked as you said (no pests) - hoya is sprayed",
        "the hoya I sprayed, the ivy I didn't, and on the orchid there was nothing, no pests",
    ],
)
def test_what_was_done_is_never_written_as_looked_at(text: str) -> None:
    assert "none hoya" not in answered(text)
    assert "none ivy" not in answered(text)


@pytest.mark.parametrize(
    "text",
    [
        "Ivy and bay have mites. Sprayed them. Chilli clean.",
        "How are the bay and chilli? Sprayed both. Ivy clean.",
        "what a day. did it. bay clean",
        "the fern of my mother looks bad. sprayed it. bay clean",
    ],
)
def test_no_piece_that_points_back_to_nothing_told_takes_the_plants_of_the_evening(text: str) -> None:
    assert "hoya" not in f"{answered(text)} {first_offer(text)[0]}"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("no more mites on the ivy; bay still has some; sprayed both", "done ivy bay method=spray"),
        ("is the chilli safe to eat? sprayed the ivy", "ask eating chilli"),
        ("sprayed the ivy. it was clean", "done ivy method=spray + none ivy"),
    ],
)
def test_what_was_sure_is_sure_still(text: str, told: str) -> None:
    assert told in answered(text)


def test_what_is_not_read_beside_an_answer_is_named() -> None:
    text = "the neem went all wobbly and odd on me, you know. when is the ivy free again?"
    lost = [one.text for one in understand(text, EVENING) if isinstance(one, NotUnderstood)]
    left = first_offer(text)[1]
    assert any("neem" in one for one in (*lost, left)), (lost, left)


SEVERAL = Path(__file__).parent / "several"


@pytest.mark.parametrize(
    ("folder", "right", "untold"),
    [
        ("S1", 176, 9),  # mended on; read whole 81, untold 16 before pieces were read (ad64d5e)
        ("S2", 185, 8),  # not looked at: 111 and 13 before, 183 and 12 at its first run with pieces
    ],
)
def test_two_and_three_things_in_a_message_are_read_as_often_as_they_were(
    folder: str, right: int, untold: int
) -> None:
    """Eight people each, 304 messages, every one with two or three things of different plants."""
    seen = [see(line) for hand in drawer(SEVERAL / folder) for line in hand.lines]
    assert len(seen) == 304
    assert sum(one.is_right for one in seen) >= right
    assert sum(one.untold > 0 for one in seen) <= untold


def test_of_a_long_message_only_so_many_pieces_are_read(monkeypatch: pytest.MonkeyPatch) -> None:
    texts: list[str] = []

    def counted(text: str, situation: Situation) -> Reading:
        texts.append(text)
        return read_piece(text, situation)

    monkeypatch.setattr(cutting, "read_piece", counted)
    long = "the ivy, hoya and the rest, well, and so on, but then the coffee, while orchids; "
    understand((long * 9)[:LONGEST], EVENING)
    assert len(texts) <= MOST_READ + 1
    assert len(texts) == len(set(texts))


@pytest.mark.parametrize(
    "text",
    [
        "ivy sprayed. i mean hoya. what's next?",
        "ivy sprayed. that was last week. What is due?",
        "ivy sprayed. hoya too. What is due?",
        "ivy sprayed. with soap. What is due?",
        "sprayed the ivy. was that right?",
    ],
)
def test_what_may_change_what_is_told_before_a_question_is_not_written_at_once(text: str) -> None:
    assert "done" not in answered(text)
