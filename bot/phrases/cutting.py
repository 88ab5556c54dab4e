"""A message of several things, cut where one of them may end, and each piece read by itself."""

import re
from collections.abc import Iterator
from itertools import combinations, pairwise

from bot.actions.action import Command, Expecting
from bot.actions.ask import Ask
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
from bot.actions.lose_plant import LosePlant
from bot.actions.mix_batch import Mix
from bot.actions.move_plant import MovePlant
from bot.actions.not_understood import NotUnderstood
from bot.actions.postpone import Postpone
from bot.actions.release_plant import ReleasePlant
from bot.actions.rename import Rename
from bot.actions.set_hours import SetHours
from bot.actions.set_place import SetPlace
from bot.actions.set_pot import SetPot
from bot.actions.set_town import SetTown
from bot.actions.set_traits import SetTraits
from bot.actions.situation import Situation
from bot.actions.stock_product import StockProduct
from bot.actions.undo import Undo
from bot.domain.trade import Grade, Method
from bot.domain.value import Value, replace
from bot.phrases.days import ORDINALS
from bot.phrases.forms.rows import SAYS_NOTHING
from bot.phrases.guess import rank
from bot.phrases.leaving_out import TURNS
from bot.phrases.lexicon import JOINS, Word, listed
from bot.phrases.names import OneOf, Pest, Place, Plants, Product
from bot.phrases.notation import notation
from bot.phrases.numbers import Count, Volume
from bot.phrases.offering import told_in
from bot.phrases.questions import OPENERS, SETTING_UP, asks_unmarked, beyond, is_question
from bot.phrases.reading import (
    ANSWERS,
    CHATTER_FROM,
    MOST_OFFERS,
    Offer,
    Reading,
    asks,
    is_chatter,
    lines_of,
    offer_of,
    question_behind,
    read_piece,
)
from bot.phrases.setting import TIMES
from bot.phrases.spotting import with_names
from bot.phrases.telling import contradict
from bot.phrases.text import LONGEST, plain, words_of
from bot.phrases.unreal import is_unreal
from bot.phrases.values import plants_of

SEVERAL = 2
MOST_PIECES = 8
"""More are a letter, which is read as one. Judgement. [1]"""
LONGEST_CUT = 300
"""A longer piece is not cut at its joints. Judgement. [characters]"""
FEWEST_CUT = 10
"""Neither is a message of fewer words in one piece. Judgement. [1]"""
MOST_JOINTS = 2
DEEPEST = 2
"""So many times a sentence is cut. Judgement. [1]"""
MOST_READ = 10
"""So many pieces are read of one message. Judgement. [1]"""
LEAST_PIECE = 0.5
"""What is less likely is left, and named. Judgement. [1]"""
LEAST_SAID = 0.2
"""What is like no telling by more is not read as one. Judgement. [1]"""
LIKELY = 0.9
"""Pieces this likely are taken before a whole that says no more. Judgement. [1]"""
_SIGN = "[\u2600-\u27bf\U0001f000-\U0001faff]"
_END = re.compile(
    r"(?<=[.!?…])[\"')\]]*\s+|\s*\n+\s*|\s*;\s+|\s+[-–—]+\s+|(?<=\w)\.{2,}\s*(?=\w)"
    rf"|\s*{_SIGN}(?:{_SIGN}|[\ufe0f\u200d\s])*(?=\w)"
)
_JOINT = re.compile(
    r"\s*,\s*(?:(?:and|but|so|also|plus|then|oh|while)\b\s*(?:also|then|btw|by the way)?\s*)?"
    r"|\s+(?:and|but|also|plus|then|while|though|whereas|btw|by the way|oh)\s+",
    re.IGNORECASE,
)
_GOVERNED = re.compile(
    r"\b(?:then|(?:that|the same) (?:day|evening|night|morning|time))\W*$"
    r"|^\W*(?:tomorrow|next|plans?|goals?|to ?do)\b[^.!?\n]*:"
    rf"|\bon the (?:twenty |thirty )?(?:{'|'.join(ORDINALS)}|thirtieth)\b"
    r"|[,;\u2013\u2014-]\s*(?:no|nope|non|sorry|pardon|wait|i mean)\b(?: wait| sorry)?\s*[,\u2013\u2014-]",
    re.IGNORECASE,
)
"""One part says when another was, or what it should be: "sprayed it then", "the ivy - no, the hoya"."""
_DAY = re.compile(r" on=\S+")
_OF_THE_LAST = (Correct, Undo, DeleteEntry, Hold, *ANSWERS)
"""What speaks of all that was said, or of what was said before: no piece, but for an answer in front."""
_ONCE = (SetPlace, SetTown, StockProduct, SetHours)
"""What one message tells once, in however many sentences."""
_OF_ONE_PLANT = (LogRound, LogFind, LogSign, Isolate, MovePlant, Rename, SetTraits, SetPot)
"""What may be told of a plant beside each other."""
REPORTS = (
    *(LogRound, LogFind, LogCheck, LogSign, Isolate, MovePlant, ReleasePlant, LosePlant),
    *(SetPlace, StockProduct),
)
"""What is not told by words that suppose or ask."""
_NAMES = (Plants, Product, Place, OneOf)
_NAMED = (Plants, Pest, Product, Method, Volume)
"""What names one of these is not lost silently."""
_TOLD = (*_NAMED, Count, Grade)
"""What names one of these is no idle talk."""
_ANSWERING = (*_NAMES, Count, Grade)
"""What names one of these may answer what is asked."""
_FILLING = JOINS | {Word.BUT}


