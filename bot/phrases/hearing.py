"""The door for what people type: what it sets right is left out, its parts are read each, and agree."""

import re
from collections.abc import Sequence

from bot.actions.action import ButtonText, Command, Expecting
from bot.actions.add_plants import AddPlants
from bot.actions.ask import Ask, Topic
from bot.actions.correct_entry import Entered, Kind
from bot.actions.courtesy import Help
from bot.actions.give_first_aid import GiveFirstAid
from bot.actions.identify import Identify
from bot.actions.incomplete import Incomplete
from bot.actions.isolate import Isolate
from bot.actions.log_check import LogCheck
from bot.actions.log_find import LogFind
from bot.actions.log_round import LogRound
from bot.actions.log_sign import LogSign
from bot.actions.move_plant import MovePlant
from bot.actions.not_understood import NotUnderstood
from bot.actions.postpone import Postpone
from bot.actions.set_place import SetPlace
from bot.actions.set_town import SetTown
from bot.actions.situation import Situation
from bot.actions.stock_product import StockProduct
from bot.actions.undo import Undo
from bot.domain.identity import PlantId
from bot.domain.value import replace
from bot.phrases.agreeing import agreed, is_without
from bot.phrases.answering import asks_of_eating
from bot.phrases.cutting import REPORTS, SEVERAL, pieces, read_apart
from bot.phrases.grammar import plants_named
from bot.phrases.identifying import seen_in
from bot.phrases.items import Item
from bot.phrases.leaving_out import DID, TURNS, told_of
from bot.phrases.lexicon import JOINS, Word, listed
from bot.phrases.names import Place, Plants
from bot.phrases.offered_homes import things_of
from bot.phrases.offering import told_in
from bot.phrases.questions import asks_unmarked, asks_wholly, beyond, is_question
from bot.phrases.reading import Offer, Reading, asks, offer_of, read, read_piece, with_alarm
from bot.phrases.saying import say_all
from bot.phrases.text import LONGEST, plain, words_of
from bot.phrases.unreal import is_unreal, is_unsure
from bot.phrases.values import plants_of


def understand(text: str, situation: Situation) -> tuple[Command, ...]:
    """Read one message into commands: what is sure, and a question for what is likely."""
    return heard(text, situation).commands()


def heard(text: str, situation: Situation) -> Reading:
    """Read one message as people type it: what its next words set right is left out, and its parts agree."""
    said = told_of(text, situation)
    agreed_to = _yes_and_more(said, situation)
    if agreed_to is not None:
        return agreed_to
    open_now = {one.plant for one in situation.tonight if not one.is_done}
    if situation.spoken and open_now.isdisjoint(situation.spoken) and _is_undone(said[:LONGEST]):
        return read("i did not do it", situation)  # whatever else is said of it
    left = _what_is_not_denied(said[:LONGEST], situation)
    if left is not None:
        return left
    if _is_in_part(words_of(plain(said[:LONGEST])), situation):
        return Reading(sure=(Ask(topic=Topic.DUE),), text=said)  # what is open is shown, to be ticked off
    rest, fine = _without_the_fine(said, situation)
    if fine:
        return _and_fine(rest, fine, situation)
    meant = read(said, situation)
    meant = _of_whom(read_apart(said, meant, situation) or meant, said, situation)
    meant = _without_needless_delays(meant, said, situation)
    meant = with_alarm(_of_what_is_denied(meant, said, situation), said, situation)
    meant = _without_what_is_only_asked(_going_on(meant, situation), said, situation)
    whole = _with_what_is_asked(_in_agreement(_eaten_later(meant), said, situation), said, situation)
    return _as_described(_in_earnest(whole, said[:LONGEST], situation), said)


