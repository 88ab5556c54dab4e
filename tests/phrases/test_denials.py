"""What is denied, excepted or said of another day is never written the other way round."""

from dataclasses import replace

import pytest

from bot.actions.give_first_aid import GiveFirstAid
from bot.actions.situation import Asked
from bot.phrases.notation import notation
from bot.phrases.reading import understand
from tests.phrases.situation import CALATHEA, EVENING, IVY, clauses, said_or_offered


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("done but orchid not", "done hoya coffee"),
        ("done, but the orchid not yet", "done hoya coffee"),
        ("all done but coffee isnt", "done hoya orchid"),
        ("done. orchid not", "done hoya coffee"),
        ("done, haven't done the orchid yet", "done hoya coffee"),
        ("done, except orchid", "done hoya coffee"),
        ("did the hoya on sunday not today", "done hoya on=2026-05-03"),
        ("hoya was sprayed yesterday not today", "done hoya method=spray on=2026-05-05"),
        ("the ivy was wednesday not today", "unclear"),
        ("the orchid wasnt sprayed on 28 april", "unclear"),
        ("all clean except hoya 1", "none ivy + find hoya 1"),
        (
            "orchid sprayed, the rest is clean, 1 on the hoya",
            "done orchid method=spray + none ivy + find hoya 1",
        ),
        (
            "yesterday i did the hoya with neem and swabbed the ivy",
            "done hoya product=neem on=2026-05-05 + done ivy method=swab on=2026-05-05",
        ),
        ("my mum sprayed her orchid", "unclear"),
        ("we are in vacation until the 24 may", "hold until=2026-05-24"),
    ],
)
def test_it_is_read_as_it_was_meant(text: str, meaning: str) -> None:
    sure = tuple(
        one for one in understand(text, EVENING) if not isinstance(one, GiveFirstAid)
    )  # help in doubt
    meant = {notation(sure, EVENING), said_or_offered(text, EVENING)}
    assert clauses(meaning) in [clauses(one) for one in meant]


def test_all_clean_does_not_speak_of_what_was_found_today() -> None:
    asked = replace(EVENING, tonight=(*EVENING.tonight, Asked(CALATHEA, None)))
    found = replace(asked, found_today=frozenset({IVY}))
    for text in ("all clean", "all others clean", "the others are clean"):
        assert clauses(notation(understand(text, found), found)) == clauses("none calathea"), text
