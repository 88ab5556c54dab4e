"""
The fourteen rules that hold for every pest: where each is worked by hand, and its property.

| rule | by hand | for whatever comes |
|---|---|---|
| 1 handwork with each spray, dry leaves | test_remedy: test_a_spray_evening_begins_with_handwork | test_handwork_comes_before_the_spray_where_it_is_borne |
| 2 few by hand for three rounds | test_remedy: test_few_stay_handwork_for_three_rounds_and_then_a_spray_joins_twice | test_few_by_hand_turn_to_spray_after_three_rounds_and_not_before |
| 3 stall, strong steps, how long | test_remedy: test_a_stall_takes_the_strong_step_two_weeks_on | test_strong_steps_keep_their_days_and_their_number |
| 4 looks by the pest's own way | test_release: test_a_card_and_a_plain_look_say_nothing_of_mites | test_a_way_that_shows_nothing_brings_no_release_nearer |
| 5 release on a fresh look | test_release: test_a_plant_leaves_on_a_fresh_look_only | test_release: test_nothing_leaves_without_a_fresh_look_that_can_show_it |
| 6 warmth, usual and now | test_climate: test_a_reading_stands_for_its_day_and_fades_over_three | test_a_reading_lies_between_itself_and_the_usual_and_is_gone_after_three_days |
| 7 a general word | test_general: test_mealybugs_take_the_citrus_gap_and_the_longtailed_clock | test_general: test_no_gap_is_longer_and_no_wait_shorter_than_of_any_it_may_be |
| 8 product by effect | test_remedy: test_the_same_soap_three_times_asks_for_a_look_first | test_no_other_product_that_is_allowed_works_better |
| 9 label facts | test_label: test_a_most_below_the_rate_contradicts_it_and_one_above_does_not | test_label: test_a_later_fact_replaces_what_it_says_and_leaves_the_rest |
| 10 mixing | test_mixture: test_a_recipe_adds_up_to_its_volume | test_mixture: test_rounding_is_off_by_half_a_step_at_most |
| 11 safety | test_care: test_kinds_ask_for_their_care | test_nothing_is_called_harmless_without_a_list |
| 12 how-to | test_howto: test_what_is_done_depends_on_the_pest_and_on_what_the_plant_bears | test_every_way_has_steps_for_every_pest_and_plant |
| 13 time | test_effort: test_bad_and_near_the_healthy_comes_first_and_looks_last | test_effort: test_nothing_is_lost_and_the_time_is_kept |
| 14 what a wash takes off | test_two_counts_are_added_up | test_the_share_washed_off_lies_between_those_counted |

Sources stand beside the figures in the modules named. Handwork with each spray, weekly looks, few by hand: common practice,
no source. Stall and strong steps: a judgement that a simulation with wide parameters supports. Fading over three days, fresh
looks of ten days: judgement. Labels and rotation: the labels; from memory where that is said.
"""

import itertools
import re
from datetime import timedelta
from importlib import import_module

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.catalogue.howto import load_howto
from bot.catalogue.poison import load_poisons
from bot.domain.campaign import Life
from bot.domain.climate import temperature_on
from bot.domain.household import Household
from bot.domain.howto import Bears
from bot.domain.identity import ProductId
from bot.domain.journal import CheckedClean, PlantSet, ProductSet, TemperatureRead
from bot.domain.outbreak import BY_HAND
from bot.domain.poison import Eater, poison_of
from bot.domain.refusal import Use, refusals
from bot.domain.remedy import Because, choose_product, effect_on, handwork_of, remedy, strong_days
from bot.domain.trade import Grade, Level, Method
from tests.domain.telling import DAY, HOYA, KNOWLEDGE, LANDING, home

PESTS = sorted(KNOWLEDGE.pests)
KINDS = sorted(KNOWLEDGE.kinds)
HAND = {*BY_HAND, Method.SWAB}
few_examples = settings(max_examples=40, deadline=None)


def test_the_table_names_tests_that_there_are() -> None:
    assert __doc__ is not None
    cells = re.findall(
        r"(?:(test_\w+): )?(test_\w+)", "".join(line for line in __doc__.splitlines() if line[:1] == "|")
    )
    assert len(cells) == 28
    for module, name in cells:
        folder = "catalogue" if module == "test_howto" else "domain"
        assert hasattr(import_module(f"tests.{folder}.{module}" if module else __name__), name), name


@few_examples
@given(st.sampled_from(PESTS), st.sampled_from(KINDS), st.sampled_from(Grade))
def test_handwork_comes_before_the_spray_where_it_is_borne(pest: str, kind: str, grade: Grade) -> None:
    telling = home()
    telling.tell(PlantSet(kind=kind, traits=("not-edible",)), plant=HOYA)
    telling.find(HOYA, pest, 0, grade)
    outbreak, step = telling.outbreak(HOYA, 0), telling.step(HOYA, 0)
    if step is None or step.method is not Method.SPRAY:
        return
    hand = handwork_of(outbreak)
    assert [act.method for act in step.before if act.method in HAND] == ([] if hand is None else [hand])
    if outbreak.kind is not None and not outbreak.kind.is_washable:
        assert not {act.method for act in step.before} & BY_HAND, (
            "no water and no cloth where it spoils the leaves"
        )


@few_examples
@given(
    st.integers(0, 6),
    st.booleans(),
    st.sampled_from(["citrus_mealybug", "brown_soft_scale", "armoured_scale"]),
)
def test_few_by_hand_turn_to_spray_after_three_rounds_and_not_before(
    rounds: int,
    found: bool,  # noqa: FBT001
    pest: str,
) -> None:
    telling = home()
    telling.find(HOYA, pest, 0, Grade.FEW)
    for number in range(rounds):
        telling.treat(HOYA, number * 7, Method.WIPE)
    if found:
        telling.find(HOYA, pest, rounds * 7 + 1, Grade.FEW)
    because = remedy(telling.outbreak(HOYA, min(rounds * 7 + 2, 13))).because
    assert (because is Because.FEW) is (rounds < 3 or (rounds > 4 and not found))
    assert (because is Because.FEW_STILL) is (found and rounds >= 3)


