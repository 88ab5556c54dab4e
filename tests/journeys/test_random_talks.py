"""
Random talks: at no time does the journal hold what was not asked for, announced or told.

What was asked and announced is read from the texts of the messages themselves, as a person reads them, and not
from the bot's own value of the evening. `python -m tests.tools.random_talks` holds many more and longer ones.
"""

import re
import tempfile
from copy import deepcopy
from dataclasses import dataclass, field
from pathlib import Path

from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule

from bot.actions.action import ButtonText, Choice
from bot.actions.correct_entry import CorrectEntry, DeleteEntry, Entered, Kind
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.log_round import LogRound
from bot.domain.fold import valid
from bot.domain.identity import EntryId, PlantId
from bot.domain.journal import (
    CheckedClean,
    Entry,
    Found,
    Heard,
    LostNow,
    Nudged,
    Postponed,
    ReleasedNow,
    SilenceAsked,
    Treated,
    Voided,
    evening_of,
)
from bot.domain.trade import Method
from bot.storage.database import Database
from bot.wording.answer import Answer
from bot.wording.button_texts import BUTTON_TEXTS
from tests.journeys.talking import OWNER, PARTNER, Talk

PLANTS = ("hoya", "small hoya", "moth orchid", "coffee plant", "ivy")
PLACES = {"landing": ("hoya", "small hoya"), "kitchen": ("moth orchid", "coffee plant"), "study": ("ivy",)}
PLANT = st.sampled_from(PLANTS)
TELLING = (Treated, CheckedClean, Found, LostNow, Postponed, ReleasedNow)
BY_THE_BOT = (Heard, Nudged, SilenceAsked)
NAMED = {
    Method.SPRAY: r"\bspray(?!ed .* already)|then (soap|neem)|: (soap|neem)",
    Method.WIPE: r"\bwip(e|ing)",
    Method.SWAB: r"\bswab|: alcohol",
    Method.RINSE: r"\brins",
    Method.PRUNE: r"\bprun|\bcut",
    Method.CLEAN_OUT: r"clean(ed)?[- ]out|full clean",
    Method.DRENCH: r"\bdrench",
}
ASKED_TO_LOOK = re.compile(r"^(?:\d )?Look at |What did you see on |First a look|Lift |only of those asked")
LATER = re.compile(
    r"^(Tomorrow|Too late|Sprayed .* already|Back|On watch|Mix|Out of direct sun|First .* one leaf)"
)
PLANNED = re.compile(r"Plan: |\d Tonight: ")
SET_ASIDE = re.compile(r"^(Tomorrow morning|Too late|Sprayed .* already)")
IDLE = (
    "thanks",
    "what's due",
    "why",
    "isolated?",
    "hello",
    "is the hoya clean?",
    "banana",
    "history",
    "should i spray the hoya",
    "i wish i had sprayed the ivy",
    "how do i clean the ivy",
)
DENIALS = ("no", "not that", "no, that is wrong", "wrong one")
DONES = ("done", "all done", "did it all", "👍")
LATERS = ("not tonight", "later", "tomorrow")
PRODUCTS = {"soap": "soap", "alcohol": "alcohol"}


def lines_of(answer: Answer) -> list[str]:
    """Give what a person reads, line by line."""
    return answer.text.split("\n")


def names_in(text: str) -> set[str]:
    """Give the plants named in a text; a longer name is not the shorter one in it, and a place stands for all."""
    found: set[str] = set()
    if f"all {len(PLANTS)} plants" in text:
        return set(PLANTS)
    for place, there in PLACES.items():
        whole = re.search(rf"\ball (\d+ |but ([\w ,]+) )?at {place}", text)
        if whole:
            found |= {name for name in there if name not in (whole[2] or "")}
            text = text.replace(whole[0], " ")
    for name in sorted(PLANTS, key=len, reverse=True):
        if re.search(rf"\b{name}\b", text):
            found.add(name)
            text = re.sub(rf"\b{name}\b", " ", text)
    return found


