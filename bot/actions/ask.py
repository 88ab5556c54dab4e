"""A question, and what can be asked."""

from collections.abc import Callable
from datetime import date
from enum import Enum
from typing import Any, TypeVar

from bot.actions.action import Command
from bot.domain.identity import MemberId, PlaceId, PlantId, ProductId


class Topic(Enum):
    ISOLATED = "isolated"
    DUE = "due"
    WHY = "why"
    RELEASE = "release"
    LOG = "log"
    TREND = "trend"
    ANTS = "ants"
    DISH_SOAP = "dish-soap"
    SAFETY = "safety"
    EATING = "eating"
    STOCK = "stock"
    SETTINGS = "settings"
    ROUTINES = "routines"
    MEMBERS = "members"
    PHOTOS = "photos"
    PLANTS = "plants"
    PESTS = "pests"
    PLACES = "places"
    FIT = "fit"
    SUN = "sun"
    BUY = "buy"
    WITH = "with"
    STEPS = "steps"
    ORDER = "order"
    LATE = "late"
    INSTEAD = "instead"
    HEAT = "heat"
    AFTER = "after"
    WASTE = "waste"
    LOOKING = "looking"


class Ask(Command, kw_only=True):
    """A question; never writes."""

    topic: Topic
    plants: tuple[PlantId, ...] = ()
    place: PlaceId | None = None
    product: ProductId | None = None
    ingredients: tuple[str, ...] = ()
    """What is named where it is several products, or one that is not at hand."""
    pest: str | None = None
    """Only the plants that have it."""
    when: str | None = None
    on: date | None = None
    """The day that is asked about."""
    is_ill: bool | None = None
    """Whether it is asked what has a pest, or what has none."""
    is_latest: bool = False
    """Whether no more is asked than when it was last."""
    who: MemberId | None = None
    """Only what this member told."""
    in_full: bool = False
    """Whether a reason is asked for with its sums and sources."""


OF_WORK = frozenset(
    {
        *(Topic.WITH, Topic.STEPS, Topic.ORDER, Topic.LATE, Topic.INSTEAD),
        *(Topic.HEAT, Topic.AFTER, Topic.WASTE, Topic.LOOKING),
    }
)
"""What is asked about an evening's work."""

WITHOUT_PLANTS = {
    Topic.ANTS,
    Topic.DISH_SOAP,
    Topic.SAFETY,
    Topic.EATING,
    Topic.BUY,
    Topic.SETTINGS,
    Topic.STOCK,
    Topic.MEMBERS,
    Topic.PESTS,
    Topic.ROUTINES,
}
"""What can be asked before there are plants."""

_F = TypeVar("_F", bound=Callable[[Ask, Any], Any])
ANSWERERS: dict[Topic, Callable[[Ask, Any], Any]] = {}
"""Filled by the files of the actions as they are read."""


def answers(topic: Topic) -> Callable[[_F], _F]:
    """Let a function answer what is asked of a topic."""

    def keep(function: _F) -> _F:
        ANSWERERS[topic] = function
        return function

    return keep