def _without_what_is_only_asked(meant: Reading, text: str, situation: Situation) -> Reading:
    """Offer no treatment that only a question speaks of: "so I only wipe the ivy, no spray?? Please say!"."""
    rounds = [one for offer in meant.offers for one in offer.commands if isinstance(one, LogRound)]
    if not rounds or "?" not in text or len(text) > LONGEST:
        return meant
    told = " ".join(one for one in _SENTENCES.findall(text) if "?" not in one)
    past = {one.meaning for one in told_in(text, situation).items if one.text.endswith("ed")}
    told_of_it = past.union(told_in(told, situation).methods())
    if any(one.method is None or one.method in told_of_it for one in rounds):
        return meant
    offers = tuple(
        one for one in meant.offers if not any(isinstance(each, LogRound) for each in one.commands)
    )
    asked: tuple[Command, ...] = (Ask(topic=Topic.DUE) if situation.sick else NotUnderstood(text),)
    return replace(meant, offers=offers, sure=meant.sure if offers or meant.sure else asked)


_SENTENCES = re.compile(r"[^,.;!?\n]+[,.;!?\n]*")


def _going_on(meant: Reading, situation: Situation) -> Reading:
    """Take who goes on about a new room for agreeing that a plant was moved there."""
    first = situation.choices[0] if situation.choices else None
    told = [one.name.casefold() for one in meant.sure if isinstance(one, SetPlace) and one.place_id is None]
    if first is None or first.text is not ButtonText.YES or not told:
        return meant
    rooms = [one.room.casefold() for one in first.commands if isinstance(one, MovePlant)]
    is_of_moves = len(rooms) == len(first.commands) and all(rooms)
    return (
        replace(meant, sure=(*first.commands, *meant.sure)) if is_of_moves and {*rooms} <= {*told} else meant
    )


def _without_the_fine(text: str, situation: Situation) -> tuple[str, tuple[PlantId, ...]]:
    """Set apart clauses that say of plants that they are well, and no more: "wiped hoya, ivy ok"."""
    if len(text) > LONGEST or _FINE.isdisjoint(words_of(plain(text))) or "?" in text:
        return text, ()
    parts = _CLAUSE.split(text)
    behind = [frozenset(words_of(plain(one))) for one in (*parts[2:], "", "")]
    fine = [
        _are_fine(told_in(one, situation).items) if _OF_THE_SAME.isdisjoint(next_one) else ()
        for one, next_one in zip(parts, behind, strict=False)
    ]
    kept = "".join(one for one, plants in zip(parts, fine, strict=True) if not plants)
    return kept.strip(" ,.;!\n"), tuple(dict.fromkeys(plant for plants in fine for plant in plants))


def _are_fine(part: Sequence[Item]) -> tuple[PlantId, ...]:
    """Give the plants of a clause that says they are well, and no more: "ivy ok", "jade looks fine"."""
    last = max((at for at, item in enumerate(part) if isinstance(item.meaning, Plants)), default=-1)
    said = {word for item in part if not isinstance(item.meaning, Plants) for word in item.text.split()}
    is_so = any(not _FINE.isdisjoint(item.text.split()) for item in part[last + 1 :])
    plants = tuple(plant for one in part if isinstance(one.meaning, Plants) for plant in one.meaning.ids)
    is_asked = bool(part) and part[0].text in {"is", "are"}
    return plants if is_so and _BEING_FINE.issuperset(said) and not is_asked else ()


def _and_fine(rest: str, fine: tuple[PlantId, ...], situation: Situation) -> Reading:
    """Read the rest, and offer that nothing was seen on plants that are said to be well."""
    meant = heard(rest, situation) if any(map(str.isalnum, rest)) else Reading()
    named = {*plants_of(meant.sure), *(plant for one in meant.offers for plant in plants_of(one.commands))}
    clean = LogCheck(plants=tuple(one for one in fine if one not in named))
    if not clean.plants:
        return meant
    if not meant.offers and any(isinstance(one, LogCheck) for one in meant.sure):
        return replace(meant, sure=(*meant.sure, clean))  # looks are told of
    first, *others = meant.offers or (None,)
    offer = offer_of((*(first.commands if first else ()), clean), situation)
    if offer is None:
        return meant
    left_out = first.left_out if first else ""
    return replace(meant, offers=(replace(offer, left_out=left_out), *others))


