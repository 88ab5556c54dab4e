"""The one door: a message and its situation read into what is sure, what is likely and what is lost."""

import re
from collections.abc import Iterator
from datetime import timedelta
from functools import lru_cache
from itertools import islice

from bot.actions.action import ButtonText, Choice, Command, Expecting
from bot.actions.add_plants import AddPlants
from bot.actions.ask import OF_WORK, Ask, Topic
from bot.actions.courtesy import Greet, Help, Thanks
from bot.actions.decline import Decline
from bot.actions.describe_pest import DescribePest
from bot.actions.explain_term import AskTerm
from bot.actions.give_first_aid import GiveFirstAid
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
from bot.actions.not_understood import NotThat, NotUnderstood
from bot.actions.postpone import Postpone
from bot.actions.read_anew import ReadAnew, Subject
from bot.actions.release_plant import ReleasePlant
from bot.actions.remove_place import RemovePlace
from bot.actions.rename import Rename
from bot.actions.set_place import SetPlace
from bot.actions.set_town import SetTown, is_meant
from bot.actions.situation import Situation
from bot.actions.skip_question import SkipQuestion
from bot.actions.stock_product import StockProduct
from bot.actions.tell_how import AskHow
from bot.actions.walk_through import EndWalk, PassPlant
from bot.actions.work_through import EndWork, TickWork
from bot.catalogue.towns import find_towns
from bot.domain.identity import PlaceId, PlantId
from bot.domain.trade import Method
from bot.domain.value import Value, replace
from bot.phrases.answering import read_answer, read_ticks
from bot.phrases.doings import read_doings
from bot.phrases.doubting import is_doubtful, is_list_of_strangers
from bot.phrases.emergencies import Alarm, alarm, hear_emergency
from bot.phrases.forms.rows import ROWS, SAYS_NOTHING, forms_of, subject_of
from bot.phrases.grammar import LOST, SPOKEN, understand_surely
from bot.phrases.guess import Guess, rank
from bot.phrases.home_words import ARTICLES, ROOMS, SORTS, names_a_kind, words_of_kinds
from bot.phrases.homes import NOTHING_OF_IT, TREATED, Home, read_home, read_move, read_standing
from bot.phrases.items import Unknown, items_of
from bot.phrases.kept import kept
from bot.phrases.labels import is_said_burnt, read_burnt
from bot.phrases.lexicon import (
    KNOWN,
    Word,
    is_made_of,
    is_ordinary,
    listed,
    phrases_of,
    words_in,
    words_of_class,
)
from bot.phrases.looking_up import read_follow_up
from bot.phrases.mentions import NO_PLANTS
from bot.phrases.names import Plants, Product
from bot.phrases.notation import notation
from bot.phrases.numbers import Count
from bot.phrases.offered_homes import offered_home, things_of, without
from bot.phrases.offering import Likely, likely, told_in
from bot.phrases.putting_home_right import put_right
from bot.phrases.questions import (
    FEWEST_DOUBTED,
    LEAST_ASKED,
    OPEN_QUESTIONS,
    asked_by,
    asks_inside,
    asks_unmarked,
    asks_wholly,
    is_one_strange_word,
    is_plain_question,
    is_question,
    led_in,
    likely_asked,
    opens_a_question,
    unled,
)
from bot.phrases.saying import say_all
from bot.phrases.setting import Setting, unique
from bot.phrases.slips import mended
from bot.phrases.spotting import spotted, with_names
from bot.phrases.telling import asked_off, contradict, surely
from bot.phrases.text import LONGEST, plain, words_of
from bot.phrases.unreal import is_unreal
from bot.phrases.values import plants_of

LEAST_FORM = 0.3
"""Below it a form is not offered, by the calibration of the model."""
SURELY_NOTHING = 0.5
CHATTER_FROM = 0.8
"""From here on what says nothing is not taken for the name of a new plant."""
LEAST_FIRST = 0.1
LEAST_OTHER = 0.08
LEAST_SUBJECT = 0.05
"""Below it nothing is asked whether it is meant. Judgement. [1]"""
SLIP_CHANCE = 0.5
DOUBT_FROM = 0.85
"""A form this likely casts doubt on what was read as another, by the calibration of the model."""
FEWEST_WORDS = 3
"""In fewer a slip is likelier than a manner of speaking. [1]"""
BETTER_FROM = 0.3
MOST_OFFERS = 3
MOST_READ_AGAIN = 4
LEAST_HOME = 0.5
_SHORTEST_HOME = 3
"""“No.” beside a question is no town. [characters]"""
_SENTENCE = re.compile(r"(?<=[.!?])\s+|(?<=\?)\n")
_HELP = re.compile(
    r"[,;.!]?\s*\b(?:(?:can|could) (?:you|u|somebody|anyone) (?:please )?help(?: me)?|help me)\s*\?+",
    re.IGNORECASE,
)
"""“Can you help?” behind what is told asks for what is done anyway."""
_TAG = re.compile(
    r"(?<=\w)(?:,\s*|\s+)(?:innit|right|eh|yes|yeah|yep|ok|okay|no|aye|see|you know|hey|huh|na|la|lah|or|"
    r"(?:that'?s|it'?s) (?:\w+ ){0,2}(?:innit|right|ok|okay|fine|good|enough))\s*\?+",
    re.IGNORECASE,
)
"""“Got neem here, innit?” tells."""
_IN_BRACKETS = re.compile(r"\?+(?=[^()?\n]*\))")
"""“An air plant (a tillandsia?)” doubts and does not ask."""
_ASKED_BEHIND = re.compile(
    r",\s+(?=(?:(?:and|so|but|then)\s+)?"
    r"(?:what|where|which|how|when|would|could|can|should|shall|do|does|did|is|are|will)\b[^.!?\n]*\?)",
    re.IGNORECASE,
)
"""“I have soap, would that do?” tells and asks."""
_QUESTION_BEHIND = re.compile(
    r"(?<=\w)[,;.!]?\s+(?:(?:and|so|but|then|now)\s+)?"
    r"(?=(?:what|where|which|how|when|why|(?:can|could|may|should|shall|must|do|does) (?:i|we|it|they|the)"
    r"|(?:is|are|was|will|would) (?:it|that|this|they)"
    r"|(?<!\bit )(?<!\bthat )(?<!\bthis )(?<!\bthey )(?<!\bthere )(?:is|are|was|will|would) the"
    r")(?:'s|'re)?\b)",
    re.IGNORECASE,
)
"""“Wiped the hoya what's next” tells and asks; “that was the last of the soap” only tells."""
_LEADS_ON = listed(
    "know see tell ask wonder say think idea sure remember understand explain show forgot forget me you"
    " us and or is was are of on in to about as from for with by at than like just only no not even all"
    " everything"
)
"""Behind these no question of its own begins: "i do not know how", "done all what you said"."""
_TELLING_SHYLY = re.compile(
    r"((?:^|[.!?\n])(?:(?!\b(?:what|where|which|how|when|why|who|would|could|can|should|do|does|did|is|are)\b)"
    r"[^.?!\n])*\b(?:i think|i guess|i'?m in|i am in|i live|i(?: do)? have|i've|i got)\b[^.?!\n]*)\?",
    re.IGNORECASE,
)
"""“I think my fern might have thrips?” tells."""
_COURTEOUS_IF = re.compile(
    r",?\s*\bif (?:that|it|this|you|i)\b[^.?!,\n]{0,18}"
    r"\b(?:helps?|use|mind|ok|okay|matters?|good|needed|know|want|bother|may|please|kind)\b(?: to you)?",
    re.IGNORECASE,
)
_UNREAD = frozenset(
    {"", "too long", "which plant", "both", "shelf", "plants", "town", "nothing open", "asked"}
)
LONGEST_HOME = 1200
"""Characters of a home told in one breath: as many as are heard for an accident."""
MOST_NAMED = 7
_OF_A_HOME = (AddPlants, SetTown, SetPlace, StockProduct)
_OPEN_REASONS = frozenset({"", "both", "shelf", "plants", "past", "when", "which plant", "asked"})


