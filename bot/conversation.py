"""One message's way through the layers: words to commands, commands to outcomes, outcomes to an answer."""

import logging
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import datetime
from functools import cached_property

from bot.actions.action import Asking, ButtonText, Choice, Command, Expecting, Outcome
from bot.actions.add_plants import AddPlants
from bot.actions.advise import Shopping
from bot.actions.begin_talk import BeginTalk
from bot.actions.choose_home import EnterHome
from bot.actions.come_back import ComeBack, look_first
from bot.actions.courtesy import Greet, Thanks
from bot.actions.decline import Decline
from bot.actions.deny import Deny
from bot.actions.desk import Desk, Memory, Words
from bot.actions.give_first_aid import GiveFirstAid
from bot.actions.hold import Hold
from bot.actions.identify import Identified
from bot.actions.incoming import Incoming, Location, Other, Photo, Press, Reaction, Text
from bot.actions.incomplete import Asks, Incomplete, Missing
from bot.actions.keep_photo import KeepPhoto, RefusePhoto, TooManyPhotos, plants_of_album, receive_photo
from bot.actions.keep_status import SetStatus
from bot.actions.left_open import (
    ASKING,
    LeftOpen,
    ShowUnwritten,
    find_asked,
    for_its_day,
    left_open,
    offer_of,
    offers_left,
)
from bot.actions.log_find import FindLogged, LogFind, together
from bot.actions.log_round import NothingDue, RoundLogged, rounds_together
from bot.actions.log_sign import LogSign
from bot.actions.lose_plant import asked_back, gone_by_name
from bot.actions.name_pest import asked_together
from bot.actions.not_understood import NotUnderstood
from bot.actions.perform import perform
from bot.actions.pest_word import pest_words
from bot.actions.ports import NoPhotosKept, Photos, Question, Store
from bot.actions.press_button import (
    AnsweredAlready,
    ButtonExpired,
    is_asked_anew,
    meant_by_press,
    settle_question,
    still_asked,
)
from bot.actions.read_anew import ReadAnew
from bot.actions.say_anew import may_be_replaced, take_back, written_by
from bot.actions.send_evening import (
    LOOK_AGAIN,
    NudgeText,
    StillThere,
    derive_evening,
    is_under_nudge,
    lines_left,
    refresh_evening,
    send_evening,
    takers,
)
from bot.actions.set_place import PlacesSaved, untold_places
from bot.actions.set_town import SetCoordinates, SetTown, WhichTown
from bot.actions.set_up import offer_not_answered, with_next
from bot.actions.show_due import DueList
from bot.actions.show_history import told_already
from bot.actions.show_plants import NoPlants
from bot.actions.situation import Asked, KnownPlace, KnownPlant, KnownProduct, Situation
from bot.actions.stock_product import Stocked
from bot.actions.take_line import TakeLines
from bot.actions.undo import Undo, stocked_lately, told_lately
from bot.arriving import Arriving
from bot.domain.identity import HouseholdId
from bot.domain.journal import Draft, Entry, Heard, evening_of
from bot.domain.knowledge import Knowledge
from bot.domain.value import Value, replace
from bot.domain.window import Facing
from bot.messages import (
    answer_of,
    cut,
    evening_buttons,
    evening_words,
    of_home,
    settled,
    status_of,
    walked_message,
    what_is_left_of_evening,
)
from bot.phrases.answering import asks_of_eating
from bot.phrases.denying import is_bare_no, is_plain_no
from bot.phrases.emergencies import hear_emergency
from bot.phrases.following import lacks_something, read_on
from bot.phrases.grammar import SLASHED, plants_named
from bot.phrases.hearing import understand
from bot.phrases.reading import read_as
from bot.phrases.saying import say_all
from bot.phrases.signs import DONE_SIGNS, is_sign
from bot.phrases.values import plants_of
from bot.wording.answer import Answer
from bot.wording.button_texts import button_text
from bot.wording.manner import in_manner, notice