_IT = listed("it them they")


class _Piece(Value):
    """What a piece of a message tells and asks, and what of it is not read."""

    text: str
    told: tuple[Command, ...] = ()
    asked: tuple[Command, ...] = ()
    left: tuple[str, ...] = ()
    chance: float = 1.0

    @property
    def says(self) -> bool:
        """Whether anything of it is read."""
        return bool(self.told or self.asked)

    @property
    def is_sure(self) -> bool:
        """Whether it tells something that would be written at once as a message of its own."""
        return bool(self.told) and not self.left and self.chance >= 1


def read_apart(text: str, meant: Reading, situation: Situation) -> Reading | None:
    """
    Read each piece of a message by itself where the whole is not read; None if that is no better.

    What pieces tell is one offer, what they ask is answered, and what is not read is named. What is read for
    sure is written as it is, and offered only where it tells of several kinds and its pieces tell otherwise.
    """
    if not _may_be_cut(text, meant, situation):
        return None
    cut = tuple(_named(pieces(text), situation))
    if len(cut) < SEVERAL and len(text.split()) < FEWEST_CUT and len(question_behind(text)) < SEVERAL:
        return None
    may_ask = any(all(map(asks, offer.commands)) for offer in meant.offers[:1])
    if _most_said(cut, situation) < (1 if _is_lost(meant) or may_ask else SEVERAL):
        return None
    cutting = _Cutting(situation, text, meant)
    apart = _together(cutting.read(cut), meant, text, situation)
    if apart and (
        apart.offers or any(not (asks(one) or isinstance(one, NotUnderstood)) for one in apart.sure)
    ):
        return apart
    before = text.strip().removesuffix(cut[-1]).strip()
    if len(cut) <= SEVERAL or before == text.strip() or not is_question(words_of(plain(cut[-1])), situation):
        return apart
    return _together(cutting.read((before, cut[-1])), meant, text, situation) or apart