class Offer(Value):
    """A likely meaning: what it would do, the sentence that says so, and its chance."""

    commands: tuple[Command, ...]
    said: str
    chance: float
    left_out: str = ""
    """What of the message it leaves out, as typed."""
    lacks: bool = False
    """Whether something that was told could not be read at all."""

    @property
    def parts(self) -> tuple[str, ...]:
        """Give the sentence of each thing it would do, where each has one of its own."""
        said = tuple(self.said.split(". "))
        return said if len(said) == len(self.commands) else ()

    def in_words(self) -> str:
        """Give the sentence in quotation marks, and what it leaves out."""
        rest = " ".join(self.left_out.split()).strip(" .,;!")
        return f"“{self.said}”" + (f", without “{rest}”" if rest else "")


def _else(offer: Offer, otherwise: NotThat) -> tuple[Command, ...]:
    """Ask what is wrong in an offer of several things, which is kept until that is told: any one may go."""
    less = [
        Choice(ButtonText.LEAVE_ONE_OUT, (ReadAnew(otherwise.of.text, Subject.HOME, out=one),), one)
        for one in things_of(offer.commands)[:_MOST_LEFT_OUT]
    ] or [
        Choice(ButtonText.LEAVE_ONE_OUT, _asked_again(offer, at, otherwise), one)
        for at, one in enumerate(offer.parts[:_MOST_LEFT_OUT])
    ]
    if len(less) < len("xy"):
        return (otherwise,)
    choices = (
        Choice(ButtonText.YES, offer.commands, offer.in_words()),
        *less,
        Choice(ButtonText.ALL_WRONG, (otherwise,)),
    )
    return (Incomplete(missing=Missing.WRONG, text=offer.in_words(), choices=choices),)


def _asked_again(offer: Offer, out: int, otherwise: Command) -> tuple[Command, ...]:
    """Offer what is left of an offer without one of its parts."""
    rest = offer.commands[:out] + offer.commands[out + 1 :]
    said = ". ".join(offer.parts[:out] + offer.parts[out + 1 :])
    again = replace(offer, commands=rest, said=said)
    choices = (
        Choice(ButtonText.YES, rest, again.in_words()),
        Choice(ButtonText.SOMETHING_ELSE, (otherwise,)),
    )
    return (Incomplete(missing=Missing.MEANT, text=again.in_words(), choices=choices),)


_MOST_LEFT_OUT = 7
"""So many things have a button of their own where one is wrong. Judgement. [1]"""


class Reading(Value):
    """What a message means: written at once, offered, or neither, with topics to choose from."""

    sure: tuple[Command, ...] = ()
    offers: tuple[Offer, ...] = ()
    lost: tuple[Subject, ...] = ()
    """What a message may be about where it is lost, or no offer is meant; the likeliest first."""
    text: str = ""
    refused: tuple[str, ...] = ()
    """What was offered of the text before and is not meant."""

    def commands(self) -> tuple[Command, ...]:
        """Give what is to be performed: what is sure, then one question with the offers."""
        else_meant = NotUnderstood(self.text[:LONGEST], subjects=self.lost)
        if not self.offers:
            return tuple(
                else_meant
                if (self.lost or len(self.sure) == 1) and one == NotUnderstood(getattr(one, "text", ""))
                else one
                for one in self.sure
            )
        first, *others = self.offers
        refused = (*self.refused, *first.parts, *(one.said for one in self.offers))
        of = [subject_of(form) for one in first.commands for form in forms_of(one)]
        subjects = tuple(one for one in dict.fromkeys((*(self.lost or of), Subject.QUESTION)) if one)
        otherwise = NotThat(of=replace(else_meant, subjects=subjects, refused=refused))
        choices = (
            Choice(ButtonText.YES, first.commands, first.in_words()),
            *(Choice(ButtonText.NAMED, offer.commands, offer.said) for offer in others),
            Choice(ButtonText.SOMETHING_ELSE, _else(first, otherwise)),
        )
        return (*self.sure, Incomplete(missing=Missing.MEANT, text=first.in_words(), choices=choices))


def read(text: str, situation: Situation) -> Reading:
    """
    Read one message.

    What the strict reader accounts for to the last word is sure; else the likeliest forms are filled with
    what the message names, said as a sentence, and kept if the strict reader reads that as the same.
    """
    begun = _begun(text, situation)
    if begun is not None:
        return begun
    strictly = understand_surely(text, situation)
    sure, is_answered = asked_by(strictly, text, situation) if _has_words(text) else (strictly, False)
    if _agrees_to_nothing(text, sure, situation):
        return Reading(
            sure=(Ask(topic=Topic.DUE) if situation.tonight else Incomplete(missing=Missing.SEEN),), text=text
        )
    doubted = _doubted_of_an_offer(text, situation)
    if doubted is not None:
        return Reading(sure=(doubted,), text=text)
    right = _put_right(text, sure, situation)
    home = right or _of_a_home(text, sure, situation)
    if home is not None and right is None and _tells_little(home) and is_chatter(text, situation):
        home = None
    answered = Reading(sure=sure, text=text) if is_answered else None
    return home or answered or _of_a_label(_usual(text, sure, situation), text)


def _doubted_of_an_offer(text: str, situation: Situation) -> Incomplete | None:
    """Offer again what one thing is doubted of, "is zorb right?", with a button that leaves it out."""
    words = words_of(plain(text[:LONGEST]))
    if "?" not in words or _DOUBTS.isdisjoint(words):
        return None
    asked = (each for one in situation.choices for each in one.commands if isinstance(each, Incomplete))
    less = [
        one
        for each in asked
        for one in each.choices
        if one.text is ButtonText.LEAVE_ONE_OUT and one.of.casefold() in plain(text[:LONGEST])
    ]
    if len(less) != 1:
        return None
    first, *_, last = situation.choices
    return Incomplete(missing=Missing.MEANT, text=first.of, choices=(first, *less, last))


_DOUBTS = listed("right correct wrong plant meant sure spelt real")


def read_piece(text: str, situation: Situation) -> Reading:
    """Read a piece of a message that is read as a whole too: nothing of a home, and no slip of its own."""
    begun = _begun(text, situation)
    if begun is not None:
        return begun
    strictly = understand_surely(text, situation)
    sure, is_answered = asked_by(strictly, text, situation) if _has_words(text) else (strictly, False)
    if is_answered:
        return Reading(sure=sure, text=text)
    return _of_a_label(_usual(text, sure, situation, is_mended=False), text)


def _begun(text: str, situation: Situation) -> Reading | None:
    """Read what comes before all else: an accident, doings in a row, a new room, burns, an empty shelf."""
    emergency = hear_emergency(text, situation)
    if emergency is not None:
        return Reading(sure=(emergency,), text=text)
    words = words_of(plain(text)) if len(text) <= LONGEST else ()
    doings = read_doings(words, situation) if len(text) <= LONGEST else None
    if doings is not None:
        return Reading(sure=doings, text=text)
    is_burnt = bool(words) and not is_said_burnt(words)
    moved = read_move(text, situation) or (read_burnt(words, situation) if is_burnt else None)
    if moved is not None:
        return Reading(offers=_said_back(moved, situation), text=text)
    given = _given_away(words, situation)
    if given:
        names = {one.id: one.names[0] for one in situation.plants}
        return Reading(sure=(asked_off(given, names[given[0]]),), text=text)
    lacking = _lacking(words, situation)
    if lacking is not None:
        return Reading(sure=(lacking,), text=text)
    has_nothing = bool(words and situation.plants) and _has_nothing_to_treat_with(text, situation)
    return Reading(sure=(Ask(topic=Topic.BUY),), text=text) if has_nothing else None


