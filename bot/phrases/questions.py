"""Questions: they never write, whatever verbs stand in them."""

from itertools import pairwise

from bot.actions.ask import Ask, Topic
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.not_understood import NotUnderstood
from bot.actions.situation import Situation
from bot.phrases.asking import Meant
from bot.phrases.forms.filling import ask, mix
from bot.phrases.forms.rows import ROWS
from bot.phrases.guess import rank
from bot.phrases.items import Unknown, items_of
from bot.phrases.lexicon import Word, each_of, listed, worded, words_of_class
from bot.phrases.mentions import Mentions
from bot.phrases.names import Pest, Plants, Product
from bot.phrases.numbers import UNITS, UnclearVolume, Volume
from bot.phrases.saying import ABOUT_ALL
from bot.phrases.setting import Setting, unique
from bot.phrases.spotting import spotted, with_names
from bot.phrases.text import LONGEST, plain, words_of

_OPENERS = listed(
    "what when why which who how where is are was were should shall can could may do does "
    "has will would am any"
)
_PERSONS = frozenset({"i", "we", "he", "she", "they", "you", "anyone", "anybody", "somebody"})
_NOUNS = listed(
    "photos photo pictures picture due history log trend chart graph status stock shelf agenda todo list"
    " journal"
)
_WHICH_SHELF = listed("top bottom upper lower middle first second third left right window kitchen every each")
_PLEASE = listed("please kindly pls plz")
_REQUESTS = {(verb, who) for verb in ("can", "could", "would", "will") for who in ("you", "u", "we", "i")}
_ASKS_ALONE = listed("is are do does will what why who how where has which should")
_OF_PLANTS = frozenset({Topic.FIT, Topic.PHOTOS, Topic.LOG, Topic.RELEASE, Topic.WHY, Topic.TREND})
_BY_NOUN = each_of(
    ("photos | photo | pictures | picture", Topic.PHOTOS),
    ("chart | graph", Topic.TREND),
    ("status | agenda", Topic.DUE),
)
_AS_WE_SAY = {said.removesuffix("?"): topic for topic, said in ABOUT_ALL.items()}
_LISTS = frozenset({"ask.due", "ask.log", "ask.release"})
"""They are no stand-in for an answer."""
_LEADS_TO_A_PLANT = listed("the my our of for on to")
SPOKEN = (
    _OPENERS
    | _NOUNS
    | listed(
        "isolated isolation quarantine quarantined apart better worse working improving winning progress"
        " helping recovering logged"
    )
)
"""Words that questions are made of: no slips."""
_NO_QUESTIONS = set(worded("do the checks | do the check | do our checks | do my checks"))
_NO_ASKING = set(worded("do it | will do | can not | any more"))
_DOUBTS = {*(("did", person) for person in _PERSONS), *worded("have i | have we | had i")}
LEAST = 0.25
"""A question less likely was not asked. Judgement. [1]"""
LEAST_STRANGE = 0.45
"""The same of a list, or where a strange word stands as a name: "the weather tomorrow". Judgement. [1]"""
_SHARE = 0.4
"""Of all that may be asked this much is the likeliest. Judgement. [1]"""


_PROMISES = ("will", "do")


def is_plain_question(words: tuple[str, ...]) -> bool:
    """Whether it asks and does not ask for something to be done."""
    if (
        words[1:2] in {("you",), ("u",)}
        or _PLEASE & frozenset(words)
        or any(pair in _REQUESTS for pair in pairwise(words))
    ):
        return False
    return words[:1] != () and words[0] in _ASKS_ALONE and words[:2] != _PROMISES


def beyond(text: str, situation: Situation) -> NotUnderstood:
    """Give what a question names that something is known of, where the question itself is beyond the bot."""
    items = items_of(words_of(plain(text[:LONGEST])), situation)
    plants = unique(plant for item in items if isinstance(item.meaning, Plants) for plant in item.meaning.ids)
    pest = next((item.meaning.key for item in items if isinstance(item.meaning, Pest)), None)
    return NotUnderstood(text[:LONGEST], reason="asked", plants=plants, pest=pest)


