"""What could not be read, and what it may have been."""

from dataclasses import dataclass

from bot.actions.add_plants import AddPlants, NewPlant
from bot.actions.button_texts import ButtonText
from bot.actions.choice import Choice
from bot.actions.command import Command, performs
from bot.actions.decline import Decline
from bot.actions.desk import Desk
from bot.actions.incomplete import Asks, Missing
from bot.actions.log_round import NothingDue, nothing_due
from bot.actions.outcome import Asking, Outcome
from bot.actions.read_anew import SUBJECT_TEXTS, ReadAnew, Subject


@dataclass(frozen=True, slots=True)
class NotUnderstood(Command):
    """Writes nothing; carries what was not understood."""

    text: str
    reason: str = ""
    subjects: tuple[Subject, ...] = ()
    """What it may be about, the likeliest first."""


@dataclass(frozen=True, slots=True)
class NotThat(Decline):
    """None of the meanings offered: what was typed is still to be understood."""

    of: NotUnderstood = NotUnderstood("")


@dataclass(frozen=True, slots=True)
class Unclear(Outcome):
    """Not understood, nothing written."""

    text: str
    reason: str
    plants: tuple[str, ...]


LONGEST_KIND = 3
"""Words of a plant's name that is taken for one. Judgement."""


@performs
def answer_unread(command: NotUnderstood, desk: Desk) -> NothingDue | Asks | Unclear:
    """Say that nothing was open, offer a kind of plant as a plant, or say what was not understood."""
    text, reason = command.text, command.reason
    if reason == "nothing open":
        return nothing_due(desk)
    if not reason and _is_kind_of_plant(text, desk):
        add = Choice(ButtonText.ADD, (AddPlants((NewPlant(name=text),), is_sure=True),), text)
        return Asks(Missing.ADD, text=text, asking=Asking((add,)))
    return _unclear(command, desk)


@performs
def ask_about(command: NotThat, desk: Desk) -> Unclear:
    """Take the offers back and ask what it is about."""
    desk.close_question()
    return _unclear(command.of, desk)


def _unclear(command: NotUnderstood, desk: Desk) -> Unclear:
    """Say what was not understood, with what it may be about on buttons."""
    offers = tuple(Choice(SUBJECT_TEXTS[one], (ReadAnew(command.text, one),)) for one in command.subjects)
    return Unclear(
        command.text, command.reason, tuple(plant.name for plant in desk.household.living), offers=offers
    )


def _is_kind_of_plant(text: str, desk: Desk) -> bool:
    return len(text.split()) <= LONGEST_KIND and desk.knowledge.kind_by_word.get(text.casefold()) is not None