def with_alarm(meant: Reading, text: str, situation: Situation) -> Reading:
    """Give help beside what a message may mean where somebody may have come to harm."""
    if any(isinstance(one, GiveFirstAid) for one in meant.sure):
        return meant
    heard = alarm(text, situation)
    told = (*meant.sure, *(one for offer in meant.offers for one in offer.commands))
    is_of_a_home = any(isinstance(one, _OF_A_HOME) for one in told)
    is_read = is_of_a_home and not any(one.left_out for one in meant.offers)
    is_of_work = bool(meant.sure) and all(
        isinstance(one, AskTerm) or (isinstance(one, Ask) and one.topic in OF_WORK) for one in meant.sure
    )
    is_answer = any(one.commands == meant.sure for one in situation.choices)
    is_faint = heard is Alarm.FAINT and not (is_read or is_of_work or is_answer)
    if heard is not Alarm.LIKELY and not (
        is_faint and not _is_accounted_for(text, understand_surely(text, situation), situation)
    ):
        return meant
    asked = tuple(one for one in meant.sure if isinstance(one, NotUnderstood | Incomplete))
    is_asked = bool(meant.sure) and all(map(asks, meant.sure))  # an answer writes nothing
    offers = meant.offers or (() if asked or is_asked else _said_back(meant.sure, situation))
    sure = () if offers else asked or (meant.sure if is_asked else (NotUnderstood(text[:LONGEST]),))
    return replace(meant, sure=(GiveFirstAid(in_doubt=True), *sure), offers=offers)


def _has_words(text: str) -> bool:
    return any(character.isalnum() for character in text)


def _has_nothing_to_treat_with(text: str, situation: Situation) -> bool:
    """Whether no more is said than that nothing is at hand: it puts nothing off, and nothing was seen."""
    words = frozenset(words_of(plain(text)))
    said = told_in(text, situation).items
    is_done = any(isinstance(one.meaning, Method) and one.text.endswith("ed") for one in said)
    if not (words & TREATED and words & NOTHING_OF_IT) or "?" in words or is_done:
        return False
    home = read_home(text, situation)
    if home.named or len(home.unread) >= FEWEST_WORDS:
        return False
    return home.has_nothing and home.is_empty() and not _is_counted(home, text, situation)


def _given_away(words: tuple[str, ...], situation: Situation) -> tuple[PlantId, ...]:
    """Read that plants are somebody else's by now, and no more: "sold my jade", "gave the ivy to my aunt"."""
    if _PARTING.isdisjoint(words) or "?" in words or _BETWEEN_PEOPLE.isdisjoint(words):
        return ()
    items = items_of(words, situation)
    named = [plant for one in items if isinstance(one.meaning, Plants) for plant in one.meaning.ids]
    rest = {word for one in items if not isinstance(one.meaning, Plants) for word in one.text.split()}
    is_whole = _AROUND_A_GIFT.issuperset(rest - words_of_class("idle", "people"))
    return tuple(dict.fromkeys(named)) if is_whole else ()


_PARTING = listed("sold gave given gifted donated passed")
_BETWEEN_PEOPLE = words_of_class("idle", "people") | listed("away sold donated")
_AROUND_A_GIFT = _PARTING | listed(
    "i we have has my our the a to away on it and today yesterday now by mine , . ! old dear best good"
)


def _lacking(words: tuple[str, ...], situation: Situation) -> Command | None:
    """Read that no more is said than that one product is not there: "I have no soap", "there is no oil"."""
    if _NONE_OF_IT.isdisjoint(words) or _THERE_IS.isdisjoint(words) or len(words) > _MOST_LACKING:
        return None
    items = items_of(words, situation)
    products = [one.meaning for one in items if isinstance(one.meaning, Product)]
    rest = [word for one in items if not isinstance(one.meaning, Product) for word in one.text.split()]
    is_whole = _AROUND_NONE.issuperset(set(rest) - words_of_class("idle", "people"))
    if len(products) != 1 or not is_whole or not situation.plants:
        return None
    key = products[0].ingredient
    is_here = products[0].id is not None
    return StockProduct(ingredient=key, stock_ml=0) if key and is_here else Ask(topic=Topic.BUY)


_MOST_LACKING = 12
_NONE_OF_IT, _THERE_IS = (
    listed("no not none gave threw lent binned"),
    listed("have has got there left here away to"),
)
_AROUND_NONE = (
    _NONE_OF_IT
    | _THERE_IS
    | listed("i we do does is was it a old any the my our more at home in house sorry yet now , . !")
)


def _is_counted(home: Home, text: str, situation: Situation) -> bool:
    """Whether no more is told than a number and an empty shelf: "15, as i said. nothing to treat with"."""
    return home.has_nothing and home.is_empty() and bool(told_in(text, situation).every(Count))


def _agrees_to_nothing(text: str, sure: tuple[Command, ...], situation: Situation) -> bool:
    """Whether somebody says yes where nothing is asked: what may be told next is said."""
    is_lost = all(isinstance(one, NotUnderstood) and not one.reason for one in sure)
    is_asked = situation.expecting is not Expecting.LINES and (
        any(one.text is not ButtonText.MORE for one in situation.choices)
        or situation.expecting is not Expecting.NOTHING
        or not situation.plants
    )
    return is_lost and not is_asked and is_made_of(words_of(plain(text)), phrases_of("talk", "yes"))


def _tells_little(home: Reading) -> bool:
    """Whether no more is offered than plants to be added, or less than was left unread, and no find."""
    told = [command for offer in home.offers for command in offer.commands]
    lists = [one for one in told if isinstance(one, AddPlants)]
    plants = [each for one in lists for each in one.plants]
    if any(isinstance(one, SetTown) for one in told):
        return False
    if not told or any(one.then for one in lists) or not all(isinstance(one, _OF_A_HOME) for one in told):
        return False
    is_bare = len(lists) == len(told) and not any(each.place for each in plants)
    unread = sum(len(offer.left_out.split("; ")) for offer in home.offers if offer.left_out)
    return is_bare or unread > max(1, len(told) - len(lists) + len(plants))


def is_chatter(text: str, situation: Situation) -> bool:
    """Whether a text likely says nothing: idle talk, thanks, a greeting."""
    best = rank(with_names(text, situation), situation)[0] if text.strip() else None
    return best is not None and best.form in SAYS_NOTHING and best.chance >= SURELY_NOTHING


def _is_accounted_for(text: str, sure: tuple[Command, ...], situation: Situation) -> bool:
    """Whether every word is understood without regard to what is being asked: no room for an accident."""
    neutral = _asking_nothing(situation)
    is_open = any(isinstance(one, NotUnderstood | Incomplete) for one in sure)
    told = sure if is_open or neutral is situation else understand_surely(text, neutral)
    return not any(isinstance(one, NotUnderstood | Incomplete) for one in told)


def offer_of(
    told: tuple[Command, ...], situation: Situation, chance: float = 1.0, left_out: str = ""
) -> Offer | None:
    """Give the offer of some commands, each sentence once; None where one of them has no sentence."""
    said = say_all(told, situation) if told else None
    return None if said is None else Offer(told, ". ".join(dict.fromkeys(said)), chance, left_out)


def _said_back(told: tuple[Command, ...], situation: Situation) -> tuple[Offer, ...]:
    offer = offer_of(told, situation)
    return () if offer is None else (offer,)


def _is_new(situation: Situation) -> bool:
    """Whether a home is still being told of."""
    is_placed = all(one.place is not None for one in situation.plants)
    is_told = bool(situation.plants and situation.shelf) and is_placed
    return situation.lacks_town or bool(situation.untold) or not is_told


