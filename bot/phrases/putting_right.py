"""What stands in the journal was wrong, on whatever day: it is shown, and one tap changes it."""

import re

from bot.actions.command import Command
from bot.actions.correct_entry import CorrectEntry, DeleteEntry, Entered, Kind
from bot.actions.situation import Situation
from bot.domain.identity import ProductId
from bot.phrases.clause import Setting
from bot.phrases.days import Trouble
from bot.phrases.items import items_of
from bot.phrases.lexicon import listed
from bot.phrases.mentions import Mentions
from bot.phrases.names import Product

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
_DENIED = re.compile(r"\bnot\b|\binstead of\b|\brather than\b")
_TOLD_OF = listed("got had was were has gets")


def read_putting_right(words: tuple[str, ...], situation: Situation) -> tuple[Command, ...] | None:
    """Read "delete Sunday's find on the ivy", "the 12 on the hoya were 2", "the ivy got neem, not soap"."""
    text = " ".join(words)
    is_deleted = any(word in _DELETE for word in words[:2]) and any(
        word in _KINDS or word in _ANY for word in words
    )
    counts = _COUNTS.search(text)
    if not (is_deleted or counts or (_DENIED.search(text) and any(word in _TOLD_OF for word in words))):
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


def _other_product(told: Mentions, of: Entered) -> tuple[Command, ...] | None:
    """Read the product that was used and the one that was not."""
    right, wrong = list[ProductId | None](), list[ProductId | None]()
    is_denied = False
    for item in told.items:
        is_denied = is_denied or item.text in {"not", "instead of", "instead", "rather", "rather than"}
        if isinstance(item.meaning, Product):
            (wrong if is_denied else right).append(item.meaning.id)
    if len(right) != 1 or len(wrong) != 1 or None in {*right, *wrong} or of.plant is None:
        return None
    was = Entered(kind=Kind.TREATED, plant=of.plant, on=of.on, product=wrong[0])
    return (CorrectEntry(of=was, to=Entered(product=right[0])),)
