"""
The person's eyes and hands on the bot's messages: what a text asks, and the words or buttons of an answer.

This part follows the texts when they change; what the person does with what is read is settled in `grower.py`.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from tests.simulation.grower import WORDS_FROM, Asked, Evening, Home, Seen, Step

WORKS: tuple[tuple[str, str], ...] = (
    (r"let the top[^,.]*dry|dry top", "dry"),
    (r"nematodes", "drench"),
    (r"clean-?\s?out", "clean-out"),
    (r"wipe|wiping", "wipe"),
    (r"rinse", "rinse"),
    (r"wash", "wash"),
    (r"swab|dab|brush", "swab"),
    (r"scrape", "scrape"),
    (r"drench", "drench"),
    (r"spray", "spray"),
    (r"repot|unpot", "repot"),
    (r"prune|cut", "prune"),
    (r"flowers|buds", "buds off"),
    (r"top \d|mix off", "top mix"),
)
"""Verbs of a line that asks for work, and the work."""
PRODUCTS: tuple[tuple[str, str], ...] = (
    (r"insecticidal soap|soap", "soap"),
    (r"isopropyl alcohol|alcohol", "alcohol"),
    (r"azadirachtin", "azadirachtin"),
    (r"neem oil|neem", "neem"),
    (r"rapeseed oil", "rapeseed oil"),
    (r"horticultural oil|oil", "oil"),
    (r"spinosad", "spinosad"),
    (r"nematodes", "nematodes"),
    (r"bacillus thuringiensis|bti", "bti"),
    (r"pyrethrins?", "pyrethrins"),
    (r"imidacloprid", "imidacloprid"),
)
ASKS_WORK = "|".join(verbs for verbs, _ in WORKS)
LABEL_DAYS = {
    "soap": 7,
    "neem": 7,
    "oil": 7,
    "spinosad": 7,
    "nematodes": 14,
    "bti": 5,
    "pyrethrins": 3,
    "alcohol": 3,
    "azadirachtin": 7,
    "rapeseed oil": 7,
    "imidacloprid": 56,
}
WAYS: tuple[tuple[str, str], ...] = (
    ("lens", "lens|close-up|macro|loupe|magnif"),
    ("tap", r"tap\b|tapped|paper"),
    ("card", "card"),
    ("tape", "tape"),
    ("potato", "potato"),
)
HOW = {
    "lens": " with a lens",
    "tap": ", tapped over paper",
    "card": ", sticky card",
    "tape": ", tape",
    "potato": ", potato slice",
}
"""How a look that showed nothing is told, by its way."""
BOTH = "All done, none seen"
BUTTON = {
    "lens": "None seen, with a lens",
    "tap": "None seen, tapped",
    "card": "None seen, card",
    "tape": "None seen, tape",
}
LIFTED = "None seen, roots too"
READY = re.compile(r"may leave|all.clear|may go back|can go back|free to (go|leave)")
ASIDE = re.compile(
    r"^(sun off|settled|seen|treatment|then|first|warm at|too late|sprayed|mix|stir|shake|reminder|because)\b"
)
QUOTED = re.compile(r"“[^”]*”")
PLURAL = {
    "greenhouse whitefly": "greenhouse whiteflies",
    "western flower thrips": "western flower thrips",
    "brown soft scale": "brown soft scale",
    "armoured scale": "armoured scale",
}
MOVED = ("It is apart now", "Moved", "It's apart now", "Set apart", "Apart now")
STAYS = ("Cannot be moved", "Can't move it", "Cannot move it")
CLEAN_OUT, CLEANED = "clean-out", "Full clean-out done"
ALL_OF_THAT = "All of that"
KEEP_ON = ("Keep it apart", "Keep apart", "Go on", "Not now", "Keep it")


@dataclass(frozen=True, slots=True)
class Word:
    """Something to type, or a button to press."""

    text: str
    is_press: bool = False
    again: tuple[str, ...] = ()
    """How it is said once more where it was not understood: plant by plant."""
    is_find: bool = False


@dataclass(frozen=True, slots=True)
class Reader:
    """Knows the names of the plants and the pest, as the person does."""

    home: Home

    def plants(self, line: str) -> tuple[int, ...]:
        """Give the plants a line names, in its order."""
        low, found = self._spelled_out(line.casefold()), []
        for number, plant in enumerate(self.home.plants):
            if not plant.is_gone and (match := re.search(rf"\b{re.escape(plant.name)}\b", low)):
                found.append((match.start(), number))
        return tuple(number for _, number in sorted(found))

    def _spelled_out(self, low: str) -> str:
        """Put the plants of a place, or of the home, where a line says "all" of it."""
        names = [(plant.room, plant.name) for plant in self.home.plants if not plant.is_gone]
        low = re.sub(r"\ball \d+ plants\b", _listed(name for _, name in names), low)
        for room, place in enumerate(self.home.rooms):
            for match in re.finditer(
                rf"\ball (?:\d+|but ([\w ,-]+?)) at {re.escape(place.casefold())}\b", low
            ):
                left_out = re.split(r", | and ", match[1] or "")
                there = [name for at, name in names if at == room and name not in left_out]
                low = low.replace(match[0], _listed(there))
        return low

    def read(self, text: str) -> Asked:
        """Read what a message asks, line by line."""
        steps: list[Step] = []
        looks: list[int] = []
        lifts: list[int] = []
        ready: list[int] = []
        discards: list[int] = []
        late: set[int] = set()
        levels: set[str] = set()
        for line in text.splitlines():
            bare = re.sub(r"^[\s\d.)•·–-]+", "", QUOTED.sub("", line)).strip()
            low = bare.casefold()
            named = self.plants(line)
            if READY.search(low) and "at best" not in low:
                ready += named
            elif low.startswith(("look", "check")):
                levels |= set(_levels(low))
                if "out of the pot" in low:
                    lifts += self.plants(bare)
                else:
                    looks += self.plants(bare)
            elif low.startswith("lift"):
                lifts += self.plants(bare)
            elif low.startswith("too late"):
                late |= set(named)
            elif "discard" in low and "advis" not in low:
                discards += named
            elif not ASIDE.match(low):
                steps += self._steps(bare)
        return Asked(
            steps=tuple(_joined(step for step in steps if step.plant not in late)),
            looks=tuple(dict.fromkeys(looks)),
            levels=frozenset(levels),
            lifts=tuple(dict.fromkeys(lifts)),
            ready=tuple(dict.fromkeys(ready)),
            discards=tuple(dict.fromkeys(discards)),
        )

    def _steps(self, line: str) -> list[Step]:
        when, low = "tonight", self._spelled_out(line.casefold())
        if match := re.match(r"tomorrow.*?:(?=\s)", low):
            when = "morning" if "morning" in match[0] else "tomorrow"
            low, line = low[match.end() :].strip(), line[match.end() :].strip()
            if when == "morning" and not _works(low):
                low = f"spray {low}"
        plants = self.plants(line)
        names_first = re.match(
            rf"({'|'.join(re.escape(plant.name) for plant in self.home.plants)})\b[^:.]*:", low
        )
        if names_first:
            low = low[names_first.end() :].strip()
        if not re.match(rf"{ASKS_WORK}", low):
            return []
        parts = [
            (_works(part), _product(part)) for part in re.split(r",? then |, (?=rinse|wipe|wash|spray)", low)
        ]
        acts = [
            (work, product) for works, product in parts for work in works or (("spray",) if product else ())
        ]
        products: list[str | None] = list(dict.fromkeys(product for _, product in acts if product))
        steps = []
        for product in products or [None]:
            of_one = tuple(
                dict.fromkeys(
                    work
                    for work, with_what in acts
                    if with_what == product or (with_what is None and product in products[:1])
                )
            )
            steps += [Step(plant, of_one, product, when) for plant in plants]
        return steps

    def wanted(self, text: str) -> list[str]:
        """Give the products a text says to look for, the first of them that is named."""
        match = re.search(r"(?:[Ll]ook for|To get:) ([^.]*?)(,? labelled|\.|$)", text)
        if match is None or self.plants(match[0]):
            return []
        found = [
            (named.start(), name)
            for words, name in PRODUCTS
            if (named := re.search(rf"\b({words})\b", match[1].casefold()))
        ]
        # somebody who has a thing already is told so because it does not fit
        return [name for _, name in sorted(found) if name not in self.home.shelf]

    def wants_cards(self, text: str) -> bool:
        """Whether a text asks for sticky cards."""
        return bool(re.search(r"\b(sticky|yellow|blue) cards?\b|\bhang .*cards?\b|\bcard\b", text.casefold()))

    def wants_dry(self, text: str) -> bool:
        """Whether a text asks for a dry top."""
        return bool(
            re.search(r"\b(dry|dries)\b.*\b(top|cm|mix)\b|\b(top|cm|mix)\b.*\bdry\b", text.casefold())
        )

    def set_up(self) -> list[Word]:
        """Say what there is to say on the first day."""
        home = self.home
        words = [
            "/start",
            "Gent",
            "\n".join(f"{plant.name}, {home.rooms[plant.room]}" for plant in home.plants),
        ]
        windows = (
            f"{room} has no window" if facing == "no window" else f"{room} faces {facing}"
            for room, facing in zip(home.rooms, home.facing, strict=True)
        )
        words.append(", ".join(windows))  # it is asked for all of them, "or all in one go"
        words += [self.bought(product, days) for product, days in home.shelf.items()]
        return [Word(one) for one in words]

    def bought(self, product: str, days: int) -> str:
        """Say what stands on the shelf now."""
        return f"got {product}" if product == "alcohol" else f"got {product}, ready to use, every {days} days"

    def temperatures(self, day: int) -> list[Word]:
        """Read the thermometer in each room."""
        if not self.home.habit.owns_thermometer:
            return []
        return [
            Word(f"{room} is {round(float(celsius))} degrees")
            for room, celsius in zip(self.home.rooms, self.home.warmth(day), strict=False)
        ]

    def found(self, seen: Seen) -> Word:
        """Tell a find."""
        name, pest = self.home.plants[seen.plant].name, self.home.pest.name
        many = PLURAL.get(pest, f"{pest}s")
        what = (
            f"{seen.count} {pest if seen.count == 1 else many}" if seen.count < WORDS_FROM else f"many {many}"
        )
        return Word(f"{name} {what}" + (" at the roots" if seen.level == "roots" else ""), is_find=True)

    def told(self, evening: Evening, asked: Asked, labels: Sequence[str]) -> list[Word]:
        """Word what became of a nudge."""
        if evening.is_away:
            return [_press("Not tonight", labels)] if evening.says_so else []
        work = self._work(evening, asked, labels)
        looks = self._looks(evening, asked, labels)
        said = [one.text for one in (*work, *looks)]
        both = said[1].replace("None seen", BOTH) if len(said) == 2 and said[0] == "All done" else ""
        if both in labels:
            words = [Word(both, is_press=True)]
        elif said == ["All done", "all clean"]:
            words = [Word("all done, all clean", again=("all done", "all clean"))]
        else:
            words = [*looks, *work] if evening.finds_first else [*work, *looks]
        return words + [Word(f"binned the {self.home.plants[one].name}") for one in evening.discarded]

    def _work(self, evening: Evening, asked: Asked, labels: Sequence[str]) -> list[Word]:
        tonight = [step for step in asked.steps if step.when == "tonight"]
        if not tonight:
            return []
        done_works: dict[int, list[str]] = {}
        for deed in evening.deeds:
            done_works.setdefault(deed.plant, []).append(deed.work)
        still_open = dict.fromkeys(step.plant for step in evening.unfinished)
        done_in_part = [
            step
            for step in (*evening.unfinished, *evening.finished)
            if step.plant in still_open and CLEAN_OUT not in step.works
        ]
        partly = [step for step in done_in_part if step.plant in done_works]
        undone = [step for step in evening.unfinished if step.plant not in done_works]
        words = self._cleaned(evening, labels)
        finished = [
            step for step in evening.finished if CLEAN_OUT not in step.works and step.plant not in still_open
        ]
        if not evening.unfinished:
            return words + ([_press("All done", labels, "done")] if finished else [])
        if finished:
            words.append(Word(f"done except {_listed(self.name(one) for one in still_open)}"))
        elif not partly and not words:
            return [_press("Not tonight", labels)]
        alike: dict[str, list[str]] = {}
        for step in partly:
            for work in done_works[step.plant]:
                if work in step.works:
                    alike.setdefault(f"{PAST[work]} |{self._with(work, step)}", []).append(
                        self.name(step.plant)
                    )
        told = [
            Word(said.replace("|", _listed(names)), again=tuple(said.replace("|", one) for one in names))
            for said, names in alike.items()
        ]
        is_of_one = len({step.plant for step in partly}) == 1 == len(told)
        if finished and is_of_one and not undone:  # "done except ivy. sprayed ivy with soap"
            return [*words[:-1], _in_one(words[-1], told[0], ". ")]
        return words + told

    def _cleaned(self, evening: Evening, labels: Sequence[str]) -> list[Word]:
        """Name a clean-out as one: by its button where all are done, else by plant."""
        cleaned = dict.fromkeys(self.name(step.plant) for step in evening.finished if CLEAN_OUT in step.works)
        if not cleaned:
            return []
        if CLEANED in labels and not any(CLEAN_OUT in step.works for step in evening.unfinished):
            return [Word(CLEANED, is_press=True)]
        return [Word(f"{_listed(cleaned)} got the full clean-out")]

    def _with(self, work: str, step: Step) -> str:
        takes = {"spray", "drench"} if {"spray", "drench"} & set(step.works) else {"swab"}
        return f" with {step.product}" if step.product and work in takes else ""

    def _looks(self, evening: Evening, asked: Asked, labels: Sequence[str]) -> list[Word]:
        words = [self.found(seen) for seen in evening.seen if seen.count]
        with_finds = {seen.plant for seen in evening.seen if seen.count}
        clean = [seen for seen in evening.seen if not seen.count and seen.plant not in with_finds]
        rooted = [seen.plant for seen in clean if seen.level == "roots"]
        looked = list(dict.fromkeys(seen.plant for seen in clean if seen.plant not in rooted))
        if rooted and set(rooted) == set(asked.lifts) and LIFTED in labels:
            words.append(Word(LIFTED, is_press=True))
        else:
            words += [Word(f"{self.name(one)} clean, roots too") for one in rooted]
        if evening.card and asked.looks:
            words.append(self.found(Seen(asked.looks[0], "card", evening.card)))
            looked = [one for one in looked if one != asked.looks[0]]
        if not looked:
            return words
        level = next(seen.level for seen in clean if seen.level != "roots")
        ways = asked.levels & {"card", "tape", "potato"} or {level} - {"plain"}
        how = HOW[next(iter(ways))] if len(ways) == 1 else ""
        by_way = next((BUTTON[way] for way in ways if BUTTON.get(way) in labels), None)
        if not words and set(looked) == set(asked.looks) and (by_way or not ways):
            return [_press(by_way or "None seen", labels, f"all clean{how}")]
        unseen = Word(f"{_listed(self.name(one) for one in looked)} clean{how}")
        if words and words[-1].is_find:  # as the message says it: "ivy 3, hoya clean"
            return [*words[:-1], _in_one(words[-1], unseen)]
        return [*words, unseen]

    def morning(self, evening: Evening, labels: Sequence[str]) -> list[Word]:
        """Tell what was done in the morning."""
        if evening.finished and not evening.unfinished and "Morning done" in labels:
            return [Word("Morning done", is_press=True)]
        return [
            Word(
                f"{PAST[deed.work]} the {self.name(deed.plant)}"
                + (f" with {deed.product}" if deed.product else "")
            )
            for deed in evening.deeds
        ]

    def is_unclear(self, text: str) -> bool:
        """Whether a text says that nothing was understood, or asks which plant it was about."""
        return bool(re.search(r"not understand|which plant is that about", text.casefold()))

    def is_spent(self, text: str) -> bool:
        """Whether a press was too late, so that it has to be said in words."""
        return bool(re.search(r"earlier message|in words|spent|no longer", text.casefold()))

    def name(self, plant: int) -> str:
        """Give a plant's name."""
        return self.home.plants[plant].name

    def meant(self, labels: Sequence[str]) -> Word | None:
        """Answer at once what is asked about the words just said: it was meant, and the warmth read is the usual one."""
        return next((Word(one, is_press=True) for one in ("Usual", "Yes") if one in labels), None)

    def which(self, text: str, evening: Evening, labels: Sequence[str]) -> Word | None:
        """Answer which of two works it was, where the plan changed meanwhile."""
        if "nothing is written yet" not in text.casefold():
            return None
        asked = [line for line in text.splitlines() if "nothing is written yet" in line.casefold()]
        named = set(self.plants(asked[0]))
        done = [deed.work for deed in evening.deeds if deed.plant in named]
        said = [CLEANED] if CLEAN_OUT in done else [ALL_OF_THAT] if len(done) > 1 else []
        said += [PAST[work].capitalize() for work in done]
        return next((Word(label, is_press=True) for label in said if label in labels), None)

    def unwashable(self, plant: int) -> Word:
        """Say that a plant bears no water."""
        return Word(f"{self.name(plant)} cannot be washed")

    def stands(self, plant: int, labels: Sequence[str]) -> Word | None:
        """Say where a plant that was put back stands, where that is asked."""
        room = self.home.rooms[self.home.plants[plant].room]
        return next(
            (
                Word(f"{one} {room}", is_press=True)
                for one in ("Stays at", "Now at")
                if f"{one} {room}" in labels
            ),
            None,
        )

    def asked_back(self, labels: Sequence[str]) -> Word | None:
        """Answer a question about the isolation of a plant just found, or a doubt, by its button."""
        for keep in KEEP_ON:
            if keep in labels:
                return Word(keep, is_press=True)
        return None