def _of_a_home(text: str, sure: tuple[Command, ...], situation: Situation) -> Reading | None:
    """
    Read what a message tells of a home that is still being told of; None where it tells nothing of it.

    What says something else for sure is left to that. Where a word was not read, what was is only offered.
    """
    is_else = not any(isinstance(one, (*_OF_A_HOME, NotUnderstood, Incomplete, Ask)) for one in sure)
    is_asking = any(isinstance(one, NotUnderstood | Incomplete) for one in sure)
    if not (_is_new(situation) or is_asking) or (is_else and "?" not in text):
        return None
    told, asked = _told_and_asked(text)
    if "?" in told or len(told.strip(" .!")) < _SHORTEST_HOME or len(text) > LONGEST_HOME:
        return None
    is_all_asked = all(one.endswith("?") for one in _SENTENCE.split(text.strip()))
    if is_all_asked and is_plain_question(words_of(plain(text))):
        return None  # "is north ok?"
    before, behind = _asked_behind(told, situation)
    apart = _home_told(text, before, [*asked, *behind], sure, situation) if behind else None
    return apart or _home_told(text, told, asked, sure, situation)


def _home_told(
    text: str, told: str, asked: list[str], sure: tuple[Command, ...], situation: Situation
) -> Reading | None:
    """Read what is told of a home, and answer what is asked beside it."""
    is_else = any(isinstance(one, NotUnderstood) and one.reason not in _UNREAD for one in sure)
    if is_else or not _may_be_of_a_home(told, situation):
        return None
    home = read_home(told, situation)
    begins = situation.expecting is Expecting.TOWN and _begins_with_its_town(told.strip(), home)
    is_led = begins or (home.is_led and not _is_denied(home.town, told))
    home = replace(home, is_led=is_led)  # "Ghent. But I asked something"
    if not (_is_new(situation) or _tells_more(home, sure)) or _names_several(told, home, situation):
        return None
    if _is_counted(home, told, situation):
        return None
    if home.is_empty() or (home.is_strange() and "\n" not in text.strip()):
        return None if asked or not home.is_empty() else _instead(text, home, sure, situation)
    words = words_of(plain(unled(told)))
    is_question_alone = is_question(words, situation)
    is_asked_of = is_question_alone and is_plain_question(words) and not (":" in words or home.lines)
    is_of_a_kind = is_asked_of and not any(one.place for one in home.plants)
    tells = bool(home.plants or home.lines) and not is_question_alone
    is_answered = any(isinstance(one, Ask) for one in sure)
    asks = bool(asked) or (is_answered and not tells)
    is_slip = is_answered and home.is_guessed and not asked  # "chart hoya" is no chard
    things = len(home.places) + len(home.lines) + begins
    things += sum(one.place is not None or bool(asked) for one in home.plants)
    is_lost = len(home.unread) > things + bool(asked)
    is_bare = not (home.plants or home.lines or home.town)
    is_bare_question = is_question_alone and is_bare and home.unplaced
    if is_slip or (asks and (is_lost or is_bare)) or is_bare_question or is_of_a_kind:
        return None  # "which mealybug is it", "what about a fern"
    commands = _commands_of(home, situation)
    is_asked = any(isinstance(one, Incomplete | NotUnderstood) for one in sure)
    is_asked = is_asked or any(isinstance(one, AddPlants) and one.unread for one in sure)
    is_clear = not (is_asked or is_doubtful(sure, text, situation) or _is_no_answer(sure))
    is_clear = is_clear and not (is_answered and tells)
    if commands is None or (home.unread and is_clear):
        return None
    commands += _answers_to(asked, situation)
    is_town_alone = home.is_led and not (home.plants or home.places or home.lines or home.unplaced)
    if is_town_alone and len(home.unread) < FEWEST_WORDS and not (KNOWN & frozenset(home.unread)):
        return Reading(sure=commands, text=text)
    is_strange = is_list_of_strangers(commands, text, situation)
    is_sure = not home.is_guessed and (home.is_known or "\n" in text.strip())
    is_sure = is_sure and not (home.is_long_range() and "\n" not in text.strip())
    is_doubted = is_strange or is_asked_of or is_unreal(told) or asks_unmarked(told)
    if not home.unread and is_sure and not is_doubted:
        return Reading(sure=commands, text=text)
    return _offered(home, commands, text)


def _is_denied(town: str, told: str) -> bool:
    """Whether it is said of a town that nobody lives there, or only near it."""
    before = _SENTENCE.split(told.partition(town)[0])[-1] if town else ""
    return not _NOT_THERE.isdisjoint(words_of(plain(before)))


_NOT_THERE = listed("not never near far no left used")


def _begins_with_its_town(told: str, home: Home) -> bool:
    """Whether its first sentence is the town alone, and no other town is named behind it."""
    behind = told.removeprefix(home.town) if home.town and told.startswith(home.town) else ""
    return bool(_SENTENCE_ENDS.match(behind)) and not any(map(find_towns, home.unread))


_SENTENCE_ENDS = re.compile(r"\s*[.!\n]")


def _offered(home: Home, commands: tuple[Command, ...], text: str) -> Reading:
    """Offer what is told of a home; a town that is led in and need not be asked about is clear by itself."""
    left_out = "; ".join(one for one in home.unread if one.lower() not in _NAYS)
    town, rest = commands[:1], commands[1:]
    if home.is_led and rest and isinstance(town[0], SetTown) and is_meant(find_towns(home.town)):
        if all(map(asks, rest)) and not any(map(find_towns, home.unread)):
            return Reading(sure=commands, text=text)
        offer = Offer(rest, replace(home, town="").in_words(), LEAST_HOME, left_out)
        return Reading(sure=town, offers=(offer,), text=text)
    return Reading(offers=(Offer(commands, home.in_words(), LEAST_HOME, left_out),), text=text)


_NAYS = listed("no not nope nah")


def question_behind(text: str) -> tuple[str, ...]:
    """Cut a text where a question begins behind what is told: "wiped the hoya what's next"."""
    joint = _QUESTION_BEHIND.search(text) or _ASKED_BEHIND.search(text)
    if joint is None or _LEADS_ON & frozenset(words_of(plain(text[: joint.start()]))[-1:]):
        return (text,)
    return text[: joint.start()], text[joint.end() :]


def _put_right(text: str, sure: tuple[Command, ...], situation: Situation) -> Reading | None:
    """Offer a home as it is put right, and what that changes of what is written."""
    is_offered = offered_home(situation) is not None
    is_told = bool(sure) and all(isinstance(one, Rename | RemovePlace) for one in sure)
    if len(text) > LONGEST_HOME:
        return None
    may_be = _is_new(situation) or _is_of_being_one(text, situation)
    if not (is_offered or (may_be and not is_told)):
        return None
    told, asked = _told_and_asked(text) if "?" in text and is_offered else (text, [])
    if "?" in told or not told.strip(" ."):
        return None
    due = {one.plant for one in situation.tonight}
    is_else = not all(
        isinstance(one, (*_OF_A_HOME, NotUnderstood, Incomplete, Ask))
        or (isinstance(one, Postpone) and due.isdisjoint(one.plants))  # "i have no mint"
        for one in sure
    )
    right = put_right(told, situation, is_else=is_else)
    if not right.is_of_it or (is_else and not right.is_plain):
        return None
    answers = _answers_to(asked, situation)
    if right.is_agreed:
        return Reading(sure=(*(_commands_of(right.home, situation) or ()), *answers), text=text)
    match right.written:
        case (LosePlant(plants=gone),) if right.home.is_empty():
            names = {one.id: one.names[0] for one in situation.plants}
            return Reading(sure=(asked_off(gone, names[gone[0]]),), text=text)
    home = () if right.home.is_empty() else _commands_of(right.home, situation) or ()
    if not (home or right.written):
        return Reading(sure=(Decline(),), text=text) if is_offered else None
    said = "; ".join([*([right.home.in_words()] if home else []), *right.said])
    offer = Offer((*home, *right.written), said, LEAST_HOME, "; ".join(right.home.unread))
    return Reading(sure=answers, offers=(offer,), text=text)


