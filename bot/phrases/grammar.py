"""From a message to commands: deterministic, strict, and never a write that was not told."""

import re
from typing import TypeGuard

from bot.actions.action import ButtonText, Choice, Command, Expecting
from bot.actions.add_plants import AddPlants
from bot.actions.ask import Ask, Topic
from bot.actions.begin_talk import BeginTalk
from bot.actions.courtesy import Greet, Help, Thanks
from bot.actions.export import Export
from bot.actions.forget import Forget
from bot.actions.give_first_aid import GiveFirstAid
from bot.actions.hold import Hold
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.keep_status import SetStatus
from bot.actions.log_round import LogRound
from bot.actions.mix_batch import Mix
from bot.actions.not_understood import NotUnderstood
from bot.actions.postpone import Postpone
from bot.actions.read_temperature import ReadTemperature
from bot.actions.set_hours import SetHours
from bot.actions.set_place import SetPlace
from bot.actions.set_repeats import SetRepeats
from bot.actions.set_routine import SetRoutine
from bot.actions.set_strict import SetStrict
from bot.actions.set_town import SetCoordinates, SetTown
from bot.actions.set_units import SetUnits
from bot.actions.share import Invite, Leave
from bot.actions.situation import Situation
from bot.actions.skip_question import SkipQuestion
from bot.actions.stock_product import StockProduct
from bot.actions.tell_privacy import TellPrivacy
from bot.actions.undo import Undo
from bot.actions.walk_through import BeginWalk
from bot.domain.agenda import CHECK_ROUTINE
from bot.domain.identity import PlantId
from bot.domain.measure import Units
from bot.domain.value import replace
from bot.phrases.answering import asks_of_eating, evenings_asked_for, read_answer, read_ticks, read_why
from bot.phrases.asking import Meant
from bot.phrases.bottles import read_bottle, read_goods, read_recipe, read_tools
from bot.phrases.counting import read_leaf
from bot.phrases.days import Clock, Every, Weekday
from bot.phrases.forms.filling import hours_evening, later, quiet, routine
from bot.phrases.homes import read_facets, read_place, read_places, read_town
from bot.phrases.hurrying import SPOKEN as HURRYING_WORDS
from bot.phrases.hurrying import read_hurry
from bot.phrases.identifying import read_identification
from bot.phrases.items import items_of
from bot.phrases.labels import is_said_burnt, read_animals, read_burnt, read_months, read_traits
from bot.phrases.lamps import read_lamp
from bot.phrases.lexicon import JOINS, Word, any_of, is_made_of, listed, phrases_of, sayings, words_in
from bot.phrases.light import SPOKEN as PLACE_WORDS
from bot.phrases.lists import Listed, read_list, read_news, read_told
from bot.phrases.looking_up import read_follow_up, read_lookup
from bot.phrases.mentions import Mentions
from bot.phrases.names import Place, Plants, Product
from bot.phrases.numbers import Count
from bot.phrases.offering import told_in
from bot.phrases.putting_right import read_putting_right
from bot.phrases.questions import ASKING, answers_itself, beyond, is_question, read_nouns
from bot.phrases.rates import read_bad_rate
from bot.phrases.renaming import read_renaming
from bot.phrases.setting import TIMES, Setting, unique
from bot.phrases.setup import (
    read_coordinates,
    read_expected_town,
    read_repeats,
)
from bot.phrases.sharing import SPOKEN as SHARING_WORDS
from bot.phrases.sharing import read_sharing
from bot.phrases.spotting import spotted
from bot.phrases.taking import read_taking
from bot.phrases.telling import contradict, read_arrival, tell
from bot.phrases.text import LONGEST, is_signed, is_thumb_up, plain, tidy, words_of
from bot.phrases.walking import SPOKEN as WALKING_WORDS
from bot.phrases.walking import read_walk
from bot.phrases.working import SPOKEN as WORKING_WORDS
from bot.phrases.working import read_tick, read_work

LONGEST_LIST = 4096
_LINES_OF_A_LIST = 5
_LIST_OPENINGS = ("add", "new plant", "plants", "my plants")

