"""The household as it stands: what its journal told, read-only for everyone but the fold."""

from collections.abc import Mapping
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from functools import lru_cache
from typing import Any
from zoneinfo import ZoneInfo

from bot.domain.identity import MemberId, PhotoId, PlaceId, PlantId, ProductId
from bot.domain.journal import NudgedTask
from bot.domain.label import Label
from bot.domain.measure import Tool, Units
from bot.domain.slot import Habits
from bot.domain.sun import Site
from bot.domain.trade import WORST_LAST, Grade, Level, Method, Sign
from bot.domain.value import Value, field
from bot.domain.window import Exposure, Facing, Outdoors

EVENING = time(20)
QUIET_FROM = time(22)
QUIET_UNTIL = time(8)
LONG_AWAY_DAYS = 5
"""After so long without a word a look comes before the plan. Judgement. [d]"""
LAMP_FROM = time(6)
"""A lamp of which only the end was told counts as on since six in the morning. Judgement."""


def lies_within(at: time, since: time, until: time) -> bool:
    """Whether a clock time lies in hours that may go past midnight."""
    return since <= at < until if since <= until else at >= since or at < until


class Place(Value, frozen=False):
    """A room, sill or bed. Temperatures in [degC]."""

    id: PlaceId
    name: str = ""
    facing: Facing | None = None
    outdoors: Outdoors | None = None
    usual_c: float | None = None
    lamp_from: time | None = None
    lamp_until: time | None = None
    readings: dict[date, float] = field(default_factory=dict)
    extremes: dict[date, tuple[float, float]] = field(default_factory=dict)
    """The lowest and the highest of days they were told of."""
    by_month: dict[int, float] = field(default_factory=dict)

    @property
    def exposure(self) -> Exposure:
        """When the sun, or a grow light, reaches what stands here."""
        facing = self.facing or (None if self.outdoors else Facing.UNKNOWN)
        lamp_from = self.lamp_from or (LAMP_FROM if self.lamp_until else None)
        return _exposure(
            facing=facing, outdoors=self.outdoors, lamp_from=lamp_from, lamp_until=self.lamp_until
        )


_exposure = lru_cache(maxsize=256)(Exposure)  # an evening asks forty times a home for one of a few hundred


class Product(Value, frozen=False):
    id: ProductId
    ingredient: str = ""
    stock_ml: float | None = None
    label: Label = field(default_factory=Label)
    stocked_on: date | None = None
    """When the stock was last told."""


class Find(Value):
    on: date
    grade: Grade
    count: int | None
    where: str | None


class Check(Value):
    on: date
    level: Level


class Treatment(Value):
    on: date
    method: Method
    product: ProductId | None


class Case(Value, frozen=False):
    """One outbreak of one pest on one plant; reopened says the plant had one of this pest before."""

    pest: str
    opened_on: date
    finds: list[Find] = field(default_factory=list)
    closed_on: date | None = None
    by_rule: bool = False
    is_reopened: bool = False
    is_opened_late: bool = False
    """Whether it was found so late on its first day that what is rinsed does not dry by the evening."""

    @property
    def last_find_on(self) -> date:
        return max(find.on for find in self.finds)

    @property
    def worst(self) -> Grade:
        return max((find.grade for find in self.finds), key=WORST_LAST.index)


class Plant(Value, frozen=False):
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
    taken: tuple[date, MemberId] | None = None
    """The evening for which somebody last took what is to be done, and who."""

    def taken_by(self, on: date) -> MemberId | None:
        return self.taken[1] if self.taken is not None and self.taken[0] == on else None

    @property
    def open_cases(self) -> list[Case]:
        return [case for case in self.cases if case.closed_on is None]

    @property
    def looked_on(self) -> list[date]:
        """Days it was looked at, with or without a find."""
        finds = [find.on for case in self.cases for find in case.finds]
        return [*(check.on for check in self.checks), *finds]

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


class Nudge(Value, frozen=False):
    on: date
    at: datetime
    count: int
    tasks: tuple[NudgedTask, ...]
    is_heard: bool = False
    is_morning: bool = False
    """Whether it is of the morning after: what waited for it, and nothing else."""
    found_since: set[PlantId] = field(default_factory=set)
    """Plants of which a find was told under it."""
    told_late: set[PlantId] = field(default_factory=set)
    """Plants of which a treatment of an earlier day was told under it."""


class Work(Value, frozen=False):
    """A work day under way: its plants, and what is ticked off by stage."""

    plants: tuple[PlantId, ...]
    cleaned_out: tuple[PlantId, ...]
    ticked: dict[str, set[PlantId]] = field(default_factory=dict)


