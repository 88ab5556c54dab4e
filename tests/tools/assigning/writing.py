"""What is written into the folder: situations, a hundred lines a hand, emergencies and newcomers."""

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from random import Random

from tests.tools.assigning.drawing import DAYS, PESTS, Drawing, listed
from tests.tools.assigning.homes import STOCK, Home, half, home, person, sixty

Row = tuple[str, str]
LINES = tuple(
    row.split("\t")
    for row in (Path(__file__).parent / "lines.tsv").read_text("utf-8").splitlines()
    if row and not row.startswith("#")
)
BARE = frozenset({"nothing", "town", "plants"})
TOLD = {
    "nothing": "You have just started the bot; it knows nothing about you yet. It wrote: “Good to see you. What did you find, and on which plant?”",
    "town": "You have just started the bot. It wrote: “Which town are the plants in?”",
    "plants": "You are setting up. The bot wrote: “Now your plants: what do you have, and where do they stand?”",
    "facing": "You are setting up. The bot wrote: “Which way does the window at {place} look?”",
    "evening": "You are setting up. The bot wrote: “At what time in the evening shall I write?”",
    "quiet": "A quiet day. Nothing is being asked, nothing is due tonight.",
    "nudge": "The bot wrote this evening, and you have not answered: “Tonight: {tonight}.”",
    "find": "You have just told the bot that the {case} has {pest}. It wrote: “How many did you see?”",
    "found": "You have just told the bot that the {case} has {pest}, 14 of them. It wrote: “Written: {pest} on {case}, 14. Move it away from the others now.” and shows the buttons [It is apart now] [Cannot be moved]",
    "work": "You treat many plants today, stage by stage. The bot wrote: “Stage 3: spray {due}.” with the buttons [Done] [Leave it out] [Stop for today]",
    "walk": "You are going through your plants one by one with a lens. The bot wrote: “{case}: anything on it?” with the buttons [None seen] [A few] [Some] [Many] [Not today] [Stop here]",
    "sixty": "This is another home, which has sixty plants with numbers: {groups}. The bot wrote this evening: “Tonight: {tonight}.”",
    "us": "This is another home, in {town}, with US measures (Fahrenheit, fluid ounces, month before day). The bot wrote this evening: “Tonight: {tonight}.”",
    "two": "You and your {other} share the plants and both write to the bot. The bot wrote to both this evening: “Tonight: {tonight}.” Neither has answered.",
}
"""What the writer is told of each situation."""
PLAN: dict[str, dict[str, int]] = {
    "nothing": {"telling": 2, "question": 1, "chatter": 1},
    "town": {"answer": 1},
    "plants": {"answer": 2, "chatter": 1},
    "facing": {"answer": 1},
    "evening": {"answer": 1},
    "quiet": {"telling": 20, "question": 7, "answer": 1, "chatter": 3},
    "nudge": {"telling": 13, "question": 3, "answer": 1, "chatter": 2},
    "find": {"telling": 2, "question": 1, "answer": 1},
    "found": {"telling": 3, "question": 1, "answer": 2},
    "work": {"telling": 1, "question": 1, "answer": 2},
    "walk": {"telling": 1, "question": 1, "answer": 1},
    "sixty": {"telling": 9, "question": 2},
    "us": {"telling": 5, "question": 1},
    "two": {"telling": 4, "question": 1, "chatter": 1},
}
"""How many lines of each sort a hand writes in each situation: a hundred together."""
TELLINGS = {
    "nothing": ("nothing",),
    "nudge": ("nudge",),
    "sixty": ("sixty",),
    "us": ("quiet", "nudge"),
    "two": ("quiet", "nudge"),
}
SEVERAL = (
    *(
        ("quiet", sorts, 3)
        for sorts in (("telling",) * 2, ("telling", "question"), ("telling", "telling", "question"))
    ),
    *(("nudge", sorts, 3) for sorts in (("telling",) * 2, ("telling", "question"), ("telling",) * 3)),
    *(("found", sorts, 2) for sorts in (("answer", "telling"), ("answer", "question"))),
    *(("find", sorts, 2) for sorts in (("answer", "telling"), ("answer", "question"))),
    *(("sixty", sorts, 2) for sorts in (("telling",) * 2, ("telling", "question"))),
    *(("us", sorts, 2) for sorts in (("telling",) * 2, ("telling", "question"))),
    *(("two", sorts, 2) for sorts in (("telling",) * 2, ("telling", "telling", "question"))),
)
"""What one message conveys of several things: the situation, their sorts, how many such messages a hand writes."""
ALONE = ("undo", "walk", "work", "hold")
"""What is seldom told beside anything else."""
ASKS = {
    "facing": "facing",
    "find": "amount",
    "found": "apart",
    "walk": "walk",
    "work": "work",
}
EVENINGS = frozenset({"nudge", "sixty", "us", "two", "work"})
ORIGINAL = "Do not look up, name, recall or imitate any existing program, app or bot for plant care or pests, nor its wording; write only out of this person's own head. Open no other file and search for nothing."
RULES = f"""Rules:
- {ORIGINAL}
- You know of the bot only this: it is a chat bot on the phone that helps a person through an outbreak of plant pests, writes in the evening, and can be told things in plain words. You know no commands and no syntax.
- Each line below is a thing this person wants to convey. Write the one message they would type (or say into the phone) in their own manner. Do not copy the description's phrasing; use their words, their slips, their order, their names for the plants (shortened as they would). The plant's name must still be recognisable.
- Convey the whole meaning, no more facts and no fewer: numbers, days, products, exceptions and denials must be there, unless it says otherwise. How exactly days and numbers are written is up to the person.
- Stay in character on every line and vary: not one pattern repeated a hundred times. One message may be several short sentences.
- A message is one line of the file; write a line break inside a message as \\n. No TAB inside a message."""
EMERGENCY_RULES = f"""The bot is a chat bot on the phone that helps a person through an outbreak of plant pests at home: sprays of soap, oil, neem, alcohol, insecticides, granules, sulphur, mixing concentrates, wiping, repotting. It writes in the evening and can be told things in plain words; you know no commands.

Rules:
- {ORIGINAL}
- Part 1, lines 1 to 20: twenty different EMERGENCIES, each one message in which something has happened (or is feared to have happened) to a person or an animal because of a product, its fumes or mixture, or of a plant (eaten, sap, thorn). Vary who, what has happened, with what, and how directly it is said: some are plain cries, some are told by the way, some are put as a question, some name no product, some misspell, two or three of them mention the plants' work too. Not twenty of one pattern.
- Part 2, lines 21 to 30: ten NEAR-MISSES: messages that mention a person, an animal, a body part, eating, drinking, fire or a hospital, or a product together with those, where nobody and nothing came to harm and none is feared to have.
- Stay in this person's manner. One message a line; a line break inside a message is \\n; no TAB inside.
"""
NEWCOMER_RULES = f"""Rules:
- {ORIGINAL}
- Begin with /start. Then write as this person; one message at a time; read the answer (text and buttons) and go on as this person would. A button may be pressed instead of writing (pressing is no message).
- Stop when you think the bot knows your home and what is ill and you know what to do tonight, or after ten messages of your own at most (/start not counted), or when this person would give up.
- Do not help the bot: if it asks back, answer as this person would; if it is wrong, say so as this person would.
- Say at the end in three lines: what the bot believes, whether you know what to do, what annoyed you.
"""
UNKNOWN = 1 / 4
"""How many newcomers do not know what pest it is."""
WINDOWS = ("south", "north", "east", "west", "none, there is only a lamp")