_SAID: tuple[tuple[Command, str], ...] = (
    (Undo(), "undo | oops | undo that | take that back | undo it | take it back | revert | scratch that"),
    (Undo(), "undo please | undo last | undo the last one"),
    (Thanks(), "thanks | thank you | thx | ty | cheers | thanks a lot | many thanks | thank you very much"),
    (Thanks(), "thank you so much | great thanks | ok thanks | well done | good job | nice | great"),
    (Greet(), "hi | hello | hey | good morning | good evening | good afternoon | hi there | hello there"),
    (Greet(is_farewell=True), "good night | goodnight | bye | goodbye | good bye | see you | night"),
    (Greet(is_farewell=True), "sleep well"),
    (Help(), "help | help me | commands | what can i say | i need help | i need some help | need help"),
    (Help(), "menu | i am lost | i do not get it | i do not understand"),
    (Ask(topic=Topic.PLANTS), "plants | list | list plants | my plants | all my plants"),
    (SetStrict(is_strict=True), "strict | strict mode | be strict | strict on | strict mode on"),
    (SetStrict(is_strict=False), "not strict | strict off | strict mode off | usual rule"),
    (Invite(), "invite | share | invite somebody | invite someone | invite my partner"),
    (SetStatus(is_wanted=True), "pin a status | pin status | pin the status | status message"),
    (SetStatus(is_wanted=True), "keep a status"),
    (SetStatus(is_wanted=False), "no status | unpin | unpin the status | unpin status"),
    (SetRepeats(is_wanted=False), "once is enough | one message is enough | do not remind me twice"),
    (SetRepeats(is_wanted=False), "dont remind me twice | stop writing twice | no second message"),
    (SetRepeats(is_wanted=False), "once an evening is enough | just once an evening"),
    (SetRepeats(is_wanted=True), "remind me twice | twice is fine | write twice again"),
    (SetRepeats(is_wanted=True), "a second message again"),
    (
        SetRoutine(CHECK_ROUTINE, ""),
        "stop checks | stop checking | stop the checks | no more checks | no checks",
    ),
    (SetRoutine(CHECK_ROUTINE, ""), "stop the weekly check | no weekly check | stop weekly checks"),
    (SetRoutine(CHECK_ROUTINE, ""), "cancel the weekly check | no more weekly checks | stop weekly check"),
    (SetRoutine(CHECK_ROUTINE, ""), "end the habit | stop the habit | stop my routine | no routine"),
    (SetRoutine(CHECK_ROUTINE, ""), "forget the routine | stop the routine | end the routine"),
    (Ask(topic=Topic.ROUTINES), "routine | routines | habit | habits | my routines | my habits | schedule"),
    (TellPrivacy(), "privacy | what do you keep | what do you store | what do you know about me"),
    (Leave(), "leave | leave household | leave the household | leave this household"),
    (SetUnits(Units.METRIC), "metric | metric units | metric measures | use metric | use metric units"),
    (SetUnits(Units.METRIC), "millilitres | celsius"),
    (SetUnits(Units.US), "us units | us measures | use us units | use us measures | american units"),
    (SetUnits(Units.US), "american measures | fahrenheit | use fahrenheit | use american units"),
    (SetUnits(Units.IMPERIAL), "imperial | imperial units | imperial measures | use imperial"),
    (SetUnits(Units.IMPERIAL), "use imperial units | uk units"),
    (SetUnits(clock_hours=12), "12 hour clock | 12 - hour clock | use am pm | am pm | am / pm | use am / pm"),
    (SetUnits(clock_hours=12), "12 h | 12 hours"),
    (SetUnits(clock_hours=24), "24 hour clock | 24 - hour clock | 24 h | 24 hours | use 24 hour clock"),
    (SetUnits(clock_hours=24), "military time"),
    (Ask(topic=Topic.SAFETY, in_full=True), "safety | safety rules | show safety | what to mind"),
    (Ask(topic=Topic.SETTINGS), "settings | setup | my settings"),
    (Ask(topic=Topic.WHY), "why | why so"),
    (Ask(topic=Topic.WHY, in_full=True), "more | why more | explain more | why in full | sources | the sums"),
    (Ask(topic=Topic.WHY, in_full=True), "more why"),
    (Mix(volume_ml=None, is_for_tonight=True, in_full=True), "why this much | why so much | why that much"),
    (Mix(volume_ml=None, is_for_tonight=True, in_full=True), "why so little | why this amount"),
    (Mix(volume_ml=None, is_for_tonight=True, in_full=True), "why that amount | why this mix"),
    (Mix(volume_ml=None, is_for_tonight=True, in_full=True), "why this mixture"),
    (Ask(topic=Topic.DUE), "summary | overview | any news | how are things | what now | due | due now"),
    (Ask(topic=Topic.DUE), "to do | todo | plan | the plan | doing it now | on it | doing it | starting now"),
    (Ask(topic=Topic.DUE), "working on it | i am on it | going now | forgot | i forgot | forgot yesterday"),
    (Ask(topic=Topic.DUE), "i forgot yesterday | missed it | i missed it | missed yesterday"),
    (Ask(topic=Topic.DUE), "i missed yesterday"),
)
_STRONG = {said: command for command, row in _SAID for said in sayings(row)}
SPOKEN = frozenset().union(
    words_in(_STRONG),
    ASKING,
    PLACE_WORDS,
    SHARING_WORDS,
    WALKING_WORDS,
    WORKING_WORDS,
    HURRYING_WORDS,
)
"""Words known besides those the clauses are made of."""
_SLASHED: dict[str, Command] = {
    "/help": Help(),
    "/settings": Ask(topic=Topic.SETTINGS),
    "/plants": Ask(topic=Topic.PLANTS),
    "/due": Ask(topic=Topic.DUE),
    "/isolated": Ask(topic=Topic.ISOLATED),
    "/why": Ask(topic=Topic.WHY),
    "/undo": Undo(),
    "/stop": Hold(),
    "/log": Ask(topic=Topic.LOG),
    "/stock": Ask(topic=Topic.STOCK),
    "/trend": Ask(topic=Topic.TREND),
    "/export": Export(),
    "/walk": BeginWalk(),
    "/forget": Forget(),
}
SLASHED = frozenset(_SLASHED) | {"/start"}
"""Commands of a meaning of their own; of any other the slash is dropped."""
_OF_A_HOME = frozenset({Expecting.TOWN, Expecting.PLANTS, Expecting.WHERE})
_SKIPPABLE = _OF_A_HOME | {Expecting.PLACE, Expecting.EVENING, Expecting.QUIET}
_SKIPS = any_of(
    "skip | skip it | skip this | skip that | later | not now | pass | next | no | maybe later | skip for now"
)
_DO_NOT_KNOW = frozenset({"i do not know", "do not know", "no idea", "dunno"})
_TALK = ("greeting", "farewell", "waiting", "nod")
_OF_HOURS = re.compile(
    r"(?:(?P<quiet>(?:quiet(?: hours)?|silent|do not disturb)\b)|(?P<evening>(?:(?:set )?evening(?: time)?"
    r"|(?:nudges?|write|message)(?: me| us)?(?: daily| time)?)\b))?(?: at\b| to\b)?[ :]*(?:from|between)?\b"
)
_LOOKING = listed("check inspect walk look over plants everything")
_OF_A_HABIT = frozenset({Word.FILLER, Word.ALL, Word.AND, Word.BREAK, Word.THEM})
_BETWEEN_HOURS = frozenset({Word.FILLER, Word.FILL_TO, Word.UNTIL, Word.AND, Word.BREAK})
_LONGEST_TOWN = 8
_LONGEST_LONE_NAME = 4
_NOT_OF_A_TOWN = listed("i me you your we our it not what why how do does did are have has want please")
_NOUNS_OF_ASKING = listed(
    "photos photo pictures picture due history log trend chart graph status stock shelf"
)
_PLAIN_ELSEWHERE = (StockProduct, ReadTemperature, Hold, Thanks, Greet)
"""What neither a town nor a plant could be called."""
_SENTENCE_END = re.compile(r"(?<=[.!?])\s+|\n+")
_MOST_SENTENCES = 12
_DISH_SOAP = frozenset({"dish", "dishwashing", "washing", "laundry", "household"})
_PAST_A_QUESTION = (Undo, Help, GiveFirstAid, Ask, BeginTalk, SetHours, SetPlace, AddPlants)


