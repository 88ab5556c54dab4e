"""What is looked up: "how do I do a clean-out", "what is an axil"; and plans that are refused."""

import re

from bot.actions.describe_pest import DescribePest
from bot.actions.explain_term import AskTerm
from bot.actions.situation import Situation
from bot.actions.tell_how import AskHow
from bot.catalogue.howto import load_howto
from bot.domain.identity import PlantId
from bot.phrases.asking import Meant
from bot.phrases.dangers import read_danger
from bot.phrases.items import items_of
from bot.phrases.lexicon import listed, worded
from bot.phrases.names import Pest, Plants, Product
from bot.phrases.poisons import read_poison

_Words = tuple[str, ...]
_HOW = worded(
    "how do i | how do we | how do you | how does one | how does the | how does a | how should i"
    " | how should we | how can i | how would i | how to | show me how to | tell me how to"
    " | explain how to | what is the best way to | best way to | steps for | instructions for"
)
_AROUND_A_WAY = listed(
    "do a an the my our this that it them these those of on off for from with against to at in plant plants"
    " leaf leaves properly correctly right exactly best again first please work works use make go about one"
    " ? . ! , full test look mites bugs pest pests"
)
_MEANS = worded(
    "what do you mean by | what do you mean with | what is meant by | the meaning of | meaning of"
    " | what does | what is | what are | define | explain | what counts as | how many is | how many are"
)
_OPEN = frozenset({("what", "is"), ("what", "are")})
_FIGHTING = (("get", "rid", "of"), ("treat",), ("kill",), ("fight",), ("beat",), ("stop",), ("deal", "with"))
_AGAINST = worded("what do i use against | what works against | what helps against | what kills")
_OF_A_PEST = _OPEN.union(_AGAINST, ((*lead, *verb) for lead in _HOW for verb in _FIGHTING))
_LONGEST_LEAD = max(map(len, _OF_A_PEST))
_FIRST = frozenset(lead[0] for lead in (*_OF_A_PEST, *_HOW, *_MEANS))
_ARTICLES = frozenset({"a", "an", "the", "these", "my"})
_LONGEST_FOLLOW_UP = 10
_ASKING = listed("what which how where")
_HOW_SO = listed("with how where far")
_WHETHER = listed("should shall must need")
_PARTS = listed("leaf leaves side sides part parts")
_HOW_MUCH = listed("many often long much when")
_BITING = listed("bite bites sting stings")
_OF_THE_BOT = {
    word: term
    for term, words in (
        ("my_town", "town city location address"),
        ("window", "window windows"),
        ("robot", "robot bot human person ai machine computer program real"),
        ("price", "free cost costs price pay money charge"),
        ("weather", "weather rain sunny"),
    )
    for word in words.split()
}
"""What strangers ask first, by the term that answers it."""
_LONGEST_SMALL = 9
_SMALL = listed(
    "do does you u need needs want why are is it a an the to know my me your i we have has must should tell"
    " how much for so this there today or not really ? ! , . good bad nice like be here will can does of am"
    " what which way all just only question one talking speaking with someone and hello hi think if say"
)
_AWAY = listed("move moved put apart away isolate keep")
_AROUND_A_FOLLOW_UP = (
    listed("what which how where far with do does should shall can i we you it them to then so and or for")
    | listed("tonight today now exactly ok okay uh um er well please tell me part parts side sides")
    | listed("from other others stand be")
    | listed("hard off all only every them these those is that this mean must have need use plant plants")
    | (_AROUND_A_WAY - {"?"})
    | _AWAY
)
_GOES_ON = listed("apart isolation isolated released release look looks check checks")
"""Terms that ask what is going on, unless "a" stands before them: "what is isolated"."""


def read_lookup(words: _Words, situation: Situation) -> Meant | None:
    """Read what is looked up, or a plan that is refused; nothing of it writes."""
    danger = read_danger(words, situation)
    if danger is not None or not any(word in _FIRST for word in words):
        return danger or read_poison(words, situation)
    return (
        read_term(words)
        or read_pest(words, situation)
        or read_way(words, situation)
        or read_poison(words, situation)
    )


def read_way(words: _Words, situation: Situation) -> Meant | None:
    """Read "how do I do a clean-out of the hoya", "show me how to swab"; every word must be understood."""
    lead = next((lead for lead in _HOW if words[: len(lead)] == lead), None)
    if lead is None:
        return None
    rest = words[len(lead) :]
    ways = load_howto().way_by_word
    spans = ((at, at + size) for size in range(len(rest), 0, -1) for at in range(len(rest) - size + 1))
    begin, end = next((span for span in spans if " ".join(rest[slice(*span)]) in ways), (0, 0))
    if begin == end:
        return None
    plants: tuple[PlantId, ...] = ()
    pest = None
    for item in items_of((*rest[:begin], *rest[end:]), situation):
        if isinstance(item.meaning, Plants):
            plants += item.meaning.ids
        elif isinstance(item.meaning, Pest):
            pest = item.meaning.key
        elif not isinstance(item.meaning, Product) and not frozenset(item.text.split()) <= _AROUND_A_WAY:
            return None
    plant = plants[0] if len(plants) == 1 else None
    return (AskHow(way=ways[" ".join(rest[begin:end])].key, plant=plant, pest=pest),)


