"""What was offered or asked and has no answer: named once, for its day, and never written by itself."""

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from itertools import takewhile

from bot.actions.action import Asking, ButtonText, Choice, Command, Expecting, Outcome, performs
from bot.actions.add_plants import AddPlants
from bot.actions.ask import Ask
from bot.actions.begin_talk import BeginTalk
from bot.actions.courtesy import Greet, Help, Thanks
from bot.actions.decline import Decline
from bot.actions.describe_pest import DescribePest
from bot.actions.desk import Desk
from bot.actions.explain_term import AskTerm
from bot.actions.give_first_aid import GiveFirstAid
from bot.actions.identify import Identify
from bot.actions.incomplete import Incomplete
from bot.actions.isolate import Isolate
from bot.actions.log_check import LogCheck
from bot.actions.log_find import LogFind
from bot.actions.log_round import LogRound, as_asked
from bot.actions.log_sign import LogSign
from bot.actions.lose_plant import LosePlant
from bot.actions.mix_batch import Mix
from bot.actions.move_plant import MovePlant
from bot.actions.not_understood import NotUnderstood
from bot.actions.ports import Question
from bot.actions.postpone import Postpone
from bot.actions.read_anew import ReadAnew
from bot.actions.refuse_plan import ConsiderPlan
from bot.actions.set_place import SetPlace
from bot.actions.set_town import SetTown
from bot.actions.show_more import More
from bot.actions.stock_product import StockProduct
from bot.actions.tell_how import AskHow
from bot.actions.tell_poison import AskPoison
from bot.actions.tell_privacy import TellPrivacy
from bot.actions.undo import Undo
from bot.domain.identity import PlantId
from bot.domain.journal import (
    CheckedClean,
    Found,
    LostNow,
    Payload,
    ProductSet,
    SignSeen,
    Treated,
    evening_of,
)
from bot.domain.value import replace


class ShowUnwritten(Command):
    """What was offered before an evening's message, each with its own button."""

    choices: tuple[Choice, ...] = ()


ANSWERED_WITHIN = timedelta(days=7)
"""So long a question of an earlier day is still answered by its buttons, for that day. Judgement."""
NAMED_WITHIN = timedelta(days=1)
"""So long what was offered is named as not written. Judgement."""
ASKING = (
    *(Ask, AskHow, AskPoison, AskTerm, ConsiderPlan, DescribePest, Help, Identify, Mix, TellPrivacy),
    *(Thanks, Greet, NotUnderstood, ReadAnew, Incomplete, More, BeginTalk, GiveFirstAid, ShowUnwritten),
)
"""Commands that ask or answer, and write nothing of plants."""
_IDLE = (*ASKING, Decline, Undo)
_IDLE_BUT_YES = (*_IDLE, Isolate, MovePlant)
_WRITTEN: dict[type[Command], tuple[type[Payload], ...]] = {
    LogRound: (Treated,),
    LogFind: (Found, CheckedClean, SignSeen),
    LogCheck: (Found, CheckedClean, SignSeen),
    LogSign: (Found, CheckedClean, SignSeen),
    LosePlant: (LostNow, Found, CheckedClean, Treated),
    StockProduct: (ProductSet,),
}


class LeftOpen(Outcome):
    """What was asked before and has no answer: nothing of it is written."""

    seen_on: tuple[str, ...] = ()
    """Plants with something seen, of which it is not known how many."""
    is_pest_asked: bool = False
    """Whether it is not known what, either."""
    offered: tuple[str, ...] = ()
    """What would be written, as one would tell it."""
    of: tuple[str, ...] = ()
    """The plants that is about."""


@performs
def show_unwritten(command: ShowUnwritten) -> LeftOpen:
    return LeftOpen(offered=tuple(one.of for one in command.choices), offers=command.choices)


def left_open(desk: Desk, chat: int) -> tuple[Choice, ...]:
    """Give the answers that would write something, of the question of a chat that nobody answered."""
    question = desk.store.question(desk.member.household, chat)
    return () if question is None else _writing(question)