@dataclass
class Reader:
    """A person who remembers what the bot's messages named, since each last spoke up or planned something."""

    treatments: set[tuple[str, Method]] = field(default_factory=set)
    """Plants and methods of the last evening's message, or of an answer since."""
    looks: set[str] = field(default_factory=set)
    waiting: set[str] = field(default_factory=set)
    """Plants whose spray is said to wait for the morning, or to be too late."""
    left: set[str] = field(default_factory=set)
    """Plants an answer named as still open."""

    def evening(self, answer: Answer) -> None:
        """Read an evening's message: it begins anew."""
        self.treatments, self.looks, self.waiting, self.left = set(), set(), set(), set()
        self.read(answer)

    def read(self, answer: Answer) -> None:
        """Read any message for what it asks or plans."""
        for line in lines_of(answer):
            plants = names_in(line)
            if SET_ASIDE.match(line):
                self.waiting |= plants
            if line.startswith("Still open tonight: "):
                self.left |= plants
            if ASKED_TO_LOOK.search(line):
                self.looks |= names_in(line.partition("Then “")[0])
            if not LATER.match(line) or line.startswith("Tomorrow"):
                self.treatments |= {
                    (plant, method)
                    for plant in plants
                    for method, word in NAMED.items()
                    if re.search(word, line, re.IGNORECASE)
                }
        planned = next((line for line in lines_of(answer) if PLANNED.match(line)), "")
        first = names_in(lines_of(answer)[0])
        if planned:
            self.treatments |= {
                (plant, method)
                for plant in first
                for method, word in NAMED.items()
                if re.search(word, planned, re.IGNORECASE)
            }


