"""
Random talks: at no time does the journal hold what was not asked for, announced or told.

What was asked and announced is read from the texts of the messages themselves, as a person reads them, and not
from the bot's own value of the evening.
"""

import re
import tempfile
from pathlib import Path

from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, rule

from bot.domain.fold import valid
from bot.domain.identity import EntryId
from bot.domain.journal import CheckedClean, Entry, Found, LostNow, Postponed, ReleasedNow, Treated
from bot.domain.trade import Method
from bot.storage.database import Database
from tests.journeys.talking import OWNER, Talk

PLANTS = ("hoya", "small hoya", "moth orchid", "coffee plant", "ivy")
PLANT = st.sampled_from(PLANTS)
TELLING = (Treated, CheckedClean, Found, LostNow, Postponed, ReleasedNow)
NAMED = {
    Method.SPRAY: r"spray",
    Method.WIPE: r"wip(e|ing)",
    Method.SWAB: r"swab",
    Method.RINSE: r"rins",
    Method.PRUNE: r"prun|cut",
    Method.CLEAN_OUT: r"clean(ed)?[- ]out|full clean",
    Method.DRENCH: r"drench",
}
LOOKED_AT = re.compile(r"look|what did you see|check|clean", re.IGNORECASE)
IDLE = ("thanks", "what's due", "why", "isolated?", "hello", "is the hoya clean?", "banana", "no", "history")


class Talks(RuleBasedStateMachine):
    """One home, talked with in any order; every new line of the journal has to have its reason in what was said."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = tempfile.TemporaryDirectory()
        self.talk = Talk(Database("", Path(self.folder.name)))
        self.talk.set_up()
        self.known: set[EntryId] = {one.id for one in self.talk.entries()}

    def teardown(self) -> None:
        self.talk.database.close()
        self.folder.cleanup()

    def _new(self) -> list[Entry]:
        """Give what is newly told of plants, and still stands."""
        entries = self.talk.entries()
        new = [one for one in valid(entries) if one.id not in self.known and isinstance(one.payload, TELLING)]
        self.known = {one.id for one in entries}
        return new

    def _name(self, entry: Entry) -> str:
        assert entry.plant is not None
        return self.talk.home.plants[entry.plant].name

    def _shown(self) -> list[str]:
        """Give the lines of what the bot showed last: the recent messages, line by line."""
        return [line for answer in self.talk.shown[OWNER][-12:] for line in answer.text.split("\n")]

    def _was_announced(self, entry: Entry) -> bool:
        """Whether a line the person read names this plant with what was written of it."""
        payload, name = entry.payload, self._name(entry)
        match payload:
            case Treated(method=method):
                word = re.compile(NAMED[method], re.IGNORECASE)
            case CheckedClean():
                word = LOOKED_AT
            case Postponed():
                word = re.compile("")
            case _:
                return False
        lines = self._shown()
        near = [" ".join(lines[at : at + 2]) for at in range(len(lines))]  # a plan may take two lines
        return any(name in line and word.search(line) for line in near)

    @rule(
        plant=PLANT, count=st.integers(1, 60), pest=st.sampled_from(["spider mites", "longtailed mealybugs"])
    )
    def finds(self, plant: str, count: int, pest: str) -> None:
        self.talk.say(f"{plant} {count} {pest}")
        assert all(isinstance(one.payload, Found) and self._name(one) == plant for one in self._new())

    @rule(plant=PLANT)
    def looks(self, plant: str) -> None:
        self.talk.say(f"{plant} clean")
        assert all(isinstance(one.payload, CheckedClean) and self._name(one) == plant for one in self._new())

    @rule(plant=PLANT, verb=st.sampled_from(["sprayed", "wiped", "rinsed"]))
    def treats(self, plant: str, verb: str) -> None:
        self.talk.say(f"{verb} {plant}")
        told = {"sprayed": Method.SPRAY, "wiped": Method.WIPE, "rinsed": Method.RINSE}[verb]
        for one in self._new():
            assert isinstance(one.payload, Treated)
            assert (one.payload.method, self._name(one)) == (told, plant)

    @rule(words=st.sampled_from(["done", "all done", "👍", "not tonight", "later", "all clean"]))
    def answers(self, words: str) -> None:
        self.talk.say(words)
        for one in self._new():
            assert self._was_announced(one), (words, one, self._shown())
            assert not isinstance(one.payload, CheckedClean) or words == "all clean", "done is never a look"
            assert not isinstance(one.payload, Treated) or one.payload.method is not Method.CLEAN_OUT, (
                "not named"
            )

    @rule(words=st.sampled_from(IDLE))
    def chats(self, words: str) -> None:
        self.talk.say(words)
        new = self._new()
        assert all(words == "no" and isinstance(one.payload, Postponed) for one in new), (words, new)
        assert all(self._was_announced(one) for one in new), "no is not tonight only under an open evening"

    @rule(plant=PLANT)
    def passes_on(self, plant: str) -> None:
        self.talk.passes_on(f"{plant} died")
        assert self._new() == []

    @rule(place=st.integers(0, 30))
    def presses(self, place: int) -> None:
        """Press any button still in sight, of the last messages or older."""
        buttons = [
            (one.label, one.data, answer.text)
            for answer in self.talk.shown[OWNER][-6:]
            for row in answer.buttons
            for one in row
        ]
        if not buttons:
            return
        label, data, text = buttons[place % len(buttons)]
        self.talk.press_data(data)
        for one in self._new():
            named = self._name(one) in text or self._was_announced(one)
            assert named, (label, one, text)

    @rule()
    def takes_back(self) -> None:
        told = len(valid(self.talk.entries()))
        self.talk.say("undo")
        assert self._new() == [] or len(valid(self.talk.entries())) != told

    @rule()
    def evening_comes(self) -> None:
        self.talk.evening()
        assert self._new() == [], "the bot writes nothing of plants by itself"

    @rule(hours=st.integers(1, 30))
    def time_passes(self, hours: int) -> None:
        self.talk.passes(hours=hours)


TestTalks = Talks.TestCase
TestTalks.settings = settings(
    max_examples=10,
    stateful_step_count=16,
    deadline=None,
    suppress_health_check=list(HealthCheck),
    phases=[Phase.explicit, Phase.reuse, Phase.generate],
)
