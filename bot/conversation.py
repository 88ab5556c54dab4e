"""One message's way through the layers: words to commands, commands to outcomes, outcomes to an answer."""

import logging
import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from functools import cached_property
from zlib import crc32
from zoneinfo import ZoneInfo

from bot.actions.add_plants import AddPlants, PlantsAdded
from bot.actions.begin_talk import BeginTalk, Founded
from bot.actions.button_texts import ButtonText
from bot.actions.choice import Choice
from bot.actions.choose_home import EnterHome, WhichHome, home_choice, home_last_meant
from bot.actions.come_back import ComeBack, look_first
from bot.actions.command import Command
from bot.actions.courtesy import Greet, Thanks
from bot.actions.decline import Decline, Declined
from bot.actions.deny import Deny
from bot.actions.desk import Desk, Memory
from bot.actions.give_first_aid import Exposed, GiveFirstAid
from bot.actions.hold import Hold
from bot.actions.incoming import Incoming, Location, Other, Photo, Press, Reaction, Text
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.isolate import IsolatedThem
from bot.actions.keep_photo import KeepPhoto, RefusePhoto, TooManyPhotos, plants_of_album, receive_photo
from bot.actions.keep_status import SetStatus, status_now
from bot.actions.log_check import CheckLogged
from bot.actions.log_find import FindLogged
from bot.actions.lose_plant import PlantsGone
from bot.actions.not_understood import NotUnderstood
from bot.actions.outcome import Asking, Outcome
from bot.actions.perform import perform
from bot.actions.pest_word import pest_words
from bot.actions.ports import Member, NoPhotosKept, Photos, Question, Store
from bot.actions.press_button import (
    ASKING,
    GOING_ON,
    KEPT,
    AnsweredAlready,
    ButtonExpired,
    is_alike,
    meant_by_press,
    numbers_of,
    settle_question,
)
from bot.actions.read_anew import ReadAnew
from bot.actions.say_anew import may_be_replaced, take_back, written_by
from bot.actions.send_evening import (
    LOOK_AGAIN,
    LeftOpen,
    NudgeText,
    StillThere,
    derive_evening,
    left_open,
    lines_left,
    plants_of_finds,
    refresh_evening,
    send_evening,
    what_is_left,
)
from bot.actions.set_place import PlacesSaved, untold_places
from bot.actions.set_town import NoSuchTown, SetCoordinates, TownSet, WhichTown
from bot.actions.set_up import go_on
from bot.actions.share import NotJoined, Stranger, join, tell_others, welcome_newcomer
from bot.actions.show_due import DueList
from bot.actions.show_history import told_already
from bot.actions.show_more import More
from bot.actions.situation import Asked, Expecting, KnownPlace, KnownPlant, KnownProduct, Situation
from bot.actions.skip_question import QuestionSkipped
from bot.actions.stock_product import Stocked
from bot.actions.undo import Undo
from bot.actions.walk_through import WalkStep
from bot.domain.identity import HouseholdId, PlaceId
from bot.domain.journal import Draft, Entry, Heard
from bot.domain.knowledge import Knowledge
from bot.phrases.denying import is_bare_no, is_plain_no
from bot.phrases.emergencies import hear_emergency
from bot.phrases.grammar import SLASHED, plants_named
from bot.phrases.reading import read_as, understand
from bot.phrases.saying import say_all
from bot.wording.answer import Answer, Button
from bot.wording.button_texts import button_text
from bot.wording.lines import fitted
from bot.wording.manner import in_manner, most_lines, notice
from bot.wording.nudge import say_answered, say_chosen
from bot.wording.sentences import FILES, PICTURES, attached, say
from bot.wording.voice import Voice

logger = logging.getLogger(__name__)

