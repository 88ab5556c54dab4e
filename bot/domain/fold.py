"""
The fold of the journal: entries in, the household as it stands out.

Entries count in the order in which things happened, whatever the order in which they were told; taken-back
entries do not count at all.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from datetime import date, datetime, time, timedelta
from itertools import takewhile
from operator import attrgetter
from typing import TypeVar
from zoneinfo import ZoneInfo

from bot.domain import journal
from bot.domain.gathering import gathered
from bot.domain.household import (
    LONG_AWAY_DAYS,
    Case,
    Check,
    Find,
    Household,
    Nudge,
    Place,
    Plant,
    Product,
    Treatment,
    Walk,
    Work,
)
from bot.domain.identity import EntryId, MemberId, PlaceId, PlantId
from bot.domain.journal import Entry
from bot.domain.measure import Tool, Units
from bot.domain.value import Value, field, replace

T = TypeVar("T", Check, Treatment)

RINSED_BY = time(17)
"""What is rinsed by then is dry for the evening's spray. Judgement."""
A_DAY_APART = timedelta(days=2)
"""Of what happened earlier nothing counts for a later day than this, whatever the zones. [d]"""
_UTC = Household().zone
_Order = tuple[datetime, EntryId]
_Zones = tuple[tuple[_Order, ZoneInfo], ...]
_OF_NOTHING: frozenset[type] = frozenset({journal.Nudged, journal.Heard, journal.SilenceAsked})
_OF_A_NUDGE = _OF_NOTHING | {journal.Found, journal.Treated}
_order: Callable[[Entry], _Order] = attrgetter("happened_at", "id")
"""Entries count by when what they tell happened, then by when they were written."""


def valid(entries: Iterable[Entry]) -> list[Entry]:
    """Entries that were not taken back, without the taking back itself."""
    return [entry for entry in latest(entries) if not isinstance(entry.payload, journal.Voided)][::-1]


def latest(entries: Iterable[Entry]) -> Iterator[Entry]:
    """Give those not taken back, the latest first; a taking back taken back itself gives what it took."""
    voided: set[EntryId] = set()
    for entry in reversed(tuple(entries)):
        if entry.id in voided:
            continue
        if entry.void_of is not None:
            voided.add(entry.void_of)
        yield entry


class _Home(Value):
    """What was told of the home itself: the household without its plants."""

    household: Household = field(default_factory=Household)
    zones: _Zones = ()
    """Zones as they were told, each from its entry on."""
    walk_from: _Order | None = None


class _Pot(Value):
    """A plant by itself, and the entry that first told of it."""

    named_by: EntryId
    plant: Plant


class Folded(Value):
    """A journal and its household, with what both are made of, so that it can be folded on from here."""

    entries: tuple[Entry, ...] = ()
    household: Household = field(default_factory=Household)
    told: Mapping[PlantId | None, tuple[Entry, ...]] = field(default_factory=dict)
    """Entries that count, of each plant and of the home (None), as they happened."""
    home: _Home = field(default_factory=_Home)
    pots: Mapping[PlantId, _Pot] = field(default_factory=dict)


def fold(entries: Iterable[Entry]) -> Household:
    return fold_on(tuple(entries)).household


def fold_on(entries: tuple[Entry, ...], before: Folded | None = None) -> Folded:
    """
    Fold a journal on from an earlier fold where it begins with that one's entries, else anew.

    What happened to a plant follows from its own entries and the zone, so only what new entries speak of is
    folded again, from its beginning: what is told late, or taken back, needs no way of its own.
    """
    if before is None or not is_longer(entries, before.entries):
        before = Folded()
    new = entries[len(before.entries) :]
    taken_back = {entry.void_of for entry in new if entry.void_of is not None}
    counted, start = (valid(entries), Folded()) if taken_back else (new, before)
    told = _without(before.told, taken_back) if len(taken_back) == len(new) else None
    told = _told(start.told, counted) if told is None else told
    own = told.get(None, ())
    home = before.home if own == before.told.get(None, ()) else _home(own)
    known = before if home.zones == before.home.zones else Folded()
    pots: dict[PlantId, _Pot] = {}
    for number, its in told.items():
        if number is not None:
            pot = known.pots.get(number) if its == known.told.get(number) else _pot(number, its, home.zones)
            if pot is not None:
                pots[number] = pot
    household = replace(before.household) if told == before.told else _put_together(home, pots, told)
    _note_last(household, start.household, counted)
    return Folded(entries, household, told, home, pots)