@few_examples
@given(st.sampled_from(PESTS), st.lists(st.tuples(st.integers(0, 90), st.booleans()), max_size=14))
def test_strong_steps_keep_their_days_and_their_number(pest: str, days: list[tuple[int, bool]]) -> None:
    # At most twice out of the pot in a campaign, and 28 days apart; mites four times, 14 days apart.
    telling = home()
    telling.find(HOYA, pest, 0, Grade.MANY)
    for day, is_find in sorted(days):
        if is_find:
            telling.find(HOYA, pest, day, Grade.MANY)
        step = telling.step(HOYA, day)
        for act in () if step is None else step.acts:
            telling.treat(HOYA, day, act.method)
    done, fight = strong_days(telling.outbreak(HOYA, 91)), KNOWLEDGE.pests[pest].fight
    assert len(done) <= max(fight.strong_most, 2 if fight.unpots else 0)
    assert all((second - first).days >= fight.strong_apart_days for first, second in itertools.pairwise(done))
    assert fight.unpots or not telling.outbreak(HOYA, 91).days_of(Method.CLEAN_OUT)


@few_examples
@given(st.sampled_from(PESTS), st.sampled_from(Level), st.integers(1, 12))
def test_a_way_that_shows_nothing_brings_no_release_nearer(pest: str, level: Level, looks: int) -> None:
    telling = home()
    telling.find(HOYA, pest, 0)
    for number in range(1, looks + 1):
        telling.tell(CheckedClean(level), number * 7, plant=HOYA)
    counted = telling.progress(HOYA, looks * 7).state.counted_checks
    assert counted == 0 or level in KNOWLEDGE.pests[pest].looking.needed
    assert not telling.progress(HOYA, looks * 7).state.qualifies or counted > 0


@given(st.floats(10, 34), st.floats(10, 34), st.integers(0, 6))
def test_a_reading_lies_between_itself_and_the_usual_and_is_gone_after_three_days(
    usual: float, read: float, later: int
) -> None:
    telling = home(celsius=usual)
    telling.tell(TemperatureRead(place=LANDING, celsius=read), 0)
    household = telling.household
    found = temperature_on(household, household.plants[HOYA], DAY + timedelta(days=later))
    assert found is not None
    assert min(usual, read) - 1e-9 <= found <= max(usual, read) + 1e-9
    assert later < 3 or found == pytest.approx(usual)
    assert later > 0 or found == pytest.approx(read)


@few_examples
@given(st.sampled_from(PESTS), st.lists(st.sampled_from(sorted(KNOWLEDGE.products)), unique=True, max_size=6))
def test_no_other_product_that_is_allowed_works_better(pest: str, shelf: list[str]) -> None:
    telling = home(label_days=None)
    for number, ingredient in enumerate(shelf):
        telling.tell(ProductSet(product=ProductId(50 + number), ingredient=ingredient))
    telling.find(HOYA, pest, 0)
    outbreak = telling.outbreak(HOYA, 0)
    method = outbreak.pest.fight.round_by
    chosen = choose_product(outbreak, method)
    order = ["good", "some", "none", "worse"]

    def rank(ingredient: str) -> int:
        return order.index(effect_on(outbreak.pest, ingredient, Life.YOUNG).value)

    allowed = [
        one
        for one in outbreak.household.products.values()
        if method in KNOWLEDGE.products[one.ingredient].methods
        and not refusals(Use(outbreak.household, KNOWLEDGE, outbreak.plant, one, DAY, outbreak.pest))
    ]
    assert (chosen is None) is (not allowed)
    if chosen is not None:
        assert rank(chosen.ingredient) == min(rank(one.ingredient) for one in allowed)
        assert rank(chosen.ingredient) < order.index("worse")


@given(st.text(max_size=20) | st.sampled_from(KINDS), st.sampled_from(Eater))
def test_nothing_is_called_harmless_without_a_list(name: str, eater: Eater) -> None:
    kind = KNOWLEDGE.kinds.get(name) or KNOWLEDGE.kind_named(name)
    for found in poison_of(load_poisons(), kind, eater):
        assert found.verdict.is_poisonous is not False or found.verdict.sources


@given(
    st.sampled_from(sorted(load_howto().ways)),
    st.sampled_from([None, *PESTS]),
    st.frozensets(st.sampled_from(Bears)),
)
def test_every_way_has_steps_for_every_pest_and_plant(
    way: str, pest: str | None, bears: frozenset[Bears]
) -> None:
    steps = load_howto().ways[way].for_plant(pest, bears).steps
    assert 3 <= len(steps) <= 6
    assert not any("!" in step for step in steps)


def test_two_counts_are_added_up() -> None:
    # 12 before and 3 after, 8 and 2: 15 of 20 came off.
    assert Household(leaves=[(12, 3), (8, 2)]).washed_off == pytest.approx(0.75)
    assert Household().washed_off is None


@given(
    st.lists(st.integers(1, 99).flatmap(lambda one: st.tuples(st.just(one), st.integers(0, one))), min_size=1)
)
def test_the_share_washed_off_lies_between_those_counted(leaves: list[tuple[int, int]]) -> None:
    share = Household(leaves=leaves).washed_off
    each = [1 - after / before for before, after in leaves]
    assert share is not None
    assert min(each) - 1e-9 <= share <= max(each) + 1e-9