MAX_TEXT = 4096
LONG_TEXT = 2500
"""A longer answer is cut at a line, with "more". Judgement: two screens of a phone. [1]"""
CHOICES_A_ROW = 2
DONE_SIGNS = frozenset("👍👌✅✔☑💯🫡")
"""Signs that answer an evening's message. Judgement."""
SETTING_UP = (TownSet, PlantsAdded, PlacesSaved, QuestionSkipped)
IN_BETWEEN = (FindLogged, IsolatedThem, Stocked, Declined, DueList)
"""Answers that may stand in the middle of a setting-up, which then goes on."""
SIGN_PARTS = frozenset("\ufe0f\u200d🏻🏼🏽🏾🏿 ")
"""What a sign may be put together with: its colour, a joint, a space."""
HOUSEHOLDS_A_UNIT = 20
"""Households looked at in one transaction, so that messages never wait long. Judgement."""


@dataclass(slots=True)
class Said:
    """What the bot says to one incoming message, and earlier messages whose buttons come off (None)."""

    answers: list[tuple[int, Answer]] = field(default_factory=list)
    edits: list[tuple[int, int, Answer | None]] = field(default_factory=list)
    notice: str = ""
    """What is shown for a moment where a button was pressed."""
    statuses: dict[int, Answer | None] = field(default_factory=dict)
    """What the pinned message of a chat is to say now; None where there is to be none any more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SaidTonight:
    """One nudge to one chat; the key is natural, so that no evening is sent twice."""

    key: str
    household: HouseholdId
    chat: int
    answer: Answer
    status: Answer | None = None
    """What the chat's pinned message says from now on, where the home wants one."""


