"""Other names, pots and water: "rename the hoya to bertha", "hoya is in a 20 cm pot", "watered the hoya"."""

from datetime import timedelta

from bot.actions.ask import Ask, Topic
from bot.actions.log_round import LogRound
from bot.actions.log_watering import LogWatering
from bot.actions.not_understood import NotUnderstood
from bot.actions.remove_place import RemovePlace
from bot.actions.rename import Rename
from bot.actions.set_kind import SetKind
from bot.actions.set_place import SetPlace
from bot.actions.set_pot import SetPot
from bot.actions.situation import Situation
from bot.catalogue.load import load
from bot.domain.identity import PlantId
from bot.domain.trade import Method
from bot.phrases.asking import Meant
from bot.phrases.items import laid_out, name_at
from bot.phrases.lexicon import KNOWN, PHRASES, listed
from bot.phrases.names import OneOf, Place, Plants, names_of
from bot.phrases.numbers import Length, measure_at
from bot.phrases.slips import slips_between
from bot.phrases.text import plain, tidy, words_of

_OPENERS = frozenset({"rename", "call"})
_NAMED = (
    *(("is", "called"), ("is", "now", "called"), ("is", "named"), ("is", "now", "named")),
    *(("=",), ("should", "be"), ("is", "just"), ("is", "really"), ("means",)),
)
_IS = (("is",), ("=",), ("means",), ("stands", "for"))
"""What makes a kind of plant another name for one that is short: "FLF is fiddle leaf"."""
_INCHES = frozenset({"in", '"'})
_TO = listed("to as into")
_LEADING = listed("the my our place room plant please")
_AROUND_A_KIND = listed("a an both all kind kinds sort of actually really just , and")
_JOINING_PLANTS = listed("and & , is are both the my")
_REMOVES = listed("remove delete forget drop")
_AROUND_A_POT = listed(
    "has have got is are in into a an the now of my our pot pots wide size it sits stands stand new bigger"
    " larger smaller one each moved put potted up , . ! please - 's"
)
_AROUND_WATER = listed("i we have has just the my our and also was were been got , watered")
_BEHIND = {"today": 0, "yesterday": 1, "tonight": 0}
_REPOTTED = listed("repotted potted repot")
_POT_CM = (3.0, 150.0)
"""What pots at home measure across; a figure beyond is a slip. Judgement. [cm]"""
_UNSURE = PlantId(0)
"""Stands for a name that several plants answer to; no plant has this number."""
_LONGEST_NAME = 40
_LONGEST_WIDTH = 12
"""Words of "one hundred and twenty two and a half centimetres", and some more. [1]"""
_AROUND_A_SLIP = listed("it is i meant mean sorry no oops the a , that should be said")
_MOST_SLIPS = 2
_MOST_WORDS = 5
_ASKS = frozenset(
    {
        *("places", "rooms", "my places", "list places", "what places do i have", "which places do i have"),
        *("what places are there", "which places are there", "my rooms", "what rooms do i have"),
    }
)


