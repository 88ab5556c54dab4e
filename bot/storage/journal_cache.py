"""Journals already read, kept between units of work; each unit verifies what it takes from here."""

from collections import OrderedDict
from threading import Lock

from bot.domain.identity import HouseholdId
from bot.domain.journal import Entry
from bot.domain.value import Value


class Held(Value):
    """The committed journal of one household, as far as some unit of work has read it."""

    entries: tuple[Entry, ...] = ()

    @property
    def last(self) -> int:
        return self.entries[-1].id if self.entries else 0


class JournalCache:
    """The most recently used journals; only committed entries may be put in."""

    def __init__(self, households: int = 512, entries: int = 20_000) -> None:
        self._households = households
        self._room = entries
        self._held: OrderedDict[HouseholdId, Held] = OrderedDict()
        self._lock = Lock()

    def take(self, household: HouseholdId) -> Held:
        """Give what is held of a household, empty when nothing is."""
        with self._lock:
            held = self._held.get(household)
            if held is None:
                return Held()
            self._held.move_to_end(household)
            return held

    def put(self, household: HouseholdId, held: Held) -> None:
        """Hold a committed journal; the least recently used ones make room."""
        with self._lock:
            before = self._held.pop(household, Held())
            self._held[household] = held
            self._room += len(before.entries) - len(held.entries)
            while len(self._held) > self._households or (self._room < 0 and len(self._held) > 1):
                _, dropped = self._held.popitem(last=False)
                self._room += len(dropped.entries)

    def __len__(self) -> int:
        return len(self._held)