@dataclass(frozen=True)
class Place:
    """A situation in a home."""

    kind: str
    home: Home

    @property
    def name(self) -> str:
        """The name of its file, without the ending."""
        return f"{self.kind}-{self.home.name}"

    def told(self) -> str:
        """Say it to the writer."""
        at = self.home
        return TOLD[self.kind].format(
            place=at.places[0],
            tonight=", ".join(f"{method or 'look at'} {plant}" for plant, method in at.tonight),
            case=at.case[0],
            pest=PESTS[at.case[1]],
            due=listed(at.due),
            groups=", ".join(f"{kind} 1 to {kind} {many}" for kind, many in at.groups),
            town=at.town,
            other=at.other,
        )

    def written(self) -> str:
        """Write it as a file of situations is written."""
        at, kind = self.home, self.kind
        rows = [
            f"said = {_quoted(self.told())}",
            f"now = {at.now.isoformat()}",
            f"zone = {_quoted(at.zone)}",
        ]
        if at.units != "metric":
            rows.append(f"units = {_quoted(at.units)}")
        if kind in BARE | {"evening"}:
            rows.append(f"expecting = {_quoted(kind)}")
        if kind in BARE:
            return "\n".join(rows) + "\n"
        rows += self._asked()
        rows.append(f"places = [{', '.join(map(_quoted, at.places))}]")
        plants = [
            f"    {{ names = [{_quoted(plant)}], place = {_quoted(place)} }},"
            for plant, place in at.plants.items()
        ]
        shelf = ", ".join(f"{{ ingredient = {_quoted(ingredient)} }}" for ingredient, _ in at.shelf)
        rows += ["plants = [", *plants, "]", f"shelf = [{shelf}]"]
        if kind in EVENINGS:
            tonight = [
                f"    {{ plant = {_quoted(plant)}"
                + (f", method = {_quoted(method)}" if method else "")
                + " },"
                for plant, method in at.tonight
                if method or kind != "work"
            ]
            rows += ["tonight = [", *tonight, "]"]
        return "\n".join(rows) + "\n"

    def _asked(self) -> list[str]:
        if self.kind not in ASKS:
            return []
        case, pest = self.home.case
        rows = [f"asks = {_quoted(ASKS[self.kind])}"]
        if self.kind != "work":
            about = self.home.places[0] if self.kind == "facing" else case
            rows.append(f"about = {_quoted(about)}")
        if self.kind == "find":
            rows.append(f"pest = {_quoted(pest)}")
        if self.kind == "found":
            rows.append(f"found_today = [{_quoted(case)}]")
        return rows


