"""Likely meanings of a message: its forms filled with what it names, and what each leaves out."""

import re
from collections.abc import Iterator, Sequence
from itertools import takewhile

from bot.actions.action import Command
from bot.actions.log_check import LogCheck
from bot.actions.log_find import LogFind
from bot.actions.log_round import LogRound
from bot.actions.log_sign import LogSign
from bot.actions.lose_plant import LosePlant
from bot.actions.situation import Situation
from bot.domain.identity import PlantId
from bot.domain.trade import Grade, Level, Method, Sign
from bot.domain.value import Value, cached_property, field, replace
from bot.phrases.accounting import Part, is_called, strange_words
from bot.phrases.days import Trouble
from bot.phrases.forms.rows import REPORTS, ROWS, SAYS_NOTHING, forms_of
from bot.phrases.guess import Guess, rank
from bot.phrases.items import Item
from bot.phrases.kept import kept_of_all
from bot.phrases.lexicon import Word, listed
from bot.phrases.mentions import BESIDES, Mentions, told_by
from bot.phrases.names import OneOf, Pest, Place, Plants, Product
from bot.phrases.numbers import Count, Length, UnclearVolume, Volume, Warmth
from bot.phrases.setting import Setting
from bot.phrases.spotting import spotted, with_names
from bot.phrases.values import numbers_of, plants_of, values_of

MOST_CUTS = 7
MOST_FORMS = 5
MOST_ITEMS = 80
MOST_BESIDES = 2
MOST_SENTENCES = 4
_SENTENCE = re.compile(r"(?<=[.!?])\s+|\n+")
_GOOD = 0.5
_EACH_PART = 0.15
_UNUSED_FORM = 1.5
_STRANGE_WORD = 0.05
_TWO_SENTENCES = 0.2
_WEAK_CUT = 0.03
_LEFT_OUT = 0.5
"""A mention that a meaning leaves out halves its chance. Judgement. [1]"""
_STRONG = frozenset({".", "!", "?", "\n", ";"})
_WEAK = frozenset({",", "-", "(", ")", ":"})
_JOINTS = frozenset({Word.BUT, Word.AND, Word.EXCEPT})
_SEEN = frozenset({"sign", "find"})
"""What is denied of these was looked for, and not seen: "no webs"."""
_PLAIN_JOINTS = frozenset({"then", "also", "so", "though", "while", "yet", "n", "and"})


class Likely(Value):
    """Commands, their chance, and the mentions they leave out, as typed."""

    commands: tuple[Command, ...]
    chance: float
    left_out: tuple[str, ...] = ()
    lacks: bool = False
    """Whether one of the forms could not be filled."""
    form: str = ""
    """The form it was ranked by; of what was read by sentences, none."""
    parts: tuple[Part, ...] = ()
    skipped: tuple[Item, ...] = ()
    """What no part takes in."""

    @property
    def is_called(self) -> bool:
        """Whether each part of it has a word that calls its form."""
        return bool(self.parts) and all(is_called(one.head, one.told) for one in self.parts)


class _Laid(Value):
    """A beginning of the message laid out in parts."""

    cost: float
    commands: tuple[Command, ...] = ()
    left_out: tuple[str, ...] = ()
    used: frozenset[str] = frozenset()
    before: tuple[PlantId, ...] = ()
    pest: str | None = None
    parts: tuple[Part, ...] = ()
    skipped: tuple[Item, ...] = ()


class _Filled(Value):
    """A form filled by a part of the message, and the mentions it leaves out."""

    told: Mentions
    commands: tuple[Command, ...]
    missed: tuple[str, ...]
    plants: tuple[PlantId, ...]
    """What a part behind it goes on about."""
    pest: str | None
    oddness: float
    """What speaks against its being one part: words of other forms, several sentences, two verbs."""