def is_longer(entries: tuple[Entry, ...], before: tuple[Entry, ...]) -> bool:
    """Whether a journal begins with all of an earlier one: the entries themselves, not only their like."""
    return not before or (len(entries) >= len(before) and entries[len(before) - 1] is before[-1])


def _told(
    before: Mapping[PlantId | None, tuple[Entry, ...]], counted: Iterable[Entry]
) -> Mapping[PlantId | None, tuple[Entry, ...]]:
    """Sort entries to what they speak of; what was sent or heard speaks of nothing."""
    new = gathered((entry.plant, entry) for entry in counted if type(entry.payload) not in _OF_NOTHING)
    told = {what: tuple(sorted((*before.get(what, ()), *its), key=_order)) for what, its in new.items()}
    return {**before, **told}


def _without(
    told: Mapping[PlantId | None, tuple[Entry, ...]], taken_back: AbstractSet[EntryId]
) -> Mapping[PlantId | None, tuple[Entry, ...]] | None:
    """Leave out what is taken back; None where not all of it counted, and what it took back is to return."""
    left = {
        what: kept if len(kept := tuple([one for one in its if one.id not in taken_back])) < len(its) else its
        for what, its in told.items()
    }
    missing = sum(len(its) - len(left[what]) for what, its in told.items())
    return {what: its for what, its in left.items() if its} if missing == len(taken_back) else None


def _home(told: tuple[Entry, ...]) -> _Home:
    household = Household()
    for entry in sorted(told, key=lambda one: one.id):
        if isinstance(entry.payload, journal.PlaceSet):
            household.places.setdefault(entry.payload.place, Place(entry.payload.place))
        elif isinstance(entry.payload, journal.ProductSet):
            household.products.setdefault(entry.payload.product, Product(entry.payload.product))
    zones, walk_from = [], None
    for entry in told:
        _apply_to_household(household, entry)
        if isinstance(entry.payload, journal.HouseholdSet) and entry.payload.zone is not None:
            zones.append((_order(entry), household.zone))
        if isinstance(entry.payload, journal.WalkBegun):
            walk_from = _order(entry)
    return _Home(household, tuple(zones), walk_from)


def _pot(number: PlantId, told: tuple[Entry, ...], zones: _Zones) -> _Pot | None:
    """Fold what happened to a plant; None where what made it known was taken back."""
    named_by = min((entry.id for entry in told if isinstance(entry.payload, journal.PlantSet)), default=None)
    if named_by is None:
        return None
    plant = Plant(number)
    for entry in told:
        _apply_to_plant(plant, entry, zones)
    return _Pot(named_by, plant)


def _put_together(
    home: _Home, pots: Mapping[PlantId, _Pot], told: Mapping[PlantId | None, tuple[Entry, ...]]
) -> Household:
    plants = {number: pots[number].plant for number in sorted(pots, key=lambda one: pots[one].named_by)}
    household = replace(home.household, plants=plants, places=dict(home.household.places), derived={})
    for place in household.places_gone - {plant.place for plant in household.living}:
        household.places.pop(place, None)  # one where a plant stands again, by a taking back, stays
    for number, plant in plants.items():
        if plant.place not in household.places:
            plants[number] = replace(plant, place=None)  # the place was taken back
    if household.walk is not None and home.walk_from is not None:
        household.walk = replace(household.walk, seen=set(), passed=set())
        for number in plants:
            for entry in reversed(told[number]):
                if _order(entry) < home.walk_from:
                    break
                if isinstance(entry.payload, journal.CheckedClean | journal.Found | journal.LostNow):
                    household.walk.seen.add(number)  # whatever way it was looked at, the walk is done with it
                elif isinstance(entry.payload, journal.WalkPassed):
                    household.walk.passed.add(number)
    household.last_finds = _last_finds(plant for plant in household.living if not plant.is_apart)
    household.last_finds_of_all = _last_finds(household.living)
    return household


def _note_last(household: Household, before: Household, counted: Sequence[Entry]) -> None:
    """Note what was written last, and what became of it, in the order written, for clocks are set back."""
    said = [one.recorded_at for one in counted if one.member is not None]
    household.told_at = max((*said, *filter(None, [before.told_at])), default=None)
    nudge = before.nudge
    household.nudge = nudge and replace(
        nudge, found_since=set(nudge.found_since), told_late=set(nudge.told_late)
    )
    household.unheard_since, household.is_silent = before.unheard_since, before.is_silent
    household.heard_again_on = before.heard_again_on
    for entry in counted:
        if entry.member is not None or isinstance(entry.payload, journal.Heard):
            if household.is_silent:
                household.heard_again_on = entry.happened_on
            household.unheard_since, household.is_silent = None, False
        if type(entry.payload) in _OF_A_NUDGE:
            _note_nudge(household, entry)


