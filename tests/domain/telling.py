"""A small builder of journals for tests: tell things day by day, fold, plan."""

from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from bot.catalogue.load import load
from bot.domain.agenda import Agenda, plan
from bot.domain.course import Step, next_step
from bot.domain.fold import fold
from bot.domain.household import Household
from bot.domain.identity import EntryId, HouseholdId, MemberId, PlaceId, PlantId, ProductId
from bot.domain.journal import (
    Entry,
    Found,
    HouseholdSet,
    Payload,
    PlaceSet,
    PlantSet,
    ProductSet,
    Treated,
    Voided,
)
from bot.domain.label import Label
from bot.domain.outbreak import Outbreak, outbreak_on
from bot.domain.progress import Progress, progress
from bot.domain.trade import Grade, Method
from bot.domain.window import Facing

ZONE = ZoneInfo("Europe/Brussels")
DAY = date(2026, 5, 2)
KNOWLEDGE = load().knowledge
HOYA, FERN, IVY = PlantId(1), PlantId(2), PlantId(3)
LANDING, STUDY = PlaceId(1), PlaceId(2)
SOAP = ProductId(1)


@dataclass(slots=True)
class Telling:
    """A journal being told; days count from DAY."""

    entries: list[Entry] = field(default_factory=list)

    def tell(
        self,
        payload: Payload,
        day: float = 0,
        *,
        plant: PlantId | None = None,
        at: time = time(12),
        void_of: EntryId | None = None,
    ) -> EntryId:
        """Add an entry of a day."""
        on = DAY + timedelta(days=day)
        number = EntryId(len(self.entries) + 1)
        moment = datetime.combine(on, at, ZONE)
        self.entries.append(
            Entry(
                id=number,
                household=HouseholdId(1),
                member=MemberId(1),
                plant=plant,
                happened_at=moment,
                happened_on=on,
                recorded_at=moment,
                source=f"update:{number}",
                payload=payload,
                void_of=void_of,
            )
        )
        return number

    def find(self, plant: PlantId, pest: str, day: float, grade: Grade = Grade.SOME) -> EntryId:
        """Tell of living pests."""
        return self.tell(Found(pest=pest, grade=grade), day, plant=plant)

    def treat(self, plant: PlantId, day: float, method: Method = Method.SPRAY) -> EntryId:
        """Tell of a treatment."""
        product = SOAP if method is Method.SPRAY else None
        return self.tell(Treated(method=method, product=product), day, plant=plant)

    def void(self, number: EntryId, day: float = 0) -> EntryId:
        """Take an entry back."""
        return self.tell(Voided(), day, void_of=number)

    @property
    def household(self) -> Household:
        """Give what the journal tells."""
        return fold(self.entries)

    def plan(self, day: float) -> Agenda:
        """Plan from a day on."""
        return plan(self.household, KNOWLEDGE, DAY + timedelta(days=day))

    def outbreak(self, plant: PlantId, day: float) -> Outbreak:
        """Give a plant's first open case as it stands on a day."""
        household = self.household
        known = household.plants[plant]
        return outbreak_on(household, KNOWLEDGE, known, known.open_cases[0], DAY + timedelta(days=day))

    def step(self, plant: PlantId, day: float) -> Step | None:
        """Give the next treatment of a plant's first open case."""
        return next_step(self.outbreak(plant, day))

    def progress(self, plant: PlantId, day: float) -> Progress:
        """Give how far a plant's first open case is."""
        return progress(self.outbreak(plant, day))


def home(*, celsius: float | None = 21, label_days: int | None = 7) -> Telling:
    """Tell of Ghent, two places, three plants and a soap with its label."""
    telling = Telling()
    telling.tell(HouseholdSet(town="Ghent", latitude=51.1, longitude=3.7, zone="Europe/Brussels"))
    telling.tell(PlaceSet(place=LANDING, name="landing", facing=Facing.NONE, usual_c=celsius))
    telling.tell(PlaceSet(place=STUDY, name="study", facing=Facing.E, usual_c=celsius))
    telling.tell(PlantSet(name="hoya", place=LANDING), plant=HOYA)
    telling.tell(PlantSet(name="fern", place=LANDING), plant=FERN)
    telling.tell(PlantSet(name="ivy", place=STUDY), plant=IVY)
    if label_days is not None:
        telling.tell(ProductSet(product=SOAP, ingredient="soap", label=Label(gap_days=label_days)))
    return telling