class _Parts(Value, dict=True):
    """The parts of one message, each read once for a form and what went before."""

    items: tuple[Item, ...]
    setting: Setting
    told: dict[tuple[object, ...], Mentions] = field(default_factory=dict)
    read: dict[tuple[object, ...], _Filled | None] = field(default_factory=dict)
    meant: dict[frozenset[str], Likely | None] = field(default_factory=dict)
    lost: dict[tuple[int, int], tuple[str, ...]] = field(default_factory=dict)

    @cached_property
    def whole(self) -> Mentions:
        """All of the message as one part."""
        return Mentions(self.items, self.setting)

    @cached_property
    def ends(self) -> list[int]:
        """Where parts may end."""
        return _cuts(self.items)

    @cached_property
    def is_besides(self) -> bool:
        """Whether something is told of more than what was asked for."""
        return any(item.text in BESIDES for item in self.items)

    def lost_of(self, start: int, end: int) -> tuple[str, ...]:
        """Give what is lost where a part is left out: names, numbers, and that all is done or clean."""
        if (start, end) not in self.lost:
            items = self.items[start:end]
            is_all = self.is_besides or any(item.meaning is Word.ALL for item in items)
            words = _ALWAYS_LOST | (_LOST_OF_ALL if is_all else frozenset())
            lost = (item for item in items if isinstance(item.meaning, _NAMING) or item.meaning in words)
            self.lost[start, end] = tuple(item.text for item in lost)
        return self.lost[start, end]

    def as_forms(self, heads: frozenset[str]) -> Likely | None:
        """Give what the whole message means as some forms, one or several."""
        if heads not in self.meant:
            self.meant[heads] = self._as_forms(heads)
        return self.meant[heads]

    def _as_forms(self, heads: frozenset[str]) -> Likely | None:
        told = _single(next(iter(heads)), self.whole) if len(heads) == 1 else None
        if (told is None or told.left_out) and heads <= REPORTS and len(self.items) <= MOST_ITEMS:
            told = _better(told, _laid_out(self, heads))
            called = (one for one in REPORTS - heads if is_called(one, self.whole))
            is_none = self.whole.has(Word.NOTHING, Word.NONE) and not self.whole.has(Word.NOT, Word.YET)
            others = sorted(called, key=lambda one: (is_none and one == "later", one))[:MOST_BESIDES]
            for more in (*([one] for one in others), others):
                if others and (told is None or _missing(told)):
                    told = _better(told, _laid_out(self, heads.union(more)))
        return told

    def filled(self, start: int, end: int, laid: _Laid, head: str) -> _Filled | None:
        """Fill a form by a part, behind what is laid out already."""
        setting = (start, end, laid.before, self.setting.is_first and not laid.commands, laid.pest)
        if (*setting, head) not in self.read:
            self.read[*setting, head] = self._fill(setting, head)
        return self.read[*setting, head]

    def _fill(self, at: tuple[int, int, tuple[PlantId, ...], bool, str | None], head: str) -> _Filled | None:
        start, end, before, is_first, pest = at
        told = self.told.get(at)
        if told is None:
            setting = replace(self.setting, before=before, is_first=is_first, pest=pest)
            is_whole = end - start == len(self.items) and setting == self.setting
            told = self.told[at] = self.whole if is_whole else Mentions(self.items[start:end], setting)
        fill = ROWS.get(head)
        commands = None if fill is None else fill(told)
        if not commands:
            return None
        pests = told.every(Pest)
        return _Filled(
            told,
            commands,
            left_out(told, commands, head),
            told.last_plants() or before,
            pests[-1].key if pests else pest,
            _oddness(told.items) + _STRANGE_WORD * strange_words(head, told),
        )


def likely(text: str, situation: Situation, guesses: Sequence[Guess]) -> Iterator[Likely]:
    """Give likely meanings, the best first."""
    found = likely_whole(text, situation, guesses)
    if not any(one.chance >= _GOOD and not _missing(one) for one in found):
        in_parts = kept_of_all(_by_sentences, text, situation)
        found += [] if in_parts is None else [in_parts]
    yield from sorted(found, key=lambda one: -one.chance)


def likely_whole(text: str, situation: Situation, guesses: Sequence[Guess]) -> list[Likely]:
    """Give likely meanings of the message as a whole, the best first."""
    return list(_each_likely(kept_of_all(_parts_of, text, situation), guesses))


def told_in(text: str, situation: Situation) -> Mentions:
    """Give what a text names."""
    return kept_of_all(_parts_of, text, situation).whole


def _parts_of(text: str, situation: Situation) -> _Parts:
    return _Parts(spotted(text, situation), Setting(situation))


def _each_likely(parts: _Parts, guesses: Sequence[Guess]) -> Iterator[Likely]:
    """Fill the likeliest forms, as one part or as several, the best first."""
    whole = parts.whole
    found: list[Likely] = []
    for guess in guesses[:MOST_FORMS]:
        if guess.form in SAYS_NOTHING:
            continue
        heads = frozenset(guess.form.split("+")) - SAYS_NOTHING
        if heads <= _SEEN and whole.sees_none():
            heads = frozenset({"done" if whole.has(Word.DONE) or whole.every(Method) else "none"})
        told = parts.as_forms(heads)
        if told is not None and not whole.denies(told.commands):
            told = replace(told, form=guess.form)
            chance = guess.chance * _LEFT_OUT ** (len(told.left_out) + told.lacks)
            found.append(replace(told, chance=chance))
    yield from sorted(found, key=lambda one: -one.chance)


