"""What stands in the journal was wrong, on whatever day: it is shown, and one tap changes it."""

import re

from bot.actions.action import Command
from bot.actions.correct import Correct
from bot.actions.correct_entry import CorrectEntry, DeleteEntry, Entered, Kind
from bot.actions.situation import Situation
from bot.domain.identity import ProductId
from bot.phrases.days import Trouble
from bot.phrases.items import items_of
from bot.phrases.lexicon import Word, listed
from bot.phrases.mentions import Mentions
from bot.phrases.names import Plants, Product
from bot.phrases.numbers import Count
from bot.phrases.setting import Setting

_DELETE = listed("delete erase strike scrap")
_KINDS = {
    **dict.fromkeys(("find", "finding", "finds", "sighting", "count"), Kind.FOUND),
    **dict.fromkeys(
        ("spray", "spraying", "treatment", "round", "wipe", "wiping", "rinse", "swab"), Kind.TREATED
    ),
    **dict.fromkeys(("look", "check"), Kind.LOOK),
    **dict.fromkeys(("move", "moving"), Kind.MOVED),
}
_ANY = listed("entry note line")
_COUNTS = re.compile(
    r"\bthe (\d{1,4})\b.*\b(?:was|were|is|are|should be|should have been) (?:only |really )?(\d{1,4})\b"
)
_DENIED = re.compile(r"\bnot\b|\bno (?!,)|\binstead of\b|\brather than\b")
_IDLE = frozenset({Word.FILLER, Word.BREAK, Word.IT, Word.IT_IS})
_SPRAYED = listed("sprayed spray used use got had put applied went")
_LED = listed("no nope wait correct correction actually sorry oops wrong")
_TOLD_OF = listed("got had was were has gets")


def read_putting_right(words: tuple[str, ...], situation: Situation) -> tuple[Command, ...] | None:
    """Read "delete Sunday's find on the ivy", "the 12 on the hoya were 2", "the ivy got neem, not soap"."""
    text = " ".join(words)
    meant = _other_plant(words, situation) if _DENIED.search(text) else None
    if meant is not None:
        return (meant,)
    if (meant_so := _never_sprayed(words, situation) or _other_count(words, situation)) is not None:
        return meant_so
    is_deleted = any(word in _DELETE for word in words[:2]) and any(
        word in _KINDS or word in _ANY for word in words
    )
    counts = _COUNTS.search(text)
    if not (
        is_deleted
        or counts
        or (_DENIED.search(text) and (":" in words or any(word in _TOLD_OF for word in words)))
    ):
        return None
    told = Mentions(items_of(words, situation), Setting(situation))
    plants, on = told.sides()[0] or told.sides()[1], told.behind()
    if len(plants) > 1 or isinstance(on, Trouble):
        return None
    of = Entered(plant=plants[0] if plants else None, on=on)
    if is_deleted:
        kind = next((_KINDS[word] for word in words if word in _KINDS), None)
        return (DeleteEntry(of=Entered(kind=kind, plant=of.plant, on=of.on)),)
    if counts is not None:
        was = Entered(kind=Kind.FOUND, plant=of.plant, on=of.on, count=int(counts[1]))
        return (CorrectEntry(of=was, to=Entered(count=int(counts[2]))),)
    return _other_product(told, of)


def _never_sprayed(words: tuple[str, ...], situation: Situation) -> tuple[Command, ...] | None:
    """Read "no neem sprayed on the fern", "the fern never got neem": whoever wrote it, it is shown."""
    denials = (at for at, word in enumerate(words) if at and word in {"no", "never", "without"})
    at = max(denials, default=None)
    if at is None or not any(word in _SPRAYED for word in words):
        return None
    told, behind = (Mentions(items_of(of, situation), Setting(situation)) for of in (words, words[at:]))
    plants, products, on = told.every(Plants), told.every(Product), told.behind()
    is_one = len(plants) == len(products) == len(behind.every(Product)) == 1 and len(plants[0].ids) == 1
    if not is_one or products[0].id is None or isinstance(on, Trouble):
        return None
    return (
        DeleteEntry(of=Entered(kind=Kind.TREATED, plant=plants[0].ids[0], on=on, product=products[0].id)),
    )


def _other_count(words: tuple[str, ...], situation: Situation) -> tuple[Command, ...] | None:
    """Read "no, it was 2 on the fern", "correct: fern 2 on wednesday, not 3"."""
    denied = next((at for at, word in enumerate(words) if at and word in {"not", "instead"}), len(words))
    is_led = words[0] in _LED and ("was" in words or "were" in words or ":" in words or denied < len(words))
    if not is_led:
        return None
    told, left = (Mentions(items_of(of, situation), Setting(situation)) for of in (words, words[denied:]))
    wrong = [one.value for one in left.every(Count)]
    right = [one.value for one in told.every(Count) if one.value not in wrong]
    plants, on = told.every(Plants), told.behind()
    is_one = len(right) == len(plants) == 1 and len(wrong) <= 1 and len(plants[0].ids) == 1
    if not is_one or told.every(Product) or isinstance(on, Trouble):
        return None
    was = Entered(kind=Kind.FOUND, plant=plants[0].ids[0], on=on, count=int(wrong[0]) if wrong else None)
    return (CorrectEntry(of=was, to=Entered(count=int(right[0]))),)


def _other_plant(words: tuple[str, ...], situation: Situation) -> Correct | None:
    """Read "no, not the fern but the ivy", "it was the ivy, not the fern": nothing else is told."""
    said = [
        one.meaning for one in items_of(words, situation) if one.meaning not in _IDLE and one.text != "sorry"
    ]
    is_led = bool(said) and said[0] is Word.NOT
    while said[:2] == [Word.NOT, Word.NOT]:
        del said[0]
    match said:
        case [Word.NOT, Plants(ids=(wrong,)), Word.BUT | Word.MEANT, Plants(ids=(right,))]:
            pass
        case [Word.MEANT, Plants(ids=(right,)), Word.NOT, Plants(ids=(wrong,))]:
            pass
        case [Word.NOT, Plants(ids=(right,)), Word.NOT, Plants(ids=(wrong,))] if is_led and words[0] != "not":
            pass
        case _:
            return None
    return Correct(plant=right, instead_of=wrong) if right != wrong else None


def _other_product(told: Mentions, of: Entered) -> tuple[Command, ...] | None:
    """Read the product that was used and the one that was not."""
    right, wrong = list[ProductId | None](), list[ProductId | None]()
    is_denied = False
    for item in told.items:
        is_denied = is_denied or item.text in {"not", "no", "instead of", "instead", "rather", "rather than"}
        if isinstance(item.meaning, Product):
            (wrong if is_denied else right).append(item.meaning.id)
    if len(right) != 1 or len(wrong) != 1 or None in {*right, *wrong} or of.plant is None:
        return None
    was = Entered(kind=Kind.TREATED, plant=of.plant, on=of.on, product=wrong[0])
    return (CorrectEntry(of=was, to=Entered(product=right[0])),)
