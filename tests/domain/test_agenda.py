from datetime import timedelta

from bot.domain.identity import ProductId
from bot.domain.journal import (
    CheckedClean,
    HeldUntil,
    Postponed,
    ProductSet,
    ReleasedNow,
    RoutineSet,
    SignSeen,
    Treated,
)
from bot.domain.release import Level
from bot.domain.trade import Method, Sign
from tests.domain.telling import DAY, FERN, HOYA, IVY, Telling, home

CITRUS, LONGTAILED = "citrus_mealybug", "longtailed_mealybug"
SUNDAY = 1  # 2 May 2026, day 0, is a Saturday


def treated_on(telling: Telling, day: float) -> dict[int, set[int]]:
    """Give days from DAY on with the plants treated."""
    return {
        (evening.on - DAY).days: {task.plant for task in evening.tasks if task.method is not None}
        for evening in telling.plan(day).evenings
        if any(task.method is not None for task in evening.tasks)
    }


def test_two_windows_that_meet_take_one_evening() -> None:
    # both at 21 degC with label 7: citrus mealybug W = 130/12.5 = 10.4, .8 W = 8.3: 7 to 8 days; longtailed
    # W = 161/13 = 12.4, .8 W = 9.9: 7 to 9. Hoya sprayed on day 0: 7 to 8; ivy on day 1: 8 to 10; day 8 serves both
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.find(IVY, LONGTAILED, 0)
    telling.treat(HOYA, 0)
    telling.treat(IVY, 1)
    assert treated_on(telling, 2) == {8: {HOYA, IVY}}


def test_overdue_work_is_due_tonight() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.treat(HOYA, 0)
    assert treated_on(telling, 30) == {30: {HOYA}}


def test_what_is_put_off_comes_on_its_day() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.tell(Postponed(on=DAY + timedelta(days=3)), 0, plant=HOYA)
    assert treated_on(telling, 0) == {3: {HOYA}}


def test_a_pause_moves_everything_behind_it() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.tell(HeldUntil(DAY + timedelta(days=10)), 0)
    assert min(treated_on(telling, 1)) == 10


def test_the_weekly_look_covers_cases_and_their_neighbours_only() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    evenings = telling.plan(0).evenings
    looks = {task.plant for evening in evenings for task in evening.tasks if task.method is None}
    assert looks == {HOYA, FERN}  # the fern shares the landing, the ivy does not


def test_a_look_just_before_sunday_stands_for_it() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)  # Saturday: the find itself was a look
    looks = [
        evening.on
        for evening in telling.plan(0).evenings
        if any(task.method is None and task.plant == HOYA for task in evening.tasks)
    ]
    assert [(on - DAY).days for on in looks] == [SUNDAY + 7]


def test_a_routine_in_words_looks_at_every_plant() -> None:
    telling = home()
    telling.tell(RoutineSet(name="check", rule="FREQ=WEEKLY;BYDAY=WE"), 0)
    looks = [(evening.on.weekday(), len(evening.tasks)) for evening in telling.plan(0).evenings]
    assert looks == [(2, 3)]  # Wednesday, three plants


def test_a_sign_asks_for_a_look_the_day_after() -> None:
    telling = home()
    telling.tell(SignSeen(Sign.WEBBING), 0, plant=IVY)
    (evening,) = telling.plan(0).evenings
    assert (evening.on - DAY).days in {1, 2}
    assert [(task.plant, task.method) for task in evening.tasks] == [(IVY, None)]
    telling.tell(CheckedClean(Level.PLAIN), 1, plant=IVY)
    assert telling.plan(2).evenings == ()


def test_neighbours_stay_on_watch_until_after_the_release() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    assert set(telling.plan(1).watched) == {FERN}
    telling.tell(ReleasedNow(by_rule=False), 10, plant=HOYA)
    watched = telling.plan(11).watched
    # h3 at 21 degC: eggs 133/12.5 = 10.64 d and nymphs 401/13.3 = 30.15 d, together 40.8, so 41 days from day 10
    assert {plant: (watch.until - DAY).days for plant, watch in watched.items() if watch.until} == {
        FERN: 51,
        HOYA: 51,
    }
    assert telling.plan(52).watched == {}


def test_nothing_told_means_nothing_due() -> None:
    assert home().plan(0).evenings == ()


def test_when_the_rounds_are_finished_only_looks_remain() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    for day in (0, 7, 14, 21, 28, 35, 42):
        telling.treat(HOYA, day, Method.SPRAY)
        telling.tell(CheckedClean(Level.LENS), day + 1, plant=HOYA)
    assert treated_on(telling, 44) == {}
    assert telling.progress(HOYA, 44).is_finished


def test_a_plant_joins_an_earlier_evening_where_its_label_allows() -> None:
    # Mealybug at 21 degC: U 8, window [5, 8] from the last round, at the label's day if that is later. Sprayed on
    # days 0 and -4, hoya and fern are due in [5, 8] and [1, 4]: they meet on day 4 only where the label is 4 or less.
    for label_days, evenings in ((4, {4: {HOYA, FERN}}), (5, {1: {FERN}, 5: {HOYA}})):
        telling = home(label_days=label_days)
        telling.tell(RoutineSet(name="check", rule="FREQ=YEARLY"), -3)  # no weekly look to meet instead
        telling.find(HOYA, CITRUS, -4)
        telling.find(FERN, CITRUS, -4)
        telling.treat(FERN, -4)
        telling.treat(HOYA, 0)
        assert treated_on(telling, 1) == evenings


def test_gnats_are_fought_in_every_pot_of_the_room() -> None:
    telling = home(label_days=None)
    telling.tell(ProductSet(product=ProductId(7), ingredient="bti"))
    telling.find(HOYA, "fungus_gnat", 0)
    assert treated_on(telling, 0) == {0: {HOYA, FERN}}, "the fern shares the landing, the ivy does not"
    methods = [task.method for task in telling.plan(0).on(DAY) if task.plant == FERN]
    assert methods == [Method.DRENCH], "a fern must not dry"
    for plant in (HOYA, FERN):
        telling.tell(Treated(method=Method.DRENCH, product=ProductId(7)), 0, plant=plant)
    # 21 degC: five days on
    assert treated_on(telling, 1) == {5: {HOYA, FERN}}
