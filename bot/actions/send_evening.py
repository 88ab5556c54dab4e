"""The evening comes: compose the nudge from the state at this moment, or find that nothing is due."""

from collections.abc import Sequence
from datetime import date, datetime, timedelta

from bot.actions.action import Asking, ButtonText, Choice, Expecting, Outcome
from bot.actions.ask import Ask, Topic
from bot.actions.come_back import ComeBack
from bot.actions.desk import Desk
from bot.actions.hold import Hold
from bot.actions.identify import Identify
from bot.actions.isolate import ask_apart
from bot.actions.left_open import find_asked, left_open
from bot.actions.log_check import BY_WAY, LogCheck
from bot.actions.log_round import LogRound, Spent, no_more
from bot.actions.mix_batch import Mixed, tonights_mixes
from bot.actions.ports import Store
from bot.actions.postpone import Postpone
from bot.actions.read_temperature import ask_what_is_usual
from bot.actions.release_plant import ReleasePlant
from bot.actions.save_time import SaveTime
from bot.actions.set_repeats import SetRepeats
from bot.actions.stock_product import ask_of_eating
from bot.actions.tell_how import offer_how
from bot.actions.walk_through import BeginWalk
from bot.domain.agenda import needs_shade
from bot.domain.care import Care, care_of
from bot.domain.course import Step
from bot.domain.effort import MINUTES
from bot.domain.gap import Lateness
from bot.domain.household import Nudge
from bot.domain.identity import HouseholdId, MemberId, PlantId
from bot.domain.journal import (
    Draft,
    Nudged,
    NudgedTask,
    SilenceAsked,
)
from bot.domain.knowledge import Knowledge
from bot.domain.nudging import (
    Placement,
    is_left,
    is_long_silent,
    morning_at,
    next_nudge_at,
    nudge_at,
    placements,
)
from bot.domain.progress import Progress
from bot.domain.refusal import is_warm
from bot.domain.tonight import Doubt, Kind, Line, Part, Tonight, planned, tonight
from bot.domain.trade import Level, Method
from bot.domain.value import Value, replace


class Deed(Value, kw_only=True):
    """What is still to be done to one plant this evening."""

    plant: PlantId
    name: str
    method: Method
    product: str | None


class NudgeText(Outcome, kw_only=True):
    """Tonight's nudge; edited, what is left of it."""

    on: date
    count: int
    is_morning: bool
    minutes: int
    """How long what is left takes. [min]"""
    settled: tuple[str, ...]
    """Plants of the message of which nothing is left."""
    deeds: tuple[Deed, ...]
    placements: tuple[Placement, ...]
    names: tuple[tuple[int, str], ...]
    ready: tuple[str, ...]
    late: tuple[tuple[str, Step], ...]
    mixes: tuple[Mixed, ...]
    care: tuple[tuple[Care, tuple[str, ...]], ...]
    first_uses: tuple[tuple[str, str], ...]
    """Plants and products that meet for the first time tonight."""
    progress: tuple[tuple[str, Progress], ...]
    """How far the cases treated tonight are."""
    announced: tuple[tuple[str, Method, str | None], ...]
    """Plants and what is done to them tomorrow: by 17:00 what takes no product, so that leaves are dry."""
    looks: tuple[tuple[str, Level, Level | None], ...]
    """Plants to look at, each with the way that is asked for and where."""
    lift: tuple[str, ...]
    """Plants whose roots nobody has looked at, though pests of their kind sit there."""
    spent: tuple[Spent, ...]
    """What may not be used again for now, and what takes its place tonight."""
    taken: tuple[tuple[str, tuple[str, ...]], ...]
    """Who said to do which of the plants."""
    warm: tuple[str, ...]
    """Plants to be sprayed where it is warm enough for a word of caution."""
    question: tuple[Doubt, str, float | None] | None
    """What is asked, of which plant, place or product, and the temperature it is about. [degC]."""


class StillThere(Outcome):
    """Nobody has said a word for a week: asked whether to go on."""

    on: date
    count: int
    since: date


LOOK_AGAIN = timedelta(hours=6)
"""Where an hour was asked for and everything is done by then, look again after this long. Judgement."""

LONG_MINUTES = 45
"""Evenings that take longer offer to say what goes first. Judgement. [min]"""
ALL_DONE_BY = {
    Level.LENS: ButtonText.ALL_DONE_NONE_BY_LENS,
    Level.TAP: ButtonText.ALL_DONE_NONE_TAPPED,
    Level.CARD: ButtonText.ALL_DONE_NONE_ON_CARD,
    Level.TAPE: ButtonText.ALL_DONE_NONE_BY_TAPE,
}
"""What tells a look by its way together with the evening's treatments."""
PLAINLY = (Level.PLAIN, Level.GLANCE)
WALKED_FROM = 3
"""So many plants to look at are worth a walk. Judgement. [1]"""


