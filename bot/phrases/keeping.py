"""Clauses about where a plant stands and whether it is still there: isolate, move, release, lose, correct."""

from datetime import date
from typing import TypeVar

from bot.actions.action import ButtonText, Choice, Command
from bot.actions.ask import Ask, Topic
from bot.actions.correct import Correct
from bot.actions.decline import Decline
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.isolate import Isolate
from bot.actions.lose_plant import LosePlant
from bot.actions.move_plant import MovePlant
from bot.actions.release_plant import ReleasePlant
from bot.domain.agenda import QUARANTINE_DAYS, SHORT_QUARANTINE_DAYS
from bot.domain.identity import PlantId
from bot.phrases.asking import Meant, ask_seen, ask_which, bad_day, not_understood
from bot.phrases.clause import DATES, Clause, Setting, named
from bot.phrases.days import Day, Trouble, Weekday, day_ahead, day_behind
from bot.phrases.items import Meaning, Unknown
from bot.phrases.lexicon import Word
from bot.phrases.looks import MOST
from bot.phrases.names import Pest, Place, Plants
from bot.phrases.numbers import Count

_POINTERS = (Word.IT, Word.THEM, Word.BOTH, Word.IT_IS)
_MOVING = (Word.MOVE, Word.PUT, Word.FILL_TO)
_PAIR = 2
_TOWARDS = frozenset({"to", "in", "into", "onto", "on"})
_COUNTED = frozenset({Word.MEANT, Word.NOT, Word.IT, Word.IT_IS, Word.BUGS})
_Kind = TypeVar("_Kind")


def read_correction(clause: Clause, setting: Setting) -> Meant | None:
    """Read "that was the small hoya", "it is scale on the bay, not mealybug"."""
    del setting
    return _other_count(clause) or _other_plant(clause) or _other_pest(clause)


def _other_count(clause: Clause) -> Meant | None:
    """Read "2 not 12", "it was 5", "no, 7": a number that sets right the one told last."""
    counts = clause.every(Count)
    if not counts or not all(
        isinstance(one, Count | Plants | Pest) or one in _COUNTED for one in clause.content()
    ):
        return None
    is_told = clause.has(Word.MEANT, Word.IT_IS) or (
        clause.has(Word.NOT) and (len(counts) > 1 or _opens_with_no(clause))
    )
    right = _before_denial(clause, Count) or counts
    if not is_told or len(right) != 1 or len(named(clause)) > 1:
        return None
    number = right[0].value
    if number != int(number) or not 0 < number <= MOST:
        return not_understood(clause, "count")
    return (Correct(plant=next(iter(named(clause)), None), count=int(number)),)


def _opens_with_no(clause: Clause) -> bool:
    return clause.items[0].text == "no" and clause.items[0].meaning is Word.NOT


def _other_plant(clause: Clause) -> Meant | None:
    if not clause.has(Word.MEANT) or not clause.only(Word.MEANT, Word.NOT, Word.IT, Plants):
        return None
    plants = _before_denial(clause, Plants)
    if len(plants) != 1 or len(plants[0].ids) != 1:
        return not_understood(clause)
    return (Correct(plant=plants[0].ids[0]),)


def _other_pest(clause: Clause) -> Meant | None:
    if not clause.every(Pest) or not clause.only(Word.IT_IS, Word.MEANT, Word.NOT, Word.IT, Pest, Plants):
        return None
    if not clause.has(Word.IT_IS, Word.MEANT) and not (clause.has(Word.NOT) and len(clause.every(Pest)) > 1):
        return None
    pests, plants = _before_denial(clause, Pest), named(clause)
    if len(pests) != 1 or len(plants) > 1:
        return not_understood(clause)
    return (Correct(plant=plants[0] if plants else None, pest=pests[0].key),)


def _before_denial(clause: Clause, kind: type[_Kind]) -> list[_Kind]:
    """Values of a kind that do not follow "not"."""
    kept: list[_Kind] = []
    for item in clause.items:
        if item.meaning is Word.NOT:
            break
        if isinstance(item.meaning, kind):
            kept.append(item.meaning)
    return kept


def read_deletion(clause: Clause, setting: Setting) -> Meant | None:
    """Read "delete the palm": asked first, for a plant taken off the list is gone from every plan."""
    if not clause.has(Word.DELETE) or not clause.only(Word.DELETE, *_POINTERS, Plants):
        return None
    plants = _plants(clause, setting)
    if not plants:
        return (ask_which(clause, setting, LosePlant),)
    is_one = len(plants) == 1
    off = ButtonText.TAKE_OFF if is_one else ButtonText.TAKE_THEM_OFF
    name = setting.label(plants[0]) if is_one else ""
    choices = (Choice(off, (LosePlant(plants),), name), Choice(ButtonText.KEEP, (Decline(),)))
    return (Incomplete(missing=Missing.DELETE, plants=plants, choices=choices),)


def _cannot_be_moved(plants: tuple[PlantId, ...], setting: Setting) -> Meant | None:
    """Make its place the isolation room where that was just asked, or something was found on it today."""
    offered = {
        plant
        for choice in setting.situation.choices
        for one in choice.commands
        if isinstance(one, Isolate) and not one.apart
        for plant in one.plants
    }
    is_asked = bool(plants) and set(plants) <= offered | setting.situation.found_today
    return (Isolate(plants, apart=False),) if is_asked else None


