"""A typed answer to the open question: an offered answer in the person's own words, a number, a name."""

import re
from collections.abc import Sequence
from itertools import zip_longest

from bot.actions.action import ButtonText, Choice
from bot.actions.add_plants import AddPlants
from bot.actions.ask import Ask
from bot.actions.decline import Decline
from bot.actions.identify import Identify
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.isolate import Isolate
from bot.actions.log_check import LogCheck
from bot.actions.log_find import LogFind
from bot.actions.log_round import LogRound
from bot.actions.log_sign import LogSign
from bot.actions.lose_plant import LosePlant
from bot.actions.mix_batch import Mix
from bot.actions.move_plant import MovePlant
from bot.actions.postpone import Postpone
from bot.actions.release_plant import ReleasePlant
from bot.actions.set_place import SetPlace
from bot.actions.situation import Situation
from bot.actions.stock_product import StockProduct
from bot.domain.identity import PlantId
from bot.domain.trade import Grade, Method, Sign
from bot.domain.value import replace
from bot.phrases.accounting import Part, is_called, is_written, whole
from bot.phrases.asking import Meant
from bot.phrases.bottles import read_bottle
from bot.phrases.forms.rows import SAYS_NOTHING, forms_of
from bot.phrases.guess import rank
from bot.phrases.identifying import read_identification
from bot.phrases.items import Item, Unknown, items_of
from bot.phrases.kept import kept_of_all
from bot.phrases.lexicon import Spot, Word, any_of, is_made_of, listed, phrases_of, words_of_class
from bot.phrases.mentions import GROWING, Mentions, leaves_out
from bot.phrases.names import Pest, Plants, Product
from bot.phrases.numbers import Count, whole_count
from bot.phrases.setting import TIMES, Setting
from bot.phrases.slips import slips_between
from bot.phrases.spotting import with_names
from bot.phrases.text import plain, words_of
from bot.phrases.values import plants_of

_SHORTEST_TYPO = 5
_COURTEOUS = listed("yes yep yeah yup ok okay sure please now it is they are the a an i think . ! ,")
_WHY_SO = listed("why so much this that little ? is it the mix mixture amount")
_WHY_ASKED = listed("why do you are u did ask asking that this so not is it write written wrote ?")
_NONE = listed("nothing nothin none no not nope nah zilch nowt at all yet anything any so far have got")
_NO = listed("no not nope nah at all yet so far have got")
_PLAIN_YES = listed("yes yep yeah yup")
_YES = _PLAIN_YES | listed("ok okay sure")
_RIGHT = phrases_of("talk", "yes")
_WRONG = phrases_of("talk", "no")
_OF_PLANTS = (LogRound, LogFind, LogCheck, LogSign, Postpone, Isolate, MovePlant, LosePlant, ReleasePlant)
_STAYS = any_of(
    "can not move | can not be moved | can not | too big | too heavy | too big to move | too heavy to move"
)
_PASSING = (
    Word.AND,
    Word.FILLER,
    Word.HEDGE,
    Word.BUGS,
    Word.IT,
    Word.THEM,
    Word.IT_IS,
    Word.SAW,
    Word.BREAK,
)


_UNSURE = any_of(
    "dunno | no idea | do not know | i do not know | can not tell | i can not tell | hard to say"
    " | unsure | no clue | not sure | i am not sure | hard to tell | maybe"
)
_CONFIRMING = frozenset(
    {ButtonText.YES, ButtonText.ON_A_PLANT, ButtonText.YES_LEAVE, ButtonText.YES_REMOVE, ButtonText.YES_TO}
)
_OF_A_DENIAL = frozenset(
    {Word.NOT, Word.IT, Word.THEM, Word.FILLER, Word.BREAK, Word.AND, Word.GOT, Word.HAD}
)
"""What a denial of an offer may hold beside the plants; any other word tells something of its own."""
_OF_VERBS = listed("was were is are did do does has have had been be get got gets anything any of it")
"""Words that a denial may hold beside what it denies: any other may be what is put in its place."""
_STEM = 4
"""Letters by which "fluffy" and "fluff" are the same word. Judgement."""
_ASKING = listed("why how what when where who")
_OF_A_NAME = frozenset({ButtonText.NAMED, ButtonText.TOLD_OF})
"""Buttons that stand for one of several; a name alone is no word to put its plant back."""
_OF_A_KEY = listed("they their them these those with without some like look looks does then that this there")