def _last_finds(plants: Iterable[Plant]) -> dict[tuple[PlaceId | None, str], date]:
    found: dict[tuple[PlaceId | None, str], date] = {}
    for plant in plants:
        for case in plant.open_cases:
            key, on = (plant.place, case.pest), case.last_find_on
            found[key] = max(found.get(key, on), on)
    return found


def _is_late(entry: Entry, zones: _Zones) -> bool:
    """Whether what is rinsed from that hour on does not dry by the evening."""
    order = _order(entry)
    local = entry.happened_at.astimezone(next((zone for at, zone in reversed(zones) if at < order), _UTC))
    return local.date() > entry.happened_on or local.time() >= RINSED_BY


def _apply_to_household(household: Household, entry: Entry) -> None:  # noqa: C901, PLR0912 - one arm a payload
    on = entry.happened_on
    match entry.payload:
        case journal.HouseholdSet() as told:
            _set_quiet_hours(household, told, entry.member)
            _set_preferences(household, told)
        case journal.PlaceSet() | journal.TemperatureRead() | journal.UsualByMonth() as told if (
            told.place in household.places
        ):
            _apply_to_place(household.places[told.place], told, on)
        case journal.PlaceGone(place=place):
            household.places_gone.add(place)
        case journal.ProductSet() as told:
            _stock(household.products[told.product], told, on)
        case journal.SprayUsed(ml=ml):
            household.used[on] = ml
        case journal.LeafCounted(before=before, after=after):
            household.leaves.append((before, after))
        case journal.CalendarGiven(evenings=evenings):
            household.calendar |= frozenset(evenings)
        case journal.RoutineSet(name=name, rule=rule):
            household.routines.pop(name, None)
            if rule:
                household.routines[name] = rule, on
        case journal.HeldUntil() as told:
            _hold(household, told, entry)
        case journal.WorkBegun(plants=plants, cleaned_out=cleaned_out):
            work = household.work or Work((), ())
            work.plants = tuple(dict.fromkeys((*work.plants, *plants)))
            work.cleaned_out = tuple(dict.fromkeys((*work.cleaned_out, *cleaned_out)))
            household.work = work  # plants named while one is under way join it: no tick is lost
        case journal.WorkTicked(stage=stage, plants=plants) if household.work is not None:
            household.work.ticked.setdefault(stage, set()).update(plants)
        case journal.WorkEnded():
            household.work = None
        case journal.WalkBegun(plants=plants, level=level):
            household.walk = Walk(on, plants, level)
        case journal.WalkEnded():
            household.walk = None
        case _:
            pass


def _hold(household: Household, told: journal.HeldUntil, entry: Entry) -> None:
    if not told.is_own:
        since, is_back = household.held_from, told.until is not None and told.until <= entry.happened_on
        if is_back and since is not None and (entry.happened_on - since).days >= LONG_AWAY_DAYS:
            household.back_on = entry.happened_on
        household.held_from, household.held_until = entry.happened_on, told.until
    elif entry.member is not None:
        household.away[entry.member] = entry.happened_on, told.until


def _apply_to_place(
    place: Place, told: journal.PlaceSet | journal.TemperatureRead | journal.UsualByMonth, on: date
) -> None:
    match told:
        case journal.PlaceSet():
            _set_fields(place, told, ("name", "facing", "outdoors", "usual_c", "lamp_from", "lamp_until"))
        case journal.TemperatureRead(celsius=celsius, low=low, high=high):
            place.readings[on] = celsius
            place.extremes.pop(on, None)
            if low is not None and high is not None:
                place.extremes[on] = low, high
        case journal.UsualByMonth(months=months, celsius=celsius):
            place.by_month.update(dict.fromkeys(months, celsius))


def _stock(product: Product, told: journal.ProductSet, on: date) -> None:
    _set_fields(product, told, ("ingredient", "stock_ml"))
    if not told.label.is_blank:
        product.label = product.label.then(replace(told.label, told_on=on))
    if told.stock_ml is not None:
        product.stocked_on = on


