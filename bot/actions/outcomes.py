"""What came of a command, as values: the wording makes sentences of them, nobody else does."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, time
from decimal import Decimal
from enum import Enum

from bot.actions.commands import Choice, Erasing, Missing
from bot.actions.situation import Expecting
from bot.catalogue.towns import Town
from bot.domain.agenda import Task
from bot.domain.care import Care
from bot.domain.course import Progress, Step
from bot.domain.household import Place, Plant, Product
from bot.domain.key import Creature
from bot.domain.label import Refusal
from bot.domain.measure import Tool, Units
from bot.domain.mixture import Recipe
from bot.domain.nudging import Placement
from bot.domain.pest import Evidence
from bot.domain.release import Level
from bot.domain.trade import Grade, Method, Sign
from bot.domain.trend import Band, Count, Trend
from bot.domain.watch import Watch
from bot.domain.workday import Stage, StagePlan


@dataclass(frozen=True, slots=True)
class Founded:
    """A household begins; the town is asked next."""

    name: str


@dataclass(frozen=True, slots=True)
class Welcome:
    """/start from a member; says what is still missing."""

    lacks: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TownSet:
    """The household's town and zone; local is its clock now."""

    town: str
    zone: str
    local: datetime
    asks_plants: bool
    asks_facing_of: str | None
    has_new_units: bool = False
    """Whether US measures and a clock of twelve hours came with the town."""


@dataclass(frozen=True, slots=True)
class WhichTown:
    """Several towns of that name; asked by buttons."""

    text: str
    towns: tuple[Town, ...]
    is_guess: bool = False
    """Whether none has exactly that name."""


@dataclass(frozen=True, slots=True)
class NoSuchTown:
    """No town of that name."""

    text: str


@dataclass(frozen=True, slots=True)
class BadCoordinates:
    """Coordinates outside the globe. [deg]."""

    latitude: float
    longitude: float


@dataclass(frozen=True, slots=True, kw_only=True)
class HoursSet:
    """Evening time and quiet hours as they are now."""

    evening: time
    quiet_from: time
    quiet_until: time


@dataclass(frozen=True, slots=True)
class BadHours:
    """The evening would lie in the quiet hours."""

    evening: time
    quiet_from: time
    quiet_until: time


@dataclass(frozen=True, slots=True)
class UnitsSet:
    """Measures and clock as they are now."""

    units: Units
    clock_hours: int


@dataclass(frozen=True, slots=True)
class PlacesSaved:
    """Places as they stand now; the window asked for next is another place's."""

    places: tuple[Place, ...]
    asks_facing_of: str | None


@dataclass(frozen=True, slots=True)
class NoPlaceAsked:
    """Something about a place, but none was named or asked about."""


@dataclass(frozen=True, slots=True)
class PlantsAdded:
    """Plants with their places; places that were new and need a word about their window."""

    plants: tuple[tuple[str, str | None], ...]
    new_places: tuple[str, ...]
    known_already: tuple[str, ...]
    asks_facing_of: str | None
    unread: tuple[str, ...] = ()
    asks_town: bool = False
    asks_quarantine: bool = False
    edible: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class TooSoon:
    """A product was used sooner than its label allows; logged, with a warning."""

    plant: str
    product: str
    days: int
    label_days: int


@dataclass(frozen=True, slots=True, kw_only=True)
class DonePlant:
    """One plant's treatment as written, and what comes next for it."""

    name: str
    method: Method
    product: str | None
    next: Step | None
    progress: tuple[Progress, ...]
    late: Step | None
    is_repeat: bool