class Talks(RuleBasedStateMachine):
    """One home, talked with in any order; every new line of the journal has to have its reason in what was said."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = tempfile.TemporaryDirectory()
        self.talk = Talk(Database("", Path(self.folder.name)))
        self.talk.set_up()
        self.talk.say("got neem, ready to use")
        self.talk.joins()
        self.known: set[EntryId] = {one.id for one in self.talk.entries()}
        self.begun = max(self.known)
        with self.talk.database.unit() as store:
            here, there = store.member(OWNER, OWNER), store.member(PARTNER, PARTNER)
        assert here is not None
        assert there is not None
        self.owner, self.other = here.id, there.id
        self.reader = Reader()
        self.found_since_asked: set[str] = set()
        self.messages = 0

    def teardown(self) -> None:
        self.talk.database.close()
        self.folder.cleanup()

    def say(self, words: str, person: int = OWNER) -> list[Entry]:
        """Say something; give what is newly told of plants and still stands."""
        before, shown = len(self.talk.entries()), len(self.talk.shown[OWNER])
        answers = self.talk.say(words, person=person)
        return self._heard(answers, before, shown)

    def press(self, data: str) -> list[Entry]:
        """Press a button; the same."""
        before, shown = len(self.talk.entries()), len(self.talk.shown[OWNER])
        answers = self.talk.press_data(data)
        return self._heard(answers, before, shown)

    def _heard(self, answers: list[str], before: int, shown: int) -> list[Entry]:
        wrote = any(not isinstance(one.payload, BY_THE_BOT) for one in self.talk.entries()[before:])
        claims = any(re.match(r"(Written|Noted)(?! is:)", text) for text in answers)
        assert wrote or not claims, ("said to be written, and nothing is", answers)
        new = self._new()
        self.found_since_asked |= {self._name(one) for one in new if isinstance(one.payload, Found)}
        for answer in self.talk.shown[OWNER][shown:]:
            self.reader.read(answer)
        return new

    def _new(self) -> list[Entry]:
        entries = self.talk.entries()
        new = [one for one in valid(entries) if one.id not in self.known and isinstance(one.payload, TELLING)]
        self.known = {one.id for one in entries}
        return new

    def _name(self, entry: Entry) -> str:
        assert entry.plant is not None
        return self.talk.home.plants[entry.plant].name

    def _check_answered(self, words: str, new: list[Entry], reader: Reader) -> None:
        """Hold what a bare answer wrote against what the messages before it named."""
        for one in new:
            payload, name = one.payload, self._name(one)
            match payload:
                case Treated(method=method):
                    assert words in DONES, (words, one)
                    assert (name, method) in reader.treatments, (words, one, reader)
                    assert method is not Method.CLEAN_OUT, "a clean-out is written only when named"
                    assert not (method is Method.SPRAY and name in reader.waiting), (words, one, reader)
                case CheckedClean():
                    assert words == "all clean", (words, "is never a look")
                    assert name in reader.looks, (words, one, reader)
                    assert name not in self.found_since_asked, "a find since"
                case Postponed(on=on):
                    assert words in LATERS, (words, one)
                    assert on >= one.happened_on, "put off into the past"
                    assert name in reader.looks | reader.left | {plant for plant, _ in reader.treatments}, (
                        words,
                        one,
                    )
                case _:
                    raise AssertionError((words, one))

    @invariant()
    def nothing_stands_twice(self) -> None:
        """The same treatment of a plant and day is one entry of one person."""
        told = [
            (one.plant, one.happened_on, one.payload, one.member)
            for one in valid(self.talk.entries())
            if isinstance(one.payload, Treated)
        ]
        assert len(told) == len(set(told))

    @rule(
        plant=PLANT, count=st.integers(1, 60), pest=st.sampled_from(["spider mites", "longtailed mealybugs"])
    )
    def finds(self, plant: str, count: int, pest: str) -> None:
        new = self.say(f"{plant} {count} {pest}")
        assert all(isinstance(one.payload, Found) and self._name(one) == plant for one in new)

    @rule(plant=PLANT)
    def looks(self, plant: str) -> None:
        new = self.say(f"{plant} clean")
        assert all(isinstance(one.payload, CheckedClean) and self._name(one) == plant for one in new)

    @rule(plant=PLANT, verb=st.sampled_from(["sprayed", "wiped", "rinsed"]))
    def treats(self, plant: str, verb: str) -> None:
        told = {"sprayed": Method.SPRAY, "wiped": Method.WIPE, "rinsed": Method.RINSE}[verb]
        for one in self.say(f"{verb} {plant}"):
            assert isinstance(one.payload, Treated)
            assert (one.payload.method, self._name(one)) == (told, plant)

    @rule(plant=PLANT, verb=st.sampled_from(["wiped", "rinsed"]))
    def the_other_treats(self, plant: str, verb: str) -> None:
        """What the other tells is the other's, and no "undo" of one's own takes it back."""
        if self._is_gone(plant):
            return
        for one in self.say(f"{verb} {plant}", PARTNER):
            assert (self._name(one), one.payload) == (
                plant,
                Treated(method={"wiped": Method.WIPE, "rinsed": Method.RINSE}[verb]),
            )
        theirs = self._of_the_other()
        if self._has_told():
            self.talk.say("undo")
        self._new()
        assert self._of_the_other() == theirs

    def _has_told(self) -> bool:
        """Whether anything of one's own is left to be taken back but the home itself."""
        mine = (one for one in valid(self.talk.entries()) if one.member == self.owner)
        return any(one.id > self.begun and not isinstance(one.payload, Heard) for one in mine)

    def _of_the_other(self) -> set[EntryId]:
        return {one.id for one in valid(self.talk.entries()) if one.member == self.other}

    @rule(plant=PLANT, other=PLANT, count=st.integers(1, 60))
    def sets_the_plant_right(self, plant: str, other: str, count: int) -> None:
        """What was told last is of the plant that was meant, and of the other no more."""
        if plant == other or self._is_gone(plant) or self._is_gone(other):
            return
        told = self.say(f"{plant} {count} spider mites")
        if not told:
            return  # it stood there already
        moved = [(self._name(one), one.payload) for one in self.say(f"no, it was the {other}")]
        assert moved in ([], [(other, told[0].payload)])
        self.reader.treatments |= {(other, way) for name, way in self.reader.treatments if name == plant}
        assert told[0].id not in {one.id for one in valid(self.talk.entries())}

    @rule(plant=PLANT, count=st.integers(1, 60), right=st.integers(1, 60))
    def sets_the_number_right(self, plant: str, count: int, right: int) -> None:
        if count == right or self._is_gone(plant):
            return
        told = self.say(f"{plant} {count} spider mites")
        if not told:
            return
        counts = [
            one.payload.count
            for one in self.say(f"it was {right}, not {count}")
            if isinstance(one.payload, Found)
        ]
        assert counts in ([], [right])
        assert told[0].id not in {one.id for one in valid(self.talk.entries())}

    @rule(plant=PLANT, count=st.integers(1, 60), right=st.integers(1, 60))
    def the_other_sets_right(self, plant: str, count: int, right: int) -> None:
        """The other's word is shown first; a tap changes it."""
        if count == right or self._is_gone(plant):
            return
        self.say(f"{plant} {count} spider mites")
        assert self.say(f"the {plant} had {right} spider mites, not {count}", PARTNER) == []

    @rule(plant=PLANT)
    def another_product_the_same_day_is_asked(self, plant: str) -> None:
        """Two treatments differ if the product differs: never dropped, never written without asking."""
        if self._is_gone(plant):
            return
        self.say(f"sprayed {plant} with soap")
        new = self.say(f"sprayed {plant} with neem")
        stands = [one for one in valid(self.talk.entries()) if isinstance(one.payload, Treated)]
        mine = [one for one in stands if self._name(one) == plant and one.happened_on == self._today()]
        products = {one.payload.product for one in mine if isinstance(one.payload, Treated)}
        text = self.talk.shown[OWNER][-1].text
        assert "instead, or besides?" in text or "already" in text, text
        assert new == []
        for label in self.talk.labels():
            if label.startswith("Besides"):
                self.press(self.talk.button(label))
        stands = [one for one in valid(self.talk.entries()) if isinstance(one.payload, Treated)]
        mine = [one for one in stands if self._name(one) == plant and one.happened_on == self._today()]
        assert {one.payload.product for one in mine if isinstance(one.payload, Treated)} >= products

    def _is_gone(self, plant: str) -> bool:
        """Whether it is told to have died, by a button under what was passed on."""
        return plant not in {one.name for one in self.talk.home.living}

    def _today(self) -> object:
        return self.talk.entries()[-1].happened_on

    @rule(
        plant=PLANT,
        telling=st.sampled_from(["{} 7 spider mites", "{} clean", "sprayed {} with soap", "wiped {}"]),
    )
    def tells_twice(self, plant: str, telling: str) -> None:
        if self._is_gone(plant):
            return
        self.say(telling.format(plant))
        before = len(self.talk.told())
        new = self.say(telling.format(plant))
        assert new == [], "written once"
        assert len(self.talk.told()) == before
        assert "already" in self.talk.shown[OWNER][-1].text or "instead" in self.talk.shown[OWNER][-1].text

    @rule(words=st.sampled_from((*DONES, *LATERS, "all clean")))
    def answers(self, words: str) -> None:
        reader = deepcopy(self.reader)
        self._check_answered(words, self.say(words), reader)

    @rule(words=st.sampled_from(DONES))
    def nothing_is_put_off_once_all_is_done(self, words: str) -> None:
        reader = deepcopy(self.reader)
        new = self.say(words)
        self._check_answered(words, new, reader)
        treated = {self._name(one) for one in new}
        if treated and "Still open" not in self.talk.shown[OWNER][-1].text:
            later = {self._name(one) for one in self.say("not tonight") if isinstance(one.payload, Postponed)}
            assert not later & (treated - self.reader.looks - self.reader.waiting), "what is done"

    @rule(words=st.sampled_from(IDLE))
    def chats(self, words: str) -> None:
        assert self.say(words) == [], words

    @rule(words=st.sampled_from(DENIALS))
    def denies(self, words: str) -> None:
        """A denial takes nothing back and answers no older question; "no" is not tonight only under an evening."""
        before = len([one for one in self.talk.entries() if isinstance(one.payload, Voided)])
        reader = deepcopy(self.reader)
        for one in self.say(words):
            assert words == "no", (words, one)
            assert isinstance(one.payload, Postponed), (words, one)
            assert self._name(one) in reader.looks | {plant for plant, _ in reader.treatments}
        assert len([one for one in self.talk.entries() if isinstance(one.payload, Voided)]) == before

    @rule(plant=PLANT, telling=st.sampled_from(["{} died", "{} 12 spider mites", "sprayed {} with soap"]))
    def passes_on(self, plant: str, telling: str) -> None:
        self.talk.passes_on(telling.format(plant))
        assert self._new() == []

    @rule(
        plant=st.integers(1, 5),
        method=st.sampled_from([Method.WIPE, Method.RINSE, None]),
        hours=st.sampled_from([1, 26, 50]),
        yes=st.sampled_from(["yes", "ok", "did it"]),
    )
    def an_offer_left_lying_is_written_for_no_other_day(
        self, plant: int, method: Method | None, hours: int, yes: str
    ) -> None:
        """Offered, passed by time or by an evening's message: a bare yes never writes it for a later day."""
        offered = LogRound(plants=(PlantId(plant),), method=method)
        choice = Choice(ButtonText.YES, (offered,), f"“{PLANTS[plant - 1]} done”")
        self.talk.tell(Incomplete(missing=Missing.MEANT, text=choice.of, choices=(choice,)))
        before = evening_of(self.talk.now, self.talk.home.zone)
        self.talk.passes(hours=hours)
        reader = deepcopy(self.reader)
        new = self.say(yes)
        if evening_of(self.talk.now, self.talk.home.zone) != before:
            assert yes == "did it" or new == [], (yes, new)
        if yes == "did it":
            self._check_answered("done", [one for one in new if one.plant != plant], reader)

    @rule(place=st.integers(0, 30))
    def presses(self, place: int) -> None:
        """Press any button still in sight, of the last messages or older: it does what its message says."""
        buttons = [
            (one.label, one.data, answer.text)
            for answer in self.talk.shown[OWNER][-6:]
            for row in answer.buttons
            for one in row
        ]
        if not buttons:
            return
        label, data, text = buttons[place % len(buttons)]
        treatments = set(self.reader.treatments)
        for one in self.press(data):
            name = self._name(one)
            named = name in names_in(text) or name in {plant for plant, _ in treatments}
            assert named, (label, one, text)
            if isinstance(one.payload, Treated) and label == BUTTON_TEXTS[ButtonText.ALL_DONE]:
                assert one.payload.method is not Method.CLEAN_OUT, "not by this button"
            if isinstance(one.payload, CheckedClean):
                assert label != BUTTON_TEXTS[ButtonText.ALL_DONE], "done is never a look"

    @rule(number=st.integers(0, 50), count=st.integers(1, 40))
    def puts_right(self, number: int, count: int) -> None:
        """An entry of any day is shown first, changed on one tap, and both stay in the journal."""
        finds = [one for one in valid(self.talk.entries()) if isinstance(one.payload, Found)]
        if not finds:
            return
        wrong = finds[number % len(finds)]
        assert wrong.plant is not None
        same = [one for one in finds if (one.plant, one.happened_on) == (wrong.plant, wrong.happened_on)]
        if any(isinstance(one.payload, Found) and one.payload.count == count for one in same):
            return  # that number stands there already: nothing is changed by it
        of = Entered(kind=Kind.FOUND, plant=PlantId(wrong.plant), on=wrong.happened_on)
        self.talk.tell(CorrectEntry(of=of, to=Entered(count=count)))
        assert self._new() == [], "shown, and not changed yet"
        if "Change it" in self.talk.labels():
            before = len(self.talk.entries())
            self.talk.press("Change it")
            new = self._new()
            assert [one.payload.count for one in new if isinstance(one.payload, Found)] == [count]
            assert [one.happened_on for one in new] == [wrong.happened_on]
            assert any(isinstance(one.payload, Voided) for one in self.talk.entries()[before:])

    @rule(number=st.integers(0, 50))
    def deletes(self, number: int) -> None:
        told = [one for one in valid(self.talk.entries()) if isinstance(one.payload, Treated)]
        if not told:
            return
        wrong = told[number % len(told)]
        of = Entered(kind=Kind.TREATED, plant=wrong.plant, on=wrong.happened_on)
        before = len(valid(self.talk.entries()))
        self.talk.tell(DeleteEntry(of=of))
        if "Delete it" in self.talk.labels():
            assert (
                len([one for one in valid(self.talk.entries()) if not isinstance(one.payload, Heard)])
                <= before
            )
            self.talk.press("Delete it")
            assert wrong.id not in {one.id for one in valid(self.talk.entries())}
        self._new()

    @rule()
    def takes_back(self) -> None:
        told = len(valid(self.talk.entries()))
        if not self._has_told():
            return  # the home itself stays
        self.talk.say("undo")
        assert self._new() == [] or len(valid(self.talk.entries())) != told

    @rule()
    def evening_comes(self) -> None:
        began = len(self.talk.shown[OWNER])
        self.talk.evening()
        assert self._new() == [], "the bot writes nothing of plants by itself"
        self.found_since_asked = set()
        for answer in self.talk.shown[OWNER][began:]:
            self.reader.evening(answer)

    @rule(hours=st.integers(1, 30))
    def time_passes(self, hours: int) -> None:
        self.talk.passes(hours=hours)
        if hours > 7:  # from the evening's message to the earliest morning slot
            self.reader.waiting = set()


def talks(examples: int, steps: int) -> settings:
    """Say how many talks are held, and how long."""
    return settings(
        max_examples=examples,
        stateful_step_count=steps,
        deadline=None,
        suppress_health_check=list(HealthCheck),
        phases=[Phase.explicit, Phase.reuse, Phase.generate],
    )


TestTalks = Talks.TestCase
TestTalks.settings = talks(10, 16)
