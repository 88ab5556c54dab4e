"""A message that could not be read, read anew as what its writer says it is about."""

from enum import Enum

from bot.actions.action import ButtonText, Command, Outcome, performs
from bot.actions.desk import Desk


class Subject(Enum):
    """What a message may be about; the values are kept with open questions."""

    DONE = "done"
    SEEN = "seen"
    LATER = "later"
    MOVED = "moved"
    SHELF = "shelf"
    QUESTION = "question"
    HOME = "home"


SUBJECT_TEXTS = {
    Subject.DONE: ButtonText.SOMETHING_DONE,
    Subject.SEEN: ButtonText.SOMETHING_SEEN,
    Subject.LATER: ButtonText.SOMETHING_LATER,
    Subject.MOVED: ButtonText.SOMETHING_MOVED,
    Subject.SHELF: ButtonText.AT_HAND,
    Subject.QUESTION: ButtonText.A_QUESTION,
    Subject.HOME: ButtonText.ABOUT_MY_HOME,
}
"""What the button of a subject says."""


class ReadAnew(Command):
    """Read these words as being about this; whoever hears messages does so, and what is left comes here."""

    text: str
    subject: Subject
    refused: tuple[str, ...] = ()
    """What was offered of it and is not meant: it is not offered again."""
    out: str = ""
    """The one thing that is wrong in an offer of a home, as the button says it."""


class StillUnclear(Outcome):
    """Known what a message is about, and no more: what is missing has to be said."""

    subject: Subject
    plants: tuple[str, ...]


@performs
def ask_again(command: ReadAnew, desk: Desk) -> StillUnclear:
    """Ask for what is missing; nothing is written."""
    return StillUnclear(command.subject, tuple(plant.name for plant in desk.household.living))
