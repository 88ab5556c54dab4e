"""Everything a person can tell or ask the bot, as values: what the grammar and the buttons produce."""

from dataclasses import dataclass
from datetime import date, datetime, time
from decimal import Decimal
from enum import Enum

from bot.actions.button_texts import ButtonText
from bot.domain.identity import PhotoId, PlaceId, PlantId, ProductId
from bot.domain.measure import Tool, Units
from bot.domain.mixture import Share
from bot.domain.release import Level
from bot.domain.trade import Form, Grade, Method, Sign
from bot.domain.window import Facing, Outdoors


@dataclass(frozen=True, slots=True)
class Start:
    """/start, with what a deep link or a founding code added."""

    payload: str = ""


@dataclass(frozen=True, slots=True)
class SetTown:
    """A town as typed; looked up offline."""

    text: str


@dataclass(frozen=True, slots=True)
class SetCoordinates:
    """A shared location or typed coordinates. [deg]."""

    latitude: float
    longitude: float
    town: str | None = None
    zone: str | None = None
    country: str | None = None


@dataclass(frozen=True, slots=True)
class SetHours:
    """Preferred evening time, quiet hours; None is unchanged."""

    evening: time | None = None
    quiet_from: time | None = None
    quiet_until: time | None = None


@dataclass(frozen=True, slots=True)
class SetUnits:
    """Measures and clock people here are used to; None is unchanged."""

    units: Units | None = None
    clock_hours: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SetPlace:
    """Add a place, or tell more about one (place_id set)."""

    name: str
    place_id: PlaceId | None = None
    facing: Facing | None = None
    outdoors: Outdoors | None = None
    lamp_from: time | None = None
    lamp_until: time | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class NewPlant:
    """One line of a plant list, as typed."""

    name: str
    place: str | None = None
    pot_cm: float | None = None


@dataclass(frozen=True, slots=True)
class AddPlants:
    """One plant a line, many in one message; unread lines are shown back."""

    plants: tuple[NewPlant, ...]
    unread: tuple[str, ...] = ()
    is_sure: bool = False
    """Whether it was asked that a lone name is no town's."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogRound:
    """A treatment done. No method: what tonight's nudge asked of each plant."""

    plants: tuple[PlantId, ...]
    method: Method | None = None
    product: ProductId | None = None
    on: date | None = None
    at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Postpone:
    """Not tonight: another day, or later this evening (at)."""

    plants: tuple[PlantId, ...]
    on: date | None = None
    at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LogFind:
    """Living pests seen: a count or a grade."""

    plants: tuple[PlantId, ...]
    count: int | None = None
    grade: Grade | None = None
    pest: str | None = None
    where: str | None = None
    on: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LogSign:
    """A sign without a living pest."""

    plants: tuple[PlantId, ...]
    sign: Sign
    on: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LogCheck:
    """A look with none seen."""

    plants: tuple[PlantId, ...]
    level: Level | None = None
    on: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Correct:
    """Set right what was told last: another plant, another pest, or another count."""

    plant: PlantId | None = None
    pest: str | None = None
    count: int | None = None


@dataclass(frozen=True, slots=True)
class Undo:
    """Take back the last thing this person told; of an earlier evening only if that very thing was shown."""

    shown: str = ""
    """The source of what was shown and agreed to; anything told since leaves it alone."""


@dataclass(frozen=True, slots=True)
class Isolate:
    """Put apart; apart False: it cannot be moved, its place becomes the isolation room."""

    plants: tuple[PlantId, ...]
    on: date | None = None
    apart: bool = True
    quarantine_days: int | None = None


@dataclass(frozen=True, slots=True)
class Rename:
    """Another name for a plant or for a place; one of the two is set."""

    name: str
    plant: PlantId | None = None
    place: PlaceId | None = None


@dataclass(frozen=True, slots=True)
class SetPot:
    """How wide the pots of plants are. [cm]."""

    plants: tuple[PlantId, ...]
    pot_cm: float


@dataclass(frozen=True, slots=True)
class RemovePlace:
    """A place is no longer used."""

    place: PlaceId


@dataclass(frozen=True, slots=True)
class MovePlant:
    """To another place."""

    plants: tuple[PlantId, ...]
    place: PlaceId
    on: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ReleasePlant:
    """Back from isolation; against the rule only when confirmed."""

    plants: tuple[PlantId, ...]
    on: date | None = None
    confirmed: bool = False
    asked_on: date | None = None
    """The evening on which it was offered; a day later the offer is over."""