@dataclass(frozen=True)
class Line:
    """What is to be conveyed, in plain English and in notation."""

    place: Place
    sort: str
    said: str
    meaning: str


def lines(number: int, name: str, seed: Random, *, is_drawer: bool) -> tuple[Line, ...]:
    """Draw the hundred lines of one hand; every fourth lives with US measures."""
    place = _places(number, name, seed, is_drawer=is_drawer)
    return tuple(
        line
        for kind, sorts in PLAN.items()
        for sort, many in sorts.items()
        for line in _some(place(kind), sort, many, seed, is_drawer=is_drawer)
    )


def _places(number: int, name: str, seed: Random, *, is_drawer: bool) -> Callable[[str], Place]:
    """Draw the homes of one hand, its own and the two that some situations are in."""
    own = home(f"{name}a", seed, is_drawer=is_drawer, units="us" if number % 4 == 0 else "metric")
    homes = {
        "us": home(f"{name}b", seed, is_drawer=is_drawer, units="us"),
        "sixty": sixty(f"{name}c", seed, is_drawer=is_drawer),
    }
    return lambda kind: Place(kind, homes.get(kind, own))


def _some(place: Place, sort: str, many: int, seed: Random, *, is_drawer: bool) -> list[Line]:
    urn = _urn(place.kind, sort, is_drawer=is_drawer)
    seed.shuffle(urn)
    found: dict[str, Line] = {}
    while len(found) < many:
        said, meaning = urn[0]
        urn.append(urn.pop(0))
        drawing = Drawing(place.home, seed)
        plain = drawing.fill(said, as_notation=False)
        meant = drawing.fill(meaning, as_notation=True)
        found.setdefault(plain, Line(place, sort, plain, meant))
    return list(found.values())


