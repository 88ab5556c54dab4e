"""The door for what people type: what it sets right is left out, its parts are read each, and agree."""

import re
from collections.abc import Iterator
from functools import reduce

from bot.actions.action import Command, Expecting
from bot.actions.correct import Correct
from bot.actions.correct_entry import DeleteEntry
from bot.actions.courtesy import Greet, Thanks
from bot.actions.give_first_aid import GiveFirstAid
from bot.actions.hold import Hold
from bot.actions.identify import Identify
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.isolate import Isolate
from bot.actions.log_check import LogCheck
from bot.actions.log_find import LogFind
from bot.actions.log_round import LogRound
from bot.actions.log_sign import LogSign
from bot.actions.mix_batch import Mix
from bot.actions.move_plant import MovePlant
from bot.actions.not_understood import NotUnderstood
from bot.actions.postpone import Postpone
from bot.actions.rename import Rename
from bot.actions.set_hours import SetHours
from bot.actions.set_place import SetPlace
from bot.actions.set_pot import SetPot
from bot.actions.set_town import SetTown
from bot.actions.set_traits import SetTraits
from bot.actions.situation import Situation
from bot.actions.stock_product import StockProduct
from bot.actions.undo import Undo
from bot.domain.trade import Method
from bot.domain.value import Value, replace
from bot.phrases.agreeing import agreed
from bot.phrases.cutting import halves, pieces
from bot.phrases.grammar import plants_named
from bot.phrases.leaving_out import told_of
from bot.phrases.lexicon import Word
from bot.phrases.names import OneOf, Pest, Place, Plants, Product
from bot.phrases.notation import notation
from bot.phrases.numbers import Volume
from bot.phrases.offering import told_in
from bot.phrases.questions import is_question
from bot.phrases.reading import ANSWERS, ASKED, Offer, Reading, is_chatter, lines_of, read
from bot.phrases.saying import say_all
from bot.phrases.setting import TIMES
from bot.phrases.telling import contradict
from bot.phrases.text import LONGEST, plain, words_of
from bot.phrases.values import plants_of


def understand(text: str, situation: Situation) -> tuple[Command, ...]:
    """Read one message into commands: what is sure, and a question for what is likely."""
    return heard(text, situation).commands()


def heard(text: str, situation: Situation) -> Reading:
    """Read one message as people type it: what its next words set right is left out, and its parts agree."""
    said = told_of(text, situation)
    meant = read(said, situation)
    return _in_agreement(_apart(said, meant, situation) or meant, said, situation)


class _Piece(Value):
    """What a piece of a message tells and asks, and what of it is not read."""

    told: tuple[Command, ...] = ()
    asked: tuple[Command, ...] = ()
    left: tuple[str, ...] = ()
    chance: float = 1.0

    @property
    def says(self) -> bool:
        """Whether anything of it is read."""
        return bool(self.told or self.asked)

    def beside(self, other: "_Piece") -> "_Piece":
        """Give what both say."""
        return _Piece(
            tuple(dict.fromkeys((*self.told, *other.told))),
            tuple(dict.fromkeys((*self.asked, *other.asked))),
            (*self.left, *other.left),
            min(self.chance, other.chance),
        )


def _apart(text: str, meant: Reading, situation: Situation) -> Reading | None:
    """
    Read each piece of a message by itself, where the whole is not read to its last word.

    Nothing is written: what is told is one offer, what is asked is answered, and what is not read is named.
    What is read for sure and tells of several kinds is offered too where its pieces tell otherwise.
    """
    is_told = _is_told(meant)
    if not _may_be_cut(text, meant, situation):
        return None
    said: list[_Piece] = []
    for piece in _named(pieces(text), situation):
        spoken = tuple(plants_of(said[-1].told)) if said else ()
        said += _clauses_of(piece, replace(situation, spoken=spoken) if spoken else situation)
    saying = [one for one in said if one.says]
    left = tuple(
        piece for one in said for piece in one.left if told_in(piece, situation).every(_OF_A_TELLING)
    )
    if left and not any(one.told for one in said) and all(map(_asks, meant.sure)) and meant.sure:
        lost = NotUnderstood("; ".join(left), subjects=meant.lost)
        return replace(meant, sure=(*meant.sure, lost)) if not meant.offers else None
    if len(saying) < len("xy") or not _fit(saying):
        return None
    whole = reduce(_Piece.beside, said)
    whole = replace(whole, told=_of_one_pest(whole.told))
    if contradict(whole.told) or told_in(text, situation).denies(whole.told):
        return None
    if is_told:
        is_read = whole.chance >= 1 and not whole.left
        return _beside_the_sure(whole, meant, situation) if is_read else None
    offer = _offer(whole.told, situation, whole.chance, "; ".join(whole.left))
    if offer is None or not _is_said_better(whole, meant, situation):
        return None
    return Reading(sure=whole.asked, offers=(offer,), lost=meant.lost, text=text)


