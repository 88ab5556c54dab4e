"""
The household as its journal tells it: a pure fold of the entries.

Values made here are read-only for everyone else. Entries count in the order in which things happened,
whatever the order in which they were told; taken-back entries do not count at all.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

from bot.domain.identity import EntryId, PhotoId, PlaceId, PlantId, ProductId
from bot.domain.journal import (
    CalendarGiven,
    CheckedClean,
    Entry,
    Found,
    Heard,
    HeldUntil,
    HouseholdSet,
    IsolatedNow,
    LostNow,
    Nudged,
    NudgedTask,
    PestCorrected,
    PhotoTaken,
    PlaceGone,
    PlaceSet,
    PlantRenamed,
    PlantSet,
    Postponed,
    ProductSet,
    ReleasedNow,
    RoutineSet,
    SignSeen,
    SilenceAsked,
    SprayUsed,
    TemperatureRead,
    Treated,
    UsualByMonth,
    Voided,
    WalkBegun,
    WalkEnded,
    WalkPassed,
    WorkBegun,
    WorkEnded,
    WorkTicked,
)
from bot.domain.measure import Units
from bot.domain.release import Level
from bot.domain.slot import Habits
from bot.domain.sun import Site
from bot.domain.trade import Form, Grade, Method, Sign
from bot.domain.window import Exposure, Facing, Outdoors

EVENING = time(20)
QUIET_FROM = time(22)
QUIET_UNTIL = time(8)
_OF_A_PRODUCT = (
    "ingredient",
    "form",
    "gap_days",
    "stock_ml",
    "rate_ml_per_l",
    "most_ml_per_l",
    "strength_percent",
    "uses_a_year",
    "harvest_days",
    "is_for_indoors",
    "is_for_edibles",
)
LAMP_FROM = time(6)
"""A lamp of which only the end was told counts as on since six in the morning. Judgement."""


@dataclass(slots=True)
class Place:
    """A room, sill or bed. Temperatures in [degC]."""

    id: PlaceId
    name: str = ""
    facing: Facing | None = None
    outdoors: Outdoors | None = None
    usual_c: float | None = None
    lamp_from: time | None = None
    lamp_until: time | None = None
    readings: dict[date, float] = field(default_factory=dict)
    by_month: dict[int, float] = field(default_factory=dict)

    @property
    def exposure(self) -> Exposure:
        """When the sun, or a grow light, reaches what stands here."""
        facing = self.facing or (None if self.outdoors else Facing.UNKNOWN)
        lamp_from = self.lamp_from or (LAMP_FROM if self.lamp_until else None)
        return Exposure(
            facing=facing, outdoors=self.outdoors, lamp_from=lamp_from, lamp_until=self.lamp_until
        )


@dataclass(slots=True)
class Product:
    """A product of the shelf; assumed names fields that are cautious defaults."""

    id: ProductId
    ingredient: str = ""
    form: Form | None = None
    gap_days: int | None = None
    stock_ml: float | None = None
    assumed: tuple[str, ...] = ()
    rate_ml_per_l: Decimal | None = None
    most_ml_per_l: Decimal | None = None
    strength_percent: Decimal | None = None
    uses_a_year: int | None = None
    harvest_days: int | None = None
    is_for_indoors: bool | None = None
    is_for_edibles: bool | None = None
    stocked_on: date | None = None
    """When the stock was last told."""


@dataclass(frozen=True, slots=True)
class Find:
    """Living pests seen on a day."""

    on: date
    grade: Grade
    count: int | None
    where: str | None


@dataclass(frozen=True, slots=True)
class Check:
    """A look with none seen."""

    on: date
    level: Level


@dataclass(frozen=True, slots=True)
class Treatment:
    """What was done on a day."""

    on: date
    method: Method
    product: ProductId | None


@dataclass(slots=True)
class Case:
    """One outbreak of one pest on one plant; reopened says the plant had one of this pest before."""

    pest: str
    opened_on: date
    finds: list[Find] = field(default_factory=list)
    closed_on: date | None = None
    by_rule: bool = False
    is_reopened: bool = False

    @property
    def last_find_on(self) -> date:
        """The day anything living was last seen."""
        return max(find.on for find in self.finds)

    @property
    def worst(self) -> Grade:
        """The worst grade seen in this case."""
        order = (Grade.FEW, Grade.SOME, Grade.MANY)
        return max((find.grade for find in self.finds), key=order.index)


@dataclass(slots=True)
class Plant:
    """One pot or bed plant and all that happened to it."""

    id: PlantId
    name: str = ""
    place: PlaceId | None = None
    pot_cm: float | None = None
    kind: str | None = None
    traits: tuple[str, ...] = ()
    added_on: date | None = None
    arrived_on: date | None = None
    """Where it is new in the home: the day it came; nothing before that day can have reached it here."""
    moved_on: date | None = None
    stays: list[tuple[date, PlaceId]] = field(default_factory=list)
    """Where it stood, each from its day on; the first also counts for the days before."""
    lost_on: date | None = None
    cases: list[Case] = field(default_factory=list)
    checks: list[Check] = field(default_factory=list)
    treatments: list[Treatment] = field(default_factory=list)
    signs: list[tuple[date, Sign]] = field(default_factory=list)
    photos: list[tuple[date, PhotoId]] = field(default_factory=list)
    isolated_on: date | None = None
    is_apart: bool = False
    quarantine_days: int | None = None
    postponed_to: date | None = None
    postponed_at: datetime | None = None

    @property
    def open_cases(self) -> list[Case]:
        """Cases not yet closed."""
        return [case for case in self.cases if case.closed_on is None]

    def is_first_use(self, method: Method | None, product: ProductId | None) -> bool:
        """Whether a spray would be this plant's first with a product: how it takes it is not known then."""
        is_spray = method is Method.SPRAY and product is not None
        return is_spray and not any(one.product == product for one in self.treatments)

    @property
    def quarantine_until(self) -> date | None:
        """The day from which a new arrival without a find may join the others."""
        if self.quarantine_days is None or self.isolated_on is None or self.open_cases:
            return None
        return self.isolated_on + timedelta(days=self.quarantine_days)

    def stood_in(self, first: date, last: date) -> dict[PlaceId, tuple[date, date]]:
        """Give the places of a span of days, with the first and last day there; a move counts for both."""
        found: dict[PlaceId, tuple[date, date]] = {}
        first = max(first, self.arrived_on or first)
        for number, (since, place) in enumerate(self.stays):
            start = max(first, since) if number else first
            end = min(last, self.stays[number + 1][0]) if number + 1 < len(self.stays) else last
            if start <= end:
                known = found.get(place, (start, end))
                found[place] = (min(known[0], start), max(known[1], end))
        return found

    @property
    def is_isolated(self) -> bool:
        """Whether it is kept apart, or should be, because of an open case."""
        return self.lost_on is None and (self.isolated_on is not None or bool(self.open_cases))


