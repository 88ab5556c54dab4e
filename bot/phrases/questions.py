"""Questions: they never write, whatever verbs stand in them."""

from collections.abc import Sequence
from itertools import pairwise

from bot.actions.action import Command
from bot.actions.ask import Ask, Topic
from bot.actions.courtesy import Help
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.not_understood import NotUnderstood
from bot.actions.read_anew import Subject
from bot.actions.situation import Situation
from bot.domain.identity import PlantId
from bot.phrases.asking import Meant
from bot.phrases.forms.filling import ask, mix
from bot.phrases.forms.rows import REPORTS, ROWS, forms_of, subject_of
from bot.phrases.guess import Guess, rank_asked
from bot.phrases.items import Item, Unknown, items_of
from bot.phrases.lexicon import Word, listed, worded, words_of_class
from bot.phrases.mentions import Mentions
from bot.phrases.names import Pest, Place, Plants, Product
from bot.phrases.numbers import UNITS, UnclearVolume, Volume
from bot.phrases.offering import told_in
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
_HELP = (
    frozenset({"what", "can", "say"}),
    frozenset({"what", "can", "you"}),
    frozenset({"how", "this", "work"}),
    frozenset({"what", "commands"}),
)
_WHICH_SHELF = listed("top bottom upper lower middle first second third left right window kitchen every each")
_PLEASE = listed("please kindly pls plz")
_REQUESTS = {(verb, who) for verb in ("can", "could", "would", "will") for who in ("you", "u", "we", "i")}
_ASKS_ALONE = listed("is are do does will what why who how where has which should")
_APART = listed("isolated isolation quarantine quarantined apart")
_FREED = listed("back free release released leave out return rejoin safe freed")
_ENDS = listed("over end finish finished")
_STATES = listed("ok okay fine doing alright how going")
_COURSE = listed("better worse working improving trend winning progress chart graph helping recovering")
_LEFT = listed("left enough much stock shelf")
_LOGGED = listed("history log journal logged")
_OF_PLANTS = frozenset({Topic.FIT, Topic.PHOTOS, Topic.LOG, Topic.RELEASE, Topic.WHY, Topic.TREND})
_FORMS_OF_PLANTS = frozenset(f"ask.{topic.value}" for topic in _OF_PLANTS)
_LEADS_TO_A_PLANT = listed("the my our of for on to")
_ASKS_STATE = (_STATES - {"how"}) | _FREED | _ENDS | _APART | {"clean"}
"""Words that ask how a case stands."""
ASKING = _NOUNS | _APART | _COURSE | _LOGGED | frozenset(_OPENERS)
"""Words that questions are made of."""
_BY_WORDS = (
    (frozenset({"why"}), Topic.WHY),
    (frozenset({"rounds", "many"}), Topic.WHY),
    (frozenset({"keep", "away"}), Topic.ISOLATED),
    (frozenset({"keep", "apart"}), Topic.ISOLATED),
    *((frozenset({"watch", word}), Topic.ISOLATED) for word in ("list", "who", "which")),
    (frozenset({"how", "long"}), Topic.RELEASE),
    (frozenset({"know", "over"}), Topic.RELEASE),
)
_DANGEROUS = listed("dangerous toxic poisonous harmful harm harms hazard hazardous")
_AT_RISK = listed(
    "cat cats dog dogs fish pet pets child children kid kids baby toddler people us me bees birds animals"
)
_SHOPPING = listed("buy buying shop shopping purchase")
_SUN = listed("sun sunny sunlight sunshine")
_USING = listed(
    "use used using spray spraying work works ok okay allowed fine suitable safe good put treat help helps"
)
_USED_SO = listed("use used using spray spraying")
_MODALS = listed("can may could should is are does do will would what which")
_EATEN = listed("eat eating harvest harvesting pick picking")
_TASKS = listed("done sprayed treated wiped swabbed rinsed repotted washed checked spray clean")
_NO_QUESTIONS = set(worded("do the checks | do the check | do our checks | do my checks"))
_NO_ASKING = set(worded("do it | will do | can not | any more"))
_REASONS = {("why",), ("who",), ("which",), ("where",)}
_DOUBTS = {*(("did", person) for person in _PERSONS), *worded("have i | have we | had i")}
_DUE = listed("due should shall todo tonight tomorrow today next now done need agenda do on plan")
_SURELY_DUE = listed("due todo tonight tomorrow today next agenda plan left remaining open week list")
_TO_DO = (
    listed("do spray treat wipe swab rinse wash check repot"),
    listed("should shall need must have what anything which"),
)


