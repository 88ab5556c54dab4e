"""What was said back of a home, or was just written of it, is put right by the next message."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import pairwise

from bot.actions.action import ButtonText
from bot.actions.add_plants import NewPlant
from bot.actions.lose_plant import LosePlant
from bot.actions.move_plant import MovePlant
from bot.actions.remove_place import RemovePlace
from bot.actions.rename import Rename
from bot.actions.set_place import SetPlace
from bot.actions.situation import Situation
from bot.domain.identity import PlaceId
from bot.domain.value import Value, replace
from bot.phrases.home_words import (
    ARTICLES,
    PREPOSITIONS,
    ROOMS,
    Words,
    words_at,
)
from bot.phrases.homes import Home, how_many, read_home
from bot.phrases.kept import kept
from bot.phrases.lettering import Item, Lettering, is_idle, is_kind, letters_of
from bot.phrases.lexicon import listed, phrases_of, words_of_class
from bot.phrases.light import WAYS
from bot.phrases.names import Pest, names_of
from bot.phrases.offered_homes import GOT, ON, offered_home, places_of, with_offered
from bot.phrases.offered_numbers import with_find_put_right, with_number_put_right
from bot.phrases.saying import say_all
from bot.phrases.slips import slips_between
from bot.phrases.text import plain, words_of

Putting = LosePlant | MovePlant | RemovePlace | Rename


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
    if is_else and not (is_open or _MAY_PUT_RIGHT.intersection(words_of(plain(text)))):
        return Right(Home())
    known = with_offered(situation, offered)
    home = with_find_put_right(text, offered, known) or with_number_put_right(text, offered, known)
    if home is not None:
        return Right(home, is_of_it=True, is_plain=True)
    said = _Mending(known, offered, kept(words_at, (text, None), known))
    said.read()
    if is_else and not (is_open or said.is_any):
        return Right(Home())
    rest = said.rest()
    told = read_home(rest, known) if any(map(str.isalnum, rest)) else Home()
    told = said.without_strangers(told)
    said.take(told)
    written = tuple(said.of_written(situation))
    if not (said.is_any or written or said.concerns(told)):
        return Right(Home())
    in_words = tuple(_in_words(one, situation) for one in written)
    home = said.mended(told)
    is_agreed = not (said.is_any or written or told.unread) and said.is_all() and _same(home, offered)
    is_told_again = not told.unread and said.names_several()
    if not (is_agreed or is_told_again or written or home.unread) and _same(home, offered):
        home = replace(home, unread=(text,))  # nothing of it was understood
    if written and _same(home, offered):
        home = Home()  # what is offered stays so, beside what is said of the rest
    return Right(home, written, in_words, is_of_it=True, is_plain=said.is_any, is_agreed=is_agreed)


_MAY_PUT_RIGHT = frozenset(
    phrase[0]
    for key in ("room", "plant", "slip", "drop", "take", "called", "rename", "swap")
    for phrase in phrases_of("right", key)
    if len(phrase) == 1
)
"""What puts right a message that tells something else holds one of these."""
_LIST = r"(?:[pqx](?:[,&]+n?[pqx])*|[rs](?:[,&]+n?[rs])*|k(?:[,&]+n?k)*)"
_NEW = "(?P<new>[upqrsxf]*[upqrsx]h?)"
_END = "(?=$|[.,:B]|&(?![pqx]))"
_AT = "(?:w+(?P<at>[rs]))?"


def _rules(*patterns: str) -> tuple[re.Pattern[str], ...]:
    return tuple(map(re.compile, patterns))


_GONE = _rules(
    rf"(?<!n)(?:d|lo)(?P<all>{_LIST})(?![iaw]+[^rs]){_AT}",
    rf"l(?P<all>{_LIST})o",
    rf"(?<!w)(?P<all>{_LIST}){_AT}[,:]?[ij]*(?:d[jt]?|l[jt]o)",
    rf"(?<!w)(?P<all>{_LIST}){_AT}[jtiauvBm,&eb]{{0,5}}?(?:n[,uweja]{{0,4}}[gvhm]|m|(?<=i)u?v{_END})"
    "(?:[,&jtu]*n[,uwx]{0,4}[gh])?(?:[,&]*[dl][jt]o?)?",
    rf"n[aewu]*[gh]e?(?P<all>{_LIST})",
    rf"(?:(?<=[.,:&B])|^)[jiau]*n[uai]*(?P<all>{_LIST}){_AT}{_END}(?:[,&]*[dl][jt]o?)?",
    "(?P<all>p)ih",
    "n(?P<all>p)ig",
)
"""How names are said to be of no plant and of no place."""
_RENAMED = _rules(
    rf"{_NEW}[jie]*[,&B]*n[wuy]*(?P<old>[prk])(?![ijt])",
    rf"n[wu]*(?P<old>[prk])[,.:&B]*[uyjiewBh]*{_NEW}{_END}",
    rf"R(?P<old>[pr])[w:e]*{_NEW}{_END}",
    rf"(?P<old>[prk]),?[jiw]*[uy]*e+[yjw]*{_NEW}",
    "(?<!&)(?P<old>p)[iy]+(?P<new>x*[pq])",
    "(?<!&)(?P<old>r)[iy]+(?P<new>[rs])",
    "^(?P<old>p):(?P<new>x*q)$",
)
"""How what was named is said to be called: "cold frame it is called, not frame"."""
_CALLED = re.compile(rf"(?:[jh][iy]+|[iy]*[ey])[ey]*{_NEW}{_END}")
_NOT_THERE = re.compile(r"[,&B]*n[iu]{0,2}w*(?P<at>r)")
_STANDS = re.compile(
    r"(?<!w)(?P<all>[pq](?:[,&]+[pq])*|t|j(?=[&,]?i?[uy]?[wrs]))(?:,?[ua]{0,3}w[rs],?(?=[ijt]))?"
    r"(?P<how>[,:]?[ijtya]{0,4}[uBy]{0,2}(?:wp)?w*)(?P<at>[rs])"
)
_IS_ONE = re.compile(r"(?<![nxu])(?P<new>x+(?=[,jy]*iw+[rs])|[xq]+(?=[,jy]*i[uvy]*g))(?:[,jy]*i[uvy]*g)?")
_IS_ROOM = re.compile("(?<![nxu])(?P<new>[xqs])ih")
_LED_IN = re.compile("(?<=[jt]i)(?P<at>[rs])(?P<all>p(?:[,&]+p)*|t)iw?(?=$|[.,])")
_SORTLESS = ARTICLES | listed("of real such own any as one")
"""What stands before "plant" where it is denied to be any: not "it is not a big plant"."""
_MOST_OF_THEM = 6
"""More plants are not told by "they". Judgement. [1]"""
_ALL = listed("all everything everyone")
_TONIGHT = words_of_class("right", "tonight")
"""What begins with these and is said of plants that are written may mean tonight."""
_LEAVES_THE_REST = re.compile(r"\b(?:others?|remove|delete|keep|mine|only one)\b", re.IGNORECASE)
_FEWEST_LOST = 3


def _is_lit(one: SetPlace) -> bool:
    return any(each is not None for each in (one.facing, one.outdoors, one.lamp_from))


@dataclass(slots=True)
class _Mending:
    """What a message puts right of names that are known; what it tells beside that is the rest."""

    known: Situation
    offered: Home
    told: Words
    items: list[Item] = field(default_factory=list)
    mentions: list[Item] = field(default_factory=list)
    other: set[str] = field(default_factory=set)
    """What is at hand, what was seen, and the town."""
    stood: dict[str, str] = field(default_factory=dict)
    """Where each plant that is known was said to stand."""
    away: dict[str, str] = field(default_factory=dict)
    """Where a plant is said not to stand."""
    gone: dict[str, None] = field(default_factory=dict)
    renamed: dict[str, str] = field(default_factory=dict)
    moved: dict[str, str] = field(default_factory=dict)
    is_any: bool = False

    @property
    def said(self) -> str:
        """Give the letters of all items."""
        return "".join(one.sort for one in self.items)

    def rest(self) -> str:
        """Give what is told beside what is put right."""
        return " ".join(part for one in self.items for part in (one.before, one.text) if part)

    def read(self) -> None:
        """Take out of the message what is said of names."""
        rooms = {one.id: one.name for one in self.known.places}
        self.stood = {
            one.names[0]: rooms.get(one.place, "") if one.place else "" for one in self.known.plants
        }
        self.stood = {one.name: one.place or "" for one in self.offered.plants} | self.stood
        got = (one.removeprefix(GOT).partition(",")[0] for one in self.offered.lines if one.startswith(GOT))
        finds = (one for one in self.offered.lines if ON in one)
        self.other = {one for one in (*got, *finds, self.offered.town) if one}
        named = Lettering(self.told, self.known)
        for sort, names in (("p", self.stood), ("r", rooms.values()), ("k", self.other)):
            named.note(sort, names)
        self.items = named.read()
        self.items = [self._with_names(at) for at in range(len(self.items))]
        self.mentions = [one for one in self.items if one.names]
        self._of_new_plants()
        if self.items:
            self._of_two_swapped()
            self._of_one_plant()
            self._of_where_not()
            self._of_other_names()
            self._of_no_names()
            self._of_only()
            self._of_places()
            self._of_numbers()

    def _with_names(self, at: int) -> Item:
        """Give "they", "it" the names last told before it; else "they" are those without a room, or all."""
        one = self.items[at]
        if one.sort not in "tj" or "q" in self.said[max(0, at - 1) : at] + self.said[at + 1 : at + 2]:
            return one  # "the fern and the aloe, they are in the hall"
        if self.said[at + 1 : at + 2] == "p":
            return one
        here = self.offered.plants
        before = [*re.finditer(r"p(?:[,&]+p)*", self.said[:at])]
        names = self._meant(*before[-1].span()) if before else []
        if len(names) == 1 and one.sort == "t":
            names = [each for each in self._meant(0, at) if each in self.stood]
        if {*words_of(plain(one.text))} & _ALL or (one.sort == "t" and not before):
            names = [each.name for each in here]
            homeless = [each.name for each in here if each.place is None]
            names = names if {*words_of(plain(one.text))} & _ALL else homeless or names
        if not names or (one.sort == "t" and not 1 < len(names) <= _MOST_OF_THEM):
            return one
        is_told = one.sort == "t" and self.said[at + 1 : at + 2] in {"i", "w"}
        text = f"{', '.join(names[:-1])} and {names[-1]}" if is_told else one.text
        return replace(one, names=tuple(names), text=text)

    def _meant(self, start: int, end: int, at: str = "") -> list[str]:
        """Give what items mean; of a name that several have, those that stand there, or all of one base."""
        found: list[str] = []
        for one in self.items[start:end]:
            names = [name for name in one.names if not at or self.stood.get(name, at) == at]
            is_one = one.sort in "tj" or len({re.sub(r" \d+$", "", name) for name in names}) == 1
            found += names if is_one else ()
        return list(dict.fromkeys(found))

    def _of(self, found: re.Match[str], group: str | int = "all", at: str = "") -> list[str]:
        return self._meant(*found.span(group), at)

    def _place(self, found: re.Match[str]) -> str:
        return self.items[found.start("at")].text if found.groupdict().get("at") else ""

    def _sentence(self, at: int) -> tuple[int, int]:
        end = self.said.find(".", at)
        return self.said.rfind(".", 0, at) + 1, end if end >= 0 else len(self.items)

    def _cut(self, start: int, end: int, kept: tuple[Item, ...] = (Item(",", ","),)) -> None:
        """Leave a run out of the rest: it is read."""
        self.is_any = True
        self.items[start:end] = kept

    def _of_new_plants(self) -> None:
        """Take strange words for a plant's name where they are said to be one, or to stand in a room."""
        while not self.offered.is_empty() and (found := _IS_ONE.search(self.said)):
            name = self._typed(found, is_first=False)
            self.offered = replace(self.offered, plants=(*self.offered.plants, NewPlant(name=name)))
            self.stood[name], self.is_any = "", True
            new = Item("p", name, names=(name,))
            self.items[slice(*found.span())] = [new]
            self.items = [self._with_names(at) for at in range(len(self.items))]
        while found := _IS_ROOM.search(self.said):
            self._cut(*found.span(), (replace(self.items[found.start()], sort="s"),))

    def _of_two_swapped(self) -> None:
        """Read that two plants stand each where the other does."""
        at = self.said.find("z")
        start, end = self._sentence(at)
        two = self._meant(start, end) if at >= 0 else []
        if len(two) == len("xy") and {*two} <= self.stood.keys():
            self.moved |= {two[0]: self.stood[two[1]], two[1]: self.stood[two[0]]}
            self._cut(start, end)

    def _of_one_plant(self) -> None:
        """Read of several names that they are of one thing: that which is to be kept, or the first."""
        at = 0
        while found := re.compile("(?<=i)1|1(?![pqrw])").search(self.said, at):
            at = found.start()
            start, end = self._sentence(at)
            at += 1
            named = self._meant(start, end)
            named = [one for one in named if one in self.stood] or named
            kept = next(
                (self.told.text(one.start, one.end) for one in self.items[start:end] if one.sort == "q"), ""
            )
            whole = {*words_of(plain(kept))}
            named += [
                one for one in self.stood if kept and one not in named and {*words_of(plain(one))} < whole
            ]
            if len(named) == 1 and not kept:
                like = [one for one in self.stood if one not in named and _share(one, named[0])]
                named += like[: len(like) == 1]
            kept = kept if {*named} & self.stood.keys() else ""
            named = [one for one in named if one in self.stood] or named
            kept = kept or (named[-1] if "y" in self.said[start:end] and named else "".join(named[:1]))
            if len({one in self.stood for one in named}) == 1 and {*named} != {kept}:
                self.renamed |= {one: kept for one in named if one != kept}
                self._cut(start, end, (Item("p", kept, names=(kept,)),))

    def _of_where_not(self) -> None:
        """Read where plants that are known do not stand."""
        at = 0
        while found := _NOT_THERE.search(self.said, at):
            start, _ = self._sentence(found.start())
            before = [*re.finditer(r"p(?:[,&]*n?p)*|t", self.said[start : found.start()])]
            at = found.start() + 1
            if before:
                place = self._place(found)
                first, last = before[-1].span()
                names = self._meant(start + first, start + last)
                self.away |= dict.fromkeys(names, place)
                self._cut(found.start(), found.end(), ())
                at = 0

    def _of_other_names(self) -> None:
        for pattern in _RENAMED:
            at = 0
            while found := pattern.search(self.said, at):
                at = 0 if self._renames(found, is_first=pattern is _RENAMED[0]) else found.start() + 1
        rooms = [one.name for one in self.known.places]
        for found in _CALLED.finditer(self.said):
            new = self._typed(found, is_first=False)
            alike = [one for one in rooms if one.casefold() == new.casefold()]
            alike = alike or [one for one in rooms if _is_in(new, one) or _is_in(one, new)]
            alike = alike or [one for one in rooms if one.split()[-1] == new.split()[-1]]
            words = frozenset(words_of(plain(new)))
            is_room = bool(words & ROOMS) or any(letters_of(new) in letters_of(one) for one in alike)
            if len(alike) == 1 and is_room and not PREPOSITIONS & words:
                self.renamed |= {alike[0]: new} if alike[0].casefold() != new.casefold() else {}
                self._cut(*found.span())
                return

    def _typed(self, found: re.Match[str], *, is_first: bool) -> str:
        """Give a new name as it was typed: words that stand together, at the end or from the start."""
        items = self.items[slice(*found.span("new"))]
        run = items[::-1] if is_first else items
        size = 1
        while size < len(run):
            one, other = sorted(run[size - 1 : size + 1], key=lambda each: each.start)
            if one.end != other.start:
                break
            size += 1
        run = sorted(run[:size], key=lambda each: each.start)
        start = run[0].start
        while start and self.told.of(start - 1) == "around" and not is_idle(self.told.words[start - 1]):
            start -= 1  # "cold frame"
        return self.told.text(start, run[-1].end).strip(" '\"")

    def _renames(self, found: re.Match[str], *, is_first: bool) -> bool:
        """Whether what is said to be the name may be one; then it is noted."""
        new, old = self._typed(found, is_first=is_first), self._of(found, "old")
        known = {one.casefold(): one for one in (*self.stood, *(each.name for each in self.known.places))}
        keyed = next((one.names for one in self.items[slice(*found.span("new"))] if one.names), ())
        new = keyed[0] if len(keyed) == 1 and keyed[0] in known.values() and found["new"][-1:] == "p" else new
        new = known.get(new.casefold(), new)
        if old and {*old} & self.other:
            self.gone |= dict.fromkeys(old)
            self._cut(*found.span("old"))
            return True
        if not old or PREPOSITIONS & frozenset(words_of(plain(new))) or new.casefold() in WAYS:
            return False  # "den = w" is its window
        is_plant, is_here = old[0] in self.stood, new.casefold() in known
        start, end = self._sentence(found.start())
        around = self.said[start : found.start()] + self.said[found.end() : end]
        denied = found[0].find("n") + found.start()
        if is_first and self.items[denied].text.lower() == "no" and re.search("[pqrs]", around):
            return False  # "the fern, no ivy"
        is_same = new in self.stood and "ji" in found[0]  # "no citrus tree, that is calamondin"
        if is_plant and "n" in found[0] and not is_same and ("b" in around + found[0] or new in self.stood):
            self._cut(denied, found.end("old"))
            return True
        is_called = re.search("[eR]", found[0]) is not None
        if is_plant:
            is_name = is_called or "B" in found[0] or is_kind(new, self.known)
            is_one = new in self.stood or (not is_here and is_name)
        else:
            is_one = new not in self.stood and (is_called or found["new"][-1] in "rsxh")
        if not is_one or new == old[0]:
            return False
        self.renamed |= dict.fromkeys(old, new)
        self._cut(*found.span(), (Item("j", new, names=tuple(old)) if is_plant else Item(",", ","),))
        return True

    def _of_no_names(self) -> None:
        is_offered = not self.offered.is_empty()
        for pattern in _GONE:
            at = 0
            while found := pattern.search(self.said, at):
                place = self._place(found)
                names, at = self._of(found, at=place), found.start() + 1
                first = self.items[found.start()]
                is_bare = first.sort == "n" and not re.search("[gha]", found[0])
                is_unsure = is_bare or first.text.lower() in _TONIGHT or not names
                if self._is_of_a_sort(found) or (is_unsure and not is_offered):
                    continue
                if "p" in found["all"] and not names:
                    if first.sort == "n":
                        self._cut(found.start(), found.start() + 1)
                    continue
                is_of_find = is_bare and "b" in self.said  # "thrips on the ivy, not the fern"
                self.gone |= dict.fromkeys(() if is_of_find else names)
                self._cut(*found.span())
                at = 0
        is_asked = any(one.text is ButtonText.ALL_WRONG for one in self.known.choices)
        if is_asked and not self.is_any and re.fullmatch(rf"[u,.]*{_LIST}[u,.]*", self.said):
            self.gone |= dict.fromkeys(self._meant(0, len(self.items)))
            self.is_any, self.items = True, []

    def _is_of_a_sort(self, found: re.Match[str]) -> bool:
        """Whether a sort of plant is denied, and not that it is one: "it is not a big plant"."""
        denied = re.search("[n,](?P<sort>u*g)", found[0])
        if denied is None:
            return False
        first, last = (found.start() + at for at in denied.span("sort"))
        said = [one.before for one in self.items[first:last]] + [
            one.text for one in self.items[first : last - 1]
        ]
        return not _SORTLESS.issuperset(words_of(plain(" ".join(said))))

    def _of_only(self) -> None:
        """Read "the den is jade and ivy only, remove the others", "only one, the english ivy"."""
        at = self.said.find("y")
        if at < 0 or not _LEAVES_THE_REST.search(self.rest()):
            return
        start, end = self._sentence(at)
        place = next((one.text for one in self.items[start:end] if one.sort == "r"), "")
        kept = [one for one in self._meant(start, end) if one in self.stood]
        for one, stood in self.stood.items():
            if one not in kept and (stood == place if place else any(_share(one, each) for each in kept)):
                self.gone[one], self.is_any = None, True

    def _of_places(self) -> None:
        """Read where plants that are known stand, and how many are not there."""
        offered = {one.name for one in self.offered.plants}
        for found in (*_STANDS.finditer(self.said), *_LED_IN.finditer(self.said)):
            place, names = self._place(found), [one for one in self._of(found) if one in self.stood]
            start, end = self._sentence(found.start())
            how = found.groupdict().get("how", "i")
            before, behind = self.said[: found.start()], self.said[found.end() : end]
            is_some = found["all"] not in "tj" and "c" in self.said and len(names) > len(found["all"])
            head = re.search("[rs][:aijuy]*$", before)
            if head is not None and "," in found["all"]:  # "the hall has the fern, the ivy is in the den"
                names = self._meant(found.start("all") + found["all"].rfind(","), found.end("all"))
            is_headed = head is not None and "," not in found["all"] and "i" not in how
            is_alone = re.fullmatch(r"[n.,u]*", before[start:] + behind)
            is_it = found["all"] != "j" or "w" in how or {*names} <= {*self.away}
            is_led = "w" in how or bool(is_alone) or ("," not in how and (found["all"] == "t" or "i" in how))
            if is_led and is_it and not (is_some or is_headed or before.endswith("c")):
                self.moved |= dict.fromkeys(names, place)
                self.gone = {one: None for one in self.gone if one not in names}
                self.is_any = self.is_any or any(one in offered and self.stood[one] != place for one in names)

    def _of_numbers(self) -> None:
        """Read "not six but nine": how many were seen, in place of what was offered."""
        found = re.search("(?<!p)ny?(?P<of>c)", self.said) if self.offered.lines else None
        if found is None:
            return
        many = {one.start: how_many(one) for one in self.told.events if one.what in {"count", "grade"}}
        told = [many.get(one.start, "") for one in self.items if one.sort == "c"]
        denied = many.get(self.items[found.start("of")].start, "")
        meant = next((one for one in told if one != denied), "")
        before = self.offered.lines
        lines = (meant + one.removeprefix(denied) if _number(one) == denied else one for one in before)
        self.offered = replace(self.offered, lines=tuple(map(str.strip, lines)))
        self._cut(*found.span(), ())

    def take(self, told: Home) -> None:
        """Take where the rest says that plants stand, and which name is told again without its slip."""
        self.gone |= dict.fromkeys(told.beyond)
        away = [one for one, at in self.away.items() if self.stood.get(one) == at]
        ill = {one.rpartition(ON)[2] for one in told.lines}
        is_read = bool(self.moved) or not (self.is_any or self.offered.plants)
        again = [] if is_read else [one for one in told.moved if one.name not in ill]
        self.moved = dict.fromkeys(away, "") | {one.name: one.place or "" for one in again} | self.moved
        written = {one.names[0] for one in self.known.plants if one.id > 0}
        if not self.is_any:
            self.moved = {one: at for one, at in self.moved.items() if one not in written}
        strange = [one for one in self.stood if not is_kind(one, self.known)]
        for one in told.plants if self.known.plants else ():
            slips = [
                each for each in strange if slips_between(letters_of(one.name), letters_of(each), 1) == 1
            ]
            if len(slips) == 1 and is_kind(one.name, self.known):
                self.renamed[slips[0]], self.is_any = one.name, True

    def without_strangers(self, told: Home) -> Home:
        """Leave out what no list knows and stands in no room, beside what is put right: "no plus sign"."""
        strange = [one for one in told.plants if not (one.place or is_kind(one.name, self.known))]
        if not (self.is_any and self.offered.plants and strange):
            return told
        unread = (*told.unread, *(one.name for one in strange))
        return replace(told, plants=tuple(one for one in told.plants if one not in strange), unread=unread)

    def concerns(self, told: Home) -> bool:
        """Whether it goes on about what is offered, or tells what is not to be written at once."""
        before, now = ({*map(str.casefold, places_of(one))} for one in (self.offered, told))
        finds, again = ({*map(self._seen, (*one.lines, one.unplaced))} - {""} for one in (self.offered, told))
        offered = {*(one.name for one in self.offered.plants), *places_of(self.offered)}
        named = any(offered.intersection(one.names) for one in self.mentions)
        is_again = (
            named
            or before & now
            or finds & again
            or (
                bool(self.offered.plants)
                and not self.known.sick  # weeks later an offer may be of anything
                and any(one.place for one in told.plants)
            )
        )
        is_more = bool(told.plants or told.places or told.lines or told.unplaced or told.moved)
        is_told = is_more and not told.is_empty()  # a town alone is written by itself
        if told.town and self.offered.town and self.offered.plants:
            return True
        is_told = is_told or bool(told.moved) or (bool(told.named) and len(told.unread) < _FEWEST_LOST)
        return not self.offered.is_empty() and bool(is_again) and is_told

    def names_several(self) -> bool:
        """Whether more than one name that is known is told."""
        return len({name for one in self.mentions for name in one.names}) > 1

    def is_all(self) -> bool:
        """Whether every name that is offered is told again."""
        named = {name for one in self.mentions for name in one.names}
        return named >= {*(one.name for one in self.offered.plants), *places_of(self.offered)}

    def _to(self, name: str) -> str:
        return self.renamed.get(name, name)

    def mended(self, told: Home) -> Home:
        """Give what was offered as the message leaves it, with what else it tells."""
        anew = {each.name.casefold() for each in told.plants}
        told = replace(told, plants=tuple(one for one in told.plants if not self._is_in_full(one)))
        for one in told.plants:
            self.renamed = dict.fromkeys(self._told_anew(one, anew), one.name) | self.renamed
        gone = {one.casefold() for one in self.gone if one not in self.renamed}
        plants: dict[str, NewPlant] = {}
        here = {one.name for one in self.offered.plants}
        for one in sorted(self.offered.plants, key=lambda one: self.renamed.get(one.name) in here):
            name, place = self._to(one.name), self._to(self.moved.get(one.name, one.place) or "")
            before = plants.get(name.casefold()) if name != one.name else None
            if one.name.casefold() not in gone:
                place = before.place or place if before is not None else place
                place = "" if place.casefold() in gone else place
                plants[name.casefold()] = replace(one, name=name, place=place or None)
        written = {
            self._to(one): one
            for one in self.stood
            if one in self.renamed and self._to(one).casefold() not in plants
        }
        for one in told.plants:
            known = plants.get(one.name.casefold(), one)
            if one.name not in {*self.gone, *self.renamed, *written}:
                place = self.moved.get(one.name) or self._to(one.place or "") or known.place or ""
                plants[one.name.casefold()] = replace(known, place=place or None)
        looks: dict[str, SetPlace] = {}
        for look in sorted(self.offered.places, key=lambda one: one.name in self.renamed):
            if look.name and (name := self._to(look.name)).casefold() not in looks:
                looks[name.casefold()] = replace(look, name=name)
        named = [new for old, new in self.renamed.items() if old not in self.stood] or [
            one.name for one in looks.values()
        ]
        for look in filter(_is_lit, told.places):  # "it is cold orrel, window south"
            name = self._to(look.name or (named[0] if len(named) == 1 else ""))
            is_written = look.place_id is not None and look.place_id > 0
            looks[name.casefold()] = replace(look, name=name, place_id=look.place_id if is_written else None)
        seen = [*told.lines, *([told.unplaced] if told.unplaced else [])]
        finds = {self._seen(one): one for one in self.offered.lines if ON in one}
        lines = [one for one in self.offered.lines if self._seen(one) not in {*map(self._seen, seen)}]
        lines = [one for one in lines if one.removeprefix(GOT).partition(",")[0].casefold() not in gone]
        lines += [self._again(one, finds.get(self._seen(one), "")) for one in seen]
        parted = [one.rpartition(ON) for one in lines]
        rooms = {*looks, *((one.place or "").casefold() for one in plants.values())}
        return replace(
            told,
            town=told.town or ("" if self.offered.town.casefold() in gone else self.offered.town),
            plants=tuple(plants.values()),
            places=tuple(one for name, one in looks.items() if name not in gone),
            lines=tuple(
                f"{what}{on}{written.get(plant, self._to(plant))}"
                for what, on, plant in parted
                if plant.casefold() not in gone and what + on + plant != told.unplaced
            ),
            unplaced="" if self._seen(told.unplaced) in finds else told.unplaced,
            unread=tuple(
                one for one in told.unread if not is_idle(one) and one.casefold() not in {*plants, *rooms}
            ),
            has_kinds=True,
            has_nothing=told.has_nothing or self.offered.has_nothing,
            is_known=False,
        )

    def _is_in_full(self, new: NewPlant) -> bool:
        """Whether a kind is told that is offered by its letters: "30 African violets" of AV 1 to AV 30."""
        words = re.sub(r" \d+$", "", new.name).split()
        return len(words) > 1 and any(
            one.name.partition(" ")[0] == "".join(word[0].upper() for word in words)
            and one.place == new.place
            for one in self.offered.plants
        )

    def _told_anew(self, new: NewPlant, named: set[str]) -> list[str]:
        """Give what was offered of a plant whose name is told in other words: "ma hoya" of the hoya."""
        names = {name for one in self.mentions if one.sort == "p" for name in one.names} - {*self.gone}
        base = re.sub(r" \d+$", "", new.name).casefold()
        if base != new.name.casefold():
            return [one.name for one in self.offered.plants if one.name.casefold() == base]
        words = {*words_of(plain(new.name))}
        is_listed = is_kind(new.name, self.known)
        return [
            one.name
            for one in self.offered.plants
            if one.name not in {*names, *self.renamed}
            and one.name.casefold() not in named
            and (one.place or new.place) == (new.place or one.place)
            and (words < (old := {*words_of(plain(one.name))}) or old < words)
            and (
                one.name in self.gone or is_listed > (len(old) < len(words) and is_kind(one.name, self.known))
            )
        ]

    def _again(self, line: str, before: str) -> str:
        """Give a find told again: how many, and on which plant, as before where that is not told now."""
        what, on, plant = line.rpartition(ON)
        what = what if on else line
        number, told = _number(before), _number(line)
        if not told:
            what = f"{number} {what}".strip()
        plant = plant if on else before.rpartition(ON)[2]
        return f"{what}{ON}{plant}" if before else line

    def _seen(self, line: str) -> str:
        """Give the animal of a find, or what is at hand."""
        words = words_of(plain(line.rpartition(ON)[0] or line))
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


def _is_in(name: str, other: str) -> bool:
    return letters_of(name) != letters_of(other) and letters_of(name) in letters_of(other)


def _share(name: str, other: str) -> bool:
    """Whether two names have a word in common."""
    return bool({*name.casefold().split()} & {*other.casefold().split()})
