from datetime import timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from bot.domain.gap import Lateness
from bot.domain.identity import PlantId, ProductId
from bot.domain.journal import IsolatedNow, PlantSet, ProductSet
from bot.domain.remedy import Because
from bot.domain.trade import Grade, Method
from tests.domain.telling import DAY, FERN, HOYA, IVY, SOAP, STUDY, home

CITRUS, LONGTAILED, MITES = "citrus_mealybug", "longtailed_mealybug", "spider_mite"


def days(number: int) -> timedelta:
    return timedelta(days=number)


def test_the_first_round_is_due_on_the_day_of_the_find() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    step = telling.step(HOYA, 0)
    assert step is not None
    assert (step.method, step.aim_on) == (Method.SPRAY, DAY)


def test_a_few_are_swabbed_some_sprayed_and_many_cleaned_out_first() -> None:
    # up to 5 in one spot by hand, more by spray, many by a clean-out: common practice, no source
    for grade, method in (
        (Grade.FEW, Method.WIPE),
        (Grade.SOME, Method.SPRAY),
        (Grade.MANY, Method.CLEAN_OUT),
    ):
        telling = home()
        telling.find(HOYA, CITRUS, 0, grade)
        step = telling.step(HOYA, 0)
        assert step is not None
        assert step.method is method  # no alcohol on the shelf, so the swab is a wipe


def test_after_the_clean_out_come_sprays() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0, Grade.MANY)
    telling.treat(HOYA, 0, Method.CLEAN_OUT)
    step = telling.step(HOYA, 1)
    assert step is not None
    assert step.method is Method.SPRAY


def test_living_pests_three_weeks_on_call_for_a_clean_out() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.treat(HOYA, 0)
    telling.find(HOYA, CITRUS, 21)  # 21 days: our rule, a judgement
    step = telling.step(HOYA, 21)
    assert step is not None
    assert (step.method, step.because) == (Method.CLEAN_OUT, Because.STALL)


def test_an_empty_shelf_leaves_handwork() -> None:
    telling = home(label_days=None)
    telling.find(HOYA, CITRUS, 0)
    step = telling.step(HOYA, 0)
    assert step is not None
    assert (step.method, step.because, step.product) == (Method.WIPE, Because.NO_PRODUCT, None)


def test_the_window_after_a_spray_is_the_one_worked_by_hand() -> None:
    # citrus mealybug, 21 degC: W = 130 / (21 - 8.5) = 10.4 d, .8 W = 8.3, so U = 8; label 7: 7 to 8 days
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.treat(HOYA, 0)
    step = telling.step(HOYA, 1)
    assert step is not None
    assert (step.opens_on, step.aim_on, step.closes_on) == (DAY + days(7), DAY + days(7), DAY + days(8))


def test_a_round_is_late_after_the_window_and_missed_after_the_stage() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.treat(HOYA, 0)
    seen = []
    for day in (8, 9, 10, 11):
        step = telling.step(HOYA, day)
        assert step is not None
        seen.append(step.lateness)
    assert seen == [Lateness.ON_TIME, Lateness.LATE, Lateness.LATE, Lateness.MISSED]


def test_a_late_round_moves_the_next_one() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.treat(HOYA, 0)
    telling.treat(HOYA, 12)
    step = telling.step(HOYA, 13)
    assert step is not None
    assert step.opens_on == DAY + days(19)


def test_a_label_longer_than_the_pest_allows_is_bridged_by_hand() -> None:
    # mites, 25 degC: W = 97 / (25 - 10.3) = 6.6 d; label 7 outlasts 6; two washes a week: 7/3 = 2.3 and 4.7, days 2
    # and 5, spray on day 7
    telling = home(celsius=25)
    telling.find(IVY, MITES, 0)
    telling.treat(IVY, 0)
    step = telling.step(IVY, 1)
    assert step is not None
    assert (step.method, step.because, step.aim_on) == (Method.RINSE, Because.BETWEEN, DAY + days(2))
    telling.treat(IVY, 2, Method.RINSE)
    telling.treat(IVY, 5, Method.RINSE)
    step = telling.step(IVY, 6)
    assert step is not None
    assert (step.method, step.opens_on, step.closes_on) == (Method.SPRAY, DAY + days(7), DAY + days(8))