_PROMISES = ("will", "do")
_LEAST_ANSWERED, _LEAST_SHARE = 0.3, 0.5
"""A form of asking this likely, and this likely among all of them, is answered: it writes nothing. [1]"""
_SURELY_OTHER, _HARDLY = 0.6, 0.1
"""A form this likely is answered where the topic that words call is hardly likely. [1]"""
_TOLD = REPORTS | {"tick"}
_ASKED_PLAINLY, _ASKED_SURELY = 0.5, 0.9
"""So likely it is asked without a word or mark of asking. [1]"""
LEAST_ASKED = 0.25
"""A topic less likely was not asked for. Judgement. [1]"""
_LEAST_ASKED_STRANGELY = 0.6
"""The same where a word nobody listed stands in it: "the weather tomorrow". Judgement. [1]"""
_DOUBTED = frozenset({Topic.DUE, Topic.LOG, Topic.RELEASE})
"""Topics that many words call, and that are no stand-in for an answer."""
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
    return words[:1] != () and words[0] in _ASKS_ALONE and words[:2] != _PROMISES


def beyond(text: str, situation: Situation) -> NotUnderstood:
    """Give what a question names that something is known of, where the question itself is beyond the bot."""
    items = items_of(words_of(plain(text[:LONGEST])), situation)
    plants = unique(plant for item in items if isinstance(item.meaning, Plants) for plant in item.meaning.ids)
    pest = next((item.meaning.key for item in items if isinstance(item.meaning, Pest)), None)
    return NotUnderstood(text[:LONGEST], reason="asked", plants=plants, pest=pest)


def asked_by(sure: Meant, text: str, situation: Situation) -> tuple[Meant, bool]:
    """
    Give what is asked, and whether by its likeliest form, where words find nothing or what is hardly likely.

    Of 1,710 questions of hands left out this answers 46 more at once, and 15 fewer with another's answer.
    """
    text = text[:LONGEST]
    words = words_of(plain(text))
    is_telling = any(forms_of(one) & _TOLD for one in sure)
    may_ask = is_telling and (is_plain_question(words) or is_question(words, situation))
    if not (may_ask or _is_open(sure)):
        return sure, False
    guesses = rank_asked(with_names(text, situation), situation)
    asking = [one for one in guesses if subject_of(one.form) is Subject.QUESTION and one.form in ROWS]
    is_plain = is_plain_question(words) or (
        is_question(words, situation) and guesses[0].chance >= _ASKED_SURELY
    )
    if asking[:1] == guesses[:1] and is_plain:
        sure = tuple(beyond(text, situation) if forms_of(one) & _TOLD else one for one in sure)
    if not (asking and _is_open(sure)):
        return sure, False
    best = asking[0]
    is_asked = is_question(words, situation) or (best is guesses[0] and best.chance >= _ASKED_PLAINLY)
    is_of_a_stranger = best.form in _FORMS_OF_PLANTS and any(isinstance(one, Incomplete) for one in sure)
    if not is_asked or is_of_a_stranger or is_one_strange_word(text, situation):
        return sure, False
    if _is_hardly_asked(sure, text, situation, guesses):
        sure = (beyond(text, situation),)
    named = {form for one in sure for form in forms_of(one)}
    if not named:
        is_strange = led_in(text) & strange_to(text, situation)
        least = max(
            _SURELY_OTHER if is_strange else _LEAST_ANSWERED, _LEAST_SHARE * sum(one.chance for one in asking)
        )
    else:
        known = max((one.chance for one in guesses if one.form in named), default=0.0)
        is_other = best.form not in named and known < _HARDLY and len(words) >= FEWEST_DOUBTED
        is_used = any(isinstance(one.meaning, Product) for one in items_of(words, situation))
        is_other = is_other and (is_used or not _STATES & frozenset(words) - {"how"})
        least = _SURELY_OTHER if is_other or len(named) > 1 else 1.0
    told = ROWS[best.form](told_in(text, situation)) if best.chance >= least else None
    return told or sure, bool(told)


