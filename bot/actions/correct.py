"""Set right what was told last."""

from bot.actions.action import Asking, ButtonText, Choice, Command, Outcome, performs
from bot.actions.correct_entry import (
    CorrectEntry,
    Entered,
    EntryAsked,
    EntryChanged,
    Kind,
    NoSuchEntry,
    correct_entry,
)
from bot.actions.desk import Desk
from bot.actions.incomplete import Asks, Missing
from bot.actions.pest_word import candidates
from bot.actions.undo import NothingToUndo, last_group
from bot.domain.identity import PlantId
from bot.domain.journal import Draft, Entry, Found, OfAPlant, PestCorrected
from bot.domain.trade import grade_of
from bot.domain.value import replace


class Correct(Command, kw_only=True):
    plant: PlantId | None = None
    pest: str | None = None
    count: int | None = None
    instead_of: PlantId | None = None
    """The plant that was told wrongly, where it was said."""


class CorrectedTo(Outcome):
    """What was told last now stands for another plant, pest or number."""

    plant: str | None
    pest: str | None
    count: int | None = None


class WhichOneMeant(Outcome):
    """A correction of a message about several plants; nothing is written."""

    plants: tuple[str, ...]


_Corrected = CorrectedTo | NothingToUndo | WhichOneMeant | EntryAsked | NoSuchEntry | EntryChanged


@performs
def correct(command: Correct, desk: Desk) -> _Corrected | Asks:
    """Say again what was told last, for another plant, another pest or of another number."""
    if command.pest is not None:
        ill = _with_a_case(command.pest, desk) if command.plant is None else (command.plant,)
        return _correct_pest(ill, command.pest, desk)
    if command.count is not None:
        return _correct_count(command.count, command.plant, desk)
    group = last_group(desk)
    moved = [entry for entry in group if isinstance(entry.payload, OfAPlant)]
    if not moved or len(moved) < len(group) or command.plant is None:
        return NothingToUndo()
    plants = {entry.plant for entry in moved}
    if command.instead_of is not None and command.instead_of not in plants:
        return NothingToUndo()
    if command.instead_of is not None:
        moved = [entry for entry in moved if entry.plant == command.instead_of]
        plants = {command.instead_of}
    if len(plants) > 1:
        return WhichOneMeant(desk.names(plant for plant in plants if plant is not None))
    again = [_again(entry, desk, plant=command.plant) for entry in moved]
    desk.write([*desk.voids(moved), *again])
    return CorrectedTo(desk.plant(command.plant).name, None)


def _correct_count(count: int, plant: PlantId | None, desk: Desk) -> _Corrected:
    finds = [entry for entry in last_group(desk) if isinstance(entry.payload, Found)]
    finds = [entry for entry in finds if plant is None or entry.plant == plant]
    if not finds and plant is not None:
        return correct_entry(
            CorrectEntry(of=Entered(kind=Kind.FOUND, plant=plant), to=Entered(count=count)), desk
        )
    if not finds:
        return NothingToUndo()
    if len(finds) > 1:
        return WhichOneMeant(desk.names(entry.plant for entry in finds if entry.plant is not None))
    (wrong,) = finds
    assert isinstance(wrong.payload, Found)
    assert wrong.plant is not None
    right = replace(wrong.payload, count=count, grade=grade_of(count))
    desk.write([*desk.voids(finds), replace(_again(wrong, desk, plant=wrong.plant), payload=right)])
    return CorrectedTo(desk.plant(wrong.plant).name, None, count)


def _again(entry: Entry, desk: Desk, *, plant: PlantId) -> Draft:
    return Draft(
        payload=entry.payload,
        happened_at=entry.happened_at,
        happened_on=entry.happened_on,
        member=desk.member.id,
        plant=plant,
    )


def _with_a_case(word: str, desk: Desk) -> tuple[PlantId, ...]:
    """Give the plants that "they are citrus mealybugs" speaks of: those just told of, or all it may be on."""
    told = [one.plant for one in last_group(desk) if isinstance(one.payload, Found)]
    wide = {word, *candidates(word, desk)}
    wide |= {key for key, pest in desk.knowledge.pests.items() if wide & set(pest.of)}
    known = (one for one in desk.household.living if any(case.pest in wide for case in one.open_cases))
    just_told = tuple(dict.fromkeys(one for one in told if one is not None and desk.plant(one).open_cases))
    return just_told or tuple(one.id for one in known)


def _correct_pest(plants: tuple[PlantId, ...], word: str, desk: Desk) -> CorrectedTo | NothingToUndo | Asks:
    pest, *others = candidates(word, desk)
    if others:
        choices = tuple(
            Choice(
                ButtonText.NAMED,
                tuple(Correct(plant=plant, pest=key) for plant in plants),
                desk.knowledge.pests[key].name,
            )
            for key in (pest, *others)
        )
        return Asks(Missing.WHICH_PEST, desk.names(plants), asking=Asking(choices))
    ill = [plant for plant in plants if desk.plant(plant).open_cases]
    if not ill:
        return NothingToUndo()
    desk.write([desk.draft(PestCorrected(pest), plant=plant) for plant in ill])
    return CorrectedTo(" and ".join(desk.names(ill)), desk.knowledge.pests[pest].name)
