"""
Whether what was read is told to its last word: of plants here, done, when, and of all it names.

Each question has one place. What a part's words show by themselves stands in `_NOT_TOLD`; what must be
held against what would be written is `_is_told`, what parts say of each other `_IN_ALL`, a word left over
`_is_in`.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta
from itertools import pairwise

from bot.actions.action import Command
from bot.actions.incomplete import Incomplete
from bot.actions.log_check import LogCheck
from bot.actions.log_find import LogFind
from bot.actions.log_round import LogRound
from bot.actions.stock_product import StockProduct
from bot.domain.identity import PlantId
from bot.domain.label import Label
from bot.domain.trade import Form, Grade, Level, Method, Sign
from bot.domain.value import Value, cached_property, replace
from bot.phrases.days import Clock, Day, Every, Moment, Weekday
from bot.phrases.forms.filling import is_all_but, is_standing
from bot.phrases.items import Item, OfMonth, Percent, Span, Unknown, is_group
from bot.phrases.lexicon import JOINS, Spot, Tool, Word, classes_of, listed, words_of_class
from bot.phrases.mentions import GIVING, Mentions, leaves_out
from bot.phrases.names import OneOf, Pest, Place, Plants, Product
from bot.phrases.numbers import Count, Length, UnclearVolume, Volume, Warmth
from bot.phrases.setting import DATES, TIMES
from bot.phrases.values import numbers_of, plants_of, values_of

_FORMS = {
    "done": "DONE Method / ALL REST BOTH DO GOT HAD MIX NEW PUT",
    "tick": "/ ALL REST BOTH DO DONE",
    "find": "BUGS Count Grade Pest / ALL REST BOTH CHECKED GOT HAD LEFT SAW",
    "sign": "Sign / CHECKED GOT HAD SAW",
    "none": "CHECKED CLEAN NONE NOTHING / ALL REST BOTH BUGS CHECK GONE HAD LEFT SAW",
    "later": "LATER NOT NOTHING NO_TIME SKIP YET / ALL REST BOTH DO DONE MOVE NONE UNTIL",
    "isolate": "ISOLATE / AWAY EXCEPT MOVE PUT REST",
    "isolate.stays": "UNMOVABLE /",
    "move": "MOVE / ALL REST BOTH FILL_TO GOT PUT",
    "release": "BACK RELEASE / ANYWAY ISOLATE LEFT MOVE NONE NOT NOTHING PUT REST UNTIL",
    "lost": "GONE LOST / DELETE PUT",
    "temperature": "Warmth / SAW",
    "stock": "EMPTY GONE GOT LABEL LEFT NEW NONE / MIX",
    "use": "/ ALL MIX",
    "mix": "MIX / DO GOT",
    "hold": "AWAY BACK RESUME STOP / GONE UNTIL",
    "routine": "/ ALL CHECK",
    "correct.pest": "IT_IS MEANT NOT / NOTHING",
    "correct.count": "IT_IS MEANT NOT / BUGS SAW",
    "correct.plant": "MEANT / NOT",
    "endwalk": "/ STOP",
    "endwork": "/ DONE STOP",
    "pass": "/ LATER NOT SKIP",
    "hours.evening": "/ LATER",
    "hours.quiet": "/ STOP UNTIL",
    "place": "/",
    "pot": "/",
    "tell": "/ NOT",
    "animals": "/ GOT",
    "undo": "/",
    "walk": "/ ALL REST BOTH CHECK CHECKED DO",
    "work": "/ ALL REST BOTH DO DONE",
}
"""The forms that may be sure: words and kinds of mentions that call each, and what goes with it."""
_KINDS: dict[str, frozenset[object]] = {
    "Method": frozenset(Method),
    **{kind.__name__: frozenset({kind}) for kind in (Count, Grade, Pest, Sign, Warmth)},
}


def _named(row: str) -> frozenset[object]:
    """Give the steering words and kinds of mentions that a row names."""
    return frozenset[object]().union(*(_KINDS.get(name) or {Word[name]} for name in row.split()))


_LINKS: frozenset[object] = _named("FILLER AND BREAK BUT IT THEM IT_IS FILL_TO SAW")
_CALLS = {head: _named(row.partition("/")[0]) for head, row in _FORMS.items()}
_KNOWN = {head: _LINKS | _named(row.replace("/", "")) for head, row in _FORMS.items()}
_MANY = (Word.ALL, Word.REST, Word.BOTH)
_GENERAL = words_of_class("idle", "words", "people")
"""Words that carry nothing: courtesies, what leads from one thing to the next, how somebody felt about it."""
_IDLE = {head: words_of_class("idle", head) for head in _FORMS if head in classes_of("idle")}
_PEOPLE = words_of_class("idle", "people")
_CAREFUL = words_of_class("idle", "careful")
_DATED = listed("done find sign none isolate move release lost temperature use")
_AHEAD = listed("later hold")
_TIMED = listed("later hours.evening hours.quiet")
_ALL_BUT = listed("done tick none later")
"""The forms that may leave plants out."""
_NEEDED = listed("done mix stock correct.count correct.pest correct.plant")
"""Forms that what they name does not tell without a word that calls them: "hoya neem" is no round."""
_MOST_DAYS = 6
_MOST_AT_A_WORD = 12
"""Looks at more plants are not written by a word that names none of them. [1]"""
_ROUNDED = 0.06
_SOON = timedelta(days=1)


class Part(Value, dict=True):
    """A part of a message, the form it tells, and what that would do."""

    head: str
    told: Mentions
    commands: tuple[Command, ...]

    @cached_property
    def values(self) -> frozenset[object]:
        """All plain values but numbers that it would write."""
        return values_of(self.commands)

    @cached_property
    def numbers(self) -> frozenset[float]:
        """All numbers that it would write."""
        return numbers_of(self.commands)


def is_called(head: str, told: Mentions) -> bool:
    """Whether a word that calls the form stands in a part."""
    if head == "done" and (told.is_let_loose() or told.is_given()):
        return True
    if head == "move" and is_standing(told):
        return True
    if head == "later" and told.is_ahead() and isinstance(told.ahead(), date):
        is_one = told.calling.isdisjoint({Word.BREAK, Word.AND, Word.BUT})
        is_past = any(isinstance(one.meaning, Method) and one.text.endswith("ed") for one in told.items)
        return not is_one or (told.calling.isdisjoint(_OF_THE_PAST) and not is_past)
    return not told.calling.isdisjoint(_CALLS.get(head, ()))


_OF_THE_PAST = _named("ISOLATE DONE CLEAN NONE NOTHING Count Grade")


def strange_words(head: str, told: Mentions) -> int:
    """Count the steering words of a part that its form does not know."""
    known = _KNOWN.get(head, _LINKS)
    return sum(isinstance(one.meaning, Word) and one.meaning not in known for one in told.items)


def is_idle(word: str, head: str) -> bool:
    """Whether a word carries nothing beside a form."""
    return word in _GENERAL or word in _IDLE.get(head, ())


def whole(commands: Iterable[Command]) -> Iterator[Command]:
    """Give what commands would do; a question what its first answer would."""
    for one in commands:
        if isinstance(one, Incomplete) and one.choices:
            yield from one.choices[0].commands
        else:
            yield one


class Left(Value):
    """A word that nothing accounts for, which may carry nothing there; and the form of its part, if any."""

    head: str
    items: tuple[Item, ...]
    at: int

    @property
    def around(self) -> tuple[str, str, str]:
        """The word, what stands before it, and what behind."""
        before = word_or_kind(self.items[self.at - 1]) if self.at else "^"
        behind = word_or_kind(self.items[self.at + 1]) if self.at + 1 < len(self.items) else "$"
        return word_or_kind(self.items[self.at]), before, behind


def word_or_kind(item: Item) -> str:
    """Give a word as it stands, or what kind of thing a name or a number is."""
    return item.text if isinstance(item.meaning, Unknown | Word) else type(item.meaning).__name__


def left_over(parts: Sequence[Part], skipped: tuple[Item, ...]) -> tuple[Left, ...] | None:
    """
    Give the words that may carry nothing where all else is accounted for; None where more is left.

    What is accounted for calls its form, is in what it would do, or carries nothing.
    """
    if not all(map(_is_told, parts)) or any(one(parts) for one in _IN_ALL):
        return None
    left = [Left("", skipped, at) for at, item in enumerate(skipped) if not _is_nothing(item)]
    for part in parts:
        meant = replace(part, commands=tuple(whole(part.commands)))
        plants, items = frozenset(plants_of(meant.commands)), part.told.items
        over = (at for at, item in enumerate(items) if not _is_in(item, at, meant, plants))
        left += [Left(part.head, items, at) for at in over]
    return tuple(left) if all(map(_may_be_idle, left)) else None


def _may_be_idle(left: Left) -> bool:
    """Whether what is left over is no name, number, denial or other thing by itself."""
    item = left.items[left.at]
    is_asked = any(one.meaning is Word.QUESTION for one in left.items)
    is_giving = left.head == "done" and item.text in GIVING
    if left.head in _FINAL or is_asked or is_giving or leaves_out(item) or item.text in _CAREFUL:
        return False
    if isinstance(item.meaning, Unknown):
        return any(map(str.isalpha, item.text)) or not item.text.isascii()
    is_carrying = item.text not in _EASY if item.meaning is Word.HEDGE else item.meaning in _CARRYING
    return isinstance(item.meaning, Word) and left.head not in _VALUED and not is_carrying


_FINAL = listed("lost release")
"""Forms that end what is done for a plant."""
_VALUED = listed("routine place pot temperature stock hours.evening hours.quiet tell animals")
"""Forms of a value, which a steering word may change."""
_EASY = listed("because since by near from same when before after like which who think hope be being doing")
"""What hedges in some places, and in others only leads on: what stands around it tells."""
_CARRYING = _named("ALL REST BOTH NOT EXCEPT UNTIL NONE NOTHING")


def _is_nothing(item: Item) -> bool:
    return item.text in _GENERAL if isinstance(item.meaning, Unknown) else item.meaning in _LINKS


_OF_THE_PLANT = "done find sign none lost"
_OUR = "(?:(?:IT:)?(?:my|our|an?|the|his|her|their|some|that|this)~? )"
_POT = r"(?:\w+:)?(?:pots?|saucers?|trays?|stands?|shelf|shelves|labels?|covers?)\b"
_WHOLLY = r"(?:ALL|\S*\b(?:whole|fully|completely|entirely|properly|totally|everywhere|quite)\b)"
_LOOKED = (
    "CHECKED|CLEAN|NONE|BUGS|SAW|GONE|PEST|SIGN|on|in|there|inside|under|found|seen|see|saw|left|anymore"
)
_NOT_TOLD = (
    # Whose is it?
    (
        "any",
        r"(?:HIM|\b(?:my|our) (?:boss|mates?|pals?|buddy|bro|man|girl|boy|chief)~) (?:PLANT|PLACE)",
    ),  # "my friend's hoya"
    (_OF_THE_PLANT, rf"\b(?:at|of|for|in|round|over) {_OUR}*HIM"),
    (_OF_THE_PLANT, r"\bat \S*\bwork\b"),
    ("stock", rf"\bfor {_OUR}*HIM|(?:NONE|NOT|EMPTY|GONE).* (?:the )?\S*\b(?:shops?|stores?)\b"),
    (
        "done none",
        r"^(?!.*\b(?:me|i)\b).*HIM:(?:neigh|friend|coll|guest|land)\S* (?:\S+ ){0,2}(?:DID|DONE)",
    ),
    ("hold", r"^(?!.*\b(?:i|we|us|me|our)\b).*HIM"),
    # Is it done, or wished, usual, denied, and not all of it?
    (
        "done none",
        rf"(?:^|BREAK |FILL_TO |AND |\bplease |\bus~? )(?:\w+:)?(?:get|have|keep)~? {_OUR}*(?:PLANT|ALL)",
    ),
    ("done none", r"\bsure\b.* (?:PLANT|ALL)|\bsee IT\b.* PLANT"),
    (
        _OF_THE_PLANT,
        r"\b(?:normally|usually|generally|typically|regularly|rule|(?:always|often)~? (?:DID|gets?|is))\b",
    ),
    (
        "done none",
        r"(?:DONE:(?!\S*did\b)\S++|DID|CLEAN|NONE|CHECKED)(?: (?!PLANT|BREAK:,)\S+)* NOT(?: BREAK| \W)*$",
    ),
    ("done none later", rf"(?:NOT|EXCEPT)(?: quite~?)? {_WHOLLY}"),
    ("none", r"NOT (?:CLEAN|NONE)"),
    ("later", r"^(?=.*(?:DID|WAY)).*DO NOT"),  # "don't spray the hoya"
    (
        "lost release",
        r"HEDGE:(?:looks?|seems?|may|might|maybe|almost|nearly|half|w?c?ould|will|can|should|need|want)",
    ),
    # When?
    ("any", r"NOT DAY"),
    (
        "later",
        r"^(?!.*DAY).*UNTIL|EXCEPT(?: \S+)* PLANT(?: \S+)* (?:UNTIL|DAY)",
    ),  # "skipping hoya till friday"
    ("message", r"^DAY (?:BREAK:[.!/]|:) \S"),  # "Tuesday. Rain again."
    ("later", r"^CLOCK (?::|-|BREAK)"),  # "20:59 - did not do the ivy"
    ("done none", r"\b(?:when|once|if|until)\b(?: \S+){0,2} (?:am|is|are|get|gets|home|back|ready|dry)\b"),
    (
        " ".join(_DATED),
        r"OF_DAYS(?: \S+)? (?:DAY|SPAN)|(?:DAY|SPAN) OF_DAYS",
    ),  # "day fore yesterday"
    # Of what?
    ("isolate", r"^(?=.*SPAN).*\b(?:since|already|ago)\b"),
    ("move", r"\bfrom PLACE"),
    ("later done", r"NOT.* (?:with|using) IT"),  # "soap on the ivy, not the hoya with it"
    ("done", rf"(?:DID|WAY) {_OUR}+(?:{_POT}|[a-z]\S*~)(?!\S| PLANT)"),  # "washed my hands after the hoya"
    ("done none", rf"PLANT {_POT}"),
    ("none", r"\ban? CLEAN PLANT"),
    (_OF_THE_PLANT, r"\bin (?:my|me|our)~? \S*\b(?:head|mind|dreams?)\b"),
    ("done none later isolate move", r"^(?!ALL)(?:\S+ )?you~? (?:said|told|wrote)\b"),
    (
        "later denied message",
        r"\b(?:wait|sorry)\S* (?:BREAK )?(?:NOT )+(?:the |IT ?)*(?:PLANT)?(?: ?BREAK|$)",
    ),
    ("later denied message", r"NOT.*\b(?:other|meaning|thinking)\b"),
    ("lost", r"FILL_TO (?:me|us|him|her|you|them)\b|LOST:(?:is-)?lost on\b|LOST (?:STRANGE|down\b)"),
    ("none later denied", r"PLANT (?:yes|yeah|yep|yup|aye)\b|(?:NOT|EXCEPT).*\byes (?:the )?PLANT"),
    (
        "none",
        r"^(?!.*\b(?:ALL|all|every)).*(?:NOTHING|NONE).*\b(?:only|just)(?: on| in| the)* (?:PLANT|PLACE)",
    ),
    ("none", rf"^(?!.*\b(?:{_LOOKED})\b).*(?:HAD|GOT|\b(?:had|got|gets?|gave|given|works?|helps?)\b)"),
    ("stock", r"NOT EMPTY"),
    ("done none", r"\b(?:b[ui]gger|sod|naff|jack)\S* ALL"),  # did nothing
    (
        "later denied",
        r"NOT (?:the )?PLANT BREAK:[.!;/] (?:the )?PLANT(?: BREAK)*$|\b(?:mistake|undo)\b|NOT \S*\bsure\b",
    ),
    ("none", r"ALL \S*\b(?:sides|leaves|round|angles|parts)\b"),
    ("use", r"\b(?:need|want|like|will)\b"),
    ("later denied", r"(?:NOT|\bwithout|\bno more) (?:\w+ )?PRODUCT.* NOT"),  # "no soap so no ivy"
    ("find", r"DAY the COUNT|\b(?:round|step|room|stage|part|day|week|page) COUNT"),
    ("find", r"COUNT (?:SPOT|(?:\w+:)?(?:things?|jobs|plants|pots|places|questions)\b)"),
    ("find", r"COUNT STRANGE(?! (?:PEST|BUGS))|^(?!.*(?:PEST|BUGS)).*STRANGE COUNT"),
    # What else may a word be?
    ("any", r"(?:PLANT|PLACE|PRODUCT) STRANGE|STRANGE (?:PLANT|PLACE|PRODUCT)"),  # it may be of the name
    (
        _OF_THE_PLANT,
        r"\b(?:at|outside|in|on|by|of|down|behind)(?: the~?| an?~?| IT:the| my~?| our~?)? STRANGE",
    ),  # elsewhere
    (_OF_THE_PLANT, r"BUT(?: \S+)* STRANGE"),
    (_OF_THE_PLANT, r"\b(?:has|insists?|according|says|claims?)~? (?:it|IT:\S+|PLANT|to)\b"),  # hearsay
    ("routine place", r"STRANGE"),
)
"""
What shows that a part is none of some forms: a row a reason, under the question that it answers.

