"""Questions and their buttons: opened, answered, and pressed when they are old."""

import re
from collections.abc import Iterable, Sequence
from datetime import date

from bot.actions.action import Asking, ButtonText, Choice, Command, Expecting, Outcome
from bot.actions.correct import Correct
from bot.actions.decline import Decline
from bot.actions.desk import Desk
from bot.actions.isolate import Isolate
from bot.actions.left_open import ASKING, for_its_day, offers_left, pinned
from bot.actions.move_plant import MovePlant
from bot.actions.ports import Question
from bot.actions.set_hours import SetHours
from bot.actions.set_place import SetPlace
from bot.actions.set_town import SetCoordinates
from bot.actions.stock_product import StockProduct
from bot.domain.journal import evening_of
from bot.domain.value import replace

GOING_ON = (Expecting.WORK, Expecting.WALK)
"""What is under way until it says itself that it is over."""
KEPT = (*GOING_ON, Expecting.LINES)
"""Questions whose other buttons hold after one is pressed."""
REPLACING = (SetPlace, SetCoordinates, SetHours, Isolate, MovePlant, StockProduct, Correct)
"""Commands that take the place of what the same question wrote before."""


class ButtonExpired(Outcome):
    """An unknown, foreign or outdated button."""


class AnsweredAlready(Outcome):
    """The question under that button has its answer since a day; another may take its place."""

    answer: Choice
    on: date
    other: Choice | None = None


class StillAsked(Outcome):
    """What was offered beside a question was taken; the question itself waits as before."""

    of: str


def still_asked(outcomes: Iterable[Outcome], desk: Desk) -> tuple[StillAsked, ...]:
    """Put the open question again, where nothing else is asked now."""
    question = desk.question
    if question is None or question.expecting in KEPT or any(one.asking for one in outcomes):
        return ()
    choices = tuple(one for one in question.choices if one.text is not ButtonText.PASSED_BY)
    of = next((one.of for one in choices if one.text is ButtonText.YES), "")
    return (StillAsked(of, asking=Asking(choices, question.expecting)),) if choices else ()


def open_question(outcomes: Sequence[Outcome], offers: tuple[Choice, ...], desk: Desk) -> Question | None:
    """
    Open the question that an answer ends with, as its outcomes carry it; mere offers close no other.

    What is under way is not over because something is asked beside it.
    """
    store, household, chat, now = desk.store, desk.member.household, desk.member.chat, desk.now
    asking = next((one.asking for one in reversed(outcomes) if one.asking is not None), None)
    before = desk.question
    if asking is not None:
        shown, expecting = tuple(pinned(one, desk) for one in (*asking.choices, *offers)), asking.expecting
        kept = offers_left(before, desk, asking)
        kept = tuple(one for one in kept if one.commands not in {each.commands for each in shown})
        if before is not None and before.expecting in GOING_ON and expecting is Expecting.CHOICE:
            expecting = before.expecting
            kept = tuple(one for one in before.choices if one not in shown)
        return replace(store.ask(household, chat, expecting, (*shown, *kept), now), choices=shown)
    if not offers:
        return None
    said = () if before is None else [each for one in before.choices for each in one.commands]
    if said and all(isinstance(one, ASKING) for one in said):
        return store.ask(household, chat, Expecting.CHOICE, offers, now)  # nothing waits for an answer
    return store.offer(household, chat, offers, now)


def settle_question(commands: "tuple[Command, ...]", desk: Desk) -> tuple[Question, Choice] | None:
    """
    Close the open question where this answers it, pressed or typed; give it with that answer.

    Words of one's own (another number, day or way of the same) are no choice of it: it counts as unanswered.
    """
    question = desk.question
    if question is None or question.expecting in KEPT:
        return None
    if all(isinstance(one, ASKING) for one in commands):
        if any(one.text is ButtonText.LEAVE_ONE_OUT and one.commands == commands for one in question.choices):
            desk.close_question()  # what is left of it is asked anew
        return None
    for number, choice in enumerate(question.choices):
        if choice.commands == commands and choice.text is ButtonText.PASSED_BY:
            others = tuple(one for one in question.choices if one != choice)
            desk.store.ask(question.household, question.chat, question.expecting, others, question.asked_at)
            return question, choice
        if choice.commands and commands[: len(choice.commands)] == choice.commands:  # "yes. what's next?"
            desk.store.answer_question(question, number, desk.now)
            return replace(question, answered=number), choice
    for choice in question.choices:
        if _is_of_the_same(commands, choice.commands):
            desk.close_question()
            return question, choice
    return None


def is_asked_anew(question: Question, outcomes: Iterable[Outcome]) -> bool:
    """Whether a question is put again, by the same buttons: what was told of the same is no answer to it."""
    before = {choice.text for choice in question.choices}
    asked = [one.asking.choices for one in outcomes if one.asking is not None and one.asking.choices]
    return any(before.issuperset(choice.text for choice in choices) for choices in asked)


def _is_of_the_same(some: "tuple[Command, ...]", others: "tuple[Command, ...]") -> bool:
    """Whether commands tell another number, day or way of just what others are about."""
    return [*map(type, some)] == [*map(type, others)] and [*map(_about, some)] == [*map(_about, others)]


def _about(command: Command) -> tuple[object, ...]:
    return tuple(getattr(command, name, None) for name in ("plants", "plant", "place", "name", "ingredient"))


def meant_by_press(data: str, desk: Desk) -> "tuple[Command, ...] | ButtonExpired | AnsweredAlready":
    """Find what a button stands for; it must be of this household and this chat."""
    number, place = numbers_of(data)
    question = desk.store.question_by_id(number)
    if (
        question is None
        or question.household != desk.member.household
        or question.chat != desk.member.chat
        or place >= len(question.choices)
    ):
        return ButtonExpired()
    if question.answered is not None and question.expecting not in KEPT:
        return _answered(question, question.choices[place], desk)
    asked_on = evening_of(question.asked_at, desk.household.zone)
    return for_its_day(question.choices[place], asked_on, desk) or ButtonExpired()


def _answered(question: Question, pressed: Choice, desk: Desk) -> "tuple[Command, ...] | AnsweredAlready":
    """Say what a question was answered with and when; offer the other answer where it may take its place."""
    assert question.answered is not None
    answer = question.choices[question.answered]
    at = question.answered_at or question.asked_at
    on = evening_of(at, desk.household.zone)
    wrote_nothing = all(isinstance(one, Decline) for one in answer.commands)
    if (
        wrote_nothing
        or not is_alike(pressed, answer)
        or all(isinstance(one, ASKING) for one in pressed.commands)
    ):
        return pressed.commands
    if pressed == answer or not all(isinstance(one, REPLACING) for one in pressed.commands):
        return AnsweredAlready(answer, on)
    change = Choice(ButtonText.CHANGE_IT, pressed.commands)
    return AnsweredAlready(
        answer, on, pressed, asking=Asking((change, Choice(ButtonText.KEEP, (Decline(),))))
    )


def is_alike(one: Choice, other: Choice) -> bool:
    """Whether two choices answer the same, and not two things asked in one message."""
    return [type(command) for command in one.commands] == [type(command) for command in other.commands]


def numbers_of(data: str) -> tuple[int, int]:
    """Read a button's question and place, `q12.0`; question 0, which is never asked, for anything else."""
    found = re.fullmatch(r"q(\d{1,15})\.(\d{1,4})", data, re.ASCII)
    return (int(found[1]), int(found[2])) if found else (0, 0)