def send_evening(
    household: HouseholdId, store: Store, knowledge: Knowledge, now: datetime
) -> tuple[Desk, NudgeText | StillThere] | None:
    """
    Compose tonight's nudge if this household is owed one now, and write it into the journal.

    Two runs never send two: the journal says what was sent, and the store's transaction is exclusive.
    """
    members = store.members(household)
    if not members:
        store.set_next_evening(household, None)
        return None
    desk = Desk(store, members[0], knowledge, now, "evening")
    due_at = _next_at(desk)
    if due_at is None or due_at > now:
        store.set_next_evening(household, due_at)
        return None
    if is_long_silent(desk.household, desk.today):
        return desk, _ask_whether_to_go_on(desk)
    morning = morning_at(desk.household, now)
    composed = _compose_morning(desk) if morning is not None and morning <= now else _compose(desk)
    if composed is None:
        store.set_next_evening(household, now + LOOK_AGAIN)
        return None
    text, told = composed
    desk.write([Draft(payload=told, happened_at=now, happened_on=text.on)])
    refresh_evening(desk)
    return desk, text


def _ask_whether_to_go_on(desk: Desk) -> StillThere:
    """Ask once after evenings of silence, and then once a week until anything is heard."""
    since = desk.household.unheard_since
    assert since is not None
    count = _count_tonight(desk)
    asked = Draft(payload=SilenceAsked(), happened_at=desk.now, happened_on=desk.today)
    desk.write([asked])
    refresh_evening(desk)
    choices = (
        Choice(ButtonText.GO_ON, (ComeBack(),)),
        Choice(ButtonText.QUIET_TILL_HEARD, (Hold(),)),
    )
    return StillThere(desk.today, count, since, asking=Asking(choices))


def _count_tonight(desk: Desk) -> int:
    """Count this evening's message: its key must be another than that of one sent before."""
    nudge = desk.household.nudge
    return nudge.count + 1 if nudge is not None and nudge.on == desk.today else 1


def refresh_evening(desk: Desk) -> datetime | None:
    """Derive the next evening anew after anything was written, and give it."""
    at = _next_at(desk)
    desk.store.set_next_evening(desk.member.household, at)
    return at


def _next_at(desk: Desk) -> datetime | None:
    """Give when the home is owed a message: for its plan, or for a find whose number nobody told."""
    household = desk.household
    at = next_nudge_at(household, desk.knowledge, desk.now, desk.agenda_on)
    is_nudged = household.nudge is not None and household.nudge.on >= desk.today
    is_resting = household.is_silent or household.is_held(desk.today) or not household.is_zone_told
    if is_nudged or is_resting or not _finds_left_open(desk):
        return at
    asked = nudge_at(household, desk.knowledge, (), desk.today, desk.now)
    return min((one for one in (at, asked) if one is not None), default=None)


def _finds_left_open(desk: Desk) -> bool:
    chats = dict.fromkeys(one.chat for one in desk.members)
    return any(find_asked(left_open(desk, chat))[0] for chat in chats)


def derive_evening(household: HouseholdId, store: Store, knowledge: Knowledge, now: datetime) -> None:
    """Derive a household's next evening anew from its journal alone."""
    members = store.members(household)
    if members:
        refresh_evening(Desk(store, members[0], knowledge, now, "evening"))
    else:
        store.set_next_evening(household, None)


def _compose(desk: Desk) -> tuple[NudgeText, Nudged] | None:
    """Give the message and its entry in the journal, both of one evening."""
    count = _count_tonight(desk)
    evening = planned(desk.household, desk.knowledge, desk.agenda, desk.today, desk.now)
    tasks = tuple(
        NudgedTask(
            plant=line.plant,
            method=part.method,
            product=part.product,
            from_at=part.from_at,
            is_over=part.is_over,
        )
        for line in (*evening.treatments, *evening.looks)
        for part in line.parts
        if line.plant is not None
    )
    is_repeat = count > 1
    is_announced = any(line.is_announced for line in evening.tomorrow)
    if (is_repeat and not evening.open(desk.now)) or not (tasks or is_announced or _finds_left_open(desk)):
        return None
    nudge = Nudge(desk.today, desk.now, count, tasks)
    once = (Choice(ButtonText.ONCE_ENOUGH, (SetRepeats(is_wanted=False),)),) if is_repeat else ()
    why = (Choice(ButtonText.WHY, (Ask(topic=Topic.WHY),)),) if tasks or is_announced else ()
    return _message(evening, nudge, desk, (*once, *why)), Nudged(count=count, tasks=tasks)


