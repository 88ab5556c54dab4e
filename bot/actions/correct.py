"""Set right what was told last."""

from bot.actions.action import Asking, ButtonText, Choice, Command, Outcome, performs
from bot.actions.correct_entry import CorrectEntry, Entered, Kind, correct_entry, put_right
from bot.actions.desk import Desk
from bot.actions.incomplete import Asks, Missing
from bot.actions.pest_word import candidates, kin
from bot.actions.undo import NothingToUndo, last_group
from bot.domain.identity import PlantId
from bot.domain.journal import Found, OfAPlant, Payload, PestCorrected, PlantSet, Watered


class Correct(Command, kw_only=True):
    plant: PlantId | None = None
    pest: str | None = None
    count: int | None = None
    instead_of: PlantId | None = None
    """The plant that was told wrongly, where it was said."""


class CorrectedTo(Outcome):
    """Which pest it is on a plant."""

    plant: str
    pest: str


@performs
def correct(command: Correct, desk: Desk) -> Outcome:
    """
    Say again what was told last, for another plant, another pest or of another number.

    Of one plant it is changed at once; of several, or where something older is meant, it is shown first.
    """
    if command.pest is not None:
        ill = _with_a_case(command.pest, desk) if command.plant is None else (command.plant,)
        return _correct_pest(ill, command.pest, desk)
    of, to, kinds = Entered(plant=command.instead_of), Entered(plant=command.plant), _OF_A_PLANT
    if command.count is not None:
        to, kinds = Entered(count=command.count), (Found,)
        of = Entered(kind=Kind.FOUND, plant=command.plant)
    told = [
        one
        for one in last_group(desk)
        if isinstance(one.payload, kinds)
        and of.plant in {None, one.plant}
        and not getattr(one.payload, "name", None)  # a plant told for the first time
    ]
    if not told and of.plant is None:
        return NothingToUndo()
    change = CorrectEntry(of=of, to=to)
    is_of_one = len({one.plant for one in told}) == 1
    return put_right(change, told, desk, is_sure=is_of_one) if told else correct_entry(change, desk)


_OF_A_PLANT: tuple[type[Payload], ...] = (OfAPlant, PlantSet, Watered)


def _with_a_case(word: str, desk: Desk) -> tuple[PlantId, ...]:
    """Give the plants that "they are citrus mealybugs" speaks of: those just told of, or all it may be on."""
    told = [one.plant for one in last_group(desk) if isinstance(one.payload, Found)]
    wide = kin(word, desk)
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
