"""What an action works at: one member's household within one unit of work."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, datetime, time

from bot.actions.ports import Member, Store
from bot.domain.agenda import Agenda, Task, plan
from bot.domain.household import Household, Plant, fold
from bot.domain.identity import PlantId, ProductId
from bot.domain.journal import Draft, Entry, Payload, evening_of
from bot.domain.knowledge import Knowledge
from bot.domain.trade import Method

DATED_AT = time(12)
"""Clock time of an entry told for another day, whose hour nobody knows. Judgement."""


@dataclass(slots=True)
class Desk:
    """Reads the household, writes to its journal; every write refolds."""

    store: Store
    member: Member
    knowledge: Knowledge
    now: datetime
    source: str
    _household: Household | None = field(default=None, init=False)
    _agenda: Agenda | None = field(default=None, init=False)

    @property
    def household(self) -> Household:
        """The household as it stands, including what this message wrote."""
        if self._household is None:
            self._household = fold(self.store.entries(self.member.household))
        return self._household

    @property
    def today(self) -> date:
        """The evening's date."""
        return evening_of(self.now, self.household.zone)

    @property
    def agenda(self) -> Agenda:
        """The plan from today on."""
        if self._agenda is None:
            self._agenda = plan(self.household, self.knowledge, self.today)
        return self._agenda

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
        """Append to the journal; all entries of one message are one group."""
        entries = self.store.append(self.member.household, list(drafts), self.source, self.now)
        self._household = None
        self._agenda = None
        return entries

    def plant(self, number: PlantId) -> Plant:
        """Give a plant of this household."""
        return self.household.plants[number]

    def names(self, plants: Iterable[PlantId]) -> tuple[str, ...]:
        """Give the shown names of plants, in order."""
        return tuple(self.household.plants[plant].name for plant in plants)

    def product_name(self, product: ProductId | None) -> str | None:
        """Give the shown name of a product on the shelf."""
        if product is None or product not in self.household.products:
            return None
        kind = self.knowledge.products.get(self.household.products[product].ingredient)
        return kind.name if kind else self.household.products[product].ingredient

    def tonight(self) -> tuple[Task, ...]:
        """Give what is open this evening: the plan's tasks for today."""
        return self.agenda.on(self.today)

    def asked_tonight(self) -> tuple[tuple[PlantId, Method | None, ProductId | None], ...]:
        """Give what a bare answer answers: the last nudge of this or the last evening, else the open list."""
        nudge = self.household.nudge
        if nudge is not None and (self.today - nudge.on).days <= 1:
            asked = [(task.plant, task.method, task.product) for task in nudge.tasks]
            known = {(plant, method) for plant, method, _ in asked}
            later = [
                (task.plant, task.method, task.product)
                for task in self.tonight()
                if (task.plant, task.method) not in known and self.today == nudge.on
            ]
            return tuple(asked + later)
        return tuple((task.plant, task.method, task.product) for task in self.tonight())
