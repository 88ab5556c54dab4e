"""The check walk: "walk", "walk with a lens", and what answers its plants in words."""

from bot.actions.action import Expecting
from bot.actions.log_check import LogCheck
from bot.actions.log_find import LogFind
from bot.actions.situation import Situation
from bot.actions.walk_through import BeginWalk, EndWalk, GoOn, PassPlant
from bot.domain.trade import Grade, Level
from bot.domain.value import replace
from bot.phrases.asking import Meant
from bot.phrases.items import items_of
from bot.phrases.lexicon import Word, any_of, listed, words_in
from bot.phrases.names import Pest
from bot.phrases.numbers import Count, whole_count

_BEGINS = any_of(
    "walk | check walk | start walk | begin walk | weekly walk | weekly check | check round"
    " | start the walk | start check walk | start the check walk | begin the check walk"
    " | go on with the walk | continue walk | continue the walk | inspection | inspection round"
    " | walk through | walk on | check all plants | check them all | let us walk | do the walk"
    " | do the weekly check | the walk"
)
_LEVELS = {
    "lens": Level.LENS,
    "glance": Level.GLANCE,
    "plain": Level.PLAIN,
    "magnifier": Level.LENS,
    "loupe": Level.LENS,
}
_ENDS = any_of("end walk | end the walk | cancel walk | cancel the walk | walk is over | stop the walk")
_PAUSES = any_of(
    "stop | stop for now | enough | enough for today | stop for today | pause | later | tomorrow"
)
_NONE = any_of(
    "none | none seen | clean | nothing | nothing seen | no | zero | all clean | ok | fine | good | clear | n"
)
_PASSES = any_of("not today | skip | skip it | next | pass | leave it out | skip this one | not this one")
_AROUND_A_COUNT = {Word.BUGS, Word.SAW, Word.HAD, Word.LEFT, Word.IT_IS, Word.FILLER}
_COURTEOUS = listed(". ! , the please a with and i my it is one")
SPOKEN = words_in((*_BEGINS, *_LEVELS, *_ENDS, *_PAUSES))
"""Words known here, that a slip may be a slip of."""


def read_walk(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read what begins or ends a walk at any time, and what answers its plants while it is open."""
    if "?" in words:
        return None
    is_open = situation.expecting is Expecting.WALK
    said = " ".join(word for word in words if word not in {".", "!", "please"})
    if said in _BEGINS:
        return (BeginWalk(),)
    if said in _ENDS:
        return (EndWalk(is_for_good=True),)
    levels = [level for word, level in _LEVELS.items() if word in words]
    rest = " ".join(
        word for word in words if word not in _LEVELS and word not in {"with", "a", "the", "my", ".", "look"}
    )
    offered = [one for choice in situation.choices for one in choice.commands] if is_open else []
    begun = [one for one in offered if isinstance(one, BeginWalk)]
    if len(levels) == 1 and (rest in _BEGINS or (is_open and not rest and begun == offered)):
        return (BeginWalk(levels[0], begun[0].plants if begun else ()),)
    return _answer(words, said, situation) if is_open else None


def _answer(words: tuple[str, ...], said: str, situation: Situation) -> Meant | None:
    """Read "none", "few", "3", "skip" for the plant at hand."""
    if said in _PAUSES:
        return (EndWalk(),)
    offered = [choice.commands for choice in situation.choices]
    if said in _NONE:
        return next((meant for meant in offered if isinstance(meant[0], LogCheck)), None)
    if said in _PASSES:
        return next((meant for meant in offered if isinstance(meant[0], PassPlant)), None)
    found = next((meant[0] for meant in offered if isinstance(meant[0], LogFind)), None)
    items = [item.meaning for item in items_of(words, situation) if item.text not in _COURTEOUS]
    counts = [meaning for meaning in items if isinstance(meaning, Count | Grade)]
    pests = [meaning for meaning in items if isinstance(meaning, Pest)]
    is_only_that = all(
        isinstance(meaning, Count | Grade | Pest) or meaning in _AROUND_A_COUNT for meaning in items
    )
    if found is None or len(counts) != 1 or len(pests) > 1 or not is_only_that:
        return None
    pest = pests[0].key if pests else found.pest
    if isinstance(counts[0], Grade):
        return (replace(found, grade=counts[0], count=None, pest=pest), GoOn())
    number = whole_count(counts[0].value)
    return (replace(found, grade=None, count=number, pest=pest), GoOn()) if number else None
