"""What is left out before a message is read: a log's heading, and what is taken back in the same breath."""

import re
from collections.abc import Collection
from datetime import datetime, timedelta
from itertools import pairwise
from typing import NamedTuple

from bot.actions.situation import Situation
from bot.domain.identity import PlantId
from bot.domain.trade import Method
from bot.phrases.days import MONTHS, WEEKDAYS, Clock, Day, Every, MonthDay, Murky, Period, Weekday, day_behind
from bot.phrases.home_words import ROOMS, kind_at
from bot.phrases.items import Meaning, OfMonth, Span, Unknown, next_at
from bot.phrases.lexicon import Tool, Word, listed, words_of_class
from bot.phrases.names import OneOf, Pest, Place, Plants, Product, names_of
from bot.phrases.numbers import Count, UnclearVolume, Volume, Warmth, number_at
from bot.phrases.text import LONGEST, placed_words_of, plain, words_of

_FRAGMENTS = re.compile(r"(?<=[^\W\d]) / (?=\S)|(?<=\d) / (?=[^\W\d])")
"""Set apart as by commas: “sprayed the ivy / not the fern”; “1 / 2” is a number."""
_WITH_NO = re.compile(r"\bwith no\b(?! \w+ (?:on|in|at)\b)", re.IGNORECASE)
TURNS = listed("nah nope sorry wait mean meant rather scratch correction oops")
"""What sets right what stands before it."""
_NO = frozenset({"no"})
_AROUND = listed(
    "no i it is was to make that or hang on actually er erm um uh oh well lol haha , - only more like closer"
)
_MAKES = frozenset({("make", "that"), ("make", "it"), ("more", "like"), ("closer", "to")})
_MEANT = frozenset({("i", "mean"), ("i", "meant")})
_ARTICLES = listed("the a an my our to at in on")
_LEADING = listed("at on in")
_BEFORE_A_NAME = listed("the a an my our some much more with of")
_DAYS = (Day, Weekday, MonthDay, Murky, OfMonth, Span, Period)
_KINDS: tuple[tuple[type, ...], ...] = (
    *(_DAYS, (Count,), (Clock,), (Volume, UnclearVolume), (Warmth,), (Method, Tool), (Every,)),
    *((Product,), (Place,), (Pest,), (Plants, OneOf), (str,)),
)
_THINGS = (Product, Place, Pest, Plants, OneOf, str)
_OF_AN_ENTRY = (Method, Tool, Plants, OneOf, Pest, str)
_TOLD = frozenset({Word.DONE, Word.CHECKED, Word.SAW, Word.CLEAN, Word.NOTHING, Word.LOST})
_BEHIND_A_HEADING = frozenset({",", "-", ":", ".", "\n", ";", "|"})
_ORDINAL = frozenset({"st", "nd", "rd", "th"})
_SUFFIXES = _ORDINAL | {"day", "days"}


class _Said(NamedTuple):
    at: int
    end: int
    meaning: Meaning | str
    """A kind of plant nobody has here is its words."""


def told_of(text: str, situation: Situation) -> str:
    """Give a message without courtesies, a log's heading and what is set right; rooms are spelt out."""
    text = _ROOM.sub(lambda found: _ROOMS[(found[1] or "")[-1:].lower()], text)
    text = _SHOUTED.sub("", _without_headings(_without_courtesies(text, situation), situation))
    if len(text) > LONGEST:
        return text  # too long to be read at all
    text = _HAS.sub(lambda found: f"{found[1]} has " if found[1].lower() in _ROOM_HEADS else found[0], text)
    text = _SOME_OF.sub(r"\1", _REASON.sub("", text))
    text = _SOAPED.sub(r"spray\2 with \1", _WITH_NO.sub("without", _FRAGMENTS.sub(", ", text)))
    text = _NEITHER_HAS.sub(
        lambda found: f"on {found[1]} and {found[2]} {(found[3] and 'nothing') or 'no '}", text
    )
    text = _NO_LONGER.sub("not", _NEITHER.sub(r"not\1 and not ", text))
    text = "not done" if _is_nothing_done(words_of(plain(text))) else _NOT_ME.sub(_by_another, text)
    text = _of_a_find(_of_two_works(_used_up(text, situation), situation), situation)
    words = words_of(plain(text))
    is_turned = not ((TURNS | _NO).isdisjoint(words) and _MAKES.isdisjoint(pairwise(words)))
    is_parted = "from" in words and ("apart" in words or not _AWAY.isdisjoint(words))
    is_of_people = not (_PEOPLE | _ACTS | {"by"}).isdisjoint(words)
    if not (is_turned or is_parted or is_of_people or (words and _is_dated(words[0]))):
        return text
    said = _said(words, situation)
    cut = _heading(words, said, situation) + (_taken_back(words, said) if is_turned else [])
    cut += _people(words, said)
    parted = _parted_from(words, said) if is_parted else []
    return _without(plain(text), sorted([*cut, *parted]), {at for at, _ in parted}) if cut or parted else text


