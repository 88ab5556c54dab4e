"""What an action works at: one member's household within one unit of work."""

from collections import OrderedDict
from collections.abc import Callable, Iterable
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from threading import Lock
from typing import Any, TypeVar

from bot.actions.ports import Member, NoPhotosKept, Photos, Question, Store
from bot.domain.agenda import Agenda, Task, plan
from bot.domain.fold import Folded, fold_on, is_longer
from bot.domain.household import Case, Household, Plant, Product
from bot.domain.identity import EntryId, HouseholdId, MemberId, PlantId, ProductId
from bot.domain.journal import (
    CheckedClean,
    Draft,
    Entry,
    Found,
    IsolatedNow,
    Payload,
    PlantSet,
    ReleasedNow,
    SignSeen,
    Treated,
    Voided,
    Watered,
    evening_of,
)
from bot.domain.knowledge import Knowledge
from bot.domain.outbreak import Outbreak, outbreak_on
from bot.domain.tonight import Tonight, tonight
from bot.domain.value import Value, replace

T = TypeVar("T")

DATED_AT = time(12)
"""Clock time of an entry told for another day, whose hour nobody knows. Judgement."""


AGENDAS_KEPT = 4
TOLD_ONCE: tuple[tuple[type[Payload], ...], ...] = (
    (Found, SignSeen, CheckedClean, ReleasedNow, Treated),
    (IsolatedNow,),
    (PlantSet,),
    (Watered,),
)
"""What is told of a plant, by what it would be news after."""


@dataclass(slots=True)
class Known:
    """A journal folded, and the plans derived from just that."""

    folded: Folded = field(default_factory=Folded)
    agendas: dict[date, Agenda] = field(default_factory=dict)
    evenings: dict[date, Tonight] = field(default_factory=dict)
    derived: dict[object, Any] = field(default_factory=dict)
    """By the function that derived it."""

    def on(self, entries: tuple[Entry, ...]) -> "Known":
        """Give what is known of a journal that goes on from this one, or of any other."""
        if len(entries) == len(self.folded.entries) and is_longer(entries, self.folded.entries):
            return self
        folded = fold_on(entries, self.folded)
        now, before = folded.household, self.folded.household
        # what was sent or heard changes no plan, but that somebody is heard again
        is_same = now.derived is before.derived and now.heard_again_on == before.heard_again_on
        return Known(folded, self.agendas, derived=self.derived) if is_same else Known(folded)

    def forget(self) -> None:
        """Let go of what refers back to itself: else only the collector of cycles would free it."""
        for outbreak in self.folded.household.derived.values():
            outbreak.memo.clear()
        self.folded.household.derived.clear()


class Words(Value):
    """What somebody said when, by the message's source; kept in memory for some minutes of talk alone."""

    source: str
    text: str
    at: datetime


SPOKEN_OF_FOR = timedelta(minutes=15)
"""So long "them" may stand for the plants told of, and words may go on with those before. Judgement."""


class Memory:
    """
    What was derived lately, by household, and what was said last: forgetting costs time, or a question.

    What is derived holds for the very entries it was derived from; a journal that goes on is derived on.
    """

    def __init__(self, households: int = 256) -> None:
        self._households = households
        self._known: OrderedDict[HouseholdId, Known] = OrderedDict()
        self._said: OrderedDict[MemberId, tuple[Words, ...]] = OrderedDict()
        self._lock = Lock()

    def said_before(self, words: Words, member: MemberId) -> Words | None:
        """Give what somebody said just before, and keep this for the next time; a message twice is one."""
        with self._lock:
            while self._said and words.at - next(iter(self._said.values()))[-1].at > SPOKEN_OF_FOR:
                self._said.popitem(last=False)  # the longest silent first
            before = [one for one in self._said.pop(member, ()) if one.source != words.source][-1:]
            self._said[member] = (*before, words)
        return before[0] if before and words.at - before[0].at <= SPOKEN_OF_FOR else None

    def forget_words(self, members: Iterable[MemberId]) -> None:
        """Forget what people said who are erased."""
        with self._lock:
            for member in members:
                self._said.pop(member, None)

    def recall(self, household: HouseholdId, entries: tuple[Entry, ...]) -> Known:
        """Give what is known of a journal, deriving it if need be."""
        with self._lock:
            before = self._known.get(household) or Known()
        known = before.on(entries)
        with self._lock:
            self._known[household] = known
            self._known.move_to_end(household)
            dropped = self._known.popitem(last=False)[1] if len(self._known) > self._households else before
        if dropped.folded.household.derived is not known.folded.household.derived:
            dropped.forget()
        return known


