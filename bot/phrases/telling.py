"""What is told for sure, by two witnesses: what is written unasked; or what is asked back."""

import re
from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from decimal import Decimal
from functools import cache
from itertools import dropwhile, takewhile

from bot.actions.action import ButtonText, Choice, Command
from bot.actions.ask import Ask, Topic
from bot.actions.correct import Correct
from bot.actions.correct_entry import DeleteEntry, Entered, Kind
from bot.actions.courtesy import Thanks
from bot.actions.decline import Decline
from bot.actions.hold import Hold
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.log_check import LogCheck
from bot.actions.log_find import LogFind
from bot.actions.log_round import LogRound
from bot.actions.lose_plant import LosePlant
from bot.actions.not_understood import NotUnderstood
from bot.actions.postpone import Postpone
from bot.actions.situation import Situation
from bot.domain.identity import PlantId
from bot.domain.trade import Grade, Level, Method
from bot.domain.value import replace
from bot.phrases.accounting import Left, Part, is_called, is_idle, left_over, shows_otherwise, whole
from bot.phrases.asking import Meant, ask_none_seen, ask_seen
from bot.phrases.days import Day, Trouble
from bot.phrases.forms.filling import (
    LEAST_WARM,
    MOST_WARM,
    correct_count,
    is_standing,
    leads_to_a_stranger,
    speaks_of_before,
)
from bot.phrases.forms.rows import REPORTS, ROWS, SAYS_NOTHING, forms_of
from bot.phrases.guess import Guess, rank
from bot.phrases.home_words import kind_at
from bot.phrases.items import Item, Unknown
from bot.phrases.kept import kept_of_all
from bot.phrases.lexicon import JOINS, Spot, Tool, Word, listed
from bot.phrases.mentions import NO_PLANTS, Mentions, leaves_out
from bot.phrases.names import OneOf, Pest, Place, Plants, Product
from bot.phrases.numbers import MOST_COUNTED, Count, Volume, Warmth
from bot.phrases.offering import Likely, likely, likely_whole, told_in
from bot.phrases.questions import asks_unmarked
from bot.phrases.setting import DATES, Setting, unique
from bot.phrases.spotting import TICKS, has_slip, spotted, with_names
from bot.phrases.text import LONGEST, is_signed
from bot.phrases.trusting import Weighed, is_trusted
from bot.phrases.values import plants_of

SURE_FROM = 0.5
"""A form this likely is written where every word is accounted for: of 2,000 such lines of hands left out two
were wrong."""
CALLED_FROM = 0.3
"""A form is not told below it, whatever words call it."""
MOST_IDLE = 0.5
"""A message that tells nothing or asks by more than this is not written. Judgement. [1]"""
_MOST_CALLED = 5
_MOST_CHOICES = 8
_PAIR = 2
_NOTHING_SEEN = (Word.NOTHING, Word.NONE, Word.CLEAN, Word.GONE, Word.NOT)
_POINTING = (Word.ALL, Word.BOTH, Word.IT, Word.THEM)
_TAKES_BACK = re.compile(
    r"(?<=\w)\W+(?:(?:no|oh|oops|sorry)\W+)*"
    r"(?:(?<!to )(?<!can )(?<!ll )(?<!must )wait|scratch that|correction|i meant?)\b\W*(?:no\b\W*)?"
    r"(?:(?:that|it)'?s\b)?",
    re.IGNORECASE,
)
"""How one sets oneself right in mid-sentence: "ivy 3, no wait, the hoya 3"."""
_BEHIND_A_NAME = listed("just arrived came in on at from for")
_DATED = REPORTS | {"hold"}


def tell(text: str, situation: Situation) -> Meant:
    """Read what is told in a message or a part of it to its last word; else ask back."""
    if not any(character.isalnum() for character in text):
        return (NotUnderstood(text),)
    guesses = rank(with_names(text, situation), situation)
    return surely(text, situation) or _asked_back(text, situation, guesses) or (NotUnderstood(text),)


def surely(text: str, situation: Situation) -> Meant:
    """
    Give what is written unasked.

    Two witnesses agree: the model, that it is of this form, and the form's row, which is filled by words of
    which none that carries meaning is left over. Words nobody listed ask for more of the model.
    """
    return kept_of_all(_surely, text, situation)