def _compose_morning(desk: Desk) -> tuple[NudgeText, Nudged] | None:
    """Name what waited for the morning, once its slot is there."""
    before = desk.household.nudge
    assert before is not None
    waiting = tuple(
        task for task in before.tasks if task.from_at is not None and is_left(desk.household, task, before.on)
    )
    told = Nudged(count=before.count + 1, tasks=waiting, is_morning=True)
    nudge = replace(before, at=desk.now, count=told.count, tasks=waiting, is_morning=True)
    evening = tonight(replace(desk.household, nudge=nudge), desk.knowledge, desk.agenda, desk.now)
    return _message(evening, nudge, desk, ()), told


def lines_left(desk: Desk) -> tuple[Line, ...]:
    """Give what the last message of the bot's own still has open."""
    nudge = desk.household.nudge
    if nudge is None:
        return ()
    evening = desk.evening
    if evening.on != nudge.on or (evening.is_past and not nudge.is_morning):
        return ()
    return tuple(line for line in (*evening.treatments, *evening.looks) if not line.is_since and line.left)


def is_under_nudge(message: int | None, desk: Desk) -> bool:
    """Whether something is said to an evening's open message: in reply to it (message), or next after it."""
    nudge = desk.household.nudge
    if nudge is None or not desk.evening.named(desk.now):
        return False
    if message is None:
        return not nudge.is_heard and bool(lines_left(desk))
    told = desk.store.nudged_messages(desk.member.household, nudge.on)
    return any((desk.member.chat, message) == one[:2] for one in told)


def what_is_left(desk: Desk) -> NudgeText | None:
    """Give the message of what is left, with its buttons; None where all is settled."""
    nudge = desk.household.nudge
    return _message(desk.evening, nudge, desk, ()) if nudge is not None and lines_left(desk) else None


def _message(evening: Tonight, nudge: Nudge, desk: Desk, more: tuple[Choice, ...]) -> NudgeText:
    """Make a message of what an evening has left, as it was or is told."""
    household, knowledge = desk.household, desk.knowledge
    at = datetime.combine(nudge.on, household.evening, household.zone) if nudge.is_morning else nudge.at
    lines = [line for line in evening.treatments if line.left and not line.is_since]
    looks = [line for line in evening.looks if line.left and not line.is_since]
    left = [(line, part) for line in (*lines, *looks) for part in line.left]
    parts = [
        NudgedTask(plant=line.plant, method=part.method, product=part.product)
        for line, part in left
        if line.kind is Kind.TREAT and line.plant is not None
    ]
    steps = [(desk.plant(line.plant).name, line.step) for line in lines if line.plant and line.step]
    named = (*evening.treatments, *evening.looks)
    open_plants = {line.plant for line in (*lines, *looks)}
    minutes = sum(MINUTES[part.method] for _, part in left if not part.is_over)
    return NudgeText(
        on=evening.on,
        count=nudge.count,
        is_morning=nudge.is_morning,
        minutes=minutes,
        settled=desk.names(
            dict.fromkeys(one.plant for one in named if one.plant and one.plant not in open_plants)
        ),
        deeds=tuple(
            Deed(
                plant=part.plant,
                name=desk.plant(part.plant).name,
                method=part.method,
                product=desk.product_name(part.product),
            )
            for part in parts
            if part.method is not None
        ),
        placements=placements(household, knowledge, parts, evening.on, at),
        names=tuple((plant.id, plant.name) for plant in household.living),
        progress=_progress(tuple(dict.fromkeys(part.plant for part in parts)), desk),
        mixes=tonights_mixes(desk) if any(part.product is not None for part in parts) else (),
        ready=desk.names(desk.agenda.ready),
        late=tuple((name, step) for name, step in steps if step.lateness is not Lateness.ON_TIME),
        care=_care(desk, parts),
        first_uses=tuple(
            (desk.plant(line.plant).name, desk.product_name(part.product) or "")
            for line in evening.now
            if line.kind is Kind.TRY and line.plant
            for part in line.parts
            if any(one.plant == line.plant and one.product == part.product for one in parts)
        ),
        looks=tuple(
            (desk.plant(line.plant).name, *_way(line, desk))
            for line in looks
            if line.plant and not _is_of_roots(line, desk)
        ),
        lift=desk.names(
            line.plant
            for line in looks
            if line.plant and (line.kind is Kind.LIFT or _is_of_roots(line, desk))
        ),
        announced=tuple(
            (desk.plant(line.plant).name, part.method, desk.product_name(part.product))
            for line in evening.tomorrow
            if line.is_announced and line.plant
            for part in line.parts
            if part.method is not None
        ),
        warm=desk.names(
            part.plant
            for part in parts
            if needs_shade(household, knowledge, part)
            and is_warm(household, desk.plant(part.plant), evening.on)
        ),
        spent=_spent_before(lines, desk),
        taken=_taken(evening, desk),
        question=_question(evening, desk),
        asking=Asking(
            (*_choices(evening, lines, looks, desk), *_answers(evening, desk)),
            Expecting.LINES,
        ),
        offers=(
            *_later(lines, looks, nudge),
            *offer_how([(part.method, part.plant) for part in parts], desk),
            *more,
            *([Choice(ButtonText.WHAT_FIRST, (SaveTime(),))] if minutes > LONG_MINUTES else []),
        ),
    )


