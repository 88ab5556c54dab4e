"""The one door: a message and its situation read into what is sure, what is likely and what is lost."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import islice, pairwise

from bot.actions.add_plants import AddPlants
from bot.actions.button_texts import ButtonText
from bot.actions.choice import Choice
from bot.actions.command import Command
from bot.actions.courtesy import Greet, Thanks
from bot.actions.decline import Decline
from bot.actions.give_first_aid import GiveFirstAid
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.log_round import LogRound
from bot.actions.not_understood import NotUnderstood
from bot.actions.situation import Expecting, Situation
from bot.actions.work_through import TickWork
from bot.domain.identity import PlantId
from bot.phrases.clause import Setting, unique
from bot.phrases.cutting import MOST_PARTS, is_strange, parts_of
from bot.phrases.emergencies import Alarm, alarm, hear_emergency
from bot.phrases.forms.rows import ROWS, SAYS_NOTHING
from bot.phrases.grammar import SPOKEN, understand_surely
from bot.phrases.guess import Guess, rank
from bot.phrases.items import Item, Unknown, items_of
from bot.phrases.lexicon import KNOWN
from bot.phrases.mentions import NO_PLANTS, Mentions, mentioned
from bot.phrases.names import Plants
from bot.phrases.notation import notation
from bot.phrases.saying import say_all
from bot.phrases.slips import mended
from bot.phrases.text import LONGEST, plain, words_of

LEAST_CHANCE = 0.3
"""Below it a form is not offered, by the calibration of the model."""
LEAST_OTHER = 0.08
SLIP_CHANCE = 0.5
MOST_OFFERS = 3
MOST_READ_AGAIN = 4
_OPEN_REASONS = frozenset({"", "both", "shelf", "plants"})


@dataclass(frozen=True, slots=True)
class Offer:
    """A likely meaning: what it would do, the sentence that says so, and its chance."""

    commands: tuple[Command, ...]
    said: str
    chance: float
    left_out: str = ""
    """What of the message it leaves out, as typed."""

    def in_words(self) -> str:
        """Give the sentence in quotation marks, and what it leaves out."""
        rest = " ".join(self.left_out.split()).strip(" .,;!")
        return f"“{self.said}”" + (f", without “{rest}”" if rest else "")


@dataclass(frozen=True, slots=True)
class Reading:
    """What a message means: written at once, offered, or neither, with topics to choose from."""

    sure: tuple[Command, ...] = ()
    offers: tuple[Offer, ...] = ()
    lost: tuple[str, ...] = ()
    """Forms by which a lost message may be read anew, the likeliest first."""
    text: str = ""

    def commands(self) -> tuple[Command, ...]:
        """Give what is to be performed: what is sure, then one question with the offers."""
        if not self.offers:
            return self.sure
        first, *others = self.offers
        choices = (
            Choice(ButtonText.YES, first.commands),
            *(Choice(ButtonText.NAMED, offer.commands, offer.said) for offer in others),
            Choice(ButtonText.SOMETHING_ELSE, (Decline(),)),
        )
        return (*self.sure, Incomplete(missing=Missing.MEANT, text=first.in_words(), choices=choices))


def read(text: str, situation: Situation) -> Reading:
    """
    Read one message.

    What the strict reader accounts for to the last word is sure; else the likeliest forms are filled with
    what the message names, said as a sentence, and kept if the strict reader reads that as the same.
    """
    emergency = hear_emergency(text, situation)
    if emergency is not None:
        return Reading(sure=(emergency,), text=text)
    meant = _usual(text, situation)
    if alarm(text, situation) is Alarm.FAINT and not _is_accounted_for(text, situation):
        asked = tuple(one for one in meant.sure if isinstance(one, NotUnderstood | Incomplete))
        offers = meant.offers or (() if asked else _said_back(meant.sure, situation))
        told = () if offers else asked or (NotUnderstood(text[:LONGEST]),)
        return replace(meant, sure=(GiveFirstAid(in_doubt=True), *told), offers=offers)
    return meant


def _is_accounted_for(text: str, situation: Situation) -> bool:
    """Whether every word is understood without regard to what is being asked: no room for an accident."""
    told = understand_surely(text, _asking_nothing(situation))
    return not any(isinstance(one, NotUnderstood | Incomplete) for one in told)


def _said_back(told: tuple[Command, ...], situation: Situation) -> tuple[Offer, ...]:
    said = say_all(told, situation) if told else None
    return () if said is None else (Offer(told, ". ".join(said), 1.0),)


def _usual(text: str, situation: Situation) -> Reading:
    sure = _of_the_stage(understand_surely(text, situation), text, situation)
    if _is_final(sure, text, situation):
        return Reading(sure=sure, text=text)
    text = _with_whole_names(text, situation)
    guesses = rank(text, situation) if text.strip() else []
    offers = _slipped(words_of(plain(text)), situation) or (
        tuple(islice(_offers(text, situation, guesses), MOST_OFFERS)) if guesses else ()
    )
    if offers:
        return Reading(offers=offers, text=text)
    topics = tuple(one.form for one in guesses[:MOST_OFFERS] if one.form not in SAYS_NOTHING)
    return Reading(sure=sure, lost=topics, text=text)


def _slipped(words: tuple[str, ...], situation: Situation) -> tuple[Offer, ...]:
    """Offer what a message with one slip in it means when that is mended."""
    items = items_of(words, situation)
    strange = [item.text for item in items if isinstance(item.meaning, Unknown)]
    strange = [word for word in strange if word.isalpha() and word not in SPOKEN]
    offers: dict[str, Offer] = {}
    for said in mended(words, strange, KNOWN | SPOKEN):
        commands = understand_surely(" ".join(said), situation)
        if not any(isinstance(one, NotUnderstood | Incomplete | Thanks | Greet) for one in commands):
            sentence = " ".join(said).replace(" ?", "?").replace(" ,", ",").replace(" .", ".")
            offers.setdefault(_meaning(commands, situation), Offer(commands, sentence, SLIP_CHANCE))
    return tuple(offers.values())[:MOST_OFFERS]


def _of_the_stage(sure: tuple[Command, ...], text: str, situation: Situation) -> tuple[Command, ...]:
    """Take a bare "done", with or without exceptions, for the open stage of a work day."""
    match sure:
        case (LogRound(method=None, product=None, on=None, at=None),) if (
            situation.expecting is Expecting.WORK
        ):
            told = Mentions(mentioned(words_of(plain(text[:LONGEST])), situation), Setting(situation))
            kept, left = told.sides()
            return sure if kept else (TickWork(but=left),)
        case _:
            return sure


def _with_whole_names(text: str, situation: Situation) -> str:
    """Put plants' whole names where they were begun or misspelt, so that they are known for plants."""
    for item in mentioned(words_of(plain(text[:LONGEST])), situation):
        if isinstance(item.meaning, Plants) and item.meaning.slip:
            name = next(one.names[0] for one in situation.plants if one.id == item.meaning.ids[0])
            text = re.sub(rf"\b{re.escape(item.text)}\b", name, text, flags=re.IGNORECASE)
    return text