def test_handwork_between_sprays_that_was_left_out_is_not_asked_for_again() -> None:
    # as above: days 2 and 5; on day 3 the wash of day 5 is next, on day 6 the spray of day 7
    telling = home(celsius=25)
    telling.find(IVY, MITES, 0)
    telling.treat(IVY, 0)
    for today, method, day in ((2, Method.RINSE, 2), (3, Method.RINSE, 5), (6, Method.SPRAY, 7)):
        step = telling.step(IVY, today)
        assert step is not None
        assert (step.method, step.aim_on) == (method, DAY + days(day))


def test_handwork_between_sprays_is_no_round_of_its_own() -> None:
    telling = home(celsius=25)
    telling.find(IVY, MITES, 0)
    telling.treat(IVY, 0)
    telling.treat(IVY, 4, Method.RINSE)
    telling.treat(IVY, 7)
    assert telling.progress(IVY, 8).rounds_done == 2


def test_plants_in_one_place_share_the_last_find() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.find(FERN, CITRUS, 10)
    assert telling.progress(HOYA, 12).record.last_find_on == DAY + days(10)


def test_what_flies_shares_the_last_find_with_all_the_home_and_mites_with_their_place() -> None:
    for pest, found_on in (("western_flower_thrips", 10), (MITES, 0)):
        telling = home()
        telling.find(HOYA, pest, 0)
        telling.find(IVY, pest, 10)  # in the study
        telling.tell(IsolatedNow(), 1, plant=HOYA)
        assert telling.progress(HOYA, 12).record.last_find_on == DAY + days(found_on)


def test_moving_out_or_standing_apart_starts_a_clock_of_its_own() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.find(FERN, CITRUS, 10)
    moved = home()
    moved.entries = list(telling.entries)
    moved.tell(PlantSet(place=STUDY), 11, plant=HOYA)
    assert moved.progress(HOYA, 12).record.last_find_on == DAY
    telling.tell(IsolatedNow(), 11, plant=HOYA)
    assert telling.progress(HOYA, 12).record.last_find_on == DAY


@settings(max_examples=150, deadline=None)
@given(
    pest=st.sampled_from([CITRUS, LONGTAILED, MITES, "western_flower_thrips", "armoured_scale"]),
    celsius=st.sampled_from([None, 9, 14, 18, 21, 25, 30, 34]),
    label=st.integers(1, 40),
    told=st.lists(
        st.tuples(st.sampled_from(["spray", "rinse", "wipe", "find", "clean-out"]), st.integers(0, 60)),
        max_size=8,
    ),
    today=st.integers(0, 90),
)
def test_a_label_is_never_broken_by_what_is_planned(
    pest: str, celsius: float | None, label: int, told: list[tuple[str, int]], today: int
) -> None:
    telling = home(celsius=celsius, label_days=label)
    telling.find(HOYA, pest, 0)
    for what, day in told:
        if what == "find":
            telling.find(HOYA, pest, day)
        else:
            telling.treat(HOYA, day, Method(what))
    uses = [t.on for t in telling.household.plants[HOYA].treatments if t.product == SOAP]
    last = max(uses, default=None)
    for evening in telling.plan(today).evenings:
        for task in evening.tasks:
            if task.plant == HOYA and task.product == SOAP and last is not None:
                assert (evening.on - last).days >= label or evening.on < last