@dataclass(slots=True)
class Nudge:
    """The last nudge sent."""

    on: date
    at: datetime
    count: int
    tasks: tuple[NudgedTask, ...]
    is_heard: bool = False


@dataclass(slots=True)
class Work:
    """A work day under way: its plants, and what is ticked off by stage."""

    plants: tuple[PlantId, ...]
    cleaned_out: tuple[PlantId, ...]
    ticked: dict[str, set[PlantId]] = field(default_factory=dict)


@dataclass(slots=True)
class Walk:
    """A check walk under way: its plants in order, and those looked at or passed since."""

    begun_on: date
    plants: tuple[PlantId, ...]
    level: Level
    seen: set[PlantId] = field(default_factory=set)
    passed: set[PlantId] = field(default_factory=set)

    @property
    def left(self) -> tuple[PlantId, ...]:
        """Plants still to be looked at, in order."""
        return tuple(plant for plant in self.plants if plant not in self.seen | self.passed)


@dataclass(slots=True)
class Household:
    """Everything derived from one journal."""

    town: str | None = None
    latitude: float | None = None
    longitude: float | None = None
    zone_name: str = "UTC"
    is_zone_told: bool = False
    evening: time = EVENING
    quiet_from: time = QUIET_FROM
    quiet_until: time = QUIET_UNTIL
    units: Units = Units.METRIC
    are_units_told: bool = False
    clock_hours: int = 24
    is_strict: bool = False
    animals: frozenset[str] = frozenset()
    places: dict[PlaceId, Place] = field(default_factory=dict)
    places_gone: set[PlaceId] = field(default_factory=set)
    plants: dict[PlantId, Plant] = field(default_factory=dict)
    products: dict[ProductId, Product] = field(default_factory=dict)
    routines: dict[str, tuple[str, date]] = field(default_factory=dict)
    calendar: frozenset[date] = frozenset()
    """Evenings that calendar files have named."""
    used: dict[date, Decimal] = field(default_factory=dict)
    """Spray an evening took, as told. [mL]"""
    held_from: date | None = None
    held_until: date | None = None
    nudge: Nudge | None = None
    work: Work | None = None
    walk: Walk | None = None
    unheard_since: date | None = None
    """The evening of the first nudge that nobody has said a word after."""
    is_silent: bool = False
    """Whether it was asked to go on, and nothing has been heard since."""
    chosen: dict[tuple[PlantId, str, date, date], Any] = field(
        default_factory=dict, compare=False, repr=False
    )
    """Methods and products picked so far, for a plant, a pest, the case's opening and a day."""
    told_at: datetime | None = None
    """When a member last told something."""
    last_finds: Mapping[tuple[PlaceId | None, str], date] = field(default_factory=dict)
    """The last find of each pest in each place, among open cases of plants that are not set apart."""

    @property
    def zone(self) -> ZoneInfo:
        """Where the household's clocks hang."""
        return ZoneInfo(self.zone_name)

    @property
    def site(self) -> Site:
        """Where its windows look at the sun; without coordinates the sun is unknown."""
        return Site(self.latitude, self.longitude, self.zone_name)

    @property
    def habits(self) -> Habits:
        """Its evening and quiet hours."""
        return Habits(preferred=self.evening, quiet_from=self.quiet_from, quiet_until=self.quiet_until)

    @property
    def living(self) -> list[Plant]:
        """Plants it still has, in order of adding."""
        return [plant for plant in self.plants.values() if plant.lost_on is None]

    def is_held(self, today: date) -> bool:
        """Whether nudges rest on this day."""
        if self.held_from is None:
            return False
        return self.held_until is None or today < self.held_until


