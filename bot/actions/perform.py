"""One command to one or more outcomes."""

from typing import assert_never

from bot.actions.answer_question import answer
from bot.actions.button_texts import ButtonText
from bot.actions.commands import (
    AddPlants,
    Ask,
    BeginWalk,
    BeginWork,
    Choice,
    Command,
    Correct,
    Decline,
    EndWalk,
    EndWork,
    Export,
    Exposure,
    Forget,
    GoOn,
    Greet,
    HandOver,
    Help,
    Hold,
    Identify,
    Incomplete,
    Invite,
    Isolate,
    KeepPhoto,
    Leave,
    LogCheck,
    LogFind,
    LogRound,
    LogSign,
    LogUse,
    LosePlant,
    Missing,
    Mix,
    More,
    MovePlant,
    NewPlant,
    NotUnderstood,
    PassPlant,
    Postpone,
    ReadTemperature,
    RefusePhoto,
    ReleasePlant,
    RemoveMember,
    RemovePlace,
    Rename,
    SetAnimals,
    SetCoordinates,
    SetHours,
    SetPlace,
    SetPot,
    SetRoutine,
    SetStrict,
    SetTown,
    SetTraits,
    SetUnits,
    SkipQuestion,
    Start,
    StockProduct,
    Thanks,
    TickWork,
    Topic,
    Undo,
)
from bot.actions.desk import Desk
from bot.actions.export import export
from bot.actions.identify import identify
from bot.actions.keep_notes import (
    hold,
    read_temperature,
    set_animals,
    set_routine,
    set_strict,
    set_traits,
    stock,
)
from bot.actions.keep_photo import keep_photo
from bot.actions.log_find import log_check, log_find, log_sign
from bot.actions.log_round import log_round, nothing_due
from bot.actions.mix_batch import log_use, mix_batch
from bot.actions.name_pest import candidates, settle_pest
from bot.actions.outcomes import (
    Asks,
    Declined,
    Exposed,
    Greeted,
    Helped,
    MoreText,
    NotYet,
    NoWalk,
    Outcome,
    Paused,
    TooManyPhotos,
    Unclear,
    Welcomed,
)
from bot.actions.postpone import postpone
from bot.actions.rearrange import remove_place, rename, set_pot
from bot.actions.set_apart import isolate, lose, move, release
from bot.actions.set_up import (
    add_plants,
    set_coordinates,
    set_hours,
    set_place,
    set_town,
    set_units,
    skip_question,
    start,
)
from bot.actions.share import forget, hand_over, invite, leave, remove_member
from bot.actions.situation import Expecting
from bot.actions.take_back import correct, undo
from bot.actions.walk_through import begin_walk, end_walk, go_on, pass_plant
from bot.actions.work_through import begin_work, end_work, tick_work

LONGEST_KIND = 3
"""Words of a plant's name that is taken for one. Judgement."""


def perform(command: Command, desk: Desk) -> list[Outcome]:
    """Do one command at the desk; what somebody expects an evening for says when evenings rest."""
    outcomes = _done(command, desk)
    household = desk.household
    if _expects_an_evening(command) and household.is_held(desk.today):
        outcomes.append(Paused(household.held_until))
    return outcomes


def _expects_an_evening(command: Command) -> bool:
    return isinstance(command, Start | LogFind) or (isinstance(command, Ask) and command.topic is Topic.DUE)


def _done(command: Command, desk: Desk) -> list[Outcome]:  # noqa: C901, PLR0912, PLR0915 - one arm a command
    match command:
        case Start():
            return [start(command, desk)]
        case SetTown():
            return [set_town(command, desk)]
        case SetCoordinates():
            return [set_coordinates(command, desk)]
        case SetHours():
            return [set_hours(command, desk)]
        case SetUnits():
            return [set_units(command, desk)]
        case SetPlace():
            return [set_place(command, desk)]
        case AddPlants():
            added = add_plants(command, desk)
            return [_ask(added, desk) if isinstance(added, Incomplete) else added]
        case LogRound():
            return [log_round(command, desk)]
        case Postpone():
            return [postpone(command, desk)]
        case LogFind():
            return _find(command, desk)
        case LogSign():
            return [log_sign(command, desk)]
        case LogCheck():
            return [log_check(command, desk)]
        case Correct():
            return _correct(command, desk)
        case Undo():
            return [undo(command, desk)]
        case Isolate():
            return [isolate(command, desk)]
        case MovePlant():
            return [move(command, desk)]
        case Rename():
            return [rename(command, desk)]
        case SetPot():
            return [set_pot(command, desk)]
        case RemovePlace():
            return [remove_place(command, desk)]
        case ReleasePlant():
            return _release(command, desk)
        case LosePlant():
            return [lose(command, desk)]
        case StockProduct():
            return [stock(command, desk)]
        case Identify():
            return [identify(command, desk)]
        case BeginWork() | TickWork() | EndWork():
            return [_work(command, desk)]
        case BeginWalk() | PassPlant() | GoOn() | EndWalk():
            return _walk(command, desk)
        case RefusePhoto(most=most):
            return [TooManyPhotos(most)]
        case KeepPhoto():
            kept = keep_photo(command, desk)
            return [_ask(kept, desk) if isinstance(kept, Incomplete) else kept]
        case SetStrict():
            return [set_strict(command, desk)]
        case Invite():
            return [invite(command, desk)]
        case Leave():
            return [leave(command, desk)]
        case RemoveMember():
            return [remove_member(command, desk)]
        case HandOver():
            return [hand_over(command, desk)]
        case Forget():
            return [forget(command, desk)]
        case Export():
            made = export(command, desk)
            return [_ask(made, desk) if isinstance(made, Incomplete) else made]
        case SetAnimals():
            return [set_animals(command, desk)]
        case SetTraits():
            return [set_traits(command, desk)]
        case ReadTemperature():
            return [read_temperature(command, desk)]
        case SetRoutine():
            return [set_routine(command, desk)]
        case Hold():
            return [hold(command, desk)]
        case Mix():
            return [
                _ask(one, desk) if isinstance(one, Incomplete) else one for one in mix_batch(command, desk)
            ]
        case LogUse():
            return [log_use(command, desk)]
        case Ask():
            return [answer(command, desk)]
        case Incomplete():
            return [_ask(command, desk)]
        case Greet(is_farewell=is_farewell):
            return [Greeted(is_farewell)]
        case Decline():
            desk.store.close_question(desk.member.household, desk.member.chat)
            return [Declined()]
        case SkipQuestion():
            return [skip_question(command, desk)]
        case More(text=text):
            return [MoreText(text)]
        case Thanks():
            return [Welcomed()]
        case Help():
            return [Helped()]
        case Exposure():
            return [Exposed()]
        case NotUnderstood(reason="nothing open"):
            return [nothing_due(desk)]
        case NotUnderstood(text=text, reason="") if _is_new_plant(text, desk):
            add = Choice(ButtonText.ADD, (AddPlants((NewPlant(name=text),), is_sure=True),), text)
            return [_ask(Incomplete(missing=Missing.ADD, text=text, choices=(add,)), desk)]
        case NotUnderstood(text=text, reason=reason):
            return [Unclear(text, reason, tuple(plant.name for plant in desk.household.living))]
        case _:
            assert_never(command)