def _writing(question: Question) -> tuple[Choice, ...]:
    if question.expecting is not Expecting.CHOICE:
        return ()
    return tuple(one for one in question.choices if one.text is not ButtonText.PASSED_BY and _writes(one))


def _answers(question: Question) -> list[Choice]:
    """Give the answers by which something would be written, and not only put otherwise or left."""
    return [
        one for one in question.choices if not all(isinstance(each, _IDLE_BUT_YES) for each in one.commands)
    ]


def _writes(choice: Choice) -> bool:
    """Whether a choice writes what somebody told; where a plant stands has a weekly question of its own."""
    if choice.text in {ButtonText.DISCARDED, ButtonText.ANOTHER}:
        return choice.text is ButtonText.ANOTHER  # what is advised was told by nobody
    idle = _IDLE if choice.text is ButtonText.YES else _IDLE_BUT_YES
    return not any(isinstance(one, idle) for one in choice.commands)


def offer_of(question: Question | None, desk: Desk, asking: Asking | None = None) -> Choice | None:
    """Give what a question offers, where nobody took it nor told it since, and it is not put anew."""
    fresh = () if question is None else _writing(question)
    if question is None or not fresh or (len(_answers(question)) > 1 and fresh[0].text is not ButtonText.YES):
        return None  # of several answers nobody gave one
    return next(iter(_of_their_day(fresh[:1], question, desk, asking)), None)


def offers_left(question: Question | None, desk: Desk, asking: Asking | None = None) -> tuple[Choice, ...]:
    """
    Give that, and what it passed by itself; under an evening's message it was named, and lapses.

    But that a plant is gone: it would be asked for, and written as treated, for good.
    """
    if question is None:
        return ()
    if question.expecting is Expecting.LINES:
        inside = (inner for one in question.choices for each in one.commands for inner in _shown_by(each))
        told = [one for one in question.choices if one.text in {ButtonText.WRITE_IT, ButtonText.PASSED_BY}]
        lost = [one for one in (*told, *inside) if any(isinstance(each, LosePlant) for each in one.commands)]
        return _of_their_day(lost, question, desk, asking)
    passed = [one for one in question.choices if one.text is ButtonText.PASSED_BY]
    offer = offer_of(question, desk, asking)
    return (*_of_their_day(passed, question, desk, asking), *([] if offer is None else [offer]))


def _shown_by(command: Command) -> tuple[Choice, ...]:
    return command.choices if isinstance(command, ShowUnwritten) else ()


def _of_their_day(
    choices: Iterable[Choice], question: Question, desk: Desk, asking: Asking | None
) -> tuple[Choice, ...]:
    asked_on = evening_of(question.asked_at, desk.household.zone)
    anew = [] if asking is None else [each for one in asking.choices for each in one.commands]
    first = asking.choices[0].commands if asking is not None and asking.choices else ()
    left = (one for one in choices if not (first and all(each in one.commands for each in first)))
    offers = (Choice(ButtonText.PASSED_BY, for_its_day(one, asked_on, desk), one.of) for one in left)
    return tuple(
        one
        for one in offers
        if one.commands
        and desk.today - asked_on <= NAMED_WITHIN
        and not any(_is_said(each, question, desk) for each in one.commands)
        and not (any if _tells_of_a_home(one) else all)(_is_asked_anew(each, anew) for each in one.commands)
    )


def _tells_of_a_home(choice: Choice) -> bool:
    """Whether it is a home as told so far: asked anew it is so as a whole, and what is missing was wrong."""
    return all(isinstance(one, AddPlants | SetPlace | SetTown) for one in choice.commands)


def _is_asked_anew(command: Command, asked: Sequence[Command]) -> bool:
    about = _about(command)
    kinds = _WRITTEN.get(type(command))
    alike = (
        _about(one)
        for one in asked
        if type(one) is type(command) or (kinds is not None and _WRITTEN.get(type(one)) == kinds)
    )
    return any(about & other or not (about or other) for other in alike)