def valid(entries: Iterable[Entry]) -> list[Entry]:
    """Entries that were not taken back, without the taking back itself."""
    return [entry for entry in effective(entries) if not isinstance(entry.payload, Voided)]


def effective(entries: Iterable[Entry]) -> list[Entry]:
    """Entries that were not taken back; a taking back that was taken back itself gives what it took."""
    voided: set[EntryId] = set()
    kept = []
    for entry in reversed(list(entries)):
        if entry.id in voided:
            continue
        if entry.void_of is not None:
            voided.add(entry.void_of)
        kept.append(entry)
    return kept[::-1]


def fold(entries: Sequence[Entry]) -> Household:
    """Derive the household from its journal."""
    household = Household()
    counted = valid(entries)
    for entry in counted:
        _name_things(household, entry)
    household.told_at = max((one.recorded_at for one in counted if one.member is not None), default=None)
    for entry in sorted(counted, key=lambda one: (one.happened_at, one.id)):
        _apply(household, entry)
    for entry in counted:
        _note_nudge(household, entry)
    for place in household.places_gone - {plant.place for plant in household.living}:
        household.places.pop(place, None)  # one where a plant stands again, by a taking back, stays
    for plant in household.plants.values():
        if plant.place not in household.places:
            plant.place = None  # the place was taken back
    household.last_finds = _last_finds(household)
    return household


def _last_finds(household: Household) -> dict[tuple[PlaceId | None, str], date]:
    found: dict[tuple[PlaceId | None, str], date] = {}
    for plant in household.living:
        if not plant.is_apart:
            for case in plant.open_cases:
                key, on = (plant.place, case.pest), case.last_find_on
                found[key] = max(found.get(key, on), on)
    return found


def noted(household: Household, entries: Iterable[Entry]) -> Household | None:
    """
    Give the household with entries that only say what was sent or heard, None where any says more.

    The given one stays as it is; what such entries cannot change is shared between the two.
    """
    told = list(entries)
    if not all(isinstance(one.payload, Nudged | Heard | SilenceAsked) and one.member is None for one in told):
        return None
    nudge = None if household.nudge is None else replace(household.nudge)
    changed = replace(household, nudge=nudge)
    for entry in told:
        _note_nudge(changed, entry)
    return changed


def _name_things(household: Household, entry: Entry) -> None:
    match entry.payload:
        case PlaceSet(place=place):
            household.places.setdefault(place, Place(place))
        case ProductSet(product=product):
            household.products.setdefault(product, Product(product))
        case PlantSet() if entry.plant is not None:
            household.plants.setdefault(entry.plant, Plant(entry.plant))
        case _:
            pass


