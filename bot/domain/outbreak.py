"""One case as it stands on a day, with what every rule asks of it worked out once."""

from collections.abc import Callable
from datetime import date, timedelta
from typing import Any, TypeVar

from bot.domain.climate import cool_side, warm_side
from bot.domain.household import Case, Household, Plant, Product, Treatment
from bot.domain.knowledge import Knowledge
from bot.domain.pest import Pest
from bot.domain.plant_kind import PlantKind
from bot.domain.trade import Method
from bot.domain.value import Value, cached_property, field

_T = TypeVar("_T")

BY_HAND = frozenset({Method.WIPE, Method.RINSE})
WITH_PRODUCT = frozenset({Method.SPRAY, Method.DRENCH, Method.NEMATODES})
BRIDGE_DAYS = 6
"""Handwork so soon after a product bridges to its next use, whatever the label. Judgement. [d]"""
PAIRED = timedelta(days=1)
"""Handwork and spray so close are one round: within 36 hours, counted in evenings. Judgement."""
NO_WORK = frozenset({Method.PRUNE, Method.REPOT, Method.PREDATORS})
_NO_ROUND = NO_WORK | {Method.DRY}


class Outbreak(Value, kw_only=True, eq=False, dict=True):
    """A case of a plant in its household on a day; what is derived from it is derived once."""

    household: Household
    knowledge: Knowledge
    plant: Plant
    case: Case
    today: date
    memo: dict[object, Any] = field(default_factory=dict)

    @cached_property
    def pest(self) -> Pest:
        return self.knowledge.pests[self.case.pest]

    @cached_property
    def kind(self) -> PlantKind | None:
        return self.knowledge.kind_of(self.plant)

    @cached_property
    def warm(self) -> float | None:
        """The warm side of today, which the gap is planned for; None where nobody told. [degC]."""
        return warm_side(self.household, self.plant, self.today)

    @cached_property
    def cool(self) -> float | None:
        """The cool side of today, for length and release; None where nobody told. [degC]."""
        return cool_side(self.household, self.plant, self.today)

    @cached_property
    def treatments(self) -> list[Treatment]:
        """What was done to the plant from the opening of the case to its end."""
        end = self.case.closed_on or date.max
        return [one for one in self.plant.treatments if self.case.opened_on <= one.on <= end]

    @cached_property
    def round_days(self) -> list[date]:
        """
        Days that count as rounds, in order.

        A product used or a clean-out is one. Handwork is one where it stands alone: not where it goes with a
        product of that evening or the next, nor where it bridges the time to a product's next use.
        """
        full = {one.on for one in self.treatments if one.method not in BY_HAND | _NO_ROUND}
        covered = set(full)
        for one in self.treatments:
            if one.method not in _NO_ROUND and (one.product is not None or one.method in WITH_PRODUCT):
                label = None if one.method is Method.DRENCH else self.label_days(self.product_of(one))
                bridged = max(label or 0, BRIDGE_DAYS)
                covered |= {one.on + timedelta(days=day) for day in range(-PAIRED.days, bridged)}
        return sorted(
            full | {one.on for one in self.treatments if one.method in BY_HAND and one.on not in covered}
        )

    @cached_property
    def last_full_on(self) -> date | None:
        """The last day a product was used or a clean-out done."""
        return max((one.on for one in self.treatments if one.method not in BY_HAND | _NO_ROUND), default=None)

    @cached_property
    def last_on(self) -> date | None:
        """The last treatment but cutting, repotting and letting predators loose: bridging handwork too."""
        return max((one.on for one in self.treatments if one.method not in NO_WORK), default=None)

    @cached_property
    def last_find_on(self) -> date:
        """
        The day the release clock starts.

        One set apart has its own clock, also in a common isolation room. Plants that are not share the last
        find of their place; so do all of a place where it is carried about, all of a home where it flies.
        """
        own = self.case.last_find_on
        if self.pest.fight.flies:
            found = self.household.last_finds_of_all.items()
            return max([own, *(on for (_, pest), on in found if pest == self.case.pest)])
        if self.pest.fight.shares_clock:
            return self.household.last_finds_of_all.get((self.plant.place, self.case.pest), own)
        return (
            own
            if self.plant.is_apart
            else self.household.last_finds.get((self.plant.place, self.case.pest), own)
        )

    @cached_property
    def is_root_prone(self) -> bool:
        """Whether this pest may sit at this plant's roots unseen: as told, else by the plant's kind."""
        return self.pest.at_roots and is_root_prone(self.knowledge, self.plant)

    def days_of(self, method: Method) -> list[date]:
        return sorted({one.on for one in self.treatments if one.method is method})

    def product_of(self, treatment: Treatment) -> Product | None:
        return None if treatment.product is None else self.household.products.get(treatment.product)

    def label_days(self, product: Product | None) -> int | None:
        return label_days(self.knowledge, product)

    def last_use(self, product: Product | None) -> date | None:
        return last_use(self.knowledge, self.plant, product)


def outbreak_on(
    household: Household, knowledge: Knowledge, plant: Plant, case: Case, today: date
) -> Outbreak:
    """Give a case on a day, the same value as long as the household is the same."""
    key = (plant.id, case.pest, case.opened_on, today)
    known = household.derived.get(key)
    if known is None or known.knowledge is not knowledge:
        known = Outbreak(household=household, knowledge=knowledge, plant=plant, case=case, today=today)
        household.derived[key] = known
    assert isinstance(known, Outbreak)
    return known


def once(function: Callable[[Outbreak], _T]) -> Callable[[Outbreak], _T]:
    """Remember what a function gives for an outbreak."""

    def remembered(outbreak: Outbreak) -> _T:
        memo = outbreak.memo
        found: _T = memo[function] if function in memo else memo.setdefault(function, function(outbreak))
        return found

    remembered.__doc__ = function.__doc__
    return remembered


def label_days(knowledge: Knowledge, product: Product | None) -> int | None:
    """Give the label's minimum gap: as told, else the cautious default of its kind. [d]."""
    if product is None:
        return None
    if product.label.gap_days is not None:
        return product.label.gap_days
    kind = knowledge.products.get(product.ingredient)
    return kind.gap_days if kind and not kind.is_alive else None


def last_use(knowledge: Knowledge, plant: Plant, product: Product | None) -> date | None:
    """
    Give the day from which a product's label counts: its last use, or the last spray of any other.

    Leaves that were sprayed two days ago are not sprayed again because the next bottle is another. Judgement.
    """
    if product is None or not plant.treatments:
        return None
    kind = knowledge.products.get(product.ingredient)
    is_spray = kind is not None and Method.SPRAY in kind.methods
    uses = (
        one.on
        for one in plant.treatments
        if one.product == product.id or (is_spray and one.product is not None and one.method is Method.SPRAY)
    )
    return max(uses, default=None)


def allowed_on(knowledge: Knowledge, plant: Plant, product: Product | None) -> date | None:
    """Give the first day on which the label allows the product again, None where it was never used here."""
    label, used_on = label_days(knowledge, product), last_use(knowledge, plant, product)
    return None if label is None or used_on is None else used_on + timedelta(days=label)


def is_root_prone(knowledge: Knowledge, plant: Plant) -> bool:
    """Whether pests may sit at the roots unseen: as told, else by the plant's kind."""
    kind = knowledge.kind_of(plant)
    return "root-prone" in plant.traits or (kind is not None and kind.is_root_prone)
