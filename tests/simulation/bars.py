"""What many homes have to reach, and whether they did."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from tests.simulation.judging import END, MONTHS_4, Record, days_apart, free_by, interval, wrong_share

WEEK = 7


@dataclass(frozen=True, slots=True)
class Bar:
    """One figure, the side it must stay on, and where the end of its interval nearest to that must stay."""

    name: str
    figure: Callable[[Sequence[Record]], float]
    least: float | None = None
    least_low: float | None = None
    most: float | None = None
    most_high: float | None = None

    def said(self, homes: Sequence[Record]) -> tuple[str, bool]:
        """Give a line, and whether the bar is reached."""
        found, (low, high) = self.figure(homes), interval(homes, self.figure)
        holds = (
            (self.least is None or found >= self.least)
            and (self.least_low is None or low >= self.least_low)
            and (self.most is None or found <= self.most)
            and (self.most_high is None or high <= self.most_high)
        )
        asked = f">= {self.least}" if self.least is not None else f"<= {self.most}"
        if self.least_low is not None or self.most_high is not None:
            asked += f", end {self.least_low if self.least_low is not None else self.most_high}"
        return (
            f"{self.name:<34}{found:>8.2f} ({low:.2f}-{high:.2f})  {asked}  {'yes' if holds else 'NO'}",
            holds,
        )


def _mean(value: Callable[[Record], float]) -> Callable[[Sequence[Record]], float]:
    return lambda homes: float(np.mean([value(home) for home in homes]))


BOTH = (
    Bar("label breaches", _mean(lambda home: home.breaches), most=0),
    Bar("treatments wrongly written", _mean(lambda home: home.wrongly_written), most=0),
    Bar("sprays a plant", _mean(lambda home: home.sprays), most=9),
    Bar("advised discards a home", _mean(lambda home: home.discarded), most=0.03),
    Bar("messages of the person", _mean(lambda home: home.messages), most=70),
    Bar("minutes a week", _mean(lambda home: home.minutes * WEEK / END), most=120),
)
BARS = {
    "obedient": (
        Bar("free by day 120 [%]", free_by(MONTHS_4), least=96, least_low=94),
        Bar("free by day 200 [%]", free_by(END), least=99),
        Bar("wrong releases [%]", wrong_share, most=1, most_high=2.5),
        Bar("days apart", days_apart, most=90),
        *BOTH,
    ),
    "lazy": (
        Bar("free by day 120 [%]", free_by(MONTHS_4), least=93, least_low=90),
        Bar("wrong releases [%]", wrong_share, most=2, most_high=3),
        Bar("days apart", days_apart, most=105),
        *BOTH,
    ),
}
ALONE = {
    "western flower thrips": (
        Bar("free by day 120 [%]", free_by(MONTHS_4), least=92),
        Bar("wrong releases [%]", wrong_share, most=4),
    ),
    "spider mite": (
        Bar("free by day 120 [%]", free_by(MONTHS_4), least=94),
        Bar("wrong releases [%]", wrong_share, most=3),
    ),
}


def compared(homes: Sequence[Record], grower: str, pest: str | None) -> tuple[str, bool]:
    """Compare homes with the bars of their grower, or of one pest alone."""
    bars = BARS[grower] if pest is None else ALONE.get(pest, ())
    said = [bar.said(homes) for bar in bars]
    return "\n".join(line for line, _ in said), all(holds for _, holds in said)