def read_follow_up(words: _Words, situation: Situation, *, is_lost: bool = False) -> Meant | None:
    """Read a short question back on what was just said: "wipe with what?", "move it where"."""
    said = tuple(part for word in words if word[:1].isalnum() for part in word.split("-") if part)
    asked = frozenset(said)
    is_how = bool(asked & _HOW_SO) or ("which" in asked and bool(asked & _PARTS))
    is_asked = is_how or (is_lost and ("?" in words or bool(asked & _ASKING)))
    terms = {_OF_THE_BOT[word] for word in said if word in _OF_THE_BOT}
    is_small = len(said) <= _LONGEST_SMALL and asked <= _SMALL | _OF_THE_BOT.keys()
    if "?" in words and len(terms) == 1 and is_small:
        return (AskTerm(terms.pop()),)
    if asked & _BITING and len(said) <= _LONGEST_FOLLOW_UP and ("?" in words or asked & _ASKING):
        return (AskTerm("bite"),)
    ways = load_howto().way_by_word
    is_asked = is_asked or (is_lost and " ".join(said) in ways)  # "clean out", and no more
    if len(said) > _LONGEST_FOLLOW_UP or not is_asked or asked & _HOW_MUCH:
        return None
    spans = [(at, at + size) for size in (3, 2, 1) for at in range(len(said) - size + 1)]
    named = next((span for span in spans if " ".join(said[slice(*span)]) in ways), None)
    is_of_apart = "far" in asked or (bool(asked & _AWAY) and "where" in asked)
    if (named is None and not is_of_apart) or (asked & _WHETHER and not is_how):
        return None
    begin, end = named or (0, 0)
    rest = tuple(word for word in (*said[:begin], *said[end:]) if word not in _AROUND_A_FOLLOW_UP)
    plants = [item.meaning for item in items_of(rest, situation)] if rest else []
    if not all(isinstance(one, Plants) for one in plants):
        return None
    ids = [plant for one in plants if isinstance(one, Plants) for plant in one.ids]
    key = ways[" ".join(said[begin:end])].key if named is not None else "isolate"
    return (AskHow(way=key, plant=ids[0] if len(ids) == 1 else None),)


def read_pest(words: _Words, situation: Situation) -> Meant | None:
    """Read "what are thrips", "how do I get rid of gnats": a pest and nothing else."""
    said = tuple(word for word in words if word[:1].isalnum())
    lead = next((said[:size] for size in range(1, _LONGEST_LEAD + 1) if said[:size] in _OF_A_PEST), None)
    rest = () if lead is None else tuple(word for word in said[len(lead) :] if word not in _ARTICLES)
    items = items_of(rest, situation) if rest else ()
    pest = items[0].meaning if len(items) == 1 else None
    return (DescribePest(pest.key),) if isinstance(pest, Pest) else None


def read_term_about(words: _Words) -> Meant | None:
    """Read what a term answers though it is not named: "who made you", "do i need gloves"."""
    said = " ".join(words)
    terms = load_howto().terms.items()
    found = (key for key, term in terms if any(re.search(one, said) for one in term.about))
    return next(((AskTerm(key),) for key in found), None)


def read_term_inside(words: _Words) -> Meant | None:
    """Read a term that is asked for among other words: "and what, pray, is a clean-out??"."""
    said = tuple(word for word in words if word[:1].isalnum())
    begin = next((at for at, word in enumerate(said) if word in {"what", "whats", "what's"}), None)
    if begin is None:
        return None
    for at in range(begin + 2, len(said)):
        name = next((said[at : at + size] for size in (3, 2, 1) if _is_term(said[at : at + size])), None)
        if name is not None and said[at - 1] in _NAMING:
            way = load_howto().way_by_word.get(" ".join(name))
            return read_term(("what", "is", "a", *name)) if way is None else (AskHow(way=way.key),)
    return None


_NAMING = listed("a an by")
_ARTICLES_OF_A_TERM = listed("a an the one")


def _is_term(name: _Words) -> bool:
    named = " ".join(name)
    return named in load_howto().term_by_word or named in load_howto().way_by_word


def read_term(words: _Words) -> Meant | None:
    """Read "what is an axil", "what does on watch mean", "explain rotation"."""
    said = tuple(word for word in words if word[:1].isalnum())
    lead = next((lead for lead in _MEANS if said[: len(lead)] == lead), None)
    if lead is None:
        return None
    rest = said[len(lead) :]
    if lead == ("what", "does"):
        if rest[-1:] != ("mean",):
            return None
        rest = rest[:-1]
    article = rest[0] if rest and rest[0] in _ARTICLES_OF_A_TERM else ""
    name = " ".join(rest[1:] if article else rest)
    term, way = load_howto().term_by_word.get(name), load_howto().way_by_word.get(name)
    if term is None and way is not None and lead not in _OPEN:
        return (AskHow(way=way.key),)
    if term is None or (lead in _OPEN and article not in {"a", "an"} and _GOES_ON & frozenset(name.split())):
        return None
    return (AskTerm(term.name.replace(" ", "_")),)
