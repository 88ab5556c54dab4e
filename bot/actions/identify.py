"""Find out what it is: one question of the key at a time, and at its end an offer to write the find."""

from bot.actions.action import Asking, ButtonText, Choice, Command, Outcome, performs
from bot.actions.decline import Decline
from bot.actions.desk import Desk
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.log_find import LogFind, grade_choices
from bot.domain.identity import PlantId
from bot.domain.key import UNSURE, Creature, KeyQuestion, Nature, next_question, remaining
from bot.domain.value import replace


class Identify(Command, kw_only=True):
    """Find out what was seen: the answers so far, and the find it is to complete."""

    plants: tuple[PlantId, ...] = ()
    answers: tuple[tuple[str, str], ...] = ()
    find: LogFind | None = None


class KeyAsked(Outcome):
    """A question of the identification key, counted from one."""

    text: str
    number: int


class Identified(Outcome, kw_only=True):
    """What it can be, the likeliest first; where it can be written, by a button."""

    creatures: tuple[Creature, ...]
    plants: tuple[str, ...]
    unnamed: int = 0
    """How many more it can still be. [1]"""


MOST_NAMED = 4
MOST_ASKED = 8
"""In a home of more plants it is not asked on which. Judgement. [1]"""


@performs
def identify(command: Identify, desk: Desk) -> KeyAsked | Identified:
    """Ask what narrows most, or name what is left; writes nothing."""
    question = next_question(desk.knowledge.key, command.answers)
    if question is not None:
        return _asked(command, question)
    left = remaining(desk.knowledge.key, command.answers)
    named = left[:MOST_NAMED]
    is_vague = len(left) > 2 * len(named)
    pests = [] if is_vague else [one for one in named if one.nature is Nature.PEST]
    choices = tuple(_offer(command, one) for one in pests) if command.plants else ()
    living = desk.household.living
    if not choices and len(pests) == 1 and len(living) <= MOST_ASKED:
        choices = tuple(_offer_of(command, pests[0], plant.id, plant.name) for plant in living)
        kept = " ".join((*_amount(command), pests[0].name))
        choices += (Choice(ButtonText.LEAVE_OUT, (Decline(kept),)),)  # a plant may be named that is new
    if not choices:
        desk.close_question()  # the key is gone through: nothing of it is asked any more
    return Identified(
        creatures=named,
        plants=desk.names(command.plants),
        unnamed=len(left) - len(named),
        asking=Asking(choices) if choices else None,
    )


def _offer_of(command: Identify, pest: Creature, plant: PlantId, name: str) -> Choice:
    """Offer to write the find on a plant that was not named before."""
    find = None if command.find is None else replace(command.find, plants=(plant,))
    offered = _offer(replace(command, plants=(plant,), find=find), pest)
    return replace(offered, text=ButtonText.NAMED, of=name)


def _amount(command: Identify) -> tuple[str, ...]:
    """Give how many were told before the key was asked."""
    find = command.find
    if find is None or find.count is not None:
        return () if find is None else (str(find.count),)
    return () if find.grade is None else (find.grade.value,)


def _asked(command: Identify, question: KeyQuestion) -> KeyAsked:
    answered = {
        option: (replace(command, answers=(*command.answers, (question.key, option))),)
        for option in (*question.options, UNSURE)
    }
    choices = (
        *(Choice(ButtonText.NAMED, answered[option], words) for option, words in question.options.items()),
        Choice(ButtonText.NOT_SURE, answered[UNSURE]),
    )
    return KeyAsked(question.text, len(command.answers) + 1, asking=Asking(choices))


def _offer(command: Identify, pest: Creature) -> Choice:
    """Offer to write the find, with what was told of it before the key was asked."""
    if command.find is not None and (command.find.count is not None or command.find.grade is not None):
        return Choice(ButtonText.IT_IS, (replace(command.find, pest=pest.key),), pest.name)
    grades = grade_choices(command.plants, pest.key)
    amount = Incomplete(missing=Missing.AMOUNT, plants=command.plants, choices=grades)
    return Choice(ButtonText.IT_IS, (amount,), pest.name)
