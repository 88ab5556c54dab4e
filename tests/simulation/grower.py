"""
The home and the person: rooms and their warmth, plants, a shelf, and somebody who is late, sees poorly and skips.

All shares are judgement. The obedient one does what she is told when she is there; the lazy one does six in ten of the
handwork, has no lens and no thermometer, and half of the plants cannot be washed.
"""

import math
from dataclasses import dataclass, field
from datetime import date, timedelta

import numpy as np

from tests.simulation.biology import HANDS, PESTS, Floats, Life, Numbers

MIXED: dict[str, float] = {
    "longtailed mealybug": 0.23,
    "citrus mealybug": 0.20,
    "spider mite": 0.20,
    "brown soft scale": 0.09,
    "green peach aphid": 0.08,
    "greenhouse whitefly": 0.07,
    "western flower thrips": 0.05,
    "armoured scale": 0.04,
    "fungus gnat": 0.03,
    "root mealybug": 0.01,
}
"""How often each pest breaks out. [1]"""
HANDWORK = frozenset(
    {"wipe", "rinse", "wash", "swab", "scrape", "prune", "buds off", "top mix", "repot", "clean-out"}
)
WATER = frozenset({"rinse", "wash"})
WORDS_FROM = 31
"""From so many on nobody counts. [animals]"""
KINDS: tuple[tuple[str, bool, float, bool], ...] = (
    # name, prone at the roots, axils and sheaths, may be washed
    ("hoya", False, 1.2, True),
    ("moth orchid", False, 1.3, True),
    ("coffee plant", True, 1.0, True),
    ("ivy", False, 1.0, True),
    ("calathea", False, 1.1, True),
    ("monstera", False, 0.8, True),
    ("pothos", False, 0.9, True),
    ("peace lily", False, 1.1, True),
    ("croton", False, 1.0, True),
    ("rubber plant", False, 0.8, True),
    ("weeping fig", False, 1.0, True),
    ("dracaena", False, 1.2, True),
    ("african violet", False, 1.2, False),
    ("jade plant", True, 1.1, True),
    ("umbrella tree", False, 1.0, True),
    ("clivia", True, 1.4, True),
    ("stephanotis", False, 1.1, True),
    ("begonia", False, 1.0, False),
    ("string of pearls", True, 1.3, False),
    ("aloe", True, 1.3, True),
    ("anthurium", False, 1.0, True),
    ("philodendron", False, 0.9, True),
)
ROOMS = ("kitchen", "landing", "study", "bathroom")
FACINGS = ("north", "east", "west", "south", "no window")
DIES_AFTER = 35
"""Days at its pest's full number that a plant stands. Judgement. [d]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Habit:
    """What sort of person it is."""

    name: str
    present: float
    handwork: float
    sprays: float
    looks: float
    owns_lens: bool
    owns_thermometer: bool
    thoroughness: float
    sharpness: float
    lifts: float
    moves: float
    buys: float
    unwashable: float


OBEDIENT = Habit(
    name="obedient",
    present=0.93,
    handwork=0.98,
    sprays=0.98,
    looks=0.97,
    owns_lens=True,
    owns_thermometer=True,
    thoroughness=0.94,
    sharpness=0.85,
    lifts=0.65,
    moves=0.97,
    buys=0.95,
    unwashable=0.0,
)
LAZY = Habit(
    name="lazy",
    present=0.86,
    handwork=0.60,
    sprays=0.95,
    looks=0.90,
    owns_lens=False,
    owns_thermometer=False,
    thoroughness=0.88,
    sharpness=0.80,
    lifts=0.15,
    moves=0.85,
    buys=0.75,
    unwashable=0.5,
)
HABITS = {habit.name: habit for habit in (OBEDIENT, LAZY)}


@dataclass(slots=True)
class Plant:
    """One plant as it stands in the home."""

    name: str
    room: int
    washable: bool
    movable: bool
    cheap: bool
    is_apart: bool = False
    is_gone: bool = False
    days_full: int = 0


@dataclass(frozen=True, slots=True)
class Step:
    """What is asked for one plant: the works in their order, and the product of those that use one."""

    plant: int
    works: tuple[str, ...]
    product: str | None = None
    when: str = "tonight"
    """tonight, morning (of the next day) or tomorrow (by the afternoon)."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What a message asks, as it was read."""

    steps: tuple[Step, ...] = ()
    looks: tuple[int, ...] = ()
    levels: frozenset[str] = frozenset()
    """Ways of looking it asks for by name: lens, tap, card."""
    lifts: tuple[int, ...] = ()
    ready: tuple[int, ...] = ()
    cooler: tuple[int, ...] = ()
    discards: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Deed:
    """One work done to one plant, with what."""

    plant: int
    work: str
    product: str | None
    day: int


