"""What stands in the journal was wrong, on whatever day: it is shown, and one tap changes it."""

import re
from itertools import pairwise

from bot.actions.action import ButtonText, Command
from bot.actions.correct import Correct
from bot.actions.correct_entry import CorrectEntry, DeleteEntry, Entered, Kind
from bot.actions.log_check import LogCheck
from bot.actions.situation import Situation
from bot.domain.identity import ProductId
from bot.domain.trade import Method
from bot.domain.value import replace
from bot.phrases.days import Trouble
from bot.phrases.items import Item, Unknown, items_of
from bot.phrases.lexicon import Tool, Word, each_of, listed
from bot.phrases.mentions import Mentions
from bot.phrases.names import Plants, Product
from bot.phrases.numbers import Count, whole_count
from bot.phrases.setting import Setting

_DELETE = listed("delete erase strike scrap")
_KINDS = each_of(
    ("find | finding | finds | sighting | count", Kind.FOUND),
    ("spray | spraying | treatment | round | wipe | wiping | rinse | swab", Kind.TREATED),
    ("look | check", Kind.LOOK),
    ("move | moving", Kind.MOVED),
)
_ANY = listed("entry note line")
_COUNTS = re.compile(
    r"\bthe (\d{1,4})\b(?! (?:th|st|nd|rd)\b)(?:(?!\bthere\b).)*"
    r"\b(?:was|were|is|are|should be|should have been) (?:only |really )?(\d{1,4})\b"
)
_DENIED = re.compile(r"\bnot\b|\bno (?!,)|\binstead of\b|\brather than\b")
_IDLE = frozenset({Word.FILLER, Word.BREAK, Word.IT, Word.IT_IS})
_TOLD_OF = listed("got had was were has gets")
_JOURNAL = listed("back journal record records log history diary notes")
_LED = listed("no nope nah wait actually sorry oops wrong correct correction")
_CALLS = _DELETE | _TOLD_OF | _LED | listed("make meant mean take not instead rather never is are been")
"""Without any of these nothing is put right."""
_SPRAYED = listed("sprayed spray used use got had put applied went")
_AND_NOT = frozenset({"not", "instead of", "rather than"})
_LIFELESS = listed(
    "dust lint hair hairs fur perlite sap dirt crumb crumbs fibre fiber fibres limescale residue sand pollen"
)
"""What is taken for an animal, and was none."""
_WAS = listed("was were is only just turned")


def read_putting_right(words: tuple[str, ...], situation: Situation) -> tuple[Command, ...] | None:
    """Read "delete Sunday's find on the ivy", "the 12 on the hoya were 2", "the ivy got neem, not soap"."""
    said = frozenset(words)
    if "?" in said or not said & _CALLS:
        return None
    text = " ".join(words)
    told = Mentions(items_of(words, situation), Setting(situation))
    number = _number_anew(words, told, situation)
    if number is not None:
        return (Correct(count=number),)
    meant = _other_plant(words, told) if told.has(Word.NOT) else None
    if meant is not None:
        return (meant,)
    never = _never_sprayed(words, situation)
    if never is not None:
        return never
    plants, on = told.sides()[0] or told.sides()[1], told.behind()
    if isinstance(on, Trouble):
        return None
    of = Entered(plants=plants, on=on) if len(plants) > 1 else Entered(plant=next(iter(plants), None), on=on)
    deleted = _deleted(words, told, of) or _no_animal(said, told, of)
    if deleted or len(plants) > 1:
        return deleted
    right = _other_count(text, words, told, of)
    is_told = ":" in words or bool(said & _TOLD_OF)
    return right or (_other_product(told, of) if is_told and _DENIED.search(text) else None)


def _number_anew(words: tuple[str, ...], told: Mentions, situation: Situation) -> int | None:
    """Read "sorry 50", "no wait, 3", "make that 7" right behind a find: the last number counts."""
    rest = {word for one in told.items if not isinstance(one.meaning, Count) for word in one.text.split()}
    counts = told.every(Count)
    is_answer = situation.choices[:1] and situation.choices[0].text is ButtonText.YES
    is_just_found = len(situation.spoken) == 1 and situation.found_today.issuperset(situation.spoken)
    if is_answer or not (is_just_found and counts) or _TURNING.isdisjoint(words) or rest - _AROUND_A_NUMBER:
        return None
    return whole_count(counts[-1].value) or None


_TURNING = _LED | listed("make meant mean rather")
_AROUND_A_NUMBER = _TURNING | listed(
    "that it i of them more exact exactly is was were really only just about there are the , - . ! ; :"
)


def _never_sprayed(words: tuple[str, ...], situation: Situation) -> tuple[Command, ...] | None:
    """Read "no neem sprayed on the fern", "the fern never got neem": whoever wrote it, it is shown."""
    denials = (at for at, word in enumerate(words) if at and word in {"no", "never", "without"})
    at = max(denials, default=None)
    if at is None or not any(word in _SPRAYED for word in words) or _is_treated(words[: at - 1], situation):
        return None
    told, behind = (Mentions(items_of(of, situation), Setting(situation)) for of in (words, words[at:]))
    plants, products, on = told.every(Plants), told.every(Product), told.behind()
    is_one = len(plants) == len(products) == len(behind.every(Product)) == 1 and len(plants[0].ids) == 1
    if not is_one or products[0].id is None or isinstance(on, Trouble):
        return None
    return (
        DeleteEntry(of=Entered(kind=Kind.TREATED, plant=plants[0].ids[0], on=on, product=products[0].id)),
    )