@dataclass(frozen=True, slots=True)
class Evenings:
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
    def _kinds(self) -> frozenset[str]:
        return frozenset(
            word for kind in self.knowledge.kinds.values() for word in (*kind.words, *kind.shared)
        )

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
        member = self._speaker(incoming, store, now, said)
        if member is None:
            return said
        member = replace(member, chat=incoming.chat)  # asked and answered where it is spoken
        desk = Desk(store, member, self.knowledge, now, _source(incoming), self.memory, self.photos)
        if isinstance(incoming.kind, Reaction) and not _answers_nudge(incoming.kind, incoming.chat, desk):
            return said
        commands = self._meant(incoming, desk)
        gone = _gone(incoming, commands, desk)
        if gone is not None:
            outcomes: list[Outcome] = [gone]
        elif isinstance(commands, Outcome):
            outcomes = [commands]
        else:
            outcomes = self._outcomes(commands, incoming, desk, said)
        answer = self._answer(outcomes, desk)
        shown_in = _walked_message(incoming, outcomes)
        if shown_in is not None:
            said.edits.append((incoming.chat, shown_in, answer))
        else:
            said.answers.append((incoming.chat, answer))
        notices = ((chat, self._answer([one], desk)) for chat, one in desk.elsewhere)
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
        settle_question(commands, desk)
        before, open_before = _before_the_edit(incoming, commands, desk), lines_left(desk)
        outcomes: list[Outcome] = [take_back(before, desk)] if before else []
        outcomes += _gathered(outcome for command in commands for outcome in self._done(command, desk))
        outcomes.sort(key=lambda one: isinstance(one, WhichTown))  # its buttons are needed most
        outcomes = told_already(outcomes, desk)
        outcomes += _asked_next(outcomes, desk)
        if was_silent and not any(isinstance(one, Hold | ComeBack | GiveFirstAid) for one in commands):
            outcomes.append(look_first(desk))
        if lines_left(desk) != open_before:
            _show_what_is_left(desk, said)
        _take_off_buttons(incoming, desk, said)
        return outcomes

    @staticmethod
    def _statuses(commands: object, desk: Desk, next_at: datetime | None) -> dict[int, Answer | None]:
        """Say what the pinned messages of the home's chats are to say after something was written."""
        was_ended = isinstance(commands, tuple) and SetStatus(is_wanted=False) in commands
        if not (was_ended or desk.household.wants_status):
            return {}
        told = None if was_ended else _status(desk, next_at)
        return {member.chat: told for member in desk.store.members(desk.member.household)}

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
        status = _status(desk, refresh_evening(desk)) if desk.household.wants_status else None
        away = desk.household.is_away
        chats = dict.fromkeys(one.chat for one in store.members(household) if not away(one.id, desk.today))
        said = [
            SaidTonight(
                key=f"nudge:{household}:{nudge.on}:{nudge.count}:{chat}",
                household=household,
                chat=chat,
                answer=self._nudge(nudge, desk, chat),
                status=status,
            )
            for chat in chats
        ]
        desk.forget()
        return said

    def _speaker(self, incoming: Incoming, store: Store, now: datetime, said: Said) -> Member | None:
        """Find who speaks, and of which home; None where they are met, let in, or asked which home."""
        if not incoming.is_edit and self._joins(incoming, store, now, said):
            return None
        member = store.member(incoming.person, incoming.chat)
        if member is None and not isinstance(incoming.kind, Reaction):
            self._meet(incoming, store, now, said)
        if member is None or member.homes == 1:
            return member
        return self._of_several(member, incoming, store, now, said)

    def _of_several(
        self, member: Member, incoming: Incoming, store: Store, now: datetime, said: Said
    ) -> Member | None:
        members = store.homes_of(incoming.person, incoming.chat)
        meant = self._home_meant(incoming, store)
        chosen = next((one for one in members if one.household == meant), home_last_meant(members, now))
        if chosen is not None:
            store.choose_home(chosen, now)
            return chosen
        desk = Desk(store, member, self.knowledge, now, f"update:{incoming.update_id}")
        if self._emergency(incoming, self.situation(desk)):
            return member
        words = incoming.kind.text if isinstance(incoming.kind, Text) else ""
        buttons = tuple(
            row
            for one in members
            for row in _buttons(
                store.offer(one.household, incoming.chat, (home_choice(one, words, store),), now)
            )
        )
        text = say(WhichHome(must_send_again=not words), _voice(desk))
        said.answers.append((incoming.chat, Answer(text=text, buttons=buttons)))
        return None

    @staticmethod
    def _home_meant(incoming: Incoming, store: Store) -> HouseholdId | None:
        """Tell which home a button or an evening's message that is answered was about."""
        if isinstance(incoming.kind, Press):
            question = store.question_by_id(numbers_of(incoming.kind.data)[0])
            return None if question is None else question.household
        under = incoming.kind if isinstance(incoming.kind, Reaction) else incoming.quoted
        return None if under is None else store.home_of_message(incoming.chat, under.message_id)

    def _joins(self, incoming: Incoming, store: Store, now: datetime, said: Said) -> bool:
        """Let somebody in who brings an invitation, also who is known or could found a home."""
        code = self._start_text(incoming)
        joined = join(code, incoming, store, now) if code else None
        match joined:
            case None:
                return False
            case NotJoined():
                text = say(joined, Voice(now.date(), ZoneInfo("UTC")))
                said.answers.append((incoming.chat, Answer(text=text)))
            case newcomer:
                desk = Desk(store, newcomer, self.knowledge, now, f"update:{incoming.update_id}")
                said.answers.append((incoming.chat, self._answer([welcome_newcomer(newcomer, store)], desk)))
                for chat, outcome in tell_others(newcomer, store):
                    said.answers.append((chat, replace(self._answer([outcome], desk), is_silent=True)))
        return True

    def _meet(self, incoming: Incoming, store: Store, now: datetime, said: Said) -> None:
        start = self._start_text(incoming)
        if self._emergency(incoming, Situation(now=now, zone=ZoneInfo("UTC"), today=now.date())):
            text = say(Exposed(), Voice(now.date(), ZoneInfo("UTC")))
            said.answers.append((incoming.chat, Answer(text=text)))
            return
        if start is not None and self.may_found(incoming.person, start):
            member = store.found_household(incoming.person, incoming.chat, incoming.name, now)
            desk = Desk(store, member, self.knowledge, now, f"update:{incoming.update_id}")
            founded = Founded(incoming.name, asking=Asking((), Expecting.TOWN))
            said.answers.append((incoming.chat, self._answer([founded], desk)))
        elif store.refuse_stranger(incoming.person, now):
            text = say(Stranger(incoming.is_group), Voice(now.date(), ZoneInfo("UTC")))
            said.answers.append((incoming.chat, Answer(text=text)))

    @staticmethod
    def _start_text(incoming: Incoming) -> str | None:
        if isinstance(incoming.kind, Text) and incoming.kind.text.split()[:1] == ["/start"]:
            return incoming.kind.text[len("/start") :].strip()
        return None

    @staticmethod
    def _emergency(incoming: Incoming, situation: Situation) -> Command | None:
        """Hear an emergency in any words sent: new, edited, passed on, or under a photo."""
        match incoming.kind:
            case Text(text=text) | Photo(caption=text):
                return hear_emergency(text, situation)
            case _:
                return None

    def _meant(
        self, incoming: Incoming, desk: Desk
    ) -> "tuple[Command, ...] | ButtonExpired | AnsweredAlready":
        """Read what was sent, emergencies before all; what is passed on is asked about."""
        situation = self.situation(desk)
        if isinstance(incoming.kind, Text) and is_bare_no(incoming.kind.text):
            is_later = is_plain_no(incoming.kind.text) and _is_under_open_nudge(incoming, desk)
            return self._commands(incoming, situation, desk) if is_later else (Deny(),)
        emergency = self._emergency(incoming, situation)
        if emergency is not None:
            return (emergency,)
        if isinstance(incoming.kind, Text) and _is_sign(incoming.kind.text):
            return understand("done", situation) if _is_under_open_nudge(incoming, desk) else (Thanks(),)
        commands = self._commands(incoming, situation, desk)
        if isinstance(commands, Outcome) or not any(_tells(one) for one in commands):
            return commands
        if incoming.is_forwarded:
            return (_whether_to_write(Missing.FORWARDED, incoming, commands),)
        if incoming.is_edit and not may_be_replaced(written_by(desk.source, desk)):
            return (_whether_to_write(Missing.EDITED, incoming, commands),)
        return commands

    def _commands(
        self, incoming: Incoming, situation: Situation, desk: Desk
    ) -> "tuple[Command, ...] | ButtonExpired | AnsweredAlready":
        match incoming.kind:
            case Text(text=text):
                return understand(_unslashed(text), situation)
            case Location(latitude=latitude, longitude=longitude):
                return (SetCoordinates(latitude, longitude),)
            case Press(data=data):
                commands = meant_by_press(data, desk)
                match commands:
                    case (EnterHome(words=words),) if words:
                        return understand(words, situation)
                    case (ReadAnew(text=text, subject=subject),):
                        return read_as(text, subject, situation).commands()
                    case _:
                        return commands
            case Photo() as photo:
                return self._of_photo(photo, situation, desk)
            case Reaction():
                return understand("done", situation)
            case Other(what=what):
                return understand(what, situation)

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
        plants, places, shelf = desk.once(_named)
        asked: dict[tuple[int, object], Asked] = {
            (line.plant, part.method): Asked(line.plant, part.method, evening.is_beside(line, desk.now))
            for line, part in evening.named(desk.now)
            if line.plant is not None
        }
        return Situation(
            now=desk.now,
            zone=household.zone,
            today=desk.today,
            plants=plants,
            places=places,
            shelf=shelf,
            tonight=tuple(asked.values()),
            found_today=frozenset(
                plant.id
                for plant in household.living
                if any(find.on == desk.today for case in plant.open_cases for find in case.finds)
            ),
            pests=self._pests,
            ingredients=self._ingredients,
            kinds=self._kinds,
            expecting=question.expecting if question else Expecting.NOTHING,
            choices=question.choices if question else (),
            choice_texts=tuple(button_text(choice) for choice in question.choices) if question else (),
            units=household.units,
            quiet_from_hour=household.quiet_from.hour,
            lacks_town=not household.is_zone_told,
            untold=tuple(place.name for place in untold_places(desk)),
            is_held=household.is_held(desk.today) or household.is_away(desk.member.id, desk.today),
        )

    @staticmethod
    def _mark_heard(commands: "tuple[Command, ...]", desk: Desk) -> None:
        """
        Any answer counts, thanks excepted: no repeat tonight.

        The nudge's buttons go line by line with what is settled, and the others read who answered: who merely
        asks, or is not understood, has settled nothing.
        """
        nudge = desk.household.nudge
        is_courtesy = all(isinstance(one, Thanks | Greet | BeginTalk) for one in commands)
        is_answer = nudge is not None and not nudge.is_heard and not is_courtesy
        if is_answer or desk.household.is_silent:
            desk.write([Draft(payload=Heard(), happened_at=desk.now, happened_on=desk.today)])

    def _answer(self, outcomes: list[Outcome], desk: Desk) -> Answer:
        text, offers = self._words(outcomes, desk)
        answer = Answer(
            text=text,
            buttons=_asked(outcomes, offers, desk),
            picture=attached(outcomes, _voice(desk), PICTURES),
            document=attached(outcomes, _voice(desk), FILES),
        )
        return in_manner(answer, outcomes)

    @staticmethod
    def _words(outcomes: Sequence[Outcome], desk: Desk) -> tuple[str, tuple[Choice, ...]]:
        """Word outcomes as long as a phone bears; the buttons beside them, and one for what waits."""
        voice = _voice(desk)
        said = dict.fromkeys(fitted(say(one, voice), most_lines(one)) for one in outcomes)
        text, rest = split("\n\n".join(shown for shown, _ in said if shown))
        offers = tuple(offer for one in outcomes for offer in one.offers)
        waiting = "\n\n".join(part for part in (rest, *(waits for _, waits in said)) if part)
        more = (Choice(ButtonText.MORE, (More(waiting),)),) if waiting else ()
        return cut(text), (*offers, *more)

    def _nudge(self, nudge: NudgeText | StillThere, desk: Desk, chat: int) -> Answer:
        assert nudge.asking is not None
        asking = nudge.asking
        left = self._left_open(desk, chat) if isinstance(nudge, NudgeText) else None
        told = [nudge] if left is None else [nudge, left]
        text, more = self._words(told, desk)
        open_still = () if left is None else left_open(desk, chat)
        choices = (*asking.choices, *open_still, *more)
        question = desk.store.ask(desk.member.household, chat, asking.expecting, choices, desk.now)
        answer = in_manner(Answer(text=text, buttons=_buttons(question)), [nudge])
        return replace(answer, text=cut(_of_home(answer.text, chat, desk)))

    def _left_open(self, desk: Desk, chat: int) -> LeftOpen | None:
        """Give what was asked in a chat and is not answered, which lapses with this evening's message."""
        wanted = left_open(desk, chat)
        if len(wanted) > 1 and (seen_on := plants_of_finds(wanted)):
            return LeftOpen(seen_on=desk.names(seen_on))
        offered = say_all(wanted[0].commands, self.situation(desk)) if len(wanted) == 1 else None
        return LeftOpen(offered=offered) if offered else None