def _surely(text: str, situation: Situation) -> Meant:
    meant = _TAKES_BACK.split(text, maxsplit=1)
    if len(meant) > 1 and " " in meant[0]:
        before, after = (surely(one, situation) for one in meant)
        if before:
            return after if {*map(type, before)} == {*map(type, after)} else ()
    told = _in_one(text, situation) or _excused(text, situation)
    is_put_off = any(isinstance(one, Postpone | Hold) for one in told)
    return () if is_put_off and shows_otherwise("message", told_in(text, situation)) else told


def _in_one(text: str, situation: Situation) -> Meant:
    """Read what is told without anything set right, and without a reason."""
    guesses = rank(with_names(text, situation), situation)
    best = best_of(text, situation, guesses)
    if best is None or has_slip(text, situation) or any(map(asks_unmarked, _CLAUSE.split(text[:LONGEST]))):
        return ()
    told = told_in(text, situation)
    if _excepts_what_was_done(told) or _asks_of_a_plant(told):
        return ()
    idle = _idleness(guesses)
    is_clear = best.form == "hold" or len(best.parts) > 1 or all(map(_is_of_a_count, told.items))
    if idle > MOST_IDLE and not is_clear:
        return ()
    is_of_work = told.every((Plants, Place, Method)) or told.has(Word.ALL, Word.BOTH, Word.THEM, Word.REST)
    is_ticked = is_signed(text) or TICKS.search(text)
    is_said = sum(one.meaning is Word.DONE for one in told.items) > max(1, len(TICKS.findall(text)))
    if is_ticked and not (is_of_work or is_said):
        return ()  # a sign alone, which stands for "done", may agree to anything
    rounds = (one for one in best.commands if isinstance(one, LogRound))
    treated = {plant for one in rounds for plant in one.plants}
    return tuple(
        one if isinstance(one, Postpone) and treated & set(one.plants) else _or_asked(one, told)
        for one in best.commands
    )


def _excused(text: str, situation: Situation) -> Meant:
    """Read "not tonight, sauna", "no soap as he sleeps there": what stands last is why, and names nothing."""
    for begun in reversed([*_WHY.finditer(text)]):
        reason = text[begun.end() :]
        if len(reason) > _LONGEST_REASON or not all(map(_is_of_a_reason, spotted(reason, situation))):
            return ()
        told = _in_one(text[: begun.start()], situation) if reason.strip(" .!") else ()
        if told:
            is_put_off = any(isinstance(one, Postpone) or _asks_till_when(one) for one in told)
            return told if is_put_off else ()
    return ()


_CLAUSE = re.compile(r"[,.;!\n]")


def _asks_of_a_plant(told: Mentions) -> bool:
    """Whether it begins with a verb before a plant: "was hoya done"."""
    verb, *behind = told.items
    return verb.text in _ASKING_VERBS and any(isinstance(one.meaning, Plants) for one in behind[:1])


_ASKING_VERBS = listed("is are was were has have does do")


def _excepts_what_was_done(told: Mentions) -> bool:
    """Whether a plant is left out that something else was done to: "sprayed both, but only wiped the ivy"."""
    out = next((at for at, one in enumerate(told.items) if one.meaning is Word.EXCEPT), len(told.items))
    behind = [one.meaning for one in takewhile(lambda one: one.text not in _ENDS, told.items[out:])]
    return all(any(isinstance(one, kind) for one in behind) for kind in (Plants, Method))


_ENDS = frozenset({".", ",", ";", "\n"})
_WHY = re.compile(r"\s*(?:[,;.]|\s[-\u2013]+|\b(because|bc|cos|coz|cause|as|since)\b)\s*", re.IGNORECASE)
_LONGEST_REASON = 60
"""More tells of something else. Judgement. [characters]"""
_OF_A_REASON = frozenset({Word.FILLER, Word.HEDGE, Word.BREAK, Word.AND, Word.NO_TIME, Word.LEFT, Word.BACK})
_OF_A_REASON |= {Word.IT, Word.HAD}


def _is_of_a_reason(item: Item) -> bool:
    """Whether it may stand in a reason: nothing of the plants, no day, nothing that sets right."""
    return isinstance(item.meaning, Unknown) or item.meaning in _OF_A_REASON


def _asks_till_when(command: Command) -> bool:
    return isinstance(command, Incomplete) and command.missing is Missing.LATER