@dataclass(slots=True)
class Desk:
    """Reads the household, writes to its journal; what is written counts at once."""

    store: Store
    member: Member
    knowledge: Knowledge
    now: datetime
    source: str
    memory: Memory = field(default_factory=Memory)
    photos: Photos = field(default_factory=NoPhotosKept)
    has_written: bool = field(default=False, init=False)
    has_told: bool = field(default=False, init=False)
    """Whether anything the person told was written."""
    told_already: list[Draft] = field(default_factory=list, init=False)
    """What the person told a second time: it stands there, and is not written again."""
    to_set_apart: list[PlantId] = field(default_factory=list, init=False)
    """Plants with a find in this message that are not kept apart yet."""
    elsewhere: list[tuple[int, Any]] = field(default_factory=list, init=False)
    """What other chats are told by this message: chat and outcome."""
    is_home_erased: bool = field(default=False, init=False)
    is_asking: bool = field(default=False, init=False)
    """Whether this message opened a question that wants an answer first."""
    _entries: tuple[Entry, ...] | None = field(default=None, init=False)
    _known: Known | None = field(default=None, init=False)
    _today: date | None = field(default=None, init=False)

    @property
    def members(self) -> tuple[Member, ...]:
        """Everyone who shares the plants, in order of joining."""
        return self.store.members(self.member.household)

    @property
    def others(self) -> tuple[Member, ...]:
        """Everyone else who shares the plants."""
        return tuple(one for one in self.members if one.id != self.member.id)

    @property
    def speaker(self) -> str:
        """Name who speaks, as the home calls them."""
        return next((one.name for one in self.members if one.id == self.member.id), self.member.name)

    @property
    def authors(self) -> dict[MemberId | None, str]:
        """Name who may have told an entry; nobody where nobody shares the plants."""
        return {one.id: one.name for one in self.members} if self.others else {}

    @property
    def entries(self) -> tuple[Entry, ...]:
        """The whole journal, including what this message wrote."""
        if self._entries is None:
            self._entries = self.store.entries(self.member.household)
        return self._entries

    @property
    def household(self) -> Household:
        """The household as it stands, including what this message wrote."""
        known = self._known  # asked hundreds of times a message
        return (self._now_known if known is None else known).folded.household

    @property
    def _now_known(self) -> Known:
        if self._known is None:
            self._known = self.memory.recall(self.member.household, self.entries)
        return self._known

    @property
    def today(self) -> date:
        """The evening's date."""
        if self._today is None:
            self._today = evening_of(self.now, self.household.zone)
        return self._today

    @property
    def agenda(self) -> Agenda:
        """The plan from today on."""
        return self.agenda_on(self.today)

    def forget(self) -> None:
        """Free what was derived for this desk at once: many homes in a row would hold up everything else."""
        self._now_known.forget()

    def agenda_on(self, day: date) -> Agenda:
        """Give the plan from a day on."""
        agendas = self._now_known.agendas
        if day not in agendas:
            if len(agendas) >= AGENDAS_KEPT:
                agendas.clear()
            agendas[day] = plan(self.household, self.knowledge, day)
        return agendas[day]

    def draft(
        self,
        payload: Payload,
        *,
        plant: PlantId | None = None,
        on: date | None = None,
        at: datetime | None = None,
    ) -> Draft:
        """Make an entry, dated as told; undated is now."""
        household = self.household
        if at is not None:
            return Draft(
                payload=payload,
                happened_at=at,
                happened_on=evening_of(at, household.zone),
                member=self.member.id,
                plant=plant,
            )
        if on is None or on == self.today:
            at, on = self.now, self.today
        else:
            at = datetime.combine(on, DATED_AT, household.zone)
        return Draft(payload=payload, happened_at=at, happened_on=on, member=self.member.id, plant=plant)

    def write(self, drafts: Iterable[Draft]) -> tuple[Entry, ...]:
        """Append to the journal what does not stand there; all entries of one message are one group."""
        drafts, before = list(drafts), self.entries
        gone = {one.void_of for one in drafts}
        again = [one for one in drafts if self._stands(one, gone)]
        self.told_already += again
        drafts = [one for one in drafts if one not in again]
        if not drafts:
            return ()
        entries = self.store.append(self.member.household, drafts, self.source, self.now)
        self.has_written = True
        self.has_told = self.has_told or any(one.member is not None for one in drafts)
        self._entries, self._known, self._today = before + entries, None, None
        return entries

    def _stands(self, draft: Draft, gone: AbstractSet[EntryId | None]) -> bool:
        """Whether this person told just this of the plant and day last: after anything else it is news."""
        kinds = next((kinds for kinds in TOLD_ONCE if isinstance(draft.payload, kinds)), None)
        if kinds is None or draft.plant is None or draft.plant not in self.household.plants:
            return False
        told = [
            one for one in self.told(draft.plant) if isinstance(one.payload, kinds) and one.id not in gone
        ]
        last = told[-1] if told else None
        return last is not None and (last.payload, last.happened_on, last.member) == (
            draft.payload,
            draft.happened_on,
            draft.member,
        )

    @property
    def question(self) -> Question | None:
        """The open question of the chat spoken in."""
        return self.store.question(self.member.household, self.member.chat)

    def close_question(self) -> None:
        """Ask no longer what is open in the chat spoken in."""
        self.store.close_question(self.member.household, self.member.chat)

    def told(self, plant: PlantId, on: date | None = None) -> list[Entry]:
        """Give what stands in the journal of a plant, of one day or of all, oldest first."""
        told = self._now_known.folded.told.get(plant, ())
        return sorted((one for one in told if on in {None, one.happened_on}), key=lambda one: one.id)

    def voids(self, entries: Iterable[Entry]) -> list[Draft]:
        """Take entries back; nothing is deleted."""
        return [replace(self.draft(Voided()), void_of=entry.id) for entry in entries]

    def tell_others(self, outcome: object) -> None:
        """Tell the other chats of the home what this message means for them."""
        chats = {one.chat for one in self.others} - {self.member.chat}
        self.elsewhere += [(chat, outcome) for chat in sorted(chats)]

    def plant(self, number: PlantId) -> Plant:
        """Give a plant of this household."""
        return self.household.plants[number]

    def outbreak(self, plant: PlantId, case: Case, day: date | None = None) -> Outbreak:
        """Give a case as it stands today or on a day."""
        return outbreak_on(self.household, self.knowledge, self.plant(plant), case, day or self.today)

    def names(self, plants: Iterable[PlantId]) -> tuple[str, ...]:
        """Give the shown names of plants, in order."""
        known = self.household.plants
        return tuple(known[plant].name for plant in plants)

    def product_name(self, product: ProductId | None, *, in_full: bool = False) -> str | None:
        """Give the shown name of a product on the shelf: short beside a plant, in full on the shelf."""
        if product is None or product not in self.household.products:
            return None
        kind = self.knowledge.products.get(self.household.products[product].ingredient)
        if kind is not None and in_full:
            return kind.name
        return kind.short if kind else self.household.products[product].ingredient

    def asked_for(self, product: ProductId | None, ingredients: tuple[str, ...]) -> tuple[Product, ...]:
        """Give the products that are asked about, at hand or not; where none is named, the shelf."""
        shelf = self.household.products.values()
        of = {one.ingredient: one for one in shelf}
        if ingredients:
            return tuple(of.get(one) or Product(id=ProductId(0), ingredient=one) for one in ingredients)
        return tuple(one for one in shelf if product in {None, one.id})

    def tonight(self) -> tuple[Task, ...]:
        """Give what is open this evening: the plan's tasks for today."""
        return self.agenda.on(self.today)

    @property
    def evening(self) -> Tonight:
        """Give the evening that a bare answer speaks of as one value: now, tomorrow, looks, questions."""
        nudge, evenings = self.household.nudge, self._now_known.evenings
        # on the day after a message it is by the hour whether that evening is still spoken of
        is_after = nudge is not None and (self.today - nudge.on).days == 1
        by = self.now if is_after else self.today
        if by not in evenings:
            evenings.clear()
            evenings[by] = tonight(self.household, self.knowledge, self.agenda, self.now)
        return evenings[by]

    def once(self, derive: "Callable[[Desk], T]") -> T:
        """Give what a function derives from the journal alone, from before where it is the same."""
        derived = self._now_known.derived
        if derive not in derived:
            derived[derive] = derive(self)
        found: T = derived[derive]
        return found