def _status(desk: Desk, next_at: datetime | None) -> Answer:
    return Answer(text=say(status_now(desk, next_at), _voice(desk)), is_silent=True)


def _named(
    desk: Desk,
) -> tuple[tuple[KnownPlant, ...], tuple[KnownPlace, ...], tuple[KnownProduct, ...]]:
    """Give what a home calls by name; the same value as long as nothing is told."""
    household, products = desk.household, desk.knowledge.products
    return (
        tuple(KnownPlant(id=one.id, names=(one.name,), place=one.place) for one in household.living),
        tuple(KnownPlace(one.id, one.name) for one in household.places.values()),
        tuple(
            KnownProduct(id=one.id, names=products[one.ingredient].words)
            for one in household.products.values()
            if one.ingredient in products
        ),
    )


def _unslashed(text: str) -> str:
    """Any known word is a command after a slash: the platform's menus and people's habits ask for it."""
    command, space, rest = text.partition(" ")
    if not command.startswith("/") or command.lower() in SLASHED:
        return text
    return command[1:].replace("_", " ") + space + rest


def _source(incoming: Incoming) -> str:
    """Name what entries come from: a message keeps its name when it is edited, a press has none."""
    if incoming.message_id is None or not isinstance(incoming.kind, Text | Photo):
        return f"update:{incoming.update_id}"
    if not incoming.is_group:
        return f"message:{incoming.message_id}"
    # numbers are given group by group, and one home may be spoken with in two
    return f"group:{crc32(str(incoming.chat).encode()):x}:{incoming.message_id}"