_NEITHER_HAS = re.compile(
    r"\bneither ([^.!?\n]*?),? nor ([^.!?\n]*?) (?:has|have|had|got|shows?) (?:got |any )?(anything\b)?",
    re.IGNORECASE,
)
_NEITHER = re.compile(r"\bneither\b([^.!?\n]*?),? nor ", re.IGNORECASE)
_NO_LONGER = re.compile(
    r"\bno longer\b(?! (?:have|own|keep|with|here|there|alive|in|isolated|separated?|apart|alone)\b)",
    re.IGNORECASE,
)
_ROOM_HEADS = ROOMS | listed("area nook")
_HAS = re.compile(r"\b(\w+)'s (?=an? )")
"""“The hall's a fern and an ivy”."""
_REASON = re.compile(
    r"\s*\((?:because|since|(?=i\b)\w+ (?:looked|checked|read|counted|hope|think|guess))\b[^()\d]*\)",
    re.IGNORECASE,
)
"""“(because it says so)” tells nothing of its own."""
_SOME_OF = re.compile(r"\b((?:got|has|have|saw|found) )some of (?=(?:those|these|them)\b)", re.IGNORECASE)
"""“Got some of those bugs” counts none."""
_SOAPED = re.compile(r"(?<!\ba )(?<!\bthe )\b(soap|oil)(ed|ing)\b(?: (?:up|down)\b)?", re.IGNORECASE)
"""“Wiped and soaped the hoya”, as its step is called."""
_ROOM = re.compile(r"(?<=[a-z] )(?<!\bthe )(?<!\ba )(be?d|ba?th)?rm\b(?! temp)", re.IGNORECASE)
_ROOMS = {"": "room", "d": "bedroom", "h": "bathroom"}
"""By how what stands before "rm" ends."""


_HEADING = re.compile(
    r"(?:^|(?<=[.!?;\n]))\s*(?:(?:i (?:have|keep|own|grow)|my|our|the|some) )?"
    r"(?P<of>succulents|cacti|cactuses|orchids|ferns|palms|herbs|house ?plants|tropicals|edibles|flowers)"
    r"\s*:\s*(?=[^.:\n]*,)",
    re.IGNORECASE,
)
"""“Succulents: jade, aloe in the den” heads a list of them."""


_SHOUTED = re.compile(r"^\s*(?:no+|nope|nah)\s*!+\s*(?=\w+\W+\w+\W+\w+)", re.IGNORECASE)
"""“No! ivy and jade are clean” denies what was said before, and nothing behind it."""
_SOON = 3
"""Within so many words behind a heading the first plant is named. Judgement. [1]"""


def _without_headings(text: str, situation: Situation) -> str:
    """Leave out what heads a list of plants, and is no plant of the home itself."""

    def heads(found: re.Match[str]) -> str:
        behind = words_of(plain(text[found.end() :]))
        own = names_of(situation).exact_at(words_of(plain(found["of"])), 0)
        is_list = any(kind_at(behind, at, situation.kinds) for at in range(min(len(behind), _SOON)))
        return "" if is_list and own is None else found[0]

    return _HEADING.sub(heads, text)