def best_of(text: str, situation: Situation, guesses: Sequence[Guess]) -> Likely | None:
    """Fill the likeliest form that is sure; a less likely one where its listed words leave nothing over."""
    first = next(_of_form(text, situation, guesses[:1]), None)
    left = None if first is None else _left_over(first)
    if first is not None and left is not None:
        chance = _chance(guesses, first.form)
        is_clear = not left and (chance >= SURE_FROM or first.is_called or first.form == "move")
        items = told_in(text, situation).items
        is_of_others = any(_begins_a_kind(one, situation) for one in left)  # "jade done"
        if is_clear or (
            not is_of_others and is_trusted(Weighed(first.form, chance, _idleness(guesses), items, left))
        ):
            return first
    told = told_in(text, situation)
    is_count = bool(told.every((Count, Grade, Pest))) and all(map(_is_of_a_count, told.items))
    others = [
        one
        for one in guesses[:_MOST_CALLED]
        if sum(each.chance for each in guesses if _tells_of(each.form, one.form, told)) >= CALLED_FROM
        or (is_count and one.form == "find")
        or (one.form == "done" and told.is_let_loose())
        or (one.form == "isolate.stays" and told.has(Word.UNMOVABLE))
        or (one.form == "hold" and told.days() and told.has(Word.AWAY))
        or (one.form == "move" and is_standing(told))
    ]
    called = (one for one in _of_form(text, situation, others) if one.is_called and _left_over(one) == ())
    return next(called, None)


def _begins_a_kind(left: Left, situation: Situation) -> bool:
    return kind_at(tuple(one.text for one in left.items), left.at, situation.kinds) > 0


def _idleness(guesses: Sequence[Guess]) -> float:
    """Give the chance that nothing is told, or that it is asked."""
    return sum(one.chance for one in guesses if one.form in SAYS_NOTHING or one.form.startswith("ask."))


def _left_over(meant: Likely) -> tuple[Left, ...] | None:
    """Give the words that may carry nothing where all else is accounted for, else None."""
    ranked = _heads(meant.form)
    told = {one.head for one in meant.parts}.union(*map(forms_of, meant.commands))
    if meant.left_out or meant.lacks or not ranked <= told:
        return None
    for before, part in zip((None, *meant.parts), meant.parts, strict=False):
        is_alike = before is None or before.head == part.head
        if (not is_alike and _is_torn(before, part)) or (
            part.head not in ranked
            and (len(meant.parts) == 1 or not (_is_told_alone(part) and _is_called_beside(part, meant)))
        ):
            return None
    return left_over(meant.parts, meant.skipped)


def _is_torn(before: Part | None, part: Part) -> bool:
    """Whether a list of plants may go on into a part: "rinsed hoya, ivy and coffee no bugs"."""
    if before is None or Word.BUT in part.told.calling:
        return False
    ends, begins = ([one for one in each.told.items if one.meaning not in JOINS] for each in (before, part))
    is_strong = before.told.items[-1].text in {".", "!", "\n", ";"}
    return not is_strong and all(isinstance(one.meaning, Plants) for one in (*ends[-1:], *begins[:1]))


def _is_told_alone(part: Part) -> bool:
    """Whether a part that the whole was not taken for tells the same by itself: "done. The ivy has 3 too"."""
    text, told = " ".join(one.text for one in part.told.items), part.told
    if part.head == "find" and told.has(Word.IT) and len(told.every(Count)) == 1:
        return True  # "wiped the hoya, 11 on it"
    if part.head == "none" and (*plants_of(part.commands),) == part.told.setting.before:
        return True  # "wiped the hoya, saw none"
    if part.head == "later" and is_called("later", told) and (told.every(Plants) or told.steps()):
        return True  # "pruned, but the soap has to wait", "the ivy I did not"
    alone = best_of(text, told.situation, rank(with_names(text, told.situation), told.situation))
    return alone is not None and alone.commands == part.commands


def _is_called_beside(part: Part, meant: Likely) -> bool:
    """Whether what is told beside a bare number is called by a word: "orchid 2, study" may be a new plant."""
    return not all(map(_is_of_a_count, part.told.items)) or any(
        one is not part and is_called(one.head, one.told) for one in meant.parts
    )


def _is_of_a_count(item: Item) -> bool:
    """Whether it may stand in "hoya 3", which is always a find; "one hoya" is none."""
    is_number = isinstance(item.meaning, Count) and item.text != "one"
    return is_number or isinstance(item.meaning, Plants | Pest | Level | Grade) or item.meaning in _OF_A_COUNT