def _together(said: tuple[_Piece, ...], meant: Reading, text: str, situation: Situation) -> Reading | None:
    told = tuple(dict.fromkeys(one for each in said for one in each.told))
    asked = tuple(
        dict.fromkeys(_of_what_is_told(one, each.text, meant, told) for each in said for one in each.asked)
    )
    left = tuple(one for each in said for one in each.left)
    if not told:
        return _with_what_is_lost(said, meant, situation)
    is_denied = bool(contradict(told)) or told_in(text, situation).denies(told)
    if not is_denied and not _is_told(meant) and _is_told_before_asking(said, text, situation):
        more = tuple(beyond(one, situation) for one in left)
        return Reading(sure=(*told, *asked, *more), text=text)  # "ivy sprayed. what's next?"
    is_lost = _is_lost(meant)
    fewest = 1 if is_lost and all(one.is_sure for one in said if one.told) else SEVERAL
    is_doubted = is_lost and len(said) == SEVERAL and said[0].is_sure and said[1].text.endswith("?")
    is_refused = _refers(said, situation) and not (is_doubted and left == (said[1].text,))
    if sum(one.says for one in said) < fewest or is_denied or not _fit(said) or is_refused:
        return None
    chance = min(one.chance for one in said)
    if _is_told(meant):
        is_read = chance >= 1 and not left
        return _beside_the_sure(told, asked, meant, situation) if is_read else None
    offer = offer_of(told, situation, chance, "; ".join(left))
    if offer is None or not _is_better(offer, asked, meant, situation):
        return None
    others = tuple(one for one in meant.offers if one.commands != told)
    return Reading(sure=asked, offers=(offer, *others)[:MOST_OFFERS], lost=meant.lost, text=text)


def _is_told_before_asking(said: tuple[_Piece, ...], text: str, situation: Situation) -> bool:
    """Whether the first piece is sure, a sentence, a line or before a comma, and all else is asked."""
    first, *rest = said
    begin = text.find(first.text)
    behind = text[begin + len(first.text) :].lstrip(" ")
    ends = first.text[-1:] in ".!…" or behind[:1] == "\n" or (behind[:1] == "," and text.endswith("?"))
    is_cut = begin >= 0 and ends
    if not (is_cut and first.is_sure and rest and all(one.asked or one.left for one in rest)):
        return False
    if any(one.told or not _is_beside(one.text) for one in rest) or any(
        isinstance(one, Mix) for each in rest for one in each.asked
    ):
        return False
    told = {*plants_of(first.told)}
    return not any(
        not told.isdisjoint(plant.ids)
        for each in rest
        for one in each.left
        for plant in told_in(one, situation).every(Plants)
    )


def _is_beside(text: str) -> bool:
    """Whether a piece only asks, and takes nothing back of what stands before: "wait. what's next?" may."""
    words = words_of(plain(text))
    if OPENERS.isdisjoint(words[:1]) or not _TURNS.isdisjoint(words):
        return False
    return words[0] in _WHAT or not _OF_THAT.search(text)


_WHAT = frozenset({"what", "when", "which", "where"})
_TURNS = TURNS | listed("wrong think maybe no not")
_OF_THAT = re.compile(
    r"\b(?:was|is|were|are|did|would|does) (?:that|it|this|they|these|those|i|we|you)\b"
    r"|\b(?:can|could|do|should|will) (?:you|u|that)\b|\bshould (?:i|we) have\b|\blikely\b",
    re.IGNORECASE,
)
"""It may doubt what stands before: "was that right?"; "do I need to move it?" does not."""


def pieces(text: str) -> tuple[str, ...]:
    """Cut a message behind each sentence, line and dash; a letter is left whole."""
    found: list[str] = []
    for one in _END.split(text):
        sizes = (len(one.split()), len(found[-1].split())) if found else (SEVERAL,)
        is_asked = one.endswith("?") and max(sizes) >= SEVERAL
        is_short = min(sizes) < SEVERAL and not is_asked
        found[len(found) - is_short :] = [f"{found[-1]} {one}" if is_short else one]
    found = [one for one in found if any(map(str.isalnum, one))]
    return tuple(found) if len(found) <= MOST_PIECES else (text,)


def _halves(piece: str) -> Iterator[tuple[str, str]]:
    """Give the ways to cut a piece in two at a comma or a joint."""
    cuts = ((piece[: one.start()].strip(), piece[one.end() :].strip()) for one in _JOINT.finditer(piece))
    found = [both for both in cuts if all(len(half.split()) >= SEVERAL for half in both)]
    yield from found[:MOST_JOINTS] if len(piece) <= LONGEST_CUT else ()


