"""What a campaign came to, counted from the animals and the deeds, and the figures of many."""

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import numpy as np

from tests.simulation.grower import Deed, Home, Step

MONTHS_4, END = 120, 200
AS_WRITTEN = {
    "wash": ("rinse", "wipe", "wash"),
    "scrape": ("wipe", "scrape"),
    "buds off": ("prune",),
    "top mix": ("repot", "prune"),
}
DRAWS = 2_000


@dataclass(slots=True)
class Record:
    """One home."""

    pest: str = ""
    alive_at: dict[int, int] = field(default_factory=dict)
    messages: int = 0
    nudges: int = 0
    died: int = 0
    discarded: int = 0
    releases: int = 0
    wrong: int = 0
    wrong_on: list[int] = field(default_factory=list)
    apart: dict[int, int] = field(default_factory=dict)
    breaches: int = 0
    wrongly_written: int = 0
    not_written: int = 0
    sprays: float = 0.0
    clean_outs: float = 0.0
    minutes: float = 0.0
    cases: int = 0
    rounds_alone: int = 0
    first_free: int | None = None

    def count(self, day: int, home: Home) -> None:
        """Count the living at the end of a day."""
        self.pest = home.pest.name
        alive = home.life.count()
        self.alive_at[day] = alive
        if alive == 0 and self.first_free is None:
            self.first_free = day
        for number, plant in enumerate(home.plants):
            if plant.is_apart:
                self.apart[number] = self.apart.get(number, 0) + 1
        if day == END:
            treated = {deed.plant for deed in home.deeds}
            self.cases = max(1, len(treated))
            self.sprays = sum(deed.work == "spray" for deed in home.deeds) / self.cases
            self.clean_outs = sum(deed.work == "clean-out" for deed in home.deeds) / self.cases
            self.minutes = home.minutes

    def released(self, day: int, plant: int, home: Home) -> None:
        """Count a plant that goes back among the others, wrongly if anything lives on it."""
        self.releases += 1
        if home.put_back(plant):
            self.wrong += 1
            self.wrong_on.append(day)

    def check_label(self, step: Step, day: int, home: Home) -> None:
        """Count a spray asked for sooner after the last of the same product than its label lets."""
        if step.product is None or not {"spray", "drench"} & set(step.works):
            return
        before = [
            deed.day
            for deed in home.deeds
            if deed.plant == step.plant and deed.product == step.product and deed.work in {"spray", "drench"}
        ]
        if before and day - max(before) < home.shelf.get(step.product, 0):
            self.breaches += 1

    def compare(self, written: Counter[tuple[int, str, int]], home: Home) -> None:
        """Compare the treatments written with the deeds."""
        done: set[tuple[int, str, int]] = set()
        for deed in home.deeds:
            done |= {(deed.plant, work, deed.day) for work in AS_WRITTEN.get(deed.work, (deed.work,))}
        self.wrongly_written = sum(count for key, count in written.items() if key not in done)
        self.not_written = sum(not _is_written(deed, written) for deed in home.deeds)


def _is_written(deed: Deed, written: Counter[tuple[int, str, int]]) -> bool:
    works = AS_WRITTEN.get(deed.work, (deed.work,))
    return any(written[deed.plant, work, deed.day] for work in works)


def interval(homes: Sequence[Record], figure: Callable[[Sequence[Record]], float]) -> tuple[float, float]:
    """Give the middle 95 % of a figure over homes drawn again with putting back."""
    source = np.random.default_rng(1)
    drawn = [
        figure([homes[int(one)] for one in source.integers(0, len(homes), len(homes))])
        for _ in range(DRAWS // 4)
    ]
    low, high = np.percentile(drawn, [2.5, 97.5])
    return float(low), float(high)


def free_by(day: int) -> Callable[[Sequence[Record]], float]:
    """Share of homes without a living animal on a day. [%]"""
    return lambda homes: 100 * sum(home.alive_at[day] == 0 for home in homes) / len(homes)


def wrong_share(homes: Sequence[Record]) -> float:
    """Share of releases of plants that carried living ones. [%]"""
    return 100 * sum(home.wrong for home in homes) / max(1, sum(home.releases for home in homes))


def days_apart(homes: Sequence[Record]) -> float:
    """Give the mean days a plant that was set apart stood apart. [d]"""
    spans = [days for home in homes for days in home.apart.values()]
    return float(np.mean(spans)) if spans else 0.0


def table(homes: Sequence[Record]) -> str:
    """Give the figures of many homes, all and by pest."""
    lines = [
        f"{'':<22}{'homes':>6}{'free d120':>19}{'free d200':>20}{'wrong':>18}{'apart':>6}{'sprays':>7}{'cleans':>7}{'msgs':>5}{'breach':>7}{'wrote':>6}{'lost':>6}{'min/wk':>7}"
    ]
    groups = {"all": list(homes)}
    for home in homes:
        groups.setdefault(home.pest, []).append(home)
    lines += [_row(name, group) for name, group in groups.items()]
    return "\n".join(lines)


def _row(name: str, homes: Sequence[Record]) -> str:
    def mean(value: Callable[[Record], float]) -> float:
        return float(np.mean([value(home) for home in homes]))

    def ranged(figure: Callable[[Sequence[Record]], float]) -> str:
        low, high = interval(homes, figure)
        return f"{figure(homes):.1f} ({low:.1f}-{high:.1f})"

    return (
        f"{name:<22}{len(homes):>6}{ranged(free_by(MONTHS_4)):>19}{ranged(free_by(END)):>20}{ranged(wrong_share):>18}"
        f"{days_apart(homes):>6.0f}{mean(lambda one: one.sprays):>7.1f}{mean(lambda one: one.clean_outs):>7.1f}"
        f"{mean(lambda one: one.messages):>5.0f}{sum(one.breaches for one in homes):>7}"
        f"{sum(one.wrongly_written for one in homes):>6}{mean(lambda one: one.discarded + one.died):>6.2f}"
        f"{mean(lambda one: one.minutes / (END / 7)):>7.0f}"
    )