_OF_A_COUNT = frozenset(
    [Word.FILLER, Word.HAD, Word.BREAK, Word.AND, Word.SAW, Word.ALL, Word.NONE, Word.NOTHING, Word.CLEAN]
)


def _of_form(text: str, situation: Situation, guesses: Sequence[Guess]) -> Iterator[Likely]:
    told = [one for one in guesses if one.form not in SAYS_NOTHING and not one.form.startswith("ask.")]
    for one in likely_whole(text, situation, told) if told else ():
        if not contradict(tuple(whole(one.commands))):
            yield one


def _chance(guesses: Sequence[Guess], form: str) -> float:
    """Give the chance of a form, with or without chatter beside it."""
    return sum(one.chance for one in guesses if _heads(one.form) == _heads(form))


@cache
def _heads(form: str) -> frozenset[str]:
    return frozenset(form.split("+")) - SAYS_NOTHING


@cache
def _traced(form: str) -> frozenset[str]:
    return frozenset("find" if one == "sign" else one for one in _heads(form))


_LOOKS = frozenset({"find", "none"})


def _tells_of(form: str, other: str, told: Mentions) -> bool:
    """
    Whether a form tells what another does, and no round besides in words that nobody knows.

    A trace is as good as a find there: "white fluff on the hoya". One look speaks for two: "clean but ivy 3".
    """
    more, heads = _traced(form), _traced(other)
    if heads == _LOOKS and more < heads:
        return True
    return heads <= more and not ("done" in more - heads and told.every(Unknown))


def _or_asked(command: Command, told: Mentions) -> Command:
    """Ask what is told too briefly to be written: "checked ivy", "none", "not yet", "gone"."""
    match command:
        case LogCheck(plants=plants, on=on):
            if not told.every((Plants, Place)) and set(plants) <= set(told.setting.answered()):
                return ask_none_seen(plants, on)  # "all done, none seen"
            opening = told.items[0].text
            is_of_some = told.every((Plants, Place)) or told.has(*_POINTING) or told.setting.about()
            if not (is_of_some or told.has(Word.REST) or opening.startswith("all")):
                return ask_seen((), on)
            # "clean the hoya", "all clean, hoya"
            is_task = told.every(Plants) and (
                opening == "clean"
                or (
                    (opening.startswith("all") and isinstance(told.items[-1].meaning, Plants))
                    and not told.sides()[1]
                )
            )
            is_seen = told.has(*_NOTHING_SEEN) or Count(Decimal(0)) in told.every(Count)
            return ask_seen(plants, on) if is_task or not is_seen else command
        case Hold(until=None) if told.has(Word.AWAY):
            return Incomplete(missing=Missing.WHEN, text="away")
        case Postpone(plants=plants) if _is_till_no_day(told):
            return _ask_when(plants if told.every(Plants) else (), plants, told.situation)
        case LosePlant(plants=plants) if told.has(Word.DELETE):
            return asked_off(plants, told.setting.label(plants[0]))
        case LosePlant(plants=plants) if not told.has(Word.LOST):
            return Incomplete(
                missing=Missing.LOST, plants=plants, choices=(Choice(ButtonText.PLANT_LOST, (command,)),)
            )
        case Postpone(plants=plants):
            return replace(command, denied=None if told.days() else _denied(plants, told))
        case _:
            return command


def _denied(plants: tuple[PlantId, ...], told: Mentions) -> Entered | None:
    """Read "i did not spray the lemon": it may be written as done; "not the lemon": anything may be."""
    said = {one.meaning for one in told.items if not isinstance(one.meaning, Plants)}
    denied = any(map(leaves_out, told.items))
    of = Entered(plant=plants[0]) if len(plants) == 1 else Entered(plants=plants)
    if not denied or not plants:
        return None
    if said <= {Word.NOT, Word.FILLER, Word.BREAK}:
        return replace(of, on=told.situation.today) if told.every(Plants) else None
    methods = [one for one in told.methods() if one in told.denied]
    product = next((one.id for one in told.every(Product) if one.id in told.denied), None)
    if not (told.methods() or product or told.has(Word.DONE, Word.DO)):
        return None
    on = None if product else told.situation.today
    method = methods[0] if len(methods) == 1 else None
    return replace(of, kind=Kind.TREATED, on=on, method=method, product=product)