def _without_courtesies(text: str, situation: Situation) -> str:
    """Leave out "Dear Ada,", "Why," and "Kind regards, Bo": they tell nothing."""
    opening = _OPENING.match(text)
    if opening and not _is_of_the_home(opening["name"], situation):
        text = text[opening.end() :]
    text = _WHY.sub("", text, count=1)
    ending = _ENDING.search(text) or _SIGNED.search(text)
    return text[: ending.start()] if ending and text[: ending.start()].strip() else text


def _is_of_the_home(name: str, situation: Situation) -> bool:
    words = words_of(plain(name))
    meaning, _ = next_at(words, 0, situation)
    return not isinstance(meaning, Unknown) or bool(kind_at(words, 0, situation.kinds))


_OPENING = re.compile(
    r"\s*(?i:dear(?:est)?|hello|hi+|hey|howdy|hiya|good (?:morning|evening|day|afternoon))"
    r"[ ]+(?P<name>[A-Z][^\W\d]+|bot|robot|sir|madam)[ ]*(?:[,!\n]|\.(?=\s*\S))\s*"
)
_WHY = re.compile(
    r"^\s*why,\s+(?=(?:that|the|my|our|this|those|these|in|there|i|we)\b[^?]*$)"
    r"(?!.*,\s*(?:was|were|is|are|did|do|does|has|have)(?:n't)?\s+\w+\W*$)",
    re.IGNORECASE | re.DOTALL,
)
"""“Why, that window looks south” wonders at what it tells."""
_ENDING = re.compile(
    r"(?<=[.!?\n])\s*(?i:(?:(?:with|kind|kindest|best|warm|warmest|many|my|every|good|all)\s+)*"
    r"(?:regards|wish|wishes|gratitude|respect|yours|respectfully|sincerely|kindly|warmly)"
    r"(?:\s+(?:truly|sincerely|warmly|faithfully|ever|to you))*\s*[,\n]\s*(?:your\s+)?)"
    r"[A-Z][^\W\d]+\W*$"
)


_SIGNED = re.compile(
    r"(?<=[.!?\n])\s*(?:(?i:(?:with\s+)?(?:yours|best|kind|many|warm|thanks?|love|cheers|sincerely|regards"
    r"|respectfully|faithfully|gratefully))(?:[^\S\n]+[\w']+){0,4}[^\S\n]*,\s*[A-Z]\w*\.?"
    r"|\n\s*[A-Z]\.)\s*$"
)
"""A letter's last line: a name or its first letter, and its closing formula above."""


def _people(words: tuple[str, ...], said: list[_Said]) -> list[tuple[int, int]]:
    """Find plants' names that are people's: "Ivy (my aunt) did it", "Jade sprayed the hoya", "by Jade"."""
    cut = []
    for at, one in enumerate(said):
        before, behind = words[max(0, one.at - 3) : one.at], words[one.end :]
        begin = one.at - (not _ARTICLES.isdisjoint(before[-1:]))
        is_by = words[max(0, begin - 1) : begin] == ("by",) and any(map(_is_done, said[:at]))
        is_by = is_by and not (behind[:1] and behind[0].isdigit()) and words[max(0, begin - 2)] not in _MARKS
        if is_by and isinstance(one.meaning, _NAMES):
            cut.append((begin - 1, one.end))
        if is_by or begin < one.at or not isinstance(one.meaning, _NAMES):
            continue
        kin = next((place for place, word in enumerate(behind) if word in _PEOPLE), 0)
        our = next((place for place, word in enumerate(behind[:kin]) if word in _OUR), 0)
        is_of_kin = our > 0 and behind[:1] in _APART and behind[kin + 1 : kin + 2] in _APART
        is_behind_kin = not _PEOPLE.isdisjoint(before[-1:])  # "my friend Jade sprayed", "by my son Basil"
        if is_of_kin and kin <= _LONGEST_PERSON:
            cut += [(one.at, one.end + our), (one.end + kin + 1, one.end + kin + 2)]
        elif is_behind_kin and ("by" in before or not _ACTS.isdisjoint(behind[:1])):
            cut.append((one.at, one.end))
        elif not before or before[-1] in _MARKS:
            cut += _subject(words, said[at:])
    return cut