_FINE = listed("ok okay fine good great alright healthy well happy")
_BEING_FINE = _FINE | listed("the my and is are look looks seems seem still all too also both now quite &")
_OF_THE_SAME = listed("it her him them they both nothing none no")
"""“Ivy fine, nothing on it” says more of the ivy."""
_CLAUSE = re.compile(r"([,.;!\n]+|\b(?:but|while|though)\b)")


def _as_described(meant: Reading, text: str) -> Reading:
    """Begin the key with what is told of the looks of what was found, where no pest is named."""
    match meant.sure:
        case (LogFind(plants=(_,), pest=None, count=int()) as find,) if not meant.offers:
            seen = seen_in(words_of(plain(text)))
            asked = Identify(plants=find.plants, answers=seen, find=find)
            return replace(meant, sure=(asked,)) if seen else meant
        case _:
            return meant


def _in_earnest(meant: Reading, text: str, situation: Situation) -> Reading:
    """Offer what only an example, a wish or a supposition tells, and a delay where one asks what to do."""
    told = tuple(one for one in meant.sure if not (asks(one) or isinstance(one, NotUnderstood | Incomplete)))
    if asks_of_eating(situation) or any(one.commands == meant.sure for one in situation.choices):
        return meant  # an answer
    is_case = is_unreal(text) and any(isinstance(one, REPORTS) for one in told)
    asked = tuple(
        one
        for one in meant.sure
        if one not in told and not (isinstance(one, Incomplete) and is_unreal(one.text))
    )
    is_put_off = any(isinstance(one, Postpone) and one.denied is not None for one in told)
    is_of_another = is_put_off and any(isinstance(one, LogRound) and one.method is None for one in told)
    if not (is_case or is_of_another or (is_put_off and (asked or is_unsure(text)))) or any(
        isinstance(one, Undo) for one in told
    ):
        return meant
    offer = offer_of(told, situation)
    return meant if offer is None else replace(meant, sure=asked, offers=(offer, *meant.offers), text=text)


def _yes_and_more(text: str, situation: Situation) -> Reading | None:
    """
    Read "yes. the den faces south": what is offered, and what else is told for sure, of other plants.

    Whatever else stands behind a yes may change what is agreed to, put it off or take it back.
    """
    first = situation.choices[0] if situation.choices else None
    yes = _YES.match(text)
    if yes is None:
        return None
    rest = text[yes.end() :]
    is_offered = first is not None and first.text is ButtonText.YES
    alike = _of_these_too(first.commands, rest, situation) if first is not None and is_offered else ()
    if alike:
        return Reading(sure=alike, text=text)
    if first is None or first.text is not ButtonText.YES or not first.commands:
        return (
            heard(rest, situation) if is_question(words_of(plain(rest)), situation) else None
        )  # a yes to nothing
    offered = {*plants_of(first.commands)}
    if not _TURNS.isdisjoint(words_of(plain(rest))):
        return None  # "yes, it was the ivy I sprayed"
    more = heard(rest, replace(situation, expecting=Expecting.NOTHING, choices=(), choice_texts=()))
    if offered & {*plants_named(rest, situation)}:
        return None
    is_apart = all(_is_of_its_own(one, offered) for one in more.sure)
    is_else = _is_apart(rest, first.commands) and not more.sure
    if more.offers and is_else and all(_is_of_other_rooms(one, first.commands) for one in more.offers):
        return replace(more, sure=first.commands, text=text)
    if not (more.sure and is_apart) or more.offers:
        return None
    if any(plants_of((one,)) for one in more.sure) and not plants_named(rest, situation):
        return None  # "yes, with soap"
    return replace(more, sure=(*first.commands, *more.sure), text=text)


def _of_these_too(agreed_to: tuple[Command, ...], rest: str, situation: Situation) -> tuple[Command, ...]:
    """Give what is agreed to for more plants, where nothing but these is named: "yes and the fern too"."""
    items = told_in(rest, situation).items
    more = [plant for one in items if isinstance(one.meaning, Plants) for plant in one.meaning.ids]
    is_all = all(isinstance(one.meaning, Plants) or one.meaning in JOINS for one in items)
    is_all = is_all and not _TOO.isdisjoint(words_of(plain(rest)))
    told = [one for one in agreed_to if isinstance(one, _OF_PLANTS)]
    if not (more and is_all and told) or len(told) < len(agreed_to):
        return ()
    return tuple(replace(one, plants=tuple(dict.fromkeys((*one.plants, *more)))) for one in told)