def _named(cut: tuple[str, ...], situation: Situation) -> Iterator[str]:
    """Put a name that stands by itself before what is told of it: "The hoya? Not treated tonight."."""
    name = ""
    for piece in cut:
        if _tells_nothing(piece, situation):
            name = f"{name} {piece}".strip(" ?!.,")
        else:
            yield f"{name} {piece}".strip()
            name = ""
    if name:
        yield name


class _Cutting:
    """The pieces of one message, each read once, and not more of them than `MOST_READ`."""

    def __init__(self, situation: Situation, text: str, meant: Reading) -> None:
        self._situation = situation
        self._known = {(text, situation.spoken): meant}

    def read(self, cut: tuple[str, ...]) -> tuple[_Piece, ...]:
        """Read each piece, or the clauses of it that say more."""
        said: list[_Piece] = []
        for piece in cut:
            spoken = tuple(plants_of(said[-1].told)) if said else ()
            if spoken:
                self._situation = replace(self._situation, spoken=spoken)
            said += self._clauses(piece, self._piece(piece))
        return tuple(said)

    def _clauses(self, text: str, whole: _Piece, depth: int = DEEPEST) -> tuple[_Piece, ...]:
        """Give a piece, or the clauses of it that are likelier and leave nothing."""
        joined = _told_before_asking(text)
        if depth and joined is not None:
            asked = self._piece(joined[1], is_clause=True)
            told = self._piece(joined[0], is_clause=True)
            is_asked = bool(asked.asked and not asked.left) or joined[1].endswith("?")
            if is_asked and not asked.told and (told.told or whole.told):
                return (*self._clauses(joined[0], told, depth - 1), asked)
        if not depth or (whole.is_sure and not _is_of_several_kinds(text, self._situation)):
            return (whole,)
        best: tuple[_Piece, ...] = (whole,)
        likeliest = whole.chance if whole.told and not whole.left else 0.0
        for one, other in _halves(text):
            if not _may_both_say(one, other, self._situation):
                continue
            first = self._piece(one, is_clause=True)
            if first.left or not first.says or first.chance < likeliest:
                continue
            rest = self._clauses(other, self._piece(other, is_clause=True), depth - 1)
            chance = min(each.chance for each in (first, *rest))
            is_all_read = all(each.says and not each.left for each in rest)
            is_told = any(each.told for each in (first, *rest))
            if is_all_read and is_told and (chance > likeliest or (whole.is_sure and best[0] is whole)):
                best, likeliest = (first, *rest), chance
        return best

    def _piece(self, text: str, *, is_clause: bool = False) -> _Piece:
        """Read a sentence, or a clause that asks only where it begins as a question does."""
        situation = self._situation
        key = text, situation.spoken
        if key not in self._known:
            if len(self._known) > MOST_READ:
                return _Piece(text, left=(text,))
            self._known[key] = Reading() if _tells_nothing(text, situation) else read_piece(text, situation)
        meant = self._known[key]
        first = meant.offers[0] if meant.offers else Offer((), "", 1.0)
        said = tuple(one for one in (*meant.sure, *first.commands) if not isinstance(one, Thanks | Greet))
        asked = tuple(filter(asks, said))
        is_no_question = is_clause and not is_question(words_of(plain(text)), situation)
        is_no_question = is_no_question or _STANDS.match(text) is not None
        is_lost = first.chance < LEAST_PIECE or any(
            isinstance(one, NotUnderstood | Incomplete | GiveFirstAid)
            or (isinstance(one, SetPlace) and not _is_of_the_place(one, text))
            or (isinstance(one, Correct) and not _is_asked(situation))
            for one in said
        )
        is_lost = (
            is_lost
            or bool(asked and is_no_question)
            or (_is_unreal(text) and any(isinstance(one, REPORTS) for one in said))
        )
        is_lost = is_lost or (bool(asked) and text.lower().startswith("or "))
        if is_lost or not said:
            is_idle = is_chatter(text, situation) and not (_is_unreal(text) or _names(text, _TOLD, situation))
            return _Piece(text, left=() if is_idle else (text,))
        left = (first.left_out,) if first.left_out else (text,) if first.lacks else ()
        return _Piece(text, tuple(one for one in said if one not in asked), asked, left, first.chance)