def _of_one_pest(told: tuple[Command, ...]) -> tuple[Command, ...]:
    """Take the one pest that is named for what was counted beside it."""
    pests = {one.pest for one in told if isinstance(one, LogFind) and one.pest}
    if len(pests) != 1:
        return told
    pest = pests.pop()
    return tuple(
        replace(one, pest=pest) if isinstance(one, LogFind) and not one.pest else one for one in told
    )


def _named(cut: tuple[str, ...], situation: Situation) -> Iterator[str]:
    """Put a name that stands by itself before what is told of it: "The hoya? Not treated tonight."."""
    name = ""
    for piece in cut:
        if _is_bare(piece, situation) and not _is_asked(situation):
            name = f"{name} {piece}".strip(" ?!.,")
        else:
            yield f"{name} {piece}".strip()
            name = ""
    if name:
        yield name


def _offer(told: tuple[Command, ...], situation: Situation, chance: float, left: str = "") -> Offer | None:
    said = say_all(told, situation) if told else None
    return None if said is None else Offer(told, ". ".join(dict.fromkeys(said)), chance, left)


def _is_told(meant: Reading) -> bool:
    """Whether something is told for sure, and nothing asked back."""
    is_open = any(isinstance(one, NotUnderstood | Incomplete) for one in meant.sure)
    return not (is_open or meant.offers or all(map(_asks, meant.sure)))


def _may_be_cut(text: str, meant: Reading, situation: Situation) -> bool:
    if len(text) > LONGEST or not situation.plants or situation.expecting in _OF_A_HOME or _THEN.search(text):
        return False
    if any(
        isinstance(one, GiveFirstAid)
        or (isinstance(one, Incomplete) and one.missing is Missing.ADD)
        or (isinstance(one, Identify) and _is_asked(situation))  # what was seen, with its number
        for one in meant.sure
    ):
        return False
    if not _is_told(meant):
        return True
    # "all done, 3 left on the ivy" speaks of the whole evening
    is_of_all = told_in(text, situation).has(Word.ALL) and any(
        isinstance(one, LogRound) for one in meant.sure
    )
    return not is_of_all and _is_of_several_kinds(text, situation)


def _beside_the_sure(apart: _Piece, meant: Reading, situation: Situation) -> Reading | None:
    """Offer what the pieces tell beside what is sure; both where they tell otherwise, whatever the day."""
    sure = tuple(one for one in meant.sure if not _asks(one))
    said, told = (_undated(one, situation) for one in (apart.told, sure))
    more = tuple(one for one in apart.told if not _undated((one,), situation) <= told)
    if told <= said:
        offer = _offer(more, situation, apart.chance)
        is_more = offer is not None and not all(isinstance(one, Postpone) for one in more)
        return replace(meant, offers=(offer,)) if offer and is_more else None
    offers = (_offer(apart.told, situation, apart.chance), _offer(sure, situation, apart.chance))
    return (
        Reading(sure=apart.asked, offers=tuple(filter(None, offers)), text=meant.text)
        if all(offers)
        else None
    )


def _undated(told: tuple[Command, ...], situation: Situation) -> set[str]:
    return {_DAY.sub("", line) for line in lines_of(told, situation)}


_THEN = re.compile(
    r"\b(?:then|(?:that|the same) (?:day|evening|night|morning|time))\s*(?:too|also)?\W*$", re.IGNORECASE
)
"""What ends so was done when what was told before was."""
_DAY = re.compile(r" on=\S+")