def _apply(household: Household, entry: Entry) -> None:
    plant = household.plants.get(entry.plant) if entry.plant is not None else None
    if plant is not None:
        _apply_to_plant(plant, entry)
        _note_on_walk(household.walk, plant.id, entry)
    else:
        _apply_to_household(household, entry)


def _apply_to_household(household: Household, entry: Entry) -> None:
    match entry.payload:
        case HouseholdSet() as told:
            _set_preferences(household, told)
        case PlaceSet() | TemperatureRead() | UsualByMonth() as told:
            _apply_to_place(household, told, entry.happened_on)
        case PlaceGone(place=place):
            household.places_gone.add(place)
        case ProductSet() as told:
            _stock(household.products[told.product], told, entry.happened_on)
        case SprayUsed() | CalendarGiven() as told:
            _note(household, told, entry.happened_on)
        case RoutineSet() as told:
            _set_routine(household, told, entry.happened_on)
        case HeldUntil(until=until):
            household.held_from = entry.happened_on
            household.held_until = until
        case WorkBegun() | WorkTicked() | WorkEnded() as told:
            _work(household, told)
        case WalkBegun() | WalkEnded() as told:
            _walk(household, told, entry.happened_on)
        case _:
            pass


def _note_on_walk(walk: Walk | None, plant: PlantId, entry: Entry) -> None:
    """Whatever way a plant was looked at, the walk need not come to it again."""
    match entry.payload:
        case CheckedClean() | Found() | LostNow() if walk is not None:
            walk.seen.add(plant)
        case WalkPassed() if walk is not None:
            walk.passed.add(plant)
        case _:
            pass


def _apply_to_place(household: Household, told: PlaceSet | TemperatureRead | UsualByMonth, on: date) -> None:
    place = household.places.get(told.place)
    if place is None:
        return  # it was taken back
    match told:
        case PlaceSet():
            _set_fields(place, told, ("name", "facing", "outdoors", "usual_c", "lamp_from", "lamp_until"))
        case TemperatureRead(celsius=celsius):
            _read_temperature(place, on, celsius)
        case UsualByMonth(months=months, celsius=celsius):
            place.by_month.update(dict.fromkeys(months, celsius))


def _stock(product: Product, told: ProductSet, on: date) -> None:
    _set_fields(product, told, _OF_A_PRODUCT)
    product.assumed = told.assumed
    if told.stock_ml is not None:
        product.stocked_on = on


def _work(household: Household, told: WorkBegun | WorkTicked | WorkEnded) -> None:
    match told:
        case WorkBegun(plants=plants, cleaned_out=cleaned_out):
            known = household.work or Work((), ())
            known.plants = tuple(dict.fromkeys((*known.plants, *plants)))
            known.cleaned_out = tuple(dict.fromkeys((*known.cleaned_out, *cleaned_out)))
            household.work = known  # plants named while one is under way join it: no tick is lost
        case WorkTicked(stage=stage, plants=plants) if household.work is not None:
            household.work.ticked.setdefault(stage, set()).update(plants)
        case WorkEnded():
            household.work = None
        case _:
            pass


def _note(household: Household, told: SprayUsed | CalendarGiven, on: date) -> None:
    match told:
        case SprayUsed(ml=ml):
            household.used[on] = ml
        case CalendarGiven(evenings=evenings):
            household.calendar |= frozenset(evenings)


def _set_routine(household: Household, told: RoutineSet, on: date) -> None:
    household.routines.pop(told.name, None)
    if told.rule:
        household.routines[told.name] = (told.rule, on)


def _walk(household: Household, told: WalkBegun | WalkEnded, on: date) -> None:
    match told:
        case WalkBegun(plants=plants, level=level):
            household.walk = Walk(on, plants, level)
        case WalkEnded():
            household.walk = None


def _note_nudge(household: Household, entry: Entry) -> None:
    """Keep the last nudge and whether it was answered, in the order written, for clocks are set back."""
    if entry.member is not None:
        household.unheard_since, household.is_silent = None, False
    match entry.payload:
        case SilenceAsked():
            household.is_silent = True
            before = household.nudge  # it takes a nudge's place, and its number, on that evening
            count = before.count + 1 if before is not None and before.on == entry.happened_on else 1
            household.nudge = Nudge(entry.happened_on, entry.happened_at, count, ())
        case Nudged(count=count, tasks=tasks):
            household.unheard_since = household.unheard_since or entry.happened_on
            household.nudge = Nudge(entry.happened_on, entry.happened_at, count, tasks)
        case Heard():
            household.unheard_since, household.is_silent = None, False
            if household.nudge is not None:
                household.nudge.is_heard = True
        case _:
            pass