def _is_in_part(words: tuple[str, ...], situation: Situation) -> bool:
    """Whether no more is told than that a part of the evening's work is done: "half done", "did one leaf"."""
    is_done = bool(situation.tonight) and not DID.isdisjoint(words)
    return is_done and not _PART.isdisjoint(words) and _IN_PART.issuperset(words)


_PART = listed("half halfway partly mostly leaf most some part")
_IN_PART = _PART | listed(
    "did done i have the of it them all just only one a test today tonight so far . ! , way through"
)
_UNDONE = re.compile(
    r"(?:^\W*|\b(?:i|we) )(?:have ?n[o']?t|did ?n[o']?t|never) (?:do|did|done) (?:it|that|them|this)\b",
    re.IGNORECASE,
)
_SHORTLY = listed("no nope nah not done it is i we did have yet . , !")


def _is_undone(text: str) -> bool:
    """Whether what was written last is denied: "I haven't done it", "nope, not done", "no I didn't"."""
    words = [one for one in words_of(plain(text)) if one not in TURNS]
    is_short = _SHORTLY.issuperset(words) and "not" in words and not DID.isdisjoint(words)
    return is_short or _UNDONE.search(text) is not None


def _without_needless_delays(meant: Reading, text: str, situation: Situation) -> Reading:
    """Leave out a delay that only a "not" makes, of a plant told of otherwise or due tonight all the same."""
    delayed = (meant.sure, *(one.commands for one in meant.offers))
    if not any(isinstance(one, Postpone) for each in delayed for one in each):
        return meant
    if _is_still_tonight(words_of(plain(text))):
        kept = tuple(one for one in meant.sure if not isinstance(one, Postpone))
        return replace(meant, sure=kept or (Ask(topic=Topic.DUE),), offers=())
    told = told_in(text, situation)
    if told.has(*_DELAYING) or told.is_ahead() or told.hour(latest=12) is not None:
        return meant
    offers = []
    for one in meant.offers:
        kept = _needed(one.commands)
        offer = one if kept == one.commands else offer_of(kept, situation) if kept else None
        offers += [offer] if offer is not None else []
    return replace(meant, sure=_needed(meant.sure), offers=tuple(offers))


def _needed(told: tuple[Command, ...]) -> tuple[Command, ...]:
    reported = {plant for one in told if isinstance(one, REPORTS) for plant in plants_of((one,))}
    is_found = any(isinstance(one, LogFind) for one in told)
    return tuple(
        one for one in told if not (isinstance(one, Postpone) and (is_found or set(one.plants) <= reported))
    )


def _is_still_tonight(words: tuple[str, ...]) -> bool:
    """Whether it is said to be done tonight all the same: "doing it tonight", "that is for tonight"."""
    return any(
        day in _TONIGHT and ((one in _IT_ALL and verb in _DOES and lead not in _NOT) or one == "for")
        for lead, verb, one, day in zip(("", *words), words, words[1:], words[2:], strict=False)
    )


_TONIGHT, _IT_ALL, _DOES = listed("tonight today"), listed("it that them"), listed("doing do will wipe spray")
_NOT = listed("not never")
_DELAYING = (Word.LATER, Word.NO_TIME, Word.SKIP, Word.UNTIL)


def _of_what_is_denied(meant: Reading, text: str, situation: Situation) -> Reading:
    """Take "the hoya is not wiped" offered as a delay for a denial too: it may be written as done."""
    if not any(isinstance(one, Postpone) for offer in meant.offers for one in offer.commands):
        return meant
    told = told_in(text, situation)
    if told.days() or told.denied.isdisjoint(told.methods()):
        return meant
    return replace(
        meant,
        offers=tuple(
            replace(offer, commands=tuple(_as_denied(one, situation) for one in offer.commands))
            for offer in meant.offers
        ),
    )


