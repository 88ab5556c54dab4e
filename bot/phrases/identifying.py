"""Something seen that nobody has named: "what is this", "bumps that lift off", "tiny flies at the fern"."""

from itertools import pairwise

from bot.actions.identify import Identify
from bot.actions.situation import Situation
from bot.phrases.asking import Meant
from bot.phrases.items import items_of
from bot.phrases.lexicon import Spot, Word, listed
from bot.phrases.names import Plants

_ASKS = (
    ("what", "is", "this"),
    ("what", "is", "that"),
    ("what", "is", "it"),
    ("what", "are", "these"),
    ("what", "are", "those"),
    ("what", "are", "they"),
    ("which", "pest"),
    ("what", "pest"),
    ("what", "bug"),
    ("identify",),
    ("find", "out"),
    ("no", "idea", "what"),
    ("not", "sure", "what"),
    ("do", "not", "know", "what"),
    ("what", "has"),
    ("what", "have"),
)
_SEEN: tuple[tuple[tuple[str, ...], tuple[tuple[str, str], ...]], ...] = (
    (("bumps", "that", "lift", "off"), (("look", "bumps"), ("lifts", "cover"))),
    (("bumps",), (("look", "bumps"),)),
    (("discs",), (("look", "bumps"),)),
    (("lumps",), (("look", "bumps"),)),
    (("tiny", "flies"), (("look", "flies"),)),
    (("little", "flies"), (("look", "flies"),)),
    (("small", "flies"), (("look", "flies"),)),
    (("flies",), (("look", "flies"),)),
    (("little", "black", "flies"), (("look", "flies"), ("fly", "legs"))),
    (("tiny", "white", "moths"), (("look", "flies"), ("fly", "cloud"))),
    (("silvery", "patches"), (("look", "patches"),)),
    (("silvery",), (("look", "patches"),)),
    (("brown", "patches"), (("look", "patches"),)),
    (("white", "powder"), (("look", "grains"),)),
    (("white", "grains"), (("look", "grains"),)),
    (("white", "specks"), (("look", "grains"),)),
    (("white", "fluff"), (("look", "fluff"),)),
    (("white", "fluffy", "stuff"), (("look", "fluff"),)),
    (("fluffy", "stuff"), (("look", "fluff"),)),
    (("cottony", "stuff"), (("look", "fluff"),)),
    (("fluff",), (("look", "fluff"),)),
    (("cotton",), (("look", "fluff"),)),
    (("webbing",), (("look", "webbing"),)),
    (("webs",), (("look", "webbing"),)),
    (("sticky",), (("look", "sticky"),)),
    (("green", "insects"), (("look", "insects"), ("colour", "green"))),
    (("little", "insects"), (("look", "insects"),)),
)
_SEEN_BY_LENGTH = sorted(_SEEN, key=lambda one: -len(one[0]))
_OWN_NAMES = frozenset(
    (size, bugs)
    for size in ("tiny", "small", "little", "white", "green", "black", "brown", "strange", "weird", "unknown")
    for bugs in ("bugs", "insects", "things", "creatures", "critters", "specks", "dots")
) | {("fluffy", "stuff"), ("cottony", "stuff"), ("white", "stuff")}
"""Animals described and not named: they lead to the key."""
_OWN_WORD = listed("bumps discs lumps flies silvery powder grains moths insects patches specks")
"""Words that no sign has a name for, so that they alone lead to the key."""
_PASSING = listed(
    " there is are some a the an on of my our it i we have has see saw found with at around in little tiny"
    " small these this that what pest bug identify find out no idea not sure do know which are those they"
    " white brown black green strange weird unknown insects creatures critters specks dots bugs and , . !"
    " ? please help leaves leaf stuff thing things something got"
)


_ASK_OPENINGS = frozenset(ask[0] for ask in _ASKS)


def read_identification(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read a question what it is, with what of it is told already; None where it is something else."""
    seen, rest = _seen(words)
    asks = any(
        words[at : at + len(ask)] == ask
        for at, word in enumerate(words)
        if word in _ASK_OPENINGS
        for ask in _ASKS
    )
    is_described = any(pair in _OWN_NAMES for pair in pairwise(words))
    if not asks and not is_described and not (seen and _OWN_WORD & frozenset(words)):
        return None
    plants: tuple[int, ...] = ()
    for item in items_of(rest, situation):
        if isinstance(item.meaning, Plants):
            plants = (*plants, *item.meaning.ids)
        elif not (
            item.meaning in {Word.FILLER, Word.BREAK, Word.QUESTION, Word.IT, Word.SAW, Word.BUGS}
            or isinstance(item.meaning, Spot)
            or all(word in _PASSING for word in item.text.split())
        ):
            return None
    known = tuple(plant.id for plant in situation.plants if plant.id in plants)
    return (Identify(plants=known, answers=seen),)


def _seen(words: tuple[str, ...]) -> tuple[tuple[tuple[str, str], ...], tuple[str, ...]]:
    """Take the longest description that stands in the message out of it."""
    for phrase, answers in _SEEN_BY_LENGTH:
        for at in range(len(words)) if phrase[0] in words else ():
            if words[at : at + len(phrase)] == phrase:
                return answers, words[:at] + words[at + len(phrase) :]
    return (), words
