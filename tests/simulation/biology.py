"""
Pests animal by animal: six stages, three kinds of places on a plant, warmth, hand and spray, spread from plant to plant.

Females only, each with a speed of her own. Stages last as tabulated at four temperatures, between which rates (one by
days) run straight; no thresholds and no degree-days. Durations at 15, 20, 25 and 30 degC lean on published life tables
(citrus mealybug: Karacaoglu and Satar 2017, Arai 1996, 30 d of nymphs at 30 degC; longtailed: Santa-Cecilia et al. 2011;
two-spotted mite: Sabelis 1981 from memory; whitefly: 51 d at 15 and 21 d at 25 degC, Biobest; western flower thrips:
Katayama 1997; root mealybug: 61 d at 21 degC, EPPO RS 2002/133; hemispherical scale as a stand-in for soft scale: 95 d at
18 and 31 to 52 d at 28 degC; oleander scale: 67 d at 25 degC). Young a female, deaths, places, shares reached and killed
are judgement around what is published: one soap spray cut a mealybug by 55 to 57 % and "50 to 60 % from one spray is
normal" (Kentucky extension); alcohol took over 90 % of crawlers and never the eggs in their sacs (Middleton and
Diepenbrock 2022); nothing on the leaves reaches the roots.
"""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

EGG, YOUNG, MIDDLE, LATE, FRESH, LAYING = range(6)
OPEN, TUCKED, MIX = range(3)
KNOTS = (15.0, 20.0, 25.0, 30.0)
SPEED_SPREAD = 0.13
HANDS = 0.05
"""Share of the spread in a room that reaches another room, on hands, sleeves and tools. Judgement. [1]"""
SETTLES = 0.35
"""Share of what reaches another plant that stays there. Judgement. [1]"""

Floats = NDArray[np.float64]
Numbers = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pest:
    """What is known of one pest, or judged."""

    name: str
    days: tuple[tuple[float, float, float, float], ...]
    """Of each stage, at the four temperatures. [d]"""
    young: float
    """Daughters of a female that lives out, on a good host. [1]"""
    lives: tuple[float, float, float, float, float]
    """Share that lives through egg to the stage before laying. [1]"""
    settles: tuple[float, float, float]
    """Where the newborn settle: in the open, tucked away, in the mix. [1]"""
    shifts: bool = False
    """Whether females look for another place before they lay."""
    roams: float = 0.0
    """Share of the roaming that leave a plant for one beside it, a day. [1/d]"""
    roamers: tuple[int, ...] = (YOUNG,)
    flies: bool = False
    room: int = 300
    """Animals a plant of usual size feeds. [1]"""
    seen: tuple[float, float, float, float, float, float]
    """Chance that a plain look at the plant finds one animal of a stage in the open. [1]"""
    tucked_seen: float = 0.45
    """The same where it is tucked away, as a share of that. [1]"""
    lens: float = 1.7
    """How much more a lens finds. [1]"""
    tap: float = 0.0
    """Chance that a tap over paper shows one animal that moves. [1]"""
    card: float = 0.0
    """Chance that a card in a week takes one winged animal of the room. [1]"""
    finds_mate: float = 9.0
    """How far one other grown animal on the plant helps a female to be fertilised; large where none is needed. [1]"""
    rim: float = 0.0
    """Share of what lives in the mix that shows at the rim and the drainage holes. [1]"""
    pupates_in_mix: bool = False
    born_in_mix: bool = False
    """Whether the young live in the mix and only the winged above it."""
    soap: tuple[float, float, float, float, float, float]
    """Share killed by soap of those it wets. [1]"""
    oil: tuple[float, float, float, float, float, float]
    wiped: tuple[float, float, float, float, float, float]
    """Share taken off by a cloth of those it passes over. [1]"""
    rinsed: tuple[float, float, float, float, float, float]


