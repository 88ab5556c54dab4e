"""Whether a kind of plant is poisonous to those it lives with."""

import enum
from collections.abc import Mapping

from bot.domain.plant_kind import PlantKind
from bot.domain.value import Value


class Eater(enum.Enum):
    CATS = "cats"
    DOGS = "dogs"
    PEOPLE = "people"


class Verdict(Value, kw_only=True):
    """What is known for one eater: poisonous, not, or unknown; and by which lists, none if recalled."""

    is_poisonous: bool | None
    sources: tuple[str, ...] = ()
    is_grave: bool = False
    """Whether a little of it can kill or do lasting harm."""


UNKNOWN = Verdict(is_poisonous=None)


class Poison(Value):
    verdicts: Mapping[Eater, Verdict]
    note: str = ""
    """The part, or what else hurts."""

    def for_eater(self, eater: Eater) -> Verdict:
        """Give the verdict, unknown where no list read names the kind."""
        return self.verdicts.get(eater, UNKNOWN)


class PoisonOf(Value):
    """One of the kinds a plant's name may mean, with its verdict."""

    kind: PlantKind
    verdict: Verdict
    note: str


def poison_of(poisons: Mapping[str, Poison], kind: PlantKind | None, eater: Eater) -> tuple[PoisonOf, ...]:
    """
    Answer whether a plant of a kind is poisonous.

    Every kind that a shared name may mean is answered for. Nothing is ever called harmless for want of an
    entry: a kind that is not in the lists, and no kind at all, are unknown.
    """
    bearers = () if kind is None else kind.one_of or (kind,)
    known = ((one, poisons.get(one.key, Poison({}))) for one in bearers)
    return tuple(PoisonOf(one, told.for_eater(eater), told.note) for one, told in known)
