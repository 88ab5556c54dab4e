"""What words nobody listed do to a telling: trusted where they carry nothing, and never what was only near to one."""

import pytest

from bot.phrases import trusting
from tests.phrases.hands import Line, see, situation_of
from tests.phrases.meanings import writes
from tests.tools.trust import UNSEEN, lines_of, sources_hash

LEAST_AT_ONCE = 0.35
MOST_WRITTEN = 0.02
"""Share of the messages of strangers which tell nothing, and write something all the same: to be brought to nought."""


def test_the_weights_are_made_from_the_lines_as_they_stand() -> None:
    made = trusting.FILE.read_bytes().partition(b"\n")[0].decode()
    assert sources_hash() in made, "python -m tests.tools.trust"


TOLD = (
    ("rinsed the ivy thoroughly, a bit of a splash fest", "done ivy method=rinse"),
    ("hoya sprayed with the soap, splendidly humid in here", "done hoya method=spray product=soap"),
    ("inspected the calathea over breakfast radio, not a single bug", "none calathea"),
    ("counted 4 thrips on the bay, grr", "find bay 4 pest=western_flower_thrips"),
    ("chilli wiped, granny approves", "done chilli method=wipe"),
    ("spotted 7 scale insects on the bay, the rascals", "find bay 7 pest=brown_soft_scale"),
    ("the coffee got a shower tonight, bagpipes included", "done coffee method=rinse"),
    ("hauled the calathea to the balcony, heavy beast", "move calathea place=balcony"),
)


def test_words_that_carry_nothing_mostly_hold_no_telling_back() -> None:
    lines = [Line(text, situation_of("quiet-t1"), "quiet-t1", "telling", meaning) for text, meaning in TOLD]
    seen = [see(line) for line in lines]
    assert sum(one.is_at_once for one in seen) >= LEAST_AT_ONCE * len(lines), [
        one.line.text for one in seen if not one.is_at_once
    ]
    assert not any(one.untold for one in seen)


@pytest.mark.parametrize(
    "text",
    [
        "fixing to rinse the ivy any minute now",
        "attempted to spray the hoya, nozzle jammed",
        "in the soap opera they sprayed the bay",
        "dreamt the calathea was clean",
        "ivy rinsed? hardly",
        "sprayed the hoya at the monastery with soap",
        "found 6 thrips on the bay outside the town hall",
        "legend has it the chilli was wiped",
        "wiped the calathea figurine with alcohol",
        "sprayed at the bay but a gust took it",
        "spider plant done",
        "monstera done, phew",
        "let us pretend the chilli is done",
        "a done deal with the landlord",
    ],
)
def test_what_is_only_near_to_a_telling_writes_nothing(text: str) -> None:
    for kind in ("nudge-t1", "quiet-t1"):
        assert not writes(see(Line(text, situation_of(kind), kind, "telling", "-")).sure)


def test_of_messages_of_strangers_that_tell_nothing_few_are_written() -> None:
    lines = list(lines_of(UNSEEN))
    written = [line.text for line in lines if writes(see(line).sure)]
    assert len(lines) >= 1000
    assert len(written) <= MOST_WRITTEN * len(lines), written


@pytest.mark.parametrize(
    "text",
    [
        "coffee done, orchid too, skipping hoya till friday",
        "hoya and coffee done, without the orchid until sunday",
    ],
)
def test_what_is_left_out_till_a_day_puts_off_no_other_plant(text: str) -> None:
    seen = see(Line(text, situation_of("nudge-t1"), "nudge-t1", "telling", "done"))
    assert "later" not in seen.sure