def _is_open(sure: Meant) -> bool:
    """Whether nothing was told, and what may be asked is answered in place of what was not understood."""
    return (
        all(isinstance(one, Ask | Help | NotUnderstood | Incomplete) for one in sure)
        and all(one.missing in OPEN_QUESTIONS for one in sure if isinstance(one, Incomplete))
        and all(one.reason in _OPEN for one in sure if isinstance(one, NotUnderstood))
    )


def _is_hardly_asked(
    sure: tuple[Command, ...], text: str, situation: Situation, guesses: list[Guess]
) -> bool:
    """
    Whether the model finds a question unlike those of the topic that words call.

    Of 240 such questions of hands none that was read rightly lay below .3, of 130 misread none above .02.
    """
    topics = {one.topic for one in sure if isinstance(one, Ask)}
    if not guesses or len(text.split()) < FEWEST_DOUBTED or asks_its_state(sure, text):
        return False
    chances = {one.form: one.chance for one in guesses}
    least = _LEAST_ASKED_STRANGELY if strange_to(text, situation) else LEAST_ASKED
    is_like = all(chances.get(f"ask.{topic.value}", 0.0) >= least for topic in topics)
    return bool(topics) and topics <= _DOUBTED and not is_like


def asks_its_state(sure: tuple[Command, ...], text: str) -> bool:
    """Whether a plant's state is asked for in so many words: whether it goes back is part of that answer."""
    is_of_release = any(isinstance(one, Ask) and one.topic is Topic.RELEASE for one in sure)
    return is_of_release and bool(_ASKS_STATE & frozenset(words_of(plain(text))))


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
    if "?" in words:
        return True
    first = words[0] if words else ""
    if words[:2] in {("what", "a"), _PROMISES} or words[:3] in _NO_QUESTIONS:
        return False  # "what a day", "will do the ivy on friday"
    is_asked = first in _OPENERS and words[:2] not in _NO_ASKING
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


def read_question(words: tuple[str, ...], items: tuple[Item, ...], setting: Setting) -> Meant | None:
    """Read what is asked; None when it asks nothing that is known."""
    clause = Mentions(
        tuple(item for item in items if item.meaning not in {Word.QUESTION, Word.BREAK, Word.HEDGE}), setting
    )
    said = frozenset(words)
    if clause.every((Volume, UnclearVolume)):
        return mix(clause)
    if any(needed <= said for needed in _HELP):
        return (Help(),)
    topic = _topic(said, clause)
    product = clause.one(Product)
    if product is not None and product.id is None and topic in {None, Topic.FIT} and said & _USING & _USED_SO:
        return (NotUnderstood(" ".join(words), reason="shelf"),)
    stranger = _unknown_plant(items) if topic in _OF_PLANTS and not _named(clause) else None
    if stranger is not None:
        return (Incomplete(missing=Missing.UNKNOWN_PLANT, text=stranger),)
    return None if topic is None else ask(topic, clause)


def _unknown_plant(items: tuple[Item, ...]) -> str | None:
    """Find the name asked about in "history of the fern": a word nobody knows, led in as a plant is."""
    for before, item in pairwise(items):
        if isinstance(item.meaning, Unknown) and before.text in _LEADS_TO_A_PLANT:
            return item.text
    last = items[-1].meaning if items else None
    return items[-1].text if isinstance(last, Unknown) and len(items) == len(("history", "banana")) else None


def _named(told: Mentions) -> tuple[PlantId, ...]:
    return unique(plant for one in told.every(Plants) for plant in one.ids)