@settings(max_examples=60, deadline=None)
@given(late=st.integers(0, 20), later=st.integers(0, 20), pest=st.sampled_from([CITRUS, LONGTAILED, MITES]))
def test_a_later_round_never_moves_the_next_one_earlier(late: int, later: int, pest: str) -> None:
    def next_opening(day: int) -> int:
        telling = home()
        telling.find(PlantId(1), pest, 0)
        telling.treat(HOYA, 0)
        telling.treat(HOYA, 7 + day)
        step = telling.step(HOYA, 7 + day)
        return (step.opens_on - DAY).days if step else 10_000

    first, second = sorted((late, later))
    assert next_opening(first) <= next_opening(second)


def test_a_new_case_waits_for_the_label_by_hand() -> None:
    telling = home()
    telling.treat(HOYA, 0)
    telling.find(HOYA, CITRUS, 3)
    step = telling.step(HOYA, 3)
    assert step is not None
    assert (step.method, step.product, step.because) == (Method.WIPE, None, Because.BETWEEN)
    assert step.opens_on == DAY + days(3)
    later = telling.step(HOYA, 7)  # 0 and the label's seven days
    assert later is not None
    assert (later.method, later.opens_on) == (Method.SPRAY, DAY + days(7))


def test_who_skips_the_handwork_is_late_by_the_pests_own_time() -> None:
    # Mite at 25 degC: W 97/14.7 = 6.6 d, U 5; label 7 asks for a rinse on day 4 and a spray from day 7.
    telling = home(celsius=25)
    telling.find(HOYA, MITES, 0)
    telling.treat(HOYA, 0)
    found = [telling.step(HOYA, day) for day in (5, 6, 7)]
    assert [step and step.lateness for step in found] == [Lateness.ON_TIME, Lateness.LATE, Lateness.MISSED]
    telling.treat(HOYA, 4, Method.RINSE)
    kept = telling.step(HOYA, 8)
    assert kept is not None
    assert (kept.method, kept.lateness) == (Method.SPRAY, Lateness.ON_TIME)


def test_release_is_foreseen_at_the_rhythm_of_the_rounds() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    for day in (0, 10, 20):
        telling.treat(HOYA, day)
    assert telling.progress(HOYA, 20).record.rounds_gap_days == 10


def test_what_lives_in_the_mix_is_washed_out_and_drenched_and_never_sprayed() -> None:
    # Root washing, fresh mix, then drenches; no leaf spray: common practice, no source.
    telling = home()
    telling.find(HOYA, "root_mealybug", 0, Grade.FEW)
    step = telling.step(HOYA, 0)
    assert step is not None
    assert (step.method, step.because) == (Method.CLEAN_OUT, Because.START)
    telling.treat(HOYA, 0, Method.CLEAN_OUT)
    assert telling.step(HOYA, 1) is None, "the soap on the shelf is no drench, and no handwork reaches it"
    telling.tell(ProductSet(product=ProductId(7), ingredient="imidacloprid"))
    following = telling.step(HOYA, 1)
    assert following is not None
    # the row: drenches two to three weeks apart
    assert (following.method, following.opens_on, following.closes_on) == (
        Method.DRENCH,
        DAY + days(14),
        DAY + days(21),
    )


def test_handwork_before_the_first_spray_stays_a_round_after_it() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.treat(HOYA, 0, Method.WIPE)
    telling.treat(HOYA, 8, Method.WIPE)
    assert telling.progress(HOYA, 8).rounds_done == 2
    telling.treat(HOYA, 16)
    assert telling.progress(HOYA, 16).rounds_done == 3
    telling.treat(HOYA, 20, Method.WIPE)  # bridges to the next spray: no round of its own
    assert telling.progress(HOYA, 20).rounds_done == 3


def test_handwork_after_a_clean_out_is_a_round_where_no_product_is_used() -> None:
    telling = home(label_days=None)
    telling.find(HOYA, CITRUS, 0, Grade.MANY)
    telling.treat(HOYA, 0, Method.CLEAN_OUT)
    for day in (8, 16):
        telling.treat(HOYA, day, Method.RINSE)
    assert telling.progress(HOYA, 16).rounds_done == 3