def _by_sentences(text: str, situation: Situation) -> Likely | None:
    """Read each sentence by its own likeliest form; one that says nothing is left out, and said."""
    pieces = [piece.strip() for piece in _SENTENCE.split(text) if piece.strip()]
    if not 1 < len(pieces) <= MOST_SENTENCES:
        return None
    commands: tuple[Command, ...] = ()
    out: list[str] = []
    chance = 1.0
    before: tuple[PlantId, ...] = ()
    for piece in pieces:
        guesses = rank(with_names(piece, situation), situation)
        setting = Setting(situation, before=before, is_first=not commands)
        best = next(_each_likely(_Parts(spotted(piece, situation), setting), guesses[:1]), None)
        is_nothing = guesses[0].form in SAYS_NOTHING
        if is_nothing or best is None or best.left_out:
            told = Mentions(spotted(piece, situation), setting)
            out += [piece] if not is_nothing or told.strangers() else []
            continue
        commands += tuple(one for one in best.commands if one not in commands)
        chance = min(chance, best.chance)
        before = best.parts[-1].told.last_plants() or before
    if not commands or told_in(text, situation).denies(commands):
        return None
    return Likely(commands, chance * _LEFT_OUT ** len(out), tuple(out))


def _better(one: Likely | None, other: Likely | None) -> Likely | None:
    if one is None or other is None:
        return one or other
    return other if _missing(other) < _missing(one) else one


def _missing(one: Likely) -> int:
    return len(one.left_out) + one.lacks


def _single(form: str, told: Mentions) -> Likely | None:
    fill = ROWS.get(form) if told.items else None
    filled = None if fill is None else fill(told)
    if not filled:
        return None
    return Likely(filled, 1.0, left_out(told, filled, form), parts=(Part(form, told, filled),))


def _laid_out(parts: _Parts, heads: frozenset[str]) -> Likely | None:
    """Cut the items so that each part tells one of the forms and the least is left out."""
    items, ends = parts.items, parts.ends
    best: dict[int, _Reached] = {0: {frozenset(): _Laid(0.0, before=parts.setting.before)}}
    for number, end in enumerate(ends):
        reached: _Reached = {}
        for start in (0, *ends[:number]):
            lost = parts.lost_of(start, end)
            for laid in best.get(start, {}).values():
                cost = laid.cost + len(lost)
                if _is_better(cost, laid.used, reached):
                    left_out, skipped = (*laid.left_out, *lost), (*laid.skipped, *items[start:end])
                    reached[laid.used] = replace(laid, cost=cost, left_out=left_out, skipped=skipped)
                _go_on(laid, parts, (start, end), heads, reached)
        best[end] = reached
    whole = [
        replace(one, cost=one.cost + _UNUSED_FORM * len(heads - one.used))
        for one in best.get(len(items), {}).values()
        if one.commands
    ]
    if not whole:
        return None
    laid = min(whole, key=lambda one: one.cost)
    commands = _without_the_reason(_without_found(_with_days(laid, parts.setting.situation)))
    commands = _once(commands, parts.setting.situation, is_besides=parts.is_besides)
    lacks = bool(heads - laid.used.union(*map(forms_of, commands)))
    return Likely(commands, 1.0, laid.left_out, lacks=lacks, parts=laid.parts, skipped=laid.skipped)


def _without_found(commands: tuple[Command, ...]) -> tuple[Command, ...]:
    """Take from a look over many the plants on which something was found in the same breath."""
    found = {plant for one in commands if isinstance(one, LogFind) for plant in one.plants}
    kept: list[Command] = []
    for one in commands:
        if isinstance(one, LogCheck) and len(one.plants) > 1 and set(one.plants) & found:
            kept.append(replace(one, plants=tuple(plant for plant in one.plants if plant not in found)))
        else:
            kept.append(one)
    return tuple(kept)


def _without_the_reason(commands: tuple[Command, ...]) -> tuple[Command, ...]:
    """Take what was seen on a plant that is told to be gone for why: "binned the ivy, it was crawling"."""
    gone = {plant for one in commands if isinstance(one, LosePlant) for plant in one.plants}
    return tuple(
        one for one in commands if not (isinstance(one, LogFind | LogSign) and gone.issuperset(one.plants))
    )