def _subject(words: tuple[str, ...], said: list[_Said]) -> list[tuple[int, int]]:
    """Find a name that a clause begins with and that does something to another plant."""
    end = said[0].end
    act = next((at for at in range(end, len(words)) if words[at] in _ACTS), len(words))
    between, is_of_two = words[end:act], words[end : end + 1] == ("and",)
    is_person = words[end : end + 1] == ("from",) or _AROUND_AN_ACT.issuperset(between[is_of_two:])
    thing = next((one for one in said if one.at > act and isinstance(one.meaning, _NAMES)), None)
    if thing is None or not is_person or len(between) > _LONGEST_PERSON:
        return []
    led = words[act + 1 : thing.at]
    is_led = led in _DETERMINERS or (words[act] in _SEES and "on" in led and _MARKS.isdisjoint(led))
    behind = [one for one in said if one.at >= thing.end][:1]
    is_all = all(words[one.at] not in _MORE and _goes_on(one.meaning) for one in behind)
    return [(said[0].at, end + 1 if is_of_two else act)] if is_led and is_all else []


def _is_done(said: _Said) -> bool:
    return isinstance(said.meaning, Method) or said.meaning is Word.DONE


def _goes_on(meaning: Meaning | str) -> bool:
    """Whether it tells nothing of the plant before it: "ivy sprayed the hoya clean" does."""
    return not isinstance(meaning, Method | Count | Word) or meaning in {Word.FILLER, Word.BREAK, Word.AND}


_NAMES = (Plants, OneOf, str)
_PEOPLE = words_of_class("idle", "people") - listed("people ppl")
_APART = {("(",), (",",), (")",)}
_OUR = listed("my our his her their the")
_ACTS = listed(
    "sprayed wiped rinsed washed pruned treated swabbed dabbed did checked inspected moved repotted misted"
    " saw found noticed spotted counted says said thinks reckons"
)
"""What people do and plants do not."""
_SEES = listed("saw found noticed spotted counted")
_DETERMINERS = {("the",), ("my",), ("our",), ("all", "the"), ("both",)}
_AROUND_AN_ACT = _PEOPLE | listed("i we he she they has had have just already kindly also then")
_LONGEST_PERSON = 4
_MARKS = frozenset({".", "!", "?", "\n", ";", ","})
_MORE = listed("too also as next later")


def _parted_from(words: tuple[str, ...], said: list[_Said]) -> list[tuple[int, int]]:
    """Find the plants that another was moved away from: of them nothing is told, they are "the others"."""
    starts = {one.at: one for one in said}
    cut = []
    for at in (at for at, word in enumerate(words) if word == "from"):
        begin = max((one + 1 for one in range(at) if words[one] in _BEGINS), default=0)
        before = words[begin:at]
        is_apart = before[-1:] == ("apart",) and not _PUT.isdisjoint(before[-4:-1])
        is_moved = is_apart or not (_AWAY.isdisjoint(before) or _MOVED.isdisjoint(before))
        plants = [one for one in said if begin <= one.at < at and isinstance(one.meaning, Plants | OneOf)]
        is_moved = before == ("away",) or (is_moved and bool(plants or _IT & {*before}))
        if not is_moved:
            continue  # "all sprayed apart from the ivy" leaves it out
        ends, end = [], at + 1
        while end in starts and _is_run_on(starts[end].meaning):
            if isinstance(starts[end].meaning, Plants | OneOf):
                ends.append(starts[end].end)
            end = starts[end].end
        if not ends:
            continue
        is_whole = words[ends[-1] : ends[-1] + 1] == () or words[ends[-1]] in _ENDS_A_CLAUSE
        cut.append((at + 1, ends[-1] if is_whole else ends[0]))  # "away from the ivy and coffee wiped"
    return cut


def _is_run_on(meaning: Meaning | str) -> bool:
    return isinstance(meaning, Plants | OneOf) or meaning in {Word.FILLER, Word.AND}


_AWAY = listed("away separate separated separately isolated")
_PUT = listed("set kept keep keeping stands standing stand put")
_MOVED = _PUT | listed("moved move moving took taken take carried separated isolated is now")
_IT = frozenset({"it", "her", "him"})
_BEGINS = frozenset({",", ".", ";", "!", "\n", "and", "but"})
_ENDS_A_CLAUSE = _BEGINS | listed(
    "? now today already yesterday tonight to in on for because with so since until as into onto at by"
)


