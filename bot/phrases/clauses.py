"""A message cut into clauses, and the pieces that only continue the clause before joined to it."""

from collections.abc import Sequence
from datetime import date

from bot.domain.trade import Form, Grade, Level, Method
from bot.phrases.clause import DATES, Clause
from bot.phrases.days import Clock, Day, Every, Moment, MonthDay, Weekday, is_ahead
from bot.phrases.items import Item, Meaning
from bot.phrases.lexicon import Spot, Word
from bot.phrases.names import OneOf, Pest, Place, Plants, Product
from bot.phrases.numbers import Count, Volume

MOST_PIECES = 40
"""Pieces of one message beyond which nobody could check what was understood. Judgement."""
_BUTS = frozenset({"but", "though", "however"})
_DENIALS = (Word.NOT, Word.YET)
_DENIED_DAYS = frozenset({"not today", "not tonight", "not this evening"})
_PUTS_OFF = (Word.LATER, Word.SKIP, Word.NO_TIME, Word.YET)
_JOINTS = (Word.AND, Word.BREAK, Word.BUT)
_ADDED = (*DATES, Clock, Moment, Product, Form, Level, Every, Volume, Spot)
_RESULTS = (Count, Grade, Pest, Spot)
_RESULT_WORDS = (
    Word.NOTHING,
    Word.CLEAN,
    Word.NONE,
    Word.NOT,
    Word.BUGS,
    Word.SAW,
    Word.ALL,
    Word.LEFT,
    Word.HAD,
)


def clauses_of(items: tuple[Item, ...], today: date) -> tuple[Clause, ...] | None:
    """Cut and join; None where a list of plants could belong to either side."""
    joined: list[Clause] = []
    waiting: list[Clause] = []
    pieces = _without_no(_pieces(items))
    if len(pieces) > MOST_PIECES:
        return None
    for at, piece in enumerate(pieces):
        following = pieces[at + 1 :]
        if _is_list(piece) and _reaches_on(joined, following, today):
            if joined and not _opens_with_plant(joined[-1]) and piece.joint not in _BUTS:
                return None
            waiting.append(piece)
        elif _is_methods(piece) and following and _opens_with_method(following[0]):
            waiting.append(piece)
        elif joined and not waiting and _could_be_either(joined[-1], piece):
            return None
        elif joined and not waiting and _says_the_same_of_another_day(joined[-1], piece, today):
            verbs = tuple(one for one in joined[-1].items if _is_verb(one.meaning))
            joined.append(Clause((*verbs, *piece.items), piece.joint))
        elif joined and not waiting and _continues(joined[-1], piece, today):
            joined[-1] = joined[-1].with_more(_as_exception(piece))
        else:
            joined.append(_gathered(waiting, piece))
            waiting = []
    return tuple(part for clause in joined + waiting for part in _with_found_exception(clause))


def _with_found_exception(clause: Clause) -> tuple[Clause, ...]:
    """Cut "all clean except the hoya with 3" in two: what is left out, and what was seen there."""
    at = next((n for n, item in enumerate(clause.items) if item.meaning is Word.EXCEPT), None)
    if at is None or not clause.has(Word.CLEAN, Word.NOTHING, Word.NONE):
        return (clause,)
    left_out = Clause(clause.items[at + 1 :], "but")
    if not left_out.every((Count, Grade)) or not left_out.every(Plants):
        return (clause,)
    plants = tuple(item for item in left_out.items if isinstance(item.meaning, Plants))
    return Clause((*clause.items[: at + 1], *plants), clause.joint), left_out


def _pieces(items: tuple[Item, ...]) -> list[Clause]:
    pieces: list[Clause] = []
    gathered: list[Item] = []
    content: list[Meaning] = []
    joint, has_plants = "", False
    for item in items:
        is_joint = item.meaning in _JOINTS
        if is_joint or _begins_anew(content, item, has_plants=has_plants):
            _keep(pieces, gathered, joint)
            gathered, content, has_plants, joint = [], [], False, item.text if is_joint else ""
        if not is_joint:
            gathered.append(item)
        if not is_joint and item.meaning is not Word.FILLER:
            content.append(item.meaning)
            has_plants = has_plants or isinstance(item.meaning, Plants | OneOf)
    _keep(pieces, gathered, joint)
    return pieces


def _begins_anew(content: list[Meaning], item: Item, *, has_plants: bool) -> bool:
    """Tell that "orchid" begins anew in "hoya done orchid no", "swabbed" in "sprayed hoya swabbed ivy"."""
    if not content:
        return False
    if item.meaning is Word.REST:
        is_told = content[-1] in {Word.DONE, Word.CLEAN, Word.NONE} or isinstance(content[-1], Method)
        return has_plants and is_told
    if isinstance(item.meaning, Plants | OneOf):
        return isinstance(content[0], Plants | OneOf) and content[-1] in {Word.DONE, Word.CLEAN, Word.NONE}
    return isinstance(item.meaning, Method) and isinstance(content[0], Method) and has_plants