def _once(commands: tuple[Command, ...], situation: Situation, *, is_besides: bool) -> tuple[Command, ...]:
    """Take from "all done" what is told by itself, but not what was done besides: "sprayed the ivy too"."""
    bare = [one for one in commands if isinstance(one, LogRound) and not (one.method or one.product)]
    works = [one for one in commands if isinstance(one, LogRound) and one not in bare]
    asked = {(one.plant, one.method) for one in situation.tonight}
    told = {plant for one in works for plant in one.plants if not is_besides or (plant, one.method) in asked}
    rest = {one: tuple(plant for plant in one.plants if plant not in told) for one in bare}
    return tuple(
        replace(one, plants=rest[one]) if one in rest else one
        for one in commands
        if rest.get(one, True)  # type: ignore[call-overload]
    )


_Reached = dict[frozenset[str], _Laid]
"""The cheapest way to lay out a beginning, by the forms it takes."""


def _is_better(cost: float, used: frozenset[str], reached: _Reached) -> bool:
    return used not in reached or cost < reached[used].cost


def _go_on(
    laid: _Laid, parts: _Parts, part: tuple[int, int], heads: frozenset[str], reached: _Reached
) -> None:
    """Lay out one more part as each of the forms, where that is no dearer than what is known."""
    for head in sorted(heads):
        used, cost = laid.used | {head}, laid.cost + _EACH_PART
        filled = parts.filled(*part, laid, head) if _is_better(cost, used, reached) else None
        if filled is None:
            continue
        cost = laid.cost + len(filled.missed) + _EACH_PART + filled.oddness
        if _is_better(cost, used, reached):
            reached[used] = _Laid(
                cost=cost,
                commands=(*laid.commands, *(one for one in filled.commands if one not in laid.commands)),
                left_out=(*laid.left_out, *filled.missed),
                used=used,
                before=filled.plants,
                pest=filled.pest,
                parts=(*laid.parts, Part(head, filled.told, filled.commands)),
                skipped=laid.skipped,
            )


def _with_days(laid: _Laid, situation: Situation) -> tuple[Command, ...]:
    """Let the one day told hold for all that was done or seen."""
    tellings = [one.told for one in laid.parts]
    days = {told.behind() for told in tellings if told.days()}
    dates = {day for day in days if day is not None and not isinstance(day, Trouble)}
    if len(dates) != 1 or any(one.head == "later" and one.told.days() for one in laid.parts):
        return laid.commands
    on = dates.pop()
    first = next(number for number, told in enumerate(tellings) if told.days())
    heads = {one.head for one in laid.parts}
    said = {item.text for told in tellings for item in told.items} | {item.text for item in laid.skipped}
    if said & _NOW or on >= situation.today or (first > 0 and len(heads) > 1):
        return laid.commands
    return tuple(
        replace(one, on=on) if getattr(one, "on", 0) is None and type(one).__name__ != "Postpone" else one  # type: ignore[call-arg]
        for one in laid.commands
    )


_NOW = frozenset({"now", "currently", "presently", "still"})


def _oddness(items: tuple[Item, ...]) -> float:
    marks = [at for at, item in enumerate(items) if item.text in _STRONG]
    said = [at for at, item in enumerate(items) if item.text not in _STRONG]
    inside = sum(said[0] < at < said[-1] for at in marks) if said else 0
    before = tuple(takewhile(lambda one: not _is_verb(one), items))
    is_torn = any(isinstance(one.meaning, Plants) for one in before) and before[-1].meaning is Word.AND
    begins = items[0].meaning if items else None  # "orchid and sprayed hoya" is torn from what was wiped
    return _TWO_SENTENCES * inside + _WEAK_CUT * ((begins is Word.AND) + is_torn)


def _cuts(items: tuple[Item, ...]) -> list[int]:
    """Give where parts may end: behind marks and joints, the strong ones first where there are many."""
    strong: list[int] = []
    weak: list[int] = []
    first = next((item.meaning for item in items if isinstance(item.meaning, Plants) or _is_verb(item)), None)
    is_plant_first = isinstance(first, Plants)
    for at, item in enumerate(items):
        if item.text in _STRONG or item.meaning is Word.BUT or item.text == "then":
            strong.append(at + 1 if item.text in _STRONG else at)
        elif item.text in _WEAK or item.meaning in _JOINTS or item.text in _PLAIN_JOINTS:
            weak.append(at + 1 if item.text in _WEAK else at)
        elif _begins_anew(items, at, is_plant_first=is_plant_first):
            weak.append(at)
    inside = [at for at in dict.fromkeys(strong) if 0 < at < len(items)][:MOST_CUTS]
    inside += [at for at in dict.fromkeys(weak) if 0 < at < len(items) and at not in inside][
        : MOST_CUTS - len(inside)
    ]
    return [*sorted(inside), len(items)]