def _of_two_works(text: str, situation: Situation) -> str:
    """Say "all done" for "both done" where one plant is to have two treatments tonight, and no other."""
    words = words_of(plain(text))
    works = [one for one in situation.tonight if one.method is not None and not one.is_done]
    is_of_one = len(works) == len("xy") and len({one.plant for one in works}) == 1
    is_bare = not _BOTH_DONE.isdisjoint(pairwise(words))  # "both hoyas done" names which
    return text.replace("both", "all", 1) if is_of_one and is_bare else text


_BOTH_DONE = {("both", "done"), ("both", "are"), ("did", "both")}


def _used_up(text: str, situation: Situation) -> str:
    """Say "the soap is used up" for "the soap is finished": nothing was done with it."""

    def mended(found: re.Match[str]) -> str:
        words = words_of(plain(found["with"]))
        meaning, size = next_at(words, 0, situation)
        is_product = isinstance(meaning, Product) and size == len(words) and "spray" not in words
        return f"{found['lead']}{found['with']} used up" if is_product else found[0]

    return _FINISHED.sub(mended, text)


_FINISHED = re.compile(
    r"(?P<lead>^\s*|[,.;!\n]\s*|\b(?:but|and|as|because|since) )(?:the |my |our )?"
    r"(?P<with>[\w ]{1,30}?)(?: bottle)?"
    r" (?:is|are)(?: all)? finished(?=$|[,.;!\n])",
    re.IGNORECASE,
)


def _by_another(found: re.Match[str]) -> str:
    """Say "my wife did the jade" for "I didn't do the jade, my wife did it"."""
    if _PEOPLE.isdisjoint(words_of(plain(found["who"]))):
        return found[0]
    return f"{found['who']} did{found['rest'] or ' ' + (found['what'] or 'it')}"


def _is_nothing_done(words: tuple[str, ...]) -> bool:
    """Whether no more is said than that nothing was done: it tells of no look."""
    return "nothing" in words and not DID.isdisjoint(words) and _AROUND_NOTHING.issuperset(words)


DID = listed("did done")
_AROUND_NOTHING = DID | listed("nothing i we have has was is got today tonight at all . !")
_NOT_ME = re.compile(
    r"^\W*(?:no\W+)?i (?:did ?n[o']?t|have ?n[o']?t) (?:do|done) (?P<what>[^.,;!?\n]*?)(?: myself)?[.,;] *"
    r"(?:but )?(?P<who>(?:my |our |the )?\w+) (?:did|has done|has)(?: (?:it|that|this|them|so))?"
    r"(?P<rest>[^.,;!?\n]*)[.!]*$",
    re.IGNORECASE,
)


def _of_a_find(text: str, situation: Situation) -> str:
    """Say "scale on the ivy, 5 each, none on the fern" for "..., not on the fern, 5 each"; name "all but"."""
    words = words_of(plain(text))
    if "?" in words or not ({"all", "everything", "everywhere"} | _SPARED).intersection(words):
        return text
    said = _said(words, situation)
    kinds = {type(one.meaning) for one in said}
    is_find = Pest in kinds or any(one.meaning is Word.BUGS for one in said)
    if not is_find or not kinds.isdisjoint({Method, Tool, Product}):
        return text
    named = _with_all_named(plain(text), situation, is_bare=kinds.isdisjoint({Plants, OneOf, Place, str}))
    if named:
        return named
    clean = _NOT_ON.sub(lambda found: f"{_NONE}{found['on'] or 'on'} ", text)
    seen, spared, behind = clean.partition(_NONE)
    late = _LATE_NUMBER.search(behind)
    rest = behind[: late.start()] if late else behind
    return f"{seen}{late[1]}{spared}{rest}" if late and _ids(rest, situation) else f"{seen}{spared}{behind}"