def read_ticks(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """
    Read "the hoya yes, the fern no" under an evening's list: what got a yes is done, the others stay open.

    None where any word says more, or a plant is named of which nothing is asked tonight.
    """
    asked = {one.plant for one in situation.tonight if not one.is_done}
    if (
        not asked
        or "?" in words
        or not {*words} & _TICKED
        or (situation.choices[:1] and situation.choices[0].text is ButtonText.YES)
    ):
        return None
    told: dict[bool, list[PlantId]] = {True: [], False: []}
    before: list[PlantId] = []
    for item in items_of(words, situation):
        is_yes = item.text in _TICKED
        if isinstance(item.meaning, Plants) and len(item.meaning.ids) == 1:
            before += item.meaning.ids
        elif item.meaning is Word.REST and not before:
            before += asked.difference(*told.values())
        elif is_yes or item.text in _CROSSED:
            if not before:
                return None  # "not hoya, ivy yes", "hoya yes no"
            told[is_yes] += before
            before = []
        elif item.text not in _BETWEEN_TICKS:
            return None
    done = tuple(dict.fromkeys(told[True]))
    is_clear = bool(done) and not before and asked.issuperset(done) and not {*done} & {*told[False]}
    return (LogRound(plants=done),) if is_clear else None


_TICKED, _CROSSED = listed("yes yep yeah yup y"), listed("no not nope nah n")
_BETWEEN_TICKS = listed("the a : - . ! ; , it and but now ok all tonight today")


def read_answer(text: str, words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Find what an open question's answer means; None when it answers something else, or nothing surely."""
    if not situation.choices or "?" in words:
        return None
    return kept_of_all(_read_answer, (text, words), situation)


def _read_answer(said: tuple[str, tuple[str, ...]], situation: Situation) -> Meant | None:
    text, words = said
    if asks_of_eating(situation):
        return _of_eating(words, situation)
    chosen = _by_its_text(text, words, situation)
    chosen = chosen or _by_yes(words, situation.choices) or _by_nothing(words, situation.choices)
    chosen = chosen or (situation.choices[0] if _is_yes_with_more(words, situation) else None)
    if chosen is not None:
        return chosen.commands or None
    items = tuple(item for item in items_of(words, situation) if item.meaning not in _PASSING)
    if situation.choices[0].text is ButtonText.YES:
        return _set_right(items, situation.choices[0].commands)
    return (
        _by_refusal_to_move(words, situation.choices)
        or (None if _ASKING & frozenset(words) else _by_plant(items, situation))
        or _by_method(items, situation.choices)
        or _by_find(items, words, situation)
        or (None if _names_a_find(items) else _by_words_of_the_key(words, situation))
    )


def _names_a_find(items: tuple[Item, ...]) -> bool:
    """Whether a product is named, or a pest with a number or a plant: no answer to what it looks like."""
    kinds = {*map(type, (one.meaning for one in items))}
    return Product in kinds or (Pest in kinds and not kinds.isdisjoint({Plants, Count}))


def asks_of_eating(situation: Situation) -> bool:
    """Whether it is asked what a label says of plants that are eaten."""
    return bool(situation.choices) and situation.choices[0].text is ButtonText.NOT_EATEN


def _of_eating(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """
    Read what a label says of eating where that is asked: "yes, 1 day, max 3 a year", "no", "i can't read it".

    A bare yes is no answer: it does not say how many days.
    """
    by_text = _by_its_text(" ".join(words), words, situation)
    essence = _essence(words)
    if by_text is not None:
        return by_text.commands
    if " ".join(essence) in _UNSURE | _NOT_READ:
        return next(one.commands for one in situation.choices if one.text is ButtonText.DONT_KNOW)
    if frozenset(words) & _NONE and not frozenset(words) & _YES and not frozenset(essence) - _NOT_NAMED:
        return situation.choices[0].commands
    asked = next(one for one in situation.choices[0].commands if isinstance(one, StockProduct))
    opening = next((at for at, word in enumerate(words) if word not in _OPENS_A_LABEL), len(words))
    rest = " ".join(words[opening:])
    days = _DAYS_ALONE.fullmatch(rest) or (
        _DAYS_ALONE.match(rest) if frozenset(words[:opening]) & _SAYS_YES else None
    )
    said = f"label : {days[1]} before eating{rest[days.end() :]}" if days else f"label : {rest}"
    told = read_bottle(tuple(said.split()), replace(situation, stocked=(asked.ingredient,)))
    match told:
        case (StockProduct(label=label, ingredient=ingredient) as stocked,) if ingredient == asked.ingredient:
            is_allowed = label.is_for_edibles is None and label.harvest_days is not None
            return (replace(stocked, label=replace(label, is_for_edibles=True)) if is_allowed else stocked,)
        case _:
            return None


_DAYS_ALONE = re.compile(
    r"((?:\d+|zero|one|two|three|four|five|seven|ten|fourteen) days?)(?! before| until| to)(?= |$)"
)
_SAYS_YES = _YES | listed("allows allowed allow")
_OPENS_A_LABEL = _YES | listed(
    "it does allows allowed allow is that can but and so the label says say there , . ! : -"
)
_NOT_NAMED = listed(
    "no not nope nah it is does says say named mentioned allowed nothing about that eating food edible"
    " edibles plants on the label none there , . ! for of any"
)


def evenings_asked_for(words: tuple[str, ...], situation: Situation) -> Postpone | None:
    """Give what is to be put off where that is asked, and a time or a day is all that is said."""
    offered = situation.choices[0].commands if situation.choices else ()
    first = offered[0] if offered else None
    if not isinstance(first, Postpone):
        return None
    items = [item for item in items_of(words, situation) if item.text not in {"day", "days"}]
    said = [item.meaning for item in items if item.meaning not in _PASSING]
    is_time = bool(said) and all(
        isinstance(meaning, (*TIMES, Count)) or meaning is Word.LATER for meaning in said
    )
    return first if is_time else None


def _by_refusal_to_move(words: tuple[str, ...], choices: tuple[Choice, ...]) -> Meant | None:
    if " ".join(_essence(words)) not in _STAYS:
        return None
    meant = [
        choice
        for choice in choices
        if any(isinstance(one, Isolate) and not one.apart for one in choice.commands)
    ]
    return meant[0].commands if len(meant) == 1 else None


def _offered(situation: Situation) -> list[tuple[Choice, str]]:
    """Pair what is offered with the words on its button."""
    return [
        (choice, plain(text)) for choice, text in zip(situation.choices, situation.choice_texts, strict=True)
    ]


def _by_its_text(text: str, words: tuple[str, ...], situation: Situation) -> Choice | None:
    typed = plain(text).rstrip(".! ")
    said = _essence(words)
    offered = _offered(situation)
    exact = [choice for choice, button in offered if button == typed]
    alike = [choice for choice, button in offered if said and _essence(words_of(button)) == said]
    close = [choice for choice, button in offered if _is_close(typed, button)]
    return next((meant[0] for meant in (exact, alike, close) if len(meant) == 1), None)


def _by_yes(words: tuple[str, ...], choices: tuple[Choice, ...]) -> Choice | None:
    """Take a bare yes for the only thing offered; a look that found nothing wants to be said."""
    is_yes = bool(frozenset(words) & _YES) and not frozenset(words) - _COURTEOUS
    if choices[0].text in _CONFIRMING and (is_yes or is_made_of(words, _RIGHT)):
        return choices[0]
    if choices[-1].text is ButtonText.SOMETHING_ELSE and is_made_of(words, _WRONG):
        return choices[-1]
    if not is_yes or len(choices) != 1 or any(isinstance(one, LogCheck) for one in choices[0].commands):
        return None
    return choices[0]


def _is_yes_with_more(words: tuple[str, ...], situation: Situation) -> bool:
    """Whether a yes goes on, "yes, it is in the bin", and tells nothing but what is offered."""
    offered = tuple(whole(situation.choices[0].commands))
    heads = {form for one in offered for form in forms_of(one)}
    is_of_a_form = bool(heads) and not any(isinstance(one, AddPlants | SetPlace | Ask) for one in offered)
    if (
        situation.choices[0].text not in _CONFIRMING
        or not _PLAIN_YES.issuperset(words[:1] or ("",))
        or not is_of_a_form
    ):
        return False
    setting, plants = Setting(situation), {*plants_of(offered)}
    for item in items_of(words[1:], situation):
        told = Mentions((item,), setting)
        match item.meaning:
            case Unknown():
                is_in = item.text not in _CAREFUL and not leaves_out(item)
            case Word() as word:
                is_in = word in _BESIDE_A_YES or any(is_called(one, told) for one in heads)
            case Plants(ids=ids):
                is_in = plants.issuperset(ids)
            case meaning:
                is_in = any(is_written(meaning, Part(one, told, offered)) for one in heads)
        if not is_in:
            return False
    best = rank(with_names(" ".join(words[1:]), situation), situation)[0]
    return (
        best.form in SAYS_NOTHING or best.chance < _SURELY_ELSE or not heads.isdisjoint(best.form.split("+"))
    )


_BESIDE_A_YES = frozenset(
    {Word.FILLER, Word.BREAK, Word.AND, Word.IT, Word.THEM, Word.IT_IS, Word.FILL_TO, Word.PUT}
)
_CAREFUL = words_of_class("idle", "careful")
_SURELY_ELSE = 0.9
"""A form this likely behind a yes tells something else: "yes, undo". By the calibration of the model. [1]"""


def _by_nothing(words: tuple[str, ...], choices: tuple[Choice, ...]) -> Choice | None:
    """Take "nothing", "no, nothing at all" where it is asked what there is."""
    offered = [choice for choice in choices if choice.text is ButtonText.NOTHING_YET]
    is_none = bool(frozenset(words) & _NONE) and not frozenset(words) - _NONE - _COURTEOUS
    if choices[0].text is ButtonText.NONE_SEEN and frozenset(words) & _NONE - _NO:
        offered = [choices[0]]
    return offered[0] if len(offered) == 1 and is_none else None


def read_why(words: tuple[str, ...], choices: tuple[Choice, ...]) -> Meant | None:
    """Take a bare why for what is being asked: an offer says what it was made of, a mixture its sums."""
    if words[:1] != ("why",):
        return None
    is_offer = bool(choices) and choices[0].text is ButtonText.YES and frozenset(words) <= _WHY_ASKED
    if is_offer and not all(isinstance(one, Ask) for one in choices[0].commands):
        return (Incomplete(missing=Missing.WHY_ASKED, text=choices[0].of, choices=choices),)
    if not frozenset(words) <= _WHY_SO:
        return None
    offered = [
        choice for choice in choices if any(isinstance(one, Mix) and one.in_full for one in choice.commands)
    ]
    return offered[0].commands if offered else None


def _set_right(items: tuple[Item, ...], offered: Meant) -> Meant | None:
    """
    Take "no, the hoya", "no, 3" for what was offered with that plant or that number instead.

    "No, it did not", "the hoya was not sprayed" deny what was offered of it, and put nothing off.
    """
    meanings = [item.meaning for item in items]
    # "did not" tells of nothing done
    said = [one for one, then in zip_longest(meanings, meanings[1:]) if (one, then) != (Word.DONE, Word.NOT)]
    of = {plant for one in offered if isinstance(one, _OF_PLANTS) for plant in one.plants}
    named = {plant for one in said if isinstance(one, Plants) for plant in one.ids}
    strange = {item.text for item in items if isinstance(item.meaning, Unknown)}
    is_no_more = all(isinstance(one, Plants | Method | Unknown) or one in _OF_A_DENIAL for one in said)
    is_no_more = is_no_more and strange <= _OF_VERBS
    if of and said.count(Word.NOT) > (said[:1] == [Word.NOT]) and named <= of and is_no_more:
        return (Decline(),)
    if said[:1] != [Word.NOT]:
        return None
    match said[1:]:
        case [Plants(ids=ids)] if len(offered) == 1 and isinstance(offered[0], _OF_PLANTS):
            return (replace(offered[0], plants=ids),)
        case [Count() as count] if len(offered) == 1 and isinstance(offered[0], LogFind):
            number = whole_count(count.value)
            return None if number is None else (replace(offered[0], count=number, grade=None),)
        case _:
            return None


def _essence(words: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(word for word in words if word not in _COURTEOUS)


_NOT_READ = frozenset(
    " ".join(_essence(tuple(one.split())))
    for one in any_of(
        "i can not read it | can not read it | i have not got it | do not have it | i do not have the bottle"
        " | not at hand | not to hand | later | i will look | i will check | no label | there is no label"
    )
)


def _is_close(typed: str, label: str) -> bool:
    if abs(len(typed) - len(label)) > 1 or min(len(typed), len(label)) < _SHORTEST_TYPO:
        return False
    return not any(mark.isdigit() for mark in typed + label) and slips_between(typed, label, 1) <= 1


def _by_plant(items: tuple[Item, ...], situation: Situation) -> Meant | None:
    """Take a plant's name, in part or misspelt, for that choice, where which one is meant is asked."""
    meaning = items[0].meaning if len(items) == 1 else None
    if not isinstance(meaning, Plants) or len(meaning.ids) != 1:
        return None
    name = next(known.names[0] for known in situation.plants if known.id == meaning.ids[0])
    meant = [choice for choice in situation.choices if choice.of == name and choice.text in _OF_A_NAME]
    return meant[0].commands if len(meant) == 1 else None


def _by_method(items: tuple[Item, ...], choices: tuple[Choice, ...]) -> Meant | None:
    """Take "cleaned out" for that answer of the plant that is asked about, and for no other plant."""
    said = [item.meaning for item in items if item.meaning is not Word.DONE]
    method = said[0] if len(said) == 1 else None
    if not isinstance(method, Method):
        return None
    rounds = [one for choice in choices for one in choice.commands if isinstance(one, LogRound)]
    if len({one.plants for one in rounds}) != 1 or len(rounds) != len(choices):
        return None
    meant = [one for one in rounds if [part[1] for part in one.parts] == [method]]
    return (meant[0],) if len(meant) == 1 else None


_EACH = frozenset({"each", "apiece", "both"})
_FINDING_OUT = frozenset({ButtonText.FIND_OUT, ButtonText.ANOTHER})
_SAME = listed("the same as again kind one ones pest bug bugs too also before others other there it is , .")
_ROUGHLY = listed("tops max least most roughly approx approximately guess give take between sure")
"""What is said beside a number that nobody counted."""


def _by_find(items: tuple[Item, ...], words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Complete a find that lacks its number or its pest; what else of it is said beside that is kept."""
    told = [find for choice in situation.choices for find in _finds_of(choice)]
    if not told:
        return None
    asks_pest = len({find.pest for find in told}) > 1
    if asks_pest and not frozenset(words) - _SAME:
        return (told[0],)
    if asks_pest and " ".join(_essence(words)) in _UNSURE:
        return next((one.commands for one in situation.choices if one.text in _FINDING_OUT), None)
    around = _EACH | _ROUGHLY if all(len((*find.plants, *find.also)) > 1 for find in told) else _ROUGHLY
    unsure = {at for at in range(len(items) - 1) if (items[at].text, items[at + 1].text) == ("not", "sure")}
    said = [one for at, one in enumerate(items) if not (at in unsure or one.text in around)]
    signs = [one.meaning for one in said if isinstance(one.meaning, Sign)]
    find = _completed(told[0], [one.meaning for one in said if one.meaning not in signs], asks_pest=asks_pest)
    spoken = " ".join(words)
    if find is None or any(f"{one.text} {leaf}" in spoken for one in said for leaf in GROWING):
        return _by_part_of_a_name(words, told) if asks_pest else _described(said, told[0], situation)
    return (find, *(LogSign(plants=find.plants, sign=sign, on=find.on) for sign in signs))


def _completed(find: LogFind, said: Sequence[object], *, asks_pest: bool) -> LogFind | None:
    """Give a find with what is said of it, no two things of a kind; None where what is asked is not said."""
    for meaning in said:
        match meaning:
            case Pest(key=key) if asks_pest or find.pest is None:
                find = replace(find, pest=key)
            case Count() as count if not asks_pest and (number := whole_count(count.value)):
                find = replace(find, grade=None, count=number)
            case Grade() as grade if not asks_pest:
                find = replace(find, grade=grade, count=None)
            case Spot() as spot if not asks_pest:
                find = replace(find, where=spot.name)
            case _:
                return None
    kinds = [type(one) for one in said]
    is_said = Pest in kinds if asks_pest else Count in kinds or Grade in kinds
    return find if is_said and len({*kinds}) == len(kinds) else None


def _described(items: Sequence[Item], find: LogFind, situation: Situation) -> Meant | None:
    """Find out what it is where it is described and counted at once: "brown bumps, maybe 15"."""
    amounts = [one.meaning for one in items if isinstance(one.meaning, Count)]
    number = whole_count(amounts[0].value) if len(amounts) == 1 else None
    said = tuple(word for one in items for word in one.text.split())
    key = read_identification(said, situation) if number and find.pest is None else None
    match key:
        case (Identify(answers=[_, *_], plants=()) as asked,):
            return (replace(asked, plants=find.plants, find=replace(find, grade=None, count=number)),)
        case _:
            return None


def _by_words_of_the_key(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Take "crawls slowly" for the one answer of the identification key that has these words."""
    if not all(isinstance(one, Identify) for choice in situation.choices for one in choice.commands):
        return None
    said = frozenset(word for word in words if word not in {".", "!", ","})
    said = said - _COURTEOUS or said
    if " ".join(_essence(words)) in _UNSURE:
        unsure = [one for one in situation.choices if one.text is ButtonText.NOT_SURE]
        return unsure[0].commands if unsure else None
    meant = [choice for choice, button in _offered(situation) if said and said <= frozenset(words_of(button))]
    return meant[0].commands if len(meant) == 1 else _by_most_words(said, situation)


def _by_most_words(said: frozenset[str], situation: Situation) -> Meant | None:
    """Take "they're white and fluffy" for the one answer that shares more of its words than any other."""
    stems = {word[:_STEM] for word in said - _OF_A_KEY if len(word) >= _STEM}
    shared = [
        (len(stems & {word[:_STEM] for word in words_of(button) if len(word) >= _STEM}), choice)
        for choice, button in _offered(situation)
    ]
    most = max((count for count, _ in shared), default=0)
    best = [choice for count, choice in shared if count == most]
    return best[0].commands if most and len(best) == 1 and best[0].commands else None


def _finds_of(choice: Choice) -> list[LogFind]:
    """Give what a choice writes where it is a find alone, or what stands behind "another"."""
    match choice.commands:
        case (LogFind() as find,):
            return [find]
        case (Incomplete(choices=choices),):
            return [find for one in choices for find in _finds_of(one)]
        case _:
            return []


def _by_part_of_a_name(words: tuple[str, ...], told: Sequence[LogFind]) -> Meant | None:
    """Take "citrus" for the one offered pest that has the word in its name."""
    said = frozenset(_essence(words))
    meant = [find for find in told if said and said <= frozenset((find.pest or "").split("_"))]
    return (meant[0],) if len(meant) == 1 else None
