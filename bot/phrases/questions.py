"""Questions: they never write, whatever verbs stand in them."""

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from bot.actions.action import Expecting
from bot.actions.ask import Ask, Topic
from bot.actions.courtesy import Help
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.not_understood import NotUnderstood
from bot.actions.read_anew import Subject
from bot.actions.situation import Situation
from bot.domain.value import replace
from bot.phrases.asking import Meant
from bot.phrases.forms.filling import ask
from bot.phrases.forms.rows import REPORTS, ROWS, forms_of, subject_of
from bot.phrases.guess import Guess, rank, rank_asked, rank_asked_unasked
from bot.phrases.items import Unknown, items_of
from bot.phrases.lexicon import Word, listed, worded, words_of_class
from bot.phrases.looking_up import read_term_about, read_term_inside
from bot.phrases.mentions import Mentions
from bot.phrases.names import Pest, Place, Plants, Product
from bot.phrases.numbers import UNITS
from bot.phrases.offering import told_in
from bot.phrases.setting import DATES, Setting, unique
from bot.phrases.spotting import spotted, with_names
from bot.phrases.text import LONGEST, plain, words_of

OPENERS = listed(
    "what when why which who how where is are was were must should shall can could may do does "
    "has will would am any"
)
_PERSONS = frozenset({"i", "we", "he", "she", "they", "you", "anyone", "anybody", "somebody"})
_WHICH_SHELF = listed("top bottom upper lower middle first second third left right window kitchen every each")
_PLEASE = listed("please kindly pls plz")
_REQUESTS = {(verb, who) for verb in ("can", "could", "would", "will") for who in ("you", "u", "we", "i")}
_ASKS_ALONE = listed("is are do does will what why who how where has which should")
_OF_PLANTS = frozenset({Topic.FIT, Topic.PHOTOS, Topic.LOG, Topic.RELEASE, Topic.WHY, Topic.TREND})
_FORMS_OF_PLANTS = frozenset(f"ask.{topic.value}" for topic in _OF_PLANTS)
_ASKING_ALONE = {
    word: topic
    for topic, words in (
        (Topic.PHOTOS, "photos photo pictures picture"),
        (Topic.DUE, "due agenda todo"),
        (Topic.LOG, "history log journal"),
        (Topic.TREND, "trend chart graph"),
        (Topic.STOCK, "stock shelf"),
        (Topic.PLANTS, "list"),
    )
    for word in words.split()
}
"""Nouns that ask wherever they stand."""
_NOUNS = frozenset(_ASKING_ALONE) | {"status"}
_TOPIC_OF = _ASKING_ALONE | {
    word: topic
    for topic, words in (
        (Topic.DUE, "next"),
        (Topic.LOG, "logged"),
        (Topic.TREND, "progress"),
        (Topic.ISOLATED, "isolated isolation quarantine quarantined apart"),
        (Topic.PLANTS, "plants"),
        (Topic.WHY, "why"),
    )
    for word in words.split()
}
_DANGEROUS = listed("dangerous toxic poisonous harmful harm harms hazard hazardous")
_AT_RISK = listed(
    "cat cats dog dogs fish pet pets child children kid kids baby toddler people us me bees birds animals"
)
_TOUCHING = listed("lick licks touch touches smell smells sniff sniffs chew chews")
_ASKS_FIRST = listed("can may could should is are will")
_EATEN = listed("eat eating harvest harvesting pick picking")
_AROUND_A_NOUN = listed(
    "the my our of for please show me who which is are in what do i we have got on what's and"
)
ASKING = frozenset({*_NOUNS, *_TOPIC_OF, *OPENERS})
"""Words that questions are made of."""
_NO_QUESTIONS = set(worded("do the checks | do the check | do our checks | do my checks"))
_NO_ASKING = set(worded("do it | will do | can not | any more"))
_REASONS = {("why",), ("who",), ("which",), ("where",)}
_DOUBTS = {*(("did", person) for person in _PERSONS), *worded("have i | have we | had i")}
_PROMISES = ("will", "do")
_LEAST_ANSWERED, _LEAST_SHARE, _ASKED_STRANGELY = 0.36, 0.5, 0.6
"""A form of asking this likely, and this likely among all of them, is answered: it writes nothing; where a
name nobody knows is asked about, it must be likelier. [1]"""
_TOLD = REPORTS | {"tick"}
_ASKED_PLAINLY, _ASKED_SURELY = 0.5, 0.9
"""So likely it is asked without a word or mark of asking. [1]"""
LEAST_ASKED = 0.25
"""A topic less likely was not asked for. Judgement. [1]"""
FEWEST_DOUBTED = 4
"""Fewer words are read as they are listed. [1]"""
_OPEN = frozenset({"", "asked", "plants", "which plant", "past", "when"})
"""Reasons of what is not understood, in whose place what may be asked is answered."""
OPEN_QUESTIONS = frozenset(
    {Missing.UNKNOWN_PLANT, Missing.METHOD, Missing.WHICH_PLANT, Missing.ADD, Missing.TOWN_OR_PLANT}
)
"""Questions back in whose place a likely meaning that leaves nothing out is offered."""