MEALY_SOAP, MEALY_OIL = (0.20, 0.90, 0.80, 0.70, 0.62, 0.58), (0.32, 0.92, 0.82, 0.72, 0.66, 0.62)
MEALY_WIPED, MEALY_RINSED = (0.72, 0.70, 0.80, 0.86, 0.88, 0.88), (0.25, 0.55, 0.45, 0.35, 0.30, 0.30)
MEALY_SEEN = (0.12, 0.03, 0.14, 0.32, 0.40, 0.42)

PESTS: dict[str, Pest] = {
    "citrus mealybug": Pest(
        name="citrus mealybug",
        finds_mate=0.45,
        days=(
            (14, 9, 6.2, 5),
            (18, 10.5, 7.9, 8.0),
            (18, 10.5, 7.4, 8.0),
            (19, 11, 7.2, 8.5),
            (24, 14, 9, 8),
            (21, 15, 11, 9),
        ),
        young=55,
        lives=(0.85, 0.70, 0.88, 0.90, 0.95),
        settles=(0.64, 0.34, 0.02),
        shifts=True,
        roams=0.006,
        room=260,
        seen=MEALY_SEEN,
        soap=MEALY_SOAP,
        oil=MEALY_OIL,
        wiped=MEALY_WIPED,
        rinsed=MEALY_RINSED,
    ),
    "longtailed mealybug": Pest(
        name="longtailed mealybug",
        finds_mate=0.45,
        days=(
            (1, 0.7, 0.5, 0.5),
            (22, 13, 9.5, 8.5),
            (23, 13.5, 9.9, 9),
            (27, 16, 12, 11),
            (30, 18, 12.5, 11),
            (38, 27, 20, 17),
        ),
        young=50,
        lives=(0.97, 0.70, 0.88, 0.90, 0.95),
        settles=(0.62, 0.36, 0.02),
        shifts=True,
        roams=0.006,
        room=260,
        seen=MEALY_SEEN,
        soap=MEALY_SOAP,
        oil=MEALY_OIL,
        wiped=MEALY_WIPED,
        rinsed=MEALY_RINSED,
    ),
    "root mealybug": Pest(
        name="root mealybug",
        rim=0.15,
        days=(
            (16, 9.5, 7, 6),
            (22, 13, 10, 8.5),
            (22, 13, 10, 8.5),
            (22, 13, 10, 8.5),
            (22, 13, 9, 8),
            (30, 20, 15, 12),
        ),
        young=18,
        lives=(0.85, 0.65, 0.85, 0.9, 0.95),
        settles=(0.0, 0.0, 1.0),
        roams=0.002,
        room=150,
        seen=MEALY_SEEN,
        soap=MEALY_SOAP,
        oil=MEALY_OIL,
        wiped=MEALY_WIPED,
        rinsed=MEALY_RINSED,
    ),
    "spider mite": Pest(
        name="spider mite",
        finds_mate=0.9,
        days=(
            (14.3, 6.7, 4.2, 2.8),
            (6.2, 2.8, 1.8, 1.3),
            (6.2, 2.7, 1.8, 1.3),
            (6.2, 2.7, 1.8, 1.3),
            (3, 1.7, 1, 0.6),
            (26, 19, 14, 9),
        ),
        young=10,
        lives=(0.88, 0.72, 0.9, 0.92, 0.95),
        settles=(0.78, 0.22, 0.0),
        roams=0.006,
        roamers=(YOUNG, MIDDLE, FRESH),
        room=600,
        seen=(0.002, 0.003, 0.006, 0.010, 0.025, 0.030),
        lens=3.5,
        tap=0.10,
        soap=(0.18, 0.86, 0.86, 0.68, 0.84, 0.84),
        oil=(0.60, 0.85, 0.85, 0.70, 0.82, 0.82),
        wiped=(0.50, 0.70, 0.72, 0.72, 0.78, 0.78),
        rinsed=(0.35, 0.70, 0.72, 0.70, 0.75, 0.75),
    ),
    "western flower thrips": Pest(
        name="western flower thrips",
        finds_mate=0.6,
        days=(
            (10.5, 5.3, 3.4, 2.6),
            (6, 3, 2, 1.5),
            (9, 4.5, 2.9, 2.2),
            (9.5, 5.2, 3.7, 2.8),
            (5, 2.4, 1.6, 1.2),
            (32, 25, 18, 12),
        ),
        young=17,
        lives=(0.8, 0.65, 0.8, 0.75, 0.92),
        settles=(0.52, 0.48, 0.0),
        roams=0.01,
        roamers=(FRESH, LAYING),
        flies=True,
        room=260,
        seen=(0.0, 0.015, 0.05, 0.0, 0.06, 0.06),
        tap=0.20,
        card=0.12,
        pupates_in_mix=True,
        soap=(0.0, 0.72, 0.70, 0.0, 0.40, 0.40),
        oil=(0.05, 0.70, 0.68, 0.0, 0.40, 0.40),
        wiped=(0.05, 0.55, 0.55, 0.0, 0.08, 0.08),
        rinsed=(0.0, 0.60, 0.60, 0.0, 0.20, 0.20),
    ),
    "green peach aphid": Pest(
        name="green peach aphid",
        days=(
            (0.4, 0.3, 0.3, 0.3),
            (4.6, 3.0, 2.2, 2.0),
            (4.6, 3.0, 2.2, 2.0),
            (4.6, 3.0, 2.2, 2.2),
            (1.2, 0.9, 0.7, 0.7),
            (22, 18, 13, 9),
        ),
        young=10,
        lives=(1.0, 0.75, 0.9, 0.92, 0.95),
        settles=(0.75, 0.25, 0.0),
        roams=0.006,
        roamers=(LATE, FRESH),
        room=320,
        seen=(0.0, 0.05, 0.09, 0.14, 0.18, 0.18),
        soap=(0.5, 0.85, 0.85, 0.85, 0.82, 0.82),
        oil=(0.5, 0.85, 0.85, 0.85, 0.82, 0.82),
        wiped=(0.5, 0.75, 0.8, 0.8, 0.85, 0.85),
        rinsed=(0.5, 0.75, 0.78, 0.78, 0.78, 0.78),
    ),
    "greenhouse whitefly": Pest(
        name="greenhouse whitefly",
        finds_mate=0.6,
        days=(
            (15, 9.5, 7, 5.3),
            (7.5, 4.4, 3.1, 2.5),
            (14, 8.5, 6, 4.8),
            (13.5, 7.5, 5, 4),
            (4, 1.8, 1.2, 1),
            (32, 23, 16, 10),
        ),
        young=20,
        lives=(0.85, 0.7, 0.82, 0.85, 0.92),
        settles=(0.94, 0.06, 0.0),
        roams=0.008,
        roamers=(FRESH, LAYING),
        flies=True,
        room=320,
        seen=(0.003, 0.02, 0.06, 0.10, 0.25, 0.25),
        card=0.10,
        soap=(0.10, 0.82, 0.75, 0.25, 0.60, 0.60),
        oil=(0.40, 0.85, 0.80, 0.50, 0.55, 0.55),
        wiped=(0.60, 0.60, 0.65, 0.65, 0.05, 0.05),
        rinsed=(0.20, 0.35, 0.25, 0.25, 0.15, 0.15),
    ),
    "brown soft scale": Pest(
        name="brown soft scale",
        days=(
            (1, 1, 0.6, 0.5),
            (26, 15, 11, 9),
            (40, 23, 16, 13),
            (45, 27, 18, 15),
            (35, 20, 14, 11),
            (60, 45, 32, 26),
        ),
        young=30,
        lives=(0.95, 0.5, 0.85, 0.88, 0.95),
        settles=(0.82, 0.18, 0.0),
        roams=0.004,
        room=220,
        seen=(0.0, 0.015, 0.06, 0.20, 0.32, 0.34),
        soap=(0.2, 0.80, 0.50, 0.28, 0.15, 0.12),
        oil=(0.3, 0.88, 0.75, 0.60, 0.50, 0.45),
        wiped=(0.6, 0.70, 0.68, 0.75, 0.82, 0.82),
        rinsed=(0.3, 0.50, 0.12, 0.06, 0.05, 0.05),
    ),
    "armoured scale": Pest(
        name="armoured scale",
        days=(
            (14, 8, 6, 5),
            (45, 25, 17, 13.5),
            (52, 29, 19.5, 15),
            (57, 31, 21, 16.5),
            (22, 12, 8, 6),
            (60, 40, 30, 25),
        ),
        young=22,
        lives=(0.85, 0.45, 0.85, 0.88, 0.95),
        settles=(0.82, 0.18, 0.0),
        roams=0.003,
        room=220,
        seen=(0.0, 0.015, 0.06, 0.16, 0.26, 0.28),
        soap=(0.1, 0.60, 0.28, 0.15, 0.10, 0.08),
        oil=(0.25, 0.85, 0.65, 0.50, 0.40, 0.38),
        wiped=(0.55, 0.65, 0.62, 0.65, 0.72, 0.72),
        rinsed=(0.2, 0.30, 0.05, 0.04, 0.03, 0.03),
    ),
    "fungus gnat": Pest(
        name="fungus gnat",
        finds_mate=0.6,
        days=(
            (7, 4.5, 3, 2.5),
            (6, 4, 3, 2.6),
            (10, 6.5, 5, 4),
            (7, 4.6, 3.5, 3),
            (1.5, 1, 0.7, 0.6),
            (9, 7, 5.5, 4.5),
        ),
        young=14,
        lives=(0.7, 0.6, 0.75, 0.85, 0.9),
        settles=(0.0, 0.0, 1.0),
        roams=0.03,
        roamers=(FRESH, LAYING),
        flies=True,
        room=160,
        seen=(0.0, 0.0, 0.01, 0.0, 0.16, 0.16),
        card=0.30,
        born_in_mix=True,
        soap=(0.0, 0.05, 0.05, 0.0, 0.35, 0.35),
        oil=(0.0, 0.05, 0.05, 0.0, 0.35, 0.35),
        wiped=(0.0, 0.0, 0.0, 0.0, 0.05, 0.05),
        rinsed=(0.0, 0.05, 0.05, 0.0, 0.10, 0.10),
    ),
}
ALL_BUT_EGGS = (0.0, 1.0, 1.0, 1.0, 1.0, 1.0)