def asked_off(plants: tuple[PlantId, ...], first: str) -> Incomplete:
    """Ask first, for a plant taken off the list is gone from every plan."""
    is_one = len(plants) == 1
    off = ButtonText.TAKE_OFF if is_one else ButtonText.TAKE_THEM_OFF
    taken = Choice(off, (LosePlant(plants),), first if is_one else "")
    keep = Choice(ButtonText.KEEP, (Decline(),))
    return Incomplete(missing=Missing.DELETE, plants=plants, choices=(taken, keep))


def _is_till_no_day(told: Mentions) -> bool:
    """Whether it is put off till nobody says when, and may be skipped: "not yet", "hoya done, orchid not"."""
    is_denied = len(told.items) > 1 and told.items[-1].meaning is Word.NOT
    laters = {item.text for item in told.items if item.meaning is Word.LATER}
    if laters and laters <= _ASKS_TO_BE_TOLD and told.hour(latest=12) is None and told.ahead() is None:
        return True
    return (is_denied or told.has(Word.YET, Word.SKIP)) and told.ahead() is None


def _ask_when(told: tuple[PlantId, ...], plants: tuple[PlantId, ...], situation: Situation) -> Incomplete:
    tomorrow = situation.today + timedelta(days=1)
    evenings = (ButtonText.TOMORROW, ButtonText.IN_TWO_DAYS, ButtonText.IN_THREE_DAYS)
    choices = tuple(
        Choice(text, (Postpone(plants=plants, on=tomorrow + timedelta(days=days)),))
        for days, text in enumerate(evenings)
    )
    return Incomplete(missing=Missing.LATER, plants=told, choices=choices)


def _asked_back(text: str, situation: Situation, guesses: Sequence[Guess]) -> Meant | None:
    """Ask for what one word leaves open: which of several plants, one nobody knows, a day there is not."""
    told = told_in(text, situation)
    idle = sum(one.chance for one in guesses if one.form in SAYS_NOTHING)
    thanks = sum(one.chance for one in guesses if one.form == "thanks")
    if idle >= SURE_FROM and thanks >= CALLED_FROM:
        return (Thanks(),)
    is_day = all(
        one.meaning in {Word.FILLER, Word.LATER} or isinstance(one.meaning, DATES) for one in told.items
    )
    if is_day and (told.days() or told.has(Word.LATER)) and not situation.tonight:
        return (NotUnderstood(text, reason="nothing open"),)
    is_nothing = guesses[0].form in SAYS_NOTHING and guesses[0].chance >= SURE_FROM
    bare = _bare(told, text, is_nothing=is_nothing)
    if bare is not None:
        return (bare,)
    if any(isinstance(item.meaning, OneOf) for item in told.items):
        return _which_of_them(told, text, situation)
    denied = _of_the_denied(told, guesses)
    if denied is not None:
        return denied
    filled = _filled_as_a_question(text, situation, guesses)
    if filled:
        return filled
    if _is_only_ahead(told):
        return (NotUnderstood(text, reason=Trouble.FUTURE.value),)
    forms = [one.form for one in guesses if _heads(one.form) <= _DATED and _heads(one.form)]
    called = (one for one in forms if is_called(one.split("+")[0], told))
    form = next(called, forms[0] if forms else "")
    if (
        not form
        or is_nothing
        or guesses[0].form.startswith("ask.")
        or not (_chance(guesses, form) >= CALLED_FROM or is_called(form.split("+")[0], told))
    ):
        return None
    return _refused(told, text, form) or _which_plant(told, form)


def _filled_as_a_question(text: str, situation: Situation, guesses: Sequence[Guess]) -> Meant | None:
    """Ask what the likeliest form asks, or for what is told twice of one plant."""
    best = next(iter(likely(text, situation, guesses[:1])), None)
    if best is not None and contradict(tuple(whole(best.commands))):
        return (NotUnderstood(text, reason="both"),)
    is_asked = best and not best.left_out and all(isinstance(one, Incomplete) for one in best.commands)
    return best.commands if best and is_asked else None


