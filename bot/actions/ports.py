"""What the actions need from outside: one unit of work on the store, in trade terms."""

from collections.abc import Sequence
from datetime import date, datetime
from typing import Any, Protocol

from bot.actions.action import Choice, Expecting
from bot.domain.identity import HouseholdId, MemberId, PhotoId, PlaceId, PlantId, ProductId
from bot.domain.journal import Draft, Entry
from bot.domain.value import Value


class Member(Value, kw_only=True):
    """A chat account in a household; chat is where the household is spoken with."""

    id: MemberId
    household: HouseholdId
    person: int
    chat: int
    name: str
    """As it may be shown; of two with one name in a home the later one carries a number."""
    is_owner: bool
    homes: int = 1
    """How many homes this person may mean in this chat."""
    chosen_at: datetime | None = None
    """When this one of several was last meant. Aware UTC."""


class Question(Value, kw_only=True):
    """The open question of a chat; its buttons carry `q<id>.<index of choice>`."""

    id: int
    household: HouseholdId
    chat: int
    expecting: Expecting
    choices: tuple[Choice, ...]
    asked_at: datetime
    """Aware UTC."""
    answered: int | None = None
    """The choice that was its answer."""
    answered_at: datetime | None = None


class Photos(Protocol):
    """The pictures themselves, outside the database."""

    def read(self, household: HouseholdId, photo: PhotoId) -> bytes | None:
        """Give a picture, None where it has not come yet or could not be kept."""


class NoPhotosKept:
    """Keeps no pictures: for conversations without a disk."""

    def read(self, household: HouseholdId, photo: PhotoId) -> bytes | None:
        """Give nothing."""
        del household, photo
        return None


class Store(Protocol):
    """One transaction; everything in it is committed together or not at all."""

    def member(self, person: int, chat: int) -> Member | None:
        """Find the member who speaks; in a group the chat decides the household, not the person's own."""

    def homes_of(self, person: int, chat: int) -> tuple[Member, ...]:
        """Find the member who speaks in each of the homes that may be meant in this chat."""

    def home_of_message(self, chat: int, message: int) -> HouseholdId | None:
        """Tell which home an evening's message of a chat was about."""

    def choose_home(self, member: Member, now: datetime) -> None:
        """Remember that this home was meant."""

    def is_in_several(self, chat: int) -> bool:
        """Whether a chat is spoken to by several homes; known of those that `due_households` gave."""

    def join_household(self, household: HouseholdId, person: int, chat: int, name: str) -> Member:
        """Add somebody who shares the plants."""

    def leave_household(self, person: int, household: HouseholdId, now: datetime) -> None:
        """End a membership; what the member told stays."""

    def new_invite(self, by: Member, now: datetime) -> tuple[str, datetime]:
        """Make a code that lets one person join, once, and say until when it holds; it is its maker's."""

    def take_invite(self, code: str, now: datetime) -> HouseholdId | None:
        """Spend a code; None when it is unknown, spent or too old."""

    def invited_to(self, code: str) -> HouseholdId | None:
        """Tell which home a code is or was for, spent or not; None for one that was never made."""

    def is_home_of_another(self, chat: int, household: HouseholdId) -> bool:
        """Whether another home lives in this chat."""

    def end_invites(self, household: HouseholdId, now: datetime) -> None:
        """Let no code of a home that was made before be good any more."""

    def members(self, household: HouseholdId) -> tuple[Member, ...]:
        """Everyone who shares the plants, in order of joining."""

    def found_household(self, person: int, chat: int, name: str, now: datetime) -> Member:
        """Make a household and its owner."""

    def make_owner(self, household: HouseholdId, number: MemberId) -> None:
        """Hand a household over: one member owns it, nobody else."""

    def forget_member(self, number: MemberId, now: datetime) -> None:
        """Erase a member's account and messages; what was told of plants stays without a name."""

    def forget_household(self, household: HouseholdId) -> None:
        """Erase a household with all that was told."""

    def exported(self, household: HouseholdId) -> dict[str, Any]:
        """Give the household as one document, without anybody's account."""

    def entries(self, household: HouseholdId) -> tuple[Entry, ...]:
        """Give the whole journal, by number."""

    def append(
        self, household: HouseholdId, drafts: Sequence[Draft], source: str, now: datetime
    ) -> tuple[Entry, ...]:
        """Add entries in order and give them their numbers."""

    def new_place(self, household: HouseholdId) -> PlaceId:
        """Give the number for a place about to be told."""

    def new_plant(self, household: HouseholdId) -> PlantId:
        """Give the number for a plant about to be told."""

    def new_product(self, household: HouseholdId) -> ProductId:
        """Give the number for a product about to be told."""

    def question(self, household: HouseholdId, chat: int) -> Question | None:
        """Give the open question of a chat, if any."""

    def question_by_id(self, number: int) -> Question | None:
        """Give a question, open or closed: old buttons stay safe to press."""

    def ask(
        self,
        household: HouseholdId,
        chat: int,
        expecting: Expecting,
        choices: Sequence[Choice],
        now: datetime,
    ) -> Question:
        """Open a question in a chat; an earlier one there is closed."""

    def offer(self, household: HouseholdId, chat: int, choices: Sequence[Choice], now: datetime) -> Question:
        """Keep buttons that nothing waits for; they become the open question only where none is open."""

    def answer_question(self, asked: Question, choice: int, now: datetime) -> None:
        """Close a question with the choice that was its answer."""

    def close_question(self, household: HouseholdId, chat: int) -> None:
        """Close the chat's open question, if any."""

    def new_photo(
        self, household: HouseholdId, file_id: str, album: str, chat: int, now: datetime
    ) -> PhotoId:
        """Note a picture that is to be fetched from the platform, and the chat it came from."""

    def count_photos(self, household: HouseholdId) -> int:
        """Count the pictures of a household."""

    def lost_photos(self, household: HouseholdId) -> frozenset[PhotoId]:
        """Give the pictures that could not be kept."""

    def photos_of_album(self, household: HouseholdId, album: str) -> tuple[PhotoId, ...]:
        """Give the pictures that were sent together."""

    def set_next_evening(self, household: HouseholdId, at: datetime | None) -> None:
        """Say when the household is to be looked at again. Aware UTC; None is never."""

    def due_households(self, now: datetime, limit: int) -> tuple[HouseholdId, ...]:
        """Households whose next evening has come, oldest first; on PostgreSQL claimed with SKIP LOCKED."""

    def earliest_evening(self) -> datetime | None:
        """Give the earliest next evening of all households."""

    def refuse_stranger(self, person: int, now: datetime) -> bool:
        """Whether a stranger gets an answer now: True at most once an hour; remembers it."""

    def question_message(self, number: int) -> tuple[int, str] | None:
        """(platform message id, text) of the message that asks a question, where it was sent."""

    def nudged_messages(self, household: HouseholdId, on: date) -> tuple[tuple[int, int, str], ...]:
        """(chat, platform message id, text) of the nudges sent for that evening."""
