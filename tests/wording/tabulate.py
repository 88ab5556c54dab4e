"""
The table of what the bot says: every outcome with the exact texts it comes to, for whoever edits the wording.

`python -m tests.wording.tabulate` writes `outcomes.txt` anew by playing `prompts.txt` to the bot; read the
difference before it is kept. In `prompts.txt`, `=== name` begins with a home that is set up (`(new)`: without),
`> text` is said, `Bo> text` by somebody else, `[button]` pressed; `@evening`, `@evenings` (all that come), `@9d`, `@photo caption`, `@photos`
(more than are kept), `@many` (plants), `@founds` (a home of Bo's, who then sends a photo), `@correct` and `@delete` (what was told of a plant), `@forwarded`, `@edited text => text` and `@data` (of a button) do what their names say.
"""

import re
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager, nullcontext, suppress
from pathlib import Path
from unittest.mock import patch

from bot.actions.action import ButtonText, Choice, Outcome
from bot.actions.correct_entry import CorrectEntry, DeleteEntry, Entered, Kind
from bot.actions.incoming import Photo, Text
from bot.actions.incomplete import Asks, Missing
from bot.actions.mix_batch import CannotMix, MixTrouble
from bot.actions.not_understood import Unclear
from bot.domain.identity import PlantId
from bot.storage.database import Database
from bot.wording.button_texts import button_text
from bot.wording.lines import fitted
from bot.wording.manner import most_lines
from bot.wording.sentences import say
from bot.wording.voice import Voice
from tests.actions.declared import outcomes
from tests.journeys.talking import HOME, OWNER, PARTNER, STRANGER, Talk

HERE = Path(__file__).parent
TABLE = HERE / "outcomes.txt"
MOST_EVENINGS = 7
"""So many messages of the bot's own pass five evenings without a word, and the line after them. [1]"""
MOST_EXAMPLES = 6
MOST_LINES = 14
WAITS = "[More]"
"""What stands below it is shown on asking."""
PEOPLE = {"": OWNER, "Bo": PARTNER, "Cleo": STRANGER}
_SAID = re.compile(r"(|Bo|Cleo)> (.*)")
_PRESSED = re.compile(r"(|Bo|Cleo)\[(.*)\]")
_CODE = re.compile(r"/start (\S{12})")


def kind_of(outcome: Outcome) -> str:
    """Name an outcome; those that say one of several things by what they say."""
    match outcome:
        case Asks():
            return f"Asks, {outcome.missing.value}"
        case Unclear():
            return f"Unclear, {outcome.reason or 'any other'}"
        case CannotMix():
            return f"CannotMix, {outcome.trouble.value}"
        case _:
            return type(outcome).__name__


def kinds() -> list[str]:
    """Name all outcomes there are, as the action files declare them."""
    names = [cls.__name__ for cls in outcomes()]
    told = {
        "Asks": [f"Asks, {one.value}" for one in Missing],
        "CannotMix": [f"CannotMix, {one.value}" for one in MixTrouble],
        "Unclear": [],
    }
    return [kind for name in names for kind in told.get(name, [name])]


@contextmanager
def overheard(say_instead: Callable[[Outcome, Voice], str]) -> Iterator[None]:
    """Let another function word all outcomes, wherever the bot does so."""
    with patch("bot.arriving.say", say_instead), patch("bot.messages.say", say_instead):
        yield


def collected() -> dict[str, list[str]]:
    """Play the prompts and give what was said, by outcome; texts alike but for names and numbers only once."""
    found: dict[str, dict[str, str]] = {}

    def noted(outcome: Outcome, voice: Voice) -> None:
        shown, waits = fitted(say(outcome, voice), most_lines(outcome))
        text = _CODE.sub("/start CODE", f"{shown}\n{WAITS}\n{waits}" if waits else shown)
        examples = found.setdefault(kind_of(outcome), {})
        if len(examples) < MOST_EXAMPLES:
            examples.setdefault(_shape(text), text)

    play(noted)
    return {kind: list(examples.values()) for kind, examples in found.items()}


def play(noted: Callable[[Outcome, Voice], object], renamed: Callable[[str], str] = str) -> None:
    """Play the prompts, with plants renamed, and show each outcome and the voice it is said with as it comes."""

    def shown(outcome: Outcome, voice: Voice) -> str:
        noted(outcome, voice)
        return say(outcome, voice)

    with overheard(shown), tempfile.TemporaryDirectory() as folder:
        for number, (heading, prompts) in enumerate(sections()):
            talk = Talk(Database("", Path(folder) / str(number)))
            if not heading.endswith("(new)"):
                talk.set_up([renamed(text) for text in HOME])
            for prompt in prompts:
                with (
                    nullcontext() if renamed is str else suppress(StopIteration)
                ):  # a button other homes lack
                    doing(renamed(prompt), talk)
            talk.database.close()