def _answers_to(asked: list[str], situation: Situation) -> tuple[Command, ...]:
    answers = (one for each in asked for one in _asked(each, situation))
    return tuple(one for one in answers if isinstance(one, ASKED))


def _asked(text: str, situation: Situation) -> tuple[Command, ...]:
    return asked_by(understand_surely(text, situation), text, situation)[0]


_MAY_LEAD = listed("when where which who is are")
"""A clause that begins so may be of what is told: "flies when i touch it"."""


def _asked_behind(told: str, situation: Situation) -> tuple[str, list[str]]:
    """Set apart what is asked last without a mark: "ivy in the hall, and what do i do tonight"."""
    before, last = "", told
    for end in _SENTENCE.finditer(told):
        before, last = told[: end.end()], told[end.end() :]
    joined = question_behind(last)
    before, last = (before + joined[0], joined[1]) if joined[1:] else (before, last)
    words = words_of(plain(last))
    is_asked = bool(before.strip()) and is_question(words, situation) and _MAY_LEAD.isdisjoint(words[:1])
    is_answered = is_asked and any(isinstance(one, ASKED) for one in _asked(last, situation))
    return (before, [last]) if is_answered else (told, [])


def _is_of_being_one(text: str, situation: Situation) -> bool:
    """Whether it may say that something is no plant: more than the name of a rubber plant."""
    words = words_of(plain(text))
    return not _BEING_ONE.isdisjoint(words) and any(
        one.text in _BEING_ONE for one in items_of(words, situation)
    )


_BEING_ONE = frozenset({"plant", "exist", "meant"})


def _tells_more(home: Home, sure: tuple[Command, ...]) -> bool:
    """Whether new plants are told with all their places, and not those alone that are asked about already."""
    asked = (choice for one in sure if isinstance(one, Incomplete) for choice in one.choices)
    added = [one for choice in asked for one in choice.commands if isinstance(one, AddPlants)]
    is_asked = any(one.plants == home.plants for one in added) and not home.places
    is_told = home.has_kinds or (len(home.plants) > 1 and not home.unread)
    return is_told and all(one.place for one in home.plants) and bool(home.plants) and not is_asked


def _may_be_of_a_home(told: str, situation: Situation) -> bool:
    """Whether a home is new, or a kind of plant is named that may not be here."""
    return _is_new(situation) or kept(names_a_kind, words_of(plain(told)), situation)


def _names_several(told: str, home: Home, situation: Situation) -> bool:
    """Whether numbers are those of plants that are here: "hoya 3, 4 and 7" tells of no count."""
    named = (one.meaning for one in spotted(told, situation) if isinstance(one.meaning, Plants))
    return not (home.plants or home.beyond) and any(len(one.ids) > 1 for one in named)


def _instead(text: str, home: Home, sure: tuple[Command, ...], situation: Situation) -> Reading | None:
    """Read what tells nothing of a home: a plant's bare name, that there is nothing, something else."""
    is_open = any(isinstance(one, NotUnderstood | Incomplete) for one in sure)
    is_plain = bool(home.named) and not home.unread
    moved = _moved(home, situation) if is_plain else ()
    if home.named and not moved and _SETS_RIGHT & frozenset(words_of(plain(text))):
        return None  # "it was the jasmine, not the ivy"
    stands = (read_standing(text, situation) if is_plain else None) or moved
    if stands:
        known = {one.id: one.place for one in situation.plants}
        moves = [one for one in stands if isinstance(one, MovePlant)]
        is_new = any(one.room or known[each] != one.place for one in moves for each in one.plants)
        offers = _said_back(stands, situation) if is_new else ()
        return Reading(sure=() if offers else (Ask(topic=Topic.PLACES),), offers=offers, text=text)
    is_asked = is_question(words_of(plain(text)), situation)
    is_counted = bool(told_in(text, situation).amounts())
    if len(home.named) == 1 and not (home.unread or is_counted) and is_open and not is_asked:
        return Reading(sure=(Identify(plants=home.named),), text=text)
    is_retold = len(home.named) > 1 and not home.unread and _is_new(situation)
    if is_retold and is_open and not is_asked:
        return Reading(sure=(Ask(topic=Topic.PLACES),), text=text)
    if _is_no_answer(sure):
        return _besides(text, home, situation)
    if not home.has_nothing or len(home.unread) >= FEWEST_WORDS:
        return None
    offered = [one.commands for one in situation.choices if one.text is ButtonText.NOTHING_YET]
    is_offered = bool(situation.choices) and situation.choices[0].text is ButtonText.YES
    to_get: tuple[Command, ...] = (Ask(topic=Topic.BUY),) if situation.plants or is_offered else (Decline(),)
    return Reading(sure=offered[0] if offered else to_get, text=text)


_SETS_RIGHT = listed("not meant wrong instead")


def _moved(home: Home, situation: Situation) -> tuple[MovePlant, ...]:
    """Give where plants of the home are told to stand, if all named are: "no, the jade is in the den"."""
    ids = {one.names[0]: one.id for one in situation.plants}
    places = {one.name: one.id for one in situation.places}
    at: dict[str, list[PlantId]] = {}
    for one in home.moved:
        if one.place and one.name in ids:
            at.setdefault(one.place, []).append(ids[one.name])
    is_whole = {*home.named} == {each for ids in at.values() for each in ids}
    return tuple(
        MovePlant(
            tuple(dict.fromkeys(each)), places.get(room, PlaceId(0)), room="" if room in places else room
        )
        for room, each in at.items()
        if is_whole
    )


def _told_and_asked(text: str) -> tuple[str, list[str]]:
    """Set apart what is told and what is asked in one message."""
    text = _ROOM_ASKED.sub(_headed, _IN_BRACKETS.sub("", text))
    each = _SENTENCE.split(text.strip())
    whole = [one for one in each if asks_wholly(one)]
    rooms = ("", *(_room_in(one) if one.endswith("?") else "" for one in each))
    each = [
        _THERE.sub(f"in the {room}", one) if room else one for room, one in zip(rooms, each, strict=False)
    ]
    text = " ".join(one for one in each if one not in whole) if whole or any(rooms) else text
    bare = _ASKED_BEHIND.sub(". ", _TAG.sub(".", _COURTEOUS_IF.sub("", _HELP.sub(".", text))))
    bare = _TELLING_SHYLY.sub(r"\1.", bare)
    sentences = _SENTENCE.split(bare.strip())
    asked = [one for one in sentences if one.endswith("?")]
    return " ".join(one for one in sentences if one not in asked) if asked else bare, [*whole, *asked]


_ROOM_ASKED = re.compile(
    r"(?:(?<=^)|(?<=[.!?\n] )|(?<=\n))"
    r"(?:(?:and|but|so|now|then|also|oh|what about|how about|as for|in|on)[ ,]+)*"
    r"(?P<room>(?:(?:the|my|our) )?[^\W\d]+(?: [^\W\d]+){0,2}) ?\?+\s+"
    r"(?P<its>(?:that(?:'?s| one)?|it'?s?|this)\b ?(?=\S))?(?=[^?.!\n]+(?:[.!\n]|$))",
    re.IGNORECASE,
)


def _headed(asked: re.Match[str]) -> str:
    """Let a room that one asks about oneself head what is told of it: "And the attic? That is west."."""
    named = [one for one in words_of(plain(asked["room"])) if one not in ARTICLES | SORTS]
    if not named or not ROOMS.issuperset(named):
        return asked[0]
    its = (asked["its"] or "").lower().strip()
    return asked["room"] + (" is " if its.endswith("s") and its != "this" else " " if its else ": ")