def understand_surely(text: str, situation: Situation) -> Meant:
    """
    Read what can be read to its last word, at least one command.

    Several clauses are all understood or none is written; a question never writes; what is not understood
    to its last word writes nothing.
    """
    if len(text) > _longest(text, situation):
        return (NotUnderstood(text[:LONGEST], reason="too long"),)
    words = words_of(plain(text))
    if not any(word[:1].isalnum() for word in words) and "?" not in words:
        return _by_sign(text, situation)
    meant = _by_sentences(text, situation) or _read(text, words, situation)
    if not _is_clear(meant) and _ticks_off(text, words, situation):
        signed = _read(" ".join((*words, "done")), (*words, "done"), situation)
        meant = signed if _is_clear(signed) else meant
    meant = _without_greetings(meant)
    asked = meant[0] if len(meant) == 1 else None
    is_lost = isinstance(asked, NotUnderstood) and asked.reason in LOST
    is_usual = isinstance(asked, Ask) and asked.topic in {Topic.DUE, Topic.ISOLATED, Topic.PLANTS}
    return (read_follow_up(words, situation) if is_lost or is_usual else None) or meant


def _ticks_off(text: str, words: tuple[str, ...], situation: Situation) -> bool:
    """Tell whether a sign means "done", as a tick behind "orchid and coffee": what is ticked is named."""
    if not is_signed(text) or frozenset(words) & {"done", "?"}:
        return False
    meanings = [item.meaning for item in items_of(words, situation)]
    return any(
        isinstance(one, (Place, Plants)) or one in {Word.ALL, Word.BOTH, Word.REST} for one in meanings
    )