def _note_nudge(household: Household, entry: Entry) -> None:
    match entry.payload:
        case journal.SilenceAsked():
            household.is_silent = True
            before = household.nudge  # it takes a nudge's place, and its number, on that evening
            count = before.count + 1 if before is not None and before.on == entry.happened_on else 1
            household.nudge = Nudge(entry.happened_on, entry.happened_at, count, ())
        case journal.Nudged(count=count, tasks=tasks, is_morning=is_morning):
            if tasks:  # what only announces tomorrow wants no answer
                household.unheard_since = household.unheard_since or entry.happened_on
            household.nudge = Nudge(entry.happened_on, entry.happened_at, count, tasks, is_morning=is_morning)
        case journal.Heard() if household.nudge is not None:
            household.nudge.is_heard = True
        case journal.Found() if household.nudge is not None and entry.plant is not None:
            household.nudge.found_since.add(entry.plant)
        case journal.Treated() if household.nudge is not None and entry.plant is not None:
            if entry.happened_on < household.nudge.on:
                household.nudge.told_late.add(entry.plant)
        case _:
            pass


def _set_fields(target: object, told: object, names: tuple[str, ...]) -> None:
    for name in names:
        value = getattr(told, name)
        if value is not None:
            setattr(target, name, value)


def _set_quiet_hours(household: Household, told: journal.HouseholdSet, member: MemberId | None) -> None:
    """Take them for the home's, or for a member's own; who has the home alone again has none besides."""
    if told.is_own and member is not None:
        since, until = household.quiet_hours(member)
        household.quiet[member] = told.quiet_from or since, told.quiet_until or until
    elif told.quiet_from is not None or told.quiet_until is not None:
        _set_fields(household, told, ("quiet_from", "quiet_until"))
        if member is not None:
            household.quiet.pop(member, None)


def _set_preferences(household: Household, told: journal.HouseholdSet) -> None:
    _set_fields(household, told, ("town", "latitude", "longitude", "evening", "clock_hours", "repeats"))
    if told.zone is not None:
        household.zone_name = told.zone
        household.is_zone_told = True
    if told.units is not None:
        household.units, household.are_units_told = Units(told.units), True
    if told.strict is not None:
        household.is_strict = told.strict
    if told.tools is not None:
        household.tools = frozenset(Tool(tool) for tool in told.tools)
    if told.animals is not None:
        household.animals = frozenset(told.animals)
    if told.status is not None:
        household.wants_status = told.status


def _apply_to_plant(plant: Plant, entry: Entry, zones: _Zones) -> None:  # noqa: C901, PLR0912 - one arm a payload
    on = entry.happened_on
    match entry.payload:
        case journal.PlantSet() as told:
            _set_plant(plant, told, on)
        case journal.PlantRenamed(name=name):
            plant.name = name
        case journal.Found(pest=pest, grade=grade, count=count, where=where):
            _find(plant, pest, Find(on, grade, count, where), entry, zones)
        case journal.PhotoTaken(photo=photo):
            plant.photos.append((on, photo))
        case journal.SignSeen(sign=sign):
            plant.signs.append((on, sign))
        case journal.CheckedClean(level=level):
            _once(plant.checks, Check(on, level))
        case journal.Treated(method=method, product=product):
            _once(plant.treatments, Treatment(on, method, product))
            plant.postponed_to, plant.postponed_at = None, None
        case journal.Postponed(on=until, at=at):
            plant.postponed_to, plant.postponed_at = until, at
        case journal.IsolatedNow(apart=apart, quarantine_days=days):
            plant.isolated_on, plant.is_apart, plant.quarantine_days = on, apart, days
            if days is not None:
                plant.arrived_on = plant.added_on
        case journal.ReleasedNow(by_rule=by_rule):
            _close(plant, on, by_rule=by_rule)
        case journal.LineTaken() if entry.member is not None:
            plant.taken = on, entry.member
        case journal.LostNow():
            plant.lost_on = on
            _close(plant, on, by_rule=False)
        case journal.PestCorrected(pest=pest):
            _correct(plant, pest)
        case _:
            pass


def _once(told: list[T], one: T) -> None:
    """Keep what two people told of one day once: it was one look, one round."""
    lately = takewhile(lambda known: known.on >= one.on - A_DAY_APART, reversed(told))
    if one not in lately:
        told.append(one)


def _set_plant(plant: Plant, told: journal.PlantSet, on: date) -> None:
    if plant.added_on is None:
        plant.added_on = on
    if told.place is not None and told.place != plant.place:
        plant.stays.append((on, told.place))
    _set_fields(plant, told, ("name", "place", "pot_cm", "kind", "traits"))


def _find(plant: Plant, pest: str, find: Find, entry: Entry, zones: _Zones) -> None:
    for case in plant.open_cases:
        if case.pest == pest:
            case.finds.append(find)
            return
    before = any(case.pest == pest for case in plant.cases)
    is_late = _is_late(entry, zones)
    plant.cases.append(Case(pest, find.on, [find], is_reopened=before, is_opened_late=is_late))


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
