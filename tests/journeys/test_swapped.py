"""Two plants that change places, and several that each go to a place of their own."""

import pytest

from tests.journeys.talking import Talk


def _stands(talk: Talk) -> dict[str, str]:
    places = talk.home.places
    return {one.name: places[one.place].name for one in talk.home.living if one.place is not None}


@pytest.mark.parametrize(
    "words",
    [
        "swapped the hoya and the ivy",
        "i swapped the hoya for the ivy",
        "the hoya went to the {0}, the ivy to the {1}",
        "hoya is in the {0} now and the ivy in the {1}",
    ],
)
def test_each_goes_to_its_own_place(talk: Talk, words: str) -> None:
    before = _stands(talk)
    assert before["hoya"] != before["ivy"]
    answer = talk.say(words.format(before["ivy"], before["hoya"]))[0]
    if "Not written yet" in answer:
        talk.press("Yes")
    stands = _stands(talk)
    assert (stands["hoya"], stands["ivy"]) == (before["ivy"], before["hoya"])
    assert {name for name in stands if stands[name] != before[name]} == {"hoya", "ivy"}