_STANDS = re.compile(r"where (?:the|its?|they|those|leaves|stems)\b(?!.*\?)", re.IGNORECASE)
"""“Where the leaf meets the stem” says where something was seen."""


def _is_unreal(text: str) -> bool:
    """Whether a piece tells nothing, or asks."""
    return is_unreal(text) or asks_unmarked(text) or text.rstrip("\"')] ").endswith("?")


def _names(text: str, kinds: tuple[type, ...], situation: Situation) -> bool:
    return bool(told_in(text, situation).every(kinds))


def _names_surely(text: str, kinds: tuple[type, ...], situation: Situation) -> bool:
    """Whether it names something that is no slip of another word."""
    typed = frozenset(words_of(plain(text)))
    return any(
        isinstance(one.meaning, kinds)
        and not getattr(one.meaning, "slip", False)
        and typed.issuperset(one.text.split())
        for one in told_in(text, situation).items
    )


def _is_told(meant: Reading) -> bool:
    """Whether something is told for sure."""
    is_open = any(isinstance(one, NotUnderstood) for one in meant.sure)
    told = [one for one in meant.sure if not (asks(one) or isinstance(one, Incomplete))]
    return bool(told) and not (is_open or meant.offers)


def _may_be_cut(text: str, meant: Reading, situation: Situation) -> bool:
    if len(text) > LONGEST or not situation.plants or situation.expecting in SETTING_UP:
        return False
    if (_GOVERNED.search(text) and not _is_told(meant)) or _is_bare(text, situation):
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
    is_of_all = told_in(text, situation).has(Word.ALL)  # "all done, 3 left on the ivy": of the whole evening
    is_of_all = is_of_all and any(isinstance(one, LogRound) for one in meant.sure)
    is_asked_back = any(isinstance(one, Incomplete) for one in meant.sure)
    return not (is_of_all or is_asked_back) and _is_of_several_kinds(text, situation)


def _is_of_several_kinds(text: str, situation: Situation) -> bool:
    """Whether words of more than one kind of telling and several plants stand in it: "ivy done, jade ok"."""
    told = told_in(text, situation)
    if len({plant for one in told.every(Plants) for plant in one.ids}) < SEVERAL:
        return False
    kinds = (
        told.has(Word.DONE) or told.every(Method),
        told.has(Word.NONE, Word.NOTHING, Word.CLEAN),
        told.has(Word.NOT, Word.LATER, Word.SKIP, Word.YET),
        told.has(Word.RELEASE, Word.BACK, Word.LOST),
    )
    return sum(map(bool, kinds)) > 1


def _with_what_is_lost(said: tuple[_Piece, ...], meant: Reading, situation: Situation) -> Reading | None:
    """Name beside an answer what was told and is not read."""
    left = "; ".join(
        one
        for each in said
        for one in each.left
        if _names(one, _NAMED, situation) and not is_question(words_of(plain(one)), situation)
    )
    asked = tuple(dict.fromkeys(one for each in said if _is_by_itself(each) for one in each.asked))
    told = (*meant.sure, *(one for offer in meant.offers for one in offer.commands))
    is_open = all(isinstance(one, NotUnderstood) for one in meant.sure)
    if not (left or is_open) or not all(asks(one) or isinstance(one, NotUnderstood) for one in told):
        return None
    asked = asked if is_open or meant.offers else meant.sure
    lost = (NotUnderstood(left, subjects=meant.lost),) if left else ()
    return Reading(sure=(*asked, *lost), lost=meant.lost, text=meant.text) if asked else None


def _is_by_itself(piece: _Piece) -> bool:
    """Whether a question is one without the sentence before it: "which ones?" is none."""
    return sum(one not in ".?!," for one in words_of(plain(piece.text))) > _FRAGMENT


_FRAGMENT = 3