def _about(command: Command) -> set[object]:
    if isinstance(command, AddPlants):
        return {one.name.casefold() for one in command.plants}
    return set(getattr(command, "plants", ()))


def for_its_day(choice: Choice, asked_on: date, desk: Desk) -> tuple[Command, ...]:
    """Give what a choice means for the day on which it was asked; nothing where it can mean that no more."""
    dated = tuple(as_of(one, asked_on, desk.today) for one in choice.commands)
    is_meant = all(is_in_time(one, asked_on, desk.today) and _is_of_now(one, desk) for one in dated)
    return dated if is_meant else ()


def as_of(command: Command, asked_on: date, today: date) -> Command:
    """Mean the day on which it was asked: undated, an earlier button would write for today."""
    is_of_these_days = timedelta() < today - asked_on <= ANSWERED_WITHIN
    match command:
        case LogFind(on=None) | LogCheck(on=None) | LogSign(on=None) if is_of_these_days:
            return replace(command, on=asked_on)
        case LogRound(on=None, at=None) if is_of_these_days and command.method is not None:
            return replace(command, on=asked_on)
        case _:
            return command


def is_in_time(command: Command, asked_on: date, today: date) -> bool:
    """Whether an earlier button can still mean what it was offered for."""
    match command:
        case Postpone(on=on) if on is not None:
            return on > today or (on == today == asked_on)
        case LogRound(on=None, at=None) | LogFind(on=None) | LogCheck(on=None) | LogSign(on=None):
            return asked_on == today
        case _:
            return True


def _is_of_now(command: Command, desk: Desk) -> bool:
    """Whether everything an earlier button names is still there."""
    household = desk.household
    plants = (*getattr(command, "plants", ()), *filter(None, [getattr(command, "plant", None)]))
    if any(not isinstance(plant, int) for plant in plants):
        return True  # a list of new plants
    living = {plant.id for plant in household.living}
    place = getattr(command, "place", None) or getattr(command, "place_id", None)
    return set(plants) <= living and (place is None or place in household.places)


def pinned(choice: Choice, desk: Desk) -> Choice:
    """Give an offer of what is "done" the evening and the treatments it is offered for."""
    told = (as_asked(one, desk) if isinstance(one, LogRound) else one for one in choice.commands)
    return replace(
        choice, commands=tuple(dict.fromkeys(told))
    )  # "today" may be told of one, and meant of both


def _is_said(command: Command, question: Question, desk: Desk) -> bool:
    """Whether something of the kind was told of the same since: in words of one's own, mostly."""
    if isinstance(command, AddPlants):
        living = {plant.name.casefold() for plant in desk.household.living}
        return any(one.name.casefold() in living for one in command.plants)
    kinds, plants = _WRITTEN.get(type(command), ()), getattr(command, "plants", ())
    since = takewhile(lambda one: one.recorded_at > question.asked_at, reversed(desk.entries))
    return any(isinstance(one.payload, kinds) and (one.plant in plants or not plants) for one in since)


def finds_in(choices: Iterable[Choice]) -> list[LogFind]:
    """Give the finds that choices would write, and those behind "another"."""
    told = [each for one in choices for each in one.commands]
    behind = (finds_in(one.choices) for one in told if isinstance(one, Incomplete))
    return [*(one for one in told if isinstance(one, LogFind)), *(each for more in behind for each in more)]


def find_asked(choices: Sequence[Choice]) -> tuple[tuple[PlantId, ...], bool]:
    """Give the plants of a find that waits only for its number, or for its pest, and whether for its pest."""
    finds = finds_in(choices)
    is_asked = len(finds) > 1 and len({(one.plants, one.on) for one in finds}) == 1
    is_asked = is_asked and all(finds_in([one]) for one in choices)
    plants = tuple(each for one in (finds[0], *finds[0].also) for each in one.plants) if is_asked else ()
    return plants, len({one.pest for one in finds}) > 1