def answers_itself(asked: Sequence[bool], read: Sequence[Meant]) -> bool:
    """Whether what would be written stands right behind a question: it may be no more than its answer."""
    reports = [any(forms_of(command) & REPORTS for command in one) for one in read]
    return any(is_asked and is_told for is_asked, is_told in zip(asked, reports[1:], strict=False))


def is_plain_question(words: tuple[str, ...]) -> bool:
    """Whether it asks and does not ask for something to be done."""
    if (
        words[1:2] in {("you",), ("u",)}
        or _PLEASE & frozenset(words)
        or any(pair in _REQUESTS for pair in pairwise(words))
    ):
        return False
    is_asked = words[:1] != () and words[0] in _ASKS_ALONE and words[:2] != _PROMISES
    return is_asked or words[:2] in _DOUBTS or _asks_yes_or_no(words)


def _asks_yes_or_no(words: tuple[str, ...]) -> bool:
    return ("yes", "or", "no") in zip(words, words[1:], words[2:], strict=False)


def beyond(text: str, situation: Situation) -> NotUnderstood:
    """Give what a question names that something is known of, where the question itself is beyond the bot."""
    items = items_of(words_of(plain(text[:LONGEST])), situation)
    plants = unique(plant for item in items if isinstance(item.meaning, Plants) for plant in item.meaning.ids)
    pest = next((item.meaning.key for item in items if isinstance(item.meaning, Pest)), None)
    return NotUnderstood(text[:LONGEST], reason="asked", plants=plants, pest=pest)


def asked_by(sure: Meant, text: str, situation: Situation) -> tuple[Meant, bool]:
    """
    Give what is asked, and whether it is answered by its likeliest form, where words find nothing.

    What begins with "why" and is like no form is a question for the reasons of tonight.
    """
    words = words_of(plain(text[:LONGEST]))
    is_open = _is_open(sure)
    term = read_term_about(words) if is_open else None
    term = term or (read_term_inside(words) if is_open and "how" not in words else None)
    if term is not None:
        return term, True
    told, is_asked = _by_form(sure, text, situation)
    is_why = words_of(plain(text[:LONGEST]))[:1] == ("why",) and _is_open(sure)
    if is_why and not (is_asked or any(isinstance(one, Ask) for one in sure)):
        return ask(Topic.WHY, told_in(text[:LONGEST], situation)) or told, True
    return told, is_asked


def _by_form(sure: Meant, text: str, situation: Situation) -> tuple[Meant, bool]:
    """Give what is asked by its likeliest form, and whether it is."""
    text = text[:LONGEST]
    words = words_of(plain(text))
    is_telling = any(forms_of(one) & _TOLD for one in sure)
    may_ask = is_telling and (is_plain_question(words) or is_question(words, situation))
    if not (may_ask or _is_open(sure)):
        return sure, False
    guesses = _ranked(text, situation)
    asking = [one for one in guesses if subject_of(one.form) is Subject.QUESTION and one.form in ROWS]
    is_plain = is_plain_question(words) or (
        is_question(words, situation) and guesses[0].chance >= _ASKED_SURELY
    )
    if asking[:1] == guesses[:1] and is_plain:
        sure = tuple(beyond(text, situation) if forms_of(one) & _TOLD else one for one in sure)
    if not (asking and _is_open(sure)) or any(isinstance(one, Ask | Help) for one in sure):
        return sure, False
    best = asking[0]
    is_asked = is_question(words, situation) or opens_a_question(text, situation)
    is_asked = is_asked or (
        best is guesses[0] and best.chance >= _ASKED_PLAINLY and not _is_told(text, situation)
    )
    is_of_a_stranger = best.form in _FORMS_OF_PLANTS and any(isinstance(one, Incomplete) for one in sure)
    if not is_asked or is_of_a_stranger or is_one_strange_word(text, situation):
        return sure, False
    is_strange = led_in(text) & (strange_to(text, situation) | words_of_class("idle", "people"))
    least = max(
        _ASKED_STRANGELY if is_strange else _LEAST_ANSWERED, _LEAST_SHARE * sum(one.chance for one in asking)
    )
    # whatever is plainly asked is not told
    whole = 1 - sum(one.chance for one in guesses if one.form == "tell") if is_plain_question(words) else 1
    told = ROWS[best.form](told_in(text, situation)) if best.chance >= least * whole else None
    return told or sure, bool(told)