def _of_the_denied(told: Mentions, guesses: Sequence[Guess]) -> Meant | None:
    """Show what may be written of a treatment that is denied, or put it off; tell what was done instead."""
    plants, on = told.sides()[1] or told.sides()[0], told.behind()
    denied = _denied(plants, told)
    steering = [one for one in told.items if not isinstance(one.meaning, (Plants, *DATES))]
    told_of = [
        one
        for one in steering
        if leaves_out(one)
        or not (is_idle(one.text, "done") or one.meaning in _BESIDE_A_DENIAL or one.text in _USE)
    ]
    behind = list(dropwhile(leaves_out, told_of))
    is_led = bool(told_of) and (
        told_of[0].meaning is Word.NOT or (told_of[0].text == "never" and bool(told.every(Product)))
    )
    is_odd = not is_led or not all(isinstance(one.meaning, Method | Tool | Product) for one in behind)
    named = [plant for one in told.every(Plants) for plant in one.ids]
    is_else = sorted(named) != sorted(plants) or _tells_beside_a_denial(told)
    if denied is None or is_odd or is_else or isinstance(on, Trouble) or shows_otherwise("denied", told):
        return None
    instead = [one for one in told.methods() if one not in told.denied]
    is_of_a_product = bool(told.every(Product))
    is_of_water = is_of_a_product and Method.SPRAY in instead
    is_apart = len(instead) > 1 and len(named) > 1  # "no. hoya rinsed, ivy wiped"
    if is_of_water or is_apart or (instead and _chance(guesses, "done") < SURE_FROM):
        return None  # "no soap on the ivy, just sprayed"
    done = tuple(LogRound(plants=plants, method=one, on=on) for one in instead)
    if on in {None, told.situation.today} and not is_of_a_product:
        ahead = told.ahead()
        till = ahead if isinstance(ahead, date) else told.situation.today + timedelta(days=1)
        return (*done, Postpone(plants=plants, on=till, denied=denied))
    is_state = bool(told.words & {"was", "were"}) and not speaks_of_before(told.items)
    return None if is_state else (*done, DeleteEntry(of=replace(denied, on=on)))


def _tells_beside_a_denial(told: Mentions) -> bool:
    """Whether something is told done beside what is denied, or forbidden: "hoya done orchid not done"."""
    first = next((at for at, one in enumerate(told.items) if leaves_out(one)), 0)
    behind = dropwhile(lambda one: one.meaning is not Word.BREAK, told.items[first:])
    beside = (*told.items[: max(first - 1, 0)], *behind)
    is_forbidden = first > 0 and told.items[first - 1].meaning is Word.DO
    return is_forbidden or any(one.meaning is Word.DONE for one in beside)


_USE = listed("use used any get")
_BESIDE_A_DENIAL = frozenset(
    {Word.FILLER, Word.BREAK, Word.DONE, Word.DO, Word.AND, Word.BOTH, Word.IT, Word.THEM, Word.GOT}
)


_ASKS_TO_BE_TOLD = frozenset({"nudge me", "remind me", "remind us", "ask me", "ask again"})
"""Words that want to hear of it, and do not say when."""


def _is_only_ahead(told: Mentions) -> bool:
    """Whether what is done or seen is told of a day to come: "done tomorrow"."""
    is_one = not told.has(Word.AND, Word.BREAK, Word.BUT) and not is_called("later", told)
    is_past = any(is_called(head, told) for head in ("done", "find", "none"))
    return is_one and is_past and told.behind() is Trouble.FUTURE


_BARE: dict[Word, Command] = {
    Word.STOP: Hold(),
    Word.GONE: Incomplete(missing=Missing.LOST),
    Word.AWAY: Incomplete(missing=Missing.WHEN, text="away"),
    Word.MIX: Incomplete(missing=Missing.AMOUNT, text="volume"),
}


