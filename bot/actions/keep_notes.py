"""Shelf, temperatures, routines and pauses."""

from datetime import date

from bot.actions.commands import (
    Hold,
    ReadTemperature,
    SetAnimals,
    SetRoutine,
    SetStrict,
    SetTraits,
    StockProduct,
)
from bot.actions.desk import Desk
from bot.actions.outcomes import (
    AnimalsNoted,
    BadGap,
    BadTemperature,
    Held,
    RoutineSaved,
    Stocked,
    StrictSet,
    TemperatureNoted,
    TraitNoted,
)
from bot.domain.identity import PlantId
from bot.domain.journal import (
    HeldUntil,
    HouseholdSet,
    PlantSet,
    ProductSet,
    RoutineSet,
    TemperatureRead,
    UsualByMonth,
)
from bot.domain.recurrence import next_on
from bot.domain.release import STRICT_TARGET, TARGET

GAP_DAYS = range(1, 366)
CELSIUS = (-10.0, 45.0)
"""What a home with living plants can have; anything else is a slip of the finger. Judgement. [degC]"""


def stock(command: StockProduct, desk: Desk) -> Stocked | BadGap:
    """Put a product on the shelf or tell more of its label; what is not told is assumed, and marked so."""
    if command.gap_days is not None and command.gap_days not in GAP_DAYS:
        return BadGap(command.gap_days)
    kind = desk.knowledge.products[command.ingredient]
    known = next(
        (one for one in desk.household.products.values() if one.ingredient == command.ingredient), None
    )
    product = known.id if known else desk.store.new_product(desk.member.household)
    assumed = set(known.assumed if known else ("form", "gap_days"))
    assumed -= {"form"} if command.form else set()
    assumed -= {"gap_days"} if command.gap_days else set()
    told = ProductSet(
        product=product,
        ingredient=command.ingredient,
        form=command.form,
        gap_days=command.gap_days,
        stock_ml=command.stock_ml,
        rate_ml_per_l=command.rate_ml_per_l,
        most_ml_per_l=command.most_ml_per_l or command.rate_ml_per_l,
        strength_percent=command.strength_percent,
        uses_a_year=command.uses_a_year,
        harvest_days=command.harvest_days,
        is_for_indoors=command.is_for_indoors,
        is_for_edibles=command.is_for_edibles,
        assumed=tuple(sorted(assumed)),
    )
    desk.write([desk.draft(told)])
    kept = desk.household.products[product]
    return Stocked(
        product=kept,
        name=kind.name,
        gap_days=kept.gap_days if kept.gap_days is not None else kind.gap_days,
        caution="" if known else kind.caution,
    )


def set_animals(command: SetAnimals, desk: Desk) -> AnimalsNoted:
    """Keep which animals live here; some products are dangerous to them."""
    animals = tuple(sorted((desk.household.animals | set(command.animals)) - set(command.gone)))
    desk.write([desk.draft(HouseholdSet(animals=animals))])
    return AnimalsNoted(animals)


def set_strict(command: SetStrict, desk: Desk) -> StrictSet:
    """Keep at which chance plants may go."""
    desk.write([desk.draft(HouseholdSet(strict=command.is_strict))])
    return StrictSet(command.is_strict, STRICT_TARGET if command.is_strict else TARGET)


def set_traits(command: SetTraits, desk: Desk) -> TraitNoted:
    """Keep what plants are; the opposite told before no longer holds."""
    opposite = (
        command.trait.removeprefix("not-") if command.trait.startswith("not-") else f"not-{command.trait}"
    )
    desk.write(
        desk.draft(
            PlantSet(traits=(*(one for one in desk.plant(plant).traits if one != opposite), command.trait)),
            plant=plant,
        )
        for plant in command.plants
    )
    return TraitNoted(desk.names(command.plants), command.trait)


def read_temperature(command: ReadTemperature, desk: Desk) -> TemperatureNoted | BadTemperature:
    """Write a reading of a place. [degC]."""
    if not CELSIUS[0] <= command.celsius <= CELSIUS[1]:
        return BadTemperature(command.celsius)
    if command.months:
        told = UsualByMonth(place=command.place, months=command.months, celsius=command.celsius)
        desk.write([desk.draft(told)])
        return TemperatureNoted(desk.household.places[command.place].name, command.celsius, command.months)
    has_cases = any(plant.open_cases for plant in desk.household.living)
    before = _next_rounds(desk) if has_cases else {}
    reading = TemperatureRead(place=command.place, celsius=command.celsius)
    desk.write([desk.draft(reading, on=command.on)])
    moved: dict[tuple[date, date], list[str]] = {}
    for plant, on in _next_rounds(desk).items() if before else ():
        if before.get(plant, on) != on:
            moved.setdefault((before[plant], on), []).append(desk.plant(plant).name)
    return TemperatureNoted(
        desk.household.places[command.place].name,
        command.celsius,
        moved=tuple((tuple(names), *days) for days, names in moved.items()),
    )


def _next_rounds(desk: Desk) -> dict[PlantId, date]:
    """Give the evening of each plant's next treatment."""
    rounds: dict[PlantId, date] = {}
    for evening in desk.agenda.evenings:
        for task in evening.tasks:
            if task.method is not None:
                rounds.setdefault(task.plant, evening.on)
    return rounds


def set_routine(command: SetRoutine, desk: Desk) -> RoutineSaved:
    """Keep a habit as its RFC 5545 rule."""
    desk.write([desk.draft(RoutineSet(name=command.name, rule=command.rule))])
    following = next_on(command.rule, desk.today, desk.today) if command.rule else None
    return RoutineSaved(command.name, command.rule, following)


def hold(command: Hold, desk: Desk) -> Held:
    """Rest until a day, or until the person speaks of plants again."""
    until = command.until
    late = {
        desk.plant(task.plant).name: task.closes_on
        for evening in desk.agenda.evenings
        for task in evening.tasks
        if task.method is not None and (until is None or task.closes_on < until)
    }
    desk.write([desk.draft(HeldUntil(until))])
    return Held(until, tuple(late.items()))