def understand(text: str, situation: Situation) -> tuple[Command, ...]:
    """Read one message into commands: what is sure, and a question for what is likely."""
    return read(text, situation).commands()


def _is_final(sure: tuple[Command, ...], text: str, situation: Situation) -> bool:
    """Whether nothing is left to be guessed: understood, asked back, or refused with a reason."""
    return not any(
        (isinstance(one, NotUnderstood) and one.reason in _OPEN_REASONS and not _asks_plants(situation, one))
        or (isinstance(one, Incomplete) and one.missing is Missing.UNKNOWN_PLANT and not _is_named(one, text))
        for one in sure
    ) or _names_a_stranger(sure, situation)


def _asks_plants(situation: Situation, refused: NotUnderstood) -> bool:
    return situation.expecting is Expecting.PLANTS and refused.reason == "plants"


def _is_named(asked: Incomplete, text: str) -> bool:
    """Whether the word nobody knows stands as a plant's name does: "the monstera", "my fern"."""
    words = words_of(plain(text))
    led = {word for before, word in pairwise(words) if before in {"the", "my", "our"}}
    return asked.text.partition(" ")[0] in led and asked.text not in NO_PLANTS


def _names_a_stranger(sure: tuple[Command, ...], situation: Situation) -> bool:
    return any(
        isinstance(one, Incomplete) and one.missing is Missing.UNKNOWN_PLANT and one.text in situation.kinds
        for one in sure
    )