def opens_a_question(text: str, situation: Situation) -> bool:
    """Whether it asks once what people say before they ask is left out: "ok so what do i do"."""
    return is_question(words_of(plain(unled(text))), situation) or asks_inside(text)


def asks_unmarked(text: str) -> bool:
    """Whether it asks from its first words on, with a mark or without: it is never written unasked."""
    return _UNMARKED.match(unled(text)) is not None


_UNMARKED = re.compile(
    r"\W*(?:(?:is|are|was|were) (?:the|my|our|it|that|this|there|all|every\w*|any\w*)\b"
    r"|did (?:(?:i|we|you|they|he|she|any\w*)\b|\S+ (?:\d+ )?(?:get|need|have)\b)"
    r"|(?:do|does|have|has|can|could|should|must|will|would) (?:i|we|you|it|they|he|she|any\w*)\b"
    r"|(?:does|has|can|could|should|will|would|may) (?:the|my|our)\b"
    r"|(?:who(?:se)?|why|where|which)\b|.* (?:whom?|why|where|which)\W*$)",
    re.IGNORECASE,
)


def asks_wholly(sentence: str) -> bool:
    """Whether a sentence with a mark asks from its first word on: no tag, no request, no doubt of a name."""
    if not sentence.endswith("?"):
        return False
    words = words_of(plain(unled(sentence)))
    is_asked = _WH_WORDS.issuperset(words[:1]) or asks_unmarked(sentence)
    return is_asked and words[1:2] != ("you",) and len(words) > _FRAGMENT


_FRAGMENT = 3
"""Of so many words, its mark among them, no question is one by itself. [1]"""


def unled(text: str) -> str:
    """Give a text without what people say before they ask."""
    return _FILLING.sub("", text, count=1)


def asks_inside(text: str) -> bool:
    """Whether a question is led in by words that ask, or stands in the middle: "tell me what to do"."""
    return _INSIDE.search(plain(text[:LONGEST])) is not None


_WH = "what|how|which|when|whether|why|where"
_WH_WORDS = listed("what how which when why where who whose")
_INSIDE = re.compile(
    r"\b(?:(?:tell|show|remind|teach) (?:me|us)|explain(?: to me)?|asking(?: you)?|ask you|i ask|let me know"
    rf"|wondering|i wonder|(?:want|need|like|love) to know)\b(?:\W+[\w']+){{0,2}}\W+(?P<led>{_WH})\b"
    r"|\b(?P<what>what|how)(?: much| many| long| often| far)? (?:do|should|must|can|shall) (?:i|we)\b"
    r"|\b(?P<meant>what) am i (?:to|supposed|meant)\b"
)
_ITS_CLAUSE = re.compile(r"[^,.;!?\n]*")


def _clause_inside(text: str) -> str:
    """Give the clause of a question that stands in the middle of something else, else nothing."""
    said = plain(text)
    found = _INSIDE.search(said)
    if found is None:
        return ""
    clause = _ITS_CLAUSE.match(said, found.start(found.lastgroup or 0))
    return "" if clause is None else clause[0]


def _ranked(text: str, situation: Situation) -> list[Guess]:
    """
    Rank what is asked: of the text, behind "um" and "aw ok so", or in a clause of it, as is likelier.

    Whoever is asked something may ask back just as if they were not.
    """
    bare = unled(text)
    ranks = (rank_asked, rank_asked_unasked) if situation.expecting in SETTING_UP else (rank_asked,)
    ranked = [
        rank(with_names(one, situation), situation)
        for one in dict.fromkeys((text, bare, _clause_inside(text)))
        if one
        for rank in ranks
    ]
    return max(ranked, key=lambda guesses: sum(one.chance for one in guesses if one.form not in _NOT_ASKED))