@dataclass(frozen=True, slots=True)
class Seen:
    """What a look showed; nothing is a count of 0."""

    plant: int
    level: str
    count: int


@dataclass(slots=True)
class Evening:
    """What became of what was asked."""

    deeds: list[Deed] = field(default_factory=list)
    finished: list[Step] = field(default_factory=list)
    unfinished: list[Step] = field(default_factory=list)
    later: list[Step] = field(default_factory=list)
    seen: list[Seen] = field(default_factory=list)
    discarded: list[int] = field(default_factory=list)
    unwashable: list[int] = field(default_factory=list)
    """Plants that should have been rinsed or washed and cannot be."""
    card: int | None = None
    is_away: bool = False
    says_so: bool = False
    finds_first: bool = False


MINUTES = {
    "spray": 4,
    "drench": 4,
    "wipe": 8,
    "rinse": 5,
    "wash": 9,
    "swab": 7,
    "scrape": 9,
    "prune": 4,
    "clean-out": 45,
}
LOOK_MINUTES = {"plain": 3, "lens": 5, "tap": 3, "roots": 6}
BREAK_OUT_DAYS = 170


class Home:
    """A home in which a pest has just been noticed."""

    def __init__(self, seed: int, habit: Habit, pests: tuple[str, ...] = ()) -> None:
        self.source = np.random.default_rng(seed)
        self.habit = habit
        names = pests or tuple(MIXED)
        weights = np.array([MIXED[name] for name in names])
        self.pest = PESTS[names[int(self.source.choice(len(names), p=weights / weights.sum()))]]
        self.start = date(2026, 1, 5) + timedelta(days=int(self.source.integers(0, 240)))
        self.rooms = list(ROOMS[: int(self.source.integers(3, 5))])
        self.room_warmth = np.clip(self.source.normal(20.6, 1.8, len(self.rooms) + 1), 16.5, 26.0)
        self.facing = [str(self.source.choice(FACINGS)) for _ in self.rooms]
        self.noise = np.zeros(len(self.rooms) + 1)
        chosen = self.source.choice(len(KINDS), size=int(self.source.integers(7, 13)), replace=False)
        self.plants = [self._plant(int(one)) for one in chosen]
        kinds = [KINDS[int(one)] for one in chosen]
        count = len(self.plants)
        self.life = Life(
            pest=self.pest,
            hosts=np.clip(np.exp(self.source.normal(-0.3, 0.4, count)), 0.15, 1.8),
            tightness=np.array([kind[2] for kind in kinds]) * np.exp(self.source.normal(0, 0.12, count)),
            root_prone=np.array([kind[1] for kind in kinds]),
            size=np.exp(self.source.normal(0, 0.3, count)),
            source=self.source,
        )
        self.thoroughness = float(np.clip(self.source.normal(habit.thoroughness, 0.05), 0.6, 1.0))
        self.sharpness = float(np.clip(habit.sharpness * math.exp(self.source.normal(0, 0.25)), 0.3, 1.4))
        self.shelf = self._first_shelf()
        self.known: set[int] = set()
        self.minutes = 0.0
        self.cards_hung = False
        self.deeds: list[Deed] = []
        self._break_out()

    def _plant(self, kind: int) -> Plant:
        name, _, _, washable = KINDS[kind]
        return Plant(
            name=name,
            room=int(self.source.integers(0, len(self.rooms))),
            washable=washable and self.source.random() >= self.habit.unwashable,
            movable=self.source.random() < 0.88,
            cheap=self.source.random() < 0.3,
        )

    def _first_shelf(self) -> dict[str, int]:
        shelf = {"soap": int(self.source.choice([4, 5, 7], p=[0.2, 0.3, 0.5]))}
        more = (("alcohol", 0.7, 3), ("oil", 0.35, 7), ("neem", 0.2, 7), ("spinosad", 0.1, 7))
        return shelf | {name: days for name, share, days in more if self.chance(share)}

    def _break_out(self) -> None:
        """Let it spread unseen until a glance in passing shows enough of it."""
        enough = math.exp(self.source.normal(math.log(3.5), 0.6))
        for _ in range(20):
            source = int(self.source.integers(0, len(self.plants)))
            self.life.settle(source, int(self.source.integers(3, 7)))
            for day in range(-BREAK_OUT_DAYS, 0):
                self.pass_day(day)
                if day % 3 == 0 and self._in_passing() >= enough:
                    self.life.dry.clear()
                    return
                if self.life.count() == 0:
                    break
            else:
                return

    def _in_passing(self) -> int:
        return max(self.life.seen_by(one, "glance", self.sharpness) for one in range(len(self.plants)))

    def warmth(self, day: int) -> Floats:
        """Give the day's mean in each room, the spare one last. [degC]"""
        season = 1.2 * math.sin(
            2 * math.pi * ((self.start + timedelta(days=day)).timetuple().tm_yday - 110) / 365
        )
        return np.asarray(self.room_warmth + season + self.noise)

    def pass_day(self, day: int) -> None:
        """Let a day pass for the animals and for plants that carry too many."""
        self.noise = 0.7 * self.noise + self.source.normal(0, 0.5, len(self.noise))
        warmth = self.warmth(day)
        at = np.array([len(self.rooms) if plant.is_apart else plant.room for plant in self.plants])
        self.life.day(warmth[at], self._nearness(at), day)
        on_each = self.life.on_each()
        for number, plant in enumerate(self.plants):
            is_full = on_each[number] > 0.8 * self.life.pest.room * self.life.size[number]
            plant.days_full = plant.days_full + 1 if is_full else 0

    def _nearness(self, at: Numbers) -> Floats:
        """How what leaves a plant is shared out among the others: those beside it, and all further off."""
        there = np.array([not plant.is_gone for plant in self.plants])
        apart = at == len(self.rooms)
        beside = at[:, None] == at[None, :]
        far, beside_apart, to_apart = (0.15, 0.4, 0.12) if self.pest.flies else (HANDS, 0.12, 0.02)
        near = np.where(beside, 0.8, far)
        near = np.where(apart[:, None] | apart[None, :], to_apart, near)
        near = np.where(apart[:, None] & apart[None, :], beside_apart, near)
        near = near * (there[None, :] & there[:, None]) * (1 - np.eye(len(at)))
        for of_kind in (beside, ~beside):
            sharing = np.maximum(((near > 0) & of_kind).sum(axis=1), 1)
            near = np.where(of_kind, near / sharing[:, None], near)
        return np.asarray(near, np.float64)

    def chance(self, share: float) -> bool:
        """Draw whether something happens."""
        return bool(self.source.random() < share)

    def living(self) -> list[int]:
        """Give the plants that are still there."""
        return [number for number, plant in enumerate(self.plants) if not plant.is_gone]

    def look(self, plant: int, level: str) -> Seen:
        """Look at one plant; somebody may take a speck for an animal once in 400 looks."""
        self.minutes += LOOK_MINUTES.get(level, 1)
        attention = self.sharpness * float(np.exp(self.source.normal(0, 0.2)))
        count = self.life.seen_by(plant, level, attention)
        if count == 0 and self.chance(0.0025):
            count = 1
        return Seen(plant, level, count)

    def inspect(self) -> list[Seen]:
        """Look at everything, on the first day."""
        return [seen for one in self.living() if (seen := self.look(one, "plain")).count]

    def in_passing(self, day: int) -> list[Seen]:
        """Notice while watering, every third day, what is on plants that are not known to have it."""
        if day % 3:
            return []
        unknown = [one for one in self.living() if one not in self.known]
        looked = [Seen(one, "glance", self.life.seen_by(one, "glance", self.sharpness)) for one in unknown]
        return [seen for seen in looked if seen.count]

    def dead_today(self) -> list[int]:
        """Lose plants that carried too many for too long."""
        dead = [one for one in self.living() if self.plants[one].days_full >= DIES_AFTER]
        for one in dead:
            self.lose(one)
        return dead

    def lose(self, plant: int) -> None:
        """Take a plant out of the home."""
        self.life.empty(plant)
        self.plants[plant].is_gone = True
        self.plants[plant].is_apart = False
        self.known.discard(plant)

    def move_apart(self, plant: int) -> bool:
        """Set a plant apart, if it can be and she does."""
        one = self.plants[plant]
        if one.movable and self.chance(self.habit.moves):
            one.is_apart = True
        return one.is_apart

    def put_back(self, plant: int) -> int:
        """Put a plant back among the others; gives how many living it carries."""
        self.plants[plant].is_apart = False
        self.known.discard(plant)
        return self.life.count(plant)

    def answer(self, asked: Asked, day: int) -> Evening:
        """Do what a message asks, as far as she is there and does it: looks first, then the work."""
        evening = Evening()
        if not self.chance(self.habit.present):
            evening.is_away = True
            evening.says_so = self.chance(0.6)
            return evening
        evening.finds_first = self.chance(0.5)
        here = set(self.living())
        evening.seen += [
            self.look(one, self._level(asked))
            for one in asked.looks
            if one in here and self.chance(self.habit.looks)
        ]
        evening.seen += [
            self.look(one, "roots") for one in asked.lifts if one in here and self.chance(self.habit.lifts)
        ]
        if "card" in asked.levels and self.cards_hung:
            evening.card = self.life.taken_by_card(self.living())
        for step in asked.steps:
            if step.plant in here and step.when == "tonight":
                self.work(step, day, evening)
        evening.later = [step for step in asked.steps if step.plant in here and step.when != "tonight"]
        for one in asked.cooler:
            self._cool(one)
        evening.discarded = [one for one in asked.discards if one in here and self._discards(one)]
        return evening

    def _discards(self, plant: int) -> bool:
        if not (self.plants[plant].cheap and self.chance(0.25)):
            return False
        self.lose(plant)
        return True

    def _cool(self, plant: int) -> None:
        """Move a plant to the coolest room."""
        if self.plants[plant].movable and self.chance(self.habit.moves):
            self.plants[plant].room = int(np.argmin(self.room_warmth[:-1]))

    def _level(self, asked: Asked) -> str:
        if "lens" in asked.levels and self.habit.owns_lens:
            return "lens"
        if "tap" in asked.levels and self.chance(self.habit.handwork):
            return "tap"
        return "plain"

    def work(self, step: Step, day: int, evening: Evening) -> None:
        """Do the works of one step in their order; what is skipped leaves it unfinished."""
        done = 0
        for work in step.works:
            if work in WATER and not self.plants[step.plant].washable:
                evening.unwashable.append(step.plant)
                continue
            if not self.chance(self.habit.handwork if work in HANDWORK else self.habit.sprays):
                continue
            product = step.product if work not in HANDWORK or work == "swab" else None
            self._do(step.plant, work, product, day)
            evening.deeds.append(Deed(step.plant, work, product, day))
            done += 1
        (evening.finished if done == len(step.works) else evening.unfinished).append(step)

    def _do(self, plant: int, work: str, product: str | None, day: int) -> None:
        self.minutes += MINUTES.get(work, 5)
        thorough = float(np.clip(self.thoroughness * np.exp(self.source.normal(0, 0.08)), 0.3, 1.0))
        self.life.treat(plant, work, product, thorough, day, washable=self.plants[plant].washable)
        if work == "clean-out":
            spray = "soap" if product is None else product
            self.life.treat(plant, "spray", spray, thorough, day)
        self.deeds.append(Deed(plant, work, product, day))

    def hang_cards(self) -> None:
        """Hang sticky cards among the plants."""
        if not self.cards_hung:
            self.cards_hung = True
            self.life.carded.update(self.living())

    def let_dry(self, plants: list[int]) -> None:
        """Water these plants less from now on."""
        if self.chance(self.habit.handwork):
            self.life.dry.update(plants)

    def buy(self, product: str, days: int) -> bool:
        """Buy something, if she does."""
        if product in self.shelf or len(self.shelf) > 5 or not self.chance(self.habit.buys):
            return False
        self.shelf[product] = days
        return True