def _is_clear(meant: Meant) -> bool:
    return not any(
        (isinstance(one, NotUnderstood) and one.reason != "wait") or _is_of_a_stranger(one) for one in meant
    )


def _is_of_a_stranger(command: Command) -> TypeGuard[Incomplete]:
    """Whether it names a plant nobody knows."""
    return isinstance(command, Incomplete) and command.missing is Missing.UNKNOWN_PLANT


def _without_greetings(meant: Meant) -> Meant:
    """Leave a greeting out where more was said."""
    told = tuple(one for one in meant if not isinstance(one, Greet))
    return told or meant


def _by_sentences(text: str, situation: Situation) -> Meant | None:
    """Read what is told and what is asked in one message each by itself; None where any is not understood."""
    sentences = [
        one.strip() for one in _SENTENCE_END.split(text.strip()) if words_of(plain(one.strip(" .!")))
    ]
    asked = [one.endswith("?") for one in sentences]
    if len(sentences) > _MOST_SENTENCES or not any(asked) or all(asked):
        return None
    read = [_read(one, words_of(plain(one)), situation) for one in sentences]
    if answers_itself(asked, read):
        return (NotUnderstood(text),)
    told = [command for one in read for command in one]
    unclear = next((one for one in told if isinstance(one, NotUnderstood)), None)
    if unclear is not None:
        return (unclear,)
    is_list = any(isinstance(one, AddPlants) for one in told)
    open_ends = sum(isinstance(one, Incomplete) for one in told)
    return (
        None
        if is_list or is_day(sentences[0], situation) or open_ends > 1 or contradict(told)
        else tuple(dict.fromkeys(told))
    )


def is_day(text: str, situation: Situation) -> bool:
    """Whether only a day is named, as in front of what is asked: "Sunday evening. How do I wash it?"."""
    items = spotted(text, situation)
    return all(one.meaning in JOINS or isinstance(one.meaning, TIMES) for one in items)


def plants_named(text: str, situation: Situation) -> tuple[PlantId, ...]:
    """Give the plants a text names for sure, in order."""
    items = items_of(words_of(plain(text))[:LONGEST], situation)
    return unique(plant for item in items if isinstance(item.meaning, Plants) for plant in item.meaning.ids)


