"""The bot's messages: outcomes worded with their buttons, and what its earlier ones show from now on."""

from collections.abc import Iterator, Sequence
from datetime import datetime

from bot.actions.action import ButtonText, Choice, Expecting, Outcome
from bot.actions.choose_home import home_choice
from bot.actions.decline import Decline
from bot.actions.desk import Desk
from bot.actions.incoming import Incoming, Press
from bot.actions.keep_status import status_now
from bot.actions.left_open import ASKING
from bot.actions.log_check import CheckLogged
from bot.actions.ports import Question
from bot.actions.press_button import is_alike, open_question
from bot.actions.send_evening import what_is_left
from bot.actions.set_up import SetUpGoesOn
from bot.actions.show_more import More
from bot.actions.walk_through import WalkStep
from bot.domain.gathering import gathered
from bot.domain.value import replace
from bot.wording.answer import Answer, Button
from bot.wording.button_texts import button_text
from bot.wording.lines import AFTER, fitted
from bot.wording.manner import in_manner, most_lines
from bot.wording.nudge import say_answered, say_chosen
from bot.wording.sentences import FILES, PICTURES, attached, say
from bot.wording.setting_up import in_short
from bot.wording.voice import Voice

MAX_TEXT = 4096
LONG_TEXT = 2500
"""A longer answer is cut at a line, with "more". Judgement: two screens of a phone. [1]"""
CHOICES_A_ROW = 2
MOST_BUTTONS = 8
"""More under an evening's message wait behind "more". Judgement: four rows. [1]"""
Edit = tuple[int, int, Answer | None]
"""A chat, an earlier message there, and what it shows from now on; None only takes its buttons off."""


def answer_of(outcomes: Sequence[Outcome], desk: Desk) -> Answer:
    """Word outcomes as one message, and open the question they carry."""
    text, offers = words_of(outcomes, desk)
    asked = open_question(outcomes, offers, desk)
    answer = Answer(
        text=text,
        buttons=buttons_of(asked) if asked is not None else (),
        picture=attached(outcomes, voice_of(desk), PICTURES),
        document=attached(outcomes, voice_of(desk), FILES),
    )
    return in_manner(answer, outcomes)


def words_of(outcomes: Sequence[Outcome], desk: Desk) -> tuple[str, tuple[Choice, ...]]:
    """Word outcomes as long as a phone bears; the buttons beside them, and one for what waits."""
    text, waiting = _worded(outcomes, desk)
    offers = tuple(dict.fromkeys(offer for one in outcomes for offer in one.offers))
    more = (Choice(ButtonText.MORE, (More(waiting),)),) if waiting else ()
    return text, (*offers, *more)


def evening_words(outcomes: Sequence[Outcome], desk: Desk) -> tuple[str, tuple[Choice, ...]]:
    """Word an evening's message; its buttons, the most needed first, and [More] last of those in view."""
    text, waiting = _worded(outcomes, desk)
    asked = (choice for one in outcomes if one.asking is not None for choice in one.asking.choices)
    choices = (*asked, *(offer for one in reversed(outcomes) for offer in one.offers))
    shown = choices if len(choices) + bool(waiting) <= MOST_BUTTONS else choices[: MOST_BUTTONS - 1]
    hidden = choices[len(shown) :]
    more = (Choice(ButtonText.MORE, (More(waiting, hidden),)),) if waiting or hidden else ()
    return text, (*shown, *more, *hidden)


def _worded(outcomes: Sequence[Outcome], desk: Desk) -> tuple[str, str]:
    """Give what is shown, and what waits behind [More]."""
    voice = voice_of(desk)
    shorts = [in_short(one, voice) for one in outcomes]
    if (
        len(outcomes) >= MUCH_AT_ONCE
        and len(list(filter(None, shorts))) > 1
        and isinstance(outcomes[-1], SetUpGoesOn)
    ):
        said = dict.fromkeys(_at_once(outcomes, shorts, voice))
    else:
        said = dict.fromkeys(fitted(text, most_lines(one)) for one, text in _once(outcomes, voice))
    text, rest = split("\n\n".join(shown for shown, _ in said if shown))
    return cut(text), "\n\n".join(part for part in (rest, *(waits for _, waits in said)) if part)


def _once(outcomes: Sequence[Outcome], voice: Voice) -> Iterator[tuple[Outcome, str]]:
    """Say each outcome, without the lines another of its kind has just said: two products' care."""
    kind, before = None, ""
    for one in outcomes:
        text = say(one, voice)
        told = before.split("\n") if type(one) is kind else ()
        yield one, "\n".join(line for line in text.split("\n") if line == AFTER or line not in told)
        kind, before = type(one), text


def _at_once(outcomes: Sequence[Outcome], shorts: list[str], voice: Voice) -> Iterator[tuple[str, str]]:
    """Say a home told in one breath in few lines: what was written in one, all of it behind [More]."""
    whole = "".join(f"{say(one, voice)}\n" for one, short in zip(outcomes, shorts, strict=True) if short)
    lines = [line for line in whole.replace(AFTER, "\n").split("\n") if line]
    yield f"Written: {'. '.join(filter(None, shorts))}.", "\n".join(lines)
    for one, short in zip(outcomes, shorts, strict=True):
        if not short:
            yield fitted(say(one, voice), most_lines(one) if one is outcomes[-1] else LINES_AMONG_OTHERS)


MUCH_AT_ONCE = 4
"""So many answers to one message, the next question among them, are said in few lines. Judgement. [1]"""
LINES_AMONG_OTHERS = 4