def _bare(  # noqa: C901 - one arm a word
    told: Mentions, text: str, *, is_nothing: bool
) -> Command | None:
    """Ask what a single word leaves open."""
    steering = {item.meaning for item in told.items} - {Word.FILLER, Word.BREAK, Word.IT}
    plants = told.plants()
    if Word.GONE in steering and plants and (Word.BUGS in steering or told.every(Pest)):
        return ask_seen(plants)
    if not is_nothing and leads_to_a_stranger(told):
        return Incomplete(
            missing=Missing.WHICH_PLACE, plants=plants, text=text.rsplit(maxsplit=1)[-1].strip(".!,")
        )
    if told.has(Word.LATER) and told.days() == [Day(told.situation.today)] and told.hour(latest=12) is None:
        return _ask_when(plants, plants or told.setting.tonight(), told.situation)
    set_right = {Word.NOT, Word.MEANT, Word.IT_IS, *told.every((Count, Plants, Pest))}
    if len(told.every(Count)) == _PAIR and steering <= set_right and is_called("correct.count", told):
        right = correct_count(told)
        return right[0] if right else None
    if (
        len(told.strangers()) == 1
        and steering <= {Word.IT_IS, *told.every((Unknown, Warmth, Count))}
        and (told.every(Warmth) or Word.IT_IS in steering)
    ):
        return Incomplete(missing=Missing.UNKNOWN_PLANT, text=told.strangers()[0])
    if Word.MIX in steering and not told.every(Volume) and steering <= {Word.MIX, *told.every(Product)}:
        return _BARE[Word.MIX]
    if Word.DELETE in steering and len(steering) == _PAIR:
        unknown = tuple(_unknown(told.items, told.situation))
        missing = Incomplete(missing=Missing.UNKNOWN_PLANT, text=unknown[0]) if unknown else None
        return asked_off(plants, told.setting.label(plants[0])) if plants else missing
    if steering and steering <= {Word.SKIP, Word.YET} and told.situation.tonight:
        return _ask_when((), told.setting.tonight(), told.situation)
    if steering == {Word.ISOLATE}:
        return Ask(topic=Topic.ISOLATED)
    word = next(iter(steering)) if len(steering) == 1 else None
    if word in {Word.BACK, Word.RESUME}:
        return Hold(told.situation.today)
    return _BARE.get(word) if isinstance(word, Word) else None


def _refused(told: Mentions, text: str, form: str) -> Meant | None:
    """Say that there is no such day, nothing open or no such plant."""
    situation = told.situation
    day = told.ahead() if form in {"later", "hold"} else told.behind()
    if form == "hold" and len(told.days()) > 1 and ROWS[form](told) is None:
        return (NotUnderstood(text, reason="away later"),)
    if isinstance(day, Trouble) and not (day is Trouble.FUTURE and is_called("later", told)):
        return (NotUnderstood(text, reason=day.value),)
    warm = told.one(Warmth) if told.every(Place) else None
    if form == "temperature" and warm and not LEAST_WARM <= warm.celsius <= MOST_WARM:
        return (NotUnderstood(text, reason="temperature"),)
    counts = [one.value for one in told.every(Count)]
    is_count = "find" in form or min(counts, default=0) < 0
    if is_count and told.every(Plants) and any(not 0 <= one <= MOST_COUNTED for one in counts):
        return (NotUnderstood(text, reason="count"),)
    unknown = tuple(_unknown(told.items, situation))
    if len(unknown) == 1 and (unknown[0] in situation.kinds or not told.every(Plants)):
        return (Incomplete(missing=Missing.UNKNOWN_PLANT, text=unknown[0]),)
    is_bare = not told.every((Plants, Place)) and all(is_idle(one, form) for one in told.strangers())
    open_now = told.setting.treatments() if form == "done" else situation.tonight
    if form in {"done", "later"} and not open_now and is_bare:
        return (NotUnderstood(text, reason="nothing open"),)
    return None


def _which_plant(told: Mentions, form: str) -> Meant | None:
    """Ask for the plant that alone is missing: "webbing", "moved it to the landing"."""
    setting = told.setting
    if form == "done" and told.excepts():
        left = tuple(plant for plant in setting.treatments() if plant not in told.sides()[1])
        if not left:
            return (NotUnderstood("done", reason="nothing open"),)
        return _each_of(left, (LogRound(plants=left[:1]),), "done", setting)
    plants = unique((*setting.tonight(), *(plant.id for plant in told.situation.plants)))[:_MOST_CHOICES]
    if not plants or (told.every((Plants, Place)) and form != "move") or form not in ROWS:
        return None
    if form == "find" and not (told.every(Pest) or told.has(Word.BUGS, Word.SAW)):
        return None
    there = Mentions((*told.items, Item(Plants(plants[:1]), "it")), setting)
    meant = ROWS[form](there) or ()
    if not meant or set(plants_of(meant)) != {plants[0]} or left_over((Part(form, there, meant),), ()) != ():
        return None
    if isinstance(meant[0], Correct):
        return (replace(meant[0], plant=None),)  # of all that was told last
    described = setting.described()
    if form == "find" and described:
        return ROWS[form](Mentions((*told.items, Item(Plants(described), "it")), setting)) or None
    return _each_of(plants, meant, " ".join(item.text for item in told.items), setting)


