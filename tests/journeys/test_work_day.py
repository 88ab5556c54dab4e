"""A work day in the chat: stage by stage, ticked, stopped and gone on with the next day."""

import pytest

from bot.domain.journal import IsolatedNow, Treated
from bot.domain.trade import Method
from tests.journeys.talking import Talk


@pytest.fixture
def bad(talk: Talk) -> Talk:
    talk.say("hoya 100 longtailed mealybugs in the crown")
    talk.say("ivy 12 spider mites")
    return talk


def treated(talk: Talk) -> list[tuple[str | None, Method]]:
    return [(plant, payload.method) for plant, payload in talk.told() if isinstance(payload, Treated)]


def heads(answers: list[str]) -> str:
    return next(line for line in answers[0].split("\n") if line.startswith("Stage"))


def test_a_whole_work_day_ticked_in_words(bad: Talk) -> None:
    assert heads(bad.say("work day")) == ("Stage 1 of 10, look them over, 12 min: small hoya, ivy and hoya.")
    assert heads(bad.say("done")).startswith("Stage 2 of 10, set them apart")
    assert "Written: ivy and hoya kept apart." in bad.say("done")[0]
    bad.say("done")
    answer = bad.say("done except ivy")[0]
    assert "Written: hoya rinsed." in answer
    assert "Stage 4 of 10, wash, 8 min: ivy." in answer
    assert heads(bad.say("done")) == "Stage 5 of 10, unpot and rinse the roots, 15 min: hoya."
    answer = bad.say("done")[0]
    # One pot of 15 cm is 1.8 L, so the least soak of 2 L: a tenth of it is 200 mL of bleach.
    assert "10 min in 2 L: water, then 200 mL plain bleach" in answer
    assert "never with ammonia, acid or alcohol" in answer
    assert "about 2 L" in bad.say("done")[0]
    answer = bad.say("done")[0]
    assert "Written: hoya cleaned out." in bad.press("More")[0]
    assert "about 120 mL of soap" in answer
    assert "One leaf first: hoya.\nJust washed roots burn easily." in answer
    assert "Close the bag" in bad.say("done")[0]
    assert "mealybugs live about two weeks on a bare shelf" in bad.say("done")[0]
    assert bad.say("done")[0].endswith("That was the last stage. Well worked; the evenings go on as planned.")
    assert treated(bad) == [
        ("hoya", Method.PRUNE),
        ("hoya", Method.RINSE),
        ("ivy", Method.RINSE),
        ("hoya", Method.CLEAN_OUT),
        ("ivy", Method.SPRAY),
        ("hoya", Method.SPRAY),
    ]
    assert sum(isinstance(payload, IsolatedNow) for _, payload in bad.told()) == 2
    assert bad.home.work is None


def test_it_goes_on_the_next_day_and_after_a_nudge(bad: Talk) -> None:
    bad.say("work day")
    bad.press("Done")
    assert bad.press("Stop for today") == [
        "Enough for today, 9 stages left. “work day” goes on where you stopped."
    ]
    bad.evening()
    bad.passes(days=1)
    assert heads(bad.say("work day")).startswith("Stage 2 of 10")


def test_undo_takes_a_tick_and_its_treatments_back(bad: Talk) -> None:
    bad.say("work day for ivy")
    for _ in range(2):
        bad.say("done")
    assert heads(bad.say("done")).startswith("Stage 4")
    assert treated(bad) == [("ivy", Method.RINSE)]
    bad.say("undo")
    assert treated(bad) == []
    assert heads(bad.say("work day")).startswith("Stage 3 of 6, wash")


def test_the_label_is_kept_on_a_work_day_too(bad: Talk) -> None:
    bad.say("sprayed the ivy")
    bad.passes(days=1)
    stages = [heads(bad.say("work day for ivy"))]
    while "stage" in (answer := bad.say("done"))[0].lower() and "last stage" not in answer[0]:
        stages.append(heads(answer))
    assert not any("spray" in stage for stage in stages), "the label asks for seven days"


def test_skipping_and_ending(bad: Talk) -> None:
    bad.say("clean-out for the ivy")
    assert heads(bad.say("skip")).startswith("Stage 2")
    assert treated(bad) == []
    assert bad.say("cancel work day") == ["The work day is over. What you ticked stays written."]
    assert bad.home.work is None


def test_plants_named_on_the_way_join_and_no_tick_is_lost(bad: Talk) -> None:
    bad.say("work day for ivy")
    bad.say("done")
    assert heads(bad.say("work day for hoya")) == "Stage 1 of 10, look them over, 4 min: hoya."
    assert bad.home.work is not None
    assert len(bad.home.work.plants) == 2


def test_without_a_case_there_is_nothing_to_work_on(talk: Talk) -> None:
    before = talk.entries()
    assert talk.say("work day")[0].startswith("No plant has an open case")
    assert talk.entries() == before