def _as_denied(told: Command, situation: Situation) -> Command:
    if not isinstance(told, Postpone) or told.denied is not None or len(told.plants) != 1:
        return told
    return replace(told, denied=Entered(plant=told.plants[0], kind=Kind.TREATED, on=situation.today))


def _what_is_not_denied(text: str, situation: Situation) -> Reading | None:
    """Offer the rest of what was offered, where treatments of it are denied: "no, I did not swab yet"."""
    first = situation.choices[0] if situation.choices else None
    if first is None or first.text is not ButtonText.YES or asks_unmarked(text):
        return None
    told = told_in(text, situation)
    methods = {one.method for one in first.commands if isinstance(one, LogRound)}
    denied = methods.intersection(told.methods()) & told.denied
    kept = tuple(one for one in first.commands if not (isinstance(one, LogRound) and one.method in denied))
    is_of_it = methods.issuperset(told.methods()) and {*plants_named(text, situation)} <= {
        *plants_of(first.commands)
    }
    offer = offer_of(kept, situation) if denied and kept and is_of_it else None
    return None if offer is None else Reading(offers=(offer,), text=text)


_OF_PLANTS = LogRound | LogCheck | LogFind | LogSign | Isolate | MovePlant | Postpone
_TOO = listed("too also well")


def _of_whom(meant: Reading, text: str, situation: Situation) -> Reading:
    """Offer "sprayed it" of a plant of which something is not written yet, beside the one it is due on."""
    first = situation.choices[0].commands if situation.choices else ()
    spoken, done = tuple(plants_of(first)), [one for one in meant.sure if isinstance(one, LogRound)]
    seen = tuple(one for one in meant.sure if isinstance(one, LogCheck))
    is_of_others = bool(spoken and seen) and set(spoken).isdisjoint(plants_of(seen))
    is_bare = is_of_others and not told_in(text, situation).every((Plants, Place))
    words = words_of(plain(text[:LONGEST])) if is_bare else ()
    if is_bare and len(words) > _SHORT and _OF_ALL.isdisjoint(words):
        offer = offer_of(seen, situation)  # "no insect anywhere", of the plant that is asked about
        rest = tuple(one for one in meant.sure if one not in seen)
        return meant if offer is None else replace(meant, sure=rest, offers=(offer, *meant.offers))
    is_told = any(one.method is not None for one in done)  # "done it" answers what was asked
    is_apart = bool(spoken and is_told) and set(spoken).isdisjoint(plants_of(done))
    if (
        not is_apart
        or len(spoken) > 1
        or _IT.isdisjoint(words_of(plain(text)))
        or plants_named(text, situation)
    ):
        return meant
    other = tuple(replace(one, plants=spoken, parts=()) for one in done)
    offers = (offer_of(other, situation), offer_of(tuple(done), situation))
    return replace(
        meant, sure=tuple(one for one in meant.sure if one not in done), offers=tuple(filter(None, offers))
    )


_IT = listed("it her him")
_SHORT = 4
"""So many words may answer the evening: "none seen". [1]"""
_OF_ALL = listed("all others rest everything everyone them both")


def _with_what_is_asked(meant: Reading, text: str, situation: Situation) -> Reading:
    """Answer what is asked beside what is told, and name what cannot be answered: no question is dropped."""
    told = (*meant.sure, *(one for offer in meant.offers[:1] for one in offer.commands))
    sentences = pieces(text) if "?" in text else ()
    if len(sentences) < SEVERAL or any(asks(one) or isinstance(one, _OPEN) for one in told):
        return meant
    neutral = replace(situation, expecting=Expecting.NOTHING, choices=(), choice_texts=())
    asked = [one for one in sentences if asks_wholly(one)]
    answers = dict.fromkeys(one for sentence in asked for one in _answer_to(sentence, neutral))
    offers = tuple(replace(one, left_out=_without_asked(one.left_out, asked)) for one in meant.offers)
    return replace(meant, sure=(*meant.sure, *answers), offers=offers)


def _without_asked(left_out: str, asked: list[str]) -> str:
    """Give what an offer leaves out without the questions that are answered beside it."""
    parts = (one for one in left_out.split("; ") if not any(one.strip(" ?.") in each for each in asked))
    return "; ".join(parts)


