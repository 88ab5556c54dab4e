"""Write down living pests, signs and looks: what opens a case, and what closes in on its end."""

from datetime import date, timedelta

from bot.actions.button_texts import ButtonText
from bot.actions.commands import Choice, LogCheck, LogFind, LogSign
from bot.actions.desk import Desk
from bot.actions.outcomes import CheckLogged, FindInPast, FindLogged, SignLogged
from bot.actions.set_apart import ask_apart
from bot.domain.agenda import SIGN_CHECK_WITHIN_DAYS
from bot.domain.course import Because, kinds_to_seek, next_step
from bot.domain.identity import PlantId
from bot.domain.journal import CheckedClean, Found, SignSeen
from bot.domain.release import Level
from bot.domain.trade import Grade, grade_of

GRADES = {ButtonText.UP_TO_5: Grade.FEW, ButtonText.UP_TO_30: Grade.SOME, ButtonText.MANY: Grade.MANY}


def grade_choices(
    plants: tuple[PlantId, ...], pest: str | None, on: date | None = None
) -> tuple[Choice, ...]:
    """Offer the grades of a find that lacks its number."""
    return tuple(
        Choice(text, (LogFind(plants=plants, grade=grade, pest=pest, on=on),))
        for text, grade in GRADES.items()
    )


def log_find(command: LogFind, plant_id: PlantId, pest: str, desk: Desk) -> FindLogged | FindInPast:
    """Write a find on one plant; the first of a pest opens a case, after a release it reopens one."""
    known = any(case.pest == pest for case in desk.plant(plant_id).open_cases)
    grade = command.grade or (grade_of(command.count) if command.count is not None else Grade.SOME)
    found = Found(pest=pest, grade=grade, count=command.count, where=command.where)
    desk.write([desk.draft(found, plant=plant_id, on=command.on)])
    plant = desk.plant(plant_id)
    case = next((one for one in plant.open_cases if one.pest == pest), None)
    if case is None or plant.lost_on is not None:
        return FindInPast(plant.name, desk.knowledge.pests[pest].name, command.on or desk.today)
    step = next_step(desk.household, desk.knowledge, plant, case, desk.today)
    state = next(one for one in desk.agenda.progress[plant_id] if one.case.pest == pest)
    task_on = next(
        (e.on for e in desk.agenda.evenings if any(t.plant == plant_id and t.method for t in e.tasks)), None
    )
    place = desk.household.places.get(plant.place) if plant.place is not None else None
    if plant.isolated_on is None:
        desk.to_set_apart.append(plant_id)
        ask_apart(tuple(dict.fromkeys(desk.to_set_apart)), desk)
    return FindLogged(
        plant=plant.name,
        on=command.on or desk.today,
        pest=desk.knowledge.pests[pest].name,
        count=command.count,
        grade=grade,
        where=command.where,
        is_new_case=not known,
        is_new_pest=not any(
            other.id != plant_id and any(one.pest == pest for one in other.cases)
            for other in desk.household.living
        )
        and not known,
        is_reopened=case.is_reopened and not known,
        is_isolated=plant.isolated_on is not None,
        place=place.name if place else None,
        neighbours=neighbours(desk, plant_id),
        step=step,
        product=desk.product_name(step.product.id) if step and step.product else None,
        progress=state,
        tonight=task_on,
        seek=kinds_to_seek(desk.knowledge, pest)
        if step is not None and step.because is Because.NO_PRODUCT
        else (),
    )


def neighbours(desk: Desk, plant_id: PlantId) -> tuple[str, ...]:
    """Give the plants that share the place and have no case of their own."""
    return tuple(
        desk.plant(watch).name
        for watch, why in desk.agenda.watched.items()
        if why.because_of == plant_id and watch != plant_id
    )


def log_sign(command: LogSign, desk: Desk) -> SignLogged:
    """Write a sign; it resets nothing and asks for a look."""
    desk.write(desk.draft(SignSeen(command.sign), plant=plant, on=command.on) for plant in command.plants)
    on = command.on or desk.today
    by = max(on + timedelta(days=SIGN_CHECK_WITHIN_DAYS), desk.today)
    return SignLogged(desk.names(command.plants), command.sign, on, by)


def log_check(command: LogCheck, desk: Desk) -> CheckLogged:
    """Write looks with none seen; the same plant and day told twice is one look."""
    level = command.level or Level.PLAIN
    on: date = command.on or desk.today
    plants = [
        plant
        for plant in dict.fromkeys(command.plants)
        if not any(check.on == on and check.level is level for check in desk.plant(plant).checks)
    ]
    desk.write(desk.draft(CheckedClean(level), plant=plant, on=command.on) for plant in plants)
    return CheckLogged(
        on=on,
        level=level,
        plants=desk.names(dict.fromkeys(command.plants)),
        cases=tuple(
            (desk.plant(plant).name, state)
            for plant in dict.fromkeys(command.plants)
            for state in desk.agenda.progress.get(plant, ())
        ),
        ready=desk.names(plant for plant in desk.agenda.ready if plant in command.plants),
    )