def _room_in(asked: str) -> str:
    """Give the room a question names: "the library?? The fern is in there" tells where."""
    words = words_of(plain(asked))
    return next((one for one in reversed(words) if one in ROOMS), "")


_THERE = re.compile(r"\bin there\b", re.IGNORECASE)


def _is_no_answer(told: tuple[Command, ...]) -> bool:
    """Whether a message was taken for a town that there is not: it may say something else."""
    towns = [one.text for one in told if isinstance(one, SetTown)]
    refused = [one for one in told if isinstance(one, NotUnderstood) and one.reason in {"town", "plants"}]
    unknown = [one for one in towns if len(one.split()) > 1 and not find_towns(one)]
    return len(refused) + len(unknown) == len(told)


def _besides(text: str, home: Home, situation: Situation) -> Reading | None:
    """Read a message past the open question, which it does not answer."""
    told = understand_surely(text, _asking_nothing(situation))
    is_open = any(isinstance(one, NotUnderstood | Incomplete) for one in told)
    if is_open and (home.is_ill or home.named):
        return Reading(sure=(Incomplete(missing=Missing.SEEN),), text=text)
    is_clear = not any(isinstance(one, (*_OF_A_HOME, NotUnderstood, Incomplete)) for one in told)
    return Reading(sure=told, text=text) if is_clear else None


def _commands_of(home: Home, situation: Situation) -> tuple[Command, ...] | None:
    """Give what a home that is told of writes; what was seen on a plant that is new waits for it."""
    town = (SetTown(home.town),) if home.town else ()
    to_get = (Ask(topic=Topic.BUY),) if home.has_nothing else ()
    if home.plants:
        added = AddPlants(home.plants, is_sure=True, then="\n".join(home.lines))
        return (*town, added, *home.places, *_seen_somewhere(home, situation), *to_get)
    neutral = _asking_nothing(situation)
    told = [one for line in home.lines for one in understand_surely(line, neutral)]
    if any(isinstance(one, NotUnderstood) for one in told):
        return None
    return (*town, *home.places, *told, *_seen_somewhere(home, situation), *to_get)


def _seen_somewhere(home: Home, situation: Situation) -> tuple[Command, ...]:
    """Ask on which plant something was seen; it is kept until that is told."""
    if not home.unplaced:
        return ()
    neutral = _asking_nothing(situation)
    named = [one.names[0] for one in situation.plants]
    described = Setting(situation).described()
    just = [one.names[0] for one in situation.plants if one.id in described]
    if just:
        told = understand_surely(f"{home.unplaced} on {' and '.join(just)}", neutral)
        if not any(isinstance(one, NotUnderstood) for one in told):
            return told
    choices = tuple(
        Choice(ButtonText.NAMED, understand_surely(f"{home.unplaced} on {name}", neutral), name)
        for name in named[:MOST_NAMED]
    )
    left = Choice(ButtonText.LEAVE_OUT, (Decline(home.unplaced),))
    return (Incomplete(missing=Missing.SEEN_WHERE, text=home.unplaced, choices=(*choices, left)),)


def _witnessed(sure: tuple[Command, ...], text: str, situation: Situation) -> Reading | None:
    """Give what both witnesses tell where the strict reader has nothing, or both where they disagree."""
    is_answer = any(choice.commands == sure for choice in situation.choices)
    is_answer = is_answer or read_ticks(words_of(plain(text[:LONGEST])), situation) == sure
    is_told = not is_answer and all(isinstance(one, _WRITTEN) for one in sure)
    is_long = len(text.split()) >= FEWEST_DOUBTED
    is_asked = is_long and any(isinstance(one, Incomplete) for one in sure)
    if not (is_told or is_asked or _is_open(sure, text, situation)):
        return None
    told = surely(text, situation)
    if told and not is_told:
        return Reading(sure=told, text=text)
    if not told or not is_long or _is_same(told, sure, situation):
        return None
    return _either(sure, told, text, situation)


def _is_same(told: tuple[Command, ...], sure: tuple[Command, ...], situation: Situation) -> bool:
    """Whether two readings tell the same, but for how long something stays apart."""
    alone = tuple(replace(one, quarantine_days=None) if isinstance(one, Isolate) else one for one in sure)
    return told == sure or _meaning(told, situation) == _meaning(alone, situation)


def _either(sure: tuple[Command, ...], told: tuple[Command, ...], text: str, situation: Situation) -> Reading:
    """Offer both of two readings that disagree."""
    offers = (*_said_back(sure, situation), *_said_back(told, situation))
    return (
        Reading(offers=offers, text=text) if offers else Reading(sure=(_unread(text, situation),), text=text)
    )


def _usual(text: str, sure: tuple[Command, ...], situation: Situation, *, is_mended: bool = True) -> Reading:
    if _is_no_answer(sure) and is_doubtful(sure, text, situation):
        sure = (NotUnderstood(text[:LONGEST], reason="town"),)
    sure = _of_the_stage(sure, text, situation)
    guesses = rank(with_names(text, situation), situation) if _has_words(text) else []
    sure = _followed(_waiting(sure, text, situation), text, situation)
    witnessed = _witnessed(sure, text, situation) if guesses else None
    if witnessed is not None:
        return witnessed
    is_idle = bool(guesses) and guesses[0].form in SAYS_NOTHING and guesses[0].chance >= CHATTER_FROM
    if is_idle and is_doubtful(sure, text, situation):
        return Reading(sure=(_unread(text, situation),), text=text)
    if guesses and is_doubtful(sure, text, situation):
        return _doubted(sure, text, situation, tuple(_offers(text, situation, guesses)))
    if is_idle:
        sure = tuple(_unread(text, situation) if _asks_whether_new(one) else one for one in sure)
    is_answer = read_answer(text, words_of(plain(text[:LONGEST])), situation) == sure
    is_whole = _is_final(sure, text, situation) and (is_answer or not _is_doubted(sure, text, guesses))
    if not guesses or is_whole:
        return Reading(sure=sure, text=text)
    is_short = len(text.split()) < FEWEST_WORDS
    offers = _slipped(words_of(plain(text)), situation) if is_short and is_mended else ()
    offers = offers or tuple(islice(_offers(text, situation, guesses), MOST_OFFERS))
    is_new = any(isinstance(one, Incomplete) and one.missing is Missing.ADD for one in sure)
    offers = tuple(
        one
        for one in offers
        if not (_is_no_answer(one.commands) or (is_new and {*map(type, one.commands)} <= {AddPlants}))
    )
    is_asked = is_plain_question(words_of(plain(text))) or asks_inside(text)
    # whatever a plain question asks, it tells nothing
    offers = tuple(one for one in offers if not is_asked or _only_asks(one))
    lost = () if is_short else _subjects(guesses)
    if offers and _is_better(offers[0]):
        return Reading(offers=offers, lost=lost, text=text)
    if not _is_open(sure, text, situation):
        return Reading(sure=sure, text=text)
    offers = (
        offers
        or _town_owed(text, situation)
        or (() if is_asked or is_short or not is_mended else _slipped(words_of(plain(text)), situation))
        or (_may_ask(text, situation) if opens_a_question(text, situation) else ())
    )
    return Reading(sure=() if offers else sure, offers=offers, lost=lost, text=text)


def _waiting(sure: tuple[Command, ...], text: str, situation: Situation) -> tuple[Command, ...]:
    """Put the evening off where no more is said than that it must wait, and why: "skip tonight, I'm ill"."""
    is_lost = len(sure) == 1 and isinstance(sure[0], NotUnderstood) and not sure[0].reason
    due = tuple(dict.fromkeys(one.plant for one in situation.tonight if not one.is_done))
    if not (is_lost and due) or "?" in text:
        return sure
    items = told_in(text[:LONGEST], situation).items
    is_off = any(
        one.meaning in _WAITS or (one.meaning is Word.NO_TIME and "not" in one.text.split()) for one in items
    )
    is_off = is_off and _WAITS.union(_BESIDE_A_WAIT).issuperset(one.meaning for one in items)
    return (Postpone(plants=due, on=situation.today + timedelta(days=1)),) if is_off else sure


