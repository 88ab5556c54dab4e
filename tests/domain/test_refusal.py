from datetime import timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bot.domain.household import Product
from bot.domain.identity import PlantId, ProductId
from bot.domain.journal import HouseholdSet, PlaceSet, PlantSet, ProductSet, TemperatureRead, Treated
from bot.domain.label import Label
from bot.domain.refusal import Refusal, Use, eat_from, harvest_days, refusals
from bot.domain.trade import Grade, Method
from bot.domain.window import Outdoors
from tests.domain.telling import DAY, FERN, HOYA, IVY, KNOWLEDGE, LANDING, STUDY, Telling, home

CHILLI, MAIDENHAIR = PlantId(11), PlantId(12)
INGREDIENTS = tuple(KNOWLEDGE.products)
MITES, CITRUS, APHIDS, THRIPS = "spider_mite", "citrus_mealybug", "melon_aphid", "western_flower_thrips"


def shelf(telling: Telling, *ingredients: str, **told: object) -> list[ProductId]:
    numbers = [ProductId(100 + number) for number in range(len(ingredients))]
    for number, ingredient in zip(numbers, ingredients, strict=True):
        telling.tell(ProductSet(product=number, ingredient=ingredient, label=Label(**told)))  # type: ignore[arg-type]
    return numbers


def refused(
    telling: Telling, plant: PlantId, product: ProductId, day: float = 0, pest: str | None = None
) -> tuple[Refusal, ...]:
    household = telling.household
    known = household.products[product]
    about = None if pest is None else KNOWLEDGE.pests[pest]
    return refusals(
        Use(household, KNOWLEDGE, household.plants[plant], known, DAY + timedelta(days=day), about)
    )


def test_a_product_that_does_not_reach_the_pest_is_refused() -> None:
    telling = home()
    (alcohol,) = shelf(telling, "alcohol")
    assert refused(telling, HOYA, alcohol, pest=MITES) == (Refusal.WRONG_PEST,)
    assert refused(telling, HOYA, alcohol, pest=CITRUS) == ()


def test_sulphur_is_for_outdoors_unless_the_label_says_otherwise() -> None:
    telling = home()
    (sulphur,) = shelf(telling, "sulphur")
    assert Refusal.NOT_INDOORS in refused(telling, HOYA, sulphur)
    telling.tell(ProductSet(product=sulphur, label=Label(is_for_indoors=True)))
    assert refused(telling, HOYA, sulphur) == ()


def test_oil_and_sulphur_keep_thirty_days_between_them() -> None:
    # 30 days on most oil labels (recalled; the longest of what was read).
    telling = home(label_days=None)
    telling.tell(PlaceSet(place=LANDING, outdoors=Outdoors.SHADE))
    oil, sulphur = shelf(telling, "oil", "sulphur")
    telling.tell(Treated(method=Method.SPRAY, product=oil), 0, plant=HOYA)
    assert refused(telling, HOYA, sulphur, 29) == (Refusal.NEAR_ANOTHER,)
    assert refused(telling, HOYA, sulphur, 30) == ()
    assert refused(telling, FERN, sulphur, 29) == (), "the other plant had none"


def test_what_is_eaten_gets_only_what_may_be_on_it() -> None:
    telling = home()
    telling.tell(PlantSet(name="chilli", place=LANDING), plant=CHILLI)
    soap, granules, spinosad = shelf(telling, "soap", "imidacloprid", "spinosad")
    assert refused(telling, CHILLI, granules) == (Refusal.NOT_EDIBLE,)
    assert refused(telling, CHILLI, soap) == (Refusal.EATING_UNTOLD,), "nobody read its label yet"
    telling.tell(ProductSet(product=soap, label=Label(harvest_days=0)))
    assert refused(telling, CHILLI, soap) == ()
    telling.tell(PlantSet(traits=("not-edible",)), plant=CHILLI)
    assert refused(telling, CHILLI, granules) == ()
    telling.tell(PlantSet(traits=("edible",)), plant=HOYA)
    household = telling.household
    # Spinosad on herbs: a day before harvest, recalled from labels.
    on = eat_from(KNOWLEDGE, household.plants[HOYA], household.products[spinosad], DAY)
    assert on == DAY + timedelta(days=1)
    assert eat_from(KNOWLEDGE, household.plants[FERN], household.products[soap], DAY) is None