def _is_treated(words: tuple[str, ...], situation: Situation) -> bool:
    """Whether a spray is told: "sprayed the fern, no neem"; "sprayed no neem on the fern" denies it."""
    return any(one.meaning is Method.SPRAY for one in items_of(words, situation))


def _deleted(words: tuple[str, ...], told: Mentions, of: Entered) -> tuple[Command, ...] | None:
    """Read what is to be deleted: a kind of entry, a way of doing, or a product on plants."""
    is_taken = words[:1] == ("take",) and bool(_JOURNAL & frozenset(words))
    if not (is_taken or any(word in _DELETE for word in words[:2])):
        return None
    kind = next((_KINDS[word] for word in words if word in _KINDS), None)
    method, named = told.one(Method), told.one(Product)
    product = named.id if named is not None and (of.plant or of.plants) else None
    if method or product:
        kind = kind or Kind.TREATED
    if kind is None and not _ANY & frozenset(words):
        return None
    return (DeleteEntry(of=replace(of, kind=kind, method=method, product=product)),)


def _no_animal(said: frozenset[str], told: Mentions, of: Entered) -> tuple[Command, ...] | None:
    """Read "the fern was only dust, clean": what was found is no find, and a look if that is told."""
    is_else = told.every((Method, Tool, Product, Count))
    if is_else or not (said & _LIFELESS and said & _WAS and (of.plant or of.plants)):
        return None
    ids = of.plants or tuple(one for one in (of.plant,) if one is not None)
    clean = (LogCheck(plants=ids),) if told.has(Word.CLEAN) else ()
    return (DeleteEntry(of=replace(of, kind=Kind.FOUND)), *clean)


def _other_count(
    text: str, words: tuple[str, ...], told: Mentions, of: Entered
) -> tuple[Command, ...] | None:
    """Read "the 12 on the hoya were 2", "no, it was 2 on the fern", "correction: fern 2 on monday, not 4"."""
    counts = _COUNTS.search(text)
    if counts is not None:
        was = replace(of, kind=Kind.FOUND, count=int(counts[1]))
        return (CorrectEntry(of=was, to=Entered(count=int(counts[2]))),)
    right: list[int | None] = []
    wrong: list[int | None] = []
    for before, item in pairwise((Item(Word.FILLER, ""), *told.items)):
        if isinstance(item.meaning, Count) and item.text != "one":
            (wrong if before.text in _AND_NOT else right).append(whole_count(item.meaning.value))
    is_led = words[0] in _LED and (":" in words or told.has(Word.MEANT, Word.IT_IS))
    is_else = (
        told.has(Word.CLEAN, Word.NONE, Word.NOTHING, Word.CHECKED, Word.DONE) or len(told.every(Plants)) > 1
    )
    is_told = (len(wrong) == 1 or (is_led and not wrong)) and not is_else
    count = right[0] if len(right) == 1 else None
    if not is_told or of.plant is None or count is None:
        return None
    if of.on is None:
        return (Correct(plant=of.plant, count=count),)
    was = replace(of, kind=Kind.FOUND, count=next(iter(wrong), None))
    return (CorrectEntry(of=was, to=Entered(count=count)),)


def _other_plant(words: tuple[str, ...], told: Mentions) -> Correct | None:
    """Read "no, not the fern but the ivy", "it was the ivy, not the fern", "no, that is my ivy"."""
    said = [one.meaning for one in told.items if one.meaning not in _IDLE and one.text != "sorry"]
    is_led = bool(said) and said[0] is Word.NOT
    while said[:2] == [Word.NOT, Word.NOT]:
        del said[0]
    known = [one for one in said if not isinstance(one, Unknown)]
    match said:
        case [Word.NOT, Plants(ids=(wrong,)), Word.BUT | Word.MEANT, Plants(ids=(right,))]:
            pass
        case [Word.MEANT, Plants(ids=(right,)), Word.NOT, Plants(ids=(wrong,))]:
            pass
        case [Word.NOT, Plants(ids=(right,)), Word.NOT, Plants(ids=(wrong,))] if is_led and words[0] != "not":
            pass
        case [Word.NOT, Plants(ids=(right,)), *_] if len(known) == len(said[:2]) and _SAYS_WHICH & set(words):
            return Correct(plant=right) if words[0] != "not" else None
        case _:
            return None
    return Correct(plant=right, instead_of=wrong) if right != wrong else None


_SAYS_WHICH = frozenset({"that", "this", "it"})


def _other_product(told: Mentions, of: Entered) -> tuple[Command, ...] | None:
    """Read the product that was used and the one that was not."""
    right, wrong = list[ProductId | None](), list[ProductId | None]()
    is_denied = False
    for item in told.items:
        is_denied = is_denied or item.text in {"not", "no", "instead of", "instead", "rather", "rather than"}
        if isinstance(item.meaning, Product):
            (wrong if is_denied else right).append(item.meaning.id)
    if len(right) != 1 or len(wrong) != 1 or None in {*right, *wrong} or of.plant is None:
        return None
    was = Entered(kind=Kind.TREATED, plant=of.plant, on=of.on, product=wrong[0])
    return (CorrectEntry(of=was, to=Entered(product=right[0])),)
