"""Take back the last thing told: entries are never deleted, they are voided by later ones."""

from itertools import groupby, islice, takewhile

from bot.actions.action import Asking, ButtonText, Choice, Command, Outcome, performs
from bot.actions.decline import Decline, Declined
from bot.actions.desk import SPOKEN_OF_FOR, Desk
from bot.actions.show_history import OfEntries, described
from bot.domain.fold import latest
from bot.domain.identity import PlantId
from bot.domain.journal import (
    CalendarGiven,
    Entry,
    Heard,
    HeldUntil,
    Nudged,
    OfAPlant,
    Payload,
    ProductSet,
    Voided,
    evening_of,
)


class Undo(Command):
    """Take back the last thing this person told; of an earlier evening only if that very thing was shown."""

    shown: str = ""
    """The source of what was shown and agreed to; anything told since leaves it alone."""


class Undone(OfEntries):
    """What was taken back, newest last."""


class OldToUndo(OfEntries):
    """The last thing told is of an earlier evening: asked before it is taken back."""


class BehindTheReturn(OfEntries):
    """To be back is not taken back, for that would be silence; what was told before it is asked about."""


class ToldSince(OfEntries):
    """What was shown to be taken back is not the last thing told any more; this is."""


class NothingToUndo(Outcome):
    """Nothing of this person's is left to take back."""


@performs
def undo(
    command: Undo, desk: Desk
) -> Undone | OldToUndo | BehindTheReturn | ToldSince | NothingToUndo | Declined:
    """
    Take back the last thing this person told, as a group; a correction gives what it corrected.

    What was told on an earlier evening is shown first: whoever says "undo" has the last minutes in mind.
    """
    group = last_group(desk, with_voids=True)
    if not command.shown and is_offer_last(desk, group):
        desk.close_question()
        return Declined()
    if not group:
        return NothingToUndo()
    if not command.shown and _is_back_since(group, desk):
        shown = last_group(desk)
        what = described(shown, desk)
        return BehindTheReturn(what, asking=ask_to_take_back(group))
    told = [entry for entry in group if not isinstance(entry.payload, Voided)]
    what = described(told, desk)
    if command.shown and command.shown != group[-1].source:
        return ToldSince(what)
    if not command.shown and evening_of(group[-1].recorded_at, desk.household.zone) < desk.today:
        return OldToUndo(what, asking=ask_to_take_back(group))
    desk.write(desk.voids(group))
    return Undone(what)


def is_offer_last(desk: Desk, group: list[Entry]) -> bool:
    """Whether an offer that nobody took was made since: that is what is taken back."""
    question = desk.question
    if question is None or question.answered or not question.choices:
        return False
    is_since = not group or group[-1].recorded_at < question.asked_at
    return is_since and question.choices[0].text is ButtonText.YES


def ask_to_take_back(group: list[Entry]) -> Asking:
    take_back = Choice(ButtonText.TAKE_BACK, (Undo(shown=group[-1].source),))
    return Asking((take_back, Choice(ButtonText.KEEP, (Decline(),))))


def _is_back_since(group: list[Entry], desk: Desk) -> bool:
    """Whether this person has said to be back after what would be taken back."""
    mine = (one for one in desk.entries if one.member == desk.member.id)
    return any(one.id > group[-1].id and _is_return(one) for one in mine)


def _is_return(entry: Entry) -> bool:
    """Whether somebody only said to be back: taking that back would make the bot fall silent."""
    payload = entry.payload
    return isinstance(payload, HeldUntil) and payload.until is not None and payload.until <= entry.happened_on


def last_group(desk: Desk, *, with_voids: bool = False) -> list[Entry]:
    """Give what this person told last; what only took something back is nothing told."""
    last = next(
        (one for one in latest(desk.entries) if _may_be_undone(one, desk) and not _is_void(one)), None
    )
    if last is None:
        return []
    group = [one for one in latest(desk.entries) if one.source == last.source and _may_be_undone(one, desk)]
    return [one for one in reversed(group) if with_voids or not _is_void(one)]


def told_lately(desk: Desk) -> tuple[PlantId, ...]:
    """Give the plants this person told of last, some minutes ago."""
    told = (one.plant for one in _lately(desk, OfAPlant))
    living = {plant.id for plant in desk.household.living}
    return tuple(dict.fromkeys(plant for plant in told if plant is not None and plant in living))


def stocked_lately(desk: Desk) -> tuple[str, ...]:
    """Give the products, by their ingredients, that this person told of last, some minutes ago."""
    told = (one.payload for one in _lately(desk, ProductSet))
    return tuple(
        dict.fromkeys(one.ingredient for one in told if isinstance(one, ProductSet) and one.ingredient)
    )


def _lately(desk: Desk, kind: type[Payload]) -> list[Entry]:
    """Give what of a kind this person told in the last message that told such, some minutes ago."""
    lately = takewhile(lambda one: desk.now - one.recorded_at <= SPOKEN_OF_FOR, reversed(desk.entries))
    mine = (one for one in lately if one.member == desk.member.id and isinstance(one.payload, kind))
    return [one for _, last in islice(groupby(mine, lambda one: one.source), 1) for one in last][::-1]


def _may_be_undone(entry: Entry, desk: Desk) -> bool:
    is_told = entry.member == desk.member.id and not isinstance(entry.payload, Heard | Nudged | CalendarGiven)
    return is_told and not _is_return(entry)


def _is_void(entry: Entry) -> bool:
    return isinstance(entry.payload, Voided)