def test_a_told_label_decides_on_harvest() -> None:
    soap = KNOWLEDGE.products["soap"]
    assert harvest_days(soap, Product(ProductId(1), "soap")) == 0
    assert harvest_days(soap, Product(ProductId(1), "soap", label=Label(harvest_days=3))) == 3
    assert harvest_days(soap, Product(ProductId(1), "soap", label=Label(is_for_edibles=False))) is None


def test_uses_of_a_year_are_counted_over_365_days() -> None:
    telling = home()
    (neem,) = shelf(telling, "neem", uses_a_year=2)
    for day in (0, 20):
        telling.tell(Treated(method=Method.SPRAY, product=neem), day, plant=HOYA)
    assert refused(telling, HOYA, neem, 364) == (Refusal.USES_SPENT,)
    assert refused(telling, HOYA, neem, 365) == (), "the first use is a year ago"
    assert refused(telling, IVY, neem, 30) == ()


@pytest.mark.parametrize(
    ("celsius", "expected"),
    [(6.9, (Refusal.TOO_COLD,)), (7, ()), (32, ()), (32.1, (Refusal.TOO_HOT,))],
)
def test_heat_and_cold_forbid_oil(celsius: float, expected: tuple[Refusal, ...]) -> None:
    # Not above 90 degF, 32.2 degC, and 7 degC as the careful lower end (see products.toml).
    telling = home()
    (oil,) = shelf(telling, "oil")
    telling.tell(TemperatureRead(place=LANDING, celsius=celsius))
    assert refused(telling, HOYA, oil) == expected


@pytest.mark.parametrize(
    ("low", "high", "expected"),
    [
        (7, 32, ()),
        (6, 32, (Refusal.TOO_COLD,)),
        (7, 33, (Refusal.TOO_HOT,)),
        (6, 33, (Refusal.TOO_HOT, Refusal.TOO_COLD)),
    ],
)
def test_a_days_extremes_forbid_oil_where_their_mean_does_not(
    low: float, high: float, expected: tuple[Refusal, ...]
) -> None:
    telling = home()
    (oil,) = shelf(telling, "oil")
    telling.tell(TemperatureRead(place=LANDING, celsius=(low + high) / 2, low=low, high=high))
    assert refused(telling, HOYA, oil) == expected


def test_sensitive_kinds_are_spared() -> None:
    telling = home()
    telling.tell(PlantSet(name="maidenhair fern", place=LANDING), plant=MAIDENHAIR)
    soap, neem = shelf(telling, "soap", "neem")
    assert refused(telling, MAIDENHAIR, soap) == (Refusal.SENSITIVE,)  # dillon_soap
    assert refused(telling, MAIDENHAIR, neem) == ()


def test_pyrethrins_are_not_suggested_beside_a_cat_or_fish() -> None:
    telling = home()
    (pyrethrins,) = shelf(telling, "pyrethrins")
    assert refused(telling, HOYA, pyrethrins) == ()
    telling.tell(HouseholdSet(animals=("dog",)))
    assert refused(telling, HOYA, pyrethrins) == ()
    telling.tell(HouseholdSet(animals=("cat", "dog")))
    assert refused(telling, HOYA, pyrethrins) == (Refusal.ANIMALS,)


def test_the_next_generation_gets_another_mode_of_action() -> None:
    # A generation of thrips lasts about two to three weeks at room warmth: from memory.
    telling = home()
    spinosad, neem = shelf(telling, "spinosad", "neem")
    telling.tell(Treated(method=Method.SPRAY, product=spinosad), 0, plant=HOYA)
    assert refused(telling, HOYA, spinosad, 7, THRIPS) == ()
    assert refused(telling, HOYA, spinosad, 30, THRIPS) == (Refusal.SAME_GROUP,)
    assert refused(telling, HOYA, neem, 30, THRIPS) == ()
    telling.tell(Treated(method=Method.SPRAY, product=neem), 23, plant=HOYA)
    assert refused(telling, HOYA, spinosad, 30, THRIPS) == (Refusal.SAME_GROUP,), "neem has no number"


def test_predators_want_warmth_and_two_days_without_a_soft_spray() -> None:
    # 18 to 27 degC, 48 hours: see tests/published/test_effects_and_looks.py
    telling = home()
    soap, mites = shelf(telling, "soap", "phytoseiulus")
    telling.tell(Treated(method=Method.SPRAY, product=soap), 0, plant=HOYA)
    assert refused(telling, HOYA, mites, 1) == (Refusal.NEAR_ANOTHER,)
    assert refused(telling, HOYA, mites, 2) == ()
    assert refused(telling, HOYA, mites, 2, THRIPS) == (Refusal.WRONG_PEST,)
    telling.tell(TemperatureRead(place=LANDING, celsius=17.5), 3)
    assert refused(telling, HOYA, mites, 3) == (Refusal.TOO_COLD,)