_FILLING = re.compile(
    r"^(?:\W*\b(?:a+w+|ah+|oh+|o+k+(?:ay)?|so|yo|u+m+|u+h+|er+m*|hm+|yeah|yep|yes|no|nah|but|and|like|well|eh|hey|hi"
    r"|hiya|hello|right|righto|lol|haha|sorry|please|pls|cool|fine|good|great|thanks|thank you|cheers|now"
    r"|then|just|wait|hang on|listen|look|mate|love|dear|hon|bro|boss|excuse me|forgive me)\b[\s,.!…-]*)+",
    re.IGNORECASE,
)
"""What people say before they ask."""
_NOT_ASKED = frozenset({"tell", "nothing"})
SETTING_UP = frozenset({Expecting.TOWN, Expecting.PLANTS, Expecting.WHERE, Expecting.PLACE})


def _is_told(text: str, situation: Situation) -> bool:
    """Whether what has no word or mark of asking is more like something told."""
    best = rank(with_names(text, situation), situation)[0]
    return best.chance >= _ASKED_PLAINLY and not _TOLD.isdisjoint(best.form.split("+"))


def likely_asked(text: str, situation: Situation, least: float) -> Iterator[tuple[Meant, float]]:
    """Give what a text may ask, and how likely it is, the likeliest first."""
    told = told_in(text[:LONGEST], situation)
    for one in _ranked(text[:LONGEST], situation):
        is_of_it = subject_of(one.form) is Subject.QUESTION and one.form in ROWS
        if is_of_it and one.chance >= least and (asked := ROWS[one.form](told)):
            yield asked, one.chance


def _is_open(sure: Meant) -> bool:
    """Whether nothing was told, and what may be asked is answered in place of what was not understood."""
    return (
        all(isinstance(one, Ask | Help | NotUnderstood | Incomplete) for one in sure)
        and all(one.missing in OPEN_QUESTIONS for one in sure if isinstance(one, Incomplete))
        and all(one.reason in _OPEN for one in sure if isinstance(one, NotUnderstood))
    )


def strange_to(text: str, situation: Situation) -> frozenset[str]:
    """Give the words in it that nobody listed."""
    items = items_of(words_of(plain(text[:LONGEST])), situation)
    unknown = frozenset(one.text for one in items if isinstance(one.meaning, Unknown))
    return unknown - words_of_class("idle", "words", "people")


def led_in(text: str) -> frozenset[str]:
    """Give the words that stand as a thing's name does: "the monstera", "my data"."""
    words = words_of(plain(text[:LONGEST]))
    return frozenset(word for before, word in pairwise(words) if before in {"the", "my", "our"})


def is_one_strange_word(text: str, situation: Situation) -> bool:
    """Whether it is one word that nobody knows, however often: it may mean anything."""
    items = [one for one in spotted(text, situation) if one.text[:1].isalnum()]
    return len({one.text for one in items}) == 1 and isinstance(items[0].meaning, Unknown)


def is_question(words: tuple[str, ...], situation: Situation | None = None) -> bool:
    """Whether it asks: a question mark, an opening question word, or a bare noun of asking."""
    if "?" in words or _asks_yes_or_no(words):
        return True
    first = words[0] if words else ""
    if words[:2] in {("what", "a"), _PROMISES} or words[:3] in _NO_QUESTIONS:
        return False  # "what a day", "will do the ivy on friday"
    is_asked = first in OPENERS and words[:2] not in _NO_ASKING
    is_doubted = words[:2] in _DOUBTS or (first in {"and", "but", "so"} and words[1:2] in _REASONS)
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