def _is_of_several_kinds(text: str, situation: Situation) -> bool:
    """Whether words of more than one kind of telling and several plants stand in it: "ivy done, jade ok"."""
    told = told_in(text, situation)
    if len({plant for one in told.every(Plants) for plant in one.ids}) < len("xy"):
        return False
    kinds = (
        told.has(Word.DONE) or told.every(Method),
        told.has(Word.NONE, Word.NOTHING, Word.CLEAN),
        told.has(Word.NOT, Word.LATER, Word.SKIP, Word.YET),
        told.has(Word.RELEASE, Word.BACK),
    )
    return sum(map(bool, kinds)) > 1


_OF_A_HOME = frozenset({Expecting.TOWN, Expecting.PLANTS, Expecting.WHERE, Expecting.PLACE})
_OF_THE_LAST = (Correct, Undo, DeleteEntry, *ANSWERS)
"""What refers to what was said before: it stands at the beginning, or is part of what it sets right."""
_ONCE = (SetPlace, SetTown, StockProduct, SetHours, Hold, *_OF_THE_LAST)
"""What one message tells once, in however many sentences."""
_OF_ONE_PLANT = (LogRound, LogFind, LogSign, Isolate, MovePlant, Rename, SetTraits, SetPot)
"""What may be told of a plant beside each other."""


def _fit(said: list[_Piece]) -> bool:
    """Whether what the pieces tell can stand beside each other: no two tell of one thing in two ways."""
    of: list[Command] = []
    for piece in said:
        if of and any(isinstance(one, _OF_THE_LAST) for one in piece.told):
            return False
        if any(_clash(one, other) for one in piece.told for other in of):
            return False
        of += piece.told
    return True


def _clash(one: Command, other: Command) -> bool:
    """Whether two commands tell of one plant, or of one thing that is told once, and only one is meant."""
    if type(one) is type(other) and isinstance(one, _ONCE):
        return True
    if isinstance(one, Postpone) and isinstance(other, _OF_THE_LAST):
        return True
    if not set(plants_of((one,))) & set(plants_of((other,))):
        return False
    if isinstance(one, LogRound) and isinstance(other, LogRound):
        return one.method == other.method or None in {one.method, other.method}
    return type(one) is type(other) or not (
        isinstance(one, _OF_ONE_PLANT) and isinstance(other, _OF_ONE_PLANT)
    )


def _is_said_better(apart: _Piece, meant: Reading, situation: Situation) -> bool:
    """Whether the pieces say all that the whole does, and more."""
    first = meant.offers[0] if meant.offers else None
    told = () if first is None else tuple(one for one in first.commands if not _asks(one))
    asked = tuple(
        one for one in (*meant.sure, *(() if told or first is None else first.commands)) if _asks(one)
    )
    if not all(_is_asked_in(one, apart, situation) for one in asked):
        return False
    if first is None or not told:
        return True
    whole, said = lines_of(told, situation), lines_of(apart.told, situation)
    is_more = whole < said or (whole <= said and len(apart.asked) > len(asked))
    is_surer = not apart.left and apart.chance > first.chance and len(said) > len(whole)
    is_sure = not apart.left and apart.chance >= _LIKELY and len(said) >= max(len(whole), len("xy"))
    return is_more or is_surer or is_sure or ((bool(first.left_out) or first.lacks) and not apart.left)


def _asks(command: Command) -> bool:
    return isinstance(command, (*ASKED, Mix))


def _is_asked_in(one: Command, apart: _Piece, situation: Situation) -> bool:
    """Whether the pieces ask what the whole does, and not in general what it asks of a plant."""
    of_told = set(plants_of((one,))) <= set(plants_of(apart.told))
    asked = notation((one,), situation).split()
    for other in apart.asked:
        is_alike = type(one) is type(other) and getattr(one, "topic", 0) == getattr(other, "topic", 0)
        in_general = len(notation((other,), situation).split()) <= len(_IN_GENERAL) < len(asked)
        if not (is_alike and in_general) or of_told:
            return True
    return False


_IN_GENERAL = ("ask", "why")
_DEEPEST = 2
"""So many times a sentence is cut. Judgement. [1]"""