def _tells(command: Command) -> bool:
    """Whether a command may write, and not only ask or answer."""
    return not isinstance(command, ASKING)


def _whether_to_write(missing: Missing, incoming: Incoming, commands: "tuple[Command, ...]") -> Incomplete:
    choices = (Choice(ButtonText.WRITE_IT, commands), Choice(ButtonText.LEAVE_OUT, (Decline(),)))
    text = incoming.kind.text if isinstance(incoming.kind, Text) else ""
    return Incomplete(missing=missing, text=text, choices=choices)


def _before_the_edit(incoming: Incoming, commands: "tuple[Command, ...]", desk: Desk) -> list[Entry]:
    """Give what an edited message wrote before, where it says something else now."""
    if not incoming.is_edit or not any(_tells(one) for one in commands):
        return []
    return written_by(desk.source, desk)


def _is_sign(text: str) -> bool:
    """Whether a text is nothing but a thumb or a tick."""
    return bool(text.strip()) and all(one in DONE_SIGNS or one in SIGN_PARTS for one in text.strip())


def _is_under_open_nudge(incoming: Incoming, desk: Desk) -> bool:
    """Whether a sign stands directly under an evening's unanswered message, or replies to one."""
    nudge = desk.household.nudge
    if nudge is None or not desk.evening.named(desk.now):
        return False
    if incoming.quoted is not None:
        told = desk.store.nudged_messages(desk.member.household, nudge.on)
        return any((incoming.chat, incoming.quoted.message_id) == one[:2] for one in told)
    return not nudge.is_heard and bool(lines_left(desk))


