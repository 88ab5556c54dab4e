"""One command to one or more outcomes."""

from bot.actions.add_plants import AddPlants, NewPlant, add_plants
from bot.actions.answer_question import answer
from bot.actions.ask import Ask, Topic
from bot.actions.begin_talk import BeginTalk, start
from bot.actions.button_texts import ButtonText
from bot.actions.choice import Choice, Command
from bot.actions.correct import Correct, correct
from bot.actions.courtesy import Greet, Greeted, Help, Helped, Thanks, Welcomed
from bot.actions.decline import Decline, Declined
from bot.actions.desk import Desk
from bot.actions.export import Export, export
from bot.actions.forget import Forget, forget
from bot.actions.give_first_aid import Exposed, GiveFirstAid
from bot.actions.hold import Hold, Paused, hold
from bot.actions.identify import Identify, identify
from bot.actions.incomplete import Asks, Incomplete, Missing
from bot.actions.isolate import Isolate, isolate
from bot.actions.keep_photo import KeepPhoto, RefusePhoto, TooManyPhotos, keep_photo
from bot.actions.log_check import LogCheck, log_check
from bot.actions.log_find import LogFind, log_find
from bot.actions.log_round import LogRound, log_round, nothing_due
from bot.actions.log_sign import LogSign, log_sign
from bot.actions.log_use import LogUse, log_use
from bot.actions.lose_plant import LosePlant, lose
from bot.actions.mix_batch import Mix, mix_batch
from bot.actions.move_plant import MovePlant, move
from bot.actions.name_pest import candidates, settle_pest
from bot.actions.not_understood import NotUnderstood, Unclear, is_new_plant
from bot.actions.outcome import Outcome
from bot.actions.postpone import Postpone, postpone
from bot.actions.read_temperature import ReadTemperature, read_temperature
from bot.actions.release_plant import NotYet, ReleasePlant, release
from bot.actions.remove_place import RemovePlace, remove_place
from bot.actions.rename import Rename, rename
from bot.actions.set_animals import SetAnimals, set_animals
from bot.actions.set_hours import SetHours, set_hours
from bot.actions.set_place import SetPlace, set_place
from bot.actions.set_pot import SetPot, set_pot
from bot.actions.set_routine import SetRoutine, set_routine
from bot.actions.set_strict import SetStrict, set_strict
from bot.actions.set_town import SetCoordinates, SetTown, set_coordinates, set_town
from bot.actions.set_traits import SetTraits, set_traits
from bot.actions.set_units import SetUnits, set_units
from bot.actions.share import HandOver, Invite, Leave, RemoveMember, hand_over, invite, leave, remove_member
from bot.actions.show_more import More, MoreText
from bot.actions.situation import Expecting
from bot.actions.skip_question import SkipQuestion, skip_question
from bot.actions.stock_product import StockProduct, stock
from bot.actions.undo import Undo, undo
from bot.actions.walk_through import (
    BeginWalk,
    EndWalk,
    GoOn,
    NoWalk,
    PassPlant,
    begin_walk,
    end_walk,
    go_on,
    pass_plant,
)
from bot.actions.work_through import BeginWork, EndWork, TickWork, begin_work, end_work, tick_work


def perform(command: Command, desk: Desk) -> list[Outcome]:
    """Do one command at the desk; what somebody expects an evening for says when evenings rest."""
    outcomes = _done(command, desk)
    household = desk.household
    if _expects_an_evening(command) and household.is_held(desk.today):
        outcomes.append(Paused(household.held_until))
    return outcomes


def _expects_an_evening(command: Command) -> bool:
    return isinstance(command, BeginTalk | LogFind) or (
        isinstance(command, Ask) and command.topic is Topic.DUE
    )


def _done(command: Command, desk: Desk) -> list[Outcome]:  # noqa: C901, PLR0912, PLR0915 - one arm a command
    match command:
        case BeginTalk():
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
        case GiveFirstAid():
            return [Exposed()]
        case NotUnderstood(reason="nothing open"):
            return [nothing_due(desk)]
        case NotUnderstood(text=text, reason="") if is_new_plant(text, desk):
            add = Choice(ButtonText.ADD, (AddPlants((NewPlant(name=text),), is_sure=True),), text)
            return [_ask(Incomplete(missing=Missing.ADD, text=text, choices=(add,)), desk)]
        case NotUnderstood(text=text, reason=reason):
            return [Unclear(text, reason, tuple(plant.name for plant in desk.household.living))]
        case _:
            raise TypeError(type(command).__name__)


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