def _clauses_of(text: str, situation: Situation, depth: int = _DEEPEST) -> tuple[_Piece, ...]:
    """Read a piece, or the clauses of it that are likelier and leave nothing."""
    whole = _piece_of(text, situation, is_clause=depth < _DEEPEST)
    is_sure = bool(whole.told) and not whole.left and whole.chance >= 1
    if not depth or (is_sure and not _is_of_several_kinds(text, situation)):
        return (whole,)
    best: tuple[_Piece, ...] = (whole,)
    likeliest = _NEARLY if is_sure else whole.chance if whole.told and not whole.left else 0.0
    for one, other in halves(text):
        first = _piece_of(one, situation, is_clause=True)
        if first.left or not first.says or first.chance <= likeliest:
            continue
        rest = _clauses_of(other, situation, depth - 1)
        chance = min(each.chance for each in (first, *rest))
        is_told = any(each.told for each in (first, *rest))
        if all(each.says and not each.left for each in rest) and is_told and chance > likeliest:
            best, likeliest = (first, *rest), chance
    return best


def _piece_of(text: str, situation: Situation, *, is_clause: bool = False) -> _Piece:
    """Read a sentence, or a clause that asks only where it begins as a question does."""
    meant = read(text, situation, is_part=True)
    first = meant.offers[0] if meant.offers else Offer((), "", 1.0)
    said = tuple(one for one in (*meant.sure, *first.commands) if not isinstance(one, Thanks | Greet))
    is_no_question = is_clause and not is_question(words_of(plain(text)), situation)
    is_lost = first.chance < _LEAST_PIECE or any(
        isinstance(one, NotUnderstood | Incomplete | GiveFirstAid)
        or (isinstance(one, SetPlace) and not _is_named(one, text))
        or (is_no_question and _asks(one))
        for one in said
    )
    if is_lost or not said or (_is_bare(text, situation) and not _is_asked(situation)):
        is_idle = is_chatter(text, situation) and not told_in(text, situation).every(_OF_A_TELLING)
        return _Piece(left=() if is_idle else (text,))
    left = (first.left_out,) if first.left_out else (text,) if first.lacks else ()
    asked = tuple(filter(_asks, said))
    return _Piece(tuple(one for one in said if one not in asked), asked, left, first.chance)


def _is_named(told: SetPlace, text: str) -> bool:
    """Whether a piece names the place it tells of: "no window there" does not."""
    return bool(told.name) and told.name.casefold() in text.casefold()


def _is_asked(situation: Situation) -> bool:
    """Whether a question is open that a name may answer."""
    return bool(situation.choices) and situation.expecting is not Expecting.LINES


def _is_bare(text: str, situation: Situation) -> bool:
    """Whether no more than names stand in it: by itself it tells nothing."""
    return all(
        isinstance(one.meaning, (*_NAMES, *TIMES)) or one.meaning in _NOTHING
        for one in told_in(text, situation).items
    )


_NAMES = (Plants, Product, Place, OneOf)
_NOTHING = frozenset({Word.FILLER, Word.AND, Word.BREAK, Word.BUT})
_NEARLY, _LIKELY = 0.99, 0.9
_LEAST_PIECE = 0.5
"""A piece that is less likely what it is read as is left, and named. Judgement."""
_OF_A_TELLING = (Plants, Pest, Product, Method, Volume)
"""What names these is no idle talk."""


def _in_agreement(reading: Reading, text: str, situation: Situation) -> Reading:
    """Give a reading whose commands, sure or offered, agree with each other."""
    several = [told for told in (reading.sure, *(one.commands for one in reading.offers)) if len(told) > 1]
    alone = (one for told in (reading.sure, *(each.commands for each in reading.offers)) for one in told)
    if not several and not any(isinstance(one, LogRound | LogCheck) for one in alone):
        return reading
    named = plants_named(text, situation)
    offers = []
    for offer in reading.offers:
        told = agreed(offer.commands, text, named, situation)
        said = None if told == offer.commands else say_all(told, situation)
        offers.append(replace(offer, commands=told, said=". ".join(dict.fromkeys(said))) if said else offer)
    sure = agreed(reading.sure, text, named, situation)
    return replace(reading, sure=sure, offers=tuple(offers))