def _answers_nudge(sign: Reaction, chat: int, desk: Desk) -> bool:
    """Whether a sign says "done": it stands under the last evening's message, and something there is open."""
    nudge = desk.household.nudge
    if nudge is None or not any(one[:1] in DONE_SIGNS for one in sign.signs):
        return False
    told = desk.store.nudged_messages(desk.member.household, nudge.on)
    return any((chat, sign.message_id) == one[:2] for one in told) and bool(desk.evening.named(desk.now))


def _voice(desk: Desk) -> Voice:
    household = desk.household
    standing: dict[PlaceId | None, list[str]] = {}
    for plant in household.living:
        standing.setdefault(plant.place, []).append(plant.name)
    places = household.places
    return Voice(
        today=desk.today,
        zone=household.zone,
        units=household.units,
        clock_hours=household.clock_hours,
        standing=tuple(
            (places[place].name if place in places else "no place", tuple(names))
            for place, names in standing.items()
        ),
    )


def _show_what_is_left(desk: Desk, said: Said) -> None:
    """Leave the evening's messages with buttons for what is open still; the others read who answered."""
    nudge, left, here = desk.household.nudge, what_is_left(desk), desk.member.chat
    if nudge is None:
        return
    choices = left.asking.choices if left is not None and left.asking is not None else ()
    for chat, message, text in desk.store.nudged_messages(desk.member.household, nudge.on):
        told = (
            text
            if left is None or not text
            else _of_home(fitted(say(left, _voice(desk)), most_lines(left))[0], chat, desk)
        )
        if chat != here:
            told = f"{told}\n\n{say_answered(desk.speaker, _voice(desk).clock(desk.now))}"
        buttons = _buttons(_offered(chat, choices, desk)) if choices else ()
        is_bare = not text or (chat == here and not buttons)
        said.edits.append((chat, message, None if is_bare else Answer(text=cut(told), buttons=buttons)))