def _taken(evening: Tonight, desk: Desk) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Give who said to do which of the plants with something left."""
    names = {one.id: one.name for one in desk.members}
    plants: dict[str, list[str]] = {}
    for line in (*evening.treatments, *evening.looks):
        plant = desk.plant(line.plant) if line.plant is not None and line.left else None
        by = None if plant is None else plant.taken_by(evening.on)
        if plant is not None and by in names:
            plants.setdefault(names[by], []).append(plant.name)
    return tuple((name, tuple(dict.fromkeys(of))) for name, of in plants.items())


def takers(desk: Desk) -> frozenset[MemberId] | None:
    """Give who said to do what is still open tonight; None where somebody else may have to do something."""
    plants = [desk.plant(line.plant) for line in desk.evening.open(desk.now) if line.plant is not None]
    by = {plant.taken_by(desk.evening.on) for plant in plants}
    return None if None in by else frozenset(one for one in by if one is not None)


def _question(evening: Tonight, desk: Desk) -> tuple[Doubt, str, float | None] | None:
    asked = evening.question
    if asked is None or evening.is_past:
        return None
    if asked.place is not None:
        place = desk.household.places[asked.place]
        last = place.readings[max(place.readings)] if asked.about is Doubt.USUAL_WARMTH else None
        return asked.about, place.name, last
    if asked.plant is None or asked.about is Doubt.EATING:
        return asked.about, desk.product_name(asked.product) or "", None
    name = desk.plant(asked.plant).name
    return asked.about, name, None


def _answers(evening: Tonight, desk: Desk) -> tuple[Choice, ...]:
    """Give the buttons of the evening's question; what has too many answers for two rows is typed."""
    asked = evening.question
    if asked is None or evening.is_past:
        return ()
    if asked.about is Doubt.USUAL_WARMTH and asked.place is not None:
        readings = desk.household.places[asked.place].readings
        return ask_what_is_usual(asked.place, readings[max(readings)]).choices
    if asked.plant is None:
        return ()
    match asked.about:
        case Doubt.APART:
            return ask_apart((asked.plant,)).choices
        case Doubt.RELEASE:
            name = desk.plant(asked.plant).name
            return (Choice(ButtonText.PUT_BACK, (ReleasePlant(plants=(asked.plant,)),), name),)
        case Doubt.EATING if asked.product is not None:
            return ask_of_eating(desk.household.products[asked.product]).choices
        case Doubt.WHICH_PEST:
            return (Choice(ButtonText.FIND_OUT, (Identify(plants=(asked.plant,)),)),)
        case _:
            return ()


def _progress(treated: tuple[PlantId, ...], desk: Desk) -> tuple[tuple[str, Progress], ...]:
    """Give how far treated plants are, each by the case that takes longest."""
    states = [(plant, desk.agenda.progress.get(plant, ())) for plant in treated]
    return tuple(
        # a forecast is dear: of a single case it is not asked for
        (desk.plant(plant).name, max(of, key=lambda one: one.release.more_rounds or 0) if of[1:] else of[0])
        for plant, of in states
        if of
    )