def _of_the_notes(words: tuple[str, ...], told: Mentions) -> Meant | None:
    """Read what is asked of use, done, at hand or seen: "is neem any good", "is the fern clean"."""
    plants, products = told.every(Plants), told.every(Product)
    said = frozenset(
        word for one in told.items if not isinstance(one.meaning, _NAMED) for word in one.text.split()
    )
    asks_whether = words[:1] != () and words[0] in _ASKS_WHETHER
    if products and asks_whether and said <= _AROUND_A_USE:
        return ask(Topic.FIT, told)
    is_doubt = words[:2] in _DOUBTS
    if products and is_doubt and said & _BUYING:
        return ask(Topic.STOCK, told)
    is_dated = not told.calling.isdisjoint(DATES) or "week" in said
    if (
        said & _LATEST
        and said & _TREATING
        and not is_dated
        and words[:1] in {("when",), ("what",), ("which",)}
    ):
        return tuple(
            replace(one, is_latest=True) for one in ask(Topic.LOG, told) or () if isinstance(one, Ask)
        )
    is_of_work = bool(said & _TREATING) or bool(plants and products)
    if is_doubt and is_of_work and (plants or is_dated):
        asked = ask(Topic.LOG, told) or ()
        return tuple(
            replace(one, is_latest=True) if plants and isinstance(one, Ask) else one for one in asked
        )
    if words[:1] in {("when",), ("how",)} and said & _ENDING and said & _ALL_OF_IT:
        return ask(Topic.RELEASE, told)
    seen = said & (_ILL | _WELL)
    is_of_pests = bool(told.every(Pest)) and bool(plants)
    is_of_pests = is_of_pests or (bool(plants) and words[0] == "what" and bool(said & _HAVING))
    if not (seen or is_of_pests) or not said <= _AROUND_A_STATE or products:
        return None
    if plants:
        ids = unique(plant for one in plants for plant in one.ids)
        is_ill = bool(seen & _ILL) or not seen
        is_asked = asks_whether or words[0] in _STATES
        return (Ask(topic=Topic.PLANTS, plants=ids, is_ill=is_ill),) if is_asked else None
    is_of_all = words[0] in _STATES and bool(said & _PLANTS)
    return (Ask(topic=Topic.PLANTS, is_ill=bool(seen & _ILL)),) if is_of_all else None


_NAMED = (Plants, Pest, Product)
_ASKS_WHETHER = listed("is are does do will would can has have any")
_AROUND_A_USE = listed(
    "is are does do will would can i we the a an of any use useful good better best help helps work works"
    " worth it than or and on against for to put at all really ok right ?"
)
_BUYING = listed("buy bought get got order ordered")
_LATEST = listed("last latest lately recent recently")
_TREATING = listed(
    "do done treat treated treatment treating spray sprayed wipe wiped rinse rinsed wash washed swab swabbed"
    " drench drenched soaped round rounds spraying wiping rinsing washing"
)
_ENDING = listed("done finished over through rid end ends finish")
_ALL_OF_IT = listed("this it that these them treating treatments spraying everything")
_ILL = listed(
    "something anything sick ill infested infected unwell bad bug bugs pest pests problem problems affected"
    " insects animals"
)
_WELL = listed("fine clean ok okay well healthy good clear")
_PLANTS = listed("plant plants ones who")
_HAVING = listed("have has got wrong")
_STATES = listed("which what who how is are does do has have")
_AROUND_A_STATE = (
    _ILL
    | _WELL
    | _PLANTS
    | listed(
        "which what how many much is are does do did has have got had the my our of on in at with any there"
        " still now left currently right today all moment find see seen found was were i we it these them"
        " a an and with wrong ?"
    )
)


def read_nouns(words: tuple[str, ...], setting: Setting) -> Meant | None:
    """Read what is dangerous or eaten, and "history hoya", "stock": a noun of asking with a name at most."""
    every = items_of(words, setting.situation)
    items = [
        item
        for item in every
        if item.text in _TOPIC_OF or item.meaning not in {Word.QUESTION, Word.BREAK, Word.HEDGE, Word.FILLER}
    ]
    told = Mentions(every, setting)
    said = frozenset(words)
    is_touched = bool(said & _TOUCHING) and not _ASKS_FIRST.isdisjoint(words[:1])
    if said & _DANGEROUS or ((said & {"safe", "near"} or is_touched) and said & _AT_RISK):
        return ask(Topic.SAFETY, told)
    if said & _EATEN:
        return ask(Topic.EATING, told)
    of_the_notes = _of_the_notes(words, told)
    if of_the_notes is not None:
        return of_the_notes
    topics = {_TOPIC_OF[item.text] for item in items if item.text in _TOPIC_OF}
    others = [item for item in items if item.text not in _TOPIC_OF and item.text not in _AROUND_A_NOUN]
    topic = topics.pop() if len(topics) == 1 else None
    if topic is None or len(others) > 1:
        return None
    if not all(isinstance(one.meaning, (Plants, Place, Product, Unknown, *DATES)) for one in others):
        return None
    if others and isinstance(others[0].meaning, Unknown):
        is_led = topic in _OF_PLANTS and len(words) <= len(("history", "of", "the", "fern"))
        return (Incomplete(missing=Missing.UNKNOWN_PLANT, text=others[0].text),) if is_led else None
    return ask(topic, Mentions(tuple(items), setting))
