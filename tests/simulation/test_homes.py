"""Twenty homes lived through by chat, in every gate; `python -m tests.simulation` plays more."""

from pathlib import Path

import pytest

from bot.storage.database import FILE_NAME, Database
from tests.simulation.campaign import play
from tests.simulation.grower import OBEDIENT, Home
from tests.simulation.judging import MONTHS_4, Record, free_by

HOMES = 20
FREE_AT_LEAST = 70.0
"""Nine homes in ten are free by then; fewer than fourteen of twenty come by chance once in 400. [%]"""


@pytest.fixture(scope="module")
def homes(tmp_path_factory: pytest.TempPathFactory) -> list[Record]:
    folder = tmp_path_factory.mktemp("empty")
    Database("", folder).close()
    return [play(Home(seed, OBEDIENT), Path(folder) / FILE_NAME) for seed in range(1, HOMES + 1)]


def test_most_homes_are_free_of_the_pest_in_four_months(homes: list[Record]) -> None:
    assert free_by(MONTHS_4)(homes) >= FREE_AT_LEAST


def test_no_label_is_broken_by_what_is_asked(homes: list[Record]) -> None:
    assert [home.breaches for home in homes] == [0] * HOMES


def test_no_treatment_is_written_that_was_not_done(homes: list[Record]) -> None:
    assert [home.wrongly_written for home in homes] == [0] * HOMES


def test_the_bot_is_understood_and_answered(homes: list[Record]) -> None:
    """A reader that no longer reads the texts would leave the plants untreated."""
    assert all(home.nudges > 5 for home in homes)
    assert sum(home.sprays + home.clean_outs > 0 for home in homes) >= HOMES - 3