def _without_no(pieces: list[Clause]) -> list[Clause]:
    """Read "no, I meant the bay", "no, 7": the "no" only opens the correction."""
    if len(pieces) < len(("no", "correction")) or set(pieces[0].content()) != {Word.NOT}:
        return pieces
    if (
        len(pieces) == len(("no", "number"))
        and pieces[1].every(Count)
        and pieces[1].only(Count, Word.BUGS, Pest)
    ):
        return [Clause((*pieces[0].items, *pieces[1].items))]
    is_correction = pieces[1].has(Word.MEANT) or (pieces[1].has(Word.IT_IS) and bool(pieces[1].every(Pest)))
    return pieces[1:] if is_correction else pieces


def _as_exception(piece: Clause) -> Clause:
    if piece.joint in _BUTS and _is_list(piece):
        return Clause((Item(Word.EXCEPT, piece.joint), *piece.items), piece.joint)
    if not piece.has(*_DENIALS) or not piece.every(Plants):
        return piece
    # "not the orchid", "the orchid not yet": whichever way round, the exception stands first
    rest = tuple(item for item in piece.items if item.meaning not in (*_DENIALS, Word.DONE, Word.DO))
    return Clause((Item(Word.EXCEPT, "not"), *rest), piece.joint)


def _keep(pieces: list[Clause], gathered: list[Item], joint: str) -> None:
    piece = Clause(tuple(gathered), joint)
    if piece.content():
        pieces.append(piece)


def _gathered(waiting: list[Clause], piece: Clause) -> Clause:
    items = tuple(item for part in waiting for item in part.items)
    joint = waiting[0].joint if waiting else piece.joint
    return Clause((*items, *piece.items), joint)


def _is_list(piece: Clause) -> bool:
    return piece.only(Plants, OneOf, Word.BOTH) and bool(piece.every((Plants, OneOf)))


def _is_and(piece: Clause) -> bool:
    return piece.joint.startswith(("and", "&", "+")) or piece.joint == "n"


def _is_methods(piece: Clause) -> bool:
    return all(isinstance(meaning, Method) for meaning in piece.content())


def _opens_with_plant(piece: Clause) -> bool:
    return isinstance(piece.content()[0], Plants | OneOf | Place) or piece.content()[0] is Word.BOTH


def _opens_with_method(piece: Clause) -> bool:
    return isinstance(piece.content()[0], Method)


def _reaches_on(joined: list[Clause], following: list[Clause], today: date) -> bool:
    """Whether a bare list of plants has, further on, a clause that begins with its own plant."""
    ahead = next((piece for piece in following if not _is_list(piece)), None)
    if not joined:
        return True
    return (
        ahead is not None
        and _opens_with_plant(ahead)
        and not (_only_dated(ahead) and _lies_behind(ahead, today))
    )


def _only_dated(piece: Clause) -> bool:
    """Read "orchid yesterday" continues "sprayed hoya and"; "coffee tomorrow" is a clause of its own."""
    is_dated = bool(piece.every((Day, Weekday, MonthDay)))
    return is_dated and piece.only(Plants, Day, Weekday, MonthDay, Product)


def _is_told_as_past(piece: Clause) -> bool:
    return any(item.text in {"on", "last"} or item.text.startswith("last ") for item in piece.items)


def _could_be_either(before: Clause, piece: Clause) -> bool:
    """Read "did hoya and orchid saturday": the Saturday gone by for both, or the next one for the orchid."""
    if (
        _is_list(piece)
        and before.has(Word.ALL, Word.BUT, Word.CLEAN, Word.NOTHING)
        and not before.every(Plants)
    ):
        return (
            piece.joint not in _BUTS
        )  # "everything clean but hoya" excepts it; "all clean, hoya" does not say
    if not _only_dated(piece) or not piece.every((Weekday, MonthDay)) or _is_told_as_past(piece):
        return False
    if piece.every(Plants):
        return _tells_of_the_past(before) and not _opens_with_plant(before)
    return not before.has(Word.NOT, Word.LATER, Word.NO_TIME, Word.AWAY, Word.UNTIL)


def _tells_of_the_past(before: Clause) -> bool:
    return before.has(Word.DONE, Word.SAW, Word.CHECKED) or bool(before.every(Method))


