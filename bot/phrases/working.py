"""The work day: "work day", "clean-out for hoya and ivy", and what answers its stages."""

from bot.actions.action import Expecting
from bot.actions.situation import Situation
from bot.actions.work_through import BeginWork, EndWork, TickWork
from bot.domain.trade import Method
from bot.phrases.asking import Meant
from bot.phrases.items import items_of
from bot.phrases.lexicon import Tool, Word, any_of, listed, sayings, words_in
from bot.phrases.names import Plants

_BEGINS = sayings(
    "work day | workday | start work day | begin work day | let us do them all | let is do them all"
    " | let us do all of them | do them all today | big day | continue work day | go on with work day"
)
_PLANS = sayings(
    "plan a clean out for | clean out for | a clean out for | plan a work day for | work day for"
    " | work day with"
)
_ENDS = frozenset({"end work day", "cancel work day", "work day is over"})
_PAUSES = any_of(
    "stop | stop for today | enough | enough for today | tomorrow | later | go on tomorrow | rest tomorrow"
)
_LEFT_OUT = frozenset({"skip", "skip it", "skip this", "leave it out", "leave out", "next"})
_COURTEOUS = listed(". ! , the please")
_DONE = listed("done finished ready yes ok")
SPOKEN = words_in((*_BEGINS, *_PLANS, *_ENDS, *_PAUSES))
"""Words known here, that a slip may be a slip of."""


def read_work(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read the beginning or the end of a work day, at any time."""
    said = " ".join(word for word in words if word not in _COURTEOUS)
    if said in _BEGINS:
        return (BeginWork(),)
    if said in _ENDS:
        return (EndWork(is_for_good=True),)
    for opening in _PLANS:
        if said.startswith(f"{opening} "):
            return _with_plants(words, situation, is_clean_out="clean out" in opening)
    return None


def _with_plants(words: tuple[str, ...], situation: Situation, *, is_clean_out: bool) -> Meant | None:
    items = items_of(words, situation)
    plants: list[int] = []
    for item in items:
        if isinstance(item.meaning, Plants):
            plants += item.meaning.ids
        elif not (
            item.text in {"plan", "work day", "work", "day"} or isinstance(item.meaning, Word | Tool | Method)
        ):
            return None
    known = tuple(plant.id for plant in situation.plants if plant.id in plants)
    if not known:
        return None
    return (BeginWork(known, known if is_clean_out else ()),)


def read_tick(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read what answers the open stage: "done", "done except bay", "skip", "stop for today"."""
    if situation.expecting is not Expecting.WORK:
        return None
    said = " ".join(word for word in words if word not in {".", "!", ","})
    if said in _PAUSES:
        return (EndWork(),)
    if said in _LEFT_OUT:
        return (TickWork(is_left_out=True),)
    if said in _DONE or said in {"all done", "done with this", "that is done"}:
        return (TickWork(),)
    return None