def _fit(said: tuple[_Piece, ...]) -> bool:
    """Whether what the pieces tell can stand beside each other: nothing told in two ways."""
    telling = (piece for piece in said if piece.told)
    of = [(at, one) for at, piece in enumerate(telling) for one in piece.told]
    if any(
        isinstance(one, _OF_THE_LAST) and (at or not isinstance(one, (Correct, *ANSWERS))) for at, one in of
    ):
        return False
    return not any(
        _clash(one, other)
        for (at, one), (behind, other) in combinations(of, 2)
        if at != behind or _waits(one, other)
    )


def _waits(one: Command, other: Command) -> bool:
    return isinstance(one, Postpone) or isinstance(other, Postpone)


def _clash(one: Command, other: Command) -> bool:
    """Whether two commands tell of one plant, or of one thing that is told once, and only one is meant."""
    if type(one) is type(other) and isinstance(one, _ONCE):
        return True
    if _waits(one, other) and isinstance(one, _OF_THE_LAST):
        return True
    if not set(plants_of((one,))) & set(plants_of((other,))):
        return False
    if isinstance(one, LogRound) and isinstance(other, LogRound):
        return one.method == other.method or None in {one.method, other.method}
    are_beside = isinstance(one, _OF_ONE_PLANT) and isinstance(other, _OF_ONE_PLANT)
    return type(one) is type(other) or not are_beside


def _refers(said: tuple[_Piece, ...], situation: Situation) -> bool:
    """Whether what is left may speak of what is told: it names nothing else, or the same plant."""
    told = {plant for each in said for plant in plants_of(each.told)}
    if any(one.told and _points_back(one, before, situation) for before, one in pairwise(said)):
        return True
    for each in said:
        for one in each.left if not each.says else ():
            named = {plant for item in told_in(one, situation).every(Plants) for plant in item.ids}
            is_of_nothing = not named and not _names(one, (Product, Place, OneOf), situation)
            if named & told or (is_of_nothing and (_is_unreal(one) or _names(one, _TOLD, situation))):
                return True
    return False


def _points_back(piece: _Piece, before: _Piece, situation: Situation) -> bool:
    """Whether a piece tells of plants it does not name, and the one before it does not tell which."""
    named = told_in(piece.text, situation)
    if _is_asked(situation) or named.every((*_NAMES, Volume)) or named.has(Word.ALL, Word.REST):
        return False
    plants, meant = set(plants_of(piece.told)), set(plants_of(before.told))
    return bool(plants) and not (meant and plants <= meant)


def _beside_the_sure(
    apart: tuple[Command, ...], asked: tuple[Command, ...], meant: Reading, situation: Situation
) -> Reading | None:
    """Offer what the pieces tell beside what is sure; both where they tell otherwise, whatever the day."""
    sure = tuple(one for one in meant.sure if not asks(one))
    told = _undated(sure, situation)
    if told <= _undated(apart, situation):
        more = tuple(one for one in apart if not _undated((one,), situation) <= told)
        offer = None if all(isinstance(one, Postpone) for one in more) else offer_of(more, situation)
        return None if offer is None else replace(meant, offers=(offer,))
    offers = tuple(filter(None, (offer_of(one, situation) for one in (apart, sure))))
    return Reading(sure=asked, offers=offers, text=meant.text) if len(offers) == SEVERAL else None


def _undated(told: tuple[Command, ...], situation: Situation) -> set[str]:
    return {_DAY.sub("", line) for line in lines_of(told, situation)}


def _is_better(apart: Offer, asked: tuple[Command, ...], meant: Reading, situation: Situation) -> bool:
    """Whether the pieces say all that the whole does, and more."""
    first = meant.offers[0] if meant.offers else None
    told = () if first is None else tuple(one for one in first.commands if not asks(one))
    questions = tuple(filter(asks, (*meant.sure, *(() if told or first is None else first.commands))))
    if any(
        not asked or (apart.chance < LIKELY and _is_in_general(one, asked, situation)) for one in questions
    ):
        return False
    if first is None or not told:
        return True
    whole, said = lines_of(told, situation), lines_of(apart.commands, situation)
    is_all = whole <= said and (whole < said or len(asked) > len(questions))
    is_likely = apart.chance >= LIKELY or apart.chance > first.chance
    is_more = not apart.left_out and is_likely and len(said) >= max(len(whole), SEVERAL)
    return is_all or is_more or ((bool(first.left_out) or first.lacks) and not apart.left_out)