_WAITS = frozenset({Word.SKIP, Word.LATER})
_BESIDE_A_WAIT = frozenset({Word.NO_TIME, Word.FILLER, Word.BREAK, Word.AND, Word.IT, Word.THEM})


def _followed(sure: tuple[Command, ...], text: str, situation: Situation) -> tuple[Command, ...]:
    """Read a short question back in what is lost else: "rinse?"."""
    is_lost = len(sure) == 1 and isinstance(sure[0], NotUnderstood) and sure[0].reason in LOST
    return (
        read_follow_up(words_of(plain(text[:LONGEST])), situation, is_lost=True) if is_lost else None
    ) or sure


def _of_a_label(meant: Reading, text: str) -> Reading:
    """Say of what is read off a label and not kept that it is not; it tells nothing done or seen."""
    is_quoted = "?" not in text and _READS_OFF.search(plain(text[:LONGEST])) is not None
    is_asked = any(getattr(one, "missing", None) is Missing.WHICH_PRODUCT for one in meant.sure)
    if (
        not is_quoted
        or is_asked
        or not all(isinstance(one, NotUnderstood | Incomplete) for one in meant.sure)
    ):
        return meant
    offers = tuple(one for one in meant.offers if any(isinstance(of, StockProduct) for of in one.commands))
    lost = NotUnderstood(text[:LONGEST], reason="label")
    return replace(meant, offers=offers, sure=meant.sure if offers else (lost,))


_ON_IT = "(?:label|bottle|packet|package|tub|tin)"
_READS_OFF = re.compile(
    rf"\b{_ON_IT}(?:\W+\w+){{0,2}}\W+(?:says?|reads?|said|warns?)\b"
    rf"|\b(?:says?|reads?|said|written|warns?)(?:\W+\w+){{0,2}}\W+on (?:the|its|my) {_ON_IT}\b"
)
"""“The label says keep off bees”, “it says on the bottle to shake it”."""


def _subjects(guesses: list[Guess]) -> tuple[Subject, ...]:
    """Name what a message may be about, the likeliest first."""
    about = (subject_of(one.form) for one in guesses if one.chance >= LEAST_SUBJECT)
    subjects = tuple(dict.fromkeys(one for one in about if one is not None))[:MOST_OFFERS]
    return subjects if Subject.QUESTION in subjects or not subjects else (*subjects, Subject.QUESTION)


def read_as(anew: ReadAnew, situation: Situation) -> Reading:
    """Read a lost message anew, told what it is about: what it may mean is offered, nothing is written."""
    offered = offered_home(situation) if anew.out else None
    meant = (
        _about_it(anew.text, anew.subject, situation) if offered is None else _less(anew, offered, situation)
    )
    refused = {*anew.refused}
    offers = tuple(one for one in meant.offers if refused.isdisjoint((one.said, *one.parts)))
    sure = () if offers or any(isinstance(one, ReadAnew) for one in meant.sure) else meant.sure
    return replace(meant, sure=sure if sure or offers else (anew,), offers=offers, refused=anew.refused)


def _less(anew: ReadAnew, offered: Home, situation: Situation) -> Reading:
    """Offer a home without the thing that is wrong in it."""
    home = without(anew.out, offered)
    told = None if home.is_empty() else _commands_of(home, situation)
    offers = () if told is None else (Offer(told, home.in_words(), LEAST_HOME),)
    return Reading(sure=() if offers else (Decline(),), offers=offers, text=anew.text)


def _about_it(text: str, subject: Subject, situation: Situation) -> Reading:
    """Read a message that is about something of a kind."""
    if subject is Subject.HOME:
        right = _put_right(text, (), situation) or _home_told(text, *_told_and_asked(text), (), situation)
        if right is not None:
            return right
    if subject is Subject.QUESTION and (asked := _may_ask(text, situation, LEAST_SUBJECT)):
        return Reading(offers=asked, text=text)
    likeliest = rank(with_names(text, situation), situation)
    about = [one for one in likeliest if subject_of(one.form) is subject and one.form not in _ANSWERING]
    known = [replace(one, chance=1.0) for one in about[:MOST_READ_AGAIN]]
    offers = tuple(islice(_offers(text, situation, known), MOST_OFFERS)) if known else ()
    return Reading(sure=() if offers else (ReadAnew(text, subject),), offers=offers, text=text)


def _may_ask(text: str, situation: Situation, least: float = LEAST_ASKED) -> tuple[Offer, ...]:
    """Offer what a question that is like no other may ask, the likeliest first."""
    offers = (offer_of(told, situation, chance) for told, chance in likely_asked(text, situation, least))
    return tuple(filter(None, offers))[:MOST_OFFERS]


def _only_asks(offer: Offer) -> bool:
    return offer.chance >= LEAST_ASKED and all(map(asks, offer.commands))


def _town_owed(text: str, situation: Situation) -> tuple[Offer, ...]:
    """Offer a message as the town that is still to be told, where another question stands before it."""
    if not situation.lacks_town or situation.expecting is Expecting.TOWN:
        return ()
    asked = replace(situation, expecting=Expecting.TOWN, choices=(), choice_texts=())
    told = understand_surely(text, asked)
    towns = [one.text for one in told if isinstance(one, SetTown)]
    if len(towns) < len(told) or is_doubtful(told, text, situation) or not any(map(find_towns, towns)):
        return ()
    return (Offer(told, text.strip(), SLIP_CHANCE),)


def _doubted(
    sure: tuple[Command, ...], text: str, situation: Situation, offers: tuple[Offer, ...]
) -> Reading:
    """Offer what was read but may be no more than talk; what can not be said is asked as a new plant is."""
    if offers and _is_better(offers[0]):
        return Reading(offers=offers[:MOST_OFFERS], text=text)
    offers = _said_back(sure, situation)
    if offers:
        return Reading(offers=offers, text=text)
    names = [one.name for told in sure if isinstance(told, AddPlants) for one in told.plants]
    if not names:
        return Reading(sure=(_unread(text, situation),), text=text)
    add = Choice(ButtonText.ADD_PLANTS, sure, str(len(names)))
    return Reading(sure=(Incomplete(missing=Missing.ADD, text="; ".join(names), choices=(add,)),), text=text)


def _unread(text: str, situation: Situation) -> NotUnderstood:
    reason = "plants" if situation.expecting is Expecting.PLANTS else ""
    return NotUnderstood(text[:LONGEST], reason=reason)


def _asks_whether_new(told: Command) -> bool:
    return isinstance(told, Incomplete) and told.missing is Missing.ADD and bool(told.choices)


def _is_doubted(sure: tuple[Command, ...], text: str, guesses: list[Guess]) -> bool:
    """Whether the words are so much like another form that what was read is only likely."""
    if not guesses or len(text.split()) < FEWEST_DOUBTED:
        return False
    best = guesses[0]
    if (
        best.form in SAYS_NOTHING
        or best.chance < DOUBT_FROM
        or any(isinstance(one, GiveFirstAid) for one in sure)
    ):
        return False
    forms = {form for one in sure for form in forms_of(one)}
    return bool(forms) and not forms & set(best.form.split("+"))


def _is_better(offer: Offer) -> bool:
    """Whether an offer says more than a question back: nothing left out, likely, and it tells something."""
    is_told = not all(isinstance(one, ASKED) for one in offer.commands)
    return is_told and not offer.left_out and not offer.lacks and offer.chance >= BETTER_FROM


@lru_cache(maxsize=4)
def _spelt(*named: tuple[tuple[str, tuple[str, ...]], ...]) -> frozenset[str]:
    """Give every word that is listed, with those of animals and products."""
    return KNOWN | SPOKEN | words_in(name for each in named for _, names in each for name in names)