def _choices(
    evening: Tonight, lines: Sequence[Line], looks: Sequence[Line], desk: Desk
) -> tuple[Choice, ...]:
    """Give the buttons of what is left, each for its own lines: what saves typing most."""
    parts = [(line.plant, part) for line in lines for part in line.left if line.plant]
    tonight = [(plant, part) for plant, part in parts if part.from_at is None]
    tomorrow = evening.on + timedelta(days=1)
    # what is said to be too late is not "all", and may have been sprayed before: it has a button of its own
    deeds = (
        (
            ButtonText.ALL_DONE,
            evening.on,
            [one for one in tonight if not one[1].is_over and not _is_out(one[1])],
        ),
        (
            ButtonText.SPRAYED,
            evening.on,
            [one for one in tonight if one[1].is_over and one[1].method is Method.SPRAY],
        ),
        (ButtonText.CLEANED_OUT, evening.on, [one for one in tonight if _is_out(one[1])]),
        (ButtonText.MORNING_DONE, tomorrow, [one for one in parts if one[1].from_at is not None]),
    )
    choices = [Choice(text, (_as_named(told, on),)) for text, on, told in deeds if told]
    lifted = tuple(dict.fromkeys(line.plant for line in looks if line.plant and _is_of_roots(line, desk)))
    if leaves := tuple(plant for plant in _looked_at(looks) if plant not in lifted):
        plain = LogCheck(plants=leaves, on=evening.on)
        levels = {line.level for line in looks if line.level is not Level.ROOTS}
        ways = [(ButtonText.NONE_SEEN, ButtonText.ALL_DONE_NONE_SEEN, plain)]
        if len(levels) == 1 and (level := levels.pop()) in ALL_DONE_BY:
            is_plain_told = any(one.level in PLAINLY for each in desk.household.living for one in each.checks)
            by_way = (BY_WAY[level], ALL_DONE_BY[level], replace(plain, level=level))
            ways = [by_way, *(ways if is_plain_told else [])]
        if choices and choices[0].text is ButtonText.ALL_DONE:
            done = choices[0].commands
            choices = [*(Choice(both, (*done, look)) for _, both, look in ways), *choices]
        choices += [Choice(alone, (look,)) for alone, _, look in ways]
    if lifted:
        at_roots = LogCheck(plants=lifted, level=Level.ROOTS, on=evening.on)
        choices.append(Choice(ButtonText.NONE_AT_ROOTS, (at_roots,)))
    return tuple(choices)


def _looked_at(looks: Sequence[Line]) -> tuple[PlantId, ...]:
    return tuple(dict.fromkeys(line.plant for line in looks if line.plant))


def _later(lines: Sequence[Line], looks: Sequence[Line], nudge: Nudge) -> tuple[Choice, ...]:
    """Offer to put off all that is left, and to look at one plant after the other."""
    looked = _looked_at(looks)
    everything = tuple(dict.fromkeys((*(line.plant for line in lines if line.plant), *looked)))
    later = ButtonText.NOT_NOW if nudge.is_morning else ButtonText.NOT_TONIGHT
    put_off = Postpone(plants=everything, on=nudge.on + timedelta(days=1))
    return (
        *([Choice(later, (put_off,))] if everything else []),
        *([Choice(ButtonText.ONE_BY_ONE, (BeginWalk(plants=looked),))] if len(looked) >= WALKED_FROM else []),
    )


def _spent_before(lines: Sequence[Line], desk: Desk) -> tuple[Spent, ...]:
    """Give products that may not be used again, where tonight something else takes their place."""
    found = []
    for plant in dict.fromkeys(line.plant for line in lines if line.plant):
        used = [one for one in desk.plant(plant).treatments if one.product is not None]
        found += no_more(desk, plant, used[-1].product) if used else []
    return tuple(found)


def _is_out(part: Part) -> bool:
    return part.method is Method.CLEAN_OUT


def _as_named(parts: Sequence[tuple[PlantId, Part]], on: date) -> LogRound:
    """Mean just what the message names, whatever becomes of the plan until the button is pressed."""
    told = tuple((plant, part.method, part.product) for plant, part in parts if part.method is not None)
    return LogRound(plants=tuple(dict.fromkeys(plant for plant, _ in parts)), on=on, parts=told)


def _care(desk: Desk, tasks: Sequence[NudgedTask]) -> tuple[tuple[Care, tuple[str, ...]], ...]:
    """Give what to mind tonight, each with its plants."""
    minded: dict[Care, list[str]] = {}
    for task in tasks:
        plant = desk.plant(task.plant)
        product = None if task.product is None else desk.household.products[task.product]
        for care in care_of(desk.knowledge, plant, task.method, product, desk.today):
            minded.setdefault(care, []).append(plant.name)
    return tuple((care, tuple(dict.fromkeys(names))) for care, names in minded.items())


def _is_of_roots(line: Line, desk: Desk) -> bool:
    """Whether only the roots show what is looked for."""
    return _way(line, desk)[0] is Level.ROOTS


def _way(line: Line, desk: Desk) -> tuple[Level, Level | None]:
    """Give how a plant is looked at: leaves above, where the roots are looked at besides."""
    if line.pest is None:
        return Level.PLAIN, None
    looking = desk.knowledge.pests[line.pest].looking
    return looking.ask, looking.also
