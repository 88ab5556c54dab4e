"""What was said back of a home, or was just written of it, is put right by the next message."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import pairwise

from bot.actions.action import ButtonText, Command
from bot.actions.add_plants import AddPlants, NewPlant
from bot.actions.ask import Ask, Topic
from bot.actions.log_find import LogFind
from bot.actions.lose_plant import LosePlant
from bot.actions.move_plant import MovePlant
from bot.actions.remove_place import RemovePlace
from bot.actions.rename import Rename
from bot.actions.set_place import SetPlace
from bot.actions.set_town import SetTown
from bot.actions.situation import KnownPlace, KnownPlant, Situation
from bot.actions.stock_product import StockProduct
from bot.catalogue.load import load
from bot.domain.identity import PlaceId, PlantId
from bot.domain.value import Value, replace
from bot.phrases.home_words import PREPOSITIONS, ROOMS, kind_at
from bot.phrases.homes import Home, read_home
from bot.phrases.lexicon import listed
from bot.phrases.light import WAYS
from bot.phrases.names import Pest, names_of
from bot.phrases.numbers import number_at
from bot.phrases.saying import say_all
from bot.phrases.slips import slips_between
from bot.phrases.text import plain, tidy, words_of

Putting = LosePlant | MovePlant | RemovePlace | Rename
_ON = " on "
_GOT = "got "


class Right(Value):
    """A home as it is told now, and what is to be done about names that are written already."""

    home: Home
    written: tuple[Putting, ...] = ()
    said: tuple[str, ...] = ()
    """Each of these in words."""
    is_of_it: bool = False
    """Whether something that was offered or written is put right."""
    is_plain: bool = False
    """Whether that is said in so many words."""
    is_agreed: bool = False
    """Whether all that is offered is told again, and nothing else."""


def put_right(text: str, situation: Situation, *, is_else: bool = False) -> Right:
    """
    Read what a message tells of a home, with an open offer of one as the message leaves it.

    Of a message that tells something else only plain corrections are read.
    """
    offered = offered_home(situation) or Home()
    is_open = not offered.is_empty()
    if is_else and not (is_open or _MAY_PUT_RIGHT.search(text)):
        return Right(Home())
    named = _with_names_for_them(tidy(text), offered)
    said = _Mending(named, _with_offered(situation, offered), offered)
    said.read()
    if is_else and not (is_open or said.is_any):
        return Right(Home())
    told = read_home(said.rest, said.known) if any(map(str.isalnum, said.rest)) else Home()
    told = _without_strangers(told, said.rest) if is_open else told
    said.take(told)
    written = tuple(said.of_written(situation))
    if not (said.is_any or written or said.concerns(told)):
        return Right(Home())
    in_words = tuple(_in_words(one, situation) for one in written)
    home = said.mended(told)
    is_agreed = not (said.is_any or written or told.unread) and said.is_all() and _same(home, offered)
    if written and _same(home, offered):
        home = Home()  # what is offered stays so, beside what is said of the rest
    return Right(home, written, in_words, is_of_it=True, is_plain=said.is_any, is_agreed=is_agreed)


def _with_names_for_them(text: str, offered: Home) -> str:
    """Put the names of the plants offered for "those two", "they": those without a room, else all."""
    plants = [one.name for one in offered.plants if one.place is None] or [one.name for one in offered.plants]
    if not 1 < len(plants) <= _MOST_OF_THEM:
        return text
    names = f"{', '.join(plants[:-1])} and {plants[-1]}"
    return _THOSE.sub(lambda found: f"{found['before']}{names}", text)


_MOST_OF_THEM = 6
"""More plants are not told by "they". Judgement. [1]"""
_THOSE = re.compile(
    r"(?P<before>^\W*|[.!?\n,;]\s*|\b(?:no|sorry|um|oh|but|and)\s+)"
    r"(?:(?:those|these|them|the) two|both(?: of them)?|they(?: are)? both|all of (?:them|these|those)|they)"
    r"(?= (?:are|stand|live|sit|go|belong|both)\b)",
    re.IGNORECASE,
)


def _without_strangers(told: Home, text: str) -> Home:
    """Leave out what no list knows and stands neither in a room nor behind "a": "no plus sign"."""
    kind, said = load().knowledge.kind_named, text.casefold()
    plants = tuple(
        one
        for one in told.plants
        if one.place
        or kind(re.sub(r" \d+$", "", one.name))
        or re.search(rf"\b(?:an?|the|my|our|called|named) {re.escape(one.name.casefold())}\b", said)
    )
    if len(plants) == len(told.plants):
        return told
    left = tuple(one.name for one in told.plants if one not in plants)
    return replace(told, plants=plants, unread=(*told.unread, *left))


def offered_home(situation: Situation) -> Home | None:
    """Give the home that an open offer says back."""
    first = situation.choices[0] if situation.choices else None
    if first is None or first.text is not ButtonText.YES:
        return None
    home = Home()
    places: list[SetPlace] = []
    lines: list[str] = []
    for one in first.commands:
        match one:
            case SetTown(text=town):
                home = replace(home, town=town)
            case AddPlants(plants=plants, then=then):
                home = replace(home, plants=plants)
                lines += then.split("\n") if then else []
            case SetPlace():
                places.append(one)
            case LogFind() | StockProduct():
                lines += say_all((one,), situation) or ()
            case Ask(topic=Topic.BUY):
                home = replace(home, has_nothing=True)
            case _:
                return None
    is_of_a_home = bool(home.town or home.plants or places)
    return replace(home, places=tuple(places), lines=tuple(lines)) if is_of_a_home else None


def things_of(commands: tuple[Command, ...]) -> list[str]:
    """Give each thing that an offer of a home would write, those first that no list knows."""
    named: list[str] = []
    for one in commands:
        match one:
            case SetTown(text=name) | SetPlace(name=name):
                named.append(name)
            case AddPlants(plants=plants, then=then):
                named += [re.sub(r" \d+$", "", each.name) for each in plants]
                named += [*(each.place or "" for each in plants), *then.split("\n")]
            case StockProduct() | LogFind() | Ask():
                pass
            case _:
                return []
    kind = load().knowledge.kind_named
    things = dict.fromkeys(one.removeprefix(_GOT) for one in named if one)
    is_listed = {one: _ON not in one and bool(kind(one) or ROOMS & {*words_of(plain(one))}) for one in things}
    return sorted(things, key=is_listed.__getitem__)


def without(thing: str, home: Home) -> Home:
    """Give a home without one of its things, by its name or line as it is offered."""
    plants = (
        replace(one, place=None if one.place == thing else one.place)
        for one in home.plants
        if re.sub(r" \d+$", "", one.name) != thing
    )
    return replace(
        home,
        town="" if home.town == thing else home.town,
        plants=tuple(plants),
        places=tuple(one for one in home.places if one.name != thing),
        lines=tuple(one for one in home.lines if one.removeprefix(_GOT) != thing),
    )


def _with_offered(situation: Situation, offered: Home) -> Situation:
    """Give the situation in which what is offered is there."""
    here = {one.name.casefold(): one.id for one in situation.places}
    named = [name for name in dict.fromkeys(_places_of(offered)) if name.casefold() not in here]
    rooms = tuple(KnownPlace(PlaceId(-n), name) for n, name in enumerate(named, 1))
    here |= {one.name.casefold(): one.id for one in rooms}
    own = {name.casefold() for one in situation.plants for name in one.names}
    plants = tuple(
        KnownPlant(id=PlantId(-n), names=(one.name,), place=here.get((one.place or "").casefold()))
        for n, one in enumerate(offered.plants, 1)
        if one.name.casefold() not in own and not one.name[-1:].isdigit()  # ranges are read as they are told
    )
    if not (plants or rooms):
        return situation
    return replace(situation, plants=(*situation.plants, *plants), places=(*situation.places, *rooms))


def _places_of(home: Home) -> list[str]:
    return [*filter(None, (one.place for one in home.plants)), *(one.name for one in home.places if one.name)]


# Every name that is known stands as one letter in the rules below: of a plant, of a place, of anything else.
_BEGINS = {"plant": 0xE000, "place": 0xE800, "else": 0xF000}
_PLANT, _PLACE, _ANY = "[\ue000-\ue7ff]", "[\ue800-\uefff]", "[\ue000-\uf7ff]"
_JOINT = r"(?:'s)?(?:\s*(?:[,/&+]|\b(?:and|an|or|nor|n)\b))+\s*(?:(?:the|a|my|no|plain|that|those) )*"
_LIST = rf"{_ANY}(?:{_JOINT}{_ANY})*"
_ALL = rf"(?P<all>{_LIST})"
_THE = (
    r"(?:(?:the|that|those|my|a|an|any|all|both|of|these|this|false|extra|other|plain|just|called) )*['\"]?"
)
_WORD = (
    r"(?!(?:it|its|is|are|was|there|theres|that|this|no|not|they|them|he|she|i|the|called|named)\b)"
    rf"(?:{_ANY}|[^\W\d_][\w'-]*)"
)
_NAME = rf"(?P<name>{_WORD}(?: {_WORD}){{0,3}}?)"
_END = r"(?=['\"]? ?[,.;:!()\n-]| and\b|['\"]? ?$)"
_NOT = r"\b(?:not|never|no|nor|neither|(?:is|are|was|were|ai|do|does|did)n'?t)\b"
_FREE = rf"(?:(?!{_ANY}|\b(?:in|on|at)\b)[^.!?\n])"
_REMOVE = (
    r"\b(?:delete|remove|drop|bin|scrap|forget(?: about)?|erase|ditch|chuck|scratch|lose|skip|without"
    r"|leave out|take (?:away|off|out)|get rid of|throw (?:out|away)|away with)"
)
_MAY_PUT_RIGHT = re.compile(
    rf"{_NOT}|{_REMOVE}|=|\b(?:call(?:ed)?|named?|rename|means|stands for|short for|same|identical|one"
    r"|mistake|nonsense|worry|wrong|rooms?|places?|it'?s|only|just|take|leave|throw|cut|cross)\b",
    re.IGNORECASE,
)
"""What puts right a message that tells something else holds one of these."""
_THEM = r"(?:it|'?em|them|that|those|both)\b(?: away| out)?"
_OUT = rf"(?:[\s,-]*(?:(?:so|and|then|please|just) )*{_REMOVE} {_THEM})"
_OLD = rf"(?:not|no) {_THE}(?P<old>{_LIST})"
_THERE = r"(?:in |on |at |by )?(?:the |my |that |t')*"


def _rules(*patterns: str) -> tuple[re.Pattern[str], ...]:
    return tuple(re.compile(one, re.IGNORECASE) for one in patterns)


_LED = r"(?<!\b[ioa][nt] )(?<!\b[ioa][nt] the )"
_GONE = _rules(
    rf"{_REMOVE} {_THE}{_ALL}(?:(?:,| and| or) (?:the )?[^\W\d_]+(?=[.,!\n]|$))*"
    rf"(?: (?:from|in|at) (?:the )?(?P<at>{_PLACE}))?",
    rf"\b(?:take|leave|throw|cut|cross) {_THE}{_ALL} (?:out|off|away)\b",
    rf"{_LED}{_ALL}(?: (?:in|at|on) (?:the )?(?P<at>{_PLACE}))?{_FREE}{{0,45}}?"
    rf"(?:{_NOT}{_FREE}{{0,25}}?\b(?:plants?|places?|rooms?|spots?|town|city|exist)\b"
    rf"|\b(?:mistake|nonsense|worry|wrong (?:thing|one|plant|place))\b){_OUT}?",
    rf"{_NOT} (?:(?:a|an|any|such|real|one) )*(?:plants?|places?|rooms?|thing) (?:as )?{_THE}{_ALL}",
    rf"(?:\bthere(?:'?s| is| are| was)?|^|[.,;!?\n-]) ?(?:and )?no {_THE}(?:more )?{_ALL}"
    r"(?=\W*(?:$|[.,;!?\n]|and |at all|here|there|na\b|please))",
    rf"\b(?:there {_NOT}(?: not)?|(?:and )?(?:neither|nor) (?:is|are|was|does|do)) {_THE}{_ALL}{_OUT}?",
    rf"{_ALL}{_OUT}",
    rf"(?P<all>{_PLANT}) is (?:an? |the |my )?(?:place|room|town|city|person)\b",
)
"""How names are said to be of no plant and of no place."""
_UNSURE = re.compile(r"\W*(?:skip|forget|without|lose|drop|and no|no)\b", re.IGNORECASE)
"""What of these is said of plants that are written may mean tonight."""
_RENAMED = _rules(
    rf"\b(?:is|are|be|it'?s|its|called|named) (?:(?:an?|the|called|named|just|really) )*{_NAME}[,;.]? "
    rf"(?:and )?{_OLD}",
    rf"(?:^|[.!?,\n] ?)(?:the |an? |just )*{_NAME}(?: (?:it|that|this) is \w*)?(?:, \w+)?[,;]? "
    rf"(?:and )?{_OLD}",
    rf"\b{_OLD}['\"]?[,.;:/ ]+(?:(?:but|only|just|there is|the|an?|it|place|plant|name|room|is|it'?s|that"
    rf"|called|i meant):? )*{_NAME}{_END}",
    rf"\b(?:rename|call) (?:the )?(?P<old>{_ANY})(?: to| as| into|:)? {_NAME}{_END}",
    rf"(?P<old>{_ANY}) (?:is|are) (?:really |actually |just )?(?:called|named) (?:an? |the )?{_NAME}{_END}",
    rf"(?P<old>{_ANY}) ?(?:=|means|stands for|is short for) ?(?:the |an? )?{_NAME}(?: only)?{_END}",
    rf"(?P<old>{_PLACE}) is (?:the |my )?(?P<name>{_PLACE})",
    rf"(?P<old>{_PLANT}) is (?:the same as |the |my |a )(?P<name>{_PLANT})",
)
"""How what was named is said to be called: "cold frame it is called, not frame"."""
_CALLED = re.compile(
    r"\b(?:it'?s|its|it is|this is|called|named|just|(?:place|room|name)(?: is|'?s)) "
    rf"(?:(?:called|named|the|an?|really|just) )*{_NAME}(?: (?:please|pls|no \w+))?{_END}",
    re.IGNORECASE,
)
_ONE = re.compile(
    r"\b(?:the same|identical|one (?:and the same|plant|tree|place|room)|not (?:two|2))\b", re.IGNORECASE
)
_KEPT = re.compile(rf"(?:\(|\bkeep |: ){_THE}{_NAME}{_END}", re.IGNORECASE)
_ONLY = re.compile(rf"\b(?:only|just) (?:one,? ?|the )*{_LIST}|{_LIST} only\b", re.IGNORECASE)
_LEAVES_THE_REST = re.compile(r"\b(?:others?|remove|delete|keep|mine|only one)\b", re.IGNORECASE)
_NOT_THERE = re.compile(
    rf"(?:(?:'s| \b(?:is|are|was|were|stands?|lives?))?,? ?{_NOT}(?: \w+)? (?:in|on|at|by) "
    rf"|,? ?(?:and )?\bnot ){_THERE}(?P<at>{_PLACE})",
    re.IGNORECASE,
)
_STANDS = re.compile(
    rf"(?P<no>\bno )?{_ALL}(?:'?s)?(?: ?[,.-])?(?: but)? ?"
    r"(?P<is>\b(?:it|they|that|those|these|both|them two)(?:'?s|'?re| is| are| stands?| lives?| goe?s?)\b"
    r"|\b(?:is|are|stands?|lives?|goes?|belongs?|comes?)\b)? ?"
    rf"(?:also |only |both |standing |really )*(?P<there>{_THERE})(?P<at>{_PLACE})",
    re.IGNORECASE,
)
_NUMBER_NOT = re.compile(r",? ?\(?\b(?:and )?(?:not|no) (?:just |only )?(?P<number>\w+)\b\)?", re.IGNORECASE)
_BESIDE = re.compile(rf",? ?\b(?:and )?not (?:on )?(?:the |my )?(?P<all>{_PLANT})(?:'s)?", re.IGNORECASE)
_EMPTY = re.compile(
    r"(^|[,.;!\n])(?:\s*\b(?:no|nah|nope|wrong|sorry|but|and|the|place|plant|room|it|is|its|one|two|not|please"
    r"|kindly|ok|that|this|just|only|rest|of|right|correct|fine|an|all)\b)+\s*(?=[,.;!\n]|$)",
    re.IGNORECASE,
)
"""What is left between that tells nothing."""
_LEFT = re.compile(rf"{_REMOVE}[^.,!?\n]*", re.IGNORECASE)
_SHORTEST_PART = 3
_FEWEST_LOST = 3
_TOO_GENERAL = listed("plant plants tree trees room rooms window spot place one step steps")
_BEFORE_A_PART = listed(
    "the my that those this these and an or no not on in of is all plain poor nah nope - , . ( : ;"
)


@dataclass(slots=True)
class _Mending:
    """What a message puts right of names that are known; what it tells beside that is the rest."""

    rest: str
    known: Situation
    offered: Home
    mentions: list[tuple[tuple[str, ...], str]] = field(default_factory=list)
    """Runs of words that name what is known, or several of one name, with how they were typed."""
    other: set[str] = field(default_factory=set)
    """What is at hand, and the town."""
    stood: dict[str, str] = field(default_factory=dict)
    """Where each plant that is known was said to stand."""
    away: dict[str, str] = field(default_factory=dict)
    """Where a plant is said not to stand."""
    gone: dict[str, None] = field(default_factory=dict)
    renamed: dict[str, str] = field(default_factory=dict)
    moved: dict[str, str] = field(default_factory=dict)
    denied: str = ""
    """A number that is said not to be how many there are."""
    is_any: bool = False

    def read(self) -> None:
        """Take out of the message what is said of names."""
        rooms = {one.id: one.name for one in self.known.places}
        self.stood = {
            one.names[0]: rooms.get(one.place, "") if one.place else "" for one in self.known.plants
        }
        self.stood = {one.name: one.place or "" for one in self.offered.plants} | self.stood
        self._mask()
        if self.mentions or rooms:
            self._of_one_plant()
            self._of_other_names()
            self._of_no_names()
            self._of_only()
            self._of_places()
        if not self.offered.is_empty():
            self.rest = _EMPTY.sub(r"\1", _LEFT.sub(" , ", self.rest))
        self.rest = re.sub(_ANY, lambda found: self._said(found[0]), self.rest)

    def _mask(self) -> None:
        """Put a letter for each name that is known, the longest first, and for a part that is of one only."""
        lines = [
            one.removeprefix(_GOT).partition(",")[0] for one in self.offered.lines if one.startswith(_GOT)
        ]
        finds = [one for one in self.offered.lines if _ON in one]
        self.other = {one for one in (*lines, *finds, self.offered.town) if one}
        things = [("plant", one) for one in self.stood] + [("place", one.name) for one in self.known.places]
        named: dict[str, tuple[str, set[str]]] = {}
        parts: dict[str, tuple[str, set[str]]] = {}
        for sort, name in (*things, *(("else", one) for one in self.other)):
            base = re.sub(r" \d+$", "", name.casefold()).split()
            named.setdefault(_letters(name), (sort, set()))[1].add(name)
            first = (
                base[0]
                if sort != "place"
                and (sort == "else" or base[0] in self.known.kinds or not self._is_kind(name))
                else base[-1]
            )
            for part in {" ".join(base), base[-1], first} - _TOO_GENERAL:
                parts.setdefault(_letters(part), (sort, set()))[1].add(name)
        told = parts | named
        words = words_of(plain(self.rest))
        sizes = [(at, kind_at(words, at, self.known.kinds)) for at in range(len(words) if told else 0)]
        kinds = {_letters("".join(words[at : at + size])) for at, size in sizes if size > 1}

        def mask(found: re.Match[str]) -> str:
            key = _letters(found[1])
            before = re.findall(r"\w+|\S", self.rest[: found.start()].rpartition("\n")[2])[-1:]
            if key not in told or not (key in named or {*map(str.casefold, before)} <= _BEFORE_A_PART):
                return found[0]  # a longer kind, or a part of a strange name
            sort, names = told[key]
            self.mentions.append((tuple(sorted(names)), found[1]))
            return chr(_BEGINS[sort] + len(self.mentions) - 1) + ("'s" if found[2] == "'s" else "")

        spelt = sorted(
            (one for one in told.keys() | kinds if len(one) >= _SHORTEST_PART), key=len, reverse=True
        )
        any_of = "|".join(r"[\s'-]*".join(map(re.escape, one)) for one in spelt)
        if spelt:
            self.rest = re.sub(
                rf"(?<![^\W_])({any_of})('?s|es)?(?![^\W_])", mask, self.rest, flags=re.IGNORECASE
            )

    def _said(self, letter: str) -> str:
        names, typed = self.mentions[ord(letter) & 0x7FF]
        return names[0] if len(names) == 1 and names[0] not in self.other else typed

    def _typed(self, text: str) -> str:
        return re.sub(_ANY, lambda found: self.mentions[ord(found[0]) & 0x7FF][1], text).strip(" '\"")

    def _meant(self, letters: str, at: str = "") -> list[str]:
        """Give what letters mean; of a name that several have, those that stand there, or all of one base."""
        found: list[str] = []
        for one in re.findall(_ANY, letters):
            names = self.mentions[ord(one) & 0x7FF][0]
            names = tuple(name for name in names if not at or self.stood.get(name, at) == at)
            found += names if len({re.sub(r" \d+$", "", name) for name in names}) == 1 else ()
        return list(dict.fromkeys(found))

    def _one_of(self, typed: str) -> str:
        """Give the plant that is left of those a word may mean."""
        may_be = [
            names for names, said in self.mentions if said.casefold() == typed.casefold() and len(names) > 1
        ]
        left = [one for names in may_be for one in names if one not in self.gone and one not in self.renamed]
        return left[0] if left else typed

    def _cut(self, found: re.Match[str], kept: str = " , ") -> None:
        """Leave a run out of the rest: it is read."""
        self.is_any = True
        self.rest = re.sub(" {2,}", " ", f"{self.rest[: found.start()]}{kept}{self.rest[found.end() :]}")

    def _is_kind(self, name: str) -> bool:
        words = words_of(plain(name))
        return bool(words) and kind_at(words, 0, self.known.kinds) > 0

    def _of_one_plant(self) -> None:
        """Read of several names that they are of one thing: that which is to be kept, or the first."""
        for sentence in re.findall(r"[^.!?\n]+", self.rest):
            named = self._meant(sentence) if _ONE.search(sentence) else []
            named = [one for one in named if one in self.stood] or named
            if not named and _ONE.search(sentence) and not self.offered.is_empty():
                self.rest = self.rest.replace(sentence, " , ")
            last = _KEPT.search(sentence)
            kept = self._typed(last["name"]).removesuffix(" only") if last else ""
            is_new = kept not in named and self._is_kind(kept)
            if len(named) == 1 and not is_new:
                like = [one for one in self.stood if one not in named and _share(one, named[0])]
                named += like[: len(like) == 1]
                kept = named[-1]
            kept = kept if is_new or kept in named else named[0] if named else ""
            if len({one in self.stood for one in named}) == 1 and {*named} != {kept}:
                self.renamed |= {one: kept for one in named if one != kept}
                self.is_any, self.rest = True, self.rest.replace(sentence, " , ")

    def _of_other_names(self) -> None:
        for pattern in _RENAMED:
            found = next((one for one in pattern.finditer(self.rest) if self._is_renamed(one)), None)
            if found is not None:
                self._cut(found)
        rooms = [one.name for one in self.known.places]
        for found in _CALLED.finditer(self.rest):
            new = self._typed(found["name"])
            alike = [one for one in rooms if one.casefold() == new.casefold()]
            alike = alike or [one for one in rooms if _is_in(new, one) or _is_in(one, new)]
            alike = alike or [one for one in rooms if one.split()[-1] == new.split()[-1]]
            words = frozenset(words_of(plain(new)))
            is_room = bool(words & ROOMS) or any(_letters(new) in _letters(one) for one in alike)
            if len(alike) == 1 and is_room and not PREPOSITIONS & words:
                self.renamed |= {alike[0]: new} if alike[0].casefold() != new.casefold() else {}
                self._cut(found)
                return

    def _is_renamed(self, found: re.Match[str]) -> bool:
        """Whether what is said to be the name may be one; then it is noted."""
        new, old = self._typed(found["name"]), self._meant(found["old"])
        known = {one.casefold(): one for one in (*self.stood, *(each.name for each in self.known.places))}
        if old and {*old} & self.other:
            self.gone |= dict.fromkeys(old)  # "ISO = in search of"
            return True
        if not old or PREPOSITIONS & frozenset(words_of(plain(new))) or new.casefold() in WAYS:
            return False  # "den = w" is its window
        is_plant, is_here = old[0] in self.stood, new.casefold() in known
        new = known.get(new.casefold(), new)
        is_said = " not " not in found[0] and bool(re.search(r"=|\b(?:is|means|for)\b", found[0]))
        is_said = is_said or not is_plant
        is_one = (
            is_said and (new in self.stood) == is_plant if is_here else not is_plant or self._is_kind(new)
        )
        self.renamed |= dict.fromkeys(old, new) if is_one and new != old[0] else {}
        return is_one and new != old[0]

    def _of_no_names(self) -> None:
        is_offered = not self.offered.is_empty()
        for pattern in _GONE:
            while found := next(
                (one for one in pattern.finditer(self.rest) if is_offered or not _UNSURE.match(one[0])), None
            ):
                at = found.groupdict().get("at")
                self.gone |= dict.fromkeys(self._meant(found["all"], self._said(at) if at else ""))
                self._cut(found)
        while (found := _BESIDE.search(self.rest)) and is_offered:
            sentence = self.rest[self.rest.rfind(".", 0, found.start()) + 1 :].partition(".")[0]
            if len(re.findall(_PLANT, sentence)) < len("xy"):
                self.gone |= dict.fromkeys(self._meant(found["all"]))
            self._cut(found)
        is_asked = any(one.text is ButtonText.ALL_WRONG for one in self.known.choices)
        if is_asked and re.fullmatch(rf"\W*{_THE}{_LIST}\W*", self.rest):
            self.gone |= dict.fromkeys(self._meant(self.rest))
            self.is_any, self.rest = True, ""

    def _of_only(self) -> None:
        """Read "the den is jade and ivy only, remove the others", "only one, the english ivy"."""
        found = _ONLY.search(self.rest)
        if found is None or not _LEAVES_THE_REST.search(self.rest):
            return
        sentence = re.split(r"[.!?\n]", self.rest[: found.end()])[-1]
        place = next((self._said(one) for one in re.findall(_PLACE, sentence)), "")
        kept = [one for one in self._meant(sentence) if one in self.stood]
        for one, at in self.stood.items():
            if one not in kept and (at == place if place else any(_share(one, each) for each in kept)):
                self.gone[one], self.is_any = None, True

    def _of_places(self) -> None:
        """Read where plants that are known stand, and where they do not."""
        while found := _NOT_THERE.search(self.rest):
            before = re.split(r"[.!?\n]", self.rest[: found.start()])[-1]
            named = re.findall(rf"{_PLANT}(?:{_JOINT}{_PLANT})*", before)
            at = self._said(found["at"])
            self.away |= dict.fromkeys(self._meant(named[-1], at) if named else [], at)
            self._cut(found, " ")
        for found in _STANDS.finditer(
            re.sub(r"(?<=\w)\. ?(?=(?:is|are|in|at)\b)", " ", self.rest, flags=re.IGNORECASE)
        ):
            place, names = (
                self._said(found["at"]),
                [one for one in self._meant(found["all"]) if one in self.stood],
            )
            if len(names) > len(re.findall(_PLANT, found["all"])) and re.search(r"\d", self.rest):
                continue  # some of a range
            is_led = found["there"][:2].lower() in {"in", "on", "at", "by"}
            if found["no"] and all(self.stood[one] == place for one in names):
                self.gone |= dict.fromkeys(names)
            elif is_led or (found["is"] or "")[:2].lower() in {"it", "th", "bo"}:
                self.moved |= dict.fromkeys(names, place)
        for number in _NUMBER_NOT.finditer(self.rest) if self.offered.lines else ():
            told = number_at((number["number"].lower(),), 0)
            if told is not None and not re.search(rf"{_PLANT}\W*$", self.rest[: number.start()]):
                self.denied = str(int(told[0]))
                self._cut(number, " ")
                return

    def take(self, told: Home) -> None:
        """Take where the rest says that plants stand, and which name is told again without its slip."""
        self.gone |= dict.fromkeys(told.beyond)
        away = [one for one, at in self.away.items() if self.stood.get(one) == at]
        ill = {one.rpartition(_ON)[2] for one in told.lines}
        again = (
            [one for one in told.moved if one.name not in ill]
            if self.is_any or not self.offered.is_empty()
            else []
        )
        self.moved = dict.fromkeys(away, "") | {one.name: one.place or "" for one in again} | self.moved
        written = {one.names[0] for one in self.known.plants if one.id > 0}
        if not self.is_any:
            self.moved = {one: at for one, at in self.moved.items() if one not in written}
        strange = [one for one in self.stood if not self._is_kind(one)]
        for one in told.plants if self.known.plants else ():
            slips = [each for each in strange if slips_between(_letters(one.name), _letters(each), 1) == 1]
            if len(slips) == 1 and self._is_kind(one.name):
                self.renamed[slips[0]], self.is_any = one.name, True

    def concerns(self, told: Home) -> bool:
        """Whether it goes on about what is offered, or tells what is not to be written at once."""
        before, now = ({*map(str.casefold, _places_of(one))} for one in (self.offered, told))
        finds, again = ({*map(self._seen, one.lines)} for one in (self.offered, told))
        offered = {*(one.name for one in self.offered.plants), *_places_of(self.offered)}
        named = any(offered.intersection(names) for names, _ in self.mentions)
        is_again = named or before & now or finds & again
        is_more = bool(told.plants or told.places or told.lines or told.unplaced or told.moved)
        is_told = is_more and not told.is_empty()  # a town alone is written by itself
        is_told = is_told or bool(told.moved) or (bool(told.named) and len(told.unread) < _FEWEST_LOST)
        return not self.offered.is_empty() and bool(is_again) and is_told

    def is_all(self) -> bool:
        """Whether every name that is offered is told again."""
        named = {one for names, _ in self.mentions for one in names}
        return named >= {*(one.name for one in self.offered.plants), *_places_of(self.offered)}

    def _to(self, name: str) -> str:
        return self.renamed.get(name, name)

    def mended(self, told: Home) -> Home:
        """Give what was offered as the message leaves it, with what else it tells."""
        gone = {one.casefold() for one in self.gone}
        plants: dict[str, NewPlant] = {}
        here = {one.name for one in self.offered.plants}
        for one in sorted(self.offered.plants, key=lambda one: self.renamed.get(one.name) in here):
            place = self._to(self.moved.get(one.name, one.place) or "")
            before = plants.get(self._to(one.name).casefold(), one)
            if one.name.casefold() not in gone:
                place = "" if place.casefold() in gone else place
                place = (
                    (before.place or place) if before is not one and self._to(one.name) != one.name else place
                )
                plants[self._to(one.name).casefold()] = replace(
                    one, name=self._to(one.name), place=place or None
                )
        written = {
            self._to(one): one
            for one in self.stood
            if one in self.renamed and self._to(one).casefold() not in plants
        }
        for one in told.plants:
            before = plants.get(one.name.casefold(), one)
            if one.name not in written and self._one_of(one.name) == one.name:
                plants[one.name.casefold()] = replace(before, place=one.place or before.place)
        looks: dict[str, SetPlace] = {}
        for look in sorted(self.offered.places, key=lambda one: one.name in self.renamed):
            if look.name and (name := self._to(look.name)).casefold() not in looks:
                looks[name.casefold()] = replace(look, name=name)
        named = [new for old, new in self.renamed.items() if old not in self.stood] or [
            one.name for one in looks.values()
        ]
        for look in told.places:  # "it is cold orrel, window south"
            name = self._to(look.name or (named[0] if len(named) == 1 else ""))
            is_written = look.place_id is not None and look.place_id > 0
            looks[name.casefold()] = replace(look, name=name, place_id=look.place_id if is_written else None)
        seen = [*told.lines, *([told.unplaced] if told.unplaced else [])]
        finds = {self._seen(one): one for one in self.offered.lines if _ON in one}
        lines = [one for one in self.offered.lines if self._seen(one) not in {*map(self._seen, seen)}]
        lines = [one for one in lines if one.removeprefix(_GOT).partition(",")[0].casefold() not in gone]
        lines += [self._again(one, finds.get(self._seen(one), "")) for one in seen]
        parted = [one.rpartition(_ON) for one in lines]
        return replace(
            told,
            town=told.town or ("" if self.offered.town.casefold() in gone else self.offered.town),
            plants=tuple(plants.values()),
            places=tuple(one for name, one in looks.items() if name not in gone),
            lines=tuple(
                f"{what}{on}{written.get(plant, self._one_of(self._to(plant)))}"
                for what, on, plant in parted
                if plant.casefold() not in gone and what + on + plant != told.unplaced
            ),
            unplaced="" if self._seen(told.unplaced) in finds else told.unplaced,
            has_kinds=True,
            has_nothing=told.has_nothing or self.offered.has_nothing,
            is_known=False,
        )

    def _again(self, line: str, before: str) -> str:
        """Give a find told again: how many, and on which plant, as before where that is not told now."""
        what, on, plant = line.rpartition(_ON)
        what = what if on else line
        number, told = _number(before), _number(line)
        if (told or number) == self.denied != "":
            graded = (
                grade for grade, said in _GRADES if re.search(rf"\b(?:{said})\b", self.rest, re.IGNORECASE)
            )
            what = f"{next(graded, '')} {what.removeprefix(told)}".strip()
        elif not told:
            what = f"{number} {what}".strip()
        plant = plant if on else before.rpartition(_ON)[2]
        return f"{what}{_ON}{plant}" if before else line

    def _seen(self, line: str) -> str:
        """Give the animal of a find, or what is at hand."""
        words = words_of(plain(line.rpartition(_ON)[0] or line))
        words += tuple(one + other for one, other in pairwise(words))  # "mealy bugs"
        found = (names_of(self.known).exact_at(words, at) for at in range(len(words)))
        return next((one[0].key for one in found if one is not None and isinstance(one[0], Pest)), line)

    def of_written(self, situation: Situation) -> Iterator[Putting]:
        """Give what is to be done about plants and places that are written already."""
        plants = {one.names[0]: one.id for one in situation.plants}
        places = {one.name: one.id for one in situation.places}
        doubled = [old for old, new in self.renamed.items() if new in plants]
        gone = [one for one in dict.fromkeys((*self.gone, *doubled)) if one in plants]
        for old, new in self.renamed.items():
            if old in places and new in places:
                self.moved |= {
                    one: new for one, at in self.stood.items() if at == old and one not in self.moved
                }
                self.gone[old] = None
            elif old in places or (old in plants and new not in plants):
                yield Rename(new, place=places.get(old), plant=plants.get(old))
        for room in dict.fromkeys(self.moved.values()):
            there = [
                one for one, at in self.moved.items() if at == room and one in plants and one not in gone
            ]
            if room and (ids := tuple(plants[one] for one in there if self.stood[one] not in {room, ""})):
                yield MovePlant(ids, places.get(room, PlaceId(0)), room="" if room in places else room)
        if gone:
            yield LosePlant(tuple(plants[one] for one in gone))
        left = [at for one, at in self.stood.items() if one not in gone and one not in self.moved]
        yield from (RemovePlace(places[one]) for one in self.gone if one in places and one not in left)


_GRADES = (
    ("many", "many|lots|loads|plenty|hundreds|dozens"),
    ("some", "some|several"),
    ("few", "few|handful"),
)


def _number(line: str) -> str:
    """Give how many a find tells of."""
    return "".join(re.findall(r"^(?:\d+|few|some|many)\b", line))


def _in_words(put: Putting, situation: Situation) -> str:
    match put:
        case LosePlant(plants=gone):
            return f"without {', '.join(one.names[0] for one in situation.plants if one.id in gone)}"
        case RemovePlace(place=gone):
            return f"without {next(one.name for one in situation.places if one.id == gone)}"
        case _:
            return " ".join(say_all((put,), situation) or ())


def _same(one: Home, other: Home) -> bool:
    return all(
        {*map(str, getattr(one, of))} == {*map(str, getattr(other, of))}
        for of in ("town", "plants", "places", "lines")
    )


def _letters(name: str) -> str:
    return re.sub(r"[\s'-]+", "", name.casefold())


def _is_in(name: str, other: str) -> bool:
    return _letters(name) != _letters(other) and _letters(name) in _letters(other)


def _share(name: str, other: str) -> bool:
    """Whether two names have a word in common."""
    return bool({*name.casefold().split()} & {*other.casefold().split()})