REACHED: dict[str, tuple[float, float, float]] = {
    "spray": (0.92, 0.64, 0.0),
    "wipe": (0.86, 0.50, 0.0),
    "rinse": (0.86, 0.42, 0.0),
    "wash": (0.95, 0.56, 0.0),
    "swab": (1.0, 1.0, 0.0),
    "scrape": (0.86, 0.50, 0.0),
    "prune": (0.35, 0.35, 0.0),
    "buds off": (0.0, 0.85, 0.0),
    "top mix": (0.0, 0.0, 0.60),
    "drench": (0.0, 0.0, 0.85),
    "repot": (0.15, 0.20, 0.85),
    "clean-out": (0.95, 0.82, 0.90),
}
"""Share of the animals in each kind of place that a method comes to. Judgement. [1]"""
CLEANED = (0.88, 0.90, 0.92, 0.94, 0.95, 0.95)
DABBED = (0.60, 0.15, 0.45, 0.85, 0.90, 0.90)
"""Share of each stage that somebody dabbing what he sees comes to, and so kills. Judgement. [1]"""
DABBED_TUCKED = 0.6


def killed_by(pest: Pest, method: str, product: str | None) -> tuple[float, ...]:
    """Share of each stage that dies or goes of what a method comes to. [1]."""
    match method:
        case "spray":
            return _sprayed(pest, product)
        case "drench":
            return _drenched(pest, product)
        case "wipe" | "scrape":
            return pest.wiped
        case "rinse":
            return pest.rinsed
        case "wash":
            return tuple(1 - (1 - a) * (1 - b) for a, b in zip(pest.rinsed, pest.wiped, strict=True))
        case "swab":
            return DABBED
        case "clean-out":
            return CLEANED
        case _:
            return (0.97,) * 6