def read_isolation(clause: Clause, setting: Setting) -> Meant | None:
    """Read "isolate the calathea", "hoya is apart on the landing"; alone it is a question."""
    if clause.has(Word.UNMOVABLE) and clause.only(Word.UNMOVABLE, *_POINTERS, Plants):
        return _cannot_be_moved(_plants(clause, setting), setting)
    if not clause.has(Word.ISOLATE):
        return None
    if clause.only(Word.ISOLATE) and setting.is_first:
        return (Ask(topic=Topic.ISOLATED),)
    if not clause.only(Word.ISOLATE, Word.PUT, Word.MOVE, Word.FILL_TO, *_POINTERS, Plants, Place, *DATES):
        return None
    on, plants, place = _on(clause, setting), _plants(clause, setting), clause.one(Place)
    if "quarantine" in clause.text() and clause.has(Word.ISOLATE):
        return _quarantine(clause, setting, plants)
    if isinstance(on, Trouble):
        return bad_day(clause, on)
    if not plants:
        return (ask_which(clause, setting, lambda chosen: Isolate(chosen, on)),)
    isolated: Command = Isolate(plants, on)
    return (isolated,) if place is None else (isolated, MovePlant(plants, place.id, on))


def _quarantine(clause: Clause, setting: Setting, plants: tuple[PlantId, ...]) -> Meant:
    """Read "quarantine the fern", "quarantine the fern for 3 weeks"."""
    day = clause.day()
    until = None if day is None else day_ahead(day, setting.situation)
    if isinstance(until, Trouble):
        return bad_day(clause, until)
    days = QUARANTINE_DAYS if until is None else (until - setting.situation.today).days

    def apart(chosen: tuple[PlantId, ...]) -> Command:
        return Isolate(chosen, quarantine_days=max(days, SHORT_QUARANTINE_DAYS))

    return (apart(plants),) if plants else (ask_which(clause, setting, apart),)


def read_move(clause: Clause, setting: Setting) -> Meant | None:
    """Read "moved orchid to the landing"."""
    place = clause.one(Place)
    if (
        place is None
        or not clause.has(*_MOVING)
        or not clause.only(*_MOVING, *_POINTERS, Plants, Place, *DATES)
    ):
        return None
    on, plants = _on(clause, setting), _plants(clause, setting)
    if isinstance(on, Trouble):
        return bad_day(clause, on)
    if not plants:
        return (ask_which(clause, setting, lambda chosen: MovePlant(chosen, place.id, on)),)
    return (MovePlant(plants, place.id, on),)


def read_strange_place(clause: Clause, setting: Setting) -> Meant | None:
    """Read "moved the hoya to the bathroom", where nobody has told of a bathroom yet."""
    unknown = [item.text for item in clause.items if isinstance(item.meaning, Unknown)]
    rest = [item.meaning for item in clause.items if not isinstance(item.meaning, Unknown)]
    is_move = clause.has(*_MOVING) and any(item.text.split()[0] in _TOWARDS for item in clause.items)
    is_only_a_place = len(unknown) == 1 and clause.items[-1].text == unknown[0]
    if not is_move or not is_only_a_place or not all(_is_of_a_move(meaning) for meaning in rest):
        return None
    return (Incomplete(missing=Missing.WHICH_PLACE, plants=_plants(clause, setting), text=unknown[0]),)


def _is_of_a_move(meaning: Meaning) -> bool:
    return meaning in {*_MOVING, *_POINTERS, Word.FILLER} or isinstance(meaning, Plants | Day | Weekday)


def read_release(clause: Clause, setting: Setting) -> Meant | None:
    """Read "put hoya back", "release the hoya anyway"."""
    if not clause.has(Word.RELEASE, Word.BACK):
        return None
    if not clause.only(Word.RELEASE, Word.BACK, Word.PUT, Word.MOVE, Word.ANYWAY, *_POINTERS, Plants, *DATES):
        return None
    on, plants, confirmed = _on(clause, setting), _plants(clause, setting), clause.has(Word.ANYWAY)
    if isinstance(on, Trouble):
        return bad_day(clause, on)

    def release(chosen: tuple[PlantId, ...]) -> Command:
        return ReleasePlant(plants=chosen, on=on, confirmed=confirmed)

    return (release(plants),) if plants else (ask_which(clause, setting, release),)


def read_loss(clause: Clause, setting: Setting) -> Meant | None:
    """Read "binned the coffee"; "gone" asks whether the plant or its pests are."""
    if not clause.only(Word.LOST, Word.GONE, *_POINTERS, Plants, *DATES, Pest, Word.BUGS, Word.ALL):
        return None
    if clause.has(Word.GONE):
        plants = named(clause)
        if plants and (clause.has(Word.BUGS) or clause.every(Pest)):
            return (ask_seen(plants),)
        choices = (Choice(ButtonText.PLANT_LOST, (LosePlant(plants),)),) if plants else ()
        return (Incomplete(missing=Missing.LOST, plants=plants, choices=choices),)
    if not clause.has(Word.LOST) or clause.has(Word.ALL, Word.BUGS) or clause.every(Pest):
        return None
    on, plants = _on(clause, setting), _plants(clause, setting)
    if isinstance(on, Trouble):
        return bad_day(clause, on)
    return (LosePlant(plants, on),) if plants else (Incomplete(missing=Missing.LOST),)


def _plants(clause: Clause, setting: Setting) -> tuple[PlantId, ...]:
    plants = named(clause)
    if plants or not clause.has(Word.IT, Word.THEM, Word.BOTH):
        return plants
    return () if clause.has(Word.BOTH) and len(setting.before) != _PAIR else setting.before


def _on(clause: Clause, setting: Setting) -> date | Trouble | None:
    day = clause.day()
    return None if day is None else day_behind(day, setting.situation)