def _of_what_is_told(one: Command, text: str, meant: Reading, told: tuple[Command, ...]) -> Command:
    """Give what a piece asks of "it" as the whole asks it, of plants that another piece tells of."""
    if not isinstance(one, Ask) or one.plants or not _IT & frozenset(words_of(plain(text))):
        return one
    alike = (each for each in meant.sure if isinstance(each, Ask) and each.topic == one.topic)
    return next((each for each in alike if each.plants and {*plants_of(told)}.issuperset(each.plants)), one)


def _is_in_general(one: Command, asked: tuple[Command, ...], situation: Situation) -> bool:
    """Whether the pieces only ask in general what the whole asks of a plant."""
    alike = [each for each in asked if type(each) is type(one) and _topic(each) == _topic(one)]
    size = len(notation((one,), situation).split())
    return bool(alike) and all(len(notation((each,), situation).split()) < size for each in alike)


def _topic(command: Command) -> object:
    return getattr(command, "topic", None)


def _is_lost(meant: Reading) -> bool:
    return not meant.offers and all(isinstance(one, NotUnderstood) for one in meant.sure)


def _most_said(cut: tuple[str, ...], situation: Situation) -> int:
    """Give how many pieces and clauses may say something, or name what would be lost."""
    return sum(
        (SEVERAL if any(_may_both_say(*both, situation) for both in _ways(piece)) else 1)
        for piece in cut
        if _may_say(piece, situation) or _names_surely(piece, _NAMED, situation)
    )


def _ways(piece: str) -> Iterator[tuple[str, str]]:
    """Give the ways to cut a piece in two: before what it asks, at a comma or a joint."""
    joined = _told_before_asking(piece)
    if joined is not None:
        yield joined
    yield from _halves(piece)


def _told_before_asking(piece: str) -> tuple[str, str] | None:
    """Cut a piece before what it asks, where it does not ask from its first word on."""
    told, *asked = question_behind(piece)
    if not asked or is_question(words_of(plain(told))) or len(asked[0].split()) < SEVERAL:
        return None
    return told, asked[0]


def _may_both_say(one: str, other: str, situation: Situation) -> bool:
    """Whether each of two clauses names what is told of, or asks."""
    return all(
        (_names(half, _TOLD, situation) and _may_say(half, situation) and not _tells_nothing(half, situation))
        or is_question(words_of(plain(half)), situation)
        for half in (one, other)
    )


def _may_say(text: str, situation: Situation) -> bool:
    """Whether a piece asks, may answer what is asked, or is like enough to what is told."""
    if is_question(words_of(plain(text)), situation):
        return True
    guesses = rank(with_names(text, situation), situation)
    is_idle = guesses[0].form in SAYS_NOTHING and guesses[0].chance >= CHATTER_FROM
    is_answer = _is_asked(situation) and not is_idle
    return (is_answer and _names_surely(text, _ANSWERING, situation)) or any(
        one.chance >= LEAST_SAID and one.form not in SAYS_NOTHING and not one.form.startswith("ask.")
        for one in guesses
    )


def _is_of_the_place(told: SetPlace, text: str) -> bool:
    """Whether a piece names the place it tells of: "no window there" does not."""
    return bool(told.name) and told.name.casefold() in text.casefold()


def _is_asked(situation: Situation) -> bool:
    """Whether a question is open that a name may answer."""
    return bool(situation.choices) and situation.expecting is not Expecting.LINES


def _tells_nothing(text: str, situation: Situation) -> bool:
    """Whether a piece only names what nobody asked for."""
    return not _is_asked(situation) and _is_bare(text, situation)


def _is_bare(text: str, situation: Situation) -> bool:
    """Whether no more than names and times stand in it: by itself it tells nothing."""
    return all(
        isinstance(one.meaning, (*_NAMES, *TIMES)) or one.meaning in _FILLING or one.text in "?!."
        for one in told_in(text, situation).items
    )
