"""One home for 200 days: the bot writes, the person reads, does and tells; what is true is counted apart."""

import shutil
import tempfile
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import datetime, time, timedelta
from pathlib import Path

from bot.domain.journal import Treated
from bot.storage.database import FILE_NAME, Database
from tests.journeys.talking import OWNER, ZONE, Talk
from tests.simulation.grower import Asked, Evening, Home, Seen, Step
from tests.simulation.judging import Record
from tests.simulation.reading import LABEL_DAYS, MOVED, STAYS, Reader, Word

DAYS = 200
BACK_AGAIN = 0.4
"""Chance that somebody who missed a nudge sees its repeat. Judgement. [1]"""


@dataclass(slots=True)
class Campaign:
    """A home, its talk with the bot, and what is still to be done."""

    home: Home
    talk: Talk
    record: Record
    reader: Reader
    mornings: list[Step] = field(default_factory=list)
    morning_labels: Sequence[str] = ()
    wishes: list[tuple[int, str]] = field(default_factory=list)
    leaving: list[int] = field(default_factory=list)
    told_unwashable: set[int] = field(default_factory=set)
    log: Callable[[str], None] = lambda _: None

    def play(self, days: int = DAYS) -> Record:
        """Live through it."""
        self._at(0, 10)
        for word in self.reader.set_up():
            self._send(word)
        for word in self.reader.temperatures(0):
            self._send(word)
        for seen in self.home.inspect():
            self._tell_find(seen)
        for day in range(days + 1):
            if day:
                self.home.pass_day(day)
            self._live(day)
            self.record.count(day, self.home)
        self._judge_journal()
        return self.record

    def _live(self, day: int) -> None:
        home = self.home
        for one in home.dead_today():
            self.record.died += 1
            self._at(day, 8)
            self._send(Word(f"the {home.plants[one].name} died"))
        self._at(day, 11)
        self._morning(day)
        self._put_back(day)
        self._shop(day)
        self._at(day, 12)
        if day:
            for seen in home.in_passing(day):
                self._tell_find(seen)
        self._evening(day)

    def _morning(self, day: int) -> None:
        if not self.mornings:
            return
        steps, self.mornings = self.mornings, []
        if not self.home.chance(self.home.habit.present):
            return
        evening = Evening()
        for step in steps:
            if not self.home.plants[step.plant].is_gone:
                self.record.check_label(step, day, self.home)
                self.home.work(step, day, evening)
        if not evening.deeds:
            return
        words = self.reader.morning(evening, self.morning_labels)
        if any(self.reader.is_spent(self._send(word)) for word in words):
            for word in self.reader.morning(evening, ()):
                self._send(word)

    def _put_back(self, day: int) -> None:
        leaving, self.leaving = self.leaving, []
        for one in dict.fromkeys(leaving):
            plant = self.home.plants[one]
            if plant.is_gone or (not plant.is_apart and one not in self.home.known):
                continue
            text = self._send(Word(f"put {plant.name} back"))
            if kept := self.reader.asked_back(self._labels()):
                self._send(kept)
                self.log(f"   not put back: {text}")
                continue
            if stands := self.reader.stands(one, self._labels()):
                self._send(stands)
            self.record.released(day, one, self.home)

    def _shop(self, day: int) -> None:
        due = [product for on, product in self.wishes if on <= day]
        self.wishes = [wish for wish in self.wishes if wish[0] > day]
        for product in due:
            if self.home.buy(product, LABEL_DAYS[product]):
                self._send(Word(self.reader.bought(product, LABEL_DAYS[product])))

    def _evening(self, day: int) -> None:
        last = self._when(day, 23, 59)
        is_settled = False
        while (due := self.talk.next_at()) is not None and due <= last:
            at = max(due, self.talk.now)
            new = self.talk.tick(at)
            if not new:
                if self.talk.next_at() == due:
                    break
                continue
            self.record.nudges += 1
            for text in new[:1]:
                self.log(f"{at:%a %d %b %H:%M} bot: {text}  {self._labels()}")
            asked = self.reader.read(new[0])
            self.leaving += asked.ready
            self._wish(new[0], day)
            if is_settled or not (asked.steps or asked.looks or asked.lifts):
                if "Go on" in self._labels():
                    self._send(Word("Go on", is_press=True))
                continue
            self.talk.now += timedelta(minutes=25)
            is_settled = self._answer(asked, day)

    def _answer(self, asked: Asked, day: int) -> bool:
        labels = self._labels()
        for step in asked.steps:
            if step.when == "tonight":
                self.record.check_label(step, day, self.home)
        evening = self.home.answer(asked, day)
        if evening.is_away and not evening.says_so:
            return not self.home.chance(BACK_AGAIN)
        self.mornings += [step for step in evening.later if step.when == "morning"]
        self.morning_labels = labels
        for seen in evening.seen:
            if seen.count:
                self.home.known.add(seen.plant)
        for word in self.reader.told(evening, asked, labels):
            text = self._send(word)
            if which := self.reader.which(text, evening, self._labels()):
                self._send(which)
            for said in word.again if self.reader.is_unclear(text) else ():
                self._send(Word(said))
            self._after_find(word)
        self._tell_unwashable(evening)
        self.record.discarded += len(evening.discarded)
        return True

    def _tell_unwashable(self, evening: Evening) -> None:
        for one in dict.fromkeys(evening.unwashable):
            if one not in self.told_unwashable:
                self.told_unwashable.add(one)
                self._send(self.reader.unwashable(one))

    def _tell_find(self, seen: Seen) -> None:
        self.home.known.add(seen.plant)
        word = self.reader.found(seen)
        self._send(word)
        self._after_find(word)

    def _after_find(self, word: Word) -> None:
        labels = self._labels()
        plants = self.reader.plants(word.text.partition(",")[0]) if word.is_find else ()
        if len(plants) == 1 and (moved := next((one for one in MOVED if one in labels), None)):
            was_apart = self.home.plants[plants[0]].is_apart
            if was_apart or self.home.move_apart(plants[0]):
                self._send(Word(moved, is_press=True))
            elif stays := next((one for one in STAYS if one in labels), None):
                self._send(Word(stays, is_press=True))

    def _wish(self, text: str, day: int) -> None:
        wanted = self.reader.wanted(text)
        if wanted and not any(one in self.home.shelf for one in wanted):
            product = wanted[0]
            if product not in {wish for _, wish in self.wishes}:
                self.wishes.append((day + int(self.home.source.integers(1, 4)), product))
        if self.home.pest.card and self.reader.wants_cards(text):
            self.home.hang_cards()
        if self.home.pest.name == "fungus gnat" and self.reader.wants_dry(text):
            self.home.let_dry(self.home.living())

    def _send(self, word: Word) -> str:
        if word.is_press:
            try:
                answers = self.talk.press(word.text)
            except StopIteration:
                answers = self.talk.say(word.text)
        else:
            answers = self.talk.say(word.text)
        self.record.messages += 1
        text = "\n".join(answers)
        self.log(
            f"   > {'[' + word.text + ']' if word.is_press else word.text}\n      {text}  {self._labels()}"
        )
        asked = self.reader.read(text)
        self.leaving += asked.ready
        self._wish(text, (self.talk.now.date() - self.home.start).days)
        self.talk.now += timedelta(minutes=1)
        if not word.is_press and answers and (meant := self.reader.meant(self._labels())):
            text += "\n" + self._send(meant)
        return text

    def _labels(self) -> list[str]:
        return self.talk.labels() if self.talk.shown.get(OWNER) else []

    def _when(self, day: int, hour: int, minute: int = 0) -> datetime:
        return datetime.combine(self.home.start + timedelta(days=day), time(hour, minute), ZONE)

    def _at(self, day: int, hour: int) -> None:
        self.talk.now = max(self.talk.now, self._when(day, hour)) if day else self._when(day, hour)

    def _judge_journal(self) -> None:
        """Read the journal, for judging only: what was written of treatments, and what was done."""
        home, start = self.talk.home, self.home.start
        names = {plant.name: number for number, plant in enumerate(self.home.plants)}
        written = Counter(
            (
                names[home.plants[one.plant].name],
                _as_done(one.payload.method.value),
                (one.happened_on - start).days,
            )
            for one in self.talk.entries()
            if isinstance(one.payload, Treated) and one.plant is not None
        )
        self.record.compare(written, self.home)


def _as_done(method: str) -> str:
    """Name a method as the deeds do."""
    return "drench" if method == "nematodes" else method


@contextmanager
def bot_of(home: Home, empty: Path) -> Iterator[Talk]:
    """Give a talk with a bot that knows nobody yet."""
    with tempfile.TemporaryDirectory(dir="/dev/shm" if Path("/dev/shm").is_dir() else None) as folder:
        shutil.copy(empty, Path(folder) / FILE_NAME)
        database = Database("", Path(folder))
        try:
            yield Talk(database, now=datetime.combine(home.start, time(10), ZONE))
        finally:
            database.close()


def play(home: Home, empty: Path, log: Callable[[str], None] | None = None, days: int = DAYS) -> Record:
    """Play one home with the bot."""
    with bot_of(home, empty) as talk:
        campaign = Campaign(home, talk, Record(), Reader(home))
        if log is not None:
            campaign.log = log
        return campaign.play(days)