def _work(command: BeginWork | TickWork | EndWork, desk: Desk) -> Outcome:
    match command:
        case BeginWork():
            return begin_work(command, desk)
        case TickWork():
            return tick_work(command, desk)
        case EndWork():
            return end_work(command, desk)


def _walk(command: BeginWalk | PassPlant | GoOn | EndWalk, desk: Desk) -> list[Outcome]:
    outcome: Outcome | None
    match command:
        case BeginWalk():
            outcome = begin_walk(command, desk)
        case PassPlant():
            outcome = pass_plant(command, desk)
        case GoOn():
            outcome = go_on(command, desk)
        case EndWalk():
            outcome = end_walk(command, desk)
    if outcome is not None:
        return [outcome]
    return [] if isinstance(command, GoOn) else [NoWalk()]


def _is_new_plant(text: str, desk: Desk) -> bool:
    """Whether what was not understood is just the name of a kind of plant."""
    return len(text.split()) <= LONGEST_KIND and desk.knowledge.kind_by_word.get(text.casefold()) is not None


def _find(command: LogFind, desk: Desk) -> list[Outcome]:
    settled = [(plant, settle_pest(command.pest, plant, desk)) for plant in command.plants]
    unsettled = [plant for plant, pest in settled if pest is None]
    if not unsettled:
        return [log_find(command, plant, pest, desk) for plant, pest in settled if pest is not None]
    goes_on = () if desk.household.walk is None else (GoOn(),)
    choices = tuple(
        Choice(
            ButtonText.NAMED,
            (
                LogFind(
                    plants=command.plants,
                    count=command.count,
                    grade=command.grade,
                    pest=pest,
                    where=command.where,
                    on=command.on,
                ),
                *goes_on,
            ),
            desk.knowledge.pests[pest].name,
        )
        for pest in candidates(command.pest, desk)
    )
    choices += (Choice(ButtonText.FIND_OUT, (Identify(plants=command.plants, find=command),)),)
    return [_ask(Incomplete(missing=Missing.WHICH_PEST, plants=command.plants, choices=choices), desk)]


def _correct(command: Correct, desk: Desk) -> list[Outcome]:
    if command.pest is None or command.plant is None:
        return [correct(command, desk)]
    keys = candidates(command.pest, desk)
    if len(keys) == 1:
        return [correct(Correct(plant=command.plant, pest=keys[0]), desk)]
    choices = tuple(
        Choice(ButtonText.NAMED, (Correct(plant=command.plant, pest=key),), desk.knowledge.pests[key].name)
        for key in keys
    )
    return [_ask(Incomplete(missing=Missing.WHICH_PEST, plants=(command.plant,), choices=choices), desk)]


def _release(command: ReleasePlant, desk: Desk) -> list[Outcome]:
    outcome = release(command, desk)
    if isinstance(outcome, NotYet):
        anyway = ReleasePlant(plants=command.plants, on=command.on, confirmed=True, asked_on=desk.today)
        desk.store.ask(
            desk.member.household,
            desk.member.chat,
            Expecting.CHOICE,
            (Choice(ButtonText.BACK_ANYWAY, (anyway,)), Choice(ButtonText.KEEP_APART, (Decline(),))),
            desk.now,
        )
    return [outcome]


def _ask(command: Incomplete, desk: Desk) -> Asks:
    if command.choices:
        desk.is_asking = True
        desk.store.ask(desk.member.household, desk.member.chat, Expecting.CHOICE, command.choices, desk.now)
    return Asks(command.missing, desk.names(command.plants), command.text, command.choices)
