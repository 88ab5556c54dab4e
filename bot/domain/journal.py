"""
The journal: what a household told, entry by entry, append-only.

Everything about plants is derived from it. A payload is a value of one of the classes below; None in a field
of the `...Set` classes means unchanged. Add fields with a default only: old entries must stay readable.
"""

from dataclasses import field
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from zoneinfo import ZoneInfo

from bot.domain.identity import EntryId, HouseholdId, MemberId, PhotoId, PlaceId, PlantId, ProductId
from bot.domain.label import Label
from bot.domain.release import Level
from bot.domain.trade import Grade, Method, Sign
from bot.domain.value import dataclass
from bot.domain.window import Facing, Outdoors

NIGHT_ENDS_AT = time(4)
"""Before this local time the day counts for the evening before. Judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HouseholdSet:
    """
    Preferences of the household. Latitude and longitude to 0.1 [deg].

    units is a value of `measure.Units`, tools are values of `measure.Tool`; clock_hours is 12 or 24.
    """

    town: str | None = None
    latitude: float | None = None
    longitude: float | None = None
    zone: str | None = None
    evening: time | None = None
    quiet_from: time | None = None
    quiet_until: time | None = None
    units: str | None = None
    clock_hours: int | None = None
    strict: bool | None = None
    animals: tuple[str, ...] | None = None
    status: bool | None = None
    tools: tuple[str, ...] | None = None
    repeats: bool | None = None
    is_own: bool = False
    """Whether the quiet hours are the teller's alone: others share the home."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceSet:
    """A place added or changed. usual_c is its usual temperature [degC]."""

    place: PlaceId
    name: str | None = None
    facing: Facing | None = None
    outdoors: Outdoors | None = None
    usual_c: float | None = None
    lamp_from: time | None = None
    lamp_until: time | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceGone:
    """A place is no longer used."""

    place: PlaceId


@dataclass(frozen=True, slots=True, kw_only=True)
class PlantSet:
    """The entry's plant added, moved or told more of. Pot size [cm]."""

    name: str | None = None
    place: PlaceId | None = None
    pot_cm: float | None = None
    kind: str | None = None
    traits: tuple[str, ...] | None = None


@dataclass(frozen=True, slots=True)
class PlantRenamed:
    """The entry's plant is called otherwise."""

    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ProductSet:
    """A product on the shelf, or more of its label."""

    product: ProductId
    ingredient: str | None = None
    stock_ml: float | None = None
    label: Label = field(default_factory=Label)


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """Living pests or egg sacs seen. pest is a catalogue key."""

    pest: str
    grade: Grade
    count: int | None = None
    where: str | None = None


@dataclass(frozen=True, slots=True)
class SignSeen:
    """A sign without a living pest."""

    sign: Sign


@dataclass(frozen=True, slots=True)
class CheckedClean:
    """A look with none seen."""

    level: Level


@dataclass(frozen=True, slots=True, kw_only=True)
class Treated:
    """A treatment done."""

    method: Method
    product: ProductId | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Postponed:
    """Not tonight: due on a day, or later the same evening (at, UTC)."""

    on: date
    at: datetime | None = None


@dataclass(frozen=True, slots=True)
class IsolatedNow:
    """The entry's plant is kept apart; apart False: it cannot be moved, its place is the isolation room."""

    apart: bool = True
    quarantine_days: int | None = None
    """A new arrival is kept apart for so long; None for a plant apart because of a find. [d]"""


@dataclass(frozen=True, slots=True)
class ReleasedNow:
    """The entry's plant leaves isolation, by the rule or against it."""

    by_rule: bool


@dataclass(frozen=True, slots=True)
class LostNow:
    """The entry's plant died or was thrown out."""


@dataclass(frozen=True, slots=True)
class PestCorrected:
    """The open case on the entry's plant is of another pest."""

    pest: str


@dataclass(frozen=True, slots=True, kw_only=True)
class UsualByMonth:
    """How warm a place usually is in some months of the year. [degC]."""

    place: PlaceId
    months: tuple[int, ...]
    celsius: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TemperatureRead:
    """A reading of a place, or a day's lowest and highest with their mean. [degC]."""

    place: PlaceId
    celsius: float
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RoutineSet:
    """A fixed habit; an empty rule ends it."""

    name: str
    rule: str