def voice_of(desk: Desk) -> Voice:
    """Give the home's clock, measures and places to what is said."""
    household = desk.household
    return Voice(
        today=desk.today,
        zone=household.zone,
        units=household.units,
        clock_hours=household.clock_hours,
        standing=desk.once(_standing),
    )


def _standing(desk: Desk) -> tuple[tuple[str, tuple[str, ...]], ...]:
    places = desk.household.places
    standing = gathered((plant.place, plant.name) for plant in desk.household.living)
    return tuple(
        (places[place].name if place in places else "no place", tuple(names))
        for place, names in standing.items()
    )


def status_of(desk: Desk, next_at: datetime | None) -> Answer:
    """Give what a chat's pinned message says."""
    return Answer(text=say(status_now(desk, next_at), voice_of(desk)), is_silent=True)


def what_is_left_of_evening(desk: Desk, *, is_answered: bool) -> list[Edit]:
    """Leave the evening's messages with buttons for what is open still; the others read who answered."""
    nudge, left, here = desk.household.nudge, what_is_left(desk), desk.member.chat
    if nudge is None:
        return []
    edits: list[Edit] = []
    now, choices = evening_words([left], desk) if left is not None else ("", ())
    for chat, message, text in desk.store.nudged_messages(desk.member.household, nudge.on):
        told = text if left is None or not text else of_home(now, chat, desk)
        if chat != here and is_answered:
            told = f"{told}\n\n{say_answered(desk.speaker, voice_of(desk).clock(desk.now))}"
        buttons = evening_buttons(_offered(chat, choices, desk)) if choices else ()
        is_bare = not text or (chat == here and not buttons)
        edits.append((chat, message, None if is_bare else Answer(text=cut(told), buttons=buttons)))
    return edits


def of_home(text: str, chat: int, desk: Desk) -> str:
    """Name the home that an evening's message is of, in a chat that speaks to several."""
    if not (desk.store.is_in_several(chat) or (chat == desk.member.chat and desk.member.homes > 1)):
        return text
    here = next(one for one in desk.members if one.chat == chat)
    return f"{button_text(home_choice(here, '', desk.store))}:\n{text}"


def _offered(chat: int, choices: tuple[Choice, ...], desk: Desk) -> Question:
    """Keep the buttons of what is left as the evening's, unless something else is being asked there."""
    store, household = desk.store, desk.member.household
    asked = store.question(household, chat)
    if asked is None or asked.expecting is Expecting.LINES:
        before = () if asked is None else asked.choices
        unwritten = {ButtonText.WRITE_IT: ButtonText.PASSED_BY, ButtonText.PASSED_BY: ButtonText.PASSED_BY}
        unwritten[ButtonText.NOT_WRITTEN] = ButtonText.NOT_WRITTEN
        kept = (replace(one, text=unwritten[one.text]) for one in before if one.text in unwritten)
        return store.ask(household, chat, Expecting.LINES, (*choices, *kept), desk.now)
    return store.offer(household, chat, choices, desk.now)


def settled(asked: Question, answer: Choice, incoming: Incoming, desk: Desk) -> list[Edit]:
    """
    Show the answer under the message that asked, without its buttons; what only explains stays.

    Of a message that asked two things the buttons of the other stay too.
    """
    pressed = incoming.kind if isinstance(incoming.kind, Press) else None
    message, text = (None, "") if pressed is None else (pressed.message_id, pressed.text)
    if message is None:
        message, text = desk.store.question_message(asked.id) or (None, "")
    if message is None:
        return []
    kept = [
        one
        for one in asked.choices
        if all(isinstance(each, ASKING) for each in one.commands)
        or not (is_alike(one, answer) or all(isinstance(each, Decline) for each in one.commands))
    ]
    told = cut(f"{text}\n{say_chosen(incoming.text if asked.answered is None else button_text(answer))}")
    return [(asked.chat, message, Answer(text=told, buttons=buttons_of(asked, kept)) if text else None)]


def walked_message(incoming: Incoming, outcomes: Sequence[Outcome]) -> int | None:
    """Give the message that a tap of a check walk turns into the next plant: one message does it all."""
    is_next = bool(outcomes) and isinstance(outcomes[-1], WalkStep)
    is_short = all(isinstance(one, WalkStep | CheckLogged) for one in outcomes)
    if is_next and is_short and isinstance(incoming.kind, Press):
        return incoming.kind.message_id
    return None


def buttons_of(question: Question, only: Sequence[Choice] | None = None) -> tuple[tuple[Button, ...], ...]:
    """Give the buttons of a question, or of some of its answers, in rows."""
    buttons = [
        Button(button_text(choice), f"q{question.id}.{number}")
        for number, choice in enumerate(question.choices)
        if only is None or choice in only
    ]
    return tuple(
        tuple(buttons[first : first + CHOICES_A_ROW]) for first in range(0, len(buttons), CHOICES_A_ROW)
    )


def evening_buttons(question: Question) -> tuple[tuple[Button, ...], ...]:
    """Give the buttons of an evening's message that are in view."""
    return buttons_of(question, question.choices[:MOST_BUTTONS])


def split(text: str) -> tuple[str, str]:
    """Cut a long answer at a line's end: what is shown now, and what "more" shows."""
    if len(text) <= LONG_TEXT:
        return text, ""
    at = text.rfind("\n", 0, LONG_TEXT)
    return (text[:at], text[at + 1 :]) if at > 0 else (text, "")


def cut(text: str) -> str:
    """Keep a message within the platform's 4,096 characters."""
    return text if len(text) <= MAX_TEXT else text[: MAX_TEXT - 1] + "…"
