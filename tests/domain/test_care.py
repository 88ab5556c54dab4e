"""What leaves ask of a treatment: common practice, no source."""

import pytest

from bot.domain.care import Care, care_of
from bot.domain.fold import fold
from bot.domain.journal import PlantSet, ProductSet
from bot.domain.trade import Method
from tests.domain.telling import HOYA, KNOWLEDGE, SOAP, Telling


def _cares(name: str, method: Method | None, ingredient: str, traits: tuple[str, ...] = ()) -> set[Care]:
    telling = Telling()
    telling.tell(PlantSet(name=name, traits=traits or None), plant=HOYA)
    telling.tell(ProductSet(product=SOAP, ingredient=ingredient))
    home = fold(telling.entries)
    return set(care_of(home, KNOWLEDGE, home.plants[HOYA], method, SOAP))


@pytest.mark.parametrize(
    ("name", "method", "ingredient", "cares"),
    [
        ("african violet", Method.SPRAY, "soap", {Care.HAIR, Care.ROSETTE}),
        ("african violet", Method.SWAB, "alcohol", set()),
        ("echeveria", Method.SPRAY, "oil", {Care.BLOOM, Care.ROSETTE}),
        ("echeveria", Method.SPRAY, "pyrethrins", {Care.ROSETTE}),
        ("hoya", Method.SPRAY, "soap", set()),
        ("hoya", None, "soap", set()),
    ],
)
def test_kinds_ask_for_their_care(
    name: str, method: Method | None, ingredient: str, cares: set[Care]
) -> None:
    assert _cares(name, method, ingredient) == cares


def test_what_was_told_overrides_the_kind() -> None:
    assert _cares("hoya", Method.SPRAY, "soap", ("waxy", "hairy")) == {Care.BLOOM, Care.HAIR}
    assert _cares("echeveria", Method.SPRAY, "oil", ("not-waxy",)) == {Care.ROSETTE}