def _read_temperature(place: Place, on: date, celsius: float) -> None:
    """Keep a reading; the first one also stands for the usual temperature nobody told."""
    place.readings[on] = celsius
    if place.usual_c is None:
        place.usual_c = celsius


def _set_fields(target: object, told: object, names: tuple[str, ...]) -> None:
    for name in names:
        value = getattr(told, name)
        if value is not None:
            setattr(target, name, value)


def _set_preferences(household: Household, told: HouseholdSet) -> None:
    _set_fields(household, told, ("town", "latitude", "longitude", "evening", "quiet_from", "quiet_until"))
    if told.zone is not None:
        household.zone_name = told.zone
        household.is_zone_told = True
    if told.units is not None:
        household.units, household.are_units_told = Units(told.units), True
    if told.clock_hours is not None:
        household.clock_hours = told.clock_hours
    if told.strict is not None:
        household.is_strict = told.strict
    if told.animals is not None:
        household.animals = frozenset(told.animals)


def _apply_to_plant(plant: Plant, entry: Entry) -> None:  # noqa: C901, PLR0912 - one arm a payload
    on = entry.happened_on
    match entry.payload:
        case PlantSet() as told:
            _set_plant(plant, told, on)
        case PlantRenamed(name=name):
            plant.name = name
        case Found(pest=pest, grade=grade, count=count, where=where):
            _find(plant, pest, Find(on, grade, count, where))
        case PhotoTaken(photo=photo):
            plant.photos.append((on, photo))
        case SignSeen(sign=sign):
            plant.signs.append((on, sign))
        case CheckedClean(level=level):
            plant.checks.append(Check(on, level))
        case Treated(method=method, product=product):
            plant.treatments.append(Treatment(on, method, product))
            plant.postponed_to, plant.postponed_at = None, None
        case Postponed(on=until, at=at):
            plant.postponed_to, plant.postponed_at = until, at
        case IsolatedNow(apart=apart, quarantine_days=days):
            plant.isolated_on, plant.is_apart, plant.quarantine_days = on, apart, days
            if days is not None:
                plant.arrived_on = plant.added_on
        case ReleasedNow(by_rule=by_rule):
            _close(plant, on, by_rule=by_rule)
        case LostNow():
            plant.lost_on = on
            _close(plant, on, by_rule=False)
        case PestCorrected(pest=pest):
            _correct(plant, pest)
        case _:
            pass


def _set_plant(plant: Plant, told: PlantSet, on: date) -> None:
    if plant.added_on is None:
        plant.added_on = on
    if told.place is not None and told.place != plant.place:
        plant.moved_on = on
        plant.stays.append((on, told.place))
    _set_fields(plant, told, ("name", "place", "pot_cm", "kind", "traits"))


def _find(plant: Plant, pest: str, find: Find) -> None:
    for case in plant.open_cases:
        if case.pest == pest:
            case.finds.append(find)
            return
    before = any(case.pest == pest for case in plant.cases)
    plant.cases.append(Case(pest, find.on, [find], is_reopened=before))


def _correct(plant: Plant, pest: str) -> None:
    """Rename the newest open case that is not of this pest; what was found under the right name joins it."""
    wrong = [case for case in plant.open_cases if case.pest != pest]
    if not wrong:
        return
    case = wrong[-1]
    case.pest = pest
    for other in plant.open_cases:
        if other is not case and other.pest == pest:
            case.finds = sorted([*case.finds, *other.finds], key=lambda find: find.on)
            case.opened_on = min(case.opened_on, other.opened_on)
            plant.cases = [one for one in plant.cases if one is not other]
    case.is_reopened = any(other.pest == pest for other in plant.cases if other is not case)


def _close(plant: Plant, on: date, *, by_rule: bool) -> None:
    for case in plant.open_cases:
        case.closed_on = on
        case.by_rule = by_rule
    plant.isolated_on = None
    plant.is_apart = False
    plant.quarantine_days = None