def test_bees_outdoors() -> None:
    telling = home()
    telling.tell(PlaceSet(place=STUDY, outdoors=Outdoors.MORNING))
    (spinosad,) = shelf(telling, "spinosad")
    assert refused(telling, IVY, spinosad) == (Refusal.BEES,)
    assert refused(telling, HOYA, spinosad) == ()


def test_what_is_used_up_is_refused() -> None:
    telling = home()
    (neem,) = shelf(telling, "neem")
    telling.tell(ProductSet(product=neem, stock_ml=0.0))
    assert refused(telling, HOYA, neem) == (Refusal.USED_UP,)


NAMES = ("hoya", "chilli", "maidenhair fern", "ivy", "basil", "begonia", "orchid")


@settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.data())
def test_nothing_is_ever_suggested_against_a_rule(data: st.DataObject) -> None:
    telling = home(celsius=data.draw(st.sampled_from((None, 5, 18, 24, 33))), label_days=None)
    telling.tell(HouseholdSet(animals=tuple(data.draw(st.sets(st.sampled_from(("cat", "fish", "dog")))))))
    telling.tell(PlaceSet(place=STUDY, outdoors=data.draw(st.sampled_from((None, Outdoors.SHADE)))))
    for number, name in enumerate(NAMES):
        place = data.draw(st.sampled_from((LANDING, STUDY)))
        telling.tell(PlantSet(name=name, place=place), plant=PlantId(20 + number))
    numbers = shelf(telling, *data.draw(st.lists(st.sampled_from(INGREDIENTS), max_size=5, unique=True)))
    plants = [PlantId(20 + number) for number in range(len(NAMES))]
    for _ in range(data.draw(st.integers(0, 12))):
        day = data.draw(st.integers(0, 60))
        plant = data.draw(st.sampled_from(plants))
        if data.draw(st.booleans()):
            telling.find(plant, data.draw(st.sampled_from(tuple(KNOWLEDGE.pests))), day, Grade.SOME)
        elif numbers:
            product = data.draw(st.sampled_from(numbers))
            telling.tell(Treated(method=Method.SPRAY, product=product), day, plant=plant)
    today = 60
    household = telling.household
    sulphur = {number for number in numbers if household.products[number].ingredient == "sulphur"}
    oils = {
        n for n in numbers if household.products[n].ingredient in {"oil", "rapeseed_oil", "neem", "raw_neem"}
    }
    for evening in telling.plan(today).evenings:
        for task in evening.tasks:
            if task.product is None:
                continue
            treated, used = household.plants[task.plant], household.products[task.product]
            pests = {case.pest for case in treated.open_cases} or {
                case.pest
                for other in household.living
                if other.place == treated.place
                for case in other.open_cases
            }
            assert refusals(Use(household, KNOWLEDGE, treated, used, DAY + timedelta(days=today))) == ()
            assert any(KNOWLEDGE.pests[pest].is_reached_by(used.ingredient) for pest in pests)
            # the same rules again, written down by themselves
            is_outdoors = treated.place is not None and household.places[treated.place].outdoors is not None
            assert used.ingredient != "sulphur" or is_outdoors
            assert not (used.ingredient == "pyrethrins" and household.animals & {"cat", "fish"})
            assert not (
                used.ingredient in {"imidacloprid", "acetamiprid"} and treated.name in {"chilli", "basil"}
            )
            assert not (used.ingredient == "soap" and treated.name in {"maidenhair fern", "begonia"})
            assert not (used.ingredient in {"spinosad", "pyrethrins", "imidacloprid"} and is_outdoors)
            others = oils if used.id in sulphur else sulphur if used.id in oils else set()
            recent = [one.on for one in treated.treatments if one.product in others]
            assert all((evening.on - on).days >= 30 for on in recent)


def test_a_label_that_says_not_for_what_is_eaten_wins_over_days_told_before() -> None:
    telling = home()
    telling.tell(PlantSet(name="basil", place=LANDING), plant=PlantId(9))
    (soap,) = shelf(telling, "soap", harvest_days=1)
    assert Refusal.NOT_EDIBLE not in refused(telling, PlantId(9), soap, pest=CITRUS)
    telling.tell(ProductSet(product=soap, label=Label(is_for_edibles=False)))
    assert Refusal.NOT_EDIBLE in refused(telling, PlantId(9), soap, pest=CITRUS)