def sections() -> Iterator[tuple[str, list[str]]]:
    for section in (HERE / "prompts.txt").read_text("utf-8").split("=== ")[1:]:
        heading, *prompts = section.strip().split("\n")
        yield heading, prompts


def _shape(text: str) -> str:
    """Give a text without what is other in every home: the beginning of each line, digits alike."""
    return "\n".join(re.sub(r"\d+", "0", line)[:24] for line in text.split("\n")[:6])


def doing(prompt: str, talk: Talk) -> None:
    said, pressed = _SAID.fullmatch(prompt), _PRESSED.fullmatch(prompt)
    word, _, rest = prompt.partition(" ")
    if said is not None:
        talk.say(said[2].replace("\\n", "\n").replace("CODE", _code(talk)), person=PEOPLE[said[1]])
    elif pressed is not None:
        person = PEOPLE[pressed[1]]
        talk.press(pressed[2], person=person)
    elif word in HAPPENINGS:
        HAPPENINGS[word](talk, rest)
    else:
        talk.passes(days=int(word[1:-1]))


def _evenings(talk: Talk, _rest: str) -> None:
    for _ in range(MOST_EVENINGS):
        talk.evening()


def _photos(talk: Talk, plant: str) -> None:
    with patch("bot.actions.keep_photo.MOST_PHOTOS", 2):
        for number in range(3):
            talk.send(Photo(f"one-of-many-{number}", plant))


def _many(talk: Talk, _: str) -> None:
    for letter in "abcd":
        names = [f"{letter}{other}x" for other in "abcdefghijklmno"]
        talk.say("\n".join(f"cactus {name} of the long windowsill, shelf {name}, 12 cm" for name in names))


def _correct(talk: Talk, plant: str) -> None:
    found = Entered(kind=Kind.FOUND, plant=_plant(talk, plant))
    talk.tell(CorrectEntry(of=found, to=Entered(count=2)))


def _delete(talk: Talk, plant: str) -> None:
    talk.tell(DeleteEntry(of=Entered(plant=_plant(talk, plant))))


def _plant(talk: Talk, name: str) -> PlantId:
    return next(one.id for one in talk.home.living if one.name == name)


def _edited(talk: Talk, texts: str) -> None:
    first, _, then = texts.partition(" => ")
    number = len(talk.heard)
    talk.send(Text(first), message_id=number)
    talk.edits(number, then)


def _founds(talk: Talk, _: str) -> None:
    with talk.database.unit() as store:
        store.found_household(PARTNER, PARTNER, "Bo", talk.now)
    talk.passes(hours=2)
    talk.send(Photo("file-of-bo", ""), person=PARTNER)


HAPPENINGS: dict[str, Callable[[Talk, str], object]] = {
    "@evening": lambda talk, _: talk.evening(),
    "@evenings": _evenings,
    "@photo": lambda talk, caption: talk.send(Photo(f"file-{len(talk.heard)}", caption)),
    "@photos": _photos,
    "@correct": _correct,
    "@forwarded": lambda talk, text: talk.passes_on(text),
    "@edited": _edited,
    "@delete": _delete,
    "@many": _many,
    "@founds": _founds,
    "@data": lambda talk, data: talk.press_data(data),
}


def _code(talk: Talk) -> str:
    codes = [found[1] for one in talk.shown.get(OWNER, []) if (found := _CODE.search(one.text))]
    return codes[-1] if codes else ""


def table() -> str:
    """Give the whole table as text."""
    found = collected()
    lines = ["What the bot says, by outcome. Written by `python -m tests.wording.tabulate`, not by hand."]
    order = kinds()
    for kind in sorted(found, key=lambda kind: (order.index(kind) if kind in order else len(order), kind)):
        lines += ["", f"## {kind}"]
        for text in found[kind]:
            told = text.split("\n")
            shown = told if len(told) <= MOST_LINES else [*told[:MOST_LINES], "(and so on)"]
            lines += ["", *(f"    {line}".rstrip() for line in shown)]
    lines += ["", "## Buttons", ""]
    lines += [
        f"    {one.name.lower().replace('_', '-')}: {button_text(Choice(one, (), '...'))}"
        for one in ButtonText
    ]
    return "\n".join(lines) + "\n"


def main() -> int:
    """Write the table anew, and name what no prompt brings about."""
    TABLE.write_text(table(), "utf-8")
    missing = set(kinds()) - {
        line[3:] for line in TABLE.read_text("utf-8").split("\n") if line.startswith("## ")
    }
    print("\n".join(sorted(missing)))  # noqa: T201 - a program's output
    return len(missing)


if __name__ == "__main__":
    sys.exit(main())