def _begins_anew(items: tuple[Item, ...], at: int, *, is_plant_first: bool) -> bool:
    """Whether a part begins without a joint: "sprayed hoya swabbed coffee", "coffee done orchid not"."""
    item, before = items[at], items[at - 1] if at else None
    if before is None or item.meaning is Word.REST:
        return before is not None
    if before.meaning is Word.DONE and item.meaning is Word.NONE:
        return True  # "all done none seen"
    if is_plant_first:
        return isinstance(item.meaning, Plants) and _is_verb(before)
    next_on = next(
        (
            one.meaning
            for one in items[at + 1 :]
            if isinstance(one.meaning, Plants) or one.meaning in _PARTING
        ),
        None,
    )
    is_of_another = isinstance(next_on, Plants)  # not "went over the tomato with a cotton bud"
    return isinstance(item.meaning, Method) and isinstance(before.meaning, Plants) and is_of_another


_PARTING = frozenset({Word.AND, Word.BREAK, Word.BUT})


def _is_verb(item: Item) -> bool:
    return isinstance(item.meaning, Method) or item.meaning in {Word.DONE, Word.CLEAN, Word.NONE}


_NAMING = (
    *(Plants, OneOf, Count, Grade, Method, Pest, Product, Sign, Volume, UnclearVolume, Warmth, Length, Place),
)


_ALWAYS_LOST = frozenset({Word.NOTHING, Word.NONE, Word.EMPTY, Word.LATER})
_LOST_OF_ALL = frozenset({Word.DONE, Word.CLEAN})
_OF_PLANTS = listed("none find later isolate move sign done")
_NUMBERING = ("ask", "stock", "hours", "help", "walk", "work", "animals", "add", "hold")
"""Beginnings of forms in which a number may tell of something else than bugs."""


def left_out(  # noqa: C901, PLR0912, PLR0915 - one arm a kind of mention
    told: Mentions, commands: tuple[Command, ...], form: str
) -> tuple[str, ...]:
    """Give the mentions that commands do not account for."""
    plants = frozenset(plants_of(commands))
    _, left = told.sides()
    values, numbers = values_of(commands), numbers_of(commands)
    missed: list[str] = []
    is_clean = any(isinstance(one, LogCheck) for one in commands)
    is_all_done = form in {"none", "find", "sign"} and told.opens_with(Word.DONE)
    is_all_done = is_all_done and bool(told.setting.answered())
    for item in told.items:
        meaning = item.meaning
        if told.denied and told.denied.intersection(told_by(item)):
            continue
        match meaning:
            case Plants(ids=ids):
                is_said = not plants or bool(set(ids) & (plants | set(left)))
            case OneOf():
                is_said = not plants or bool(plants & set(meaning.ids))
            case Count(value=value):
                is_said = (
                    float(value) in numbers
                    or (value == 0 and is_clean)
                    or form == "correct.count"
                    or form.startswith(_NUMBERING)
                )
            case Grade():
                is_said = meaning in values or bool(numbers)
            case Method():
                is_step = bool(told.steps()) if form == "later" else form == "done" and None in values
                is_told = form in _OF_PLANTS or (form == "stock" and item.text.endswith("ed"))
                is_said = meaning in values or is_step or not is_told
            case Product():
                is_told = not values.isdisjoint((meaning.id, meaning.ingredient))
                is_said = is_told or form not in {"done", "stock", "mix"}
            case Place(id=place):
                is_said = (
                    place in values
                    or any(plant.place == place for plant in told.situation.plants if plant.id in plants)
                    or form not in {"done", "find", "none", "isolate", "move", "later", "temperature"}
                )
            case Pest():
                is_said = form in {"find", "sign"} or form.startswith(("ask", "correct")) or form == "none"
            case Sign():
                is_said = form in {"sign", "find"} or form.startswith("ask")
            case Volume() | UnclearVolume():
                is_said = form in {"stock", "mix", "use", "done"}
            case Warmth():
                is_said = form == "temperature"
            case Length():
                is_said = form not in {"done", "find", "none"}
            case Level():
                is_said = form in {"none", "walk", "find"}
            case Word.DONE:
                is_said = not is_all_done
            case Word.CLEAN:
                is_said = form not in {"move", "isolate", "release"}
            case Word.NOTHING | Word.NONE | Word.EMPTY:
                is_said = is_clean or form not in {"done", "find"}
            case Word.LATER | Word.NO_TIME:
                is_said = form not in {"done", "find", "none"} or bool(left)
            case _:
                is_said = True
        if not is_said:
            missed.append(item.text)
    return tuple(missed)