class Walk(Value, frozen=False):
    """A check walk under way: its plants in order, and those looked at or passed since."""

    begun_on: date
    plants: tuple[PlantId, ...]
    level: Level
    seen: set[PlantId] = field(default_factory=set)
    passed: set[PlantId] = field(default_factory=set)

    @property
    def left(self) -> tuple[PlantId, ...]:
        return tuple(plant for plant in self.plants if plant not in self.seen | self.passed)


class Household(Value, frozen=False):
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
    tools: frozenset[Tool] = frozenset()
    """What small amounts are measured with, where that was told."""
    is_strict: bool = False
    wants_status: bool = False
    repeats: bool = True
    """Whether an evening's message that nobody answers comes a second time."""
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
    leaves: list[tuple[int, int]] = field(default_factory=list)
    """Living pests on one leaf before and after a wash, as counted here. [1]"""
    held_from: date | None = None
    held_until: date | None = None
    quiet: dict[MemberId, tuple[time, time]] = field(default_factory=dict)
    """Quiet hours of members who told their own; the others have the home's."""
    away: dict[MemberId, tuple[date, date | None]] = field(default_factory=dict)
    """Members who get no evenings: from when, until when; None is until further notice."""
    nudge: Nudge | None = None
    work: Work | None = None
    walk: Walk | None = None
    unheard_since: date | None = None
    """The evening of the first nudge that nobody has said a word after."""
    is_silent: bool = False
    """Whether it was asked to go on, and nothing has been heard since."""
    back_on: date | None = None
    """The day the last long absence ended."""
    heard_again_on: date | None = None
    """The day somebody was heard again after it had been asked whether to go on."""
    derived: dict[tuple[PlantId, str, date, date], Any] = field(default_factory=dict)
    """Cases as they stand on a day, once looked at: by plant, pest, the case's opening and the day."""
    told_at: datetime | None = None
    """When a member last told something."""
    last_finds: Mapping[tuple[PlaceId | None, str], date] = field(default_factory=dict)
    """The last find of each pest in each place, among open cases of plants that are not set apart."""
    last_finds_of_all: Mapping[tuple[PlaceId | None, str], date] = field(default_factory=dict)
    """The same among all open cases there."""

    @property
    def washed_off(self) -> float | None:
        """Give the share that washes here took off, None where nobody counted. [1]."""
        before, after = (
            (sum(counted) for counted in zip(*self.leaves, strict=True)) if self.leaves else (0, 0)
        )
        return None if not before else 1 - after / before

    @property
    def zone(self) -> ZoneInfo:
        return ZoneInfo(self.zone_name)

    @property
    def site(self) -> Site:
        """Where its windows look at the sun; without coordinates the sun is unknown."""
        return Site(self.latitude, self.longitude, self.zone_name)

    @property
    def habits(self) -> Habits:
        return Habits(preferred=self.evening, quiet_from=self.quiet_from, quiet_until=self.quiet_until)

    @property
    def living(self) -> list[Plant]:
        """Plants it still has, in order of adding."""
        return [plant for plant in self.plants.values() if plant.lost_on is None]

    def is_held(self, today: date) -> bool:
        if self.held_from is None or today < self.held_from:
            return False
        return self.held_until is None or today < self.held_until

    def days_away(self, today: date) -> frozenset[date]:
        """Give the days from today on without evenings, where it is told when they begin again."""
        if self.held_from is None or self.held_until is None or self.held_until <= today:
            return frozenset()
        first = max(today, self.held_from)
        return frozenset(first + timedelta(days=number) for number in range((self.held_until - first).days))

    def quiet_hours(self, member: MemberId | None = None) -> tuple[time, time]:
        home = self.quiet_from, self.quiet_until
        return home if member is None else self.quiet.get(member, home)

    def is_quiet(self, at: datetime, member: MemberId | None = None) -> bool:
        """Whether an instant is quiet for a member, or for everybody."""
        local = at.astimezone(self.zone).time()
        everybody = [self.quiet_hours(), *self.quiet.values()]
        told = everybody if member is None else [self.quiet_hours(member)]
        return all(lies_within(local, *hours) for hours in told)

    def is_away(self, member: MemberId, today: date) -> bool:
        since, until = self.away.get(member, (date.max, None))
        return since <= today and (until is None or today < until)

    def looks_first(self, plant: Plant, today: date) -> bool:
        """Whether a plant is looked at before it is treated: somebody is back today, after long."""
        since = self.held_from if today == self.held_until else None
        was_long_away = since is not None and (today - since).days >= LONG_AWAY_DAYS
        is_back = was_long_away or today in {self.back_on, self.heard_again_on}
        if not (is_back and plant.open_cases):
            return False
        seen = (*(check.on for check in plant.checks), *(case.last_find_on for case in plant.open_cases))
        return not any(on >= today for on in seen)