Words stand as they were typed, what they name in capital letters: "my HIM sprayed the PLANT".
"""


def _expression(head: str) -> re.Pattern[str]:
    rows = [row for heads, row in _NOT_TOLD if head in heads.split() or (heads == "any" and head in _FORMS)]
    return re.compile(re.sub(r"\b[A-Z][A-Z_]+\b(?!:)", lambda one: one[0] + r":\S++", "|".join(rows)))


_SHOWS = {head: _expression(head) for head in (*_FORMS, "denied", "message")}


def _shown(item: Item, head: str) -> str:
    """Give an item as it stands in the rows: its kind and its words, or the words alone."""
    match item.meaning:
        case Word.FILLER:
            return item.text
        case Word() as word:
            kind = word.name
        case Method():
            kind = "WAY" if item.text in _BARE else "DID"
        case Unknown():
            kind = _kind_of_a_word(item, head)
        case Plants() | OneOf():
            kind = "PLANT"
        case meaning:
            is_day = isinstance(meaning, (*DATES, OfMonth))
            kind = "DAY" if is_day else type(meaning).__name__.upper()
    if kind == "~":
        return item.text + kind
    return kind + ":" + item.text.replace(" ", "-").replace("\n", "/") if kind else item.text


def _kind_of_a_word(item: Item, head: str) -> str:
    """Tell of a word nobody listed whether it carries nothing, "~", or may carry something."""
    word = item.text
    if word in _PEOPLE:
        return "HIM"
    if word in _OF_DAYS and is_idle(word, head):
        return "OF_DAYS"
    if word in _IDLE.get(head, ()):
        return "OWN"
    if word in _GENERAL:
        return "~"
    if leaves_out(item) or (head == "done" and word in GIVING):
        return ""
    return "STRANGE"


_BARE = listed(
    "spray mist spritz dab swab wipe sponge rinse shower bath bathe hose dunk dip wash scrub drench prune"
    " trim clip snip chop repot transplant"
)
"""What does not say that something was done: "wipe the ivy" may be a wish or a plan."""
_OF_DAYS = listed("day days hour hours week weeks month year last next fore before after since ago")


def shows_otherwise(head: str, told: Mentions) -> bool:
    """Whether the words of a part show by themselves that it is none of a form."""
    shown = (_shown(one, head) for one in told.items)
    return _SHOWS[head].search(" ".join(shown)) is not None


def _is_told(part: Part) -> bool:
    """Whether a part tells its form: by what its words show, and by what it would write."""
    head, told = part.head, part.told
    if head not in _FORMS or _is_alone(part):
        return False
    is_done = is_all_but(told) or told.is_let_loose() or told.is_given()
    if head in _NEEDED and not is_called(head, told) and not is_done:
        return False
    is_listed = any(one.text in _BARE for one in told.items)  # "cut, swab" may be a plan, "cut" is told
    is_plan = all(_is_bare(one) or (is_listed and one.text == "cut") for one in told.items)
    is_plan = is_plan and told.words.isdisjoint(GIVING)
    is_later = not told.days() or told.behind() == told.situation.today  # "tonight wipe the hoya" is a plan
    if head == "done" and is_later and is_plan and not is_done:
        return False
    if len(told.days()) > _MOST_DAYS or told.names_another() or (head == "routine" and not told.every(Every)):
        return False
    if shows_otherwise(head, told) or not _is_meant(part):
        return False
    is_written = any(isinstance(one, LogCheck) for one in part.commands)
    part = replace(part, commands=tuple(whole(part.commands)))
    plants = frozenset(plants_of(part.commands))
    is_many = len(plants) > _MOST_AT_A_WORD and not plants <= set(told.setting.looks())
    if is_written and is_many and not told.every((Plants, Place)):
        return False
    return not (head == "find" and _is_miscounted(part))


def _is_alone(part: Part) -> bool:
    """Whether it is so short that it may mean something else: "back", "isolated", "at 9 pm"."""
    told, is_one = part.told, len(part.told.items) == 1
    match part.head:
        case "undo":
            return told.words.isdisjoint(_TAKING_BACK) or (is_one and told.has(Word.BACK))
        case "isolate":
            return is_one and told.items[0].text == "isolated"
        case "hours.evening":
            return bool(told.situation.tonight) and (is_one or told.has(Word.LATER))
        case "tick":
            words = (*_MANY, Word.DONE, Word.DO, Word.EXCEPT, Word.SKIP)
            return not told.has(*words) and told.words.isdisjoint(_NEXT)
        case _:
            return False


_TAKING_BACK = listed(
    "undo oops back take wrong scratch cancel delete revert reverse strike mistake remove erase"
)
_NEXT = listed("next ready over")


def _is_bare(item: Item) -> bool:
    """Whether an item does not say that something was done: "wipe the ivy" may be a wish or a plan."""
    return item.text == "made" or not (
        item.meaning is Word.DONE or (isinstance(item.meaning, Method) and item.text not in _BARE)
    )


def _is_meant(part: Part) -> bool:
    """Whether a part says what its form must say besides being filled."""
    told = part.told
    match part.head:
        case "stock" if told.has(Word.LABEL, Word.NOT) and _is_silent(part.commands):
            return False  # what the label says was not read
        case "done" if (
            _speaks_of_others(part) or _are_crossed(told) or ("do" in told.words and told.every(Weekday))
        ):
            return False
        case "later" if not _is_put_off(told):
            return False
    return not _tells_of_another_beside(part)


def _is_silent(commands: Iterable[Command]) -> bool:
    """Whether nothing is told of a product but that it is there."""
    return all(
        isinstance(one, StockProduct) and one.stock_ml is None and one.label == Label() for one in commands
    )


def _speaks_of_others(part: Part) -> bool:
    """Whether others are told done and only what is named would be: "ivy is left, the others are done"."""
    named = {plant for one in part.told.every(Plants) for plant in one.ids}
    return part.told.has(Word.REST) and bool(named) and set(plants_of(part.commands)) <= named


def _are_crossed(told: Mentions) -> bool:
    """Whether of two ways and two plants each way may be of one: "hoya with a cotton bud + cut back ivy"."""
    at_ways = [at for at, one in enumerate(told.items) if isinstance(one.meaning, Method | Tool)]
    left = set(told.sides()[1])
    at_plants = [
        at
        for at, one in enumerate(told.items)
        if isinstance(one.meaning, Plants) and not left.issuperset(one.meaning.ids)
    ]
    is_parted = bool(at_ways and at_plants) and at_plants[0] < at_ways[-1] and at_ways[0] < at_plants[-1]
    return len(told.methods()) > 1 and is_parted


def _tells_of_another_beside(part: Part) -> bool:
    """Whether of two sentences that name plants one is in words nobody listed alone: "fig ded. Ivy clean"."""
    ends = [at for at, one in enumerate(part.told.items) if one.text in _STRONG]
    cuts = pairwise((0, *ends, len(part.told.items))) if ends and part.head in _CALLS else ()
    told = [replace(part.told, items=part.told.items[begin:end]) for begin, end in cuts]
    named = [one for one in told if one.every(Plants)]
    return len(named) > 1 and any(
        (part.head == "later" or one.every(Unknown))
        and not (is_called(part.head, one) or any(map(leaves_out, one.items)))
        for one in named
    )


_STRONG = frozenset({".", "!", ";", "\n"})


def _is_put_off(told: Mentions) -> bool:
    """
    Whether something is put off, and not only denied, said good-bye with, or put off no longer.

    "The ivy not" does; "nothing on the ivy", "until tomorrow then", "do not put it off" do not.
    """
    said = [one for one in told.items if one.meaning not in JOINS]
    if all(one.meaning is Word.NOT for one in said):
        return True
    if any(
        one.meaning in {Word.LATER, Word.PUT} and before.meaning is Word.NOT for before, one in pairwise(said)
    ):
        return False
    is_done = told.has(Word.DO, Word.DONE) or bool(told.every((Method, Tool, Product)))
    is_of_work = is_done or bool(told.every((Plants, Place))) or told.has(*_MANY, Word.IT, Word.THEM)
    is_empty = told.has(Word.NOTHING, Word.NONE) and not told.words & _HAVING
    is_strange = any(
        (isinstance(one.meaning, Unknown) and one.text not in _IDLE["later"]) or one.meaning is Word.HEDGE
        for one in said
    )
    is_when = bool(told.every((*TIMES, Span))) or told.has(*_PUTTING_OFF)
    is_farewell = told.has(Word.UNTIL) or is_strange or not (is_empty or is_when)
    if not is_of_work and is_farewell and not told.has(Word.NO_TIME, Word.SKIP):
        return False
    if told.has(*_PUTTING_OFF) or isinstance(told.ahead(), date) or told.hour(latest=12) is not None:
        return True
    is_look = told.has(Word.CHECKED, Word.CLEAN, Word.BUGS, Word.SAW) or bool(told.every((Pest, Sign)))
    is_told = is_done or bool(told.days()) or not (is_look or is_strange)
    return is_told and not (is_strange and told.words & _WHY)


_PUTTING_OFF = (Word.LATER, Word.NO_TIME, Word.SKIP, Word.YET)
_HAVING = listed("have got had has")


def _is_miscounted(part: Part) -> bool:
    """Whether "a few: 4 on the hoya" are told, or one number of several plants: it may be all there are."""
    if part.numbers and any(isinstance(value, Grade) for value in part.values):
        return True
    counted = [one for one in part.commands if isinstance(one, LogFind) and one.count is not None]
    return not part.told.words & _EACH and any(len(one.plants) > 1 for one in counted)


_EACH = listed("each apiece every")


def _points_elsewhere(parts: Sequence[Part]) -> bool:
    """Whether "it" would stand for several plants, or for one not named where others are."""
    groups = [one.ids for part in parts for one in part.told.every(Plants)]
    named = {plant for ids in groups for plant in ids}
    for part in parts:
        told, plants = part.told, set(plants_of(part.commands))
        is_pointed = (
            told.has(Word.IT) and not told.has(*_MANY, Word.EXCEPT) and not told.every((Plants, Place, OneOf))
        )
        if (
            is_pointed
            and part.head != "later"
            and (len(plants) > 1 or (named and not plants <= named))
            and not (told.has(Word.DONE) and not told.methods())
        ):
            return True
        is_of_all = part.head == "none" and told.has(Word.ALL) and not told.every((Plants, Place))
        if is_of_all and any(len(ids) > 1 for ids in groups) and not plants <= named:
            return True  # "the violets looked at. All clean"
    return False


def _is_named_again(parts: Sequence[Part]) -> bool:
    """Whether one of a group is named again, and not left out: "sprayed 4 to 6, I went round the 5"."""
    for part in parts:
        groups: set[PlantId] = set()
        for one in part.told.every(Plants) if part.head in _ALL_BUT else ():
            if groups.issuperset(one.ids) and not set(one.ids) <= set(part.told.sides()[1]):
                return True
            groups.update(one.ids if len(one.ids) > 1 else ())
    return False


def _tells_twice(parts: Sequence[Part]) -> bool:
    """Whether plants are told two things of which one may be of another: "mint cut, monstera clean"."""
    about: dict[str, set[PlantId]] = {}
    for part in parts:
        about.setdefault(part.head, set()).update(plants_of(part.commands))
    lost, clean, done = (about.get(head, set()) for head in ("lost", "none", "done"))
    is_named = any(one.told.every((Plants, Place)) for one in parts)  # "all done none seen"
    is_of_several = is_named and len(done | clean) > 1 and bool(done & clean)
    return is_of_several or bool(lost & (clean | done))


def _puts_off_more(parts: Sequence[Part]) -> bool:
    """Whether of a plant more would be put off than the one way that was told to wait: "soap tomorrow"."""
    rounds = [one for part in parts for one in part.commands if isinstance(one, LogRound)]
    done = {(plant, one.method) for one in rounds for plant in one.plants}
    for part in parts:
        steps = part.told.steps() if part.head == "later" else ()
        open_now = {(one.plant, one.method) for one in part.told.situation.tonight if not one.is_done} - done
        plants = set(plants_of(part.commands)) if part.head == "later" else set()
        put_off = {one for one in open_now if one[0] in plants}
        if plants & {plant for plant, _ in done} - {plant for plant, _ in put_off}:
            return True  # all of it is told as done
        if steps and not put_off <= {(one.plant, one.method) for one in steps}:
            return True
    return False


_IN_ALL = (_tells_twice, _puts_off_more, _is_named_again, _points_elsewhere)


def _is_in(item: Item, at: int, part: Part, plants: frozenset[PlantId]) -> bool:  # noqa: C901, PLR0912 - one arm a kind
    """Whether one mention stands in what a part would do, or says nothing of its form."""
    head, told, meaning = part.head, part.told, item.meaning
    behind = told.items[at + 1].meaning if at + 1 < len(told.items) else None
    match meaning:
        case Unknown():
            return _is_word_in(item, at, part)
        case Word():
            return _is_steering_in(item, at, part, behind)
        case Plants(ids=ids, slip=slip):
            left = set(told.sides()[1]) if head in _ALL_BUT else set()
            due = set(ids).intersection(told.due()) if head == "done" and is_group(item) else set(ids)
            return not slip and bool(due) and due <= plants | left
        case Place() if not told.is_named_in_full(item):
            return False
        case Weekday() if head in _DATED and not (
            _is_today(told, meaning) or _is_told_of_a_day(told, at, head)
        ):
            return False  # "hoya done. Orchid on thursday"
        case Weekday() if head == "lost" or (head == "done" and len(plants) > 1 and behind is None):
            return item.text.startswith(("on ", "last ")) or (at > 0 and told.items[at - 1].text == "on")
        case _ if isinstance(meaning, _ALLOWED.get(head, ())) or is_written(meaning, part):
            return True
        case Place():
            of_place = frozenset(told.setting.of_place(meaning)) - set(told.sides()[1])
            return bool(of_place) and (of_place <= plants or plants <= of_place)
        case Count(value=value):
            is_denied = head == "correct.count" and at > 0 and told.items[at - 1].meaning is Word.NOT
            is_of_none = value == 0 and any(isinstance(one, LogCheck) for one in part.commands)
            return is_denied or is_of_none or (head in {"done", "none"} and value == len(plants) > 1)
        case Method() | Tool() if head == "later":
            is_open = told.has(Word.DONE, Word.NOT) or _is_a_step(told, plants)
            return is_open and (
                not item.text.endswith("ed") or told.is_denied_beside(at)
            )  # "swabbed" is done
        case Product():
            return head == "later" and _is_a_step(told, plants)
        case Spot(name=name):
            return head in _SPOKEN_OF and name not in {"roots", "soil"}
        case Form.CONCENTRATE:
            return at > 0 and isinstance(told.items[at - 1].meaning, Product)
        case Moment() if head == "later":
            return meaning.at - told.situation.now < _SOON  # not "in 30 hours"
        case Moment() | Clock():
            return head in _TIMED and all(day == Day(told.situation.today) for day in told.days())
        case Span(days=days):
            return head in _AHEAD and told.situation.today + timedelta(days=days) in _days_of(part.commands)
        case _:
            return isinstance(meaning, (*DATES, OfMonth)) and _is_dated(part)


_ALLOWED: dict[str, tuple[type, ...]] = {
    "done": (Pest, Form, Percent, Moment, Clock),
    "find": (Level,),
    "none": (Pest,),
    "stock": (Form, Every),
    "routine": (Every, Weekday),
    "mix": (Method, Tool, UnclearVolume),
    "use": (Method, Tool),
    "isolate": (Span,),
    **dict.fromkeys(("walk", "work", "animals"), (Count,)),
}
"""What may stand in a form though it is not written: a pest in "sprayed against mites"."""


def is_written(meaning: object, part: Part) -> bool:
    """Whether the value of a mention is one of those that a part would write."""
    match meaning:
        case Volume(ml=number) | Length(cm=number) | Warmth(celsius=number):
            return any(abs(float(number) - one) < _ROUNDED for one in part.numbers)
        case Count(value=number) | Span(days=number):
            return float(number) in part.numbers
        case Product(id=one, ingredient=other):
            return not {one, other}.isdisjoint(part.values - {None})
        case Tool(method=value) | Spot(name=value) | Pest(key=value) | Place(id=value):
            return value in part.values
        case _:
            return meaning in part.values


def _is_word_in(item: Item, at: int, part: Part) -> bool:
    """Whether a word nobody listed leaves out what is left out, or carries nothing."""
    told = part.told
    if leaves_out(item):
        return told.has_left_out(at)
    if part.head == "done" and item.text in GIVING:  # "fed the hoya" is another thing
        return told.is_given() or (bool(told.methods()) and told.words.isdisjoint(_GIVING_UP))
    return is_idle(item.text, part.head)


def _is_steering_in(item: Item, at: int, part: Part, behind: object) -> bool:
    """Whether a word that steers goes with the form, or leaves out what is left out."""
    head, told, word = part.head, part.told, item.meaning
    if word is Word.LATER and Day(told.situation.today) in told.days() and told.ahead() is not None:
        return isinstance(told.ahead(), date)  # "later today"
    if head == "later" and word in {Word.DONE, Word.DO} and "will" not in item.text.split():
        is_promised = word is Word.DO and isinstance(told.ahead(), date)  # "i do it on monday"
        return is_promised or _is_denied(told, at)  # not "the geranium is done, the kalanchoe can wait"
    if word is Word.NOT and head == "stock":
        return 0.0 in part.numbers  # "no soap left"
    if head == "find" and word in {Word.NOTHING, Word.NONE, Word.CLEAN}:
        return any(isinstance(one, LogCheck) for one in part.commands)  # "hoya 3, ivy clean"
    if word is Word.EXCEPT and behind in {Word.NONE, Word.NOTHING}:
        return head == "none"  # "all clean except none"
    if leaves_out(item) and (word is Word.EXCEPT or (head in _ALL_BUT and head != "later")):
        is_again = word is Word.YET and bool(told.sides()[1])  # "haven't done the orchid yet"
        return (head in _ALL_BUT and (told.has_left_out(at) or is_again)) or (head == "find" and at == 0)
    return (
        word in _KNOWN[head]
        or (head == "done" and word is Word.RELEASE and told.is_let_loose())
        or (word is Word.MEANT and item.text in _WAS)
        or item.text == "moved to"
        or all(is_idle(one, head) for one in item.text.split())
    )


def _is_today(told: Mentions, day: Weekday) -> bool:
    return told.date_of(day, ahead=False) == told.situation.today


def _is_told_of_a_day(told: Mentions, at: int, head: str) -> bool:
    """Whether the clause of a weekday tells something by itself, or names nothing."""
    begin = next((n + 1 for n in range(at - 1, -1, -1) if told.items[n].meaning is Word.BREAK), 0)
    end = next(
        (n for n in range(at, len(told.items)) if told.items[n].meaning is Word.BREAK), len(told.items)
    )
    clause = replace(told, items=told.items[begin:end])
    is_diary = (
        end < len(told.items)
        and told.items[end].text in _STRONG
        and sum(one.meaning not in JOINS for one in clause.items) == 1
    )
    return is_called(head, clause) or not (
        is_diary or clause.every(Plants) or (told.every(Plants) and begin and end < len(told.items))
    )


def _is_denied(told: Mentions, at: int) -> bool:
    """Whether a denial stands beside what is said to be done, one for each: "hoya done, orchid not done"."""
    done = sum(one.meaning is Word.DONE for one in told.items)
    denials = [one for one in told.items if leaves_out(one) or one.meaning in {Word.NOTHING, Word.NONE}]
    return told.is_denied_beside(at) and done <= sum("done" not in one.text.split() for one in denials)


_GIVING_UP = listed("up in fed watered")
_WAS = frozenset({"it was", "that was", "that was for"})
_WHY = listed("because since by near from same when before")
_SPOKEN_OF = listed("find none sign done")


def _is_a_step(told: Mentions, plants: frozenset[PlantId]) -> bool:
    """Whether what is named is a part of tonight's line of each of the plants."""
    steps = told.steps()
    is_one = len({one.method for one in steps}) == 1 or told.calling.isdisjoint({Word.BREAK, Word.BUT})
    return is_one and plants <= {one.plant for one in steps}


def _is_dated(part: Part) -> bool:
    """Whether each day told is a day it is written for; today needs no saying."""
    told, today = part.told, part.told.situation.today
    if part.head in _AHEAD:
        written = _days_of(part.commands)
        weekdays = {Weekday(on.weekday()) for on in written if part.head == "hold" and isinstance(on, date)}
        return all(
            told.date_of(day, ahead=True) in written or day == Day(today) or day in weekdays
            for day in told.days()
        )
    behind = told.behind()
    if any(getattr(one, "quarantine_days", None) for one in part.commands):
        return True
    if part.head in _DATED:
        return isinstance(behind, date) and (_on(part.commands) or today) == behind
    return behind == today


def _on(commands: Iterable[Command]) -> date | None:
    return next((on for one in commands if (on := getattr(one, "on", None)) is not None), None)


def _days_of(commands: Iterable[Command]) -> frozenset[object]:
    return frozenset(getattr(one, name, None) for one in commands for name in ("on", "until", "since")) - {
        None
    }