PAST = {
    "spray": "sprayed",
    "wipe": "wiped",
    "rinse": "rinsed",
    "wash": "washed",
    "swab": "swabbed",
    "scrape": "scraped",
    "drench": "drenched",
    "repot": "repotted",
    "prune": "pruned",
    "clean-out": "did a full clean-out of",
    "buds off": "cut the flowers off",
    "top mix": "took the top of the mix off",
    "dry": "let the top of the mix dry on",
}


def _works(low: str) -> tuple[str, ...]:
    hits = [(match.start(), work) for words, work in WORKS if (match := re.search(rf"\b({words})", low))]
    return tuple(dict.fromkeys(work for _, work in sorted(hits)))


def _product(low: str) -> str | None:
    return next((name for words, name in PRODUCTS if re.search(rf"\b({words})\b", low)), None)


def _levels(low: str) -> Iterable[str]:
    """Give the ways of looking a line asks for by name."""
    return (way for way, words in WAYS if re.search(rf"\b({words})", low))


def _joined(steps: Iterable[Step]) -> list[Step]:
    """Two lines about one plant on one evening are one step."""
    joined: dict[tuple[int, str, str | None], Step] = {}
    for step in steps:
        key = (step.plant, step.when, step.product)
        if (known := joined.get(key)) is None:
            joined[key] = step
        else:
            works = tuple(dict.fromkeys((*known.works, *step.works)))
            joined[key] = Step(step.plant, works, step.product, step.when)
    return list(joined.values())


def _press(label: str, labels: Sequence[str], words: str = "not tonight") -> Word:
    return Word(label, is_press=True) if label in labels else Word(words)


def _in_one(first: Word, second: Word, joint: str = ", ") -> Word:
    """Tell two things in one message, and one by one where that was not understood."""
    both = f"{first.text}{joint}{second.text}"
    return Word(both, again=(first.text, second.text), is_find=first.is_find or second.is_find)


def _listed(names: Iterable[str]) -> str:
    known = list(names)
    return known[0] if len(known) == 1 else f"{', '.join(known[:-1])} and {known[-1]}"