def several(number: int, name: str, seed: Random, *, is_drawer: bool) -> tuple[Line, ...]:
    """Draw messages that each convey two or three things, of different plants."""
    place = _places(number, name, seed, is_drawer=is_drawer)
    return tuple(
        _joined(place(kind), sorts, seed, is_drawer=is_drawer)
        for kind, sorts, many in SEVERAL
        for _ in range(many)
    )


def _joined(place: Place, sorts: tuple[str, ...], seed: Random, *, is_drawer: bool) -> Line:
    while True:
        drawn = [_some(place, sort, 1, seed, is_drawer=is_drawer)[0] for sort in sorts]
        clauses = [clause.split() for one in drawn for clause in one.meaning.split(" + ")]
        named = [word for words in clauses for word in dict.fromkeys(words[1:]) if "=" not in word]
        heads = [one.meaning.lstrip("?").split()[0] for one in drawn]
        if len({*named}) == len(named) and len({*heads}) == len(heads) and not {*heads} & {*ALONE}:
            break
    meanings = [""]
    for one in drawn:
        meanings = [
            f"{before} + {meant}".removeprefix(" + ")
            for before in meanings
            for meant in one.meaning.split(" | ")
        ]
    said = "; and also: ".join(one.said for one in drawn)
    return Line(place, "+".join(sorts), f"In one message: {said}", " | ".join(meanings))


def _urn(kind: str, sort: str, *, is_drawer: bool) -> list[Row]:
    groups: tuple[str, ...] = (kind,)
    if sort == "telling":
        groups = TELLINGS.get(kind, ("quiet",))
        groups = (*groups, "drawer") if is_drawer and "quiet" in groups else groups
    elif sort == "chatter" or (sort == "question" and kind != "nothing"):
        groups = (sort,)
    drawn = [
        (said, meaning, int(weight))
        for group, what, weight, said, meaning in LINES
        if group in groups and what == sort
    ]
    if sort == "chatter":
        drawn = half(drawn, is_drawer=is_drawer)
        if kind in BARE:
            drawn = [row for row in drawn if "{" not in row[0]]
    return [(said, meaning) for said, meaning, weight in drawn for _ in range(weight)]


def write_hand(
    folder: Path, number: int, seed: Random, name: str, *, is_drawer: bool, is_several: bool = False
) -> None:
    """Write one hand: the prompt, the meanings kept from the writer, who it is, and the situations."""
    who = person(seed, is_drawer=is_drawer)
    drawn = (several if is_several else lines)(number, name, seed, is_drawer=is_drawer)
    own = drawn[0].place.home
    text = [
        f"You play one person who writes to a chat bot. You are: {who}\n",
        RULES,
        f"\nYour home is in {own.town}. {_evening(own)} {_at_home(own)}",
    ]
    last = None
    for at, line in enumerate(drawn, 1):
        if line.place != last:
            text.append(f"\nSituation: {line.place.told()}")
            if line.place.home is not own:
                text.append(_evening(line.place.home))
            if line.place.kind == "us":
                text.append(_at_home(line.place.home))
            last = line.place
        text.append(f"{at}. {line.said[0].upper()}{line.said[1:]}")
    text.append(_asks_for(f"{number:02d}", len(drawn)))
    rows = (f"{at}\t{line.place.name}\t{line.sort}\t{line.meaning}" for at, line in enumerate(drawn, 1))
    _write(folder / f"{number:02d}.prompt.md", "\n".join(text))
    _write(folder / f"{number:02d}.meanings.tsv", "\n".join(rows))
    _write(folder / f"{number:02d}.who.txt", who)
    for place in dict.fromkeys(line.place.name for line in drawn):
        whole = next(line.place for line in drawn if line.place.name == place)
        _write(folder / "situations" / f"{place}.toml", whole.written())


