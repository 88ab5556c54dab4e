"""A label told piece by piece."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.domain.label import LIMITS, Label, contradiction, impossible
from bot.domain.trade import Form
from bot.domain.value import names_of

rates = st.none() | st.integers(1, 40).map(Decimal)
labels = st.builds(
    Label,
    form=st.none() | st.sampled_from(Form),
    gap_days=st.none() | st.integers(1, 30),
    rate_ml_per_l=rates,
    most_ml_per_l=rates,
    strength_percent=st.none() | st.integers(1, 100).map(Decimal),
    uses_a_year=st.none() | st.integers(1, 12),
    harvest_days=st.none() | st.integers(0, 14),
    is_for_indoors=st.none() | st.booleans(),
    is_for_edibles=st.none() | st.booleans(),
    told_on=st.none(),
)
CONTRADICTING = {"form", "rate_ml_per_l", "most_ml_per_l", "harvest_days", "is_for_edibles"}


@given(labels, labels)
def test_a_later_fact_replaces_what_it_says_and_leaves_the_rest(known: Label, later: Label) -> None:
    told = known.then(later)
    for name in set(names_of(Label)) - CONTRADICTING:
        expected = getattr(known, name) if getattr(later, name) is None else getattr(later, name)
        assert getattr(told, name) == expected


@given(labels, labels)
def test_what_is_kept_never_contradicts_itself(known: Label, later: Label) -> None:
    told = Label().then(known).then(later)
    assert not (told.is_for_edibles is False and told.harvest_days is not None)
    assert not (told.form is Form.READY and told.rate_ml_per_l is not None)
    assert told.most_ml_per_l is None or told.rate_ml_per_l is None or told.most_ml_per_l > told.rate_ml_per_l


@given(labels, labels)
def test_either_reading_of_a_contradiction_fits_what_stood_before(known: Label, later: Label) -> None:
    known = Label().then(known)
    found = contradiction(known, later)
    if found is not None:
        first, second = found
        kept = known.then(first), known.then(second)
        assert kept[0] != kept[1]
        for name in set(names_of(Label)) - CONTRADICTING:
            assert getattr(kept[0], name) == getattr(kept[1], name), "only what contradicts differs"


def test_a_most_below_the_rate_contradicts_it_and_one_above_does_not() -> None:
    # 2 mL/L within "up to 5": fits. 8 mL/L is past 5.
    known = Label(rate_ml_per_l=Decimal(2), most_ml_per_l=Decimal(5))
    assert contradiction(known, Label(rate_ml_per_l=Decimal(4))) is None
    found = contradiction(known, Label(rate_ml_per_l=Decimal(8)))
    assert found is not None
    assert (known.then(found[0]).most, known.then(found[1]).most) == (Decimal(8), Decimal(5))


@pytest.mark.parametrize("name", LIMITS)
def test_what_no_label_can_say_is_named(name: str) -> None:
    low, high = (Decimal(one) for one in LIMITS[name])
    for value, wrong in ((high, None), (high + 1, name), (low - 1, name)):
        assert impossible(Label(**{name: value})) == wrong  # type: ignore[arg-type]