def _each_of(plants: tuple[PlantId, ...], meant: Meant, text: str, setting: Setting) -> Meant:
    """Offer what was told of the first plant for each of them."""
    told = {plant: tuple(_of_another(one, plants[0], plant) for one in meant) for plant in plants}
    choices = tuple(Choice(ButtonText.NAMED, told[plant], setting.label(plant)) for plant in plants)
    return (Incomplete(missing=Missing.WHICH_PLANT, text=text, choices=choices),)


def _unknown(items: tuple[Item, ...], situation: Situation) -> Iterator[str]:
    """Give words nobody knows that stand as a plant's name does."""
    is_alone = sum(item.meaning is not Word.FILLER for item in items) == _PAIR
    for before, item, behind in zip((Item(Word.FILLER, ""), *items), items, (*items[1:], None), strict=False):
        if behind is not None and isinstance(behind.meaning, Spot | Product):
            continue  # "the top soil" is no plant
        is_led = is_alone or before.text in {"the", "my", "our"} or item.text in situation.kinds
        if isinstance(item.meaning, Unknown) and is_led and item.text not in NO_PLANTS:
            yield item.text


def _which_of_them(told: Mentions, text: str, situation: Situation) -> Meant | None:
    """Offer each plant the name may stand for, with all that the message would then do."""
    unclear = {item.text: item for item in told.items if isinstance(item.meaning, OneOf)}
    item = next(iter(unclear.values()))
    if len(unclear) > 1:
        return (NotUnderstood(item.text, reason="which plant"),)
    setting = Setting(situation)
    ids = item.meaning.ids[:_MOST_CHOICES] if isinstance(item.meaning, OneOf) else ()
    said = text.lower().replace(item.text, setting.label(ids[0]), 1)
    meant = surely(said, situation)
    if any(isinstance(one, Incomplete) for one in meant) or ids[0] not in plants_of(meant):
        return None
    return _each_of(ids, meant, item.text, setting)


def _of_another(command: Command, one: PlantId, other: PlantId) -> Command:
    plants = unique(other if each == one else each for each in plants_of((command,)))
    is_of_several = bool(plants) and hasattr(command, "plants")
    return replace(command, plants=plants) if is_of_several else command  # type: ignore[call-arg]


def read_arrival(text: str, situation: Situation) -> Meant | None:
    """Read "got a new orchid": which plant it is and where it stands is asked."""
    items = spotted(text, situation)
    meanings = [item.meaning for item in items if item.meaning is not Word.FILLER]
    if (
        Word.NEW not in meanings[:2]
        or meanings[0] not in {Word.NEW, Word.GOT, Word.SAW}
        or Word.NOT in meanings
    ):
        return None
    if any(isinstance(meaning, Spot) for meaning in meanings):
        return None
    behind = items[[item.meaning for item in items].index(Word.NEW) + 1 :]
    named = takewhile(lambda item: not frozenset(item.text.split()) & _BEHIND_A_NAME, behind)
    kind = " ".join(item.text for item in named if not isinstance(item.meaning, Day))
    return (Incomplete(missing=Missing.ADD, text=kind),) if kind else None


def contradict(commands: Sequence[Command]) -> bool:
    """Whether one plant is told to be both done and put off, or both clean and not; a part may be done."""
    whole_ones = (one for one in commands if isinstance(one, LogRound) and one.method is None)
    done = {plant for one in whole_ones for plant in one.plants}
    off = set(plants_of(c for c in commands if isinstance(c, Postpone)))
    none = {p for c in commands if isinstance(c, LogCheck) for p in c.plants}
    seen = {p for c in commands if isinstance(c, LogFind) for p in c.plants}
    return bool(done & off or none & seen) or _counts_twice(commands)


def _counts_twice(commands: Sequence[Command]) -> bool:
    """Tell whether one plant is told two numbers of the same animals: "hoya 3 and 2"."""
    finds = [command for command in commands if isinstance(command, LogFind)]
    told = [(plant, find.pest, find.where) for find in finds for plant in find.plants]
    return len(told) != len(set(told))