def is_question(words: tuple[str, ...], situation: Situation | None = None) -> bool:
    """Whether it asks: a question mark, an opening question word, or a bare noun of asking."""
    if "?" in words:
        return True
    first = words[0] if words else ""
    if words[:2] in {("what", "a"), _PROMISES} or words[:3] in _NO_QUESTIONS:
        return False  # "what a day", "will do the ivy on friday"
    is_asked = first in _OPENERS and words[:2] not in _NO_ASKING
    is_doubted = words[:2] in _DOUBTS
    return (is_asked and not _is_refusal(words)) or is_doubted or _has_noun(words, situation)


def _has_noun(words: tuple[str, ...], situation: Situation | None) -> bool:
    """Whether a noun of asking stands in it; "shelf 2", "the top shelf" and a place's name are places."""
    nouns = [at for at, word in enumerate(words) if word in _NOUNS]
    if not nouns or situation is None:
        return bool(nouns)
    placed = {
        at
        for place in situation.places
        for name in (words_of(plain(place.name)),)
        for start in range(len(words) - len(name) + 1)
        if words[start : start + len(name)] == name
        for at in range(start, start + len(name))
    }
    placed |= {
        at
        for at in nouns
        if words[at] == "shelf"
        and (
            (words[at + 1 : at + 2] != () and (words[at + 1].isdigit() or words[at + 1] in UNITS))
            or (at > 0 and words[at - 1] in _WHICH_SHELF)
        )
    }
    return bool(set(nouns) - placed)


def _is_refusal(words: tuple[str, ...]) -> bool:
    return words[1:2] == ("not",)


def read_question(text: str, situation: Situation) -> Meant | None:
    """Read what is asked by what it is most like; None where nothing that can be asked is like it."""
    told = Mentions(spotted(text, situation), Setting(situation))
    if told.every((Volume, UnclearVolume)):
        return mix(told)
    said = " ".join(words_of(plain(text[:LONGEST]))).removesuffix(" ?")
    topic = next((_BY_NOUN[word] for word in said.split() if word in _BY_NOUN), _AS_WE_SAY.get(said))
    if topic is not None:
        return ask(topic, told)
    guesses = [one for one in rank(with_names(text, situation), situation) if is_asking(one.form)]
    if not guesses:
        return None
    is_doubtful = guesses[0].form in _LISTS or bool(led_in(text) & _strange(text, situation))
    least = LEAST_STRANGE if is_doubtful else LEAST
    if guesses[0].chance < max(least, _SHARE * sum(one.chance for one in guesses)):
        return None
    meant = ROWS[guesses[0].form](told)
    asked = meant[0] if meant else None
    if not isinstance(asked, Ask):
        return meant
    product = told.one(Product)
    if asked.topic in {Topic.FIT, Topic.SAFETY} and product is not None and product.id is None:
        return (NotUnderstood(text, reason="shelf"),)
    stranger = _unknown_plant(told) if asked.topic in _OF_PLANTS and not asked.plants else None
    return meant if stranger is None else (Incomplete(missing=Missing.UNKNOWN_PLANT, text=stranger),)


def is_asking(form: str) -> bool:
    """Whether a form is one of questions, but for a mixture's."""
    return form.startswith("ask.") or form == "help"


def _unknown_plant(told: Mentions) -> str | None:
    """Find the name asked about in "history of the fern": a kind that is not here, or led in at the end."""
    items = tuple(item for item in told.items if item.meaning is not Word.QUESTION)
    for before, item in pairwise(items):
        is_last = item is items[-1] and not told.has(Word.BREAK)
        is_named = before.text in _LEADS_TO_A_PLANT or len(items) == len(("history", "banana"))
        if isinstance(item.meaning, Unknown) and is_named and (is_last or item.text in told.situation.kinds):
            return item.text
    return None


def _strange(text: str, situation: Situation) -> frozenset[str]:
    """Give the words in it that nobody listed."""
    items = items_of(words_of(plain(text[:LONGEST])), situation)
    unknown = frozenset(one.text for one in items if isinstance(one.meaning, Unknown))
    return unknown - words_of_class("idle", "words")


def led_in(text: str) -> frozenset[str]:
    """Give the words that stand as a thing's name does: "the monstera", "my data"."""
    words = words_of(plain(text[:LONGEST]))
    return frozenset(word for before, word in pairwise(words) if before in {"the", "my", "our"})