def _read(text: str, words: tuple[str, ...], situation: Situation) -> Meant:
    shared = read_sharing(text, words)
    if shared is not None:
        return shared
    of_a_label = read_answer(text, words, situation) if asks_of_eating(situation) else None
    if of_a_label is not None:
        return of_a_label
    reason = read_why(words, situation.choices)
    if reason is not None:
        return reason
    renamed = (
        read_renaming(text, words, situation)
        or read_hurry(words)
        or read_taking(words, situation)
        or read_putting_right(words, situation)
    )
    if renamed is not None:
        return renamed
    strong = _strong(text, words)
    if strong is not None:
        return (strong,)
    return (
        read_tick(words, situation)
        or read_ticks(words, situation)
        or read_walk(words, situation)
        or read_answer(text, words, situation)
        or _till_when(words, situation)
        or _expected(text, words, situation)
        or _of_today(words)
        or _anything(text, words, situation)
    )


def _of_today(words: tuple[str, ...]) -> Meant | None:
    """Read no more than this evening's name as a question for what is due: it puts nothing off."""
    said = frozenset(words)
    return (Ask(topic=Topic.DUE),) if said & _TODAY and said <= _AROUND_TODAY else None


_TODAY = listed("tonight today evening")
_AROUND_TODAY = _TODAY | listed("this the for so and then what about ok now - . , ! ?")


def _longest(text: str, situation: Situation) -> int:
    is_list = situation.expecting is Expecting.PLANTS or plain(text[:LONGEST]).startswith(_LIST_OPENINGS)
    is_list = is_list or text.count("\n") >= _LINES_OF_A_LIST
    return LONGEST_LIST if is_list else LONGEST


def _by_sign(text: str, situation: Situation) -> Meant:
    if not is_thumb_up(text):
        return (NotUnderstood(text),)
    return tell("done", situation)


def _strong(text: str, words: tuple[str, ...]) -> Command | None:
    typed = plain(text)
    if typed.startswith("/"):
        return _slashed(text)
    said = [word for word in words if word not in {".", "!", ",", "?"}]
    command = _STRONG.get(" ".join(said)) or (_STRONG.get(" ".join(said[1:])) if said[:1] in _NODS else None)
    return command if "?" not in words or isinstance(command, Ask | Mix | Help) else None


LOST = frozenset({"", "town", "plants", "asked"})
"""Reasons of what is not understood, in whose place what may follow on what was said is answered."""
_NODS = (["thanks"], ["ok"], ["okay"], ["great"], ["right"])


def _slashed(text: str) -> Command | None:
    name, _, payload = text.strip().partition(" ")
    name = name.partition("@")[0].lower()
    if name == "/start":
        return BeginTalk(payload.strip())
    return _SLASHED.get(name) if not payload.strip() else None