def _answer_to(sentence: str, situation: Situation) -> tuple[Command, ...]:
    """Give the answer to a sentence, that there is none, or nothing where it tells, or is a name alone."""
    asked = tuple(one for one in read_piece(sentence, situation).sure if asks(one) and one != Help())
    return asked or (beyond(sentence, situation),)


_OPEN = (NotUnderstood, Incomplete, GiveFirstAid)


def _is_of_its_own(told: Command, offered: set[PlantId]) -> bool:
    """Whether a command is of other plants than an offer, or of the home."""
    is_report = isinstance(told, LogRound | LogFind | LogCheck | LogSign | Isolate | MovePlant)
    return isinstance(told, AddPlants | SetPlace | SetTown | StockProduct) or (
        is_report and not offered.intersection(plants_of((told,)))
    )


def _is_apart(rest: str, agreed_to: tuple[Command, ...]) -> bool:
    """Whether nothing of what was agreed to is named behind a yes, and nothing excepted."""
    said = plain(rest)
    named = (one.casefold() in said for one in things_of(agreed_to))
    return not any(named) and _EXCEPTS.isdisjoint(words_of(said))


_EXCEPTS = listed("except without apart remove drop minus no gone died dead leave out scrap maybe")


def _is_of_other_rooms(more: Offer, agreed_to: tuple[Command, ...]) -> bool:
    """Whether what is offered tells of a home, and nothing of what was agreed to."""
    names = {one.casefold() for one in things_of(agreed_to)}
    is_of_a_home = all(isinstance(one, AddPlants | SetPlace | StockProduct) for one in more.commands)
    return is_of_a_home and names.isdisjoint(one.casefold() for one in things_of(more.commands))


_TURNS = TURNS | listed("just only it one fact actually instead no not but though")
_YES = re.compile(
    r"\W*(?:(?:er|um|uh|ah|oh|well)\W+)?(?:yes|yep|yeah|yup|aye)"
    r"(?:\s+(?:please|thanks|thank you|that(?:'?s| is) (?:right|it|correct)|good|great|fine|perfect))*"
    r"\s*(?:[.!]+|\n|,?\s*\band\b)\s*(?:and\s+)?(?=\w)",
    re.IGNORECASE,
)


def _eaten_later(reading: Reading) -> Reading:
    """Answer what is asked of eating a plant only once the treatment of it that is offered is written."""
    treated = [
        {plant for one in each.commands if isinstance(one, LogRound) for plant in one.plants}
        for each in reading.offers
    ]
    asked = tuple(
        one
        for one in reading.sure
        if isinstance(one, Ask) and one.topic is Topic.EATING and treated and set(one.plants) <= treated[0]
    )
    if not asked or not treated[0]:
        return reading
    offers = tuple(
        replace(offer, commands=(*offer.commands, *asked)) if plants else offer
        for offer, plants in zip(reading.offers, treated, strict=True)
    )
    return replace(reading, sure=tuple(one for one in reading.sure if one not in asked), offers=offers)


def _in_agreement(reading: Reading, text: str, situation: Situation) -> Reading:
    """Give a reading whose commands, sure or offered, agree with each other."""
    several = [told for told in (reading.sure, *(one.commands for one in reading.offers)) if len(told) > 1]
    alone = (one for told in (reading.sure, *(each.commands for each in reading.offers)) for one in told)
    if not several and not any(isinstance(one, LogRound | LogCheck) for one in alone):
        return reading
    named = plants_named(text, situation)
    offers = []
    for offer in reading.offers:
        told = agreed(offer.commands, text, named, situation)
        said = None if told == offer.commands else say_all(told, situation)
        offers.append(replace(offer, commands=told, said=". ".join(dict.fromkeys(said))) if said else offer)
    sure = agreed(reading.sure, text, named, situation)
    if sure != reading.sure and is_without(text, situation):  # what was sprayed with instead nobody told
        instead = offer_of(sure, situation)
        return replace(reading, sure=(), offers=(*((instead,) if instead else ()), *offers))
    return replace(reading, sure=sure, offers=tuple(offers))
