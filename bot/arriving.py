"""Who speaks, and of which home: strangers are met, the invited let in, members of several homes asked."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from bot.actions.action import Asking, Expecting
from bot.actions.begin_talk import Founded
from bot.actions.choose_home import WhichHome, home_choice, home_last_meant
from bot.actions.desk import Desk
from bot.actions.give_first_aid import Exposed
from bot.actions.incoming import Incoming, Press, Reaction
from bot.actions.ports import Member, Store
from bot.actions.press_button import numbers_of
from bot.actions.share import NotJoined, Stranger, join, tell_others, welcome_newcomer
from bot.actions.situation import Situation
from bot.domain.identity import HouseholdId
from bot.domain.knowledge import Knowledge
from bot.domain.value import replace
from bot.messages import answer_of, buttons_of, voice_of
from bot.phrases.emergencies import hear_emergency
from bot.wording.answer import Answer
from bot.wording.sentences import say
from bot.wording.voice import Voice

Answers = list[tuple[int, Answer]]


@dataclass(frozen=True)
class Arriving:
    """Finds the member behind a message; may_found: whether this /start text lets a person found a home."""

    knowledge: Knowledge
    may_found: Callable[[int, str], bool]

    def speaker(self, incoming: Incoming, store: Store, now: datetime, said: Answers) -> Member | None:
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
        self, member: Member, incoming: Incoming, store: Store, now: datetime, said: Answers
    ) -> Member | None:
        members = store.homes_of(incoming.person, incoming.chat)
        meant = _home_meant(incoming, store)
        chosen = next((one for one in members if one.household == meant), home_last_meant(members, now))
        if chosen is not None:
            store.choose_home(chosen, now)
            return chosen
        desk = Desk(store, member, self.knowledge, now, f"update:{incoming.update_id}")
        if hear_emergency(incoming.words, _anybody(now)):
            return member
        words = incoming.text
        buttons = tuple(
            row
            for one in members
            for row in buttons_of(
                store.offer(one.household, incoming.chat, (home_choice(one, words, store),), now)
            )
        )
        text = say(WhichHome(must_send_again=not words), voice_of(desk))
        said.append((incoming.chat, Answer(text=text, buttons=buttons)))
        return None

    def _joins(self, incoming: Incoming, store: Store, now: datetime, said: Answers) -> bool:
        """Let somebody in who brings an invitation, also who is known or could found a home."""
        code = _start_text(incoming)
        joined = join(code, incoming, store, now) if code else None
        match joined:
            case None:
                return False
            case NotJoined():
                text = say(joined, Voice(now.date(), ZoneInfo("UTC")))
                said.append((incoming.chat, Answer(text=text)))
            case newcomer:
                desk = Desk(store, newcomer, self.knowledge, now, f"update:{incoming.update_id}")
                said.append((incoming.chat, answer_of([welcome_newcomer(newcomer, store)], desk)))
                for chat, outcome in tell_others(newcomer, store):
                    said.append((chat, replace(answer_of([outcome], desk), is_silent=True)))
        return True

    def _meet(self, incoming: Incoming, store: Store, now: datetime, said: Answers) -> None:
        start = _start_text(incoming)
        if hear_emergency(incoming.words, _anybody(now)):
            text = say(Exposed(), Voice(now.date(), ZoneInfo("UTC")))
            said.append((incoming.chat, Answer(text=text)))
            return
        if start is not None and self.may_found(incoming.person, start):
            member = store.found_household(incoming.person, incoming.chat, incoming.name, now)
            desk = Desk(store, member, self.knowledge, now, f"update:{incoming.update_id}")
            founded = Founded(incoming.name, asking=Asking((), Expecting.TOWN))
            said.append((incoming.chat, answer_of([founded], desk)))
        elif store.refuse_stranger(incoming.person, now):
            text = say(Stranger(incoming.is_group), Voice(now.date(), ZoneInfo("UTC")))
            said.append((incoming.chat, Answer(text=text)))


def _anybody(now: datetime) -> Situation:
    """Give what is known of somebody whose home is not known."""
    return Situation(now=now, zone=ZoneInfo("UTC"), today=now.date())


def _home_meant(incoming: Incoming, store: Store) -> HouseholdId | None:
    """Tell which home a button or an evening's message that is answered was about."""
    if isinstance(incoming.kind, Press):
        question = store.question_by_id(numbers_of(incoming.kind.data)[0])
        return None if question is None else question.household
    under = incoming.kind if isinstance(incoming.kind, Reaction) else incoming.quoted
    return None if under is None else store.home_of_message(incoming.chat, under.message_id)


def _start_text(incoming: Incoming) -> str | None:
    is_start = incoming.text.split()[:1] == ["/start"]
    return incoming.text[len("/start") :].strip() if is_start else None
