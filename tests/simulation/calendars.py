"""The same homes and people with a fixed calendar in the bot's place: so many sprays, so many days apart, then back."""

from dataclasses import dataclass, field

from tests.simulation.campaign import DAYS
from tests.simulation.grower import Asked, Home, Seen, Step
from tests.simulation.judging import Record

LOOK_DAYS = 7
WEEKLY, TEN_DAYS = (7, 8), (10, 6)
"""Days between two sprays, and how many."""


@dataclass(slots=True)
class Calendar:
    """Sprays every so many days after a find, whatever the pest and its count; a plain look a week."""

    home: Home
    gap: int
    rounds: int
    due: dict[int, int] = field(default_factory=dict)
    left: dict[int, int] = field(default_factory=dict)
    found: dict[int, bool] = field(default_factory=dict)

    def play(self, days: int = DAYS) -> Record:
        """Live through it."""
        record = Record()
        for seen in self.home.inspect():
            self._find(seen, 0)
        for day in range(days + 1):
            if day:
                self.home.pass_day(day)
            record.died += len(self.home.dead_today())
            for seen in self.home.in_passing(day):
                self._find(seen, day)
            self._evening(day, record)
            record.count(day, self.home)
        return record

    def _find(self, seen: Seen, day: int) -> None:
        if seen.plant not in self.home.known:
            self.home.known.add(seen.plant)
            self.home.move_apart(seen.plant)
            self.due[seen.plant], self.left[seen.plant] = day, self.rounds
        self.found[seen.plant] = True

    def _evening(self, day: int, record: Record) -> None:
        home = self.home
        known = [one for one in self.due if one in home.known and not home.plants[one].is_gone]
        looks = tuple(home.living()) if day % LOOK_DAYS == 0 else ()
        spray = tuple(
            Step(one, ("spray",), "soap") for one in known if self.left[one] and self.due[one] <= day
        )
        if not (looks or spray):
            return
        if looks:
            self.found = {}
        evening = home.answer(Asked(steps=spray, looks=looks), day)
        for seen in evening.seen:
            if seen.count:
                self._find(seen, day)
        for step in evening.finished:
            self.left[step.plant] -= 1
            self.due[step.plant] = day + self.gap
        looked = {seen.plant for seen in evening.seen}
        for one in known:
            if one not in looked or self.left[one]:
                continue
            if self.found.get(one):
                self.left[one], self.due[one] = self.rounds, day + 1
            else:
                record.released(day, one, home)
