"""Little time: "i have 20 minutes", "too much", "what first"."""

from decimal import Decimal

from bot.actions.save_time import SaveTime
from bot.phrases.asking import Meant
from bot.phrases.lexicon import any_of, each_of, listed, words_in
from bot.phrases.numbers import number_at

_TOO_MUCH = any_of(
    "too much | it is too much | this is too much | that is too much | too much work"
    " | too much for tonight | too much for me | i cannot do all that | i cannot do it all"
    " | i cannot do all this | i cannot keep up | too many plants | what first | what do i do first"
    " | where do i start | where do i begin | which first | triage | what is most important"
    " | what matters most | which are most urgent | what is most urgent"
)
_AROUND = listed(
    "i we have got only just about around for this that there is are now tonight today left with all ve time"
    " to spare at most maximum max maybe . , ! ?"
)
_TELLS = listed("have got only just spare left")
_UNITS = each_of(("minutes | minute | min | mins", 1), ("hour | hours", 60))
_HALF_AN_HOUR = ("half", "an", "hour")
SPOKEN = words_in((*_TOO_MUCH, *_UNITS))
"""Words known here, that a slip may be a slip of."""


def read_hurry(words: tuple[str, ...]) -> Meant | None:
    """Read how much time there is, or that it is all too much."""
    said = " ".join(word for word in words if word not in {".", "!", "?", ","})
    if said.replace("can not", "cannot").replace("can't", "cannot").replace("cant ", "cannot ") in _TOO_MUCH:
        return (SaveTime(),)
    if not _TELLS & set(words):
        return None
    for at in range(len(words)):
        found = _minutes_at(words, at)
        if found is not None:
            rest = (*words[:at], *words[at + found[1] :])
            return (SaveTime(found[0]),) if set(rest) <= _AROUND else None
    return None


def _minutes_at(words: tuple[str, ...], at: int) -> tuple[int, int] | None:
    if words[at : at + 3] == _HALF_AN_HOUR:
        return 30, 3
    number = number_at(words, at)
    if number is None or words[at + number[1] : at + number[1] + 1] == ():
        return None
    unit = _UNITS.get(words[at + number[1]])
    minutes = number[0] * (unit or 0)
    return (int(minutes), number[1] + 1) if Decimal(1) <= minutes <= Decimal(1440) else None
