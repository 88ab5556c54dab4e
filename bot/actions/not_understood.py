"""What could not be read, and what it may have been."""

from bot.actions.action import Asking, ButtonText, Choice, Command, Outcome, performs
from bot.actions.add_plants import AddPlants, NewPlant
from bot.actions.ask import Ask, Topic
from bot.actions.courtesy import Help
from bot.actions.decline import Decline
from bot.actions.describe_pest import DescribePest
from bot.actions.desk import Desk
from bot.actions.incomplete import Asks, Missing
from bot.actions.log_round import NothingDue, nothing_due
from bot.actions.pest_word import pest_name
from bot.actions.read_anew import SUBJECT_TEXTS, ReadAnew, Subject
from bot.domain.identity import PlantId


class NotUnderstood(Command):
    """Writes nothing; carries what was not understood."""

    text: str
    reason: str = ""
    subjects: tuple[Subject, ...] = ()
    """What it may be about, the likeliest first."""
    plants: tuple[PlantId, ...] = ()
    refused: tuple[str, ...] = ()
    """What was offered of it and is not meant."""
    pest: str | None = None
    """What a question names that is beyond the bot: of that it can tell something."""


class NotThat(Decline):
    """None of the meanings offered: what was typed is still to be understood."""

    of: NotUnderstood = NotUnderstood("")


class Beyond(Outcome):
    """A question that the bot cannot answer, and what is known of the plants and the pest it named."""

    plants: tuple[tuple[str, str | None, tuple[str, ...]], ...]
    """Each by its name, its place, and the pests it has."""
    pest: str | None


class Unclear(Outcome):
    """Not understood, nothing written."""

    text: str
    reason: str
    plants: tuple[str, ...]


MOST_KNOWN = 2
LONGEST_KIND = 3
"""Words of a plant's name that is taken for one. Judgement."""


@performs
def answer_unread(command: NotUnderstood, desk: Desk) -> NothingDue | Asks | Unclear | Beyond:
    """Say that nothing was open, offer a kind of plant as a plant, or say what was not understood."""
    text, reason = command.text, command.reason
    if reason == "nothing open":
        return nothing_due(desk)
    if reason == "asked":
        known = tuple(_known(plant, desk) for plant in command.plants[:MOST_KNOWN])
        pest = None if command.pest is None else pest_name(command.pest, desk)
        return Beyond(known, pest, offers=_topics(command, desk))
    text = text.strip(" .!") or text
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
    offers = tuple(
        Choice(SUBJECT_TEXTS[one], (ReadAnew(command.text, one, command.refused),))
        for one in command.subjects
    )
    reason = "not that" if command.refused else command.reason
    return Unclear(command.text, reason, tuple(plant.name for plant in desk.household.living), offers=offers)


def _known(plant: PlantId, desk: Desk) -> tuple[str, str | None, tuple[str, ...]]:
    known = desk.plant(plant)
    place = None if known.place is None else desk.household.places[known.place].name
    return known.name, place, tuple(pest_name(case.pest, desk) for case in known.open_cases)


def _topics(command: NotUnderstood, desk: Desk) -> tuple[Choice, ...]:
    """Offer what is known of what was asked about, else what is known at all."""
    choices: list[Choice] = []
    if command.pest is not None:
        name = pest_name(command.pest, desk)
        choices.append(Choice(ButtonText.ABOUT, (DescribePest(command.pest),), name))
    for plant in command.plants[:1]:
        asked = (plant,)
        if desk.plant(plant).open_cases:
            choices.append(Choice(ButtonText.WHEN_FREE, (Ask(topic=Topic.RELEASE, plants=asked),)))
        choices.append(
            Choice(ButtonText.TOLD_OF, (Ask(topic=Topic.LOG, plants=asked),), desk.plant(plant).name)
        )
    usual = (Choice(ButtonText.WHATS_DUE, (Ask(topic=Topic.DUE),)), Choice(ButtonText.WHAT_TO_SAY, (Help(),)))
    return tuple(choices) or usual


def _is_kind_of_plant(text: str, desk: Desk) -> bool:
    is_here = any(one.name.casefold() == text.casefold() for one in desk.household.living)
    is_kind = desk.knowledge.kind_by_word.get(text.casefold()) is not None
    return is_kind and not is_here and len(text.split()) <= LONGEST_KIND