def _continues(before: Clause, piece: Clause, today: date) -> bool:
    if _is_list(piece) or piece.only(*_ADDED) or _leads_there(before, piece):
        return True
    if before.has(Word.LATER) and piece.only(Plants, Word.FILL_TO, *DATES) and _is_and(piece):
        return bool(before.every(Plants)) and not before.every(DATES)
    if piece.only(Word.EXCEPT, Plants) and piece.content()[0] is Word.EXCEPT:
        return before.has(Word.DONE, Word.ALL, Word.CLEAN, Word.NOTHING) or bool(before.every(Method))
    if piece.only(Plants, Product) and piece.every(Product) and _is_and(piece):
        return _tells_of_the_past(before) and not before.every(Product)  # "sprayed hoya and ivy with soap"
    if _only_dated(piece):
        return _tells_of_the_past(before) and not before.every(DATES) and _lies_behind(piece, today)
    lacks_its_number = bool(before.every(Pest) and before.every(Plants)) and not before.every((Count, Grade))
    if lacks_its_number and piece.only(Count, Word.BUGS) and piece.every(Count):
        return True  # "mealybugs on the hoya, 8 of them"
    if before.has(Word.CHECKED) and (_is_result(piece) or _ends_the_list(before, piece)):
        return True
    return piece.has(*_DENIALS) and _takes_back(before, piece)


def _says_the_same_of_another_day(before: Clause, piece: Clause, today: date) -> bool:
    """Tell that "orchid on monday" behind "did hoya on tuesday and" was done too."""
    is_and = _is_and(piece) and bool(before.every(DATES))
    return (
        is_and
        and _only_dated(piece)
        and bool(piece.every(Plants))
        and _tells_of_the_past(before)
        and _lies_behind(piece, today)
    )


def _is_verb(meaning: object) -> bool:
    return meaning in {Word.DONE, Word.CHECKED, Word.SAW} or isinstance(meaning, Method)


def _leads_there(before: Clause, piece: Clause) -> bool:
    """Tell that "small hoya to the study" continues "moved hoya and"."""
    is_on_its_way = before.has(Word.MOVE, Word.PUT) and bool(before.every(Plants)) and not before.every(Place)
    return is_on_its_way and piece.only(Plants, Word.FILL_TO, Place, *DATES) and bool(piece.every(Place))


def _lies_behind(piece: Clause, today: date) -> bool:
    if any(isinstance(one, Day | MonthDay) and is_ahead(one, today) for one in piece.content()):
        return False
    return _is_told_as_past(piece) or any(
        item.text.endswith(("yesterday", "night", "ago")) for item in piece.items
    )


def _ends_the_list(before: Clause, piece: Clause) -> bool:
    """Tell that "bay nothing" continues "checked ivy and"."""
    results = (Word.NOTHING, Word.CLEAN, Word.NONE)
    is_open = before.only(Word.CHECKED, Plants) and bool(before.every(Plants)) and _is_and(piece)
    return is_open and piece.only(Plants, Word.ALL, Level, *results) and piece.has(*results)


def _is_result(piece: Clause) -> bool:
    spoken_of = (Word.IT_IS, Word.THEM) if piece.has(Word.ALL) else ()  # "they are all clean"
    return piece.only(*_RESULTS, *_RESULT_WORDS, *spoken_of)


def _takes_back(before: Clause, piece: Clause) -> bool:
    """Read "not mealybug", behind "it is scale"; "not coffee", behind "done"."""
    if piece.only(Word.NOT, Pest):
        return bool(piece.every(Pest)) and bool(before.every(Pest))
    is_bare_done = before.only(Word.DONE, Word.ALL) and before.has(Word.DONE)
    is_denied_again = piece.only(*_DENIALS, Word.DONE, Word.DO, Plants) and piece.has(Word.NOT)
    return is_bare_done and (piece.only(*_DENIALS, Plants) or is_denied_again) and bool(piece.every(Plants))


def without_denied_day(clause: Clause) -> Clause:
    """Leave out the day denied in "did the hoya on sunday, not today": it is no plan."""
    is_told = clause.has(Word.DONE) or bool(clause.every(Method))
    content = [item for item in clause.items if item.meaning is not Word.FILLER]
    ends = {_text(content[-1:]), _text(content[-2:])} if is_told else set()
    if not ends & _DENIED_DAYS:
        return clause
    kept = clause.items[: -1 if _text(content[-1:]) in _DENIED_DAYS else -2]
    shorter = Clause(tuple(kept), clause.joint)
    return shorter if shorter.every(DATES) and not shorter.has(Word.NOT, *_PUTS_OFF) else clause


def _text(items: Sequence[Item]) -> str:
    return " ".join(item.text for item in items)
