"""What stands on a product's label, as far as it was told: one value in command, journal and shelf."""

from datetime import date
from decimal import Decimal

from bot.domain.trade import Form
from bot.domain.value import Value, names_of, replace


class Label(Value, kw_only=True):
    """
    Facts of a label; None is what nobody told, for which what is usual of its kind holds.

    gap_days lie between two uses, harvest_days before anything is eaten [d]; rates are product in finished
    spray [mL/L], strength_percent is the active ingredient in the bottle [%].
    """

    form: Form | None = None
    gap_days: int | None = None
    rate_ml_per_l: Decimal | None = None
    most_ml_per_l: Decimal | None = None
    strength_percent: Decimal | None = None
    uses_a_year: int | None = None
    harvest_days: int | None = None
    is_for_indoors: bool | None = None
    is_for_edibles: bool | None = None
    told_on: date | None = None
    """When something of it was last told."""

    @property
    def most(self) -> Decimal | None:
        """The most that is allowed: as told, else the rate itself. [mL/L]."""
        return self.rate_ml_per_l if self.most_ml_per_l is None else self.most_ml_per_l

    @property
    def says_of_eating(self) -> bool:
        """Whether it was told if what is eaten may be treated."""
        return self.is_for_edibles is not None or self.harvest_days is not None

    @property
    def is_blank(self) -> bool:
        return not self.facts()

    def facts(self) -> tuple[str, ...]:
        told = (name for name in names_of(self) if getattr(self, name) is not None)
        return tuple(name for name in told if name != "told_on")

    def then(self, later: "Label") -> "Label":
        """
        Give the label once more of it was told: the later replaces what it says, and no more.

        What cannot stand beside it goes: days before eating with "not for what is eaten", whichever of them
        came first (the safer of the two), rates with "ready to use", a most that is below a new rate.
        """
        told = replace(self, **{name: getattr(later, name) for name in later.facts()})
        told = replace(told, told_on=later.told_on or self.told_on)
        if told.is_for_edibles is False:
            told = replace(told, harvest_days=None)
        if told.form is Form.READY:
            told = replace(told, rate_ml_per_l=None, most_ml_per_l=None)
        if told.rate_ml_per_l is not None and told.most_ml_per_l is not None:
            is_past = told.most_ml_per_l <= told.rate_ml_per_l
            return replace(told, most_ml_per_l=None) if is_past else told
        return told

    def only(self, *names: str) -> "Label":
        """Give the part of it that tells some facts."""
        return Label(**{name: getattr(self, name) for name in names})


_AGAINST = (("is_for_edibles", "harvest_days"), ("form", "rate_ml_per_l"), ("rate_ml_per_l", "most_ml_per_l"))


def contradiction(known: Label, later: Label) -> tuple[Label, Label] | None:
    """
    Give two readings of a label of which only one can hold: what was told last, and what stood before.

    None where they fit. Another value of the same fact is no contradiction, it replaces.
    """
    both = replace(known, **{name: getattr(later, name) for name in later.facts()})
    clashes = {
        "is_for_edibles": both.is_for_edibles is False and both.harvest_days is not None,
        "form": both.form is Form.READY and both.rate_ml_per_l is not None,
        "rate_ml_per_l": (both.most_ml_per_l or 0) < (both.rate_ml_per_l or 0)
        and both.most_ml_per_l is not None,
    }
    for one, other in _AGAINST:
        if clashes[one]:
            first, second = (one, other) if one in later.facts() else (other, one)
            rest = later.only(*(set(later.facts()) - {one, other}))
            return rest.then(_alone(known, both, first)), rest.then(_alone(known, both, second))
    return None


def _alone(known: Label, label: Label, name: str) -> Label:
    """Give one of two facts so that it stands against the other whatever was told before."""
    told = label.only(name)
    if name == "harvest_days":
        return replace(told, is_for_edibles=True)
    if name == "rate_ml_per_l" and label.form is Form.READY:
        return replace(told, form=Form.CONCENTRATE)
    if name == "most_ml_per_l":
        most = label.most_ml_per_l or Decimal(0)
        return replace(told, rate_ml_per_l=min(known.rate_ml_per_l or most, most))
    return told


LIMITS: dict[str, tuple[Decimal | int, Decimal | int]] = {
    "gap_days": (1, 365),
    "rate_ml_per_l": (Decimal("0.001"), 1000),
    "most_ml_per_l": (Decimal("0.001"), 1000),
    "strength_percent": (Decimal("0.001"), 100),
    "uses_a_year": (1, 365),
    "harvest_days": (0, 365),
}
"""What can be meant at all. [d], [mL/L], [%], [1]"""


def impossible(label: Label) -> str | None:
    """Name a fact that no label can say, None where all can be meant."""
    for name in label.facts():
        low, high = LIMITS.get(name, (0, 1))
        if name in LIMITS and not low <= getattr(label, name) <= high:
            return name
    return None