def _offers(text: str, situation: Situation, guesses: list[Guess]) -> Iterator[Offer]:
    if guesses[0].form in SAYS_NOTHING:
        return
    told: set[str] = set()
    tried = 0
    for commands, chance, left_out in _candidates(text, situation, guesses):
        if tried >= MOST_READ_AGAIN or chance < (LEAST_OTHER if told else LEAST_CHANCE):
            return
        meaning = _meaning(commands, situation)
        if meaning in told:
            continue
        tried += 1
        said = say_all(commands, situation)
        if said is None or not _is_read_back(said, commands, situation):
            continue
        told.add(meaning)
        yield Offer(commands, ". ".join(said), round(chance, 2), left_out)


def _candidates(
    text: str, situation: Situation, guesses: list[Guess]
) -> Iterator[tuple[tuple[Command, ...], float, str]]:
    """Give filled forms: the message in its parts where it has several, then whole by each likely form."""
    parts = parts_of(text[:LONGEST], situation)
    if 1 < len(parts) <= MOST_PARTS:
        in_parts = _by_parts(parts, situation)
        if in_parts is not None and (in_parts[1] >= LEAST_CHANCE or "+" in guesses[0].form):
            yield in_parts[0], max(in_parts[1], LEAST_CHANCE), in_parts[2]
    items = mentioned(words_of(plain(text[:LONGEST])), situation)
    for guess in guesses[: 2 * MOST_OFFERS]:
        if guess.form in SAYS_NOTHING:
            continue
        fill = ROWS.get(guess.form)
        filled = None if fill is None else fill(Mentions(items, Setting(situation)))
        if filled:
            yield filled, guess.chance, ""


def _by_parts(
    parts: list[tuple[str, tuple[Item, ...]]], situation: Situation
) -> tuple[tuple[Command, ...], float, str] | None:
    """Read each part by its own likeliest form; None where one that tells something cannot be filled."""
    commands: list[Command] = []
    chance = 1.0
    before: tuple[PlantId, ...] = ()
    left_out: list[str] = []
    for text, items in parts:
        best = rank(text, situation)[0]
        if is_strange(items) or best.form in SAYS_NOTHING:
            left_out += [text] if any(isinstance(item.meaning, Unknown) for item in items) else []
            continue
        fill = ROWS.get(best.form.split("+")[0])
        told = Mentions(items, Setting(situation, before=before, is_first=not commands))
        filled = None if fill is None or "+" in best.form else fill(told)
        if not filled:
            return None
        before = told.plants() or before
        chance = min(chance, best.chance)
        commands.extend(one for one in filled if one not in commands)
    return (tuple(commands), chance, "; ".join(left_out)) if commands else None


def _is_read_back(said: tuple[str, ...], commands: tuple[Command, ...], situation: Situation) -> bool:
    """Whether the strict reader takes each sentence for what it says."""
    neutral = _asking_nothing(situation)
    return all(
        _meaning(understand_surely(sentence, neutral), situation) == _meaning((command,), situation)
        for sentence, command in zip(said, commands, strict=True)
    )


def _asking_nothing(situation: Situation) -> Situation:
    return replace(situation, expecting=Expecting.NOTHING, choices=(), choice_texts=())


def _meaning(commands: tuple[Command, ...], situation: Situation) -> str:
    """Give a meaning that does not depend on how plants are grouped."""
    lines = (notation((one,), situation) for command in commands for one in _each(command))
    return " + ".join(sorted(lines))


def _each(command: Command) -> tuple[Command, ...]:
    plants = unique(getattr(command, "plants", ()))
    if isinstance(command, AddPlants | Incomplete) or len(plants) <= 1:
        return (command,)
    return tuple(replace(command, plants=(plant,)) for plant in plants)  # type: ignore[type-var]
