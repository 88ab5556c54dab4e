"""Put off what the setting-up asks."""

from bot.actions.action import Command, Expecting, Outcome, performs
from bot.actions.desk import Desk
from bot.actions.set_place import NoPlaceAsked, PlacesSaved, SetPlace, set_place
from bot.domain.window import Facing


class SkipQuestion(Command):
    """Put off the open question of the setting-up; it can be answered any time."""


class QuestionSkipped(Outcome):
    skipped: Expecting


@performs
def skip_question(_: SkipQuestion, desk: Desk) -> QuestionSkipped | PlacesSaved | NoPlaceAsked:
    """Put off what was asked; a window that is put off stays unknown."""
    question = desk.question
    skipped = question.expecting if question is not None else Expecting.NOTHING
    if skipped is Expecting.PLACE:
        return set_place(SetPlace(name="", facing=Facing.UNKNOWN), desk)
    desk.close_question()
    return QuestionSkipped(skipped)
