"""Who did what on some days: "what did Bo do yesterday", "did Bo spray the ivy on sunday"."""

from datetime import date

from bot.actions.ask import Ask, Topic
from bot.actions.situation import Situation
from bot.domain.identity import MemberId
from bot.phrases.days import Period, day_behind, when_at
from bot.phrases.items import items_of
from bot.phrases.lexicon import listed
from bot.phrases.names import Plants

_ALL = listed("we us you they everybody everyone anybody anyone somebody someone")
_IN_BETWEEN = listed("do done did get on in the this that so far already both all please ? . ! ,")
_AWAY = listed("while when since i was were am been is we gone away left trip holiday")
_TODAY = listed("today tonight morning afternoon evening now")
_GREETING = listed("i am we are back home again hi hello hey so ok . ! ,")


def read_doings(words: tuple[str, ...], situation: Situation) -> tuple[Ask] | None:
    """Read a question for what somebody did, every word of it understood; a greeting may come before."""
    start = next((at for at, word in enumerate(words) if word in {"what", "did", "has", "have"}), None)
    if start is None or not set(words[:start]) <= _GREETING:
        return None
    is_open = words[start] == "what"
    if is_open and words[start + 1 : start + 2] not in {("did",), ("has",), ("have",)}:
        return None
    at = start + 1 + is_open
    is_anybody, who = _who(words[at : at + 1], situation)
    if not (is_anybody or who is not None):
        return None
    rest = words[at + 1 :]
    when, on, left = _when(rest, situation)
    if is_open:
        is_read = "do" in rest or "done" in rest or "did" in rest
        return (Ask(topic=Topic.LOG, who=who, when=when, on=on),) if is_read and not left else None
    plants = [one.meaning.ids for one in items_of(rest, situation) if isinstance(one.meaning, Plants)]
    if who in {None, situation.speaker} or len(plants) != 1 or len(plants[0]) != 1:
        return None
    return (Ask(topic=Topic.LOG, who=who, plants=plants[0], when=when, on=on),)


def _who(word: tuple[str, ...], situation: Situation) -> tuple[bool, MemberId | None]:
    """Give whether all are asked about, or which member."""
    said = word[0] if word else ""
    if said == "i":
        return False, situation.speaker
    named = (one for one, name in situation.members if name.casefold().split()[:1] == [said])
    return said in _ALL, next(named, None)


def _when(words: tuple[str, ...], situation: Situation) -> tuple[str | None, date | None, list[str]]:
    """Give the days asked about, and the words that say something else."""
    if "away" in words or "gone" in words or ("left" in words and "since" in words):
        return "away", None, [one for one in words if one not in _AWAY | _IN_BETWEEN]
    found: tuple[str | None, date | None] = (None, None)
    left, at = [], 0
    while at < len(words):
        told = when_at(words, at, situation) if words[at] not in _TODAY else None
        if told is None:
            if words[at] in _TODAY:
                found = "today", None
            elif words[at] not in _IN_BETWEEN:
                left.append(words[at])
            at += 1
            continue
        day = told[0]
        if isinstance(day, Period):
            found = day.name, None
        elif isinstance(on := day_behind(day, situation), date):
            found = None, on
        at += told[1]
    return *found, left