@dataclass(frozen=True, slots=True)
class HeldUntil:
    """
    No nudges before this day; None is until further notice; a day in the past ends it.

    is_own: for the member who said it, while others of the home go on.
    """

    until: date | None
    is_own: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class NudgedTask:
    """
    What a nudge asked of one plant; no method is a check; from_at is set where it waits for morning.

    is_over: it was named, and said to be too late for that evening.
    """

    plant: PlantId
    method: Method | None = None
    product: ProductId | None = None
    from_at: datetime | None = None
    is_over: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Nudged:
    """A nudge the bot sent for the evening of happened_on; a later count is its repeat, or the morning's."""

    count: int
    tasks: tuple[NudgedTask, ...]
    is_morning: bool = False


@dataclass(frozen=True, slots=True)
class LineTaken:
    """The entry's member does what is asked of its plant that evening."""


@dataclass(frozen=True, slots=True)
class Heard:
    """Somebody answered the open nudge."""


@dataclass(frozen=True, slots=True)
class SilenceAsked:
    """After evenings without a word: asked whether to go on, and then once a week until anything is heard."""


@dataclass(frozen=True, slots=True)
class Voided:
    """Takes back the entry named by void_of."""


@dataclass(frozen=True, slots=True)
class WorkBegun:
    """A work day begins with these plants; those to be cleaned out are among them."""

    plants: tuple[PlantId, ...]
    cleaned_out: tuple[PlantId, ...] = ()


@dataclass(frozen=True, slots=True)
class WorkTicked:
    """A stage of the work day is done for these plants, or left out."""

    stage: str
    plants: tuple[PlantId, ...]
    is_left_out: bool = False


@dataclass(frozen=True, slots=True)
class WorkEnded:
    """The work day is over, whatever was ticked."""


@dataclass(frozen=True, slots=True)
class WalkBegun:
    """A check walk begins over these plants, in this order, all looked at in one way."""

    plants: tuple[PlantId, ...]
    level: Level


@dataclass(frozen=True, slots=True)
class WalkPassed:
    """The entry's plant is left out of this walk."""


@dataclass(frozen=True, slots=True)
class WalkEnded:
    """The walk is over, whatever is left."""


@dataclass(frozen=True, slots=True)
class Watered:
    """The entry's plant was watered."""


@dataclass(frozen=True, slots=True)
class PhotoTaken:
    """A photo shows the entry's plant."""

    photo: PhotoId


@dataclass(frozen=True, slots=True)
class CalendarGiven:
    """Evenings that a calendar file named: a later file must take back those that moved."""

    evenings: tuple[date, ...]


@dataclass(frozen=True, slots=True)
class SprayUsed:
    """Spray the whole evening took. [mL]."""

    ml: Decimal


@dataclass(frozen=True, slots=True)
class LeafCounted:
    """Living pests on one leaf before and after a wash. [1]."""

    before: int
    after: int


Payload = (
    HouseholdSet
    | PlaceSet
    | PlaceGone
    | PlantSet
    | PlantRenamed
    | ProductSet
    | Found
    | SignSeen
    | Watered
    | CheckedClean
    | Treated
    | Postponed
    | IsolatedNow
    | ReleasedNow
    | LostNow
    | PestCorrected
    | TemperatureRead
    | UsualByMonth
    | PhotoTaken
    | CalendarGiven
    | SprayUsed
    | LeafCounted
    | WalkBegun
    | WalkPassed
    | WalkEnded
    | RoutineSet
    | HeldUntil
    | WorkBegun
    | WorkTicked
    | WorkEnded
    | Nudged
    | Heard
    | SilenceAsked
    | LineTaken
    | Voided
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """An entry before the store gives it a number."""

    payload: Payload
    happened_at: datetime
    happened_on: date
    member: MemberId | None = None
    plant: PlantId | None = None
    void_of: EntryId | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One line of the journal. Entries of one source were told together and are undone together."""

    id: EntryId
    household: HouseholdId
    member: MemberId | None
    plant: PlantId | None
    happened_at: datetime
    happened_on: date
    recorded_at: datetime
    source: str
    payload: Payload
    void_of: EntryId | None


def evening_of(at: datetime, zone: ZoneInfo) -> date:
    """Local date an instant counts for: before 04:00 the evening before. Judgement."""
    local = at.astimezone(zone)
    return local.date() - timedelta(days=1) if local.time() < NIGHT_ENDS_AT else local.date()