logger = logging.getLogger(__name__)

HOUSEHOLDS_A_UNIT = 20
"""Households looked at in one transaction, so that messages never wait long. Judgement."""


LONGEST_SAID = 300
"""So much of what goes on and on is kept, to be gone on with. Judgement. [characters]"""


@dataclass(slots=True)
class Said:
    """What the bot says to one incoming message, and earlier messages whose buttons come off (None)."""

    answers: list[tuple[int, Answer]] = field(default_factory=list)
    edits: list[tuple[int, int, Answer | None]] = field(default_factory=list)
    notice: str = ""
    """What is shown for a moment where a button was pressed."""
    statuses: dict[int, Answer | None] = field(default_factory=dict)
    """What the pinned message of a chat is to say now; None where there is to be none any more."""


class SaidTonight(Value, kw_only=True):
    """One nudge to one chat; the key is natural, so that no evening is sent twice."""

    key: str
    household: HouseholdId
    chat: int
    answer: Answer
    status: Answer | None = None
    """What the chat's pinned message says from now on, where the home wants one."""


class Evenings(Value):
    """What one look at the due households came to; more says that others wait."""

    nudges: list[SaidTonight]
    more: bool


@dataclass(frozen=True)
class Conversation:
    """Hears people and speaks up in the evening; holds no state but the catalogue and who may found."""

    knowledge: Knowledge
    may_found: Callable[[int, str], bool]
    """Whether this person, with this /start text, may found a household."""
    memory: Memory = field(default_factory=Memory)
    photos: Photos = field(default_factory=NoPhotosKept)

    @cached_property
    def _pests(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        return pest_words(self.knowledge.pests)

    @cached_property
    def _ingredients(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        return tuple((key, kind.words) for key, kind in self.knowledge.products.items())

    def hear(self, incoming: Incoming, store: Store, now: datetime) -> Said:
        """Take one message in and word the answer; everything written is in the store's transaction."""
        said = Said()
        if not incoming.addressed:
            return said
        if incoming.is_edit and isinstance(incoming.kind, Photo):
            incoming = replace(incoming, kind=Text(incoming.kind.caption))  # the picture is kept already
        member = Arriving(self.knowledge, self.may_found).speaker(incoming, store, now, said.answers)
        if member is None:
            return said
        member = replace(member, chat=incoming.chat)  # asked and answered where it is spoken
        desk = Desk(store, member, self.knowledge, now, incoming.source, self.memory, self.photos)
        if isinstance(sign := incoming.kind, Reaction) and not (
            any(one[:1] in DONE_SIGNS for one in sign.signs) and is_under_nudge(sign.message_id, desk)
        ):
            return said
        commands = self._meant(incoming, desk)
        if isinstance(commands, Outcome):
            outcomes: list[Outcome] = [commands]
        elif (gone := _gone_by_name(incoming.text, commands, desk)) is not None:
            outcomes = [gone]
        else:
            outcomes = self._outcomes(commands, incoming, desk, said)
        answer = answer_of(outcomes, desk)
        shown_in = walked_message(incoming, outcomes)
        if shown_in is not None:
            said.edits.append((incoming.chat, shown_in, answer))
        else:
            said.answers.append((incoming.chat, answer))
        notices = ((chat, answer_of([one], desk)) for chat, one in desk.elsewhere)
        said.answers += [(chat, replace(told, is_silent=True)) for chat, told in notices]
        said.notice = notice(answer)
        if (desk.has_written or left_open(desk, desk.member.chat)) and not desk.is_home_erased:
            next_at = refresh_evening(desk)
            said.statuses = self._statuses(commands, desk, next_at)
        return said

    def _outcomes(
        self, commands: "tuple[Command, ...]", incoming: Incoming, desk: Desk, said: Said
    ) -> list[Outcome]:
        """Perform what was meant, and leave the bot's earlier messages with what is open still."""
        was_silent = desk.household.is_silent
        self._mark_heard(commands, desk)
        answered = settle_question(commands, desk)
        before, open_before = _before_the_edit(incoming, commands, desk), lines_left(desk)
        outcomes: list[Outcome] = [take_back(before, desk)] if before else []
        outcomes += _gathered(
            outcome for command in asked_together(commands, desk) for outcome in self._done(command, desk)
        )
        outcomes.sort(key=lambda one: isinstance(one, WhichTown))  # its buttons are needed most
        outcomes = told_already(outcomes, desk)
        outcomes = with_next(outcomes, desk)
        if was_silent and not any(isinstance(one, Hold | ComeBack | GiveFirstAid) for one in commands):
            look = look_first(desk)
            is_asking = any(one.asking is not None for one in outcomes)
            outcomes.append(replace(look, asking=None) if is_asking else look)
        outcomes = together(outcomes)
        outcomes = self._with_passed_by(outcomes, desk)
        is_answered = lines_left(desk) != open_before
        if is_answered or any(isinstance(one, TakeLines) for one in commands):
            said.edits += what_is_left_of_evening(desk, is_answered=is_answered)
        if answered is not None:
            asked, answer = answered
            if answer.text is ButtonText.PASSED_BY:
                outcomes += still_asked(outcomes, desk)
            elif asked.answered is not None or not is_asked_anew(asked, outcomes):
                said.edits += settled(asked, answer, incoming, desk)
        return outcomes

    def _with_passed_by(self, outcomes: list[Outcome], desk: Desk) -> list[Outcome]:
        """
        Say once of an offer that nobody took and another question passes by that it is not written.

        What is to be done hangs on it: who asks that, or tells of it, is asked again.
        """
        asking = next((one.asking for one in reversed(outcomes) if one.asking is not None), None)
        rest = [one for one in outcomes if not _hangs_on_it(one)]
        if any(isinstance(one, Asks) and one.missing in _OF_A_FIND for one in rest):
            outcomes = rest
        if asking is None and len(rest) < len(outcomes):
            home = offer_not_answered(desk)
            if home is not None:
                return [*rest, Asks(Missing.MEANT, text=home[0].of, asking=Asking(home))]
            left = self._left_open(desk, desk.member.chat)
            return outcomes if left is None else [*outcomes, left]
        offer = None if asking is None else offer_of(desk.question, desk, asking)
        said = "" if offer is None else self._said(offer, desk)
        if offer is None or not said:
            return outcomes
        return [*outcomes, LeftOpen(offered=(said,), offers=(replace(offer, of=said),))]

    def _said(self, choice: Choice, desk: Desk) -> str:
        """Say what a choice would write, as one would tell it, with its day."""
        said = say_all(choice.commands, self._with_names(desk))
        return " ".join((choice.of.strip("“”") if said is None else "; ".join(said)).split())

    @staticmethod
    def _statuses(commands: object, desk: Desk, next_at: datetime | None) -> dict[int, Answer | None]:
        """Say what the pinned messages of the home's chats are to say after something was written."""
        was_ended = isinstance(commands, tuple) and SetStatus(is_wanted=False) in commands
        if not (was_ended or desk.household.wants_status):
            return {}
        told = None if was_ended else status_of(desk, next_at)
        return {member.chat: told for member in desk.members}

    def _done(self, command: Command, desk: Desk) -> list[Outcome]:
        """Perform a command, and then what was told of a plant that the command has only just made known."""
        outcomes = perform(command, desk)
        if isinstance(command, AddPlants) and command.then:
            for line in command.then.split("\n"):
                told = understand(line, replace(self.situation(desk), expecting=Expecting.NOTHING))
                more = [one for one in told if not isinstance(one, AddPlants | NotUnderstood)]
                outcomes += [outcome for one in more for outcome in perform(one, desk)]
        return outcomes

    def plan_anew(self, household: HouseholdId, store: Store, now: datetime) -> None:
        """Derive a household's next evening anew, after the clock was set."""
        derive_evening(household, store, self.knowledge, now)

    def send_evenings(self, store: Store, now: datetime) -> Evenings:
        """Compose the nudges of some households whose evening has come."""
        due = store.due_households(now, HOUSEHOLDS_A_UNIT)
        nudges = [nudge for household in due for nudge in self._evening_alone(household, store, now)]
        return Evenings(nudges, len(due) == HOUSEHOLDS_A_UNIT)

    def _evening_alone(self, household: HouseholdId, store: Store, now: datetime) -> list[SaidTonight]:
        """Compose one household's nudges; whatever fails in it must not silence the others."""
        try:
            return self._evening(household, store, now)
        except Exception as error:  # noqa: BLE001 - logged without anybody's words, and tried again later
            logger.error("evening of household %d failed: %s", household, type(error).__name__)  # noqa: TRY400
            store.set_next_evening(household, now + LOOK_AGAIN)
            return []

    def _evening(self, household: HouseholdId, store: Store, now: datetime) -> list[SaidTonight]:
        composed = send_evening(household, store, self.knowledge, now)
        if composed is None:
            return []
        desk, nudge = composed
        status = status_of(desk, refresh_evening(desk)) if desk.household.wants_status else None
        chats = _awake(desk, is_first=nudge.count == 1)
        said = [
            SaidTonight(
                key=f"nudge:{household}:{nudge.on}:{nudge.count}:{chat}",
                household=household,
                chat=chat,
                answer=replace(told, is_silent=told.is_silent or is_quiet),
                status=status,
            )
            for chat, is_quiet in chats.items()
            for told in [self._nudge(nudge, desk, chat)]
        ]
        desk.forget()
        return said

    def _meant(
        self, incoming: Incoming, desk: Desk
    ) -> "tuple[Command, ...] | ButtonExpired | AnsweredAlready":
        """Read what was sent, emergencies before all; what is passed on is asked about."""
        situation = self.situation(desk)
        replied_to = None if incoming.quoted is None else incoming.quoted.message_id
        if is_bare_no(incoming.text):
            is_later = is_plain_no(incoming.text) and is_under_nudge(replied_to, desk)
            is_answer = is_later or asks_of_eating(situation)
            return self._commands(incoming, situation, desk) if is_answer else (Deny(),)
        emergency = hear_emergency(incoming.words, situation)
        if emergency is not None:
            return (emergency,)
        if is_sign(incoming.text):
            return understand("done", situation) if is_under_nudge(replied_to, desk) else (Thanks(),)
        commands = self._commands(incoming, situation, desk)
        if isinstance(commands, Outcome) or not any(_tells(one) for one in commands):
            return commands
        if incoming.is_forwarded:
            return (_whether_to_write(Missing.FORWARDED, incoming.text, commands),)
        if incoming.is_edit and not may_be_replaced(written_by(desk.source, desk)):
            return (_whether_to_write(Missing.EDITED, incoming.text, commands),)
        return commands

    def _commands(
        self, incoming: Incoming, situation: Situation, desk: Desk
    ) -> "tuple[Command, ...] | ButtonExpired | AnsweredAlready":
        match incoming.kind:
            case Text(text=text):
                said = _unslashed(text)
                told = self._in_turn(said, situation, desk)
                lost = (SetTown, AddPlants, NotUnderstood)
                if said == text or not any(isinstance(one, lost) for one in told):
                    return told
                # what stands behind a slash is a command, and no town or plant that is asked for
                return understand(said, replace(situation, expecting=Expecting.NOTHING))
            case Location(latitude=latitude, longitude=longitude):
                return (SetCoordinates(latitude, longitude),)
            case Press(data=data):
                commands = meant_by_press(data, desk)
                match commands:
                    case (EnterHome(words=words),) if words:
                        return understand(words, situation)
                    case (ReadAnew() as anew,):
                        return read_as(anew, situation).commands()
                    case _:
                        return commands
            case Photo() as photo:
                return self._of_photo(photo, situation, desk)
            case Reaction():
                return understand("done", situation)
            case Other(what=what):
                return understand(what, situation)

    def _in_turn(self, text: str, situation: Situation, desk: Desk) -> "tuple[Command, ...]":
        """Read what somebody says; what is not understood alone may go on with what was said just before."""
        told = understand(text, situation)
        before = self.memory.said_before(Words(desk.source, text, desk.now), desk.member.id)
        if before is None or not any(map(lacks_something, told)):
            return told
        more = read_on(text, before.text, situation)
        if more is not None:
            whole = f"{before.text}. {text}"
            self.memory.said_before(Words(desk.source, whole[-LONGEST_SAID:], desk.now), desk.member.id)
        return more or told

    def _of_photo(self, sent: Photo, situation: Situation, desk: Desk) -> "tuple[Command, ...]":
        """Read what stands under a photo, and keep the photo with the plants named there."""
        photo = receive_photo(sent.file_id, sent.album, desk)
        meant = understand(sent.caption, situation) if sent.caption.strip() else ()
        told = tuple(one for one in meant if not isinstance(one, NotUnderstood | Incomplete | Thanks))
        if isinstance(photo, TooManyPhotos):
            return (*told, RefusePhoto(photo.most))
        plants = plants_named(sent.caption, situation) or plants_of_album(sent.album, desk)
        return (*told, KeepPhoto(photo, plants))

    def situation(self, desk: Desk) -> Situation:
        """Give the grammar what it may know."""
        household = desk.household
        question = desk.store.question(desk.member.household, desk.member.chat)
        evening = desk.evening
        choices = _typed(question, desk) if question else ()
        asked: dict[tuple[int, object], Asked] = {
            (line.plant, part.method): Asked(
                line.plant, part.method, evening.is_beside(line, desk.now), part.product, part.is_done
            )
            for line, part in evening.named(desk.now)
            if line.plant is not None
        }
        return replace(
            self._with_names(desk),
            tonight=tuple(asked.values()),
            sick=frozenset(plant.id for plant in household.living if plant.open_cases),
            spoken=told_lately(desk),
            stocked=stocked_lately(desk),
            found_today=frozenset(
                plant.id
                for plant in household.living
                if any(find.on == desk.today for case in plant.open_cases for find in case.finds)
            )
            | asked_back(desk, LogFind, LogSign),
            expecting=question.expecting if question else Expecting.NOTHING,
            choices=choices,
            choice_texts=tuple(button_text(choice) for choice in choices),
            quiet_from_hour=household.quiet_hours(desk.member.id)[0].hour,
            lacks_town=not household.is_zone_told,
            latitude=household.latitude,
            untold=tuple(place.name for place in untold_places(desk)),
            is_held=household.is_held(desk.today) or household.is_away(desk.member.id, desk.today),
            members=tuple((one.id, one.name) for one in desk.members),
            speaker=desk.member.id,
        )

    def _with_names(self, desk: Desk) -> Situation:
        """Give what things are called, which is all that saying them needs."""
        plants, places, shelf = desk.once(_named)
        return Situation(
            now=desk.now,
            zone=desk.household.zone,
            today=desk.today,
            plants=plants,
            places=places,
            shelf=shelf,
            pests=self._pests,
            ingredients=self._ingredients,
            kinds=self.knowledge.kind_words,
            units=desk.household.units,
        )

    @staticmethod
    def _mark_heard(commands: "tuple[Command, ...]", desk: Desk) -> None:
        """
        Any answer counts, but for thanks and a promise: no repeat tonight.

        The nudge's buttons go line by line with what is settled, and the others read who answered: who merely
        asks, or is not understood, has settled nothing.
        """
        nudge = desk.household.nudge
        is_courtesy = all(isinstance(one, Thanks | Greet | BeginTalk | TakeLines) for one in commands)
        is_answer = nudge is not None and not nudge.is_heard and not is_courtesy
        if is_answer or desk.household.is_silent:
            desk.write([Draft(payload=Heard(), happened_at=desk.now, happened_on=desk.today)])

    def _nudge(self, nudge: NudgeText | StillThere, desk: Desk, chat: int) -> Answer:
        assert nudge.asking is not None
        asking = nudge.asking
        left = self._left_open(desk, chat) if isinstance(nudge, NudgeText) else None
        told = [nudge] if left is None else [nudge, left]
        text, choices = evening_words(told, desk)
        question = desk.store.ask(desk.member.household, chat, asking.expecting, choices, desk.now)
        answer = in_manner(Answer(text=text, buttons=evening_buttons(question)), [nudge])
        return replace(answer, text=cut(of_home(answer.text, chat, desk)))

    def _left_open(self, desk: Desk, chat: int) -> LeftOpen | None:
        """Give what was asked in a chat and is not answered, which lapses with this evening's message."""
        question = desk.store.question(desk.member.household, chat)
        wanted, offered = left_open(desk, chat), offers_left(question, desk)
        seen_on, is_pest_asked = find_asked(wanted)
        named = [replace(one, of=said) for one in offered if (said := self._said(one, desk))]
        if not (seen_on or named):
            return None
        if len(named) == 1:
            button = [replace(named[0], text=ButtonText.WRITE_IT)]
        else:
            button = [Choice(ButtonText.NOT_WRITTEN, (ShowUnwritten(tuple(named)),))] if named else []
        return LeftOpen(
            seen_on=desk.names(seen_on),
            is_pest_asked=is_pest_asked,
            offered=tuple(one.of for one in named),
            of=desk.names(dict.fromkeys(plants_of(each for one in named for each in one.commands))),
            offers=(*(wanted if seen_on else ()), *button),
        )


def _named(
    desk: Desk,
) -> tuple[tuple[KnownPlant, ...], tuple[KnownPlace, ...], tuple[KnownProduct, ...]]:
    """Give what a home calls by name; the same value as long as nothing is told."""
    household, products = desk.household, desk.knowledge.products
    return (
        tuple(KnownPlant(id=one.id, names=(one.name,), place=one.place) for one in household.living),
        tuple(
            KnownPlace(one.id, one.name, one.facing is Facing.NONE and one.lamp_until is None)
            for one in household.places.values()
        ),
        tuple(
            KnownProduct(id=one.id, names=products[one.ingredient].words)
            for one in household.products.values()
            if one.ingredient in products
        ),
    )


def _awake(desk: Desk, *, is_first: bool) -> dict[int, bool]:
    """
    Give the chats an evening's message goes to, and whether it makes no sound there.

    In one's own quiet hours the first comes without a sound; what is said again, or waits, does not come, and
    where all that is left was taken it comes to the takers alone.
    """
    chats: dict[int, bool] = {}
    who = None if is_first else takers(desk)
    for one in desk.members:
        if not desk.household.is_away(one.id, desk.today) and (not who or one.id in who):
            chats[one.chat] = desk.household.is_quiet(desk.now, one.id) and chats.get(one.chat, True)
    return {chat: is_quiet for chat, is_quiet in chats.items() if is_first or not is_quiet}


def _gone_by_name(text: str, commands: "tuple[Command, ...]", desk: Desk) -> Outcome | None:
    """Find a plant that is gone and is told of, but where what was meant may name one."""
    may_name = any(isinstance(one, AddPlants | Undo | GiveFirstAid) for one in commands)
    return None if may_name else gone_by_name(text, commands, desk)


def _unslashed(text: str) -> str:
    """Any known word is a command after a slash: the platform's menus and people's habits ask for it."""
    command, space, rest = text.partition(" ")
    if not command.startswith("/") or command.lower() in SLASHED:
        return text
    return command[1:].replace("_", " ") + space + rest


def _tells(command: Command) -> bool:
    """Whether a command may write, and not only ask or answer."""
    return not isinstance(command, ASKING)


def _typed(question: Question, desk: Desk) -> tuple[Choice, ...]:
    """Give what words may answer; a bare yes on a later day is asked anew with its day."""
    asked_on = evening_of(question.asked_at, desk.household.zone)
    choices = tuple(one for one in question.choices if one.text is not ButtonText.PASSED_BY)
    if question.expecting is Expecting.LINES:
        named = [one for one in choices if one.text is ButtonText.WRITE_IT]
        yes = (Choice(ButtonText.YES, (_of_its_day(one.of, one.commands),), one.of) for one in named[:1])
        return (*yes, *choices)
    if asked_on == desk.today:
        return choices
    dated = (replace(one, commands=for_its_day(one, asked_on, desk)) for one in choices)
    return tuple(
        replace(one, commands=(_of_its_day(one.of, one.commands),))
        if one.text in {ButtonText.YES, ButtonText.WRITE_IT}
        and any(getattr(each, "on", None) is not None for each in one.commands)
        else one
        for one in dated
        if one.commands
    )


def _of_its_day(said: str, commands: "tuple[Command, ...]") -> Incomplete:
    return _whether_to_write(Missing.OF_A_DAY, said.strip("“”"), commands)


def _whether_to_write(missing: Missing, text: str, commands: "tuple[Command, ...]") -> Incomplete:
    choices = (Choice(ButtonText.WRITE_IT, commands), Choice(ButtonText.LEAVE_OUT, (Decline(),)))
    return Incomplete(missing=missing, text=text, choices=choices)


def _before_the_edit(incoming: Incoming, commands: "tuple[Command, ...]", desk: Desk) -> list[Entry]:
    """Give what an edited message wrote before, where it says something else now."""
    if not incoming.is_edit or not any(_tells(one) for one in commands):
        return []
    return written_by(desk.source, desk)


_OF_A_FIND = frozenset({Missing.AMOUNT, Missing.WHICH_PEST, Missing.SEEN_WHERE})


def _hangs_on_it(outcome: Outcome) -> bool:
    """Whether an answer says what is to be done, or that nothing is to be got."""
    is_had = isinstance(outcome, Shopping) and not (outcome.lacking or outcome.low)
    return is_had or isinstance(outcome, DueList | NothingDue | NoPlants)


def _gathered(outcomes: Iterable[Outcome]) -> list[Outcome]:
    """
    Say several places, and several treatments of a day, in one line, with the last question.

    What was described beside a find is the find's own sign: what else it could be is no answer then.
    """
    gathered: list[Outcome] = []
    told = list(outcomes)
    is_found = any(isinstance(one, FindLogged) or _asks_how_many(one) for one in told)
    for one in told:
        last = gathered[-1] if gathered else None
        if isinstance(one, PlacesSaved) and isinstance(last, PlacesSaved):
            gathered[-1] = PlacesSaved((*last.places, *one.places), (*last.lamps, *one.lamps))
        elif isinstance(one, RoundLogged) and isinstance(last, RoundLogged) and one.on == last.on:
            gathered[-1] = rounds_together(last, one)
        elif isinstance(one, Stocked) and any(isinstance(each, Stocked) and each.asking for each in gathered):
            gathered.append(replace(one, asking=None, to_read=None))  # one label at a time
        elif not (is_found and isinstance(one, Identified) and not one.plants):
            gathered.append(one)
    return gathered


def _asks_how_many(outcome: Outcome) -> bool:
    return isinstance(outcome, Asks) and outcome.missing is Missing.AMOUNT