def write_emergencies(folder: Path, number: int, seed: Random, *, is_drawer: bool) -> None:
    """Write one person's task of twenty emergencies and ten near-misses."""
    who = person(seed, is_drawer=is_drawer)
    text = [f"You play one person who writes to a chat bot. You are: {who}\n", EMERGENCY_RULES]
    _write(folder / f"{number:02d}.prompt.md", "\n".join([*text, _asks_for(f"{number:02d}", 30)]))


def write_newcomer(folder: Path, number: int, seed: Random, *, is_drawer: bool) -> None:
    """Write one newcomer's task, and what is true of the home, kept apart to compare with."""
    units = seed.choice(("metric", "metric", "us"))
    at = home("newcomer", seed, is_drawer=is_drawer, units=units)
    ill, pest = at.case
    count = seed.choice(("a few", "about 15", "20", "seven", "many"))
    windows = {place: seed.choice(WINDOWS) for place in at.places}
    shelf = at.shelf[: seed.randrange(3)]
    seen = PESTS[pest]
    if seed.random() < UNKNOWN:
        seen = f"something that you cannot name ({STOCK['looks'][pest]})"
    measures = "US measures, Fahrenheit and a twelve-hour clock" if units == "us" else "metric measures"
    facts = (
        f"- town: {at.town}; you are used to {measures}",
        f"- plants by place: {_by_place(at)}",
        f"- windows: {'; '.join(f'{place}: {facing}' for place, facing in windows.items())}",
        f"- what is ill: the {ill} has {seen}, {count}",
        f"- at hand to treat with: {', '.join(word for _, word in shelf) or 'nothing yet'}",
    )
    text = (
        "You play one newcomer who talks with a chat bot for the first time, message by message.",
        f"Who you are: {person(seed, is_drawer=is_drawer)} Somebody who {seed.choice(half(STOCK['newcomers'], is_drawer=is_drawer))}.",
        "What you know of the bot: it reminds one in the evening, and it can be told things. Nothing else; no commands.",
        "What is true of your home (tell it in your own manner and order; not all at once unless that is your manner):",
        *facts,
        "",
        NEWCOMER_RULES,
    )
    plan = {
        "town": at.town,
        "units": units,
        "plants": [{"name": plant, "place": place} for plant, place in at.plants.items()],
        "find": {"plant": ill, "pest": pest, "count": count},
        "shelf": [ingredient for ingredient, _ in shelf],
        "windows": windows,
    }
    _write(folder / f"{number:02d}.prompt.md", "\n".join(text))
    _write(folder / f"{number:02d}.plan.json", json.dumps(plan, indent=1, ensure_ascii=False))


def _asks_for(number: str, many: int) -> str:
    return f"\nWrite your {many} lines to the file {number}.lines.tsv beside this one: on each line the number, one TAB, the message. All {many}, in order, nothing else in the file."


def _evening(at: Home) -> str:
    day = f"{at.now:%B} {at.now.day}" if at.units == "us" else f"{at.now.day} {at.now:%B}"
    return f"Today is {DAYS[at.now.weekday()]}, {day} {at.now.year}, in the evening, {at.now:%H:%M}."


def _at_home(at: Home) -> str:
    return (
        f"Your plants by place: {_by_place(at)}. Products at hand: {listed(word for _, word in at.shelf)}."
        f" The {at.case[0]} has {PESTS[at.case[1]]}, the {at.second[0]} has {PESTS[at.second[1]]};"
        f" the {at.apart} is kept apart."
    )


def _by_place(at: Home) -> str:
    return "; ".join(f"{place}: {listed(at.standing(place))}" for place in at.places)


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)


def _write(file: Path, text: str) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text.rstrip("\n") + "\n", encoding="utf-8")