def _of_home(text: str, chat: int, desk: Desk) -> str:
    """Name the home that an evening's message is of, in a chat that speaks to several."""
    if not (desk.store.is_in_several(chat) or (chat == desk.member.chat and desk.member.homes > 1)):
        return text
    here = next(one for one in desk.store.members(desk.member.household) if one.chat == chat)
    return f"{button_text(home_choice(here, '', desk.store))}:\n{text}"


def _offered(chat: int, choices: tuple[Choice, ...], desk: Desk) -> Question:
    """Keep the buttons of what is left as the evening's, unless something else is being asked there."""
    store, household = desk.store, desk.member.household
    asked = store.question(household, chat)
    if asked is None or asked.expecting is Expecting.LINES:
        return store.ask(household, chat, Expecting.LINES, choices, desk.now)
    return store.offer(household, chat, choices, desk.now)


def _take_off_buttons(incoming: Incoming, desk: Desk, said: Said) -> None:
    """Show the answer under the message that asked, without its buttons; what only explains stays."""
    if not isinstance(incoming.kind, Press) or incoming.kind.message_id is None:
        return
    question = desk.store.question_by_id(numbers_of(incoming.kind.data)[0])
    if question is None or question.answered is None or question.expecting in KEPT:
        return
    answer = question.choices[question.answered]
    idle = [one for one in question.choices if all(isinstance(c, ASKING) for c in one.commands)]
    declined = [one for one in question.choices if all(isinstance(c, Decline) for c in one.commands)]
    if all(is_alike(one, answer) for one in question.choices if one not in (*idle, *declined)):
        text = incoming.kind.text and cut(f"{incoming.kind.text}\n{say_chosen(button_text(answer))}")
        shown = Answer(text=text, buttons=_buttons(question, idle)) if text else None
        said.edits.append((incoming.chat, incoming.kind.message_id, shown))


def _walked_message(incoming: Incoming, outcomes: list[Outcome]) -> int | None:
    """Give the message that a tap of a check walk turns into the next plant: one message does it all."""
    is_next = bool(outcomes) and isinstance(outcomes[-1], WalkStep)
    is_short = all(isinstance(one, WalkStep | CheckLogged) for one in outcomes)
    if is_next and is_short and isinstance(incoming.kind, Press):
        return incoming.kind.message_id
    return None


def _gathered(outcomes: Iterable[Outcome]) -> list[Outcome]:
    """Say several places of one message in one line, with the last question."""
    gathered: list[Outcome] = []
    for one in outcomes:
        last = gathered[-1] if gathered else None
        if isinstance(one, PlacesSaved) and isinstance(last, PlacesSaved):
            gathered[-1] = PlacesSaved((*last.places, *one.places))
        else:
            gathered.append(one)
    return gathered


