"""What leaves ask of a treatment: common practice, no source."""

from datetime import timedelta

import pytest

from bot.domain.care import Care, care_of
from bot.domain.fold import fold
from bot.domain.journal import PlantSet, ProductSet, Treated
from bot.domain.trade import Method
from tests.domain.telling import DAY, HOYA, KNOWLEDGE, SOAP, Telling


def _cares(name: str, method: Method | None, ingredient: str, traits: tuple[str, ...] = ()) -> set[Care]:
    telling = Telling()
    telling.tell(PlantSet(name=name, traits=traits or None), plant=HOYA)
    telling.tell(ProductSet(product=SOAP, ingredient=ingredient))
    home = fold(telling.entries)
    return set(care_of(KNOWLEDGE, home.plants[HOYA], method, home.products[SOAP], DAY))


@pytest.mark.parametrize(
    ("name", "method", "ingredient", "cares"),
    [
        ("african violet", Method.SPRAY, "soap", {Care.HAIR, Care.ROSETTE}),
        ("african violet", Method.SWAB, "alcohol", set()),
        ("echeveria", Method.SPRAY, "oil", {Care.BLOOM, Care.ROSETTE}),
        ("echeveria", Method.SPRAY, "pyrethrins", {Care.ROSETTE}),
        ("hoya", Method.SPRAY, "soap", set()),
        ("hoya", None, "soap", set()),
        ("snake plant", Method.RINSE, "soap", {Care.ROTS}),
        ("snake plant", Method.DRENCH, "bti", {Care.ROTS}),
        ("snake plant", Method.SPRAY, "soap", set()),
    ],
)
def test_kinds_ask_for_their_care(
    name: str, method: Method | None, ingredient: str, cares: set[Care]
) -> None:
    assert _cares(name, method, ingredient) == cares


def test_what_was_told_overrides_the_kind() -> None:
    assert _cares("hoya", Method.SPRAY, "soap", ("waxy", "hairy")) == {Care.BLOOM, Care.HAIR}
    assert _cares("echeveria", Method.SPRAY, "oil", ("not-waxy",)) == {Care.ROSETTE}


def test_a_spray_is_warned_of_where_predators_were_let_loose() -> None:
    telling = Telling()
    telling.tell(PlantSet(name="hoya"), plant=HOYA)
    telling.tell(ProductSet(product=SOAP, ingredient="soap"))
    telling.tell(Treated(method=Method.PREDATORS), 3, plant=HOYA)
    home = fold(telling.entries)
    for day, cares in ((2, ()), (3, (Care.PREDATORS,)), (31, (Care.PREDATORS,)), (32, ())):
        on = DAY + timedelta(days=day)
        assert care_of(KNOWLEDGE, home.plants[HOYA], Method.SPRAY, home.products[SOAP], on) == cares
        assert care_of(KNOWLEDGE, home.plants[HOYA], Method.WIPE, None, on) == ()