def read_renaming(text: str, words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read another name, another pot or a place no longer used; None where it is none of them."""
    said = tuple(word for word in words if word not in {"?", ".", "!", "please"})
    if " ".join(said) in _ASKS:
        return (Ask(topic=Topic.PLACES),)
    if said[:1] == ("where",):
        return _where(said, situation)
    if "?" in words:
        return None
    return (
        _renamed(text, said, situation)
        or _misspelt(text, said, situation)
        or _removed(said, situation)
        or _watered(said, situation)
        or _potted(said, situation)
        or _of_a_kind(said, situation)
    )


def _of_a_kind(said: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read "bertha is a crassula", "bertha and fred are monsteras", "bertha is a crassula and so is fred"."""
    at = next((at for at, word in enumerate(said) if word in {"is", "are"}), len(said))
    so = next((at for at, word in enumerate(said) if word == "so"), len(said))
    kind = tuple(word for word in said[at + 1 : so] if word not in _AROUND_A_KIND)
    knowledge, name = load().knowledge, " ".join(kind)
    if not kind or not knowledge.is_kind(name) or _named_at(kind, 0, situation) is not None:
        return None
    plants = [_all_named(part, situation) for part in (said[:at], said[so + 1 :])]
    meant = knowledge.kind_named(name)
    if not plants[0] or plants[1] is None or meant is None or meant.one_of:
        return None
    return (SetKind((*plants[0], *plants[1]), meant.key),)


def _all_named(said: tuple[str, ...], situation: Situation) -> tuple[PlantId, ...] | None:
    """Give the plants named; None where anything else is said."""
    plants: tuple[PlantId, ...] = ()
    at = 0
    while at < len(said):
        found = None if said[at] in _JOINING_PLANTS else _named_at(said, at, situation)
        if found is not None and isinstance(found[0], Plants):
            plants, at = plants + found[0].ids, found[1]
        elif said[at] in _JOINING_PLANTS:
            at += 1
        else:
            return None
    return plants


def _misspelt(text: str, said: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read "patio, not patoi" where the place was told with that slip."""
    bare = tuple(word for word in said if word not in _AROUND_A_SLIP)
    if len(bare) != len(("patio", "not", "patoi")) or bare[1] != "not":
        return None
    meant, _, slip = bare
    known = {one.name.casefold(): one.id for one in situation.places}
    is_slip = slip in known and meant not in known and slips_between(slip, meant, _MOST_SLIPS) <= _MOST_SLIPS
    typed = next(
        (word.strip(",.!") for word in tidy(text).split() if word.casefold().strip(",.!") == meant), meant
    )
    return (Rename(typed, place=known[slip]),) if is_slip else None


def _where(said: tuple[str, ...], situation: Situation) -> Meant | None:
    found = _named_at(said, 2, situation) if said[1:2] in {("is",), ("are",)} else None
    if found is None or found[1] != len(said) or not isinstance(found[0], Plants | OneOf):
        return None
    return (Ask(topic=Topic.PLACES, plants=found[0].ids),)


def _named_at(said: tuple[str, ...], at: int, situation: Situation) -> tuple[object, int] | None:
    """Give the plant or the place named here, and where the next word is."""
    while said[at : at + 1] and said[at] in _LEADING:
        at += 1
    found = name_at(said, at, names_of(situation)) if at < len(said) else None
    return None if found is None else (found[0], at + found[1])


def _renamed(text: str, said: tuple[str, ...], situation: Situation) -> Meant | None:
    is_opened = said[:1] != () and said[0] in _OPENERS
    found = _named_at(said, 1 if is_opened else 0, situation) or _asked_of(said, situation)
    if found is None:
        return None
    thing, at = found
    if is_opened:
        if frozenset(said[at + 1 :]) & _TO:
            return (
                NotUnderstood("", reason="which plant"),
            )  # "orchid 2 to purple orchid": there is no orchid 2
        at += said[at : at + 1] != () and said[at] in _TO
    else:
        joints = _IS if isinstance(thing, Plants) and " ".join(said[at + 1 :]) in situation.kinds else _NAMED
        joint = next((one for one in joints if said[at : at + len(one)] == one), None)
        if joint is None:
            return None
        at += len(joint)
    name = _as_typed(text, said[at:])
    if name is None:
        return None
    if isinstance(thing, Place):
        return (Rename(name, place=thing.id),)
    if isinstance(thing, Plants) and len(thing.ids) == 1:
        return (Rename(name, plant=thing.ids[0]),)
    return (NotUnderstood("", reason="which plant"),) if isinstance(thing, OneOf | Plants) else None


def _asked_of(said: tuple[str, ...], situation: Situation) -> tuple[object, int] | None:
    """Give the place that is asked about, where "call it" means that."""
    asked = [one for choice in situation.choices for one in choice.commands if isinstance(one, SetPlace)]
    ids = {one.place_id for one in asked} if said[:2] == ("call", "it") else set()
    place = next(iter(ids), None)
    return (Place(place), 2) if len(ids) == 1 and place is not None else None


def _as_typed(text: str, words: tuple[str, ...]) -> str | None:
    """Give the last words in the case they were typed in; None where they can be no name."""
    last = tidy(text).rstrip(" .!").split()
    typed = next(
        (told for at in range(len(last)) if words_of(plain(told := " ".join(last[at:]))) == words), ""
    )  # "H7" is two words and one as typed
    is_name = bool(typed) and len(typed) <= _LONGEST_NAME and len(words) <= _MOST_WORDS
    is_letters = all(word.isalnum() for word in words) and any(word.isalpha() for word in words)
    is_work = any(isinstance(PHRASES.get((word,)), Method) for word in words)  # "should be sprayed with neem"
    return typed if is_name and is_letters and not (is_work or frozenset(words) <= KNOWN) else None


def _removed(said: tuple[str, ...], situation: Situation) -> Meant | None:
    if said[:1] == () or said[0] not in _REMOVES:
        return None
    found = _named_at(said, 1, situation)
    if found is None or found[1] != len(said) or not isinstance(found[0], Place):
        return None
    return (RemovePlace(found[0].id),)


def _watered(said: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read "watered the hoya", "i watered hoya and ivy today", "hoya watered yesterday"."""
    days = _BEHIND.get(said[-1]) if said else None
    left = said if days is None else said[:-1]
    if left.count("watered") != 1:
        return None
    named = laid_out(left, situation, (_plants_at,), _AROUND_WATER) or ()
    plants = dict.fromkeys(plant for one in named if isinstance(one, Plants) for plant in one.ids)
    on = situation.today - timedelta(days=days) if days else None
    return (LogWatering(tuple(plants), on),) if plants else None


def _thing_at(words: tuple[str, ...], at: int, situation: Situation) -> tuple[object, int] | None:
    named = name_at(words, at, names_of(situation))
    return named if named is not None and isinstance(named[0], Plants | OneOf | Place) else None


def _plants_at(words: tuple[str, ...], at: int, situation: Situation) -> tuple[object, int] | None:
    named = _thing_at(words, at, situation)
    return named if named is not None and isinstance(named[0], Plants) else None


def _width_at(words: tuple[str, ...], at: int, _: Situation) -> tuple[object, int] | None:
    """Read a width; beside a number "in" is an inch here."""
    width = measure_at(
        tuple("inch" if word in _INCHES else word for word in words[at : at + _LONGEST_WIDTH]), 0
    )
    return width if width is not None and isinstance(width[0], Length) else None


def _potted(said: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read a pot's width of named plants, also "hoya, landing, 15 cm"; "repotted" is written too."""
    said = tuple(word for word in said if word != "-")  # "20-cm" is "20 cm"
    told = laid_out(said, situation, (_thing_at, _width_at), _AROUND_A_POT | _REPOTTED) or []
    widths = [float(one.cm) for one in told if isinstance(one, Length)]
    places = [one.id for one in told if isinstance(one, Place)]
    things = [one for one in told if isinstance(one, Plants | OneOf)]
    plants = [each for one in things for each in (one.ids if isinstance(one, Plants) else (_UNSURE,))]
    if places and ("," not in said or isinstance(told[0], Place)):
        return None
    standing = [one.place for one in situation.plants if one.id in plants]
    if places and standing != places:
        return None
    has_pot = bool(places or frozenset(said) & {"pot", "pots", *_REPOTTED})
    if not plants or len(widths) != 1 or not has_pot or not _POT_CM[0] <= widths[0] <= _POT_CM[1]:
        return None
    ids = tuple(dict.fromkeys(plants))
    if _UNSURE in ids:
        return (NotUnderstood("", reason="which plant"),)
    pot = SetPot(ids, round(widths[0], 2))
    if frozenset(said) & _REPOTTED:
        return (LogRound(plants=ids, method=Method.REPOT), pot)
    return (pot,)