def _asked_next(outcomes: list[Outcome], desk: Desk) -> list[Outcome]:
    """Go on with the setting-up where something of it was told, or where a find came before it was over."""
    told = [one for one in outcomes if isinstance(one, SETTING_UP)]
    is_over = desk.household.is_zone_told and bool(desk.household.living) and not untold_places(desk)
    is_between = not is_over and any(isinstance(one, IN_BETWEEN) for one in outcomes)
    is_asked_of_town = any(isinstance(one, WhichTown | NoSuchTown) for one in outcomes)
    is_of_old_places = all(isinstance(one, PlantsAdded) and not one.new_places for one in told)
    is_told_before = (
        bool(told) and is_of_old_places and desk.household.is_zone_told and bool(untold_places(desk))
    )
    if desk.is_home_erased or is_asked_of_town or is_told_before or not (told or is_between):
        return []  # who left the window's question open is not asked it with each plant
    skipped = next((one.skipped for one in told if isinstance(one, QuestionSkipped)), Expecting.NOTHING)
    return [go_on(desk, skipped=skipped, is_free=all(one.asking is None for one in outcomes))]


def _asked(outcomes: list[Outcome], offers: tuple[Choice, ...], desk: Desk) -> tuple[tuple[Button, ...], ...]:
    """Open the question that an answer ends with; what is only offered closes no other."""
    store, household, chat = desk.store, desk.member.household, desk.member.chat
    asking = next((one.asking for one in reversed(outcomes) if one.asking is not None), None)
    if asking is not None:
        shown, open_now = (*asking.choices, *offers), desk.question
        if open_now is not None and open_now.expecting in GOING_ON and asking.expecting is Expecting.CHOICE:
            # what is under way is not over because something is asked beside it
            kept = (*shown, *(one for one in open_now.choices if one not in shown))
            asked = store.ask(household, chat, open_now.expecting, kept, desk.now)
            return _buttons(replace(asked, choices=shown))
        return _buttons(store.ask(household, chat, asking.expecting, shown, desk.now))
    if not offers:
        return ()
    if desk.question is not None and _is_idle(desk.question):
        return _buttons(store.ask(household, chat, Expecting.CHOICE, offers, desk.now))
    return _buttons(store.offer(household, chat, offers, desk.now))


def _is_idle(question: Question) -> bool:
    """Whether nothing waits for an answer: it only offers to tell more."""
    said = [command for choice in question.choices for command in choice.commands]
    return bool(said) and all(isinstance(one, ASKING) for one in said)


def _buttons(question: Question, only: Sequence[Choice] | None = None) -> tuple[tuple[Button, ...], ...]:
    buttons = [
        Button(button_text(choice), f"q{question.id}.{number}")
        for number, choice in enumerate(question.choices)
        if only is None or choice in only
    ]
    return tuple(
        tuple(buttons[first : first + CHOICES_A_ROW]) for first in range(0, len(buttons), CHOICES_A_ROW)
    )


def _gone(
    incoming: Incoming, commands: "tuple[Command, ...] | ButtonExpired | AnsweredAlready", desk: Desk
) -> PlantsGone | None:
    """Find the exact name of a plant that is gone, so that a double send never reaches its namesake."""
    if not isinstance(incoming.kind, Text) or isinstance(commands, Outcome):
        return None
    if any(isinstance(one, AddPlants | Undo | GiveFirstAid) for one in commands):
        return None
    household = desk.household
    living = {plant.name.casefold() for plant in household.living}
    lost = [
        one.name for one in household.plants.values() if one.lost_on and one.name.casefold() not in living
    ]
    if not lost:
        return None
    rest = incoming.kind.text.casefold()
    for name in sorted(living, key=len, reverse=True):
        rest = re.sub(rf"\b{re.escape(name)}\b", " ", rest)
    named = tuple(name for name in lost if re.search(rf"\b{re.escape(name.casefold())}\b", rest))
    return PlantsGone(named) if named else None


def split(text: str) -> tuple[str, str]:
    """Cut a long answer at a line's end: what is shown now, and what "more" shows."""
    if len(text) <= LONG_TEXT:
        return text, ""
    at = text.rfind("\n", 0, LONG_TEXT)
    return (text[:at], text[at + 1 :]) if at > 0 else (text, "")


def cut(text: str) -> str:
    """Keep a message within the platform's 4,096 characters."""
    return text if len(text) <= MAX_TEXT else text[: MAX_TEXT - 1] + "…"