@dataclass(frozen=True, slots=True)
class Spent:
    """A plant, the product used on it, the rules that forbid it from now on, and the next product, if any."""

    plant: str
    product: str
    refusals: tuple[Refusal, ...]
    following: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundLogged:
    """Treatments written for a day."""

    on: date
    done: tuple[DonePlant, ...]
    warnings: tuple[TooSoon, ...]
    still_open: tuple[str, ...]
    evenings: tuple[tuple[date, tuple[str, ...]], ...]
    checks_open: tuple[str, ...]
    mornings: tuple[str, ...] = ()
    against: tuple[tuple[str, str, tuple[Refusal, ...]], ...] = ()
    """Plant, product, and the rules the use was against."""
    first_uses: tuple[tuple[str, str], ...] = ()
    """Plants and products that met for the first time."""
    eat_from: tuple[tuple[str, date | None], ...] = ()
    """Edible plants and the first day to eat from them; None is never."""
    spent: tuple[Spent, ...] = ()
    """Products that may not be used on a plant again for now, and what comes instead."""


@dataclass(frozen=True, slots=True)
class NothingDue:
    """`done` or `later` with nothing to answer; what is open instead."""

    next_on: date | None
    checks_open: tuple[str, ...] = ()
    mornings: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PutOff:
    """Due on another day, or later this evening; costs names plants that run late by it."""

    plants: tuple[str, ...]
    on: date
    at: datetime | None
    costs: tuple[tuple[str, Step], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FindLogged:
    """A find: the case, what to do now, whom it exposes."""

    plant: str
    on: date
    pest: str
    count: int | None
    grade: Grade
    where: str | None
    is_new_case: bool
    is_new_pest: bool
    is_reopened: bool
    is_isolated: bool
    place: str | None
    neighbours: tuple[str, ...]
    step: Step | None
    product: str | None
    progress: Progress
    tonight: date | None
    seek: tuple[str, ...] = ()
    """Kinds of product that would reach the pest, where the shelf has none."""


@dataclass(frozen=True, slots=True)
class FindInPast:
    """A find of a day before its case was closed or corrected: written, and the plan stays."""

    plant: str
    pest: str
    on: date


@dataclass(frozen=True, slots=True)
class PlantsGone:
    """Something about plants that died or were thrown out; nothing is written."""

    plants: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SignLogged:
    """A sign: a check is due within two days."""

    plants: tuple[str, ...]
    sign: Sign
    on: date
    check_by: date


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckLogged:
    """Looks with none seen; what they mean for each case."""

    on: date
    level: Level
    plants: tuple[str, ...]
    cases: tuple[tuple[str, Progress], ...]
    ready: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Undone:
    """What was taken back, newest last."""

    what: tuple[tuple[str, str | None, date], ...]


@dataclass(frozen=True, slots=True)
class OldToUndo:
    """The last thing told is of an earlier evening: asked before it is taken back."""

    what: tuple[tuple[str, str | None, date], ...]


@dataclass(frozen=True, slots=True)
class ToldSince:
    """What was shown to be taken back is not the last thing told any more; this is."""

    what: tuple[tuple[str, str | None, date], ...]


@dataclass(frozen=True, slots=True)
class NothingToUndo:
    """Nothing of this person's is left to take back."""


@dataclass(frozen=True, slots=True)
class CorrectedTo:
    """What was told last now stands for another plant, pest or number."""

    plant: str | None
    pest: str | None
    count: int | None = None


@dataclass(frozen=True, slots=True)
class WhichOneMeant:
    """A correction of a message about several plants; nothing is written."""

    plants: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class IsolatedThem:
    """Kept apart from now on; rooms are places that become isolation rooms."""

    plants: tuple[str, ...]
    rooms: tuple[str, ...] = ()
    quarantine_until: date | None = None


@dataclass(frozen=True, slots=True)
class Renamed:
    """A plant or a place bears another name."""

    old: str
    new: str


@dataclass(frozen=True, slots=True)
class NameTaken:
    """Another bears this name already; nothing written."""

    name: str


@dataclass(frozen=True, slots=True)
class PotSet:
    """The width of pots was written. [cm]."""

    plants: tuple[str, ...]
    pot_cm: float


@dataclass(frozen=True, slots=True)
class PlaceRemoved:
    """A place is no longer used."""

    name: str


@dataclass(frozen=True, slots=True)
class PlaceInUse:
    """Plants stand there; nothing written."""

    name: str
    plants: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PlaceTold:
    """A place and what stands there."""

    place: Place
    plants: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PlacesTold:
    """Where the plants stand."""

    places: tuple[PlaceTold, ...]
    nowhere: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Moved:
    """At another place from a day on."""

    plants: tuple[str, ...]
    place: str
    still_isolated: tuple[str, ...]
    beside: tuple[str, ...] = ()
    """Plants with a case that stand beside healthy ones there."""
    healthy: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ReleasedThem:
    """Back from isolation; watched until a day."""

    plants: tuple[tuple[str, bool, date | None], ...]
    not_isolated: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class NotYet:
    """The rule does not let it go yet; can be done all the same."""

    plant: str
    progress: tuple[Progress, ...]
    quarantine_until: date | None = None


@dataclass(frozen=True, slots=True)
class Lost:
    """Gone for good; whom an infested one leaves on watch."""

    plants: tuple[str, ...]
    was_infested: bool = False
    watched: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Stocked:
    """A product as it stands on the shelf."""

    product: Product
    name: str
    gap_days: int
    caution: str
    """Said once, with the first word of a product."""


@dataclass(frozen=True, slots=True)
class BadGap:
    """A label gap outside 1 to 365 days."""

    days: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Mixed:
    """A recipe; percent_active is what the finished spray holds [%], rounds_left what the stock lasts for."""

    name: str
    recipe: Recipe
    tool: Tool
    is_rate_told: bool
    is_rate_of_label: bool
    has_told_label: bool
    percent_active: Decimal | None
    keeps_hours: int | None
    caution: str
    rounds_left: int | None
    evidence: Evidence | None
    cited: Mapping[str, str]
    plants: tuple[str, ...] = ()
    """Plants whose pots gave the volume."""
    factor: Decimal = Decimal(1)
    """What earlier evenings took for each millilitre reckoned. [1]"""
    strength_percent: Decimal | None = None
    in_full: bool = False
    is_known: bool = False
    """Whether it is on the shelf, where its caution was said."""


@dataclass(frozen=True, slots=True)
class UnlikelyUse:
    """An amount far from what those plants take: asked before later mixtures are reckoned by it. [mL]."""

    ml: Decimal
    usual_ml: Decimal
    on: date
    plants: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class UseLogged:
    """What an evening took, and for each millilitre reckoned. [mL], [1]."""

    ml: Decimal
    on: date
    plants: tuple[str, ...]
    factor: Decimal


@dataclass(frozen=True, slots=True)
class NothingSprayed:
    """No spray is written for that day, so nothing can be said of how much it took."""

    on: date


class MixTrouble(Enum):
    """Why nothing can be mixed."""

    READY_MADE = "ready-made"
    EMPTY_SHELF = "empty-shelf"
    NO_RATE = "no-rate"
    TOO_STRONG = "too-strong"
    TOO_LITTLE = "too-little"


@dataclass(frozen=True, slots=True)
class CannotMix:
    """Nothing is mixed, and why."""

    name: str
    trouble: MixTrouble
    exact_ml: Decimal | None = None
    """What the rate asks for, where that is too little to be measured; or what plants take of it. [mL]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class TrendShown:
    """How the counts on a plant go; points are counts or what a grade stands for, nought for none seen."""

    plant: str
    pest: str
    trend: Trend
    points: tuple[Count, ...]
    rounds: tuple[date, ...]
    band: tuple[Band, ...]
    hatch_due_on: date | None


@dataclass(frozen=True, slots=True)
class NoTrend:
    """Nothing is open whose counts could be followed."""

    plant: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkStage:
    """The stage at hand: its plants in order, its number among all, what was written before it."""

    plan: StagePlan
    plants: tuple[str, ...]
    number: int
    count: int
    minutes_left: int
    product: str | None
    just_washed: tuple[str, ...]
    written: tuple[tuple[Stage, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class WorkDone:
    """Nothing is left of the work day."""

    written: tuple[tuple[Stage, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class WorkPaused:
    """Enough for today; stages left, none where it is over for good."""

    stages_left: int


@dataclass(frozen=True, slots=True)
class NoWork:
    """No work day is under way, or there is nothing to work on."""

    is_begun: bool


@dataclass(frozen=True, slots=True)
class WalkLevelAsked:
    """How closely the plants of a walk are to be looked at; how many they are."""

    plants: int


@dataclass(frozen=True, slots=True, kw_only=True)
class WalkStep:
    """The plant at hand on a check walk, its number among all, its open cases and where they hide."""

    plant: str
    place: str | None
    number: int
    count: int
    level: Level
    pests: tuple[str, ...]
    hides: str | None
    is_resumed: bool
    is_first: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class WalkDone:
    """What a walk came to."""

    none_seen: tuple[str, ...]
    found: tuple[str, ...]
    passed: tuple[str, ...]
    ready: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class WalkStopped:
    """Enough for now; plants left, none where it is over for good."""

    plants_left: int


@dataclass(frozen=True, slots=True)
class NoWalk:
    """No check walk is under way."""


@dataclass(frozen=True, slots=True)
class PhotoKept:
    """A photo goes with plants; how many there are of the first now."""

    plants: tuple[str, ...]
    count: int


@dataclass(frozen=True, slots=True)
class TooManyPhotos:
    """The household keeps as many photos as it may."""

    most: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotosShown:
    """A plant before and after: the days of two photos and their bytes, None where they are not here yet."""

    plant: str
    before_on: date
    after_on: date
    before: bytes | None
    after: bytes | None
    count: int


@dataclass(frozen=True, slots=True)
class NoPhotos:
    """No photo of the plant, or of any."""

    plant: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """Whether a product may be used on a plant: what forbids it, until when, what to mind."""

    plant: str
    product: str
    method: Method
    refusals: tuple[Refusal, ...]
    allowed_on: date | None
    care: tuple[Care, ...]
    is_first_use: bool
    needs_shade: bool


@dataclass(frozen=True, slots=True)
class Fits:
    """What may be used on which plant today."""

    fits: tuple[Fit, ...]
    is_shelf_empty: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceSun:
    """When direct sun, or a lamp, reaches a place today. [aware UTC]."""

    place: Place
    spans: tuple[tuple[datetime, datetime], ...]


@dataclass(frozen=True, slots=True)
class SunTold:
    """The sun of today at places; without a town nothing is known of it."""

    places: tuple[PlaceSun, ...]
    has_town: bool


@dataclass(frozen=True, slots=True)
class Lack:
    """A product of which less is left than the next round takes. [mL]."""

    product: str
    left_ml: Decimal
    takes_ml: Decimal
    plants: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Shopping:
    """What the open cases lack: kinds to look for with their plants, and what runs short."""

    lacking: tuple[tuple[tuple[str, ...], tuple[str, ...]], ...]
    low: tuple[Lack, ...]


@dataclass(frozen=True, slots=True)
class Cautions:
    """What is dangerous about the products on the shelf: name, caution, whether cats and fish are at risk."""

    products: tuple[tuple[str, str, bool], ...]
    knows_animals: bool


@dataclass(frozen=True, slots=True)
class Eating:
    """From when one plant may be eaten; free_on is None where nothing was used, or never again."""

    plant: str
    is_edible: bool
    product: str | None = None
    used_on: date | None = None
    free_on: date | None = None


@dataclass(frozen=True, slots=True)
class MayEat:
    """From when plants may be eaten, by what was used on them."""

    plants: tuple[Eating, ...]
    today: date


@dataclass(frozen=True, slots=True)
class NoDishSoap:
    """Dish soap is no labelled insecticide."""


@dataclass(frozen=True, slots=True)
class AntsFirst:
    """What to do about ants before the pest they guard."""


@dataclass(frozen=True, slots=True)
class KeyAsked:
    """A question of the identification key, counted from one."""

    text: str
    number: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Identified:
    """What it can be, the likeliest first; has_offer says that it can be written by a button."""

    creatures: tuple[Creature, ...]
    plants: tuple[str, ...]
    has_offer: bool
    unnamed: int = 0
    """How many more it can still be. [1]"""


@dataclass(frozen=True, slots=True)
class StrictSet:
    """The chance at which plants go. [1]."""

    is_strict: bool
    target: float


@dataclass(frozen=True, slots=True)
class Invited:
    """A code for one person, and until when it holds."""

    code: str
    until: datetime


@dataclass(frozen=True, slots=True)
class Joined:
    """To the newcomer: whose plants they share now, and how many."""

    others: tuple[str, ...]
    plants: int


@dataclass(frozen=True, slots=True)
class SomebodyJoined:
    """To the others: who shares the plants now."""

    name: str


@dataclass(frozen=True, slots=True)
class LeaveAsked:
    """Asked whether to go; the founder cannot while others share the plants."""

    is_founder: bool


@dataclass(frozen=True, slots=True)
class HasLeft:
    """The membership is over."""


@dataclass(frozen=True, slots=True)
class MemberAsked:
    """Whether somebody is to go, or to own the home."""

    name: str
    is_removal: bool


@dataclass(frozen=True, slots=True)
class MemberGone:
    """Somebody no longer shares the plants; told to them too, as nobody's name."""

    name: str | None


@dataclass(frozen=True, slots=True)
class OwnerNow:
    """Who owns the home now; to the new owner it is nobody's name."""

    name: str | None


@dataclass(frozen=True, slots=True)
class NoSuchMember:
    """Nobody of that name shares the plants, or it is the speaker."""

    name: str
    others: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OwnerOnly:
    """Only the owner may do that."""

    owner: str


@dataclass(frozen=True, slots=True)
class MemberList:
    """Who shares the plants; the first owns the home."""

    names: tuple[str, ...]
    is_owner: bool


@dataclass(frozen=True, slots=True)
class ForgetAsked:
    """Asked to write a sentence before anything is erased; others share the home of an owner."""

    what: Erasing
    plants: int
    others: tuple[str, ...]
    must_hand_over: bool


@dataclass(frozen=True, slots=True)
class Erased:
    """Nothing is left of what was to be erased."""

    what: Erasing


@dataclass(frozen=True, slots=True)
class HomeErased:
    """To the others: the home is gone, by whom."""

    by: str


@dataclass(frozen=True, slots=True)
class PlannedEvening:
    """An evening of a calendar file: what is due, and when it begins; nothing due takes it back."""

    on: date
    at: datetime
    lines: "tuple[DueLine, ...]"


@dataclass(frozen=True, slots=True)
class CalendarMade:
    """The coming evenings as a file."""

    household: int
    zone: str
    made_at: datetime
    evenings: tuple[PlannedEvening, ...]


@dataclass(frozen=True, slots=True)
class TableMade:
    """The journal as rows: day, time, who, plant, what, details, whether it was taken back."""

    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class AllExported:
    """The household as one document."""

    document: Mapping[str, object]
    entries: int


@dataclass(frozen=True, slots=True)
class AnimalsNoted:
    """The animals that live here now."""

    animals: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TraitNoted:
    """What plants are by what was told."""

    plants: tuple[str, ...]
    trait: str


@dataclass(frozen=True, slots=True)
class TemperatureNoted:
    """A reading written, or what is usual in some months. [degC]."""

    place: str
    celsius: float
    months: tuple[int, ...] = ()
    moved: tuple[tuple[tuple[str, ...], date, date], ...] = ()
    """Plants whose next round moves with it: from which evening, to which."""


@dataclass(frozen=True, slots=True)
class BadTemperature:
    """A reading outside what a home has. [degC]."""

    celsius: float


@dataclass(frozen=True, slots=True)
class RoutineSaved:
    """A habit, and its next day; None where its rule gives no more."""

    name: str
    rule: str
    next_on: date | None


@dataclass(frozen=True, slots=True)
class Habits:
    """The rules of the habits set, each with its next day."""

    of: tuple[tuple[str, date | None], ...]


@dataclass(frozen=True, slots=True)
class Held:
    """No nudges until a day, or until told; plants whose round runs past its last good day by then."""

    until: date | None
    late: tuple[tuple[str, date], ...] = ()


@dataclass(frozen=True, slots=True)
class IsolatedList:
    """Plants still kept apart, each with its cases' state; and plants on watch."""

    plants: tuple[tuple[Plant, str | None, tuple[Progress, ...]], ...]
    watched: tuple[tuple[str, Watch, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DueLine:
    """One plant's line of the agenda."""

    name: str
    task: Task
    product: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class DueList:
    """The coming evenings."""

    today: date
    evenings: tuple[tuple[date, tuple[DueLine, ...]], ...]
    is_week: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ReasonOf:
    """Why a plant's plan is as it is."""

    plant: str
    step: Step | None
    product: str | None
    progress: tuple[Progress, ...]
    cited: Mapping[str, str]
    placement: Placement | None = None
    """Where sun decides on the hour: the slot it was put into."""
    place: Place | None = None
    watch: tuple[str, date | None, int] | None = None
    """On watch: because of which plant, until when, and the days from egg to adult it rests on. [d]"""
    quarantine_until: date | None = None
    product_evidence: Evidence | None = None
    """Where the label's usual figures come from, None where the person told them."""
    passed_over: tuple[tuple[str, tuple[Refusal, ...]], ...] = ()
    """Products of the shelf that are not suggested, and why."""


@dataclass(frozen=True, slots=True)
class Reasons:
    """Why, for several plants; empty when nothing is planned."""

    of: tuple[ReasonOf, ...]
    in_full: bool = False


@dataclass(frozen=True, slots=True)
class ReleaseInfo:
    """When plants may go back."""

    of: tuple[tuple[str, tuple[Progress, ...], date | None], ...]
    free: tuple[tuple[str, date | None, str | None], ...]
    """Not isolated; where on watch, until when (None while that case is open) and because of which plant."""
    quarantined: tuple[tuple[str, date], ...] = ()


@dataclass(frozen=True, slots=True)
class History:
    """What was told: day, plant, word, and who told it where several share the plants."""

    lines: tuple[tuple[date, str | None, str, str | None], ...]
    plant: str | None


@dataclass(frozen=True, slots=True)
class PlantList:
    """All plants by place."""

    places: tuple[tuple[str | None, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class Shelf:
    """Products at hand."""

    products: tuple[tuple[Product, str, int], ...]
    left: tuple[Decimal | None, ...] = ()
    """What is left of each by what was sprayed since. [mL]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """The household's preferences."""

    town: str | None
    zone: str | None
    evening: time
    quiet_from: time
    quiet_until: time
    places: int
    plants: int


@dataclass(frozen=True, slots=True)
class Asks:
    """The clause leaves something open; choices become buttons."""

    missing: Missing
    plants: tuple[str, ...]
    text: str
    choices: tuple[Choice, ...]


@dataclass(frozen=True, slots=True)
class NoPlants:
    """The household has no plants yet."""


@dataclass(frozen=True, slots=True)
class Unclear:
    """Not understood, nothing written."""

    text: str
    reason: str
    plants: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Exposed:
    """First aid; writes nothing."""


@dataclass(frozen=True, slots=True)
class Helped:
    """What can be said."""


@dataclass(frozen=True, slots=True)
class Welcomed:
    """A courtesy was returned."""


@dataclass(frozen=True, slots=True)
class Greeted:
    """A greeting or a farewell was returned."""

    is_farewell: bool


@dataclass(frozen=True, slots=True)
class Declined:
    """An offer was declined."""


@dataclass(frozen=True, slots=True)
class QuestionSkipped:
    """A question of the setting-up was put off."""

    skipped: Expecting
    asks_plants: bool


@dataclass(frozen=True, slots=True)
class Paused:
    """Beside another outcome: the evenings rest, until a day or until told."""

    until: date | None


@dataclass(frozen=True, slots=True)
class Stranger:
    """Not of a household; one polite refusal an hour."""

    person: int


@dataclass(frozen=True, slots=True)
class ButtonExpired:
    """An unknown, foreign or outdated button."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NudgeText:
    """Tonight's nudge."""

    on: date
    count: int
    lines: tuple[DueLine, ...]
    placements: tuple[Placement, ...]
    names: tuple[tuple[int, str], ...]
    ready: tuple[str, ...]
    late: tuple[tuple[str, Step], ...]
    mixes: tuple[Mixed, ...] = ()
    care: tuple[tuple[Care, tuple[str, ...]], ...] = ()
    first_uses: tuple[tuple[str, str], ...] = ()
    """Plants and products that meet for the first time tonight."""
    lift: tuple[str, ...] = ()
    """Plants whose roots nobody has looked at, though pests of their kind sit there."""
    warm: tuple[str, ...] = ()
    """Plants to be sprayed where it is warm enough for a word of caution."""


@dataclass(frozen=True, slots=True)
class StillThere:
    """Nobody has said a word for a week: asked whether to go on."""

    on: date
    count: int
    since: date


@dataclass(frozen=True, slots=True)
class MoreText:
    """What did not fit before."""

    text: str


Outcome = (
    Founded
    | Welcome
    | TownSet
    | WhichTown
    | NoSuchTown
    | BadCoordinates
    | HoursSet
    | BadHours
    | UnitsSet
    | PlacesSaved
    | NoPlaceAsked
    | PlantsAdded
    | RoundLogged
    | NothingDue
    | PutOff
    | FindLogged
    | FindInPast
    | PlantsGone
    | SignLogged
    | CheckLogged
    | Undone
    | OldToUndo
    | ToldSince
    | NothingToUndo
    | CorrectedTo
    | WhichOneMeant
    | IsolatedThem
    | Moved
    | Renamed
    | NameTaken
    | PotSet
    | PlaceRemoved
    | PlaceInUse
    | PlacesTold
    | ReleasedThem
    | NotYet
    | Lost
    | Stocked
    | BadGap
    | TrendShown
    | NoTrend
    | WorkStage
    | WorkDone
    | WorkPaused
    | NoWork
    | WalkLevelAsked
    | WalkStep
    | WalkDone
    | WalkStopped
    | NoWalk
    | PhotoKept
    | TooManyPhotos
    | PhotosShown
    | NoPhotos
    | AntsFirst
    | NoDishSoap
    | Fits
    | SunTold
    | Shopping
    | Cautions
    | MayEat
    | KeyAsked
    | Identified
    | StrictSet
    | Invited
    | Joined
    | SomebodyJoined
    | LeaveAsked
    | HasLeft
    | MemberAsked
    | MemberGone
    | OwnerNow
    | NoSuchMember
    | OwnerOnly
    | MemberList
    | ForgetAsked
    | Erased
    | HomeErased
    | CalendarMade
    | TableMade
    | AllExported
    | AnimalsNoted
    | TraitNoted
    | Mixed
    | UnlikelyUse
    | UseLogged
    | NothingSprayed
    | CannotMix
    | TemperatureNoted
    | BadTemperature
    | RoutineSaved
    | Habits
    | Held
    | IsolatedList
    | DueList
    | Reasons
    | ReleaseInfo
    | History
    | PlantList
    | Shelf
    | Settings
    | Asks
    | NoPlants
    | Unclear
    | Exposed
    | Helped
    | Welcomed
    | Greeted
    | QuestionSkipped
    | Declined
    | Paused
    | StillThere
    | MoreText
    | Stranger
    | ButtonExpired
    | NudgeText
)