@dataclass(frozen=True, slots=True)
class LosePlant:
    """Died or thrown out."""

    plants: tuple[PlantId, ...]
    on: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class StockProduct:
    """A product onto the shelf, or more about it."""

    ingredient: str
    form: Form | None = None
    gap_days: int | None = None
    stock_ml: float | None = None
    rate_ml_per_l: Decimal | None = None
    most_ml_per_l: Decimal | None = None
    strength_percent: Decimal | None = None
    uses_a_year: int | None = None
    harvest_days: int | None = None
    is_for_indoors: bool | None = None
    is_for_edibles: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Identify:
    """Find out what was seen: the answers so far, and the find it is to complete."""

    plants: tuple[PlantId, ...] = ()
    answers: tuple[tuple[str, str], ...] = ()
    find: LogFind | None = None


@dataclass(frozen=True, slots=True)
class BeginWork:
    """A work day with these plants, or with all that need it; or the one under way again."""

    plants: tuple[PlantId, ...] = ()
    cleaned_out: tuple[PlantId, ...] = ()


@dataclass(frozen=True, slots=True)
class TickWork:
    """The open stage is done, but for some plants; or it is left out."""

    but: tuple[PlantId, ...] = ()
    is_left_out: bool = False


@dataclass(frozen=True, slots=True)
class EndWork:
    """Enough for today, to go on later; or for good."""

    is_for_good: bool = False


@dataclass(frozen=True, slots=True)
class BeginWalk:
    """
    A look over plants one by one, all where none are named, or the walk under way again.

    The level is asked where it is not told.
    """

    level: Level | None = None
    plants: tuple[PlantId, ...] = ()


@dataclass(frozen=True, slots=True)
class PassPlant:
    """Not this one on this walk."""

    plants: tuple[PlantId, ...]


@dataclass(frozen=True, slots=True)
class GoOn:
    """The walk's next plant, unless something is being asked about this one."""


@dataclass(frozen=True, slots=True)
class EndWalk:
    """Stop the walk, to go on later; or for good."""

    is_for_good: bool = False


@dataclass(frozen=True, slots=True)
class KeepPhoto:
    """A photo and the plants it shows; without plants they are asked."""

    photo: PhotoId
    plants: tuple[PlantId, ...] = ()


@dataclass(frozen=True, slots=True)
class RefusePhoto:
    """A photo past the most that a household may keep."""

    most: int


@dataclass(frozen=True, slots=True)
class SetStrict:
    """Let plants go at the stricter chance, or at the usual one again."""

    is_strict: bool


@dataclass(frozen=True, slots=True)
class Invite:
    """Let somebody else share the plants."""


@dataclass(frozen=True, slots=True)
class Leave:
    """Share the plants no longer; asked first."""

    is_confirmed: bool = False


@dataclass(frozen=True, slots=True)
class RemoveMember:
    """Let somebody no longer share the plants; the owner's word, asked first."""

    name: str
    is_confirmed: bool = False


@dataclass(frozen=True, slots=True)
class HandOver:
    """Make somebody else the owner; asked first."""

    name: str
    is_confirmed: bool = False


class Erasing(Enum):
    """What is to be erased."""

    ME = "me"
    HOME = "home"


@dataclass(frozen=True, slots=True)
class Forget:
    """Erase the member's account, or the whole home; is_typed: the sentence asked for was written."""

    what: Erasing = Erasing.ME
    is_typed: bool = False


class ExportKind(Enum):
    """What a file is to hold."""

    CALENDAR = "calendar"
    TABLE = "table"
    ALL = "all"


@dataclass(frozen=True, slots=True)
class Export:
    """A file of what is planned or was told; without a kind it is asked."""

    kind: ExportKind | None = None


@dataclass(frozen=True, slots=True)
class SetAnimals:
    """Animals that live here, or no longer do."""

    animals: tuple[str, ...]
    gone: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SetTraits:
    """What plants are: edible, hairy, waxy, or not."""

    plants: tuple[PlantId, ...]
    trait: str


@dataclass(frozen=True, slots=True)
class ReadTemperature:
    """How warm a place is. [degC]."""

    place: PlaceId
    celsius: float
    on: date | None = None
    months: tuple[int, ...] = ()
    """Months of every year it usually is so warm in, instead of a reading."""


@dataclass(frozen=True, slots=True)
class SetRoutine:
    """A fixed habit as an RFC 5545 rule."""

    name: str
    rule: str