def _sprayed(pest: Pest, product: str | None) -> tuple[float, ...]:
    if product in {"oil", "neem", "rapeseed oil"}:
        return pest.oil
    if product == "spinosad":
        if pest.name == "western flower thrips":
            return (0.0, 0.92, 0.90, 0.0, 0.80, 0.80)
        return tuple(0.15 * share for share in ALL_BUT_EGGS)
    if product == "pyrethrins":
        return tuple(0.8 * share for share in pest.soap)
    return pest.soap


def _drenched(pest: Pest, product: str | None) -> tuple[float, ...]:
    if product == "bti":
        return (0.0, 0.85, 0.75, 0.0, 0.0, 0.0) if pest.name == "fungus gnat" else (0.0,) * 6
    if product == "nematodes":
        if pest.name == "western flower thrips":
            return (0.0, 0.0, 0.0, 0.70, 0.0, 0.0)
        return (0.0, 0.80, 0.80, 0.40, 0.0, 0.0) if pest.name == "fungus gnat" else (0.0,) * 6
    if pest.name == "root mealybug":
        return (0.15, 0.80, 0.75, 0.70, 0.65, 0.60)
    return tuple(0.5 * share for share in ALL_BUT_EGGS)


SYSTEMIC = "imidacloprid"
DRY_KILLS = 0.06
"""Share of eggs and young larvae that a dry top takes a day. Judgement. [1/d]"""
LASTS: dict[str, tuple[int, float]] = {"bti": (4, 0.35), "nematodes": (14, 0.18), SYSTEMIC: (42, 0.06)}
"""How long what went into the mix goes on, and its share a day. Judgement. [d, 1/d]"""


