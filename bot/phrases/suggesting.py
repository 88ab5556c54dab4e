"""What a message with one slip in it may have meant: offered, never done."""

from collections.abc import Callable, Iterable

from bot.actions.button_texts import ButtonText
from bot.actions.choice import Choice
from bot.actions.command import Command
from bot.actions.courtesy import Greet, Thanks
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.not_understood import NotUnderstood
from bot.actions.situation import Situation
from bot.actions.stock_product import StockProduct
from bot.actions.undo import Undo
from bot.phrases.asking import Meant
from bot.phrases.items import Unknown, items_of
from bot.phrases.lexicon import KNOWN, Word, phrase_at
from bot.phrases.slips import slips_between

MOST_WORDS = 12
MOST_TRIED = 8
MOST_PIECES = 6
_PAUSES = frozenset({",", ".", "!", ";", "-", ":", "\n", "(", ")"})
_NO_OFFER = (NotUnderstood, Incomplete, Thanks, Greet, Undo)
"""What a part of a message is not offered for: the rest would be more."""
MOST_OFFERED = 3
_LONG_WORD = 6
"""Words as long as this may have two slips. Judgement."""
_LEAST_LETTERS = 2


def suggest(
    words: tuple[str, ...],
    situation: Situation,
    others: Iterable[str],
    read: Callable[[tuple[str, ...]], Meant],
) -> Incomplete | None:
    """
    Offer the reading nearest to what was typed, where one word of it is a slip of a word that is known.

    Parameters
    ----------
    words
        The message, which was not understood.
    others
        Words known besides those the clauses are made of.
    read
        Reads words into commands.
    """
    known = KNOWN | frozenset(others)
    if len(words) > MOST_WORDS:
        return None
    bought = read(("got", *words))
    if all(isinstance(one, StockProduct) for one in bought):
        return _offer({bought: _spoken(("got", *words))})  # a bottle told of without a verb
    unread = [item.text for item in items_of(words, situation) if isinstance(item.meaning, Unknown)]
    strange = [text for text in unread if text.isalpha() and text not in known]
    if len(strange) != 1 or len(strange[0]) < _LEAST_LETTERS:
        return None
    at = words.index(strange[0])
    offered: dict[tuple[Command, ...], str] = {}
    nearest: tuple[int, bool] | None = None
    for rank, word in _alike(words[at], known):
        if nearest is not None and rank > nearest:
            break
        meant = (*words[:at], word, *words[at + 1 :])
        commands = read(meant)
        if not any(isinstance(one, NotUnderstood | Incomplete) for one in commands):
            nearest = rank
            offered.setdefault(commands, _spoken(meant))
    return _offer(offered) if offered else None


def suggest_part(words: tuple[str, ...], read: Callable[[tuple[str, ...]], Meant]) -> Incomplete | None:
    """Offer what is understood of a message where only a piece of it is not."""
    pieces = _pieces(words)
    if not 1 < len(pieces) <= MOST_PIECES or "?" in words:
        return None
    for at in range(len(pieces) - 1, -1, -1):
        if any(_doubts(pieces[at], start) for start in range(len(pieces[at]))):
            return None  # "hoya done, just kidding"
        rest = tuple(word for piece in (*pieces[:at], *pieces[at + 1 :]) for word in piece)
        while rest and rest[-1] in _PAUSES:
            rest = rest[:-1]
        commands = read(rest) if rest else ()
        if not any(isinstance(one, _NO_OFFER) for one in commands):
            offer = offer_reading(rest, commands)
            if offer is not None:
                return offer
    return None


def _doubts(words: tuple[str, ...], start: int) -> bool:
    found = phrase_at(words, start)
    return found is not None and found[0] in {Word.HEDGE, Word.NOT, Word.NOTHING, Word.AGAINST, Word.MEANT}


def offer_reading(words: tuple[str, ...], commands: Meant) -> Incomplete | None:
    """Offer what words mean, where they mean anything."""
    is_clear = bool(commands) and not any(isinstance(one, NotUnderstood | Incomplete) for one in commands)
    return _offer({commands: _spoken(words)}) if is_clear else None


def _pieces(words: tuple[str, ...]) -> list[tuple[str, ...]]:
    """Cut at pauses, each pause with the piece before it."""
    pieces: list[tuple[str, ...]] = []
    begun: list[str] = []
    for word in words:
        if word == "but" and begun:
            pieces.append(tuple(begun))
            begun = []
        begun.append(word)
        if word in _PAUSES:
            pieces.append(tuple(begun))
            begun = []
    return [*pieces, tuple(begun)] if begun else pieces


def _spoken(words: tuple[str, ...]) -> str:
    return " ".join(words).replace(" ?", "?").replace(" ,", ",").replace(" .", ".")


def _offer(offered: dict[tuple[Command, ...], str]) -> Incomplete:
    """Offer the nearest readings, the nearest first."""
    first = list(offered.items())[:MOST_OFFERED]
    choices = tuple(Choice(ButtonText.NAMED, commands, text) for commands, text in first)
    return Incomplete(missing=Missing.MEANT, text=first[0][1], choices=choices)


def _alike(typed: str, known: frozenset[str]) -> list[tuple[tuple[int, bool], str]]:
    """Give the known words a slip or two away, the nearest first; a letter is left out sooner than wrong."""
    slips = 2 if len(typed) >= _LONG_WORD else 1
    near = [
        ((slips_between(typed, word, slips), word[0] != typed[0]), -len(word), word)
        for word in known
        if abs(len(word) - len(typed)) <= slips and word.isalpha()
    ]
    return [(rank, word) for rank, _, word in sorted(near) if rank[0] <= slips][:MOST_TRIED]