def _with_all_named(text: str, situation: Situation, *, is_bare: bool) -> str:
    """Name the plants that "all but the ivy" means, or "they all" where none is named."""
    found = _ALL_BUT.search(text) or (_THEY_ALL.match(text) if is_bare else None)
    spared = (found.groupdict().get("out") or "") if found else ""
    out = _ids(spared, situation)
    names = [one.names[0] for one in situation.plants if one.id not in out]
    if not found or bool(spared) != bool(out) or not 0 < len(names) <= _MOST_NAMED:
        return ""
    count = number_at(words_of(found["all"]), 0) or number_at(words_of(found["all"])[1:], 0)
    if count is not None and count[0] != len(names):
        return ""  # "all three" of five
    told = f"{', '.join(names[:-1])} and {names[-1]}" if names[1:] else names[0]
    on = "on " if found["all"] in _WHERE_ALL else ""
    return f"{text[: found.start()]}{on}{told}{found['has'] or ''}{text[found.end() :]}"


def _ids(text: str, situation: Situation) -> list[PlantId]:
    """Give the plants that a run of words names."""
    said = _said(words_of(plain(text)), situation)
    return [plant for one in said if isinstance(one.meaning, Plants) for plant in one.meaning.ids]


_SPARED = listed("but not none except apart besides")
_MOST_NAMED = 20
"""So many plants are named one by one. [1]"""
_NAMED = r"(?:(?:the|my|our|on|for) )*(?P<out>[^,.;!?\n]+?)"
_ALL_BUT = re.compile(
    r"\b(?P<all>everything|everywhere|all over|all(?: of)? (?:the |my )?(?:them|plants|others)|all)"
    r"(?P<has> (?:has|have|got|had) [^,.;!?\n]+?)? (?:but|except(?: for)?|apart from|besides) "
    + _NAMED
    + r"(?=$|[,.;!\n])"
)
_THEY_ALL = re.compile(
    r"(?P<all>(?:they |we )?all(?: (?:three|four|five|six|\d+))?(?: of (?:them|my plants))?|everything)"
    r"(?P<has> (?:has|have|got))(?= )"
)
_WHERE_ALL = ("everywhere", "all over")
_NOT_ON = re.compile(
    r",?\s+(?:but not (?:(?P<in>on|in) )?(?=the |my )|(?:but )?not (?P<on>on|in) )", re.IGNORECASE
)
_NONE = ", none "
_LATE_NUMBER = re.compile(
    r"(,? (?:(?:about|around|some|roughly|maybe|ca) )?(?:\d+(?: each)?|\w+ each|few|some|many))\.?$",
    re.IGNORECASE,
)


def _heading(words: tuple[str, ...], said: list[_Said], situation: Situation) -> list[tuple[int, int]]:
    """Find today's date and a clock of the last hour in front of an entry: "20:05 wiped the ivy"."""
    end = 0
    for one in said:
        if one.at == end < len(words) and _is_dated(words[end]) and _is_now(one.meaning, situation):
            end = one.end
            while end < len(words) and words[end] in _BEHIND_A_HEADING:
                end += 1
    told = (one.meaning for one in said if one.at >= end)
    is_entry = any(isinstance(one, _OF_AN_ENTRY) or one in _TOLD for one in told)
    return [(0, end)] if end and is_entry else []


def _is_dated(word: str) -> bool:
    """Whether a day or an hour in figures begins with it."""
    return word[0].isdigit() or word in WEEKDAYS or word in MONTHS


def _is_now(meaning: Meaning | str, situation: Situation) -> bool:
    if isinstance(meaning, Clock):
        now = situation.now.astimezone(situation.zone)
        told = datetime.combine(now.date(), meaning.time, now.tzinfo)
        return timedelta() <= now - told <= timedelta(hours=1)
    return isinstance(meaning, MonthDay | Day) and day_behind(meaning, situation) == situation.today


