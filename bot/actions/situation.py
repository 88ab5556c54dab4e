"""What the grammar may know when it reads a message: names, tonight, the open question."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

from bot.actions.action import Choice, Expecting
from bot.domain.identity import MemberId, PlaceId, PlantId, ProductId
from bot.domain.measure import Units
from bot.domain.trade import Method
from bot.domain.value import Value


class KnownPlant(Value, kw_only=True):
    """A plant by its names; the first is the one shown."""

    id: PlantId
    names: tuple[str, ...]
    place: PlaceId | None


class KnownPlace(Value):
    id: PlaceId
    name: str
    awaits_lamp: bool = False
    """Whether it has no window, and no hours of a lamp are told."""


class KnownProduct(Value, kw_only=True):
    """A product of the shelf by its names ("soap", "insecticidal soap")."""

    id: ProductId
    names: tuple[str, ...]


class Asked(Value):
    """What the nudge that is being answered asked of one plant; no method is a check."""

    plant: PlantId
    method: Method | None
    is_beside: bool = False
    """Told since, beside lines still open: "done" alone does not speak of it."""
    product: ProductId | None = None
    is_done: bool = False


class Situation(Value, kw_only=True):
    """Read-only view for the grammar; made from the household and the clock."""

    now: datetime
    zone: ZoneInfo
    today: date
    """The evening's date: before 04:00 the day before."""
    plants: tuple[KnownPlant, ...] = ()
    places: tuple[KnownPlace, ...] = ()
    shelf: tuple[KnownProduct, ...] = ()
    tonight: tuple[Asked, ...] = ()
    sick: frozenset[PlantId] = frozenset()
    """Plants with an open case."""
    spoken: tuple[PlantId, ...] = ()
    """Plants this member told of last, some minutes ago: "put them in the bedroom"."""
    stocked: tuple[str, ...] = ()
    """Ingredients of the products this member told of last, some minutes ago: "it says every 5 days"."""
    found_today: frozenset[PlantId] = frozenset()
    """Plants on which something living was told today, or is asked about: no "all clean" speaks of them."""
    pests: tuple[tuple[str, tuple[str, ...]], ...] = ()
    """Catalogue key and the words people use."""
    ingredients: tuple[tuple[str, tuple[str, ...]], ...] = ()
    """Catalogue product key and the words people use."""
    kinds: frozenset[str] = frozenset()
    """Names of kinds of plants that the catalogue knows."""
    expecting: Expecting = Expecting.NOTHING
    choices: tuple[Choice, ...] = ()
    choice_texts: tuple[str, ...] = ()
    """What their buttons say, in the same order: a typed answer is read by it."""
    units: Units = Units.METRIC
    quiet_from_hour: int = 22
    lacks_town: bool = False
    """Whether the town is still to be told: asked once, it may be answered behind any other question."""
    latitude: float | None = None
    """Of the home, north of the equator positive. [deg]"""
    untold: tuple[str, ...] = ()
    """Places of which it is still to be told which way their window looks."""
    is_held: bool = False
    """Whether the evenings rest."""
    members: tuple[tuple[MemberId, str], ...] = ()
    """Who shares the plants."""
    speaker: MemberId | None = None