def _till_when(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read "at 9 pm", "2 days" where it is asked till when something is put off."""
    asked = evenings_asked_for(words, situation)
    if asked is None:
        return None
    for lead in ("later", "later in") if words[0] != "later" else ():
        told = Mentions(spotted(" ".join((lead, *words)), situation), Setting(situation, before=asked.plants))
        until = told.ahead() or told.hour(latest=12)
        meant = later(told) if until else None
        if meant and isinstance(meant[0], Postpone):
            return (Postpone(plants=asked.plants, on=meant[0].on, at=meant[0].at),)
    return None


def _passing(text: str, words: tuple[str, ...]) -> Meant | None:
    """Take a greeting, a nod, a word of waiting for what it is: no town and no plant."""
    if text.strip() == "Nice":
        return None  # the town; "nice" is a nod
    if not is_made_of(words, phrases_of("talk", *_TALK)):
        waits = any(words[:size] in phrases_of("talk", "waiting") for size in range(2, 5))
        waits = waits or words[:2] == ("wait", ",")
        return (NotUnderstood(text, reason="wait"),) if waits and len(words) <= _LONGEST_TOWN else None
    if is_made_of(words, phrases_of("talk", "farewell", "nod")) and is_made_of(
        words[:2], phrases_of("talk", "farewell")
    ):
        return (Greet(is_farewell=True),)
    is_greeting = any(words[:size] in phrases_of("talk", "greeting") for size in (1, 2))
    return (Greet(),) if is_greeting else (NotUnderstood(text, reason="wait"),)


def _expected(text: str, words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read what the open question waits for."""
    said, expecting = " ".join(words), situation.expecting
    is_unknown = said in _DO_NOT_KNOW and expecting in _OF_A_HOME
    if is_unknown or (expecting in _SKIPPABLE and said in _SKIPS):
        return (SkipQuestion(),)
    passing = _passing(text, words) if situation.expecting in _SKIPPABLE else None
    if passing is not None:
        return passing
    match situation.expecting:
        case Expecting.TOWN:
            return _town(text, words, situation)
        case Expecting.EVENING | Expecting.QUIET:
            return _wrapped(read_repeats(words)) or _hours(text, situation)
        case Expecting.PLACE:
            return _wrapped(_of_the_place_asked(read_facets(text, situation), situation))
        case Expecting.PLANTS:
            return _plant_list(text, words, situation)
        case _:
            return None


def _of_the_place_asked(told: Command | None, situation: Situation) -> Command | None:
    """Give an answer without a name to the place that the question is about."""
    asked = [one for choice in situation.choices for one in choice.commands if isinstance(one, SetPlace)]
    if not isinstance(told, SetPlace) or told.name or not asked:
        return told
    return replace(told, name=asked[0].name, place_id=asked[0].place_id)


def _hours(text: str, situation: Situation) -> Meant | None:
    """Read "nudge me at 20:30", "quiet from 10 pm to 8"; bare times when that was asked."""
    said, expecting = plain(text), situation.expecting
    opening = _OF_HOURS.match(said)
    if opening is None or not (opening.lastgroup or expecting in {Expecting.EVENING, Expecting.QUIET}):
        return None
    is_quiet = bool(opening["quiet"]) or (expecting is Expecting.QUIET and not opening["evening"])
    told = told_in(said[opening.end() :], situation)
    others = [one for one in told.items if not isinstance(one.meaning, Clock | Count)]
    is_bare = all(one.meaning in _BETWEEN_HOURS for one in others)
    if not is_bare or len(told.items) - len(others) != 1 + is_quiet:
        return None
    return quiet(told) if is_quiet else hours_evening(told)


def _habit(text: str, words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read "walk at weekends", "inspect on the 15th of each month": a habit of looking and no more."""
    if _LOOKING.isdisjoint(words):
        return None
    told = told_in(text, situation)
    others = [one for one in told.items if not isinstance(one.meaning, Every | Weekday)]
    is_bare = all(one.meaning in _OF_A_HABIT or one.text in _LOOKING for one in others)
    is_of_looks = bool(others) and others[0].text in _LOOKING
    return routine(told) if is_bare and is_of_looks and told.every(Every) else None


def _wrapped(command: Command | None) -> Meant | None:
    return None if command is None else (command,)


def _town(text: str, words: tuple[str, ...], situation: Situation) -> Meant | None:
    told = read_coordinates(text, is_asked=True) or read_town(text, situation)
    if told is not None:
        return (told,)
    is_list = "\n" in text.strip() and "," in text
    listed_plants = read_list(text, situation, is_expected=is_list)
    if listed_plants is not None and (is_list or listed_plants.then or len(listed_plants.plants) > 1):
        return listed_plants.commands()
    if "?" in words or "\n" in words or is_question(words):
        return None
    meant = _anything(text, words, situation)
    is_other = all(isinstance(command, (*_PAST_A_QUESTION, *_PLAIN_ELSEWHERE)) for command in meant)
    if is_other:
        return meant
    town = read_expected_town(text)
    return (town,) if _could_be_a_town(town.text) else (NotUnderstood(text, reason="town"),)


def _could_be_a_town(text: str) -> bool:
    """Whether it has a town's length and nobody who speaks: "i do not want to say" is none."""
    words = words_of(plain(text))
    return 0 < len(words) <= _LONGEST_TOWN and not frozenset(words) & _NOT_OF_A_TOWN


def _plant_list(text: str, words: tuple[str, ...], situation: Situation) -> Meant | None:
    meant = _anything(text[:LONGEST], words, situation) if len(text) <= LONGEST else ()
    passes: tuple[type[Command], ...] = (*_PAST_A_QUESTION, *_PLAIN_ELSEWHERE, SetTown, SetCoordinates)
    if len(words) > 1:
        passes = (*passes, LogRound)
    if meant and all(isinstance(command, passes) for command in meant):
        return meant
    items = items_of(words, situation)
    is_asked = "?" in words or (is_question(words) and words[0] not in _NOUNS_OF_ASKING)
    if is_asked and meant and not any(isinstance(one, AddPlants) for one in meant):
        return meant
    if all(isinstance(item.meaning, Word) for item in items) or is_asked:
        return (NotUnderstood(text, reason="plants"),)
    told = read_list(text, situation, is_expected=True)
    if told is None:
        return read_places(text, situation) or (NotUnderstood(text, reason="plants"),)
    # a name that is no kind of plant may be anything: "good night, sweet dreams"
    is_a_name = (
        len(words) <= _LONGEST_LONE_NAME
        and len(told.plants) == 1
        and told.plants[0].name[:1].isupper()
        and not told.plants[0].place
    )
    is_sure = told.is_known or is_a_name or "\n" in text.strip()
    return told.commands() if is_sure else (_ask_whether_new(told),)


def _anything(text: str, words: tuple[str, ...], situation: Situation) -> Meant:
    looked_up = read_lookup(words, situation)
    if looked_up is not None:
        return looked_up
    # "fern, shelf, 12 cm" is a plant at a place, though "shelf" alone asks
    asks = is_question(words, situation) and ("?" in words or read_told(text, situation) is None)
    whole = None if asks else _whole_message(text, words, situation)
    whole = whole or _seen_or_mixed(words, situation, asks=asks)
    if whole is not None:
        return whole
    if asks:
        return read_nouns(words, Setting(situation)) or (beyond(text, situation),)
    meant = tell(text, situation)
    news = None if _is_clear(meant) else read_news(text, situation)
    if news is None:
        return meant if _is_clear(meant) else read_arrival(text, situation) or meant
    is_first = not situation.plants and news.is_known and not news.left_out
    return news.commands() if is_first else (_ask_whether_new(news),)


def _whole_message(text: str, words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read what is told in one piece: the setting-up, a plant list, a work day, a label, animals."""
    told = read_town(text, situation) or read_coordinates(text) or read_repeats(words)
    told = told or read_place(text, situation) or read_lamp(text, situation)
    if told is not None:
        return (told,)
    places = read_places(text, situation)
    if places is not None:
        return places
    plants = read_told(text, situation)
    if plants is not None:
        return plants.commands(is_sure=tidy(text).lower().startswith(_LIST_OPENINGS))
    return (
        _hours(text, situation)
        or read_work(words, situation)
        or _habit(text, words, situation)
        or read_animals(words)
        or (read_burnt(words, situation) if is_said_burnt(words) else None)
        or read_traits(words, situation)
        or read_months(words, situation)
        or read_tools(words, situation)
        or read_goods(words, situation)
        or read_leaf(words)
        or read_bottle(words, situation)
        or _wrapped(read_bad_rate(words))
    )


def _seen_or_mixed(words: tuple[str, ...], situation: Situation, *, asks: bool) -> Meant | None:
    """Read what may be asked or told: ants, something nobody has named, a mixture."""
    if frozenset(words) & {"ants", "ant"} and "plant" not in words:
        return (Ask(topic=Topic.ANTS),)
    if _DISH_SOAP & frozenset(words) and frozenset(words) & {"soap", "detergent", "liquid"}:
        told = told_in(" ".join(words), situation)
        has_more = "?" not in words and told.has(Word.GOT)
        others = {one.ingredient for one in told.every(Product)} - {None, "soap"} if has_more else set()
        return (
            Ask(topic=Topic.DISH_SOAP),
            *(StockProduct(ingredient=one) for one in sorted(filter(None, others))),
        )
    unnamed = read_identification(words, situation)
    if unnamed is not None:
        return unnamed
    recipe = read_recipe(tuple(word for word in words if word != "?"), situation)
    is_harmless = recipe is not None and all(isinstance(one, Mix | Incomplete) for one in recipe)
    return recipe if is_harmless or not asks else None


def _ask_whether_new(told: Listed) -> Incomplete:
    text = "; ".join(", ".join(filter(None, (one.name, one.place))) for one in told.plants)
    is_one = len(told.plants) == 1
    button = ButtonText.ADD if is_one else ButtonText.ADD_PLANTS
    add = Choice(button, told.commands(), told.plants[0].name if is_one else str(len(told.plants)))
    return Incomplete(missing=Missing.ADD, text=text, choices=(add,))