@dataclass(frozen=True, slots=True)
class Decline:
    """What was offered is not wanted; writes nothing."""


@dataclass(frozen=True, slots=True)
class SkipQuestion:
    """Put off the open question of the setting-up; it can be answered any time."""


@dataclass(frozen=True, slots=True)
class Greet:
    """A greeting or a farewell; writes nothing."""

    is_farewell: bool = False


@dataclass(frozen=True, slots=True)
class Hold:
    """Away, or silence, until a day or until further notice."""

    until: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Mix:
    """A mixture asked for; what is not told is the label's, or usual. [mL], [mL/L], [%]."""

    volume_ml: float | None
    product: ProductId | None = None
    ingredient: str | None = None
    rate_ml_per_l: Decimal | None = None
    percent: Decimal | None = None
    percent_of: Share | None = None
    parts: Decimal | None = None
    """Parts of water to one of product. [1]"""
    stock_percent: Decimal | None = None
    tool: Tool | None = None
    is_for_tonight: bool = False
    plants: tuple[PlantId, ...] = ()
    """Plants it is for: their pots give the volume."""
    in_full: bool = False
    """Whether the sums behind it are asked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogUse:
    """Spray a whole evening took; far from what was reckoned only if it is sure. [mL]."""

    ml: Decimal
    on: date | None = None
    is_sure: bool = False


class Topic(Enum):
    """What can be asked."""

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
    PLACES = "places"
    FIT = "fit"
    SUN = "sun"
    BUY = "buy"


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """A question; never writes."""

    topic: Topic
    plants: tuple[PlantId, ...] = ()
    place: PlaceId | None = None
    product: ProductId | None = None
    when: str | None = None
    in_full: bool = False
    """Whether a reason is asked for with its sums and sources."""


class Missing(Enum):
    """What a clause leaves open."""

    METHOD = "method"
    WHICH_PLANT = "which"
    SHOWN = "shown"
    UNKNOWN_PLANT = "plant"
    WHICH_PEST = "pest"
    NONE_SEEN = "none"
    LOST = "lost"
    DELETE = "delete"
    LATER = "later"
    ADD = "add"
    TOWN_OR_PLANT = "town"
    MEANT = "meant"
    EXPORT = "export"
    WHICH_PLACE = "place"
    WHEN = "when"
    AMOUNT = "amount"
    WHICH_PRODUCT = "product"
    FORM = "form"
    PERCENT_OF = "percent"


@dataclass(frozen=True, slots=True)
class Choice:
    """One offered answer: what its button says and what it would do."""

    text: ButtonText
    commands: "tuple[Command, ...]"
    of: str = ""
    """The name, the number or the words that the text is filled with."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Incomplete:
    """Understood in part: asks, writes nothing of this clause."""

    missing: Missing
    plants: tuple[PlantId, ...] = ()
    text: str = ""
    choices: tuple[Choice, ...] = ()


@dataclass(frozen=True, slots=True)
class More:
    """What did not fit into the last answer."""

    text: str


@dataclass(frozen=True, slots=True)
class Thanks:
    """A courtesy; answers nothing."""


@dataclass(frozen=True, slots=True)
class Help:
    """A plea for what can be said."""


@dataclass(frozen=True, slots=True)
class Exposure:
    """Somebody or an animal got some: matched before everything else, writes nothing."""


@dataclass(frozen=True, slots=True)
class NotUnderstood:
    """Writes nothing; carries what was not understood."""

    text: str
    reason: str = ""


Command = (
    Start
    | SetTown
    | SetCoordinates
    | SetHours
    | SetUnits
    | SetPlace
    | AddPlants
    | LogRound
    | Postpone
    | LogFind
    | LogSign
    | LogCheck
    | Correct
    | Undo
    | Isolate
    | MovePlant
    | Rename
    | SetPot
    | RemovePlace
    | ReleasePlant
    | LosePlant
    | StockProduct
    | Identify
    | BeginWork
    | TickWork
    | EndWork
    | BeginWalk
    | PassPlant
    | GoOn
    | EndWalk
    | KeepPhoto
    | RefusePhoto
    | SetStrict
    | Invite
    | Leave
    | RemoveMember
    | HandOver
    | Forget
    | Export
    | SetAnimals
    | SetTraits
    | ReadTemperature
    | SetRoutine
    | Hold
    | Mix
    | LogUse
    | Ask
    | Incomplete
    | More
    | Thanks
    | Greet
    | SkipQuestion
    | Decline
    | Help
    | Exposure
    | NotUnderstood
)