_SHORTEST_KIND = 5
"""A shorter word is no slip of a kind that nobody has. [characters]"""


def _slipped(words: tuple[str, ...], situation: Situation) -> tuple[Offer, ...]:
    """Offer what a message with one slip in it means when that is mended."""
    items = items_of(words, situation)
    strange = [item.text for item in items if isinstance(item.meaning, Unknown)]
    known = _spelt(situation.ingredients, situation.pests)
    strange = [word for word in strange if word.isalpha() and word not in known]
    if strange and len(strange[0]) >= _SHORTEST_KIND and not is_ordinary(strange[0]):
        known |= words_of_kinds(situation.kinds)
    offers: dict[str, Offer] = {}
    for said in mended(words, strange, known):
        sentence = " ".join(said).replace(" ?", "?").replace(" ,", ",").replace(" .", ".")
        commands = understand_surely(" ".join(said), situation)
        offer: Offer | None = Offer(commands, sentence, SLIP_CHANCE)
        if any(isinstance(one, NotUnderstood | Incomplete | Thanks | Greet) for one in commands):
            if KNOWN.issuperset(set(said) - set(words)):
                continue
            offer = next(_offers(sentence, situation, rank(with_names(sentence, situation), situation)), None)
        if offer is not None:
            offers.setdefault(_meaning(offer.commands, situation), offer)
    return tuple(offers.values())[:MOST_OFFERS]


def _of_the_stage(sure: tuple[Command, ...], text: str, situation: Situation) -> tuple[Command, ...]:
    """Take a bare "done", with or without exceptions, for the open stage of a work day."""
    match sure:
        case (LogRound(method=None, product=None, on=None, at=None),) if (
            situation.expecting is Expecting.WORK
        ):
            told = told_in(text, situation)
            kept, left = told.sides()
            return sure if kept else (TickWork(but=left),)
        case _:
            return sure


def _is_final(sure: tuple[Command, ...], text: str, situation: Situation) -> bool:
    """Whether nothing is left to be guessed: understood to the last word, or a name that nobody knows."""
    is_asked = any(isinstance(one, Incomplete) and one.missing in OPEN_QUESTIONS for one in sure)
    is_refused = any(isinstance(one, NotUnderstood) and one.reason in _REFUSED for one in sure)
    is_open = is_asked or is_refused or _is_open(sure, text, situation)
    return _names_a_stranger(sure, situation) or not is_open


_REFUSED = frozenset({"which plant", "nothing open", "past", "town"})


def _is_open(sure: tuple[Command, ...], text: str, situation: Situation) -> bool:
    """Whether the strict reader has nothing to say to it."""
    return any(
        (isinstance(one, NotUnderstood) and one.reason in _OPEN_REASONS and not _asks_plants(situation, one))
        or (isinstance(one, Incomplete) and one.missing is Missing.UNKNOWN_PLANT and not _is_named(one, text))
        for one in sure
    )


def _asks_plants(situation: Situation, refused: NotUnderstood) -> bool:
    return situation.expecting is Expecting.PLANTS and refused.reason == "plants"


def _is_named(asked: Incomplete, text: str) -> bool:
    """Whether the word nobody knows stands as a plant's name does: "the monstera", "my fern"."""
    return asked.text.partition(" ")[0] in led_in(text) and asked.text not in NO_PLANTS


def _names_a_stranger(sure: tuple[Command, ...], situation: Situation) -> bool:
    return any(
        isinstance(one, Incomplete) and one.missing is Missing.UNKNOWN_PLANT and one.text in situation.kinds
        for one in sure
    )


def _offers(text: str, situation: Situation, guesses: list[Guess]) -> Iterator[Offer]:
    if is_one_strange_word(text, situation):
        return
    if guesses[0].chance < LEAST_FORM or (
        guesses[0].form in SAYS_NOTHING and guesses[0].chance > SURELY_NOTHING
    ):
        return
    told: set[str] = set()
    might_be = [one for one in guesses if one.chance >= LEAST_OTHER]  # what is left out makes it no likelier
    for tried, one in enumerate(likely(text, situation, might_be)):
        if tried >= MOST_READ_AGAIN or one.chance < (LEAST_OTHER if told else LEAST_FIRST):
            return
        if one.form.startswith("ask.") and guesses[0].form in SAYS_NOTHING and one.chance < LEAST_FORM:
            continue  # what is asked is hardly any of it
        meaning = _meaning(one.commands, situation)
        if meaning in told or contradict(one.commands) or _leaves_out_its_own(one, situation):
            continue
        said = say_all(one.commands, situation)
        if said is None or not _is_read_back(said, one.commands, situation):
            continue
        told.add(meaning)
        yield Offer(
            one.commands,
            ". ".join(dict.fromkeys(said)),
            round(one.chance, 2),
            "; ".join(one.left_out),
            one.lacks,
        )


def _leaves_out_its_own(meant: Likely, situation: Situation) -> bool:
    """Whether it would tell of a plant that it says to leave out: "done, but not the hoya"."""
    names = {one.names[0].casefold() for one in situation.plants if one.id in plants_of(meant.commands)}
    return bool(names.intersection(meant.left_out))


def _is_read_back(said: tuple[str, ...], commands: tuple[Command, ...], situation: Situation) -> bool:
    """Whether each sentence is taken for what it says, by a row of its form or by the strict reader."""
    neutral = _asking_nothing(situation)
    return all(
        _means(sentence, command, situation if isinstance(command, ANSWERS) else neutral)
        for sentence, command in zip(said, commands, strict=True)
        if not isinstance(command, (*ASKED, *ANSWERS))
    )


def _means(sentence: str, command: Command, situation: Situation) -> bool:
    meaning = _meaning((command,), situation)
    told = told_in(sentence, situation)
    rows = [ROWS[form] for form in forms_of(command) if form in ROWS]
    if any(_meaning(fill(told) or (), situation) == meaning for fill in rows):
        return True
    return _meaning(understand_surely(sentence, situation), situation) == meaning


def _asking_nothing(situation: Situation) -> Situation:
    if situation.expecting is Expecting.NOTHING and not situation.choices:
        return situation  # what was read of it is kept
    return replace(situation, expecting=Expecting.NOTHING, choices=(), choice_texts=())


_WRITTEN = (  # what two witnesses may disagree about; what labels say only the strict reader reads whole
    *(LogRound, LogCheck, LogFind, LogSign, Postpone, LosePlant, ReleasePlant, Isolate, MovePlant, TickWork),
    Thanks,
)
ASKED = (Ask, AskHow, AskTerm, DescribePest, Identify, Help)
"""What writes nothing."""


def asks(command: Command) -> bool:
    """Whether a command writes nothing and is answered."""
    return isinstance(command, (*ASKED, Mix))


ANSWERS = (TickWork, EndWork, EndWalk, PassPlant, SkipQuestion)
"""What is said to an open question only."""


_ANSWERING = frozenset({"tick", "endwork", "endwalk", "pass", "skip"})
"""The forms of these."""


def _meaning(commands: tuple[Command, ...], situation: Situation) -> str:
    """Give a meaning that does not depend on how plants are grouped."""
    return " + ".join(sorted(lines_of(commands, situation)))


def lines_of(commands: tuple[Command, ...], situation: Situation) -> set[str]:
    """Give what commands mean, a line a plant."""
    return {notation((one,), situation) for command in commands for one in _each(command)}


def _each(command: Command) -> tuple[Command, ...]:
    plants = unique(getattr(command, "plants", ()))
    if isinstance(command, AddPlants | Incomplete) or len(plants) <= 1:
        return (command,)
    return tuple(replace(command, plants=(plant,)) for plant in plants)  # type: ignore[call-arg]