def _topic(said: frozenset[str], clause: Mentions) -> Topic | None:
    plants, product = _named(clause), clause.one(Product)
    beforehand = _asked_beforehand(said, clause)
    if beforehand is not None:
        return beforehand
    settled = _settled(said)
    if settled is not None:
        return settled
    if said & _APART and not (plants and said & {"when", "out", "leave", "long"}):
        return Topic.ISOLATED
    how_it_goes = _how_it_goes(said, has_plants=bool(plants))
    if how_it_goes is not None:
        return how_it_goes
    if said & {"photo", "photos", "picture", "pictures", "before"} and not said & {"harvest"}:
        return Topic.PHOTOS
    if "shelf" in said and clause.one(Place) is not None:
        return Topic.PLANTS
    if said & {"stock", "shelf"} or (product is not None and said & _LEFT):
        return Topic.STOCK
    if clause.every(Pest) and not plants and {"who", "has"} <= said:
        return Topic.PLANTS
    if said & {"plants", "list"} and not said & (_DUE - {"do", "on"} | {"week", "evening", "weekend"}):
        return Topic.PLANTS
    return _of_the_past_or_due(said, has_plants=bool(plants))


def _how_it_goes(said: frozenset[str], *, has_plants: bool) -> Topic | None:
    """Read whether it gets better, when it is over, what there is."""
    if said & _FREED and (has_plants or said & {"when", "can"}):
        return Topic.RELEASE
    if said & _COURSE:
        return Topic.TREND
    is_state = said & _STATES or ("clean" in said and not said & {"did", "was", "were", "last", "when"})
    if (has_plants and is_state and not said & (_TASKS - {"clean"})) or ("when" in said and said & _ENDS):
        return Topic.RELEASE
    if said & {"plants"} and {"what", "have"} <= said:
        return Topic.PLANTS
    is_of_the_shelf = {"what", "have"} <= said and said & {"i", "we"} and not said & {"to", "done"}
    return Topic.STOCK if is_of_the_shelf and not has_plants else None


def _asked_beforehand(said: frozenset[str], clause: Mentions) -> Topic | None:
    """Read what is asked before anything is done: what to buy, when the sun is off, what may be used."""
    plants, product = _named(clause), clause.one(Product)
    if said & _SHOPPING:
        return Topic.BUY
    is_of_an_hour = {"what", "time"} <= said and said & {"spray", "spraying", "treat"}
    if (said & _SUN and not said & {"burn", "burnt"}) or is_of_an_hour:
        return Topic.SUN
    if said & _AT_RISK or said & _EATEN or said & _DANGEROUS or said & _LEFT | said & _LOGGED:
        return None
    may_be_used = said & _USING and said & _MODALS and not said & {"why", "when", "did", "often", *_FREED}
    if may_be_used and ((product is not None and product.id is not None) or ("what" in said and plants)):
        return Topic.FIT if plants or product is not None else None
    return None


def _settled(said: frozenset[str]) -> Topic | None:
    """Read what a pair of words settles alone: "how long", "keep away"."""
    if said & _DANGEROUS or (said & {"safe", "near"} and said & _AT_RISK):
        return Topic.SAFETY
    if said & _EATEN:
        return Topic.EATING
    found = next((topic for needed, topic in _BY_WORDS if needed <= said), None)
    is_of_the_past = found is Topic.RELEASE and bool(said & {"ago", "since"})
    return None if is_of_the_past else found


def _of_the_past_or_due(said: frozenset[str], *, has_plants: bool) -> Topic | None:
    has_done = {"have", "done"} <= said and bool(said & _PERSONS)
    if (
        has_done
        or said & _LOGGED
        or ("did" in said and said & _PERSONS)
        or ("last" in said and "when" in said)
    ):
        return Topic.LOG
    if has_plants and said & _TASKS and not said & {"should", "shall", "need", "when"}:
        return Topic.LOG
    is_to_be_done = all(said & words for words in _TO_DO) or (has_plants and "when" in said)
    is_to_be_done = is_to_be_done or ("done" in said and not has_plants)
    return Topic.DUE if said & _SURELY_DUE or is_to_be_done else None
