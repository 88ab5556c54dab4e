"""
The journal: what a household told, entry by entry, append-only.

Everything about plants is derived from it. A payload is a value of one of the classes below; None in a field
of the `...Set` classes means unchanged. Add fields with a default only: old entries must stay readable.
"""

from datetime import date, datetime, time, timedelta
from decimal import Decimal
from zoneinfo import ZoneInfo

from bot.domain.identity import EntryId, HouseholdId, MemberId, PhotoId, PlaceId, PlantId, ProductId
from bot.domain.label import Label
from bot.domain.trade import Grade, Level, Method, Sign
from bot.domain.value import Value
from bot.domain.window import Facing, Outdoors

NIGHT_ENDS_AT = time(4)
"""Before this local time the day counts for the evening before. Judgement."""


class Payload(Value):
    """What one entry tells."""


class Background(Payload):
    """What is no history: settings, what the bot sent or made, how a walk or a work day goes on."""


class OfAPlant(Payload):
    """What can have been told of the wrong plant."""


class HouseholdSet(Background, kw_only=True):
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


class PlaceSet(Background, kw_only=True):
    """A place added or changed. usual_c is its usual temperature [degC]."""

    place: PlaceId
    name: str | None = None
    facing: Facing | None = None
    outdoors: Outdoors | None = None
    usual_c: float | None = None
    lamp_from: time | None = None
    lamp_until: time | None = None


class PlaceGone(Background, kw_only=True):
    place: PlaceId


class PlantSet(Payload, kw_only=True):
    """The entry's plant added, moved or told more of. Pot size [cm]."""

    name: str | None = None
    place: PlaceId | None = None
    pot_cm: float | None = None
    kind: str | None = None
    traits: tuple[str, ...] | None = None


class PlantRenamed(Payload):
    name: str


class ProductSet(Payload, kw_only=True):
    """A product on the shelf, or more of its label."""

    product: ProductId
    ingredient: str | None = None
    stock_ml: float | None = None
    label: Label = Label()


class Found(OfAPlant, kw_only=True):
    """Living pests or egg sacs seen. pest is a catalogue key."""

    pest: str
    grade: Grade
    count: int | None = None
    where: str | None = None


class SignSeen(OfAPlant):
    sign: Sign


class CheckedClean(OfAPlant):
    level: Level


class Treated(OfAPlant, kw_only=True):
    method: Method
    product: ProductId | None = None


class Postponed(OfAPlant, kw_only=True):
    """Not tonight: due on a day, or later the same evening (at, UTC)."""

    on: date
    at: datetime | None = None


class IsolatedNow(OfAPlant):
    """The entry's plant is kept apart; apart False: it cannot be moved, its place is the isolation room."""

    apart: bool = True
    quarantine_days: int | None = None
    """A new arrival is kept apart for so long; None for a plant apart because of a find. [d]"""


class ReleasedNow(OfAPlant):
    """The entry's plant leaves isolation, by the rule or against it."""

    by_rule: bool


class LostNow(OfAPlant):
    """The entry's plant died or was thrown out."""


class PestCorrected(Payload):
    """The open case on the entry's plant is of another pest."""

    pest: str


class UsualByMonth(Payload, kw_only=True):
    """How warm a place usually is in some months of the year. [degC]."""

    place: PlaceId
    months: tuple[int, ...]
    celsius: float


class TemperatureRead(Payload, kw_only=True):
    """A reading of a place, or a day's lowest and highest with their mean. [degC]."""

    place: PlaceId
    celsius: float
    low: float | None = None
    high: float | None = None


class RoutineSet(Payload, kw_only=True):
    """A fixed habit; an empty rule ends it."""

    name: str
    rule: str


class HeldUntil(Payload):
    """
    No nudges before this day; None is until further notice; a day in the past ends it.

    is_own: for the member who said it, while others of the home go on.
    """

    until: date | None
    is_own: bool = False


class NudgedTask(Value, kw_only=True):
    """
    What a nudge asked of one plant; no method is a check; from_at is set where it waits for morning.

    is_over: it was named, and said to be too late for that evening.
    """

    plant: PlantId
    method: Method | None = None
    product: ProductId | None = None
    from_at: datetime | None = None
    is_over: bool = False


class Nudged(Background, kw_only=True):
    """A nudge the bot sent for the evening of happened_on; a later count is its repeat, or the morning's."""

    count: int
    tasks: tuple[NudgedTask, ...]
    is_morning: bool = False


class LineTaken(Payload):
    """The entry's member does what is asked of its plant that evening."""


class Heard(Background):
    """Somebody answered the open nudge."""


class SilenceAsked(Background):
    """After evenings without a word: asked whether to go on, and then once a week until anything is heard."""


class Voided(Payload):
    """Takes back the entry named by void_of."""


class WorkBegun(Payload):
    """A work day begins with these plants; those to be cleaned out are among them."""

    plants: tuple[PlantId, ...]
    cleaned_out: tuple[PlantId, ...] = ()


class WorkTicked(Background):
    """A stage of the work day is done for these plants, or left out."""

    stage: str
    plants: tuple[PlantId, ...]
    is_left_out: bool = False


class WorkEnded(Background):
    """The work day is over, whatever was ticked."""


class WalkBegun(Background):
    """A check walk begins over these plants, in this order, all looked at in one way."""

    plants: tuple[PlantId, ...]
    level: Level


class WalkPassed(Background):
    """The entry's plant is left out of this walk."""


class WalkEnded(Background):
    """The walk is over, whatever is left."""


class Watered(Payload):
    """The entry's plant was watered."""


class PhotoTaken(OfAPlant):
    photo: PhotoId


class CalendarGiven(Background):
    """Evenings that a calendar file named: a later file must take back those that moved."""

    evenings: tuple[date, ...]


class SprayUsed(Payload):
    """Spray the whole evening took. [mL]."""

    ml: Decimal


class LeafCounted(Payload):
    """Living pests on one leaf before and after a wash. [1]."""

    before: int
    after: int


class Draft(Value, kw_only=True):
    """An entry before the store gives it a number."""

    payload: Payload
    happened_at: datetime
    happened_on: date
    member: MemberId | None = None
    plant: PlantId | None = None
    void_of: EntryId | None = None


class Entry(Value, kw_only=True):
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