@dataclass(slots=True)
class Life:
    """All animals of one pest in one home."""

    pest: Pest
    hosts: Floats
    """How well each plant feeds this pest. [1]"""
    tightness: Floats
    """How many axils and sheaths it has, as a factor on what settles there. [1]"""
    root_prone: NDArray[np.bool_]
    size: Floats
    source: np.random.Generator
    plant: Numbers = field(default_factory=lambda: np.empty(0, np.int64))
    place: Numbers = field(default_factory=lambda: np.empty(0, np.int64))
    stage: Numbers = field(default_factory=lambda: np.empty(0, np.int64))
    done: Floats = field(default_factory=lambda: np.empty(0))
    speed: Floats = field(default_factory=lambda: np.empty(0))
    lasting: dict[int, list[tuple[int, str]]] = field(default_factory=dict)
    dry: set[int] = field(default_factory=set)
    carded: set[int] = field(default_factory=set)

    def settle(self, plant: int, females: int) -> None:
        """Put a few females about to lay on a plant."""
        self._add(np.full(females, plant), np.full(females, FRESH))

    def count(self, plant: int | None = None) -> int:
        """Count the living, eggs too."""
        return len(self.plant) if plant is None else int((self.plant == plant).sum())

    def on_each(self) -> Numbers:
        """Count the living of each plant."""
        return np.bincount(self.plant, minlength=len(self.hosts))

    def day(self, warmth: Floats, nearness: Floats, today: int) -> None:
        """
        Let one day pass.

        Parameters
        ----------
        warmth
            Mean of the day where each plant stands. [degC]
        nearness
            How much of what leaves plant i comes to plant j. [1]
        today
            Number of the day. [d]
        """
        if len(self.plant) == 0:
            return
        rates = self._rates(warmth)
        went = rates[self.plant, self.stage] * self.speed
        self._lay(went)
        self._die(went, today)
        self._grow()
        self._roam(nearness)

    def _rates(self, warmth: Floats) -> Floats:
        return np.stack(
            [np.interp(warmth, KNOTS, [1 / days for days in of_stage]) for of_stage in self.pest.days], axis=1
        )

    def _lay(self, went: Floats) -> None:
        laying = self.stage == LAYING
        if not laying.any():
            return
        full = np.clip(1 - self.on_each() / (self.pest.room * self.size), 0, 1)
        mothers = self.plant[laying]
        others = np.bincount(self.plant[self.stage >= LATE], minlength=len(self.hosts)) - 1
        mated = 1 - np.exp(-self.pest.finds_mate * others)
        if self.pest.finds_mate > 1:
            mated = np.ones(len(others))
        wanted = self.pest.young * went[laying] * self.hosts[mothers] * full[mothers] * mated[mothers]
        born = np.repeat(mothers, self.source.poisson(wanted))
        self._add(born, np.full(len(born), EGG))

    def _die(self, went: Floats, today: int) -> None:
        """Age what was there this morning (the newborn stand behind it), and let some of it die."""
        count = len(went)
        plant, place, stage = self.plant[:count], self.place[:count], self.stage[:count]
        dies = 1 - np.array([*self.pest.lives, 1.0])[stage] ** went
        for treated, held in self.lasting.items():
            for until, product in held:
                if today <= until:
                    share, fraction = np.array(_drenched(self.pest, product)), LASTS[product][1]
                    reached = (plant == treated) & ((place == MIX) | (product == SYSTEMIC))
                    dies = np.where(reached, np.maximum(dies, share[stage] * fraction), dies)
        if self.dry:
            in_dry = np.isin(plant, list(self.dry)) & (place == MIX) & (stage <= MIDDLE)
            dies = np.where(in_dry, np.maximum(dies, DRY_KILLS), dies)
        if self.carded and self.pest.card:
            winged = np.isin(plant, list(self.carded)) & (stage >= FRESH)
            dies = np.where(winged, np.maximum(dies, self.pest.card / 7), dies)
        self.done[:count] += went
        lives = np.ones(len(self.plant), bool)
        lives[:count] = self.source.random(count) >= dies
        self._keep(lives)

    def _grow(self) -> None:
        over = self.done >= 1
        if not over.any():
            return
        self.stage = np.where(over, self.stage + 1, self.stage)
        self.done = np.where(over, 0.0, self.done)
        if self.pest.pupates_in_mix:
            self.place[over & (self.stage == LATE)] = MIX
        fresh = over & (self.stage == FRESH)
        if self.pest.born_in_mix:
            self.place[fresh] = OPEN
        elif self.pest.pupates_in_mix:
            self.place[fresh] = self._places(self.plant[fresh])
        elif self.pest.shifts:
            moving = fresh & (self.place != MIX)
            self.place[moving] = self._places(self.plant[moving])
        self._keep(self.stage <= LAYING)

    def _roam(self, nearness: Floats) -> None:
        roaming = np.isin(self.stage, self.pest.roamers)
        if not roaming.any():
            return
        leaves = roaming & (self.source.random(len(self.plant)) < self.pest.roams)
        for one in np.flatnonzero(leaves):
            towards = nearness[self.plant[one]]
            total = float(towards.sum())
            if total <= 0 or self.source.random() > min(1.0, total):
                continue
            there = int(self.source.choice(len(towards), p=towards / total))
            self.plant[one] = there if self.source.random() < SETTLES else -1
        self._keep(self.plant >= 0)

    def treat(
        self,
        plant: int,
        method: str,
        product: str | None,
        thoroughness: float,
        today: int,
        *,
        washable: bool = True,
    ) -> None:
        """Do something to a plant; what it comes to, by place, and what it does there, by stage."""
        if method == "dry":
            self.dry.add(plant)
            return
        if method == "card":
            self.carded.add(plant)
            return
        if product in LASTS and method in {"drench", "granules"}:
            self.lasting.setdefault(plant, []).append((today + LASTS[product][0], product))
        here = self.plant == plant
        if not here.any():
            return
        reach = np.array(REACHED.get(method, (0.0, 0.0, 0.0)))
        if method == "swab":
            reach[TUCKED] = DABBED_TUCKED
        if method == "clean-out" and not washable:
            reach = reach * np.array([0.85, 0.6, 0.5])
        kill = np.array(killed_by(self.pest, method, product))
        tight = np.where(self.place == TUCKED, 1 / self.tightness[self.plant], 1.0)
        share = np.clip(reach[self.place] * tight * thoroughness, 0, 0.99) * kill[self.stage]
        hit = here & (self.source.random(len(share)) < share)
        self._keep(~hit)

    def empty(self, plant: int) -> None:
        """Take a plant away with all that lives on it."""
        self._keep(self.plant != plant)

    def seen_by(self, plant: int, level: str, sharpness: float) -> int:
        """Count what somebody sees on a plant who looks so closely."""
        here = np.flatnonzero(self.plant == plant)
        if len(here) == 0:
            return 0
        chance = np.array(self.pest.seen)[self.stage[here]]
        place = self.place[here]
        if level == "lens":
            chance = chance * self.pest.lens
        elif level == "glance":
            chance = chance * 0.25
        elif level == "tap":
            moving = (self.stage[here] != EGG) & (self.stage[here] != LATE)
            chance = np.where(moving, np.maximum(chance, self.pest.tap), chance)
        chance = np.where(place == TUCKED, chance * self.pest.tucked_seen / self.tightness[plant], chance)
        if level == "roots":
            chance = np.where(place == MIX, np.maximum(chance, 0.15) * 1.5, chance)
        else:
            chance = np.where(place == MIX, chance * self.pest.rim, chance)
        return int((self.source.random(len(here)) < np.clip(chance * sharpness, 0, 0.95)).sum())

    def taken_by_card(self, plants: list[int]) -> int:
        """Count what a card among these plants shows after a week."""
        if not self.pest.card or not plants:
            return 0
        winged = np.isin(self.plant, plants) & (self.stage >= FRESH)
        return int(self.source.binomial(int(winged.sum()), self.pest.card))

    def _places(self, plants: Numbers) -> Numbers:
        _, tucked, mix = self.pest.settles
        tucked_here = np.clip(tucked * self.tightness[plants], 0, 0.9)
        mix_here = np.full(len(plants), mix)
        if mix < 1:
            mix_here = np.where(self.root_prone[plants], mix * 3, mix * 0.5)
        drawn = self.source.random(len(plants))
        return np.where(drawn < mix_here, MIX, np.where(drawn < mix_here + tucked_here, TUCKED, OPEN))

    def _add(self, plants: Numbers, stages: Numbers) -> None:
        if len(plants) == 0:
            return
        where = self._places(plants)
        if self.pest.born_in_mix:
            where = np.where(stages >= FRESH, OPEN, where)
        self.plant = np.concatenate([self.plant, plants])
        self.place = np.concatenate([self.place, where])
        self.stage = np.concatenate([self.stage, stages])
        self.done = np.concatenate([self.done, np.zeros(len(plants))])
        speed = np.exp(self.source.normal(0, SPEED_SPREAD, len(plants)))
        self.speed = np.concatenate([self.speed, speed])

    def _keep(self, kept: NDArray[np.bool_]) -> None:
        if kept.all():
            return
        self.plant, self.place, self.stage = self.plant[kept], self.place[kept], self.stage[kept]
        self.done, self.speed = self.done[kept], self.speed[kept]
