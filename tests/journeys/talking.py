"""Whole conversations without a platform: the real words, actions and store, and a clock moved by hand."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from bot.actions.action import ButtonText, Choice, Command
from bot.actions.incoming import Incoming, Kind, Location, Press, Text
from bot.catalogue.load import load
from bot.conversation import Conversation, Said, SaidTonight
from bot.domain.fold import fold, valid
from bot.domain.household import Household
from bot.domain.identity import HouseholdId
from bot.domain.journal import Entry, Heard, Nudged, Payload
from bot.storage.database import Database
from bot.taking import key_of
from bot.wording.answer import Answer

ZONE = ZoneInfo("Europe/Brussels")
OWNER, PARTNER, STRANGER = 1, 2, 99
START = datetime(2026, 5, 2, 10, 0, tzinfo=ZONE)  # a Saturday
HOME = (
    "/start",
    "Gent",
    "hoya, landing, 15 cm\nsmall hoya, landing\nmoth orchid, kitchen\ncoffee plant, kitchen\nivy, study",
    "landing has no window",
    "kitchen faces north",
    "study looks north",
    "got soap, ready to use, every 7 days",
    "got alcohol",
    "landing is 21 degrees",
    "usual",
)


@dataclass(slots=True)
class Talk:
    """One bot, one clock, and what everybody said; the owner may found a household, nobody else."""

    database: Database
    now: datetime = START
    heard: list[Said] = field(default_factory=list)
    nudges: list[SaidTonight] = field(default_factory=list)
    shown: dict[int, list[Answer]] = field(default_factory=dict)
    names: dict[int, str] = field(default_factory=lambda: {OWNER: "Ada", PARTNER: "Bo"})
    conversation: Conversation = field(
        default_factory=lambda: Conversation(load().knowledge, lambda person, _: person == OWNER)
    )

    def say(
        self, text: str, *, at: datetime | None = None, person: int = OWNER, chat: int | None = None
    ) -> list[str]:
        """Write to the bot, and read what it answers there."""
        return self.send(Text(text), at=at, person=person, chat=chat)

    def asks(self, text: str) -> str:
        """Write to the bot, and read all it says to that, also what waits behind [More]."""
        said = self.say(text)
        while "More" in self.labels():
            said += self.press("More")
        return "\n".join(said)

    def passes_on(self, text: str, *, person: int = OWNER) -> list[str]:
        """Forward somebody else's message to the bot."""
        return self.send(Text(text), person=person, is_forwarded=True)

    def edits(self, message_id: int, text: str, *, person: int = OWNER) -> list[str]:
        """Change a message that was sent under that number."""
        return self.send(Text(text), person=person, message_id=message_id, is_edit=True)

    def press(self, label: str, *, person: int = OWNER) -> list[str]:
        """Press the newest button of that label which is in sight."""
        return self.press_data(self.button(label, person=person), person=person)

    def press_data(self, data: str, *, person: int = OWNER) -> list[str]:
        """Press a button by what it carries."""
        return self.send(Press(data, None, "callback"), person=person)

    def tell(self, *commands: Command, person: int = OWNER) -> list[str]:
        """Press a button that stands for these commands, whatever words may come to mean them."""
        with self.database.unit() as store:
            member = store.member(person, person)
            assert member is not None
            button = Choice(ButtonText.NAMED, commands, "a button")
            offered = store.offer(member.household, person, [button], self.now.astimezone(UTC))
        return self.press_data(f"q{offered.id}.0", person=person)

    def share(self, latitude: float, longitude: float) -> list[str]:
        """Share a location."""
        return self.send(Location(latitude, longitude))

    def send(
        self,
        kind: Kind,
        *,
        at: datetime | None = None,
        person: int = OWNER,
        chat: int | None = None,
        **about: Any,
    ) -> list[str]:
        """Send anything a person can send; about: that it is forwarded, an edit, a reply, or its number."""
        self.now = at or self.now
        incoming = Incoming(
            update_id=len(self.heard) + 1,
            chat=chat or person,
            person=person,
            name=self.names.get(person, "Somebody"),
            kind=kind,
            at=self.now,
            is_group=chat is not None,
            addressed=True,
            **about,
        )
        with self.database.unit() as store:
            said = self.conversation.hear(incoming, store, self.now.astimezone(UTC))
            for where, answer in said.answers:
                if (key := key_of(answer)) is not None:
                    row = store.queue(key, where, "sendMessage", {"text": answer.text}, self.now)
                    store.settle(self.now, {row: row} if row is not None else {})
        self.heard.append(said)
        for where, answer in said.answers:
            self.shown.setdefault(where, []).append(answer)
        return [answer.text for _, answer in said.answers]

    def button(self, label: str, *, person: int = OWNER) -> str:
        """Give the data of the newest button of that label."""
        rows = [row for answer in reversed(self.shown[person]) for row in answer.buttons]
        return next(one.data for row in rows for one in row if one.label == label)

    def labels(self, person: int = OWNER) -> list[str]:
        """Give the labels under the newest message."""
        return [one.label for row in self.shown[person][-1].buttons for one in row]

    def tick(self, at: datetime | None = None) -> list[str]:
        """Let the bot look at its clock, as it does every few seconds, and send what is owed."""
        self.now = at or self.now
        with self.database.unit() as store:
            new = self.conversation.send_evenings(store, self.now.astimezone(UTC)).nudges
            for one in new:
                row = store.queue(
                    one.key,
                    one.chat,
                    "sendMessage",
                    {"text": one.answer.text},
                    self.now,
                    household=one.household,
                )
                assert row is not None, f"{one.key} was sent before"
                store.settle(self.now, {row: row})
        self.nudges += new
        for one in new:
            self.shown.setdefault(one.chat, []).append(one.answer)
        return [one.answer.text for one in new]

    def evening(self) -> list[str]:
        """Pass the time until the bot next speaks up, for at most 60 days."""
        end = self.now + timedelta(days=60)
        while (due := self.next_at()) is not None and due <= end:
            new = self.tick(max(due, self.now))
            if new:
                return new
            if self.next_at() == due:
                break
        return []

    def next_at(self) -> datetime | None:
        """Tell when the bot next looks."""
        with self.database.unit() as store:
            at = store.earliest_evening()
        return None if at is None else at.astimezone(ZONE)

    def passes(self, **span: float) -> None:
        """Let time pass without a word."""
        self.now += timedelta(**span)

    def at(self, day: date, hour: int, minute: int = 0) -> None:
        """Put the clock to a time of a day."""
        self.now = datetime.combine(day, time(hour, minute), ZONE)

    def joins(self, person: int = PARTNER, household: int = 1) -> None:
        """Add somebody who shares the plants."""
        with self.database.unit() as store:
            store.join_household(HouseholdId(household), person, person, "Bo")

    def entries(self, household: int = 1) -> tuple[Entry, ...]:
        """Read the whole journal."""
        with self.database.unit() as store:
            return store.entries(HouseholdId(household))

    @property
    def home(self) -> Household:
        """The household as its journal tells it."""
        return fold(self.entries())

    def home_of(self, household: int) -> Household:
        """Any household as its journal tells it."""
        return fold(self.entries(household))

    def told(self) -> list[tuple[str | None, Payload]]:
        """Give what stands in the journal of what people told: plant and payload."""
        home = self.home
        return [
            (home.plants[one.plant].name if one.plant is not None else None, one.payload)
            for one in valid(self.entries())
            if not isinstance(one.payload, Heard | Nudged)
        ]

    def new_since(self, count: int) -> list[Payload]:
        """Give the payloads written after so many entries, the mark of an answered nudge left out."""
        return [one.payload for one in self.entries()[count:] if not isinstance(one.payload, Heard)]

    def set_up(self, texts: Sequence[str] = HOME) -> None:
        """Tell the bot about the home."""
        for text in texts:
            self.say(text)