def _taken_back(words: tuple[str, ...], said: list[_Said]) -> list[tuple[int, int]]:
    starts = {one.at: one for one in said}
    cut: list[tuple[int, int]] = []
    for one in said:
        end, turns = _turn(words, one.end)
        comma = one.end + (words[one.end : one.end + 1] == (",",))
        begin = end if turns else comma
        while begin in starts and starts[begin].meaning is Word.FILLER and words[begin] in _ARTICLES:
            begin = starts[begin].end
        instead = starts.get(begin)
        if instead is None or not _is_alike(one, instead, words):
            continue
        begin = one.at + (words[one.at] in _LEADING and words[instead.at] not in _LEADING)
        if turns and _sets_right(one, instead, turns, words):
            cut.append((begin, instead.at))
        elif comma > one.end and words[instead.end : instead.end + 2] in _MEANT:
            cut += [(begin, instead.at), (instead.end, instead.end + 2)]
    return cut


def _without(text: str, cut: list[tuple[int, int]], others: Collection[int] = ()) -> str:
    """Leave words out; where plants are only what another is kept from, they are "the others"."""
    begins = [*(begin for _, begin in placed_words_of(text)), len(text)]
    kept, at = "", 0
    for first, behind in cut:
        kept += text[at : begins[first]] + ("the others " if first in others else "")
        at = max(at, begins[behind])
        kept += " " if kept[-1:].isalnum() and text[at : at + 1].isalnum() else ""
    return (kept + text[at:]).strip()


def _said(words: tuple[str, ...], situation: Situation) -> list[_Said]:
    said: list[_Said] = []
    at = 0
    while at < len(words):
        meaning: Meaning | str
        meaning, size = next_at(words, at, situation)
        suffix = words[at + size : at + size + 1]
        if isinstance(meaning, Count) and suffix and suffix[0] in _SUFFIXES:
            number, size = int(meaning.value), size + 1
            meaning = OfMonth(number) if suffix[0] in _ORDINAL else Span(number)
        elif isinstance(meaning, Unknown) and (kind := kind_at(words, at, situation.kinds)):
            meaning, size = " ".join(words[at : at + kind]), kind
        said.append(_Said(at, at + size, meaning))
        at += size
    return said


def _turn(words: tuple[str, ...], at: int) -> tuple[int, frozenset[str]]:
    """Give where the words that turn round end, and those of them that do."""
    begin = at
    while at < len(words) and words[at] in TURNS | _AROUND:
        at += 1
    turns = (TURNS | _NO) & frozenset(words[begin:at])
    return at, turns if _MAKES.isdisjoint(pairwise(words[begin:at])) else turns | {"make"}


def _sets_right(one: _Said, instead: _Said, turns: frozenset[str], words: tuple[str, ...]) -> bool:
    between = words[one.end : instead.at]
    if turns == {"sorry"} and "," in between[between.index("sorry") :]:
        return False  # "not the hoya, sorry, the ivy is done"
    if turns != _NO or ("no", "it") in pairwise(between):
        return True
    if isinstance(instead.meaning, _THINGS):  # "no mites, no aphids" denies
        return False
    # "no 7" is one of several of a kind, and "pruned, no rinse" denies
    is_denied = isinstance(instead.meaning, Count)
    is_behind_a_comma = between[:1] == (",",)
    is_last = words[instead.end : instead.end + 1] in _ENDS  # "pruned only, no rinse tonight."
    is_behind_a_comma = is_behind_a_comma or (is_last and "," in between[: between.index("no")])
    is_denied = is_denied or (isinstance(instead.meaning, Method | Tool) and is_behind_a_comma)
    return not is_denied or "," in between[between.index("no") :]


_ENDS = frozenset((one,) for one in (".", ",", ";", "!", "\n", "tonight", "today", "yet", "now")) | {()}


def _is_alike(one: _Said, instead: _Said, words: tuple[str, ...]) -> bool:
    before = words[max(0, one.at - 2) : one.at]
    if {"not", "said", "told", "put"} & frozenset(before):
        return False  # "not the ivy, I meant the fern" sets right what was told before
    if isinstance(one.meaning, Unknown):
        return isinstance(instead.meaning, _THINGS) and before[-1:] != () and before[-1] in _BEFORE_A_NAME
    if isinstance(one.meaning, Count) and isinstance(instead.meaning, _DAYS):
        return number_at(words, instead.at) is not None  # "two, nah three days ago"
    alike = (isinstance(one.meaning, kind) and isinstance(instead.meaning, kind) for kind in _KINDS)
    return any(alike) and one.meaning != instead.meaning
