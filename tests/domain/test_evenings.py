"""The fewest evenings that serve every plant."""

import itertools
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.domain.evenings import Need, fewest_evenings

START = date(2026, 3, 1)


def day(number: int) -> date:
    return START + timedelta(days=number)


def need(key: int, opens: int, aim: int, closes: int, label: int | None = None) -> Need:
    return Need(
        key=key,
        opens_on=day(opens),
        aim_on=day(aim),
        closes_on=day(closes),
        label_on=None if label is None else day(label),
    )


def test_nobody_due_needs_no_evening() -> None:
    assert fewest_evenings([]) == ()


def test_windows_that_meet_share_an_evening() -> None:
    assert fewest_evenings([need(1, 7, 7, 10), need(2, 9, 9, 12)]) == ((day(9), (1, 2)),)


def test_windows_apart_need_two() -> None:
    assert fewest_evenings([need(2, 9, 9, 12), need(1, 4, 4, 6)]) == ((day(4), (1,)), (day(9), (2,)))


def test_among_the_fewest_the_nearest_to_the_aims() -> None:
    # by hand: one evening on days 5 to 8 serves all; day 5 is off by 0 + 0 + 2, day 7 by 2 + 2 + 0
    needs = [need(1, 3, 5, 8), need(2, 5, 5, 9), need(3, 5, 7, 8)]
    assert fewest_evenings(needs) == ((day(5), (1, 2, 3)),)


def test_a_plant_joins_an_earlier_evening_where_its_label_allows() -> None:
    assert fewest_evenings([need(1, 5, 5, 5), need(2, 7, 7, 9, label=4)]) == ((day(5), (1, 2)),)


def test_a_label_that_does_not_allow_it_keeps_two_evenings() -> None:
    found = fewest_evenings([need(1, 5, 5, 5), need(2, 7, 7, 9, label=6)])
    assert found == ((day(5), (1,)), (day(7), (2,)))


def test_a_label_later_than_the_window_is_kept() -> None:
    assert fewest_evenings([need(1, 3, 3, 6, label=5)]) == ((day(5), (1,)),)


def test_a_window_that_closes_before_it_opens_is_a_bug() -> None:
    with pytest.raises(ValueError, match="window of 1"):
        fewest_evenings([need(1, 5, 5, 4)])


windows = st.tuples(st.integers(1, 8), st.integers(0, 4), st.integers(0, 4), st.none() | st.integers(0, 4))


@settings(max_examples=60, deadline=None)
@given(st.lists(windows, min_size=1, max_size=6))
def test_no_other_choice_of_days_is_better(rows: list[tuple[int, int, int, int | None]]) -> None:
    needs = [
        need(
            key,
            opens,
            opens + min(aim, width),
            opens + width,
            None if early is None else max(0, opens - early),
        )
        for key, (opens, width, aim, early) in enumerate(rows)
    ]
    found = fewest_evenings(needs)
    served = [key for _, keys in found for key in keys]
    assert sorted(served) == list(range(len(rows)))
    assert (len(found), off_aim(needs, tuple(on for on, _ in found))) == by_trying_all(needs)


def off_aim(needs: list[Need], days: tuple[date, ...]) -> int | None:
    total = 0
    for each in needs:
        first = each.label_on or each.opens_on
        reach = [abs((on - each.aim_on).days) for on in days if first <= on <= each.closes_on]
        if not reach:
            return None
        total += min(reach)
    return total


def by_trying_all(needs: list[Need]) -> tuple[int, int]:
    for count in range(1, len(needs) + 1):
        tries = [off_aim(needs, days) for days in itertools.combinations(map(day, range(13)), count)]
        if reached := [total for total in tries if total is not None]:
            return count, min(reached)
    raise AssertionError
